"""The hot spots of a part's stress field, by a general finite-element program on meshes refined until they stand.

What loads a rod or piston when a spot is worst (pin pressures by angle, side forces, a rod's turning, gas and the
cylinder's wall on a piston) comes from
`cargo run --release -p layload-core --features rooms --example hot_spot_states -- PART.stl JOB.toml CELLS > STATES.json`. The part's own
facets are meshed with quadratic tetrahedra, fine round each spot and at its bores; the load is balanced by the part's own
inertia; CalculiX (Debian: calculix-ccx) solves it. For each spot the whole stress there, without what warmth adds, is
put beside the field's, with half the size of elements at a time.

    python tests/reference/calculix/hot_spots.py PART.stl STATES.json OUT.json [SIZE_MM ...]
"""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import gmsh
import numpy as np

# Three-point rule of degree 2 on a triangle; four-point rule of degree 2 on a tetrahedron.
TRIANGLE = [(1 / 6, 1 / 6), (2 / 3, 1 / 6), (1 / 6, 2 / 3)]
A, B = 0.5854101966249685, 0.1381966011250105
TETRAHEDRON = [(B, B, B), (A, B, B), (B, A, B), (B, B, A)]


def mesh(stl: Path, states: dict, spots: list, size: float, at_bore: float, coarse: float):
    """Nodes in the frame of the part, tetrahedra in the solver's order and surface triangles, all quadratic."""
    frame = states["frame"]
    rows, origin = np.array(frame["rows"]), np.array(frame["origin"])
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.merge(str(stl))
    gmsh.model.mesh.classifySurfaces(np.radians(35.0), True, True, np.pi)
    gmsh.model.mesh.createGeometry()
    loop = gmsh.model.geo.addSurfaceLoop([tag for _, tag in gmsh.model.getEntities(2)])
    gmsh.model.geo.addVolume([loop])
    gmsh.model.geo.synchronize()
    fields = []

    def add(text: str) -> None:
        tag = gmsh.model.mesh.field.add("MathEval")
        gmsh.model.mesh.field.setString(tag, "F", text)
        fields.append(tag)

    for spot in spots:
        x, y, z = rows.T @ np.array(spot["position"]) + origin
        add(f"{size} + 0.2 * Sqrt((x-({x}))*(x-({x}))+(y-({y}))*(y-({y}))+(z-({z}))*(z-({z})))")
    for bore in states["bores"]:
        cx, cy, cz = rows.T @ np.array(bore["center"]) + origin
        ax, ay, az = rows.T @ np.array(bore["axis"])
        dx, dy, dz = f"(x-({cx}))", f"(y-({cy}))", f"(z-({cz}))"
        along = f"({dx}*({ax})+{dy}*({ay})+{dz}*({az}))"
        square = f"({dx}*{dx}+{dy}*{dy}+{dz}*{dz}-{along}*{along})"
        add(f"{at_bore} + 0.2 * Fabs(Sqrt(Fabs({square}))-{bore['radius']})")
    least = gmsh.model.mesh.field.add("Min")
    gmsh.model.mesh.field.setNumbers(least, "FieldsList", fields)
    gmsh.model.mesh.field.setAsBackgroundMesh(least)
    gmsh.option.setNumber("Mesh.MeshSizeExtendFromBoundary", 0)
    gmsh.option.setNumber("Mesh.MeshSizeFromPoints", 0)
    gmsh.option.setNumber("Mesh.MeshSizeMax", coarse)
    # Straight edges: curved ones turn a few flat elements inside out.
    gmsh.option.setNumber("Mesh.SecondOrderLinear", 1)
    gmsh.model.mesh.generate(3)
    gmsh.model.mesh.optimize("Netgen")
    gmsh.model.mesh.setOrder(2)
    tags, coordinates, _ = gmsh.model.mesh.getNodes()
    order = np.argsort(tags)
    nodes = coordinates.reshape(-1, 3)[order]
    look = np.zeros(int(tags.max()) + 1, dtype=int)
    look[tags[order].astype(int)] = np.arange(len(tags))
    tetrahedra = look[gmsh.model.mesh.getElementsByType(11)[1].astype(int)].reshape(-1, 10)
    triangles = look[gmsh.model.mesh.getElementsByType(9)[1].astype(int)].reshape(-1, 6)
    gmsh.finalize()
    used = np.unique(tetrahedra)
    place = np.full(len(nodes), -1)
    place[used] = np.arange(len(used))
    nodes = (nodes[used] - origin) @ rows.T
    # The last two middle nodes stand the other way round in the solver's order.
    return nodes, place[tetrahedra[:, [0, 1, 2, 3, 4, 5, 6, 7, 9, 8]]], place[triangles]


