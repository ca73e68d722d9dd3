//! Limits of workmanship from the templates.

use super::{Facts, Span};
use crate::compute::steps::template::Templates;
use crate::units::display;

pub(super) fn set(facts: &mut Facts) {
    for limit in &Templates::builtin().limits {
        let told = |value: Option<f64>| {
            value.map_or_else(String::new, |value| display::number(value, limit.decimals))
        };
        facts.range(&format!("limit.{}", limit.name), (told(limit.low), told(limit.high)));
        let span = Span { low: limit.low.unwrap_or(0.0), high: limit.high.unwrap_or(0.0) };
        facts.limits.insert(limit.name.clone(), span);
    }
}
