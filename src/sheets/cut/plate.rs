//! Plans of sheets, to scale: where pieces lie, cuts in order, what is left.

use super::super::words::{bare, mm};
use super::super::{Basis, Kind};
use super::{in_inches, inches, limits_in_inches};
use crate::compute::cut_list::{CutList, CutPlate, Limits, PlatePiece};
use crate::compute::steps::facts::{mark_order, marks};
use crate::page::Sheet;
use crate::page::block::{
    Block, Cell, ColumnWidth, Figure, Heading, Lead, Row, Table, TableColumn,
};
use crate::page::scene::{Fill, Line, Place, Scale, Scene, Side, Style};
use crate::page::text::Text;
use crate::units::Length;

/// Room for a plan on paper, mm.
const WIDE: f64 = 140.0;
const HIGH: f64 = 110.0;
/// Under this size on paper, mm, a piece has no room for its mark.
const NARROW: f64 = 9.0;
/// Marks nearer than this on paper are told by the table alone.
const CLOSE: f64 = 12.0;

/// All sheets, one under the other.
pub(super) fn plates(basis: &Basis, cuts: &CutList) -> Sheet {
    let count = cuts.plates.len();
    let mut notes: Vec<Text> =
        vec!["Zero (circle): lower left corner. All marks run from it.".into()];
    if cuts.sheet_kerf > Length::ZERO {
        notes.push(
            format!("A cut is {} wide, right of its mark or above it.", mm(cuts.sheet_kerf, 1))
                .into(),
        );
    } else {
        notes.push("A knife takes nothing away.".into());
    }
    notes.push("Each cut runs from edge to edge of what is being parted.".into());
    if cuts.plates.iter().any(|plate| plate.trim > Length::ZERO) {
        let trim = *basis.build.cutting.sheet_trim;
        notes.push(format!("Each edge of a new sheet loses {} first.", mm(trim, 1)).into());
    }
    let words = format!("{count} {} to cut", if count == 1 { "sheet" } else { "sheets" });
    let mut blocks = vec![Block::Lead(Lead { words: words.into(), notes })];
    for plate in &cuts.plates {
        let scale = scale(plate);
        let mut about = format!(
            "{}, {}\u{a0}×\u{a0}{}, {scale}",
            plate.stuff.words(),
            bare(plate.length, 0),
            mm(plate.width, 0)
        );
        if let Some(label) = &plate.on_hand {
            about += ", on hand: ";
            about += label;
        }
        blocks.push(Block::Heading(Heading::new(format!("sheet {}", plate.number)).aside(about)));
        blocks.push(Block::Figure(Figure::new(scene(plate, scale), HIGH + 30.0).at_left()));
        blocks.push(Block::Table(pieces(basis, plate)));
        if !plate.cuts.is_empty() {
            blocks.push(Block::Heading(Heading::new("Cuts in order").minor()));
            blocks.push(Block::Table(lines(basis, plate)));
        }
    }
    blocks.push(Block::Paragraph(
        "The tables win over the pictures. Limits: a careful cut, ISO\u{a0}2768-1 class c at most."
            .into(),
    ));
    Sheet {
        anchor: "cut-sheets".into(),
        title: "Cut the sheets".into(),
        purpose: "Where each piece lies, and the cuts in order.".into(),
        tab: Some(Kind::Cut.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

fn scale(plate: &CutPlate) -> Scale {
    Scale::LIST
        .into_iter()
        .filter(|scale| scale.factor() <= 0.5)
        .find(|scale| {
            plate.length.to_mm() * scale.factor() <= WIDE
                && plate.width.to_mm() * scale.factor() <= HIGH
        })
        .unwrap_or(Scale::LIST[Scale::LIST.len() - 1])
}

fn scene(plate: &CutPlate, scale: Scale) -> Scene {
    let on_paper = |paper: f64| paper / scale.factor();
    let point = |at: (Length, Length)| (at.0.to_mm(), at.1.to_mm());
    let alt = format!(
        "sheet {} with {} pieces: {}",
        plate.number,
        plate.pieces.len(),
        plate.pieces.iter().map(|p| p.mark.as_str()).collect::<Vec<_>>().join(", ")
    );
    let mut scene = Scene::at_scale(alt, scale);
    scene.view("from above, zero corner at lower left");
    let (long, wide) = (plate.length.to_mm(), plate.width.to_mm());
    for rest in &plate.rests {
        let size = (rest.length.to_mm(), rest.width.to_mm());
        if let Some(mark) = &rest.mark {
            scene.rectangle(point(rest.at), size, Line::HIDDEN);
            let (x, y) = point(rest.at);
            let small = size.0.min(size.1) < on_paper(NARROW);
            let style = if size.0 < on_paper(NARROW) && !small || size.1 > size.0 * 2.0 {
                Style::BOLD.up()
            } else {
                Style::BOLD
            };
            if !small {
                let middle = (x + size.0 / 2.0, y + size.1 / 2.0);
                scene.words(middle, mark.clone(), Place::Centre, style);
            }
        } else {
            scene.filled_rectangle(point(rest.at), size, Fill::HATCH, None);
        }
    }
    for piece in &plate.pieces {
        let size = (piece.lies.0.to_mm(), piece.lies.1.to_mm());
        scene.filled_rectangle(point(piece.at), size, Fill::White, Some(Line::VISIBLE));
        let (x, y) = point(piece.at);
        let middle = (x + size.0 / 2.0, y + size.1 / 2.0);
        if size.0.min(size.1) < on_paper(NARROW * 0.6) {
            scene.leader(middle, piece.mark.clone());
        } else if size.0 < on_paper(NARROW) {
            scene.words(middle, piece.mark.clone(), Place::Centre, Style::BOLD.up());
        } else {
            scene.words(middle, piece.mark.clone(), Place::Centre, Style::BOLD);
        }
    }
    scene.rectangle((0.0, 0.0), (long, wide), Line::HEAVY);
    let (mut x, mut y) = (Vec::new(), Vec::new());
    for cut in &plate.cuts {
        let list = if cut.along_width { &mut x } else { &mut y };
        list.push(cut.at.to_mm());
    }
    let thinned = |mut list: Vec<f64>| {
        list.sort_by(f64::total_cmp);
        let mut kept: Vec<f64> = Vec::new();
        for at in list {
            if kept.last().is_none_or(|last| at - last >= on_paper(CLOSE)) {
                kept.push(at);
            }
        }
        kept
    };
    let told = |at: f64| bare(Length::mm(at), 1);
    let along: Vec<_> = thinned(x).into_iter().map(|at| ((at, 0.0), told(at))).collect();
    let across: Vec<_> = thinned(y).into_iter().map(|at| ((0.0, at), told(at))).collect();
    if !along.is_empty() {
        scene.running(Side::Below, (0.0, 0.0), &along);
    }
    if !across.is_empty() {
        scene.running(Side::Left, (0.0, 0.0), &across);
    }
    scene
}

fn pieces(basis: &Basis, plate: &CutPlate) -> Table {
    // Alike pieces share a row.
    let mut alike: Vec<(&PlatePiece, Vec<&str>)> = Vec::new();
    for piece in &plate.pieces {
        let same = |other: &PlatePiece| other.name == piece.name && other.size == piece.size;
        match alike.iter_mut().find(|(other, _)| same(other)) {
            Some((_, all)) => all.push(&piece.mark),
            None => alike.push((piece, vec![&piece.mark])),
        }
    }
    let named = |(piece, mut all): (&PlatePiece, Vec<&str>)| {
        all.sort_by_key(|mark| mark_order(mark));
        [Cell::Head(marks(&all).into()), piece.name.clone().into()]
    };
    let mut columns = vec![TableColumn::left("mark"), TableColumn::left("name")];
    if inches(basis) {
        // With inches beside the millimetres, a row holds one size.
        columns.extend([
            TableColumn::left("size"),
            TableColumn::number("mm"),
            TableColumn::right(format!("in ({})", *basis.build.cutting.fraction)),
            TableColumn::right("low to high, in"),
            TableColumn::centre("checked").width(ColumnWidth::Mm(22.0)),
            TableColumn::centre("done"),
        ]);
        let both = |(piece, all): (&PlatePiece, Vec<&str>)| {
            let row = |what: &str, size: Length, limits: Limits, last: bool| {
                let (low, high) = limits_in_inches(limits.low, limits.high);
                let mut cells = named((piece, all.clone())).to_vec();
                cells.extend([
                    what.into(),
                    bare(size, 1).into(),
                    in_inches(basis, size).into(),
                    format!("{low}\u{a0}to\u{a0}{high}").into(),
                    Cell::Blank(String::new()),
                    Cell::Tick,
                ]);
                let row = Row::new(cells);
                if last { row.ends_group() } else { row }
            };
            [
                row("length", piece.size.0, piece.limits.0, false),
                row("width", piece.size.1, piece.limits.1, true),
            ]
        };
        let rows = alike.into_iter().flat_map(both).collect();
        return Table { columns, rows, ..Table::default() };
    }
    let within =
        |limits: Limits| format!("{}\u{a0}to\u{a0}{}", bare(limits.low, 1), bare(limits.high, 1));
    let rows = alike
        .into_iter()
        .map(|(piece, all)| {
            let mut cells = named((piece, all)).to_vec();
            cells.extend([
                bare(piece.size.0, 1).into(),
                within(piece.limits.0).into(),
                bare(piece.size.1, 1).into(),
                within(piece.limits.1).into(),
                Cell::Blank(String::new()),
                Cell::Tick,
            ]);
            Row::new(cells)
        })
        .collect();
    columns.extend([
        TableColumn::right("length, mm"),
        TableColumn::right("low to high"),
        TableColumn::right("width, mm"),
        TableColumn::right("low to high"),
        TableColumn::centre("checked").width(ColumnWidth::Mm(22.0)),
        TableColumn::centre("done"),
    ]);
    Table { columns, rows, ..Table::default() }
}

/// One row a cut; places from the zero corner.
fn lines(basis: &Basis, plate: &CutPlate) -> Table {
    let inch = inches(basis);
    let mut columns = vec![
        TableColumn::left("cut"),
        TableColumn::left("line"),
        TableColumn::number("mark at, mm"),
    ];
    if inch {
        columns
            .push(TableColumn::right(format!("mark at, in ({})", *basis.build.cutting.fraction)));
    }
    columns.push(TableColumn::left("runs from, to, mm"));
    columns.push(TableColumn::centre("cut"));
    let rows = plate
        .cuts
        .iter()
        .enumerate()
        .map(|(index, cut)| {
            let line = if cut.along_width { "upright, right of zero" } else { "level, above zero" };
            let mut cells: Vec<Cell> = vec![
                format!("{}.{}", plate.number, index + 1).into(),
                line.into(),
                bare(cut.at, 1).into(),
            ];
            if inch {
                cells.push(in_inches(basis, cut.at).into());
            }
            cells.push(format!("{} to {}", bare(cut.span.0, 1), bare(cut.span.1, 1)).into());
            cells.push(Cell::Tick);
            Row::new(cells)
        })
        .collect();
    Table { columns, rows, ..Table::default() }
}
