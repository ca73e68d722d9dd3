//! A packet of six kinds of sheet with invented figures, as a caller would write it.

use rungsheet::page::block::{
    Action, ActionRow, Actions, Blank, BlankWidth, Block, Cell, Column, DoneWhen, Dotted, Figure,
    Heading, Hold, Index, IndexEntry, KeyFigure, Lead, Mode, Row, Safety, SignalWord, Table,
    TableColumn,
};
use rungsheet::page::model::Pen;
use rungsheet::page::scene::{
    Fill, Lettering, Line, LineKind, Place, Scale, Scene, Side, Size, Style,
};
use rungsheet::page::text::{Text, thousands};
use rungsheet::page::{Identity, JobStrip, Packet, Paper, Sheet, StripMark, Tab};

fn steps(here: usize) -> JobStrip {
    use StripMark::{Step, Wait};
    let mut marks = vec![Step; 8];
    marks.push(Wait);
    marks.extend([Step, Step, Wait, Step, Step, Step, Step]);
    JobStrip { marks, here: Some(here) }
}

fn sheet(
    anchor: &str,
    title: &str,
    purpose: &str,
    tab: (&str, usize),
    blocks: Vec<Block>,
) -> Sheet {
    Sheet {
        anchor: anchor.into(),
        title: title.into(),
        purpose: purpose.into(),
        tab: Some(Tab::new(tab.0, tab.1, 10)),
        steps: None,
        blocks,
        single_sided: false,
    }
}

fn roof_plan() -> Scene {
    let mut s = Scene::new("roof plan with three panels, three feet, four hinges and a vent");
    s.rounded((0.0, 0.0), (3200.0, 1560.0), 120.0, Line::THIN);
    s.line(&[(-100.0, 780.0), (560.0, 780.0)], Line::CENTRE);
    s.line(&[(2520.0, 780.0), (3280.0, 780.0)], Line::CENTRE);
    for (i, name) in ["P1", "P2", "P3"].iter().enumerate() {
        let x = 820.0 + 547.0 * i as f64;
        s.rectangle((x, 260.0), (547.0, 1040.0), Line::HEAVY);
        s.name((x + 273.0, 780.0), *name);
    }
    for (i, name) in ["F1", "F2", "F3"].iter().enumerate() {
        let x = 930.0 + 620.0 * i as f64;
        s.filled_rectangle((x, 1255.0), (180.0, 90.0), Fill::White, Some(Line::VISIBLE));
        s.label_on((x + 90.0, 1345.0), Side::Above, *name);
    }
    for (i, name) in ["G1", "G2", "G3", "G4"].iter().enumerate() {
        let x = 870.0 + 490.0 * i as f64;
        s.filled_rectangle((x, 215.0), (70.0, 70.0), Fill::Black, None);
        s.label_on((x + 35.0, 215.0), Side::Below, *name);
    }
    s.line(&[(720.0, 215.0), (2560.0, 215.0)], Line::VISIBLE);
    s.label((2560.0, 215.0), "roof rail");
    s.filled_rectangle((2640.0, 580.0), (400.0, 400.0), Fill::HATCH, Some(Line::THIN));
    s.label_on((2840.0, 980.0), Side::Above, "vent");
    s.hole((2540.0, 480.0), 60.0, "E1");
    s.circle((250.0, 780.0), 28.0, Line::THIN);
    s.label_on((250.0, 750.0), Side::Below, "aerial");
    s.front((440.0, 1180.0), 180.0);
    s.words((2950.0, 1430.0), "off side", Place::Centre, Style::PLAIN);
    s.words((330.0, 130.0), "near side", Place::Centre, Style::PLAIN);
    s.running(
        Side::Above,
        (0.0, 1560.0),
        &[((820.0, 1300.0), "820".into()), ((2460.0, 1300.0), thousands("2460"))],
    );
    s.aligned((820.0, 260.0), (820.0, 1300.0), 6.0, thousands("1040"));
    s.view("from above, front at left");
    s
}

