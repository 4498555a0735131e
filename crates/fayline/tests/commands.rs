//! The commands as a newcomer runs them.

use std::path::Path;
use std::process::{Command, Output};

fn fayline(arguments: &[&str], folder: &Path) -> Output {
    let program = Command::new(env!("CARGO_BIN_EXE_fayline")).args(arguments).current_dir(folder).output();
    program.expect("the program starts")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).expect("text in UTF-8")
}

/// A fresh folder that goes away with the test.
fn folder() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

fn status(output: &Output) -> i32 {
    output.status.code().expect("an exit status")
}

#[test]
fn golden_demo_prints_findings_and_leaves_reports() {
    let folder = folder();
    let output = fayline(&["demo"], folder.path());
    assert_eq!(status(&output), 0, "{}", text(&output.stderr));
    let printed = text(&output.stdout);
    assert!(printed.lines().all(|line| line.chars().count() <= 80), "a line is wider than 80 columns");
    insta::assert_snapshot!("demo", printed);
    for name in ["longitudinal", "coupon", "pull_stud", "double_lap"] {
        let page = std::fs::read_to_string(folder.path().join(format!("fayline-demo/{name}.html")));
        let page = page.expect("a report");
        assert!(page.contains("<svg") && page.ends_with("</html>"), "{name}");
        // Self-contained: nothing is fetched from anywhere.
        assert!(
            !page.contains("src=\"") && !page.contains("href=\"") && !page.contains("url(http"),
            "{name}"
        );
    }
    for name in ["longitudinal.pdf", "longitudinal.template.pdf"] {
        let file = std::fs::read(folder.path().join("fayline-demo").join(name)).expect("a file for paper");
        assert!(file.starts_with(b"%PDF-") && printed.contains(name), "{name}");
    }
    // A second run finds everything in place and says the same.
    assert_eq!(text(&fayline(&["demo"], folder.path()).stdout), printed);
}

#[test]
fn unit_demo_keeps_what_you_changed() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let job = folder.path().join("fayline-demo/longitudinal.toml");
    let mine = std::fs::read_to_string(&job).expect("the job").replace("-16.58 kN", "-12 kN");
    std::fs::write(&job, &mine).expect("written");
    let output = fayline(&["demo"], folder.path());
    assert!(text(&output.stdout).contains("is kept as it is"));
    assert_eq!(std::fs::read_to_string(&job).expect("the job"), mine);
}

#[test]
fn unit_check_ends_with_the_status_of_the_job() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let check = |arguments: &[&str]| status(&fayline(&[&["check"], arguments].concat(), folder.path()));
    assert_eq!(check(&["fayline-demo/longitudinal.toml"]), 1);
    assert_eq!(check(&["fayline-demo/none.toml"]), 2);
    let met = std::fs::read_to_string(folder.path().join("fayline-demo/coupon.toml")).expect("the job");
    let met = met
        .replace("kind = \"test\", axial = \"5 kN\"", "kind = \"limit\", axial = \"1 kN\"")
        .replace(
            "method = \"EN 1999-1-1\"",
            "method = \"EN 1999-1-1\"\nservice = { coldest = \"23 °C\", hottest = \"23 °C\", humid = false }",
        )
        .replace(
            "standoff_beads   = \"0.25 mm\"",
            "standoff_beads = \"0.25 mm\"\nby_temperature = [{ at = \"23 °C\", strength = 1.0, toughness = 1.0 }]\n\
             glass_transition = [{ cured_at = \"23 °C\", value = \"62 °C\" }]",
        );
    let job = folder.path().join("met.toml");
    std::fs::write(
        &job,
        format!("{met}\n[factors]\nadhesive = 1.5\n\n[bond_day]\ntemperature = \"23 °C\"\n"),
    )
    .expect("written");
    assert_eq!(check(&["met.toml"]), 1, "the bond day has no cure data");
    assert_eq!(check(&["met.toml", "--stage", "join"]), 0);
}

#[test]
fn unit_get_prints_one_quantity_and_nothing_else() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let get = |name: &str| fayline(&["check", "fayline-demo/coupon.toml", "--get", name], folder.path());
    let mean = get("join.coupon.pull.mean_shear");
    assert_eq!((status(&mean), text(&mean.stdout).as_str()), (0, "16 MPa\n"));
    let unknown = get("join.coupon.pull.mean_sheer");
    assert_eq!(status(&unknown), 2);
    assert!(text(&unknown.stderr).contains("join.coupon.pull.mean_shear"));
}

