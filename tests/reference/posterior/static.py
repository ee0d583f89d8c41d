"""Strength and stiffness: a Gaussian once its spreads are known, so that only those are sampled.

ln y = population + resin + polymer + fibre + family + source + print + covariates + residual. Everything but the spreads, the
leanings and the shares of crossed layers is Gaussian and summed out exactly; `given` returns what is left of it for a card.
"""

import jax.numpy as jnp
import numpy as np
import numpyro
import numpyro.distributions as dist

import rows as R

D = len(R.STATIC)
# Spread of a level's effects, half-normal: along, across, layer, shear, compression, then the three stiffnesses.
POLYMER = np.array([0.15, 0.15, 0.3, 0.25, 0.15, 0.15, 0.1, 0.15])
FAMILY = np.array([0.15, 0.15, 0.3, 0.2, 0.15, 0.15, 0.15, 0.15])
SOURCE = np.array([0.2, 0.15, 0.4, 0.3, 0.15, 0.2, 0.1, 0.15])
PRINT = np.array([0.2, 0.15, 0.3, 0.2, 0.15, 0.15, 0.1, 0.1])
RESIDUAL = np.array([0.12, 0.12, 0.25, 0.2, 0.15, 0.12, 0.12, 0.15])
# Which earlier property each leans on (layer shear on the layer, stiffness across on that along), and how much, as recalled.
LEAN = {1: 0, 2: 0, 3: 2, 4: 0, 5: 0, 6: 5, 7: 5}
LEAN_MEAN = np.array([1.0, 0.7, 0.8, 0.8, 0.5, 0.9, 0.9])
LEAN_SPREAD = np.array([0.25, 0.4, 0.3, 0.3, 0.3, 0.25, 0.25])
# Gaussian parts, prior mean and spread: population at a resin of 60 MPa and 2500 MPa; slope on the resin; carbon; glass.
BASE = np.log([50.0, 40.0, 25.0, 20.0, 65.0, 2400.0, 2200.0, 2000.0])
BASE_SPREAD = np.array([0.2, 0.3, 0.4, 0.4, 0.3, 0.2, 0.25, 0.25])
SLOPE = np.array([1.0, 1.0, 0.8, 0.8, 1.0, 1.0, 1.0, 1.0])
SLOPE_SPREAD = np.full(D, 0.25)
CARBON = np.array([0.3, -0.1, -0.2, -0.1, 0.1, 0.9, 0.3, 0.1])
GLASS = np.array([0.25, 0.0, -0.1, -0.1, 0.1, 0.6, 0.25, 0.1])
FIBRE_SPREAD = np.array([0.25, 0.25, 0.4, 0.3, 0.25, 0.35, 0.3, 0.3])
# Data sheets (along and across, layer, stiffness), then filament, moulded, sintered, best setting, in-plane shear.
OFFSET = np.array([0.1, 0.3, 0.0, 0.05, 0.15, 0.0, 0.1, 0.3])
OFFSET_SPREAD = np.array([0.15, 0.25, 0.15, 0.1, 0.1, 0.15, 0.1, 0.3])
SHEET_KIND = np.array([0, 0, 1, 2, 0, 2, 2, 2])
MEAN = np.concatenate([BASE, SLOPE, CARBON, GLASS, OFFSET])
SPREAD = np.concatenate([BASE_SPREAD, SLOPE_SPREAD, FIBRE_SPREAD, FIBRE_SPREAD, OFFSET_SPREAD])


def spreads():
    """The sampled part."""
    half = lambda name, scale: numpyro.sample(name, dist.HalfNormal(scale).to_event(1))
    h = {"polymer": half("polymer", POLYMER), "family": half("family", FAMILY), "source": half("source", SOURCE),
         "print": half("print", PRINT), "residual": half("residual", RESIDUAL)}
    for name in ("lean_family", "lean_print"):
        h[name] = numpyro.sample(name, dist.Normal(LEAN_MEAN, LEAN_SPREAD).to_event(1))
    h["raster"] = numpyro.sample("raster", dist.Normal(np.array(list(R.RASTERS.values())), 0.12).to_event(1))
    h["sheet_calm"] = numpyro.sample("sheet_calm", dist.LogNormal(-0.5, 0.4))
    return h


def level(spread, lean, xp=jnp):
    """Covariance of one unit's eight effects: each its own draw and a share of the one it leans on."""
    rows = []
    for d in range(D):
        own = xp.eye(D)[d]
        rows.append(own if d not in LEAN else own + lean[d - 1] * rows[LEAN[d]])
    t = xp.stack(rows)
    return t @ xp.diag(spread**2) @ t.T


def weights(a, raster, xp=jnp):
    """Which property each row speaks of: crossed layers lie between along and square to the beads."""
    one = np.eye(D)
    w = xp.asarray(one[a["static_dim"]])
    share = xp.where(a["static_raster"] >= 0, raster[np.maximum(a["static_raster"], 0)], 0.0)
    toward = one[np.maximum(a["static_toward"], 0)] * (a["static_toward"] >= 0)[:, None]
    w = w + share[:, None] * (toward - w * (a["static_toward"] >= 0)[:, None])
    return w - one[np.maximum(a["static_minus"], 0)] * (a["static_minus"] >= 0)[:, None]


def fixed(a, w, xp=jnp):
    """Columns of the Gaussian parts that are no level."""
    fibre = lambda kind: (a["static_fibre"] == kind)[:, None] * a["static_share"][:, None] * w
    sheet = a["static_flags"][:, :1] * np.eye(3)[SHEET_KIND[a["static_dim"]]]
    return xp.concatenate([w, w * a["resin"][a["static_polymer"]], fibre(1), fibre(2), sheet, a["static_flags"][:, 1:]], axis=1)


