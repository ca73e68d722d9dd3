//! Beams against tables and worked examples: simply supported, clamped, overhanging, over several
//! supports. Values were read in the sources named or run with the open library
//! `indeterminatebeam` 2.4.0, unless it says `from memory`.

use crate::support::near;
use rungsheet::compute::beams::{Beam, Bent, Grid};

/// As stiff as a wall against the beams here.
const WALL: f64 = 1e10;
/// 25 x 25 x 2 tube with sharp corners, aluminium: E 70 000 `MPa`, I 16 345.3 mm⁴.
const TUBE: f64 = 70_000.0 * 16_345.3;

fn bend(
    places: &[f64],
    stiffness: f64,
    load: f64,
    supports: &[usize],
    forces: &[(usize, f64)],
) -> Bent {
    let nodes: Vec<(usize, f64)> = places.iter().copied().enumerate().collect();
    let grid = Grid {
        nodes: nodes.len(),
        beams: vec![Beam { nodes, stiffness, load, turned: Vec::new() }],
        springs: supports.iter().map(|node| (*node, WALL)).collect(),
        forces: forces.to_vec(),
    };
    grid.bend().expect("it is held")
}

/// P L / 4 and P L³ / 48 E I (beam tables): 100 N on 1000 mm: 25 000 N·mm, 1.8208 mm.
#[test]
fn a_force_in_the_middle() {
    let bent = bend(&[0.0, 500.0, 1000.0], TUBE, 0.0, &[0, 2], &[(1, 100.0)]);
    near(bent.beams[0].greatest_moment(), 25_000.0, 1e-6, "moment");
    near(bent.rise[1], 1.8208, 1e-4, "sag");
    near(bent.beams[0].sag(0.0, 1000.0), 1.8208, 1e-4, "sag");
}

/// w L² / 8 and 5 w L⁴ / 384 E I (beam tables): 0.1 N/mm on 1000 mm: 12 500 N·mm, 1.1380 mm; one
/// element has it exactly between its nodes.
#[test]
fn an_even_load() {
    let bent = bend(&[0.0, 1000.0], TUBE, 0.1, &[0, 1], &[]);
    near(bent.beams[0].greatest_moment(), 12_500.0, 1e-6, "moment");
    near(bent.beams[0].sag(0.0, 1000.0), 1.1380, 1e-4, "sag");
}

/// A public worked example: 6 m, 2 kN/m, 200 `GPa`, 8e-6 m⁴: 21.1 mm. With 6e-6 m⁴ 28.1 mm, where a
/// public page prints 10 mm.
#[test]
fn a_floor_beam() {
    for (second, expected) in [(8e6, 21.1), (6e6, 28.1)] {
        let bent = bend(&[0.0, 6000.0], 200_000.0 * second, 2.0, &[0, 1], &[]);
        near(bent.beams[0].sag(0.0, 6000.0), expected, 5e-3, "sag");
    }
}

/// P L and P L² (L + a) / 3 E I for a cantilever of L held by two supports a apart (beam tables, overhang
/// with its load at the tip): 100 N at the end of 500 mm, 50 000 N·mm; clamped it would be 3.6416 mm.
#[test]
fn a_cantilever() {
    let back = 10.0;
    let bent = bend(&[-back, 0.0, 500.0], TUBE, 0.0, &[0, 1], &[(2, 100.0)]);
    near(bent.beams[0].greatest_moment(), 50_000.0, 1e-6, "moment");
    let clamped = bent.rise[2] * 500.0 / (500.0 + back);
    near(clamped, 3.6416, 1e-4, "tip");
}

/// Span 1000, overhang 300, 100 N at its tip: reactions −30 and 130 N, 30 000 N·mm, tip 3.4086 mm,
/// the span bows 1.6820 mm the other way.
#[test]
fn a_force_on_an_overhang() {
    let bent = bend(&[0.0, 1000.0, 1300.0], TUBE, 0.0, &[0, 1], &[(2, -100.0)]);
    near(bent.rise[2], -3.4086, 1e-4, "tip");
    near(bent.beams[0].greatest_moment(), 30_000.0, 1e-6, "moment");
    near(-bent.rise[0] * WALL, -30.0, 1e-6, "left");
    near(-bent.rise[1] * WALL, 130.0, 1e-6, "right");
    // The bow is greatest at L/√3 from the left; points along the span see it within a part in 500.
    near(bent.beams[0].sag(0.0, 1000.0), 1.6820, 2e-3, "bow");
}

/// The same beam under 0.1 N/mm from end to end: 45.5 and 84.5 N, 4500 N·mm over the support, and the
/// tip rises by 0.6107 mm against the load.
#[test]
fn an_even_load_with_overhang_lifts_the_tip() {
    let bent = bend(&[0.0, 1000.0, 1300.0], TUBE, -0.1, &[0, 1], &[]);
    near(-bent.rise[0] * WALL, 45.5, 1e-6, "left");
    near(-bent.rise[1] * WALL, 84.5, 1e-6, "right");
    near(bent.beams[0].spans[1].moments[0].abs(), 4500.0, 1e-6, "over the support");
    near(bent.rise[2], 0.6107, 1e-3, "tip");
}

