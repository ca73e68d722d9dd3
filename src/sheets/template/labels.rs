//! Labels to cut out: both ends of every conductor, fuses and switches, the height for the dashboard.

use super::printed::Printed;
use super::{Head, sheet};
use crate::build::LengthUnit;
use crate::compute::cables::Pole;
use crate::page::Sheet;
use crate::sheets::Basis;
use crate::sheets::scenes::{ROOM, Shown, terminals};
use crate::tables::area_words;
use crate::units::{Length, display};

/// One label.
#[derive(Debug, Clone, PartialEq)]
pub enum Label {
    /// Folds about a conductor: the length round it, mm, and its lines.
    Flag { round: f64, lines: [String; 3] },
    /// Lies flat on a fuse holder or a switch.
    Plain { lines: [String; 3] },
    /// The height, and a line under it.
    Height { value: String, words: String },
}

/// Height of a flag and of a flat label, mm.
pub const FLAG: f64 = 21.5;
/// Height of the label for the dashboard, mm.
pub const DASHBOARD: f64 = 34.0;

impl Label {
    /// How high it is cut, mm.
    pub const fn height(&self) -> f64 {
        match self {
            Self::Flag { .. } | Self::Plain { .. } => FLAG,
            Self::Height { .. } => DASHBOARD,
        }
    }
}

/// Rows of labels; two flat ones share a row.
pub type LabelRow = Vec<Label>;

/// Their sheets: as many rows as stand under each other on a page.
pub(super) fn labels(basis: &Basis, printed: Printed) -> Vec<Sheet> {
    let mut pages: Vec<Vec<LabelRow>> = Vec::new();
    let mut used = f64::INFINITY;
    for row in rows(basis) {
        let height = row.first().map_or(0.0, Label::height);
        if used + height > ROOM.0 {
            pages.push(Vec::new());
            used = 0.0;
        }
        used += height;
        if let Some(page) = pages.last_mut() {
            page.push(row);
        }
    }
    let count = pages.len();
    let title = "Labels to cut out".to_owned();
    let tables =
        if basis.results.cables.is_some() { vec!["cables".to_owned()] } else { Vec::new() };
    let head = Head { short: title.clone(), title, tables, key: "labels".into() };
    let page = |(number, page): (usize, &Vec<LabelRow>)| {
        sheet(basis, &Shown::Labels(page), &head.nth(number + 1, count, ""), printed)
    };
    pages.iter().enumerate().map(page).collect()
}

fn rows(basis: &Basis) -> Vec<LabelRow> {
    let mut rows: Vec<LabelRow> = Vec::new();
    rows.extend(height(basis).map(|label| vec![label]));
    let flat = devices(basis);
    rows.extend(flat.chunks(2).map(<[Label]>::to_vec));
    rows.extend(flags(basis).into_iter().map(|label| vec![label]));
    rows
}

/// The vehicle's height from now on, where it is known before and after.
fn height(basis: &Basis) -> Option<Label> {
    let (_, after) = basis.results.weights.height?;
    let mut value = display::clearance_height(after);
    if *basis.build.job.units == LengthUnit::Inch {
        value = format!("{value} = {}", display::clearance_feet(after));
    }
    let roof = display::with_unit(&display::number(basis.results.weights.roof.to_kg(), 0), "kg");
    Some(Label::Height {
        value,
        words: format!("height, panels lying down; {roof} added on the roof"),
    })
}

/// Fuses and switches.
fn devices(basis: &Basis) -> Vec<Label> {
    let Some(electrics) = &basis.results.electrics else { return Vec::new() };
    let amps = |current: crate::units::Current| {
        display::with_unit(&display::number_short(current.to_a(), 1), "A")
    };
    let mut list = Vec::new();
    for run in &electrics.runs {
        for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
            list.push(Label::Plain {
                lines: [
                    format!("{}  {}", fuse.mark, amps(fuse.rating)),
                    format!("fuse in {}+", run.mark),
                    run.name.clone(),
                ],
            });
        }
    }
    if let Some((bank, fuse)) =
        electrics.bank.as_ref().and_then(|bank| Some((bank, bank.fuse.as_ref()?)))
    {
        for (mark, string) in bank.fuses.iter().zip(&bank.strings) {
            list.push(Label::Plain {
                lines: [
                    format!("{mark}  {}", amps(fuse.rating)),
                    "fuse of the battery string".to_owned(),
                    string.join(", "),
                ],
            });
        }
    }
    for (run, switch) in electrics.switches() {
        let what = if switch.main { "battery off" } else { "off" };
        list.push(Label::Plain {
            lines: [
                format!("{}  {what}", switch.mark),
                format!("switch in {}{}", run.mark, if switch.poles > 1 { "" } else { "+" }),
                run.name.clone(),
            ],
        });
    }
    if let Some(isolator) = &electrics.isolator {
        list.push(Label::Plain {
            lines: [
                format!("{}  panels off", isolator.mark),
                "live in daylight:".into(),
                "cover the panels first".into(),
            ],
        });
    }
    let strings = &electrics.strings;
    if strings.len() > 1 && strings.iter().any(|string| string.marks.len() > 1) {
        for (number, string) in strings.iter().enumerate() {
            let end = |mark: Option<&String>| mark.cloned().unwrap_or_default();
            list.push(Label::Plain {
                lines: [
                    format!("string {}", number + 1),
                    format!("panels {}", string.marks.join(", ")),
                    format!(
                        "plus at {}, minus at {}",
                        end(string.marks.first()),
                        end(string.marks.last())
                    ),
                ],
            });
        }
    }
    list
}

/// Two ends of each conductor.
fn flags(basis: &Basis) -> Vec<Label> {
    let (Some(electrics), Some(cables)) = (&basis.results.electrics, &basis.results.cables) else {
        return Vec::new();
    };
    let mut list = Vec::new();
    for (index, circuit) in basis.build.circuits.iter().enumerate() {
        let mark = format!("W{}", index + 1);
        let Some(run) = electrics.runs.iter().find(|run| run.mark == mark) else { continue };
        let laid = cables.laid.iter().find(|laid| laid.mark == mark);
        let round = laid.and_then(|laid| laid.round).unwrap_or(Length::mm(20.0)).to_mm();
        let [from, to] = terminals(basis, circuit);
        let size = run.conductor.as_ref().map_or(String::new(), |c| area_words(c.area));
        for (pole, sign) in [(Pole::Plus, "+"), (Pole::Minus, "\u{2212}")] {
            let at = usize::from(pole == Pole::Minus);
            let colour = if at == 0 { run.colours.0 } else { run.colours.1 };
            for (here, there) in [(&from[at], &to[at]), (&to[at], &from[at])] {
                list.push(Label::Flag {
                    round,
                    lines: [
                        format!("{mark}{sign}  {colour}  {size}").trim_end().to_owned(),
                        format!("on {here}"),
                        format!("other end {there}"),
                    ],
                });
            }
        }
    }
    for single in electrics.singles() {
        let laid = cables.laid.iter().find(|laid| laid.mark == single.mark);
        let round = laid.and_then(|laid| laid.round).unwrap_or(Length::mm(20.0)).to_mm();
        let [from, to] = &single.ends;
        for (here, there) in [(from, to), (to, from)] {
            list.push(Label::Flag {
                round,
                lines: [
                    format!(
                        "{}  {}  {}",
                        single.mark,
                        single.colour,
                        area_words(single.conductor.area)
                    ),
                    format!("on {here}"),
                    format!("other end {there}"),
                ],
            });
        }
    }
    list
}
