//! The battery sheet: where it stands, what holds it, what it needs round it.

use super::scenes::battery_plan;
use super::words::kg;
use super::{Basis, Kind};
use crate::build::{Anchor, Battery, HoldBy, Restraint, RowWay};
use crate::compute::restraint::{BlockScrew, RestraintUse, floor_bolts};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Column, Dotted, Figure, Heading, Row, Table, TableColumn};
use crate::page::text::Text;
use crate::units::{Force, Length, Unit, display};

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
    if let Some((uses, held)) = basis.results.restraint.as_ref().zip(basis.build.restraint.as_ref())
    {
        blocks.push(Block::Heading(
            Heading::new("Forces and what holds against them").aside(held.level.words.clone()),
        ));
        blocks.push(Block::Table(forces(uses)));
        blocks.push(Block::Heading(
            Heading::new("What each piece may carry").aside("worked out or by its label"),
        ));
        blocks.push(Block::Table(pieces(uses)));
        blocks.push(Block::Heading(
            Heading::new("Every level")
                .aside("bold: what is asked here; the others for information"),
        ));
        blocks.push(Block::Table(levels(uses)));
        blocks.push(Block::Bullets(told(uses, held, Some(battery).filter(|own| *own.count > 1))));
    }
    blocks.push(Block::Heading(Heading::new("Air and temperature")));
    blocks.push(Block::Bullets(needs(basis, battery)));
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
    let bank = *battery.count > 1;
    let mut rows = vec![
        (if bank { "marks" } else { "mark" }, battery.marks().join(", ")),
        ("kind", battery.chemistry.words.clone()),
    ];
    if bank {
        let (series, beside) = (*battery.in_series, battery.strings());
        let joined = match (series, beside) {
            (1, _) => format!("{beside} side by side"),
            (_, 1) => format!("{series} one behind the other"),
            _ => format!("{beside} strings of {series}"),
        };
        let row = match *battery.row {
            RowWay::Across => "in a row across",
            RowWay::Along => "in a row along",
        };
        let whole = format!("{}, {}", battery.bank_voltage(), battery.bank_capacity());
        rows.extend([
            ("joined", joined),
            ("together", whole),
            ("mass of all", kg(battery.bank_mass())),
            ("stand", format!("{row}, {} apart", short(*battery.row_gap))),
        ]);
    }
    rows.extend([
        (if bank { "voltage of one" } else { "voltage" }, (*battery.voltage).to_string()),
        (if bank { "capacity of one" } else { "capacity" }, (*battery.capacity).to_string()),
        (if bank { "mass of one" } else { "mass" }, kg(*battery.mass)),
        (
            if bank { "size of one" } else { "size" },
            format!(
                "{} × {} × {}",
                short(*battery.length),
                short(*battery.width),
                short(*battery.height)
            ),
        ),
        ("place", battery.place.value.clone()),
    ]);
    dotted(rows)
}

/// To the tenth, as steps tell it.
fn short(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}

