//! Page rules that can be counted on a laid-out packet.

use rungsheet::page::fonts::FaceId;
use rungsheet::page::model::{Document, Ink, Item, Mark, Rect};
use rungsheet::page::{Paper, lay_out};

use super::{runs, sample, words, wrongs};

fn sample() -> Document {
    lay_out(&sample::packet()).0
}

#[test]
fn the_sample_packet_is_sound() {
    let (document, problems) = lay_out(&sample::packet());
    let file = rungsheet::paper::pdf(&document).expect("a sound document can be written");
    // Kept beside the test programs, to be looked at.
    let folder = env!("CARGO_TARGET_TMPDIR");
    std::fs::write(format!("{folder}/sample.pdf"), file).expect("the target folder can be written");
    assert_eq!(problems, []);
    assert_eq!(wrongs(&document), Vec::<String>::new());
}

#[test]
fn one_sheet_of_the_sample_takes_one_page_each() {
    // Cover, cut, part, template, timeline and step fit a page each.
    let document = sample();
    let titles: Vec<&str> = document.pages.iter().map(|p| p.title.as_str()).collect();
    assert_eq!(titles.iter().filter(|t| **t == "Set the bonded feet").count(), 1);
    assert_eq!(titles.iter().filter(|t| **t == "Field van solar roof").count(), 1);
    assert!(document.pages.len() <= 10, "{titles:?}");
}

#[test]
fn type_sizes_are_those_of_the_design() {
    // page-wide: 9 identity line, 11 text, 12 messages and tabs, 14 actions, 18 titles, 28 headlines;
    // 10 where a table would be too wide.
    let document = sample();
    for page in &document.pages {
        for (run, artifact) in runs(page) {
            let sizes: &[f64] = if artifact {
                &[9.0, 11.0, 12.0, 14.0, 18.0]
            } else {
                &[9.0, 10.0, 11.0, 12.0, 14.0, 18.0, 28.0]
            };
            assert!(sizes.contains(&run.size), "{} in {:?}", run.size, run.text);
        }
    }
}

#[test]
fn actions_are_14_pt_with_an_x_height_of_2_5_mm() {
    let document = sample();
    let page = document.pages.iter().find(|p| words(p).contains("Peel the liner")).unwrap();
    let (run, _) = runs(page).into_iter().find(|(r, _)| r.text.contains("Peel")).unwrap();
    assert_eq!(run.size, 14.0);
    assert!(run.face.x_height() * run.size_mm() >= 2.5);
}

#[test]
fn lines_have_75_characters_or_fewer() {
    for page in &sample().pages {
        for (run, artifact) in runs(page) {
            assert!(artifact || run.text.trim_end().chars().count() <= 75, "{:?}", run.text);
        }
    }
}

#[test]
fn lines_of_a_paragraph_are_125_percent_apart() {
    let document = sample();
    let page = document.pages.iter().find(|p| words(p).contains("Dynamic pressure")).unwrap();
    let left: Vec<f64> = runs(page)
        .into_iter()
        .filter(|(r, _)| r.size == 11.0 && (r.origin.x - 20.0).abs() < 0.01)
        .map(|(r, _)| r.origin.y)
        .collect();
    let least = left.windows(2).map(|w| w[1] - w[0]).filter(|d| *d > 0.1).fold(f64::MAX, f64::min);
    assert!(least >= 11.0 * 1.25 * 25.4 / 72.0 - 1e-6, "{least}");
}

#[test]
fn white_words_stand_only_on_tabs_and_danger_panels() {
    for page in &sample().pages {
        for (run, _) in runs(page) {
            if run.ink == Ink::White {
                assert!(run.size >= 12.0 && run.face == FaceId::Bold, "{:?}", run.text);
                assert!(run.text.split_whitespace().count() <= 6);
            }
            assert!(!matches!(run.ink, Ink::Tint(_)));
        }
    }
}

