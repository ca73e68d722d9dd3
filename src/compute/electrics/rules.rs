//! Rules of the electrical chapter.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] =
    &[&COLD_VOLTAGE, &HOT_VOLTAGE, &STRING_FUSES, &UNLIKE_PANELS, &NO_CONDUCTOR, &NO_FUSE];

/// More voltage on a cold morning than the controller stands.
pub static COLD_VOLTAGE: Rule = Rule {
    code: "E001",
    name: "cold-voltage-too-high",
    severity: Severity::Stop,
    checks: "The open-circuit voltage of a string on the coldest morning against the controller's input limit.",
    why: "Cold panels give more voltage than their label says; one clear frost destroys the controller.",
    example: "[controller]\nmax-voltage = \"50 V\"\nconnection = \"series\"   # three panels of 24.6 V each",
    remedy: "Fewer panels in series, or a controller for a higher voltage.",
    source_limits: "Coefficient method of IEC 62548; the lowest temperature is stated in [weather] record-low.",
};

/// Too little voltage on a hot day.
pub static HOT_VOLTAGE: Rule = Rule {
    code: "E002",
    name: "hot-voltage-too-low",
    severity: Severity::Caution,
    checks: "The operating voltage of hot panels against the charging voltage and one volt of headroom.",
    why: "Hot panels give less voltage; under the charging voltage nothing flows.",
    example: "[[panel]]\nvmp = \"16.5 V\"   # one panel alone on a 14.4 V charger",
    remedy: "Panels in series, as far as the cold voltage allows.",
    source_limits: "Cells at 80 °C, within what pvlib's models give for panels close over a roof; the working voltage loses 1.1 times the volts of the open-circuit voltage; one volt of headroom is common practice.",
};

/// Strings side by side that can feed a faulty one.
pub static STRING_FUSES: Rule = Rule {
    code: "E003",
    name: "string-fuses",
    severity: Severity::Caution,
    checks: "Whether three or more strings lie side by side, so that one with a fault is fed by the others.",
    why: "A faulty panel or plug gets the current of all its neighbours.",
    example: "[controller]\nconnection = \"parallel\"   # with three panels",
    remedy: "A fuse in the plus of each string where the panel's label asks for one, or panels in series.",
    source_limits: "IEC 62548 and NEC 690.9 let two strings go without; one string gets (n − 1) times the short-circuit current of one; fuse from 1.5 to 2.4 times it. The greatest fuse stands on the panel's label.",
};

/// Panels of two kinds on one input.
pub static UNLIKE_PANELS: Rule = Rule {
    code: "E004",
    name: "unlike-panels",
    severity: Severity::Caution,
    checks: "That all panels of one controller input are of one kind.",
    why: "In series the weakest current flows through all, side by side the lowest voltage rules.",
    example: "[[panel]]\nvoc = \"24.6 V\"\nisc = \"5.8 A\"\n\n[[panel]]\nvoc = \"38 V\"\nisc = \"9.1 A\"",
    remedy: "Panels of one kind, or a controller each.",
    source_limits: "Common practice; the loss is not worked out.",
};

/// No conductor does.
pub static NO_CONDUCTOR: Rule = Rule {
    code: "E007",
    name: "no-conductor",
    severity: Severity::Stop,
    checks: "That some size of the tables carries the current and keeps the voltage drop.",
    why: "A cable too thin gets hot; a drop too large starves what it feeds.",
    example: "[[circuit]]\ncurrent = \"400 A\"\nlength = 9000",
    remedy: "A shorter route, a higher voltage, or several circuits.",
    source_limits: "ISO 10133 by mm², 33 CFR 183 by gauge, with factors for air and bundle; IEC 60228 class 5 resistance.",
};

/// No fuse does.
pub static NO_FUSE: Rule = Rule {
    code: "E008",
    name: "no-fuse",
    severity: Severity::Stop,
    checks: "That a fuse lies between 1.25 times the current and the conductor's ampacity and can break the battery's short-circuit current.",
    why: "A fuse above the cable's rating lets the cable burn first; one that can't break the current bursts.",
    example: "[battery]\nshort-circuit = \"30 kA\"",
    remedy: "The next larger conductor, or a fuse type with a higher breaking capacity.",
    source_limits: "Fuse tables from memory; 150 % of ampacity, which 33 CFR allows under 50 V, is not used.",
};
