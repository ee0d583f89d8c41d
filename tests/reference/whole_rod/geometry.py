"""Sections and mass of a rod from its mesh, with trimesh and shapely."""

import numpy as np
import shapely
import trimesh
from trimesh import transformations


def placed(path, truth):
    """The mesh in metres: small-end centre at the origin, x toward the big end, z along the pins.

    Where the bores are comes from whoever made the mesh, not from a recognition.
    """
    mesh = trimesh.load_mesh(path)
    x = np.array(truth["rod_direction"])
    z = np.array(truth["pin_axis"])
    turn = np.eye(4)
    turn[:3, :3] = np.stack([x, np.cross(z, x), z])
    mesh.apply_transform(turn @ transformations.translation_matrix(-np.array(truth["small_center_mm"])))
    mesh.apply_scale(1e-3 * truth["file_unit_mm"])
    return mesh


class Section:
    """Area, centroid and second moments of a cut square to x, summed over triangles of its region."""

    def __init__(self, mesh, x):
        # The plane through a vertex is ambiguous; a hair beside it is not.
        path = mesh.section(plane_origin=[x + 1e-9, 0, 0], plane_normal=[1, 0, 0])
        rings = [np.asarray(ring)[:, 1:] for ring in path.discrete]
        region = shapely.Polygon()
        for ring in rings:
            # A ring inside another is a hole: even-odd.
            region = region.symmetric_difference(shapely.Polygon(ring))
        parts = [p for p in getattr(region, "geoms", [region]) if p.area > 0]
        triangles = [np.asarray(t.exterior.coords)[:3] for p in parts
                     for t in shapely.constrained_delaunay_triangles(p).geoms]
        corners = np.array(triangles)
        edges = corners[:, 1:] - corners[:, :1]
        areas = 0.5 * np.abs(edges[:, 0, 0] * edges[:, 1, 1] - edges[:, 0, 1] * edges[:, 1, 0])
        self.x = x
        self.area = areas.sum()
        self.center = (areas[:, None] * corners.mean(axis=1)).sum(axis=0) / self.area
        # Midpoints of the edges integrate a quadratic over a triangle exactly.
        middles = 0.5 * (corners + np.roll(corners, 1, axis=1)) - self.center
        moment = lambda a, b: (areas[:, None] / 3.0 * middles[:, :, a] * middles[:, :, b]).sum()
        self.yy, self.zz, self.yz = moment(0, 0), moment(1, 1), moment(0, 1)
        self.outline = np.concatenate(rings)
        self.region = region

    def shear_factor(self):
        """Greatest over mean shear stress: area times first moment over second moment and breadth at the centroid."""
        y, far = self.center[0], 1.0
        beyond = self.region.intersection(shapely.box(y, -far, far, far))
        breadth = self.region.intersection(shapely.LineString([(y, -far), (y, far)])).length
        return self.area * beyond.area * (beyond.centroid.x - y) / (self.yy * breadth)

    def stress(self, axial, bending, side):
        """Stress at every corner (columns) for histories of force (N) and moments about z and y (N m)."""
        y, z = (self.outline - self.center).T
        # Linear field a + b y + c z whose resultants are the axial force and both moments.
        b, c = np.linalg.solve([[self.yy, self.yz], [self.yz, self.zz]], [-np.asarray(bending), np.asarray(side)])
        return (np.asarray(axial) / self.area)[:, None] + np.outer(b, y) + np.outer(c, z)


def eye(mesh, x, radius, end):
    """Thinnest material beside or beyond a bore, and mean thickness along the pin, m."""
    cut = Section(mesh, x)
    y = cut.outline[:, 0]
    left, right = -y.min() - radius, y.max() - radius
    return min(left, right, end - radius), cut.area / (left + right)
