//! Words to glyphs, each word once.
//!
//! A word is shaped a stretch at a time: one face, one script, digits apart from the rest. Digits are
//! set tabular with the slashed zero; `l` has a tail and `I` has bars (features `tnum`, `zero`, `cv05`,
//! `cv08` of Inter), so that 0/O and 1/l/I can be told apart (DIN 1450). Kerning and ligatures are the
//! font's own; nothing is tracked tighter than that.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::Range;
use std::sync::{Arc, Mutex, PoisonError, RwLock};

use rustybuzz::ttf_parser::Tag;
use rustybuzz::{Direction, Feature, ShapePlan, UnicodeBuffer};
use unicode_script::{Script, UnicodeScript};
use unicode_segmentation::UnicodeSegmentation;

use crate::page::fonts::FaceId;
use crate::page::model::Glyph;

/// A shaped word. Widths are in font units, 2048 to the em whatever the face.
#[derive(Debug)]
pub(crate) struct Word {
    /// The characters, after characters that no face has were replaced.
    pub text: String,
    /// Advance of the whole word.
    pub width: i32,
    /// Stretches in drawing order from the left.
    pub pieces: Vec<Piece>,
    /// Whether its first letter belongs to a script written from right to left.
    pub rtl: bool,
    /// Characters as a reader counts them.
    pub chars: usize,
}

/// A stretch of a word in one face.
#[derive(Debug)]
pub(crate) struct Piece {
    pub face: FaceId,
    /// Bytes of the word's text.
    pub text: Range<usize>,
    /// Glyphs from the left; their text is counted from the piece's start.
    pub glyphs: Vec<Glyph>,
}

/// Shapes words and remembers them, for all sheets that are laid out at a time. Two weights, any size.
pub(crate) struct Shaper {
    words: [RwLock<HashMap<String, Arc<Word>>>; 2],
    /// Widths of whole lines, font units: labels try many places, and ask for theirs at each.
    lines: [RwLock<HashMap<String, i32>>; 2],
    plans: Mutex<BTreeMap<Kind, Arc<Plan>>>,
    missing: Mutex<BTreeSet<char>>,
}

impl Shaper {
    pub fn new() -> Self {
        Self {
            words: [RwLock::default(), RwLock::default()],
            lines: [RwLock::default(), RwLock::default()],
            plans: Mutex::default(),
            missing: Mutex::default(),
        }
    }

