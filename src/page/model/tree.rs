//! The tag tree, and what leads through a document: outline, places, links.

use std::sync::Arc;

use super::{NodeId, Rect};

/// A node of the tag tree.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// What it is.
    pub role: Role,
    /// Its parent; the root names itself.
    pub parent: NodeId,
    /// What it holds, in reading order. May be empty (an empty table cell).
    pub kids: Vec<Kid>,
    /// Text in place of a picture; always there for `Figure`.
    pub alt: Option<String>,
    /// Text that replaces the content when read aloud or copied.
    pub actual_text: Option<String>,
    /// Box of a figure: index of the page, and the place on it.
    pub bbox: Option<(usize, Rect)>,
    /// Title of a section.
    pub title: Option<String>,
    /// Whether it is a box to tick or a blank, no drawing.
    pub to_fill_in: bool,
}

/// A kid of a node.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kid {
    /// Another node.
    Node(NodeId),
    /// Marked content.
    Content {
        /// Index of the page.
        page: usize,
        /// Its number there.
        mcid: usize,
    },
    /// The annotation of a link: index into [`Document::links`].
    Link(usize),
}

/// Standard structure types of PDF 1.7 (ISO 32000-1, 14.8.4) that the layout uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The root.
    Document,
    /// One sheet, which may run over pages.
    Sect,
    /// A part without a heading of its own.
    Div,
    /// Heading of level 1 (a sheet's title).
    H1,
    /// Heading of level 2.
    H2,
    /// Heading of level 3.
    H3,
    /// Paragraph.
    P,
    /// List.
    L,
    /// Item of a list.
    Li,
    /// Its number, bullet or term.
    Lbl,
    /// Its text.
    LBody,
    /// Table.
    Table,
    /// Head rows of a table; repeated heads on later pages are artifacts.
    THead,
    /// Body rows.
    TBody,
    /// Row.
    Tr,
    /// Head cell.
    Th {
        /// What it is the head of.
        scope: Scope,
        /// Columns that it spans, at least 1.
        columns: u16,
    },
    /// Cell.
    Td {
        /// Columns that it spans, at least 1.
        columns: u16,
    },
    /// Picture with a text in its place.
    Figure,
    /// Caption of a figure or table.
    Caption,
    /// Link.
    Link,
    /// Stretch within a line.
    Span,
    /// Table of contents.
    Toc,
    /// Item of a table of contents.
    Toci,
}

impl Role {
    /// The name of the structure type in PDF, without the slash.
    pub fn name(self) -> &'static str {
        match self {
            Role::Document => "Document",
            Role::Sect => "Sect",
            Role::Div => "Div",
            Role::H1 => "H1",
            Role::H2 => "H2",
            Role::H3 => "H3",
            Role::P => "P",
            Role::L => "L",
            Role::Li => "LI",
            Role::Lbl => "Lbl",
            Role::LBody => "LBody",
            Role::Table => "Table",
            Role::THead => "THead",
            Role::TBody => "TBody",
            Role::Tr => "TR",
            Role::Th { .. } => "TH",
            Role::Td { .. } => "TD",
            Role::Figure => "Figure",
            Role::Caption => "Caption",
            Role::Link => "Link",
            Role::Span => "Span",
            Role::Toc => "TOC",
            Role::Toci => "TOCI",
        }
    }
}

/// What a head cell is the head of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// The cells under it.
    Column,
    /// The cells after it.
    Row,
}

/// An entry of the outline.
#[derive(Debug, Clone, PartialEq)]
pub struct OutlineEntry {
    /// Words.
    pub title: String,
    /// Index of the page it opens.
    pub page: usize,
    /// Height on that page, mm from the top.
    pub y: f64,
    /// Entries under it.
    pub children: Vec<OutlineEntry>,
}

/// A named place.
#[derive(Debug, Clone, PartialEq)]
pub struct Destination {
    /// Name, unique in the document.
    pub name: String,
    /// Index of the page.
    pub page: usize,
    /// Height on that page, mm from the top.
    pub y: f64,
}

/// A link from a place on a page to another place.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// Index of the page it is on.
    pub page: usize,
    /// The area to touch, mm.
    pub area: Rect,
    /// Where it goes: index into [`Document::destinations`].
    pub target: usize,
    /// What it says, for readers that do not see the page.
    pub contents: String,
    /// Its node in the tag tree.
    pub node: NodeId,
}

/// What the file says about itself.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Metadata {
    /// Document number.
    pub number: String,
    /// Revision.
    pub revision: String,
    /// Date of issue, `YYYY-MM-DD`; may be empty if none is known.
    pub date: String,
    /// What it is about, in one sentence.
    pub subject: String,
    /// Who made it.
    pub author: String,
    /// Fingerprint of the build file, as printed.
    pub fingerprint: String,
    /// Words to find it by.
    pub keywords: Vec<String>,
}

/// A file inside the PDF.
#[derive(Debug, Clone, PartialEq)]
pub struct Attachment {
    /// File name without folders.
    pub name: String,
    /// MIME type.
    pub mime: String,
    /// One line that says what it is.
    pub description: String,
    /// Content.
    pub bytes: Arc<[u8]>,
}
