//! Sections, members, load cases, and the joints that are more than two plates.

use quantity::{Length, Quantity};

use super::{case_name, plate_rivets, print, refer, refuse, thinner_than_beads};
use crate::entry::Entry;
use crate::problem::Problem;
use crate::tables::{
    Case, Disc, DoubleLap, HollowBox, Member, Part, Rivet, Rivets, Section, Sleeve, Socket, Tables, Tube,
};

/// How far a bondline that is given may lie from the one that the parts leave, mm.
const SAME_BONDLINE_MM: f64 = 1e-3;

pub(super) fn check_section(section: &Section, tables: &Tables, problems: &mut Vec<Problem>) {
    let shapes = [
        section.hollow.get().map(|_| &section.hollow.key),
        section.channel.get().map(|_| &section.channel.key),
        section.hat.get().map(|_| &section.hat.key),
        section.tube.get().map(|_| &section.tube.key),
        section.walls.get().map(|_| &section.walls.key),
    ];
    let given: Vec<&String> = shapes.into_iter().flatten().collect();
    if given.len() > 1 {
        problems.push(Problem {
            place: section.place.clone(),
            key: section.key.clone(),
            what: format!("the section has {} shapes", given.len()),
            expected: "one of box, channel, hat, tube, or nodes with walls".to_owned(),
            mend: None,
        });
    }
    if let Some(hollow) = section.hollow.get() {
        check_box(hollow, problems);
    }
    if let Some(tube) = section.tube.get()
        && let (Some(diameter), Some(wall)) = (tube.outside_diameter.get(), tube.wall.get())
        && 2.0 * wall.mm() >= diameter.mm()
    {
        refuse(
            &tube.wall,
            "the wall fills the tube",
            format!("less than half of {}", print(*diameter)),
            problems,
        );
    }
    for wall in section.walls.get().map_or(&[][..], Vec::as_slice) {
        for end in [&wall.from, &wall.to] {
            refer(end, &section.nodes, problems);
        }
        refer(&wall.material, &tables.materials, problems);
        if wall.from.get().is_some() && wall.from.get() == wall.to.get() {
            refuse(&wall.to, "the wall ends where it begins", "another node", problems);
        }
    }
}

fn check_box(hollow: &HollowBox, problems: &mut Vec<Problem>) {
    let (Some(width), Some(height), Some(wall)) =
        (hollow.width.get(), hollow.height.get(), hollow.wall.get())
    else {
        return;
    };
    let least = width.mm().min(height.mm());
    if 2.0 * wall.mm() >= least {
        let expected = format!("less than half of {}", print(Length::from_base(least)));
        refuse(&hollow.wall, "the walls fill the box", expected, problems);
    } else if let Some(radius) = hollow.inner_radius.get()
        && 2.0 * radius.mm() > least - 2.0 * wall.mm()
    {
        let most = Length::from_base(least / 2.0 - wall.mm());
        refuse(&hollow.inner_radius, "the corners meet", format!("at most {}", print(most)), problems);
    }
}

pub(super) fn check_member(member: &Member, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&member.section, &tables.sections, problems);
    refer(&member.material, &tables.materials, problems);
    let axis = member.axis.get().and_then(|axis| Some((axis, axis.from.get()?, axis.to.get()?)));
    let Some((axis, from, to)) = axis else { return };
    let along = [0, 1, 2].map(|i| to[i].mm() - from[i].mm());
    let length = along.iter().map(|it| it * it).sum::<f64>().sqrt();
    if length < 1.0 {
        refuse(&axis.to, "the axis has no length", "a point at least 1 mm from its beginning", problems);
        return;
    }
    let up = member.up.get().copied().unwrap_or([0.0, 0.0, 1.0]);
    let size = up.iter().map(|it| it * it).sum::<f64>().sqrt();
    let cross = [
        along[1] * up[2] - along[2] * up[1],
        along[2] * up[0] - along[0] * up[2],
        along[0] * up[1] - along[1] * up[0],
    ];
    let sine = cross.iter().map(|it| it * it).sum::<f64>().sqrt() / (length * size.max(f64::MIN_POSITIVE));
    if sine.is_nan() || sine <= 1e-6 {
        let what = "the direction of local z lies along the axis";
        let expected = "a direction across the axis, such as up = [1, 0, 0] for an upright member";
        if member.up.get().is_some() {
            refuse(&member.up, what, expected, problems);
        } else {
            refuse(&member.axis, what, expected, problems);
        }
    }
}

