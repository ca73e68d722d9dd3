//! Where the panels lie, how big the frame is and how high it stands.

use super::Drawing;
use super::draft::{DraftPiece, face};
use super::roof::RoofSurface;
use super::rules::l012;
use super::work::{Array, Body, PanelPlace, PartKind};
use crate::build::{Build, Frame, LongSide, Panel};
use crate::geometry::{Dir3, Frame3, Point2, Point3, Rect};
use crate::source::{Figure, Seen};
use crate::units::{Length, display};

/// Panels in their grid: the array and, for each panel, its piece in the draft.
pub(super) struct Laid {
    pub array: Array,
    /// Handles of the panel pieces, as in `array.panels`.
    pub pieces: Vec<usize>,
}

/// Packer thicknesses come in steps of this, downwards: sheet rubber and shims.
const PACKER_STEP: f64 = 0.5;

/// Which panels lie on each frame: rows of the build's panels, one entry a panel. Those that name a
/// frame go there; the others fill what room is left, frame by frame.
pub(super) fn share_out(drawing: &mut Drawing<'_>) -> Vec<Vec<usize>> {
    let build = drawing.build;
    let of = |on: Option<usize>| -> Vec<usize> {
        let rows = build.panels.iter().enumerate().filter(|(_, panel)| panel.frame == on);
        rows.flat_map(|(k, panel)| std::iter::repeat_n(k, *panel.count as usize)).collect()
    };
    let mut free = of(None).into_iter();
    let mut lots: Vec<Vec<usize>> = Vec::new();
    for (number, frame) in build.frames.iter().enumerate() {
        let mut lot = of(Some(number));
        let room = (*frame.arrangement.rows * *frame.arrangement.columns) as usize;
        lot.extend(free.by_ref().take(room.saturating_sub(lot.len())));
        // Panels lie in the order of the file.
        lot.sort_unstable();
        lots.push(lot);
    }
    // What is left over is told where the last frame counts its panels.
    if let Some(last) = lots.last_mut() {
        last.extend(free);
    }
    lots
}

/// Marks of panels so far by row of the build's panels and the count before it.
fn marks_of(build: &Build) -> Vec<u32> {
    build
        .panels
        .iter()
        .enumerate()
        .map(|(k, panel)| {
            let alike = build.panels[..k].iter().filter(|other| *other.mark == *panel.mark);
            alike.map(|other| *other.count).sum()
        })
        .collect()
}

/// Lays the panels of one frame and sets the heights.
pub(super) fn lay(
    drawing: &mut Drawing<'_>,
    number: usize,
    lot: &[usize],
    surface: &RoofSurface,
) -> Laid {
    let build = drawing.build;
    let frame = &build.frames[number];
    let grid = Grid::of(build, frame, lot, drawing);
    let (along, across) = (grid.along(*frame.gap), grid.across(*frame.gap));
    let over = &frame.overhang;
    let (long, wide) = (along + *over.front + *over.rear, across + *over.left + *over.right);
    let corner = Point2::new(*frame.position.x, *frame.position.y - wide / 2.0);
    let outline = Rect::from_size(corner, long, wide);
    let (x0, y0) = (corner.x + *over.front, corner.y + *over.left);

    let (crown, crown_x, crown_y) =
        surface.highest((outline.low().x, outline.low().y), (outline.high().x, outline.high().y));
    let under = crown + *frame.clearance;
    let tube_top = under + frame.section.height();
    let thickest = lot.iter().map(|k| *build.panels[*k].thickness).fold(Length::ZERO, Length::max);
    let top = tube_top + thickest;
    let before = build.vehicle.as_ref().and_then(|vehicle| vehicle.height.as_ref());
    let height_after = before.map(|height| **height + top);
    let cross = cross_places(frame, &grid, outline, x0);

    let before_panel = marks_of(build);
    let mut panels = Vec::new();
    let mut pieces = Vec::new();
    for cell in &grid.cells {
        let panel = &build.panels[cell.panel];
        drawing.laid[cell.panel] += 1;
        let count = before_panel[cell.panel] + drawing.laid[cell.panel];
        let mark = format!("{}{count}", *panel.mark);
        let place = Rect::from_size(
            Point2::new(x0 + cell.from.0, y0 + cell.from.1),
            cell.size.0,
            cell.size.1,
        );
        let packer = packer_under(frame, panel, place, tube_top, surface, &mark, drawing);
        pieces.push(drawing.draft.add(panel_piece(panel, &mark, place, tube_top, frame)));
        if let (Some(thickness), Some(packer)) = (packer, &frame.packer) {
            let middle = place.centre();
            let corner = Point3::new(
                middle.x - *packer.length / 2.0,
                middle.y - *packer.width / 2.0,
                tube_top + *panel.recess - *packer.free - thickness,
            );
            let volume = *packer.length * *packer.width * thickness;
            drawing.draft.add(DraftPiece {
                kind: PartKind::PanelPacker,
                name: "panel packer".to_owned(),
                mark: None,
                body: Body::Block {
                    material: packer.material.value.clone(),
                    length: *packer.length,
                    width: *packer.width,
                    height: thickness,
                },
                faces: Vec::new(),
                place: Frame3::at(corner),
                mass: packer.material.density * volume,
                holes: Vec::new(),
                span: packer.material.span,
            });
        }
        panels.push(PanelPlace { mark, panel: cell.panel, outline: place, packer });
    }

    let array = Array {
        frame: number,
        name: frame.name.value.clone(),
        outline,
        under,
        tube_top,
        top,
        crown,
        cross,
        panels,
        diagonal: long.hypot(wide),
        height_after,
        span: frame.span,
    };
    enter_figures(drawing, frame, &array, &grid, (crown_x, crown_y));
    Laid { array, pieces }
}

