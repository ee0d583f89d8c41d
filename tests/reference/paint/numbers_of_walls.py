"""Writes what `layload walls --json --facets` measured as the numbers that check_paint.py wants.

usage: python numbers_of_walls.py MESH.stl WALLS.json LIMIT_MM NUMBERS.json

Corners are read from the binary STL and joined in the order of first use, as the program numbers them.
"""

import json
import sys

import numpy as np


def main(mesh, walls, limit, numbers):
    data = open(mesh, "rb").read()
    count = int.from_bytes(data[80:84], "little")
    record = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("rest", "<u2")])
    corners = np.frombuffer(data, record, count, 84)["corners"].reshape(-1, 3)
    known, points, facets = {}, [], []
    for corner in map(tuple, corners.tolist()):
        if corner not in known:
            known[corner] = len(points)
            points.append(corner)
        facets.append(known[corner])
    report = json.load(open(walls))
    assert report["facets_as_in_file"], "facets are not those of the file"
    quantity = {"title": "wall thickness", "unit": "mm", "low": 0, "high": 4 * limit, "limit": limit, "bad_end": "low"}
    facets = np.reshape(facets, (-1, 3)).tolist()
    with open(numbers, "w") as out:
        json.dump({"points_mm": points, "facets": facets, "values": report["thickness_mm"], "quantity": quantity}, out)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], float(sys.argv[3]), sys.argv[4])
