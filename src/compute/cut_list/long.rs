//! Bars, cable and tape: jobs for the solver, and its bars with their names back.

use super::{
    BarCut, CutBar, Limits, Reached, SectionCuts, Stuff, explain, id_of, length, mark_order, notes,
    whole,
};
use crate::build::{Build, Goods};
use crate::compute::cables::joined;
use crate::compute::cutting::{self, Cut, End, Job, Measure, Mitre, Piece, Stock};
use crate::compute::electrics::Electrics;
use crate::compute::quantities::electrical::colour;
use crate::derive::{Body, Ends, Work};
use crate::source::{Finding, Span};
use crate::tables::{Section, Shape, Tables};
use crate::units::{Length, Money};
use std::collections::BTreeMap;

/// A piece wanted.
pub(super) struct Wanted {
    pub mark: String,
    pub name: String,
    pub length: Length,
    pub ends: Ends,
    pub span: Span,
}

/// Pieces of one kind of goods.
pub(super) struct Group {
    pub stuff: Stuff,
    /// The section of a bar.
    pub section: Option<Section>,
    pub pieces: Vec<Wanted>,
}

/// Plans every kind of goods sold by length: sections by name, then the others.
pub(super) fn plan(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    tables: &Tables,
    findings: &mut Vec<Finding>,
) -> (Vec<SectionCuts>, Vec<CutBar>) {
    let (mut sections, mut bars) = (Vec::new(), Vec::new());
    for group in wanted(build, work, electrics) {
        let before = findings.len();
        notes::ends(build, &group, findings);
        if findings[before..].iter().any(|f| f.severity == crate::source::Severity::Stop) {
            continue;
        }
        let job = section_of(build, &group);
        let mitres = mitres(build, &group);
        let turns = group
            .section
            .as_ref()
            .is_none_or(|s| !matches!(s.shape, Shape::Angle | Shape::Channel));
        match cutting::cut_mitred(&job, &mitres, turns, Job::WORK_LIMIT) {
            Ok(answer) => {
                notes::remarks(build, &group, &answer.remarks, findings);
                let told = told(build, &group, &answer, &mut bars, tables);
                if !told.proven {
                    findings.push(super::rules::not_proven(
                        &group.stuff.words,
                        answer.cost.value,
                        answer.cost.bound,
                        answer.measure == Measure::Price,
                    ));
                }
                sections.push(told);
            }
            Err(error) => findings.push(explain::long(build, &group, &error)),
        }
    }
    (sections, bars)
}

