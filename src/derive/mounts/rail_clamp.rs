//! An angle clamped onto an existing rail: lying leg above the rail, a plate below its flange, two
//! bolts on either side.
//!
//! The rail is not drilled. Friction is not counted on along it unless the bolts are tight; across
//! it the bolts themselves stop the clamp. The clamp is taken level: a rail slopes too little over
//! its length. The bolts stay at the tube's mid height; a packer takes up what the leg does not reach.

use super::bolts::{self, Through, bolt_and_nut_length};
use super::bracket::{self, Bracket, Standing, TubeBolts};
use super::flat::{Flat, PACKER, PACKER_STEP};
use super::foot_stance::frame_of;
use super::{Ground, Site, latch};
use crate::build::RailClamp;
use crate::derive::Drawing;
use crate::derive::drilling::{FastenerFit, may_be_drilled_apart};
use crate::derive::rules::{l029, l038, written};
use crate::derive::shop;
use crate::derive::work::{MountPlace, MountShape, PartKind};
use crate::geometry::{Dir3, Frame3, Point2, Point3};
use crate::source::{Figure, Seen};
use crate::units::{Angle, Length, Unit, display};

/// Air between a bolt's hole and the rail's edge.
const BESIDE: Length = Length::mm(1.0);

/// Where the clamp stands.
struct Stance {
    heel: Point3,
    packer: Length,
    rail_top: Length,
    bolt_height: Length,
    /// Rail's edges from the heel, outboard.
    rail: (Length, Length),
    /// Rows of bolts from the heel, beside the rail.
    rows: [Length; 2],
    standing: Length,
    lying: Length,
    /// From each end of the bracket.
    end: Length,
}

fn stand(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    clamp: &RailClamp,
    flange: Length,
) -> Stance {
    let sideways = site.axes.outboard.dot(Dir3::Y).abs() > 0.5;
    let rail_at = if sideways {
        Point3::new(site.at.x, *clamp.rail.y, site.at.z)
    } else {
        Point3::new(*clamp.rail.y, site.at.y, site.at.z)
    };
    let rail_top = ground.surface.height(rail_at.x, rail_at.y) + *clamp.rail.height;
    let leg = clamp.angle.t;
    let (standing, lying) = match &clamp.fold {
        Some(fold) => (*fold.standing, *fold.lying),
        None => (clamp.angle.a.min(clamp.angle.b), clamp.angle.a.max(clamp.angle.b)),
    };
    let bolts = site.at.z + ground.frame.section.height() / 2.0;
    let over = bolts - rail_top;
    // The highest bolt line that keeps its edge; what is beyond it is packed.
    let edge = clamp.bolt.clearance.medium * 1.5;
    let most = if latch::is_drawn(clamp.latch.as_ref()) {
        standing + ground.frame.section.height() / 2.0 - latch::LAP
    } else {
        Length::mm((standing - edge).to_mm().floor())
    };
    let least = clamp.bolt.washer.outer / 2.0 + leg + clamp.angle.inner_radius + Length::mm(1.0);
    let packer =
        Length::mm(((over - most).to_mm() / PACKER_STEP).ceil() * PACKER_STEP).max(Length::ZERO);
    let bolt_height = over - packer;
    if bolt_height < least {
        let finding = l029::too_low(&site.mark, least - bolt_height, ground.frame);
        drawing.findings.push(finding);
    }
    let heel = site.at + site.axes.way(Length::ZERO, flange, Length::ZERO);
    let heel = Point3::new(heel.x, heel.y, rail_top + packer);
    let middle = (rail_at - heel).along(site.axes.outboard);
    let half = *clamp.rail.width / 2.0;
    let hole = clamp.clamp_bolt.clearance.medium;
    let beside = half + hole / 2.0 + BESIDE;
    Stance {
        heel,
        packer,
        rail_top,
        bolt_height,
        rail: (middle - half, middle + half),
        rows: [middle - beside, middle + beside],
        standing,
        lying,
        end: bolts::end_distance(&clamp.clamp_bolt),
    }
}

/// Fits one clamp.
pub(super) fn fit(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    clamp: &RailClamp,
) -> Option<MountPlace> {
    let nut = bolts::nut_in_tube(drawing, ground, &clamp.bolt)?;
    let stance = stand(drawing, ground, site, clamp, nut.flange_thickness);
    check(drawing, site, clamp, &stance);
    let bracket = Bracket {
        section: &clamp.angle,
        fold: clamp.fold.as_ref(),
        length: *clamp.angle_length,
        standing: stance.standing,
        lying: stance.lying,
        kind: PartKind::ClampAngle,
        name: "clamp angle",
    };
    let standing =
        Standing { heel: stance.heel, heel_way: site.axes.along, up: Dir3::Z, bend: Angle::RIGHT };
    let piece = bracket::add(drawing, site, &bracket, &standing);
    if stance.packer > Length::ZERO {
        add_packer(drawing, site, clamp, &stance);
    }
    clamp_rail(drawing, site, clamp, &stance, piece);
    let bolts = TubeBolts {
        name: "clamp angle to tube",
        bolt: &clamp.bolt,
        height: stance.bolt_height,
        pitch: bolts::pitch(&clamp.bolt, *clamp.angle_length),
        nut: &nut,
        latch: clamp.latch.as_ref(),
    };
    bracket::bolt_to_tube(drawing, ground, site, (&bracket, piece), &bolts);
    enter_figure(drawing, site, ground, &stance);
    let shape = MountShape::RailClamp {
        bolt_height: stance.bolt_height,
        packer: stance.packer,
        rail_top: stance.rail_top,
    };
    Some(site.placed(ground, site.slopes(ground), Length::ZERO, shape))
}

