//! The forms in the order of measuring: which keys each asks for, and how they are measured.

use super::sketch;
use crate::page::scene::Scene;

/// One form.
pub struct Form {
    /// The word that asks for it alone.
    pub word: &'static str,
    /// Title, 25 characters or fewer.
    pub title: &'static str,
    /// What it is for.
    pub purpose: &'static str,
    /// What to have for it.
    pub tools: &'static str,
    /// How it is measured, a line each.
    pub how: &'static [&'static str],
    /// Where the tape goes.
    pub sketch: Option<fn() -> Scene>,
    /// What it asks for, in order.
    pub asks: &'static [Ask],
}

/// Blanks of a form.
pub enum Ask {
    /// Keys of one table, a row each.
    One {
        /// Path of the table.
        path: &'static str,
        /// Its keys, in the order of asking.
        keys: &'static [&'static str],
    },
    /// Keys of a table that may come several times: so many groups of blanks.
    Each {
        /// Path of the table.
        path: &'static str,
        /// What one is called.
        name: &'static str,
        /// Its keys.
        keys: &'static [&'static str],
        /// Room for how many.
        count: usize,
    },
    /// A list of pairs under a key: place, then reading.
    Pairs {
        /// Path of the table.
        path: &'static str,
        /// The key.
        key: &'static str,
        /// What one list belongs to: "station".
        name: &'static str,
        /// Heads of the two columns.
        heads: [&'static str; 2],
        /// Key beside each list, asked once for it.
        beside: Option<&'static str>,
        /// Pairs in one list.
        pairs: usize,
        /// Lists.
        count: usize,
    },
}

