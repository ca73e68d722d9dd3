//! The writers, read back by other means than they were written.

mod pdf;
mod png;
pub mod readback;
mod recover;
mod sample;
mod svg;
