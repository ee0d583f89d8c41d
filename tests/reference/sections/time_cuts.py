"""Times 200 cuts of one mesh by trimesh and shapely, the general peer of the bench.

    python tests/reference/sections/time_cuts.py MESH
"""

import sys
import time

import numpy as np
import trimesh

from cuts import area_of_segments, moments

CUTS = 200


def main() -> None:
    if len(sys.argv) != 2:
        sys.exit("usage: time_cuts.py MESH")
    start = time.perf_counter()
    mesh = trimesh.load_mesh(sys.argv[1])
    loaded = time.perf_counter()
    print(f"{len(mesh.faces)} facets; load and weld {loaded - start:.3f} s")
    center = mesh.center_mass
    # The longest axis of the part: the principal axis of least inertia.
    axis = mesh.principal_inertia_vectors[np.argmin(mesh.principal_inertia_components)]
    reach = (mesh.vertices - center) @ axis
    heights = np.linspace(reach.min(), reach.max(), CUTS + 2)[1:-1]
    start = time.perf_counter()
    lines, _, _ = trimesh.intersections.mesh_multiplane(mesh, center, axis, heights)
    cut = time.perf_counter()
    volume = 0.0
    for segments in lines:
        volume += moments(area_of_segments(np.asarray(segments)))["area_mm2"]
    done = time.perf_counter()
    volume *= heights[1] - heights[0]
    print(f"{CUTS} cuts: segments {cut - start:.3f} s, areas and moments {done - cut:.3f} s")
    print(f"total {done - start:.3f} s")
    print(f"volume by cuts {volume:.1f} mm3, by tetrahedra {mesh.volume:.1f} mm3")


if __name__ == "__main__":
    main()
