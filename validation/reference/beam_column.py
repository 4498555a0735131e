"""Reference solutions: second-order edge moments of single-lap joints.

The bending moment at the ends of a lap depends on how far the joint turns into
the load line.  Three independent models, per mm of width, plane strain:

(a) rigid: arms and overlap are beam-columns; the overlap is one composite beam
    of both adherends without slip (the adhesive only spaces them).  Linear for
    a given load; solved exactly with transfer matrices.  With the bondline
    thickness in the lever arm ("rigid") and without it ("rigid_no_bondline").
(b) elastic: two beams joined by an elastic interface, moderate rotations,
    equilibrium on the deformed shape; Euler-Bernoulli and Timoshenko; solved as
    a boundary-value problem by collocation (scipy.integrate.solve_bvp).

    python beam_column.py --date 2026-11-25        writes beam_column.toml

Frame: x along the joint, z up, x = 0 at the left end of the overlap; adherend 1
above, its arm to the left; adherend 2 below, its arm to the right.

One beam, in x:            u' = N/EA - w'^2/2     axial
                           w' = theta + Q/kGA     (Euler-Bernoulli: 1/kGA = 0)
                           theta' = M/EI
                           V = Q + N w'           vertical force on a section
Interface (overlap):       slip    = (u_2 - a_2 theta_2) - (u_1 + a_1 theta_1)
                           opening = w_1 - w_2,   a_i = (t_i + h)/2
                           tau = G slip/h,  sigma = E/(1 - nu^2) opening/h
Equilibrium, adherend i:   N_1' = -tau, N_2' = +tau;  V_1' = sigma, V_2' = -sigma
                           M_i' = -Q_i - a_i tau
with EA = E' t, EI = E' t^3/12, kGA = 5/6 G t, E' = E/(1 - nu^2).
M = -integral of sigma_xx z' dz, positive where it makes w'' positive.
"""

import argparse
import pathlib
import sys
import tomllib
from dataclasses import dataclass

import numpy as np
import scipy
from scipy.integrate import solve_bvp
from scipy.linalg import expm
from scipy.optimize import brentq


@dataclass(frozen=True)
class Adherend:
    youngs: float
    poissons: float
    thickness: float
    arm: float

    @property
    def plane(self):
        return self.youngs / (1.0 - self.poissons**2)

    @property
    def axial(self):
        return self.plane * self.thickness

    @property
    def bending(self):
        return self.plane * self.thickness**3 / 12.0

    @property
    def shear_compliance(self):
        return 6.0 / (5.0 * self.youngs / (2.0 * (1.0 + self.poissons)) * self.thickness)


@dataclass(frozen=True)
class Joint:
    name: str
    what: str
    upper: Adherend
    lower: Adherend
    overlap: float
    bondline: float
    adhesive_youngs: float
    adhesive_poissons: float
    loads: dict  # ends -> loads, N/mm; the negative ones are below buckling

    @property
    def slip_compliance(self):
        return self.bondline * 2.0 * (1.0 + self.adhesive_poissons) / self.adhesive_youngs

    @property
    def opening_compliance(self):
        return self.bondline * (1.0 - self.adhesive_poissons**2) / self.adhesive_youngs


