//! A small document with one of everything that the page model knows, built by hand so that the
//! writers are tested without the layout.

use rungsheet::page::model::{
    ArtifactKind, Attachment, Cap, Destination, Document, FaceId, Glyph, GlyphRun, Image, Ink,
    Item, Join, Kid, Link, Mark, Metadata, Node, NodeId, OutlineEntry, Page, Path, Pen,
    PixelFormat, Point, Rect, Role, Scope, Segment, Sequence, Stroke,
};

/// The build file that travels along; not plain letters only, and longer than a line.
pub const BUILD: &str = "# Dachträger\nformat = 1\n[job]\ntitle = \"Sample × 2\"\n";

/// A run of text, shaped as the layout shapes: kerning, ligatures, font units.
pub fn run(text: &str, face: FaceId, size: f64, x: f64, y: f64) -> GlyphRun {
    let mut buffer = rustybuzz::UnicodeBuffer::new();
    buffer.push_str(text);
    buffer.set_direction(rustybuzz::Direction::LeftToRight);
    let shaped = rustybuzz::shape(face.face(), &[], buffer);
    let infos = shaped.glyph_infos();
    let glyphs = infos
        .iter()
        .zip(shaped.glyph_positions())
        .enumerate()
        .map(|(index, (info, position))| {
            let start = info.cluster;
            let first = index == 0 || infos[index - 1].cluster != start;
            let end = infos[index..]
                .iter()
                .find(|i| i.cluster != start)
                .map_or(text.len() as u32, |i| i.cluster);
            Glyph {
                id: info.glyph_id as u16,
                advance: position.x_advance,
                dx: position.x_offset,
                dy: position.y_offset,
                text_start: if first { start } else { end },
                text_end: end,
            }
        })
        .collect();
    GlyphRun {
        face,
        size,
        origin: Point::new(x, y),
        angle: 0.0,
        ink: Ink::Black,
        text: text.into(),
        glyphs,
    }
}

/// A solid line.
pub fn stroke(pen: Pen) -> Stroke {
    Stroke { pen, ink: Ink::Black, dash: Vec::new(), cap: Cap::Butt, join: Join::Miter }
}

/// A straight line.
pub fn line(from: (f64, f64), to: (f64, f64), pen: Pen) -> Item {
    Item::Path(Path {
        segments: vec![
            Segment::Move(Point::new(from.0, from.1)),
            Segment::Line(Point::new(to.0, to.1)),
        ],
        stroke: Some(stroke(pen)),
        fill: None,
        even_odd: false,
    })
}

/// An upright box.
pub fn upright(area: Rect) -> Vec<Segment> {
    vec![
        Segment::Move(Point::new(area.x, area.y)),
        Segment::Line(Point::new(area.right(), area.y)),
        Segment::Line(Point::new(area.right(), area.bottom())),
        Segment::Line(Point::new(area.x, area.bottom())),
        Segment::Close,
    ]
}

/// Grows a document node by node.
pub struct Builder {
    /// The document so far.
    pub document: Document,
}

impl Builder {
    /// An empty document.
    pub fn new(title: &str) -> Self {
        let root = Node {
            role: Role::Document,
            parent: NodeId::ROOT,
            kids: Vec::new(),
            alt: None,
            actual_text: None,
            bbox: None,
            title: None,
            to_fill_in: false,
        };
        Self {
            document: Document {
                title: title.into(),
                language: "en".into(),
                pages: Vec::new(),
                tree: vec![root],
                outline: Vec::new(),
                destinations: Vec::new(),
                links: Vec::new(),
                metadata: Metadata::default(),
                attachment: None,
                duplex: false,
            },
        }
    }

    /// A new page at the end.
    pub fn page(&mut self, width: f64, height: f64) -> usize {
        let label = (self.document.pages.len() + 1).to_string();
        self.document.pages.push(Page {
            width,
            height,
            label,
            title: "Sheet".into(),
            kind: "Step".into(),
            single_sided: false,
            content: Vec::new(),
        });
        self.document.pages.len() - 1
    }

