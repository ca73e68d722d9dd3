//! Values that remember where they came from.

use super::Span;
use std::ops::Deref;

/// Where a value came from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Origin {
    /// The author wrote it.
    #[default]
    Stated,
    /// It was filled in; the text says on what ground.
    Default(&'static str),
}

/// A value, where it was written, and by whom.
///
/// ```
/// use rungsheet::source::{Span, Stated};
/// use rungsheet::units::Length;
/// let gap = Stated::written(Length::mm(20.0), Span::new(12, 19));
/// assert_eq!(gap.to_mm(), 20.0);
/// let kerf = Stated::default_of(Length::mm(2.0), "common practice: a saw blade of 2 mm");
/// assert!(kerf.is_default());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stated<T> {
    /// The value.
    pub value: T,
    /// Where it was written; for a default the table it belongs in, or [`Span::NONE`].
    pub span: Span,
    /// Who says so.
    pub origin: Origin,
}

impl<T> Stated<T> {
    /// As the author wrote it.
    pub const fn written(value: T, span: Span) -> Self {
        Self { value, span, origin: Origin::Stated }
    }

    /// Filled in, with the ground for it.
    pub const fn default_of(value: T, ground: &'static str) -> Self {
        Self { value, span: Span::NONE, origin: Origin::Default(ground) }
    }

    /// With the place that a finding about it should show.
    #[must_use]
    pub fn near(mut self, span: Span) -> Self {
        self.span = span;
        self
    }

    /// Whether it was filled in.
    pub const fn is_default(&self) -> bool {
        matches!(self.origin, Origin::Default(_))
    }

    /// The ground on which it was filled in.
    pub const fn ground(&self) -> Option<&'static str> {
        match self.origin {
            Origin::Stated => None,
            Origin::Default(ground) => Some(ground),
        }
    }

    /// Another value from the same place.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Stated<U> {
        Stated { value: change(self.value), span: self.span, origin: self.origin }
    }

    /// The value by reference, from the same place.
    pub const fn as_ref(&self) -> Stated<&T> {
        Stated { value: &self.value, span: self.span, origin: self.origin }
    }
}

impl<T> Deref for Stated<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}
