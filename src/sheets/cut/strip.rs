//! One bar as a strip to scale.

use super::super::words::bare;
use super::saw::{Saw, saws};
use crate::compute::cut_list::{BarCut, CutBar};
use crate::page::scene::{Fill, Lettering, Line, Place, Scale, Scene, Side, Style};
use crate::units::{Angle, Length};

/// Room for a strip on paper, mm.
const STRIP_WIDTH: f64 = 165.0;
/// Height of a strip on paper, mm.
const STRIP_HEIGHT: f64 = 9.0;
/// Under this width on paper, mm, a piece has no room for its mark; from `WIDE` on it has room for
/// mark and length.
const NARROW: f64 = 11.0;
const WIDE: f64 = 30.0;
/// What is shorter on paper, mm, is not drawn (page rule 36).
const LEAST: f64 = 0.7;
/// Marks nearer than this on paper are told by the table alone.
const CLOSE: f64 = 14.0;

/// A strip and the bars that it stands for.
pub(super) struct Drawn<'a> {
    pub bar: &'a CutBar,
    alike: Vec<usize>,
}

impl Drawn<'_> {
    /// "bar 3", or "bars 3 to 9"; cable and tape come in lengths.
    pub fn title(&self) -> String {
        let noun = noun(self.bar);
        match (self.alike.first(), self.alike.last()) {
            (Some(first), Some(last)) if first != last => format!("{noun}s {first} to {last}"),
            _ => format!("{noun} {}", self.bar.number),
        }
    }
}

pub(super) const fn noun(bar: &CutBar) -> &'static str {
    if bar.section.sawn { "bar" } else { "length" }
}

/// Every bar, or where they are more than `most` the first of each run that is cut alike.
pub(super) fn drawn<'a>(bars: &[&'a CutBar], most: usize) -> Vec<Drawn<'a>> {
    let one = |bar: &'a CutBar| Drawn { bar, alike: vec![bar.number] };
    if bars.len() <= most {
        return bars.iter().map(|bar| one(bar)).collect();
    }
    let same = |a: &CutBar, b: &CutBar| {
        a.section == b.section
            && a.pattern == b.pattern
            && a.length == b.length
            && a.on_hand == b.on_hand
    };
    let mut list: Vec<Drawn<'a>> = Vec::new();
    for bar in bars {
        match list.last_mut() {
            Some(last) if same(last.bar, bar) => last.alike.push(bar.number),
            _ => list.push(one(bar)),
        }
    }
    list
}

/// The largest scale of ISO 5455 at which a bar of this length fits the strip's width.
pub(super) fn scale(length: Length) -> Scale {
    Scale::LIST
        .into_iter()
        .filter(|scale| scale.factor() <= 0.5)
        .find(|scale| length.to_mm() * scale.factor() <= STRIP_WIDTH)
        .unwrap_or(Scale::LIST[Scale::LIST.len() - 1])
}

/// What the bar is, its length as printed, the scale.
pub(super) fn bar_words(bar: &CutBar, length: &str, scale: Scale) -> String {
    let mut words = format!("{}, {length}, {scale}", bar.section.words);
    if let Some(label) = &bar.on_hand {
        words += ", on hand: ";
        words += label;
    }
    words
}

/// How far in the short point of an end lies.
fn slant(cut: &BarCut, angle: Angle) -> f64 {
    (cut.ends.across * angle.tan()).abs().to_mm()
}

/// Outline of a piece, `high` being the height of the strip: long points where its ends say.
fn outline(cut: &BarCut, high: f64) -> Vec<(f64, f64)> {
    let (from, to) = (cut.from.to_mm(), cut.to.to_mm());
    let shift = |angle: Angle, up: bool| {
        let long_here = (angle > Angle::ZERO) == up;
        if long_here || angle.is_zero() { 0.0 } else { slant(cut, angle) }
    };
    vec![
        (from + shift(cut.ends.zero, false), 0.0),
        (to - shift(cut.ends.far, false), 0.0),
        (to - shift(cut.ends.far, true), high),
        (from + shift(cut.ends.zero, true), high),
    ]
}

