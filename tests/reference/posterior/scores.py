"""Leaves sources out, predicts their rows, and scores the predictions."""

import functools
import json
import math
import sys

import numpy as np
from scipy import stats

import fit
import folds as F
import laplace
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


def weights_of(parts):
    """Weight of each draw once a source's rows are gone: one over their density there, none above the mean times the root of
    the number of draws (Ionides 2008, 10.1198/106186008X320456). And the share of the draws that carry the weight."""
    logs = -np.array([density for _, _, density in parts])
    weights = np.exp(logs - logs.max())
    weights = np.minimum(weights, weights.mean() * math.sqrt(len(weights)))
    weights /= weights.sum()
    return weights, 1.0 / float(np.sum(weights**2)) / len(weights)


def moments_without(a, who, draws, modes):
    """For every source that tests strengths: means and spreads of its rows given the others, one set a draw, and weights."""
    doi = np.array(a["static_doi"])
    tested = sorted({d for i, d in enumerate(doi) if F.scored(a, "static", i)})
    for number, (source, parts) in enumerate(static.blocks(a, who, draws, tested).items()):
        weights, share = weights_of(parts)
        if share < 0.2:
            keep = doi != source
            again = modes().draws(keep, R.SEED + number)
            parts = laplace.predict(a, who, again, np.flatnonzero(~keep), np.flatnonzero(keep))
            weights = np.full(len(parts), 1.0 / len(parts))
            print(f"found again without {source}: {share:.0%} of the draws carried the weight", flush=True)
        yield source, np.array([p[0] for p in parts]), np.array([p[1] for p in parts]), weights


def static_records(a, who, draws, modes, rng):
    records, doi = [], np.array(a["static_doi"])
    for source, means, spreads, weights in moments_without(a, who, draws, modes):
        pick = rng.choice(len(weights), 2000, p=weights)
        for j, i in enumerate(np.flatnonzero(doi == source)):
            if not F.scored(a, "static", i):
                continue
            drawn = means[pick, j] + spreads[pick, j] * rng.standard_normal(len(pick))
            below = float(np.sum(weights * stats.norm.cdf((a["static_y"][i] - means[:, j]) / spreads[:, j])))
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


def rest_records(a, sampler, along, rng):
    """The other parts, by folds of sources that share no family."""
    records = []
    sampler.others(along)
    for number, fold in enumerate(F.folds(a)):
        if not any(doi in fold for part in S.REST for doi in a[f"{part}_doi"]):
            continue
        q = sampler.others(along, without=fold, seed=R.SEED + number)
        for part in S.REST:
            for i, doi in enumerate(a[f"{part}_doi"]):
                if doi not in fold or not F.scored(a, part, i):
                    continue
                if part == "cycles" and a["cycles_kind"][i] == 1 or part == "held" and a["held_kind"][i] != 0:
                    records.append(censored(a, part, i, q))
                else:
                    records.append(score_row(q, a, part, i, fold, rng))
        print(f"fold {number + 1}", flush=True)
    return records


def run(warmup, count, out):
    _, a, indices, who, draws, _ = fit.fit(warmup, count)
    sampler = S.Sampler(a, indices, warmup, count)
    rng = np.random.default_rng(R.SEED)
    modes = functools.cache(lambda: laplace.Modes(a, who, R.SEED))
    records = static_records(a, who, {k: v[::4] for k, v in draws.items()}, modes, rng)
    records += rest_records(a, sampler, sampler.along(draws, sampler.keep("static")), rng)
    with open(out, "w") as handle:
        json.dump({"records": records}, handle, indent=0)


if __name__ == "__main__":
    run(int(sys.argv[1]), int(sys.argv[2]), sys.argv[3])
