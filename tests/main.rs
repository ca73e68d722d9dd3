//! One test program, linked once.
mod outside;
mod paper;
mod cutting;
