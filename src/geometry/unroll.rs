//! The outside of a tube cut open along its length and laid flat, printed side out, with the tube's
//! own length down the sheet.
//!
//! Lengths along the surface stay as they are: what lies `s` round the tube from the seam lies `s` from
//! the left edge of the sheet, corners and all. A plane that cuts the tube aslant becomes a curve: on a
//! round tube the sine of parallel-line development.

use super::Point2;
use crate::units::{Angle, Length};

/// One tube's outside.
#[derive(Debug, Clone, PartialEq)]
pub enum Unrolled {
    /// Round, the seam at y = 0.
    Round {
        /// Outside.
        diameter: Length,
    },
    /// Four flat faces, in their order the upper one (z = height), that at y = width, the lower one, that
    /// at y = 0; the seam in the middle of the corner before the upper one.
    Flat {
        /// Along y.
        width: Length,
        /// Along z.
        height: Length,
        /// Of its corners, outside.
        radius: Length,
    },
}

/// Steps in which the round of a tube or of a corner is followed.
const STEP: Angle = Angle::deg(2.0);

impl Unrolled {
    /// A tube with four faces; corners are at most as round as it has room for.
    pub fn flat(width: Length, height: Length, radius: Length) -> Self {
        Self::Flat { width, height, radius: radius.min(width.min(height) / 2.0) }
    }

    /// Once round it.
    pub fn around(&self) -> Length {
        match self {
            Self::Round { diameter } => *diameter * std::f64::consts::PI,
            Self::Flat { .. } => {
                self.panes().into_iter().fold(Length::ZERO, |sum, pane| sum + pane)
            }
        }
    }

    /// From the middle of one corner to that of the next, for each face; one pane where it is round.
    pub fn panes(&self) -> Vec<Length> {
        match self {
            Self::Round { .. } => vec![self.around()],
            Self::Flat { width, height, radius } => {
                let lost = *radius * 2.0 - Self::bow(*radius);
                [*width, *height, *width, *height].map(|side| side - lost).to_vec()
            }
        }
    }

    /// Round one corner.
    fn bow(radius: Length) -> Length {
        radius * std::f64::consts::FRAC_PI_2
    }

    /// How much farther from its fold a place on a face lies on paper than from the sharp corner that
    /// the tube would have: below zero where corners are round.
    pub fn shift(&self) -> Length {
        match self {
            Self::Round { .. } => Length::ZERO,
            Self::Flat { radius, .. } => Self::bow(*radius) / 2.0 - *radius,
        }
    }

    /// Where a place on paper lies on the section.
    pub fn point(&self, s: Length) -> Point2 {
        match self {
            Self::Round { diameter } => {
                let radius = *diameter / 2.0;
                let (sin, cos) = (s / radius).sin_cos();
                Point2::new(radius - radius * cos, radius + radius * sin)
            }
            Self::Flat { width, height, radius } => {
                let (w, h, r) = (*width, *height, *radius);
                // Each face with its own way on, its own way out and where its sharp corner would be.
                let zero = Length::ZERO;
                let faces = [
                    (w, (1.0, 0.0), (0.0, 1.0), (zero, h)),
                    (h, (0.0, -1.0), (1.0, 0.0), (w, h)),
                    (w, (-1.0, 0.0), (0.0, -1.0), (w, zero)),
                    (h, (0.0, 1.0), (-1.0, 0.0), (zero, zero)),
                ];
                let half = Self::bow(r) / 2.0;
                let mut left = s;
                for (number, (side, way, out, corner)) in faces.into_iter().enumerate() {
                    let straight = side - r * 2.0;
                    let pane = straight + half * 2.0;
                    if left > pane && number < 3 {
                        left -= pane;
                        continue;
                    }
                    // From the middle of its corner; then straight; then round the next corner.
                    let (along, deep) = if left < half && r > zero {
                        let turn = (half - left) / r;
                        (r - r * turn.sin(), r - r * turn.cos())
                    } else if left > half + straight && r > zero {
                        let turn = (left - half - straight) / r;
                        (side - r + r * turn.sin(), r - r * turn.cos())
                    } else {
                        (left - half + r, zero)
                    };
                    return Point2::new(
                        corner.0 + along * way.0 - deep * out.0,
                        corner.1 + along * way.1 - deep * out.1,
                    );
                }
                Point2::new(zero, h)
            }
        }
    }

