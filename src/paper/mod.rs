//! Finished pages written out: a PDF for print and keeping, SVG and PNG for looking at.
//!
//! Takes [`crate::page::model`] and gives bytes; knows nothing of vehicles, sheets or layout, and
//! touches no file. Each writer is a pure function: equal pages give equal bytes.
//!
//! [`recover()`] goes the other way for one thing only, the build file that travels inside a packet.

mod fault;
mod pdf;
mod picture;
mod png;
mod recover;
mod svg;
mod zlib;

pub use fault::Fault;
pub use pdf::pdf;
pub use png::png_page;
pub use recover::{Recovered, recover};
pub use svg::{svg_drawing, svg_page};
