//! A step of the work, ready for its sheet and for planning.

use crate::source::Span;
use crate::units::Duration;

/// One step: what one sheet tells, fit to be handed over alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Number in the packet, from 1.
    pub number: u32,
    /// Name by which other steps and the build file point to it: "bond".
    pub key: String,
    /// Title, verb first, at most four words where it is one of ours.
    pub title: String,
    /// One line that says what it is for.
    pub purpose: String,
    /// People at once.
    pub people: u32,
    /// Work time, waiting apart.
    pub time: Duration,
    /// The part of that time which a second person may do at the same time.
    pub beside: Option<Beside>,
    /// Places that it is done at: "roof", "bench", "ladder", "inside".
    pub places: Vec<String>,
    /// Tools that it holds alone.
    pub tools: Vec<String>,
    /// Time that its faces dry before they are joined.
    pub dries: Option<Duration>,
    /// Time in which they must be joined after that.
    pub keeps: Option<Duration>,
    /// How long it rests before what waits for it, and before driving, where the builder says so.
    pub rest: Option<Duration>,
    /// Weather that it needs, in words; empty: any.
    pub weather: String,
    /// What to have ready.
    pub ready: Vec<Ready>,
    /// What is done, in order.
    pub lines: Vec<Line>,
    /// What must be done, and which cures must be over, before it starts.
    pub after: Vec<Need>,
    /// Marks of the parts that it is about.
    pub concerns: Vec<String>,
    /// Labels of the boxes to tick where a line is done on each of several things.
    pub works_on: Vec<String>,
    /// How the list goes round those things: "on one foot, then the next"; empty: line by line.
    pub round: String,
    /// What its drawing shows.
    pub view: View,
    /// How its list is used.
    pub mode: Mode,
    /// Kinds of other sheets that it leans on: "cut", "part", "bond", "wiring".
    pub see: Vec<String>,
    /// Place in the build file, for a step of the reader's own.
    pub span: Option<Span>,
}

impl Step {
    /// Its actions in order.
    pub fn actions(&self) -> impl Iterator<Item = &Action> {
        self.lines.iter().filter_map(|line| match line {
            Line::Action(action) => Some(action),
            _ => None,
        })
    }

    /// Whether somebody has to release it before it goes on.
    pub fn holds(&self) -> bool {
        self.lines.iter().any(|line| matches!(line, Line::Hold(_)))
    }

    /// The waits that end it.
    pub fn waits(&self) -> impl Iterator<Item = &Wait> {
        self.actions().filter_map(|action| action.wait.as_ref())
    }
}

/// What a second person may do beside the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Beside {
    /// What it is: "mark and punch".
    pub words: String,
    /// How long it takes.
    pub time: Duration,
    /// Whether it leads; otherwise it follows.
    pub leads: bool,
}

/// Something to have ready.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ready {
    /// What kind of thing it is.
    pub group: Group,
    /// What it is.
    pub what: String,
    /// How much, which marks, which size.
    pub amount: String,
}

/// Kinds of things to have ready, in the order in which they are told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Parts by mark.
    Part,
    /// What is used up.
    Stuff,
    /// Tools with their sizes.
    Tool,
    /// What protects people.
    Protective,
    /// Anything else.
    Other,
}

/// A line of a step.
#[derive(Debug, Clone, PartialEq)]
pub enum Line {
    /// Stop until a person releases it.
    Hold(Hold),
    /// A safety message, by key, about the next action.
    Caution(String),
    /// Something to do.
    Action(Action),
    /// Information only.
    Note(String),
}

/// A hold point: the conditions and what is written down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hold {
    /// What must be so.
    pub words: String,
    /// Label and unit of each value to write down.
    pub blanks: Vec<(String, String)>,
}

/// Something to do: one sentence of 20 words or fewer, a verb first.
#[derive(Debug, Clone, PartialEq)]
pub struct Action {
    /// Number in the packet; numbers run on through all steps.
    pub number: u32,
    /// Labels of its boxes, those of the step's things; empty: one plain box.
    pub boxes: Vec<String>,
    /// What to do.
    pub text: String,
    /// How to know that it is right.
    pub done: Option<Done>,
    /// A wait that begins with it.
    pub wait: Option<Wait>,
}

/// How to know that an action is right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Done {
    /// What is measured, or the state to be reached.
    pub words: String,
    /// Least value as printed; empty: a dash.
    pub low: String,
    /// Greatest value as printed; empty: a dash.
    pub high: String,
    /// Unit as printed.
    pub unit: String,
}

impl Done {
    /// Whether there is a limit to compare with.
    pub fn measured(&self) -> bool {
        !(self.low.is_empty() && self.high.is_empty())
    }
}

/// A wait: the cures that it waits for, and how long that is by the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Wait {
    /// What may be done afterwards.
    pub words: String,
    /// Cures that must be over.
    pub cures: Vec<Cure>,
    /// Air that the time holds for, in words.
    pub air: String,
    /// The longest of them by the plan; absent as long as none is worked out.
    pub time: Option<Duration>,
}

/// A step that must be done before, and cures that must be over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Need {
    /// Key of that step.
    pub key: String,
    /// Cures that run on after it; empty: none.
    pub cures: Vec<Cure>,
}

/// A state of a bond or seal to be waited for.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cure {
    /// Mark of the mount or entry.
    pub mark: String,
    /// How far it must have cured.
    pub state: CureState,
}

impl Cure {
    /// Name of the figure that holds the wait in hours: "cure.F1.load".
    pub fn figure(&self) -> String {
        format!("cure.{}.{}", self.mark.replace([' ', '\u{a0}'], "-"), self.state.name())
    }
}

/// How far a bond or seal must have cured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CureState {
    /// It may be left alone and touched.
    Handling,
    /// It may carry the frame.
    Load,
    /// It may be driven with.
    Drive,
    /// All of it is cured.
    Full,
}

impl CureState {
    /// All of them, the earliest first.
    pub const ALL: [Self; 4] = [Self::Handling, Self::Load, Self::Drive, Self::Full];

    /// As in names of figures.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Handling => "handling",
            Self::Load => "load",
            Self::Drive => "drive",
            Self::Full => "full",
        }
    }
}

/// How a list is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// Read one line, do it.
    ReadDo,
    /// Do all, then go through the list.
    DoConfirm,
}

/// What the drawing of a step shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// The roof from above, what the step is about drawn strong.
    Roof,
    /// Bars to scale with their pieces.
    Bars,
    /// Faces of the parts with their holes.
    DrilledParts,
    /// A foot from its end: plate, angle, screws.
    Foot,
    /// The frame from above with its diagonals.
    Frame,
    /// The frame with the places of the mounts.
    MountPlaces,
    /// Panels on the frame from below.
    Panels,
    /// A hinge on its rail, cut across.
    Hinge,
    /// A foot on the skin, cut across, with tape and bead.
    Bond,
    /// The hole through the skin, cut across.
    Entry,
    /// Source, controller, battery and what joins them.
    Wiring,
    /// The battery with blocks and straps.
    Battery,
    /// Mounts under the frame, cut across.
    Mounts,
    /// Where the fixtures sit: the roof from above or the rear door from behind.
    FixturePlaces,
    /// A fixture from the side, on its skin.
    Fixture,
    /// A prop off its tube.
    Prop,
    /// A draw latch off its bracket; without one the mounts.
    Latch,
    /// No drawing.
    Nothing,
}
