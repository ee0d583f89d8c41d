"""Reads the evidence files and sorts every row into the part of the model it speaks to, or into the list of rows left out.

No row is dropped silently: `Evidence.left_out` holds each with its reason, and the page of scores prints the counts.
"""

import csv
import math
import tomllib
from dataclasses import dataclass, field
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[2]
EVIDENCE = ROOT / "core/src/material/evidence"
CARDS = HERE / "recalled"  # the cards before any row: never those that this posterior writes
SEED = 20261128
FILES = ["static", "fatigue", "holes_notches", "creep_rupture", "temperature_moisture", "weld", "thermal", "sliding",
         "data_sheets", "engine_spread"]

# Properties of one print, as natural logarithms, in the order of the triangle they are drawn by (model.py).
STATIC = ["bead", "across", "layer", "layer_shear", "compression", "bead_modulus", "across_modulus", "layer_modulus"]
# Share of the way from "along the beads" to "square to the beads" that a raster stands for: prior mean, learned from the rows.
RASTERS = {"lines": 0.25, "lines30": 0.3, "lines45": 0.5, "lines60": 0.7, "lines0-90": 0.45, "off-axis45": 0.6, "edge": 0.15,
           "quasi-isotropic": 0.5}
GROUPS = {"bead": "in the layer", "across": "in the layer", "layer": "across layers", "layer_shear": "shear",
          "compression": "compression", "bead_modulus": "stiffness", "across_modulus": "stiffness", "layer_modulus": "stiffness"}


@dataclass
class Static:
    """One strength or stiffness: ln y, and the property and direction it speaks of."""

    id: str
    doi: str
    polymer: str
    fibre: str
    share: float
    dim: int
    toward: int
    raster: int
    y: float
    error: float
    series: str
    flags: dict
    sheet: bool
    group: str
    minus: int = -1


@dataclass
class Kept:
    """ln of a value over the same one dry, or at 23 degrees."""

    id: str
    doi: str
    polymer: str
    fibre: str
    y: float
    base: float
    stiffness: bool
    sheet: bool


@dataclass
class Cycles:
    """A stress that some number of cycles break, or a slope, or a ratio of stresses at two load ratios."""

    id: str
    doi: str
    polymer: str
    fibre: str
    kind: str
    y: float
    cycles: float
    ratio: float
    strength: float
    layer: bool
    sintered: bool
    series: str


@dataclass
class Held:
    """A stress held until it broke something, or did not."""

    id: str
    doi: str
    polymer: str
    fibre: str
    stress: float
    temperature_c: float
    hours: float
    kept: float
    kind: str


@dataclass
class Evidence:
    static: list = field(default_factory=list)
    wet: list = field(default_factory=list)
    warm: list = field(default_factory=list)
    cycles: list = field(default_factory=list)
    held: list = field(default_factory=list)
    rates: list = field(default_factory=list)
    crept: list = field(default_factory=list)
    weld: list = field(default_factory=list)
    left_out: list = field(default_factory=list)
    all: list = field(default_factory=list)


def read_rows():
    for file in FILES:
        with open(EVIDENCE / f"{file}.csv", newline="") as handle:
            for row in csv.DictReader(handle):
                yield file, row


def resins():
    with open(HERE / "resins.csv", newline="") as handle:
        return {row["polymer"]: row for row in csv.DictReader(handle)}


def cards():
    """Name of a card -> its text, polymer, fibre and share of fibre."""
    kinds = {"PA12-CF15": ("PA12", "carbon", 15.0), "PA6-CF20": ("PA6", "carbon", 20.0), "PA6-GF": ("PA6", "glass", 25.0),
             "PPS-CF": ("PPS", "carbon", 15.0)}
    found = {}
    for path in sorted(CARDS.glob("*.toml")):
        card = tomllib.loads(path.read_text())
        polymer, fibre, share = kinds.get(card["name"], (card["name"], "none", 0.0))
        found[card["name"]] = (card, polymer, fibre, share)
    return found


def number(row, column):
    return float(row[column]) if row[column] else None


def retention(card, temperature_c, what):
    """The card's share of strength or stiffness kept at a temperature, straight between its points."""
    points = [(p["temperature_c"], p[what]) for p in card["temperature"]["retention"]["points"]]
    if temperature_c <= points[0][0]:
        return points[0][1]
    for (cold, high), (hot, low) in zip(points, points[1:]):
        if temperature_c <= hot:
            return high + (low - high) * (temperature_c - cold) / (hot - cold)
    return points[-1][1]


