//! Parts, their single pieces and the faces that holes are measured on.

use crate::geometry::{Bend, Dir3, Frame3, Point2, Point3};
use crate::source::Span;
use crate::tables::{Material, Section, Shape};
use crate::units::{Angle, Length, Mass};

/// What a part is in the work; in the order in which sheets tell them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartKind {
    /// Tube along the vehicle.
    SideTube,
    /// Tube across, at an end of the frame.
    EndTube,
    /// Tube across, between the side tubes.
    CrossTube,
    /// Short angle that holds a cross tube.
    JointAngle,
    /// Short angle in an inner corner of the frame.
    CornerAngle,
    /// Angle bracket of a bonded foot.
    FootAngle,
    /// Plate of a bonded foot.
    FootPlate,
    /// Plate below the skin under a bolted foot.
    Spreader,
    /// Angle bracket of a rail clamp.
    ClampAngle,
    /// Plate below the rail.
    ClampPlate,
    /// Block between rail and clamp.
    ClampPacker,
    /// Latch between bracket and tube, bought.
    Latch,
    /// Hinge, bought.
    Hinge,
    /// Block under a hinge leaf.
    HingePacker,
    /// Wedge under the bracket of a foot.
    Wedge,
    /// Bar that holds a lifted frame up.
    Prop,
    /// Block between a tube and its prop.
    PropPacker,
    /// Block under the middle of a panel.
    PanelPacker,
    /// Push-in connector at a corner, bought.
    Connector,
    /// Plug in the open end of a tube, bought.
    EndPlug,
    /// Solar panel, bought.
    Panel,
    /// Cable entry housing, bought.
    Entry,
    /// Stated directly in the build file.
    Direct,
    /// Rail that is on the vehicle already.
    Rail,
    /// The roof skin itself.
    Skin,
    /// The stretch of skin under one bolted foot.
    SkinUnderFoot,
}

/// A part to make, to buy or to work on; alike pieces share one entry.
#[derive(Debug, Clone)]
pub struct Part {
    /// What it is in the work.
    pub kind: PartKind,
    /// Name on every sheet, at most three words.
    pub name: String,
    /// Single pieces with their marks and places.
    pub pieces: Vec<Piece>,
    /// Shape and stuff.
    pub body: Body,
    /// Faces that holes are measured on; empty where there are none.
    pub faces: Vec<Face>,
    /// Mass of one piece, holes not taken off; zero for what is on the vehicle already.
    pub mass: Mass,
    /// Place in the build file.
    pub span: Span,
}

/// One single piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Mark, "L1".
    pub mark: String,
    /// Where it is: maps the part's own axes (x along from the zero end, y across, z up from the
    /// datum edge) to the vehicle's.
    pub place: Frame3,
    /// Which of the frames it belongs to, mounts included; none for what is on its own.
    pub frame: Option<usize>,
}

/// Shape and stuff of a part.
#[expect(clippy::large_enum_variant, reason = "a few dozen in a packet; plain rows read best")]
#[derive(Debug, Clone, PartialEq)]
pub enum Body {
    /// Cut from a section bar: tube, angle, flat.
    Bar {
        /// Section row.
        section: Section,
        /// Cut length.
        length: Length,
        /// For an angle: angle between the legs after opening or closing it.
        bend: Option<Angle>,
        /// How far a connector reaches into both ends: no hole nearer to an end than this.
        plugged: Length,
        /// Mitres.
        ends: Ends,
    },
    /// Cut from plate.
    Plate {
        /// Material row.
        material: Material,
        /// Along its own x.
        length: Length,
        /// Along its own y.
        width: Length,
        /// Thickness.
        thickness: Length,
        /// Flat section that it is cut from, if its width is one.
        section: Option<Section>,
        /// The bend that makes a bracket of it.
        fold: Option<Folded>,
    },
    /// Block cut on a slant: its thickness grows along its own y. Its flat face is the upper one.
    Wedge {
        /// Material row.
        material: Material,
        /// Along its own x.
        length: Length,
        /// Along its own y.
        width: Length,
        /// Thickness at y = 0.
        thin: Length,
        /// Thickness at full width.
        thick: Length,
    },
    /// Block of soft or hard material.
    Block {
        /// Material row.
        material: Material,
        /// Along its own x.
        length: Length,
        /// Along its own y.
        width: Length,
        /// Height.
        height: Length,
    },
    /// Bought ready.
    Bought {
        /// What to ask for.
        item: String,
    },
    /// On the vehicle already.
    OnVehicle,
}

/// How the two ends of a bar are cut. Off square above zero: the long point lies on the far side of
/// what the mitre runs across; below zero: on the near side. Alike signs: both long points on one side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ends {
    /// Zero end, off square.
    pub zero: Angle,
    /// Far end, off square.
    pub far: Angle,
    /// Side of the section that the mitre runs across; zero for square ends.
    pub across: Length,
}

