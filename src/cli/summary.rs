//! The few lines that end a check.

use super::pipeline::Done;
use crate::sheets;
use crate::units::Money;

/// Value and words: what the cover says, what all of it costs, how many things are near their limit.
pub fn summary(done: &Done) -> Vec<(String, String)> {
    let mut lines: Vec<(String, String)> =
        sheets::headlines(&done.build, &done.work, &done.results)
            .into_iter()
            .map(|line| (line.value, line.words))
            .collect();
    let results = &done.results;
    let shares: Vec<f64> = results
        .bonds
        .iter()
        .map(|bond| bond.governing().share)
        .chain(results.metal.uses.iter().map(|part| part.share))
        .collect();
    let near = shares.iter().filter(|share| **share >= NEAR).count();
    if !shares.is_empty() {
        let words = format!("of {} joints and parts are used to 0.80 or more", shares.len());
        lines.push((if near == 0 { "none".to_owned() } else { near.to_string() }, words));
    }
    let shopping = &results.shopping;
    let told = results.cuts.as_ref().and_then(|cuts| cuts.price) == Some(shopping.priced);
    if shopping.priced > Money::ZERO && !(told && shopping.unpriced == 0) {
        let lacking = match shopping.unpriced {
            0 => String::new(),
            1 => "; one line has no price".to_owned(),
            lines => format!("; {lines} lines have no price"),
        };
        let price = sheets::price(shopping.priced, &done.build.job.currency);
        lines.push((price, format!("for all that has a price{lacking}")));
    }
    lines
}

/// From here a use is told as a caution.
const NEAR: f64 = 0.8;