    /// A node under another.
    pub fn node(&mut self, parent: NodeId, role: Role) -> NodeId {
        let id = NodeId(self.document.tree.len());
        self.document.tree.push(Node {
            role,
            parent,
            kids: Vec::new(),
            alt: None,
            actual_text: None,
            bbox: None,
            title: None,
            to_fill_in: false,
        });
        self.document.tree[parent.0].kids.push(Kid::Node(id));
        id
    }

    /// Content of a node on the last page.
    pub fn content(&mut self, node: NodeId, items: Vec<Item>) {
        let page = self.document.pages.len() - 1;
        let content = &mut self.document.pages[page].content;
        let mcid = content.iter().filter(|s| matches!(s.mark, Mark::Content { .. })).count();
        content.push(Sequence { mark: Mark::Content { mcid, node }, items });
        self.document.tree[node.0].kids.push(Kid::Content { page, mcid });
    }

    /// A node with one line of text as its content.
    pub fn text(&mut self, parent: NodeId, role: Role, run: GlyphRun) -> NodeId {
        let node = self.node(parent, role);
        self.content(node, vec![Item::Glyphs(run)]);
        node
    }

    /// Furniture on the last page.
    pub fn artifact(&mut self, kind: ArtifactKind, items: Vec<Item>) {
        let page = self.document.pages.last_mut().expect("a page was begun");
        page.content.push(Sequence { mark: Mark::Artifact(kind), items });
    }
}

/// Two sheets with headings, a paragraph with ligature and accents, a list, a table with a spanning
/// head, a figure with everything that can be drawn, a link and the identity line.
pub fn document() -> Document {
    use FaceId::{Bold, Regular, Signs};
    let mut b = Builder::new("Sample packet \u{2013} R\u{e9}vision");
    b.page(210.0, 297.0);
    let sect = b.node(NodeId::ROOT, Role::Sect);
    b.document.tree[sect.0].title = Some("Cover".into());
    b.text(sect, Role::H1, run("Cut & fit \u{b7} 6.6 mm", Bold, 18.0, 20.0, 30.0));
    let p = b.node(sect, Role::P);
    b.content(
        p,
        vec![
            Item::Glyphs(run(
                "First the office file; AVATAR To Wa \u{bd}. ",
                Regular,
                11.0,
                20.0,
                40.0,
            )),
            Item::Glyphs(run(
                "Then 25\u{a0}mm \u{d7} 50\u{a0}mm \u{2192} \u{2713} caf\u{e9} ",
                Regular,
                11.0,
                20.0,
                45.0,
            )),
            Item::Glyphs(run("\u{2300} \u{5e9} e\u{301}x\u{323}\u{301}", Signs, 11.0, 20.0, 50.0)),
        ],
    );
    let list = b.node(sect, Role::L);
    for (number, words) in ["Drill", "Deburr"].iter().enumerate() {
        let y = 60.0 + 5.0 * number as f64;
        let li = b.node(list, Role::Li);
        b.text(li, Role::Lbl, run(&format!("{}.", number + 1), Regular, 11.0, 20.0, y));
        b.text(li, Role::LBody, run(words, Regular, 11.0, 27.0, y));
    }
    table(&mut b, sect);
    let link = b.node(sect, Role::Link);
    b.content(link, vec![Item::Glyphs(run("See sheet 2", Regular, 11.0, 20.0, 110.0))]);
    b.document.tree[link.0].kids.push(Kid::Link(0));
    b.document.links.push(Link {
        page: 0,
        area: Rect::new(20.0, 106.0, 30.0, 6.0),
        target: 1,
        contents: "Go to sheet 2".into(),
        node: link,
    });
    let mut turned = run("Drill", Bold, 12.0, 205.0, 120.0);
    turned.angle = 90.0;
    b.artifact(
        ArtifactKind::Pagination,
        vec![
            Item::Glyphs(run("RS-1 \u{b7} rev A \u{b7} sheet 1 of 2", Regular, 9.0, 20.0, 287.0)),
            Item::Glyphs(turned),
        ],
    );

    b.page(215.9, 279.4);
    let sheet = b.node(NodeId::ROOT, Role::Sect);
    b.text(sheet, Role::H1, run("Template", Bold, 18.0, 20.0, 30.0));
    b.text(sheet, Role::H2, run("Foot F2", Bold, 14.0, 20.0, 38.0));
    let figure = b.node(sheet, Role::Figure);
    b.document.tree[figure.0].alt =
        Some("Foot F2 at full size with four holes and a bar of 200\u{a0}mm".into());
    b.document.tree[figure.0].bbox = Some((1, Rect::new(5.0, 45.0, 205.0, 190.0)));
    b.content(figure, drawing());
    b.artifact(ArtifactKind::Layout, vec![line((20.0, 270.0), (200.0, 270.0), Pen::W025)]);

    let mut document = b.document;
    document.destinations = vec![
        Destination { name: "cover".into(), page: 0, y: 20.0 },
        Destination { name: "template".into(), page: 1, y: 20.0 },
    ];
    document.outline = vec![
        OutlineEntry { title: "Cover".into(), page: 0, y: 20.0, children: Vec::new() },
        OutlineEntry {
            title: "Templates \u{2192}".into(),
            page: 1,
            y: 20.0,
            children: vec![OutlineEntry {
                title: "Foot F2".into(),
                page: 1,
                y: 33.0,
                children: Vec::new(),
            }],
        },
    ];
    document.metadata = Metadata {
        number: "RS-1".into(),
        revision: "A".into(),
        date: "2025-03-01".into(),
        subject: "Fit <two> feet & a \"rail\"".into(),
        author: "N. N.".into(),
        fingerprint: "4F7K 9QRT".into(),
        keywords: vec!["roof".into()],
    };
    document.attachment = Some(Attachment {
        name: "sample.toml".into(),
        mime: "application/toml".into(),
        description: "Build file of this packet".into(),
        bytes: BUILD.as_bytes().into(),
    });
    document
}

