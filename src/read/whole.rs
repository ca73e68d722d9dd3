//! The whole file: every table in turn, then what they need from each other.

use super::circuit::touches;
use super::cursor::Cursor;
use super::reader::Reader;
use super::shape::{Asked, Shape};
use super::take::words;
use super::{
    actions, battery, circuit, codes, cutting, direct, fixture, frame, job, mount, panel, record,
    restraint, roof, vehicle, weather,
};
use crate::build::{Build, Circuit, ControllerKind, Frame, Mount, MountKind, Panel, Terminal};
use crate::source::Span;

const MOST_PANELS: u64 = 200;
const MOST_LINES: usize = 200;
const MOST_FRAMES: usize = 20;
const MOST_STEPS: usize = 500;
const MOST_ROWS: usize = 10_000;

/// The format that this program reads.
pub(super) const FORMAT: u32 = 1;

/// Reads everything below the top of the file; `None` where a table could not be made.
pub(super) fn whole(r: &mut Reader<'_>, mut top: Cursor<'_>) -> Option<Build> {
    format(r, &mut top);
    // The job first: its unit is that of every bare length.
    let job_span = top.key_span("job");
    let job = top.table(r, "job").and_then(|table| job::job(r, table));
    if !top.has("job") {
        r.raise(codes::missing_table::raise("job", Span::NONE, ""));
    }
    // Who opens the folders has read these lines before.
    let _ = top.may(r, "materials", words(500));
    let _ = top.may(r, "templates", words(500));
    let framed = top.place_of("frame");
    let vehicle = top.table(r, "vehicle").map(|table| vehicle::vehicle(r, table));
    let roof = top.table(r, "roof").map(|table| roof::roof(r, table));
    let weather_table = top.table(r, "weather");
    // Only what is bonded or sealed waits for air.
    let cures = top.has("mount") || top.has("entry");
    let weather = weather::weather(r, weather_table, cures);
    let actions_table = top.table(r, "loads");
    let actions = actions::actions(r, actions_table);
    let crew_table = top.table(r, "crew");
    let crew = weather::crew(r, crew_table, job.as_ref().map(|job| job.date));
    r.frames = top
        .words_in("frame", "name")
        .into_iter()
        .map(|name| name.unwrap_or_else(|| "frame".to_owned()))
        .collect();
    let panels: Vec<_> = top
        .tables(r, "panel", MOST_LINES)
        .into_iter()
        .map(|table| panel::panel(r, table, framed.is_some()))
        .collect();
    let count: u64 = panels.iter().flatten().map(|panel| u64::from(panel.count.value)).sum();
    if count > MOST_PANELS {
        r.raise(codes::too_many::sum("panels", count, MOST_PANELS, top.key_span("panel")));
    }
    let several = r.frames.len();
    let frames: Vec<_> = top
        .one_or_many(r, "frame", MOST_FRAMES)
        .into_iter()
        .enumerate()
        .map(|(number, table)| frame::frame(r, table, wanted(&panels, number, several)))
        .collect();
    let mounts: Vec<_> = top
        .tables(r, "mount", MOST_LINES)
        .into_iter()
        .map(|table| mount::mount(r, table))
        .collect();
    let entry = top.table(r, "entry").map(|table| circuit::entry(r, table));
    let fixtures: Vec<_> = top
        .tables(r, "fixture", MOST_LINES)
        .into_iter()
        .map(|table| fixture::fixture(r, table, vehicle.as_ref().and_then(Option::as_ref)))
        .collect();
    let cutting_table = top.table(r, "cutting");
    let cutting = cutting::cutting(r, cutting_table);
    let stock: Vec<_> = top
        .tables(r, "stock", MOST_ROWS)
        .into_iter()
        .map(|table| cutting::stock(r, table))
        .collect();
    let leftovers: Vec<_> = top
        .tables(r, "leftover", MOST_ROWS)
        .into_iter()
        .map(|table| cutting::leftover(r, table))
        .collect();
    let battery = top.table(r, "battery").map(|table| battery::battery(r, table));
    let restraint = top.table(r, "restraint").map(|table| restraint::restraint(r, table));
    let controller = top.table(r, "controller").map(|table| circuit::controller(r, table));
    let supply = top.table(r, "supply").map(|table| circuit::supply(r, table));
    let isolator = top.table(r, "isolator").map(|table| circuit::isolator(r, table));
    let earth = top.table(r, "earth").map(|table| circuit::earth(r, table));
    let strings: Vec<_> = top
        .tables(r, "string", MOST_LINES)
        .into_iter()
        .map(|table| circuit::string(r, table))
        .collect();
    if let (Some(string), Some(own)) = (
        top.place_of("string"),
        controller.iter().flatten().find_map(crate::build::Controller::joined_as),
    ) {
        r.raise(codes::one_or_the_other::both(("string", string), own));
    }
    let circuits: Vec<_> = top
        .tables(r, "circuit", MOST_LINES)
        .into_iter()
        .map(|table| circuit::circuit(r, table))
        .collect();
    let parts: Vec<_> =
        top.tables(r, "part", MOST_ROWS).into_iter().map(|table| direct::part(r, table)).collect();
    let holes: Vec<_> =
        top.tables(r, "hole", MOST_ROWS).into_iter().map(|table| direct::hole(r, table)).collect();
    let steps: Vec<_> =
        top.tables(r, "step", MOST_STEPS).into_iter().map(|table| direct::step(r, table)).collect();
    let rates: Vec<_> = top
        .tables(r, "rate", MOST_STEPS)
        .into_iter()
        .map(|table| weather::rate(r, table))
        .collect();
    let records: Vec<_> = top
        .one_or_many(r, "record", MOST_STEPS)
        .into_iter()
        .map(|table| record::record(r, table))
        .collect();

    let pieces: u64 = parts.iter().flatten().map(direct::AnyPart::count).sum();
    if pieces > u64::from(direct::MOST_PARTS) {
        let most = u64::from(direct::MOST_PARTS);
        r.raise(codes::too_many::sum("parts", pieces, most, top.key_span("part")));
    }
    let stands =
        |kind: &MountKind| matches!(kind, MountKind::BondedFoot(_) | MountKind::BoltedFoot(_));
    let feet = mounts.iter().flatten().find(|mount| stands(&mount.kind));
    let needs = Needs {
        frame: framed,
        mount: top.place_of("mount"),
        entry: top.place_of("entry"),
        fixture: top.place_of("fixture"),
        bond: feet.map(|mount| mount.span).or(top.place_of("entry")),
        roof: top.place_of("roof"),
        restraint: top.place_of("restraint"),
        // A charger that is fed by the vehicle's battery asks for no panels.
        solar: controller
            .iter()
            .flatten()
            .any(|controller| *controller.kind == ControllerKind::Solar)
            .then(|| top.place_of("controller"))
            .flatten(),
        supply: top.place_of("supply"),
        isolator: top.place_of("isolator"),
        earth: top.place_of("earth"),
        circuits: circuits.iter().flatten().collect(),
    };
    needs.tell(r, &top);
    all_held(r, &frames, &mounts);
    electric_labels(r, &panels, needs.by_panels());
    currents(r, &circuits);
    let work = [
        "panel",
        "frame",
        "mount",
        "entry",
        "fixture",
        "battery",
        "restraint",
        "controller",
        "circuit",
        "part",
        "step",
    ];
    if !work.iter().any(|key| top.has(key)) && top.has("job") {
        r.raise(codes::nothing_to_build::raise(job_span));
    }
    r.tell_apart();
    top.close(r);
    let (stock, sheets) = split(all(stock)?, |any| match any {
        cutting::AnyStock::Long(stock) => Ok(stock),
        cutting::AnyStock::Sheet(sheet) => Err(sheet),
    });
    let (leftovers, sheet_leftovers) = split(all(leftovers)?, |any| match any {
        cutting::AnyLeftover::Long(leftover) => Ok(leftover),
        cutting::AnyLeftover::Sheet(sheet) => Err(sheet),
    });
    let (parts, others) = split(all(parts)?, |any| match any {
        direct::AnyPart::Bar(part) => Ok(part),
        other => Err(other),
    });
    let mut plates = Vec::new();
    let mut lengths = Vec::new();
    for other in others {
        match other {
            direct::AnyPart::Plate(plate) => plates.push(plate),
            direct::AnyPart::Length(length) => lengths.push(length),
            direct::AnyPart::Bar(_) => {}
        }
    }

    Some(Build {
        job: job?,
        vehicle: made(vehicle)?,
        roof: made(roof)?,
        weather: weather?,
        actions,
        crew: crew?,
        panels: all(panels)?,
        frames: all(frames)?,
        mounts: all(mounts)?,
        entry: made(entry)?,
        fixtures: all(fixtures)?,
        cutting: cutting?,
        stock,
        leftovers,
        sheets,
        sheet_leftovers,
        battery: made(battery)?,
        restraint: made(restraint)?,
        controller: made(controller)?,
        supply: made(supply)?,
        isolator,
        earth: made(earth)?,
        strings: all(strings)?,
        circuits: all(circuits)?,
        parts,
        plates,
        lengths,
        holes: all(holes)?,
        steps: all(steps)?,
        rates: all(rates)?,
        records: all(records)?,
        rows: r.rows(),
    })
}

