//! Changes that would bring a bond under its limit, each worked through the whole computation: a
//! larger plate, more strips, the leg over the middle, one more foot, less speed.

use super::{BondUse, Joints};
use crate::build::{BondedFoot, Build, Mount, MountKind};
use crate::compute::cure::CHANNEL;
use crate::compute::loads::{self, Circumstances};
use crate::compute::{fasteners, metal};
use crate::derive::{Bond, Work, derive};
use crate::source::{Finding, Ledger, Severity, Span, Stated};
use crate::tables::Tables;
use crate::units::{Length, Speed, display};
use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;

/// Use that a remedy must reach.
pub const AIM: f64 = 0.8;
/// Sizes are offered in steps of this.
const STEP: f64 = 10.0;
/// Plates longer than this are no remedy.
const LONGEST: f64 = 600.0;
/// Metal that a layout with one strip more may take, over that of the best with as many as now.
const WORTH_A_STRIP: f64 = 0.85;
/// Times that a plate is made longer before it is given up.
const GROWTHS: u32 = 6;
/// Most feet that are added.
const MOST_ADDED: usize = 4;
/// Nobody drives a remedy slower than this.
const SLOWEST: Speed = Speed::kmh(30.0);

/// A build whose line of feet is to be mended.
pub(super) struct Trial<'a> {
    pub build: &'a Build,
    pub work: &'a Work,
    /// The joints of the build as it is.
    pub joints: &'a Joints<'a>,
    pub tables: &'a Tables,
    /// Place of the `[[mount]]`.
    pub line: Span,
    /// Count of stops in the build as it is, once asked for.
    pub stops: OnceCell<usize>,
    /// Use of the line's metal that a changed plate may not exceed, once asked for.
    pub metal: OnceCell<f64>,
    /// Use of the bonds on other edges that fewer feet may not exceed, once asked for.
    pub others: OnceCell<f64>,
    /// Uses with other counts of feet, as far as they were asked for.
    pub spreads: RefCell<BTreeMap<usize, Option<f64>>>,
}

/// Greatest uses in a build.
struct Uses {
    /// Of the bonds of the line.
    bond: f64,
    /// Of the bonds of other lines.
    others: f64,
    /// Of the metal of the line's mounts.
    metal: f64,
}

/// A plate with its strips.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// Along the edge.
    pub length: Length,
    /// Across it.
    pub width: Length,
    /// Strips of tape.
    pub strips: u32,
    /// Use of capacity with it.
    pub share: f64,
}

impl Layout {
    fn area(&self) -> f64 {
        self.length.to_mm() * self.width.to_mm()
    }
}

/// The least that would do for a line of feet, with the use that is aimed at.
#[derive(Debug, Clone, PartialEq)]
pub struct Least {
    /// The smallest plate; `None` where none up to 600 mm does it.
    pub plate: Option<Layout>,
    /// The fewest feet on this edge and their use; `None` where four more do not do it.
    pub feet: Option<(usize, f64)>,
}

/// The least that would do for a line of feet.
pub(super) fn least(trial: &Trial, foot: &BondedFoot, bond: &Bond, entry: &BondUse) -> Least {
    let share = entry.governing().share;
    Least { plate: trial.smallest(foot, bond, share), feet: trial.fewest(share) }
}

/// Remedies in words, best first; there is always one.
pub(super) fn helps(
    trial: &Trial,
    foot: &BondedFoot,
    bond: &Bond,
    entry: &BondUse,
    least: &Least,
) -> Vec<String> {
    let mut helps: Vec<String> = Vec::new();
    let mut say = |words: String| {
        helps.push(if helps.is_empty() { words } else { format!("or {words}") });
    };
    if !foot.plate.shift.is_zero()
        && let Some(share) = trial.with(|foot| foot.plate.shift.value = Length::ZERO)
        && share < entry.governing().share
    {
        say(format!(
            "put the plate's middle under the leg, `shift = 0`: that brings it to {}",
            display::capacity_used(share)
        ));
    }
    if let Some(least) = &least.plate {
        let strips = foot.tape.as_ref().map_or(0, |tape| *tape.strips);
        say(plate_words(bond, strips, least));
    }
    if let Some((count, share)) = trial.more() {
        say(format!(
            "fit {} feet on this edge: that brings them to {}",
            spelled(count),
            display::capacity_used(share)
        ));
    }
    if let Some(speed) = trial.speed() {
        say(format!("state a design speed of at most {:.0} km/h", speed.to_kmh()));
    }
    if helps.is_empty() {
        helps.push(
            "hold the frame by bolts or clamps instead: no plate of this kind will do".into(),
        );
    }
    helps
}

