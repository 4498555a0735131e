"""Checks the drawings of the example plate and of the main demo's sheet with readers that are not ours."""

import subprocess
import sys
from pathlib import Path

import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode

# Centre from the lower left corner, y up, and diameter, mm: said here once more, by hand.
HOLES = [
    (15.0, 15.0, 4.8),
    (40.125, 15.0, 4.8),
    (65.25, 15.0, 4.8),
    (15.0, 215.5, 4.8),
    (333.333, 201.75, 6.5),
    (370.0, 60.0, 40.0),
    (409.9, 219.05, 3.3),
]
HOLE_TOLERANCE = 0.01  # mm, as required
RULE, RULE_TOLERANCE = 100.0, 0.1  # mm, as required
DPI = 600
PIXEL = 25.4 / DPI
PAGES = {"plate-a4.pdf": (210.0, 297.0), "plate-letter.pdf": (215.9, 279.4)}


def check_dxf(path):
    document = ezdxf.readfile(path)
    audit = document.audit()
    assert not audit.errors, [error.message for error in audit.errors]
    assert not audit.fixes, [fix.message for fix in audit.fixes]
    assert document.header["$INSUNITS"] == 4, "the unit is the millimetre"
    space = document.modelspace()
    holes = sorted((c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius) for c in space.query("CIRCLE"))
    assert len(holes) == len(HOLES), f"{len(holes)} holes"
    for found, wanted in zip(holes, sorted(HOLES)):
        assert all(abs(f - w) <= HOLE_TOLERANCE for f, w in zip(found, wanted)), (found, wanted)
    layers = {kind: {e.dxf.layer for e in space.query(kind)} for kind in ("CIRCLE", "LINE", "LWPOLYLINE", "TEXT")}
    wanted = {"CIRCLE": {"holes"}, "LINE": {"folds"}, "LWPOLYLINE": {"cut"}, "TEXT": {"text"}}
    assert layers == wanted, layers
    for layer in ("cut", "holes", "folds", "text"):
        assert layer in document.layers, layer
    # The loop of the cut: closed, and its sloping edge on the upper left.
    (cut,) = space.query("LWPOLYLINE")
    corners = [(round(x, 6), round(y, 6)) for x, y in cut.get_points("xy")]
    assert cut.closed and corners == [(2, 2), (418, 2), (418, 228), (2, 220)], corners
    texts = {decode_dxf_unicode(t.dxf.text) for t in space.query("TEXT")}
    assert "Ø 4.8 H11, t = 2 mm, ρ = 2.7 g/cm³" in texts, texts
    print(f"{path.name}: {len(holes)} holes within {HOLE_TOLERANCE} mm")


def check_sheet(path):
    """The sheet of the main demo: every hole where the job file puts it."""
    document = ezdxf.readfile(path)
    assert document.header["$INSUNITS"] == 4, "the unit is the millimetre"
    circles = document.modelspace().query("CIRCLE")
    holes = [(c.dxf.center.x, c.dxf.center.y, 2 * c.dxf.radius) for c in circles if c.dxf.layer.endswith("holes")]
    # One row at 30 mm from each cut face, the gap 2 mm; two holes on the 80 mm faces, three on the 120 mm faces.
    middle = sum(x for x, _, _ in holes) / len(holes)
    assert len(holes) == 20, len(holes)
    for x, _, diameter in holes:
        assert abs(abs(x - middle) - 31.0) <= HOLE_TOLERANCE, x - middle
        assert abs(diameter - 6.6) <= HOLE_TOLERANCE, diameter
    for side in (-1, 1):
        heights = sorted((y for x, y, _ in holes if (x - middle) * side > 0), reverse=True)
        faces = [heights[0:2], heights[2:5], heights[5:7], heights[7:10]]
        for face in faces:
            pitches = [a - b for a, b in zip(face, face[1:])]
            assert all(abs(pitch - 35.0) <= HOLE_TOLERANCE for pitch in pitches), pitches
        # From the middle of a face to that of the next around the corner: half of both faying surfaces, which lie at
        # mid-bondline: 71.5 and 111.5 mm.
        middles = [sum(face) / len(face) for face in faces]
        steps = [a - b for a, b in zip(middles, middles[1:])]
        assert all(abs(step - (71.5 + 111.5) / 2) <= HOLE_TOLERANCE for step in steps), steps
    print(f"{path.name}: 20 holes within {HOLE_TOLERANCE} mm")


def grey(path, page):
    """One page as rows of grey bytes."""
    done = subprocess.run(
        ["pdftoppm", "-gray", "-r", str(DPI), "-f", str(page), "-l", str(page), str(path)],
        check=True,
        capture_output=True,
    )
    kind, size, most, pixels = done.stdout.split(b"\n", 3)
    assert kind == b"P5" and most == b"255"
    width, height = map(int, size.split())
    assert len(pixels) == width * height
    return [pixels[row * width : (row + 1) * width] for row in range(height)]


def runs(row, darkness):
    """Stretches of a row that are darker than a grey: first pixel and the one after the last."""
    found, start = [], None
    for x, value in enumerate(row + b"\xff"):
        if value < darkness and start is None:
            start = x
        elif value >= darkness and start is not None:
            found.append((start, x))
            start = None
    return found


def centre(row, start, end):
    """Middle of a line across a row, weighed by its ink, so that it is finer than a pixel."""
    ink = [(x + 0.5, 255 - row[x]) for x in range(max(start - 2, 0), min(end + 2, len(row)))]
    return sum(x * weight for x, weight in ink) / sum(weight for _, weight in ink)


def measured_rule(rows):
    """Length of the rule, mm, from the middle of one end mark to that of the other.

    The rule is the dark horizontal line at the foot of the page whose length is nearest 100 mm; its
    end marks stand higher than all between them.
    """
    foot = round(34 / PIXEL)
    lines = [
        (abs((end - start) * PIXEL - RULE), y, start, end)
        for y in range(len(rows) - foot, len(rows))
        for start, end in runs(rows[y], 128)
        if (end - start) * PIXEL > 50
    ]
    _, y, start, end = min(lines)
    above = rows[y - round(3 / PIXEL)]
    marks = [run for run in runs(above, 128) if start - 20 <= run[0] and run[1] <= end + 20]
    assert len(marks) == 2, f"{len(marks)} end marks"
    left, right = (centre(above, *mark) for mark in marks)
    return (right - left) * PIXEL


def check_pdf(path, size):
    about = subprocess.run(["pdfinfo", str(path)], check=True, capture_output=True, text=True).stdout
    fields = dict(line.split(":", 1) for line in about.splitlines() if ":" in line)
    pages = int(fields["Pages"])
    assert pages > 1, "the plate is larger than a page"
    found = sorted(float(part) / 72 * 25.4 for part in fields["Page size"].split()[:3:2])
    assert all(abs(f - w) < 0.01 for f, w in zip(found, sorted(size))), found
    for page in range(1, pages + 1):
        length = measured_rule(grey(path, page))
        assert abs(length - RULE) <= RULE_TOLERANCE, f"page {page}: {length:.3f} mm"
        print(f"{path.name}, page {page}: the rule measures {length:.3f} mm")


folder = Path(sys.argv[1])
check_dxf(folder / "plate.dxf")
check_sheet(folder / "rail.dxf")
for name, size in PAGES.items():
    check_pdf(folder / name, size)
