"""How a piston is built: cylinder axis along z with the crown up, pin axis along x through the origin."""

import math
from dataclasses import dataclass

from manifold3d import Manifold, OpType

from .part import Part, plain
from .pose import Pose
from .resolution import Resolution
from .solids import box, cylinder, cylinder_along, even_angles, turned


@dataclass(frozen=True)
class Groove:
    """Upper flank below the crown edge, width along the axis, depth below the land."""

    below_crown: float
    width: float
    depth: float


@dataclass(frozen=True)
class PistonDimensions:
    """Millimetres. `cut` is how far the slipper cuts stand from the axis; the bosses end there."""

    skirt_diameter: float
    land_diameter: float
    compression_height: float
    skirt_below_pin: float
    crown: float
    grooves: tuple
    belt_wall: float
    skirt_wall: float
    pin_diameter: float
    boss_gap: float
    boss_diameter: float
    cut: float
    crown_fillet: float = 2.5
    rib_width: float = 0.0
    rib_depth: float = 0.0

    @property
    def belt_bottom(self) -> float:
        last = self.grooves[-1]
        return self.compression_height - last.below_crown - last.width - 1.8


def _outer(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    top, land, skirt = piston.compression_height, piston.land_diameter / 2, piston.skirt_diameter / 2
    profile = [(skirt, -piston.skirt_below_pin), (skirt, piston.belt_bottom - 0.6), (land, piston.belt_bottom)]
    for groove in reversed(piston.grooves):
        high = top - groove.below_crown
        floor = land - groove.depth
        profile += [(land, high - groove.width), (floor, high - groove.width), (floor, high), (land, high)]
    profile.append((land, top))
    return turned(profile, even_angles(resolution.bore_steps(skirt)))


def _cavity(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    belt = piston.land_diameter / 2 - piston.grooves[0].depth - piston.belt_wall
    skirt = piston.skirt_diameter / 2 - piston.skirt_wall
    roof = piston.compression_height - piston.crown
    fillet = piston.crown_fillet
    profile = [(skirt, -piston.skirt_below_pin - 1.0), (skirt, piston.belt_bottom - 3.0), (belt, piston.belt_bottom)]
    steps = resolution.arc_steps(fillet, math.pi / 2, fillet=True) if fillet > 0 else 0
    profile.append((belt, roof - fillet))
    for i in range(1, steps + 1):
        turn = i * math.pi / 2 / steps
        profile.append((belt - fillet * (1 - math.cos(turn)), roof - fillet * (1 - math.sin(turn))))
    return turned(profile, even_angles(resolution.bore_steps(skirt)))


def bosses(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    """Pin bosses and the walls that carry them, from the crown's underside down, without their bore."""
    radius, gap, cut = piston.boss_diameter / 2, piston.boss_gap / 2, piston.cut
    roof = piston.compression_height - piston.crown / 2
    steps = resolution.bore_steps(radius)
    solids = []
    for side in (-1, 1):
        near, far = sorted((side * gap, side * (cut + 1.0)))
        solids.append(cylinder_along("x", radius, near, far, steps, (0.0, 0.0)))
        low, high = sorted((side * (cut - 3.5), side * (cut + 1.0)))
        solids.append(box((low, -radius, 0.0), (high, radius, roof)))
    for y in (-1, 1):
        if piston.rib_width > 0:
            low, high = sorted((y * 3.0, y * (3.0 + piston.rib_width)))
            under = piston.compression_height - piston.crown - piston.rib_depth
            solids.append(box((-cut, low, under), (cut, high, roof)))
    return Manifold.batch_boolean(solids, OpType.Add)


def envelope(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    """What may hold bosses and ribs: inside the belt's inner half above, inside the skirt below."""
    skirt = piston.skirt_diameter / 2 - piston.skirt_wall / 2
    belt = piston.land_diameter / 2 - piston.grooves[0].depth - piston.belt_wall / 2
    profile = [
        (skirt, -piston.skirt_below_pin),
        (skirt, piston.belt_bottom - 3.0),
        (belt, piston.belt_bottom),
        (belt, piston.compression_height - piston.crown / 2),
    ]
    return turned(profile, even_angles(resolution.bore_steps(skirt)))


def shell(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    """Crown, ring belt and skirt, with the slipper cuts."""
    body = _outer(piston, resolution) - _cavity(piston, resolution)
    for cutter in _cuts(piston):
        body = body - cutter
    return body


def _cuts(piston: PistonDimensions):
    far, top = piston.skirt_diameter, piston.belt_bottom - 1.2
    for side in (-1, 1):
        low, high = sorted((side * piston.cut, side * far))
        yield box((low, -far, -far), (high, far, top))


def pin_bore(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    radius, far = piston.pin_diameter / 2, piston.skirt_diameter
    return cylinder_along("x", radius, -far, far, resolution.bore_steps(radius), (0.0, 0.0))


def whole_piston(piston: PistonDimensions, resolution: Resolution) -> Manifold:
    inner = bosses(piston, resolution) ^ envelope(piston, resolution)
    for cutter in _cuts(piston):
        inner = inner - cutter
    return shell(piston, resolution) + inner - pin_bore(piston, resolution)


def piston_truth(piston: PistonDimensions, resolution: Resolution, pose: Pose, **more) -> dict:
    truth = {
        "file_unit_mm": 1.0 / pose.scale,
        "crown_direction": plain(pose.direction((0.0, 0.0, 1.0))),
        "pin_axis": plain(pose.direction((1.0, 0.0, 0.0))),
        "pin_center_mm": plain(pose.points((0.0, 0.0, 0.0)) / pose.scale),
        "skirt_diameter_mm": piston.skirt_diameter,
        "land_diameter_mm": piston.land_diameter,
        "outer_segments": resolution.bore_steps(piston.skirt_diameter / 2),
        "pin_bore_diameter_mm": piston.pin_diameter,
        "pin_bore_segments": resolution.bore_steps(piston.pin_diameter / 2),
        "compression_height_mm": piston.compression_height,
        "length_mm": piston.compression_height + piston.skirt_below_pin,
        "boss_length_mm": piston.cut - piston.boss_gap / 2,
        "boss_gap_mm": piston.boss_gap,
        "crown_thickness_mm": piston.crown,
        "grooves": [
            {"below_crown_mm": g.below_crown, "width_mm": g.width, "depth_mm": g.depth} for g in piston.grooves
        ],
    }
    truth.update(more)
    return truth


def piston_part(kind, bodies, piston, resolution, pose=Pose(), **more) -> Part:
    bodies = bodies if isinstance(bodies, tuple) else (bodies,)
    return Part(kind, bodies, resolution, pose, piston_truth(piston, resolution, pose, **more))
