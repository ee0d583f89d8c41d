"""Holds the licences of all crates (`cargo metadata` on standard input) against the list of a deny.toml."""

import json
import re
import sys
import tomllib

allowed = set(tomllib.load(open(sys.argv[1], "rb"))["licenses"]["allow"])


def fits(expression: str) -> bool:
    """Whether an SPDX expression can be met from the list: AND binds tighter than OR, a slash is an old OR."""
    tokens = re.findall(r"\(|\)|[^\s()/]+(?: WITH [^\s()/]+)?|/", expression.replace("/", " / "))
    place = 0

    def either():
        nonlocal place
        met = both()
        while place < len(tokens) and tokens[place] in ("OR", "/"):
            place += 1
            met = both() or met
        return met

    def both():
        nonlocal place
        met = one()
        while place < len(tokens) and tokens[place] == "AND":
            place += 1
            met = one() and met
        return met

    def one():
        nonlocal place
        token = tokens[place]
        place += 1
        if token == "(":
            met = either()
            place += 1
            return met
        return token in allowed

    return bool(tokens) and either()


packages = json.load(sys.stdin)["packages"]
bad = [f"{p['name']} {p['version']}: {p['license']}" for p in packages if not fits(p["license"] or "")]
print("\n".join(bad) or f"crates: the licences of all {len(packages)} are on the list")
sys.exit(bool(bad))
