//! The PNG files, decoded and measured.

use super::sample;
use image::GrayImage;
use rungsheet::paper::{Fault, png_page};

const DPI: f64 = 254.0; // ten pixels a millimetre

fn drawn(page: usize) -> GrayImage {
    let bytes = png_page(&sample::document().pages[page], DPI).expect("small enough");
    image::load_from_memory(&bytes).expect("a PNG").to_luma8()
}

fn at(picture: &GrayImage, x: f64, y: f64) -> u8 {
    picture.get_pixel((x * 10.0) as u32, (y * 10.0) as u32).0[0]
}

#[test]
fn the_picture_has_the_papers_size() {
    assert_eq!(drawn(0).dimensions(), (2100, 2970));
    assert_eq!(drawn(1).dimensions(), (2159, 2794));
}

#[test]
fn the_file_says_how_many_pixels_go_to_a_metre() {
    let bytes = png_page(&sample::document().pages[0], DPI).expect("small enough");
    // PNG 1.2, 4.2.4.2: two counts and the unit, metre.
    let chunk = bytes.windows(4).position(|w| w == b"pHYs").expect("stated");
    assert_eq!(bytes[chunk + 4..chunk + 13], [0, 0, 39, 16, 0, 0, 39, 16, 1]);
}

#[test]
fn a_bar_of_200_mm_measures_200_mm() {
    let picture = drawn(1);
    let dark = (70..2159).filter(|&x| picture.get_pixel(x, 500).0[0] < 128).count();
    assert!((1999..=2001).contains(&dark), "{dark} pixels of 0.1 mm");
}

#[test]
fn areas_holes_windows_and_pixels_are_where_they_belong() {
    let picture = drawn(1);
    assert_eq!(at(&picture, 30.0, 65.0), 230, "a tint of 10 %");
    assert_eq!(at(&picture, 50.0, 85.0), 255, "the hole in the plate");
    assert_eq!(at(&picture, 150.0, 90.0), 0, "the disc");
    assert!(at(&picture, 50.0, 140.0) < 10, "the line inside the window");
    assert_eq!(at(&picture, 10.0, 116.0), 255, "the line outside the window");
    assert_eq!(at(&picture, 125.0, 125.0), 0, "the first pixel");
    assert_eq!(at(&picture, 155.0, 125.0), 240, "the last of its row");
    let white = (1200..1400).flat_map(|x| (650..850).map(move |y| (x, y)));
    let white = white.filter(|&(x, y)| picture.get_pixel(x, y).0[0] > 200).count();
    assert!((1000..6000).contains(&white), "a white letter on black: {white} pixels");
}

#[test]
fn text_is_drawn_upright_and_turned() {
    let picture = drawn(0);
    let dark = |x: std::ops::Range<u32>, y: std::ops::Range<u32>| {
        x.flat_map(|x| y.clone().map(move |y| (x, y)))
            .filter(|&(x, y)| picture.get_pixel(x, y).0[0] < 128)
            .count()
    };
    assert!(dark(200..900, 250..310) > 3000, "the heading above its baseline");
    assert_eq!(dark(200..900, 320..350), 0, "nothing below it");
    // "Drill" turned upwards along x = 205 mm from y = 120 mm.
    assert!(dark(2010..2055, 1080..1202) > 1000);
    assert_eq!(dark(2060..2100, 1080..1202), 0);
}

#[test]
fn equal_pages_give_equal_files() {
    let page = &sample::document().pages[1];
    assert!(png_page(page, 96.0) == png_page(page, 96.0));
}

#[test]
fn senseless_sizes_are_refused() {
    let page = &sample::document().pages[0];
    for dpi in [0.0, -96.0, f64::NAN, f64::INFINITY, 1e9, 1e-9] {
        assert!(matches!(png_page(page, dpi), Err(Fault::NoCanvas { .. })), "{dpi}");
    }
}