/// Pieces by what they are cut from.
fn wanted(build: &Build, work: &Work, electrics: Option<&Electrics>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for part in &work.parts {
        let (section, length, ends) = match &part.body {
            Body::Bar { section, length, ends, .. } => (section, *length, *ends),
            Body::Plate { section: Some(section), length, material, thickness, .. }
                if !super::sheets::has_sheet(build, material, *thickness)
                    || has_long(build, &section.name) =>
            {
                (section, *length, Ends::SQUARE)
            }
            _ => continue,
        };
        let pieces = part.pieces.iter().map(|piece| Wanted {
            mark: piece.mark.clone(),
            name: part.name.clone(),
            length,
            ends,
            span: part.span,
        });
        match groups.iter_mut().find(|group| group.stuff.name == section.name) {
            Some(group) => group.pieces.extend(pieces),
            None => groups.push(Group {
                stuff: Stuff {
                    name: section.name.clone(),
                    words: section.words.clone(),
                    sawn: true,
                },
                section: Some(section.clone()),
                pieces: pieces.collect(),
            }),
        }
    }
    let mut add = |stuff: Stuff, pieces: Vec<Wanted>| match groups
        .iter_mut()
        .find(|g| !g.stuff.sawn && g.stuff.name == stuff.name)
    {
        Some(group) => group.pieces.extend(pieces),
        None => groups.push(Group { stuff, section: None, pieces }),
    };
    for stated in &build.lengths {
        let count = *stated.count;
        let pieces = (1..=count).map(|k| Wanted {
            mark: if count == 1 {
                stated.mark.value.clone()
            } else {
                format!("{}{k}", *stated.mark)
            },
            name: stated.name.value.clone(),
            length: *stated.length,
            ends: Ends::SQUARE,
            span: stated.span,
        });
        add(Stuff::of(&Goods::Named(stated.stuff.clone())), pieces.collect());
    }
    for (circuit, run, conductor) in electrics.iter().flat_map(|e| joined(build, e)) {
        for (sign, letters) in [("+", run.colours.0), ("\u{2212}", run.colours.1)] {
            let name = circuit.insulation.core(conductor.area, colour(letters));
            if has_named(build, &name) {
                let piece = Wanted {
                    mark: format!("{}{sign}", run.mark),
                    name: run.name.clone(),
                    length: run.cut.all,
                    ends: Ends::SQUARE,
                    span: circuit.span,
                };
                add(Stuff { words: name.clone(), name, sawn: false }, vec![piece]);
            }
        }
    }
    for single in electrics.iter().flat_map(|electrics| electrics.singles()) {
        let name = single.insulation.core(single.conductor.area, colour(single.colour));
        if has_named(build, &name) {
            let piece = Wanted {
                mark: single.mark.clone(),
                name: single.name.to_owned(),
                length: single.cut.all,
                ends: Ends::SQUARE,
                span: build.battery.as_ref().map_or(Span::NONE, |battery| battery.span),
            };
            add(Stuff { words: name.clone(), name, sawn: false }, vec![piece]);
        }
    }
    // The order in which the file names things changes nothing.
    groups.sort_by(|a, b| (!a.stuff.sawn, &a.stuff.name).cmp(&(!b.stuff.sawn, &b.stuff.name)));
    for group in &mut groups {
        group.pieces.sort_by_cached_key(|piece| mark_order(&piece.mark));
    }
    groups
}

fn has_long(build: &Build, section: &str) -> bool {
    let of = |goods: &Goods| goods.section().is_some_and(|s| s.name == section);
    build.stock.iter().any(|s| of(&s.of)) || build.leftovers.iter().any(|l| of(&l.of))
}

fn has_named(build: &Build, name: &str) -> bool {
    let of = |goods: &Goods| goods.section().is_none() && goods.name() == name;
    build.stock.iter().any(|s| of(&s.of)) || build.leftovers.iter().any(|l| of(&l.of))
}

/// Whether goods of the file are those of a group.
pub(super) fn same(goods: &Goods, group: &Group) -> bool {
    goods.section().is_some() == group.stuff.sawn && goods.name() == group.stuff.name
}

fn section_of(build: &Build, group: &Group) -> cutting::Section {
    // A blade takes nothing away, and cable needs no square end.
    let (kerf, trim) = if group.stuff.sawn {
        (whole(*build.cutting.kerf), whole(*build.cutting.trim))
    } else {
        (0, 0)
    };
    let bought =
        build.stock.iter().enumerate().filter(|(_, s)| same(&s.of, group)).map(|(index, stock)| {
            Stock {
                id: format!("new {index}"),
                length: whole(*stock.length),
                trim_start: trim,
                trim_end: 0,
                price: stock.price.as_ref().map(|p| p.to_cents()),
                limit: None,
            }
        });
    let on_hand = build.leftovers.iter().enumerate().filter(|(_, l)| same(&l.of, group)).map(
        |(index, leftover)| Stock {
            id: format!("hand {index}"),
            length: whole(*leftover.length),
            // A leftover has a sawn end already; its other end may be as the shop cut it.
            trim_start: 0,
            trim_end: 0,
            price: Some(0),
            limit: Some(*leftover.count),
        },
    );
    cutting::Section {
        name: group.stuff.name.clone(),
        kerf,
        least_useful: whole(*build.cutting.least_leftover),
        pieces: group
            .pieces
            .iter()
            .enumerate()
            .map(|(rank, p)| Piece { id: id_of(rank), length: whole(p.length), extra: 0 })
            .collect(),
        stock: bought.chain(on_hand).collect(),
    }
}