pub fn cover() -> Sheet {
    let mut findings = Table {
        columns: vec![
            TableColumn::left("code"),
            TableColumn::left("severity"),
            TableColumn::left("finding"),
            TableColumn::right("sheet"),
        ],
        ..Table::default()
    };
    for (code, severity, words) in [
        ("B17", "caution", "Only tape and bead hold the off side; tether: step 9."),
        ("W13", "caution", "Sun from 16:00: wind 9 m/s, limit for roof work 8 m/s."),
        ("R12", "note", "Lengthwise gap not measured; roof taken as level there."),
    ] {
        findings.rows.push(Row::new(vec![
            Cell::Head(code.into()),
            severity.into(),
            words.into(),
            Text::new().and_page("step-8").into(),
        ]));
    }
    let index = Index {
        columns: 3,
        entries: vec![
            IndexEntry::new("Cut the bars", "cut"),
            IndexEntry::new("Foot plate", "part"),
            IndexEntry::new("Foot plate template", "template"),
            IndexEntry::new("Timeline", "time"),
            IndexEntry { label: "Steps".into(), anchors: vec!["step-8".into(), "worked".into()] },
            IndexEntry::new("Worked out", "worked"),
        ],
    };
    let blocks = vec![
        Block::KeyFigures(vec![
            KeyFigure::new(format!("{} mm", thousands("2670")), "height now; was 2 610 mm"),
            KeyFigure::new("27.0 kg", "added; the roof carries 100 kg"),
            KeyFigure::new("2 days", "two people, Sat and Sun"),
            KeyFigure::new("Mon 14:00", "not driven before, 19 April"),
            KeyFigure::new("0.62", "highest use of capacity: F1"),
            KeyFigure::new("EUR 512", "to buy; bars 69.90"),
        ]),
        Block::Heading(Heading::new("Roof plan")),
        Block::Figure(Figure::new(roof_plan(), 118.0)),
        Block::Heading(Heading::new("Open findings: 0 stop, 2 caution, 1 note")),
        Block::Table(findings),
        Block::Heading(Heading::new("Sheets")),
        Block::Index(index),
        Block::Heading(Heading::new("Sign-off")),
        Block::Blanks(vec![
            Blank::of(BlankWidth::Long, "planned: name, date").high(14.0),
            Blank::of(BlankWidth::Long, "checked: name, date").high(14.0),
            Blank::of(BlankWidth::Long, "accepted: name, date").high(14.0),
        ]),
    ];
    sheet(
        "cover",
        "Field van solar roof",
        "Three panels on a hinged frame: what it takes and what is open.",
        ("Cover", 0),
        blocks,
    )
}

fn bar(pieces: &[(&str, f64)]) -> Scene {
    let mut s = Scene::at_scale("bar with its pieces", Scale::new(1, 20));
    let mut at = 5.0;
    let mut marks = Vec::new();
    s.rectangle((0.0, 0.0), (5.0, 180.0), Line::VISIBLE);
    for (name, length) in pieces {
        s.rectangle((at, 0.0), (*length, 180.0), Line::VISIBLE);
        s.words(
            (at + length / 2.0, 90.0),
            format!("{name}  {length}"),
            Place::Centre,
            Style::PLAIN,
        );
        at += length;
        marks.push(((at, 180.0), thousands(&format!("{at:.1}"))));
        at += 1.2;
    }
    s.outline(
        &[(at, 0.0), (3000.0, 0.0), (3000.0, 180.0), (at, 180.0)],
        Line::new(Pen::W025, LineKind::Dashed),
    );
    if at < 2700.0 {
        s.name((f64::midpoint(at, 3000.0), 90.0), "K1");
    }
    s.running(Side::Above, (0.0, 180.0), &marks);
    s
}