/// Panels by column (along X) and row (along Y), in file order, row by row within a column.
struct Grid {
    columns: Vec<Length>,
    rows: Vec<Length>,
    cells: Vec<Cell>,
}

struct Cell {
    panel: usize,
    /// Corner of least x and y, from the frame's corner.
    from: (Length, Length),
    size: (Length, Length),
}

impl Grid {
    fn of(build: &Build, frame: &Frame, all: &[usize], drawing: &mut Drawing<'_>) -> Self {
        let (rows, columns) =
            (*frame.arrangement.rows as usize, *frame.arrangement.columns as usize);
        if all.len() != rows * columns {
            drawing.findings.push(l012::count(all.len(), frame));
        }
        let size = |panel: &Panel| match *frame.arrangement.long_side {
            LongSide::Across => (*panel.width, *panel.length),
            LongSide::Along => (*panel.length, *panel.width),
        };
        let cell_of = |column: usize, row: usize| all.get(column * rows + row).copied();
        let most = |picks: &mut dyn Iterator<Item = Length>| picks.fold(Length::ZERO, Length::max);
        let largest = (
            most(&mut all.iter().map(|k| size(&build.panels[*k]).0)),
            most(&mut all.iter().map(|k| size(&build.panels[*k]).1)),
        );
        // An empty column or row keeps the size of the largest panel.
        let kept = |found: Length, else_is: Length| if found.is_zero() { else_is } else { found };
        let column_width: Vec<Length> = (0..columns)
            .map(|c| {
                let found = most(
                    &mut (0..rows).filter_map(|r| cell_of(c, r)).map(|k| size(&build.panels[k]).0),
                );
                kept(found, largest.0)
            })
            .collect();
        let row_height: Vec<Length> = (0..rows)
            .map(|r| {
                let found = most(
                    &mut (0..columns)
                        .filter_map(|c| cell_of(c, r))
                        .map(|k| size(&build.panels[k]).1),
                );
                kept(found, largest.1)
            })
            .collect();
        let gap = *frame.gap;
        let start = |sizes: &[Length], k: usize| {
            sizes[..k].iter().fold(Length::ZERO, |sum, size| sum + *size + gap)
        };
        let mut cells = Vec::new();
        for c in 0..columns {
            for r in 0..rows {
                let Some(panel) = cell_of(c, r) else { continue };
                let own = size(&build.panels[panel]);
                if !own.0.is_near(column_width[c], FLUSH) || !own.1.is_near(row_height[r], FLUSH) {
                    drawing.findings.push(l012::unlike(&build.panels[panel], frame));
                }
                // A smaller panel lies in the middle of its cell.
                cells.push(Cell {
                    panel,
                    from: (
                        start(&column_width, c) + (column_width[c] - own.0) / 2.0,
                        start(&row_height, r) + (row_height[r] - own.1) / 2.0,
                    ),
                    size: own,
                });
            }
        }
        Self { columns: column_width, rows: row_height, cells }
    }

