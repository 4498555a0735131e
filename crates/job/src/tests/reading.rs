//! Reading a whole job: values, places, and every problem at once.

use proptest::prelude::*;

use crate::tables::{Joint, LoadKind, Method};
use crate::{Files, Job, Needed, Problem, read};

const HEAD: &str = "fayline = 1\n[job]\ntitle = \"a\"\n";

struct Nothing;

impl Files for Nothing {
    fn read(&self, _: &str) -> Result<Vec<u8>, String> {
        Err("there is no such file".to_owned())
    }
}

fn job(rest: &str) -> Job {
    read("j.toml", &format!("{HEAD}{rest}"), &Nothing).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

fn problems(rest: &str) -> Vec<Problem> {
    read("j.toml", &format!("{HEAD}{rest}"), &Nothing).err().unwrap_or_default()
}

/// The problems in short: `line:column key: what`.
fn told(rest: &str) -> Vec<String> {
    let short = |it: &Problem| format!("{}:{} {}: {}", it.place.line, it.place.column, it.key, it.what);
    problems(rest).iter().map(short).collect()
}

/// What the place of the one problem underlines.
fn underlined(rest: &str) -> String {
    let problems = problems(rest);
    assert_eq!(problems.len(), 1, "{problems:#?}");
    problems[0].place.text[problems[0].place.span.clone()].to_owned()
}

#[test]
fn unit_values_come_with_their_key_and_place() {
    let job = job(
        "method = \"own\"\n[joints.wall]\nform = \"lap\"\nwidth = \"2.5 in\"\nloads.pull = { kind = \"test\", axial = \"5 kN\" }\n",
    );
    let head = job.tables.job.get().unwrap();
    assert_eq!(head.method.get(), Some(&Method::Own));
    let Some(Joint::Lap(lap)) = job.tables.joints.get("wall") else { panic!("a lap") };
    assert_eq!(lap.width.get().unwrap().mm().to_bits(), 63.5_f64.to_bits());
    assert_eq!(lap.width.key, "joints.wall.width");
    let place = lap.width.place().unwrap();
    assert_eq!((place.line, place.column, &place.text[place.span.clone()]), (7, 9, "\"2.5 in\""));
    let (name, load) = &lap.loads.items[0];
    assert_eq!((name.value.as_str(), name.place.line, name.place.column), ("pull", 8, 7));
    assert_eq!(load.kind.get(), Some(&LoadKind::Test));
    assert_eq!(load.axial.key, "joints.wall.loads.pull.axial");
    assert!(lap.overlap.get().is_none());
    assert_eq!(lap.overlap.need().unwrap_err().keys, ["joints.wall.overlap"]);
}

#[test]
fn unit_everything_missing_is_named_once() {
    let job = job("[joints.wall]\nform = \"lap\"\n");
    let Some(Joint::Lap(lap)) = job.tables.joints.get("wall") else { panic!("a lap") };
    let absent = (lap.width.need(), lap.overlap.need(), lap.width.need()).need_all().unwrap_err();
    assert_eq!(absent.keys, ["joints.wall.width", "joints.wall.overlap"]);
}

#[test]
fn unit_every_way_to_write_a_table_is_read() {
    for rest in [
        "[joints.w]\nform = \"lap\"\nloads.p.axial = \"5 kN\"\n",
        "[joints.w]\nform = \"lap\"\nloads = { p = { axial = \"5 kN\" } }\n",
        "[joints.w]\nform = \"lap\"\n[joints.w.loads.p]\naxial = \"5 kN\"\n",
        "[joints]\nw = { form = \"lap\", loads.p.axial = \"5 kN\" }\n",
        "[joints]\nw.form = \"lap\"\n'w'.\"loads\".p.axial = '5 kN'\n",
    ] {
        let job = job(rest);
        let Some(Joint::Lap(lap)) = job.tables.joints.get("w") else { panic!("a lap") };
        let load = lap.loads.get("p").unwrap();
        assert_eq!(load.axial.get().unwrap().n().to_bits(), 5000.0_f64.to_bits(), "{rest}");
    }
    let rows = job(
        "[[adhesives.a.cure]]\nat = \"23 °C\"\ntime = \"8 h\"\nstrength = 0.3\n[[adhesives.a.cure]]\nat = \"23 °C\"\ntime = \"1 d\"\nstrength = 1\n",
    );
    assert_eq!(rows.tables.adhesives.get("a").unwrap().cure.get().unwrap().len(), 2);
}

#[test]
fn unit_order_is_that_of_the_file() {
    let job = job("[materials.b]\n[materials.a]\n[materials.c]\n");
    let names: Vec<&str> = job.tables.materials.iter().map(|(name, _)| name).collect();
    assert_eq!(names, ["b", "a", "c"]);
}

#[test]
fn unit_line_ends_and_marks_of_other_systems_change_nothing_but_the_hash() {
    let text = include_str!("../../../../examples/coupon.toml");
    let plain = read("j.toml", text, &Nothing).unwrap();
    let other = read("j.toml", &format!("\u{feff}{}", text.replace('\n', "\r\n")), &Nothing).unwrap();
    assert_eq!(other.tables, plain.tables);
    assert_ne!(other.hash, plain.hash);
}

#[test]
fn unit_minus_zero_is_zero() {
    let job = job("[joints.w]\nform = \"lap\"\nloads.p.axial = \"-0 N\"\n[materials.m]\nelongation = -0.0\n");
    let Some(Joint::Lap(lap)) = job.tables.joints.get("w") else { panic!("a lap") };
    assert_eq!(lap.loads.get("p").unwrap().axial.get().unwrap().n().to_bits(), 0);
    assert_eq!(job.tables.materials.get("m").unwrap().elongation.get().unwrap().to_bits(), 0);
}

#[test]
fn unit_a_misspelt_key_is_told_once_and_not_as_missing_too() {
    let text = "fayline = 1\n[jobs]\ntitle = \"a\"\n";
    let problems = read("j.toml", text, &Nothing).unwrap_err();
    assert_eq!(problems.len(), 1, "{problems:#?}");
    assert_eq!(problems[0].mend.as_deref(), Some("write \"job\""));
    assert_eq!(told("[joints.w]\nFrom = \"lap\"\n"), ["5:1 joints.w.From: this key is not known here"]);
    // A key that is there cannot have been meant by another.
    let twice = problems_of_titles();
    assert!(twice[0].mend.is_none(), "{twice:#?}");
}

fn problems_of_titles() -> Vec<Problem> {
    problems("titel = \"b\"\n")
}

#[test]
fn unit_a_form_that_is_nearly_right_shows_the_problems_inside() {
    let told = told("[joints.w]\nform = \"lapp\"\nwidth = 5\n");
    assert_eq!(told.len(), 2, "{told:#?}");
}

#[test]
fn unit_a_reference_to_something_refused_is_no_second_problem() {
    let told = told(
        "[materials]\nplate = \"steel\"\n\"a.b\" = {}\n[joints.w]\nform = \"lap\"\nupper = { material = \"plate\" }\nlower = { material = \"a.b\" }\n[bond_day]\njoints = [\"w\", \"v\"]\n[joints.v]\nform = 1\n",
    );
    assert_eq!(told.len(), 3, "{told:#?}");
}

#[test]
fn unit_the_underline_is_short() {
    let inline = "[adhesives.a]\ncure = [{ at = \"23 °C\", strength = 0.5 }]\n";
    assert_eq!(underlined(inline), "{ at");
    let over_lines = "[adhesives.a]\ncure = [{\n  at = \"23 °C\",\n  strength = 0.5,\n}]\n";
    assert_eq!(underlined(over_lines), "{");
    assert_eq!(underlined("[joints.wall] # remark\nwidth = \"5 mm\"\n"), "[joints.wall]");
    assert_eq!(underlined("[adhesives.a]\nmix_ratio = [\n  2,\n]\n"), "[");
    assert_eq!(underlined("[materials.m]\nyoungs_modulus = \"70 mm\"\n"), "mm");
    // An escape makes the text in the file longer than the text that it stands for.
    assert_eq!(underlined("[materials.m]\nyoungs_modulus = \"70\\u0020mm\"\n"), "\"70\\u0020mm\"");
    assert_eq!(underlined("[materials.m]\nyoungs_modulus = '''70 mm'''\n"), "'''70 mm'''");
}

#[test]
fn unit_a_broken_text_shows_what_else_is_wrong_but_not_what_seems_missing() {
    let text = "fayline = 1\n[job]\ntitle = a b\n[materials.m]\nyoungs_modulus = \"70 mm\"\n[joints.w]\nfrm = 1\nadhesive = \"none\"\n";
    let problems = read("j.toml", text, &Nothing).unwrap_err();
    let lines: Vec<usize> = problems.iter().map(|problem| problem.place.line).collect();
    assert_eq!(lines, [3, 5, 7], "{problems:#?}");
}

#[test]
fn unit_problems_stand_in_the_order_of_the_files() {
    struct Folder;
    impl Files for Folder {
        fn read(&self, name: &str) -> Result<Vec<u8>, String> {
            Ok(format!("specimen,width_mm,overlap_mm,load_n\n{name},25,x,1\n{name},25,1,1\n").into_bytes())
        }
    }
    let text = "fayline = 1\n[coupons.a]\ndata = \"z.csv\"\n[coupons.b]\ndata = \"b.csv\"\n[coupons.c]\ndata = \"z.csv\"\n";
    let problems = read("d/j.toml", text, &Folder).unwrap_err();
    let places: Vec<String> =
        problems.iter().map(|it| format!("{}:{}", it.place.file, it.place.line)).collect();
    // Each problem once, though two sets name the same file.
    assert_eq!(places, ["d/j.toml:1", "d/b.csv:2", "d/b.csv:3", "d/z.csv:2", "d/z.csv:3"]);
}

fn repeated(times: usize, part: impl Fn(usize) -> String) -> String {
    (0..times).map(part).collect::<Vec<_>>().concat()
}

#[test]
fn unit_sizes_are_limited() {
    let many = repeated(1001, |i| format!("[materials.m{i}]\n"));
    assert!(told(&many)[0].contains("1001 items"));
    let joints = repeated(51, |i| format!("[joints.j{i}]\nform = \"lap\"\n"));
    assert!(told(&joints)[0].contains("51 joints"), "{:?}", told(&joints));
    let loads = repeated(251, |i| format!("loads.c{i}.axial = \"1 kN\"\n"));
    let two = format!("[joints.a]\nform = \"lap\"\n{loads}[joints.b]\nform = \"lap\"\n{loads}");
    assert!(told(&two)[0].contains("too many load cases"), "{:?}", told(&two));
    let text = format!("{HEAD}# {}\n", "x".repeat(crate::LONGEST_JOB_FILE));
    assert!(read("j.toml", &text, &Nothing).unwrap_err()[0].what.contains("bytes"));
}

#[test]
fn unit_thousands_of_problems_share_their_lines() {
    // Nine hundred problems on one line of nine thousand bytes: a copy of it for each would be eight megabytes.
    let keys: Vec<String> = (0..900).map(|i| format!("k{i} = 1")).collect();
    let problems = problems(&format!("[bond_day]\n[factors]\n[coupons]\nx = {{ {} }}\n", keys.join(",")));
    assert_eq!(problems.len(), 900);
    let first = &problems[0].place.text;
    assert!(problems.iter().all(|it| std::sync::Arc::ptr_eq(&it.place.text, first)));
}

#[test]
fn unit_words_for_numbers_that_are_nearly_right() {
    for (rest, mend) in [
        ("[materials.m]\nelongation = 5\n", "write 0.05 for 5 %"),
        ("[materials.m]\nelongation = \"5 %\"\n", "write 0.05"),
        ("[materials.m]\nelongation = \"0,05\"\n", "write 0.05"),
        ("[materials.m]\nelongation = \"0.05\"\n", "write 0.05"),
        ("[materials.m]\nyoungs_modulus = \"70,5 GPa\"\n", "write \"70.5 GPa\""),
        ("[materials.m]\nyoungs_modulus = \"70 GPs\"\n", "write \"70 GPa\""),
        ("[materials.m]\nyoungs_modulus = \"70 mPa\"\n", "write \"70 MPa\""),
        ("[bond_day]\nuntil = \"30 m\"\n", "write \"30 min\""),
        ("[materials.m]\nsource = 7\n", "write \"7\""),
        ("[coupons.c]\nstrengths = \"7 MPa\"\n", "write [\"7 MPa\"]"),
        ("service = { humid = \"nein\" }\n", ""),
        ("service = { humid = \"No\" }\n", "write false"),
        ("[[bond_day]]\npeople = 1\n", "write [bond_day], in single brackets"),
    ] {
        let problems = problems(rest);
        assert_eq!(problems.len(), 1, "{rest}: {problems:#?}");
        assert_eq!(problems[0].mend.as_deref().unwrap_or(""), mend, "{rest}");
    }
}

#[test]
fn unit_a_problem_prints_on_one_line() {
    let problem = &problems("[materials.m]\nyoungs_modulus = 70\n")[0];
    let printed = problem.to_string();
    assert!(
        printed.starts_with("j.toml:5:18: materials.m.youngs_modulus: \"70\" has no unit; allowed: a stress")
    );
    assert!(printed.contains("; to mend: write \"70 "), "{printed}");
}

proptest! {
    #[test]
    fn law_any_text_is_read_or_refused(text in "[a-j\\[\\]{}=.,\"#\n °0-9_-]{0,80}") {
        for text in [text.clone(), format!("{HEAD}{text}"), format!("{HEAD}[adhesives.a]\n{text}")] {
            if let Err(problems) = read("j.toml", &text, &Nothing) {
                prop_assert!(!problems.is_empty());
                for problem in problems {
                    prop_assert!(problem.place.text.get(problem.place.span.clone()).is_some());
                    prop_assert!(!problem.what.is_empty() && !problem.expected.is_empty());
                }
            }
        }
    }

    #[test]
    fn law_lengths_are_read_as_written(mm in 0.1_f64..9_999.0) {
        let job = job(&format!("[joints.w]\nform = \"lap\"\noverlap = \"{mm} mm\"\n"));
        let Some(Joint::Lap(lap)) = job.tables.joints.get("w") else { panic!("a lap") };
        prop_assert_eq!(lap.overlap.get().unwrap().mm().to_bits(), mm.to_bits());
    }
}
