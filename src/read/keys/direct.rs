//! What is stated directly, and what was done.

use super::{PHOTO, Table, key, must, table};

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
            key(
                "leave-out",
                "\"tether\"",
                "the step of ours that is not done; the title tells why",
            ),
            key("purpose", "\"The lining hides the cables.\"", "what it is for, in one line"),
            key("tools", "[\"plastic wedge\", \"driver PH2\"]", "what to have ready, with sizes"),
            key("hold", "\"cables tried and taped\"", "what must be so before its first action"),
            key(
                "cautions",
                "[\"height\"]",
                "safety messages before its first action, by their names",
            ),
            key(
                "actions",
                "[\"Lift the lining.\", { do = \"Press it in place.\", done = \"gap\", high = 2, unit = \"mm\" }]",
                "one instruction a line; with what shows that it is right, between braces",
            ),
            key("time", "\"30 min\"", "work time"),
            key(
                "wait",
                "\"12 h\"",
                "how long it rests before what waits for it, and before driving",
            ),
            key("people", "1", "people at once"),
            key(
                "photo",
                "{ file = \"lining.jpg\", shows = \"lining in place\" }",
                "photograph for its sheet: JPEG, PNG or WebP; several in a list",
            ),
        ],
    ),
    table(
        "step.actions",
        "actions",
        "an instruction and what shows that it is right",
        &[
            must("do", "\"Press the lining in place.\"", "the instruction"),
            must("done", "\"gap to the frame\"", "what is measured, or what must be seen"),
            key("low", "0", "least value"),
            key("high", "2", "greatest value"),
            key("unit", "\"mm\"", "unit of both"),
        ],
    ),
    table("step.photo", "photo", "a photograph", PHOTO),
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
            key("by", "\"Robin\"", "who did it"),
            key("temperature", "\"12 °C\"", "air measured then"),
            key("humidity", "\"70 %\"", "humidity measured then"),
            key(
                "batch",
                "[{ stuff = \"hybrid adhesive\", lot = \"4711\", use-by = \"2027-03-31\" }]",
                "packs that were used up in it",
            ),
            key(
                "measured",
                "[{ what = \"bead height\", value = \"8 mm\" }]",
                "values that were read, by the number of the action or its words",
            ),
            key(
                "changes",
                "[\"Foot F2 moved 10 mm to the rear.\"]",
                "what was done in another way than planned",
            ),
            key(
                "photo",
                "{ file = \"foot-f1.jpg\", shows = \"foot F1 on its outline\" }",
                "photograph of it: JPEG, PNG or WebP; several in a list",
            ),
        ],
    ),
    table(
        "record.batch",
        "batch",
        "a pack by what is printed on it",
        &[
            must("stuff", "\"hybrid adhesive\"", "what it is"),
            must("lot", "\"4711\"", "its batch number"),
            key("use-by", "\"2027-03-31\"", "date by which it was to be used, year first"),
        ],
    ),
    table(
        "record.measured",
        "measured",
        "a value that was read",
        &[
            must("what", "\"bead height\"", "number of the action, or its words under done when"),
            must("value", "\"8 mm\"", "as read, with its unit"),
        ],
    ),
    table("record.photo", "photo", "a photograph", PHOTO),
];
