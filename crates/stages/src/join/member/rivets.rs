//! The rivets: where they may sit, and what they carry when the bond is lost.

use assessment::{Basis, Finding, Known, Lack, Measure, Next, Verdict, names};
use job::tables::{BondLost, Rivet as RivetTable, RivetKind, Rivets};
use job::{Edit, Needed};
use mechanics::rivet::flexibility::{Fastened, Fastening, Plate, ShearPlanes, huth_mm_n};
use mechanics::rivet::group::space::{BoxRow, Load as Pull, Loaded, Rivet, elastic, on_box, plastic};
use mechanics::rivet::layout::{self, Check, Code, How, Limit, Riveting, Rule};
use mechanics::rivet::resistance::sheet::{self, RivetedSheet};
use mechanics::rivet::resistance::{GAMMA_M2, Interaction, Mode, Resistance, governing, tested};
use mechanics::section::Hole;
use mechanics::statics::SectionPoints;
use quantity::Kind;

use super::super::subject::Case;
use super::Form;
use super::loads::Load;
use crate::Results;
use crate::faying::{Geometry, Which};
use crate::sections::failed;

/// What is needed of the rivets of a joint.
pub(super) struct Set<'j> {
    table: &'j Rivets,
    pub(super) rivet: &'j RivetTable,
    pub(super) rows_mm: Vec<f64>,
    pub(super) on_width_mm: Vec<f64>,
    pub(super) on_height_mm: Vec<f64>,
}

pub(super) fn set<'j>(form: &Form<'j>) -> Known<Set<'j>> {
    let table = form.rivets.need()?;
    let (rivet, rows, on) =
        (form.subject.tables.rivets.referred(&table.kind), table.rows.need(), table.on.need()).need_all()?;
    let places = |entry: &job::Entry<Vec<quantity::Length>>| {
        entry.get().map_or(Vec::new(), |places| places.iter().map(|place| place.mm()).collect::<Vec<f64>>())
    };
    let (on_width_mm, on_height_mm) = (places(&on.width_faces), places(&on.height_faces));
    if on_width_mm.is_empty() && on_height_mm.is_empty() {
        return Err(Lack::Missing { keys: vec![on.width_faces.key.clone(), on.height_faces.key.clone()] });
    }
    Ok(Set { table, rivet, rows_mm: rows.iter().map(|row| row.mm()).collect(), on_width_mm, on_height_mm })
}

/// Checks distances, grip and heads.
pub(super) fn layout(form: &Form<'_>, results: &mut Results) {
    if form.rivets.get().is_none() {
        return;
    }
    let basis = Basis::Memory(
        "EN 1993-1-3:2006, Table 8.1 for blind rivets; EN 1999-1-1:2007, Table 8.2 for solid ones; grip by the maker",
    );
    let place = form.rivets.place().cloned();
    let finding = Finding { place, ..form.subject.finding("rivets", basis) };
    let checked =
        set(form).and_then(|set| Ok((checks(form.geometry.as_ref().map_err(Lack::clone)?, &set)?, set)));
    let (checks, set) = match checked {
        Ok(checked) => checked,
        Err(lack) => {
            let statement =
                format!("Whether the rivets of {} sit where they may cannot be told.", form.subject.name);
            results.findings.push(finding.unknown(statement, lack));
            return;
        }
    };
    let broken: Vec<&Check> = checks.iter().filter(|check| !check.met).collect();
    let words: Vec<String> = broken.iter().map(|check| in_words(check, results)).collect();
    let number = set.rows_mm.len() * 2 * (set.on_width_mm.len() + set.on_height_mm.len());
    let met = broken.is_empty();
    results.findings.push(Finding {
        statement: if met {
            format!(
                "The rivets of {} keep their distances, grip and head room; {number} on each side.",
                form.subject.name
            )
        } else {
            format!(
                "The rivets of {} break {} rule{}: {}.",
                form.subject.name,
                broken.len(),
                if broken.len() == 1 { "" } else { "s" },
                words.join("; ")
            )
        },
        verdict: if met { Verdict::Met } else { Verdict::NotMet },
        because: format!("{} rules were applied.", checks.len()),
        next: (!met).then(|| "Move the rivets, or choose another size.".to_owned().into()),
        ..finding
    });
}

