"""Rods and what is none, for variants: coarser and plainer than the samples, millimetres, pin axis z, rod along x."""

import math

from case import ROOT, read_stl  # noqa: F401  (puts samples on the path)
from dataclasses import replace

from manifold3d import Manifold, OpType
from mesh_maker import not_rods, sample_rods
from mesh_maker.resolution import COARSE
from mesh_maker.rod import Eye, Pocket, RodDimensions, bored, rod_blank, whole_rod
from mesh_maker.sample_rods import split_bodies
from mesh_maker.solids import box, cylinder, cylinder_along

PLAIN = sample_rods.PLAIN
SPLIT = sample_rods.SPLIT
DISTANCE = PLAIN.center_distance
SMALL = PLAIN.small.bore_radius
BIG = PLAIN.big.bore_radius
HALF = PLAIN.big.depth / 2


def union(*bodies) -> Manifold:
    return Manifold.batch_boolean(list(bodies), OpType.Add)


def hull(*bodies) -> Manifold:
    return Manifold.batch_hull(list(bodies))


def plain() -> Manifold:
    return whole_rod(PLAIN, COARSE)


def rod(**changes) -> Manifold:
    """The plain rod with other dimensions."""
    return whole_rod(replace(PLAIN, **changes), COARSE)


def ring(outer, inner, low, high, x=0.0, y=0.0, steps=64) -> Manifold:
    return cylinder(outer, low, high, steps, (x, y)) - cylinder(inner, low - 1, high + 1, steps, (x, y))


def drilled(body, *holes, depth=100.0, steps=64) -> Manifold:
    """With holes (radius, x, y) along z."""
    for radius, x, y in holes:
        body = body - cylinder(radius, -depth, depth, steps, (x, y))
    return body


# True rods.


def i_shank() -> Manifold:
    return whole_rod(sample_rods.I_SHANK, COARSE)


def h_shank() -> Manifold:
    """Pockets from the sides instead of the faces."""
    body = rod(width_at_small=16.0, width_at_big=16.0)
    for side in (-1, 1):
        low, high = sorted((side * 3.0, side * 30.0))
        body = body - box((22.0, low, -4.0), (62.0, high, 4.0))
    return body


def tapered() -> Manifold:
    return rod(width_at_small=10.0, width_at_big=22.0)


def dog_leg() -> Manifold:
    """Big eye 6 mm beside the small one along the pins."""
    shift = 6.0
    small, big = cylinder(12.0, -7, 7, 64), cylinder(19.0, shift - 7, shift + 7, 64, (90.0, 0.0))
    shank = hull(box((0, -7, -7), (1, 7, 7)), box((89, -7, shift - 7), (90, 7, shift + 7)))
    return drilled(union(small, big, shank), (6.5, 0, 0), (12, 90, 0))


def offset_shank() -> Manifold:
    """The shank runs 5 mm beside the line of centres."""
    body = union(cylinder(12.0, -7, 7, 64), cylinder(19.0, -7, 7, 64, (90.0, 0.0)), box((0, -1, -7), (90, 11, 7)))
    return drilled(body, (6.5, 0, 0), (12, 90, 0))


def forked() -> Manifold:
    """Big end of two cheeks 8 mm apart, for another rod between them."""
    body = rod(
        big=Eye(bore_diameter=24.0, wall=7.0, depth=26.0), small=Eye(bore_diameter=13.0, wall=5.5, depth=18.0), shank_depth=14.0
    )
    return body - box((68, -40, -4), (150, 40, 4))


def oil_holes() -> Manifold:
    body = plain()
    return body - cylinder_along("x", 1.25, -30, 0, 24, (0, 0)) - cylinder_along("x", 1.5, 60, 90, 24, (0, 0))


def counterbored(radius_small=8.0, radius_big=14.0, depth=3.0) -> Manifold:
    body = plain()
    for radius, x in ((radius_small, 0.0), (radius_big, DISTANCE)):
        for low, high in ((HALF - depth, HALF + 1), (-HALF - 1, -HALF + depth)):
            body = body - cylinder(radius, low, high, 64, (x, 0.0))
    return body