JOINTS = [
    # E = 2500 and G = 900 MPa of the published problem fix Poisson's ratio; the arms are ours.
    Joint("goland_reissner", "data of the published edge-moment check GR-K-1, arms 60 mm",
          Adherend(70e3, 0.33, 2.0, 60.0), Adherend(70e3, 0.33, 2.0, 60.0),
          25.0, 0.20, 2500.0, 2500.0 / 1800.0 - 1.0,
          {"clamped": (10.0, 100.0, 200.0, 400.0, -50.0), "pinned": (10.0, 100.0, 200.0, 400.0, -12.0)}),
    Joint("coupon", "aluminium to aluminium lap-shear coupon",
          Adherend(70e3, 0.33, 1.6, 50.0), Adherend(70e3, 0.33, 1.6, 50.0),
          12.5, 0.25, 1900.0, 0.38,
          {"clamped": (10.0, 100.0, 200.0, 400.0, -40.0), "pinned": (10.0, 100.0, 200.0, 400.0, -10.0)}),
    Joint("steel_aluminium", "unequal adherends, steel above aluminium",
          Adherend(210e3, 0.30, 1.5, 60.0), Adherend(70e3, 0.33, 2.5, 60.0),
          25.0, 0.30, 1900.0, 0.38,
          {"clamped": (10.0, 100.0, 200.0, 400.0, -60.0), "pinned": (10.0, 100.0, 200.0, 400.0, -15.0)}),
]
FIRST_ORDER_LOAD = 200.0


# --- (a) one composite beam over the overlap, exact ---------------------------


class Rigid:
    """Beam-column with two steps of its axis; state (w, theta, M, V, 1)."""

    def __init__(self, joint, bondline):
        up, low = joint.upper, joint.lower
        z_1, z_2 = (up.thickness + bondline) / 2.0, -(low.thickness + bondline) / 2.0
        axis = (up.axial * z_1 + low.axial * z_2) / (up.axial + low.axial)
        bending = up.bending + low.bending + up.axial * (z_1 - axis) ** 2 + low.axial * (z_2 - axis) ** 2
        self.regions = [(up.arm, up.bending, up.axial), (joint.overlap, bending, up.axial + low.axial),
                        (low.arm, low.bending, low.axial)]
        self.steps = [z_1 - axis, axis - z_2]  # drop of the axis at the two ends of the overlap

    @staticmethod
    def field(load, bending):
        a = np.zeros((5, 5))
        a[0, 1] = 1.0
        a[1, 2] = 1.0 / bending
        a[2, 1], a[2, 3] = load, -1.0
        return a

    def transfer(self, load):
        """Transfer matrices at the end of: arm 1, overlap, arm 2 (each before the step that follows)."""
        total, ends = np.eye(5), []
        for i, (length, bending, _) in enumerate(self.regions):
            total = expm(self.field(load, bending) * length) @ total
            ends.append(total.copy())
            if i < 2:  # the moment about the axis that lies lower by the step
                step = np.eye(5)
                step[2, 4] = -load * self.steps[i]
                total = step @ total
        return ends

    def constraint(self, load, ends):
        held = 1 if ends == "clamped" else 2  # theta or M vanishes
        free = 2 if ends == "clamped" else 1
        last = self.transfer(load)[2]
        rows = [0, held]
        return last[np.ix_(rows, [free, 3])], last[rows, 4], free

    def solve(self, load, ends):
        matrix, known, free = self.constraint(load, ends)
        unknown = np.linalg.solve(matrix, -known)
        start = np.zeros(5)
        start[[free, 3]], start[4] = unknown, 1.0
        at = [t @ start for t in self.transfer(load)]
        moment_1 = at[0][2]
        moment_2 = at[1][2] - load * self.steps[1]
        return moment_1, moment_2, start[3], self.stretch(load, start)

    def stretch(self, load, state):
        """Movement of the far-right end along the load: strain, turning of the steps, shortening by slope."""
        nodes, weights = np.polynomial.legendre.leggauss(40)
        moved = 0.0
        for i, (length, bending, axial) in enumerate(self.regions):
            field = self.field(load, bending)
            slopes = [(expm(field * length * (1.0 + s) / 2.0) @ state)[1] for s in nodes]
            moved += length * (load / axial - 0.25 * float(weights @ np.square(slopes)))
            state = expm(field * length) @ state
            if i < 2:
                moved += self.steps[i] * state[1]
                state = state.copy()
                state[2] -= load * self.steps[i]
        return moved

    def buckling(self, ends):
        """Smallest compressive load at which the constraint matrix is singular."""
        def determinant(load):
            return np.linalg.det(self.constraint(-load, ends)[0])
        loads = np.linspace(0.5, 400.0, 800)
        values = [determinant(p) for p in loads]
        for i in range(len(loads) - 1):
            if values[i] * values[i + 1] < 0.0:
                return brentq(determinant, loads[i], loads[i + 1])
        raise ArithmeticError("no buckling load found")