pub fn cut() -> Sheet {
    let mut table = Table {
        columns: vec![
            TableColumn::number("bar"),
            TableColumn::left("mark"),
            TableColumn::left("name"),
            TableColumn::number("mark at, mm"),
            TableColumn::number("length, mm"),
            TableColumn::number("low, mm"),
            TableColumn::number("high, mm"),
            TableColumn::centre("cut"),
        ],
        ..Table::default()
    };
    let rows = [
        ("1", "L1", "side tube", "1645.0", "1640"),
        ("1", "C1", "cross tube", "2636.2", "990"),
        ("2", "L2", "side tube", "1645.0", "1640"),
        ("2", "C2", "cross tube", "2636.2", "990"),
        ("3", "C3", "cross tube", "995.0", "990"),
        ("3", "C4", "cross tube", "1986.2", "990"),
        ("3", "R1", "prop", "2467.4", "480"),
        ("3", "R2", "prop", "2948.6", "480"),
    ];
    for (i, (bar, mark, name, at, length)) in rows.iter().enumerate() {
        let mut row = Row::new(vec![
            (*bar).into(),
            Cell::Head((*mark).into()),
            (*name).into(),
            thousands(at).into(),
            thousands(length).into(),
            Cell::Bold(thousands("988").into()),
            Cell::Bold("991.5".into()),
            Cell::Tick,
        ]);
        row.ends_group = i % 2 == 1;
        table.rows.push(row);
    }
    let mut blocks = vec![Block::Lead(Lead {
        words: "Cut 5 bars".into(),
        notes: vec![
            "Zero (circle): the left end of each bar, as bought.".into(),
            "Marks run from zero. Kerf 1.2 mm lies right of the mark.".into(),
            "First 5 mm is trim. All cuts square, 90°.".into(),
        ],
    })];
    for (name, pieces) in [
        ("bar 1", vec![("L1", 1640.0), ("C1", 990.0)]),
        ("bar 2", vec![("C3", 990.0), ("C4", 990.0), ("R1", 480.0), ("R2", 480.0)]),
    ] {
        let what = format!("tube 25 × 25 × 2, aluminium, {} mm", thousands("3000"));
        blocks.push(Block::Heading(Heading::new(name).aside(what)));
        blocks.push(Block::Figure(Figure::new(bar(&pieces), 40.0).at_left()));
    }
    blocks.push(Block::Heading(
        Heading::new("The table wins over the picture.")
            .aside("limits: ISO 2768-1 class c; bold: tighter"),
    ));
    blocks.push(Block::Table(table));
    blocks.push(Block::Strong(
        Text::from("List complete. Next: sheet ").and_page("part").and(", Foot plate."),
    ));
    Sheet {
        steps: Some(steps(1)),
        ..sheet(
            "cut",
            "Cut the bars",
            "Every piece, where its cut falls, and what is left over.",
            ("Cut", 2),
            blocks,
        )
    }
}

pub fn clamp() -> Scene {
    let mut s = Scene::small("clamped and drilled through");
    let line = Line::new(Pen::W050, LineKind::Continuous);
    s.line(&[(3.6, 3.2), (3.6, 4.4), (0.0, 4.4), (0.0, 0.6), (1.6, 0.6)], line);
    s.line(&[(1.6, 3.2), (3.6, 3.2)], line);
    s.line(&[(2.6, 0.0), (2.6, 3.2)], line);
    s.line(&[(1.8, 0.0), (3.6, 0.0)], line);
    s
}

