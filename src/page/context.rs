//! What every block needs while it is laid out.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::model::Node;
use super::scene::Drawings;
use super::tags::Tags;
use super::text::Shaper;
use super::voice::Voice;

/// Something that could not be laid out as asked. The pages are sound all the same.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// Anchor of the sheet.
    pub sheet: String,
    /// What kind of thing went wrong.
    pub kind: ProblemKind,
    /// What it is about, in words.
    pub about: String,
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { sheet, kind, about } = self;
        if !sheet.is_empty() {
            write!(f, "sheet {sheet}: ")?;
        }
        match kind {
            ProblemKind::TooLong => write!(f, "too long for its line, set in full below: {about}"),
            ProblemKind::MissingCharacter => write!(f, "no face has these signs: {about}"),
            ProblemKind::NoRoomForLabel => write!(f, "no room in the drawing for: {about}"),
            ProblemKind::NoScale => write!(f, "not to scale: {about}"),
            ProblemKind::TooLarge => write!(f, "larger than its place: {about}"),
            ProblemKind::UnknownAnchor => write!(f, "a link leads nowhere: {about}"),
            ProblemKind::DuplicateAnchor => write!(f, "two places have one name: {about}"),
            ProblemKind::Parted => write!(f, "parted over two pages: {about}"),
            ProblemKind::Unsettled => write!(f, "did not settle: {about}"),
        }
    }
}

/// Kinds of [`Problem`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ProblemKind {
    /// A title or line was too long for its place; it was cut there and set in full below.
    TooLong,
    /// Characters that no embedded face has were printed as `?`.
    MissingCharacter,
    /// A label found no free place in a drawing and was left out.
    NoRoomForLabel,
    /// A drawing fits its place at no scale of the list and is not to scale.
    NoScale,
    /// A drawing is larger than its place and was cut off.
    TooLarge,
    /// A link or page number names an anchor that is nowhere.
    UnknownAnchor,
    /// Two places have the same anchor; the first is used.
    DuplicateAnchor,
    /// An action or table row was too tall for a page and was parted.
    Parted,
    /// Page numbers inside texts did not settle.
    Unsettled,
}

/// Pages of the anchors, as known from the pass before: first and last page, from 1.
pub(crate) type PageMap = BTreeMap<String, (usize, usize)>;

/// What is noted of drawings as they are set.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Drawn {
    /// Sum of their scales.
    pub scale: f64,
    /// Height of the tallest, mm.
    pub height: f64,
    /// Words that heavy lines run through.
    pub struck: usize,
}

/// How a sheet is set. It is kept: page numbers are too short to change it, and finding it is most of the
/// work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Way {
    /// Number of the way of its choices.
    pub choice: usize,
    /// Greatest height of the drawings in it, mm.
    pub limit: f64,
    /// Part of their greatest height that drawings take, and on how many pages that is known to be the best.
    pub share: (f64, usize),
    /// Rows of tables stand as close as their words and boxes allow, which saves a page.
    pub compact: bool,
}

/// What a context leaves behind.
pub(crate) struct Parts {
    pub nodes: Vec<Node>,
    pub problems: BTreeSet<Problem>,
    /// Anchors whose page numbers were asked for.
    pub asked: BTreeSet<String>,
    pub way: Option<Way>,
    pub drawings: Drawings,
}

/// State while a sheet is laid out.
pub(crate) struct Context {
    pub shaper: Arc<Shaper>,
    pub tags: Tags,
    pub pages: Arc<PageMap>,
    /// Says what the layout itself puts on paper.
    pub voice: Voice,
    /// Language by whose syllables long words are parted, if they are known.
    pub hyphens: Option<hypher::Lang>,
    /// Height of the content area of a page, mm.
    pub height: f64,
    problems: RefCell<BTreeSet<Problem>>,
    sheet: RefCell<String>,
    headed: Cell<bool>,
    asked: RefCell<BTreeSet<String>>,
    /// Part of their greatest height that drawings may take, so that a sheet fits its page.
    pub figure_share: Cell<f64>,
    /// Rows of tables stand as close as their words and boxes allow.
    pub compact: Cell<bool>,
    /// The way that the sheet is set in, if it was found before.
    pub known_way: Cell<Option<Way>>,
    /// Only heights count: nothing is put on paper.
    pub measuring: Cell<bool>,
    /// Drawings of the sheet that are finished.
    pub drawings: Drawings,
    figures: Cell<bool>,
    /// Which way of a [`super::block::Block::Choice`] is laid out, and the greatest height of its
    /// drawings, mm.
    pub way: Cell<(usize, f64)>,
    /// Greatest height of drawings here, mm.
    pub figure_limit: Cell<f64>,
    /// Drawings since the last time of asking.
    drawn: Cell<Drawn>,
    /// Whether a pocket booklet is laid out, in smaller type.
    pub pocket: Cell<bool>,
}

