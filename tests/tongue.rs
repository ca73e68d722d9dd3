//! The table of another language against what is printed.

use crate::support;
use rungsheet::build::{LengthUnit, Paper};
use rungsheet::page::block::Block;
use rungsheet::page::{Packet, Problem, ProblemKind};
use rungsheet::read::keys;
use rungsheet::sheets;
use rungsheet::sheets::compare::{Side, change_sheet, compare};
use rungsheet::source::Stated;
use rungsheet::tongue::{Missing, Pattern, Table, Teller, own_words};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Packets of all examples on both papers, each with the words of its build file.
fn packets() -> Vec<(Packet, BTreeSet<String>)> {
    static MADE: LazyLock<Vec<(Packet, BTreeSet<String>)>> = LazyLock::new(made);
    MADE.clone()
}

fn made() -> Vec<(Packet, BTreeSet<String>)> {
    let mut packets = Vec::new();
    for path in files(&root().join("examples"), "toml") {
        let text = std::fs::read_to_string(&path).expect("an example is text");
        let own = own_words(&text);
        for paper in [Paper::A4, Paper::Letter] {
            let made = support::worked_with(&text, |build| {
                build.job.paper = Stated::default_of(paper, "asked for by the test");
            });
            packets.push((sheets::packet(&made.basis()), own.clone()));
        }
    }
    packets
}

/// Every string that stands in a build file.
fn written(table: &toml::Table, own: &mut BTreeSet<String>) {
    fn strings(value: &toml::Value, own: &mut BTreeSet<String>) {
        match value {
            toml::Value::String(words) => {
                own.insert(words.clone());
            }
            toml::Value::Array(all) => all.iter().for_each(|one| strings(one, own)),
            toml::Value::Table(table) => table.values().for_each(|one| strings(one, own)),
            _ => {}
        }
    }
    table.values().for_each(|one| strings(one, own));
}

fn files(folder: &Path, end: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the folder can be listed") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            found.extend(files(&path, end));
        } else if path.extension().is_some_and(|e| e == end) {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// The German rows as they stand in their files.
fn german() -> Table {
    let folder = root().join("templates/words/de");
    let read = |path: PathBuf| {
        let name = path.file_name().expect("a file").to_string_lossy().into_owned();
        (name, std::fs::read_to_string(&path).expect("rows are text"))
    };
    let texts: Vec<(String, String)> = files(&folder, "toml").into_iter().map(read).collect();
    let named: Vec<(&str, &str)> =
        texts.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    Table::new("de", ',', &named).unwrap_or_else(|faults| {
        panic!("{}", faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))
    })
}

/// The program has the very rows that stand in the files.
#[test]
fn all_files_of_rows_are_embedded() {
    let embedded = Table::german();
    let files = german();
    let rows = |table: &Table| table.english().map(str::to_owned).collect::<BTreeSet<_>>();
    assert_eq!(rows(&embedded), rows(&files), "a file is missing in src/tongue/table.rs");
}

