"""The installed package against the command line: `bash wasm-plugin/hosts/python/test.sh`."""

import doctest
import json
import os
import pickle
import signal
import subprocess
import sys
import threading
import time
import unittest
from pathlib import Path

import layload
import numpy as np

TOP = Path(__file__).resolve().parents[4]
PROGRAM = os.environ["LAYLOAD_PROGRAM"]
ROD, ROD_JOB = "samples/plain_rod.stl", "samples/bench_single.toml"
PISTON, PISTON_JOB = "samples/flat_crown_piston.stl", "samples/bench_piston.toml"

# Ctrl-C in the middle of a check of so many cells that it takes far longer than the test waits.
INTERRUPTED = f"""
import layload, signal, sys, time
# A script in the background of a shell has interrupts ignored, and hands that on.
signal.signal(signal.SIGINT, signal.default_int_handler)
def told(stage, share):
    if "stress field" in stage:
        print("solving", flush=True)
begun = None
try:
    layload.check({ROD!r}, {ROD_JOB!r}, cells=60_000, progress=told)
except KeyboardInterrupt:
    print("interrupted", flush=True)
    # The package is there for the next question.
    print(layload.check({ROD!r}, {ROD_JOB!r}, quick=True).verdict.state, flush=True)
"""


def printed(*arguments: str) -> str:
    """What the command line prints; 1 and 3 are answers too."""
    said = subprocess.run([PROGRAM, *arguments, "--json"], capture_output=True, text=True)
    assert said.returncode in (0, 1, 3), said.stderr
    return said.stdout