/// All forms.
pub const FORMS: &[Form] = &[
    Form {
        word: "vehicle",
        title: "Vehicle and papers",
        purpose: "What the vehicle is, stands and may carry.",
        tools: "papers of the vehicle, tape 5 m, folding rule, magnet, torch",
        how: &[
            "The height is taken on level ground, tyres at their pressure, to the highest point.",
            "A magnet tells steel from aluminium; a hole that is there shows the thickness.",
            "Behind the roof: the lining is loosened at one place and the gap looked into with a torch.",
        ],
        sketch: Some(sketch::height),
        asks: &[
            Ask::One { path: "vehicle", keys: &["name", "height", "speed", "behind-roof"] },
            Ask::One { path: "vehicle.roof-skin", keys: &["material", "thickness", "finish"] },
            Ask::One { path: "vehicle.roof-limit", keys: &["moving", "standing"] },
            Ask::One { path: "vehicle.balance", keys: &["mass", "centre-height", "centre-x"] },
        ],
    },
    Form {
        word: "roof",
        title: "Roof from above",
        purpose: "The datum that every size on the roof starts from, and the roof's own size.",
        tools: "tape 5 m, chalk or masking tape, straightedge",
        how: &[
            "The centre line is half way between the gutters, marked with tape at front and rear.",
            "X runs from the datum to the rear, Y from the centre line to the right; left is minus.",
            "The tape lies taut on the skin; sizes are read to the nearest 1 mm or 1/32 in.",
        ],
        sketch: Some(sketch::roof),
        asks: &[Ask::One { path: "roof", keys: &["datum", "length", "width"] }],
    },
    Form {
        word: "across",
        title: "Gaps across",
        purpose: "How the roof falls away to both sides, at two stations or more.",
        tools: "straight tube 1.5 m, level, tape, steel rule",
        how: &[
            "The straightedge lies on the crown, level, square to the centre line; it must not rock.",
            "Stations: near the front, near the middle and near the rear of what will stand there.",
            "The rule stands upright; each gap is read down to the skin, not to a rib.",
        ],
        sketch: Some(sketch::across),
        asks: &[
            Ask::Pairs {
                path: "roof.sections",
                key: "gaps",
                name: "station",
                heads: ["y", "gap"],
                beside: Some("x"),
                pairs: 8,
                count: 4,
            },
            Ask::One { path: "roof.crown", keys: &["chord", "rise"] },
        ],
    },
    Form {
        word: "along",
        title: "Gaps along",
        purpose: "How the crown falls to front and rear; it ties the stations in height.",
        tools: "straight tube 3 m or a taut line, tape, steel rule",
        how: &[
            "The straightedge lies along the centre line on the highest stretch of the roof.",
            "A gap is read at each station of the form before, and half way between them.",
        ],
        sketch: Some(sketch::along),
        asks: &[Ask::Pairs {
            path: "roof",
            key: "along",
            name: "centre line",
            heads: ["x", "gap"],
            beside: None,
            pairs: 8,
            count: 1,
        }],
    },
    Form {
        word: "in-the-way",
        title: "Things in the way",
        purpose: "Vents, lids, aerials, ribs and walkways that stay where they are.",
        tools: "tape 5 m, square",
        how: &[
            "X is to the front edge of the thing, Y to its left edge; a flange or seal counts.",
            "Alike ribs beside each other are one thing with count and every.",
        ],
        sketch: Some(sketch::in_the_way),
        asks: &[
            Ask::Each {
                path: "roof.keep-out",
                name: "thing",
                keys: &["name", "kind", "x", "y", "length", "width", "height", "count", "every"],
                count: 3,
            },
            Ask::Each {
                path: "roof.keep-out.lid",
                name: "lid of thing",
                keys: &["hinged", "opens"],
                count: 2,
            },
        ],
    },
    Form {
        word: "panels",
        title: "Panels",
        purpose: "Each kind of panel as it lies on the bench, and what its label says.",
        tools: "tape, calliper, scale; a soft board under the glass",
        how: &[
            "Every panel is measured, not one for all; the longest and the widest are written down.",
            "Flange and recess are measured from below, with the panel on its face.",
        ],
        sketch: Some(sketch::panel),
        asks: &[
            Ask::Each {
                path: "panel",
                name: "kind",
                keys: &[
                    "mark",
                    "count",
                    "length",
                    "width",
                    "thickness",
                    "mass",
                    "recess",
                    "lead",
                    "power",
                    "voc",
                    "isc",
                    "vmp",
                    "imp",
                    "voc-drift",
                    "max-fuse",
                ],
                count: 1,
            },
            Ask::Each {
                path: "panel.flange",
                name: "flange of kind",
                keys: &["width", "thickness"],
                count: 1,
            },
        ],
    },
    Form {
        word: "rail",
        title: "Rail on the roof",
        purpose: "A rail or gutter that is there already and may carry hinges or clamps.",
        tools: "tape, calliper, square",
        how: &[
            "Y is to the middle of its flat top; height is from the skin beside it to that top.",
            "What holds the rail itself is looked at: screws, rivets or glue, and how many.",
        ],
        sketch: Some(sketch::rail),
        asks: &[Ask::Each {
            path: "mount.rail",
            name: "rail",
            keys: &["y", "height", "width", "thickness"],
            count: 2,
        }],
    },
    Form {
        word: "entry",
        title: "Cable entry",
        purpose: "Where the cables can go down through the roof.",
        tools: "tape, torch, thin wire or magnet for the place inside",
        how: &[
            "The place is seen from inside first: no bow, wire, hose or airbag within 50 mm of the hole.",
            "X and Y are to the middle of the hole.",
        ],
        sketch: Some(sketch::entry),
        asks: &[Ask::One { path: "entry", keys: &["x", "y", "cables", "length", "width"] }],
    },
    Form {
        word: "battery",
        title: "Battery and its floor",
        purpose: "The battery, the floor that holds it, and the controller's label.",
        tools: "tape, scale, torch; a thin drill to find the floor's thickness",
        how: &[
            "Terminals count in the height; room for hands and cables is left above them.",
            "What lies under the floor is looked at from below: tank, exhaust, wires.",
        ],
        sketch: Some(sketch::battery),
        asks: &[
            Ask::One {
                path: "battery",
                keys: &[
                    "place",
                    "length",
                    "width",
                    "height",
                    "mass",
                    "chemistry",
                    "capacity",
                    "voltage",
                    "short-circuit",
                    "cold-charging",
                    "stud",
                    "torque",
                    "internal-resistance",
                    "hottest",
                    "count",
                ],
            },
            Ask::One { path: "battery.centre", keys: &["x", "y", "over-ground"] },
            Ask::One { path: "restraint", keys: &["floor", "floor-thickness"] },
            Ask::One {
                path: "controller",
                keys: &["kind", "max-voltage", "max-current", "charge-voltage"],
            },
            Ask::One { path: "supply", keys: &["voltage", "current", "short-circuit"] },
        ],
    },
    Form {
        word: "cables",
        title: "Cable routes",
        purpose: "Each run by the way that the cable will lie, one way.",
        tools: "string, tape, masking tape with numbers",
        how: &[
            "A string is laid along the route and measured; bends and drops are in it, spare is not.",
            "Hot places, edges and moving parts on the way are noted beside the run.",
        ],
        sketch: Some(sketch::route),
        asks: &[
            Ask::Each {
                path: "circuit",
                name: "run",
                keys: &["name", "from", "to", "length", "current", "size", "fuse", "ambient"],
                count: 4,
            },
            Ask::One { path: "earth", keys: &["bond", "length"] },
        ],
    },
    Form {
        word: "stock",
        title: "What is on hand",
        purpose: "Bars, sheets and cable that can be used up.",
        tools: "tape, calliper, marker",
        how: &["Each length gets its label now, so that the cut sheets can call it by name."],
        sketch: None,
        asks: &[Ask::Each {
            path: "leftover",
            name: "length",
            keys: &["section", "material", "length", "width", "thickness", "count", "label"],
            count: 4,
        }],
    },
    Form {
        word: "air",
        title: "Air and people",
        purpose: "What the cures and the plan are worked out from.",
        tools: "thermometer, hygrometer, the forecast",
        how: &["The air is measured where the work will be; the forecast gives day and night."],
        sketch: None,
        asks: &[
            Ask::One { path: "weather.day", keys: &["temperature", "humidity"] },
            Ask::One { path: "weather.night", keys: &["temperature", "humidity"] },
            Ask::One { path: "weather", keys: &["altitude", "latitude", "record-low"] },
            Ask::One { path: "crew", keys: &["people", "start", "day"] },
        ],
    },
];

