//! One test program, linked once.
mod paper;
