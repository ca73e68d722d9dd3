//! Which rows of the tables a build file names.

use crate::source::Span;
use crate::tables::RowOrigin;

/// A row that a key names.
#[derive(Debug, Clone, PartialEq)]
pub struct RowUse {
    /// The key, as in `mount.angle`.
    pub key: String,
    /// Where it is named.
    pub span: Span,
    /// Kind of row.
    pub kind: &'static str,
    /// Its name.
    pub name: String,
    /// Where it came from.
    pub origin: RowOrigin,
}
