//! Beginning a job by a short form: what broke, which form of joint, sizes, adhesive, loads.

use std::collections::BTreeMap;
use std::fmt::Write;

use job::Problem;
use maud::{Markup, html};
use toml_edit::Value;

use super::frame::page;
use crate::web::desk::in_words;
use crate::web::words;

/// What was typed, by the names of the fields.
pub(in crate::web) type Typed = BTreeMap<String, String>;

/// One field of the form.
struct Field {
    name: &'static str,
    label: &'static str,
    /// What stands there at first.
    first: &'static str,
    /// For which forms of joint it is asked; of no matter where empty.
    of: &'static str,
}

const fn field(name: &'static str, label: &'static str, first: &'static str, of: &'static str) -> Field {
    Field { name, label, first, of }
}

const FORMS: [(&str, &str); 3] = [
    ("lap", "Two plates, one over the other"),
    ("double lap", "One plate between two others"),
    ("sleeve", "A box section, cut, with an insert that bridges the cut"),
];

const ADHESIVES: [(&str, &str); 4] = [
    ("two-part toughened epoxy", "by its class: two-part toughened epoxy"),
    ("two-part epoxy", "by its class: two-part epoxy"),
    ("two-part methacrylate", "by its class: two-part methacrylate"),
    ("data sheet", "by its data sheet, typed below"),
];

const PLATES: [Field; 5] = [
    field("thickness", "Thickness of each plate", "4 mm", "lap, double lap"),
    field("width", "Width", "60 mm", "lap, double lap"),
    field(
        "free_length",
        "Length of each plate from the overlap to where it is held",
        "100 mm",
        "lap, double lap",
    ),
    field("pull", "Greatest pull expected in service", "10 kN", "lap, double lap"),
    field("plate_overlap", "Overlap", "80 mm", "lap, double lap"),
];

const SLEEVE: [Field; 11] = [
    field("box_width", "Section: width", "80 mm", "sleeve"),
    field("box_height", "Section: height", "120 mm", "sleeve"),
    field("box_wall", "Section: wall", "4 mm", "sleeve"),
    field("box_radius", "Section: inner radius of the corners", "8 mm", "sleeve"),
    field("insert_wall", "Insert: wall", "3 mm", "sleeve"),
    field("gap", "Adhesive between insert and wall", "0.5 mm", "sleeve"),
    field("length", "Length of the member from where it is held to its free end", "700 mm", "sleeve"),
    field("station", "Where it is cut, from where it is held", "310 mm", "sleeve"),
    field("overlap", "Overlap on each side of the cut", "100 mm", "sleeve"),
    field(
        "force_along",
        "Greatest force at the free end: along the member, pull positive",
        "10 kN",
        "sleeve",
    ),
    field("force_across", "Greatest force at the free end: sideways", "2 kN", "sleeve"),
];

const PRESETS: [Field; 5] = [
    field("pull_force", "A recovery pull at the free end: force; empty where there is none", "", "sleeve"),
    field("pull_sideways", "The pull: angle sideways from straight back", "15 deg", "sleeve"),
    field(
        "tow_vehicle",
        "A trailer behind it: mass of the towing vehicle; empty where there is none",
        "",
        "sleeve",
    ),
    field("tow_trailer", "The trailer: mass", "", "sleeve"),
    field("tow_nose", "The trailer: load on the coupling, as mass", "", "sleeve"),
];

const METAL: [Field; 4] = [
    field("youngs_modulus", "Young's modulus (70 GPa is common for aluminium)", "70 GPa", ""),
    field("poissons_ratio", "Poisson's ratio (0.33 is common for aluminium)", "0.33", ""),
    field("proof_strength", "Proof strength, as its data sheet or a test has it", "", ""),
    field("tensile_strength", "Tensile strength", "", ""),
];

const SHEET: [Field; 6] = [
    field("adhesive_modulus", "Young's modulus of the adhesive", "", ""),
    field("adhesive_poisson", "Poisson's ratio of the adhesive", "", ""),
    field("shear_strength", "Shear strength, mean of tests", "", ""),
    field("tensile_strength_adhesive", "Tensile strength, mean of tests", "", ""),
    field("scatter", "Scatter of the strengths, as a share", "", ""),
    field("working_time", "Working time at 23 °C", "", ""),
];

