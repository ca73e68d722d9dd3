//! A stretch of the build file.

use serde::Serialize;
use std::ops::Range;

/// A range of bytes. The default, [`Span::NONE`], stands for the file as a whole: what is said of
/// something that nobody wrote.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub struct Span {
    start: usize,
    end: usize,
}

impl Span {
    /// No place in particular.
    pub const NONE: Self = Self { start: 0, end: 0 };

    /// From the first byte to before the last; empty where they cross.
    pub const fn new(start: usize, end: usize) -> Self {
        Self { start, end: if end < start { start } else { end } }
    }

    /// First byte.
    pub const fn start(self) -> usize {
        self.start
    }

    /// One past the last byte.
    pub const fn end(self) -> usize {
        self.end
    }

    /// Bytes as a range.
    pub const fn range(self) -> Range<usize> {
        self.start..self.end
    }

    /// Whether it is [`Span::NONE`].
    pub const fn is_none(self) -> bool {
        self.end == 0
    }

    /// From the start of the first to the end of the last; [`Span::NONE`] adds nothing.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        match (self.is_none(), other.is_none()) {
            (true, _) => other,
            (_, true) => self,
            _ => Self { start: self.start.min(other.start), end: self.end.max(other.end) },
        }
    }

    /// The part of this span that `range`, counted from its start, covers.
    #[must_use]
    pub fn part(self, range: &Range<usize>) -> Self {
        let start = self.start.saturating_add(range.start).min(self.end);
        Self::new(start, self.start.saturating_add(range.end).min(self.end))
    }
}

impl From<Range<usize>> for Span {
    fn from(range: Range<usize>) -> Self {
        Self::new(range.start, range.end)
    }
}
