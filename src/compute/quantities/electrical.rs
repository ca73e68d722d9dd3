//! Cables, what goes on their ends, fuses, isolator, entry, labels.

use super::{ShopLine, Tool, ToolGroup, packs, pieces};
use crate::build::{Build, Terminal};
use crate::compute::cut_list::CutList;
use crate::compute::electrics::{Conductor, Electrics, Fuse, Run, area_words};
use crate::derive::Work;
use crate::tables::Tables;
use crate::units::{Area, Length, Unit, display};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Stud of a battery or fuse that states none; common practice for batteries of this kind.
const STUD: &str = "M8";
/// Sleeve a lug: over its barrel and as much of the insulation; common practice.
const SLEEVE: Length = Length::mm(40.0);
/// Farthest from fixing to fixing: 450 mm (ABYC E-11, ISO 10133; from memory).
const FIXINGS: Length = Length::mm(450.0);
/// What stands at both ends of each conductor.
const ENDS: f64 = 2.0;

/// Everything on the electrical shelf.
pub(super) fn lines(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    cuts: Option<&CutList>,
    tables: &Tables,
) -> Vec<ShopLine> {
    let Some(electrics) = electrics.filter(|electrics| !electrics.runs.is_empty()) else {
        return Vec::new();
    };
    let mut lines = cables(build, electrics, cuts, tables);
    lines.extend(ends(build, electrics, tables));
    lines.extend(fuses(electrics));
    lines.extend(isolator(electrics));
    lines.extend(entry(build, work, electrics, tables));
    lines.extend(marking(electrics, tables));
    lines
}

/// A run with what the build file says of it.
pub(crate) fn joined<'a>(
    build: &'a Build,
    electrics: &'a Electrics,
) -> impl Iterator<Item = (&'a crate::build::Circuit, &'a Run, &'a Conductor)> {
    build.circuits.iter().enumerate().filter_map(|(index, circuit)| {
        let mark = format!("W{}", index + 1);
        let run = electrics.runs.iter().find(|run| run.mark == mark)?;
        Some((circuit, run, run.conductor.as_ref()?))
    })
}

/// Word for the letters of IEC 60757.
pub(crate) fn colour(letters: &str) -> &str {
    match letters {
        "RD" => "red",
        "BK" => "black",
        other => other,
    }
}

/// Stranded copper by insulation, size and colour, slack in it.
fn cables(
    build: &Build,
    electrics: &Electrics,
    cuts: Option<&CutList>,
    tables: &Tables,
) -> Vec<ShopLine> {
    let from_reel: Vec<&str> = cuts
        .iter()
        .flat_map(|cuts| &cuts.sections)
        .filter(|section| !section.section.sawn)
        .map(|section| section.section.name.as_str())
        .collect();
    let mut wanted: Vec<(String, Length)> = Vec::new();
    for (circuit, run, conductor) in joined(build, electrics) {
        let gauge = run.gauge.as_ref().map_or(String::new(), |gauge| format!(" (or {gauge})"));
        for letters in [run.colours.0, run.colours.1] {
            // What is cut from reels stands among the bars.
            let core = circuit.insulation.core(conductor.area, colour(letters));
            if from_reel.contains(&core.as_str()) {
                continue;
            }
            let what = format!(
                "{}, stranded, {}{gauge}, {}",
                circuit.insulation.words(),
                area_words(conductor.area),
                colour(letters)
            );
            match wanted.iter_mut().find(|(known, _)| *known == what) {
                Some((_, length)) => *length += run.cut,
                None => wanted.push((what, run.cut)),
            }
        }
    }
    wanted
        .into_iter()
        .map(|(what, length)| {
            let metres = length.to_m();
            let whole = tables.pack("cable").map_or(metres, |pack| pack.with_spares(metres)).ceil();
            line(what, format!("{metres:.2}\u{a0}m"), format!("{whole:.0}\u{a0}m"))
        })
        .collect()
}

/// What one end of a conductor gets.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum End {
    /// A lug on a stud.
    Lug(&'static str),
    /// A sleeve in a clamp.
    Sleeve,
    /// A crimped joint in line.
    Joint,
    /// As what it feeds takes it.
    Load,
}

