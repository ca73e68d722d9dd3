//! One key with its value, and the table that it stands in.

use super::keys::{self, Key};
use crate::source::{Span, Text};
use std::ops::Range;
use toml::de::DeValue;

/// The table that a key stands in, for messages.
#[derive(Debug, Clone, Copy)]
pub(super) struct Home {
    /// Dotted path in [`keys::tables`].
    pub path: &'static str,
    /// Its header or braces.
    pub span: Span,
    /// Written between braces.
    pub inline: bool,
}

impl Home {
    /// As messages name it: `[frame]`, `flange` of `[[panel]]`.
    pub fn name(self) -> String {
        let heading = keys::table_of(self.path).map_or(self.path, |table| table.heading);
        if self.path.is_empty() {
            return heading.to_owned();
        }
        match self.path.rsplit_once('.') {
            Some((above, _)) if !heading.starts_with('[') => {
                let above = keys::table_of(above).map_or(above, |table| table.heading);
                format!("`{heading}` of `{above}`")
            }
            _ => format!("`{heading}`"),
        }
    }

    /// How to add a line to it: "add `x = 400` under `[frame]`".
    pub fn add(self, line: &str) -> String {
        if self.inline {
            format!("add `{line}` between the braces of {}", self.name())
        } else if self.path.is_empty() {
            format!("add `{line}` at the top of the file")
        } else {
            format!("add the line `{line}` under {}", self.name())
        }
    }
}

/// One key with its value; for an element of a list, the key of the list.
#[derive(Debug, Clone, Copy)]
pub(super) struct Field<'t> {
    /// As written.
    pub key: &'t str,
    /// Where the value stands.
    pub span: Span,
    /// The value.
    pub value: &'t DeValue<'t>,
    /// The table that it stands in.
    pub home: Home,
    /// An element of a list.
    pub element: bool,
}

impl Field<'_> {
    /// What is known about its key.
    pub fn spec(&self) -> Option<&'static Key> {
        keys::key_of(self.home.path, self.key)
    }

    /// A value as it may be written, for helps: a whole line, or an element.
    pub fn line(&self, value: &str) -> String {
        if self.element { value.to_owned() } else { format!("{} = {value}", self.key) }
    }

    /// The example of its key.
    pub fn example(&self) -> Option<String> {
        let spec = self.spec().filter(|spec| !spec.example.is_empty())?;
        Some(format!("{} = {}", self.key, spec.example))
    }

    /// The unit of the example of its key, such as `kg`.
    pub fn usual_unit(&self) -> Option<&'static str> {
        let inner = self.spec()?.example.strip_prefix('"')?.strip_suffix('"')?;
        let at = inner.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | ' ')))?;
        inner[..at].ends_with(|c: char| c.is_ascii_digit() || c == ' ').then_some(&inner[at..])
    }

    /// As written in the file, cut short where it is long.
    pub fn written(&self, text: &Text) -> String {
        shorten(text.slice(self.span), 40)
    }

    /// Where a part of the decoded string stands; the whole value where escapes move it.
    pub fn inner(&self, text: &Text, range: &Range<usize>) -> Span {
        let Some(decoded) = self.value.as_str() else { return self.span };
        let raw = text.slice(self.span);
        let start = if raw.starts_with("\"\"\"") || raw.starts_with("'''") { 3 } else { 1 };
        let plain = raw.get(start..).is_some_and(|rest| rest.starts_with(decoded));
        if !plain || range.start >= range.end || range.end > decoded.len() {
            return self.span;
        }
        let from = self.span.start() + start;
        Span::new(from + range.start, from + range.end)
    }

    /// What the value is, for messages.
    pub fn shape(&self) -> String {
        match self.value {
            DeValue::String(_) => "text between quotes".to_owned(),
            DeValue::Integer(_) | DeValue::Float(_) => "a bare number".to_owned(),
            DeValue::Boolean(_) => "true or false".to_owned(),
            DeValue::Datetime(_) => "a date or time".to_owned(),
            DeValue::Array(list) => format!("a list of {}", list.len()),
            DeValue::Table(_) => "one table".to_owned(),
        }
    }
}

/// At most so many characters, on one line.
pub(super) fn shorten(text: &str, most: usize) -> String {
    let line = text.lines().next().unwrap_or("");
    let clean: String = line.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    if clean.chars().count() <= most && line.len() == text.len() {
        return clean;
    }
    let head: String = clean.chars().take(most).collect();
    format!("{}…", head.trim_end())
}
