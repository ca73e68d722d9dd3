//! What is wrong with the holes and the places of the finished work.

mod holes;
mod inside;
mod layout;
pub(super) mod moves;

pub(super) use holes::holes;
pub(super) use inside::inside;
pub(super) use layout::{Foot, edge_of, feet, frames};
