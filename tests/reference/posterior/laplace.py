"""The spreads of the strengths without a source, by Laplace's approximation: the mode of their posterior and its curvature.

Sampling them afresh for each source left out would take minutes each; the mode moves little and is found in a second. Draws are
made in the unbounded space the sampler uses.
"""

import jax
import jax.numpy as jnp
import numpy as np
from jax.flatten_util import ravel_pytree
from numpyro.infer import init_to_median
from numpyro.infer.util import initialize_model
from scipy.optimize import minimize

import static

DRAWS = 48


class Modes:
    def __init__(self, a, who, seed):
        self.a, self.who = a, who
        silent = jnp.zeros(len(a["static_y"]))
        begun = initialize_model(jax.random.PRNGKey(seed), static.model, model_args=(a, who, silent), init_strategy=init_to_median,
                                 dynamic_args=True)
        start, self.unravel = ravel_pytree(begun.param_info.z)
        potential, constrain = begun.potential_fn, begun.postprocess_fn
        flat = lambda x, s: potential(a, who, s)(self.unravel(x))
        self.both = jax.jit(jax.value_and_grad(flat))
        self.constrain = lambda x: constrain(a, who, silent)(self.unravel(x))
        self.at = np.asarray(start)

    def gradient(self, x, silent):
        return np.asarray(self.both(jnp.asarray(x), silent)[1])

    def mode(self, silent):
        value = lambda x: tuple(np.asarray(v, dtype=float) for v in self.both(jnp.asarray(x), silent))
        found = minimize(value, self.at, jac=True, method="L-BFGS-B", options={"maxiter": 400, "gtol": 1e-3})
        return found.x

    def draws(self, keep, seed):
        """Draws of the spreads given the rows that `keep` marks."""
        silent = jnp.asarray((~keep).astype(float))
        top = self.mode(silent)
        if keep.all():
            self.at = top
        n, step = len(top), 1e-3
        curve = np.empty((n, n))
        for i in range(n):
            unit = np.zeros(n)
            unit[i] = step
            curve[i] = (self.gradient(top + unit, silent) - self.gradient(top - unit, silent)) / (2 * step)
        curve = (curve + curve.T) / 2
        level, axes = np.linalg.eigh(curve)
        # A direction the rows and priors hardly bend is held to one unit: it is a spread near nought, in its logarithm.
        width = 1.0 / np.sqrt(np.maximum(level, 1.0))
        normal = np.random.default_rng(seed).standard_normal((DRAWS, n))
        points = top + (normal * width) @ axes.T
        found = [self.constrain(jnp.asarray(p)) for p in points]
        return {k: np.array([np.asarray(f[k]) for f in found]) for k in found[0]}


def predict(a, who, draws, rows, keep):
    """Means and covariances of `rows` given those that `keep` marks, one a draw."""
    found = []
    for i in range(len(draws["residual"])):
        k, mean, _, _ = static.covariance(a, who, static.unpack(draws, i), np)
        cross = k[np.ix_(rows, keep)]
        gain = np.linalg.solve(k[np.ix_(keep, keep)], cross.T).T
        centre = mean[rows] + gain @ (a["static_y"][keep] - mean[keep])
        found.append((centre, np.diag(k)[rows] - np.sum(gain * cross, axis=1)))
    return found
