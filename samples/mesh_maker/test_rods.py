"""Coarse rods that a reader must get right though something about them is out of the ordinary."""

from dataclasses import replace

from manifold3d import Manifold

from .part import Part, rod_part
from .pose import Pose, about_z
from .resolution import COARSE, Resolution
from .rod import Eye, RodDimensions, whole_rod
from .sample_rods import PLAIN, split_bodies
from .solids import box, cylinder, cylinder_along

MM_PER_INCH = 25.4
MM_PER_METRE = 1000.0
FAR_OFFSET = (2500.0, -1800.0, 900.0)
OIL_SLOT_WIDTH = 3.0
OIL_HOLE_DIAMETER = 2.5
BORE_CLEARANCE = 1.0
COUNTERBORE_DEPTH = 3.0
SMALL_COUNTERBORE_DIAMETER = 18.0
BIG_COUNTERBORE_DIAMETER = 30.0
VOID_HALF_LENGTH = 12.0
VOID_HALF_HEIGHT = 3.0
PIN_FIT_CLEARANCE = 0.02
WASHER_OUTER_DIAMETER = 24.0
WASHER_THICKNESS = 2.0

VERY_COARSE = Resolution(edge_mm=9.0, bore_segments=32, fillet_segments=16)

UNEQUAL = RodDimensions(
    center_distance=90.0,
    small=Eye(bore_diameter=13.0, wall=5.5, depth=12.0),
    big=Eye(bore_diameter=24.0, wall=7.0, depth=20.0),
    width_at_small=14.0,
    width_at_big=18.0,
    shank_depth=8.0,
    plan_blend=12.0,
    face_blend=1.5,
)
# Both eyes as in the contact study (`tests/reference/eye_contact`): twice as wide as their bores, on a shank of 0.7 and
# with blends of a fifth of their widths; thin, so that stress is plane.
STUDY_EYES = RodDimensions(
    center_distance=100.0,
    small=Eye(bore_diameter=10.0, wall=5.0, depth=4.0),
    big=Eye(bore_diameter=12.0, wall=6.0, depth=4.0),
    width_at_small=14.0,
    width_at_big=16.8,
    shank_depth=4.0,
    plan_blend=4.4,
)
ROUND = Resolution(edge_mm=4.0, bore_segments=144, fillet_segments=72)
SPLIT_COARSE = replace(PLAIN, width_at_big=20.0)


def plain(pose: Pose = Pose(), resolution: Resolution = COARSE, damage=None, **more) -> Part:
    """The plain rod, coarse."""
    part = rod_part("plain rod", whole_rod(PLAIN, resolution), PLAIN, resolution, pose, **more)
    return replace(part, damage=damage)


def study_eyes() -> Part:
    return rod_part("plain rod", whole_rod(STUDY_EYES, ROUND), STUDY_EYES, ROUND, Pose())


def _modified(change, **more) -> Part:
    """The plain rod after one more cut."""
    body = change(whole_rod(PLAIN, COARSE))
    return rod_part("plain rod", body, PLAIN, COARSE, Pose(), **more)


def inch_rod() -> Part:
    return plain(Pose(about_z(-20.0), scale=1 / MM_PER_INCH))


def metre_rod() -> Part:
    return plain(Pose(about_z(65.0), scale=1 / MM_PER_METRE))


def far_from_origin() -> Part:
    return plain(Pose(about_z(40.0), FAR_OFFSET))


def overlapping_shells() -> Part:
    """Eyes and shank as three closed bodies that run into one another, the bores kept clear."""
    rod = PLAIN
    half = rod.shank_depth / 2
    rings, clear = [], []
    for eye, x in ((rod.small, 0.0), (rod.big, rod.center_distance)):
        steps = COARSE.bore_steps(eye.bore_radius)
        ring = cylinder(eye.outer_radius, -half, half, steps, (x, 0.0))
        rings.append(ring - cylinder(eye.bore_radius, -half - 1, half + 1, steps, (x, 0.0)))
        clear.append(
            cylinder(eye.bore_radius + BORE_CLEARANCE, -half - 1, half + 1, steps, (x, 0.0))
        )
    side = rod.width_at_small / 2
    shank = box((0.0, -side, -half + 1), (rod.center_distance, side, half - 1))
    shank = shank - clear[0] - clear[1]
    bodies = (rings[0], shank, rings[1])
    united = (rings[0] + shank + rings[1]).volume()
    return rod_part("plain rod", bodies, rod, COARSE, Pose(), united_volume_mm3=united)


