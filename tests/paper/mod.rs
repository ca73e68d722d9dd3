//! The writers, read back by other means than they were written.

mod pdf;
mod recover;
mod sample;