fn in_words(check: &Check, results: &Results) -> String {
    let what = match check.rule {
        Rule::EndDistance => "distance to the end",
        Rule::EdgeDistance => "distance to the edge",
        Rule::SpacingAlong => "spacing of the rows",
        Rule::SpacingAcross => "spacing in a row",
        Rule::Diameter => "diameter",
        Rule::Grip => "thickness clamped",
        Rule::HeadRoom => "room for the head",
        Rule::HeadSpacing => "spacing of the heads",
    };
    let length = |mm: f64| results.print(mm, Kind::Length);
    let limit = match check.limit {
        Limit::Least(least) => format!("at least {}", length(least)),
        Limit::Between(least, most) => format!("{} to {}", length(least), length(most)),
    };
    let known = if check.how == How::Memory { ", from memory" } else { "" };
    format!("{what} {} ({limit}; {}{known})", length(check.found_mm), check.source)
}

/// By how much the first row may come closer to the cut face before it breaks the least distance to an end, mm.
pub(super) fn room_at_cut_mm(form: &Form<'_>, geometry: &Geometry) -> Option<f64> {
    let set = set(form).ok()?;
    let first = set.rows_mm.iter().copied().reduce(f64::min)?;
    let checks = checks(geometry, &set).ok()?;
    let end = checks.iter().find(|check| check.rule == Rule::EndDistance)?;
    match end.limit {
        Limit::Least(least) | Limit::Between(least, _) => Some(first - least),
    }
}

fn checks(geometry: &Geometry, set: &Set<'_>) -> Known<Vec<Check>> {
    let (diameter, hole) = (set.rivet.diameter.need(), set.rivet.hole.need()).need_all()?;
    let mut rows = set.rows_mm.clone();
    rows.sort_by(f64::total_cmp);
    let closest = |sorted: &[f64]| sorted.windows(2).map(|pair| pair[1] - pair[0]).reduce(f64::min);
    let across = [&set.on_width_mm, &set.on_height_mm].into_iter().filter_map(|places| {
        let mut places = places.clone();
        places.sort_by(f64::total_cmp);
        closest(&places)
    });
    let ends = rows.first().copied().into_iter().chain(rows.last().map(|last| geometry.overlap_mm - last));
    let [outer, inner] = geometry.walls_mm();
    let riveting = Riveting {
        diameter_mm: diameter.mm(),
        hole_mm: hole.mm(),
        thickest_mm: outer.max(inner),
        end_mm: ends.reduce(f64::min),
        // A closed section has no edge across the force; the corner is a matter of the head's room.
        edge_mm: None,
        along_mm: closest(&rows),
        across_mm: across.reduce(f64::min),
    };
    let code = match set.rivet.kind.get() {
        Some(RivetKind::Solid) => Code::Regular,
        Some(RivetKind::Blind) | None => Code::BlindInSheet,
    };
    let mut checks = layout::distances(code, &riveting).map_err(|failure| failed(&failure))?;
    if let Some([least, most]) = set.rivet.grip.get() {
        let stack = outer + inner + geometry.governing_bondline_mm();
        checks.push(layout::grip(stack, [least.mm(), most.mm()]).map_err(|failure| failed(&failure))?);
    }
    if let Some(head) = set.rivet.head_diameter.get() {
        for (places, size) in
            [(&set.on_width_mm, geometry.outer.width_mm), (&set.on_height_mm, geometry.outer.height_mm)]
        {
            if let Some(farthest) = places.iter().map(|place| place.abs()).reduce(f64::max) {
                let room = size / 2.0 - geometry.outer.corner_mm() - farthest;
                checks.push(layout::head_room(head.mm(), room).map_err(|failure| failed(&failure))?);
            }
        }
        if let Some(spacing) = riveting.across_mm {
            checks.push(layout::head_spacing(head.mm(), spacing).map_err(|failure| failed(&failure))?);
        }
    }
    Ok(checks)
}

