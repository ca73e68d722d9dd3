//! What is checked, and why.

use super::Severity;
use std::fmt;

/// One thing that is checked. A rule is a `static` beside the function that checks it; the table of
/// all of them is gathered in `findings`, and `explain` prints it.
pub struct Rule {
    /// A letter for the chapter and three digits, never used again for another rule: `H012`.
    pub code: &'static str,
    /// The fault in a few words: `hole-too-near-edge`.
    pub name: &'static str,
    /// How grave it is unless the case makes it otherwise.
    pub severity: Severity,
    /// What it checks.
    pub checks: &'static str,
    /// Why it matters on the roof.
    pub why: &'static str,
    /// A piece of a build file that raises it.
    pub example: &'static str,
    /// What to change.
    pub remedy: &'static str,
    /// Where the limit comes from, and where the check ends.
    pub source_limits: &'static str,
}

impl fmt::Debug for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.code, self.name)
    }
}

/// Codes are unique, so a rule is its code.
impl PartialEq for Rule {
    fn eq(&self, other: &Self) -> bool {
        self.code == other.code
    }
}

impl Eq for Rule {}