#[test]
fn unit_json_carries_what_scripts_rely_on() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let output = fayline(&["check", "fayline-demo/longitudinal.toml", "--format", "json"], folder.path());
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(json["fayline"], 1);
    assert_eq!(json["verdict"], "not met");
    let peak = &json["quantities"]["join.rail.recovery.peak_shear"];
    assert_eq!(peak["unit"], "MPa");
    assert!(peak["value"].as_f64().is_some_and(|value| value > 0.0));
    let findings = json["findings"].as_array().expect("findings");
    for key in ["id", "stage", "about", "statement", "verdict", "because", "basis", "place"] {
        assert!(findings.iter().all(|finding| finding.get(key).is_some()), "{key}");
    }
    let shear = &json["series"]["member.longitudinal.recovery.moment_z"];
    assert_eq!(shear["x"]["values"].as_array().map(Vec::len), shear["y"]["values"].as_array().map(Vec::len));
}

#[test]
fn unit_json_of_a_bad_file_lists_its_problems() {
    let folder = folder();
    std::fs::write(
        folder.path().join("bad.toml"),
        "fayline = 1\n[job]\ntitle = \"x\"\nunits = \"mteric\"\n[materials.a]\npoissons_ratio = 0.7\n",
    )
    .expect("written");
    let output = fayline(&["check", "bad.toml", "--format", "json"], folder.path());
    assert_eq!(status(&output), 2);
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(json["problems"].as_array().map(Vec::len), Some(2));
}

#[test]
fn unit_new_writes_a_job_that_checks_and_touches_nothing() {
    let folder = folder();
    assert_eq!(status(&fayline(&["new", "mine.toml"], folder.path())), 0);
    assert_eq!(status(&fayline(&["check", "mine.toml"], folder.path())), 1);
    let before = std::fs::read(folder.path().join("mine.toml")).expect("the job");
    let again = fayline(&["new", "mine.toml"], folder.path());
    assert_eq!(status(&again), 2);
    assert!(text(&again.stderr).contains("it is there already"));
    assert_eq!(std::fs::read(folder.path().join("mine.toml")).expect("the job"), before);
}

#[test]
fn golden_welcome_help_and_quantities() {
    let folder = folder();
    let welcome = fayline(&[], folder.path());
    assert_eq!(status(&welcome), 0);
    insta::assert_snapshot!("welcome", text(&welcome.stdout));
    insta::assert_snapshot!("help", text(&fayline(&["--help"], folder.path()).stdout));
    insta::assert_snapshot!("quantities", text(&fayline(&["quantities"], folder.path()).stdout));
    let schema = fayline(&["schema"], folder.path()).stdout;
    let schema: serde_json::Value = serde_json::from_slice(&schema).expect("JSON");
    assert_eq!(schema["title"], "Fayline job file");
}

#[test]
fn unit_report_only_writes_what_it_can_write() {
    let folder = folder();
    fayline(&["new", "mine.toml"], folder.path());
    let output = fayline(&["report", "mine.toml", "-o", "mine.docx"], folder.path());
    assert_eq!(status(&output), 2);
    assert!(text(&output.stderr).contains("does not end in .html or .pdf"), "{}", text(&output.stderr));
    assert!(!folder.path().join("mine.docx").exists());
    assert_eq!(status(&fayline(&["report", "mine.toml", "-o", "mine.html"], folder.path())), 1);
    assert!(folder.path().join("mine.html").exists());
    // Never half a file: what cannot be written whole leaves what is there, and nothing else.
    std::fs::create_dir(folder.path().join("taken.pdf")).expect("a folder");
    let before = std::fs::read_dir(folder.path()).expect("a folder").count();
    assert_eq!(status(&fayline(&["report", "mine.toml", "-o", "taken.pdf"], folder.path())), 2);
    assert_eq!(std::fs::read_dir(folder.path()).expect("a folder").count(), before);
}

