//! Tags, links, outline and page numbers.

use std::collections::BTreeMap;

use rungsheet::page::lay_out;
use rungsheet::page::model::{Document, Kid, Mark, NodeId, Role};

use super::{sample, words};

fn sample() -> Document {
    lay_out(&sample::packet()).0
}

/// Text of a node and all below it, in the order of the tree.
fn text_of(document: &Document, id: usize) -> String {
    let mut out = String::new();
    for kid in &document.tree[id].kids {
        match *kid {
            Kid::Node(NodeId(k)) => out += &text_of(document, k),
            Kid::Content { page, mcid } => {
                let wanted = |m: &Mark| matches!(m, Mark::Content { mcid: n, .. } if *n == mcid);
                let sequence =
                    document.pages[page].content.iter().find(|s| wanted(&s.mark)).unwrap();
                for item in &sequence.items {
                    if let rungsheet::page::model::Item::Glyphs(run) = item {
                        out += &run.text;
                    }
                }
            }
            Kid::Link(_) => {}
        }
    }
    out
}

fn all(document: &Document, wanted: fn(Role) -> bool) -> Vec<usize> {
    (0..document.tree.len()).filter(|i| wanted(document.tree[*i].role)).collect()
}

#[test]
fn each_sheet_is_a_section_with_one_title() {
    let document = sample();
    let sections = all(&document, |r| r == Role::Sect);
    let titles = all(&document, |r| r == Role::H1);
    assert_eq!((sections.len(), titles.len()), (7, 7));
    let said: Vec<String> = titles.iter().map(|t| text_of(&document, *t)).collect();
    assert_eq!(said[0], "Field van solar roof");
    assert_eq!(said[5], "Set the bonded feet");
}

#[test]
fn paragraphs_read_as_they_were_written() {
    let document = sample();
    let paragraphs: Vec<String> =
        all(&document, |r| r == Role::P).iter().map(|p| text_of(&document, *p)).collect();
    // Lines join with a space, links and page numbers stand in their place.
    let last = "List complete. Next: sheet\u{a0}3, Foot plate.";
    let seen =
        |wanted: &str| paragraphs.iter().any(|p| p.replace("sheet 3", "sheet\u{a0}3") == wanted);
    assert!(seen(last), "{paragraphs:?}");
    assert!(
        paragraphs
            .iter()
            .any(|p| p.starts_with("Dynamic pressure follows from air density and speed: q =")
                && p.contains("short-term and sustained. Dynamic pressure"))
    );
}

#[test]
fn actions_are_list_items_with_number_and_words() {
    let document = sample();
    let labels: Vec<String> =
        all(&document, |r| r == Role::Lbl).iter().map(|l| text_of(&document, *l)).collect();
    for number in ["41", "42", "43", "44", "45"] {
        assert!(labels.iter().any(|l| l == number), "{number}");
    }
    for li in all(&document, |r| r == Role::Li) {
        let roles: Vec<Role> = document.tree[li]
            .kids
            .iter()
            .filter_map(|k| match k {
                Kid::Node(id) => Some(document.tree[id.0].role),
                _ => None,
            })
            .collect();
        assert_eq!(roles, [Role::Lbl, Role::LBody]);
    }
}

#[test]
fn tables_have_heads_with_scope() {
    let document = sample();
    let tables = all(&document, |r| r == Role::Table);
    assert!(tables.len() >= 5);
    for table in tables {
        let parts: Vec<Role> = document.tree[table]
            .kids
            .iter()
            .filter_map(|k| match k {
                Kid::Node(id) => Some(document.tree[id.0].role),
                _ => None,
            })
            .collect();
        assert_eq!(parts, [Role::THead, Role::TBody]);
    }
}

#[test]
fn figures_say_what_they_show() {
    let document = sample();
    for figure in all(&document, |r| r == Role::Figure) {
        let alt = document.tree[figure].alt.as_deref().unwrap_or("");
        assert!(alt.len() > 5, "{figure}");
    }
}

#[test]
fn page_numbers_in_texts_are_those_of_the_document() {
    let document = sample();
    let place: BTreeMap<&str, usize> =
        document.destinations.iter().map(|d| (d.name.as_str(), d.page + 1)).collect();
    let cover = words(&document.pages[0]);
    assert!(cover.contains(&format!("|{}|", place["cut"])), "{cover}");
    let last = document.pages.len();
    assert!(cover.contains(&format!("{} to {last}", place["step-8"])), "{cover}");
    let step = words(&document.pages[place["step-8"] - 1]);
    assert!(step.contains(&place["worked"].to_string()));
}

#[test]
fn links_lead_where_they_say() {
    let document = sample();
    assert!(document.links.len() >= 12);
    for link in &document.links {
        let target = &document.destinations[link.target];
        assert!(!link.contents.is_empty());
        assert!(target.page < document.pages.len());
        assert!(link.area.width > 0.5 && link.area.height > 2.0);
    }
    let saturday = document.destinations.iter().find(|d| d.name == "saturday").unwrap();
    assert_eq!(document.pages[saturday.page].title, "Timeline");
    assert!(saturday.y > 30.0);
}

#[test]
fn the_outline_has_sheets_and_their_anchored_headings() {
    let document = sample();
    let titles: Vec<&str> = document.outline.iter().map(|o| o.title.as_str()).collect();
    assert_eq!(titles.len(), 7);
    assert_eq!(titles[1], "Cut the bars");
    let worked = document.outline.last().unwrap();
    assert_eq!(worked.children.len(), 9);
    assert!(worked.children.windows(2).all(|w| (w[0].page, w[0].y) < (w[1].page, w[1].y)));
}
