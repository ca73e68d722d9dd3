//! L039 bend-too-tight.

use crate::build::Fold;
use crate::source::{Finding, Rule, Severity};
use crate::tables::BendLimit;
use crate::units::{Unit, display};

/// A bend tighter than the metal stands.
pub static RULE: Rule = Rule {
    code: "L039",
    name: "bend-too-tight",
    severity: Severity::Stop,
    checks: "The inside radius of a bent bracket is not less than the table of least bend radii has \
             for its material, temper and thickness, and the material is one that is bent cold.",
    why: "Metal that is bent too tightly cracks on the outside of the bend, where the load is \
          greatest. Hard extruded alloys crack even at a wide bend, sometimes weeks later.",
    example: "[[mount]]\nfold = { material = \"aluminium-6061-t6\", thickness = 3, standing = 80, \
              lying = 45, radius = 3 }",
    remedy: "A wider radius (bend round a bar or a hardwood edge), thinner stuff, a softer temper \
             such as 5754 H22 sheet, or an angle instead.",
    source_limits: "Least radii for right angles, bend across the grain: the material's own row says \
                    by which standard or table, and whether it was read or remembered.",
};

/// What is wrong with the bend of mount `mark`.
pub fn judge(mark: &str, fold: &Fold, limit: Option<&BendLimit>) -> Option<Finding> {
    let least = limit.and_then(|limit| limit.least(*fold.thickness));
    let told = |length| display::in_unit_short(length, Unit::MM, 1);
    let Some((limit, least)) = limit.zip(least) else {
        let words = format!(
            "no least bend radius is known for {} {} thick",
            fold.material.words, *fold.thickness
        );
        return Some(
            Finding::new(&RULE, words)
                .severity(Severity::Caution)
                .at(fold.material.span, "this material")
                .also(fold.thickness.span, "in this thickness")
                .means(format!("whether the bracket of {mark} cracks is not known"))
                .help("ask the maker for the least radius of this temper")
                .help("bend a trial strip and look at the outside of its bend with a lens"),
        );
    };
    if *fold.radius < least {
        return Some(
            Finding::new(
                &RULE,
                format!(
                    "the bracket of {mark} is bent round {}; {} {} thick needs {}",
                    told(*fold.radius),
                    fold.material.words,
                    told(*fold.thickness),
                    told(least)
                ),
            )
            .at(fold.radius.span, "inside radius")
            .also(fold.material.span, "of this material")
            .means("the metal cracks on the outside of the bend, where the load is greatest")
            .help(format!("make the radius {} or more", told(least)))
            .help("take thinner stuff, a softer temper, or an angle instead of a bend"),
        );
    }
    limit.avoid.then(|| {
        Finding::new(&RULE, format!("{} is not meant to be bent cold", fold.material.words))
            .severity(Severity::Caution)
            .at(fold.material.span, "hard extruded alloy")
            .means(format!("the bracket of {mark} may crack at once, or later under load"))
            .help("take sheet that is meant for bending, such as aluminium-5754-h22")
            .help("or take an angle instead of a bend")
    })
}
