//! What holds the frame.

use super::{Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
    table(
        "mount",
        "[[mount]]",
        "a line of mounts along an edge of the frame",
        &[
            must("mark", "\"F\"", "letter before the number of each mount"),
            key("name", "\"bonded foot\"", "name used on every sheet"),
            must("kind", "\"bonded-foot\"", "hinge, bonded-foot, bolted-foot or rail-clamp"),
            key("frame", "\"front frame\"", "which of several frames it holds"),
            must("edge", "\"right\"", "edge of the frame: left, right, front or rear"),
            must("at", "[220, 820, 1420]", "middle of each along that edge"),
            key("hinge", "\"butt-hinge-60x60-stainless\"", "which hinge (kind hinge)"),
            key(
                "rail",
                "{ y = -544, height = 46, width = 40 }",
                "the rail it sits on (kinds hinge and rail-clamp)",
            ),
            key("lift", "\"30°\"", "how far the frame is lifted (kind hinge)"),
            key("angles", "[\"15°\", \"30°\"]", "angles at which it is propped (kind hinge)"),
            key(
                "prop",
                "{ section = \"aluminium-flat-30x4\", on = [\"K\"] }",
                "the bar that holds it up (kind hinge)",
            ),
            key(
                "latch",
                "{ kind = \"knob\" }",
                "what is opened to lift the frame, instead of bolts (feet and clamps)",
            ),
            must("bolt", "\"M6\"", "bolt from the mount to the frame"),
            key(
                "plate",
                "{ material = \"steel-s235\", length = 180, width = 90, thickness = 3 }",
                "plate on the skin (kind bonded-foot)",
            ),
            key("angle", "\"aluminium-angle-80x40x4\"", "angle of the bracket (feet and clamps)"),
            key(
                "fold",
                "{ material = \"aluminium-5754-h22\", thickness = 4, standing = 80, lying = 45, radius = 8 }",
                "the bracket bent from flat stuff, instead of an angle (feet and clamps)",
            ),
            key(
                "wedge",
                "{ material = \"hdpe\" }",
                "a wedge under the bracket instead of a bend (feet)",
            ),
            key("angle-length", "160", "cut length of the bracket (feet and clamps)"),
            key("roof-bolt", "\"M8\"", "bolt through the skin (kind bolted-foot)"),
            key(
                "spreader",
                "{ material = \"steel-s235\", length = 160, width = 60, thickness = 3 }",
                "plate below the skin (kind bolted-foot)",
            ),
            key(
                "sealing",
                "\"polyurethane-sealant\"",
                "sealant round the bolts (kind bolted-foot)",
            ),
            key("clamp-bolt", "\"M8\"", "bolt beside the rail (kind rail-clamp)"),
            key(
                "clamp-plate",
                "{ material = \"steel-s235\", thickness = 5 }",
                "plate below the rail (kind rail-clamp)",
            ),
            key("plate-screw", "\"M5\"", "screw from the plate into the angle (kind bonded-foot)"),
            key(
                "tape",
                "{ kind = \"acrylic-foam-tape\", width = 25, thickness = 2.3, strips = 2 }",
                "foam tape under the plate (kind bonded-foot)",
            ),
            key(
                "bead",
                "{ kind = \"hybrid-adhesive\", width = 10 }",
                "adhesive under the plate (kind bonded-foot)",
            ),
        ],
    ),
    table(
        "mount.rail",
        "rail",
        "the rail that is already there",
        &[
            must("y", "-544", "middle of its flat top, right of the centre line"),
            must("height", "46", "from the skin beside it up to its top"),
            must("width", "40", "width of its flat top"),
            key("thickness", "2", "wall of its top, that the bolt passes through"),
        ],
    ),
    table(
        "mount.prop",
        "prop",
        "the bar that holds a lifted frame up",
        &[
            must("section", "\"aluminium-flat-30x4\"", "flat bar, square or rectangular tube"),
            must("on", "[\"K\"]", "marks of the mounts at a neighbouring edge that it stands on"),
            key("at", "560", "from the hinges' pins to its pin in the tube"),
        ],
    ),
    table(
        "mount.plate",
        "plate",
        "plate on the skin",
        &[
            must("material", "\"steel-s235\"", "what it is made of"),
            must("length", "180", "its size along the edge of the frame"),
            must("width", "90", "its size across the edge"),
            must("thickness", "3", "its thickness"),
            key("shift", "25", "its middle outboard of the bracket's standing leg"),
        ],
    ),
    table(
        "mount.fold",
        "fold",
        "a bracket bent from sheet or flat bar",
        &[
            must("material", "\"aluminium-5754-h22\"", "what it is bent from"),
            must("thickness", "4", "its thickness"),
            must("standing", "80", "outside of the leg that stands up to the tube"),
            must("lying", "45", "outside of the leg that lies outboard"),
            must("radius", "8", "inside radius of the bend"),
            key("k", "0.42", "place of the neutral line by a trial bend, from the inside"),
        ],
    ),
    table(
        "mount.latch",
        "latch",
        "what holds down a frame that is lifted in use",
        &[
            must("kind", "\"draw-latch\"", "knob or draw-latch"),
            key("strength", "\"1500 N\"", "what one holds by its own sheet (needed by draw-latch)"),
            key("body", "20", "between the two holes of its body (draw-latch)"),
            key("keeper", "18", "between the two holes of its keeper (draw-latch)"),
            key("reach", "32", "from the body's holes to the keeper's when closed (draw-latch)"),
        ],
    ),
    table(
        "mount.wedge",
        "wedge",
        "a wedge under the bracket",
        &[
            must("material", "\"hdpe\"", "what it is cut from"),
            key("least", "3", "thickness of its thin edge"),
        ],
    ),
    table(
        "mount.spreader",
        "spreader",
        "plate below the skin",
        &[
            must("material", "\"steel-s235\"", "what it is made of"),
            must("length", "160", "its size along the edge of the frame"),
            must("width", "60", "its size across the edge"),
            must("thickness", "3", "its thickness"),
        ],
    ),
    table(
        "mount.clamp-plate",
        "clamp-plate",
        "plate below the rail",
        &[
            must("material", "\"steel-s235\"", "what it is made of"),
            must("thickness", "5", "its thickness"),
        ],
    ),
    table(
        "mount.tape",
        "tape",
        "foam tape under the plate",
        &[
            must("kind", "\"acrylic-foam-tape\"", "which tape"),
            must("width", "25", "width of a strip"),
            must("thickness", "2.3", "thickness of the tape"),
            must("strips", "2", "how many strips under one plate"),
            key("short-term", "\"85 kPa\"", "design stress for gusts by its own data sheet"),
        ],
    ),
    table(
        "mount.bead",
        "bead",
        "adhesive under the plate",
        &[
            must("kind", "\"hybrid-adhesive\"", "which adhesive"),
            must("width", "10", "width once pressed"),
            key("strength", "\"2.0 MPa\"", "strength by its own data sheet"),
        ],
    ),
];
