//! Electrical quantities.

use super::factors::HOUR;

quantity! {
    /// A voltage; stored in V.
    Voltage, kind Voltage, shown "V" by to_v;
    "volts": v, to_v, 1.0;
    "millivolts": mv, to_mv, 1e-3;
}

quantity! {
    /// A current; stored in A.
    Current, kind Current, shown "A" by to_a;
    "amperes": a, to_a, 1.0;
    "milliamperes": ma, to_ma, 1e-3;
    "kiloamperes, as breaking capacity is rated": ka, to_ka, 1e3;
}

quantity! {
    /// A resistance; stored in Ω.
    Resistance, kind Resistance, shown "Ω" by to_ohm;
    "ohms": ohm, to_ohm, 1.0;
    "milliohms": milliohm, to_milliohm, 1e-3;
    "microohms": microohm, to_microohm, 1e-6;
}

quantity! {
    /// Resistance by length of one conductor; stored in Ω/m.
    LinearResistance, kind LinearResistance, shown "Ω/m" by to_ohm_per_m;
    "ohms per metre": ohm_per_m, to_ohm_per_m, 1.0;
    "milliohms per metre, which is Ω/km": milliohm_per_m, to_milliohm_per_m, 1e-3;
}

quantity! {
    /// A power; stored in W.
    Power, kind Power, shown "W" by to_w;
    "watts": w, to_w, 1.0;
    "kilowatts": kw, to_kw, 1e3;
}

quantity! {
    /// An energy; stored in J.
    Energy, kind Energy, shown "Wh" by to_wh;
    "joules": j, to_j, 1.0;
    "watt-hours": wh, to_wh, HOUR;
    "kilowatt-hours": kwh, to_kwh, 1e3 * HOUR;
}

quantity! {
    /// An electric charge, as a battery's capacity is given; stored in A·s.
    Charge, kind Charge, shown "Ah" by to_ah;
    "coulombs": coulombs, to_coulombs, 1.0;
    "ampere-hours": ah, to_ah, HOUR;
}
