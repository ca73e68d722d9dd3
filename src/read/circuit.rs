//! `[entry]`, `[controller]`, `[supply]`, `[isolator]`, `[earth]`, `[[string]]` and `[[circuit]]`.

use super::codes;
use super::cursor::Cursor;
use super::field::Field;
use super::reader::{Group, Reader};
use super::shape::Shape;
use super::take::{
    Choice, Row, Take, mark, measure, name, piece_size, place, stated_size, whole, words,
};
use crate::build::{
    Bond, Circuit, Controller, ControllerKind, Earth, Entry, Insulation, Isolator, IsolatorKind,
    Laid, PanelConnection, StringOf, Supply, Switched, Terminal,
};
use crate::source::{Span, Stated};
use crate::tables::Tables;
use crate::units::{Current, Length, Mass, Ratio, Temperature, Voltage};

pub(super) fn entry(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Entry> {
    let span = table.span();
    let letter = table.or(r, "mark", mark(), "E".into(), "E for entry where no mark is stated");
    r.marked(Some(&letter));
    let x = table.need(r, "x", place());
    let y = table.need(r, "y", place());
    let cables = table.need(r, "cables", whole(1, 50));
    let hole = table.need(r, "hole", stated_size(Length::mm(1.0), Length::mm(300.0)));
    let length = table.need(r, "length", piece_size());
    let width = table.need(r, "width", piece_size());
    let mass = table.may(r, "mass", measure(Mass::g(1.0), Mass::kg(100.0)).positive());
    let sealing = table.need(r, "sealing", Row(|tables| &tables.adhesives));
    table.close(r);
    Some(Entry {
        mark: letter,
        x: x?,
        y: y?,
        cables: cables?,
        hole: hole?,
        length: length?,
        width: width?,
        mass,
        sealing: sealing?,
        span,
    })
}

const KINDS: Choice<ControllerKind> =
    Choice(&[("solar", ControllerKind::Solar), ("dc-dc", ControllerKind::DcDc)]);
const CONNECTIONS: Choice<PanelConnection> =
    Choice(&[("parallel", PanelConnection::Parallel), ("series", PanelConnection::Series)]);

pub(super) fn controller(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Controller> {
    const PARALLEL: &str =
        "the lower voltage, and shade on one panel leaves the others: common practice, no source";
    let span = table.span();
    let letter = table.or(r, "mark", mark(), "T".into(), "T where no mark is stated");
    r.marked(Some(&letter));
    let kind = table.or(
        r,
        "kind",
        KINDS,
        ControllerKind::Solar,
        "solar input alone where nothing is stated",
    );
    let volts = measure(Voltage::v(1.0), Voltage::v(1500.0)).positive();
    let max_voltage = table.need(r, "max-voltage", volts);
    let max_current =
        table.need(r, "max-current", measure(Current::a(0.1), Current::a(500.0)).positive());
    let mass = table.may(r, "mass", measure(Mass::g(1.0), Mass::kg(100.0)).positive());
    let torque = table.may(r, "torque", super::battery::terminal_torque());
    let limit = measure(Current::a(0.1), Current::a(500.0)).positive();
    let max_short_circuit = table.may(r, "max-short-circuit", limit);
    let written = table.place_of("connection");
    let connection = table.or(r, "connection", CONNECTIONS, PanelConnection::Parallel, PARALLEL);
    let in_series = table.may(r, "in-series", whole(1, 200));
    if let (Some(connection), Some(in_series)) = (written, &in_series) {
        let (first, second) = (("connection", connection), ("in-series", in_series.span));
        r.raise(codes::one_or_the_other::both(first, second));
    }
    let charge_voltage = table.need(r, "charge-voltage", volts);
    let centre = table.table(r, "centre").map(|centre| super::battery::centre(r, centre));
    table.close(r);
    let centre = match centre {
        Some(centre) => Some(centre?),
        None => None,
    };
    Some(Controller {
        centre,
        mark: letter,
        kind,
        mass,
        torque,
        max_voltage: max_voltage?,
        max_current: max_current?,
        max_short_circuit,
        connection,
        in_series,
        charge_voltage: charge_voltage?,
        span,
    })
}

pub(super) fn supply(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Supply> {
    let span = table.span();
    let volts = measure(Voltage::v(1.0), Voltage::v(100.0)).positive();
    let voltage = table.need(r, "voltage", volts);
    let current = table.may(r, "current", measure(Current::a(0.1), Current::a(500.0)).positive());
    let fault = measure(Current::a(1.0), Current::ka(200.0)).positive();
    let short_circuit = table.may(r, "short-circuit", fault);
    table.close(r);
    Some(Supply { voltage: voltage?, current, short_circuit, span })
}

const PARTED_BY: Choice<IsolatorKind> = Choice(&[
    ("switch", IsolatorKind::Switch),
    ("plugs", IsolatorKind::Plugs),
    ("none", IsolatorKind::Missing),
]);

pub(super) fn isolator(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Isolator {
    const SWITCH: &str = "a switch for direct current where nothing is stated";
    const POLES: &str = "plus and minus opened together where nothing is stated";
    let span = table.span();
    let kind = table.or(r, "kind", PARTED_BY, IsolatorKind::Switch, SWITCH);
    let amps = measure(Current::a(0.1), Current::a(1000.0)).positive();
    let rating = table.may(r, "rating", amps);
    let volts = measure(Voltage::v(1.0), Voltage::v(1500.0)).positive();
    let voltage = table.may(r, "voltage", volts);
    let poles = table.or(r, "poles", whole(1, 8), 2, POLES);
    table.close(r);
    Isolator { kind, rating, voltage, poles, span }
}

const BONDS: Choice<Bond> = Choice(&[("chassis", Bond::Chassis), ("none", Bond::Nothing)]);

pub(super) fn earth(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Earth> {
    let span = table.span();
    let bond = table.need(r, "bond", BONDS);
    let length = table.may(r, "length", stated_size(Length::mm(10.0), Length::m(100.0)));
    if let (Some(bond), None) = (&bond, &length)
        && bond.value == Bond::Chassis
        && !table.has("length")
    {
        table.lacks("length", Some((bond.span, "the bond is a cable, too".to_owned())));
    }
    table.close(r);
    Some(Earth { bond: bond?, length, span })
}

const WAYS: Choice<Laid> = Choice(&[
    ("open", Laid::Open),
    ("clipped", Laid::Clipped),
    ("conduit", Laid::Conduit),
    ("roof-void", Laid::RoofVoid),
]);

pub(super) const INSULATIONS: Choice<Insulation> = Choice(&[
    ("pvc-70", Insulation::Pvc70),
    ("pvc-105", Insulation::Pvc105),
    ("pv", Insulation::Solar),
]);

pub(super) fn circuit(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<Circuit> {
    const BUNDLE: &str = "its own two conductors where no bundle is stated";
    const LAID: &str = "loosely in the vehicle, where nothing is stated";
    const AMBIENT: &str = "a closed vehicle in summer: common practice, no source";
    const DROP: &str = "3 %: the limit for feeders of solar panels in ABYC E-11 and ISO 10133";
    let span = table.span();
    let words = table.need(r, "name", name());
    r.named(Group::Circuits, words.as_ref());
    let from = table.need(r, "from", End);
    let to = table.need(r, "to", End);
    let length = table.need(r, "length", stated_size(Length::mm(10.0), Length::m(100.0)));
    let current = table.may(r, "current", measure(Current::ma(1.0), Current::a(1000.0)).positive());
    let wrong_current = current.is_none() && table.has("current");
    let size = table.may(r, "size", Row(|tables| &tables.cable_sizes));
    let fuse = table.may(r, "fuse", measure(Current::a(0.1), Current::a(1000.0)).positive());
    let switched = table.may(r, "switched", SWITCHED);
    let switch_rating =
        table.may(r, "switch-rating", measure(Current::a(0.1), Current::a(1000.0)).positive());
    if let (None, Some(rating)) = (&switched, &switch_rating)
        && !table.has("switched")
    {
        table.lacks("switched", Some((rating.span, "of a switch, which is stated so".to_owned())));
    }
    let insulation = table.or(
        r,
        "insulation",
        INSULATIONS,
        Insulation::Pvc70,
        "the least that is sold where nothing is stated",
    );
    let laid = table.or(r, "laid", WAYS, Laid::Open, LAID);
    let bundled = table.or(r, "bundled", whole(2, 100), 2, BUNDLE);
    let air = measure(Temperature::celsius(-40.0), Temperature::celsius(100.0));
    let ambient = table.or(r, "ambient", air, Temperature::celsius(40.0), AMBIENT);
    let drop = measure(Ratio::percent(0.1), Ratio::percent(20.0)).positive();
    let drop_limit = table.or(r, "drop-limit", drop, Ratio::percent(3.0), DROP);
    table.close(r);
    if wrong_current {
        return None;
    }
    if let (Some(from), Some(to)) = (&from, &to)
        && from.value == to.value
    {
        r.raise(codes::both_ends_alike::raise(from.span, to.span));
        return None;
    }
    Some(Circuit {
        name: words?,
        from: from?,
        to: to?,
        length: length?,
        current,
        size,
        fuse,
        switched,
        switch_rating,
        insulation,
        laid,
        bundled,
        ambient,
        drop_limit,
        span,
    })
}

const SWITCHED: Choice<Switched> = Choice(&[("plus", Switched::Plus), ("both", Switched::Both)]);

/// Panels in a string.
const MOST_IN_STRING: usize = 200;

/// `[[string]]`.
pub(super) fn string(r: &mut Reader<'_>, mut table: Cursor<'_>) -> Option<StringOf> {
    let span = table.span();
    let panels = table.need_list(r, "panels", MOST_IN_STRING, words(20));
    table.close(r);
    Some(StringOf { panels: panels?, span })
}

/// One end of a run: a known one, or the name of a load.
struct End;

impl End {
    const KNOWN: [&str; 4] = ["panels", "controller", "battery", "supply"];
}

impl Take for End {
    type Out = Terminal;

    fn shape(&self, _: &Tables) -> Shape {
        Shape::End(&Self::KNOWN)
    }

    fn written(&self, value: &Terminal) -> String {
        match value {
            Terminal::Panels => "panels",
            Terminal::Controller => "controller",
            Terminal::Battery => "battery",
            Terminal::Supply => "supply",
            Terminal::Load(name) => name,
        }
        .to_owned()
    }

    fn take(&self, r: &mut Reader<'_>, field: &Field<'_>) -> Option<Terminal> {
        let text = name().take(r, field)?;
        Some(match text.as_str() {
            "panels" => Terminal::Panels,
            "controller" => Terminal::Controller,
            "battery" => Terminal::Battery,
            "supply" => Terminal::Supply,
            _ => {
                let lower = text.to_lowercase();
                if let Some(near) =
                    Self::KNOWN.iter().find(|known| strsim::osa_distance(known, &lower) <= 2)
                {
                    r.raise(codes::nearly_an_end::raise(field, &text, near));
                    return None;
                }
                Terminal::Load(text)
            }
        })
    }
}

/// Where a circuit ends at `end`, for findings about what is missing there.
pub(super) fn touches(circuit: &Circuit, end: &Terminal) -> Option<Span> {
    [&circuit.from, &circuit.to]
        .into_iter()
        .find(|at| at.value == *end)
        .map(|at: &Stated<Terminal>| at.span)
}
