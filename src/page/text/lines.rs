//! Lines of words.
//!
//! Breaks are those of UAX #14, less a few that would part a unit or leave a stump. The lines of a
//! paragraph are chosen together: as few as greedy filling needs, and among those the set with the
//! least sum of squared gaps at the right, in which a lonely short last word costs as well.

use std::sync::Arc;

use unicode_linebreak::{BreakOpportunity, linebreaks};
use unicode_segmentation::UnicodeSegmentation;

use super::clean::clean_part;
use super::shape::{Shaper, Word};
use super::{Text, Words};
use crate::page::context::Context;
use crate::page::fonts::FaceId;
use crate::page::model::Ink;

/// Where lines stand in their column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Align {
    Left,
    Right,
    Centre,
}

/// How a text is to be set.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Setting {
    /// Points.
    pub size: f64,
    /// Line height in parts of the type size.
    pub leading: f64,
    /// All of it in bold.
    pub bold: bool,
    /// Width of the column, mm.
    pub width: f64,
    /// Most characters in a line.
    pub most: usize,
    pub align: Align,
    pub ink: Ink,
}

impl Setting {
    /// Page rules 6 and 7: leading 125 %, 75 characters.
    pub const fn new(size: f64, width: f64) -> Self {
        Self {
            size,
            leading: 1.25,
            bold: false,
            width,
            most: 75,
            align: Align::Left,
            ink: Ink::Black,
        }
    }

    pub const fn bold(mut self) -> Self {
        self.bold = true;
        self
    }

    pub const fn align(mut self, align: Align) -> Self {
        self.align = align;
        self
    }

    pub const fn leading(mut self, leading: f64) -> Self {
        self.leading = leading;
        self
    }

    pub const fn most(mut self, most: usize) -> Self {
        self.most = most;
        self
    }

    pub const fn ink(mut self, ink: Ink) -> Self {
        self.ink = ink;
        self
    }

    /// Height of a line, mm.
    pub fn line(&self) -> f64 {
        self.size * self.leading * MM
    }

    /// From the top of a line to its baseline, mm: capitals stand in the middle of the line.
    pub fn baseline(&self) -> f64 {
        f64::midpoint(self.line(), FaceId::Regular.cap_height() * self.size * MM)
    }
}

/// Millimetres in a point.
pub(crate) const MM: f64 = 25.4 / 72.0;

#[derive(Debug, Clone)]
pub(super) struct Atom {
    pub word: Arc<Word>,
    pub bold: bool,
    pub link: Option<usize>,
    /// mm
    pub width: f64,
    /// Space after it, mm; 0 where the next one joins.
    pub space: f64,
    /// Whether a line may end after it.
    pub breaks: bool,
}

/// A text broken into lines, not yet on a page.
#[derive(Debug, Clone)]
pub(crate) struct Lines {
    pub(super) atoms: Vec<Atom>,
    /// First and past-last atom of each line, and its width in mm.
    pub(super) breaks: Vec<(usize, usize, f64)>,
    pub(super) links: Vec<(String, String)>,
    pub(super) setting: Setting,
}

/// Breaks a text into lines.
pub(crate) fn set(text: &Text, setting: Setting, context: &Context) -> Lines {
    let mut links = Vec::new();
    let atoms = atoms(text, &setting, context, &mut links);
    broken(atoms, links, setting, context)
}

fn broken(
    mut atoms: Vec<Atom>,
    links: Vec<(String, String)>,
    setting: Setting,
    context: &Context,
) -> Lines {
    if atoms.iter().any(|a| a.width > setting.width || a.word.chars > setting.most) {
        atoms = shorten(atoms, &setting, context);
    }
    part_groups(&mut atoms, &setting);
    let breaks = fit(&atoms, &setting);
    Lines { atoms, breaks, links, setting }
}

