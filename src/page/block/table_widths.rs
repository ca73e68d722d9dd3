//! Column widths from content.

/// What a column asks for, mm.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ask {
    /// Width of its widest line unbroken.
    pub natural: f64,
    /// Width of its widest word, or of its widest number.
    pub least: f64,
    /// Whether it may grow to fill the table.
    pub flexible: bool,
    /// A width set by the caller.
    pub fixed: Option<f64>,
    /// Widths unbroken of its head and its cells from the top.
    pub cells: Vec<f64>,
}

const LEAST_GAP: f64 = 4.0;
/// Gap of a table that has fewer broken lines with it.
const TIGHT_GAP: f64 = 3.0;
const WIDEST_GAP: f64 = 9.0;

/// Widths of the columns and the gap between them for a table of `width` mm.
///
/// Columns get their natural width if all fit; what is left over first opens the gaps to 9 mm, then
/// goes to the flexible columns in proportion. If they do not fit, those give way with which the
/// table stays lowest, down to their least width; in the end all are squeezed alike (words are then
/// broken).
pub(super) fn share_out(asks: &[Ask], width: f64) -> (Vec<f64>, f64) {
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
    let mut best: Option<(Vec<f64>, f64, f64)> = None;
    for gap in [gap, gap.min(TIGHT_GAP)] {
        let room = width - gaps * gap;
        if lowest > room {
            continue;
        }
        let widths = squeezed(asks, &wish, &floor, room);
        let lines = lines(asks, &widths);
        if best.as_ref().is_none_or(|best| lines < best.2) {
            best = Some((widths, gap, lines));
        }
    }
    if let Some((widths, gap, _)) = best {
        return (widths, gap);
    }
    let scale = room / lowest;
    (floor.iter().map(|w| w * scale).collect(), gap)
}

/// Rows that are looked at in a long table, evenly spread.
const MOST_ROWS: usize = 60;
/// Widths of one column that are tried.
const MOST_TRIED: usize = 24;
/// Broken lines are not filled to the end: so much more width do they take in all.
const RAGGED: f64 = 1.12;

fn lines_of(cell: f64, width: f64) -> usize {
    if cell <= width + 1e-6 {
        1
    } else {
        ((cell * RAGGED / width.max(1.0)).ceil() as usize).clamp(2, 100)
    }
}

/// What a broken cell weighs that makes its row no higher: it decides between rows of like height.
const HIDDEN: f64 = 1e-3;

/// Lines of all rows looked at, each as high as its highest cell, and a little for every cell.
fn lines(asks: &[Ask], widths: &[f64]) -> f64 {
    let rows = asks.iter().map(|ask| ask.cells.len()).max().unwrap_or(0);
    let step = rows.div_ceil(MOST_ROWS).max(1);
    (0..rows)
        .step_by(step)
        .map(|row| {
            let cell = |(ask, width): (&Ask, &f64)| {
                ask.cells.get(row).map_or(1, |cell| lines_of(*cell, *width))
            };
            let (mut highest, mut all) = (1, 0);
            for lines in asks.iter().zip(widths).map(cell) {
                highest = highest.max(lines);
                all += lines;
            }
            highest as f64 + HIDDEN * all as f64
        })
        .sum()
}

/// Widths at which a column has fewer lines than just below them, from wide to narrow.
fn steps(ask: &Ask, wish: f64, floor: f64) -> Vec<f64> {
    let mut tried: Vec<f64> = ask
        .cells
        .iter()
        .flat_map(|cell| [*cell, cell * RAGGED / 2.0, cell * RAGGED / 3.0])
        .filter(|width| *width < wish && *width > floor)
        // Widths that differ by less than can be seen are one.
        .map(|width| (width * 10.0).ceil() / 10.0)
        .collect();
    tried.push(floor);
    tried.sort_by(|a, b| b.total_cmp(a));
    tried.dedup();
    let every = tried.len().div_ceil(MOST_TRIED).max(1);
    let last = tried.len() - 1;
    tried.iter().enumerate().filter(|(i, _)| i % every == 0 || *i == last).map(|t| *t.1).collect()
}

/// From the widths wished for, the step that costs the fewest lines for what it saves is taken until
/// all fit; what is then left goes back to the columns that gave most.
fn squeezed(asks: &[Ask], wish: &[f64], floor: &[f64], room: f64) -> Vec<f64> {
    let tried: Vec<Vec<f64>> =
        asks.iter().zip(wish.iter().zip(floor)).map(|(a, (w, f))| steps(a, *w, *f)).collect();
    let mut widths = wish.to_vec();
    loop {
        let over = widths.iter().sum::<f64>() - room;
        if over <= 1e-9 {
            break;
        }
        let now = lines(asks, &widths);
        // Lines for a mm saved, how much is saved, the column and its width.
        let mut best: Option<(f64, f64, usize, f64)> = None;
        for (column, tried) in tried.iter().enumerate() {
            let old = widths[column];
            for width in tried.iter().filter(|w| **w < old - 1e-9) {
                widths[column] = *width;
                let saved = (old - width).min(over);
                let cost = (lines(asks, &widths) - now) / saved;
                widths[column] = old;
                let better = best.is_none_or(|b| {
                    cost < b.0 - 1e-9 || ((cost - b.0).abs() <= 1e-9 && saved > b.1 + 1e-9)
                });
                if better {
                    best = Some((cost, saved, column, *width));
                }
            }
        }
        let Some((_, _, column, width)) = best else { break };
        widths[column] = width;
    }
    let spare = room - widths.iter().sum::<f64>();
    let given: f64 = wish.iter().zip(&widths).map(|(w, own)| w - own).sum();
    if spare > 0.0 && given > 1e-9 {
        for (own, wish) in widths.iter_mut().zip(wish) {
            *own += (wish - *own) * (spare / given).min(1.0);
        }
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ask(natural: f64, least: f64, flexible: bool) -> Ask {
        Ask { natural, least, flexible, fixed: None, cells: vec![natural] }
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
