//! Figures of the loads chapter.

use super::cases::zone_mean;
use super::lifted::mean_of_gust;
use super::{Lifted, Loads, Terrain};
use crate::build::Build;
use crate::derive::Work;
use crate::source::{Figure, Ledger, Seen};
use crate::units::Area;

const TABLE: &str = "EN 1991-1-4:2005, table 7.6, blockage 1";

pub(super) fn enter(build: &Build, work: &Work, loads: &Loads, ledger: &mut Ledger) {
    air(build, loads, ledger);
    storm(build, loads, ledger);
    ledger.push(
        Figure::new("loads.mass", "mass that the mounts carry", loads.mass.to_kg(), "kg")
            .formula("sum of panels, frame and fixings")
            .source("parts of this build", Seen::Computed),
    );
    coefficients(build, work, loads, ledger);
    if let Some(snow) = loads.snow {
        let ground = build.actions.snow.as_ref().map_or(String::new(), |s| s.to_string());
        ledger.push(
            Figure::new("loads.snow", "snow on the array", snow.to_kpa(), "kPa")
                .formula("s = μ sₖ")
                .input("μ", "0.8")
                .input("sₖ", ground)
                .source("EN 1991-1-3, 5.2 and table 5.2", Seen::Memory)
                .decides(),
        );
    }
    lifted(loads, ledger);
    mounts(loads, ledger);
}

fn air(build: &Build, loads: &Loads, ledger: &mut Ledger) {
    let density = Figure::new("loads.air", "density of the air", loads.air.to_kg_per_m3(), "kg/m³");
    ledger.push(match &build.weather.altitude {
        None => density
            .source("EN 1991-1-4:2005, 4.5 note 2", Seen::Verified)
            .assume("altitude not given"),
        Some(altitude) => density
            .formula("ρ = p(h) / (R T)")
            .input("h", altitude.to_string())
            .input("T", build.weather.night.temperature.to_string())
            .source("ISO 2533:1975, standard atmosphere", Seen::Memory)
            .assume("the coldest, densest air of the plan"),
    });
    let speed = build.vehicle.as_ref().map_or(String::new(), |v| v.speed.to_string());
    let wind = &build.actions.head_wind;
    let mut driving = Figure::new(
        "loads.pressure.driving",
        "dynamic pressure while driving",
        loads.driving.to_pa(),
        "Pa",
    )
    .formula("q = ½ ρ (v + w)²")
    .input("ρ", format!("{:.3} kg/m³", loads.air.to_kg_per_m3()))
    .input("v", speed)
    .input("w", format!("{:.0} m/s head wind", wind.to_m_per_s()))
    .source("definition; EN 1991-1-4:2005, 4.5", Seen::Verified)
    .decides();
    if wind.is_default() {
        driving = driving.assume("head wind of a moderate day, common practice");
    }
    ledger.push(driving);
}

fn storm(build: &Build, loads: &Loads, ledger: &mut Ledger) {
    let figure = Figure::new(
        "loads.pressure.storm",
        "peak pressure of a parked storm",
        loads.storm.to_pa(),
        "Pa",
    )
    .decides();
    if let Some(stated) = &build.actions.storm_pressure {
        ledger.push(figure.source(format!("build file: {}", *stated.source), Seen::DataSheet));
        return;
    }
    let height = build.vehicle.as_ref().and_then(|v| v.height.as_ref()).map(|h| **h);
    let wind = &build.actions.storm_wind;
    let figure = figure
        .formula("q = (1 + 7 I) ½ ρ (c v)², c = 0.19 ln(z/z₀), I = 1 / ln(z/z₀)")
        .input("v", format!("{:.0} m/s", wind.to_m_per_s()))
        .input("z", height.unwrap_or(Terrain::OPEN.least).max(Terrain::OPEN.least).to_string())
        .input("z₀", Terrain::OPEN.roughness.to_string())
        .source("EN 1991-1-4:2005, 4.3 to 4.5", Seen::Verified);
    ledger.push(if wind.is_default() {
        figure.assume("open country, basic wind 26 m/s, common practice")
    } else {
        figure.assume("open country")
    });
}

