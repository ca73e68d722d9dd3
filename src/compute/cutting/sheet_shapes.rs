//! Which sets of pieces can be cut from which sheets by straight cuts from edge to edge.
//!
//! A set laid out by such cuts is either one piece, or two sets beside or above each other. So its
//! least rectangles follow from those of its parts; only rectangles that no other one fits inside are
//! kept. All sizes have one kerf added, as have the sheets: then sizes just add up, and a last cut may
//! fall off the edge.
use std::collections::BTreeMap;

/// How a rectangle is made up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Made {
    /// One piece of a kind, perhaps turned.
    Piece { kind: usize, turned: bool },
    /// Two rectangles, each by set and index: beside each other or one above the other.
    Pair { beside: bool, first: (usize, usize), second: (usize, usize) },
}

/// A least rectangle of a set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Shape {
    pub(super) width: i64,
    pub(super) height: i64,
    pub(super) made: Made,
}

/// A set that fits some sheet.
pub(super) struct Set {
    pub(super) counts: Vec<i64>,
    key: u128,
    /// Narrowest first, so tallest first.
    pub(super) shapes: Vec<Shape>,
}

/// A kind of piece with the kerf added to its sides.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Sides {
    pub(super) width: i64,
    pub(super) height: i64,
    pub(super) turn: bool,
}

/// Finds all sets (with at most `demand` of each kind) that fit one of the sheets (sides with the
/// kerf added). `None` if they are more than `most` or take more than `work` steps.
pub(super) fn all_sets(
    kinds: &[Sides],
    demand: &[i64],
    sheets: &[(i64, i64)],
    most: usize,
    work: u64,
) -> Option<Vec<Set>> {
    // Place value of each kind in a set's key.
    let mut place = Vec::with_capacity(kinds.len());
    let mut next: u128 = 1;
    for d in demand {
        place.push(next);
        next = next.checked_mul(*d as u128 + 1)?;
    }
    let fits = |w: i64, h: i64| sheets.iter().any(|(sw, sh)| w <= *sw && h <= *sh);
    let room = sheets.iter().map(|(w, h)| w * h).max().unwrap_or(0);
    let mut sets: Vec<Set> = Vec::new();
    let mut known: BTreeMap<u128, usize> = BTreeMap::new();
    let mut steps: u64 = 0;
    let mut level: Vec<usize> = Vec::new();
    for (kind, s) in kinds.iter().enumerate() {
        let mut shapes = Vec::new();
        for turned in [false, true] {
            let (w, h) = if turned { (s.height, s.width) } else { (s.width, s.height) };
            if (!turned || s.turn && s.width != s.height) && fits(w, h) {
                shapes.push(Shape { width: w, height: h, made: Made::Piece { kind, turned } });
            }
        }
        least(&mut shapes);
        if !shapes.is_empty() {
            let mut counts = vec![0; kinds.len()];
            counts[kind] = 1;
            known.insert(place[kind], sets.len());
            level.push(sets.len());
            sets.push(Set { counts, key: place[kind], shapes });
        }
    }
    while !level.is_empty() {
        // Each larger set is a set of this level and one more piece; every part of it must fit too.
        let mut larger: BTreeMap<u128, Vec<i64>> = BTreeMap::new();
        for s in &level {
            let set = &sets[*s];
            for kind in 0..kinds.len() {
                if set.counts[kind] < demand[kind] {
                    let mut counts = set.counts.clone();
                    counts[kind] += 1;
                    larger.entry(set.key + place[kind]).or_insert(counts);
                }
            }
        }
        level.clear();
        for (key, counts) in larger {
            let area: i64 = counts.iter().zip(kinds).map(|(c, k)| c * k.width * k.height).sum();
            let parts_fit = counts
                .iter()
                .zip(&place)
                .all(|(c, p)| *c == 0 || key == *p || known.contains_key(&(key - p)));
            if area > room || !parts_fit {
                continue;
            }
            let mut shapes: Vec<Shape> = Vec::new();
            let mut part = vec![0; counts.len()];
            let mut part_key: u128 = 0;
            // All parts of the set, as an odometer.
            'parts: loop {
                let mut at = 0;
                loop {
                    if at == counts.len() {
                        break 'parts;
                    }
                    if part[at] < counts[at] {
                        part[at] += 1;
                        part_key += place[at];
                        break;
                    }
                    part_key -= place[at] * part[at] as u128;
                    part[at] = 0;
                    at += 1;
                }
                let rest = key - part_key;
                if part_key > rest {
                    continue;
                }
                let (Some(a), Some(b)) = (known.get(&part_key), known.get(&rest)) else {
                    continue;
                };
                let (a, b) = (*a, *b);
                let mut add = |beside, first: (usize, usize), second: (usize, usize)| {
                    let (p, q) = (sets[first.0].shapes[first.1], sets[second.0].shapes[second.1]);
                    let (width, height) = if beside {
                        (p.width + q.width, p.height.max(q.height))
                    } else {
                        (p.width.max(q.width), p.height + q.height)
                    };
                    if fits(width, height) {
                        let made = Made::Pair { beside, first, second };
                        shapes.push(Shape { width, height, made });
                    }
                };
                pair(&sets[a].shapes, &sets[b].shapes, |beside, i, j| add(beside, (a, i), (b, j)));
                if a != b {
                    pair(&sets[b].shapes, &sets[a].shapes, |beside, j, i| {
                        add(beside, (a, i), (b, j));
                    });
                }
                steps += 16 + 4 * (sets[a].shapes.len() + sets[b].shapes.len()) as u64;
                if shapes.len() > 4_096 {
                    least(&mut shapes);
                }
                if steps > work {
                    return None;
                }
            }
            least(&mut shapes);
            if !shapes.is_empty() {
                if sets.len() >= most {
                    return None;
                }
                known.insert(key, sets.len());
                level.push(sets.len());
                // Few of many are kept, and there are thousands of sets.
                shapes.shrink_to_fit();
                sets.push(Set { counts, key, shapes });
            }
        }
    }
    Some(sets)
}