/// "fayline report JOB -o FILE.pdf [--paper a4|letter]"; "the same input gives the same bytes".
#[test]
fn unit_report_on_paper() {
    let folder = folder();
    fayline(&["new", "mine.toml"], folder.path());
    let report = |more: &[&str], name: &str| {
        let arguments = [&["report", "mine.toml", "-o", name], more].concat();
        assert_eq!(status(&fayline(&arguments, folder.path())), 1);
        std::fs::read(folder.path().join(name)).expect("a report")
    };
    let first = report(&[], "first.pdf");
    assert!(first.starts_with(b"%PDF-"));
    assert!(first == report(&["--paper", "a4"], "SECOND.PDF"), "equal input, equal bytes");
    assert!(first != report(&["--paper", "letter"], "letter.pdf"));
    assert_eq!(status(&fayline(&["report", "mine.toml", "-o", "a.pdf", "--paper", "a3"], folder.path())), 2);
}

/// What was taken for granted is counted in the text, listed on request and in JSON.
#[test]
fn unit_assumptions_are_shown_on_every_face() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let job = "fayline-demo/pull_stud.toml";
    let check = |more: &[&str]| fayline(&[&["check", job], more].concat(), folder.path());
    let listed = check(&["--assumptions"]);
    assert_eq!(status(&listed), 0);
    insta::assert_snapshot!("assumptions", text(&listed.stdout));
    let json: serde_json::Value = serde_json::from_slice(&check(&["--format", "json"]).stdout).expect("JSON");
    let assumptions = json["assumptions"].as_array().expect("assumptions");
    for assumption in assumptions {
        let key = assumption["key"].as_str().expect("a key");
        assert!(text(&listed.stdout).contains(&format!("[{key}]")), "{key}");
        assert!(assumption["statement"].is_string() && assumption["basis"].is_string());
    }
    let count = format!("does not say it: {} things", assumptions.len());
    assert!(text(&check(&[]).stdout).contains(&count), "{count}");
    let steps = json["plans"][0]["steps"].as_array().expect("a plan");
    let driven = steps.iter().find(|step| step["what"] == "Vehicle may be driven").expect("a step");
    // 80 % of the strength are there after 24 h at 23 °C, by the cure table itself.
    assert!((driven["times_s"][0].as_f64().expect("a time") - 86_400.0).abs() < 1.0);
}

#[test]
fn unit_draw_writes_the_sheet_at_full_scale() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let draw = |more: &[&str]| {
        let start = ["draw", "fayline-demo/longitudinal.toml", "--what", "sheet"];
        fayline(&[&start[..], more].concat(), folder.path())
    };
    assert_eq!(status(&draw(&["-o", "sheet.svg"])), 0);
    let svg = std::fs::read_to_string(folder.path().join("sheet.svg")).expect("a drawing");
    // Width and height stand in millimetres, and every hole can be found by its name.
    assert!(svg.contains("mm\"") && svg.contains("hole-20"), "{}", &svg[..300]);
    assert_eq!(status(&draw(&["-o", "sheet.pdf"])), 0);
    assert!(std::fs::read(folder.path().join("sheet.pdf")).expect("a drawing").starts_with(b"%PDF-"));
    let again = std::fs::read(folder.path().join("sheet.pdf")).expect("a drawing");
    draw(&["-o", "sheet.pdf"]);
    assert_eq!(
        std::fs::read(folder.path().join("sheet.pdf")).expect("a drawing"),
        again,
        "equal input, equal bytes"
    );
    let field = draw(&["--field", "join.rail.recovery.shear_feild", "-o", "field.svg"]);
    assert_eq!(status(&field), 2);
    assert!(text(&field.stderr).contains("join.rail.recovery.shear_field"));
    assert_eq!(status(&draw(&["-o", "sheet.docx"])), 2);
    for paper in ["a4", "letter"] {
        let start = ["draw", "fayline-demo/longitudinal.toml", "--what", "template"];
        let more = ["--paper", paper, "-o", "template.pdf"];
        assert_eq!(status(&fayline(&[&start[..], &more[..]].concat(), folder.path())), 0);
    }
    assert_eq!(status(&draw(&["-o", "sheet.dxf"])), 0);
    let dxf = std::fs::read_to_string(folder.path().join("sheet.dxf")).expect("a drawing");
    // 20 holes of 6.6 mm, each a circle on its own layer.
    assert_eq!(dxf.lines().filter(|line| line.trim() == "CIRCLE").count(), 20);
}

