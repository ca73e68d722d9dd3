//! Numbered actions with boxes to tick and limits to compare with.

use super::{Blank, Figure, Hold, Piece, Safety, dotted, tick_box, write_box};
use crate::page::block::limited;
use crate::page::context::{Context, ProblemKind};
use crate::page::draw::rule;
use crate::page::model::{NodeId, Pen, Rect, Role};
use crate::page::strip::{Owner, Strip};
use crate::page::text::{Align, Lines, Setting, Text, bound, set};

/// A list of actions.
#[derive(Debug, Clone)]
pub struct Actions {
    /// How the list is to be used; printed in its head.
    pub mode: Mode,
    /// More for the head: "41 to 44 on one foot, then the next".
    pub note: Text,
    /// Labels of the boxes to tick, one for each thing that is worked on; empty for one plain box.
    pub boxes: Vec<String>,
    /// What stands in the list, in order.
    pub rows: Vec<ActionRow>,
}

/// How a list is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// Read one, do it.
    ReadDo,
    /// Do all, then go through the list.
    DoConfirm,
}

/// A row of the list.
#[derive(Debug, Clone)]
pub enum ActionRow {
    /// Something to do.
    Action(Action),
    /// A safety message about the next action.
    Safety(Safety),
    /// A hold line before the next action.
    Hold(Hold),
    /// A drawing of the next action.
    Figure(Figure),
}

/// One action.
#[derive(Debug, Clone)]
pub struct Action {
    /// Its number in the packet.
    pub number: String,
    /// What to do, 14 pt: verb, object, where, limit.
    pub text: Text,
    /// Why, or a hint, 11 pt under it; may be empty.
    pub why: Text,
    /// How to know that it is right.
    pub done: DoneWhen,
    /// The limits in another unit, 11 pt under them; may be empty.
    pub also: Text,
    /// False for an action done once though the list has a box for each thing.
    pub each: bool,
}

/// How to know that an action is right.
#[derive(Debug, Clone)]
pub enum DoneWhen {
    /// A state in words; dashes stand for the limits.
    State(Text),
    /// A measured value between two limits, in a unit; either limit may be empty (a dash).
    Limits {
        /// What is measured.
        what: Text,
        /// Least.
        low: String,
        /// Most.
        high: String,
        /// Unit.
        unit: String,
    },
    /// A clock time or value to write down.
    Blank(Blank),
}

impl Action {
    /// An action with its number and the state that ends it.
    pub fn new(number: impl Into<String>, text: impl Into<Text>, done: DoneWhen) -> Self {
        Self {
            number: number.into(),
            text: text.into(),
            why: Text::new(),
            done,
            also: Text::new(),
            each: true,
        }
    }

    /// With a reason or hint under it.
    #[must_use]
    pub fn why(mut self, why: impl Into<Text>) -> Self {
        self.why = why.into();
        self
    }

    /// With its limits in another unit.
    #[must_use]
    pub fn also(mut self, limits: impl Into<Text>) -> Self {
        self.also = limits.into();
        self
    }

    /// Done once, though the list has a box for each thing.
    #[must_use]
    pub fn once(mut self) -> Self {
        self.each = false;
        self
    }
}

impl DoneWhen {
    /// Limits with their unit.
    pub fn limits(
        what: impl Into<Text>,
        low: impl Into<String>,
        high: impl Into<String>,
        unit: impl Into<String>,
    ) -> Self {
        Self::Limits { what: what.into(), low: low.into(), high: high.into(), unit: unit.into() }
    }
}

/// Side of a box to tick, mm.
const BOX: f64 = 6.0;
/// From one box to the next, mm.
const BOX_STEP: f64 = 7.0;

/// Rows of boxes at most.
const ROWS_OF_BOXES: usize = 4;
/// More boxes than this stand in rows under each other, so that words keep their width.
const BOXES_A_ROW: usize = 5;

/// Least width of the words of an action beside their limits, mm.
const LEAST_TEXT: f64 = 45.0;

/// Places of the columns, mm from the left.
struct Places {
    boxes: usize,
    /// Boxes beside each other.
    across: usize,
    label: f64,
    /// "Done when" stands under the words, not at the right edge.
    stacked: bool,
    box_step: f64,
    number: f64,
    number_right: f64,
    text: f64,
    text_width: f64,
    what: f64,
    what_width: f64,
    low_right: f64,
    high_right: f64,
    unit: f64,
    width: f64,
}

