//! What is left in hand: use of capacity at lower speeds, and with one mount gone.
//!
//! Runs the loads again in other circumstances and takes the greatest use of any bond, hinge or foot.
//! The tables let somebody without the program choose a lower speed on the road.

use crate::build::{Build, LengthUnit};
use crate::compute::bonding::Joints;
use crate::compute::fasteners::Tightening;
use crate::compute::loads::{self, Circumstances, Loads, Situation};
use crate::compute::metal;
use crate::derive::Work;
use crate::source::{Figure, Finding, Ledger, Rule, Seen, Severity};
use crate::tables::Tables;
use crate::units::{Speed, display};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&ONE_LOST];

/// What one lost mount does.
pub static ONE_LOST: Rule = Rule {
    code: "A005",
    name: "one-mount-lost",
    severity: Severity::Note,
    checks: "What is left when any one mount lets go: each is taken away in turn and the whole computation run again.",
    why: "A bond or a rivet nut fails alone and unseen; what counts then is whether its neighbours hold until the next look.",
    example: "[[mount]]\nmark = \"F\"\nat = [300, 900]   # two feet opposite a hinge",
    remedy: "One more mount on that edge, a tether, or a look at the mounts before each long drive.",
    source_limits: "Statics of the mounts that are left, same cases and capacities; no shock from the failure itself.",
};

/// The greatest use in some circumstances.
#[derive(Debug, Clone, PartialEq)]
pub struct Most {
    /// Use of capacity.
    pub share: f64,
    /// Mark of the mount.
    pub mark: String,
}

/// Uses at one speed.
#[derive(Debug, Clone, PartialEq)]
pub struct AtSpeed {
    /// Speed driven.
    pub speed: Speed,
    /// With every mount sound, then with one and with two of them gone that matter most; `None` where
    /// the frame would turn.
    pub gone: Vec<Option<Most>>,
}

/// What happens when one mount lets go.
#[derive(Debug, Clone, PartialEq)]
pub struct Lost {
    /// Mark of that mount.
    pub mark: String,
    /// The greatest use of what is left at the design speed, storms included; `None` where the frame
    /// is free to turn.
    pub left: Option<Most>,
    /// Highest speed, down to a mark of the dial, at which what is left is used to 1 at most; `None`
    /// where there is none.
    pub speed: Option<Speed>,
}

/// The tables.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Reserve {
    /// By rising speed, the design speed last.
    pub speeds: Vec<AtSpeed>,
    /// In the order of the mounts.
    pub lost: Vec<Lost>,
    /// Marks of the mounts that matter most while driving: none, the one, the pair.
    pub worst: Vec<Vec<String>>,
}

/// Most mounts of which all pairs are tried; with more, the pairs of this many of the worst.
const ALL_PAIRS: usize = 10;
const WORST_TRIED: usize = 3;
/// Speeds of the table, as shares of the design speed.
const SHARES: [f64; 5] = [0.45, 0.6, 0.75, 0.9, 1.0];

struct Runs<'a> {
    build: &'a Build,
    work: &'a Work,
    tables: &'a Tables,
    tightening: &'a [Tightening],
    joints: Joints<'a>,
}

/// Works the tables out.
pub fn reserve(
    build: &Build,
    work: &Work,
    tightening: &[Tightening],
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Reserve> {
    let design = *build.vehicle.as_ref()?.speed;
    let joints = Joints::new(build, work, tables);
    let runs = Runs { build, work, tables, tightening, joints };
    runs.most(&Circumstances::default(), false)??;
    let lost: Vec<Lost> = (0..work.mounts.len()).map(|index| runs.without(index, design)).collect();
    let worst = runs.worst_sets();
    let whole = Circumstances::default();
    let speeds = speeds(build, design)
        .into_iter()
        .filter_map(|speed| {
            let gone = worst
                .iter()
                .map(|lost| runs.most(&Circumstances { speed: Some(speed), lost, ..whole }, true))
                .collect::<Option<Vec<_>>>()?;
            Some(AtSpeed { speed, gone })
        })
        .collect();
    let mark = |index: &usize| work.mounts[*index].mark.clone();
    let worst = worst.iter().map(|set| set.iter().map(mark).collect()).collect();
    let reserve = Reserve { speeds, lost, worst };
    enter(&reserve, ledger);
    judge(work, &reserve, findings);
    Some(reserve)
}

impl Runs<'_> {
    /// No mount, the one, and the pair that matter most when they are gone while driving: without them
    /// the frame turns, or what is left is used most. Pairs are all tried up to some mounts; with more,
    /// those that hold one of the worst.
    fn worst_sets(&self) -> Vec<Vec<usize>> {
        let count = self.work.mounts.len();
        let share = |lost: &[usize]| {
            let most = self.most(&Circumstances { lost, ..Circumstances::default() }, true);
            most.flatten().map_or(f64::INFINITY, |most| most.share)
        };
        let mut ones: Vec<(f64, usize)> = (0..count).map(|one| (share(&[one]), one)).collect();
        ones.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let mut sets = vec![Vec::new()];
        let Some((_, one)) = ones.first() else { return sets };
        sets.push(vec![*one]);
        let firsts = if count <= ALL_PAIRS { count } else { WORST_TRIED };
        let mut pair: Option<(f64, Vec<usize>)> = None;
        for (place, (_, first)) in ones.iter().take(firsts).enumerate() {
            for (_, second) in &ones[place + 1..] {
                let mut set = vec![*first, *second];
                set.sort_unstable();
                let share = share(&set);
                if pair.as_ref().is_none_or(|(most, _)| share > *most) {
                    pair = Some((share, set));
                }
                if share.is_infinite() {
                    break;
                }
            }
        }
        // One mount alone holds nothing, so two gone of three say nothing new.
        sets.extend(pair.filter(|_| count > 3).map(|(_, set)| set));
        sets
    }

    /// The greatest use; inner `None` where the frame is free to turn.
    #[allow(clippy::option_option)] // No array and no hold are two things.
    fn most(&self, circumstances: &Circumstances<'_>, driving: bool) -> Option<Option<Most>> {
        let Ok(mut loads) = loads::run(self.build, self.work, self.tables, circumstances)? else {
            return Some(None);
        };
        if driving {
            loads.cases.retain(|loaded| loaded.case.when != Situation::Parked);
            loads.lifted.clear();
        }
        Some(self.greatest(&loads))
    }

    fn greatest(&self, loads: &Loads) -> Option<Most> {
        let bonds = self.joints.uses(loads);
        let metal =
            metal::at_mounts(self.build, self.work, loads, &bonds, self.tightening, self.tables);
        let bonded = bonds.iter().map(|bond| (bond.governing().share, bond.mark.clone()));
        let metal = metal.into_iter().map(|entry| (entry.share, entry.at));
        bonded
            .chain(metal)
            .reduce(|most, next| if next.0 > most.0 { next } else { most })
            .map(|(share, mark)| Most { share, mark })
    }

    fn without(&self, index: usize, design: Speed) -> Lost {
        let lost = [index];
        let gone = Circumstances { lost: &lost, ..Circumstances::default() };
        let left = self.most(&gone, false).flatten();
        let speed = left.as_ref().and_then(|_| {
            speeds(self.build, design).into_iter().rev().find(|speed| {
                let at = Circumstances { speed: Some(*speed), ..gone };
                self.most(&at, true).flatten().is_some_and(|most| most.share <= 1.0)
            })
        });
        Lost { mark: self.work.mounts[index].mark.clone(), left, speed }
    }
}

