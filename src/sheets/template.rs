//! Full-size templates of plates, angles, tubes, feet on the roof and the entry's foot, with bars that
//! prove the print.

pub mod labels;
pub mod printed;
pub mod tiles;
pub mod wrap;

use self::printed::Printed;
use self::tiles::{Tile, Tiling};
use self::wrap::Wrap;
use super::part::{anchor, marks};
use super::scenes::{GAP, ROOM, Shown, about_long, identity_halves, template_page};
use super::{Basis, Kind};
use crate::derive::{Body, EntryPlace, Hole, Part, PartKind, RoofSurface};
use crate::geometry::{Point3, Rect};
use crate::page::Sheet;
use crate::page::block::{Blank, Block, Figure};
use crate::page::text::Text;
use crate::units::{Angle, Length, display};

/// What is shorter is marked out faster with a square.
const LEAST: Length = Length::mm(60.0);

/// Outlines nearer in size than a pencil's line share one template.
const ALIKE: Length = Length::mm(0.3);

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

/// One sheet for each part that fits one page, tiles of those that do not.
pub(super) fn template(basis: &Basis, printed: Printed) -> Vec<Sheet> {
    let mut sheets = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        if !matches!(part.kind, PartKind::FootPlate | PartKind::FootAngle | PartKind::Direct) {
            continue;
        }
        // Its outline would have to slant: a mitred end is marked by its angle, not by paper.
        if matches!(&part.body, Body::Bar { ends, .. } if !ends.are_square()) {
            continue;
        }
        let outlines: Vec<Outline> = part
            .faces
            .iter()
            .enumerate()
            .filter_map(|(number, face)| {
                let holes: Vec<(&Hole, Length, Length)> = basis
                    .work
                    .holes
                    .iter()
                    .filter(|h| h.part == index && h.face == number)
                    .map(|h| {
                        let down = if face.runs_left { face.length - h.at.x } else { h.at.x };
                        (h, down, h.at.y)
                    })
                    .collect();
                (!holes.is_empty()).then(|| Outline {
                    name: format!("{} {}", part.name, marks(part)),
                    face: if part.faces.len() > 1 { face.name.clone() } else { String::new() },
                    length: face.length,
                    width: face.width,
                    holes,
                    zero_low: face.runs_left,
                    lines: heel(basis, part)
                        .map(|line| (line, "heel line of angle"))
                        .into_iter()
                        .collect(),
                    datum: match (part.kind, &part.body) {
                        (PartKind::FootPlate, _) => "datum line = inboard edge of plate".into(),
                        (_, Body::Bar { bend: Some(bend), .. }) => bend_words(*bend),
                        _ => "datum line = datum edge".into(),
                    },
                    seen: turned(&face.seen),
                    on_roof: Vec::new(),
                })
            })
            .collect();
        let small = outlines.iter().any(|outline| outline.length < LEAST);
        let outlines = flat(basis, part, index).map_or(outlines, |outline| vec![outline]);
        if outlines.is_empty() || small {
            continue;
        }
        let head = Head::of(part);
        if fits(&outlines) {
            sheets.push(sheet(basis, &Shown::Whole(&outlines), &head, printed));
        } else if matches!(part.body, Body::Plate { .. }) || outlines.len() == 1 {
            // A tube is no outline: paper folds around it.
            sheets.extend(outlines.iter().flat_map(|o| tiled(basis, o, &head, printed)));
        }
    }
    sheets.extend(tubes(basis, printed));
    sheets.extend(feet(basis, printed));
    sheets.extend(entry(basis, printed));
    sheets.extend(labels::labels(basis, printed));
    sheets
}

