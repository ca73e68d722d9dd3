//! Survey forms: blanks in the order of measuring, each beside its key of the build file.
//!
//! What a blank is called, what it tells and its unit come from the reader's own list of keys, so
//! that a form can't ask for what the reader does not know.

mod forms;
mod sketch;

pub use forms::{Ask, FORMS, Form, NOT_MEASURED};

use crate::build::LengthUnit;
use crate::page::block::{
    Blank, BlankWidth, Block, Cell, ColumnWidth, Figure, Heading, Row, Table, TableColumn,
};
use crate::page::text::Text;
use crate::page::{Identity, Packet, Paper, Sheet, Tab};
use crate::read::keys::{self, Key};
use std::collections::BTreeSet;

/// Greatest height of a sketch, mm.
const SKETCH: f64 = 72.0;

/// Keys that are counted, whose bare number is no length.
const COUNTS: &[&str] = &["count", "cables", "people"];

/// What is no word of any language on a form: keys, tables and forms by their names, which stand in the
/// sketches too.
pub fn own_words() -> BTreeSet<String> {
    let asked = FORMS.iter().flat_map(|form| form.asks).flat_map(|ask| {
        let (path, keys): (&str, Vec<&str>) = match ask {
            Ask::One { path, keys } | Ask::Each { path, keys, .. } => (path, keys.to_vec()),
            Ask::Pairs { path, key, beside, .. } => {
                (path, std::iter::once(*key).chain(*beside).collect())
            }
        };
        path.split('.').chain(keys).collect::<Vec<_>>()
    });
    asked.chain(FORMS.iter().map(|form| form.word)).map(str::to_owned).collect()
}

/// The forms of these words, all if there are none; or the first word that is no form.
///
/// # Errors
/// The word that no form has.
pub fn survey(only: &[String], units: LengthUnit, paper: Paper) -> Result<Packet, String> {
    let known = |word: &&String| FORMS.iter().any(|form| form.word.eq_ignore_ascii_case(word));
    if let Some(word) = only.iter().find(|word| !known(word)) {
        return Err(word.clone());
    }
    let asked =
        |form: &Form| only.is_empty() || only.iter().any(|w| form.word.eq_ignore_ascii_case(w));
    let forms: Vec<(usize, &Form)> =
        FORMS.iter().enumerate().filter(|(_, form)| asked(form)).collect();
    let mut sheets: Vec<Sheet> =
        forms.iter().map(|(number, form)| sheet(*number, form, units)).collect();
    for (index, sheet) in sheets.iter_mut().enumerate() {
        let last = match forms.get(index + 1) {
            Some((_, next)) => format!("List complete. Next: {}.", next.title),
            None => {
                "List complete. Next: each value goes into the build file under its key.".into()
            }
        };
        sheet.blocks.push(Block::Strong(last.into()));
    }
    Ok(Packet {
        paper,
        identity: Identity {
            number: "SURVEY".into(),
            title: "Survey of the vehicle".into(),
            revision: String::new(),
            date: String::new(),
            fingerprint: super::fingerprint(&[told().as_bytes()]),
        },
        subject: "Forms for measuring a vehicle before a build file is written".into(),
        author: String::new(),
        language: "en".into(),
        voice: crate::page::Voice::default(),
        sheets,
        duplex: false,
        draft: None,
        attachment: None,
    })
}

/// Everything that the forms ask for in one text: forms of two editions differ in their fingerprint.
fn told() -> String {
    let keys = |path: &str, names: &[&str]| -> String {
        let lines: Vec<String> = names
            .iter()
            .map(|name| format!("{path}.{name}: {}\n", about(path, name).says))
            .collect();
        lines.concat()
    };
    FORMS
        .iter()
        .flat_map(|form| form.asks)
        .map(|ask| match ask {
            Ask::One { path, keys: names } | Ask::Each { path, keys: names, .. } => {
                keys(path, names)
            }
            Ask::Pairs { path, key, beside, .. } => {
                keys(path, &[key]) + &keys(path, beside.as_slice())
            }
        })
        .collect()
}

/// The key's row in the reader's list.
fn about(path: &str, name: &str) -> Key {
    keys::key_of(path, name).copied().unwrap_or(Key {
        name: "",
        example: "",
        says: "",
        needed: false,
    })
}

