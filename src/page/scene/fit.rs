//! A scene to its place: scale, words of the view, scale bar.

use super::drawings::Drawing;
use super::plate::Plate;
use super::{Line, Scale, ScaleChoice, Scene};
use crate::page::context::{Context, ProblemKind};
use crate::page::draw::{circle, line, polygon, rectangle};
use crate::page::fonts::FaceId;
use crate::page::model::{Ink, Item, NodeId, Pen, Point, Rect};
use crate::page::strip::{Owner, Strip, moved};
use crate::page::text::{MM, Setting, length, set, single, thousands};
use std::borrow::Cow;

/// Gap between a drawing and the words under it, mm.
const FOOT_GAP: f64 = 2.0;

/// Draws a scene in a width and a greatest height; returns the height taken.
pub(super) fn draw(
    scene: &Scene,
    (width, height, at_left): (f64, f64, bool),
    strip: &mut Strip,
    parent: NodeId,
    context: &Context,
) -> f64 {
    let foot = foot_height(scene, width, context);
    let room = (width, (height - foot).max(1.0));
    let draw = || finish(scene, room, context);
    context.drawings.with(scene, room, draw, |drawing| {
        let place = (width, room.1, foot, at_left);
        put(scene, drawing, place, strip, parent, context)
    })
}

/// A drawing on its place; returns the height taken.
fn put(
    scene: &Scene,
    drawing: Cow<Drawing>,
    (width, most, foot, at_left): (f64, f64, f64, bool),
    strip: &mut Strip,
    parent: NodeId,
    context: &Context,
) -> f64 {
    let (bounds, scale) = (drawing.bounds, drawing.scale);
    for words in &drawing.unplaced {
        context.problem(ProblemKind::NoRoomForLabel, words);
    }
    if drawing.no_scale {
        context.problem(ProblemKind::NoScale, &scene.alt);
    }
    if !drawing.fits {
        context.problem(ProblemKind::TooLarge, &scene.alt);
    }
    let shown = (bounds.width.min(width), bounds.height.min(most));
    let mut y = shown.1;
    context.note_drawing(drawing.factor, y + foot.max(0.0), drawing.struck);
    let node = context.tags.figure(parent, &alt(scene, scale, context));
    let owner = Owner::Node(node);
    if !context.measuring.get() {
        let left = if at_left { 0.0 } else { (width - shown.0) / 2.0 };
        let (dx, dy) = (left - bounds.x, -bounds.y);
        let fits = drawing.fits;
        let items = match drawing {
            Cow::Owned(drawing) => drawing.items,
            Cow::Borrowed(drawing) => drawing.items.clone(),
        };
        let items = items.into_iter().map(|item| moved(item, dx, dy));
        if fits {
            strip.items.extend(items.map(|item| (owner, item)));
        } else {
            let window = Rect::new(left, 0.0, shown.0, shown.1);
            let items = cut_off(items.collect(), window, context);
            strip.items.extend(items.into_iter().map(|item| (owner, item)));
        }
    }
    if foot > 0.0 {
        draw_foot(scene, scale, (width, y + FOOT_GAP), strip, owner, context);
        y += foot;
    }
    strip.figure(node, Rect::new(0.0, 0.0, width, y));
    y
}

/// The scene as it is drawn in a room.
fn finish(scene: &Scene, room: (f64, f64), context: &Context) -> Drawing {
    let (plate, scale, fits) = choose(scene, room, context);
    let asked = matches!(scene.scale, ScaleChoice::Fit { .. });
    Drawing {
        bounds: plate.bounds.unwrap_or_default(),
        factor: plate.factor,
        // Words without a place are worse than words that a line runs through.
        struck: plate.struck + 2 * plate.unplaced.len(),
        unplaced: plate.unplaced,
        items: plate.items,
        no_scale: asked && scale.is_none(),
        scale,
        fits,
    }
}

/// What is seen through a window; windows in it are narrowed. Words that would be cut are left out.
fn cut_off(items: Vec<Item>, window: Rect, context: &Context) -> Vec<Item> {
    let mut plain = Vec::new();
    let mut out = Vec::new();
    for item in items {
        match item {
            Item::Clipped { window: own, items } => {
                let x = own.x.max(window.x);
                let y = own.y.max(window.y);
                let right = own.right().min(window.right());
                let bottom = own.bottom().min(window.bottom());
                if right > x && bottom > y {
                    out.push(Item::Clipped {
                        window: Rect::new(x, y, right - x, bottom - y),
                        items,
                    });
                }
            }
            Item::Glyphs(run) if !window.holds(&run.bounds(), 0.0) => {
                context.problem(ProblemKind::NoRoomForLabel, run.text);
            }
            item => plain.push(item),
        }
    }
    if !plain.is_empty() {
        out.push(Item::Clipped { window, items: plain });
    }
    out
}

