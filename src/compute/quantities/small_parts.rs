//! Bolts, nuts, washers, rivets and screws.

use super::{ShopLine, pieces};
use crate::derive::{Fastening, PartKind, Screw, Work};
use crate::tables::Tables;
use crate::units::{Length, display};
use std::collections::BTreeMap;

/// Bolts up to this thread come in packs of small screws; common practice.
const SMALL: Length = Length::mm(6.0);

/// One line a kind and size.
pub(super) fn lines(work: &Work, tables: &Tables) -> Vec<ShopLine> {
    // Order of the shelf: by kind, then by words, so that like stands with like.
    let mut wanted: BTreeMap<(u8, String), (&'static str, f64)> = BTreeMap::new();
    let mut add = |order: u8, what: String, pack: &'static str, count: f64| {
        wanted.entry((order, what)).or_insert((pack, 0.0)).1 += count;
    };
    // A pin for each latch; a strap as second hold where the frame is opened by hand.
    let draws: usize = work.parts_of(PartKind::Latch).map(|part| part.pieces.len()).sum();
    if draws > 0 {
        add(6, "locking pin on a lanyard".to_owned(), "", draws as f64);
    }
    let by_hand = |fastening: &Fastening| {
        fastening.undone && matches!(fastening.screw, Screw::BoltInRivetNut { .. })
    };
    if draws > 0 || work.fastenings.iter().any(by_hand) {
        add(6, "webbing strap with buckle, 1 m".to_owned(), "", 1.0);
    }
    for fastening in &work.fastenings {
        let count = f64::from(fastening.count);
        match &fastening.screw {
            Screw::BoltInRivetNut { thread, length, nut } => {
                let head = if fastening.undone { "knob bolt" } else { "hexagon bolt A2-70" };
                add(
                    0,
                    format!("{head} {}", size(&thread.name, *length)),
                    bolt_pack(thread.diameter),
                    count,
                );
                add(2, format!("washer {}", thread.name), "washers", count);
                add(3, nut.words.clone(), "rivet-nuts", count);
            }
            Screw::BoltAndNut { thread, length, countersunk, sealed } => {
                let head =
                    if *countersunk { "countersunk screw A2-70" } else { "hexagon bolt A2-70" };
                add(
                    0,
                    format!("{head} {}", size(&thread.name, *length)),
                    bolt_pack(thread.diameter),
                    count,
                );
                add(1, format!("locking nut {}", thread.name), "nuts", count);
                add(
                    2,
                    format!("washer {}", thread.name),
                    "washers",
                    if *countersunk || *sealed { count } else { 2.0 * count },
                );
                if *sealed {
                    add(
                        2,
                        format!("sealing washer {}, stainless and EPDM", thread.name),
                        "washers",
                        count,
                    );
                }
            }
            Screw::Pin { diameter, length } => add(6, pin(*diameter, *length), "", count),
            Screw::Tapping { screw, length } => {
                add(
                    4,
                    format!("tapping screw {}, pan head", size(&screw.name, *length)),
                    "tapping-screws",
                    count,
                );
            }
            Screw::BlindRivet { rivet, length } => {
                add(
                    5,
                    format!("{} × {:.0}\u{a0}mm", rivet.words, length.to_mm()),
                    "blind-rivets",
                    count,
                );
            }
        }
    }
    for prop in &work.props {
        add(6, pin(prop.diameter, prop.foot_pin.1), "", 1.0);
    }
    wanted
        .into_iter()
        .map(|((_, what), (pack, count))| {
            let (need, buy) = pieces(tables, pack, count);
            ShopLine { what, need, buy, price: None }
        })
        .collect()
}

fn bolt_pack(diameter: Length) -> &'static str {
    if diameter <= SMALL { "screws-small" } else { "screws-large" }
}

/// "clevis pin 6 × 40 with clip, A2-50".
fn pin(diameter: Length, length: Length) -> String {
    let told = |length: Length| display::number_short(length.to_mm(), 1);
    format!(
        "clevis pin {}\u{a0}×\u{a0}{} with washer and spring clip, stainless",
        told(diameter),
        told(length)
    )
}

/// "M6 × 20".
fn size(thread: &str, length: Length) -> String {
    format!("{thread}\u{a0}×\u{a0}{}", display::number_short(length.to_mm(), 1))
}
