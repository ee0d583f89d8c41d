"""Writes the sample meshes, the test meshes and the truth that goes with them.

    python samples/make_meshes.py               samples/*.stl and tests/meshes/*
    python samples/make_meshes.py --bench DIR   rod_200k.stl and rod_1m.stl, which are not committed
"""

import argparse
import json
from pathlib import Path

from mesh_maker import sample_rods
from mesh_maker.catalogue import OUTCOMES, Entry
from mesh_maker.resolution import BENCH_1M, BENCH_200K
from mesh_maker.samples import SAMPLES
from mesh_maker.stl import open_edges, write_ascii_odd, write_binary
from mesh_maker.test_meshes import TEST_MESHES

ROOT = Path(__file__).resolve().parent.parent
HEADER = "layload mesh, millimetres"


def write_entry(entry: Entry, path: Path) -> dict:
    """Writes one file and returns its line of truth."""
    part = entry.make()
    corners = part.corners()
    closed = open_edges(corners) == 0
    if closed != entry.closed:
        raise RuntimeError(f"{entry.name}: closed is {closed}, the catalogue says {entry.closed}")
    if entry.ascii:
        write_ascii_odd(path, corners)
    else:
        write_binary(path, corners, entry.header or HEADER)
    print(f"{path.relative_to(ROOT)}: {len(corners)} facets, {path.stat().st_size} bytes")
    return {
        "kind": part.kind,
        "expected": entry.expected,
        "facets": len(corners),
        "shells": len(part.bodies),
        **part.truth,
        **entry.notes,
    }


def write_all() -> None:
    """Everything that is committed."""
    truth = {}
    for folder, entries in (("samples", SAMPLES), ("tests/meshes", TEST_MESHES)):
        target = ROOT / folder
        target.mkdir(parents=True, exist_ok=True)
        for entry in entries:
            name = f"{folder}/{entry.name}.stl"
            (ROOT / name).parent.mkdir(parents=True, exist_ok=True)
            truth[name] = write_entry(entry, ROOT / name)
    meshes = ROOT / "tests" / "meshes"
    text = json.dumps({"outcomes": OUTCOMES, "files": truth}, indent=1) + "\n"
    (meshes / "truth.json").write_text(text, encoding="utf-8", newline="\n")
    (meshes / "README.md").write_text(readme(truth), encoding="utf-8", newline="\n")


def known(truth: dict) -> str:
    """The known truths of one file, for its line in the README."""
    if "compression_height_mm" in truth:
        return (
            f"skirt {truth['skirt_diameter_mm']:g} mm, pin bore {truth['pin_bore_diameter_mm']:g} mm, "
            f"compression height {truth['compression_height_mm']:g} mm, crown {truth['crown_thickness_mm']:g} mm"
        )
    if "center_distance_mm" not in truth:
        return "none"
    return (
        f"centre distance {truth['center_distance_mm']:g} mm, bores "
        f"{truth['small_bore_diameter_mm']:g} and {truth['big_bore_diameter_mm']:g} mm"
    )


def readme(truth: dict) -> str:
    """One line per file."""
    lines = [
        "# Test meshes",
        "",
        "Written by `samples/make_meshes.py`; do not edit by hand. `truth.json` holds, for each file,",
        "the values it was built from: bore vertices lie on the stated diameter, so a fitted cylinder",
        "may fall short by the sagitta of `*_bore_segments` chords at most. Centres are file",
        "coordinates times `file_unit_mm`. `expected` is one of:",
        "",
    ]
    lines += [f"- `{name}`: {meaning}." for name, meaning in OUTCOMES.items()]
    lines += ["", "| File | What it is | A reader must | Known |", "|---|---|---|---|"]
    for folder, entries in (("samples", SAMPLES), ("tests/meshes", TEST_MESHES)):
        for entry in entries:
            shown = f"{entry.name}.stl" if folder != "samples" else f"../../samples/{entry.name}.stl"
            facts = known(truth[f"{folder}/{entry.name}.stl"])
            lines.append(f"| `{shown}` | {entry.what} | {entry.reader_must} | {facts} |")
    return "\n".join(lines) + "\n"


def write_bench(folder: Path) -> None:
    """The I-shank rod at two finer resolutions."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, resolution in (("rod_200k", BENCH_200K), ("rod_1m", BENCH_1M)):
        corners = sample_rods.i_shank_rod(resolution).corners()
        if open_edges(corners) != 0:
            raise RuntimeError(f"{name} is not closed")
        write_binary(folder / f"{name}.stl", corners, HEADER)
        print(f"{folder / name}.stl: {len(corners)} facets")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--bench", type=Path, metavar="DIR", help="write the bench meshes to DIR")
    chosen = parser.parse_args()
    if chosen.bench is not None:
        write_bench(chosen.bench)
    else:
        write_all()


if __name__ == "__main__":
    main()
