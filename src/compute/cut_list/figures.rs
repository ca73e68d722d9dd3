//! What the ledger keeps of the cut list, and the leftovers for the next build file.

use super::CutList;
use crate::build::Build;
use crate::source::{Figure, Ledger, Seen};
use crate::units::Length;
use std::fmt::Write as _;

/// Writes what decides into the ledger.
pub(super) fn record(list: &CutList, ledger: &mut Ledger) {
    for section in &list.sections {
        let (Some(price), Some(bound)) = (section.price, section.bound) else { continue };
        ledger.push(
            Figure::new(
                format!("cut.cost.{}", section.section.name),
                format!(
                    "price of {}, {}",
                    if section.section.sawn { "bars" } else { "lengths" },
                    section.section.words
                ),
                price.to_cents() as f64 / 100.0,
                "",
            )
            .formula("least cost over all cutting patterns; proven when it equals the bound")
            .input("bound", bound.to_string())
            .source("linear programming bound and exhaustive search", Seen::Computed)
            .decides(),
        );
    }
    let bought: u32 = list.sections.iter().flat_map(|s| &s.buy).map(|b| b.1).sum();
    ledger.push(
        Figure::new("cut.bars", "bars to cut", list.bars.len() as f64, "")
            .input("to buy", bought.to_string())
            .source("cut list", Seen::Computed),
    );
    for bar in &list.bars {
        ledger.push(
            Figure::new(
                format!("cut.rest.{}", bar.number),
                format!("left of bar {}", bar.number),
                bar.rest.to_mm(),
                "mm",
            )
            .formula("length − trim − pieces + nested − saw cuts")
            .input("kerf", bar.kerf.to_string())
            .input("saw cuts", bar.saw.to_string())
            .source("sum along the bar", Seen::Computed),
        );
    }
    for section in &list.sheet_sections {
        let (Some(price), Some(bound)) = (section.price, section.bound) else { continue };
        ledger.push(
            Figure::new(
                format!(
                    "cut.sheet-cost.{}-{}",
                    section.stuff.material.name,
                    section.stuff.thickness.to_mm()
                ),
                format!("price of sheets, {}", section.stuff.words()),
                price.to_cents() as f64 / 100.0,
                "",
            )
            .formula("least cost over all sets that straight cuts from edge to edge can free")
            .input("bound", bound.to_string())
            .source("exhaustive search over sets", Seen::Computed)
            .decides(),
        );
    }
}

/// `[[leftover]]` lines for the next build file: what comes home, and what stays of the leftovers on
/// hand. Bare numbers would be in that file's unit, so sizes are written with theirs.
pub fn leftover_lines(build: &Build, list: &CutList) -> String {
    let mut text = String::new();
    let mm = |size: Length| format!("\"{} mm\"", (size.to_mm() * 100.0).round() / 100.0);
    let quoted = |words: &str| words.replace('\\', "\\\\").replace('"', "\\\"");
    let number = &build.job.number;
    let mut long = |key: &str, name: &str, length: Length, count: u32, label: &str| {
        let _ = write!(
            text,
            "[[leftover]]\n{key} = \"{}\"\nlength = {}\ncount = {count}\nlabel = \"{}\"\n\n",
            quoted(name),
            mm(length),
            quoted(label)
        );
    };
    for leftover in &build.leftovers {
        let sawn = leftover.of.section().is_some();
        let taken = list
            .bars
            .iter()
            .filter(|bar| {
                bar.on_hand.as_ref() == Some(&*leftover.label)
                    && bar.section.sawn == sawn
                    && bar.section.name == leftover.of.name()
                    && bar.length.is_near(*leftover.length, Length::mm(0.01))
            })
            .count();
        let left = leftover.count.saturating_sub(u32::try_from(taken).unwrap_or(u32::MAX));
        if left > 0 {
            let key = if sawn { "section" } else { "stuff" };
            long(key, leftover.of.name(), *leftover.length, left, &leftover.label);
        }
    }
    for bar in &list.bars {
        if let Some(mark) = &bar.rest_mark {
            let key = if bar.section.sawn { "section" } else { "stuff" };
            long(key, &bar.section.name, bar.rest, 1, &format!("{mark} of {}", **number));
        }
    }
    let mut sheet = |stuff: &super::SheetStuff, size: (Length, Length), count: u32, label: &str| {
        let _ = write!(
            text,
            "[[leftover]]\nmaterial = \"{}\"\nthickness = {}\nlength = {}\nwidth = {}\ncount = {count}\nlabel = \"{}\"\n\n",
            quoted(&stuff.material.name),
            mm(stuff.thickness),
            mm(size.0),
            mm(size.1),
            quoted(label)
        );
    };
    for leftover in &build.sheet_leftovers {
        let taken = list
            .plates
            .iter()
            .filter(|plate| {
                plate.on_hand.as_ref() == Some(&*leftover.label)
                    && super::sheets::same_sheet(
                        &leftover.material,
                        *leftover.thickness,
                        &plate.stuff,
                    )
                    && plate.length.is_near(*leftover.length, Length::mm(0.01))
                    && plate.width.is_near(*leftover.width, Length::mm(0.01))
            })
            .count();
        let left = leftover.count.saturating_sub(u32::try_from(taken).unwrap_or(u32::MAX));
        if left > 0 {
            let stuff = super::SheetStuff {
                material: leftover.material.value.clone(),
                thickness: *leftover.thickness,
            };
            sheet(&stuff, (*leftover.length, *leftover.width), left, &leftover.label);
        }
    }
    for plate in &list.plates {
        for rest in &plate.rests {
            if let Some(mark) = &rest.mark {
                let size = (rest.length, rest.width);
                sheet(&plate.stuff, size, 1, &format!("{mark} of {}", **number));
            }
        }
    }
    text
}
