"""Leaves sources out, predicts their rows, and scores the predictions."""

import json
import math
import sys

import numpy as np
from scipy import stats

import arrays as A
import folds as F
import rows as R
import sample as S
import static


def group_of(a, part, i):
    if part == "static":
        return a["static_group"][i]
    if part == "cycles":
        return ["fatigue stress", "fatigue stress", "fatigue slope", "mean stress"][a["cycles_kind"][i]]
    return {"wet": "wet", "warm": "warm", "held": "rupture", "rates": "rate", "crept": "creep strain", "weld": "weld"}[part]


def predictive(draws, a, part, i, rng):
    """Samples of what the row's source would have measured, and the mixture's distribution function at the measured value."""
    mean, scale = draws[f"{part}_mean"][:, i], draws[f"{part}_scale"][:, i]
    y = a["held_lnt"][i] if part == "held" else a[f"{part}_y"][i]
    drawn = np.concatenate([mean + scale * rng.standard_normal(len(mean)) for _ in range(5)])
    return y, drawn, float(np.mean(stats.norm.cdf((y - mean) / scale)))


def crps(drawn, y):
    """Gneiting & Raftery 2007, equation 21, from samples."""
    ordered = np.sort(drawn)
    n = len(ordered)
    spread = np.sum((2 * np.arange(1, n + 1) - n - 1) * ordered) / n**2
    return float(np.mean(np.abs(drawn - y)) - spread)


def crps_normal(mean, sd, y):
    """The same in closed form for a normal distribution (equation 20)."""
    z = (y - mean) / sd
    return float(sd * (z * (2 * stats.norm.cdf(z) - 1) + 2 * stats.norm.pdf(z) - 1 / math.sqrt(math.pi)))


def pooled(a, part, i, left_out):
    """One mean and spread for all families: of the same property, from the sources not left out."""
    doi = np.array(a[f"{part}_doi"])
    other = ~np.isin(doi, list(left_out))
    y = a["held_lnt"] if part == "held" else a[f"{part}_y"]
    if part == "static":
        same = (a["static_dim"] == a["static_dim"][i]) & ((a["static_minus"] >= 0) == (a["static_minus"][i] >= 0))
    elif part == "cycles":
        same = a["cycles_kind"] == a["cycles_kind"][i]
        # Stress over the strength of the print, by the one slope and mean-stress law that the others give.
        strength = np.where(a["cycles_known"] > 0.5, a["cycles_strength"], math.log(45.0))
        y = y - np.where(a["cycles_kind"] <= 1, strength - a["cycles_lnn"] / 8.0 - 0.45 * a["cycles_lnr"], 0.0)
    elif part in ("wet", "warm"):
        same = a[f"{part}_stiff"] == a[f"{part}_stiff"][i]
    elif part == "held":
        same = a["held_kind"] == 0
    else:
        same = np.ones(len(y), dtype=bool)
    values = y[other & same]
    if len(values) < 2:
        return None
    mean, sd = float(values.mean()), float(values.std(ddof=1) * math.sqrt(1 + 1 / len(values)))
    if part == "cycles" and a["cycles_kind"][i] <= 1:
        mean += float(strength[i] - a["cycles_lnn"][i] / 8.0 - 0.45 * a["cycles_lnr"][i])
    return mean, max(sd, 1e-3)


def score_row(draws, a, part, i, left_out, rng):
    y, drawn, below = predictive(draws, a, part, i, rng)
    record = record_of(a, part, i, y, drawn, below, left_out)
    if part == "cycles" and a["cycles_kind"][i] == 0:
        k = np.tile(np.exp(draws["cycles_ln_k"][:, i]), 5)
        life, seen = a["cycles_lnn"][i] + k * (drawn - y), float(a["cycles_lnn"][i])
        record["life"] = {"crps": crps(life, seen), "error": float(np.median(life) - seen)}
        card = pooled(a, part, i, left_out)
        if card:
            record["life"]["crps_pooled"] = crps_normal(seen + 8.0 * (card[0] - y), 8.0 * card[1], seen)
    return record