pub(super) fn lay(actions: &Actions, width: f64, parent: NodeId, context: &Context) -> Vec<Piece> {
    let places = places(actions, width, context);
    let mut pieces = vec![head(actions, &places, parent, context)];
    let mut list = None;
    for (index, row) in actions.rows.iter().enumerate() {
        match row {
            ActionRow::Action(action) => {
                let list = *list.get_or_insert_with(|| context.tags.node(parent, Role::L));
                // A box after the action is line enough.
                let next = actions.rows.get(index + 1);
                let ruled = !matches!(next, Some(ActionRow::Safety(_) | ActionRow::Hold(_)));
                pieces.extend(lay_action(action, &places, (list, ruled), context));
            }
            other => {
                // A message between actions ends the list in the tag tree; the next action opens another.
                list = None;
                let mut between = match other {
                    ActionRow::Safety(safety) => super::safety::lay(safety, width, parent, context),
                    ActionRow::Hold(hold) => super::hold::lay(hold, width, parent, context),
                    ActionRow::Figure(figure) => super::figure::lay(figure, width, parent, context),
                    ActionRow::Action(_) => Vec::new(),
                };
                for piece in &mut between {
                    piece.before = 0.8;
                    piece.snap = false;
                    piece.keep = true;
                }
                pieces.extend(between);
            }
        }
    }
    if let Some(last) = pieces.last_mut() {
        last.keep = false;
    }
    pieces
}

fn places(actions: &Actions, width: f64, context: &Context) -> Places {
    let all = || {
        actions.rows.iter().filter_map(|row| match row {
            ActionRow::Action(action) => Some(action),
            _ => None,
        })
    };
    let widest = |of: &dyn Fn(&Action) -> f64| all().map(of).fold(0.0, f64::max);
    let big = |s: &str| dotted::natural(&s.into(), false, context.large(), context);
    let limit = |pick: fn(&DoneWhen) -> &str| widest(&|a| big(pick(&a.done))).max(6.0);
    let low = limit(|d| if let DoneWhen::Limits { low, .. } = d { low } else { "" });
    let high = limit(|d| if let DoneWhen::Limits { high, .. } = d { high } else { "" });
    // Room for the word "high" over its column.
    let high = high.max(7.5);
    let unit = widest(&|a| match &a.done {
        DoneWhen::Limits { unit, .. } => {
            dotted::natural(&unit.as_str().into(), false, context.small(), context)
        }
        _ => 0.0,
    });
    let number =
        widest(&|a| dotted::natural(&Text::bold(&a.number), true, context.large(), context))
            .clamp(5.5, width * 0.12);

    let labels = actions
        .boxes
        .iter()
        .map(|l| dotted::natural(&l.as_str().into(), true, context.small(), context));
    let label = labels.fold(0.0, f64::max).min(width * 0.08);
    let step = BOX_STEP.max(label + 1.5);
    // More boxes than fit a third of the line are not drawn side by side.
    let room = 1 + ((width / 3.0 - BOX).max(0.0) / step) as usize;
    let wanted = actions.boxes.len().max(1);
    let rows = wanted.div_ceil(room.min(BOXES_A_ROW));
    let across = wanted.div_ceil(rows);
    let most = across * ROWS_OF_BOXES;
    let boxes = wanted.min(most);
    if wanted > most {
        context.problem(ProblemKind::TooLong, format!("{wanted} boxes"));
    }
    let boxes_width = (across - 1) as f64 * step + BOX;
    let number_right = boxes_width + 3.2 + number;
    let text = boxes_width.max((across - 1) as f64 * step + label) + 6.2 + number;

    let unit_left = width - unit;
    let high_right = unit_left - if unit > 0.0 { 1.4 } else { 0.0 };
    let low_right = high_right - high - 2.6;
    let what_width = 23.0_f64.max(width * 0.135);
    let what = low_right - low - 2.0 - what_width;
    let text_width = what - 2.5 - text;
    // Limits that leave no room for the words go under them.
    let stacked = text_width < LEAST_TEXT;
    let text_width = if stacked { (width - text).max(width * 0.3) } else { text_width };
    Places {
        boxes,
        across,
        label,
        stacked,
        box_step: step,
        number,
        number_right,
        text,
        text_width,
        what,
        what_width,
        low_right,
        high_right,
        unit: unit_left,
        width,
    }
}

impl Places {
    /// Left edge and row of a box, counted along the rows.
    fn box_at(&self, index: usize) -> (f64, usize) {
        ((index % self.across) as f64 * self.box_step, index / self.across)
    }

    /// Rows of boxes.
    fn rows(&self) -> usize {
        self.boxes.div_ceil(self.across)
    }
}

