//! What is checked about steps. `T` is time, cure and plan; steps take the hundreds from 101.

pub mod t101_no_such_step;
pub mod t102_action_too_long;
pub mod t103_crew_too_small;
pub mod t104_step_left_out;
pub mod t105_measured_outside;
pub mod t106_no_such_value;
pub mod t107_own_template;
pub mod t108_own_templates;
pub mod t109_no_such_caution;
pub mod t110_limits_swapped;

use crate::source::Rule;

/// Rules of this chapter, in order of code.
pub static RULES: &[&Rule] = &[
    &t101_no_such_step::RULE,
    &t102_action_too_long::RULE,
    &t103_crew_too_small::RULE,
    &t104_step_left_out::RULE,
    &t105_measured_outside::RULE,
    &t106_no_such_value::RULE,
    &t107_own_template::RULE,
    &t108_own_templates::RULE,
    &t109_no_such_caution::RULE,
    &t110_limits_swapped::RULE,
];
