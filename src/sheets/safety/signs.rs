//! Safety signs in black: outlines after ISO 3864-1 and ISO 7010 (warning triangle, mandatory disc,
//! prohibition ring), with simple pictograms of our own drawing.
//!
//! Drawn 12 mm high. The number stands in the words for those who can't see the sign; on paper the
//! message beside it says what it means.

use crate::page::model::Pen;
use crate::page::scene::{At, Fill, Line, LineKind, Scene};

/// Height of a sign, mm.
const HIGH: f64 = 12.0;
/// Side of the triangle.
const SIDE: f64 = HIGH * 1.154_700_538;
const THICK: Line = Line::new(Pen::W070, LineKind::Continuous);
const BORDER: Line = Line::new(Pen::W100, LineKind::Continuous);
const RING: Line = Line::new(Pen::W140, LineKind::Continuous);

/// What a sign of ISO 7010 says, for those that are drawn here.
const NAMES: &[(&str, &str)] = &[
    ("M002", "read the instructions"),
    ("M004", "wear eye protection"),
    ("M009", "wear gloves"),
    ("M016", "wear a mask"),
    ("P003", "no open flame"),
    ("W001", "general warning"),
    ("W008", "warning, drop"),
    ("W011", "warning, slippery surface"),
    ("W012", "warning, electricity"),
    ("W020", "warning, overhead obstacle"),
    ("W022", "warning, sharp element"),
    ("W024", "warning, crushing of hands"),
    ("W026", "warning, battery charging"),
    ("W035", "warning, falling objects"),
];

/// The sign of a number; none for a number that is not drawn here.
pub fn sign(number: &str) -> Option<Scene> {
    let (_, name) = NAMES.iter().find(|(known, _)| *known == number)?;
    let mut scene = Scene::small(format!("{name} sign, ISO 7010 {number}"));
    match number.chars().next()? {
        'W' => triangle(&mut scene),
        'M' => scene.disc((HIGH / 2.0, HIGH / 2.0), HIGH / 2.0, Fill::Black, None),
        _ => {}
    }
    pictogram(&mut scene, number);
    if number.starts_with('P') {
        ring(&mut scene);
    }
    Some(scene)
}

fn triangle(scene: &mut Scene) {
    let inset = 0.6;
    scene.outline(&[(inset, inset), (SIDE - inset, inset), (SIDE / 2.0, HIGH - inset)], BORDER);
}

/// Ring with its bar from the upper left to the lower right, over the pictogram.
fn ring(scene: &mut Scene) {
    let (middle, radius) = (HIGH / 2.0, HIGH / 2.0 - 0.7);
    scene.circle((middle, middle), radius, RING);
    let reach = radius * std::f64::consts::FRAC_1_SQRT_2;
    scene.line(&[(middle - reach, middle + reach), (middle + reach, middle - reach)], RING);
}

fn black(scene: &mut Scene, points: &[At]) {
    scene.area(&[points.to_vec()], Some(Fill::Black), None);
}

fn white(scene: &mut Scene, points: &[At]) {
    scene.area(&[points.to_vec()], Some(Fill::White), None);
}

/// Head and body of a person, `lean` to the right at the head.
fn person(scene: &mut Scene, foot: At, high: f64, lean: f64) {
    let at = |share: f64| (foot.0 + lean * share, foot.1 + high * share);
    let hip = at(0.45);
    let neck = at(0.82);
    scene.line(&[(foot.0 - 0.7, foot.1), hip, (foot.0 + 0.9, foot.1 + 0.2)], THICK);
    scene.line(&[hip, neck], THICK);
    let arm = at(0.72);
    scene.line(&[(arm.0 - 1.1, arm.1 - 0.2), arm, (arm.0 + 1.1, arm.1 + 0.3)], THICK);
    scene.disc(at(0.95), high * 0.13, Fill::Black, None);
}

