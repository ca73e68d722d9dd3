//! Photographs on sheets: two beside each other, each with its words.

use crate::build::Photo;
use crate::compute::photos::{LONGEST, Photos};
use crate::page::block::{Block, Column, Figure};
use crate::page::model::{Image, PixelFormat, Rect};
use crate::page::scene::{Line, Scale, Scene};

/// Greatest height on paper, mm.
const HIGHEST: f64 = 66.0;

/// The photographs that could be read.
pub(super) fn blocks(list: &[Photo], photos: &Photos) -> Vec<Block> {
    let figures: Vec<Figure> = list.iter().filter_map(|photo| figure(photo, photos)).collect();
    figures
        .chunks(2)
        .map(|pair| {
            let column = |figure: &Figure| Column::new(3, vec![Block::Figure(figure.clone())]);
            Block::Columns(pair.iter().map(column).collect())
        })
        .collect()
}

fn figure(photo: &Photo, photos: &Photos) -> Option<Figure> {
    let picture = photos.get(&photo.file)?;
    let words = match &photo.shows {
        Some(shows) => shows.value.clone(),
        None => photo.file.value.clone(),
    };
    let (columns, rows) = (f64::from(picture.columns), f64::from(picture.rows));
    let share = (LONGEST / columns).min(HIGHEST / rows);
    let size = (columns * share, rows * share);
    let mut scene = Scene::at_scale(format!("photograph: {words}"), Scale::FULL);
    scene.image(
        (0.0, 0.0),
        size,
        Image {
            place: Rect::new(0.0, 0.0, size.0, size.1),
            columns: picture.columns,
            rows: picture.rows,
            format: PixelFormat::Rgb8,
            pixels: picture.pixels.clone(),
        },
    );
    scene.rectangle((0.0, 0.0), size, Line::THIN);
    Some(Figure::new(scene, HIGHEST + 2.0).caption(words).at_left())
}
