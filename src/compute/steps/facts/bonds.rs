//! Tape, bead, cleaning and priming of the bonded mounts.

use super::{Facts, Item, Sources, item, say};
use crate::build::{Build, Finish};
use crate::derive::Bond;
use crate::geometry::Rect;
use crate::source::{Figure, Ledger, Seen};
use crate::tables::{Cleaner, Primer, Tables};
use crate::units::{Area, Duration, Length, Temperature, Volume, display};

/// Face of paint for the tables of primers.
const PAINT: &str = "paint-on-steel";
/// A cleaned face is joined within the hour; common practice.
const CLEAN_FOR: Duration = Duration::minutes(60.0);
/// Cleaner that is taken unless it harms a face.
const CLEANER: &str = "isopropanol-water";

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>, ledger: &mut Ledger) {
    let work = from.work;
    let bonds: Vec<&Bond> = work
        .bonds
        .iter()
        .filter(|bond| work.mounts.iter().any(|mount| mount.mark == bond.mark))
        .collect();
    let bonded: Vec<Item> = bonds.iter().map(|bond| item([("mark", bond.mark.clone())])).collect();
    facts.count("bonded.count", bonded.len());
    facts.list("bonded", bonded);
    facts.count("bonds", bonds.len());
    let isocyanate = work
        .bonds
        .iter()
        .filter_map(|bond| bond.adhesive.as_ref())
        .chain(from.build.entry.iter().map(|entry| &entry.sealing.value))
        .chain(from.build.fixtures.iter().map(|fixture| &fixture.sealing.value))
        .any(|adhesive| adhesive.has_hazard("isocyanate"));
    facts.count("hazard.isocyanate", usize::from(isocyanate));
    for name in ["tape", "bead", "bead.isocyanate", "primer", "primer.isocyanate"] {
        facts.count(name, 0);
    }
    let Some(first) = bonds.first() else { return };
    facts.count("bond-plates", bonds.len());
    facts.count("bond-skins", bonds.len());
    facts.count("gloves.count", 2 + bonds.len());
    facts.set("gloves", format!("{} pairs", 2 + bonds.len()));
    let round: Length = bonds.iter().map(|bond| (bond.length + bond.width) * 2.0).sum();
    facts.number("mask.metres", round.to_m(), say::with(round.to_m(), "m"));
    facts.set(
        "mask.metres.words",
        display::with_unit(&display::number(round.to_m().ceil(), 0), "m"),
    );
    set_weather(facts, &bonds);
    set_preparation(facts, from, &bonds, first);
    set_tape(facts, &bonds, first);
    set_bead(facts, &bonds, ledger);
    let least = bonds.iter().map(|bond| bond.thickness).reduce(Length::min).unwrap_or_default();
    let most = bonds.iter().map(|bond| bond.thickest).fold(least, Length::max);
    // A feeler gauge tells a tenth.
    let told = |value: f64| display::number(value, 1);
    facts.range("feet.gap", (told(least.to_mm() - 0.1), told(most.to_mm() + 0.1)));
    facts.set("press.time", display::with_unit(&display::number(facts.low("press"), 0), "s"));
}

fn celsius(temperature: Temperature) -> String {
    display::with_unit(&display::number(temperature.to_celsius(), 0), "°C")
}

/// Skin temperature that suits all that is bonded, and the distance to the dew point.
fn set_weather(facts: &mut Facts, bonds: &[&Bond]) {
    let mut low: Option<Temperature> = None;
    let mut high: Option<Temperature> = None;
    let mut take = |from: Temperature, to: Temperature| {
        low = Some(low.map_or(from, |low| low.max(from)));
        high = Some(high.map_or(to, |high| high.min(to)));
    };
    let mut margin: Option<f64> = None;
    for bond in bonds {
        if let Some((tape, _)) = &bond.tape {
            take(tape.least_application, tape.most_application);
        }
        if let Some(adhesive) = &bond.adhesive {
            take(adhesive.application[0], adhesive.application[1]);
            let asked = adhesive.dew_margin.to_k();
            margin = Some(margin.map_or(asked, |margin: f64| margin.max(asked)));
        }
    }
    if let (Some(low), Some(high)) = (low, high) {
        facts.set("skin.low", celsius(low));
        facts.set("skin.high", celsius(high));
    }
    // Where only tape is bonded: 3 °C over the dew point, as ISO 8502-4 asks for painting.
    facts.set("dew.margin", display::with_unit(&display::number(margin.unwrap_or(3.0), 0), "°C"));
}

