"""The connecting rod: two eyes, a shank, blends, pockets."""

import math
from dataclasses import dataclass, replace

import numpy as np
from manifold3d import Manifold

from .resolution import Resolution
from .solids import bore_cutter, prism, rounded_cutter, turned


@dataclass(frozen=True)
class Eye:
    """Millimetres. `depth` is the length along the pin axis."""

    bore_diameter: float
    wall: float
    depth: float

    @property
    def bore_radius(self) -> float:
        return self.bore_diameter / 2

    @property
    def outer_radius(self) -> float:
        return self.bore_diameter / 2 + self.wall


@dataclass(frozen=True)
class Pocket:
    """Recess in both faces of the shank that leaves flanges and a web (an I-section). Millimetres."""

    web: float
    flange: float
    floor_fillet: float
    clear_of_eye: float


@dataclass(frozen=True)
class RodDimensions:
    """Millimetres. Widths of the shank are those of its side lines carried on to the eye centres."""

    center_distance: float
    small: Eye
    big: Eye
    width_at_small: float
    width_at_big: float
    shank_depth: float
    plan_blend: float
    face_blend: float = 0.0
    mouth_chamfer: float = 0.0
    pocket: Pocket | None = None

    def with_pocket(self, **changes) -> "RodDimensions":
        return replace(self, pocket=replace(self.pocket, **changes))


def _side_line(rod: RodDimensions):
    """Upper side of the shank: a point, its direction, and its outward normal."""
    start = np.array([0.0, rod.width_at_small / 2])
    end = np.array([rod.center_distance, rod.width_at_big / 2])
    along = (end - start) / np.linalg.norm(end - start)
    return start, along, np.array([-along[1], along[0]])


def _blend_center(rod: RodDimensions, eye_x: float, eye_radius: float, towards: int):
    """Centre of the arc that touches both the side line and the outside of an eye."""
    start, along, normal = _side_line(rod)
    base = start + rod.plan_blend * normal - np.array([eye_x, 0.0])
    reach = eye_radius + rod.plan_blend
    half_b = base @ along
    root = math.sqrt(half_b**2 - (base @ base - reach**2))
    return base + (-half_b + towards * root) * along + np.array([eye_x, 0.0])


def _arc(center, radius, first, last, steps) -> np.ndarray:
    angles = np.linspace(first, last, steps + 1)
    return center + radius * np.column_stack((np.cos(angles), np.sin(angles)))


@dataclass(frozen=True)
class Plan:
    """Outline seen along the pin axis, and the angles at which each eye carries vertices."""

    outline: np.ndarray
    small_angles: np.ndarray
    big_angles: np.ndarray


def plan_of(rod: RodDimensions, resolution: Resolution) -> Plan:
    """Eye arcs, tangent blends and straight flanks, symmetric about the line of centres."""
    _, _, normal = _side_line(rod)
    normal_angle = math.atan2(normal[1], normal[0])
    small_blend = _blend_center(rod, 0.0, rod.small.outer_radius, +1)
    big_blend = _blend_center(rod, rod.center_distance, rod.big.outer_radius, -1)
    small_touch = math.atan2(small_blend[1], small_blend[0])
    big_touch = math.atan2(big_blend[1], big_blend[0] - rod.center_distance)

    def eye_arc(eye, first, last):
        return np.linspace(first, last, resolution.arc_steps(eye.outer_radius, last - first) + 1)

    small_outer = eye_arc(rod.small, small_touch, math.pi)
    big_outer = eye_arc(rod.big, 0.0, big_touch)
    small_inner = eye_arc(rod.small, 0.0, small_touch)
    big_inner = eye_arc(rod.big, big_touch, math.pi)

    def blend_arc(center, first, last):
        steps = resolution.arc_steps(rod.plan_blend, last - first, fillet=True)
        return _arc(center, rod.plan_blend, first, last, steps)

    down = normal_angle - math.pi
    # Anticlockwise along the upper half, from the far side of the big eye to that of the small eye.
    upper = np.vstack(
        (
            _circle_points(rod.big.outer_radius, big_outer, rod.center_distance),
            blend_arc(big_blend, big_touch - math.pi, down)[1:],
            blend_arc(small_blend, down, small_touch - math.pi)[:-1],
            _circle_points(rod.small.outer_radius, small_outer, 0.0),
        )
    )
    lower = upper[1:-1][::-1] * np.array([1.0, -1.0])
    return Plan(
        outline=np.vstack((upper, lower)),
        small_angles=_both_sides(np.concatenate((small_inner, small_outer[1:]))),
        big_angles=_both_sides(np.concatenate((big_outer, big_inner[1:]))),
    )


