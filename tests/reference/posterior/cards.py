"""Writes the material cards: what was recalled of each, with the posterior's values in the places of those that rows speak of.

Plain Python: no fit is needed. A posterior that no longer counts the rows as they are is refused.
"""

import math
import sys
import tomllib

import emit
import lists
import rows as R

POSTERIOR = R.ROOT / "core/src/material/posterior/cards.toml"
OUT = R.ROOT / "core/src/material/cards"
RULE_SPREAD = 0.2  # memory: how far a value by rule lies from the one it is taken from
BEARING = 0.6 * 0.75  # memory: share of the compression strength, and a service factor for a bore with printed walls
DIGITS = 3

# Table and key of the card, name of the value in reports, property of the posterior that it is.
PLAIN = [
    ("stiffness", "bead_mpa", "stiffness along beads", "bead_modulus"),
    ("stiffness", "across_mpa", "stiffness across beads", "across_modulus"),
    ("stiffness", "layer_mpa", "stiffness across layers", "layer_modulus"),
    ("strength", "bead_mpa", "strength along beads", "bead"),
    ("strength", "across_mpa", "strength across beads", "across"),
    ("strength", "layer_mpa", "strength across layers", "layer"),
    ("strength", "layer_shear_mpa", "shear strength between layers", "layer_shear"),
    ("strength", "compression_mpa", "compression strength", "compression"),
    ("fatigue", "ratio_1e6", "fatigue ratio at a million cycles", "fatigue_ratio"),
    ("fatigue", "exponent", "fatigue exponent", "fatigue_exponent"),
    ("fatigue", "layer_ratio_1e6", "fatigue ratio across layers", "fatigue_layer_ratio"),
    ("fatigue", "layer_exponent", "fatigue exponent across layers", "fatigue_layer_exponent"),
    ("retention", "strength_power", "power of strength kept warm", "warm_strength_power"),
    ("retention", "stiffness_power", "power of stiffness kept warm", "warm_stiffness_power"),
]
GAS, ZERO_C = 8.314462618e-3, 273.15  # kJ/(mol K), K
LEAST_DECADES = 2.0  # memory: by how much longer than a short test half the strength lasts, however warm


class Known:
    """The posterior of one card: a Gaussian over its properties."""

    def __init__(self, names, card, behind):
        self.names, self.card, self.behind = names, card, behind
        lower = [[]] + card["correlation"]
        n = len(names)
        full = [[1.0 if i == j else lower[max(i, j)][min(i, j)] for j in range(n)] for i in range(n)]
        self.cov = [[full[i][j] * card["spread"][i] * card["spread"][j] for j in range(n)] for i in range(n)]

    def of(self, field, name):
        return self.card[field][self.names.index(name)]


class Values:
    """Values of a card as they follow from the properties: logarithm = row times properties, and a rule's own spread."""

    def __init__(self, known):
        self.known, self.list = known, []

    def add(self, place, name, value, row, rule=0.0, note=None, behind=None):
        self.list.append({"place": place, "name": name, "value": value, "row": row, "rule": rule, "note": note, "behind": behind})

    def covariance(self, a, b):
        names, cov = self.known.names, self.known.cov
        total = sum(x * y * cov[names.index(p)][names.index(q)] for p, x in a["row"].items() for q, y in b["row"].items())
        return total + (a["rule"] ** 2 if a is b else 0.0)

    def memory(self, v):
        """Share of the variance on memory: each property's own share by its part, and all of what a rule adds."""
        parts = {p: (x * self.known.of("spread", p)) ** 2 for p, x in v["row"].items()}
        left = sum(part * self.known.of("memory", p) for p, part in parts.items()) + v["rule"] ** 2
        return left / (sum(parts.values()) + v["rule"] ** 2)

    def entry(self, v):
        """The value as the card has it."""
        memory = self.memory(v)
        entry = {"value": rounded(v["value"])}
        if v["behind"] is None:
            entry["source"] = "pooled" if memory < 0.5 else "memory"
        else:
            entry["source"] = self.known.of("word", v["behind"])
            if entry["source"] == "published":
                entry["reference"] = "; ".join(self.known.behind[v["behind"]].cited())
        entry["spread"] = round(math.sqrt(self.covariance(v, v)), 3)
        entry["memory"] = round(memory, 3)
        if v["behind"] is not None:
            entry["behind"] = self.known.behind[v["behind"]].told()
        if v["note"]:
            entry["note"] = v["note"]
        return entry

    def correlation(self):
        """Lower triangle, two digits, of a matrix that stays a covariance."""
        c = [[self.covariance(a, b) for b in self.list] for a in self.list]
        n, shrink = len(c), 1.0
        while True:
            r = [[round(shrink * c[i][j] / math.sqrt(c[i][i] * c[j][j]), 2) + 0.0 if i != j else 1.0 for j in range(n)] for i in range(n)]
            if positive(r):
                return [r[i][:i] for i in range(1, n)]
            shrink *= 0.995


