"""Reference solutions: single-lap joints as plane-strain continua.

Every joint is meshed as a two-dimensional body (adherend 1 above, adhesive,
adherend 2 below, square bondline ends) and solved with quadratic finite
elements of the general-purpose library scikit-fem: linear elasticity, small
displacements, equilibrium on the undeformed shape.  Nothing of beam theory
enters, so a strip model can be judged against the numbers.

    python lap_plane_strain.py --date 2026-11-25        writes lap_plane_strain.toml

Units: N, mm, MPa; loads per mm of width.

Frame: x along the joint, z up, origin at the left end of the overlap in the
middle of the bondline.
    adherend 1   -arm_1 <= x <= overlap           h/2 <= z <= h/2 + t_1
    adhesive          0 <= x <= overlap          -h/2 <= z <= h/2
    adherend 2        0 <= x <= overlap + arm_2  -h/2 - t_2 <= z <= -h/2

Signs: peel = sigma_zz (tension positive); shear = -sigma_xz, positive where
adherend 2 is pulled to the right.  In a cross-section of an adherend, z'
measured from its middle: N = int sigma_xx dz, Q = int sigma_xz dz,
M = -int sigma_xx z' dz (so M = E' I w'' in beam theory, w up).
"""

import argparse
import pathlib
import sys
import time
import tomllib
from dataclasses import dataclass

import numpy as np
import scipy
import scipy.sparse.linalg
import skfem
from scipy.interpolate import CubicSpline
from scipy.optimize import minimize_scalar
from skfem import Basis, BilinearForm, ElementQuad0, ElementQuad2, ElementTriP0, ElementTriP2, ElementVector
from skfem.helpers import ddot, eye, sym_grad, trace

LEVELS = 3  # a base mesh and two halvings of every element
GAUSS = 1.0 / np.sqrt(3.0)


@dataclass(frozen=True)
class Adherend:
    youngs: float
    poissons: float
    thickness: float
    arm: float


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
    load: float
    remark: str = ""       # TOML lines for [joint.tolerance]


JOINTS = [
    Joint("coupon", "aluminium to aluminium lap-shear coupon",
          Adherend(70e3, 0.33, 1.6, 50.0), Adherend(70e3, 0.33, 1.6, 50.0),
          12.5, 0.25, 1900.0, 0.38, 200.0),
    Joint("steel_aluminium", "unequal adherends, steel above aluminium",
          Adherend(210e3, 0.30, 1.5, 60.0), Adherend(70e3, 0.33, 2.5, 60.0),
          25.0, 0.30, 1900.0, 0.38, 200.0),
    Joint("long_plate", "casting wall to sheet, overlap much longer than the load transfer",
          Adherend(71e3, 0.33, 4.0, 100.0), Adherend(70e3, 0.33, 3.0, 100.0),
          100.0, 0.50, 1900.0, 0.38, 200.0),
    Joint("stiff_thin", "stiff, thin bond between equal aluminium sheets",
          Adherend(70e3, 0.33, 2.0, 50.0), Adherend(70e3, 0.33, 2.0, 50.0),
          15.0, 0.15, 4500.0, 0.35, 200.0,
          'peak_shear = { relative = 0.10, without_adherend_shear = 0.213, why = "the adherends are 1.69 times as compliant in shear as the bond, (t_1/G_1 + t_2/G_2)/(h/G); a strip that leaves this out is stiff in slip by 2/15 of it and high in peak shear by 1/15, 0.113, beside the usual 0.10" }'),
    Joint("thick_short", "thick sheets with short arms, where shear of the adherends counts most",
          Adherend(70e3, 0.33, 6.0, 25.0), Adherend(70e3, 0.33, 6.0, 25.0),
          25.0, 0.50, 1900.0, 0.38, 200.0,
          'stiffness = { relative = 0.03, why = "the joint is 12.5 t long: 0.2 t of end effects make 1.6 %, shear of the adherends as much" }\nedge_moment = { relative = 0.02, why = "arms of 4 t" }'),
    Joint("thick_bondline", "bondline half as thick as the sheets",
          Adherend(70e3, 0.33, 2.0, 50.0), Adherend(70e3, 0.33, 2.0, 50.0),
          25.0, 1.00, 1900.0, 0.38, 200.0,
          'peak_peel = { outside = true, why = "h/t = 0.5: peel dies out over 2.6 h (over 6 h in the coupon), too short for a layer of springs" }'),
    Joint("soft_thick", "soft, thick, nearly incompressible bond; outside the range a strip is built for",
          Adherend(70e3, 0.33, 2.0, 50.0), Adherend(70e3, 0.33, 2.0, 50.0),
          25.0, 2.00, 20.0, 0.48, 50.0,
          'peak_shear = { outside = true, why = "h = t" }\npeak_peel = { outside = true, why = "h = t and nearly incompressible: neither the free nor the confined peel modulus holds" }'),
]


