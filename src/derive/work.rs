//! The work as plain values: what stands where, what it is made of, where its holes are.

use crate::geometry::{Frame3, Point2, Point3, Rect, Vec3};
use crate::source::Span;
use crate::tables::{Adhesive, Hinge, Material, RivetNut, Section, Tape, TappingScrew, Thread};
use crate::units::{Angle, Length, Mass};

use super::roof::RoofSurface;

/// Everything that is made and fitted, in place on the vehicle.
#[derive(Debug, Clone)]
pub struct Work {
    /// The measured roof; absent for a build without one.
    pub roof: Option<RoofSurface>,
    /// Panels and frame in place.
    pub array: Option<Array>,
    /// Single mounts, in the order of their marks.
    pub mounts: Vec<MountPlace>,
    /// Parts to make or buy; alike pieces share one entry.
    pub parts: Vec<Part>,
    /// Every hole, by id.
    pub holes: Vec<Hole>,
    /// Screws, bolts and rivets with what they clamp.
    pub fastenings: Vec<Fastening>,
    /// Bonded joints.
    pub bonds: Vec<Bond>,
    /// Hole through the roof for the cables.
    pub entry: Option<EntryPlace>,
}

/// Panels and frame in place.
#[derive(Debug, Clone)]
pub struct Array {
    /// Outside of the frame seen from above (X, Y).
    pub outline: Rect,
    /// Lower face of the tubes over the roof's zero height.
    pub under: Length,
    /// Upper face of the tubes, which is the lower edge of the panels.
    pub tube_top: Length,
    /// Highest point of the panels.
    pub top: Length,
    /// Highest roof point under the array.
    pub crown: Length,
    /// Panels by mark.
    pub panels: Vec<PanelPlace>,
    /// Both diagonals of the finished frame, outside corner to outside corner.
    pub diagonal: Length,
}

/// One panel in place.
#[derive(Debug, Clone)]
pub struct PanelPlace {
    /// Mark, "P1".
    pub mark: String,
    /// Which `[[panel]]` it is.
    pub panel: usize,
    /// Outside seen from above.
    pub outline: Rect,
    /// Thickness of the packer under its middle, where there is one.
    pub packer: Option<Length>,
}

/// One mount in place.
#[derive(Debug, Clone)]
pub struct MountPlace {
    /// Mark, "F1".
    pub mark: String,
    /// Name with its kind, "bonded foot".
    pub name: String,
    /// Which `[[mount]]` it comes from.
    pub mount: usize,
    /// Where the frame's outer face and lower face meet, at the middle of the mount.
    pub at: Point3,
    /// Point of the roof skin below it.
    pub roof: Point3,
    /// Slope of the skin across (dz/dy), as an angle; positive rises to the right.
    pub slope_across: Angle,
    /// Slope of the skin along (dz/dx), as an angle; positive rises to the rear.
    pub slope_along: Angle,
    /// Greatest gap between a flat plate of the mount's size and the skin.
    pub plate_gap: Length,
    /// What its kind adds.
    pub kind: MountShape,
    /// Place in the build file.
    pub span: Span,
}

/// What a mount of each kind adds.
#[derive(Debug, Clone)]
pub enum MountShape {
    /// Hinge on a rail.
    Hinge {
        /// Hinge row.
        hinge: Hinge,
        /// Thickness to pack between rail top and leaf.
        packer: Length,
        /// Pin line over roof zero.
        pin: Point3,
    },
    /// Bonded foot.
    BondedFoot {
        /// Height of the bolt line over the upper face of the lying leg, along the standing leg.
        bolt_height: Length,
        /// Length of the standing leg that the section gives.
        leg: Length,
        /// Angle between the legs, 90° where the roof is level.
        bend: Angle,
    },
}

/// A part to make or to buy; alike pieces share one entry.
#[derive(Debug, Clone)]
pub struct Part {
    /// Name on every sheet, at most three words.
    pub name: String,
    /// Single pieces with their marks and places.
    pub pieces: Vec<Piece>,
    /// Shape and stuff.
    pub body: Body,
    /// Faces that holes are measured on; empty where there are none.
    pub faces: Vec<Face>,
    /// Mass of one piece.
    pub mass: Mass,
    /// Place in the build file.
    pub span: Span,
}

/// One single piece.
#[derive(Debug, Clone)]
pub struct Piece {
    /// Mark, "L1".
    pub mark: String,
    /// Where it is: maps the part's own axes (x along from the zero end, y across, z up from the
    /// datum edge) to the vehicle's.
    pub place: Frame3,
}

