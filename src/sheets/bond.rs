//! Bond sheets: layout of strips and beads, use of capacity, surface, preparation and waits.

mod waits;

use std::fmt::Write as _;
pub(super) use waits::{bead_word, day_table};
use waits::{named_wait_blocks, wait_blocks};

use super::scenes::bond_plan;
use super::words::{day_name, hour, mm, within};
use super::{Basis, Kind};
use crate::build::MountKind;
use crate::compute::bonding::{AIM, BondUse, Least};
use crate::compute::cure::{FOOT_SEALS, JointCure, JointKind};
use crate::compute::quantities::drops_words;
use crate::compute::steps::facts::{mark_order, marks};
use crate::derive::{Bond, PartKind};
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Column, Dotted, Figure, Heading, Row, Table, TableColumn};
use crate::tables::Cure;
use crate::units::{Duration, Length, Temperature, display};

/// One sheet for joints that are laid out alike.
pub(super) fn bond(basis: &Basis) -> Vec<Sheet> {
    let mut groups: Vec<Vec<&Bond>> = Vec::new();
    for bond in &basis.work.bonds {
        match groups.iter_mut().find(|group| alike(group[0], bond)) {
            Some(group) => group.push(bond),
            None => groups.push(vec![bond]),
        }
    }
    let mut sheets: Vec<Sheet> = groups.iter().map(|group| sheet(basis, group)).collect();
    let parts = seal(basis).into_iter().chain(foot_seals(basis)).chain(threads(basis));
    for (anchor, title, purpose, blocks) in parts {
        if let Some(last) = sheets.last_mut() {
            // It goes on where the last bond ends.
            last.blocks.push(Block::Heading(Heading::new(title).anchor(anchor)));
            last.blocks.extend(blocks);
        } else {
            sheets.push(Sheet {
                anchor,
                title,
                purpose,
                tab: Some(Kind::Bond.tab()),
                steps: None,
                blocks,
                single_sided: false,
            });
        }
    }
    sheets
}

/// What goes on where the last bond ends: anchor, title, purpose of a sheet of its own, blocks.
type Part = (String, String, String, Vec<Block>);

/// Bolts that threadlocker holds.
fn threads(basis: &Basis) -> Option<Part> {
    let of: Vec<&JointCure> =
        basis.results.cures.iter().filter(|cure| cure.kind == JointKind::Threads).collect();
    let first = of.first()?;
    let names: Vec<&str> = of.iter().map(|cure| cure.mark.as_str()).collect();
    let rows = [
        ("bolts", names.join(", ")),
        ("on each thread", drops_words(&basis.results.shopping.locked)),
        ("both threads", "cleaned, activator on, dry before the threadlocker".to_owned()),
        ("tighten within", first.open_time.map_or("at once".to_owned(), within)),
        ("preload", "carries the frame at rest at once; the wait is for shaking".to_owned()),
    ];
    let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
    let mut blocks = vec![Block::Dotted(Dotted { groups: vec![rows] })];
    blocks.extend(wait_blocks(basis, "threadlocker", &of));
    Some((
        "threads".into(),
        "Threadlocker".into(),
        "Bolts that are locked, and how long before they may be shaken.".into(),
        blocks,
    ))
}

fn alike(a: &Bond, b: &Bond) -> bool {
    a.length == b.length
        && a.width == b.width
        && a.strips == b.strips
        && a.beads == b.beads
        && a.tape.as_ref().map(|t| (&t.0.name, t.1)) == b.tape.as_ref().map(|t| (&t.0.name, t.1))
        && a.adhesive.as_ref().map(|x| &x.name) == b.adhesive.as_ref().map(|x| &x.name)
}

