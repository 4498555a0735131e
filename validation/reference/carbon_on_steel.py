"""Toughness of carbon-fibre strips on steel, from the tests themselves, each row left out of its own.

    python carbon_on_steel.py        reads carbon_on_steel_tests.toml, writes carbon_on_steel.toml

The series has no toughness.  A strip that is pulled off a rigid base gives up
F^2/(2 E t b^2) for each millimetre, so a bond longer than its process zone holds

    F = b sqrt(2 G E t)          G = F^2/(2 E t b^2)

Each row gets the toughness that *other* rows of the same adhesive show:

long      other long rows at the same bondline (mean of G)
length    long rows of the same adhesive at the same bondline, for rows that differ in bond length
bondline  the series' own table of G by bondline (nominal bondlines, mean of each), without the row,
          interpolated; a row beside an end of the table, at the same bondline, takes the end
between   the same with the whole nominal bondline left out, where there is one on either side

Same adhesive: equal modulus, strength and strain, and strain energy where both rows have one.  Same bondline: within 0.1 mm or a
tenth of the thicker.  Long: L >= (pi/2) F/(b sig_a), the length over which a bond that softens
linearly from the strength sig_a gives way at F; no bond-length row counts as long here.

The series has no shear strength: sig_a stands for it.  `long_bond_n` is the formula above with the
toughness of the row.
"""

import math
import pathlib
import tomllib

HERE = pathlib.Path(__file__).parent
BOND_LENGTH = {"stiff": range(22, 27), "ductile": range(34, 39), "20 mm": range(72, 76)}
BONDLINE = {"stiff": range(27, 34), "ductile": range(39, 45)}


def shown(row):
    return (row["F_kN"] * 1e3 / row["b"]) ** 2 / (2.0 * row["E"] * row["t"])


def same_adhesive(a, b):
    energies = {row["Ua"] for row in (a, b) if "Ua" in row}
    return len(energies) <= 1 and all(a[key] == b[key] for key in ("Ea", "sig_a", "eps_a_pct"))


def same_bondline(a, b):
    return abs(a - b) <= max(0.1, 0.1 * max(a, b)) + 1e-12


def is_long(row):
    if any(row["n"] in rows for rows in BOND_LENGTH.values()):
        return False
    return row["L"] >= 0.5 * math.pi * row["F_kN"] * 1e3 / (row["b"] * row["sig_a"])


def mean(values):
    return sum(values) / len(values)


def nominal(rows):
    """Mean bondline and mean toughness of each run of neighbouring bondlines."""
    groups = []
    for row in sorted(rows, key=lambda row: row["ta"]):
        if groups and same_bondline(groups[-1][-1]["ta"], row["ta"]):
            groups[-1].append(row)
        else:
            groups.append([row])
    return [(mean([row["ta"] for row in group]), mean([shown(row) for row in group])) for group in groups]


def by_bondline(table, ta):
    for (a, ga), (b, gb) in zip(table, table[1:]):
        if a <= ta <= b:
            return ga + (gb - ga) * (ta - a) / (b - a)
    end = table[0] if ta < table[0][0] else table[-1]
    return end[1] if same_bondline(end[0], ta) else None


def entry(row, use, series, toughness):
    closed = row["b"] * math.sqrt(2.0 * toughness * row["E"] * row["t"])
    return (
        f'[[test]]\nuse = "{use}"\nseries = "{series}"\nn = {row["n"]}\n'
        f'strip = {{ youngs_modulus_mpa = {row["E"]}, thickness_mm = {row["t"]} }}\n'
        f'adhesive_modulus_mpa = {row["Ea"]}\nshear_strength_mpa = {row["sig_a"]}\n'
        f'bondline_mm = {row["ta"]}\noverlap_mm = {row["L"]}\nwidth_mm = {row["b"]}\n'
        f"mode_2_toughness_n_mm = {toughness:.6g}\nlong_bond_n = {closed:.6g}\ncapacity_n = {row['F_kN'] * 1e3:.6g}\n"
    )


def main():
    rows = tomllib.loads((HERE / "carbon_on_steel_tests.toml").read_text())["row"]
    long_rows = [row for row in rows if is_long(row)]
    tests, off = [], []
    for row in long_rows:
        others = [
            shown(other) for other in long_rows
            if other is not row and same_adhesive(row, other) and same_bondline(row["ta"], other["ta"])
        ]
        if others:
            tests.append(entry(row, "long", "all", mean(others)))
            off.append((row["n"], math.sqrt(mean(others) / shown(row)) - 1.0))
    for series, numbers in BOND_LENGTH.items():
        for row in (row for row in rows if row["n"] in numbers):
            others = [
                shown(other) for other in long_rows
                if same_adhesive(row, other) and same_bondline(row["ta"], other["ta"])
            ]
            tests.append(entry(row, "length", series, mean(others)))
    for series, numbers in BONDLINE.items():
        own = [row for row in rows if row["n"] in numbers]
        for row in own:
            table = nominal([other for other in own if other is not row])
            tests.append(entry(row, "bondline", series, by_bondline(table, row["ta"])))
            table = nominal([other for other in own if not same_bondline(other["ta"], row["ta"])])
            if table[0][0] < row["ta"] < table[-1][0]:
                tests.append(entry(row, "between", series, by_bondline(table, row["ta"])))
    for n, error in off:
        if abs(error) > 0.14: print(n, f"{error:+.3f}")
    errors = [error for _, error in off]
    print(len(errors), "long rows, mean", mean(errors), "mean magnitude", mean([abs(e) for e in errors]))
    head = (
        "# Tests of carbon-fibre strips on steel with a toughness taken from the other tests of the series.\n"
        "# Written by carbon_on_steel.py from carbon_on_steel_tests.toml, which names the source; regenerate\n"
        "# instead of editing. The script says how the toughness of each row was found.\n"
    )
    (HERE / "carbon_on_steel.toml").write_text(head + "\n" + "\n".join(tests))


if __name__ == "__main__":
    main()
