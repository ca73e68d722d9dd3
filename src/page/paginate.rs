//! Pieces to pages.

mod balance;

use super::block::Piece;
use super::strip::Strip;

/// Vertical rhythm, mm.
const RHYTHM: f64 = 2.5;
/// Most actions on a page (page rule 21).
const MOST_ACTIONS: usize = 7;
/// Most room between a heading and what it heads, mm.
const UNDER_HEADING: f64 = 1.2;

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

/// How generous the room between pieces is.
#[derive(Debug, Clone, Copy)]
struct Spacing {
    /// Parts of the room that pieces ask for.
    share: f64,
    /// Whether blocks start on the rhythm.
    snaps: bool,
}

/// All the room that pieces ask for.
const WIDE: Spacing = Spacing { share: 1.0, snaps: true };

/// Pages of content.
pub(crate) struct Paginated {
    pub pages: Vec<Strip>,
    /// How much is on the last one, mm.
    last: f64,
    /// How much could be, mm.
    room: f64,
    /// How much would be on it with the others filled from the top, mm.
    over: f64,
}

impl Paginated {
    /// Whether only a little runs over to the last page.
    pub fn nearly_one_less(&self) -> bool {
        self.pages.len() > 1 && self.over < LITTLE
    }

    /// Whether the last page has room that larger drawings may take.
    pub fn has_room(&self) -> bool {
        self.last < ROOMY * self.room
    }
}

/// Content on a last page that is worth saving the page, mm.
const LITTLE: f64 = 70.0;
/// Part of a last page under which its drawings could be larger.
const ROOMY: f64 = 0.75;

/// Where pieces go: for each page the pieces with their heights, and where a head is repeated.
struct Plan {
    pages: Vec<PagePlan>,
}

#[derive(Default)]
struct PagePlan {
    /// Index of a piece and its top.
    places: Vec<(usize, f64)>,
    /// Top of the repeated head of the first piece.
    head: Option<f64>,
    end: f64,
}

struct Filling {
    plan: PagePlan,
    top: f64,
    y: f64,
    empty: bool,
    tight: bool,
    actions: usize,
}

impl Filling {
    fn new(top: f64) -> Self {
        let plan = PagePlan::default();
        Self { plan, top, y: top, empty: true, tight: false, actions: 0 }
    }

    /// Where a piece would start if put on next.
    fn start(&self, piece: &Piece, (y, empty, tight): (f64, bool, bool), spacing: Spacing) -> f64 {
        if empty {
            return y;
        }
        let before = piece.before * spacing.share;
        if tight {
            return y + before.min(UNDER_HEADING);
        }
        let y = y + before;
        if piece.snap && spacing.snaps {
            self.top + ((y - self.top - 1e-6) / RHYTHM).ceil() * RHYTHM
        } else {
            y
        }
    }

    fn end(&self, pieces: &[Piece], spacing: Spacing) -> f64 {
        let (mut y, mut empty, mut tight) = (self.y, self.empty, self.tight);
        for piece in pieces {
            y = self.start(piece, (y, empty, tight), spacing) + piece.height;
            empty &= piece.height == 0.0;
            tight = piece.tight || (tight && piece.height == 0.0);
        }
        y
    }

    fn put(&mut self, index: usize, piece: &Piece, spacing: Spacing) {
        let y = self.start(piece, (self.y, self.empty, self.tight), spacing);
        self.y = y + piece.height;
        self.empty &= piece.height == 0.0;
        self.tight = piece.tight || (self.tight && piece.height == 0.0);
        self.actions += usize::from(piece.action);
        self.plan.places.push((index, y));
    }

    fn turn(&mut self, pages: &mut Vec<PagePlan>, next: f64, piece: &Piece) {
        let mut full = std::mem::replace(self, Filling::new(next));
        full.plan.end = full.y;
        pages.push(full.plan);
        if let Some(head) = &piece.head {
            self.plan.head = Some(self.y);
            self.y += head.1;
            self.empty = false;
        }
    }
}

/// Puts pieces on pages, as many as it takes, at least one.
///
/// Pieces kept together share a page if a page can hold them; a piece taller than a page stands alone
/// (blocks see to it that there is none). Heads are repeated and closing rules drawn at page breaks.
/// Where only a little would run over to a last page, the room between pieces is tightened; where
/// several pages are needed, the content is shared out among them.
pub(crate) fn paginate(pieces: Vec<Piece>, area: Area) -> Paginated {
    let (filled, spacing) = tightest(&pieces, area);
    let end = |plan: &Plan, top: f64| plan.pages.last().map_or(0.0, |page| page.end - top);
    let top = if filled.pages.len() > 1 { area.next } else { area.first };
    let over = end(&filled, top);
    let best = shared_out(&pieces, area, filled, spacing);
    let last = end(&best, top);
    Paginated { pages: carry_out(pieces, best), last, room: area.bottom - top, over }
}

/// How many pages the pieces take.
pub(crate) fn count(pieces: &[Piece], area: Area) -> usize {
    tightest(pieces, area).0.pages.len()
}

