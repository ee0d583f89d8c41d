"""Round things that are no pistons, some of them nearly. Millimetres."""

import math

from case import ROOT  # noqa: F401 (puts the mesh maker on the path)

from manifold3d import Manifold, OpType

from mesh_maker.solids import box, cylinder, cylinder_along, even_angles, turned
from piston_shapes import BORE, ROUND, Shape, outside, pin_bore


def plunger() -> Manifold:
    """Solid, with grooves, nothing across."""
    return outside(Shape())


def bored_plunger() -> Manifold:
    """Solid, with grooves and a pin bore, nothing hollow."""
    return outside(Shape()) - pin_bore(Shape())


def cup(wall: float = 3.0) -> Manifold:
    return cylinder(16.85, -11.0, 18.0, ROUND) - cylinder(16.85 - wall, -12.0, 13.0, ROUND)


def across(diameter: float, low: float = -40.0, axis: str = "x", height: float = 0.0) -> Manifold:
    return cylinder_along(axis, diameter / 2, low, 40.0, BORE, (0.0, height))


def cap_nut() -> Manifold:
    """Hexagon with a dome and a blind bore."""
    corners = [(17.0 * math.cos(math.radians(60 * k)), 17.0 * math.sin(math.radians(60 * k))) for k in range(6)]
    low = [box((-0.01 + x, -0.01 + y, -11.0), (x + 0.01, y + 0.01, 6.0)) for x, y in corners]
    dome = turned([(14.0, 5.0), (13.5, 9.0), (11.0, 14.0), (6.0, 17.0), (0.5, 18.0)], even_angles(ROUND))
    return Manifold.batch_hull(low) + dome - cylinder(10.0, -12.0, 10.0, BORE)


def union_nut() -> Manifold:
    """Round, with a shoulder inside and two spanner holes half through its wall."""
    body = cylinder(17.0, 0.0, 20.0, ROUND) - cylinder(12.0, -1.0, 15.0, ROUND) - cylinder(9.0, 10.0, 21.0, ROUND)
    return body - across(4.0, 15.0, height=8.0) - across(4.0, 15.0, height=8.0).rotate((0.0, 0.0, 180.0))


def pulley() -> Manifold:
    """A belt's groove round it, bored along its axis, with a grub screw across."""
    rim = [(17.0, 0.0), (17.0, 3.0), (12.0, 6.0), (17.0, 9.0), (17.0, 12.0), (9.0, 12.0), (9.0, 22.0)]
    return turned(rim, even_angles(ROUND)) - cylinder(4.0, -1.0, 23.0, BORE) - across(3.0, 0.0, height=17.0)


def blind_pulley() -> Manifold:
    """The same with a blind bore and the screw hole right through."""
    rim = [(17.0, 0.0), (17.0, 3.0), (14.0, 6.0), (17.0, 9.0), (17.0, 24.0)]
    return turned(rim, even_angles(ROUND)) - cylinder(4.0, 5.0, 25.0, BORE) - across(5.0, height=17.0)


def flanged_bush() -> Manifold:
    body = cylinder(13.0, 0.0, 26.0, ROUND) + cylinder(17.0, 0.0, 3.0, ROUND)
    return body - cylinder(9.0, -1.0, 27.0, ROUND) - across(4.0, height=15.0)


def blind_flanged_bush() -> Manifold:
    """Closed at the flange, with a pin hole through both walls."""
    body = cylinder(13.0, 0.0, 26.0, ROUND) + cylinder(17.0, 0.0, 5.0, ROUND)
    return body - cylinder(9.0, 5.0, 27.0, ROUND) - across(8.0, height=16.0)


def tube_with_pin_hole() -> Manifold:
    return cylinder(17.0, -15.0, 15.0, ROUND) - cylinder(13.0, -16.0, 16.0, ROUND) - across(8.0)


def bottle_cap() -> Manifold:
    body = cylinder(17.0, 0.0, 14.0, ROUND) - cylinder(15.0, -1.0, 12.0, ROUND)
    thread = [cylinder(15.5, z, z + 1.0, ROUND) - cylinder(14.0, z - 1.0, z + 2.0, ROUND) for z in (2.0, 5.0, 8.0)]
    return body + Manifold.batch_boolean(thread, OpType.Add)


def knob() -> Manifold:
    """Thick, with a narrow blind bore for a shaft and a pin hole through both."""
    return cylinder(17.0, 0.0, 28.0, ROUND) - cylinder(4.0, -1.0, 20.0, BORE) - across(5.0, height=8.0)


def cone() -> Manifold:
    body = turned([(17.0, -11.0), (9.0, 18.0)], even_angles(ROUND)) - turned([(14.0, -12.0), (6.0, 13.0)], even_angles(ROUND))
    return body - across(8.0)


def ball() -> Manifold:
    return Manifold.sphere(17.0, ROUND) - cylinder(9.0, -20.0, 4.0, ROUND) - across(8.0)


def flat_disc() -> Manifold:
    """A wheel: as wide as a piston, with a hub bored along the axis and no bore across."""
    return cylinder(17.0, 0.0, 5.0, ROUND) + cylinder(7.0, 0.0, 14.0, ROUND) - cylinder(3.0, -1.0, 15.0, BORE)


def square_block() -> Manifold:
    return box((-16.0, -16.0, -11.0), (16.0, 16.0, 18.0)) - box((-13.0, -13.0, -12.0), (13.0, 13.0, 13.0)) - across(10.0)


def stepped_shaft() -> Manifold:
    body = cylinder(17.0, 0.0, 12.0, ROUND) + cylinder(10.0, 0.0, 40.0, ROUND)
    return body - across(5.0, height=30.0)


def closed_drum() -> Manifold:
    """Closed at both ends, hollow within, with a bore across."""
    body = cylinder(16.85, -11.0, 18.0, ROUND) - cylinder(13.5, -7.0, 13.0, ROUND)
    return body - across(8.0)
