"""Reference solutions: single-lap joints as plane-strain continua at large displacement.

The joints, meshes and ends of lap_plane_strain.py, with equilibrium on the
deformed shape: total Lagrangian, Green-Lagrange strain, Saint Venant-Kirchhoff
material (Hooke's law between Green strain and second Piola-Kirchhoff stress,
which at the small strains here is Hooke's law in axes that turn with the
material).  It tells whether second-order beam models turn as far into the load
line as the body does.

    python lap_large_displacement.py --date 2026-11-25   writes lap_large_displacement.toml

Frame, signs and units as in lap_plane_strain.py; stresses are second
Piola-Kirchhoff components, that is, along axes turning with the material.
"""

import argparse
import pathlib
import sys
import tomllib

import numpy as np
import scipy
import scipy.sparse.linalg
import skfem
from scipy.interpolate import CubicSpline
from skfem import Basis, BilinearForm, ElementQuad0, ElementQuad2, ElementVector, LinearForm
from skfem.helpers import ddot, eye, grad, mul, trace, transpose

import lap_plane_strain as flat

LOADS = {"coupon": (100.0, 200.0, 400.0), "steel_aluminium": (100.0, 200.0, 400.0), "long_plate": (200.0, 800.0)}
LEVELS = 2


def second_piola(deformation, lam, mu):
    green = 0.5 * (mul(transpose(deformation), deformation) - eye(np.ones_like(deformation[0, 0]), 2))
    return lam * eye(trace(green), 2) + 2.0 * mu * green


def deformation_of(gradient):
    return gradient + eye(np.ones_like(gradient[0, 0]), 2)


@BilinearForm
def tangent(u, v, w):
    deformation = deformation_of(grad(w["u"]))
    du, dv = (mul(transpose(deformation), grad(a)) for a in (u, v))
    du, dv = 0.5 * (du + transpose(du)), 0.5 * (dv + transpose(dv))
    turned = mul(transpose(grad(u)), grad(v))
    return (w["lam"] * trace(du) * trace(dv) + 2.0 * w["mu"] * ddot(du, dv)
            + ddot(second_piola(deformation, w["lam"], w["mu"]), turned))


@LinearForm
def internal(v, w):
    deformation = deformation_of(grad(w["u"]))
    return ddot(second_piola(deformation, w["lam"], w["mu"]), mul(transpose(deformation), grad(v)))


class Body:
    def __init__(self, joint, level):
        self.joint = joint
        self.mesh = flat.mesh_of(joint, level, False)
        self.element = ElementVector(ElementQuad2())
        self.basis = Basis(self.mesh, self.element, intorder=4)
        constant = self.basis.with_element(ElementQuad0())
        self.lam, self.mu = flat.materials(joint, self.mesh)
        self.coefficients = {"lam": constant.interpolate(self.lam), "mu": constant.interpolate(self.mu)}
        self.left_x, self.right_x = -joint.upper.arm, joint.overlap + joint.lower.arm
        self.left, self.right = (
            self.basis.get_dofs(lambda p, at=at: np.isclose(p[0], at, atol=1e-9)) for at in (self.left_x, self.right_x))
        self.along = self.right.all(["u^1"])
        self.free = np.setdiff1d(np.arange(self.basis.N), np.concatenate([self.left.all(), self.right.all()]))

    def load_at(self, u):
        return float(self.forces(u)[self.along].sum())

    def forces(self, u):
        return internal.assemble(self.basis, u=self.basis.interpolate(u), **self.coefficients)

    def pull(self, u, load):
        """Newton's method on the free displacements and the movement of the right face together."""
        free, along = self.free, self.along
        for _ in range(30):
            residual = self.forces(u)
            missing = load - residual[along].sum()
            if abs(missing) < 1e-9 * load and np.max(abs(residual[free])) < 1e-9 * load:
                return u
            matrix = tangent.assemble(self.basis, u=self.basis.interpolate(u), **self.coefficients)
            factor = scipy.sparse.linalg.splu(matrix[free][:, free].tocsc(), permc_spec="MMD_AT_PLUS_A",
                                              diag_pivot_thresh=0.0, options={"SymmetricMode": True})
            unit = np.zeros(self.basis.N)
            unit[along] = 1.0
            unit[free] = -factor.solve(matrix[free] @ unit)
            step = np.zeros(self.basis.N)
            step[free] = -factor.solve(residual[free])
            moved = (missing - (matrix @ step)[along].sum()) / (matrix @ unit)[along].sum()
            u = u + step + moved * unit
        raise ArithmeticError(f"{self.joint.name}: no equilibrium at {load} N/mm")

    def middle(self, u, x, low, high):
        """Displacement of the middle of an adherend's section at x."""
        at = self.basis.doflocs
        out = []
        for dofs in self.basis.split_indices():
            on = dofs[(abs(at[0, dofs] - x) < 1e-9) & (at[1, dofs] > low - 1e-9) & (at[1, dofs] < high + 1e-9)]
            on = on[np.argsort(at[1, on])]
            out.append(float(CubicSpline(at[1, on], u[on])(0.5 * (low + high))))
        return out

    def results(self, u):
        joint, basis = self.joint, self.basis
        h, upper, lower = joint.bondline, joint.upper, joint.lower
        force = self.forces(u)
        moments = []
        for face, x_face, x, low, high in (
            (self.left, self.left_x, 0.0, h / 2.0, h / 2.0 + upper.thickness),
            (self.right, self.right_x, joint.overlap, -h / 2.0 - lower.thickness, -h / 2.0),
        ):
            x_middle, z_middle = self.middle(u, x, low, high)
            x_middle, z_middle = x + x_middle, 0.5 * (low + high) + z_middle
            along, across = face.all(["u^1"]), face.all(["u^2"])
            x_at = x_face + u[along[0]]
            about = (force[along] * (basis.doflocs[1, along] - z_middle)).sum() - force[across].sum() * (x_at - x_middle)
            moments.append(about if face is self.left else -about)
        along_bond = self.middle_line(u)
        return {
            "end_displacement_mm": float(u[self.along[0]]),
            "shear_force_n_mm": float(force[self.right.all(["u^2"])].sum()),
            "moment_1_n": float(moments[0]),
            "moment_2_n": float(moments[1]),
            **along_bond,
        }

    def middle_line(self, u):
        """Greatest shear and peel on z = 0 in either half of the overlap."""
        def law(gradient, lam, mu):
            return second_piola(deformation_of(gradient), lam, mu)
        x, shear, peel = flat.mid_bondline(self.joint, self.mesh, self.element, self.basis, u, self.lam, self.mu, law)
        half = self.joint.overlap / 2.0
        left, right = x < half, x >= half
        out = {}
        for name, y in (("shear", shear), ("peel", peel)):
            out[f"peak_{name}_0_mpa"] = flat.greatest(x[left], y[left], half)[0]
            mirrored = (self.joint.overlap - x[right])[::-1]
            out[f"peak_{name}_l_mpa"] = flat.greatest(mirrored, y[right][::-1], half)[0]
        return out


