"""Which sources are left out together.

Every source that tests prints is left out once. Sources that share a family are never left out in the same refit, so that each
family loses one source at a time: the same as leaving single sources out, in a quarter of the refits. Data sheets are never
scored; they stay among the rows.
"""


def families_of(a):
    found = {}
    for part in ("static", "wet", "warm", "cycles", "held", "rates", "crept", "weld"):
        for doi, family, i in zip(a[f"{part}_doi"], a[f"{part}_family"], range(len(a[f"{part}_doi"]))):
            if not scored(a, part, i):
                continue
            found.setdefault(doi, set()).add(int(family))
    return found


def scored(a, part, i):
    """Whether a row is an independent test of prints."""
    return not (f"{part}_sheet" in a and a[f"{part}_sheet"][i]) and not a[f"{part}_doi"][i].startswith("cite:data sheet")


def folds(a):
    families = families_of(a)
    found = []
    for doi in sorted(families, key=lambda d: (-len(families[d]), d)):
        for fold in found:
            if not any(families[doi] & families[other] for other in fold) and len(families[doi]) < 6:
                if all(len(families[other]) < 6 for other in fold):
                    fold.append(doi)
                    break
        else:
            found.append([doi])
    return found
