//! Drawings.
//!
//! A [`Scene`] is drawn in model millimetres, `x` to the right and **`y` up** as drawings have it. It
//! gets a place on a sheet and finds its own scale: the largest of ISO 5455 at which the drawing with
//! all its dimensions and labels fits. Lettering, arrowheads, marks and gaps are sizes on paper
//! and do not scale. Lines have widths of ISO 128-2 only.
//!
//! The words of a scene come in three ways: at a fixed place ([`Scene::words`]), as labels that look
//! for a free place near their point ([`Scene::label`]), and as dimensions that stack up outside the
//! drawing ([`Scene::dimension`], [`Scene::running`]).
//!
//! ```
//! use rungsheet::page::scene::{Line, Scene, Side};
//!
//! let mut plate = Scene::new("foot plate from above, four holes");
//! plate.rectangle((0.0, 0.0), (180.0, 90.0), Line::VISIBLE);
//! for (x, y, id) in [(30.0, 62.0, "H21"), (150.0, 62.0, "H22")] {
//!     plate.hole((x, y), 5.5, id);
//! }
//! plate.dimension(Side::Below, (0.0, 0.0), (180.0, 0.0), "180");
//! plate.datum((0.0, 0.0), "zero");
//! plate.view("from above, front at left");
//! ```

mod close;
mod crowd;
mod dimension;
mod drawings;
mod each_text;
mod fit;
mod hatch;
mod marks;
mod plate;
mod scale;
mod style;

use crate::page::context::Context;
use crate::page::model::{Image, NodeId, Rect};
use crate::page::strip::Strip;

pub(crate) use drawings::Drawings;
pub use scale::{Scale, ScaleChoice};
pub use style::{Fill, Lettering, Line, LineKind, Place, Side, Size, Style};

/// A place in a drawing, model mm, `y` up.
pub type At = (f64, f64);

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// What is to be seen, for those who can't see it.
    pub alt: String,
    /// How the scale is found.
    pub scale: ScaleChoice,
    /// Size of all lettering but the view's words.
    pub lettering: Lettering,
    /// Where it is seen from: "from above, front at left". The scale is added to it in print.
    view: Option<String>,
    scale_bar: bool,
    /// Whether lines are drawn however close they lie.
    every_line: bool,
    first_angle: bool,
    window: Option<(At, At)>,
    shapes: Vec<Shape>,
    notes: Vec<Note>,
    dimensions: Vec<dimension::Dimension>,
}

/// A piece of geometry, scaled with the model.
#[derive(Debug, Clone, PartialEq)]
enum Shape {
    Path { rings: Vec<Vec<Step>>, closed: bool, line: Option<Line>, fill: Option<Fill> },
    Circle { centre: At, radius: f64, line: Option<Line>, fill: Option<Fill> },
    Image { corner: At, size: (f64, f64), image: Image },
}

/// A step of a path: straight or curved.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Step {
    To(At),
    Curve(At, At, At),
}

/// Something of a size on paper at a point of the model.
#[derive(Debug, Clone, PartialEq)]
enum Note {
    Words { at: At, text: String, place: Place, style: Style },
    Label { at: At, text: String, bold: bool, clear: Clear, leader: bool },
    Hole { at: At, diameter: f64, sink: Option<f64> },
    Datum { at: At, words: String },
    Arrow { from: At, to: At, open: bool },
    Front { at: At, angle: f64 },
    Dot { at: At },
    Stamp { at: At, scene: Box<Scene> },
    Framed { at: At, text: String, round: bool },
    Keep { corner: At, size: (f64, f64) },
}

/// What a label has to stay clear of around its point.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Clear {
    /// A radius in the model, mm.
    Model(f64),
    /// Nothing but the point.
    Point,
    /// Nothing but the point, with a side that is tried first.
    Side(Side),
}

