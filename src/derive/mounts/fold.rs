//! A bracket bent from sheet or flat bar: its flat length, and whether it may be bent so tightly.

use super::Site;
use super::bracket::Bracket;
use crate::build::Fold;
use crate::derive::Drawing;
use crate::derive::rules::l039;
use crate::derive::shop;
use crate::derive::work::{Body, Folded};
use crate::geometry::Bend;
use crate::source::{Figure, Finding, Seen};
use crate::tables::{BendLimit, Tables};
use crate::units::{Angle, Length, Mass, Unit, display};

/// What is known of bending a material.
fn limit_of(material: &str) -> Option<&'static BendLimit> {
    let rows = &Tables::builtin().bend_limits;
    rows.iter().find(|row| row.materials.iter().any(|name| name == material))
}

/// The flat that is bent to `between`, and its mass.
pub(super) fn body(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    bracket: &Bracket<'_>,
    fold: &Fold,
    between: Angle,
) -> (Body, Mass) {
    let bend = Bend::between_legs(*fold.thickness, *fold.radius, between);
    let folded = Folded {
        section: bracket.section.value.clone(),
        standing: bracket.standing,
        lying: bracket.lying,
        bend,
        between,
        share: fold.k.as_ref().map_or(bend.din_k() / 2.0, |k| **k),
    };
    let limit = limit_of(&fold.material.name);
    // One line of mounts is bent alike: its first tells for all.
    let same = |a: &Finding, b: &Finding| a.rule == b.rule && a.primary == b.primary;
    let found = l039::judge(&site.mark, fold, limit)
        .filter(|found| !drawing.findings.iter().any(|told| same(told, found)));
    drawing.findings.extend(found);
    drawing.ledger.push(figure(&site.mark, fold, &folded, limit));
    let (length, width) = (folded.flat(), bracket.length);
    let mass = fold.material.density * (length * width * *fold.thickness);
    let body = Body::Plate {
        material: fold.material.value.clone(),
        length,
        width,
        thickness: *fold.thickness,
        section: shop::flat(&fold.material, width, *fold.thickness),
        fold: Some(folded),
    };
    (body, mass)
}

fn figure(mark: &str, fold: &Fold, folded: &Folded, limit: Option<&BendLimit>) -> Figure {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 2);
    let flat = |share: f64| folded.bend.flat(folded.standing, folded.lying, share);
    let mut figure = Figure::new(
        format!("mount.{mark}.flat"),
        format!("flat length of the bracket of {mark}"),
        folded.flat().to_mm(),
        "mm",
    )
    .formula("L = a + b − 2 (r + s) tan(φ/2) + φ (r + K s)")
    .input("a", told(folded.standing))
    .input("b", told(folded.lying))
    .input("r", told(*fold.radius))
    .input("s", told(*fold.thickness))
    .input("φ", display::in_unit(folded.bend.through, Unit::DEG, 1))
    .input("K", display::number(folded.share, 3));
    if fold.k.is_some() {
        figure = figure.source("bend allowance, K by a trial bend: build file", Seen::Verified);
    } else {
        let source = "DIN 6935: K = k/2, k = 0.65 + 0.5 lg(r/s), at most 1";
        figure = figure.source(source, Seen::Verified);
    }
    if let Some(limit) = limit {
        let [low, high] = limit.k;
        let words = format!(
            "K of {low} to {high} by shop tables gives {} to {}: bend a trial strip first",
            told(flat(low)),
            told(flat(high))
        );
        figure = figure.assume(words);
    }
    figure.decides()
}
