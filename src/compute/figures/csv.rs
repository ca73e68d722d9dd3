//! Tables of results as comma-separated values (RFC 4180): a header line, one line a row, lengths in
//! millimetres with a point.

use crate::build::Build;
use crate::compute::Results;
use crate::derive::Work;
use crate::units::display::plain;
use crate::units::{Length, Money};

/// A table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// Every figure.
    Figures,
    /// Pieces on their bars.
    CutList,
    /// Pieces on their sheets.
    SheetCuts,
    /// Holes of every part.
    Holes,
    /// What to buy.
    Shopping,
    /// Cable runs with conductor and fuse.
    Cables,
}

impl Table {
    /// All of them.
    pub const ALL: &'static [Self] =
        &[Self::Figures, Self::CutList, Self::SheetCuts, Self::Holes, Self::Shopping, Self::Cables];

    /// As it is asked for, and the name of its file.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Figures => "figures",
            Self::CutList => "cut-list",
            Self::SheetCuts => "sheet-cuts",
            Self::Holes => "holes",
            Self::Shopping => "shopping",
            Self::Cables => "cables",
        }
    }
}

/// The table as text; a header alone where the build has none of it.
pub fn table(table: Table, build: &Build, work: &Work, results: &Results) -> String {
    let rows = match table {
        Table::Figures => figures(results),
        Table::CutList => cut_list(results),
        Table::SheetCuts => sheet_cuts(results),
        Table::Holes => holes(work),
        Table::Shopping => shopping(build, results),
        Table::Cables => cables(results),
    };
    rows.iter().map(|row| line(row)).collect()
}

fn line(cells: &[String]) -> String {
    let cells: Vec<String> = cells.iter().map(|cell| quoted(cell)).collect();
    cells.join(",") + "\r\n"
}

/// Between quotes where a comma, a quote or a break would be misread.
fn quoted(cell: &str) -> String {
    if cell.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell.to_owned()
    }
}

fn header(names: &[&str]) -> Vec<Vec<String>> {
    vec![names.iter().map(|name| (*name).to_owned()).collect()]
}

fn mm(length: Length) -> String {
    number(length.to_mm())
}

fn number(value: f64) -> String {
    plain(value, 8)
}

fn price(price: Option<Money>) -> String {
    price.map_or_else(String::new, |price| format!("{:.2}", price.to_cents() as f64 / 100.0))
}

fn figures(results: &Results) -> Vec<Vec<String>> {
    let mut rows = header(&["figure", "label", "value", "unit", "source", "seen"]);
    rows.extend(results.ledger.iter().map(|figure| {
        vec![
            figure.id.clone(),
            figure.label.clone(),
            number(figure.value),
            figure.unit.to_owned(),
            figure.source.clone(),
            figure.seen.name().to_owned(),
        ]
    }));
    rows
}

fn cut_list(results: &Results) -> Vec<Vec<String>> {
    let mut rows = header(&[
        "bar",
        "section",
        "bar-length",
        "on-hand",
        "piece",
        "part",
        "length",
        "from",
        "to",
        "zero-end-degrees",
        "far-end-degrees",
    ]);
    for bar in results.cuts.iter().flat_map(|list| &list.bars) {
        rows.extend(bar.cuts.iter().map(|cut| {
            vec![
                bar.number.to_string(),
                bar.section.name.clone(),
                mm(bar.length),
                bar.on_hand.clone().unwrap_or_default(),
                cut.mark.clone(),
                cut.name.clone(),
                mm(cut.length),
                mm(cut.from),
                mm(cut.to),
                number(cut.ends.zero.to_deg()),
                number(cut.ends.far.to_deg()),
            ]
        }));
    }
    rows
}

fn sheet_cuts(results: &Results) -> Vec<Vec<String>> {
    let mut rows = header(&[
        "sheet",
        "material",
        "thickness",
        "sheet-length",
        "sheet-width",
        "on-hand",
        "piece",
        "length",
        "width",
        "x",
        "y",
        "turned",
    ]);
    for plate in results.cuts.iter().flat_map(|list| &list.plates) {
        rows.extend(plate.pieces.iter().map(|piece| {
            vec![
                plate.number.to_string(),
                plate.stuff.material.name.clone(),
                mm(plate.stuff.thickness),
                mm(plate.length),
                mm(plate.width),
                plate.on_hand.clone().unwrap_or_default(),
                piece.mark.clone(),
                mm(piece.size.0),
                mm(piece.size.1),
                mm(piece.at.0),
                mm(piece.at.1),
                if piece.turned { "yes" } else { "no" }.to_owned(),
            ]
        }));
    }
    rows
}

fn holes(work: &Work) -> Vec<Vec<String>> {
    let mut rows =
        header(&["hole", "part", "pieces", "face", "x", "y", "diameter", "drills", "mates"]);
    rows.extend(work.holes.iter().map(|hole| {
        let part = &work.parts[hole.part];
        let pieces: Vec<&str> = part.pieces.iter().map(|piece| piece.mark.as_str()).collect();
        let drills: Vec<String> = hole.drills.iter().map(|drill| mm(*drill)).collect();
        vec![
            hole.id.clone(),
            part.name.clone(),
            pieces.join(" "),
            part.faces[hole.face].name.clone(),
            mm(hole.at.x),
            mm(hole.at.y),
            mm(hole.diameter),
            drills.join(" "),
            hole.mates.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "),
        ]
    }));
    rows
}

fn shopping(build: &Build, results: &Results) -> Vec<Vec<String>> {
    let mut rows = header(&["shelf", "what", "need", "buy", "price", "currency"]);
    let currency = &build.job.currency.value;
    let currency = if currency == "XXX" { "" } else { currency };
    for shelf in &results.shopping.shelves {
        rows.extend(shelf.lines.iter().map(|line| {
            vec![
                shelf.name.to_owned(),
                line.what.clone(),
                line.need.clone(),
                line.buy.clone(),
                price(line.price),
                line.price.map_or("", |_| currency).to_owned(),
            ]
        }));
    }
    rows
}

fn cables(results: &Results) -> Vec<Vec<String>> {
    let mut rows = header(&[
        "run",
        "name",
        "from",
        "to",
        "route",
        "cut",
        "plus",
        "minus",
        "current-a",
        "conductor",
        "copper-mm2",
        "drop-percent",
        "fuse",
        "fuse-a",
        "fuse-at",
    ]);
    for run in results.electrics.iter().flat_map(|electrics| &electrics.runs) {
        let conductor = run.conductor.as_ref();
        let fuse = run.fuse.as_ref();
        rows.push(vec![
            run.mark.clone(),
            run.name.clone(),
            run.ends.0.clone(),
            run.ends.1.clone(),
            mm(run.length),
            mm(run.cut.all),
            run.colours.0.to_owned(),
            run.colours.1.to_owned(),
            number(run.design.to_a()),
            conductor.map_or_else(String::new, |c| c.name.clone()),
            conductor.map_or_else(String::new, |c| number(c.area.to_mm2())),
            conductor.map_or_else(String::new, |c| number(c.drop_share.to_percent())),
            fuse.map_or_else(String::new, |f| f.kind.clone()),
            fuse.map_or_else(String::new, |f| number(f.rating.to_a())),
            fuse.map_or_else(String::new, |f| f.at.clone()),
        ]);
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::line;

    #[test]
    fn cells_are_quoted_as_rfc_4180_says() {
        let cells = ["plain", "a, b", "3/4\" pipe", "two\nlines"].map(str::to_owned);
        assert_eq!(line(&cells), "plain,\"a, b\",\"3/4\"\" pipe\",\"two\nlines\"\r\n");
    }
}
