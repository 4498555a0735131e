"""Reference solutions: properties of cross-sections by two-dimensional finite elements.

Each section is meshed as the solid it is, with quadratic triangles; torsion and
shear are solved as the warping problems of Saint-Venant (no thin-wall theory).
The general-purpose library `sectionproperties` does the meshing and solving.

    pip install sectionproperties==3.10.2       (Python 3.11 or later)
    python sections.py --date 2026-11-25        writes sections.toml, in 4 min on two cores

Axes: y to the right, z up (the library's x and y); origin at the centre of the
outside rectangle, or where the nodes say.  i_y about the y axis through the
centroid, i_yz = integral of y z; principal_angle turns the y axis to the axis
with the greatest second moment, towards z, in degrees, -90 to 90.  Shear centre
by the theory of elasticity for the Poisson's ratio given.  Shear areas from the
energy of the shear stresses, V^2 / (2 G A_s), force through the shear centre.
Moments of a section of two materials are weighted with E/E_reference, the
torsion constant and the shear areas with G/G_reference.
"""

import argparse
import importlib.metadata
import math
import pathlib

from sectionproperties.analysis import Section
from sectionproperties.pre import Geometry, Material
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry import box as rectangle
from shapely.ops import unary_union

RATIOS = (0.0, 0.33)
YOUNGS = 70000.0
# Greatest triangle, as a fraction of the thinnest wall's t^2; the coarse mesh tells the error.
FINE, COARSE = 1 / 24, 1 / 8


def rounded(width, height, radius):
    if radius == 0:
        return rectangle(-width / 2, -height / 2, width / 2, height / 2)
    core = rectangle(-width / 2 + radius, -height / 2 + radius, width / 2 - radius, height / 2 - radius)
    return core.buffer(radius, quad_segs=32)


def box(width, height, wall, inner_radius):
    outer = inner_radius + wall if inner_radius > 0 else 0
    return rounded(width, height, outer).difference(
        rounded(width - 2 * wall, height - 2 * wall, inner_radius)
    )


def channel(web, flange, wall):
    h, b, t = web / 2, flange / 2, wall
    return unary_union([rectangle(-b, -h, -b + t, h), rectangle(-b, h - t, b, h), rectangle(-b, -h, b, -h + t)])


def hat(top, height, flange, wall, plate):
    low = -(height + plate) / 2
    foot, crown, half = low + plate, low + plate + height, top / 2
    parts = [rectangle(-half, crown - wall, half, crown), rectangle(-half - flange, low, half + flange, foot)]
    for sign in (-1, 1):
        web = sorted((sign * half, sign * (half - wall)))
        rim = sorted((sign * (half - wall), sign * (half + flange)))
        parts.append(rectangle(web[0], foot, web[1], crown))
        parts.append(rectangle(rim[0], foot, rim[1], foot + wall))
    return unary_union(parts)


def tube(outside_diameter, wall):
    radius = outside_diameter / 2
    return Point(0, 0).buffer(radius, quad_segs=64).difference(Point(0, 0).buffer(radius - wall, quad_segs=64))


def plate(width, thickness):
    return rectangle(-width / 2, -thickness / 2, width / 2, thickness / 2)


def strips(nodes, walls):
    """Walls as strips: square where a wall ends free, mitred or filled where walls meet."""
    chains = {}
    for start, end, thickness in walls:
        chains.setdefault(thickness, []).append(LineString([nodes[start], nodes[end]]))
    degree = [0] * len(nodes)
    for start, end, _ in walls:
        degree[start] += 1
        degree[end] += 1
    parts = []
    for start, end, thickness in walls:
        (y1, z1), (y2, z2) = nodes[start], nodes[end]
        length = math.hypot(y2 - y1, z2 - z1)
        uy, uz, half = (y2 - y1) / length, (z2 - z1) / length, thickness / 2
        # At a corner of right-angled walls the strip runs on to the outer face of the others.
        a = reach(start, (uy, uz), nodes, walls) if degree[start] > 1 else 0.0
        b = reach(end, (uy, uz), nodes, walls) if degree[end] > 1 else 0.0
        y1, z1, y2, z2 = y1 - a * uy, z1 - a * uz, y2 + b * uy, z2 + b * uz
        parts.append(
            Polygon(
                [
                    (y1 - half * uz, z1 + half * uy),
                    (y2 - half * uz, z2 + half * uy),
                    (y2 + half * uz, z2 - half * uy),
                    (y1 + half * uz, z1 - half * uy),
                ]
            )
        )
    return unary_union(parts)


