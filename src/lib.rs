//! rungsheet turns one build file into a printed work package.
pub mod build;
pub mod cli;
pub mod compute;
pub mod derive;
pub mod findings;
pub mod geometry;
pub mod page;
pub mod paper;
pub mod read;
pub mod sheets;
pub mod source;
pub mod tables;
pub mod terminal;
pub mod tongue;
pub mod units;
