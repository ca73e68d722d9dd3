//! An angle bolted through the skin: lying leg above, a spreader plate below, sealant between.
//!
//! The leg follows the skin as a bonded foot's does and stands on it over a bed of sealant. The skin
//! is drilled through the leg in place, so that its holes follow the foot wherever it really stands.
//! The thread never bears on the thin skin alone: nut and washer pull on the spreader.

use super::bolts::{self, Through, bolt_and_nut_length};
use super::bracket::{self, Bracket, Standing, TubeBolts};
use super::flat::Flat;
use super::foot_stance::{
    Base, Legs, Stance, bed, check_legs, enter_bend_and_height, footprint, frame_of, plate_frame,
    stand, wedge_of,
};
use super::wedge::{self, Lies, Slant};
use super::{Ground, Site};
use crate::build::BoltedFoot;
use crate::derive::Drawing;
use crate::derive::check::Foot;
use crate::derive::draft::HoleRef;
use crate::derive::drilling::{FastenerFit, may_be_drilled_apart};
use crate::derive::rules::{l035, l036, l037, written};
use crate::derive::work::{MountPlace, MountShape, PartKind};
use crate::geometry::Point2;
use crate::source::{Figure, Seen};
use crate::tables::Thread;
use crate::units::{Angle, Length, Unit, display};

/// Sealant left between leg and skin where they are nearest, so that the ring is never squeezed dry
/// (common practice, no source).
const BED: Length = Length::mm(1.0);
/// A sealing washer: a large washer with 2 mm of EPDM under it, half of it left when tight (common
/// practice, no source).
const RUBBER: Length = Length::mm(1.0);
/// Between washer and the inside of the standing leg.
const AIR: Length = Length::mm(1.0);

/// Sizes that follow from the build file alone.
struct Pattern {
    standing: Length,
    lying: Length,
    leg: Length,
    /// Heel to the row of bolts through the skin.
    row: Length,
    /// Those bolts from each end.
    end: Length,
}

fn pattern(foot: &BoltedFoot) -> Pattern {
    let (standing, lying) = bracket::legs(&foot.angle, foot.fold.as_ref());
    let leg = foot.angle.t;
    // As near to the heel as the sealing washer lies flat: the less lever, the less prying.
    let row = leg + foot.angle.inner_radius + AIR + foot.roof_bolt.large_washer.outer / 2.0;
    Pattern {
        standing,
        lying,
        leg,
        row: Length::mm(row.to_mm().ceil()),
        end: bolts::end_distance(&foot.roof_bolt),
    }
}

/// Fits one foot.
pub(super) fn fit(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    foot: &BoltedFoot,
) -> Option<MountPlace> {
    let nut = bolts::nut_in_tube(drawing, ground, &foot.bolt)?;
    let pattern = pattern(foot);
    let base = Base {
        length: *foot.angle_length,
        width: pattern.lying,
        thickness: Length::ZERO,
        shift: (pattern.lying - pattern.leg) / 2.0,
        leg: pattern.leg,
        bond: BED,
        pressed: false,
        wedge: wedge_of(foot.wedge.as_ref(), pattern.lying),
    };
    let stance = stand(ground, site, &base, nut.flange_thickness);
    let under = plate_frame(&stance, &base);
    let bed = bed(ground, &under, &base);
    check(drawing, ground, site, foot, &pattern, &stance, bed);

    let angle = Bracket {
        section: &foot.angle,
        fold: foot.fold.as_ref(),
        length: *foot.angle_length,
        standing: pattern.standing,
        lying: pattern.lying,
        kind: PartKind::FootAngle,
        name: "foot angle",
    };
    let standing =
        Standing { heel: stance.heel, heel_way: stance.heel_way, up: stance.up, bend: stance.bend };
    let piece = bracket::add(drawing, site, &angle, &standing);
    bolt_to_roof(drawing, site, foot, &pattern, &stance, piece);
    let bolts = TubeBolts {
        name: "foot angle to tube",
        bolt: &foot.bolt,
        height: stance.bolt_height,
        pitch: bolts::pitch(&foot.bolt, *foot.angle_length),
        nut: &nut,
        latch: foot.latch.as_ref(),
    };
    bracket::bolt_to_tube(drawing, ground, site, (&angle, piece), &bolts);
    drawing.feet.push(Foot {
        mark: site.mark.clone(),
        plate: footprint(under, base.length, base.width),
        edge: *site.mount.edge,
        span: site.span,
    });
    enter_bend_and_height(drawing, site, ground, &stance, ("the skin", "the sealant"));
    enter_figures(drawing, site, foot, &pattern, &stance, bed);
    let slopes = (stance.seat.tilt_across(), stance.seat.tilt_along());
    let shape = MountShape::BoltedFoot {
        bolt_height: stance.bolt_height,
        bend: stance.bend,
        row: pattern.row,
        bed: BED,
    };
    Some(site.placed(ground, slopes, bed.1 - bed.0, shape))
}