fn sheet(basis: &Basis, group: &[&Bond]) -> Sheet {
    let bond = group[0];
    let marks: Vec<&str> = group.iter().map(|b| b.mark.as_str()).collect();
    let list = marks.join(", ");
    let uses: Vec<&BondUse> =
        basis.results.bonds.iter().filter(|u| marks.contains(&u.mark.as_str())).collect();
    let cures: Vec<&JointCure> =
        basis.results.cures.iter().filter(|c| marks.contains(&c.mark.as_str())).collect();
    let mut blocks = vec![
        Block::Figure(Figure::new(bond_plan(bond), 84.0).caption(legend(bond))),
        Block::Columns(vec![
            Column::new(
                3,
                vec![
                    Block::Heading(Heading::new("Joint")),
                    Block::Dotted(joint(basis, group, &uses)),
                ],
            ),
            Column::new(
                3,
                vec![
                    Block::Heading(Heading::new("Surface")),
                    Block::Dotted(surface(basis, bond, &cures)),
                ],
            ),
        ]),
        Block::Heading(
            Heading::new("Prepare").aside("metal and skin alike, within the hour of bonding"),
        ),
        Block::Bullets(prepare(basis, bond)),
    ];
    if !uses.is_empty() {
        blocks.push(Block::Heading(
            Heading::new("Use of capacity")
                .aside(format!("1 is all of it; held by the {}", uses[0].carrier.name())),
        ));
        blocks.push(Block::Table(use_table(&uses)));
        blocks.extend(least(&uses));
    }
    if !cures.is_empty() {
        blocks.extend(wait_blocks(basis, "bond", &cures));
    }
    Sheet {
        anchor: format!("bond-{}", bond.mark),
        title: format!("Bond at {list}"),
        purpose: "Plate, strips and bead, what they carry, how long they need.".into(),
        tab: Some(Kind::Bond.tab()),
        steps: None,
        blocks,
        single_sided: false,
    }
}

/// The seal of the cable entry, which carries nothing but keeps the rain out.
/// Name to link to, title and blocks.
fn seal(basis: &Basis) -> Option<Part> {
    let (entry, stated) = (basis.work.entry.as_ref()?, basis.build.entry.as_ref()?);
    let cure = basis.results.cures.iter().find(|cure| cure.mark == entry.mark)?;
    let mut packers: Vec<&str> = basis
        .work
        .parts
        .iter()
        .filter(|part| part.kind == PartKind::PanelPacker)
        .flat_map(|part| part.pieces.iter().map(|piece| piece.mark.as_str()))
        .collect();
    packers.sort_by_key(|mark| mark_order(mark));
    let rows = [
        ("sealant", stated.sealing.words.clone()),
        ("housing held by", "its seal alone: bead under the foot, fillet round it".to_owned()),
        ("hole", mm(*stated.hole, 1)),
        ("foot of the housing", format!("{} × {}", mm(*stated.length, 0), mm(*stated.width, 0))),
    ];
    let mut rows: Vec<(String, String)> =
        rows.into_iter().map(|(label, value)| (label.to_owned(), value)).collect();
    rows.extend(limits(basis, cure));
    rows.extend(nozzle(basis, "entry.nozzle"));
    if !packers.is_empty() {
        let words = "set dry on the skin, held by a fillet of the same sealant; they carry no pull";
        rows.push(("panel packers".to_owned(), format!("{}: {words}", marks(&packers))));
    }
    let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
    let mut blocks = vec![Block::Dotted(Dotted { groups: vec![rows] })];
    blocks.extend(wait_blocks(basis, "seal", &[cure]));
    Some((
        format!("seal-{}", entry.mark),
        format!("Seal at {}", entry.mark),
        "What seals the cable entry, and how long it needs.".into(),
        blocks,
    ))
}

/// The seals of the feet that are bolted through the skin: all are made in one step.
fn foot_seals(basis: &Basis) -> Option<Part> {
    let cure = basis.results.cures.iter().find(|cure| cure.mark == FOOT_SEALS)?;
    let mut feet: Vec<&str> = Vec::new();
    let mut sealant = None;
    for mount in &basis.work.mounts {
        if let Some(MountKind::BoltedFoot(foot)) =
            basis.build.mounts.get(mount.mount).map(|mount| &mount.kind)
        {
            feet.push(&mount.mark);
            sealant = sealant.or(Some(&foot.sealing));
        }
    }
    feet.sort_by_key(|mark| mark_order(mark));
    let mut rows = vec![
        ("sealant".to_owned(), sealant?.words.clone()),
        ("feet".to_owned(), marks(&feet)),
        ("laid".to_owned(), "bed under the whole leg, fillet round it, round each bolt".to_owned()),
    ];
    rows.extend(limits(basis, cure));
    rows.extend(nozzle(basis, "bolted.nozzle"));
    let rows = rows.into_iter().map(|(label, value)| (label.into(), value.into())).collect();
    let mut blocks = vec![Block::Dotted(Dotted { groups: vec![rows] })];
    blocks.extend(named_wait_blocks(basis, "foot seals", &[cure], &feet));
    Some((
        "foot-seals".into(),
        "Seals of the bolted feet".into(),
        "What keeps rain out of the roof bolts, and how long it needs.".into(),
        blocks,
    ))
}

