//! What changes if a size on the day is not as planned: small tables for the sheets.
//!
//! Nothing is guessed from rules of thumb: the build is worked out anew with the size changed, and
//! what comes out stands in the table.

use super::electrics;
use crate::build::{Build, MountKind, RoofShape};
use crate::derive::{Body, MountShape, PartKind, Work, placed};
use crate::source::Ledger;
use crate::tables::Tables;
use crate::units::{Length, display};

/// One table: what differs across, what follows down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strip {
    /// What differs.
    pub title: String,
    /// How it is measured and what the cells are.
    pub aside: String,
    /// Head of the first column.
    pub what: &'static str,
    /// Heads of the others.
    pub heads: Vec<String>,
    /// What follows: its name, then its value in each column; empty where there is none.
    pub rows: Vec<(String, Vec<String>)>,
}

/// Differences of a size on the vehicle, mm.
const ON_ROOF: [f64; 5] = [-4.0, -2.0, 0.0, 2.0, 4.0];
/// Differences of a panel, mm: EN 60068-like works tolerances stay within 3 mm.
const OF_PANEL: [f64; 5] = [-3.0, -1.5, 0.0, 1.5, 3.0];
/// Shares of a planned cable length.
const OF_CABLE: [f64; 5] = [0.75, 1.0, 1.25, 1.5, 2.0];

/// The strips of a build, those that have something to tell.
pub fn strips(build: &Build, work: &Work, tables: &Tables) -> Vec<Strip> {
    let mut list = Vec::new();
    list.extend(rail(build, work));
    list.extend(gap(build, work));
    list.extend(panel(build, work));
    list.extend(cable(build, tables));
    list.retain(|strip| !strip.rows.is_empty());
    list
}

/// "+2" of a difference.
fn signed(mm: f64) -> String {
    let told = display::number_short(mm, 1);
    if mm > 0.0 { format!("+{told}") } else { told }
}

fn told(length: Option<Length>) -> String {
    length.map_or_else(String::new, |length| display::number(length.to_mm(), 1))
}

/// What follows of each changed build, by name, in the order of the unchanged one.
fn across(
    build: &Build,
    work: &Work,
    differences: &[f64],
    change: &dyn Fn(&mut Build, Length),
    tell: &dyn Fn(&Work) -> Vec<(String, Length)>,
) -> Vec<(String, Vec<String>)> {
    let columns: Vec<Vec<(String, Length)>> = differences
        .iter()
        .map(|mm| {
            if *mm == 0.0 {
                return tell(work);
            }
            let mut other = build.clone();
            change(&mut other, Length::mm(*mm));
            tell(&placed(&other))
        })
        .collect();
    tell(work)
        .into_iter()
        .map(|(name, _)| {
            let of = |column: &Vec<(String, Length)>| {
                column.iter().find(|(known, _)| *known == name).map(|(_, length)| *length)
            };
            let cells = columns.iter().map(|column| told(of(column))).collect();
            (name, cells)
        })
        .collect()
}

/// A strip whose rows that read alike are one.
fn strip(
    title: &str,
    aside: &str,
    what: &'static str,
    mm: &[f64],
    rows: Vec<(String, Vec<String>)>,
) -> Strip {
    let mut joined: Vec<(Vec<String>, Vec<String>)> = Vec::new();
    for (name, cells) in rows {
        match joined.iter_mut().find(|(_, known)| *known == cells) {
            Some((names, _)) => names.push(name),
            None => joined.push((vec![name], cells)),
        }
    }
    // A row that stays as it is tells nothing.
    joined.retain(|(_, cells)| cells.windows(2).any(|pair| pair[0] != pair[1]));
    Strip {
        title: title.into(),
        aside: aside.into(),
        what,
        heads: mm.iter().map(|mm| signed(*mm)).collect(),
        rows: joined
            .into_iter()
            .map(|(names, cells)| (super::steps::facts::marks(&names), cells))
            .collect(),
    }
}

/// A rail that is higher or lower: the packers on it.
fn rail(build: &Build, work: &Work) -> Option<Strip> {
    let change = |build: &mut Build, by: Length| {
        for mount in &mut build.mounts {
            match &mut mount.kind {
                MountKind::Hinge(line) => line.rail.height.value += by,
                MountKind::RailClamp(clamp) => clamp.rail.height.value += by,
                MountKind::BondedFoot(_) | MountKind::BoltedFoot(_) => {}
            }
        }
    };
    let tell = |work: &Work| {
        let packers = work.mounts.iter().filter_map(|mount| match &mount.kind {
            MountShape::Hinge { packer, .. } | MountShape::RailClamp { packer, .. } => {
                Some((mount.mark.clone(), *packer))
            }
            MountShape::BondedFoot { .. } | MountShape::BoltedFoot { .. } => None,
        });
        packers.collect()
    };
    let rows = across(build, work, &ON_ROOF, &change, &tell);
    (!rows.is_empty()).then(|| {
        let aside = "rail top over skin, measured less planned, mm; packer thickness, mm";
        strip("Rail higher or lower: packer", aside, "packer at", &ON_ROOF, rows)
    })
}

