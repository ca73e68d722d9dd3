//! The PDF, read back with lopdf.

use super::sample;
use rungsheet::paper::{Fault, pdf, png_page, svg_page};

#[test]
fn equal_documents_give_equal_bytes() {
    let once = pdf(&sample::document()).expect("the sample is sound");
    let twice = pdf(&sample::document()).expect("the sample is sound");
    assert!(once == twice);
}

#[test]
fn a_figure_without_a_text_in_its_place_is_refused() {
    let mut document = sample::document();
    for node in &mut document.tree {
        node.alt = None;
    }
    assert!(matches!(pdf(&document), Err(Fault::Unsound(_))));
}

/// Writes samples for checks by programs outside, into the folder that `PAPER_SAMPLES` names; without
/// it, only makes them.
#[test]
fn samples_for_outside_checks() {
    let folder = std::env::var_os("PAPER_SAMPLES").map(std::path::PathBuf::from);
    let documents = [("sample", sample::document()), ("long", sample::long(40, 60, 200))];
    for (name, document) in documents {
        let bytes = pdf(&document).expect("the samples are sound");
        assert!(bytes.len() < 10_000 * document.pages.len().max(3), "{name}: {}", bytes.len());
        if let Some(folder) = &folder {
            let write = |file: String, bytes: &[u8]| {
                std::fs::write(folder.join(file), bytes).expect("the folder exists");
            };
            write(format!("{name}.pdf"), &bytes);
            for (page, number) in document.pages.iter().zip(1..).take(2) {
                write(format!("{name}-{number}.svg"), svg_page(page).as_bytes());
                let picture = png_page(page, 100.0).expect("small enough");
                write(format!("{name}-{number}.png"), &picture);
            }
        }
    }
}
