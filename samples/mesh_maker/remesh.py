"""Divides flat faces into facets of even size, keeping the surface and its closure exactly.

Every flat face becomes a Delaunay triangulation of its divided outline and a lattice inside it.
An outline edge that the triangulation misses is divided again, in both faces that share it.
"""

import math
from collections import defaultdict

import numpy as np
import shapely
from scipy.spatial import Delaunay, cKDTree

FLATNESS_MM = 2e-5
# Boolean cuts of walls that coincide leave edges of rounding size; far below a float32 step at 100 mm.
JOIN_MM = 1e-6
SLIVER_MM = 1e-7
LATTICE_CLEARANCE = 0.62
MOST_PASSES = 8


def refine(vertices: np.ndarray, faces: np.ndarray, edge_mm: float):
    """Returns (vertices, faces) in which no edge of a flat face's outline exceeds `edge_mm`."""
    faces = _join_near(vertices, faces)
    groups = _flat_groups(vertices, faces)
    group_of = np.empty(len(faces), dtype=np.int64)
    for number, group in enumerate(groups):
        group_of[group] = number
    outlines, lengths = _outlines(vertices, faces, group_of, len(groups))
    pieces = {edge: max(1, math.ceil(length / edge_mm - 1e-9)) for edge, length in lengths.items()}
    for last_pass in (n == MOST_PASSES - 1 for n in range(MOST_PASSES)):
        points = [*vertices]
        divided = _divide(vertices, pieces, points)
        result, missed = [], set()
        for group, outline in zip(groups, outlines):
            if len(group) <= 2 and all(pieces[_undirected(e)] == 1 for e in outline):
                result.append(faces[group])
                continue
            made, lost = _fill(points, outline, divided, edge_mm, coarse=last_pass)
            missed.update(lost)
            result.append(made)
        if not missed:
            return np.array(points), np.vstack(result)
        for edge in missed:
            pieces[edge] *= 2
    raise RuntimeError("a flat face could not be divided")


def _undirected(edge):
    return edge if edge[0] < edge[1] else (edge[1], edge[0])


def _join_near(vertices, faces):
    """Facets with the ends of every edge shorter than JOIN_MM made one vertex."""
    keeper = np.arange(len(vertices))
    pairs = np.vstack([faces[:, [i, (i + 1) % 3]] for i in range(3)])
    short = np.linalg.norm(vertices[pairs[:, 0]] - vertices[pairs[:, 1]], axis=1) < JOIN_MM
    for a, b in pairs[short]:
        low, high = sorted((keeper[a], keeper[b]))
        keeper[keeper == high] = low
    faces = keeper[faces]
    collapsed = (
        (faces[:, 0] == faces[:, 1]) | (faces[:, 1] == faces[:, 2]) | (faces[:, 2] == faces[:, 0])
    )
    return faces[~collapsed]


def _flat_groups(vertices, faces):
    """Connected facets in one plane, grown from the largest facet outwards."""
    corners = vertices[faces]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    doubled = np.linalg.norm(cross, axis=1)
    normals = cross / np.maximum(doubled, 1e-300)[:, None]
    longest = np.sqrt(
        np.max(((corners - np.roll(corners, 1, axis=1)) ** 2).sum(axis=2), axis=1)
    )
    sliver = doubled < 1e-3 * longest * FLATNESS_MM
    neighbours = _neighbours(faces)
    taken = np.zeros(len(faces), dtype=bool)
    groups = []
    for seed in np.argsort(-doubled, kind="stable"):
        if taken[seed]:
            continue
        normal, origin = normals[seed], corners[seed, 0]
        taken[seed] = True
        group, waiting = [seed], [seed]
        while waiting:
            for other in neighbours[waiting.pop()]:
                if taken[other]:
                    continue
                flat = np.abs((corners[other] - origin) @ normal).max() < FLATNESS_MM
                if flat and (sliver[other] or normals[other] @ normal > 0.5):
                    taken[other] = True
                    group.append(other)
                    waiting.append(other)
        groups.append(np.array(group))
    return groups


def _neighbours(faces):
    owners = defaultdict(list)
    for number, (a, b, c) in enumerate(faces.tolist()):
        for edge in ((a, b), (b, c), (c, a)):
            owners[_undirected(edge)].append(number)
    neighbours = [[] for _ in range(len(faces))]
    for pair in owners.values():
        if len(pair) == 2:
            neighbours[pair[0]].append(pair[1])
            neighbours[pair[1]].append(pair[0])
    return neighbours


def _outlines(vertices, faces, group_of, count):
    """Directed outline edges of each group, and the length of each undirected one."""
    owner = {}
    for number, (a, b, c) in enumerate(faces.tolist()):
        for edge in ((a, b), (b, c), (c, a)):
            owner[edge] = number
    outlines = [[] for _ in range(count)]
    lengths = {}
    for (a, b), number in owner.items():
        other = owner.get((b, a))
        if other is not None and group_of[other] == group_of[number]:
            continue
        outlines[group_of[number]].append((a, b))
        key = _undirected((a, b))
        if key not in lengths:
            lengths[key] = float(np.linalg.norm(vertices[a] - vertices[b]))
    return outlines, lengths


