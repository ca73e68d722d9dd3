//! Sheets: every small job against trying every cut, and every plan against its own saw cuts.
use std::collections::BTreeMap;

use proptest::prelude::*;
use rungsheet::compute::cutting::{
    CuttingError, Job, Measure, Panel, SheetJob, SheetPiece, SheetPlan, SheetSection, SheetStock,
    cut_sheets,
};

use super::support::Random;

fn piece(id: &str, width: i64, height: i64, turn: bool) -> SheetPiece {
    SheetPiece { id: id.into(), width, height, turn }
}

fn sheet(id: &str, width: i64, height: i64, price: i64, limit: Option<u32>) -> SheetStock {
    SheetStock { id: id.into(), width, height, trim: 0, price: Some(price), limit }
}

fn job(kerf: i64, pieces: Vec<SheetPiece>, stock: Vec<SheetStock>) -> SheetJob {
    let section = SheetSection { name: "plate".into(), kerf, pieces, stock };
    SheetJob { sections: vec![section], work_limit: Job::WORK_LIMIT }
}

/// What is wrong with a plan: saws the sheets as told and looks at what comes off.
pub(super) fn fault(job: &SheetJob, plan: &SheetPlan) -> Option<String> {
    for section in &job.sections {
        let p = plan.sections.iter().find(|p| p.section == section.name)?;
        let mut asked: Vec<(String, i64, i64)> = Vec::new();
        let mut cut: Vec<(String, i64, i64)> = Vec::new();
        for piece in &section.pieces {
            asked.push((piece.id.clone(), piece.width, piece.height));
        }
        let mut cost = 0;
        for sheet in &p.sheets {
            let s = section.stock.iter().find(|s| s.id == sheet.stock)?;
            cost += s.price.unwrap_or(0);
            let (w, h) = (s.width - 2 * s.trim, s.height - 2 * s.trim);
            let mut panels = vec![Panel { x: s.trim, y: s.trim, width: w, height: h }];
            for c in &sheet.cuts {
                let Some(at) = panels.iter().position(|p| *p == c.of) else {
                    return Some(format!("no panel {:?} to saw", c.of));
                };
                let p = panels.remove(at);
                let (kept, start, size) = if c.along_height {
                    (c.at - p.x, p.x, p.width)
                } else {
                    (c.at - p.y, p.y, p.height)
                };
                if kept <= 0 || kept >= size {
                    return Some(format!("cut at {} is not within {p:?}", c.at));
                }
                let rest = size - kept - section.kerf;
                let (first, second) = if c.along_height {
                    (
                        Panel { width: kept, ..p },
                        Panel { x: start + kept + section.kerf, width: rest, ..p },
                    )
                } else {
                    (
                        Panel { height: kept, ..p },
                        Panel { y: start + kept + section.kerf, height: rest, ..p },
                    )
                };
                panels.push(first);
                if rest > 0 {
                    panels.push(second);
                }
            }
            let mut told: Vec<Panel> = sheet.leftovers.clone();
            if sheet.placed.is_empty() {
                return Some("a sheet without pieces".into());
            }
            for placed in &sheet.placed {
                told.push(placed.panel);
                let (w, h) = (placed.panel.width, placed.panel.height);
                cut.push(if placed.turned {
                    (placed.piece.clone(), h, w)
                } else {
                    (placed.piece.clone(), w, h)
                });
                let may = section.pieces.iter().any(|p| p.id == placed.piece && p.turn);
                if placed.turned && !may {
                    return Some(format!("{} may not be turned", placed.piece));
                }
            }
            told.sort();
            panels.sort();
            if told != panels {
                return Some(format!("sawing gives {panels:?}, told is {told:?}"));
            }
            if s.limit
                .is_some_and(|l| p.sheets.iter().filter(|x| x.stock == s.id).count() > l as usize)
            {
                return Some(format!("{} is used too often", s.id));
            }
        }
        asked.sort();
        cut.sort();
        if asked != cut {
            return Some("pieces differ".into());
        }
        if p.measure == Measure::Price && cost != p.cost.value || p.cost.bound > p.cost.value {
            return Some(format!("cost {} told, {cost} paid", p.cost.value));
        }
    }
    None
}

/// Tries every cut at every place.
struct Everything<'a> {
    section: &'a SheetSection,
    known: BTreeMap<(u32, i64, i64), bool>,
}

