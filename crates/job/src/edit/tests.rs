//! Tests of edits.

use proptest::prelude::*;

use super::*;

const FRAME: &str = include_str!("../../../../examples/frame.toml");
const COUPON: &str = include_str!("../../../../examples/coupon.toml");
const STARTER: &str = include_str!("../../../../examples/starter.toml");

fn set(text: &str, key: &str, value: &str) -> Result<String, String> {
    let edits = [Edit { key: key.to_owned(), value: value.to_owned() }];
    edit(text, &edits)
        .map_err(|problems| problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))
}

/// The value under a dotted key as it is written.
fn written(text: &str, key: &str) -> String {
    let tree = DeTable::parse(text).expect("TOML");
    let steps = steps(key).expect("a key");
    match find(tree.get_ref(), &steps) {
        Found::Value(node) => text[node.span()].to_owned(),
        _ => panic!("{key} is not there"),
    }
}

#[test]
fn unit_a_value_is_replaced_and_all_else_stays() {
    let text = "[j.x] # first\n# remark\noverlap  =  \"100 mm\"   # why\n\n[j.y]\n";
    let edited = set(text, "j.x.overlap", "\"110 mm\"").unwrap();
    assert_eq!(edited, "[j.x] # first\n# remark\noverlap  =  \"110 mm\"   # why\n\n[j.y]\n");
}

/// Found by fuzzing: a key of the user's is shown like every other text of the user's.
#[test]
fn regress_a_key_with_control_characters_is_shown_on_one_line() {
    let problem = set("a = 1\n", "a\u{1b}[2J\0", "1").unwrap_err();
    assert!(problem.contains("this is no dotted key"), "{problem}");
    assert!(!problem.contains(char::is_control), "{problem:?}");
}

#[test]
fn unit_every_way_to_write_a_key_is_found() {
    let same = "\"6 kN\"";
    for (text, expected) in [
        ("[j.x]\nl.p = { k = 1, a = \"5 kN\" } # t\n", "[j.x]\nl.p = { k = 1, a = \"6 kN\" } # t\n"),
        ("[j.x]\nl.p.a = \"5 kN\"\n", "[j.x]\nl.p.a = \"6 kN\"\n"),
        ("[j.x.l.p]\na='5 kN'", "[j.x.l.p]\na=\"6 kN\""),
        ("j = { x = { l = { p = { a = \"5 kN\" } } } }\n", "j = { x = { l = { p = { a = \"6 kN\" } } } }\n"),
        ("[j]\nx.l = { p.a = \"5 kN\" }\n", "[j]\nx.l = { p.a = \"6 kN\" }\n"),
        ("['j'.\"x\".l]\n\"p\".a = \"5 kN\"\n", "['j'.\"x\".l]\n\"p\".a = \"6 kN\"\n"),
    ] {
        assert_eq!(set(text, "j.x.l.p.a", same).unwrap(), expected);
    }
}

#[test]
fn unit_items_of_lists_are_counted_from_one() {
    let text =
        "[a]\ncure = [\n  { at = 1 }, # first\n  { at = 2 },\n]\n[[b.rows]]\nx = 1\n[[b.rows]]\nx = 2\n";
    let edited = set(text, "a.cure[2].at", "3").unwrap();
    assert_eq!(edited, text.replace("at = 2", "at = 3"));
    assert_eq!(set(text, "b.rows[1].x", "5").unwrap(), text.replacen("x = 1", "x = 5", 1));
    assert!(set(text, "a.cure[3].at", "3").unwrap_err().contains("2 items"));
    assert!(set(text, "a.cure[0].at", "3").unwrap_err().contains("no dotted key"));
    assert!(set(text, "a.cure.at", "3").unwrap_err().contains("no table"));
}

#[test]
fn unit_whole_tables_are_not_replaced() {
    let text = "[j.x]\na = 1\n[[j.y]]\nb = 2\n[k]\nc.d = 1\n";
    for key in ["j.x", "j.y", "j", "k.c"] {
        assert!(set(text, key, "5").unwrap_err().contains("table"), "{key}");
    }
    // A table in braces is a value like any other.
    assert_eq!(set("s = { a = 1 }\n", "s", "{ a = 2 }").unwrap(), "s = { a = 2 }\n");
}

#[test]
fn unit_an_equal_value_is_left_alone() {
    for (text, value) in [
        ("a = 'x' # r", "\"x\""),
        ("a = \"°\"", "\"\\u00b0\""),
        ("a = [ 1,2 ]", "[1, 2]"),
        ("a = {b=1,c=[true]}", "{ c = [true], b = 1 }"),
        ("a = 1_000", "1000"),
        ("a = 2031-11-07", "2031-11-07"),
    ] {
        assert_eq!(set(text, "a", value).unwrap(), text);
    }
    assert_eq!(set("a = 1", "a", "1.0").unwrap(), "a = 1.0");
}