/// What the surface must be while a seal is made.
fn limits(basis: &Basis, cure: &JointCure) -> Vec<(String, String)> {
    let degrees = |t: Temperature| display::with_unit(&display::number(t.to_celsius(), 0), "°C");
    let mut rows = vec![
        (
            "skin temperature".to_owned(),
            format!("{} to {}", degrees(cure.surface.low), degrees(cure.surface.high)),
        ),
        (
            "over the dew point".to_owned(),
            format!("{}\u{a0}K or more", display::number(cure.surface.margin.to_k(), 0)),
        ),
    ];
    rows.extend(fit(basis, cure));
    rows.extend(cure.open_time.map(|open| ("tool it within".to_owned(), within(open))));
    rows
}

/// Hours in which the surface is fit, by the forecast of the day on which the joint is made.
fn fit(basis: &Basis, cure: &JointCure) -> Option<(String, String)> {
    let day = (cure.made / Duration::days(1.0)).floor() as i64;
    let hours: Vec<String> =
        cure.fit.iter().map(|(from, to)| format!("{} to {}", hour(*from), hour(*to))).collect();
    let name = day_name(basis, day);
    (!hours.is_empty()).then(|| (format!("fit by forecast, {name}"), hours.join(", ")))
}

/// How the nozzle is cut for a seal.
fn nozzle(basis: &Basis, fact: &str) -> Option<(String, String)> {
    let cut = basis.results.steps.facts.words(fact)?;
    Some(("nozzle cut".to_owned(), format!("V notch, {cut} wide and high")))
}

fn legend(bond: &Bond) -> String {
    match (bond.strips.is_empty(), bond.beads.is_empty()) {
        (false, false) => "Hatched: tape. Tinted: bead, its arrow from start to end.".into(),
        (false, true) => "Hatched: tape.".into(),
        _ => "Tinted: bead, its arrow from start to end.".into(),
    }
}

fn area(rects: &[crate::geometry::Rect]) -> String {
    let all: f64 = rects.iter().map(|r| r.area().to_mm2()).sum();
    format!("{}\u{a0}mm²", display::number(all, 0))
}

fn span(group: &[&Bond], pick: fn(&Bond) -> Length) -> (Length, Length) {
    group
        .iter()
        .map(|b| pick(b))
        .fold((pick(group[0]), pick(group[0])), |s, v| (s.0.min(v), s.1.max(v)))
}

fn joint(basis: &Basis, group: &[&Bond], uses: &[&BondUse]) -> Dotted {
    let bond = group[0];
    let mut rows: Vec<(crate::page::text::Text, crate::page::text::Text)> = Vec::new();
    if let Some((tape, thickness)) = &bond.tape {
        rows.push(("tape".into(), tape.words.clone().into()));
        rows.push(("tape thickness".into(), mm(*thickness, 1).into()));
        rows.push((
            "strips".into(),
            format!(
                "{} × {}",
                bond.strips.len(),
                bond.strips.first().map_or(String::new(), |s| mm(s.height(), 1))
            )
            .into(),
        ));
        rows.push(("tape area".into(), area(&bond.strips).into()));
        rows.extend(bought(basis, &tape.words).map(|buy| ("tape to buy".into(), buy.into())));
    }
    if let Some(adhesive) = &bond.adhesive {
        rows.push(("bead".into(), adhesive.words.clone().into()));
        let wide = bond.beads.first().map(|b| b.height().min(b.width()));
        if let Some(wide) = wide {
            rows.push((
                "beads, pressed".into(),
                format!("{} × {}", bond.beads.len(), mm(wide, 1)).into(),
            ));
        }
        rows.push(("bead area".into(), area(&bond.beads).into()));
        let buy = bought(basis, &adhesive.words);
        rows.extend(buy.map(|buy| ("adhesive to buy".into(), buy.into())));
        if let Some(cut) = basis.results.steps.facts.words("bead.nozzle") {
            rows.push(("nozzle cut".into(), format!("V notch, {cut} wide and high").into()));
        }
    }
    let (thin, _) = span(group, |b| b.thickness);
    let (_, thick) = span(group, |b| b.thickest);
    rows.push(("bond thickness".into(), format!("{} to {}", mm(thin, 1), mm(thick, 1)).into()));
    rows.push(("plate".into(), bond.plate.words.clone().into()));
    let heat = uses.iter().map(|u| u.heat.movement).fold(Length::ZERO, Length::max);
    if heat > Length::ZERO {
        rows.push(("heat moves it".into(), format!("±{}", mm(heat, 2)).into()));
    }
    Dotted { groups: vec![rows] }
}