def reach(node, direction, nodes, walls):
    """Half the thickness of the walls that cross `direction` at the node."""
    thickest = 0.0
    for start, end, thickness in walls:
        if node in (start, end):
            (y1, z1), (y2, z2) = nodes[start], nodes[end]
            along = ((y2 - y1) * direction[0] + (z2 - z1) * direction[1]) / math.hypot(y2 - y1, z2 - z1)
            if abs(along) < 1e-9:
                thickest = max(thickest, thickness)
    return thickest / 2


TWO_CELL = dict(
    nodes=[(-60, -30), (10, -30), (60, -30), (60, 30), (10, 30), (-60, 30)],
    walls=[(0, 1, 3), (1, 2, 3), (2, 3, 4), (3, 4, 3), (4, 5, 3), (5, 0, 3), (1, 4, 2)],
)
# A slit of 1 mm in the middle of the right wall.
SLIT = dict(
    nodes=[(50, 0.5), (50, 30), (-50, 30), (-50, -30), (50, -30), (50, -0.5)],
    walls=[(0, 1, 3), (1, 2, 3), (2, 3, 3), (3, 4, 3), (4, 5, 3)],
)
ANGLE = dict(nodes=[(0, 77), (0, 0), (47, 0)], walls=[(0, 1, 6), (1, 2, 6)])
ZED = dict(nodes=[(48, 48), (0, 48), (0, -48), (-48, -48)], walls=[(0, 1, 4), (1, 2, 4), (2, 3, 4)])
# The top wall of the closed box stands for another material, three times as stiff.
TWO_MATERIALS = dict(
    nodes=[(-40, -30), (40, -30), (40, 30), (-40, 30)],
    walls=[(0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4)],
    youngs=[YOUNGS, YOUNGS, 3 * YOUNGS, YOUNGS],
)

SHAPES = {"box": box, "channel": channel, "hat": hat, "tube": tube, "plate": plate}
SECTIONS = [
    ("casting", "box", dict(width=80, height=120, wall=4, inner_radius=8), 4),
    ("insert", "box", dict(width=71, height=111, wall=3, inner_radius=4.5), 3),
    ("sharp_box", "box", dict(width=103, height=63, wall=3, inner_radius=0), 3),
    ("thick_box", "box", dict(width=40, height=60, wall=5, inner_radius=0), 5),
    ("two_cell", "strips", TWO_CELL, 2),
    ("hat_with_plate", "hat", dict(top=60, height=50, flange=25, wall=2, plate=3), 2),
    ("slit_box", "strips", SLIT, 3),
    ("thick_channel", "channel", dict(web=80, flange=40, wall=8), 8),
    ("angle", "strips", ANGLE, 6),
    ("zed", "strips", ZED, 4),
    ("tube", "tube", dict(outside_diameter=60, wall=5), 5),
    ("plate", "plate", dict(width=40, thickness=10), 10),
    ("two_materials", "strips", TWO_MATERIALS, 4),
]


def geometry(kind, data, ratio):
    def material(youngs):
        return Material(f"E {youngs}", youngs, ratio, 1.0, 1.0, "white")

    if "youngs" not in data:
        shape = strips(**data) if kind == "strips" else SHAPES[kind](**data)
        return Geometry(shape, material(YOUNGS))
    whole = strips(data["nodes"], data["walls"])
    stiff = [i for i, e in enumerate(data["youngs"]) if e != YOUNGS]
    # The stiff walls end on the mitres: cut their strips out along the bisectors of the corners.
    part = unary_union([mitred(data, i) for i in stiff])
    return Geometry(whole.difference(part), material(YOUNGS)) + Geometry(part, material(data["youngs"][stiff[0]]))


def mitred(data, index):
    """The trapezium of a wall of a rectangle of equal walls, bounded by the diagonals of its corners."""
    start, end, thickness = data["walls"][index]
    (y1, z1), (y2, z2) = data["nodes"][start], data["nodes"][end]
    length = math.hypot(y2 - y1, z2 - z1)
    uy, uz, half = (y2 - y1) / length, (z2 - z1) / length, thickness / 2
    corners = [(y1, z1, 1, 1), (y2, z2, -1, 1), (y2, z2, 1, -1), (y1, z1, -1, -1)]
    return Polygon([(y + half * (a * uy - b * uz), z + half * (a * uz + b * uy)) for y, z, a, b in corners])


