//! The codes that stand for glyphs in the file, and what each code says when text is copied.
//!
//! A code is given to each *pair* of a glyph and its text, in order of first use. So one glyph that
//! stands for two texts (a space and a no-break space) gets two codes, and every code has exactly
//! one text in `ToUnicode`. Where all glyphs have one text only, code and glyph number of the
//! subset are the same.

use crate::page::model::{Document, FaceId, GlyphRun, Item};
use std::collections::BTreeMap;
use subsetter::GlyphRemapper;

/// What a glyph says whose text another glyph of its cluster has: a mark without width. Extraction
/// goes by the `ActualText` around the cluster; the code needs a text of its own all the same.
pub(super) const SILENT: &str = "\u{200B}";

/// One code of a face.
pub(super) struct Code {
    /// Number of the glyph in the subset.
    pub glyph: u16,
    /// Text that the code stands for; never empty.
    pub text: Box<str>,
    /// Advance as the file states it, thousandths of an em, with three decimals.
    pub width: f64,
}

/// The codes of one face, counted from 1 (0 stays the missing glyph).
pub(super) struct FaceCodes {
    /// Face that the glyphs belong to.
    pub face: FaceId,
    /// Old glyph numbers to those of the subset.
    pub remapper: GlyphRemapper,
    codes: Vec<Code>,
    /// For each glyph of the full face, its codes; most have none, the rest nearly always one.
    by_glyph: Vec<Vec<u16>>,
}

impl FaceCodes {
    fn new(face: FaceId) -> Self {
        Self {
            face,
            remapper: GlyphRemapper::new(),
            codes: Vec::new(),
            by_glyph: vec![Vec::new(); usize::from(face.face().number_of_glyphs())],
        }
    }

    fn add(&mut self, glyph: u16, text: &str) {
        if self.find(glyph, text).is_some() || usize::from(glyph) >= self.by_glyph.len() {
            return;
        }
        let Ok(code) = u16::try_from(self.codes.len() + 1) else { return };
        let units = f64::from(self.face.advance(glyph));
        let per_mille = units * 1000.0 / f64::from(self.face.units_per_em());
        self.codes.push(Code {
            glyph: self.remapper.remap(glyph),
            text: text.into(),
            width: (per_mille * 1000.0).round() / 1000.0,
        });
        self.by_glyph[usize::from(glyph)].push(code);
    }

    fn find(&self, glyph: u16, text: &str) -> Option<u16> {
        let codes = self.by_glyph.get(usize::from(glyph))?;
        codes.iter().copied().find(|&c| &*self.codes[usize::from(c) - 1].text == text)
    }

    /// The code of a glyph that stands for `text`, with its stated width; code 0 if it was not
    /// collected, which [`Codes::collect`] over the same pages rules out.
    pub fn get(&self, glyph: u16, text: &str) -> (u16, f64) {
        match self.find(glyph, text) {
            Some(code) => (code, self.codes[usize::from(code) - 1].width),
            None => (0, 0.0),
        }
    }

    /// All codes from 1 on, in order.
    pub fn iter(&self) -> impl Iterator<Item = (u16, &Code)> {
        self.codes.iter().zip(1u16..).map(|(code, n)| (n, code))
    }

    /// Whether the codes are of one byte, not two.
    pub fn short(&self) -> bool {
        u8::try_from(self.codes.len()).is_ok()
    }

    /// Whether every code is the number of its glyph in the subset.
    pub fn identity(&self) -> bool {
        self.iter().all(|(n, code)| n == code.glyph)
    }
}

/// The codes of all faces that a document uses.
pub(super) struct Codes(BTreeMap<FaceId, FaceCodes>);

impl Codes {
    /// Walks all pages in drawing order.
    pub fn collect(document: &Document) -> Self {
        let mut codes = Self(BTreeMap::new());
        for page in &document.pages {
            for sequence in &page.content {
                codes.items(&sequence.items);
            }
        }
        codes
    }

    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Glyphs(run) => {
                    let face = self.0.entry(run.face).or_insert_with(|| FaceCodes::new(run.face));
                    for (glyph, text) in run.glyphs.iter().zip(texts(run)) {
                        face.add(glyph.id, text);
                    }
                }
                Item::Clipped { items, .. } => self.items(items),
                Item::Path(_) | Item::Image(_) => {}
            }
        }
    }

    /// The codes of a face, if the document uses it.
    pub fn face(&self, face: FaceId) -> Option<&FaceCodes> {
        self.0.get(&face)
    }

    /// Faces in order.
    pub fn faces(&self) -> impl Iterator<Item = &FaceCodes> {
        self.0.values()
    }
}

/// The text that each glyph of a run is coded with.
///
/// A cluster of as many glyphs as characters (a letter with marks on it) shares its characters out in
/// order; in any other cluster the first glyph has all the text and the rest are [`SILENT`].
pub(super) fn texts(run: &GlyphRun) -> Vec<&str> {
    let mut texts: Vec<&str> = Vec::with_capacity(run.glyphs.len());
    let mut rest = run.glyphs.as_slice();
    while let Some((first, after)) = rest.split_first() {
        let more = after.iter().take_while(|g| g.text_start >= g.text_end).count();
        let text = run.text.get(first.text_start as usize..first.text_end as usize);
        let text = text.filter(|t| !t.is_empty()).unwrap_or(SILENT);
        if more > 0 && text.chars().count() == more + 1 {
            texts.extend(text.char_indices().map(|(at, c)| &text[at..at + c.len_utf8()]));
        } else {
            texts.push(text);
            texts.extend(std::iter::repeat_n(SILENT, more));
        }
        rest = &after[more..];
    }
    texts
}
