//! Plates, packers and foam from sheets: jobs for the solver, and its sheets with their names back.

use super::{Limits, Reached, SheetCuts, explain, id_of, length, mark_order, notes, whole};
use crate::build::Build;
use crate::compute::cutting::{
    self, CutSheet, Job, Measure, Panel, SheetJob, SheetPiece, SheetSection, SheetStock,
};
use crate::derive::{Body, PartKind, Work};
use crate::source::{Finding, Span};
use crate::tables::{Material, Tables};
use crate::units::{Area, Length, Money, Unit, display};

/// Sizes nearer than this are one thickness.
const SAME: Length = Length::mm(0.01);

/// What is sold as sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetStuff {
    /// Material row.
    pub material: Material,
    /// Thickness.
    pub thickness: Length,
}

impl SheetStuff {
    /// For people: "aluminium 5754 H22 sheet, 3 mm thick".
    pub fn words(&self) -> String {
        format!(
            "{}, {} thick",
            self.material.words,
            display::in_unit_short(self.thickness, Unit::MM, 3)
        )
    }
}

/// One sheet to cut. X runs along its length from the zero corner, Y along its width.
#[derive(Debug, Clone)]
pub struct CutPlate {
    /// Number on the sheet of paper, from 1.
    pub number: usize,
    /// What it is.
    pub stuff: SheetStuff,
    /// Along X.
    pub length: Length,
    /// Along Y.
    pub width: Length,
    /// Label of the leftover that it is, if it is one.
    pub on_hand: Option<String>,
    /// Cut off each edge.
    pub trim: Length,
    /// Pieces, larger ones first.
    pub pieces: Vec<PlatePiece>,
    /// Cuts in order.
    pub cuts: Vec<SheetCutLine>,
    /// What is left, larger ones first.
    pub rests: Vec<PlateRest>,
}

/// A piece where it lies.
#[derive(Debug, Clone)]
pub struct PlatePiece {
    /// Mark.
    pub mark: String,
    /// Name of the part.
    pub name: String,
    /// Finished size along its own length and width.
    pub size: (Length, Length),
    /// Nearest corner from the sheet's zero corner.
    pub at: (Length, Length),
    /// Along X and Y as it lies.
    pub lies: (Length, Length),
    /// Whether it lies turned by a right angle.
    pub turned: bool,
    /// Least and greatest length.
    pub limits: (Limits, Limits),
}

/// One straight cut from edge to edge of what earlier cuts left.
#[derive(Debug, Clone)]
pub struct SheetCutLine {
    /// Whether it runs along Y, at an X; else along X, at a Y.
    pub along_width: bool,
    /// Where the kept side ends and the kerf begins, from the zero corner.
    pub at: Length,
    /// From where to where it runs.
    pub span: (Length, Length),
}

/// A panel that is left over.
#[derive(Debug, Clone)]
pub struct PlateRest {
    /// Mark, if it is worth keeping.
    pub mark: Option<String>,
    /// Nearest corner.
    pub at: (Length, Length),
    /// Along X.
    pub length: Length,
    /// Along Y.
    pub width: Length,
}

/// A piece wanted.
pub(super) struct WantedPlate {
    pub mark: String,
    pub name: String,
    pub length: Length,
    pub width: Length,
    pub turn: bool,
    pub span: Span,
}

/// Pieces of one material and thickness.
pub(super) struct SheetGroup {
    pub stuff: SheetStuff,
    pub pieces: Vec<WantedPlate>,
}

/// Whether sheets of the file are those of a kind.
pub(super) fn same_sheet(material: &Material, thickness: Length, stuff: &SheetStuff) -> bool {
    material.name == stuff.material.name && thickness.is_near(stuff.thickness, SAME)
}

/// Whether the file states such a sheet, to buy or on hand.
pub(super) fn has_sheet(build: &Build, material: &Material, thickness: Length) -> bool {
    let stuff = SheetStuff { material: material.clone(), thickness };
    build.sheets.iter().any(|s| same_sheet(&s.material, *s.thickness, &stuff))
        || build.sheet_leftovers.iter().any(|s| same_sheet(&s.material, *s.thickness, &stuff))
}