/// Materials of the two faces of a bond, for the tables of cleaners and primers.
pub fn faces_of(build: &Build, bond: &Bond) -> [String; 2] {
    faces_under(build, &bond.plate.name)
}

/// The skin as it is finished, and a part of some material on it.
pub fn faces_under(build: &Build, part: &str) -> [String; 2] {
    let skin = build.vehicle.as_ref().map_or(String::new(), |vehicle| match *vehicle.skin.finish {
        Finish::Paint | Finish::OldPaint => PAINT.to_owned(),
        Finish::Gelcoat | Finish::ChalkyGelcoat | Finish::Bare => {
            vehicle.skin.material.name.clone()
        }
    });
    [skin, part.to_owned()]
}

/// The usual cleaner, or the first that harms neither face.
pub fn cleaner_for<'t>(tables: &'t Tables, faces: &[String; 2]) -> Option<&'t Cleaner> {
    let fits = |cleaner: &&Cleaner| !cleaner.unfit_for.iter().any(|face| faces.contains(face));
    let usual = tables.cleaner(CLEANER).ok().filter(fits);
    usual.or_else(|| tables.cleaners.iter().find(fits))
}

/// The primer that one of the bonds needs on one of the faces.
pub fn primer_for<'t>(
    tables: &'t Tables,
    bonds: &[&Bond],
    faces: &[String; 2],
) -> Option<&'t Primer> {
    let first = bonds.first()?;
    let sticks = first
        .adhesive
        .iter()
        .filter(|adhesive| adhesive.needs_primer)
        .map(|adhesive| adhesive.name.as_str())
        .chain(first.tape.iter().map(|(tape, _)| tape.name.as_str()));
    sticks.into_iter().find_map(|stick| {
        tables.primers.iter().find(|primer| faces.iter().any(|face| primer.suits(stick, face)))
    })
}

/// Wipes for the faces of bonds: by area, twice over, and four a joint at least.
pub fn wipes_for(cleaner: &Cleaner, area: Area, joints: usize) -> f64 {
    (area.to_m2() * cleaner.wipes_per_m2 * 2.0).ceil().max(joints as f64 * 4.0)
}

fn set_preparation(facts: &mut Facts, from: &Sources<'_>, bonds: &[&Bond], first: &Bond) {
    let faces = faces_of(from.build, first);
    let area: Area = bonds.iter().map(|bond| bond.length * bond.width * 2.0).sum();
    let cleaner = cleaner_for(from.tables, &faces);
    if let Some(cleaner) = cleaner {
        let short = cleaner.words.split(',').next().unwrap_or_default().to_owned();
        facts.set("cleaner.words", short);
        // Twice over: before and after the abrasive.
        facts.set("cleaner.amount", millilitres(cleaner.volume_for(area) * 2.0));
        facts.set("wipes", display::number(wipes_for(cleaner, area, bonds.len()), 0));
        facts.set("feet.wipes", (bonds.len() * 2).to_string());
        let [low, high] = cleaner.flash_off;
        facts.range("cleaner", say::range(low.to_minutes(), high.to_minutes()));
    }
    // In the air between night and day, at which most bonds are made.
    let weather = &from.build.weather;
    let (day, night) = (*weather.day.temperature, *weather.night.temperature);
    let middle = night + (day - night) * 0.5;
    let dries = cleaner.map_or(Duration::ZERO, |cleaner| cleaner.wait(middle));
    facts.number("dries.minutes", dries.to_minutes(), display::duration(dries));
    facts.number("keeps.minutes", CLEAN_FOR.to_minutes(), display::duration(CLEAN_FOR));
    let Some(primer) = primer_for(from.tables, bonds, &faces) else {
        facts.count("primed-faces", 0);
        return;
    };
    let dries = dries.max(primer.flash_off[1]);
    facts.number("dries.minutes", dries.to_minutes(), display::duration(dries));
    facts.number(
        "keeps.minutes",
        primer.bond_within.to_minutes(),
        display::duration(primer.bond_within),
    );
    facts.count("primed-faces", bonds.len() * 2);
    facts.count("primer", 1);
    facts.set("primer.words", primer.words.clone());
    facts.set("primer.amount", millilitres(primer.volume_for(area)));
    facts.range(
        "primer",
        say::range(primer.flash_off[0].to_minutes(), primer.flash_off[1].to_minutes()),
    );
    facts.set("primer.within", display::duration(primer.bond_within));
    let isocyanate = primer.hazards.iter().any(|hazard| hazard == "isocyanate");
    facts.count("primer.isocyanate", usize::from(isocyanate));
}

