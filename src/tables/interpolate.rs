//! Straight lines between the rows of a table.

/// What is said of rows that don't rise.
pub(super) const RISING: &str = "takes two or more rows, the first figures rising";

/// Whether the rows can be interpolated.
pub(super) fn rises<const N: usize>(rows: &[(f64, [f64; N])]) -> bool {
    rows.len() > 1 && rows.windows(2).all(|pair| pair[0].0 < pair[1].0)
}

/// The values at `x`, straight between the rows on either side. None outside the table.
pub(super) fn at<const N: usize>(rows: &[(f64, [f64; N])], x: f64) -> Option<[f64; N]> {
    // An angle that went through radians may miss a row by a rounding.
    const SLACK: f64 = 1e-9;
    let (first, last) = (rows.first()?, rows.last()?);
    if x < first.0 - SLACK || x > last.0 + SLACK {
        return None;
    }
    if let Some(met) = rows.iter().find(|row| (x - row.0).abs() <= SLACK) {
        return Some(met.1);
    }
    let above = rows.iter().position(|row| x < row.0)?;
    let (low, high) = (&rows[above - 1], &rows[above]);
    let part = (x - low.0) / (high.0 - low.0);
    Some(std::array::from_fn(|i| low.1[i] + (high.1[i] - low.1[i]) * part))
}

#[cfg(test)]
mod tests {
    use super::at;

    #[test]
    fn rows_are_met_and_halves_lie_between() {
        let rows = [(0.0, [1.0, -1.0]), (10.0, [3.0, -2.0]), (20.0, [3.0, 0.0])];
        assert_eq!(at(&rows, 10.0), Some([3.0, -2.0]));
        assert_eq!(at(&rows, 5.0), Some([2.0, -1.5]));
        assert_eq!(at(&rows, 20.0 + 1e-12), Some([3.0, 0.0]));
        assert_eq!(at(&rows, 20.1), None);
        assert_eq!(at::<1>(&[], 0.0), None);
    }
}
