//! What is worth telling of a job that can be planned, and mitres that can't be cut.

use super::long::{Group, Wanted};
use super::rules;
use super::sheets::SheetGroup;
use crate::build::{Build, Goods};
use crate::compute::cutting::Remark;
use crate::source::{Finding, Span};
use crate::tables::Shape;
use crate::units::{Length, Unit, display};

const SAME: Length = Length::mm(0.01);

fn in_mm(size: Length) -> String {
    display::in_unit_short(size, Unit::MM, 2)
}

/// Mitres of a group: the side they run across, points that meet, a saw that can't be set.
pub(super) fn ends(build: &Build, group: &Group, findings: &mut Vec<Finding>) {
    let mut told: Vec<Span> = Vec::new();
    let mut slanted: Option<&Wanted> = None;
    for piece in group.pieces.iter().filter(|piece| !piece.ends.are_square()) {
        slanted = slanted.or(Some(piece));
        if told.contains(&piece.span) {
            continue;
        }
        told.push(piece.span);
        let across = piece.ends.across;
        if let Some(section) = &group.section {
            let near = |size: Length| across.is_near(size, SAME);
            let one_size = matches!(section.shape, Shape::RoundTube);
            if !(near(section.a) || !one_size && near(section.b)) {
                findings.push(rules::no_such_side(&piece.mark, across, section, piece.span));
                continue;
            }
        }
        let slant = |angle: crate::units::Angle| (across * angle.tan()).abs();
        let (zero, far) = (slant(piece.ends.zero), slant(piece.ends.far));
        let alike = (piece.ends.zero.to_deg() < 0.0) == (piece.ends.far.to_deg() < 0.0);
        let both = !piece.ends.zero.is_zero() && !piece.ends.far.is_zero();
        let lost = if both && !alike { zero.max(far) } else { zero + far };
        if piece.length <= lost + SAME {
            findings.push(rules::mitres_meet(&piece.mark, piece.length, lost, piece.span));
        }
    }
    let saw = &build.cutting.saw;
    if let Some(piece) = slanted.filter(|_| !saw.mitre) {
        findings.push(rules::saw_without_angle(&piece.mark, &saw.words, piece.span, saw.span));
    }
}

/// Remarks of the solver on bars.
pub(super) fn remarks(
    build: &Build,
    group: &Group,
    remarks: &[Remark],
    findings: &mut Vec<Finding>,
) {
    let mut unpriced: Vec<Span> = Vec::new();
    let mut slight: Vec<&Wanted> = Vec::new();
    for remark in remarks {
        match remark {
            Remark::PriceMissing { stock } => {
                let index = stock.strip_prefix("new ").and_then(|i| i.parse::<usize>().ok());
                unpriced.extend(index.and_then(|i| build.stock.get(i)).map(|s| s.span));
            }
            Remark::KerfWiderThanPiece { piece } => {
                slight.extend(piece.parse::<usize>().ok().and_then(|i| group.pieces.get(i)));
            }
        }
    }
    // With one length to choose, least length is least money.
    if build.stock.iter().filter(|s| super::long::same(&s.of, group)).count() > 1 {
        findings.extend(rules::price_missing(&group.stuff.words, "length", &unpriced));
    }
    if let Some(first) = slight.first() {
        findings.push(rules::kerf_wider(
            &first.mark,
            &in_mm(first.length),
            &in_mm(*build.cutting.kerf),
            (first.span, build.cutting.kerf.span),
        ));
    }
}

/// Remarks of the solver on sheets.
pub(super) fn sheet_remarks(
    build: &Build,
    group: &SheetGroup,
    remarks: &[Remark],
    findings: &mut Vec<Finding>,
) {
    let mut unpriced: Vec<Span> = Vec::new();
    let mut slight: Option<usize> = None;
    for remark in remarks {
        match remark {
            Remark::PriceMissing { stock } => {
                let index = stock.strip_prefix("new ").and_then(|i| i.parse::<usize>().ok());
                unpriced.extend(index.and_then(|i| build.sheets.get(i)).map(|s| s.span));
            }
            Remark::KerfWiderThanPiece { piece } => slight = slight.or(piece.parse().ok()),
        }
    }
    let own = |s: &&crate::build::SheetStock| {
        super::sheets::same_sheet(&s.material, *s.thickness, &group.stuff)
    };
    if build.sheets.iter().filter(own).count() > 1 {
        findings.extend(rules::price_missing(&group.stuff.words(), "area", &unpriced));
    }
    if let Some(piece) = slight.and_then(|i| group.pieces.get(i)) {
        findings.push(rules::kerf_wider(
            &piece.mark,
            &in_mm(piece.length.min(piece.width)),
            &in_mm(*build.cutting.sheet_kerf),
            (piece.span, build.cutting.sheet_kerf.span),
        ));
    }
}

/// Leftovers that are told twice: of one stuff, one size and one label.
pub(super) fn leftovers_twice(build: &Build, findings: &mut Vec<Finding>) {
    let kind = |goods: &Goods| (goods.section().is_some(), goods.name().to_owned());
    let mut seen: Vec<(String, Span)> = Vec::new();
    let long = build.leftovers.iter().map(|l| {
        let key = format!("{:?} {:.2} {}", kind(&l.of), l.length.to_mm(), *l.label);
        (key, l.span, l.label.value.clone(), in_mm(*l.length))
    });
    let sheets = build.sheet_leftovers.iter().map(|l| {
        let size = format!("{:.2} {:.2}", l.length.to_mm(), l.width.to_mm());
        let key = format!("{} {:.2} {size} {}", l.material.name, l.thickness.to_mm(), *l.label);
        let told = format!("{} by {}", in_mm(*l.length), in_mm(*l.width));
        (key, l.span, l.label.value.clone(), told)
    });
    for (key, span, label, size) in long.chain(sheets) {
        match seen.iter().find(|(known, _)| *known == key) {
            Some((_, first)) => findings.push(rules::leftover_twice(&label, &size, span, *first)),
            None => seen.push((key, span)),
        }
    }
}
