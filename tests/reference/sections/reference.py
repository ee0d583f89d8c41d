"""Writes reference.json: mass properties and plane sections of the samples and of four plain solids.

    python tests/reference/sections/reference.py
"""

import json
import math
from pathlib import Path

import numpy as np
import shapely
import trimesh

from cuts import area_of_segments, moments, polygons_of

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent.parent

# Stations as fractions of the frame's length. Odd values, so that no plane runs through a vertex.
FRACTIONS = (0.0313, 0.1171, 0.2237, 0.3453, 0.5019, 0.6131, 0.7703, 0.8867, 0.9787)
SAMPLES = ("plain_rod", "i_shank_rod", "thin_web_rod", "bearing_rod", "split_rod")
# Ear clipping and shapely's own area must agree; both sum doubles over some hundred corners.
AREA_AGREEMENT = 1e-12
# The solids' corners are float32 some 100 mm from the origin, a step of 8e-6 mm on 10 mm sizes.
CLOSED_FORM_AGREEMENT = 1e-5
SOLID_LENGTH_MM = 60.0
SOLID_OFFSET_MM = (31.0, -47.0, 12.5)

DEFINITIONS = {
    "frame": "x from the small-end centre to the big-end centre, z the pin axis, y = z cross x; "
    "origin at the small-end centre; for the plain solids x is the axis of extrusion",
    "station_mm": "distance along x from the frame's origin",
    "centroid_y_mm, centroid_z_mm": "section centroid in the frame",
    "second_moment_y_mm4": "integral of z^2 dA about the section centroid",
    "second_moment_z_mm4": "integral of y^2 dA about the section centroid",
    "product_moment_mm4": "integral of y z dA about the section centroid",
    "loops": "closed curves in the section, outer and inner",
    "holes": "inner curves",
    "inertia_mm5": "tensor about the volume centroid in file axes for density 1 per mm^3: diagonal "
    "integral of (y^2 + z^2) and so on, off-diagonal minus integral of x y and so on",
    "closed_form": "the ideal shape (a true ellipse, not its chords) or, where named polygon, the "
    "regular polygon that the solid was made from",
}


def rotation() -> np.ndarray:
    """A tilt that lines up with no file axis."""
    return trimesh.transformations.euler_matrix(0.37, -0.61, 1.13, "sxyz")[:3, :3]


def ring(radius_y, radius_z, steps) -> np.ndarray:
    angles = np.arange(steps) * (2 * math.pi / steps)
    return np.column_stack((radius_y * np.cos(angles), radius_z * np.sin(angles)))


def polygon_moments(radius, steps):
    """Area and second moment of a regular polygon with its corners on a circle."""
    turn = 2 * math.pi / steps
    area = steps / 2 * radius**2 * math.sin(turn)
    return area, steps / 24 * radius**4 * math.sin(turn) * (2 + math.cos(turn))


def plain_solids() -> dict:
    """Section in (y, z), and its closed form: area, integral z^2, integral y^2."""
    steps = 96
    half_height, half_width, web, flange = 11.0, 7.0, 3.5, 3.5
    inner = half_height - flange
    beam = [
        (-half_width, -half_height), (half_width, -half_height), (half_width, -inner),
        (web / 2, -inner), (web / 2, inner), (half_width, inner), (half_width, half_height),
        (-half_width, half_height), (-half_width, inner), (-web / 2, inner), (-web / 2, -inner),
        (-half_width, -inner),
    ]  # fmt: skip
    outer_area, outer_second = polygon_moments(12.0, steps)
    inner_area, inner_second = polygon_moments(8.0, steps)
    gap = half_width * 2 - web
    return {
        "box": (
            shapely.Polygon([(-10, -6), (10, -6), (10, 6), (-10, 6)]),
            ("ideal", 20.0 * 12.0, 20.0 * 12.0**3 / 12, 12.0 * 20.0**3 / 12),
        ),
        "annulus_tube": (
            shapely.Polygon(ring(12.0, 12.0, steps), [ring(8.0, 8.0, steps)]),
            (
                "polygon",
                outer_area - inner_area,
                outer_second - inner_second,
                outer_second - inner_second,
            ),
        ),
        "i_beam": (
            shapely.Polygon(beam),
            (
                "ideal",
                2 * half_width * 2 * half_height - gap * 2 * inner,
                (2 * half_width * (2 * half_height) ** 3 - gap * (2 * inner) ** 3) / 12,
                (2 * flange * (2 * half_width) ** 3 + 2 * inner * web**3) / 12,
            ),
        ),
        # An affine image of a regular polygon: moments scale by the two half axes.
        "elliptical_cylinder": (
            shapely.Polygon(ring(13.0, 7.0, steps)),
            (
                "polygon",
                polygon_moments(1.0, steps)[0] * 13.0 * 7.0,
                polygon_moments(1.0, steps)[1] * 13.0 * 7.0**3,
                polygon_moments(1.0, steps)[1] * 13.0**3 * 7.0,
            ),
        ),
    }


