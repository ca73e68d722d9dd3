//! One test program, linked once.
mod cutting;
mod outside;
mod page;
mod paper;
mod planning;
