//! From what the reader wrote to the work itself: places, parts, holes, fastenings and bonds.
//!
//! `derive` takes a [`Build`](crate::build::Build) and gives a `Work` with what it found on
//! the way. Nothing here is judged against strength; only what cannot be built is a finding.
