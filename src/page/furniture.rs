//! Head, foot, tab, job strip and draft mark.

use super::block::limited;
use super::context::{Context, ProblemKind};
use super::draw::{frame, rectangle, rule};
use super::model::{Ink, Item, NodeId, Pen, Point, Rect, Role};
use super::sheet::{Identity, JobStrip, Packet, Sheet, StripMark};
use super::strip::{Owner, Strip};
use super::text::{Align, Setting, Text, length, set, single};

/// Clear at the edge that is bound, mm (page rule 52).
pub(crate) const BOUND: f64 = 20.0;
/// Width of what is on a sheet, mm: the 180 mm that A4 and Letter share, less the tab's strip.
pub(crate) const LIVE: f64 = 171.0;
/// Clear at the other edges, mm.
pub(crate) const EDGE: f64 = 10.0;
const HEAD: f64 = 18.0;
const FOOT: f64 = 5.8;
const TAB_WIDTH: f64 = 5.5;
const TAB_LENGTH: f64 = 38.0;
const DRAFT: f64 = 9.0;

/// Where things go on a page.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Frame {
    pub width: f64,
    pub height: f64,
    /// Whether the bound side is at the right (the back of a leaf).
    pub mirrored: bool,
}

impl Frame {
    /// Left edge of the content.
    pub fn left(&self) -> f64 {
        if self.mirrored { self.width - BOUND - LIVE } else { BOUND }
    }

    fn tab_left(&self) -> f64 {
        let right = self.width - EDGE - TAB_WIDTH;
        if self.mirrored { EDGE } else { right }
    }

    /// Top of the content under a head without extra lines.
    pub fn top(draft: bool) -> f64 {
        EDGE + HEAD + 1.5 + if draft { DRAFT } else { 0.0 }
    }

    /// Bottom of the content.
    pub fn bottom(&self) -> f64 {
        self.height - EDGE - FOOT
    }
}

/// The head of a sheet's first page; returns where the content may start, and what did not fit in it.
pub(crate) fn head(
    strip: &mut Strip,
    sheet: &Sheet,
    packet: &Packet,
    frame: &Frame,
    section: NodeId,
    context: &Context,
) -> (f64, Vec<Text>) {
    let left = frame.left();
    let mut over = Vec::new();
    let used = job_strip(strip, sheet.steps.as_ref(), frame, context);
    let room = LIVE - used;
    let title = Text::from(&sheet.title);
    let h1 = context.tags.node(section, Role::H1);
    let setting = Setting::new(18.0, room).bold();
    let whole = set(&title, setting, context);
    let lines = whole.cut(1, context);
    if whole.count() > 1 {
        context.problem(ProblemKind::TooLong, &sheet.title);
        over.push(title);
    }
    let drawn = if lines.count() == 0 { set(&"–".into(), setting, context) } else { lines };
    drawn.draw(strip, left, EDGE + 2.0, Owner::Node(h1), context);

    let purpose = Text::from(&sheet.purpose);
    let mut lines = set(&purpose, Setting::new(11.0, LIVE), context);
    if lines.count() > 2 {
        context.problem(ProblemKind::TooLong, &sheet.purpose);
        lines = lines.cut(2, context);
        over.push(purpose);
    }
    let extra = lines.setting().line() * lines.count().saturating_sub(1) as f64;
    if lines.count() > 0 {
        let node = context.tags.node(section, Role::P);
        lines.draw(strip, left, EDGE + 11.6, Owner::Node(node), context);
    }
    draft(strip, packet, frame, EDGE + HEAD + extra + 0.3, context);
    (Frame::top(packet.draft.is_some()) + extra, over)
}

