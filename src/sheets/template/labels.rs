//! Labels to cut out: both ends of every conductor, fuses and switches, the height for the dashboard.

use super::printed::Printed;
use super::{Head, sheet};
use crate::build::LengthUnit;
use crate::compute::cables::{Pole, way_round};
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
    if let Some(isolator) = &electrics.isolator {
        list.push(Label::Plain {
            lines: [
                format!("{}  panels off", isolator.mark),
                "live in daylight:".into(),
                "cover the panels first".into(),
            ],
        });
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
    if let Some(bond) = &electrics.earth {
        let battery = basis.build.battery.as_ref().map_or("B", |battery| &battery.mark.value);
        let ends = [format!("{battery}:\u{2212}"), "body".to_owned()];
        let round = bond.outer.map_or(20.0, |outer| way_round(outer).to_mm());
        for (here, there) in [(&ends[0], &ends[1]), (&ends[1], &ends[0])] {
            list.push(Label::Flag {
                round,
                lines: [
                    format!("{}  {}  {}", bond.mark, bond.colour, area_words(bond.area)),
                    format!("on {here}"),
                    format!("other end {there}"),
                ],
            });
        }
    }
    list
}
