//! Checks of the main job against published sources.
mod air;
mod beams;
mod bends;
mod bonding;
mod cure;
mod electrics;
mod electrics_cases;
mod electrics_library;
mod geometry;
mod holding;
mod joints;
mod metalwork;
mod props;
mod reference;
mod tables;
mod units;
mod weights;