/// The head of a further page.
pub(crate) fn continued(
    strip: &mut Strip,
    sheet: &Sheet,
    packet: &Packet,
    frame: &Frame,
    context: &Context,
) -> f64 {
    let used = job_strip(strip, sheet.steps.as_ref(), frame, context);
    let room = LIVE - used - 26.0;
    let setting = Setting::new(18.0, room.max(30.0)).bold();
    let title = set(&Text::from(&sheet.title), setting, context).cut(1, context);
    title.draw(strip, frame.left(), EDGE + 2.0, Owner::Furniture, context);
    let word = set(&context.say("continued").into(), Setting::new(11.0, 26.0), context);
    let down = title.setting().baseline() - word.setting().baseline();
    let x = frame.left() + title.width() + 4.0;
    word.draw(strip, x, EDGE + 2.0 + down, Owner::Furniture, context);
    // The purpose is not repeated, so the content may start higher.
    let saved = 6.0;
    draft(strip, packet, frame, EDGE + HEAD - saved + 0.3, context);
    Frame::top(packet.draft.is_some()) - saved
}

fn draft(strip: &mut Strip, packet: &Packet, at: &Frame, y: f64, context: &Context) {
    let Some(reason) = &packet.draft else { return };
    let area = Rect::new(at.left(), y, LIVE, DRAFT - 1.3);
    strip.path(Owner::Furniture, frame(area, Pen::W100));
    let words = Text::bold(context.say("DRAFT")).and(": ").and(if reason.is_empty() {
        context.say("not to be worked from")
    } else {
        reason.clone()
    });
    let setting = Setting::new(14.0, LIVE - 8.0).align(Align::Centre);
    let lines = set(&words, setting, context).cut(1, context);
    let top = area.y + (area.height - lines.height()) / 2.0;
    lines.draw(strip, area.x + 4.0, top, Owner::Furniture, context);
}

/// Draws the job strip; returns the width that it takes from the title's line.
fn job_strip(strip: &mut Strip, steps: Option<&JobStrip>, frame: &Frame, context: &Context) -> f64 {
    const WIDEST: f64 = 66.0;
    const SIDE: f64 = 3.2;
    let Some(job) = steps else { return 0.0 };
    let count = job.marks.iter().filter(|m| **m == StripMark::Step).count();
    let right = frame.left() + LIVE;
    if count == 0 {
        return 0.0;
    }
    let pitch = (WIDEST / job.marks.len() as f64).min(4.4);
    let words = match job.here {
        Some(here) => context.say(format!("step {} of {count}", here + 1)),
        None => context.say(format!("{count} steps")),
    };
    let label = set(&words.into(), Setting::new(11.0, WIDEST).align(Align::Right), context);
    label.draw(strip, right - WIDEST, EDGE + 6.8, Owner::Furniture, context);
    // Boxes closer than 1.6 mm run together; the words alone say it then.
    if pitch >= 1.6 {
        let side = (pitch - 1.2).min(SIDE);
        let base = EDGE + 5.3;
        let mut x = right - pitch * job.marks.len() as f64 + (pitch - side);
        let mut step = 0;
        for mark in &job.marks {
            if *mark == StripMark::Step {
                let area = Rect::new(x, base - side, side, side);
                let owner = Owner::Furniture;
                match job.here {
                    Some(here) if step < here => {
                        strip.path(owner, super::draw::frame(area, Pen::W035));
                    }
                    Some(here) if step == here => {
                        let tall = Rect::new(x, base - side * 1.5, side, side * 1.5);
                        strip.path(owner, rectangle(tall, None, Some(Ink::Black)));
                    }
                    _ => strip.path(owner, rule(x, base - 0.175, side, Pen::W035)),
                }
                step += 1;
            }
            x += pitch;
        }
    }
    (pitch * job.marks.len() as f64).max(label.width()) + 4.0
}

