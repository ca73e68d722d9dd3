//! Waits of a build's joints by the minute at which they are made, each worked out once.

use super::forecast::Forecast;
use super::joint::Stage;
use super::models::LONGEST;
use super::recipe::{Recipe, Told, recipes};
use crate::build::Build;
use crate::compute::bonding::BondUse;
use crate::derive::Work;
use crate::tables::Tables;
use crate::units::Duration;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Waits in the air of the forecast.
pub struct ByHour<'a> {
    air: Forecast,
    /// Joints by mark; the recipe is that of the first joint that is alike.
    joints: BTreeMap<String, usize>,
    recipes: Vec<Recipe<'a>>,
    known: RefCell<BTreeMap<(usize, Stage, i64), Duration>>,
}

impl<'a> ByHour<'a> {
    /// Of a build.
    pub fn of(build: &'a Build, work: &'a Work, bonds: &[BondUse], tables: &'a Tables) -> Self {
        let mut kinds: Vec<Recipe> = Vec::new();
        let mut joints = BTreeMap::new();
        for recipe in recipes(build, work, bonds, tables) {
            let kind = kinds.iter().position(|known| known.alike(&recipe)).unwrap_or_else(|| {
                kinds.push(recipe);
                kinds.len() - 1
            });
            joints.insert(recipe.mark(), kind);
        }
        Self {
            air: Forecast::of(build),
            joints,
            recipes: kinds,
            known: RefCell::new(BTreeMap::new()),
        }
    }

    /// Wait of a joint that is made at a minute until a stage, or until the next that it has; what never
    /// ends counts as the longest wait, what knows no wait as none.
    pub fn wait(&self, mark: &str, stage: Stage, minute: i64) -> Duration {
        let Some(&kind) = self.joints.get(mark) else { return Duration::ZERO };
        // From the last day of the forecast on, all days are alike.
        let last = (i64::from(self.air.days()) - 1) * 1440;
        let minute = if minute > last { last + (minute - last).rem_euclid(1440) } else { minute };
        let key = (kind, stage, minute);
        if let Some(known) = self.known.borrow().get(&key) {
            return *known;
        }
        let made = Duration::minutes(minute as f64);
        let wait = Stage::ALL.into_iter().filter(|later| *later >= stage).find_map(|stage| {
            let joint = self.recipes[kind].joint(made, &self.air, Told::Only(stage));
            joint.wait(stage).map(|wait| wait.time.unwrap_or(LONGEST))
        });
        let wait = wait.unwrap_or(Duration::ZERO);
        self.known.borrow_mut().insert(key, wait);
        wait
    }
}