/// The form, with what was typed and what is wrong with it.
pub(in crate::web) fn show(typed: &Typed, problems: &[String], token: &str) -> String {
    let text = |field: &Field| text(field, typed);
    let main = html! {
        form.begin id="begin" data-swap method="post" action="/begin" {
            input type="hidden" name="token" value=(token);
            @if !problems.is_empty() {
                div.refused role="alert" { p { strong { (words::REFUSED) } } @for problem in problems { p { (problem) } } }
            }
            h2 { "What broke" }
            (text(&field("title", "What is repaired, on which vehicle", "", "")))
            (text(&field("file", "Name of the job file", "my-job.toml", "")))
            h2 { "The joint" }
            (choice("form", "Form of the joint", &FORMS, typed))
            fieldset data-of="lap, double lap" { legend { "Plates" } @for field in &PLATES { (text(field)) } }
            fieldset data-of="sleeve" { legend { "Section, insert and load" } @for field in &SLEEVE { (text(field)) } }
            fieldset data-of="sleeve" { legend { "Loads by preset" } @for field in &PRESETS { (text(field)) } }
            h2 { "The metal" }
            p.aside { "What you leave out makes unknown only what needs it." }
            @for field in &METAL { (text(field)) }
            h2 { "The adhesive" }
            (choice("adhesive", "How its properties are known", &ADHESIVES, typed))
            fieldset { legend { "From its data sheet; leave it empty where a class is chosen" } @for field in &SHEET { (text(field)) } }
            (text(&field("beads", "Spacing beads in it", "0.25 mm", "")))
            p { button.main id="do-begin" { "Begin" } " " a.button href="/" { "Back" } }
        }
    };
    page(words::BEGIN, None, &html! { p.where { a href="/" { (words::JOBS) } } h1 { (words::BEGIN) } }, &main)
}

fn text(field: &Field, typed: &Typed) -> Markup {
    let value = typed.get(field.name).map_or(field.first, String::as_str);
    html! {
        div.ask data-of=[Some(field.of).filter(|of| !of.is_empty())] {
            label for={ "begin-" (field.name) } { (field.label) }
            input id={ "begin-" (field.name) } name=(field.name) value=(value) autocomplete="off" spellcheck="false";
        }
    }
}

fn choice(name: &str, label: &str, options: &[(&str, &str)], typed: &Typed) -> Markup {
    let now = typed.get(name).map(String::as_str);
    html! {
        div.ask {
            label for={ "begin-" (name) } { (label) }
            select id={ "begin-" (name) } name=(name) {
                @for (word, words) in options { option value=(word) selected[now == Some(word)] { (words) } }
            }
        }
    }
}

/// The text of the job that was typed.
pub(in crate::web) fn text_of(typed: &Typed) -> String {
    let get = |name: &str| typed.get(name).map_or("", |value| value.trim());
    let mut job = String::from(
        "# Begun by the form of the workspace. What is left out makes unknown only what needs it.\nfayline = 1\n\n[job]\n",
    );
    line(&mut job, "title", get("title"));
    line(&mut job, "method", "EN 1999-1-1");
    job.push_str("\n[materials.metal]\n");
    line(&mut job, "youngs_modulus", get("youngs_modulus"));
    number(&mut job, "poissons_ratio", get("poissons_ratio"));
    line(&mut job, "proof_strength", get("proof_strength"));
    line(&mut job, "tensile_strength", get("tensile_strength"));
    line(&mut job, "source", "typed into the form of the workspace");
    job.push_str("\n[adhesives.paste]\n");
    if get("adhesive") == "data sheet" {
        line(&mut job, "youngs_modulus", get("adhesive_modulus"));
        number(&mut job, "poissons_ratio", get("adhesive_poisson"));
        line(&mut job, "shear_strength", get("shear_strength"));
        line(&mut job, "tensile_strength", get("tensile_strength_adhesive"));
        number(&mut job, "scatter", get("scatter"));
        if !get("working_time").is_empty() {
            let time = Value::from(get("working_time"));
            let _ = writeln!(job, "working_time = [{{ at = \"23 °C\", time = {time} }}]");
        }
        line(&mut job, "source", "data sheet, typed into the form of the workspace");
    } else {
        line(&mut job, "class", get("adhesive"));
    }
    line(&mut job, "standoff_beads", get("beads"));
    if get("form") == "sleeve" {
        sleeve(&mut job, &get);
    } else {
        plates(&mut job, &get);
    }
    job
}

