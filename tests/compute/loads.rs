//! Air and statics.

use crate::derive::support::{Van, mm, said};
use proptest::prelude::*;
use rungsheet::build::{Build, Edge};
use rungsheet::compute::loads::{Loads, loads};
use rungsheet::derive::{MountPlace, MountShape, Work, derive};
use rungsheet::source::Ledger;
use rungsheet::tables::Tables;
use rungsheet::units::Speed;

fn on(build: &Build, work: &Work) -> Option<Loads> {
    loads(build, work, Tables::builtin(), &mut Ledger::new(), &mut Vec::new())
}

fn at_speed(van: &Van, kmh: f64) -> Build {
    let mut build = van.build();
    if let Some(vehicle) = &mut build.vehicle {
        vehicle.speed = said(Speed::kmh(kmh));
    }
    build
}

/// A van with its hinges on one side and feet on the other, a front foot among them or not.
fn van() -> impl Strategy<Value = Van> {
    (10.0..60.0_f64, -60.0..60.0_f64, 150.0..300.0_f64, 700.0..900.0_f64, prop::bool::ANY).prop_map(
        |(clearance, y, first, second, front)| {
            let mut feet = vec![(Edge::Right, vec![first, second, 1400.0])];
            if front {
                feet.push((Edge::Front, vec![500.0]));
            }
            Van { clearance, at: (780.0, y), feet, ..Van::default() }
        },
    )
}

/// Where the frame hands its load to a mount: a hinge's pin, or the bolts of a foot, which sit at
/// half the tube's height.
fn point(work: &Work, mount: &MountPlace) -> [f64; 3] {
    if let MountShape::Hinge { pin, .. } = &mount.kind {
        return [pin.x.to_mm(), pin.y.to_mm(), pin.z.to_mm()];
    }
    let array = work.arrays.first().expect("mounts hold an array");
    let bolts = (array.under + array.tube_top) / 2.0;
    [mount.at.x.to_mm(), mount.at.y.to_mm(), bolts.to_mm()]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]

    /// What the mounts get adds up to the force and the moment of each case.
    #[test]
    fn mounts_carry_all_of_each_case(van in van(), kmh in 60.0..140.0_f64) {
        let build = at_speed(&van, kmh);
        let (work, _) = derive(&build);
        let Some(loads) = on(&build, &work) else { return Ok(()) };
        for loaded in &loads.cases {
            let mut force = [0.0; 3];
            let mut moment = [0.0; 3];
            let mut size = 1.0;
            for (mount, load) in work.mounts.iter().zip(&loaded.mounts) {
                let r = point(&work, mount);
                let f = [load.along.to_n(), load.across.to_n(), load.up.to_n()];
                let turn = [
                    r[1] * f[2] - r[2] * f[1],
                    r[2] * f[0] - r[0] * f[2],
                    r[0] * f[1] - r[1] * f[0],
                ];
                for axis in 0..3 {
                    force[axis] += f[axis];
                    moment[axis] += turn[axis];
                    size += f[axis].abs();
                }
            }
            let wrench = &loaded.case.wrench;
            for axis in 0..3 {
                let name = &loaded.case.name;
                prop_assert!((force[axis] - wrench.force[axis]).abs() < 1e-9 * size, "{name}");
                // Relative to the forces on arms of up to four metres.
                prop_assert!((moment[axis] - wrench.moment[axis]).abs() < 4e-6 * size, "{name}");
            }
        }
    }

    /// Faster is never lifted less, neither as a whole nor at the mount that is pulled most.
    #[test]
    fn faster_is_never_lifted_less(van in van(), slow in 50.0..120.0_f64, more in 1.0..40.0_f64) {
        let (work, _) = derive(&van.build());
        let at = |kmh| on(&at_speed(&van, kmh), &work);
        let (Some(slow), Some(fast)) = (at(slow), at(slow + more)) else { return Ok(()) };
        prop_assert!(fast.driving > slow.driving);
        for (a, b) in slow.cases.iter().zip(&fast.cases) {
            if a.case.key == "driving-air" {
                prop_assert!(b.case.wrench.force[2] > a.case.wrench.force[2]);
            }
        }
        let most = |loads: &Loads| {
            loads.worst.iter().map(|worst| worst.tension.0.to_n()).fold(0.0, f64::max)
        };
        prop_assert!(most(&fast) >= most(&slow));
    }

    /// A heavier array is lifted less by the same air.
    #[test]
    fn weight_holds_down(van in van(), kilograms in 1.0..10.0_f64) {
        let light = van.build();
        let mut heavy = van.build();
        let mass = &mut heavy.panels[0].mass;
        *mass = said(**mass + rungsheet::units::Mass::kg(kilograms));
        heavy.panels[0].thickness = mm(light.panels[0].thickness.to_mm());
        let lift = |build: &Build| {
            let (work, _) = derive(build);
            on(build, &work).map(|loads| loads.cases[0].case.wrench.force[2])
        };
        let (Some(light), Some(heavy)) = (lift(&light), lift(&heavy)) else { return Ok(()) };
        let panels = f64::from(van.rows * van.columns);
        prop_assert!((light - heavy - panels * kilograms * 9.806_65).abs() < 1e-6);
    }
}
