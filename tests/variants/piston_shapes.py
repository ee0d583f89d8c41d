"""How variants of pistons are built: axis along z with the crown up, pin along x, the pin's axis at z = 0. Millimetres."""

from dataclasses import dataclass, replace

from case import ROOT  # noqa: F401 (puts the mesh maker on the path)

from manifold3d import Manifold, OpType

from mesh_maker.solids import box, cylinder, cylinder_along, even_angles, turned

# Facets round the outside and round bores: chords that stand 0.005 mm off a 34 mm circle, as a slicer's user exports them.
ROUND = 180
BORE = 96

TWO_GROOVES = ((4.0, 1.5, 1.7), (8.0, 1.5, 1.7))


@dataclass(frozen=True)
class Shape:
    """A plain trunk piston for a 34 mm bore. `grooves` are (below the crown, width, depth); `cut` is where slipper cuts stand."""

    skirt: float = 33.7
    land: float = 33.4
    top: float = 18.0
    below: float = 11.0
    crown: float = 5.0
    grooves: tuple = TWO_GROOVES
    belt: float = 11.3
    belt_wall: float = 3.0
    skirt_wall: float = 2.6
    pin: float = 10.0
    gap: float = 14.6
    boss: float = 17.0
    offset: float = 0.0
    cut: float | None = None

    @property
    def inside(self) -> float:
        """Radius of the hollow within the belt."""
        return self.land / 2 - 1.7 - self.belt_wall


def outside(shape: Shape) -> Manifold:
    """The body of a piston before it is hollowed."""
    land, skirt, belt = shape.land / 2, shape.skirt / 2, shape.top - shape.belt
    flanks = sorted(((shape.top - g[0] - g[1], shape.top - g[0], g[2]) for g in shape.grooves), key=lambda g: g[0])
    profile, radius, risen = [(skirt, -shape.below)], skirt, False
    for low, high, depth in [*flanks, (shape.top, shape.top, 0.0)]:
        if not risen and low > belt:
            profile += [(skirt, belt - 0.6), (land, belt)]
            radius, risen = land, True
        if high > low:
            profile += [(radius, low), (radius - depth, low), (radius - depth, high), (radius, high)]
    return turned([*profile, (radius, shape.top)], even_angles(ROUND))


def hollow(shape: Shape) -> Manifold:
    """What is taken out of it from below."""
    belt, skirt = shape.top - shape.belt, shape.skirt / 2 - shape.skirt_wall
    profile = [(skirt, -shape.below - 1.0), (skirt, belt - 3.0), (shape.inside, belt), (shape.inside, shape.top - shape.crown)]
    return turned(profile, even_angles(ROUND))


def bosses(shape: Shape) -> Manifold:
    """Pin bosses and what carries them from the crown."""
    radius, reach = shape.boss / 2, shape.skirt / 2
    solids = []
    for side in (-1, 1):
        low, high = sorted((side * shape.gap / 2, side * reach))
        solids.append(cylinder_along("x", radius, low, high, BORE, (shape.offset, 0.0)))
        low, high = sorted((side * max(shape.gap / 2, shape.inside - 3.0), side * reach))
        solids.append(box((low, shape.offset - radius, 0.0), (high, shape.offset + radius, shape.top - shape.crown / 2)))
    return Manifold.batch_boolean(solids, OpType.Add) ^ hollow_of_walls(shape)


def hollow_of_walls(shape: Shape) -> Manifold:
    """Where bosses may be: to the middle of the walls."""
    belt = shape.top - shape.belt
    skirt, inner = shape.skirt / 2 - shape.skirt_wall / 2, shape.inside + shape.belt_wall / 2
    profile = [(skirt, -shape.below), (skirt, belt - 3.0), (inner, belt), (inner, shape.top - shape.crown / 2)]
    return turned(profile, even_angles(ROUND))


def pin_bore(shape: Shape, diameter: float | None = None) -> Manifold:
    radius = (diameter or shape.pin) / 2
    return cylinder_along("x", radius, -40.0, 40.0, BORE, (shape.offset, 0.0))


def piston(shape: Shape = Shape()) -> Manifold:
    body = outside(shape) - hollow(shape) + bosses(shape) - pin_bore(shape)
    if shape.cut is not None:
        high = shape.top - shape.belt - 1.2
        for side in (-1, 1):
            low, far = sorted((side * shape.cut, side * 40.0))
            body = body - box((low, -40.0, -40.0), (far, 40.0, high))
    return body


def with_ribs(shape: Shape) -> Manifold:
    under = shape.top - shape.crown
    ribs = [box((-shape.inside, y - 1.0, under - 1.6), (shape.inside, y + 1.0, under + 1.0)) for y in (-5.0, 5.0)]
    return piston(shape) + Manifold.batch_boolean(ribs, OpType.Add)


def ring(inner: float, outer: float, low: float, high: float) -> Manifold:
    """A ring about the axis, its inner wall a little inside whatever it is added to."""
    return cylinder(outer, low, high, ROUND) - cylinder(inner, low - 1.0, high + 1.0, ROUND)


def block_piston(shape: Shape, slot: tuple = (9.0, 24.0)) -> Manifold:
    """A solid body with a slot for the rod, as simple pistons are printed."""
    width, length = slot
    room = box((-width / 2, -length / 2, -40.0), (width / 2, length / 2, shape.top - shape.crown))
    return outside(shape) - room - pin_bore(shape)


def smaller(shape: Shape = Shape(), **more) -> Shape:
    """A piston with a 6 mm pin, whose counterbores may be wider."""
    return replace(shape, pin=6.0, boss=12.0, **more)