/// The flat of a bent bracket, seen on its inside face.
fn flat<'a>(basis: &Basis<'a>, part: &Part, index: usize) -> Option<Outline<'a>> {
    let Body::Plate { length, width, fold: Some(fold), .. } = &part.body else { return None };
    let holes = basis
        .work
        .holes
        .iter()
        .filter(|hole| hole.part == index)
        .map(|hole| {
            let standing = part.faces[hole.face].name == "standing leg";
            let at = fold.on_flat(hole.at, standing);
            (hole, at.x, at.y)
        })
        .collect();
    let (begins, ends) = fold.lines();
    let across = |line: Length| (line, Length::ZERO, *width);
    Some(Outline {
        name: format!("{} {}", part.name, marks(part)),
        face: "flat".into(),
        length: *width,
        width: *length,
        holes,
        zero_low: false,
        lines: vec![(across(begins), "bend from here"), (across(ends), "to here")],
        datum: format!(
            "datum = end of standing leg, bend to {}°",
            display::number_short(fold.between.to_deg(), 1)
        ),
        seen: "inside of the bend, standing leg at left".into(),
        on_roof: Vec::new(),
    })
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
    let least = halves.iter().map(|half| about_long(half) + 4.0).fold(0.0, f64::max).min(90.0);
    let mut small: Vec<(&Part, Wrap)> = Vec::new();
    let mut tiles: Vec<Sheet> = Vec::new();
    for (index, part) in basis.work.parts.iter().enumerate() {
        for strip in wrap::wraps(part, index, &basis.work.holes, (&marks(part), least)) {
            if strip.width() <= ROOM.1 && strip.length <= ROOM.0 {
                small.push((part, strip));
            } else {
                tiles.extend(wrap_tiles(basis, part, &strip, printed));
            }
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
        let mut tables: Vec<String> = page.iter().map(|at| anchor(small[*at].0)).collect();
        tables.dedup();
        let title = "Wrap-around strips".to_owned();
        let head = Head { short: title.clone(), title, tables, key: "wraps".into() };
        let wraps: Vec<Wrap> = page.iter().map(|at| small[*at].1.clone()).collect();
        sheet(basis, &Shown::Wraps(&wraps), &head.nth(number + 1, count, ""), printed)
    };
    let pages: Vec<Sheet> = pages.iter().enumerate().map(page).collect();
    pages.into_iter().chain(tiles).collect()
}

/// Tiles of a strip that is larger than a page.
fn wrap_tiles(basis: &Basis, part: &Part, strip: &Wrap, printed: Printed) -> Vec<Sheet> {
    let head = Head::of(part);
    let head = Head {
        title: head.title.replacen("Template", "Wrap", 1),
        short: head.short.replacen("Template", "Wrap", 1),
        key: format!("{}-wrap", head.key),
        ..head
    };
    let holes: Vec<_> = strip.holes.iter().map(|(h, at)| (*at, h.diameter.to_mm() / 2.0)).collect();
    let tiles = Tiling::new(strip.length, strip.width(), &holes).tiles();
    let sheet = |tile: &Tile| {
        let head = head.nth(tile.number, tile.count, "");
        sheet(basis, &Shown::WrapTile(strip, tile), &head, printed)
    };
    tiles.iter().map(sheet).collect()
}

/// Outlines of foot plates as they lie on the roof, with the sizes that a tape finds from the datum
/// and the centre line. Plates alike in size share one.
fn feet(basis: &Basis, printed: Printed) -> Vec<Sheet> {
    let Some(roof) = &basis.work.roof else { return Vec::new() };
    let mut outlines: Vec<Outline> = Vec::new();
    for plate in basis.work.parts_of(PartKind::FootPlate) {
        let Body::Plate { length, width, .. } = &plate.body else { continue };
        for piece in &plate.pieces {
            let zero = Length::ZERO;
            let corners = [(zero, zero), (*length, zero), (zero, *width), (*length, *width)]
                .map(|(x, y)| piece.place.place(Point3::new(x, y, zero)).xy());
            let Some(seen) = Rect::around(corners) else { continue };
            let (x, left) = (seen.low().x, seen.low().y);
            let row = (piece.mark.clone(), x, roof.by_tape_across(x, left));
            let same = |o: &&mut Outline| {
                o.length.is_near(seen.width(), ALIKE) && o.width.is_near(seen.height(), ALIKE)
            };
            if let Some(outline) = outlines.iter_mut().find(same) {
                outline.on_roof.push(row);
                continue;
            }
            outlines.push(Outline {
                name: "foot positions".into(),
                face: String::new(),
                length: seen.width(),
                width: seen.height(),
                holes: Vec::new(),
                zero_low: false,
                lines: Vec::new(),
                datum: "left edge: Y from centre line, by tape".into(),
                seen: "from above, front at top".into(),
                on_roof: vec![row],
            });
        }
    }
    outlines.retain(|outline| fits(std::slice::from_ref(outline)));
    let count = outlines.len();
    let head = Head {
        title: "Template foot positions".into(),
        short: "Template foot positions".into(),
        tables: vec!["roof".into()],
        key: "feet".into(),
    };
    let page = |(at, outline): (usize, Outline)| {
        sheet(basis, &Shown::Whole(&[outline]), &head.nth(at + 1, count, ""), printed)
    };
    outlines.into_iter().enumerate().map(page).collect()
}