fn pictogram(scene: &mut Scene, number: &str) {
    let m = SIDE / 2.0;
    match number {
        "W001" => {
            black(scene, &[(m - 0.75, 8.0), (m + 0.75, 8.0), (m + 0.4, 4.2), (m - 0.4, 4.2)]);
            scene.disc((m, 2.8), 0.65, Fill::Black, None);
        }
        // A person over the end of a floor.
        "W008" => {
            black(scene, &[(3.0, 1.8), (6.4, 1.8), (6.4, 3.4), (3.9, 3.4)]);
            person(scene, (7.0, 3.3), 5.0, 1.7);
        }
        // A person who slides on a wavy floor.
        "W011" => {
            let wave = |x: f64| ((x + 0.5, 2.6), (x + 1.0, 1.4), (x + 1.6, 2.0));
            scene.curve((3.4, 2.0), &[wave(3.4), wave(5.0), wave(6.6), wave(8.2)], THICK);
            person(scene, (7.6, 2.9), 5.2, -1.6);
        }
        // A bolt of lightning.
        "W012" => black(
            scene,
            &[
                (m + 0.7, 9.0),
                (m - 1.5, 5.1),
                (m - 0.1, 5.1),
                (m - 0.9, 1.7),
                (m + 1.5, 6.0),
                (m + 0.2, 6.0),
            ],
        ),
        // A beam at the height of a head.
        "W020" => {
            black(scene, &[(m + 0.1, 7.9), (m + 1.2, 7.9), (m + 2.4, 6.3), (m + 0.1, 6.3)]);
            person(scene, (m - 0.9, 1.8), 5.0, 0.4);
        }
        // A blade over a finger.
        "W022" => {
            black(scene, &[(m - 0.4, 8.6), (m + 0.9, 8.6), (m + 0.2, 4.6)]);
            black(
                scene,
                &[(m - 3.2, 2.0), (m + 2.6, 2.0), (m + 2.6, 3.2), (m + 0.6, 3.9), (m - 3.2, 3.6)],
            );
        }
        // Two blocks that close on fingers.
        "W024" => {
            black(scene, &[(m - 1.9, 5.4), (m + 1.9, 5.4), (m + 0.9, 7.4), (m - 0.9, 7.4)]);
            black(scene, &[(m - 3.6, 1.8), (m + 3.6, 1.8), (m + 3.2, 2.7), (m - 3.2, 2.7)]);
            for finger in 0..3 {
                let y = 3.2 + 0.75 * f64::from(finger);
                scene.line(&[(m - 1.4, y), (m + 1.6, y)], Line::VISIBLE);
            }
        }
        // A battery with its poles.
        "W026" => {
            scene.outline(&[(m - 2.6, 2.2), (m + 2.6, 2.2), (m + 2.6, 5.4), (m - 2.6, 5.4)], THICK);
            black(scene, &[(m - 1.9, 5.4), (m - 0.9, 5.4), (m - 0.9, 6.3), (m - 1.9, 6.3)]);
            black(scene, &[(m + 0.9, 5.4), (m + 1.9, 5.4), (m + 1.9, 6.3), (m + 0.9, 6.3)]);
            scene.line(&[(m - 2.0, 3.8), (m - 0.8, 3.8)], THICK);
            scene.line(&[(m + 0.8, 3.8), (m + 2.0, 3.8)], THICK);
            scene.line(&[(m + 1.4, 3.2), (m + 1.4, 4.4)], THICK);
        }
        // Blocks above a person.
        "W035" => {
            for (x, y) in [(m - 0.2, 7.6), (m + 0.9, 6.3), (m - 1.6, 6.2)] {
                black(scene, &[(x, y), (x + 1.0, y + 0.3), (x + 0.7, y + 1.3), (x - 0.3, y + 1.0)]);
            }
            person(scene, (m, 1.7), 4.2, 0.0);
        }
        // An open book under a head.
        "M002" => {
            scene.disc((6.0, 8.9), 1.3, Fill::White, None);
            white(scene, &[(2.6, 3.2), (5.75, 2.4), (5.75, 6.2), (2.6, 7.0)]);
            white(scene, &[(9.4, 3.2), (6.25, 2.4), (6.25, 6.2), (9.4, 7.0)]);
        }
        // A head with glasses.
        "M004" => {
            scene.disc((6.0, 6.4), 3.4, Fill::White, None);
            white(scene, &[(4.0, 1.2), (8.0, 1.2), (7.2, 4.0), (4.8, 4.0)]);
            black(scene, &[(2.4, 6.4), (5.7, 6.4), (5.7, 8.0), (2.4, 8.0)]);
            black(scene, &[(6.3, 6.4), (9.6, 6.4), (9.6, 8.0), (6.3, 8.0)]);
            black(scene, &[(5.5, 7.2), (6.5, 7.2), (6.5, 7.7), (5.5, 7.7)]);
        }
        // A glove.
        "M009" => white(
            scene,
            &[
                (4.2, 1.6),
                (8.0, 1.6),
                (8.2, 4.4),
                (9.8, 6.4),
                (9.0, 7.1),
                (7.9, 6.2),
                (7.8, 9.8),
                (6.9, 9.8),
                (6.7, 7.0),
                (6.4, 10.2),
                (5.5, 10.2),
                (5.4, 7.0),
                (5.0, 9.7),
                (4.2, 9.6),
                (4.2, 6.6),
                (3.9, 8.4),
                (3.1, 8.2),
            ],
        ),
        // A head with a mask.
        "M016" => {
            scene.disc((6.0, 6.6), 3.5, Fill::White, None);
            black(scene, &[(3.6, 5.6), (8.4, 5.6), (7.6, 3.4), (6.0, 2.8), (4.4, 3.4)]);
            scene.line(&[(2.6, 7.2), (3.6, 5.6)], Line::VISIBLE);
            scene.line(&[(9.4, 7.2), (8.4, 5.6)], Line::VISIBLE);
        }
        // A burning match.
        "P003" => {
            black(scene, &[(5.6, 2.2), (6.4, 2.2), (6.4, 6.0), (5.6, 6.0)]);
            black(
                scene,
                &[(6.0, 10.2), (7.2, 8.2), (6.9, 6.6), (6.0, 6.0), (5.1, 6.6), (4.8, 8.2)],
            );
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sign_says_its_number() {
        for (number, name) in NAMES {
            let scene = sign(number).unwrap_or_else(|| panic!("{number}"));
            assert!(scene.alt.contains(number) && scene.alt.contains(name));
        }
        assert!(sign("X001").is_none());
        assert!(sign("").is_none());
    }
}
