//! The example build files, and builds smaller than they are.

use rungsheet::build::{Build, LengthUnit, Paper, RoofShape};
use rungsheet::read::{self, keys};
use rungsheet::source::{Finding, Severity, Text};
use rungsheet::tables::Tables;
use rungsheet::units::Length;

const EXAMPLES: [(&str, &str); 5] = [
    ("field-van.toml", include_str!("../examples/field-van.toml")),
    ("harbour-trailer.toml", include_str!("../examples/harbour-trailer.toml")),
    ("galley-shelf.toml", include_str!("../examples/galley-shelf.toml")),
    ("roof-fan.toml", include_str!("../examples/roof-fan.toml")),
    ("wheel-carrier.toml", include_str!("../examples/wheel-carrier.toml")),
];

fn read(contents: &str) -> (Option<Build>, Vec<Finding>) {
    read::read(&Text::new("build.toml", contents), Tables::builtin())
}

#[test]
fn every_example_reads_without_a_finding() {
    for (name, contents) in EXAMPLES {
        let (build, findings) = read(contents);
        assert!(findings.is_empty(), "{name}: {findings:#?}");
        assert!(build.is_some(), "{name}");
    }
}

#[test]
fn the_field_van_is_read_as_written() {
    let build = read(EXAMPLES[0].1).0.expect("it reads");
    assert_eq!(build.job.units.value, LengthUnit::Millimetre);
    assert_eq!(build.panels[0].length.value, Length::mm(1040.0));
    let vehicle = build.vehicle.expect("it has a vehicle");
    assert_eq!(vehicle.skin.thickness.value, Length::mm(0.8));
    let RoofShape::Gaps { stations, along, .. } = build.roof.expect("it has a roof").shape else {
        panic!("the roof was measured by gaps");
    };
    let readings: Vec<(f64, f64)> =
        stations[1].gaps.iter().map(|gap| (gap.at.to_mm(), gap.gap.to_mm())).collect();
    assert_eq!(
        readings,
        [(-700.0, 66.0), (-350.0, 16.5), (0.0, 0.0), (350.0, 16.5), (700.0, 66.0)]
    );
    assert_eq!(along.len(), 5);
    assert_eq!(build.mounts.iter().map(|mount| mount.at.len()).collect::<Vec<_>>(), [4, 3]);
    // The table of saws gives the kerf, which says so.
    assert!(build.cutting.kerf.is_default());
    assert!(build.panels[0].mark.ground().is_none());
}

#[test]
fn bare_numbers_of_the_harbour_trailer_are_inches() {
    let build = read(EXAMPLES[1].1).0.expect("it reads");
    assert_eq!(build.job.paper.value, Paper::Letter);
    let roof = build.roof.expect("it has a roof");
    // 1 in is 25.4 mm (international yard and pound agreement of 1959).
    assert!(roof.length.value.is_near(Length::mm(96.0 * 25.4), Length::mm(1e-9)));
    assert!(roof.width.value.is_near(Length::mm(59.5 * 25.4), Length::mm(1e-9)));
    let mount = &build.mounts[0];
    assert!(mount.at[0].value.is_near(Length::mm(114.3), Length::mm(1e-9)), "4 1/2 in");
    let height = build.vehicle.and_then(|vehicle| vehicle.height).expect("its height is stated");
    assert!(height.value.is_near(Length::mm(2184.4), Length::mm(1e-9)), "7 ft 2 in");
}

#[test]
fn parts_and_stock_alone_are_a_build() {
    let (build, findings) = read(
        "format = 1\n[job]\ntitle = \"Shelf\"\ndate = 2026-05-09\n\
         [[part]]\nmark = \"S\"\nname = \"shelf rail\"\nsection = \"aluminium-tube-25x25x2\"\nlength = 640\n\
         [[stock]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 3000\n[cutting]\nkerf = 1.4\n",
    );
    assert!(findings.is_empty(), "{findings:#?}");
    let build = build.expect("nothing stops it");
    assert!(build.vehicle.is_none() && build.roof.is_none() && build.frames.is_empty());
    assert_eq!(build.cutting.kerf.value, Length::mm(1.4));
    assert!(build.cutting.saw.is_default());
    assert!(build.weather.day.temperature.is_default());
    assert_eq!(build.crew.start.value, build.job.date.value);
}

#[test]
fn electrics_alone_are_a_build() {
    let (build, findings) = read(
        "format = 1\n[job]\ntitle = \"Lights\"\ndate = \"2026-05-09\"\n\
         [battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\n\
         mass = \"11 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"under the bench\"\n\
         [[circuit]]\nname = \"lights\"\nfrom = \"battery\"\nto = \"lights\"\nlength = 4000\ncurrent = \"5 A\"\n",
    );
    assert!(findings.is_empty(), "{findings:#?}");
    assert!(build.is_some_and(|build| build.circuits.len() == 1));
}

