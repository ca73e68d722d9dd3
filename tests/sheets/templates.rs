//! Full-size templates, measured on the laid-out pages.

use crate::support::{worked, worked_with};
use rungsheet::build::Paper;
use rungsheet::page;
use rungsheet::page::model::{Item, Page, Pen, Point, Segment};
use rungsheet::sheets::{self, Printed};
use std::collections::BTreeMap;

const PLATE: &str = include_str!("large-plate.toml");

/// Template pages of a build, each with the words for those who can't see its drawing.
fn templates(contents: &str, printed: Printed) -> Vec<(Page, String)> {
    let letter = || rungsheet::source::Stated::default_of(Paper::Letter, "test");
    let made = worked_with(contents, |build| build.job.paper = letter());
    let mut packet = sheets::packet_for(&made.basis(), printed);
    packet.sheets.retain(|sheet| sheet.tab.as_ref().is_some_and(|tab| tab.word == "Template"));
    let alts: Vec<String> = packet
        .sheets
        .iter()
        .flat_map(|sheet| &sheet.blocks)
        .filter_map(|block| match block {
            page::block::Block::Figure(figure) => Some(figure.scene.alt.clone()),
            _ => None,
        })
        .collect();
    let (document, _) = page::lay_out(&packet);
    assert_eq!(document.pages.len(), alts.len(), "a template is one page");
    document.pages.into_iter().zip(alts).collect()
}

fn build_file(name: &str) -> &'static str {
    match name {
        "plate" => PLATE,
        _ => include_str!("../../examples/field-van.toml"),
    }
}

/// Straight lines of a pen: both ends.
fn lines(page: &Page, pen: Pen) -> Vec<(Point, Point)> {
    paths(page)
        .filter(|path| path.stroke.as_ref().is_some_and(|s| s.pen == pen))
        .filter_map(|path| match path.segments.as_slice() {
            [Segment::Move(a), Segment::Line(b)] => Some((*a, *b)),
            [Segment::Move(a), Segment::Line(_), Segment::Line(_)] => Some((*a, *a)),
            _ => None,
        })
        .collect()
}

fn paths(page: &Page) -> impl Iterator<Item = &page::model::Path> {
    page.content.iter().flat_map(|part| &part.items).filter_map(|item| match item {
        Item::Path(path) => Some(path),
        _ => None,
    })
}

/// Upper end, corner and right end of the check bars, drawn as one line.
fn bars(page: &Page) -> [Point; 3] {
    paths(page)
        .find_map(|path| match path.segments.as_slice() {
            [Segment::Move(a), Segment::Line(b), Segment::Line(c)]
                if (a.x - b.x).abs() < 1e-9 && (b.y - a.y) > 150.0 =>
            {
                Some([*a, *b, *c])
            }
            _ => None,
        })
        .expect("every template has its bars")
}

/// Middles of whole circles of a radius between, drawn as curves alone.
fn circles(page: &Page) -> Vec<(Point, f64)> {
    paths(page)
        .filter(|path| path.stroke.as_ref().is_some_and(|s| s.pen == Pen::W050))
        .filter(|path| path.segments.iter().any(|s| matches!(s, Segment::Curve(..))))
        .filter_map(|path| {
            let points: Vec<Point> = path
                .segments
                .iter()
                .filter_map(|s| match s {
                    Segment::Move(p) | Segment::Line(p) | Segment::Curve(_, _, p) => Some(*p),
                    Segment::Close => None,
                })
                .collect();
            let span = |of: fn(&Point) -> f64| {
                let (low, high) = points
                    .iter()
                    .map(of)
                    .fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
                (f64::midpoint(low, high), high - low)
            };
            let ((x, wide), (y, tall)) = (span(|p| p.x), span(|p| p.y));
            let whole = points.len() > 4 && (wide - tall).abs() < 0.1;
            whole.then_some((Point::new(x, y), wide / 2.0))
        })
        .collect()
}

/// Page rule 46; with a correction, exactly the inverse of what the printer does.
#[test]
fn bars_are_exact_and_corrected() {
    let off: Printed = "198.6x199.2".parse().expect("a measurement");
    let most: Printed = "194x194".parse().expect("the most that is corrected");
    for (printed, across, down) in [
        (Printed::TRUE, 200.0, 200.0),
        (off, 200.0 * 200.0 / 198.6, 200.0 * 200.0 / 199.2),
        (most, 200.0 * 200.0 / 194.0, 200.0 * 200.0 / 194.0),
    ] {
        for name in ["plate", "van"] {
            for (page, alt) in templates(build_file(name), printed) {
                let [upper, corner, right] = bars(&page);
                assert!((corner.y - upper.y - down).abs() < 1e-6, "{alt}");
                assert!((right.x - corner.x - across * 0.75).abs() < 1e-6, "{alt}");
            }
        }
    }
}

