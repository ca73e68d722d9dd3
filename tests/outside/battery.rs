//! What holds a battery, the air that it needs, and how cables are laid. Values were read in the sources
//! named unless it says `from memory`.

use crate::support::{Worked, near, worked};
use rungsheet::compute::cables::round_bundle;
use rungsheet::compute::restraint::lashings_needed;
use rungsheet::compute::restraint::pull::{
    steel_shear, steel_tension, withdrawal_eurocode, withdrawal_nds,
};
use rungsheet::tables::Tables;
use rungsheet::units::{Density, Force, Length};

const HEAD: &str = "format = 1\n[job]\ntitle = \"Trial\"\ndate = \"2026-05-09\"\n";
const FLOOR: &str = "floor = \"plywood-birch\"\nfloor-thickness = 15\n";
/// A plate that is not what gives first.
const PLATE: &str = "spreader = { length = 80, width = 80, thickness = 8 }";

fn battery(restraint: &str) -> Worked {
    of("lfp", "100 Ah", restraint)
}

fn of(chemistry: &str, capacity: &str, restraint: &str) -> Worked {
    worked(&format!(
        "{HEAD}[battery]\nchemistry = \"{chemistry}\"\ncapacity = \"{capacity}\"\n\
         voltage = \"12 V\"\nmass = \"30 kg\"\nlength = 330\nwidth = 172\nheight = 216\n\
         place = \"bench\"\n[restraint]\n{restraint}\n{FLOOR}"
    ))
}

fn capacity(made: &Worked, way: &str) -> f64 {
    let held = made.results.restraint.as_ref().expect("held");
    held.directions.iter().find(|d| d.name == way).expect("a way").capacity.to_n()
}

fn over(mu: f64, angle: f64) -> String {
    format!(
        "straps = 1\nstrap-capacity = \"2000 N\"\nstrap-tension = \"400 N\"\n\
         strap-angle = \"{angle}°\"\nblocks = 0\nfriction = \"{} %\"\n\
         anchor = {{ capacity = \"5 kN\" }}",
        mu * 100.0
    )
}

/// A road union's slides on the revision of EN 12195-1, example 1, sideways at friction 0.4: 8 straps by
/// the IMO's way (k 2, no safety factor), 33.5 by the edition of 2003 (32 printed, whole ones a section),
/// 8.8 by the draft of 2010 (9 printed).
#[test]
fn two_editions_of_the_lashing_standard_differ_as_published() {
    let made = battery(&over(0.4, 90.0));
    let held = made.build.restraint.as_ref().expect("held");
    let needed = lashings_needed(Force::n(294.2), held, false);
    near(needed.old / needed.new, 33.5 / 8.8, 2e-3, "old over new");
    // Without the safety factor of 1.1 the newer is the IMO's.
    near(needed.old / (needed.new / 1.1), 33.5 / 8.0, 2e-3, "old over the IMO's");
}

/// EN 12195-1:2010 equation 10 for a battery of 30 kg (worked out by hand from the equation as read, forward
/// factors from memory): friction 0.4, 400 N, upright: 0.460 straps forward, 0.101 sideways.
#[test]
fn friction_alone_by_equation_10() {
    let made = battery(&over(0.4, 90.0));
    let held = made.build.restraint.as_ref().expect("held");
    let weight = Force::n(30.0 * 9.806_65);
    near(lashings_needed(weight, held, true).new, 0.460, 2e-3, "forward");
    near(lashings_needed(weight, held, false).new, 0.101, 5e-3, "sideways");
    // The same equation the other way round: 0.4 × 294.2 + 2 × 0.4 × 400 / 1.25.
    near(capacity(&made, "forward"), 117.68 + 256.0, 1e-3, "holds forward");
    near(capacity(&made, "sideways"), 117.68 + 320.0 / 1.1, 1e-3, "holds sideways");
}

/// A factor of 1.1 is a transfer of 2 / 1.1 = 1.82 (an insurer's text on the standard prints 1.82).
#[test]
fn the_newer_safety_factor_is_the_older_transfer() {
    let made = battery(&over(0.3, 60.0));
    let held = made.build.restraint.as_ref().expect("held");
    let new = lashings_needed(Force::kn(1.0), held, false).new;
    let sin = 60.0_f64.to_radians().sin();
    near((1000.0 * 0.2) / (0.3 * sin * 400.0 * new), 1.82, 2e-3, "transfer");
}

/// Both ends of a strap over the top pull down: 2 × 2000 N × sin 75° (statics).
#[test]
fn a_strap_over_the_top_pulls_with_both_ends() {
    let made = battery(&over(0.2, 75.0));
    near(capacity(&made, "up"), 2.0 * 2000.0 * 0.965_93, 1e-4, "up");
}

