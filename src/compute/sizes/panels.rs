//! What a panel may differ by before the frame made for it no longer takes it.

use super::{Size, general};
use crate::build::{Build, Frame, Panel};
use crate::compute::cut_list::Limits;
use crate::compute::steps::workmanship;
use crate::derive::{Array, PanelPlace, PartKind, Work};
use crate::source::Ledger;
use crate::tables::Tables;
use crate::units::{Length, Unit, display};

/// Sizes of each panel.
pub(super) fn sizes(build: &Build, work: &Work, tables: &Tables, ledger: &mut Ledger) -> Vec<Size> {
    let mut list = Vec::new();
    for (array, place) in
        work.arrays.iter().flat_map(|array| array.panels.iter().map(move |place| (array, place)))
    {
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
        let bears = bears(build, work, (array.frame, place), panel);
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
fn bears(
    build: &Build,
    work: &Work,
    (frame, place): (usize, &PanelPlace),
    panel: &Panel,
) -> Option<Length> {
    let in_flange = work
        .holes
        .iter()
        .filter(|hole| {
            let part = &work.parts[hole.part];
            part.kind == PartKind::Panel && part.pieces.iter().any(|piece| piece.mark == place.mark)
        })
        .map(|hole| hole.edge.has.min(*panel.flange.width - hole.edge.has) - hole.edge.least)
        .reduce(Length::min)?;
    let apart = build.frames.get(frame).and_then(|frame| Some(*frame.gap / share(frame)?));
    Some(apart.map_or(in_flange, |apart| in_flange.min(apart)).max(Length::ZERO))
}

/// What one gap takes up of a panel's own difference: n panels share n − 1 gaps. None where no panels
/// lie beside each other.
fn share(frame: &Frame) -> Option<f64> {
    let least = [*frame.arrangement.rows, *frame.arrangement.columns]
        .into_iter()
        .filter(|count| *count > 1)
        .min()?;
    Some(f64::from(least) / f64::from(least - 1))
}

/// Limits of the gap between panels on a frame of fixed size: panels that differ, and hands that
/// place them.
pub(super) fn gaps(build: &Build, work: &Work, sizes: &[Size]) -> Vec<Option<Limits>> {
    build.frames.iter().zip(&work.arrays).map(|(frame, array)| gap(frame, array, sizes)).collect()
}

fn gap(frame: &Frame, array: &Array, sizes: &[Size]) -> Option<Limits> {
    let share = share(frame)?;
    let most = sizes
        .iter()
        .filter(|size| {
            let sides = ["long side", "short side"];
            array
                .panels
                .iter()
                .any(|panel| sides.iter().any(|side| size.key == format!("{} {side}", panel.mark)))
        })
        .map(|size| size.limits.high - size.planned)
        .reduce(Length::max)?;
    let (_, setting) = workmanship("setting")?;
    let plus = most * share + Length::mm(setting);
    Some(Limits { low: (*frame.gap - plus).max(Length::ZERO), high: *frame.gap + plus })
}
