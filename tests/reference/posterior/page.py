"""Writes the page of scores and its drawing from the scored predictions."""

import json
import math
import sys
from collections import Counter, defaultdict

import numpy as np

import rows as R

GROUPS = ["in the layer", "across layers", "shear", "compression", "stiffness", "fatigue stress", "fatigue slope", "mean stress", "rupture",
          "creep strain", "rate", "warm", "wet", "weld"]
WANTED = {"in the layer", "across layers", "fatigue stress"}
SUMS = {"static strength": ("in the layer", "across layers", "shear", "compression"), "creep": ("rupture", "creep strain", "rate")}
BOOTS = 2000


def resampled(by_source, statistic, seed=R.SEED):
    """90 % interval of a statistic by drawing whole sources again: rows of one source err together."""
    rng = np.random.default_rng(seed)
    names = list(by_source)
    found = []
    for _ in range(BOOTS):
        rows = [r for i in rng.integers(0, len(names), len(names)) for r in by_source[names[i]]]
        found.append(statistic(rows))
    return np.nanquantile(found, [0.05, 0.95])


def error(r):
    return (r["y"] - r["mean"]) / r["sd"]


def rms(rows):
    return math.sqrt(np.mean([error(r) ** 2 for r in rows]))


def covered(share):
    return lambda rows: float(np.mean([abs(r["pit"] - 0.5) < share / 2 for r in rows]))


def gain(rows):
    pairs = [(r["crps"], r["crps_pooled"]) for r in rows if "crps_pooled" in r]
    return 1.0 - sum(a for a, _ in pairs) / sum(b for _, b in pairs) if pairs else float("nan")


def line(name, rows):
    by_source = defaultdict(list)
    for r in rows:
        by_source[r["doi"]].append(r)
    sources_equal = math.sqrt(np.mean([np.mean([error(r) ** 2 for r in part]) for part in by_source.values()]))
    few = len(by_source) < 2
    interval = lambda f, form: "" if few else " ({} to {})".format(*(form.format(v) for v in resampled(by_source, f)))
    cells = [name, str(len(rows)), str(len(by_source)), f"{rms(rows):.2f}{interval(rms, '{:.2f}')}", f"{sources_equal:.2f}",
             *[f"{covered(s)(rows):.0%}" + (interval(covered(s), "{:.0%}") if s == 0.8 else "") for s in (0.5, 0.8, 0.95)],
             f"{np.mean([error(r) for r in rows]):+.2f}", f"{np.mean([r['sd'] for r in rows]):.2f}",
             f"{np.mean([r['crps'] for r in rows]):.3f}", "" if math.isnan(gain(rows)) else f"{gain(rows):+.0%}{interval(gain, '{:+.0%}')}"]
    return "| " + " | ".join(cells) + " |"


def lives(records):
    rows = [r for r in records if "life" in r]
    flat = [{**r, "crps": r["life"]["crps"], **({"crps_pooled": r["life"]["crps_pooled"]} if "crps_pooled" in r["life"] else {})} for r in rows]
    by_source = defaultdict(list)
    for r in flat:
        by_source[r["doi"]].append(r)
    low, high = resampled(by_source, gain)
    within = sum(abs(r["life"]["error"]) < math.log(3.0) for r in rows)
    return (f"ln life of {len(rows)} points from {len(by_source)} sources: CRPS {np.mean([r['crps'] for r in flat]):.2f}, against one pooled ratio, "
            f"slope and spread {gain(flat):+.0%} ({low:+.0%} to {high:+.0%}); {within} of {len(rows)} medians lie within a factor of 3 in life.")


