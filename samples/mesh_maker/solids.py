"""Closed solids from which parts are joined or cut. Pin axis along z, rod along x."""

import math

import numpy as np
from manifold3d import Manifold, Mesh64, triangulate

from .resolution import Resolution


def even_angles(steps: int) -> np.ndarray:
    """Angles of a full turn, the first at zero."""
    return np.arange(steps) * (2 * math.pi / steps)


def turned(profile, angles, center=(0.0, 0.0)) -> Manifold:
    """Turns a profile of (radius, z) points, from bottom to top, through the given angles.

    The angles are the caller's, so that a turned eye shares its vertices with the plan outline.
    """
    profile = [(float(r), float(z)) for r, z in profile]
    count = len(angles)
    rings = [
        np.column_stack(
            (center[0] + r * np.cos(angles), center[1] + r * np.sin(angles), np.full(count, z))
        )
        for r, z in profile
    ]
    middle = [[center[0], center[1], profile[0][1]], [center[0], center[1], profile[-1][1]]]
    vertices = np.vstack(rings + [np.array(middle)])
    bottom, top = len(vertices) - 2, len(vertices) - 1
    here = np.arange(count)
    after = np.roll(here, -1)
    faces = [np.column_stack((np.full(count, bottom), after, here))]
    for ring in range(len(rings) - 1):
        low, high = ring * count, (ring + 1) * count
        faces.append(np.column_stack((low + here, low + after, high + after)))
        faces.append(np.column_stack((low + here, high + after, high + here)))
    last = (len(rings) - 1) * count
    faces.append(np.column_stack((np.full(count, top), last + here, last + after)))
    return Manifold(Mesh64(vert_properties=vertices, tri_verts=np.vstack(faces).astype(np.uint64)))


def cylinder(radius, z_low, z_high, steps, center=(0.0, 0.0)) -> Manifold:
    """Upright cylinder whose vertices lie on the stated radius."""
    return turned([(radius, z_low), (radius, z_high)], even_angles(steps), center)


def cylinder_along(axis, radius, low, high, steps, center) -> Manifold:
    """Cylinder along "x" or "y"; `center` gives the other two coordinates in (x, y, z) order."""
    upright = cylinder(radius, low, high, steps)
    if axis == "x":
        return upright.rotate((0.0, 90.0, 0.0)).translate((0.0, center[0], center[1]))
    return upright.rotate((-90.0, 0.0, 0.0)).translate((center[0], 0.0, center[1]))


def box(low, high) -> Manifold:
    """Box between two corners."""
    size = tuple(b - a for a, b in zip(low, high))
    return Manifold.cube(size).translate(tuple(low))


def prism(outline, z_low, z_high) -> Manifold:
    """Plan outline (anticlockwise) raised from z_low to z_high, its vertices kept to the last bit."""
    outline = np.asarray(outline, dtype=np.float64)
    count = len(outline)
    low = np.column_stack((outline, np.full(count, float(z_low))))
    high = np.column_stack((outline, np.full(count, float(z_high))))
    cap = np.asarray(triangulate([outline]), dtype=np.int64)
    here = np.arange(count)
    after = np.roll(here, -1)
    faces = np.vstack(
        (
            cap[:, ::-1],
            cap + count,
            np.column_stack((here, after, count + after)),
            np.column_stack((here, count + after, count + here)),
        )
    )
    return Manifold(
        Mesh64(vert_properties=np.vstack((low, high)), tri_verts=faces.astype(np.uint64))
    )


def bore_cutter(radius, half_depth, chamfer, resolution: Resolution, center) -> Manifold:
    """Through-bore, its mouths broken by a 45 degree chamfer when one is asked for."""
    beyond = 1.0
    if chamfer == 0.0:
        profile = [(radius, -half_depth - beyond), (radius, half_depth + beyond)]
    else:
        wide = radius + chamfer + beyond
        profile = [
            (wide, -half_depth - beyond),
            (radius, -half_depth + chamfer),
            (radius, half_depth - chamfer),
            (wide, half_depth + beyond),
        ]
    return turned(profile, even_angles(resolution.bore_steps(radius)), center)


def rounded_cutter(radius, floor_z, top_z, floor_fillet, resolution: Resolution, center) -> Manifold:
    """Round-bottomed cutter: a cylinder whose lower edge carries a fillet, as a milling cutter's."""
    steps = resolution.arc_steps(floor_fillet, math.pi / 2, fillet=True)
    profile = []
    for i in range(steps + 1):
        angle = i * math.pi / 2 / steps
        profile.append(
            (
                radius - floor_fillet + floor_fillet * math.sin(angle),
                floor_z + floor_fillet * (1 - math.cos(angle)),
            )
        )
    profile.append((radius, top_z))
    turn = resolution.arc_steps(radius, 2 * math.pi, fillet=True)
    return turned(profile, even_angles(4 * math.ceil(turn / 4)), center)
