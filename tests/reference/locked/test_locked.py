"""The two commands bind what they say they bind, and their scores are those of the formulas."""

import math
import shutil
import subprocess
import tempfile
import unittest
from pathlib import Path

import numpy as np
from scipy import stats

import lock as L
import predict as P
import score as S

JOB = """paper = "10.1000/an.invented.paper"
card = "PLA"

[[question]]
id = "flat"
kind = "strength"
direction = "lines45"

[[question]]
id = "upright over flat"
kind = "strength_ratio"
direction = "layer"
over = "bead"

[[question]]
id = "life"
kind = "life"
load_ratio = 0.0
stress_max_mpa = 15.0
strength_mpa = 45.0
"""


def copy_of_project(folder):
    """A small repository with just what a lock hashes."""
    for path in [*L.HASHED.values(), L.card_path("PLA")]:
        target = Path(folder) / path
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(P.ROOT / path, target)
    (Path(folder) / "job.toml").write_text(JOB)
    run = lambda *a: subprocess.run(["git", "-C", str(folder), "-c", "user.name=test", "-c", "user.email=test@test", *a], check=True,
                                    capture_output=True)
    run("init", "-q")
    run("add", "-A")
    run("commit", "-qm", "Begin")
    return run


class Locked(unittest.TestCase):
    def setUp(self):
        self.folder = Path(tempfile.mkdtemp()).resolve()
        self.addCleanup(shutil.rmtree, self.folder)
        self.git = copy_of_project(self.folder)
        self.lock = self.folder / "lock.toml"
        self.lock.write_text(L.lock(self.folder / "job.toml", self.folder))

    def answers(self, text):
        path = self.folder / "answers.csv"
        path.write_text(text)
        return path

    def test_a_lock_scores_and_names_what_the_paper_is_silent_on(self):
        scores, silent = S.score(self.lock, self.answers("id,value,stress_max_mpa\nflat,40,\nlife,1e5,12\n"), self.folder)
        self.assertEqual([s["id"] for s in scores], ["flat", "life"])
        self.assertEqual(silent, ["upright over flat"])
        kept = {p["id"]: p for p in P.load(self.lock.read_text())["prediction"]}
        self.assertAlmostEqual(scores[0]["median"], kept["flat"]["median"], delta=0.01 * kept["flat"]["median"])
        # Less stress than the question's lives longer.
        self.assertGreater(scores[1]["median"], kept["life"]["median"])

    def test_the_same_state_gives_the_same_lock(self):
        self.assertEqual(self.lock.read_text(), L.lock(self.folder / "job.toml", self.folder))

    def test_a_changed_prediction_or_hash_is_refused(self):
        text = self.lock.read_text()
        name, value = next(iter(P.load(text)["sha256"].items()))
        self.lock.write_text(text.replace(value, "0" * 64))
        with self.assertRaisesRegex(SystemExit, f"not what was locked: {name}"):
            S.score(self.lock, self.answers("id,value\nflat,40\n"), self.folder)

    def test_a_changed_script_is_refused(self):
        path = self.folder / L.HASHED["predict"]
        path.write_text(path.read_text() + "\n# later\n")
        with self.assertRaisesRegex(SystemExit, "predict.py has changed"):
            S.score(self.lock, self.answers("id,value\nflat,40\n"), self.folder)

    def test_a_later_posterior_does_not_move_a_locked_score(self):
        before, _ = S.score(self.lock, self.answers("id,value\nflat,40\n"), self.folder)
        path = self.folder / L.HASHED["posterior"]
        path.write_text(path.read_text().replace("spread = [0", "spread = [1"))
        self.git("commit", "-qam", "Move")
        after, _ = S.score(self.lock, self.answers("id,value\nflat,40\n"), self.folder)
        self.assertEqual(before, after)

    def test_changes_that_are_not_committed_cannot_be_locked(self):
        (self.folder / "job.toml").write_text(JOB + "\n")
        with self.assertRaisesRegex(SystemExit, "commit these first"):
            L.lock(self.folder / "job.toml", self.folder)

    def test_a_value_never_asked_for_is_refused(self):
        with self.assertRaisesRegex(SystemExit, "never asked: other"):
            S.score(self.lock, self.answers("id,value\nother,40\n"), self.folder)


class Scores(unittest.TestCase):
    def test_crps_of_normal_draws_is_that_of_the_closed_form(self):
        draws = np.random.default_rng(1).normal(2.0, 0.5, 200_000)
        for y in (1.0, 2.0, 3.5):
            z = (y - 2.0) / 0.5
            closed = 0.5 * (z * (2 * stats.norm.cdf(z) - 1) + 2 * stats.norm.pdf(z) - 1 / math.sqrt(math.pi))
            found = P.score(draws, y)
            # A hundredth of the spread: 200 000 draws leave about a thousandth.
            self.assertAlmostEqual(found["crps"], closed, delta=0.005)
            self.assertAlmostEqual(found["pit"], stats.norm.cdf(z), delta=0.005)

    def test_interval_of_a_share_holds_the_share(self):
        self.assertEqual(P.binomial_interval(0, 5)[0], 0.0)
        self.assertEqual(P.binomial_interval(5, 5)[1], 1.0)
        low, high = P.binomial_interval(8, 10)
        self.assertTrue(low < 0.8 < high)

    def test_predictions_refuse_what_they_do_not_know(self):
        posterior = P.load(P.POSTERIOR.read_text())
        card = P.load((P.ROOT / L.card_path("PLA")).read_text())
        for question in ({"kind": "colour"}, {"kind": "strength", "direction": "askew"}):
            with self.assertRaises(P.Question):
                P.predict(posterior, card, question)

    def test_more_stress_never_lives_longer_and_upright_is_weaker(self):
        posterior = P.load(P.POSTERIOR.read_text())
        card = P.load((P.ROOT / L.card_path("PLA")).read_text())
        lives = [np.median(P.predict(posterior, card, {"kind": "life", "load_ratio": 0.0, "stress_max_mpa": s})) for s in (5, 10, 20)]
        self.assertTrue(lives[0] > lives[1] > lives[2], lives)
        ratio = P.predict(posterior, card, {"kind": "strength_ratio", "direction": "layer", "over": "bead"})
        self.assertLess(np.median(ratio), 0.0)


if __name__ == "__main__":
    unittest.main()
