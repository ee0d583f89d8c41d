"""Where a part lies in its file."""

import math
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Pose:
    """File point = scale * (rotation @ part point + offset); `scale` is file units per millimetre."""

    rotation: tuple = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    offset: tuple = (0.0, 0.0, 0.0)
    scale: float = 1.0

    def points(self, points) -> np.ndarray:
        turned = np.asarray(points, dtype=np.float64) @ np.array(self.rotation).T
        return (turned + np.array(self.offset)) * self.scale

    def direction(self, vector) -> np.ndarray:
        return np.array(self.rotation) @ np.asarray(vector, dtype=np.float64)


def about_z(degrees: float) -> tuple:
    """Turn about z."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return ((c, -s, 0.0), (s, c, 0.0), (0.0, 0.0, 1.0))


# Rows give the file's axes in the part's: a rod that stands on its big end, pin axis along file y.
STANDING = ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (-1.0, 0.0, 0.0))
# A rod that lies on its side, pin axis along file x, rod along file y.
ON_SIDE = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
