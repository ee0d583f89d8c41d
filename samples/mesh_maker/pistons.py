"""Pistons of the bench engine with a 34 mm bore, and coarse ones for tests."""

from dataclasses import replace

from .part import Part
from .piston import (
    Groove,
    PistonDimensions,
    bosses,
    envelope,
    pin_bore,
    piston_part,
    shell,
    whole_piston,
)
from .pose import Pose
from .resolution import COARSE, Resolution
from .solids import bore_cutter, box, cylinder, cylinder_along

FLAT_CROWN = PistonDimensions(
    skirt_diameter=33.7,
    land_diameter=33.4,
    compression_height=18.0,
    skirt_below_pin=11.0,
    crown=5.0,
    grooves=(Groove(4.0, 1.5, 1.7), Groove(8.0, 1.5, 1.7)),
    belt_wall=3.0,
    skirt_wall=2.6,
    pin_diameter=10.0,
    boss_gap=14.6,
    boss_diameter=17.0,
    # Just inside the skirt's inner wall, so that no sliver of it is left beside the bosses.
    cut=14.2,
)
THIN_CROWN = replace(FLAT_CROWN, crown=1.6, crown_fillet=0.0)
# The plate on it is 3 mm thick and belongs to the job, so the plastic ends that much lower.
PLATE_CROWN = replace(
    FLAT_CROWN,
    compression_height=16.0,
    crown=4.0,
    grooves=(Groove(2.4, 1.5, 1.7), Groove(6.0, 1.5, 1.7)),
    crown_fillet=1.5,
    rib_width=2.0,
    rib_depth=1.6,
)

# Turns the cylinder axis into the file's x, the pin axis into its y.
LYING = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
# A rotation of whole numbers over three: no axis of the part along one of the file.
TILTED = (
    (2 / 3, -1 / 3, 2 / 3),
    (2 / 3, 2 / 3, -1 / 3),
    (-1 / 3, 2 / 3, 2 / 3),
)


def sample(kind: str, piston: PistonDimensions, resolution: Resolution, pose: Pose) -> Part:
    return piston_part(kind, whole_piston(piston, resolution), piston, resolution, pose)


def coarse(pose: Pose = Pose()) -> Part:
    return piston_part("piston", whole_piston(FLAT_CROWN, COARSE), FLAT_CROWN, COARSE, pose)


def holder() -> Part:
    """A piston's outside with its hollow the other way up: grooves at the open end, the closed end without."""
    body = cylinder(16.85, -18.0, 18.0, 96) - cylinder(13.0, -13.0, 19.0, 96)
    for low in (8.5, 12.5):
        body = body - (cylinder(18.0, low, low + 1.5, 96) - cylinder(15.15, low - 1.0, low + 3.0, 96))
    for side in (-1.0, 1.0):
        low, high = sorted((side * 7.3, side * 14.0))
        body = body + (cylinder_along("x", 8.5, low, high, 64, (0.0, 0.0)) ^ cylinder(14.0, -18.0, 18.0, 96))
    return Part("holder", (body - cylinder_along("x", 5.0, -20.0, 20.0, 64, (0.0, 0.0)),), COARSE)


def in_pieces() -> Part:
    """Shell and bosses as closed bodies that overlap, not united, and a loose pin beside them."""
    # A little inside the shell, so that no corners of the two bodies coincide.
    inner = bosses(FLAT_CROWN, COARSE) ^ envelope(FLAT_CROWN, COARSE) ^ _between_cuts(0.2)
    bore = pin_bore(FLAT_CROWN, COARSE)
    pin = cylinder(5.0, -14.0, 14.0, 64, (60.0, 0.0))
    bodies = (shell(FLAT_CROWN, COARSE) - bore, inner - bore, pin)
    return piston_part("piston in pieces", bodies, FLAT_CROWN, COARSE)


def _between_cuts(inside):
    far, cut = 40.0, FLAT_CROWN.cut - inside
    return box((-cut, -far, -far), (cut, far, far))


def cup() -> Part:
    """Closed at one end, without a bore across."""
    return Part("cup", (cylinder(17.0, 0.0, 30.0, 96) - cylinder(14.0, -1.0, 25.0, 96),), COARSE)


def bush() -> Part:
    """A tube with a grease hole across."""
    body = cylinder(15.0, 0.0, 30.0, 96) - bore_cutter(10.0, 40.0, 0.0, COARSE, (0.0, 0.0))
    return Part("bush", (body - cylinder_along("x", 2.0, -20.0, 20.0, 32, (0.0, 15.0)),), COARSE)


def plug() -> Part:
    """Solid, with a bore across: a crosshead pin, not a piston."""
    body = cylinder(17.0, 0.0, 34.0, 96) - cylinder_along("x", 5.0, -20.0, 20.0, 64, (0.0, 15.0))
    return Part("plug", (body,), COARSE)