pub(super) fn check_case(case: &Case, problems: &mut Vec<Problem>) {
    if case.resultants.get().is_some() {
        let acting = [
            case.forces.get().map(|_| ()),
            case.masses.get().map(|_| ()),
            case.towing.get().map(|_| ()),
            case.pull.get().map(|_| ()),
            case.braking.get().map(|_| ()),
            case.kerb.get().map(|_| ()),
        ];
        if acting.iter().any(Option::is_some) {
            refuse(
                &case.resultants,
                "both resultants and loads at points are given",
                "one of the two",
                problems,
            );
        }
    }
}

pub(super) fn check_rivet(rivet: &Rivet, problems: &mut Vec<Problem>) {
    if let (Some(diameter), Some(hole)) = (rivet.diameter.get(), rivet.hole.get())
        && hole.mm() < diameter.mm()
    {
        refuse(
            &rivet.hole,
            "the hole is smaller than the shank",
            format!("at least {}", print(*diameter)),
            problems,
        );
    }
    if let Some([least, most]) = rivet.grip.get()
        && least.mm() >= most.mm()
    {
        refuse(&rivet.grip, "the grip does not rise", "the thinnest stack, then the thickest", problems);
    }
}

/// What a sleeve and a socket have in common.
struct Pair<'j> {
    outside: &'j Entry<Part>,
    inside: &'j Entry<Part>,
    bondline: &'j Entry<Length>,
    adhesive: &'j Entry<String>,
    rivets: &'j Entry<Rivets>,
    member: &'j Entry<String>,
    /// The section that the member gives, where there is no outside part.
    member_section: Option<&'j Section>,
    member_is_outside: bool,
}

pub(super) fn check_sleeve(sleeve: &Sleeve, tables: &Tables, problems: &mut Vec<Problem>) {
    let member = sleeve.member.get().and_then(|name| tables.members.get(name));
    let pair = Pair {
        outside: &sleeve.outside,
        inside: &sleeve.insert,
        bondline: &sleeve.bondline,
        adhesive: &sleeve.adhesive,
        rivets: &sleeve.rivets,
        member: &sleeve.member,
        member_section: member.and_then(|member| tables.sections.get(member.section.get()?)),
        member_is_outside: sleeve.side.get() != Some(&crate::tables::Side::Outside),
    };
    check_pair(&pair, tables, problems);
    for (name, _) in &sleeve.loads.items {
        case_name(name, &sleeve.loads.key, problems);
    }
    if let (Some(member), Some(station)) = (member, sleeve.station.get())
        && let Some(length) = length_mm(member)
        && !(0.0..=length).contains(&station.mm())
    {
        let expected = format!("from 0 to {}, the length of the member", print(Length::from_base(length)));
        refuse(&sleeve.station, "the cut lies beyond the member", expected, problems);
    }
    check_rows(&sleeve.rivets, &sleeve.overlap, problems);
}

pub(super) fn check_socket(socket: &Socket, tables: &Tables, problems: &mut Vec<Problem>) {
    let pair = Pair {
        outside: &socket.outside,
        inside: &socket.inside,
        bondline: &socket.bondline,
        adhesive: &socket.adhesive,
        rivets: &socket.rivets,
        member: &socket.member,
        member_section: None,
        member_is_outside: true,
    };
    check_pair(&pair, tables, problems);
    for (name, _) in &socket.loads.items {
        case_name(name, &socket.loads.key, problems);
    }
    check_rows(&socket.rivets, &socket.overlap, problems);
}

fn length_mm(member: &Member) -> Option<f64> {
    let axis = member.axis.get()?;
    let (from, to) = (axis.from.get()?, axis.to.get()?);
    Some((0..3).map(|i| (to[i].mm() - from[i].mm()) * (to[i].mm() - from[i].mm())).sum::<f64>().sqrt())
}

fn check_rows(rivets: &Entry<Rivets>, overlap: &Entry<Length>, problems: &mut Vec<Problem>) {
    let Some(rivets) = rivets.get() else { return };
    let (Some(rows), Some(overlap)) = (rivets.rows.get(), overlap.get()) else { return };
    if rows.iter().any(|row| row.mm() >= overlap.mm()) {
        let expected = format!("rows less than {} from the cut face, the overlap", print(*overlap));
        refuse(&rivets.rows, "a row lies beyond the overlap", expected, problems);
    }
}

