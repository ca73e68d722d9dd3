//! The PDF, read back with lopdf.

use super::readback::check;
use super::sample;
use lopdf::content::Content;
use lopdf::{Document as File, Object, dictionary};
use rungsheet::page::model::{Document, FaceId, Glyph, GlyphRun, NodeId, Role};
use rungsheet::paper::{Fault, pdf, png_page, svg_page};
use std::sync::LazyLock;

static PACKET: LazyLock<Vec<u8>> =
    LazyLock::new(|| pdf(&sample::document()).expect("the sample is sound"));

fn loaded() -> File {
    File::load_mem(&PACKET).expect("lopdf reads it")
}

/// The file with something changed in it.
fn changed(change: impl Fn(&mut File)) -> Vec<u8> {
    let mut file = loaded();
    change(&mut file);
    let mut bytes = Vec::new();
    file.save_modern(&mut bytes).expect("writing to memory");
    bytes
}

#[test]
fn equal_documents_give_equal_bytes() {
    assert!(*PACKET == pdf(&sample::document()).expect("the sample is sound"));
}

#[test]
fn another_build_file_gives_another_identifier() {
    let id = |bytes: &[u8]| {
        File::load_mem(bytes).expect("reads").trailer.get(b"ID").expect("one").clone()
    };
    let mut document = sample::document();
    document.attachment.as_mut().expect("one").bytes = b"format = 1\n".as_slice().into();
    let other = pdf(&document).expect("sound");
    assert_ne!(id(&PACKET), id(&other));
    assert_ne!(id(&PACKET), Object::Array(vec![Object::string_literal([0; 16]); 2]));
}

#[test]
fn the_structure_keeps_every_rule_that_is_checked() {
    assert_eq!(check(&PACKET).faults, Vec::<String>::new());
    let long = pdf(&sample::long(3, 20, 10)).expect("sound");
    assert_eq!(check(&long).faults, Vec::<String>::new());
}

/// Sheets of every kind as the layout makes them.
fn laid_out() -> Document {
    rungsheet::page::lay_out(&crate::page::sample::packet()).0
}

#[test]
fn sheets_as_laid_out_keep_every_rule_that_is_checked() {
    let document = laid_out();
    let bytes = pdf(&document).expect("the layout keeps its promises");
    let report = check(&bytes);
    assert_eq!(report.faults, Vec::<String>::new());
    assert!(report.tags.len() > 100);
    assert!(bytes.len() < 10_000 * document.pages.len(), "{} bytes", bytes.len());
}

#[test]
fn tags_nest_as_the_document_says() {
    let tags: Vec<String> =
        check(&PACKET).tags.iter().map(|(depth, tag)| format!("{depth}{tag}")).collect();
    let expected = "0Document 1Sect 2H1 2P 2L 3LI 4Lbl 4LBody 3LI 4Lbl 4LBody 2Table 3THead 4TR 5TH \
                    5TH 3TBody 4TR 5TH 5TD 5TD 4TR 5TH 5TD 5TD 4TR 5TD 2Link 1Sect 2H1 2H2 2Figure";
    assert_eq!(tags.join(" "), expected);
}

#[test]
fn text_comes_out_in_the_order_of_reading() {
    let reading = check(&PACKET).reading;
    assert_eq!(
        reading,
        [
            "Cut & fit \u{b7} 6.6 mm",
            "First the office file; AVATAR To Wa \u{bd}. Then 25\u{a0}mm \u{d7} 50\u{a0}mm \u{2192} \
             \u{2713} caf\u{e9} \u{2300} \u{5e9} e\u{301}x\u{323}\u{301}",
            "1.",
            "Drill",
            "2.",
            "Deburr",
            "Hole",
            "Place, mm",
            "H1",
            "12.5",
            "30",
            "H2",
            "187.5",
            "30",
            "All from the datum.",
            "See sheet 2",
            "Template",
            "Foot F2",
            "Aclipped",
        ]
    );
}

