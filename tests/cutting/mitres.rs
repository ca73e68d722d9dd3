//! Mitred pieces: every plan against its own edges, small jobs against trying every order and turn.
use std::collections::BTreeMap;

use rungsheet::compute::cutting::{End, Job, Mitre, SectionPlan, cut_mitred};

use super::support::{Random, job, piece, stock};

type Ends = BTreeMap<String, Mitre>;

/// Near and far edge of a piece from its outermost left point: left ends, right ends.
fn edges(length: i64, mitre: &Mitre, over: bool) -> ([i64; 2], [i64; 2]) {
    let sign = if over { -1 } else { 1 };
    let short = |slant: i64| {
        let slant = slant * sign;
        [slant.max(0), (-slant).max(0)]
    };
    let (zero, far) = (short(mitre.zero.slant), short(mitre.far.slant));
    (zero, [length - far[0], length - far[1]])
}

/// Each piece begins behind the cut that frees the one before, on both edges, and the last ends on
/// the bar.
fn fault(job: &Job, ends: &Ends, plan: &SectionPlan) -> Option<String> {
    let section = &job.sections[0];
    let square = End { slant: 0, saw: section.kerf };
    let of = |id: &str| ends.get(id).copied().unwrap_or(Mitre { zero: square, far: square });
    let mut cut = Vec::new();
    for bar in &plan.bars {
        let mut before: Option<([i64; 2], i64)> = None;
        let mut pieces = 0;
        for c in &bar.cuts {
            let own = of(&c.piece);
            let (left, right) = edges(c.to - c.from, &own, c.turned);
            if let Some((edge, saw)) = before {
                for (e, l) in edge.iter().zip(left) {
                    if c.from + l < e + saw {
                        return Some(format!("{} bites into the piece before", c.piece));
                    }
                }
            } else if c.from < bar.trim_start {
                return Some(format!("{} begins in the trim", c.piece));
            }
            before = Some((right.map(|r| c.from + r), own.far.saw));
            pieces += c.to - c.from;
            cut.push((c.piece.clone(), c.to - c.from));
            if c.to > bar.length - bar.trim_end {
                return Some(format!("{} ends beyond its bar", c.piece));
            }
        }
        let sum = bar.trim_start + pieces - bar.nested + bar.saw + bar.leftover + bar.trim_end;
        if sum != bar.length {
            return Some(format!("a bar of {} adds up to {sum}", bar.length));
        }
    }
    cut.sort();
    let mut asked: Vec<(String, i64)> =
        section.pieces.iter().map(|p| (p.id.clone(), p.length)).collect();
    asked.sort();
    (cut != asked).then(|| "pieces differ".into())
}

/// Least length of bar that some pieces take, over every order and, where they may be turned over or
/// end for end, every turn.
fn least(pieces: &[(i64, Mitre)], turns: bool) -> i64 {
    fn go(left: &mut Vec<(i64, Mitre)>, before: Option<([i64; 2], i64)>, turns: bool) -> i64 {
        if left.is_empty() {
            return before.map_or(0, |(edge, _)| edge[0].max(edge[1]));
        }
        let mut best = i64::MAX;
        for at in 0..left.len() {
            let (length, mitre) = left.remove(at);
            let back = Mitre {
                zero: End { slant: -mitre.far.slant, ..mitre.far },
                far: End { slant: -mitre.zero.slant, ..mitre.zero },
            };
            let ways: &[(Mitre, bool)] = if turns {
                &[(mitre, false), (mitre, true), (back, false), (back, true)]
            } else {
                &[(mitre, false)]
            };
            for (own, over) in ways {
                let (zero, far) = edges(length, own, *over);
                let from = before.map_or(0, |(edge, saw)| {
                    (0..2).map(|e| edge[e] + saw - zero[e]).max().expect("two edges")
                });
                let next = (far.map(|f| from + f), own.far.saw);
                best = best.min(go(left, Some(next), turns));
            }
            left.insert(at, (length, mitre));
        }
        best
    }
    go(&mut pieces.to_vec(), None, turns)
}