/// What is printed beside the packet itself: hand-over sheets, forms to measure by, sheets of changes.
fn other_packets() -> Vec<(Packet, BTreeSet<String>)> {
    let mut packets = Vec::new();
    for (units, paper) in [
        (LengthUnit::Millimetre, rungsheet::page::Paper::A4),
        (LengthUnit::Inch, rungsheet::page::Paper::Letter),
    ] {
        let forms = sheets::survey::survey(&[], units, paper).expect("all forms");
        packets.push((forms, sheets::survey::own_words()));
    }
    for path in files(&root().join("examples"), "toml") {
        let text = std::fs::read_to_string(&path).expect("an example is text");
        let own = own_words(&text);
        let made = support::worked_with(&text, |_| {});
        let basis = made.basis();
        let whole = sheets::packet(&basis);
        for step in &made.results.steps.steps {
            let mut packet = whole.clone();
            sheets::handover::hand_over(&mut packet, &basis, step, false);
            packets.push((packet, own.clone()));
        }
    }
    // Sheets of changes, from each example to the next: nearly all that can be told of a change.
    let mut before: Option<support::Worked> = None;
    for path in files(&root().join("examples"), "toml") {
        let text = std::fs::read_to_string(&path).expect("an example is text");
        let made = support::worked_with(&text, |_| {});
        if let Some(before) = &before {
            let (old, new) = (before.basis(), made.basis());
            let packets_of = [sheets::packet(&old), sheets::packet(&new)];
            let [one, two] = &packets_of;
            let documents = packets_of.each_ref().map(|one| rungsheet::page::lay_out(one).0);
            let old = Side { basis: &old, packet: one, document: &documents[0] };
            let new = Side { basis: &new, packet: two, document: &documents[1] };
            let sheet = change_sheet(&compare(&old, &new));
            let mut own = own_words(&text);
            own.extend(own_words(before.text.contents()));
            packets.push((Packet { sheets: vec![sheet], ..two.clone() }, own));
        }
        before = Some(made);
    }
    // Any key may be among the changes.
    let mut keys = packets.last().expect("there are examples").0.clone();
    let says = keys::tables().flat_map(|table| table.keys).map(|key| key.says);
    keys.sheets.truncate(1);
    keys.subject.clear();
    keys.sheets[0].blocks = says.map(|says| Block::Paragraph(says.into())).collect();
    packets.push((keys, BTreeSet::new()));
    packets
}

/// What the words of a file are about, for whoever translates.
fn topic(path: &Path) -> &'static str {
    let path = path.strip_prefix(root()).expect("it is in the project").to_string_lossy();
    let starts = |of: &[&str]| of.iter().any(|start| path.starts_with(start));
    if starts(&["templates/steps", "templates/safety"]) {
        "steps"
    } else if starts(&["src/compute", "src/derive", "src/tables", "src/build", "templates/tables"])
    {
        "worked"
    } else if starts(&["src/read/codes", "src/findings"]) {
        "findings"
    } else if starts(&["src/page", "src/sheets/survey", "src/sheets/record", "src/read"]) {
        "furniture"
    } else {
        "sheets"
    }
}

/// Patterns of every string in the source and the templates, with the topic of the first file that
/// has it.
fn catalogue() -> BTreeMap<String, &'static str> {
    let mut patterns = BTreeMap::new();
    for folder in ["templates/steps", "templates/safety", "templates/tables", "src"] {
        let end = if folder == "src" { "rs" } else { "toml" };
        for path in files(&root().join(folder), end) {
            if path.starts_with(root().join("src/cli")) {
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("it is text");
            let strings = if end == "rs" {
                literals(&text)
            } else {
                let mut all = BTreeSet::new();
                written(&text.parse().expect("a template is TOML"), &mut all);
                all.into_iter().collect()
            };
            for string in strings {
                let pattern = holed(&string);
                let letters = Pattern::new(&pattern).weight();
                let apart = !pattern.contains("{}{}") && !pattern.contains(char::is_control);
                if letters >= 2 && apart && pattern.chars().any(char::is_alphabetic) {
                    patterns.entry(pattern).or_insert(topic(&path));
                }
            }
        }
    }
    patterns
}

/// A format string or a text of a template as a pattern: `{name:.1}` is a hole.
fn holed(string: &str) -> String {
    let mut pattern = String::new();
    let mut rest = string.trim();
    while let Some(next) = rest.chars().next() {
        let escaped = ["{{", "}}"].iter().find(|sign| rest.starts_with(**sign));
        if let Some(sign) = escaped {
            pattern.push_str(&sign[..1]);
            rest = &rest[2..];
        } else if next == '{'
            && let Some(end) = rest.find('}')
        {
            pattern.push_str("{}");
            rest = &rest[end + 1..];
        } else {
            pattern.push(next);
            rest = &rest[next.len_utf8()..];
        }
    }
    pattern
}

