//! What published coefficients say of the flat array: the one in use, and less severe views.

use crate::build::Build;
use crate::source::Seen;
use crate::tables::{Flow, LoadCase, Tables, WindwardEdge};
use crate::units::Angle;

/// Gust factor of ASCE 7 for rigid structures.
pub const GUST_FACTOR: f64 = 0.85;

/// One view of how much the air lifts the flat array.
#[derive(Debug, Clone, PartialEq)]
pub struct Opinion {
    /// Key for figures, "asce".
    pub key: &'static str,
    /// Where it is from, for the sheet.
    pub words: String,
    /// Uplift over dynamic pressure and area; positive lifts.
    pub uplift: f64,
    /// Where the resultant acts, as a share of the depth behind the edge that meets the wind.
    pub behind: f64,
    /// Source for the ledger.
    pub source: String,
    /// How well it is known.
    pub seen: Seen,
}

/// The one in use first.
pub(super) fn opinions(build: &Build, tables: &Tables) -> Vec<Opinion> {
    let mut list = Vec::new();
    if let Some(uplift) = &build.actions.uplift {
        list.push(Opinion {
            key: "measured",
            words: uplift.source.value.clone(),
            uplift: *uplift.coefficient,
            behind: 0.25,
            source: format!("build file: {}", uplift.source.value),
            seen: Seen::DataSheet,
        });
    }
    if let Some((table, row)) = tables.en1991_7_6().ok().and_then(|t| Some((t, t.at(Angle::ZERO)?)))
    {
        for (key, words, uplift) in [
            ("en-blocked", "EN 1991-1-4 table 7.6, space under it blocked", -row.up_blocked.force),
            ("en-free", "EN 1991-1-4 table 7.6, air flows freely under it", -row.up_free.force),
        ] {
            list.push(Opinion {
                key,
                words: words.to_owned(),
                uplift,
                behind: table.resultant_from_edge.to_fraction(),
                source: table.origin.source.clone(),
                seen: table.origin.seen,
            });
        }
    }
    list.extend(asce(tables));
    list
}

/// Greatest mean of the two halves over both load cases and both kinds of flow.
fn asce(tables: &Tables) -> Option<Opinion> {
    let mut worst: Option<Opinion> = None;
    for case in [LoadCase::A, LoadCase::B] {
        for flow in [Flow::Clear, Flow::Obstructed] {
            let Some(column) = tables.free_roofs.column(WindwardEdge::High, case, flow) else {
                continue;
            };
            let Some([windward, leeward]) = column.at(Angle::ZERO) else { continue };
            let (mean, sum) = (-f64::midpoint(windward, leeward), windward + leeward);
            if mean <= 0.0 || worst.as_ref().is_some_and(|w| w.uplift >= GUST_FACTOR * mean) {
                continue;
            }
            worst = Some(Opinion {
                key: "asce",
                words: "ASCE 7 figure 27.3-4, free roof, gust factor 0.85".to_owned(),
                uplift: GUST_FACTOR * mean,
                behind: (0.25 * windward + 0.75 * leeward) / sum,
                source: column.origin.source.clone(),
                seen: column.seen_at(Angle::ZERO),
            });
        }
    }
    worst
}
