"""Scores locked predictions once the paper has been opened.

    score.py LOCK.toml ANSWERS.csv

The answers have the columns id, value, and any condition that only the paper states (stress_max_mpa, cycles, load_ratio,
strength_mpa, temperature_c), which then takes the place of the question's. Refused where a hash does not fit the lock's commit.
"""

import csv
import math
import sys
from pathlib import Path

import lock as L
import predict as P

CONDITIONS = ("stress_max_mpa", "cycles", "load_ratio", "strength_mpa", "temperature_c", "direction", "over", "soaked")


def check(locked, root=P.ROOT):
    """The lock's hashes are those of its commit, and its commit is an ancestor of where we stand."""
    now = L.hashes(locked["commit"], locked["job"], root)
    wrong = [name for name, value in now.items() if locked["sha256"].get(name) != value]
    if wrong:
        raise SystemExit(f"not what was locked: {', '.join(wrong)}")
    predicts = (Path(root) / L.HASHED["predict"]).read_bytes()
    if L.sha256(predicts) != locked["sha256"]["predict"]:
        raise SystemExit(f"predict.py has changed since: check out {locked['commit'][:12]} to score this lock")
    try:
        L.git("merge-base", "--is-ancestor", locked["commit"], "HEAD", root=root)
    except Exception:
        raise SystemExit("the lock's commit is no ancestor of this one") from None


def score(lock_path, answers_path, root=P.ROOT):
    locked = P.load(Path(lock_path).read_text())
    check(locked, root)
    at = lambda path: L.git("show", f"{locked['commit']}:{path}", root=root).decode()
    posterior, job = P.load(at(L.HASHED["posterior"])), P.load(at(locked["job"]))
    card = P.load(at(L.card_path(locked["card"], root)))
    questions = {q["id"]: q for q in job["question"]}
    with open(answers_path, newline="") as handle:
        answers = list(csv.DictReader(handle))
    unknown = [row["id"] for row in answers if row["id"] not in questions]
    if unknown:
        raise SystemExit(f"never asked: {', '.join(unknown)}")
    scores = []
    for row in answers:
        question = {**questions[row["id"]], **{c: row[c] for c in CONDITIONS if row.get(c)}}
        draws = P.predict(posterior, card, question)
        low, middle, high = P.band(draws)
        scores.append({"id": row["id"], "value": float(row["value"]), "low_10": low, "median": middle, "high_90": high,
                       **P.score(draws, math.log(float(row["value"])))})
    silent = [q for q in questions if q not in {row["id"] for row in answers}]
    return scores, silent


if __name__ == "__main__":
    scores, silent = score(sys.argv[1], sys.argv[2])
    print("id,value,low_10,median,high_90,error_over_spread,pit,crps")
    for s in scores:
        print(",".join([s["id"], *[f"{s[k]:.4g}" for k in ("value", "low_10", "median", "high_90", "error_over_spread", "pit", "crps")]]))
    if scores:
        inside = sum(s["low_10"] <= s["value"] <= s["high_90"] for s in scores)
        low, high = P.binomial_interval(inside, len(scores))
        rms = math.sqrt(sum(s["error_over_spread"] ** 2 for s in scores) / len(scores))
        print(f"# {inside} of {len(scores)} in the 80 % band ({low:.0%} to {high:.0%}); errors over spread, root mean square {rms:.2f}")
    if silent:
        print(f"# the paper does not answer: {', '.join(silent)}")