pub fn part() -> Sheet {
    let mut plate = Scene::new("foot plate from above with four holes");
    plate.rectangle((0.0, 0.0), (180.0, 90.0), Line::VISIBLE);
    for (x, y, id) in
        [(30.0, 62.0, "H21"), (150.0, 62.0, "H22"), (30.0, 75.0, "H23"), (150.0, 75.0, "H24")]
    {
        plate.sunk_hole((x, y), 5.5, 10.4, true, id);
    }
    plate.datum((0.0, 0.0), "zero");
    plate.dimension(Side::Below, (0.0, 0.0), (180.0, 0.0), "180");
    plate.dimension(Side::Right, (180.0, 0.0), (180.0, 90.0), "90");
    plate.dimension(Side::Below, (30.0, 62.0), (150.0, 62.0), "(120)");
    plate.diameter((150.0, 62.0), 10.4, -40.0, "⌀10.4");
    plate.view("from above, front at left");
    plate.first_angle();

    let mut angle = Scene::at_scale("foot angle from the rear", Scale::FULL);
    angle.area(
        &[vec![(0.0, 0.0), (40.0, 0.0), (40.0, 3.0), (3.0, 3.0), (-1.0, 40.0), (-4.0, 40.0)]],
        Some(Fill::HATCH),
        Some(Line::VISIBLE),
    );
    angle.angle((0.0, 0.0), 0.0, 96.0, 28.0, "95° to 97°");
    angle.line(&[(0.0, -4.0), (0.0, 46.0)], Line::CENTRE);
    angle.radius((6.0, 6.0), 3.0, 225.0, "R3");
    angle.view("from the rear");

    let mut table = Table {
        columns: vec![
            TableColumn::left("id"),
            TableColumn::number("X, mm"),
            TableColumn::number("Y, mm"),
            TableColumn::left("bits, mm"),
            TableColumn::left("countersink"),
            TableColumn::centre(""),
            TableColumn::left("drilled"),
            TableColumn::left("mates"),
            TableColumn::right("done"),
        ],
        ..Table::default()
    };
    for (i, id) in ["H21", "H22", "H23", "H24", "H31", "H32"].iter().enumerate() {
        table.rows.push(Row {
            cells: vec![
                Cell::Head((*id).into()),
                if i % 2 == 0 { "30" } else { "150.5" }.into(),
                "62".into(),
                "3, 5.5".into(),
                if i < 4 { "10.4, below".into() } else { Cell::Dash },
                if i < 4 { Cell::Text(Text::new()) } else { Cell::Scene(clamp()) },
                if i < 4 { "from above" } else { "through H21" }.into(),
                "H31".into(),
                Cell::Tick,
            ],
            ends_group: i == 3,
        });
    }
    let blocks = vec![
        Block::Heading(
            Heading::new("Foot plate").aside("3 pieces, steel 90 × 3 from bar 5, 0.38 kg each"),
        ),
        Block::Columns(vec![
            Column::new(4, vec![Block::Figure(Figure::new(plate, 85.0))]),
            Column::new(2, vec![Block::Figure(Figure::new(angle, 85.0))]),
        ]),
        Block::Table(table),
        Block::Columns(vec![
            Column::new(
                2,
                vec![
                    Block::Strong("Diagonals".into()),
                    Block::Paragraph("both ways, 119.5 mm to 121.9 mm".into()),
                ],
            ),
            Column::new(
                4,
                vec![Block::Blanks(vec![Blank::value("B1", "mm"), Blank::value("B2", "mm")])],
            ),
        ]),
        Block::Strong(
            Text::from("List complete. Next: sheet ")
                .and_page("template")
                .and(", Foot plate template."),
        ),
    ];
    Sheet {
        steps: Some(steps(2)),
        ..sheet(
            "part",
            "Foot plate and angle",
            "Three of each: plates B1 to B3.",
            ("Part", 3),
            blocks,
        )
    }
}

pub fn template() -> Sheet {
    let mut s = Scene::at_scale("foot plate at full size with check bars", Scale::FULL);
    s.lettering = Lettering::Large;
    for (x, y, id) in
        [(62.0, 150.0, "H21"), (62.0, 30.0, "H22"), (75.0, 150.0, "H23"), (75.0, 30.0, "H24")]
    {
        s.hole_mark((x + 16.0, y), 5.5);
        s.circle((x + 16.0, y), 5.2, Line::HIDDEN);
        s.words((x + 16.0, y + 7.0), id, Place::Beside(Side::Above), Style::BOLD);
    }
    s.rectangle((16.0, 0.0), (90.0, 180.0), Line::VISIBLE);
    s.datum((16.0, 180.0), "zero");
    s.words((34.0, 90.0), "Foot plate B1 B2 B3", Place::Centre, Style::BOLD.up().sized(Size::Name));
    s.words(
        (48.0, 90.0),
        "FV-0417  Field van solar roof  rev B  4K7M 9RTX",
        Place::Centre,
        Style::PLAIN.up().sized(Size::Identity),
    );
    s.front((28.0, 160.0), 90.0);
    let mut up = vec![(0.0, -20.0)];
    up.push((0.0, 180.0));
    s.line(&up, Line::THIN);
    s.line(&[(0.0, -20.0), (100.0, -20.0)], Line::THIN);
    for i in 0..=20 {
        let y = -20.0 + f64::from(i) * 10.0;
        let long = if i % 20 == 0 { 5.0 } else { 3.0 };
        s.line(&[(-long, y), (0.0, y)], Line::THIN);
    }
    for i in 0..=10 {
        let x = f64::from(i) * 10.0;
        let long = if i % 10 == 0 { 5.0 } else { 3.0 };
        s.line(&[(x, -20.0), (x, -20.0 - long)], Line::THIN);
    }
    s.words((4.0, 80.0), "200 mm", Place::Centre, Style::PLAIN.up());
    s.words((50.0, -16.0), "100 mm", Place::Centre, Style::PLAIN);
    let blanks = |label: &str, limits: &str| {
        Block::Blanks(vec![Blank::value(format!("{label}, {limits} mm"), "mm")])
    };
    let blocks = vec![
        Block::Strong("Actual size, 100 %, no fit to page. The table wins.".into()),
        Block::Columns(vec![
            Column::new(4, vec![Block::Figure(Figure::new(s, 225.0).at_left())]),
            Column::new(
                2,
                vec![
                    Block::Heading(Heading::new("Bars as printed")),
                    blanks("long bar", "199.5 to 200.5"),
                    blanks("short bar", "99.5 to 100.5"),
                    Block::Paragraph("Outside the limits: reprint at 100 %.".into()),
                ],
            ),
        ]),
    ];
    Sheet {
        steps: Some(steps(2)),
        single_sided: true,
        ..sheet(
            "template",
            "Foot plate template",
            "Outline and punch points at full size.",
            ("Template", 4),
            blocks,
        )
    }
}

