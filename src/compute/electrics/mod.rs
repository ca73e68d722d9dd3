//! Voltages, currents, conductors and fuses.
//!
//! Takes panels, controller, battery and the cable runs; gives string voltages on the coldest and
//! the hottest day, the smallest conductor of each run by ampacity and by voltage drop, and the fuse
//! between load and conductor.

mod conductor;
mod devices;
mod fuse;
mod panels;
pub mod rules;

use crate::build::{Build, Circuit, Terminal};
use crate::source::{Finding, Ledger};
use crate::tables::Tables;
use crate::units::{Current, Length, Ratio, Voltage};

pub use conductor::{Conductor, DecidedBy, assess};
pub use devices::{Isolator, StringFuse};
pub use fuse::Fuse;
pub use panels::PanelField;

/// What was worked out of the electrics.
#[derive(Debug, Clone)]
pub struct Electrics {
    /// The panels together; absent where none states its voltages.
    pub field: Option<PanelField>,
    /// Switch between panels and controller; absent where no run starts at panels.
    pub isolator: Option<Isolator>,
    /// A fuse in the plus of each string, where three or more lie side by side.
    pub string_fuse: Option<StringFuse>,
    /// Cable runs in file order.
    pub runs: Vec<Run>,
    /// Drop from the panels to the battery, added along the runs that lie between; a share.
    pub chain_drop: Option<Ratio>,
}

/// One cable run.
#[derive(Debug, Clone)]
pub struct Run {
    /// Number on the sheets and on the labels at both ends, "W1".
    pub mark: String,
    /// Name.
    pub name: String,
    /// Ends, in words.
    pub ends: (String, String),
    /// Route, one way.
    pub length: Length,
    /// Cut length of each conductor, with slack at both ends.
    pub cut: Length,
    /// Current that the cable is sized for.
    pub design: Current,
    /// Current that flows at most in use, for the drop.
    pub working: Current,
    /// Voltage that the drop is a share of.
    pub voltage: Voltage,
    /// The chosen conductor; absent if no size of the tables does.
    pub conductor: Option<Conductor>,
    /// The smallest size of the other list that does, for shops that sell by gauge.
    pub gauge: Option<String>,
    /// The fuse at its source; absent where the source can't feed a fault (panels alone).
    pub fuse: Option<Fuse>,
    /// A smaller fuse before what it feeds, where the battery's fuse is larger than that needs.
    pub load_fuse: Option<Fuse>,
    /// Colour letters of plus and minus (IEC 60757).
    pub colours: (&'static str, &'static str),
}

/// Slack at each end of a conductor for a service loop and stripping; common practice.
const END_SLACK: Length = Length::mm(300.0);
/// Current that a cable and its fuse are chosen for over one that flows for hours (NEC 210.20 (A),
/// 690.8 (B)).
const CONTINUOUS: f64 = 1.25;
/// Current of panels in strong light at the edge of a cloud over their short-circuit current
/// (NEC 690.8 (A)); with [`CONTINUOUS`] 1.5625.
const BRIGHT: f64 = 1.25;

