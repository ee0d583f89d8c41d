"""Stress of two sample rods pulled at both bores, by a general finite-element program.

The rods' own facets are meshed with quadratic tetrahedra; CalculiX (Debian: calculix-ccx) solves them. Each pin pushes its
bore away from the shank with 1000 N, as the cosine of the angle from the push. The material is stiffer in the plane of
the layers than across them. Writes the numbers that tests compare with.

    python tests/reference/calculix/pulled_rods.py [SIZE_AT_BORE_MM [ROD ...]]   (pip install -r requirements.txt, ccx on
    python tests/reference/calculix/pulled_rods.py directions [SIZE_AT_BORE_MM]   the path)

The second form pulls the plain rod with its layers stacked along five directions. The numbers kept are those of the finest
mesh run; `sizes` keeps what coarser ones gave.
"""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import gmsh
import numpy as np

HERE = Path(__file__).parent
TOP = HERE.parents[2]
FORCE = 1000.0
# Young's modulus in the layer plane and across layers, shear modulus between layers, MPa; contraction.
LEVEL, UPRIGHT, SHEAR, POISSON = 5000.0, 2500.0, 1000.0, 0.38
RODS = {
    # Centres and radii of the bores, mm, as `layload check --json` lists them; both axes run along z.
    "plain_rod": {"small": ((20.0, 15.0), 6.5), "big": ((20.0, 105.0), 12.0)},
    "i_shank_rod": {"small": ((-12.0, 8.0), 6.5), "big": ((65.9423, 53.0), 12.0)},
}
# Along which layers are stacked, in the coordinates of the plain rod's file: along the pins, along the rod, across it,
# and two leaning ones.
DIRECTIONS = {
    "flat": (0.0, 0.0, 1.0),
    "upright": (0.0, 1.0, 0.0),
    "on-edge": (1.0, 0.0, 0.0),
    "leaning": (0.0, 0.6, 0.8),
    "skew": (0.48, 0.6, 0.64),
}
# Three-point rule of degree 2 on a triangle.
POINTS = [(1 / 6, 1 / 6), (2 / 3, 1 / 6), (1 / 6, 2 / 3)]


def mesh(stl: Path, bores: dict, size: float):
    """Nodes, tetrahedra and surface triangles, all quadratic."""
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.merge(str(stl))
    gmsh.model.mesh.classifySurfaces(np.radians(35.0), True, True, np.pi)
    gmsh.model.mesh.createGeometry()
    surfaces = [tag for _, tag in gmsh.model.getEntities(2)]
    loop = gmsh.model.geo.addSurfaceLoop(surfaces)
    gmsh.model.geo.addVolume([loop])
    gmsh.model.geo.synchronize()
    near = []
    for (x, y), radius in bores.values():
        field = gmsh.model.mesh.field.add("MathEval")
        away = f"Fabs(Sqrt((x-({x}))*(x-({x}))+(y-({y}))*(y-({y})))-{radius})"
        gmsh.model.mesh.field.setString(field, "F", f"{size} + 0.12 * {away}")
        near.append(field)
    least = gmsh.model.mesh.field.add("Min")
    gmsh.model.mesh.field.setNumbers(least, "FieldsList", near)
    gmsh.model.mesh.field.setAsBackgroundMesh(least)
    gmsh.option.setNumber("Mesh.MeshSizeExtendFromBoundary", 0)
    gmsh.option.setNumber("Mesh.MeshSizeFromPoints", 0)
    gmsh.option.setNumber("Mesh.MeshSizeMax", 1.6)
    # Straight edges: curved ones turn a few flat elements inside out.
    gmsh.option.setNumber("Mesh.SecondOrderLinear", 1)
    gmsh.model.mesh.generate(3)
    gmsh.model.mesh.setOrder(2)
    tags, coordinates, _ = gmsh.model.mesh.getNodes()
    order = np.argsort(tags)
    nodes = coordinates.reshape(-1, 3)[order]
    number = {int(tag): k for k, tag in enumerate(tags[order])}
    _, tetrahedra = gmsh.model.mesh.getElementsByType(11)
    _, triangles = gmsh.model.mesh.getElementsByType(9)
    look = np.vectorize(number.get)
    tetrahedra = look(tetrahedra).reshape(-1, 10)
    triangles = look(triangles).reshape(-1, 6)
    gmsh.finalize()
    # The last two middle nodes stand the other way round in the solver's order.
    return nodes, tetrahedra[:, [0, 1, 2, 3, 4, 5, 6, 7, 9, 8]], triangles