# --- (b) two beams on an elastic interface, collocation -------------------------


# Order of the states: arm 1, arm 2, adherend 1 and 2 in the overlap, each (u, w, theta, N, V, M),
# all as functions of s from 0 to 1 along their own region.
ARM_1, ARM_2, UP, LOW = (slice(6 * i, 6 * i + 6) for i in range(4))


class Elastic:
    def __init__(self, joint, load, ends, timoshenko, second_order=True):
        self.joint, self.load, self.ends = joint, load, ends
        self.timoshenko, self.second_order = timoshenko, second_order
        up, low = joint.upper, joint.lower
        self.levers = ((up.thickness + joint.bondline) / 2.0, (low.thickness + joint.bondline) / 2.0)
        reach = up.arm + joint.overlap + low.arm
        size = abs(load)
        # Units that make every state of order one: collocation tolerances are relative to one.
        one = np.array([size * reach / min(up.axial, low.axial), 1.0, 0.05, size, 0.1 * size,
                        size * 0.5 * max(up.thickness, low.thickness)])
        self.unit = np.tile(one, 4)[:, None]

    def beam(self, a, y, slip_stress, peel_stress, side, lever):
        _, _, theta, n, v, m = y
        compliance = a.shear_compliance if self.timoshenko else 0.0
        along = n if self.second_order else 0.0
        q = (v - along * theta) / (1.0 + along * compliance)
        slope = theta + compliance * q
        shortening = 0.5 * slope**2 if self.second_order else 0.0
        return np.array([n / a.axial - shortening, slope, m / a.bending,
                         -side * slip_stress, side * peel_stress, -q - lever * slip_stress])

    def stresses(self, y):
        up, low = y[UP], y[LOW]
        slip = (low[0] - self.levers[1] * low[2]) - (up[0] + self.levers[0] * up[2])
        return slip / self.joint.slip_compliance, (up[1] - low[1]) / self.joint.opening_compliance

    def slopes(self, _s, scaled):
        y = scaled * self.unit
        joint = self.joint
        tau, sigma = self.stresses(y)
        none = np.zeros_like(tau)
        rate = np.concatenate([
            joint.upper.arm * self.beam(joint.upper, y[ARM_1], none, none, 1.0, 0.0),
            joint.lower.arm * self.beam(joint.lower, y[ARM_2], none, none, 1.0, 0.0),
            joint.overlap * self.beam(joint.upper, y[UP], tau, sigma, 1.0, self.levers[0]),
            joint.overlap * self.beam(joint.lower, y[LOW], tau, sigma, -1.0, self.levers[1]),
        ])
        return rate / self.unit

    def ends_of(self, start, end):
        unit = self.unit[:, 0]
        held = 2 if self.ends == "clamped" else 5
        return np.concatenate([
            [start[0], start[1], start[held]],                                  # left grip
            [end[6 + 3] - self.load / unit[9], end[6 + 1], end[6 + held]],      # right grip
            end[ARM_1] - start[UP],                                             # arm 1 runs into adherend 1
            end[LOW] - start[ARM_2],                                            # adherend 2 runs into arm 2
            start[LOW][3:], end[UP][3:],                                        # free ends
        ])

    def solve(self, tolerance, guess=None):
        if guess is None:
            s = 0.5 - 0.5 * np.tanh(2.5 * (1.0 - 2.0 * np.linspace(0.0, 1.0, 161))) / np.tanh(2.5)
            s[0], s[-1] = 0.0, 1.0
            y = np.zeros((24, s.size))
            y[3] = y[9] = 1.0 if self.load > 0 else -1.0
            guess = s, y
        found = solve_bvp(self.slopes, self.ends_of, *guess, tol=tolerance, bc_tol=1e-10, max_nodes=20000)
        if not found.success:
            raise ArithmeticError(f"{self.joint.name} {self.ends} {self.load}: {found.message}")
        y = found.y * self.unit
        tau, sigma = self.stresses(y)
        return Outcome(found.x.size, y[5, -1], y[11, 0], y[4, -1], y[6, -1],
                       (tau[0], tau[-1]), (sigma[0], sigma[-1]), float(abs(y[[2, 8, 14, 20]]).max())), found


