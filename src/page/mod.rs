//! Sheets laid out on pages.
//!
//! [`model`] holds the finished pages that the writers draw; [`fonts`] the embedded faces.
pub mod block;
mod context;
mod draw;
mod faults;
pub mod fonts;
mod furniture;
mod lay_out;
pub mod model;
mod paginate;
pub mod scene;
mod sheet;
mod strip;
mod tags;
pub mod text;

pub use context::{Problem, ProblemKind};
pub use lay_out::lay_out;
pub use sheet::{Identity, JobStrip, Packet, Paper, Sheet, StripMark, Tab};
