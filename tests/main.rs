//! One test program, linked once.
