//! Page breaks that share the content out.
//!
//! Among the ways to break that take the fewest pages, the one with the least sum of squared empty
//! parts of pages is taken, in which a break at a good place costs nothing: before a hold line or a
//! heading rather than between actions, and there rather than inside a table.

use std::rc::Rc;

use super::{Area, Filling, MOST_ACTIONS, Spacing, forced, group_end};
use crate::page::block::Piece;

/// Cost of a break between two actions or paragraphs; an empty fifth of a page costs 0.04.
const BETWEEN: f64 = 0.02;
/// Cost of a break inside a table.
const IN_TABLE: f64 = 0.06;
/// Cost of a break before words that say more about what stands above them.
const BEFORE_WORDS: f64 = 0.15;
/// Cost of a first page without an action, where there are any: its drawing belongs to one (page rule 20).
const IDLE: f64 = 1.0;
/// The last page may be emptier than the others, but not nearly empty: its emptiness counts for so much.
const LAST: f64 = 0.5;

/// The best known way to fill pages up to a place.
#[derive(Clone, Copy)]
struct Way {
    pages: usize,
    cost: f64,
    from: usize,
}

/// Pieces at which new pages start; none where a group is too tall for any page, so that there is
/// nothing to choose.
pub(super) fn breaks(pieces: &[Piece], area: Area, spacing: Spacing) -> Option<Vec<usize>> {
    let asked = forced(pieces, area);
    let mut starts = Vec::new();
    let mut at = 0;
    while at < pieces.len() {
        starts.push(at);
        at = group_end(pieces, at);
    }
    let count = starts.len();
    starts.push(pieces.len());
    let acts = pieces.iter().position(|piece| piece.action);
    let mut ways: Vec<Option<Way>> = vec![None; count + 1];
    ways[0] = Some(Way { pages: 0, cost: 0.0, from: 0 });
    for first in 0..count {
        let Some(here) = ways[first] else { continue };
        let mut page = Filling::new(if first == 0 { area.first } else { area.next });
        if first > 0 {
            // As a page is turned: the head of a table comes again.
            page.turn(&mut Vec::new(), area.next, &pieces[starts[first]]);
        }
        let top = page.top;
        for end in first + 1..=count {
            let group = &pieces[starts[end - 1]..starts[end]];
            let forced = asked[starts[end - 1]..starts[end]].contains(&true);
            if end > first + 1 && forced {
                break;
            }
            let actions = group.iter().filter(|piece| piece.action).count();
            let bottom = page.end(group, spacing);
            if bottom > area.bottom + 1e-6 || page.actions + actions > MOST_ACTIONS {
                if end == first + 1 {
                    return None;
                }
                break;
            }
            for (offset, piece) in group.iter().enumerate() {
                page.put(starts[end - 1] + offset, piece, spacing);
            }
            let empty = ((area.bottom - bottom) / (area.bottom - top).max(1.0)).clamp(0.0, 1.0);
            let idle = first == 0 && acts.is_some_and(|at| at >= starts[end]);
            let cost = here.cost
                + if idle { IDLE } else { 0.0 }
                + if end == count {
                    LAST * empty * empty
                } else if asked[starts[end]..starts[end + 1]].contains(&true) {
                    0.0
                } else {
                    empty * empty + place(pieces, starts[end])
                };
            let way = Way { pages: here.pages + 1, cost, from: first };
            let better = ways[end].is_none_or(|old| {
                way.pages < old.pages || (way.pages == old.pages && way.cost < old.cost - 1e-12)
            });
            if better {
                ways[end] = Some(way);
            }
        }
    }
    let mut breaks = Vec::new();
    let mut at = count;
    while let Some(way) = ways[at].filter(|way| way.from > 0) {
        breaks.push(starts[way.from]);
        at = way.from;
    }
    breaks.reverse();
    ways[count].map(|_| breaks)
}

/// What a break before this piece costs.
fn place(pieces: &[Piece], at: usize) -> f64 {
    let piece = &pieces[at];
    if piece.opens || piece.tight {
        return 0.0;
    }
    let same_table = |other: &Piece| match (&piece.head, &other.head) {
        (Some(a), Some(b)) => Rc::ptr_eq(a, b),
        _ => false,
    };
    if at > 0 && same_table(&pieces[at - 1]) {
        return IN_TABLE;
    }
    // A caption of what follows may start a page.
    let caption = piece.words && piece.keep;
    let acts = pieces[at..group_end(pieces, at)].iter().any(|piece| piece.action);
    if acts || caption || (piece.snap && !piece.words) { BETWEEN } else { BEFORE_WORDS }
}