def card_of(polymer, fibre, known):
    """The card nearest to a family: same polymer and fibre, else same polymer."""
    same = [card for card, p, f, _ in known.values() if p == polymer and f == fibre]
    near = [card for card, p, _, _ in known.values() if p == polymer]
    alike = {"PA": "PA12", "PAHT": "PA12-CF15", "PC-ABS": "PC", "PET": "PETG"}
    return (same or near or [known[alike[polymer]][0] if polymer in alike else None])[0]


def series_of(row):
    """Bars of one spool and setting: a spool of the bench log, else the source, family and remark-free settings."""
    remark = row["remark"]
    if "spool " in remark:
        start = remark.index("spool ")
        return f"{row['doi']}|{remark[start:start + 8]}"
    return f"{row['doi']}|{row['polymer']}|{row['fibre']}|{row['fibre_share_pct']}|{row['process']}"


def error_of(row):
    """Relative standard error of a mean of n bars, 0.02 where the source does not say."""
    sd, n, value = number(row, "sd"), number(row, "n"), float(row["value"])
    if sd is None:
        return 0.02
    return max(sd / value / math.sqrt(n or 3.0), 0.005)


def static_row(file, row):
    """The static observation a row is, or the reason why it is none."""
    prop, test, direction, process = row["property"], row["test"], row["direction"], row["process"]
    temperature = number(row, "temp_c")
    if row["moisture"] and row["moisture"] not in ("dry", "39 % rh", "filament damp"):
        return None
    if temperature is None or not 18.0 <= temperature <= 26.0:
        return None
    if process == "pellet" or process == "engine" or row["polymer"] == "unknown":
        return None
    if process == "moulded" and (file == "temperature_moisture"):
        return None
    if test in ("open-hole", "notched", "fatigue-notched"):
        return "a hole or notch is no plain bar"
    if test == "flexure":
        return "bending shows another strength than tension"
    if "crosshead" in row["remark"]:
        return "strain from the crosshead measures the machine too"
    if row["id"] in ("we018", "we048"):
        return None
    polymer, fibre = row["polymer"], row["fibre"]
    share = number(row, "fibre_share_pct") or (0.0 if fibre == "none" else 15.0)
    flags = {"sheet": file == "data_sheets", "filament": process == "filament", "moulded": process == "moulded",
             "sintered": process == "laser-sintered", "best": row["kind"] == "bound" and file == "static",
             "in_plane_shear": False}
    toward, raster = -1, -1
    if prop in ("strength", "yield"):
        if test == "compression":
            dim = STATIC.index("compression")
        elif direction == "layer":
            dim = STATIC.index("layer")
        elif direction == "across":
            dim = STATIC.index("across")
        else:
            dim, toward = STATIC.index("bead"), STATIC.index("across")
    elif prop == "shear_strength":
        dim = STATIC.index("layer_shear")
        flags["in_plane_shear"] = direction != "layer"
    elif prop == "modulus":
        if direction == "layer":
            dim = STATIC.index("layer_modulus")
        elif direction == "across":
            dim = STATIC.index("across_modulus")
        else:
            dim, toward = STATIC.index("bead_modulus"), STATIC.index("across_modulus")
    else:
        return None
    if toward >= 0 and direction in RASTERS:
        raster = list(RASTERS).index(direction)
    elif toward >= 0:
        toward = -1
    y, error = math.log(float(row["value"])), error_of(row)
    return Static(row["id"], row["doi"], polymer, fibre, share, dim, toward, raster, y, error, series_of(row), flags,
                  file == "data_sheets" or process in ("moulded", "filament"), GROUPS[STATIC[dim]])


# Upright over flat in the layer, of one print: the difference of two properties.
UPRIGHT_OVER_FLAT = {"st034", "st035", "ds116", "ds117"}
# Along the beads over square to them.
ALONG_OVER_ACROSS = {"st045", "st046"}


def ratio_row(file, row):
    fibre = row["fibre"]
    share = 0.0 if fibre == "none" else 15.0
    flags = dict.fromkeys(("sheet", "filament", "moulded", "sintered", "best", "in_plane_shear"), False)
    dims = (STATIC.index("layer"), STATIC.index("bead"))
    group = "across layers"
    if row["id"] in ALONG_OVER_ACROSS:
        dims, group = (STATIC.index("bead"), STATIC.index("across")), "in the layer"
        flags["best"] = True
    return Static(row["id"], row["doi"], row["polymer"], fibre, share, dims[0], -1, -1, math.log(float(row["value"])), 0.05,
                  series_of(row), flags, file == "data_sheets", group, minus=dims[1])