fn held_by(held: &Restraint) -> Dotted {
    let kind = match *held.kind {
        HoldBy::TopOver => "straps over the top",
        HoldBy::Direct => "straps from each side",
        HoldBy::Cradle => "cradle bolted through the floor",
    };
    let mut rows = vec![("way", kind.to_owned())];
    if *held.blocks > 0 {
        rows.push(("blocks", format!("{}, {} high", *held.blocks, short(*held.block_height))));
    }
    if let (Some(own), Some(screw)) = (BlockScrew::of(held), &held.screw) {
        let heads = if own.sink > Length::ZERO {
            format!("sunk {} in holes of {}", short(own.sink), short(own.bore))
        } else {
            "flush with the block".to_owned()
        };
        let points = if own.passes > Length::ZERO {
            format!("{} below the floor", short(own.passes))
        } else {
            "at the floor’s lower face".to_owned()
        };
        rows.extend([
            ("screws a block", held.screws_a_block.to_string()),
            ("screw", format!("{} × {}", short(*screw.diameter), short(*screw.length))),
            ("pilot", short(own.pilot)),
            ("heads", heads),
            ("points", points),
        ]);
    }
    for set in floor_bolts(held) {
        let plate = set.bolt.spreader.as_ref().map_or_else(
            || "large washer".to_owned(),
            |plate| {
                format!(
                    "plate {} × {} × {}",
                    short(*plate.length),
                    short(*plate.width),
                    short(*plate.thickness)
                )
            },
        );
        rows.push((
            set.what,
            format!(
                "{} bolts {}, {}, {plate}",
                set.count, set.bolt.thread.name, set.bolt.grade.name
            ),
        ));
    }
    rows.push(("floor", format!("{}, {}", held.floor.words, short(*held.floor_thickness))));
    if *held.straps > 0 {
        let newtons = |force: Force| format!("{}\u{a0}N", display::number(force.to_n(), 0));
        rows.push((
            "straps",
            format!(
                "{}, {} each, drawn to {}",
                *held.straps,
                newtons(*held.strap_capacity),
                newtons(*held.strap_tension)
            ),
        ));
        rows.push(("strap to floor", display::in_unit_short(*held.strap_angle, Unit::DEG, 0)));
        let ends = match &held.anchor {
            None => Some("not stated".to_owned()),
            Some(Anchor::Fitting(capacity)) => Some(format!("fitting for {}", newtons(**capacity))),
            Some(Anchor::Screws(screw, count)) => Some(format!(
                "{} wood screws {} × {}",
                **count,
                short(*screw.diameter),
                short(*screw.length)
            )),
            Some(Anchor::Bolts(_)) => None,
        };
        rows.extend(ends.map(|ends| ("strap ends", ends)));
    }
    dotted(rows)
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

fn pieces(uses: &RestraintUse) -> Table {
    let rows = uses
        .pieces
        .iter()
        .map(|piece| {
            Row::new(vec![
                Cell::Head(piece.what.clone().into()),
                display::number(piece.holds.to_n(), 0).into(),
                piece.by.clone().into(),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("piece"),
            TableColumn::number("carries, N"),
            TableColumn::left("by"),
        ],
        rows,
        ..Table::default()
    }
}

fn levels(uses: &RestraintUse) -> Table {
    let rows = uses
        .levels
        .iter()
        .map(|level| {
            let mut cells = vec![if level.asked {
                Cell::Head(level.words.clone().into())
            } else {
                level.words.clone().into()
            }];
            cells.extend(
                level.forces.iter().map(|force| Cell::from(display::number(force.to_n(), 0))),
            );
            cells.push(Cell::Bold(
                if level.most.1.to_fraction() > 99.0 {
                    "none holds".to_owned()
                } else {
                    display::capacity_used(level.most.1.to_fraction())
                }
                .into(),
            ));
            cells.push(level.most.0.into());
            Row::new(cells)
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("level, forces in N"),
            TableColumn::number("forward"),
            TableColumn::number("rearward"),
            TableColumn::number("sideways"),
            TableColumn::number("up"),
            TableColumn::number("most used"),
            TableColumn::left("way"),
        ],
        rows,
        ..Table::default()
    }
}

fn told(uses: &RestraintUse, held: &Restraint, bank: Option<&Battery>) -> Vec<Text> {
    let mut list: Vec<Text> = Vec::new();
    if uses.levels.iter().any(|level| !level.asked && level.most.1.to_fraction() > 1.0) {
        list.push("Above 1.00 what is fitted here does not hold that level.".into());
    }
    if uses.tips {
        list.push("Without its strap the battery tips over the blocks.".into());
    }
    if let Some(needed) = uses.lashings {
        let count = |count: f64| display::number(count.ceil(), 0);
        list.push(
            format!(
                "Straps over the top that friction alone would take, forward: {} by EN\u{a0}12195-1:2010 (2 × tension, friction {}, safety 1.25), {} by its edition of 2003 (1.5 × tension, 0.7 of that friction).",
                count(needed.new),
                display::number_short(held.friction.to_fraction(), 2),
                count(needed.old)
            )
            .into(),
        );
    }
    let most = |names: [&str; 3]| {
        let pulls = uses.directions.iter().filter(|direction| names.contains(&direction.name));
        let most = pulls.map(|direction| direction.force).fold(Force::ZERO, Force::max);
        display::number(most.to_n(), 0)
    };
    list.push(
        format!(
            "The floor itself is fixed to the body for {}\u{a0}N along it and {}\u{a0}N up.",
            most(["forward", "rearward", "sideways"]),
            most(["up", "", ""])
        )
        .into(),
    );
    if let Some(battery) = bank {
        list.push(
            format!(
                "The row is held as one: gaps of {} are filled with firm packers, two to a side.",
                short(*battery.row_gap)
            )
            .into(),
        );
    }
    list.push("Friction and wood screws pulled along do not count in a crash.".into());
    list
}

fn needs(basis: &Basis, battery: &Battery) -> Vec<Text> {
    let row = &battery.chemistry;
    let range = |span: [crate::units::Temperature; 2]| {
        let t = |v: crate::units::Temperature| {
            display::with_unit(&display::number(v.to_celsius(), 0), "°C")
        };
        format!("{} to {}", t(span[0]), t(span[1]))
    };
    let mut list = vec![sentence(&row.ventilation)];
    if let Some(vent) = &basis.results.vent {
        list.push(
            format!(
                "Two openings to the outside, one low, one high, {} each: {} of air an hour while it is charged.",
                display::with_unit(&display::number(vent.area.to_cm2().ceil(), 0), "cm²"),
                display::with_unit(&display::number(vent.flow, 2), "m³")
            )
            .into(),
        );
    }
    list.push("Both terminals stay covered: nothing of metal can fall across them.".into());
    list.extend([
        sentence(&row.cold),
        format!(
            "Charging at {}, use at {}, storage at {}.",
            range(row.charge),
            range(row.discharge),
            range(row.storage)
        )
        .into(),
        format!(
            "Its place gets as hot as {}.",
            display::with_unit(&display::number(battery.hottest.to_celsius(), 0), "°C")
        )
        .into(),
    ]);
    list
}

/// Words of a table as a sentence.
fn sentence(words: &str) -> Text {
    let mut letters = words.chars();
    let first: String =
        letters.next().map_or_else(String::new, |l| l.to_uppercase().chain(letters).collect());
    format!("{first}.").into()
}
