//! Each run with its conductor and its fuses.

use super::conductor::{self, Asked, Choice, Conductor, DecidedBy};
use super::fuse::{self, Fuse};
use super::nodes::{Network, Root};
use super::panels::PanelField;
use super::switch::Switch;
use super::{BRIGHT, CONTINUOUS, end, rules};
use crate::build::{Battery, Build, Circuit, Terminal};
use crate::compute::cables::Cut;
use crate::source::{Finding, Ledger, Span};
use crate::tables::{Gauge, Tables};
use crate::units::{Area, Current, Length, Ratio, Voltage};

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
    /// The same of vehicle and small-craft wire (SAE), where its number is not the gauge's.
    pub boat_wire: Option<String>,
    /// The fuse at its source; absent where the source can't feed a fault (panels alone).
    pub fuse: Option<Fuse>,
    /// A smaller fuse before what it feeds, where the battery's fuse is larger than that needs.
    pub load_fuse: Option<Fuse>,
    /// The switch in it.
    pub switch: Option<Switch>,
    /// Colour letters of plus and minus (IEC 60757).
    pub colours: (&'static str, &'static str),
}

/// What runs are worked out from.
pub(super) struct Given<'a> {
    pub build: &'a Build,
    pub network: &'a Network<'a>,
    pub field: Option<&'a PanelField>,
    pub tables: &'a Tables,
}

/// A choice of conductors for all runs.
struct Choices {
    /// In file order; none for runs in a circle.
    made: Vec<Option<Made>>,
    ledgers: Vec<Ledger>,
    findings: Vec<Finding>,
}

impl Choices {
    /// Runs without a conductor, then square millimetres of copper by metres of way.
    fn copper(&self) -> (usize, f64) {
        let mut open = 0;
        let mut volume = 0.0;
        for made in self.made.iter().flatten() {
            match &made.run.conductor {
                Some(own) => volume += own.area.to_mm2() * made.run.length.to_m(),
                None => open += 1,
            }
        }
        (open, volume)
    }
}

/// What a run starts from.
#[derive(Clone)]
struct Start {
    /// What drives a fault there; none at panels.
    source: Option<fuse::Source>,
    /// Where the fuse against it stands.
    at: String,
    /// Drop on the way there, a share.
    lost: Ratio,
}

/// A run with what it started from.
struct Made {
    run: Run,
    start: Start,
}

