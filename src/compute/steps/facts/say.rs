//! Numbers and marks in words.

use crate::derive::{HoleKind, Work};
use crate::source::Ledger;
use crate::units::{Length, Unit, display};

/// A length in millimetres, to a tenth.
pub fn mm(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}

/// Number and unit with one decimal at most.
pub fn with(value: f64, unit: &str) -> String {
    display::with_unit(&display::number_short(value, 1), unit)
}

/// Low and high with alike decimals: none where both are whole, else one.
pub fn range(low: f64, high: f64) -> (String, String) {
    let whole = |value: f64| (value - value.round()).abs() < 0.05;
    let decimals = usize::from(!(whole(low) && whole(high)));
    // A limit just under zero is zero: nothing is measured below it.
    let told = |value: f64| display::number(value, decimals);
    (told(low), told(high))
}

/// Marks as the workshop says them: "L1", "L1 and L2", "J1 to J8", "C1, C3 and C4".
pub fn marks<S: AsRef<str>>(marks: &[S]) -> String {
    let split = |mark: &str| {
        let at = mark.find(|letter: char| letter.is_ascii_digit())?;
        Some((mark[..at].to_owned(), mark[at..].parse::<u32>().ok()?))
    };
    let mut runs: Vec<(String, String, u32)> = Vec::new();
    let mut last: Option<(String, u32)> = None;
    for mark in marks {
        let mark = mark.as_ref();
        let now = split(mark);
        let follows =
            matches!((&last, &now), (Some((a, m)), Some((b, n))) if a == b && m + 1 == *n);
        match runs.last_mut() {
            Some(run) if follows => {
                mark.clone_into(&mut run.1);
                run.2 += 1;
            }
            _ => runs.push((mark.to_owned(), mark.to_owned(), 1)),
        }
        last = now;
    }
    let mut parts: Vec<String> = Vec::new();
    for (first, end, count) in runs {
        match count {
            1 => parts.push(first),
            2 => parts.extend([first, end]),
            _ => parts.push(format!("{first} to {end}")),
        }
    }
    list(&parts)
}

/// Letters, then number: the order in which marks are counted.
pub fn mark_order(mark: &str) -> (String, u32) {
    let at = mark.find(|letter: char| letter.is_ascii_digit()).unwrap_or(mark.len());
    (mark[..at].to_owned(), mark[at..].parse().unwrap_or(0))
}

/// "a", "a and b", "a, b and c".
pub fn list<S: AsRef<str>>(parts: &[S]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} and {}", first.join(", "), last.as_ref())
        }
    }
}

/// Drills in turn: "3, 5 and 9 mm".
pub fn drills(sizes: &[Length]) -> String {
    let told: Vec<String> =
        sizes.iter().map(|size| display::number_short(size.to_mm(), 1)).collect();
    if told.is_empty() { String::new() } else { display::with_unit(&list(&told), "mm") }
}

/// All different drills that some holes need, the smallest first.
pub fn all_drills<'a>(holes: impl Iterator<Item = &'a crate::derive::Hole>) -> String {
    let mut sizes: Vec<Length> = holes.flat_map(|hole| hole.drills.iter().copied()).collect();
    sizes.sort_by(Length::total_cmp);
    sizes.dedup_by(|a, b| a.is_near(*b, Length::mm(0.01)));
    drills(&sizes)
}

/// Holes of a kind.
pub const fn kind(kind: HoleKind) -> &'static str {
    match kind {
        HoleKind::Clearance => "clearance holes",
        HoleKind::RivetNut => "rivet nut holes",
        HoleKind::Pilot => "pilot holes",
        HoleKind::Countersunk => "countersunk holes",
        HoleKind::Access => "access holes",
        HoleKind::Rivet => "rivet holes",
        HoleKind::Cable => "cable holes",
        HoleKind::Drain => "drain holes",
    }
}

/// Torque of a thread from the ledger, low and high about its setting; absent until it is there.
pub fn torque(ledger: &Ledger, thread: &str, scatter: (f64, f64)) -> Option<(String, String)> {
    let value = ledger.get(&format!("fasteners.torque.{thread}"))?.value;
    let told = |value: f64| display::number(value, 1);
    Some((told(value * (1.0 - scatter.0 / 100.0)), told(value * (1.0 + scatter.1 / 100.0))))
}

/// Mark of the single piece of these kinds that stands nearest to a place of the vehicle.
pub fn nearest(
    work: &Work,
    kind: crate::derive::PartKind,
    to: crate::geometry::Point3,
) -> Option<String> {
    work.parts_of(kind)
        .flat_map(|part| &part.pieces)
        .min_by(|a, b| {
            let far = |piece: &crate::derive::Piece| piece.place.origin().distance(to);
            far(a).total_cmp(&far(b))
        })
        .map(|piece| piece.mark.clone())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_run_together_as_spoken() {
        assert_eq!(marks(&["L1"]), "L1");
        assert_eq!(marks(&["L1", "L2"]), "L1 and L2");
        assert_eq!(marks(&["J1", "J2", "J3", "J4"]), "J1 to J4");
        assert_eq!(marks(&["C1", "C3", "C4"]), "C1, C3 and C4");
        assert_eq!(marks(&["A", "B"]), "A and B");
        assert_eq!(marks::<&str>(&[]), "");
    }

    #[test]
    fn limits_have_alike_decimals() {
        assert_eq!(range(1525.0, 1527.0), ("1\u{202F}525".to_owned(), "1\u{202F}527".to_owned()));
        assert_eq!(range(2.0, 2.4), ("2.0".to_owned(), "2.4".to_owned()));
    }

    #[test]
    fn drills_in_turn() {
        assert_eq!(drills(&[Length::mm(3.0), Length::mm(6.6)]), "3 and 6.6\u{A0}mm");
        assert_eq!(drills(&[]), "");
    }
}
