//! Rows of the tables, and what follows from them, against published tables.
//! Each check names its source; `from memory` where the source was not read again.

mod air;
mod bonding;
mod electrical;
mod fasteners;
mod materials;
mod sections;
mod workshop;

use rungsheet::tables::{CableSize, Section, Tables, Thread};

fn tables() -> &'static Tables {
    Tables::builtin()
}

fn section(name: &str) -> &'static Section {
    tables().section(name).unwrap_or_else(|unknown| panic!("{unknown}"))
}

fn thread(name: &str) -> &'static Thread {
    tables().thread(name).unwrap_or_else(|unknown| panic!("{unknown}"))
}

/// Within a share of the expected value.
fn near(found: f64, expected: f64, share: f64, what: &str) {
    assert!((found - expected).abs() <= expected.abs() * share, "{what}: {found}, not {expected}");
}

/// Area cm², Ix and Iy cm⁴, modulus cm³, mass kg/m.
fn check_section(name: &str, [area, ix, iy, wx, mass]: [f64; 5], share: f64) {
    let bar = section(name);
    let material = tables().material(&bar.material).unwrap_or_else(|unknown| panic!("{unknown}"));
    near(bar.area().to_cm2(), area, share, &format!("{name} area"));
    near(bar.second_moment_x().to_cm4(), ix, share, &format!("{name} Ix"));
    near(bar.second_moment_y().to_cm4(), iy, share, &format!("{name} Iy"));
    near(bar.modulus_x().to_cm3(), wx, share, &format!("{name} Wx"));
    near(bar.linear_mass(material).to_kg_per_m(), mass, share, &format!("{name} mass"));
}

fn cable(name: &str) -> &'static CableSize {
    tables().cable_size(name).unwrap_or_else(|unknown| panic!("{unknown}"))
}
