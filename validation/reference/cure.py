"""Reference solutions: Kamal-Sourour cure on a ramp, a hold, two steps and a noisy log.

    python3 -m venv /tmp/venv-cure
    /tmp/venv-cure/bin/pip install numpy==2.4.6 scipy==1.17.1
    /tmp/venv-cure/bin/python cure.py --date 2026-11-25      writes cure.toml, in 10 s

    d alpha/dt = (k1 + k2 alpha^m) (1 - alpha)^n f        k_i = A_i exp(-E_i/(R T))
    f = 1, or 1/(1 + exp(C (alpha - alpha_c))), T_g(alpha_c) = T after DiBenedetto

An implicit method (Radau IIA of order 5) solves each stretch between two samples of the
temperature by itself, so that no step straddles a corner; an explicit one of order 8 (DOP853)
does the same, and the greatest difference of the two is stored as `agreement`. Both run at a
relative tolerance of 1e-12. Every adhesive and every temperature is invented.
"""

import argparse
import math
import pathlib

import numpy
import scipy
from scipy.integrate import solve_ivp

R = 8.31446261815324
ZERO_C = 273.15
HOUR = 3600.0

# Rates in 1/s, energies in J/mol, temperatures in degrees Celsius.
ADHESIVES = {
    "amine": dict(rate_1=1.0e4, activation_1=55e3, rate_2=1.0e5, activation_2=52e3, m=0.8, n=1.6),
    "stalling": dict(
        rate_1=1.0e4, activation_1=55e3, rate_2=1.0e5, activation_2=52e3, m=0.8, n=1.6,
        tg_uncured=-40.0, tg_cured=95.0, lambda_=0.4, steepness=30.0,
    ),
    "order": dict(rate_1=4.0e5, activation_1=62e3, rate_2=0.0, activation_2=50e3, m=1.0, n=1.3),
    "autocatalytic": dict(rate_1=2.0e3, activation_1=55e3, rate_2=6.0e5, activation_2=55e3, m=1.0, n=1.0),
}


def noisy_log():
    """A cold shop, a lamp, and a sensor that jumps by up to 1.5 K: a sample each 10 minutes."""
    generator = numpy.random.default_rng(20311107)
    samples = []
    for index in range(6 * 20 + 1):
        hours = index / 6
        base = 14.0 + 3.0 * math.sin(2 * math.pi * (hours - 6) / 24)
        lamp = 34.0 if 3.0 <= hours <= 9.0 else 0.0
        samples.append((600.0 * index, round(base + lamp + float(generator.uniform(-1.5, 1.5)), 2)))
    return samples


# Time in seconds, temperature in degrees Celsius; linear between.
TEMPERATURES = {
    "hold": [(0.0, 23.0), (24 * HOUR, 23.0)],
    "ramp": [(0.0, 5.0), (10 * HOUR, 65.0)],
    "two_step": [(0.0, 16.0), (2 * HOUR, 16.0), (3 * HOUR, 40.0), (6 * HOUR, 40.0), (6.5 * HOUR, 60.0),
                 (10 * HOUR, 60.0)],
    "noisy_log": noisy_log(),
}


def rate(a, celsius, alpha):
    kelvin = celsius + ZERO_C
    k1 = a["rate_1"] * math.exp(-a["activation_1"] / (R * kelvin))
    k2 = a["rate_2"] * math.exp(-a["activation_2"] / (R * kelvin))
    done = min(max(alpha, 0.0), 1.0)
    reaction = (k1 + k2 * done ** a["m"]) * (1.0 - done) ** a["n"]
    if "tg_cured" not in a:
        return reaction
    above, rise, shape = celsius - a["tg_uncured"], a["tg_cured"] - a["tg_uncured"], a["lambda_"]
    critical = above / (shape * rise + (1.0 - shape) * max(above, 0.0))
    return reaction / (1.0 + math.exp(a["steepness"] * (alpha - critical)))


def solve(adhesive, samples, method):
    alpha, found = 0.0, []
    for (t0, c0), (t1, c1) in zip(samples, samples[1:]):
        def f(t, y):
            return [rate(adhesive, c0 + (c1 - c0) * (t - t0) / (t1 - t0), y[0])]
        solution = solve_ivp(f, (t0, t1), [alpha], method=method, rtol=1e-12, atol=1e-14)
        assert solution.success, solution.message
        alpha = float(solution.y[0, -1])
        found.append((t1, alpha))
    return found


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--date", required=True)
    date = parser.parse_args().date
    lines = [
        "# Cure of invented adhesives on four temperatures, by cure.py of this folder.",
        "# d alpha/dt = (k1 + k2 alpha^m)(1 - alpha)^n, with the stall after Chern and Poehlein where",
        "# glass transitions are given. Radau IIA of order 5 against DOP853, both at 1e-12;",
        "# `agreement` is their greatest difference, so each figure holds far within 1e-5.",
        f"# Made on {date} with scipy {scipy.__version__}, numpy {numpy.__version__}.",
        "",
    ]
    for name, a in ADHESIVES.items():
        lines.append(f"[adhesives.{name}]")
        lines += [f"{key.rstrip('_')} = {float(value)!r}" for key, value in a.items()]
        lines.append("")
    for name, samples in TEMPERATURES.items():
        lines.append(f"[temperatures.{name}]")
        lines.append("time_s = [" + ", ".join(repr(float(t)) for t, _ in samples) + "]")
        lines.append("celsius = [" + ", ".join(repr(float(c)) for _, c in samples) + "]")
        lines.append("")
    for adhesive, constants in ADHESIVES.items():
        for temperature, samples in TEMPERATURES.items():
            # Hold and ramp have one stretch; split it, so that it is checked on its way, too.
            if len(samples) == 2:
                (_, c0), (end, c1) = samples
                shares = (0.0, 0.05, 0.1, 0.2, 0.4, 0.7, 1.0)
                samples = [(share * end, c0 + share * (c1 - c0)) for share in shares]
            radau = solve(constants, samples, "Radau")
            dop = solve(constants, samples, "DOP853")
            agreement = max(abs(x[1] - y[1]) for x, y in zip(radau, dop))
            assert agreement < 1e-8, (adhesive, temperature, agreement)
            kept = dop if len(dop) < 12 else dop[11::12]
            lines.append("[[cure]]")
            lines.append(f'adhesive = "{adhesive}"')
            lines.append(f'temperature = "{temperature}"')
            lines.append(f"agreement = {agreement:.1e}")
            lines.append("time_s = [" + ", ".join(repr(t) for t, _ in kept) + "]")
            lines.append("conversion = [" + ", ".join(f"{x:.10f}" for _, x in kept) + "]")
            lines.append("")
    pathlib.Path(__file__).with_suffix(".toml").write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
