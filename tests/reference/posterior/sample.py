"""Draws from the posterior, seeded: first the strengths, then the parts that lean on them."""

import hashlib
import os

os.environ.setdefault("XLA_FLAGS", "--xla_cpu_multi_thread_eigen=false intra_op_parallelism_threads=1")
os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from pathlib import Path

import jax
import jax.numpy as jnp
import numpy as np
import numpyro
from numpyro.infer import MCMC, NUTS, init_to_median

import rest
import rows as R
import static

jax.config.update("jax_enable_x64", True)
numpyro.set_platform("cpu")
KEPT = Path(__file__).resolve().parents[3] / "target/posterior"
jax.config.update("jax_compilation_cache_dir", str(KEPT / "compiled"))
jax.config.update("jax_persistent_cache_min_compile_time_secs", 0.5)

REST = ("wet", "warm", "cycles", "held", "rates", "crept", "weld")
SEED = R.SEED


def numeric(a):
    return {k: jnp.asarray(v) for k, v in a.items() if isinstance(v, np.ndarray)}


class Sampler:
    """Both parts, compiled once; a source is left out by silencing its rows, and a refit starts from the last one's step and mass."""

    def __init__(self, a, indices, warmup, draws):
        self.a, self.indices, self.draws = a, indices, draws
        self.who = static.prepare(a)
        self.sizes = {k: len(v) for k, v in indices.items()}
        who, sizes = self.who, self.sizes
        options = {"target_accept_prob": 0.9, "max_tree_depth": 7, "init_strategy": init_to_median}
        make = lambda m: MCMC(NUTS(m, **options), num_warmup=warmup, num_samples=draws, progress_bar=False)
        self.static = make(lambda silent: static.model(a, who, silent))
        self.rest = make(lambda arrays, mask: rest.model(arrays, mask, sizes))
        self.kept = {}

    def keep(self, part, without=()):
        """True for the rows of a part that speak."""
        return np.array([doi not in without for doi in self.a[f"{part}_doi"]], dtype=bool)

    def run(self, name, *arguments, seed, burn=100):
        mcmc = getattr(self, name)
        if name in self.kept:
            mcmc.post_warmup_state = self.kept[name]
        else:
            burn = 0
        mcmc.run(jax.random.PRNGKey(seed), *arguments, extra_fields=("diverging",))
        self.kept.setdefault(name, mcmc.last_state)
        self.divergent = int(mcmc.get_extra_fields()["diverging"].sum())
        return {k: np.asarray(v)[burn:] for k, v in mcmc.get_samples().items()}

    def strengths(self, without=(), seed=SEED):
        keep = self.keep("static", without)
        return self.run("static", jnp.asarray((~keep).astype(float)), seed=seed), keep

    def others(self, along, without=(), off=(), seed=SEED):
        arrays = {**numeric(self.a), **{k: jnp.asarray(v) for k, v in along.items()}}
        mask = {p: jnp.asarray(self.keep(p, without) & (p not in off)) for p in REST}
        return self.run("rest", arrays, mask, seed=seed)

    def along(self, draws, keep, thin=20):
        """Strength along the beads of a new printer, for each fatigue and rupture row's family: mean and spread of ln."""
        a, found = self.a, {}
        asked = {part: [(int(p), int(f), int(m), 15.0) for p, f, m in zip(a[f"{part}_polymer"], a[f"{part}_fibre"], a[f"{part}_family"])]
                 for part in ("cycles", "held")}
        known = static.moments(a, self.who, draws, sorted({q for qs in asked.values() for q in qs}), keep, thin)
        for part, qs in asked.items():
            found[f"{part}_along"] = np.array([known[q][0][0] for q in qs])
            found[f"{part}_along_sd"] = np.array([np.sqrt(known[q][2][0, 0]) for q in qs])
        return found


def fingerprint(*more):
    """Of the rows, the recalled numbers and the scripts that draws depend on."""
    here = Path(__file__).resolve().parent
    files = sorted(R.EVIDENCE.glob("*.csv")) + sorted(R.CARDS.glob("*.toml"))
    files += [here / n for n in ("arrays.py", "resins.csv", "rest.py", "rows.py", "sample.py", "static.py", *more)]
    return hashlib.sha256(b"".join(f.read_bytes() for f in files)).hexdigest()


def kept(name, key, make):
    """Draws of an earlier run of the same rows and scripts, else made and kept."""
    path = KEPT / f"{name}.npz"
    if path.exists():
        with np.load(path) as saved:
            if "key" in saved.files and str(saved["key"]) == key:
                return {k: saved[k] for k in saved.files if k != "key"}
    KEPT.mkdir(parents=True, exist_ok=True)
    found = make()
    np.savez(path, key=key, **found)
    return found
