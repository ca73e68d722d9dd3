//! Problems drawn with a fixed seed.

use rungsheet::compute::planning::{Lag, Problem, Span, Task, When, Window};

/// Pseudo-random numbers: `SplitMix64` (Steele, Lea and Flood 2014).
pub struct Dice(pub u64);

impl Dice {
    /// A number from `low` to `high`, both included.
    pub fn roll(&mut self, low: i64, high: i64) -> i64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        let span = u64::try_from(high - low + 1).expect("a range");
        low + i64::try_from((z ^ (z >> 31)) % span).expect("small")
    }

    /// True once in `n`.
    pub fn once_in(&mut self, n: i64) -> bool {
        self.roll(1, n) == 1
    }
}

/// A small problem of up to `most` tasks on short days, with every kind of rule.
pub fn small_problem(seed: u64, most: i64) -> Problem {
    let mut dice = Dice(seed);
    let n = dice.roll(2, most);
    let crew = dice.roll(1, 3);
    let day = dice.roll(8, 12);
    let mut windows = Vec::new();
    for d in 0..dice.roll(2, 4) {
        if !dice.once_in(5) {
            let from = d * day + dice.roll(0, 2);
            let people = if dice.once_in(4) { dice.roll(1, crew) } else { crew };
            let to = from + dice.roll(4, 6);
            windows.push(Window { from, to, crew: u32::try_from(people).expect("small") });
        }
    }
    let facts = dice.once_in(4);
    let mut tasks = Vec::new();
    for i in 0..n {
        let attended = !dice.once_in(6);
        let shortest = i64::from(!dice.once_in(8));
        let mut task = Task {
            name: format!("task {i}"),
            minutes: dice.roll(shortest, 4),
            crew: if attended { u32::try_from(dice.roll(1, crew)).expect("small") } else { 0 },
            ..Task::default()
        };
        for place in ["roof", "bench"] {
            if dice.once_in(3) {
                task.uses.push(place.into());
            }
        }
        if dice.once_in(6) {
            task.earliest = Some(dice.roll(-3, 2 * day));
        }
        if dice.once_in(6) {
            task.latest_finish = Some(dice.roll(3, 3 * day));
        }
        if dice.once_in(6) {
            let from = dice.roll(-2, 2 * day);
            let first = Span { from, to: from + dice.roll(3, day) };
            let from = first.to + dice.roll(0, day);
            task.allowed = Some(vec![first, Span { from, to: from + dice.roll(3, day) }]);
        }
        if facts && dice.once_in(3) {
            task.when = When::Done(dice.roll(-4, 6));
        } else if dice.once_in(15) {
            task.when = When::At(dice.roll(0, 2 * day));
        }
        tasks.push(task);
    }
    let mut lags = Vec::new();
    for to in 1..tasks.len() {
        for from in 0..to {
            if dice.once_in(4) {
                let minutes = if dice.once_in(3) { dice.roll(1, day) } else { 0 };
                lags.push(Lag { from, to, minutes });
            }
        }
    }
    Problem { start: 0, tasks, lags, windows }
}

/// A problem of about the size of a real job, on ten-hour days of quarter hours.
pub fn workshop_problem(seed: u64, n: usize) -> Problem {
    let mut dice = Dice(seed);
    let crew = u32::try_from(dice.roll(1, 3)).expect("small");
    let windows =
        (0..60).map(|d| Window { from: d * 1440 + 480, to: d * 1440 + 1080, crew }).collect();
    let tasks = (0..n)
        .map(|i| Task {
            name: format!("task {i}"),
            minutes: 15 * dice.roll(1, 16),
            crew: u32::try_from(dice.roll(0, i64::from(crew))).expect("small"),
            uses: if dice.once_in(3) { vec!["roof".into()] } else { Vec::new() },
            ..Task::default()
        })
        .collect();
    let lags = (1..n)
        .map(|to| {
            let from = usize::try_from(dice.roll(0, i64::try_from(to).expect("small") - 1))
                .expect("small");
            Lag { from, to, minutes: if dice.once_in(3) { 60 * dice.roll(1, 24) } else { 0 } }
        })
        .collect();
    Problem { start: 480, tasks, lags, windows }
}