fn check(drawing: &mut Drawing<'_>, site: &Site<'_>, clamp: &RailClamp, stance: &Stance) {
    let thread = &clamp.clamp_bolt;
    // Inboard, head and washer lie flat beside the standing leg; outboard the hole keeps its edge.
    let inner =
        clamp.angle.t + clamp.angle.inner_radius + Length::mm(1.0) + thread.washer.outer / 2.0;
    let edge = (thread.clearance.medium * 1.2).max(thread.washer.outer / 2.0);
    if !stance.rows[0].clears(inner) || !(stance.rows[1] + edge).fits(stance.lying) {
        drawing.told.push(thread.span);
        let short = (stance.rows[1] + edge - stance.lying).max(Length::ZERO);
        let near = (inner - stance.rows[0]).max(Length::ZERO);
        drawing.findings.push(l038::no_room(&site.mark, short, near, clamp));
    }
    let below = *clamp.rail.height - *clamp.rail.thickness;
    let needed = *clamp.thickness
        + thread.washer.thickness
        + thread.locking_nut_height
        + thread.pitch * 2.0
        + Length::mm(5.0);
    if !needed.fits(below) {
        drawing.findings.push(l038::too_low(&site.mark, below, needed, clamp));
    }
}

fn add_packer(drawing: &mut Drawing<'_>, site: &Site<'_>, clamp: &RailClamp, stance: &Stance) {
    let Some(material) = shop::material(PACKER) else { return };
    let (length, width) = (*clamp.angle_length, stance.rail.1 - stance.rail.0);
    let place = below(site, length, stance, stance.rail.0, stance.packer);
    Flat {
        kind: PartKind::ClampPacker,
        name: "clamp packer",
        length,
        width,
        thickness: stance.packer,
        place,
        span: written(&[clamp.rail.height.span, site.mount.span]),
    }
    .block(drawing, material);
}

/// Own axes of a piece as long as the bracket, from `out` outboard of the heel and `drop` below it.
fn below(site: &Site<'_>, length: Length, stance: &Stance, out: Length, drop: Length) -> Frame3 {
    let corner = stance.heel + site.axes.way(length / -2.0, out, -drop);
    frame_of(corner, site.axes.along, site.axes.outboard)
}

/// The plate below the rail, and four bolts past the rail.
fn clamp_rail(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    clamp: &RailClamp,
    stance: &Stance,
    angle: usize,
) {
    let thread = &clamp.clamp_bolt;
    let (length, thickness) = (*clamp.angle_length, *clamp.thickness);
    let edge = Length::mm((thread.clearance.medium * 1.5).to_mm().ceil());
    let width = stance.rows[1] - stance.rows[0] + edge * 2.0;
    let drop = stance.packer + *clamp.rail.thickness + thickness;
    let plate = Flat {
        kind: PartKind::ClampPlate,
        name: "clamp plate",
        length,
        width,
        thickness,
        place: below(site, length, stance, stance.rows[0] - edge, drop),
        span: written(&[clamp.thickness.span, site.mount.span]),
    }
    .plate(drawing, &clamp.material);
    let apart = may_be_drilled_apart(
        thread.clearance.medium,
        thread.diameter,
        FastenerFit::Floating,
        drawing.zone(),
    );
    let mut places = Vec::new();
    for row in stance.rows {
        for x in [stance.end, length - stance.end] {
            let at = Point2::new(x, row);
            let in_angle = bracket::in_leg(drawing, angle, "lying leg", at, thread);
            places.push(vec![in_angle, bracket::opposite(drawing, plate, in_angle, thread, apart)]);
        }
    }
    let mut stack = vec![("clamp angle".to_owned(), clamp.angle.t)];
    if stance.packer > Length::ZERO {
        stack.push(("clamp packer".to_owned(), stance.packer));
    }
    stack.push(("rail flange".to_owned(), *clamp.rail.thickness));
    stack.push(("clamp plate".to_owned(), thickness));
    let least = bolt_and_nut_length(thread, &stack, false);
    let joint = Through {
        name: "clamp to rail",
        thread,
        stack,
        places,
        countersunk: false,
        sealed: false,
        lean: Angle::ZERO,
    };
    bolts::bolt_and_nut(drawing, site, least, joint);
}

fn enter_figure(drawing: &mut Drawing<'_>, site: &Site<'_>, ground: &Ground<'_>, stance: &Stance) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 1);
    let mark = &site.mark;
    drawing.ledger.push(
        Figure::new(
            format!("mount.{mark}.packer"),
            format!("packer between rail and clamp {mark}"),
            stance.packer.to_mm(),
            "mm",
        )
        .formula("h = z_under + tube/2 − bolt line − z_rail")
        .input("z_under", told(site.at.z))
        .input("tube", told(ground.frame.section.height()))
        .input("bolt line", told(stance.bolt_height))
        .input("z_rail", told(stance.rail_top))
        .source("geometry on the measured roof", Seen::Computed)
        .assume("in steps of half a millimetre; zero where the leg reaches by itself")
        .decides(),
    );
}
