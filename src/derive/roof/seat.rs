//! How a flat plate sits on the curved skin.

use super::RoofSurface;
use crate::units::{Angle, Length};

/// A rigid flat plate laid on the skin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Height of the plate's plane at its middle, where it touches the skin without any bond.
    pub height: Length,
    /// Slope of that plane along the roof, dz/dx.
    pub slope_along: f64,
    /// Slope of that plane across the roof, dz/dy.
    pub slope_across: f64,
    /// Greatest gap left under the plate.
    pub gap: Length,
}

impl Seat {
    /// Slope along as an angle.
    pub fn tilt_along(&self) -> Angle {
        Angle::atan(self.slope_along)
    }

    /// Slope across as an angle.
    pub fn tilt_across(&self) -> Angle {
        Angle::atan(self.slope_across)
    }
}

/// Points taken along each side of the plate.
const POINTS: i32 = 12;

impl RoofSurface {
    /// How a flat plate sits with its middle over (x, y); `turn` is the direction of its length
    /// seen from above, from X towards Y.
    ///
    /// The plane has the slopes of the least-squares plane through the skin under the plate: pressed
    /// evenly over its area the plate settles so. It is then lifted until it nowhere cuts the skin.
    pub fn seat(&self, x: Length, y: Length, turn: Angle, length: Length, width: Length) -> Seat {
        let (x, y) = (x.to_mm(), y.to_mm());
        let (half_length, half_width) = (length.to_mm() / 2.0, width.to_mm() / 2.0);
        let (cos, sin) = (turn.cos(), turn.sin());
        let mut points = Vec::with_capacity(((POINTS + 1) * (POINTS + 1)) as usize);
        for i in 0..=POINTS {
            for k in 0..=POINTS {
                let u = half_length * f64::from(2 * i - POINTS) / f64::from(POINTS);
                let v = half_width * f64::from(2 * k - POINTS) / f64::from(POINTS);
                points.push((u, v, self.z(x + u * cos - v * sin, y + u * sin + v * cos)));
            }
        }
        // On a grid about its middle the two slopes don't depend on each other.
        let slope = |own: fn(&(f64, f64, f64)) -> f64| {
            let square: f64 = points.iter().map(|p| own(p) * own(p)).sum();
            let moment: f64 = points.iter().map(|p| own(p) * p.2).sum();
            if square > 0.0 { moment / square } else { 0.0 }
        };
        let (along_length, across_it) = (slope(|p| p.0), slope(|p| p.1));
        let (low, high) = points
            .iter()
            .map(|(u, v, z)| z - along_length * u - across_it * v)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), over| {
                (low.min(over), high.max(over))
            });
        Seat {
            height: Length::mm(high),
            slope_along: along_length * cos - across_it * sin,
            slope_across: along_length * sin + across_it * cos,
            gap: Length::mm(high - low),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::build::{Crown, RoofShape};
    use crate::source::{Span, Stated};

    fn arc(chord: f64, rise: f64) -> RoofSurface {
        let length = |mm: f64| Stated::written(Length::mm(mm), Span::NONE);
        RoofSurface::new(&RoofShape::Crown(Crown::even(length(chord), length(rise))))
    }

    #[test]
    fn a_plate_on_a_crown_leaves_the_rise_of_its_own_width() {
        // h = R − √(R² − c²/4) with R = 1200²/(8·60) + 30 = 3030 and a plate of 90: 0.334 mm.
        let seat = arc(1200.0, 60.0).seat(
            Length::ZERO,
            Length::ZERO,
            Angle::ZERO,
            Length::mm(180.0),
            Length::mm(90.0),
        );
        let rise = 3030.0 - (3030.0_f64.powi(2) - 45.0_f64.powi(2)).sqrt();
        assert!((seat.gap.to_mm() - rise).abs() < 1e-6, "{:?} {rise}", seat.gap);
        assert!(seat.slope_across.abs() < 1e-6 && seat.slope_along.abs() < 1e-6);
        assert!(seat.height.to_mm().abs() < 1e-6);
    }

    #[test]
    fn a_plate_beside_the_crown_follows_the_tangent() {
        let roof = arc(1200.0, 60.0);
        let (x, y) = (Length::mm(500.0), Length::mm(400.0));
        let seat = roof.seat(x, y, Angle::RIGHT, Length::mm(90.0), Length::mm(180.0));
        let tangent = -400.0 / (3030.0_f64.powi(2) - 400.0_f64.powi(2)).sqrt();
        assert!((seat.slope_across - tangent).abs() < 2e-4, "{} {tangent}", seat.slope_across);
        assert!((seat.height - roof.height(x, y)).abs() < Length::mm(0.02));
    }

    #[test]
    fn a_plate_on_a_flat_roof_has_no_gap() {
        let roof = RoofSurface::new(&RoofShape::Flat);
        let size = Length::mm(150.0);
        let seat = roof.seat(Length::ZERO, Length::ZERO, Angle::deg(30.0), size, size);
        assert!(seat.gap < Length::mm(1e-6));
    }
}
