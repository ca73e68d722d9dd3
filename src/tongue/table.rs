//! The rows of one language.

use super::pattern::Pattern;
use std::collections::BTreeMap;
use std::fmt;

/// A row: an English text with holes, and what it is in the other language.
#[derive(Debug, Clone)]
pub struct Row {
    /// The English text as it is written in the table.
    pub english: String,
    /// The text in the other language, its holes by number.
    pub told: String,
    pattern: Pattern,
}

impl Row {
    /// Ways in which its English text makes a text, by what its holes hold.
    pub fn ways<'t>(&self, text: &'t str) -> Vec<Vec<&'t str>> {
        self.pattern.ways(text, WAYS)
    }

    /// Characters of the English text that are its own.
    pub fn words(&self) -> usize {
        self.pattern.weight()
    }
}

/// Ways looked at, of a text that a row makes in several.
const WAYS: usize = 8;

/// All rows of a language.
#[derive(Debug, Clone)]
pub struct Table {
    /// BCP 47 tag of the language.
    pub tag: String,
    /// Sign between the whole and its parts in a number.
    pub decimal: char,
    exact: BTreeMap<String, Row>,
    /// Rows with holes by the word they begin with, the closest first; under "" those that begin with
    /// a hole or inside a word.
    holed: BTreeMap<String, Vec<Row>>,
}

/// German: files by topic.
const GERMAN: &[(&str, &str)] = &[
    ("10-page.toml", include_str!("../../templates/words/de/10-page.toml")),
    ("30-safety.toml", include_str!("../../templates/words/de/30-safety.toml")),
    ("31-ready.toml", include_str!("../../templates/words/de/31-ready.toml")),
    ("32-bench.toml", include_str!("../../templates/words/de/32-bench.toml")),
    ("33-roof.toml", include_str!("../../templates/words/de/33-roof.toml")),
    ("34-electrics.toml", include_str!("../../templates/words/de/34-electrics.toml")),
    ("35-done.toml", include_str!("../../templates/words/de/35-done.toml")),
    ("27-sheets.toml", include_str!("../../templates/words/de/27-sheets.toml")),
    ("28-sheets.toml", include_str!("../../templates/words/de/28-sheets.toml")),
    ("29-sheets.toml", include_str!("../../templates/words/de/29-sheets.toml")),
    ("40-parts.toml", include_str!("../../templates/words/de/40-parts.toml")),
    ("41-tools.toml", include_str!("../../templates/words/de/41-tools.toml")),
    ("42-worked.toml", include_str!("../../templates/words/de/42-worked.toml")),
    ("43-loads.toml", include_str!("../../templates/words/de/43-loads.toml")),
    ("44-electrics.toml", include_str!("../../templates/words/de/44-electrics.toml")),
    ("45-build.toml", include_str!("../../templates/words/de/45-build.toml")),
    ("46-composed.toml", include_str!("../../templates/words/de/46-composed.toml")),
    ("36-composed.toml", include_str!("../../templates/words/de/36-composed.toml")),
    ("90-composed.toml", include_str!("../../templates/words/de/90-composed.toml")),
    ("91-composed.toml", include_str!("../../templates/words/de/91-composed.toml")),
    ("60-record.toml", include_str!("../../templates/words/de/60-record.toml")),
    ("70-survey.toml", include_str!("../../templates/words/de/70-survey.toml")),
    ("72-keys.toml", include_str!("../../templates/words/de/72-keys.toml")),
    ("71-rest.toml", include_str!("../../templates/words/de/71-rest.toml")),
];

/// A row that can't be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// File of the table.
    pub file: String,
    /// The row's English text.
    pub english: String,
    /// What is wrong with it.
    pub why: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {:?} {}", self.file, self.english, self.why)
    }
}

impl Table {
    /// The German rows.
    ///
    /// # Panics
    /// If an embedded row can't be used; a test reads them all.
    pub fn german() -> Self {
        let told = |faults: &Vec<Fault>| {
            faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
        };
        // DIN 1333: the decimal sign is a comma.
        Self::new("de", ',', GERMAN).unwrap_or_else(|faults| panic!("{}", told(&faults)))
    }

    /// Reads the files of a language, by name and text.
    ///
    /// # Errors
    /// Every row that can't be used.
    pub fn new(tag: &str, decimal: char, files: &[(&str, &str)]) -> Result<Self, Vec<Fault>> {
        let mut table =
            Self { tag: tag.to_owned(), decimal, exact: BTreeMap::new(), holed: BTreeMap::new() };
        let mut faults = Vec::new();
        let mut known: BTreeMap<String, &str> = BTreeMap::new();
        for &(file, text) in files {
            let fault = |english: &str, why: String| Fault {
                file: file.to_owned(),
                english: english.to_owned(),
                why,
            };
            let rows: BTreeMap<String, String> = match toml::from_str(text) {
                Ok(rows) => rows,
                Err(why) => {
                    faults.push(fault("", why.to_string()));
                    continue;
                }
            };
            for (english, told) in rows {
                if let Some(other) = known.insert(english.clone(), file) {
                    faults.push(fault(&english, format!("stands in {other} too")));
                    continue;
                }
                let pattern = Pattern::new(&english);
                if let Some(why) = wrong(&pattern, &english, &told) {
                    faults.push(fault(&english, why));
                    continue;
                }
                table.add(Row { english, told, pattern });
            }
        }
        for rows in table.holed.values_mut() {
            rows.sort_by(|a, b| {
                let rank =
                    |row: &Row| (std::cmp::Reverse(row.pattern.weight()), row.pattern.open());
                rank(a).cmp(&rank(b)).then_with(|| a.english.cmp(&b.english))
            });
        }
        if faults.is_empty() { Ok(table) } else { Err(faults) }
    }

