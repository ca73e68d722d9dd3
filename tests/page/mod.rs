//! The page engine, by the rules that printed sheets must keep.

mod booklet;
mod examples;
mod hostile;
mod keeps;
mod rules;
pub mod sample;
mod scenes;
mod tags;

use rungsheet::page::model::{Document, GlyphRun, Item, Mark, Page, Path, Rect};

/// All runs of a page, with whether they are furniture.
pub fn runs(page: &Page) -> Vec<(&GlyphRun, bool)> {
    fn inside<'a>(items: &'a [Item], artifact: bool, out: &mut Vec<(&'a GlyphRun, bool)>) {
        for item in items {
            match item {
                Item::Glyphs(run) => out.push((run, artifact)),
                Item::Clipped { items, .. } => inside(items, artifact, out),
                _ => {}
            }
        }
    }
    let mut out = Vec::new();
    for sequence in &page.content {
        inside(&sequence.items, matches!(sequence.mark, Mark::Artifact(_)), &mut out);
    }
    out
}

/// All paths of a page.
pub fn paths(page: &Page) -> Vec<&Path> {
    fn inside<'a>(items: &'a [Item], out: &mut Vec<&'a Path>) {
        for item in items {
            match item {
                Item::Path(path) => out.push(path),
                Item::Clipped { items, .. } => inside(items, out),
                _ => {}
            }
        }
    }
    let mut out = Vec::new();
    for sequence in &page.content {
        inside(&sequence.items, &mut out);
    }
    out
}

/// The words of a page in drawing order.
pub fn words(page: &Page) -> String {
    runs(page).iter().map(|(r, _)| r.text.as_str()).collect::<Vec<_>>().join("|")
}

/// What is wrong with a finished document: broken promises, text over text, text off the paper.
pub fn wrongs(document: &Document) -> Vec<String> {
    let mut wrongs = document.faults();
    for (number, page) in document.pages.iter().enumerate() {
        let paper = Rect::new(0.0, 0.0, page.width, page.height);
        let live = Rect::new(10.0, 7.0, page.width - 20.0, page.height - 14.0);
        let boxes: Vec<(Rect, &str)> = runs(page)
            .iter()
            .filter(|(r, _)| !r.text.trim().is_empty())
            .map(|(r, _)| (tight(r), r.text.as_str()))
            .collect();
        for (i, (area, text)) in boxes.iter().enumerate() {
            if !paper.holds(area, 0.0) || !live.holds(area, 0.05) {
                wrongs
                    .push(format!("page {}: {text:?} is off the live area: {area:?}", number + 1));
            }
            for (other, with) in &boxes[i + 1..] {
                if area.overlaps(other, 0.15) {
                    wrongs.push(format!("page {}: {text:?} lies over {with:?}", number + 1));
                }
            }
        }
    }
    wrongs
}

/// The box that a run's letters take: from the height of capitals to the baseline, so that lines at
/// 125 % never meet and lines at 100 % would.
pub fn tight(run: &GlyphRun) -> Rect {
    let whole = run.bounds();
    let em = run.size_mm();
    let (over, under) =
        ((run.face.text_ascent() - run.face.cap_height()) * em, run.face.text_descent() * em);
    if run.angle.abs() < 1e-9 {
        // A space at the end has no ink: the next run may begin in it, where the two faces differ in width.
        let space = run.glyphs.last().filter(|_| run.text.ends_with(' ')).map_or(0.0, |glyph| {
            f64::from(glyph.advance) * em / f64::from(run.face.units_per_em())
        });
        let width = whole.width - space;
        Rect::new(whole.x, whole.y + over, width, whole.height - over - under * 0.6)
    } else {
        whole
    }
}