    /// Characters asked for so far that no face has; they are drawn as `?`.
    pub fn missing(&self) -> BTreeSet<char> {
        self.missing.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// The word in regular or bold.
    pub fn word(&self, text: &str, bold: bool) -> Arc<Word> {
        let cache = &self.words[usize::from(bold)];
        // Whoever panicked with a lock held left the cache whole: a word is added in one go.
        if let Some(word) = cache.read().unwrap_or_else(PoisonError::into_inner).get(text) {
            return Arc::clone(word);
        }
        let word = Arc::new(self.shape(text, bold));
        let mut cache = cache.write().unwrap_or_else(PoisonError::into_inner);
        cache.insert(text.to_owned(), Arc::clone(&word));
        word
    }

    /// A part of a word with a hyphen after it, which whoever copies the text does not get as a sign of
    /// the word: its text is a soft hyphen.
    pub fn parted(&self, part: &str, bold: bool) -> Arc<Word> {
        let mut word = self.shape(&format!("{part}-"), bold);
        if let Some(piece) = word.pieces.last_mut()
            && piece.text.end == word.text.len()
            && let Some(hyphen) = piece.glyphs.last_mut()
            && word.text.ends_with('-')
        {
            word.text.pop();
            word.text.push('\u{ad}');
            let longer = '\u{ad}'.len_utf8() - 1;
            piece.text.end += longer;
            hyphen.text_end += longer as u32;
        }
        Arc::new(word)
    }

    /// Width of one line of plain text, font units.
    pub fn line(&self, text: &str, bold: bool) -> i32 {
        let cache = &self.lines[usize::from(bold)];
        if let Some(&units) = cache.read().unwrap_or_else(PoisonError::into_inner).get(text) {
            return units;
        }
        let cleaned = super::clean(text);
        let mut units = 0;
        for (index, part) in cleaned.split(' ').enumerate() {
            if index > 0 {
                units += Self::space(bold);
            }
            if !part.is_empty() {
                units += self.word(part, bold).width;
            }
        }
        let mut cache = cache.write().unwrap_or_else(PoisonError::into_inner);
        cache.insert(text.to_owned(), units);
        units
    }

    /// Width of a word space, font units.
    pub fn space(bold: bool) -> i32 {
        let face = if bold { FaceId::Bold } else { FaceId::Regular };
        face.glyph(' ').map_or(512, |g| i32::from(face.advance(g)))
    }

    fn shape(&self, given: &str, bold: bool) -> Word {
        let main = if bold { FaceId::Bold } else { FaceId::Regular };
        let (text, stretches) = self.stretches(given, main);
        let rtl = stretches.iter().find(|s| s.script != Script::Common).is_some_and(|s| s.rtl);
        let mut pieces: Vec<Piece> = stretches
            .iter()
            .map(|stretch| Piece {
                face: stretch.face,
                text: stretch.text.clone(),
                glyphs: self.glyphs(&text[stretch.text.clone()], stretch),
            })
            .filter(|piece| !piece.glyphs.is_empty())
            .collect();
        if rtl {
            pieces.reverse();
        }
        let width = pieces.iter().flat_map(|p| &p.glyphs).map(|g| g.advance).sum();
        let chars = text.graphemes(true).count();
        Word { text, width, pieces, rtl, chars }
    }

    fn stretches(&self, given: &str, main: FaceId) -> (String, Vec<Stretch>) {
        let mut text = String::with_capacity(given.len());
        let mut stretches: Vec<Stretch> = Vec::new();
        for grapheme in given.graphemes(true) {
            let start = text.len();
            let face = match face_of(grapheme, main) {
                Some(face) => {
                    text.push_str(grapheme);
                    face
                }
                None => self.substitute(grapheme, main, &mut text),
            };
            let here = &text[start..];
            let first = here.chars().next().unwrap_or('?');
            let digits = first.is_ascii_digit();
            let script = if digits { Script::Latin } else { first.script() };
            let shared = matches!(script, Script::Common | Script::Inherited | Script::Unknown);
            let end = text.len();
            match stretches.last_mut() {
                Some(last)
                    if last.face == face
                        && last.digits == digits
                        && (last.script == script || shared || last.script == Script::Common) =>
                {
                    last.text.end = end;
                    if last.script == Script::Common && !shared {
                        last.script = script;
                        last.rtl = is_rtl(script);
                    }
                }
                _ => stretches.push(Stretch {
                    face,
                    script: if shared { Script::Common } else { script },
                    rtl: !digits && is_rtl(script),
                    digits,
                    text: start..end,
                }),
            }
        }
        (text, stretches)
    }

    /// Puts `?` for each character of the cluster that no face has, and keeps the others.
    fn substitute(&self, grapheme: &str, main: FaceId, text: &mut String) -> FaceId {
        for c in grapheme.chars() {
            if face_of(c.encode_utf8(&mut [0; 4]), main).is_none() {
                self.missing.lock().unwrap_or_else(PoisonError::into_inner).insert(c);
            }
        }
        let base = grapheme.chars().next().unwrap_or('?');
        if let Some(face) = face_of(base.encode_utf8(&mut [0; 4]), main) {
            text.push(base);
            face
        } else {
            text.push('?');
            main
        }
    }

    fn glyphs(&self, text: &str, stretch: &Stretch) -> Vec<Glyph> {
        let mut tag = [0u8; 4];
        let name =
            if stretch.script == Script::Common { "Latn" } else { stretch.script.short_name() };
        tag.copy_from_slice(name.as_bytes().get(..4).unwrap_or(b"Latn"));
        let kind = Kind { face: stretch.face, tag, rtl: stretch.rtl, digits: stretch.digits };
        let mut plans = self.plans.lock().unwrap_or_else(PoisonError::into_inner);
        let plan = Arc::clone(plans.entry(kind).or_insert_with(|| Arc::new(Plan::new(kind))));
        drop(plans);
        if kind.digits && text.len() > 1 && text.bytes().all(|b| b.is_ascii_digit()) {
            // Tabular digits neither kern nor join: a number is its digits one after the other.
            (0..text.len()).flat_map(|at| plan.glyphs(&text[at..=at], at as u32)).collect()
        } else {
            plan.glyphs(text, 0)
        }
    }
}

/// What the way of shaping depends on.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Kind {
    face: FaceId,
    /// ISO 15924 code of the script.
    tag: [u8; 4],
    rtl: bool,
    digits: bool,
}

