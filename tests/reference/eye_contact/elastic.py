"""Plane-stress response of a meshed part to radial forces on its bore, by scikit-fem.

Modulus, bore radius and thickness are 1. Everything a pin can do to the bore is linear in the
radial nodal forces, so each part is factored once and reduced to small dense matrices.
"""

from dataclasses import dataclass

import numpy as np
import scipy.sparse as sp
from scipy.sparse.linalg import splu
from skfem import Basis, BilinearForm, ElementQuad2, ElementVector
from skfem.helpers import ddot, identity, sym_grad, trace

from mesh import PolarMesh

POISSON = 0.35


@dataclass(frozen=True)
class Rays:
    """Stress probes on mesh rays: place, and direction of the stress (NaN for hoop)."""

    angle: np.ndarray
    radius: np.ndarray
    along: np.ndarray

    @staticmethod
    def hoop(angle: np.ndarray, radius: float | np.ndarray) -> "Rays":
        """Hoop stress at a radius."""
        return Rays(angle, np.broadcast_to(radius, angle.shape), np.full(angle.shape, np.nan))

    def then(self, other: "Rays") -> "Rays":
        """These probes followed by others."""
        return Rays(*(np.concatenate(pair) for pair in (
            (self.angle, other.angle), (self.radius, other.radius), (self.along, other.along))))


@dataclass(frozen=True)
class BoreResponse:
    """Small dense matrices; a column is a unit outward radial force on one bore node."""

    # Angles of the bore nodes and the arc length each stands for (Simpson weights).
    node_angle: np.ndarray
    node_arc: np.ndarray
    # Outward radial movement of the bore nodes.
    movement: np.ndarray
    # Hoop stress at the bore, one mean value an element edge.
    bore_angle: np.ndarray
    bore_hoop: np.ndarray
    # Stress at the probes on rays.
    ray_stress: np.ndarray
    # Force in x carried by the held end.
    reaction: np.ndarray

    def resultant(self, force: np.ndarray) -> float:
        """Resultant in x of radial nodal forces, both halves."""
        return float(2.0 * np.cos(self.node_angle) @ force)


