//! Sheets laid out on pages.
//!
//! [`model`] holds the finished pages that the writers draw; [`fonts`] the embedded faces.
mod faults;
pub mod fonts;
pub mod model;
