"""What a check promises of a change of shape, against the part made with that change.

For every sample rod and piston the program tells what a thicker wall, a deeper rod, a thicker crown or a wider boss would do to the
margin. Here each of these parts is made by the maker of the samples and checked in full; the two margins must agree within
`WITHIN`. Needs the packages of samples/requirements.txt.

    python tests/reference/promises/check_promises.py target/debug/layload
"""

import json
import subprocess
import sys
import tempfile
from dataclasses import replace
from pathlib import Path
from unittest.mock import patch

ROOT = Path(__file__).resolve().parents[3]
sys.path.insert(0, str(ROOT / "samples"))

from mesh_maker import pistons, sample_rods  # noqa: E402
from mesh_maker.pose import Pose  # noqa: E402
from mesh_maker.resolution import SAMPLE, SAMPLE_LARGE  # noqa: E402
from mesh_maker.stl import write_binary  # noqa: E402

# Margin made over margin promised. A change of 10 % moves margins by 2 to 15 %: a promise further off would mislead.
WITHIN = 0.05

RODS = {
    "plain_rod": ("PLAIN", sample_rods.plain_rod, SAMPLE, "bench_single"),
    "stout_rod": ("STOUT", sample_rods.stout_rod, SAMPLE, "bench_single"),
    "i_shank_rod": ("I_SHANK", sample_rods.i_shank_rod, SAMPLE, "bench_single"),
    "thin_web_rod": ("I_SHANK", sample_rods.thin_web_rod, SAMPLE, "bench_single"),
    "bearing_rod": ("BEARING_ROD", sample_rods.bearing_rod, SAMPLE_LARGE, "bench_bearings"),
    "split_rod": ("SPLIT", sample_rods.split_rod, SAMPLE, "bench_split"),
}
PISTONS = {
    "flat_crown_piston": ("FLAT_CROWN", "bench_piston"),
    "thin_crown_piston": ("THIN_CROWN", "bench_piston"),
}


def asked(program: str, mesh: Path, job: str) -> dict:
    command = [program, "check", str(mesh), "--job", str(ROOT / "samples" / f"{job}.toml"), "--json"]
    said = subprocess.run(command, capture_output=True, text=True, cwd=ROOT)
    if said.returncode not in (0, 1, 3):
        raise RuntimeError(said.stderr)
    return json.loads(said.stdout)


def share(entry: dict) -> float:
    """How many times as much the first value of a change is."""
    moved = entry["moves"][0]
    return moved["to"] / moved["from"]


def changed_rod(rod, key: str, by: float):
    if key == "small-end-wall":
        return replace(rod, small=replace(rod.small, wall=by * rod.small.wall))
    if key == "big-end-wall":
        return replace(rod, big=replace(rod.big, wall=by * rod.big.wall))
    if key == "thickness":
        small, big = replace(rod.small, depth=by * rod.small.depth), replace(rod.big, depth=by * rod.big.depth)
        return replace(rod, small=small, big=big, shank_depth=by * rod.shank_depth)
    return None


def changed_piston(piston, key: str, by: float):
    if key == "crown-thickness":
        return replace(piston, crown=by * piston.crown)
    if key == "boss-wall":
        wall = (piston.boss_diameter - piston.pin_diameter) / 2
        return replace(piston, boss_diameter=piston.boss_diameter + 2 * (by - 1) * wall)
    return None


def parts():
    """Name, job, how a part is made with dimensions of its own, and what changes them."""
    for name, (constant, make, resolution, job) in RODS.items():
        def made(dimensions, constant=constant, make=make, resolution=resolution):
            with patch.object(sample_rods, constant, dimensions):
                return make(resolution)
        yield name, job, getattr(sample_rods, constant), made, changed_rod
    for name, (constant, job) in PISTONS.items():
        def made(dimensions):
            return pistons.sample("piston", dimensions, SAMPLE, Pose())
        yield name, job, getattr(pistons, constant), made, changed_piston


def main() -> int:
    program, worst = sys.argv[1], 0.0
    only = sys.argv[2:]
    with tempfile.TemporaryDirectory() as folder:
        for name, job, dimensions, made, changed in parts():
            if only and name not in only:
                continue
            now = asked(program, ROOT / "samples" / f"{name}.stl", job)
            margin = now["verdict"]["margin"]
            for entry in now["sensitivities"]:
                other = changed(dimensions, entry["key"], share(entry)) if entry.get("moves") else None
                if other is None:
                    continue
                mesh = Path(folder) / "made.stl"
                write_binary(mesh, made(other).corners())
                then = asked(program, mesh, job)["verdict"]
                promised = margin * entry["margin_factor"]
                off = then["margin"] / promised - 1
                worst = max(worst, abs(off))
                told = entry["moves"][0]
                print(
                    f"{name:18} {told['name']:32} {told['from']:6.2f} -> {told['to']:6.2f} mm: margin {margin:.3f}, "
                    f"promised {promised:.3f}, made {then['margin']:.3f}, {100 * off:+.1f} %",
                    flush=True,
                )
    print(f"promises: worst {100 * worst:.1f} %, allowed {100 * WITHIN:.0f} %")
    return int(worst > WITHIN)


if __name__ == "__main__":
    sys.exit(main())