def left_out_strengths(a, who, draws, sources, refit):
    """Moments of each left-out row, one set a draw, for every source that tests strengths.

    A draw that fits the source's rows well is worth less once they are gone: weights of one over their density, none above its
    mean times the root of their number (Ionides 2008, 10.1198/106186008X320456). Where fewer than a tenth of the draws carry the
    weight, the spreads are sampled again without the source.
    """
    found, count = {}, len(draws["residual"])
    for source, parts in static.blocks(a, who, draws, sources).items():
        logs = -np.array([density for _, _, density in parts])
        weights = np.exp(logs - logs.max())
        weights = np.minimum(weights, weights.mean() * math.sqrt(count))
        weights /= weights.sum()
        if 1.0 / np.sum(weights**2) < 0.1 * count:
            again = refit(source)
            parts, weights = static.blocks(a, who, again, [source])[source], np.full(len(again["residual"]), 1 / len(again["residual"]))
        found[source] = ([p[0] for p in parts], [np.sqrt(np.diag(p[1])) for p in parts], weights)
    return found


def static_records(a, found, rng):
    records = []
    for source, (means, scales, weights) in found.items():
        at = np.flatnonzero(np.array(a["static_doi"]) == source)
        pick = rng.choice(len(weights), 2000, p=weights)
        for j, i in enumerate(at):
            if not F.scored(a, "static", i):
                continue
            mean, scale = np.array([m[j] for m in means]), np.array([s[j] for s in scales])
            drawn = mean[pick] + scale[pick] * rng.standard_normal(len(pick))
            below = float(np.sum(weights * stats.norm.cdf((a["static_y"][i] - mean) / scale)))
            records.append(record_of(a, "static", i, a["static_y"][i], drawn, below, [source]))
    return records


def record_of(a, part, i, y, drawn, below, left_out):
    record = {"part": part, "group": group_of(a, part, i), "id": a[f"{part}_id"][i], "doi": a[f"{part}_doi"][i], "y": float(y),
              "mean": float(drawn.mean()), "sd": float(drawn.std()), "pit": below, "crps": crps(drawn, y)}
    card = pooled(a, part, i, left_out)
    if card:
        record["crps_pooled"] = crps_normal(*card, y)
    return record


def censored(a, part, i, draws):
    mean, scale = draws[f"{part}_mean"][:, i], draws[f"{part}_scale"][:, i]
    at = a["held_lnt"][i] if part == "held" else a["cycles_y"][i]
    beyond = float(np.mean(stats.norm.cdf((mean - at) / scale)))
    chance = 1 - beyond if part == "held" and a["held_kind"][i] == 2 else beyond
    return {"part": part, "group": "censored", "id": a[f"{part}_id"][i], "doi": a[f"{part}_doi"][i], "chance": chance}


def run(warmup, count, out):
    evidence = R.read()
    a, indices = A.build(evidence)
    sampler = S.Sampler(a, indices, warmup, count)
    saved = np.load(S.KEPT / "strengths.npz")
    if list(saved["rows"]) != list(a["static_id"]):
        raise SystemExit("the rows have changed since the fit: run fit first")
    draws = {k: saved[k] for k in saved.files if k != "rows"}
    tested = sorted({d for i, d in enumerate(a["static_doi"]) if F.scored(a, "static", i)})
    again = []

    def refit(source):
        again.append(source)
        sampler.kept.pop("static", None)
        return sampler.strengths(without=(source,), seed=S.SEED + 1 + tested.index(source))[0]

    rng = np.random.default_rng(S.SEED)
    records = static_records(a, left_out_strengths(a, sampler.who, draws, tested, refit), rng)
    print(f"strengths: {len(records)} rows; sampled again for {len(again)} sources", flush=True)
    along = sampler.along(draws, sampler.keep("static"))
    sampler.others(along)
    folds = F.folds(a)
    for number, fold in enumerate(folds):
        if not any(doi in fold for part in S.REST for doi in a[f"{part}_doi"]):
            continue
        q = sampler.others(along, without=fold, seed=S.SEED + number)
        for part in S.REST:
            for i, doi in enumerate(a[f"{part}_doi"]):
                if doi not in fold or not F.scored(a, part, i):
                    continue
                if part == "cycles" and a["cycles_kind"][i] == 1 or part == "held" and a["held_kind"][i] != 0:
                    records.append(censored(a, part, i, q))
                else:
                    records.append(score_row(q, a, part, i, fold, rng))
        print(f"fold {number + 1} of {len(folds)}", flush=True)
    with open(out, "w") as handle:
        json.dump({"records": records, "folds": folds, "again": again}, handle, indent=0)


if __name__ == "__main__":
    run(int(sys.argv[1]), int(sys.argv[2]), sys.argv[3])
