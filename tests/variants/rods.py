"""Variants of rods."""

from case import ROOT, Case, Cases, Expected, read_stl


def sample(name: str):
    """Facets of a sample mesh, mm."""
    return read_stl(ROOT / "samples" / f"{name}.stl")


def cases() -> Cases:
    yield Case("rod_plain", lambda: sample("plain_rod"), Expected("holds"))
    yield Case("rod_plain_again", lambda: sample("plain_rod"), Expected("holds", same_as="rod_plain"))
