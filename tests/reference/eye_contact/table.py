"""The table as a document: build it, read it between its nodes, write it."""

import json
from pathlib import Path

import numpy as np

import family
from family import ANGLES_DEG, DIRECTIONS, LOADS, WIDTH_RATIOS, Eye, EyeState, load_coordinate

# Fields of a state, in the names of the table.
SCALARS = {
    "peak": "peak",
    "peak_angle_deg": "peak_angle_deg",
    "outer_peak": "outer_peak",
    "outer_peak_angle_deg": "outer_peak_angle_deg",
    "blend_peak": "blend_peak",
    "contact_half_angle_deg": "half_angle_deg",
    "peak_pressure": "peak_pressure",
}
CURVES = {"bore_hoop": "bore_hoop", "outer_hoop": "outer_hoop"}

ABOUT = {
    "what": "Stress factors of a pin-loaded connecting-rod eye, from plane-stress finite elements with a rigid"
            " pin in one-sided frictionless contact. Regenerate with tests/reference/eye_contact/study.py.",
    "symbols": "W eye width, d bore diameter, t thickness, P pin force, E Young's modulus of the eye,"
               " c radial clearance (bore radius less pin radius), all in one consistent set of units.",
    "geometry": "Concentric round eye on a straight shank 0.7 W wide, blend radius 0.2 W, shank held 3 W from"
                " the bore centre; Poisson's ratio 0.35; isotropic; small strain.",
    "direction": "pull: the pin pushes away from the shank, the shank is in tension;"
                 " push: the pin pushes towards the shank, the shank is in compression.",
    "width_ratio": "W / d.",
    "load": "P / (E c t), no unit; null stands for a close fit (c = 0).",
    "load_coordinate": "sqrt(load) / (1 + sqrt(load)), and 1 for a close fit: interpolate linearly in this.",
    "angle_deg": "Degrees round the bore centre: 0 at the free end of the eye, 90 at its side, 180 towards the"
                 " shank; the eye is symmetric.",
    "order": "Arrays run [direction][width_ratio][load][angle]; the cosine block has no load axis.",
    "bore_hoop": "Hoop stress at the bore x (W - d) t / P; tension positive.",
    "outer_hoop": "Hoop stress at radius W / 2 x (W - d) t / P; a surface stress only up to"
                  " outer_surface_ends_deg, beyond it a point inside the shank.",
    "peak": "Greatest bore_hoop at any angle (not only the tabulated ones), at peak_angle_deg.",
    "outer_peak": "Greatest outer_hoop on the free outer surface, at outer_peak_angle_deg.",
    "blend_peak": "Greatest stress along the surface of the blend x (W - d) t / P; holds for this shank and blend.",
    "contact_half_angle_deg": "From the direction of push to where contact pressure ends.",
    "peak_pressure": "Greatest contact pressure x d t / P.",
    "cosine": "The same eye under the pressure p0 cos(angle from the push) over +-90 degrees, for comparison.",
    "check": "off_grid: direct solves between the table's nodes, to test interpolation with;"
             " interpolation_error: the worst difference of linear interpolation from such solves"
             " (peak, pressure: relative; hoop: relative to the greatest tension or 1; half-angle: degrees).",
}


def digits(value: float) -> float:
    """Four significant digits, and nothing below 1e-5."""
    return round(float(f"{value:.4g}"), 5) + 0.0


def build(eyes: list[Eye]) -> dict:
    """The table without its check block."""
    states = [[[family.solve(e, d, load) for load in LOADS] for e in eyes] for d in DIRECTIONS]
    cosine = [[family.solve_cosine(e, d) for e in eyes] for d in DIRECTIONS]
    table = {
        "about": ABOUT,
        "direction": DIRECTIONS,
        "width_ratio": WIDTH_RATIOS,
        "load": [None if np.isinf(load) else load for load in LOADS],
        "load_coordinate": [round(load_coordinate(load), 6) for load in LOADS],
        "angle_deg": ANGLES_DEG.tolist(),
        "outer_surface_ends_deg": digits(family.eye_blend_span(2.0)[0]),
    }
    for name, field in CURVES.items():
        table[name] = [[[_curve(s, field) for s in row] for row in plane] for plane in states]
    for name, field in SCALARS.items():
        table[name] = [[[digits(getattr(s, field)) for s in row] for row in plane] for plane in states]
    table["cosine"] = {
        name: [[_curve(s, field) for s in row] for row in cosine] for name, field in CURVES.items()
    }
    for name in ("peak", "peak_angle_deg", "outer_peak", "outer_peak_angle_deg", "blend_peak"):
        table["cosine"][name] = [[digits(getattr(s, SCALARS[name])) for s in row] for row in cosine]
    return table