fn section() -> Scene {
    let mut s =
        Scene::new("section of a foot: angle on plate, strips and bead between plate and roof");
    s.filled_rectangle((0.0, 3.0), (90.0, 3.0), Fill::White, Some(Line::HEAVY));
    s.filled_rectangle((0.0, 0.0), (25.0, 3.0), Fill::HATCH, Some(Line::VISIBLE));
    s.filled_rectangle((65.0, 0.0), (25.0, 3.0), Fill::HATCH, Some(Line::VISIBLE));
    s.filled_rectangle((35.0, 0.0), (20.0, 3.0), Fill::Black, None);
    s.line(&[(-10.0, 0.0), (100.0, 0.0)], Line::THIN);
    s.line(&[(-10.0, -1.0), (100.0, -1.0)], Line::THIN);
    s.area(
        &[vec![(45.0, 6.0), (85.0, 6.0), (85.0, 9.0), (48.0, 9.0), (48.0, 24.0), (45.0, 24.0)]],
        Some(Fill::White),
        Some(Line::VISIBLE),
    );
    s.push_arrow((20.0, 19.0), (20.0, 8.0));
    s.push_arrow((72.0, 22.0), (72.0, 11.0));
    s.leader((12.0, 1.5), "strip");
    s.leader((45.0, 1.5), "bead");
    s.leader((30.0, 1.5), "air 10");
    s.words((18.0, 15.0), "press", Place::Beside(Side::Left), Style::PLAIN);
    s.view("section, from the rear");
    s
}

