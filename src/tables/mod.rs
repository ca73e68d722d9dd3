//! Generic materials, fasteners, adhesives, cables and other things that come from a shop.
//!
//! Takes the table files under `templates/tables`; gives typed rows by class name, each with the
//! standard or practice it rests on. Nothing here is a product. A reader's own rows, in the same
//! format, are added with [`Tables::add_toml`] or put in one by one; a row of a known name takes
//! its place. The sheet of the thing in hand always wins.
//!
//! ```
//! use rungsheet::tables::Tables;
//! use rungsheet::units::Length;
//! let tables = Tables::builtin();
//! let m6 = tables.thread("M6").unwrap();
//! assert_eq!(m6.clearance.medium, Length::mm(6.6));
//! let unknown = tables.section("aluminium-tube-25x25x4").unwrap_err();
//! assert!(unknown.nearest.contains(&"aluminium-tube-25x25x2".to_owned()));
//! ```
#[macro_use]
mod table;

mod adhesive;
mod ampacity;
mod ampacity_factor;
mod bend_limit;
mod blind_rivet;
mod bolt_grade;
mod cable_entry;
mod cable_size;
mod canopy;
mod chemistry;
mod cleaner;
mod cold_voltage;
mod corner_connector;
mod density;
mod drill;
mod free_roof;
mod fuse_size;
mod hinge;
mod interpolate;
mod kerf;
mod laying;
mod lug;
mod material;
mod natural;
mod pack;
mod primer;
mod profile;
mod protective;
mod rate;
mod restraint_level;
mod rivet_nut;
mod row;
mod row_origin;
mod section;
mod section_family;
mod table_fault;
mod tape;
mod tapping_screw;
#[cfg(test)]
mod tests;
mod thread;
mod threadlocker;
mod tolerance;
mod torque_factor;

pub use adhesive::{Adhesive, AdhesiveClass, Cure, TapeForm};
pub use ampacity::Ampacity;
pub use ampacity_factor::{AmbientFactor, BundleFactor, Counts, RatingFactors};
pub use bend_limit::BendLimit;
pub use blind_rivet::{BlindRivet, RivetLength};
pub use bolt_grade::BoltGrade;
pub use cable_entry::{Gland, Grommet};
pub use cable_size::{CableSize, Gauge, area_words};
pub use canopy::{Canopy, CanopyRow, CanopyValues};
pub use chemistry::Chemistry;
pub use cleaner::Cleaner;
pub use cold_voltage::ColdVoltage;
pub use corner_connector::CornerConnector;
pub use density::Density;
pub use drill::{Drill, DrillSeries};
pub use free_roof::{Flow, FreeRoof, LoadCase, WindwardEdge};
pub use fuse_size::{FusePlace, FuseSize};
pub use hinge::Hinge;
pub use kerf::Kerf;
pub use laying::{Allowance, CableLay, HeatShrink};
pub use lug::{Lug, TerminalTorque};
pub use material::{Material, MaterialKind, Strength, ThinWall};
pub use pack::{Pack, PackUnit};
pub use primer::Primer;
pub use protective::Protective;
pub use rate::Rate;
pub use restraint_level::RestraintLevel;
pub use rivet_nut::RivetNut;
pub use row::Row;
pub use row_origin::{GivenBy, RowOrigin};
pub use section::{Section, Shape};
pub use table::{Entry, Table, Unknown};
pub use table_fault::TableFault;
pub use tape::Tape;
pub use tapping_screw::{Pilot, TappingScrew};
pub use thread::{Clearance, Fit, KeyHead, Thread, Washer};
pub use threadlocker::Threadlocker;
pub use tolerance::{Marking, Tolerance};
pub use torque_factor::TorqueFactor;

/// Day on which a row of a built-in table was last changed.
macro_rules! tables_date {
    () => {
        "2026-11-30"
    };
}
pub(crate) use tables_date;

use crate::units::Angle;
use std::collections::BTreeSet;
use std::sync::OnceLock;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A table file that comes with the program: its name and text.
macro_rules! file {
    ($name:literal) => {
        ($name, include_str!(concat!("../../templates/tables/", $name)))
    };
}

const FILES: &[(&str, &str)] = &[
    file!("adhesives.toml"),
    file!("air.toml"),
    file!("ampacity.toml"),
    file!("bending.toml"),
    file!("blind-rivets.toml"),
    file!("bolts.toml"),
    file!("cables.toml"),
    file!("chemistries.toml"),
    file!("drills.toml"),
    file!("entries.toml"),
    file!("fuses.toml"),
    file!("hardware.toml"),
    file!("laying.toml"),
    file!("materials.toml"),
    file!("preparation.toml"),
    file!("restraint.toml"),
    file!("protection.toml"),
    file!("rivet-nuts.toml"),
    file!("sections.toml"),
    file!("solar.toml"),
    file!("tapes.toml"),
    file!("tapping-screws.toml"),
    file!("threads.toml"),
    file!("workshop.toml"),
];

