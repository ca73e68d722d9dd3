//! Values that the build file leaves open and that were filled in.
//!
//! Names, marks and the title block are left out: they decide nothing. Tables that the build has not
//! are left out too, and so is what no part of it uses.

use crate::build::{
    Anchor, Build, Circuit, ControllerKind, Corner, CornerCut, CornerJoin, HoldBy, Insulation,
    IsolatorKind, Laid, LengthUnit, LongSide, MarkingBy, MountKind, PanelConnection, Restraint,
    RowWay, Sky, Terminal, Through, ThroughBolt,
};
use crate::compute::electrics::{SUPPLY_FEEDS, prospective, supply_current};
use crate::source::Stated;
use crate::units::Current;
use std::fmt::Display;

/// One value that was filled in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Key as the build file would write it: "circuit.ambient".
    pub key: &'static str,
    /// What it is of, where there are several: "W1, W2".
    pub of: String,
    /// The value.
    pub value: String,
    /// On what ground.
    pub ground: &'static str,
}

/// All values that were filled in and that this build uses, in the order of its tables.
pub fn defaults(build: &Build) -> Vec<Taken> {
    let mut list = List(Vec::new());
    list.add("job.date", "", &build.job.date);
    if !build.frames.is_empty() || !build.holes.is_empty() {
        let by = build.job.marking.by.as_ref().map(|by| match by {
            MarkingBy::Hand => "hand",
            MarkingBy::Jig => "jig",
        });
        list.add("job.marking.by", "", &by);
        list.add("job.marking.zone", "", &build.job.marking.zone);
    }
    weather_loads_and_crew(build, &mut list);
    for panel in &build.panels {
        let of = panel.mark.value.as_str();
        list.add("panel.count", of, &panel.count);
        if panel.voc.is_some() {
            list.add("panel.voc-drift", of, &panel.voc_drift);
        }
        list.add("panel.lead", of, &panel.lead);
    }
    for frame in &build.frames {
        let several = build.frames.len() > 1;
        let of = if several { frame.name.value.as_str() } else { "" };
        let side = frame.arrangement.long_side.as_ref().map(|side| match side {
            LongSide::Across => "across",
            LongSide::Along => "along",
        });
        list.add("frame.long-side", of, &side);
        list.add("frame.rows", of, &frame.arrangement.rows);
        list.add("frame.columns", of, &frame.arrangement.columns);
        if let Corner::Tubes(corner) = &frame.corner {
            if *corner.cut == CornerCut::Butt {
                let through = corner.through.as_ref().map(|through| match through {
                    Through::Sides => "side-tubes",
                    Through::Ends => "end-tubes",
                });
                list.add("frame.corner.through", of, &through);
            }
            if let CornerJoin::Angle(angle) = &corner.join {
                list.add("frame.corner.each", of, &angle.each);
            }
        }
        list.add("frame.gap", of, &frame.gap);
        list.add("frame.position.x", of, &frame.position.x);
        list.add("frame.position.y", of, &frame.position.y);
        list.add("frame.clearance", of, &frame.clearance);
        list.add("frame.cross-members", of, &frame.cross_members);
        list.add("frame.panel-screw-pitch", of, &frame.panel_screw_pitch);
        if let Some(packer) = &frame.packer {
            list.add("frame.packer.free", of, &packer.free);
        }
    }
    for mount in &build.mounts {
        let of = mount.mark.value.as_str();
        match &mount.kind {
            MountKind::Hinge(line) => {
                list.add("mount.lift", of, &line.lift);
                list.add("mount.rail.thickness", of, &line.rail.thickness);
            }
            MountKind::BoltedFoot(foot) => {
                list.add("mount.angle-length", of, &foot.angle_length);
                if let Some(wedge) = &foot.wedge {
                    list.add("mount.wedge.least", of, &wedge.least);
                }
            }
            MountKind::RailClamp(clamp) => {
                list.add("mount.rail.thickness", of, &clamp.rail.thickness);
            }
            MountKind::BondedFoot(foot) => {
                list.add("mount.plate.shift", of, &foot.plate.shift);
                list.add("mount.angle-length", of, &foot.angle_length);
                if let Some(wedge) = &foot.wedge {
                    list.add("mount.wedge.least", of, &wedge.least);
                }
            }
        }
    }
    cutting(build, &mut list);
    let joined = |circuit: &Circuit| {
        [&circuit.from, &circuit.to].iter().any(|end| ***end == Terminal::Battery)
    };
    if let Some(battery) = build.battery.as_ref().filter(|_| build.circuits.iter().any(joined)) {
        list.add("battery.stud", "", &battery.stud);
    }
    if let Some(limit) = build.vehicle.as_ref().and_then(|vehicle| vehicle.limit.as_ref()) {
        list.add("vehicle.roof-limit.people", "", &limit.people);
    }
    if let Some(battery) = &build.battery {
        list.add("battery.hottest", "", &battery.hottest);
    }
    if let Some(held) = &build.restraint {
        restraint(held, &mut list);
    }
    places(build, &mut list);
    if let Some(controller) = &build.controller {
        let kind = controller.kind.as_ref().map(|kind| match kind {
            ControllerKind::Solar => "solar",
            ControllerKind::DcDc => "dc-dc",
        });
        list.add("controller.kind", "", &kind);
        // One panel alone is joined to nothing.
        let several = build.panels.iter().map(|panel| *panel.count).sum::<u32>() > 1;
        if several && controller.in_series.is_none() {
            let connection = controller.connection.as_ref().map(|way| match way {
                PanelConnection::Parallel => "parallel",
                PanelConnection::Series => "series",
            });
            list.add("controller.connection", "", &connection);
        }
    }
    electrics(build, &mut list);
    for part in &build.parts {
        list.add("part.count", part.name.value.as_str(), &part.count);
    }
    for plate in &build.plates {
        list.add("part.count", plate.name.value.as_str(), &plate.count);
    }
    for length in &build.lengths {
        list.add("part.count", length.name.value.as_str(), &length.count);
    }
    list.0
}

