//! What the layout itself puts on paper ("continued", "sheet 3 of 9"), in the packet's language.

use std::fmt;
use std::sync::Arc;

/// How one text is said.
pub type Says = dyn Fn(&str) -> String + Send + Sync;

/// Says the layout's own words, and tells how numbers are written. The default is the English of the source.
#[derive(Clone)]
pub struct Voice {
    says: Option<Arc<Says>>,
    /// Sign between the whole and its parts in a number.
    pub decimal: char,
}

impl Voice {
    /// A voice of another language.
    pub fn new(decimal: char, says: Arc<Says>) -> Self {
        Self { says: Some(says), decimal }
    }

    /// The text as it is printed.
    pub fn say(&self, text: impl Into<String>) -> String {
        let text = text.into();
        match &self.says {
            Some(says) => says(&text),
            None => text,
        }
    }
}

impl Default for Voice {
    fn default() -> Self {
        Self { says: None, decimal: '.' }
    }
}

impl fmt::Debug for Voice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = if self.says.is_some() { "of a table" } else { "of the source" };
        f.debug_struct("Voice").field("words", &words).field("decimal", &self.decimal).finish()
    }
}
