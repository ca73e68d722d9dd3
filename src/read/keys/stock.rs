//! The cable entry, the saw and what is cut.

use super::{Table, key, must, table};

pub(super) const TABLES: &[Table] = &[
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
            key("mass", "\"0.3 kg\"", "mass of the housing"),
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
            key("cable", "\"6mm2\"", "size of a core that the cable runs are cut from"),
            key("insulation", "\"pvc-70\"", "its insulation, as in the runs"),
            key("colour", "\"red\"", "its colour, red or black"),
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
            key("cable", "\"6mm2\"", "size of a core that the cable runs are cut from"),
            key("insulation", "\"pvc-70\"", "its insulation, as in the runs"),
            key("colour", "\"red\"", "its colour, red or black"),
            must("length", "1120", "length on hand"),
            key("width", "400", "width of the sheet on hand"),
            key("thickness", "3", "thickness of the sheet"),
            key("count", "1", "how many alike"),
            key("label", "\"from the shelf job\"", "what is written on it"),
        ],
    ),
];
