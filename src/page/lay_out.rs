//! Packet to document.

mod ways;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, PoisonError};

use super::block::Block;
use super::booklet;
use super::context::{Context, PageMap, Problem, ProblemKind, Way};
use super::furniture::{self, Frame};
use super::model::{
    ArtifactKind, Destination, Document, Item, Kid, Link, Mark, Metadata, Node, NodeId,
    OutlineEntry, Page, Role, Sequence,
};
use super::paginate::Area;
use super::scene::Drawings;
use super::sheet::{Packet, Sheet};
use super::strip::{Owner, Strip, StripEntry, StripLink};
use super::tags::shifted;
use super::text::{Shaper, clean};

/// Passes until page numbers inside texts have settled.
const PASSES: usize = 4;

/// A page with absolute places.
struct Draft {
    strip: Strip,
    blank: bool,
    /// A booklet: the paper lies on its long side.
    landscape: bool,
}

/// A sheet laid out by itself, with a tag tree of its own.
struct Laid {
    drafts: Vec<Draft>,
    nodes: Vec<Node>,
    problems: BTreeSet<Problem>,
    /// Anchors whose page numbers it prints.
    asked: BTreeSet<String>,
    /// Pages before it, for which side of the paper it begins on.
    start: usize,
    way: Option<Way>,
    drawings: Drawings,
}

/// What is known of a sheet from the pass before.
#[derive(Default)]
struct Before {
    way: Option<Way>,
    drawings: Drawings,
}

/// Lays a packet out: pages, tags, links and outline, and what could not be done as asked.
///
/// The document is sound whatever the packet holds. Page numbers that texts ask for are those of this
/// very document: sheets that print others are laid out again until all agree.
pub fn lay_out(packet: &Packet) -> (Document, Vec<Problem>) {
    let mut job = Job { packet, shaper: Arc::new(Shaper::new()), pages: Arc::default() };
    let all: Vec<usize> = (0..packet.sheets.len()).collect();
    let fresh = all.iter().map(|sheet| (*sheet, Before::default())).collect();
    let mut sheets: Vec<Laid> = job.lay(fresh).into_iter().map(|(_, laid)| laid).collect();
    let mut pass = 1;
    loop {
        let (found, context) = job.place(&mut sheets);
        let settled = sheets.iter().all(|laid| laid.asked.is_empty()) || found == *job.pages;
        if settled || pass == PASSES {
            if !settled {
                context.problem(ProblemKind::Unsettled, "page numbers");
            }
            return finish(packet, sheets, context);
        }
        // Before the first pass no page was known, so that whoever asked got no answer.
        let changed = |anchor: &String| pass == 1 || found.get(anchor) != job.pages.get(anchor);
        let stale: Vec<usize> =
            all.iter().copied().filter(|&index| sheets[index].asked.iter().any(changed)).collect();
        job.pages = Arc::new(found);
        let mut known = |index: usize| {
            let laid = &mut sheets[index];
            laid.drafts.clear();
            Before { way: laid.way, drawings: std::mem::take(&mut laid.drawings) }
        };
        let stale: Vec<(usize, Before)> = stale.into_iter().map(|i| (i, known(i))).collect();
        for (index, laid) in job.lay(stale) {
            sheets[index] = laid;
        }
        pass += 1;
    }
}

fn frame(packet: &Packet, page: usize) -> Frame {
    let (width, height) = packet.paper.size();
    Frame { width, height, mirrored: packet.duplex && page % 2 == 1 }
}

/// What all sheets are laid out with.
struct Job<'a> {
    packet: &'a Packet,
    shaper: Arc<Shaper>,
    /// Pages of the anchors, from the pass before.
    pages: Arc<PageMap>,
}

