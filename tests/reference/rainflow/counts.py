"""Rainflow counts of pseudo-random histories by the PyPI package `rainflow` (MIT), version 3.2.0.

Run `python counts.py > counts.json` after `pip install rainflow==3.2.0`. All samples are multiples of 1/8, so every
range and mean is exact in binary and the comparison needs no tolerance.
"""

import json

import rainflow

LINEAR_CONGRUENTIAL = (6364136223846793005, 1442695040888963407, 1 << 64)


def samples(seed, count, levels, step):
    """`count` multiples of `step`, from a linear congruential generator (Knuth's multiplier)."""
    factor, increment, modulus = LINEAR_CONGRUENTIAL
    state, values = seed, []
    for _ in range(count):
        state = (state * factor + increment) % modulus
        values.append(((state >> 33) % levels - levels // 2) * step)
    return values


def walk(seed, count):
    """A wandering history: sums of samples, with plateaus where a step is zero."""
    total, values = 0.0, []
    for step in samples(seed, count, 9, 0.125):
        total += step
        values.append(total)
    return values


HISTORIES = {
    "coarse levels, many ties": samples(1, 200, 7, 1.0),
    "fine levels": samples(2, 300, 100_001, 0.125),
    "walk": walk(3, 400),
    "repeated sample at the ends": [1.0, 1.0, 4.0, -2.0, 3.0, 3.0, -5.0, 0.0, 0.0],
}

print(
    json.dumps(
        [
            {
                "name": name,
                "history": history,
                "cycles": sorted([span, mean, count] for span, mean, count, _, _ in rainflow.extract_cycles(history)),
            }
            for name, history in HISTORIES.items()
        ],
        separators=(",", ":"),
    )
)
