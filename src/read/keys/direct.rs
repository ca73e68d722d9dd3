//! What is stated directly, and what was done.

use super::{Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
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
            key(
                "before",
                "\"hinges\"",
                "the step it comes before: a name of ours, or a title of yours",
            ),
            key(
                "after",
                "\"hinges\"",
                "the step it comes after: a name of ours, or a title of yours",
            ),
            key("instead-of", "\"hinges\"", "the step of ours that it replaces"),
            must("actions", "[\"Press the lining in place.\"]", "one instruction a line"),
            must("time", "\"30 min\"", "work time"),
            key(
                "wait",
                "\"12 h\"",
                "how long it rests before what waits for it, and before driving",
            ),
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
