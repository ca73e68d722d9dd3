//! The tag tree in the file: structure elements, the parent tree, and links as its leaves.
//!
//! ISO 32000-1, 14.7 and 14.8; what PDF/UA-1 asks beyond it is in ISO 14289-1, 7.

use super::content::{pt, utf16};
use crate::page::model::{Document, Kid, Node, Rect, Role, Scope};
use lopdf::{Dictionary, Document as File, Object, ObjectId, StringFormat, dictionary};

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

/// The same to a tenth of a point: where a figure is, for those who read aloud or zoom in on it.
fn around(height: f64, area: &Rect) -> Object {
    let numbers = [area.x, height - area.bottom(), area.right(), height - area.y];
    Object::Array(numbers.map(|v| Object::Real((pt(v) * 10.0).round() / 10.0)).to_vec())
}

/// Adds the tree. `pages` and `links` are the objects of the document's pages and of its links'
/// annotations. Gives the root of the tree; page `i` is to have `StructParents` `i`, link `j` to have
/// `StructParent` `pages.len() + j`.
pub(super) fn add(
    file: &mut File,
    document: &Document,
    pages: &[ObjectId],
    links: &[ObjectId],
) -> ObjectId {
    let root = file.new_object_id();
    let nodes: Vec<ObjectId> = document.tree.iter().map(|_| file.new_object_id()).collect();
    let mut owners: Vec<Vec<Object>> = vec![Vec::new(); pages.len()];
    for (index, node) in document.tree.iter().enumerate() {
        let parent = if index == 0 { root } else { nodes[node.parent.0] };
        let element = element(document, node, parent, &nodes, pages, links);
        file.set_object(nodes[index], element);
        for kid in &node.kids {
            if let Kid::Content { page, mcid } = *kid {
                let owners = &mut owners[page];
                if owners.len() <= mcid {
                    owners.resize(mcid + 1, Object::Null);
                }
                owners[mcid] = nodes[index].into();
            }
        }
    }
    let mut numbers = Vec::new();
    for (page, owners) in owners.into_iter().enumerate() {
        let owners = file.add_object(Object::Array(owners));
        numbers.extend([Object::Integer(int(page)), owners.into()]);
    }
    for (number, link) in document.links.iter().enumerate() {
        let key = Object::Integer(int(pages.len() + number));
        numbers.extend([key, nodes[link.node.0].into()]);
    }
    let parents = file.add_object(dictionary! { "Nums" => numbers });
    file.set_object(
        root,
        dictionary! {
            "Type" => "StructTreeRoot",
            "K" => nodes[0],
            "ParentTree" => parents,
            "ParentTreeNextKey" => int(pages.len() + links.len()),
        },
    );
    root
}

fn element(
    document: &Document,
    node: &Node,
    parent: ObjectId,
    nodes: &[ObjectId],
    pages: &[ObjectId],
    links: &[ObjectId],
) -> Dictionary {
    let mut element = dictionary! {
        "S" => node.role.name(),
        "P" => parent,
    };
    // The page that most kids are on goes without saying; a figure's box needs one in any case.
    let home = node.bbox.map(|(page, _)| page).or_else(|| {
        node.kids.iter().find_map(|kid| match *kid {
            Kid::Content { page, .. } => Some(page),
            Kid::Link(link) => Some(document.links[link].page),
            Kid::Node(_) => None,
        })
    });
    if let Some(page) = home {
        element.set("Pg", pages[page]);
    }
    let mut kids: Vec<Object> = node
        .kids
        .iter()
        .map(|kid| match *kid {
            Kid::Node(id) => nodes[id.0].into(),
            Kid::Content { page, mcid } if Some(page) == home => Object::Integer(int(mcid)),
            Kid::Content { page, mcid } => dictionary! {
                "Type" => "MCR",
                "Pg" => pages[page],
                "MCID" => int(mcid),
            }
            .into(),
            Kid::Link(link) => dictionary! {
                "Type" => "OBJR",
                "Pg" => pages[document.links[link].page],
                "Obj" => links[link],
            }
            .into(),
        })
        .collect();
    match kids.len() {
        0 => {}
        1 => element.set("K", kids.remove(0)),
        _ => element.set("K", kids),
    }
    if let Some(alt) = &node.alt {
        element.set("Alt", text(alt));
    }
    if let Some(actual) = &node.actual_text {
        element.set("ActualText", text(actual));
    }
    if let Some(title) = &node.title {
        element.set("T", text(title));
    }
    if let Some(attributes) = attributes(document, node) {
        element.set("A", attributes);
    }
    element
}

fn attributes(document: &Document, node: &Node) -> Option<Dictionary> {
    let mut table = dictionary! { "O" => "Table" };
    let columns = match node.role {
        Role::Th { scope, columns } => {
            let scope = match scope {
                Scope::Column => "Column",
                Scope::Row => "Row",
            };
            table.set("Scope", scope);
            columns
        }
        Role::Td { columns } if columns > 1 => columns,
        _ => {
            let (page, area) = node.bbox?;
            return Some(dictionary! {
                "O" => "Layout",
                "Placement" => "Block",
                "BBox" => around(document.pages[page].height, &area),
            });
        }
    };
    if columns > 1 {
        table.set("ColSpan", i64::from(columns));
    }
    Some(table)
}
