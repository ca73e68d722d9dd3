//! Saw cuts in their order, and the table of them.

use super::super::Basis;
use super::super::words::bare;
use super::{end_words, in_inches, inches, limits_in_inches};
use crate::compute::cut_list::{BarCut, CutBar};
use crate::page::block::{Cell, ColumnWidth, Row, Table, TableColumn};
use crate::units::{Angle, Length};

/// One cut with the saw.
pub(super) struct Saw<'a> {
    /// Its mark, from the zero end.
    pub at: Length,
    /// The saw runs on the left of its line.
    pub waste_left: bool,
    /// How it leans, as an end of the piece.
    pub end: Angle,
    /// The piece that it frees; absent where it dresses the end of the bar.
    pub frees: Option<&'a BarCut>,
}

/// All cuts of a bar in order. The zero end of a piece needs a cut of its own at a trimmed end, where
/// it slants and the piece before does not share it, or where it is square behind a slanting one.
pub(super) fn saws(bar: &CutBar) -> Vec<Saw<'_>> {
    let mut list = Vec::new();
    let mut before = None;
    for cut in &bar.cuts {
        let slants = !cut.ends.zero.is_zero();
        let dressed = match before {
            None => slants || bar.trim > Length::ZERO,
            Some(far) => !cut.shared && (slants || far != Angle::ZERO),
        };
        if dressed {
            list.push(Saw { at: cut.from, waste_left: true, end: cut.ends.zero, frees: None });
        }
        list.push(Saw { at: cut.to, waste_left: false, end: cut.ends.far, frees: Some(cut) });
        before = Some(cut.ends.far);
    }
    // A piece that is flush with the end of its bar is free already.
    if list.last().is_some_and(|saw| saw.at >= bar.length && saw.end.is_zero()) {
        list.pop();
    }
    list
}

/// One row a cut: marks, limits, what was measured, a box to tick.
pub(super) fn table(basis: &Basis, bars: &[&CutBar]) -> Table {
    let inch = inches(basis);
    let slanted = bars.iter().flat_map(|bar| &bar.cuts).any(|cut| !cut.ends.are_square());
    // Fractions are wide: with inches a length is told in mm and by its limits, and beside slanting
    // lines the name stands over the strip alone, by its mark.
    let named = !(inch && slanted);
    let mut columns = vec![TableColumn::left("cut"), TableColumn::left("frees")];
    if named {
        columns.push(TableColumn::left("name").width(ColumnWidth::AtMost(40.0)));
    }
    if slanted {
        columns.push(TableColumn::left("line"));
    }
    columns.push(TableColumn::number("mark at, mm"));
    if inch {
        columns
            .push(TableColumn::right(format!("mark at, in ({})", *basis.build.cutting.fraction)));
    }
    columns.push(TableColumn::number("length, mm"));
    if inch {
        columns.push(TableColumn::right("low, in"));
        columns.push(TableColumn::right("high, in"));
    } else {
        columns.push(TableColumn::number("low"));
        columns.push(TableColumn::number("high"));
    }
    columns.push(TableColumn::centre("checked").width(ColumnWidth::Mm(22.0)));
    columns.push(TableColumn::centre("cut"));
    let mut rows = Vec::new();
    for bar in bars {
        let saws = saws(bar);
        for (index, saw) in saws.iter().enumerate() {
            let mut cells: Vec<Cell> = vec![format!("{}.{}", bar.number, index + 1).into()];
            match saw.frees {
                Some(cut) => {
                    cells.push(Cell::Head(cut.mark.clone().into()));
                    if named {
                        cells.push(cut.name.clone().into());
                    }
                }
                None => {
                    cells.push(Cell::Dash);
                    if named {
                        cells.push("dress end".into());
                    }
                }
            }
            if slanted {
                cells.push(end_words(saw.end).into());
            }
            cells.push(bare(saw.at, 1).into());
            if inch {
                cells.push(in_inches(basis, saw.at).into());
            }
            match saw.frees {
                Some(cut) if inch => {
                    let (low, high) = limits_in_inches(cut.limits.low, cut.limits.high);
                    cells.push(bare(cut.length, 1).into());
                    cells.push(low.into());
                    cells.push(high.into());
                    cells.push(Cell::Blank(String::new()));
                }
                Some(cut) => {
                    cells.push(bare(cut.length, 1).into());
                    cells.push(bare(cut.limits.low, 1).into());
                    cells.push(bare(cut.limits.high, 1).into());
                    cells.push(Cell::Blank(String::new()));
                }
                None => cells.extend([Cell::Dash, Cell::Dash, Cell::Dash, Cell::Dash]),
            }
            cells.push(Cell::Tick);
            let row = Row::new(cells);
            rows.push(if index + 1 == saws.len() { row.ends_group() } else { row });
        }
    }
    Table { columns, rows, ..Table::default() }
}
