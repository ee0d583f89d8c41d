"""A study on a Dask cluster of two: the same bytes as the local run, faster than one worker, and nothing lost with a worker
that is killed half-way.

    python check_cluster.py target/release/layload [CASES]

Needs samples/dask/requirements.txt.
"""

import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from dask.distributed import Client, LocalCluster

TOP = Path(__file__).resolve().parents[3]


def study_file(folder: Path, cases: int) -> Path:
    text = (TOP / "samples/study.toml").read_text()
    for name in ("bench_single.toml", "plain_rod.stl"):
        shutil.copy(TOP / "samples" / name, folder)
    path = folder / "study.toml"
    # Sections alone: what is tried here is that workers share the cases, not the numbers.
    path.write_text(text.replace("cases = 10000", f"cases = {cases}\nquick = true"))
    return path


def on_cluster(program: str, study: Path, out: Path, scheduler: str, shards: int) -> subprocess.Popen:
    script = TOP / "samples/dask/study.py"
    command = [sys.executable, script, study, out, "--program", program, "--shards", str(shards), "--scheduler", scheduler]
    return subprocess.Popen([str(word) for word in command], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def cases_done(out: Path) -> int:
    return sum(path.read_bytes().count(b"\n") for path in out.glob("cases-*.csv"))


def main() -> int:
    program = str(Path(sys.argv[1]).resolve())
    cases = int(sys.argv[2]) if len(sys.argv) > 2 else 1200
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        study = study_file(folder, cases)
        local = folder / "local"
        subprocess.run([program, "study", study, "--out", local], check=True, stdout=subprocess.DEVNULL)
        whole = {file: (local / file).read_bytes() for file in ("results.csv", "effects.json")}
        took = {}
        for workers in (1, 2):
            with LocalCluster(n_workers=workers, threads_per_worker=1, dashboard_address=None) as cluster:
                out = folder / f"workers-{workers}"
                begun = time.monotonic()
                assert on_cluster(program, study, out, cluster.scheduler_address, 6).wait() == 0
                took[workers] = time.monotonic() - begun
                for file, expected in whole.items():
                    assert (out / file).read_bytes() == expected, f"{file} differs with {workers} workers"
        with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster:
            out = folder / "killed"
            running = on_cluster(program, study, out, cluster.scheduler_address, 6)
            while cases_done(out) < cases // 6:
                assert running.poll() is None, "it was done before a worker could be killed: more cases are needed"
                time.sleep(0.02)
            with Client(cluster) as client:
                process = next(iter(client.run(os.getpid).values()))
            before = cases_done(out)
            os.kill(process, signal.SIGKILL)
            assert running.wait() == 0
            for file, expected in whole.items():
                assert (out / file).read_bytes() == expected, f"{file} differs after a worker was killed"
        print(f"{cases} cases: the same bytes with 1 worker ({took[1]:.1f} s), with 2 ({took[2]:.1f} s), and with one of 2")
        print(f"killed after {before} cases; two workers are {took[1] / took[2]:.2f} times as fast as one")
    return 0


if __name__ == "__main__":
    sys.exit(main())