/// The plate at the scale that is used, the scale (none if not to scale), and whether it fits.
fn choose<'a>(
    scene: &Scene,
    room: (f64, f64),
    context: &'a Context,
) -> (Plate<'a>, Option<Scale>, bool) {
    match scene.scale {
        ScaleChoice::Fixed(scale) => {
            if let Some(plate) = lay_within(scene, scale.factor(), (room, false), context) {
                return (plate, Some(scale), true);
            }
            let plate = lay(scene, scale.factor(), (Some(room), true), context);
            let sound = plate.fits(room);
            (plate, Some(scale), sound)
        }
        ScaleChoice::Fit { largest } => {
            // Words that are too long for any scale are left out before the drawing is given up.
            for strict in [false, true] {
                for scale in Scale::LIST {
                    if scale.factor() > largest.factor() + 1e-12
                        || !bare_fits(scene, scale.factor(), room)
                    {
                        continue;
                    }
                    let plate = lay_within(scene, scale.factor(), (room, strict), context);
                    if let Some(plate) = plate {
                        return (plate, Some(scale), true);
                    }
                }
            }
            free(scene, room, context)
        }
        ScaleChoice::NotToScale => free(scene, room, context),
    }
}

/// As large as the place allows, at no scale of the list.
fn free<'a>(
    scene: &Scene,
    room: (f64, f64),
    context: &'a Context,
) -> (Plate<'a>, Option<Scale>, bool) {
    let (width, height) = scene.extent();
    let start = (room.0 / width.max(1e-6)).min(room.1 / height.max(1e-6)).min(1e4);
    let mut factor = start;
    for turn in 0..16 {
        if turn == 8 {
            // Shrinking did not help: words are too long. Begin again and leave them out.
            factor = start;
        }
        let (plate, own) = lay_until_over(scene, factor, (room, turn > 7), context);
        if plate.fits(room) {
            return (plate, None, true);
        }
        // What is of a size on paper, such as words beside the drawing, does not shrink along: what is left
        // of the room is for the scene.
        let kept = |own: f64, room: f64, scene: f64| {
            if own <= room + 1e-6 {
                return f64::INFINITY;
            }
            let beside = own - scene * factor;
            (room - beside) / scene.max(1e-6) / factor
        };
        let shrunk = kept(own.0, room.0, width).min(kept(own.1, room.1, height));
        factor *= shrunk.clamp(0.5, 0.97);
    }
    let plate = lay(scene, factor, (Some(room), true), context);
    (plate, None, false)
}

/// Whether the geometry alone fits; a quick look that saves drawing at scales far too large.
fn bare_fits(scene: &Scene, factor: f64, room: (f64, f64)) -> bool {
    let (width, height) = scene.extent();
    width * factor <= room.0 + 1e-6 && height * factor <= room.1 + 1e-6
}

fn window(scene: &Scene, plate: &mut Plate) {
    plate.window = scene.window.map(|(low, high)| {
        let (a, b) = (plate.at(low), plate.at(high));
        Rect::new(a.x.min(b.x), a.y.min(b.y), (a.x - b.x).abs(), (a.y - b.y).abs())
    });
}

fn lay<'a>(
    scene: &Scene,
    factor: f64,
    (room, strict): (Option<(f64, f64)>, bool),
    context: &'a Context,
) -> Plate<'a> {
    let mut plate = Plate::new(context, factor, scene.lettering.size());
    plate.room = room;
    plate.strict = strict;
    for stage in STAGES {
        stage(&mut plate, scene);
    }
    plate
}

/// The same and its width and height; given up at the first stage that outgrows the room.
fn lay_until_over<'a>(
    scene: &Scene,
    factor: f64,
    (room, strict): ((f64, f64), bool),
    context: &'a Context,
) -> (Plate<'a>, (f64, f64)) {
    let mut plate = Plate::new(context, factor, scene.lettering.size());
    plate.room = Some(room);
    plate.strict = strict;
    let mut size = (0.0, 0.0);
    for stage in STAGES {
        stage(&mut plate, scene);
        let own = plate.bounds.unwrap_or_default();
        size = (own.width, own.height);
        if !plate.fits(room) {
            break;
        }
    }
    (plate, size)
}