/// Packs of the shopping list, for all joints together.
fn bought(basis: &Basis, words: &str) -> Option<String> {
    let lines = basis.results.shopping.shelves.iter().flat_map(|shelf| &shelf.lines);
    lines.into_iter().find(|line| line.what.starts_with(words)).map(|line| line.buy.clone())
}

fn surface(basis: &Basis, bond: &Bond, cures: &[&JointCure]) -> Dotted {
    let mut rows: Vec<(crate::page::text::Text, crate::page::text::Text)> = Vec::new();
    if let Some(vehicle) = &basis.build.vehicle {
        rows.push(("skin".into(), vehicle.skin.material.words.clone().into()));
        let finish = match *vehicle.skin.finish {
            crate::build::Finish::Paint => "sound paint",
            crate::build::Finish::OldPaint => "old paint: the paint is the joint",
            crate::build::Finish::Gelcoat => "gelcoat",
            crate::build::Finish::ChalkyGelcoat => "chalky gelcoat",
            crate::build::Finish::Bare => "bare metal",
        };
        rows.push(("finish".into(), finish.into()));
    }
    if let Some(cure) = cures.first() {
        let t = |v: Temperature| display::with_unit(&display::number(v.to_celsius(), 0), "°C");
        rows.push((
            "skin temperature".into(),
            format!("{} to {}", t(cure.surface.low), t(cure.surface.high)).into(),
        ));
        rows.push((
            "over the dew point".into(),
            format!("{}\u{a0}K or more", display::number(cure.surface.margin.to_k(), 0)).into(),
        ));
        rows.extend(fit(basis, cure).map(|(label, hours)| (label.into(), hours.into())));
        if let Some(path) = cure.path {
            rows.push(("air’s way into the bead".into(), mm(path, 1).into()));
        }
    }
    if let Some((tape, _)) = &bond.tape {
        let kpa = display::number(tape.application_pressure.to_kpa(), 0);
        // A roller or block touches about 10 mm of a strip at a time.
        let strip = bond.strips.first().map_or(Length::ZERO, |s| s.height().min(s.width()));
        let force = tape.application_pressure * (strip * Length::mm(10.0));
        rows.push((
            "press on".into(),
            format!(
                "{kpa}\u{a0}kPa: {}\u{a0}N on each 10\u{a0}mm of strip",
                display::number(force.to_n(), 0)
            )
            .into(),
        ));
    }
    // The shortest of all of them, in the air of the plan.
    if let Some(open) = cures.iter().filter_map(|cure| cure.open_time).reduce(Duration::min) {
        rows.push(("close the bead within".into(), within(open).into()));
    }
    if let Some(Cure::Mixed { pot_life, halves_per, .. }) = bond.adhesive.as_ref().map(|a| a.cure) {
        let told = format!(
            "{} at 23\u{a0}°C, half with each {}\u{a0}K more",
            within(pot_life),
            display::number(halves_per.to_k(), 0)
        );
        rows.push(("use what is mixed within".into(), told.into()));
    }
    Dotted { groups: vec![rows] }
}

