//! The colour profile of the output intent: sRGB, computed from its standard.
//!
//! IEC 61966-2-1 gives the primaries, the white and the curve; ICC.1:2001-04 (profile version 2, which
//! every reader knows) the form. Colours are adapted from the standard's white (D65) to the profile
//! connection space's (D50) by the linearised Bradford transform of ICC.1:2010, annex E.

type Matrix = [[f64; 3]; 3];

/// Chromaticities of red, green and blue (IEC 61966-2-1, table 1).
const PRIMARIES: [[f64; 2]; 3] = [[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]];
/// White of the display, D65 (IEC 61966-2-1, table 1).
const WHITE: [f64; 2] = [0.3127, 0.3290];
/// White of the connection space, D50 (ICC.1:2001-04, 6.1.4.10).
const CONNECTION: [f64; 3] = [0.9642, 1.0, 0.8249];
/// Cone response of the Bradford transform (ICC.1:2010, E.2).
const CONES: Matrix =
    [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]];
/// Points of the tone curve. Between them readers go straight, which at this count is off by less
/// than one part in 40,000.
const CURVE: u16 = 256;

fn times(m: &Matrix, v: [f64; 3]) -> [f64; 3] {
    m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

/// Inverse by cofactors; the matrices here are far from singular.
fn inverse(m: &Matrix) -> Matrix {
    let cofactor = |r: usize, c: usize| {
        let (r1, r2) = ((r + 1) % 3, (r + 2) % 3);
        let (c1, c2) = ((c + 1) % 3, (c + 2) % 3);
        m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1]
    };
    let determinant: f64 = (0..3).map(|c| m[0][c] * cofactor(0, c)).sum();
    let mut out = [[0.0; 3]; 3];
    for (r, row) in out.iter_mut().enumerate() {
        for (c, cell) in row.iter_mut().enumerate() {
            *cell = cofactor(c, r) / determinant;
        }
    }
    out
}

fn xyz([x, y]: [f64; 2]) -> [f64; 3] {
    [x / y, 1.0, (1.0 - x - y) / y]
}

/// Red, green and blue at full strength in the connection space.
fn colorants() -> [[f64; 3]; 3] {
    let primaries = PRIMARIES.map(xyz);
    let mut columns = [[0.0; 3]; 3];
    for (c, primary) in primaries.iter().enumerate() {
        for r in 0..3 {
            columns[r][c] = primary[r];
        }
    }
    let white = xyz(WHITE);
    let strength = times(&inverse(&columns), white);
    let (from, to) = (times(&CONES, white), times(&CONES, CONNECTION));
    let back = inverse(&CONES);
    let mut out = [[0.0; 3]; 3];
    for (c, colour) in out.iter_mut().enumerate() {
        let cones = times(&CONES, primaries[c].map(|v| v * strength[c]));
        let adapted = [0, 1, 2].map(|i| cones[i] * to[i] / from[i]);
        *colour = times(&back, adapted);
    }
    out
}

/// Light from a signal, both 0 to 1 (IEC 61966-2-1, 5.2).
fn light(signal: f64) -> f64 {
    if signal <= 0.04045 { signal / 12.92 } else { ((signal + 0.055) / 1.055).powf(2.4) }
}

fn fixed(value: f64) -> [u8; 4] {
    ((value * 65536.0).round() as i32).to_be_bytes()
}

fn place(values: [f64; 3]) -> Vec<u8> {
    let mut tag = b"XYZ \0\0\0\0".to_vec();
    tag.extend(values.into_iter().flat_map(fixed));
    tag
}

/// The profile, bytes of an `.icc` file.
pub(super) fn srgb() -> Vec<u8> {
    let name = b"sRGB IEC61966-2-1\0";
    let mut description = b"desc\0\0\0\0".to_vec();
    description.extend((name.len() as u32).to_be_bytes());
    description.extend(name);
    // No localised forms: language, count, script code, count, 67 bytes.
    description.extend([0; 4 + 4 + 2 + 1 + 67]);
    let mut rights = b"text\0\0\0\0".to_vec();
    rights.extend(b"Public domain\0");
    let mut curve = b"curv\0\0\0\0".to_vec();
    curve.extend(u32::from(CURVE).to_be_bytes());
    for step in 0..CURVE {
        let value = light(f64::from(step) / f64::from(CURVE - 1)) * 65535.0;
        curve.extend((value.round() as u16).to_be_bytes());
    }
    let [red, green, blue] = colorants().map(place);
    // Tags that share data name the same place.
    let blocks = [description, rights, place(CONNECTION), red, green, blue, curve];
    let tags: [(&[u8; 4], usize); 9] = [
        (b"desc", 0),
        (b"cprt", 1),
        (b"wtpt", 2),
        (b"rXYZ", 3),
        (b"gXYZ", 4),
        (b"bXYZ", 5),
        (b"rTRC", 6),
        (b"gTRC", 6),
        (b"bTRC", 6),
    ];
    let mut data = Vec::new();
    let start = 128 + 4 + 12 * tags.len();
    let mut spans = Vec::new();
    for block in &blocks {
        spans.push(((start + data.len()) as u32, block.len() as u32));
        data.extend(block);
        data.resize(data.len().next_multiple_of(4), 0);
    }
    let mut profile = Vec::with_capacity(start + data.len());
    profile.extend(((start + data.len()) as u32).to_be_bytes());
    profile.extend([0; 4]); // no preferred engine
    profile.extend([2, 0x10, 0, 0]); // version 2.1
    profile.extend(b"mntrRGB XYZ ");
    // Date of creation: the day of the standard, so that equal files stay equal.
    profile.extend([1999u16, 10, 1, 0, 0, 0].into_iter().flat_map(u16::to_be_bytes));
    profile.extend(b"acsp");
    profile.extend([0; 4 + 4 + 4 + 4 + 8 + 4]); // no platform, flags, maker, model; perceptual
    profile.extend(CONNECTION.into_iter().flat_map(fixed));
    profile.resize(128, 0);
    profile.extend((tags.len() as u32).to_be_bytes());
    for (name, block) in tags {
        profile.extend(name);
        profile.extend(spans[block].0.to_be_bytes());
        profile.extend(spans[block].1.to_be_bytes());
    }
    profile.extend(data);
    profile
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colorants_are_those_that_profiles_of_srgb_carry() {
        // Bradford-adapted values as published with the sRGB v2 profile (ICC, registry entry sRGB).
        let expected =
            [[0.4360, 0.2225, 0.0139], [0.3851, 0.7169, 0.0971], [0.1431, 0.0606, 0.7141]];
        for (ours, theirs) in colorants().iter().flatten().zip(expected.iter().flatten()) {
            assert!((ours - theirs).abs() < 2e-4, "{ours} {theirs}");
        }
    }

    #[test]
    fn the_three_colours_make_the_white_of_the_connection_space() {
        let colours = colorants();
        for (i, white) in CONNECTION.iter().enumerate() {
            let sum: f64 = colours.iter().map(|c| c[i]).sum();
            assert!((sum - white).abs() < 1e-9);
        }
    }

    #[test]
    fn every_tag_lies_inside_the_profile() {
        let profile = srgb();
        let word = |at: usize| {
            u32::from_be_bytes(profile[at..at + 4].try_into().expect("four bytes")) as usize
        };
        assert_eq!(word(0), profile.len());
        for tag in 0..word(128) {
            let at = 132 + 12 * tag;
            assert!(word(at + 4) >= 128 && word(at + 4) + word(at + 8) <= profile.len());
        }
    }
}
