//! Where a foot stands: the seat of its plate or leg on the skin, the heel, bend and bolt height.

use super::wedge::Slant;
use super::{Ground, Site, bolts, bracket, latch};
use crate::build::{BondedFoot, Fold, Wedge};
use crate::derive::Drawing;
use crate::derive::roof::Seat;
use crate::derive::rules::{l025, l029, l040};
use crate::geometry::{Axis3, Dir3, Frame3, Point3, Rect};
use crate::source::{Figure, Seen, Stated};
use crate::tables::{Section, Thread};
use crate::units::{Angle, Length, Unit, display};

/// Feet are rounded to this so that they come out alike.
const HEIGHT_STEP: f64 = 0.5;
/// Bends are rounded to this: finer can't be set with a bevel gauge (common practice).
const BEND_STEP: f64 = 0.5;
/// Bond thickness where no tape sets it: spacers of 3 mm (common practice for elastic bonding).
const BEAD_ALONE: Length = Length::mm(3.0);
/// Sizes of a foot that follow from its build file alone.
pub(super) struct Pattern {
    /// Between the two bolts in the standing leg.
    pub bolt_pitch: Length,
    /// Plate screws from each end of the angle.
    pub screw_end: Length,
    /// Rows of plate screws from the heel, outside to middle.
    pub rows: [Length; 2],
    pub standing: Length,
    pub lying: Length,
    pub leg: Length,
    /// Bond between skin and plate at its thinnest.
    pub bond: Length,
}

pub(super) fn pattern(foot: &BondedFoot) -> Pattern {
    let leg = foot.angle.t;
    let (standing, lying) = bracket::legs(&foot.angle, foot.fold.as_ref());
    let hole = foot.plate_screw.clearance.medium;
    let washer = foot.plate_screw.washer.outer;
    // From the toe: full bearing across (1.5 d0), and the washer stays on the leg.
    let toe = (hole * 1.5).max(washer / 2.0 + Length::mm(1.0));
    let second = Length::mm((lying - toe).to_mm().floor());
    // Between the rows: 2.4 d0 (EN 1993-1-8 table 3.3), and the countersinks stay apart.
    let apart = (hole * 2.4).max(foot.plate_screw.countersunk_head.diameter + Length::mm(2.0));
    let first = second - Length::mm(apart.to_mm().ceil());
    Pattern {
        bolt_pitch: bolts::pitch(&foot.bolt, *foot.angle_length),
        screw_end: bolts::end_distance(&foot.plate_screw),
        rows: [first, second],
        standing,
        lying,
        leg,
        bond: foot.tape.as_ref().map_or(BEAD_ALONE, |tape| *tape.thickness),
    }
}

/// What meets the skin: a plate, or the lying leg itself.
#[derive(Clone, Copy)]
pub(super) struct Base {
    /// Along the edge.
    pub length: Length,
    /// Across it.
    pub width: Length,
    /// Below the lying leg; none where the leg itself meets the skin.
    pub thickness: Length,
    /// Its middle outboard of the middle of the standing leg.
    pub shift: Length,
    /// Thickness of the leg.
    pub leg: Length,
    /// What lies between it and the skin where they are nearest, or farthest if it is pressed down.
    pub bond: Length,
    /// Pressed down until the farthest point is one bond away (tape must touch everywhere).
    pub pressed: bool,
    /// Thin edge of a wedge under the leg, which is as wide as the leg.
    pub wedge: Option<(Length, Length)>,
}

/// Thin edge and width of a wedge under a leg.
pub(super) fn wedge_of(wedge: Option<&Wedge>, lying: Length) -> Option<(Length, Length)> {
    wedge.map(|wedge| (*wedge.least, lying))
}

impl Base {
    /// The plate of a bonded foot.
    pub fn of_plate(foot: &BondedFoot, pattern: &Pattern) -> Self {
        Self {
            length: *foot.plate.length,
            width: *foot.plate.width,
            thickness: *foot.plate.thickness,
            shift: *foot.plate.shift,
            leg: pattern.leg,
            bond: pattern.bond,
            pressed: foot.tape.is_some(),
            wedge: wedge_of(foot.wedge.as_ref(), pattern.lying),
        }
    }
}

/// Where the foot stands: its own ways and the heel.
pub(super) struct Stance {
    pub seat: Seat,
    /// Along the heel.
    pub heel_way: Dir3,
    /// Up the standing leg.
    pub up: Dir3,
    /// Outboard along the lying leg.
    pub out: Dir3,
    /// Out of the plate's upper face.
    pub normal: Dir3,
    /// Heel, below the middle between the bolts.
    pub heel: Point3,
    /// What takes up the slope instead of a bend.
    pub slant: Option<Slant>,
    /// Outboard along the base: the leg's own way, or the lower face of its wedge.
    pub base_out: Dir3,
    /// Out of the base's upper face.
    pub base_normal: Dir3,
    /// Heel to bolt line along the standing leg.
    pub bolt_height: Length,
    pub bend: Angle,
    pub exact_bend: Angle,
    pub exact_height: Length,
}