impl Scene {
    /// An empty drawing with the words that stand in for it.
    pub fn new(alt: impl Into<String>) -> Self {
        Self {
            alt: alt.into(),
            scale: ScaleChoice::Fit { largest: Scale::new(2, 1) },
            lettering: Lettering::Large,
            view: None,
            scale_bar: false,
            every_line: false,
            first_angle: false,
            window: None,
            shapes: Vec::new(),
            notes: Vec::new(),
            dimensions: Vec::new(),
        }
    }

    /// A drawing that is not to scale; it says so in print.
    pub fn not_to_scale(alt: impl Into<String>) -> Self {
        Self { scale: ScaleChoice::NotToScale, ..Self::new(alt) }
    }

    /// A drawing at just this scale, such as a template at 1:1.
    pub fn at_scale(alt: impl Into<String>, scale: Scale) -> Self {
        Self { scale: ScaleChoice::Fixed(scale), ..Self::new(alt) }
    }

    /// A sign or small picture without words, drawn at its own size: a part of a table or a stamp.
    pub fn small(alt: impl Into<String>) -> Self {
        Self { scale: ScaleChoice::Fixed(Scale::FULL), ..Self::new(alt) }
    }

    /// Words that say where it is seen from, printed under it with the scale and a scale bar.
    pub fn view(&mut self, words: impl Into<String>) {
        self.view = Some(words.into());
        self.scale_bar = true;
    }

    /// Words under it as in [`Scene::view`], without a scale bar (one serves several views).
    pub fn view_without_bar(&mut self, words: impl Into<String>) {
        self.view = Some(words.into());
        self.scale_bar = false;
    }

    /// Draws every line however close to another it lies, as a template tells its lines to the tenth.
    /// Other drawings draw two lines that paper can't tell apart as one.
    pub fn every_line(&mut self) {
        self.every_line = true;
    }

    /// Adds the symbol of first angle projection beside the view's words (ISO 5456-2).
    pub fn first_angle(&mut self) {
        self.first_angle = true;
    }

    /// Shows only what lies between two corners of the model: one tile of a large template.
    pub fn window(&mut self, low: At, high: At) {
        self.window = Some((low, high));
    }

    /// An open line through points.
    pub fn line(&mut self, points: &[At], line: Line) {
        let ring = points.iter().map(|p| Step::To(*p)).collect();
        self.shapes.push(Shape::Path {
            rings: vec![ring],
            closed: false,
            line: Some(line),
            fill: None,
        });
    }

    /// A closed line through points.
    pub fn outline(&mut self, points: &[At], line: Line) {
        self.area(&[points.to_vec()], None, Some(line));
    }

    /// An area inside rings, holes by the even-odd rule, with an edge if `line` is given.
    pub fn area(&mut self, rings: &[Vec<At>], fill: Option<Fill>, line: Option<Line>) {
        let rings = rings.iter().map(|r| r.iter().map(|p| Step::To(*p)).collect()).collect();
        self.shapes.push(Shape::Path { rings, closed: true, line, fill });
    }

    /// A rectangle by its low corner and its size.
    pub fn rectangle(&mut self, corner: At, size: (f64, f64), line: Line) {
        self.outline(&corners(corner, size), line);
    }

    /// A filled rectangle by its low corner and its size.
    pub fn filled_rectangle(
        &mut self,
        corner: At,
        size: (f64, f64),
        fill: Fill,
        line: Option<Line>,
    ) {
        self.area(&[corners(corner, size).to_vec()], Some(fill), line);
    }

