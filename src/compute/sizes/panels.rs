//! What a panel may differ by before the frame made for it no longer takes it.

use super::{Size, general};
use crate::build::{Build, Panel};
use crate::compute::cut_list::Limits;
use crate::derive::{PanelPlace, PartKind, Work};
use crate::source::Ledger;
use crate::tables::Tables;
use crate::units::{Length, Unit, display};

/// Sizes of each panel.
pub(super) fn sizes(build: &Build, work: &Work, tables: &Tables, ledger: &mut Ledger) -> Vec<Size> {
    let Some(array) = &work.array else { return Vec::new() };
    let mut list = Vec::new();
    for place in &array.panels {
        let Some(panel) = build.panels.get(place.panel) else { continue };
        let mut add = |what: &str, planned: Length, bears: Option<Length>| {
            let mut limits = Limits::general(planned, tables);
            if let Some(bears) = bears {
                limits.low = limits.low.max(planned - bears);
                limits.high = limits.high.min(planned + bears);
            }
            // Panels of one row of the build file share the figure.
            let id = format!("panel.{}.{}", panel.mark.value, what.replace(' ', "-"));
            let mut figure =
                general(&id, &format!("{what} of panels {}", panel.mark.value), planned, limits);
            if let Some(bears) = bears {
                figure = figure.input("bears", display::in_unit(bears, Unit::MM, 1)).assume(
                    "the panel is pushed to one side; its screws stay in the flange, panels apart",
                );
            }
            ledger.push(figure);
            list.push(Size {
                key: format!("{} {what}", place.mark),
                what: format!("{} {what}", place.mark),
                planned,
                limits,
            });
        };
        let bears = bears(build, work, place, panel);
        add("long side", *panel.length, bears);
        add("short side", *panel.width, bears);
        if *panel.flange.width > Length::ZERO {
            add("flange width", *panel.flange.width, None);
        }
        if *panel.recess > Length::ZERO {
            add("rim to back sheet", *panel.recess, None);
        }
    }
    list
}

/// How much longer or shorter a panel may be: pushed to one side, its screws keep their distance
/// from both edges of the flange, and neighbours do not touch.
fn bears(build: &Build, work: &Work, place: &PanelPlace, panel: &Panel) -> Option<Length> {
    let in_flange = work
        .holes
        .iter()
        .filter(|hole| {
            let part = &work.parts[hole.part];
            part.kind == PartKind::Panel && part.pieces.iter().any(|piece| piece.mark == place.mark)
        })
        .map(|hole| hole.edge.has.min(*panel.flange.width - hole.edge.has) - hole.edge.least)
        .reduce(Length::min)?;
    let apart = build.frame.as_ref().map_or(in_flange, |frame| *frame.gap);
    let single = work.array.as_ref().is_some_and(|array| array.panels.len() < 2);
    let bears = if single { in_flange } else { in_flange.min(apart) };
    Some(bears.max(Length::ZERO))
}
