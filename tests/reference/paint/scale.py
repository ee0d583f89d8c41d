"""The colour scale of painted meshes, made a second time with a general colour library."""

import math
from functools import cache

import colour
import numpy as np

STEPS = 256
NOT_MEASURED = (0x70, 0x70, 0x70)

# Lightness, chroma and hue in degrees in OKLab (Ottosson 2020), from the good end: the corners in cli/src/paint/path.rs.
CORNERS = [(0.945, 0.04, 218.0), (0.902, 0.0, 209.0), (0.778, 0.153, 117.0), (0.666, 0.152, 68.0), (0.47, 0.19, 27.0)]

# Viewing conditions of sRGB (IEC 61966-2-1): 64 lx, grey surround of 20 %.
ADAPTING_LUMINANCE = 64 / math.pi / 5


def curve(share):
    """sRGB, not clipped, at shares of the Bezier curve, in Bernstein form."""
    polar = np.array(CORNERS)
    angle = np.radians(polar[:, 2])
    corners = np.stack([polar[:, 0], polar[:, 1] * np.cos(angle), polar[:, 1] * np.sin(angle)], axis=-1)
    degree = len(corners) - 1
    weights = [math.comb(degree, i) * (1 - share) ** (degree - i) * share**i for i in range(degree + 1)]
    return colour.XYZ_to_sRGB(colour.Oklab_to_XYZ(np.stack(weights, axis=-1) @ corners))


def cam16_ucs(rgb):
    """CAM16-UCS (Li et al. 2017) of sRGB."""
    white = colour.xy_to_XYZ(colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]) * 100
    seen = colour.XYZ_to_CAM16(colour.sRGB_to_XYZ(rgb) * 100, white, ADAPTING_LUMINANCE, 20.0)
    return colour.JMh_CAM16_to_CAM16UCS(np.stack([seen.J, seen.M, seen.h], axis=-1))


@cache
def good_to_bad():
    """The steps as numbers from 0 to 1, from the good end."""
    share = np.linspace(0, 1, 8001)
    seen = cam16_ucs(curve(share))
    length = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(seen, axis=0), axis=1))])
    middles = (np.arange(STEPS) + 0.5) / STEPS * length[-1]
    return curve(np.interp(middles, length, share))


def low_to_high(bad_end):
    """The steps as red, green and blue from 0 to 255, from the low end."""
    steps = np.rint(np.clip(good_to_bad(), 0, 1) * 255).astype(int)
    return steps[::-1] if bad_end == "low" else steps


def step_of(values, low, high):
    """Step of every value."""
    return np.clip(np.floor((values - low) / (high - low) * STEPS), 0, STEPS - 1).astype(int)
