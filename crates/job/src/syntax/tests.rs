//! Tests of the words for what is wrong with a text as TOML.

use proptest::prelude::*;

use super::*;

fn faults(text: &str) -> Vec<Problem> {
    let (_, errors) = toml::de::DeTable::parse_recoverable(text);
    let mut problems = Faults::of(&Source::new("a.toml", text), text, &errors).problems;
    problems.sort_by_key(|problem| (problem.place.line, problem.place.column));
    problems
}

/// The one fault of a text: line, column, what it is.
fn fault(text: &str) -> (usize, usize, String) {
    let faults = faults(text);
    assert_eq!(faults.len(), 1, "{text:?}: {faults:#?}");
    let problem = &faults[0];
    (problem.place.line, problem.place.column, problem.what.clone())
}

#[test]
fn unit_slips_are_told_in_plain_words_at_their_place() {
    for (text, line, column, part) in [
        ("overlap = 80 mm", 1, 11, "no quotation marks"),
        ("x = “80 mm”", 1, 5, "straight"),
        ("x = yes", 1, 5, "\"yes\" is not known"),
        ("x = inside", 1, 5, "no quotation marks"),
        ("x = none", 1, 5, "no quotation marks"),
        ("x = NaN", 1, 5, "no number"),
        ("x = True", 1, 5, "\"True\" is not known"),
        ("x = 0,33", 1, 6, "comma"),
        ("x = 1 1", 1, 5, "no quotation marks"),
        ("x = \"a\" b", 1, 9, "nothing may follow a value"),
        ("[a] b = 1", 1, 5, "nothing may follow the name"),
        ("x = 08", 1, 5, "does not begin with a zero"),
        ("x = .5", 1, 5, "no number"),
        ("x = 5.", 1, 7, "no number"),
        ("x = 0.1.0", 1, 8, "no number"),
        ("x = 0X1F", 1, 5, "no number"),
        ("x = 2031-13-01", 1, 5, "no date"),
        ("x = 2031-11-07 25:00:00", 1, 5, "no date"),
        ("x = \"a", 1, 5, "not closed on its line"),
        ("x = 'a", 1, 5, "not closed on its line"),
        ("x = \"\"\"a\nb", 1, 5, "text that begins here"),
        ("x = 80\"mm\"", 1, 5, "before its quotation mark"),
        ("x = \"C:\\data\"", 1, 8, "backslash"),
        ("x = \"a\u{1}b\"", 1, 7, "control character"),
        ("x = 1 # a\u{1}", 1, 10, "control character"),
        ("x", 1, 2, "no equals sign"),
        ("x : 1", 1, 3, "no equals sign"),
        ("a b = 1", 1, 3, "no equals sign"),
        ("x =", 1, 4, "no value"),
        ("= 1", 1, 1, "a key is missing"),
        ("a..b = 1", 1, 3, "a key is missing"),
        ("[]\na = 1", 1, 2, "a key is missing"),
        ("x == 1", 1, 4, "equals sign too many"),
        ("größe = 1", 1, 3, "cannot stand in a key"),
        ("[joints wall]\na = 1", 1, 8, "bracket around the table's name"),
        ("[joints.wall\na = 1", 1, 13, "bracket around the table's name"),
        ("[[joints.wall]\na = 1", 1, 15, "bracket around the table's name"),
        ("x = [1,,2]", 1, 8, "one comma too many"),
        ("x = { a = 1,, b = 2 }", 1, 13, "one comma too many"),
        ("x = [\n\"a\"\n\"b\"\n]", 3, 1, "comma is missing"),
        ("x = { a = \"1\" b = 2 }", 1, 15, "comma is missing"),
        ("x = [1, 2\ny = 1\n[z]\nb = 2\n", 1, 5, "list that begins here"),
        ("x = [1, 2", 1, 5, "list that begins here"),
        ("x = [[1], [2]\n[z]\nb = [3]\n", 1, 5, "list that begins here"),
        ("x = { a = 1\ny = { b = 2 }\n[z]\nc = [1]\n", 1, 5, "table that begins here"),
        ("x = [{ a = 1 ]\ny = 2", 1, 6, "table that begins here"),
        ("x = [1}\ny = 2", 1, 5, "list that begins here"),
        ("a = 1\na = 2", 2, 1, "the key \"a\" stands here a second time"),
        ("[a.b]\nc = 1\n[a.b]\nd = 1", 3, 4, "the table [a.b] stands here a second time"),
        ("a = 1\na.b = 2", 2, 1, "has a value already"),
        ("x = 1\r y = 2", 1, 6, "carriage return"),
    ] {
        let (at_line, at_column, what) = fault(text);
        assert!(what.contains(part), "{text:?}: {what}");
        assert_eq!((at_line, at_column), (line, column), "{text:?}: {what}");
    }
}

#[test]
fn unit_mends_can_be_copied() {
    for (text, mend) in [
        ("x = 80 mm", "write \"80 mm\""),
        ("x = „80 mm“", "write \"80 mm\""),
        ("x = no", "write false"),
        ("x = inside", "write \"inside\""),
        ("x = TRUE", "write true"),
        ("x = 12,5", "write 12.5"),
        ("x: 1", "write \"=\" for \":\""),
        ("# r\na = 1\nb = 2\na = 3", "keep one of the two; the other stands in line 2"),
        ("[a]\n[b]\n[a]", "put these keys under line 1"),
    ] {
        assert_eq!(faults(text)[0].mend.as_deref(), Some(mend), "{text:?}");
    }
}

#[test]
fn unit_each_broken_line_is_told_once() {
    let text = "a = 1 mm\nb = 2\nc = = 3 = 4\nd = yes\n";
    let lines: Vec<usize> = faults(text).iter().map(|problem| problem.place.line).collect();
    assert_eq!(lines, [1, 3, 4]);
}

#[test]
fn unit_what_an_open_list_swallows_is_not_told() {
    let text = "a = yes\nx = [1\ny = no\n[z]\nb = = 2\n";
    let told: Vec<(usize, String)> =
        faults(text).into_iter().map(|problem| (problem.place.line, problem.what)).collect();
    assert_eq!(told.len(), 2, "{told:?}");
    assert_eq!([told[0].0, told[1].0], [1, 2]);
}

#[test]
fn unit_a_file_of_nothing_but_faults_is_told_in_part() {
    assert_eq!(faults(&"= = =\n".repeat(10_000)).len(), MOST_FAULTS);
}

#[test]
fn unit_good_texts_have_no_faults() {
    for text in [
        include_str!("../../../../examples/frame.toml"),
        "x = [[1, [2]], { a = [3] }]\n[y]\nz = { a = 1,\n b = 2 }\n",
        "x = \"\"\"\n[ not a list\n\"\"\"\ny = '''['''\n",
    ] {
        assert!(faults(text).is_empty());
        assert!(left_open(text).is_none());
    }
}

proptest! {
    #[test]
    fn law_every_broken_text_gets_its_faults(text in "[ab\\[\\]{}=,.\"'#\n\r 01µ“:-]{0,60}") {
        let (_, errors) = toml::de::DeTable::parse_recoverable(&text);
        prop_assert_eq!(errors.is_empty(), faults(&text).is_empty());
        for problem in faults(&text) {
            prop_assert!(problem.place.text.get(problem.place.span.clone()).is_some());
        }
    }
}
