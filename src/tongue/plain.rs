//! What is the same in every language but for the sign in a number: numbers, units, marks of parts.

/// Units that have letters in small, as they are printed.
const UNITS: &[&str] = &[
    "mm", "cm", "m", "m²", "mm²", "cm²", "m³", "mm³", "mm⁴", "cm³", "ml", "l", "g", "kg", "kg/m",
    "kg/m²", "kg/m³", "N", "kN", "N/mm", "N/mm²", "N/m", "kN/m²", "N·m", "Nm", "MPa", "GPa", "Pa",
    "kPa", "bar", "min", "h", "d", "s", "kA", "m/s", "m/s²", "km", "km/h", "mph", "mA", "mV", "kW",
    "Wh", "kWh", "Ah", "mΩ", "kΩ", "in", "ft", "lb", "lbf·ft", "psi", "x", "y", "z", "rpm",
    "r/min", "g₀", "µm", "mm/m", "V/K", "ct", "hPa",
];

/// Whether a text is one number with its sign.
pub(super) fn is_number(text: &str) -> bool {
    let digits = text.trim_start_matches(['±', '+', '−', '-', '≈', '≤', '≥', '<', '>', '×', '⌀']);
    let digits = digits.trim();
    digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.ends_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || "., \u{202f}\u{a0}".contains(c))
        && !digits.contains(", ")
        && !digits.contains(' ')
}

/// Whether a text has no word in it.
pub(super) fn is_plain(text: &str) -> bool {
    is_formula(text)
        || text
            .split([' ', '\u{a0}', '\u{202f}', '\n', '/', ',', ';', ':', '(', ')', '=', '·'])
            .all(|token| is_code(token.trim_end_matches('.')))
        || UNITS.contains(&text)
}

/// A formula: signs of arithmetic, and no words but functions.
fn is_formula(text: &str) -> bool {
    const FUNCTIONS: &[&str] = &["sin", "cos", "tan", "max", "min", "short", "pin", "one"];
    text.contains(['=', '≤', '≥', '√', 'Σ', '½'])
        && text.split(|c: char| !c.is_alphabetic()).all(|run| {
            run.chars().filter(|c| c.is_lowercase()).count() < 3 || FUNCTIONS.contains(&run)
        })
        && !text.split(' ').any(|word| ["a", "of", "to", "in", "is", "by", "at"].contains(&word))
}

fn is_code(token: &str) -> bool {
    if UNITS.contains(&token) || token.chars().any(|c| c.is_ascii_digit()) {
        return !has_word(token);
    }
    // The name of a quantity: `q`, `Isc`, `z₀`, `σ`; an article is a word.
    let mut letters = token.chars().filter(|c| c.is_alphabetic());
    let name = letters.next().is_some_and(|c| c != 'a' && c != 'A') && letters.next().is_none();
    let greek = token.chars().any(|c| ('α'..='ω').contains(&c));
    if name || greek || ["Isc", "Uoc", "m_max"].contains(&token) {
        return true;
    }
    !token.chars().any(char::is_lowercase)
        && token.chars().filter(|c| c.is_alphabetic()).count() <= 4
}

/// Three small letters in a row that are no unit make a word, even with a digit near.
fn has_word(token: &str) -> bool {
    token
        .split(|c: char| !c.is_alphabetic())
        .any(|run| run.chars().filter(|c| c.is_lowercase()).count() >= 3 && !UNITS.contains(&run))
}

/// The text with the decimal sign of its numbers changed; numbers of clauses and standards stay.
pub(super) fn numbers(text: &str, decimal: char) -> String {
    if decimal == '.' || ["EN ", "ISO ", "IEC ", "DIN "].iter().any(|sign| text.contains(sign)) {
        return text.to_owned();
    }
    let chars: Vec<char> = text.chars().collect();
    let digit = |at: usize| chars.get(at).is_some_and(char::is_ascii_digit);
    // `7.2.1` has two dots and is a clause; a full stop behind a number is none of its dots.
    let alone = |at: usize| {
        let part = |c: &&char| c.is_ascii_digit() || **c == '.';
        let before = chars[..at].iter().rev().take_while(part).filter(|c| **c == '.').count();
        let after: String = chars[at + 1..].iter().take_while(part).collect();
        before == 0 && !after.trim_end_matches('.').contains('.')
    };
    let mut told = String::with_capacity(text.len());
    let point =
        |at: usize| chars[at] == '.' && at > 0 && digit(at - 1) && digit(at + 1) && alone(at);
    // Between numbers that have a comma of their own stands a semicolon.
    let split = decimal == ',' && (0..chars.len()).any(point);
    for (at, c) in chars.iter().enumerate() {
        let list = *c == ',' && at > 0 && digit(at - 1);
        let list = list && chars.get(at + 1) == Some(&' ') && digit(at + 2);
        told.push(match c {
            _ if point(at) => decimal,
            _ if split && list => ';',
            c => *c,
        });
    }
    told
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_told_from_marks_and_units() {
        for text in ["7.1 mm", "P-01", "H21", "1,240 N", "M6 × 16", "−10 °C", "2 × 45 N·m", "A/B"]
        {
            assert!(is_plain(text), "{text}");
        }
        for text in ["left rail", "7.1 mm hole", "per bolt", "DRAFT", "front"] {
            assert!(!is_plain(text), "{text}");
        }
    }

    // DIN 1333: the decimal sign is a comma.
    #[test]
    fn numbers_get_their_comma_and_clauses_keep_their_dots() {
        assert_eq!(numbers("7.1 to 7.3 mm", ','), "7,1 to 7,3 mm");
        assert_eq!(numbers("EN 1991-1-4, 7.2", ','), "EN 1991-1-4, 7.2");
        assert_eq!(numbers("7.2.1", ','), "7.2.1");
        assert_eq!(numbers("7.1 mm", '.'), "7.1 mm");
        assert_eq!(numbers("3, 4.5, 9", ','), "3; 4,5; 9");
    }
}