fn plates<'t>(job: &mut String, get: &impl Fn(&str) -> &'t str) {
    let part = |with_length: bool| {
        let thickness = Value::from(get("thickness"));
        let length = if with_length && !get("free_length").is_empty() {
            format!(", free_length = {}", Value::from(get("free_length")))
        } else {
            String::new()
        };
        format!("{{ material = \"metal\", thickness = {thickness}{length} }}")
    };
    job.push_str("\n[joints.joint]\n");
    let double = get("form") == "double lap";
    line(job, "form", if double { "double lap" } else { "lap" });
    let names = if double { ["inner", "outer"] } else { ["upper", "lower"] };
    for name in names {
        let _ = writeln!(job, "{name} = {}", part(true));
    }
    line(job, "width", get("width"));
    line(job, "overlap", get("plate_overlap"));
    line(job, "adhesive", "paste");
    let _ = writeln!(job, "loads.pull = {{ kind = \"limit\", axial = {} }}", Value::from(get("pull")));
}

fn sleeve<'t>(job: &mut String, get: &impl Fn(&str) -> &'t str) {
    let mm = |name: &str| quantity::parse(get(name), quantity::Kind::Length).ok();
    let print = |mm: f64| quantity::print_exact(mm, quantity::Kind::Length);
    job.push_str("\n[sections.member]\n");
    let quoted = |name: &str| Value::from(get(name)).to_string();
    let _ = writeln!(
        job,
        "box = {{ width = {}, height = {}, wall = {}, inner_radius = {} }}",
        quoted("box_width"),
        quoted("box_height"),
        quoted("box_wall"),
        quoted("box_radius")
    );
    // The insert follows from the section and the bondline; what is no length is left for the reader to refuse.
    let inside = |outer: &str| match (mm(outer), mm("box_wall"), mm("gap")) {
        (Some(outer), Some(wall), Some(gap)) => print(outer - 2.0 * (wall + gap)),
        _ => get(outer).to_owned(),
    };
    let radius = match (mm("box_radius"), mm("gap"), mm("insert_wall")) {
        (Some(radius), Some(gap), Some(wall)) => print((radius - gap - wall).max(0.5)),
        _ => get("box_radius").to_owned(),
    };
    job.push_str("\n[sections.insert]\n");
    let _ = writeln!(
        job,
        "box = {{ width = {}, height = {}, wall = {}, inner_radius = {} }}",
        Value::from(inside("box_width")),
        Value::from(inside("box_height")),
        quoted("insert_wall"),
        Value::from(radius)
    );
    let length = mm("length").map_or_else(|| get("length").to_owned(), |mm| print(-mm));
    let end = Value::from(length);
    job.push_str("\n[members.member]\n");
    line(job, "section", "member");
    line(job, "material", "metal");
    let _ =
        writeln!(job, "axis = {{ from = [\"0 mm\", \"0 mm\", \"0 mm\"], to = [{end}, \"0 mm\", \"0 mm\"] }}");
    job.push_str("\n[cases.greatest]\n");
    line(job, "kind", "limit");
    let along = quantity::parse(get("force_along"), quantity::Kind::Force);
    let along = along
        .map_or_else(|_| get("force_along").to_owned(), |n| quantity::print_exact(-n, quantity::Kind::Force));
    let _ = writeln!(
        job,
        "forces = [{{ at = [{end}, \"0 mm\", \"0 mm\"], force = [{}, {}, \"0 N\"] }}]",
        Value::from(along),
        quoted("force_across")
    );
    presets(job, &end, get);
    job.push_str("\n[joints.joint]\n");
    line(job, "form", "sleeve");
    line(job, "member", "member");
    line(job, "station", get("station"));
    job.push_str("insert = { section = \"insert\", material = \"metal\" }\n");
    line(job, "overlap", get("overlap"));
    line(job, "adhesive", "paste");
    line(job, "closing", "press");
}

