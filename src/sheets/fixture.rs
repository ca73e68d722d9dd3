//! Sheets of things bolted through a skin: where they sit, what pulls at them, what holds.

use super::scenes::{Plan, fixture_place, fixture_view, use_bar};
use super::words::{kg, mm};
use super::{Basis, Kind};
use crate::build::{FixedOn, Fixture};
use crate::compute::fixtures::FixtureUse;
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Column, Dotted, Figure, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Force, Length, display};

/// Greatest height of the drawing, mm.
const DRAWING: f64 = 75.0;

/// One sheet a fixture.
pub(super) fn fixture(basis: &Basis) -> Vec<Sheet> {
    let own = |found: &FixtureUse| {
        basis.build.fixtures.iter().find(|fixture| fixture.mark.value == found.mark)
    };
    let all = basis.results.fixtures.iter();
    all.filter_map(|found| Some(sheet(basis, own(found)?, found))).collect()
}

fn sheet(basis: &Basis, fixture: &Fixture, found: &FixtureUse) -> Sheet {
    let told = match *fixture.on {
        FixedOn::Roof => {
            "Not computed: the thing itself, its lid, fatigue of the skin. A lid is shut before driving; \
             its maker's speed counts where it is lower."
        }
        FixedOn::RearDoor => {
            "Not computed: hinges, lock and frame of the door, fatigue of the skin, a crash. What the \
             vehicle's maker allows on this door decides, and the approval office after that: lamps, \
             plate, view behind, length and sharp edges."
        }
    };
    Sheet {
        anchor: format!("fixture-{}", found.mark),
        title: format!("Fixture {}: {}", found.mark, found.name),
        purpose: "Where it is bolted, what pulls at its bolts and what they and the skin hold."
            .into(),
        tab: Some(Kind::Loads.tab()),
        steps: None,
        blocks: vec![
            Block::Dotted(Dotted { groups: facts(fixture, found) }),
            drawings(basis, fixture),
            Block::Heading(
                Heading::new("What pulls").aside("on all bolts, and on the one that gets most"),
            ),
            Block::Table(cases(found)),
            Block::Heading(Heading::new("What holds").aside("each in its worst case")),
            Block::Table(uses(found)),
            Block::Paragraph(told.into()),
        ],
        single_sided: false,
    }
}

/// Where it sits, and beside that what it looks like from the side.
fn drawings(basis: &Basis, fixture: &Fixture) -> Block {
    let on = Plan { build: basis.build, work: basis.work };
    let side = Block::Figure(Figure::new(fixture_view(basis.build, fixture), DRAWING));
    match fixture_place(&on, fixture) {
        Some(place) => Block::Columns(vec![
            Column::new(3, vec![Block::Figure(Figure::new(place, DRAWING))]),
            Column::new(3, vec![side]),
        ]),
        None => side,
    }
}

type Rows = Vec<(Text, Text)>;

fn facts(fixture: &Fixture, found: &FixtureUse) -> Vec<Rows> {
    let side = |at: Length| if at < Length::ZERO { "left" } else { "right" };
    let mut rows: Vec<(String, String)> = match *fixture.on {
        FixedOn::Roof => vec![
            ("middle, behind the datum".into(), mm(*fixture.x, 0)),
            (format!("middle, {} of the centre line", side(*fixture.y)), mm(fixture.y.abs(), 0)),
        ],
        FixedOn::RearDoor => vec![
            (format!("middle, {} of the door's middle", side(*fixture.x)), mm(fixture.x.abs(), 0)),
            ("middle, over the door's lower edge".into(), mm(*fixture.y, 0)),
        ],
    };
    rows.push(("pattern of the holes".into(), format!("part {}, drilled", *fixture.part)));
    rows.push(("bolts".into(), format!("{} × {} A2-70", found.bolts, fixture.thread.name)));
    if let Some(sides) = &fixture.opening {
        let told = |side: Length| display::number(side.to_mm(), 0);
        rows.push(("opening".into(), format!("{} × {}\u{a0}mm", told(*sides[0]), told(*sides[1]))));
    }
    let skin = format!("{}, {}", fixture.skin.words, mm(*fixture.skin_thickness, 1));
    let behind = fixture.backing.as_ref();
    let mut more: Vec<(String, String)> = vec![
        ("mass, with what it carries".into(), kg(*fixture.mass)),
        ("skin to the middle of it".into(), mm(*fixture.reach, 0)),
        ("skin".into(), skin),
        (
            "behind the skin".into(),
            behind.map_or_else(|| "large washers".into(), |t| format!("plate of {}", mm(**t, 1))),
        ),
        (
            "torque of the nuts, at most".into(),
            format!("{}\u{a0}N·m", display::number(found.torque.to_nm(), 1)),
        ),
    ];
    if let Some(moment) = found.at_hinges {
        let told = format!("{}\u{a0}N·m", display::number(moment.to_nm(), 0));
        more.push(("turns the door on a bump".into(), told));
    }
    let text = |rows: Vec<(String, String)>| -> Rows {
        rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect()
    };
    vec![text(rows), text(more)]
}

fn newton(force: Force) -> String {
    display::number(force.to_n().max(0.0), 0)
}

fn cases(found: &FixtureUse) -> Table {
    Table {
        columns: vec![
            TableColumn::left("case"),
            TableColumn::right("off the skin, N"),
            TableColumn::right("along it, N"),
            TableColumn::right("tips it, N·m"),
            TableColumn::right("bolt pulled, N"),
            TableColumn::right("bolt sheared, N"),
        ],
        rows: found
            .cases
            .iter()
            .map(|case| {
                let tips = case.pitch.to_nm().hypot(case.roll.to_nm());
                Row::new(vec![
                    Cell::Head(case.name.into()),
                    newton(case.pull).into(),
                    newton(case.slide).into(),
                    display::number(tips, 0).into(),
                    newton(case.bolt[0]).into(),
                    newton(case.bolt[1]).into(),
                ])
            })
            .collect(),
        ..Table::default()
    }
}

fn uses(found: &FixtureUse) -> Table {
    Table {
        columns: vec![
            TableColumn::left("what"),
            TableColumn::left("case"),
            TableColumn::right("has, N"),
            TableColumn::right("may have, N"),
            TableColumn::number("use"),
            TableColumn::left("0 to 1"),
        ],
        rows: found
            .uses
            .iter()
            .map(|one| {
                Row::new(vec![
                    Cell::Head(one.what.into()),
                    one.case.into(),
                    display::number(one.has, 0).into(),
                    display::number(one.may, 0).into(),
                    Cell::Bold(display::capacity_used(one.share).into()),
                    Cell::Scene(use_bar(one.what, one.share)),
                ])
            })
            .collect(),
        ..Table::default()
    }
}
