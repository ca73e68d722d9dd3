//! Laws that hold for any job.
use proptest::prelude::*;
use rungsheet::compute::cutting::{Job, Piece, Section, Stock, cut};

use super::support::{fault, job, stock};

fn section(name: &'static str) -> impl Strategy<Value = Section> {
    let pieces = prop::collection::vec((1_i64..90_000, 0_i64..300, 0_usize..3), 0..14);
    let stock = prop::collection::vec(
        (60_000_i64..300_000, 0_i64..900, 0_i64..900, 0_i64..2_000, prop::option::of(1_u32..3)),
        0..3,
    );
    (0_i64..400, pieces, stock, 0_i64..50_000).prop_map(move |(kerf, pieces, stock, least)| {
        let mut out = vec![Stock {
            id: "new".into(),
            length: 100_000,
            trim_start: 100,
            trim_end: 0,
            price: Some(990),
            limit: None,
        }];
        for (n, (length, trim_start, trim_end, price, limit)) in stock.into_iter().enumerate() {
            let id = format!("s{n}");
            out.push(Stock { id, length, trim_start, trim_end, price: Some(price), limit });
        }
        let mut all = Vec::new();
        for (length, extra, again) in pieces {
            for _ in 0..=again {
                all.push(Piece { id: format!("p{}", all.len()), length, extra });
            }
        }
        Section { name: name.into(), kerf, least_useful: least, pieces: all, stock: out }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every piece is cut once, marks rise, and what a bar is cut into adds up to the bar.
    #[test]
    fn plans_are_sound(a in section("angle"), b in section("box")) {
        let job = Job { sections: vec![a, b], work_limit: 3_000_000 };
        let plan = cut(&job).expect("the stock is ample");
        prop_assert_eq!(fault(&job, &plan), None);
        for (s, asked) in plan.sections.iter().zip(&job.sections) {
            for bar in &s.bars {
                prop_assert_eq!(bar.useful, bar.leftover > 0 && bar.leftover >= asked.least_useful);
            }
        }
    }

    /// The order in which pieces, stock and sections are written down changes nothing.
    #[test]
    fn order_of_input_changes_nothing(
        a in section("angle"), b in section("box"), turn in 0_usize..40, back in any::<bool>(),
    ) {
        let job = Job { sections: vec![a, b], work_limit: 3_000_000 };
        let mut other = job.clone();
        other.sections.reverse();
        for s in &mut other.sections {
            let n = s.pieces.len().max(1);
            s.pieces.rotate_left(turn % n);
            let n = s.stock.len();
            s.stock.rotate_left(turn % n);
            if back {
                s.pieces.reverse();
            }
        }
        prop_assert_eq!(cut(&job), cut(&other));
    }

    /// Lengths and prices near the end of their range give the same plan as small ones.
    #[test]
    fn scale_changes_nothing(
        sizes in prop::collection::vec(100_i64..600, 1..16), kerf in 0_i64..5, long in 1_i64..1_000,
    ) {
        let make = |by: i64, price: i64| {
            let pieces = sizes
                .iter()
                .enumerate()
                .map(|(n, l)| Piece { id: format!("p{n}"), length: l * by, extra: 0 })
                .collect();
            let stock = vec![
                stock("short", 700 * by, 600 * price, None),
                stock("long", 1_000 * by, long * price, None),
                stock("left", 400 * by, 0, Some(1)),
            ];
            let mut job = job(kerf * by, pieces, stock);
            job.work_limit = 3_000_000;
            job
        };
        let small = cut(&make(1, 1)).expect("the stock is ample");
        let large = make(1_000_000, 1_000_000);
        let plan = cut(&large).expect("the stock is ample");
        prop_assert_eq!(fault(&large, &plan), None);
        let (a, b) = (&small.sections[0], &plan.sections[0]);
        prop_assert!(b.cost.value >= a.cost.bound * 1_000_000);
        prop_assert!(b.cost.bound <= a.cost.value * 1_000_000);
        if a.cost.proven() && b.cost.proven() {
            prop_assert_eq!(b.cost.value, a.cost.value * 1_000_000);
        }
    }
}
