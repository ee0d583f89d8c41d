"""The committed samples: rods of a bench single-cylinder engine, bore 52 mm, stroke 46 mm."""

import math
from dataclasses import replace

import numpy as np
from manifold3d import Manifold, OpType

from .part import Part, rod_part
from .pose import ON_SIDE, STANDING, Pose, about_z
from .resolution import Resolution
from .rod import Eye, Pocket, RodDimensions, bored, rod_blank, web_pocket, whole_rod
from .solids import cylinder, cylinder_along

PLAIN = RodDimensions(
    center_distance=90.0,
    small=Eye(bore_diameter=13.0, wall=5.5, depth=14.0),
    big=Eye(bore_diameter=24.0, wall=7.0, depth=14.0),
    width_at_small=14.0,
    width_at_big=14.0,
    shank_depth=14.0,
    plan_blend=12.0,
)

# The plain rod's next revision: thicker eyes and wider blends, but no more of a layer than it needs. Layers of a larger area
# take longer, and the layer below is colder when the next one is laid.
STOUT = RodDimensions(
    center_distance=90.0,
    small=Eye(bore_diameter=13.0, wall=7.5, depth=16.0),
    big=Eye(bore_diameter=24.0, wall=9.5, depth=16.0),
    width_at_small=15.0,
    width_at_big=18.0,
    shank_depth=16.0,
    plan_blend=25.0,
)

# For a bronze bush of 11 x 14 x 18 mm and a drawn needle cup of 20 x 26 x 18 mm, both pressed in.
BUSHED = RodDimensions(
    center_distance=90.0,
    small=Eye(bore_diameter=14.0, wall=10.0, depth=18.0),
    big=Eye(bore_diameter=26.0, wall=12.0, depth=18.0),
    width_at_small=20.0,
    width_at_big=26.0,
    shank_depth=18.0,
    plan_blend=30.0,
)

I_SHANK = RodDimensions(
    center_distance=90.0,
    small=Eye(bore_diameter=13.0, wall=5.5, depth=14.0),
    big=Eye(bore_diameter=24.0, wall=7.0, depth=14.0),
    width_at_small=15.0,
    width_at_big=22.0,
    shank_depth=12.0,
    plan_blend=14.0,
    face_blend=1.0,
    mouth_chamfer=0.5,
    pocket=Pocket(web=3.5, flange=3.5, floor_fillet=1.5, clear_of_eye=2.0),
)

# The flaw of the thin-web sample, measured from the small-end centre.
THIN_WEB_MM = 0.7
THIN_FROM_MM = 25.0
THIN_TO_MM = 37.0
THIN_CORNER_MM = 2.5

# Boundary dimensions of the bearings by ISO 15: 6000 is 10 x 26 x 8 mm, 6204 is 20 x 47 x 14 mm.
SMALL_BEARING = {"bore": 10.0, "outside": 26.0, "width": 8.0}
BIG_BEARING = {"bore": 20.0, "outside": 47.0, "width": 14.0}
SMALL_THROUGH_DIAMETER = 22.0
BIG_THROUGH_DIAMETER = 41.0
SHOULDER = 1.5

BEARING_ROD = RodDimensions(
    center_distance=118.0,
    small=Eye(bore_diameter=26.0, wall=6.0, depth=SMALL_BEARING["width"] + SHOULDER),
    big=Eye(bore_diameter=47.0, wall=7.0, depth=BIG_BEARING["width"] + SHOULDER),
    width_at_small=22.0,
    width_at_big=30.0,
    shank_depth=9.5,
    plan_blend=16.0,
    face_blend=2.0,
    pocket=Pocket(web=3.5, flange=4.5, floor_fillet=1.5, clear_of_eye=2.5),
)

SPLIT = replace(I_SHANK, mouth_chamfer=0.0)
BOLT_OFFSET = 17.5
BOLT_CLEARANCE_DIAMETER = 5.3
BOLT_THREAD_CORE_DIAMETER = 4.2
BOLT_BOSS_HALF_WIDTH = 22.5
ROD_BOSS_LENGTH = 13.0
CAP_BOSS_LENGTH = 11.0
BOSS_CORNER = 4.0
# So little that the cap's face carries as much as the rod's; none at all would make the two shells share their edges.
CAP_EDGE_BREAK = 0.1


