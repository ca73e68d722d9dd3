//! Files are written whole or not at all.

use super::fault::Fault;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Writes the file beside its place and moves it there, so that a reader sees the old file or the
/// new one. A link is followed, so that the file it names is replaced and the link stays.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), Fault> {
    let fault = |error| Fault::Write(path.to_owned(), error);
    let target = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    let mut file = tempfile::Builder::new()
        .prefix(".rungsheet-")
        .tempfile_in(&folder)
        .map_err(|error| Fault::Folder(path.to_owned(), folder.clone(), error))?;
    file.write_all(bytes).map_err(fault)?;
    file.as_file().sync_all().map_err(fault)?;
    match std::fs::metadata(&target) {
        // Keep what the old file allowed its readers.
        Ok(old) if old.permissions().readonly() => {
            return Err(fault(std::io::Error::other("the file is write-protected")));
        }
        Ok(old) => file.as_file().set_permissions(old.permissions()).map_err(fault)?,
        Err(_) => plain_permissions(&file).map_err(fault)?,
    }
    file.persist(&target).map_err(|error| fault(error.error))?;
    Ok(())
}

/// A new file is readable as the person's other files are, not for its owner alone as temporary
/// files are.
#[cfg(unix)]
fn plain_permissions(file: &tempfile::NamedTempFile) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.as_file().set_permissions(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn plain_permissions(_: &tempfile::NamedTempFile) -> std::io::Result<()> {
    Ok(())
}

/// Refuses to write over the build file.
pub fn keep_apart(input: &Path, output: &Path) -> Result<(), Fault> {
    if output == Path::new("-") {
        return Ok(());
    }
    let same = match (std::fs::canonicalize(input), std::fs::canonicalize(output)) {
        (Ok(a), Ok(b)) => a == b,
        _ => input == output,
    };
    if same { Err(Fault::SameFile(output.to_owned())) } else { Ok(()) }
}

/// Writes to the named file or to standard output.
pub fn write(path: Option<&Path>, bytes: &[u8]) -> Result<(), Fault> {
    match path {
        Some(path) if path != Path::new("-") => write_whole(path, bytes),
        _ => {
            let mut out = std::io::stdout().lock();
            match out.write_all(bytes).and_then(|()| out.flush()) {
                // The reader of a pipe may stop early; that is its own choice.
                Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(()),
                Err(error) => Err(Fault::Write("standard output".into(), error)),
                Ok(()) => Ok(()),
            }
        }
    }
}
