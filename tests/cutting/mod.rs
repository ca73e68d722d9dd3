//! Cutting of linear stock and sheets.
mod instance;
mod known_optima;
mod large;
mod laws;
mod medium;
mod medium_sheets;
mod mitres;
mod refusals;
mod sheets;
mod small;
mod support;
