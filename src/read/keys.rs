//! Every table and key that a build file may have, with an example and what it says.
//!
//! Messages take the example and the meaning from here, `explain` can print it, and a test holds
//! it against what the readers ask for.

/// A table of the build file.
#[derive(Debug, Clone, Copy)]
pub struct Table {
    /// Dotted path: `panel.flange`; empty for the top of the file.
    pub path: &'static str,
    /// As written: `[[panel]]`, or `flange` for a table between braces.
    pub heading: &'static str,
    /// What it tells.
    pub says: &'static str,
    /// Its keys.
    pub keys: &'static [Key],
}

/// A key of a table.
#[derive(Debug, Clone, Copy)]
pub struct Key {
    /// As written.
    pub name: &'static str,
    /// A value as it may be written.
    pub example: &'static str,
    /// What it tells.
    pub says: &'static str,
    /// Whether its table can't do without it. Some more keys are needed for what other tables ask.
    pub needed: bool,
}

/// A key that may be left out.
const fn key(name: &'static str, example: &'static str, says: &'static str) -> Key {
    Key { name, example, says, needed: false }
}

/// A key that its table can't do without.
const fn must(name: &'static str, example: &'static str, says: &'static str) -> Key {
    Key { name, example, says, needed: true }
}

const fn table(
    path: &'static str,
    heading: &'static str,
    says: &'static str,
    keys: &'static [Key],
) -> Table {
    Table { path, heading, says, keys }
}

/// The table of this path.
pub fn table_of(path: &str) -> Option<&'static Table> {
    TABLES.iter().find(|table| table.path == path)
}

/// The key of this name in the table of this path.
pub fn key_of(path: &str, name: &str) -> Option<&'static Key> {
    table_of(path)?.keys.iter().find(|key| key.name == name)
}

/// Tables that have a key of this name, in the order of the file.
pub fn homes_of(name: &str) -> impl Iterator<Item = &'static Table> {
    TABLES.iter().filter(move |table| table.keys.iter().any(|key| key.name == name))
}

