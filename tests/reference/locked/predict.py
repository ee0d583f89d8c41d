"""What the cards' posterior predicts for a test, as draws: the one place that lock and score read it from."""

import math
import tomllib
from pathlib import Path

import numpy as np
from scipy import stats

ROOT = Path(__file__).resolve().parents[3]
POSTERIOR = ROOT / "core/src/material/posterior/cards.toml"
DRAWS, SEED = 20_000, 20261128
KINDS = ("strength", "strength_ratio", "life", "stress", "kept_warm", "kept_wet")


class Question(Exception):
    """A question the posterior cannot answer."""


def draws_of(posterior, card):
    """Names of the properties and draws of a new printer's values."""
    names = posterior["properties"]
    entry = posterior["cards"].get(card)
    if entry is None:
        raise Question(f"no card {card}")
    n = len(names)
    correlation = np.eye(n)
    for i, row in enumerate(entry["correlation"], start=1):
        correlation[i, :i] = correlation[:i, i] = row
    spread = np.array(entry["spread"])
    factor = np.linalg.cholesky(correlation * np.outer(spread, spread))
    normal = np.random.default_rng(SEED).standard_normal((DRAWS, n))
    values = np.array(entry["mean"]) + normal @ factor.T
    return {name: values[:, i] for i, name in enumerate(names)}


def strength(x, posterior, direction):
    """ln of a strength by direction; crossed layers lie between along and square to the beads."""
    if direction in ("bead", "across", "layer", "layer_shear", "compression", "bead_modulus", "across_modulus", "layer_modulus"):
        return x[direction]
    share = posterior["rasters"].get(direction)
    if share is None:
        raise Question(f"no direction {direction}")
    return x["bead"] + share * (x["across"] - x["bead"])


def retention(card, temperature_c, what):
    """The card's share of strength or stiffness kept at a temperature, straight between its points."""
    points = card["temperature"]["retention"]["points"]
    return float(np.interp(temperature_c, [p["temperature_c"] for p in points], [p[what] for p in points]))


def predict(posterior, card, question):
    """Draws of ln of the value a question asks for; `card` is the whole card."""
    x = draws_of(posterior, card["name"])
    kind = question["kind"]
    direction = question.get("direction") or "lines"
    if kind == "strength":
        return strength(x, posterior, direction)
    if kind == "strength_ratio":
        return strength(x, posterior, direction) - strength(x, posterior, question["over"])
    if kind in ("life", "stress"):
        layer = direction == "layer"
        base = math.log(float(question["strength_mpa"])) if question.get("strength_mpa") else strength(x, posterior, direction)
        ratio = x["fatigue_layer_ratio" if layer else "fatigue_ratio"]
        k = np.exp(x["fatigue_layer_exponent" if layer else "fatigue_exponent"])
        reversed_ = math.log((1.0 - float(question["load_ratio"])) / 2.0)
        at_million = base + ratio - x["walker_exponent"] * reversed_
        if kind == "stress":
            return at_million - math.log(float(question["cycles"]) / 1e6) / k
        return math.log(1e6) + k * (at_million - math.log(float(question["stress_max_mpa"])))
    if kind == "kept_warm":
        what, power = ("stiffness", "warm_stiffness_power") if question.get("stiffness") else ("strength", "warm_strength_power")
        kept = retention(card, float(question["temperature_c"]), what)
        return np.exp(x[power]) * math.log(kept)
    if kind == "kept_wet":
        power = "wet_stiffness_loss" if question.get("stiffness") else "wet_strength_loss"
        return -np.exp(x[power]) * float(question.get("soaked", 1.0))
    raise Question(f"no kind {kind}; one of {', '.join(KINDS)}")


def score(draws, y):
    """Error over spread, share of the prediction below what came, and CRPS (Gneiting & Raftery 2007), all of ln."""
    ordered = np.sort(draws)
    n = len(ordered)
    spread = float(np.sum((2 * np.arange(1, n + 1) - n - 1) * ordered) / n**2)
    return {"error_over_spread": float((y - draws.mean()) / draws.std()), "pit": float(np.mean(draws < y)),
            "crps": float(np.mean(np.abs(draws - y)) - spread)}


def load(text):
    return tomllib.loads(text)


def band(draws):
    """Median and 80 % band, out of the logarithm."""
    return [float(np.exp(q)) for q in np.quantile(draws, [0.1, 0.5, 0.9])]


def binomial_interval(hits, count):
    """Clopper-Pearson, 90 %."""
    low = stats.beta.ppf(0.05, hits, count - hits + 1) if hits else 0.0
    high = stats.beta.ppf(0.95, hits + 1, count - hits) if hits < count else 1.0
    return float(low), float(high)