#[test]
fn every_page_says_what_it_belongs_to() {
    let document = sample();
    let count = document.pages.len();
    for (i, page) in document.pages.iter().enumerate() {
        let said = words(page).replace('\u{a0}', " ");
        for part in ["FV-0417", "Field van solar roof", "rev B", "2027-04-12", "4K7M 9RTX"] {
            assert!(said.contains(part), "{part} on page {}", i + 1);
        }
        assert!(said.contains(&format!("sheet {} of {count}", i + 1)), "{said}");
        assert_eq!(page.label, (i + 1).to_string());
    }
}

fn everything(page: &rungsheet::page::model::Page) -> Vec<Rect> {
    use rungsheet::page::model::Segment;
    fn of(item: &Item, out: &mut Vec<Rect>) {
        match item {
            Item::Glyphs(run) => out.push(run.bounds()),
            Item::Path(path) => {
                for segment in &path.segments {
                    if let Segment::Move(p) | Segment::Line(p) | Segment::Curve(_, _, p) = segment {
                        out.push(Rect::new(p.x, p.y, 0.0, 0.0));
                    }
                }
            }
            Item::Image(image) => out.push(image.place),
            Item::Clipped { window, .. } => out.push(*window),
        }
    }
    let mut out = Vec::new();
    for sequence in &page.content {
        for item in &sequence.items {
            of(item, &mut out);
        }
    }
    out
}

#[test]
fn the_bound_side_is_clear_on_both_papers_and_both_sides() {
    for paper in [Paper::A4, Paper::Letter] {
        let mut packet = sample::packet();
        packet.paper = paper;
        packet.duplex = true;
        let (document, problems) = lay_out(&packet);
        assert_eq!(problems, [], "{paper:?}");
        assert_eq!(wrongs(&document), Vec::<String>::new(), "{paper:?}");
        let (width, height) = paper.size();
        for (i, page) in document.pages.iter().enumerate() {
            let x = if i % 2 == 0 { 20.0 } else { 10.0 };
            let free = Rect::new(x, 7.0, width - 30.0, height - 14.0);
            for area in everything(page) {
                assert!(free.holds(&area, 0.06), "{paper:?} page {}: {area:?}", i + 1);
            }
        }
    }
}

#[test]
fn single_sided_sheets_have_a_blank_back_in_duplex() {
    let mut packet = sample::packet();
    packet.duplex = true;
    let (document, _) = lay_out(&packet);
    let at = document.pages.iter().position(|p| p.kind == "Template" && p.single_sided).unwrap();
    assert_eq!(at % 2, 0, "on a front");
    assert!(words(&document.pages[at + 1]).contains("stays blank"));
}

#[test]
fn a_draft_is_marked_on_every_page() {
    let mut packet = sample::packet();
    packet.draft = Some("two stop findings are open".into());
    let (document, _) = lay_out(&packet);
    assert_eq!(wrongs(&document), Vec::<String>::new());
    for page in &document.pages {
        assert!(words(page).contains("DRAFT"), "{}", page.label);
    }
}

#[test]
fn the_same_packet_gives_the_same_document() {
    assert_eq!(sample(), sample());
}

#[test]
fn numbers_stay_with_their_units() {
    for page in &sample().pages {
        for (run, _) in runs(page) {
            let start = run.text.trim_start();
            assert!(!start.starts_with("mm ") && start != "kg", "{:?}", run.text);
        }
    }
}

#[test]
fn look_alikes_are_drawn_with_their_alternates() {
    // 0 with a slash, l with a tail, I with bars: none is drawn by its nominal glyph.
    let document = sample();
    for page in &document.pages {
        for (run, _) in runs(page) {
            for glyph in &run.glyphs {
                let text = &run.text[glyph.text_start as usize..glyph.text_end as usize];
                if let ("0" | "l" | "I", true) = (text, run.face != FaceId::Signs) {
                    let nominal = text.chars().next().and_then(|c| run.face.glyph(c));
                    assert_ne!(Some(glyph.id), nominal, "{text} in {:?}", run.text);
                }
            }
        }
    }
}

#[test]
fn furniture_is_not_in_the_tag_tree() {
    for page in &sample().pages {
        for sequence in &page.content {
            for item in &sequence.items {
                if let (Item::Glyphs(run), Mark::Content { .. }) = (item, sequence.mark) {
                    assert!(!run.text.starts_with("sheet ") || !run.text.contains(" of "));
                }
            }
        }
    }
}
