//! Sections of one metal and shape, listed by their sizes alone.

use super::{Row, RowOrigin, Section, Shape};
use crate::units::{Length, parse};

/// All sections of a family: each size becomes a row of its own.
pub(super) fn family_of(
    row: &mut Row<'_>,
    family: &str,
    shape: Shape,
    material: &str,
) -> Vec<Section> {
    let origin = row.origin();
    let by_t = row.maybe_numbers("radii-by-t").unwrap_or([0.0, 0.0]);
    let build = Build { family, shape, material, by_t, origin };
    let mut sections = Vec::new();
    for size in row.number_lists("sizes") {
        let texts: Vec<String> = size.iter().map(ToString::to_string).collect();
        let lengths: Vec<Length> = size.into_iter().map(Length::mm).collect();
        match build.section(&texts, &lengths, "") {
            Some(section) => sections.push(section),
            None => {
                row.refuse("sizes", "each size takes a, b, t (a, t for flat bar and round tube)");
            }
        }
    }
    for size in row.words_list("sizes-inch") {
        let texts: Vec<String> = size.split('x').map(str::to_owned).collect();
        let lengths: Result<Vec<Length>, _> = texts
            .iter()
            .map(|text| parse::<Length>(&format!("{} in", text.replace('-', " ")), None))
            .collect();
        match lengths.ok().and_then(|lengths| build.section(&texts, &lengths, "in")) {
            Some(section) => sections.push(section),
            None => row.refuse("sizes-inch", "write a size as `1-1/4x1-1/4x1/8`"),
        }
    }
    if sections.is_empty() {
        row.refuse("family", "takes `sizes` or `sizes-inch`");
    }
    sections
}

/// What the sections of a family have in common.
struct Build<'f> {
    family: &'f str,
    shape: Shape,
    material: &'f str,
    by_t: [f64; 2],
    origin: RowOrigin,
}

impl Build<'_> {
    /// One size, as written and as lengths. None where the count is wrong.
    fn section(&self, texts: &[String], lengths: &[Length], unit: &str) -> Option<Section> {
        let (a, b, t) = match (lengths, self.shape) {
            ([a, t], Shape::Flat) => (*a, *t, *t),
            ([a, t], Shape::RoundTube) => (*a, *a, *t),
            ([a, b, t], shape) if shape.has_width() => (*a, *b, *t),
            _ => return None,
        };
        let [outer, inner] = self.by_t.map(|times| t * times);
        let shown = if unit.is_empty() { "mm" } else { unit };
        Some(Section {
            name: format!("{}-{}{unit}", self.family, texts.join("x")),
            words: words_for(self.material, self.shape, texts, shown),
            shape: self.shape,
            a,
            b,
            t,
            outer_radius: outer,
            inner_radius: inner,
            toe_radius: Length::ZERO,
            material: self.material.to_owned(),
            origin: self.origin.clone(),
        })
    }
}

/// "aluminium square tube 25 × 25 × 2 mm", from the sizes as written.
pub(super) fn words_for(material: &str, shape: Shape, sizes: &[String], unit: &str) -> String {
    let metal = match material.split('-').next() {
        Some("stainless") => "stainless steel",
        Some(metal) => metal,
        None => "",
    };
    let sizes: Vec<String> = sizes.iter().map(|size| size.replace('-', " ")).collect();
    format!("{metal} {} {} {unit}", shape.words(), sizes.join(" × "))
}
