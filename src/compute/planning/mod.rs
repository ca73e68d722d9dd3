//! Exact planning of work.
