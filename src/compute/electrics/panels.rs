//! The panels together: cold and hot voltage, current, the controller's limits.

use super::rules;
use crate::build::{Build, PanelConnection};
use crate::source::{Figure, Finding, Ledger, Seen, Severity};
use crate::units::{Current, Power, Temperature, Voltage};

/// Standard test conditions of panels, IEC 61215: cell at 25 °C.
const STANDARD_CELL: Temperature = Temperature::celsius(25.0);
/// Cell on a hot day of a panel close over a roof: between 65 °C (free air), 89 °C (close mount) and
/// 97 °C (insulated back) by pvlib's models at 1000 W/m², 40 °C, 1 m/s.
const HOT_CELL: Temperature = Temperature::celsius(80.0);
/// Volts that the voltage at the working point loses by kelvin over those of the open-circuit
/// voltage: within 0.2 % of the single-diode model of pvlib from −10 °C to 75 °C for a 60-cell panel.
const WORKING_DRIFT: f64 = 1.1;
/// A converting controller wants its input this far over the battery's charging voltage; common
/// practice.
const HEADROOM: Voltage = Voltage::v(1.0);
/// Strings side by side that need no fuses: one can't feed another beyond its own current
/// (IEC 62548; NEC 690.9 (A)).
pub(super) const STRINGS_WITHOUT_FUSE: u32 = 2;
/// Fuse of a string over its short-circuit current, from and to (IEC 62548, 6.5).
pub(super) const STRING_FUSE: (f64, f64) = (1.5, 2.4);

/// The panels as the controller sees them.
#[derive(Debug, Clone, Copy)]
pub struct PanelField {
    /// How many panels.
    pub count: u32,
    /// Strings side by side.
    pub strings: u32,
    /// Panels in a string.
    pub in_series: u32,
    /// Open-circuit voltage on the coldest morning.
    pub cold: Voltage,
    /// Open-circuit voltage at standard conditions.
    pub open: Voltage,
    /// Operating voltage with hot cells.
    pub hot: Voltage,
    /// Short-circuit current of all strings.
    pub short: Current,
    /// Operating current of all strings.
    pub working: Current,
    /// Power at standard conditions.
    pub power: Power,
}

