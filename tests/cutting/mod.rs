//! Cutting of linear stock and sheets.
mod instance;
mod known_optima;
mod laws;
mod large;
mod medium;
mod refusals;
mod small;
mod support;
