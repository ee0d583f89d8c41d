"""Variants of pistons."""

from case import ROOT, Case, Cases, Expected

JOB = "bench_piston.toml"


def cases() -> Cases:
    yield Case("piston_flat", lambda: ROOT / "samples" / "flat_crown_piston.stl", Expected("answered"), JOB)
