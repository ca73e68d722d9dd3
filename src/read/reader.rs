//! What every reader of a table carries along: tables, the job's unit, and the findings so far.

use super::codes;
use super::field::Home;
use super::shape::{Asked, Survey};
use crate::build::{LengthUnit, RowUse};
use crate::source::{Finding, Severity, Stated, Text};
use crate::tables::Tables;
use crate::units::Unit;
use jiff::civil::Date;
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};

/// More findings than this help nobody; the rest is counted.
pub(super) const MOST_FINDINGS: usize = 100;

/// Carried along while a file is read.
pub(super) struct Reader<'a> {
    /// The file.
    pub text: &'a Text,
    /// Rows that names in the file point to.
    pub tables: &'a Tables,
    /// Unit of bare lengths.
    pub unit: Unit,
    /// Date of issue where the file states none.
    pub issue: Option<Date>,
    /// Names of the frames, for what belongs to one of them.
    pub frames: Vec<String>,
    findings: Vec<Finding>,
    left_out: usize,
    unwritten: BTreeSet<usize>,
    marks: Vec<Stated<String>>,
    names: Vec<(Group, Stated<String>)>,
    survey: Option<Survey>,
    rows: Vec<RowUse>,
}

/// Things among which a name must be the only one of its kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Group {
    Frames,
    Mounts,
    Circuits,
    Parts,
    KeepOuts,
}

impl<'a> Reader<'a> {
    pub fn new(text: &'a Text, tables: &'a Tables) -> Self {
        Self {
            text,
            tables,
            unit: Unit::MM,
            issue: None,
            frames: Vec::new(),
            findings: Vec::new(),
            left_out: 0,
            unwritten: BTreeSet::new(),
            marks: Vec::new(),
            names: Vec::new(),
            survey: None,
            rows: Vec::new(),
        }
    }

    /// Notes from here on what is asked of each key.
    pub fn survey(&mut self) {
        self.survey = Some(Survey::new());
    }

    /// What was asked.
    pub fn surveyed(&mut self) -> Survey {
        self.survey.take().unwrap_or_default()
    }

    /// Notes what is asked of a key, if that is wanted.
    pub fn note(&mut self, home: Home, key: &'static str, asked: impl FnOnce(&Tables) -> Asked) {
        if let Some(survey) = &mut self.survey {
            survey.push((home.path, key, asked(self.tables)));
        }
    }

    /// Bare lengths are in this unit from here on.
    pub fn bare_lengths(&mut self, unit: LengthUnit) {
        self.unit = match unit {
            LengthUnit::Millimetre => Unit::MM,
            LengthUnit::Inch => Unit::INCH,
        };
    }

    /// Remembers a row that is named.
    pub fn uses(&mut self, row: RowUse) {
        if !self.rows.iter().any(|known| known.kind == row.kind && known.name == row.name) {
            self.rows.push(row);
        }
    }

    /// The rows named so far.
    pub fn rows(&mut self) -> Vec<RowUse> {
        std::mem::take(&mut self.rows)
    }

    /// Keeps a finding that a line can't be read as TOML. The value that the parser saved of such a
    /// line is not judged: what is wrong with it is told already.
    pub fn raise_syntax(&mut self, finding: Finding) {
        if let Some(span) = finding.primary {
            self.unwritten.insert(self.text.place(span.start()).line);
        }
        self.keep(finding);
    }

    /// Keeps a finding. What is missing is not told where a line that can't be read may hold it.
    pub fn raise(&mut self, finding: Finding) {
        if self.may_be_hidden(&finding) {
            return;
        }
        let line = |span: crate::source::Span| self.text.place(span.start()).line;
        if !finding.primary.is_some_and(|span| self.unwritten.contains(&line(span))) {
            self.keep(finding);
        }
    }

    fn may_be_hidden(&self, finding: &Finding) -> bool {
        let rule = finding.rule.code;
        let Some(last) = self.unwritten.last() else { return false };
        if [codes::nothing_to_build::RULE.code, codes::missing_table::RULE.code].contains(&rule) {
            return true;
        }
        if rule != codes::missing_key::RULE.code {
            return false;
        }
        // The lines of its table: from its header to the next.
        let Some(span) = finding.primary else { return true };
        let header = self.text.place(span.start()).line;
        let next = (header + 1..=*last)
            .find(|line| self.text.line(*line).is_some_and(|line| line.starts_with('[')));
        self.unwritten.range(header..next.unwrap_or(last + 1).max(header)).next().is_some()
    }

    /// Whether so much was found that the next finding is counted only. Gives true after counting
    /// it, so that a loop over damage need not make what nobody will see.
    pub fn counted_only(&mut self) -> bool {
        let full = self.findings.len() >= MOST_FINDINGS;
        self.left_out += usize::from(full);
        full
    }

    fn keep(&mut self, finding: Finding) {
        if self.findings.len() < MOST_FINDINGS {
            self.findings.push(finding);
        } else {
            self.left_out += 1;
        }
    }

    /// Remembers a mark, to tell marks apart when all are known.
    pub fn marked(&mut self, mark: Option<&Stated<String>>) {
        self.marks.extend(mark.cloned());
    }

    /// Remembers a name, to tell names apart when all are known.
    pub fn named(&mut self, group: Group, name: Option<&Stated<String>>) {
        self.names.extend(name.cloned().map(|name| (group, name)));
    }

    /// Says which marks and names are used twice.
    pub fn tell_apart(&mut self) {
        let mut marks = std::mem::take(&mut self.marks);
        marks.sort_by_key(|mark| mark.span);
        let free = free_letter(&marks);
        for (again, first) in twice(&marks) {
            self.raise(codes::mark_twice::raise(again, first, &free));
        }
        let mut names = std::mem::take(&mut self.names);
        names.sort_by_key(|(group, name)| (*group, name.span));
        for alike in names.chunk_by(|a, b| a.0 == b.0) {
            let alike: Vec<Stated<String>> = alike.iter().map(|(_, name)| name.clone()).collect();
            for (again, first) in twice(&alike) {
                self.raise(codes::name_twice::raise(again, first));
            }
        }
    }

    /// Whether the file can't be used.
    pub fn is_stopped(&self) -> bool {
        self.left_out > 0 || self.findings.iter().any(|f| f.severity == Severity::Stop)
    }

    /// All findings, in the order in which to deal with them.
    pub fn finish(mut self) -> Vec<Finding> {
        crate::source::sort(&mut self.findings);
        if self.left_out > 0 {
            self.findings.push(codes::more_findings::raise(self.left_out));
        }
        self.findings
    }
}

/// Each that has been there before, with the first of its like.
fn twice(words: &[Stated<String>]) -> Vec<(&Stated<String>, &Stated<String>)> {
    let mut seen = BTreeMap::new();
    let mut pairs = Vec::new();
    for word in words {
        // Spoken aloud on a roof, upper and lower case are one.
        match seen.entry(word.value.to_lowercase()) {
            Entry::Vacant(place) => {
                place.insert(word);
            }
            Entry::Occupied(first) => pairs.push((word, *first.get())),
        }
    }
    pairs
}

fn free_letter(marks: &[Stated<String>]) -> String {
    ('A'..='Z')
        .map(String::from)
        .find(|letter| marks.iter().all(|mark| mark.value != *letter))
        .unwrap_or_else(|| "AA".to_owned())
}