def _curve(state: EyeState, field: str) -> list[float]:
    return [digits(v) for v in getattr(state, field)]


def lookup(table: dict, name: str, direction: str, width_ratio: float, load: float) -> np.ndarray:
    """Linear interpolation in width ratio and load coordinate."""
    values = np.array(table[name][table["direction"].index(direction)])
    w, w_part = _bracket(table["width_ratio"], width_ratio)
    q, q_part = _bracket(table["load_coordinate"], load_coordinate(load))
    near = (1 - w_part) * values[w] + w_part * values[w + 1]
    return (1 - q_part) * near[q] + q_part * near[q + 1]


def _bracket(axis: list[float], at: float) -> tuple[int, float]:
    below = int(np.clip(np.searchsorted(axis, at, side="right") - 1, 0, len(axis) - 2))
    return below, (at - axis[below]) / (axis[below + 1] - axis[below])


def check_block(table: dict, eyes: list[Eye], between: list[Eye]) -> dict:
    """Direct solves off the table's nodes, and how far interpolation is from them."""
    middle_loads = [float(np.sqrt(a * b)) for a, b in zip(LOADS[:-2], LOADS[1:-1])] + [200.0]
    worst = {
        "between_loads": _worst(table, eyes, middle_loads),
        "between_widths": _worst(table, between, LOADS),
    }
    off_grid = []
    for e in between:
        for direction in DIRECTIONS:
            for load in (0.12, 0.7, 7.0):
                state = family.solve(e, direction, load)
                off_grid.append({
                    "direction": direction, "width_ratio": e.width_ratio, "load": load,
                    "peak": digits(state.peak), "contact_half_angle_deg": digits(state.half_angle_deg),
                    "peak_pressure": digits(state.peak_pressure), "bore_hoop": _curve(state, "bore_hoop"),
                })
    return {"off_grid": off_grid, "interpolation_error": worst}


def _worst(table: dict, eyes: list[Eye], loads: list[float]) -> dict:
    result = {}
    for direction in DIRECTIONS:
        largest = {"peak": 0.0, "contact_half_angle_deg": 0.0, "peak_pressure": 0.0, "bore_hoop": 0.0}
        for e in eyes:
            for load in loads:
                state = family.solve(e, direction, load)
                found = {name: lookup(table, name, direction, e.width_ratio, load) for name in largest}
                tension = max(state.bore_hoop.max(), 1.0)
                errors = {
                    "peak": abs(found["peak"] - state.peak) / max(state.peak, 1.0),
                    "contact_half_angle_deg": abs(found["contact_half_angle_deg"] - state.half_angle_deg),
                    "peak_pressure": abs(found["peak_pressure"] / state.peak_pressure - 1.0),
                    "bore_hoop": np.abs(found["bore_hoop"] - state.bore_hoop).max() / tension,
                }
                largest = {name: max(largest[name], float(errors[name])) for name in largest}
        result[direction] = {name: digits(value) for name, value in largest.items()}
    return result


def write(table: dict, path: Path) -> None:
    """One line for every innermost array, so that a change shows where it is."""
    path.write_text(_lines(table, 0) + "\n")


def embed(table: dict, path: Path) -> None:
    """What the program interpolates, a line each: it is part of every plugin that is loaded."""
    read = ["width_ratio", "load_coordinate", "angle_deg", "bore_hoop", "outer_hoop", "peak"]
    lines = (f' {json.dumps(key)}: {json.dumps(table[key], separators=(",", ":"))}' for key in read)
    path.write_text("{\n" + ",\n".join(lines) + "\n}\n")


def _lines(value, depth: int) -> str:
    pad = " " * (depth + 1)
    if isinstance(value, dict):
        inner = [f"{pad}{json.dumps(k)}: {_lines(v, depth + 1)}" for k, v in value.items()]
        return "{\n" + ",\n".join(inner) + "\n" + " " * depth + "}"
    if isinstance(value, list) and value and isinstance(value[0], (list, dict)):
        return "[\n" + ",\n".join(pad + _lines(v, depth + 1) for v in value) + "\n" + " " * depth + "]"
    return json.dumps(value, separators=(",", ":"))
