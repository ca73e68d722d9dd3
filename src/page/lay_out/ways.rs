//! Which way of its choices a sheet is set in, and how large its drawings are.

use crate::page::block::{self, Block, Piece, lay_all};
use crate::page::context::{Context, Drawn, Way};
use crate::page::furniture::LIVE;
use crate::page::model::NodeId;
use crate::page::paginate::{Area, Paginated, count, first_page, paginate};

/// The blocks on pages, in the way that takes the fewest and shows its drawings largest.
pub(super) fn fitted(
    blocks: &[Block],
    area: Area,
    section: NodeId,
    context: &Context,
) -> Paginated {
    let before = context.snapshot();
    let ask = |(share, compact): (f64, bool)| {
        context.figure_share.set(share);
        context.compact.set(compact);
        context.take_figures();
        context.take_drawing();
    };
    let lay = |how: (f64, bool)| {
        ask(how);
        context.drawings.begin();
        paginate(lay_all(blocks, LIVE, section, context), area)
    };
    let known = context.known_way.get();
    let mut way = known.unwrap_or_else(|| {
        let (choice, limit) = best_way(blocks, area, section, context);
        Way { choice, limit, share: (1.0, 0), compact: false }
    });
    context.way.set((way.choice, way.limit));
    let mut strips = lay((way.share.0, way.compact));
    if strips.pages.len() != way.share.1 {
        if (way.share.0, way.compact) != AS_ASKED {
            context.restore(&before);
            strips = lay(AS_ASKED);
        }
        let pages = strips.pages.len();
        let drawn = context.take_drawing();
        let figures = context.take_figures();
        let after = context.snapshot();
        // Only heights count until one does better.
        let tried = |how: (f64, bool)| {
            ask(how);
            context.measuring.set(true);
            let pieces = lay_all(blocks, LIVE, section, context);
            context.measuring.set(false);
            context.restore(&after);
            (count(&pieces, area), context.take_drawing())
        };
        let mut found = AS_ASKED;
        if strips.nearly_one_less() {
            let shorter = |how: &(f64, bool)| {
                let (count, own) = tried(*how);
                count < pages && own.struck <= drawn.struck
            };
            let few: &[(f64, bool)] = if figures { &SHORTER } else { &SHORTER_WORDS };
            found = few.iter().copied().find(shorter).unwrap_or(AS_ASKED);
        }
        let choice = blocks.iter().any(|block| matches!(block, Block::Choice(_)));
        if found == AS_ASKED && figures && !choice && strips.has_room() {
            let larger = |how: &(f64, bool)| {
                let (count, own) = tried(*how);
                count == pages && own.struck <= drawn.struck && own.scale > drawn.scale * 1.01
            };
            found = LARGER.iter().copied().find(larger).unwrap_or(AS_ASKED);
        }
        (way.share.0, way.compact) = found;
        if found != AS_ASKED {
            context.restore(&before);
            strips = lay(found);
        }
    }
    way.share.1 = strips.pages.len();
    context.known_way.set(Some(way));
    context.figure_share.set(1.0);
    context.compact.set(false);
    context.way.set((0, f64::INFINITY));
    context.drawings.tidy();
    strips
}

/// Drawings as high as they are asked for, tables with their air.
const AS_ASKED: (f64, bool) = (1.0, false);
/// What gives way a little rather than send a few lines to a page of their own: part of the drawings' greatest
/// height, and whether rows of tables move together.
const SHORTER: [(f64, bool); 6] =
    [(0.88, false), (0.76, false), (1.0, true), (0.76, true), (0.64, false), (0.64, true)];
/// The same where there are no drawings.
const SHORTER_WORDS: [(f64, bool); 1] = [(1.0, true)];
/// How much higher drawings may be where the last page has room for them.
const LARGER: [(f64, bool); 3] = [(2.0, false), (1.6, false), (1.3, false)];

