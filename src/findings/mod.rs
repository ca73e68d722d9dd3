//! The table of everything that can be found, gathered from the stages that find it.
//!
//! Takes the rules of each stage; gives them sorted by code, and the text that `explain` prints.
//! Judging is the stages' own work: a rule is raised where its numbers are. A rule that weighs the
//! results of several stages against each other has its place here, under `rules/`, raised by a
//! function `judge` that takes the build, the work and all results.
//!
//! # Codes
//!
//! A letter for the chapter, three digits, never used again for another rule:
//!
//! | letter | chapter | raised by |
//! |---|---|---|
//! | `F` | file and format | read |
//! | `U` | units and values | read |
//! | `N` | names, marks and choices | read |
//! | `L` | layout on the roof | derive |
//! | `H` | holes and fasteners | derive |
//! | `C` | cutting | compute |
//! | `A` | air and loads | compute |
//! | `B` | bonds | compute |
//! | `T` | time, cure and plan | compute |
//! | `E` | electrics | compute |
//! | `K` | keeping hold of the battery | compute |
//! | `M` | mass and height | compute |
//! | `P` | photographs | compute |
//!
//! # To add a rule
//!
//! 1. Write it beside the code that finds it, one file a rule, such as
//!    `src/derive/rules/h012_hole_too_near_edge.rs`: a `pub static RULE: Rule` with all headings
//!    filled in, and one function that makes its [`Finding`](crate::source::Finding) with the
//!    numbers and their limit, the place in the build file, what it means on the roof, and what to
//!    change. Add it to the `pub static RULES: &[&Rule]` of that folder, in order of code.
//! 2. If the stage is new here, add its `RULES` to `STAGES` below, and let `shown` in
//!    `tests/support.rs` run it after the stages before it, as the command line does.
//! 3. Add `tests/findings/H012-hole-too-near-edge.toml`, a build file that raises it and as little
//!    else as can be, and run `REWRITE=1 cargo test --test all codes`. Read the `.txt` that this
//!    writes beside it as somebody who sees the tool for the first time, and mend the words until
//!    they say what to do.
//!
//! The tests then hold that codes are sorted and unique, headings are filled in, and each rule has
//! its example with exactly what the user sees.

use crate::source::Rule;
use std::fmt::Write as _;
use std::sync::OnceLock;

/// Rules by the stage that raises them.
static STAGES: &[&[&Rule]] = &[
    crate::read::codes::RULES,
    crate::derive::rules::RULES,
    crate::compute::cut_list::rules::RULES,
    crate::compute::loads::rules::RULES,
    crate::compute::metal::rules::RULES,
    crate::compute::reserve::RULES,
    crate::compute::fixtures::RULES,
    crate::compute::bonding::rules::RULES,
    crate::compute::cure::rules::RULES,
    crate::compute::electrics::rules::RULES,
    crate::compute::cables::rules::RULES,
    crate::compute::restraint::rules::RULES,
    crate::compute::weights::rules::RULES,
    crate::compute::steps::rules::RULES,
    crate::compute::plan::rules::RULES,
    crate::compute::photos::RULES,
];

/// Every rule, by code.
pub fn all() -> &'static [&'static Rule] {
    static ALL: OnceLock<Vec<&'static Rule>> = OnceLock::new();
    ALL.get_or_init(|| {
        let mut rules: Vec<&Rule> = STAGES.iter().flat_map(|stage| stage.iter().copied()).collect();
        rules.sort_by_key(|rule| rule.code);
        rules
    })
}

/// The rule of a code or name, whatever its case.
pub fn find(code: &str) -> Option<&'static Rule> {
    let wanted = code.trim();
    all().iter().copied().find(|rule| {
        rule.code.eq_ignore_ascii_case(wanted) || rule.name.eq_ignore_ascii_case(wanted)
    })
}

/// What `explain` prints: every heading of a rule; `None` for a code that does not exist.
pub fn explain(code: &str) -> Option<String> {
    let rule = find(code)?;
    let mut text = format!("{} {} ({})\n", rule.code, rule.name, rule.severity);
    for (heading, body) in headings(rule) {
        let example = heading == "Example";
        let _ = write!(text, "\n{heading}\n");
        for line in body.lines() {
            let indent = if example { "    " } else { "" };
            let _ = writeln!(text, "{indent}{line}");
        }
    }
    Some(text)
}

/// The codes that look most like one that does not exist, nearest first, at most three.
pub fn nearest(code: &str) -> Vec<&'static Rule> {
    let wanted: String = code.trim().to_lowercase().chars().take(60).collect();
    let steps = |rule: &Rule| {
        strsim::osa_distance(&rule.code.to_lowercase(), &wanted)
            .min(strsim::osa_distance(rule.name, &wanted))
    };
    let mut near: Vec<&Rule> = all().to_vec();
    near.sort_by_key(|rule| (steps(rule), rule.code));
    near.into_iter().take(3).filter(|rule| steps(rule) <= wanted.len().max(2) / 2).collect()
}

/// The headings of a rule with their text.
pub fn headings(rule: &Rule) -> [(&'static str, &'static str); 5] {
    [
        ("What it checks", rule.checks),
        ("Why it matters", rule.why),
        ("Example", rule.example),
        ("Remedy", rule.remedy),
        ("Source and limits", rule.source_limits),
    ]
}

#[cfg(test)]
mod tests {
    use super::{all, explain, find, headings, nearest};

    #[test]
    fn codes_are_a_letter_and_three_digits_and_stand_for_one_rule() {
        for pair in all().windows(2) {
            assert!(pair[0].code < pair[1].code, "{:?} before {:?}", pair[0], pair[1]);
        }
        for rule in all() {
            let (letter, digits) = rule.code.split_at(1);
            assert!("FUNLHCABTEKMP".contains(letter), "{rule:?}: no such chapter");
            assert!(digits.len() == 3 && digits.bytes().all(|b| b.is_ascii_digit()), "{rule:?}");
            let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
            assert!(rule.name.chars().all(plain), "{rule:?}: words with dashes");
        }
        let mut names: Vec<&str> = all().iter().map(|rule| rule.name).collect();
        names.sort_unstable();
        assert!(names.windows(2).all(|pair| pair[0] != pair[1]), "{names:?}");
    }

    #[test]
    fn every_rule_is_told_under_every_heading() {
        for rule in all() {
            for (heading, text) in headings(rule) {
                assert!(text.len() > 8, "{rule:?}: {heading}");
            }
        }
    }

    #[test]
    fn a_rule_is_found_by_code_and_by_name() {
        let rule = find("f010").expect("a code in lower case");
        assert_eq!(find("unknown-key"), Some(rule));
        assert!(explain("F010").is_some_and(|text| text.contains("\nRemedy\n")));
        assert_eq!(explain("Z999"), None);
        assert!(nearest("F01O").iter().any(|rule| rule.code.starts_with("F01")));
    }
}
