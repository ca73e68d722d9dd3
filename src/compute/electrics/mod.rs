//! Voltages, currents, conductors and fuses.
//!
//! Takes panels, controller, battery and the cable runs; gives string voltages on the coldest and
//! the hottest day, the smallest conductor of each run by ampacity and by voltage drop, and the fuse
//! between load and conductor.

mod bank;
mod chain;
mod conductor;
mod devices;
mod earth;
mod fuse;
mod limits;
mod nodes;
mod panels;
pub mod rules;
mod run;
mod single;
mod switch;

use crate::build::{Build, ControllerKind, Terminal};
use crate::source::{Finding, Ledger, Severity, Span};
use crate::tables::Tables;
use crate::units::Length;

pub use crate::tables::area_words;
pub use bank::Bank;
pub use chain::ChainRun;
pub use conductor::{Conductor, DecidedBy, assess};
pub use devices::{Isolator, StringFuse};
pub use fuse::Fuse;
pub(in crate::compute) use fuse::{SUPPLY_FEEDS, prospective};
pub use nodes::supply_current;
pub use panels::{PanelField, PanelString, open_at, string_of};
pub use run::Run;
pub use single::Single;
pub use switch::Switch;

/// What was worked out of the electrics.
#[derive(Debug, Clone)]
pub struct Electrics {
    /// The panels together; absent where none states its voltages.
    pub field: Option<PanelField>,
    /// The strings that they make.
    pub strings: Vec<PanelString>,
    /// Switch between panels and controller; absent where no run starts at panels.
    pub isolator: Option<Isolator>,
    /// A fuse in the plus of each string, where the others can burn a faulty one.
    pub string_fuse: Option<StringFuse>,
    /// Cable runs in file order.
    pub runs: Vec<Run>,
    /// The runs from the panels to the battery, with the drop that adds up along them.
    pub chain: Vec<ChainRun>,
    /// The bond from the battery's minus to the body.
    pub earth: Option<Single>,
    /// Batteries joined to one.
    pub bank: Option<Bank>,
}

impl Electrics {
    /// Conductors that lie alone: the bond to the body, then the links of a bank.
    pub fn singles(&self) -> impl Iterator<Item = &Single> {
        self.earth.iter().chain(self.bank.iter().flat_map(|bank| &bank.links))
    }

    /// Switches in the plus of runs.
    pub fn switches(&self) -> impl Iterator<Item = (&Run, &Switch)> {
        self.runs.iter().filter_map(|run| Some((run, run.switch.as_ref()?)))
    }
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
    if let Some(battery) = &build.battery {
        bank::judge(battery, findings);
    }
    panels::judge_strings(build, findings);
    let strings = panels::strings(build);
    let field = panels::field(build, &strings, tables, ledger, findings);
    if build.circuits.is_empty() && field.is_none() {
        return None;
    }
    let at_panels = label_of(build);
    if let Some(field) = &field {
        limits::judge(build, at_panels, field, findings);
    }
    if let Some(battery) = build.battery.as_ref().filter(|_| !build.circuits.is_empty()) {
        fuse::record_source(battery, ledger);
    }
    let network = nodes::Network::of(build);
    network.tell_circle(findings);
    let runs = run::runs(
        &run::Given { build, network: &network, field: field.as_ref(), tables },
        lift,
        ledger,
        findings,
    );
    network.balance(findings);
    cold_charging(build, findings);
    charger_and_supply(build, findings);
    let chain = chain::chain(build, &network, &runs, ledger);
    let isolator =
        field.as_ref().and_then(|field| devices::isolator(build, field, &runs, ledger, findings));
    let string_fuse = field.as_ref().and_then(|field| {
        devices::string_fuse((&strings, at_panels), field, tables, ledger, findings)
    });
    let earth = earth::earth(build, &runs, tables, ledger);
    let bank = bank::bank(build, &runs, earth.is_some(), tables, ledger, findings);
    Some(Electrics { field, strings, isolator, string_fuse, runs, chain, earth, bank })
}

/// Where the first labelled panel stands in the file.
fn label_of(build: &Build) -> Span {
    let labelled = build.panels.iter().find(|panel| panel.voc.is_some() && panel.isc.is_some());
    labelled.map_or(Span::NONE, |panel| panel.span)
}

/// The fuse of each string, where the others can burn a faulty one.
pub fn string_fuse(build: &Build, tables: &Tables) -> Option<StringFuse> {
    let (ledger, findings) = (&mut Ledger::new(), &mut Vec::new());
    let strings = panels::strings(build);
    let field = panels::field(build, &strings, tables, ledger, findings)?;
    devices::string_fuse((&strings, label_of(build)), &field, tables, ledger, findings)
}

/// A charger from the vehicle's supply and a run that feeds it need each other.
fn charger_and_supply(build: &Build, findings: &mut Vec<Finding>) {
    let Some(controller) = &build.controller else { return };
    let fed = build.circuits.iter().find(|circuit| *circuit.from == Terminal::Supply);
    match (*controller.kind, fed) {
        (ControllerKind::Solar, Some(circuit)) => findings.push(
            Finding::new(
                &rules::CHARGER_AND_SUPPLY,
                format!("“{}” feeds a controller that takes panels alone", *circuit.name),
            )
            .at(circuit.from.span, "the vehicle’s battery")
            .also(controller.kind.span, "solar input only")
            .means("joined to each other, the two batteries drive an unlimited current")
            .help("use a charger with both inputs: `kind = \"dc-dc\"`")
            .help("or take this circuit out"),
        ),
        (ControllerKind::DcDc, None) => findings.push(
            Finding::new(
                &rules::CHARGER_AND_SUPPLY,
                "nothing leads from the vehicle’s battery to the charger",
            )
            .severity(Severity::Caution)
            .at(controller.kind.span, "takes the vehicle’s supply, too")
            .means("while driving it charges from the panels alone; its cable and fuse are not planned")
            .help("add a circuit `from = \"supply\"` and a table `[supply]`")
            .help("or use `kind = \"solar\"`"),
        ),
        _ => {}
    }
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
        Terminal::Supply => "supply".into(),
        Terminal::Load(name) => name.clone(),
    }
}