/// One bar to scale: pieces with marks, waste sides as triangles, the rest dashed, scrap hatched.
pub(super) fn strip(bar: &CutBar, scale: Scale) -> Scene {
    // A bar is drawn as a strip of one height on paper; only its length is to scale.
    let on_paper = |paper: f64| paper / scale.factor();
    let high = on_paper(STRIP_HEIGHT);
    let alt = format!(
        "{} {} with {} pieces from the left: {}",
        noun(bar),
        bar.number,
        bar.cuts.len(),
        bar.cuts
            .iter()
            .map(|c| format!("{} {:.0} mm", c.mark, c.length.to_mm()))
            .collect::<Vec<_>>()
            .join(", ")
    );
    let mut scene = Scene::at_scale(alt, scale);
    scene.lettering = Lettering::Large;
    let start = bar.trim.to_mm();
    if start > on_paper(LEAST) {
        scene.filled_rectangle((0.0, 0.0), (start, high), Fill::HATCH, Some(Line::THIN));
    }
    for cut in &bar.cuts {
        scene.outline(&outline(cut, high), Line::VISIBLE);
    }
    let groups = groups(bar, on_paper(NARROW));
    for group in &groups {
        let (from, to) = (group[0].from.to_mm(), group[group.len() - 1].to.to_mm());
        let middle = (f64::midpoint(from, to), high / 2.0);
        if let [cut] = group[..] {
            // A short piece has room for its mark alone.
            let text = if to - from > on_paper(WIDE) {
                format!("{}  {}", cut.mark, bare(cut.length, 0))
            } else {
                cut.mark.clone()
            };
            scene.words(middle, text, Place::Centre, Style::BOLD);
        } else {
            // Pieces too narrow for a mark each are named together.
            let text = format!("{} to {}", group[0].mark, group[group.len() - 1].mark);
            scene.words((middle.0, on_paper(-3.3)), text, Place::Beside(Side::Below), Style::PLAIN);
        }
    }
    rest(bar, &mut scene, high, on_paper);
    let saws = saws(bar);
    for saw in &saws {
        // Under the strip: the side of its line on which the saw runs.
        let tip = if saw.waste_left { -2.4 } else { 2.4 };
        let at = saw.at.to_mm();
        let ring =
            vec![(at, on_paper(-0.7)), (at + on_paper(tip), on_paper(-1.9)), (at, on_paper(-3.1))];
        scene.area(&[ring], Some(Fill::Black), None);
    }
    scene.running(Side::Above, (0.0, high), &marks(bar, &groups, &saws, high, on_paper(CLOSE)));
    scene
}

/// What is left behind the last piece.
fn rest(bar: &CutBar, scene: &mut Scene, high: f64, on_paper: impl Fn(f64) -> f64) {
    let long = bar.length.to_mm();
    let from = (bar.length - bar.rest).to_mm();
    if bar.rest.to_mm() <= on_paper(LEAST) {
        return;
    }
    // Behind a slanting end the rest slants along with it.
    let last = bar.cuts.last().filter(|cut| !cut.ends.far.is_zero());
    let shift = |up: bool| {
        last.map_or(0.0, |cut| {
            let long_here = (cut.ends.far > Angle::ZERO) == up;
            if long_here { 0.0 } else { slant(cut, cut.ends.far) }
        })
    };
    let ring =
        vec![(from - shift(false), 0.0), (long, 0.0), (long, high), (from - shift(true), high)];
    if let Some(mark) = &bar.rest_mark {
        scene.outline(&ring, Line::HIDDEN);
        let middle = (f64::midpoint(from, long), high / 2.0);
        scene.words(middle, mark.clone(), Place::Centre, Style::BOLD);
    } else {
        scene.area(&[ring], Some(Fill::HATCH), Some(Line::THIN));
    }
}

/// Marks over the strip. Of pieces named together the last mark stands in the picture, and of marks
/// that are close the one that frees a piece; the table has all.
fn marks(
    bar: &CutBar,
    groups: &[Vec<&BarCut>],
    saws: &[Saw<'_>],
    high: f64,
    close: f64,
) -> Vec<((f64, f64), String)> {
    let mut places: Vec<Length> = groups.iter().map(|group| group[group.len() - 1].to).collect();
    for saw in saws.iter().filter(|saw| saw.waste_left) {
        let near = |other: &Length| (*other - saw.at).abs().to_mm() < close;
        if saw.at.to_mm() > close && !places.iter().any(near) {
            places.push(saw.at);
        }
    }
    places.retain(|at| *at < bar.length);
    places.sort_by(crate::units::Length::total_cmp);
    places.into_iter().map(|at| ((at.to_mm(), high), bare(at, 1))).collect()
}

/// Pieces by what one name can stand for: a wide one alone, narrow neighbours together.
fn groups(bar: &CutBar, least: f64) -> Vec<Vec<&BarCut>> {
    let narrow = |cut: &BarCut| cut.length.to_mm() < least;
    let mut groups: Vec<Vec<&BarCut>> = Vec::new();
    for cut in &bar.cuts {
        match groups.last_mut() {
            Some(group) if narrow(cut) && narrow(group[0]) => group.push(cut),
            _ => groups.push(vec![cut]),
        }
    }
    groups
}