/// Takes one key away from an example, line by line, and holds the reader against the list of keys.
#[test]
fn a_key_is_missed_exactly_if_the_list_of_keys_says_so() {
    for (name, contents) in EXAMPLES {
        let mut path = String::new();
        let mut from = 0;
        let mut tried = 0;
        for line in contents.split_inclusive('\n') {
            let start = from;
            from += line.len();
            if line.starts_with('[') {
                path = line.trim().trim_matches(['[', ']']).to_owned();
                continue;
            }
            let Some((key, value)) = line.split_once('=') else { continue };
            let key = key.trim();
            let Some(known) = keys::key_of(&path, key) else { continue };
            if value.trim_end().ends_with('[') {
                continue;
            }
            tried += 1;
            let without = format!("{}{}", &contents[..start], &contents[from..]);
            let (build, findings) = read(&without);
            let missed = findings.iter().any(|finding| {
                finding.rule.code == "F011" && finding.message.ends_with(&format!("has no `{key}`"))
            });
            if known.needed {
                assert!(missed && build.is_none(), "{name}: [{path}] without {key}: {findings:#?}");
            } else if missed {
                let elsewhere =
                    [("panel", "voc"), ("panel", "isc"), ("panel", "vmp"), ("panel", "imp")];
                // A walkway has none.
                let by_lid = (path.as_str(), key) == ("roof.keep-out", "height");
                let by_kind =
                    path == "mount" || (path == "panel" && ["flange", "recess"].contains(&key));
                let by_goods = ["part", "stock", "leftover"].contains(&path.as_str())
                    && ["section", "material", "stuff", "thickness", "width"].contains(&key);
                let by_way = path == "weather" && ["day", "night"].contains(&key);
                let by_end = path == "circuit" && key == "current";
                // A walkway stands over nothing.
                let by_what = path == "roof.keep-out" && key == "height";
                // A cradle asks for bolts, blocks for their height and screws, straps for theirs.
                let by_hold = path == "restraint"
                    && ["straps", "strap-capacity", "block-height", "screw", "bolt"].contains(&key);
                // A step that is left out takes no time.
                let by_step = path == "step" && key == "time";
                let fine = by_kind
                    || by_step
                    || by_hold
                    || by_lid
                    || by_goods
                    || by_end
                    || by_what
                    || by_way
                    || elsewhere.contains(&(path.as_str(), key));
                assert!(fine, "{name}: [{path}] without {key}: {findings:#?}");
            }
        }
        assert!(tried > 80, "{name}: {tried} keys");
    }
}

#[test]
fn a_byte_order_mark_tabs_and_line_ends_of_another_system_change_nothing() {
    let plain = EXAMPLES[0].1;
    let other = format!("\u{FEFF}{}", plain.replace(" = ", "\t=\t").replace('\n', "\r\n"));
    let text = read::open("build.toml", other.as_bytes()).expect("it is text");
    let (build, findings) = read::read(&text, Tables::builtin());
    assert!(findings.is_empty(), "{findings:#?}");
    assert!(build.is_some());
}

#[test]
fn a_note_does_not_stop_a_build() {
    let (build, findings) = read(&EXAMPLES[0].1.replace("format = 1\n", ""));
    assert_eq!(
        findings.iter().map(|f| (f.rule.code, f.severity)).collect::<Vec<_>>(),
        [("F007", Severity::Note)]
    );
    assert!(build.is_some());
}

/// One file of every key's example, but for those that exclude each other.
#[test]
fn the_examples_in_the_list_of_keys_make_a_build() {
    const OTHERWISE: [(&str, &str); 40] = [
        ("weather", "temperature"),
        ("weather", "humidity"),
        ("weather", "hours"),
        ("stock", "material"),
        ("stock", "stuff"),
        ("stock", "cable"),
        ("stock", "insulation"),
        ("stock", "colour"),
        ("stock", "width"),
        ("stock", "thickness"),
        ("leftover", "material"),
        ("leftover", "stuff"),
        ("leftover", "cable"),
        ("leftover", "insulation"),
        ("leftover", "colour"),
        ("leftover", "width"),
        ("leftover", "thickness"),
        ("part", "material"),
        ("part", "stuff"),
        ("part", "width"),
        ("part", "thickness"),
        ("roof", "crown"),
        ("mount", "hinge"),
        ("mount", "rail"),
        ("mount", "lift"),
        ("mount", "angles"),
        ("mount", "prop"),
        ("mount", "fold"),
        ("mount", "roof-bolt"),
        ("mount", "spreader"),
        ("mount", "sealing"),
        ("mount", "clamp-bolt"),
        ("mount", "clamp-plate"),
        ("battery", "internal-resistance"),
        ("controller", "in-series"),
        ("controller", "connection"),
        ("restraint", "bolt"),
        ("step", "after"),
        ("step", "leave-out"),
        ("step", "instead-of"),
    ];
    const SHEETS: [(&str, &str); 1] = [("part", "turn")];
    let mut contents = String::new();
    for table in
        keys::tables().filter(|table| table.path.is_empty() || table.heading.starts_with('['))
    {
        if !table.path.is_empty() {
            contents += table.heading;
            contents += "\n";
        }
        let lines = table.keys.iter().filter(|key| !key.example.is_empty());
        for key in lines
            .filter(|key| ![&OTHERWISE[..], &SHEETS].concat().contains(&(table.path, key.name)))
        {
            contents.extend([key.name, " = ", key.example, "\n"]);
        }
    }
    let (build, findings) = read(&contents);
    assert!(findings.is_empty(), "{findings:#?}");
    assert!(build.is_some());
}
