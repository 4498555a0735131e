"""Cuts the house typeface down to what the drawings need and writes its advance widths as Rust.

    apt-get install fonts-b612 && pip install fonttools brotli
    python make.py        # run in assets/fonts; writes *.otf, *.woff2 and the table of widths

The files are committed: this runs only when the typeface or the set of signs changes.
"""

from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

SOURCE = Path("/usr/share/fonts/opentype/b612")
WIDTHS = Path("../../crates/drawing/src/lettering/widths.rs")
CUTS = ["Regular", "Bold"]

# Latin, Greek, punctuation, raised and lowered digits, fractions, arrows, mathematical signs.
RANGES = [
    (0x0020, 0x007E), (0x00A0, 0x017F), (0x02C6, 0x02DD), (0x0370, 0x03FF), (0x2010, 0x203A),
    (0x2070, 0x208E), (0x20AC, 0x20AC), (0x2103, 0x2103), (0x2122, 0x2126), (0x2150, 0x215F),
    (0x2190, 0x2195), (0x2200, 0x22EF),
]
SIGNS = [code for first, last in RANGES for code in range(first, last + 1)]


def cut(name):
    font = TTFont(SOURCE / f"B612-{name}.otf", recalcTimestamp=False)
    options = subset.Options()
    # Without pair kerning a line is exactly as long as the sum of its advance widths.
    options.layout_features = []
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 7, 13, 14]
    options.drop_tables += ["GPOS", "GSUB", "GDEF"]
    options.notdef_outline = True
    options.recalc_timestamp = False
    work = subset.Subsetter(options)
    work.populate(unicodes=SIGNS)
    work.subset(font)
    font.save(f"B612-{name}.otf")
    font.flavor = "woff2"
    font.save(f"B612-{name}.woff2")
    return font


def widths(regular, bold):
    rows = []
    for code, glyph in sorted(regular.getBestCmap().items()):
        width = regular["hmtx"][glyph][0]
        # One table serves both cuts; the measuring in the crate relies on it.
        assert width == bold["hmtx"][bold.getBestCmap()[code]][0], hex(code)
        rows.append(f"('\\u{{{code:04X}}}', {width})")
    lines = [", ".join(rows[i:i + 6]) for i in range(0, len(rows), 6)]
    em = regular["head"].unitsPerEm
    return (
        "//! Advance widths of B612 1.008 as cut down in `assets/fonts`, written by `make.py` there.\n\n"
        f"/// Units of the widths in one em.\npub(super) const UNITS_PER_EM: f64 = {em}.0;\n\n"
        "/// Sign and advance width, the same in Regular and Bold; in the order of the signs.\n"
        "#[rustfmt::skip]\n"
        f"pub(super) const ADVANCES: [(char, u16); {len(rows)}] = [\n    "
        + ",\n    ".join(lines) + ",\n];\n"
    )


fonts = [cut(name) for name in CUTS]
WIDTHS.parent.mkdir(parents=True, exist_ok=True)
WIDTHS.write_text(widths(*fonts), encoding="utf-8")