/// Plans every kind of sheet, by name and thickness.
pub(super) fn plan(
    build: &Build,
    work: &Work,
    tables: &Tables,
    findings: &mut Vec<Finding>,
) -> (Vec<SheetCuts>, Vec<CutPlate>) {
    let (mut sections, mut plates) = (Vec::new(), Vec::new());
    for group in wanted(build, work) {
        let job =
            SheetJob { sections: vec![section_of(build, &group)], work_limit: Job::WORK_LIMIT / 4 };
        match cutting::cut_sheets(&job) {
            Ok(answer) => {
                for answer in &answer.sections {
                    notes::sheet_remarks(build, &group, &answer.remarks, findings);
                    let told = told(build, &group, answer, &mut plates, tables);
                    if !told.proven {
                        let priced = answer.measure == Measure::Price;
                        findings.push(super::rules::sheet_not_proven(
                            &group.stuff.words(),
                            answer.cost.value,
                            answer.cost.bound,
                            priced,
                        ));
                    }
                    sections.push(told);
                }
            }
            Err(error) => findings.push(explain::sheet(build, &group, &error)),
        }
    }
    (sections, plates)
}

/// Pieces by material and thickness. Plates and blocks that the work derives are cut from sheet where
/// the file has a sheet for them, else bought to size.
fn wanted(build: &Build, work: &Work) -> Vec<SheetGroup> {
    let mut groups: Vec<SheetGroup> = Vec::new();
    for part in &work.parts {
        let (material, thickness, size) = match &part.body {
            Body::Plate { material, length, width, thickness, section, .. } => {
                let long = section.as_ref().is_some_and(|s| {
                    build.stock.iter().any(|stock| stock.of.name() == s.name)
                        || build.leftovers.iter().any(|l| l.of.name() == s.name)
                });
                if long {
                    continue;
                }
                (material, *thickness, (*length, *width))
            }
            Body::Block { material, length, width, height } => {
                (material, *height, (*length, *width))
            }
            _ => continue,
        };
        if part.kind != PartKind::Direct && !has_sheet(build, material, thickness) {
            continue;
        }
        let turn = build.plates.iter().find(|plate| plate.span == part.span).is_none_or(|p| *p.turn)
                // A bend lies across the grain, which runs along the sheet.
                && part.body.fold().is_none();
        let pieces = part.pieces.iter().map(|piece| WantedPlate {
            mark: piece.mark.clone(),
            name: part.name.clone(),
            length: size.0,
            width: size.1,
            turn,
            span: part.span,
        });
        match groups.iter_mut().find(|g| same_sheet(material, thickness, &g.stuff)) {
            Some(group) => group.pieces.extend(pieces),
            None => groups.push(SheetGroup {
                stuff: SheetStuff { material: material.clone(), thickness },
                pieces: pieces.collect(),
            }),
        }
    }
    groups.sort_by(|a, b| {
        a.stuff
            .material
            .name
            .cmp(&b.stuff.material.name)
            .then(a.stuff.thickness.total_cmp(&b.stuff.thickness))
    });
    for group in &mut groups {
        group.pieces.sort_by_cached_key(|piece| mark_order(&piece.mark));
    }
    groups
}

fn section_of(build: &Build, group: &SheetGroup) -> SheetSection {
    let own =
        |material: &Material, thickness: Length| same_sheet(material, thickness, &group.stuff);
    let bought =
        build.sheets.iter().enumerate().filter(|(_, s)| own(&s.material, *s.thickness)).map(
            |(index, sheet)| SheetStock {
                id: format!("new {index}"),
                width: whole(*sheet.length),
                height: whole(*sheet.width),
                trim: whole(*build.cutting.sheet_trim),
                price: sheet.price.as_ref().map(|p| p.to_cents()),
                limit: None,
            },
        );
    let on_hand = build
        .sheet_leftovers
        .iter()
        .enumerate()
        .filter(|(_, s)| own(&s.material, *s.thickness))
        .map(|(index, sheet)| SheetStock {
            id: format!("hand {index}"),
            width: whole(*sheet.length),
            height: whole(*sheet.width),
            trim: 0,
            price: Some(0),
            limit: Some(*sheet.count),
        });
    SheetSection {
        name: group.stuff.words(),
        kerf: whole(*build.cutting.sheet_kerf),
        pieces: group
            .pieces
            .iter()
            .enumerate()
            .map(|(rank, p)| SheetPiece {
                id: id_of(rank),
                width: whole(p.length),
                height: whole(p.width),
                turn: p.turn,
            })
            .collect(),
        stock: bought.chain(on_hand).collect(),
    }
}

