"""Structured quadratic meshes round a bore, built on straight rays from the bore centre.

The bore radius is 1. Angles are in radians from the +x axis; only y >= 0 is meshed.
Logical coordinates are (angle, depth): depth 0 is the bore, 1 the outline that the rays
reach, and 1 to 2 a straight extension in x beyond a vertical part of the outline.
"""

from dataclasses import dataclass
from typing import Callable

import numpy as np
from skfem import MeshQuad, MeshQuad2


@dataclass(frozen=True)
class Fineness:
    """Mesh density: elements round the half bore, and along each ray."""

    around: int = 360
    radial: int = 30
    # Each element along a ray is this much longer than the one nearer the bore.
    growth: float = 1.14


@dataclass(frozen=True)
class Outline:
    """Outer edge of the part as seen from the bore centre."""

    # Distance from the centre to the outline along a ray.
    reach: Callable[[np.ndarray], np.ndarray]
    # Rays from this angle up to pi end on the vertical line x = -left_start.
    left_angle: float | None = None
    left_end: float = 0.0
    # Rays from 0 up to this angle end on the vertical line x = right_start.
    right_angle: float | None = None
    right_end: float = 0.0


@dataclass(frozen=True)
class PolarMesh:
    """A mesh with the logical box of every element kept for exact probing."""

    mesh: MeshQuad2
    outline: Outline
    angle_low: np.ndarray
    angle_high: np.ndarray
    depth_low: np.ndarray
    depth_high: np.ndarray


def build(outline: Outline, fineness: Fineness) -> PolarMesh:
    """Mesh the region between the bore and the outline, with its extensions."""
    angles = np.linspace(0.0, np.pi, fineness.around + 1)
    steps = fineness.growth ** np.arange(fineness.radial)
    depths = np.concatenate([[0.0], np.cumsum(steps) / steps.sum()])
    extended = outline.left_angle is not None or outline.right_angle is not None
    if extended:
        # The extensions carry almost uniform stress; 16 elements are plenty.
        stretch = 1.2 ** np.arange(16)
        depths = np.concatenate([depths, 1.0 + np.cumsum(stretch) / stretch.sum()])
    logical = MeshQuad.init_tensor(angles, depths)
    middle = logical.p[:, logical.t].mean(axis=1)
    keep = middle[1] < 1.0
    if outline.left_angle is not None:
        keep |= middle[0] > outline.left_angle
    if outline.right_angle is not None:
        keep |= middle[0] < outline.right_angle
    logical = logical.restrict(np.nonzero(keep)[0])
    corner = logical.p[:, logical.t]
    low, high = corner.min(axis=1), corner.max(axis=1)
    quadratic = MeshQuad2.from_mesh(logical)
    mesh = MeshQuad2(_to_part(quadratic.doflocs, outline), quadratic.t)
    return PolarMesh(mesh, outline, low[0], high[0], low[1], high[1])


def _to_part(logical: np.ndarray, outline: Outline) -> np.ndarray:
    angle, depth = logical
    reach = outline.reach(angle)
    radius = 1.0 + (reach - 1.0) * np.minimum(depth, 1.0)
    x, y = radius * np.cos(angle), radius * np.sin(angle)
    beyond = np.maximum(depth - 1.0, 0.0)
    left = angle > np.pi / 2
    x = x - np.where(left, beyond * (outline.left_end + x), 0.0)
    x = x + np.where(~left, beyond * (outline.right_end - x), 0.0)
    return np.array([x, y])


def ring(width_ratio: float) -> Outline:
    """A plain ring: outer radius over bore radius is the width ratio."""
    return Outline(reach=lambda angle: np.full_like(angle, width_ratio))


def eye(width_ratio: float, shank_ratio: float = 0.7, blend_ratio: float = 0.2) -> Outline:
    """A round eye on a straight shank towards -x.

    Ratios: eye width over bore diameter, shank width over eye width, blend radius over eye width.
    The shank is held 3 eye widths from the bore centre.
    """
    outer = width_ratio
    width = 2.0 * outer
    half_shank = 0.5 * shank_ratio * width
    blend = blend_ratio * width
    blend_y = half_shank + blend
    blend_x = -np.sqrt(max((outer + blend) ** 2 - blend_y**2, 0.0))
    eye_ends, shank_starts = np.radians(eye_blend_span(width_ratio, shank_ratio, blend_ratio))
    # A multiple of 5 degrees is a mesh line at every fineness used; the vertical line
    # then lies a little less than one eye width from the centre, clear of the blend.
    slope = np.degrees(np.arctan2(half_shank, 0.95 * width))
    left_angle = np.pi - np.radians(5.0 * round(slope / 5.0))
    left_start = half_shank / np.tan(np.pi - left_angle)

    def reach(angle: np.ndarray) -> np.ndarray:
        cos, sin = np.cos(angle), np.sin(angle)
        along = cos * blend_x + sin * blend_y
        inside = along**2 - (blend_x**2 + blend_y**2 - blend**2)
        to_blend = along - np.sqrt(np.maximum(inside, 0.0))
        to_shank = half_shank / np.maximum(sin, 1e-30)
        to_left = left_start / np.maximum(-cos, 1e-30)
        return np.select(
            [angle <= eye_ends, angle <= shank_starts, angle <= left_angle],
            [np.full_like(angle, outer), to_blend, to_shank],
            to_left,
        )

    return Outline(reach=reach, left_angle=left_angle, left_end=3.0 * width)


def eye_blend_span(width_ratio: float, shank_ratio: float = 0.7, blend_ratio: float = 0.2) -> tuple[float, float]:
    """Angles, in degrees, of the rays between which the outside is the blend."""
    width = 2.0 * width_ratio
    half_shank, blend = 0.5 * shank_ratio * width, blend_ratio * width
    y = half_shank + blend
    x = -np.sqrt(max((width_ratio + blend) ** 2 - y**2, 0.0))
    return float(np.degrees(np.arctan2(y, x))), float(np.degrees(np.arctan2(half_shank, x)))


def plate(width_ratio: float, square_lug_end: float | None = None) -> Outline:
    """A straight strip with a round hole, plate width over hole diameter given.

    With `square_lug_end` the strip stops there (least distance from the hole centre, in widths)
    and the other end is held; otherwise both ends reach 3 widths or 12 bore radii away.
    """
    half = width_ratio
    far = max(6.0 * half, 12.0)
    corner = np.pi / 4
    left_start = half
    if square_lug_end is None:
        right_start, right_angle, right_end = half, corner, far
    else:
        # Corners must lie on mesh lines, so the end moves out to the next multiple of 5 degrees.
        wanted = np.degrees(np.arctan2(half, square_lug_end * 2.0 * half))
        right_angle = np.radians(5.0 * np.floor(wanted / 5.0))
        right_start, right_end = half / np.tan(right_angle), 0.0

    def reach(angle: np.ndarray) -> np.ndarray:
        cos, sin = np.cos(angle), np.sin(angle)
        to_side = half / np.maximum(sin, 1e-30)
        to_right = right_start / np.maximum(cos, 1e-30)
        to_left = left_start / np.maximum(-cos, 1e-30)
        return np.minimum(to_side, np.minimum(to_right, to_left))

    return Outline(
        reach=reach,
        left_angle=np.pi - corner,
        left_end=far,
        right_angle=right_angle if square_lug_end is None else None,
        right_end=right_end,
    )
