//! Photographs that can't be printed.

use crate::build::Photo;
use crate::source::{Finding, Rule, Severity};

/// Rules of this chapter, in order of code.
pub static RULES: &[&Rule] = &[&MISSING, &BROKEN, &TOO_LARGE];

/// No file of this name.
pub static MISSING: Rule = Rule {
    code: "P001",
    name: "photo-missing",
    severity: Severity::Caution,
    checks: "Whether each `photo` is a file that can be read, in the build file's folder or below it.",
    why: "The sheet is printed without what it was to show.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-16 14:20\"\nphoto = \"foot-f1.jpeg\"",
    remedy: "Put the file beside the build file and write its name as it is spelt there.",
    source_limits: "A name that leads out of the folder is not followed, so that a build file from \
        somebody else can't take a picture that it was not given.",
};

/// No picture.
pub static BROKEN: Rule = Rule {
    code: "P002",
    name: "photo-broken",
    severity: Severity::Caution,
    checks: "Whether each `photo` is a whole JPEG, PNG or WebP picture.",
    why: "The sheet is printed without what it was to show.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-16 14:20\"\nphoto = \"foot-f1.txt\"",
    remedy: "Copy it anew from the camera, or save it as JPEG.",
    source_limits: "The first picture of a file; other kinds of file are not read.",
};

/// More than is read.
pub static TOO_LARGE: Rule = Rule {
    code: "P003",
    name: "photo-too-large",
    severity: Severity::Caution,
    checks: "Whether each `photo` has 40 MiB and 120 million pixels or fewer.",
    why: "A picture half a sheet wide needs less than a million pixels; a huge file is a mistake or \
        takes the computer's memory.",
    example: "[[record]]\nstep = \"bond\"\nstarted = \"2026-05-16 14:20\"\nphoto = \"map-scan.png\"",
    remedy: "Save a smaller copy, 2000 pixels wide.",
    source_limits: "Common practice, no source: twice what the largest cameras that people carry make.",
};

const PRINTED_WITHOUT: &str = "the sheet is printed without it";

pub(super) fn missing(photo: &Photo, why: &str) -> Finding {
    Finding::new(&MISSING, format!("the photo {} can't be read: {why}", photo.file.value))
        .at(photo.file.span, "no picture here")
        .means(PRINTED_WITHOUT)
        .help("put the file beside the build file and write its name as it is spelt there")
}

pub(super) fn outside(photo: &Photo) -> Finding {
    Finding::new(
        &MISSING,
        format!("the photo {} is not in the build file's folder", photo.file.value),
    )
    .at(photo.file.span, "leads out of the folder")
    .means(PRINTED_WITHOUT)
    .help("copy the file into the build file's folder and write its name alone")
}

pub(super) fn broken(photo: &Photo, why: &str) -> Finding {
    Finding::new(&BROKEN, format!("the photo {} can't be shown: {why}", photo.file.value))
        .at(photo.file.span, "no whole picture")
        .means(PRINTED_WITHOUT)
        .help("copy it anew from the camera, or save it as JPEG")
}

pub(super) fn too_large(photo: &Photo, bytes: u64, most: u64) -> Finding {
    let mib = |bytes: u64| bytes as f64 / f64::from(1 << 20);
    large(photo, &format!("{:.0} MiB; {:.0} MiB are read", mib(bytes), mib(most)))
}

pub(super) fn too_large_pixels(photo: &Photo, columns: u32, rows: u32) -> Finding {
    large(photo, &format!("{columns} × {rows} pixels; 120 million are read"))
}

fn large(photo: &Photo, told: &str) -> Finding {
    Finding::new(&TOO_LARGE, format!("the photo {} has {told}", photo.file.value))
        .at(photo.file.span, "too large")
        .means(PRINTED_WITHOUT)
        .help("save a smaller copy, 2000 pixels wide")
}
