//! The panels together: strings, cold and hot voltage, current, what unlike panels lose.

use super::rules;
use crate::build::{Build, Panel};
use crate::source::{Figure, Finding, Ledger, Seen, Severity, Stated};
use crate::tables::Tables;
use crate::units::{Current, Power, Ratio, Temperature, Voltage};

/// Standard test conditions of panels, IEC 61215: cell at 25 °C.
const STANDARD_CELL: Temperature = Temperature::celsius(25.0);
/// Cell on a hot day of a panel close over a roof: between 65 °C (free air), 89 °C (close mount) and
/// 97 °C (insulated back) by pvlib's models at 1000 W/m², 40 °C, 1 m/s.
pub(super) const HOT_CELL: Temperature = Temperature::celsius(80.0);
/// Volts that the voltage at the working point loses by kelvin over those of the open-circuit
/// voltage: within 0.2 % of the single-diode model of pvlib from −10 °C to 75 °C for a 60-cell panel.
const WORKING_DRIFT: f64 = 1.1;
/// Loss of unlike panels from which it is worth another arrangement; common practice, no source.
const WORTH_TELLING: f64 = 0.02;

/// The panels as the controller sees them.
#[derive(Debug, Clone, Copy)]
pub struct PanelField {
    /// How many panels.
    pub count: u32,
    /// Strings side by side.
    pub strings: u32,
    /// Panels in a string.
    pub in_series: u32,
    /// Open-circuit voltage on the coldest morning, of the highest string.
    pub cold: Voltage,
    /// The same by the factors of a code, which know no coefficient; absent where its table ends.
    pub cold_by_table: Option<Voltage>,
    /// Open-circuit voltage at standard conditions.
    pub open: Voltage,
    /// Operating voltage with hot cells, of the lowest string.
    pub hot: Voltage,
    /// Short-circuit current of all strings.
    pub short: Current,
    /// Operating current of all strings.
    pub working: Current,
    /// Power at standard conditions, each panel for itself.
    pub power: Power,
    /// What unlike panels lose of it by being joined.
    pub lost: Power,
}

/// Panels one behind the other.
#[derive(Debug, Clone)]
pub struct PanelString {
    /// Their marks, from the plus end.
    pub marks: Vec<String>,
    /// Open-circuit voltage on the coldest morning.
    pub cold: Voltage,
    /// Open-circuit voltage at standard conditions.
    pub open: Voltage,
    /// Voltage at the working point at standard conditions.
    pub working_voltage: Voltage,
    /// Operating voltage with hot cells.
    pub hot: Voltage,
    /// Greatest short-circuit current of its panels.
    pub short: Current,
    /// Operating current: that of its weakest panel.
    pub working: Current,
    /// Least of the greatest fuses that its panels' labels allow; absent where a label is not stated.
    pub max_fuse: Option<Current>,
}

/// Panels by their marks in the order of the file, only those whose label is stated.
fn labelled(build: &Build) -> Vec<(String, &Panel)> {
    let mut list: Vec<(String, &Panel)> = Vec::new();
    let mut counts: Vec<(&str, u32)> = Vec::new();
    for panel in &build.panels {
        let mark = panel.mark.value.as_str();
        let start = match counts.iter_mut().find(|(known, _)| *known == mark) {
            Some((_, count)) => {
                let before = *count;
                *count += *panel.count;
                before
            }
            None => {
                counts.push((mark, *panel.count));
                0
            }
        };
        if panel.voc.is_some() && panel.isc.is_some() {
            list.extend((1..=*panel.count).map(|n| (format!("{mark}{}", start + n), panel)));
        }
    }
    list
}

/// Change of a panel's voltage from standard conditions, a share.
fn change(panel: &Panel, cell: Temperature) -> f64 {
    ((cell - STANDARD_CELL) * *panel.voc_drift).to_fraction()
}

fn voc(panel: &Panel) -> Voltage {
    panel.voc.as_ref().map_or(Voltage::ZERO, |voc| **voc)
}

fn isc(panel: &Panel) -> Current {
    panel.isc.as_ref().map_or(Current::ZERO, |isc| **isc)
}