fn weather_loads_and_crew(build: &Build, list: &mut List) {
    let weather = &build.weather;
    // Where nothing cures, air decides nothing; where no panel has a voltage, neither does frost.
    let cures = build.entry.is_some()
        || build.mounts.iter().any(|mount| matches!(mount.kind, MountKind::BondedFoot(_)));
    if cures {
        list.add("weather.day.temperature", "", &weather.day.temperature);
        list.add("weather.day.humidity", "", &weather.day.humidity);
        list.add("weather.night.temperature", "", &weather.night.temperature);
        list.add("weather.night.humidity", "", &weather.night.humidity);
        let sky = weather.sky.as_ref().map(|sky| match sky {
            Sky::Covered => "covered",
            Sky::Clear => "clear",
            Sky::Changing => "changing",
            Sky::Rain => "rain",
        });
        list.add("weather.sky", "", &sky);
        list.add("weather.sun-warms", "", &weather.sun_warms);
        list.add("weather.night-cools", "", &weather.night_cools);
        if weather.daylight.is_none() {
            list.add("weather.latitude", "", &weather.latitude);
        }
    }
    if build.panels.iter().any(|panel| panel.voc.is_some()) {
        list.add("weather.record-low", "", &weather.record_low);
    }
    if !build.mounts.is_empty() {
        let actions = &build.actions;
        list.add("loads.head-wind", "", &actions.head_wind);
        list.add("loads.cross-wind", "", &actions.cross_wind);
        if actions.storm_pressure.is_none() {
            list.add("loads.storm-wind", "", &actions.storm_wind);
        }
    }
    // Work at the bench is planned by no clock.
    if build.is_bench_work() {
        return;
    }
    // Only every day of the week is ever filled in.
    list.add("crew.on", "", &build.crew.days.as_ref().map(|_| "every day"));
    list.add("crew.people", "", &build.crew.people);
    list.add("crew.start", "", &build.crew.start);
    let clock = |time: &jiff::civil::Time| format!("{:02}:{:02}", time.hour(), time.minute());
    list.add("crew.day", "start", &build.crew.from.as_ref().map(clock));
    list.add("crew.day", "end", &build.crew.to.as_ref().map(clock));
}

