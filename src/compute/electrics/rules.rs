//! Rules of the electrical chapter.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[
    &COLD_VOLTAGE,
    &HOT_VOLTAGE,
    &STRING_FUSES,
    &UNLIKE_PANELS,
    &CABLE_TOO_THIN,
    &FUSE_OVER_CABLE,
    &NO_CONDUCTOR,
    &NO_FUSE,
    &FUSE_BLOWS,
    &UNBALANCED,
    &CIRCLE,
    &COLD_CHARGING,
    &CABLE_VOLTAGE,
    &NO_ISOLATOR,
    &ISOLATOR_TOO_SMALL,
    &UNEVEN_STRINGS,
    &COLD_VOLTAGE_BY_TABLE,
    &NO_STRING_FUSE,
    &SHORT_CIRCUIT_OVER_INPUT,
    &CHARGER_AND_SUPPLY,
    &TOUCH_VOLTAGE,
    &UNEVEN_BANK,
    &STRING_MARKS,
];

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
    checks: "Whether three or more strings lie side by side, so that one with a fault is fed by the others, while `max-fuse` is not stated.",
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
    checks: "What panels of several kinds lose by being joined at one controller input.",
    why: "In series the weakest current flows through all, side by side the lowest voltage rules.",
    example: "[[panel]]\nvoc = \"24.6 V\"\nisc = \"5.8 A\"\n\n[[panel]]\nvoc = \"38 V\"\nisc = \"9.1 A\"",
    remedy: "Panels of one kind, or a controller each.",
    source_limits: "Each panel at its own working voltage or current at standard conditions; by a model of the whole curve a little less is lost. From 2 % of the power it is a caution (common practice).",
};

/// A stated conductor is too thin.
pub static CABLE_TOO_THIN: Rule = Rule {
    code: "E005",
    name: "cable-too-thin",
    severity: Severity::Stop,
    checks: "A conductor that the build file states against 1.25 times the current and the drop that is left.",
    why: "A cable too thin gets hot in its bundle; a drop too large starves what it feeds.",
    example: "[[circuit]]\ncurrent = \"30 A\"\nsize = \"2.5mm2\"",
    remedy: "The next size up, a shorter route, or no `size`: it is then chosen.",
    source_limits: "ISO 10133 by mm², 33 CFR 183 by gauge, with factors for air and bundle; IEC 60228 class 5 resistance.",
};

/// A stated fuse lets its cable burn.
pub static FUSE_OVER_CABLE: Rule = Rule {
    code: "E006",
    name: "fuse-over-cable",
    severity: Severity::Stop,
    checks: "A fuse that the build file states against what the thinnest cable behind it may carry.",
    why: "A fuse above the cable's current lets the cable burn first.",
    example: "[[circuit]]\nsize = \"4mm2\"\nfuse = \"80 A\"",
    remedy: "A smaller fuse or a thicker cable.",
    source_limits: "100 % of ampacity; the 150 % that 33 CFR allows under 50 V is not used.",
};

/// A stated fuse is too small for its load.
pub static FUSE_BLOWS: Rule = Rule {
    code: "E009",
    name: "fuse-blows-in-use",
    severity: Severity::Caution,
    checks: "A fuse that the build file states against 1.25 times the current in use.",
    why: "A fuse run near its rating gets warm, ages and blows on a hot day.",
    example: "[[circuit]]\ncurrent = \"20 A\"\nfuse = \"20 A\"",
    remedy: "The next rating, if the cable allows it.",
    source_limits: "NEC 210.20 (A) for currents that flow for hours.",
};

/// A run brings less than what it feeds takes.
pub static UNBALANCED: Rule = Rule {
    code: "E010",
    name: "feeds-more-than-it-brings",
    severity: Severity::Caution,
    checks: "The stated current of a run to a bus bar against the sum of what starts there.",
    why: "With everything on, the fuse of the run blows.",
    example: "[[circuit]]\nto = \"bus bar\"\ncurrent = \"10 A\"\n\n[[circuit]]\nfrom = \"bus bar\"\ncurrent = \"15 A\"",
    remedy: "State the sum, or leave the current out.",
    source_limits: "Currents at a node balance; loads that never run together may be left out by hand.",
};