/// Stands a foot under its place on the tube.
pub(super) fn stand(ground: &Ground<'_>, site: &Site<'_>, base: &Base, flange: Length) -> Stance {
    let axes = site.axes;
    // The rivet nuts' flanges hold the leg off the tube; the plate's middle lies under the leg's.
    let middle = flange + base.leg / 2.0 + base.shift;
    let over = site.at + axes.way(Length::ZERO, middle, Length::ZERO);
    let seat = ground.surface.seat(over.x, over.y, axes.turn(), base.length, base.width);
    let slope = |way: Dir3| {
        let [x, y, _] = way.parts();
        seat.slope_along * x + seat.slope_across * y
    };
    let (along, outboard) = (slope(axes.along), slope(axes.outboard));

    let heel_way = tilted(axes.along, Dir3::Z, along);
    let up = tilted(Dir3::Z, axes.along, -along);
    let [ax, ay, _] = axes.along.parts();
    let [ox, oy, _] = axes.outboard.parts();
    let plane =
        Dir3::of(-along * ax - outboard * ox, -along * ay - outboard * oy, 1.0).unwrap_or(Dir3::Z);
    let exact_out = plane.cross(heel_way).unwrap_or(axes.outboard);
    let exact_bend = up.angle_to(exact_out);
    let base_bend = Angle::deg(rounded(exact_bend.to_deg(), BEND_STEP));
    let [ux, uy, uz] = up.parts();
    let out_at = |bend: Angle| {
        let (cos, sin) = (bend.cos(), bend.sin());
        Dir3::of(ux * cos + ox * sin, uy * cos + oy * sin, uz * cos).unwrap_or(axes.outboard)
    };
    let slant = base.wedge.map(|(thin, width)| Slant::new(base_bend, thin, width));
    let bend = if slant.is_some() { Angle::RIGHT } else { base_bend };
    let (out, base_out) = (out_at(bend), out_at(base_bend));
    let normal = heel_way.cross(out).unwrap_or(Dir3::Z);
    let base_normal = heel_way.cross(base_out).unwrap_or(Dir3::Z);

    // Put down with the heel at the tube's lower edge, then shifted upright to its bond.
    let heel = site.at + axes.way(Length::ZERO, flange, Length::ZERO);
    let mut stance = Stance {
        seat,
        heel_way,
        up,
        out,
        normal,
        heel,
        slant,
        base_out,
        base_normal,
        bolt_height: Length::ZERO,
        bend,
        exact_bend,
        exact_height: Length::ZERO,
    };
    let (least, most) = bed(ground, &plate_frame(&stance, base), base);
    let over_skin = if base.pressed { most } else { least };
    let drop = (over_skin - base.bond) / base_normal.dot(Dir3::Z);
    stance.heel += Dir3::Z * -drop;
    let bolts = ground.frame.section.height() / 2.0;
    stance.exact_height = (bolts + drop) * up.dot(Dir3::Z);
    stance.bolt_height = Length::mm(rounded(stance.exact_height.to_mm(), HEIGHT_STEP));
    stance
}

/// A direction turned from `way` towards `towards` by the slope (rise over run).
fn tilted(way: Dir3, towards: Dir3, slope: f64) -> Dir3 {
    let ([a, b, c], [d, e, f]) = (way.parts(), towards.parts());
    Dir3::of(a + d * slope, b + e * slope, c + f * slope).unwrap_or(way)
}

