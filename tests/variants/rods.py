"""Variants of rods: what lies in, on and beside them, and what is no rod.

Margins are those of one job; what carries no load must not raise them.
"""

import math

from case import Case, Cases, Expected
from manifold3d import Manifold
from mesh_maker.part import SIMPLIFY_MM
from mesh_maker.resolution import COARSE
from mesh_maker.sample_rods import split_bodies
from mesh_maker.solids import box, cylinder, cylinder_along

import shapes
from shapes import BIG, DISTANCE, HALF, SMALL, SPLIT

# A body within a bore leaves the verdict as it is: the very facets of the rod are asked.
NOTHING = 1e-9
# A cap set 50 µm off or into the rod leaves its half of a bore of 12 mm radius so far out of round.
SHALLOW = 0.02


def cases() -> Cases:
    yield from true_rods()
    yield from no_rods()
    yield from pins()
    yield from bushes()
    yield from caps()
    yield from overlaps()
    yield from beside()
    yield from several()
    yield from few_sides()
    yield from voids()
    yield from by_hand()


def true_rods() -> Cases:
    """Every shape is seen with the bores it was made with."""
    sizes = {"thin_walls": (20, 36), "thick_walls": (8, 16), "equal_bores": (18, 18), "lightened": (10, 24)}
    for name, make in shapes.RODS.items():
        yield Case(f"rod_{name}", make, Expected(holding=bores(*sizes.get(name, (13, 24)))))


def bores(small: float, big: float):
    """That the report has these bores, within a hundredth of a millimetre: corners lie on the circle."""

    def wrong(report):
        seen = sorted(bore["diameter_mm"] for bore in report["part"]["bores"]) if report else []
        near = len(seen) == 2 and all(abs(a - b) < 0.01 for a, b in zip(seen, sorted((small, big))))
        return None if near else f"bores {seen}, made with {small} and {big}"

    return wrong


def no_rods() -> Cases:
    for name, make in shapes.NOT_RODS.items():
        yield Case(f"no_rod_{name}", make, Expected("refused", says=("no connecting rod was recognised",)))


def pins() -> Cases:
    """A pin in the small end, loose, exact or too big, changes nothing and is named."""
    base = "rod_plain"
    for micron in (50, 10, 5, 2, 1, 0, -20, -100, -300):
        radius = SMALL - micron * 1e-3
        word = f"loose_{micron}" if micron > 0 else "exact" if micron == 0 else f"too_big_{-micron}"
        for steps in (64, 48):
            yield Case(
                f"pin_{word}_um_{steps}_sides",
                lambda radius=radius, steps=steps: [shapes.plain(), cylinder(radius, -HALF - 8, HALF + 8, steps)],
                Expected(same_as=base, within=NOTHING, says=("fills the small-end bore as a pin",)),
            )
    both = lambda: [shapes.plain(), cylinder(SMALL, -20, 20, 64), cylinder(BIG, -30, 30, 64, (DISTANCE, 0))]
    told = ("fills the small-end bore as a pin", "fills the big-end bore as a pin")
    yield Case("pins_in_both", both, Expected(same_as=base, within=NOTHING, says=told))
    short = lambda: [shapes.plain(), cylinder(SMALL, -4, 4, 64)]
    yield Case("pin_shorter_than_bore", short, Expected(same_as=base, within=NOTHING, says=told[:1]))
    tube = lambda: [shapes.plain(), shapes.ring(SMALL, 4, -20, 20)]
    yield Case("pin_tube", tube, Expected(same_as=base, within=NOTHING, says=("fills the small-end bore as a bush",)))


def bushes() -> Cases:
    """Bushes and bearings drawn in their bores are left out, with what to do instead."""
    told = ("fills the big-end bore as a bush or bearing (give it as a ring in the job)",)
    for name, outer, inner in (("bush", BIG, BIG - 1.5), ("thin_bush", BIG, BIG - 0.4), ("pressed_bush", BIG + 0.06, 10.0)):
        make = lambda outer=outer, inner=inner: [shapes.plain(), shapes.ring(outer, inner, 0.5 - HALF, HALF - 0.5, DISTANCE, steps=60)]
        yield Case(name, make, Expected(same_as="rod_plain", within=NOTHING, says=told))
    nested = lambda: [shapes.plain(), shapes.ring(BIG, 9, 0.5 - HALF, HALF - 0.5, DISTANCE, steps=60), cylinder(9, -30, 30, 64, (DISTANCE, 0))]
    yield Case("bush_and_pin", nested, Expected(same_as="rod_plain", within=NOTHING, says=told))