@dataclass
class Outcome:
    nodes: int
    moment_1: float
    moment_2: float
    shear_force: float
    moved: float
    shear: tuple
    peel: tuple
    rotation: float


# --- results ---------------------------------------------------------------------


def number(value):
    text = f"{value:.7g}"
    if "e" in text:
        mantissa, exponent = text.split("e")
        return f"{mantissa if '.' in mantissa else mantissa + '.0'}e{int(exponent)}"
    return text if "." in text else text + ".0"


def adherend_line(name, a):
    return (f"{name} = {{ youngs_modulus_mpa = {number(a.youngs)}, poissons_ratio = {number(a.poissons)}, "
            f"thickness_mm = {number(a.thickness)}, arm_mm = {number(a.arm)} }}")


def factors(joint, load, moment_1, moment_2):
    h = joint.bondline
    return (f"k_1 = {number(2 * moment_1 / (load * (joint.upper.thickness + h)))}, "
            f"k_2 = {number(-2 * moment_2 / (load * (joint.lower.thickness + h)))}")


def rigid_line(joint, name, model, load, ends):
    moment_1, moment_2, shear, moved = model.solve(load, ends)
    return (f"{name} = {{ moment_1_n = {number(moment_1)}, moment_2_n = {number(moment_2)}, "
            f"{factors(joint, load, moment_1, moment_2)}, shear_force_n_mm = {number(shear)}, "
            f"end_displacement_mm = {number(moved)} }}")


def elastic_line(joint, name, outcome, load, change):
    return (f"{name} = {{ moment_1_n = {number(outcome.moment_1)}, moment_2_n = {number(outcome.moment_2)}, "
            f"{factors(joint, load, outcome.moment_1, outcome.moment_2)}, "
            f"shear_force_n_mm = {number(outcome.shear_force)}, end_displacement_mm = {number(outcome.moved)}, "
            f"shear_0_mpa = {number(outcome.shear[0])}, shear_l_mpa = {number(outcome.shear[1])}, "
            f"peel_0_mpa = {number(outcome.peel[0])}, peel_l_mpa = {number(outcome.peel[1])}, "
            f"greatest_rotation = {number(outcome.rotation)}, nodes = {outcome.nodes}, "
            f"change = {number(float(f'{change:.1g}'))} }}")


def both(joint, load, ends, timoshenko, second_order=True):
    """The solution at the fine tolerance and its greatest relative change from the coarse one."""
    model = Elastic(joint, load, ends, timoshenko, second_order)
    coarse, start = model.solve(1e-2)
    fine, _ = model.solve(1e-8, (start.x, start.y))

    def listed(o):
        return np.array([o.moment_1, o.moment_2, o.shear_force, o.moved, *o.shear, *o.peel])

    return fine, float(np.max(abs(listed(coarse) / listed(fine) - 1.0)))


