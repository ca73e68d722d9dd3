//! L041 latch-alone.

use crate::build::Mount;
use crate::source::{Finding, Rule, Severity};

/// A latch on a frame that cannot be lifted.
pub static RULE: Rule = Rule {
    code: "L041",
    name: "latch-alone",
    severity: Severity::Caution,
    checks: "Where one mount has a latch, the frame has hinges on another edge and every other mount \
             off the hinges has a latch too.",
    why: "A latch is there to open the frame by hand. Beside a mount that is bolted, or without \
          hinges, opening it frees nothing; and a latch holds less than bolts do.",
    example: "[[mount]]\nkind = \"bolted-foot\"\nedge = \"right\"\nlatch = { kind = \"knob\" }",
    remedy: "Give every mount off the hinges a latch, or leave the latch out.",
    source_limits: "What the build file says.",
};

/// The latch of `mount` beside another one that is bolted, or without hinges.
pub fn finding(mount: &Mount, bolted: Option<&Mount>) -> Finding {
    let name = &*mount.name;
    match bolted {
        Some(other) => {
            Finding::new(&RULE, format!("the {name} has a latch but the {} is bolted", *other.name))
                .at(other.span, "bolted to the frame")
                .also(mount.span, "has a latch")
                .means("the frame cannot be lifted until those bolts are out")
                .help("give this mount a latch too, or leave out the other")
        }
        None => Finding::new(&RULE, format!("the {name} has a latch but nothing is hinged"))
            .at(mount.span, "has a latch")
            .means("opened, the frame is loose on the roof")
            .help("leave out `latch`, or put hinges on another edge"),
    }
}
