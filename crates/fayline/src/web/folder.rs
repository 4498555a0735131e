//! The folder whose jobs are served: which jobs it has, and what may be read and written in it.

use std::fs;
use std::io::Read;
use std::path::{Component, Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use job::Problem;

use crate::files::{in_words, write_new, write_whole};

/// How many earlier versions of a job are kept.
const VERSIONS_KEPT: usize = 20;

/// A folder; nothing outside it is read or written.
pub(super) struct Folder {
    root: PathBuf,
}

/// Why a job was not saved.
#[derive(Debug)]
pub(super) enum NotSaved {
    /// The file is not what it was when it was read.
    Changed,
    /// It cannot be written.
    Cannot(String),
}

/// Why the text of a job cannot be had.
#[derive(Debug)]
pub(super) enum Unreadable {
    /// The folder has no such job.
    NoSuchJob,
    /// It cannot be read.
    Cannot(String),
    /// It is no text.
    Problems(Vec<Problem>),
}

impl Folder {
    /// Opens a folder.
    pub(super) fn open(path: &Path) -> Result<Self, String> {
        let root = path.canonicalize().map_err(|error| in_words(&error))?;
        if !root.is_dir() {
            return Err("it is no folder".to_owned());
        }
        Ok(Self { root })
    }

    /// Its name for people.
    pub(super) fn shown(&self) -> String {
        self.root.display().to_string()
    }

    /// The names of the job files in it, sorted.
    pub(super) fn jobs(&self) -> Vec<String> {
        let entries = fs::read_dir(&self.root).into_iter().flatten().flatten();
        let files = entries.filter(|entry| entry.path().is_file());
        let names = files.filter_map(|entry| entry.file_name().into_string().ok());
        let mut names: Vec<String> = names.filter(|name| is_job_name(name)).collect();
        names.sort();
        names
    }

    /// The text of a job in it.
    pub(super) fn read(&self, name: &str) -> Result<String, Unreadable> {
        if !is_job_name(name) {
            return Err(Unreadable::NoSuchJob);
        }
        let bytes = self.bytes(name, job::LONGEST_JOB_FILE).map_err(|why| match why {
            None => Unreadable::NoSuchJob,
            Some(why) => Unreadable::Cannot(why),
        })?;
        job::decode(name, &bytes).map_err(Unreadable::Problems)
    }

    /// Up to one byte more than `most` of a file in the folder; no reason where there is no such file in it.
    fn bytes(&self, name: &str, most: usize) -> Result<Vec<u8>, Option<String>> {
        let relative = Path::new(name);
        if !relative.components().all(|part| matches!(part, Component::Normal(_) | Component::CurDir)) {
            return Err(Some("files that a job names stay inside its folder here".to_owned()));
        }
        // A link may lead out of the folder.
        let path = self.root.join(relative).canonicalize().map_err(|_| None)?;
        if !path.starts_with(&self.root) || !path.is_file() {
            return Err(None);
        }
        let mut bytes = Vec::new();
        fs::File::open(&path)
            .and_then(|file| file.take(most as u64 + 1).read_to_end(&mut bytes))
            .map_err(|error| Some(in_words(&error)))?;
        Ok(bytes)
    }

    /// Writes a job whole, unless its file has changed since it was read; what it said before is kept.
    pub(super) fn save(&self, name: &str, base: &str, text: &str) -> Result<(), NotSaved> {
        let now = match self.read(name) {
            Ok(now) => now,
            Err(Unreadable::NoSuchJob) => return Err(NotSaved::Cannot("the file is gone".to_owned())),
            Err(Unreadable::Cannot(why)) => return Err(NotSaved::Cannot(why)),
            Err(Unreadable::Problems(_)) => {
                return Err(NotSaved::Cannot("it is no text any more".to_owned()));
            }
        };
        if now != base {
            return Err(NotSaved::Changed);
        }
        let cannot = |error: std::io::Error| NotSaved::Cannot(in_words(&error));
        self.keep(name, base).map_err(cannot)?;
        write_whole(&self.root.join(name), text.as_bytes()).map_err(cannot)
    }

    /// Writes a job that is not there yet.
    pub(super) fn begin(&self, name: &str, text: &str) -> Result<(), String> {
        if !is_job_name(name) {
            return Err("a name of letters, digits, - and _ with .toml behind it is wanted".to_owned());
        }
        write_new(&self.root.join(name), text.as_bytes()).map_err(|error| in_words(&error))
    }

    /// Keeps a version of a job, and lets go of the oldest ones.
    fn keep(&self, name: &str, text: &str) -> std::io::Result<()> {
        let history = self.root.join(".fayline").join("history").join(name);
        fs::create_dir_all(&history)?;
        let millis = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_millis());
        write_whole(&history.join(format!("{millis:015}.toml")), text.as_bytes())?;
        let mut kept: Vec<PathBuf> = fs::read_dir(&history)?.flatten().map(|entry| entry.path()).collect();
        kept.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
        kept.sort();
        let old = kept.len().saturating_sub(VERSIONS_KEPT);
        for path in kept.iter().take(old) {
            fs::remove_file(path)?;
        }
        Ok(())
    }
}

