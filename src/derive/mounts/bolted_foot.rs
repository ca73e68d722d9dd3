//! An angle bolted through the skin: lying leg above, a spreader plate below, sealant between.
//!
//! The leg follows the skin as a bonded foot's does and stands on it over a bed of sealant. The skin
//! is drilled through the leg in place, so that its holes follow the foot wherever it really stands.
//! The thread never bears on the thin skin alone: nut and washer pull on the spreader.

use super::bolts::bolt_and_nut_length;
use super::bracket::{self, Bracket, Standing, TubeBolts};
use super::foot_stance::{Base, Stance, bed, bolt_pitch, footprint, frame_of, plate_frame, stand};
use super::{Ground, Site};
use crate::build::BoltedFoot;
use crate::derive::Drawing;
use crate::derive::check::Foot;
use crate::derive::draft::{DraftFastening, DraftPiece, HoleRef, face};
use crate::derive::drilling::{FastenerFit, may_be_drilled_apart};
use crate::derive::rules::{h005, h009, l025, l029, l035, l036, l037, written};
use crate::derive::shop;
use crate::derive::work::{Body, MountPlace, MountShape, PartKind, Screw};
use crate::geometry::{Dir3, Frame3, Point2, Point3};
use crate::source::{Figure, Seen};
use crate::tables::Thread;
use crate::units::{Angle, Length, Mass, Unit, display};

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
    let (a, b) = (foot.angle.a, foot.angle.b);
    let (standing, lying, leg) = (a.max(b), a.min(b), foot.angle.t);
    let hole = foot.roof_bolt.clearance.medium;
    // As near to the heel as the sealing washer lies flat: the less lever, the less prying.
    let row = leg + AIR + foot.roof_bolt.large_washer.outer / 2.0;
    Pattern {
        standing,
        lying,
        leg,
        row: Length::mm(row.to_mm().ceil()),
        end: (hole * 2.0).max(Length::mm(20.0)),
    }
}