/// The string literals of a source file, comments left out.
fn literals(source: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut chars = source.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '/' if chars.peek() == Some(&'/') => {
                for c in chars.by_ref() {
                    if c == '\n' {
                        break;
                    }
                }
            }
            // The character literal of a quote.
            '\'' if chars.peek() == Some(&'"') => {
                chars.next();
            }
            '"' => {
                let mut words = String::new();
                while let Some(c) = chars.next() {
                    match c {
                        '"' => break,
                        '\\' => match chars.next() {
                            Some('\n') => {
                                while chars.peek().is_some_and(|c| c.is_whitespace()) {
                                    chars.next();
                                }
                            }
                            Some('n') => words.push('\n'),
                            Some('u') => {
                                let code: String =
                                    chars.by_ref().skip(1).take_while(|c| *c != '}').collect();
                                words.extend(
                                    u32::from_str_radix(&code, 16).ok().and_then(char::from_u32),
                                );
                            }
                            Some(c) => words.push(c),
                            None => {}
                        },
                        c => words.push(c),
                    }
                }
                found.push(words);
            }
            _ => {}
        }
    }
    found
}

/// The words as a basic string of TOML.
fn quoted(words: &str) -> String {
    let escaped = words.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n");
    format!("\"{}\"", escaped.replace('\t', "\\t"))
}

/// A row that can't be used, or whose English text is said nowhere, would never be missed.
#[test]
fn every_german_row_is_of_use() {
    let german = german();
    let known = catalogue();
    let plain: BTreeSet<String> = known.keys().cloned().collect();
    // Kinds of holes are the translator's own; parts of a text may have a row of their own.
    let said = |row: &str| {
        let open = row.replace("{n}", "{}").replace("{q}", "{}").replace("{m}", "{}");
        plain.contains(&open) || plain.iter().any(|pattern| pattern.contains(&open))
    };
    // A text that no one string makes is said by a packet.
    let mut used = BTreeSet::new();
    if german.english().any(|row| !said(row)) {
        for (mut packet, own) in packets().into_iter().chain(other_packets()) {
            let mut teller = Teller::new(&german, &own);
            packet.each_text(&mut |text| {
                teller.tell(text);
            });
            used.extend(teller.used().iter().map(|&row| row.to_owned()));
        }
    }
    let dead: Vec<&str> =
        german.english().filter(|row| !said(row) && !used.contains(*row)).collect();
    assert!(dead.is_empty(), "no source and no packet says this any more:\n{}", dead.join("\n"));
}

/// What is written in a build file stays, and every hole is filled.
#[test]
fn a_packet_in_german_keeps_its_own_words() {
    let german = german();
    for (mut packet, own) in packets() {
        let title = packet.identity.title.clone();
        let missing = rungsheet::tongue::retell(&mut packet, &german, &own);
        assert_eq!((packet.language.as_str(), &packet.identity.title), ("de", &title));
        assert_eq!(packet.subject, format!("Arbeitsmappe: {title}"));
        assert!(missing.is_disjoint(&own), "its own words are not missing");
        packet.each_text(&mut |text| assert!(!text.contains("{1}"), "{text}"));
    }
}

