"""Fatigue, warmth, water, rupture, creep and the weld: the parts that are no Gaussian, each with its own population and study
effects. Where a print's own strength is not stated, that of a new printer of its family stands in (`static.py`).
"""

import jax.numpy as jnp
import numpyro
import numpyro.distributions as dist

GAS = 8.314462618e-3  # kJ/(mol K)
ATTEMPT_S, SHORT_S = 1e-13, 100.0


def shares_part(a, mask, sizes):
    """What is kept wet, and warm."""
    # ln loss soaked, by how the resin takes water, for strength and stiffness.
    start = jnp.log(jnp.array([[0.25, 0.75, 0.2], [0.1, 1.2, 0.2]]))
    wet = numpyro.sample("wet", dist.Normal(start, 0.5).to_event(2))
    spread = numpyro.sample("wet_spread", dist.HalfNormal(0.3))
    z = numpyro.sample("wet_z", dist.Normal(jnp.zeros(sizes["source"]), 1.0).to_event(1))
    mean = -jnp.exp(wet[a["wet_stiff"], a["wet_water"]] + spread * z[a["wet_source"]]) * a["wet_base"]
    scale = numpyro.sample("wet_residual", dist.HalfNormal(0.15))
    numpyro.deterministic("wet_mean", mean)
    numpyro.deterministic("wet_scale", jnp.broadcast_to(scale, mean.shape))
    with numpyro.handlers.mask(mask=mask["wet"]):
        numpyro.sample("wet_obs", dist.Normal(mean, scale), obs=a["wet_y"])
    # Warm: the card's curve to a power; one where memory was right.
    power = numpyro.sample("warm", dist.Normal(jnp.zeros(2), 0.3).to_event(1))
    spreads = numpyro.sample("warm_spread", dist.HalfNormal(0.4 * jnp.ones(2)).to_event(1))
    zf = numpyro.sample("warm_family_z", dist.Normal(jnp.zeros((sizes["family"], 2)), 1.0).to_event(2))
    zs = numpyro.sample("warm_source_z", dist.Normal(jnp.zeros((sizes["source"], 2)), 1.0).to_event(2))
    # Family and source share one spread: most families have been tested warm once, so the rows cannot part the two.
    s = a["warm_stiff"]
    own = power[s] + spreads[s] * (zf[a["warm_family"], s] + zs[a["warm_source"], s]) / jnp.sqrt(2.0)
    mean = jnp.exp(own) * a["warm_base"]
    residual = numpyro.sample("warm_residual", dist.HalfNormal(0.2))
    scale = residual * jnp.sqrt(jnp.abs(a["warm_base"]) + 0.02)
    numpyro.deterministic("warm_mean", mean)
    numpyro.deterministic("warm_scale", scale)
    with numpyro.handlers.mask(mask=mask["warm"]):
        numpyro.sample("warm_obs", dist.Normal(mean, scale), obs=a["warm_y"])


def cycles_part(a, mask, sizes):
    """Stress against life: ratio of the reversed amplitude at 1e6 cycles to the strength, slope, mean stress."""
    base = numpyro.sample("ratio", dist.Normal(jnp.log(0.2), 0.3))
    fibre = numpyro.sample("ratio_fibre", dist.Normal(jnp.array([0.2, 0.2]), 0.2).to_event(1))
    sintered = numpyro.sample("ratio_sintered", dist.Normal(0.2, 0.25))
    layer = numpyro.sample("ratio_layer", dist.Normal(jnp.log(0.85), 0.25))
    between = numpyro.sample("ratio_spread", dist.HalfNormal(jnp.array([0.3, 0.3])).to_event(1))
    zf = numpyro.sample("ratio_family_z", dist.Normal(jnp.zeros(sizes["family"]), 1.0).to_event(1))
    zs = numpyro.sample("ratio_series_z", dist.Normal(jnp.zeros(sizes["series"]), 1.0).to_event(1))
    k = numpyro.sample("slope", dist.Normal(jnp.log(8.0), 0.3))
    k_fibre = numpyro.sample("slope_fibre", dist.Normal(jnp.array([0.2, 0.2]), 0.15).to_event(1))
    k_spread = numpyro.sample("slope_spread", dist.HalfNormal(0.3))
    kz = numpyro.sample("slope_series_z", dist.Normal(jnp.zeros(sizes["series"]), 1.0).to_event(1))
    w = numpyro.sample("walker", dist.Normal(0.45, 0.15))
    w_spread = numpyro.sample("walker_spread", dist.HalfNormal(0.2))
    wz = numpyro.sample("walker_series_z", dist.Normal(jnp.zeros(sizes["series"]), 1.0).to_event(1))
    pad = lambda two: jnp.concatenate([jnp.zeros(1), two])
    f, fam, ser = a["cycles_fibre"], a["cycles_family"], a["cycles_series"]
    ratio = (base + pad(fibre)[f] + sintered * a["cycles_sintered"] + layer * a["cycles_layer"] + between[0] * zf[fam]
             + between[1] * zs[ser])
    ln_k = k + pad(k_fibre)[f] + k_spread * kz[ser]
    walker = w + w_spread * wz[ser]
    own = numpyro.sample("cycles_strength_z", dist.Normal(jnp.zeros(sizes["series"]), 1.0).to_event(1))
    stand_in = a["cycles_along"] + a["cycles_along_sd"] * own[ser]
    strength = jnp.where(a["cycles_known"] > 0.5, a["cycles_strength"], stand_in)
    stress = strength + ratio - a["cycles_lnn"] / jnp.exp(ln_k) - walker * a["cycles_lnr"]
    kind = a["cycles_kind"]
    mean = jnp.where(kind <= 1, stress, jnp.where(kind == 2, ln_k, walker))
    residual = numpyro.sample("cycles_residual", dist.HalfNormal(jnp.array([0.15, 0.2, 0.15])).to_event(1))
    scale = residual[jnp.array([0, 0, 1, 2])[kind]]
    numpyro.deterministic("cycles_mean", mean)
    numpyro.deterministic("cycles_scale", scale)
    numpyro.deterministic("cycles_ln_k", ln_k)
    normal = dist.Normal(mean, scale)
    run_out = kind == 1
    with numpyro.handlers.mask(mask=mask["cycles"] & ~run_out):
        numpyro.sample("cycles_obs", normal, obs=a["cycles_y"])
    survived = dist.Normal(0.0, 1.0).cdf((mean - a["cycles_y"]) / scale)
    numpyro.factor("cycles_run_out", jnp.sum(jnp.where(mask["cycles"] & run_out, jnp.log(survived + 1e-9), 0.0)))


