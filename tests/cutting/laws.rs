//! Laws that hold for any job.
use proptest::prelude::*;
use rungsheet::compute::cutting::{Job, Piece, Section, Stock, cut};

use super::support::fault;

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
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every piece is cut once, marks rise, and what a bar is cut into adds up to the bar.
    #[test]
    fn plans_are_sound(a in section("angle"), b in section("box")) {
        let job = Job { sections: vec![a, b], work_limit: 20_000_000 };
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
        let job = Job { sections: vec![a, b], work_limit: 20_000_000 };
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
}