/// How stretches of one kind are shaped, and what was shaped so far: words differ more than their
/// stretches do.
struct Plan {
    face: FaceId,
    script: rustybuzz::Script,
    direction: Direction,
    shape: ShapePlan,
    known: RwLock<HashMap<String, Arc<[Glyph]>>>,
}

impl Plan {
    fn new(kind: Kind) -> Self {
        let script = rustybuzz::Script::from_iso15924_tag(Tag::from_bytes(&kind.tag))
            .unwrap_or(rustybuzz::script::LATIN);
        let direction = if kind.rtl { Direction::RightToLeft } else { Direction::LeftToRight };
        let mut features = vec![
            Feature::new(Tag::from_bytes(b"cv05"), 1, ..),
            Feature::new(Tag::from_bytes(b"cv08"), 1, ..),
        ];
        if kind.digits {
            features.push(Feature::new(Tag::from_bytes(b"tnum"), 1, ..));
            features.push(Feature::new(Tag::from_bytes(b"zero"), 1, ..));
        }
        let shape = ShapePlan::new(kind.face.face(), direction, Some(script), None, &features);
        Self { face: kind.face, script, direction, shape, known: RwLock::default() }
    }

    /// Glyphs of a text that starts so many bytes into its stretch.
    fn glyphs(&self, text: &str, start: u32) -> Vec<Glyph> {
        let known = self.known.read().unwrap_or_else(PoisonError::into_inner).get(text).cloned();
        let glyphs = known.unwrap_or_else(|| {
            let glyphs: Arc<[Glyph]> = self.shape(text).into();
            let mut known = self.known.write().unwrap_or_else(PoisonError::into_inner);
            known.insert(text.to_owned(), Arc::clone(&glyphs));
            glyphs
        });
        let moved = |g: &Glyph| Glyph {
            text_start: g.text_start + start,
            text_end: g.text_end + start,
            ..*g
        };
        glyphs.iter().map(moved).collect()
    }

    fn shape(&self, text: &str) -> Vec<Glyph> {
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.set_script(self.script);
        buffer.set_direction(self.direction);
        let shaped = rustybuzz::shape_with_plan(self.face.face(), &self.shape, buffer);

        let mut starts: Vec<u32> = shaped.glyph_infos().iter().map(|g| g.cluster).collect();
        starts.sort_unstable();
        starts.dedup();
        let mut last = None;
        let stand_in = self.face.glyph('?').unwrap_or(1);
        shaped
            .glyph_infos()
            .iter()
            .zip(shaped.glyph_positions())
            .map(|(info, at)| {
                let first = last != Some(info.cluster);
                last = Some(info.cluster);
                let next = starts.partition_point(|&s| s <= info.cluster);
                let end = starts.get(next).copied().unwrap_or(text.len() as u32);
                Glyph {
                    id: u16::try_from(info.glyph_id).ok().filter(|&g| g != 0).unwrap_or(stand_in),
                    advance: at.x_advance,
                    dx: at.x_offset,
                    dy: at.y_offset,
                    text_start: info.cluster,
                    text_end: if first { end } else { info.cluster },
                }
            })
            .collect()
    }
}

struct Stretch {
    face: FaceId,
    script: Script,
    rtl: bool,
    digits: bool,
    text: Range<usize>,
}

/// The face that has every character of the cluster: the wanted weight, else the face for signs.
fn face_of(grapheme: &str, main: FaceId) -> Option<FaceId> {
    [main, FaceId::Signs].into_iter().find(|f| grapheme.chars().all(|c| f.glyph(c).is_some()))
}

