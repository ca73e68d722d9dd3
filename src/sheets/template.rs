//! Full-size templates of plates, brackets, tubes and their mitres, of feet on the roof and the entry's
//! foot, with bars that prove the print.

pub mod labels;
pub mod mitre;
mod pieces;
mod positions;
pub mod printed;
pub mod tiles;
pub mod wrap;

use self::printed::Printed;
use self::tiles::{Tile, Tiling};
use self::wrap::Wrap;
use super::part::{anchor, marks};
use super::scenes::{
    CELLS, GAP, ROOM, Shown, about_long, beside, cell_size, flap_long, identity_halves, rows_of,
    template_page,
};
use super::{Basis, Kind};
use crate::derive::{Hole, Part};
use crate::page::Sheet;
use crate::page::block::{Blank, Block, Figure};
use crate::page::text::Text;
use crate::units::Length;

/// Parts up to this long share sheets.
const SMALL: Length = Length::mm(100.0);

/// One of several outlines on a sheet: from the left and from the top, mm.
#[derive(Debug)]
pub struct Cell<'a> {
    /// What it is.
    pub outline: Outline<'a>,
    /// Of its box.
    pub at: (f64, f64),
}

/// One outline on a template.
#[derive(Debug)]
pub struct Outline<'a> {
    /// Name and marks: "foot plate D1, D2, D3".
    pub name: String,
    /// Face name, where a part has several.
    pub face: String,
    /// Along the datum edge, downwards on the sheet.
    pub length: Length,
    /// Away from the datum edge, to the right.
    pub width: Length,
    /// Holes with their place as drawn: from the upper end, from the datum edge.
    pub holes: Vec<(&'a Hole, Length, Length)>,
    /// Distance from the upper end to zero: zero, or the length where zero is at the lower end.
    pub zero_low: bool,
    /// A line on it, as of an angle's heel or a bend: distance from the datum edge, and from where to
    /// where from the upper end; what it is.
    pub lines: Vec<((Length, Length, Length), &'static str)>,
    /// Words on the datum line.
    pub datum: String,
    /// From where it is seen.
    pub seen: String,
    /// Where it lies on the roof: mark, X of its front edge, Y of its left edge by tape on the skin.
    pub on_roof: Vec<(String, Length, Length)>,
}

/// Sheets of large parts, then small parts several to a sheet, strips for tubes, and what lies on the
/// roof.
pub(super) fn template(basis: &Basis, printed: Printed) -> Vec<Sheet> {
    let mut sheets = Vec::new();
    let mut small: Vec<(Outline, String)> = Vec::new();
    // Parts of one name share a part sheet.
    let mut told: Vec<(&str, String)> = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        let outlines = pieces::outlines(basis, part, index);
        if outlines.is_empty() {
            continue;
        }
        let head = Head::of(part);
        if outlines.iter().all(|outline| outline.length < SMALL) {
            let known = told.iter().find(|(name, _)| *name == part.name);
            let table = known.map_or_else(|| anchor(part), |(_, table)| table.clone());
            told.push((&part.name, table.clone()));
            small.extend(outlines.into_iter().map(|outline| (outline, table.clone())));
        } else if beside(&outlines).is_some() {
            sheets.push(sheet(basis, &Shown::Whole(&outlines), &head, printed));
        } else {
            let count = outlines.len();
            for (number, outline) in outlines.iter().enumerate() {
                let head = head.nth(number + 1, count, "");
                if beside(std::slice::from_ref(outline)).is_some() {
                    let shown = Shown::Whole(std::slice::from_ref(outline));
                    sheets.push(sheet(basis, &shown, &head, printed));
                } else {
                    sheets.extend(tiled(basis, outline, &head, printed));
                }
            }
        }
    }
    sheets.extend(packed(basis, small, ("Template small parts", "small"), printed));
    sheets.extend(tubes(basis, printed));
    let roof = positions::on_roof(basis).into_iter().map(|o| (o, "roof".to_owned())).collect();
    sheets.extend(packed(basis, roof, ("Template roof places", "roof"), printed));
    sheets.extend(labels::labels(basis, printed));
    sheets
}

