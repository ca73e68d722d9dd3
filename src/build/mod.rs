//! What the reader wrote: the build file as types, in units, each value with its place.
//!
//! After [`crate::read`] later stages may rely on this: every unit is resolved, every material,
//! section and fastener is a row of the tables, every default is filled in and says so
//! ([`Stated::origin`](crate::source::Stated)), counts are at least one, lengths are finite and
//! positive where a thing needs a size, marks are unique. What one table needs from another is
//! there: see the fields of [`Build`]. Where a controller or a circuit meets the panels, each panel
//! has its `voc`, `isc`, `vmp` and `imp`; a circuit has its `current` unless panels, controller, supply
//! or its neighbours tell it. Roof stations and readings are sorted and no two are at one place.
//!
//! Nothing else is promised: whether a panel fits the roof, whether an angle's section is an angle,
//! or whether a [`DirectHole`] names a part is for later stages to judge.
//!
//! Axes follow ISO 4130: X rearward from the datum, Y to the right of the centre line, Z up.

mod actions;
mod battery;
mod bracket;
mod circuit;
mod corner;
mod cutting;
mod direct;
mod fixture;
mod frame;
mod job;
mod latch;
mod mount;
mod panel;
mod prop;
mod record;
mod roof;
mod row_use;
mod vehicle;
mod weather;

pub use actions::{Actions, CrashClass, StormPressure, Uplift};
pub use battery::{
    Anchor, Battery, ColdCharging, HoldBy, Restraint, RowWay, SpreaderPlate, ThroughBolt, WoodScrew,
};
pub use bracket::{Fold, Wedge};
pub use circuit::{
    Bond, Circuit, Controller, ControllerKind, Earth, Entry, Insulation, Isolator, IsolatorKind,
    Laid, PanelConnection, StringOf, Supply, Switched, Terminal,
};
pub use corner::{Corner, CornerAngle, CornerCut, CornerFastener, CornerJoin, Through, TubeCorner};
pub use cutting::{Cutting, Goods, Leftover, SheetLeftover, SheetStock, Stock};
pub use direct::{
    DirectAction, DirectDone, DirectHole, DirectLength, DirectPart, DirectPlate, DirectStep,
    HolePurpose, StepPlace,
};
pub use fixture::{FixedOn, Fixture};
pub use frame::{Arrangement, Frame, LongSide, Overhang, Packer, Place};
pub use job::{HAND_ZONE, JIG_ZONE, Job, Language, LengthUnit, Marking, MarkingBy, Paper};
pub use latch::{Latch, LatchHoles, LatchKind};
pub use mount::{
    Bead, BoltedFoot, BondedFoot, Edge, HingeLine, Mount, MountKind, Plate, Rail, RailClamp,
    Spreader, TapeStrips,
};
pub use panel::{Flange, Panel};
pub use prop::Prop;
pub use record::{Batch, Measured, Photo, Record};
pub use roof::{Crown, Gap, KeepOut, KeepOutKind, Lid, Roof, RoofShape, Station};
pub use row_use::RowUse;
pub use vehicle::{Balance, Centre, Finish, RoofLimit, RoofSkin, Vehicle};
pub use weather::{Air, Crew, HourAir, RateChange, Sky, Weather};