impl Everything<'_> {
    fn fits(&mut self, set: u32, w: i64, h: i64) -> bool {
        if w <= 0 || h <= 0 {
            return false;
        }
        if set.is_power_of_two() {
            let p = &self.section.pieces[set.trailing_zeros() as usize];
            return p.width <= w && p.height <= h || p.turn && p.height <= w && p.width <= h;
        }
        if let Some(k) = self.known.get(&(set, w, h)) {
            return *k;
        }
        let area: i64 = (0..self.section.pieces.len())
            .filter(|i| set >> i & 1 == 1)
            .map(|i| self.section.pieces[i].width * self.section.pieces[i].height)
            .sum();
        let mut found = false;
        if area <= w * h {
            let kerf = self.section.kerf;
            let mut part = (set - 1) & set;
            while part > 0 && !found {
                for at in 1..w.max(h) {
                    found = at < w
                        && self.fits(part, at, h)
                        && self.fits(set & !part, w - at - kerf, h)
                        || at < h
                            && self.fits(part, w, at)
                            && self.fits(set & !part, w, h - at - kerf);
                    if found {
                        break;
                    }
                }
                part = (part - 1) & set;
            }
        }
        self.known.insert((set, w, h), found);
        found
    }

    fn strip(&mut self, set: u32, k: usize) -> Option<i64> {
        let s = &self.section.stock[k];
        let (w, h) = (s.width - 2 * s.trim, s.height - 2 * s.trim);
        if !self.fits(set, w, h) {
            return None;
        }
        let kerf = self.section.kerf;
        let mut best = 0;
        for at in 1..w {
            if self.fits(set, at, h) {
                best = best.max((w - at - kerf).max(0) * h);
            }
        }
        for at in 1..h {
            if self.fits(set, w, at) {
                best = best.max((h - at - kerf).max(0) * w);
            }
        }
        Some(best)
    }

    /// Least cost and largest strip (negated) for what remains.
    fn share(&mut self, rest: u32, used: &mut Vec<u32>) -> Option<(i64, i64)> {
        if rest == 0 {
            return Some((0, 0));
        }
        let first = rest & rest.wrapping_neg();
        let mut best: Option<(i64, i64)> = None;
        let mut part = rest;
        while part > 0 {
            if part & first != 0 {
                for k in 0..self.section.stock.len() {
                    if self.section.stock[k].limit.is_some_and(|l| used[k] >= l) {
                        continue;
                    }
                    let Some(strip) = self.strip(part, k) else { continue };
                    used[k] += 1;
                    if let Some((cost, other)) = self.share(rest & !part, used) {
                        let price = self.section.stock[k].price.unwrap_or(0);
                        let this = (cost + price, other.min(-strip));
                        best = Some(best.map_or(this, |b| b.min(this)));
                    }
                    used[k] -= 1;
                }
            }
            part = (part - 1) & rest;
        }
        best
    }
}

#[test]
fn agrees_with_trying_every_cut() {
    let mut random = Random(7);
    let (mut solved, mut short) = (0, 0);
    for round in 0..220 {
        let kerf = random.within(0, 1);
        let mut stock = Vec::new();
        for k in 0..random.within(1, 2) {
            let limited = random.within(0, 3) == 0;
            let mut s = sheet(
                &format!("s{k}"),
                random.within(6, 13),
                random.within(6, 13),
                random.within(i64::from(!limited), 6),
                limited.then(|| random.within(1, 2) as u32),
            );
            s.trim = random.within(0, 1);
            stock.push(s);
        }
        let (w, h) = (stock[0].width - 2 * stock[0].trim, stock[0].height - 2 * stock[0].trim);
        let pieces: Vec<SheetPiece> = (0..random.within(2, 6))
            .map(|n| {
                let (pw, ph) = (random.within(2, w * 3 / 4), random.within(2, h * 3 / 4));
                piece(&format!("p{n}"), pw, ph, random.within(0, 1) == 1)
            })
            .collect();
        let job = job(kerf, pieces, stock);
        let section = &job.sections[0];
        let all = (1_u32 << section.pieces.len()) - 1;
        let mut everything = Everything { section, known: BTreeMap::new() };
        let best = everything.share(all, &mut vec![0; section.stock.len()]);
        match (cut_sheets(&job), best) {
            (Ok(plan), Some((cost, strip))) => {
                assert_eq!(fault(&job, &plan), None, "round {round}");
                let s = &plan.sections[0];
                assert!(s.cost.proven() && s.leftover.proven(), "round {round}: {s:?}");
                let got = (s.cost.value, -s.leftover.value);
                assert_eq!(got, (cost, strip), "round {round}: {job:?}");
                solved += 1;
            }
            (Err(CuttingError::NotEnoughStock { proven: true, .. }), None) => short += 1,
            (got, best) => panic!("round {round}: {got:?} where {best:?} is right for {job:?}"),
        }
    }
    assert!(solved >= 200 && short >= 3, "{solved} solved, {short} short of stock");
}

#[test]
fn twelve_pieces_are_cut_with_proof() {
    let mut random = Random(11);
    let mut pieces: Vec<SheetPiece> = (0..10)
        .map(|n| {
            let (w, h) = (random.within(20_000, 70_000), random.within(10_000, 50_000));
            piece(&format!("p{n}"), w, h, n % 3 > 0)
        })
        .collect();
    // Two of them twice.
    pieces.extend_from_within(..2);
    let job = job(
        300,
        pieces,
        vec![
            sheet("small", 100_000, 100_000, 2_400, None),
            sheet("large", 200_000, 100_000, 4_300, None),
            sheet("left", 80_000, 60_000, 0, Some(1)),
        ],
    );
    let plan = cut_sheets(&job).expect("pieces fit");
    assert_eq!(fault(&job, &plan), None);
    assert!(plan.proven(), "{:?}", plan.sections[0].cost);
}

