//! The pocket booklet: order, turning, folds.

use rungsheet::page::block::{Block, Booklet, Dotted, Panel, Row, Table, TableColumn};
use rungsheet::page::model::{Document, GlyphRun};
use rungsheet::page::{Packet, Paper, Problem, ProblemKind, Sheet, lay_out};

use super::{runs, sample, words, wrongs};

fn booklet(paper: Paper, panels: Vec<Panel>) -> (Document, Vec<Problem>) {
    let sheet = Sheet {
        anchor: "pocket".into(),
        title: "Pocket booklet".into(),
        purpose: String::new(),
        tab: None,
        steps: None,
        blocks: vec![Block::Booklet(Booklet { panels })],
        single_sided: true,
    };
    let (document, problems) = lay_out(&Packet { paper, sheets: vec![sheet], ..sample::packet() });
    assert_eq!(wrongs(&document), Vec::<String>::new());
    (document, problems)
}

fn panels() -> Vec<Panel> {
    (1..=8)
        .map(|n| {
            let table = Table {
                columns: vec![TableColumn::left("bolt"), TableColumn::number("torque, N·m")],
                rows: vec![Row::new(vec!["M6".into(), "9.5".into()])],
                ..Table::default()
            };
            Panel::new(
                format!("Panel {n}"),
                vec![
                    Block::Paragraph(format!("Text of panel {n} for the glovebox.").into()),
                    Block::Dotted(Dotted {
                        groups: vec![vec![("look at the bonds".into(), "6 months".into())]],
                    }),
                    Block::Table(table),
                ],
            )
        })
        .collect()
}

fn heading(document: &Document, number: usize) -> GlyphRun {
    let name = format!("Panel {number}");
    let found = runs(&document.pages[0]).into_iter().find(|(r, _)| r.text == name);
    found.expect("each panel has its heading").0.clone()
}

#[test]
fn panels_lie_as_the_folding_asks() {
    // Upper row upside down: 5 4 3 2 over 6 7 8 1 (adjacency of an eight-page fold, by geometry).
    for paper in [Paper::A4, Paper::Letter] {
        let (document, problems) = booklet(paper, panels());
        assert_eq!(problems, []);
        let (short, long) = paper.size();
        let page = &document.pages[0];
        assert_eq!((page.width, page.height), (long, short));
        for (row, order) in [(0, [5, 4, 3, 2]), (1, [6, 7, 8, 1])] {
            for (column, number) in order.into_iter().enumerate() {
                let run = heading(&document, number);
                let angle = if row == 0 { 180.0 } else { 0.0 };
                assert_eq!(run.angle, angle, "panel {number}");
                let bounds = run.bounds();
                assert_eq!((bounds.x / (long / 4.0)) as usize, column, "panel {number}");
                assert_eq!((bounds.y / (short / 2.0)) as usize, row, "panel {number}");
            }
        }
    }
}

#[test]
fn nothing_is_written_near_a_fold_or_below_10_pt() {
    let (document, _) = booklet(Paper::A4, panels());
    for (run, artifact) in runs(&document.pages[0]) {
        assert!(run.size >= 10.0 || artifact && run.size == 9.0, "{:?}", run.text);
        let area = run.bounds();
        for fold in [74.25, 148.5, 222.75] {
            let clear = area.right() <= fold - 5.0 + 1e-6 || area.x >= fold + 5.0 - 1e-6;
            assert!(clear, "{:?} at {area:?}", run.text);
        }
        assert!(area.bottom() <= 100.0 + 1e-6 || area.y >= 110.0 - 1e-6, "{:?}", run.text);
    }
    assert_eq!(words(&document.pages[0]).matches("FV-0417").count(), 8);
}

#[test]
fn what_finds_no_room_runs_on_after_the_sheet() {
    let mut all = panels();
    all[3].blocks.push(Block::Paragraph("More than a panel holds. ".repeat(40).into()));
    all.push(Panel::new("Panel 9", vec![Block::Paragraph("A ninth panel.".into())]));
    let (document, problems) = booklet(Paper::A4, all);
    assert!(problems.iter().any(|p| p.kind == ProblemKind::TooLarge));
    assert!(document.pages.len() > 1);
    let said: String = document.pages.iter().map(words).collect();
    assert!(said.contains("A ninth panel."));
}

#[test]
fn the_booklet_can_be_written() {
    let (document, _) = booklet(Paper::A4, panels());
    let file = rungsheet::paper::pdf(&document).expect("a sound document can be written");
    let folder = env!("CARGO_TARGET_TMPDIR");
    std::fs::write(format!("{folder}/booklet.pdf"), file)
        .expect("the target folder can be written");
}