def split(gap: float = 0.0, aside: float = 0.0, edge_break: float = 0.04):
    """Split rod and cap, the cap moved away (below nought: into the rod) by `gap` and across by `aside` mm."""
    # Cuts leave slivers at the joint whose edges the two would share.
    lower, cap = (body.simplify(SIMPLIFY_MM) for body in split_bodies(SPLIT, COARSE, edge_break))
    return [lower, cap.translate((gap, aside, 0.0))]


def caps() -> Cases:
    yield Case("cap_touches", split)
    yield Case("cap_left_off", lambda: split()[:1], Expected(says=("half bore",)))
    for micron in (1, 2):
        expected = Expected(same_as="cap_touches", within=SHALLOW)
        yield Case(f"cap_gap_{micron}_um", lambda micron=micron: split(micron * 1e-3), expected)
    # Drawn a little apart it is moved onto the rod; farther off it is a cap that is not there.
    for micron in (5, 10, 50):
        expected = Expected(same_as="cap_touches", within=SHALLOW)
        yield Case(f"cap_gap_{micron}_um", lambda micron=micron: split(micron * 1e-3), expected)
    # Sunk by less than a skin it fills its joint's plane, and is no stronger for that.
    for micron in (10, 50):
        expected = Expected(same_as="cap_touches", within=SHALLOW)
        yield Case(f"cap_sunk_{micron}_um", lambda micron=micron: split(-micron * 1e-3), expected)
    # A cap with edges broken has less of a joint than its rod, which sinking does not mend.
    yield Case("cap_of_broken_edges", lambda: split(edge_break=0.2))
    for micron in (10, 50):
        expected = Expected(not_above="cap_of_broken_edges", within=SHALLOW)
        yield Case(f"cap_of_broken_edges_sunk_{micron}_um", lambda micron=micron: split(-micron * 1e-3, edge_break=0.2), expected)
    apart = Expected(same_as="cap_left_off", within=NOTHING, says=("looks like the cap of the big-end bore",))
    yield Case("cap_gap_300_um", lambda: split(0.3), apart)
    for mm in (0.5, 1.0, 3.0):
        expected = Expected(same_as="cap_left_off", within=NOTHING, says=("looks like the cap of the big-end bore",))
        yield Case(f"cap_sunk_{mm}_mm", lambda mm=mm: split(-mm), expected)
    bolts = lambda: split() + [
        cylinder_along("x", 2.65, DISTANCE - 10, DISTANCE + 20, 24, (side * 17.5, 0.0)) for side in (-1, 1)
    ]
    yield Case("cap_with_bolts", bolts, Expected(not_above="cap_touches"))
    washer = shapes.ring(8, 2.65, 0, 1.5, steps=24).rotate((0, 90, 0)).translate((DISTANCE + 11, 17.5, 0))
    yield Case("cap_with_washer", lambda: split() + [washer], Expected(not_above="cap_touches"))