    /// A rectangle with round corners.
    pub fn rounded(&mut self, corner: At, size: (f64, f64), radius: f64, line: Line) {
        let r = radius.clamp(0.0, size.0.abs().min(size.1.abs()) / 2.0);
        let k = r * (1.0 - crate::page::draw::QUARTER);
        let (x0, y0, x1, y1) = (corner.0, corner.1, corner.0 + size.0, corner.1 + size.1);
        let ring = vec![
            Step::To((x0 + r, y0)),
            Step::To((x1 - r, y0)),
            Step::Curve((x1 - k, y0), (x1, y0 + k), (x1, y0 + r)),
            Step::To((x1, y1 - r)),
            Step::Curve((x1, y1 - k), (x1 - k, y1), (x1 - r, y1)),
            Step::To((x0 + r, y1)),
            Step::Curve((x0 + k, y1), (x0, y1 - k), (x0, y1 - r)),
            Step::To((x0, y0 + r)),
            Step::Curve((x0, y0 + k), (x0 + k, y0), (x0 + r, y0)),
        ];
        self.shapes.push(Shape::Path {
            rings: vec![ring],
            closed: true,
            line: Some(line),
            fill: None,
        });
    }

    /// A circle.
    pub fn circle(&mut self, centre: At, radius: f64, line: Line) {
        self.shapes.push(Shape::Circle { centre, radius, line: Some(line), fill: None });
    }

    /// A filled circle.
    pub fn disc(&mut self, centre: At, radius: f64, fill: Fill, line: Option<Line>) {
        self.shapes.push(Shape::Circle { centre, radius, line, fill: Some(fill) });
    }

    /// An arc from one direction to another, degrees anticlockwise from the right.
    pub fn arc(&mut self, centre: At, radius: f64, from: f64, to: f64, line: Line) {
        let ring = arc_steps(centre, radius, from, to);
        self.shapes.push(Shape::Path {
            rings: vec![ring],
            closed: false,
            line: Some(line),
            fill: None,
        });
    }

    /// A curve of cubic Bézier pieces: start, then two control points and an end for each.
    pub fn curve(&mut self, start: At, pieces: &[(At, At, At)], line: Line) {
        let mut ring = vec![Step::To(start)];
        ring.extend(pieces.iter().map(|(a, b, c)| Step::Curve(*a, *b, *c)));
        self.shapes.push(Shape::Path {
            rings: vec![ring],
            closed: false,
            line: Some(line),
            fill: None,
        });
    }

    /// A picture of pixels by its low corner and its size in the model; the image's own place is ignored.
    pub fn image(&mut self, corner: At, size: (f64, f64), image: Image) {
        self.shapes.push(Shape::Image { corner, size, image });
    }

    /// Words at a fixed place.
    pub fn words(&mut self, at: At, text: impl Into<String>, place: Place, style: Style) {
        self.notes.push(Note::Words { at, text: text.into(), place, style });
    }

    /// Bold words with their middle on a point: a part's mark inside it.
    pub fn name(&mut self, at: At, text: impl Into<String>) {
        self.words(at, text, Place::Centre, Style::BOLD);
    }

    /// Words that look for a free place near a point.
    pub fn label(&mut self, at: At, text: impl Into<String>) {
        let (text, clear) = (text.into(), Clear::Point);
        self.notes.push(Note::Label { at, text, bold: false, clear, leader: false });
    }

    /// Words near a point, on this side of it if they can be.
    pub fn label_on(&mut self, at: At, side: Side, text: impl Into<String>) {
        let (text, clear) = (text.into(), Clear::Side(side));
        self.notes.push(Note::Label { at, text, bold: false, clear, leader: false });
    }

    /// Words away from a point, joined to it by a leader that ends in a dot.
    pub fn leader(&mut self, at: At, text: impl Into<String>) {
        let (text, clear) = (text.into(), Clear::Point);
        self.notes.push(Note::Label { at, text, bold: false, clear, leader: true });
    }

    /// A hole: circle of its diameter, cross with an open middle, its id beside it.
    pub fn hole(&mut self, at: At, diameter: f64, id: impl Into<String>) {
        self.hole_mark(at, diameter);
        let (text, clear) = (id.into(), Clear::Model(diameter / 2.0));
        self.notes.push(Note::Label { at, text, bold: true, clear, leader: false });
    }