/// Least price over every way to share pieces out to bars of two lengths.
fn cheapest(pieces: &[(i64, Mitre)], stock: &[(i64, i64)], turns: bool) -> Option<i64> {
    let all = (1_usize << pieces.len()) - 1;
    let price: Vec<Option<i64>> = (0..=all)
        .map(|set| {
            let own: Vec<_> =
                (0..pieces.len()).filter(|i| set >> i & 1 == 1).map(|i| pieces[i]).collect();
            let need = least(&own, turns);
            stock.iter().filter(|s| need <= s.0).map(|s| s.1).min()
        })
        .collect();
    let mut best: Vec<Option<i64>> = vec![None; all + 1];
    best[0] = Some(0);
    for set in 1..=all {
        let mut part = set;
        while part > 0 {
            if let (Some(a), Some(b)) = (price[part], best[set ^ part]) {
                best[set] = Some(best[set].map_or(a + b, |c| c.min(a + b)));
            }
            part = (part - 1) & set;
        }
    }
    best[all]
}

fn end(slant: i64, saw: i64) -> End {
    End { slant, saw }
}

/// Angles as slant and saw cut of a 25 mm side and a kerf of 2 mm: square, 45°, 30°.
const ANGLES: [(i64, i64); 3] = [(0, 200), (2500, 283), (1443, 231)];

fn random(r: &mut Random, alike: bool) -> (Job, Ends) {
    let mut ends = Ends::new();
    let mut pieces = Vec::new();
    for n in 0..r.within(2, 4) {
        let id = format!("p{n}");
        let angle = |r: &mut Random| {
            let (slant, saw) = ANGLES[usize::try_from(r.within(0, 2)).expect("an angle")];
            end(if r.within(0, 1) == 0 { slant } else { -slant }, saw)
        };
        let (zero, far) = if alike {
            let sign = [1, -1][usize::try_from(r.within(0, 1)).expect("a sign")];
            (end(2500, 283), end(2500 * sign, 283))
        } else {
            (angle(r), angle(r))
        };
        pieces.push(piece(&id, r.within(6_000, 60_000)));
        ends.insert(id, Mitre { zero, far });
    }
    let stock = vec![stock("short", 70_000, 500, None), stock("long", 110_000, 730, None)];
    (job(200, pieces, stock), ends)
}

fn held_against_every_way(alike: bool, turns: bool) -> (u32, u32) {
    let (mut proven, mut all) = (0, 0);
    for seed in 0..60 {
        let mut r = Random(seed);
        let (job, ends) = random(&mut r, alike);
        let section = &job.sections[0];
        let plan = cut_mitred(section, &ends, turns, Job::WORK_LIMIT).expect("stock is ample");
        assert_eq!(fault(&job, &ends, &plan), None, "seed {seed}");
        let pieces: Vec<(i64, Mitre)> =
            section.pieces.iter().map(|p| (p.length, ends[&p.id])).collect();
        let stock: Vec<(i64, i64)> =
            section.stock.iter().map(|s| (s.length, s.price.unwrap_or(0))).collect();
        let best = cheapest(&pieces, &stock, turns).expect("every piece fits");
        assert!(plan.cost.value >= best, "seed {seed}: {} under {best}", plan.cost.value);
        assert!(plan.cost.bound <= best, "seed {seed}: bound {} over {best}", plan.cost.bound);
        proven += u32::from(plan.cost.proven());
        all += 1;
    }
    (proven, all)
}

#[test]
fn pieces_of_one_angle_are_nested_at_their_least_cost() {
    let (proven, all) = held_against_every_way(true, true);
    assert_eq!(proven, all);
}

#[test]
fn pieces_of_many_angles_keep_their_bound() {
    let (proven, all) = held_against_every_way(false, true);
    assert!(proven * 10 >= all * 7, "{proven} of {all} proven");
}