fn millilitres(volume: Volume) -> String {
    display::with_unit(&display::number((volume.to_ml() / 5.0).ceil() * 5.0, 0), "ml")
}

fn set_tape(facts: &mut Facts, bonds: &[&Bond], first: &Bond) {
    let length: Length = bonds.iter().flat_map(|bond| &bond.strips).map(|strip| long(*strip)).sum();
    facts.number("tape.metres", length.to_m(), say::with(length.to_m(), "m"));
    let Some((tape, thickness)) = &first.tape else { return };
    facts.count("tape", first.strips.len());
    let width = first.strips.first().map_or(Length::ZERO, |strip| across(*strip));
    facts
        .set("tape.words", format!("{}, {} × {}", tape.words, say::mm(width), say::mm(*thickness)));
    facts.set("tape.length", display::with_unit(&display::number(length.to_m(), 2), "m"));
    facts.set("tape.strips", first.strips.len().to_string());
    facts.set("tape.width", say::mm(width));
}

fn long(rect: Rect) -> Length {
    rect.width().max(rect.height())
}

fn across(rect: Rect) -> Length {
    rect.width().min(rect.height())
}

/// Bead as laid: a triangle as high as it is wide, of the section that it has when pressed.
fn set_bead(facts: &mut Facts, bonds: &[&Bond], ledger: &mut Ledger) {
    let beads: Vec<(&Bond, Rect)> =
        bonds.iter().flat_map(|bond| bond.beads.iter().map(|bead| (*bond, *bead))).collect();
    let length: Length = beads.iter().map(|(_, bead)| long(*bead)).sum();
    facts.number("bead.metres", length.to_m(), say::with(length.to_m(), "m"));
    let Some((bond, bead)) = beads
        .iter()
        .max_by(|a, b| (across(a.1) * a.0.thickest).total_cmp(&(across(b.1) * b.0.thickest)))
    else {
        return;
    };
    let Some(adhesive) = &bond.adhesive else { return };
    facts.count("bead", beads.len());
    facts.set("bead.words", adhesive.words.clone());
    let each = bond.beads.len();
    facts.set(
        "bead.words-short",
        if each == 1 { "one bead".to_owned() } else { format!("{each} beads") },
    );
    facts.set("bead.end-gap", say::mm(across(*bead)));
    let section = across(*bead) * bond.thickest;
    let height = (2.0 * section.to_mm2()).sqrt();
    let (low, high) = (height.round(), (height * facts.high("bead-high")).round());
    facts.range("bead.height", say::range(low, high.max(low + 1.0)));
    facts.set("bead.nozzle", display::with_unit(&display::number(low, 0), "mm"));
    ledger.push(
        Figure::new("steps.bead.height", "height of the bead as laid", height, "mm")
            .formula("h = √(2 b t)")
            .input("b", say::mm(across(*bead)))
            .input("t", say::mm(bond.thickest))
            .source("geometry: a triangle as high as wide, of the pressed section", Seen::Computed)
            .assume("V notch cut in the nozzle"),
    );
    let net: Volume =
        beads.iter().map(|(bond, bead)| long(*bead) * across(*bead) * bond.thickest).sum();
    let gross = adhesive.gross(net);
    let least = adhesive.packs.iter().copied().reduce(Volume::min);
    let packs = least.map(|pack| {
        let count = (gross / pack).ceil().max(1.0);
        let word = if count > 1.0 { "cartridges" } else { "cartridge" };
        format!(
            "{} {word} of {}",
            display::number(count, 0),
            display::with_unit(&display::number(pack.to_ml(), 0), "ml")
        )
    });
    facts.set("bead.packs", packs.unwrap_or_else(|| "1 cartridge".to_owned()));
    let minutes = |time: crate::units::Duration| display::number(time.to_minutes(), 0);
    facts.maybe("bead.open", adhesive.open_time.map(minutes));
    facts.maybe("bead.skin", adhesive.skin.map(|skin| minutes(skin[0])));
    facts.count("bead.isocyanate", usize::from(adhesive.has_hazard("isocyanate")));
}