/// Names the pairs of shapes in which the first decides: beside each other it is the taller, and goes
/// with the narrowest that is no taller; above each other it is the wider, and goes with the lowest that
/// is no wider. All other pairs are no better than one of these (or of those the other way round).
fn pair(first: &[Shape], second: &[Shape], mut add: impl FnMut(bool, usize, usize)) {
    let mut j = 0;
    for (i, p) in first.iter().enumerate() {
        // Heights fall with the index, so the narrowest that fits moves on only.
        while j < second.len() && second[j].height > p.height {
            j += 1;
        }
        if j < second.len() {
            add(true, i, j);
        }
    }
    let mut j = 0;
    for (i, p) in first.iter().enumerate() {
        while j < second.len() && second[j].width <= p.width {
            j += 1;
        }
        if j > 0 {
            add(false, i, j - 1);
        }
    }
}

/// Keeps shapes that no other fits inside; of equals the first made.
fn least(shapes: &mut Vec<Shape>) {
    shapes.sort_by_key(|s| (s.width, s.height));
    let mut lowest = i64::MAX;
    shapes.retain(|s| {
        let keep = s.height < lowest;
        lowest = lowest.min(s.height);
        keep
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_pieces_that_need_a_spiral_do_not_fit() {
        // Two 2 x 1 and two 1 x 2 strips around a 1 x 1 centre fill 3 x 3, but no straight cut parts them.
        let side = |width, height| Sides { width, height, turn: false };
        let kinds = [side(2, 1), side(1, 2), side(1, 1)];
        let sets = all_sets(&kinds, &[2, 2, 1], &[(3, 3)], 100, 100_000).expect("few sets");
        let has = |c: [i64; 3]| sets.iter().any(|s| s.counts == c);
        assert!(has([2, 1, 1]) && has([1, 2, 1]));
        assert!(!has([2, 2, 0]) && !has([2, 2, 1]));
    }
}
