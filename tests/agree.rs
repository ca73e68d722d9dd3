//! The same thing has the same number wherever the packet prints it.

use super::support::{Worked, worked};
use rungsheet::build::LengthUnit;
use rungsheet::compute::restraint::BlockScrew;
use rungsheet::compute::steps::workmanship;
use rungsheet::derive::{Body, MountShape, PartKind, Screw};
use rungsheet::page::Sheet;
use rungsheet::page::block::{Block, Cell};
use rungsheet::sheets;
use rungsheet::units::{Length, display};

const EXAMPLES: [&str; 2] =
    [include_str!("../examples/field-van.toml"), include_str!("../examples/harbour-trailer.toml")];

/// Rows of all tables of the sheets whose anchor is this or begins with it, cells in words; nothing
/// for a box.
fn rows(packet: &[Sheet], anchor: &str) -> Vec<Vec<String>> {
    let of =
        |sheet: &Sheet| sheet.anchor == anchor || sheet.anchor.starts_with(&format!("{anchor}-"));
    rows_where(packet, anchor, of)
}

fn rows_where(packet: &[Sheet], name: &str, of: impl Fn(&Sheet) -> bool) -> Vec<Vec<String>> {
    fn of_blocks(blocks: &[Block], list: &mut Vec<Vec<String>>) {
        for block in blocks {
            match block {
                Block::Table(table) => list.extend(table.rows.iter().map(|row| {
                    row.cells
                        .iter()
                        .map(|cell| match cell {
                            Cell::Text(text) | Cell::Bold(text) | Cell::Head(text) => text.plain(),
                            _ => String::new(),
                        })
                        .collect()
                })),
                Block::Columns(columns) => {
                    for column in columns {
                        of_blocks(&column.blocks, list);
                    }
                }
                _ => {}
            }
        }
    }
    let mut list = Vec::new();
    packet.iter().filter(|sheet| of(sheet)).for_each(|sheet| of_blocks(&sheet.blocks, &mut list));
    assert!(!list.is_empty(), "no rows on {name}");
    list
}

fn row<'a>(rows: &'a [Vec<String>], head: &str) -> &'a [String] {
    rows.iter()
        .find(|row| {
            row.iter().take(2).find(|cell| !cell.is_empty()).is_some_and(|cell| cell == head)
        })
        .unwrap_or_else(|| panic!("no row {head} among {rows:#?}"))
}

fn value(words: &str) -> f64 {
    let digits: String = words
        .replace('\u{2212}', "-")
        .chars()
        .filter(|letter| letter.is_ascii_digit() || "-.".contains(*letter))
        .collect();
    digits.parse().unwrap_or_else(|_| panic!("{words:?} is no number"))
}

fn each(look: impl Fn(&Worked, &[Sheet])) {
    for contents in EXAMPLES {
        let made = worked(contents);
        let packet = sheets::packet(&made.basis());
        look(&made, &packet.sheets);
    }
}

/// Low and high of an action that begins so.
fn limits(made: &Worked, key: &str, begins: &str) -> Vec<(String, String)> {
    let step = made.results.steps.step(key).unwrap_or_else(|| panic!("no step {key}"));
    step.actions()
        .filter(|action| action.text.starts_with(begins))
        .filter_map(|action| action.done.as_ref())
        .map(|done| (done.low.clone(), done.high.clone()))
        .collect()
}

