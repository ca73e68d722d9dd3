//! Column widths from content.

/// What a column asks for, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ask {
    /// Width of its widest line unbroken.
    pub natural: f64,
    /// Width of its widest word, or of its widest number.
    pub least: f64,
    /// Whether it may grow to fill the table.
    pub flexible: bool,
    /// A width set by the caller.
    pub fixed: Option<f64>,
}

/// Widths of the columns and the gap between them for a table of `width` mm.
///
/// Columns get their natural width if all fit; what is left over first opens the gaps to 9 mm, then
/// goes to the flexible columns in proportion. If they do not fit, the widest give way down to their
/// least width, and in the end all are squeezed alike (words are then broken).
pub(super) fn share_out(asks: &[Ask], width: f64) -> (Vec<f64>, f64) {
    const LEAST_GAP: f64 = 4.0;
    const WIDEST_GAP: f64 = 9.0;
    let count = asks.len();
    if count == 0 {
        return (Vec::new(), 0.0);
    }
    let gaps = (count - 1) as f64;
    // Many columns on little width: the gaps give way first.
    let gap = LEAST_GAP.min(width * 0.3 / gaps.max(1.0));
    let room = width - gaps * gap;
    let wish: Vec<f64> = asks.iter().map(|a| a.fixed.unwrap_or(a.natural)).collect();
    let total: f64 = wish.iter().sum();
    if total <= room {
        let mut spare = room - total;
        // A table of numbers only has nothing to grow, so its gaps may; page rule 28 allows 25 mm.
        let widest = if asks.iter().any(|a| a.flexible) { WIDEST_GAP } else { 18.0 };
        let opened = if gaps > 0.0 { (spare / gaps).min(widest - gap) } else { 0.0 };
        spare -= opened * gaps;
        let flexible: f64 =
            asks.iter().zip(&wish).filter(|(a, _)| a.flexible).map(|(_, w)| w.max(1.0)).sum();
        let widths =
            asks.iter()
                .zip(&wish)
                .map(|(a, w)| {
                    if a.flexible && flexible > 0.0 {
                        w + spare * w.max(1.0) / flexible
                    } else {
                        *w
                    }
                })
                .collect();
        return (widths, gap + opened);
    }
    let floor: Vec<f64> = asks.iter().zip(&wish).map(|(a, w)| a.least.min(*w)).collect();
    let lowest: f64 = floor.iter().sum();
    if lowest <= room {
        // Squeeze from the widest: each flexible column keeps its wish up to a common level.
        let level = common_level(&wish, &floor, room);
        let widths = wish.iter().zip(&floor).map(|(w, f)| w.min(level).max(*f)).collect();
        return (widths, gap);
    }
    let scale = room / lowest;
    (floor.iter().map(|w| w * scale).collect(), gap)
}

/// The level at which the columns, cut to it but not below their floor, fill the room.
fn common_level(wish: &[f64], floor: &[f64], room: f64) -> f64 {
    let (mut low, mut high) = (0.0, wish.iter().copied().fold(0.0, f64::max));
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        let sum: f64 = wish.iter().zip(floor).map(|(w, f)| w.min(middle).max(*f)).sum();
        if sum > room { high = middle } else { low = middle }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ask(natural: f64, least: f64, flexible: bool) -> Ask {
        Ask { natural, least, flexible, fixed: None }
    }

    #[test]
    fn widths_and_gaps_never_exceed_the_table() {
        let cases = [
            vec![ask(20.0, 10.0, true), ask(10.0, 10.0, false)],
            vec![ask(300.0, 12.0, true), ask(40.0, 12.0, true), ask(30.0, 30.0, false)],
            vec![ask(90.0, 90.0, false), ask(120.0, 120.0, false)],
            (0..40).map(|_| ask(15.0, 9.0, false)).collect(),
        ];
        for asks in cases {
            let (widths, gap) = share_out(&asks, 171.0);
            let all = widths.iter().sum::<f64>() + gap * (asks.len() - 1) as f64;
            assert!(all <= 171.0 + 1e-6, "{all} for {asks:?}");
            assert!(widths.iter().all(|w| *w > 0.0));
        }
    }

    #[test]
    fn numbers_keep_their_width_when_words_must_give_way() {
        let (widths, _) = share_out(&[ask(300.0, 20.0, true), ask(30.0, 30.0, false)], 171.0);
        assert!((widths[1] - 30.0).abs() < 1e-9);
    }
}
