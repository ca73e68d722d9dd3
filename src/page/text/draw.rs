//! Lines to glyph runs.

use super::clean;
use super::lines::{Align, Atom, Lines, MM, UNITS};
use super::shape::{Piece, Shaper, Word};
use crate::page::context::Context;
use crate::page::model::{Glyph, GlyphRun, Ink, Item, NodeId, Point, Rect, Role};
use crate::page::strip::{Owner, Strip};

impl Lines {
    /// Draws the lines with their column's top left corner at (`x`, `y`); returns the y under them.
    pub fn draw(&self, strip: &mut Strip, x: f64, y: f64, owner: Owner, context: &Context) -> f64 {
        if context.measuring.get() {
            return y + self.height();
        }
        let line_height = self.setting.line();
        let links: Vec<Option<NodeId>> = self
            .links
            .iter()
            .map(|_| match owner {
                Owner::Node(node) => Some(context.tags.node(node, Role::Link)),
                _ => None,
            })
            .collect();
        for (index, &(start, end, width)) in self.breaks.iter().enumerate() {
            let top = y + index as f64 * line_height;
            let left = match self.setting.align {
                Align::Left => x,
                Align::Right => x + self.setting.width - width,
                Align::Centre => x + (self.setting.width - width) / 2.0,
            };
            let more = index + 1 < self.breaks.len();
            self.draw_line(strip, (left, top), start..end, more, owner, &links);
        }
        y + self.height()
    }

    fn draw_line(
        &self,
        strip: &mut Strip,
        (left, top): (f64, f64),
        range: std::ops::Range<usize>,
        more: bool,
        owner: Owner,
        links: &[Option<NodeId>],
    ) {
        let baseline = top + self.setting.baseline();
        let order = visual_order(&self.atoms[range.clone()]);
        let mut pen = left;
        let mut run: Option<(Owner, GlyphRun)> = None;
        for (at, &offset) in order.iter().enumerate() {
            let atom = &self.atoms[range.start + offset];
            let own = match atom.link.and_then(|l| links.get(l).copied().flatten()) {
                Some(node) => Owner::Node(node),
                None => owner,
            };
            let start = pen;
            for piece in &atom.word.pieces {
                let joins = run.as_ref().is_some_and(|(o, r)| *o == own && r.face == piece.face);
                if !joins {
                    flush(strip, &mut run);
                    run = Some((
                        own,
                        GlyphRun {
                            face: piece.face,
                            size: self.setting.size,
                            origin: Point::new(pen, baseline),
                            angle: 0.0,
                            ink: self.setting.ink,
                            text: String::new(),
                            glyphs: Vec::new(),
                        },
                    ));
                }
                if let Some((_, run)) = run.as_mut() {
                    pen += append(run, &atom.word, piece);
                }
            }
            let end_of_line = at + 1 == order.len();
            let spaced = if end_of_line { more && atom.space > 0.0 } else { atom.space > 0.0 };
            if spaced && let Some((_, run)) = run.as_mut() {
                // The last space is for whoever copies the text; it takes no room.
                let advance = if end_of_line { 0 } else { Shaper::space(atom.bold) };
                push_space(run, advance, &mut pen, atom.space);
            }
            if let (Some(link), Owner::Node(node)) = (atom.link, own)
                && node != NodeId::ROOT
                && links.get(link).copied().flatten() == Some(node)
            {
                let area = Rect::new(start, top, atom.width, self.setting.line());
                let (target, contents) = &self.links[link];
                strip.link(node, area, target, contents);
            }
        }
        flush(strip, &mut run);
    }
}

fn flush(strip: &mut Strip, run: &mut Option<(Owner, GlyphRun)>) {
    if let Some((owner, run)) = run.take()
        && !run.glyphs.is_empty()
    {
        strip.push(owner, Item::Glyphs(run));
    }
}

/// Adds a piece to a run of the same face; returns its width in mm.
fn append(run: &mut GlyphRun, word: &Word, piece: &Piece) -> f64 {
    let base = run.text.len() as u32;
    run.text.push_str(&word.text[piece.text.clone()]);
    let units: i32 = piece.glyphs.iter().map(|glyph| glyph.advance).sum();
    run.glyphs.extend(piece.glyphs.iter().map(|glyph| Glyph {
        text_start: glyph.text_start + base,
        text_end: glyph.text_end + base,
        ..*glyph
    }));
    f64::from(units) / UNITS * run.size_mm()
}

fn push_space(run: &mut GlyphRun, advance: i32, pen: &mut f64, space: f64) {
    let Some(id) = run.face.glyph(' ') else { return };
    let start = run.text.len() as u32;
    run.text.push(' ');
    // The face for signs has a space of another width; the pen follows the line's own.
    run.glyphs.push(Glyph { id, advance, dx: 0, dy: 0, text_start: start, text_end: start + 1 });
    if advance != 0 {
        *pen += space;
    }
}

/// Places of the atoms from the left: stretches of right-to-left words are turned round.
fn visual_order(atoms: &[Atom]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..atoms.len()).collect();
    let mut start = 0;
    while start < atoms.len() {
        let mut end = start;
        while end < atoms.len() && atoms[end].word.rtl {
            end += 1;
        }
        order[start..end].reverse();
        start = end.max(start + 1);
    }
    order
}

/// Draws one line of plain text without breaking it, its baseline starting at `origin` and turned by
/// `angle` degrees; returns its length in mm.
pub(crate) fn single(
    text: &str,
    (size, bold, ink): (f64, bool, Ink),
    origin: Point,
    angle: f64,
    shaper: &Shaper,
) -> (Vec<GlyphRun>, f64) {
    let cleaned = clean(text);
    let (sin, cos) = angle.to_radians().sin_cos();
    let em = size * MM;
    let mut runs: Vec<GlyphRun> = Vec::new();
    let mut along = 0.0;
    let space = Shaper::space(bold);
    let mut words: Vec<_> = cleaned.split(' ').map(|p| (p, shaper.word(p, bold))).collect();
    // Words written from right to left change places, as in a line of running text.
    for group in words.chunk_by_mut(|a, b| a.1.rtl && b.1.rtl) {
        group.reverse();
    }
    for (index, (part, word)) in words.into_iter().enumerate() {
        if index > 0 {
            match runs.last_mut() {
                Some(run) => push_space(run, space, &mut along, f64::from(space) / UNITS * em),
                None => along += f64::from(space) / UNITS * em,
            }
        }
        if part.is_empty() {
            continue;
        }
        for piece in &word.pieces {
            if runs.last().is_none_or(|r| r.face != piece.face) {
                runs.push(GlyphRun {
                    face: piece.face,
                    size,
                    origin: Point::new(origin.x + along * cos, origin.y - along * sin),
                    angle,
                    ink,
                    text: String::new(),
                    glyphs: Vec::new(),
                });
            }
            if let Some(run) = runs.last_mut() {
                along += append(run, &word, piece);
            }
        }
    }
    (runs, along)
}

/// Length of one line of plain text, mm.
pub(crate) fn length(text: &str, size: f64, bold: bool, shaper: &Shaper) -> f64 {
    f64::from(shaper.line(text, bold)) / UNITS * (size * MM)
}