def plain_rod(resolution: Resolution) -> Part:
    """Rectangular shank, flush with both eyes."""
    pose = Pose(about_z(90.0), (20.0, 15.0, PLAIN.big.depth / 2))
    return rod_part("plain rod", whole_rod(PLAIN, resolution), PLAIN, resolution, pose)


def stout_rod(resolution: Resolution) -> Part:
    """Rectangular shank, flush with both eyes, wider than the plain rod."""
    pose = Pose(about_z(90.0), (20.0, 15.0, STOUT.big.depth / 2))
    return rod_part("stout rod", whole_rod(STOUT, resolution), STOUT, resolution, pose)


def bushed_rod(resolution: Resolution) -> Part:
    """Rectangular shank, flush with both eyes, with bores for a bush and a needle cup."""
    pose = Pose(about_z(0.0), (0.0, 0.0, BUSHED.big.depth / 2))
    return rod_part("bushed rod", whole_rod(BUSHED, resolution), BUSHED, resolution, pose)


I_SHANK_POSE = Pose(about_z(30.0), (-12.0, 8.0, I_SHANK.big.depth / 2))


def i_shank_rod(resolution: Resolution, pose: Pose = I_SHANK_POSE) -> Part:
    """I-section shank, tapered, with filleted pockets and raised eyes."""
    return rod_part(
        "I-shank rod",
        whole_rod(I_SHANK, resolution),
        I_SHANK,
        resolution,
        pose,
        web_mm=I_SHANK.pocket.web,
        flange_mm=I_SHANK.pocket.flange,
        mouth_chamfer_mm=I_SHANK.mouth_chamfer,
    )


def thin_web_rod(resolution: Resolution) -> Part:
    """The I-shank rod, its web deepened to 0.7 mm about 31 mm from the small-end centre."""
    flaw = web_pocket(
        I_SHANK, THIN_FROM_MM, THIN_TO_MM, THIN_WEB_MM, THIN_CORNER_MM, resolution
    )
    return rod_part(
        "I-shank rod",
        whole_rod(I_SHANK, resolution) - flaw,
        I_SHANK,
        resolution,
        I_SHANK_POSE,
        web_mm=I_SHANK.pocket.web,
        flange_mm=I_SHANK.pocket.flange,
        mouth_chamfer_mm=I_SHANK.mouth_chamfer,
        thin_web_mm=THIN_WEB_MM,
        thin_from_mm=THIN_FROM_MM,
        thin_to_mm=THIN_TO_MM,
    )


def _seat(eye: Eye, through_diameter, x, resolution: Resolution) -> Manifold:
    """Bearing seat open on +z, with a shoulder left at the lower face."""
    half, beyond = eye.depth / 2, 1.0
    seat = cylinder(
        eye.bore_radius,
        -half + SHOULDER,
        half + beyond,
        resolution.bore_steps(eye.bore_radius),
        (x, 0.0),
    )
    through = cylinder(
        through_diameter / 2,
        -half - beyond,
        0.0,
        resolution.bore_steps(through_diameter / 2),
        (x, 0.0),
    )
    return seat + through


def bearing_rod(resolution: Resolution) -> Part:
    """Pressed rolling bearings in both eyes, each against a shoulder."""
    rod = BEARING_ROD
    body = rod_blank(rod, resolution)
    body = body - _seat(rod.small, SMALL_THROUGH_DIAMETER, 0.0, resolution)
    body = body - _seat(rod.big, BIG_THROUGH_DIAMETER, rod.center_distance, resolution)
    pose = Pose(STANDING, (35.0, 10.0, 150.0))
    return rod_part(
        "bearing rod",
        body,
        rod,
        resolution,
        pose,
        small_through_diameter_mm=SMALL_THROUGH_DIAMETER,
        big_through_diameter_mm=BIG_THROUGH_DIAMETER,
        small_through_segments=resolution.bore_steps(SMALL_THROUGH_DIAMETER / 2),
        big_through_segments=resolution.bore_steps(BIG_THROUGH_DIAMETER / 2),
        shoulder_mm=SHOULDER,
        small_seat_depth_mm=SMALL_BEARING["width"],
        big_seat_depth_mm=BIG_BEARING["width"],
        web_mm=rod.pocket.web,
        flange_mm=rod.pocket.flange,
    )


