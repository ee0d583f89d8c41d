"""How much the factors move with what the table holds fixed: shank, blend, Poisson's ratio, pin modulus."""

from dataclasses import replace

import numpy as np

import family
from contact import with_elastic_pin
from mesh import Fineness
from table import digits

# Peaks on this mesh are within 0.3 % of the table's in pull; only ratios are reported.
COARSE = Fineness(around=180, radial=18, growth=1.22)
CASES = {
    "shank_0.5": {"shank_ratio": 0.5},
    "shank_1.0": {"shank_ratio": 1.0},
    "blend_0.1": {"blend_ratio": 0.1},
    "blend_0.35": {"blend_ratio": 0.35},
    "poisson_0.25": {"poisson": 0.25},
    "poisson_0.45": {"poisson": 0.45},
}
# Modulus of a solid pin over the eye's.
PINS = {"pin_modulus_40": 40.0, "pin_modulus_14": 14.0, "pin_modulus_1": 1.0}


def run() -> list[dict]:
    """Peak, blend peak and half-angle of each case, with the base case beside it."""
    rows = []
    for ratio in (1.25, 1.6, 2.0, 3.0):
        base = family.prepare(ratio, COARSE)
        for name, change in CASES.items():
            rows += _compare(name, base, family.prepare(ratio, COARSE, **change))
        for name, modulus in PINS.items():
            rows += _compare(name, base, replace(base, response=with_elastic_pin(base.response, modulus)))
    return rows


def _compare(name: str, base: family.Eye, other: family.Eye) -> list[dict]:
    rows = []
    for direction in family.DIRECTIONS:
        for load in (0.02, 0.2, 1.0, 5.0, np.inf):
            was, now = family.solve(base, direction, load), family.solve(other, direction, load)
            rows.append({
                "case": name, "width_ratio": base.width_ratio, "direction": direction,
                "load": None if np.isinf(load) else load,
                "base_peak": digits(was.peak), "peak": digits(now.peak),
                "base_peak_angle_deg": digits(was.peak_angle_deg), "peak_angle_deg": digits(now.peak_angle_deg),
                "base_blend_peak": digits(was.blend_peak), "blend_peak": digits(now.blend_peak),
                "base_half_angle_deg": digits(was.half_angle_deg), "half_angle_deg": digits(now.half_angle_deg),
            })
    return rows
