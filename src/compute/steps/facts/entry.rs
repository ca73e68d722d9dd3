//! The hole through the roof and its seal.

use super::{Facts, Sources, drilling, item, say};
use crate::compute::steps::assign::Stage;
use crate::units::{Length, display};

pub(super) fn set(facts: &mut Facts, from: &Sources<'_>) {
    facts.count("entry", 0);
    facts.list("entries", Vec::new());
    facts.count("entry.isocyanate", 0);
    let (Some(entry), Some(place)) = (&from.build.entry, &from.work.entry) else { return };
    facts.list("entry", vec![item([("mark", place.mark.clone())])]);
    facts.list("entries", vec![item([("mark", place.mark.clone())])]);
    facts.set("entry.mark", place.mark.clone());
    facts.set("entry.cables", entry.cables.to_string());
    let hole = *entry.hole;
    facts.set("entry.hole", say::mm(hole));
    drilling::through(facts, from, Stage::Entry, |_| true, "entry");
    let range = facts.about(place.at.x.to_mm(), "placing");
    facts.range("entry.x", range);
    let range = facts.about(place.at.y.to_mm().abs(), "placing");
    facts.set("entry.side", if place.at.y < Length::ZERO { "left" } else { "right" });
    facts.range("entry.y", range);
    let (low, high) = (facts.low("drill-free"), facts.high("drill-free"));
    facts.set(
        "drill-stop",
        format!(
            "{} to {} free",
            display::number(low, 0),
            display::with_unit(&display::number(high, 0), "mm")
        ),
    );
    let sealant = &entry.sealing;
    facts.set("entry.sealant", sealant.words.clone());
    facts.count("entry.isocyanate", usize::from(sealant.has_hazard("isocyanate")));
    let [coldest, hottest] = sealant.application;
    let celsius = |t: crate::units::Temperature| {
        display::with_unit(&display::number(t.to_celsius(), 0), "°C")
    };
    facts.set("entry.low", celsius(coldest));
    facts.set("entry.high", celsius(hottest));
    facts
        .set("entry.dew", display::with_unit(&display::number(sealant.dew_margin.to_k(), 0), "°C"));
    // As the bond sheet says it: what has a time to be worked in is tooled within that, else before it skins.
    let tooled = sealant.open_time.or(sealant.skin.map(|skin| skin[0]));
    facts.maybe("entry.skin", tooled.map(|time| display::number(time.to_minutes(), 0)));
    let bed = sealant.best_bed;
    let over = (facts.low("bead-over"), facts.high("bead-over"));
    facts.range("entry.bead", say::range(bed.to_mm() * over.0, bed.to_mm() * over.1));
    let cut = (bed.to_mm() * over.0).ceil();
    facts.set("entry.nozzle", display::with_unit(&display::number(cut, 0), "mm"));
    let round = (place.foot.width() + place.foot.height()) * 2.0 + hole * std::f64::consts::PI;
    facts.number("entry.seal.metres", round.to_m(), say::with(round.to_m(), "m"));
    facts.set("entry.wipes", "6 wipes");
}
