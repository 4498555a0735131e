"""The lap of strip_to_failure.rs in numpy and scipy, loaded through its peak by its end's displacement.

Two Bernoulli beams (cubic w, quadratic u by a bubble) of plane strain, axial strain u' + w'^2/2, on a layer
asked at three Gauss points an element; bilinear mixed-mode law driven by the works, linear mixing rule:

    t = r k d      W_I = int t_n dd_n      W_II = int t_s dd_s      r k' = sqrt((1 - w)/(1 - w0))

The right end is moved in even steps, from the last that rises in quarters of them, until the peak is known to
what the load rises over LEAST_MM (0.1 %); each balance by Newton's method with the exact tangent, vectorised
over the elements, the bubbles eliminated, a band solved by LAPACK. Nothing is known of what comes after the peak.

    python3 peer_strip.py ELEMENTS GRADING STEPS REPEATS      prints: best seconds, capacity in N/mm, solutions
"""

import sys
import time

import numpy as np
from scipy.linalg import solve_banded
from scipy.optimize import brentq

E, NU, T, H, L, ARM = 70e3, 0.33, 1.6, 0.25, 12.5, 50.0
EP = E / (1.0 - NU * NU)
EA, EI = EP * T, EP * T**3 / 12.0
KS, KN = 1900.0 / (2.0 * 1.38) / H, 1900.0 / (1.0 - 0.38**2) / H
N, S, G1, G2 = 30.0, 24.0, 1.4, 2.6
A = 0.5 * (T + H)
LEAST_MM = 3e-4
G3 = (0.5 - np.sqrt(0.15), 0.5, 0.5 + np.sqrt(0.15)), (5 / 18, 8 / 18, 5 / 18)
G2P = (0.5 - np.sqrt(1 / 12), 0.5 + np.sqrt(1 / 12)), (0.5, 0.5)


def nodes(elements, grading):
    """Drawn together toward the ends of the overlap, even in the arms but for a stretch beside it."""
    def sinhc_inverse(ratio):
        return brentq(lambda y: np.sinh(y) / y - ratio, 1e-9, 20.0) if ratio > 1.0 else 1e-9
    d = 0.5 * sinhc_inverse(grading)
    over = 0.5 * L * (1.0 + np.tanh(d * np.linspace(-1.0, 1.0, elements + 1)) / np.tanh(d))
    y = sinhc_inverse(grading)
    arm = ARM * np.sinh(y * np.linspace(0.0, 1.0, 9)) / np.sinh(y)
    return np.concatenate((-arm[:0:-1], over, L + arm[1:])), 8