def pressed(nodes, triangles, centre, radius, toward):
    """Nodal forces of a cosine push in a bore, N, and the bore's nodes."""
    across = nodes[:, :2] - centre
    on = np.abs(np.hypot(*across.T) - radius) < 0.03
    faces = triangles[on[triangles].all(axis=1)]
    forces = np.zeros_like(nodes)
    for face in faces:
        corner = nodes[face]
        for u, v in POINTS:
            w = 1 - u - v
            shape = np.array([w * (2 * w - 1), u * (2 * u - 1), v * (2 * v - 1), 4 * w * u, 4 * u * v, 4 * v * w])
            du = np.array([1 - 4 * w, 4 * u - 1, 0, 4 * (w - u), 4 * v, -4 * v])
            dv = np.array([1 - 4 * w, 0, 4 * v - 1, -4 * u, 4 * u, 4 * (w - v)])
            area = np.linalg.norm(np.cross(du @ corner, dv @ corner)) / 6
            arm = (shape @ corner)[:2] - centre
            radial = arm / np.hypot(*arm)
            push = max(radial @ toward, 0.0) * area
            forces[face, :2] += np.outer(shape, radial * push)
    forces *= FORCE / (forces[:, :2].sum(axis=0) @ toward)
    return forces, np.unique(faces)


def solve(nodes, tetrahedra, forces, build=(0.0, 0.0, 1.0)):
    """Stress at every node, MPa: xx, yy, zz, xy, yz, zx."""
    with tempfile.TemporaryDirectory() as place:
        deck = Path(place) / "rod.inp"
        # Held at three nodes as a tripod, which resists no strain.
        a = np.argmin(nodes @ [1, 1, 1])
        away = nodes - nodes[a]
        b = np.argmax(np.linalg.norm(away[:, :2], axis=1) - 10 * np.abs(away[:, 2]))
        line = away[b] / np.linalg.norm(away[b])
        c = np.argmax(np.linalg.norm(np.cross(away, line), axis=1))
        side = 0 if abs(away[b][1]) > abs(away[b][0]) else 1
        with deck.open("w") as out:
            out.write("*NODE, NSET=ALL\n")
            np.savetxt(out, np.column_stack([np.arange(1, len(nodes) + 1), nodes]), fmt="%d, %.9e, %.9e, %.9e")
            out.write("*ELEMENT, TYPE=C3D10, ELSET=SOLID\n")
            np.savetxt(out, np.column_stack([np.arange(1, len(tetrahedra) + 1), tetrahedra + 1]), fmt="%d", delimiter=", ")
            level = LEVEL / (2 * (1 + POISSON))
            out.write("*MATERIAL, NAME=PRINT\n*ELASTIC, TYPE=ENGINEERING CONSTANTS\n")
            out.write(f"{LEVEL}, {LEVEL}, {UPRIGHT}, {POISSON}, {POISSON}, {POISSON}, {level}, {SHEAR},\n{SHEAR}\n")
            third = np.array(build) / np.linalg.norm(build)
            first = np.cross(np.eye(3)[np.argmin(np.abs(third))], third)
            axes = [*first, *np.cross(third, first)]
            out.write("*ORIENTATION, NAME=LAYERS\n" + ", ".join(f"{axis:.12g}" for axis in axes) + "\n")
            out.write("*SOLID SECTION, ELSET=SOLID, MATERIAL=PRINT, ORIENTATION=LAYERS\n*BOUNDARY\n")
            out.write(f"{a + 1}, 1, 3\n{b + 1}, {side + 1}\n{b + 1}, 3\n{c + 1}, 3\n")
            out.write("*STEP\n*STATIC, SOLVER=SPOOLES\n*CLOAD\n")
            for node, force in enumerate(forces):
                for axis in range(2):
                    if force[axis]:
                        out.write(f"{node + 1}, {axis + 1}, {force[axis]:.9e}\n")
            out.write("*EL FILE, GLOBAL=YES\nS\n*END STEP\n")
        subprocess.run(["ccx", "-i", "rod"], cwd=place, check=True, stdout=subprocess.DEVNULL)
        stress = np.full((len(nodes), 6), np.nan)
        reading = False
        for text in (Path(place) / "rod.frd").open():
            if text.startswith(" -4"):
                reading = "STRESS" in text
            elif reading and text.startswith(" -1"):
                stress[int(text[3:13]) - 1] = [float(text[13 + 12 * k : 25 + 12 * k]) for k in range(6)]
            elif text.startswith(" -3"):
                reading = False
        return stress


