//! Pieces to pages.

use super::block::Piece;
use super::strip::Strip;

/// Vertical rhythm, mm.
const RHYTHM: f64 = 2.5;
/// Most actions on a page (page rule 21).
const MOST_ACTIONS: usize = 7;

/// Heights between which content may stand, mm from the top of the page.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Area {
    /// On the first page.
    pub first: f64,
    /// On later pages.
    pub next: f64,
    /// On all.
    pub bottom: f64,
}

struct Filling {
    strip: Strip,
    top: f64,
    y: f64,
    empty: bool,
    actions: usize,
}

impl Filling {
    fn new(top: f64) -> Self {
        Self { strip: Strip::new(), top, y: top, empty: true, actions: 0 }
    }

    /// Where a piece would start if put on next.
    fn start(&self, piece: &Piece, y: f64, empty: bool) -> f64 {
        if empty {
            return y;
        }
        let y = y + piece.before;
        if piece.snap { self.top + ((y - self.top - 1e-6) / RHYTHM).ceil() * RHYTHM } else { y }
    }

    fn end(&self, pieces: &[Piece]) -> f64 {
        let (mut y, mut empty) = (self.y, self.empty);
        for piece in pieces {
            y = self.start(piece, y, empty) + piece.height;
            empty &= piece.height == 0.0;
        }
        y
    }

    fn put(&mut self, piece: Piece) {
        let y = self.start(&piece, self.y, self.empty);
        self.y = y + piece.height;
        self.empty &= piece.height == 0.0;
        self.actions += usize::from(piece.action);
        self.strip.add(piece.strip, 0.0, y);
    }
}

/// Puts pieces on pages, as many as it takes, at least one.
///
/// Pieces kept together share a page if a page can hold them; a piece taller than a page stands alone
/// (blocks see to it that there is none). Heads are repeated and closing rules drawn at page breaks.
pub(crate) fn paginate(pieces: Vec<Piece>, area: Area) -> Vec<Strip> {
    let mut pages = Vec::new();
    let mut page = Filling::new(area.first);
    let mut queue: std::collections::VecDeque<Piece> = pieces.into();
    let mut closing = None;
    while !queue.is_empty() {
        let together = 1 + queue.iter().take_while(|p| p.keep).count();
        let together = together.min(queue.len());
        let group: Vec<Piece> = queue.drain(..together).collect();
        let breaks = group.iter().any(|p| p.breaks);
        let actions = group.iter().filter(|p| p.action).count();
        let fits = |page: &Filling| {
            page.end(&group) <= area.bottom + 1e-6
                && (page.actions == 0 || page.actions + actions <= MOST_ACTIONS)
        };
        if !page.empty && (breaks || !fits(&page)) {
            turn(&mut page, &mut pages, area, closing.take());
            repeat_head(&mut page, &group[0]);
        }
        if fits(&page) {
            for piece in group {
                closing.clone_from(&piece.closing);
                page.put(piece);
            }
            continue;
        }
        // More kept together than a page holds: one after the other.
        for piece in group {
            let one = std::slice::from_ref(&piece);
            let full = page.end(one) > area.bottom + 1e-6
                || (piece.action && page.actions >= MOST_ACTIONS);
            if !page.empty && full {
                turn(&mut page, &mut pages, area, closing.take());
                repeat_head(&mut page, &piece);
            }
            closing.clone_from(&piece.closing);
            page.put(piece);
        }
    }
    pages.push(page.strip);
    pages
}

fn turn(
    page: &mut Filling,
    pages: &mut Vec<Strip>,
    area: Area,
    closing: Option<std::rc::Rc<Strip>>,
) {
    if let Some(closing) = closing {
        page.strip.add((*closing).clone(), 0.0, page.y);
    }
    let full = std::mem::replace(page, Filling::new(area.next));
    pages.push(full.strip);
}

fn repeat_head(page: &mut Filling, piece: &Piece) {
    if let Some(head) = &piece.head {
        let (strip, height) = &**head;
        page.strip.add(strip.clone(), 0.0, page.y);
        page.y += height;
        page.empty = false;
    }
}
