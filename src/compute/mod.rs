//! Computing stages: work in, results out.
pub mod cutting;
pub mod planning;
pub mod bonding;
pub mod cure;
pub mod cut_list;
pub mod loads;
pub mod weights;