impl Job<'_> {
    fn context(&self) -> Context {
        let any = frame(self.packet, 0);
        // Two lines of purpose are the most that a head takes.
        let height = any.bottom() - Frame::top(self.packet.draft.is_some()) - 5.0;
        let voice = self.packet.voice.clone();
        let (shaper, pages) = (Arc::clone(&self.shaper), Arc::clone(&self.pages));
        let hyphens = (self.packet.language == "de").then_some(hypher::Lang::German);
        let mut context = Context::new(shaper, pages, voice, height);
        context.hyphens = hyphens;
        context
    }

    /// Lays out some sheets. They do not depend on one another, so each processor takes the next one
    /// when it is free; the result is the same for any number of processors.
    fn lay(&self, sheets: Vec<(usize, Before)>) -> Vec<(usize, Laid)> {
        let processors = std::thread::available_parallelism().map_or(1, usize::from);
        let others = 1..processors.min(sheets.len());
        let next = Mutex::new(sheets.into_iter());
        let take = || next.lock().unwrap_or_else(PoisonError::into_inner).next();
        let work = || {
            let mut done = Vec::new();
            while let Some((sheet, before)) = take() {
                done.push((sheet, self.sheet(sheet, 0, before)));
            }
            done
        };
        let mut laid = std::thread::scope(|scope| {
            let others: Vec<_> = others.map(|_| scope.spawn(work)).collect();
            let mut laid = work();
            for other in others {
                laid.extend(other.join().unwrap_or_else(|p| std::panic::resume_unwind(p)));
            }
            laid
        });
        laid.sort_by_key(|(sheet, _)| *sheet);
        laid
    }

    /// A sheet that has `start` pages before it, and what is known of it.
    fn sheet(&self, index: usize, start: usize, before: Before) -> Laid {
        let mut context = self.context();
        context.drawings = before.drawings;
        context.known_way.set(before.way);
        if before.way.is_some() {
            context.drawings.last_time();
        }
        let sheet = &self.packet.sheets[index];
        context.enter(&sheet.anchor);
        let mut drafts = Vec::new();
        lay_sheet(self.packet, sheet, start, &mut drafts, &context);
        let parts = context.into_parts();
        let mut laid = Laid {
            drafts,
            nodes: parts.nodes,
            problems: parts.problems,
            asked: parts.asked,
            start,
            way: parts.way,
            drawings: parts.drawings,
        };
        if laid.asked.is_empty() {
            // It stays as it is.
            laid.drawings = Drawings::default();
        } else if self.pages.is_empty() {
            // It is laid out again when the pages are known: only its anchors count until then.
            laid.drafts.iter_mut().for_each(|draft| draft.strip.items = Vec::new());
        }
        laid
    }

    /// Finds the page that each sheet begins on, and with them the pages of all anchors. A sheet that
    /// begins on the other side of the paper than was thought is laid out again.
    fn place(&self, sheets: &mut [Laid]) -> (PageMap, Context) {
        let context = self.context();
        let mut found = PageMap::new();
        let mut count = 0;
        let mut previous_single = false;
        for (index, (sheet, laid)) in self.packet.sheets.iter().zip(sheets).enumerate() {
            context.enter(&sheet.anchor);
            if self.packet.duplex && count % 2 == 1 && (sheet.single_sided || previous_single) {
                count += 1;
            }
            if self.packet.duplex && laid.start % 2 != count % 2 {
                let way = laid.way;
                *laid = self.sheet(index, count, Before { way, ..Before::default() });
            }
            laid.start = count;
            for (at, draft) in laid.drafts.iter().enumerate() {
                for (name, _) in &draft.strip.anchors {
                    if found.contains_key(name) || *name == sheet.anchor {
                        context.problem(ProblemKind::DuplicateAnchor, name);
                    } else {
                        found.insert(name.clone(), (count + at + 1, count + at + 1));
                    }
                }
            }
            let first = count + 1;
            count += laid.drafts.len();
            if found.contains_key(&sheet.anchor) {
                context.problem(ProblemKind::DuplicateAnchor, &sheet.anchor);
            } else {
                found.insert(sheet.anchor.clone(), (first, count));
            }
            previous_single = sheet.single_sided;
        }
        (found, context)
    }
}

