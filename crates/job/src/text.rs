//! From bytes to a text that can be read.

use crate::place::Source;
use crate::problem::Problem;

/// The longest line that is read, in bytes: longer ones are no text that somebody wrote.
const LONGEST_LINE: usize = 10_000;

/// The text of a file's bytes, which must be UTF-8.
///
/// # Errors
/// One problem at the first byte that is not, with the line as far as it can be shown.
pub fn decode(file: &str, bytes: &[u8]) -> Result<String, Vec<Problem>> {
    let Err(error) = std::str::from_utf8(bytes) else {
        return Ok(String::from_utf8_lossy(bytes).into_owned());
    };
    let good = error.valid_up_to();
    let (what, mend) = match bytes {
        [0xff, 0xfe, ..] | [0xfe, 0xff, ..] => ("the file is text in UTF-16".to_owned(), "save it as UTF-8"),
        [0x50, 0x4b, 0x03, 0x04, ..] => (
            "the file is no text but a workbook or an archive".to_owned(),
            "export the sheet as CSV in UTF-8",
        ),
        _ => {
            let byte = bytes.get(good).copied().unwrap_or_default();
            (format!("the byte {byte:#04x} is no character of UTF-8"), "save the file in the encoding UTF-8")
        }
    };
    // What cannot be read is shown as a mark of one character; what stands before it keeps its length.
    let shown = String::from_utf8_lossy(bytes);
    let place = Source::new(file, &shown).place(good..good + char::REPLACEMENT_CHARACTER.len_utf8());
    Err(vec![Problem {
        place,
        key: String::new(),
        what,
        expected: "text in UTF-8".to_owned(),
        mend: Some(mend.to_owned()),
    }])
}

/// What makes a text too large to be looked into.
pub(crate) fn too_large(source: &Source<'_>, text: &str, longest: usize) -> Option<Problem> {
    let refuse = |at: usize, what: String, expected: String, mend: &str| Problem {
        place: source.place(at..at),
        key: String::new(),
        what,
        expected,
        mend: Some(mend.to_owned()),
    };
    if text.len() > longest {
        let what = format!("the file has {} bytes", text.len());
        let mend = "keep data from instruments in files of their own, and only what belongs to this job";
        return Some(refuse(0, what, format!("at most {longest} bytes"), mend));
    }
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if line.len() > LONGEST_LINE {
            let what = format!("the line has {} bytes", line.len());
            return Some(refuse(at, what, format!("at most {LONGEST_LINE} bytes"), "break the line"));
        }
        at += line.len();
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_text_in_utf_8_is_taken_as_it_is() {
        assert_eq!(decode("a.toml", "t = \"23 °C\"\r\n".as_bytes()).unwrap(), "t = \"23 °C\"\r\n");
        assert_eq!(decode("a.toml", b"").unwrap(), "");
    }

    #[test]
    fn unit_latin_1_is_refused_at_its_first_byte() {
        let problem = decode("a.toml", b"x = 1\nt = \"23 \xb0C\" # \xb5\n").unwrap_err().remove(0);
        assert_eq!((problem.place.line, problem.place.column), (2, 9));
        assert_eq!(&*problem.place.text, "t = \"23 \u{fffd}C\" # \u{fffd}");
        assert!(problem.what.contains("0xb0"), "{}", problem.what);
    }

    #[test]
    fn unit_other_encodings_are_named() {
        let utf_16 = decode("a.csv", b"\xff\xfea\0b\0").unwrap_err().remove(0);
        assert!(utf_16.what.contains("UTF-16"), "{}", utf_16.what);
        let workbook = decode("a.csv", b"PK\x03\x04\xff").unwrap_err().remove(0);
        assert!(workbook.what.contains("workbook"), "{}", workbook.what);
    }

    #[test]
    fn unit_sizes_are_limited() {
        let long = format!("x = 1\ny = \"{}\"\n", "a".repeat(LONGEST_LINE));
        let problem = too_large(&Source::new("a.toml", &long), &long, 1 << 20).unwrap();
        assert_eq!((problem.place.line, problem.place.column), (2, 1));
        assert!(too_large(&Source::new("a.toml", &long), &long, 100).unwrap().what.contains("file"));
        assert!(too_large(&Source::new("a.toml", "x = 1"), "x = 1", 100).is_none());
    }
}