    fn along(&self, gap: Length) -> Length {
        sum_with_gaps(&self.columns, gap)
    }

    fn across(&self, gap: Length) -> Length {
        sum_with_gaps(&self.rows, gap)
    }
}

/// Sizes that differ by less are alike: panels are made to the millimetre.
const FLUSH: Length = Length::mm(1.0);

fn sum_with_gaps(sizes: &[Length], gap: Length) -> Length {
    let gaps = gap * (sizes.len().saturating_sub(1)) as f64;
    sizes.iter().sum::<Length>() + gaps
}

/// Middles of the cross members along X: where panels meet, or spread evenly when there are more
/// or fewer of them than meeting lines.
fn cross_places(frame: &Frame, grid: &Grid, outline: Rect, panels: Length) -> Vec<Length> {
    let count = *frame.cross_members as usize;
    let x0 = outline.low().x;
    if count + 1 == grid.columns.len() {
        let mut edge = panels;
        return grid.columns[..count]
            .iter()
            .map(|width| {
                edge += *width + *frame.gap;
                edge - *frame.gap / 2.0
            })
            .collect();
    }
    (1..=count).map(|k| x0 + outline.width() * (k as f64 / (count + 1) as f64)).collect()
}

/// Thickness of the packer under the middle of a panel.
fn packer_under(
    frame: &Frame,
    panel: &Panel,
    place: Rect,
    tube_top: Length,
    surface: &RoofSurface,
    mark: &str,
    drawing: &mut Drawing<'_>,
) -> Option<Length> {
    let packer = frame.packer.as_ref()?;
    let foot = Rect::about(place.centre(), *packer.length, *packer.width);
    let (roof, ..) = surface.highest((foot.low().x, foot.low().y), (foot.high().x, foot.high().y));
    let room = tube_top + *panel.recess - roof;
    let exact = room - *packer.free;
    let thickness = Length::mm((exact.to_mm() / PACKER_STEP + 1e-9).floor() * PACKER_STEP);
    if thickness <= Length::ZERO {
        return None;
    }
    drawing.ledger.push(
        Figure::new(
            format!("panel.{mark}.packer"),
            format!("thickness of the packer under panel {mark}"),
            thickness.to_mm(),
            "mm",
        )
        .formula("h = z_tube + recess − z_roof − free")
        .input("z_tube", told(tube_top))
        .input("recess", told(*panel.recess))
        .input("z_roof", told(roof))
        .input("free", told(*packer.free))
        .source("geometry", Seen::Computed)
        .assume("rounded down to 0.5 mm, so that the back sheet is never pressed")
        .decides(),
    );
    Some(thickness)
}

fn panel_piece(
    panel: &Panel,
    mark: &str,
    place: Rect,
    tube_top: Length,
    frame: &Frame,
) -> DraftPiece {
    let low = place.low();
    // Seen from below, running along X: the zero corner is at the left front.
    let underside = face(
        "underside",
        Point3::ORIGIN,
        (Dir3::X, Dir3::Y, -Dir3::Z),
        (place.width(), place.height()),
        *panel.flange.thickness,
    );
    DraftPiece {
        kind: PartKind::Panel,
        name: "solar panel".to_owned(),
        mark: Some(mark.to_owned()),
        body: Body::Bought {
            item: format!(
                "solar panel {} × {} × {} mm",
                display::number_short(panel.length.to_mm(), 1),
                display::number_short(panel.width.to_mm(), 1),
                display::number_short(panel.thickness.to_mm(), 1),
            ),
        },
        faces: vec![underside],
        place: Frame3::at(Point3::new(low.x, low.y, tube_top)),
        mass: *panel.mass,
        holes: Vec::new(),
        span: if panel.span.is_none() { frame.span } else { panel.span },
    }
}

fn told(length: Length) -> String {
    display::in_unit_short(length, crate::units::Unit::MM, 1)
}

