//! Cables as work: how long they are cut, how they are laid, what goes on their ends, how they pass
//! sheet.

mod ends;
pub mod length;
pub mod rules;

use crate::build::{Build, Circuit, Terminal};
use crate::compute::electrics::{Conductor, Electrics, Single};
use crate::derive::Work;
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::{Gland, Grommet, Tables};
use crate::units::{Length, Unit, display};
use std::f64::consts::PI;

pub(crate) use ends::joined;
pub use ends::{End, Piece, Pole, Seat, Tight};
pub use length::Cut;
pub(crate) use length::{allowance, share};

/// What was worked out of the cables.
#[derive(Debug, Clone)]
pub struct Cables {
    /// Each run, in file order; then what lies alone.
    pub laid: Vec<Laid>,
    /// Each end of each conductor.
    pub ends: Vec<End>,
    /// Farthest from a terminal to the first clip.
    pub first_clip: Length,
    /// Where they pass the roof.
    pub entry: Option<Passage>,
}

/// How a run is laid.
#[derive(Debug, Clone)]
pub struct Laid {
    /// "W1".
    pub mark: String,
    /// What its cut length is made of.
    pub cut: Cut,
    /// Diameter of one conductor.
    pub outer: Option<Length>,
    /// Way round one conductor, up to half a millimetre: what a label folds about.
    pub round: Option<Length>,
    /// Least inner radius of a bend laid once.
    pub bend: Option<Length>,
    /// Least inner radius of a bend that moves; absent where none does.
    pub moving: Option<Length>,
    /// Farthest from clip to clip.
    pub pitch: Length,
    /// Clips at that pitch.
    pub clips: u32,
    /// Hole and bore of the grommet where both conductors pass a metal wall.
    pub grommet: Option<(Length, Length)>,
}

/// Cables through the roof.
#[derive(Debug, Clone)]
pub struct Passage {
    /// Conductors that come from the panels.
    pub cores: u32,
    /// Diameter of the thickest.
    pub core: Length,
    /// What the housing's cables measure as a bundle.
    pub bundle: Length,
    /// Rubber ring for the hole, where one fits hole and bundle: its hole and bore.
    pub grommet: Option<(Length, Length)>,
    /// Gland for one cable: thread diameter, hole, clamps from and to.
    pub gland: Option<(Length, Length, [Length; 2])>,
}

/// Diameter of the smallest circle round so many equal circles, over theirs: packings of up to ten are
/// known (Kravitz 1967, from memory); beyond, rings about a middle one hold them.
pub fn round_bundle(count: u32) -> f64 {
    const PACKED: [f64; 11] = [0.0, 1.0, 2.0, 2.155, 2.414, 2.701, 3.0, 3.0, 3.305, 3.613, 3.813];
    let known = usize::try_from(count).ok().and_then(|count| PACKED.get(count));
    known.copied().unwrap_or_else(|| {
        let (mut rings, mut held) = (0_u32, 1_u32);
        while held < count && rings < 1000 {
            rings += 1;
            held += 6 * rings;
        }
        1.0 + 2.0 * f64::from(rings)
    })
}