fn sheet(number: usize, form: &Form, units: LengthUnit) -> Sheet {
    const PLACES: usize = 6;
    let mut blocks = Vec::new();
    if number == 0 {
        blocks.push(Block::Blanks(vec![
            Blank::of(BlankWidth::Long, "measured by"),
            Blank::of(BlankWidth::Date, "date"),
            Blank::of(BlankWidth::Short, "weather"),
        ]));
    }
    blocks.push(Block::Paragraph(Text::bold("To have: ").and(form.tools).and(".")));
    blocks.push(Block::Bullets(form.how.iter().map(|line| (*line).into()).collect()));
    if let Some(draw) = form.sketch {
        blocks.push(Block::Figure(Figure::new(draw(), SKETCH)));
    }
    for ask in form.asks {
        blocks.extend(asked(ask, units));
    }
    blocks.push(Block::Blanks(vec![
        Blank::of(BlankWidth::Line, "photographs by number, and what else was seen").high(16.0),
    ]));
    Sheet {
        anchor: format!("survey-{}", form.word),
        title: form.title.into(),
        purpose: form.purpose.into(),
        tab: Some(Tab::new(form.word, number % PLACES, PLACES)),
        steps: None,
        blocks,
        single_sided: true,
    }
}

fn heading(path: &str) -> Heading {
    let table = keys::table_of(path);
    let (says, written) = table.map_or(("", ""), |table| (table.says, table.heading));
    let parent = path.rsplit_once('.').map(|(parent, _)| parent);
    let within = parent.and_then(keys::table_of).filter(|_| !written.starts_with('['));
    let many = path.rsplit_once('.').and_then(|(home, name)| keys::key_of(home, name));
    let many = many.is_some_and(|key| key.example.starts_with('['));
    let written = match within {
        Some(parent) if many => (format!("{written} = [{{ … }}, …]"), parent.heading),
        Some(parent) => (format!("{written} = {{ … }}"), parent.heading),
        None => (written.to_owned(), ""),
    };
    let aside = match written {
        (own, "") => Text::code(own),
        (own, home) => Text::code(own).and(" in ").and_code(home),
    };
    Heading::new(capital(says)).aside(aside)
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn asked(ask: &Ask, units: LengthUnit) -> Vec<Block> {
    match ask {
        Ask::One { path, keys } => {
            vec![Block::Heading(heading(path)), Block::Table(rows(path, keys, units))]
        }
        Ask::Each { path, name, keys, count } => {
            let mut blocks = vec![Block::Heading(heading(path))];
            if *count == 1 {
                blocks.push(Block::Table(rows(path, keys, units)));
                return blocks;
            }
            blocks.push(Block::Table(meanings(path, keys)));
            for number in 1..=*count {
                let group: Vec<Blank> = keys.iter().map(|key| blank(path, key, units)).collect();
                let head = Heading::new(capital(&format!("{name} {number}"))).minor();
                blocks.extend(whole(vec![Block::Heading(head), Block::Blanks(group)]));
            }
            blocks
        }
        Ask::Pairs { path, key, name, heads, beside, pairs, count } => {
            let mut head = heading(path);
            if beside.is_none() {
                let says = about(path, key);
                head = Heading::new(capital(says.says))
                    .aside(Text::code(format!("{key} = {}", says.example)));
            }
            let mut blocks = vec![Block::Heading(head)];
            let length = unit_of("0", units);
            let told: Vec<&str> = beside.iter().chain([key]).copied().collect();
            if beside.is_some() {
                blocks.push(Block::Table(meanings(path, &told)));
            }
            for number in 1..=*count {
                let mut list = Vec::new();
                if let Some(beside) = beside {
                    let head = Heading::new(capital(&format!("{name} {number}"))).minor();
                    list.push(Block::Heading(head));
                    list.push(Block::Blanks(vec![blank(path, beside, units)]));
                }
                list.push(Block::Table(pair_table(*heads, *pairs, &length)));
                blocks.extend(whole(list));
            }
            blocks
        }
    }
}

/// Blocks that stay on one page.
fn whole(blocks: Vec<Block>) -> [Block; 2] {
    // The empty height ends their company with what comes next.
    [Block::WithNext(blocks), Block::Space(0.0)]
}

/// Keys of one table, a row each with its blank.
fn rows(path: &str, names: &[&str], units: LengthUnit) -> Table {
    Table {
        columns: vec![
            TableColumn::left("key"),
            TableColumn::left("what it tells").width(ColumnWidth::AtMost(62.0)),
            TableColumn::left("written as").width(ColumnWidth::AtMost(42.0)),
            TableColumn::left("measured or read").width(ColumnWidth::Mm(50.0)),
        ],
        rows: names
            .iter()
            .map(|name| {
                let key = about(path, name);
                Row::new(vec![
                    Cell::Head(Text::code(key.name)),
                    key.says.into(),
                    Text::code(written(&key)).into(),
                    Cell::Blank(unit(&key, units)),
                ])
            })
            .collect(),
        ..Table::default()
    }
}

/// The keys of blanks that come several times, told once.
fn meanings(path: &str, names: &[&str]) -> Table {
    Table {
        columns: vec![
            TableColumn::left("key"),
            TableColumn::left("what it tells").width(ColumnWidth::AtMost(80.0)),
            TableColumn::left("written as").width(ColumnWidth::AtMost(60.0)),
        ],
        rows: names
            .iter()
            .map(|name| {
                let key = about(path, name);
                Row::new(vec![
                    Cell::Head(Text::code(key.name)),
                    key.says.into(),
                    Text::code(written(&key)).into(),
                ])
            })
            .collect(),
        ..Table::default()
    }
}

/// A long example is cut: the form shows how a value looks, not a whole table.
fn written(key: &Key) -> String {
    const MOST: usize = 34;
    if key.example.chars().count() <= MOST {
        return key.example.to_owned();
    }
    let cut: String = key.example.chars().take(MOST).collect();
    let end = cut.rfind([' ', ',']).unwrap_or(cut.len());
    format!("{} …", cut[..end].trim_end_matches([',', ' ']))
}

fn blank(path: &str, name: &str, units: LengthUnit) -> Blank {
    let key = about(path, name);
    let unit = unit(&key, units);
    if unit.is_empty() && key.example.starts_with('"') {
        Blank::of(BlankWidth::Long, Text::code(key.name).in_bold())
    } else {
        Blank::value(Text::code(key.name).in_bold(), unit)
    }
}

/// Pairs of place and reading, two to a row.
fn pair_table(heads: [&str; 2], pairs: usize, unit: &str) -> Table {
    let column = |head: &str| TableColumn::left(head.to_owned()).width(ColumnWidth::Mm(42.0));
    let cell = || Cell::Blank(unit.to_owned());
    Table {
        columns: [heads, heads].concat().into_iter().map(column).collect(),
        rows: (0..pairs.div_ceil(2))
            .map(|_| Row::new(vec![cell(), cell(), cell(), cell()]))
            .collect(),
        ..Table::default()
    }
}

/// Unit of a key's value, by its example.
fn unit(key: &Key, units: LengthUnit) -> String {
    if COUNTS.contains(&key.name) { String::new() } else { unit_of(key.example, units) }
}

/// "mm" of `1040`, "kg" of `"6.4 kg"`, nothing of words; in the units of the form.
fn unit_of(example: &str, units: LengthUnit) -> String {
    let inch = units == LengthUnit::Inch;
    if example.parse::<f64>().is_ok() {
        return if inch { "in".into() } else { "mm".into() };
    }
    let inner = example.strip_prefix('"').and_then(|rest| rest.strip_suffix('"'));
    let Some(inner) = inner else { return String::new() };
    let number = inner.trim_start_matches(|c: char| c.is_ascii_digit() || "-.".contains(c));
    let unit = number.trim();
    // What began with no number is words; a date or a clock has no unit.
    let is_unit =
        inner.len() > number.len() && unit.chars().all(|c| c.is_alphabetic() || "°%/".contains(c));
    if !is_unit {
        return String::new();
    }
    match (unit, inch) {
        ("mm", true) => "in".into(),
        ("m", true) => "ft".into(),
        ("kg", true) => "lb".into(),
        ("km/h", true) => "mph".into(),
        ("°C", true) => "°F".into(),
        (same, _) => same.into(),
    }
}