#[test]
fn a_ligature_says_all_its_letters() {
    // DejaVu Sans has a glyph for fi; the run gives it two letters, as shaping does.
    let glyph = FaceId::Signs.glyph('\u{fb01}').expect("the face has it");
    let mut run = sample::run("file", FaceId::Signs, 11.0, 20.0, 20.0);
    let plain = pdf_text(&run);
    run.glyphs = ["fi", "l", "e"]
        .iter()
        .scan(0, |at, text| {
            let (start, end) = (*at, *at + text.len() as u32);
            *at = end;
            let id = if start == 0 {
                glyph
            } else {
                FaceId::Signs.glyph(text.chars().next()?).expect("plain letters")
            };
            let advance = i32::from(FaceId::Signs.advance(id));
            Some(Glyph { id, advance, dx: 0, dy: 0, text_start: start, text_end: end })
        })
        .collect();
    assert_eq!(pdf_text(&run), "file");
    assert_eq!(plain, "file");
}

/// The reading text of a page with one run.
fn pdf_text(run: &GlyphRun) -> String {
    let mut b = sample::Builder::new("One run");
    b.page(210.0, 297.0);
    b.text(NodeId::ROOT, Role::H1, run.clone());
    let report = check(&pdf(&b.document).expect("sound"));
    assert_eq!(report.faults, Vec::<String>::new());
    report.reading.concat()
}

#[test]
fn one_glyph_with_two_texts_says_both() {
    let run = sample::run("a b\u{a0}c\u{2011}d-e", FaceId::Regular, 11.0, 20.0, 20.0);
    assert_eq!(pdf_text(&run), "a b\u{a0}c\u{2011}d-e");
}

#[test]
fn pages_have_their_paper_size() {
    let file = loaded();
    // A4 and US Letter in points of 1/72 in (ISO 216; ANSI/ASME Y14.1).
    let sizes = [(595.276, 841.890), (612.0, 792.0)];
    assert_eq!(file.get_pages().len(), 2);
    for (page, (width, height)) in file.page_iter().zip(sizes) {
        let page = file.get_dictionary(page).expect("a page");
        let media = page.get(b"MediaBox").and_then(Object::as_array).expect("a box");
        let media: Vec<f32> = media.iter().map(|n| n.as_float().expect("a number")).collect();
        assert_eq!(media[..2], [0.0, 0.0]);
        assert!((media[2] - width).abs() < 0.01 && (media[3] - height).abs() < 0.01, "{media:?}");
    }
}

#[test]
fn a_bar_of_200_mm_is_200_mm_in_the_content() {
    let file = loaded();
    let page = file.page_iter().nth(1).expect("two pages");
    let content = Content::decode(&file.get_page_content(page)).expect("content");
    let numbers = |o: &lopdf::content::Operation| -> Vec<f32> {
        o.operands.iter().filter_map(|n| n.as_float().ok()).collect()
    };
    let mut longest = 0f32;
    for pair in content.operations.windows(2) {
        if pair[0].operator == "m" && pair[1].operator == "l" {
            let (from, to) = (numbers(&pair[0]), numbers(&pair[1]));
            longest = longest.max((to[0] - from[0]).hypot(to[1] - from[1]));
        }
        assert_ne!(pair[0].operator, "cm", "nothing scales lines: pictures come after them");
        if pair[1].operator == "cm" {
            break;
        }
    }
    let mm = f64::from(longest) * 25.4 / 72.0;
    assert!((mm - 200.0).abs() < 0.01, "{mm} mm");
}

