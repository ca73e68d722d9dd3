//! A text and what is said about it.
//!
//! Takes the build file as a [`Text`]; gives the words in which every stage speaks of it: a
//! [`Span`] of bytes, a [`Stated`] value that remembers where it came from, a [`Finding`] raised
//! by a [`Rule`], and a [`Figure`] in the [`Ledger`] that shows how a number was worked out.
//! Nothing here prints: `terminal` draws findings and `sheets` lay out figures.
mod figure;
mod finding;
mod ledger;
mod rule;
mod severity;
mod span;
mod stated;
mod text;

pub use figure::{Figure, Seen};
pub use finding::{Finding, sort, worst};
pub use ledger::Ledger;
pub use rule::Rule;
pub use severity::Severity;
pub use span::Span;
pub use stated::{Origin, Stated};
pub use text::{Place, Text};
