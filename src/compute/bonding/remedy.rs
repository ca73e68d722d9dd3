//! Changes that would bring a bond under its limit, each worked through the whole computation: a
//! larger plate, more strips, the leg over the middle, one more foot, less speed.

use super::{BondUse, uses};
use crate::build::{BondedFoot, Build, Mount, MountKind};
use crate::compute::loads::{self, Circumstances};
use crate::derive::{Bond, Work, derive};
use crate::source::{Finding, Severity, Span, Stated};
use crate::tables::Tables;
use crate::units::{Length, Speed, display};
use std::cell::OnceCell;

/// Use that a remedy must reach.
const AIM: f64 = 0.8;
/// Sizes are offered in steps of this.
const STEP: f64 = 10.0;
/// Plates longer than this are no remedy.
const LONGEST: f64 = 600.0;
/// Most feet that are added.
const MOST_ADDED: usize = 4;
/// Nobody drives a remedy slower than this.
const SLOWEST: Speed = Speed::kmh(30.0);

/// A build whose line of feet is to be mended.
pub(super) struct Trial<'a> {
    pub build: &'a Build,
    pub work: &'a Work,
    pub tables: &'a Tables,
    /// Place of the `[[mount]]`.
    pub line: Span,
    /// Count of stops in the build as it is, once asked for.
    pub stops: OnceCell<usize>,
}

/// Remedies in words, best first; there is always one.
pub(super) fn helps(trial: &Trial, foot: &BondedFoot, bond: &Bond, entry: &BondUse) -> Vec<String> {
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
    if let Some(words) = trial.plate(foot, bond, entry.governing().share) {
        say(words);
    }
    if let Some((count, share)) = trial.feet() {
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

    /// The greatest use of any foot of the line in a changed build; `None` where it can't be built.
    fn greatest(&self, build: &Build) -> Option<f64> {
        let (work, found) = derive(build);
        // What can't be built now may stay so: that is told by itself.
        if stops(&found) > *self.stops.get_or_init(|| stops(&derive(self.build).1)) {
            return None;
        }
        self.of_line(build, &work, &Circumstances::default())
    }

    fn of_line(&self, build: &Build, work: &Work, circumstances: &Circumstances) -> Option<f64> {
        let loads = loads::run(build, work, self.tables, circumstances)?.ok()?;
        let number = build.mounts.iter().position(|mount| self.is_line(mount))?;
        let marks: Vec<&str> =
            work.mounts.iter().filter(|m| m.mount == number).map(|m| m.mark.as_str()).collect();
        uses(build, work, &loads, self.tables)
            .iter()
            .filter(|entry| marks.contains(&entry.mark.as_str()))
            .map(|entry| entry.governing().share)
            .reduce(f64::max)
    }

    /// The greatest use with each foot of the line changed.
    fn with(&self, change: impl Fn(&mut BondedFoot)) -> Option<f64> {
        let mut build = self.build.clone();
        let mount = build.mounts.iter_mut().find(|mount| self.is_line(mount))?;
        let MountKind::BondedFoot(foot) = &mut mount.kind else { return None };
        change(foot);
        self.greatest(&build)
    }

    /// The smallest plate that does it, with as many strips as now or one more.
    fn plate(&self, foot: &BondedFoot, bond: &Bond, share: f64) -> Option<String> {
        let (length, width) = (bond.length.to_mm(), bond.width.to_mm());
        let strips = foot.tape.as_ref().map_or(0, |tape| *tape.strips);
        let wider = |by: f64| (width / STEP).round() * STEP + by;
        let mut shapes = vec![(width, strips), (wider(STEP), strips), (wider(3.0 * STEP), strips)];
        if strips > 0 {
            let room = foot.tape.as_ref().map_or(0.0, |tape| tape.width.to_mm());
            shapes.push(((wider(room) / STEP).ceil() * STEP, strips + 1));
        }
        let mut best: Option<(f64, f64, u32, f64)> = None;
        for (width, strips) in shapes {
            let Some((length, share)) = self.length_of(width, strips, length, share) else {
                continue;
            };
            if best.is_none_or(|(l, w, _, _)| length * width < l * w) {
                best = Some((length, width, strips, share));
            }
        }
        let (long, wide, count, share) = best?;
        let layout = if count == strips {
            String::new()
        } else {
            format!(" with {} strips", spelled(count as usize))
        };
        Some(format!(
            "make the plate at least {long:.0} × {wide:.0} mm{layout} instead of {length:.0} × {width:.0} mm: that brings it to {}",
            display::capacity_used(share)
        ))
    }

    /// The least length of a plate of this width that reaches the aim, and the use there.
    fn length_of(&self, width: f64, strips: u32, own: f64, share: f64) -> Option<(f64, f64)> {
        let mut long = (own * (share / AIM).clamp(0.5, 4.0) / STEP).ceil() * STEP;
        let mut found: Option<(f64, f64)> = None;
        for _ in 0..6 {
            if !(STEP..=LONGEST).contains(&long) {
                break;
            }
            let Some(share) = self.with(|foot| {
                foot.plate.length.value = Length::mm(long);
                foot.plate.width.value = Length::mm(width);
                // A bracket as long as its plate stays so.
                if foot.angle_length.is_default() {
                    foot.angle_length.value = Length::mm(long);
                }
                if let Some(tape) = &mut foot.tape {
                    tape.strips.value = strips;
                }
            }) else {
                break;
            };
            if share <= AIM {
                found = Some((long, share));
                long -= STEP;
            } else if found.is_some() {
                break;
            } else {
                long = ((long * share / AIM) / STEP).ceil().max(long / STEP + 1.0) * STEP;
            }
        }
        found
    }

    /// The least number of feet on this edge that reaches the aim, spread evenly from the first to the
    /// last of now.
    fn feet(&self) -> Option<(usize, f64)> {
        let mount = self.build.mounts.iter().find(|mount| self.is_line(mount))?;
        let places: Vec<Length> = mount.at.iter().map(|at| **at).collect();
        let low = places.iter().copied().reduce(Length::min)?;
        let high = places.iter().copied().reduce(Length::max)?;
        if high <= low {
            return None;
        }
        (places.len() + 1..=places.len() + MOST_ADDED).find_map(|count| {
            let mut build = self.build.clone();
            let mount = build.mounts.iter_mut().find(|mount| mount.span == self.line)?;
            mount.at = (0..count)
                .map(|i| {
                    let at = low + (high - low) * (i as f64 / (count - 1) as f64);
                    Stated { value: at, ..mount.at[0] }
                })
                .collect();
            let share = self.greatest(&build)?;
            (share <= AIM).then_some((count, share))
        })
    }

    /// The highest speed at which the line reaches the aim, where speed decides.
    fn speed(&self) -> Option<Speed> {
        let own = *self.build.vehicle.as_ref()?.speed;
        let reaches = |speed: Speed| {
            let slower = Circumstances { speed: Some(speed), ..Circumstances::default() };
            self.of_line(self.build, self.work, &slower).is_some_and(|share| share <= AIM)
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

fn stops(found: &[Finding]) -> usize {
    found.iter().filter(|finding| finding.severity == Severity::Stop).count()
}

fn spelled(count: usize) -> String {
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
        .get(count)
        .map_or_else(|| count.to_string(), |word| (*word).to_owned())
}
