//! The document and its pages as printpdf makes them, ready for content, tags and all else.

use crate::page::model::Document;
use lopdf::{Document as File, Object};
use printpdf::{Mm, PdfDocument, PdfPage, PdfSaveOptions};

/// A file with a catalog, a page tree and an empty page of the right size for each of the document's.
///
/// What printpdf says about the whole document is taken out again: it names an old edition of PDF, and
/// its identifiers are random. Object numbers count from 1 in a fixed order.
pub(super) fn made(document: &Document) -> File {
    let mut made = PdfDocument::new(&document.title);
    let empty = |page: &crate::page::model::Page| {
        PdfPage::new(Mm(page.width as f32), Mm(page.height as f32), Vec::new())
    };
    made.with_pages(document.pages.iter().map(empty).collect());
    let mut file = made.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new());
    "1.7".clone_into(&mut file.version);
    file.trailer.remove(b"Info");
    file.trailer.remove(b"ID");
    if let Ok(catalog) = file.catalog_mut() {
        catalog.remove(b"PageLayout");
        catalog.remove(b"PageMode");
    }
    let pages: Vec<_> = file.page_iter().collect();
    for id in pages {
        if let Ok(page) = file.get_object_mut(id).and_then(Object::as_dict_mut) {
            for key in [&b"Contents"[..], b"Resources", b"Annots", b"TrimBox", b"CropBox"] {
                page.remove(key);
            }
        }
    }
    file.prune_objects();
    file.renumber_objects();
    file
}
