//! Text as it came, made fit to set: nothing invisible, nothing that moves the pen, units bound.

use unicode_segmentation::UnicodeSegmentation;

/// No-break space, between a number and its unit.
pub const NO_BREAK: char = '\u{a0}';
/// Narrow no-break space, between groups of three digits.
pub const NARROW_NO_BREAK: char = '\u{202f}';

/// Unit symbols that are bound to the number before them (SI brochure, 5.4.3: a space, never a break).
const UNITS: &[&str] = &[
    "mm", "cm", "m", "km", "in", "ft", "mm²", "cm²", "m²", "mm³", "cm³", "m³", "ml", "l", "L", "g",
    "kg", "t", "lb", "N", "kN", "Nm", "N·m", "Pa", "kPa", "MPa", "GPa", "°C", "°F", "K", "%", "s",
    "min", "h", "d", "m/s", "km/h", "A", "mA", "V", "mV", "W", "kW", "Wh", "kWh", "Ah", "Ω", "mΩ",
    "pt", "EUR", "g/kg", "kg/m³", "cm²/kg", "lx", "dB",
];

/// Words that are bound to the number after them.
const NUMBERED: &[&str] =
    &["EN", "ISO", "IEC", "table", "step", "steps", "sheet", "sheets", "bar", "figure", "class"];

/// At most so many marks are stacked on one character; more would reach into the next line.
const MARKS: usize = 2;

/// Text fit to set: control, format and variation characters are taken out, white space becomes
/// single spaces, stacked marks are cut to two, and a number is bound to the unit or the
/// multiplication sign beside it.
pub fn clean(text: &str) -> String {
    clean_part(text).trim_matches(' ').to_owned()
}

/// The same for a part of a text: one space at either end is kept.
pub(super) fn clean_part(text: &str) -> String {
    // Most texts are plain letters with single spaces.
    if text.bytes().all(|b| (b' '..0x7f).contains(&b)) && !text.contains("  ") {
        return bind_units(text);
    }
    let mut out = String::with_capacity(text.len());
    if text.chars().any(is_mark) {
        for grapheme in text.graphemes(true) {
            let mut marks = 0;
            for c in grapheme.chars() {
                if !is_mark(c) {
                    put(&mut out, c);
                    continue;
                }
                marks += 1;
                if marks <= MARKS && !out.is_empty() {
                    out.push(c);
                }
            }
        }
    } else {
        text.chars().for_each(|c| put(&mut out, c));
    }
    bind_units(&out)
}

/// A character that is no mark: white space once, hidden ones not at all.
fn put(out: &mut String, c: char) {
    if is_space(c) {
        if !out.ends_with(' ') {
            out.push(' ');
        }
    } else if !is_hidden(c) {
        out.push(c);
    }
}

fn is_space(c: char) -> bool {
    matches!(
        c,
        ' ' | '\t'
            | '\n'
            | '\r'
            | '\u{b}'
            | '\u{c}'
            | '\u{85}'
            | '\u{2028}'
            | '\u{2029}'
            | '\u{3000}'
    )
}

fn is_mark(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}' | '\u{483}'..='\u{489}' | '\u{591}'..='\u{5bd}'
        | '\u{64b}'..='\u{65f}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}'
        | '\u{20d0}'..='\u{20ff}' | '\u{fe20}'..='\u{fe2f}' | '\u{e31}' | '\u{e34}'..='\u{e3a}'
        | '\u{e47}'..='\u{e4e}')
}

/// Characters that draw nothing or steer the order of others (Unicode, `Default_Ignorable_Code_Point`
/// and general categories Cc and Cf).
fn is_hidden(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}'
            | '\u{17b5}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
            | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}' | '\u{110bd}' | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}' | '\u{600}'..='\u{605}' | '\u{6dd}' | '\u{70f}'
            | '\u{8e2}' | '\u{e0000}'..='\u{e0fff}')
}

/// Binds "6 mm", "25 × 2" and "8 °C" so that no line break can come between.
fn bind_units(text: &str) -> String {
    if !text.contains(' ') {
        return text.to_owned();
    }
    let mut out = String::with_capacity(text.len() + 8);
    let mut words = text.split(' ').peekable();
    while let Some(word) = words.next() {
        out.push_str(word);
        if let Some(next) = words.peek() {
            let bound = word.ends_with(|c: char| c.is_ascii_digit() || "½¼¾⅛⅜⅝⅞".contains(c))
                && is_unit(next)
                || matches!(word, "×" | "±" | "≤" | "≥" | "≈")
                || next.starts_with(|c: char| c.is_ascii_digit()) && NUMBERED.contains(&word);
            out.push(if bound { NO_BREAK } else { ' ' });
        }
    }
    out
}

fn is_unit(word: &str) -> bool {
    let bare = word.trim_end_matches(['.', ',', ';', ':', ')', '!', '?']);
    UNITS.contains(&bare)
}

/// A number and its unit that stay on one line: `bound("6.6", "mm")`.
pub fn bound(number: &str, unit: &str) -> String {
    format!("{number}{NO_BREAK}{unit}")
}

/// Digits in groups of three from the decimal sign, with a narrow space (ISO 80000-1, 7.3.1); four
/// digits are grouped too, so that columns agree. Anything but digits, sign and one point is left alone.
pub fn thousands(number: &str) -> String {
    let (sign, rest) = match number.chars().next() {
        Some(c @ ('-' | '−' | '+')) => number.split_at(c.len_utf8()),
        _ => ("", number),
    };
    let (whole, part) = rest.split_once('.').map_or((rest, ""), |(w, p)| (w, p));
    if whole.is_empty() || !whole.chars().chain(part.chars()).all(|c| c.is_ascii_digit()) {
        return number.to_owned();
    }
    let mut out = String::from(if sign == "-" { "−" } else { sign });
    for (i, c) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i).is_multiple_of(3) {
            out.push(NARROW_NO_BREAK);
        }
        out.push(c);
    }
    if rest.contains('.') {
        out.push('.');
        out.push_str(part);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_and_bidi_characters_vanish() {
        assert_eq!(clean("a\u{0}b\u{7}\u{202e}c\u{200d}d\u{1b}[2J"), "abcd[2J");
    }

    #[test]
    fn white_space_becomes_one_space() {
        assert_eq!(clean("a\t\n  b\u{2028}c"), "a b c");
    }

    #[test]
    fn numbers_keep_their_units() {
        assert_eq!(
            clean("Drill 6.6 mm, then 25 × 2 mm."),
            "Drill 6.6\u{a0}mm, then 25 ×\u{a0}2\u{a0}mm."
        );
        assert_eq!(clean("hole 3 in plate"), "hole 3\u{a0}in plate");
        assert_eq!(clean("step 2 of 14"), "step\u{a0}2 of 14");
    }

    #[test]
    fn stacked_marks_are_cut() {
        let piled: String =
            std::iter::once('a').chain(std::iter::repeat_n('\u{301}', 40)).collect();
        assert_eq!(clean(&piled).chars().count(), 3);
    }

    #[test]
    fn digits_go_in_threes() {
        assert_eq!(thousands("2670"), "2\u{202f}670");
        assert_eq!(thousands("-12345.25"), "−12\u{202f}345.25");
        assert_eq!(thousands("990"), "990");
        assert_eq!(thousands("1/32"), "1/32");
    }
}