#[test]
fn hundreds_of_pieces_give_a_plan_and_its_bound() {
    let mut random = Random(13);
    let pieces: Vec<SheetPiece> = (0..250)
        .map(|n| {
            let (w, h) = (random.within(3_000, 60_000), random.within(3_000, 40_000));
            piece(&format!("p{n}"), w, h, true)
        })
        .collect();
    let mut job = job(300, pieces, vec![sheet("full", 250_000, 125_000, 5_000, None)]);
    job.work_limit = 10_000_000;
    let plan = cut_sheets(&job).expect("pieces fit");
    assert_eq!(fault(&job, &plan), None);
    let cost = &plan.sections[0].cost;
    assert!(cost.value as f64 <= 1.25 * cost.bound as f64, "{cost:?}");
}

#[test]
fn the_last_cut_may_fall_off_the_edge() {
    let two = |w| {
        let pieces = vec![piece("a", w, 100, false), piece("b", w, 100, false)];
        let plan = cut_sheets(&job(3, pieces, vec![sheet("s", 100, 100, 7, None)]));
        plan.expect("pieces fit").sections[0].cost.value
    };
    assert_eq!((two(48), two(49)), (7, 14));
}

#[test]
fn grain_keeps_a_piece_from_turning() {
    let one = |turn| {
        cut_sheets(&job(
            0,
            vec![piece("a", 50, 90, turn)],
            vec![sheet("flat", 100, 60, 7, None), sheet("square", 100, 100, 9, None)],
        ))
    };
    assert_eq!(one(true).expect("it fits").sections[0].cost.value, 7);
    assert_eq!(one(false).expect("it fits").sections[0].cost.value, 9);
    let tall = job(0, vec![piece("a", 50, 90, false)], vec![sheet("flat", 100, 60, 7, None)]);
    assert!(matches!(cut_sheets(&tall), Err(CuttingError::PieceTooLong { .. })));
}

#[test]
fn impossible_numbers_are_refused() {
    let bar = || sheet("s", 100, 100, 7, None);
    let bad = |kerf, p: Vec<SheetPiece>, s| cut_sheets(&job(kerf, p, s)).expect_err("refused");
    let zero = vec![piece("a", 0, 5, true)];
    assert!(matches!(bad(0, zero, vec![bar()]), CuttingError::NotPositive { .. }));
    assert!(matches!(bad(-1, vec![], vec![bar()]), CuttingError::Negative { .. }));
    let huge = vec![piece("a", i64::MAX, 5, true)];
    assert!(matches!(bad(0, huge, vec![bar()]), CuttingError::TooLarge { .. }));
    assert!(matches!(bad(0, vec![], vec![bar(), bar()]), CuttingError::DuplicateStock { .. }));
    let one = vec![piece("a", 5, 5, true)];
    assert!(matches!(bad(0, one, vec![]), CuttingError::NoStock { .. }));
    let mut edge = bar();
    edge.trim = 50;
    assert!(matches!(bad(0, vec![], vec![edge]), CuttingError::TrimTakesAll { .. }));
    let mut short = bar();
    short.trim = i64::MAX;
    assert!(matches!(bad(0, vec![], vec![short]), CuttingError::TooLarge { .. }));
}

#[test]
fn without_a_price_the_area_bought_is_least() {
    let mut large = sheet("large", 10_000, 10_000, 0, None);
    large.price = None;
    let pieces = vec![piece("a", 5_000, 5_000, true)];
    let plan = cut_sheets(&job(0, pieces, vec![large, sheet("small", 6_000, 6_000, 99, None)]))
        .expect("it fits");
    let s = &plan.sections[0];
    assert_eq!(
        (s.measure, s.cost.value, s.sheets[0].stock.as_str()),
        (Measure::BoughtLength, 3_600, "small")
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Sawing gives the pieces; and the order in which things are written down changes nothing.
    #[test]
    fn plans_are_sound_in_any_order(
        sizes in prop::collection::vec((500_i64..90_000, 500_i64..50_000, any::<bool>()), 0..9),
        kerf in 0_i64..400, left in prop::option::of((20_000_i64..90_000, 20_000_i64..90_000)),
        turn in 0_usize..9,
    ) {
        let pieces: Vec<SheetPiece> = sizes
            .iter()
            .enumerate()
            .map(|(n, (w, h, t))| piece(&format!("p{n}"), *w, *h, *t))
            .collect();
        let mut stock = vec![sheet("new", 100_000, 60_000, 990, None)];
        stock.extend(left.map(|(w, h)| sheet("left", w, h, 0, Some(1))));
        let mut job = job(kerf, pieces, stock);
        job.work_limit = 20_000_000;
        let plan = cut_sheets(&job).expect("the stock is ample");
        prop_assert_eq!(fault(&job, &plan), None);
        let mut other = job.clone();
        let n = other.sections[0].pieces.len().max(1);
        other.sections[0].pieces.rotate_left(turn % n);
        other.sections[0].stock.reverse();
        prop_assert_eq!(plan, cut_sheets(&other).expect("the same job"));
    }
}
