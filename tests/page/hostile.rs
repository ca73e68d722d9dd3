//! Whatever it is given, the engine makes sound pages: nothing panics, no text lies over text.

use proptest::prelude::*;
use rungsheet::page::block::{
    Action, ActionRow, Actions, Blank, BlankWidth, Block, Cell, Column, DoneWhen, Dotted, Figure,
    Heading, Hold, Index, IndexEntry, KeyFigure, Lead, Mode, Row, Safety, SignalWord, Table,
    TableColumn,
};
use rungsheet::page::model::{Document, Pen};
use rungsheet::page::scene::{Fill, Line, Place, Scale, Scene, Side, Style};
use rungsheet::page::text::Text;
use rungsheet::page::{JobStrip, Packet, Problem, ProblemKind, Sheet, StripMark, Tab, lay_out};

use super::{sample, words, wrongs};

fn sheet(title: &str, blocks: Vec<Block>) -> Sheet {
    Sheet {
        anchor: "one".into(),
        title: title.into(),
        purpose: "What it is for.".into(),
        tab: Some(Tab::new("Step", 3, 9)),
        steps: None,
        blocks,
        single_sided: false,
    }
}

fn sound(sheets: Vec<Sheet>) -> (Document, Vec<Problem>) {
    let (document, problems) = lay_out(&Packet { sheets, ..sample::packet() });
    assert_eq!(wrongs(&document), Vec::<String>::new());
    assert!(rungsheet::paper::pdf(&document).is_ok());
    (document, problems)
}

fn every_block(text: &str) -> Vec<Block> {
    let t = || Text::from(text);
    let safety = |word| Safety { word, hazard: t(), avoid: t(), symbol: None };
    let mut scene = Scene::new(text);
    scene.rectangle((0.0, 0.0), (100.0, 50.0), Line::VISIBLE);
    scene.words((50.0, 25.0), text, Place::Centre, Style::PLAIN);
    scene.label((10.0, 10.0), text);
    scene.leader((90.0, 10.0), text);
    scene.hole((50.0, 10.0), 6.0, text);
    scene.dimension(Side::Below, (0.0, 0.0), (100.0, 0.0), text);
    scene.running(Side::Above, (0.0, 50.0), &[((20.0, 50.0), text.into())]);
    scene.diameter((50.0, 10.0), 6.0, 45.0, text);
    scene.angle((0.0, 0.0), 10.0, 80.0, 20.0, text);
    scene.datum((0.0, 0.0), text);
    scene.view(text);
    vec![
        Block::Heading(Heading::new(text).aside(text).anchor(text)),
        Block::Heading(Heading::new(text).minor()),
        Block::Paragraph(t().and_bold(text).and_link(text, text).and_page("one")),
        Block::Strong(t()),
        Block::Bullets(vec![t(), t()]),
        Block::Lead(Lead { words: t(), notes: vec![t(), t()] }),
        Block::KeyFigures(vec![KeyFigure::new(text, text); 4]),
        Block::Safety(safety(SignalWord::Danger)),
        Block::Hold(Hold {
            title: t(),
            condition: t(),
            blanks: vec![Blank::value(text, text), Blank::of(BlankWidth::Line, text)],
        }),
        Block::Blanks(vec![Blank::value(text, text); 5]),
        Block::Dotted(Dotted { groups: vec![vec![(t(), t()), (t(), "1".into())]] }),
        Block::Index(Index {
            entries: vec![IndexEntry::new(text, "one"), IndexEntry::new("x", text)],
            columns: 3,
        }),
        Block::Figure(Figure::new(scene.clone(), 80.0).caption(text)),
        Block::Columns(vec![
            Column::new(2, vec![Block::Paragraph(t())]),
            Column::new(4, vec![Block::Figure(Figure::new(scene.clone(), 60.0))]),
        ]),
        Block::Table(Table {
            columns: vec![
                TableColumn::left(text),
                TableColumn::number(text),
                TableColumn::centre(text),
                TableColumn::right(text),
            ],
            over: vec![(t(), 2), (t(), 2)],
            rows: vec![
                Row::new(vec![Cell::Head(t()), text.into(), Cell::Tick, Cell::Blank(text.into())]),
                Row::new(vec![Cell::Bold(t()), Cell::Scene(scene), Cell::Dash]),
            ],
        }),
        Block::Actions(Actions {
            mode: Mode::DoConfirm,
            note: t(),
            boxes: vec![text.into(), text.into()],
            rows: vec![
                ActionRow::Safety(safety(SignalWord::Warning)),
                ActionRow::Action(
                    Action::new(text, text, DoneWhen::limits(text, text, text, text)).why(text),
                ),
                ActionRow::Action(
                    Action::new(text, text, DoneWhen::Blank(Blank::value(text, text))).once(),
                ),
                ActionRow::Action(Action::new(text, text, DoneWhen::State(t()))),
            ],
        }),
    ]
}