HEADER = """\
# Second-order edge moments of single-lap joints, beam-column models.
# Written by beam_column.py; regenerate instead of editing.  README.md says how.
title = "Single-lap joints, second-order edge moment, composite beam-column and two beams on an elastic interface"
source = "own derivation and computation with a general-purpose numerical library; script beam_column.py beside this file"
known = "reference library"
library = "numpy {numpy}, scipy {scipy} (linalg.expm for the rigid overlap, integrate.solve_bvp for the elastic interface)"
date = {date}
units = "N, mm, MPa; load, shear force and moment per mm of width"
geometry = "adherend 1 above, arm to the left; adherend 2 below, arm to the right; z up, x = 0 at the left end of the overlap"
ends = "clamped: both far ends neither turn nor shift sideways; pinned: both far ends turn freely at mid-thickness and do not shift sideways; the right one moves along x under the load"
signs = "tension, opening, and slip of adherend 2 to the right positive; moment_1 in adherend 1 at x = 0 and moment_2 in adherend 2 at x = overlap, about mid-thickness, positive where w'' is positive (w up); shear_force = vertical force on a section of the arms, constant along the joint"
k = "k_1 = 2 moment_1 / (P (t_1 + h)), k_2 = -2 moment_2 / (P (t_2 + h)), with the true h in every model; Goland and Reissner's k = 2 M / (P t) leaves h out"
rigid = "overlap one composite beam without slip; lever arms with the bondline thickness; exact transfer matrices"
rigid_no_bondline = "the same with h = 0"
euler_bernoulli = "two beams on an elastic interface, G/h and E/((1 - nu^2) h), lever arms (t + h)/2, moderate rotation (w'^2/2), equilibrium on the deformed shape; collocation"
timoshenko = "the same with shear compliance 6/(5 G t) of the adherends"
stresses = "shear and peel of the two-beam models at x = 0 and x = overlap, where they are greatest"
convergence = "change: greatest relative change of moments, shear force, displacement and stresses between collocation tolerances 1e-2 and 1e-8; the latter is stored"

[tolerance]
same_model = {{ relative = 1e-3, why = "a second-order strip with the same beams, interface (G/h without adherend shear) and ends solves the same equations; the stored figures are converged far beyond this, so what remains is the strip's own mesh: refine it until it moves by less" }}
"""


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--date", required=True, help="date written into the file, YYYY-MM-DD")
    arguments = parser.parse_args()
    out = [HEADER.format(numpy=np.__version__, scipy=scipy.__version__, date=arguments.date)]
    for joint in JOINTS:
        with_h, without = Rigid(joint, joint.bondline), Rigid(joint, 0.0)
        out.append("\n".join([
            "[[joint]]",
            f'name = "{joint.name}"',
            f'what = "{joint.what}"',
            adherend_line("upper", joint.upper),
            adherend_line("lower", joint.lower),
            f"overlap_mm = {number(joint.overlap)}",
            f"bondline_mm = {number(joint.bondline)}",
            f"adhesive = {{ youngs_modulus_mpa = {number(joint.adhesive_youngs)}, "
            f"poissons_ratio = {joint.adhesive_poissons!r} }}",
            "buckling_load_n_mm = { "
            + ", ".join(f"{e} = {number(with_h.buckling(e))}" for e in joint.loads) + " } # rigid overlap; to place the loads below it",
            "",
        ]))
        for ends, loads in joint.loads.items():
            cases = [(FIRST_ORDER_LOAD, False)] + [(p, True) for p in loads]
            for load, second in cases:
                eb, eb_change = both(joint, load, ends, False, second)
                ti, ti_change = both(joint, load, ends, True, second)
                rows = ["[[joint.case]]", f'ends = "{ends}"',
                        f'geometry = "{"second" if second else "first"} order"', f"load_n_mm = {number(load)}"]
                if second:
                    rows += [rigid_line(joint, "rigid", with_h, load, ends),
                             rigid_line(joint, "rigid_no_bondline", without, load, ends)]
                rows += [elastic_line(joint, "euler_bernoulli", eb, load, eb_change),
                         elastic_line(joint, "timoshenko", ti, load, ti_change), ""]
                out.append("\n".join(rows))
                print(joint.name, *rows[1:], sep="\n  ", file=sys.stderr, flush=True)
    text = "\n".join(out)
    tomllib.loads(text)
    pathlib.Path(__file__).with_suffix(".toml").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