/// "searches overlap, rows, bondline for a target reserve; shows the trade-off; writes the job with the edits"; "`size`
/// exits 0 when its edits reach the target, 1 when they cannot".
#[test]
fn golden_size_shows_the_trade_off_and_writes_the_job() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let size = |job: &str, more: &[&str]| {
        let job = format!("fayline-demo/{job}.toml");
        fayline(&[&["size", job.as_str()], more].concat(), folder.path())
    };
    let strap = size("double_lap", &["--joint", "strap", "--apply", "sized.toml", "-o", "sized.svg"]);
    assert_eq!(status(&strap), 0, "{}", text(&strap.stderr));
    let printed = text(&strap.stdout);
    assert!(printed.lines().all(|line| line.chars().count() <= 80), "a line is wider than 80 columns");
    insta::assert_snapshot!("size", printed);
    let edited = std::fs::read_to_string(folder.path().join("sized.toml")).expect("the job");
    let planned =
        std::fs::read_to_string(folder.path().join("fayline-demo/double_lap.toml")).expect("the job");
    assert_eq!(
        edited,
        planned.replace("overlap  = \"60 mm\"", "overlap  = \"65 mm\""),
        "comments and order stay"
    );
    assert_ne!(edited, planned);
    let chart = std::fs::read_to_string(folder.path().join("sized.svg")).expect("a chart");
    assert!(chart.contains("sized") && chart.contains("1.20, asked for"), "{chart}");
    // A file that is there is not touched.
    assert_eq!(status(&size("double_lap", &["--joint", "strap", "--apply", "sized.toml"])), 2);
    assert_eq!(std::fs::read_to_string(folder.path().join("sized.toml")).expect("the job"), edited);

    let rail = size("longitudinal", &["--joint", "rail"]);
    assert_eq!(status(&rail), 1, "{}", text(&rail.stderr));
    insta::assert_snapshot!("size_not_reached", text(&rail.stdout));
}

#[test]
fn unit_size_refuses_bad_input() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let size = |more: &[&str]| {
        fayline(
            &[&["size", "fayline-demo/double_lap.toml", "--joint", "strap"], more].concat(),
            folder.path(),
        )
    };
    for (more, words) in [
        (["--target", "-1"], "unexpected argument"),
        (["--target", "12"], "from 0.1 to 10"),
        (["--overlap-most", "80"], "unit"),
        (["--rows-most", "0"], "1..=20"),
        (["-o", "chart.png"], ".svg or .pdf"),
    ] {
        let output = size(&more);
        assert_eq!(status(&output), 2, "{more:?}");
        assert!(text(&output.stderr).contains(words), "{more:?}: {}", text(&output.stderr));
    }
    let none = fayline(&["size", "fayline-demo/double_lap.toml", "--joint", "rail"], folder.path());
    assert_eq!(status(&none), 2);
    assert!(text(&none.stderr).contains("it has: strap"));
}

/// What scatters, for the end of a demo job.
const SCATTER: &str =
    "\n[scatter]\ntoughness = 0.15\nbondline = 0.2\noverlap = 0.05\nsurface = 0.1\nload = 0.2\n";

/// Writes a demo job with what scatters to a file of the folder.
fn scattering(folder: &Path, demo: &str) {
    fayline(&["demo"], folder);
    let job = std::fs::read_to_string(folder.join(format!("fayline-demo/{demo}.toml"))).expect("the job");
    std::fs::write(folder.join("fayline-demo/scatter.toml"), format!("{job}{SCATTER}")).expect("written");
}

/// "same seed, same answer on any thread count": the same bytes, and another seed others.
#[test]
fn unit_probability_is_the_same_on_any_number_of_threads() {
    let folder = folder();
    scattering(folder.path(), "coupon");
    let check = |seed: &str, threads: &str| {
        let arguments = ["check", "fayline-demo/scatter.toml", "--format", "json", "--probability"];
        let more = ["--seed", seed, "--threads", threads];
        let output = fayline(&[&arguments[..], &more[..]].concat(), folder.path());
        assert!(output.stderr.is_empty(), "nothing is painted where no terminal is");
        text(&output.stdout)
    };
    let one = check("1", "1");
    assert!(one.contains("join.coupon.pull.failure_probability_low"));
    assert!(one == check("1", "2"), "equal bytes on two threads");
    assert_ne!(one, check("2", "2"));
    let without = fayline(&["check", "fayline-demo/scatter.toml", "--seed", "2"], folder.path());
    assert_eq!(status(&without), 2);
    assert!(text(&without.stderr).contains("--probability"));
}