/// The design resistance of one rivet: its own in shear, or that of either wall.
pub(super) fn resistance(form: &Form<'_>, geometry: &Geometry, set: &Set<'_>) -> Known<Resistance> {
    let tables = form.subject.tables;
    let (shear, diameter) = (set.rivet.shear_strength.need(), set.rivet.diameter.need()).need_all()?;
    let mut all = vec![tested(Mode::RivetShear, shear.n(), GAMMA_M2).map_err(|failure| failed(&failure))?];
    let end =
        set.rows_mm.iter().map(|row| row.min(geometry.overlap_mm - row)).reduce(f64::min).unwrap_or(0.0);
    let walls = geometry.walls_mm();
    // Each wall by its own thickness and strength; the other one holds it from behind.
    for (which, own, other) in [(Which::Outer, walls[0], walls[1]), (Which::Inner, walls[1], walls[0])] {
        let strength = geometry.material(which, tables)?.tensile_strength.need()?.mpa();
        let wall = RivetedSheet {
            thinner_mm: own,
            thicker_mm: own.max(other),
            tensile_strength_mpa: strength,
            diameter_mm: diameter.mm(),
            end_distance_mm: end,
        };
        all.push(sheet::bearing(sheet::Rule::En1999, &wall, GAMMA_M2).map_err(|failure| failed(&failure))?);
    }
    governing(&all).ok_or_else(|| Lack::Missing { keys: vec![set.table.kind.key.clone()] })
}

/// A row of holes through a part.
pub(super) struct RowOfHoles {
    /// Distance from the cut face, mm.
    pub(super) from_cut_mm: f64,
    /// Place along the member from the middle of the cut, mm; a sleeve has the row on both sides.
    pub(super) offset_mm: f64,
    pub(super) holes: Vec<Hole>,
}

/// The holes of each row through a part.
pub(super) fn rows_of_holes(form: &Form<'_>, geometry: &Geometry, which: Which) -> Known<Vec<RowOfHoles>> {
    let set = set(form)?;
    let hole = set.rivet.hole.need()?.mm();
    let [outer, inner] = geometry.walls_mm();
    let (part, wall) = match which {
        Which::Outer => (geometry.outer, outer),
        Which::Inner => (geometry.inner, inner),
    };
    let area_mm2 = hole * wall;
    let (y, z) = (0.5 * (part.width_mm - wall), 0.5 * (part.height_mm - wall));
    let on_faces = |places: &[f64], across: bool| -> Vec<Hole> {
        let both = |at: f64| if across { [[at, z], [at, -z]] } else { [[y, at], [-y, at]] };
        places.iter().flat_map(|at| both(*at)).map(|at_mm| Hole { at_mm, area_mm2 }).collect()
    };
    let mut holes = on_faces(&set.on_width_mm, true);
    holes.extend(on_faces(&set.on_height_mm, false));
    let sides: &[f64] = if geometry.both_sides { &[-1.0, 1.0] } else { &[1.0] };
    let row = |side: &f64, from_cut_mm: f64| RowOfHoles {
        from_cut_mm,
        offset_mm: side * (geometry.half_gap_mm + from_cut_mm),
        holes: holes.clone(),
    };
    let all = sides.iter().flat_map(|side| set.rows_mm.iter().map(move |from_cut| (side, *from_cut)));
    Ok(all.map(|(side, from_cut)| row(side, from_cut)).collect())
}

/// Stiffness of one rivet in shear, N/mm.
pub(super) fn stiffness_n_mm(form: &Form<'_>, geometry: &Geometry, set: &Set<'_>) -> Known<f64> {
    let tables = form.subject.tables;
    let (diameter, material) = (set.rivet.diameter.need(), set.rivet.material.need()).need_all()?;
    let plate = |which, thickness_mm| -> Known<Plate> {
        let modulus = geometry.material(which, tables)?.youngs_modulus.need()?.mpa();
        Ok(Plate { thickness_mm, youngs_modulus_mpa: modulus })
    };
    let [outer, inner] = geometry.walls_mm();
    let fastened = Fastened {
        first: plate(Which::Outer, outer)?,
        second: plate(Which::Inner, inner)?,
        diameter_mm: diameter.mm(),
        youngs_modulus_mpa: material.youngs_modulus.need()?.mpa(),
    };
    let flexibility = huth_mm_n(Fastening::RivetedMetal, ShearPlanes::One, &fastened)
        .map_err(|failure| failed(&failure))?;
    Ok(1.0 / flexibility)
}