fn atoms(
    text: &Text,
    setting: &Setting,
    context: &Context,
    links: &mut Vec<(String, String)>,
) -> Vec<Atom> {
    let mut whole = String::new();
    let mut marks: Vec<(usize, bool, Option<usize>)> = Vec::new();
    for span in &text.spans {
        let words = match &span.words {
            Words::Plain(words) | Words::Code(words) => clean_part(words),
            Words::PageOf(anchor) => context.page_of(anchor),
            Words::PagesOf(anchors) => context.pages_of(anchors),
        };
        let link = span.link.as_ref().map(|target| {
            links.push((target.clone(), words.trim().to_owned()));
            links.len() - 1
        });
        let words =
            if whole.is_empty() || whole.ends_with(' ') { words.trim_start() } else { &words };
        whole.push_str(words);
        marks.push((whole.len(), span.bold || setting.bold, link));
    }
    let whole = whole.trim_end();
    if whole.is_empty() {
        return Vec::new();
    }
    let em = setting.size * MM;
    let mut atoms = Vec::new();
    let mut start = 0;
    let mut mark = 0;
    for (end, opportunity) in linebreaks(whole) {
        let last = end == whole.len();
        if !last && opportunity == BreakOpportunity::Allowed && is_stump(whole, start, end) {
            continue;
        }
        // A segment is parted where the style changes.
        let mut from = start;
        while from < end {
            while marks.get(mark).is_some_and(|m| m.0 <= from) {
                mark += 1;
            }
            let Some(&(until, bold, link)) = marks.get(mark) else { break };
            let to = until.min(end);
            let part = &whole[from..to];
            let word = part.trim_end_matches(' ');
            let spaced = word.len() < part.len();
            let space = if spaced { f64::from(Shaper::space(bold)) / UNITS * em } else { 0.0 };
            if word.is_empty() {
                if let Some(previous) = atoms.last_mut() {
                    let previous: &mut Atom = previous;
                    previous.space = space;
                    previous.breaks |= to == end;
                }
            } else {
                let shaped = context.shaper.word(word, bold);
                let width = f64::from(shaped.width) / UNITS * em;
                atoms.push(Atom { word: shaped, bold, link, width, space, breaks: to == end });
            }
            from = to;
        }
        start = end;
    }
    atoms
}

/// Font units in an em, the same for all faces.
pub(super) const UNITS: f64 = 2048.0;

/// Whether a break inside a word would leave a stump: `m/|s`, `X-|1`, `9-|volt`.
fn is_stump(text: &str, start: usize, end: usize) -> bool {
    let before = &text[start..end];
    if before.ends_with(' ') {
        return false;
    }
    let after = text[end..].split(' ').next().unwrap_or("");
    before.trim().chars().count() < 4 || after.chars().count() < 4
}

/// Lets stretches of different styles that join without a space, and are too long for a line together,
/// be parted where they meet.
fn part_groups(atoms: &mut [Atom], setting: &Setting) {
    for group in atoms.chunk_by_mut(|a, _| !a.breaks) {
        let width: f64 = group.iter().map(|a| a.width + a.space).sum();
        let chars: usize = group.iter().map(|a| a.word.chars + 1).sum();
        if group.len() > 1 && (width > setting.width || chars > setting.most) {
            for atom in group {
                atom.breaks = true;
            }
        }
    }
}