def creep_part(a, mask, sizes):
    """Rupture by Zhurkov's law through the short-term strength, and Findley's creep strain."""
    shift = numpyro.sample("energy", dist.Normal(0.0, 0.2))
    spread = numpyro.sample("energy_spread", dist.HalfNormal(0.2))
    z = numpyro.sample("energy_source_z", dist.Normal(jnp.zeros(sizes["source"]), 1.0).to_event(1))
    # The energy itself must exceed that of the short test; it is the excess over it that the rows move.
    def excess(memory, source, kelvin):
        room = memory - GAS * 296.15 * jnp.log(SHORT_S / ATTEMPT_S)
        moved = room * jnp.exp(2.0 * (shift + spread * z[source]))
        whole = moved + GAS * 296.15 * jnp.log(SHORT_S / ATTEMPT_S)
        return jnp.maximum(whole - GAS * kelvin * jnp.log(SHORT_S / ATTEMPT_S), 5.0)
    own = numpyro.sample("held_strength_z", dist.Normal(jnp.zeros(sizes["held_print"]), 1.0).to_event(1))
    strength = a["held_along"] + a["held_along_sd"] * own[a["held_print"]]
    x = jnp.exp(jnp.minimum(a["held_stress"] - strength - a["held_kept"], 1.5))
    room = excess(a["held_energy"], a["held_source"], a["held_kelvin"])
    mean = jnp.log(SHORT_S) + (1.0 - x) * room / (GAS * a["held_kelvin"])
    scale = jnp.broadcast_to(numpyro.sample("held_residual", dist.HalfNormal(1.0)) + 0.3, mean.shape)
    numpyro.deterministic("held_mean", mean)
    numpyro.deterministic("held_scale", scale)
    kind = a["held_kind"]
    gap = (mean - a["held_lnt"]) / scale
    std = dist.Normal(0.0, 1.0)
    score = jnp.where(kind == 0, dist.StudentT(4.0, mean, scale).log_prob(a["held_lnt"]),
                      jnp.where(kind == 1, jnp.log(std.cdf(gap) + 1e-9), jnp.log(std.cdf(-gap) + 1e-9)))
    numpyro.factor("held_obs", jnp.sum(jnp.where(mask["held"], score, 0.0)))
    rate_room = excess(a["rates_energy"], a["rates_source"], 296.15)
    rate = jnp.log1p(GAS * 296.15 * a["rates_lnq"] / rate_room)
    numpyro.deterministic("rates_mean", rate)
    numpyro.deterministic("rates_scale", jnp.broadcast_to(0.07, rate.shape))
    with numpyro.handlers.mask(mask=mask["rates"]):
        numpyro.sample("rates_obs", dist.Normal(rate, 0.07), obs=a["rates_y"])
    level_ = numpyro.sample("crept", dist.Normal(0.0, 0.5))
    level_spread = numpyro.sample("crept_spread", dist.HalfNormal(0.6))
    lz = numpyro.sample("crept_source_z", dist.Normal(jnp.zeros(sizes["source"]), 1.0).to_event(1))
    n = numpyro.sample("crept_exponent", dist.Normal(0.0, 0.2))
    onset = numpyro.sample("crept_onset", dist.LogNormal(jnp.log(0.4), 0.3))  # share of strength at which creep leaves proportion
    u = a["crept_level"] / onset
    mean = (a["crept_base"] + level_ + level_spread * lz[a["crept_source"]] + a["crept_exponent"] * jnp.exp(n) * a["crept_lnt"]
            + jnp.log(jnp.sinh(u) / u))
    scale = jnp.broadcast_to(numpyro.sample("crept_residual", dist.HalfNormal(0.4)), mean.shape)
    numpyro.deterministic("crept_mean", mean)
    numpyro.deterministic("crept_scale", scale)
    with numpyro.handlers.mask(mask=mask["crept"]):
        numpyro.sample("crept_obs", dist.Normal(mean, scale), obs=a["crept_y"])


def weld_part(a, mask):
    gain = numpyro.sample("weld", dist.Normal(0.6, 0.4))
    spread = numpyro.sample("weld_spread", dist.HalfNormal(0.5))
    scale = jnp.sqrt(spread**2 + 0.05**2)
    mean = jnp.broadcast_to(gain, a["weld_y"].shape)
    numpyro.deterministic("weld_mean", mean)
    numpyro.deterministic("weld_scale", jnp.broadcast_to(scale, mean.shape))
    with numpyro.handlers.mask(mask=mask["weld"]):
        numpyro.sample("weld_obs", dist.Normal(mean, scale), obs=a["weld_y"])


def model(a, mask, sizes):
    shares_part(a, mask, sizes)
    cycles_part(a, mask, sizes)
    creep_part(a, mask, sizes)
    weld_part(a, mask)