    /// The same with a countersink of another diameter, dashed if it is on the far side.
    pub fn sunk_hole(
        &mut self,
        at: At,
        diameter: f64,
        sink: f64,
        far: bool,
        id: impl Into<String>,
    ) {
        self.notes.push(Note::Hole { at, diameter, sink: Some(sink) });
        self.circle(at, sink / 2.0, if far { Line::HIDDEN } else { Line::THIN });
        let (text, clear) = (id.into(), Clear::Model(sink / 2.0));
        self.notes.push(Note::Label { at, text, bold: true, clear, leader: false });
    }

    /// A hole without an id: circle of its diameter and cross with an open middle.
    pub fn hole_mark(&mut self, at: At, diameter: f64) {
        self.notes.push(Note::Hole { at, diameter, sink: None });
    }

    /// The datum: a disc with two filled quarters, and words beside it ("zero").
    pub fn datum(&mut self, at: At, words: impl Into<String>) {
        self.notes.push(Note::Datum { at, words: words.into() });
    }

    /// An arrow from one point to another: axis, way of pressing, way of sliding.
    pub fn arrow(&mut self, from: At, to: At) {
        self.notes.push(Note::Arrow { from, to, open: false });
    }

    /// A broad outlined arrow for a force or a push.
    pub fn push_arrow(&mut self, from: At, to: At) {
        self.notes.push(Note::Arrow { from, to, open: true });
    }

    /// An arrow that points to the front of the thing, with the word; degrees anticlockwise from the right.
    pub fn front(&mut self, at: At, angle: f64) {
        self.notes.push(Note::Front { at, angle });
    }

    /// A small dot, where something touches or is measured.
    pub fn dot(&mut self, at: At) {
        self.notes.push(Note::Dot { at });
    }

    /// Another scene at its own size on paper with its middle on a point: a symbol.
    pub fn stamp(&mut self, at: At, scene: &Scene) {
        self.notes.push(Note::Stamp { at, scene: Box::new(scene.clone()) });
    }

    /// Words in a box as wide as they are, at any scale, over what was drawn before: a device of a
    /// diagram. Lines may run to its middle; it hides their ends.
    pub fn boxed(&mut self, at: At, text: impl Into<String>) {
        self.notes.push(Note::Framed { at, text: text.into(), round: false });
    }

    /// A number in a circle large enough for it, over what was drawn before.
    pub fn ringed(&mut self, at: At, text: impl Into<String>) {
        self.notes.push(Note::Framed { at, text: text.into(), round: true });
    }

    /// Keeps labels out of a rectangle of the model.
    pub fn keep_clear(&mut self, corner: At, size: (f64, f64)) {
        self.notes.push(Note::Keep { corner, size });
    }

    /// A linear dimension between two points, measured along the side's direction (level for above
    /// and below, upright for left and right), outside the drawing on that side. `text` is printed as
    /// it is given.
    pub fn dimension(&mut self, side: Side, from: At, to: At, text: impl Into<String>) {
        let text = text.into();
        self.dimensions.push(dimension::Dimension::Linear { side, from, to, text });
    }

    /// A dimension along the line between two points, `offset` mm on paper to its left (seen from
    /// the first point); negative is to its right.
    pub fn aligned(&mut self, from: At, to: At, offset: f64, text: impl Into<String>) {
        let text = text.into();
        self.dimensions.push(dimension::Dimension::Aligned { from, to, offset, text });
    }

    /// Running dimensions from a common zero, outside the drawing on one side: the zero is marked by a
    /// small circle (ISO 129-1), each place by an arrowhead and its value.
    pub fn running(&mut self, side: Side, zero: At, places: &[(At, String)]) {
        let places = places.to_vec();
        self.dimensions.push(dimension::Dimension::Running { side, zero, places });
    }

    /// The diameter of a circle, with a leader in a direction (degrees).
    pub fn diameter(&mut self, centre: At, diameter: f64, angle: f64, text: impl Into<String>) {
        let text = text.into();
        self.dimensions.push(dimension::Dimension::Round {
            centre,
            radius: diameter / 2.0,
            angle,
            inside: false,
            text,
        });
    }

