"""Contact-dependent stress factors of a pin-loaded connecting-rod eye.

    python study.py           regenerate the table and results.json
    python study.py --check   compare with closed forms and handbook relations
"""

import argparse
import os
import sys
from pathlib import Path

# One thread keeps the order of sums, and so the digits, the same on every machine; it is also
# quicker than threads that wait for each other on a busy one. Must precede numpy.
os.environ["OPENBLAS_NUM_THREADS"] = "1"

import checks
import family
import table
import variants

HERE = Path(__file__).resolve().parent
TABLE = HERE / "eye_family.json"
# What of the table the program carries.
EMBEDDED = HERE.parents[2] / "core" / "src" / "stress" / "eye_family.json"
RESULTS = HERE / "results.json"
# Width ratios halfway between some of the table's, to measure interpolation with.
BETWEEN = [1.35, 1.7, 2.25]


def regenerate() -> None:
    """Solve everything again and write all files."""
    eyes = [_prepared(ratio) for ratio in family.WIDTH_RATIOS]
    between = [_prepared(ratio) for ratio in BETWEEN]
    document = table.build(eyes)
    document["check"] = table.check_block(document, eyes, between)
    table.write(document, TABLE)
    table.embed(document, EMBEDDED)
    print(f"wrote {TABLE.name}, {TABLE.stat().st_size} bytes", flush=True)
    table.write({"variants": variants.run()}, RESULTS)
    print(f"wrote {RESULTS.name}", flush=True)


def _prepared(ratio: float) -> family.Eye:
    print(f"eye W/d = {ratio}", flush=True)
    return family.prepare(ratio)


def check() -> int:
    """Run the checks; the exit code is 1 when a row fails. Notes are told but not counted."""
    passed = failed = 0
    for row in checks.run(TABLE):
        passed, failed = passed + (row.passed is True), failed + (row.passed is False)
        mark = {True: "pass", False: "FAIL", None: "note"}[row.passed]
        print(f"{mark}  {row.name}: {row.text}", flush=True)
    print(f"{passed} passed, {failed} failed")
    return min(failed, 1)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--check", action="store_true", help="run the checks instead of regenerating")
    if parser.parse_args().check:
        return check()
    regenerate()
    return 0


if __name__ == "__main__":
    sys.exit(main())
