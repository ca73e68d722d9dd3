//! Push-in connectors for square tube.

use super::{Row, RowOrigin, Section, Shape, Table};
use crate::units::{Length, Unit};

/// A corner that is pushed into square tubes.
#[derive(Clone, Debug, PartialEq)]
pub struct CornerConnector {
    /// `push-in-connector-25x25x2`.
    pub name: String,
    /// For people.
    pub words: String,
    /// Outside size of the tube.
    pub tube: Length,
    /// Wall of the tube.
    pub wall: Length,
    /// Side of the corner cube: how much it takes from each tube's length.
    pub cube: Length,
    /// How far it reaches into a tube: no hole may go there.
    pub spigot: Length,
    /// Numbers of arms it is sold with.
    pub ways: Vec<u32>,
    /// Name of its [`super::Material`].
    pub material: String,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl CornerConnector {
    fn from_row(row: &mut Row<'_>) -> Self {
        Self {
            name: row.words("name"),
            words: row.words("words"),
            tube: row.quantity("tube", Unit::MM),
            wall: row.quantity("wall", Unit::MM),
            cube: row.quantity("cube", Unit::MM),
            spigot: row.quantity("spigot", Unit::MM),
            ways: row.whole_list("ways"),
            material: row.words("material"),
            origin: row.origin(),
        }
    }
}

impl Table<CornerConnector> {
    /// The connector made for a square tube.
    pub fn connector_for(&self, section: &Section) -> Option<&CornerConnector> {
        let slack = Length::mm(0.05);
        self.iter().find(|row| {
            section.shape == Shape::SquareTube
                && row.tube.is_near(section.a, slack)
                && row.wall.is_near(section.t, slack)
        })
    }
}

entry!(CornerConnector, "corner-connector", from_row);
