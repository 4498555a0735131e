//! "A property test feeds mutated demo files: never a panic, never a NaN in the output."
//!
//! Every job and data file in `examples/` is taken, damaged as files get damaged (a key too many, a line twice,
//! a wrong unit, a sensor that writes `nan`, a byte flipped), read, and assessed where it is accepted. The time
//! is bounded as well: a slip must not turn into an hour.

use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use std::time::{Duration, Instant};

use assessment::{Assessment, Measure};
use proptest::prelude::*;
use proptest::sample::Index;
use stages::{Ask, assess};

/// Files in memory.
#[derive(Debug, Clone)]
struct Folder(BTreeMap<String, Vec<u8>>);

impl job::Files for Folder {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        self.0.get(name).cloned().ok_or_else(|| "there is no such file".to_owned())
    }
}

impl Folder {
    /// All examples, a job with everything in it, and one on a logged temperature with its log.
    fn examples() -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
        let mut files = BTreeMap::new();
        for entry in std::fs::read_dir(path).expect("a folder of examples") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if is_of(&name, "toml") || is_of(&name, "csv") {
                files.insert(name, std::fs::read(&path).expect("a file"));
            }
        }
        files.insert("all_forms.toml".to_owned(), include_bytes!("all_forms.toml").to_vec());
        let frame = String::from_utf8(files["frame.toml"].clone()).expect("text");
        let logged = frame.replace("temperature = \"16 °C\"", "log         = \"shop.csv\"");
        assert_ne!(frame, logged);
        files.insert("logged.toml".to_owned(), logged.into_bytes());
        // Invented: a pull that comes and goes.
        let pulled = frame.replace("[bond_day]", "[joints.doubler.loads.tow]\nkind = \"limit\"\naxial = \"9 kN\"\nlasting = 0.2\nspectrum = { log = \"tow.csv\", repeats = 2000 }\n\n[bond_day]");
        let pulled = pulled.replace("[adhesives.epoxy]", "[adhesives.epoxy]\nsustained_share = 0.3\nfatigue = { strength = \"6 MPa\", at_cycles = 1e6, slope = 8 }");
        assert!(frame.contains("[bond_day]") && frame.contains("[adhesives.epoxy]"));
        files.insert("pulled.toml".to_owned(), pulled.into_bytes());
        let tow = (0..40).map(|i| format!("{},{}\n", i, 0.5 * f64::from(i * 7 % 11) / 11.0));
        let tow = format!("time_s,share\n{}", tow.collect::<String>());
        files.insert("tow.csv".to_owned(), tow.into_bytes());
        // Invented: a hall that cools down over the night.
        let samples = (0..60).map(|i| format!("{},{}\n", i * 1800, 18.0 - f64::from(i) * 0.1));
        let log = format!("time_s,temperature\n{}", samples.collect::<String>());
        files.insert("shop.csv".to_owned(), log.into_bytes());
        Self(files)
    }

    fn jobs(&self) -> Vec<&str> {
        self.0.keys().map(String::as_str).filter(|name| is_of(name, "toml")).collect()
    }
}

fn is_of(name: &str, ending: &str) -> bool {
    Path::new(name).extension().is_some_and(|extension| extension == ending)
}

