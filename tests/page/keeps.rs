//! What keeps together, and what happens where a sheet runs on.

use rungsheet::page::block::{
    Action, ActionRow, Actions, Block, Cell, DoneWhen, Figure, Heading, Mode, Row, Safety,
    SignalWord, Table, TableColumn,
};
use rungsheet::page::model::Document;
use rungsheet::page::scene::{Line, Scene};
use rungsheet::page::text::Text;
use rungsheet::page::{Packet, Sheet, lay_out};

use super::{runs, sample, words, wrongs};

fn with(blocks: Vec<Block>) -> Document {
    let sheet = Sheet {
        anchor: "one".into(),
        title: "One sheet".into(),
        purpose: "It runs over several pages.".into(),
        tab: None,
        steps: None,
        blocks,
        single_sided: false,
    };
    let (document, _) = lay_out(&Packet { sheets: vec![sheet], ..sample::packet() });
    assert_eq!(wrongs(&document), Vec::<String>::new());
    document
}

fn page_with(document: &Document, text: &str) -> Vec<usize> {
    let found = |p: &rungsheet::page::model::Page| words(p).replace('\u{a0}', " ").contains(text);
    (0..document.pages.len()).filter(|i| found(&document.pages[*i])).collect()
}

fn action(number: usize, text: &str) -> ActionRow {
    let done = DoneWhen::limits("width", "8", "10", "mm");
    ActionRow::Action(Action::new(number.to_string(), text, done))
}

fn filler(height: f64) -> Block {
    let mut scene = Scene::at_scale("filler", rungsheet::page::scene::Scale::FULL);
    scene.rectangle((0.0, 0.0), (50.0, height), Line::THIN);
    Block::Figure(Figure::new(scene, height + 2.0))
}

#[test]
fn a_caution_is_on_the_page_of_its_action() {
    // Push the pair down the page until it has to turn: they turn together.
    let mut turned = false;
    for height in [150.0, 170.0, 185.0, 195.0, 205.0, 212.0, 220.0] {
        let safety = Safety {
            word: SignalWord::Caution,
            hazard: "Chips fly.".into(),
            avoid: "Wear eye protection.".into(),
            symbol: None,
        };
        let actions = Actions {
            mode: Mode::ReadDo,
            note: Text::new(),
            boxes: Vec::new(),
            rows: vec![action(1, "Mark."), ActionRow::Safety(safety), action(2, "Drill the hole.")],
        };
        let document = with(vec![filler(height), Block::Actions(actions)]);
        assert_eq!(page_with(&document, "Chips fly."), page_with(&document, "Drill the hole."));
        turned |= page_with(&document, "Drill the hole.") == [1];
    }
    assert!(turned);
}

#[test]
fn seven_actions_a_page_are_the_most() {
    let rows = (1..=20).map(|n| action(n, "Cut.")).collect();
    let actions = Actions { mode: Mode::ReadDo, note: Text::new(), boxes: Vec::new(), rows };
    let document = with(vec![Block::Actions(actions)]);
    for page in &document.pages {
        assert!(words(page).matches("Cut.").count() <= 7);
    }
    assert_eq!(document.pages.len(), 3);
}

#[test]
fn an_action_is_not_parted() {
    let text = "Press the foot down along both of its long edges until the gap is even.";
    let rows = (1..=7).map(|n| action(n, text)).collect();
    let actions = Actions { mode: Mode::ReadDo, note: Text::new(), boxes: Vec::new(), rows };
    for height in [100.0, 120.0, 135.0] {
        let document = with(vec![filler(height), Block::Actions(actions.clone())]);
        let starts: usize =
            document.pages.iter().map(|p| words(p).matches("Press the").count()).sum();
        assert_eq!(starts, 7);
        for page in &document.pages {
            let said = words(page);
            assert_eq!(said.matches("Press the").count(), said.matches("even.").count());
        }
    }
}