fn table(b: &mut Builder, parent: NodeId) {
    use FaceId::{Bold, Regular};
    let table = b.node(parent, Role::Table);
    let head = b.node(table, Role::THead);
    let row = b.node(head, Role::Tr);
    let th = |scope, columns| Role::Th { scope, columns };
    b.text(row, th(Scope::Column, 1), run("Hole", Bold, 11.0, 20.0, 80.0));
    b.text(row, th(Scope::Column, 2), run("Place, mm", Bold, 11.0, 50.0, 80.0));
    let body = b.node(table, Role::TBody);
    for (number, (x, y)) in [("12.5", "30"), ("187.5", "30")].iter().enumerate() {
        let at = 86.0 + 6.0 * number as f64;
        let row = b.node(body, Role::Tr);
        let mark = format!("H{}", number + 1);
        b.text(row, th(Scope::Row, 1), run(&mark, Bold, 11.0, 20.0, at));
        b.text(row, Role::Td { columns: 1 }, run(x, Regular, 11.0, 50.0, at));
        b.text(row, Role::Td { columns: 1 }, run(y, Regular, 11.0, 80.0, at));
    }
    let row = b.node(body, Role::Tr);
    b.text(row, Role::Td { columns: 3 }, run("All from the datum.", Regular, 11.0, 20.0, 98.0));
}

