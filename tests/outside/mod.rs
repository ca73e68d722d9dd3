//! Checks of the main job against published sources.
mod geometry;
mod reference;
mod tables;
mod units;