#[test]
fn sizes_have_the_same_limits_on_their_sheet_and_in_the_steps() {
    each(|made, packet| {
        let sheet = rows(packet, "measure");
        let panel = &made.work.arrays.first().expect("an array").panels[0].mark;
        for (step, begins, size) in [
            ("measure", "Measure the long side", format!("{panel} long side")),
            ("measure", "Measure length and width", "length".to_owned()),
            ("battery", "Mark the outline of the battery", "length".to_owned()),
        ] {
            let found = limits(made, step, begins);
            assert_eq!(found.len(), 1, "{step}: {begins}");
            let printed = row(&sheet, &size);
            let ends: Vec<f64> =
                printed[1..].iter().filter(|c| !c.is_empty()).map(|c| value(c)).collect();
            let [.., low, high] = ends[..] else { panic!("{printed:?}") };
            assert!((value(&found[0].0) - low).abs() < 0.051, "{size}: {found:?} {printed:?}");
            assert!((value(&found[0].1) - high).abs() < 0.051, "{size}: {found:?} {printed:?}");
        }
        for (name, sign) in [("left edge Y", 1.0), ("front edge X", 1.0)] {
            let keep = &made.build.roof.as_ref().expect("a roof").keep_outs[0].name.value;
            let size = made.results.steps.sizes.get(&format!("{keep} {name}")).expect("a size");
            let (_, placing) = workmanship("placing").expect("a limit");
            assert!((size.limits.high - size.planned).to_mm() * sign <= placing);
        }
    });
}

#[test]
fn limits_of_panels_are_what_the_frame_bears() {
    each(|made, _| {
        for panel in &made.work.arrays.first().expect("an array").panels {
            let size = made.results.steps.sizes.get(&format!("{} long side", panel.mark));
            let size = size.expect("a size");
            let plus = size.limits.high - size.planned;
            let kind = &made.build.panels[panel.panel];
            // A panel longer by that, pushed aside, still has its screws' holes in the flange.
            for hole in made.work.holes.iter().filter(|hole| {
                let part = &made.work.parts[hole.part];
                part.kind == PartKind::Panel && part.pieces.iter().any(|p| p.mark == panel.mark)
            }) {
                assert!(hole.edge.has - plus >= hole.edge.least, "{}", hole.id);
                let inner = *kind.flange.width - hole.edge.has;
                assert!(inner - plus >= hole.edge.least, "{}", hole.id);
            }
        }
    });
}

#[test]
fn a_foots_bolts_have_one_height_on_every_sheet() {
    each(|made, packet| {
        let roof = rows(packet, "roof");
        for mount in &made.work.mounts {
            let MountShape::BondedFoot { bolt_height, bend, .. } = &mount.kind else { continue };
            let printed: Vec<&Vec<String>> =
                roof.iter().filter(|row| row[0] == mount.mark).collect();
            let wanted = display::number(bolt_height.to_mm(), 1);
            assert!(printed.iter().any(|row| row.contains(&wanted)), "{}: {printed:?}", mount.mark);
            let figure = made.figure(&format!("mount.{}.bolt-height", mount.mark));
            assert!((figure - bolt_height.to_mm()).abs() < 1e-9);
            assert!(
                (made.figure(&format!("mount.{}.bend", mount.mark)) - bend.to_deg()).abs() < 1e-9
            );
            // The holes of its angle stand there, and the part sheet prints them.
            let holes: Vec<_> = made
                .work
                .holes
                .iter()
                .filter(|hole| {
                    let part = &made.work.parts[hole.part];
                    part.kind == PartKind::FootAngle
                        && part.faces[hole.face].name == "standing leg"
                        && (hole.at.y - *bolt_height).abs() < Length::mm(1e-6)
                })
                .collect();
            assert!(holes.len() >= 2, "{}", mount.mark);
        }
        let printed = rows_where(packet, "part sheets", |sheet| {
            sheet.tab.as_ref().is_some_and(|tab| tab.word == "Part")
        });
        for hole in &made.work.holes {
            let told = row(&printed, &hole.id);
            for at in [hole.at.x, hole.at.y] {
                let wanted = display::number(at.to_mm(), 1);
                assert!(told.contains(&wanted), "{}: {wanted} in {told:?}", hole.id);
            }
        }
    });
}