/// A way to damage a file.
#[derive(Debug, Clone)]
enum Damage {
    FlipByte(Index, u8),
    CutAt(Index),
    Insert(Index, &'static str),
    DeleteLine(Index),
    DoubleLine(Index),
    SwapLines(Index, Index),
    /// Replaces a number, with or without a unit behind it.
    Number(Index, &'static str),
    /// Multiplies a number: a slip of the decimal point, and smaller ones.
    Scale(Index, f64),
    /// Replaces a unit behind a number.
    Unit(Index, &'static str),
    /// Replaces a whole value behind an equals sign.
    Value(Index, &'static str),
    /// Replaces a word.
    Word(Index, &'static str),
}

const NUMBERS: &[&str] = &[
    "nan",
    "inf",
    "-inf",
    "1e400",
    "-1e400",
    "1e308",
    "1e-320",
    "1e9",
    "1e6",
    "1e4",
    "1e3",
    "100",
    "10",
    "2",
    "1",
    "0.99",
    "0.5",
    "0.1",
    "0.01",
    "1e-3",
    "1e-6",
    "1e-9",
    "-0",
    "0",
    "-1",
    "-40",
    "99999999999999999999",
    "1/0",
    "0.1.2",
    "12,5",
    "²",
    "",
];
const FACTORS: &[f64] = &[1e-4, 1e-3, 0.01, 0.1, 0.5, 0.9, 1.1, 2.0, 10.0, 100.0, 1e3, 1e4, -1.0];
const UNITS: &[&str] = &[
    "mm", "in", "m", "µm", "MPa", "GPa", "Pa", "ksi", "psi", "N/mm²", "kJ/m²", "N", "kN", "MN", "lbf", "s",
    "min", "h", "d", "°C", "°F", "K", "mL", "L", "/K", "kg", "%", "quux", "",
];
const VALUES: &[&str] = &[
    "\"\"",
    "[]",
    "{}",
    "nan",
    "inf",
    "1e400",
    "-0",
    "0",
    "true",
    "2031-11-07",
    "\"0 mm\"",
    "[\"0 mm\"]",
    "[[]]",
    "\"\u{202e}µ°²\"",
    "\"\"\"\nx\"\"\"",
    "'",
    "\"",
    "[",
    "99999999999999999999",
];
const WORDS: &[&str] =
    &["linear", "clamped", "pinned", "test", "own", "imperial", "lognormal", "member", "µ", "a.b", ""];
const INSERTED: &[&str] =
    &["\u{feff}", "\r", "\t", "\u{0}", "µ", "\u{1f529}", "[", "]", "{", "}", "\"", "#", "=", ",", "\n"];

fn damage() -> impl Strategy<Value = Damage> {
    let at = any::<Index>;
    let one_of = |words: &'static [&'static str]| prop::sample::select(words);
    prop_oneof![
        1 => (at(), 1_u8..).prop_map(|(at, bits)| Damage::FlipByte(at, bits)),
        1 => at().prop_map(Damage::CutAt),
        1 => (at(), one_of(INSERTED)).prop_map(|(at, text)| Damage::Insert(at, text)),
        3 => at().prop_map(Damage::DeleteLine),
        2 => at().prop_map(Damage::DoubleLine),
        2 => (at(), at()).prop_map(|(a, b)| Damage::SwapLines(a, b)),
        12 => (at(), one_of(NUMBERS)).prop_map(|(at, text)| Damage::Number(at, text)),
        16 => (at(), prop::sample::select(FACTORS)).prop_map(|(at, factor)| Damage::Scale(at, factor)),
        6 => (at(), one_of(UNITS)).prop_map(|(at, text)| Damage::Unit(at, text)),
        2 => (at(), one_of(VALUES)).prop_map(|(at, text)| Damage::Value(at, text)),
        2 => (at(), one_of(WORDS)).prop_map(|(at, text)| Damage::Word(at, text)),
    ]
}

impl Damage {
    fn done(&self, file: &[u8]) -> Vec<u8> {
        match self {
            _ if file.is_empty() => Vec::new(),
            Self::FlipByte(at, bits) => {
                let mut file = file.to_vec();
                let at = at.index(file.len());
                file[at] ^= bits;
                file
            }
            Self::CutAt(at) => file[..at.index(file.len())].to_vec(),
            Self::Insert(at, text) => {
                let at = at.index(file.len());
                replaced(file, at..at, text)
            }
            Self::DeleteLine(at) => of_lines(file, |lines| {
                lines.remove(at.index(lines.len()));
            }),
            Self::DoubleLine(at) => of_lines(file, |lines| {
                let at = at.index(lines.len());
                lines.insert(at, lines[at]);
            }),
            Self::SwapLines(a, b) => of_lines(file, |lines| {
                let (a, b) = (a.index(lines.len()), b.index(lines.len()));
                lines.swap(a, b);
            }),
            Self::Number(at, text) => one(file, *at, text, &numbers(file)),
            Self::Scale(at, factor) => {
                let numbers = numbers(file);
                if numbers.is_empty() {
                    return file.to_vec();
                }
                let number = at.get(&numbers);
                let text = std::str::from_utf8(&file[number.clone()]).unwrap_or("1");
                let scaled = text.parse::<f64>().map_or(1.0, |number| number * factor);
                replaced(file, number.clone(), &format!("{scaled}"))
            }
            Self::Unit(at, text) => one(file, *at, text, &units(file)),
            Self::Value(at, text) => one(file, *at, text, &values(file)),
            Self::Word(at, text) => one(file, *at, text, &words(file)),
        }
    }
}

fn replaced(file: &[u8], part: Range<usize>, text: &str) -> Vec<u8> {
    [&file[..part.start], text.as_bytes(), &file[part.end..]].concat()
}

fn one(file: &[u8], at: Index, text: &str, parts: &[Range<usize>]) -> Vec<u8> {
    if parts.is_empty() { file.to_vec() } else { replaced(file, at.get(parts).clone(), text) }
}

fn of_lines(file: &[u8], change: impl FnOnce(&mut Vec<&[u8]>)) -> Vec<u8> {
    let mut lines: Vec<&[u8]> = file.split_inclusive(|byte| *byte == b'\n').collect();
    change(&mut lines);
    lines.concat()
}

/// Runs of bytes of a kind.
fn runs(file: &[u8], kind: impl Fn(u8) -> bool) -> Vec<Range<usize>> {
    let mut runs = Vec::new();
    let mut from = None;
    for (at, byte) in file.iter().copied().chain([b'\n']).enumerate() {
        match (kind(byte), from) {
            (true, None) => from = Some(at),
            (false, Some(start)) => {
                runs.push(start..at);
                from = None;
            }
            _ => {}
        }
    }
    runs
}

fn words(file: &[u8]) -> Vec<Range<usize>> {
    runs(file, |byte| byte.is_ascii_alphabetic() || byte == b'_')
}

/// Numbers that are values, not part of a text. (A text of the user's may well say "inf", and is repeated.)
fn numbers(file: &[u8]) -> Vec<Range<usize>> {
    let mut numbers = runs(file, |byte| byte.is_ascii_digit() || b".-+e".contains(&byte));
    numbers.retain(|run| {
        let mut before = file[..run.start].iter().rev();
        let behind = file.get(run.end).copied().unwrap_or(b'\n');
        let follows = match before.next() {
            None | Some(b'\n' | b',' | b'[' | b'=') => true,
            // Text such as page = "12" has no unit behind it.
            Some(b'"') => behind == b' ' || behind == b'/',
            Some(b' ') => matches!(before.next(), Some(b'=' | b',' | b'[')),
            Some(_) => false,
        };
        follows && file[run.clone()].iter().any(u8::is_ascii_digit)
    });
    numbers
}

/// What stands between a number and the quotation mark behind it.
fn units(file: &[u8]) -> Vec<Range<usize>> {
    let numbers = numbers(file).into_iter();
    let units = numbers.filter_map(|number| {
        let behind = &file[number.end..];
        let length = behind.iter().position(|byte| b"\"\n".contains(byte))?;
        (length > 1 && behind[length] == b'"' && behind[0] == b' ')
            .then_some(number.end + 1..number.end + length)
    });
    units.collect()
}

/// What stands behind an equals sign, up to a comma, a brace or the end of the line.
fn values(file: &[u8]) -> Vec<Range<usize>> {
    let signs = file.iter().enumerate().filter(|(_, byte)| **byte == b'=').map(|(at, _)| at + 1);
    signs
        .map(|start| {
            let length = file[start..].iter().position(|byte| b",}\n#".contains(byte));
            start..length.map_or(file.len(), |length| start + length)
        })
        .collect()
}

/// Whether a sentence holds no number that is none, and none without measure.
fn is_sound(sentence: &str) -> bool {
    let mut words = sentence.split(|c: char| !c.is_alphanumeric());
    // The longest sentence of the demo has some 250 characters; a number may add tens, not hundreds.
    !words.any(|word| matches!(word, "NaN" | "inf" | "infinity")) && sentence.chars().count() < 600
}

/// What is wrong with an assessment.
fn fault(assessment: &Assessment) -> Option<String> {
    for (name, measure) in assessment.quantities.iter() {
        if !measure.value.is_finite() {
            return Some(format!("{name} is {}", measure.value));
        }
    }
    for (name, series) in assessment.series.iter() {
        let columns = [&series.x.values, &series.y.values];
        if columns.iter().any(|values| values.iter().any(|value| !value.is_finite())) {
            return Some(format!("{name} has a value that is not finite"));
        }
        if series.x.values.len() != series.y.values.len() {
            return Some(format!("the columns of {name} differ in length"));
        }
    }
    for finding in &assessment.findings {
        let measures =
            [finding.value, finding.limit].into_iter().flatten().map(|Measure { value, .. }| value);
        if measures.chain(finding.reserve).any(|value| !value.is_finite()) {
            return Some(format!("{} has a number that is not finite", finding.id));
        }
        if finding.statement.is_empty() {
            return Some(format!("{} says nothing", finding.id));
        }
        let next = finding.next.as_ref().map_or("", |next| next.text.as_str());
        let edits = finding.next.iter().flat_map(|next| &next.edits).map(|edit| edit.value.as_str());
        let sentences = [finding.statement.as_str(), &finding.because, next, &finding.basis.to_string()];
        for sentence in sentences.into_iter().chain(edits) {
            if !is_sound(sentence) {
                return Some(format!("{} says: {sentence}", finding.id));
            }
        }
    }
    None
}

/// The longest that a damaged demo may take, unoptimised and beside other work. The whole demo takes some tens
/// of milliseconds so; what takes this long has no bound that anybody set.
const LONGEST: Duration = Duration::from_secs(10);

proptest! {
    // PROPTEST_CASES=100000 looks harder.
    #![proptest_config(ProptestConfig { max_shrink_iters: 2000, ..ProptestConfig::default() })]

    #[test]
    fn law_damaged_demos_are_refused_or_give_sound_numbers(
        which in any::<Index>(),
        in_data in prop::bool::weighted(0.25),
        damages in prop::collection::vec(damage(), 1..4),
    ) {
        let mut folder = Folder::examples();
        let job = (*which.get(&folder.jobs())).to_owned();
        let damaged = match (in_data, job.as_str()) {
            (true, "frame.toml") => "witness.csv",
            (true, "logged.toml") => "shop.csv",
            _ => &job,
        };
        for damage in &damages {
            let file = damage.done(&folder.0[damaged]);
            folder.0.insert(damaged.to_owned(), file);
        }
        let started = Instant::now();
        let read = job::decode(&job, &folder.0[&job]).and_then(|text| job::read(&job, &text, &folder));
        match read {
            Ok(job) => {
                let assessment = assess(&job, &Ask::default());
                if let Some(fault) = fault(&assessment) {
                    prop_assert!(false, "{}\n{}", fault, String::from_utf8_lossy(&folder.0[damaged]));
                }
            }
            Err(problems) => {
                prop_assert!(!problems.is_empty());
                for problem in &problems {
                    prop_assert!(problem.place.text.get(problem.place.span.clone()).is_some());
                    prop_assert!(!problem.what.is_empty() && !problem.expected.is_empty());
                }
            }
        }
        prop_assert!(started.elapsed() < LONGEST, "took {:?}", started.elapsed());
    }
}

#[test]
fn unit_undamaged_demos_are_sound() {
    let folder = Folder::examples();
    for name in folder.jobs() {
        let text = job::decode(name, &folder.0[name]).expect("text");
        let job = job::read(name, &text, &folder).unwrap_or_else(|problems| panic!("{name}: {problems:?}"));
        assert_eq!(fault(&assess(&job, &Ask::default())), None, "{name}");
    }
}

#[test]
fn unit_the_check_itself_finds_what_it_looks_for() {
    assert!(!is_sound("The reserve factor is NaN."));
    assert!(!is_sound("It takes inf d."));
    assert!(!is_sound("It takes -inf."));
    assert!(is_sound("For information, infinite care."));
    let text = b"a = \"5 mm\" # b 6\nc = \"sheet 7\"\n";
    let parts =
        |ranges: Vec<Range<usize>>| ranges.into_iter().map(|part| text[part].to_vec()).collect::<Vec<_>>();
    assert_eq!(parts(numbers(text)), [b"5".to_vec()]);
    assert_eq!(parts(units(text)), [b"mm".to_vec()]);
    assert_eq!(parts(values(text)), [b" \"5 mm\" ".to_vec(), b" \"sheet 7\"".to_vec()]);
}