fn blank_page(packet: &Packet, page: usize, context: &Context) -> Draft {
    let mut strip = Strip::new();
    furniture::blank(&mut strip, &frame(packet, page), context);
    Draft { strip, blank: true, landscape: false }
}

/// The pages of a sheet that has `start` pages before it.
fn lay_sheet(
    packet: &Packet,
    sheet: &Sheet,
    start: usize,
    drafts: &mut Vec<Draft>,
    context: &Context,
) {
    let section = context.tags.node(NodeId::ROOT, Role::Sect);
    context.tags.set_title(section, &clean(&sheet.title));
    if let [Block::Booklet(booklet)] = &sheet.blocks[..] {
        let paper = packet.paper.size();
        let (strip, over) = booklet::lay(booklet, &sheet.title, paper, section, context);
        drafts.push(Draft { strip, blank: false, landscape: true });
        run_on(packet, sheet, start, over, drafts, context);
        return;
    }
    let here = frame(packet, start);
    let mut head = Strip::new();
    let (first, over) = furniture::head(&mut head, sheet, packet, &here, section, context);
    let mut over: Vec<Block> = over.into_iter().map(Block::Paragraph).collect();
    let mut later = Strip::new();
    let next = furniture::continued(&mut later, sheet, packet, &here, context);
    let area = Area { first, next, bottom: here.bottom() };
    let strips = if over.is_empty() {
        context.drawings.keep();
        ways::fitted(&sheet.blocks, area, section, context)
    } else {
        over.extend(sheet.blocks.iter().cloned());
        ways::fitted(&over, area, section, context)
    };
    for (number, content) in strips.pages.into_iter().enumerate() {
        if packet.duplex && sheet.single_sided && (start + drafts.len()) % 2 == 1 {
            drafts.push(blank_page(packet, start + drafts.len(), context));
        }
        let at = frame(packet, start + drafts.len());
        let mut strip = Strip::new();
        if number == 0 {
            strip.add(std::mem::take(&mut head), 0.0, 0.0);
        } else {
            furniture::continued(&mut strip, sheet, packet, &at, context);
        }
        strip.add(content, at.left(), 0.0);
        drafts.push(Draft { strip, blank: false, landscape: false });
    }
}

/// Pages for what found no room in a booklet: two panels under each other on each.
fn run_on(
    packet: &Packet,
    sheet: &Sheet,
    start: usize,
    over: Vec<Strip>,
    drafts: &mut Vec<Draft>,
    context: &Context,
) {
    let mut over = over.into_iter().peekable();
    while over.peek().is_some() {
        let at = frame(packet, start + drafts.len());
        let mut strip = Strip::new();
        let top = furniture::continued(&mut strip, sheet, packet, &at, context);
        // A panel is at most 84 mm high, so two of them fit on either paper.
        for number in 0..2 {
            if let Some(part) = over.next() {
                strip.add(part, at.left(), top + f64::from(number) * 90.0);
            }
        }
        drafts.push(Draft { strip, blank: false, landscape: false });
    }
}

