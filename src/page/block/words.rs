//! Headings, running text, lists and the large lead line.

use super::{Piece, limited};
use crate::page::context::Context;
use crate::page::model::{NodeId, Role};
use crate::page::strip::{Owner, Strip, StripEntry};
use crate::page::text::{Align, Lines, Setting, Text, set};

/// A heading inside a sheet.
#[derive(Debug, Clone, Default)]
pub struct Heading {
    /// Words, 14 pt bold.
    pub text: Text,
    /// More about it, 11 pt, on the same line where there is room: scale, limits, from where it is seen.
    pub aside: Text,
    /// Name to link to; the heading is then in the outline too.
    pub anchor: Option<String>,
    /// True for a heading under another one.
    pub minor: bool,
}

impl Heading {
    /// A heading of just these words.
    pub fn new(text: impl Into<Text>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }

    /// With words beside it.
    #[must_use]
    pub fn aside(mut self, aside: impl Into<Text>) -> Self {
        self.aside = aside.into();
        self
    }

    /// With a name to link to.
    #[must_use]
    pub fn anchor(mut self, anchor: impl Into<String>) -> Self {
        self.anchor = Some(anchor.into());
        self
    }

    /// As a heading under another one.
    #[must_use]
    pub fn minor(mut self) -> Self {
        self.minor = true;
        self
    }
}

/// A large statement, such as "Cut 5 bars", with notes at the right or under it.
#[derive(Debug, Clone, Default)]
pub struct Lead {
    /// 28 pt bold.
    pub words: Text,
    /// 11 pt; each on a line of its own, at the right if there is room.
    pub notes: Vec<Text>,
}

pub(super) fn heading(
    heading: &Heading,
    width: f64,
    parent: NodeId,
    context: &Context,
) -> Vec<Piece> {
    let role = if heading.minor && context.headed() { Role::H3 } else { Role::H2 };
    context.set_headed();
    let node = context.tags.node(parent, role);
    let mut strip = Strip::new();
    let title = limited(&heading.text, Setting::new(context.large(), width).bold(), 4, context);
    let mut y = title.draw(&mut strip, 0.0, 0.0, Owner::Node(node), context);
    if !heading.aside.is_empty() {
        let aside_node = context.tags.node(parent, Role::P);
        let used = if title.count() == 1 { title.width() + 5.0 } else { width };
        let beside =
            set(&heading.aside, Setting::new(context.small(), (width - used).max(1.0)), context);
        if beside.count() == 1 && beside.width() <= width - used {
            // On the same baseline.
            let down = title.setting().baseline() - beside.setting().baseline();
            beside.draw(&mut strip, used, down, Owner::Node(aside_node), context);
        } else {
            let under = limited(&heading.aside, Setting::new(context.small(), width), 4, context);
            y = under.draw(&mut strip, 0.0, y, Owner::Node(aside_node), context);
        }
    }
    if let Some(anchor) = &heading.anchor {
        strip.anchors.push((anchor.clone(), 0.0));
        let level = if role == Role::H3 { 3 } else { 2 };
        strip.entries.push(StripEntry { level, title: heading.text.plain(), y: 0.0 });
    }
    vec![Piece { before: 4.0, keep: true, snap: true, tight: true, ..Piece::new(strip, y) }]
}

pub(super) fn paragraph(
    text: &Text,
    bold: bool,
    width: f64,
    parent: NodeId,
    context: &Context,
) -> Vec<Piece> {
    let setting = Setting::new(context.small(), width);
    let setting = if bold { setting.bold() } else { setting };
    let lines = set(text, setting, context);
    if lines.count() == 0 {
        return Vec::new();
    }
    let node = context.tags.node(parent, Role::P);
    let mut pieces = running(&lines, 0.0, node, context);
    if let Some(first) = pieces.first_mut() {
        first.before = 2.0;
        first.snap = true;
        first.words = true;
    }
    pieces
}

/// Lines as pieces that leave neither the first nor the last line alone on a page.
fn running(lines: &Lines, x: f64, node: NodeId, context: &Context) -> Vec<Piece> {
    let count = lines.count();
    let mut cuts = vec![0];
    if count > 4 {
        cuts.extend(2..=count - 2);
    }
    cuts.push(count);
    cuts.dedup();
    cuts.windows(2)
        .map(|pair| {
            let mut strip = Strip::new();
            let part = lines.part(pair[0], pair[1]);
            let height = part.draw(&mut strip, x, 0.0, Owner::Node(node), context);
            Piece::new(strip, height)
        })
        .collect()
}

pub(super) fn bullets(items: &[Text], width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    const INDENT: f64 = 5.0;
    if items.is_empty() {
        return Vec::new();
    }
    let list = context.tags.node(parent, Role::L);
    let mut pieces = Vec::new();
    for (index, item) in items.iter().enumerate() {
        let node = context.tags.node(list, Role::Li);
        let label = context.tags.node(node, Role::Lbl);
        let body = context.tags.node(node, Role::LBody);
        let mut first = Strip::new();
        let dot = set(&"•".into(), Setting::new(context.small(), INDENT), context);
        dot.draw(&mut first, 0.0, 0.0, Owner::Node(label), context);
        let lines = set(item, Setting::new(context.small(), width - INDENT), context);
        let mut parts = running(&lines, INDENT, body, context);
        if let Some(part) = parts.first_mut() {
            let body = std::mem::replace(&mut part.strip, first);
            part.strip.add(body, 0.0, 0.0);
            part.height = part.height.max(dot.height());
            part.before = if index == 0 { 2.0 } else { 0.8 };
            part.snap = index == 0;
        }
        pieces.extend(parts);
    }
    pieces
}

pub(super) fn lead(lead: &Lead, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let mut strip = Strip::new();
    let setting = Setting::new(context.headline(), width).bold().leading(1.1);
    let mut words = limited(&lead.words, setting, 3, context);
    if words.count() > 1 {
        words = limited(&lead.words, setting.leading(1.25), 3, context);
    }
    let node = context.tags.node(parent, Role::P);
    let mut y = words.draw(&mut strip, 0.0, 0.0, Owner::Node(node), context);
    let wide = |text: &Text, w: f64, align| {
        set(text, Setting::new(context.small(), w).align(align), context)
    };
    let room = width - words.width() - 8.0;
    let beside: Vec<Lines> = if words.count() == 1 && room > 40.0 {
        lead.notes.iter().take(4).map(|n| wide(n, room, Align::Right)).collect()
    } else {
        Vec::new()
    };
    let fits = lead.notes.len() <= 3 && !beside.is_empty() && beside.iter().all(|l| l.count() == 1);
    if fits {
        let height: f64 = beside.iter().map(Lines::height).sum();
        let mut at = ((y - height) / 2.0).max(0.0);
        for note in &beside {
            let node = context.tags.node(parent, Role::P);
            at = note.draw(&mut strip, width - room, at, Owner::Node(node), context);
        }
        y = y.max(at);
    }
    let mut pieces = vec![Piece { before: 2.0, snap: true, ..Piece::new(strip, y) }];
    if !fits {
        for note in &lead.notes {
            let mut under = paragraph(note, false, width, parent, context);
            if let Some(first) = under.first_mut() {
                (first.before, first.snap) = (0.0, false);
            }
            pieces.extend(under);
        }
    }
    pieces
}