/// Each hole of the plate is found where the file says, by every tile that shows it whole; those in
/// an overlap are on two or four, at one and the same place.
#[test]
fn a_hole_on_two_tiles_is_one_hole() {
    let stated: Vec<(f64, f64)> = PLATE
        .split("[[hole]]")
        .filter(|hole| hole.contains("part = \"B\""))
        .map(|hole| {
            let value = |key: &str| -> f64 {
                let line = hole.lines().find_map(|l| l.strip_prefix(key)).expect("stated");
                line.trim_start_matches([' ', '=']).parse().expect("a number")
            };
            (value("x"), value("y"))
        })
        .collect();
    for printed in [Printed::TRUE, "198.6x199.2".parse().expect("a measurement")] {
        let (fx, fy) = printed.factors();
        let mut corner_of_tile: Option<(f64, f64)> = None;
        let mut seen: BTreeMap<usize, usize> = BTreeMap::new();
        let pages = templates(PLATE, printed);
        let tiles = pages.iter().filter(|(_, alt)| alt.contains("base plate"));
        let mut count = 0;
        for (page, alt) in tiles {
            count += 1;
            let number = |after: &str| -> f64 {
                let rest = alt.split(after).nth(1).expect(alt);
                rest.split(' ').find(|w| !w.is_empty()).and_then(|w| w.parse().ok()).expect(alt)
            };
            let (down, across) = (number(" from "), number(" and "));
            let [_, corner, _] = bars(page);
            for (centre, radius) in circles(page) {
                // The mark of the datum is round too.
                if (radius - 3.3).abs() > 0.05 {
                    continue;
                }
                // True mm from the corner of the bars, as the printer will make them.
                let (x, y) =
                    ((centre.x - corner.x) / fx + across, (corner.y - centre.y) / fy - down);
                // The first hole tells where tiles begin; the file's own numbers tell the rest.
                let (dx, dy) = *corner_of_tile.get_or_insert((x - stated[0].1, y + stated[0].0));
                let found = stated
                    .iter()
                    .position(|(a, b)| (x - dx - b).abs() < 0.01 && (dy - y - a).abs() < 0.01)
                    .unwrap_or_else(|| panic!("no hole at {}, {} on {alt}", dy - y, x - dx));
                *seen.entry(found).or_default() += 1;
            }
        }
        assert_eq!(count, 12);
        assert_eq!(seen.len(), stated.len(), "every hole is on a tile");
        let shared = stated.iter().position(|at| *at == (152.0, 135.0)).expect("in the file");
        assert_eq!(seen[&shared], 4, "a hole where four tiles meet");
    }
}

/// Only templates are corrected.
#[test]
fn other_sheets_stay_as_they_are() {
    let made = worked(PLATE);
    let basis = made.basis();
    let (plain, corrected) =
        (sheets::packet(&basis), sheets::packet_for(&basis, "198x199".parse().expect("sound")));
    let mut differ = 0;
    for (a, b) in plain.sheets.iter().zip(&corrected.sheets) {
        let template = a.tab.as_ref().is_some_and(|tab| tab.word == "Template");
        let same = format!("{a:?}") == format!("{b:?}");
        assert_eq!(same, !template, "{}", a.title);
        differ += usize::from(template);
    }
    assert!(differ >= 13, "tiles and strips");
}

/// Folded around the tube, the paper brings a hole to the side that its face looks to: the strip of
/// the short tube has top, left, bottom, right (seen from its zero end) and each hole at its own edge.
#[test]
fn a_strip_folds_onto_its_faces() {
    let pages = templates(PLATE, Printed::TRUE);
    let strip: Vec<_> = pages.iter().filter(|(_, alt)| alt.contains("short tube")).collect();
    assert_eq!(strip.len(), 2, "300 mm are two tiles");
    // 25 mm faces: top and bottom holes lie at the middles of the first and third.
    let (page, _) = strip[0];
    let [_, corner, _] = bars(page);
    let mut found: Vec<(f64, f64)> =
        circles(page).iter().map(|(c, _)| (c.x - corner.x, corner.y - c.y)).collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.total_cmp(&b.0)));
    assert!((found[1].0 - found[0].0 - 50.0).abs() < 1e-6, "{found:?}");
    assert!((found[0].1 - found[1].1).abs() < 1e-6, "{found:?}");
    // The hole at 150 mm on the left face is one face further and 110 mm down.
    assert!((found[2].0 - found[0].0 - 25.0).abs() < 1e-6, "{found:?}");
    assert!((found[0].1 - found[2].1 - 110.0).abs() < 1e-6, "{found:?}");
    // No thick straight line of a tile leaves its page.
    for (page, alt) in &pages {
        for (a, b) in lines(page, Pen::W070) {
            for p in [a, b] {
                assert!(p.x >= 10.0 && p.x <= page.width - 10.0, "{alt}");
            }
        }
    }
}
