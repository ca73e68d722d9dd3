//! What is added to the roof and inside, what the roof may carry, where the weight lies, and the
//! height afterwards.

pub mod rules;
mod small;

use crate::build::{Balance, Build, Centre, FixedOn, Terminal};
use crate::compute::electrics::Electrics;
use crate::derive::{Part, PartKind, Piece, Work};
use crate::geometry::{Point2, Point3};
use crate::source::{Figure, Finding, Ledger, Seen, Severity};
use crate::tables::Tables;
use crate::units::{Length, Mass, Ratio, display};

/// Mass of a person on the roof, clothes and tools included; common practice.
const PERSON: Mass = Mass::kg(90.0);

/// Masses and height.
#[derive(Debug, Clone)]
pub struct Weights {
    /// Lines of the table.
    pub lines: Vec<WeightLine>,
    /// Added on the roof.
    pub roof: Mass,
    /// Added in the vehicle: battery and cables.
    pub inside: Mass,
    /// Limits of the roof, moving and standing, and the use of each.
    pub limits: Option<RoofUse>,
    /// Middle of what is added on the roof: X behind the datum, Y to the right, Z over the roof's
    /// zero height.
    pub centre: Option<Point3>,
    /// What has a place of its own: name, mass, its middle; the roof's part first.
    pub placed: Vec<Placed>,
    /// How the vehicle's own centre of gravity moves, where it is stated.
    pub shift: Option<Shift>,
    /// Ground to the highest point before and after.
    pub height: Option<(Length, Length)>,
}

/// One line of the table of masses.
#[derive(Debug, Clone)]
pub struct WeightLine {
    /// Name of the part or the stuff.
    pub name: String,
    /// How many pieces; nothing for stuff.
    pub count: Option<usize>,
    /// Mass of all.
    pub all: Mass,
    /// Whether the roof carries it.
    pub on_roof: bool,
}

/// How a centre of gravity moves.
#[derive(Debug, Clone, Copy)]
pub struct Shift {
    /// Ground to the vehicle's centre of gravity, before.
    pub before: Length,
    /// How far the vehicle's centre of gravity rises.
    pub up: Length,
    /// How far it moves to the right.
    pub right: Length,
    /// How far it moves rearward, where its place along the vehicle is stated.
    pub rear: Option<Length>,
}

/// What has a place of its own in the sum of moments.
#[derive(Debug, Clone)]
pub struct Placed {
    /// "on the roof", "battery".
    pub name: &'static str,
    /// Its mass.
    pub mass: Mass,
    /// Behind the datum, right of the centre line, over the ground.
    pub at: (Length, Length, Length),
}

/// Use of the roof's limits.
#[derive(Debug, Clone, Copy)]
pub struct RoofUse {
    /// Limit and use while driving.
    pub moving: (Mass, Ratio),
    /// Limit and use at rest with the people of the work on the roof.
    pub standing: (Mass, Ratio),
    /// How many these are.
    pub people: u32,
}

impl RoofUse {
    /// "at rest with one person on it".
    pub fn at_rest(&self) -> &'static str {
        match self.people {
            0 => "at rest with nobody on it",
            1 => "at rest with one person on it",
            2 => "at rest with two people on it",
            _ => "at rest with the people of the work on it",
        }
    }
}

