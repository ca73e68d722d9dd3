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
/// Gap where words would be broken otherwise: still twice the space between words.
const LAST_GAP: f64 = 2.2;
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
    for gap in [gap, gap.min(TIGHT_GAP), gap.min(LAST_GAP)] {
        let room = width - gaps * gap;
        if lowest > room || (gap < TIGHT_GAP && best.is_some()) {
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
/// all fit. Steps are then taken back where what is left, or what another column has to spare, does
/// better there; what is left over in the end goes to the columns that gave most.
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
    for _ in 0..MOST_TURNS {
        if !better(asks, (wish, &tried), room, &mut widths) {
            break;
        }
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

/// Times that widths are looked over.
const MOST_TURNS: usize = 8;

/// Widens one column, at the cost of one other where nothing is left, as saves the most lines;
/// false where nothing does.
fn better(
    asks: &[Ask],
    (wish, tried): (&[f64], &[Vec<f64>]),
    room: f64,
    widths: &mut [f64],
) -> bool {
    let now = lines(asks, widths);
    let spare = room - widths.iter().sum::<f64>();
    let mut best: Option<(f64, Vec<f64>)> = None;
    for column in 0..widths.len() {
        let old = widths[column];
        let wider = tried[column].iter().chain([&wish[column]]).filter(|w| **w > old + 1e-9);
        for width in wider {
            let missing = width - old - spare;
            let mut look = |other: Option<(usize, f64)>| {
                let mut changed = widths.to_vec();
                changed[column] = *width;
                if let Some((other, width)) = other {
                    changed[other] = width;
                }
                let lines = lines(asks, &changed);
                if lines < best.as_ref().map_or(now, |b| b.0) - HIDDEN / 2.0 {
                    best = Some((lines, changed));
                }
            };
            if missing <= 1e-9 {
                look(None);
                continue;
            }
            for other in (0..widths.len()).filter(|other| *other != column) {
                // The widest of its steps that gives enough.
                let most = widths[other] - missing + 1e-9;
                if let Some(narrower) = tried[other].iter().find(|w| **w <= most) {
                    look(Some((other, *narrower)));
                }
            }
        }
    }
    let found = best.is_some();
    if let Some((_, changed)) = best {
        widths.copy_from_slice(&changed);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_list_in_a_cell_stays_on_one_line_where_a_long_text_breaks_anyhow() {
        let words = Ask { cells: vec![20.0, 160.0], ..ask(160.0, 20.0, true) };
        let marks = Ask { cells: vec![12.0, 16.0], ..ask(16.0, 8.0, true) };
        let (widths, _) = share_out(&[words, marks], 100.0);
        assert!(widths[1] >= 16.0 - 1e-9, "{widths:?}");
    }

    /// One column saves the whole of what is missing at a step that is larger than that; what it gives
    /// too much goes to the list that was broken before.
    #[test]
    fn what_is_left_over_mends_a_broken_list() {
        let names = Ask { cells: vec![14.0, 40.0, 14.0, 14.0], ..ask(40.0, 14.0, true) };
        let mates = Ask { cells: vec![14.0, 16.0, 16.0, 16.0], ..ask(16.0, 8.0, true) };
        let number = Ask { cells: vec![30.0; 4], ..ask(30.0, 30.0, false) };
        let (widths, _) = share_out(&[names, mates, number], 30.0 + 38.0 + 8.0);
        assert!(widths[1] >= 16.0 - 1e-9, "{widths:?}");
    }

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
