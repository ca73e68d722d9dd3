//! Build files that a stage must refuse, by the stage, each with exactly what the user sees.

mod mutations;
mod read;
mod whole;