/// All tables, in the order in which a build file is best written.
pub static TABLES: &[Table] = &[
    table(
        "",
        "the top of the file",
        "the build file",
        &[
            key("format", "1", "which edition of the build file this is"),
            key("job", "", "title block and paper"),
            key("vehicle", "", "the vehicle that the equipment goes on"),
            key("roof", "", "shape of the roof and what is in the way"),
            key("weather", "", "air over the work and the cure"),
            key("loads", "", "wind, snow and measured coefficients"),
            key("crew", "", "who works and when"),
            key("panel", "", "one kind of panel"),
            key("frame", "", "the frame and how the panels lie on it"),
            key("mount", "", "a line of mounts along an edge of the frame"),
            key("entry", "", "where the cables go through the roof"),
            key("cutting", "", "saw, trim and useful leftovers"),
            key("stock", "", "a length that can be bought"),
            key("leftover", "", "a length on hand"),
            key("battery", "", "the battery"),
            key("restraint", "", "what holds the battery"),
            key("controller", "", "the charge controller"),
            key("circuit", "", "one cable run"),
            key("part", "", "a part cut from stock, stated directly"),
            key("hole", "", "a hole in a part, stated directly"),
            key("step", "", "a step of your own"),
            key("rate", "", "how long a piece of work takes you"),
            key("record", "", "a step that was done"),
        ],
    ),
    table(
        "job",
        "[job]",
        "title block and paper",
        &[
            must("title", "\"Solar roof\"", "title of the packet, at most 25 characters"),
            key("number", "\"0001\"", "document number, at most 16 characters"),
            key("revision", "\"A\"", "revision, at most 2 characters"),
            must("date", "\"2026-05-09\"", "date of issue, year first"),
            key("by", "\"expedition workshop\"", "who planned it"),
            key("units", "\"mm\"", "unit of bare numbers, mm or in"),
            key("paper", "\"A4\"", "sheet size, A4 or Letter"),
            key("currency", "\"EUR\"", "three letters printed with prices"),
            key("marking", "{ by = \"hand\" }", "how holes are marked and drilled"),
        ],
    ),
    table(
        "job.marking",
        "marking",
        "how holes are marked and drilled",
        &[
            key("by", "\"hand\"", "hand or jig"),
            key("zone", "\"2 mm\"", "circle in which the middle of a hole lands, as a diameter"),
        ],
    ),
    table(
        "vehicle",
        "[vehicle]",
        "the vehicle that the equipment goes on",
        &[
            key("name", "\"camper van\"", "what it is, in your own words"),
            key("height", "\"2610 mm\"", "ground to the highest point before the work"),
            must("speed", "\"110 km/h\"", "highest speed that it is driven or towed at"),
            must(
                "roof-skin",
                "{ material = \"steel-dc01\", thickness = \"0.8 mm\", finish = \"paint\" }",
                "what the roof is made of",
            ),
            key(
                "roof-limit",
                "{ moving = \"100 kg\", standing = \"250 kg\" }",
                "what the roof may carry by the vehicle's papers",
            ),
            key("behind-roof", "[\"wires along the right edge\"]", "what runs under the skin"),
        ],
    ),
    table(
        "vehicle.roof-skin",
        "roof-skin",
        "what the roof is made of",
        &[
            must("material", "\"steel-dc01\"", "material of the skin"),
            must("thickness", "\"0.8 mm\"", "thickness of the skin"),
            must("finish", "\"paint\"", "what a bond would stick to"),
        ],
    ),
    table(
        "vehicle.roof-limit",
        "roof-limit",
        "what the roof may carry",
        &[
            must("moving", "\"100 kg\"", "load while driving"),
            must("standing", "\"250 kg\"", "load at rest, people included"),
        ],
    ),
    table(
        "roof",
        "[roof]",
        "shape of the roof and what is in the way",
        &[
            must(
                "datum",
                "\"front edge of the roof, on the centre line\"",
                "where X and Y are zero",
            ),
            must("length", "3200", "length of the roof behind the datum"),
            must("width", "1620", "width of the roof, half on each side of the centre line"),
            key(
                "sections",
                "[{ x = 400, gaps = [[-700, 68], [0, 0], [700, 68]] }]",
                "gaps under a straightedge laid across",
            ),
            key(
                "along",
                "[[400, 7], [1600, 0], [2800, 7]]",
                "gaps under a straightedge laid lengthwise",
            ),
            key("crown", "{ chord = 1400, rise = 68 }", "one arc across, instead of gaps"),
            key("keep-out", "", "something on the roof that stays"),
        ],
    ),
    table(
        "roof.sections",
        "sections",
        "one straightedge laid across",
        &[
            must("x", "400", "how far behind the datum it lies"),
            must(
                "gaps",
                "[[-700, 68], [0, 0], [700, 68]]",
                "pairs of place across and gap down to the skin",
            ),
        ],
    ),
    table(
        "roof.crown",
        "crown",
        "one arc across",
        &[
            must("chord", "1400", "straight distance across"),
            must("rise", "68", "height of the roof over the middle of it"),
        ],
    ),
    table(
        "roof.keep-out",
        "[[roof.keep-out]]",
        "something on the roof that stays",
        &[
            must("name", "\"roof vent\"", "what it is"),
            must("x", "2560", "its front edge behind the datum"),
            must("y", "-150", "its left edge, right of the centre line"),
            must("length", "300", "its size along the vehicle"),
            must("width", "300", "its size across"),
            must("height", "90", "how far it stands over the skin"),
        ],
    ),
    table(
        "weather",
        "[weather]",
        "air over the work and the cure",
        &[
            key(
                "day",
                "{ temperature = \"15 °C\", humidity = \"62 %\" }",
                "warmest part of the day",
            ),
            key(
                "night",
                "{ temperature = \"7 °C\", humidity = \"86 %\" }",
                "coldest part of the night",
            ),
            key("temperature", "\"20 °C\"", "air that stays the same, as in a heated shed"),
            key("humidity", "\"55 %\"", "relative humidity that stays the same"),
            key(
                "hours",
                "[{ at = \"2026-05-16 08:00\", temperature = \"9 °C\", humidity = \"80 %\" }]",
                "air by the hour, from a forecast; a clock without a date holds every day",
            ),
            key("sky", "\"changing\"", "covered, clear or changing"),
            key("sun-warms", "\"15 K\"", "skin over air in the sun at noon"),
            key("night-cools", "\"4 K\"", "skin below air in a clear night"),
            key("daylight", "[\"05:30\", \"20:45\"]", "when it is light enough to work on a roof"),
            key("latitude", "\"50°\"", "degrees north, minus for south; for the hours of light"),
            key("altitude", "\"250 m\"", "height over the sea"),
            key("record-low", "\"-20 °C\"", "lowest temperature that the panels will ever meet"),
        ],
    ),
    table("weather.day", "day", "warmest part of the day", AIR),
    table("weather.night", "night", "coldest part of the night", AIR),
    table(
        "weather.hours",
        "hours",
        "air at one hour",
        &[
            must("at", "\"2026-05-16 08:00\"", "date and clock, or the clock alone"),
            must("temperature", "\"9 °C\"", "temperature of the air"),
            must("humidity", "\"80 %\"", "relative humidity"),
            key("sky", "\"rain\"", "dry or rain, until the next hour of the list"),
        ],
    ),
    table(
        "loads",
        "[loads]",
        "wind, snow and measured coefficients, where the usual ones do not fit",
        &[
            key("head-wind", "\"3 m/s\"", "wind from ahead on top of the design speed"),
            key("cross-wind", "\"8 m/s\"", "wind from the side while driving"),
            key(
                "storm-wind",
                "\"26 m/s\"",
                "basic wind of the parked storm by the map of your country",
            ),
            key(
                "uplift",
                "{ coefficient = 0.9, source = \"wind tunnel report 12\" }",
                "measured uplift coefficient of the array",
            ),
            key(
                "storm-pressure",
                "{ pressure = \"0.8 kPa\", source = \"harbour weather station\" }",
                "peak pressure of the parked storm, instead of the computed one",
            ),
            key("snow", "\"0.6 kPa\"", "snow load on the ground, where snow counts"),
            key("crash-class", "\"m1-n1\"", "vehicle class for crash levels, as information"),
        ],
    ),
    table(
        "loads.uplift",
        "uplift",
        "measured uplift coefficient of the array",
        &[
            must("coefficient", "0.9", "times the dynamic pressure the air lifts"),
            must("source", "\"wind tunnel report 12\"", "where it was measured"),
        ],
    ),
    table(
        "loads.storm-pressure",
        "storm-pressure",
        "peak pressure of the parked storm",
        &[
            must("pressure", "\"0.8 kPa\"", "peak pressure of the gusts"),
            must("source", "\"harbour weather station\"", "where it is from"),
        ],
    ),
    table(
        "crew",
        "[crew]",
        "who works and when",
        &[
            key("people", "2", "how many people"),
            key("start", "\"2026-05-16\"", "first day of work, year first"),
            key("day", "[\"08:00\", \"18:00\"]", "when work begins and ends"),
            key(
                "on",
                "[\"saturday\", \"sunday\"]",
                "days of the week with work; all if not stated",
            ),
            key("spare-tools", "[\"drill machine\"]", "tools that there are two of"),
        ],
    ),
    table(
        "panel",
        "[[panel]]",
        "one kind of panel",
        &[
            key("mark", "\"P\"", "letter before the number of each panel"),
            key("count", "3", "how many alike"),
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
        "[frame]",
        "the frame and how the panels lie on it",
        &[
            must("section", "\"aluminium-tube-25x25x2\"", "tube that it is made of"),
            must("corner", "\"push-in-connector-25x25x2\"", "how tubes meet at the corners"),
            key("long-side", "\"across\"", "which way the panels' long side lies"),
            key("rows", "1", "panels side by side across the roof"),
            key("columns", "3", "panels one behind the other"),
            key("gap", "10", "between neighbouring panels"),
            must("position", "{ x = 820, y = 0 }", "where on the roof"),
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
    table(
        "mount",
        "[[mount]]",
        "a line of mounts along an edge of the frame",
        &[
            must("mark", "\"F\"", "letter before the number of each mount"),
            key("name", "\"bonded foot\"", "name used on every sheet"),
            must("kind", "\"bonded-foot\"", "hinge, bonded-foot, bolted-foot or rail-clamp"),
            must("edge", "\"right\"", "edge of the frame: left, right, front or rear"),
            must("at", "[220, 820, 1420]", "middle of each along that edge"),
            key("hinge", "\"butt-hinge-60x60-stainless\"", "which hinge (kind hinge)"),
            key(
                "rail",
                "{ y = -544, height = 46, width = 40 }",
                "the rail it sits on (kinds hinge and rail-clamp)",
            ),
            key("lift", "\"30°\"", "how far the frame is lifted (kind hinge)"),
            key("bolt", "\"M6\"", "bolt from the mount to the frame"),
            key(
                "plate",
                "{ material = \"steel-s235\", length = 180, width = 90, thickness = 3 }",
                "plate on the skin (kind bonded-foot)",
            ),
            key("angle", "\"aluminium-angle-80x40x4\"", "angle of the bracket (feet and clamps)"),
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
    table(
        "entry",
        "[entry]",
        "where the cables go through the roof",
        &[
            key("mark", "\"E\"", "letter on the sheets"),
            must("x", "2500", "its middle behind the datum"),
            must("y", "330", "its middle, right of the centre line"),
            must("cables", "2", "cables that pass"),
            must("hole", "20", "hole through the skin"),
            must("length", "110", "foot of the housing along the vehicle"),
            must("width", "80", "foot of the housing across"),
            must("sealing", "\"polyurethane-sealant\"", "sealant under and round the housing"),
        ],
    ),
    table(
        "cutting",
        "[cutting]",
        "saw, trim and useful leftovers",
        &[
            key("saw", "\"hacksaw\"", "which saw"),
            key("kerf", "1.2", "width of the saw cut, if yours differs from the table"),
            key("trim", "5", "cut off one end of each new bar, saw cut included"),
            key("least-leftover", "200", "a shorter leftover is scrap"),
            key("sheet-kerf", "1.2", "width of the cut in sheets, 0 for a knife"),
            key("sheet-trim", "5", "cut off each edge of a new sheet, its cut included"),
            key("fraction", "\"1/32\"", "finest part of an inch on the cut sheets"),
        ],
    ),
    table(
        "stock",
        "[[stock]]",
        "a length that can be bought",
        &[
            key("section", "\"aluminium-tube-25x25x2\"", "which section, for a bar"),
            key("material", "\"aluminium-5754-h22\"", "which material, for a sheet"),
            key("stuff", "\"earth cable 6 mm²\"", "your own name, for cable, tape and the like"),
            must("length", "3000", "length as sold"),
            key("width", "1000", "width of the sheet as sold"),
            key("thickness", "3", "thickness of the sheet"),
            key("price", "\"21.50\"", "price of one"),
        ],
    ),
    table(
        "leftover",
        "[[leftover]]",
        "a length on hand",
        &[
            key("section", "\"aluminium-tube-25x25x2\"", "which section, for a bar"),
            key("material", "\"aluminium-5754-h22\"", "which material, for a sheet"),
            key("stuff", "\"earth cable 6 mm²\"", "your own name, for cable, tape and the like"),
            must("length", "1120", "length on hand"),
            key("width", "400", "width of the sheet on hand"),
            key("thickness", "3", "thickness of the sheet"),
            key("count", "1", "how many alike"),
            key("label", "\"from the shelf job\"", "what is written on it"),
        ],
    ),
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
            key("short-circuit", "\"2.4 kA\"", "short-circuit current by its data sheet"),
        ],
    ),
    table(
        "restraint",
        "[restraint]",
        "what holds the battery",
        &[
            must("straps", "1", "straps over the top"),
            must("strap-capacity", "\"2500 N\"", "lashing capacity of one strap in straight pull"),
            key("blocks", "4", "blocks round its foot"),
            must("block-height", "60", "height of the blocks"),
            key("screws-a-block", "2", "screws in each block"),
            must("screw", "{ diameter = 6, length = 60 }", "screw of the blocks"),
            must("floor", "\"plywood-birch\"", "what the floor is made of"),
            must("floor-thickness", "15", "thickness of the floor"),
        ],
    ),
    table(
        "restraint.screw",
        "screw",
        "screw of the blocks",
        &[
            must("diameter", "6", "diameter of the screw"),
            must("length", "60", "length of the screw"),
        ],
    ),
    table(
        "controller",
        "[controller]",
        "the charge controller",
        &[
            key("mark", "\"T\"", "letter on the sheets"),
            key("kind", "\"solar\"", "solar or dc-dc"),
            must("max-voltage", "\"100 V\"", "highest voltage that its input stands"),
            must("max-current", "\"20 A\"", "highest charging current"),
            key("connection", "\"parallel\"", "how the panels are joined"),
            must("charge-voltage", "\"14.4 V\"", "charging voltage"),
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
            key("current", "\"20 A\"", "design current"),
            key("insulation", "\"pvc-70\"", "insulation printed on the cable"),
            key("bundled", "2", "loaded conductors in the same bundle"),
            key("ambient", "\"40 °C\"", "air round the cable"),
            key("drop-limit", "\"3 %\"", "greatest voltage drop"),
        ],
    ),
    table(
        "part",
        "[[part]]",
        "a part cut from stock, stated directly",
        &[
            must("mark", "\"S\"", "letter before the number of each piece"),
            must("name", "\"shelf rail\"", "name on every sheet"),
            key("section", "\"aluminium-tube-25x25x2\"", "the section it is cut from"),
            key("material", "\"aluminium-5754-h22\"", "the material of a sheet part"),
            key("stuff", "\"earth cable 6 mm²\"", "the cable, tape or the like it is cut from"),
            must("length", "640", "cut length, between its outermost points"),
            key("width", "120", "width of a sheet part"),
            key("thickness", "3", "thickness of a sheet part"),
            key("count", "2", "how many alike"),
            key(
                "zero-end",
                "\"45°\"",
                "how far the zero end is off square; above zero with its long point at the left, seen along the part",
            ),
            key(
                "far-end",
                "\"45°\"",
                "the same of the far end; signs alike put both long points on one side",
            ),
            key("across", "25", "side of the section that the mitre runs across"),
            key(
                "turn",
                "\"no\"",
                "whether a sheet part may lie turned; no for grain or a rolled edge",
            ),
        ],
    ),
    table(
        "hole",
        "[[hole]]",
        "a hole in a part, stated directly",
        &[
            must("part", "\"S\"", "mark of the part"),
            must("face", "\"top\"", "face of the part: top, bottom, left or right"),
            must("x", "120", "from the zero end along the part"),
            must("y", "12.5", "from the datum edge of the face"),
            must("diameter", "6.5", "finished diameter"),
            must("purpose", "\"clearance\"", "what goes through it"),
        ],
    ),
    table(
        "step",
        "[[step]]",
        "a step of your own",
        &[
            must("title", "\"Fit the roof lining\"", "title on its sheet"),
            key("before", "\"drill the roof\"", "the step it comes before"),
            key("after", "\"drill the roof\"", "the step it comes after"),
            key("instead-of", "\"drill the roof\"", "the step that it replaces"),
            must("actions", "[\"Press the lining in place.\"]", "one instruction a line"),
            must("time", "\"30 min\"", "work time"),
            key("people", "1", "people at once"),
        ],
    ),
    table(
        "rate",
        "[[rate]]",
        "how long a piece of work takes you",
        &[
            must("name", "\"saw-aluminium\"", "which work"),
            must("time", "\"6 min\"", "time for one"),
        ],
    ),
    table(
        "record",
        "[[record]]",
        "a step that was done",
        &[
            must("step", "\"bond\"", "which step"),
            must("started", "\"2026-05-16 14:20\"", "when it began, by date and clock"),
            key("finished", "\"2026-05-16 15:10\"", "when it ended"),
            key("temperature", "\"12 °C\"", "air measured then"),
            key("humidity", "\"70 %\"", "humidity measured then"),
        ],
    ),
];

const AIR: &[Key] = &[
    must("temperature", "\"15 °C\"", "temperature of the air"),
    must("humidity", "\"62 %\"", "relative humidity"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_table_or_key_is_told_twice() {
        let mut seen = BTreeSet::new();
        for table in TABLES {
            assert!(seen.insert((table.path, "")), "{} twice", table.path);
            for key in table.keys {
                assert!(seen.insert((table.path, key.name)), "{}.{} twice", table.path, key.name);
                assert!(!key.says.is_empty());
            }
        }
    }

    #[test]
    fn a_key_without_an_example_is_a_table_with_keys_of_its_own() {
        for table in TABLES {
            for key in table.keys.iter().filter(|key| key.example.is_empty()) {
                let path = if table.path.is_empty() {
                    key.name.to_owned()
                } else {
                    format!("{}.{}", table.path, key.name)
                };
                assert!(table_of(&path).is_some(), "{path}");
            }
        }
    }
}