fn cutting(build: &Build, list: &mut List) {
    let cutting = &build.cutting;
    if !build.sheets.is_empty() || !build.sheet_leftovers.is_empty() {
        list.add("cutting.sheet-kerf", "", &cutting.sheet_kerf);
        list.add("cutting.sheet-trim", "", &cutting.sheet_trim);
    }
    if build.frames.is_empty() && build.parts.is_empty() {
        return;
    }
    list.add("cutting.saw", "", &cutting.saw.as_ref().map(|saw| saw.words.clone()));
    list.add("cutting.kerf", "", &cutting.kerf);
    list.add("cutting.trim", "", &cutting.trim);
    list.add("cutting.least-leftover", "", &cutting.least_leftover);
    if *build.job.units == LengthUnit::Inch {
        list.add("cutting.fraction", "", &cutting.fraction);
    }
}

/// Circuits, and what stands at their ends.
fn electrics(build: &Build, list: &mut List) {
    if let Some(isolator) = &build.isolator {
        let kind = isolator.kind.as_ref().map(|kind| match kind {
            IsolatorKind::Switch => "switch",
            IsolatorKind::Plugs => "plugs",
            IsolatorKind::Missing => "none",
        });
        list.add("isolator.kind", "", &kind);
        list.add("isolator.poles", "", &isolator.poles);
    }
    for (index, circuit) in build.circuits.iter().enumerate() {
        run(&format!("W{}", index + 1), circuit, list);
        if circuit.current.is_none() && *circuit.from == Terminal::Controller {
            let most = build.controller.as_ref().map(|controller| *controller.max_current);
            let ground = "the controller’s highest where none is stated";
            list.tell("circuit.current", &format!("W{}", index + 1), most, ground);
        }
    }
    if build.circuits.is_empty() {
        return;
    }
    if let Some(battery) = &build.battery
        && battery.short_circuit.is_none()
        && battery.internal_resistance.is_none()
    {
        let ground =
            "charged cells of its chemistry and capacity, from memory: its data sheet wins";
        let feeds = Current::a(prospective(battery).to_a().round());
        list.tell("battery.short-circuit", "", Some(feeds), ground);
    }
    if let Some(supply) = &build.supply {
        if supply.current.is_none() {
            let taken =
                supply_current(build).map(|it| Current::a((it.to_a() * 10.0).round() / 10.0));
            let ground = "the charger’s greatest output at 90 % efficiency: common practice";
            list.tell("supply.current", "", taken, ground);
        }
        if supply.short_circuit.is_none() {
            let ground = "a large starter battery, ABYC E-11: its data sheet wins";
            list.tell("supply.short-circuit", "", Some(SUPPLY_FEEDS), ground);
        }
    }
}

/// Where batteries and the vehicle's own weight stand.
fn places(build: &Build, list: &mut List) {
    if let Some(battery) = &build.battery {
        list.add("battery.count", "", &battery.count);
        if *battery.count > 1 {
            list.add("battery.in-series", "", &battery.in_series);
            let row = battery.row.as_ref().map(|row| match row {
                RowWay::Across => "across",
                RowWay::Along => "along",
            });
            list.add("battery.row", "", &row);
            list.add("battery.row-gap", "", &battery.row_gap);
        }
    }
    if let Some(balance) = build.vehicle.as_ref().and_then(|vehicle| vehicle.balance) {
        list.add("vehicle.balance.centre-y", "", &balance.centre_y);
    }
}