impl Ends {
    /// Both square.
    pub const SQUARE: Self = Self { zero: Angle::ZERO, far: Angle::ZERO, across: Length::ZERO };

    /// Whether both are square.
    pub fn are_square(&self) -> bool {
        self.zero.is_zero() && self.far.is_zero()
    }
}

/// A bracket bent from flat stuff. The flat's own length runs from the end of the standing leg to
/// that of the lying leg, its width along the bend.
#[derive(Debug, Clone, PartialEq)]
pub struct Folded {
    /// Cross-section once bent, as that of an angle.
    pub section: Section,
    /// Outside of the leg that stands.
    pub standing: Length,
    /// Outside of the leg that lies.
    pub lying: Length,
    /// The bend.
    pub bend: Bend,
    /// Angle between the legs.
    pub between: Angle,
    /// Place of the neutral line from the inside as a share of the thickness.
    pub share: f64,
}

impl Folded {
    /// Length of the flat.
    pub fn flat(&self) -> Length {
        self.bend.flat(self.standing, self.lying, self.share)
    }

    /// Where the bend begins and ends on the flat, from the end of the standing leg.
    pub fn lines(&self) -> (Length, Length) {
        let begins = self.standing - self.bend.setback();
        (begins, begins + self.bend.allowance(self.share))
    }

    /// Where a hole comes to lie on the flat: along the bend, and from the end of the standing leg.
    /// `on` is its place on a leg, from the heel.
    pub fn on_flat(&self, on: Point2, standing: bool) -> Point2 {
        let from_end =
            if standing { self.standing - on.y } else { self.flat() - (self.lying - on.y) };
        Point2::new(on.x, from_end)
    }
}

/// What a bracket is, cut from an angle or bent.
#[derive(Debug, Clone, Copy)]
pub struct Bracket<'a> {
    /// Cross-section.
    pub section: &'a Section,
    /// Along its heel.
    pub length: Length,
    /// Angle between its legs.
    pub between: Angle,
}

impl Body {
    /// The bracket that it is, if it is one.
    pub fn bracket(&self) -> Option<Bracket<'_>> {
        match self {
            Self::Bar { section, length, bend: Some(between), .. } => {
                Some(Bracket { section, length: *length, between: *between })
            }
            Self::Plate { width, fold: Some(fold), .. } => {
                Some(Bracket { section: &fold.section, length: *width, between: fold.between })
            }
            _ => None,
        }
    }

    /// Its bend, if it is bent from flat stuff.
    pub const fn fold(&self) -> Option<&Folded> {
        match self {
            Self::Plate { fold, .. } => fold.as_ref(),
            _ => None,
        }
    }

    /// Thickness behind a place on one of its faces, square to the face.
    pub fn wall_at(&self, face: &Face, at: Point2) -> Length {
        match self {
            Self::Wedge { width, thin, thick, .. } => *thin + (*thick - *thin) * (at.y / *width),
            _ => face.wall,
        }
    }

    /// How far behind its outermost points a mitred bar's zero end and far end lie at a place in its
    /// own axes: the slant runs across it from its near to its far side, along y, or along z where it
    /// runs across the height.
    pub fn set_back(&self, at: Point3) -> (Length, Length) {
        let Self::Bar { section, ends, .. } = self else { return (Length::ZERO, Length::ZERO) };
        let over_height = section.shape != Shape::Flat
            && ends.across.is_near(section.height(), Length::SLACK)
            && !ends.across.is_near(section.width(), Length::SLACK);
        let from_near = if over_height { at.z } else { at.y };
        let back = |angle: Angle| {
            // Above zero the long point is on the far side.
            let from_long = if angle > Angle::ZERO { ends.across - from_near } else { from_near };
            from_long * angle.tan().abs()
        };
        (back(ends.zero), back(ends.far))
    }
}

/// A flat face that holes are measured on, always seen from outside.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Name: `top`, `bottom`, `outer`, `inner`, `standing leg`, `lying leg`.
    pub name: String,
    /// Where one stands to see it, "from above, front at left".
    pub seen: String,
    /// Zero corner in the part's own axes.
    pub origin: Point3,
    /// Direction of running dimensions in the part's own axes.
    pub along: Dir3,
    /// Direction away from the datum edge in the part's own axes.
    pub across: Dir3,
    /// Out of the material, in the part's own axes.
    pub outward: Dir3,
    /// Extent along.
    pub length: Length,
    /// Extent across.
    pub width: Length,
    /// Thickness of the wall behind it.
    pub wall: Length,
    /// Its long sides are cut edges that metal can tear out to; a tube's walls go on round the
    /// corner instead. Its ends are always cut.
    pub free_sides: bool,
    /// Seen from outside with `across` upwards, running dimensions run to the left: the zero corner
    /// is at the right of the drawing.
    pub runs_left: bool,
}

impl Face {
    /// A place on the face in the part's own axes.
    pub fn point(&self, at: Point2) -> Point3 {
        self.origin + self.along * at.x + self.across * at.y
    }
}
