//! From a build to the work: laws that hold for any roof and frame, and the whole work of a van.
mod corners;
mod examples;
mod laws;
mod lids;
mod props;
mod readings;
mod sampled;
pub mod support;
mod van;
