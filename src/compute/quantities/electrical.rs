//! Cables, what goes on their ends, fuses, isolator, entry, labels.

use super::{ShopLine, Tool, ToolGroup, packs, pieces};
use crate::build::{Build, Insulation, Terminal};
use crate::compute::cables::{Cables, Piece, joined};
use crate::compute::cut_list::CutList;
use crate::compute::electrics::{Electrics, Switch, area_words};
use crate::tables::Tables;
use crate::units::{Area, Length, Unit, display};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// What stands at both ends of each conductor.
const ENDS: f64 = 2.0;

/// Everything on the electrical shelf.
pub(super) fn lines(
    build: &Build,
    wired: Option<(&Electrics, &Cables)>,
    cuts: Option<&CutList>,
    tables: &Tables,
) -> Vec<ShopLine> {
    let Some((electrics, laid)) = wired else { return Vec::new() };
    let mut lines = cables(build, electrics, cuts, tables);
    lines.extend(ends(laid, tables));
    lines.extend(connectors(build, electrics));
    lines.extend(fuses(electrics));
    lines.extend(isolator(electrics));
    lines.extend(electrics.switches().map(|(_, switch)| self::switch(switch)));
    lines.extend(entry(build, laid, tables));
    lines.extend(marking(electrics, laid, tables));
    lines
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
    let mut add =
        |insulation: Insulation, area: Area, gauge: Option<&String>, letters: &str, cut: Length| {
            // What is cut from reels stands among the bars.
            if from_reel.contains(&insulation.core(area, colour(letters)).as_str()) {
                return;
            }
            let gauge = gauge.map_or(String::new(), |gauge| format!(" (or {gauge})"));
            let what = format!(
                "{}, stranded, {}{gauge}, {}",
                insulation.words(),
                area_words(area),
                colour(letters)
            );
            match wanted.iter_mut().find(|(known, _)| *known == what) {
                Some((_, length)) => *length += cut,
                None => wanted.push((what, cut)),
            }
        };
    for (circuit, run, conductor) in joined(build, electrics) {
        for letters in [run.colours.0, run.colours.1] {
            let insulation = *circuit.insulation;
            add(insulation, conductor.area, run.gauge.as_ref(), letters, run.cut.all);
        }
    }
    for single in electrics.singles() {
        let area = single.conductor.area;
        add(single.insulation, area, single.gauge.as_ref(), single.colour, single.cut.all);
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

/// Lugs, sleeves, joints and shrinking sleeve.
fn ends(laid: &Cables, tables: &Tables) -> Vec<ShopLine> {
    let mut wanted: BTreeMap<(&Piece, &str), f64> = BTreeMap::new();
    let mut sleeves: Vec<(Length, Length)> = Vec::new();
    for end in laid.ends.iter().filter(|end| end.piece != Piece::Plug) {
        *wanted.entry((&end.piece, &end.size)).or_insert(0.0) += 1.0;
        let Some((bore, length)) = end.sleeve else { continue };
        match sleeves.iter_mut().find(|(known, _)| *known == bore) {
            Some((_, all)) => *all += length,
            None => sleeves.push((bore, length)),
        }
    }
    let mut lines = Vec::new();
    for ((piece, size), count) in wanted {
        let words = tables.cable_size(size).map_or(size.to_owned(), |row| area_words(row.area));
        let what = match piece {
            Piece::Lug(stud) => {
                let kind = match tables.lugs.lug_for(size, stud) {
                    Some(lug) if lug.insulated => "insulated ring terminal",
                    Some(_) => "tinned copper tube lug",
                    None => "tinned copper lug, to order,",
                };
                format!("{kind} {words}, hole {stud} (the stud in hand wins)")
            }
            Piece::Sleeve => format!("end sleeve {words}, insulated"),
            Piece::Joint => format!("crimp joint {words}, sealed"),
            Piece::Load | Piece::Plug => format!("terminal {words}, as what is fed takes it"),
        };
        let (need, buy) = pieces(tables, "lugs", count);
        lines.push(line(what, need, buy));
    }
    sleeves.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (bore, all) in sleeves {
        let metres = all.to_m();
        let buy = tables.pack("heat-shrink").map_or_else(
            |_| format!("{:.0}\u{a0}m", metres.ceil()),
            |pack| packs(&pack.packs_for(pack.with_spares(metres)), "m"),
        );
        let what = format!("shrinking sleeve with adhesive, bore {} as sold", mm(bore));
        lines.push(line(what, format!("{metres:.2}\u{a0}m"), buy));
    }
    lines
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
    if let Some((fuse, marks)) =
        electrics.bank.as_ref().and_then(|bank| Some((bank.fuse.as_ref()?, &bank.fuses)))
    {
        let count = marks.len();
        let what = format!("{}: {}, {}", marks.join(", "), fuse.kind, amps(fuse.rating));
        lines.push(line(what, count.to_string(), (count + 1).to_string()));
        let what = format!("{}: {}", marks.join(", "), fuse.holder);
        lines.push(line(what, count.to_string(), count.to_string()));
    }
    if let Some(fuse) = &electrics.string_fuse {
        let asked = if fuse.certain {
            String::new()
        } else {
            let back = display::with_unit(&display::number(fuse.back.to_a(), 1), "A");
            format!(" (if a panel’s label allows less than {back})")
        };
        let what = format!("{}, {}{asked}", fuse.kind, amps(fuse.rating));
        lines.push(line(what, fuse.count.to_string(), (fuse.count + 1).to_string()));
        let what = format!("{}{asked}", fuse.holder);
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

/// A switch of the battery's runs.
fn switch(switch: &Switch) -> ShopLine {
    let poles =
        if switch.poles == 1 { "1 pole".to_owned() } else { format!("{} poles", switch.poles) };
    let what = format!(
        "{}: battery switch for direct current, {}\u{a0}A at {}\u{a0}V or more, {poles}",
        switch.mark,
        display::number_short(switch.rating.to_a(), 1),
        display::number(switch.voltage.to_v().ceil(), 0)
    );
    line(what, "1".into(), "1".into())
}

/// Grommet and glands where cables pass the roof.
fn entry(build: &Build, laid: &Cables, tables: &Tables) -> Vec<ShopLine> {
    let mut lines = Vec::new();
    let (Some(entry), Some(passage)) = (&build.entry, &laid.entry) else { return lines };
    let what = match passage.grommet {
        Some((hole, bore)) => format!("rubber grommet, hole {}, bore {}", mm(hole), mm(bore)),
        None => format!("edge trim for the hole of {}", mm(*entry.hole)),
    };
    lines.push(line(what, "1".into(), "1".into()));
    if let Some((thread, _, [least, most])) = passage.gland {
        let what = format!(
            "gland M{}, clamps {} to {}, if the housing has none for cable of {}",
            display::number_short(thread.to_mm(), 1),
            display::number_short(least.to_mm(), 1),
            mm(most),
            mm(passage.core)
        );
        let (need, buy) = pieces(tables, "glands", f64::from(*entry.cables));
        lines.push(line(what, need, buy));
    }
    lines
}

/// Labels and ties.
fn marking(electrics: &Electrics, laid: &Cables, tables: &Tables) -> Vec<ShopLine> {
    let conductors = 2.0 * electrics.runs.len() as f64;
    let devices = electrics
        .runs
        .iter()
        .map(|run| usize::from(run.fuse.is_some()) + usize::from(run.load_fuse.is_some()))
        .sum::<usize>()
        + usize::from(electrics.isolator.is_some())
        + electrics.switches().count()
        + electrics.bank.as_ref().map_or(0, |bank| bank.fuses.len());
    let conductors = conductors + electrics.singles().count() as f64;
    let labels = conductors * ENDS + devices as f64;
    let ties: f64 = laid.laid.iter().map(|run| f64::from(run.clips)).sum();
    let (need, buy) = pieces(tables, "cable-ties", ties);
    vec![
        line(
            "clear tape or sleeve over the labels of the label sheet".into(),
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