def overlaps() -> Cases:
    for word, shift in (("aside", (0, 3, 0)), ("along", (4, 0, 0)), ("over", (0, 0, 5)), ("turned", None)):
        moved = (lambda body, s=shift: body.translate(s) if s else body.rotate((0, 0, 20)))
        make = lambda moved=moved: [shapes.plain(), moved(shapes.plain())]
        yield Case(f"two_rods_{word}", make, Expected("refused", says=("2 connecting rods", "--body")))
    eyes = lambda: [
        shapes.ring(12, SMALL, -HALF, HALF), shapes.ring(19, BIG, -HALF, HALF, DISTANCE),
        shapes.drilled(box((0, -7, -HALF + 1), (DISTANCE, 7, HALF - 1)), (SMALL + 1, 0, 0), (BIG + 1, DISTANCE, 0)),
    ]
    both = ("2 connecting rods", "--body")
    for mm in (0.5, 5.0, 10.0, 13.5):
        beside = lambda mm=mm: eyes() + [body.translate((0, 0, mm)) for body in eyes()]
        yield Case(f"two_rods_in_pieces_{mm}_mm_over", beside, Expected("refused", says=both))
        for number in (1, 2):
            expected = Expected(same_as="eyes_and_shank_overlap", within=1e-3)
            yield Case(f"body_{number}_of_two_in_pieces_{mm}_mm_over", beside, expected, arguments=("--body", str(number)))
    bosses = lambda: eyes() + [shapes.ring(10, SMALL, HALF - 2, HALF + 2), shapes.ring(16, BIG, HALF - 2, HALF + 2, DISTANCE)]
    united = lambda: [shapes.union(*bosses())]
    yield Case("eyes_with_bosses", bosses, Expected(same_as="eyes_with_bosses_united", within=1e-3))
    yield Case("eyes_with_bosses_united", united)
    yield Case("eyes_and_shank_overlap", eyes, Expected(same_as="eyes_and_shank_united", within=1e-3))
    yield Case("eyes_and_shank_united", lambda: shapes.union(*eyes()))
    intruding = lambda: [*eyes()[:2], box((-3, -5, -4), (DISTANCE, 5, 4))]
    yield Case("shank_in_the_bore", intruding, Expected("refused", says=("no connecting rod",)))


def beside() -> Cases:
    """What touches the rod, and carries nothing of its load, is left out."""
    washer = lambda: [shapes.plain(), shapes.ring(11, SMALL + 0.2, HALF, HALF + 2)]
    yield Case("washer_on_eye", washer, Expected(same_as="rod_plain", within=NOTHING, says=("only touches",)))
    exact = lambda: [shapes.plain(), shapes.ring(11, SMALL, HALF, HALF + 2, steps=60)]
    yield Case("washer_of_the_bores_size", exact, Expected(same_as="rod_plain", within=NOTHING, says=("only touches",)))
    plate = lambda: [shapes.plain(), box((20, -7, HALF), (65, 7, HALF + 4))]
    yield Case("plate_on_shank", plate, Expected(same_as="rod_plain", within=NOTHING, says=("only touches",)))
    sunk = lambda: [shapes.plain(), box((20, -7, HALF - 0.05), (65, 7, HALF + 4))]
    yield Case("plate_sunk_by_a_skin", sunk, Expected(same_as="rod_plain", within=NOTHING, says=("only touches",)))
    collar = lambda: [shapes.plain(), shapes.ring(14, 7.0 * math.sqrt(2), -3, 3).rotate((0, 90, 0)).translate((40, 0, 0))]
    yield Case("collar_round_shank", collar, Expected(same_as="rod_plain", within=NOTHING))
    far = lambda: [shapes.plain(), box((-60, 40, 0), (-20, 80, 30))]
    yield Case("block_apart", far, Expected(same_as="rod_plain", within=NOTHING, says=("left out",)))


def several() -> Cases:
    pair = lambda: [shapes.tapered().translate((0, 60, 0)), shapes.plain()]
    # The tapered rod is the larger.
    yield Case("two_parts", pair, Expected("refused", says=("1: connecting rod", "2: connecting rod", "--body")))
    for number, base in ((1, "rod_tapered"), (2, "rod_plain")):
        yield Case(f"body_{number}_of_two", pair, Expected(same_as=base), arguments=("--body", str(number)))
    yield Case("body_9_of_two", pair, Expected("refused", says=("no body 9",)), arguments=("--body", "9"))
    yield Case("whole_engine", engine, Expected("refused"))


def engine() -> list:
    """Two pistons on pins in their rods on one crank pin, all touching."""
    bodies = []
    for side in (0, 1):
        turn = lambda body, side=side: body.rotate((0, 0, 180 * side)).translate((0, 0, 14.2 * side))
        cup = cylinder_along("x", 17, -22, 14, 96, (0, 0)) - cylinder_along("x", 14.5, -12, 30, 96, (0, 0))
        cup = cup - cylinder(5, -40, 40, 64)
        rod = shapes.rod().translate((0, 0, 0))
        bodies += [turn(part).translate((DISTANCE * (2 * side - 1), 0, 0)) for part in (cup, rod, cylinder(5, -17, 17, 64))]
    return bodies + [cylinder(BIG, -10, 25, 64)]


