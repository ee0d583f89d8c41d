"""Runs the program on every variant and compares its answers with what is expected.

    python tests/variants/compare.py --program target/debug/layload [--list] [--keep FOLDER] [PART OF A NAME ...]
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from case import CODES, Case, stl_bytes

import pistons
import rods


@dataclass(frozen=True)
class Answer:
    """Exit code, both outputs as one text, and the report if there was one."""

    code: int
    text: str
    report: dict | None

    @property
    def verdict(self) -> dict:
        return (self.report or {}).get("verdict", {})


def run(program: str, case: Case, folder: Path) -> Answer:
    """Makes the files of a case and asks for text and JSON."""
    mesh, job = folder / f"{case.name}.stl", folder / f"{case.name}.toml"
    mesh.write_bytes(stl_bytes(case.mesh()))
    job.write_text(case.job_text(), encoding="utf-8")
    command = [program, "check", "--quick", str(mesh), "--job", str(job), *case.arguments]
    # The first screen tells the answer; what was read of the part stands among the rest.
    told = subprocess.run([*command, "--all"], capture_output=True, text=True, timeout=300)
    text = told.stdout + told.stderr
    if told.returncode not in (1, 3):
        return Answer(told.returncode, text, None)
    again = subprocess.run([*command, "--json"], capture_output=True, text=True, timeout=300)
    return Answer(told.returncode, text, json.loads(again.stdout))


def faults(case: Case, answers: dict) -> list:
    """What of an answer is not as expected."""
    expected, answer = case.expected, answers[case.name]
    found = []
    if answer.code not in CODES[expected.answer]:
        found.append(f"exit code {answer.code} is not {expected.answer!r}; it said: {shown(answer)}")
    flat = plain(answer.text)
    found += [f"does not say {text!r}" for text in expected.says if plain(text) not in flat]
    found += [f"says {text!r}" for text in expected.never_says if plain(text) in flat]
    if answer.report is not None:
        found += against_others(expected, answer, answers)
    if expected.holding is not None:
        wrong = expected.holding(answer.report)
        found += [wrong] if wrong else []
    if found and answer.code == 2:
        found.append(f"it said: {shown(answer)}")
    return found


def against_others(expected, answer: Answer, answers: dict) -> list:
    """Verdict and margin beside those of the cases named."""
    found = []
    if expected.same_as is not None:
        base = answers[expected.same_as].verdict
        for key in ("state", "governing_mode"):
            if answer.verdict[key] != base.get(key):
                found.append(f"{key} {answer.verdict[key]!r}, {expected.same_as}: {base.get(key)!r}")
        off = abs(answer.verdict["margin"] / base["margin"] - 1.0) if base else float("inf")
        if off > expected.within:
            found.append(
                f"margin {answer.verdict['margin']:.6g}, {expected.same_as}: {base.get('margin')}; off by {off:.2g}, "
                f"may be {expected.within:g}"
            )
    if expected.not_above is not None:
        base = answers[expected.not_above].verdict
        if not base or answer.verdict["margin"] > base["margin"] * (1.0 + expected.within):
            found.append(
                f"margin {answer.verdict['margin']:.6g} above {base.get('margin')} of {expected.not_above} (within "
                f"{expected.within:g})"
            )
    return found


def plain(text: str) -> str:
    """Lower case with single spaces: output is wrapped at the width of a terminal, errors with a bar before each line."""
    return " ".join(text.lower().replace("│", " ").split())


def shown(answer: Answer) -> str:
    return plain(answer.text)[:300]


def with_bases(cases: list, wanted: list) -> list:
    """The cases whose names hold one of the wanted parts, and those that they are compared with."""
    if not wanted:
        return cases
    chosen = {case.name for case in cases if any(part in case.name for part in wanted)}
    for case in cases:
        if case.name in chosen:
            chosen |= {case.expected.same_as, case.expected.not_above} - {None}
    return [case for case in cases if case.name in chosen]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--program", required=True)
    parser.add_argument("--list", action="store_true", help="only say which cases there are")
    parser.add_argument("--keep", type=Path, help="write the files there instead of a temporary folder")
    parser.add_argument("names", nargs="*")
    said = parser.parse_args()
    cases = [*rods.cases(), *pistons.cases()]
    names = [case.name for case in cases]
    twice = {name for name in names if names.count(name) > 1}
    strange = {c.expected.same_as for c in cases} | {c.expected.not_above for c in cases}
    strange -= {None, *names}
    if twice or strange:
        raise SystemExit(f"names used twice: {sorted(twice)}; unknown names: {sorted(strange)}")
    cases = with_bases(cases, said.names)
    if said.list:
        print("\n".join(case.name for case in cases))
        return 0
    with tempfile.TemporaryDirectory() as temporary:
        folder = said.keep or Path(temporary)
        folder.mkdir(parents=True, exist_ok=True)
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            answers = dict(zip((c.name for c in cases), pool.map(lambda c: run(said.program, c, folder), cases)))
    bad = 0
    for case in cases:
        wrong = faults(case, answers)
        bad += bool(wrong)
        for line in wrong:
            print(f"{case.name}: {line}")
    print(f"variants: {len(cases) - bad} of {len(cases)} as expected")
    return 1 if bad or not cases else 0


if __name__ == "__main__":
    sys.exit(main())
