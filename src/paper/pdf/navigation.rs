//! Ways through the file: links, named places, outline, page labels.

use super::tags::{int, rectangle, text};
use crate::page::model::{Document, OutlineEntry};
use lopdf::{Dictionary, Document as File, Object, ObjectId, dictionary};

/// Shows the page from a height on, at whatever size the reader has chosen.
fn place(document: &Document, pages: &[ObjectId], page: usize, y: f64) -> Object {
    let top = document.pages.get(page).map_or(0.0, |p| p.height) - y;
    let id = pages.get(page).copied().unwrap_or_default();
    Object::Array(vec![
        id.into(),
        "XYZ".into(),
        Object::Null,
        Object::Real(super::content::pt(top)),
        Object::Null,
    ])
}

/// Adds the annotations of all links, in the document's order.
pub(super) fn links(file: &mut File, document: &Document, pages: &[ObjectId]) -> Vec<ObjectId> {
    let annotation = |(number, link): (usize, &crate::page::model::Link)| {
        let target = &document.destinations[link.target];
        dictionary! {
            "Type" => "Annot",
            "Subtype" => "Link",
            "Rect" => rectangle(document.pages[link.page].height, &link.area),
            "Border" => vec![0.into(), 0.into(), 0.into()],
            // Printed with the page; all hidden flags off.
            "F" => 4,
            "Contents" => text(&link.contents),
            "StructParent" => int(pages.len() + number),
            "Dest" => place(document, pages, target.page, target.y),
        }
    };
    let annotations: Vec<Dictionary> = document.links.iter().enumerate().map(annotation).collect();
    annotations.into_iter().map(|a| file.add_object(a)).collect()
}

/// The name tree of places, or nothing if there are none. The model keeps them sorted by name.
pub(super) fn destinations(document: &Document, pages: &[ObjectId]) -> Option<Dictionary> {
    let (first, last) = (document.destinations.first()?, document.destinations.last()?);
    let names: Vec<Object> = document
        .destinations
        .iter()
        .flat_map(|d| [name(&d.name), place(document, pages, d.page, d.y)])
        .collect();
    Some(dictionary! {
        "Kids" => vec![
            dictionary! {
                "Limits" => vec![name(&first.name), name(&last.name)],
                "Names" => names,
            }
            .into()
        ],
    })
}

/// Keys of name trees are compared byte by byte, so UTF-8 keeps the model's order.
fn name(name: &str) -> Object {
    Object::string_literal(name)
}

/// Adds the outline, or nothing if it has no entry. Entries with others under them are open on the
/// first level and shut below it.
pub(super) fn outline(
    file: &mut File,
    document: &Document,
    pages: &[ObjectId],
) -> Option<ObjectId> {
    if document.outline.is_empty() {
        return None;
    }
    let root = file.new_object_id();
    let (first, last, shown) = level(file, document, pages, &document.outline, root, 0);
    file.set_object(
        root,
        dictionary! { "Type" => "Outlines", "First" => first, "Last" => last, "Count" => shown },
    );
    Some(root)
}

/// Deepest level that is written; deeper entries could only come from a fault in the layout.
const DEEPEST: usize = 16;

fn level(
    file: &mut File,
    document: &Document,
    pages: &[ObjectId],
    entries: &[OutlineEntry],
    parent: ObjectId,
    depth: usize,
) -> (ObjectId, ObjectId, i64) {
    let ids: Vec<ObjectId> = entries.iter().map(|_| file.new_object_id()).collect();
    let mut shown = int(ids.len());
    for (index, entry) in entries.iter().enumerate() {
        let mut item = dictionary! {
            "Title" => text(&entry.title),
            "Parent" => parent,
            "Dest" => place(document, pages, entry.page, entry.y),
        };
        if index > 0 {
            item.set("Prev", ids[index - 1]);
        }
        if let Some(next) = ids.get(index + 1) {
            item.set("Next", *next);
        }
        if !entry.children.is_empty() && depth < DEEPEST {
            let (first, last, inside) =
                level(file, document, pages, &entry.children, ids[index], depth + 1);
            item.set("First", first);
            item.set("Last", last);
            item.set("Count", if depth == 0 { inside } else { -inside });
            if depth == 0 {
                shown += inside;
            }
        }
        file.set_object(ids[index], item);
    }
    let (first, last) = (ids.first().copied(), ids.last().copied());
    (first.unwrap_or_default(), last.unwrap_or_default(), shown)
}

/// Page labels as printed: plain numbers as one range where they count on, others word for word.
pub(super) fn labels(document: &Document) -> Dictionary {
    let mut ranges: Vec<Object> = Vec::new();
    let mut next = None;
    for (index, page) in document.pages.iter().enumerate() {
        let number = page.label.parse::<u32>().ok().filter(|n| n.to_string() == page.label);
        if number.is_some() && number == next {
            next = next.map(|n| n + 1);
            continue;
        }
        next = number.and_then(|n| n.checked_add(1));
        let label = match number {
            Some(n) if n > 0 => dictionary! { "S" => "D", "St" => i64::from(n) },
            _ => dictionary! { "P" => text(&page.label) },
        };
        ranges.extend([Object::Integer(int(index)), label.into()]);
    }
    dictionary! { "Nums" => ranges }
}