/// One table a kind of row, and the lookups by name.
macro_rules! tables {
    ($($(#[$doc:meta])* $field:ident: $row:ty, $find:ident;)*) => {
        /// All tables.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct Tables {
            $($(#[$doc])* pub $field: Table<$row>,)*
        }

        impl Tables {
            /// What a table file may hold: the keys of its rows.
            pub const KINDS: &'static [&'static str] = &[$(<$row>::KIND),*];

            $(
                #[doc = concat!("The row of [`Self::", stringify!($field), "`] with that name.")]
                ///
                /// # Errors
                /// [`Unknown`] with the nearest names.
                pub fn $find(&self, name: &str) -> Result<&$row, Unknown> {
                    self.$field.find(name)
                }
            )*

            fn take(&mut self, key: &str, rows: &Rows<'_>, faults: &mut Vec<TableFault>) -> bool {
                match key {
                    $(<$row>::KIND => rows.read_into(&mut self.$field, faults),)*
                    _ => return false,
                }
                true
            }

            /// Takes over all rows of other tables; a row of a known name takes its place.
            pub fn absorb(&mut self, other: Self) {
                $(self.$field.absorb(other.$field);)*
            }

            /// Kind, name and origin of every row, kind by kind.
            pub fn origins(&self) -> impl Iterator<Item = (&'static str, &str, &RowOrigin)> {
                std::iter::empty()
                    $(.chain(self.$field.iter().map(|row| {
                        (<$row>::KIND, row.name(), row.origin())
                    })))*
            }
        }
    };
}

tables! {
    /// Adhesives and sealants.
    adhesives: Adhesive, adhesive;
    /// Lengths that laying adds or keeps.
    allowances: Allowance, allowance;
    /// Correction of ampacity for air temperature.
    ambient_factors: AmbientFactor, ambient_factor;
    /// Ampacity by standard, insulation and situation.
    ampacities: Ampacity, ampacity;
    /// How tightly materials may be bent cold.
    bend_limits: BendLimit, bend_limit;
    /// Blind rivets.
    blind_rivets: BlindRivet, blind_rivet;
    /// Property classes of bolts.
    bolt_grades: BoltGrade, bolt_grade;
    /// Correction of ampacity for bundles.
    bundle_factors: BundleFactor, bundle_factor;
    /// Least bend radii of cables.
    cable_lays: CableLay, cable_lay;
    /// Conductors by size.
    cable_sizes: CableSize, cable_size;
    /// Air-load coefficients of canopy roofs.
    canopies: Canopy, canopy;
    /// Battery chemistries.
    chemistries: Chemistry, chemistry;
    /// Cleaners for bond faces.
    cleaners: Cleaner, cleaner;
    /// Voltage of cold panels.
    cold_voltages: ColdVoltage, cold_voltage;
    /// Push-in connectors for square tube.
    corner_connectors: CornerConnector, corner_connector;
    /// Densities.
    densities: Density, density;
    /// Drills, hole saws and step drills.
    drills: Drill, drill;
    /// Air-load coefficients of free roofs.
    free_roofs: FreeRoof, free_roof;
    /// Fuses by type.
    fuses: FuseSize, fuse;
    /// Cable glands.
    glands: Gland, gland;
    /// Grommets.
    grommets: Grommet, grommet;
    /// Shrinking sleeves.
    heat_shrinks: HeatShrink, heat_shrink;
    /// Butt hinges.
    hinges: Hinge, hinge;
    /// Saws and their kerfs.
    kerfs: Kerf, kerf;
    /// Cable lugs.
    lugs: Lug, lug;
    /// Ways to place holes, and how well.
    markings: Marking, marking;
    /// Materials.
    materials: Material, material;
    /// Pack sizes.
    packs: Pack, pack;
    /// Primers and activators.
    primers: Primer, primer;
    /// Protective equipment.
    protectives: Protective, protective;
    /// How long work takes.
    rates: Rate, rate;
    /// How hard what is fixed gets pulled.
    restraint_levels: RestraintLevel, restraint_level;
    /// Rivet nuts.
    rivet_nuts: RivetNut, rivet_nut;
    /// Bars and tubes.
    sections: Section, section;
    /// Foam tapes.
    tapes: Tape, tape;
    /// Tapping screws.
    tapping_screws: TappingScrew, tapping_screw;
    /// Torque of screws that hold a ring lug.
    terminal_torques: TerminalTorque, terminal_torque;
    /// Screw threads.
    threads: Thread, thread;
    /// Threadlockers.
    threadlockers: Threadlocker, threadlocker;
    /// General tolerances.
    tolerances: Tolerance, tolerance;
    /// Torque factors K.
    torque_factors: TorqueFactor, torque_factor;
}

/// The rows under one key of a file.
struct Rows<'r> {
    kind: &'static str,
    items: &'r [Spanned<DeValue<'r>>],
    given_by: &'r GivenBy,
}