def positive(m):
    """Whether a symmetric matrix has a Cholesky factor."""
    n, low = len(m), [[0.0] * len(m) for _ in m]
    for i in range(n):
        for j in range(i + 1):
            left = m[i][j] - sum(low[i][k] * low[j][k] for k in range(j))
            if i == j and left <= 1e-4:
                return False
            low[i][j] = math.sqrt(left) if i == j else left / low[j][j]
    return True


def energy(centre, recalled):
    """Activation energy, and why it is more than the posterior's centre where it is.

    Its rows were held at 23 to 60 °C. A card serves up to its softening temperature, where by a small energy nothing would last.
    """
    creep, softening = recalled["creep"], recalled["temperature"]["softening_c"]["value"]
    short = math.log(creep["short_test_s"]["value"] / creep["attempt_time_s"]["value"])
    least = GAS * (softening + ZERO_C) * (short + 2.0 * LEAST_DECADES * math.log(10.0))
    if centre >= least:
        return centre, None
    return math.ceil(least), (f"The centre of its tests, at 23 to 60 °C, is {rounded(centre):g}; raised so that up to the softening temperature half "
                              f"the strength lasts {10.0 ** LEAST_DECADES:g} times as long as a short test.")


def rounded(value):
    """To three digits: spreads are of tens of per cent."""
    return float(f"{value:.{DIGITS}g}")


def values_of(known, recalled):
    """Every value of a card that the posterior speaks of, with those that follow from one by a rule."""
    found = Values(known)
    mean = lambda name: known.of("mean", name)
    for table, key, name, prop in PLAIN:
        found.add((table, key), name, math.exp(mean(prop)), {prop: 1.0}, behind=prop)
    value, note = energy(math.exp(mean("rupture_energy")), recalled)
    found.add(("creep", "activation_energy_kj_mol"), "activation energy of rupture", value, {"rupture_energy": 1.0}, note=note,
              behind="rupture_energy")
    poisson = recalled["stiffness"]["poisson_ratio"]["value"]
    found.add(("stiffness", "layer_shear_mpa"), "shear stiffness between layers",
              math.exp(mean("layer_modulus")) / (2.0 * (1.0 + poisson)), {"layer_modulus": 1.0}, RULE_SPREAD,
              "By rule: stiffness across layers over 2 (1 + Poisson's ratio).")
    found.add(("strength", "bearing_pressure_mpa"), "bearing pressure", BEARING * math.exp(mean("compression")), {"compression": 1.0},
              RULE_SPREAD, "By rule: 0.6 of the compression strength times a service factor of 0.75 for a bore with printed walls; short "
              "term, 23 °C.")
    # The exponent itself is Gaussian, not its logarithm: spread over mean.
    found.add(("fatigue", "walker_exponent"), "Walker exponent", mean("walker_exponent"), {"walker_exponent": 1.0 / mean("walker_exponent")},
              behind="walker_exponent")
    for kind in ("strength", "stiffness"):
        # ln kept in a humid room is half the loss soaked, whose logarithm is the property.
        half = 0.5 * math.exp(mean(f"wet_{kind}_loss"))
        found.add(("moisture", f"conditioned_{kind}"), f"{kind} kept when conditioned", math.exp(-half), {f"wet_{kind}_loss": -half},
                  note="50 % humid room, equilibrium: half the logarithm of the loss soaked.", behind=f"wet_{kind}_loss")
    share, scale = math.exp(mean("creep_share_1h")), recalled["creep"]["stress_scale_mpa"]["value"]
    found.add(("creep", "strain_scale"), "strain scale of creep", share * scale / math.exp(mean("bead_modulus")),
              {"creep_share_1h": 1.0, "bead_modulus": -1.0},
              note=f"Findley; at 1 h and 23 °C along the beads small stress creeps {100.0 * share:.3g} % of its elastic strain: that share "
              "times stress scale over modulus.", behind="creep_share_1h")
    return found


def check(name, names, card, behind):
    """The posterior counts what the rows hold, or it is of other rows."""
    for i, prop in enumerate(names):
        if prop in behind:
            now = behind[prop].counts()
            then = tuple(card[k][i] for k in ("own_rows", "own_sources", "own_sheet_rows", "like_rows"))
            if now != then:
                sys.exit(f"{name}, {prop}: the posterior counts {then}, the rows {now}; run `fit` first")


def written(recalled, known):
    """The text of a card."""
    found = values_of(known, recalled)
    entries = {v["place"]: found.entry(v) for v in found.list}
    correlation = {"of": [v["name"] for v in found.list], "rows": found.correlation()}
    return emit.card(recalled, entries, correlation)


if __name__ == "__main__":
    posterior = tomllib.loads(POSTERIOR.read_text())
    evidence, names = R.read(), posterior["properties"]
    for path in sorted(R.CARDS.glob("*.toml")):
        recalled = tomllib.loads(path.read_text())
        _, polymer, fibre, _ = R.cards()[recalled["name"]]
        behind = lists.behind(evidence, polymer, fibre)
        card = posterior["cards"][recalled["name"]]
        check(recalled["name"], names, card, behind)
        (OUT / path.name).write_text(written(recalled, Known(names, card, behind)))
