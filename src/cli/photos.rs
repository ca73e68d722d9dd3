//! The photographs that a build file names, read from its folder.

use crate::build::Build;
use crate::compute::photos::{MOST_BYTES, PhotoFile};
use std::collections::BTreeMap;
use std::io::Read;
use std::path::{Component, Path};

/// The files of a build's photographs, by name. A name that leads out of the folder is not followed.
pub fn photo_files(build: &Build, folder: &Path) -> BTreeMap<String, PhotoFile> {
    build.photos().map(|photo| (photo.file.value.clone(), file(folder, &photo.file))).collect()
}

fn file(folder: &Path, name: &str) -> PhotoFile {
    let inside = Path::new(name).components().all(|part| matches!(part, Component::Normal(_)));
    if !inside {
        return PhotoFile::Outside;
    }
    let unreadable = |error: std::io::Error| {
        PhotoFile::Unreadable(match error.kind() {
            std::io::ErrorKind::NotFound => "there is no such file".into(),
            std::io::ErrorKind::PermissionDenied => "it may not be read".into(),
            // Words of the system differ between systems.
            kind => kind.to_string(),
        })
    };
    let path = folder.join(name);
    // A link may lead anywhere.
    match (folder.canonicalize(), path.canonicalize()) {
        (Ok(home), Ok(real)) if !real.starts_with(&home) => return PhotoFile::Outside,
        (Err(error), _) | (_, Err(error)) => return unreadable(error),
        _ => {}
    }
    let read = || -> std::io::Result<PhotoFile> {
        let meta = std::fs::metadata(&path)?;
        if !meta.is_file() {
            return Ok(PhotoFile::Unreadable("it is no file".into()));
        }
        if meta.len() > MOST_BYTES {
            return Ok(PhotoFile::TooLarge(meta.len()));
        }
        let mut bytes = Vec::new();
        std::fs::File::open(&path)?.take(MOST_BYTES).read_to_end(&mut bytes)?;
        Ok(PhotoFile::Bytes(bytes))
    };
    read().unwrap_or_else(unreadable)
}
