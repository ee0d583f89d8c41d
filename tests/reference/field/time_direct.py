"""Times a general sparse solver on a block of trilinear cells, clamped at one end and pulled down at the other.

The peer of the stress field's solver: `cargo run --release -p layload-core --features rooms --example field_convergence block` solves the
same block. Needs scikit-fem and scipy. Usage: time_direct.py [cells along x, y, z: 40 20 12]
"""

import sys
import time

import numpy as np
import scipy.sparse.linalg as sparse
import skfem
from skfem.models.elasticity import lame_parameters, linear_elasticity

counts = [int(word) for word in sys.argv[1:4]] or [40, 20, 12]
size = [0.04, 0.02, 0.012]
mesh = skfem.MeshHex.init_tensor(*(np.linspace(0, s, n + 1) for s, n in zip(size, counts)))
began = time.perf_counter()
basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementHex1()))
matrix = linear_elasticity(*lame_parameters(2e9, 0.35)).assemble(basis)
end = basis.boundary(mesh.facets_satisfying(lambda x: np.isclose(x[0], size[0])))
traction = 20.0 / (size[1] * size[2])
load = skfem.LinearForm(lambda v, w: traction * v[1]).assemble(end)
held = basis.get_dofs(mesh.facets_satisfying(lambda x: np.isclose(x[0], 0))).all()
inner, right, _, free = skfem.condense(matrix, load, D=held)
assembled = time.perf_counter() - began
print(f"{mesh.nelements} cells, {basis.N} unknowns: assembled in {assembled:.2f} s")
began = time.perf_counter()
answer = np.zeros(basis.N)
answer[free] = sparse.spsolve(inner.tocsc(), right)
print(f"direct: {time.perf_counter() - began:.2f} s, mean drop of the end {load @ answer / 20.0 * 1e3:.5f} mm")
began = time.perf_counter()
steps = []
diagonal = sparse.LinearOperator(inner.shape, lambda x: x / inner.diagonal())
answer[free], state = sparse.cg(inner, right, rtol=1e-6, M=diagonal, callback=lambda _: steps.append(1))
print(f"conjugate gradients over the diagonal: {time.perf_counter() - began:.2f} s, {len(steps)} iterations, state {state}")