fn check(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    foot: &BoltedFoot,
    pattern: &Pattern,
    stance: &Stance,
    bed: (Length, Length),
) {
    let legs = Legs {
        angle: &foot.angle,
        standing: pattern.standing,
        leg: pattern.leg,
        fold: foot.fold.as_ref(),
    };
    check_legs(drawing, ground, site, stance, &legs, &foot.bolt);
    if bed.1 > l035::MOST {
        drawing.findings.push(l035::finding(&site.mark, bed.1, foot));
    }
    let toe = (foot.roof_bolt.clearance.medium * 1.2).max(foot.roof_bolt.large_washer.outer / 2.0);
    if !(pattern.row + toe).fits(pattern.lying) {
        drawing.told.push(foot.roof_bolt.span);
        let needed = pattern.row + toe;
        let finding =
            l036::finding(&site.mark, pattern.lying, needed, &foot.angle, &foot.roof_bolt);
        drawing.findings.push(finding);
    }
    let (long, wide) = (*foot.spreader.length, *foot.spreader.width);
    if !pattern.lying.fits(wide) || !foot.angle_length.fits(long) {
        drawing.findings.push(l037::finding(&site.mark, pattern.lying, foot));
    }
}

/// Sealing washer, leg, bed, skin and spreader, washer, locking nut and two pitches that show.
fn roof_bolt_length(thread: &Thread, stack: &[(String, Length)]) -> Length {
    // Washers at both ends are counted plain; the sealing washer is thicker by this.
    bolt_and_nut_length(thread, stack, false) - thread.washer.thickness
        + thread.large_washer.thickness
        + RUBBER
}

/// Two bolts through leg, skin and spreader.
fn bolt_to_roof(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    foot: &BoltedFoot,
    pattern: &Pattern,
    stance: &Stance,
    angle: usize,
) {
    let skin_thickness =
        drawing.build.vehicle.as_ref().map_or(Length::ZERO, |vehicle| *vehicle.skin.thickness);
    let below = add_below(drawing, site, foot, pattern, stance, skin_thickness);
    let thread = &foot.roof_bolt;
    let apart = may_be_drilled_apart(
        thread.clearance.medium,
        thread.diameter,
        FastenerFit::Floating,
        drawing.zone(),
    );
    let places: Vec<Vec<HoleRef>> = [pattern.end, *foot.angle_length - pattern.end]
        .into_iter()
        .map(|x| {
            let at = Point2::new(x, pattern.row);
            let in_angle = bracket::in_leg(drawing, angle, "lying leg", at, thread);
            // The foot stands where it really stands: the skin is never drilled from marks alone.
            let mut row = vec![in_angle];
            let through = below
                .wedges
                .map_or(vec![below.skin], |[upper, lower]| vec![upper, below.skin, lower]);
            for piece in through {
                row.push(bracket::opposite(drawing, piece, in_angle, thread, false));
            }
            row.push(bracket::opposite(drawing, below.spreader, in_angle, thread, apart));
            row
        })
        .collect();
    let stack = stack(foot, pattern, stance.slant.as_ref(), skin_thickness);
    let least = roof_bolt_length(thread, &stack);
    let joint = Through {
        name: "foot to roof",
        thread,
        stack,
        places,
        countersunk: false,
        sealed: true,
        lean: Angle::ZERO,
    };
    bolts::bolt_and_nut(drawing, site, least, joint);
}