/// A table that is not there is fine; one that could not be made is not.
#[allow(clippy::option_option)] // The two kinds of nothing lead to different ends.
fn made<T>(table: Option<Option<T>>) -> Option<Option<T>> {
    match table {
        Some(made) => made.map(Some),
        None => Some(None),
    }
}

/// Two kinds apart, each in the order of the file.
fn split<T, A, B>(all: Vec<T>, kind: impl Fn(T) -> Result<A, B>) -> (Vec<A>, Vec<B>) {
    let (mut first, mut second) = (Vec::new(), Vec::new());
    for one in all {
        match kind(one) {
            Ok(a) => first.push(a),
            Err(b) => second.push(b),
        }
    }
    (first, second)
}

fn all<T>(tables: Vec<Option<T>>) -> Option<Vec<T>> {
    tables.into_iter().collect()
}

fn format(r: &mut Reader<'_>, top: &mut Cursor<'_>) {
    top.noted(r, "format", Asked::Optional, |_| Shape::Whole { least: FORMAT, most: FORMAT });
    let Some(field) = top.field("format") else {
        r.raise(codes::no_format::raise());
        return;
    };
    if super::take::number_of(field.value) != Some(f64::from(FORMAT)) {
        r.raise(codes::unknown_format::raise(r.text, &field));
    }
}

