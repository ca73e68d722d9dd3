//! When a bond may be left, loaded, driven with, washed.
//!
//! Takes the bonded joints, the air over the day and the clock at which each joint is made; gives
//! the waits with the share or depth behind each. The later of tape and bead decides where both
//! carry; where tape carries alone the bead is told beside it, however long it takes. Bolts held by
//! threadlocker wait as bonds do, before they are shaken.

mod by_hour;
mod day_table;
pub mod daylight;
pub mod forecast;
mod joint;
mod judge;
pub mod models;
pub mod moist_air;
mod recipe;
pub mod rules;
pub mod threads;

pub use by_hour::ByHour;
pub use day_table::{DayRow, DayTable};
pub use joint::{JointCure, JointKind, Made, Stage, Wait};

use crate::build::{BoltedFoot, Build, MountKind};
use crate::compute::bonding::{BondUse, Carrier};
use crate::compute::steps::assign;
use crate::derive::Screw;
use crate::derive::{Bond, Work};
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::{Adhesive, Cure, Tables, Tape, Thread, Threadlocker};
use crate::units::{Duration, Length, Ratio, Temperature, TemperatureRise};
use day_table::{TABLE_AIR, table};
use forecast::{Forecast, Limits};
use jiff::civil::Date;
use recipe::{Told, recipes};

/// Share of the final strength of tape before the frame is bolted on, before driving, and in full.
/// Common practice: hold and load after three quarters, drive near the end of the first day.
const TAPE_STAGES: [(Stage, f64); 4] =
    [(Stage::Handle, 0.50), (Stage::Load, 0.75), (Stage::Drive, 0.85), (Stage::Full, 1.0)];
/// The same of threadlocker; preload alone holds the frame at rest.
const THREAD_STAGES: [(Stage, f64); 2] = [(Stage::Drive, 0.85), (Stage::Full, 1.0)];
/// Threadlocker of the shopping list; both threads are primed with its activator.
pub(crate) const LOCKER: &str = "threadlocker-medium";
/// Share of the way that must have hardened before clamps come off a bead that carries alone: half of
/// its width then holds it in place. Common practice.
const CLAMP_SHARE: f64 = 0.5;
/// Narrowest channel beside a bead through which air still reaches it; common practice.
pub(crate) const CHANNEL: Length = Length::mm(3.0);
/// Depth at which a seal keeps rain out and may be washed by hand; common practice.
const RAIN_DEPTH: Length = Length::mm(2.0);
/// Legs of the fillet round a housing; common practice.
pub(crate) const FILLET: Length = Length::mm(6.0);

/// Name of the seals of bolted feet among the joints; one mark, so without a plain space.
pub(crate) const FOOT_SEALS: &str = "foot\u{a0}seals";