/// Parts words that are wider than the column: between syllables, where the language's are known, else
/// between graphemes.
fn shorten(atoms: Vec<Atom>, setting: &Setting, context: &Context) -> Vec<Atom> {
    let shaper = &context.shaper;
    let em = setting.size * MM;
    let mut out = Vec::with_capacity(atoms.len() + 8);
    for atom in atoms {
        if atom.width <= setting.width && atom.word.chars <= setting.most {
            out.push(atom);
            continue;
        }
        if let Some(parts) = syllables(&atom, setting, context) {
            out.extend(parts);
            continue;
        }
        // Kerning can only add a little to the sum of the parts; leave room for it.
        let room = setting.width * 0.98;
        let mut cuts: Vec<String> = vec![String::new()];
        let (mut width, mut count) = (0.0, 0);
        for grapheme in atom.word.text.graphemes(true) {
            let own = f64::from(shaper.word(grapheme, atom.bold).width) / UNITS * em;
            if count > 0 && (width + own > room || count >= setting.most) {
                cuts.push(String::new());
                (width, count) = (0.0, 0);
            }
            width += own;
            count += 1;
            if let Some(cut) = cuts.last_mut() {
                cut.push_str(grapheme);
            }
        }
        let last = cuts.len() - 1;
        for (i, cut) in cuts.iter().enumerate() {
            let word = shaper.word(cut, atom.bold);
            let width = f64::from(word.width) / UNITS * em;
            let (space, breaks) = if i == last { (atom.space, atom.breaks) } else { (0.0, true) };
            out.push(Atom { word, width, space, breaks, ..atom.clone() });
        }
    }
    out
}

/// A word in parts as long as the column takes, each but the last with a hyphen; none if a syllable alone
/// is too long.
fn syllables(atom: &Atom, setting: &Setting, context: &Context) -> Option<Vec<Atom>> {
    let em = setting.size * MM;
    let mm = |word: &Word| f64::from(word.width) / UNITS * em;
    let fits = |word: &Word| mm(word) <= setting.width && word.chars <= setting.most;
    let mut rest: &str = &atom.word.text;
    let mut out = Vec::new();
    loop {
        let last = context.shaper.word(rest, atom.bold);
        if fits(&last) {
            out.push(Atom { width: mm(&last), word: last, ..atom.clone() });
            return Some(out);
        }
        let places = hyphens(rest, context.hyphens?);
        let (at, word) = places.into_iter().rev().find_map(|at| {
            let word = context.shaper.parted(&rest[..at], atom.bold);
            fits(&word).then_some((at, word))
        })?;
        out.push(Atom { width: mm(&word), word, space: 0.0, breaks: true, ..atom.clone() });
        rest = &rest[at..];
    }
}

/// Places between the syllables of a word, in bytes; no part shorter than three letters.
fn hyphens(word: &str, language: hypher::Lang) -> Vec<usize> {
    if word.chars().filter(|c| c.is_alphabetic()).nth(5).is_none() {
        return Vec::new();
    }
    let mut places = Vec::new();
    let mut at = 0;
    for syllable in hypher::hyphenate(word, language) {
        at += syllable.len();
        let clear = |part: &str| part.chars().filter(|c| c.is_alphabetic()).count() >= 3;
        if clear(&word[..at]) && clear(&word[at..]) {
            places.push(at);
        }
    }
    places
}

/// The lines, chosen together. Costs are in squared parts of the column's width.
fn fit(atoms: &[Atom], setting: &Setting) -> Vec<(usize, usize, f64)> {
    const LINE: f64 = 1000.0;
    let n = atoms.len();
    // Places where a line may start: after an atom that breaks.
    let mut best = vec![(f64::INFINITY, 0usize); n + 1];
    best[0].0 = 0.0;
    let slack = 1e-6;
    for start in 0..n {
        if !best[start].0.is_finite() {
            continue;
        }
        let (mut width, mut chars) = (0.0, 0);
        let mut fitted = false;
        for end in start + 1..=n {
            let atom = &atoms[end - 1];
            let total = width + atom.width;
            chars += atom.word.chars + usize::from(end > start + 1 && atoms[end - 2].space > 0.0);
            let fits = total <= setting.width + slack && chars <= setting.most;
            if !fits && fitted {
                break;
            }
            width = total + atom.space;
            if !(atom.breaks || end == n) {
                continue;
            }
            // Joined stretches that are too wide together have nowhere else to go.
            let over = if fits { 0.0 } else { LINE * 10.0 };
            fitted = true;
            let gap = (1.0 - total / setting.width).max(0.0);
            let cost = if end == n {
                let lonely = start > 0 && (end - start == 1 || total < setting.width * 0.2);
                if lonely { 0.15 } else { 0.0 }
            } else {
                gap * gap
            };
            let sum = best[start].0 + LINE + cost + over;
            if sum < best[end].0 {
                best[end] = (sum, start);
            }
            if !fits {
                break;
            }
        }
    }
    let mut lines = Vec::new();
    let mut end = n;
    while end > 0 {
        let start = best[end].1;
        let spaces: f64 = atoms[start..end - 1].iter().map(|a| a.space).sum();
        let width = atoms[start..end].iter().map(|a| a.width).sum::<f64>() + spaces;
        lines.push((start, end, width));
        end = start;
    }
    lines.reverse();
    lines
}