/// The rivets of each side of the cut, with given rows.
fn groups(form: &Form<'_>, geometry: &Geometry, set: &Set<'_>, rows_mm: &[f64]) -> Known<Vec<Vec<Rivet>>> {
    let strength = resistance(form, geometry, set)?.design_n;
    let stiffness = stiffness_n_mm(form, geometry, set)?;
    let [width_mm, height_mm] = geometry.faying_mm();
    let sides: &[f64] = if geometry.both_sides { &[-1.0, 1.0] } else { &[1.0] };
    let mut groups = Vec::with_capacity(sides.len());
    for side in sides {
        let mut rivets = Vec::new();
        for row in rows_mm {
            let row = BoxRow {
                width_mm,
                height_mm,
                x_mm: side * (geometry.half_gap_mm + row),
                on_width_faces_mm: &set.on_width_mm,
                on_height_faces_mm: &set.on_height_mm,
            };
            rivets.extend(on_box(&row).map_err(|failure| failed(&failure))?.into_iter().map(|place| Rivet {
                place,
                axial_n_mm: stiffness,
                tangential_n_mm: stiffness,
                shear_strength_n: strength,
                tension: None,
            }));
        }
        groups.push(rivets);
    }
    Ok(groups)
}

/// What pulls on the rivets. A box has its centroid and its shear centre in its middle, where the rivets'
/// coordinates begin.
fn pull(load: &Load<'_>) -> Known<Pull> {
    let resultants = *load.resultants.as_ref().map_err(Lack::clone)?;
    Ok(Pull { x_mm: 0.0, resultants, points: SectionPoints::default() })
}

/// The least of the factors of both sides; no load where neither has one.
fn least(factors: impl Iterator<Item = Known<Option<f64>>>) -> Known<f64> {
    let mut least: Option<f64> = None;
    for factor in factors {
        if let Some(factor) = factor? {
            least = Some(least.map_or(factor, |least| least.min(factor)));
        }
    }
    least.ok_or(Lack::NoLoad)
}

/// The multiple of a case's load at which the first rivet reaches its design resistance, with given rows.
fn factor(
    form: &Form<'_>,
    geometry: &Geometry,
    set: &Set<'_>,
    load: &Load<'_>,
    rows_mm: &[f64],
) -> Known<f64> {
    let pull = pull(load)?;
    least(groups(form, geometry, set, rows_mm)?.iter().map(|rivets| {
        let shared = elastic(rivets, Loaded::Outer, Interaction::Linear, &pull);
        shared.map(|shared| shared.first.map(|first| first.factor)).map_err(|failure| failed(&failure))
    }))
}

/// The multiple of a case's load at which all rivets that can help do so. It counts only where the walls yield before
/// the rivets shear, so it is shown and not judged by.
fn plastic_factor(form: &Form<'_>, geometry: &Geometry, set: &Set<'_>, load: &Load<'_>) -> Known<f64> {
    let pull = pull(load)?;
    least(groups(form, geometry, set, &set.rows_mm)?.iter().map(|rivets| {
        let carried = plastic(rivets, &pull);
        carried.map(|carried| carried.map(|carried| carried.factor)).map_err(|failure| failed(&failure))
    }))
}

/// The multiple of a case's load that the rivets must carry alone; `None` where it is only for information.
pub(super) fn asked(form: &Form<'_>, case: &Case<'_>) -> Known<Option<f64>> {
    let head = form.subject.tables.job.get();
    match head.and_then(|head| head.bond_lost.get()).unwrap_or(&BondLost::Limit) {
        BondLost::Limit => Ok(Some(1.0)),
        BondLost::Ultimate => case.load_factor(form.subject.tables).map(|(factor, _)| Some(factor)),
        BondLost::Information => Ok(None),
    }
}

