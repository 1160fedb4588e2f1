"""Straight and tapered cantilever plates by three-dimensional finite elements (scikit-fem, triquadratic bricks).

    beam.py OUT.json

x runs along the plate from its fixed end, y across its width, z through its thickness. Every case has its load on the free
end's face: forces evenly over it, a twist as shear that grows with the distance from the middle.
"""

import json
import sys

import numpy as np
from skfem import Basis, ElementHex2, ElementVector, FacetBasis, LinearForm, MeshHex, asm, condense, solve
from skfem.models.elasticity import lame_parameters, linear_elasticity

YOUNG, SHEAR = 205_000.0, 80_000.0
POISSON = YOUNG / (2.0 * SHEAR) - 1.0

PLATES = [
    {"name": "straight", "length": 60.0, "widths": [20.0, 20.0], "thickness": 6.0},
    {"name": "wide", "length": 90.0, "widths": [30.0, 30.0], "thickness": 5.0},
    {"name": "tapered", "length": 60.0, "widths": [26.0, 18.0], "thickness": 6.0},
]
# Force [x, y, z] in N and twist about x in N mm, both about the middle of the free end.
LOADS = [
    {"name": "in_plane", "force": [0.0, 1000.0, 0.0], "twist": 0.0},
    {"name": "lateral", "force": [0.0, 0.0, 100.0], "twist": 0.0},
    {"name": "pull", "force": [10000.0, 0.0, 0.0], "twist": 0.0},
    {"name": "twist", "force": [0.0, 0.0, 0.0], "twist": 10000.0},
    {"name": "eccentric", "force": [0.0, 1000.0, 0.0], "twist": 18000.0},
]


def mesh_of(plate, cells):
    """Bricks, with the width drawn in from the fixed to the free end."""
    length, thickness = plate["length"], plate["thickness"]
    mesh = MeshHex.init_tensor(
        np.linspace(0.0, length, cells[0] + 1),
        np.linspace(-0.5, 0.5, cells[1] + 1),
        np.linspace(-thickness / 2.0, thickness / 2.0, cells[2] + 1),
    )
    points = mesh.p.copy()
    first, last = plate["widths"]
    points[1] *= first + (last - first) * points[0] / length
    return MeshHex(points, mesh.t)


def inside(basis, u, points):
    """Displacements (3, n) and stress tensors (3, 3, n) at points."""
    lam, mu = lame_parameters(YOUNG, POISSON)
    mesh = basis.mesh
    cells = mesh.element_finder()(*points)
    local = mesh.mapping().invF(points[:, :, None], tind=cells)
    moved, grad = np.zeros((3, points.shape[1])), np.zeros((3, 3, points.shape[1]))
    for k in range(basis.Nbfun):
        shape, share = basis.elem.gbasis(mesh.mapping(), local, k, tind=cells)[0], u[basis.element_dofs[k, cells]]
        moved += shape.value[:, :, 0] * share
        grad += shape.grad[:, :, :, 0] * share
    strain = 0.5 * (grad + grad.transpose(1, 0, 2))
    trace = np.trace(strain)
    return moved, lam * trace * np.eye(3)[:, :, None] + 2.0 * mu * strain


def von_mises(s):
    deviator = s - np.trace(s) / 3.0 * np.eye(3)[:, :, None]
    return np.sqrt(1.5 * np.sum(deviator**2, axis=(0, 1)))


def answer(plate, cells):
    length, thickness = plate["length"], plate["thickness"]
    end = plate["widths"][1]
    mesh = mesh_of(plate, cells)
    basis = Basis(mesh, ElementVector(ElementHex2()), intorder=4)
    stiffness = asm(linear_elasticity(*lame_parameters(YOUNG, POISSON)), basis)
    fixed = basis.get_dofs(lambda x: np.isclose(x[0], 0.0))
    free_end = FacetBasis(mesh, basis.elem, facets=mesh.facets_satisfying(lambda x: np.isclose(x[0], length)), intorder=4)
    area, polar = end * thickness, end * thickness * (end**2 + thickness**2) / 12.0
    # Halfway along: the section's middle and quarter points, corners, edges and faces, a hair inside.
    half = (plate["widths"][0] + end) / 4.0
    grid_y = np.linspace(-1.0, 1.0, 21) * half * 0.9999
    grid_z = np.linspace(-1.0, 1.0, 9) * thickness / 2.0 * 0.9999
    ys, zs = (grid.ravel() for grid in np.meshgrid(grid_y, grid_z))
    points = np.array([np.full_like(ys, length / 2.0), ys, zs])
    found = []
    for load in LOADS:
        force, twist = np.array(load["force"]) / area, load["twist"] / polar

        def push(v, w):
            y, z = w.x[1], w.x[2]
            return force[0] * v[0] + (force[1] - twist * z) * v[1] + (force[2] + twist * y) * v[2]

        vector = asm(LinearForm(push), free_end)
        u = solve(*condense(stiffness, vector, D=fixed))
        mean = [asm(LinearForm(lambda v, w, axis=axis: v[axis]), free_end) @ u / area for axis in range(3)]
        turn = asm(LinearForm(lambda v, w: w.x[1] * v[2] - w.x[2] * v[1]), free_end) @ u / polar
        moved, s = inside(basis, u, points)
        turn_halfway = np.sum(ys * moved[2] - zs * moved[1]) / np.sum(ys**2 + zs**2)
        on_face = np.isclose(np.abs(zs), zs.max()) & np.isclose(ys, 0.0)
        found.append(
            {
                "load": load,
                "displacement": [float(value) for value in mean],
                "twist": float(turn),
                "twist_from_halfway": float(turn - turn_halfway),
                "direct": float(np.abs(s[0, 0]).max()),
                "face_shear": float(np.abs(s[0, 1][on_face]).max()),
                "von_mises": float(von_mises(s).max()),
            }
        )
    return found


def main():
    out = {"young": YOUNG, "shear": SHEAR, "plates": []}
    for plate in PLATES:
        coarse, fine = answer(plate, (12, 4, 2)), answer(plate, (24, 8, 3))
        for one, other in zip(coarse, fine):
            for key in ("twist", "von_mises"):
                # A second mesh must say the same, or it is not an answer.
                assert abs(one[key] - other[key]) <= 0.02 * abs(other[key]) + 1e-9 * (key == "twist"), (plate["name"], one, other)
        out["plates"].append({**plate, "answers": fine})
    with open(sys.argv[1], "w") as file:
        json.dump(out, file, indent=1)
        file.write("\n")


if __name__ == "__main__":
    main()