# --- mesh ---------------------------------------------------------------------


def graded(length, first, largest, growth=1.3):
    """Element sizes from a fine end: geometric growth up to `largest`, scaled to fit `length`."""
    sizes = []
    size = first
    while sum(sizes) < length:
        sizes.append(size)
        size = min(size * growth, largest)
    scale = length / sum(sizes)
    return np.array(sizes) * scale


def lines(start, sizes):
    return start + np.concatenate([[0.0], np.cumsum(sizes)])


def halved(points):
    return np.sort(np.concatenate([points, 0.5 * (points[1:] + points[:-1])]))


def grid(joint, level):
    """Grid lines of the tensor mesh: fine at the bondline corners and the grips."""
    h, length = joint.bondline, joint.overlap
    fine = h / 4.0
    largest = 0.4 * min(joint.upper.thickness, joint.lower.thickness)
    # Uniform over the first two bondline thicknesses, where the peaks lie.
    half = length / 2.0
    if 2.0 * h < 0.3 * length:
        inner = np.concatenate([np.full(8, fine), graded(half - 2.0 * h, fine, largest)])
    else:
        inner = np.full(int(np.ceil(half / fine)), half / np.ceil(half / fine))

    def arm(a):
        from_overlap = graded(a.arm / 2.0, fine, largest)
        from_grip = graded(a.arm / 2.0, a.thickness / 12.0, largest)
        return np.concatenate([from_grip, from_overlap[::-1]])

    x = np.concatenate([
        lines(-joint.upper.arm, arm(joint.upper))[:-1],
        lines(0.0, np.concatenate([inner, inner[::-1]]))[:-1],
        lines(length, arm(joint.lower)[::-1]),
    ])

    def through(a):
        return graded(a.thickness, fine, a.thickness / 6.0)

    z = np.concatenate([
        lines(-h / 2.0 - joint.lower.thickness, through(joint.lower)[::-1])[:-1],
        lines(-h / 2.0, np.full(4, h / 4.0))[:-1],
        lines(h / 2.0, through(joint.upper)),
    ])
    # Exact values at the material boundaries, so that elements are sorted without rounding trouble.
    for array, exact in ((x, (-joint.upper.arm, 0.0, length, length + joint.lower.arm)),
                         (z, (-h / 2.0, 0.0, h / 2.0))):
        for value in exact:
            array[np.argmin(abs(array - value))] = value
    for _ in range(level):
        x, z = halved(x), halved(z)
    return x, z


def mesh_of(joint, level, triangles):
    x, z = grid(joint, level)
    full = skfem.MeshQuad.init_tensor(x, z)
    cx, cz = full.p[:, full.t].mean(axis=1)
    h = joint.bondline
    upper = (cz > h / 2.0) & (cx < joint.overlap)
    lower = (cz < -h / 2.0) & (cx > 0.0)
    bond = (abs(cz) < h / 2.0) & (cx > 0.0) & (cx < joint.overlap)
    mesh = full.restrict(np.nonzero(upper | lower | bond)[0])
    return mesh.to_meshtri() if triangles else mesh


# --- solution ------------------------------------------------------------------


@BilinearForm
def elasticity(u, v, w):
    strain, virtual = sym_grad(u), sym_grad(v)
    return w["lam"] * trace(strain) * trace(virtual) + 2.0 * w["mu"] * ddot(strain, virtual)


def lame(youngs, poissons):
    """Lame constants; with them in two dimensions the strain is plane."""
    return youngs * poissons / ((1 + poissons) * (1 - 2 * poissons)), youngs / (2 * (1 + poissons))


