//! The battery sheet: where it stands, what holds it, what it needs round it.

use super::scenes::battery_plan;
use super::words::kg;
use super::{Basis, Kind};
use crate::build::{Battery, Restraint};
use crate::compute::restraint::{BlockScrew, RestraintUse};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Column, Dotted, Figure, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Length, Unit, display};

/// The sheet; none without a battery.
pub(super) fn battery(basis: &Basis) -> Vec<Sheet> {
    let Some(battery) = &basis.build.battery else { return Vec::new() };
    let mut blocks = Vec::new();
    if let Some(held) = &basis.build.restraint {
        blocks.push(Block::Figure(Figure::new(battery_plan(battery, held), 110.0)));
    }
    let mut right = vec![Block::Heading(Heading::new("Held by"))];
    if let Some(held) = &basis.build.restraint {
        right.push(Block::Dotted(held_by(held)));
    } else {
        right.push(Block::Paragraph("Nothing is stated: see the findings on the cover.".into()));
    }
    blocks.push(Block::Columns(vec![
        Column::new(
            3,
            vec![Block::Heading(Heading::new("Battery")), Block::Dotted(about(battery))],
        ),
        Column::new(3, right),
    ]));
    if let Some(uses) = &basis.results.restraint {
        blocks.push(Block::Heading(
            Heading::new("Forces and what holds against them").aside("friction is not counted"),
        ));
        blocks.push(Block::Table(forces(uses)));
        blocks.push(Block::Paragraph(crash(uses)));
    }
    blocks.push(Block::Heading(Heading::new("Air and temperature")));
    blocks.push(Block::Bullets(needs(battery)));
    vec![Sheet {
        anchor: "battery".into(),
        title: "Battery".into(),
        purpose: "Where the battery stands, what holds it, and what it must not get.".into(),
        tab: Some(Kind::Battery.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }]
}

fn dotted(rows: Vec<(&str, String)>) -> Dotted {
    Dotted { groups: vec![rows.into_iter().map(|(a, b)| (a.into(), b.into())).collect()] }
}

fn about(battery: &Battery) -> Dotted {
    dotted(vec![
        ("mark", battery.mark.value.clone()),
        ("kind", battery.chemistry.words.clone()),
        ("voltage", (*battery.voltage).to_string()),
        ("capacity", (*battery.capacity).to_string()),
        ("mass", kg(*battery.mass)),
        (
            "size",
            format!(
                "{} × {} × {}",
                short(*battery.length),
                short(*battery.width),
                short(*battery.height)
            ),
        ),
        ("place", battery.place.value.clone()),
    ])
}

/// To the tenth, as steps tell it.
fn short(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}

fn held_by(held: &Restraint) -> Dotted {
    let screw = BlockScrew::of(held);
    let (head, point) = (screw.sink > Length::ZERO, screw.passes > Length::ZERO);
    dotted(vec![
        ("blocks", format!("{}, {} high", *held.blocks, short(*held.block_height))),
        ("screws a block", held.screws_a_block.to_string()),
        ("screw", format!("{} × {}", short(*held.screw_diameter), short(*held.screw_length))),
        ("pilot", short(screw.pilot)),
        (
            "heads",
            if head {
                format!("sunk {} in holes of {}", short(screw.sink), short(screw.bore))
            } else {
                "flush with the block".to_owned()
            },
        ),
        (
            "points",
            if point {
                format!("{} below the floor", short(screw.passes))
            } else {
                "at the floor’s lower face".to_owned()
            },
        ),
        ("floor", format!("{}, {}", held.floor.words, short(*held.floor_thickness))),
        (
            "straps",
            format!(
                "{}, {}\u{a0}N each",
                *held.straps,
                display::number(held.strap_capacity.to_n(), 0)
            ),
        ),
    ])
}

fn forces(uses: &RestraintUse) -> Table {
    let rows = uses
        .directions
        .iter()
        .map(|direction| {
            Row::new(vec![
                Cell::Head(direction.name.into()),
                display::number(direction.force.to_n(), 0).into(),
                direction.by.clone().into(),
                display::number(direction.capacity.to_n(), 0).into(),
                Cell::Bold(display::capacity_used(direction.share.to_fraction()).into()),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("way"),
            TableColumn::number("force, N"),
            TableColumn::left("held by"),
            TableColumn::number("holds, N"),
            TableColumn::number("use"),
        ],
        rows,
        ..Table::default()
    }
}

fn crash(uses: &RestraintUse) -> Text {
    let newtons = |force: crate::units::Force| display::number(force.to_n(), 0);
    let mut words = format!(
        "For information: a crash pulls with {}\u{a0}N forward and {}\u{a0}N sideways; what is fitted here is for the road.",
        newtons(uses.crash.0),
        newtons(uses.crash.1)
    );
    if uses.tips {
        words.push_str(" Without its strap the battery tips over the blocks.");
    }
    words.into()
}

fn needs(battery: &Battery) -> Vec<Text> {
    let row = &battery.chemistry;
    let range = |span: [crate::units::Temperature; 2]| {
        let t = |v: crate::units::Temperature| {
            display::with_unit(&display::number(v.to_celsius(), 0), "°C")
        };
        format!("{} to {}", t(span[0]), t(span[1]))
    };
    vec![
        sentence(&row.ventilation),
        sentence(&row.cold),
        format!(
            "Charging at {}, use at {}, storage at {}.",
            range(row.charge),
            range(row.discharge),
            range(row.storage)
        )
        .into(),
    ]
}

/// Words of a table as a sentence.
fn sentence(words: &str) -> Text {
    let mut letters = words.chars();
    let first: String =
        letters.next().map_or_else(String::new, |l| l.to_uppercase().chain(letters).collect());
    format!("{first}.").into()
}
