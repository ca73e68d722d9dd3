//! The SVG files, read with the parser of the svg crate.

use super::sample;
use rungsheet::page::model::NodeId;
use rungsheet::paper::{svg_drawing, svg_page};
use std::collections::BTreeSet;
use svg::node::element::tag::Type;
use svg::parser::Event;

/// Every start of an element with its attributes as (name, key, value).
fn attributes(text: &str) -> Vec<(String, String, String)> {
    let mut found = Vec::new();
    for event in svg::read(text).expect("reads") {
        match event {
            Event::Tag(_, Type::End, _) => {}
            Event::Tag(name, _, attributes) => {
                found.push((name.into(), String::new(), String::new()));
                let pairs = attributes.iter().map(|(k, v)| (name.into(), k.clone(), v.to_string()));
                found.extend(pairs);
            }
            Event::Error(fault) => panic!("{fault:?}"),
            _ => {}
        }
    }
    found.sort();
    found
}

fn values<'a>(all: &'a [(String, String, String)], name: &str, key: &str) -> Vec<&'a str> {
    all.iter().filter(|a| a.0 == name && a.1 == key).map(|a| a.2.as_str()).collect()
}

#[test]
fn pages_have_their_paper_size_in_millimetres() {
    let document = sample::document();
    for (page, size) in document.pages.iter().zip([("210mm", "297mm"), ("215.9mm", "279.4mm")]) {
        let all = attributes(&svg_page(page));
        assert_eq!(values(&all, "svg", "width"), [size.0]);
        assert_eq!(values(&all, "svg", "height"), [size.1]);
    }
}

#[test]
fn a_page_says_its_title_and_text() {
    let text = svg_page(&sample::document().pages[0]);
    let desc = text.split("<desc").nth(1).and_then(|t| t.split("</desc>").next()).expect("one");
    for words in ["Cut &amp; fit", "First the office file", "H2 187.5 30", "See sheet 2"] {
        assert!(desc.contains(words), "{words} in {desc}");
    }
    assert!(!desc.contains("RS-1"), "furniture is not read out");
    assert!(text.contains(">Sheet, page 1</title>"));
}

#[test]
fn letters_need_no_font() {
    for page in &sample::document().pages {
        let all = attributes(&svg_page(page));
        assert!(all.iter().all(|a| a.0 != "text" && a.1 != "font-family"));
        let shapes: BTreeSet<String> =
            values(&all, "path", "id").into_iter().map(|id| format!("#{id}")).collect();
        let used: BTreeSet<String> =
            values(&all, "use", "href").into_iter().map(String::from).collect();
        assert_eq!(shapes, used);
        assert!(shapes.len() > 5);
    }
}

#[test]
fn a_bar_of_200_mm_is_200_units_of_a_millimetre() {
    let all = attributes(&svg_page(&sample::document().pages[1]));
    assert!(values(&all, "path", "d").contains(&"M8 50L208 50"));
}

#[test]
fn a_drawing_is_its_box_with_its_text() {
    let document = sample::document();
    let figure = document.tree.iter().position(|n| n.bbox.is_some()).expect("the sample has one");
    let text = svg_drawing(&document, NodeId(figure)).expect("a figure");
    let all = attributes(&text);
    assert_eq!(values(&all, "svg", "viewBox"), ["5 45 205 190"]);
    assert_eq!(values(&all, "svg", "role"), ["img"]);
    assert!(text.contains("with four holes"));
    assert!(values(&all, "path", "d").contains(&"M8 50L208 50"));
    assert!(!values(&all, "path", "d").contains(&"M20 270L200 270"), "a rule of the page");
    assert_eq!(svg_drawing(&document, NodeId(0)), None);
    assert_eq!(svg_drawing(&document, NodeId(9999)), None);
}

#[test]
fn equal_pages_give_equal_files() {
    for (a, b) in sample::document().pages.iter().zip(&sample::document().pages) {
        assert_eq!(svg_page(a), svg_page(b));
    }
}