#[test]
fn a_heading_is_never_the_last_thing_on_a_page() {
    for height in [200.0, 215.0, 225.0, 230.0, 235.0, 238.0] {
        let document = with(vec![
            filler(height),
            Block::Heading(Heading::new("Lonely?")),
            Block::Paragraph("What it heads is a text of some length that goes on here.".into()),
        ]);
        assert_eq!(page_with(&document, "Lonely?"), page_with(&document, "What it heads"));
    }
}

#[test]
fn a_figure_is_on_the_page_of_what_it_shows() {
    for height in [150.0, 170.0, 190.0] {
        let mut scene = Scene::new("how");
        scene.rectangle((0.0, 0.0), (100.0, 40.0), Line::HEAVY);
        scene.name((50.0, 20.0), "shown");
        let rows = vec![
            action(1, "Mark."),
            ActionRow::Figure(Figure::new(scene, 50.0)),
            action(2, "Set the foot down."),
        ];
        let actions = Actions { mode: Mode::ReadDo, note: Text::new(), boxes: Vec::new(), rows };
        let document = with(vec![filler(height), Block::Actions(actions)]);
        assert_eq!(page_with(&document, "shown"), page_with(&document, "Set the foot down."));
    }
}

#[test]
fn a_long_table_repeats_its_head_and_its_title() {
    let rows = (0..120)
        .map(|i| Row::new(vec![Cell::Head(format!("H{i}").into()), "1.5".into(), Cell::Tick]))
        .collect();
    let table = Table {
        columns: vec![
            TableColumn::left("mark"),
            TableColumn::number("length, mm"),
            TableColumn::centre("cut"),
        ],
        rows,
        ..Table::default()
    };
    let document = with(vec![Block::Table(table)]);
    assert!(document.pages.len() > 1);
    for (i, page) in document.pages.iter().enumerate() {
        let said = words(page).replace('\u{a0}', " ");
        assert!(said.contains("length, mm"), "page {}", i + 1);
        assert_eq!(i > 0, said.contains("continued"));
        // Repeated heads are furniture: the tree has the head once.
        let tagged = runs(page).iter().filter(|(r, a)| !a && r.text.contains("length")).count();
        assert_eq!(tagged, usize::from(i == 0));
    }
}

#[test]
fn decimal_points_stand_under_each_other() {
    let values = ["1.5", "12", "123.25", "0.125"];
    let rows = values.iter().map(|v| Row::new(vec![(*v).into()])).collect();
    let table = Table { columns: vec![TableColumn::number("value")], rows, ..Table::default() };
    let document = with(vec![Block::Table(table)]);
    let mut points = Vec::new();
    for (run, _) in runs(&document.pages[0]) {
        if values.contains(&run.text.as_str()) {
            let units: i32 = run
                .glyphs
                .iter()
                .take_while(|g| &run.text[g.text_start as usize..g.text_end as usize] != ".")
                .map(|g| g.advance)
                .sum();
            points.push(run.origin.x + f64::from(units) / 2048.0 * run.size_mm());
        }
    }
    assert_eq!(points.len(), 4);
    assert!(points.iter().all(|p| (p - points[0]).abs() < 0.01), "{points:?}");
}

#[test]
fn last_lines_are_not_one_short_word() {
    // Ragged right: the breaks of a paragraph are chosen together.
    let text = "The array is raised on its hinges and propped on the off side while the clamps are \
        set, the wires are led down and the seal around the entry is laid, in the shade if it can be so.";
    let document = with(vec![Block::Paragraph(text.into())]);
    let lines: Vec<String> = runs(&document.pages[0])
        .into_iter()
        .filter(|(r, a)| !a && r.size == 11.0 && !r.text.starts_with("It runs"))
        .map(|(r, _)| r.text.clone())
        .collect();
    assert!(lines.len() >= 2);
    assert!(lines.last().unwrap().split_whitespace().count() >= 2, "{lines:?}");
}
