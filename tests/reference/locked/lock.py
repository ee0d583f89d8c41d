"""Locks predictions before a paper's numbers are opened.

    lock.py JOB.toml LOCK.toml

The job names the paper, the card and the questions. The lock holds the hashes of the job, of the posterior, of the script that
predicts and of the cards, the commit they stand in, and the predictions. It is refused where any of them has changes that are
not committed: a lock binds a state that others can fetch.
"""

import hashlib
import subprocess
import sys
from pathlib import Path

import predict as P

HASHED = {"posterior": "core/src/material/posterior/cards.toml", "predict": "tests/reference/locked/predict.py"}


def sha256(data):
    return hashlib.sha256(data).hexdigest()


def git(*arguments, root=P.ROOT):
    return subprocess.run(["git", "-C", str(root), *arguments], check=True, capture_output=True).stdout


def hashes(commit, job_path, root=P.ROOT):
    """Hashes of job, card, posterior and scripts as they stand in a commit."""
    found = {}
    job = P.load(git("show", f"{commit}:{job_path}", root=root).decode())
    for name, path in {**HASHED, "job": job_path, "card": card_path(job["card"], root)}.items():
        found[name] = sha256(git("show", f"{commit}:{path}", root=root))
    return found


def card_path(name, root=P.ROOT):
    for path in sorted((Path(root) / "core/src/material/cards").glob("*.toml")):
        if P.load(path.read_text())["name"] == name:
            return str(path.relative_to(root))
    raise SystemExit(f"no card {name}")


def lock(job_path, root=P.ROOT):
    job_path = str(Path(job_path).resolve().relative_to(root))
    job = P.load((Path(root) / job_path).read_text())
    paths = [*HASHED.values(), job_path, card_path(job["card"], root)]
    dirty = git("status", "--porcelain", "--", *paths, root=root).decode().strip()
    if dirty:
        raise SystemExit(f"commit these first, a lock binds what stands in a commit:\n{dirty}")
    commit = git("rev-parse", "HEAD", root=root).decode().strip()
    posterior = P.load((Path(root) / HASHED["posterior"]).read_text())
    card = P.load((Path(root) / card_path(job["card"], root)).read_text())
    lines = [f'paper = "{job["paper"]}"', f'card = "{job["card"]}"', f'job = "{job_path}"', f'commit = "{commit}"', "", "[sha256]"]
    lines += [f'{name} = "{value}"' for name, value in sorted(hashes(commit, job_path, root).items())]
    for question in job["question"]:
        draws = P.predict(posterior, card, question)
        low, middle, high = P.band(draws)
        lines += ["", "[[prediction]]", f'id = "{question["id"]}"', f"mean_ln = {draws.mean():.4f}", f"sd_ln = {draws.std():.4f}",
                  f"low_10 = {low:.4g}", f"median = {middle:.4g}", f"high_90 = {high:.4g}"]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    text = lock(sys.argv[1])
    target = Path(sys.argv[2])
    if target.exists():
        raise SystemExit(f"{target} is there already: a lock is written once")
    target.write_text(text)
