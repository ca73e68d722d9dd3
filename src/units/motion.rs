//! Times, speeds and accelerations.

use super::factors::{DAY, GRAVITY, HOUR, KMH, KNOT, MINUTE, MPH};

quantity! {
    /// A span of time; stored in s.
    Duration, kind Duration, shown "s" by to_seconds;
    "seconds": seconds, to_seconds, 1.0;
    "minutes": minutes, to_minutes, MINUTE;
    "hours": hours, to_hours, HOUR;
    "days": days, to_days, DAY;
}

quantity! {
    /// A speed; stored in m/s.
    Speed, kind Speed, shown "m/s" by to_m_per_s;
    "metres per second": m_per_s, to_m_per_s, 1.0;
    "kilometres per hour": kmh, to_kmh, KMH;
    "miles per hour": mph, to_mph, MPH;
    "knots": knots, to_knots, KNOT;
}

quantity! {
    /// An acceleration; stored in m/s².
    Acceleration, kind Acceleration, shown "m/s²" by to_m_per_s2;
    "metres per second squared": m_per_s2, to_m_per_s2, 1.0;
    "multiples of standard gravity": g, to_g, GRAVITY;
}

/// Standard gravity g, 9.80665 m/s² (3rd CGPM, 1901; ISO 80000-3).
pub const STANDARD_GRAVITY: Acceleration = Acceleration::m_per_s2(GRAVITY);
