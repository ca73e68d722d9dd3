//! Builds and their steps.

use rungsheet::build::Build;
use rungsheet::compute::steps::template::Templates;
use rungsheet::compute::steps::{Steps, steps};
use rungsheet::derive::{Work, derive};
use rungsheet::source::{Figure, Finding, Ledger, Text};
use rungsheet::tables::Tables;
use std::path::Path;

/// A build with its work and steps.
pub struct Made {
    /// Name of the build.
    pub name: String,
    pub build: Build,
    pub work: Work,
    pub steps: Steps,
    pub ledger: Ledger,
    pub findings: Vec<Finding>,
}

/// The steps of a build file's text.
pub fn make(name: &str, contents: &str) -> Made {
    make_with(name, contents, &[])
}

/// The same with figures that other chapters would have worked out.
pub fn make_with(name: &str, contents: &str, figures: &[(&str, f64, &'static str)]) -> Made {
    let tables = Tables::builtin();
    let text = Text::new(name, contents);
    let (build, found) = rungsheet::read::read(&text, tables);
    let build = build.unwrap_or_else(|| panic!("{name} cannot be read: {found:#?}"));
    let (work, _) = derive(&build);
    let mut ledger = work.ledger.clone();
    for (id, value, unit) in figures {
        ledger.push(Figure::new(*id, *id, *value, unit));
    }
    let mut findings = Vec::new();
    let steps = steps(&build, &work, tables, Templates::builtin(), &mut ledger, &mut findings);
    Made { name: name.to_owned(), build, work, steps, ledger, findings }
}

/// Text of a file under `examples`.
pub fn example(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The examples, and builds that lack what they have.
pub fn all() -> Vec<Made> {
    let examples = [
        "field-van.toml",
        "harbour-trailer.toml",
        "rescue-minibus.toml",
        "forest-pod.toml",
        "canal-tender.toml",
        "roof-fan.toml",
        "wheel-carrier.toml",
    ];
    let mut all: Vec<Made> = examples.iter().map(|name| make(name, &example(name))).collect();
    all.push(make("minibus on wedges", &wedged()));
    all.push(make("van on wedges, bent and latched", &bent()));
    all.push(make("parts-only", PARTS));
    let lead = "[[part]]\nmark = \"E\"\nname = \"lead\"\nstuff = \"earth cable\"\nlength = 490\n\
                [[stock]]\nstuff = \"earth cable\"\nlength = 10000\n";
    let head = "format = 1\n[job]\ntitle = \"Leads\"\ndate = \"2026-05-09\"\n";
    all.push(make("leads alone, nothing to measure", &format!("{head}{lead}")));
    all.push(make("minibus with clamps, fibre skin", &clamped()));
    all.push(make("van without electrics", &without(&example("field-van.toml"), ELECTRIC)));
    all.push(make("van without entry", &without(&example("field-van.toml"), &["entry"])));
    all.push(make("van, adhesive that sensitises", &isocyanate()));
    let bare = example("field-van.toml")
        .replace("finish = \"paint\"", "finish = \"bare\"")
        .replace("sealing = \"polyurethane-sealant\"", "sealing = \"hybrid-sealant\"");
    all.push(make("van, bare steel, no isocyanate", &bare));
    all.push(make("van, mitred, screwed corners", &cornered("mitre", "screw = \"ST4.8\"")));
    all.push(make("van, butted, riveted corners", &cornered("butt", RIVETED)));
    all.push(make("van, welded corners", &cornered("mitre", "join = \"weld\"")));
    all.push(make("van, charger of two sources", &two_sources()));
    let tender = example("canal-tender.toml");
    let anchor = tender.lines().find(|line| line.starts_with("anchor")).expect("an anchor");
    let screwed = "anchor = { screw = { diameter = 6, length = 25 } }";
    all.push(make("tender, strap ends on screws", &tender.replace(anchor, screwed)));
    let bolted =
        tender.replace("screw = { diameter = 5, length = 60 }", "bolt = { thread = \"M6\" }");
    all.push(make("tender, blocks bolted", &bolted));
    let fan = example("roof-fan.toml")
        .replace(
            "steel-dc01\", thickness = \"0.9 mm\", finish = \"paint",
            "gfrp-laminate\", thickness = \"4 mm\", finish = \"gelcoat",
        )
        .replace("hybrid-sealant", "polyurethane-sealant");
    assert!(fan.contains("gfrp-laminate"));
    all.push(make("fan in a fibre roof", &fan));
    all.push(make("disc", &PARTS.replace("hacksaw", "angle-grinder")));
    all
}

/// The van with a charger from its own battery, minus on the body, panels whose label asks for fuses.
pub fn two_sources() -> String {
    let supply = "[supply]\nvoltage = \"12 V\"\n\n[earth]\nbond = \"chassis\"\nlength = 500\n\n\
                  [[circuit]]\nname = \"starter battery to charger\"\nfrom = \"supply\"\n\
                  to = \"controller\"\nlength = 3500\n";
    example("field-van.toml")
        .replace("kind = \"solar\"", "kind = \"dc-dc\"")
        .replace("voc-drift =", "max-fuse = \"10 A\"\nvoc-drift =")
        + supply
}

const RIVETED: &str = "rivet = \"blind-rivet-4.8-aluminium\"";

/// The van with tubes that meet at the corners of its frame.
pub fn cornered(cut: &str, join: &str) -> String {
    let angle = if join.starts_with("join") { "" } else { "angle = \"aluminium-angle-50x50x3\", " };
    example("field-van.toml").replace(
        "corner = \"push-in-connector-25x25x2\"",
        &format!("corner = {{ cut = \"{cut}\", {angle}{join} }}"),
    )
}

/// The van with polyurethane beads instead of hybrid ones and without tape.
pub fn isocyanate() -> String {
    let van = example("field-van.toml").replace("hybrid-adhesive", "polyurethane-adhesive");
    let lines = van.lines().filter(|line| !line.starts_with("tape = "));
    lines.fold(String::new(), |all, line| all + line + "\n")
}

/// The minibus on wedges.
pub fn wedged() -> String {
    let bus = example("rescue-minibus.toml");
    let wedge = "sealing = \"polyurethane-sealant\"\nwedge = { material = \"hdpe\" }\n\n[[mount]]";
    bus.replacen("sealing = \"polyurethane-sealant\"\n\n[[mount]]", wedge, 1)
}

/// The van's feet bent from sheet, on wedges, held by draw latches.
pub fn bent() -> String {
    let fold = "fold = { material = \"aluminium-5754-h22\", thickness = 4, standing = 90, lying = 50, \
                radius = 6 }\nwedge = { material = \"hdpe\" }\n\
                latch = { kind = \"draw-latch\", strength = \"2 kN\" }";
    let van = example("field-van.toml");
    let line = van.lines().find(|line| line.starts_with("angle = ")).expect("an angle").to_owned();
    van.replace(&line, fold)
}

/// The minibus with a fibre skin, a sealant without isocyanate, and clamps on a rail at the right.
pub fn clamped() -> String {
    let bus = example("rescue-minibus.toml")
        .replace("material = \"steel-dc01\"", "material = \"gfrp-laminate\"")
        .replace(
            "thickness = \"0.9 mm\", finish = \"paint\"",
            "thickness = \"3 mm\", finish = \"gelcoat\"",
        )
        .replace("polyurethane-sealant", "hybrid-sealant");
    let (from, to) = (bus.find("mark = \"G\""), bus.find("[entry]"));
    let (Some(from), Some(to)) = (from, to) else { panic!("the minibus has feet G and an entry") };
    let clamp = |mark: &str, frame: &str| {
        format!("mark = \"{mark}\"\nframe = \"{frame}\"\nname = \"{frame} clamp\"\n{CLAMP}")
    };
    let clamps = format!("{}\n[[mount]]\n{}", clamp("G", "front frame"), clamp("V", "rear frame"));
    format!("{}{clamps}{}", &bus[..from], &bus[to..])
}

const CLAMP: &str = r#"kind = "rail-clamp"
edge = "right"
at = [200, 890]
angle = "aluminium-angle-100x50x5"
angle-length = 120
bolt = "M6"
clamp-bolt = "M8"
clamp-plate = { material = "steel-s235", thickness = 5 }
rail = { y = 565, height = 38, width = 40, thickness = 3 }

"#;

pub const ELECTRIC: &[&str] = &["battery", "restraint", "controller", "circuit"];

/// Some stated parts and the bars that they are cut from.
pub const PARTS: &str = r#"
format = 1

[job]
title = "Shelf rails"
number = "SR-001"
revision = "A"
date = "2026-05-09"
by = "workshop"

[cutting]
saw = "hacksaw"
trim = 5

[[part]]
mark = "A"
name = "shelf rail"
section = "aluminium-tube-25x25x2"
length = 740
count = 4

[[stock]]
section = "aluminium-tube-25x25x2"
length = 2000
price = "15.80"
"#;

/// The text without the tables of these names.
pub fn without(text: &str, tables: &[&str]) -> String {
    let mut kept = String::new();
    let mut keeping = true;
    for line in text.lines() {
        if let Some(name) = line.strip_prefix('[') {
            let name = name.trim_start_matches('[').split([']', '.']).next().unwrap_or_default();
            keeping = !tables.contains(&name);
        }
        if keeping {
            kept.push_str(line);
            kept.push('\n');
        }
    }
    kept
}