def materials(joint, mesh):
    """Lame constants of every element."""
    centre_z = mesh.p[1, mesh.t].mean(axis=0)
    h = joint.bondline
    lam, mu = np.empty(mesh.nelements), np.empty(mesh.nelements)
    for where, (youngs, poissons) in (
        (centre_z > h / 2.0, (joint.upper.youngs, joint.upper.poissons)),
        (centre_z < -h / 2.0, (joint.lower.youngs, joint.lower.poissons)),
        (abs(centre_z) < h / 2.0, (joint.adhesive_youngs, joint.adhesive_poissons)),
    ):
        lam[where], mu[where] = lame(youngs, poissons)
    return lam, mu


def stress(gradient, lam, mu):
    strain = 0.5 * (gradient + gradient.transpose(1, 0, 2, 3))
    return lam * eye(trace(strain), 2) + 2.0 * mu * strain


@dataclass
class Solution:
    elements: int
    unknowns: int
    stiffness: float
    x: np.ndarray          # Gauss positions along the middle of the bondline
    shear: np.ndarray
    peel: np.ndarray
    shear_force: float     # V, the same in both arms
    moment_1: float        # M_1 at x = 0
    moment_2: float        # M_2 at x = overlap
    imbalance: float       # worst relative error of three checks of equilibrium


def solve(joint, level, triangles=False):
    mesh = mesh_of(joint, level, triangles)
    element = ElementVector(ElementTriP2() if triangles else ElementQuad2())
    basis = Basis(mesh, element, intorder=4)
    flat = basis.with_element(ElementTriP0() if triangles else ElementQuad0())

    h = joint.bondline
    lam, mu = materials(joint, mesh)
    matrix = elasticity.assemble(basis, lam=flat.interpolate(lam), mu=flat.interpolate(mu))

    left_x = -joint.upper.arm
    right_x = joint.overlap + joint.lower.arm
    left = basis.get_dofs(lambda p: np.isclose(p[0], left_x, atol=1e-9))
    right = basis.get_dofs(lambda p: np.isclose(p[0], right_x, atol=1e-9))
    u = np.zeros(basis.N)
    u[right.all(["u^1"])] = 1.0
    free = np.setdiff1d(np.arange(basis.N), np.concatenate([left.all(), right.all()]))
    inner = matrix[free][:, free].tocsc()
    factor = scipy.sparse.linalg.splu(inner, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0,
                                      options={"SymmetricMode": True})
    load = -(matrix[free] @ u)
    u[free] = factor.solve(load)
    u[free] += factor.solve(load - inner @ u[free])  # one refinement step: reactions to full digits
    del factor, inner
    reaction = matrix @ u
    stiffness = float(reaction[right.all(["u^1"])].sum())
    u *= joint.load / stiffness
    reaction *= joint.load / stiffness

    mid_1 = h / 2.0 + joint.upper.thickness / 2.0
    mid_2 = -h / 2.0 - joint.lower.thickness / 2.0

    def resultants(face, middle):
        """Forces of the grip on a face along x and z, and the first moment of those along x."""
        along, across = face.all(["u^1"]), face.all(["u^2"])
        lever = basis.doflocs[1, along] - middle
        return reaction[along].sum(), reaction[across].sum(), (reaction[along] * lever).sum()

    _, left_z, left_m = resultants(left, mid_1)
    right_x_force, right_z, right_m = resultants(right, mid_2)
    # The left face looks toward -x: Q = -left_z and M = +left_m there; M' = -Q along an arm.
    shear_force = right_z
    moment_1 = left_m + left_z * joint.upper.arm
    moment_2 = -right_m + right_z * joint.lower.arm

    x, shear, peel = mid_bondline(joint, mesh, element, basis, u, lam, mu)
    transferred = CubicSpline(x, shear).integrate(0.0, joint.overlap)
    lifted = CubicSpline(x, peel).integrate(0.0, joint.overlap)
    turning = (mid_1 - mid_2) * right_x_force + right_z * (right_x - left_x) - left_m - right_m
    imbalance = max(abs(transferred / joint.load - 1.0),
                    abs(lifted + shear_force) / joint.load,
                    abs(turning) / (joint.load * (mid_1 - mid_2)))
    # A guard against gross faults (a misplaced material, a sign), and NaN.  Sampled stresses balance only
    # to the order of the mesh: triangles 4e-4, 1e-4, 3e-5 with each halving, quadrilaterals 1e-5 and less.
    if not imbalance < 1e-3:
        raise ArithmeticError(f"{joint.name}, mesh {level}: out of balance by {imbalance}")
    return Solution(int(mesh.nelements), int(basis.N), stiffness, x, shear, peel,
                    float(shear_force), float(moment_1), float(moment_2), float(imbalance))