/// Fits one foot.
pub(super) fn fit(
    drawing: &mut Drawing<'_>,
    ground: &Ground<'_>,
    site: &Site<'_>,
    foot: &BoltedFoot,
) -> Option<MountPlace> {
    let tube = &ground.frame.section.value;
    let Some(nut) = shop::rivet_nut(&foot.bolt, tube) else {
        drawing.findings.push(h005::none(&foot.bolt, tube, foot.bolt.span));
        return None;
    };
    let pattern = pattern(foot);
    let base = Base {
        length: *foot.angle_length,
        width: pattern.lying,
        thickness: Length::ZERO,
        shift: (pattern.lying - pattern.leg) / 2.0,
        leg: pattern.leg,
        bond: BED,
        pressed: false,
    };
    let stance = stand(ground, site, &base, nut.flange_thickness);
    let under = plate_frame(&stance, &base);
    let bed = bed(ground, &under, &base);
    check(drawing, ground, site, foot, &pattern, &stance, bed);

    let angle = Bracket {
        section: &foot.angle,
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
        pitch: bolt_pitch(&foot.bolt, *foot.angle_length),
        nut: &nut,
    };
    bracket::bolt_to_tube(drawing, ground, site, (&angle, piece), &bolts);
    drawing.feet.push(Foot {
        mark: site.mark.clone(),
        plate: footprint(under, base.length, base.width),
        span: site.span,
    });
    enter_figures(drawing, site, foot, &pattern, &stance, bed);
    let skin = ground.surface.height(site.at.x, site.at.y);
    Some(MountPlace {
        mark: site.mark.clone(),
        name: site.mount.name.value.clone(),
        mount: site.index,
        edge: site.axes.edge,
        at: site.at,
        roof: Point3::new(site.at.x, site.at.y, skin),
        slope_across: stance.seat.tilt_across(),
        slope_along: stance.seat.tilt_along(),
        plate_gap: bed.1 - bed.0,
        kind: MountShape::BoltedFoot {
            bolt_height: stance.bolt_height,
            bend: stance.bend,
            row: pattern.row,
            bed: BED,
        },
        span: site.span,
    })
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
    if l025::is_too_far(stance.bend) {
        drawing.findings.push(l025::finding(&site.mark, stance.bend, &foot.angle, site.mount));
    }
    if bed.1 > l035::MOST {
        drawing.findings.push(l035::finding(&site.mark, bed.1, foot));
    }
    let edge = foot.bolt.clearance.medium * 1.2;
    if !(stance.bolt_height + edge).fits(pattern.standing) {
        drawing.told.push(foot.bolt.span);
        let needed = stance.bolt_height + edge;
        drawing.findings.push(l029::too_short(&site.mark, needed, pattern.standing, &foot.angle));
    }
    let head = foot.bolt.washer.outer / 2.0 + pattern.leg + AIR;
    if stance.bolt_height < head {
        drawing.findings.push(l029::too_low(&site.mark, head - stance.bolt_height, ground.frame));
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
    let (skin, spreader) = add_below(drawing, site, foot, pattern, stance, skin_thickness);
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
            let in_skin = bracket::opposite(drawing, skin, in_angle, thread, false);
            let in_spreader = bracket::opposite(drawing, spreader, in_angle, thread, apart);
            vec![in_angle, in_skin, in_spreader]
        })
        .collect();
    let stack = vec![
        ("foot angle".to_owned(), pattern.leg),
        ("sealant".to_owned(), BED),
        ("roof skin".to_owned(), skin_thickness),
        ("spreader".to_owned(), *foot.spreader.thickness),
    ];
    let least = roof_bolt_length(thread, &stack);
    let Some(length) = thread.length_at_least(least) else {
        drawing.findings.push(h009::finding(&site.mark, thread, least, thread.span));
        return;
    };
    drawing.draft.fasten(DraftFastening {
        name: "foot to roof".to_owned(),
        screw: Screw::BoltAndNut {
            thread: thread.value.clone(),
            length,
            countersunk: false,
            sealed: true,
        },
        stack,
        places,
        undone: false,
        span: thread.span,
    });
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
) -> (usize, usize) {
    let upper = |over: Length, length: Length, width: Length, thickness: Length| {
        let corner = stance.heel
            + stance.heel_way * (length / -2.0)
            + stance.out * ((pattern.lying - width) / 2.0)
            + stance.normal * -(over + thickness);
        let place: Frame3 = frame_of(corner, stance.heel_way, stance.out);
        let top = face(
            "top",
            Point3::new(Length::ZERO, Length::ZERO, thickness),
            (Dir3::X, Dir3::Y, Dir3::Z),
            (length, width),
            thickness,
        );
        (place, vec![top])
    };
    let (place, faces) = upper(BED, *foot.angle_length, pattern.lying, skin_thickness);
    let skin = drawing.draft.add(DraftPiece {
        kind: PartKind::SkinUnderFoot,
        name: "roof skin".to_owned(),
        mark: Some(format!("roof at {}", site.mark)),
        body: Body::OnVehicle,
        faces,
        place,
        mass: Mass::ZERO,
        holes: Vec::new(),
        span: site.span,
    });
    let plate = &foot.spreader;
    let (length, width, thickness) = (*plate.length, *plate.width, *plate.thickness);
    let (place, faces) = upper(BED + skin_thickness, length, width, thickness);
    let spreader = drawing.draft.add(DraftPiece {
        kind: PartKind::Spreader,
        name: "spreader".to_owned(),
        mark: None,
        body: Body::Plate {
            material: plate.material.value.clone(),
            length,
            width,
            thickness,
            section: shop::flat(&plate.material, width, thickness),
        },
        faces,
        place,
        mass: plate.material.density * (length * width * thickness),
        holes: Vec::new(),
        span: written(&[plate.length.span, site.mount.span]),
    });
    (skin, spreader)
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
    let degrees = |angle: Angle| display::in_unit(angle, Unit::DEG, 1);
    let mark = &site.mark;
    let skin = drawing.build.vehicle.as_ref().map_or(Length::ZERO, |v| *v.skin.thickness);
    let stack = [
        (String::new(), pattern.leg),
        (String::new(), BED),
        (String::new(), skin),
        (String::new(), *foot.spreader.thickness),
    ];
    let least = roof_bolt_length(&foot.roof_bolt, &stack);
    let ledger = &mut drawing.ledger;
    ledger.push(
        Figure::new(
            format!("mount.{mark}.bend"),
            format!("angle between the legs of foot {mark}"),
            stance.bend.to_deg(),
            "°",
        )
        .formula("β = angle between the standing leg, square to the heel, and the skin outboard")
        .input("slope across", degrees(stance.seat.tilt_across()))
        .input("slope along", degrees(stance.seat.tilt_along()))
        .input("exact", degrees(stance.exact_bend))
        .source("geometry on the measured roof", Seen::Computed)
        .assume("rounded to half a degree; the sealant takes up the rest")
        .decides(),
    );
    ledger.push(
        Figure::new(
            format!("mount.{mark}.bolt-height"),
            format!("heel to bolt line of foot {mark}"),
            stance.bolt_height.to_mm(),
            "mm",
        )
        .formula("h = (z_under + tube/2 − z_heel) cos(slope along the edge)")
        .input("z_under", told(site.at.z))
        .input("z_heel", told(stance.heel.z))
        .input("exact", told(stance.exact_height))
        .source("geometry on the measured roof", Seen::Computed)
        .assume("rounded to half a millimetre; the holes in the tube are drilled through the foot")
        .decides(),
    );
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
    ledger.push(
        Figure::new(
            format!("mount.{mark}.roof-bolt"),
            format!("least length of the bolts through the roof at {mark}"),
            least.to_mm(),
            "mm",
        )
        .formula("sealing washer + leg + sealant + skin + spreader + washer + nut + 2 pitches")
        .input("sealing washer", told(foot.roof_bolt.large_washer.thickness + RUBBER))
        .input("leg", told(pattern.leg))
        .input("sealant", told(BED))
        .input("skin", told(skin))
        .input("spreader", told(*foot.spreader.thickness))
        .input("washer", told(foot.roof_bolt.washer.thickness))
        .input("nut", told(foot.roof_bolt.locking_nut_height))
        .input("pitch", told(foot.roof_bolt.pitch))
        .source("stack of this joint; ISO 7089, 7093-1, 7040", Seen::Computed)
        .assume("the next standard length is bought")
        .decides(),
    );
}