/// `REWRITE=1` writes `target/tongue/TOPIC.toml`: the patterns that have no German yet, in the form of
/// the table with empty words, and `unmatched.txt`: texts that no one string of the source makes.
#[test]
fn patterns_to_translate_can_be_listed() {
    let known = catalogue();
    let mut rows = String::new();
    for pattern in known.keys() {
        let holes: String = (1..=Pattern::new(pattern).holes())
            .fold(String::new(), |all, hole| format!("{all} {{{hole}}}"));
        let words = format!("x{holes}");
        writeln!(rows, "{} = {}", quoted(pattern), quoted(&words)).expect("a String takes it");
    }
    let source = Table::new("en", '.', &[("source", &rows)]).expect("patterns are sound rows");
    let german = german();
    let (mut used, mut unmatched, mut without) =
        (BTreeSet::new(), BTreeSet::new(), BTreeSet::new());
    let mut texts = BTreeMap::new();
    for (mut packet, own) in packets().into_iter().chain(other_packets()) {
        let mut teller = Teller::new(&source, &own);
        let mut spoken = Teller::new(&german, &own);
        packet.each_text(&mut |text| {
            let before = spoken.missing().len();
            let told = spoken.tell(text).unwrap_or_default();
            let lost = spoken.missing().len() > before;
            texts.insert(text.clone(), told);
            if lost {
                without.insert(text.clone());
                teller.tell(text);
            }
        });
        used.extend(teller.used().iter().map(|&pattern| pattern.to_owned()));
        unmatched.extend(teller.missing().iter().cloned());
    }
    let done: BTreeSet<String> = german
        .english()
        .map(|row| row.replace("{n}", "{}").replace("{q}", "{}").replace("{m}", "{}"))
        .collect();
    let mut topics: BTreeMap<&str, String> = BTreeMap::new();
    for pattern in used.iter().filter(|pattern| !done.contains(*pattern)) {
        let list = topics.entry(known[pattern]).or_default();
        writeln!(list, "{} = \"\"", quoted(pattern)).expect("a String takes it");
    }
    assert!(used.len() > 500 || german.english().count() > 500, "the source's strings are found");
    if std::env::var_os("REWRITE").is_some() {
        let folder = root().join("target/tongue");
        std::fs::create_dir_all(&folder).expect("a folder for lists");
        for (topic, list) in topics {
            std::fs::write(folder.join(format!("{topic}.toml")), list).expect("a list is written");
        }
        let mut told = String::new();
        for (english, german) in &texts {
            writeln!(told, "{}\t{}", quoted(english), quoted(german)).expect("a String takes it");
        }
        std::fs::write(folder.join("told.tsv"), told).expect("a list is written");
        let texts: Vec<String> = without.iter().cloned().collect();
        std::fs::write(folder.join("without.txt"), texts.join("\n")).expect("a list is written");
        let texts: Vec<String> = unmatched.into_iter().collect();
        std::fs::write(folder.join("unmatched.txt"), texts.join("\n")).expect("a list is written");
    }
    assert!(without.is_empty(), "these have no German words:\n{without:#?}");
}

/// Words that the layout itself sets have rows too: nothing of it stays English.
#[test]
fn the_layout_speaks_german() {
    let german = german();
    let missing: Arc<Mutex<Missing>> = Arc::default();
    for (packet, own) in packets().into_iter().take(4) {
        let mut packet = packet;
        rungsheet::tongue::retell(&mut packet, &german, &own);
        packet.voice = rungsheet::tongue::voice(&german, Arc::clone(&missing));
        packet.duplex = true;
        packet.draft = Some(String::new());
        let (document, _) = rungsheet::page::lay_out(&packet);
        assert_eq!((document.language.as_str(), document.faults()), ("de", vec![]));
    }
    let missing = missing.lock().expect("nobody panicked");
    assert!(missing.is_empty(), "the layout says this in English:\n{missing:#?}");
}

/// Longer words fit: in German nothing of a packet is cut, left out or set in another place than in English.
#[test]
fn german_words_have_room() {
    let german = german();
    let mut found = Vec::new();
    // Of each example one paper, by turns.
    let one_of_two = packets().into_iter().enumerate().filter(|(at, _)| (at / 2 + at) % 2 == 0);
    for (_, (packet, own)) in one_of_two {
        let (_, before) = rungsheet::page::lay_out(&packet);
        let mut packet = packet;
        rungsheet::tongue::retell(&mut packet, &german, &own);
        let (document, problems) = rungsheet::page::lay_out(&packet);
        assert!(document.faults().is_empty());
        let title = packet.identity.title.clone();
        let known = |one: &Problem| {
            before.iter().any(|was| (&was.sheet, was.kind) == (&one.sheet, one.kind))
        };
        // A drawing beside longer words may have no room at a scale of the list; it says so itself.
        let told = |one: &Problem| one.kind == ProblemKind::NoScale;
        let new = problems.iter().filter(|one| !known(one) && !told(one));
        found.extend(new.map(|one| format!("{title}, {:?}: {one}", packet.paper)));
    }
    assert!(found.is_empty(), "{found:#?}");
}
