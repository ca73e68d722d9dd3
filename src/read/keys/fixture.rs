//! Things that are no panel.

use super::{Table, key, must, table};

pub(super) const TABLES: &[Table] = &[table(
    "fixture",
    "[[fixture]]",
    "another thing bolted through a skin: a fan, a carrier",
    &[
        must("mark", "\"K\"", "mark on the sheets"),
        must("name", "\"wheel carrier\"", "what it is"),
        must("on", "\"rear-door\"", "what it is bolted to: `roof` or `rear-door`"),
        must(
            "part",
            "\"S\"",
            "the [[part]] whose clearance holes are its bolts; its length runs along the roof, or up the door",
        ),
        must(
            "x",
            "0",
            "the middle of that part: behind the datum on a roof, right of the middle on a door",
        ),
        must(
            "y",
            "640",
            "the middle of that part: right of the centre line on a roof, over the lower edge on a door",
        ),
        must("thread", "\"M8\"", "its bolts, with washers and locking nuts"),
        must(
            "mass",
            "\"24 kg\"",
            "all that they hold outside, with what it carries; its part too, where a plate lies behind",
        ),
        must("reach", "190", "from the skin to the middle of that mass"),
        must("depth", "320", "how far it stands off the skin"),
        must("width", "700", "its width across the vehicle"),
        must("length", "700", "its length along a roof, or its height on a door"),
        key("skin", "\"steel-dc01\"", "material of the skin"),
        key("skin-thickness", "0.8", "thickness of the skin"),
        key("backing", "3", "thickness of the plate behind the skin; without it large washers"),
        key("opening-length", "355", "opening to be cut: along a roof, or up a door"),
        key("opening-width", "355", "the same across; one side alone is a square"),
        must("sealing", "\"hybrid-sealant\"", "sealant between it and the skin"),
    ],
)];