/// EN 12195-1:2010, 6.3, from memory: a direct strap holds cos α cos β and 0.75 μ of its sine and of the
/// weight; of four, two pull against each way.
#[test]
fn direct_straps_hold_by_their_slant() {
    let made = battery(
        "kind = \"direct\"\nstraps = 4\nstrap-capacity = \"1000 N\"\nstrap-angle = \"30°\"\n\
         strap-turn = \"60°\"\nblocks = 0\nfriction = \"0 %\"\nanchor = { capacity = \"5 kN\" }",
    );
    let (cos, sin) = (30.0_f64.to_radians().cos(), 30.0_f64.to_radians().sin());
    near(capacity(&made, "forward"), 2.0 * 1000.0 * cos * 0.5, 1e-4, "forward");
    near(
        capacity(&made, "sideways"),
        2.0 * 1000.0 * cos * 60.0_f64.to_radians().sin(),
        1e-4,
        "side",
    );
    near(capacity(&made, "up"), 4.0 * 1000.0 * sin, 1e-4, "up");
}

/// The Wood Handbook's and NDS 12.2.2's formula: specific gravity 0.45 and a No. 10 screw of 0.190 in hold
/// 109.65 lbf an inch (a handbook page prints 109), 19.2 N a millimetre.
#[test]
fn wood_screws_pull_out_by_the_american_formula() {
    let inch = withdrawal_nds(Length::inches(0.190), Length::inches(1.0), 0.45);
    near(inch.to_lbf(), 109.65, 1e-3, "an inch");
    let one = withdrawal_nds(Length::inches(0.190), Length::mm(1.0), 0.45);
    near(one.to_n(), 19.2, 2e-3, "a millimetre");
}

/// EN 1995-1-1 (8.38) to (8.40), from memory: 6 mm, 40 mm deep, 350 kg/m³: 15.92 N/mm², 2866 N; four of
/// them count as 4^0.9 = 3.48.
#[test]
fn wood_screws_pull_out_by_the_european_formula() {
    let density = Density::kg_per_m3(350.0);
    let pull = |count| withdrawal_eurocode(Length::mm(6.0), Length::mm(40.0), density, count);
    near(pull(1.0).to_n(), 2866.0, 1e-3, "one");
    near(pull(1.0).to_n() / (6.0 * 40.0 * 0.75), 15.92, 1e-3, "strength");
    near(pull(4.0).to_n() / pull(1.0).to_n(), 3.48, 1e-3, "four");
}

/// Tables of steelwork for class 8.8 (from memory): M12 84.3 mm²: 48.6 kN in tension, 32.4 kN in shear; M16
/// 157 mm²: 90.4 kN and 60.3 kN.
#[test]
fn bolts_bear_what_steelwork_tables_print() {
    near(steel_tension(800.0, 84.3), 48_600.0, 2e-3, "M12 tension");
    near(steel_shear(800.0, 84.3), 32_400.0, 2e-3, "M12 shear");
    near(steel_tension(800.0, 157.0), 90_400.0, 2e-3, "M16 tension");
    near(steel_shear(800.0, 157.0), 60_300.0, 2e-3, "M16 shear");
}

/// ISO 12991 table 1: 20 and 8, 10 and 5, 6.6 and 5 g by class; ISO 10133 5.2: twice the weight; 49 CFR
/// 393.102: 0.8 forward, 0.5 rearward and sideways, which the road's row covers.
#[test]
fn levels_are_those_of_their_sources() {
    let pulls = |name: &str| Tables::builtin().restraint_level(name).expect("a level").pulls;
    for (name, along, across) in [("m1-n1", 20.0, 8.0), ("m2-n2", 10.0, 5.0), ("m3-n3", 6.6, 5.0)] {
        let [forward, rearward, sideways, _] = pulls(name);
        assert_eq!(
            [forward, rearward, sideways].map(f64::to_bits),
            [along, along, across].map(f64::to_bits)
        );
    }
    assert!(pulls("small-craft").iter().all(|pull| pull.to_bits() == 2.0_f64.to_bits()));
    let [forward, rearward, sideways, _] = pulls("road");
    assert!(forward >= 0.8 && rearward >= 0.5 && sideways >= 0.5);
}

/// Neither friction nor screws pulled along count in a crash (handbook caution); bolts with plates do, and
/// hold no more than they do on the road.
#[test]
fn a_crash_takes_no_credit_for_friction_or_screws() {
    let held = |level: &str, anchor: &str| {
        battery(&format!(
            "level = \"{level}\"\nstraps = 2\nstrap-capacity = \"9 kN\"\nblocks = 0\n\
             friction = \"60 %\"\nanchor = {{ {anchor} }}"
        ))
    };
    let screws = "screw = { diameter = 6, length = 30 }";
    let bolt = format!("bolt = {{ thread = \"M8\", {PLATE} }}");
    assert!(capacity(&held("road", screws), "up") > 100.0);
    assert!(capacity(&held("m1-n1", screws), "up") < 1.0);
    assert!(capacity(&held("road", &bolt), "forward") > 100.0);
    assert!(capacity(&held("m1-n1", &bolt), "forward") < 1.0);
    let (road, crash) = (held("road", &bolt), held("m1-n1", &bolt));
    near(capacity(&crash, "up"), capacity(&road, "up"), 1e-12, "bolts hold as before");
    assert_eq!(held("m1-n1", screws).raised("K004").len(), 1);
}