def _bolt_bosses(rod: RodDimensions, resolution: Resolution) -> Manifold:
    """Block across the big end that carries the bolts; its corners away from the joint are round."""
    x, half = rod.center_distance, rod.big.depth / 2
    low = x - ROD_BOSS_LENGTH + BOSS_CORNER
    high = x + CAP_BOSS_LENGTH - BOSS_CORNER
    side = BOLT_BOSS_HALF_WIDTH - BOSS_CORNER
    steps = 4 * resolution.arc_steps(BOSS_CORNER, math.pi / 2, fillet=True)
    posts = [
        cylinder(BOSS_CORNER, -half, half, steps, (px, py))
        for px in (low, high)
        for py in (-side, side)
    ]
    return Manifold.batch_hull(posts)


def _bolt_holes(rod: RodDimensions, resolution: Resolution) -> Manifold:
    """Threaded core in the rod, clearance in the cap, and a flat for each bolt head."""
    x = rod.center_distance
    holes = []
    for y in (-BOLT_OFFSET, BOLT_OFFSET):
        for radius, low, high in (
            (BOLT_THREAD_CORE_DIAMETER / 2, x - 40.0, x),
            (BOLT_CLEARANCE_DIAMETER / 2, x, x + 40.0),
        ):
            steps = 4 * math.ceil(resolution.arc_steps(radius, 2 * math.pi, fillet=True) / 4)
            holes.append(cylinder_along("x", radius, low, high, steps, (y, 0.0)))
    return Manifold.batch_boolean(holes, OpType.Add)


def _cap_joint(rod: RodDimensions, cut: float) -> Manifold:
    """The cap's first layer, its edges broken by `cut` so that it touches the rod's face inside the outline."""
    x, half = rod.center_distance, rod.big.depth / 2
    inner = math.sqrt(rod.big.bore_radius**2 - cut**2)
    pads = []
    for side in (-1.0, 1.0):
        points = []
        # The last layer lies within the cap, so that no face of the two coincides.
        for px, inset in ((x, cut), (x + cut, 0.0), (x + cut + 0.5, 0.5)):
            for y in (inner + inset, BOLT_BOSS_HALF_WIDTH - inset):
                points += [(px, side * y, half - inset), (px, side * y, -half + inset)]
        pads.append(Manifold.hull_points(np.array(points)))
    return pads[0] + pads[1]


def split_bodies(rod: RodDimensions, resolution: Resolution, edge_break: float = CAP_EDGE_BREAK):
    """Rod and cap, parted across the big-end centre; the cap's edges at the joint broken by `edge_break` mm."""
    x = rod.center_distance
    whole = bored(rod_blank(rod, resolution) + _bolt_bosses(rod, resolution), rod, resolution)
    holes = _bolt_holes(rod, resolution)
    lower = whole.trim_by_plane((-1.0, 0.0, 0.0), -x)
    cap = whole.trim_by_plane((1.0, 0.0, 0.0), x + edge_break)
    if edge_break > 0.0:
        cap = cap + _cap_joint(rod, edge_break)
    return lower - holes, cap - holes


def split_rod(resolution: Resolution) -> Part:
    """Big end parted across its centre, the cap a second closed shell that touches the rod."""
    pose = Pose(ON_SIDE, (7.0, -30.0, 24.0))
    return rod_part(
        "split rod",
        split_bodies(SPLIT, resolution),
        SPLIT,
        resolution,
        pose,
        shells=2,
        bolt_offset_mm=BOLT_OFFSET,
        bolt_clearance_diameter_mm=BOLT_CLEARANCE_DIAMETER,
        bolt_thread_core_diameter_mm=BOLT_THREAD_CORE_DIAMETER,
        web_mm=SPLIT.pocket.web,
        flange_mm=SPLIT.pocket.flange,
    )
