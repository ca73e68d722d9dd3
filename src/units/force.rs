//! Forces, moments and loads along a line.

use super::factors::{FOOT, GRAVITY, INCH, POUND_FORCE};

quantity! {
    /// A force; stored in N.
    Force, kind Force, shown "N" by to_n;
    "newtons": n, to_n, 1.0;
    "decanewtons, as lashing straps are rated": dan, to_dan, 10.0;
    "kilonewtons": kn, to_kn, 1000.0;
    "pounds-force": lbf, to_lbf, POUND_FORCE;
    "kilograms-force": kgf, to_kgf, GRAVITY;
}

quantity! {
    /// A bending moment or a torque; stored in N·mm. It is not an energy, though both are force
    /// times length.
    Moment, kind Moment, shown "N·m" by to_nm;
    "newton-millimetres": nmm, to_nmm, 1.0;
    "newton-metres": nm, to_nm, 1000.0;
    "pound-force inches": lbf_in, to_lbf_in, POUND_FORCE * INCH;
    "pound-force feet": lbf_ft, to_lbf_ft, POUND_FORCE * FOOT;
}

/// A moment that tightens a screw.
pub type Torque = Moment;

quantity! {
    /// A load along a line, or a stiffness; stored in N/mm.
    LineLoad, kind LineLoad, shown "N/mm" by to_n_per_mm;
    "newtons per millimetre": n_per_mm, to_n_per_mm, 1.0;
    "newtons per metre": n_per_m, to_n_per_m, 1e-3;
}
