//! Screw threads with the heads, nuts, washers and holes that go with them.

use super::{Row, RowOrigin};
use crate::units::{Angle, Area, Length, Unit};

/// How much room a clearance hole gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// Fine series of ISO 273, close fit of ASME B18.2.8.
    Fine,
    /// Medium series, normal fit.
    Medium,
    /// Coarse series, loose fit.
    Coarse,
}

/// Clearance holes for a thread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// Fine or close.
    pub fine: Length,
    /// Medium or normal.
    pub medium: Length,
    /// Coarse or loose.
    pub coarse: Length,
}

impl Clearance {
    /// The hole for a fit.
    pub const fn of(self, fit: Fit) -> Length {
        match fit {
            Fit::Fine => self.fine,
            Fit::Medium => self.medium,
            Fit::Coarse => self.coarse,
        }
    }
}

/// A round screw head driven by a key.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct KeyHead {
    /// Greatest diameter.
    pub diameter: Length,
    /// Greatest height.
    pub height: Length,
    /// Key across flats.
    pub key: Length,
}

/// A washer.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Washer {
    /// Hole.
    pub bore: Length,
    /// Outside diameter.
    pub outer: Length,
    /// Thickness.
    pub thickness: Length,
}

/// A screw thread, coarse or fine, metric or inch.
#[derive(Clone, Debug, PartialEq)]
pub struct Thread {
    /// `M6`, `1/4-20`.
    pub name: String,
    /// Nominal diameter.
    pub diameter: Length,
    /// Pitch.
    pub pitch: Length,
    /// Tensile stress area.
    pub stress_area: Area,
    /// Clearance holes.
    pub clearance: Clearance,
    /// Drill before tapping.
    pub tapping_drill: Length,
    /// Hexagon head across flats.
    pub hex_width: Length,
    /// Hexagon of older stock, where it differs.
    pub hex_width_old: Option<Length>,
    /// Height of a hexagon head.
    pub hex_height: Length,
    /// Cylindrical head with a socket.
    pub socket_head: KeyHead,
    /// Button head with a socket.
    pub button_head: KeyHead,
    /// Countersunk head: the largest of the standards in use, so that none stands proud.
    pub countersunk_head: KeyHead,
    /// Smallest countersunk head sold, where known: what holds in a worn hole.
    pub countersunk_least: Option<Length>,
    /// Included angle of a countersunk head.
    pub countersunk_angle: Angle,
    /// Hexagon nut across flats.
    pub nut_width: Length,
    /// Greatest height of a plain nut.
    pub nut_height: Length,
    /// Greatest height of a nut with a nylon ring.
    pub locking_nut_height: Length,
    /// Height of the lower locking nut that shops also sell.
    pub locking_nut_height_low: Option<Length>,
    /// Plain washer.
    pub washer: Washer,
    /// Large (penny) washer.
    pub large_washer: Washer,
    /// Lengths as sold.
    pub lengths: Vec<Length>,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Thread {
    /// The shortest length sold that is at least `least`.
    pub fn length_at_least(&self, least: Length) -> Option<Length> {
        self.lengths.iter().copied().filter(|length| *length >= least).min_by(Length::total_cmp)
    }

    /// Whether it is a metric thread.
    pub fn is_metric(&self) -> bool {
        self.name.starts_with(['M', 'm'])
    }

    /// Core diameter of the external thread, `d − 1.2269 P` (ISO 68-1 profile).
    pub fn core(&self) -> Length {
        self.diameter - self.pitch * 1.2269
    }
}

fn key_head(row: &mut Row<'_>) -> KeyHead {
    KeyHead {
        diameter: row.quantity("diameter", Unit::MM),
        height: row.quantity("height", Unit::MM),
        key: row.quantity("key", Unit::MM),
    }
}

fn washer(row: &mut Row<'_>, key: &'static str) -> Washer {
    let [bore, outer, thickness] = row.quantities(key, Unit::MM);
    Washer { bore, outer, thickness }
}

entry!(Thread, "thread", from_row);

impl Thread {
    fn from_row(row: &mut Row<'_>) -> Self {
        let [fine, medium, coarse] = row.quantities("clearance", Unit::MM);
        let hex_width: Length = row.quantity("hex-width", Unit::MM);
        Self {
            name: row.words("name"),
            diameter: row.quantity("diameter", Unit::MM),
            pitch: row.quantity("pitch", Unit::MM),
            stress_area: row.quantity("stress-area", Unit::MM2),
            clearance: Clearance { fine, medium, coarse },
            tapping_drill: row.quantity("tapping-drill", Unit::MM),
            hex_width,
            hex_width_old: row.maybe("hex-width-old", Unit::MM),
            hex_height: row.quantity("hex-height", Unit::MM),
            socket_head: row.needed_inner("socket-head", key_head),
            button_head: row.needed_inner("button-head", key_head),
            countersunk_head: row.needed_inner("countersunk-head", key_head),
            countersunk_least: row.maybe("countersunk-least", Unit::MM),
            countersunk_angle: row.quantity("countersunk-angle", Unit::DEG),
            nut_width: row.maybe("nut-width", Unit::MM).unwrap_or(hex_width),
            nut_height: row.quantity("nut-height", Unit::MM),
            locking_nut_height: row.quantity("locking-nut-height", Unit::MM),
            locking_nut_height_low: row.maybe("locking-nut-height-low", Unit::MM),
            washer: washer(row, "washer"),
            large_washer: washer(row, "large-washer"),
            lengths: row.quantity_list("lengths", Unit::MM),
            origin: row.origin(),
        }
    }
}