impl Lines {
    /// The same text of the same size, set in one line before, in a column.
    pub fn refit(&self, setting: Setting, context: &Context) -> Lines {
        let setting = Setting { bold: self.setting.bold, size: self.setting.size, ..setting };
        broken(self.atoms.clone(), self.links.clone(), setting, context)
    }

    /// Count of lines.
    pub fn count(&self) -> usize {
        self.breaks.len()
    }

    /// Height of all lines, mm.
    pub fn height(&self) -> f64 {
        self.breaks.len() as f64 * self.setting.line()
    }

    /// Width of the longest line, mm.
    pub fn width(&self) -> f64 {
        self.breaks.iter().map(|l| l.2).fold(0.0, f64::max)
    }

    /// Width of the last line, mm.
    pub fn last_width(&self) -> f64 {
        self.breaks.last().map_or(0.0, |l| l.2)
    }

    /// Width of the widest word that can't be parted, mm.
    pub fn least_width(&self) -> f64 {
        let (mut most, mut here) = (0.0_f64, 0.0);
        for atom in &self.atoms {
            here += atom.width;
            most = most.max(here);
            here = if atom.breaks { 0.0 } else { here + atom.space };
        }
        most
    }

    pub fn setting(&self) -> &Setting {
        &self.setting
    }

    /// Lines `from` to `to` of the same text.
    pub fn part(&self, from: usize, to: usize) -> Lines {
        let to = to.min(self.breaks.len());
        let breaks = self.breaks[from.min(to)..to].to_vec();
        Lines { breaks, ..self.clone() }
    }

    /// The first `count` lines with an ellipsis in place of what is left out.
    pub fn cut(&self, count: usize, context: &Context) -> Lines {
        if self.breaks.len() <= count || count == 0 {
            return self.clone();
        }
        let mut cut = self.part(0, count);
        if let Some(line) = cut.breaks.last_mut() {
            let em = self.setting.size * MM;
            let end = line.1;
            let dots = context.shaper.word("…", cut.atoms[end - 1].bold);
            let width = f64::from(dots.width) / UNITS * em;
            let mut end = end;
            let mut whole = line.2;
            while end > line.0 + 1 && whole + width > self.setting.width {
                end -= 1;
                whole -= cut.atoms[end].width + cut.atoms[end - 1].space;
            }
            if whole + width > self.setting.width {
                // One word fills the line: cut inside it.
                let atom = &cut.atoms[end - 1];
                let mut short: Vec<&str> = atom.word.text.graphemes(true).collect();
                short.truncate(short.len().saturating_sub(2).max(1));
                let word = context.shaper.word(&short.concat(), atom.bold);
                let own = f64::from(word.width) / UNITS * em;
                whole += own - atom.width;
                cut.atoms[end - 1].word = word;
                cut.atoms[end - 1].width = own;
            }
            cut.atoms[end - 1].space = 0.0;
            let bold = cut.atoms[end - 1].bold;
            let link = cut.atoms[end - 1].link;
            cut.atoms.truncate(end);
            cut.atoms.push(Atom { word: dots, bold, link, width, space: 0.0, breaks: true });
            *line = (line.0, end + 1, whole + width);
        }
        cut
    }
}
