//! Text: what a sheet says, and how it becomes lines.
//!
//! [`Text`] is what blocks take: a list of [`Span`]s, made from a plain string with `into()`. Texts are
//! cleaned when they are set ([`clean`]), so any string may be given.

mod clean;
mod draw;
mod lines;
mod shape;

pub use clean::{NARROW_NO_BREAK, NO_BREAK, bound, clean, thousands};
pub(crate) use draw::{length, single};
pub(crate) use lines::{Align, Lines, MM, Setting, set};
pub(crate) use shape::Shaper;
pub use shape::missing_characters;

/// A text with bold stretches, links and page numbers of other places.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Text {
    /// Stretches in reading order; no space is put between them.
    pub spans: Vec<Span>,
}

/// A stretch of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span {
    /// What it says.
    pub words: Words,
    /// Set in the bold weight.
    pub bold: bool,
    /// Anchor that it links to.
    pub link: Option<String>,
}

/// What a stretch says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Words {
    /// Just this.
    Plain(String),
    /// What is typed letter for letter, the same in every language.
    Code(String),
    /// The number of the first page of the sheet or place with this anchor.
    PageOf(String),
    /// The numbers of all pages of these sheets: `7, 8` or `15 to 25`.
    PagesOf(Vec<String>),
}

impl Text {
    /// Nothing.
    pub fn new() -> Self {
        Self::default()
    }

    /// A text in bold.
    pub fn bold(words: impl Into<String>) -> Self {
        Self::new().and_bold(words)
    }

    /// The text followed by more in the regular weight.
    #[must_use]
    pub fn and(self, words: impl Into<String>) -> Self {
        self.with(Words::Plain(words.into()), false, None)
    }

    /// The text followed by more in bold.
    #[must_use]
    pub fn and_bold(self, words: impl Into<String>) -> Self {
        self.with(Words::Plain(words.into()), true, None)
    }

    /// What is typed letter for letter, such as a key of a file.
    pub fn code(words: impl Into<String>) -> Self {
        Self::new().with(Words::Code(words.into()), false, None)
    }

    /// The text followed by more of what is typed.
    #[must_use]
    pub fn and_code(self, words: impl Into<String>) -> Self {
        self.with(Words::Code(words.into()), false, None)
    }

    /// The text followed by words that link to an anchor.
    #[must_use]
    pub fn and_link(self, words: impl Into<String>, anchor: impl Into<String>) -> Self {
        self.with(Words::Plain(words.into()), false, Some(anchor.into()))
    }

    /// The text followed by the page number of an anchor, as a link: `.and("sheet ").and_page("cut")`.
    #[must_use]
    pub fn and_page(self, anchor: impl Into<String>) -> Self {
        let anchor = anchor.into();
        self.with(Words::PageOf(anchor.clone()), false, Some(anchor))
    }

    fn with(mut self, words: Words, bold: bool, link: Option<String>) -> Self {
        self.spans.push(Span { words, bold, link });
        self
    }

    /// The same text, all of it in bold.
    #[must_use]
    pub fn in_bold(mut self) -> Self {
        for span in &mut self.spans {
            span.bold = true;
        }
        self
    }

    /// Whether it says nothing.
    pub fn is_empty(&self) -> bool {
        self.spans
            .iter()
            .all(|s| matches!(&s.words, Words::Plain(w) | Words::Code(w) if w.trim().is_empty()))
    }

    /// Its plain words in one string; page numbers are left out.
    pub fn plain(&self) -> String {
        self.spans
            .iter()
            .filter_map(|s| match &s.words {
                Words::Plain(words) | Words::Code(words) => Some(words.as_str()),
                _ => None,
            })
            .collect()
    }
}

impl From<&str> for Text {
    fn from(words: &str) -> Self {
        Self::new().and(words)
    }
}

impl From<String> for Text {
    fn from(words: String) -> Self {
        Self::new().and(words)
    }
}

impl From<&String> for Text {
    fn from(words: &String) -> Self {
        Self::new().and(words.as_str())
    }
}
