//! What goes on the ends of the conductors, where it sits, and how tight.

use crate::build::{Build, Circuit, Terminal};
use crate::compute::electrics::{Conductor, Electrics, Fuse, Run};
use crate::tables::Tables;
use crate::units::{Area, Length, Torque};

/// One end of a piece of conductor.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Run, "W1".
    pub run: String,
    /// Which of its two conductors.
    pub pole: Pole,
    /// What it is joined to.
    pub seat: Seat,
    /// What is crimped on.
    pub piece: Piece,
    /// Name of the conductor's row.
    pub size: String,
    /// Copper.
    pub area: Area,
    /// Shrinking sleeve over the crimp: bore as sold, and its length.
    pub sleeve: Option<(Length, Length)>,
    /// How tight its screw or nut is turned.
    pub torque: Tight,
}

/// A conductor of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pole {
    /// Plus.
    Plus,
    /// Minus.
    Minus,
    /// The only one of a conductor alone.
    Only,
}

/// What an end is joined to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Seat {
    /// Where the run starts.
    From,
    /// Where it goes.
    To,
    /// A fuse in its way, by mark.
    Fuse(String),
    /// A switch in its way, by mark.
    Isolator(String),
    /// A terminal by its id.
    Named(String),
}

/// What is crimped on an end.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Piece {
    /// A lug on a stud.
    Lug(String),
    /// A sleeve in a clamp.
    Sleeve,
    /// A crimped joint in line.
    Joint,
    /// A plug of the panels' make.
    Plug,
    /// As what it feeds takes it.
    Load,
}

/// How tight a terminal is turned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Tight {
    /// By a data sheet or label, stated in the build file.
    Stated(Torque),
    /// By a table.
    About(Torque),
    /// What makers ask, from and to: the label of the thing in hand decides.
    Between(Torque, Torque),
    /// Only the maker knows.
    Maker,
    /// Nothing is turned.
    None,
}

/// Stud of the body that the bond is bolted to, and of switches; common practice, the stud in hand wins.
const BODY_STUD: &str = "M8";

/// Shrinking sleeve over a crimp: bore as sold, and its length.
fn sleeve(conductor: &Conductor, tables: &Tables) -> Option<(Length, Length)> {
    let row = tables.heat_shrinks.sleeve_for(conductor.outer?)?;
    Some((row.before, super::allowance(tables, "sleeve")))
}

/// Both ends of each conductor that lies alone.
fn of_singles(build: &Build, electrics: &Electrics, tables: &Tables) -> Vec<End> {
    let mut list = Vec::new();
    for single in electrics.singles() {
        for id in &single.ends {
            let (piece, torque) = match id.as_str() {
                "body" => (Piece::Lug(BODY_STUD.to_owned()), stud_torque(BODY_STUD, tables)),
                _ => at(build, &Terminal::Battery, tables),
            };
            list.push(End {
                run: single.mark.clone(),
                pole: Pole::Only,
                seat: Seat::Named(id.clone()),
                piece,
                size: single.conductor.name.clone(),
                area: single.conductor.area,
                sleeve: sleeve(&single.conductor, tables),
                torque,
            });
        }
    }
    list
}