def lipped(reach=1.0, depth=1.5) -> Manifold:
    """Lips that narrow both bores at one face each."""
    body = plain()
    return union(
        body,
        ring(SMALL + 2, SMALL - reach, -HALF, -HALF + depth),
        ring(BIG + 2, BIG - reach, -HALF, -HALF + depth, DISTANCE),
    )


def lightened() -> Manifold:
    """Holes in the shank larger than the small end."""
    body = rod(width_at_small=22.0, width_at_big=26.0, small=Eye(10.0, 7.0, 14.0))
    return drilled(body, (7.0, 30, 0), (7.0, 52, 0))


def very_short() -> Manifold:
    return rod(center_distance=40.0, plan_blend=6.0, width_at_small=12.0, width_at_big=12.0)


def very_long() -> Manifold:
    return rod(center_distance=330.0)


def thin_links() -> Manifold:
    return rod(small=Eye(13.0, 5.5, 3.0), big=Eye(24.0, 7.0, 3.0), shank_depth=3.0)


def unequal() -> Manifold:
    return rod(small=Eye(13.0, 5.5, 24.0), big=Eye(24.0, 7.0, 12.0), shank_depth=8.0)


def equal_bores() -> Manifold:
    return rod(small=Eye(18.0, 6.0, 14.0), big=Eye(18.0, 6.0, 14.0))


def thick_walls() -> Manifold:
    return rod(small=Eye(8.0, 7.5, 14.0), big=Eye(16.0, 13.0, 14.0))


def thin_walls() -> Manifold:
    return rod(small=Eye(20.0, 3.0, 14.0), big=Eye(36.0, 4.0, 14.0), width_at_small=10.0, width_at_big=14.0)


def dipper() -> Manifold:
    """A finger below the big end that throws oil."""
    return union(plain(), box((DISTANCE + BIG + 3, -2, -2), (DISTANCE + BIG + 27, 2, 2)))


def ribbed() -> Manifold:
    """A rib round the outside of both eyes."""
    return union(i_shank(), ring(14.0, 7.0, -1.5, 1.5), ring(21.0, 13.0, -1.5, 1.5, 90.0))


def square_end() -> Manifold:
    """A block as big end."""
    body = union(hull(cylinder(12, -7, 7, 64), box((40, -7, -7), (41, 7, 7))), box((30, -7, -7), (80, 7, 7)), box((70, -22, -7), (109, 22, 7)))
    return drilled(body, (6.5, 0, 0), (12, 90, 0))


def slotted() -> Manifold:
    return plain() - box((-30, -1.0, -20), (0, 1.0, 20))


def waisted() -> Manifold:
    """A shank narrowest in the middle."""
    body = rod(width_at_small=18.0, width_at_big=18.0)
    return body - cylinder(60.0, -20, 20, 128, (45, 65)) - cylinder(60.0, -20, 20, 128, (45, -65))


def split_united() -> Manifold:
    """The split rod drawn as one solid with bosses for its bolts."""
    lower, cap = split_bodies(SPLIT, COARSE, 0.0)
    return union(lower, cap.translate((-0.01, 0, 0)))


def round_shank() -> Manifold:
    body = union(cylinder(12, -7, 7, 64), cylinder(19, -7, 7, 64, (90, 0)), cylinder_along("x", 5, 0, 90, 48, (0, 0)))
    return drilled(body, (6.5, 0, 0), (12, 90, 0))


RODS = {
    f.__name__: f
    for f in (
        plain, i_shank, h_shank, tapered, dog_leg, offset_shank, forked, oil_holes, counterbored, lipped, lightened, very_short,
        very_long, thin_links, unequal, equal_bores, thick_walls, thin_walls, dipper, ribbed, square_end, slotted, waisted,
        split_united, round_shank,
    )
}

# What is none.


def bracket() -> Manifold:
    """Angle bracket: two holes in one leg, the other leg upright."""
    return drilled(union(box((-20, -15, -3), (60, 15, 3)), box((-20, 15, -3), (60, 20, 40))), (5, 0, 0), (5, 40, 0))


def notched_plate() -> Manifold:
    """A plate with two holes, notched between them, and a flange that stands out."""
    plate = box((-20, -15, -3), (70, 15, 3)) - box((15, 8, -9), (35, 99, 9)) - box((15, -99, -9), (35, -8, 9))
    return drilled(union(plate, box((60, -15, -3), (70, 15, 45))), (5, 0, 0), (6, 48, 0))