/// The stretch of skin under the leg as a piece of its own, flat and parallel to the leg as the bolts
/// find it, and the spreader pulled up against it, its middle under the middle of the leg.
fn add_below(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    foot: &BoltedFoot,
    pattern: &Pattern,
    stance: &Stance,
    skin_thickness: Length,
) -> Below {
    // A bolt that is square to the leg goes aslant through skin and bed that are not.
    let aslant = stance.slant.map_or(1.0, |slant| slant.angle.cos());
    let (bed, through_skin) = (BED / aslant, skin_thickness / aslant);
    let over_skin = stance.slant.map_or(Length::ZERO, |slant| slant.at(pattern.row)) + bed;
    let over_spreader =
        stance.slant.map_or(Length::ZERO, |slant| slant.heel + slant.toe) + bed + through_skin;
    let place = |over: Length, length: Length, width: Length, thickness: Length| {
        let corner = stance.heel
            + stance.heel_way * (length / -2.0)
            + stance.out * ((pattern.lying - width) / 2.0)
            + stance.normal * -(over + thickness);
        frame_of(corner, stance.heel_way, stance.out)
    };
    let (length, width) = (*foot.angle_length, pattern.lying);
    let skin = Flat {
        kind: PartKind::SkinUnderFoot,
        name: "roof skin",
        length,
        width,
        thickness: through_skin,
        place: place(over_skin, length, width, through_skin),
        span: site.span,
    }
    .of_vehicle(drawing, format!("roof at {}", site.mark));
    let plate = &foot.spreader;
    let (length, width, thickness) = (*plate.length, *plate.width, *plate.thickness);
    let spreader = Flat {
        kind: PartKind::Spreader,
        name: "spreader",
        length,
        width,
        thickness,
        place: place(over_spreader, length, width, thickness),
        span: written(&[plate.length.span, site.mount.span]),
    }
    .plate(drawing, &plate.material);
    let wedges = foot.wedge.as_ref().zip(stance.slant.as_ref()).map(|(wedge, slant)| {
        [Lies::UnderLeg, Lies::Below(over_spreader)]
            .map(|lies| wedge::add(drawing, site, wedge, (stance, slant), *foot.angle_length, lies))
    });
    Below { skin, spreader, wedges }
}

/// Pieces below the leg.
struct Below {
    skin: usize,
    spreader: usize,
    /// Above the skin and below it.
    wedges: Option<[usize; 2]>,
}

/// What the bolts through the roof clamp, from the head.
fn stack(
    foot: &BoltedFoot,
    pattern: &Pattern,
    slant: Option<&Slant>,
    skin: Length,
) -> Vec<(String, Length)> {
    let aslant = slant.map_or(1.0, |slant| slant.angle.cos());
    let upper = slant.map(|slant| ("wedge above".to_owned(), slant.at(pattern.row)));
    let lower = slant
        .map(|slant| ("wedge below".to_owned(), slant.heel + slant.toe - slant.at(pattern.row)));
    [("foot angle".to_owned(), pattern.leg)]
        .into_iter()
        .chain(upper)
        .chain([("sealant".to_owned(), BED / aslant), ("roof skin".to_owned(), skin / aslant)])
        .chain(lower)
        .chain([("spreader".to_owned(), *foot.spreader.thickness)])
        .collect()
}

fn enter_figures(
    drawing: &mut Drawing<'_>,
    site: &Site<'_>,
    foot: &BoltedFoot,
    pattern: &Pattern,
    stance: &Stance,
    bed: (Length, Length),
) {
    let told = |length: Length| display::in_unit_short(length, Unit::MM, 2);
    let mark = &site.mark;
    let skin = drawing.build.vehicle.as_ref().map_or(Length::ZERO, |v| *v.skin.thickness);
    let stack = stack(foot, pattern, stance.slant.as_ref(), skin);
    let least = roof_bolt_length(&foot.roof_bolt, &stack);
    let ledger = &mut drawing.ledger;
    ledger.push(
        Figure::new(
            format!("mount.{mark}.bed"),
            format!("thickest sealant under the leg of {mark}"),
            bed.1.to_mm(),
            "mm",
        )
        .formula("greatest distance from leg to skin, the least being the ring's own")
        .input("least", told(bed.0))
        .input("greatest", told(bed.1))
        .source("geometry on the measured roof", Seen::Computed)
        .decides(),
    );
    let bolt = &foot.roof_bolt;
    let mut figure = Figure::new(
        format!("mount.{mark}.roof-bolt"),
        format!("least length of the bolts through the roof at {mark}"),
        least.to_mm(),
        "mm",
    )
    .formula("sealing washer + what is clamped + washer + nut + 2 pitches")
    .input("sealing washer", told(bolt.large_washer.thickness + RUBBER));
    for (what, thickness) in &stack {
        figure = figure.input(what.as_str(), told(*thickness));
    }
    ledger.push(
        figure
            .input("washer", told(bolt.washer.thickness))
            .input("nut", told(bolt.locking_nut_height))
            .input("pitch", told(bolt.pitch))
            .source("stack of this joint; ISO 7089, 7093-1, 7040", Seen::Computed)
            .assume("the next standard length is bought")
            .decides(),
    );
}