fn finish(packet: &Packet, sheets: Vec<Laid>, context: Context) -> (Document, Vec<Problem>) {
    // Every draft with the number of its sheet and what its tags are shifted by.
    let mut drafts: Vec<(Draft, usize, usize)> = Vec::new();
    for (index, laid) in sheets.into_iter().enumerate() {
        if drafts.len() < laid.start {
            let blank = blank_page(packet, drafts.len(), &context);
            drafts.push((blank, index.saturating_sub(1), 0));
        }
        context.take_in(laid.problems);
        let by = context.tags.take_in(laid.nodes);
        drafts.extend(laid.drafts.into_iter().map(|draft| (draft, index, by)));
    }
    let count = drafts.len();
    let mut pages = Vec::with_capacity(count);
    let mut gathered = Gathered::default();
    let mut places: BTreeMap<String, (usize, f64)> = BTreeMap::new();
    let mut outline: Vec<OutlineEntry> = Vec::new();
    let mut begun = None;
    for (index, (draft, number, by)) in drafts.into_iter().enumerate() {
        let sheet = &packet.sheets[number];
        let at = frame(packet, index);
        let mut strip = draft.strip;
        let here = (index + 1, count);
        context.enter(&sheet.anchor);
        if draft.landscape {
            let print = (packet.paper.size(), packet.draft.is_some());
            booklet::feet(&mut strip, &packet.identity, here, print, &context);
        } else {
            if !draft.blank {
                furniture::tab(&mut strip, sheet, &at, &context);
            }
            furniture::foot(&mut strip, &packet.identity, here, &at, &context);
        }
        if !draft.blank && begun != Some(number) {
            begun = Some(number);
            places.entry(sheet.anchor.clone()).or_insert((index, 0.0));
            outline.push(OutlineEntry {
                title: named(&sheet.title, number, &context),
                page: index,
                y: 0.0,
                children: Vec::new(),
            });
        }
        for (name, y) in &strip.anchors {
            places.entry(name.clone()).or_insert((index, *y));
        }
        if let Some(entry) = outline.last_mut() {
            add_entries(entry, &strip.entries, index);
        }
        let content = gathered.take(strip, index, by);
        pages.push(Page {
            width: if draft.landscape { at.height } else { at.width },
            height: if draft.landscape { at.width } else { at.height },
            label: (index + 1).to_string(),
            title: clean(&sheet.title),
            kind: sheet.tab.as_ref().map_or(String::new(), |t| clean(&t.word)),
            single_sided: sheet.single_sided,
            content,
        });
    }
    let destinations: Vec<Destination> =
        places.into_iter().map(|(name, (page, y))| Destination { name, page, y }).collect();
    report_missing(&context);
    gathered.unknown_links(&destinations, &context);
    let problems = context.problems();
    let (tree, links) = gathered.into_tree(context.tags.into_nodes(), &destinations);
    let identity = &packet.identity;
    let document = Document {
        title: clean(&identity.title),
        language: packet.language.clone(),
        pages,
        tree,
        outline,
        destinations,
        links,
        metadata: Metadata {
            number: clean(&identity.number),
            revision: clean(&identity.revision),
            date: clean(&identity.date),
            subject: clean(&packet.subject),
            author: clean(&packet.author),
            fingerprint: clean(&identity.fingerprint),
            keywords: Vec::new(),
        },
        attachment: packet.attachment.clone(),
        duplex: packet.duplex,
    };
    (document, problems)
}

fn report_missing(context: &Context) {
    let missing: Vec<String> =
        context.shaper.missing().iter().map(|c| format!("U+{:04X}", u32::from(*c))).collect();
    if !missing.is_empty() {
        context.enter("");
        context.problem(ProblemKind::MissingCharacter, missing.join(" "));
    }
}

fn named(title: &str, index: usize, context: &Context) -> String {
    let title = clean(title);
    if title.is_empty() { format!("{} {}", context.say("sheet"), index + 1) } else { short(&title) }
}

fn short(title: &str) -> String {
    if title.chars().count() > 100 {
        title.chars().take(100).chain(['…']).collect()
    } else {
        title.to_owned()
    }
}

fn add_entries(sheet: &mut OutlineEntry, entries: &[StripEntry], page: usize) {
    for entry in entries {
        let new = OutlineEntry {
            title: short(&clean(&entry.title)),
            page,
            y: entry.y,
            children: Vec::new(),
        };
        match sheet.children.last_mut() {
            Some(last) if entry.level > 2 => last.children.push(new),
            _ => sheet.children.push(new),
        }
    }
}