/// A roof that falls away more or less: the height of the bolts of the feet.
fn gap(build: &Build, work: &Work) -> Option<Strip> {
    let change = |build: &mut Build, by: Length| {
        let Some(roof) = &mut build.roof else { return };
        match &mut roof.shape {
            RoofShape::Gaps { stations, .. } => {
                for station in stations {
                    let last = station.gaps.len().saturating_sub(1);
                    for (index, gap) in station.gaps.iter_mut().enumerate() {
                        if index == 0 || index == last {
                            gap.gap = (gap.gap + by).max(Length::ZERO);
                        }
                    }
                }
            }
            RoofShape::Crown(crown) => {
                crown.rise.value = (*crown.rise + by).max(Length::ZERO);
            }
            RoofShape::Flat => {}
        }
    };
    let tell = |work: &Work| {
        let heights = work.mounts.iter().filter_map(|mount| match &mount.kind {
            MountShape::BondedFoot { bolt_height, .. }
            | MountShape::BoltedFoot { bolt_height, .. } => {
                Some((mount.mark.clone(), *bolt_height))
            }
            MountShape::Hinge { .. } | MountShape::RailClamp { .. } => None,
        });
        heights.collect()
    };
    let rows = across(build, work, &ON_ROOF, &change, &tell);
    (!rows.is_empty()).then(|| {
        let aside = "outermost gap under the straightedge, measured less planned, mm; heel to bolt line, mm";
        strip("Roof falls more or less: bolt height", aside, "foot", &ON_ROOF, rows)
    })
}

/// Panels that are longer or shorter: the tubes.
fn panel(build: &Build, work: &Work) -> Vec<Strip> {
    let tell = |work: &Work| {
        let tubes = work.parts.iter().filter(|part| {
            matches!(part.kind, PartKind::SideTube | PartKind::EndTube | PartKind::CrossTube)
        });
        tubes
            .flat_map(|part| {
                let length = match &part.body {
                    Body::Bar { length, .. } => *length,
                    _ => Length::ZERO,
                };
                part.pieces.iter().map(move |piece| (piece.mark.clone(), length))
            })
            .collect()
    };
    let longer = |build: &mut Build, by: Length| {
        for panel in &mut build.panels {
            panel.length.value += by;
        }
    };
    let wider = |build: &mut Build, by: Length| {
        for panel in &mut build.panels {
            panel.width.value += by;
        }
    };
    let aside = "all panels alike, measured less planned, mm; cut length, mm";
    let mut list = Vec::new();
    for (title, change) in [
        ("Panels longer or shorter: cut", &longer as &dyn Fn(&mut Build, Length)),
        ("Panels wider or narrower: cut", &wider),
    ] {
        let rows = across(build, work, &OF_PANEL, change, &tell);
        if !rows.is_empty() {
            list.push(strip(title, aside, "tube", &OF_PANEL, rows));
        }
    }
    list
}

/// Routes that are longer: the conductor.
fn cable(build: &Build, tables: &Tables) -> Option<Strip> {
    let sized = |share: f64| {
        let mut other = build.clone();
        for circuit in &mut other.circuits {
            circuit.length.value = *circuit.length * share;
        }
        let none = Length::ZERO;
        electrics::electrics(&other, none, tables, &mut Ledger::new(), &mut Vec::new())
    };
    let columns: Vec<_> = OF_CABLE.iter().map(|share| sized(*share)).collect();
    let sizes = columns.iter().flatten().flat_map(|column| &column.runs);
    let fine = display::decimals_of(
        sizes.filter_map(|run| run.conductor.as_ref()).map(|own| own.area.to_mm2()),
    );
    let first = columns.first()?.as_ref()?;
    let rows: Vec<(String, Vec<String>)> = first
        .runs
        .iter()
        .enumerate()
        .map(|(index, run)| {
            let cells = columns.iter().map(|column| {
                let run = column.as_ref().and_then(|column| column.runs.get(index));
                run.and_then(|run| run.conductor.as_ref()).map_or_else(String::new, |conductor| {
                    display::number(conductor.area.to_mm2(), fine)
                })
            });
            (format!("{} {}", run.mark, run.name), cells.collect())
        })
        .collect();
    (!rows.is_empty()).then(|| Strip {
        title: "Route longer or shorter: conductor".into(),
        aside: "measured route by planned route, all runs alike; copper, mm²".into(),
        what: "run",
        heads: OF_CABLE
            .iter()
            .map(|share| format!("× {}", display::number_short(*share, 2)))
            .collect(),
        rows,
    })
}
