//! Build files to start from: each is a whole one that prints as it stands.

use crate::read::{Known, Shape};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A build file to start from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Start {
    /// By which it is asked for.
    pub name: &'static str,
    /// Which job it is near to.
    pub says: &'static str,
    /// The file.
    pub text: &'static str,
}

macro_rules! start {
    ($name:literal, $says:literal) => {
        Start {
            name: $name,
            says: $says,
            text: include_str!(concat!("../../templates/starts/", $name, ".toml")),
        }
    };
}

/// All of them, the most common first.
pub const STARTS: &[Start] = &[
    start!("bonded", "panels flat on a van, on feet that are bonded to the roof"),
    start!("hinged", "panels that are lifted: hinges on one edge, bonded feet on the other"),
    start!("bolted", "panels on feet that are bolted through a steel roof"),
    start!("electrics", "electrics alone: controller, battery, cables and fuses"),
    start!("shelf", "work at the bench alone: parts, holes and the cut list"),
];

/// The start of that name, or of that number counted from 1.
pub fn start(asked: &str) -> Option<&'static Start> {
    let asked = asked.trim();
    let by_number = asked.parse::<usize>().ok().and_then(|number| number.checked_sub(1));
    by_number
        .and_then(|index| STARTS.get(index))
        .or_else(|| STARTS.iter().find(|start| start.name.eq_ignore_ascii_case(asked)))
}

/// Where the value of a key stands, by the table that it is in.
pub fn place(text: &str, table: &str, key: &str) -> Option<Range<usize>> {
    let file = DeTable::parse(text).ok()?;
    let table = file.get_ref().get(table)?;
    let inside = match table.get_ref() {
        DeValue::Table(inside) => inside,
        DeValue::Array(list) => list.first()?.get_ref().as_table()?,
        _ => return None,
    };
    inside.get(key).map(toml::Spanned::span)
}

/// The text with another value in that place; where the key is not, nothing changes.
pub fn put(text: &str, table: &str, key: &str, value: &str) -> String {
    let mut text = text.to_owned();
    if let Some(place) = place(&text, table, key) {
        text.replace_range(place, value);
    }
    text
}

/// As a text of a TOML file.
pub fn quoted(answer: &str) -> String {
    let mut out = String::from("\"");
    for c in answer.trim().chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// The text for a reader with an inch tape: bare lengths are written to the sixteenth, small ones
/// (screws, sheets, gaps) stay what they are sold as.
pub fn in_inches(text: &str, known: &Known) -> String {
    let mut places = Vec::new();
    if let Ok(file) = DeTable::parse(text) {
        lengths_in("", file.get_ref(), known, &mut places);
    }
    places.sort_by_key(|(place, _)| std::cmp::Reverse(place.start));
    let mut text = text.to_owned();
    for (place, mm) in places {
        text.replace_range(place, &inches(mm));
    }
    let text = text.replace("a length in millimetres", "a length in inches");
    text.replacen("\n[job]\n", "\n[job]\nunits = \"in\"\n", 1)
}

fn inches(mm: f64) -> String {
    const SMALL: f64 = 26.0;
    if mm == 0.0 {
        return "0".to_owned();
    }
    if mm.abs() < SMALL {
        return format!("\"{mm} mm\"");
    }
    let sixteenths = (mm.abs() / 25.4 * 16.0).round() as u32;
    let sign = if mm < 0.0 { "-" } else { "" };
    let (whole, mut part, mut of) = (sixteenths / 16, sixteenths % 16, 16);
    if part == 0 {
        return format!("{sign}{whole}");
    }
    while part % 2 == 0 {
        (part, of) = (part / 2, of / 2);
    }
    format!("\"{sign}{whole} {part}/{of} in\"")
}

fn lengths_in(
    path: &str,
    table: &DeTable<'_>,
    known: &Known,
    places: &mut Vec<(Range<usize>, f64)>,
) {
    for (key, value) in table {
        let key: &str = key.get_ref();
        let inner = if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") };
        let shapes = known.of(path, key).map_or(&[][..], |told| &told.shapes);
        lengths(&inner, value, shapes, known, places);
    }
}

fn lengths(
    path: &str,
    value: &Spanned<DeValue<'_>>,
    shapes: &[Shape],
    known: &Known,
    places: &mut Vec<(Range<usize>, f64)>,
) {
    match value.get_ref() {
        DeValue::Table(table) => lengths_in(path, table, known, places),
        DeValue::Array(list) => {
            for (index, item) in list.iter().enumerate() {
                let of_item: Vec<Shape> = shapes
                    .iter()
                    .filter_map(|shape| match shape {
                        Shape::List { of, .. } => Some((**of).clone()),
                        Shape::Each(parts) => parts.get(index).cloned(),
                        _ => None,
                    })
                    .collect();
                lengths(path, item, &of_item, known, places);
            }
        }
        DeValue::Integer(_) | DeValue::Float(_)
            if shapes.iter().any(|s| matches!(s, Shape::Quantity { bare: true, .. })) =>
        {
            let number = match value.get_ref() {
                DeValue::Integer(number) => number.as_str().parse(),
                DeValue::Float(number) => number.as_str().parse(),
                _ => return,
            };
            if let Ok(number) = number {
                places.push((value.span(), number));
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_written_as_on_an_inch_tape() {
        // 25.4 mm are an inch by definition (ISO 80000-3).
        let told = [3200.0, 25.4 * 12.0, -700.0, 2.3, 0.0].map(inches);
        assert_eq!(told, ["126", "12", "\"-27 9/16 in\"", "\"2.3 mm\"", "0"]);
    }

    #[test]
    fn a_value_is_put_where_it_stands_and_nowhere_else() {
        let text = "[job]\ntitle = \"a\" # title\n[[panel]]\ntitle = \"b\"\n";
        let put = put(text, "job", "title", &quoted("say \"so\""));
        assert_eq!(put, "[job]\ntitle = \"say \\\"so\\\"\" # title\n[[panel]]\ntitle = \"b\"\n");
        assert_eq!(super::put(text, "job", "none", "1"), text);
    }
}