/// Content, figures and links of all pages.
#[derive(Default)]
struct Gathered {
    content: Vec<(NodeId, usize, usize)>,
    figures: Vec<(NodeId, usize, super::model::Rect)>,
    links: Vec<(usize, StripLink)>,
}

impl Gathered {
    /// Turns a strip into marked sequences; its nodes are shifted (see [`shifted`]).
    fn take(&mut self, strip: Strip, page: usize, by: usize) -> Vec<Sequence> {
        let placed = |node: NodeId| shifted(node, by);
        let mut content: Vec<(Owner, Vec<Item>)> = Vec::new();
        for (owner, item) in strip.items {
            match content.last_mut() {
                Some((last, items)) if *last == owner => items.push(item),
                _ => content.push((owner, vec![item])),
            }
        }
        self.figures.extend(strip.figures.into_iter().map(|(n, r)| (placed(n), page, r)));
        self.links.extend(strip.links.into_iter().map(|l| {
            let node = placed(l.node);
            (page, StripLink { node, ..l })
        }));
        let mut mcid = 0;
        content
            .into_iter()
            .map(|(owner, items)| {
                let mark = match owner {
                    Owner::Layout => Mark::Artifact(ArtifactKind::Layout),
                    Owner::Furniture => Mark::Artifact(ArtifactKind::Pagination),
                    Owner::Node(node) => {
                        let node = placed(node);
                        self.content.push((node, page, mcid));
                        mcid += 1;
                        Mark::Content { mcid: mcid - 1, node }
                    }
                };
                Sequence { mark, items }
            })
            .collect()
    }

    fn unknown_links(&self, destinations: &[Destination], context: &Context) {
        context.enter("");
        for (_, link) in &self.links {
            if destinations.binary_search_by(|d| d.name.as_str().cmp(&link.target)).is_err() {
                context.problem(ProblemKind::UnknownAnchor, &link.target);
            }
        }
    }

    /// Puts content and links under their nodes, in reading order.
    fn into_tree(
        self,
        mut nodes: Vec<Node>,
        destinations: &[Destination],
    ) -> (Vec<Node>, Vec<Link>) {
        // First content in a node or below it: what its place among its siblings is judged by.
        let mut first: Vec<Option<(usize, usize)>> = vec![None; nodes.len()];
        for (node, page, mcid) in &self.content {
            nodes[node.0].kids.push(Kid::Content { page: *page, mcid: *mcid });
            let mut at = node.0;
            loop {
                if first[at].is_none_or(|f| f > (*page, *mcid)) {
                    first[at] = Some((*page, *mcid));
                }
                if at == 0 {
                    break;
                }
                at = nodes[at].parent.0;
            }
        }
        for node in &mut nodes {
            let mixed = node.kids.iter().any(|k| matches!(k, Kid::Node(_)))
                && node.kids.iter().any(|k| matches!(k, Kid::Content { .. }));
            if mixed {
                node.kids.sort_by_key(|kid| match *kid {
                    Kid::Content { page, mcid } => (page, mcid),
                    Kid::Node(id) => first[id.0].unwrap_or((usize::MAX, 0)),
                    Kid::Link(_) => (usize::MAX, 1),
                });
            }
        }
        for (node, page, area) in self.figures {
            nodes[node.0].bbox = Some((page, area));
        }
        let mut links: Vec<Link> = Vec::new();
        for (page, link) in self.links {
            let found = destinations.binary_search_by(|d| d.name.as_str().cmp(&link.target));
            if let Ok(target) = found {
                nodes[link.node.0].kids.push(Kid::Link(links.len()));
                links.push(Link {
                    page,
                    area: link.area,
                    target,
                    contents: link.contents,
                    node: link.node,
                });
            }
        }
        for node in &mut nodes {
            // A link that leads nowhere is plain text.
            if node.role == Role::Link && !node.kids.iter().any(|k| matches!(k, Kid::Link(_))) {
                node.role = Role::Span;
            }
        }
        (nodes, links)
    }
}