#[test]
fn unit_a_key_is_added_where_its_table_is() {
    for (text, key, expected) in [
        ("[j.x]\na = 1\n\n[j.y]\nb = 2\n", "j.x.c", "[j.x]\na = 1\nc = 3\n\n[j.y]\nb = 2\n"),
        ("[j.x]\nl.p.a = 1\n", "j.x.l.p.b", "[j.x]\nl.p.a = 1\nl.p.b = 3\n"),
        ("[j.x]\nl.p.a = 1\n", "j.x.l.q.b", "[j.x]\nl.p.a = 1\nl.q.b = 3\n"),
        ("[j.x]\nl.p = { a = 1 }\n", "j.x.l.p.b", "[j.x]\nl.p = { a = 1, b = 3 }\n"),
        ("[j.x]\nl.p = { a = 1 }\n", "j.x.l.q.b", "[j.x]\nl.p = { a = 1 }\nl.q.b = 3\n"),
        ("[j.x]\nl = { p = { a = 1 } }\n", "j.x.l.q.b", "[j.x]\nl = { p = { a = 1 }, q.b = 3 }\n"),
        ("[j.x]\nl = {}\n", "j.x.l.b", "[j.x]\nl = { b = 3 }\n"),
        ("[j.x]\na = 1\n", "j.y.b", "[j.x]\na = 1\n\n[j.y]\nb = 3\n"),
        ("[j.x]\na = 1\n", "top", "top = 3\n[j.x]\na = 1\n"),
        ("", "j.y.b", "[j.y]\nb = 3\n"),
    ] {
        let edited = set(text, key, "3").unwrap_or_else(|problem| panic!("{text:?} {key}: {problem}"));
        assert_eq!(edited, expected, "{key}");
        assert_eq!(written(&edited, key), "3");
    }
}

#[test]
fn unit_line_ends_and_byte_order_mark_stay() {
    let windows = "\u{feff}[j.x]\r\na = 1 # one\r\n\r\n[j.y]\r\nb = \"µ\"\r\n";
    assert_eq!(set(windows, "j.x.a", "2").unwrap(), windows.replace("a = 1", "a = 2"));
    let added = set(windows, "j.x.c", "3").unwrap();
    assert_eq!(added, windows.replace("# one\r\n", "# one\r\nc = 3\r\n"));
    assert_eq!(set("a = 1", "a", "2").unwrap(), "a = 2");
    // A new key needs a line of its own, so a last line end that is missing comes with it.
    assert_eq!(set("a = 1", "b", "2").unwrap(), "a = 1\nb = 2\n");
}

#[test]
fn unit_bad_edits_are_refused_and_change_nothing() {
    let text = "[j.x]\na = 1\n";
    for (key, value) in [
        ("", "1"),
        ("j..x", "1"),
        ("j.x ", "1"),
        ("j.x.a.b", "1"),
        ("j.x.a[1]", "1"),
        ("j.x.b[1]", "1"),
        ("j.x.b", ""),
        ("j.x.b", "# remark"),
        ("j.x.b", "1\nc = 2"),
        ("j.x.b", "5 mm"),
        ("j.x.b[", "1"),
        ("j.x.b[9999999999999999999999]", "1"),
    ] {
        assert!(set(text, key, value).is_err(), "{key} = {value}");
    }
    assert!(set("a = = 1", "a", "1").unwrap_err().contains("not TOML"));
    // Every bad edit is told, and the good ones among them are not kept.
    let edits =
        ["j.x.a", "j.x.a.b", "nonsense..key"].map(|key| Edit { key: key.to_owned(), value: "7".to_owned() });
    assert_eq!(edit(text, &edits).unwrap_err().len(), 2);
}

#[test]
fn unit_edits_build_on_each_other() {
    let edits = [("j.z.a", "1"), ("j.z.b", "2"), ("j.z.a", "3")]
        .map(|(key, value)| Edit { key: key.to_owned(), value: value.to_owned() });
    assert_eq!(edit("", &edits).unwrap(), "[j.z]\na = 3\nb = 2\n");
}

/// Every dotted key of a text that has a plain value, with its items.
fn keys(text: &str) -> Vec<String> {
    fn walk(node: &DeValue<'_>, key: &str, found: &mut Vec<String>) {
        match node {
            DeValue::Table(table) => {
                for (name, value) in table {
                    let name = name.get_ref();
                    let key = if key.is_empty() { name.to_string() } else { format!("{key}.{name}") };
                    walk(value.get_ref(), &key, found);
                }
            }
            DeValue::Array(items) => {
                for (index, item) in items.iter().enumerate() {
                    walk(item.get_ref(), &format!("{key}[{}]", index + 1), found);
                }
            }
            _ => found.push(key.to_owned()),
        }
    }
    let tree = DeTable::parse(text).expect("TOML").into_inner();
    let mut found = Vec::new();
    walk(&DeValue::Table(tree), "", &mut found);
    found
}