/// The same if it stays within the room; what outgrows it is given up at once.
fn lay_within<'a>(
    scene: &Scene,
    factor: f64,
    (room, strict): ((f64, f64), bool),
    context: &'a Context,
) -> Option<Plate<'a>> {
    let mut plate = Plate::new(context, factor, scene.lettering.size());
    plate.room = Some(room);
    plate.strict = strict;
    let sound = STAGES.iter().all(|stage| {
        stage(&mut plate, scene);
        plate.fits(room)
    });
    sound.then_some(plate)
}

/// What is drawn one after the other: what comes later gives way to what stands there.
const STAGES: [fn(&mut Plate, &Scene); 4] = [
    |plate, scene| {
        plate.close_as_one = !scene.every_line;
        window(scene, plate);
        // Holes alone make a drawing too.
        let around = plate.geometry(&scene.shapes).unwrap_or_default();
        plate.dimensions(&scene.dimensions, around);
    },
    |plate, scene| plate.marks(&scene.notes),
    |plate, scene| plate.fixed_words(&scene.notes),
    |plate, scene| plate.labels(&scene.notes),
];

fn alt(scene: &Scene, scale: Option<Scale>, context: &Context) -> String {
    let mut words = crate::page::text::clean(&scene.alt);
    if let Some(view) = &scene.view {
        words = format!("{words}; {}", caption(view, scale, context));
    }
    if words.is_empty() { context.say("drawing") } else { words }
}

fn caption(view: &str, scale: Option<Scale>, context: &Context) -> String {
    let scale = scale
        .map_or_else(|| context.say("not to scale"), |s| format!("{} {s}", context.say("scale")));
    if view.trim().is_empty() { scale } else { format!("{view}, {scale}") }
}

const BAR: f64 = 1.6;

fn bar_wanted(scene: &Scene) -> bool {
    scene.scale_bar && scene.scale != ScaleChoice::NotToScale
}

/// How the words of the view, the symbol and the scale bar share the width: `words` mm for the words,
/// the bar beside them or, in a narrow column, under them.
struct Foot {
    words: f64,
    bar_beside: bool,
    bar_height: f64,
}

impl Foot {
    fn new(scene: &Scene, width: f64) -> Self {
        const BAR_ROOM: f64 = 66.0;
        let wanted = bar_wanted(scene);
        let symbol = if scene.first_angle { 16.0 } else { 0.0 };
        let bar_beside = wanted && width > BAR_ROOM * 1.6;
        let words = width - symbol - if bar_beside { BAR_ROOM } else { 0.0 };
        let bar_height = if wanted { BAR + 1.2 + scene.lettering.size() * MM } else { 0.0 };
        Self { words: words.max(width * 0.3), bar_beside, bar_height }
    }
}

fn foot_height(scene: &Scene, width: f64, context: &Context) -> f64 {
    let Some(view) = &scene.view else { return 0.0 };
    let foot = Foot::new(scene, width);
    // The widest scale there is, so that the height does not depend on the scale chosen.
    let words = format!("{view}, {} 1:1000", context.say("scale"));
    let lines = set(&words.into(), Setting::new(11.0, foot.words), context);
    let symbol = if scene.first_angle { 6.0 } else { 0.0 };
    let words = (lines.count().min(3) as f64 * lines.setting().line()).max(symbol);
    FOOT_GAP
        + if foot.bar_beside { words.max(foot.bar_height) } else { words + foot.bar_height + 0.8 }
}

fn draw_foot(
    scene: &Scene,
    scale: Option<Scale>,
    (width, y): (f64, f64),
    strip: &mut Strip,
    owner: Owner,
    context: &Context,
) {
    let Some(view) = &scene.view else { return };
    let foot = Foot::new(scene, width);
    let words = caption(view, scale, context);
    let lines = set(&words.into(), Setting::new(11.0, foot.words), context).cut(3, context);
    let mut under = lines.draw(strip, 0.0, y, owner, context);
    if scene.first_angle {
        let x = lines.width() + 4.0;
        first_angle(strip, Point::new(x, y + lines.setting().line() / 2.0), owner);
        under = under.max(y + 6.0);
    }
    if let (true, Some(scale)) = (bar_wanted(scene), scale) {
        let top = if foot.bar_beside { y + 0.8 } else { under + 0.8 };
        scale_bar(strip, (width, top), scale, scene.lettering.size(), owner, context);
    }
}