def principal(stress):
    """Greatest principal stress."""
    xx, yy, zz, xy, yz, zx = stress.T
    return np.linalg.eigvalsh(np.array([[xx, xy, zx], [xy, yy, yz], [zx, yz, zz]]).transpose(2, 0, 1))[:, 2]


class Pulled:
    """A rod in elements with its pins' forces."""

    def __init__(self, name: str, size: float):
        bores = RODS[name]
        self.size = size
        self.nodes, self.tetrahedra, self.triangles = mesh(TOP / "samples" / f"{name}.stl", bores, size)
        (small, self.small_radius), (big, self.big_radius) = bores["small"], bores["big"]
        self.small, self.big = np.array(small), np.array(big)
        self.length = np.linalg.norm(self.big - self.small)
        self.along = (self.big - self.small) / self.length
        forces, self.on_small = pressed(self.nodes, self.triangles, self.small, self.small_radius, -self.along)
        more, self.on_big = pressed(self.nodes, self.triangles, self.big, self.big_radius, self.along)
        self.forces = forces + more

    def solved(self, build=(0.0, 0.0, 1.0)) -> dict:
        began = time.perf_counter()
        stress = solve(self.nodes, self.tetrahedra, self.forces, build)
        seconds = time.perf_counter() - began
        greatest = principal(stress)
        surface = np.unique(self.triangles)
        place = (self.nodes[:, :2] - self.small) @ self.along
        middle = surface[np.abs(place[surface] - self.length / 2) < 1.0]
        free = np.setdiff1d(surface, np.union1d(self.on_small, self.on_big))

        def peak(among):
            at = among[np.argmax(greatest[among])]
            return {"mpa": float(greatest[at]), "at_mm": self.nodes[at].round(2).tolist()}

        away = lambda centre: np.linalg.norm(self.nodes[free, :2] - centre, axis=1)
        return {
            "nodes": len(self.nodes),
            "size_at_bore_mm": self.size,
            "seconds": round(seconds, 1),
            "small_bore": peak(self.on_small),
            "big_bore": peak(self.on_big),
            "beside_small": peak(free[away(self.small) < 2.6 * self.small_radius]),
            "beside_big": peak(free[away(self.big) < 2.0 * self.big_radius]),
            # All over the shank's surface half way, from 1 mm before to 1 mm behind.
            "shank_mean_mpa": float(greatest[middle].mean()),
        }


def keep(found: dict, name: str, result: dict) -> None:
    """Keeps the finest as the rod's numbers, and of all sizes the peaks."""
    known = found["rods"].get(name, {})
    sizes = known.get("sizes", {})
    peaks = {key: round(result[key]["mpa"], 3) for key in ("small_bore", "big_bore")}
    sizes[str(result["size_at_bore_mm"])] = peaks | {"nodes": result["nodes"]}
    finer = result["size_at_bore_mm"] <= known.get("size_at_bore_mm", np.inf)
    found["rods"][name] = (result if finer else known) | {"sizes": sizes}


def main() -> None:
    words = sys.argv[1:]
    written = HERE / "pulled_rods.json"
    found = json.loads(written.read_text()) if written.exists() else {"force_n": FORCE, "rods": {}}
    found["material"] = {"level_mpa": LEVEL, "upright_mpa": UPRIGHT, "shear_mpa": SHEAR, "poisson_ratio": POISSON}
    if words[:1] == ["directions"]:
        pulled = Pulled("plain_rod", float(words[1]) if len(words) > 1 else 0.6)
        found["directions"] = {}
        for name, build in DIRECTIONS.items():
            found["directions"][name] = {"build": build} | pulled.solved(build)
            print(name, found["directions"][name], flush=True)
            written.write_text(json.dumps(found, indent=1) + "\n")
        return
    size = float(words[0]) if words else 0.6
    for name in words[1:] or list(RODS):
        keep(found, name, Pulled(name, size).solved())
        print(name, found["rods"][name], flush=True)
        written.write_text(json.dumps(found, indent=1) + "\n")


if __name__ == "__main__":
    main()
