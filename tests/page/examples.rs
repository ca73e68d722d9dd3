//! The packets of both examples, page by page.

use rungsheet::page::model::{Document, Item, Page, Path, Point, Rect, Segment};
use rungsheet::page::{self, Paper};
use rungsheet::sheets;

use super::{runs, tight, wrongs};
use crate::support::worked;

const EXAMPLES: [(&str, &str); 2] = [
    ("field-van", include_str!("../../examples/field-van.toml")),
    ("harbour-trailer", include_str!("../../examples/harbour-trailer.toml")),
];

fn laid_out(contents: &str, paper: Paper) -> (Document, Vec<page::Problem>) {
    let made = worked(contents);
    let mut packet = sheets::packet(&made.basis());
    packet.paper = paper;
    page::lay_out(&packet)
}

/// No text lies over another, none is struck through by an outline (a line of 0.35 mm or more), and none leaves the live area (page rules 48 and 52), on either paper;
/// nothing is left out; and a page that goes on with a sheet holds enough to be worth turning to:
/// its lowest words are below the upper fifth.
#[test]
fn pages_of_the_examples_are_whole_on_either_paper() {
    let mut all = Vec::new();
    for (name, contents) in EXAMPLES {
        for paper in [Paper::A4, Paper::Letter] {
            let (document, problems) = laid_out(contents, paper);
            let wrongs = wrongs(&document);
            assert!(wrongs.is_empty(), "{name} on {paper:?}: {wrongs:#?}");
            assert!(problems.is_empty(), "{name} on {paper:?}: {problems:#?}");
            for (number, page) in document.pages.iter().enumerate() {
                for text in struck(page) {
                    all.push(format!("{name} on {paper:?}, page {}: {text:?}", number + 1));
                }
                let lowest = runs(page)
                    .iter()
                    .filter(|(_, furniture)| !furniture)
                    .map(|(run, _)| run.bounds().bottom())
                    .fold(0.0, f64::max);
                assert!(
                    lowest > page.height * 0.22,
                    "{name} on {paper:?}, page {}: words end {lowest:.0} mm from the top",
                    number + 1
                );
            }
        }
    }
    assert!(all.is_empty(), "an outline runs through words: {all:#?}");
}

/// Texts that an outline runs through and that no white area keeps clear of it.
pub fn struck(page: &Page) -> Vec<String> {
    fn flat<'a>(items: &'a [Item], out: &mut Vec<&'a Item>) {
        for item in items {
            match item {
                Item::Clipped { items, .. } => flat(items, out),
                item => out.push(item),
            }
        }
    }
    let mut items = Vec::new();
    for sequence in &page.content {
        flat(&sequence.items, &mut items);
    }
    let mut struck = Vec::new();
    for (place, item) in items.iter().enumerate() {
        let Item::Glyphs(run) = item else { continue };
        if run.text.trim().is_empty() {
            continue;
        }
        // What the letters surely take: a line may graze the room around them.
        let area = tight(run);
        let by = 0.3_f64.min(area.width / 4.0).min(area.height / 4.0);
        let core =
            Rect::new(area.x + by, area.y + by, area.width - 2.0 * by, area.height - 2.0 * by);
        let paths = |items: &[&Item]| -> Vec<Path> {
            items
                .iter()
                .filter_map(|i| if let Item::Path(p) = i { Some(p.clone()) } else { None })
                .collect()
        };
        let mut before = paths(&items[..place]);
        // From the last area that covers the text on, what was drawn shows.
        let covered = before.iter().rposition(|path| path.fill.is_some() && covers(path, &core));
        before.drain(..covered.unwrap_or(0));
        let all = before.into_iter().chain(paths(&items[place + 1..]));
        if all.into_iter().any(|path| {
            path.stroke.as_ref().is_some_and(|s| s.pen.width() > 0.3) && crosses(&path, &core)
        }) {
            struck.push(run.text.clone());
        }
    }
    struck
}

fn points(path: &Path) -> Vec<Vec<Point>> {
    let mut rings: Vec<Vec<Point>> = Vec::new();
    for segment in &path.segments {
        match (segment, rings.last_mut()) {
            (Segment::Move(p), _) => rings.push(vec![*p]),
            (Segment::Line(p), Some(ring)) => ring.push(*p),
            (Segment::Curve(a, b, c), Some(ring)) => ring.extend([*a, *b, *c]),
            (Segment::Close, Some(ring)) => ring.extend(ring.first().copied()),
            _ => {}
        }
    }
    rings
}

/// Whether the box around a path holds another box.
fn covers(path: &Path, area: &Rect) -> bool {
    let all: Vec<Point> = points(path).into_iter().flatten().collect();
    let low = |of: fn(&Point) -> f64| all.iter().map(of).fold(f64::INFINITY, f64::min);
    let high = |of: fn(&Point) -> f64| all.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    low(|p| p.x) <= area.x
        && high(|p| p.x) >= area.right()
        && low(|p| p.y) <= area.y
        && high(|p| p.y) >= area.bottom()
}

/// Whether a path's line, taken in short steps, enters a box.
fn crosses(path: &Path, area: &Rect) -> bool {
    points(path).iter().any(|ring| {
        ring.windows(2).any(|pair| {
            let (a, b) = (pair[0], pair[1]);
            let long = (a.x - b.x).hypot(a.y - b.y);
            let steps = (long / 0.2).ceil().max(1.0);
            (0..=steps as u32).any(|step| {
                let t = f64::from(step) / steps;
                let (x, y) = (a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
                x > area.x && x < area.right() && y > area.y && y < area.bottom()
            })
        })
    })
}