#[test]
fn hostile_texts_everywhere() {
    let texts = [
        String::new(),
        " ".into(),
        "\u{0}\u{1}\u{7f}\u{202e}\u{200f}\u{feff}\t\r\n".into(),
        "שלום עולם 123 abc مرحبا بالعالم ٣٤".into(),
        "e\u{301}\u{301}\u{301}\u{301}\u{301} Z\u{30a}\u{327}\u{336}\u{489}\u{489} \u{301}\u{302}"
            .into(),
        "🚐👨‍👩‍👧‍👦🇩🇪☀️ 漢字 ಕನ್ನಡ \u{10ffff}\u{e000}\u{fffd}".into(),
        "W".repeat(400),
        "word ".repeat(120),
        "a/b-c/d-".repeat(40),
        "“Ω ⌀ 3⅜″ × 10⁻⁶ − 5 °C → ✓” ½ ¼ ¾ ± ≤ ≥ µ Δ α ρ σ τ … – — · ′ ² ³".into(),
    ];
    for text in texts {
        sound(vec![sheet(&text, every_block(&text))]);
    }
}

#[test]
fn a_title_of_ten_thousand_characters() {
    let title = "Set the bonded feet on their marks ".repeat(286);
    assert!(title.len() > 10_000);
    let (document, problems) = sound(vec![sheet(&title, vec![Block::Paragraph("Text.".into())])]);
    assert!(problems.iter().any(|p| p.kind == ProblemKind::TooLong));
    // It is cut in the head and in full below.
    let said: usize = document.pages.iter().map(|p| words(p).matches("bonded").count()).sum();
    assert!(said >= 286, "{said}");
}

#[test]
fn three_hundred_rows() {
    let rows = (0..300)
        .map(|i| {
            Row::new(vec![
                Cell::Head(format!("H{i}").into()),
                format!("{}.{}", i * 7, i % 10).into(),
                "a remark that is long enough to need more than one line in its column, and then some"
                    .into(),
                Cell::Tick,
            ])
        })
        .collect();
    let table = Table {
        columns: vec![
            TableColumn::left("id"),
            TableColumn::number("X, mm"),
            TableColumn::left("remark"),
            TableColumn::centre("done"),
        ],
        rows,
        ..Table::default()
    };
    let (document, problems) = sound(vec![sheet("Holes", vec![Block::Table(table)])]);
    assert_eq!(problems, []);
    let said: String = document.pages.iter().map(words).collect();
    assert!((0..300).all(|i| said.contains(&format!("H{i}"))));
}

#[test]
fn forty_columns() {
    let table = Table {
        columns: (0..40).map(|i| TableColumn::number(format!("c{i}"))).collect(),
        rows: vec![Row::new((0..40).map(|i| format!("{i}.25").into()).collect())],
        ..Table::default()
    };
    sound(vec![sheet("Wide", vec![Block::Table(table)])]);
}

#[test]
fn an_action_of_two_hundred_and_of_three_thousand_words() {
    for count in [200, 3000] {
        let words = "press ".repeat(count);
        let rows = vec![ActionRow::Action(Action::new(
            "1",
            words.as_str(),
            DoneWhen::limits("gap", "1", "2", "mm"),
        ))];
        let actions = Actions { mode: Mode::ReadDo, note: Text::new(), boxes: Vec::new(), rows };
        let (document, problems) = sound(vec![sheet("Long", vec![Block::Actions(actions)])]);
        let said: usize =
            document.pages.iter().map(|p| super::words(p).matches("press").count()).sum();
        assert_eq!(said, count);
        assert_eq!(problems.iter().any(|p| p.kind == ProblemKind::Parted), count == 3000);
    }
}

#[test]
fn a_drawing_with_five_hundred_holes() {
    let mut scene = Scene::new("a plate full of holes");
    scene.rectangle((0.0, 0.0), (600.0, 500.0), Line::VISIBLE);
    let mut places = Vec::new();
    for i in 0..500 {
        let at = (15.0 + f64::from(i % 25) * 24.0, 12.0 + f64::from(i / 25) * 25.0);
        scene.hole(at, 6.0, format!("H{i}"));
        if i < 25 {
            places.push((at, format!("{}", at.0)));
        }
    }
    scene.running(Side::Below, (0.0, 0.0), &places);
    let (_, problems) = sound(vec![sheet("Holes", vec![Block::Figure(Figure::new(scene, 200.0))])]);
    // Labels that found no room are told of.
    assert!(problems.iter().all(|p| p.kind == ProblemKind::NoRoomForLabel), "{problems:?}");
}

