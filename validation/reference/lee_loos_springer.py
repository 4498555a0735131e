"""Reference solutions: cure after Lee, Loos and Springer on holds, a ramp and a cycle of two holds.

    python3 -m venv /tmp/venv-cure
    /tmp/venv-cure/bin/pip install numpy==2.4.6 scipy==1.17.1
    /tmp/venv-cure/bin/python lee_loos_springer.py --date 2026-11-25     writes lee_loos_springer.toml, in seconds

    d alpha/dt = (K1 + K2 alpha) (1 - alpha) (B - alpha)    up to alpha = 0.3
    d alpha/dt = K3 (1 - alpha)                             above            K_i = A_i exp(-E_i/(R T))

W. I. Lee, A. C. Loos and G. S. Springer, Heat of reaction, degree of cure, and viscosity of Hercules 3501-6 resin,
Journal of Composite Materials 16 (1982) 510-520. The paper was not at hand: law and constants are from memory, and
two open programs for autoclave cure were read that have the same ones (one of them writes 2.102e9 for A1). No
published conversions were found to hold them against; temperatures and times here are our own.

The solution is stopped where alpha reaches 0.3 and started there again, so that no step straddles the jump of the
rate. Radau IIA of order 5 and DOP853 do the same, both at a relative tolerance of 1e-12; `agreement` is the greatest
difference of the two.
"""

import argparse
import math
import pathlib

import numpy
import scipy
from scipy.integrate import solve_ivp

R = 8.31446261815324
ZERO_C = 273.15
MINUTE = 60.0

# Rates in 1/min, energies in J/mol.
A = (2.101e9, -2.014e9, 1.960e5)
E = (8.07e4, 7.78e4, 5.66e4)
B, GEL = 0.47, 0.3

# Time in minutes, temperature in degrees Celsius; linear between.
TEMPERATURES = {
    "hold at 120 C": [(0, 120), (240, 120)],
    "hold at 150 C": [(0, 150), (120, 150)],
    "hold at 177 C": [(0, 177), (90, 177)],
    "ramp": [(0, 25), (80, 185)],
    "two holds": [(0, 25), (36, 116), (96, 116), (120, 177), (240, 177)],
}


def solve(samples, method):
    """Conversion at each sample and at four points between each two."""
    alpha, found, crossed = 0.0, [], None
    points = [
        (t0 + (t1 - t0) * k / 5, c0 + (c1 - c0) * k / 5)
        for (t0, c0), (t1, c1) in zip(samples, samples[1:])
        for k in range(5)
    ] + [samples[-1]]
    points = [(t * MINUTE, c) for t, c in points]
    for (t0, c0), (t1, c1) in zip(points, points[1:]):

        def k(index, t):
            kelvin = c0 + (c1 - c0) * (t - t0) / (t1 - t0) + ZERO_C
            return A[index] / MINUTE * math.exp(-E[index] / (R * kelvin))

        def before(t, y):
            return [(k(0, t) + k(1, t) * y[0]) * (1 - y[0]) * (B - y[0])]

        def above(t, y):
            return [k(2, t) * (1 - y[0])]

        def gel(t, y):
            return y[0] - GEL

        gel.terminal = True
        start = t0
        if alpha < GEL:
            part = solve_ivp(before, (t0, t1), [alpha], method=method, rtol=1e-12, atol=1e-14, events=gel)
            assert part.success, part.message
            alpha, start = float(part.y[0, -1]), float(part.t[-1])
            if part.t_events[0].size:
                alpha, start = GEL, float(part.t_events[0][0])
                crossed = start
        if start < t1:
            part = solve_ivp(above, (start, t1), [alpha], method=method, rtol=1e-12, atol=1e-14)
            assert part.success, part.message
            alpha = float(part.y[0, -1])
        found.append((t1, alpha))
    return found, crossed


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--date", required=True)
    date = parser.parse_args().date
    lines = [
        "# Cure after Lee, Loos and Springer 1982, by lee_loos_springer.py of this folder, which says where the",
        "# constants come from. Radau IIA of order 5 against DOP853, both at 1e-12, stopped where the rate jumps;",
        "# `agreement` is their greatest difference, so each figure holds far within 1e-5.",
        f"# Made on {date} with scipy {scipy.__version__}, numpy {numpy.__version__}.",
        "",
    ]
    for name, samples in TEMPERATURES.items():
        (radau, gel), (dop, other) = solve(samples, "Radau"), solve(samples, "DOP853")
        agreement = max(abs(x[1] - y[1]) for x, y in zip(radau, dop))
        assert agreement < 1e-9, (name, agreement)
        assert gel is not None and abs(gel - other) < 1e-4, (name, gel, other)
        lines.append("[[cure]]")
        lines.append(f'name = "{name}"')
        lines.append(f"agreement = {agreement:.1e}")
        lines.append(f"reaches_0_3_at_s = {gel:.3f}")
        lines.append("log_s = [" + ", ".join(repr(t * MINUTE) for t, _ in samples) + "]")
        lines.append("log_celsius = [" + ", ".join(repr(float(c)) for _, c in samples) + "]")
        lines.append("time_s = [" + ", ".join(repr(t) for t, _ in dop) + "]")
        lines.append("conversion = [" + ", ".join(f"{x:.10f}" for _, x in dop) + "]")
        lines.append("")
    pathlib.Path(__file__).with_suffix(".toml").write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