#[test]
fn bolts_and_screws_have_one_size_in_shop_and_steps() {
    each(|made, packet| {
        let shop: Vec<String> =
            rows(packet, "shopping").into_iter().map(|row| row[1].clone()).collect();
        let ready: Vec<&str> = made
            .results
            .steps
            .steps
            .iter()
            .flat_map(|step| &step.ready)
            .map(|ready| ready.what.as_str())
            .collect();
        for fastening in &made.work.fastenings {
            let (name, length) = match &fastening.screw {
                Screw::BoltInRivetNut { thread, length, .. }
                | Screw::BoltAndNut { thread, length, .. } => (&thread.name, *length),
                Screw::Tapping { screw, length } => (&screw.name, *length),
                Screw::BlindRivet { .. } | Screw::Pin { .. } => continue,
            };
            let millimetres = display::number_short(length.to_mm(), 1);
            let plain = |words: &str| words.replace('\u{a0}', " ").replace(" mm", "");
            let wanted = format!("{name} × {millimetres}");
            let has = |words: &&str| {
                let words = plain(words);
                words.contains(&format!("{wanted},")) || words.ends_with(&wanted)
            };
            assert!(shop.iter().map(String::as_str).any(|w| has(&w)), "{wanted} in {shop:?}");
            // Steps tell the bolts that are tightened; one undone in use is the tether's.
            assert!(fastening.undone || ready.iter().any(has), "{wanted} in {ready:?}");
        }
    });
}

#[test]
fn torques_in_the_steps_are_those_worked_out() {
    each(|made, _| {
        let (low, high) = workmanship("torque").expect("a limit");
        let told: Vec<(f64, f64)> = made
            .results
            .steps
            .steps
            .iter()
            .flat_map(rungsheet::compute::steps::Step::actions)
            .filter_map(|action| action.done.as_ref())
            .filter(|done| done.unit == "N·m" && done.measured())
            .map(|done| (value(&done.low), value(&done.high)))
            .collect();
        assert!(!told.is_empty());
        for (from, to) in told {
            let known = made.results.fasteners.iter().any(|found| {
                let torque = found.torque.to_nm();
                (from - torque * (1.0 - low / 100.0)).abs() < 0.051
                    && (to - torque * (1.0 + high / 100.0)).abs() < 0.051
            });
            assert!(known, "{from} to {to} N·m is no torque of {:?}", made.results.fasteners);
        }
    });
}

#[test]
fn cables_and_fuses_are_bought_as_they_are_wired() {
    each(|made, packet| {
        let shop = rows(packet, "shopping");
        let wiring = rows(packet, "wiring");
        let electrics = made.results.electrics.as_ref().expect("electrics");
        let mut metres = 0.0;
        for run in &electrics.runs {
            let conductor = run.conductor.as_ref().expect("a conductor");
            let size = display::number_short(conductor.area.to_mm2(), 2);
            for pole in ["+", "\u{2212}"] {
                let told = row(&wiring, &format!("{}{pole}", run.mark));
                assert!(told.contains(&size), "{size} in {told:?}");
                assert!(told.contains(&display::number(run.cut.all.to_mm(), 0)), "{told:?}");
                metres += run.cut.all.to_m();
            }
            for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
                let amps = display::number_short(fuse.rating.to_a(), 1);
                assert!(row(&wiring, &fuse.mark).contains(&amps));
                let bought = shop.iter().any(|line| {
                    line[1].starts_with(&format!("{}:", fuse.mark))
                        && line[1].ends_with(&format!("{amps}\u{a0}A"))
                });
                assert!(bought, "{} {amps} A", fuse.mark);
                // It protects its cable and breaks what comes.
                assert!(fuse.rating <= conductor.ampacity && fuse.breaking >= fuse.feeds);
                assert_ne!(fuse.name, "solar-10x38", "{}: no string fuse at a battery", fuse.mark);
            }
        }
        let bought: f64 = shop
            .iter()
            .filter(|line| line[1].contains("cable, "))
            .filter(|line| line[2].ends_with("\u{a0}m"))
            .map(|line| value(&line[2]))
            .sum();
        assert!((bought - metres).abs() < 0.011 * shop.len() as f64, "{bought} m, {metres} m");
        let isolator = electrics.isolator.as_ref().expect("an isolator");
        assert!(
            row(&wiring, isolator.mark).contains(&display::number_short(isolator.rating.to_a(), 1))
        );
        assert!(isolator.rating >= isolator.needs && isolator.poles == 2);
        assert!(shop.iter().any(|line| line[1].starts_with(isolator.mark)));
    });
}