/// Circuits feed each other.
pub static CIRCLE: Rule = Rule {
    code: "E011",
    name: "circuits-in-a-circle",
    severity: Severity::Stop,
    checks: "That each circuit can be followed back to battery, controller or panels.",
    why: "Circuits that feed each other get their current from nowhere.",
    example: "[[circuit]]\nfrom = \"bus bar\"\nto = \"switch\"\n\n[[circuit]]\nfrom = \"switch\"\nto = \"bus bar\"",
    remedy: "Let one of them start at the battery.",
    source_limits: "no source: it follows from what the file says.",
};

/// A battery that must not be charged in frost may be.
pub static COLD_CHARGING: Rule = Rule {
    code: "E012",
    name: "cold-charging",
    severity: Severity::Caution,
    checks: "The lowest temperature of the place against the least at which the battery may be charged.",
    why: "Charged in frost, lithium plates out as metal: the cell is spoilt and may burn later.",
    example: "[battery]\nchemistry = \"lfp\"   # in a van that stands out in winter",
    remedy: "A battery or controller that stops charging in frost, or a warmed battery; say so with `cold-charging`.",
    source_limits: "Charge limits of the chemistry's row; the inside of a parked vehicle gets as cold as [weather] record-low.",
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

/// Cable of the panels for less voltage than they give.
pub static CABLE_VOLTAGE: Rule = Rule {
    code: "E013",
    name: "cable-voltage",
    severity: Severity::Stop,
    checks: "The open-circuit voltage of a string on the coldest morning against what the cable is made for.",
    why: "Insulation above its voltage breaks through, and direct current keeps an arc burning.",
    example: "[controller]\nin-series = 3\n\n[[circuit]]\nfrom = \"panels\"\ninsulation = \"pvc-70\"",
    remedy: "Solar cable, or fewer panels in series.",
    source_limits: "ISO 6722-1 60 V for vehicle cable, EN 50618 1500 V for solar cable; both from memory.",
};

/// Nothing parts the panels from the controller.
pub static NO_ISOLATOR: Rule = Rule {
    code: "E014",
    name: "no-isolator",
    severity: Severity::Stop,
    checks: "That a switch for direct current opens plus and minus between panels and controller.",
    why: "Panels are live in daylight; plugs pulled under load draw an arc.",
    example: "[isolator]\nkind = \"plugs\"",
    remedy: "A switch that opens both poles, IEC 60947-3 DC-21B.",
    source_limits: "IEC 62548 and IEC 60364-7-712, from memory; currents of IEC 60059 up to 125 A.",
};

/// The isolator on hand is too small.
pub static ISOLATOR_TOO_SMALL: Rule = Rule {
    code: "E015",
    name: "isolator-too-small",
    severity: Severity::Stop,
    checks: "Rating, voltage and poles of a stated isolator against the panels.",
    why: "A switch beyond its rating does not break direct current: its contacts burn, closed.",
    example: "[isolator]\nrating = \"16 A\"\nvoltage = \"24 V\"",
    remedy: "A switch for 1.25 times the short-circuit current and the cold open-circuit voltage, two poles.",
    source_limits: "IEC 62548 and IEC 60947-3, from memory.",
};

/// Panels that do not fill their strings.
pub static UNEVEN_STRINGS: Rule = Rule {
    code: "E016",
    name: "uneven-strings",
    severity: Severity::Stop,
    checks: "That the panels fill strings of `in-series` without one left over.",
    why: "A shorter string beside longer ones pulls them down to its voltage.",
    example: "[[panel]]\ncount = 5\n\n[controller]\nin-series = 2",
    remedy: "A length of string that divides the number of panels.",
    source_limits: "It follows from the voltages that strings side by side share.",
};

/// Too much cold voltage by a code's factors alone.
pub static COLD_VOLTAGE_BY_TABLE: Rule = Rule {
    code: "E017",
    name: "cold-voltage-by-table",
    severity: Severity::Caution,
    checks: "The open-circuit voltage by the factors of NEC 690.7 against the controller's input limit, where the coefficient's is below it.",
    why: "The factors are meant for panels of unknown coefficient and are 3 to 4 % above it; little room is left.",
    example: "[controller]\nmax-voltage = \"29 V\"   # a panel of 24.6 V at −25 °C: 28.0 V by coefficient, 29.5 V by factor",
    remedy: "A coefficient from the data sheet, or a controller for a higher voltage.",
    source_limits: "NEC table 690.7(A), from memory; no factor below −40 °C.",
};

/// Strings that need a fuse for which none is made.
pub static NO_STRING_FUSE: Rule = Rule {
    code: "E018",
    name: "no-string-fuse",
    severity: Severity::Stop,
    checks: "That a fuse is sold from 1.5 to 2.4 times a string's short-circuit current, not above the label's greatest, for the cold voltage.",
    why: "A faulty panel burns, fed by its neighbours.",
    example: "[[panel]]\ncount = 4\nisc = \"12.28 A\"\nmax-fuse = \"15 A\"",
    remedy: "More panels in series and fewer strings, or a controller for each part of them.",
    source_limits: "IEC 62548, 6.5; other rules begin at 1.4 (IEC 60269-6), 1.56 (NEC) or 1.8.",
};

/// More short-circuit current than the controller's input stands.
pub static SHORT_CIRCUIT_OVER_INPUT: Rule = Rule {
    code: "E019",
    name: "short-circuit-over-input",
    severity: Severity::Stop,
    checks: "The short-circuit current of all strings against what the controller's input stands.",
    why: "Charging current is limited by the controller itself; current of a fault or of swapped poles is not.",
    example: "[controller]\nmax-short-circuit = \"15 A\"   # three panels of 5.8 A side by side",
    remedy: "Fewer strings, or a controller for more current.",
    source_limits: "The controller's data sheet; nothing is judged where it is not stated.",
};

/// Charger and vehicle supply do not fit each other.
pub static CHARGER_AND_SUPPLY: Rule = Rule {
    code: "E020",
    name: "charger-and-supply",
    severity: Severity::Stop,
    checks: "That a run from the vehicle's battery leads to a charger that takes it, and that such a charger has one.",
    why: "A solar controller fed from a battery joins two batteries; a charger without its feed charges from panels alone.",
    example: "[controller]\nkind = \"solar\"\n\n[[circuit]]\nfrom = \"supply\"\nto = \"controller\"",
    remedy: "The kind that is there, or the circuit that is missing (then a caution).",
    source_limits: "no source: it follows from what the file says.",
};

/// Strings above the voltage that may be touched.
pub static TOUCH_VOLTAGE: Rule = Rule {
    code: "E021",
    name: "touch-voltage",
    severity: Severity::Caution,
    checks: "The open-circuit voltage of a string on the coldest morning against the voltage that may be touched.",
    why: "Direct current above 60 V holds a hand fast, and a string can't be switched off in daylight.",
    example: "[controller]\nin-series = 3   # of panels of 24.6 V",
    remedy: "Fewer panels in series, or a trained person for the strings.",
    source_limits: "60 V direct current, dry: decisive voltage class A of IEC 62548, from memory. Wet places allow less.",
};

/// Batteries that do not fill their strings.
pub static UNEVEN_BANK: Rule = Rule {
    code: "E022",
    name: "uneven-bank",
    severity: Severity::Stop,
    checks: "That the batteries of a bank fill strings of `in-series` without one left over.",
    why: "A string of another voltage beside the others drives its current into them without a limit.",
    example: "[battery]\ncount = 3\nin-series = 2",
    remedy: "A count that is a multiple of `in-series`.",
    source_limits: "It follows from the voltages that strings side by side share. Batteries of one kind, age and charge alone may be joined: their makers say how many.",
};

/// Strings that name panels which are not there, or leave some out.
pub static STRING_MARKS: Rule = Rule {
    code: "E023",
    name: "string-marks",
    severity: Severity::Stop,
    checks: "That each panel with a label stands in one [[string]] and in no other.",
    why: "A panel in two strings can't be joined; one in none is on the roof for nothing.",
    example: "[[panel]]\ncount = 3\n\n[[string]]\npanels = [\"P1\", \"P2\"]",
    remedy: "Each mark of the roof plan once.",
    source_limits: "Marks are the letter of the panel's table and its number, in the order of the file.",
};
