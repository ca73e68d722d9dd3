//! Lengths.

use super::factors::{FOOT, INCH};

quantity! {
    /// A distance or a size; stored in mm. Negative where a convention says so.
    ///
    /// ```
    /// use rungsheet::units::Length;
    /// assert_eq!(Length::inches(2.0), Length::mm(50.8));
    /// assert_eq!(Length::mm(18.0) / Length::mm(4.0), 4.5);
    /// ```
    Length, kind Length, shown "mm" by to_mm;
    "millimetres": mm, to_mm, 1.0;
    "centimetres": cm, to_cm, 10.0;
    "metres": m, to_m, 1000.0;
    "inches": inches, to_inches, INCH;
    "feet": feet, to_feet, FOOT;
}

impl Length {
    /// Far below anything a tape shows: what adding up millimetres in binary may leave behind.
    pub const SLACK: Self = Self(1e-6);

    /// Whether this goes into `space`, to within [`Length::SLACK`].
    pub fn fits(self, space: Self) -> bool {
        self.0 <= space.0 + Self::SLACK.0
    }

    /// Whether this distance keeps at least `least`, to within [`Length::SLACK`].
    pub fn clears(self, least: Self) -> bool {
        self.0 + Self::SLACK.0 >= least.0
    }

    /// The long side of the right triangle with these two short sides.
    #[must_use]
    pub fn hypot(self, other: Self) -> Self {
        Self((self.0 * self.0 + other.0 * other.0).sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::Length;

    #[test]
    fn adding_tenths_still_fits() {
        let three: Length = [Length::mm(0.1); 3].iter().sum();
        assert!(three.fits(Length::mm(0.3)));
        assert!(Length::mm(0.3).clears(three));
        assert!(!Length::mm(0.301).fits(Length::mm(0.3)));
    }
}
