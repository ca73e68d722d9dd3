//! What stands between panels and controller: the isolator, and a fuse a string.

use super::panels::{PanelField, STRING_FUSE, STRINGS_WITHOUT_FUSE};
use super::{BRIGHT, Run};
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{FusePlace, Tables};
use crate::units::{Current, Voltage};

/// Preferred currents of switches, A (IEC 60059).
const SWITCHES: [f64; 11] = [10.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0];
/// Both conductors of panels whose minus is not tied to the vehicle body stay live: both are opened
/// (IEC 62548; IEC 60364-7-712; from memory).
const POLES: u32 = 2;

/// The switch that parts the panels from the controller.
#[derive(Debug, Clone)]
pub struct Isolator {
    /// Mark on the sheets.
    pub mark: &'static str,
    /// The run that it lies in.
    pub run: String,
    /// Voltage that it must break: open panels on the coldest morning.
    pub voltage: Voltage,
    /// Current that it must break: bright panels in short circuit.
    pub needs: Current,
    /// Its rating.
    pub rating: Current,
    /// Poles opened together.
    pub poles: u32,
}

/// A fuse in the plus of each string.
#[derive(Debug, Clone)]
pub struct StringFuse {
    /// How many: one a string.
    pub count: u32,
    /// Type, in words.
    pub kind: String,
    /// What takes it.
    pub holder: String,
    /// Rating.
    pub rating: Current,
    /// Current that the other strings can push back into one: a panel whose label allows a fuse of
    /// this much needs none.
    pub back: Current,
}

/// The isolator of the run from the panels.
pub(super) fn isolator(field: &PanelField, runs: &[Run], ledger: &mut Ledger) -> Option<Isolator> {
    let run = runs.iter().find(|run| run.ends.0 == "panels")?;
    let needs = field.short * BRIGHT;
    let rating = SWITCHES.iter().map(|amps| Current::a(*amps)).find(|rating| *rating >= needs)?;
    let voltage = field.cold.max(field.open);
    ledger.push(
        Figure::new("electrics.isolator.current", "rating of the isolator S1", rating.to_a(), "A")
            .formula("next of IEC 60059 from 1.25 Isc")
            .input("Isc", format!("{:.1} A", field.short.to_a()))
            .input("1.25 Isc", format!("{:.1} A", needs.to_a()))
            .source("IEC 62548; IEC 60059 currents; IEC 60947-3 DC-21B", Seen::Memory)
            .assume("the minus of the panels is not tied to the body: both poles are opened")
            .decides(),
    );
    ledger.push(
        Figure::new(
            "electrics.isolator.voltage",
            "direct voltage that the isolator S1 must break",
            voltage.to_v(),
            "V",
        )
        .formula("open-circuit voltage on the coldest morning")
        .source("IEC 62548; IEC 60947-3", Seen::Memory)
        .decides(),
    );
    Some(Isolator { mark: "S1", run: run.mark.clone(), voltage, needs, rating, poles: POLES })
}

/// A fuse for each string; none where so few lie side by side that none is asked, or none is sold.
pub(super) fn string_fuse(
    field: &PanelField,
    tables: &Tables,
    ledger: &mut Ledger,
) -> Option<StringFuse> {
    if field.strings <= STRINGS_WITHOUT_FUSE {
        return None;
    }
    let one = field.short / f64::from(field.strings);
    let (least, most) = (one * STRING_FUSE.0, one * STRING_FUSE.1);
    let fuse =
        tables.fuses.iter().filter(|row| row.place == FusePlace::String).find_map(|row| {
            row.breaking_at(field.cold)?;
            let rating = row.rating_at_or_above(least).filter(|rating| *rating <= most)?;
            Some(StringFuse {
                count: field.strings,
                kind: row.words.clone(),
                holder: row.holder.clone(),
                rating,
                back: one * f64::from(field.strings - 1),
            })
        })?;
    ledger.push(
        Figure::new("electrics.string-fuse", "fuse of a string", fuse.rating.to_a(), "A")
            .formula("1.5 Isc ≤ rating ≤ 2.4 Isc, and not above the panel's label")
            .input("Isc", format!("{:.2} A", one.to_a()))
            .input("pushed back", format!("{:.1} A", fuse.back.to_a()))
            .source("IEC 62548, 6.5", Seen::Memory)
            .decides(),
    );
    Some(fuse)
}
