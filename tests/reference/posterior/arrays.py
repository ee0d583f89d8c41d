"""Turns the sorted rows into the arrays the model is fitted to."""

import math

import numpy as np

import rows as R

FIBRES = ["none", "carbon", "glass"]
WATER = ["none", "short", "long"]  # how the resin takes water: hardly, like nylon 6, like nylon 12
FLAGS = ["sheet", "filament", "moulded", "sintered", "best", "in_plane_shear"]


class Index:
    """Gives every name met a number."""

    def __init__(self):
        self.names = []

    def __call__(self, name):
        if name not in self.names:
            self.names.append(name)
        return self.names.index(name)

    def __len__(self):
        return len(self.names)


def build(evidence):
    """All arrays, and the indices that say what their numbers mean."""
    resins, known = R.resins(), R.cards()
    polymer, family, source, series = Index(), Index(), Index(), Index()
    for name in resins:
        polymer(name)
    for _, p, f, _ in known.values():
        family((p, f))
    a = {}

    def common(parts, prefix):
        a[f"{prefix}_polymer"] = np.array([polymer(p) for _, _, p, _ in parts])
        a[f"{prefix}_family"] = np.array([family((p, f)) for _, _, p, f in parts])
        a[f"{prefix}_fibre"] = np.array([FIBRES.index(f) for _, _, _, f in parts])
        a[f"{prefix}_source"] = np.array([source(d) for _, d, _, _ in parts])
        a[f"{prefix}_id"] = [i for i, _, _, _ in parts]
        a[f"{prefix}_doi"] = [d for _, d, _, _ in parts]

    static = evidence.static
    common([(o.id, o.doi, o.polymer, o.fibre) for o in static], "static")
    a["static_share"] = np.array([math.sqrt(o.share / 15.0) for o in static])
    for name in ("dim", "toward", "raster", "minus"):
        a[f"static_{name}"] = np.array([getattr(o, name) for o in static])
    a["static_y"] = np.array([o.y for o in static])
    a["static_error"] = np.array([o.error for o in static])
    a["static_series"] = np.array([series(o.series) for o in static])
    a["static_flags"] = np.array([[float(o.flags[f]) for f in FLAGS] for o in static])
    a["static_group"] = [o.group for o in static]
    a["static_sheet"] = np.array([o.sheet for o in static])

    for prefix, part in (("wet", evidence.wet), ("warm", evidence.warm)):
        common([(o.id, o.doi, o.polymer, o.fibre) for o in part], prefix)
        a[f"{prefix}_y"] = np.array([o.y for o in part])
        a[f"{prefix}_base"] = np.array([o.base for o in part])
        a[f"{prefix}_stiff"] = np.array([int(o.stiffness) for o in part])
        a[f"{prefix}_sheet"] = np.array([o.sheet for o in part])
    a["wet_water"] = np.array([WATER.index(resins[o.polymer]["water"]) for o in evidence.wet])

    c = evidence.cycles
    common([(o.id, o.doi, o.polymer, o.fibre) for o in c], "cycles")
    a["cycles_series"] = np.array([series(o.series) for o in c])
    a["cycles_kind"] = np.array([["stress", "run-out", "slope", "walker"].index(o.kind) for o in c])
    a["cycles_y"] = np.array([o.y for o in c])
    a["cycles_lnn"] = np.array([math.log(o.cycles / 1e6) if o.cycles else 0.0 for o in c])
    a["cycles_lnr"] = np.array([math.log((1.0 - o.ratio) / 2.0) for o in c])
    a["cycles_strength"] = np.array([math.log(o.strength) if o.strength else 0.0 for o in c])
    a["cycles_known"] = np.array([float(o.strength > 0.0) for o in c])
    a["cycles_layer"] = np.array([float(o.layer) for o in c])
    a["cycles_sintered"] = np.array([float(o.sintered) for o in c])

    h = evidence.held
    common([(o.id, o.doi, o.polymer, o.fibre) for o in h], "held")
    a["held_stress"] = np.array([math.log(o.stress) for o in h])
    a["held_kelvin"] = np.array([o.temperature_c + 273.15 for o in h])
    a["held_lnt"] = np.array([math.log(o.hours * 3600.0) for o in h])
    a["held_kept"] = np.array([math.log(o.kept) for o in h])
    a["held_kind"] = np.array([["broke", "run-out", "within"].index(o.kind) for o in h])
    prints = Index()
    a["held_print"] = np.array([prints(f"{o.doi}|{o.polymer}|{o.fibre}") for o in h])
    a["held_energy"] = np.array([energy(known, o.polymer, o.fibre) for o in h])

    common([o[:4] for o in evidence.rates], "rates")
    a["rates_y"] = np.array([o[4] for o in evidence.rates])
    a["rates_lnq"] = np.array([math.log(o[5]) for o in evidence.rates])
    a["rates_energy"] = np.array([energy(known, o[2], o[3]) for o in evidence.rates])

    common([o[:4] for o in evidence.crept], "crept")
    a["crept_y"] = np.array([o[4] for o in evidence.crept])
    a["crept_lnt"] = np.array([o[5] for o in evidence.crept])
    a["crept_level"] = np.array([o[6] for o in evidence.crept])
    a["crept_base"] = np.array([creep_memory(known, o[2], o[3])[0] for o in evidence.crept])
    a["crept_exponent"] = np.array([creep_memory(known, o[2], o[3])[1] for o in evidence.crept])

    common([o[:4] for o in evidence.weld], "weld")
    a["weld_y"] = np.array([o[4] for o in evidence.weld])

    # Resin of each polymer: the moulded strength and stiffness recalled, about their middle.
    strength = np.array([math.log(float(resins[p]["strength_mpa"]) / 60.0) for p in polymer.names])
    stiffness = np.array([math.log(float(resins[p]["modulus_mpa"]) / 2500.0) for p in polymer.names])
    a["resin"] = np.stack([strength] * 5 + [stiffness] * 3, axis=1)
    a["sheet_source"] = np.array([float(is_sheet(d, evidence)) for d in source.names])
    a["family_polymer"] = np.array([polymer(p) for p, _ in family.names])
    a["family_fibre"] = np.array([FIBRES.index(f) for _, f in family.names])
    return a, {"polymer": polymer, "family": family, "source": source, "series": series, "held_print": prints}


def is_sheet(doi, evidence):
    return any(o.doi == doi and o.sheet for o in evidence.static)


def energy(known, polymer, fibre):
    """Activation energy of rupture on the nearest card, kJ/mol: memory, the centre the rows move."""
    return float(R.card_of(polymer, fibre, known)["creep"]["activation_energy_kj_mol"]["value"])


# ln of the share of the elastic strain that small stress creeps in an hour at 23 C, as recalled before any row was read.
CREEP_MEMORY = {"PLA": 0.12, "PETG": 0.12, "ABS": 0.13, "ASA": 0.13, "PC": 0.06, "PA12": 0.35, "PEI": 0.05, "PEEK": 0.06,
                "PA12-CF15": 0.2, "PA6-CF20": 0.18, "PA6-GF": 0.2, "PPS-CF": 0.06}


def creep_memory(known, polymer, fibre):
    card = R.card_of(polymer, fibre, known)
    return math.log(CREEP_MEMORY[card["name"]]), float(card["creep"]["time_exponent"]["value"])
