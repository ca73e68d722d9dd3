//! Prints cost, bound, proof and time of every training instance, and a summary of random jobs of
//! workshop size.
#[path = "../cutting/instance.rs"]
mod instance;

use std::time::Instant;

use rungsheet::compute::cutting::{Job, SectionPlan, cut};

#[path = "../cutting/support.rs"]
mod support;

/// A random job of one section: up to 17 kinds of piece and about 50 pieces.
fn random_job(seed: u64) -> Job {
    let mut r = support::Random(seed);
    let tenths = |r: &mut support::Random, low, high| 10 * r.within(low, high);
    let mut stock = Vec::new();
    let per_metre = r.within(200, 1_200);
    for length in [20_000, 25_000, 30_000, 40_000, 50_000, 60_000] {
        if r.within(0, 2) > 0 && stock.len() < 3 || length == 60_000 && stock.is_empty() {
            let price = per_metre * length / 10_000 * r.within(85, 115) / 100;
            stock.push(support::stock(&format!("new-{length}"), length * 10, price, None));
        }
    }
    let longest = stock.iter().map(|s| s.length).max().unwrap_or(0) / 10;
    for n in 0..r.within(0, 2) {
        let length = tenths(&mut r, 3_000, 25_000);
        let price = r.within(0, 1) * r.within(50, 400);
        let limit = Some(r.within(1, 2) as u32);
        stock.push(support::stock(&format!("left-{n}"), length, price, limit));
    }
    let mut pieces = Vec::new();
    let (kinds, most) = (r.within(3, 17), r.within(1, 5));
    for kind in 0..kinds {
        let length = tenths(&mut r, longest / 16, longest * 55 / 100);
        for n in 0..r.within(1, most) {
            pieces.push(support::piece(&format!("{kind}.{n}"), length));
        }
    }
    support::job(tenths(&mut r, 10, 30), pieces, stock)
}

/// Times of random jobs, what was not proven, and the slowest ones.
fn random_jobs(count: u64) {
    let mut times = Vec::new();
    let (mut cost, mut leftover, mut set_ups) = (0, 0, 0);
    for seed in 0..count {
        let job = random_job(seed);
        let begin = Instant::now();
        let plan = cut(&job).expect("random jobs are sound");
        let ms = begin.elapsed().as_secs_f64() * 1000.0;
        assert_eq!(support::fault(&job, &plan), None);
        let s: &SectionPlan = &plan.sections[0];
        cost += u32::from(!s.cost.proven());
        leftover += u32::from(!s.leftover.proven());
        set_ups += u32::from(!s.set_ups.proven());
        times.push((ms, seed, job.sections[0].pieces.len(), s.cost, s.leftover.nodes, s.set_ups));
    }
    times.sort_by(|a, b| a.0.total_cmp(&b.0));
    println!(
        "{count} random jobs: median {:.2} ms, nine in ten below {:.2} ms, worst {:.2} ms",
        times[times.len() / 2].0,
        times[times.len() * 9 / 10].0,
        times[times.len() - 1].0
    );
    println!("not proven: cost {cost}, leftover {leftover}, set-ups {set_ups}");
    for t in &times[times.len() - 8..] {
        println!("  {t:?}");
    }
}

fn main() {
    println!(
        "{:36} {:>9} {:>9} {:>7} {:>9} {:>9} {:>4} {:>4} {:>7} {:>9}",
        "instance", "cost", "bound", "known", "leftover", "bound", "sets", "bnd", "nodes", "ms"
    );
    let mut times = Vec::new();
    for i in instance::all() {
        let begin = Instant::now();
        let plan = cut(&i.job).expect("instances are sound");
        let ms = begin.elapsed().as_secs_f64() * 1000.0;
        times.push(ms);
        let sum = |f: &dyn Fn(&SectionPlan) -> i64| -> i64 { plan.sections.iter().map(f).sum() };
        println!(
            "{:36} {:>9} {:>9} {:>7} {:>9} {:>9} {:>4} {:>4} {:>7} {:>9.2}",
            i.name,
            sum(&|s| s.cost.value),
            sum(&|s| s.cost.bound),
            if i.open { format!("<={}", i.known) } else { i.known.to_string() },
            sum(&|s| s.leftover.value),
            sum(&|s| s.leftover.bound),
            sum(&|s| s.set_ups.value),
            sum(&|s| s.set_ups.bound),
            sum(&|s| i64::try_from(s.cost.nodes + s.leftover.nodes + s.set_ups.nodes)
                .unwrap_or(i64::MAX)),
            ms
        );
    }
    times.sort_by(f64::total_cmp);
    println!("median {:.2} ms, worst {:.2} ms", times[times.len() / 2], times[times.len() - 1]);
    random_jobs(120);
    random_sheets();
    large_jobs();
}

/// Sheet jobs of twelve unlike pieces.
fn random_sheets() {
    use rungsheet::compute::cutting::{SheetJob, SheetPiece, SheetSection, SheetStock, cut_sheets};
    let mut times = Vec::new();
    let mut open = 0;
    for seed in 0..12 {
        let mut r = support::Random(seed);
        let pieces = (0..12)
            .map(|n| SheetPiece {
                id: format!("p{n}"),
                width: r.within(15_000, 70_000),
                height: r.within(10_000, 50_000),
                turn: n % 3 > 0,
            })
            .collect();
        let sheet = |id: &str, width, height, price, limit| SheetStock {
            id: id.into(),
            width,
            height,
            trim: 500,
            price: Some(price),
            limit,
        };
        let stock = vec![
            sheet("small", 100_000, 100_000, 2_400, None),
            sheet("large", 200_000, 100_000, 4_300, None),
            sheet("left", 80_000, 60_000, 0, Some(1)),
        ];
        let sections = vec![SheetSection { name: "plate".into(), kerf: 300, pieces, stock }];
        let job = SheetJob { sections, work_limit: Job::WORK_LIMIT };
        let begin = Instant::now();
        let plan = cut_sheets(&job).expect("pieces fit");
        times.push(begin.elapsed().as_secs_f64() * 1000.0);
        open += u32::from(!plan.proven());
    }
    times.sort_by(f64::total_cmp);
    let (half, last) = (times[times.len() / 2], times[times.len() - 1]);
    println!("12 sheet jobs: median {half:.2} ms, worst {last:.2} ms, cost not proven: {open}");
}

/// Jobs beyond a workshop's, with the whole work limit.
fn large_jobs() {
    for (kinds, count) in [(12, 10_000), (40, 200), (120, 300), (200, 10_000), (9_000, 10_000)] {
        let mut r = support::Random(kinds as u64);
        let lengths: Vec<i64> = (0..kinds).map(|_| r.within(5_000, 250_000)).collect();
        let pieces = (0..count)
            .map(|n| {
                let kind = usize::try_from(r.within(0, kinds - 1)).expect("a kind");
                support::piece(&format!("p{n}"), lengths[kind])
            })
            .collect();
        let job = support::job(
            300,
            pieces,
            vec![
                support::stock("new-4000", 400_000, 2_100, None),
                support::stock("new-6000", 600_000, 2_950, None),
                support::stock("left", 150_000, 0, Some(3)),
            ],
        );
        let begin = Instant::now();
        let plan = cut(&job).expect("stock is ample");
        let ms = begin.elapsed().as_secs_f64() * 1000.0;
        let cost = plan.price();
        println!(
            "{count} pieces of {kinds} kinds: {} (bound {}), {ms:.0} ms",
            cost.value, cost.bound
        );
    }
}