/// The bond-lost case: the bond is taken away whole, the rivets carry alone.
pub(super) fn bond_lost(form: &Form<'_>, load: &Load<'_>, results: &mut Results) {
    let subject = form.subject;
    let fill = [subject.name, load.case.name];
    let set = set(form);
    let geometry = form.geometry.as_ref().map_err(Lack::clone);
    let known = set.as_ref().map_err(Lack::clone).and_then(|set| {
        let geometry = geometry.clone()?;
        factor(form, geometry, set, load, &set.rows_mm)
    });
    results.quantities.put(&names::BOND_LOST_FACTOR, &fill, known.clone());
    let all =
        set.as_ref().map_err(Lack::clone).and_then(|set| plastic_factor(form, geometry.clone()?, set, load));
    results.quantities.put(&names::BOND_LOST_PLASTIC_FACTOR, &fill, all);
    if !load.case.is_required() {
        return;
    }
    let basis = Basis::Memory(
        "rivets by stiffness (Huth 1986), ISO 14589 shear strength and EN 1999-1-4 bearing over 1.25, first rivet at its design resistance",
    );
    let finding = subject.under(&load.case, "bond_lost", basis);
    let finding = Finding { place: form.rivets.place().cloned().or(finding.place.clone()), ..finding };
    let asked = asked(form, &load.case);
    let finding = match (known, asked) {
        (Err(lack), _) | (_, Err(lack)) => {
            let statement =
                format!("What the rivets of {} carry if the bond is lost cannot be told.", subject.name);
            finding.unknown(statement, lack)
        }
        (Ok(factor), Ok(asked)) => {
            let verdict = match asked {
                None => Verdict::Note,
                Some(asked) => Verdict::of_reserve(factor / asked),
            };
            let governs = set
                .as_ref()
                .ok()
                .zip(geometry.clone().ok())
                .and_then(|(set, geometry)| resistance(form, geometry, set).ok());
            let governs = governs.map_or(String::new(), |governs| {
                let what = if governs.mode == Mode::RivetShear {
                    "shear of the rivet"
                } else {
                    "bearing of the wall"
                };
                format!("One rivet carries {} by {what}.", results.print(governs.design_n, Kind::Force))
            });
            Finding {
                statement: format!(
                    "With the bond lost the rivets of {} carry {factor:.2} of the load of the case{}.",
                    subject.name,
                    asked.map_or(String::new(), |asked| format!("; {asked:.2} is asked"))
                ),
                value: Some(Measure { value: factor, unit: "-", kind: None }),
                limit: asked.map(|asked| Measure { value: asked, unit: "-", kind: None }),
                reserve: asked.map(|asked| factor / asked),
                verdict,
                because: format!("{governs} Moments are taken at the rivets, on the worse side of the cut."),
                next: match (verdict, &set, geometry, asked) {
                    (Verdict::NotMet, Ok(set), Ok(geometry), Some(asked)) => {
                        more_rows(form, geometry, set, load, asked, results)
                    }
                    _ => None,
                },
                ..finding
            }
        }
    };
    results.findings.push(finding);
}

/// The fewest rows that carry what is asked: the first stays, the last mirrors it in the overlap, the others lie
/// evenly between.
fn more_rows(
    form: &Form<'_>,
    geometry: &Geometry,
    set: &Set<'_>,
    load: &Load<'_>,
    asked: f64,
    results: &Results,
) -> Option<Next> {
    /// More rows than this are no rivet pattern but a perforation.
    const MOST_ROWS: u32 = 6;
    let first = set.rows_mm.iter().copied().reduce(f64::min)?;
    let last = geometry.overlap_mm - first;
    let diameter = set.rivet.diameter.get()?.mm();
    let now = u32::try_from(set.rows_mm.len()).ok()?;
    for count in now + 1..=MOST_ROWS {
        let pitch = (last - first) / f64::from(count - 1);
        if pitch < 3.0 * diameter {
            break;
        }
        let rows: Vec<f64> = (0..count).map(|index| first + pitch * f64::from(index)).collect();
        if factor(form, geometry, set, load, &rows).is_ok_and(|factor| factor >= asked) {
            let value: Vec<String> =
                rows.iter().map(|row| format!("\"{}\"", quantity::print_exact(*row, Kind::Length))).collect();
            let shown: Vec<String> = rows.iter().map(|row| results.print(*row, Kind::Length)).collect();
            return Some(Next {
                text: format!(
                    "Set {count} rows of rivets on each side, at {} from the cut face.",
                    shown.join(", ")
                ),
                edits: vec![Edit {
                    key: set.table.rows.key.clone(),
                    value: format!("[{}]", value.join(", ")),
                }],
            });
        }
    }
    Some(Next::from(
        "More rows of these rivets do not do; take stronger ones, or a longer overlap.".to_owned(),
    ))
}
