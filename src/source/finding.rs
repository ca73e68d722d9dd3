//! Something to say about the build.

use super::{Rule, Severity, Span};
use std::cmp::Ordering;

/// Something that the reader must know: what is wrong, where it was written, what it means on the
/// roof and what to change.
///
/// ```
/// use rungsheet::source::{Finding, Rule, Severity, Span};
/// static RULE: Rule = Rule {
///     code: "H012",
///     name: "hole-too-near-edge",
///     severity: Severity::Stop,
///     checks: "…", why: "…", example: "…", remedy: "…", source_limits: "…",
/// };
/// let finding = Finding::new(&RULE, "the hole is 6 mm from the edge; 8 mm is the least")
///     .at(Span::new(40, 52), "6 mm from the edge")
///     .also(Span::new(10, 20), "the part ends here")
///     .means("the strip between hole and edge tears out")
///     .help("move the hole inwards by 2 mm");
/// assert_eq!(finding.severity, Severity::Stop);
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The rule that raised it.
    pub rule: &'static Rule,
    /// How grave this case is.
    pub severity: Severity,
    /// A phrase that starts in lower case, with the numbers and their limit.
    pub message: String,
    /// Where it was written; `None` for what nobody wrote.
    pub primary: Option<Span>,
    /// What stands at that place; may be empty.
    pub label: String,
    /// Other places that belong to it.
    pub others: Vec<(Span, String)>,
    /// What it means on the roof.
    pub means: Option<String>,
    /// What to change, the best first.
    pub helps: Vec<String>,
    /// The anchor on the sheet that shows it.
    pub where_on: Option<String>,
}

impl Finding {
    /// A finding of the rule's own severity, without a place.
    #[must_use]
    pub fn new(rule: &'static Rule, message: impl Into<String>) -> Self {
        Self {
            rule,
            severity: rule.severity,
            message: message.into(),
            primary: None,
            label: String::new(),
            others: Vec::new(),
            means: None,
            helps: Vec::new(),
            where_on: None,
        }
    }

    /// Where it was written, and what to say there. [`Span::NONE`] leaves it without a place.
    #[must_use]
    pub fn at(mut self, span: Span, label: impl Into<String>) -> Self {
        self.primary = (!span.is_none()).then_some(span);
        self.label = label.into();
        self
    }

    /// Another place that belongs to it; [`Span::NONE`] is left out.
    #[must_use]
    pub fn also(mut self, span: Span, label: impl Into<String>) -> Self {
        if !span.is_none() {
            self.others.push((span, label.into()));
        }
        self
    }

    /// What it means on the roof.
    #[must_use]
    pub fn means(mut self, meaning: impl Into<String>) -> Self {
        self.means = Some(meaning.into());
        self
    }

    /// One thing to change.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.helps.push(help.into());
        self
    }

    /// Graver or lighter than the rule says.
    #[must_use]
    pub const fn severity(mut self, severity: Severity) -> Self {
        self.severity = severity;
        self
    }

    /// The anchor on the sheet that shows it.
    #[must_use]
    pub fn on(mut self, anchor: impl Into<String>) -> Self {
        self.where_on = Some(anchor.into());
        self
    }

    /// The order in which to deal with findings: by severity, then as the file is read (what has no
    /// place comes last), then by code and words.
    pub fn order(&self, other: &Self) -> Ordering {
        let place =
            |finding: &Self| finding.primary.map_or((true, Span::NONE), |span| (false, span));
        self.severity
            .cmp(&other.severity)
            .then_with(|| place(self).cmp(&place(other)))
            .then_with(|| self.rule.code.cmp(other.rule.code))
            .then_with(|| self.message.cmp(&other.message))
    }
}

/// Puts findings in the order in which to deal with them.
pub fn sort(findings: &mut [Finding]) {
    findings.sort_by(Finding::order);
}

/// The gravest severity among them.
pub fn worst(findings: &[Finding]) -> Option<Severity> {
    findings.iter().map(|finding| finding.severity).min()
}

#[cfg(test)]
mod tests {
    use super::*;

    static EDGE: Rule = rule("H012", Severity::Stop);
    static SUM: Rule = rule("W001", Severity::Caution);

    const fn rule(code: &'static str, severity: Severity) -> Rule {
        Rule {
            code,
            name: "named-for-the-fault",
            severity,
            checks: "",
            why: "",
            example: "",
            remedy: "",
            source_limits: "",
        }
    }

    #[test]
    fn the_gravest_comes_first_then_the_file_is_followed() {
        let mut findings = vec![
            Finding::new(&SUM, "a").at(Span::new(1, 2), ""),
            Finding::new(&EDGE, "b"),
            Finding::new(&EDGE, "c").at(Span::new(9, 10), ""),
            Finding::new(&EDGE, "d").at(Span::new(5, 10), ""),
            Finding::new(&SUM, "e").at(Span::new(7, 9), "").severity(Severity::Stop),
        ];
        sort(&mut findings);
        let told: String = findings.iter().map(|f| f.message.as_str()).collect();
        assert_eq!(told, "decba");
        assert_eq!(worst(&findings), Some(Severity::Stop));
        assert_eq!(worst(&[]), None);
    }
}
