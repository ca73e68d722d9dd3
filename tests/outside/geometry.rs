//! Shapes against handbook formulas, public worked examples and reference libraries.

use super::reference::{near, number, rows};
use rungsheet::geometry::{Crown, Curve, Outline, Point2, Rect, Unrolled};
use rungsheet::units::{Angle, Length};

fn mm(value: f64) -> Length {
    Length::mm(value)
}

/// Radius from chord and sagitta, R = h/2 + c²/(8h); sagitta, h = R − √(R² − c²/4): worked examples
/// of public lessons on circles (chord 10 and sagitta 3; 8 and 2; radius 10 and chord 12).
#[test]
fn chord_and_rise_of_worked_examples() {
    let radius = |chord, rise| {
        Crown::new(mm(chord), mm(rise)).and_then(Crown::radius).expect("an arc").to_mm()
    };
    assert!(near(radius(10.0, 3.0), 5.667, 0.0, 0.0005));
    assert!(near(radius(8.0, 2.0), 5.0, 0.0, 1e-12));
    let rise = Crown::with_radius(mm(12.0), mm(10.0)).expect("it goes in").rise();
    assert!(near(rise.to_mm(), 2.0, 0.0, 1e-12));
}

/// dR = (1/2 − c²/(8h²)) dh, against the radius worked out anew.
#[test]
fn a_rise_read_wrong_moves_the_radius() {
    let crown = Crown::new(mm(1500.0), mm(30.0)).expect("an arc");
    let told = crown.radius_error(mm(0.001)).expect("it is not flat").to_mm();
    let anew = |rise| Crown::new(mm(1500.0), mm(rise)).and_then(Crown::radius).expect("an arc");
    let found = (anew(30.0005) - anew(29.9995)).to_mm();
    assert!(near(told, found, 1e-6, 0.0), "{told} instead of {found}");
}

/// Radius by root finding and arc length by integration (`scipy.optimize`, `scipy.integrate`).
#[test]
fn arcs_of_a_reference_library() {
    for row in rows(include_str!("reference/circles.csv")) {
        let [chord, rise, radius, arc, x, height] =
            [row[0], row[1], row[2], row[3], row[4], row[5]].map(number);
        let crown = Crown::new(mm(chord), mm(rise)).expect("an arc");
        let ours = crown.radius().expect("it is not flat").to_mm();
        assert!(near(ours, radius, 1e-11, 0.0), "radius {ours} instead of {radius}");
        let ours = crown.arc_length().to_mm();
        assert!(near(ours, arc, 1e-11, 0.0), "arc {ours} instead of {arc}");
        let ours = crown.height(mm(x)).expect("inside").to_mm();
        assert!(near(ours, height, 0.0, 1e-9), "height {ours} instead of {height}");
    }
}

/// `scipy.interpolate.CubicHermiteSpline` on the slopes of `numpy.gradient`, held by the bounds of
/// Fritsch and Carlson (SIAM J. Numer. Anal. 17, 1980): end slopes, flats and turning points included.
#[test]
fn curves_of_a_reference_library() {
    for row in rows(include_str!("reference/curves.csv")) {
        let places = row[1].split(' ').map(place).map(|place| (place.x.to_mm(), place.y.to_mm()));
        let curve = Curve::through(&places.collect::<Vec<_>>());
        let (x, height) = (number(row[2]), number(row[3]));
        let ours = curve.value(x);
        assert!(near(ours, height, 0.0, 1e-11), "{row:?}: {ours:?}");
    }
}

/// A place written `x:y`.
fn place(text: &str) -> Point2 {
    let (x, y) = text.split_once(':').expect("x:y");
    Point2::mm(number(x), number(y))
}

fn outline(corners: &str) -> Outline {
    Outline::new(corners.split(' ').map(place).collect()).expect("a simple polygon")
}

/// `shapely`: area, perimeter and centroid.
#[test]
fn outlines_of_a_reference_library() {
    for row in rows(include_str!("reference/outlines.csv")) {
        let shape = outline(row[1]);
        let ours = [
            shape.area().to_mm2(),
            shape.perimeter().to_mm(),
            shape.centroid().x.to_mm(),
            shape.centroid().y.to_mm(),
        ];
        for (ours, theirs) in ours.into_iter().zip(&row[2..]) {
            assert!(near(ours, number(theirs), 1e-11, 1e-9), "{row:?}: {ours}");
        }
    }
}

/// `shapely`: whether a place lies inside and how far it is from the edge, on a grid over and
/// around each outline.
#[test]
fn edge_distances_of_a_reference_library() {
    let outlines = rows(include_str!("reference/outlines.csv"));
    for row in rows(include_str!("reference/edge_distances.csv")) {
        let corners = outlines.iter().find(|o| o[0] == row[0]).expect("an outline of that name")[1];
        let place = Point2::mm(number(row[1]), number(row[2]));
        let ours = outline(corners).inside_by(place).to_mm();
        assert!(near(ours, number(row[3]), 0.0, 1e-9), "{row:?}: {ours}");
    }
}

