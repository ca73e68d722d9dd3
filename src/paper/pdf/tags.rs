//! The tag tree in the file: structure elements, the parent tree, and links as its leaves.
//!
//! ISO 32000-1, 14.7 and 14.8; what PDF/UA-1 asks beyond it is in ISO 14289-1, 7.

use super::content::{pt, utf16};
use super::operators::{put_integer, put_thousandths};
use super::save::put;
use crate::page::model::{Document, Kid, Node, Rect, Role, Scope};
use lopdf::{Document as File, Object, ObjectId, StringFormat};
use std::collections::BTreeMap;

/// A text string; plain where plain letters are enough.
pub(super) fn text(value: &str) -> Object {
    if value.bytes().all(|b| (32..127).contains(&b)) {
        Object::string_literal(value)
    } else {
        Object::String(utf16(value), StringFormat::Literal)
    }
}

/// A count or an index; every one here is the length of something in memory, or below it.
pub(super) fn int(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// A rectangle of the model in the page's own coordinates: left, bottom, right, top.
pub(super) fn rectangle(height: f64, area: &Rect) -> Object {
    let numbers = [area.x, height - area.bottom(), area.right(), height - area.y];
    Object::Array(numbers.map(|v| Object::Real(pt(v))).to_vec())
}

/// The tag tree with its object numbers, which are in the order in which it is written.
pub(super) struct Tree<'a> {
    document: &'a Document,
    /// The document's pages.
    pub pages: &'a [ObjectId],
    /// The annotations of its links.
    pub links: &'a [ObjectId],
    root: u32,
    /// By node.
    elements: Vec<u32>,
    /// By page: the list of the elements that its marked contents belong to.
    owners: Vec<u32>,
    parents: u32,
}

/// By the last node with content on them, the pages: their lists of owners stand behind it, close to
/// where the same numbers stand already, and pack to little.
fn pages_behind(document: &Document) -> BTreeMap<usize, Vec<usize>> {
    let mut last = vec![0; document.pages.len()];
    for (index, node) in document.tree.iter().enumerate() {
        for kid in &node.kids {
            if let Kid::Content { page, .. } = *kid {
                last[page] = index;
            }
        }
    }
    let mut pages: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (page, index) in last.into_iter().enumerate() {
        pages.entry(index).or_default().push(page);
    }
    pages
}

impl<'a> Tree<'a> {
    /// Numbers the tree. `pages` and `links` are the objects of the document's pages and of its links'
    /// annotations; page `i` is to have `StructParents` `i`, link `j` to have `StructParent`
    /// `pages.len() + j`.
    pub fn new(
        file: &mut File,
        document: &'a Document,
        pages: &'a [ObjectId],
        links: &'a [ObjectId],
    ) -> Self {
        let mut next = || file.new_object_id().0;
        let root = next();
        let mut owners = vec![0; pages.len()];
        let behind = pages_behind(document);
        let element = |index| {
            let element = next();
            for page in behind.get(&index).into_iter().flatten() {
                owners[*page] = next();
            }
            element
        };
        let elements = (0..document.tree.len()).map(element).collect();
        let parents = next();
        Self { document, pages, links, root, elements, owners, parents }
    }

    /// The root of the tree.
    pub fn root(&self) -> ObjectId {
        (self.root, 0)
    }

    /// Gives every object with its number. They are written one by one, as a packet has too many to
    /// hold them all at once.
    pub fn write(&self, mut give: impl FnMut(u32, &[u8])) {
        let mut out = Vec::new();
        out.extend(b"<</Type/StructTreeRoot/K ");
        reference(&mut out, self.elements[0]);
        out.extend(b"/ParentTree ");
        reference(&mut out, self.parents);
        out.extend(b"/ParentTreeNextKey ");
        put_integer(&mut out, int(self.pages.len() + self.links.len()));
        out.extend(b">>");
        give(self.root, &out);
        let behind = pages_behind(self.document);
        let mut owners: Vec<Vec<u32>> = vec![Vec::new(); self.pages.len()];
        for (index, node) in self.document.tree.iter().enumerate() {
            out.clear();
            self.element(&mut out, index);
            give(self.elements[index], &out);
            for kid in &node.kids {
                if let Kid::Content { page, mcid } = *kid {
                    let owners = &mut owners[page];
                    owners.resize(owners.len().max(mcid + 1), self.elements[index]);
                    owners[mcid] = self.elements[index];
                }
            }
            for page in behind.get(&index).into_iter().flatten() {
                out.clear();
                list(&mut out, owners[*page].iter(), |out, owner| reference(out, *owner));
                give(self.owners[*page], &out);
            }
        }
        out.clear();
        self.parents(&mut out);
        give(self.parents, &out);
    }

