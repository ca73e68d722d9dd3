//! What the uses of the bonds mean for the build file: one finding a line of mounts, not one a foot.

use super::remedy::{self, Least, Trial};
use super::{BondUse, Joints, rules, written};
use crate::build::{Bead, BondedFoot, Build, Finish, MountKind};
use crate::compute::steps;
use crate::derive::{Bond, Work};
use crate::source::{Finding, Severity, Span};
use crate::tables::Tables;
use crate::units::display;
use std::cell::{OnceCell, RefCell};

/// Use of capacity from which it is told of (design ruling).
const CAUTION: f64 = 0.8;
/// Plastics that neither tape nor adhesive wets: their surface energy is about 31 mJ/m² (polymer
/// tables; adhesives want 40 and more, common practice).
const LOW_ENERGY: &[&str] = &["hdpe"];

/// A bonded mount: its use and its layout.
type Foot<'a> = (&'a BondUse, &'a Bond);

pub(super) fn judge(
    (build, work, tables): (&Build, &Work, &Tables),
    joints: &Joints,
    uses: &[BondUse],
    findings: &mut Vec<Finding>,
) -> Vec<(Vec<String>, Least)> {
    let mut leasts = Vec::new();
    let mut lines: Vec<(&BondedFoot, Span, Vec<Foot>)> = Vec::new();
    for entry in uses {
        let Some(bond) = work.bonds.iter().find(|bond| bond.mark == entry.mark) else { continue };
        let Some((foot, span)) = written(build, work, &entry.mark) else { continue };
        match lines.iter_mut().find(|(_, known, _)| *known == span) {
            Some((_, _, feet)) => feet.push((entry, bond)),
            None => lines.push((foot, span, vec![(entry, bond)])),
        }
    }
    for (foot, span, feet) in lines {
        let may_not = feet.iter().any(|(_, bond)| {
            super::Layer::stiffest(bond, Some(foot)).is_some_and(|layer| !layer.may_carry())
        });
        if may_not {
            findings.extend(foot.bead.as_ref().map(|bead| sealant(&feet, bead)));
            continue;
        }
        let trial = Trial {
            build,
            work,
            joints,
            tables,
            line: span,
            stops: OnceCell::new(),
            metal: OnceCell::new(),
            others: OnceCell::new(),
            spreads: RefCell::default(),
        };
        let fullest = feet
            .iter()
            .copied()
            .max_by(|(a, _), (b, _)| a.governing().share.total_cmp(&b.governing().share));
        let Some((entry, bond)) = fullest else { continue };
        let least = remedy::least(&trial, foot, bond, entry);
        findings.extend(load(&trial, &feet, foot, &least));
        findings.extend(heat(&feet, foot, span));
        leasts.push((feet.iter().map(|(entry, _)| entry.mark.clone()).collect(), least));
    }
    leasts
}

/// What carries is a sealant that may not.
fn sealant(feet: &[Foot], bead: &Bead) -> Finding {
    Finding::new(
        &rules::MAY_NOT_CARRY,
        format!("{} may not carry {}", bead.kind.words, marks(feet)),
    )
    .at(bead.kind.span, "seals, but has no design strength")
    .means("the foot hangs on a soft seal that creeps and tears")
    .help("take an adhesive such as `hybrid-adhesive`, or add foam tape under the plate")
}

/// Surfaces that let go before any bond does.
pub(super) fn surface(build: &Build, work: &Work, findings: &mut Vec<Finding>) {
    let (Some(vehicle), false) = (&build.vehicle, work.bonds.is_empty()) else { return };
    let skin = &vehicle.skin;
    if LOW_ENERGY.contains(&skin.material.name.as_str()) {
        findings.push(
            Finding::new(
                &rules::NOTHING_STICKS,
                format!("nothing sticks to a skin of {}", skin.material.words),
            )
            .at(skin.material.span, "no tape or adhesive of the tables bonds to it")
            .means("the feet come off by hand, at the latest in the first frost")
            .help("hold the frame by clamps or bolts, or weld on pads of the skin's own plastic"),
        );
    }
    let (what, remedy) = match *skin.finish {
        Finish::OldPaint => (
            "old paint",
            "sand back to sound paint or metal, prime and paint anew, then state `paint`",
        ),
        Finish::ChalkyGelcoat => (
            "chalky gelcoat",
            "sand the chalk off down to glossy gelcoat, clean twice, then state `gelcoat`",
        ),
        Finish::Paint | Finish::Gelcoat | Finish::Bare => return,
    };
    findings.push(
        Finding::new(
            &rules::WEAK_SURFACE,
            format!("the feet are bonded to {what}, which is weaker than the bond"),
        )
        .at(skin.finish.span, format!("{what} is the joint"))
        .means("it comes off in one sheet with the bond still on it")
        .help(remedy)
        .help("or hold the frame by clamps or bolts as well"),
    );
}