    fn add(&mut self, row: Row) {
        if row.pattern.holes() == 0 {
            self.exact.insert(row.english.clone(), row);
        } else {
            // Only a word that is whole in the pattern is whole in the text.
            let first = row.pattern.opening().split_once(' ').map_or("", |(word, _)| word);
            self.holed.entry(first.to_owned()).or_default().push(row);
        }
    }

    /// English texts of all rows.
    pub fn english(&self) -> impl Iterator<Item = &str> {
        let holed = self.holed.values().flatten();
        self.exact.values().chain(holed).map(|row| row.english.as_str())
    }

    /// Rows that make the text, those with the most words of their own first, at most so many, and
    /// what their holes hold.
    pub fn find<'t>(&self, text: &'t str, most: usize) -> Vec<(&Row, Vec<&'t str>)> {
        if let Some(row) = self.exact.get(text) {
            return vec![(row, Vec::new())];
        }
        let first = text.split_once(' ').map_or("", |(word, _)| word);
        let words = if first.is_empty() { vec![""] } else { vec![first, ""] };
        let mut found = Vec::new();
        for word in words {
            let rows = self.holed.get(word).into_iter().flatten();
            let made = rows.filter_map(|row| Some((row, row.pattern.holds(text)?)));
            found.extend(made.take(most));
        }
        found.sort_by_key(|(row, _)| std::cmp::Reverse(row.words()));
        found.truncate(most);
        found
    }

    /// A row's words with its holes filled.
    pub fn fill(&self, row: &Row, held: &[String]) -> String {
        let mut told = String::with_capacity(row.told.len() + 16);
        let mut rest = row.told.as_str();
        while let Some(at) = rest.find('{') {
            told += &rest[..at];
            let end = rest[at..].find('}').map(|end| at + end);
            let number = end.and_then(|end| rest[at + 1..end].parse::<usize>().ok());
            match number.and_then(|number| held.get(number.checked_sub(1)?)).zip(end) {
                Some((part, end)) => {
                    told += part;
                    rest = &rest[end + 1..];
                }
                None => {
                    told.push('{');
                    rest = &rest[at + 1..];
                }
            }
        }
        told + rest
    }
}

/// Why a row can't be used.
fn wrong(pattern: &Pattern, english: &str, told: &str) -> Option<String> {
    if english.trim() != english || told.trim() != told {
        return Some("begins or ends with a space".into());
    }
    if told.is_empty() {
        return Some("says nothing".into());
    }
    if ["{}{", "}{}", "}{n}", "}{q}", "}{m}"].iter().any(|sign| english.contains(sign)) {
        return Some("has two holes side by side, which can't be told apart".into());
    }
    let holes = pattern.holes();
    if let Some(hole) = (1..=holes).find(|hole| !told.contains(&format!("{{{hole}}}"))) {
        return Some(format!("leaves out {{{hole}}}"));
    }
    let extra = holes + 1;
    told.contains(&format!("{{{extra}}}"))
        .then(|| format!("has {{{extra}}}, and the English text has {holes} holes"))
}

#[cfg(test)]
mod tests {
    use super::super::Teller;
    use super::*;
    use std::collections::BTreeSet;

    const ROWS: &str = r#"
"Drill {q} in {}." = "In {2} {1} bohren."
"Drill {} in {}." = "{1} in {2} bohren."
"left rail" = "linker Holm"
"Saw {} {} now." = "{1} {2} sägen."
"{}, front end" = "{1}, vorderes Ende"
"#;

    fn told(text: &str) -> (String, Vec<String>) {
        let table = Table::new("de", ',', &[("rows", ROWS)]).expect("its rows are sound");
        let own = BTreeSet::from(["Otter".to_owned()]);
        let mut teller = Teller::new(&table, &own);
        let told = teller.tell(text).unwrap_or_else(|| text.to_owned());
        (told, teller.missing().iter().cloned().collect())
    }

    #[test]
    fn the_closest_row_is_taken_and_its_holes_are_said_too() {
        assert_eq!(
            told("Drill 7.1 mm in left rail, front end."),
            ("In linker Holm, vorderes Ende 7,1 mm bohren.".into(), vec![])
        );
        assert_eq!(told(" left rail "), (" linker Holm ".into(), vec![]));
    }

    #[test]
    fn what_has_no_row_stays_and_is_told() {
        assert_eq!(
            told("Drill holes in left rail."),
            ("holes in linker Holm bohren.".into(), vec!["holes".into()])
        );
        assert_eq!(told("Otter"), ("Otter".into(), vec![]));
        assert_eq!(told("4.5 kg"), ("4,5 kg".into(), vec![]));
        assert_eq!(
            told("left rail · 4.5 kg · holes"),
            ("linker Holm · 4,5 kg · holes".into(), vec!["holes".into()])
        );
        assert_eq!(told("Saw left rail A2 now."), ("linker Holm A2 sägen.".into(), vec![]));
        let mostly = "holes and slots, front end";
        assert_eq!(told(mostly), (mostly.into(), vec![mostly.into()]));
    }

    #[test]
    fn rows_that_lose_a_hole_are_refused() {
        let why = |rows: &str| {
            let faults = Table::new("de", ',', &[("rows", rows)]).expect_err("it is refused");
            faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
        };
        assert_eq!(why("\"a {} b\" = \"b\""), "rows: \"a {} b\" leaves out {1}");
        assert!(why("\"a {} b\" = \"{1} {2}\"").contains("has {2}"));
        assert!(why("\"a {}{n}\" = \"{1} {2}\"").contains("side by side"));
        assert!(why("\"a \" = \"b\"").contains("space"));
    }
}