HEADER = """\
# Single-lap joints solved as plane-strain continua at large displacement.
# Written by lap_large_displacement.py; regenerate instead of editing.  README.md says how.
title = "Single-lap joints, plane-strain finite elements, equilibrium on the deformed shape"
source = "own computation with a general-purpose finite-element library; script lap_large_displacement.py beside this file"
known = "reference library"
library = "scikit-fem {skfem}, numpy {numpy}, scipy {scipy}"
date = {date}
units = "N, mm, MPa; load, shear force and moment per mm of width"
theory = "plane strain, total Lagrangian, Green-Lagrange strain, Saint Venant-Kirchhoff material"
joints = "as in lap_plane_strain.toml under the same name: geometry, ends (clamped), signs"
moments = "about the displaced middle of the adherend's section at x = 0 (adherend 1) and x = overlap (adherend 2)"
stresses = "greatest second Piola-Kirchhoff shear and peel on the middle line of the bondline, near x = 0 and near x = overlap"
convergence = "mesh 0 and mesh 1 of lap_plane_strain.toml; mesh 1 is stored, change is its relative change against mesh 0"

[tolerance]
end_displacement = {{ relative = 0.015, why = "0.01 as the stiffness in lap_plane_strain.toml; the material law stiffens a bar by 1.5 times its strain, 0.005 at 400 N/mm" }}
moment = {{ relative = 0.01, why = "mesh error below 2e-4; the moment depends on how far the overlap turns, hence on its bending stiffness, where beam theories differ by a few 1e-3" }}
peak_shear = {{ relative = 0.10, why = "as in lap_plane_strain.toml" }}
peak_peel = {{ relative = 0.15, why = "as in lap_plane_strain.toml" }}
"""


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--date", required=True, help="date written into the file, YYYY-MM-DD")
    arguments = parser.parse_args()
    out = [HEADER.format(skfem=skfem.__version__, numpy=np.__version__, scipy=scipy.__version__, date=arguments.date)]
    for joint in flat.JOINTS:
        if joint.name not in LOADS:
            continue
        found = []
        for level in range(LEVELS):
            body = Body(joint, level)
            u = np.zeros(body.basis.N)
            found.append([])
            for load in LOADS[joint.name]:
                u = body.pull(u, load)
                found[-1].append(body.results(u))
                print(joint.name, level, load, found[-1][-1], file=sys.stderr, flush=True)
        for load, coarse, fine in zip(LOADS[joint.name], *found):
            change = max(abs(fine[k] / coarse[k] - 1.0) for k in fine)
            out.append("\n".join([
                "[[case]]", f'joint = "{joint.name}"', f"load_n_mm = {flat.number(load)}",
                *(f"{name} = {flat.number(value)}" for name, value in fine.items()),
                f"change = {flat.number(float(f'{change:.1g}'))} # greatest of the above, mesh 1 against mesh 0", ""]))
    text = "\n".join(out)
    tomllib.loads(text)
    pathlib.Path(__file__).with_suffix(".toml").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