/// A cradle on six bolts M8 of class 8.8 holds six times a bolt in a thin plate on wood, EN 1995-1-1 (8.9),
/// worked out by hand: 0.4 f t d of f = 0.082 (1 − 0.08) 680 = 51.3 N/mm², 15 mm, 8 mm = 2462 N, times
/// 0.9 / 1.3.
#[test]
fn a_cradle_holds_by_its_bolts() {
    let made = battery(&format!(
        "kind = \"cradle\"\nlevel = \"m1-n1\"\nbolt = {{ thread = \"M8\", count = 6, {PLATE} }}"
    ));
    near(capacity(&made, "forward"), 6.0 * 2462.0 * 0.9 / 1.3, 2e-3, "across");
    assert!(made.raised("K002").is_empty());
}

/// A wider plate, a thicker floor, more bolts never hold less.
#[test]
fn more_never_holds_less() {
    let up = |side: f64, floor: f64, count: u32| {
        let made = worked(&format!(
            "{HEAD}[battery]\nchemistry = \"lfp\"\ncapacity = \"100 Ah\"\nvoltage = \"12.8 V\"\n\
             mass = \"30 kg\"\nlength = 330\nwidth = 172\nheight = 216\nplace = \"bench\"\n\
             [restraint]\nkind = \"cradle\"\nbolt = {{ thread = \"M6\", count = {count}, spreader = \
             {{ length = {side}, width = {side}, thickness = 8 }} }}\nfloor = \"plywood-birch\"\n\
             floor-thickness = {floor}\n"
        ));
        capacity(&made, "up")
    };
    let least = up(25.0, 6.0, 2);
    assert!(least > 100.0);
    assert!(up(40.0, 6.0, 2) >= least && up(25.0, 12.0, 2) >= least && up(25.0, 6.0, 4) > least);
}

/// EN IEC 62485-2, once EN 50272-2, from memory: 6 flooded cells of 100 Ah at 20 mA/Ah need 0.6 m³/h and two
/// openings of 16.8 cm²; sealed ones of 8 mA/Ah 6.72 cm²; lithium none.
#[test]
fn batteries_that_gas_get_openings() {
    let held = "straps = 1\nstrap-capacity = \"2 kN\"\nblock-height = 60\n\
                screw = { diameter = 6, length = 60 }";
    let flooded = of("lead-flooded", "100 Ah", held);
    near(flooded.results.vent.expect("gas").flow, 0.6, 1e-9, "flow");
    near(flooded.figure("battery.vent"), 16.8, 1e-9, "opening");
    near(of("lead-agm", "100 Ah", held).figure("battery.vent"), 6.72, 1e-9, "sealed");
    assert!(of("lfp", "100 Ah", held).results.vent.is_none());
}

/// A data page of single-core PVC cable to EN 50525-2-31: 4 diameters up to 8 mm, 5 up to 12 mm, 6 above; EN
/// 50618 data pages: 4 fixed, 5 moved.
#[test]
fn cables_bend_no_tighter_than_data_pages_allow() {
    let lay = |name: &str| Tables::builtin().cable_lay(name).expect("a row");
    let fixed = |name: &str, outer: f64| lay(name).fixed(Length::mm(outer)).to_mm();
    for (outer, radius) in [(4.9, 19.6), (8.0, 32.0), (9.5, 47.5), (12.0, 60.0), (15.0, 90.0)] {
        near(fixed("pvc-70", outer), radius, 1e-12, "PVC");
    }
    near(fixed("pv", 7.1), 28.4, 1e-12, "solar");
    near(lay("pv").moved(Length::mm(7.1)).to_mm(), 35.5, 1e-12, "solar, moved");
}

/// Packing of equal circles: three need 1 + 2 / √3 of one's diameter, four 1 + √2, seven 3 (geometry); a
/// table of packings has five at 2.701 and ten at 3.813 (from memory). More never need less.
#[test]
fn bundles_are_packed_circles() {
    near(round_bundle(3), 1.0 + 2.0 / 3.0_f64.sqrt(), 5e-4, "three");
    near(round_bundle(4), 1.0 + 2.0_f64.sqrt(), 5e-4, "four");
    near(round_bundle(5), 1.0 + (2.0 * (1.0 + 1.0 / 5.0_f64.sqrt())).sqrt(), 5e-4, "five");
    near(round_bundle(7), 3.0, 1e-12, "seven");
    near(round_bundle(19), 5.0, 1e-12, "nineteen");
    assert!((1..200).all(|count| round_bundle(count + 1) >= round_bundle(count)));
}
