"""Ways to spoil a sound mesh. Each takes and returns facets as an array of corners."""

import numpy as np


def centers(corners: np.ndarray) -> np.ndarray:
    return corners.astype(np.float64).mean(axis=1)


def nearest_facet(corners, point) -> int:
    return int(np.argmin(((centers(corners) - np.array(point)) ** 2).sum(axis=1)))


def without_patch(point, diameter_mm: float):
    """Drops every facet whose centre lies within a ball."""

    def spoil(corners):
        distance = np.linalg.norm(centers(corners) - np.array(point), axis=1)
        return corners[distance > diameter_mm / 2]

    return spoil


def without_pair(point):
    """Drops the facet nearest a point and one that shares an edge with it."""

    def spoil(corners):
        first = nearest_facet(corners, point)
        shared = (corners[:, :, None, :] == corners[first][None, None, :, :]).all(axis=3)
        beside = np.nonzero(shared.any(axis=2).sum(axis=1) == 2)[0]
        return np.delete(corners, [first, int(beside[0])], axis=0)

    return spoil


def with_one_flipped(point):
    """Turns the facet nearest a point the wrong way round."""

    def spoil(corners):
        corners = corners.copy()
        number = nearest_facet(corners, point)
        corners[number] = corners[number][::-1]
        return corners

    return spoil


def inside_out(corners):
    """Turns every facet the wrong way round."""
    return corners[:, ::-1]


def with_fin(point, height_mm: float):
    """Stands a single facet on one edge of the facet nearest a point: three facets at that edge."""

    def spoil(corners):
        a, b, _ = corners[nearest_facet(corners, point)].astype(np.float64)
        tip = (a + b) / 2 + np.array([0.0, 0.0, height_mm])
        return np.concatenate((corners, np.array([[a, b, tip]], dtype=np.float32)))

    return spoil