/// All ends, run by run, plus before minus, from the source on; those of conductors alone last.
pub(super) fn ends(build: &Build, electrics: &Electrics, tables: &Tables) -> Vec<End> {
    let mut list = Vec::new();
    for (circuit, run, conductor) in joined(build, electrics) {
        for pole in [Pole::Plus, Pole::Minus] {
            let mut add = |seat: Seat, piece: Piece, torque: Tight| {
                let shrinks = matches!(piece, Piece::Lug(_) | Piece::Joint);
                let sleeve = if shrinks { sleeve(conductor, tables) } else { None };
                list.push(End {
                    run: run.mark.clone(),
                    pole,
                    seat,
                    piece,
                    size: conductor.name.clone(),
                    area: conductor.area,
                    sleeve,
                    torque,
                });
            };
            let (piece, torque) = at(build, &circuit.from, tables);
            add(Seat::From, piece, torque);
            for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
                if pole == Pole::Minus {
                    continue;
                }
                let seat = || Seat::Fuse(fuse.mark.clone());
                match studs(fuse) {
                    // The battery's own lug lies on the fuse's stud.
                    Studs::OnTerminal => {}
                    Studs::Two(stud) => {
                        let torque = stud_torque(&stud, tables);
                        add(seat(), Piece::Lug(stud.clone()), torque);
                        add(seat(), Piece::Lug(stud), torque);
                    }
                    Studs::Leads => {
                        add(seat(), Piece::Joint, Tight::None);
                        add(seat(), Piece::Joint, Tight::None);
                    }
                }
            }
            if let Some(isolator) = electrics.isolator.as_ref().filter(|i| i.run == run.mark)
                && (isolator.poles > 1 || pole == Pole::Plus)
            {
                // Each pole has a clamp on both sides.
                for _ in 0..2 {
                    add(Seat::Isolator(isolator.mark.to_string()), Piece::Sleeve, Tight::Maker);
                }
            }
            if let Some(switch) = run.switch.as_ref()
                && (switch.poles > 1 || pole == Pole::Plus)
            {
                for _ in 0..2 {
                    let lug = Piece::Lug(BODY_STUD.to_owned());
                    add(Seat::Isolator(switch.mark.clone()), lug, Tight::Maker);
                }
            }
            let (piece, torque) = at(build, &circuit.to, tables);
            add(Seat::To, piece, torque);
        }
    }
    list.extend(of_singles(build, electrics, tables));
    list
}

/// A run with what the build file says of it.
pub(crate) fn joined<'a>(
    build: &'a Build,
    electrics: &'a Electrics,
) -> impl Iterator<Item = (&'a Circuit, &'a Run, &'a Conductor)> {
    build.circuits.iter().enumerate().filter_map(|(index, circuit)| {
        let mark = format!("W{}", index + 1);
        let run = electrics.runs.iter().find(|run| run.mark == mark)?;
        Some((circuit, run, run.conductor.as_ref()?))
    })
}

/// What an end of a run gets there.
fn at(build: &Build, terminal: &Terminal, tables: &Tables) -> (Piece, Tight) {
    match terminal {
        Terminal::Battery => {
            let Some(battery) = &build.battery else { return (Piece::Load, Tight::Maker) };
            let row = tables.terminal_torques.get(*battery.stud);
            let tight = match (&battery.torque, row) {
                (Some(stated), _) => Tight::Stated(**stated),
                (None, Some(row)) => {
                    row.battery.map_or(Tight::About(row.torque), |[a, b]| Tight::Between(a, b))
                }
                (None, None) => Tight::Maker,
            };
            (Piece::Lug((*battery.stud).to_owned()), tight)
        }
        Terminal::Controller => {
            let stated = build.controller.as_ref().and_then(|own| own.torque.as_ref());
            (Piece::Sleeve, stated.map_or(Tight::Maker, |torque| Tight::Stated(**torque)))
        }
        // The stud in hand wins; starter batteries have clamps with a bolt of this size.
        Terminal::Supply => (Piece::Lug("M8".to_owned()), Tight::Maker),
        Terminal::Panels => (Piece::Plug, Tight::None),
        Terminal::Load(_) => (Piece::Load, Tight::Maker),
    }
}

fn stud_torque(stud: &str, tables: &Tables) -> Tight {
    tables.terminal_torques.get(stud).map_or(Tight::Maker, |row| Tight::About(row.torque))
}

enum Studs {
    OnTerminal,
    Two(String),
    Leads,
}

/// How a fuse is joined.
fn studs(fuse: &Fuse) -> Studs {
    match (fuse.name.as_str(), fuse.bolt.as_deref()) {
        ("terminal", _) => Studs::OnTerminal,
        (_, Some(bolt)) => Studs::Two(bolt.to_owned()),
        (_, None) => Studs::Leads,
    }
}