fn coefficients(build: &Build, work: &Work, loads: &Loads, ledger: &mut Ledger) {
    let up = &loads.up;
    let lift = Figure::new(
        "loads.coefficient.lift",
        "uplift coefficient of the whole array",
        up.force,
        "",
    )
    .assume("array lies flat while driving; up is negative as in the table")
    .decides();
    let measured = build.actions.uplift.as_ref();
    ledger.push(match measured {
        Some(stated) => lift.source(format!("build file: {}", *stated.source), Seen::DataSheet),
        None => lift.source(TABLE, Seen::Verified),
    });
    let local =
        Figure::new("loads.coefficient.local", "mean of the local zones", zone_mean(up), "")
            .formula("0.64 A + 0.16 B + 0.20 C")
            .input("A, B, C", format!("{:.2}, {:.2}, {:.2}", up.a, up.b, up.c))
            .source(TABLE, Seen::Verified)
            .assume("all zones at once, for the fixings");
    ledger.push(match measured {
        Some(_) => local.assume("zones scaled with the measured coefficient"),
        None => local,
    });
    for opinion in &loads.opinions {
        ledger.push(
            Figure::new(
                format!("loads.opinion.{}", opinion.key),
                format!("uplift: {}", opinion.words),
                opinion.uplift,
                "",
            )
            .source(opinion.source.clone(), opinion.seen)
            .assume("of the flat array; the first one listed is used"),
        );
    }
    let area: Area = work.arrays.iter().map(|array| array.outline.area()).sum();
    ledger.push(
        Figure::new(
            "loads.lift.driving",
            "air lifts the array while driving",
            -up.force * (loads.driving * area).to_n(),
            "N",
        )
        .formula("F = −c q A")
        .input("c", format!("{:.2}", up.force))
        .input("q", format!("{:.0} Pa", loads.driving.to_pa()))
        .input("A", format!("{:.3} m²", area.to_m2()))
        .source(TABLE, Seen::Verified)
        .decides(),
    );
}

fn lifted(loads: &Loads, ledger: &mut Ledger) {
    for lifted in &loads.lifted {
        one_lifted(loads, lifted, ledger);
    }
}

fn one_lifted(loads: &Loads, lifted: &Lifted, ledger: &mut Ledger) {
    let several = loads.masses.len() > 1;
    let (made, both) = (!lifted.stands.is_empty(), lifted.alike);
    let key = |what: &str| {
        if several {
            format!("loads.lifted.{}.{what}", lifted.frame + 1)
        } else {
            format!("loads.lifted.{what}")
        }
    };
    ledger.push(
        Figure::new(
            key("gust"),
            "gust that lifts the tilted array off its prop",
            lifted.gust.to_m_per_s(),
            "m/s",
        )
        .formula("¾ w |c| ½ ρ v² A = ½ w G cos θ")
        .input("c", format!("{:.2}", lifted.coefficient))
        .input("θ", format!("{:.0}°", lifted.angle.to_deg()))
        .input("mean wind", format!("{:.1} m/s", mean_of_gust(lifted.gust).to_m_per_s()))
        .source("moments about the pins; EN 1991-1-4:2005, table 7.6", Seen::Verified)
        .assume("free edge to the wind, blockage 1, a prop that only pushes")
        .decides(),
    );
    ledger.push(
        Figure::new(
            key("prop"),
            "pull on the prop of the tilted array in the parked storm",
            lifted.prop.to_n(),
            "N",
        )
        .formula("P = (¾ |c| q A − ½ G cos θ) w / a")
        .input("q", format!("{:.0} Pa", loads.storm.to_pa()))
        .input("c", format!("{:.2}", lifted.coefficient))
        .source("moments about the pins", Seen::Computed)
        .assume(if made {
            "w the frame's depth, a the arm of the props about the pins"
        } else {
            "a = w cos(θ/2): fixed at both ends, from the far tube to where it lies while driving"
        }),
    );
    ledger.push(
        Figure::new(
            key("hinge"),
            "force on one hinge of the tilted array in the parked storm",
            lifted.hinge.to_n(),
            "N",
        )
        .formula(if both { "R / n" } else { "2 R / n" })
        .source("equilibrium of the tilted array", Seen::Computed)
        .assume(if both {
            "props at both ends hold the hinges alike"
        } else {
            "one prop near an end leaves twice the mean to the hinges beside it"
        }),
    );
}

fn mounts(loads: &Loads, ledger: &mut Ledger) {
    let named =
        |number: usize| loads.cases.get(number).map_or("", |c| c.case.name.as_str()).to_owned();
    for worst in &loads.worst {
        ledger.push(
            Figure::new(
                format!("loads.tension.{}", worst.mark),
                format!("greatest pull on {}", worst.mark),
                worst.tension.0.to_n(),
                "N",
            )
            .formula("rigid frame on elastic mounts, six equations of equilibrium")
            .input("case", named(worst.tension.1))
            .source("statics", Seen::Computed)
            .decides(),
        );
    }
}
