"""Plane cuts by general libraries: trimesh finds the segments, shapely builds the areas, and the
moments are sums of exact triangle moments over an ear-clipping triangulation. None of this is the
route that layload takes (Green's theorem on loops)."""

import mapbox_earcut
import numpy as np
import shapely
from scipy.spatial import cKDTree

# Two facets that share an edge cut it at points that differ by rounding only.
SAME_POINT_MM = 1e-7


def area_of_segments(segments: np.ndarray):
    """The region enclosed by loose segments, shape (n, 2, 2), by the even-odd rule."""
    points = _joined(segments.reshape(-1, 2)).reshape(-1, 2, 2)
    points = points[(points[:, 0] != points[:, 1]).any(axis=1)]
    if len(points) == 0:
        return shapely.Polygon()
    return shapely.build_area(shapely.multilinestrings(points))


def _joined(points: np.ndarray) -> np.ndarray:
    """Every point replaced by the first of those that coincide with it."""
    keeper = np.arange(len(points))
    for first, second in sorted(cKDTree(points).query_pairs(SAME_POINT_MM)):
        keeper[second] = min(keeper[second], keeper[first])
    return points[keeper]


def polygons_of(region) -> list:
    """The polygons of a region."""
    return [part for part in shapely.get_parts(region) if part.geom_type == "Polygon"]


def moments(region) -> dict:
    """Area, centroid, and second moments about the centroid, by summing triangles."""
    triangles = np.concatenate([_triangles(polygon) for polygon in polygons_of(region)])
    shift = triangles.reshape(-1, 2).mean(axis=0)
    y = triangles[:, :, 0] - shift[0]
    z = triangles[:, :, 1] - shift[1]
    area = np.abs((y[:, 1] - y[:, 0]) * (z[:, 2] - z[:, 0]) - (y[:, 2] - y[:, 0]) * (z[:, 1] - z[:, 0])) / 2
    sum_y, sum_z = y.sum(axis=1), z.sum(axis=1)
    total = area.sum()
    mean_y = (area * sum_y).sum() / 3 / total
    mean_z = (area * sum_z).sum() / 3 / total
    of_yy = (area * ((y * y).sum(axis=1) + sum_y * sum_y)).sum() / 12
    of_zz = (area * ((z * z).sum(axis=1) + sum_z * sum_z)).sum() / 12
    of_yz = (area * ((y * z).sum(axis=1) + sum_y * sum_z)).sum() / 12
    return {
        "area_mm2": float(total),
        "centroid_y_mm": float(mean_y + shift[0]),
        "centroid_z_mm": float(mean_z + shift[1]),
        "second_moment_y_mm4": float(of_zz - total * mean_z**2),
        "second_moment_z_mm4": float(of_yy - total * mean_y**2),
        "product_moment_mm4": float(of_yz - total * mean_y * mean_z),
    }


def _triangles(polygon) -> np.ndarray:
    rings = [polygon.exterior, *polygon.interiors]
    corners = [np.asarray(ring.coords)[:-1] for ring in rings]
    ends = np.cumsum([len(ring) for ring in corners]).astype(np.uint32)
    vertices = np.concatenate(corners)
    numbers = mapbox_earcut.triangulate_float64(vertices, ends).reshape(-1, 3)
    return vertices[numbers]
