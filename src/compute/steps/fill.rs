//! Facts put into the words of a template.

use super::facts::{Facts, Item};

/// A placeholder that nothing fills: a fault of the program's own templates.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Missing {
    /// Key of the step or message.
    pub template: String,
    /// Name between the braces.
    pub name: String,
}

/// Printed where a fact is not known: an en dash, as for a limit left open.
pub const UNKNOWN: &str = "–";

/// The text with every `{name}` filled from the facts, `{it.name}` from the row. `{name?}` may be
/// missing and is then left out; any other missing name is noted and printed as a dash.
pub fn fill(
    text: &str,
    facts: &Facts,
    item: Option<&Item>,
    template: &str,
    missing: &mut Vec<Missing>,
) -> String {
    let mut filled = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(open) = rest.find('{') {
        filled.push_str(&rest[..open]);
        let Some(close) = rest[open..].find('}') else {
            missing.push(Missing { template: template.to_owned(), name: rest[open..].to_owned() });
            return filled;
        };
        let asked = &rest[open + 1..open + close];
        let (name, may_lack) = asked.strip_suffix('?').map_or((asked, false), |name| (name, true));
        let value = match name.strip_prefix("it.") {
            Some(field) => item.and_then(|item| item.get(field)).map(String::as_str),
            None => facts.words(name),
        };
        match value {
            Some(value) => filled.push_str(value),
            None if may_lack => {}
            None => {
                missing.push(Missing { template: template.to_owned(), name: name.to_owned() });
                filled.push_str(UNKNOWN);
            }
        }
        rest = &rest[open + close + 1..];
    }
    filled.push_str(rest);
    filled
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn facts_rows_and_gaps() {
        let mut facts = Facts::default();
        facts.set("saw", "hacksaw");
        let row = Item::from([("x".to_owned(), "400 mm".to_owned())]);
        let mut missing = Vec::new();
        let said = fill("Cut with {saw} at {it.x}{note?}.", &facts, Some(&row), "t", &mut missing);
        assert_eq!(said, "Cut with hacksaw at 400 mm.");
        assert!(missing.is_empty());
        assert_eq!(fill("{no.such}", &facts, None, "t", &mut missing), UNKNOWN);
        assert_eq!(fill("{it.y}", &facts, Some(&row), "t", &mut missing), UNKNOWN);
        assert_eq!(fill("a {open", &facts, None, "t", &mut missing), "a ");
        assert_eq!(missing.len(), 3);
    }
}
