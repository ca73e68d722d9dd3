//! The cut sheets: one strip a bar and one plan a sheet, to scale, and the tables that win over them.

mod home;
mod plate;
mod saw;
mod strip;

use super::words::mm;
use super::{Basis, Kind};
use crate::build::LengthUnit;
use crate::compute::cut_list::{CutBar, CutList};
use crate::page::Sheet;
use crate::page::block::{Block, Figure, Heading, Lead, Under};
use crate::page::scene::{Lettering, Scale, Scene};
use crate::page::text::Text;
use crate::units::{Angle, Length, display};

/// Greatest height of a strip with marks that stand upright and names below it, mm.
const STRIP: f64 = 56.0;
/// More bars than this are drawn one a way of cutting.
const MOST_STRIPS: usize = 40;

/// The sheets; none where nothing is cut.
pub(super) fn cut(basis: &Basis) -> Vec<Sheet> {
    let Some(cuts) = &basis.results.cuts else { return Vec::new() };
    let mut sheets = Vec::new();
    let (sawn, bladed): (Vec<&CutBar>, Vec<&CutBar>) =
        cuts.bars.iter().partition(|bar| bar.section.sawn);
    if !sawn.is_empty() {
        let mut sheet = bars(basis, &sawn, ("bar", "bars"), saw_notes(basis, cuts, &sawn));
        sheet.title = "Cut the bars".into();
        sheets.push(sheet);
    }
    if !bladed.is_empty() {
        let notes = vec![
            zero_note(basis),
            "A blade takes nothing away.".into(),
            "Triangle: waste side of the line.".into(),
        ];
        let mut sheet = bars(basis, &bladed, ("length", "lengths"), notes);
        sheet.title = "Cut cable and tape".into();
        sheet.anchor = "cut-lengths".into();
        sheets.push(sheet);
    }
    if !cuts.plates.is_empty() {
        sheets.push(plate::plates(basis, cuts));
    }
    sheets.push(home::home(basis, cuts));
    sheets
}

fn bars(basis: &Basis, bars: &[&CutBar], noun: (&str, &str), notes: Vec<Text>) -> Sheet {
    let noun = if bars.len() == 1 { noun.0 } else { noun.1 };
    let mut blocks =
        vec![Block::Lead(Lead { words: format!("{} {noun} to cut", bars.len()).into(), notes })];
    // One scale bar a page serves all strips of its scale.
    let mut scales: Vec<Scale> = Vec::new();
    let mut strips = Vec::new();
    for drawn in strip::drawn(bars, MOST_STRIPS) {
        let scale = strip::scale(drawn.bar.length);
        if !scales.contains(&scale) {
            scales.push(scale);
        }
        let length = if inches(basis) {
            format!("{}\u{a0}in", in_inches(basis, drawn.bar.length))
        } else {
            mm(drawn.bar.length, 0)
        };
        strips.push(Block::Heading(
            Heading::new(drawn.title()).aside(strip::bar_words(drawn.bar, &length, scale)),
        ));
        let scene = strip::strip(drawn.bar, scale);
        strips.push(Block::Figure(Figure::new(scene, STRIP).at_left()));
    }
    let caption = scales.into_iter().map(|scale| scale_bar(scale, strip::noun(bars[0]))).collect();
    blocks.push(Block::Under(Under { caption, blocks: strips }));
    blocks.push(Block::Heading(
        Heading::new("The table wins over the picture.")
            .aside("limits: a careful cut, ISO 2768-1 class c at most"),
    ));
    blocks.push(Block::Table(saw::table(basis, bars)));
    Sheet {
        anchor: "cut".into(),
        title: String::new(),
        purpose: "Every piece, where its cut falls, and what is left over.".into(),
        tab: Some(Kind::Cut.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }
}

/// The bar that strips of a scale are measured by.
fn scale_bar(scale: Scale, noun: &str) -> Block {
    let mut scene = Scene::at_scale("scale bar of the strips", scale);
    scene.lettering = Lettering::Small;
    scene.view(format!("along the {noun}, zero at left; height not to scale"));
    Block::Figure(Figure::new(scene, 12.0).at_left())
}

/// What to know before the first mark.
fn saw_notes(basis: &Basis, cuts: &CutList, bars: &[&CutBar]) -> Vec<Text> {
    let mut notes: Vec<Text> = vec![
        zero_note(basis),
        format!("They hold the saw cut, {}. Triangle: waste side.", mm(cuts.kerf, 1)).into(),
    ];
    if bars.iter().flat_map(|bar| &bar.cuts).any(|cut| !cut.ends.are_square()) {
        notes.push("Slanting: marks are at the long point, up or down in the picture.".into());
    } else {
        notes.push("All cuts square, 90°.".into());
    }
    notes
}

/// Where marks run from; with inches in the table the strips keep millimetres.
fn zero_note(basis: &Basis) -> Text {
    if inches(basis) {
        "Zero (circle): left end. Marks over the strips are in mm.".into()
    } else {
        "Zero (circle): left end. All marks run from it.".into()
    }
}

/// Whether sheets get inches.
fn inches(basis: &Basis) -> bool {
    *basis.build.job.units == LengthUnit::Inch
}

/// A size in inches without the unit, rounded from the exact size, so that errors don't add up.
fn in_inches(basis: &Basis, size: Length) -> String {
    bare(&display::inches(size, *basis.build.cutting.fraction))
}

/// Limits in inches, rounded inwards to 1/64: no coarser step lies between limits of half a
/// millimetre.
fn limits_in_inches(low: Length, high: Length) -> (String, String) {
    let step = display::InchStep::SixtyFourth;
    let whole = |size: Length| size.to_inches() / step.length().to_inches();
    let at = |steps: f64| step.length() * steps;
    let (low, high) = (at((whole(low) - 1e-6).ceil()), at((whole(high) + 1e-6).floor()));
    (bare(&display::inches(low, step)), bare(&display::inches(high, step)))
}

fn bare(told: &str) -> String {
    told.strip_suffix("\u{a0}in").unwrap_or(told).to_owned()
}

/// How an end is cut: "square", "45° up" with its long point on the upper edge of the picture.
fn end_words(angle: Angle) -> String {
    if angle.is_zero() {
        return "square".into();
    }
    let way = if angle > Angle::ZERO { "up" } else { "down" };
    format!("{}°\u{a0}{way}", display::number_short(angle.to_deg().abs(), 1))
}