/// Shape and stuff of a part.
#[derive(Debug, Clone)]
pub enum Body {
    /// Cut from a section bar: tube, angle, flat.
    Bar {
        /// Section row.
        section: Section,
        /// Cut length.
        length: Length,
        /// For an angle: angle between the legs after opening or closing it.
        bend: Option<Angle>,
        /// Pushed on both ends onto a connector: no hole nearer to an end than this.
        plugged: Length,
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
}

/// A flat face that holes are measured on.
#[derive(Debug, Clone)]
pub struct Face {
    /// Name: `top`, `bottom`, `outer`, `inner`, `standing leg`, `lying leg`.
    pub name: String,
    /// Where one stands to see it, "from above, front at left".
    pub seen: String,
    /// Zero corner in the part's own axes.
    pub origin: Point3,
    /// Direction of running dimensions.
    pub along: Vec3,
    /// Direction away from the datum edge.
    pub across: Vec3,
    /// Extent along.
    pub length: Length,
    /// Extent across.
    pub width: Length,
    /// Thickness of the wall behind it.
    pub wall: Length,
}

/// One hole. Alike pieces of a part share it.
#[derive(Debug, Clone)]
pub struct Hole {
    /// Id, unique in the packet: "H21".
    pub id: String,
    /// Index into [`Work::parts`].
    pub part: usize,
    /// Index into that part's faces.
    pub face: usize,
    /// Running dimension and offset on that face.
    pub at: Point2,
    /// Finished diameter.
    pub diameter: Length,
    /// What it is for.
    pub kind: HoleKind,
    /// Drill diameters in order, last the finished one.
    pub drills: Vec<Length>,
    /// Countersink diameter on this face.
    pub countersink: Option<Length>,
    /// Ids of the holes that the same fastener passes.
    pub mates: Vec<String>,
    /// Index into [`Work::fastenings`].
    pub fastening: Option<usize>,
    /// Whether it may be drilled by itself.
    pub drilling: Drilling,
    /// Least distance from its centre to an edge that the rules ask for, and what it has.
    pub edge: EdgeDistance,
    /// Place in the build file.
    pub span: Span,
}

/// Edge distance asked and had.
#[derive(Debug, Clone, Copy)]
pub struct EdgeDistance {
    /// Centre to nearest edge.
    pub has: Length,
    /// Least for any use.
    pub least: Length,
    /// From here the full bearing strength may be used.
    pub full: Length,
}

/// What a hole is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HoleKind {
    /// A bolt or screw passes freely.
    Clearance,
    /// A rivet nut is set in it.
    RivetNut,
    /// A tapping screw cuts its thread in it.
    Pilot,
    /// A countersunk screw.
    Countersunk,
    /// A screwdriver or socket passes.
    Access,
    /// A blind rivet.
    Rivet,
    /// A cable passes.
    Cable,
    /// Water runs out.
    Drain,
}

/// Whether a hole may be drilled by itself.
#[derive(Debug, Clone, PartialEq)]
pub enum Drilling {
    /// From its own marks.
    Apart,
    /// Clamped to its mate and drilled through that hole.
    Through(String),
}

/// One kind of fastener at all its places.
#[derive(Debug, Clone)]
pub struct Fastening {
    /// What it does, "angle to side tube".
    pub name: String,
    /// What it is.
    pub screw: Screw,
    /// What it clamps, from the head: words and thickness.
    pub stack: Vec<(String, Length)>,
    /// How many in the whole work.
    pub count: u32,
    /// Holes that it passes, from the head; one row a place.
    pub places: Vec<Vec<String>>,
    /// May be undone in use (knob or wing): no threadlocker.
    pub undone: bool,
    /// Place in the build file.
    pub span: Span,
}

/// What a fastener is.
#[derive(Debug, Clone)]
pub enum Screw {
    /// Bolt into a rivet nut.
    BoltInRivetNut {
        /// Thread row.
        thread: Thread,
        /// Standard length.
        length: Length,
        /// Rivet nut row.
        nut: RivetNut,
    },
    /// Bolt with a locking nut.
    BoltAndNut {
        /// Thread row.
        thread: Thread,
        /// Standard length.
        length: Length,
        /// Countersunk head.
        countersunk: bool,
    },
    /// Tapping screw.
    Tapping {
        /// Screw row.
        screw: TappingScrew,
        /// Length.
        length: Length,
    },
    /// Blind rivet.
    BlindRivet {
        /// Diameter.
        diameter: Length,
        /// Length.
        length: Length,
    },
}

/// One bonded joint between a plate and the skin.
#[derive(Debug, Clone)]
pub struct Bond {
    /// Mark of the mount or entry.
    pub mark: String,
    /// Plate along its own x.
    pub length: Length,
    /// Plate along its own y.
    pub width: Length,
    /// Tape row and the strips on the plate.
    pub tape: Option<(Tape, Length)>,
    /// Strips in the plate's own axes.
    pub strips: Vec<Rect>,
    /// Adhesive row.
    pub adhesive: Option<Adhesive>,
    /// Pressed beads in the plate's own axes.
    pub beads: Vec<Rect>,
    /// Thickness of the bond.
    pub thickness: Length,
    /// Material of the plate, which moves with heat.
    pub plate: Material,
    /// Whether both faces keep moisture out, so that a bead cures from its open edges only.
    pub trapped: bool,
    /// Where the load comes in: leg over this line of the plate (own y).
    pub leg: Length,
    /// Place in the build file.
    pub span: Span,
}

/// Hole through the roof for the cables.
#[derive(Debug, Clone)]
pub struct EntryPlace {
    /// Mark, "E1".
    pub mark: String,
    /// Middle, on the skin.
    pub at: Point3,
    /// Id of the hole.
    pub hole: String,
    /// Foot of the housing (X, Y).
    pub foot: Rect,
}