    fn parents(&self, out: &mut Vec<u8>) {
        let pages = self.owners.iter().copied();
        let links = self.document.links.iter().map(|link| self.elements[link.node.0]);
        out.extend(b"<</Nums");
        list(out, pages.chain(links).enumerate(), |out, (key, number)| {
            put_integer(out, int(key));
            out.push(b' ');
            reference(out, number);
        });
        out.extend(b">>");
    }

    fn element(&self, out: &mut Vec<u8>, index: usize) {
        let node = &self.document.tree[index];
        out.extend(b"<</S/");
        out.extend(node.role.name().as_bytes());
        out.extend(b"/P ");
        reference(out, if index == 0 { self.root } else { self.elements[node.parent.0] });
        // The page that most kids are on goes without saying; a figure's box needs one in any case.
        let home = node.bbox.map(|(page, _)| page).or_else(|| {
            node.kids.iter().find_map(|kid| match *kid {
                Kid::Content { page, .. } => Some(page),
                Kid::Link(link) => Some(self.document.links[link].page),
                Kid::Node(_) => None,
            })
        });
        if let Some(page) = home {
            out.extend(b"/Pg ");
            reference(out, self.pages[page].0);
        }
        match node.kids.as_slice() {
            [] => {}
            [only] => {
                out.extend(b"/K");
                if matches!(only, Kid::Node(_)) || is_at(only, home) {
                    out.push(b' ');
                }
                self.kid(out, only, home);
            }
            kids => {
                out.extend(b"/K");
                list(out, kids.iter(), |out, kid| self.kid(out, kid, home));
            }
        }
        for (key, value) in
            [("/Alt", &node.alt), ("/ActualText", &node.actual_text), ("/T", &node.title)]
        {
            if let Some(value) = value {
                out.extend(key.as_bytes());
                put(out, &text(value));
            }
        }
        self.attributes(out, node);
        out.extend(b">>");
    }

    fn kid(&self, out: &mut Vec<u8>, kid: &Kid, home: Option<usize>) {
        match *kid {
            Kid::Node(id) => reference(out, self.elements[id.0]),
            Kid::Content { page, mcid } if Some(page) == home => put_integer(out, int(mcid)),
            Kid::Content { page, mcid } => {
                out.extend(b"<</Type/MCR/Pg ");
                reference(out, self.pages[page].0);
                out.extend(b"/MCID ");
                put_integer(out, int(mcid));
                out.extend(b">>");
            }
            Kid::Link(link) => {
                out.extend(b"<</Type/OBJR/Pg ");
                reference(out, self.pages[self.document.links[link].page].0);
                out.extend(b"/Obj ");
                reference(out, self.links[link].0);
                out.extend(b">>");
            }
        }
    }

    fn attributes(&self, out: &mut Vec<u8>, node: &Node) {
        let (Role::Th { columns, .. } | Role::Td { columns }) = node.role else {
            if let Some((page, area)) = node.bbox {
                out.extend(b"/A<</O/Layout/Placement/Block/BBox");
                let corners = around(self.document.pages[page].height, &area);
                list(out, corners.into_iter(), put_thousandths);
                out.extend(b">>");
            }
            return;
        };
        let scope: &[u8] = match node.role {
            Role::Th { scope: Scope::Column, .. } => b"/Scope/Column",
            Role::Th { scope: Scope::Row, .. } => b"/Scope/Row",
            _ => b"",
        };
        if scope.is_empty() && columns < 2 {
            return;
        }
        out.extend(b"/A<</O/Table");
        out.extend(scope);
        if columns > 1 {
            out.extend(b"/ColSpan ");
            put_integer(out, i64::from(columns));
        }
        out.extend(b">>");
    }
}

/// A rectangle in thousandths of a point, to the tenth of a point outwards: where a figure is, for those
/// who read aloud or zoom in on it.
fn around(height: f64, area: &Rect) -> [i64; 4] {
    let down = |v: f64| (pt(v) * 10.0 + 1e-3).floor() as i64 * 100;
    let up = |v: f64| (pt(v) * 10.0 - 1e-3).ceil() as i64 * 100;
    let (low, high) = (height - area.bottom(), height - area.y);
    [down(area.x), down(low), up(area.right()), up(high)]
}

fn reference(out: &mut Vec<u8>, number: u32) {
    put_integer(out, i64::from(number));
    out.extend(b" 0 R");
}

fn list<T>(
    out: &mut Vec<u8>,
    items: impl Iterator<Item = T>,
    mut put: impl FnMut(&mut Vec<u8>, T),
) {
    out.push(b'[');
    for (number, item) in items.enumerate() {
        if number > 0 {
            out.push(b' ');
        }
        put(out, item);
    }
    out.push(b']');
}

/// Whether a kid is content of the page that its element is on.
fn is_at(kid: &Kid, home: Option<usize>) -> bool {
    matches!(kid, Kid::Content { page, .. } if Some(*page) == home)
}
