"""The spreads of the strengths without a source, by Laplace's approximation: the mode of their posterior and its curvature.

Sampling them afresh for each source left out would take minutes; the mode moves little and Newton's steps find it in a second.
Draws are made in the unbounded space the sampler uses.
"""

import jax
import jax.numpy as jnp
import numpy as np
from jax.flatten_util import ravel_pytree
from numpyro.infer import init_to_median
from numpyro.infer.util import initialize_model

import static

DRAWS, STEPS = 48, 6


class Modes:
    def __init__(self, a, who, seed):
        self.a, self.who = a, who
        silent = jnp.zeros(len(a["static_y"]))
        begun = initialize_model(jax.random.PRNGKey(seed), static.model, model_args=(a, who, silent), init_strategy=init_to_median,
                                 dynamic_args=True)
        start, self.unravel = ravel_pytree(begun.param_info.z)
        potential, constrain = begun.potential_fn, begun.postprocess_fn
        flat = lambda x, s: potential(a, who, s)(self.unravel(x))

        def bend(x, s):
            """Slope and curvature; a direction the rows and priors hardly bend counts as bent by one."""
            curve = jax.hessian(flat)(x, s)
            level, axes = jnp.linalg.eigh((curve + curve.T) / 2)
            return jax.grad(flat)(x, s), jnp.maximum(level, 1.0), axes

        def newton(_, state):
            x, s = state
            slope, level, axes = bend(x, s)
            step = axes @ ((axes.T @ slope) / level)
            return x - step * jnp.minimum(1.0, 3.0 / jnp.linalg.norm(step)), s

        def find(x, s):
            x, _ = jax.lax.fori_loop(0, STEPS, newton, (x, s))
            slope, level, axes = bend(x, s)
            return x, level, axes, jnp.linalg.norm(slope / jnp.sqrt(level.max()))

        self.find = jax.jit(find)
        self.constrain = jax.jit(jax.vmap(lambda x: constrain(a, who, silent)(self.unravel(x))))
        self.at = np.asarray(start)

    def draws(self, keep, seed):
        """Draws of the spreads given the rows that `keep` marks."""
        silent = jnp.asarray((~keep).astype(float))
        top, level, axes, rest = (np.asarray(v) for v in self.find(jnp.asarray(self.at), silent))
        if keep.all():
            top, level, axes, rest = (np.asarray(v) for v in self.find(jnp.asarray(top), silent))
            self.at = top
        if rest > 0.05:
            print(f"the mode is {rest:.2f} off", flush=True)
        normal = np.random.default_rng(seed).standard_normal((DRAWS, len(top)))
        found = self.constrain(jnp.asarray(top + (normal / np.sqrt(level)) @ axes.T))
        return {k: np.asarray(v) for k, v in found.items()}


def predict(a, who, draws, rows, keep):
    """Means and spreads of `rows` given those that `keep` marks, one a draw."""
    found = []
    for i in range(len(draws["residual"])):
        k, mean, _, _ = static.covariance(a, who, static.unpack(draws, i), np)
        cross = k[np.ix_(rows, keep)]
        gain = np.linalg.solve(k[np.ix_(keep, keep)], cross.T).T
        centre = mean[rows] + gain @ (a["static_y"][keep] - mean[keep])
        found.append((centre, np.sqrt(np.diag(k)[rows] - np.sum(gain * cross, axis=1))))
    return found