fn enter_figures(
    drawing: &mut Drawing<'_>,
    frame: &Frame,
    array: &Array,
    grid: &Grid,
    (crown_x, crown_y): (Length, Length),
) {
    let build = drawing.build;
    let key = |what: &str| build.frame_key(array.frame, what);
    let the = build.the_frame(array.frame);
    let ledger = &mut drawing.ledger;
    let several = build.frames.len() > 1;
    let crown_key = if several { key("crown") } else { "roof.crown".to_owned() };
    let of_frame = |words: &str| {
        if several { format!("{words}, {the}") } else { words.to_owned() }
    };
    let list =
        |sizes: &[Length]| sizes.iter().map(|size| told(*size)).collect::<Vec<_>>().join(" + ");
    let over = &build.frames[array.frame].overhang;
    for (id, label, value, sizes, overhang) in [
        (
            "outside.along",
            format!("outside of {the} along X"),
            array.outline.width(),
            &grid.columns,
            *over.front + *over.rear,
        ),
        (
            "outside.across",
            format!("outside of {the} along Y"),
            array.outline.height(),
            &grid.rows,
            *over.left + *over.right,
        ),
    ] {
        let figure = Figure::new(key(id), label, value.to_mm(), "mm")
            .input("panels", list(sizes))
            .input("n", sizes.len().to_string())
            .input("gap", told(*frame.gap))
            .source("geometry", Seen::Computed)
            .decides();
        ledger.push(if overhang.is_zero() {
            figure.formula("L = Σ panels + (n − 1) gap")
        } else {
            figure
                .formula("L = Σ panels + (n − 1) gap + overhangs")
                .input("overhangs", told(overhang))
        });
    }
    ledger.push(
        Figure::new(
            key("diagonal"),
            format!("both diagonals of {the}"),
            array.diagonal.to_mm(),
            "mm",
        )
        .formula("d = √(a² + b²)")
        .input("a", told(array.outline.width()))
        .input("b", told(array.outline.height()))
        .source("Pythagoras", Seen::Computed)
        .decides(),
    );
    ledger.push(
        Figure::new(crown_key, format!("highest skin under {the}"), array.crown.to_mm(), "mm")
            .formula("z = highest of the measured surface over the frame's outline")
            .input("at x", told(crown_x))
            .input("at y", told(crown_y))
            .source("the gaps measured under the straightedge", Seen::DataSheet)
            .assume("between readings the skin follows a shape-preserving cubic that never rises over them")
            .decides(),
    );
    ledger.push(
        Figure::new(
            key("under"),
            of_frame("lower face of the tubes over roof zero"),
            array.under.to_mm(),
            "mm",
        )
        .formula("z_under = z_crown + clearance")
        .input("z_crown", told(array.crown))
        .input("clearance", told(*frame.clearance))
        .source("geometry", Seen::Computed)
        .decides(),
    );
    ledger.push(
        Figure::new(
            key("top"),
            of_frame("highest point of the panels over roof zero"),
            array.top.to_mm(),
            "mm",
        )
        .formula("z_top = z_under + tube + panel")
        .input("z_under", told(array.under))
        .input("tube", told(frame.section.height()))
        .input("panel", told(array.top - array.tube_top))
        .source("geometry", Seen::Computed)
        .decides(),
    );
}

/// Height of the vehicle afterwards, over its highest frame.
pub(super) fn enter_height(drawing: &mut Drawing<'_>, arrays: &[Array]) {
    let before = drawing.build.vehicle.as_ref().and_then(|vehicle| vehicle.height.as_ref());
    let highest = arrays.iter().max_by(|a, b| a.top.total_cmp(&b.top));
    let Some(array) = highest else { return };
    if let (Some(after), Some(before)) = (array.height_after, before) {
        drawing.ledger.push(
            Figure::new(
                "vehicle.height-after",
                "height of the vehicle afterwards",
                after.to_mm(),
                "mm",
            )
            .formula("H = H_before + z_top")
            .input("H_before", told(**before))
            .input("z_top", told(array.top))
            .source("geometry", Seen::Computed)
            .assume(
                "the height before was measured at the roof's highest reading, which is zero here",
            )
            .decides(),
        );
    }
}
