//! How true a printer is, and what templates are drawn at so that its next print is true.

use std::fmt;
use std::str::FromStr;

/// What 200 mm came out as on a printer, across and down the page, mm.
///
/// Written `WIDTHxHEIGHT`: width is across an upright page (the short bar, whose 150 mm are told as
/// 200 mm by four thirds), height is down it (the long bar).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Printed {
    across: f64,
    down: f64,
}

/// What was asked to be 200 mm.
const ASKED: f64 = 200.0;
/// Length of the long bar, mm.
pub(in crate::sheets) const BAR: f64 = ASKED;
/// A bar within this of its length is true enough (page rule 47), mm.
pub(in crate::sheets) const TRUE_WITHIN: f64 = 0.5;

/// Farthest that an engine is out by itself, 3 %: practitioners' reports of laser engines, as
/// remembered. What is shrunk to fit a page is mostly farther out (A4 on Letter 94.1 %, A4 inside
/// 4.2 mm margins 96 %) and is printed again at 100 %, not corrected.
const MOST_OUT: f64 = 6.0;

impl Printed {
    /// A printer that holds its sizes.
    pub const TRUE: Self = Self { across: ASKED, down: ASKED };

    /// Factors across and down that templates are drawn with: the inverse of what the printer does.
    pub fn factors(self) -> (f64, f64) {
        (ASKED / self.across, ASKED / self.down)
    }

    /// Whether nothing is corrected.
    pub fn is_true(self) -> bool {
        self == Self::TRUE
    }
}

impl fmt::Display for Printed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\u{a0}mm across, {}\u{a0}mm down", self.across, self.down)
    }
}

impl FromStr for Printed {
    type Err = String;

    /// # Errors
    /// Says in words what is wrong with the measurement and what to write instead.
    fn from_str(written: &str) -> Result<Self, String> {
        let Some((across, down)) = written.split_once(['x', 'X', '×']) else {
            return Err("write what 200 mm came out as, across x down: 198.6x199.2".into());
        };
        Ok(Self { across: side("across", across)?, down: side("down", down)? })
    }
}

fn side(which: &str, written: &str) -> Result<f64, String> {
    let trimmed = written.trim().trim_end_matches("mm").trim_end();
    // Plain decimals only: "inf" and "1e2" are no reading of a rule.
    let plain = trimmed.chars().all(|c| c.is_ascii_digit() || c == '.');
    let value = trimmed.parse::<f64>().ok().filter(|_| plain);
    let Some(value) = value else {
        return Err(format!("“{}” is no length {which} in mm, such as 198.6", written.trim()));
    };
    if (value - ASKED).abs() <= MOST_OUT {
        return Ok(value);
    }
    let short = value * 4.0 / 3.0;
    let advice = if (short - ASKED).abs() <= MOST_OUT {
        format!("if that is the bar of 150 mm, write {short:.1} (four thirds of it)")
    } else {
        "a print so far out was fitted to the page; print it again at 100 %".into()
    };
    Err(format!("{value} mm {which} is not what a printer makes of 200 mm (194 to 206); {advice}"))
}

#[cfg(test)]
mod tests {
    use super::Printed;

    #[test]
    fn a_measurement_turns_into_its_inverse() {
        let printed: Printed = "198.6x199.2".parse().expect("a sound measurement");
        let (across, down) = printed.factors();
        assert!((across * 198.6 - 200.0).abs() < 1e-9 && (down * 199.2 - 200.0).abs() < 1e-9);
        assert_eq!("200 x 200 mm".parse(), Ok(Printed::TRUE));
    }

    #[test]
    fn nonsense_is_told() {
        for wrong in ["0x200", "200x50", "axb", "300x300", "198.6", "", "x", "-200x200", "infx200"]
        {
            assert!(wrong.parse::<Printed>().is_err(), "{wrong}");
        }
        let told = "149x199.2".parse::<Printed>().expect_err("the short bar");
        assert!(told.contains("198.7"), "{told}");
    }
}
