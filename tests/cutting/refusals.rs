//! What is refused, what is only remarked on, and the edges of the rules.
use rungsheet::compute::cutting::{
    CuttingError, Job, MOST_LENGTH, MOST_PIECES, MOST_PRICE, Measure, Piece, Remark, Stock, cut,
};

use super::support::{fault, job, piece, stock};

fn error(job: &Job) -> CuttingError {
    cut(job).expect_err("this job must be refused")
}

#[test]
fn a_piece_longer_than_any_stock_is_refused() {
    let job = job(300, vec![piece("rail", 100_001)], vec![stock("bar", 100_000, 5, None)]);
    assert_eq!(
        error(&job),
        CuttingError::PieceTooLong {
            section: "tube".into(),
            item: "rail".into(),
            length: 100_001,
            longest: 100_000
        }
    );
    assert_eq!(
        error(&job).to_string(),
        "tube: rail takes 1000.01 mm and the longest stock offers 1000.00 mm"
    );
}

#[test]
fn a_piece_as_long_as_the_bar_fits_without_a_cut() {
    let job = job(300, vec![piece("rail", 100_000)], vec![stock("bar", 100_000, 5, None)]);
    let plan = cut(&job).expect("it fits");
    let bar = &plan.sections[0].bars[0];
    assert_eq!((bar.cuts[0].to, bar.saw, bar.leftover), (100_000, 0, 0));
}

#[test]
fn the_last_cut_may_fall_off_the_end() {
    let two = |length| {
        let pieces = vec![piece("a", length), piece("b", length)];
        cut(&job(300, pieces, vec![stock("bar", 100_000, 5, None)])).expect("pieces fit")
    };
    assert_eq!(two(49_850).price().value, 5);
    assert_eq!(two(49_851).price().value, 10);
}

#[test]
fn the_extra_of_a_mitre_counts() {
    let two = |extra| {
        let make = |id: &str| Piece { id: id.into(), length: 49_850, extra };
        cut(&job(300, vec![make("a"), make("b")], vec![stock("bar", 100_000, 5, None)]))
            .expect("pieces fit")
    };
    assert_eq!(two(0).price().value, 5);
    // A 45 degree mitre with a 3 mm blade: 3 / cos 45 - 3 = 1.243 mm more along the bar.
    assert_eq!(two(125).price().value, 10);
    let pieces = vec![
        Piece { id: "a".into(), length: 40_000, extra: 125 },
        Piece { id: "b".into(), length: 20_000, extra: 0 },
    ];
    let plan = cut(&job(300, pieces, vec![stock("bar", 100_000, 5, None)])).expect("pieces fit");
    let bar = &plan.sections[0].bars[0];
    assert_eq!(bar.cuts[1].from, 40_425);
    assert_eq!((bar.saw, bar.leftover), (725, 39_275));
}

#[test]
fn trims_move_the_marks() {
    let mut s = stock("bar", 100_000, 5, None);
    s.trim_start = 1_000;
    s.trim_end = 500;
    let plan = cut(&job(300, vec![piece("a", 30_000)], vec![s])).expect("it fits");
    let bar = &plan.sections[0].bars[0];
    assert_eq!((bar.cuts[0].from, bar.cuts[0].to), (1_000, 31_000));
    assert_eq!((bar.saw, bar.leftover), (300, 68_200));
}

#[test]
fn impossible_numbers_are_refused() {
    let bar = || stock("bar", 100_000, 5, None);
    let item = |i: &str| (String::from("tube"), String::from(i));
    let bad = |kerf, pieces, stock| match error(&job(kerf, pieces, stock)) {
        CuttingError::NotPositive { section, item } => ("not positive", (section, item)),
        CuttingError::Negative { section, item } => ("negative", (section, item)),
        CuttingError::TooLarge { section, item } => ("large", (section, item)),
        CuttingError::TrimTakesAll { section, item } => ("trim", (section, item)),
        CuttingError::DuplicateStock { section, item } => ("twice", (section, item)),
        other => panic!("{other:?}"),
    };
    assert_eq!(bad(1, vec![piece("a", 0)], vec![bar()]), ("not positive", item("a")));
    assert_eq!(bad(1, vec![piece("a", i64::MIN)], vec![bar()]), ("not positive", item("a")));
    assert_eq!(bad(1, vec![], vec![stock("s", -3, 5, None)]), ("not positive", item("s")));
    assert_eq!(bad(-1, vec![], vec![bar()]), ("negative", item("kerf")));
    assert_eq!(bad(1, vec![], vec![stock("s", 10, -5, None)]), ("negative", item("s")));
    let extra = Piece { id: "a".into(), length: 5, extra: -1 };
    assert_eq!(bad(1, vec![extra], vec![bar()]), ("negative", item("a")));
    assert_eq!(bad(1, vec![piece("a", i64::MAX)], vec![bar()]), ("large", item("a")));
    assert_eq!(bad(i64::MAX, vec![piece("a", 5)], vec![bar()]), ("large", item("kerf")));
    assert_eq!(bad(1, vec![], vec![stock("s", i64::MAX, 5, None)]), ("large", item("s")));
    assert_eq!(bad(1, vec![], vec![stock("s", 5, i64::MAX, None)]), ("large", item("s")));
    let mut all_trim = bar();
    all_trim.trim_end = 100_000;
    assert_eq!(bad(1, vec![], vec![all_trim]), ("trim", item("bar")));
    assert_eq!(bad(1, vec![], vec![bar(), bar()]), ("twice", item("bar")));
}

