"""A finished part: bodies, pose, and what is known of it by construction."""

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from manifold3d import Manifold

from .pose import Pose
from .remesh import refine
from .resolution import Resolution
from .rod import RodDimensions
from .stl import canonical

# Boolean cuts leave edges shorter than this where two curved walls nearly touch.
SIMPLIFY_MM = 2e-4


@dataclass(frozen=True)
class Part:
    """`bodies` are written one after another without being joined; `damage` then spoils the facets."""

    kind: str
    bodies: tuple
    resolution: Resolution
    pose: Pose = Pose()
    truth: dict = field(default_factory=dict)
    damage: Callable[[np.ndarray], np.ndarray] | None = None

    def corners(self) -> np.ndarray:
        """Facets in file coordinates, float32, in canonical order."""
        facets = canonical(np.concatenate([self._body(body) for body in self.bodies]))
        return facets if self.damage is None else canonical(self.damage(facets))

    def _body(self, body: Manifold) -> np.ndarray:
        mesh = body.simplify(SIMPLIFY_MM).to_mesh64()
        vertices = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
        faces = np.asarray(mesh.tri_verts, dtype=np.int64)
        vertices, faces = refine(vertices, faces, self.resolution.edge_mm)
        return self.pose.points(vertices)[faces]


def rod_truth(rod: RodDimensions, resolution: Resolution, pose: Pose, **more) -> dict:
    """What a reader of the file ought to find; centres are file coordinates times the file unit."""
    truth = {
        "file_unit_mm": 1.0 / pose.scale,
        "center_distance_mm": rod.center_distance * 1.0,
        "pin_axis": plain(pose.direction((0.0, 0.0, 1.0))),
        "rod_direction": plain(pose.direction((1.0, 0.0, 0.0))),
    }
    for name, eye, x in (("small", rod.small, 0.0), ("big", rod.big, rod.center_distance)):
        truth[f"{name}_center_mm"] = plain(pose.points((x, 0.0, 0.0)) / pose.scale)
        truth[f"{name}_bore_diameter_mm"] = eye.bore_diameter
        truth[f"{name}_bore_segments"] = resolution.bore_steps(eye.bore_radius)
        truth[f"{name}_eye_depth_mm"] = eye.depth
        truth[f"{name}_eye_outer_diameter_mm"] = 2 * eye.outer_radius
    truth.update(more)
    return truth


def plain(vector) -> list:
    """Full precision, except that a cosine of 90 degrees becomes a true zero."""
    return [0.0 if abs(x) < 1e-12 else float(x) for x in np.asarray(vector, dtype=np.float64)]


def rod_part(kind, bodies, rod, resolution, pose, **more) -> Part:
    """A part that is a connecting rod, with its truth."""
    bodies = bodies if isinstance(bodies, tuple) else (bodies,)
    return Part(kind, bodies, resolution, pose, rod_truth(rod, resolution, pose, **more))