impl Trial<'_> {
    fn is_line(&self, mount: &Mount) -> bool {
        mount.span == self.line
    }

    /// The greatest uses in a changed build; `None` where it can't be built.
    fn greatest(&self, build: &Build) -> Option<Uses> {
        let (work, found) = derive(build);
        // What can't be built now may stay so: that is told by itself.
        let stopped = stops(&found);
        if stopped > 0 && stopped > *self.stops.get_or_init(|| stops(&derive(self.build).1)) {
            return None;
        }
        let joints = Joints::new(build, &work, self.tables);
        self.of_line(build, &work, &joints, &Circumstances::default())
    }

    /// The same in the build as it is.
    fn now(&self, circumstances: &Circumstances<'_>) -> Option<Uses> {
        self.of_line(self.build, self.work, self.joints, circumstances)
    }

    fn of_line(
        &self,
        build: &Build,
        work: &Work,
        joints: &Joints,
        circumstances: &Circumstances<'_>,
    ) -> Option<Uses> {
        let loads = loads::run(build, work, self.tables, circumstances)?.ok()?;
        let number = build.mounts.iter().position(|mount| self.is_line(mount))?;
        let marks: Vec<&str> =
            work.mounts.iter().filter(|m| m.mount == number).map(|m| m.mark.as_str()).collect();
        let bonds = joints.uses(&loads);
        let share = |own: bool| {
            bonds
                .iter()
                .filter(|entry| marks.contains(&entry.mark.as_str()) == own)
                .map(|entry| entry.governing().share)
                .reduce(f64::max)
        };
        let tightening = fasteners::fasteners(work, self.tables, &mut Ledger::new());
        let metal = metal::at_mounts(build, work, &loads, &bonds, &tightening, self.tables)
            .iter()
            .filter(|entry| marks.contains(&entry.at.as_str()))
            .map(|entry| entry.share)
            .fold(0.0, f64::max);
        Some(Uses { bond: share(true)?, others: share(false).unwrap_or(0.0), metal })
    }

    /// The greatest use with each foot of the line changed.
    fn with(&self, change: impl Fn(&mut BondedFoot)) -> Option<f64> {
        Some(self.greatest(&self.changed(change)?)?.bond)
    }

    /// The build with each foot of the line changed.
    fn changed(&self, change: impl Fn(&mut BondedFoot)) -> Option<Build> {
        let mut build = self.build.clone();
        let mount = build.mounts.iter_mut().find(|mount| self.is_line(mount))?;
        let MountKind::BondedFoot(foot) = &mut mount.kind else { return None };
        change(foot);
        Some(build)
    }

    /// The smallest plate that does it: of some widths the one that takes the least metal at the least
    /// length of each, with one strip of tape more only where that saves a good part of it.
    fn smallest(&self, foot: &BondedFoot, bond: &Bond, share: f64) -> Option<Layout> {
        let mut best: Option<Layout> = None;
        for (more, widths) in shapes(foot, bond, share > AIM).into_iter().enumerate() {
            let worth = if more > 0 { WORTH_A_STRIP } else { 1.0 };
            for (width, strips) in widths {
                let most = best.as_ref().map_or(f64::INFINITY, |best| best.area() * worth);
                let found = self.least_length(width, strips, bond.length.to_mm(), most);
                best = found.or(best);
            }
        }
        best
    }

    /// The least length of a plate of this width that reaches the aim and takes less metal than `most`.
    fn least_length(&self, width: f64, strips: u32, own: f64, most: f64) -> Option<Layout> {
        let fits = |steps: u32| {
            let long = f64::from(steps) * STEP;
            long <= LONGEST && long * width < most
        };
        let at = |steps: u32| self.layout(f64::from(steps) * STEP, width, strips);
        let start = (own / STEP).ceil() as u32;
        let (mut low, mut found) = (0, None);
        let mut try_at = start;
        // Longer until it does.
        for _ in 0..GROWTHS {
            if !fits(try_at) {
                break;
            }
            let layout = at(try_at)?;
            if layout.share <= AIM {
                found = Some((try_at, layout));
                break;
            }
            low = try_at;
            let grown = (f64::from(try_at) * (layout.share / AIM).min(2.0)).ceil() as u32;
            try_at = grown.max(try_at + 1);
        }
        // A width that is too metal-hungry at its own length may still be shorter.
        if found.is_none() && try_at == start && low == 0 {
            let longest = (most / width / STEP).ceil() as u32;
            let shorter = longest.checked_sub(1).filter(|steps| *steps > 0 && fits(*steps))?;
            let layout = at(shorter).filter(|layout| layout.share <= AIM)?;
            found = Some((shorter, layout));
        }
        let (mut high, mut best) = found?;
        while high - low > 1 {
            let middle = low.midpoint(high);
            match at(middle).filter(|layout| layout.share <= AIM) {
                Some(layout) => (high, best) = (middle, layout),
                None => low = middle,
            }
        }
        Some(best)
    }

    /// A plate of this size with so many strips: its use; `None` where it can't be built or the metal
    /// of the foot does not hold.
    fn layout(&self, long: f64, wide: f64, strips: u32) -> Option<Layout> {
        let (length, width) = (Length::mm(long), Length::mm(wide));
        let build = self.changed(|foot| {
            foot.plate.length.value = length;
            foot.plate.width.value = width;
            // A bracket as long as its plate stays so.
            if foot.angle_length.is_default() {
                foot.angle_length.value = length;
            }
            if let Some(tape) = &mut foot.tape {
                tape.strips.value = strips;
            }
        })?;
        let on = self.greatest(&build)?;
        let metal = *self.metal.get_or_init(|| {
            self.now(&Circumstances::default()).map_or(1.0, |now| now.metal.max(1.0))
        });
        (on.metal <= metal).then_some(Layout { length, width, strips, share: on.bond })
    }

    /// The fewest feet on this edge that reach the aim.
    fn fewest(&self, own: f64) -> Option<(usize, f64)> {
        let mount = self.build.mounts.iter().find(|mount| self.is_line(mount))?;
        let now = mount.at.len();
        let fewer = (2..now).find_map(|count| Some((count, self.spread(count)?)));
        fewer.or_else(|| (own <= AIM).then_some((now, own))).or_else(|| self.more())
    }

    /// The least number of feet beyond those of now that reaches the aim.
    fn more(&self) -> Option<(usize, f64)> {
        let mount = self.build.mounts.iter().find(|mount| self.is_line(mount))?;
        let now = mount.at.len();
        (now + 1..=now + MOST_ADDED).find_map(|count| Some((count, self.spread(count)?)))
    }

    /// The use with so many feet, evenly from the first to the last of now; `None` where that misses
    /// the aim, can't be built, or overloads the feet of another edge.
    fn spread(&self, count: usize) -> Option<f64> {
        if let Some(known) = self.spreads.borrow().get(&count) {
            return *known;
        }
        let found = self.spread_anew(count);
        self.spreads.borrow_mut().insert(count, found);
        found
    }

    fn spread_anew(&self, count: usize) -> Option<f64> {
        let mount = self.build.mounts.iter().find(|mount| self.is_line(mount))?;
        let places: Vec<Length> = mount.at.iter().map(|at| **at).collect();
        let low = places.iter().copied().reduce(Length::min)?;
        let high = places.iter().copied().reduce(Length::max)?;
        if high <= low {
            return None;
        }
        let mut build = self.build.clone();
        let mount = build.mounts.iter_mut().find(|mount| mount.span == self.line)?;
        mount.at = (0..count)
            .map(|i| {
                let at = low + (high - low) * (i as f64 / (count - 1) as f64);
                Stated { value: at, ..mount.at[0] }
            })
            .collect();
        let on = self.greatest(&build)?;
        let others = *self.others.get_or_init(|| {
            self.now(&Circumstances::default()).map_or(AIM, |now| now.others.max(AIM))
        });
        (on.bond <= AIM && on.others <= others).then_some(on.bond)
    }

    /// The highest speed at which the line reaches the aim, where speed decides.
    fn speed(&self) -> Option<Speed> {
        let own = *self.build.vehicle.as_ref()?.speed;
        let reaches = |speed: Speed| {
            let slower = Circumstances { speed: Some(speed), ..Circumstances::default() };
            self.now(&slower).is_some_and(|on| on.bond <= AIM)
        };
        if own <= SLOWEST || !reaches(SLOWEST) {
            return None;
        }
        let (mut low, mut high) = (SLOWEST, own);
        while high - low > Speed::kmh(1.0) {
            let middle = low + (high - low) / 2.0;
            if reaches(middle) { low = middle } else { high = middle }
        }
        // Down to a mark of the dial.
        let kmh = (low.to_kmh() / 5.0).floor() * 5.0;
        (kmh >= SLOWEST.to_kmh()).then(|| Speed::kmh(kmh))
    }
}

