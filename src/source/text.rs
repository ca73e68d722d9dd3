//! The build file's text.

use super::Span;

/// A file's name and contents, with an index of its lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    name: String,
    contents: String,
    starts: Vec<usize>,
}

/// Where something stands, counted from 1 as editors do; columns count characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line.
    pub line: usize,
    /// Character in the line.
    pub column: usize,
}

impl Text {
    /// A text under the name that messages show.
    pub fn new(name: impl Into<String>, contents: impl Into<String>) -> Self {
        let contents = contents.into();
        let after_breaks =
            contents.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i + 1);
        let starts = std::iter::once(0).chain(after_breaks).collect();
        Self { name: name.into(), contents, starts }
    }

    /// The name that messages show.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// All of it.
    pub fn contents(&self) -> &str {
        &self.contents
    }

    /// How many lines there are; a last line break begins no line.
    pub fn lines(&self) -> usize {
        self.contents.lines().count()
    }

    /// A line counted from 1, without its break.
    pub fn line(&self, number: usize) -> Option<&str> {
        let start = *self.starts.get(number.checked_sub(1)?)?;
        let end = self.starts.get(number).copied().unwrap_or(self.contents.len());
        Some(self.contents[start..end].trim_end_matches(['\n', '\r']))
    }

    /// Line and column of a byte; a byte inside a character or past the end is taken back to the
    /// nearest place before it.
    pub fn place(&self, byte: usize) -> Place {
        let byte = self.boundary(byte);
        let line = self.starts.partition_point(|start| *start <= byte);
        let start = self.starts[line - 1];
        Place { line, column: self.contents[start..byte].chars().count() + 1 }
    }

    /// The last start of a character that isn't after `byte`.
    fn boundary(&self, byte: usize) -> usize {
        let mut byte = byte.min(self.contents.len());
        while !self.contents.is_char_boundary(byte) {
            byte -= 1;
        }
        byte
    }

    /// What a span covers, cut to the text.
    pub fn slice(&self, span: Span) -> &str {
        let end = self.boundary(span.end());
        let start = self.boundary(span.start()).min(end);
        &self.contents[start..end]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn columns_count_characters() {
        let text = Text::new("van.toml", "a = 1\r\nä = \"°C\"\n");
        let degree = text.contents().find('°').expect("it is there");
        assert_eq!(text.place(degree), Place { line: 2, column: 6 });
        assert_eq!(text.line(1), Some("a = 1"));
        assert_eq!(text.line(2), Some("ä = \"°C\""));
        assert_eq!(text.lines(), 2);
        assert_eq!(text.line(0), None);
        assert_eq!(text.slice(Span::new(degree, degree + 2)), "°");
    }

    proptest! {
        #[test]
        fn every_byte_has_a_place_in_order(contents in "[a-cä°\n]{0,30}", extra in 0_usize..5) {
            let text = Text::new("t", contents.clone());
            let places: Vec<Place> = (0..contents.len() + extra).map(|b| text.place(b)).collect();
            prop_assert!(places.is_sorted());
            for (byte, place) in places.iter().enumerate() {
                let before = contents.get(..byte).map(|s| s.matches('\n').count() + 1);
                if let Some(line) = before {
                    prop_assert_eq!(place.line, line);
                }
            }
        }
    }
}
