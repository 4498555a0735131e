"""Reference values: non-central t distribution and one-sided tolerance factors.

Distribution function of T = (Z + delta)/sqrt(chi2_nu/nu) on a grid, and the factor

    k = t'_gamma(n - 1, z_p sqrt n) / sqrt n

for n = 3 to 100, both from a general-purpose numerical library (scipy.stats.nct).
Every tenth value is computed a second time in 30-digit arithmetic from the
definition (mpmath), and the greatest difference is stored.  Where the library
has no value (nan, deep in the lower tail), the definition gives it.

    python noncentral_t.py --date 2026-11-25        writes noncentral_t.toml

Needs numpy, scipy, mpmath.
"""

import argparse
import math
import pathlib

import mpmath
import scipy
from scipy import stats

mpmath.mp.dps = 30

DEGREES = [1, 2, 3, 5, 10, 30, 100, 200]
NONCENTRALITIES = [-2.0, 0.0, 1.0, 5.0, 12.0, 25.0, 40.0]
SHIFTS = [-2.0, -0.5, 0.0, 1.0, 3.0]
LEVELS = [(0.90, 0.95), (0.99, 0.95), (0.95, 0.75), (0.90, 0.50)]
SIZES = list(range(3, 101))


def cdf_by_definition(t, degrees, delta):
    """Integral of the normal distribution function over the density of w = sqrt(chi2/nu)."""
    t, nu, delta = mpmath.mpf(t), mpmath.mpf(degrees), mpmath.mpf(delta)
    scale = 2 * (nu / 2) ** (nu / 2) / mpmath.gamma(nu / 2)

    def integrand(w):
        return mpmath.ncdf(t * w - delta) * scale * w ** (nu - 1) * mpmath.exp(-nu * w * w / 2)

    # Broken where the density and the normal function change fastest.
    width = 1 / mpmath.sqrt(2 * nu)
    marks = {mpmath.mpf(0)} | {1 + k * width for k in (-12, -6, -3, -1, 0, 1, 3, 6, 12)}
    if t != 0:
        marks |= {(delta + k) / t for k in (-8, -3, 0, 3, 8)}
    top = 1 + 20 * width
    inside = sorted(m for m in marks if 0 <= m < top) + [top]
    return mpmath.quad(integrand, inside)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--date", required=True)
    date = parser.parse_args().date

    rows, worst_cdf = [], 0.0
    for degrees in DEGREES:
        for delta in NONCENTRALITIES:
            for shift in SHIFTS:
                t = delta + shift * (1 + abs(delta) / degrees**0.5)
                value = float(stats.nct.cdf(t, degrees, delta) if delta else stats.t.cdf(t, degrees))
                if not math.isfinite(value):
                    value = float(cdf_by_definition(t, degrees, delta))
                rows.append((degrees, delta, t, value))
    for degrees, delta, t, value in rows[::10]:
        worst_cdf = max(worst_cdf, abs(float(cdf_by_definition(t, degrees, delta)) - value))

    tables, worst_k = [], 0.0
    for proportion, confidence in LEVELS:
        z = float(stats.norm.ppf(proportion))
        factors = []
        for n in SIZES:
            factors.append(float(stats.nct.ppf(confidence, n - 1, z * n**0.5)) / n**0.5)
        for n, k in list(zip(SIZES, factors))[::10]:
            # One Newton step on the definition gives the error of k.
            t, delta = k * n**0.5, z * n**0.5
            density = float(stats.nct.pdf(t, n - 1, delta))
            error = (float(cdf_by_definition(t, n - 1, delta)) - confidence) / density / n**0.5
            worst_k = max(worst_k, abs(error))
        tables.append((proportion, confidence, factors))

    out = [
        "# Non-central t distribution and one-sided tolerance factors.",
        "# Written by noncentral_t.py; regenerate instead of editing.",
        'title = "Non-central t distribution function and one-sided normal tolerance factors"',
        'source = "general-purpose numerical library; script noncentral_t.py beside this file"',
        'known = "reference library"',
        f'library = "scipy {scipy.__version__} (stats.nct), checked with and, where it has none, replaced by mpmath {mpmath.__version__} at 30 digits"',
        f"date = {date}",
        f"checked_cdf = {worst_cdf:.1e}  # greatest difference of every tenth value from the definition",
        f"checked_factor = {worst_k:.1e}  # the same for the factors",
        "",
        "[tolerance]",
        'cdf = { absolute = 1e-10, why = "both sides claim more digits; checked_cdf says what the reference has" }',
        'factor = { absolute = 1e-8, why = "far below the last printed digit of any table, above the rounding of both searches" }',
        "",
        "[cdf]  # column by column",
        f"degrees = {[row[0] for row in rows]}",
        f"noncentrality = {[row[1] for row in rows]}",
        f"t = {[row[2] for row in rows]}",
        f"value = {[row[3] for row in rows]}",
    ]
    for proportion, confidence, factors in tables:
        out += [
            "",
            "[[factor]]",
            f"proportion = {proportion}",
            f"confidence = {confidence}",
            f"n = {SIZES}",
            f"k = {factors}",
        ]
    path = pathlib.Path(__file__).with_suffix(".toml")
    path.write_text("\n".join(out) + "\n")
    print(worst_cdf, worst_k)


if __name__ == "__main__":
    main()