/// One whole build file.
#[derive(Debug, Clone)]
pub struct Build {
    /// Title block fields and how to print.
    pub job: Job,
    /// The vehicle that the equipment goes on; always there where a roof, frame, mount or entry is.
    pub vehicle: Option<Vehicle>,
    /// Roof shape and what is in the way; always there where a frame, mount or entry is.
    pub roof: Option<Roof>,
    /// Air temperature and humidity over the work and the cure; stated where anything is bonded.
    pub weather: Weather,
    /// Wind, snow and measured coefficients.
    pub actions: Actions,
    /// Who works and when.
    pub crew: Crew,
    /// Kinds of panel, in file order.
    pub panels: Vec<Panel>,
    /// The frames under the panels, in file order; always there where mounts are, and mounts where
    /// they are.
    pub frames: Vec<Frame>,
    /// Mount lines, in file order.
    pub mounts: Vec<Mount>,
    /// Where the cables go through the roof.
    pub entry: Option<Entry>,
    /// Other things bolted through a skin.
    pub fixtures: Vec<Fixture>,
    /// Saw, trim and what counts as a useful leftover.
    pub cutting: Cutting,
    /// Lengths that can be bought.
    pub stock: Vec<Stock>,
    /// Lengths on hand.
    pub leftovers: Vec<Leftover>,
    /// Sheets that can be bought.
    pub sheets: Vec<SheetStock>,
    /// Sheets on hand.
    pub sheet_leftovers: Vec<SheetLeftover>,
    /// The battery; always there where a restraint is or a circuit leads to it.
    pub battery: Option<Battery>,
    /// What holds the battery.
    pub restraint: Option<Restraint>,
    /// The charge controller; always there where a circuit leads to it.
    pub controller: Option<Controller>,
    /// The vehicle's own battery; always there where a circuit leads from it.
    pub supply: Option<Supply>,
    /// The switch between panels and controller, where one is on hand.
    pub isolator: Option<Isolator>,
    /// Whether the minus is joined to the vehicle's body.
    pub earth: Option<Earth>,
    /// Panels of each string by their marks; empty: they fill strings in the order of the file.
    pub strings: Vec<StringOf>,
    /// Cable runs.
    pub circuits: Vec<Circuit>,
    /// Parts stated directly.
    pub parts: Vec<DirectPart>,
    /// Sheet parts stated directly.
    pub plates: Vec<DirectPlate>,
    /// Pieces of cable, tape and the like, stated directly.
    pub lengths: Vec<DirectLength>,
    /// Holes stated directly.
    pub holes: Vec<DirectHole>,
    /// Steps stated directly.
    pub steps: Vec<DirectStep>,
    /// Work times of the reader's own.
    pub rates: Vec<RateChange>,
    /// What was done so far.
    pub records: Vec<Record>,
    /// Rows of the tables that it names, each once, in the order in which they are read.
    pub rows: Vec<RowUse>,
}

impl Build {
    /// Key of a figure of one frame: "frame.under", or "frame.2.under" where there are several.
    pub fn frame_key(&self, frame: usize, what: &str) -> String {
        if self.frames.len() < 2 {
            format!("frame.{what}")
        } else {
            format!("frame.{}.{what}", frame + 1)
        }
    }

    /// What a frame is called in a sentence: "the frame" where it is the only one.
    pub fn the_frame(&self, frame: usize) -> String {
        match self.frames.get(frame) {
            Some(frame) if self.frames.len() > 1 => format!("the {}", frame.name.value),
            _ => "the frame".to_owned(),
        }
    }

    /// Every photograph, in the order in which the packet shows them.
    pub fn photos(&self) -> impl Iterator<Item = &Photo> {
        let vehicle = self.vehicle.iter().flat_map(|vehicle| &vehicle.photos);
        let roof = self.roof.iter().flat_map(|roof| &roof.photos);
        let steps = self.steps.iter().flat_map(|step| &step.photos);
        let records = self.records.iter().flat_map(|record| &record.photos);
        vehicle.chain(roof).chain(steps).chain(records)
    }

    /// Whether parts to cut and drill are all there is: nothing is fitted to a vehicle, and nobody
    /// asked for a plan by the clock.
    pub fn is_bench_work(&self) -> bool {
        self.vehicle.is_none()
            && self.roof.is_none()
            && self.frames.is_empty()
            && self.entry.is_none()
            && self.fixtures.is_empty()
            && self.battery.is_none()
            && self.controller.is_none()
            && self.mounts.is_empty()
            && self.panels.is_empty()
            && self.circuits.is_empty()
            && self.steps.is_empty()
            && self.crew.start.is_default()
            && self.crew.people.is_default()
    }
}
