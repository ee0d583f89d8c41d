"""Fits the hierarchy to all rows and writes the cards' posterior: means, spreads, correlations, and what stands behind them."""

import math
import sys

import numpy as np

import arrays as A
import folds
import rows as R
import sample as S
import static

OUT = R.ROOT / "core/src/material/posterior/cards.toml"
GAS, ROOM = 8.314462618e-3, 296.15
SHORT = GAS * ROOM * math.log(100.0 / 1e-13)
# Name, what it is, key of the card it speaks of. All are natural logarithms but the Walker exponent.
PROPERTIES = [
    *[(n, None, None) for n in R.STATIC],
    ("fatigue_ratio", None, None), ("fatigue_layer_ratio", None, None), ("fatigue_exponent", None, None),
    ("fatigue_layer_exponent", None, None), ("walker_exponent", None, None), ("warm_strength_power", None, None),
    ("warm_stiffness_power", None, None), ("wet_strength_loss", None, None), ("wet_stiffness_loss", None, None),
    ("rupture_energy", None, None), ("creep_share_1h", None, None), ("weld_gain", None, None)]
NAMES = [p[0] for p in PROPERTIES]
LAYER_EXPONENT_SPREAD = 0.15  # memory: the exponent across layers is that in the layer, within this


def rest_draws(q, a, indices, polymer, fibre, rng):
    """Columns after the strengths: the family's own value and a new printer's, one draw a row."""
    n = len(q["ratio"])
    f, fam = A.FIBRES.index(fibre), indices["family"].names.index((polymer, fibre))
    z = lambda *shape: rng.standard_normal((n, *shape))
    pick = lambda name: q[name][:, f - 1] if f > 0 else 0.0
    ratio = q["ratio"] + pick("ratio_fibre") + q["ratio_spread"][:, 0] * q["ratio_family_z"][:, fam]
    ratio_new = np.hypot(q["ratio_spread"][:, 1], q["cycles_residual"][:, 0]) * z()
    layer = q["ratio_layer"] + 0.15 * z()
    exponent = q["slope"] + pick("slope_fibre")
    exponent_new = np.hypot(q["slope_spread"], q["cycles_residual"][:, 1]) * z()
    walker, walker_new = q["walker"], np.hypot(q["walker_spread"], q["cycles_residual"][:, 2]) * z()
    water = A.WATER.index(R.resins()[polymer]["water"])
    spread = q["warm_spread"] / math.sqrt(2.0)
    warm, warm_new = q["warm"] + spread * q["warm_family_z"][:, fam], spread * z(2)
    wet, wet_new = q["wet"][:, :, water], (q["wet_spread"] * z())[:, None]
    memory = A.energy(R.cards(), polymer, fibre)
    energy = lambda x: np.log((memory - SHORT) * np.exp(2.0 * x) + SHORT)
    energy_new = energy(q["energy"] + q["energy_spread"] * z())
    crept = A.creep_memory(R.cards(), polymer, fibre)[0] + q["crept"]
    across = LAYER_EXPONENT_SPREAD * z()
    family = [ratio, ratio + layer, exponent, exponent + across, walker, warm, wet, energy(q["energy"]), crept, q["weld"]]
    printer = [ratio + ratio_new, ratio + layer + ratio_new, exponent + exponent_new, exponent + across + exponent_new,
               walker + walker_new, warm + warm_new, wet + wet_new, energy_new, crept + q["crept_spread"] * z(),
               q["weld"] + q["weld_spread"] * z()]
    join = lambda parts: np.column_stack([x if x.ndim > 1 else x[:, None] for x in parts])
    return join(family), join(printer)