/// Round marks of the dial up to the design speed, which is the last.
fn speeds(build: &Build, design: Speed) -> Vec<Speed> {
    let mph = *build.job.units == LengthUnit::Inch;
    let step = if mph { 5.0 } else { 10.0 };
    let dial = |v: Speed| if mph { v.to_mph() } else { v.to_kmh() };
    let back = |n: f64| if mph { Speed::mph(n) } else { Speed::kmh(n) };
    let mut list: Vec<Speed> = SHARES
        .iter()
        .map(|share| back((dial(design) * share / step).round() * step))
        .filter(|speed| *speed > Speed::ZERO && *speed < design)
        .collect();
    list.push(design);
    list.dedup_by(|a, b| (*a - *b).abs() < Speed::kmh(0.5));
    list
}

fn enter(reserve: &Reserve, ledger: &mut Ledger) {
    for row in &reserve.speeds {
        let Some(Some(sound)) = row.gone.first() else { continue };
        let mut figure = Figure::new(
            format!("reserve.speed.{:.0}", row.speed.to_kmh()),
            format!("greatest use of a mount at {:.0} km/h", row.speed.to_kmh()),
            sound.share,
            "",
        )
        .input("at", sound.mark.clone());
        for (gone, marks) in row.gone.iter().zip(&reserve.worst).skip(1) {
            let told = gone.as_ref().map_or_else(
                || "the frame turns".to_owned(),
                |most| format!("{} at {}", display::capacity_used(most.share), most.mark),
            );
            figure = figure.input(format!("{} gone", marks.join(" and ")), told);
        }
        ledger.push(
            figure
                .formula("the whole computation again at that speed, driving cases")
                .source("loads, bonding and metal of this packet", Seen::Computed),
        );
    }
    for lost in reserve.lost.iter().filter(|lost| lost.left.is_some()) {
        let Some(most) = &lost.left else { continue };
        ledger.push(
            Figure::new(
                format!("reserve.lost.{}", lost.mark),
                format!("greatest use of the others if {} lets go", lost.mark),
                most.share,
                "",
            )
            .input("at", most.mark.clone())
            .formula("the whole computation again without that mount")
            .source("loads, bonding and metal of this packet", Seen::Computed),
        );
    }
}

fn judge(work: &Work, reserve: &Reserve, findings: &mut Vec<Finding>) {
    let share = |lost: &Lost| lost.left.as_ref().map_or(f64::INFINITY, |most| most.share);
    let Some(worst) = reserve.lost.iter().max_by(|a, b| share(a).total_cmp(&share(b))) else {
        return;
    };
    if share(worst) <= 1.0 {
        return;
    }
    let span =
        work.mounts.iter().find(|m| m.mark == worst.mark).map(|m| m.span).unwrap_or_default();
    let message = match &worst.left {
        Some(most) => format!(
            "if {} lets go, {} is used to {} of its capacity",
            worst.mark,
            most.mark,
            display::capacity_used(most.share)
        ),
        None => format!("if {} lets go, the frame is free to turn", worst.mark),
    };
    findings.push(
        Finding::new(&ONE_LOST, message)
            .at(span, "one mount of this line taken away")
            .means("no neighbour can take over: the first loose mount is found by looking, not by luck")
            .help("fit one more mount on this edge, or tether the frame")
            .help("look at every mount before a long drive; the load sheet tells the speed that is left"),
    );
}