    /// The radius of an arc, with a leader from within to the arc's point in a direction (degrees from
    /// its centre).
    pub fn radius(&mut self, centre: At, radius: f64, angle: f64, text: impl Into<String>) {
        let text = text.into();
        let inside = true;
        self.dimensions.push(dimension::Dimension::Round { centre, radius, angle, inside, text });
    }

    /// An angle between two directions (degrees) about a vertex, on an arc of `radius` mm on paper.
    pub fn angle(&mut self, vertex: At, from: f64, to: f64, radius: f64, text: impl Into<String>) {
        let text = text.into();
        self.dimensions.push(dimension::Dimension::Angle { vertex, from, to, radius, text });
    }

    /// Width and height of the geometry (or of the window on it) in the model, mm.
    fn extent(&self) -> (f64, f64) {
        let mut low = (f64::INFINITY, f64::INFINITY);
        let mut high = (f64::NEG_INFINITY, f64::NEG_INFINITY);
        let mut take = |(x, y): At| {
            if x.is_finite() && y.is_finite() {
                low = (low.0.min(x), low.1.min(y));
                high = (high.0.max(x), high.1.max(y));
            }
        };
        if let Some((a, b)) = self.window {
            take(a);
            take(b);
        } else {
            for shape in &self.shapes {
                match shape {
                    Shape::Path { rings, .. } => {
                        for step in rings.iter().flatten() {
                            // Control points may lie outside the curve, so they do not count.
                            let (Step::To(p) | Step::Curve(_, _, p)) = step;
                            take(*p);
                        }
                    }
                    Shape::Circle { centre, radius, .. } => {
                        take((centre.0 - radius, centre.1 - radius));
                        take((centre.0 + radius, centre.1 + radius));
                    }
                    Shape::Image { corner, size, .. } => {
                        take(*corner);
                        take((corner.0 + size.0, corner.1 + size.1));
                    }
                }
            }
        }
        ((high.0 - low.0).max(0.0), (high.1 - low.1).max(0.0))
    }

    /// Width and height on paper, mm, of a scene drawn at its own size.
    pub(crate) fn small_size(&self, context: &Context) -> (f64, f64) {
        fit::small(self, context)
    }
}

fn corners((x, y): At, (w, h): (f64, f64)) -> [At; 4] {
    [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
}

/// An arc as cubic pieces of a quarter turn or less.
fn arc_steps(centre: At, radius: f64, from: f64, to: f64) -> Vec<Step> {
    let whole = (to - from).clamp(-360.0, 360.0);
    let count = ((whole.abs() / 90.0).ceil() as usize).clamp(1, 4);
    let step = (whole / count as f64).to_radians();
    let k = 4.0 / 3.0 * (step / 4.0).tan() * radius;
    let at = |a: f64| (centre.0 + radius * a.cos(), centre.1 + radius * a.sin());
    let mut a = from.to_radians();
    let mut steps = vec![Step::To(at(a))];
    for _ in 0..count {
        let b = a + step;
        let (p, q) = (at(a), at(b));
        steps.push(Step::Curve(
            (p.0 - k * a.sin(), p.1 + k * a.cos()),
            (q.0 + k * b.sin(), q.1 - k * b.cos()),
            q,
        ));
        a = b;
    }
    steps
}

/// Draws a scene in a place of the given width and greatest height, at its left edge or in its middle,
/// from the strip's top; returns the height that it takes.
pub(crate) fn draw_in(
    scene: &Scene,
    place: (f64, f64, bool),
    strip: &mut Strip,
    parent: NodeId,
    context: &Context,
) -> f64 {
    fit::draw(scene, place, strip, parent, context)
}

/// Draws a scene at its own size in the middle of an area.
pub(crate) fn draw_small(
    scene: &Scene,
    area: Rect,
    strip: &mut Strip,
    parent: NodeId,
    context: &Context,
) {
    fit::draw_small(scene, area, strip, parent, context);
}