/// Marks of some feet in words.
fn marks(feet: &[Foot]) -> String {
    let marks: Vec<&str> = feet.iter().map(|(entry, _)| entry.mark.as_str()).collect();
    steps::facts::marks(&marks)
}

/// The feet that are over a limit, and among them the one with the most of something.
fn worst<'a>(
    feet: &[Foot<'a>],
    share: impl Fn(&BondUse) -> f64,
    over: impl Fn(&BondUse) -> bool,
) -> Option<(Foot<'a>, Vec<Foot<'a>>)> {
    let told: Vec<Foot> = feet.iter().copied().filter(|(entry, _)| over(entry)).collect();
    let worst = told.iter().copied().max_by(|a, b| share(a.0).total_cmp(&share(b.0)))?;
    Some((worst, told))
}

fn load(trial: &Trial, feet: &[Foot], foot: &BondedFoot, least: &Least) -> Option<Finding> {
    let share = |entry: &BondUse| entry.governing().share;
    let ((entry, bond), told) = worst(feet, share, |entry| share(entry) >= CAUTION)?;
    let case = entry.governing();
    let over = case.share > 1.0;
    let (rule, severity) = if over {
        (&rules::OVERLOADED, Severity::Stop)
    } else {
        (&rules::NEARLY_FULL, Severity::Caution)
    };
    let printed = display::capacity_used(case.share);
    let carrier = entry.carrier.name();
    let most = if told.len() > 1 { format!(", most at {}", entry.mark) } else { String::new() };
    let finding = Finding::new(
        rule,
        format!(
            "the {carrier} of {} is used to {printed} of its capacity{most}; 1.00 is the limit",
            marks(&told)
        ),
    )
    .severity(severity)
    .at(
        foot.plate.length.span,
        format!(
            "{:.0} mm² of {carrier} under each plate; {:.0} mm² would be used to 1.00",
            entry.area.to_mm2(),
            entry.needed.to_mm2()
        ),
    )
    .means(if over {
        format!("the foot may peel off the roof ({})", case.case)
    } else {
        format!("cold hands, dust or a hurried roller may take away what is left ({})", case.case)
    });
    Some(remedy::helps(trial, foot, bond, entry, least).into_iter().fold(finding, Finding::help))
}

fn heat(feet: &[Foot], foot: &BondedFoot, span: Span) -> Option<Finding> {
    let share = |entry: &BondUse| entry.heat.strain.to_fraction();
    let over = |entry: &BondUse| entry.heat.strain > entry.heat.limit;
    let ((entry, bond), told) = worst(feet, share, over)?;
    let needed = entry.heat.movement.to_mm() / entry.heat.limit.to_fraction();
    let tape = foot.tape.as_ref();
    let sold = tape.and_then(|tape| tape.kind.thicknesses.iter().find(|t| t.to_mm() >= needed));
    let thicker = match sold {
        Some(sold) => {
            format!("use tape of {:.1} mm, or set the feet nearer together", sold.to_mm())
        }
        None => format!(
            "make the bond at least {:.1} mm thick, or set the feet nearer together",
            (needed * 10.0).ceil() / 10.0
        ),
    };
    Some(
        Finding::new(
            &rules::HEAT_MOVES,
            format!(
                "heat moves the frame over {} by {:.2} mm, {:.0} % of the bond's thickness; {:.0} % is the limit",
                marks(&told),
                entry.heat.movement.to_mm(),
                entry.heat.strain.to_percent().ceil(),
                entry.heat.limit.to_percent()
            ),
        )
        .at(
            tape.map_or(span, |tape| tape.thickness.span),
            format!("the bond is {:.1} mm thick", bond.thickness.to_mm()),
        )
        .means("a bond that is pushed so far on each sunny day tires and lets go")
        .help(thicker),
    )
}

/// Frames that nothing but adhesive holds.
pub(super) fn alone(build: &Build, findings: &mut Vec<Finding>) {
    for number in 0..build.frames.len() {
        let mut mounts = build.mounts.iter().filter(|mount| mount.frame == number).peekable();
        let Some(first) = mounts.peek() else { continue };
        let (edge, span) = (first.name.value.clone(), first.span);
        if mounts.all(|mount| matches!(mount.kind, MountKind::BondedFoot(_))) {
            findings.push(
                Finding::new(
                    &rules::ADHESIVE_ALONE,
                    format!("nothing but adhesive holds {}", build.the_frame(number)),
                )
                .at(span, format!("{edge} and all others are bonded"))
                .means("a bond gives no sign before it goes, and then the array flies off")
                .help("fit the tether that the step “Fit the tether” tells of")
                .help("or bolt, hinge or clamp one edge as well"),
            );
        }
    }
}
