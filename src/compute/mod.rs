//! Computing stages: work in, results out.
pub mod cutting;
pub mod planning;
