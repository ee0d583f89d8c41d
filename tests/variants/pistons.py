"""Variants of pistons, and of what is none."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from case import ROOT, Case, Cases, Expected, facets_of
import not_pistons
from manifold3d import Manifold, OpType
from mesh_maker.pistons import TILTED
from mesh_maker.solids import cylinder, cylinder_along, even_angles, turned
from piston_shapes import (
    BORE,
    ROUND,
    TWO_GROOVES,
    Shape,
    block_piston,
    bosses,
    hollow,
    outside,
    pin_bore,
    piston,
    ring,
    smaller,
    with_ribs,
)

JOB = "bench_piston.toml"

# Asked of the program: places within 0.05 mm, diameters within 0.1 mm.
PLACE = 0.05
DIAMETER = 0.1

PLAIN = Shape()


def reads(
    shape: Shape = PLAIN,
    crown: tuple | None = None,
    up: tuple = (0.0, 0.0, 1.0),
    pin_axis: tuple = (1.0, 0.0, 0.0),
    grooves: int | None = None,
    height: float | None = None,
) -> Callable[[dict | None], str | None]:
    """Holds a report to the shape it was built from; `crown` is the thickness from and to, mm."""
    low, high = crown or (shape.crown - PLACE, shape.crown + PLACE)

    def held(report: dict | None) -> str | None:
        if report is None or report.get("piston") is None:
            return "not taken for a piston"
        found, bore = report["piston"], report["part"]["bores"][0]
        wrong = []
        if np.dot(found["crown_direction"], up) < 0.999:
            wrong.append(f"crown toward {found['crown_direction']}")
        if abs(np.dot(bore["axis"], pin_axis)) < 0.999:
            wrong.append(f"pin along {bore['axis']}")
        for what, value, wanted, within in (
            ("pin bore", bore["diameter_mm"], shape.pin, DIAMETER),
            ("skirt", found["skirt_diameter_mm"], shape.skirt, DIAMETER),
            ("compression height", found["compression_height_mm"], height or shape.top, PLACE),
            ("pin offset", abs(found["pin_offset_mm"]), abs(shape.offset), PLACE),
            ("bosses", len(found["bosses"]), 2, 0),
            ("grooves", len(found["grooves"]), len(shape.grooves) if grooves is None else grooves, 0),
        ):
            if abs(value - wanted) > within:
                wrong.append(f"{what} {value:.3f}, built with {wanted}")
        thickness = found["crown"]["thickness_mm"]
        if not low <= thickness <= high:
            wrong.append(f"crown {thickness:.3f} mm, built with {low:.2f} to {high:.2f}")
        return "; ".join(wrong) or None

    return held


def good(name: str, mesh: Callable, says: tuple = (), never: tuple = (), more: dict | None = None, **built) -> Case:
    """A piston that has to be read as built."""
    expected = Expected("answered", says=says, never_says=never, holding=reads(**built), **(more or {}))
    return Case(f"piston_{name}", mesh, expected, JOB)


def none(name: str, mesh: Callable, *says: str) -> Case:
    """What is no piston, and what the refusal has to say."""
    return Case(f"no_piston_{name}", mesh, Expected("refused", says=says), JOB)


def crowns() -> Cases:
    yield good("plain", piston, never=("hole through", "the crown direction", "that pin bore", "its pin bore", "the body of the piston"))
    domed = lambda: piston() + _dome(2.0)  # noqa: E731
    yield good("domed", domed, crown=(5.85, 6.05), height=20.0)
    yield good("bowled", lambda: piston() - _bowl(9.0, 2.0), crown=(2.95, 3.05))
    deep = Shape(top=24.0, belt=17.3, crown=5.0)
    yield good("deep_bowl", lambda: _deep_bowl(deep), shape=deep, crown=(4.9, 5.1))
    pockets = lambda: piston() - _holes(4.0, 16.5, ((0.0, 6.0), (0.0, -6.0)))  # noqa: E731
    yield good("valve_pockets", pockets, crown=(3.45, 3.55))
    # One pocket from below, 1 mm under the face: a tenth of the crown, which stays a plate of 5 mm.
    yield good("bridge", lambda: piston() - _below((0.0, 6.0), 4.0, 17.0), says=("1.00 mm",), more={"not_above": "piston_plain"})
    middle = lambda: piston() - _below((0.0, 0.0), 6.0, 17.0)  # noqa: E731
    yield good("bridge_in_the_middle", middle, says=("1.00 mm",), more={"not_above": "piston_plain"})
    # Its mass is a thousandth less, and with it the little that its own inertia adds.
    hole = {"not_above": "piston_plain", "within": 2e-3}
    yield good("hole_in_crown", lambda: piston() - _holes(1.5, 0.0, ((0.0, 6.0),)), says=("hole through the crown",), more=hole)
    screws = ((7.0, 5.0), (-7.0, 5.0), (7.0, -5.0), (-7.0, -5.0))
    screwed = lambda: piston() - _holes(1.6, 11.0, screws) - _holes(3.0, 16.0, screws)  # noqa: E731
    yield good("plate_screws", screwed, says=("holes through the crown",), crown=(2.95, 5.05))
    yield good("ribs", lambda: with_ribs(PLAIN))


def belts() -> Cases:
    for count in range(5):
        grooves = tuple((3.0 + 3.5 * k, 1.5, 1.7) for k in range(count))
        shape = Shape(top=22.0, belt=17.0, grooves=grooves)
        yield good(f"grooves_{count}", lambda shape=shape: piston(shape), shape=shape)
    low = Shape(below=20.0, grooves=(*TWO_GROOVES, (33.5, 1.5, 1.5)))
    yield good("groove_on_the_skirt", lambda: piston(low), shape=low)
    drained = lambda: piston() - _round(8, lambda: cylinder_along("x", 0.75, 5.0, 40.0, 32, (0.0, 9.25)))  # noqa: E731
    yield good("oil_drain_holes", drained)
    collar = lambda: piston() + ring(14.0, 16.95, 15.0, 18.0)  # noqa: E731
    yield good("collar", collar, says=("33.90 mm", "collar"), more={"not_above": "piston_plain", "within": 2e-3})
    wide = Shape(grooves=())
    yield good("bare_collar", lambda: piston(wide) + ring(14.0, 16.95, 15.0, 18.0), shape=wide, says=("33.90 mm",))


def skirts() -> Cases:
    slipper = Shape(cut=14.2)
    yield good("slipper", lambda: piston(slipper), shape=slipper)
    long, short = Shape(below=32.0), Shape(below=8.6)
    yield good("long_skirt", lambda: piston(long), shape=long)
    yield good("short_skirt", lambda: piston(short), shape=short)
    # Wider than the skirt by 0.125 mm all round, at its end: it stands nearer to the cylinder, so no margin grows.
    lip = lambda: piston() + ring(15.0, 16.975, -11.0, -9.6)  # noqa: E731
    yield good("lip", lip, says=("33.95 mm", "lip"), more={"not_above": "piston_plain", "within": 5e-3})
    wide = lambda: piston() + ring(15.0, 17.3, -11.0, -9.6)  # noqa: E731
    yield Case("piston_lip_too_wide", wide, Expected("fails", says=("34.60 mm", "seizure by growth", "lip")), JOB)
    windows = lambda: piston() - cylinder_along("y", 6.5, -40.0, 40.0, BORE, (0.0, -2.0))  # noqa: E731
    yield good("round_windows", windows)
    block = Shape()
    yield good("block_with_slot", lambda: block_piston(block), shape=block)
    inward = lambda: piston() + ring(12.5, 16.0, -11.0, -9.5)  # noqa: E731
    yield good("lip_inside", inward)


def pins() -> Cases:
    offset = Shape(offset=1.5)
    yield good("offset_pin", lambda: piston(offset), shape=offset)
    clips = lambda: piston() - _clips(PLAIN, 11.2, 13.0, 1.2)  # noqa: E731
    yield good("circlip_grooves", clips)
    thin = smaller()
    # A screw for a pin: its head sinks into one boss.
    head = lambda: piston(thin) - cylinder_along("x", 5.5, 14.8, 40.0, BORE, (0.0, 0.0))  # noqa: E731
    yield good("screw_head_on_the_pin", head, shape=thin)
    both = lambda: head() - cylinder_along("x", 5.0, -40.0, -14.8, BORE, (0.0, 0.0))  # noqa: E731
    yield good("screw_head_and_nut", both, shape=thin)
    # Bosses in two steps of about one length: a pin goes through the narrow one.
    stepped = lambda: (  # noqa: E731
        piston(thin)
        - cylinder_along("x", 4.0, 12.0, 40.0, BORE, (0.0, 0.0))
        - cylinder_along("x", 4.0, -40.0, -12.0, BORE, (0.0, 0.0))
    )
    yield good("stepped_bosses", stepped, shape=thin, says=("a bore of 8.00 mm crosses the axis too",))
    # A screw through the skirt, square to the pin, with its head sunk.
    side = lambda: (  # noqa: E731
        piston(thin)
        - cylinder_along("y", 1.6, -40.0, 40.0, 48, (0.0, -4.0))
        - cylinder_along("y", 5.5, 15.05, 40.0, BORE, (0.0, -4.0))
    )
    yield good("screw_head_across", side, shape=thin)
    plain_cup = Shape(grooves=(), pin=8.0)
    # Nearly a piston: a pin may run in its bare walls. It is taken, with the doubt told.
    cup = lambda: not_pistons.cup(3.4) - not_pistons.across(8.0)  # noqa: E731
    yield good("cup_with_two_holes", cup, shape=plain_cup, says=("no bosses", "name its pin bore"))
    loose = lambda: [piston(), cylinder_along("x", 4.98, -14.0, 14.0, 64, (0.0, 0.0))]  # noqa: E731
    yield good("with_its_pin", loose, says=("left out",), more={"same_as": "piston_plain"})


def poses() -> Cases:
    turn = np.array(TILTED)
    tilted = lambda: facets_of(piston()) @ turn.T + np.array((40.0, -25.0, 7.0))  # noqa: E731
    up, pin = tuple(turn @ (0.0, 0.0, 1.0)), tuple(turn @ (1.0, 0.0, 0.0))
    # Corners are rounded to 32 bits in another place: 1e-6 of a thickness, which a fatigue life takes to a high power.
    yield good("tilted", tilted, up=up, pin_axis=pin, more={"same_as": "piston_plain", "within": 1e-4})
    upside_down = lambda: piston().rotate((180.0, 0.0, 0.0))  # noqa: E731
    yield good("upside_down", upside_down, up=(0.0, 0.0, -1.0), more={"same_as": "piston_plain", "within": 1e-4})


def several() -> Cases:
    two = lambda: [piston(), piston(Shape(skirt=33.6, below=14.0)).translate((60.0, 0.0, 0.0))]  # noqa: E731
    yield Case("pistons_two", two, Expected("refused", says=("2 pistons",)), JOB)

def no_pistons() -> Cases:
    shapes = not_pistons
    yield none("plunger", shapes.plunger, "no bore")
    yield none("bored_plunger", shapes.bored_plunger, "solid")
    yield none("cup", shapes.cup, "no pin bore")
    yield none("cup_with_one_hole", lambda: shapes.cup() - shapes.across(8.0, 0.0), "one side")
    yield none("cup_with_small_holes", lambda: shapes.cup() - shapes.across(2.0), "no pin bore")
    yield none("thin_cup_with_two_holes", lambda: shapes.cup(1.2) - shapes.across(8.0), "too short")
    yield none("cap_nut", shapes.cap_nut)
    yield none("union_nut", shapes.union_nut)
    yield none("pulley", shapes.pulley)
    yield none("blind_pulley", shapes.blind_pulley)
    yield none("flanged_bush", shapes.flanged_bush)
    yield none("blind_flanged_bush", shapes.blind_flanged_bush, "34.00 mm", "26.00 mm")
    yield none("tube_with_pin_hole", shapes.tube_with_pin_hole, "closed")
    yield none("bottle_cap", shapes.bottle_cap, "no pin bore")
    yield none("knob", shapes.knob, "solid")
    yield none("cone", shapes.cone)
    yield none("ball", shapes.ball)
    yield none("flat_disc", shapes.flat_disc)
    yield none("square_block", shapes.square_block)
    yield none("stepped_shaft", shapes.stepped_shaft)
    yield none("closed_drum", shapes.closed_drum, "closed at both ends")
    # Closed below, open at the end with the grooves: which end is the crown has to be said.
    yield none("grooves_at_the_open_end", _holder, "--crown-direction", "grooves")


def cases() -> Cases:
    yield Case("piston_flat", lambda: ROOT / "samples" / "flat_crown_piston.stl", Expected("answered"), JOB)
    for part in (crowns, belts, skirts, pins, poses, several, no_pistons):
        yield from part()


def _holder() -> Manifold:
    """A piston turned upside down within its outside: grooves at the open end."""
    shape = Shape(below=18.0, top=18.0)
    return outside(shape) - (hollow(shape) - bosses(shape)).rotate((180.0, 0.0, 0.0)) - pin_bore(shape)


def _dome(rise: float) -> Manifold:
    """A cap over the whole crown."""
    radius, steps = PLAIN.land / 2, 12
    profile = [(radius, PLAIN.top - 1.0), (radius, PLAIN.top)]
    profile += [(radius * (1 - k / steps), PLAIN.top + rise * (1 - (1 - k / steps) ** 2)) for k in range(1, steps)]
    return turned([*profile, (0.01, PLAIN.top + rise)], even_angles(ROUND))


def _bowl(radius: float, depth: float) -> Manifold:
    return cylinder(radius, PLAIN.top - depth, PLAIN.top + 1.0, ROUND)


def _deep_bowl(shape: Shape) -> Manifold:
    """A bowl of 9 mm, with as much below it."""
    lowered = replace(shape, crown=shape.crown + 9.0)
    return piston(lowered) - cylinder(8.0, shape.top - 9.0, shape.top + 1.0, ROUND)


def _holes(radius: float, floor: float, places: tuple) -> Manifold:
    """From the face down to a height."""
    return _sum(cylinder(radius, floor, 40.0, BORE, place) for place in places)


def _below(place: tuple, radius: float, roof: float) -> Manifold:
    """From the underside up to a height."""
    return cylinder(radius, 12.0, roof, BORE, place)


def _round(count: int, hole: Callable[[], Manifold]) -> Manifold:
    return _sum(hole().rotate((0.0, 0.0, 360.0 * k / count)) for k in range(count))


def _clips(shape: Shape, diameter: float, at: float, width: float) -> Manifold:
    lows = (at, -at - width)
    return _sum(cylinder_along("x", diameter / 2, low, low + width, BORE, (shape.offset, 0.0)) for low in lows)


def _sum(bodies) -> Manifold:
    return Manifold.batch_boolean(list(bodies), OpType.Add)
