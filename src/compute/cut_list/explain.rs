//! Why no plan exists, in the words of the workshop.

use super::long::{Group, same};
use super::sheets::{SheetGroup, same_sheet};
use super::{length, rules};
use crate::build::Build;
use crate::compute::cutting::CuttingError;
use crate::source::{Finding, Span};
use crate::units::Length;

/// Why goods sold by length can't be planned.
pub(super) fn long(build: &Build, group: &Group, error: &CuttingError) -> Finding {
    let (section, pieces) = (&group.stuff, &group.pieces);
    let key = if section.sawn { "section" } else { "stuff" };
    let piece = |id: &str| id.parse::<usize>().ok().and_then(|rank| pieces.get(rank));
    let first = pieces.first().map_or(Span::NONE, |p| p.span);
    match error {
        CuttingError::NoStock { .. } => {
            let total: Length = pieces.iter().map(|p| p.length).sum();
            Finding::new(&rules::NO_STOCK, format!("no stock is stated for {}", section.words))
                .at(first, format!("{} pieces are cut from it", pieces.len()))
                .means("there is nothing to cut these parts from")
                .help(format!(
                    "add [[stock]] with {key} = \"{}\", length and price; the pieces add up to {:.0} mm",
                    section.name,
                    total.to_mm()
                ))
        }
        CuttingError::PieceTooLong { item, length: takes, longest, .. } => {
            let mark = piece(item).map_or("", |p| &p.mark);
            let mut finding = Finding::new(
                &rules::PIECE_TOO_LONG,
                format!(
                    "the piece {mark} is {:.1} mm long; the longest {} gives {:.1} mm",
                    length(*takes).to_mm(),
                    section.words,
                    length(*longest).to_mm()
                ),
            )
            .at(piece(item).map_or(Span::NONE, |p| p.span), "this part is longer than any bar")
            .means("two shorter pieces joined are not the part that was worked out")
            .help(format!(
                "add [[stock]] of {} that is at least {:.0} mm long, or make the part shorter",
                section.words,
                (length(*takes) + if section.sawn { *build.cutting.trim } else { Length::ZERO })
                    .to_mm()
                    .ceil()
            ));
            for stock in build.stock.iter().filter(|s| same(&s.of, group)) {
                finding = finding.also(stock.span, format!("{:.0} mm long", stock.length.to_mm()));
            }
            finding
        }
        CuttingError::NotEnoughStock { .. } => not_enough(build, group),
        CuttingError::TrimTakesAll { item, .. } => {
            trim_takes_all(build, &section.words, item, first)
        }
        other => {
            Finding::new(&rules::NO_PLAN, format!("no cut list for {}: {other}", section.words))
                .at(first, "these parts")
                .means("without a plan there are no marks to saw by")
                .help("check lengths, kerf and trim of this section")
        }
    }
}

fn not_enough(build: &Build, group: &Group) -> Finding {
    let (section, pieces) = (&group.stuff, &group.pieces);
    let key = if section.sawn { "section" } else { "stuff" };
    let wanted: Length = pieces.iter().map(|p| p.length).sum();
    let on_hand: Vec<_> = build.leftovers.iter().filter(|l| same(&l.of, group)).collect();
    let length: Length = on_hand.iter().map(|l| *l.length * f64::from(*l.count)).sum();
    let mut finding = Finding::new(
        &rules::NOT_ENOUGH,
        format!(
            "the leftovers of {} do not give all pieces: {} pieces of {:.0} mm together, {:.0} mm on hand",
            section.words,
            pieces.len(),
            wanted.to_mm(),
            length.to_mm()
        ),
    )
    .at(pieces.first().map_or(Span::NONE, |p| p.span), format!("{} pieces are wanted", pieces.len()))
    .means("saw cuts and ends that are too short for a piece are lost; the last pieces would be missing")
    .help(format!("add [[stock]] with {key} = \"{}\", length and price, to buy the rest", section.name));
    for leftover in on_hand {
        finding = finding.also(
            leftover.span,
            format!("{} of {:.0} mm", *leftover.count, leftover.length.to_mm()),
        );
    }
    finding
}

fn trim_takes_all(build: &Build, words: &str, item: &str, first: Span) -> Finding {
    let trim = &build.cutting.trim;
    let stock = item.strip_prefix("new ").and_then(|i| build.stock.get(i.parse::<usize>().ok()?));
    let long = stock.map_or(Length::ZERO, |stock| *stock.length);
    let place = if trim.span.is_none() { first } else { trim.span };
    let finding = Finding::new(
        &rules::NO_PLAN,
        format!(
            "a trim of {:.0} mm leaves nothing of a bar of {:.0} mm ({})",
            trim.to_mm(),
            long.to_mm(),
            words
        ),
    )
    .at(place, "cut off one end of each new bar")
    .means("without a plan there are no marks to saw by")
    .help("trim is the rough end that the shop left, a few millimetres: such as `trim = 5`");
    match stock {
        Some(stock) => finding.also(stock.span, "this bar"),
        None => finding,
    }
}

/// Why sheets can't be planned.
pub(super) fn sheet(build: &Build, group: &SheetGroup, error: &CuttingError) -> Finding {
    let words = group.stuff.words();
    let first = group.pieces.first().map_or(Span::NONE, |p| p.span);
    let add = format!(
        "add [[stock]] with material = \"{}\", thickness = \"{} mm\", length, width and price",
        group.stuff.material.name,
        group.stuff.thickness.to_mm()
    );
    match error {
        CuttingError::NoStock { .. } => {
            Finding::new(&rules::NO_STOCK, format!("no stock is stated for {words}"))
                .at(first, format!("{} pieces are cut from it", group.pieces.len()))
                .means("there is nothing to cut these parts from")
                .help(add)
        }
        CuttingError::PieceTooLong { item, .. } => {
            let piece = item.parse::<usize>().ok().and_then(|rank| group.pieces.get(rank));
            let told = piece.map_or_else(String::new, |p| {
                format!("{} ({:.0} by {:.0} mm)", p.mark, p.length.to_mm(), p.width.to_mm())
            });
            let mut finding = Finding::new(
                &rules::PIECE_TOO_LONG,
                format!("the piece {told} fits no sheet of {words}"),
            )
            .at(piece.map_or(first, |p| p.span), "this part is larger than any sheet")
            .means("two pieces joined are not the part that was worked out")
            .help(add);
            if piece.is_some_and(|p| !p.turn) {
                finding = finding.help("it may not be turned; state turn = \"yes\" if it may");
            }
            for sheet in
                build.sheets.iter().filter(|s| same_sheet(&s.material, *s.thickness, &group.stuff))
            {
                finding = finding.also(
                    sheet.span,
                    format!("{:.0} by {:.0} mm", sheet.length.to_mm(), sheet.width.to_mm()),
                );
            }
            finding
        }
        CuttingError::NotEnoughStock { .. } => Finding::new(
            &rules::NOT_ENOUGH,
            format!("the leftovers of {words} do not give all pieces"),
        )
        .at(first, format!("{} pieces are wanted", group.pieces.len()))
        .means("the last pieces would be missing")
        .help(add),
        other => Finding::new(&rules::NO_PLAN, format!("no cut list for {words}: {other}"))
            .at(first, "these parts")
            .means("without a plan there are no marks to saw by")
            .help("check lengths, kerf and trim of these sheets"),
    }
}
