//! Rules of the chapter on time and cure.

use crate::source::{Rule, Severity};

/// Rules of this chapter.
pub static RULES: &[&Rule] = &[&NO_WINDOW, &TRAPPED];

/// No hour of the day is fit for bonding.
pub static NO_WINDOW: Rule = Rule {
    code: "T001",
    name: "no-hour-for-bonding",
    severity: Severity::Stop,
    checks: "That some hour of the forecast keeps the skin dry, within the adhesive's temperatures and 3 K over the dew point.",
    why: "Dew that nobody sees and cold tape are the usual reasons why bonded mounts fail.",
    example: "[weather]\nday = { temperature = \"2 °C\", humidity = \"95 %\" }\nnight = { temperature = \"-3 °C\", humidity = \"98 %\" }",
    remedy: "Other days, or a heated place with its own air stated in [weather].",
    source_limits: "Limits of the adhesive's row; 3 K over the dew point by the guidance of ISO 8502-4. Sun and open night sky move the skin from the air by `sun-warms` and `night-cools`, common practice.",
};

/// A bead that needs weeks.
pub static TRAPPED: Rule = Rule {
    code: "T002",
    name: "bead-trapped",
    severity: Severity::Caution,
    checks: "The way from open air to the middle of each bead, and the time that moisture needs for it.",
    why: "Under a wide plate a one-part bead stays paste for weeks or months while it looks finished at the edge.",
    example: "plate = { material = \"steel-s235\", length = 180, width = 90, thickness = 3 }\ntape = { kind = \"acrylic-foam-tape\", width = 38, thickness = 2.3, strips = 2 }\nbead = { kind = \"hybrid-adhesive\", width = 10 }   # tape seals it on both sides",
    remedy: "Air channels, narrower beads, tape that carries meanwhile, or a two-part adhesive.",
    source_limits: "Depth grows with the root of time; Comyn 1998 and de Buyl 2002 for silicones, carried over to hybrids and polyurethanes (there the slower of vapour and Q10 = 2).",
};
