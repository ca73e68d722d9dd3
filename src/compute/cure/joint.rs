//! A joint and its waits.

use super::day_table::DayTable;
use super::forecast::Limits;
use crate::units::{Duration, Length, Ratio, TemperatureRise};

/// What a joint may be used for next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// A skin has formed; no dust sticks.
    Skin,
    /// It may be let go of.
    Handle,
    /// Clamps, weights and spacers may come off.
    Clamp,
    /// It may carry the frame at rest.
    Load,
    /// It may be driven with.
    Drive,
    /// Rain and washing by hand do no harm.
    Rain,
    /// As strong as it gets.
    Full,
}

impl Stage {
    /// In order.
    pub const ALL: [Self; 7] =
        [Self::Skin, Self::Handle, Self::Clamp, Self::Load, Self::Drive, Self::Rain, Self::Full];

    /// Key in figure names.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Skin => "skin",
            Self::Handle => "handling",
            Self::Clamp => "clamps",
            Self::Load => "load",
            Self::Drive => "drive",
            Self::Rain => "rain",
            Self::Full => "full",
        }
    }

    /// As printed.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Skin => "skin",
            Self::Handle => "let go",
            Self::Clamp => "clamps off",
            Self::Load => "load at rest",
            Self::Drive => "drive",
            Self::Rain => "rain, washing by hand",
            Self::Full => "full strength",
        }
    }
}

/// What kind of joint it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointKind {
    /// A bond that carries.
    Bond,
    /// A seal that keeps rain out.
    Seal,
    /// Bolts held by threadlocker.
    Threads,
}

/// When a joint is made and how the air there differs from the forecast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Made {
    /// Clock at which it is finished.
    pub at: Duration,
    /// Measured air less the forecast's.
    pub warmer: TemperatureRise,
    /// The same of humidity, as a share.
    pub wetter: Ratio,
}

impl Made {
    /// In the air of the forecast.
    pub const fn at(at: Duration) -> Self {
        Self { at, warmer: TemperatureRise::ZERO, wetter: Ratio::ZERO }
    }
}

/// One joint.
#[derive(Debug, Clone)]
pub struct JointCure {
    /// What kind.
    pub kind: JointKind,
    /// Key of the step that makes it, where that step does not name it in its own waits.
    pub by_step: Option<&'static str>,
    /// What comes out of a cartridge for it.
    pub product: Option<String>,
    /// Longest time between laying and closing the joint.
    pub open_time: Option<Duration>,
    /// Mark of the mount or entry.
    pub mark: String,
    /// Clock at which it was taken to be made, counted from midnight before the first day.
    pub made: Duration,
    /// Waits in order of their stages.
    pub waits: Vec<Wait>,
    /// Way that air must reach into the bead; absent without a bead.
    pub path: Option<Length>,
    /// What the surface must be while the joint is made.
    pub surface: Limits,
    /// Hours of the day on which it is made in which the surface is so and it is light.
    pub fit: Vec<(Duration, Duration)>,
    /// Waits in other air.
    pub table: DayTable,
}

impl JointCure {
    /// The wait until a stage.
    pub fn wait(&self, stage: Stage) -> Option<&Wait> {
        self.waits.iter().find(|wait| wait.stage == stage)
    }
}

/// One wait.
#[derive(Debug, Clone)]
pub struct Wait {
    /// What may be done then.
    pub stage: Stage,
    /// From making the joint; `None` for longer than a year.
    pub time: Option<Duration>,
    /// Share or depth behind it, "tape at 75 %".
    pub why: String,
}
