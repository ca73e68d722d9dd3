//! Safety messages.
//!
//! On paper the border and the word do the work: DANGER white on black, WARNING black on white in a
//! heavy double border, CAUTION in a single border, NOTICE between plain rules without a triangle
//! (signal words as in ANSI Z535.6; page rules 30 to 34). The triangle is ISO 7010 W001 in outline.

use super::{Piece, limited};
use crate::page::context::Context;
use crate::page::draw::{frame, polygon, rectangle, rule, stroke};
use crate::page::model::{Ink, Item, Join, NodeId, Path, Pen, Point, Rect, Role, Segment, Stroke};
use crate::page::scene::Scene;
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Setting, Text};

/// How bad it can get.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SignalWord {
    /// Only things can be damaged.
    Notice,
    /// Could injure slightly.
    Caution,
    /// Could kill or injure badly.
    Warning,
    /// Will kill or injure badly.
    Danger,
}

impl SignalWord {
    /// The word as printed.
    pub fn word(self) -> &'static str {
        match self {
            SignalWord::Notice => "NOTICE",
            SignalWord::Caution => "CAUTION",
            SignalWord::Warning => "WARNING",
            SignalWord::Danger => "DANGER",
        }
    }
}

/// A safety message: hazard, consequence, how to avoid it.
#[derive(Debug, Clone)]
pub struct Safety {
    /// How bad it can get.
    pub word: SignalWord,
    /// What is dangerous, and what it does: "Wet adhesive irritates skin and eyes."
    pub hazard: Text,
    /// What to do about it: "Wear nitrile gloves and eye protection."
    pub avoid: Text,
    /// A sign of its own in place of the triangle, drawn at its own size, at most 14 mm high.
    pub symbol: Option<Scene>,
}

const SIGN: f64 = 11.0;
const PAD: f64 = 1.4;

pub(super) fn lay(safety: &Safety, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let group = context.tags.node(parent, Role::Div);
    let word = safety.word;
    let notice = word == SignalWord::Notice;
    let danger = word == SignalWord::Danger;
    let edge = match word {
        SignalWord::Warning => 2.2,
        _ => 0.7,
    };
    let left = if notice { 0.0 } else { edge + 2.5 };
    let signed = !notice || safety.symbol.is_some();
    let ink = if danger { Ink::White } else { Ink::Black };

    let word_x = if signed { left + SIGN + 3.0 } else { left };
    let word_setting = Setting::new(context.large(), 40.0).bold().ink(ink);
    let word_lines = limited(&context.say(word.word()).into(), word_setting, 1, context);
    let text_x = word_x + word_lines.width() + 4.0;
    let room = width - text_x - left.max(1.0);
    let (text_x, room, stacked) =
        if room < 45.0 { (left, width - 2.0 * left.max(1.0), true) } else { (text_x, room, false) };
    let setting = Setting::new(12.0, room);
    let hazard = limited(&safety.hazard, setting, 20, context);
    let avoid = limited(&safety.avoid, setting, 20, context);

    let text_height = hazard.height() + avoid.height();
    let head = if signed { SIGN } else { word_lines.height() };
    let inner = if stacked { head + 1.0 + text_height } else { head.max(text_height) };
    let height = inner + 2.0 * (PAD + if notice { 0.0 } else { edge - 0.7 });
    let top = (height - inner) / 2.0;

    let mut strip = Strip::new();
    border(&mut strip, word, width, height);
    if danger {
        let panel = if stacked { width } else { text_x - 2.0 };
        let deep = if stacked { top + head + 0.5 } else { height };
        strip.path(
            Owner::Layout,
            rectangle(Rect::new(0.0, 0.0, panel, deep), None, Some(Ink::Black)),
        );
    }
    let head_height = if stacked { head } else { inner };
    if signed {
        let area = Rect::new(left, top + (head_height - SIGN) / 2.0, SIGN + 1.5, SIGN);
        sign(&mut strip, safety.symbol.as_ref(), area, ink, group, context);
    }
    let said = context.tags.node(group, Role::P);
    let down = top + (head_height - word_lines.height()) / 2.0;
    word_lines.draw(&mut strip, word_x, down, Owner::Node(said), context);
    let mut y = if stacked { top + head + 1.0 } else { top + (inner - text_height) / 2.0 };
    for lines in [&hazard, &avoid] {
        if lines.count() > 0 {
            let node = context.tags.node(group, Role::P);
            y = lines.draw(&mut strip, text_x, y, Owner::Node(node), context);
        }
    }
    vec![Piece { before: 2.5, keep: true, snap: true, ..Piece::new(strip, height) }]
}

fn border(strip: &mut Strip, word: SignalWord, width: f64, height: f64) {
    let whole = Rect::new(0.0, 0.0, width, height);
    match word {
        SignalWord::Notice => {
            strip.path(Owner::Layout, rule(0.0, 0.35, width, Pen::W070));
            strip.path(Owner::Layout, rule(0.0, height - 0.35, width, Pen::W070));
        }
        SignalWord::Caution | SignalWord::Danger => {
            strip.path(Owner::Layout, frame(whole, Pen::W070));
        }
        SignalWord::Warning => {
            strip.path(Owner::Layout, frame(whole, Pen::W070));
            let inside = Rect::new(1.5, 1.5, width - 3.0, height - 3.0);
            strip.path(Owner::Layout, frame(inside, Pen::W070));
        }
    }
}

fn sign(
    strip: &mut Strip,
    symbol: Option<&Scene>,
    area: Rect,
    ink: Ink,
    parent: NodeId,
    context: &Context,
) {
    if let Some(scene) = symbol {
        crate::page::scene::draw_small(scene, area, strip, parent, context);
        return;
    }
    let node = context.tags.figure(parent, &context.say("general warning sign, ISO 7010 W001"));
    for path in warning_triangle(area, ink) {
        strip.push(Owner::Node(node), Item::Path(path));
    }
    strip.figure(node, area);
}

/// W001 in outline: a triangle with rounded corners and an exclamation mark.
fn warning_triangle(area: Rect, ink: Ink) -> Vec<Path> {
    let side = area.height / (3.0_f64.sqrt() / 2.0);
    let middle = area.x + area.width / 2.0;
    let inset = 0.6;
    let outline = [
        Point::new(middle, area.y + inset),
        Point::new(middle + side / 2.0 - inset, area.bottom() - inset),
        Point::new(middle - side / 2.0 + inset, area.bottom() - inset),
    ];
    let mut triangle = polygon(&outline, None, None);
    triangle.stroke = Some(Stroke { ink, join: Join::Round, ..stroke(Pen::W100) });
    let h = area.height;
    let at = |x: f64, y: f64| Point::new(middle + x * h, area.y + y * h);
    let bar = Path {
        segments: vec![
            Segment::Move(at(-0.06, 0.38)),
            Segment::Line(at(0.06, 0.38)),
            Segment::Line(at(0.032, 0.68)),
            Segment::Line(at(-0.032, 0.68)),
            Segment::Close,
        ],
        stroke: None,
        fill: Some(ink),
        even_odd: false,
    };
    let dot = crate::page::draw::circle(at(0.0, 0.78), 0.05 * h, None, Some(ink));
    vec![triangle, bar, dot]
}
