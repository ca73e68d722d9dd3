//! The folded sheet: where its panels are, and what stands at the foot of each.
//!
//! Landscape, four columns and two rows, the upper row upside down: 5 4 3 2 over 6 7 8 1. Folded along
//! all lines, cut along the middle of the two middle columns, it makes a booklet of eight pages.

use super::block::{Booklet, Panel};
use super::context::{Context, ProblemKind};
use super::draw::{line, rule};
use super::furniture::EDGE;
use super::model::{Cap, Ink, Item, NodeId, Pen, Point, Role};
use super::paginate::{Area, paginate};
use super::sheet::Identity;
use super::strip::{Owner, Strip};
use super::text::{Setting, Text, clean, length, set, single};

/// Clear on both sides of a fold, mm.
const FOLD: f64 = 5.0;
/// Height of a panel's foot, mm.
const FOOT: f64 = 9.5;
/// Column and row of the panels 1 to 8, and whether they are upside down.
const PLACES: [(usize, usize, bool); 8] = [
    (3, 1, false),
    (3, 0, true),
    (2, 0, true),
    (1, 0, true),
    (0, 0, true),
    (0, 1, false),
    (1, 1, false),
    (2, 1, false),
];

/// Size of a panel and of what may stand in it.
struct Measures {
    width: f64,
    height: f64,
    live_width: f64,
    live_height: f64,
}

impl Measures {
    fn new((short, long): (f64, f64)) -> Self {
        let (width, height) = (long / 4.0, short / 2.0);
        Self {
            width,
            height,
            live_width: width - EDGE - FOLD,
            live_height: height - FOLD - EDGE - FOOT,
        }
    }

    /// Left edge of the content of a panel, in the panel as it is read.
    fn left(&self, (column, _, turned): (usize, usize, bool)) -> f64 {
        let edge_at_left = (column == 0 && !turned) || (column == 3 && turned);
        let edge_at_right = (column == 3 && !turned) || (column == 0 && turned);
        if edge_at_left {
            EDGE
        } else if edge_at_right {
            FOLD
        } else {
            (self.width - self.live_width) / 2.0
        }
    }

    /// Puts what is drawn in a panel's own corner onto the sheet.
    fn put(&self, sheet: &mut Strip, panel: Strip, place: (usize, usize, bool)) {
        let (x, y) = (place.0 as f64 * self.width, place.1 as f64 * self.height);
        let panel = if place.2 { panel.turned((self.width, self.height)) } else { panel };
        sheet.add(panel, x, y);
    }
}

/// Lays the panels out on a sheet whose paper (upright) has this size. Returns the sheet and what found
/// no room on its panel, in strips as wide as a panel.
pub(crate) fn lay(
    booklet: &Booklet,
    title: &str,
    paper: (f64, f64),
    section: NodeId,
    context: &Context,
) -> (Strip, Vec<Strip>) {
    let measures = Measures::new(paper);
    context.pocket.set(true);
    let mut sheet = Strip::new();
    let mut over = Vec::new();
    let empty = Panel::default();
    for number in 0..booklet.panels.len().max(8) {
        let panel = booklet.panels.get(number).unwrap_or(&empty);
        let mut own = Strip::new();
        let mut top = 0.0;
        let place = PLACES.get(number).copied();
        let left = place.map_or(0.0, |p| measures.left(p));
        if number == 0 {
            let node = context.tags.node(section, Role::H1);
            let setting = Setting::new(14.0, measures.live_width).bold();
            let mut words = set(&Text::from(title), setting, context).cut(3, context);
            if words.count() == 0 {
                words = set(&"–".into(), setting, context);
            }
            top = words.draw(&mut own, left, FOLD, Owner::Node(node), context) - FOLD + 1.5;
        }
        let pieces = panel.lay(measures.live_width, section, context);
        let area = Area { first: FOLD + top, next: 0.0, bottom: FOLD + measures.live_height };
        let mut pages = paginate(pieces, area).pages.into_iter();
        let Some(place) = place else {
            over.extend(pages);
            continue;
        };
        if let Some(first) = pages.next() {
            own.add(first, left, 0.0);
        }
        let more: Vec<Strip> = pages.collect();
        if !more.is_empty() {
            context.problem(ProblemKind::TooLarge, format!("panel {}", number + 1));
        }
        over.extend(more);
        measures.put(&mut sheet, own, place);
    }
    context.pocket.set(false);
    lines(&mut sheet, &measures);
    (sheet, over)
}

/// Dashed folds, and the cut in the middle of the two middle columns.
fn lines(sheet: &mut Strip, m: &Measures) {
    let mut fold = |a: (f64, f64), b: (f64, f64)| {
        let mut path = line(Point::new(a.0, a.1), Point::new(b.0, b.1), Pen::W025);
        if let Some(stroke) = path.stroke.as_mut() {
            stroke.dash = vec![0.01, 2.5];
            stroke.cap = Cap::Round;
        }
        sheet.path(Owner::Furniture, path);
    };
    for column in 1..4 {
        let x = f64::from(column) * m.width;
        fold((x, EDGE), (x, 2.0 * m.height - EDGE));
    }
    fold((EDGE, m.height), (m.width, m.height));
    fold((3.0 * m.width, m.height), (4.0 * m.width - EDGE, m.height));
    sheet.path(Owner::Furniture, rule(m.width, m.height, 2.0 * m.width, Pen::W050));
}

/// The foot of each panel: what it belongs to, and its number in the booklet.
pub(crate) fn feet(
    sheet: &mut Strip,
    identity: &Identity,
    (number, count): (usize, usize),
    (paper, draft): ((f64, f64), bool),
    context: &Context,
) {
    let m = Measures::new(paper);
    let revision = if identity.revision.is_empty() {
        String::new()
    } else {
        format!("{} {}", context.say("rev"), identity.revision)
    };
    let draft = if draft { context.say("DRAFT") } else { String::new() };
    let first = said(&[&identity.number, &revision, &identity.date]);
    let second =
        said(&[&draft, &context.say(format!("sheet {number} of {count}")), &identity.fingerprint]);
    for (index, place) in PLACES.into_iter().enumerate() {
        let mut own = Strip::new();
        let left = m.left(place);
        let bottom = m.height - EDGE;
        let page = (index + 1).to_string();
        let room = m.live_width - 6.0;
        for (words, y, x) in [
            (short(&first, room, context), bottom - 4.6, left),
            (short(&second, room, context), bottom - 0.7, left),
            (
                page.clone(),
                bottom - 0.7,
                left + m.live_width - length(&page, 9.0, false, &context.shaper),
            ),
        ] {
            let style = (9.0, false, Ink::Black);
            let (runs, _) = single(&words, style, Point::new(x, y), 0.0, &context.shaper);
            for run in runs {
                own.push(Owner::Furniture, Item::Glyphs(run));
            }
        }
        m.put(sheet, own, place);
    }
}

fn said(parts: &[&str]) -> String {
    let parts: Vec<String> = parts.iter().map(|p| clean(p)).filter(|p| !p.is_empty()).collect();
    parts.join("\u{a0} ")
}

fn short(words: &str, width: f64, context: &Context) -> String {
    let mut cut: String = words.chars().take(90).collect();
    if cut == words && length(&cut, 9.0, false, &context.shaper) <= width {
        return cut;
    }
    while !cut.is_empty() && length(&format!("{cut}…"), 9.0, false, &context.shaper) > width {
        cut.pop();
    }
    format!("{cut}…")
}