#[test]
fn links_outline_labels_and_places_lead_to_pages() {
    let file = loaded();
    let pages: Vec<_> = file.page_iter().collect();
    let page = file.get_dictionary(pages[0]).expect("a page");
    let annotation = page.get(b"Annots").and_then(Object::as_array).expect("one")[0].as_reference();
    let annotation = file.get_dictionary(annotation.expect("indirect")).expect("a link");
    let place = annotation.get(b"Dest").and_then(Object::as_array).expect("a place");
    assert_eq!(place[0], Object::Reference(pages[1]));
    // 20 mm below the upper edge of a Letter page.
    assert!((place[3].as_float().expect("a height") - (279.4 - 20.0) * 72.0 / 25.4).abs() < 0.01);

    let catalog = file.catalog().expect("a catalog");
    let outline = catalog.get(b"Outlines").and_then(Object::as_reference).expect("an outline");
    let outline = file.get_dictionary(outline).expect("an outline");
    assert_eq!(outline.get(b"Count").and_then(Object::as_i64).ok(), Some(3));
    let last = outline.get(b"Last").and_then(Object::as_reference).expect("an entry");
    let last = file.get_dictionary(last).expect("an entry");
    let title = lopdf::decode_text_string(last.get(b"Title").expect("a title"));
    assert_eq!(title.expect("text"), "Templates \u{2192}");
    assert_eq!(last.get(b"Count").and_then(Object::as_i64).ok(), Some(1));
    let child = last.get(b"First").and_then(Object::as_reference).expect("nested");
    let child = file.get_dictionary(child).expect("nested");
    let place = child.get(b"Dest").and_then(Object::as_array).expect("a place");
    assert_eq!(place[0], Object::Reference(pages[1]));

    let labels = catalog.get(b"PageLabels").and_then(Object::as_dict).expect("labels");
    let labels = labels.get(b"Nums").and_then(Object::as_array).expect("ranges");
    assert_eq!(labels.len(), 2, "1 and 2 are one range");
    let names = catalog.get(b"Names").and_then(Object::as_dict).expect("names");
    assert!(names.has(b"Dests") && names.has(b"EmbeddedFiles"));
}

#[test]
fn a_figure_without_a_text_in_its_place_is_refused() {
    let mut document = sample::document();
    for node in &mut document.tree {
        node.alt = None;
    }
    assert!(matches!(pdf(&document), Err(Fault::Unsound(_))));
}

#[test]
fn an_attachment_too_large_to_recover_is_refused() {
    let mut document = sample::document();
    document.attachment.as_mut().expect("one").bytes = vec![0; (16 << 20) + 1].into();
    assert!(matches!(pdf(&document), Err(Fault::TooLarge { .. })));
}

/// Breaks the file in one way and gives what the structural check says of it.
fn faults_after(kind: &'static str, change: fn(&mut lopdf::Dictionary)) -> Vec<String> {
    let bytes = changed(|file| {
        for object in file.objects.values_mut() {
            if let Object::Dictionary(found) = object
                && found.get(b"S").and_then(Object::as_name).is_ok_and(|n| n == kind.as_bytes())
            {
                change(found);
                break;
            }
        }
    });
    check(&bytes).faults
}

#[test]
fn the_structural_check_sees_what_is_broken_on_purpose() {
    assert_eq!(check(&changed(|_| ())).faults, Vec::<String>::new());
    let removed = |kind, key: &'static str| match key {
        "Alt" => faults_after(kind, |d| drop(d.remove(b"Alt"))),
        "A" => faults_after(kind, |d| drop(d.remove(b"A"))),
        _ => faults_after(kind, |d| drop(d.remove(b"K"))),
    };
    assert_eq!(removed("Figure", "Alt"), ["a figure without Alt"]);
    assert_eq!(removed("Figure", "A"), ["a figure without BBox"]);
    assert_eq!(removed("TH", "A"), ["TH without Scope"]);
    assert!(removed("P", "K").iter().any(|f| f.contains("in no element")));
    assert!(removed("Link", "K").iter().any(|f| f == "an annotation outside the tag tree"));
    let renamed = faults_after("H2", |d| d.set("S", "H3"));
    assert_eq!(renamed, ["H3 skips a level"]);
    let untagged = changed(|file| {
        let catalog = file.catalog_mut().expect("a catalog");
        catalog.set("MarkInfo", dictionary! { "Marked" => false });
    });
    assert_eq!(check(&untagged).faults, ["not marked as tagged"]);
    let silent = changed(|file| {
        let page = file.page_iter().next().expect("a page");
        let mut content = file.get_page_content(page);
        content.extend(b"\n0 0 10 10 re f");
        let id = file.get_page_contents(page)[0];
        let stream = file.get_object_mut(id).and_then(Object::as_stream_mut).expect("a stream");
        stream.dict.remove(b"Filter");
        stream.set_content(content);
    });
    assert_eq!(check(&silent).faults, ["page 0: f outside"]);
}