#[test]
fn the_largest_numbers_are_planned_without_overflow() {
    let pieces = (0..40).map(|n| piece(&format!("p{n}"), MOST_LENGTH - n)).collect();
    let job = job(MOST_LENGTH, pieces, vec![stock("bar", MOST_LENGTH, MOST_PRICE, None)]);
    let plan = cut(&job).expect("each fits alone");
    assert_eq!(plan.price().value, 40 * MOST_PRICE);
    assert!(plan.proven());
}

#[test]
fn nothing_to_cut_from_is_refused() {
    let none = |s: Vec<Stock>| error(&job(1, vec![piece("a", 5)], s));
    assert_eq!(none(vec![]), CuttingError::NoStock { section: "tube".into() });
    assert_eq!(
        none(vec![stock("gone", 100, 0, Some(0))]),
        CuttingError::NoStock { section: "tube".into() }
    );
    let nothing = cut(&job(1, vec![], vec![])).expect("nothing to do is no fault");
    assert!(nothing.proven() && nothing.sections[0].bars.is_empty());
}

#[test]
fn leftovers_that_do_not_suffice_are_told_for_certain() {
    let pieces = vec![piece("a", 60), piece("b", 60), piece("c", 30)];
    let short = job(0, pieces.clone(), vec![stock("left", 100, 0, Some(1))]);
    assert_eq!(
        error(&short),
        CuttingError::NotEnoughStock { section: "tube".into(), proven: true }
    );
    let enough = job(0, pieces, vec![stock("left", 100, 0, Some(2))]);
    assert_eq!(fault(&enough, &cut(&enough).expect("two suffice")), None);
}

#[test]
fn sections_and_names_are_kept_apart() {
    let one = job(0, vec![piece("a", 60)], vec![stock("bar", 100, 7, None)]);
    let mut two = one.clone();
    two.sections.push(one.sections[0].clone());
    assert_eq!(error(&two), CuttingError::DuplicateSection { section: "tube".into() });
    two.sections[1].name = "angle".into();
    let plan = cut(&two).expect("two sections");
    assert_eq!(plan.price().value, 14);
    assert_eq!(plan.sections[0].section, "angle");
}

#[test]
fn a_kerf_wider_than_a_piece_is_remarked_on() {
    let plan = cut(&job(300, vec![piece("tab", 200)], vec![stock("bar", 1_000, 7, None)]));
    assert_eq!(
        plan.expect("it fits").sections[0].remarks,
        [Remark::KerfWiderThanPiece { piece: "tab".into() }]
    );
}

#[test]
fn without_a_price_the_length_bought_is_least() {
    let mut long = stock("long", 600, 0, None);
    long.price = None;
    let pieces = vec![piece("a", 200), piece("b", 200), piece("c", 150)];
    // By price the short bars would win; by length one long bar (600) beats two short ones (800).
    let all = vec![long, stock("short", 400, 1, None)];
    let plan = cut(&job(0, pieces.clone(), all)).expect("it fits");
    let s = &plan.sections[0];
    assert_eq!((s.measure, s.cost.value), (Measure::BoughtLength, 600));
    assert_eq!(s.remarks, [Remark::PriceMissing { stock: "long".into() }]);
    // A leftover without a price is free and does not change the measure.
    let mut left = stock("left", 600, 0, Some(1));
    left.price = None;
    let plan = cut(&job(0, pieces, vec![left, stock("short", 400, 1, None)])).expect("it fits");
    assert_eq!((plan.sections[0].measure, plan.price().value), (Measure::Price, 0));
}

#[test]
fn more_pieces_than_the_limit_are_refused() {
    let pieces = vec![piece("a", 10); MOST_PIECES + 1];
    assert_eq!(
        error(&job(0, pieces, vec![stock("bar", 100, 7, None)])),
        CuttingError::TooManyPieces { section: "tube".into(), pieces: MOST_PIECES + 1 }
    );
}

#[test]
fn without_proof_the_gap_is_told() {
    // Work for nothing but the first plan: a plan and a bound below it still come back.
    let pieces = (0..30).map(|n| piece(&format!("p{n}"), 20_011 + n * 1_117)).collect();
    let mut job = job(
        300,
        pieces,
        vec![stock("short", 100_000, 997, None), stock("long", 163_000, 1_543, None)],
    );
    job.work_limit = 0;
    let plan = cut(&job).expect("a plan without proof");
    assert_eq!(fault(&job, &plan), None);
    let s = &plan.sections[0];
    assert!(s.cost.bound < s.cost.value && s.cost.bound > 0);
    assert!(!plan.proven());
}
