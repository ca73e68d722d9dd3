//! Photographs: from the bytes of a file to pixels as large as print needs.
//!
//! Takes the files that the build names, read by whoever may touch files; gives pictures turned as
//! their orientation tag says, with nothing else of their metadata, and a finding for each that can't
//! be printed. The packet is made without those.

mod rules;

pub use rules::RULES;

use crate::build::Build;
use crate::source::Finding;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits};
use std::collections::BTreeMap;
use std::io::Cursor;
use std::sync::Arc;

/// Most bytes of a file.
pub const MOST_BYTES: u64 = 40 << 20;
/// Most pixels: those of the largest cameras that people carry, twice.
const MOST_PIXELS: u64 = 120_000_000;
/// Longest side on paper, mm: half the width of a sheet.
pub const LONGEST: f64 = 82.0;
/// Dots by inch on paper. A reader at arm's length sees no finer (300 is what offset print asks for,
/// common practice; office printers screen photographs at about 150).
const DPI: f64 = 220.0;

/// A photograph as it is printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Columns of pixels.
    pub columns: u32,
    /// Rows of pixels.
    pub rows: u32,
    /// Three bytes a pixel, sRGB, rows from the top.
    pub pixels: Arc<[u8]>,
}

/// Photographs by the name of their file.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Photos(BTreeMap<String, Picture>);

impl Photos {
    /// The photograph of a file.
    pub fn get(&self, file: &str) -> Option<&Picture> {
        self.0.get(file)
    }
}

/// What was found where a photograph should be.
#[derive(Debug, Clone)]
pub enum PhotoFile {
    /// Its bytes.
    Bytes(Vec<u8>),
    /// It can't be read; the words say why.
    Unreadable(String),
    /// The name leads out of the build file's folder.
    Outside,
    /// So many bytes; it was not read.
    TooLarge(u64),
}

/// Pictures of the files that the build names, and what is wrong with the others.
pub fn photos(build: &Build, files: &BTreeMap<String, PhotoFile>) -> (Photos, Vec<Finding>) {
    let mut photos = Photos::default();
    let mut findings = Vec::new();
    for photo in build.photos() {
        let name = photo.file.as_str();
        if photos.get(name).is_some() {
            continue;
        }
        match files.get(name) {
            Some(PhotoFile::Bytes(bytes)) => match picture(bytes) {
                Ok(picture) => {
                    photos.0.insert(name.to_owned(), picture);
                }
                Err(Bad::Huge(columns, rows)) => {
                    findings.push(rules::too_large_pixels(photo, columns, rows));
                }
                Err(Bad::Broken(why)) => findings.push(rules::broken(photo, &why)),
            },
            Some(PhotoFile::Unreadable(why)) => findings.push(rules::missing(photo, why)),
            Some(PhotoFile::Outside) => findings.push(rules::outside(photo)),
            Some(PhotoFile::TooLarge(bytes)) => {
                findings.push(rules::too_large(photo, *bytes, MOST_BYTES));
            }
            None => findings.push(rules::missing(photo, "it was not looked for")),
        }
    }
    (photos, findings)
}

enum Bad {
    Huge(u32, u32),
    Broken(String),
}

fn picture(bytes: &[u8]) -> Result<Picture, Bad> {
    let broken = |error: image::ImageError| Bad::Broken(plain(&error));
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .map_err(|error| Bad::Broken(error.to_string()))?;
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_PIXELS * 8);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(broken)?;
    let (columns, rows) = decoder.dimensions();
    if u64::from(columns) * u64::from(rows) > MOST_PIXELS {
        return Err(Bad::Huge(columns, rows));
    }
    if columns == 0 || rows == 0 {
        return Err(Bad::Broken("it has no pixels".into()));
    }
    // A tag that can't be read turns nothing.
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let image = DynamicImage::from_decoder(decoder).map_err(broken)?;
    Ok(printed(image, orientation))
}

/// What a library says, without the words that only its makers understand.
fn plain(error: &image::ImageError) -> String {
    match error {
        image::ImageError::Unsupported(_) => "it is no JPEG, PNG or WebP picture".into(),
        image::ImageError::Limits(_) => "it takes more room than any camera's picture".into(),
        _ => "its data end or are damaged".into(),
    }
}

/// White under what is clear, turned, and as many pixels as print needs.
fn printed(image: DynamicImage, orientation: Orientation) -> Picture {
    let most = (LONGEST / 25.4 * DPI).round() as u32;
    let mut image = if image.width() > most || image.height() > most {
        image.resize(most, most, image::imageops::FilterType::Triangle)
    } else {
        image
    };
    image.apply_orientation(orientation);
    let clear = image.to_rgba8();
    let (columns, rows) = clear.dimensions();
    let pixels: Vec<u8> = clear
        .pixels()
        .flat_map(|pixel| {
            let [red, green, blue, solid] = pixel.0.map(u32::from);
            [red, green, blue].map(|part| ((part * solid + 255 * (255 - solid) + 127) / 255) as u8)
        })
        .collect();
    Picture { columns, rows, pixels: pixels.into() }
}