fn prepare(basis: &Basis, bond: &Bond) -> Vec<crate::page::text::Text> {
    let facts = &basis.results.steps.facts;
    let cleaner = facts.words("cleaner.words").unwrap_or("the cleaner of the shopping list");
    let flash = match (facts.words("cleaner.low"), facts.words("cleaner.high")) {
        (Some(low), Some(high)) => {
            format!("{}\u{a0}min to {}\u{a0}min", low.trim(), high.trim())
        }
        _ => "until dry".into(),
    };
    let mut list: Vec<crate::page::text::Text> = vec![
        format!("Outline masked; {cleaner}, wiped one way with a clean cloth each time.").into(),
        format!("Abraded to an even dull surface, dust off, cleaned again, dry: {flash}.").into(),
    ];
    if bond.adhesive.as_ref().is_some_and(|adhesive| adhesive.needs_primer) {
        let words = facts.words("primer.words").unwrap_or("as the adhesive’s maker says");
        let mut line = format!("Primer on both faces: {words}");
        if let (Some(low), Some(high), Some(keeps)) =
            (facts.words("primer.low"), facts.words("primer.high"), facts.words("primer.within"))
        {
            let _ = write!(
                line,
                "; dry for {}\u{a0}min to {}\u{a0}min, joined within {keeps}",
                low.trim(),
                high.trim()
            );
        }
        list.push((line + ".").into());
    }
    if bond.tape.is_some() && !bond.beads.is_empty() {
        list.push("Tape first, then the bead; both ends of the bead stay open to the air.".into());
    }
    list
}

fn use_table(uses: &[&BondUse]) -> Table {
    let share = display::capacity_used;
    let rows = uses
        .iter()
        .map(|bond| {
            let worst = bond.governing();
            Row::new(vec![
                Cell::Head(bond.mark.clone().into()),
                display::number(worst.pull.to_n(), 0).into(),
                display::number(worst.shear.to_n(), 0).into(),
                display::number((worst.peel + worst.slide).to_kpa(), 1).into(),
                display::number(worst.limit.to_kpa(), 1).into(),
                Cell::Bold(share(worst.share).into()),
                worst.case.clone().into(),
            ])
        })
        .collect();
    Table {
        columns: vec![
            TableColumn::left("mark"),
            TableColumn::number("pull, N"),
            TableColumn::number("shear, N"),
            TableColumn::number("stress, kPa"),
            TableColumn::number("limit, kPa"),
            TableColumn::number("use"),
            TableColumn::left("case"),
        ],
        rows,
        ..Table::default()
    }
}

/// The least that would do, by lines of feet.
fn least(uses: &[&BondUse]) -> Vec<Block> {
    let mut lines: Vec<(&Least, Vec<&BondUse>)> = Vec::new();
    for bond in uses {
        let Some(least) = &bond.least else { continue };
        match lines.iter_mut().find(|(known, _)| *known == least) {
            Some((_, bonds)) => bonds.push(bond),
            None => lines.push((least, vec![bond])),
        }
    }
    if lines.is_empty() {
        return Vec::new();
    }
    let rows = lines
        .into_iter()
        .map(|(least, bonds)| {
            let names: Vec<&str> = bonds.iter().map(|bond| bond.mark.as_str()).collect();
            let needed = bonds.iter().map(|bond| bond.needed.to_mm2()).fold(0.0, f64::max);
            let plate = least.plate.as_ref().map_or_else(
                || "none up to 600\u{a0}mm".to_owned(),
                |plate| {
                    let strips = match plate.strips {
                        0 => String::new(),
                        1 => ", one strip".to_owned(),
                        count => format!(", {count} strips"),
                    };
                    let size = format!("{} × {}", mm(plate.length, 0), mm(plate.width, 0));
                    format!("{size}{strips}: {}", display::capacity_used(plate.share))
                },
            );
            let feet = least.feet.map_or_else(
                || "four more are too few".to_owned(),
                |(count, share)| format!("{count}: {}", display::capacity_used(share)),
            );
            Row::new(vec![
                Cell::Head(marks(&names).into()),
                format!("{}\u{a0}mm²", display::number(needed, 0)).into(),
                plate.into(),
                feet.into(),
            ])
        })
        .collect();
    let aim = display::number(AIM, 2);
    vec![
        Block::Heading(
            Heading::new("The least that would do")
                .aside(format!("with the use it would have; {aim} is aimed at")),
        ),
        Block::Table(Table {
            columns: vec![
                TableColumn::left("mark"),
                TableColumn::right("bond for a use of 1"),
                TableColumn::right("smallest plate each"),
                TableColumn::right("fewest feet on the edge"),
            ],
            rows,
            ..Table::default()
        }),
    ]
}