/// Starts the program, waits until it listens to SIGINT and for a while, sends it so many, and gives what it leaves.
#[cfg(target_os = "linux")]
fn interrupted(arguments: &[&str], folder: &Path, times: usize) -> Output {
    use std::process::Stdio;
    use std::thread::sleep;
    use std::time::Duration;
    let started = Command::new(env!("CARGO_BIN_EXE_fayline"))
        .args(arguments)
        .current_dir(folder)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    // Signals with a handler, as bits from the first on; SIGINT is the second (proc(5)).
    let listens = || {
        let all = std::fs::read_to_string(format!("/proc/{}/status", started.id())).unwrap_or_default();
        let caught = all.lines().find_map(|line| line.strip_prefix("SigCgt:")).map(str::trim);
        caught.and_then(|bits| u64::from_str_radix(bits, 16).ok()).is_some_and(|bits| bits & 2 != 0)
    };
    let mut waited = 0;
    while !listens() {
        assert!(waited < 6000, "it never listened");
        waited += 1;
        sleep(Duration::from_millis(10));
    }
    sleep(Duration::from_millis(200));
    for _ in 0..times {
        let sent = Command::new("kill").args(["-INT", &started.id().to_string()]).status();
        assert!(sent.expect("kill is there").success(), "it ended before it was interrupted");
        sleep(Duration::from_millis(20));
    }
    started.wait_with_output().expect("an end")
}

/// "Ctrl-C keeps what is known": the rest of the job is told, and that it was stopped; "a second Ctrl-C ends at once".
#[cfg(target_os = "linux")]
#[test]
fn unit_ctrl_c_keeps_what_is_known() {
    let folder = folder();
    scattering(folder.path(), "longitudinal");
    let printed = |arguments: &[&str]| {
        let output = interrupted(arguments, folder.path(), 1);
        let printed = text(&output.stdout);
        assert_eq!(status(&output), 1, "{printed} {}", text(&output.stderr));
        printed.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let check = ["check", "fayline-demo/scatter.toml", "--probability"];
    let words = printed(&check);
    assert!(words.contains("stopped before anything was known") || words.contains("when it was stopped"));
    assert!(words.contains("recovery: With the bond lost the rivets of rail carry"), "{words}");
    let words = printed(&["size", "fayline-demo/scatter.toml", "--joint", "rail"]);
    assert!(words.contains("It was stopped"), "{words}");
    assert!(words.contains("nearest: overlap") || words.contains("sized: overlap"), "{words}");
    // The second comes while the first is still being answered; on a busy machine it may once come too late.
    let at_once = (0..5).any(|_| {
        let output = interrupted(&check, folder.path(), 2);
        output.status.code() == Some(130) && output.stdout.is_empty()
    });
    assert!(at_once, "never at once");
}

/// "`fayline size --format json` in the style of `check --format json`".
#[test]
fn unit_size_as_json() {
    let folder = folder();
    fayline(&["demo"], folder.path());
    let size = |joint: &str| {
        let start = ["size", "fayline-demo/double_lap.toml", "--format", "json", "--joint"];
        fayline(&[&start[..], &[joint]].concat(), folder.path())
    };
    let output = size("strap");
    assert_eq!(status(&output), 0);
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!((json["fayline"].as_u64(), json["joint"].as_str()), (Some(1), Some("strap")));
    assert_eq!((json["reached"].as_bool(), json["stopped"].as_bool()), (Some(true), Some(false)));
    let (planned, chosen) = (&json["planned"], &json["chosen"]);
    assert_eq!(planned["overlap"], serde_json::json!({ "value": 60.0, "unit": "mm" }));
    assert!(chosen["least"]["reserve"].as_f64().expect("a reserve") >= 1.2);
    assert_eq!(json["edits"][0]["key"], "joints.strap.overlap");
    let overlaps = json["by_overlap"].as_array().expect("a curve");
    assert!(overlaps.iter().any(|trial| trial["overlap"] == chosen["overlap"]));
    assert!(json["limits"].as_array().expect("limits").iter().all(|finding| finding["verdict"].is_string()));
    let none = size("rail");
    assert_eq!(status(&none), 2);
    let json: serde_json::Value = serde_json::from_slice(&none.stdout).expect("JSON");
    assert!(json["cannot"].as_str().expect("a reason").contains("it has: strap"));
}
