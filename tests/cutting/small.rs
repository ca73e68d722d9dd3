//! Small random jobs against trying everything: each way of sharing out the pieces among bars, each
//! choice of stock for the bars.
use std::collections::BTreeSet;

use rungsheet::compute::cutting::{CuttingError, Job, Piece, Stock, cut};

use super::support::{Random, fault, job};

/// Least cost, longest leftover (negated), fewest set-ups.
type Best = Option<(i64, i64, usize)>;

fn choose(job: &Job, bars: &[Vec<i64>], at: usize, kinds: &mut Vec<usize>, best: &mut Best) {
    let section = &job.sections[0];
    if at == bars.len() {
        let mut cost = 0;
        let mut longest = 0;
        let mut different = BTreeSet::new();
        for (b, k) in bars.iter().zip(kinds.iter()) {
            let s = &section.stock[*k];
            cost += s.price.unwrap_or(0);
            let usable = s.length - s.trim_start - s.trim_end;
            let taken: i64 = b.iter().map(|l| l + section.kerf).sum();
            longest = longest.max(usable - taken);
            let mut sorted = b.clone();
            sorted.sort_unstable();
            // Stock of equal length, trim and price is one kind.
            different.insert((
                s.length,
                s.trim_start,
                s.trim_end,
                s.price,
                s.limit.is_some(),
                sorted,
            ));
        }
        let this = (cost, -longest, different.len());
        if best.is_none_or(|b| this < b) {
            *best = Some(this);
        }
        return;
    }
    let need: i64 = bars[at].iter().sum::<i64>()
        + section.kerf * (i64::try_from(bars[at].len()).expect("few bars") - 1);
    for (k, s) in section.stock.iter().enumerate() {
        let used = kinds.iter().filter(|u| **u == k).count();
        let fits = need <= s.length - s.trim_start - s.trim_end;
        if fits && s.limit.is_none_or(|l| used < l as usize) {
            kinds.push(k);
            choose(job, bars, at + 1, kinds, best);
            kinds.pop();
        }
    }
}

fn share_out(job: &Job, at: usize, bars: &mut Vec<Vec<i64>>, best: &mut Best) {
    let pieces = &job.sections[0].pieces;
    if at == pieces.len() {
        choose(job, bars, 0, &mut Vec::new(), best);
        return;
    }
    for b in 0..bars.len() {
        bars[b].push(pieces[at].length);
        share_out(job, at + 1, bars, best);
        bars[b].pop();
    }
    bars.push(vec![pieces[at].length]);
    share_out(job, at + 1, bars, best);
    bars.pop();
}

#[test]
fn agrees_with_trying_everything() {
    let mut random = Random(1);
    let (mut solved, mut short) = (0, 0);
    for round in 0..300 {
        let kerf = random.within(0, 3);
        let top = random.within(30, 60);
        let mut stock = Vec::new();
        for k in 0..random.within(1, 3) {
            let limit =
                (random.within(0, 2) == 0 || round % 6 == 5).then(|| random.within(1, 2) as u32);
            stock.push(Stock {
                id: format!("s{k}"),
                length: random.within(top / 2, top),
                trim_start: random.within(0, 2),
                trim_end: random.within(0, 2),
                price: Some(random.within(i64::from(limit.is_none()), 9)),
                limit,
            });
        }
        let longest = stock.iter().map(|s| s.length - s.trim_start - s.trim_end).max();
        let longest = longest.expect("some stock");
        let lengths: Vec<i64> = (0..4).map(|_| random.within(4, longest)).collect();
        let pieces: Vec<Piece> = (0..random.within(2, 7))
            .map(|n| Piece {
                id: format!("p{n}"),
                length: lengths[random.within(0, 3) as usize],
                extra: 0,
            })
            .collect();
        let job = job(kerf, pieces, stock);
        let mut best = None;
        share_out(&job, 0, &mut Vec::new(), &mut best);
        match (cut(&job), best) {
            (Ok(plan), Some((cost, leftover, set_ups))) => {
                assert_eq!(fault(&job, &plan), None, "round {round}");
                let s = &plan.sections[0];
                assert!(s.cost.proven() && s.leftover.proven() && s.set_ups.proven());
                let got = (s.cost.value, -s.leftover.value, s.set_ups.value as usize);
                assert_eq!(got, (cost, leftover, set_ups), "round {round}: {job:?}");
                solved += 1;
            }
            (Err(CuttingError::NotEnoughStock { proven: true, .. }), None) => short += 1,
            (got, best) => panic!("round {round}: {got:?} where {best:?} is right for {job:?}"),
        }
    }
    assert!(solved >= 200 && short >= 5, "{solved} solved, {short} short of stock");
}
