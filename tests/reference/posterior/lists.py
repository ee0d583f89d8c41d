"""Which rows stand behind each value of a family."""

from dataclasses import dataclass, field

import rows as R


@dataclass
class Behind:
    """Rows of the family itself, tests and data sheets apart, with their sources; and how many of all other families."""

    tests: list = field(default_factory=list)
    sheets: list = field(default_factory=list)
    like: int = 0

    def add(self, own, rid, doi, sheet):
        if own:
            (self.sheets if sheet else self.tests).append((rid, doi))
        else:
            self.like += 1

    def counts(self):
        return len(self.tests), len({doi for _, doi in self.tests}), len(self.sheets), self.like

    def cited(self):
        """Where the tests are printed: those with a DOI first."""
        found = sorted({doi for _, doi in self.tests}, key=lambda d: (not d.startswith("10."), d))
        return ["doi:" + d if d.startswith("10.") else d.removeprefix("cite:") for d in found]

    def told(self):
        rows, sources, _, like = self.counts()
        kept = {"rows": sorted({rid for rid, _ in self.tests}), "sources": sources, "sheets": sorted({rid for rid, _ in self.sheets}),
                "like": like}
        assert len(kept["rows"]) == rows
        return kept


def is_sheet(doi, flag=False):
    """Whether a row is no independent test of prints: as in folds.py."""
    return flag or doi.startswith("cite:data sheet")


def behind(evidence, polymer, fibre):
    """For each property that a card takes from the posterior, what stands behind it; the same counts as in fit.py."""
    found = {}

    def add(name, rid, doi, family, sheet=False):
        found.setdefault(name, Behind()).add(family == (polymer, fibre), rid, doi, is_sheet(doi, sheet))

    for name in ["fatigue_ratio", "fatigue_layer_ratio", "fatigue_exponent", "fatigue_layer_exponent", "walker_exponent"]:
        found[name] = Behind()
    for name in R.STATIC:
        found[name] = Behind()
    for o in evidence.static:
        dims = {o.dim, o.minus} - {-1}
        for dim in dims:
            add(R.STATIC[dim], o.id, o.doi, (o.polymer, o.fibre), o.sheet)
    for o in evidence.cycles:
        family, stress = (o.polymer, o.fibre), o.kind in ("stress", "run-out")
        if stress:
            add("fatigue_layer_ratio" if o.layer else "fatigue_ratio", o.id, o.doi, family)
        if o.kind == "slope":
            add("fatigue_exponent", o.id, o.doi, family)
        if o.kind == "slope" and o.layer:
            add("fatigue_layer_exponent", o.id, o.doi, family)
        if o.kind == "walker" or (o.kind == "stress" and o.ratio != -1.0):
            add("walker_exponent", o.id, o.doi, family)
    for part, before in (("warm", "warm_{}_power"), ("wet", "wet_{}_loss")):
        for o in getattr(evidence, part):
            add(before.format("stiffness" if o.stiffness else "strength"), o.id, o.doi, (o.polymer, o.fibre), o.sheet)
    for o in evidence.held:
        add("rupture_energy", o.id, o.doi, (o.polymer, o.fibre))
    for name, part in (("rupture_energy", evidence.rates), ("creep_share_1h", evidence.crept)):
        for rid, doi, p, f, *_ in part:
            add(name, rid, doi, (p, f))
    return found
