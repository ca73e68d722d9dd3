//! Panels and their frame.

use super::{Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
    table(
        "panel",
        "[[panel]]",
        "one kind of panel",
        &[
            key("mark", "\"P\"", "letter before the number of each panel"),
            key("count", "3", "how many alike"),
            key("frame", "\"front frame\"", "which of several frames they lie on"),
            must("length", "1040", "long side"),
            must("width", "540", "short side"),
            must("thickness", "30", "height of the panel's own frame"),
            must("mass", "\"6.4 kg\"", "mass of one"),
            key(
                "flange",
                "{ width = 25, thickness = 1.5 }",
                "lower flange that the screws go into",
            ),
            key("recess", "26", "lower edge of the panel up to its back sheet"),
            key("power", "\"110 W\"", "power by its label"),
            key("voc", "\"24.6 V\"", "open-circuit voltage by its label"),
            key("isc", "\"5.8 A\"", "short-circuit current by its label"),
            key("vmp", "\"20.6 V\"", "voltage at full power by its label"),
            key("imp", "\"5.34 A\"", "current at full power by its label"),
            key("max-fuse", "\"15 A\"", "greatest fuse in its string by its label"),
            key(
                "voc-drift",
                "\"-0.28 %/K\"",
                "change of the open-circuit voltage with temperature",
            ),
            key("lead", "900", "length of the leads that come with it"),
        ],
    ),
    table(
        "panel.flange",
        "flange",
        "lower flange of the panel's own frame",
        &[
            must("width", "25", "from the outer face inwards"),
            must("thickness", "1.5", "wall of the flange"),
        ],
    ),
    table(
        "frame",
        "[[frame]]",
        "one frame and how the panels lie on it",
        &[
            key("name", "\"front frame\"", "name on every sheet, where there are several"),
            must("section", "\"aluminium-tube-25x25x2\"", "tube that it is made of"),
            must(
                "corner",
                "\"push-in-connector-25x25x2\"",
                "how tubes meet at the corners: a connector, or a table of cut and join",
            ),
            key("long-side", "\"across\"", "which way the panels' long side lies"),
            key("rows", "1", "panels side by side across the roof"),
            key("columns", "3", "panels one behind the other"),
            key("gap", "10", "between neighbouring panels"),
            must("position", "{ x = 820, y = 0 }", "where on the roof"),
            key(
                "overhang",
                "{ front = 60, rear = 60 }",
                "how far the frame reaches beyond its panels",
            ),
            must("clearance", "15", "from the highest roof under the frame up to the tubes"),
            key("cross-members", "2", "tubes across between the two end tubes"),
            must(
                "panel-screw",
                "{ size = \"ST4.8\", length = 16 }",
                "screw from the tube into the panel",
            ),
            key("panel-screw-pitch", "400", "greatest distance between panel screws"),
            key(
                "packer",
                "{ material = \"rubber-epdm\", length = 80, width = 80, free = 1 }",
                "support under the middle of each panel",
            ),
        ],
    ),
    table(
        "frame.corner",
        "corner",
        "how tubes meet at the corners without a connector",
        &[
            must("cut", "\"mitre\"", "how their ends are cut: mitre or butt"),
            key(
                "through",
                "\"side-tubes\"",
                "which run through at a butt: side-tubes or end-tubes",
            ),
            key("join", "\"angle\"", "what holds them: angle, or weld by a shop"),
            key(
                "angle",
                "\"aluminium-angle-50x50x3\"",
                "section of the angle in the inner corner (join angle)",
            ),
            key("rivet", "\"blind-rivet-4.8-aluminium\"", "blind rivets that hold its legs"),
            key("screw", "\"ST4.8\"", "tapping screws instead of rivets"),
            key("each", "2", "fasteners in each leg"),
        ],
    ),
    table(
        "frame.overhang",
        "overhang",
        "how far the frame reaches beyond its panels",
        &[
            key("front", "60", "ahead of them"),
            key("rear", "60", "behind them"),
            key("left", "40", "left of them"),
            key("right", "40", "right of them"),
        ],
    ),
    table(
        "frame.position",
        "position",
        "where the frame lies on the roof",
        &[
            must("x", "820", "its front edge behind the datum"),
            must("y", "0", "the middle of it, right of the centre line"),
        ],
    ),
    table(
        "frame.panel-screw",
        "panel-screw",
        "screw from the tube into the panel",
        &[
            must("size", "\"ST4.8\"", "size of the screw"),
            must("length", "16", "length of the screw"),
        ],
    ),
    table(
        "frame.packer",
        "packer",
        "support under the middle of each panel",
        &[
            must("material", "\"rubber-epdm\"", "what it is made of"),
            must("length", "80", "its size along the vehicle"),
            must("width", "80", "its size across"),
            key("free", "1", "room left between it and the back sheet"),
        ],
    ),
];
