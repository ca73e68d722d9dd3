//! Findings with the lines of the build file that they speak of.

use super::ordered;
use super::words::{one_line, wrapped};
use crate::source::{Finding, Severity, Span, Text};
use annotate_snippets::{Annotation, AnnotationKind, Element, Level, Origin, Renderer, Snippet};
use std::ops::Range;

/// How findings are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// With colour; it never carries meaning alone.
    pub color: bool,
    /// Characters in a line.
    pub width: usize,
    /// With carets and frames; without them for a screen reader.
    pub graphics: bool,
}

impl Default for Look {
    fn default() -> Self {
        Self { color: false, width: 100, graphics: true }
    }
}

/// Narrower than this nothing can be read.
const LEAST_WIDTH: usize = 40;

/// Every finding with its place, its meaning and its helps, in the order in which to deal with them.
pub fn drawn(text: &Text, findings: &[Finding], look: Look) -> String {
    let renderer = if look.color { Renderer::styled() } else { Renderer::plain() }
        .term_width(look.width.max(LEAST_WIDTH))
        .no_graphics(!look.graphics);
    let mut out = String::new();
    for finding in ordered(findings) {
        out.push_str(draw(&renderer, text, finding, look.width.max(LEAST_WIDTH)).trim_end());
        out.push_str("\n\n");
    }
    out
}

fn draw(renderer: &Renderer, text: &Text, finding: &Finding, width: usize) -> String {
    let level = match finding.severity {
        Severity::Stop => Level::ERROR,
        Severity::Caution => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    let code = finding.rule.code;
    let name = finding.severity.name();
    let taken = name.len() + code.len() + "[]: ".len();
    let title =
        level.with_name(name).primary_title(wrapped(&finding.message, width, taken)).id(code);
    let mut elements: Vec<Element<'_>> = vec![place(text, finding)];
    // "NN = help: " stands before the words of a footer.
    let gutter = text.lines().to_string().len() + 3;
    let mut footer = |level: Level<'static>, name: &'static str, words: &str| {
        let words = wrapped(words, width, gutter + name.len() + 2);
        elements.push(level.with_name(name).message(words).into());
    };
    if let Some(means) = &finding.means {
        footer(Level::NOTE, "it means", means);
    }
    for help in &finding.helps {
        footer(Level::HELP, "help", help);
    }
    if let Some(anchor) = &finding.where_on {
        footer(Level::NOTE, "shown on", anchor);
    }
    renderer.render(&[title.elements(elements)])
}

/// The lines it speaks of; the file's name alone when there are none.
fn place<'a>(text: &'a Text, finding: &Finding) -> Element<'a> {
    let annotate = |kind: AnnotationKind, span: Span, label: &str| -> Annotation<'a> {
        let label = one_line(label);
        kind.span(inside(text, span)).label((!label.is_empty()).then_some(label))
    };
    let mut annotations: Vec<Annotation<'a>> = Vec::new();
    if let Some(span) = finding.primary {
        annotations.push(annotate(AnnotationKind::Primary, span, &finding.label));
    }
    for (span, label) in &finding.others {
        annotations.push(annotate(AnnotationKind::Context, *span, label));
    }
    let path = one_line(text.name());
    if annotations.is_empty() || text.contents().is_empty() {
        return Origin::path(path).into();
    }
    Snippet::source(text.contents()).path(path).annotations(annotations).into()
}

/// A span as a range that the drawing may cut the text at, whatever the finding says.
fn inside(text: &Text, span: Span) -> Range<usize> {
    let contents = text.contents();
    let whole = |mut byte: usize| {
        byte = byte.min(contents.len());
        while !contents.is_char_boundary(byte) {
            byte -= 1;
        }
        byte
    };
    let start = whole(span.start());
    start..whole(span.end()).max(start)
}

#[cfg(test)]
mod tests;