class Package(unittest.TestCase):
    def test_json_is_that_of_the_command_line(self):
        for mesh, job in ((ROD, ROD_JOB), (PISTON, PISTON_JOB)):
            asked = ("check", mesh, "--job", job)
            self.assertEqual(layload.check(mesh, job, quick=True).json, printed(*asked, "--quick"))
            self.assertEqual(layload.check(mesh, job, cells=2000).json, printed(*asked, "--cells", "2000"))
            self.assertEqual(layload.walls(mesh, job).json, printed("walls", mesh, "--job", job))
            stl = Path(mesh).read_bytes()
            self.assertEqual(layload.check(stl, job, quick=True).json, printed(*asked, "--quick"))
        directed = layload.directions(ROD, ROD_JOB, quick=True, count=50)
        self.assertEqual(directed.json, printed("directions", ROD, "--job", ROD_JOB, "--quick", "--count", "50"))
        self.assertEqual(directed.direction_vectors.shape, (len(directed.directions), 3))
        compared = layload.compare(ROD, "samples/i_shank_rod.stl", ROD_JOB, quick=True)
        self.assertEqual(compared.json, printed("compare", ROD, "samples/i_shank_rod.stl", "--job", ROD_JOB, "--quick"))

    def test_arrays_have_the_numbers_of_the_report(self):
        checked = layload.check(PISTON, PISTON_JOB, cells=2000, facets=True)
        report = json.loads(checked.json)
        stations = checked.station_table
        self.assertEqual(len(stations), len(report["stations"]))
        for name in ("position_mm", "area_mm2", "stress_max_mpa"):
            np.testing.assert_array_equal(stations[name], [station[name] for station in report["stations"]])
        moments = report["crank"]["moments"]
        np.testing.assert_array_equal(checked.cycle_table["pressure_bar"], [m["pressure_bar"] for m in moments])
        self.assertNotIn("crank_pin_n", checked.cycle_table.dtype.names)
        painted = checked.painted
        np.testing.assert_array_equal(np.nan_to_num(painted.values), report["facet_utilisation"])
        self.assertLess(painted.corners.max(), len(painted.points_mm))
        # The volume inside the surface is that of the report: the facets are the part's own.
        a, b, c = (painted.points_mm[painted.corners[:, k]] for k in range(3))
        volume = np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6
        self.assertAlmostEqual(volume / report["mesh"]["volume_mm3"], 1, places=6)

    def test_records_are_read_by_attribute(self):
        checked = layload.check(ROD, ROD_JOB, quick=True)
        self.assertIsNone(checked.piston)
        self.assertGreater(checked.rod.forces.small_end_pull_n, 0)
        self.assertEqual(checked["verdict"]["margin"], checked.verdict.margin)
        with self.assertRaisesRegex(AttributeError, "no margins"):
            checked.verdict.margins
        with self.assertRaises(AttributeError):
            checked.verdict.margin = 2.0
        self.assertEqual(dict(pickle.loads(pickle.dumps(checked.verdict))), dict(checked.verdict))

    def test_what_is_wrong_is_refused(self):
        with self.assertRaises(layload.Refused) as told:
            layload.check("tests/meshes/open.stl", ROD_JOB)
        self.assertEqual((told.exception.code, told.exception.key), ("mesh-open", None))
        self.assertIn(told.exception.help, str(told.exception))
        with self.assertRaises(layload.Refused) as told:
            layload.check(ROD, {"engine": {"stroke": 46}})
        self.assertEqual(told.exception.code, "job-format")
        with self.assertRaises(FileNotFoundError):
            layload.check("no such file.stl", ROD_JOB)
        with self.assertRaises(FileNotFoundError):
            layload.check(ROD, "no such job.toml")
        points = np.zeros((3, 3))
        for corners in ([[0, 1, -1]], [[0, 1, 0.5]], [0, 1, 2]):
            with self.assertRaises(ValueError):
                layload.load((points, corners))
        with self.assertRaises(layload.Refused) as told:
            layload.load((points, [[0, 1, 3]]))
        self.assertEqual(told.exception.code, "mesh-no-such-point")

    def test_a_job_reads_no_file_outside_its_folder(self):
        folder = Path(self.enterContext(__import__("tempfile").TemporaryDirectory()))
        (folder / "inner").mkdir()
        (folder / "card.toml").write_text("name = 'secret'")
        for name in ("../card.toml", str(folder / "card.toml")):
            job = folder / "inner" / "job.toml"
            job.write_text(f"[material]\ncard_file = {json.dumps(name)}\n")
            with self.assertRaises(layload.Refused) as told:
                layload.Job(job)
            self.assertEqual(told.exception.code, "file-outside")

    def test_progress_may_raise_and_may_stop(self):
        def raising(stage, share):
            raise ZeroDivisionError(stage)

        with self.assertRaises(ZeroDivisionError):
            layload.check(ROD, ROD_JOB, progress=raising)
        with self.assertRaises(layload.Refused) as told:
            layload.check(ROD, ROD_JOB, progress=lambda stage, share: False)
        self.assertEqual(told.exception.code, "cancelled")

    def test_other_threads_run_on(self):
        counted = 0
        over = threading.Event()

        def count():
            nonlocal counted
            while not over.is_set():
                counted += 1
                time.sleep(0.001)

        thread = threading.Thread(target=count)
        thread.start()
        layload.check(ROD, ROD_JOB, cells=2000)
        over.set()
        thread.join()
        # The check takes longer than a tenth of a second; a thread that was kept waiting would hardly have counted.
        self.assertGreater(counted, 20)

    @unittest.skipIf(os.name == "nt", "signals of terminals")
    def test_an_interrupt_stops_at_once(self):
        process = subprocess.Popen([sys.executable, "-c", INTERRUPTED], stdout=subprocess.PIPE, text=True)
        self.assertEqual(process.stdout.readline(), "solving\n")
        begun = time.monotonic()
        process.send_signal(signal.SIGINT)
        line = process.stdout.readline()
        while line == "solving\n":
            line = process.stdout.readline()
        taken = time.monotonic() - begun
        self.assertEqual(line, "interrupted\n")
        # Python looks for signals every 50 ms; the rest is for a machine with other work.
        self.assertLess(taken, 2.0)
        print(f"control back {1e3 * taken:.0f} ms after the interrupt", file=sys.stderr)
        self.assertEqual(process.stdout.readline(), "no-fault-found\n")
        self.assertEqual(process.wait(timeout=60), 0)
        process.stdout.close()

    def test_examples_of_the_readme(self):
        readme = Path(__file__).parents[1] / "README.md"
        failed, tried = doctest.testfile(str(readme), module_relative=False)
        self.assertEqual(failed, 0)
        self.assertGreater(tried, 20)


if __name__ == "__main__":
    os.chdir(TOP)
    unittest.main(verbosity=1)
