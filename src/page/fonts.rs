//! The faces that are embedded, parsed once.
//!
//! One sans family in two weights for everything (Inter 4.001, SIL Open Font License), and one face
//! for signs and scripts that it lacks (`DejaVu` Sans 2.37, its own free licence; changes public
//! domain, outlines after Bitstream Vera). Licence texts lie beside the files in `templates/fonts/`.
//! All three are static TrueType.

use rustybuzz::ttf_parser;
use std::sync::LazyLock;

/// A face that text may be set in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FaceId {
    /// Inter Regular.
    Regular,
    /// Inter Bold.
    Bold,
    /// `DejaVu` Sans, for what Inter lacks: ⌀, Hebrew, Arabic, rare signs.
    Signs,
}

static REGULAR: &[u8] = include_bytes!("../../templates/fonts/Inter-Regular.ttf");
static BOLD: &[u8] = include_bytes!("../../templates/fonts/Inter-Bold.ttf");
static SIGNS: &[u8] = include_bytes!("../../templates/fonts/DejaVuSans.ttf");

static FACES: LazyLock<[rustybuzz::Face<'static>; 3]> = LazyLock::new(|| {
    [REGULAR, BOLD, SIGNS].map(|bytes| {
        rustybuzz::Face::from_slice(bytes, 0).expect("embedded faces are valid TrueType")
    })
});

/// Glyphs of the characters that most words are made of, 0 for none: a face is asked for them too often
/// to search its table each time.
static ASCII: LazyLock<[[u16; 128]; 3]> = LazyLock::new(|| {
    FaceId::ALL.map(|id| {
        std::array::from_fn(|code| {
            let c = char::from(code as u8);
            id.face().glyph_index(c).map_or(0, |glyph| glyph.0)
        })
    })
});

impl FaceId {
    /// All faces, in the order in which a character is looked for after its own weight.
    pub const ALL: [FaceId; 3] = [FaceId::Regular, FaceId::Bold, FaceId::Signs];

    /// The whole font file.
    pub fn bytes(self) -> &'static [u8] {
        match self {
            FaceId::Regular => REGULAR,
            FaceId::Bold => BOLD,
            FaceId::Signs => SIGNS,
        }
    }

    /// `PostScript` name.
    pub fn postscript_name(self) -> &'static str {
        match self {
            FaceId::Regular => "Inter-Regular",
            FaceId::Bold => "Inter-Bold",
            FaceId::Signs => "DejaVuSans",
        }
    }

    /// The parsed face.
    pub fn face(self) -> &'static rustybuzz::Face<'static> {
        &FACES[self as usize]
    }

    /// Font units in an em.
    pub fn units_per_em(self) -> u16 {
        // The same for the three files; a test compares it with them.
        2048
    }

    /// How far letters with accents reach above the baseline, parts of an em. Less than the face's own
    /// ascender, which has room for stacked accents that lines of 125 % leave to the gap.
    pub fn text_ascent(self) -> f64 {
        0.76
    }

    /// How far letters reach below the baseline, parts of an em.
    pub fn text_descent(self) -> f64 {
        0.21
    }

    /// Height of capitals, parts of an em.
    pub fn cap_height(self) -> f64 {
        f64::from(self.face().capital_height().unwrap_or(1490)) / 2048.0
    }

    /// Height of an x, parts of an em.
    pub fn x_height(self) -> f64 {
        f64::from(self.face().x_height().unwrap_or(1118)) / 2048.0
    }

    /// The glyph of a character, if the face has one.
    pub fn glyph(self, c: char) -> Option<u16> {
        let known = ASCII[self as usize].get(c as usize).copied();
        known.or_else(|| self.face().glyph_index(c).map(|g| g.0)).filter(|&g| g != 0)
    }

    /// The face's own advance of a glyph, font units.
    pub fn advance(self, glyph: u16) -> u16 {
        self.face().glyph_hor_advance(ttf_parser::GlyphId(glyph)).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_faces_have_the_stated_units() {
        for id in FaceId::ALL {
            assert_eq!(id.face().units_per_em(), i32::from(id.units_per_em()), "{id:?}");
        }
    }

    #[test]
    fn x_height_at_14_pt_is_2_5_mm_or_more() {
        // Page rule 1: x-height measured from the face, not from point size.
        for id in [FaceId::Regular, FaceId::Bold] {
            assert!(id.x_height() * 14.0 * 25.4 / 72.0 >= 2.5);
        }
    }

    #[test]
    fn capitals_at_14_pt_are_3_5_mm_or_more() {
        assert!(FaceId::Regular.cap_height() * 14.0 * 25.4 / 72.0 >= 3.5);
    }

    #[test]
    fn the_faces_between_them_have_the_signs_that_sheets_use() {
        let signs = "×°½¼¾⅜⅛⅝⅞″′−→✓é²³±≤≥µΩ⌀·…“”’–—Δαρστ\u{2009}\u{202f}\u{a0}\u{2011}";
        for c in signs.chars() {
            assert!(FaceId::ALL.iter().any(|f| f.glyph(c).is_some()), "{c:?}");
        }
    }
}