/// A full-size bar, a plate with a hole (even-odd), curves, dashes, a tile's window, pixels, a white
/// letter on black.
fn drawing() -> Vec<Item> {
    let plate = Rect::new(20.0, 60.0, 80.0, 50.0);
    let mut holed = upright(plate);
    holed.extend(upright(Rect::new(40.0, 75.0, 20.0, 20.0)));
    let circle = |cx: f64, cy: f64, r: f64| {
        let k = r * 0.552_284_75;
        let p = |x: f64, y: f64| Point::new(cx + x, cy + y);
        vec![
            Segment::Move(p(r, 0.0)),
            Segment::Curve(p(r, k), p(k, r), p(0.0, r)),
            Segment::Curve(p(-k, r), p(-r, k), p(-r, 0.0)),
            Segment::Curve(p(-r, -k), p(-k, -r), p(0.0, -r)),
            Segment::Curve(p(k, -r), p(r, -k), p(r, 0.0)),
            Segment::Close,
        ]
    };
    let path =
        |segments, stroke, fill, even_odd| Item::Path(Path { segments, stroke, fill, even_odd });
    let dashed =
        Stroke { dash: vec![3.0, 1.5], cap: Cap::Round, join: Join::Round, ..stroke(Pen::W025) };
    let mut letter = run("A", FaceId::Bold, 24.0, 123.0, 79.0);
    letter.ink = Ink::White;
    vec![
        line((8.0, 50.0), (208.0, 50.0), Pen::W050),
        line((6.0, 50.0), (6.0, 200.0), Pen::W050),
        path(holed, Some(stroke(Pen::W070)), Some(Ink::Tint(10)), true),
        path(circle(150.0, 90.0, 15.0), Some(dashed), None, false),
        path(circle(150.0, 90.0, 5.0), None, Some(Ink::Black), false),
        path(upright(Rect::new(120.0, 65.0, 20.0, 20.0)), None, Some(Ink::Black), false),
        Item::Glyphs(letter),
        Item::Clipped {
            window: Rect::new(20.0, 120.0, 60.0, 40.0),
            items: vec![
                line((0.0, 110.0), (100.0, 170.0), Pen::W100),
                Item::Glyphs(run("clipped", FaceId::Regular, 11.0, 70.0, 140.0)),
            ],
        },
        Item::Image(Image {
            place: Rect::new(120.0, 120.0, 40.0, 20.0),
            columns: 4,
            rows: 2,
            format: PixelFormat::Grey8,
            pixels: vec![0, 80, 160, 240, 240, 160, 80, 0].into(),
        }),
        Item::Image(Image {
            place: Rect::new(165.0, 120.0, 10.0, 10.0),
            columns: 1,
            rows: 1,
            format: PixelFormat::Rgb8,
            pixels: vec![200, 30, 30].into(),
        }),
    ]
}

/// A long packet for speed and size: pages of text lines and vector operations.
pub fn long(pages: usize, lines: usize, vectors: usize) -> Document {
    let mut b = Builder::new("Long packet");
    for number in 0..pages {
        b.page(210.0, 297.0);
        let sect = b.node(NodeId::ROOT, Role::Sect);
        let part = ["Rail", "Foot", "Bracket", "Pad", "Cable", "Strap", "Packer"][number % 7];
        let title = format!("{part} {}", (b'A' + (number / 7) as u8) as char);
        b.text(sect, Role::H1, run(&title, FaceId::Bold, 18.0, 20.0, 34.0));
        let entry = OutlineEntry { title, page: number, y: 24.0, children: Vec::new() };
        b.document.outline.push(entry);
        for row in 0..lines {
            // A mark in letters that no other line has, so that none is taken for a running header.
            let n = number * lines + row;
            let letter = |n: usize| char::from(b'A' + (n % 26) as u8);
            let mark: String = [letter(n / 676), letter(n / 26), letter(n)].iter().collect();
            let words = format!(
                "{mark}: drill H{} to {}.6 mm, deburr both sides of {mark}, wait {row} min. ",
                row * 7 % 40,
                row % 9
            );
            let y = 42.0 + 4.0 * row as f64;
            b.text(sect, Role::P, run(&words, FaceId::Regular, 11.0, 20.0, y));
        }
        let figure = b.node(sect, Role::Figure);
        b.document.tree[figure.0].alt = Some("Lines".into());
        b.document.tree[figure.0].bbox = Some((number, Rect::new(10.0, 10.0, 190.0, 277.0)));
        let items = (0..vectors)
            .map(|v| {
                let (a, t) = (v as f64 * 0.91, (v + number) as f64);
                line((10.0 + a, 30.0 + t % 17.0), (12.0 + a, 250.0 - t % 23.0), Pen::W025)
            })
            .collect();
        b.content(figure, items);
        b.artifact(
            ArtifactKind::Pagination,
            vec![Item::Glyphs(run("RS-1 \u{b7} sheet", FaceId::Regular, 9.0, 20.0, 290.0))],
        );
    }
    b.document
}