fn head(actions: &Actions, places: &Places, parent: NodeId, context: &Context) -> Piece {
    let mut strip = Strip::new();
    let node = context.tags.node(parent, Role::P);
    let mode = match actions.mode {
        Mode::ReadDo => "READ-DO",
        Mode::DoConfirm => "DO-CONFIRM",
    };
    let mut words = Text::from(mode);
    if !actions.note.is_empty() {
        words = words.and(": ");
        words.spans.extend(actions.note.spans.iter().cloned());
    }
    let title = limited(&words, Setting::new(context.small(), places.text_width), 4, context);
    let line = title.setting().line();
    let rows = places.rows() as f64;
    let height = title.height().max(line * rows);
    let base = height - line;
    let owner = Owner::Node(node);
    let bold = |width: f64| Setting::new(context.small(), width.max(1.0)).bold();
    for (index, label) in actions.boxes.iter().take(places.boxes).enumerate() {
        let (x, row) = places.box_at(index);
        let lines = limited(&label.as_str().into(), bold(places.label + 0.1), 1, context);
        // A label wider than its box starts with it.
        let at = x + ((BOX - lines.width()) / 2.0).max(0.0);
        lines.draw(&mut strip, at, height - (rows - row as f64) * line, owner, context);
    }
    title.draw(&mut strip, places.text, height - title.height(), owner, context);
    if !places.stacked {
        let done =
            limited(&context.say("done when").into(), bold(places.what_width + 2.0), 1, context);
        done.draw(&mut strip, places.what, base, owner, context);
        for (word, right) in [("low", places.low_right), ("high", places.high_right)] {
            let lines =
                limited(&context.say(word).into(), bold(12.0).align(Align::Right), 1, context);
            lines.draw(&mut strip, right - 12.0, base, owner, context);
        }
    }
    let y = height + 0.6;
    strip.path(Owner::Layout, rule(0.0, y, places.width, Pen::W025));
    Piece { before: 2.0, keep: true, snap: true, ..Piece::new(strip, y) }
}

fn lay_action(
    action: &Action,
    places: &Places,
    (list, ruled): (NodeId, bool),
    context: &Context,
) -> Vec<Piece> {
    let item = context.tags.node(list, Role::Li);
    let label = context.tags.node(item, Role::Lbl);
    let body = context.tags.node(item, Role::LBody);
    let setting = Setting::new(context.large(), places.text_width).leading(1.3).most(60);
    let text = set(&action.text, setting, context);
    let why = set(&action.why, Setting::new(context.small(), places.text_width), context);
    let what = match &action.done {
        DoneWhen::State(words) => words.clone(),
        DoneWhen::Limits { what, .. } => what.clone(),
        DoneWhen::Blank(blank) => blank.label.clone(),
    };
    let blank = matches!(action.done, DoneWhen::Blank(_));
    let what_width = if blank { places.what_width * 0.55 } else { places.what_width };
    let done = limited(&what, Setting::new(context.small(), what_width), 30, context);

    let fit = (((context.height - 20.0) / text.setting().line()) as usize).max(3);
    let parted = text.count() > fit || why.count() > fit;
    if parted {
        context.problem(ProblemKind::Parted, format!("action {}", action.number));
    }
    let mut strip = Strip::new();
    let top = 1.4;
    let first = text.part(0, fit);
    let line = text.setting().line();

    let owner = Owner::Node(label);
    let number_setting =
        Setting::new(context.large(), places.number).bold().leading(1.3).align(Align::Right);
    let number = limited(&action.number.as_str().into(), number_setting, 1, context);
    let boxes_top = top + (line - BOX) / 2.0;
    let drawn = if action.each { 0..places.boxes } else { places.across - 1..places.across };
    let mut boxes_end = boxes_top + BOX;
    for index in drawn {
        let (x, row) = places.box_at(index);
        let y = boxes_top + row as f64 * BOX_STEP;
        tick_box(&mut strip, (x, y, BOX), label, context);
        boxes_end = boxes_end.max(y + BOX);
    }
    number.draw(&mut strip, places.number_right - places.number, top, owner, context);
    let mut y = first.draw(&mut strip, places.text, top, Owner::Node(body), context);
    if why.count() > 0 && !parted {
        y = why.draw(&mut strip, places.text, y, Owner::Node(body), context);
    }
    y = y.max(boxes_end);
    y = if places.stacked {
        draw_done_under(action, places, y, body, &mut strip, context)
    } else {
        y.max(draw_done(action, &done, places, (top, line), body, &mut strip, context))
    } + 1.0;
    let mut pieces = vec![Piece { action: true, ..Piece::new(strip, y) }];
    if parted {
        pieces.extend(rest(&text, fit, places.text, body, context));
        pieces.extend(rest(&why, 0, places.text, body, context));
    }
    if let (true, Some(last)) = (ruled, pieces.last_mut()) {
        last.strip.path(Owner::Layout, rule(0.0, last.height, places.width, Pen::W025));
    }
    pieces
}

