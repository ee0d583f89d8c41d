"""Colour vision deficiency after Machado, Oliveira & Fernandes (2009), as `colorspacious` computes it, at full severity."""

import numpy as np
from colorspacious import cspace_convert

DEFICIENCIES = {"usual vision": None, "protan": "protanomaly", "deutan": "deuteranomaly", "tritan": "tritanomaly"}


def seen(rgb, deficiency):
    """How sRGB from 0 to 1 looks."""
    kind = DEFICIENCIES[deficiency]
    if kind is None:
        return np.asarray(rgb)
    space = {"name": "sRGB1+CVD", "cvd_type": kind, "severity": 100}
    return np.clip(cspace_convert(rgb, space, "sRGB1"), 0, 1)


def cam02_ucs(rgb):
    """CAM02-UCS (Luo, Cui & Li 2006) of sRGB from 0 to 1; distances in it are perceived distances."""
    return cspace_convert(rgb, "sRGB1", "CAM02-UCS")