#[test]
fn drawings_of_nonsense() {
    let odd = [f64::NAN, f64::INFINITY, -1e300, 0.0, 1e-300, 1e9];
    for a in odd {
        for b in [f64::NAN, 5.0, -1e12] {
            let mut scene = Scene::new("nonsense");
            scene.rectangle((a, b), (b, a), Line::VISIBLE);
            scene.rounded((a, 0.0), (b, 1.0), a, Line::THIN);
            scene.circle((a, b), a, Line::THIN);
            scene.arc((0.0, 0.0), b, a, b, Line::CENTRE);
            scene.area(
                &[vec![(a, b)], vec![], vec![(0.0, 0.0), (a, b), (b, a)]],
                Some(Fill::HATCH),
                None,
            );
            scene.filled_rectangle(
                (0.0, 0.0),
                (a, b),
                Fill::Hatch { pen: Pen::W018, pitch: a, angle: b },
                None,
            );
            scene.hole((a, b), a, "H");
            scene.dimension(Side::Left, (a, b), (b, a), "x");
            scene.aligned((a, b), (a, b), a, "x");
            scene.running(Side::Right, (a, b), &[((b, a), "1".into()), ((b, a), "1".into())]);
            scene.angle((a, b), a, b, a, "x");
            scene.radius((a, b), b, a, "R");
            scene.push_arrow((a, b), (b, b));
            scene.front((a, b), b);
            scene.window((a, b), (b, a));
            let mut small = scene.clone();
            small.scale = rungsheet::page::scene::ScaleChoice::Fixed(Scale::FULL);
            let fixed = small.clone();
            let blocks = vec![
                Block::Figure(Figure::new(scene, a)),
                Block::Figure(Figure::new(fixed, b)),
                Block::Table(Table {
                    columns: vec![TableColumn::left("x")],
                    rows: vec![Row::new(vec![Cell::Scene(small)])],
                    ..Table::default()
                }),
            ];
            sound(vec![sheet("Nonsense", blocks)]);
        }
    }
}

#[test]
fn empty_packets_and_sheets() {
    let (document, _) = sound(Vec::new());
    assert!(document.pages.is_empty());
    let (document, _) = sound(vec![sheet("", Vec::new())]);
    assert_eq!(document.pages.len(), 1);
    let empty = vec![
        Block::Bullets(Vec::new()),
        Block::KeyFigures(Vec::new()),
        Block::Blanks(Vec::new()),
        Block::Dotted(Dotted::default()),
        Block::Columns(Vec::new()),
        Block::Columns(vec![Column::new(0, Vec::new()), Column::new(99, Vec::new())]),
        Block::Table(Table::default()),
        Block::Index(Index { entries: Vec::new(), columns: 0 }),
        Block::Figure(Figure::new(Scene::new(""), 50.0)),
        Block::Space(f64::NAN),
        Block::PageBreak,
        Block::PageBreak,
    ];
    sound(vec![sheet("Empty", empty)]);
}

#[test]
fn steps_by_the_hundred_and_anchors_alike() {
    let mut one = sheet("Step", vec![Block::Paragraph("Text.".into())]);
    one.steps = Some(JobStrip { marks: vec![StripMark::Step; 200], here: Some(150) });
    let mut two = one.clone();
    two.steps = Some(JobStrip { marks: Vec::new(), here: Some(3) });
    let (_, problems) = sound(vec![one, two]);
    assert!(problems.iter().any(|p| p.kind == ProblemKind::DuplicateAnchor));
}

#[test]
fn identity_of_any_length() {
    let mut packet = sample::packet();
    packet.identity.number = "9".repeat(300);
    packet.identity.title = "T ".repeat(300);
    packet.identity.revision = "R".repeat(90);
    packet.identity.date = "D".repeat(90);
    packet.identity.fingerprint = "F".repeat(300);
    packet.draft = Some("D ".repeat(400));
    let (document, _) = lay_out(&packet);
    assert_eq!(wrongs(&document), Vec::<String>::new());
}

#[test]
fn missing_characters_are_told() {
    let (document, problems) = sound(vec![sheet("Roof", vec![Block::Paragraph("a 漢 b".into())])]);
    let told = problems.iter().find(|p| p.kind == ProblemKind::MissingCharacter).unwrap();
    assert!(told.about.contains("U+6F22"));
    assert!(words(&document.pages[0]).contains("a ? b"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, ..ProptestConfig::default() })]

    #[test]
    fn any_text_in_any_block(text in "\\PC{0,60}", short in "[ -~]{0,12}") {
        let mut blocks = every_block(&text);
        blocks.extend(every_block(&short));
        let (document, _) = lay_out(&Packet { sheets: vec![sheet(&text, blocks)], ..sample::packet() });
        prop_assert_eq!(wrongs(&document), Vec::<String>::new());
    }
}

/// The scripts that the packet's faces are for, each in one line with the others: set as they stand, no empty box.
#[test]
fn greek_cyrillic_and_latin_with_marks_are_set_as_they_stand() {
    let texts = [
        "Λαμαρίνα στέγης ΑΒΓΔ άέήίόύώ ϊΐ",
        "Крыша фургона: жесть Ёж ЩЫ ђћџ",
        "file office fjord œuf naïve Straße Łódź Žižkov İı",
        "0O 1lI 5S 2Z rn m ⌀ 6 Ω Ж Ω",
    ];
    for text in texts {
        let blocks = vec![Block::Paragraph(text.into()), Block::Strong(text.into())];
        let (document, problems) = sound(vec![sheet("Roof", blocks)]);
        assert_eq!(problems, [], "{text}");
        let said = words(&document.pages[0]);
        for word in text.split(' ') {
            assert!(said.matches(word).count() >= 2, "{word} in {said}");
        }
        for (run, _) in super::runs(&document.pages[0]) {
            assert!(run.glyphs.iter().all(|glyph| glyph.id != 0), "an empty box in {}", run.text);
        }
    }
}
