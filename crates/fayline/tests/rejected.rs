//! What `fayline check` says of bad input, and that the examples are good input.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The root of the workspace: names of files in messages are relative to it, so that they are the same
/// everywhere.
fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The files of a folder with an ending, sorted.
fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).expect("a folder that can be read");
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
    files.retain(|path| path.extension() == Some(OsStr::new(ending)));
    files.sort();
    files
}

fn stem(path: &Path) -> String {
    path.file_stem().expect("a name").to_string_lossy().into_owned()
}

/// Runs `fayline check` on a file of a folder under the root, with a slash between the two on every system.
fn check(folder: &str, path: &Path) -> Output {
    let name = path.file_name().expect("a name").to_string_lossy();
    let mut program = Command::new(env!("CARGO_BIN_EXE_fayline"));
    let program = program.args(["check", &format!("{folder}/{name}")]).current_dir(root());
    program.output().expect("the program starts")
}

/// "Every kind of bad input above has a file in `examples/rejected/` and a snapshot of the exact message."
///
/// A file without its snapshot fails here, since a snapshot that is not there agrees with nothing. After a
/// change of words: `INSTA_UPDATE=always cargo test -p fayline --test rejected`, then read the difference.
#[test]
fn golden_every_rejected_file_gets_its_message() {
    let files = self::files(&root().join("examples/rejected"), "toml");
    assert!(files.len() > 50, "{} files are there", files.len());
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("snapshots/rejected");
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    for path in &files {
        let output = check("examples/rejected", path);
        let message = String::from_utf8(output.stderr).expect("text in UTF-8");
        assert_eq!(output.status.code(), Some(2), "{} was not refused:\n{message}", path.display());
        assert!(output.stdout.is_empty(), "{} left something on standard output", path.display());
        settings.bind(|| insta::assert_snapshot!(stem(path), message));
    }
    let snapshots = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots/rejected");
    let stems = |paths: &[PathBuf]| paths.iter().map(|path| stem(path)).collect::<Vec<_>>();
    assert_eq!(stems(&self::files(&snapshots, "snap")), stems(&files), "a snapshot without its file");
}

#[test]
fn unit_every_rejected_data_file_is_named_by_a_job() {
    let folder = root().join("examples/rejected");
    let read = |path: &Path| String::from_utf8_lossy(&std::fs::read(path).expect("a file")).into_owned();
    let jobs: String = files(&folder, "toml").iter().map(|path| read(path)).collect();
    for data in files(&folder, "csv") {
        let name = data.file_name().expect("a name").to_string_lossy().into_owned();
        assert!(jobs.contains(&format!("\"{name}\"")), "no job names {name}");
    }
}

#[test]
fn unit_every_rejected_file_says_that_it_is_invented() {
    let folder = root().join("examples/rejected");
    for path in [files(&folder, "toml"), files(&folder, "csv")].concat() {
        let bytes = std::fs::read(&path).expect("a file");
        let said = bytes.is_empty() || String::from_utf8_lossy(&bytes).contains("invented");
        assert!(said, "{} does not say that its numbers are invented", path.display());
    }
}

#[test]
fn unit_every_example_is_accepted() {
    let files = files(&root().join("examples"), "toml");
    assert!(files.len() >= 3, "{} files are there", files.len());
    for path in files {
        let output = check("examples", &path);
        let message = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.stderr.is_empty() && !output.stdout.is_empty(), "{}:\n{message}", path.display());
        assert!(matches!(output.status.code(), Some(0 | 1)), "{} failed:\n{message}", path.display());
    }
}
