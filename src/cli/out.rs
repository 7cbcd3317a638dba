//! Where results go: standard output, or a file that is whole or not there at all.

use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// Writes to standard output. A reader that has heard enough (`dwell … | head`) is no fault.
///
/// # Errors
/// Those of writing, but for a broken pipe.
pub fn print(text: &str) -> io::Result<()> {
    calm(io::stdout().lock(), text.as_bytes())
}

/// Writes to standard error, in the same way.
///
/// # Errors
/// Those of writing, but for a broken pipe.
pub fn tell(text: &str) -> io::Result<()> {
    calm(io::stderr().lock(), text.as_bytes())
}

fn calm(mut to: impl Write, bytes: &[u8]) -> io::Result<()> {
    match to.write_all(bytes).and_then(|()| to.flush()) {
        Err(why) if why.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        done => done,
    }
}

/// Writes to `target`, or to standard output where there is none (or `-`).
///
/// # Errors
/// Those of writing.
pub fn deliver(text: &str, target: Option<&Path>) -> io::Result<()> {
    deliver_bytes(text.as_bytes(), target)
}

/// The same for what is no text.
///
/// # Errors
/// Those of writing.
pub fn deliver_bytes(bytes: &[u8], target: Option<&Path>) -> io::Result<()> {
    match target {
        Some(path) if path.as_os_str() != "-" => replace(path, bytes),
        _ => calm(io::stdout().lock(), bytes),
    }
}

/// Writes a file beside its target and renames it, so that a reader sees the old text or the new
/// one and never half of it. A link is followed; what is not a file (a pipe, a device) is written
/// to as it is.
///
/// # Errors
/// Those of writing.
pub fn replace(path: &Path, bytes: impl AsRef<[u8]>) -> io::Result<()> {
    let target = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let before = fs::metadata(&target).ok();
    if before.as_ref().is_some_and(|kind| !kind.is_file()) {
        return fs::OpenOptions::new().write(true).open(&target)?.write_all(bytes.as_ref());
    }
    let beside = beside(&target, bytes.as_ref())?;
    if let Some(before) = before {
        beside.as_file().set_permissions(before.permissions())?;
    }
    beside.persist(&target).map_err(|failed| failed.error)?;
    Ok(())
}

/// Writes a file that must not be there yet.
///
/// # Errors
/// Those of writing; `AlreadyExists` where it is.
pub fn create(path: &Path, text: &str) -> io::Result<()> {
    beside(path, text.as_bytes())?.persist_noclobber(path).map_err(|failed| failed.error)?;
    Ok(())
}

/// A nameless file in the folder of `target`, with all of it inside.
fn beside(target: &Path, bytes: &[u8]) -> io::Result<tempfile::NamedTempFile> {
    let folder = target.parent().filter(|parent| !parent.as_os_str().is_empty());
    let mut making = tempfile::Builder::new();
    making.prefix(".dwell-");
    // A new file gets the permissions that any program would give it.
    #[cfg(unix)]
    making.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    let folder = folder.unwrap_or(Path::new("."));
    if !folder.is_dir() {
        let why = format!("there is no folder {}", folder.display());
        return Err(io::Error::new(io::ErrorKind::NotFound, why));
    }
    // The kind of fault alone: the name of a file that never was helps nobody.
    let mut file = making.tempfile_in(folder).map_err(|why| io::Error::from(why.kind()))?;
    file.write_all(bytes)?;
    Ok(file)
}