def coarse(sides_small: int, sides_big: int) -> Manifold:
    body = shapes.union(cylinder(12, -7, 7, 64), cylinder(19, -7, 7, 64, (90, 0)), box((0, -7, -7), (90, 7, 7)))
    return body - cylinder(SMALL, -20, 20, sides_small) - cylinder(BIG, -20, 20, sides_big, (90, 0))


def few_sides() -> Cases:
    for sides in (9, 10, 12, 16):
        expected = Expected(says=(f"drawn with {sides} sides", "between the sides"), holding=bores(13, 24))
        yield Case(f"bores_of_{sides}_sides", lambda sides=sides: coarse(sides, sides), expected)
    for sides in (6, 7, 8):
        expected = Expected("refused", says=(f"has {sides} sides", "--small-end", "--big-end", "--pin-axis"))
        yield Case(f"bores_of_{sides}_sides", lambda sides=sides: coarse(sides, sides), expected)
        hand = ("--small-end", "0,0,0,13", "--big-end", "90,0,0,24", "--pin-axis", "0,0,1")
        told = Expected(says=(f"drawn with {sides} sides",), holding=bores(13, 24))
        yield Case(f"bores_of_{sides}_sides_by_hand", lambda sides=sides: coarse(sides, sides), told, arguments=hand)
    yield Case("bores_of_7_and_64_sides", lambda: coarse(7, 64), Expected("refused", says=("has 7 sides",)))


def voids() -> Cases:
    inner = lambda x: Manifold.sphere(3.0, 32).translate((x, 0, 0))
    yield Case("void_inside", lambda: [shapes.plain(), turned_inside(inner(45))], Expected(says=("closed void",)))
    for place, x in (("in_the_bore", SMALL + 1.0), ("at_the_end", -12.0)):
        make = lambda x=x: [shapes.plain(), turned_inside(inner(x))]
        yield Case(f"void_pierces_{place}", make, Expected("refused", says=("breaks through the surface",)))
    high = lambda: [shapes.plain(), turned_inside(inner(45).translate((0, 0, HALF - 2)))]
    yield Case("void_pierces_the_face", high, Expected("refused", says=("breaks through the surface",)))


def turned_inside(body):
    """Facets of a solid facing inward: the wall of a void."""
    from case import facets_of

    return facets_of(body)[:, ::-1]


def by_hand() -> Cases:
    """A bore's centre is a point of its axis, no more, and what is named is measured as what is found."""
    for z in (-7.0, -3.5, 0.0, 3.5, 7.0, 20.0):
        hand = ("--small-end", f"0,0,{z},13", "--big-end", f"90,0,{-z},24", "--pin-axis", "0,0,1")
        yield Case(f"by_hand_at_{z}", shapes.plain, Expected(same_as="rod_plain", within=NOTHING), arguments=hand)
    for end, said in (("small", "0,0,5,13"), ("big", "90,0,5,24")):
        hand = (f"--{end}-end", said)
        yield Case(f"only_{end}_end_by_hand", shapes.plain, Expected(same_as="rod_plain", within=NOTHING), arguments=hand)
    near = ("--small-end", "0.1,0.1,0,13.2", "--big-end", "90,0.2,0,23.7", "--pin-axis", "0.01,0,-1")
    yield Case("by_hand_nearly", shapes.plain, Expected(same_as="rod_plain", within=NOTHING), arguments=near)
    half = ("--small-end", "0,0,0,13", "--big-end", "90,0,0,24", "--pin-axis", "0,0,1")
    expected = Expected(same_as="cap_left_off", within=NOTHING, says=("half bore",))
    yield Case("half_bore_by_hand", lambda: split()[:1], expected, arguments=half)
    yield Case("plugged_by_hand", shapes.plugged_rod, Expected("refused"), arguments=half)
    yield Case("plugged_short_by_hand", shapes.plugged_short, Expected("refused", says=("fills the bore",)), arguments=half)