def solve(kind, data, thinnest, ratio, fraction):
    shape = geometry(kind, data, ratio)
    shape.create_mesh([fraction * thinnest**2], min_angle=30)
    section = Section(shape)
    section.calculate_geometric_properties()
    section.calculate_warping_properties()
    section.calculate_plastic_properties()
    properties = section.section_props
    shear = YOUNGS / (2 * (1 + ratio))
    area = properties.ea / YOUNGS
    angle = math.degrees(
        0.5 * math.atan2(-2 * properties.ixy_c, properties.ixx_c - properties.iyy_c)
    )
    # The library weights with E throughout; with one Poisson's ratio E/E_ref = G/G_ref.
    return {
        "area": area,
        "centroid_y": properties.cx,
        "centroid_z": properties.cy,
        "i_y": properties.ixx_c / YOUNGS,
        "i_z": properties.iyy_c / YOUNGS,
        "i_yz": properties.ixy_c / YOUNGS,
        "i_1": properties.i11_c / YOUNGS,
        "i_2": properties.i22_c / YOUNGS,
        "principal_angle": angle,
        "torsion_constant": properties.j / YOUNGS,
        "shear_centre_y": properties.cx + properties.x_se,
        "shear_centre_z": properties.cy + properties.y_se,
        "shear_area_y": properties.a_sx / YOUNGS,
        "shear_area_z": properties.a_sy / YOUNGS,
        "warping_constant": properties.gamma / YOUNGS,
        "plastic_modulus_y": properties.sxx,
        "plastic_modulus_z": properties.syy,
    }


def number(value):
    value = 0.0 if abs(value) < 1e-9 else float(value)
    return f"{value:.8g}" if "e" in f"{value:.8g}" or "." in f"{value:.8g}" else f"{value:.8g}.0"


def inline(data):
    return "{ " + ", ".join(f"{key} = {number(value)}" for key, value in data.items()) + " }"


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--date", required=True)
    arguments = parser.parse_args()
    version = importlib.metadata.version("sectionproperties")
    out = [
        "# Cross-section properties by two-dimensional finite elements.",
        "# Written by sections.py; regenerate instead of editing.",
        'title = "Cross-section properties, 2-D finite elements with warping functions"',
        'source = "own computation with a general-purpose open-source section solver; script sections.py beside this file"',
        'known = "reference library"',
        f'library = "sectionproperties {version}"',
        f"date = {arguments.date}",
        'units = "N, mm, MPa, degrees"',
        'axes = "y to the right, z up; centroid and shear centre in the section\'s coordinates; i_y about the centroidal y axis; principal_angle from y to the axis of the greatest second moment, towards z"',
        'change = "greatest relative change of torsion constant and shear areas from a mesh with triangles three times as large; the shear centre\'s in mm"',
        "",
        "[tolerance]",
        'area_and_second_moments = { relative = 0.01, why = "required; the mitred tiles are the same solids, so far less is seen" }',
        'torsion_constant = { relative = 0.05, why = "required; thin-wall theory neglects corners and free ends" }',
        'shear_centre = { absolute = 1.0, why = "required, mm" }',
    ]
    for name, kind, data, thinnest in SECTIONS:
        out += ["", "[[section]]", f'name = "{name}"']
        if kind == "strips":
            nodes = ", ".join(f"[{number(y)}, {number(z)}]" for y, z in data["nodes"])
            youngs = data.get("youngs", [YOUNGS] * len(data["walls"]))
            walls = ", ".join(
                f"{{ from = {a}, to = {b}, thickness = {number(t)}, youngs_modulus = {number(e)} }}"
                for (a, b, t), e in zip(data["walls"], youngs)
            )
            out += [f"nodes = [{nodes}]", f"walls = [{walls}]"]
        else:
            out.append(f"{kind} = {inline(data)}")
        change, shift = 0.0, 0.0
        for ratio in RATIOS:
            fine = solve(kind, data, thinnest, ratio, FINE)
            coarse = solve(kind, data, thinnest, ratio, COARSE)
            for key in ("torsion_constant", "shear_area_y", "shear_area_z"):
                change = max(change, abs(coarse[key] / fine[key] - 1))
            for key in ("shear_centre_y", "shear_centre_z"):
                shift = max(shift, abs(coarse[key] - fine[key]))
            print(name, ratio, fine, change, shift, flush=True)
            if ratio == 0.0:
                shared = ("area", "centroid_y", "centroid_z", "i_y", "i_z", "i_yz", "i_1", "i_2", "principal_angle",
                          "torsion_constant", "warping_constant")
                # Plastic moduli make sense for one material only; the library then gives moments.
                plastic = () if "youngs" in data else ("plastic_modulus_y", "plastic_modulus_z")
                out += [f"{key} = {number(fine[key])}" for key in shared + plastic]
                solutions = []
            picked = {k: fine[k] for k in ("shear_centre_y", "shear_centre_z", "shear_area_y", "shear_area_z")}
            solutions.append(inline({"poissons_ratio": ratio} | picked))
        out.append("shear = [" + ", ".join(solutions) + "]")
        out.append(f"change = {{ relative = {number(change)}, shear_centre = {number(shift)} }}")
    pathlib.Path(__file__).with_suffix(".toml").write_text("\n".join(out) + "\n")


if __name__ == "__main__":
    main()
