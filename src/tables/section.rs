//! Bars and tubes, and what their shape gives.

use super::profile::Profile;
use super::section_family::{family_of, words_for};
use super::{Entry, Material, Row, RowOrigin};
use crate::units::{Area, Length, LinearMass, SecondMoment, SectionModulus, Unit};

/// The outline of a bar or tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// Square tube.
    SquareTube,
    /// Rectangular tube.
    RectTube,
    /// Round tube.
    RoundTube,
    /// Angle, legs equal or not.
    Angle,
    /// Flat bar.
    Flat,
    /// Channel: web of height `a`, flanges of width `b`.
    Channel,
}

impl Shape {
    /// As written in table files.
    pub const ALL: &'static [(&'static str, Self)] = &[
        ("square-tube", Self::SquareTube),
        ("rect-tube", Self::RectTube),
        ("round-tube", Self::RoundTube),
        ("angle", Self::Angle),
        ("flat", Self::Flat),
        ("channel", Self::Channel),
    ];

    /// For people.
    pub const fn words(self) -> &'static str {
        match self {
            Self::SquareTube => "square tube",
            Self::RectTube => "rectangular tube",
            Self::RoundTube => "round tube",
            Self::Angle => "angle",
            Self::Flat => "flat bar",
            Self::Channel => "channel",
        }
    }

    /// Whether its size has a width besides height and thickness.
    pub const fn has_width(self) -> bool {
        !matches!(self, Self::RoundTube | Self::Flat)
    }

    /// Whether it is closed round a hollow.
    pub const fn is_tube(self) -> bool {
        matches!(self, Self::SquareTube | Self::RectTube | Self::RoundTube)
    }
}

/// A bar or tube as sold.
///
/// `a` stands upright: "x" properties are for bending in the plane of `a`, "y" for bending in the
/// plane of `b`. An angle stands on its leg `b` with its heel at the lower left; a channel's web is
/// upright with its flanges to the right.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Kebab-case class name, such as `aluminium-tube-25x25x2`.
    pub name: String,
    /// For people, such as "aluminium square tube 25 × 25 × 2 mm".
    pub words: String,
    /// Outline.
    pub shape: Shape,
    /// Height: outside of a tube, upright leg, width of a flat bar, web of a channel.
    pub a: Length,
    /// Width: outside of a tube, lying leg, flange of a channel; equal to `t` for a flat bar.
    pub b: Length,
    /// Thickness of wall, leg or bar.
    pub t: Length,
    /// Outer corner radius of a tube; zero for sharp corners.
    pub outer_radius: Length,
    /// Inner corner radius of a tube, root radius of an angle.
    pub inner_radius: Length,
    /// Radius at the toes of an angle.
    pub toe_radius: Length,
    /// Name of its [`Material`].
    pub material: String,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Section {
    /// The cross-section of a bracket bent from sheet: outside legs `a` and `b`, thickness `t`, its
    /// inside radius as root radius. The bend's outside is taken as sharp, so that its area is told a
    /// little too large; it is no row of a table.
    pub fn folded(
        material: &Material,
        (a, b, t): (Length, Length, Length),
        radius: Length,
    ) -> Self {
        let told = |size: Length| format!("{}", (size.to_mm() * 100.0).round() / 100.0);
        let sizes = [told(a), told(b), told(t)];
        Self {
            name: format!("{}-folded-{}", material.name, sizes.join("x")),
            words: format!("{}, {} mm thick, bent", material.words, sizes[2]),
            shape: Shape::Angle,
            a,
            b,
            t,
            outer_radius: Length::ZERO,
            inner_radius: radius,
            toe_radius: Length::ZERO,
            material: material.name.clone(),
            origin: material.origin.clone(),
        }
    }

    fn profile(&self) -> Profile {
        let [a, b, t] = [self.a, self.b, self.t].map(Length::to_mm);
        let [out, inside, toe] =
            [self.outer_radius, self.inner_radius, self.toe_radius].map(Length::to_mm);
        let nothing = Profile::default();
        match self.shape {
            Shape::SquareTube | Shape::RectTube => {
                nothing.rounded(1.0, b, a, out).rounded(-1.0, b - 2.0 * t, a - 2.0 * t, inside)
            }
            Shape::RoundTube => nothing.circle(1.0, a).circle(-1.0, a - 2.0 * t),
            Shape::Angle => nothing
                .rectangle(1.0, 0.0, 0.0, b, t)
                .rectangle(1.0, 0.0, t, t, a - t)
                .fillet(1.0, (t, t), (1.0, 1.0), inside)
                .fillet(-1.0, (b, t), (-1.0, -1.0), toe)
                .fillet(-1.0, (t, a), (-1.0, -1.0), toe),
            Shape::Flat => nothing.rectangle(1.0, 0.0, 0.0, t, a),
            Shape::Channel => nothing
                .rectangle(1.0, 0.0, 0.0, t, a)
                .rectangle(1.0, t, 0.0, b - t, t)
                .rectangle(1.0, t, a - t, b - t, t),
        }
    }

    /// Area of the cross-section.
    pub fn area(&self) -> Area {
        Area::mm2(self.profile().area())
    }

    /// Second moment for bending in the plane of `a`, about the centroid.
    pub fn second_moment_x(&self) -> SecondMoment {
        SecondMoment::mm4(self.profile().second_moments().0)
    }

    /// Second moment for bending in the plane of `b`, about the centroid.
    pub fn second_moment_y(&self) -> SecondMoment {
        SecondMoment::mm4(self.profile().second_moments().1)
    }

    /// The least second moment about any axis, which counts for buckling; for an angle it is about
    /// a slanting axis.
    pub fn least_second_moment(&self) -> SecondMoment {
        SecondMoment::mm4(self.profile().least())
    }

    /// Section modulus to the farther edge for bending in the plane of `a`.
    pub fn modulus_x(&self) -> SectionModulus {
        let (_, y) = self.centroid();
        let far = y.max(self.height() - y).to_mm();
        SectionModulus::mm3(self.second_moment_x().to_mm4() / far)
    }

    /// Section modulus to the farther edge for bending in the plane of `b`.
    pub fn modulus_y(&self) -> SectionModulus {
        let (x, _) = self.centroid();
        let far = x.max(self.width() - x).to_mm();
        SectionModulus::mm3(self.second_moment_y().to_mm4() / far)
    }

    /// Centroid, right of the left edge and above the lower edge.
    pub fn centroid(&self) -> (Length, Length) {
        let (x, y) = self.profile().centroid();
        if self.shape.is_tube() {
            (self.width() / 2.0, self.height() / 2.0)
        } else {
            (Length::mm(x), Length::mm(y))
        }
    }

    /// Mass by length in `material`.
    pub fn linear_mass(&self, material: &Material) -> LinearMass {
        LinearMass::kg_per_m(self.area().to_m2() * material.density.to_kg_per_m3())
    }

    /// Outside height.
    pub const fn height(&self) -> Length {
        self.a
    }

    /// Outside width; a flat bar lies on its edge.
    pub const fn width(&self) -> Length {
        match self.shape {
            Shape::RoundTube => self.a,
            Shape::Flat => self.t,
            _ => self.b,
        }
    }

    /// Clear inside of a tube, width and height.
    pub fn inside(&self) -> Option<(Length, Length)> {
        let walls = self.t * 2.0;
        self.shape.is_tube().then(|| (self.width() - walls, self.height() - walls))
    }

    /// Whether its figures can be: walls thinner than half, radii that fit.
    fn holds_together(&self) -> bool {
        let [a, b, t] = [self.a, self.b, self.t].map(Length::to_mm);
        let [out, inside, toe] =
            [self.outer_radius, self.inner_radius, self.toe_radius].map(Length::to_mm);
        a > 0.0
            && b > 0.0
            && t > 0.0
            && match self.shape {
                Shape::Flat => t <= a,
                Shape::Angle => t < a.min(b) && toe <= t && inside < a.min(b) - t,
                Shape::Channel => 2.0 * t < a && t < b,
                _ => 2.0 * t < a.min(b) && 2.0 * out <= a.min(b) && inside <= out,
            }
    }
}

