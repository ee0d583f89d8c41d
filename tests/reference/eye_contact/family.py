"""The table of eye factors over width ratio, direction and load."""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import PchipInterpolator

from contact import SIGN, cosine_push, press
from elastic import POISSON, BoreResponse, Part, Rays
from mesh import Fineness, Outline, build, eye, eye_blend_span

DIRECTIONS = list(SIGN)
# Close together where thin eyes change quickly.
WIDTH_RATIOS = [1.25, 1.3, 1.4, 1.5, 1.6, 1.8, 2.0, 2.5, 3.0]
# P' / (E c); infinity is the close fit, solved with no clearance at all.
LOADS = [0.005, 0.01, 0.015, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5, 1.0, 2.0, 5.0, 10.0,
         20.0, 50.0, np.inf]
ANGLES_DEG = np.arange(0, 181, 10)
# The table's mesh: bore elements of a third of a degree.
TABLE_FINENESS = Fineness(around=540, radial=36, growth=1.12)
# Outer hoop stress is probed every 2 degrees, to find its greatest value.
RAY_STEP_DEG = 2
OUTER_RAYS = np.radians(np.arange(0, 181, RAY_STEP_DEG))


@dataclass(frozen=True)
class EyeState:
    """Factors of one loaded eye; hoop factors are stress x (W - d) t / P."""

    bore_hoop: np.ndarray
    outer_hoop: np.ndarray
    peak: float
    peak_angle_deg: float
    outer_peak: float
    outer_peak_angle_deg: float
    # Greatest stress along the surface of the blend between eye and shank.
    blend_peak: float
    # Pressure factor is pressure x d t / P.
    half_angle_deg: float
    peak_pressure: float
    worst_gap: float
    worst_force: float


@dataclass(frozen=True)
class Eye:
    """An eye reduced to its bore."""

    width_ratio: float
    shank_ratio: float
    blend_ratio: float
    response: BoreResponse


def prepare(width_ratio: float, fineness: Fineness = TABLE_FINENESS, shank_ratio: float = 0.7,
            blend_ratio: float = 0.2, poisson: float = POISSON) -> Eye:
    """Mesh and reduce one eye."""
    outline = eye(width_ratio, shank_ratio, blend_ratio)
    part = Part(build(outline, fineness), poisson)
    probes = Rays.hoop(OUTER_RAYS, width_ratio).then(
        _blend_rays(outline, eye_blend_span(width_ratio, shank_ratio, blend_ratio)))
    response = part.response(part.end_dofs(-outline.left_end), probes)
    return Eye(width_ratio, shank_ratio, blend_ratio, response)


def _blend_rays(outline: Outline, span_deg: tuple[float, float]) -> Rays:
    """Probes every degree along the blend's surface, in its tangent direction."""
    # The stress is greatest just beside the blend when the blend is short.
    angle = np.radians(np.arange(np.ceil(span_deg[0]), np.floor(span_deg[1]) + 3.0))
    step = 1e-5

    def place(a):
        return outline.reach(a) * np.array([np.cos(a), np.sin(a)])

    tangent = place(angle + step) - place(angle - step)
    return Rays(angle, outline.reach(angle), np.arctan2(tangent[1], tangent[0]))


def solve(eye_part: Eye, direction: str, load: float) -> EyeState:
    """One pin-loaded state; `load` is P' / (E c), infinite for a close fit."""
    bearing = press(eye_part.response, direction, 1.0 / load)
    return _state(eye_part, bearing.force, np.degrees(bearing.half_angle), bearing.peak_pressure,
                  bearing.worst_gap, bearing.worst_force)


def solve_cosine(eye_part: Eye, direction: str) -> EyeState:
    """The eye under the cosine pressure instead of a pin."""
    return _state(eye_part, cosine_push(eye_part.response, direction), 90.0, 2.0 / np.pi, 0.0, 0.0)


def _state(eye_part: Eye, force, half_angle, pressure, worst_gap, worst_force) -> EyeState:
    response = eye_part.response
    # With bore radius and resultant 1, the net-section stress is 1 / (W - d).
    net = 2.0 * eye_part.width_ratio - 2.0
    bore = response.bore_hoop @ force * net
    probed = response.ray_stress @ force * net
    outer, blend = probed[: OUTER_RAYS.size], probed[OUTER_RAYS.size :]
    # The part is symmetric about its axis, so the ends of the range mirror.
    angle = response.bore_angle
    mirrored = np.concatenate([-angle[:3][::-1], angle, 2 * np.pi - angle[-3:][::-1]])
    values = np.concatenate([bore[:3][::-1], bore, bore[-3:][::-1]])
    at_angles = PchipInterpolator(mirrored, values)(np.radians(ANGLES_DEG))
    top = int(bore.argmax())
    rays = np.degrees(OUTER_RAYS)
    ends, _ = eye_blend_span(eye_part.width_ratio, eye_part.shank_ratio, eye_part.blend_ratio)
    surface = rays <= ends
    outer_top = int(outer[surface].argmax())
    return EyeState(
        at_angles, outer[:: 10 // RAY_STEP_DEG],
        float(bore[top]), float(np.degrees(angle[top])),
        float(outer[outer_top]), float(rays[outer_top]), float(blend.max()),
        float(half_angle), 2.0 * float(pressure), worst_gap, worst_force,
    )


def load_coordinate(load: float) -> float:
    """Load on a finite axis: 0 for no load, 1 for a close fit."""
    root = np.sqrt(load)
    return 1.0 if np.isinf(load) else float(root / (1.0 + root))
