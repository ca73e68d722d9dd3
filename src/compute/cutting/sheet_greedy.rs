//! A good layout of many pieces: each to the free panel that it fits best, which is then parted.
use super::problem::Problem;
use super::sheet_job::Panel;
use super::sheet_shapes::Sides;

/// One sheet's layout, sides with the kerf added, from the corner of what is usable.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Layout {
    pub(super) kind: usize,
    /// Kind of piece, where, turned.
    pub(super) placed: Vec<(usize, Panel, bool)>,
    /// Along the height, at, of which panel.
    pub(super) cuts: Vec<(bool, i64, Panel)>,
    pub(super) free: Vec<Panel>,
}

/// How badly a piece fits, which layout, which free panel, and the piece's sides as it lies.
type Spot = ((i64, i64), usize, usize, (i64, i64, bool));

/// Places pieces largest first; new sheets are of the kinds in `order`, the first that there is and
/// that holds the piece. `lengthwise` decides which cut goes first. `None` if a piece finds no sheet.
fn place(
    problem: &Problem,
    sheets: &[(i64, i64)],
    kinds: &[Sides],
    sequence: &[usize],
    order: &[usize],
    lengthwise: bool,
) -> Option<Vec<Layout>> {
    let mut left: Vec<i64> = problem.kinds.iter().map(|k| k.limit.unwrap_or(i64::MAX)).collect();
    let mut out: Vec<Layout> = Vec::new();
    for kind in sequence {
        let s = kinds[*kind];
        let ways = [(s.width, s.height, false), (s.height, s.width, true)];
        let ways = &ways[..if s.turn { 2 } else { 1 }];
        for _ in 0..problem.demand[*kind] {
            let best = |out: &[Layout]| {
                let mut best: Option<Spot> = None;
                for (l, layout) in out.iter().enumerate() {
                    for (f, p) in layout.free.iter().enumerate() {
                        for way in ways.iter().filter(|w| w.0 <= p.width && w.1 <= p.height) {
                            let (dx, dy) = (p.width - way.0, p.height - way.1);
                            let score = (dx.min(dy), dx.max(dy));
                            if best.as_ref().is_none_or(|b| score < b.0) {
                                best = Some((score, l, f, *way));
                            }
                        }
                    }
                }
                best
            };
            let mut spot = best(&out);
            if spot.is_none() {
                let new = order.iter().copied().find(|k| {
                    let (w, h) = sheets[*k];
                    left[*k] > 0 && ways.iter().any(|way| way.0 <= w && way.1 <= h)
                })?;
                left[new] -= 1;
                let whole = Panel { x: 0, y: 0, width: sheets[new].0, height: sheets[new].1 };
                out.push(Layout { kind: new, placed: vec![], cuts: vec![], free: vec![whole] });
                spot = best(&out);
            }
            let (_, l, f, (w, h, turned)) = spot?;
            let layout = &mut out[l];
            let panel = layout.free.remove(f);
            layout.placed.push((*kind, Panel { width: w, height: h, ..panel }, turned));
            part(layout, panel, w, h, lengthwise);
        }
    }
    Some(out)
}

/// Cuts a corner of w x h out of a panel: first along the height if `height_first`, so that the
/// strip beside it keeps the whole height.
pub(super) fn part(layout: &mut Layout, panel: Panel, w: i64, h: i64, height_first: bool) {
    let beside = panel.width > w;
    let above = panel.height > h;
    let kept =
        if height_first { Panel { width: w, ..panel } } else { Panel { height: h, ..panel } };
    let right = Panel {
        x: panel.x + w,
        width: panel.width - w,
        height: if height_first { panel.height } else { h },
        ..panel
    };
    let top = Panel {
        y: panel.y + h,
        height: panel.height - h,
        width: if height_first { w } else { panel.width },
        ..panel
    };
    let cuts = [
        beside.then_some((true, panel.x + w, if height_first { panel } else { kept })),
        above.then_some((false, panel.y + h, if height_first { kept } else { panel })),
    ];
    if height_first {
        layout.cuts.extend(cuts.into_iter().flatten());
    } else {
        layout.cuts.extend(cuts.into_iter().rev().flatten());
    }
    layout.free.extend(beside.then_some(right));
    layout.free.extend(above.then_some(top));
}

/// The cheapest of several placings. `None` if stock on hand does not suffice.
pub(super) fn best(
    problem: &Problem,
    sheets: &[(i64, i64)],
    kinds: &[Sides],
) -> Option<Vec<Layout>> {
    let keys: [&dyn Fn(&Sides) -> i64; 3] =
        [&|s| -(s.width * s.height), &|s| -s.width.max(s.height), &|s| -s.width.min(s.height)];
    let sheets_in_order = (0..sheets.len()).filter(|k| problem.kinds[*k].limit.is_none());
    let mut plans = Vec::new();
    for first in sheets_in_order {
        // Leftovers that are good value, smallest first; the sheet in turn; then all others.
        let base = &problem.kinds[first];
        let mut order: Vec<usize> = (0..sheets.len())
            .filter(|k| {
                let kind = &problem.kinds[*k];
                kind.limit.is_some()
                    && i128::from(kind.cost) * i128::from(base.cap)
                        <= i128::from(base.cost) * i128::from(kind.cap)
            })
            .collect();
        order.sort_by_key(|k| (problem.kinds[*k].cap, *k));
        order.push(first);
        let mut others: Vec<usize> = (0..sheets.len()).filter(|k| !order.contains(k)).collect();
        others.sort_by_key(|k| (problem.kinds[*k].cost, *k));
        order.extend(others);
        for key in keys {
            let mut sequence: Vec<usize> = (0..kinds.len()).collect();
            sequence.sort_by_key(|k| (key(&kinds[*k]), *k));
            for lengthwise in [true, false] {
                plans.extend(place(problem, sheets, kinds, &sequence, &order, lengthwise));
            }
        }
    }
    let cost = |p: &Vec<Layout>| -> i64 { p.iter().map(|l| problem.kinds[l.kind].cost).sum() };
    plans.into_iter().min_by(|a, b| cost(a).cmp(&cost(b)).then_with(|| a.cmp(b)))
}