impl job::Files for Folder {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        let found = self.bytes(name, job::LARGEST_DATA_FILE);
        found
            .map_err(|why| why.unwrap_or_else(|| "there is no such file in the folder of the job".to_owned()))
    }
}

/// Whether a name is that of a job file beside the others: no path, nothing hidden.
fn is_job_name(name: &str) -> bool {
    let plain = |sign: char| sign.is_alphanumeric() || matches!(sign, '-' | '_' | '.' | ' ');
    name.strip_suffix(".toml").is_some_and(|stem| {
        !stem.is_empty() && !stem.starts_with(['.', ' ']) && stem.len() <= 100 && stem.chars().all(plain)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unit_only_jobs_inside_the_folder_are_read() {
        let outside = tempfile::tempdir().unwrap();
        fs::write(outside.path().join("secret.toml"), "x = 1").unwrap();
        let inside = outside.path().join("jobs");
        fs::create_dir(&inside).unwrap();
        fs::write(inside.join("a.toml"), "fayline = 1").unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink(outside.path().join("secret.toml"), inside.join("link.toml")).unwrap();
        let folder = Folder::open(&inside).unwrap();
        assert_eq!(folder.read("a.toml").unwrap(), "fayline = 1");
        for name in [
            "../secret.toml",
            "..\\secret.toml",
            "/etc/passwd",
            "link.toml",
            "b.toml",
            ".toml",
            "a",
            "jobs/../a.toml",
        ] {
            assert!(matches!(folder.read(name), Err(Unreadable::NoSuchJob)), "{name}");
        }
        let files: &dyn job::Files = &folder;
        for name in ["../secret.toml", "/etc/passwd", "link.toml"] {
            assert!(files.read(name).is_err(), "{name}");
        }
        assert_eq!(files.read("./a.toml").unwrap(), b"fayline = 1");
    }

    #[test]
    fn unit_a_changed_file_is_not_overwritten_and_versions_are_kept() {
        let place = tempfile::tempdir().unwrap();
        let folder = Folder::open(place.path()).unwrap();
        folder.begin("a.toml", "0").unwrap();
        assert!(folder.begin("a.toml", "1").is_err());
        for version in 0..30 {
            folder.save("a.toml", &version.to_string(), &(version + 1).to_string()).unwrap();
            std::thread::sleep(std::time::Duration::from_millis(2));
        }
        let history = place.path().join(".fayline/history/a.toml");
        let mut kept: Vec<u32> = fs::read_dir(history)
            .unwrap()
            .map(|entry| fs::read_to_string(entry.unwrap().path()).unwrap().parse().unwrap())
            .collect();
        kept.sort_unstable();
        assert_eq!(kept, (10..30).collect::<Vec<u32>>());
        fs::write(place.path().join("a.toml"), "other").unwrap();
        match folder.save("a.toml", "30", "31") {
            Err(NotSaved::Changed) => {}
            other => panic!("{other:?}"),
        }
        assert_eq!(folder.read("a.toml").unwrap(), "other");
    }
}