def round_flange() -> Manifold:
    holes = [(4, 32 * math.cos(k * math.pi / 3), 32 * math.sin(k * math.pi / 3)) for k in range(6)]
    return drilled(union(cylinder(42, -4, 4, 128), cylinder(20, -4, 25, 96)), (14, 0, 0), *holes)


def oval_flange() -> Manifold:
    """A carburettor's flange: a large bore between two bolts."""
    body = hull(cylinder(20, -4, 4, 96), cylinder(8, -4, 4, 64, (32, 0)), cylinder(8, -4, 4, 64, (-32, 0)))
    return drilled(body, (13, 0, 0), (4, 32, 0), (4, -32, 0))


def crank_web() -> Manifold:
    return not_rods.crank_arm().bodies[0]


def crank() -> Manifold:
    """Two webs, a crank pin and two journals, all hollow."""
    web = lambda low, high: hull(cylinder(16, low, high, 64), cylinder(12, low, high, 64, (23, 0)))
    body = union(
        web(-14, -8), web(8, 14), cylinder(9, -9, 9, 64, (23, 0)), cylinder(10, -60, -13, 64), cylinder(10, 13, 60, 64)
    )
    return drilled(body, (5, 0, 0), (4, 23, 0))


def solid_crank() -> Manifold:
    """A crank of solid pins with holes in its webs to lighten them."""
    web = lambda low, high: hull(cylinder(20, low, high, 64), cylinder(12, low, high, 64, (40, 0)))
    body = union(
        web(-14, -8), web(8, 14), cylinder(9, -9, 9, 64, (40, 0)), cylinder(10, -60, -13, 64), cylinder(10, 13, 60, 64)
    )
    return drilled(body, (4, 22, 0))


def lever() -> Manifold:
    """Bell crank: three bosses at a right angle."""
    body = union(
        hull(cylinder(11, -6, 6, 64), cylinder(8, -6, 6, 64, (50, 0))), hull(cylinder(11, -6, 6, 64), cylinder(8, -6, 6, 64, (0, 45)))
    )
    return drilled(body, (6, 0, 0), (4, 50, 0), (4, 0, 45))


def rocker() -> Manifold:
    """Rocker arm: ends on both sides of the bore it turns on."""
    body = union(
        hull(cylinder(13, -6, 6, 64), cylinder(6, -6, 6, 64, (38, 0))), hull(cylinder(13, -6, 6, 64), cylinder(6, -6, 6, 64, (-34, 0)))
    )
    return drilled(body, (8, 0, 0), (3, 38, 0), (3, -34, 0))


def pedal() -> Manifold:
    return not_rods.one_bore().bodies[0]


def pulley() -> Manifold:
    """Spoked: a hub and holes between spokes."""
    holes = [(8, 22 * math.cos(k * math.pi / 2.5), 22 * math.sin(k * math.pi / 2.5)) for k in range(5)]
    return drilled(cylinder(40, -8, 8, 128), (6, 0, 0), *holes)


def gear_blank() -> Manifold:
    return drilled(cylinder(30, -5, 5, 96), (8, 0, 0), (5, 18, 0), (5, -18, 0))


def bush_pair() -> list:
    """Two bushes that touch along a line."""
    return [ring(10, 7, -10, 10), ring(10, 7, -10, 10, 20.0)]


def bush_pair_one() -> Manifold:
    """The same with the line made a little web."""
    return drilled(union(ring(10, 7, -10, 10), ring(10, 7, -10, 10, 20.0), box((9, -0.6, -10), (11, 0.6, 10))), (7, 0, 0), (7, 20, 0))


def plate_with_holes() -> Manifold:
    return drilled(box((-40, -15, -6), (40, 15, 6)), (5, -25, 0), (5, 25, 0))


def perforated() -> Manifold:
    holes = [(4, x, y) for x in range(-40, 41, 20) for y in (-20, 0, 20)]
    return drilled(box((-50, -30, -3), (50, 30, 3)), *holes)


def frame() -> Manifold:
    body = box((-45, -30, -4), (45, 30, 4)) - box((-30, -18, -9), (30, 18, 9))
    return drilled(body, (5, -37, 0), (5, 37, 0))