fn check_pair(pair: &Pair<'_>, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(pair.member, &tables.members, problems);
    refer(pair.adhesive, &tables.adhesives, problems);
    for part in [pair.outside, pair.inside].into_iter().filter_map(Entry::get) {
        refer(&part.section, &tables.sections, problems);
        refer(&part.material, &tables.materials, problems);
    }
    if let Some(rivets) = pair.rivets.get() {
        refer(&rivets.kind, &tables.rivets, problems);
    }
    thinner_than_beads(pair.bondline, pair.adhesive, tables, problems);
    let section = |part: &Entry<Part>| part.get().and_then(|part| tables.sections.get(part.section.get()?));
    let first = pair.member_section.or_else(|| section(pair.outside));
    let second = section(pair.inside);
    let (outer, inner) = if pair.member_is_outside { (first, second) } else { (second, first) };
    let (Some(outer), Some(inner)) =
        (outer.and_then(|it| it.hollow.get()), inner.and_then(|it| it.hollow.get()))
    else {
        return;
    };
    let Some(gaps) = gaps_mm(outer, inner) else { return };
    let part_section = pair.inside.get().map(|part| &part.section);
    if gaps.iter().any(|gap| *gap <= 0.0)
        && let Some(entry) = part_section
    {
        let [width, height] = gaps.map(|gap| print(Length::from_base(gap)));
        let what =
            format!("the sections do not fit: they leave {width} on the sides and {height} above and below");
        refuse(entry, what, "an inner section that leaves room for the adhesive", problems);
        return;
    }
    if let Some(given) = pair.bondline.get()
        && gaps.iter().any(|gap| (gap - given.mm()).abs() > SAME_BONDLINE_MM)
    {
        let [width, height] = gaps.map(|gap| print(Length::from_base(gap)));
        let what = format!("the sections leave {width} on the sides and {height} above and below");
        refuse(pair.bondline, what, "no bondline, or the one that the sections leave", problems);
    }
}

/// The gaps that two boxes leave, mm: on the sides, above and below.
fn gaps_mm(outer: &HollowBox, inner: &HollowBox) -> Option<[f64; 2]> {
    let wall = outer.wall.get()?.mm();
    let gap = |outer: &Entry<Length>, inner: &Entry<Length>| {
        Some((outer.get()?.mm() - 2.0 * wall - inner.get()?.mm()) / 2.0)
    };
    Some([gap(&outer.width, &inner.width)?, gap(&outer.height, &inner.height)?])
}

pub(super) fn check_double_lap(lap: &DoubleLap, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&lap.adhesive, &tables.adhesives, problems);
    for plate in [&lap.inner, &lap.outer].into_iter().filter_map(Entry::get) {
        refer(&plate.material, &tables.materials, problems);
    }
    thinner_than_beads(&lap.bondline, &lap.adhesive, tables, problems);
    plate_rivets(&lap.rivets, &lap.overlap, tables, problems);
    for (name, _) in &lap.loads.items {
        case_name(name, &lap.loads.key, problems);
    }
}

pub(super) fn check_tube(tube: &Tube, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&tube.adhesive, &tables.adhesives, problems);
    for part in [&tube.inner, &tube.outer].into_iter().filter_map(Entry::get) {
        refer(&part.material, &tables.materials, problems);
    }
    thinner_than_beads(&tube.bondline, &tube.adhesive, tables, problems);
    for (name, _) in &tube.loads.items {
        case_name(name, &tube.loads.key, problems);
    }
    let (Some(inner), Some(outer)) = (tube.inner.get(), tube.outer.get()) else { return };
    let (Some(inside), Some(outside), Some(wall)) =
        (inner.outside_diameter.get(), outer.outside_diameter.get(), outer.wall.get())
    else {
        return;
    };
    let gap = (outside.mm() - inside.mm()) / 2.0 - wall.mm();
    if gap <= 0.0 {
        let what = format!("the tubes do not fit: they leave {}", print(Length::from_base(gap)));
        refuse(&inner.outside_diameter, what, "an inner tube that leaves room for the adhesive", problems);
    } else if let Some(given) = tube.bondline.get()
        && (gap - given.mm()).abs() > SAME_BONDLINE_MM
    {
        let what = format!("the tubes leave {}", print(Length::from_base(gap)));
        refuse(&tube.bondline, what, "no bondline, or the one that the tubes leave", problems);
    }
}

pub(super) fn check_disc(disc: &Disc, tables: &Tables, problems: &mut Vec<Problem>) {
    refer(&disc.adhesive, &tables.adhesives, problems);
    refer(&disc.material, &tables.materials, problems);
    thinner_than_beads(&disc.bondline, &disc.adhesive, tables, problems);
    for (name, _) in &disc.loads.items {
        case_name(name, &disc.loads.key, problems);
    }
    if let (Some(hole), Some(diameter)) = (disc.hole.get(), disc.diameter.get())
        && hole.mm() >= diameter.mm()
    {
        refuse(
            &disc.hole,
            "the hole is as large as the disc",
            format!("less than {}", print(*diameter)),
            problems,
        );
    }
}
