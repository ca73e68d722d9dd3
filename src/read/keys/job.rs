//! The packet and the vehicle.

use super::{PHOTO, Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
    table(
        "",
        "the top of the file",
        "the build file",
        &[
            key("format", "1", "which edition of the build file this is"),
            key(
                "materials",
                "\"my-tables\"",
                "folder of your own tables, as seen from the build file",
            ),
            key("job", "", "title block and paper"),
            key("vehicle", "", "the vehicle that the equipment goes on"),
            key("roof", "", "shape of the roof and what is in the way"),
            key("weather", "", "air over the work and the cure"),
            key("loads", "", "wind, snow and measured coefficients"),
            key("crew", "", "who works and when"),
            key("panel", "", "one kind of panel"),
            key("frame", "", "one frame and how the panels lie on it"),
            key("mount", "", "a line of mounts along an edge of the frame"),
            key("entry", "", "where the cables go through the roof"),
            key("cutting", "", "saw, trim and useful leftovers"),
            key("stock", "", "a length that can be bought"),
            key("leftover", "", "a length on hand"),
            key("battery", "", "the battery"),
            key("restraint", "", "what holds the battery"),
            key("controller", "", "the charge controller"),
            key("supply", "", "the vehicle’s own battery, which feeds the charger"),
            key("isolator", "", "the switch between panels and controller"),
            key("earth", "", "whether the minus is joined to the body"),
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
            key(
                "balance",
                "{ mass = \"2480 kg\", centre-height = \"880 mm\" }",
                "where its own weight lies",
            ),
            key("behind-roof", "[\"wires along the right edge\"]", "what runs under the skin"),
            key(
                "photo",
                "{ file = \"van.jpg\", shows = \"roof before the work\" }",
                "photograph for the sheet of sizes: JPEG, PNG or WebP; several in a list",
            ),
        ],
    ),
    table("vehicle.photo", "photo", "a photograph", PHOTO),
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
        "vehicle.balance",
        "balance",
        "where the vehicle's own weight lies",
        &[
            must("mass", "\"2480 kg\"", "mass as it is driven"),
            must("centre-height", "\"880 mm\"", "ground to its centre of gravity"),
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
];