/// Works out every joint. `made` tells the clock at which the joint of a mark is made.
pub fn cure(
    build: &Build,
    work: &Work,
    bonds: &[BondUse],
    tables: &Tables,
    made: &dyn Fn(&str) -> Made,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Vec<JointCure> {
    let air = Forecast::of(build);
    let mut joints: Vec<JointCure> = Vec::new();
    let mut judged: Vec<judge::Judged> = Vec::new();
    for recipe in recipes(build, work, bonds, tables) {
        if let Some((span, foot)) = recipe.written(build, work) {
            let carrier = recipe.carrier();
            judged.push(judge::Judged { joint: joints.len(), span, foot, carrier });
        }
        let made = made(&recipe.mark());
        let there = air.corrected(made.warmer, made.wetter);
        let mut joint = recipe.joint(made.at, &there, Told::All);
        if joint.kind != JointKind::Threads {
            joint.fit = fit_hours(&joint, &there);
        }
        joints.push(joint);
    }
    judge::judge(build, &joints, &judged, &air, findings);
    for joint in &joints {
        record(joint, &air, ledger);
    }
    joints
}

/// Hours of the day on which a joint is made in which its surface is fit, as far as it is light.
fn fit_hours(joint: &JointCure, air: &Forecast) -> Vec<(Duration, Duration)> {
    let day = Duration::days(1.0);
    let midnight = day * (joint.made / day).floor();
    let light = air.light();
    air.windows(&joint.surface, midnight, midnight + day)
        .into_iter()
        .map(|(from, to)| (from.max(midnight + light.0), to.min(midnight + light.1)))
        .filter(|(from, to)| to > from)
        .collect()
}

/// The joints with their waits alone: no tables for other air, no figures, no findings.
pub fn waits(
    build: &Build,
    work: &Work,
    bonds: &[BondUse],
    tables: &Tables,
    made: &dyn Fn(&str) -> Made,
) -> Vec<JointCure> {
    let air = Forecast::of(build);
    recipes(build, work, bonds, tables)
        .iter()
        .map(|recipe| {
            let made = made(&recipe.mark());
            recipe.joint(made.at, &air.corrected(made.warmer, made.wetter), Told::Waits)
        })
        .collect()
}

/// Threads that are locked, with the step that tightens them last.
fn locked(work: &Work) -> Vec<(&Thread, &'static str)> {
    let mut list: Vec<(&Thread, assign::Stage)> = Vec::new();
    for fastening in &work.fastenings {
        let Screw::BoltInRivetNut { thread, .. } = &fastening.screw else { continue };
        if fastening.undone {
            continue;
        }
        let stage = assign::of_fastening(work, fastening);
        match list.iter_mut().find(|(known, _)| known.name == thread.name) {
            Some((_, last)) => *last = (*last).max(stage),
            None => list.push((thread, stage)),
        }
    }
    list.into_iter().map(|(thread, stage)| (thread, stage.key())).collect()
}

/// Name of the bolts of a thread among the joints.
fn thread_mark(thread: &Thread) -> String {
    format!("{} bolts", thread.name)
}

/// Bolts that threadlocker holds: preload carries at once, what waits is shaking.
fn threads(
    mark: String,
    thread: &Thread,
    step: &'static str,
    locker: &Threadlocker,
    made: Duration,
    air: &Forecast,
    told: Told,
) -> JointCure {
    let gap = threads::mean_gap(thread);
    let wait = |share: f64, start, air: &Forecast| {
        threads::thread_wait(locker, Ratio::of_one(share), gap, true, start, air)
    };
    let stage = |stage, share: f64| Wait {
        stage,
        time: wait(share, made, air),
        why: format!("threadlocker at {:.0} %", share * 100.0),
    };
    let rows = TABLE_AIR.0.iter().map(|t| {
        let steady = Forecast::steady(Temperature::celsius(*t), Ratio::percent(50.0));
        DayRow {
            temperature: Temperature::celsius(*t),
            open: None,
            tape: THREAD_STAGES.iter().map(|s| wait(s.1, Duration::ZERO, &steady)).collect(),
            bead: Vec::new(),
        }
    });
    let named = |s: &(Stage, f64)| format!("threadlocker at {:.0} %", s.1 * 100.0);
    JointCure {
        kind: JointKind::Threads,
        by_step: Some(step),
        product: None,
        open_time: Some(locker.open_time),
        mark,
        made,
        waits: THREAD_STAGES.iter().filter(|s| told.asks(s.0)).map(|s| stage(s.0, s.1)).collect(),
        path: None,
        surface: Limits {
            low: Temperature::celsius(5.0),
            high: Temperature::celsius(40.0),
            margin: TemperatureRise::ZERO,
        },
        fit: Vec::new(),
        table: told.table(|| DayTable {
            tape: THREAD_STAGES.iter().map(named).collect(),
            depth: None,
            humidities: Vec::new(),
            rows: rows.collect(),
        }),
    }
}

/// The first line of feet that are bolted through the skin; all are sealed in one step.
fn bolted(build: &Build) -> Option<&BoltedFoot> {
    build.mounts.iter().find_map(|mount| match &mount.kind {
        MountKind::BoltedFoot(foot) => Some(foot),
        _ => None,
    })
}

/// Sealant round a housing or under a leg: open to the air on one face; `path` is the way from there to
/// its middle.
fn seal(
    mark: &str,
    (sealant, path): (&Adhesive, Length),
    made: Duration,
    air: &Forecast,
    told: Told,
) -> JointCure {
    let mut waits = Vec::new();
    if sealant.skin.is_some() && told.asks(Stage::Skin) {
        waits.push(Wait {
            stage: Stage::Skin,
            time: models::skin_wait(sealant, made, air),
            why: "skin of the seal".into(),
        });
    }
    let wait = |stage, depth: Length| {
        let by_depth = (
            bead_wait(sealant, depth, made, air),
            bead_words(sealant, depth, path).replace("bead", "seal"),
        );
        // The sheet's own time against the depth: the later one decides.
        let firm = sealant.firm.filter(|_| stage != Stage::Handle).map(|firm| {
            (models::firm_wait(sealant, firm, made, air), "firm by its data sheet".to_owned())
        });
        let (time, why) = later(std::iter::once(by_depth).chain(firm).collect())
            .unwrap_or((Some(Duration::ZERO), "stays soft".into()));
        Wait { stage, time, why }
    };
    // What keeps rain out stands the wind of driving too; it carries nothing.
    for (stage, depth) in [
        (Stage::Handle, RAIN_DEPTH * 0.5),
        (Stage::Drive, RAIN_DEPTH),
        (Stage::Rain, RAIN_DEPTH),
        (Stage::Full, path),
    ] {
        if told.asks(stage) {
            waits.push(wait(stage, depth));
        }
    }
    JointCure {
        kind: JointKind::Seal,
        by_step: None,
        product: Some(sealant.name.clone()),
        open_time: models::open_wait(sealant, made, air),
        mark: mark.to_owned(),
        made,
        waits,
        path: Some(path),
        surface: surface(None, Some(sealant)),
        fit: Vec::new(),
        table: told.table(|| table(None, Some(sealant), Some(RAIN_DEPTH))),
    }
}

fn joint(
    bond: &Bond,
    carrier: Option<Carrier>,
    made: Duration,
    air: &Forecast,
    told: Told,
) -> JointCure {
    let tape = bond.tape.as_ref().filter(|_| !bond.strips.is_empty()).map(|(tape, _)| tape);
    let bead = bond.adhesive.as_ref().filter(|_| !bond.beads.is_empty());
    let path = bead.map(|_| path(bond));
    let carries = |c: Carrier| carrier == Some(c);
    let mut waits = Vec::new();
    if let Some(bead) = bead.filter(|b| b.skin.is_some() && told.asks(Stage::Skin)) {
        waits.push(Wait {
            stage: Stage::Skin,
            time: models::skin_wait(bead, made, air),
            why: "skin of the bead".into(),
        });
    }
    // Tape is its own clamp; a bead alone needs holding until half of its way is hard.
    if let (Some(bead), Some(path), None, true) = (bead, path, tape, told.asks(Stage::Clamp)) {
        let (time, why) = match bead.cure {
            Cure::Mixed { handling, halves_per, .. } => {
                (models::mixed_wait(handling, halves_per, made, air), "two parts set".to_owned())
            }
            _ => {
                let depth = (path * CLAMP_SHARE).max(path.min(RAIN_DEPTH));
                (bead_wait(bead, depth, made, air), bead_words(bead, depth, path))
            }
        };
        waits.push(Wait { stage: Stage::Clamp, time, why });
    }
    for (stage, share) in TAPE_STAGES.into_iter().filter(|(stage, _)| told.asks(*stage)) {
        let mut parts: Vec<(Option<Duration>, String)> = Vec::new();
        if let Some(tape) = tape
            .filter(|_| !carries(Carrier::Bead) || stage <= Stage::Handle || stage == Stage::Full)
        {
            let wait = models::tape_wait(tape, Ratio::of_one(share), made, air);
            parts.push((wait, format!("tape at {:.0} %", share * 100.0)));
        }
        if let (Some(bead), Some(path)) = (bead, path) {
            // A bead beside tape is waited for only where it carries, or for full strength.
            let alone = tape.is_none();
            let mixed = matches!(bead.cure, Cure::Mixed { .. });
            if mixed && alone && stage == Stage::Handle {
                // Told with the clamps.
            } else if alone
                || carries(Carrier::Bead) && stage >= Stage::Load
                || stage == Stage::Full
            {
                let depth = if stage == Stage::Handle { path.min(RAIN_DEPTH) } else { path };
                parts.push((bead_wait(bead, depth, made, air), bead_words(bead, depth, path)));
            }
        }
        if let Some((time, why)) = later(parts) {
            waits.push(Wait { stage, time, why });
        }
    }
    if let (Some(bead), Some(path), true) = (bead, path, told.asks(Stage::Rain)) {
        let depth = path.min(RAIN_DEPTH);
        waits.push(Wait {
            stage: Stage::Rain,
            time: bead_wait(bead, depth, made, air),
            why: bead_words(bead, depth, path),
        });
    }
    waits.sort_by_key(|wait| wait.stage);
    JointCure {
        kind: JointKind::Bond,
        by_step: None,
        product: bead.map(|bead| bead.name.clone()),
        open_time: bead.and_then(|bead| models::open_wait(bead, made, air)),
        mark: bond.mark.clone(),
        made,
        surface: surface(tape, bead),
        fit: Vec::new(),
        table: told.table(|| table(tape, bead, path)),
        waits,
        path,
    }
}

/// The part that takes longest; what never ends is longest of all.
fn later(parts: Vec<(Option<Duration>, String)>) -> Option<(Option<Duration>, String)> {
    parts.into_iter().reduce(|a, b| match (a.0, b.0) {
        (None, _) => a,
        (_, None) => b,
        (Some(x), Some(y)) => {
            if y > x {
                b
            } else {
                a
            }
        }
    })
}

fn bead_words(bead: &Adhesive, depth: Length, path: Length) -> String {
    if matches!(bead.cure, Cure::Mixed { .. }) {
        "two parts hardened through".into()
    } else if matches!(bead.cure, Cure::Dries { .. }) && depth < path {
        format!("bead dried {:.0} mm deep", depth.to_mm())
    } else if matches!(bead.cure, Cure::Dries { .. }) {
        format!("bead dried through, {:.0} mm", depth.to_mm())
    } else if depth < path {
        format!("bead {:.0} mm deep", depth.to_mm())
    } else {
        format!("bead through, {:.0} mm", depth.to_mm())
    }
}

fn bead_wait(bead: &Adhesive, depth: Length, made: Duration, air: &Forecast) -> Option<Duration> {
    match bead.cure {
        Cure::Moisture { .. } | Cure::Dries { .. } => models::depth_wait(bead, depth, made, air),
        Cure::Mixed { full, halves_per, .. } => models::mixed_wait(full, halves_per, made, air),
        Cure::StaysSoft => Some(Duration::ZERO),
    }
}

/// Way from open air to the middle of a bead: half its width where a channel runs beside it on both
/// sides and is open at the ends of the plate, else half its length.
fn path(bond: &Bond) -> Length {
    let strips = &bond.strips;
    bond.beads
        .iter()
        .map(|bead| {
            let (low, high) = (bead.low(), bead.high());
            let beside = |left: bool| {
                let edge = if left { low.y } else { high.y };
                strips
                    .iter()
                    .filter_map(|s| {
                        let gap = if left { edge - s.high().y } else { s.low().y - edge };
                        (gap >= Length::ZERO).then_some(gap)
                    })
                    .fold(if left { edge } else { bond.width - edge }, Length::min)
            };
            // Beyond the last strip lies open air, however narrow.
            let open = |left: bool| {
                let edge = if left { low.y } else { high.y };
                let covered = strips
                    .iter()
                    .any(|s| if left { s.high().y <= edge } else { s.low().y >= edge });
                !covered || beside(left) >= CHANNEL
            };
            if open(true) && open(false) {
                bead.height() * 0.5
            } else if open(true) || open(false) {
                bead.height()
            } else {
                bead.width() * 0.5
            }
        })
        .fold(Length::ZERO, Length::max)
}

fn surface(tape: Option<&Tape>, bead: Option<&Adhesive>) -> Limits {
    let mut surface = Limits {
        low: Temperature::celsius(5.0),
        high: Temperature::celsius(40.0),
        // ISO 8502-4 guidance: 3 K over the dew point.
        margin: TemperatureRise::k(3.0),
    };
    if let Some(tape) = tape {
        surface.low = surface.low.max(tape.least_application);
        surface.high = surface.high.min(tape.most_application);
    }
    if let Some(bead) = bead {
        surface.low = surface.low.max(bead.application[0]);
        surface.high = surface.high.min(bead.application[1]);
        surface.margin = surface.margin.max(bead.dew_margin);
    }
    surface
}

fn record(joint: &JointCure, air: &Forecast, ledger: &mut Ledger) {
    let now = air.at(joint.made);
    for wait in &joint.waits {
        let Some(time) = wait.time else { continue };
        let figure = Figure::new(
            format!("cure.{}.{}", joint.mark.replace([' ', '\u{a0}'], "-"), wait.stage.key()),
            format!("{}: wait until {}", joint.mark, wait.stage.words()),
            time.to_hours(),
            "h",
        )
        .formula(match joint.kind {
            JointKind::Threads => "share by the logarithm of time; half as long with each 8 K more",
            _ => "tape: share by the logarithm of time, Arrhenius; bead: d = k √t with vapour pressure",
        })
        .input("behind it", wait.why.clone())
        .input("made", clock_words(joint.made))
        .input(
            "air then",
            format!(
                "{:.0} °C, {:.0} %",
                now.temperature.to_celsius(),
                now.humidity.to_percent()
            ),
        )
        .source(
            match joint.kind {
                JointKind::Threads => "charts of typical data sheets; both threads with activator",
                _ => "moisture front by Comyn 1998; tape build-up of typical data sheets",
            },
            Seen::Memory,
        )
        .assume("air of the forecast, without sun on the joint; a data sheet that asks for longer wins");
        let decides = matches!(wait.stage, Stage::Load | Stage::Drive);
        ledger.push(if decides { figure.decides() } else { figure });
    }
}

/// "day 2, 09:30" from a clock that counts from midnight before the first day.
pub fn clock_words(clock: Duration) -> String {
    let minutes = clock.to_minutes().round() as i64;
    let within = minutes.rem_euclid(1440);
    format!("day {}, {:02}:{:02}", minutes.div_euclid(1440) + 1, within / 60, within % 60)
}

/// "Sat 16 May 14:30" from a clock that counts from midnight before the first day.
pub fn date_words(first: Date, clock: Duration) -> String {
    let minutes = clock.to_minutes().round() as i64;
    let Ok(date) = first.checked_add(jiff::Span::new().days(minutes.div_euclid(1440))) else {
        return clock_words(clock);
    };
    let within = minutes.rem_euclid(1440);
    format!("{} {:02}:{:02}", date.strftime("%a\u{a0}%-d\u{a0}%b"), within / 60, within % 60)
}
