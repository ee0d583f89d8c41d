"""Draws how the stress field's error falls with the size of cells: convergence.svg and convergence.json beside this script.

Reads what `cargo run --release -p layload-core --features rooms --example field_convergence ring beam hole` prints:

    target/release/examples/field_convergence ring beam hole | python tests/reference/field/convergence.py

Closed forms: Lame's thick ring; M c / I of a cantilever; Heywood's plate with a hole (C14, C15). Needs nothing but Python.
"""

import json
import math
import re
import sys
from pathlib import Path

HERE = Path(__file__).parent
# Solid, what counts as cells across, and how its line is drawn.
STYLES = [
    ("ring, inside, displacement", "wall", "#1b6ca8", ""),
    ("ring, inside, stress", "wall", "#1b6ca8", "5 3"),
    ("ring, outside, stress", "wall", "#4fa3d8", "5 3"),
    ("cantilever along the grid, stress", "depth", "#3a7d34", ""),
    ("cantilever at 11 degrees, stress", "depth", "#3a7d34", "5 3"),
    ("cantilever at 45 degrees, stress", "depth", "#86b77f", "5 3"),
    ("hole along the grid, peak", "hole", "#b3541e", ""),
    ("hole at 17 degrees, peak", "hole", "#b3541e", "5 3"),
]
# Errors below this, per cent, are those of the facets, of single precision and of the closed forms themselves.
FLOOR = 0.05


def read(lines) -> dict:
    """Cells across and error, per cent, by solid."""
    found = {name: [] for name, *_ in STYLES}
    displacement = None
    for line in lines:
        if match := re.match(r"u/lame ([\d.]+)", line):
            displacement = (float(match[1]) - 1) * 100
        elif match := re.match(r"cells/wall +(\d+) .*inside mean ([-+.\d]+) .*outside mean ([-+.\d]+) ", line):
            cells = int(match[1])
            found["ring, inside, displacement"].append((cells, displacement))
            found["ring, inside, stress"].append((cells, float(match[2])))
            found["ring, outside, stress"].append((cells, float(match[3])))
        elif match := re.match(r"angle ([\d.]+) cells/h +(\d+) .*stress ([-+.\d]+) to ([-+.\d]+) ", line):
            name = {"0.00": "along the grid", "0.20": "at 11 degrees"}.get(match[1], "at 45 degrees")
            worst = max(float(match[3]), float(match[4]), key=abs)
            found[f"cantilever {name}, stress"].append((int(match[2]), worst))
        elif match := re.match(r"angle ([\d.]+) cells/d +(\d+) .*: Kt [\d.]+ \(([-+.\d]+) %\)", line):
            name = "along the grid" if match[1] == "0.0" else "at 17 degrees"
            found[f"hole {name}, peak"].append((int(match[2]), float(match[3])))
    return found


def order(points):
    """Slope of the logarithm of the error over that of the size of cells, by least squares: of the errors above the floor
    from the greatest on until they change sign, if those are three at least."""
    telling = [(cells, error) for cells, error in points if abs(error) > FLOOR]
    telling = telling[max(range(len(telling)), key=lambda k: abs(telling[k][1]), default=0) :]
    same = next((k for k, (_, error) in enumerate(telling) if error * telling[0][1] < 0), len(telling))
    logs = [(math.log(cells), math.log(abs(error))) for cells, error in telling[:same]]
    if len(logs) < 3:
        return None
    x, y = (sum(column) / len(logs) for column in zip(*logs))
    return -sum((a - x) * (b - y) for a, b in logs) / sum((a - x) ** 2 for a, _ in logs)


def svg(found) -> str:
    left, top, width, height = 60, 20, 470, 330
    low, high, least, most = 2, 32, FLOOR, 20
    place = lambda cells, error: (
        left + width * math.log(cells / low) / math.log(high / low),
        top + height * math.log(most / min(max(abs(error), least), most)) / math.log(most / least),
    )
    out = [
        '<svg xmlns="http://www.w3.org/2000/svg" width="830" height="400" viewBox="0 0 830 400" '
        'font-family="sans-serif" font-size="12" fill="#222">',
        "<title>Error of the stress field against cells across a feature</title>",
        '<rect width="830" height="400" fill="#fff"/>',
    ]
    for cells in (2, 3, 4, 6, 8, 12, 16, 24, 32):
        x, _ = place(cells, 1)
        out.append(f'<path d="M{x:.1f} {top}V{top + height}" stroke="#ddd"/>')
        out.append(f'<text x="{x:.1f}" y="{top + height + 16}" text-anchor="middle">{cells}</text>')
    for error in (0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20):
        _, y = place(2, error)
        out.append(f'<path d="M{left} {y:.1f}H{left + width}" stroke="#ddd"/>')
        out.append(f'<text x="{left - 6}" y="{y + 4:.1f}" text-anchor="end">{error}</text>')
    middle = left + width / 2
    out.append(f'<text x="{middle}" y="{top + height + 36}" text-anchor="middle">cells across wall, depth or hole</text>')
    out.append(f'<text transform="translate(16 {top + height / 2}) rotate(-90)" text-anchor="middle">error, %</text>')
    for slope in (1, 2):
        (x, y), (u, v) = place(2, 10), place(2 * (10 / FLOOR) ** (1 / slope), FLOOR)
        if u > left + width:
            u, v = place(32, 10 / 16**slope)
        out.append(f'<path d="M{x:.1f} {y:.1f}L{u:.1f} {v:.1f}" stroke="#999" stroke-dasharray="1 3" fill="none"/>')
    for number, (name, _, colour, dash) in enumerate(STYLES):
        points = [place(*point) for point in found[name]]
        path = "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
        dashes = f' stroke-dasharray="{dash}"' if dash else ""
        out.append(f'<path d="{path}" stroke="{colour}" stroke-width="1.6" fill="none"{dashes}/>')
        out += [f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.5" fill="{colour}"/>' for x, y in points]
        y = top + 10 + 18 * number
        out.append(f'<path d="M{left + width + 20} {y}h26" stroke="{colour}" stroke-width="1.6"{dashes}/>')
        out.append(f'<text x="{left + width + 52}" y="{y + 4}">{name}</text>')
    out.append(f'<text x="{left + width + 20}" y="{top + 14 + 18 * len(STYLES)}" fill="#777">dotted: orders one and two</text>')
    return "\n".join([*out, "</svg>"]) + "\n"


def main() -> None:
    found = read(sys.stdin)
    missing = [name for name, points in found.items() if not points]
    if missing:
        sys.exit(f"nothing of: {', '.join(missing)}")
    table = {
        name: {
            "cells_across": across,
            "error_percent": dict(found[name]),
            "order": None if (slope := order(found[name])) is None else round(slope, 1),
        }
        for name, across, *_ in STYLES
    }
    (HERE / "convergence.json").write_text(json.dumps(table, indent=1) + "\n")
    (HERE / "convergence.svg").write_text(svg(found))
    for name, row in table.items():
        errors = ", ".join(f"{cells}: {error:+.2f} %" for cells, error in row["error_percent"].items())
        print(f"{name}: {errors}; order {row['order']}")


if __name__ == "__main__":
    main()
