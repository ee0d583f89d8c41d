"""Stress by uneven warmth in crowns by a general finite-element library, axisymmetric and linear.

A flat disc over a cylindrical wall, free in space, warmed evenly from nothing at the underside to one kelvin at its upper
face: of one stiffness all through, and with a stiffness that falls as the warmth rises. Writes the numbers that tests
compare with, in units of Young's modulus times expansion.

    python tests/reference/crown/crown_warmth.py     (pip install scikit-fem numpy)
"""

import json
from pathlib import Path

import numpy as np
from crown_stress import inner, strains
from skfem import Basis, BilinearForm, ElementQuad2, ElementVector, LinearForm, MeshQuad, condense, solve

POISSON = 0.35
INNER, OUTER, FOOT = 12.0, 16.7, -20.0
LAM, MU = POISSON / ((1 + POISSON) * (1 - 2 * POISSON)), 0.5 / (1 + POISSON)
# Radius at which stress is told, mm: the middle, and halfway out.
RADII = [0.0, 6.0]


def warmth_stress(thickness: float, softest: float, cells: int) -> dict:
    """Stresses along the radius on the underside and on top; `softest` is the stiffness of the upper face over the rest."""
    radii = np.concatenate([np.linspace(0, INNER, 4 * cells + 1), np.linspace(INNER, OUTER, cells + 1)[1:]])
    heights = np.concatenate([np.linspace(FOOT, 0, 4 * cells + 1), np.linspace(0, thickness, 2 * cells + 1)[1:]])
    mesh = MeshQuad.init_tensor(radii, heights)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    mesh = mesh.remove_elements(np.nonzero((middle[0] < INNER) & (middle[1] < 0))[0])
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=5)
    warm = lambda z: np.clip(z / thickness, 0, 1)
    stiff = lambda z: 1 + (softest - 1) * warm(z)

    @BilinearForm
    def stiffness(u, v, w):
        return stiff(w.x[1]) * inner(strains(u, w), strains(v, w), LAM, MU) * w.x[0]

    @LinearForm
    def heat(v, w):
        b = strains(v, w)
        return stiff(w.x[1]) * (3 * LAM + 2 * MU) * warm(w.x[1]) * (b[0] + b[1] + b[2]) * w.x[0]

    # One height of the axis is held, which resists nothing.
    axis = basis.get_dofs(lambda x: np.isclose(x[0], 0.0)).all("u^1")
    foot = basis.get_dofs(lambda x: np.isclose(x[0], INNER) & np.isclose(x[1], FOOT)).all("u^2")[:1]
    u = solve(*condense(stiffness.assemble(basis), heat.assemble(basis), D=np.concatenate((axis, foot))))

    def at(r, z):
        h = 1e-4
        r = max(r, 0.05)
        pick = lambda x, y: np.asarray(basis.probes(np.array([[x], [y]])) @ u).reshape(-1)
        here = pick(r, z)
        err = (pick(r + h, z)[0] - pick(r - h, z)[0]) / (2 * h)
        ezz = (pick(r, z + h)[1] - pick(r, z - h)[1]) / (2 * h)
        ett = here[0] / r
        free = warm(z)
        return float(stiff(z) * (LAM * (err + ett + ezz - 3 * free) + 2 * MU * (err - free)))

    return {
        "underside": [at(r, 2e-3) for r in RADII],
        "top": [at(r, thickness - 2e-3) for r in RADII],
    }


def main() -> None:
    found = {"poisson_ratio": POISSON, "inner_mm": INNER, "outer_mm": OUTER, "foot_mm": FOOT, "radii_mm": RADII, "crowns": []}
    for thickness in (3.0, 5.0):
        for softest in (1.0, 0.3):
            coarse, fine = warmth_stress(thickness, softest, 6), warmth_stress(thickness, softest, 10)
            found["crowns"].append({"thickness_mm": thickness, "softest": softest, **fine})
            print(thickness, softest, coarse, fine)
    path = Path(__file__).with_name("crown_warmth.json")
    path.write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