/// Slant of each mitred end, and its saw cut along the bar, rounded up to stay on the safe side.
fn mitres(build: &Build, group: &Group) -> BTreeMap<String, Mitre> {
    let kerf = whole(*build.cutting.kerf);
    let mitred = group.pieces.iter().enumerate().filter(|(_, p)| !p.ends.are_square());
    mitred
        .map(|(rank, piece)| {
            let end = |angle: crate::units::Angle| End {
                slant: whole(piece.ends.across * angle.tan()),
                saw: ((kerf as f64 / angle.cos()).ceil() as i64).max(kerf),
            };
            (id_of(rank), Mitre { zero: end(piece.ends.zero), far: end(piece.ends.far) })
        })
        .collect()
}

/// The answer in the words of the workshop; its bars are added to the others.
fn told(
    build: &Build,
    group: &Group,
    answer: &cutting::SectionPlan,
    bars: &mut Vec<CutBar>,
    tables: &Tables,
) -> SectionCuts {
    let priced = answer.measure == Measure::Price;
    let money = |cents: i64| priced.then(|| Money::cents(cents));
    let mut buy: Vec<(Length, u32, Option<Money>)> = Vec::new();
    let kerf = if group.stuff.sawn { *build.cutting.kerf } else { Length::ZERO };
    for bar in &answer.bars {
        let on_hand = on_hand(build, &bar.stock);
        if on_hand.is_none() {
            let size = length(bar.length);
            let price = bar.price.map(Money::cents);
            match buy.iter_mut().find(|b| b.0 == size && b.2 == price) {
                Some(entry) => entry.1 += 1,
                None => buy.push((size, 1, price)),
            }
        }
        let cuts = bar
            .cuts
            .iter()
            .filter_map(|cut| {
                let piece = group.pieces.get(cut.piece.parse::<usize>().ok()?)?;
                Some(bar_cut(build, piece, cut, tables))
            })
            .collect();
        bars.push(CutBar {
            number: bars.len() + 1,
            section: group.stuff.clone(),
            length: length(bar.length),
            on_hand,
            trim: length(bar.trim_start),
            kerf,
            cuts,
            saw: length(bar.saw),
            nested: length(bar.nested),
            rest: length(bar.leftover),
            rest_mark: bar.useful.then(String::new),
            pattern: bar.set_up,
        });
    }
    let reached =
        |proof: &cutting::Proof| Reached { value: length(proof.value), bound: length(proof.bound) };
    SectionCuts {
        section: group.stuff.clone(),
        buy,
        price: money(answer.cost.value),
        bound: money(answer.cost.bound),
        bought: (!priced).then(|| reached(&answer.cost)),
        proven: answer.cost.proven(),
        leftover: reached(&answer.leftover),
        set_ups: Reached { value: answer.set_ups.value, bound: answer.set_ups.bound },
    }
}

fn bar_cut(build: &Build, piece: &Wanted, cut: &Cut, tables: &Tables) -> BarCut {
    let sign = if cut.turned { -1.0 } else { 1.0 };
    BarCut {
        mark: piece.mark.clone(),
        name: piece.name.clone(),
        length: piece.length,
        from: length(cut.from),
        to: length(cut.to),
        ends: Ends {
            zero: piece.ends.zero * sign,
            far: piece.ends.far * sign,
            across: piece.ends.across,
        },
        shared: cut.shared,
        limits: Limits::of(piece.length, &build.cutting.saw, tables),
    }
}

fn on_hand(build: &Build, id: &str) -> Option<String> {
    let index: usize = id.strip_prefix("hand ")?.parse().ok()?;
    build.leftovers.get(index).map(|leftover| leftover.label.value.clone())
}