fn vmp(panel: &Panel) -> Voltage {
    panel.vmp.as_ref().map_or(voc(panel) * 0.83, |vmp| **vmp)
}

fn imp(panel: &Panel) -> Current {
    panel.imp.as_ref().map_or(isc(panel) * 0.94, |imp| **imp)
}

/// Panels of each string: as stated, or in the order of the file.
fn in_strings<'b>(build: &Build, panels: &[(String, &'b Panel)]) -> Vec<Vec<(String, &'b Panel)>> {
    let named = |mark: &String| panels.iter().find(|(known, _)| known == mark).cloned();
    let stated: Vec<Vec<(String, &Panel)>> = build
        .strings
        .iter()
        .map(|string| string.panels.iter().filter_map(|mark| named(mark)).collect())
        .filter(|string: &Vec<_>| !string.is_empty())
        .collect();
    if !stated.is_empty() {
        return stated;
    }
    let count = panels.len().max(1) as u32;
    let length = build.controller.as_ref().map_or(1, |it| it.string_length(count));
    panels.chunks(length.max(1) as usize).map(<[_]>::to_vec).collect()
}

/// Number of the string that a panel is in, from 1; none where each panel is a string of its own and
/// nothing was stated.
pub fn string_of(build: &Build, mark: &str) -> Option<usize> {
    let strings = strings(build);
    let told = !build.strings.is_empty() || strings.iter().any(|string| string.marks.len() > 1);
    if !told || strings.len() < 2 {
        return None;
    }
    let at = strings.iter().position(|string| string.marks.iter().any(|own| own == mark))?;
    Some(at + 1)
}

/// Marks of the stated strings against the panels that are there.
pub(super) fn judge_strings(build: &Build, findings: &mut Vec<Finding>) {
    let panels = labelled(build);
    let Some(table) = build.strings.first().filter(|_| !panels.is_empty()) else { return };
    let marks: Vec<&str> = panels.iter().map(|(mark, _)| mark.as_str()).collect();
    let mut seen: Vec<&Stated<String>> = Vec::new();
    for mark in build.strings.iter().flat_map(|string| &string.panels) {
        if let Some(first) = seen.iter().find(|known| known.value == mark.value) {
            findings.push(
                Finding::new(&rules::STRING_MARKS, format!("panel {} is in two places", **mark))
                    .at(mark.span, "here again")
                    .also(first.span, "it is here already")
                    .means("its plus would lead to two panels at once")
                    .help("name each panel once"),
            );
        } else if !marks.contains(&mark.as_str()) {
            findings.push(
                Finding::new(&rules::STRING_MARKS, format!("there is no panel {}", **mark))
                    .at(mark.span, "not among the panels")
                    .means("the string would be a panel short")
                    .help(format!("the panels are {}", marks.join(", "))),
            );
        }
        seen.push(mark);
    }
    let free: Vec<&str> =
        marks.into_iter().filter(|mark| seen.iter().all(|known| known.value != *mark)).collect();
    if !free.is_empty() {
        findings.push(
            Finding::new(&rules::STRING_MARKS, format!("no string has panel {}", free.join(", ")))
                .at(table.span, "the strings begin here")
                .means("a panel in no string is carried on the roof for nothing")
                .help("add it to a string, or a [[string]] of its own"),
        );
    }
}

/// The strings of a build.
pub fn strings(build: &Build) -> Vec<PanelString> {
    let panels = labelled(build);
    let low = *build.weather.record_low;
    in_strings(build, &panels)
        .into_iter()
        .map(|string| {
            let sum = |volts: &dyn Fn(&Panel) -> Voltage| -> Voltage {
                string.iter().map(|(_, panel)| volts(panel)).sum()
            };
            let fuses: Option<Vec<Current>> =
                string.iter().map(|(_, panel)| panel.max_fuse.as_ref().map(|it| **it)).collect();
            PanelString {
                marks: string.iter().map(|(mark, _)| mark.clone()).collect(),
                cold: sum(&|panel| voc(panel) * (1.0 + change(panel, low))),
                open: sum(&voc),
                working_voltage: sum(&vmp),
                hot: sum(&|panel| {
                    vmp(panel) + voc(panel) * (WORKING_DRIFT * change(panel, HOT_CELL))
                }),
                short: string.iter().map(|(_, it)| isc(it)).fold(Current::ZERO, Current::max),
                working: least(string.iter().map(|(_, panel)| imp(panel))),
                max_fuse: fuses.map(|fuses| least(fuses.into_iter())),
            }
        })
        .collect()
}

