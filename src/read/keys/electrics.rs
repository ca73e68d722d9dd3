//! Battery, controller and circuits.

use super::{Key, Table, key, must, table};

const SCREW: &[Key] =
    &[must("diameter", "6", "diameter of the screw"), must("length", "60", "length of the screw")];
const BOLT: &[Key] = &[
    must("thread", "\"M6\"", "thread"),
    key("grade", "\"8.8\"", "property class"),
    key("count", "1", "bolts in the cradle or at each end of a strap"),
    key("spreader", "{ length = 60, width = 60, thickness = 3 }", "plate under the floor"),
];
const SPREADER: &[Key] = &[
    must("length", "60", "one side of the plate"),
    must("width", "60", "its other side"),
    must("thickness", "3", "its thickness"),
    key("material", "\"steel-s235\"", "what it is made of"),
];

pub(super) const TABLES: &[Table] = &[
    table(
        "battery",
        "[battery]",
        "the battery",
        &[
            key("mark", "\"B\"", "letter on the sheets"),
            must("chemistry", "\"lfp\"", "which chemistry"),
            must("capacity", "\"160 Ah\"", "rated capacity"),
            must("voltage", "\"12.8 V\"", "nominal voltage"),
            must("mass", "\"17.5 kg\"", "its mass"),
            must("length", "330", "its size along the vehicle"),
            must("width", "172", "its size across"),
            must("height", "216", "its height, terminals included"),
            must("place", "\"under the bench, on the floor\"", "where it stands"),
            key(
                "centre",
                "{ right = -420, over-ground = 690 }",
                "where its middle is, for the vehicle's balance",
            ),
            key("short-circuit", "\"2.4 kA\"", "short-circuit current by its data sheet"),
            key("stud", "\"M8\"", "thread of its terminals"),
            key("torque", "\"9 N·m\"", "torque of its terminals by its label"),
            key(
                "internal-resistance",
                "\"4 mΩ\"",
                "its internal resistance, where no short-circuit current is known",
            ),
            key("hottest", "\"40 °C\"", "hottest air at its place"),
            key("cold-charging", "\"stopped\"", "what keeps it from being charged in frost"),
        ],
    ),
    table(
        "battery.centre",
        "centre",
        "where the battery's middle is",
        &[
            must("right", "-420", "right of the vehicle's centre line; left is minus"),
            must("over-ground", "690", "over the ground"),
        ],
    ),
    table(
        "restraint",
        "[restraint]",
        "what holds the battery",
        &[
            key("kind", "\"top-over\"", "top-over, direct or cradle"),
            key("level", "\"road\"", "how hard it is pulled at"),
            key("straps", "1", "straps over the top, or from the battery to the floor"),
            key(
                "strap-capacity",
                "\"2500 N\"",
                "lashing capacity of one strap in straight pull, LC on its label",
            ),
            key("strap-tension", "\"250 N\"", "tension that a hand leaves in it, STF on its label"),
            key("strap-angle", "\"75°\"", "strap to the floor"),
            key("strap-turn", "\"45°\"", "direct strap from above, to the vehicle's long axis"),
            key(
                "anchor",
                "{ bolt = { thread = \"M6\", spreader = { length = 60, width = 60, thickness = 3 } } }",
                "what fixes each end of a strap",
            ),
            key("friction", "\"20 %\"", "friction of the battery on its floor"),
            key("blocks", "4", "blocks round its foot"),
            key("block-height", "60", "height of the blocks"),
            key("screws-a-block", "2", "screws or bolts in each block"),
            key("screw", "{ diameter = 6, length = 60 }", "screw of the blocks"),
            key(
                "bolt",
                "{ thread = \"M6\", count = 4 }",
                "bolt through the floor: of the blocks in place of screws, or of a cradle",
            ),
            must("floor", "\"plywood-birch\"", "what the floor is made of"),
            must("floor-thickness", "15", "thickness of the floor"),
        ],
    ),
    table("restraint.screw", "screw", "screw of the blocks", SCREW),
    table("restraint.bolt", "bolt", "bolt through the floor", BOLT),
    table("restraint.bolt.spreader", "spreader", "plate under the floor", SPREADER),
    table(
        "restraint.anchor",
        "anchor",
        "what fixes each end of a strap",
        &[
            key("capacity", "\"2 kN\"", "capacity of the fitting by its maker"),
            key("screw", "{ diameter = 6, length = 30 }", "wood screw of the fitting"),
            key("screws", "2", "wood screws in each fitting"),
            key("bolt", "{ thread = \"M6\" }", "bolt through the floor"),
        ],
    ),
    table("restraint.anchor.screw", "screw", "wood screw of the fitting", SCREW),
    table("restraint.anchor.bolt", "bolt", "bolt through the floor", BOLT),
    table("restraint.anchor.bolt.spreader", "spreader", "plate under the floor", SPREADER),
    table(
        "controller",
        "[controller]",
        "the charge controller",
        &[
            key("mark", "\"T\"", "letter on the sheets"),
            key("kind", "\"solar\"", "solar or dc-dc"),
            must("max-voltage", "\"100 V\"", "highest voltage that its input stands"),
            must("max-current", "\"20 A\"", "highest charging current"),
            key(
                "max-short-circuit",
                "\"30 A\"",
                "highest short-circuit current of panels that its input stands",
            ),
            key("connection", "\"parallel\"", "how the panels are joined"),
            key("mass", "\"0.6 kg\"", "its mass"),
            key("torque", "\"1.6 N·m\"", "torque of its clamps by its manual"),
            key("in-series", "2", "panels in each string; the strings lie side by side"),
            must("charge-voltage", "\"14.4 V\"", "charging voltage"),
        ],
    ),
    table(
        "supply",
        "[supply]",
        "the vehicle’s own battery, which feeds the charger",
        &[
            must("voltage", "\"12 V\"", "its nominal voltage"),
            key("current", "\"35 A\"", "highest current that the charger takes from it"),
            key("short-circuit", "\"3 kA\"", "its short-circuit current by its data sheet"),
        ],
    ),
    table(
        "isolator",
        "[isolator]",
        "the switch between panels and controller that is on hand",
        &[
            key("kind", "\"switch\"", "what parts the panels from the controller"),
            key("rating", "\"32 A\"", "current that it may break"),
            key("voltage", "\"100 V\"", "direct voltage that it may break"),
            key("poles", "2", "poles that it opens together"),
        ],
    ),
    table(
        "earth",
        "[earth]",
        "whether the minus is joined to the vehicle’s body",
        &[
            must("bond", "\"chassis\"", "what the battery’s minus is joined to"),
            key("length", "600", "route of the bond, where there is one"),
        ],
    ),
    table(
        "circuit",
        "[[circuit]]",
        "one cable run",
        &[
            must("name", "\"controller to battery\"", "name on the sheets"),
            must("from", "\"controller\"", "where the current comes from"),
            must("to", "\"battery\"", "where it goes"),
            must("length", "1200", "length of the route, one way"),
            key("current", "\"20 A\"", "current in use"),
            key("size", "\"6mm2\"", "conductor that is there already, to be checked"),
            key("fuse", "\"30 A\"", "fuse that is there already, to be checked"),
            key("insulation", "\"pvc-70\"", "insulation printed on the cable"),
            key("laid", "\"open\"", "how the cable lies"),
            key("bundled", "2", "loaded conductors in the same bundle"),
            key("ambient", "\"40 °C\"", "air round the cable"),
            key("drop-limit", "\"3 %\"", "greatest voltage drop from its source"),
        ],
    ),
];