pub fn step() -> Sheet {
    let ready = |rows: &[(&str, &str)]| {
        rows.iter().map(|(a, b)| (Text::from(*a), Text::from(*b))).collect::<Vec<_>>()
    };
    let mut exploded = Scene::not_to_scale("the parts of a foot one above the other");
    let oblique = |x: f64, y: f64, z: f64| (x + 0.5 * y, 0.35 * y + z - 0.12 * x);
    for (z, pen) in [(0.0, Line::THIN), (30.0, Line::VISIBLE), (60.0, Line::HEAVY)] {
        let ring: Vec<_> = [(0.0, 0.0), (180.0, 0.0), (180.0, 90.0), (0.0, 90.0)]
            .iter()
            .map(|(x, y)| oblique(*x, *y, z))
            .collect();
        let fill = if z == 30.0 { Fill::HATCH } else { Fill::White };
        s_area(&mut exploded, ring, fill, pen);
    }
    exploded.leader(oblique(170.0, 80.0, 60.0), "foot F2");
    exploded.leader(oblique(170.0, 80.0, 30.0), "strip");
    exploded.leader(oblique(10.0, 10.0, 0.0), "marks");
    exploded.front((150.0, -40.0), 8.0);
    exploded.view("from the off side");

    let rows = vec![
        ActionRow::Action(Action::new(
            "41",
            "Peel the liner off both strips.",
            DoneWhen::State("no liner left".into()),
        )),
        ActionRow::Safety(Safety {
            word: SignalWord::Caution,
            hazard: "Wet adhesive irritates skin and eyes.".into(),
            avoid: "Wear nitrile gloves and eye protection.".into(),
            symbol: None,
        }),
        ActionRow::Action(Action::new(
            "42",
            "Lay one bead midway, 10 mm short of both ends.",
            DoneWhen::limits("bead height", "8", "10", "mm"),
        )),
        ActionRow::Action(Action::new(
            "43",
            "Set the foot on its marks, inboard edge first.",
            DoneWhen::limits("time since the bead", "0", "10", "min"),
        )),
        ActionRow::Action(Action::new(
            "44",
            "Press the block along each strip for 60 s.",
            DoneWhen::limits("gap at the four corners", "1.9", "2.4", "mm"),
        )),
        ActionRow::Action(
            Action::new(
                "45",
                "Wait 17 h at 10 °C before any load (other air: table, column A).",
                DoneWhen::Blank(Blank::of(BlankWidth::Short, "not before")),
            )
            .once(),
        ),
    ];
    let mut cure = Table {
        columns: ["air, °C", "A, tape 75 %, h", "B, tape 85 %, h", "40 %", "60 %", "80 %"]
            .iter()
            .map(|h| TableColumn::number(*h))
            .collect(),
        over: vec![(Text::new(), 3), ("C, bead 3 mm deep, h".into(), 3)],
        rows: Vec::new(),
    };
    for row in [
        ["5", "31", "89", "97", "65", "49"],
        ["10", "17", "49", "69", "46", "35"],
        ["15", "10", "28", "50", "33", "25"],
        ["20", "6", "16", "37", "25", "19"],
    ] {
        cure.rows.push(Row::new(row.iter().map(|c| Cell::from(*c)).collect()));
    }
    let blocks = vec![
        Block::Columns(vec![
            Column::new(
                2,
                vec![
                    Block::Heading(Heading::new("Have ready")),
                    Block::Dotted(Dotted {
                        groups: vec![
                            ready(&[
                                ("people", "2"),
                                ("time for this sheet", "35 min"),
                                ("weather", "dry, wind to 8 m/s"),
                            ]),
                            ready(&[
                                ("feet F1, F2, F3", "primed"),
                                ("adhesive", "1 cartridge"),
                                ("gloves, nitrile", "4 pairs"),
                                ("wipes, dry", "6"),
                            ]),
                            ready(&[
                                ("gun, notched nozzle", "9 mm"),
                                ("wood block", "180 × 40 mm"),
                                ("feeler gauge", "1 mm to 3 mm"),
                                ("skin thermometer", "1"),
                            ]),
                        ],
                    }),
                ],
            ),
            Column::new(
                4,
                vec![
                    Block::Figure(Figure::new(exploded, 48.0)),
                    Block::Figure(Figure::new(section(), 48.0)),
                ],
            ),
        ]),
        Block::Hold(Hold {
            title: "Hold before 41".into(),
            condition: "roof dry; skin 8 °C to 35 °C, 3 °C or more over dew point".into(),
            blanks: vec![Blank::value("roof skin", "°C"), Blank::value("dew point", "°C")],
        }),
        Block::Actions(Actions {
            mode: Mode::ReadDo,
            note: "41 to 44 on one foot, then the next".into(),
            boxes: vec!["F1".into(), "F2".into(), "F3".into()],
            rows,
        }),
        Block::Table(cure),
        Block::Strong(
            Text::from("List complete. Next: sheet ")
                .and_page("worked")
                .and(", Worked out, after 45."),
        ),
    ];
    Sheet {
        steps: Some(steps(7)),
        ..sheet(
            "step-8",
            "Set the bonded feet",
            "Feet F1, F2 and F3 go onto their marks, one at a time.",
            ("Step", 7),
            blocks,
        )
    }
}

fn s_area(scene: &mut Scene, ring: Vec<(f64, f64)>, fill: Fill, line: Line) {
    scene.area(&[ring], Some(fill), Some(line));
}

fn day() -> Scene {
    let mut s = Scene::not_to_scale("one day of the plan: people and cures by the hour");
    s.lettering = Lettering::Small;
    for hour in 8..=18 {
        let x = f64::from(hour - 8) * 13.0;
        s.line(&[(x, 0.0), (x, 46.0)], Line::RASTER);
        s.words((x, 46.0), hour.to_string(), Place::Beside(Side::Above), Style::PLAIN);
    }
    s.filled_rectangle((130.0, 0.0), (16.0, 46.0), Fill::Tint(10), None);
    for (from, to, row, name) in [
        (8.0, 8.8, 0.0, "1"),
        (8.8, 10.2, 0.0, "2 Cut"),
        (10.2, 12.0, 0.0, "3 Drill"),
        (8.8, 10.2, 1.0, "5 Hinges"),
    ] {
        let x = (from - 8.0) * 13.0;
        let corner = (x, 32.0 - row * 11.0);
        s.filled_rectangle(corner, ((to - from) * 13.0, 10.0), Fill::White, Some(Line::HEAVY));
        s.words((x + (to - from) * 6.5, corner.1 + 5.0), name, Place::Centre, Style::PLAIN);
    }
    s.filled_rectangle((60.0, 8.0), (86.0, 7.0), Fill::White, Some(Line::HEAVY));
    s.words((62.0, 11.5), "F1 to F3, 85 % at Mon 14:00", Place::Beside(Side::Right), Style::PLAIN);
    s
}

