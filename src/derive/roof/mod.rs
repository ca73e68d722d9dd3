//! The measured roof as a surface.
//!
//! Takes gaps under a straightedge, a chord and its rise, or nothing (flat); gives height, slopes,
//! radius and the seat of a flat plate anywhere. Readings that no roof has are refused by
//! [`check_readings`] before anything is built on them.

mod readings;
mod seat;
mod surface;

pub use readings::check_readings;
pub use seat::Seat;
pub use surface::RoofSurface;
