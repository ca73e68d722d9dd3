//! From text to TOML, with every fault of writing.

use super::codes;
use super::reader::Reader;
use crate::source::{Span, Text};
use std::collections::BTreeSet;
use toml::Spanned;
use toml::de::DeTable;

/// More dots than this on a line would nest tables deeper than they can be taken down again
/// without running out of stack; a build file has a few dozen in its longest list.
const MOST_DOTS: usize = 500;

/// The file as a tree. Where it has faults of writing the tree is what could be saved of it.
pub(super) fn parse<'t>(r: &mut Reader<'t>) -> Option<Spanned<DeTable<'t>>> {
    let text: &'t Text = r.text;
    if let Some((span, dots)) = too_deep(text.contents()) {
        r.raise(codes::nested_too_deep::raise(span, dots, MOST_DOTS));
        return None;
    }
    let (tree, errors) = DeTable::parse_recoverable(text.contents());
    if let Some(other) = codes::syntax::other_language(text) {
        r.raise_syntax(other);
        return None;
    }
    let mut told = BTreeSet::new();
    for error in &errors {
        if r.counted_only() {
            continue;
        }
        let span = place(text, error.span());
        let line = text.place(span.start()).line;
        // What else the parser says about the same line follows from the first.
        if !told.insert(line) {
            continue;
        }
        if error.message().starts_with("duplicate key") {
            let first = first_of(text, span);
            r.raise_syntax(codes::key_twice::raise(text, span, first));
        } else {
            r.raise_syntax(codes::syntax::raise(text, error.message(), span));
        }
    }
    Some(tree)
}

/// The first line with too many dots. A line that begins with # is a comment, or inside a text,
/// but never a key.
fn too_deep(contents: &str) -> Option<(Span, usize)> {
    let mut start = 0;
    for line in contents.split_inclusive('\n') {
        let dots = line.bytes().filter(|byte| *byte == b'.').count();
        if dots > MOST_DOTS && !line.trim_start().starts_with('#') {
            let end = boundary(contents, start + line.len().min(40));
            return Some((Span::new(start, end), dots));
        }
        start += line.len();
    }
    None
}

/// A place that can be shown: within the text, on character boundaries, and at least one character
/// wide where there is one.
fn place(text: &Text, range: Option<std::ops::Range<usize>>) -> Span {
    let contents = text.contents();
    let range = range.unwrap_or(0..0);
    let mut start = boundary(contents, range.start);
    let mut end = boundary(contents, range.end).max(start);
    if start == end && contents[start..].starts_with(|c| !matches!(c, '\n' | '\r')) {
        end = next(contents, start);
    } else if start == end {
        // The line ends here: show the character before it, which is where to go on writing.
        let before = contents[..start].trim_end_matches(['\n', '\r', ' ', '\t']);
        if let Some(last) = before.chars().next_back() {
            end = before.len();
            start = end - last.len_utf8();
        } else {
            end = next(contents, start);
        }
    }
    Span::new(start, end)
}

/// The nearest place at or before a byte that is not inside a character.
fn boundary(text: &str, byte: usize) -> usize {
    let mut byte = byte.min(text.len());
    while !text.is_char_boundary(byte) {
        byte -= 1;
    }
    byte
}

/// Behind the character that begins at a byte.
fn next(text: &str, byte: usize) -> usize {
    text[byte..].chars().next().map_or(byte, |c| byte + c.len_utf8())
}

/// Where a key that is written again was first written: the nearest line above, in the same table,
/// that begins with it.
fn first_of(text: &Text, again: Span) -> Option<Span> {
    let contents = text.contents();
    let name = text.slice(again);
    let line_start = contents[..again.start()].rfind('\n').map_or(0, |at| at + 1);
    let is_header = contents[line_start..].trim_start().starts_with('[');
    let mut end = line_start;
    for line in contents[..line_start].split_inclusive('\n').rev() {
        let start = end - line.len();
        let trimmed = line.trim_start();
        let indent = line.len() - trimmed.len();
        if is_header {
            let inner = trimmed.trim_start_matches('[');
            if inner.len() < trimmed.len()
                && inner.starts_with(name)
                && inner[name.len()..].starts_with(']')
            {
                let at = start + indent + (trimmed.len() - inner.len());
                return Some(Span::new(at, at + name.len()));
            }
        } else {
            if trimmed.starts_with('[') {
                return None;
            }
            if trimmed.starts_with(name) && trimmed[name.len()..].trim_start().starts_with('=') {
                return Some(Span::new(start + indent, start + indent + name.len()));
            }
        }
        end = start;
    }
    None
}
