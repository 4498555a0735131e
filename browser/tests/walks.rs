//! "Browser tests in real headless Chromium walk the demo: open, change overlap, see reserve and sheet change, apply
//! the second rivet row, save, see comments kept; begin a job from the form to a first finding; keyboard-only walk;
//! axe-core finds nothing serious; no request leaves loopback."

use std::path::PathBuf;

use browser::{Bench, Eyes, LAPTOP};
use serde_json::Value;

const JOIN: &str = "/job/longitudinal.toml/join";
const FIELD: &str = "/job/longitudinal.toml/join?field=join.rail.recovery.shear_field";

#[tokio::test(flavor = "multi_thread")]
async fn demo_is_changed_mended_and_saved_with_its_comments() {
    let bench = Bench::start(LAPTOP).await;
    let before = bench.file("longitudinal.toml");
    bench.open("/").await;
    bench.until_words("#jobs", "Left rear longitudinal").await;
    bench.press("a[href='/job/longitudinal.toml']").await;
    bench.until_words("h1", "Left rear longitudinal").await;
    bench.press("nav a[href$='/join']").await;
    bench.until_computed().await;
    let reserve = "article[id='join.rail.recovery.bond']";
    bench.until_words(reserve, "1.01").await;
    let width = "return document.querySelector('#pan-rail svg').viewBox.baseVal.width";
    let sheet_before = bench.script(width).await;

    // Change the overlap: the reserve and the sheet follow, the file does not.
    bench.fill("[id='key-joints.rail.overlap']", "120 mm").await;
    bench.until_words("#head", "What if").await;
    bench.until_words(reserve, "1.19").await;
    let sheet_after = bench.script(width).await;
    assert!(sheet_after.as_f64() > sheet_before.as_f64(), "{sheet_before} {sheet_after}");
    assert_eq!(bench.file("longitudinal.toml"), before);
    bench.until_computed().await;

    // In inches, and back.
    bench.press("#do-units").await;
    bench.until_words("#head", "Show millimetres").await;
    bench.fill("[id='key-joints.rail.overlap']", "4 1/4 in").await;
    bench
        .until(
            "the inches are taken",
            "return document.getElementById('key-joints.rail.overlap').value === '4 1/4 in'",
        )
        .await;
    bench.press("#do-undo").await;
    bench
        .until(
            "the inches are undone",
            "return document.getElementById('key-joints.rail.overlap').value === '120 mm'",
        )
        .await;
    bench.press("#do-units").await;

    // What is no length is not taken, and what was typed stays.
    bench.fill("[id='key-joints.rail.overlap']", "about so").await;
    bench.until_words("#inputs [role=alert]", "Not taken").await;
    assert_eq!(
        bench.script("return document.getElementById('key-joints.rail.overlap').value").await,
        "about so"
    );

    // Apply the second row of rivets.
    let lost = "[id='apply-join.rail.recovery.bond_lost']";
    bench.until("the step is there", &format!("return !!document.querySelector(\"{lost}\")")).await;
    bench.press(lost).await;
    bench.until("the bond-lost finding is met", "return document.querySelector(\"article[id='join.rail.recovery.bond_lost']\")?.innerText.startsWith('met') ?? false").await;
    bench
        .until(
            "the sheet has two rows",
            "return document.querySelectorAll('#pan-rail [data-name^=hole]').length === 40",
        )
        .await;

    // A rivet tells its numbers.
    bench.script("document.querySelector('#pan-rail [data-name=hole-1]').dispatchEvent(new MouseEvent('click', {bubbles: true}))").await;
    bench.until_words("#reading-rail", "Rivet 1 on the").await;

    // See the difference, and save.
    bench.open("/job/longitudinal.toml/save").await;
    let difference = bench.words("#save").await;
    assert!(difference.contains("120 mm") && difference.contains("rows = [\"30 mm\", "), "{difference}");
    bench.press("#do-save").await;
    bench
        .until(
            "nothing is left to save",
            "return !document.getElementById('head').innerText.includes('What if')",
        )
        .await;
    let after = bench.file("longitudinal.toml");
    for (was, is) in before.lines().zip(after.lines()) {
        let changed = was.starts_with("overlap ") || was.starts_with("rivets ");
        assert!(was == is || changed, "{was}\n{is}");
    }
    assert!(after.contains("overlap      = \"120 mm\"                # each side of the cut"), "{after}");
    assert!(after.contains("rows = [\"30 mm\", "), "{after}");
    let history = bench.folder.path().join(".fayline/history/longitudinal.toml");
    let kept: Vec<_> = std::fs::read_dir(history).expect("a history").collect();
    assert_eq!(kept.len(), 1);
    bench.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn job_is_begun_from_the_form_and_carried_on_without_the_file() {
    let bench = Bench::start(LAPTOP).await;
    bench.open("/begin").await;
    bench.script("document.getElementById('begin-title').value = 'Cracked battery tray'; document.getElementById('begin-file').value = 'tray.toml'; document.getElementById('begin-thickness').value = 'four'").await;
    bench.press("#do-begin").await;
    bench.until_words("#begin [role=alert]", "thickness").await;
    assert_eq!(
        bench.script("return document.getElementById('begin-title').value").await,
        "Cracked battery tray"
    );
    bench.script("document.getElementById('begin-thickness').value = '5/32 in'").await;
    bench.press("#do-begin").await;
    bench.until_words("h1", "Cracked battery tray").await;
    bench.open("/job/tray.toml/join").await;
    bench.until_computed().await;
    bench.until_words("#findings", "joint").await;
    // What is unknown is filled in on the overview.
    bench.open("/job/tray.toml").await;
    bench.until_words("#findings", "what would settle it").await;
    bench.fill("[id='settle-joints.joint.surface.preparation']", "abraded and wiped").await;
    bench.until_words("#head", "What if").await;
    // A table that the form did not ask for, key by key: it is in the job once it is whole.
    bench.open("/job/tray.toml/join").await;
    bench.script("document.getElementById('begin-kind').value = 'sections'; document.getElementById('begin-called').value = 'frame'").await;
    bench.press("#do-begin-table").await;
    bench.until("it is begun", "return !!document.getElementById('key-sections.frame.box.width')").await;
    bench.fill("[id='key-sections.frame.box.width']", "60 mm").await;
    bench.until_words("#inputs [role=alert]", "Kept here").await;
    bench.fill("[id='key-sections.frame.box.height']", "80 mm").await;
    bench.until_words("#inputs [role=alert]", "wall").await;
    bench.fill("[id='key-sections.frame.box.wall']", "3 mm").await;
    bench.until("it is taken", "return !document.querySelector('#inputs [role=alert]')").await;
    // A key that is emptied and a table are taken out, and undone.
    bench.fill("[id='key-joints.joint.width']", "").await;
    bench.until("it is out", "return document.getElementById('key-joints.joint.width').value === ''").await;
    bench.until("its finding is unknown", "return [...document.querySelectorAll('#findings article')].some(a => a.innerText.includes('joints.joint.width'))").await;
    bench.press("#do-undo").await;
    bench
        .until("it is back", "return document.getElementById('key-joints.joint.width').value === '60 mm'")
        .await;
    bench.press("[id='take-out-sections.frame']").await;
    bench.until("the table is out", "return !document.getElementById('key-sections.frame.box.width')").await;
    bench.press("#do-undo").await;
    bench
        .until("the table is back", "return !!document.getElementById('key-sections.frame.box.width')")
        .await;
    bench.open("/job/tray.toml/save").await;
    bench.press("#do-save").await;
    bench.until_words("h1", "Cracked battery tray").await;
    bench.until("it is saved", "return !document.getElementById('head').innerText.includes('What if')").await;
    assert!(
        bench.file("tray.toml").contains("preparation = \"abraded and wiped\""),
        "{}",
        bench.file("tray.toml")
    );
    bench.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn keyboard_alone_is_enough() {
    let tab = "\u{e004}";
    let enter = "\u{e007}";
    let bench = Bench::start(LAPTOP).await;
    bench.open("/job/coupon.toml/join").await;
    bench.until_computed().await;
    let focus = "return document.activeElement.id";
    let mut seen = Vec::new();
    for _ in 0..200 {
        bench.key(tab).await;
        let at = bench.script(focus).await.as_str().unwrap_or_default().to_owned();
        let visible = bench
            .script("const a = document.activeElement, s = getComputedStyle(a); return a === document.body || s.outlineStyle !== 'none'")
            .await;
        assert_eq!(visible, Value::Bool(true), "the focus cannot be seen at {at}");
        if at == "key-joints.coupon.overlap" {
            break;
        }
        seen.push(at);
    }
    assert_eq!(bench.script(focus).await, "key-joints.coupon.overlap", "{seen:?}");
    bench.key("\u{e009}a\u{e000}").await;
    bench.key("20 mm").await;
    bench.key(enter).await;
    bench.until_words("#head", "What if").await;
    // The focus stays where it was, so that the next change is at hand.
    assert_eq!(bench.script(focus).await, "key-joints.coupon.overlap");
    for _ in 0..3 {
        bench.key(tab).await;
    }
    bench.key(enter).await;
    bench
        .until("a step up", "return document.getElementById('key-joints.coupon.overlap').value === '21 mm'")
        .await;
    bench.script("document.activeElement.blur()").await;
    bench
        .browser
        .find(fantoccini::Locator::Css("body"))
        .await
        .expect("a body")
        .send_keys("\u{e009}z\u{e000}")
        .await
        .expect("keys");
    bench
        .until(
            "undone by Ctrl-Z",
            "return document.getElementById('key-joints.coupon.overlap').value === '20 mm'",
        )
        .await;
    bench.end().await;
}

/// "A file changed on disk meanwhile is never overwritten: both are shown."
#[tokio::test(flavor = "multi_thread")]
async fn file_changed_by_others_is_not_overwritten() {
    let bench = Bench::start(LAPTOP).await;
    bench.open("/job/coupon.toml/join").await;
    bench.fill("[id='key-joints.coupon.overlap']", "20 mm").await;
    bench.until_words("#head", "What if").await;
    let path = bench.folder.path().join("coupon.toml");
    let theirs = format!("{}# checked by the other shift\n", bench.file("coupon.toml"));
    std::fs::write(&path, &theirs).expect("it can be written");
    // The page says so by itself.
    bench.until_words("#head", "changed on disk").await;
    bench.open("/job/coupon.toml/save").await;
    let both = bench.words("#save").await;
    assert!(both.contains("checked by the other shift") && both.contains("20 mm"), "{both}");
    assert_eq!(bench.script("return !!document.getElementById('do-save')").await, Value::Bool(false));
    bench.press("#do-save-as").await;
    bench.until("the other job is shown", "return location.pathname === '/job/coupon-2.toml'").await;
    assert!(bench.file("coupon-2.toml").contains("\"20 mm\""));
    assert_eq!(bench.file("coupon.toml"), theirs);
    bench.open("/job/coupon.toml/save").await;
    bench.press("#do-take-disk").await;
    bench
        .until(
            "their text is taken",
            "return !document.getElementById('head').innerText.includes('changed on disk')",
        )
        .await;
    assert_eq!(bench.file("coupon.toml"), theirs);
    bench.end().await;
}

/// "Long results show \"computing\" and can be cancelled."
#[tokio::test(flavor = "multi_thread")]
async fn what_takes_long_can_be_called_off_and_asked_for_again() {
    let bench = Bench::start(LAPTOP).await;
    bench.open("/job/longitudinal.toml/join").await;
    bench.until_computed().await;
    let whole = "return !!document.getElementById('join.rail.recovery.bond_to_failure')";
    assert_eq!(bench.script(whole).await, Value::Bool(true));
    bench.fill("[id='key-joints.rail.overlap']", "104 mm").await;
    bench.until_words("#head", "Computing").await;
    bench.press("#do-stop").await;
    bench.until_words("#head", "Called off").await;
    assert_eq!(bench.script(whole).await, Value::Bool(false));
    bench.press("#do-resume").await;
    bench.until("the whole is there again", whole).await;
    bench.end().await;
}

/// "Long results (capacity surface, probability, sizing) show "computing" with progress and can be cancelled."
#[tokio::test(flavor = "multi_thread")]
async fn sizes_and_chances_are_asked_for_and_show_how_far_they_are() {
    let bench = Bench::start(LAPTOP).await;
    bench.open("/job/double_lap.toml/join").await;
    bench.until_computed().await;
    bench.press("#do-size-strap").await;
    bench.until("it says how far it is", "return !!document.querySelector('.computing[data-share]')").await;
    bench.until_computed().await;
    let told = bench.words("#longer").await;
    assert!(told.contains("reached:") || told.contains("Reached:"), "{told}");
    bench.press("#do-chances").await;
    bench.until_words("#longer article", "give way").await;
    bench.end().await;
}

/// The pages of the demo.
const PAGES: [(&str, &str); 10] = [
    ("jobs", "/"),
    ("begin", "/begin"),
    ("overview", "/job/longitudinal.toml"),
    ("join", JOIN),
    ("join-field", FIELD),
    ("bond-day", "/job/longitudinal.toml/bond_day"),
    ("prove", "/job/longitudinal.toml/prove"),
    ("choose", "/job/longitudinal.toml/choose"),
    ("triage", "/job/longitudinal.toml/triage"),
    ("save", "/job/longitudinal.toml/save"),
];

#[tokio::test(flavor = "multi_thread")]
async fn accessibility_and_loopback_on_every_page_in_light_and_dark() {
    let axe = std::fs::read_to_string(PathBuf::from(
        std::env::var_os("AXE").expect("AXE names axe.min.js; .ci/browser sets it"),
    ))
    .expect("axe-core");
    for dark in [false, true] {
        let bench = Bench::start(Eyes { dark, ..LAPTOP }).await;
        for (name, path) in PAGES {
            bench.open(path).await;
            bench.until_computed().await;
            bench.script(&axe).await;
            let found = bench
                .browser
                .execute_async("axe.run(document, { resultTypes: ['violations'] }).then(r => arguments[arguments.length - 1](r.violations.filter(v => ['serious', 'critical'].includes(v.impact)).map(v => v.id + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 200) + ' ' + n.failureSummary).join(' | '))))", Vec::new())
                .await
                .expect("axe runs");
            assert_eq!(found, Value::Array(Vec::new()), "{name}, dark: {dark}: {found:#}");
            let foreign = bench
                .script("return performance.getEntriesByType('resource').map(e => e.name).filter(n => !n.startsWith(location.origin) && !n.startsWith('data:'))")
                .await;
            assert_eq!(foreign, Value::Array(Vec::new()), "{name}");
            let wide = bench.script("return document.documentElement.scrollWidth > innerWidth").await;
            assert_eq!(wide, Value::Bool(false), "{name} is wider than its window");
        }
        bench.end().await;
    }
}

/// "Screenshots of every page at laptop and tablet size, light and dark": they are left in `PICTURES` for a person.
#[tokio::test(flavor = "multi_thread")]
async fn pictures_of_every_page_are_left_to_be_looked_at() {
    let Some(folder) = std::env::var_os("PICTURES").map(PathBuf::from) else { return };
    std::fs::create_dir_all(&folder).expect("a folder");
    for (device, size) in [("laptop", [1280, 900]), ("tablet", [820, 1180])] {
        for dark in [false, true] {
            let bench = Bench::start(Eyes { size, dark }).await;
            for (name, path) in PAGES {
                bench.open(path).await;
                bench.until_computed().await;
                let room = if dark { "dark" } else { "light" };
                let to = folder.join(format!("{name}-{device}-{room}.png"));
                bench.picture(&to).await;
                assert!(std::fs::metadata(&to).expect("a picture").len() > 10_000, "{}", to.display());
                let wide = bench.script("return document.documentElement.scrollWidth > innerWidth").await;
                assert_eq!(wide, Value::Bool(false), "{name} is wider than a {device}");
            }
            bench.end().await;
        }
    }
}
