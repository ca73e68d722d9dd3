//! Section properties put together from plain pieces.
//!
//! Pieces are rectangles and fillets (the spandrel between a square corner and the quarter circle
//! that rounds it), added or taken away. Lengths in mm; x to the right, y up. Formulas: parallel
//! axes; for the spandrel of radius r with its corner at the origin, integration of the square less
//! the quarter circle gives A = (1 − π/4) r², centroid r (10 − 3π)/(12 − 3π) from both edges,
//! ∫y² dA = (1 − 5π/16) r⁴ and ∫xy dA = (19 − 6π)/24 r⁴.

use std::f64::consts::PI;

/// Sums of pieces, about the origin.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Profile {
    area: f64,
    first_x: f64,
    first_y: f64,
    xx: f64,
    yy: f64,
    xy: f64,
}

impl Profile {
    /// Adds `sign` times a piece with its own second moments about its centroid.
    fn piece(&mut self, sign: f64, area: f64, (x, y): (f64, f64), (ix, iy, ixy): (f64, f64, f64)) {
        self.area += sign * area;
        self.first_x += sign * area * x;
        self.first_y += sign * area * y;
        self.xx += sign * (ix + area * y * y);
        self.yy += sign * (iy + area * x * x);
        self.xy += sign * (ixy + area * x * y);
    }

    /// A rectangle from its lower left corner; `sign` −1 takes it away.
    pub(super) fn rectangle(mut self, sign: f64, x: f64, y: f64, w: f64, h: f64) -> Self {
        let own = (w * h.powi(3) / 12.0, h * w.powi(3) / 12.0, 0.0);
        self.piece(sign, w * h, (x + w / 2.0, y + h / 2.0), own);
        self
    }

    /// A fillet of radius `r` whose square corner is at (x, y) and which extends in the directions
    /// `sx`, `sy` (1 or −1) from it.
    pub(super) fn fillet(
        mut self,
        sign: f64,
        (x, y): (f64, f64),
        (sx, sy): (f64, f64),
        r: f64,
    ) -> Self {
        let area = (1.0 - PI / 4.0) * r * r;
        let c = r * (10.0 - 3.0 * PI) / (12.0 - 3.0 * PI);
        let own = (1.0 - 5.0 * PI / 16.0) * r.powi(4) - area * c * c;
        let product = (19.0 - 6.0 * PI) / 24.0 * r.powi(4) - area * c * c;
        self.piece(sign, area, (x + sx * c, y + sy * c), (own, own, product * sx * sy));
        self
    }

    /// A rectangle with rounded corners, centred on the origin.
    pub(super) fn rounded(self, sign: f64, w: f64, h: f64, r: f64) -> Self {
        let (x, y) = (w / 2.0, h / 2.0);
        let mut profile = self.rectangle(sign, -x, -y, w, h);
        for (sx, sy) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
            profile = profile.fillet(-sign, (-sx * x, -sy * y), (sx, sy), r);
        }
        profile
    }

    /// A circle centred on the origin.
    pub(super) fn circle(mut self, sign: f64, d: f64) -> Self {
        let own = PI / 64.0 * d.powi(4);
        self.piece(sign, PI / 4.0 * d * d, (0.0, 0.0), (own, own, 0.0));
        self
    }

    pub(super) const fn area(&self) -> f64 {
        self.area
    }

    /// Centroid.
    pub(super) fn centroid(&self) -> (f64, f64) {
        (self.first_x / self.area, self.first_y / self.area)
    }

    /// Second moments about the centroid: for bending in the vertical plane, in the horizontal
    /// plane, and their product.
    pub(super) fn second_moments(&self) -> (f64, f64, f64) {
        let (x, y) = self.centroid();
        (self.xx - self.area * y * y, self.yy - self.area * x * x, self.xy - self.area * x * y)
    }

    /// The least second moment about any axis through the centroid.
    pub(super) fn least(&self) -> f64 {
        let (ix, iy, ixy) = self.second_moments();
        f64::midpoint(ix, iy) - ((ix - iy) / 2.0).hypot(ixy)
    }
}

#[cfg(test)]
mod tests {
    use super::Profile;
    use std::f64::consts::PI;

    #[test]
    fn a_square_rounded_all_the_way_is_a_circle() {
        let round = Profile::default().rounded(1.0, 20.0, 20.0, 10.0);
        let (ix, iy, ixy) = round.second_moments();
        assert!((round.area() - PI * 100.0).abs() < 1e-9);
        assert!((ix - PI / 4.0 * 1e4).abs() < 1e-8, "{ix}");
        assert!((ix - iy).abs() < 1e-8 && ixy.abs() < 1e-8);
    }

    #[test]
    fn a_fillet_and_its_quarter_circle_make_the_square() {
        // The quarter circle of radius 1 centred at (1, 1): ∫xy = π/4 − 2/3 + 1/8 about the corner.
        let fillet = Profile::default().fillet(1.0, (0.0, 0.0), (1.0, 1.0), 1.0);
        assert!((fillet.xy - (0.25 - (PI / 4.0 - 2.0 / 3.0 + 0.125))).abs() < 1e-12);
        assert!((fillet.xx - (1.0 / 3.0 - (PI / 16.0 + PI / 4.0 - 2.0 / 3.0))).abs() < 1e-12);
    }
}