/// Two equal loads a from each end: P a and P a (3 L² − 4 a²) / 24 E I (beam tables).
#[test]
fn two_forces() {
    let (l, a, p) = (1000.0, 300.0, 50.0);
    let bent = bend(&[0.0, a, l / 2.0, l - a, l], TUBE, 0.0, &[0, 4], &[(1, p), (3, p)]);
    near(bent.beams[0].greatest_moment(), p * a, 1e-6, "moment");
    near(bent.rise[2], p * a * (3.0 * l * l - 4.0 * a * a) / (24.0 * TUBE), 1e-6, "sag");
}

/// P a b / L and P a² b² / 3 E I L under a force beside the middle (beam tables).
#[test]
fn a_force_beside_the_middle() {
    let (l, a, p) = (1200.0, 800.0, 70.0);
    let bent = bend(&[0.0, a, l], TUBE, 0.0, &[0, 2], &[(1, p)]);
    near(bent.beams[0].greatest_moment(), p * a * (l - a) / l, 1e-6, "moment");
    let expected = p * a * a * (l - a).powi(2) / (3.0 * TUBE * l);
    near(bent.rise[1], expected, 1e-6, "under the force");
}

/// Two equal spans under an even load: w L² / 8 over the middle support, 3/8, 10/8, 3/8 w L (three-moment
/// equation, any handbook, from memory).
#[test]
fn two_spans() {
    let (l, w) = (700.0, 0.2);
    let bent = bend(&[0.0, l, 2.0 * l], TUBE, w, &[0, 1, 2], &[]);
    near(bent.beams[0].greatest_moment(), w * l * l / 8.0, 1e-5, "moment");
    for (node, share) in [(0, 0.375), (1, 1.25), (2, 0.375)] {
        near(bent.rise[node] * WALL, share * w * l, 1e-5, "reaction");
    }
}

/// Three equal spans: 0.4, 1.1, 1.1, 0.4 w L and 0.1 w L² over the inner supports (handbook tables of
/// continuous beams, from memory).
#[test]
fn three_spans() {
    let (l, w) = (500.0, 0.3);
    let bent = bend(&[0.0, l, 2.0 * l, 3.0 * l], TUBE, w, &[0, 1, 2, 3], &[]);
    near(bent.beams[0].greatest_moment(), 0.1 * w * l * l, 1e-5, "moment");
    for (node, share) in [(0, 0.4), (1, 1.1), (2, 1.1), (3, 0.4)] {
        near(bent.rise[node] * WALL, share * w * l, 1e-5, "reaction");
    }
}

/// A long beam on an even bed under one force: P λ / 2 k at the force and P / 4 λ, λ = ⁴√(k / 4 E I)
/// (Hetényi, Beams on elastic foundation, from memory).
#[test]
fn a_long_beam_on_a_soft_bed() {
    let (k, p, step) = (2.0, 100.0, 5.0);
    let lambda = (k / (4.0 * TUBE)).powf(0.25);
    let half = (4.0 / lambda / step).ceil() as usize;
    let places: Vec<f64> = (0..=2 * half).map(|i| i as f64 * step).collect();
    let nodes: Vec<(usize, f64)> = places.iter().copied().enumerate().collect();
    let grid = Grid {
        nodes: nodes.len(),
        springs: nodes.iter().map(|(n, _)| (*n, k * step)).collect(),
        forces: vec![(half, p)],
        beams: vec![Beam { nodes, stiffness: TUBE, load: 0.0, turned: Vec::new() }],
    };
    let bent = grid.bend().expect("the bed holds it");
    near(bent.rise[half], p * lambda / (2.0 * k), 3e-2, "under the force");
    near(bent.beams[0].greatest_moment(), p / (4.0 * lambda), 3e-2, "moment");
}

/// Two crossing beams of equal stiffness, simply supported, a force where they cross at the middle:
/// each carries what its stiffness 48 E I / L³ is of both (statics).
#[test]
fn crossing_beams_share_by_stiffness() {
    let (long, short, p) = (1400.0_f64, 900.0_f64, 100.0);
    let beam = |ends: [usize; 2], l: f64| Beam {
        nodes: vec![(ends[0], 0.0), (4, l / 2.0), (ends[1], l)],
        stiffness: TUBE,
        load: 0.0,
        turned: Vec::new(),
    };
    let grid = Grid {
        nodes: 5,
        beams: vec![beam([0, 1], long), beam([2, 3], short)],
        springs: (0..4).map(|n| (n, WALL)).collect(),
        forces: vec![(4, p)],
    };
    let bent = grid.bend().expect("held");
    let share = short.powi(-3) / (short.powi(-3) + long.powi(-3));
    near(bent.beams[1].greatest_moment(), p * share * short / 4.0, 1e-5, "short");
    near(bent.beams[0].greatest_moment(), p * (1.0 - share) * long / 4.0, 1e-5, "long");
}
