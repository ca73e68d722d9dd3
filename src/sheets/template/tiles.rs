//! How a template larger than a page is shared out over tiles.

use std::ops::Range;

/// What two neighbours have in common, mm (page rule 49).
pub const OVERLAP: f64 = 10.0;

/// Most that a tile shows beside its bars and its map, mm: down and across the sheet.
pub const MOST: (f64, f64) = (186.0, 140.0);

/// A cross on a seam, in the part's own mm as drawn: down and across, and its name.
#[derive(Debug, Clone, PartialEq)]
pub struct Cross {
    /// Same on both tiles.
    pub name: String,
    /// From the upper end and from the left edge.
    pub at: (f64, f64),
}

/// A part shared out over rows and columns of tiles.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiling {
    rows: Vec<Range<f64>>,
    columns: Vec<Range<f64>>,
    crosses: Vec<Cross>,
}

/// One tile of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Tile {
    /// From 1, row by row.
    pub number: usize,
    /// How many there are.
    pub count: usize,
    /// Rows and columns of the whole.
    pub grid: (usize, usize),
    /// What it shows, from the upper end.
    pub down: Range<f64>,
    /// What it shows, from the left edge.
    pub across: Range<f64>,
    /// Seams that it shares, from the upper end: the middle of each overlap.
    pub seams_down: Vec<f64>,
    /// The same from the left edge.
    pub seams_across: Vec<f64>,
    /// Crosses on its seams.
    pub crosses: Vec<Cross>,
}

/// Equal stretches of at most `most` that overlap and cover a length wholly.
fn stretches(length: f64, most: f64) -> Vec<Range<f64>> {
    if length <= most {
        return std::iter::once(0.0..length).collect();
    }
    let count = ((length - OVERLAP) / (most - OVERLAP)).ceil();
    let step = (length - OVERLAP) / count;
    (0..count as usize).map(|k| k as f64 * step..(k as f64 * step + step + OVERLAP)).collect()
}

/// Middles of the overlaps.
fn seams(stretches: &[Range<f64>]) -> Vec<f64> {
    stretches.windows(2).map(|two| f64::midpoint(two[1].start, two[0].end)).collect()
}

impl Tiling {
    /// Shares a part out; holes are places down and across with what has to stay clear around them.
    pub fn new(length: f64, width: f64, holes: &[((f64, f64), f64)]) -> Self {
        let (rows, columns) = (stretches(length, MOST.0), stretches(width, MOST.1));
        let mut crosses = Vec::new();
        let mut seam = |range: &Range<f64>, at: &dyn Fn(f64) -> (f64, f64)| {
            // Clear of the corners, where four tiles lie on each other.
            let (from, to) = (range.start + OVERLAP + 6.0, range.end - OVERLAP - 6.0);
            for share in [0.15, 0.85] {
                let wish = from + (to - from) * share;
                let free = |along: &f64| {
                    let p = at(*along);
                    holes.iter().all(|(h, clear)| (h.0 - p.0).hypot(h.1 - p.1) > clear + 7.0)
                };
                // From the wish inwards, so that the two stay far apart.
                let inwards = if share < 0.5 { 3.0 } else { -3.0 };
                let along = (0..8).map(|k| wish + inwards * f64::from(k)).find(free);
                let name = format!("M{}", crosses.len() + 1);
                crosses.push(Cross { name, at: at(along.unwrap_or(wish)) });
            }
        };
        for across in seams(&columns) {
            for row in &rows {
                seam(row, &|down| (down, across));
            }
        }
        for down in seams(&rows) {
            for column in &columns {
                seam(column, &|across| (down, across));
            }
        }
        Self { rows, columns, crosses }
    }

    /// Its tiles, row by row.
    pub fn tiles(&self) -> Vec<Tile> {
        let inside = |range: &Range<f64>, at: f64| range.start < at && at < range.end;
        let mut tiles = Vec::new();
        for down in &self.rows {
            for across in &self.columns {
                tiles.push(Tile {
                    number: tiles.len() + 1,
                    count: self.rows.len() * self.columns.len(),
                    grid: (self.rows.len(), self.columns.len()),
                    down: down.clone(),
                    across: across.clone(),
                    seams_down: seams(&self.rows)
                        .into_iter()
                        .filter(|seam| inside(down, *seam))
                        .collect(),
                    seams_across: seams(&self.columns)
                        .into_iter()
                        .filter(|seam| inside(across, *seam))
                        .collect(),
                    crosses: self
                        .crosses
                        .iter()
                        .filter(|cross| inside(down, cross.at.0) && inside(across, cross.at.1))
                        .cloned()
                        .collect(),
                });
            }
        }
        tiles
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Every point of a part is on a tile, neighbours have 10 mm in common and two crosses an
        /// edge, and a point on two tiles is one point: each tile is the part shifted, never scaled.
        #[test]
        fn tiles_cover_the_part(length in 20.0..3000.0, width in 20.0..1500.0, at in (0.0..1.0, 0.0..1.0)) {
            let tiles = Tiling::new(length, width, &[]).tiles();
            let point = (at.0 * length, at.1 * width);
            let holds = |t: &Tile| t.down.contains(&point.0) && t.across.contains(&point.1);
            prop_assert!(tiles.iter().any(holds));
            // The sum of the tiles less what they share is the part.
            let (rows, columns) = tiles[0].grid;
            let sum: f64 = tiles.iter().step_by(columns).map(|t| t.down.end - t.down.start).sum();
            prop_assert!((sum - OVERLAP * (rows - 1) as f64 - length).abs() < 1e-6);
            let sum: f64 = tiles[..columns].iter().map(|t| t.across.end - t.across.start).sum();
            prop_assert!((sum - OVERLAP * (columns - 1) as f64 - width).abs() < 1e-6);
            for (i, a) in tiles.iter().enumerate() {
                prop_assert!(a.down.end - a.down.start <= MOST.0 + 1e-9);
                prop_assert!(a.across.end - a.across.start <= MOST.1 + 1e-9);
                let row = i / columns;
                for (j, b) in tiles.iter().enumerate().skip(i + 1) {
                    let side = j == i + 1 && j / columns == row;
                    if side || j == i + columns {
                        let shared = a.crosses.iter().filter(|c| b.crosses.contains(c)).count();
                        prop_assert!(shared >= 2, "{shared} crosses");
                        let lap = if side { a.across.end - b.across.start } else { a.down.end - b.down.start };
                        prop_assert!((lap - OVERLAP).abs() < 1e-6);
                    }
                }
            }
        }
    }
}
