//! Photographs: turned, scaled, without their metadata, and never in the way of a packet.

use crate::support::worked;
use image::{ImageFormat, Rgb, RgbImage};
use rungsheet::compute::photos::{LONGEST, PhotoFile, Photos, Picture, photos};
use rungsheet::page::lay_out;
use rungsheet::page::model::{Item, PixelFormat};
use rungsheet::{paper, sheets};
use std::collections::BTreeMap;
use std::io::Cursor;

const BUILD: &str = r#"
format = 1
[job]
title = "Shelf rails"
date = "2026-05-09"
[[part]]
mark = "A"
name = "shelf rail"
section = "aluminium-tube-25x25x2"
length = 740
[[stock]]
section = "aluminium-tube-25x25x2"
length = 2000
[[step]]
title = "Paint the rail"
time = "30 min"
actions = ["Brush paint on the rail."]
photo = { file = "p", shows = "rail painted" }
[[record]]
step = "measure"
started = "2026-05-16 08:00"
finished = "2026-05-16 08:20"
photo = ["p", "q"]
"#;

/// Wide picture: the left half red, the right half blue, its upper third white.
fn sample(columns: u32, rows: u32) -> RgbImage {
    RgbImage::from_fn(columns, rows, |x, y| {
        if y < rows / 3 {
            Rgb([255, 255, 255])
        } else if x < columns / 2 {
            Rgb([220, 20, 20])
        } else {
            Rgb([20, 20, 220])
        }
    })
}

fn file(image: &RgbImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    image.write_to(&mut bytes, format).expect("a picture can be written");
    bytes.into_inner()
}

/// A JPEG with an orientation tag (Exif 2.3, 4.6.4: tag 0x0112 in IFD 0) and a maker's name (0x010F).
fn tagged(image: &RgbImage, orientation: u8) -> Vec<u8> {
    let mut tiff: Vec<u8> = b"II*\0\x08\0\0\0\x02\0".to_vec();
    tiff.extend([0x0F, 0x01, 2, 0, 12, 0, 0, 0, 38, 0, 0, 0]);
    tiff.extend([0x12, 0x01, 3, 0, 1, 0, 0, 0, orientation, 0, 0, 0]);
    tiff.extend([0, 0, 0, 0]);
    tiff.extend(b"secretmaker\0");
    let mut segment = b"Exif\0\0".to_vec();
    segment.extend(&tiff);
    let plain = file(image, ImageFormat::Jpeg);
    let mut bytes = plain[..2].to_vec();
    bytes.extend([0xFF, 0xE1]);
    bytes.extend(u16::try_from(segment.len() + 2).expect("a short segment").to_be_bytes());
    bytes.extend(&segment);
    bytes.extend(&plain[2..]);
    bytes
}

fn load(p: PhotoFile, q: PhotoFile) -> (Photos, Vec<&'static str>) {
    let made = worked(BUILD);
    let files = BTreeMap::from([("p".to_owned(), p), ("q".to_owned(), q)]);
    let (photos, findings) = photos(&made.build, &files);
    (photos, findings.iter().map(|finding| finding.rule.code).collect())
}

fn picture(bytes: Vec<u8>) -> Picture {
    let (photos, codes) = load(PhotoFile::Bytes(bytes.clone()), PhotoFile::Bytes(bytes));
    assert_eq!(codes, [""; 0]);
    photos.get("p").expect("a picture").clone()
}

fn at(picture: &Picture, x: f64, y: f64) -> [u8; 3] {
    let column = (x * f64::from(picture.columns)) as usize;
    let row = (y * f64::from(picture.rows)) as usize;
    let start = (row * picture.columns as usize + column) * 3;
    picture.pixels[start..start + 3].try_into().expect("three bytes")
}

fn is(found: [u8; 3], wanted: [u8; 3]) -> bool {
    found.iter().zip(wanted).all(|(a, b)| a.abs_diff(b) < 40)
}

const WHITE: [u8; 3] = [255, 255, 255];
const RED: [u8; 3] = [220, 20, 20];
const BLUE: [u8; 3] = [20, 20, 220];

#[test]
fn all_three_kinds_of_file_are_read() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let read = picture(file(&sample(300, 200), format));
        assert_eq!((read.columns, read.rows), (300, 200), "{format:?}");
        assert!(is(at(&read, 0.25, 0.1), WHITE) && is(at(&read, 0.25, 0.8), RED), "{format:?}");
        assert!(is(at(&read, 0.75, 0.8), BLUE), "{format:?}");
    }
}