#[test]
fn law_writing_what_is_there_keeps_every_byte() {
    for text in [FRAME, COUPON, STARTER] {
        let keys = keys(text);
        assert!(keys.len() > 5);
        for key in keys {
            assert_eq!(set(text, &key, &written(text, &key)).unwrap(), text, "{key}");
        }
    }
}

proptest! {
    // Each case parses a whole demo file several times.
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn law_an_edit_changes_only_its_value(
        which in 0_usize..3,
        choice in any::<prop::sample::Index>(),
        value in prop_oneof!["\"[0-9]{1,3} mm\"", "-?[1-9][0-9]{0,3}", "\\[\"a\", 1\\.5\\]", "'[a-zµ °]{0,8}'", "\\{ at = 1 \\}"],
        windows in any::<bool>(),
    ) {
        let text = [FRAME, COUPON, STARTER][which];
        let text = if windows { text.replace('\n', "\r\n") } else { text.to_owned() };
        let keys = keys(&text);
        let key = choice.get(&keys);
        let before = written(&text, key);
        let edited = set(&text, key, &value).map_err(TestCaseError::fail)?;
        // The same text but for the one value, and reading gives the new one.
        prop_assert_eq!(edited.len() + before.len(), text.len() + written(&edited, key).len());
        let back = set(&edited, key, &before).map_err(TestCaseError::fail)?;
        prop_assert_eq!(&back, &text);
        let written = written(&edited, key);
        prop_assert!(written == value || text == edited, "{} became {}", key, written);
    }

    #[test]
    fn law_an_added_key_is_there_and_all_others_stay(
        which in 0_usize..3,
        choice in any::<prop::sample::Index>(),
        windows in any::<bool>(),
    ) {
        let text = [FRAME, COUPON, STARTER][which];
        let text = if windows { text.replace('\n', "\r\n") } else { text.to_owned() };
        let before = keys(&text);
        // Beside some key of the file, in whatever kind of table that one stands.
        let beside = choice.get(&before);
        let Some((table, _)) = beside.rsplit_once('.') else { return Ok(()) };
        prop_assume!(!table.ends_with(']') && !table.contains("]."));
        let key = format!("{table}.added.here");
        let edited = set(&text, &key, "\"1 mm\"").map_err(TestCaseError::fail)?;
        prop_assert_eq!(written(&edited, &key), "\"1 mm\"");
        prop_assert_eq!(keys(&edited).len(), before.len() + 1);
        for known in &before {
            prop_assert_eq!(written(&edited, known), written(&text, known));
        }
        let remarks = |text: &str| text.matches('#').count();
        prop_assert_eq!(remarks(&edited), remarks(&text));
        prop_assert_eq!(edited.contains("\r\n"), windows);
        prop_assert!(!windows || edited.matches('\n').count() == edited.matches("\r\n").count());
    }

    #[test]
    fn law_no_edit_of_any_text_panics(text in "[a-c\\[\\]{}=.,\"'\n\r #1µ]{0,40}", key in "[a-c.\\[\\]12]{0,8}", value in "[a\"'\\[\\]{}=1,\n ]{0,6}") {
        let _ = set(&text, &key, &value);
    }
}

#[test]
fn unit_a_key_or_a_table_is_taken_out_and_all_else_stays() {
    let text = "# head\n[a]\nx = 1  # one\ny = { p = 1, q = 2 }\n\n# of b\n[b.c]\nz = 3\n\n[d]\nw = 4\n";
    let without = |key: &str| take_out(text, key);
    assert_eq!(without("a.x").as_deref(), Some(text.replace("x = 1  # one\n", "").as_str()));
    assert_eq!(without("a.y.q").as_deref(), Some(text.replace(", q = 2 }", "}").as_str()));
    assert_eq!(without("b.c").as_deref(), Some(text.replace("# of b\n[b.c]\nz = 3\n\n", "").as_str()));
    for key in ["a.none", "none", "a.x.y", "a[1]", ""] {
        assert_eq!(without(key), None, "{key}");
    }
    let crlf = text.replace('\n', "\r\n");
    assert_eq!(take_out(&crlf, "a.x"), without("a.x").map(|text| text.replace('\n', "\r\n")));
    assert_eq!(take_out("no = [toml", "no"), None);
}