def loose_bodies() -> Part:
    """Rod, its pin and a washer, laid beside one another."""
    half = PLAIN.small.bore_diameter / 2
    pin_radius = half - PIN_FIT_CLEARANCE / 2
    pin = cylinder_along("x", pin_radius, 0.0, 38.0, 48, (38.0, 0.0))
    low = -PLAIN.shank_depth / 2
    washer = cylinder(
        WASHER_OUTER_DIAMETER / 2, low, low + WASHER_THICKNESS, 64, (70.0, 40.0)
    ) - cylinder(half, low - 1, low + WASHER_THICKNESS + 1, 64, (70.0, 40.0))
    bodies = (whole_rod(PLAIN, COARSE), pin, washer)
    return rod_part("plain rod", bodies, PLAIN, COARSE, Pose(about_z(10.0)))


# Edges broken as far as a file of a joint may show them.
BROKEN_EDGE = 0.2


def _split(edge_break: float, with_cap: bool, **more) -> Part:
    rod = SPLIT_COARSE
    lower, cap = split_bodies(rod, COARSE, edge_break)
    bodies = (lower, cap) if with_cap else (lower,)
    return rod_part("split rod", bodies, rod, COARSE, Pose(), **more)


def half_bore_no_cap() -> Part:
    return _split(edge_break=BROKEN_EDGE, with_cap=False, big_bore_arc_deg=180.0)


def half_bore_with_cap() -> Part:
    return _split(edge_break=BROKEN_EDGE, with_cap=True)


def cap_edges_shared() -> Part:
    return _split(edge_break=0.0, with_cap=True)


def inner_void() -> Part:
    """A closed ellipsoidal cavity in the middle of the shank."""
    hollow = (
        Manifold.sphere(1.0, 48)
        .scale((VOID_HALF_LENGTH, VOID_HALF_HEIGHT, VOID_HALF_HEIGHT))
        .translate((45.0, 0.0, 0.0))
    )
    return _modified(
        lambda body: body - hollow,
        shells=2,
        void_center_mm=[45.0, 0.0, 0.0],
        void_half_axes_mm=[VOID_HALF_LENGTH, VOID_HALF_HEIGHT, VOID_HALF_HEIGHT],
    )


def unequal_depths() -> Part:
    body = whole_rod(UNEQUAL, COARSE)
    return rod_part("plain rod", body, UNEQUAL, COARSE, Pose(), shank_depth_mm=UNEQUAL.shank_depth)


def counterbored() -> Part:
    """A counterbore in one face of each eye."""
    half = PLAIN.shank_depth / 2
    cutters = [
        cylinder(diameter / 2, half - COUNTERBORE_DEPTH, half + 1, 64, (x, 0.0))
        for diameter, x in (
            (SMALL_COUNTERBORE_DIAMETER, 0.0),
            (BIG_COUNTERBORE_DIAMETER, PLAIN.center_distance),
        )
    ]
    return _modified(
        lambda body: body - cutters[0] - cutters[1],
        small_counterbore_diameter_mm=SMALL_COUNTERBORE_DIAMETER,
        big_counterbore_diameter_mm=BIG_COUNTERBORE_DIAMETER,
        counterbore_depth_mm=COUNTERBORE_DEPTH,
    )


def slotted_small_end() -> Part:
    """An oil slot through the free side of the small eye."""
    slot = box((-20.0, -OIL_SLOT_WIDTH / 2, -10.0), (0.0, OIL_SLOT_WIDTH / 2, 10.0))
    return _modified(lambda body: body - slot, small_slot_width_mm=OIL_SLOT_WIDTH)


def oil_hole_rod() -> Part:
    """One oil hole through the wall of each eye."""
    radius = OIL_HOLE_DIAMETER / 2
    small = cylinder_along("x", radius, -20.0, 0.0, 24, (0.0, 0.0))
    big = cylinder_along("y", radius, 0.0, 30.0, 24, (PLAIN.center_distance, 0.0))
    return _modified(lambda body: body - small - big, oil_hole_diameter_mm=OIL_HOLE_DIAMETER)


def two_rods() -> Part:
    """Two equal rods side by side."""
    one = whole_rod(PLAIN, COARSE)
    return Part("two rods", (one, one.translate((0.0, 50.0, 0.0))), COARSE)