/// Tables that lean on others, by where they stand.
struct Needs<'b> {
    frame: Option<Span>,
    mount: Option<Span>,
    entry: Option<Span>,
    fixture: Option<Span>,
    bond: Option<Span>,
    roof: Option<Span>,
    restraint: Option<Span>,
    solar: Option<Span>,
    supply: Option<Span>,
    isolator: Option<Span>,
    earth: Option<Span>,
    circuits: Vec<&'b Circuit>,
}

impl Needs<'_> {
    /// Why the panels' labels are needed, where they are.
    fn by_panels(&self) -> Option<(Span, String)> {
        let circuit = self.circuits.iter().find_map(|circuit| touches(circuit, &Terminal::Panels));
        circuit
            .map(|span| (span, "needed for this circuit".to_owned()))
            .or_else(|| Some((self.solar?, "needed for this controller".to_owned())))
    }

    /// Says which tables are missing, each with the first one that needs it.
    fn tell(&self, r: &mut Reader<'_>, top: &Cursor<'_>) {
        let touching = |end: &Terminal| {
            self.circuits
                .iter()
                .find_map(|circuit| touches(circuit, end))
                .map(|span| (span, "this circuit leads there"))
        };
        let by = |place: Option<Span>, because: &'static str| place.map(|span| (span, because));
        let frame = by(self.frame, "the frame needs it");
        let mount = by(self.mount, "these mounts need it");
        let entry = by(self.entry, "the cable entry needs it");
        let fixture = by(self.fixture, "the fixture needs it");
        let controller = by(self.solar, "the controller needs it");
        let rows: [(&'static str, Option<(Span, &'static str)>); 9] = [
            ("panel", frame.or(controller).or(touching(&Terminal::Panels))),
            ("roof", frame.or(mount).or(entry)),
            (
                "vehicle",
                by(self.roof, "the roof needs it").or(frame).or(mount).or(entry).or(fixture),
            ),
            ("frame", mount),
            ("mount", by(self.frame, "nothing holds this frame")),
            (
                "battery",
                by(self.restraint, "nothing is held")
                    .or(touching(&Terminal::Battery))
                    .or(by(self.earth, "the minus of nothing is joined")),
            ),
            (
                "controller",
                touching(&Terminal::Controller)
                    .or(by(self.isolator, "nothing is parted from the panels"))
                    .or(by(self.supply, "nothing takes from the vehicle’s battery")),
            ),
            ("supply", touching(&Terminal::Supply)),
            ("weather", by(self.bond, "what is bonded here cures by the weather")),
        ];
        for (path, needed) in rows {
            if let (false, Some((span, because))) = (top.has(path), needed) {
                r.raise(codes::missing_table::raise(path, span, because));
            }
        }
    }
}

