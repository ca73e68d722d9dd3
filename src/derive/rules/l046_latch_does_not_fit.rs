//! L046 latch-does-not-fit.

use super::written;
use crate::build::Latch;
use crate::source::{Finding, Rule, Severity, Span};
use crate::units::Length;

/// A draw latch that finds no room on bracket and tube.
pub static RULE: Rule = Rule {
    code: "L046",
    name: "latch-does-not-fit",
    severity: Severity::Stop,
    checks: "The body of a draw latch lies on the standing leg below the tube, its keeper on the tube \
             above the end of that leg.",
    why: "A latch pulls the tube down on its bracket: the keeper needs bare tube, and behind the body \
          there must be room for nuts.",
    example: "[[mount]]\nkind = \"bolted-foot\"\nangle = \"aluminium-angle-100x50x5\"\nlatch = { kind = \
              \"draw-latch\", strength = \"1500 N\" }",
    remedy: "Take an angle whose standing leg ends lower, bend one to size, or take a knob.",
    source_limits: "Geometry. Keepers 12 mm high and 1.5 mm thick: common practice, no source.",
};

/// The standing leg of `mark` reaches `has` up from its heel; the keeper leaves `most`.
pub fn leg_too_tall(
    mark: &str,
    (has, most): (Length, Length),
    latch: &Latch,
    section: Span,
) -> Finding {
    let words = format!("the standing leg of {mark} covers the place of the latch's keeper");
    Finding::new(&RULE, words)
        .at(written(&[section, latch.kind.span]), format!("{has:.1} up from its heel"))
        .also(latch.kind.span, "this latch")
        .means("the keeper has no bare tube to sit on")
        .help(format!("take an angle, or bend one, with a standing leg of {most:.0} at most"))
        .help("or take a knob")
}

/// The body's holes come to lie at `at` from the heel of `mark`; there is room from `low` to `high`.
pub fn body_has_no_room(
    mark: &str,
    at: Length,
    (low, high): (Length, Length),
    latch: &Latch,
) -> Finding {
    let way = if at < low { "too near to the heel" } else { "behind the tube" };
    let words = format!("the body of the latch at {mark} is {way}");
    Finding::new(&RULE, words)
        .at(
            written(&[latch.holes.reach.span, latch.kind.span]),
            format!("its holes are {at:.1} from the heel"),
        )
        .means("its screws find no room")
        .help(format!("they need {low:.0} to {high:.0}: take a latch with another `reach`"))
        .help("or stand the frame higher")
}