/// Least height of a drawing that gives way, mm.
const LEAST_DRAWING: f64 = 45.0;
/// By how much a drawing gives way at a time, mm; one to scale gives way by scales of the list.
const GIVES: f64 = 4.0;

/// By how much fuller a first page has to be for another way to be taken, in parts of it.
const FULLER: f64 = 0.15;

/// The way of the blocks' choices that takes the fewest pages, then the largest drawings, then the
/// fuller first page; and the greatest height of its drawings. A page more is taken where on the
/// fewest every drawing would be so small that its lines run through its words.
fn best_way(blocks: &[Block], area: Area, section: NodeId, context: &Context) -> (usize, f64) {
    let ways = blocks.iter().map(|block| match block {
        Block::Choice(ways) => ways.len(),
        _ => 0,
    });
    let ways = ways.max().unwrap_or(0);
    if ways == 0 {
        return (0, f64::INFINITY);
    }
    let before = context.snapshot();
    context.measuring.set(true);
    // What is alike in all ways is laid out once.
    let mut laid: Vec<Vec<Piece>> = Vec::new();
    let mut measure = |way: usize, limit: f64| {
        context.way.set((way, limit));
        let mut drawing = Drawn::default();
        let first = laid.is_empty();
        for (index, block) in blocks.iter().enumerate() {
            let choice = matches!(block, Block::Choice(_));
            if !first && !choice {
                continue;
            }
            context.take_drawing();
            let pieces = block::lay(block, LIVE, section, context);
            if choice {
                drawing = context.take_drawing();
            }
            if first { laid.push(pieces) } else { laid[index] = pieces }
        }
        let pieces: Vec<Piece> = laid.iter().flatten().map(Piece::without_strip).collect();
        (pieces, drawing)
    };
    let least: Vec<usize> =
        (0..ways).map(|way| count(&measure(way, LEAST_DRAWING).0, area)).collect();
    let fewest = least.iter().copied().min().unwrap_or(1);
    let mut best_on = |pages: usize| {
        let mut best: Option<Set> = None;
        for way in (0..ways).filter(|way| least[*way] <= pages) {
            let mut limit = f64::INFINITY;
            loop {
                let (pieces, drawn) = measure(way, limit);
                if count(&pieces, area) <= pages {
                    let (empty, acts) = first_page(&pieces, area);
                    let set = Set { drawn, empty, acts, way: (way, limit) };
                    if best.as_ref().is_none_or(|best| set.betters(best)) {
                        best = Some(set);
                    }
                    // A smaller one may leave its words clear.
                    if acts && drawn.struck == 0 {
                        break;
                    }
                }
                if drawn.height <= LEAST_DRAWING {
                    break;
                }
                limit = (drawn.height - GIVES).max(LEAST_DRAWING);
            }
        }
        best
    };
    let mut best = best_on(fewest);
    if best.as_ref().is_some_and(|best| best.drawn.struck > 0) {
        let more = best_on(fewest + 1);
        best = more.filter(|more| more.drawn.struck == 0).or(best);
    }
    context.restore(&before);
    context.measuring.set(false);
    best.map_or((0, LEAST_DRAWING), |best| best.way)
}

/// The blocks set in one way.
struct Set {
    drawn: Drawn,
    /// Empty part of the first page.
    empty: f64,
    /// An action stands beside the drawing (page rule 20).
    acts: bool,
    /// Number of the way and greatest height of its drawings, mm.
    way: (usize, f64),
}

impl Set {
    fn betters(&self, other: &Self) -> bool {
        let (own, its) = (self.drawn, other.drawn);
        if self.acts != other.acts {
            return self.acts;
        }
        if own.struck != its.struck {
            return own.struck < its.struck;
        }
        let larger = own.scale > its.scale + 1e-9;
        let fuller = own.scale > its.scale - 1e-9 && self.empty < other.empty - FULLER;
        larger || fuller
    }
}
