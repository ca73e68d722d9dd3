//! Rules of the bonding chapter.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[
    &OVERLOADED,
    &NEARLY_FULL,
    &HEAT_MOVES,
    &NOTHING_STICKS,
    &WEAK_SURFACE,
    &MAY_NOT_CARRY,
    &ADHESIVE_ALONE,
];

/// More load than the bond may carry.
pub static OVERLOADED: Rule = Rule {
    code: "B002",
    name: "bond-overloaded",
    severity: Severity::Stop,
    checks: "The use of capacity of each bond in every load case: pull with its lever, and shear.",
    why: "A bond that is asked for too much peels from one edge, often without a sign before.",
    example: "plate = { material = \"steel-s235\", length = 60, width = 40, thickness = 3 }",
    remedy: "A longer plate, more strips, another foot, a lower design speed, or the leg over the middle of the plate.",
    source_limits: "Foam tape 85 kPa for seconds and 1.7 kPa for lasting loads: common practice; the tape's own sheet wins. Elastic layer under a plate that bends; remedies are worked through the whole computation.",
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

/// A skin that nothing bonds to.
pub static NOTHING_STICKS: Rule = Rule {
    code: "B005",
    name: "nothing-sticks-to-skin",
    severity: Severity::Stop,
    checks: "Whether a bonded foot would stand on bare polyethylene.",
    why: "Its surface is waxy: tape and adhesive touch it without wetting it.",
    example: "roof-skin = { material = \"hdpe\", thickness = 6, finish = \"bare\" }",
    remedy: "Clamps, bolts or welded pads instead of a bond.",
    source_limits: "Surface energy of about 31 mJ/m² against 40 and more that adhesives want: polymer tables and common practice. Flame treatment and special primers are beyond this program.",
};

/// A face that comes off before the bond does.
pub static WEAK_SURFACE: Rule = Rule {
    code: "B006",
    name: "weak-surface",
    severity: Severity::Caution,
    checks: "Whether bonded feet stand on old paint or chalky gelcoat.",
    why: "A bond is no stronger than what it sticks to; loose paint lifts off with the tape on it.",
    example: "roof-skin = { material = \"steel-dc01\", thickness = 0.8, finish = \"old-paint\" }",
    remedy: "Sand back to a sound face and paint anew, or bolt or clamp the frame as well.",
    source_limits: "Common practice; no strength of unknown paint can be stated.",
};

/// A sealant where an adhesive is needed.
pub static MAY_NOT_CARRY: Rule = Rule {
    code: "B007",
    name: "sealant-may-not-carry",
    severity: Severity::Stop,
    checks: "Whether a foot hangs on a sealant without design strength, and on nothing else.",
    why: "Sealants move with the joint; under a steady or gusty pull they creep and tear.",
    example: "bead = { kind = \"polyurethane-sealant\", width = 12 }   # and no tape",
    remedy: "A structural adhesive, or foam tape beside the seal.",
    source_limits: "Design strength zero in the tables for every class that is not structural.",
};

/// A frame that nothing but adhesive holds.
pub static ADHESIVE_ALONE: Rule = Rule {
    code: "B008",
    name: "adhesive-alone",
    severity: Severity::Caution,
    checks: "Whether each frame has one hold at least that is bolted, hinged or clamped.",
    why: "A bond that was made on a damp or dusty day looks like a good one; when it goes, all may go in one gust.",
    example: "[[mount]]\nkind = \"bonded-foot\"\nedge = \"left\"\n\n[[mount]]\nkind = \"bonded-foot\"\nedge = \"right\"",
    remedy: "The tether of the step sheets, or a bolted foot, a hinge or a clamp on one edge.",
    source_limits: "Common practice, no source; the uses of the bonds are told apart from it.",
};
