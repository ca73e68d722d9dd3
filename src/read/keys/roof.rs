//! The roof and what is in the way.

use super::{PHOTO, Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
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
            key(
                "photo",
                "{ file = \"roof.jpg\", shows = \"roof before the work\" }",
                "photograph for the sheet of sizes: JPEG, PNG or WebP; several in a list",
            ),
        ],
    ),
    table("roof.photo", "photo", "a photograph", PHOTO),
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
            key("height", "90", "how far it stands over the skin; a walkway needs none"),
            key(
                "kind",
                "\"fan\"",
                "thing, fan, antenna, hatch, walkway or rib; frames may pass over a rib",
            ),
            key(
                "lid",
                "{ hinged = \"rear\", opens = \"120°\" }",
                "its lid, where one opens beside it",
            ),
            key("count", "6", "how many alike lie beside each other, square to their long side"),
            key("every", "120", "from one of them to the next"),
        ],
    ),
    table(
        "roof.keep-out.lid",
        "lid",
        "a lid that opens about one of its edges",
        &[
            must("hinged", "\"rear\"", "edge that it turns about: left, right, front or rear"),
            must("opens", "\"120°\"", "how far it opens, 90° is upright"),
        ],
    ),
];
