//! Step, safety and record sheets as blocks and as pages.

use super::support::{Made, all, example, make_with};
use rungsheet::page::block::{Action, ActionRow, Block, DoneWhen};
use rungsheet::page::{Identity, Packet, Paper, Sheet, Tab, lay_out};
use rungsheet::sheets::record::record;
use rungsheet::sheets::safety::{safety, sign};
use rungsheet::sheets::step::{StepBasis, step};

static NONE: std::sync::LazyLock<rungsheet::compute::photos::Photos> =
    std::sync::LazyLock::new(rungsheet::compute::photos::Photos::default);

fn basis(made: &Made) -> StepBasis<'_> {
    StepBasis {
        build: &made.build,
        work: &made.work,
        steps: &made.steps,
        cures: &[],
        photos: &NONE,
        others: &[],
    }
}

fn sheets(made: &Made) -> Vec<Sheet> {
    let basis = basis(made);
    let mut sheets = safety(&basis, &Tab::new("Safety", 1, 8));
    sheets.extend(step(&basis, &Tab::new("Step", 5, 8)));
    sheets.extend(record(&basis, None, &Tab::new("Record", 7, 8)));
    sheets
}

fn actions(sheet: &Sheet) -> Vec<&Action> {
    let lists = sheet.blocks.iter().filter_map(|block| match block {
        Block::Actions(list) => Some(&list.rows),
        _ => None,
    });
    lists
        .flatten()
        .filter_map(|row| match row {
            ActionRow::Action(action) => Some(action),
            _ => None,
        })
        .collect()
}

#[test]
fn every_action_is_on_the_sheet_of_its_step() {
    for made in all() {
        let sheets = step(&basis(&made), &Tab::new("Step", 5, 8));
        assert_eq!(sheets.len(), made.steps.steps.len());
        for (sheet, step) in sheets.iter().zip(&made.steps.steps) {
            let told: Vec<&str> = actions(sheet).iter().map(|a| a.number.as_str()).collect();
            let wanted: Vec<String> = step.actions().map(|a| a.number.to_string()).collect();
            assert_eq!(told, wanted, "{}", step.key);
        }
    }
}

#[test]
fn sheets_name_what_comes_next_and_link_to_it() {
    for made in all() {
        let sheets = step(&basis(&made), &Tab::new("Step", 5, 8));
        for (index, sheet) in sheets.iter().enumerate() {
            let Some(Block::Strong(last)) = sheet.blocks.last() else { panic!("{}", sheet.title) };
            let words = last.plain();
            assert!(words.starts_with("List complete. Next: "), "{words}");
            if let Some(next) = sheets.get(index + 1) {
                assert!(words.contains(&next.title), "{words}");
            }
        }
    }
}

/// A wait ends in a clock to be written down; the bolts' step is told to come after it.
#[test]
fn waits_have_a_clock() {
    let figures = [("cure.F1.load", 17.0, "h")];
    let made = make_with("van", &example("field-van.toml"), &figures);
    let sheets = step(&basis(&made), &Tab::new("Step", 5, 8));
    let bond = sheets.iter().find(|sheet| sheet.anchor == "step-bond").expect("feet are bonded");
    let wait = actions(bond).into_iter().find(|a| matches!(a.done, DoneWhen::Blank(_)));
    let wait = wait.expect("the bond ends in a wait");
    assert!(wait.text.plain().contains("17\u{A0}h"), "{}", wait.text.plain());
    assert!(wait.why.plain().contains("°C"), "the air that it holds for");
}

#[test]
fn everything_fits_on_paper() {
    for made in all() {
        for paper in [Paper::A4, Paper::Letter] {
            let sheets = sheets(&made);
            let steps = sheets.len();
            let packet = Packet {
                paper,
                identity: Identity {
                    number: "FV-1".into(),
                    title: "steps".into(),
                    revision: "A".into(),
                    date: "2026-05-09".into(),
                    fingerprint: "4K7M 9RTX".into(),
                },
                subject: String::new(),
                author: String::new(),
                language: "en".into(),
                voice: rungsheet::page::Voice::default(),
                sheets,
                duplex: false,
                draft: None,
                attachment: None,
            };
            let (document, problems) = lay_out(&packet);
            assert!(problems.is_empty(), "{}: {problems:#?}", made.name);
            assert!(document.pages.len() <= steps * 3, "{} pages", document.pages.len());
        }
    }
}

/// ISO 7010 signs: every number that a message names is drawn and says its number.
#[test]
fn every_sign_that_a_message_names_is_drawn() {
    for made in all() {
        for message in &made.steps.messages {
            if let Some(number) = &message.sign {
                let scene = sign(number).unwrap_or_else(|| panic!("{number}"));
                assert!(scene.alt.contains(number.as_str()));
            }
        }
    }
}