/// Outlines with their tables, as many as a sheet has room for.
fn packed(
    basis: &Basis,
    outlines: Vec<(Outline, String)>,
    (title, key): (&str, &str),
    printed: Printed,
) -> Vec<Sheet> {
    let mut pages: Vec<(Shelf, Vec<Cell>, Vec<String>)> = Vec::new();
    let mut boxes: Vec<_> =
        outlines.into_iter().map(|(o, table)| (cell_size(basis, &o), o, table)).collect();
    // The tallest first, so that rows are filled.
    boxes.sort_by(|a, b| b.0.1.total_cmp(&a.0.1));
    for (size, outline, table) in boxes {
        let found = pages
            .iter_mut()
            .enumerate()
            .find_map(|(number, (shelf, ..))| shelf.take(size).map(|at| (number, at)));
        let (number, at) = found.unwrap_or_else(|| {
            pages.push((Shelf::default(), Vec::new(), Vec::new()));
            let number = pages.len() - 1;
            (number, pages[number].0.take(size).unwrap_or_default())
        });
        let (_, cells, tables) = &mut pages[number];
        cells.push(Cell { outline, at });
        if !tables.contains(&table) {
            tables.push(table);
        }
    }
    let count = pages.len();
    let page = |(number, (_, cells, tables)): (usize, (Shelf, Vec<Cell>, Vec<String>))| {
        let head = Head { title: title.into(), short: title.into(), tables, key: key.into() };
        sheet(basis, &Shown::Cells(&cells), &head.nth(number + 1, count, ""), printed)
    };
    pages.into_iter().enumerate().map(page).collect()
}

/// Boxes on a sheet, mm: from the left, from the top, width and height.
#[derive(Debug, Default)]
struct Shelf {
    taken: Vec<(f64, f64, f64, f64)>,
}

impl Shelf {
    /// A place for a box: beside or under another, the highest that is free. The first gets one, however
    /// large it is.
    fn take(&mut self, (wide, tall): (f64, f64)) -> Option<(f64, f64)> {
        let beside = self.taken.iter().map(|(x, y, w, _)| (x + w, *y));
        let under = self.taken.iter().map(|(x, y, _, h)| (*x, y + h));
        let free = |(x, y): &(f64, f64)| {
            x + wide <= CELLS.0
                && y + tall <= CELLS.1
                && self.taken.iter().all(|(l, t, w, h)| {
                    x + wide <= l + 1e-9
                        || l + w <= x + 1e-9
                        || y + tall <= t + 1e-9
                        || t + h <= y + 1e-9
                })
        };
        let found = beside
            .chain(under)
            .filter(free)
            .min_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
        let at = if self.taken.is_empty() { (0.0, 0.0) } else { found? };
        self.taken.push((at.0, at.1, wide, tall));
        Some(at)
    }
}

/// What a sheet is called and where its table is.
struct Head {
    title: String,
    /// Where it does not fit.
    short: String,
    /// Sheets of the tables that win.
    tables: Vec<String>,
    key: String,
}

impl Head {
    fn of(part: &Part) -> Self {
        Self {
            title: format!("Template {} {}", part.name, marks(part)),
            short: format!("Template {}", part.name),
            tables: vec![anchor(part)],
            key: anchor(part),
        }
    }

    /// One of several sheets.
    fn nth(&self, number: usize, count: usize, what: &str) -> Self {
        let (mut title, mut key) = (self.title.clone(), self.key.clone());
        if count > 1 {
            title = format!("{title}, {what}{number} of {count}");
            key = format!("{key}-{number}");
        }
        let short = if count > 1 {
            format!("{}, {what}{number} of {count}", self.short)
        } else {
            self.short.clone()
        };
        Self { title, short, tables: self.tables.clone(), key }
    }
}

/// Tiles of an outline.
fn tiled(basis: &Basis, outline: &Outline, head: &Head, printed: Printed) -> Vec<Sheet> {
    let holes: Vec<((f64, f64), f64)> = outline
        .holes
        .iter()
        .map(|(hole, down, across)| ((down.to_mm(), across.to_mm()), hole.diameter.to_mm() / 2.0))
        .collect();
    let tiles = Tiling::new(outline.length.to_mm(), outline.width.to_mm(), &holes).tiles();
    let sheet = |tile: &Tile| {
        let head = head.nth(tile.number, tile.count, "tile ");
        sheet(basis, &Shown::Tile(outline, tile), &head, printed)
    };
    tiles.iter().map(sheet).collect()
}