/// Symbol of first angle projection: the truncated cone from the side and, to its right, from its
/// small end (ISO 5456-2). `p` is the middle of its left edge.
fn first_angle(strip: &mut Strip, p: Point, owner: Owner) {
    let cone = [(0.0, -1.1), (4.4, -2.2), (4.4, 2.2), (0.0, 1.1)]
        .map(|(x, y)| Point::new(p.x + x, p.y + y));
    strip.path(owner, polygon(&cone, Some(Pen::W035), None));
    let c = Point::new(p.x + 8.4, p.y);
    for radius in [2.2, 1.1] {
        strip.path(owner, circle(c, radius, Some(Pen::W035), None));
    }
    for (a, b) in [((-1.0, 0.0), (11.6, 0.0)), ((8.4, -3.0), (8.4, 3.0))] {
        let mut path =
            line(Point::new(p.x + a.0, p.y + a.1), Point::new(p.x + b.0, p.y + b.1), Pen::W025);
        path.stroke = Some(Plate::stroke_of(Line::CENTRE));
        strip.path(owner, path);
    }
}

/// A divided bar of a round length of the model, at the right edge.
fn scale_bar(
    strip: &mut Strip,
    (width, y): (f64, f64),
    scale: Scale,
    size: f64,
    owner: Owner,
    context: &Context,
) {
    let most = 40.0_f64.min(width * 0.4) / scale.factor();
    let power = 10.0_f64.powf(most.log10().floor());
    let (lead, parts) = [(5.0, 5), (2.0, 4), (1.0, 5)]
        .into_iter()
        .find(|(n, _)| n * power <= most + 1e-9)
        .unwrap_or((1.0, 5));
    let real = lead * power;
    let long = real * scale.factor();
    let end = format!("{} mm", thousands(&trim(real)));
    let end_width = length(&end, size, false, &context.shaper);
    let number = thousands(&trim(real));
    let number_width = length(&number, size, false, &context.shaper);
    // The number's middle stands under the bar's end; its unit goes on to the right edge.
    let right = width - (end_width - number_width / 2.0);
    let left = right - long;
    for part in 0..parts {
        let piece = long / f64::from(parts);
        let area = Rect::new(left + f64::from(part) * piece, y, piece, BAR);
        let fill = if part % 2 == 0 { Ink::Black } else { Ink::White };
        strip.path(owner, rectangle(area, Some(Pen::W025), Some(fill)));
    }
    let baseline = y + BAR + 1.0 + FaceId::Regular.cap_height() * size * MM;
    let zero = length("0", size, false, &context.shaper);
    for (words, x) in [("0", left - zero / 2.0), (end.as_str(), right - number_width / 2.0)] {
        let at = Point::new(x, baseline);
        let (runs, _) = single(words, (size, false, Ink::Black), at, 0.0, &context.shaper);
        for run in runs {
            strip.push(owner, Item::Glyphs(run));
        }
    }
}

fn trim(value: f64) -> String {
    if value >= 1.0 { format!("{value:.0}") } else { format!("{value}") }
}

/// Size of a scene drawn at its own scale.
pub(super) fn small(scene: &Scene, context: &Context) -> (f64, f64) {
    let bounds = lay(scene, own_factor(scene), (None, false), context).bounds.unwrap_or_default();
    (bounds.width, bounds.height)
}

fn own_factor(scene: &Scene) -> f64 {
    match scene.scale {
        ScaleChoice::Fixed(scale) => scale.factor(),
        _ => 1.0,
    }
}

/// Draws a scene at its own size in the middle of an area, smaller if it must be.
pub(super) fn draw_small(
    scene: &Scene,
    area: Rect,
    strip: &mut Strip,
    parent: NodeId,
    context: &Context,
) {
    let mut plate = lay(scene, own_factor(scene), (None, false), context);
    let own = plate.bounds.unwrap_or_default();
    let over = (own.width / area.width.max(0.1)).max(own.height / area.height.max(0.1));
    if over > 1.0 + 1e-6 {
        plate = lay(scene, own_factor(scene) / over, (None, false), context);
    }
    let own = plate.bounds.unwrap_or_default();
    let node = context.tags.figure(parent, &alt(scene, None, context));
    let dx = area.x + (area.width - own.width) / 2.0 - own.x;
    let dy = area.y + (area.height - own.height) / 2.0 - own.y;
    let items: Vec<Item> = plate.items.into_iter().map(|i| moved(i, dx, dy)).collect();
    let fits = own.width <= area.width + 0.1 && own.height <= area.height + 0.1;
    let items = if fits { items } else { cut_off(items, area, context) };
    for item in items {
        strip.push(Owner::Node(node), item);
    }
    strip.figure(node, area);
}
