//! Checks of the main job against published sources.
mod tables;