/// Adds up masses and heights.
pub fn weights(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Weights {
    let lines = lines(build, work, electrics, tables);
    let sum = |on_roof: bool| -> Mass {
        lines.iter().filter(|line| line.on_roof == on_roof).map(|line| line.all).sum()
    };
    let (roof, inside) = (sum(true), sum(false));
    if roof > Mass::ZERO {
        ledger.push(
        Figure::new("weights.roof", "mass added on the roof", roof.to_kg(), "kg")
            .formula("Σ n m")
            .source("sections × densities; masses of bought parts as stated", Seen::Computed)
            .assume("the whole run from the panels is counted as on the roof; connectors and glands weigh what is stated or nothing")
            .decides(),
        );
    }
    let limits = build.vehicle.as_ref().and_then(|v| v.limit.as_ref()).map(|limit| {
        let standing = roof + PERSON * f64::from(*limit.people);
        let uses = RoofUse {
            moving: (*limit.moving, Ratio::of_one(roof / *limit.moving)),
            standing: (*limit.standing, Ratio::of_one(standing / *limit.standing)),
            people: *limit.people,
        };
        for (key, words, mass, (most, share), span) in [
            ("moving", "while driving", roof, uses.moving, limit.moving.span),
            ("standing", uses.at_rest(), standing, uses.standing, limit.standing.span),
        ] {
            ledger.push(
                Figure::new(
                    format!("weights.use.{key}"),
                    format!("use of the roof's limit {words}"),
                    share.to_fraction(),
                    "",
                )
                .formula("u = m / m_max")
                .input("m", format!("{:.1} kg", mass.to_kg()))
                .input("m_max", format!("{:.0} kg", most.to_kg()))
                .source("vehicle maker's limit as stated", Seen::DataSheet)
                .decides(),
            );
            let share = share.to_fraction();
            if share >= 0.8 {
                findings.push(
                    Finding::new(
                        &rules::ROOF_LIMIT,
                        format!(
                            "the roof carries {:.1} kg {words}; its limit is {:.0} kg (use {})",
                            mass.to_kg(),
                            most.to_kg(),
                            display::capacity_used(share)
                        ),
                    )
                    .severity(if share > 1.0 { Severity::Stop } else { Severity::Caution })
                    .at(span, "limit by the vehicle's maker")
                    .means("a roof loaded beyond its limit bends, cracks at its corners or folds in a crash")
                    .help(if key == "standing" {
                        "work from a ladder or scaffold beside the vehicle, and keep everybody off the roof"
                    } else {
                        "use fewer or lighter panels, or a lighter frame"
                    }),
                );
            }
        }
        uses
    });
    let before = build.vehicle.as_ref().and_then(|vehicle| vehicle.height.as_ref());
    let after = work.height_after();
    let after = height_with_fixtures(build).into_iter().chain(after).reduce(Length::max);
    let height = before.map(|before| **before).zip(after);
    let centre = centre(work);
    let balance = build.vehicle.as_ref().and_then(|vehicle| vehicle.balance);
    let placed = placed(build, centre.zip(before.map(|before| **before)), roof);
    let shift =
        balance.filter(|_| !placed.is_empty()).map(|balance| shift(&placed, &balance, ledger));
    Weights { lines, roof, inside, limits, centre, placed, shift, height }
}

/// Ground to the top of the highest fixture on the roof; it may sit on the highest point.
pub fn height_with_fixtures(build: &Build) -> Option<Length> {
    let before = build.vehicle.as_ref()?.height.as_ref()?;
    let on_roof = build.fixtures.iter().filter(|fixture| *fixture.on == FixedOn::Roof);
    let top = on_roof.map(|fixture| *fixture.depth).reduce(Length::max)?;
    Some(**before + top)
}

fn lines(
    build: &Build,
    work: &Work,
    electrics: Option<&Electrics>,
    tables: &Tables,
) -> Vec<WeightLine> {
    let mut lines: Vec<WeightLine> = Vec::new();
    let all_on_doors = !build.fixtures.is_empty()
        && build.fixtures.iter().all(|fixture| *fixture.on == FixedOn::RearDoor);
    // Where a plate lies behind the skin, the part lies outside and is in the mass that is stated.
    let with_fixture = |piece: &&Piece| {
        let mut outside = build.fixtures.iter().filter(|fixture| fixture.backing.is_some());
        outside.any(|fixture| piece.mark.eq_ignore_ascii_case(&fixture.part))
    };
    for part in weighty(work) {
        let count = part.pieces.iter().filter(|piece| !with_fixture(piece)).count();
        if count == 0 {
            continue;
        }
        let all = part.mass * count as f64;
        // What is stated directly goes where the fixtures go.
        let on_roof = part.kind != PartKind::Direct || !all_on_doors;
        match lines.iter_mut().find(|line| line.name == part.name) {
            Some(line) => {
                line.count = line.count.map(|known| known + count);
                line.all += all;
            }
            None => {
                lines.push(WeightLine {
                    name: part.name.clone(),
                    count: Some(count),
                    all,
                    on_roof,
                });
            }
        }
    }
    let mut stuff = |name: &str, all: Mass, on_roof: bool| {
        if all > Mass::ZERO {
            lines.push(WeightLine { name: name.to_owned(), count: None, all, on_roof });
        }
    };
    // Without anything on a roof all cables lie inside.
    let on_roof = !work.arrays.is_empty() || build.entry.is_some();
    let from_panels = |mark: &str| {
        on_roof
            && build.circuits.iter().enumerate().any(|(index, circuit)| {
                *circuit.from == Terminal::Panels && mark == format!("W{}", index + 1)
            })
    };
    stuff("bolts, nuts, screws, rivets", small::fasteners(work, tables), true);
    stuff("tape, adhesive, sealant", small::bonding(build, work), true);
    stuff("cables from the panels", small::cables(electrics, tables, from_panels), true);
    let words = if on_roof { "other cables" } else { "cables" };
    stuff(words, small::cables(electrics, tables, |mark| !from_panels(mark)), false);
    let mut stated = |name: &str, mass: Option<Mass>, on_roof: bool| {
        if let Some(all) = mass {
            // A housing is part of the roof, not of what the frame carries.
            let count = (!on_roof).then_some(1);
            lines.push(WeightLine { name: name.to_owned(), count, all, on_roof });
        }
    };
    let housing = build.entry.as_ref().and_then(|entry| entry.mass.as_ref());
    stated("cable entry", housing.map(|mass| **mass), true);
    for fixture in &build.fixtures {
        stated(&fixture.name, Some(*fixture.mass), *fixture.on == FixedOn::Roof);
    }
    let controller = build.controller.as_ref().and_then(|controller| controller.mass.as_ref());
    stated("controller", controller.map(|mass| **mass), false);
    if let Some(battery) = &build.battery {
        lines.push(WeightLine {
            name: if *battery.count > 1 { "batteries" } else { "battery" }.to_owned(),
            count: Some(*battery.count as usize),
            all: battery.bank_mass(),
            on_roof: false,
        });
    }
    lines
}

fn weighty(work: &Work) -> impl Iterator<Item = &Part> {
    work.parts.iter().filter(|part| part.mass > Mass::ZERO && !part.pieces.is_empty())
}

/// Middle of the parts on the roof, each taken at the middle of its faces.
fn centre(work: &Work) -> Option<Point3> {
    work.arrays.first()?;
    let mut all = Mass::ZERO;
    let (mut x, mut y, mut z) = (0.0, 0.0, 0.0);
    for part in weighty(work).filter(|part| !part.faces.is_empty()) {
        let share = 1.0 / part.faces.len() as f64;
        for piece in &part.pieces {
            for face in &part.faces {
                let middle = face.point(Point2::new(face.length / 2.0, face.width / 2.0));
                let at = piece.place.place(middle);
                let weight = part.mass.to_kg() * share;
                x += at.x.to_mm() * weight;
                y += at.y.to_mm() * weight;
                z += at.z.to_mm() * weight;
            }
            all += part.mass;
        }
    }
    let kg = all.to_kg();
    (kg > 0.0).then(|| Point3::new(Length::mm(x / kg), Length::mm(y / kg), Length::mm(z / kg)))
}

/// What the moments are summed over: `roof` its middle with the height of the roof's zero over the
/// ground, then what stands inside at a stated place.
fn placed(build: &Build, roof: Option<(Point3, Length)>, mass: Mass) -> Vec<Placed> {
    let mut list = Vec::new();
    if let Some((centre, zero)) = roof {
        let at = (centre.x, centre.y, zero + centre.z);
        list.push(Placed { name: "on the roof", mass, at });
    }
    let mut inside = |name, mass: Option<Mass>, at: Option<Centre>| {
        if let (Some(mass), Some(at)) = (mass, at) {
            list.push(Placed { name, mass, at: (*at.x, *at.y, *at.over_ground) });
        }
    };
    if let Some(battery) = &build.battery {
        let name = if *battery.count > 1 { "batteries" } else { "battery" };
        inside(name, Some(battery.bank_mass()), battery.centre);
    }
    if let Some(own) = &build.controller {
        inside("controller", own.mass.as_ref().map(|mass| **mass), own.centre);
    }
    list
}

/// How far the vehicle's centre of gravity moves by all that has a place.
fn shift(placed: &[Placed], balance: &Balance, ledger: &mut Ledger) -> Shift {
    let added: Mass = placed.iter().map(|one| one.mass).sum();
    let all = *balance.mass + added;
    let moved = |from: Length, of: fn(&Placed) -> Length| -> Length {
        placed.iter().map(|one| (of(one) - from) * (one.mass / all)).sum()
    };
    let own = *balance.centre_height;
    let up = moved(own, |one| one.at.2);
    let right = moved(*balance.centre_y, |one| one.at.1);
    let rear = balance.centre_x.as_ref().map(|x| moved(**x, |one| one.at.0));
    let mut tell =
        |id: &str, label: &str, value: Length, own: Length, of: fn(&Placed) -> Length| {
            let mut figure = Figure::new(
                format!("weights.centre.{id}"),
                format!("{label} of the vehicle's centre of gravity"),
                value.to_mm(),
                "mm",
            )
            .formula("Δ = Σ m (p − p_0) / (M + Σ m)")
            .input("M", format!("{:.0} kg", balance.mass.to_kg()))
            .input("p_0", format!("{:.0} mm", own.to_mm()));
            for one in placed {
                let words = format!("{:.1} kg at {:.0} mm", one.mass.to_kg(), of(one).to_mm());
                figure = figure.input(one.name, words);
            }
            ledger.push(figure.source("statics; the vehicle's papers", Seen::DataSheet).decides());
        };
    tell("rise", "rise", up, own, |one| one.at.2);
    tell("right", "move to the right", right, *balance.centre_y, |one| one.at.1);
    if let (Some(rear), Some(x)) = (rear, &balance.centre_x) {
        tell("rear", "move rearward", rear, **x, |one| one.at.0);
    }
    Shift { before: own, up, right, rear }
}