/// How many panels lie on a frame: those that name it, or its share of those that name none.
fn wanted(panels: &[Option<Panel>], frame: usize, frames: usize) -> u32 {
    let count = |on: Option<usize>| -> u64 {
        let here = panels.iter().flatten().filter(|panel| panel.frame == on);
        here.map(|panel| u64::from(panel.count.value)).sum()
    };
    let free = count(None).div_ceil(frames.max(1) as u64);
    u32::try_from(count(Some(frame)) + free).unwrap_or(u32::MAX)
}

/// With several frames each needs mounts of its own.
fn all_held(r: &mut Reader<'_>, frames: &[Option<Frame>], mounts: &[Option<Mount>]) {
    // A mount that could not be read may be the one.
    if frames.len() < 2 || mounts.is_empty() || mounts.iter().any(Option::is_none) {
        return;
    }
    for (number, frame) in frames.iter().enumerate() {
        let held = mounts.iter().flatten().any(|mount| mount.frame == number);
        if let (Some(frame), false) = (frame, held) {
            r.raise(codes::missing_table::none_holds(&frame.name.value, frame.span));
        }
    }
}

/// A run needs a current unless panels, the controller, the supply or its neighbours tell it.
fn currents(r: &mut Reader<'_>, circuits: &[Option<Circuit>]) {
    let feeds = |circuit: &Circuit| {
        matches!(*circuit.to, Terminal::Load(_))
            && circuits.iter().flatten().any(|other| *other.from == *circuit.to)
    };
    // From a junction box or bus bar on to controller or battery flows what came in.
    let passes_on = |circuit: &Circuit| {
        matches!(*circuit.to, Terminal::Controller | Terminal::Battery)
            && circuits.iter().flatten().any(|other| *other.to == *circuit.from)
    };
    for circuit in circuits.iter().flatten() {
        let known =
            matches!(*circuit.from, Terminal::Panels | Terminal::Controller | Terminal::Supply);
        if circuit.current.is_none() && !known && !feeds(circuit) && !passes_on(circuit) {
            let home = super::field::Home { path: "circuit", span: circuit.span, inline: false };
            let why =
                "only from panels, the controller or what a bus bar feeds can it be worked out";
            r.raise(codes::missing_key::raise(
                home,
                "current",
                Some((circuit.from.span, why.to_owned())),
            ));
        }
    }
}

/// Electrics need what stands on the panels' labels.
fn electric_labels(r: &mut Reader<'_>, panels: &[Option<Panel>], reason: Option<(Span, String)>) {
    let Some(reason) = reason else { return };
    for panel in panels.iter().flatten() {
        let home = super::field::Home { path: "panel", span: panel.span, inline: false };
        let lacking = [
            ("voc", panel.voc.is_none()),
            ("isc", panel.isc.is_none()),
            ("vmp", panel.vmp.is_none()),
            ("imp", panel.imp.is_none()),
        ];
        for (key, _) in lacking.into_iter().filter(|(_, lacks)| *lacks) {
            r.raise(codes::missing_key::raise(home, key, Some(reason.clone())));
        }
    }
}
