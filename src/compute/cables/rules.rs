//! Rules of the chapter on laying cables.

use crate::build::Entry;
use crate::source::{Finding, Rule, Severity};
use crate::units::{Length, Unit, display};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&TOO_NARROW, &TOO_FEW];

/// Cables do not go through their hole.
pub static TOO_NARROW: Rule = Rule {
    code: "E030",
    name: "entry-too-narrow",
    severity: Severity::Stop,
    checks: "The bundle of cables in the roof entry against its hole.",
    why: "Cables pulled through a hole too small lose their insulation on its edge.",
    example: "[entry]\ncables = 4\nhole = 10   # four cables of 6.1 mm lie in 14.7 mm",
    remedy: "A larger hole, or an entry for each pair.",
    source_limits: "Closest packing of equal circles; outside diameters of the cable's row, which the cable in hand may differ from.",
};

/// More conductors than the entry is for.
pub static TOO_FEW: Rule = Rule {
    code: "E031",
    name: "entry-for-fewer-cables",
    severity: Severity::Caution,
    checks: "The number of cables that the roof entry takes against the conductors that come from the panels.",
    why: "A housing without a gland for each cable leaks beside it.",
    example: "[entry]\ncables = 2\n\n[[circuit]]\nfrom = \"panels\"\n\n[[circuit]]\nfrom = \"panels\"   # four conductors",
    remedy: "A housing with a gland for each conductor.",
    source_limits: "Two conductors a run; a sheathed cable with both in it counts as one: state `cables` by what passes.",
};

fn mm(length: Length) -> String {
    display::in_unit_short(length, Unit::MM, 1)
}

pub(super) fn too_narrow(entry: &Entry, core: Length, bundle: Length) -> Finding {
    Finding::new(
        &TOO_NARROW,
        format!(
            "{} cables of {} lie in a round of {}; the hole is {}",
            *entry.cables,
            mm(core),
            mm(bundle),
            mm(*entry.hole)
        ),
    )
    .at(entry.hole.span, "hole of the entry")
    .also(entry.cables.span, "cables that pass")
    .means("the edge of the skin cuts the insulation, and the roof becomes live")
    .help(format!("drill {} or more, with a grommet that fits", mm(whole_up(bundle))))
}

pub(super) fn too_few(entry: &Entry, cores: u32) -> Finding {
    Finding::new(
        &TOO_FEW,
        match *entry.cables {
            1 => format!("{cores} conductors come from the panels; the entry takes one cable"),
            few => format!("{cores} conductors come from the panels; the entry takes {few} cables"),
        },
    )
    .at(entry.cables.span, "cables that pass")
    .means("a cable beside its gland lets water in")
    .help(format!("use a housing for {cores} cables and say `cables = {cores}`"))
}

fn whole_up(length: Length) -> Length {
    Length::mm(length.to_mm().ceil())
}