def triangle_shape(u, v):
    w = 1 - u - v
    shape = np.array([w * (2 * w - 1), u * (2 * u - 1), v * (2 * v - 1), 4 * w * u, 4 * u * v, 4 * v * w])
    du = np.array([1 - 4 * w, 4 * u - 1, 0, 4 * (w - u), 4 * v, -4 * v])
    dv = np.array([1 - 4 * w, 0, 4 * v - 1, -4 * u, 4 * u, 4 * (w - v)])
    return shape, du, dv


def quadrature(corner):
    """Points on quadratic triangles: shapes, areas, places and outward unit normals."""
    for u, v in TRIANGLE:
        shape, du, dv = triangle_shape(u, v)
        square = np.cross(np.einsum("i,fij->fj", du, corner), np.einsum("i,fij->fj", dv, corner))
        size = np.linalg.norm(square, axis=1)
        yield shape, size / 6, np.einsum("i,fij->fj", shape, corner), square / size[:, None]


def tetrahedron_shape(u, v, w):
    t = 1 - u - v - w
    return np.array(
        [t * (2 * t - 1), u * (2 * u - 1), v * (2 * v - 1), w * (2 * w - 1)]
        + [4 * t * u, 4 * u * v, 4 * v * t, 4 * t * w, 4 * u * w, 4 * v * w]
    )