def counts(a, indices, polymer, fibre):
    """For each property: rows and sources of the family itself, data sheets apart, and rows of all other families."""
    family = indices["family"].names.index((polymer, fibre))
    found = {}

    def count(name, part, select):
        own = select & (a[f"{part}_family"] == family)
        sheet = ~np.array([folds.scored(a, part, i) for i in range(len(own))], dtype=bool)
        doi = np.array(a[f"{part}_doi"])
        found[name] = (int((own & ~sheet).sum()), len(set(doi[own & ~sheet])), int((own & sheet).sum()),
                       int((select & (a[f"{part}_family"] != family)).sum()))

    for d, name in enumerate(R.STATIC):
        count(name, "static", (a["static_dim"] == d) | (a["static_minus"] == d))
    kind = a["cycles_kind"]
    count("fatigue_ratio", "cycles", (kind <= 1) & (a["cycles_layer"] < 0.5))
    count("fatigue_layer_ratio", "cycles", (kind <= 1) & (a["cycles_layer"] > 0.5))
    count("fatigue_exponent", "cycles", kind == 2)
    count("fatigue_layer_exponent", "cycles", (kind == 2) & (a["cycles_layer"] > 0.5))
    count("walker_exponent", "cycles", (kind == 3) | ((kind == 0) & (a["cycles_lnr"] != 0.0)))
    count("warm_strength_power", "warm", a["warm_stiff"] == 0)
    count("warm_stiffness_power", "warm", a["warm_stiff"] == 1)
    count("wet_strength_loss", "wet", a["wet_stiff"] == 0)
    count("wet_stiffness_loss", "wet", a["wet_stiff"] == 1)
    count("creep_share_1h", "crept", np.ones(len(a["crept_y"]), dtype=bool))
    count("weld_gain", "weld", np.ones(len(a["weld_y"]), dtype=bool))
    count("rupture_energy", "held", np.ones(len(a["held_lnt"]), dtype=bool))
    rates = a["rates_family"] == family
    own, sources, sheets, others = found["rupture_energy"]
    found["rupture_energy"] = (own + int(rates.sum()), sources + int(rates.any()), sheets, others + int((~rates).sum()))
    return found


def steady(correlation):
    """Rounded to three digits and still a covariance: off-diagonals shrink by a thousandth until no eigenvalue is negative."""
    rounded = np.round(correlation, 3)
    np.fill_diagonal(rounded, 1.0)
    while np.linalg.eigvalsh(rounded).min() < 1e-3:
        rounded = np.round(rounded * 0.995, 3)
        np.fill_diagonal(rounded, 1.0)
    return rounded


def unreduced(with_rows, without):
    """Share of a variance that the rows left."""
    return min(1.0, float(with_rows / without))


def word(own, weight):
    """`published`: a test of the family itself; `pooled`: like families or data sheets halved what memory leaves open."""
    return "published" if own > 0 else "pooled" if weight < 0.5 else "memory"


def fit(warmup, count):
    evidence = R.read()
    a, indices = A.build(evidence)
    sampler = S.Sampler(a, indices, warmup, count)
    key = f"{S.fingerprint()} {warmup} {count}"

    def strengths():
        draws, _ = sampler.strengths()
        print(f"strengths: {sampler.divergent} divergent steps of {count}", flush=True)
        return draws

    draws = S.kept("strengths", key, strengths)

    def others():
        q = sampler.others(sampler.along(draws, sampler.keep("static")))
        print(f"the rest: {sampler.divergent} divergent steps of {count}", flush=True)
        return q

    return evidence, a, indices, sampler.who, draws, S.kept("rest", key, others)


# Half-normal spread of each printer-to-printer spread, as recalled: how far rows have told it since.
RECALLED = {**{n: ("print", d, static.PRINT[d]) for d, n in enumerate(R.STATIC)}, "fatigue_ratio": ("ratio_spread", 1, 0.3),
            "fatigue_layer_ratio": ("ratio_spread", 1, 0.3), "fatigue_exponent": ("slope_spread", None, 0.3),
            "fatigue_layer_exponent": ("slope_spread", None, 0.3), "walker_exponent": ("walker_spread", None, 0.2),
            "warm_strength_power": ("warm_spread", 0, 0.4), "warm_stiffness_power": ("warm_spread", 1, 0.4),
            "wet_strength_loss": ("wet_spread", None, 0.3), "wet_stiffness_loss": ("wet_spread", None, 0.3),
            "rupture_energy": ("energy_spread", None, 0.2), "creep_share_1h": ("crept_spread", None, 0.6),
            "weld_gain": ("weld_spread", None, 0.5)}


def spread_known(name, draws, q):
    """How much of the uncertainty about the printer-to-printer spread no row reduced; a half-normal has variance 1 - 2/pi."""
    key, column, scale = RECALLED[name]
    values = (draws if key == "print" else q)[key]
    values = values if column is None else values[:, column]
    return unreduced(values.var(), (1.0 - 2.0 / math.pi) * scale**2)


def rest_recalled(polymer, fibre):
    """Variance of each later property with no row of any: the priors of rest.py, in the order of NAMES after the strengths."""
    fibred = 0.2**2 if fibre != "none" else 0.0
    ratio = 0.3**2 + fibred + 0.3**2
    slope = 0.3**2 + (0.15**2 if fibre != "none" else 0.0)
    memory = A.energy(R.cards(), polymer, fibre)
    energy = (2.0 * 0.2 * (memory - SHORT) / memory) ** 2
    warm = 0.3**2 + 0.4**2 / 2.0
    return [ratio, ratio + 0.25**2 + 0.15**2, slope, slope + LAYER_EXPONENT_SPREAD**2, 0.15**2, warm, warm, 0.5**2, 0.5**2, energy,
            0.5**2, 0.4**2]