/// The smallest plate that does it, in words.
fn plate_words(bond: &Bond, strips: u32, least: &Layout) -> String {
    let layout = if least.strips == strips {
        String::new()
    } else {
        format!(" with {} strips", spelled(least.strips as usize))
    };
    format!(
        "make the plate at least {:.0} × {:.0} mm{layout} instead of {:.0} × {:.0} mm: that brings it to {}",
        least.length.to_mm(),
        least.width.to_mm(),
        bond.length.to_mm(),
        bond.width.to_mm(),
        display::capacity_used(least.share)
    )
}

/// Widths of a plate with their strips that are tried, with as many strips as now and then with one
/// more: as it is, and wider where it must be larger, else the least that holds the strips with channels
/// for the air beside a bead.
fn shapes(foot: &BondedFoot, bond: &Bond, larger: bool) -> [Vec<(f64, u32)>; 2] {
    let width = bond.width.to_mm();
    let strips = foot.tape.as_ref().map_or(0, |tape| *tape.strips);
    let tape = foot.tape.as_ref().map_or(0.0, |tape| tape.width.to_mm());
    let bead = foot.bead.as_ref().map_or(0.0, |bead| bead.width.to_mm() + 2.0 * CHANNEL.to_mm());
    let least = |strips: u32| {
        let own = f64::from(strips) * tape + f64::from(strips.saturating_sub(1)) * bead;
        (own.max(STEP) / STEP).ceil() * STEP
    };
    let wider = |by: f64| ((width + by) / STEP).round() * STEP;
    if strips == 0 {
        return [vec![(width, 0), (wider(STEP), 0), (wider(3.0 * STEP), 0)], Vec::new()];
    }
    let more = vec![(wider(tape).max(least(strips + 1)), strips + 1)];
    if larger {
        [vec![(width, strips), (wider(STEP), strips), (wider(3.0 * STEP), strips)], more]
    } else {
        let narrow = least(strips).min(width);
        [vec![(width, strips), (f64::midpoint(narrow, width), strips), (narrow, strips)], more]
    }
}

fn stops(found: &[Finding]) -> usize {
    found.iter().filter(|finding| finding.severity == Severity::Stop).count()
}

fn spelled(count: usize) -> String {
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
        .get(count)
        .map_or_else(|| count.to_string(), |word| (*word).to_owned())
}
