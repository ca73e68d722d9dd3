//! A strip: placed items with their tags, from a corner of its own, before it has a page.

use super::model::{Item, NodeId, Path, PixelFormat, Point, Rect, Segment};

/// Whose content an item is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Owner {
    /// A node of the tag tree.
    Node(NodeId),
    /// A rule, frame or leader: an artifact of layout.
    Layout,
    /// Repeated furniture: an artifact of pagination.
    Furniture,
}

/// A link to an anchor.
#[derive(Debug, Clone)]
pub(crate) struct StripLink {
    pub node: NodeId,
    pub area: Rect,
    pub target: String,
    pub contents: String,
}

/// An entry of the outline below the sheet's own.
#[derive(Debug, Clone)]
pub(crate) struct StripEntry {
    pub level: u8,
    pub title: String,
    pub y: f64,
}

/// Items in drawing order, in mm from the strip's top left corner.
#[derive(Debug, Clone, Default)]
pub(crate) struct Strip {
    pub items: Vec<(Owner, Item)>,
    pub links: Vec<StripLink>,
    /// Name and height of places that can be linked to.
    pub anchors: Vec<(String, f64)>,
    pub entries: Vec<StripEntry>,
    /// Boxes of figures.
    pub figures: Vec<(NodeId, Rect)>,
}

impl Strip {
    pub fn new() -> Self {
        Self::default()
    }

    pub fn push(&mut self, owner: Owner, item: Item) {
        self.items.push((owner, item));
    }

    pub fn path(&mut self, owner: Owner, path: Path) {
        self.push(owner, Item::Path(path));
    }

    pub fn link(&mut self, node: NodeId, area: Rect, target: &str, contents: &str) {
        // Words of one link on one line are one area.
        if let Some(last) = self.links.last_mut()
            && last.node == node
            && (last.area.y - area.y).abs() < 0.01
        {
            last.area = last.area.union(&area);
            return;
        }
        self.links.push(StripLink {
            node,
            area,
            target: target.to_owned(),
            contents: contents.to_owned(),
        });
    }

    pub fn figure(&mut self, node: NodeId, area: Rect) {
        self.figures.push((node, area));
    }

    /// Takes in another strip, moved.
    pub fn add(&mut self, other: Strip, dx: f64, dy: f64) {
        self.items.extend(other.items.into_iter().map(|(o, i)| (o, moved(i, dx, dy))));
        self.links.extend(other.links.into_iter().map(|mut l| {
            l.area.x += dx;
            l.area.y += dy;
            l
        }));
        self.anchors.extend(other.anchors.into_iter().map(|(n, y)| (n, y + dy)));
        self.entries.extend(other.entries.into_iter().map(|mut e| {
            e.y += dy;
            e
        }));
        self.figures.extend(other.figures.into_iter().map(|(n, mut r)| {
            r.x += dx;
            r.y += dy;
            (n, r)
        }));
    }

    /// The same drawing as furniture: no tags, links or anchors. For heads repeated on a later page.
    pub fn as_furniture(&self) -> Strip {
        Strip {
            items: self.items.iter().map(|(_, i)| (Owner::Furniture, i.clone())).collect(),
            ..Strip::default()
        }
    }
}

fn shift(p: Point, dx: f64, dy: f64) -> Point {
    Point::new(p.x + dx, p.y + dy)
}

/// The item, moved to the right and down.
pub(crate) fn moved(item: Item, dx: f64, dy: f64) -> Item {
    match item {
        Item::Glyphs(mut run) => {
            run.origin = shift(run.origin, dx, dy);
            Item::Glyphs(run)
        }
        Item::Path(mut path) => {
            for segment in &mut path.segments {
                *segment = match *segment {
                    Segment::Move(p) => Segment::Move(shift(p, dx, dy)),
                    Segment::Line(p) => Segment::Line(shift(p, dx, dy)),
                    Segment::Curve(a, b, c) => {
                        Segment::Curve(shift(a, dx, dy), shift(b, dx, dy), shift(c, dx, dy))
                    }
                    Segment::Close => Segment::Close,
                };
            }
            Item::Path(path)
        }
        Item::Image(mut image) => {
            image.place.x += dx;
            image.place.y += dy;
            Item::Image(image)
        }
        Item::Clipped { mut window, items } => {
            window.x += dx;
            window.y += dy;
            Item::Clipped { window, items: items.into_iter().map(|i| moved(i, dx, dy)).collect() }
        }
    }
}

impl Strip {
    /// The strip turned by half a turn inside a box of this size.
    pub fn turned(self, (width, height): (f64, f64)) -> Strip {
        let flip = |r: Rect| Rect::new(width - r.right(), height - r.bottom(), r.width, r.height);
        Strip {
            items: self.items.into_iter().map(|(o, i)| (o, turned(i, (width, height)))).collect(),
            links: self.links.into_iter().map(|l| StripLink { area: flip(l.area), ..l }).collect(),
            anchors: self.anchors.into_iter().map(|(n, y)| (n, height - y)).collect(),
            entries: self
                .entries
                .into_iter()
                .map(|e| StripEntry { y: height - e.y, ..e })
                .collect(),
            figures: self.figures.into_iter().map(|(n, r)| (n, flip(r))).collect(),
        }
    }
}

fn turned(item: Item, size: (f64, f64)) -> Item {
    let flip = |p: Point| Point::new(size.0 - p.x, size.1 - p.y);
    let flip_box = |r: Rect| Rect::new(size.0 - r.right(), size.1 - r.bottom(), r.width, r.height);
    match item {
        Item::Glyphs(mut run) => {
            run.origin = flip(run.origin);
            run.angle = (run.angle + 180.0) % 360.0;
            Item::Glyphs(run)
        }
        Item::Path(mut path) => {
            for segment in &mut path.segments {
                *segment = match *segment {
                    Segment::Move(p) => Segment::Move(flip(p)),
                    Segment::Line(p) => Segment::Line(flip(p)),
                    Segment::Curve(a, b, c) => Segment::Curve(flip(a), flip(b), flip(c)),
                    Segment::Close => Segment::Close,
                };
            }
            Item::Path(path)
        }
        Item::Image(mut image) => {
            image.place = flip_box(image.place);
            let depth = match image.format {
                PixelFormat::Grey8 => 1,
                PixelFormat::Rgb8 => 3,
            };
            image.pixels = image.pixels.rchunks(depth).flatten().copied().collect();
            Item::Image(image)
        }
        Item::Clipped { window, items } => Item::Clipped {
            window: flip_box(window),
            items: items.into_iter().map(|i| turned(i, size)).collect(),
        },
    }
}
