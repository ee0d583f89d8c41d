"""The stress field beside a general finite-element program in one run: time and error at the eyes of a pulled rod.

The plain rod is pulled at both bores (see pulled_rods.py). CalculiX (Debian: calculix-ccx; two threads) solves it with
quadratic tetrahedra of SIZE at the bores, the field with CELLS cells and a window of finer cells at each eye; the finest
numbers of pulled_rods.json are what both are off from. Meshing is told apart: a user of either has to wait for it, but the
solving is what the field's own code has in common with the other. Writes beside.json.

    cargo build --release -p layload-core --features rooms --example pulled_rod
    python tests/reference/calculix/beside.py [SIZE_MM [CELLS]]
"""

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pulled_rods
from pulled_rods import FORCE, HERE, RODS, TOP, Pulled

ROD = "plain_rod"
THREADS = "2"


def main() -> None:
    size = float(sys.argv[1]) if len(sys.argv) > 1 else 0.9
    cells = int(sys.argv[2]) if len(sys.argv) > 2 else 60_000
    finest = json.loads((HERE / "pulled_rods.json").read_text())["rods"][ROD]
    expected = [finest["small_bore"]["mpa"], finest["big_bore"]["mpa"]]
    off = lambda found: [round((f / e - 1) * 100, 2) for f, e in zip(found, expected)]
    os.environ["OMP_NUM_THREADS"] = os.environ["CCX_NPROC_EQUATION_SOLVER"] = THREADS

    # The solver's process alone: writing its input and reading its answer in Python is no part of it.
    seconds = []
    run = subprocess.run

    def timed(*words, **options):
        began = time.perf_counter()
        done = run(*words, **options)
        seconds.append(time.perf_counter() - began)
        return done

    pulled_rods.subprocess.run = timed
    began = time.perf_counter()
    rod = Pulled(ROD, size)
    meshed = time.perf_counter() - began
    solved = rod.solved()
    pulled_rods.subprocess.run = run

    bores = [str(value) for key in ("small", "big") for value in (*RODS[ROD][key][0], RODS[ROD][key][1])]
    program = TOP / "target" / "release" / "examples" / "pulled_rod"
    words = [str(program), str(TOP / "samples" / f"{ROD}.stl"), str(cells), str(FORCE), *bores]
    environment = os.environ | {"RAYON_NUM_THREADS": THREADS}
    field = json.loads(run(words, check=True, capture_output=True, text=True, env=environment).stdout)
    whole = field["seconds"]["all"]
    report = {
        "rod": ROD,
        "expected_mpa": {"small_bore": expected[0], "big_bore": expected[1]},
        "calculix": {
            "size_at_bore_mm": size,
            "nodes": solved["nodes"],
            "off_percent": off([solved["small_bore"]["mpa"], solved["big_bore"]["mpa"]]),
            "seconds": {"meshing": round(meshed, 1), "solving": round(seconds[0], 1)},
        },
        "field": {
            "cells": field["cells"],
            "off_percent": off([field["small_bore_mpa"][1], field["big_bore_mpa"][1]]),
            "seconds": {key: round(value, 2) for key, value in field["seconds"].items()},
        },
        "solving_over_all_of_field": round(seconds[0] / whole, 1),
    }
    (HERE / "beside.json").write_text(json.dumps(report, indent=1) + "\n")
    print(json.dumps(report, indent=1))


if __name__ == "__main__":
    main()