def asked_of(indices):
    place = lambda polymer, fibre, share: (indices["polymer"].names.index(polymer), A.FIBRES.index(fibre),
                                           indices["family"].names.index((polymer, fibre)), share)
    return {name: place(polymer, fibre, share) for name, (_, polymer, fibre, share) in R.cards().items()}


def all_cards(found):
    """Everything the file holds, card by card."""
    _, a, indices, who, draws, _ = found
    asked = asked_of(indices)
    strengths = static.moments(a, who, draws, list(asked.values()), thin=4)
    blind = []
    for d in range(len(R.STATIC)):
        keep = (a["static_dim"] != d) & (a["static_minus"] != d)
        blind.append(static.moments(a, who, draws, list(asked.values()), keep, thin=40))
    return {name: card_of(found, name, strengths[q], [b[q][1][d, d] for d, b in enumerate(blind)]) for name, q in asked.items()}


def card_of(found, name, strengths, blind):
    _, a, indices, _, draws, q = found
    _, polymer, fibre, _ = R.cards()[name]
    mean8, own8, new8 = strengths
    family, printer = rest_draws(q, a, indices, polymer, fibre, np.random.default_rng(R.SEED))
    mean = np.concatenate([mean8, printer.mean(axis=0)])
    cov = np.zeros((len(NAMES), len(NAMES)))
    cov[:8, :8], cov[8:, 8:] = new8, np.cov(printer.T)
    spread = np.sqrt(np.diag(cov))
    own = np.concatenate([np.diag(own8), family.var(axis=0)])
    behind = counts(a, indices, polymer, fibre)
    memory, words = [], []
    for i, prop in enumerate(NAMES):
        left = unreduced(own[i], [*blind, *rest_recalled(polymer, fibre)][i])
        part = min(1.0, float(own[i] / spread[i] ** 2))
        memory.append(left * part + spread_known(prop, draws, q) * (1.0 - part))
        words.append(word(behind[prop][0], left))
    return {"mean": mean, "spread": spread, "own": np.sqrt(own), "memory": memory, "words": words, "behind": behind,
            "correlation": steady(cov / np.outer(spread, spread))}


def text_of(found, table):
    evidence, draws = found[0], found[4]
    number = lambda v: f"{v:.3f}".rstrip("0").rstrip(".") if abs(v) < 100 else f"{v:.1f}"
    row = lambda values: "[" + ", ".join(number(v) for v in values) + "]"
    lines = ["# Written by tests/reference/posterior/run fit; do not edit. What the numbers mean is in README.md beside it.",
             f"properties = [{', '.join(chr(34) + n + chr(34) for n in NAMES)}]",
             f"rows = {len(evidence.all) - len(evidence.left_out)}", f"seed = {R.SEED}", "", "[rasters]",
             *[f'"{n}" = {m:.2f}' for n, m in zip(R.RASTERS, draws["raster"].mean(axis=0))], ""]
    for name, card in table.items():
        behind = [card["behind"][n] for n in NAMES]
        whole = lambda i: "[" + ", ".join(str(b[i]) for b in behind) + "]"
        lines += [f'[cards."{name}"]', f"mean = {row(card['mean'])}", f"spread = {row(card['spread'])}",
                  f"family_spread = {row(card['own'])}", f"memory = {row(card['memory'])}",
                  "word = [" + ", ".join(f'"{w}"' for w in card["words"]) + "]", f"own_rows = {whole(0)}", f"own_sources = {whole(1)}",
                  f"own_sheet_rows = {whole(2)}", f"like_rows = {whole(3)}", "correlation = ["]
        lines += ["  " + row(card["correlation"][i, :i]) + "," for i in range(1, len(NAMES))] + ["]", ""]
    return "\n".join(lines)


def plain(name, mean, spread):
    """A property in the unit a builder reads: centre and 80 % band."""
    low, high = mean - 1.2816 * spread, mean + 1.2816 * spread
    if name == "walker_exponent":
        return mean, low, high
    return math.exp(mean), math.exp(low), math.exp(high)


if __name__ == "__main__":
    found = fit(int(sys.argv[1]), int(sys.argv[2]))
    table = all_cards(found)
    OUT.parent.mkdir(parents=True, exist_ok=True)
    OUT.write_text(text_of(found, table))
    for name, card in table.items():
        print(name)
        for i, prop in enumerate(NAMES):
            centre, low, high = plain(prop, card["mean"][i], card["spread"][i])
            print(f"  {prop:24s} {centre:9.3g} ({low:.3g} to {high:.3g})  memory {card['memory'][i]:.2f} {card['words'][i]:9s} "
                  f"{card['behind'][prop]}")