/// Lugs, sleeves, joints, shrinking sleeve and connectors.
fn ends(build: &Build, electrics: &Electrics, tables: &Tables) -> Vec<ShopLine> {
    let mut wanted: BTreeMap<(End, String), (f64, Option<Length>)> = BTreeMap::new();
    for (circuit, run, conductor) in joined(build, electrics) {
        let mut add = |end: End, count: f64| {
            let entry =
                wanted.entry((end, conductor.name.clone())).or_insert((0.0, conductor.outer));
            entry.0 += count;
        };
        for terminal in [&*circuit.from, &*circuit.to] {
            match terminal {
                Terminal::Battery => add(End::Lug(STUD), ENDS),
                Terminal::Controller => add(End::Sleeve, ENDS),
                Terminal::Load(_) => add(End::Load, ENDS),
                Terminal::Panels => {}
            }
        }
        if electrics.isolator.as_ref().is_some_and(|isolator| isolator.run == run.mark) {
            // Each pole has a clamp on both sides.
            let poles = electrics.isolator.as_ref().map_or(0.0, |i| f64::from(i.poles));
            add(End::Sleeve, poles * 2.0);
        }
        for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
            match studs(fuse) {
                // The battery's own lug lies on the fuse's stud.
                Studs::OnTerminal => {}
                Studs::Two(stud) => add(End::Lug(stud), 2.0),
                Studs::Leads => add(End::Joint, 2.0),
            }
        }
    }
    let mut lines = Vec::new();
    let mut sleeves: Vec<(String, Option<Length>, f64)> = Vec::new();
    for ((end, size), (count, outer)) in wanted {
        let words = tables.cable_size(&size).map_or(size.clone(), |row| area_words(row.area));
        let what = match end {
            End::Lug(stud) => {
                let kind = match tables.lugs.lug_for(&size, stud) {
                    Some(lug) if lug.insulated => "insulated ring terminal",
                    Some(_) => "tinned copper tube lug",
                    None => "tinned copper lug, to order,",
                };
                format!("{kind} {words}, hole {stud} (the stud in hand wins)")
            }
            End::Sleeve => format!("end sleeve {words}, insulated"),
            End::Joint => format!("crimp joint {words}, sealed"),
            End::Load => format!("terminal {words}, as what is fed takes it"),
        };
        if matches!(end, End::Lug(_) | End::Joint) {
            match sleeves.iter_mut().find(|(known, _, _)| *known == words) {
                Some((_, _, total)) => *total += count,
                None => sleeves.push((words.clone(), outer, count)),
            }
        }
        let (need, buy) = pieces(tables, "lugs", count);
        lines.push(line(what, need, buy));
    }
    for (words, outer, count) in sleeves {
        let over = outer.map_or(String::new(), |outer| format!(", cable of {}", mm(outer)));
        let metres = (SLEEVE * count).to_m();
        let buy = tables.pack("heat-shrink").map_or_else(
            |_| format!("{:.0}\u{a0}m", metres.ceil()),
            |pack| packs(&pack.packs_for(pack.with_spares(metres)), "m"),
        );
        let what = format!("heat-shrink sleeve with adhesive, for {words}{over}");
        lines.push(line(what, format!("{metres:.2}\u{a0}m"), buy));
    }
    lines.extend(connectors(build, electrics));
    lines
}

enum Studs {
    OnTerminal,
    Two(&'static str),
    Leads,
}

/// How a fuse is joined.
fn studs(fuse: &Fuse) -> Studs {
    match (fuse.name.as_str(), fuse.bolt.as_deref()) {
        ("terminal", _) => Studs::OnTerminal,
        (_, Some("M5")) => Studs::Two("M5"),
        (_, Some(_)) => Studs::Two(STUD),
        (_, None) => Studs::Leads,
    }
}

/// Plugs between the panels' leads and the cable.
fn connectors(build: &Build, electrics: &Electrics) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let Some((_, _, conductor)) =
        joined(build, electrics).find(|(circuit, _, _)| *circuit.from == Terminal::Panels)
    else {
        return lines;
    };
    let size = area_words(conductor.area);
    let what = format!("solar plug and socket for {size}, of the make on the panels’ leads");
    lines.push(line(what, "1 pair".into(), "2 pairs".into()));
    let strings = electrics.field.map_or(1, |field| field.strings);
    if strings > 1 {
        let what = format!("branch connectors {strings} to 1, plus and minus, of the same make");
        lines.push(line(what, "1 pair".into(), "1 pair".into()));
    }
    lines
}

fn fuses(electrics: &Electrics) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let amps = |rating: crate::units::Current| {
        display::with_unit(&display::number_short(rating.to_a(), 1), "A")
    };
    for run in &electrics.runs {
        for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
            // One lies with the packet.
            let what = format!("{}: {}, {}", fuse.mark, fuse.kind, amps(fuse.rating));
            lines.push(line(what, "1".into(), "2".into()));
            let what = format!("{}: {}", fuse.mark, fuse.holder);
            lines.push(line(what, "1".into(), "1".into()));
        }
    }
    if let Some(fuse) = &electrics.string_fuse {
        let asked = format!(
            "if a panel’s label allows less than {}",
            display::with_unit(&display::number(fuse.back.to_a(), 1), "A")
        );
        let what = format!("{}, {} ({asked})", fuse.kind, amps(fuse.rating));
        lines.push(line(what, fuse.count.to_string(), (fuse.count + 1).to_string()));
        let what = format!("{} ({asked})", fuse.holder);
        lines.push(line(what, fuse.count.to_string(), fuse.count.to_string()));
    }
    lines
}

fn isolator(electrics: &Electrics) -> Option<ShopLine> {
    let isolator = electrics.isolator.as_ref()?;
    let mut what = format!(
        "{}: isolator for direct current (IEC\u{a0}60947-3), {}\u{a0}A at {}\u{a0}V or more",
        isolator.mark,
        display::number_short(isolator.rating.to_a(), 1),
        display::number(isolator.voltage.to_v().ceil(), 0)
    );
    let _ = write!(what, ", {} poles", isolator.poles);
    Some(line(what, "1".into(), "1".into()))
}