    /// The line of a mitre that runs over its y, off square by an angle, on paper: from the left, and
    /// behind the long point, which is where y is greatest.
    pub fn mitre(&self, angle: Angle) -> Vec<(Length, Length)> {
        let across = match self {
            Self::Round { diameter } => *diameter,
            Self::Flat { width, .. } => *width,
        };
        let behind = |s: Length| ((across - self.point(s).x) * angle.tan()).max(Length::ZERO);
        self.places().into_iter().map(|s| (s, behind(s))).collect()
    }

    /// Places on paper between which the outside is straight, or turns by so little that a pencil does
    /// not show it.
    pub fn places(&self) -> Vec<Length> {
        let fine = |from: Length, long: Length, turn: Angle| {
            let count = (turn / STEP).ceil().max(1.0);
            (0..=count as u32).map(move |k| from + long * (f64::from(k) / count))
        };
        let mut all: Vec<Length> = match self {
            Self::Round { .. } => fine(Length::ZERO, self.around(), Angle::deg(360.0)).collect(),
            Self::Flat { radius, .. } => {
                let (mut at, mut all) = (Length::ZERO, Vec::new());
                let half = Self::bow(*radius) / 2.0;
                for pane in self.panes() {
                    let turn = if *radius > Length::ZERO { Angle::deg(45.0) } else { STEP };
                    all.extend(fine(at, half, turn));
                    all.extend(fine(at + pane - half, half, turn));
                    at += pane;
                }
                all
            }
        };
        all.dedup_by(|a, b| a.is_near(*b, Length::mm(1e-6)));
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// On paper as on the tube: a chord between near places is as long as the way on paper, within what
    /// an arc of one step differs from its chord.
    #[test]
    fn lengths_on_paper_are_lengths_on_the_tube() {
        let tubes = [
            Unrolled::Round { diameter: Length::mm(20.0) },
            Unrolled::flat(Length::mm(40.0), Length::mm(25.0), Length::mm(4.0)),
            Unrolled::flat(Length::mm(25.0), Length::mm(25.0), Length::ZERO),
        ];
        for tube in tubes {
            let places = tube.places();
            for pair in places.windows(2) {
                let chord = tube.point(pair[0]).distance(tube.point(pair[1]));
                assert!(chord.is_near(pair[1] - pair[0], Length::mm(0.002)), "{tube:?} {pair:?}");
            }
            let ends = (tube.point(places[0]), tube.point(*places.last().unwrap()));
            assert!(ends.0.distance(ends.1) < Length::mm(1e-6), "{tube:?}");
        }
    }

    /// Every point of a mitre's line, put back on the tube, lies in one plane: that through the long
    /// point, square to the side that it runs across, off square by its angle.
    #[test]
    fn a_mitre_is_a_plane_again() {
        let (a, b) = (Length::mm(40.0), Length::mm(25.0));
        for tube in [
            Unrolled::Round { diameter: a },
            Unrolled::flat(a, b, Length::mm(3.0)),
            Unrolled::flat(a, b, Length::ZERO),
        ] {
            for angle in [12.0, 30.0, 45.0, 60.0].map(Angle::deg) {
                for (s, behind) in tube.mitre(angle) {
                    // Square to the plane: (cos, sin); through the long point at (0, a).
                    let off = behind * angle.cos() + (tube.point(s).x - a) * angle.sin();
                    assert!(off.is_near(Length::ZERO, Length::mm(1e-6)), "{tube:?} {angle:?}");
                }
            }
        }
    }
}