/// The load cases of the presets that were filled in, at the free end.
fn presets<'t>(job: &mut String, end: &Value, get: &impl Fn(&str) -> &'t str) {
    let quoted = |name: &str| Value::from(get(name)).to_string();
    if !get("pull_force").is_empty() {
        let _ = writeln!(
            job,
            "\n[cases.recovery]\nkind = \"limit\"\npull = {{ at = [{end}, \"0 mm\", \"0 mm\"], force = {}, sideways = {} }}",
            quoted("pull_force"),
            quoted("pull_sideways")
        );
    }
    if !get("tow_vehicle").is_empty() || !get("tow_trailer").is_empty() {
        let nose = if get("tow_nose").is_empty() {
            String::new()
        } else {
            format!(", nose_load = {}", quoted("tow_nose"))
        };
        let _ = writeln!(
            job,
            "\n[cases.trailer]\nkind = \"limit\"\ntowing = {{ at = [{end}, \"0 mm\", \"0 mm\"], trailer = \"centre axle\", vehicle = {}, trailer_mass = {}{nose} }}",
            quoted("tow_vehicle"),
            quoted("tow_trailer")
        );
    }
}

/// A key with a text or a quantity; nothing where nothing was typed.
fn line(job: &mut String, key: &str, value: &str) {
    if !value.is_empty() {
        let _ = writeln!(job, "{key} = {}", Value::from(value));
    }
}

/// A key with a bare number; what is none is handed on as a text, that reading it says so.
fn number(job: &mut String, key: &str, value: &str) {
    let _ = match value.parse::<f64>() {
        _ if value.is_empty() => Ok(()),
        Ok(number) if number.is_finite() => writeln!(job, "{key} = {number:?}"),
        _ => writeln!(job, "{key} = {}", Value::from(value)),
    };
}

/// What is wrong with the job that was typed, in words.
pub(in crate::web) fn problems(found: &[Problem]) -> Vec<String> {
    found.iter().map(in_words).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    struct NoFiles;

    impl job::Files for NoFiles {
        fn read(&self, _: &str) -> Result<Vec<u8>, String> {
            Err("there is none".to_owned())
        }
    }

    fn first() -> Typed {
        let all = PLATES.iter().chain(&SLEEVE).chain(&PRESETS).chain(&METAL);
        let mut typed: Typed = all.map(|field| (field.name.to_owned(), field.first.to_owned())).collect();
        typed.insert("title".to_owned(), "Left \"door\" post".to_owned());
        typed.insert("beads".to_owned(), "0.25 mm".to_owned());
        typed
    }

    #[test]
    fn unit_every_choice_of_the_form_makes_a_job_with_findings() {
        for (form, _) in FORMS {
            for (adhesive, _) in ADHESIVES {
                let mut typed = first();
                typed.insert("form".to_owned(), form.to_owned());
                typed.insert("adhesive".to_owned(), adhesive.to_owned());
                typed.insert("shear_strength".to_owned(), "22 MPa".to_owned());
                typed.insert("working_time".to_owned(), "60 min".to_owned());
                for (name, value) in [
                    ("pull_force", "12 kN"),
                    ("tow_vehicle", "3500 kg"),
                    ("tow_trailer", "2 t"),
                    ("tow_nose", "100 kg"),
                ] {
                    typed.insert(name.to_owned(), value.to_owned());
                }
                let text = text_of(&typed);
                let job = job::read("a.toml", &text, &NoFiles)
                    .unwrap_or_else(|problems| panic!("{text}\n{problems:#?}"));
                let ask = stages::Ask { to_failure: false, ..stages::Ask::default() };
                let assessment = stages::assess(&job, &ask);
                assert_eq!(assessment.title, "Left \"door\" post");
                let of_joint = assessment.findings.iter().filter(|finding| finding.about == "joint");
                assert!(of_joint.count() > 0, "{form}, {adhesive}");
                let cases: Vec<&str> =
                    assessment.findings.iter().filter_map(|it| it.case.as_deref()).collect();
                if form == "sleeve" {
                    assert!(
                        ["greatest", "recovery", "trailer"].iter().all(|case| cases.contains(case)),
                        "{cases:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn unit_what_is_no_number_is_refused_and_not_taken_for_one() {
        let mut typed = first();
        typed.insert("form".to_owned(), "lap".to_owned());
        typed.insert("poissons_ratio".to_owned(), "about a third".to_owned());
        typed.insert("thickness".to_owned(), "4".to_owned());
        let problems = job::read("a.toml", &text_of(&typed), &NoFiles).expect_err("problems");
        assert!(problems.iter().any(|problem| problem.key == "materials.metal.poissons_ratio"));
        assert!(problems.iter().any(|problem| problem.key == "joints.joint.upper.thickness"));
    }
}
