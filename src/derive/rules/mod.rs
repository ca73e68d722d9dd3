//! What derive checks, one file a rule. `L` is the layout on the roof, `H` holes and fasteners.
//!
//! Each file holds the rule and the functions that make its finding from numbers; the checks
//! themselves stand where those numbers are worked out.

pub(super) mod h001_hole_too_near_edge;
pub(super) mod h002_holes_too_close;
pub(super) mod h003_hole_outside_part;
pub(super) mod h005_rivet_nut_does_not_fit;
pub(super) mod h006_fasteners_meet_inside;
pub(super) mod h007_countersink_too_deep;
pub(super) mod h008_panel_screw_length;
pub(super) mod h009_no_standard_length;
pub(super) mod h010_hole_without_part;
pub(super) mod h011_bolt_too_thick_for_hinge;
pub(super) mod h013_hole_below_full_bearing;
pub(super) mod l002_straightedge_touches_nowhere;
pub(super) mod l003_straightedge_rocked;
pub(super) mod l004_gap_jumps;
pub(super) mod l005_lengthwise_not_measured;
pub(super) mod l006_beyond_measured_roof;
pub(super) mod l010_frame_beyond_roof;
pub(super) mod l011_frame_over_keep_out;
pub(super) mod l012_panels_and_grid_differ;
pub(super) mod l013_panel_without_screws;
pub(super) mod l014_no_room_for_panel_screws;
pub(super) mod l016_frame_near_keep_out;
pub(super) mod l017_frames_meet;
pub(super) mod l018_corner_angle_does_not_fit;
pub(super) mod l019_frame_on_rib;
pub(super) mod l020_mount_off_its_edge;
pub(super) mod l021_mount_over_connector;
pub(super) mod l022_foot_off_roof;
pub(super) mod l023_foot_on_keep_out;
pub(super) mod l024_feet_overlap;
pub(super) mod l025_bend_too_far;
pub(super) mod l026_plate_gap_too_great;
pub(super) mod l027_frame_too_low_for_hinge;
pub(super) mod l028_rail_out_of_reach;
pub(super) mod l029_leg_does_not_fit;
pub(super) mod l030_entry_in_the_way;
pub(super) mod l031_plate_meets_tube;
pub(super) mod l032_strips_wider_than_plate;
pub(super) mod l033_lying_leg_too_narrow;
pub(super) mod l034_lifted_frame_meets_keep_out;
pub(super) mod l035_seal_too_thick;
pub(super) mod l036_no_room_for_roof_bolts;
pub(super) mod l037_spreader_too_small;
pub(super) mod l038_rail_clamp_does_not_fit;
pub(super) mod l039_bend_too_tight;
pub(super) mod l040_wedge_too_steep;
pub(super) mod l041_latch_alone;
pub(super) mod l042_solids_clash;
pub(super) mod l043_foot_under_other_frame;
pub(super) mod l044_lifted_frame_meets_frame;
pub(super) mod l045_prop_has_no_place;
pub(super) mod l046_latch_does_not_fit;

pub(super) use h001_hole_too_near_edge as h001;
pub(super) use h002_holes_too_close as h002;
pub(super) use h003_hole_outside_part as h003;
pub(super) use h005_rivet_nut_does_not_fit as h005;
pub(super) use h006_fasteners_meet_inside as h006;
pub(super) use h007_countersink_too_deep as h007;
pub(super) use h008_panel_screw_length as h008;
pub(super) use h009_no_standard_length as h009;
pub(super) use h010_hole_without_part as h010;
pub(super) use h011_bolt_too_thick_for_hinge as h011;
pub(super) use h013_hole_below_full_bearing as h013;
pub(super) use l002_straightedge_touches_nowhere as l002;
pub(super) use l003_straightedge_rocked as l003;
pub(super) use l004_gap_jumps as l004;
pub(super) use l005_lengthwise_not_measured as l005;
pub(super) use l006_beyond_measured_roof as l006;
pub(super) use l010_frame_beyond_roof as l010;
pub(super) use l011_frame_over_keep_out as l011;
pub(super) use l012_panels_and_grid_differ as l012;
pub(super) use l013_panel_without_screws as l013;
pub(super) use l014_no_room_for_panel_screws as l014;
pub(super) use l016_frame_near_keep_out as l016;
pub(super) use l017_frames_meet as l017;
pub(super) use l018_corner_angle_does_not_fit as l018;
pub(super) use l019_frame_on_rib as l019;
pub(super) use l020_mount_off_its_edge as l020;
pub(super) use l021_mount_over_connector as l021;
pub(super) use l022_foot_off_roof as l022;
pub(super) use l023_foot_on_keep_out as l023;
pub(super) use l024_feet_overlap as l024;
pub(super) use l025_bend_too_far as l025;
pub(super) use l026_plate_gap_too_great as l026;
pub(super) use l027_frame_too_low_for_hinge as l027;
pub(super) use l028_rail_out_of_reach as l028;
pub(super) use l029_leg_does_not_fit as l029;
pub(super) use l030_entry_in_the_way as l030;
pub(super) use l031_plate_meets_tube as l031;
pub(super) use l032_strips_wider_than_plate as l032;
pub(super) use l033_lying_leg_too_narrow as l033;
pub(super) use l034_lifted_frame_meets_keep_out as l034;
pub(super) use l035_seal_too_thick as l035;
pub(super) use l036_no_room_for_roof_bolts as l036;
pub(super) use l037_spreader_too_small as l037;
pub(super) use l038_rail_clamp_does_not_fit as l038;
pub(super) use l039_bend_too_tight as l039;
pub(super) use l040_wedge_too_steep as l040;
pub(super) use l041_latch_alone as l041;
pub(super) use l042_solids_clash as l042;
pub(super) use l043_foot_under_other_frame as l043;
pub(super) use l044_lifted_frame_meets_frame as l044;
pub(super) use l045_prop_has_no_place as l045;
pub(super) use l046_latch_does_not_fit as l046;

use crate::source::{Rule, Span};

/// All rules of derive, by code.
pub static RULES: &[&Rule] = &[
    &h001::RULE,
    &h002::RULE,
    &h003::RULE,
    &h005::RULE,
    &h006::RULE,
    &h007::RULE,
    &h008::RULE,
    &h009::RULE,
    &h010::RULE,
    &h011::RULE,
    &h013::RULE,
    &l002::RULE,
    &l003::RULE,
    &l004::RULE,
    &l005::RULE,
    &l006::RULE,
    &l010::RULE,
    &l011::RULE,
    &l012::RULE,
    &l013::RULE,
    &l014::RULE,
    &l016::RULE,
    &l017::RULE,
    &l018::RULE,
    &l019::RULE,
    &l020::RULE,
    &l021::RULE,
    &l022::RULE,
    &l023::RULE,
    &l024::RULE,
    &l025::RULE,
    &l026::RULE,
    &l027::RULE,
    &l028::RULE,
    &l029::RULE,
    &l030::RULE,
    &l031::RULE,
    &l032::RULE,
    &l033::RULE,
    &l034::RULE,
    &l035::RULE,
    &l036::RULE,
    &l037::RULE,
    &l038::RULE,
    &l039::RULE,
    &l040::RULE,
    &l041::RULE,
    &l042::RULE,
    &l043::RULE,
    &l044::RULE,
    &l045::RULE,
    &l046::RULE,
];

/// The first of several places that was written: a value may be a default, its table then shows.
pub(super) fn written(places: &[Span]) -> Span {
    places.iter().copied().find(|span| !span.is_none()).unwrap_or_default()
}