fn is_rtl(script: Script) -> bool {
    matches!(
        script,
        Script::Arabic
            | Script::Hebrew
            | Script::Syriac
            | Script::Thaana
            | Script::Nko
            | Script::Samaritan
            | Script::Mandaic
            | Script::Adlam
    )
}

/// The characters of `text` that no embedded face has, in order and once each; they would be
/// printed as `?`. What [`super::clean`] takes out is not counted.
pub fn missing_characters(text: &str) -> Vec<char> {
    if text.bytes().all(|b| (b' '..0x7f).contains(&b)) {
        return Vec::new();
    }
    let found: BTreeSet<char> = super::clean(text)
        .chars()
        .filter(|&c| c != ' ' && face_of(c.encode_utf8(&mut [0; 4]), FaceId::Regular).is_none())
        .collect();
    found.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(shaper: &Shaper, text: &str) -> Vec<(FaceId, u16)> {
        let word = shaper.word(text, false);
        word.pieces.iter().flat_map(|p| p.glyphs.iter().map(|g| (p.face, g.id))).collect()
    }

    #[test]
    fn look_alikes_have_glyphs_of_their_own() {
        let shaper = Shaper::new();
        let plain = |c| FaceId::Regular.glyph(c).map(|g| (FaceId::Regular, g));
        // The slashed zero, the tailed l and the barred I are alternates, not the nominal glyphs.
        for (text, c) in [("0", '0'), ("l", 'l'), ("I", 'I')] {
            assert_ne!(Some(ids(&shaper, text)[0]), plain(c), "{text}");
        }
    }

    #[test]
    fn digits_are_tabular() {
        let shaper = Shaper::new();
        let widths: Vec<i32> = (0..10).map(|d| shaper.word(&d.to_string(), false).width).collect();
        assert!(widths.iter().all(|w| *w == widths[0]), "{widths:?}");
        assert_eq!(shaper.word("1111", true).width, shaper.word("0808", true).width);
    }

    #[test]
    fn numbers_are_shaped_as_their_digits() {
        for face in [FaceId::Regular, FaceId::Bold] {
            let plan = Plan::new(Kind { face, tag: *b"Latn", rtl: false, digits: true });
            for number in 0..1000 {
                let number = format!("{number:03}");
                let digits: Vec<Glyph> =
                    (0..3).flat_map(|at| plan.glyphs(&number[at..=at], at as u32)).collect();
                assert_eq!(plan.shape(&number), digits, "{number}");
            }
        }
    }

    #[test]
    fn kerning_is_applied() {
        let shaper = Shaper::new();
        let apart = shaper.word("A", false).width + shaper.word("V", false).width;
        assert!(shaper.word("AV", false).width < apart);
    }

    #[test]
    fn the_text_of_a_word_is_covered_once() {
        let shaper = Shaper::new();
        for text in ["H21", "office", "é", "e\u{301}x", "שלום12", "مرحبا", "Ж⌀Ω", "a🚐b"]
        {
            let word = shaper.word(text, false);
            for piece in &word.pieces {
                let mut spans: Vec<_> = piece
                    .glyphs
                    .iter()
                    .map(|g| (g.text_start, g.text_end))
                    .filter(|s| s.0 < s.1)
                    .collect();
                spans.sort_unstable();
                assert_eq!(spans[0].0, 0, "{text}");
                assert!(spans.windows(2).all(|w| w[0].1 == w[1].0), "{text}");
                assert_eq!(spans[spans.len() - 1].1 as usize, piece.text.len(), "{text}");
            }
        }
    }

    #[test]
    fn right_to_left_runs_from_the_right() {
        let shaper = Shaper::new();
        let word = shaper.word("אב", false);
        assert!(word.rtl);
        assert!(word.pieces[0].glyphs[0].text_start > 0);
    }

    #[test]
    fn unknown_characters_are_told_and_drawn() {
        let shaper = Shaper::new();
        assert_eq!(shaper.word("a\u{1f690}", false).text, "a?");
        assert_eq!(shaper.missing().into_iter().collect::<Vec<_>>(), ['\u{1f690}']);
        assert_eq!(missing_characters("ok ⌀ 漢"), ['漢']);
    }
}