fn least(currents: impl Iterator<Item = Current>) -> Current {
    currents.reduce(Current::min).unwrap_or(Current::ZERO)
}

/// Open-circuit voltage at a cell temperature, of the lowest string.
pub fn open_at(build: &Build, cell: Temperature) -> Option<Voltage> {
    let panels = labelled(build);
    in_strings(build, &panels)
        .into_iter()
        .map(|string| {
            string.iter().map(|(_, it)| voc(it) * (1.0 + change(it, cell))).sum::<Voltage>()
        })
        .reduce(Voltage::min)
}

/// Adds the panels up: in a string voltages add and the weakest current flows, side by side currents
/// add and the lowest voltage rules.
pub(super) fn field(
    build: &Build,
    strings: &[PanelString],
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<PanelField> {
    let panels = labelled(build);
    let (_, first) = panels.first()?;
    let low = *build.weather.record_low;
    let most = |volts: &dyn Fn(&PanelString) -> Voltage| {
        strings.iter().map(volts).fold(Voltage::ZERO, Voltage::max)
    };
    let open = most(&|string| string.open);
    let lowest = strings.iter().map(|it| it.working_voltage).reduce(Voltage::min)?;
    let working: Current = strings.iter().map(|string| string.working).sum();
    let own: Power = panels.iter().map(|(_, panel)| vmp(panel) * imp(panel)).sum();
    let joined = lowest * working;
    let factor = tables.cold_voltage("nec-690-7").ok().and_then(|row| row.factor(low));
    let field = PanelField {
        count: panels.len() as u32,
        strings: strings.len() as u32,
        in_series: strings.first().map_or(1, |string| string.marks.len() as u32),
        cold: most(&|string| string.cold),
        cold_by_table: factor.map(|factor| open * factor.to_fraction()),
        open,
        hot: strings.iter().map(|string| string.hot).reduce(Voltage::min)?,
        short: strings.iter().map(|string| string.short).sum(),
        working,
        power: panels
            .iter()
            .map(|(_, panel)| panel.power.as_ref().map_or(vmp(panel) * imp(panel), |p| **p))
            .sum(),
        lost: (own - joined).max(Power::ZERO),
    };
    record(build, first, &field, ledger);
    if panels.iter().any(|(_, panel)| panel.span != first.span) {
        unlike(&panels, strings, (own, joined), ledger, findings);
    }
    let longest = strings.iter().map(|string| string.marks.len()).max().unwrap_or(1);
    let stated = build.strings.iter().zip(strings);
    if let Some((short, it)) = stated.into_iter().find(|(_, it)| it.marks.len() < longest) {
        findings.push(
            Finding::new(
                &rules::UNEVEN_STRINGS,
                format!("a string has {} panels, another {longest}", it.marks.len()),
            )
            .at(short.span, "the short one")
            .means("the short string pulls all others down to its voltage")
            .help("give each string as many panels"),
        );
    } else if let Some(controller) = build.controller.as_ref().filter(|_| build.strings.is_empty())
    {
        let length = controller.string_length(field.count);
        if !field.count.is_multiple_of(length) {
            let at = controller.in_series.as_ref().map_or(controller.span, |stated| stated.span);
            findings.push(
                Finding::new(
                    &rules::UNEVEN_STRINGS,
                    format!(
                        "{} panels do not make strings of {length}: one has {}",
                        field.count,
                        field.count % length
                    ),
                )
                .at(at, "panels in each string")
                .also(first.span, "these panels")
                .means("the short string pulls all others down to its voltage")
                .help(divisors(field.count)),
            );
        }
    }
    Some(field)
}

fn divisors(count: u32) -> String {
    let fits: Vec<String> =
        (1..=count).filter(|n| count.is_multiple_of(*n)).map(|n| n.to_string()).collect();
    format!("{count} panels fit strings of {}", fits.join(", "))
}

fn record(build: &Build, panel: &Panel, field: &PanelField, ledger: &mut Ledger) {
    let low = *build.weather.record_low;
    ledger.push(
        Figure::new(
            "electrics.voc.cold",
            "open-circuit voltage on the coldest morning",
            field.cold.to_v(),
            "V",
        )
        .formula("U = n Uoc (1 + β (T − 25 °C))")
        .input("n in series", field.in_series.to_string())
        .input("Uoc", voc(panel).to_string())
        .input("β", format!("{:.2} %/K", panel.voc_drift.to_percent_per_k()))
        .input("T", low.to_string())
        .source("IEC 62548, coefficient method; panel's data sheet", Seen::Memory)
        .decides(),
    );
    if let Some(by_table) = field.cold_by_table {
        ledger.push(
            Figure::new(
                "electrics.voc.cold.table",
                "the same by the factors for panels of unknown coefficient",
                by_table.to_v(),
                "V",
            )
            .formula("U = n Uoc f")
            .input("n Uoc", format!("{:.1} V", field.open.to_v()))
            .input("f", format!("{:.2}", by_table / field.open))
            .source("NEC table 690.7(A)", Seen::Memory)
            .assume("a cross-check: the coefficient of the panel's data sheet comes first"),
        );
    }
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
            .input("Ump", vmp(panel).to_string())
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
        .formula("I = Σ Isc of the strings")
        .input("strings", field.strings.to_string())
        .source("panel's label", Seen::DataSheet),
    );
    if let Some(controller) = &build.controller {
        let asked =
            Current::a((field.power - field.lost).to_w() / controller.charge_voltage.to_v());
        ledger.push(
            Figure::new(
                "electrics.charging",
                "charging current in full sun",
                asked.min(*controller.max_current).to_a(),
                "A",
            )
            .formula("I = min(P / U, the controller's highest)")
            .input("P", format!("{:.0} W", (field.power - field.lost).to_w()))
            .input("U", controller.charge_voltage.to_string())
            .input("highest", controller.max_current.to_string())
            .source("balance of power, nothing lost in the controller", Seen::Computed),
        );
    }
}

