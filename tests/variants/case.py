"""What a variant is: a mesh, a job, and what the program has to answer."""

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / "samples"))

from mesh_maker.part import Part  # noqa: E402
from mesh_maker.stl import FACET, canonical, normals_of  # noqa: E402

# Exit codes of the program by the word used here.
CODES = {"no-fault-found": {3}, "fails": {1}, "answered": {1, 3}, "refused": {2}}

# Margins are equal within this where nothing that carries load differs: bores are measured on coordinates of 32 bits, whose
# rounding is 1e-6 of a bore, and a margin goes with a low power of a bore's size.
SAME = 1e-4


@dataclass(frozen=True)
class Expected:
    """What has to be true of one answer; everything said has to hold.

    `answer`         one of CODES: "no-fault-found" (exit 3), "fails" (1), "answered" (either), "refused" (2)
    `same_as`        name of a case whose verdict (state, way to fail) and margin it must equal, the margin within `within`
    `not_above`      name of a case whose margin times 1 + `within` this one's must not pass
    `says`           texts that must be in the output, each; white space and case do not count
    `never_says`     texts that must not be
    `holding`        anything else: takes the JSON report (None where refused) and gives what is wrong, or None
    """

    answer: str = "answered"
    same_as: str | None = None
    not_above: str | None = None
    within: float = SAME
    says: tuple = ()
    never_says: tuple = ()
    holding: Callable[[dict | None], str | None] | None = None


@dataclass(frozen=True)
class Case:
    """One run of `layload check --quick`.

    `mesh` makes the file: a function without arguments that gives STL bytes, a path, a `mesh_maker` Part, facets as an array
    of n x 3 x 3 mm, a Manifold or several (each a closed body, written one after another), or anything with
    `export(file_type="stl")` such as a trimesh mesh. `job` is a file under `samples` or TOML text. `arguments` go on after it.
    """

    name: str
    mesh: Callable[[], object]
    expected: Expected = field(default_factory=Expected)
    job: str = "bench_single.toml"
    arguments: tuple = ()

    def job_text(self) -> str:
        sample = ROOT / "samples" / self.job if "\n" not in self.job else None
        return self.job if sample is None else sample.read_text(encoding="utf-8")


Cases = Iterator[Case]


def stl_bytes(mesh) -> bytes:
    """Binary STL of whatever a case makes."""
    if isinstance(mesh, bytes):
        return mesh
    if isinstance(mesh, Path):
        return mesh.read_bytes()
    if isinstance(mesh, np.ndarray):
        return _binary(mesh)
    if isinstance(mesh, Part):
        return _binary(mesh.corners())
    if hasattr(mesh, "to_mesh64"):
        return _binary(facets_of(mesh))
    if isinstance(mesh, (list, tuple)):
        return _binary(np.concatenate([facets_of(body) for body in mesh]))
    return mesh.export(file_type="stl")


def facets_of(body) -> np.ndarray:
    """Corners of a Manifold's facets, or of an array that holds them already, mm."""
    if isinstance(body, np.ndarray):
        return body
    mesh = body.to_mesh64()
    points = np.asarray(mesh.vert_properties, dtype=np.float64)[:, :3]
    return points[np.asarray(mesh.tri_verts, dtype=np.int64)]


def read_stl(path: Path) -> np.ndarray:
    """Corners of the facets of a binary STL, mm."""
    raw = Path(path).read_bytes()
    count = int.from_bytes(raw[80:84], "little")
    return np.frombuffer(raw, dtype=FACET, count=count, offset=84)["corners"].astype(np.float64)


def _binary(corners: np.ndarray) -> bytes:
    corners = canonical(corners)
    records = np.zeros(len(corners), dtype=FACET)
    records["corners"] = corners
    records["normal"] = normals_of(corners) + np.float32(0.0)
    return b"variant, millimetres".ljust(80, b" ") + np.uint32(len(corners)).tobytes() + records.tobytes()
