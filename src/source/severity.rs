//! How grave a finding is.

use serde::Serialize;
use std::fmt;

/// How grave a finding is; the gravest comes first in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// The packet may not be used; printing is refused or marked as a draft on every page.
    Stop,
    /// To be weighed by the reader before the work.
    Caution,
    /// Good to know.
    Note,
}

impl Severity {
    /// As printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Stop => "stop",
            Self::Caution => "caution",
            Self::Note => "note",
        }
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}