def mid_bondline(joint, mesh, element, basis, u, lam, mu, law=stress):
    """Shear and peel along z = 0, from the Gauss points of the two element rows that meet there.

    Derivatives of quadratic elements are most accurate at the 2 x 2 Gauss
    points; the mean of the nearest points above and below is the value at
    z = 0 up to the square of their distance (0.21 of an element).
    """
    bounds_x = [mesh.p[0, mesh.t].min(axis=0), mesh.p[0, mesh.t].max(axis=0)]
    bounds_z = [mesh.p[1, mesh.t].min(axis=0), mesh.p[1, mesh.t].max(axis=0)]
    inside = (bounds_x[0] > -1e-9) & (bounds_x[1] < joint.overlap + 1e-9)
    values = []
    for edge in (0, 1):  # row above (its lower edge is z = 0), row below
        row = np.nonzero(inside & (abs(bounds_z[edge]) < 1e-12))[0]
        low, high = bounds_x[0][row], bounds_x[1][row]
        depth = (bounds_z[1] - bounds_z[0])[row] * 0.5 * (1.0 - GAUSS) * (1.0 if edge == 0 else -1.0)
        at_x = 0.5 * (low + high)[:, None] + 0.5 * (high - low)[:, None] * np.array([-GAUSS, GAUSS])
        points = np.stack([at_x, np.repeat(depth[:, None], 2, axis=1)])
        local = mesh.mapping().invF(points, tind=row)
        gradient = np.zeros((2, 2, *at_x.shape))
        for j in range(basis.Nbfun):
            shape = element.gbasis(mesh.mapping(), local, j, tind=row)[0].grad
            gradient += u[basis.element_dofs[j, row]][None, None, :, None] * shape
        sigma = law(gradient, lam[row][:, None], mu[row][:, None])
        held = np.ones(at_x.shape, bool)
        if isinstance(mesh, skfem.MeshTri):  # points of the quadrilateral grid that this triangle holds
            held = (local.min(axis=0) > -1e-6) & (local.sum(axis=0) < 1.0 + 1e-6)
        values.append(merged(at_x[held], -sigma[0, 1][held], sigma[1, 1][held]))
    (x, *above), (_, *below) = values
    return x, 0.5 * (above[0] + below[0]), 0.5 * (above[1] + below[1])


def merged(x, *fields):
    """Fields in the order of x; a place that two triangles share gets their mean."""
    order = np.argsort(x, kind="stable")
    x = x[order]
    group = np.concatenate([[0], np.cumsum(np.diff(x) > 1e-9)])
    count = np.bincount(group)
    return tuple(np.bincount(group, f) / count for f in (x, *(field[order] for field in fields)))


# --- results ---------------------------------------------------------------------


def greatest(x, y, overlap):
    """Greatest value of y over the overlap and its place, on a cubic spline through the Gauss points.

    The search may reach the free faces (x = 0 and x = overlap), at most 0.2
    element beyond the outermost Gauss point.
    """
    spline = CubicSpline(x, y)
    knots = np.concatenate([[0.0], x, [overlap]])
    best = knots[np.argmax(spline(knots))]
    i = int(np.clip(np.searchsorted(knots, best), 1, len(knots) - 2))
    found = minimize_scalar(lambda s: -spline(s), bounds=(knots[i - 1], knots[i + 1]), method="bounded",
                            options={"xatol": 1e-10})
    place = found.x if -found.fun > spline(best) else best
    return float(spline(place)), float(place)


def stations(joint):
    """About 60 places along the bondline, dense within a few bondline thicknesses of its ends."""
    h, half = joint.bondline, joint.overlap / 2.0
    near = np.array([0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0]) * h
    near = near[near < 0.5 * half]
    far = np.geomspace(near[-1], half, 32 - len(near))[1:]
    left = np.concatenate([near, far])
    return np.concatenate([left, joint.overlap - left[-2::-1]])