/// Draws "done when" and its limits, or its blank, as a line of their own; returns where it ends.
fn draw_done_under(
    action: &Action,
    places: &Places,
    y: f64,
    body: NodeId,
    strip: &mut Strip,
    context: &Context,
) -> f64 {
    let lead = Text::bold(context.say("done when "));
    let or_dash = |s: &str| if s.trim().is_empty() { "–".to_owned() } else { s.to_owned() };
    let said = match &action.done {
        DoneWhen::State(words) => joined(lead, words),
        DoneWhen::Limits { what, low, high, unit } => {
            let limits = joined(lead, what)
                .and(" ")
                .and(bound(&or_dash(low), unit))
                .and(context.say(" to "))
                .and(bound(&or_dash(high), unit));
            if action.also.is_empty() { limits } else { joined(limits.and("; "), &action.also) }
        }
        DoneWhen::Blank(blank) => {
            let row = [blank.clone()];
            let mut y = y;
            for row in super::blanks::rows(&row, places.text_width, context) {
                y += super::blanks::draw_row(strip, &row, places.text, y, body, context);
            }
            return y;
        }
    };
    let lines = limited(&said, Setting::new(context.small(), places.text_width), 12, context);
    lines.draw(strip, places.text, y, Owner::Node(body), context)
}

fn joined(mut text: Text, more: &Text) -> Text {
    text.spans.extend(more.spans.iter().cloned());
    text
}

/// Lines from `from` on, in pieces that fit a page.
fn rest(lines: &Lines, from: usize, x: f64, body: NodeId, context: &Context) -> Vec<Piece> {
    (from..lines.count())
        .step_by(8)
        .map(|start| {
            let mut strip = Strip::new();
            let part = lines.part(start, start + 8);
            let height = part.draw(&mut strip, x, 0.0, Owner::Node(body), context);
            Piece::new(strip, height)
        })
        .collect()
}

/// Draws "done when" with its limits or its blank; returns where it ends.
fn draw_done(
    action: &Action,
    done: &Lines,
    places: &Places,
    (top, line): (f64, f64),
    body: NodeId,
    strip: &mut Strip,
    context: &Context,
) -> f64 {
    let owner = Owner::Node(body);
    let small = done.setting().line();
    let baseline = Setting::new(context.large(), 1.0).leading(1.3).baseline();
    // Words in 11 pt stand on the baseline of the action.
    let shift = baseline - Setting::new(context.small(), 1.0).baseline();
    let mut end = done.draw(strip, places.what, top + shift, owner, context).max(top + small);
    let figure = |words: &str, right: f64, strip: &mut Strip| {
        let words = if words.trim().is_empty() { "–" } else { words };
        let room = places.width * 0.5;
        let setting = Setting::new(context.large(), room).leading(1.3).align(Align::Right);
        limited(&words.into(), setting, 1, context).draw(strip, right - room, top, owner, context);
    };
    match &action.done {
        DoneWhen::State(_) => {
            figure("", places.low_right, strip);
            figure("", places.high_right, strip);
        }
        DoneWhen::Limits { low, high, unit, .. } => {
            figure(low, places.low_right, strip);
            figure(high, places.high_right, strip);
            let setting = Setting::new(context.small(), places.width - places.unit + 0.1);
            let lines = limited(&unit.as_str().into(), setting, 1, context);
            lines.draw(strip, places.unit, top + shift, owner, context);
            // Under the limits, beside what is measured.
            let room = places.width - places.what - places.what_width - 1.0;
            let setting = Setting::new(context.small(), room).align(Align::Right);
            let also = limited(&action.also, setting, 3, context);
            if also.count() > 0 {
                let under = also.draw(strip, places.width - room, top + line, owner, context);
                end = end.max(under);
            }
        }
        DoneWhen::Blank(blank) => {
            let unit = limited(
                &blank.unit.as_str().into(),
                Setting::new(context.small(), 20.0),
                1,
                context,
            );
            let after = if unit.count() > 0 { unit.width() + 1.2 } else { 0.0 };
            let left = places.what + done.setting().width + 2.0;
            let area = Rect::new(left, top, (places.width - left - after).max(10.0), 10.0);
            write_box(strip, area, &blank.label.plain(), body, context);
            if unit.count() > 0 {
                let down = area.y + (area.height - unit.height()) / 2.0;
                unit.draw(strip, area.right() + 1.2, down, owner, context);
            }
            end = end.max(area.bottom());
        }
    }
    end.max(top + line)
}