impl Rows<'_> {
    fn read_into<T: Entry>(&self, table: &mut Table<T>, faults: &mut Vec<TableFault>) {
        let mut names = BTreeSet::new();
        let mut rows = Vec::new();
        for item in self.items {
            let DeValue::Table(fields) = item.get_ref() else {
                faults.push(TableFault {
                    row: self.kind.to_owned(),
                    message: format!("a row of `{}` is a table of keys and values", self.kind),
                    help: None,
                    span: item.span(),
                });
                continue;
            };
            let mut row = Row::new(fields, item.span(), self.kind, self.given_by);
            let read = T::read_all(&mut row);
            let wrong = row.finish();
            if !wrong.is_empty() {
                faults.extend(wrong);
                continue;
            }
            for entry in read {
                if !names.insert(entry.name().to_ascii_lowercase()) {
                    faults.push(TableFault {
                        row: format!("{} {}", self.kind, entry.name()),
                        message: "is given twice in this file".to_owned(),
                        help: None,
                        span: item.span(),
                    });
                }
                rows.push(entry);
            }
        }
        table.add_all(rows);
    }
}

impl Tables {
    /// The tables that come with the program, read once.
    ///
    /// # Panics
    /// Never: the files are part of the program, and a test reads every row of them.
    pub fn builtin() -> &'static Self {
        static BUILTIN: OnceLock<Tables> = OnceLock::new();
        BUILTIN.get_or_init(Self::read_builtin)
    }

    /// Reads the tables that come with the program, half of the files on a second thread: reading
    /// is what a short run of the program would otherwise wait for.
    fn read_builtin() -> Self {
        let read = |files: &[(&'static str, &str)]| {
            let mut tables = Self::default();
            for (name, text) in files {
                let faults = tables.add_rows(text, &GivenBy::Program(name));
                assert!(faults.is_empty(), "the built-in {name} is sound: {faults:?}");
            }
            tables
        };
        let (front, back) = FILES.split_at(FILES.len().div_ceil(2));
        std::thread::scope(|scope| {
            let second = std::thread::Builder::new().spawn_scoped(scope, || read(back));
            let mut tables = read(front);
            tables.absorb(match second.map(std::thread::ScopedJoinHandle::join) {
                Ok(Ok(others)) => others,
                Ok(Err(panic)) => std::panic::resume_unwind(panic),
                // No second thread to be had.
                Err(_) => read(back),
            });
            tables
        })
    }

    /// Canopy coefficients of EN 1991-1-4 table 7.6.
    ///
    /// # Errors
    /// [`Unknown`] in tables that don't hold it.
    pub fn en1991_7_6(&self) -> Result<&Canopy, Unknown> {
        self.canopy("en-1991-1-4-table-7.6")
    }

    /// Net coefficients of a monoslope free roof, ASCE 7 figure 27.3-4: windward and leeward half,
    /// positive down. None beyond the table.
    pub fn asce_free_roof(
        &self,
        angle: Angle,
        windward: WindwardEdge,
        case: LoadCase,
        flow: Flow,
    ) -> Option<[f64; 2]> {
        self.free_roofs.column(windward, case, flow)?.at(angle)
    }

    /// Adds a reader's rows, as `[[section]]` and the like; a row of a known name takes its place.
    /// Rows with faults are left out, all faults of the text are given.
    pub fn add_toml(&mut self, text: &str, name: &str) -> Vec<TableFault> {
        self.add_rows(text, &GivenBy::Reader(name.to_owned()))
    }

    fn add_rows(&mut self, text: &str, given_by: &GivenBy) -> Vec<TableFault> {
        let (file, errors) = DeTable::parse_recoverable(text);
        let mut faults: Vec<TableFault> = errors
            .iter()
            .map(|error| TableFault {
                row: "table file".to_owned(),
                message: error.message().to_owned(),
                help: None,
                span: error.span().unwrap_or_default(),
            })
            .collect();
        if !faults.is_empty() {
            return faults;
        }
        for (key, value) in file.get_ref() {
            let written: &str = key.get_ref();
            let Some(kind) = Self::KINDS.iter().find(|kind| **kind == written) else {
                let near =
                    Self::KINDS.iter().min_by_key(|kind| strsim::osa_distance(kind, written));
                faults.push(TableFault {
                    row: "table file".to_owned(),
                    message: format!("`{written}` is not a kind of row"),
                    help: near.map(|kind| format!("the nearest kind is `{kind}`")),
                    span: key.span(),
                });
                continue;
            };
            let DeValue::Array(items) = value.get_ref() else {
                faults.push(TableFault {
                    row: (*kind).to_owned(),
                    message: format!("write rows as `[[{kind}]]`"),
                    help: None,
                    span: key.span(),
                });
                continue;
            };
            let known = self.take(kind, &Rows { kind, items, given_by }, &mut faults);
            debug_assert!(known, "every kind has a table");
        }
        faults
    }
}