class Lap:
    """Unknowns of a node: u1 w1 turn1 u2 w2 turn2; of an element those of its nodes, then both bubbles."""

    def __init__(self, elements, grading):
        x, first = nodes(elements, grading)
        l = np.diff(x)
        n, m = len(x), len(l)
        self.n, self.m = n, m
        self.has = np.stack((np.arange(m) < first + elements, np.arange(m) >= first))
        self.bond = np.arange(first, first + elements)
        self.beams = []
        for a in range(2):
            for s, weight in zip(*G2P):
                strain, turn, curve = (np.zeros((m, 14)) for _ in range(3))
                strain[:, 3 * a], strain[:, 6 + 3 * a] = -1.0 / l, 1.0 / l
                strain[:, 12 + a] = 4.0 * (1.0 - 2.0 * s) / l
                turn[:, 3 * a + 1], turn[:, 6 + 3 * a + 1] = -6 * s * (1 - s) / l, 6 * s * (1 - s) / l
                turn[:, 3 * a + 2], turn[:, 6 + 3 * a + 2] = (1 - s) * (1 - 3 * s), s * (3 * s - 2)
                curve[:, 3 * a + 1], curve[:, 6 + 3 * a + 1] = (12 * s - 6) / l**2, (6 - 12 * s) / l**2
                curve[:, 3 * a + 2], curve[:, 6 + 3 * a + 2] = (6 * s - 4) / l, (6 * s - 2) / l
                self.beams.append((strain, turn, curve, weight * l * self.has[a]))
        lb = l[self.bond]
        slips, opens, weights = [], [], []
        for s, weight in zip(*G3):
            slip, opening = np.zeros((elements, 14)), np.zeros((elements, 14))
            for a, sign in ((0, -1.0), (1, 1.0)):
                slip[:, 3 * a], slip[:, 6 + 3 * a], slip[:, 12 + a] = sign * (1 - s), sign * s, sign * 4 * s * (1 - s)
                turn = (-6 * s * (1 - s) / lb, (1 - s) * (1 - 3 * s), 6 * s * (1 - s) / lb, s * (3 * s - 2))
                lift = (1 - 3 * s**2 + 2 * s**3, lb * s * (1 - s) ** 2, 3 * s**2 - 2 * s**3, lb * s**2 * (s - 1))
                for k, place in enumerate((3 * a + 1, 3 * a + 2, 7 + 3 * a, 8 + 3 * a)):
                    slip[:, place] = -A * turn[k]
                    opening[:, place] = -sign * lift[k]
            slips.append(slip), opens.append(opening), weights.append(weight * lb)
        self.rows = np.stack((np.stack(slips, 1), np.stack(opens, 1)), 2)  # element, point, slip or opening, unknown
        self.area = np.stack(weights, 1)
        index = np.arange(m)[:, None] * 6 + np.arange(12)
        self.index = index
        i, j = np.broadcast_to(index[:, :, None], (m, 12, 12)), np.broadcast_to(index[:, None, :], (m, 12, 12))
        self.place = ((11 + i - j) * (6 * n) + j).ravel()
        absent = [6 * k + c for k in range(n) for c in range(6)
                  if (c < 3 and k > first + elements) or (c >= 3 and k < first)]
        end = 6 * (n - 1)
        self.held = np.unique(absent + [0, 1, 2, end + 4, end + 5, end + 3])
        self.pulled = end + 3
        self.solutions = 0

    def layer(self, d, was):
        """Tractions, tangent and the state after, at every point of the layer; d: slip, opening."""
        k = np.array((KS, KN))
        strength, tough = np.array((S, N)), np.array((G2, G1))
        opening = np.maximum(d, (-np.inf, 0.0))
        elastic = k * opening
        ratio = elastic / strength
        square = (ratio**2).sum(-1)
        kappa = np.sqrt(square)
        slope = ratio * k / strength  # kappa times the slope of kappa
        full = 0.5 * elastic * opening / tough
        share = full.sum(-1)
        old = was["onset"] > 0.0
        first = ~old & (kappa > 1.0)
        with np.errstate(divide="ignore", invalid="ignore"):
            onset = np.where(old, was["onset"], np.where(first, share / square, 0.0))
            room = 1.0 - onset
            # Beginning to give: r = (1/kappa - w0)/(1 - w0).
            keep_first = np.maximum((1.0 / kappa - onset) / room, 0.0)
            onset_slope = (elastic / tough - 2.0 * onset[..., None] * slope) / square[..., None]
            first_slope = -slope / (kappa * square * room)[..., None] + ((keep_first - 1.0) / room)[..., None] * onset_slope
            put_in = 1.0 - room * (keep_first * kappa) ** 2
            # Giving on: r^2 kappa^2 (1 - w0) + sum (W/G)(r) - 1 = 0, the works linear in r.
            step = opening - was["open"]
            base = (was["work"] + 0.5 * was["pull"] * step) / tough
            lift = 0.5 * elastic * step / tough
            a, b, c = room * square, lift.sum(-1), base.sum(-1) - 1.0
            keep_on = np.where(c >= 0.0, 0.0, -2.0 * c / (b + np.sqrt(np.maximum(b * b - 4.0 * a * c, 0.0))))
            keep_on = np.where(a > 0.0, keep_on, was["keep"])
            gives = keep_on < was["keep"]
            keep_on = np.minimum(keep_on, was["keep"])
            work_slope = 0.5 * (was["pull"] + keep_on[..., None] * (elastic + k * step)) / tough
            on_slope = -(2.0 * (keep_on**2 * room)[..., None] * slope + work_slope) / (2.0 * a * keep_on + b)[..., None]
            on_slope = np.where((gives & (keep_on > 0.0))[..., None], on_slope, 0.0)
        keep = np.where(old, keep_on, np.where(first, keep_first, 1.0))
        slopes = np.where(old[..., None], on_slope, np.where((first & (keep_first > 0.0))[..., None], first_slope, 0.0))
        work_first = full * tough * np.where(keep_first > 0.0, put_in / np.where(share > 0, share, 1), 1.0 / np.where(share > 0, share, 1))[..., None]
        work_on = was["work"] + 0.5 * (was["pull"] + keep[..., None] * elastic) * step
        work = np.where(old[..., None], work_on, np.where(first[..., None], work_first, 0.5 * elastic * opening))
        pull = keep[..., None] * elastic
        tangent = elastic[..., :, None] * slopes[..., None, :]
        tangent[..., 0, 0] += keep * k[0]
        tangent[..., 1, 1] += keep * k[1]
        pressed = d[..., 1] < 0.0
        after = {"onset": onset, "keep": keep, "work": work, "pull": pull.copy(), "open": opening}
        pull[..., 1] = np.where(pressed, KN * d[..., 1], pull[..., 1])
        tangent[..., 1, :] = np.where(pressed[..., None], (0.0, KN), tangent[..., 1, :])
        tangent[..., 0, 1] = np.where(pressed, 0.0, tangent[..., 0, 1])
        return pull, tangent, after

    def weigh(self, motion, bubbles, was):
        local = np.concatenate((motion[self.index], bubbles), 1)
        stiff, force = np.zeros((self.m, 14, 14)), np.zeros((self.m, 14))
        for strain, turn, curve, area in self.beams:
            turned = np.einsum("ei,ei->e", turn, local)
            stretched = np.einsum("ei,ei->e", strain, local) + 0.5 * turned**2
            bent = np.einsum("ei,ei->e", curve, local)
            row = strain + turned[:, None] * turn
            pull = EA * stretched * area
            force += pull[:, None] * row + (EI * bent * area)[:, None] * curve
            both = np.stack((row, curve, turn), 1)
            weight = np.stack((EA * area, EI * area, pull), 1)
            stiff += np.matmul((both * weight[:, :, None]).transpose(0, 2, 1), both)
        d = np.einsum("egci,ei->egc", self.rows, local[self.bond])
        pull, tangent, after = self.layer(d, was)
        force[self.bond] += np.einsum("egci,egc,eg->ei", self.rows, pull, self.area)
        rows = self.rows.reshape(len(self.bond), 6, 14)
        on = np.einsum("egcd,egdi,eg->egci", tangent, self.rows, self.area).reshape(len(self.bond), 6, 14)
        stiff[self.bond] += np.matmul(rows.transpose(0, 2, 1), on)
        for a in range(2):
            stiff[~self.has[a], 12 + a, 12 + a] = 1.0
        inner = np.linalg.inv(stiff[:, 12:, 12:])
        lower = np.matmul(inner, stiff[:, 12:, :12])
        right = np.matmul(inner, force[:, 12:, None])[:, :, 0]
        outer = stiff[:, :12, :12] - np.matmul(stiff[:, :12, 12:], lower)
        own = force[:, :12] - np.matmul(stiff[:, :12, 12:], right[:, :, None])[:, :, 0]
        band = np.bincount(self.place, outer.ravel(), 23 * 6 * self.n).reshape(23, 6 * self.n)
        out = np.bincount(self.index.ravel(), own.ravel(), 6 * self.n)
        return band, out, (lower, right), after

    def hold(self, band, held):
        """Rows and columns of held unknowns."""
        size = band.shape[1]
        for off in range(-11, 12):
            columns = held + off
            ok = (columns >= 0) & (columns < size)
            band[11 - off, columns[ok]] = 0.0
        band[:, held] = 0.0
        band[11, held] = 1.0

    def load(self, step_mm, most):
        shape = (len(self.bond), 3)
        was = {"onset": np.zeros(shape), "keep": np.ones(shape), "work": np.zeros(shape + (2,)),
               "pull": np.zeros(shape + (2,)), "open": np.zeros(shape + (2,))}
        motion, bubbles = np.zeros(6 * self.n), np.zeros((self.m, 2))
        greatest, at, rate, kept = 0.0, 0.0, None, (motion, bubbles)
        while self.solutions < most and step_mm > LEAST_MM:
            motion, bubbles = kept
            if rate is not None:  # go on as before
                motion, bubbles = motion + step_mm * rate[0], bubbles + step_mm * rate[1]
            motion = motion.copy()
            motion[self.pulled] = at + step_mm
            for _ in range(25):
                band, out, (lower, right), after = self.weigh(motion, bubbles, was)
                load = out[self.pulled]
                out[self.held] = 0.0
                self.hold(band, self.held)
                moved = solve_banded((11, 11), band, -out, overwrite_ab=True, check_finite=False)
                self.solutions += 1
                motion = motion + moved
                bubbles = bubbles - right - np.matmul(lower, moved[self.index][:, :, None])[:, :, 0]
                if abs(moved @ out) <= 1e-13 * abs(load) * motion[self.pulled]:
                    break
            else:
                load = 0.0
            if load < greatest:  # over the peak, where the end has to go back: nearer to it
                step_mm *= 0.25
                continue
            at += step_mm
            rate = ((motion - kept[0]) / step_mm, (bubbles - kept[1]) / step_mm)
            kept, was, greatest = (motion, bubbles), after, load
        return greatest


def main():
    elements, grading, steps, repeats = int(sys.argv[1]), float(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4])
    best = np.inf
    for _ in range(repeats):
        start = time.perf_counter()
        lap = Lap(elements, grading)
        capacity = lap.load(1.2 / steps, 2000)
        best = min(best, time.perf_counter() - start)
    print(f"{best:.6f} {capacity:.4f} {lap.solutions}")


if __name__ == "__main__":
    main()