@dataclass
class Key:
    """The numbers whose convergence is shown."""
    stiffness: float
    peak_shear: float
    peak_shear_x: float
    peak_shear_other: float
    peak_shear_other_x: float
    peak_peel: float
    peak_peel_x: float
    peak_peel_other: float
    peak_peel_other_x: float


def key_of(joint, solution):
    """Peaks of either half of the overlap; the greater one first."""
    x, overlap = solution.x, joint.overlap
    numbers = []
    for y in (solution.shear, solution.peel):
        left, right = x < overlap / 2.0, x >= overlap / 2.0
        ends = [greatest(x[left], y[left], overlap / 2.0)]
        mirrored, place = greatest(overlap - x[right][::-1], y[right][::-1], overlap / 2.0)
        ends.append((mirrored, overlap - place))
        # Equal adherends give equal ends; rounding must not choose between them.
        first = 1 if ends[1][0] > ends[0][0] * (1.0 + 1e-6) else 0
        numbers += [*ends[first], *ends[1 - first]]
    return Key(solution.stiffness, *numbers)


def number(value):
    text = f"{value:.6g}"
    if "e" in text:
        mantissa, exponent = text.split("e")
        return f"{mantissa if '.' in mantissa else mantissa + '.0'}e{int(exponent)}"
    return text if "." in text else text + ".0"


def numbers(values):
    return "[" + ", ".join(number(v) for v in values) + "]"


def adherend_line(name, a):
    return (f"{name} = {{ youngs_modulus_mpa = {number(a.youngs)}, poissons_ratio = {number(a.poissons)}, "
            f"thickness_mm = {number(a.thickness)}, arm_mm = {number(a.arm)} }}")


HEADER = """# Single-lap joints solved as plane-strain continua with quadratic finite elements.
# Written by lap_plane_strain.py; regenerate instead of editing.  README.md says how.
title = "Single-lap joints, plane-strain finite elements, first order"
source = "own computation with a general-purpose finite-element library; script lap_plane_strain.py beside this file"
known = "reference library"
library = "scikit-fem {skfem}, numpy {numpy}, scipy {scipy}"
date = {date}
units = "N, mm, MPa; load and stiffness per mm of width"
theory = "plane strain, linear elasticity, small displacements, equilibrium on the undeformed shape (first order)"
geometry = "adherend 1 above, from x = -arm_mm to overlap_mm; adherend 2 below, from 0 to overlap_mm + arm_mm; adhesive between, square ends without fillet; z up, x = 0 at the left end of the overlap"
ends = "far-left end face fixed along x and z over its whole thickness; far-right end face moved along x as one, held along z"
signs = "peel = sigma_zz, tension positive; shear positive where adherend 2 is pulled to the right; N, Q = integrals of sigma_xx, sigma_xz over an adherend's section, M = - integral of sigma_xx z' dz about its middle; shear_force_n_mm = Q in both arms"
stiffness = "load over the displacement of the far-right face relative to the far-left face"
peaks = "greatest value on the middle line of the bondline (z = 0), at either end of the overlap; the corners, where the continuum is singular, lie h/2 away and enter no number here"
convergence = "mesh 0 and two halvings of every element; the stored numbers are mesh 2; change_1 and change_2 are the relative changes of mesh 1 against 0 and of mesh 2 against 1"

[tolerance] # for a beam strip against these numbers; a joint's own table replaces an entry
stiffness = {{ relative = 0.01, why = "mesh error below 1e-4 (soft_thick 1e-3); a strip knows neither the contraction held at the grips (0.03 t of arm each) nor the stress field around the overlap ends, together about 0.2 t of the joint's length" }}
peak_shear = {{ relative = 0.10, why = "mesh error below 2e-3; a strip has no free bondline face: its greatest shear stands at x = 0, where the continuum has fallen to zero, and the continuum peaks about 0.6 h inside" }}
peak_peel = {{ relative = 0.15, why = "mesh error below 2e-3; a strip has neither the adherend's compliance through its thickness nor the free contraction at the bondline's face" }}
edge_moment = {{ relative = 0.01, why = "statics of the whole joint; a strip differs only through the stiffness against turning" }}
"""


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--date", required=True, help="date written into the file, YYYY-MM-DD")
    parser.add_argument("--only", help="name of one joint; prints, writes nothing")
    parser.add_argument("--levels", type=int, default=LEVELS)
    arguments = parser.parse_args()
    out = [HEADER.format(skfem=skfem.__version__, numpy=np.__version__, scipy=scipy.__version__, date=arguments.date)]
    for joint in JOINTS:
        if arguments.only not in (None, joint.name):
            continue
        solutions, keys = [], []
        for level in range(arguments.levels):
            started = time.perf_counter()
            solutions.append(solve(joint, level))
            keys.append(key_of(joint, solutions[-1]))
            print(joint.name, level, solutions[-1].elements, keys[-1], f"{solutions[-1].imbalance:.1e}",
                  f"{time.perf_counter() - started:.0f} s", file=sys.stderr, flush=True)
        other = key_of(joint, solve(joint, 1, triangles=True))
        print(joint.name, "triangles", other, file=sys.stderr, flush=True)
        if arguments.only is None:
            out.append(table(joint, solutions, keys, other))
    if arguments.only is None:
        text = "\n".join(out)
        tomllib.loads(text)
        pathlib.Path(__file__).with_suffix(".toml").write_text(text, encoding="utf-8")