class Solid:
    """A meshed part and what acts on it."""

    def __init__(self, nodes, tetrahedra, triangles, states):
        self.nodes, self.tetrahedra, self.triangles, self.states = nodes, tetrahedra, triangles, states
        self.density = states["material"]["density_kg_m3"] * 1e-12  # t/mm³
        corners = nodes[tetrahedra[:, :4]]
        edges = corners[:, 1:] - corners[:, :1]
        self.volumes = np.abs(np.linalg.det(edges)) / 6
        self.face_outward()
        self.walls = [self.wall(bore) for bore in states["bores"]]

    def face_outward(self):
        """Turns surface triangles so that their normals leave the solid."""
        opposite = {}
        for tetrahedron in self.tetrahedra[:, :4]:
            for k in range(4):
                opposite[tuple(sorted(np.delete(tetrahedron, k)))] = tetrahedron[k]
        corner = self.nodes[self.triangles[:, :3]]
        inside = self.nodes[[opposite[tuple(sorted(face))] for face in self.triangles[:, :3]]]
        normal = np.cross(corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0])
        inward = (normal * (inside - corner[:, 0])).sum(axis=1) > 0
        self.triangles[inward] = self.triangles[inward][:, [0, 2, 1, 5, 4, 3]]

    def wall(self, bore):
        """Quadrature over the bore's wall: nodes, shapes, areas, unit arms and angles from the rod's end."""
        axis = np.array(bore["axis"])
        arms = self.nodes - bore["center"]
        along = arms @ axis
        across = arms - np.outer(along, axis)
        on = (np.abs(np.linalg.norm(across, axis=1) - bore["radius"]) < 0.01 * bore["radius"]) & (
            along > bore["from"] - 0.02 * bore["radius"]
        ) & (along < bore["to"] + 0.02 * bore["radius"])
        faces = self.triangles[on[self.triangles].all(axis=1)]
        corner = self.nodes[faces]
        parts = []
        for shape, area, point, _ in quadrature(corner):
            arm = point - bore["center"]
            arm = arm - np.outer(arm @ axis, axis)
            radial = arm / np.linalg.norm(arm, axis=1)[:, None]
            angle = np.degrees(np.arccos(np.clip(radial @ bore["outward"], -1, 1)))
            parts.append((shape, area, radial, angle))
        return faces, parts

    def outside(self, forces, spot):
        """Adds gas on crown and top land, and the cylinder's wall on either side of a skirt."""
        states, corner = self.states, self.nodes[self.triangles]
        radius_of = lambda point: np.maximum(np.linalg.norm(point[:, 1:], axis=1), 1e-9)
        for shape, area, point, normal in quadrature(corner):
            out = (normal[:, 1:] * point[:, 1:]).sum(axis=1) / radius_of(point)
            side = (out > 0.7) & (radius_of(point) > 0.95 * states["land_radius"])
            pressed = (point[:, 0] >= states["gas_from"]) & ((normal[:, 0] > 0.05) | side)
            for k in range(6):
                np.add.at(forces, self.triangles[:, k], shape[k] * -normal * (spot["gas"] * area * pressed)[:, None])
        skirt = states["skirt"]
        for sign, push in zip((1, -1), spot["wall"]):
            if push == 0:
                continue
            parts = []
            for shape, area, point, normal in quadrature(corner):
                across = sign * point[:, 1] / radius_of(point)
                out = (normal[:, 1:] * point[:, 1:]).sum(axis=1) / radius_of(point)
                on = (point[:, 0] >= skirt["from"]) & (point[:, 0] <= skirt["to"]) & (out > 0.7)
                on &= (radius_of(point) > 0.95 * skirt["radius"]) & (across > 0)
                parts.append((shape, area * on, point, normal, across))
            whole = sum((area * across**2).sum() for _, area, _, _, across in parts)
            middle = sum((area * across**2 * point[:, 0]).sum() for _, area, point, _, across in parts) / whole
            spread = sum((area * across**2 * (point[:, 0] - middle) ** 2).sum() for _, area, point, _, across in parts) / whole
            most = 1 / max(skirt["to"] - middle, middle - skirt["from"])
            slope = np.clip(-middle / spread, -most, most)
            for shape, area, point, normal, across in parts:
                pressure = push / whole * across * (1 + slope * (point[:, 0] - middle))
                for k in range(6):
                    np.add.at(forces, self.triangles[:, k], shape[k] * -normal * (pressure * area)[:, None])

    def forces(self, spot):
        """Nodal forces, N, of everything that acts at a spot's moment, balanced by the rod's inertia."""
        forces = np.zeros_like(self.nodes)
        for (faces, parts), table, sideways in zip(self.walls, spot["pressures"], spot["sideways"]):
            angles, pressures = np.array(table).T
            whole = sum((area * radial[:, 1] ** 2).sum() for _, area, radial, _ in parts)
            for shape, area, radial, angle in parts:
                pressure = np.interp(angle, angles, pressures) + sideways * radial[:, 1] / whole
                force = radial * (pressure * area)[:, None]
                for k in range(6):
                    np.add.at(forces, faces[:, k], shape[k] * force)
        if "gas" in spot:
            self.outside(forces, spot)
        # A rod's own turning about the small-end centre, rad²/s², N/t = mm/s².
        self.body(forces, lambda p: p * [1, 1, 0] * spot["spin_squared"])
        # Inertia of three shifts and three turns about the middle balances the rest.
        middle = self.nodes.mean(axis=0)
        motions = [lambda p, k=k: np.tile(np.eye(3)[k], (len(p), 1)) for k in range(3)]
        motions += [lambda p, k=k: np.cross(np.eye(3)[k], p - middle) for k in range(3)]
        bodies = []
        for motion in motions:
            body = np.zeros_like(self.nodes)
            self.body(body, motion)
            bodies.append(body)
        resultant = lambda f: np.concatenate([f.sum(axis=0), np.cross(self.nodes - middle, f).sum(axis=0)])
        factors = np.linalg.solve(np.array([resultant(b) for b in bodies]).T, -resultant(forces))
        return forces + sum(f * b for f, b in zip(factors, bodies))

    def body(self, forces, field):
        for at in TETRAHEDRON:
            shape = tetrahedron_shape(*at)
            # The solver's order swaps the last two; the shapes here are in that order already.
            points = np.einsum("i,eij->ej", shape, self.nodes[self.tetrahedra])
            push = field(points) * (self.density * self.volumes / 4)[:, None]
            for k in range(10):
                np.add.at(forces, self.tetrahedra[:, k], shape[k] * push)

    def solve(self, loads):
        """Stresses at every node, MPa (xx, yy, zz, xy, yz, zx), one a load."""
        nodes = self.nodes
        material = self.states["material"]
        with tempfile.TemporaryDirectory() as folder:
            deck = Path(folder) / "part.inp"
            # Held at three nodes as a tripod, which resists no strain.
            a = np.argmin(nodes @ [1, 0.01, 0.01])
            away = nodes - nodes[a]
            b = np.argmax(np.abs(away[:, 0]))
            c = np.argmax(np.abs(away[:, 1]))
            with deck.open("w") as out:
                out.write("*NODE, NSET=ALL\n")
                np.savetxt(out, np.column_stack([np.arange(1, len(nodes) + 1), nodes]), fmt="%d, %.10e, %.10e, %.10e")
                out.write("*ELEMENT, TYPE=C3D10, ELSET=SOLID\n")
                numbered = np.column_stack([np.arange(1, len(self.tetrahedra) + 1), self.tetrahedra + 1])
                np.savetxt(out, numbered, fmt="%d", delimiter=", ")
                level, upright, shear, nu = (material[k] for k in ("level", "upright", "shear", "poisson_ratio"))
                plane = level / (2 * (1 + nu))
                first, second, third = frame_of(self.states["build"])
                out.write("*MATERIAL, NAME=PRINT\n*ELASTIC, TYPE=ENGINEERING CONSTANTS\n")
                out.write(f"{level}, {level}, {upright}, {nu}, {nu}, {nu}, {plane}, {shear},\n{shear}\n")
                out.write("*ORIENTATION, NAME=LAYERS\n" + ", ".join(f"{v:.12g}" for v in [*first, *second]) + "\n")
                out.write("*SOLID SECTION, ELSET=SOLID, MATERIAL=PRINT, ORIENTATION=LAYERS\n*BOUNDARY\n")
                out.write(f"{a + 1}, 1, 3\n{b + 1}, 2, 3\n{c + 1}, 3\n")
                for load in loads:
                    out.write("*STEP\n*STATIC, SOLVER=SPOOLES\n*CLOAD, OP=NEW\n")
                    for axis in range(3):
                        acting = np.flatnonzero(load[:, axis])
                        values = np.column_stack([acting + 1, np.full(len(acting), axis + 1), load[acting, axis]])
                        np.savetxt(out, values, fmt="%d, %d, %.10e")
                    out.write("*EL FILE, GLOBAL=YES\nS\n*END STEP\n")
            subprocess.run(["ccx", "-i", "part"], cwd=folder, check=True, stdout=subprocess.DEVNULL)
            found, reading = [], False
            for text in (Path(folder) / "part.frd").open():
                if text.startswith(" -4"):
                    reading = "STRESS" in text
                    if reading:
                        found.append(np.full((len(nodes), 6), np.nan))
                elif reading and text.startswith(" -1"):
                    found[-1][int(text[3:13]) - 1] = [float(text[13 + 12 * k : 25 + 12 * k]) for k in range(6)]
                elif text.startswith(" -3"):
                    reading = False
            return found

    def at(self, stress, point, normal):
        """Stress at a point of the surface: by the shape of the surface triangle nearest to it."""
        corners = self.nodes[self.triangles[:, :3]]
        centre = corners.mean(axis=1)
        near = np.argsort(np.linalg.norm(centre - point, axis=1))[:40]
        best = None
        for k in near:
            p, q, r = corners[k]
            facing = np.cross(q - p, r - p)
            facing /= np.linalg.norm(facing)
            if abs(facing @ normal) < 0.7:
                continue
            (u, v), *_ = np.linalg.lstsq(np.column_stack([q - p, r - p]), point - p, rcond=None)
            outside = max(0.0, -u, -v, u + v - 1)
            gap = np.linalg.norm(p + u * (q - p) + v * (r - p) - point) + 10 * outside
            if best is None or gap < best[0]:
                best = (gap, k, u, v)
        gap, k, u, v = best
        shape, _, _ = triangle_shape(u, v)
        return shape @ stress[self.triangles[k]], gap

    def peak_near(self, stress, point, normal, reach):
        """Greatest size of a principal stress at surface nodes within reach that face the same way."""
        surface = np.unique(self.triangles)
        near = surface[np.linalg.norm(self.nodes[surface] - point, axis=1) < reach]
        principal = np.linalg.eigvalsh(np.array([matrix(s) for s in stress[near]]))
        return float(principal[:, 2].max()), float(principal[:, 0].min())


