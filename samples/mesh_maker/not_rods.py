"""Sound parts of the same trade, or of none, that are not connecting rods. Millimetres."""

import math

from manifold3d import Manifold

from .part import Part
from .pose import Pose
from .resolution import COARSE
from .solids import bore_cutter, box, cylinder

CRANK_THROW = 23.0
MAIN_BORE_DIAMETER = 20.0
CRANK_PIN_BORE_DIAMETER = 16.0
WEB_THICKNESS = 10.0
COUNTERWEIGHT_RADIUS = 36.0


def _bored(body: Manifold, half_depth: float, holes) -> Manifold:
    for diameter, center in holes:
        body = body - bore_cutter(diameter / 2, half_depth, 0.0, COARSE, center)
    return body


def pin() -> Part:
    return Part("pin", (cylinder(6.5, 0.0, 42.0, 64),), COARSE, Pose(offset=(3.0, 2.0, 0.0)))


def tube() -> Part:
    body = cylinder(10.0, -30.0, 30.0, 64) - cylinder(7.0, -31.0, 31.0, 64)
    return Part("tube", (body,), COARSE)


def crank_arm() -> Part:
    """Crank web: main bore at the origin, crank-pin bore on +x, counterweight lobe on -x."""
    half = WEB_THICKNESS / 2
    cheeks = Manifold.batch_hull(
        [
            cylinder(17.0, -half, half, 96),
            cylinder(13.0, -half, half, 96, (CRANK_THROW, 0.0)),
        ]
    )
    sector = cylinder(COUNTERWEIGHT_RADIUS, -half, half, 128) ^ box((-50, -50, -50), (-3, 50, 50))
    body = _bored(
        cheeks + sector,
        half,
        ((MAIN_BORE_DIAMETER, (0.0, 0.0)), (CRANK_PIN_BORE_DIAMETER, (CRANK_THROW, 0.0))),
    )
    truth = {
        "throw_mm": CRANK_THROW,
        "main_bore_diameter_mm": MAIN_BORE_DIAMETER,
        "crank_pin_bore_diameter_mm": CRANK_PIN_BORE_DIAMETER,
    }
    return Part("crank arm", (body,), COARSE, Pose(), truth)


def block() -> Part:
    return Part("block", (box((-30.0, -15.0, 0.0), (30.0, 15.0, 20.0)),), COARSE)


def block_two_holes() -> Part:
    body = box((-40.0, -15.0, -6.0), (40.0, 15.0, 6.0))
    body = _bored(body, 6.0, ((10.0, (-25.0, 0.0)), (10.0, (25.0, 0.0))))
    truth = {"hole_diameter_mm": 10.0, "hole_spacing_mm": 50.0}
    return Part("block with two holes", (body,), COARSE, Pose(), truth)


def flange_plate() -> Part:
    """Round plate: a centre hole and six bolt holes on a 60 mm circle."""
    holes = [(20.0, (0.0, 0.0))]
    for i in range(6):
        angle = math.radians(60.0 * i)
        holes.append((7.0, (30.0 * math.cos(angle), 30.0 * math.sin(angle))))
    body = _bored(cylinder(40.0, -4.0, 4.0, 128), 4.0, holes)
    return Part("flange plate", (body,), COARSE)


def one_bore() -> Part:
    """Lever: an eye at one end, a plain rounded tip at the other."""
    body = Manifold.batch_hull(
        [cylinder(12.0, -5.0, 5.0, 96), cylinder(6.0, -5.0, 5.0, 64, (70.0, 0.0))]
    )
    return Part("lever", (_bored(body, 5.0, ((13.0, (0.0, 0.0)),)),), COARSE)
