//! The panels against what controller, cables and hands stand.

use super::panels::{HOT_CELL, PanelField};
use super::rules;
use crate::build::{Build, Insulation};
use crate::source::{Finding, Span};
use crate::units::Voltage;

/// A converting controller wants its input this far over the battery's charging voltage; common
/// practice.
const HEADROOM: Voltage = Voltage::v(1.0);
/// Direct voltage that vehicle cable is made for: ISO 6722-1, from memory. Solar cable stands
/// 1500 V (EN 50618).
const VEHICLE_CABLE: Voltage = Voltage::v(60.0);
/// Direct voltage that may be touched in dry places: decisive voltage class A of IEC 62548, from
/// memory.
const TOUCHED: Voltage = Voltage::v(60.0);

pub(super) fn judge(build: &Build, panel: Span, field: &PanelField, findings: &mut Vec<Finding>) {
    cables(build, field, findings);
    if field.cold > TOUCHED {
        findings.push(
            Finding::new(
                &rules::TOUCH_VOLTAGE,
                format!(
                    "open panels reach {:.1} V; above {:.0} V bare ends may kill",
                    field.cold.to_v(),
                    TOUCHED.to_v()
                ),
            )
            .at(panel, format!("{} in series", field.in_series))
            .means("in daylight the plugs of a string can’t be switched off")
            .help("fewer panels in series, if the hot voltage allows it")
            .help("or let somebody who is trained for it join the strings, panels covered"),
        );
    }
    let Some(controller) = &build.controller else { return };
    let most = *controller.max_voltage;
    if field.cold > most {
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
            .help(if field.in_series > 2 {
                "put fewer panels in each string: `in-series`"
            } else if field.in_series > 1 {
                "join the panels side by side: connection = \"parallel\""
            } else {
                "use a controller for a higher input voltage"
            }),
        );
    } else if let Some(by_table) = field.cold_by_table.filter(|volts| *volts > most) {
        findings.push(
            Finding::new(
                &rules::COLD_VOLTAGE_BY_TABLE,
                format!(
                    "by the factors of NEC 690.7 the panels give {:.1} V at {}; the controller stands {:.0} V",
                    by_table.to_v(),
                    *build.weather.record_low,
                    most.to_v()
                ),
            )
            .at(controller.max_voltage.span, "limit of the controller")
            .also(panel, format!("{:.1} V by their coefficient", field.cold.to_v()))
            .means("if the coefficient is wrong, one cold morning destroys the controller")
            .help("check `voc-drift` on the panel’s data sheet")
            .help("or use a controller for a higher input voltage"),
        );
    }
    if let Some(limit) = controller.max_short_circuit.as_ref().filter(|it| field.short > ***it) {
        findings.push(
            Finding::new(
                &rules::SHORT_CIRCUIT_OVER_INPUT,
                format!(
                    "the panels drive {:.1} A into a short circuit; the controller’s input stands {:.1} A",
                    field.short.to_a(),
                    limit.to_a()
                ),
            )
            .at(limit.span, "limit of the input")
            .also(panel, format!("{} strings side by side", field.strings))
            .means("joined the wrong way round, or with a fault in it, the controller burns")
            .help("more panels in series and fewer strings: `in-series`")
            .help("or a controller for a higher current"),
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
            .help(if field.strings > 1 {
                "join more panels in series, if the cold voltage allows it"
            } else {
                "use a panel with more voltage at its working point (vmp)"
            }),
        );
    }
}

/// Cables of the panels that are made for less voltage.
fn cables(build: &Build, field: &PanelField, findings: &mut Vec<Finding>) {
    let network = super::nodes::Network::of(build);
    for (index, circuit) in build.circuits.iter().enumerate() {
        if network.root(index) != super::nodes::Root::Panels
            || *circuit.insulation == Insulation::Solar
            || field.cold <= VEHICLE_CABLE
        {
            continue;
        }
        findings.push(
            Finding::new(
                &rules::CABLE_VOLTAGE,
                format!(
                    "“{}” gets {:.1} V; vehicle cable is made for {:.0} V",
                    *circuit.name,
                    field.cold.to_v(),
                    VEHICLE_CABLE.to_v()
                ),
            )
            .at(
                if circuit.insulation.is_default() {
                    circuit.span
                } else {
                    circuit.insulation.span
                },
                "insulation of this run",
            )
            .means("the insulation may break through, and an arc of direct current goes on burning")
            .help("use solar cable: `insulation = \"pv\"`"),
        );
    }
}