def _divide(vertices, pieces, points):
    """Appends the new vertices on outline edges to `points`; maps each edge to its chain."""
    divided = {}
    for (a, b), count in pieces.items():
        chain = [a]
        for i in range(1, count):
            chain.append(len(points))
            points.append(vertices[a] + (vertices[b] - vertices[a]) * (i / count))
        chain.append(b)
        divided[(a, b)] = chain
    return divided


def _fill(points, outline, divided, edge_mm, coarse):
    """Triangulates one flat face. Returns its facets and the outline edges that were missed."""
    directed, parent = [], {}
    for edge in outline:
        key = _undirected(edge)
        chain = divided[key] if key == edge else divided[key][::-1]
        for pair in zip(chain[:-1], chain[1:]):
            directed.append(pair)
            parent[pair] = key
    ids = sorted({a for a, _ in directed})
    local = {number: i for i, number in enumerate(ids)}
    solid = np.array([points[i] for i in ids])
    starts = np.array([points[a] for a, _ in directed])
    ends = np.array([points[b] for _, b in directed])
    frame_u, frame_v, normal, origin = _frame(starts, ends)
    flat = np.column_stack(((solid - origin) @ frame_u, (solid - origin) @ frame_v))
    region = _region(flat, [(local[a], local[b]) for a, b in directed])
    inside = _lattice(region, flat, edge_mm) if not coarse else np.empty((0, 2))
    everything = np.vstack((flat, inside))
    triangles = Delaunay(everything).simplices.astype(np.int64)
    triangles = _kept(everything, triangles, region)
    wanted = {(local[a], local[b]): parent[(a, b)] for a, b in directed}
    missed = _mismatch(triangles, wanted)
    if missed:
        return np.empty((0, 3), dtype=np.int64), missed
    numbers = list(ids)
    for u, v in inside:
        numbers.append(len(points))
        points.append(origin + u * frame_u + v * frame_v)
    return np.array(numbers, dtype=np.int64)[triangles], set()


def _frame(starts, ends):
    """Right-handed axes in the plane of a closed directed outline (Newell's normal)."""
    origin = starts.mean(axis=0)
    normal = np.cross(starts - origin, ends - origin).sum(axis=0)
    normal /= np.linalg.norm(normal)
    helper = np.zeros(3)
    helper[np.argmin(np.abs(np.round(normal, 9)))] = 1.0
    frame_u = np.cross(helper, normal)
    frame_u /= np.linalg.norm(frame_u)
    return frame_u, np.cross(normal, frame_u), normal, origin


def _region(flat, directed):
    """Area enclosed by the outline, by the even-odd rule over its rings."""
    follow = defaultdict(list)
    for a, b in directed:
        follow[a].append(b)
    rings = []
    while follow:
        start = next(iter(follow))
        ring, here = [start], follow[start].pop()
        while here != start:
            ring.append(here)
            here = follow[here].pop()
        follow = defaultdict(list, {k: v for k, v in follow.items() if v})
        rings.append(shapely.Polygon(flat[ring]).buffer(0))
    region = rings[0]
    for ring in rings[1:]:
        region = region.symmetric_difference(ring)
    return region


def _lattice(region, flat, edge_mm):
    """Points of an equilateral lattice inside the region, clear of its outline."""
    low, high = flat.min(axis=0), flat.max(axis=0)
    rise = edge_mm * math.sqrt(3) / 2
    rows = np.arange(math.floor(low[1] / rise), math.ceil(high[1] / rise) + 1)
    columns = np.arange(math.floor(low[0] / edge_mm) - 1, math.ceil(high[0] / edge_mm) + 1)
    u = (columns[None, :] + 0.5 * (rows[:, None] % 2)) * edge_mm
    v = np.broadcast_to(rows[:, None] * rise, u.shape)
    grid = np.column_stack((u.ravel(), v.ravel()))
    grid = grid[shapely.contains_xy(region, grid[:, 0], grid[:, 1])]
    if len(grid) == 0:
        return grid
    distance, _ = cKDTree(flat).query(grid)
    return grid[distance > LATTICE_CLEARANCE * edge_mm]


def _kept(flat, triangles, region):
    """Facets inside the region, turned anticlockwise, without the slivers along straight sides."""
    a, b, c = (flat[triangles[:, i]] for i in range(3))
    doubled = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    triangles = triangles.copy()
    turn = doubled < 0
    triangles[turn] = triangles[turn][:, [0, 2, 1]]
    longest = np.sqrt(
        np.maximum.reduce([((p - q) ** 2).sum(axis=1) for p, q in ((a, b), (b, c), (c, a))])
    )
    center = (a + b + c) / 3
    inside = shapely.contains_xy(region, center[:, 0], center[:, 1])
    return triangles[inside & (np.abs(doubled) > SLIVER_MM * longest)]


def _mismatch(triangles, wanted):
    """Outline edges that are not exactly the open edges of the facets."""
    edges = set()
    for i, j in ((0, 1), (1, 2), (2, 0)):
        edges.update(zip(triangles[:, i].tolist(), triangles[:, j].tolist()))
    open_edges = {edge for edge in edges if (edge[1], edge[0]) not in edges}
    missing = {wanted[edge] for edge in wanted if edge not in open_edges}
    if not missing and len(open_edges) != len(wanted):
        missing = set(wanted.values())
    return missing