def wet_level(moisture):
    """How far on the way from dry to soaked: 1 soaked, a half in a humid room."""
    half = ("conditioned", "about 3 % water", "about 0.7 % water")
    return 0.5 if moisture in half else 1.0


WET_PAIRS = [("ds051", "ds048"), ("ds052", "ds049"), ("ds053", "ds050"), ("ds058", "ds054"), ("ds059", "ds055"),
             ("ds060", "ds056"), ("ds065", "ds061"), ("ds066", "ds062"), ("ds067", "ds063"), ("ds068", "ds064")]


def wet_rows(by_id, evidence):
    def add(row, y, stiffness, sheet):
        evidence.wet.append(Kept(row["id"], row["doi"], row["polymer"], row["fibre"], y, wet_level(row["moisture"]), stiffness,
                                 sheet))
    for file, row in by_id.values():
        if row["property"] == "kept_share" and not row["remark"].startswith(("shear", "shear_")):
            add(row, math.log(float(row["value"])), "modulus" in row["remark"] or "stiffness" in row["remark"], False)
    for wet, dry in WET_PAIRS:
        row = by_id[wet][1]
        add(row, math.log(float(row["value"]) / float(by_id[dry][1]["value"])), row["property"] == "modulus", True)


def warm_rows(by_id, evidence, known):
    """Shares kept warm, over the same bar's value at 23 to 25 degrees."""
    cold = {}
    for file, row in by_id.values():
        t = number(row, "temp_c")
        if file == "temperature_moisture" and row["property"] in ("strength", "modulus") and t is not None and t <= 26.0:
            cold[(row["doi"], row["property"])] = (float(row["value"]), t)
    for file, row in by_id.values():
        key = (row["doi"], row["property"])
        t = number(row, "temp_c")
        if file != "temperature_moisture" or key not in cold or t is None or t <= 26.0:
            continue
        card = card_of(row["polymer"], row["fibre"], known)
        what = "strength" if row["property"] == "strength" else "stiffness"
        start, t0 = cold[key]
        base = math.log(retention(card, t, what) / retention(card, t0, what))
        evidence.warm.append(Kept(row["id"], row["doi"], row["polymer"], row["fibre"], math.log(float(row["value"]) / start), base,
                                  what == "stiffness", row["process"] == "moulded"))


# Strength of the very print that was cycled, where the source states it.
CYCLED_STRENGTH = {"10.1016/j.ijfatigue.2019.05.014": 42.6, "cite:Procedia Struct. Integrity 13 (2018) 728-734": 42.9,
                   "10.3390/polym16131868": 32.9, "cite:Procedia Struct. Integrity 76 (2026) 151-158": 42.7,
                   ("PMC12845617", "ASA"): 31.7, ("PMC12845617", "PA12"): 37.0, ("PMC12845617", "PC"): 57.1}


def cycle_rows(by_id, evidence):
    pairs = {}
    for file, row in by_id.values():
        if file != "fatigue":
            continue
        rid, prop = row["id"], row["property"]
        ratio, life = number(row, "R"), number(row, "cycles_or_hours")
        infill = number(row, "infill_pct")
        if prop == "self_heating":
            evidence.left_out.append((rid, "self-heating is no strength"))
            continue
        if infill is not None and infill < 95.0:
            pairs.setdefault(infill, []).append(row)
            if prop == "sn_slope" or row["direction"] == "lines45":
                evidence.left_out.append((rid, "infill below 95 %: a lattice, not the solid print of a card"))
            continue
        if prop.startswith("stress") and rid in ("fa051", "fa052", "fa053"):
            evidence.left_out.append((rid, "neither the life nor the load ratio is known"))
            continue
        strength = CYCLED_STRENGTH.get(row["doi"]) or CYCLED_STRENGTH.get((row["doi"], row["polymer"])) or 0.0
        if rid == "fa048":
            strength = 0.0  # tested by others: not the print of the paper that quotes it
        value = float(row["value"])
        if prop == "sn_slope":
            kind, y = "slope", math.log(value)
        else:
            if prop == "stress_range":
                value /= 1.0 - ratio
            if prop == "stress_max_share":
                value *= 2.9 ** 0.5 * strength  # from 90 to 50 % survival by half the stated band
            kind, y = "run-out" if row["kind"] == "run-out" else "stress", math.log(value)
            ratio = -0.3 if ratio is None else ratio  # all load ratios -1 to 0.3 together
        evidence.cycles.append(Cycles(rid, row["doi"], row["polymer"], row["fibre"], kind, y, life or 0.0,
                                      ratio if ratio is not None else -1.0, strength, row["direction"] == "layer",
                                      row["process"] == "laser-sintered",
                                      f"{row['doi']}|{row['polymer']}|{'layer' if row['direction'] == 'layer' else ''}"))
    for infill, rows in sorted(pairs.items()):
        at = {number(r, "R"): r for r in rows if r["property"] == "stress_range" and r["direction"] == "lines0-90"}
        pulled, reversed_ = at[0.1], at[-1.0]
        walker = math.log((float(pulled["value"]) / 0.9) / (float(reversed_["value"]) / 2.0)) / -math.log(0.45)
        evidence.cycles.append(Cycles(pulled["id"], pulled["doi"], "unknown", "none", "walker", walker, 0.0, 0.0, 0.0, False, False,
                                      f"{pulled['doi']}|infill {infill}"))