/// Grommet and glands where cables pass the roof.
fn entry(build: &Build, work: &Work, electrics: &Electrics, tables: &Tables) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let (Some(entry), Some(_)) = (&build.entry, &work.entry) else { return lines };
    let cable = joined(build, electrics)
        .filter(|(circuit, _, _)| *circuit.from == Terminal::Panels)
        .find_map(|(_, _, conductor)| conductor.outer);
    if let Some(cable) = cable {
        // Two cables side by side need their two diameters, more lie in a bundle no wider.
        let bundle = cable * f64::from((*entry.cables).clamp(1, 3).min(2));
        let fits = tables
            .grommets
            .iter()
            .filter(|row| row.hole <= *entry.hole + Length::mm(0.5) && bundle <= row.bore)
            .max_by(|a, b| a.hole.total_cmp(&b.hole));
        let what = match fits {
            Some(row) => {
                format!("rubber grommet, hole {}, bore {}", mm(row.hole), mm(row.bore))
            }
            None => format!("edge trim for the hole of {}", mm(*entry.hole)),
        };
        lines.push(line(what, "1".into(), "1".into()));
        if let Some(gland) = tables.glands.gland_for(cable) {
            let what = format!(
                "gland M{}, clamps {} to {}, if the housing has none for cable of {}",
                display::number_short(gland.diameter.to_mm(), 1),
                display::number_short(gland.clamp_min.to_mm(), 1),
                mm(gland.clamp_max),
                mm(cable)
            );
            let (need, buy) = pieces(tables, "glands", f64::from(*entry.cables));
            lines.push(line(what, need, buy));
        }
    }
    lines
}

/// Labels and ties.
fn marking(electrics: &Electrics, tables: &Tables) -> Vec<ShopLine> {
    let conductors = 2.0 * electrics.runs.len() as f64;
    let devices = electrics
        .runs
        .iter()
        .map(|run| usize::from(run.fuse.is_some()) + usize::from(run.load_fuse.is_some()))
        .sum::<usize>()
        + usize::from(electrics.isolator.is_some());
    let labels = conductors * ENDS + devices as f64;
    let ties: f64 = electrics.runs.iter().map(|run| (run.length / FIXINGS).ceil() + 1.0).sum();
    let (need, buy) = pieces(tables, "cable-ties", ties);
    vec![
        line(
            "wrap-round label, laminated, numbered as the wiring sheet".into(),
            format!("{labels:.0}"),
            format!("{:.0}", (labels * 1.1).ceil()),
        ),
        line("cable clip or tie with base, screwed".into(), need, buy),
    ]
}

/// Tools for cables and their ends.
pub(super) fn tools(build: &Build, electrics: Option<&Electrics>, list: &mut Vec<Tool>) {
    let Some(electrics) = electrics.filter(|electrics| !electrics.runs.is_empty()) else { return };
    let mut add = |what: String, used_for: &str| {
        list.push(Tool { group: ToolGroup::Wire, what, used_for: used_for.into() });
    };
    let sizes = |at: &dyn Fn(&Terminal) -> bool| {
        let mut sizes: Vec<_> = joined(build, electrics)
            .filter(|(circuit, _, _)| at(&circuit.from) || at(&circuit.to))
            .map(|(_, _, conductor)| conductor.area)
            .collect();
        sizes.sort_by(Area::total_cmp);
        sizes.dedup();
        let words: Vec<String> = sizes.into_iter().map(area_words).collect();
        words.join(", ")
    };
    let lugs = sizes(&|end| *end == Terminal::Battery);
    if !lugs.is_empty() {
        add(format!("crimp tool for lugs and ring terminals {lugs}"), "lugs");
        add("hot-air gun".into(), "heat-shrink sleeve");
        add("insulated spanner or socket for the battery’s studs".into(), "battery, fuse");
    }
    let clamps = sizes(&|end| *end == Terminal::Controller);
    if !clamps.is_empty() {
        add(format!("crimp tool for end sleeves {clamps}"), "controller, isolator");
        add("insulated torque screwdriver".into(), "clamps, by their makers’ torque");
    }
    let plugs = sizes(&|end| *end == Terminal::Panels);
    if !plugs.is_empty() {
        add(format!("crimp tool and spanners for solar plugs {plugs}"), "panel leads");
    }
    add("cable cutter, stripper".into(), "all conductors");
    let most = electrics.field.map_or(0.0, |field| field.cold.to_v().ceil());
    let volts = if most > 0.0 {
        format!(
            "meter for direct volts over {}, ohms",
            display::with_unit(&display::number(most, 0), "V")
        )
    } else {
        "meter for direct volts, ohms".to_owned()
    };
    add(volts, "every test before closing");
}

fn mm(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}

fn line(what: String, need: String, buy: String) -> ShopLine {
    ShopLine { what, need, buy, price: None }
}
