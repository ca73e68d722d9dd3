//! The shortest way to move something on the roof to where it is free.

use crate::geometry::{Point2, Rect};
use crate::units::{Length, display};

/// What there is to keep off: the roof's edge round it and what is taken already.
pub struct Room<'a> {
    pub within: Rect,
    pub taken: &'a [Rect],
}

/// Which ways it may be moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ways {
    /// Any way.
    All,
    /// Along X only.
    Along,
    /// Along Y only.
    Across,
}

/// More things than this are tried along one axis only.
const MOST: usize = 40;
/// Moved both ways it is measured twice: so much longer may the straight way be.
const TWICE: f64 = 1.3;

impl Room<'_> {
    fn is_free(&self, at: Rect) -> bool {
        self.within.contains_rect(at) && !self.taken.iter().any(|taken| taken.overlaps(at))
    }

    /// The shortest move, in whole millimetres along X and Y; none where no place is free.
    pub fn shortest(&self, what: Rect, ways: Ways) -> Option<(Length, Length)> {
        let (low, high) = (what.low(), what.high());
        let mut xs = vec![self.within.low().x - low.x, self.within.high().x - high.x];
        let mut ys = vec![self.within.low().y - low.y, self.within.high().y - high.y];
        for taken in self.taken {
            xs.extend([taken.high().x - low.x, taken.low().x - high.x]);
            ys.extend([taken.high().y - low.y, taken.low().y - high.y]);
        }
        let zero = vec![Length::ZERO];
        let both = self.taken.len() <= MOST && ways == Ways::All;
        let xs = if ways == Ways::Across { zero.clone() } else { whole(&xs) };
        let ys = if ways == Ways::Along { zero } else { whole(&ys) };
        let mut best: Option<(f64, Length, Length)> = None;
        for x in &xs {
            for y in &ys {
                let slanting = !x.is_zero() && !y.is_zero();
                if slanting && !both {
                    continue;
                }
                let far = (x.abs() + y.abs()).to_mm() * if slanting { TWICE } else { 1.0 };
                let shorter = best.as_ref().is_none_or(|best| far < best.0 - 1e-9);
                if shorter && self.is_free(moved(what, *x, *y)) {
                    best = Some((far, *x, *y));
                }
            }
        }
        best.map(|(_, x, y)| (x, y))
    }
}

/// Away from zero to whole millimetres, and no move at all.
fn whole(ways: &[Length]) -> Vec<Length> {
    let away = |way: &Length| {
        let mm = way.to_mm();
        Length::mm(if mm < 0.0 { (mm + 1e-6).floor() } else { (mm - 1e-6).ceil() })
    };
    std::iter::once(Length::ZERO).chain(ways.iter().map(away)).collect()
}

fn moved(what: Rect, x: Length, y: Length) -> Rect {
    let low = what.low();
    Rect::from_size(Point2::new(low.x + x, low.y + y), what.width(), what.height())
}

/// "120 mm rearward", "120 mm rearward and 30 mm to the left".
pub fn words((x, y): (Length, Length)) -> String {
    let told = |by: Length, ways: [&str; 2]| {
        let way = if by > Length::ZERO { ways[0] } else { ways[1] };
        let by = display::with_unit(&display::number(by.abs().to_mm(), 0), "mm");
        format!("{by} {way}")
    };
    let along = (!x.is_zero()).then(|| told(x, ["rearward", "forward"]));
    let across = (!y.is_zero()).then(|| told(y, ["to the right", "to the left"]));
    match (along, across) {
        (Some(along), Some(across)) => format!("{along} and {across}"),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => "nowhere".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rect(x: f64, y: f64, w: f64, h: f64) -> Rect {
        Rect::from_size(Point2::new(Length::mm(x), Length::mm(y)), Length::mm(w), Length::mm(h))
    }

    proptest! {
        /// What is advised is free; where a square grid of 25 mm finds a free place along an axis, one
        /// no farther is advised (a plain search, apart from the one under test).
        #[test]
        fn advice_is_free_and_no_farther_than_a_plain_search(
            things in prop::collection::vec((0.0..900.0_f64, 0.0..900.0_f64, 20.0..200.0_f64, 20.0..200.0_f64), 0..6),
            at in (0.0..800.0_f64, 0.0..800.0_f64),
        ) {
            let taken: Vec<Rect> = things.iter().map(|(x, y, w, h)| rect(*x, *y, *w, *h)).collect();
            let room = Room { within: rect(0.0, 0.0, 1000.0, 1000.0), taken: &taken };
            let what = rect(at.0, at.1, 200.0, 150.0);
            let advised = room.shortest(what, Ways::All);
            if let Some((x, y)) = advised {
                prop_assert!(room.is_free(moved(what, x, y)));
            }
            for k in -40..=40 {
                let by = f64::from(k) * 25.0;
                for (x, y) in [(by, 0.0), (0.0, by)] {
                    if room.is_free(moved(what, Length::mm(x), Length::mm(y))) {
                        let far = advised.map(|(x, y)| (x.abs() + y.abs()).to_mm());
                        prop_assert!(far.is_some_and(|far| far <= by.abs() + 1.0), "{advised:?} {by}");
                    }
                }
            }
        }
    }
}