#[test]
fn words_in_the_metadata_are_the_same_in_both_places() {
    let file = loaded();
    let info = file.trailer.get(b"Info").and_then(Object::as_reference).expect("there");
    let info = file.get_dictionary(info).expect("there");
    let said =
        |key: &[u8]| lopdf::decode_text_string(info.get(key).expect("stated")).expect("text");
    assert_eq!(said(b"Title"), "Sample packet \u{2013} R\u{e9}vision");
    assert_eq!(said(b"Subject"), "Fit <two> feet & a \"rail\"");
    assert_eq!(said(b"CreationDate"), "D:20250301000000Z");
    let catalog = file.catalog().expect("a catalog");
    let xmp = catalog.get(b"Metadata").and_then(Object::as_reference).expect("there");
    let xmp = file.get_object(xmp).and_then(Object::as_stream).expect("there").content.clone();
    let xmp = String::from_utf8(xmp).expect("UTF-8");
    assert!(xmp.contains(">Sample packet \u{2013} R\u{e9}vision</rdf:li>"));
    assert!(xmp.contains("Fit &lt;two&gt; feet &amp; a &quot;rail&quot;"));
    assert!(xmp.contains("<xmp:CreateDate>2025-03-01T00:00:00Z</xmp:CreateDate>"));
    assert!(xmp.contains(&said(b"Keywords")));
}

#[test]
fn without_a_date_none_is_made_up() {
    for date in ["", "yesterday", "2025-13-01", "2025-3-1"] {
        let mut document = sample::document();
        document.metadata.date = date.into();
        let bytes = pdf(&document).expect("sound");
        assert!(!bytes.windows(14).any(|w| w == b"xmp:CreateDate"), "{date}");
    }
}

#[test]
fn pages_hold_their_glyphs_where_the_model_has_them() {
    // The pen after a kerned line, by the widths in the file and the movements between, is where the
    // model's advances put it.
    let mut run = sample::run("AVATAR To Wa. Yes, 7.4 mm", FaceId::Regular, 11.0, 20.0, 20.0);
    let full = run.length();
    run.glyphs.pop();
    let last = run.length();
    assert!(full > last);
    let run = sample::run("AVATAR To Wa. Yes, 7.4 mm", FaceId::Regular, 11.0, 20.0, 20.0);
    let mut b = sample::Builder::new("Line");
    b.page(210.0, 297.0);
    b.text(NodeId::ROOT, Role::H1, run);
    let file = File::load_mem(&pdf(&b.document).expect("sound")).expect("reads");
    let page = file.page_iter().next().expect("a page");
    let fonts = file.get_page_fonts(page).expect("fonts");
    let font = fonts.values().next().expect("one");
    let descendant =
        font.get(b"DescendantFonts").and_then(Object::as_array).expect("one")[0].clone();
    let descendant = file.get_dictionary(descendant.as_reference().expect("indirect")).expect("it");
    let widths = descendant.get(b"W").and_then(Object::as_array).expect("widths")[1].clone();
    let widths: Vec<f64> = widths
        .as_array()
        .expect("a range")
        .iter()
        .map(|w| f64::from(w.as_float().expect("a number")))
        .collect();
    let content = Content::decode(&file.get_page_content(page)).expect("content");
    let shown = content.operations.iter().find(|o| o.operator == "TJ").expect("kerned text");
    let (mut pen, mut moves, mut last_width) = (0.0, 0, 0.0);
    for item in shown.operands[0].as_array().expect("a list") {
        match item {
            Object::String(codes, _) => {
                // So few characters have codes of one byte.
                for &code in codes {
                    last_width = widths[usize::from(code) - 1];
                    pen += last_width;
                }
            }
            number => {
                moves += 1;
                pen -= f64::from(number.as_float().expect("a number"));
            }
        }
    }
    assert!(moves >= 4, "the line is kerned");
    let start_of_last = (pen - last_width) / 1000.0 * 11.0 * 25.4 / 72.0;
    assert!((start_of_last - last).abs() < 0.003, "{start_of_last} {last}");
}

/// Writes samples for checks by programs outside, into the folder that `PAPER_SAMPLES` names; without
/// it, only makes them.
#[test]
fn samples_for_outside_checks() {
    let folder = std::env::var_os("PAPER_SAMPLES").map(std::path::PathBuf::from);
    let documents = [
        ("sample", sample::document()),
        ("long", sample::long(40, 60, 200)),
        ("sheets", laid_out()),
    ];
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