def same(units, also=None):
    units = np.asarray(units)
    mask = (units[:, None] == units[None, :]).astype(float)
    return mask if also is None else mask * np.outer(also, also)


def prepare(a):
    """Who shares what, once."""
    filled = (a["static_fibre"] > 0).astype(float)
    return {"polymer": same(a["static_polymer"]), "family": same(a["static_family"], filled), "source": same(a["static_source"]),
            "print": same(a["static_series"]), "sheet": np.asarray(a["sheet_source"])[a["static_source"]]}


def covariance(a, who, h, xp=jnp):
    w = weights(a, h["raster"], xp)
    x = fixed(a, w, xp)
    k = x @ xp.diag(SPREAD**2) @ x.T
    k = k + who["polymer"] * (w @ level(h["polymer"], h["lean_family"], xp) @ w.T)
    k = k + who["family"] * (w @ level(h["family"], h["lean_family"], xp) @ w.T)
    calm = xp.where(who["sheet"] > 0.5, h["sheet_calm"], 1.0)[:, None] * w
    k = k + who["source"] * (calm @ level(h["source"], h["lean_print"], xp) @ calm.T)
    k = k + who["print"] * (w @ level(h["print"], h["lean_print"], xp) @ w.T)
    noise = h["residual"][a["static_dim"]] ** 2 + a["static_error"] ** 2
    return k + xp.diag(noise), x @ MEAN, w, x


def model(a, who, silent):
    """`silent` is one where a row is left out: its noise is made to drown it."""
    h = spreads()
    k, mean, _, _ = covariance(a, who, h)
    k = k + jnp.diag(1e6 * silent)
    numpyro.sample("y", dist.MultivariateNormal(mean, covariance_matrix=k), obs=jnp.asarray(a["static_y"]))


def unpack(draws, i):
    return {k: v[i] for k, v in draws.items()}


def blocks(a, who, draws, sources):
    """For each source and draw: mean and spread of its rows given all others, and the density of what they show.

    From the inverse of the covariance: Rasmussen & Williams, Gaussian Processes for Machine Learning, section 5.4.2, for blocks.
    """
    found = {s: [] for s in sources}
    y, doi = a["static_y"], np.array(a["static_doi"])
    for i in range(len(draws["residual"])):
        k, mean, _, _ = covariance(a, who, unpack(draws, i), np)
        inverse = np.linalg.inv(k)
        pull = inverse @ (y - mean)
        for s in sources:
            at = np.flatnonzero(doi == s)
            cov = np.linalg.inv(inverse[np.ix_(at, at)])
            centre = y[at] - cov @ pull[at]
            gap = y[at] - centre
            density = -0.5 * (gap @ np.linalg.solve(cov, gap) + np.linalg.slogdet(cov)[1])
            found[s].append((centre, np.sqrt(np.diag(cov)), density))
    return found


class Given:
    """The rows' covariance for one draw of the spreads, solved once for all families asked of it."""

    def __init__(self, a, who, h, keep=None):
        k, mean, w, x = covariance(a, who, h, np)
        self.a, self.h, self.keep = a, h, np.ones(len(mean), dtype=bool) if keep is None else keep
        self.w, self.x = w, x
        self.inverse = np.linalg.inv(k[np.ix_(self.keep, self.keep)])
        self.pull = self.inverse @ (a["static_y"][self.keep] - mean[self.keep])
        self.levels = {n: level(h[n], h["lean_family"], np) for n in ("polymer", "family")}
        self.new = (level(h["source"], h["lean_print"], np) + level(h["print"], h["lean_print"], np) + np.diag(h["residual"] ** 2))

    def family(self, polymer, fibre, family, share):
        """Mean and covariance of a family's eight values; a new printer's covariance has `new` on top."""
        a, own = self.a, np.eye(D)
        fibres = [own * np.sqrt(share / 15.0) if fibre == kind else np.zeros((D, D)) for kind in (1, 2)]
        xc = np.concatenate([own, own * a["resin"][polymer], *fibres, np.zeros((D, len(OFFSET)))], axis=1)
        cp, cf = self.levels["polymer"], self.levels["family"]
        prior = xc @ np.diag(SPREAD**2) @ xc.T + cp + (cf if fibre > 0 else 0.0)
        cross = xc @ np.diag(SPREAD**2) @ self.x.T + (a["static_polymer"] == polymer) * (cp @ self.w.T)
        if fibre > 0:
            cross = cross + (a["static_family"] == family) * (cf @ self.w.T)
        cross = cross[:, self.keep]
        return xc @ MEAN + cross @ self.pull, prior - cross @ self.inverse @ cross.T


def moments(a, who, draws, asked, keep=None, thin=1):
    """For each asked (polymer, fibre, family, share): mean, covariance of the family's own value, and of a new printer's."""
    means, own, new = {q: [] for q in asked}, {q: [] for q in asked}, []
    for i in range(0, len(draws["residual"]), thin):
        given = Given(a, who, unpack(draws, i), keep)
        new.append(given.new)
        for q in asked:
            centre, cov = given.family(*q)
            means[q].append(centre)
            own[q].append(cov)
    found = {}
    for q in asked:
        family = np.mean(own[q], axis=0) + np.cov(np.array(means[q]).T)
        found[q] = (np.mean(means[q], axis=0), family, family + np.mean(new, axis=0))
    return found
