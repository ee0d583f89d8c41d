"""Meshes with a fault that a reader must repair and report, or refuse with the place named."""

from .damage import inside_out, with_fin, with_one_flipped, without_pair, without_patch
from .part import Part
from .resolution import COARSE
from .solids import box
from .test_rods import plain

# A point of the shank's upper face, in the coarse plain rod's own frame.
ON_SHANK = (45.0, 0.0, 7.0)
PATCH_DIAMETER_MM = 20.0


def open_rod() -> Part:
    return plain(
        damage=without_patch(ON_SHANK, PATCH_DIAMETER_MM),
        fault_center_mm=list(ON_SHANK),
        fault_diameter_mm=PATCH_DIAMETER_MM,
    )


def small_hole() -> Part:
    return plain(damage=without_pair(ON_SHANK), fault_center_mm=list(ON_SHANK))


def one_flipped_facet() -> Part:
    return plain(damage=with_one_flipped(ON_SHANK), fault_center_mm=list(ON_SHANK))


def all_inside_out() -> Part:
    return plain(damage=inside_out)


def fin() -> Part:
    return plain(damage=with_fin(ON_SHANK, 5.0), fault_center_mm=list(ON_SHANK))


def non_manifold() -> Part:
    """Two blocks that share one upright edge: four facets meet there."""
    bodies = (box((0, 0, 0), (20, 20, 20)), box((20, 20, 0), (40, 40, 20)))
    truth = {"fault_center_mm": [20.0, 20.0, 10.0]}
    return Part("two blocks", bodies, COARSE, truth=truth)
