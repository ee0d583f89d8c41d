"""STL in and out, with an order of facets that depends on the geometry alone."""

from pathlib import Path

import numpy as np

FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def canonical(corners: np.ndarray) -> np.ndarray:
    """Facets as float32 corners: collapsed ones dropped, least corner first, sorted."""
    corners = np.asarray(corners, dtype=np.float64).astype(np.float32) + np.float32(0.0)
    same = lambda i, j: (corners[:, i] == corners[:, j]).all(axis=1)
    corners = corners[~(same(0, 1) | same(1, 2) | same(2, 0))]
    _, rank = np.unique(corners.reshape(-1, 3), axis=0, return_inverse=True)
    rank = rank.reshape(-1, 3)
    first = rank.argmin(axis=1)
    turn = (first[:, None] + np.arange(3)) % 3
    rows = np.arange(len(corners))[:, None]
    corners, rank = corners[rows, turn], rank[rows, turn]
    return corners[np.lexsort((rank[:, 2], rank[:, 1], rank[:, 0]))]


def normals_of(corners: np.ndarray) -> np.ndarray:
    """Unit normals by the right-hand rule; zero where a facet has no area."""
    wide = corners.astype(np.float64)
    cross = np.cross(wide[:, 1] - wide[:, 0], wide[:, 2] - wide[:, 0])
    length = np.linalg.norm(cross, axis=1, keepdims=True)
    return (cross / np.where(length > 0.0, length, 1.0)).astype(np.float32)


def write_binary(path: Path, corners: np.ndarray, header: str = "layload mesh, millimetres") -> None:
    """Binary STL. The facets are written in the order given."""
    records = np.zeros(len(corners), dtype=FACET)
    records["corners"] = corners
    records["normal"] = normals_of(corners) + np.float32(0.0)
    start = header.encode("ascii").ljust(80, b" ")
    path.write_bytes(start[:80] + np.uint32(len(corners)).tobytes() + records.tobytes())


def open_edges(corners: np.ndarray) -> int:
    """Directed edges without their opposite after joining equal corners; nought means closed."""
    _, rank = np.unique(corners.reshape(-1, 3), axis=0, return_inverse=True)
    rank = rank.reshape(-1, 3).astype(np.int64)
    count = rank.max() + 1
    forward = np.concatenate([rank[:, i] * count + rank[:, (i + 1) % 3] for i in range(3)])
    backward = np.concatenate([rank[:, (i + 1) % 3] * count + rank[:, i] for i in range(3)])
    uses, times = np.unique(forward, return_counts=True)
    opposite, opposite_times = np.unique(backward, return_counts=True)
    if not np.array_equal(uses, opposite):
        return len(np.setxor1d(uses, opposite))
    return int(np.abs(times - opposite_times).sum())


def write_ascii_odd(path: Path, corners: np.ndarray) -> None:
    """Legal but untidy ASCII STL: mixed case, tabs, blank lines, CRLF, several ways to write a number."""
    lines = ["SOLID   bench  rod ", ""]
    for number, (facet, normal) in enumerate(zip(corners, normals_of(corners))):
        gap, tab = " " * (1 + number % 4), "\t" * (1 + number % 2)
        upper = number % 3 == 0
        say = (lambda word: word.upper()) if upper else (lambda word: word)
        lines.append(f"{tab}{say('facet')}{gap}{say('normal')} {_odd_numbers(normal, number, gap)}")
        lines.append(f"{gap}{tab}{say('outer')}\t{say('loop')}{gap}")
        for row, corner in enumerate(facet):
            lines.append(f"{tab}{gap}{say('vertex')}{gap}{_odd_numbers(corner, number + row, tab)}")
        lines.append(f"{tab}{say('endloop')}")
        if number % 5 == 0:
            lines += ["", "   \t"]
        lines.append(f"{gap}{say('endfacet')}{gap}")
    lines += ["EndSolid", "", ""]
    path.write_bytes("\r\n".join(lines).encode("ascii"))


def _odd_numbers(values, turn: int, gap: str) -> str:
    """Three float32 values, exact when read back, in a form that changes with `turn`."""
    forms = ("{:.8e}", "{:.8E}", "{:+.8e}", "{:.9g}")
    return gap.join(forms[(turn + i) % 4].format(float(v)) for i, v in enumerate(values))
