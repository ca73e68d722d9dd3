//! `--only`: some of the sheets.

use super::fault::Fault;
use crate::page;

/// Keeps the sheets of these kinds.
pub fn keep(packet: &mut page::Packet, kinds: &[String]) -> Result<(), Fault> {
    let known = || {
        let mut known: Vec<String> = packet
            .sheets
            .iter()
            .filter_map(|s| s.tab.as_ref())
            .map(|t| t.word.to_lowercase())
            .collect();
        known.dedup();
        known
    };
    for kind in kinds {
        if !known().contains(&kind.to_lowercase()) {
            return Err(Fault::UnknownKind(kind.clone(), known()));
        }
    }
    packet.sheets.retain(|sheet| {
        sheet
            .tab
            .as_ref()
            .is_some_and(|tab| kinds.iter().any(|k| k.eq_ignore_ascii_case(&tab.word)))
    });
    Ok(())
}