fn rounded(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// Own axes of the plate: x along the edge, y outboard from its inboard edge, z up from the face
/// that is bonded.
pub(super) fn plate_frame(stance: &Stance, base: &Base) -> Frame3 {
    let under = stance.slant.map_or(Length::ZERO, |slant| slant.heel);
    let corner = stance.heel
        + stance.normal * -under
        + stance.heel_way * (base.length / -2.0)
        + stance.base_out * (base.leg / 2.0 + base.shift - base.width / 2.0)
        + stance.base_normal * -base.thickness;
    frame_of(corner, stance.heel_way, stance.base_out)
}

pub(super) fn frame_of(origin: Point3, x: Dir3, y: Dir3) -> Frame3 {
    let unit = Length::mm(1.0);
    // Heel and lying leg are at right angles by construction.
    Frame3::new(origin, x * unit, y * unit).unwrap_or(Frame3::at(origin))
}

/// Least and greatest thickness of the bond over the plate.
pub(super) fn bed(ground: &Ground<'_>, plate: &Frame3, base: &Base) -> (Length, Length) {
    const POINTS: u32 = 12;
    let up = plate.axis(Axis3::Z).dot(Dir3::Z);
    let mut span = (Length::mm(1e6), Length::mm(-1e6));
    for i in 0..=POINTS {
        for k in 0..=POINTS {
            let own = Point3::new(
                base.length * (f64::from(i) / f64::from(POINTS)),
                base.width * (f64::from(k) / f64::from(POINTS)),
                Length::ZERO,
            );
            let place = plate.place(own);
            let thickness = (place.z - ground.surface.height(place.x, place.y)) * up;
            span = (span.0.min(thickness), span.1.max(thickness));
        }
    }
    span
}

/// Corners of a plate as seen from above, for what it may not cover.
pub(super) fn footprint(place: Frame3, length: Length, width: Length) -> Rect {
    let corner = |x: Length, y: Length| place.place(Point3::new(x, y, Length::ZERO)).xy();
    let zero = Length::ZERO;
    let corners =
        [corner(zero, zero), corner(length, zero), corner(length, width), corner(zero, width)];
    Rect::around(corners).unwrap_or(Rect::about(place.origin().xy(), length, width))
}

/// Legs of the angle that a foot is made of.
pub(super) struct Legs<'a> {
    pub angle: &'a Stated<Section>,
    pub standing: Length,
    /// Thickness.
    pub leg: Length,
    /// Bent from flat stuff, as far as is needed.
    pub fold: Option<&'a Fold>,
}

/// Whether the angle can be bent so far and its standing leg meets the bolts.
pub(super) fn check_legs(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    stance: &Stance,
    legs: &Legs<'_>,
    bolt: &Stated<Thread>,
) {
    let mark = &site.mark;
    if legs.fold.is_none() && l025::is_too_far(stance.bend) {
        drawing.findings.push(l025::finding(mark, stance.bend, legs.angle, site.mount));
    }
    let drawn = latch::is_drawn(site.mount.kind.latch());
    let half = ground.frame.section.height() / 2.0;
    let needed =
        stance.bolt_height + if drawn { latch::LAP - half } else { bolt.clearance.medium * 1.2 };
    if !needed.fits(legs.standing) {
        drawing.told.push(bolt.span);
        drawing.findings.push(l029::too_short(mark, needed, legs.standing, legs.angle));
    }
    let head = bolt.washer.outer / 2.0 + legs.leg + legs.angle.inner_radius + Length::mm(1.0);
    if let Some(slant) = &stance.slant
        && l040::is_too_steep(slant.angle)
    {
        drawing.findings.push(l040::finding(mark, slant.angle, site.mount));
    }
    if stance.bolt_height < head && !drawn {
        drawing.findings.push(l029::too_low(mark, head - stance.bolt_height, ground.frame));
    }
}

/// Bend and bolt height. `plane` is what the lying leg follows, `rest` takes up what rounding leaves.
pub(super) fn enter_bend_and_height(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    ground: &Ground<'_>,
    stance: &Stance,
    (plane, rest): (&str, &str),
) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 2);
    let degrees = |angle: Angle| display::in_unit(angle, Unit::DEG, 1);
    let mark = &site.mark;
    if let Some(slant) = &stance.slant {
        drawing.ledger.push(slant.figure(mark, stance.exact_bend));
    }
    drawing.ledger.push(
        Figure::new(
            format!("mount.{mark}.bend"),
            format!("angle between the legs of foot {mark}"),
            stance.bend.to_deg(),
            "°",
        )
        .formula(format!(
            "β = angle between the standing leg, square to the heel, and {plane} outboard"
        ))
        .input("slope across", degrees(stance.seat.tilt_across()))
        .input("slope along", degrees(stance.seat.tilt_along()))
        .input("exact", degrees(stance.exact_bend))
        .source("geometry on the measured roof", Seen::Computed)
        .assume(if stance.slant.is_some() {
            format!("square: its wedge takes up the slope, {rest} what is left of it")
        } else {
            format!("rounded to half a degree; {rest} takes up the rest")
        })
        .decides(),
    );
    drawing.ledger.push(
        Figure::new(
            format!("mount.{mark}.bolt-height"),
            format!("heel to bolt line of foot {mark}"),
            stance.bolt_height.to_mm(),
            "mm",
        )
        .formula("h = (z_under + tube/2 − z_heel) cos(slope along the edge)")
        .input("z_under", told(site.at.z))
        .input("tube", told(ground.frame.section.height()))
        .input("z_heel", told(stance.heel.z))
        .input("exact", told(stance.exact_height))
        .source("geometry on the measured roof", Seen::Computed)
        .assume("rounded to half a millimetre; the holes in the tube are drilled through the foot in place")
        .decides(),
    );
}
