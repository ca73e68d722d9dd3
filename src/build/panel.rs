//! `[[panel]]`.

use crate::source::{Span, Stated};
use crate::units::{Current, Length, Mass, PerKelvin, Power, Voltage};

/// One kind of panel.
#[derive(Debug, Clone)]
pub struct Panel {
    /// Letter before the number of each panel on the sheets.
    pub mark: Stated<String>,
    /// How many alike.
    pub count: Stated<u32>,
    /// Which of the frames they lie on; absent: wherever a frame has room, in the order of the file.
    pub frame: Option<usize>,
    /// Long side.
    pub length: Stated<Length>,
    /// Short side.
    pub width: Stated<Length>,
    /// Height of the panel's own frame.
    pub thickness: Stated<Length>,
    /// Mass of one.
    pub mass: Stated<Mass>,
    /// Lower flange of the panel's own frame, that screws go into; of no size where no frame is
    /// screwed to it and none was stated.
    pub flange: Flange,
    /// Lower edge of the panel's frame up to its back sheet.
    pub recess: Stated<Length>,
    /// Power at standard test conditions.
    pub power: Option<Stated<Power>>,
    /// Open-circuit voltage at standard test conditions.
    pub voc: Option<Stated<Voltage>>,
    /// Short-circuit current at standard test conditions.
    pub isc: Option<Stated<Current>>,
    /// Voltage at the maximum power point.
    pub vmp: Option<Stated<Voltage>>,
    /// Current at the maximum power point.
    pub imp: Option<Stated<Current>>,
    /// Greatest fuse that its label allows in its string.
    pub max_fuse: Option<Stated<Current>>,
    /// Relative change of open-circuit voltage with temperature; never positive.
    pub voc_drift: Stated<PerKelvin>,
    /// Length of each lead that comes with the panel.
    pub lead: Stated<Length>,
    /// Place of the table.
    pub span: Span,
}

/// Lower flange of a panel's own frame.
#[derive(Debug, Clone)]
pub struct Flange {
    /// From the outer face inwards.
    pub width: Stated<Length>,
    /// Wall of the flange.
    pub thickness: Stated<Length>,
}
