//! rungsheet turns one build file into a printed work package.
pub mod units;
pub mod geometry;
pub mod source;
pub mod tables;
pub mod build;
pub mod read;
pub mod derive;
pub mod compute;
pub mod findings;
pub mod page;
pub mod sheets;
pub mod paper;
pub mod terminal;
pub mod cli;