/// Strips to fold around tubes: as many as stand under each other on a page, whatever tube they belong
/// to; one that is larger is tiled.
fn tubes(basis: &Basis, printed: Printed) -> Vec<Sheet> {
    let halves = identity_halves(basis);
    let own = halves.iter().map(|half| about_long(half) + 4.0).fold(0.0, f64::max).min(90.0);
    let mut small: Vec<(&Part, Wrap)> = Vec::new();
    let mut tiles: Vec<Sheet> = Vec::new();
    let mut all: Vec<(&Part, Wrap)> = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        let marks = marks(part);
        let least = own.max(flap_long(&format!("{} {marks}", part.name)) + 4.0).min(130.0);
        let strips = wrap::wraps(part, index, &basis.work.holes, (&marks, least));
        all.extend(strips.into_iter().map(|strip| (part, strip)));
    }
    let rows = |words: &[String], width: f64| rows_of(words, width).len();
    all.extend(mitre::mitres(&basis.work.parts, own, rows));
    for (part, strip) in all {
        if strip.width() <= ROOM.1 && strip.length <= ROOM.0 {
            small.push((part, strip));
        } else {
            tiles.extend(wrap_tiles(basis, part, &strip, printed));
        }
    }
    // The longest first, so that short ones fill what is left under them.
    let mut order: Vec<usize> = (0..small.len()).collect();
    order.sort_by(|a, b| small[*b].1.length.total_cmp(&small[*a].1.length));
    let mut pages: Vec<Vec<usize>> = Vec::new();
    for at in order {
        let used = |page: &[usize]| page.iter().map(|w| small[*w].1.length + GAP).sum::<f64>();
        // A wide one keeps off the words at the end of the bar under it.
        let room = if small[at].1.width() > 118.0 { ROOM.0 - 6.0 } else { ROOM.0 };
        match pages.iter_mut().find(|page| used(page) + small[at].1.length <= room) {
            Some(page) => page.push(at),
            None => pages.push(vec![at]),
        }
    }
    for page in &mut pages {
        page.sort_unstable();
    }
    pages.sort_unstable();
    let count = pages.len();
    let page = |(number, page): (usize, &Vec<usize>)| {
        let mut tables: Vec<String> =
            page.iter().filter_map(|at| table_of(basis, small[*at].0, &small[*at].1)).collect();
        tables.dedup();
        let title = "Wrap-around strips".to_owned();
        let head = Head { short: title.clone(), title, tables, key: "wraps".into() };
        let wraps: Vec<Wrap> = page.iter().map(|at| small[*at].1.clone()).collect();
        sheet(basis, &Shown::Wraps(&wraps), &head.nth(number + 1, count, ""), printed)
    };
    let pages: Vec<Sheet> = pages.iter().enumerate().map(page).collect();
    pages.into_iter().chain(tiles).collect()
}

/// The sheet that wins over a strip: of the part's holes, or of its saw cuts.
fn table_of(basis: &Basis, part: &Part, strip: &Wrap) -> Option<String> {
    if strip.mitre.is_none() {
        return Some(anchor(part));
    }
    basis.results.cuts.is_some().then(|| "cut".to_owned())
}

/// Tiles of a strip that is larger than a page.
fn wrap_tiles(basis: &Basis, part: &Part, strip: &Wrap, printed: Printed) -> Vec<Sheet> {
    let head = Head::of(part);
    let word = if strip.mitre.is_some() { "Mitre" } else { "Wrap" };
    let head = Head {
        title: head.title.replacen("Template", word, 1),
        short: head.short.replacen("Template", word, 1),
        key: format!("{}-{}", head.key, if strip.mitre.is_some() { "mitre" } else { "wrap" }),
        tables: table_of(basis, part, strip).into_iter().collect(),
    };
    let holes: Vec<_> = strip.holes.iter().map(|(h, at)| (*at, h.diameter.to_mm() / 2.0)).collect();
    let tiles = Tiling::new(strip.length, strip.width(), &holes).tiles();
    let sheet = |tile: &Tile| {
        let head = head.nth(tile.number, tile.count, "");
        sheet(basis, &Shown::WrapTile(strip, tile), &head, printed)
    };
    tiles.iter().map(sheet).collect()
}

fn sheet(basis: &Basis, shown: &Shown, head: &Head, printed: Printed) -> Sheet {
    let mut last = Text::bold("Actual size, 100\u{a0}%, no fit to page. The table wins");
    for (number, table) in head.tables.iter().enumerate() {
        let before = match number {
            0 if head.tables.len() > 1 => ": sheets ",
            0 => ": sheet ",
            _ => ", ",
        };
        last = last.and(before).and_page(table.clone());
    }
    last = last.and(".");
    let blocks = vec![
        Block::Paragraph(last.in_bold()),
        Block::Figure(Figure::new(template_page(basis, shown, printed), 232.0).at_left()),
        Block::Blanks(vec![
            Blank::value("long: 199.5 to 200.5", "mm"),
            Blank::value("short: 149.5 to 150.5", "mm"),
            Blank::value("P to Q: 249.5 to 250.5", "mm"),
        ]),
    ];
    let purpose = if matches!(shown, Shown::Labels(_)) && printed.is_true() {
        "Cut on full lines, fold on dashed ones, round the cable, printed side out.".into()
    } else if shown.is_strip() && printed.is_true() {
        "Printed side out, upper edge to zero. Outside a limit: reprint at 100\u{a0}%.".into()
    } else if matches!(shown, Shown::Wraps(_) | Shown::WrapTile(..)) && printed.is_true() {
        "Printed side out, saw line to the end. Outside a limit: reprint at 100\u{a0}%.".into()
    } else if printed.is_true() {
        "Outline and punch points at full size. Outside a limit: reprint at 100\u{a0}%.".into()
    } else {
        format!("Corrected for a printer whose 200\u{a0}mm came out {printed}.")
    };
    Sheet {
        anchor: format!("template-{}", head.key),
        title: if head.title.chars().count() > 44 {
            head.short.clone()
        } else {
            head.title.clone()
        },
        purpose,
        tab: Some(Kind::Template.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}
