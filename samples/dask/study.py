"""Runs a study in shards on a Dask cluster; every worker calls the native program, which must be on all of them.

    python study.py STUDY.toml OUT --program layload --shards 8 [--scheduler tcp://host:8786] [--workers 2]

STUDY.toml and OUT lie in a folder that all machines share. Without --scheduler a cluster of --workers is started here.
A shard whose worker dies is given to another one and goes on where it stopped; finished cases are never run again.
Needs `dask[distributed]` (see requirements.txt).
"""

import argparse
import subprocess
import sys

from dask.distributed import Client, LocalCluster, as_completed


def run_shard(program: str, study: str, out: str, number: int, count: int, threads: int) -> int:
    """Runs one shard to its end on the worker that has it."""
    import os
    import subprocess
    import time

    command = [program, "study", study, "--out", out, "--shard", f"{number}/{count}", "--resume"]
    # One program a worker: its threads are the share of the machine that the worker stands for.
    environment = os.environ | {"RAYON_NUM_THREADS": str(threads)}
    while True:
        ended = subprocess.run(command, env=environment, capture_output=True, text=True)
        # The program of a worker that died may live on; it finishes its cases, and then this one finds them done.
        if "being written by another program" not in ended.stderr:
            break
        time.sleep(0.2)
    if ended.returncode != 0:
        raise RuntimeError(ended.stderr.strip() or f"shard {number} ended with {ended.returncode}")
    return number


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("study")
    parser.add_argument("out")
    parser.add_argument("--program", default="layload")
    parser.add_argument("--shards", type=int, default=8)
    parser.add_argument("--scheduler")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--threads", type=int, default=1, help="threads of the program on each worker")
    arguments = parser.parse_args()
    cluster = None
    if not arguments.scheduler:
        cluster = LocalCluster(n_workers=arguments.workers, threads_per_worker=1, dashboard_address=None)
    client = Client(arguments.scheduler or cluster)
    try:
        shards = [
            client.submit(
                run_shard, arguments.program, arguments.study, arguments.out, number, arguments.shards,
                arguments.threads, pure=False, retries=3,
            )
            for number in range(1, arguments.shards + 1)
        ]
        for done, shard in enumerate(as_completed(shards), 1):
            shard.result()
            print(f"{done} of {arguments.shards} shards are done", file=sys.stderr)
    finally:
        client.close()
        if cluster:
            cluster.close()
    # Nothing is left but to put the table together, and to run what no shard finished.
    return subprocess.run([arguments.program, "study", arguments.study, "--out", arguments.out, "--resume"]).returncode


if __name__ == "__main__":
    sys.exit(main())