/// Bend line and which way the legs of an angle are bent.
fn bend_words(bend: Angle) -> String {
    let told = display::number_short(bend.to_deg(), 1);
    if bend.is_near(Angle::RIGHT, Angle::deg(0.05)) {
        "datum line = heel".into()
    } else if bend < Angle::RIGHT {
        format!("datum = heel, bend line: close legs to {told}°")
    } else {
        format!("datum = heel, bend line: open legs to {told}°")
    }
}

/// A face is drawn turned to the right by a quarter, with its upper side at the right of the sheet.
fn turned(seen: &str) -> String {
    for (from, to) in [
        ("at left", "at top"),
        ("at right", "at bottom"),
        ("at top", "at right"),
        ("at bottom", "at left"),
    ] {
        if let Some(words) = seen.strip_suffix(from) {
            return format!("{words}{to}");
        }
    }
    seen.to_owned()
}

fn fits(outlines: &[Outline]) -> bool {
    let across: f64 = outlines.iter().map(|o| o.width.to_mm() + 12.0).sum();
    outlines.iter().all(|o| o.length.to_mm() <= ROOM.0) && across - 12.0 <= ROOM.1
}

/// Where the angle's heel lies on a foot plate: as far from the datum as the angle's own screw rows
/// ask.
fn heel(basis: &Basis, plate: &Part) -> Option<(Length, Length, Length)> {
    if plate.kind != PartKind::FootPlate {
        return None;
    }
    let piece = plate.pieces.first()?;
    let top = plate.faces.first()?;
    // The angle that stands on this plate, told in the plate's own axes.
    let (angle, stands) = basis
        .work
        .parts_of(PartKind::FootAngle)
        .flat_map(|part| part.pieces.iter().map(move |piece| (part, piece)))
        .min_by(|a, b| {
            let far = |p: &crate::derive::Piece| p.place.origin().distance(piece.place.origin());
            far(a.1).total_cmp(&far(b.1))
        })?;
    let long = angle.faces.first()?.length;
    let from = piece.place.local(stands.place.origin());
    let start = from.x - top.origin.x;
    Some((from.y - top.origin.y, start, start + long))
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
    } else if matches!(shown, Shown::Wraps(_) | Shown::WrapTile(..)) && printed.is_true() {
        "Printed side out, upper edge to zero. Outside a limit: reprint at 100\u{a0}%.".into()
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

/// The foot of the cable entry with its hole in the middle.
fn entry(basis: &Basis, printed: Printed) -> Option<Sheet> {
    let entry = basis.work.entry.as_ref()?;
    let hole = basis.work.hole(&entry.hole)?;
    let (length, width) = (entry.foot.width(), entry.foot.height());
    let outline = Outline {
        name: format!("cable entry {}", entry.mark),
        face: String::new(),
        length,
        width,
        holes: vec![(hole, entry.at.x - entry.foot.low().x, entry.at.y - entry.foot.low().y)],
        zero_low: false,
        lines: Vec::new(),
        datum: "datum line = left edge of foot".into(),
        seen: "from above, front at top".into(),
        on_roof: roof_row(basis, entry),
    };
    if !fits(std::slice::from_ref(&outline)) {
        return None;
    }
    let title = format!("Template cable entry {}", entry.mark);
    let head = Head { short: title.clone(), title, tables: Vec::new(), key: entry.mark.clone() };
    Some(sheet(basis, &Shown::Whole(&[outline]), &head, printed))
}

/// Where the entry's foot lies.
fn roof_row(basis: &Basis, entry: &EntryPlace) -> Vec<(String, Length, Length)> {
    let (x, left) = (entry.foot.low().x, entry.foot.low().y);
    let row = |roof: &RoofSurface| (entry.mark.clone(), x, roof.by_tape_across(x, left));
    basis.work.roof.as_ref().map(row).into_iter().collect()
}
