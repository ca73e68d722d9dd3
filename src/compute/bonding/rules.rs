//! Rules of the bonding chapter.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&OVERLOADED, &NEARLY_FULL, &HEAT_MOVES];

/// More load than the bond may carry.
pub static OVERLOADED: Rule = Rule {
    code: "B002",
    name: "bond-overloaded",
    severity: Severity::Stop,
    checks: "The use of capacity of each bond in every load case: pull with its lever, and shear.",
    why: "A bond that is asked for too much peels from one edge, often without a sign before.",
    example: "plate = { material = \"steel-s235\", length = 60, width = 40, thickness = 3 }",
    remedy: "A longer plate, more strips, another foot, a lower design speed, or the leg over the middle of the plate.",
    source_limits: "Foam tape 85 kPa for seconds and 1.7 kPa for lasting loads: common practice; the tape's own sheet wins. Rigid plate on an elastic layer.",
};

/// Nearly all of the bond's capacity is used.
pub static NEARLY_FULL: Rule = Rule {
    code: "B003",
    name: "bond-nearly-full",
    severity: Severity::Caution,
    checks: "Bonds whose use of capacity lies from 0.8 to 1.0.",
    why: "Cold hands, dust and a rushed roller take more than a fifth away.",
    example: "tape = { kind = \"acrylic-foam-tape\", width = 12, thickness = 2, strips = 2 }",
    remedy: "Add area until the use lies under 0.8.",
    source_limits: "Project ruling: above 1.0 stop, from 0.8 caution.",
};

/// Heat moves a mount more than its bond can follow.
pub static HEAT_MOVES: Rule = Rule {
    code: "B004",
    name: "heat-moves-bond",
    severity: Severity::Caution,
    checks: "Sideways movement between frame and roof by heat at each bonded mount, against the thickness of its bond.",
    why: "Aluminium grows twice as much as steel; a thin bond is sheared every sunny day.",
    example: "tape = { kind = \"acrylic-foam-tape\", width = 25, thickness = 0.8, strips = 2 }   # feet 1500 mm apart",
    remedy: "Thicker tape or bead, or feet nearer together.",
    source_limits: "Half of the thickness for foam tape, from memory; for beads the movement class stretched along the diagonal, √((1 + c)² − 1). Swing of 60 K, common practice.",
};
