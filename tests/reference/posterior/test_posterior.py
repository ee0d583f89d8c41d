"""Reading, folds and formulas; the fit itself is judged by the page of scores."""

import math
import tomllib
import unittest

import numpy as np
from scipy import stats

import arrays as A
import cards as W
import folds as F
import lists as L
import rows as R
import scores as C


class Reading(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.evidence = R.read()
        cls.a, cls.indices = A.build(cls.evidence)

    def test_every_row_is_used_or_left_out_with_a_reason(self):
        used = R.used_ids(self.evidence) | {"we017", "we047"} | {dry for _, dry in R.WET_PAIRS}
        out = dict(self.evidence.left_out)
        self.assertEqual(set(self.evidence.all) - used - set(out), set())
        self.assertTrue(all(out.values()))
        # A row that speaks in one part is not called left out in another.
        self.assertEqual(R.used_ids(self.evidence) & set(out), set())

    def test_no_unopened_paper_is_among_the_rows(self):
        text = (R.EVIDENCE / "unopened.csv").read_text().lower()
        for doi in set(self.a["static_doi"]) | set(self.a["cycles_doi"]):
            self.assertNotIn(doi.lower() + ",", text)

    def test_every_card_has_its_family_and_resin(self):
        for name, (_, polymer, fibre, _) in R.cards().items():
            self.assertIn((polymer, fibre), self.indices["family"].names, name)
            self.assertIn(polymer, R.resins(), name)

    def test_bars_of_one_spool_share_a_print(self):
        spools = {}
        for o in self.evidence.static:
            if "spool" in o.series:
                spools.setdefault(o.series, set()).add((o.polymer, o.fibre))
        self.assertGreater(len(spools), 30)
        self.assertTrue(all(len(families) == 1 for families in spools.values()))


class Cards(unittest.TestCase):
    """What `cards` writes: the same bytes again, and what it counts is what the fit counts."""

    def test_the_cards_are_those_of_the_posterior(self):
        posterior = tomllib.loads(W.POSTERIOR.read_text())
        evidence, names = R.read(), posterior["properties"]
        for path in sorted(R.CARDS.glob("*.toml")):
            recalled = tomllib.loads(path.read_text())
            _, polymer, fibre, _ = R.cards()[recalled["name"]]
            known = W.Known(names, posterior["cards"][recalled["name"]], L.behind(evidence, polymer, fibre))
            self.assertEqual(W.written(recalled, known), (W.OUT / path.name).read_text(), path.name)

    def test_rows_are_counted_as_in_the_fit(self):
        import fit
        a, indices = A.build(R.read())
        for name, (_, polymer, fibre, _) in R.cards().items():
            behind = L.behind(R.read(), polymer, fibre)
            for prop, counts in fit.counts(a, indices, polymer, fibre).items():
                if prop in behind:
                    self.assertEqual(behind[prop].counts(), counts, f"{name} {prop}")

    def test_a_matrix_that_is_no_covariance_is_told(self):
        self.assertTrue(W.positive([[1.0, 0.9], [0.9, 1.0]]))
        self.assertFalse(W.positive([[1.0, 0.9, 0.9], [0.9, 1.0, -0.9], [0.9, -0.9, 1.0]]))


class Folds(unittest.TestCase):
    def test_every_tested_source_is_left_out_once_and_no_family_loses_two(self):
        a, _ = A.build(R.read())
        families, found = F.families_of(a), F.folds(a)
        self.assertEqual(sorted(d for fold in found for d in fold), sorted(families))
        for fold in found:
            seen = [f for d in fold for f in families[d]]
            self.assertEqual(len(seen), len(set(seen)), fold)

    def test_data_sheets_are_never_scored(self):
        a, _ = A.build(R.read())
        self.assertFalse(any("data sheet" in d for d in F.families_of(a)))


class Formulas(unittest.TestCase):
    def test_crps_from_samples_is_the_closed_form(self):
        drawn = np.random.default_rng(2).normal(0.3, 0.2, 100_000)
        for y in (0.0, 0.3, 1.0):
            self.assertAlmostEqual(C.crps(drawn, y), C.crps_normal(0.3, 0.2, y), delta=0.003)

    def test_crps_rewards_the_truth_over_a_wide_and_a_narrow_guess(self):
        y = np.random.default_rng(3).normal(0.0, 0.3, 4000)
        mean = lambda sd: np.mean([C.crps_normal(0.0, sd, v) for v in y])
        self.assertLess(mean(0.3), mean(0.9))
        self.assertLess(mean(0.3), mean(0.1))

    def test_steady_keeps_a_covariance(self):
        import fit
        rough = np.array([[1.0, 0.99, 0.5], [0.99, 1.0, -0.5], [0.5, -0.5, 1.0]])
        self.assertGreater(np.linalg.eigvalsh(fit.steady(rough)).min(), 0.0)

    def test_walker_of_a_pair_is_recovered(self):
        # Two stresses made by exponent 0.4 at one life give 0.4 back: the same line as in rows.cycle_rows.
        s = lambda ratio: 10.0 * ((1.0 - ratio) / 2.0) ** -0.4
        self.assertAlmostEqual(math.log(s(0.1) / s(-1.0)) / -math.log(0.45), 0.4, places=9)
        self.assertAlmostEqual(stats.norm.cdf(0.0), 0.5)


if __name__ == "__main__":
    unittest.main()
