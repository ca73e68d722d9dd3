//! Which words fit where, measured by the embedded faces.

use crate::page::fonts::FaceId;

/// Type size of the drawing's lettering, points, and a point in mm.
const SIZE: f64 = 11.0;
const POINT: f64 = 25.4 / 72.0;
/// From line to line, mm.
pub(super) const LINE: f64 = SIZE * POINT * 1.25;
/// Height of capitals, mm.
const CAPITALS: f64 = 2.85;
/// Kept free on both sides of words, mm.
const MARGIN: f64 = 0.8;

/// Width of words on one line, mm; kerning, which only narrows them, is not counted.
pub(super) fn wide(words: &str, bold: bool) -> f64 {
    let face = if bold { FaceId::Bold } else { FaceId::Regular };
    let units: f64 = words
        .chars()
        .map(|c| face.glyph(c).map_or(2048.0, |glyph| f64::from(face.advance(glyph))))
        .sum();
    units / f64::from(face.units_per_em()) * SIZE * POINT * 1.03
}

/// Words on lines no longer than `room`, at most `most` of them; `None` if they do not fit.
fn lines(words: &[&str], bold: bool, room: f64, most: usize) -> Option<Vec<String>> {
    let mut lines: Vec<String> = Vec::new();
    for word in words {
        let joined = lines.last().map(|line| format!("{line} {word}"));
        match joined.filter(|line| wide(line, bold) <= room) {
            Some(line) => *lines.last_mut()? = line,
            None if wide(word, bold) <= room => lines.push((*word).to_owned()),
            None => return None,
        }
    }
    (lines.len() <= most && !lines.is_empty()).then_some(lines)
}

/// Words in a box of a step.
pub(super) struct InBox {
    /// Lines joined by line ends.
    pub words: String,
    /// Read upwards.
    pub upwards: bool,
    /// Number and title; otherwise the number alone.
    pub whole: bool,
}

/// Number and title of a step in a box: level if they fit, else upwards, else the number alone, else
/// nothing (the table has it).
pub(super) fn in_box(
    number: &str,
    title: &str,
    bold: bool,
    width: f64,
    height: f64,
) -> Option<InBox> {
    // Articles say nothing in a box.
    let short = title.replace(" the ", " ");
    let all: Vec<&str> = std::iter::once(number).chain(short.split(' ')).collect();
    let room = |length: f64| length - 2.0 * MARGIN;
    let count =
        |length: f64| ((length - 1.5 * MARGIN - CAPITALS) / LINE + 1.0).floor().max(0.0) as usize;
    let told = |words: &[&str], upwards: bool| {
        let (along, across) = if upwards { (height, width) } else { (width, height) };
        let lines = lines(words, bold, room(along), count(across))?;
        Some(InBox { words: lines.join("\n"), upwards, whole: words.len() > 1 })
    };
    told(&all, false)
        .or_else(|| told(&all, true))
        .or_else(|| told(&[number], false))
        .or_else(|| told(&[number], true))
}

/// The first of some wordings that fits a width.
pub(super) fn first_that_fits(wordings: &[String], width: f64, bold: bool) -> Option<&str> {
    wordings.iter().map(String::as_str).find(|words| wide(words, bold) <= width - 2.0 * MARGIN)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wide_box_has_its_words_level_a_narrow_one_upwards_and_a_slit_none() {
        let wide = in_box("4", "Make the feet", false, 40.0, 12.0).expect("room enough");
        assert_eq!((wide.words.as_str(), wide.upwards), ("4 Make feet", false));
        let narrow = in_box("4", "Make the feet", false, 6.0, 30.0).expect("room upwards");
        assert_eq!((narrow.words.as_str(), narrow.upwards), ("4 Make feet", true));
        let low = in_box("12", "Screw the panels on", false, 6.5, 10.0).expect("room for a number");
        assert_eq!(low.words, "12");
        assert!(in_box("12", "Screw the panels on", false, 2.0, 10.0).is_none());
    }

    #[test]
    fn words_are_as_wide_as_the_face_says() {
        // Inter: a digit of 11 pt is about 2.4 mm wide, and bold is wider.
        assert!((1.9..3.0).contains(&wide("8", false)), "{}", wide("8", false));
        assert!(wide("feet", true) > wide("feet", false));
    }
}