/// Keys that no form asks for, with the reason; `*` is all others of a table.
pub const NOT_MEASURED: &[(&str, &str, &str)] = &[
    ("", "format", "the same in every build file"),
    ("", "materials", "a folder of the reader's own tables: named at the desk"),
    ("", "templates", "a folder of the reader's own steps: named at the desk"),
    ("job", "*", "title block and paper: decided at the desk"),
    ("job.marking", "*", "how the builder marks: decided at the desk"),
    ("weather", "*", "read from a forecast, or the usual value holds"),
    ("weather.hours", "*", "read from a forecast"),
    ("loads", "*", "from maps and reports, not from the vehicle"),
    ("loads.uplift", "*", "from a report"),
    ("loads.storm-pressure", "*", "from a map or a station"),
    ("crew", "*", "decided at the desk"),
    ("vehicle.roof-limit", "people", "decided at the desk"),
    ("panel", "frame", "decided with the frame"),
    ("frame", "*", "designed from panels and roof"),
    ("frame.corner", "*", "designed"),
    ("frame.overhang", "*", "designed"),
    ("frame.position", "*", "designed"),
    ("frame.panel-screw", "*", "designed"),
    ("frame.packer", "*", "designed"),
    ("mount", "*", "designed; only the rail is there already"),
    ("mount.prop", "*", "designed"),
    ("mount.plate", "*", "designed"),
    ("mount.fold", "*", "designed"),
    ("mount.latch", "*", "designed"),
    ("mount.wedge", "*", "designed"),
    ("mount.spreader", "*", "designed"),
    ("mount.clamp-plate", "*", "designed"),
    ("mount.tape", "*", "from the tape's data sheet"),
    ("mount.bead", "*", "from the adhesive's data sheet"),
    ("entry", "*", "designed: hole and sealing follow from cable and housing"),
    ("fixture", "*", "designed; its skin and sizes are read off the thing and the vehicle"),
    ("cutting", "*", "the builder's own saw, or the usual value holds"),
    ("stock", "*", "from a shop's list"),
    ("leftover", "*", "cable and other stuff by a name of the reader's own, written with it"),
    ("vehicle.balance", "centre-y", "seldom off the centre line: by four wheel loads, if at all"),
    ("battery", "*", "decided at the desk"),
    ("controller.centre", "*", "decided at the desk"),
    ("string", "*", "decided at the desk"),
    ("restraint", "*", "designed"),
    ("restraint.screw", "*", "designed"),
    ("restraint.bolt", "*", "designed"),
    ("restraint.bolt.spreader", "*", "designed"),
    ("restraint.anchor", "*", "designed"),
    ("restraint.anchor.screw", "*", "designed"),
    ("restraint.anchor.bolt", "*", "designed"),
    ("restraint.anchor.bolt.spreader", "*", "designed"),
    ("isolator", "*", "chosen for the circuits, from a shop's list"),
    ("controller", "*", "decided at the desk"),
    ("circuit", "*", "read off the cable, or decided at the desk"),
    ("part", "*", "designed"),
    ("hole", "*", "designed"),
    ("step", "*", "planned"),
    ("rate", "*", "from experience"),
    ("step.actions", "*", "planned"),
    ("step.photo", "*", "planned"),
    ("vehicle.photo", "*", "taken on the way; each form has a line for their numbers"),
    ("roof.photo", "*", "taken on the way; each form has a line for their numbers"),
    ("record.photo", "*", "taken as the work goes"),
    ("record.batch", "*", "read off the pack as the work goes"),
    ("record.measured", "*", "written on the record sheets as the work goes"),
    ("record", "*", "written on the record sheets as the work goes"),
];