/// The identity line of page `number` of `count`.
pub(crate) fn foot(
    strip: &mut Strip,
    identity: &Identity,
    (number, count): (usize, usize),
    frame: &Frame,
    context: &Context,
) {
    let baseline = frame.height - EDGE - 0.7;
    let left = frame.left();
    let style = (9.0, false, Ink::Black);
    let mut say = |words: &str, x: f64| {
        let at = Point::new(x, baseline);
        let (runs, _) = single(words, style, at, 0.0, &context.shaper);
        for run in runs {
            strip.push(Owner::Furniture, Item::Glyphs(run));
        }
    };
    let mut right = left + LIVE;
    let sheets = context.say(format!("sheet {number} of {count}"));
    for words in [identity.fingerprint.as_str(), &sheets] {
        if words.is_empty() {
            continue;
        }
        let words = short(words, 36.0, context);
        right -= length(&words, 9.0, false, &context.shaper);
        say(&words, right);
        right -= 4.0;
    }
    let revision = if identity.revision.is_empty() {
        String::new()
    } else {
        format!("{} {}", context.say("rev"), identity.revision)
    };
    let rest: f64 = [&identity.date, &revision]
        .iter()
        .filter(|w| !w.is_empty())
        .map(|w| length(&short(w, 20.0, context), 9.0, false, &context.shaper) + 4.0)
        .sum();
    let number_words = short(&identity.number, 34.0, context);
    let used = length(&number_words, 9.0, false, &context.shaper) + 4.0 + rest;
    let title = short(&identity.title, (right - left - used).max(10.0), context);
    let mut x = left;
    for words in
        [number_words, title, short(&revision, 20.0, context), short(&identity.date, 20.0, context)]
    {
        if !words.is_empty() {
            say(&words, x);
            x += length(&words, 9.0, false, &context.shaper) + 4.0;
        }
    }
}

/// The words, cut to a width in 9 pt.
fn short(words: &str, width: f64, context: &Context) -> String {
    let cleaned = super::text::clean(words);
    if length(&cleaned, 9.0, false, &context.shaper) <= width {
        return cleaned;
    }
    let mut cut: String = cleaned.chars().take(80).collect();
    while !cut.is_empty() && length(&format!("{cut}…"), 9.0, false, &context.shaper) > width {
        cut.pop();
    }
    format!("{}…", cut.trim_end())
}

/// The tab at the outer edge.
pub(crate) fn tab(strip: &mut Strip, sheet: &Sheet, frame: &Frame, context: &Context) {
    let Some(tab) = &sheet.tab else { return };
    let first = EDGE + HEAD + 4.0;
    let last = frame.bottom() - TAB_LENGTH;
    let part = if tab.slots > 1 {
        tab.slot.min(tab.slots - 1) as f64 / (tab.slots - 1) as f64
    } else {
        0.0
    };
    let area = Rect::new(frame.tab_left(), first + (last - first) * part, TAB_WIDTH, TAB_LENGTH);
    strip.path(Owner::Furniture, rectangle(area, None, Some(Ink::Black)));
    let setting = Setting::new(12.0, TAB_LENGTH - 4.0).bold();
    let lines = limited(&Text::from(&tab.word), setting, 1, context);
    let mut words = Strip::new();
    lines.draw(&mut words, 0.0, 0.0, Owner::Furniture, context);
    // Turned to read upwards, in the middle of the tab.
    let cap = super::fonts::FaceId::Bold.cap_height() * 12.0 * super::text::MM;
    let baseline = area.x + f64::midpoint(area.width, cap);
    let start = area.y + f64::midpoint(area.height, lines.width());
    for (_, item) in words.items {
        if let Item::Glyphs(mut run) = item {
            run.origin = Point::new(baseline, start - run.origin.x);
            run.angle = 90.0;
            run.ink = Ink::White;
            strip.push(Owner::Furniture, Item::Glyphs(run));
        }
    }
}

/// A page that stays blank because the sheet before it, or after it, is single-sided.
pub(crate) fn blank(strip: &mut Strip, frame: &Frame, context: &Context) {
    let setting = Setting::new(11.0, LIVE).align(Align::Centre);
    let lines = set(&context.say("This side stays blank.").into(), setting, context);
    lines.draw(strip, frame.left(), frame.height / 2.0, Owner::Furniture, context);
}