/// All runs in file order; those in a circle are left out.
pub(super) fn runs(
    given: &Given<'_>,
    lift: Length,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Vec<Run> {
    let Choices { made, ledgers, findings: own } = given.least_copper(lift);
    findings.extend(own);
    for own in ledgers {
        ledger.append(own);
    }
    let mut runs: Vec<Run> = made.into_iter().flatten().map(|made| made.run).collect();
    super::switch::switches(given.build, &mut runs, ledger, findings);
    runs
}

impl Given<'_> {
    /// The choice with the least copper: as a run starts with what the way to it has lost, a larger size
    /// before it may save more on the runs that it feeds. A larger size of one run at a time is tried, as long as
    /// that lessens the whole; the first run of the file wins among equals.
    fn least_copper(&self, lift: Length) -> Choices {
        let mut least = vec![Area::ZERO; self.build.circuits.len()];
        let mut best = self.choices(&least, lift);
        while let Some((larger, choices)) = self.step(&least, &best, lift) {
            least = larger;
            best = choices;
        }
        best
    }

    /// The best of all single runs made larger, where that takes less copper than `best`.
    fn step(&self, least: &[Area], best: &Choices, lift: Length) -> Option<(Vec<Area>, Choices)> {
        let mut lightest = best.copper();
        let mut found = None;
        for index in self.network.order.iter().copied() {
            let Some(own) = best.made[index].as_ref().and_then(|made| made.run.conductor.as_ref())
            else {
                continue;
            };
            if self.build.circuits[index].size.is_some() || !self.starves(index, best) {
                continue;
            }
            for size in self.tables.cable_sizes.sizes(Gauge::Metric) {
                if size.area <= own.area {
                    continue;
                }
                let mut larger = least.to_vec();
                larger[index] = size.area;
                let choices = self.choices(&larger, lift);
                let copper = choices.copper();
                if copper < lightest {
                    lightest = copper;
                    found = Some((larger, choices));
                }
            }
        }
        found
    }

    /// Whether a run that this one feeds is made larger by the drop, or can't be made at all.
    fn starves(&self, index: usize, choices: &Choices) -> bool {
        self.network.fed(index).iter().any(|&fed| {
            let own = choices.made[fed].as_ref().and_then(|made| made.run.conductor.as_ref());
            own.is_none_or(|own| own.decided == DecidedBy::Drop) || self.starves(fed, choices)
        })
    }

    fn choices(&self, least: &[Area], lift: Length) -> Choices {
        let mut made: Vec<Option<Made>> = self.build.circuits.iter().map(|_| None).collect();
        // A figure of a run stands where the file has the run.
        let mut ledgers: Vec<Ledger> = made.iter().map(|_| Ledger::new()).collect();
        let mut findings = Vec::new();
        for index in self.network.order.iter().copied() {
            let start = self.start(index, &made);
            let run =
                self.run(index, (start, lift, least[index]), &mut ledgers[index], &mut findings);
            made[index] = run;
        }
        Choices { made, ledgers, findings }
    }

    /// What a run starts from: what feeds it, and the drop and the fault current on the way there.
    fn start(&self, index: usize, made: &[Option<Made>]) -> Start {
        let Self { build, network, .. } = *self;
        let circuit = &build.circuits[index];
        let of_battery = build.battery.as_ref().map(fuse::Source::of);
        let battery_plus = "battery’s plus".to_owned();
        match &*circuit.from {
            Terminal::Panels => Start { source: None, at: String::new(), lost: Ratio::ZERO },
            Terminal::Supply => Start {
                source: build.supply.as_ref().map(fuse::Source::of_supply),
                at: "plus of the vehicle’s battery".to_owned(),
                lost: Ratio::ZERO,
            },
            Terminal::Battery => Start { source: of_battery, at: battery_plus, lost: Ratio::ZERO },
            // A fault on the charger's cable is fed from the battery's end of it.
            Terminal::Controller => match (network.main(index), &*circuit.to) {
                (Some(main), Terminal::Load(bar)) => {
                    let part = match (network.current(index), network.current(main)) {
                        (Some(charged), Some(all)) => charged / all,
                        _ => 1.0,
                    };
                    let Start { source, lost, .. } = self.behind(main, made);
                    let lost = Ratio::of_one(lost.to_fraction() * part);
                    Start { source, at: format!("plus of {bar}"), lost }
                }
                (None, Terminal::Load(bar)) if !network.fed(index).is_empty() => {
                    Start { source: of_battery, at: format!("plus of {bar}"), lost: Ratio::ZERO }
                }
                _ => Start { source: of_battery, at: battery_plus, lost: Ratio::ZERO },
            },
            Terminal::Load(bar) => match network.feeder(index) {
                Some(feeder) => {
                    let behind = self.behind(feeder, made);
                    if *circuit.to == Terminal::Battery {
                        Start { source: of_battery, at: battery_plus, ..behind }
                    } else {
                        Start { at: format!("plus of {bar}"), ..behind }
                    }
                }
                None => {
                    Start { source: of_battery, at: format!("plus of {bar}"), lost: Ratio::ZERO }
                }
            },
        }
    }

    /// At the far end of a run.
    fn behind(&self, index: usize, made: &[Option<Made>]) -> Start {
        let Some(Made { run, start }) = &made[index] else {
            return Start { source: None, at: String::new(), lost: Ratio::ZERO };
        };
        let size = run.conductor.as_ref().and_then(|own| self.tables.cable_size(&own.name).ok());
        let length = *self.build.circuits[index].length;
        let own = run.conductor.as_ref().map_or(Ratio::ZERO, |conductor| conductor.drop_share);
        Start {
            source: start
                .source
                .map(|source| size.map_or(source, |size| source.behind(size, length))),
            at: String::new(),
            lost: start.lost + own,
        }
    }

    fn run(
        &self,
        index: usize,
        (start, lift, least): (Start, Length, Area),
        ledger: &mut Ledger,
        findings: &mut Vec<Finding>,
    ) -> Option<Made> {
        let Self { build, network, tables, .. } = *self;
        let circuit = &build.circuits[index];
        let root = network.root(index);
        let (working, design, voltage) = if root == Root::Panels {
            // A build whose run starts at the panels has their values.
            let field = self.field?;
            (field.working, field.short * (BRIGHT * CONTINUOUS), field.hot)
        } else {
            let current = network.current(index)?;
            let of_battery = build.battery.as_ref().map(Battery::bank_voltage);
            let of_supply = build.supply.as_ref().map(|supply| *supply.voltage);
            let voltage = if root == Root::Supply { of_supply } else { of_battery };
            (current, current * CONTINUOUS, voltage.unwrap_or(Voltage::v(12.0)))
        };
        let mark = format!("W{}", index + 1);
        let drop = (*circuit.drop_limit - start.lost).max(Ratio::ZERO);
        let asked = Asked { design, working, voltage, drop, least };
        let fit = |most: Current| {
            fuse::fit(start.source?, (&mark, circuit, &start.at), design, most, tables)
        };
        let fused = |most: Current| match &circuit.fuse {
            Some(stated) => **stated <= most,
            None => start.source.is_none() || fit(most).is_some(),
        };
        let mut choice = conductor::choose(circuit, asked, &fused, tables);
        if choice.metric.is_none() {
            // No size suits a fuse: the size is told all the same, and the fuse's finding says why.
            choice = conductor::choose(circuit, asked, &|_| true, tables);
        }
        let Choice { metric, gauge, sae } = choice;
        let mut too_thin = false;
        if let Some(conductor) = &metric {
            conductor::record(&mark, circuit, conductor, design, working, voltage, ledger);
            if start.lost > Ratio::ZERO {
                let from = match root {
                    Root::Panels => "panels",
                    Root::Supply => "vehicle’s battery",
                    _ => "battery",
                };
                conductor::record_from_source(&mark, from, start.lost, conductor, ledger);
            }
            too_thin = stated(circuit, asked, conductor, tables, findings);
        } else {
            findings.push(no_conductor(circuit, asked, start.lost, tables));
        }
        let mut fuse = None;
        let mut load_fuse = None;
        if let (Some(conductor), Some(source)) = (&metric, start.source) {
            fuse = fit(conductor.ampacity);
            match &fuse {
                // A thicker cable comes first: it may suit a fuse.
                None if too_thin => {}
                None => {
                    let from = (self.told_at(root, circuit), source);
                    findings.push(fuse::missing(from, circuit, design, conductor, tables));
                }
                Some(at_source) => {
                    fuse::record(&mark, at_source, design, conductor, ledger);
                    let ends = matches!(*circuit.to, Terminal::Load(_))
                        && network.fed(index).is_empty()
                        && root != Root::Controller;
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
        let outer = metric.as_ref().and_then(|conductor| conductor.outer);
        let number = |name: &str| name.split_once(' ').map(|(_, number)| number.to_owned());
        let boat_wire = sae.filter(|sae| number(sae) != gauge.as_deref().and_then(number));
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
            gauge,
            boat_wire,
            conductor: metric,
            fuse,
            switch: None,
            load_fuse,
            // Red and black for a low-voltage pair; practice differs by country, so both letters and
            // the number stand at both ends.
            colours: ("RD", "BK"),
        };
        Some(Made { run, start })
    }

    /// Where the current of a short circuit is stated that a fuse must break.
    fn told_at(&self, root: Root, circuit: &Circuit) -> Span {
        let of_battery = |battery: &Battery| {
            let inner = battery.internal_resistance.as_ref().map(|stated| stated.span);
            battery
                .short_circuit
                .as_ref()
                .map(|stated| stated.span)
                .or(inner)
                .unwrap_or(battery.span)
        };
        let of_supply =
            self.build.supply.as_ref().filter(|_| root == Root::Supply).map(|supply| {
                supply.short_circuit.as_ref().map_or(supply.span, |stated| stated.span)
            });
        of_supply.or_else(|| self.build.battery.as_ref().map(of_battery)).unwrap_or(circuit.span)
    }
}

/// Tells of a run that no size of the tables does for.
fn no_conductor(circuit: &Circuit, asked: Asked, lost: Ratio, tables: &Tables) -> Finding {
    if !conductor::stands_air(circuit, tables) {
        return Finding::new(
            &rules::NO_CONDUCTOR,
            format!(
                "{} may carry nothing in air of {} on “{}”",
                circuit.insulation.words(),
                conductor::air(circuit),
                *circuit.name
            ),
        )
        .at(circuit.span, "this run")
        .means("the insulation gets soft and bare copper touches metal")
        .help("use cable that stands more heat: `insulation = \"pvc-105\"` or `\"pv\"`")
        .help("or lead it where it is cooler, and say so with `ambient` and `laid`");
    }
    let before = if lost > Ratio::ZERO {
        format!(" ({:.1} % are lost on the way to its start)", lost.to_percent())
    } else {
        String::new()
    };
    Finding::new(
        &rules::NO_CONDUCTOR,
        format!(
            "no conductor of the tables carries {:.1} A over {:.2} m and loses less than {:.1} % of {:.1} V{before}",
            asked.design.to_a(),
            circuit.length.to_m(),
            asked.drop.to_percent(),
            asked.voltage.to_v()
        ),
    )
    .at(circuit.length.span, "length of this run, one way")
    .means("a thinner cable gets hot, and what it feeds gets too little voltage")
    .help("shorten the route, split the load over two runs, or use a higher voltage")
}

/// Conductor and fuse that are there already against what the run asks; whether the conductor is too
/// thin.
fn stated(
    circuit: &Circuit,
    asked: Asked,
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