def creep_rows(by_id, evidence, known):
    for file, row in by_id.values():
        rid, prop = row["id"], row["property"]
        if prop == "rate_ratio":
            if row["kind"] == "bound":
                evidence.left_out.append((rid, "the end of a range over several plastics"))
            else:
                evidence.rates.append((rid, row["doi"], row["polymer"], row["fibre"], math.log(float(row["value"])), 60.0))
        if file != "creep_rupture":
            continue
        if prop == "rupture_stress":
            t = number(row, "temp_c")
            card = card_of(row["polymer"], row["fibre"], known)
            kind = "run-out" if row["kind"] == "run-out" else "within" if "broke within" in row["remark"] else "broke"
            evidence.held.append(Held(rid, row["doi"], row["polymer"], row["fibre"], float(row["value"]), t,
                                      number(row, "cycles_or_hours"), retention(card, t, "strength"), kind))
        elif prop in ("creep_share", "relaxed_share"):
            share = float(row["value"])
            if prop == "relaxed_share":
                share /= 1.0 - share
            level = 0.7 if "0.7 of the strength" in row["remark"] else 0.5 if "0.5 of the strength" in row["remark"] else 0.1
            evidence.crept.append((rid, row["doi"], row["polymer"], row["fibre"], math.log(share),
                                   math.log(number(row, "cycles_or_hours")), level, row["direction"] == "across"))
        else:
            evidence.left_out.append((rid, "the same test as a creep share"))


def weld_rows(by_id, evidence):
    """ln of the strength across layers with the bond kept warm over the same print left to cool."""
    def add(rid, y):
        row = by_id[rid][1]
        evidence.weld.append((rid, row["doi"], row["polymer"], row["fibre"], y))
    value = lambda rid: float(by_id[rid][1]["value"])
    add("we018", math.log(value("we017") / value("we018")))
    add("we048", math.log(value("we048") / value("we047")))
    add("we049", math.log(value("we049")))
    add("we052", math.log(value("we052")))


def read():
    """All evidence, sorted."""
    evidence, known = Evidence(), cards()
    by_id = {row["id"]: (file, row) for file, row in read_rows()}
    evidence.all = list(by_id)
    for file, row in by_id.values():
        if row["id"] in UPRIGHT_OVER_FLAT | ALONG_OVER_ACROSS:
            evidence.static.append(ratio_row(file, row))
            continue
        found = static_row(file, row)
        if isinstance(found, Static):
            evidence.static.append(found)
        elif found:
            evidence.left_out.append((row["id"], found))
    wet_rows(by_id, evidence)
    warm_rows(by_id, evidence, known)
    cycle_rows(by_id, evidence)
    creep_rows(by_id, evidence, known)
    weld_rows(by_id, evidence)
    used = used_ids(evidence) | {"we017", "we047"} | {dry for _, dry in WET_PAIRS}
    for file, row in by_id.values():
        if row["id"] not in used and row["id"] not in {rid for rid, _ in evidence.left_out}:
            evidence.left_out.append((row["id"], other_reason(file, row)))
    return evidence


def used_ids(evidence):
    ids = {o.id for part in (evidence.static, evidence.wet, evidence.warm, evidence.cycles, evidence.held) for o in part}
    return ids | {o[0] for part in (evidence.rates, evidence.crept, evidence.weld) for o in part}


def other_reason(file, row):
    if file in ("thermal", "sliding", "engine_spread"):
        return "heat, friction and engines have no place in this model yet"
    if file == "holes_notches":
        return "a hole or notch is no plain bar"
    if row["property"] in ("glass_transition", "water_uptake", "density", "poisson_ratio", "shear_modulus"):
        return "no strength, life or creep"
    if file == "fatigue":
        return "one of a pair of load ratios: its partner row stands for both"
    if file == "temperature_moisture" and number(row, "temp_c") is not None:
        return "the cold end of a ratio, or a shear modulus"
    return "a ratio or state this model does not hold"