impl Entry for Section {
    const KIND: &'static str = "section";

    fn name(&self) -> &str {
        &self.name
    }

    fn origin(&self) -> &RowOrigin {
        &self.origin
    }

    fn read_all(row: &mut Row<'_>) -> Vec<Self> {
        let shape = row.choice("shape", Shape::ALL);
        let material = row.words("material");
        let sections = match row.maybe_words("family") {
            Some(family) => family_of(row, &family, shape, &material),
            None => vec![one(row, shape, material)],
        };
        if let Some(wrong) =
            sections.iter().filter(|_| row.is_sound()).find(|section| !section.holds_together())
        {
            let why = format!("the sizes and radii of {} don't make this shape", wrong.name);
            row.refuse("shape", &why);
        }
        sections
    }
}

/// A section given by itself.
fn one(row: &mut Row<'_>, shape: Shape, material: String) -> Section {
    let a: Length = row.quantity("a", Unit::MM);
    let t: Length = row.quantity("t", Unit::MM);
    let b = row.maybe("b", Unit::MM).unwrap_or(if shape == Shape::Flat { t } else { a });
    let words = row.maybe_words("words").unwrap_or_else(|| {
        let sizes = if shape.has_width() { vec![a, b, t] } else { vec![a, t] };
        let sizes: Vec<String> = sizes.iter().map(|size| size.to_mm().to_string()).collect();
        words_for(&material, shape, &sizes, "mm")
    });
    Section {
        name: row.words("name"),
        words,
        shape,
        a,
        b,
        t,
        outer_radius: row.maybe("outer-radius", Unit::MM).unwrap_or_default(),
        inner_radius: row.maybe("inner-radius", Unit::MM).unwrap_or_default(),
        toe_radius: row.maybe("toe-radius", Unit::MM).unwrap_or_default(),
        material,
        origin: row.origin(),
    }
}
