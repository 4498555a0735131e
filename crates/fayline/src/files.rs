//! Files on disk: read beside the job, written whole or not at all.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// The files beside a job file.
pub(crate) struct Beside(PathBuf);

impl Beside {
    /// The files in the folder of a job file.
    pub(crate) fn job(path: &Path) -> Self {
        Self(path.parent().map_or_else(PathBuf::new, Path::to_path_buf))
    }
}

impl job::Files for Beside {
    fn read(&self, name: &str) -> Result<Vec<u8>, String> {
        // One byte more than is allowed tells that a file is too large, be it without an end.
        let most = job::LARGEST_DATA_FILE as u64 + 1;
        let mut bytes = Vec::new();
        File::open(self.0.join(name))
            .and_then(|file| file.take(most).read_to_end(&mut bytes))
            .map_err(|error| in_words(&error))?;
        Ok(bytes)
    }
}

/// Why a file cannot be had, without the codes of the system.
pub(crate) fn in_words(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be opened".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::AlreadyExists => "it is there already".to_owned(),
        _ => error.to_string(),
    }
}

/// Writes a file whole or not at all: beside its place, synced, then moved there.
pub(crate) fn write_whole(path: &Path, content: &[u8]) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let name = path.file_name().ok_or_else(|| io::Error::other("this names no file"))?;
    let mut beside = name.to_os_string();
    beside.push(format!(".{}.part", std::process::id()));
    let part = folder.join(beside);
    let written = (|| {
        let mut file = File::create(&part)?;
        file.write_all(content)?;
        file.sync_all()?;
        fs::rename(&part, path)?;
        // The new name itself is only safe once the folder is.
        File::open(folder)?.sync_all()
    })();
    if written.is_err() {
        // What is left of a failed attempt is of no use to anyone; that it cannot be removed changes nothing.
        let _ = fs::remove_file(&part);
    }
    written
}

/// Writes a file that must not be there yet.
pub(crate) fn write_new(path: &Path, content: &[u8]) -> io::Result<()> {
    let mut file = File::options().write(true).create_new(true).open(path)?;
    file.write_all(content)?;
    file.sync_all()
}
