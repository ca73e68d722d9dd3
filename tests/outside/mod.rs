//! Checks of the main job against published sources.
mod geometry;
mod metalwork;
mod reference;
mod tables;
mod units;