fn told(
    build: &Build,
    group: &SheetGroup,
    answer: &cutting::SheetSectionPlan,
    plates: &mut Vec<CutPlate>,
    tables: &Tables,
) -> SheetCuts {
    let priced = answer.measure == Measure::Price;
    let money = |cents: i64| priced.then(|| Money::cents(cents));
    let mut buy: Vec<(Length, Length, u32, Option<Money>)> = Vec::new();
    for sheet in &answer.sheets {
        let on_hand = on_hand(build, &sheet.stock);
        if on_hand.is_none() {
            let size = (length(sheet.width), length(sheet.height));
            let price = sheet.price.map(Money::cents);
            match buy.iter_mut().find(|b| (b.0, b.1) == size && b.3 == price) {
                Some(entry) => entry.2 += 1,
                None => buy.push((size.0, size.1, 1, price)),
            }
        }
        plates.push(plate(build, group, sheet, on_hand, plates.len() + 1, tables));
    }
    SheetCuts {
        stuff: group.stuff.clone(),
        buy,
        price: money(answer.cost.value),
        bound: money(answer.cost.bound),
        proven: answer.cost.proven(),
        leftover: Reached {
            value: area(answer.leftover.value),
            bound: area(answer.leftover.bound),
        },
    }
}

/// An area in squares of a hundredth of a millimetre.
fn area(hundredths: i64) -> Area {
    Area::mm2(hundredths as f64 / 1e4)
}

fn plate(
    build: &Build,
    group: &SheetGroup,
    sheet: &CutSheet,
    on_hand: Option<String>,
    number: usize,
    tables: &Tables,
) -> CutPlate {
    let corner = |panel: &Panel| (length(panel.x), length(panel.y));
    let pieces = sheet
        .placed
        .iter()
        .filter_map(|placed| {
            let piece = group.pieces.get(placed.piece.parse::<usize>().ok()?)?;
            let limits = |size| Limits::of(size, &build.cutting.saw, tables);
            Some(PlatePiece {
                mark: piece.mark.clone(),
                name: piece.name.clone(),
                size: (piece.length, piece.width),
                at: corner(&placed.panel),
                lies: (length(placed.panel.width), length(placed.panel.height)),
                turned: placed.turned,
                limits: (limits(piece.length), limits(piece.width)),
            })
        })
        .collect();
    let cuts = sheet
        .cuts
        .iter()
        .map(|cut| SheetCutLine {
            along_width: cut.along_height,
            at: length(cut.at),
            span: if cut.along_height {
                (length(cut.of.y), length(cut.of.y + cut.of.height))
            } else {
                (length(cut.of.x), length(cut.of.x + cut.of.width))
            },
        })
        .collect();
    let least = *build.cutting.least_leftover;
    let rests = sheet
        .leftovers
        .iter()
        .map(|panel| {
            let (long, wide) = (length(panel.width), length(panel.height));
            // Worth keeping: as long one way as a useful bar, and a quarter of that the other way.
            let keep = long.max(wide) >= least && long.min(wide) >= least / 4.0;
            PlateRest { mark: keep.then(String::new), at: corner(panel), length: long, width: wide }
        })
        .collect();
    CutPlate {
        number,
        stuff: group.stuff.clone(),
        length: length(sheet.width),
        width: length(sheet.height),
        on_hand,
        trim: length(sheet.trim),
        pieces,
        cuts,
        rests,
    }
}

fn on_hand(build: &Build, id: &str) -> Option<String> {
    let index: usize = id.strip_prefix("hand ")?.parse().ok()?;
    build.sheet_leftovers.get(index).map(|leftover| leftover.label.value.clone())
}
