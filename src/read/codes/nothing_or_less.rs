//! Zero or less where a thing has a size.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};

/// U006.
pub static RULE: Rule = Rule {
    code: "U006",
    name: "nothing-or-less",
    severity: Severity::Stop,
    checks: "Whether sizes, masses, counts and ratings are more than nothing.",
    why: "A plate of no thickness has no strength, and a negative length turns the drawing round.",
    example: "[[panel]]\nwidth = -540",
    remedy: "Write the size without a sign, or take the line out if there is no such thing.",
    source_limits: "Places on the roof and gaps may be zero; places may be negative (left of the centre line).",
};

/// At the value.
pub(in crate::read) fn raise(r: &Reader<'_>, field: &Field<'_>) -> Finding {
    let written = field.written(r.text);
    let digits: String = written.chars().filter(|c| !matches!(c, '-' | '\u{2212}')).collect();
    let zero = !digits.chars().any(|c| matches!(c, '1'..='9'));
    let finding =
        Finding::new(&RULE, format!("`{}` is {written}; it must be more than 0", field.key))
            .at(field.span, if zero { "zero" } else { "less than nothing" })
            .means(match field.spec() {
                Some(spec) => format!("`{}` stands for: {}", field.key, spec.says),
                None => "a thing has a size".to_owned(),
            });
    if zero {
        let example = field.example().unwrap_or_default();
        return finding.help(format!("write the value as measured, as in `{example}`"));
    }
    finding.help(format!("write `{}` if the sign is a slip", field.line(&digits)))
}