/// Exif 2.3, table 8: where the stored row 0 and column 0 are to be seen. The stored picture has its
/// white stripe in row 0 and red at column 0.
#[test]
fn they_are_turned_as_their_tag_says() {
    type Seen = (f64, f64, [u8; 3]);
    let expected: [(u8, bool, [Seen; 3]); 8] = [
        // (tag, sides changed, where white, red and blue are seen)
        (1, false, [(0.5, 0.1, WHITE), (0.2, 0.8, RED), (0.8, 0.8, BLUE)]),
        (2, false, [(0.5, 0.1, WHITE), (0.8, 0.8, RED), (0.2, 0.8, BLUE)]),
        (3, false, [(0.5, 0.9, WHITE), (0.8, 0.2, RED), (0.2, 0.2, BLUE)]),
        (4, false, [(0.5, 0.9, WHITE), (0.2, 0.2, RED), (0.8, 0.2, BLUE)]),
        (5, true, [(0.1, 0.5, WHITE), (0.8, 0.2, RED), (0.8, 0.8, BLUE)]),
        (6, true, [(0.9, 0.5, WHITE), (0.2, 0.2, RED), (0.2, 0.8, BLUE)]),
        (7, true, [(0.9, 0.5, WHITE), (0.2, 0.8, RED), (0.2, 0.2, BLUE)]),
        (8, true, [(0.1, 0.5, WHITE), (0.8, 0.8, RED), (0.8, 0.2, BLUE)]),
    ];
    for (tag, changed, seen) in expected {
        let read = picture(tagged(&sample(320, 200), tag));
        let wanted = if changed { (200, 320) } else { (320, 200) };
        assert_eq!((read.columns, read.rows), wanted, "tag {tag}");
        for (x, y, colour) in seen {
            assert!(is(at(&read, x, y), colour), "tag {tag} at {x}, {y}: {:?}", at(&read, x, y));
        }
    }
}

/// 82 mm at 220 dots by inch are 710 pixels; 82 mm is half of a sheet's width.
#[test]
fn a_large_one_is_scaled_to_what_print_needs() {
    let read = picture(file(&sample(3000, 2000), ImageFormat::Jpeg));
    assert!(read.columns.abs_diff((LONGEST / 25.4 * 220.0).round() as u32) <= 1);
    assert!((f64::from(read.columns) / f64::from(read.rows) - 1.5).abs() < 0.01);
}

#[test]
fn what_is_clear_becomes_white() {
    let clear = image::RgbaImage::from_pixel(20, 20, image::Rgba([255, 0, 0, 0]));
    let mut bytes = Cursor::new(Vec::new());
    clear.write_to(&mut bytes, ImageFormat::Png).expect("a picture can be written");
    assert_eq!(at(&picture(bytes.into_inner()), 0.5, 0.5), WHITE);
}

#[test]
fn they_stand_on_step_and_record_sheets_with_nothing_of_their_metadata() {
    let mut made = worked(BUILD);
    let bytes = tagged(&sample(320, 200), 6);
    let files = BTreeMap::from([
        ("p".to_owned(), PhotoFile::Bytes(bytes.clone())),
        ("q".to_owned(), PhotoFile::Bytes(bytes)),
    ]);
    made.results.photos = photos(&made.build, &files).0;
    let packet = sheets::packet(&made.basis());
    let (document, problems) = lay_out(&packet);
    assert_eq!(problems, []);
    let pictures = |page: &rungsheet::page::model::Page| {
        let items = page.content.iter().flat_map(|sequence| &sequence.items);
        items.filter(|item| matches!(item, Item::Image(_))).count()
    };
    let all: usize = document.pages.iter().map(pictures).sum();
    assert_eq!(all, 3, "one on the step's sheet, two on the record's");
    let pdf = paper::pdf(&document).expect("a document can be written");
    let has = |what: &[u8]| pdf.windows(what.len()).any(|window| window == what);
    assert!(has(b"/Image") && !has(b"secretmaker") && !has(b"Exif"));
    assert_eq!(document.faults(), Vec::<String>::new(), "each picture has its words");
    let page = document.pages.iter().find(|page| pictures(page) == 2).expect("a record page");
    let svg = paper::svg_page(page);
    assert!(svg.contains("<image") && svg.contains("data:image/png"));
    let png = paper::png_page(page, 50.0).expect("a page can be drawn");
    let drawn = image::load_from_memory(&png).expect("a PNG").to_rgb8();
    assert!(drawn.pixels().any(|pixel| is(pixel.0, BLUE)), "the picture is drawn");
    assert!(matches!(
        page.content.iter().flat_map(|s| &s.items).find_map(|item| match item {
            Item::Image(image) => Some(image.format),
            _ => None,
        }),
        Some(PixelFormat::Rgb8)
    ));
}

#[test]
fn bad_ones_are_told_and_the_others_stand() {
    let good = file(&sample(30, 20), ImageFormat::Png);
    for (bad, code) in [
        (PhotoFile::Bytes(good[..good.len() / 2].to_vec()), "P002"),
        (PhotoFile::Bytes(Vec::new()), "P002"),
        (PhotoFile::Bytes(b"GIF89a\x01\0\x01\0\0\0\0;".to_vec()), "P002"),
        (PhotoFile::Unreadable("gone".into()), "P001"),
        (PhotoFile::Outside, "P001"),
        (PhotoFile::TooLarge(1 << 30), "P003"),
    ] {
        let (photos, codes) = load(PhotoFile::Bytes(good.clone()), bad);
        assert_eq!(codes, [code]);
        assert!(photos.get("p").is_some() && photos.get("q").is_none());
    }
}

/// Whatever bytes a file has, a finding or a picture comes out.
#[test]
fn no_bytes_make_it_stop() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let whole = file(&sample(40, 30), format);
        for at in (0..whole.len()).step_by(whole.len() / 60 + 1) {
            let mut hurt = whole.clone();
            hurt[at] ^= 0x5A;
            load(PhotoFile::Bytes(hurt.clone()), PhotoFile::Bytes(hurt[..at].to_vec()));
        }
    }
}
