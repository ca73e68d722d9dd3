//! Voltages, currents, conductors and fuses.
//!
//! Takes panels, controller, battery and the cable runs; gives string voltages on the coldest and
//! the hottest day, the smallest conductor of each run by ampacity and by voltage drop, and the fuse
//! between load and conductor.

mod conductor;
mod devices;
mod fuse;
pub mod nodes;
mod panels;
pub mod rules;

use crate::build::{Build, Circuit, Terminal};
use crate::compute::cables::Cut;
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
    /// Cut length of each conductor, with what it is made of.
    pub cut: Cut,
    /// Current that the cable is sized for.
    pub design: Current,
    /// Current that flows at most in use, for the drop.
    pub working: Current,
    /// Voltage that the drop is a share of.
    pub voltage: Voltage,
    /// Share of it that is lost on the way to the run's start.
    pub lost_before: Ratio,
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

/// Current that a cable and its fuse are chosen for over one that flows for hours (NEC 210.20 (A),
/// 690.8 (B)).
const CONTINUOUS: f64 = 1.25;
/// Current of panels in strong light at the edge of a cloud over their short-circuit current
/// (NEC 690.8 (A)); with [`CONTINUOUS`] 1.5625.
const BRIGHT: f64 = 1.25;

/// Works out the electrics; `None` where the build has no circuits and no panel voltages. `lift` is the
/// length of cable that lifting the frame takes.
pub fn electrics(
    build: &Build,
    lift: Length,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Electrics> {
    let field = panels::field(build, ledger, findings);
    if build.circuits.is_empty() && field.is_none() {
        return None;
    }
    let mut made: Vec<Option<Made>> = build.circuits.iter().map(|_| None).collect();
    for index in nodes::in_order(build, findings) {
        let start = Start::of(build, index, &made, tables);
        made[index] = run(build, index, (start, lift), field.as_ref(), tables, ledger, findings);
    }
    nodes::balance(build, findings);
    cold_charging(build, findings);
    let runs: Vec<Run> = made.into_iter().flatten().map(|made| made.run).collect();
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

/// What a run starts from.
#[derive(Clone, Copy)]
struct Start {
    /// What drives a fault there; none at panels.
    source: Option<fuse::Source>,
    /// Drop on the way there, a share.
    lost: Ratio,
}

/// A run with what it started from.
struct Made {
    run: Run,
    start: Start,
}

impl Start {
    fn of(build: &Build, index: usize, made: &[Option<Made>], tables: &Tables) -> Self {
        let circuit = &build.circuits[index];
        let before = nodes::feeder(build, circuit)
            .and_then(|feeder| made[feeder].as_ref().map(|made| (&build.circuits[feeder], made)));
        let Some((feeding, Made { run, start })) = before else {
            let of_battery = build.battery.as_ref().map(fuse::Source::of);
            let source = of_battery.filter(|_| *circuit.from != Terminal::Panels);
            return Self { source, lost: Ratio::ZERO };
        };
        let size = run.conductor.as_ref().and_then(|own| tables.cable_size(&own.name).ok());
        Self {
            source: start
                .source
                .map(|source| size.map_or(source, |size| source.behind(size, *feeding.length))),
            lost: start.lost
                + run.conductor.as_ref().map_or(Ratio::ZERO, |conductor| conductor.drop_share),
        }
    }
}

fn run(
    build: &Build,
    index: usize,
    (start, lift): (Start, Length),
    field: Option<&PanelField>,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Made> {
    let circuit = &build.circuits[index];
    let from_panels = *circuit.from == Terminal::Panels;
    let (working, design, voltage) = if from_panels {
        // A build whose run starts at the panels has their values.
        let field = field?;
        (field.working, field.short * (BRIGHT * CONTINUOUS), field.hot)
    } else {
        let current = nodes::current(build, circuit)?;
        let voltage = build.battery.as_ref().map_or(Voltage::v(12.0), |b| *b.voltage);
        (current, current * CONTINUOUS, voltage)
    };
    let mark = format!("W{}", index + 1);
    let source = start.source;
    let drop = (*circuit.drop_limit - start.lost).max(Ratio::ZERO);
    let asked = conductor::Asked { design, working, voltage, drop };
    let fit = |most: Current| fuse::fit(source?, (&mark, circuit), design, most, tables);
    let fused = |most: Current| match &circuit.fuse {
        Some(stated) => **stated <= most,
        None => source.is_none() || fit(most).is_some(),
    };
    let mut choice = conductor::choose(circuit, asked, &fused, tables);
    if choice.metric.is_none() {
        // No size suits a fuse: the size is told all the same, and the fuse's finding says why.
        choice = conductor::choose(circuit, asked, &|_| true, tables);
    }
    let mut too_thin = false;
    if let Some(conductor) = &choice.metric {
        conductor::record(&mark, circuit, conductor, design, working, voltage, ledger);
        if start.lost > Ratio::ZERO {
            conductor::record_from_source(&mark, start.lost, conductor, ledger);
        }
        too_thin = stated(circuit, asked, conductor, tables, findings);
    } else {
        let before = if start.lost > Ratio::ZERO {
            format!(" ({:.1} % are lost on the way to its start)", start.lost.to_percent())
        } else {
            String::new()
        };
        findings.push(
            Finding::new(
                &rules::NO_CONDUCTOR,
                format!(
                    "no conductor of the tables carries {:.1} A over {:.2} m and loses less than {:.1} % of {:.1} V{before}",
                    design.to_a(),
                    circuit.length.to_m(),
                    drop.to_percent(),
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
            // A thicker cable comes first: it may suit a fuse.
            None if too_thin => {}
            None => {
                let from = (battery, source);
                findings.push(fuse::missing(from, circuit, design, conductor, tables));
            }
            Some(at_source) => {
                fuse::record(&mark, at_source, design, conductor, ledger);
                let ends = matches!(*circuit.to, Terminal::Load(_))
                    && nodes::fed(build, circuit).next().is_none();
                if ends && circuit.fuse.is_none() {
                    load_fuse =
                        fuse::at_load(source, circuit, at_source, design, conductor, tables);
                }
            }
        }
        if let Some(at_load) = &load_fuse {
            fuse::record(&mark, at_load, design, conductor, ledger);
        }
    }
    let outer = choice.metric.as_ref().and_then(|conductor| conductor.outer);
    let run = Run {
        mark,
        name: circuit.name.value.clone(),
        ends: (end(&circuit.from), end(&circuit.to)),
        length: *circuit.length,
        cut: Cut::of(circuit, outer, lift, tables),
        design,
        working,
        voltage,
        lost_before: start.lost,
        gauge: choice.gauge,
        conductor: choice.metric,
        fuse,
        load_fuse,
        // Red and black for a low-voltage pair; practice differs by country, so both letters and
        // the number stand at both ends.
        colours: ("RD", "BK"),
    };
    Some(Made { run, start })
}

/// Conductor and fuse that are there already against what the run asks; whether the conductor is too
/// thin.
fn stated(
    circuit: &Circuit,
    asked: conductor::Asked,
    conductor: &Conductor,
    tables: &Tables,
    findings: &mut Vec<Finding>,
) -> bool {
    let fault = conductor.too_thin(asked.design, asked.drop);
    if let (Some(size), Some(why)) = (&circuit.size, fault) {
        let free = Circuit { size: None, ..circuit.clone() };
        let better = conductor::choose(&free, asked, &|_| true, tables).metric;
        let message = match why {
            DecidedBy::Drop => format!(
                "{} loses {:.1} % on “{}”; {:.1} % are left for it",
                size.name,
                conductor.drop_share.to_percent(),
                *circuit.name,
                asked.drop.to_percent()
            ),
            _ => format!(
                "{} may carry {:.1} A on “{}”; {:.1} A, 1.25 times the current in use, are asked of it",
                size.name,
                conductor.ampacity.to_a(),
                *circuit.name,
                asked.design.to_a()
            ),
        };
        let finding = Finding::new(&rules::CABLE_TOO_THIN, message)
            .at(size.span, "size of this run")
            .means("a thin cable gets hot, and what it feeds gets too little voltage");
        findings.push(match better {
            Some(better) => {
                finding.help(format!("state `size = \"{}\"`, or leave it out", better.name))
            }
            None => finding.help("shorten the route, or split the load over two runs"),
        });
    }
    if let Some(fuse) = &circuit.fuse {
        if **fuse > conductor.ampacity {
            findings.push(
                Finding::new(
                    &rules::FUSE_OVER_CABLE,
                    format!(
                        "the fuse of {:.0} A lets the cable of “{}” burn, which may carry {:.1} A",
                        fuse.to_a(),
                        *circuit.name,
                        conductor.ampacity.to_a()
                    ),
                )
                .at(fuse.span, "stated for this run")
                .means("in a short circuit or an overload the cable burns before the fuse blows")
                .help(format!("use a fuse of {:.0} A at most", conductor.ampacity.to_a().floor()))
                .help("or a thicker cable"),
            );
        }
        if **fuse < asked.design {
            findings.push(
                Finding::new(
                    &rules::FUSE_BLOWS,
                    format!(
                        "the fuse of {:.0} A is less than {:.1} A, 1.25 times the current of “{}”",
                        fuse.to_a(),
                        asked.design.to_a(),
                        *circuit.name
                    ),
                )
                .at(fuse.span, "stated for this run")
                .means("it gets warm, ages, and blows on a hot day")
                .help("use the next rating, if the cable may carry it"),
            );
        }
    }
    circuit.size.is_some() && fault.is_some()
}

/// Charging in frost, which most lithium cells do not stand.
fn cold_charging(build: &Build, findings: &mut Vec<Finding>) {
    let (Some(battery), Some(_)) = (&build.battery, &build.controller) else { return };
    let (least, low) = (battery.chemistry.charge[0], *build.weather.record_low);
    if battery.cold_charging.is_some() || low >= least {
        return;
    }
    findings.push(
        Finding::new(
            &rules::COLD_CHARGING,
            format!(
                "battery {} may not be charged below {:.0} °C; it gets as cold as {:.0} °C here",
                *battery.mark,
                least.to_celsius(),
                low.to_celsius()
            ),
        )
        .at(battery.chemistry.span, "this chemistry")
        .means("charged in frost, lithium plates out: the cell is spoilt and may burn later")
        .help("if battery or controller stop charging in frost, say `cold-charging = \"stopped\"`")
        .help("or warm it and say `cold-charging = \"heated\"`"),
    );
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
