//! What a finished document promises its writers, checked.

use super::model::{Document, Item, Kid, Mark, Node, NodeId, Role};

impl Document {
    /// The drawings of a page in reading order: its figures but boxes to tick and blanks.
    pub fn drawings(&self, page: usize) -> Vec<NodeId> {
        let drawn = |node: &Node| node.bbox.is_some_and(|(at, _)| at == page) && !node.to_fill_in;
        (0..self.tree.len()).filter(|index| drawn(&self.tree[*index])).map(NodeId).collect()
    }

    /// What is wrong with the document by the promises in [`super::model`]; empty when it is sound.
    ///
    /// For tests and for writers that would rather refuse than write a broken file.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        self.tree_faults(&mut faults);
        self.content_faults(&mut faults);
        self.table_faults(&mut faults);
        self.heading_faults(&mut faults);
        self.link_faults(&mut faults);
        faults
    }

    fn tree_faults(&self, faults: &mut Vec<String>) {
        if self.tree.first().is_none_or(|n| n.role != Role::Document) {
            faults.push("the tree has no root".into());
            return;
        }
        let mut named = vec![0usize; self.tree.len()];
        for (index, node) in self.tree.iter().enumerate() {
            for kid in &node.kids {
                match *kid {
                    Kid::Node(NodeId(k)) => {
                        if k <= index || k >= self.tree.len() {
                            faults.push(format!("node {index} has kid {k}"));
                        } else {
                            named[k] += 1;
                            if self.tree[k].parent != NodeId(index) {
                                faults.push(format!("node {k} does not name its parent {index}"));
                            }
                        }
                    }
                    Kid::Link(link) => {
                        if node.role != Role::Link || link >= self.links.len() {
                            faults.push(format!("node {index} holds link {link}"));
                        }
                    }
                    Kid::Content { .. } => {}
                }
            }
            if node.role == Role::Figure && (node.alt.is_none() || node.bbox.is_none()) {
                faults.push(format!("figure {index} lacks alt or bbox"));
            }
        }
        for (index, &times) in named.iter().enumerate().skip(1) {
            if times != 1 {
                faults.push(format!("node {index} is a kid {times} times"));
            }
        }
    }

    fn content_faults(&self, faults: &mut Vec<String>) {
        let mut owned: Vec<Vec<Option<usize>>> = Vec::new();
        for page in &self.pages {
            owned.push(vec![None; page.content.len()]);
        }
        for (index, node) in self.tree.iter().enumerate() {
            for kid in &node.kids {
                if let Kid::Content { page, mcid } = *kid {
                    match owned.get_mut(page).and_then(|p| p.get_mut(mcid)) {
                        Some(slot @ None) => *slot = Some(index),
                        _ => faults.push(format!("content {mcid} of page {page} owned twice")),
                    }
                }
            }
        }
        for (p, page) in self.pages.iter().enumerate() {
            let mut next = 0;
            for sequence in &page.content {
                if sequence.items.is_empty() {
                    faults.push(format!("page {p} has an empty sequence"));
                }
                for item in &sequence.items {
                    item_faults(item, p, false, faults);
                }
                if let Mark::Content { mcid, node } = sequence.mark {
                    if mcid != next || owned[p].get(mcid).copied().flatten() != Some(node.0) {
                        faults.push(format!("content {mcid} of page {p} is not its node's"));
                    }
                    next += 1;
                }
            }
            if owned[p].iter().skip(next).any(Option::is_some) {
                faults.push(format!("page {p} owes content"));
            }
        }
    }

    fn table_faults(&self, faults: &mut Vec<String>) {
        for (index, node) in self.tree.iter().enumerate() {
            if node.role != Role::Table {
                continue;
            }
            let mut widths = Vec::new();
            for part in self.kid_nodes(index) {
                if !matches!(self.tree[part].role, Role::THead | Role::TBody) {
                    continue;
                }
                for row in self.kid_nodes(part) {
                    let width: usize = self
                        .kid_nodes(row)
                        .map(|cell| match self.tree[cell].role {
                            Role::Th { columns, .. } | Role::Td { columns } => usize::from(columns),
                            _ => 0,
                        })
                        .sum();
                    widths.push(width);
                }
            }
            if widths.windows(2).any(|w| w[0] != w[1]) {
                faults.push(format!("rows of table {index} differ in width: {widths:?}"));
            }
        }
    }

    fn kid_nodes(&self, index: usize) -> impl Iterator<Item = usize> + '_ {
        self.tree[index].kids.iter().filter_map(|kid| match kid {
            Kid::Node(id) => Some(id.0),
            _ => None,
        })
    }

    fn heading_faults(&self, faults: &mut Vec<String>) {
        let mut level = 0;
        for (index, node) in self.tree.iter().enumerate() {
            let here = match node.role {
                Role::H1 => 1,
                Role::H2 => 2,
                Role::H3 => 3,
                _ => continue,
            };
            if here > level + 1 {
                faults.push(format!("heading {index} skips from level {level} to {here}"));
            }
            level = here;
        }
    }

    fn link_faults(&self, faults: &mut Vec<String>) {
        for (index, link) in self.links.iter().enumerate() {
            let node = self.tree.get(link.node.0);
            if node.is_none_or(|n| !n.kids.contains(&Kid::Link(index))) {
                faults.push(format!("link {index} is not in its node"));
            }
            if link.target >= self.destinations.len() || link.page >= self.pages.len() {
                faults.push(format!("link {index} leads nowhere"));
            }
        }
        if self.destinations.windows(2).any(|w| w[0].name >= w[1].name) {
            faults.push("destinations are not sorted".into());
        }
    }
}

fn item_faults(item: &Item, page: usize, clipped: bool, faults: &mut Vec<String>) {
    match item {
        Item::Glyphs(run) => {
            if run.glyphs.is_empty() || run.glyphs.iter().any(|g| g.id == 0) {
                faults
                    .push(format!("page {page}: run {:?} has an empty or missing glyph", run.text));
            }
            let mut spans: Vec<(u32, u32)> = run
                .glyphs
                .iter()
                .map(|g| (g.text_start, g.text_end))
                .filter(|s| s.0 < s.1)
                .collect();
            spans.sort_unstable();
            let mut at = 0;
            for (start, end) in spans {
                let (s, e) = (start as usize, end as usize);
                if s != at || run.text.get(s..e).is_none() {
                    faults.push(format!("page {page}: text of run {:?} has a gap", run.text));
                }
                at = e;
            }
            if at != run.text.len() {
                faults.push(format!("page {page}: text of run {:?} is not covered", run.text));
            }
            if !(run.origin.x.is_finite() && run.origin.y.is_finite() && run.size >= 9.0) {
                faults.push(format!("page {page}: run {:?} is nowhere or too small", run.text));
            }
        }
        Item::Path(path) => {
            if path.segments.is_empty() || (path.stroke.is_none() && path.fill.is_none()) {
                faults.push(format!("page {page} has a path that draws nothing"));
            }
        }
        Item::Image(image) => {
            let depth = match image.format {
                super::model::PixelFormat::Grey8 => 1,
                super::model::PixelFormat::Rgb8 => 3,
            };
            if image.columns as usize * image.rows as usize * depth != image.pixels.len() {
                faults.push(format!("page {page} has an image of the wrong length"));
            }
        }
        Item::Clipped { items, .. } => {
            if clipped {
                faults.push(format!("page {page} has a window in a window"));
            }
            for item in items {
                item_faults(item, page, true, faults);
            }
        }
    }
}