/// Works out the electrics; `None` where the build has no circuits and no panel voltages.
pub fn electrics(
    build: &Build,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Electrics> {
    let field = panels::field(build, ledger, findings);
    if build.circuits.is_empty() && field.is_none() {
        return None;
    }
    let mut runs: Vec<Run> = Vec::new();
    for (index, circuit) in build.circuits.iter().enumerate() {
        if let Some(run) = run(build, circuit, index, field.as_ref(), tables, ledger, findings) {
            runs.push(run);
        }
    }
    let chain_drop = chain(build, &runs);
    let isolator = field.as_ref().and_then(|field| devices::isolator(field, &runs, ledger));
    let string_fuse = field.as_ref().and_then(|field| devices::string_fuse(field, tables, ledger));
    Some(Electrics { field, isolator, string_fuse, runs, chain_drop })
}

/// The fuse of each string, where three or more lie side by side.
pub fn string_fuse(build: &Build, tables: &Tables) -> Option<StringFuse> {
    let field = panels::field(build, &mut Ledger::new(), &mut Vec::new())?;
    devices::string_fuse(&field, tables, &mut Ledger::new())
}

fn run(
    build: &Build,
    circuit: &Circuit,
    index: usize,
    field: Option<&PanelField>,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Run> {
    let from_panels = *circuit.from == Terminal::Panels;
    let (working, design, voltage) = if from_panels {
        // A build whose run starts at the panels has their values.
        let field = field?;
        (field.working, field.short * (BRIGHT * CONTINUOUS), field.hot)
    } else {
        let current = **circuit.current.as_ref()?;
        let voltage = build.battery.as_ref().map_or(Voltage::v(12.0), |b| *b.voltage);
        (current, current * CONTINUOUS, voltage)
    };
    let mark = format!("W{}", index + 1);
    let source = build.battery.as_ref().filter(|_| !from_panels).map(fuse::Source::of);
    let fit = |most: Current| fuse::fit(source?, &mark, design, most, tables);
    let choose = |fused: &dyn Fn(Current) -> bool| {
        conductor::choose(circuit, design, working, voltage, fused, tables)
    };
    let mut choice = choose(&|most| source.is_none() || fit(most).is_some());
    if choice.metric.is_none() {
        // No size suits a fuse: the size is told all the same, and the fuse's finding says why.
        choice = choose(&|_| true);
    }
    if let Some(conductor) = &choice.metric {
        conductor::record(&mark, circuit, conductor, design, working, voltage, ledger);
    } else {
        findings.push(
            Finding::new(
                &rules::NO_CONDUCTOR,
                format!(
                    "no conductor of the tables carries {:.1} A over {:.2} m and loses less than {:.1} % of {:.1} V",
                    design.to_a(),
                    circuit.length.to_m(),
                    circuit.drop_limit.to_percent(),
                    voltage.to_v()
                ),
            )
            .at(circuit.length.span, "length of this run, one way")
            .means("a thinner cable gets hot, and what it feeds gets too little voltage")
            .help("shorten the route, split the load over two runs, or use a higher voltage"),
        );
    }
    let mut fuse = None;
    let mut load_fuse = None;
    if let (Some(conductor), Some(source), Some(battery)) = (&choice.metric, source, &build.battery)
    {
        fuse = fit(conductor.ampacity);
        match &fuse {
            None => findings.push(fuse::missing(battery, circuit, design, conductor, tables)),
            Some(at_battery) => {
                fuse::record(&mark, at_battery, design, conductor, ledger);
                if matches!(*circuit.to, Terminal::Load(_)) {
                    load_fuse =
                        fuse::at_load(source, circuit, at_battery, design, conductor, tables);
                }
            }
        }
        if let Some(at_load) = &load_fuse {
            fuse::record(&mark, at_load, design, conductor, ledger);
        }
    }
    let entry_slack = if from_panels { END_SLACK } else { Length::ZERO };
    Some(Run {
        mark,
        name: circuit.name.value.clone(),
        ends: (end(&circuit.from), end(&circuit.to)),
        length: *circuit.length,
        cut: *circuit.length + END_SLACK * 2.0 + entry_slack,
        design,
        working,
        voltage,
        gauge: choice.gauge,
        conductor: choice.metric,
        fuse,
        load_fuse,
        // Red and black for a low-voltage pair; practice differs by country, so both letters and
        // the number stand at both ends.
        colours: ("RD", "BK"),
    })
}

/// An end of a run in words.
fn end(terminal: &Terminal) -> String {
    match terminal {
        Terminal::Panels => "panels".into(),
        Terminal::Controller => "controller".into(),
        Terminal::Battery => "battery".into(),
        Terminal::Load(name) => name.clone(),
    }
}

/// Drops add along the way from panels to battery.
fn chain(build: &Build, runs: &[Run]) -> Option<Ratio> {
    let on_the_way: Vec<&Run> = build
        .circuits
        .iter()
        .zip(runs)
        .filter(|(circuit, _)| {
            matches!(*circuit.from, Terminal::Panels)
                || (*circuit.from == Terminal::Controller && *circuit.to == Terminal::Battery)
        })
        .map(|(_, run)| run)
        .collect();
    if on_the_way.is_empty() {
        return None;
    }
    Some(Ratio::of_one(
        on_the_way
            .iter()
            .filter_map(|run| run.conductor.as_ref())
            .map(|c| c.drop_share.to_fraction())
            .sum(),
    ))
}

pub use crate::tables::area_words;