pub fn timeline() -> Sheet {
    let mut table = Table {
        columns: vec![
            TableColumn::left("Not before"),
            TableColumn::left("by forecast"),
            TableColumn::left("when"),
            TableColumn::left("real clock"),
        ],
        ..Table::default()
    };
    for (what, when, why) in [
        ("Frame on the feet (step 9)", "Sun 10:00", "tape at 75 %"),
        ("Rain on the cable entry", "Sun 05:00", "sealant 2 mm"),
        ("Driving", "Mon 14:00", "tape at 85 %"),
    ] {
        table.rows.push(
            Row::new(vec![
                what.into(),
                Cell::Bold(when.into()),
                why.into(),
                Cell::Blank(String::new()),
            ])
            .ends_group(),
        );
    }
    let blocks = vec![
        Block::Lead(Lead {
            words: "Do not drive before Mon 14:00".into(),
            notes: vec![
                "19 April 2027, by the forecast of 12 April: tape at 85 %, bead 3 mm deep.".into(),
            ],
        }),
        Block::Heading(Heading::new("Sat 17").anchor("saturday")),
        Block::Figure(Figure::new(day(), 70.0)),
        Block::Table(table),
        Block::Paragraph(
            "Heavy: the deciding chain. An hour lost there moves the drive clock by 1 h.".into(),
        ),
    ];
    sheet(
        "time",
        "Timeline",
        "Two people, Saturday to Monday, cures through the nights.",
        ("Timeline", 6),
        blocks,
    )
}

pub fn worked() -> Sheet {
    let words = "Dynamic pressure follows from air density and speed: q = ½ ρ v², with ρ = 1.25 kg/m³ and \
        v = 36.1 m/s. The uplift coefficient is taken from EN 1991-1-4, table 7.6; σ and τ in the bond are \
        compared with design values for the class of adhesive, short-term and sustained. ";
    let mut blocks = Vec::new();
    for i in 1..=9 {
        blocks.push(Block::Heading(
            Heading::new(format!("Figure {i}: uplift at the feet")).anchor(format!("f{i}")),
        ));
        blocks.push(Block::Paragraph(words.repeat(2).into()));
        blocks.push(Block::Bullets(vec![
            "Δt = 40 K between frame and roof, α = 23 × 10⁻⁶".into(),
            Text::from("see the timeline, ").and_link("Saturday", "saturday"),
        ]));
    }
    for (word, hazard) in [
        (SignalWord::Notice, "Solvent dulls the paint."),
        (SignalWord::Warning, "The array can lift at speed and strike people behind."),
        (SignalWord::Danger, "Battery terminals carry 400 A in a short."),
    ] {
        blocks.push(Block::Safety(Safety {
            word,
            hazard: hazard.into(),
            avoid: "Keep tools away until the covers are on.".into(),
            symbol: None,
        }));
    }
    sheet("worked", "Worked out", "Where each deciding figure comes from.", ("Worked", 8), blocks)
}

/// The sample packet.
pub fn packet() -> Packet {
    Packet {
        paper: Paper::A4,
        identity: Identity {
            number: "FV-0417".into(),
            title: "Field van solar roof".into(),
            revision: "B".into(),
            date: "2027-04-12".into(),
            fingerprint: "4K7M 9RTX".into(),
        },
        subject: "Work package for a roof array".into(),
        author: "sample".into(),
        language: "en".into(),
        voice: rungsheet::page::Voice::default(),
        sheets: vec![cover(), cut(), part(), template(), timeline(), step(), worked()],
        duplex: false,
        draft: None,
        attachment: None,
    }
}