def page(data, evidence):
    records = data["records"]
    plain = [r for r in records if r["group"] != "censored"]
    of = lambda groups: [r for r in plain if r["group"] in groups]
    head = ("| group | rows | sources | errors over spread, root mean square | the same, sources equal | in 50 % band | in 80 % band | in 95 % band "
            "| mean error over spread | spread, ln | CRPS, ln | better than one pooled mean and spread |")
    text = ["# Scores", "",
            "Written by `bash tests/reference/posterior/run scores`; do not edit. Every source that tests prints is left out once and its rows are",
            "predicted as those of a new printer. For strength and stiffness the rest of the model follows exactly from the other rows; the spreads are",
            "weighted for the missing source, or found again where few draws would carry the weight. The other parts are sampled again, sources that",
            "share no family in one refit. Data sheets are never scored. Errors, spreads and CRPS are of natural logarithms: a spread of 0.3 is about",
            "30 %. Intervals are 90 %, by drawing whole sources again. Wanted: root mean square 0.8 to 1.3, 70 to 90 % in the 80 % band, CRPS 15 %",
            "better than one pooled mean and spread.",
            *(["", data["note"]] if "note" in data else []), "", f"![Reliability]({sys.argv[3].rsplit('/', 1)[-1]})", "", "## Sums", "", head, "|" + "---|" * 12]
    for name, groups in SUMS.items():
        if of(groups):
            text.append(line(name, of(groups)))
    text += ["", "## By group", "", head, "|" + "---|" * 12]
    text += [line(g, of((g,))) for g in GROUPS if of((g,))]
    missing = [g for g in GROUPS if not of((g,))]
    if missing:
        text += ["", f"Not in this run: {', '.join(missing)}."]
    text += ["", "## Fatigue life", "", lives(records) if any("life" in r for r in records) else "Not in this run.", "", "## By family", "", "Strength in the layer and across layers together.", "",
             "| family | rows | sources | root mean square | mean error over spread | in 80 % band |", "|---|---|---|---|---|---|"]
    families = {row["id"]: f"{row['polymer']}, {row['fibre']}" for _, row in R.read_rows()}
    for family in sorted({families[r["id"]] for r in of(("in the layer", "across layers"))}):
        rows = [r for r in of(("in the layer", "across layers")) if families[r["id"]] == family]
        text.append(f"| {family} | {len(rows)} | {len({r['doi'] for r in rows})} | {rms(rows):.2f} | {np.mean([error(r) for r in rows]):+.2f} "
                    f"| {covered(0.8)(rows):.0%} |")
    text += ["", "## Tests that did not break, or broke before a time", "",
             "Chance the prediction gave to what was seen; their logarithms are the censored score.", "", "| row | chance |", "|---|---|"]
    text += [f"| {r['id']} | {r['chance']:.2f} |" for r in records if r["group"] == "censored"]
    far = sorted((r for r in plain if abs(error(r)) > 2.0), key=lambda r: -abs(error(r)))
    text += ["", "## Furthest off", "", "Every row more than two spreads from its prediction.", "",
             "| row | group | measured | predicted | error over spread |", "|---|---|---|---|---|"]
    value = lambda r, key: f"{r[key]:.3g}" if r["group"] == "mean stress" else f"{math.exp(r[key]):.3g}"
    text += [f"| {r['id']} | {r['group']} | {value(r, 'y')} | {value(r, 'mean')} | {error(r):+.1f} |" for r in far]
    text += ["", "## Rows left out of the model", "", "| reason | rows |", "|---|---|"]
    text += [f"| {reason} | {count} |" for reason, count in Counter(r for _, r in evidence.left_out).most_common()]
    return "\n".join(text) + "\n"


def drawing(data, path):
    import matplotlib
    matplotlib.use("svg")
    import matplotlib.pyplot as plt
    matplotlib.rcParams.update({"svg.hashsalt": "scores", "font.size": 9, "svg.fonttype": "none"})
    records = [r for r in data["records"] if r["group"] != "censored"]
    figure, (left, right) = plt.subplots(1, 2, figsize=(9.0, 4.0))
    shares = np.linspace(0.02, 0.98, 49)
    styles = [("in the layer", ("in the layer",), "-"), ("across layers", ("across layers",), "--"),
              ("fatigue", ("fatigue stress", "fatigue slope"), ":"), ("stiffness", ("stiffness",), "-.")]
    left.plot([0, 1], [0, 1], color="0.7")
    for name, groups, style in styles:
        pits = np.array([r["pit"] for r in records if r["group"] in groups])
        if not len(pits):
            continue
        left.plot(shares, [np.mean(np.abs(pits - 0.5) < s / 2) for s in shares], style, color="black", label=f"{name} ({len(pits)})")
    left.set_xlabel("stated share of the band")
    left.set_ylabel("share of results in it")
    left.legend(frameon=False)
    static = [r["pit"] for r in records if r["group"] in SUMS["static strength"]]
    right.hist(static, bins=10, range=(0, 1), color="0.75", edgecolor="black")
    right.axhline(len(static) / 10, color="black", linestyle="--")
    right.set_xlabel("share of the prediction below the result (static strength)")
    right.set_ylabel("rows")
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None, "Creator": None})


if __name__ == "__main__":
    with open(sys.argv[1]) as handle:
        found = json.load(handle)
    with open(sys.argv[2], "w") as handle:
        handle.write(page(found, R.read()))
    drawing(found, sys.argv[3])