#[test]
fn blocks_packers_and_their_screws_have_one_size() {
    each(|made, packet| {
        let shop: Vec<String> =
            rows(packet, "shopping").into_iter().map(|row| row[1].clone()).collect();
        for part in &made.work.parts {
            let Body::Block { height, .. } = &part.body else { continue };
            let wanted = format!("×\u{a0}{}\u{a0}mm", display::number_short(height.to_mm(), 1));
            assert!(shop.iter().any(|words| words.ends_with(&wanted)), "{wanted} in {shop:?}");
        }
        let held = made.build.restraint.as_ref().expect("a restraint");
        let Some((screw, own)) = BlockScrew::of(held).zip(held.screw.as_ref()) else { return };
        // Block and floor together are what screw and sink pass.
        let stack = *held.block_height + *held.floor_thickness;
        assert!((*own.length + screw.sink - screw.passes - stack).abs() < Length::mm(1e-9));
        assert!((made.figure("restraint.sink") - screw.sink.to_mm()).abs() < 1e-9);
        let sunk = limits(made, "battery", "Drill the top of each block");
        assert_eq!(sunk.len(), 1);
        assert!((value(&sunk[0].0) - screw.sink.to_mm()).abs() < 0.051, "{sunk:?}");
    });
}

#[test]
fn masses_add_up_wherever_they_stand() {
    each(|made, packet| {
        let weights = &made.results.weights;
        let roof: f64 =
            weights.lines.iter().filter(|line| line.on_roof).map(|line| line.all.to_kg()).sum();
        assert!((roof - weights.roof.to_kg()).abs() < 1e-6, "{roof}");
        // Loads are those of the same parts; what is laid and screwed on the roof is left out there.
        let parts: f64 = weights
            .lines
            .iter()
            .filter(|line| line.on_roof && line.count.is_some())
            .map(|line| line.all.to_kg())
            .sum();
        let carried = format!("{}\u{a0}kg of parts carried", display::number(parts, 1));
        let told = packet.iter().flat_map(|sheet| &sheet.blocks).any(|block| match block {
            Block::Heading(heading) => {
                format!("{heading:?}").replace("\\u{a0}", "\u{a0}").contains(&carried)
            }
            _ => false,
        });
        assert!(told, "{carried}");
    });
}

/// Every default that reading fills in is printed with its ground, or decides nothing.
#[test]
fn no_default_is_taken_in_silence() {
    /// Grounds of names, marks, counts of one and what no part of a build uses.
    const DECIDES_NOTHING: [&str; 11] = [
        "where no mark is stated",
        "where no name is stated",
        "no name stated",
        "no label stated",
        "nobody is named",
        "number 1 where none",
        "first revision",
        "ISO 4217",
        "not used",
        "where no count is stated",
        "English where no language is stated",
    ];
    each(|made, packet| {
        let printed = rows(packet, "worked-out");
        let debug = format!("{:?}", made.build);
        // One panel alone is joined to nothing, no sheet is cut, no inch is printed.
        let build = &made.build;
        let alone = build.panels.iter().map(|panel| *panel.count).sum::<u32>() < 2;
        let no_sheets = build.sheets.is_empty() && build.sheet_leftovers.is_empty();
        let metric = *build.job.units == LengthUnit::Millimetre;
        let unused = [
            (alone, "shade on one panel leaves the others"),
            (no_sheets, "the same saw as for bars"),
            (no_sheets, "edges of a bought sheet are used as they are"),
            (metric, "as a steel rule is divided"),
        ];
        let mut found = 0;
        for piece in debug.split("Default(\"").skip(1) {
            let ground = &piece[..piece.find("\")").expect("a closed text")];
            if DECIDES_NOTHING.iter().any(|words| ground.contains(words)) {
                continue;
            }
            if unused.iter().any(|(so, words)| *so && ground.contains(words)) {
                continue;
            }
            found += 1;
            assert!(
                printed.iter().any(|row| row.iter().any(|cell| cell == ground)),
                "no sheet tells: {ground}"
            );
        }
        assert!(found >= 3, "the examples leave things open");
    });
}