def table(joint, solutions, keys, triangles):
    last, key = solutions[-1], keys[-1]
    x = stations(joint)

    def change(name, fine, coarse):
        return number(float(f"{getattr(fine, name) / getattr(coarse, name) - 1.0:.2g}"))

    shown = ("stiffness", "peak_shear", "peak_peel")
    lines_ = [
        "[[joint]]",
        f'name = "{joint.name}"',
        f'what = "{joint.what}; invented data"',
        adherend_line("upper", joint.upper),
        adherend_line("lower", joint.lower),
        f"overlap_mm = {number(joint.overlap)}",
        f"bondline_mm = {number(joint.bondline)}",
        f"adhesive = {{ youngs_modulus_mpa = {number(joint.adhesive_youngs)}, "
        f"poissons_ratio = {number(joint.adhesive_poissons)} }}",
        f"load_n_mm = {number(joint.load)}",
        "",
        "[joint.result]",
        f"stiffness_n_mm_mm = {number(key.stiffness)}",
        f"peak_shear_mpa = {number(key.peak_shear)}",
        f"peak_shear_x_mm = {number(key.peak_shear_x)}",
        f"peak_shear_other_end_mpa = {number(key.peak_shear_other)}",
        f"peak_peel_mpa = {number(key.peak_peel)}",
        f"peak_peel_x_mm = {number(key.peak_peel_x)}",
        f"peak_peel_other_end_mpa = {number(key.peak_peel_other)}",
        f"shear_force_n_mm = {number(last.shear_force)}",
        f"edge_moment_1_n = {number(last.moment_1)}",
        f"edge_moment_2_n = {number(last.moment_2)}",
        "",
        "[joint.mesh]",
        'element = "quadrilateral, nine nodes, biquadratic; tensor mesh graded toward the overlap ends, interfaces and grips"',
        f"elements = {[s.elements for s in solutions]}",
        f"unknowns = {[s.unknowns for s in solutions]}",
        f"elements_through_bondline = {[4 * 2 ** i for i in range(len(solutions))]}",
        *(f"{name}_of_mesh = {numbers(getattr(k, name) for k in keys)}" for name in shown),
        "change_1 = { " + ", ".join(f"{n} = {change(n, keys[1], keys[0])}" for n in shown) + " }",
        "change_2 = { " + ", ".join(f"{n} = {change(n, keys[2], keys[1])}" for n in shown) + " }",
        "# the same grid as mesh 1, every quadrilateral cut into two six-node triangles: relative to mesh 2",
        "triangles = { " + ", ".join(f"{n} = {change(n, triangles, key)}" for n in shown) + " }",
        f"imbalance = {number(float(f'{last.imbalance:.1g}'))} # worst of: shear sums to P, peel sums to -Q, moments of the whole joint",
        "",
        *(["[joint.tolerance]", joint.remark, ""] if joint.remark else []),
        "[joint.middle_line]",
        f"x_mm = {numbers(x)}",
        f"shear_mpa = {numbers(CubicSpline(last.x, last.shear)(x))}",
        f"peel_mpa = {numbers(CubicSpline(last.x, last.peel)(x))}",
        "",
    ]
    return "\n".join(lines_)


if __name__ == "__main__":
    main()