def _circle_points(radius, angles, center_x) -> np.ndarray:
    return np.column_stack((center_x + radius * np.cos(angles), radius * np.sin(angles)))


def _both_sides(upper_angles) -> np.ndarray:
    """Angles from 0 to pi, completed to a full turn by reflection."""
    return np.concatenate((upper_angles, -upper_angles[1:-1][::-1]))


def _boss(eye: Eye, center_x, angles, rod: RodDimensions, outline, resolution) -> Manifold:
    """An eye deeper than the shank, flaring into the shank's faces by a concave fillet."""
    half, face = eye.depth / 2, rod.shank_depth / 2
    radius = min(rod.face_blend, half - face)
    profile = [(eye.outer_radius, half)]
    if radius > 0.0:
        steps = resolution.arc_steps(radius, math.pi / 2, fillet=True)
        for i in range(steps + 1):
            angle = i * math.pi / 2 / steps
            profile.append(
                (
                    eye.outer_radius + radius * (1 - math.cos(angle)),
                    face + radius - radius * math.sin(angle),
                )
            )
        if radius == half - face:
            profile.pop(0)
    lower = [(r, -z) for r, z in profile]
    flared = turned(lower + profile[::-1], angles, (center_x, 0.0))
    return flared ^ prism(outline, -half, half)


def pocket_wall_radius(rod: RodDimensions, x: float) -> float:
    """Radius of the circle on the line of centres that touches both inner faces of the flanges."""
    start, _, normal = _side_line(rod)
    return float((start - np.array([x, 0.0])) @ normal) - rod.pocket.flange


def _pockets(rod: RodDimensions, resolution: Resolution) -> Manifold:
    """Tapered slot with rounded ends, cut from both faces down to the web."""
    pocket = rod.pocket
    top = rod.shank_depth / 2 + 1.0
    first = rod.small.outer_radius + pocket.clear_of_eye
    last = rod.center_distance - rod.big.outer_radius - pocket.clear_of_eye
    x_small, x_big = first, last
    for _ in range(40):  # The end circles' radii depend on where they sit; this settles at once.
        x_small = first + pocket_wall_radius(rod, x_small)
        x_big = last - pocket_wall_radius(rod, x_big)
    ends = [
        rounded_cutter(
            pocket_wall_radius(rod, x), pocket.web / 2, top, pocket.floor_fillet, resolution, (x, 0.0)
        )
        for x in (x_small, x_big)
    ]
    above = Manifold.batch_hull(ends)
    return above + above.mirror((0.0, 0.0, 1.0))


def web_pocket(rod: RodDimensions, x_low, x_high, web, corner, resolution: Resolution) -> Manifold:
    """Deepens the web between two stations over its whole height, leaving `web` of it."""
    top = rod.shank_depth / 2 + 1.0
    corners = []
    for x in (x_low + corner, x_high - corner):
        y = (pocket_wall_radius(rod, x) - corner) * _flank_lean(rod)
        for side in (-1.0, 1.0):
            corners.append(
                rounded_cutter(
                    corner, web / 2, top, rod.pocket.floor_fillet, resolution, (x, side * y)
                )
            )
    above = Manifold.batch_hull(corners)
    return above + above.mirror((0.0, 0.0, 1.0))


def _flank_lean(rod: RodDimensions) -> float:
    """Distance across the rod for one unit at right angles to the flank."""
    _, _, normal = _side_line(rod)
    return 1.0 / float(normal[1])


def rod_blank(rod: RodDimensions, resolution: Resolution) -> Manifold:
    """Shank and eyes joined, with pockets but without bores."""
    plan = plan_of(rod, resolution)
    half = rod.shank_depth / 2
    body = prism(plan.outline, -half, half)
    if rod.pocket is not None:
        body = body - _pockets(rod, resolution)
    for eye, x, angles in (
        (rod.small, 0.0, plan.small_angles),
        (rod.big, rod.center_distance, plan.big_angles),
    ):
        if eye.depth > rod.shank_depth:
            body = body + _boss(eye, x, angles, rod, plan.outline, resolution)
    return body


def bored(body: Manifold, rod: RodDimensions, resolution: Resolution) -> Manifold:
    """Cuts the two through-bores."""
    for eye, x in ((rod.small, 0.0), (rod.big, rod.center_distance)):
        body = body - bore_cutter(
            eye.bore_radius, eye.depth / 2, rod.mouth_chamfer, resolution, (x, 0.0)
        )
    return body


def whole_rod(rod: RodDimensions, resolution: Resolution) -> Manifold:
    """Rod in its own frame: small-end centre at the origin, big end on +x, pin axis z."""
    return bored(rod_blank(rod, resolution), rod, resolution)