def frame_of(build):
    third = np.array(build) / np.linalg.norm(build)
    helper = np.eye(3)[np.argmin(np.abs(third))]
    first = np.cross(helper, third)
    first /= np.linalg.norm(first)
    return first, np.cross(third, first), third


def matrix(s):
    """Of xx, yy, zz, xy, yz, zx."""
    xx, yy, zz, xy, yz, zx = s
    return np.array([[xx, xy, zx], [xy, yy, yz], [zx, yz, zz]])


def governing(stress):
    """The principal stress of greatest size."""
    low, _, high = np.linalg.eigvalsh(stress)
    return high if high >= -low else low


def layer_traction(stress, build):
    """Normal and shear traction on the layers."""
    build = np.array(build)
    traction = stress @ build
    normal = traction @ build
    return float(normal), float(np.linalg.norm(traction - normal * build))


def main() -> None:
    stl, states = Path(sys.argv[1]), json.loads(Path(sys.argv[2]).read_text())
    sizes = [float(word) for word in sys.argv[4:]] or [0.6, 0.3]
    spots = states["spots"]
    written = Path(sys.argv[3])
    report = {"states": {k: states[k] for k in ("cells", "edge", "material", "build")}, "meshes": []}
    for size in sizes:
        began = time.perf_counter()
        # Spots on a bore have their own size; the rest of it only carries the pressure.
        part = Solid(*mesh(stl, states, spots, size, max(2 * size, 0.9), 2.5), states)
        meshed = time.perf_counter() - began
        # Spots that are worst at one moment share its load: each load is a factorisation.
        moments = sorted({(spot["rpm"], spot["crank_deg"]) for spot in spots})
        of = [moments.index((spot["rpm"], spot["crank_deg"])) for spot in spots]
        loads = [part.forces(spots[of.index(k)]) for k in range(len(moments))]
        began = time.perf_counter()
        stresses = part.solve(loads)
        solved = time.perf_counter() - began
        rows = []
        print(f"size {size}: {len(part.nodes)} nodes, meshed in {meshed:.0f} s, {len(loads)} loads in {solved:.0f} s", flush=True)
        for spot, stress in zip(spots, (stresses[k] for k in of)):
            point, normal = np.array(spot["position"]), np.array(spot["normal"])
            here, gap = part.at(stress, point, normal)
            xx, yy, zz, yz, zx, xy = spot["mechanical"]
            own, ref = matrix([xx, yy, zz, xy, yz, zx]), matrix(here)
            row = {
                "place": spot["place"], "sharp": spot["sharp"], "gap_mm": float(gap),
                "field": governing(own), "reference": governing(ref),
                "field_layers": layer_traction(own, states["build"]), "reference_layers": layer_traction(ref, states["build"]),
                "distance": float(np.linalg.norm(own - ref) / np.linalg.norm(ref)),
                "peak_within_cell": part.peak_near(stress, point, normal, states["edge"]),
                "stress": [float(v) for v in here],
            }
            rows.append(row)
            print(f"  {spot['margin']:.2f} {spot['place']:<48} {'sharp ' if spot['sharp'] else ''}"
                  f"field {row['field']:7.2f} ref {row['reference']:7.2f} ({row['field'] / row['reference'] - 1:+.1%}), "
                  f"layers {row['field_layers'][0]:6.2f}/{row['field_layers'][1]:5.2f} ref {row['reference_layers'][0]:6.2f}/{row['reference_layers'][1]:5.2f}, "
                  f"tensor off {row['distance']:.1%}, near {row['peak_within_cell'][1]:.1f}..{row['peak_within_cell'][0]:.1f}", flush=True)
        report["meshes"].append({"size_mm": size, "nodes": len(part.nodes), "seconds_meshing": meshed,
                                 "seconds_solving": solved, "spots": rows})
        written.write_text(json.dumps(report, indent=1) + "\n")


if __name__ == "__main__":
    main()