def write_solid(name, section) -> None:
    """Extrudes a (y, z) section along x, tilts it and writes it as binary STL."""
    solid = trimesh.creation.extrude_polygon(section, SOLID_LENGTH_MM)
    to_frame = np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
    solid.vertices = (solid.vertices @ to_frame.T) @ rotation().T + np.array(SOLID_OFFSET_MM)
    (HERE / f"{name}.stl").write_bytes(trimesh.exchange.stl.export_stl(solid))


def frame_of_truth(truth: dict) -> dict:
    x, z = np.array(truth["rod_direction"]), np.array(truth["pin_axis"])
    return frame(truth["small_center_mm"], x, z, truth["center_distance_mm"])


def frame(origin, x, z, length) -> dict:
    x = np.asarray(x) / np.linalg.norm(x)
    z = np.asarray(z) / np.linalg.norm(z)
    return {
        "origin_mm": [float(v) for v in origin],
        "x": x.tolist(),
        "y": np.cross(z, x).tolist(),
        "z": z.tolist(),
        "length_mm": length,
    }


def section_at(mesh, axes: dict, station: float) -> dict:
    """Cuts the mesh at one station."""
    origin, x = np.array(axes["origin_mm"]), np.array(axes["x"])
    distance = (mesh.vertices - origin) @ x - station
    if np.abs(distance).min() < 1e-7:
        raise RuntimeError(f"the plane at {station} mm runs through a vertex")
    lines = trimesh.intersections.mesh_plane(mesh, x, origin + station * x)
    flat = np.stack(((lines - origin) @ np.array(axes["y"]), (lines - origin) @ np.array(axes["z"])), axis=2)
    region = area_of_segments(flat)
    found = moments(region)
    if abs(found["area_mm2"] / region.area - 1) > AREA_AGREEMENT:
        raise RuntimeError("triangulation and region differ in area")
    parts = polygons_of(region)
    holes = sum(len(part.interiors) for part in parts)
    return {
        "station_mm": station,
        **found,
        "perimeter_mm": float(region.length),
        "loops": len(parts) + holes,
        "holes": holes,
    }


def reference_of(path: Path, axes: dict) -> dict:
    """Mass properties and nine sections of one closed mesh."""
    mesh = trimesh.load_mesh(path)
    if not (mesh.is_watertight and mesh.is_winding_consistent):
        raise RuntimeError(f"{path.name} is not closed")
    mass = mesh.mass_properties
    return {
        "facets": len(mesh.faces),
        "bodies": int(mesh.body_count),
        "volume_mm3": float(mass.volume),
        "surface_area_mm2": float(mesh.area),
        "centroid_mm": mass.center_mass.tolist(),
        "inertia_mm5": mass.inertia.tolist(),
        "frame": axes,
        "sections": [section_at(mesh, axes, f * axes["length_mm"]) for f in FRACTIONS],
    }


def check_closed_form(name, sections, form) -> dict:
    """Refuses a reference that its own closed form contradicts."""
    kind, area, second_y, second_z = form
    wanted = {"area_mm2": area, "second_moment_y_mm4": second_y, "second_moment_z_mm4": second_z}
    for section in sections:
        for key, value in wanted.items():
            if abs(section[key] / value - 1) > CLOSED_FORM_AGREEMENT:
                raise RuntimeError(f"{name}: {key} is {section[key]}, closed form {value}")
    return {"shape": kind, **wanted, "volume_mm3": area * SOLID_LENGTH_MM}


def main() -> None:
    truths = json.loads((ROOT / "tests/meshes/truth.json").read_text(encoding="utf-8"))["files"]
    meshes = {}
    for name in SAMPLES:
        key = f"samples/{name}.stl"
        meshes[key] = reference_of(ROOT / key, frame_of_truth(truths[key]))
    turn = rotation()
    for name, (section, form) in plain_solids().items():
        write_solid(name, section)
        axes = frame(SOLID_OFFSET_MM, turn[:, 0], turn[:, 2], SOLID_LENGTH_MM)
        found = reference_of(HERE / f"{name}.stl", axes)
        found["closed_form"] = check_closed_form(name, found["sections"], form)
        meshes[f"tests/reference/sections/{name}.stl"] = found
    made_by = {
        "trimesh": trimesh.__version__,
        "shapely": shapely.__version__,
        "numpy": np.__version__,
    }
    text = json.dumps({"made_by": made_by, "definitions": DEFINITIONS, "meshes": meshes}, indent=1)
    (HERE / "reference.json").write_text(text + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
