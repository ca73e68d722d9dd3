//! Why no plan can be made.

use std::fmt;

use super::problem::MOST_TASKS;

/// Why no plan can be made. Tasks, lags and windows are named by their index in the problem.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// More tasks than [`MOST_TASKS`].
    TooManyTasks {
        /// How many there are.
        tasks: usize,
    },
    /// A lag names a task that is not there.
    NoSuchTask {
        /// The lag.
        lag: usize,
    },
    /// A time, duration or lag is beyond [`super::problem::FARTHEST_MINUTE`].
    Overflow,
    /// A task's duration is negative.
    NegativeMinutes {
        /// The task.
        task: usize,
    },
    /// A lag is negative.
    NegativeLag {
        /// The lag.
        lag: usize,
    },
    /// A window of the calendar ends at or before its start.
    EmptyWindow {
        /// The window.
        window: usize,
    },
    /// Two windows of the calendar overlap.
    OverlappingWindows {
        /// The earlier window.
        first: usize,
        /// The later window.
        second: usize,
    },
    /// These tasks wait for each other, each for the one before it, the first for the last.
    Circle {
        /// The tasks in order.
        tasks: Vec<usize>,
    },
    /// There are no working hours, but attended work.
    NoHours,
    /// A task needs more people than any window has.
    CrewTooLarge {
        /// The task.
        task: usize,
        /// Most people in any window.
        most: u32,
    },
    /// A task is longer than any window with enough people.
    LongerThanWindow {
        /// The task.
        task: usize,
        /// Longest such window, minutes.
        longest: i64,
    },
    /// A task is longer than any of its allowed windows.
    LongerThanAllowed {
        /// The task.
        task: usize,
        /// Longest allowed window, minutes; 0 when there is none.
        longest: i64,
    },
    /// The working hours, the task's allowed windows and its appointment have no start in common
    /// within the calendar.
    NoCommonWindow {
        /// The task.
        task: usize,
    },
    /// These tasks cannot all be finished by their latest finish, or kept to their appointment
    /// (proven). None can be left out of the proof.
    LatestFinish {
        /// The tasks.
        tasks: Vec<usize>,
    },
    /// The calendar ends before the work does; add days with [`super::repeat_days`].
    CalendarTooShort {
        /// A task for which nothing is left, where one can be told.
        task: Option<usize>,
    },
    /// The limit was reached with neither a plan nor a proof that there is none.
    LimitReached,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooManyTasks { tasks } => {
                write!(f, "{tasks} tasks are more than the {MOST_TASKS} that can be planned")
            }
            Self::NoSuchTask { lag } => write!(f, "lag {lag} names a task that is not there"),
            Self::Overflow => write!(f, "a time is too far away to be counted"),
            Self::NegativeMinutes { task } => write!(f, "task {task} has negative minutes"),
            Self::NegativeLag { lag } => {
                write!(f, "lag {lag} leads to before the start of its first task")
            }
            Self::EmptyWindow { window } => write!(f, "window {window} ends before it starts"),
            Self::OverlappingWindows { first, second } => {
                write!(f, "windows {first} and {second} overlap")
            }
            Self::Circle { tasks } => write!(f, "tasks {tasks:?} wait for each other in a circle"),
            Self::NoHours => write!(f, "there are no working hours"),
            Self::CrewTooLarge { task, most } => {
                write!(f, "task {task} needs more than the {most} people of the largest crew")
            }
            Self::LongerThanWindow { task, longest } => write!(
                f,
                "task {task} is longer than {longest} min, the longest window with enough people"
            ),
            Self::LongerThanAllowed { task, longest } => {
                write!(f, "task {task} is longer than {longest} min, its longest allowed window")
            }
            Self::NoCommonWindow { task } => write!(
                f,
                "task {task} finds no start in the working hours that its own windows allow"
            ),
            Self::LatestFinish { tasks } => {
                write!(
                    f,
                    "tasks {tasks:?} cannot be finished by their latest finish or appointment"
                )
            }
            Self::CalendarTooShort { task: Some(task) } => {
                write!(f, "the calendar ends before task {task} can be done")
            }
            Self::CalendarTooShort { task: None } => {
                write!(f, "the calendar ends before the work does")
            }
            Self::LimitReached => write!(f, "no plan was found within the limit"),
        }
    }
}

impl std::error::Error for Fault {}