#[test]
fn bars_that_may_not_be_turned_over_keep_their_bound() {
    held_against_every_way(true, false);
    held_against_every_way(false, false);
}

/// Four sides of a picture frame: nested they fit a bar that they would not fit one by one.
#[test]
fn a_frame_is_nested_on_one_bar() {
    // Three shared cuts save 25 mm each and cost 2.83 mm along the bar.
    let nested = 2 * 60_000 + 2 * 40_000 - 3 * 2_500 + 3 * 283;
    let pieces =
        vec![piece("a", 60_000), piece("b", 60_000), piece("c", 40_000), piece("d", 40_000)];
    let mitre = Mitre { zero: end(2500, 283), far: end(2500, 283) };
    let ends: Ends = ["a", "b", "c", "d"].map(|id| (id.to_owned(), mitre)).into();
    for (length, bars) in [(nested, 1), (nested - 1, 2)] {
        let job = job(200, pieces.clone(), vec![stock("bar", length, 100, None)]);
        let plan = cut_mitred(&job.sections[0], &ends, true, Job::WORK_LIMIT).expect("it fits");
        assert_eq!((plan.bars.len(), plan.cost.proven()), (bars, true));
        assert_eq!(fault(&job, &ends, &plan), None);
    }
    // An angle can't be turned over: nothing is saved.
    let job = job(200, pieces, vec![stock("bar", nested, 100, None)]);
    let plan = cut_mitred(&job.sections[0], &ends, false, Job::WORK_LIMIT).expect("it fits");
    assert_eq!((plan.bars.len(), plan.cost.proven()), (2, true));
}

/// A rafter's far end at 45° against a brace's zero end at 30°: beside each other they fit a bar that
/// is 25 tan 30° − (kerf / cos 45° − kerf) = 14.43 − 0.83 mm too short for them one by one.
#[test]
fn unlike_ends_lie_beside_each_other() {
    let nested = 60_000 + 40_000 + 283 - 1_443;
    let ends: Ends = [
        ("a".to_owned(), Mitre { zero: end(0, 200), far: end(2_500, 283) }),
        ("b".to_owned(), Mitre { zero: end(1_443, 231), far: end(0, 200) }),
    ]
    .into();
    for (length, bars) in [(nested, 1), (nested - 1, 2)] {
        let pieces = vec![piece("a", 60_000), piece("b", 40_000)];
        let job = job(200, pieces, vec![stock("bar", length, 100, None)]);
        let plan = cut_mitred(&job.sections[0], &ends, true, Job::WORK_LIMIT).expect("it fits");
        assert_eq!(fault(&job, &ends, &plan), None);
        assert_eq!(plan.bars.len(), bars, "{length}");
    }
}

/// Each piece turned end for end: the same pieces lie on the same bars. Their marks differ by the cut
/// that frees the last piece, as the first one begins behind the trim's.
#[test]
fn the_ends_the_other_way_round_give_bars_of_a_mirror() {
    for seed in 0..40 {
        let mut r = Random(seed);
        let (job, ends) = random(&mut r, false);
        let mirrored: Ends =
            ends.iter().map(|(id, m)| (id.clone(), Mitre { zero: m.far, far: m.zero })).collect();
        let plan = |ends: &Ends| {
            let plan = cut_mitred(&job.sections[0], ends, true, Job::WORK_LIMIT).expect("fits");
            let mut bars: Vec<_> = plan
                .bars
                .iter()
                .map(|bar| {
                    let mut pieces: Vec<String> =
                        bar.cuts.iter().map(|cut| cut.piece.clone()).collect();
                    pieces.sort();
                    (bar.stock.clone(), pieces)
                })
                .collect();
            bars.sort();
            (bars, plan.cost.value, plan.cost.bound)
        };
        assert_eq!(plan(&ends), plan(&mirrored), "seed {seed}");
    }
}