class Part:
    """Assembled stiffness of one mesh."""

    def __init__(self, polar: PolarMesh, poisson: float = POISSON):
        self.polar = polar
        self.poisson = poisson
        self.basis = Basis(polar.mesh, ElementVector(ElementQuad2()))

        @BilinearForm
        def stiffness(u, v, w):
            strain = sym_grad(u)
            stress = (strain + poisson / (1.0 - poisson) * trace(strain) * identity(strain)) / (1.0 + poisson)
            return ddot(stress, sym_grad(v))

        self.matrix = stiffness.assemble(self.basis).tocsc()
        x, y = self.basis.doflocs
        component = np.arange(x.size) % 2
        self._x, self._y, self._component = x, y, component
        self.axis_dofs = np.nonzero((np.abs(y) < 1e-9) & (component == 1))[0]

    def end_dofs(self, end: float) -> np.ndarray:
        """Movements in x of the nodes on the vertical line x = end."""
        return np.nonzero((np.abs(self._x - end) < 1e-8) & (self._component == 0))[0]

    def one_dof(self) -> np.ndarray:
        """One movement in x, enough to stop a self-balanced part from drifting."""
        candidates = np.nonzero((np.abs(self._y) < 1e-9) & (self._component == 0))[0]
        return candidates[:1]

    def bore_dofs(self) -> tuple[np.ndarray, np.ndarray]:
        """Angles of the bore nodes, and their (x, y) movement numbers."""
        on_bore = np.abs(np.hypot(self._x, self._y) - 1.0) < 1e-9
        along_x = np.nonzero(on_bore & (self._component == 0))[0]
        angle = np.arctan2(self._y[along_x], self._x[along_x])
        order = np.argsort(angle)
        along_x = along_x[order]
        return np.abs(angle[order]), np.stack([along_x, along_x + 1])

    def stress_rows(self, elements: np.ndarray, local: np.ndarray,
                    along: float | None = None) -> tuple[np.ndarray, sp.csr_matrix]:
        """Rows that turn nodal movements into normal stress at one local point per element.

        `along` is the angle of the stressed direction; by default the hoop direction.
        """
        mapping, nu = self.basis.mapping, self.poisson
        place = mapping.F(local[:, :, None], tind=elements)[:, :, 0]
        # The hoop direction is a quarter turn on from the ray.
        normal = np.arctan2(place[1], place[0]) if along is None else along - np.pi / 2
        cos, sin = np.cos(normal), np.sin(normal)
        rows, columns, values = [], [], []
        for i in range(self.basis.Nbfun):
            g = self.basis.elem.gbasis(mapping, local[:, :, None], i, elements)[0].grad[..., 0]
            xx, yy, xy = g[0, 0], g[1, 1], 0.5 * (g[0, 1] + g[1, 0])
            chosen = xx * sin**2 + yy * cos**2 - 2.0 * xy * sin * cos
            other = xx + yy - chosen
            rows.append(np.arange(elements.size))
            columns.append(self.basis.element_dofs[i, elements])
            values.append((chosen + nu * other) / (1.0 - nu**2))
        shape = (elements.size, self.basis.N)
        entries = (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns)))
        return np.arctan2(place[1], place[0]), sp.csr_matrix(entries, shape=shape)

    def bore_rows(self) -> tuple[np.ndarray, sp.csr_matrix]:
        """Hoop stress at the bore, as the mean of two Gauss points on each element edge.

        Strain along a quadratic edge is most exact at these points. Their mean also takes out
        the saw-tooth that a contact ending inside an element leaves in that one element.
        """
        edge = np.nonzero(self.polar.depth_low < 1e-12)[0]
        gauss = 0.5 + np.array([-0.5, 0.5]) / np.sqrt(3.0)
        elements = np.repeat(edge, 2)
        local = np.stack([np.zeros(elements.size), np.tile(gauss, edge.size)])
        angle, rows = self.stress_rows(elements, local)
        order = np.argsort(angle)
        pairs = sp.kron(sp.identity(edge.size), np.full((1, 2), 0.5)).tocsr()
        return pairs @ angle[order], pairs @ rows[order]

    def ray_rows(self, rays: Rays) -> sp.csr_matrix:
        """Stress at points on mesh rays, averaged over the elements that meet there."""
        result = []
        for angle, radius, along in zip(rays.angle, rays.radius, rays.along):
            reach = float(self.polar.outline.reach(np.array([angle]))[0])
            depth = (radius - 1.0) / (reach - 1.0)
            tiny = 1e-9
            low, high = self.polar.angle_low, self.polar.angle_high
            found = np.nonzero(
                (low < angle + tiny) & (high > angle - tiny)
                & (self.polar.depth_low < depth + tiny) & (self.polar.depth_high > depth - tiny)
            )[0]
            outward = (depth - self.polar.depth_low[found]) / (
                self.polar.depth_high[found] - self.polar.depth_low[found])
            across = (angle - low[found]) / (high[found] - low[found])
            local = np.clip(np.stack([outward, across]), 0.0, 1.0)
            _, rows = self.stress_rows(found, local, None if np.isnan(along) else along)
            result.append(sp.csr_matrix(rows.mean(axis=0)))
        return sp.vstack(result).tocsr()

    def stretched(self, left: float, right: float) -> tuple[np.ndarray, np.ndarray, float]:
        """Pull the ends x = left and x = right apart: bore angles, bore hoop, force of both halves."""
        held, moved = self.end_dofs(left), self.end_dofs(right)
        movement = np.zeros(self.basis.N)
        movement[moved] = 1.0
        fixed = np.unique(np.concatenate([held, moved, self.axis_dofs]))
        free = np.setdiff1d(np.arange(self.basis.N), fixed)
        load = -(self.matrix @ movement)[free]
        movement[free] = self._factor(free).solve(load)
        angle, rows = self.bore_rows()
        return angle, rows @ movement, float(2.0 * (self.matrix @ movement)[moved].sum())

    def _factor(self, free: np.ndarray):
        return splu(self.matrix[free][:, free], permc_spec="MMD_AT_PLUS_A",
                    diag_pivot_thresh=0.0, options={"SymmetricMode": True})

    def response(self, held: np.ndarray, rays: Rays) -> BoreResponse:
        """Factor the stiffness with the given movements held, and reduce it to the bore.

        Stress is also kept at the probes on the given rays.
        """
        fixed = np.unique(np.concatenate([held, self.axis_dofs]))
        free = np.setdiff1d(np.arange(self.basis.N), fixed)
        factor = self._factor(free)
        angle, dofs = self.bore_dofs()
        count = angle.size
        columns = np.arange(count)
        radial = sp.csc_matrix(
            (np.concatenate([np.cos(angle), np.sin(angle)]),
             (np.concatenate([dofs[0], dofs[1]]), np.concatenate([columns, columns]))),
            shape=(self.basis.N, count))
        bore_angle, bore_rows = self.bore_rows()
        ray_rows = self.ray_rows(rays)
        reaction_row = sp.csr_matrix(self.matrix[held].sum(axis=0))
        wanted = sp.vstack([radial.T, bore_rows, ray_rows, reaction_row]).tocsr()[:, free]
        loads = radial.tocsr()[free].tocsc()
        reduced = np.empty((wanted.shape[0], count))
        for start in range(0, count, 64):
            part = slice(start, min(start + 64, count))
            reduced[:, part] = wanted @ factor.solve(loads[:, part].toarray())
        ends = np.cumsum([count, bore_angle.size, rays.angle.size])
        step = np.pi / (count - 1)
        arc = np.where(columns % 2 == 1, 4.0, 2.0) * step / 3.0
        arc[[0, -1]] = step / 3.0
        # Forces on held movements never occur on the bore, so the reaction is -K u alone.
        return BoreResponse(angle, arc, reduced[:ends[0]], bore_angle, reduced[ends[0]:ends[1]],
                            reduced[ends[1]:ends[2]], 2.0 * reduced[ends[2]])