/// Second moments about the centroid from handbook formulas (W. C. Young, R. G. Budynas, *Roark's
/// Formulas for Stress and Strain*, 7th ed., table A.1; recalled, not read again): rectangle bh³/12;
/// right triangle bh³/36, hb³/36, product −b²h²/72; equal angle by the parallel-axis theorem.
#[test]
fn second_moments_of_the_handbook() {
    let (b, h) = (40.0, 25.0);
    let moments = |shape: &Outline| {
        let m = shape.second_moments();
        [m.about_x.to_mm4(), m.about_y.to_mm4(), m.product.to_mm4()]
    };
    let check = |ours: [f64; 3], theirs: [f64; 3]| {
        for (ours, theirs) in ours.into_iter().zip(theirs) {
            assert!(near(ours, theirs, 1e-12, 1e-7), "{ours} instead of {theirs}");
        }
    };
    let plate = Outline::rect(Rect::from_size(Point2::mm(900.0, -70.0), mm(b), mm(h)));
    check(moments(&plate.expect("an area")), [b * h.powi(3) / 12.0, h * b.powi(3) / 12.0, 0.0]);
    check(
        moments(&outline("0:0 40:0 0:25")),
        [b * h.powi(3) / 36.0, h * b.powi(3) / 36.0, -(b * h).powi(2) / 72.0],
    );
    // 30 x 30 x 3: the foot 30 x 3 and the web 3 x 27.
    let (foot, web): ((f64, f64, f64), (f64, f64, f64)) = ((90.0, 15.0, 1.5), (81.0, 1.5, 16.5));
    let area = foot.0 + web.0;
    let (x, y) =
        ((foot.0 * foot.1 + web.0 * web.1) / area, (foot.0 * foot.2 + web.0 * web.2) / area);
    let about_x = 30.0 * 27.0 / 12.0
        + foot.0 * (foot.2 - y).powi(2)
        + 3.0 * 27_f64.powi(3) / 12.0
        + web.0 * (web.2 - y).powi(2);
    let product = foot.0 * (foot.1 - x) * (foot.2 - y) + web.0 * (web.1 - x) * (web.2 - y);
    check(moments(&outline("0:0 30:0 30:3 3:3 3:30 0:30")), [about_x, about_x, product]);
}

/// A pipe of 200 mm cut at 45° laid flat is one period of y = 100 cos(x/100), 200 π long (University of
/// Regina, Math Central, question QQ.09.07, "develop a flat wrap around").
#[test]
fn a_mitred_pipe_of_a_worked_example() {
    let pipe = Unrolled::Round { diameter: mm(200.0) };
    assert!(near(pipe.around().to_mm(), 200.0 * std::f64::consts::PI, 0.0, 1e-9));
    let line = pipe.mitre(Angle::deg(45.0));
    assert!(line.len() > 100);
    for (s, behind) in line {
        // Down from the long point; its seam is on the short side.
        let ours = 100.0 - behind.to_mm();
        let theirs = -100.0 * (s.to_mm() / 100.0).cos();
        assert!(near(ours, theirs, 0.0, 1e-9), "{ours} instead of {theirs}");
    }
}

/// Unfolding a pipe cut by the plane X + Z = 2R: X = R - R cos(a), and the circumference is L = R a + R π
/// (cut-the-knot, "Unfolding a cut cylinder"); any other angle is that height times its tangent, the
/// ordinates of parallel-line development.
#[test]
fn a_mitred_pipe_of_parallel_line_development() {
    for (diameter, degrees) in [(20.0, 45.0), (30.0, 22.5), (40.0, 60.0)] {
        let radius = diameter / 2.0;
        let pipe = Unrolled::Round { diameter: mm(diameter) };
        for (s, behind) in pipe.mitre(Angle::deg(degrees)) {
            let a = s.to_mm() / radius - std::f64::consts::PI;
            let x = radius - radius * a.cos();
            let theirs = x * f64::to_radians(degrees).tan();
            assert!(near(behind.to_mm(), theirs, 0.0, 1e-9), "{behind:?} instead of {theirs}");
        }
    }
}

/// Round a hollow section: twice both sides less (8 - 2π) r, as the surface areas of EN 10219-2's tables
/// are worked out (formula of its annex B, from memory).
#[test]
fn a_tube_with_round_corners_is_shorter_round() {
    let tube = Unrolled::flat(mm(40.0), mm(40.0), mm(6.0));
    let formula = 160.0 - 6.0 * (8.0 - 2.0 * std::f64::consts::PI);
    assert!(near(tube.around().to_mm(), formula, 0.0, 1e-9));
    assert!(tube.panes().iter().all(|pane| near(pane.to_mm(), formula / 4.0, 0.0, 1e-9)));
}
