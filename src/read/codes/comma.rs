//! A comma in a number.

use crate::read::field::Field;
use crate::read::reader::Reader;
use crate::source::{Finding, Rule, Severity};
use std::ops::Range;

/// U004.
pub static RULE: Rule = Rule {
    code: "U004",
    name: "comma-in-number",
    severity: Severity::Stop,
    checks: "Whether numbers are written with a point before the decimals and no other mark.",
    why: "1,180 is one metre eighteen in one country and a little over a millimetre in another.",
    example: "[[panel]]\nmass = \"6,4 kg\"",
    remedy: "Write a point before the decimals, and nothing or a space between thousands.",
    source_limits: "ISO 80000-1 allows both marks; TOML has the point.",
};

/// `range` is the number within the text.
pub(in crate::read) fn raise(r: &Reader<'_>, field: &Field<'_>, range: Range<usize>) -> Finding {
    let text = field.value.as_str().unwrap_or("");
    let number = text.get(range.clone()).unwrap_or(text);
    let rest = text.get(range.end..).unwrap_or("");
    let head = text.get(..range.start).unwrap_or("");
    let with = |number: &str| format!("`{}`", field.line(&format!("\"{head}{number}{rest}\"")));
    let finding = Finding::new(&RULE, format!("`{}` has a comma in its number", field.key))
        .at(field.inner(r.text, &range), "a comma")
        .means("it can stand before decimals or between thousands");
    if let Some(last) = number.rfind([',', '.']).filter(|_| number.contains('.')) {
        // Both marks: the last one stands before the decimals.
        let whole: String = number[..last].chars().filter(char::is_ascii_digit).collect();
        return finding
            .help(format!("write {}", with(&format!("{whole}.{}", &number[last + 1..]))));
    }
    let point = number.replacen(',', ".", 1);
    let single = number.matches(',').count() == 1;
    let thousands = number
        .rsplit(',')
        .next()
        .is_some_and(|tail| tail.bytes().take_while(u8::is_ascii_digit).count() == 3);
    let finding = if single { finding.help(format!("write {}", with(&point))) } else { finding };
    if thousands || !single {
        return finding
            .help(format!("write {} if thousands are meant", with(&number.replace(',', ""))));
    }
    finding
}