/// Works out the cables; `None` where there is no run.
pub fn cables(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Cables> {
    let electrics = electrics.filter(|electrics| !electrics.runs.is_empty())?;
    let mut laid_runs = Vec::new();
    for (index, circuit) in build.circuits.iter().enumerate() {
        let mark = format!("W{}", index + 1);
        let Some(run) = electrics.runs.iter().find(|run| run.mark == mark) else { continue };
        let pitch = clip_pitch(circuit, tables);
        let outer = run.conductor.as_ref().and_then(|conductor| conductor.outer);
        let lay = outer.zip(length::lay(*circuit.insulation, tables));
        let made = Laid {
            mark,
            cut: run.cut,
            outer,
            round: outer.map(way_round),
            bend: lay.map(|(outer, lay)| lay.fixed(outer)),
            moving: lay
                .filter(|_| run.cut.hinge > Length::ZERO)
                .map(|(outer, lay)| lay.moved(outer)),
            pitch,
            // One more than there are spans.
            clips: (*circuit.length / pitch.max(Length::mm(1.0))).ceil() as u32 + 1,
            grommet: outer.and_then(|outer| {
                tables.grommets.grommet_for(outer * round_bundle(2)).map(|row| (row.hole, row.bore))
            }),
        };
        record(&made, run.conductor.as_ref(), ledger);
        laid_runs.push(made);
    }
    for single in electrics.singles() {
        let made = laid_alone(single, tables);
        record(&made, Some(&single.conductor), ledger);
        laid_runs.push(made);
    }
    let entry = passage(build, work, electrics, tables, ledger, findings);
    Some(Cables {
        laid: laid_runs,
        ends: ends::ends(build, electrics, tables),
        first_clip: allowance(tables, "first-clip"),
        entry,
    })
}

/// Farthest from clip to clip on a run.
pub fn clip_pitch(circuit: &Circuit, tables: &Tables) -> Length {
    let at_battery = [&circuit.from, &circuit.to].iter().any(|end| ***end == Terminal::Battery);
    allowance(tables, if at_battery { "clip-pitch-battery" } else { "clip-pitch" })
}

/// How a conductor lies that lies alone.
fn laid_alone(single: &Single, tables: &Tables) -> Laid {
    let pitch = allowance(tables, "clip-pitch-battery");
    let outer = single.conductor.outer;
    let lay = outer.zip(length::lay(single.insulation, tables));
    Laid {
        mark: single.mark.clone(),
        cut: single.cut,
        outer,
        round: outer.map(way_round),
        bend: lay.map(|(outer, lay)| lay.fixed(outer)),
        moving: None,
        pitch,
        clips: (single.length / pitch.max(Length::mm(1.0))).ceil() as u32 + 1,
        grommet: outer
            .and_then(|outer| tables.grommets.grommet_for(outer))
            .map(|row| (row.hole, row.bore)),
    }
}

/// What a label folds about, up to half a millimetre.
fn way_round(outer: Length) -> Length {
    Length::mm((outer.to_mm() * PI * 2.0).ceil() / 2.0)
}

fn record(laid: &Laid, conductor: Option<&Conductor>, ledger: &mut Ledger) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 0);
    let Cut { route, routing, ends, hinge, all } = laid.cut;
    ledger.push(
        Figure::new(
            format!("cables.cut.{}", laid.mark),
            format!("{}: cut length of each conductor", laid.mark),
            all.to_mm(),
            "mm",
        )
        .formula("route + routing + ends + hinge loop, up to 10 mm")
        .input("route", told(route))
        .input("routing", told(routing))
        .input("ends", told(ends))
        .input("hinge loop", told(hinge))
        .source("allowances: common practice; hinge: geometry", Seen::CommonPractice)
        .decides(),
    );
    let Some(((bend, outer), conductor)) = laid.bend.zip(laid.outer).zip(conductor) else {
        return;
    };
    ledger.push(
        Figure::new(
            format!("cables.bend.{}", laid.mark),
            format!("{}: least inner radius of a bend", laid.mark),
            bend.to_mm(),
            "mm",
        )
        .formula("r = k d")
        .input("d", display::in_unit_short(outer, Unit::MM, 1))
        .input("size", crate::tables::area_words(conductor.area))
        .source("EN 50618 and EN 50525 cable data pages", Seen::Verified)
        .decides(),
    );
}

/// What passes the roof and how it is sealed there.
fn passage(
    build: &Build,
    work: &Work,
    electrics: &Electrics,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Passage> {
    let (entry, _) = (build.entry.as_ref()?, work.entry.as_ref()?);
    let from_panels: Vec<&Conductor> = joined(build, electrics)
        .filter(|(circuit, _, _)| *circuit.from == Terminal::Panels)
        .map(|(_, _, conductor)| conductor)
        .collect();
    let core = from_panels.iter().filter_map(|c| c.outer).reduce(Length::max)?;
    let cores = 2 * from_panels.len() as u32;
    let bundle = core * round_bundle((*entry.cables).max(1));
    if bundle > *entry.hole {
        findings.push(rules::too_narrow(entry, core, bundle));
    }
    if *entry.cables < cores {
        findings.push(rules::too_few(entry, cores));
    }
    ledger.push(
        Figure::new("cables.bundle", "diameter of the cables in the entry", bundle.to_mm(), "mm")
            .formula("D = k d")
            .input("d", display::in_unit_short(core, Unit::MM, 1))
            .input("cables", entry.cables.to_string())
            .source("closest packing of equal circles", Seen::Memory)
            .decides(),
    );
    let fits = |row: &&Grommet| row.hole <= *entry.hole + Length::mm(0.5) && bundle <= row.bore;
    let grommet = tables.grommets.iter().filter(fits).max_by(|a, b| a.hole.total_cmp(&b.hole));
    let gland = |row: &Gland| (row.diameter, row.hole, [row.clamp_min, row.clamp_max]);
    Some(Passage {
        cores,
        core,
        bundle,
        grommet: grommet.map(|row| (row.hole, row.bore)),
        gland: tables.glands.gland_for(core).map(gland),
    })
}
