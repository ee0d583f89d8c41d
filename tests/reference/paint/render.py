"""Draws a painted PLY as a person sees it, with and without colour vision deficiency.

usage: python render.py PAINTED.ply PICTURE.png
"""

import sys

import matplotlib
import numpy as np
import plyfile
from mpl_toolkits.mplot3d.art3d import Poly3DCollection

import vision

matplotlib.use("Agg")
import matplotlib.pyplot as plt  # noqa: E402


def main():
    ply_path, picture_path = sys.argv[1:]
    data = plyfile.PlyData.read(ply_path)
    points = np.stack([data["vertex"][axis] for axis in "xyz"], axis=-1).astype(float)
    corners = points[np.vstack(data["face"]["vertex_indices"])]
    colors = np.stack([data["face"][c] for c in ("red", "green", "blue")], axis=-1) / 255
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-30)
    light = np.array([0.3, -0.5, 0.81])
    shade = (0.72 + 0.28 * np.clip(normals @ light, 0, 1))[:, None]
    middle, reach = (points.max(0) + points.min(0)) / 2, np.ptp(points, axis=0).max() / 2
    figure = plt.figure(figsize=(14, 9))
    for index, deficiency in enumerate(vision.DEFICIENCIES):
        axes = figure.add_subplot(2, 2, index + 1, projection="3d")
        shown = np.clip(vision.seen(colors, deficiency) * shade, 0, 1)
        axes.add_collection3d(Poly3DCollection(corners, facecolors=shown, edgecolors=shown, linewidths=0.1))
        for limits, center in zip((axes.set_xlim, axes.set_ylim, axes.set_zlim), middle):
            limits(center - reach, center + reach)
        axes.set_box_aspect((1, 1, 1), zoom=1.7)
        axes.view_init(40, -60)
        axes.set_axis_off()
        axes.set_title(deficiency)
    figure.tight_layout()
    figure.savefig(picture_path, dpi=75)


if __name__ == "__main__":
    main()