fn restraint(held: &Restraint, list: &mut List) {
    let kind = held.kind.as_ref().map(|kind| match kind {
        HoldBy::TopOver => "top-over",
        HoldBy::Direct => "direct",
        HoldBy::Cradle => "cradle",
    });
    list.add("restraint.kind", "", &kind);
    list.add("restraint.level", "", &held.level.as_ref().map(|level| level.name.as_str()));
    if *held.straps > 0 {
        list.add("restraint.strap-tension", "", &held.strap_tension);
        list.add("restraint.strap-angle", "", &held.strap_angle);
        list.add("restraint.friction", "", &held.friction);
        if *held.kind == HoldBy::Direct {
            list.add("restraint.strap-turn", "", &held.strap_turn);
        }
        match &held.anchor {
            Some(Anchor::Screws(_, count)) => list.add("restraint.anchor.screws", "", count),
            Some(Anchor::Bolts(bolt)) => through("restraint.anchor.bolt", bolt, list),
            _ => {}
        }
    }
    if *held.kind != HoldBy::Cradle {
        list.add("restraint.blocks", "", &held.blocks);
        if *held.blocks > 0 {
            list.add("restraint.screws-a-block", "", &held.screws_a_block);
        }
    }
    if let Some(bolt) = &held.bolt {
        through("restraint.bolt", bolt, list);
    }
}

fn through(of: &'static str, bolt: &ThroughBolt, list: &mut List) {
    let (grade, count, material) = match of {
        "restraint.bolt" => {
            ("restraint.bolt.grade", "restraint.bolt.count", "restraint.bolt.spreader.material")
        }
        _ => (
            "restraint.anchor.bolt.grade",
            "restraint.anchor.bolt.count",
            "restraint.anchor.bolt.spreader.material",
        ),
    };
    list.add(grade, "", &bolt.grade.as_ref().map(|grade| grade.name.as_str()));
    list.add(count, "", &bolt.count);
    if let Some(plate) = &bolt.spreader {
        list.add(material, "", &plate.material.as_ref().map(|row| row.name.as_str()));
    }
}

fn run(mark: &str, circuit: &Circuit, list: &mut List) {
    let insulation = circuit.insulation.as_ref().map(|insulation| match insulation {
        Insulation::Pvc70 => "pvc-70",
        Insulation::Pvc105 => "pvc-105",
        Insulation::Solar => "pv",
    });
    list.add("circuit.insulation", mark, &insulation);
    let laid = circuit.laid.as_ref().map(|laid| match laid {
        Laid::Open => "open",
        Laid::Clipped => "clipped",
        Laid::Conduit => "conduit",
        Laid::RoofVoid => "roof-void",
    });
    list.add("circuit.laid", mark, &laid);
    list.add("circuit.bundled", mark, &circuit.bundled);
    list.add("circuit.ambient", mark, &circuit.ambient);
    list.add("circuit.drop-limit", mark, &circuit.drop_limit);
}

struct List(Vec<Taken>);

impl List {
    /// Keeps a value that was filled in; the same of another thing joins it.
    fn add<T: Display>(&mut self, key: &'static str, of: &str, stated: &Stated<T>) {
        let Some(ground) = stated.ground() else { return };
        self.tell(key, of, Some(&stated.value), ground);
    }

    /// The same of a value that other tables tell.
    fn tell<T: Display>(
        &mut self,
        key: &'static str,
        of: &str,
        value: Option<T>,
        ground: &'static str,
    ) {
        let Some(value) = value else { return };
        let told = value.to_string();
        // The sign of a number, as everywhere on paper; names keep their hyphens.
        let value = told.strip_prefix('-').map_or(told.clone(), |rest| format!("\u{2212}{rest}"));
        let same =
            |taken: &&mut Taken| taken.key == key && taken.value == value && taken.ground == ground;
        match self.0.iter_mut().find(same) {
            Some(taken) => {
                taken.of.push_str(", ");
                taken.of.push_str(of);
            }
            None => self.0.push(Taken { key, of: of.to_owned(), value, ground }),
        }
    }
}