impl Context {
    pub fn new(shaper: Arc<Shaper>, pages: Arc<PageMap>, voice: Voice, height: f64) -> Self {
        Self {
            shaper,
            tags: Tags::new(),
            pages,
            voice,
            hyphens: None,
            height,
            problems: RefCell::default(),
            sheet: RefCell::default(),
            headed: Cell::new(false),
            asked: RefCell::default(),
            figure_share: Cell::new(1.0),
            figures: Cell::new(false),
            compact: Cell::new(false),
            known_way: Cell::new(None),
            measuring: Cell::new(false),
            drawings: Drawings::default(),
            way: Cell::new((0, f64::INFINITY)),
            figure_limit: Cell::new(f64::INFINITY),
            drawn: Cell::default(),
            pocket: Cell::new(false),
        }
    }

    /// Names the sheet that problems are about from now on.
    pub fn enter(&self, sheet: &str) {
        sheet.clone_into(&mut self.sheet.borrow_mut());
        self.headed.set(false);
    }

    /// Size of notes, tables and captions, points (page rules 2 and 4).
    pub fn small(&self) -> f64 {
        if self.pocket.get() { 10.0 } else { 11.0 }
    }

    /// Size of actions, headings and signal words, points.
    pub fn large(&self) -> f64 {
        if self.pocket.get() { 12.0 } else { 14.0 }
    }

    /// Size of a headline number, points.
    pub fn headline(&self) -> f64 {
        if self.pocket.get() { 18.0 } else { 28.0 }
    }

    /// Notes that a drawing could be made smaller.
    pub fn note_figure(&self) {
        self.figures.set(true);
    }

    /// Whether any drawing could be made smaller since the last time of asking.
    pub fn take_figures(&self) -> bool {
        self.figures.replace(false)
    }

    /// Notes the scale and the height that a drawing was set at, and the words in it that lines run
    /// through.
    pub fn note_drawing(&self, factor: f64, height: f64, struck: usize) {
        let before = self.drawn.get();
        self.drawn.set(Drawn {
            scale: before.scale + factor,
            height: before.height.max(height),
            struck: before.struck + struck,
        });
    }

    /// What was noted of drawings since the last time of asking.
    pub fn take_drawing(&self) -> Drawn {
        self.drawn.take()
    }

    /// Problems as they stand, to go back to with [`Context::restore`].
    pub fn snapshot(&self) -> (BTreeSet<Problem>, usize) {
        (self.problems.borrow().clone(), self.tags.count())
    }

    /// Forgets problems and tags made since a snapshot.
    pub fn restore(&self, (problems, tags): &(BTreeSet<Problem>, usize)) {
        problems.clone_into(&mut self.problems.borrow_mut());
        self.tags.truncate(*tags);
        self.headed.set(false);
    }

    /// Whether the sheet has had a heading of level 2, so that one of level 3 may follow.
    pub fn headed(&self) -> bool {
        self.headed.get()
    }

    pub fn set_headed(&self) {
        self.headed.set(true);
    }

    pub fn problem(&self, kind: ProblemKind, about: impl Into<String>) {
        let sheet = self.sheet.borrow().clone();
        let mut about = about.into();
        if about.chars().count() > 120 {
            about = about.chars().take(120).chain(['…']).collect();
        }
        self.problems.borrow_mut().insert(Problem { sheet, kind, about });
    }

    pub fn problems(&self) -> Vec<Problem> {
        self.problems.borrow().iter().cloned().collect()
    }

    /// Adds problems of a sheet.
    pub fn take_in(&self, problems: BTreeSet<Problem>) {
        self.problems.borrow_mut().extend(problems);
    }

    /// What is known of the sheet beside its pages.
    pub fn into_parts(self) -> Parts {
        Parts {
            nodes: self.tags.into_nodes(),
            problems: self.problems.into_inner(),
            asked: self.asked.into_inner(),
            way: self.known_way.get(),
            drawings: self.drawings,
        }
    }

    /// A text of the layout's own, as it is printed.
    pub fn say(&self, text: impl Into<String>) -> String {
        self.voice.say(text)
    }

    /// The page number of an anchor in words; a dash while it is not yet known.
    pub fn page_of(&self, anchor: &str) -> String {
        self.asked.borrow_mut().insert(anchor.to_owned());
        match self.pages.get(anchor) {
            Some((first, _)) => first.to_string(),
            None => self.unknown(anchor),
        }
    }

    fn unknown(&self, anchor: &str) -> String {
        if !self.pages.is_empty() {
            self.problem(ProblemKind::UnknownAnchor, anchor);
        }
        "–".into()
    }

    /// The pages of several sheets in words: `7, 8` or `15 to 25`.
    pub fn pages_of(&self, anchors: &[String]) -> String {
        self.asked.borrow_mut().extend(anchors.iter().cloned());
        let mut pages = BTreeSet::new();
        for anchor in anchors {
            match self.pages.get(anchor) {
                Some(&(first, last)) => pages.extend(first..=last),
                None => {
                    self.unknown(anchor);
                }
            }
        }
        let pages: Vec<usize> = pages.into_iter().collect();
        let mut parts: Vec<String> = Vec::new();
        for run in pages.chunk_by(|a, b| a + 1 == *b) {
            match run {
                [] => {}
                [one] => parts.push(one.to_string()),
                [one, two] => parts.extend([one.to_string(), two.to_string()]),
                [first, .., last] => parts.push(self.say(format!("{first} to {last}"))),
            }
        }
        if parts.is_empty() { "–".into() } else { parts.join(", ") }
    }
}