/// Adds the panels up; only the first kind that states its voltages is joined, others are refused.
pub(super) fn field(
    build: &Build,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<PanelField> {
    let mut kinds = build.panels.iter().filter(|p| p.voc.is_some() || p.isc.is_some());
    let panel = kinds.next()?;
    if let Some(other) = kinds.next() {
        findings.push(
            Finding::new(&rules::UNLIKE_PANELS, "panels of two kinds share one controller input")
                .at(other.span, "this kind differs")
                .also(panel.span, "from this one")
                .means("the weaker kind pulls the others down to its own current or voltage")
                .help("use panels of one kind, or a controller for each kind"),
        );
    }
    let (voc, isc) = (**panel.voc.as_ref()?, **panel.isc.as_ref()?);
    let vmp = panel.vmp.as_ref().map_or(voc * 0.83, |v| **v);
    let imp = panel.imp.as_ref().map_or(isc * 0.94, |i| **i);
    let count = *panel.count;
    let series =
        build.controller.as_ref().is_some_and(|c| *c.connection == PanelConnection::Series);
    let (in_series, strings) = if series { (count, 1) } else { (1, count) };
    let drift = *panel.voc_drift;
    let low = *build.weather.record_low;
    let change = |cell: Temperature| ((cell - STANDARD_CELL) * drift).to_fraction();
    let cold = voc * (1.0 + change(low)) * f64::from(in_series);
    let hot = (vmp + voc * (WORKING_DRIFT * change(HOT_CELL))) * f64::from(in_series);
    let field = PanelField {
        count,
        strings,
        in_series,
        cold,
        open: voc * f64::from(in_series),
        hot,
        short: isc * f64::from(strings),
        working: imp * f64::from(strings),
        power: panel.power.as_ref().map_or(vmp * imp, |p| **p) * f64::from(count),
    };
    ledger.push(
        Figure::new(
            "electrics.voc.cold",
            "open-circuit voltage on the coldest morning",
            cold.to_v(),
            "V",
        )
        .formula("U = n Uoc (1 + β (T − 25 °C))")
        .input("n in series", in_series.to_string())
        .input("Uoc", voc.to_string())
        .input("β", format!("{:.2} %/K", drift.to_percent_per_k()))
        .input("T", low.to_string())
        .source("IEC 62548, coefficient method; panel's data sheet", Seen::Memory)
        .decides(),
    );
    ledger.push(
        Figure::new(
            "electrics.voc.standard",
            "open-circuit voltage at 25 °C",
            field.open.to_v(),
            "V",
        )
        .source("panel's label", Seen::DataSheet),
    );
    ledger.push(
        Figure::new("electrics.vmp.hot", "operating voltage with hot cells", field.hot.to_v(), "V")
            .formula("U = n (Ump + 1.1 Uoc β (T − 25 °C))")
            .input("Ump", vmp.to_string())
            .input("T", HOT_CELL.to_string())
            .source("cell temperature by pvlib's roof-mounted models", Seen::Computed)
            .assume(
                "the working voltage loses 1.1 times the volts that the open-circuit voltage loses",
            ),
    );
    ledger.push(
        Figure::new(
            "electrics.isc",
            "short-circuit current of the panels",
            field.short.to_a(),
            "A",
        )
        .formula("I = strings × Isc")
        .input("strings", strings.to_string())
        .source("panel's label", Seen::DataSheet),
    );
    judge(build, panel.span, &field, findings);
    Some(field)
}

fn judge(
    build: &Build,
    panel: crate::source::Span,
    field: &PanelField,
    findings: &mut Vec<Finding>,
) {
    let Some(controller) = &build.controller else { return };
    let most = *controller.max_voltage;
    let share = field.cold / most;
    if share > 1.0 {
        findings.push(
            Finding::new(
                &rules::COLD_VOLTAGE,
                format!(
                    "the panels give {:.1} V at {}; the controller stands {:.0} V",
                    field.cold.to_v(),
                    *build.weather.record_low,
                    most.to_v()
                ),
            )
            .at(controller.max_voltage.span, "limit of the controller")
            .also(panel, format!("{} in series", field.in_series))
            .means("the first clear frosty morning destroys the controller")
            .help(if field.in_series > 1 {
                "join the panels side by side: connection = \"parallel\""
            } else {
                "use a controller for a higher input voltage"
            }),
        );
    }
    let wanted = *controller.charge_voltage + HEADROOM;
    if field.hot < wanted {
        findings.push(
            Finding::new(
                &rules::HOT_VOLTAGE,
                format!(
                    "panels at {HOT_CELL} give {:.1} V; charging to {:.1} V needs {:.1} V",
                    field.hot.to_v(),
                    controller.charge_voltage.to_v(),
                    wanted.to_v()
                ),
            )
            .at(controller.charge_voltage.span, "charging voltage")
            .means("on hot days the battery does not get full")
            .help(if field.count > 1 && field.in_series == 1 {
                "join the panels in series, if the cold voltage allows it"
            } else {
                "use a panel with more voltage at its working point (vmp)"
            }),
        );
    }
    if field.strings > STRINGS_WITHOUT_FUSE {
        let one = field.short / f64::from(field.strings);
        let back = one * f64::from(field.strings - 1);
        findings.push(
            Finding::new(
                &rules::STRING_FUSES,
                format!(
                    "{} strings side by side can push {:.1} A back into a faulty one",
                    field.strings,
                    back.to_a()
                ),
            )
            .severity(Severity::Caution)
            .at(panel, "these panels")
            .means("a faulty panel or plug may burn, fed by its neighbours")
            .help(format!(
                "look on the panel's label for its greatest fuse: if it is under {:.1} A, put a fuse in the plus of each panel, between {:.1} A and {:.1} A and not above the label's",
                back.to_a(),
                one.to_a() * STRING_FUSE.0,
                one.to_a() * STRING_FUSE.1
            )),
        );
    }
}