def c_link() -> Manifold:
    """Two eyes joined by a wide bow."""
    bow = (ring(60, 50, -5, 5, 45, 0, 128)) ^ box((-200, 0, -50), (200, 200, 50))
    body = union(bow, cylinder(10, -5, 5, 64, (-10, 0)), cylinder(12, -5, 5, 64, (100, 0)))
    return drilled(body, (5, -10, 0), (6, 100, 0))


def clevis_block() -> Manifold:
    """A bored block with a blind hole."""
    body = hull(cylinder(12, -10, 10, 64), cylinder(14, -10, 10, 64, (60, 0))) - box((18, -30, -20), (40, -8, 20)) - box((18, 8, -20), (40, 30, 20))
    return drilled(body, (6, 0, 0)) - cylinder(8, -4, 30, 64, (60, 0))


def tubes() -> Manifold:
    """Two long tubes side by side with a web."""
    return drilled(union(cylinder(8, -60, 60, 64), cylinder(8, -60, 60, 64, (40, 0)), box((0, -2, -60), (40, 2, 60))), (6, 0, 0), (6, 40, 0))


def engine_block() -> Manifold:
    """A cylinder with a crankcase below: bores square to one another, and bolts."""
    body = union(cylinder(30, 0, 60, 96), box((-40, -30, -50), (40, 30, 5)))
    body = body - cylinder(20, -40, 70, 96) - cylinder_along("y", 10, -60, 60, 64, (0, -25))
    return drilled(body, (2.5, 35, 20), (2.5, -35, 20), (2.5, 35, -20), (2.5, -35, -20))


def casing() -> Manifold:
    """Half a crankcase: a plate with bosses and a wall round it."""
    body = box((-50, -35, -3), (50, 35, 3)) + (box((-50, -35, -3), (50, 35, 30)) - box((-46, -31, -9), (46, 31, 40)))
    return drilled(union(body, cylinder(12, -3, 15, 64, (-20, 0)), cylinder(14, -3, 15, 64, (25, 0))), (6, -20, 0), (8, 25, 0))


def pin_and_plate() -> Manifold:
    """A plate with one bore and one pin."""
    body = union(hull(cylinder(12, -4, 4, 64), cylinder(10, -4, 4, 64, (50, 0))) - box((16, 7, -9), (36, 30, 9)), cylinder(6, -4, 30, 64, (50, 0)))
    return drilled(body, (6, 0, 0))


def plugged_rod() -> Manifold:
    """A rod whose pin was united with it: its small-end bore is gone."""
    return union(plain(), cylinder(SMALL, -HALF - 6, HALF + 6, 64))


def plugged_short() -> Manifold:
    """The same with a plug shorter than the bore: a wall is left at both faces."""
    return union(plain(), cylinder(SMALL, -3, 3, 64))


def plugged_lightened() -> Manifold:
    """Its small end plugged, a hole in the shank must not stand in."""
    return union(lightened(), cylinder(5.0, -HALF, HALF, 64))


def rods_on_one_disc():
    """Two rods whose big ends one disc fills: a rod of twice the length, but for its widest place in the middle."""
    other = plain().rotate((0.0, 0.0, 180.0)).translate((2 * DISTANCE, 0.0, 0.0))
    return plain() + other + cylinder(BIG + 0.2, -HALF, HALF, 64, (DISTANCE, 0.0))


def flat_in_the_bore():
    """A segment of a plug made one with the small end: a bore with a flat, which no pin fits."""
    return plain() + (cylinder(SMALL + 0.2, -HALF, HALF, 64) ^ box((-20.0, -20.0, -20.0), (20.0, -4.0, 20.0)))


def two_rods_in_one():
    """Two rods in one body, a little apart along the length: bores with a lens of material in each."""
    return plain() + plain().translate((3.0, 0.0, 0.0))


NOT_RODS = {
    f.__name__: f
    for f in (
        bracket, notched_plate, round_flange, oval_flange, crank_web, crank, solid_crank, lever, rocker, pedal, pulley, gear_blank,
        bush_pair, bush_pair_one, plate_with_holes, perforated, frame, c_link, clevis_block, tubes, engine_block, casing,
        pin_and_plate, plugged_rod, plugged_short, plugged_lightened, rods_on_one_disc,
        flat_in_the_bore, two_rods_in_one,
    )
}