/// What panels of several kinds lose by being joined.
fn unlike(
    panels: &[(String, &Panel)],
    strings: &[PanelString],
    (own, joined): (Power, Power),
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) {
    let Some((_, first)) = panels.first() else { return };
    let Some((_, other)) = panels.iter().find(|(_, panel)| panel.span != first.span) else {
        return;
    };
    let lost = (own - joined).max(Power::ZERO);
    let share = Ratio::of_one(lost / own);
    ledger.push(
        Figure::new(
            "electrics.mismatch",
            "power that unlike panels lose by being joined",
            lost.to_w(),
            "W",
        )
        .formula("Σ Ump Imp − least string Ump × Σ least Imp of each string")
        .input("each for itself", format!("{:.0} W", own.to_w()))
        .input("joined", format!("{:.0} W", joined.to_w()))
        .source("currents in series, voltages side by side are alike", Seen::Computed)
        .assume("standard conditions; each panel works at its own Ump or Imp, which is a little less than it could"),
    );
    let in_series = strings.iter().any(|string| string.marks.len() > 1);
    let message = format!(
        "panels of two kinds share one controller input: as much as {:.0} W of {:.0} W are lost ({:.0} %)",
        lost.to_w(),
        own.to_w(),
        share.to_percent()
    );
    let worth = share.to_fraction() > WORTH_TELLING;
    findings.push(
        Finding::new(&rules::UNLIKE_PANELS, message)
            .severity(if worth { Severity::Caution } else { Severity::Note })
            .at(other.span, "this kind differs")
            .also(first.span, "from this one")
            .means(if in_series {
                "in a string the weakest current flows through all, side by side the lowest voltage rules"
            } else {
                "the string with the lowest voltage pulls the others down to it"
            })
            .help("use panels of one kind, or a controller for each kind")
            .help("or let each string hold one kind: they fill the strings in the order of the file"),
    );
}
