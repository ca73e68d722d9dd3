//! Jobs far beyond a workshop's: a good plan with its bound, soon and without a crash.
use rungsheet::compute::cutting::{Piece, cut};

use super::support::{Random, fault, job, stock};

fn within(kinds: i64, count: usize, gap: f64) {
    let mut random = Random(kinds as u64);
    let lengths: Vec<i64> = (0..kinds).map(|_| random.within(5_000, 250_000)).collect();
    let pieces: Vec<Piece> = (0..count)
        .map(|n| Piece {
            id: format!("p{n}"),
            length: lengths[random.within(0, kinds - 1) as usize],
            extra: 0,
        })
        .collect();
    let mut job = job(
        300,
        pieces,
        vec![
            stock("new-4000", 400_000, 2_100, None),
            stock("new-6000", 600_000, 2_950, None),
            stock("left", 150_000, 0, Some(3)),
        ],
    );
    job.work_limit = 20_000_000;
    let plan = cut(&job).expect("a plan");
    assert_eq!(fault(&job, &plan), None);
    let cost = plan.price();
    assert!(
        (cost.value - cost.bound) as f64 <= gap * cost.bound as f64,
        "{kinds} kinds, {count} pieces: {} against {}",
        cost.value,
        cost.bound
    );
}

#[test]
fn ten_thousand_pieces_of_twelve_kinds() {
    within(12, 10_000, 0.01);
}

#[test]
fn ten_thousand_unlike_pieces() {
    within(9_000, 10_000, 0.03);
}

#[test]
fn three_hundred_pieces_of_many_kinds() {
    within(120, 300, 0.03);
}