/// Which part of the first page stays empty where the pieces take more than one, and whether an action
/// stands there if there are any (page rule 20: a drawing is on a page of its step's actions).
pub(crate) fn first_page(pieces: &[Piece], area: Area) -> (f64, bool) {
    match best(pieces, area).pages.as_slice() {
        [first, _, ..] => {
            let empty = (area.bottom - first.end) / (area.bottom - area.first).max(1.0);
            let acts = first.places.iter().any(|(index, _)| pieces[*index].action);
            (empty, acts || !pieces.iter().any(|piece| piece.action))
        }
        _ => (0.0, true),
    }
}

/// Which pieces start a page: those that ask for it, but not where all from the page start before to the next
/// one has room on one page.
fn forced(pieces: &[Piece], area: Area) -> Vec<bool> {
    let mut forced: Vec<bool> = pieces.iter().map(|piece| piece.breaks).collect();
    let asked: Vec<usize> = (1..pieces.len()).filter(|index| pieces[*index].breaks).collect();
    let mut from = 0;
    for (number, at) in asked.iter().enumerate() {
        let to = asked.get(number + 1).copied().unwrap_or(pieces.len());
        let page = Filling::new(if from == 0 { area.first } else { area.next });
        let run = &pieces[from..to];
        let actions = run.iter().filter(|piece| piece.action).count();
        if page.end(run, WIDE) <= area.bottom + 1e-6 && actions <= MOST_ACTIONS {
            forced[*at] = false;
        } else {
            from = *at;
        }
    }
    forced
}

/// Filled from the top, as tight as saves a page.
fn tightest(pieces: &[Piece], area: Area) -> (Plan, Spacing) {
    let wide = WIDE;
    let filled = plan(pieces, area, wide);
    let count = filled.pages.len();
    if count > 1 {
        for share in [0.7, 0.4] {
            let tight = Spacing { share, snaps: false };
            let tighter = plan(pieces, area, tight);
            if tighter.pages.len() < count {
                return (tighter, tight);
            }
        }
    }
    (filled, wide)
}

fn best(pieces: &[Piece], area: Area) -> Plan {
    let (filled, spacing) = tightest(pieces, area);
    shared_out(pieces, area, filled, spacing)
}

fn shared_out(pieces: &[Piece], area: Area, filled: Plan, spacing: Spacing) -> Plan {
    if filled.pages.len() == 1 {
        return filled;
    }
    match balance::breaks(pieces, area, spacing) {
        Some(breaks) if breaks.len() < filled.pages.len() => broken(pieces, area, spacing, &breaks),
        _ => filled,
    }
}

/// Pages that start at these pieces.
fn broken(pieces: &[Piece], area: Area, spacing: Spacing, breaks: &[usize]) -> Plan {
    let mut pages = Vec::new();
    let mut page = Filling::new(area.first);
    for (index, piece) in pieces.iter().enumerate() {
        if breaks.contains(&index) {
            page.turn(&mut pages, area.next, piece);
        }
        page.put(index, piece, spacing);
    }
    page.plan.end = page.y;
    pages.push(page.plan);
    Plan { pages }
}

fn plan(pieces: &[Piece], area: Area, spacing: Spacing) -> Plan {
    let forced = forced(pieces, area);
    let mut pages = Vec::new();
    let mut page = Filling::new(area.first);
    let mut at = 0;
    while at < pieces.len() {
        let end = group_end(pieces, at);
        let group = &pieces[at..end];
        let breaks = forced[at..end].contains(&true);
        let actions = group.iter().filter(|p| p.action).count();
        let fits = |page: &Filling| {
            page.end(group, spacing) <= area.bottom + 1e-6
                && (page.actions == 0 || page.actions + actions <= MOST_ACTIONS)
        };
        if !page.empty && (breaks || !fits(&page)) {
            page.turn(&mut pages, area.next, &group[0]);
        }
        let whole = fits(&page);
        for (offset, piece) in group.iter().enumerate() {
            // More kept together than a page holds goes one after the other.
            let full = !whole
                && (page.end(std::slice::from_ref(piece), spacing) > area.bottom + 1e-6
                    || (piece.action && page.actions >= MOST_ACTIONS));
            if full && !page.empty {
                page.turn(&mut pages, area.next, piece);
            }
            page.put(at + offset, piece, spacing);
        }
        at = end;
    }
    page.plan.end = page.y;
    pages.push(page.plan);
    Plan { pages }
}

/// End of the group of pieces that stay together from here.
fn group_end(pieces: &[Piece], at: usize) -> usize {
    let together = 1 + pieces[at..].iter().take_while(|p| p.keep).count();
    (at + together).min(pieces.len())
}

fn carry_out(pieces: Vec<Piece>, plan: Plan) -> Vec<Strip> {
    let mut pieces: Vec<Option<Piece>> = pieces.into_iter().map(Some).collect();
    let last = plan.pages.len() - 1;
    let mut strips = Vec::with_capacity(plan.pages.len());
    for (number, page) in plan.pages.into_iter().enumerate() {
        let mut strip = Strip::new();
        let mut closing = None;
        for (order, (index, y)) in page.places.into_iter().enumerate() {
            let Some(piece) = pieces[index].take() else { continue };
            if let (0, Some(top), Some(head)) = (order, page.head, &piece.head) {
                strip.add(head.0.clone(), 0.0, top);
            }
            closing = piece.closing;
            strip.add(piece.strip, 0.0, y);
        }
        if let (true, Some(rule)) = (number < last, closing) {
            strip.add((*rule).clone(), 0.0, page.end);
        }
        strips.push(strip);
    }
    strips
}
