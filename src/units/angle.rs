//! Angles, and the only door to trigonometry.
//!
//! Functions of the standard library may differ in the last bit between machines; with one door
//! there is one place to change that.

quantity! {
    /// An angle; stored in radians. Positive is counter-clockwise seen against the axis of turning.
    ///
    /// ```
    /// use rungsheet::units::Angle;
    /// assert!((Angle::deg(30.0).sin() - 0.5).abs() < 1e-15);
    /// ```
    Angle, kind Angle, shown "°" by to_deg;
    "radians": rad, to_rad, 1.0;
    "degrees": deg, to_deg, std::f64::consts::PI / 180.0;
}

impl Angle {
    /// A quarter turn.
    pub const RIGHT: Self = Self(std::f64::consts::FRAC_PI_2);
    /// Half a turn.
    pub const HALF_TURN: Self = Self(std::f64::consts::PI);

    /// Sine.
    pub fn sin(self) -> f64 {
        self.0.sin()
    }

    /// Cosine.
    pub fn cos(self) -> f64 {
        self.0.cos()
    }

    /// Tangent.
    pub fn tan(self) -> f64 {
        self.0.tan()
    }

    /// The angle whose sine this is, −90° to 90°; `None` outside −1 to 1.
    pub fn asin(sine: f64) -> Option<Self> {
        (-1.0..=1.0).contains(&sine).then(|| Self(sine.asin()))
    }

    /// The angle whose cosine this is, 0° to 180°; `None` outside −1 to 1.
    pub fn acos(cosine: f64) -> Option<Self> {
        (-1.0..=1.0).contains(&cosine).then(|| Self(cosine.acos()))
    }

    /// The angle whose tangent this is, −90° to 90°: a slope as an angle.
    #[must_use]
    pub fn atan(tangent: f64) -> Self {
        Self(tangent.atan())
    }

    /// Direction of the point (x, y) seen from the origin, −180° to 180°, from +x towards +y.
    #[must_use]
    pub fn atan2(y: f64, x: f64) -> Self {
        Self(y.atan2(x))
    }
}

#[cfg(test)]
mod tests {
    use super::Angle;

    #[test]
    fn no_angle_has_a_sine_beyond_one() {
        assert_eq!(Angle::asin(1.000_001), None);
        assert_eq!(Angle::acos(-1.1), None);
        assert_eq!(Angle::asin(f64::NAN), None);
        assert_eq!(Angle::asin(1.0), Some(Angle::RIGHT));
    }
}
