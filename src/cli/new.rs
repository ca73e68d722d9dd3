//! `new`: a build file to start from, with a few answers of its reader in it.

use super::args::{New, Own, TapeUnits};
use super::fault::Fault;
use super::starts::{self, STARTS, Start};
use super::{Ended, output, pipeline, say};
use crate::read;
use crate::source::{Finding, Text};
use crate::tables::Tables;
use std::io::{BufRead, IsTerminal, Write};
use std::path::{Path, PathBuf};

/// By this file, named in its first line, editors complete and check a build file.
const SCHEMA: &str = "rungsheet.schema.json";

/// What is asked, and where the answer goes.
struct Question {
    table: &'static str,
    key: &'static str,
    asks: &'static str,
    /// A bare number is meant as one.
    number: bool,
}

const fn text(table: &'static str, key: &'static str, asks: &'static str) -> Question {
    Question { table, key, asks, number: false }
}

const fn number(table: &'static str, key: &'static str, asks: &'static str) -> Question {
    Question { table, key, asks, number: true }
}

const QUESTIONS: &[Question] = &[
    text("job", "title", "Title of the packet, at most 25 characters"),
    text("vehicle", "name", "What is the vehicle, in your own words?"),
    number("vehicle", "height", "How high is it today, from the ground to its highest point?"),
    number("vehicle", "speed", "What is the highest speed that it is driven at?"),
    text("crew", "start", "First day of work, year first"),
];

/// Asks, writes, and tells how to go on.
pub fn new(options: &New) -> Result<(), Ended> {
    if options.list {
        let lines: Vec<String> =
            STARTS.iter().map(|start| format!("{:10} {}\n", start.name, start.says)).collect();
        let list = lines.concat();
        output::write(None, list.as_bytes())?;
        return Ok(());
    }
    // What is in the way is told before anything is asked.
    if let Some(path) = &options.file {
        keep(path, options.replace)?;
    }
    let mut asker = Asker::new(options);
    let start = asker.start(options.start.as_deref())?;
    let inches = match options.units {
        Some(units) => units == TapeUnits::In,
        None => asker.inches()?,
    };
    let issue = options.date.clone().unwrap_or_else(today);
    let text = if inches {
        starts::in_inches(start.text, &read::known(Tables::builtin()))
    } else {
        start.text.to_owned()
    };
    let mut text = starts::put(&text, "job", "date", &starts::quoted(&issue));
    text = starts::put(&text, "crew", "start", &starts::quoted(&next_week(&issue)));
    if let Some(finding) = wrong(&text, "job", "date") {
        return Err(refused("--date".into(), finding).into());
    }
    for question in QUESTIONS {
        let given = match question.key {
            "title" => options.title.as_deref(),
            "name" => options.vehicle.as_deref(),
            "height" => options.height.as_deref(),
            "speed" => options.speed.as_deref(),
            _ => options.begin.as_deref(),
        };
        text = asker.answer(question, given, text)?;
    }
    let path = match &options.file {
        Some(path) => path.clone(),
        None => PathBuf::from(format!("{}.toml", start.name)),
    };
    keep(&path, options.replace)?;
    output::write(Some(&path), text.as_bytes())?;
    let schema = path.with_file_name(SCHEMA);
    if path != Path::new("-") && !schema.exists() {
        let known = read::known(Tables::builtin());
        output::write(Some(&schema), super::schema::written(&known).as_bytes())?;
    }
    if path == Path::new("-") {
        return Ok(());
    }
    let shown = path.display().to_string();
    let loaded =
        pipeline::run(&shown, &path, text.into_bytes(), (&Own::default(), pipeline::For::Figures))?;
    let name = path.display();
    eprintln!("{name} is written ({}: {}).", start.name, start.says);
    if loaded.stopped() {
        eprintln!(
            "With these answers it has {}: `rungsheet check {name}` tells them.",
            say::tally(&loaded)
        );
    } else {
        eprintln!("It prints as it stands: rungsheet print {name}");
    }
    eprintln!("Editors complete and check it by {SCHEMA} beside it.");
    eprintln!(
        "Put your own numbers in the place of the examples, and check: rungsheet check {name}"
    );
    Ok(())
}

/// Refuses to write over what is there.
fn keep(path: &Path, replace: bool) -> Result<(), Fault> {
    if path != Path::new("-") && path.exists() && !replace {
        return Err(Fault::Exists(path.to_owned()));
    }
    Ok(())
}

/// Asks on the terminal, or takes lines; once there are none, the usual answers stand.
struct Asker {
    asks: bool,
    terminal: bool,
}

impl Asker {
    fn new(options: &New) -> Self {
        Self { asks: !options.usual, terminal: std::io::stdin().is_terminal() }
    }

    /// One line; nothing where the usual answer is wanted.
    fn line(&mut self, question: &str, usual: &str) -> Option<String> {
        if !self.asks {
            return None;
        }
        if self.terminal {
            eprint!("{question}\n  [{usual}] ");
            let _ = std::io::stderr().flush();
        }
        let mut line = String::new();
        match std::io::stdin().lock().read_line(&mut line) {
            Ok(0) | Err(_) => {
                self.asks = false;
                None
            }
            Ok(_) => Some(line.trim().to_owned()).filter(|line| !line.is_empty()),
        }
    }

    fn start(&mut self, given: Option<&str>) -> Result<&'static Start, Fault> {
        if let Some(given) = given {
            return starts::start(given).ok_or_else(|| unknown(given));
        }
        let mut question = String::from("Which of these is nearest to your job?");
        for (index, start) in STARTS.iter().enumerate() {
            let line = format!("\n  {} {:10} {}", index + 1, start.name, start.says);
            question.push_str(&line);
        }
        loop {
            let Some(line) = self.line(&question, STARTS[0].name) else { return Ok(&STARTS[0]) };
            match starts::start(&line) {
                Some(start) => return Ok(start),
                None if self.terminal => eprintln!("  {}", unknown(&line)),
                None => return Err(unknown(&line)),
            }
        }
    }

    /// Whether the tape measure has inches.
    fn inches(&mut self) -> Result<bool, Fault> {
        loop {
            match self.line("Does your tape measure have mm or in?", "mm").as_deref() {
                None | Some("mm") => return Ok(false),
                Some("in") => return Ok(true),
                Some(other) => {
                    let why = format!("{other} is neither mm nor in");
                    if !self.terminal {
                        return Err(Fault::Answer("--units".into(), why));
                    }
                    eprintln!("  {why}");
                }
            }
        }
    }

    /// The text with the answer to a question in it, if its start has that question.
    fn answer(
        &mut self,
        question: &Question,
        given: Option<&str>,
        text: String,
    ) -> Result<String, Fault> {
        let Some(place) = starts::place(&text, question.table, question.key) else {
            return Ok(text);
        };
        let told = format!("--{}", flag(question));
        let put = |answer: &str| {
            let bare = question.number && answer.parse::<f64>().is_ok();
            let value = if bare { answer.to_owned() } else { starts::quoted(answer) };
            let text = starts::put(&text, question.table, question.key, &value);
            match wrong(&text, question.table, question.key) {
                Some(finding) => Err(finding),
                None => Ok(text),
            }
        };
        if let Some(given) = given {
            return put(given).map_err(|finding| refused(told, finding));
        }
        let usual = text[place].trim_matches('"').to_owned();
        loop {
            let Some(line) = self.line(question.asks, &usual) else { return Ok(text) };
            match put(&line) {
                Ok(text) => return Ok(text),
                Err(finding) if self.terminal => {
                    eprintln!("  {}", finding.message);
                    for help in &finding.helps {
                        eprintln!("  {help}");
                    }
                }
                Err(finding) => return Err(refused(told, finding)),
            }
        }
    }
}

fn refused(flag: String, finding: Finding) -> Fault {
    let words: Vec<String> = std::iter::once(finding.message).chain(finding.helps).collect();
    Fault::Answer(flag, words.join("; "))
}

fn flag(question: &Question) -> &'static str {
    match question.key {
        "name" => "vehicle",
        "start" => "begin",
        key => key,
    }
}

fn unknown(start: &str) -> Fault {
    let names: Vec<&str> = STARTS.iter().map(|start| start.name).collect();
    Fault::Answer(
        "--start".into(),
        format!("no start is named {start}; write {}", names.join(", ")),
    )
}

/// What the reader of build files says of one value.
fn wrong(text: &str, table: &str, key: &str) -> Option<Finding> {
    let place = starts::place(text, table, key)?;
    let (_, findings) = read::read(&Text::new("answers", text), Tables::builtin());
    findings.into_iter().find(|finding| {
        finding.primary.is_some_and(|at| at.start() < place.end && place.start < at.end())
    })
}

/// The date by the clock, in Greenwich.
fn today() -> String {
    let seconds = std::time::SystemTime::now()
        .duration_since(std::time::UNIX_EPOCH)
        .map_or(0, |since| since.as_secs());
    let days = i32::try_from(seconds / 86_400).unwrap_or(0);
    later(jiff::civil::date(1970, 1, 1), days)
}

/// The Saturday after the coming one, so that there is time to buy what is needed.
fn next_week(issue: &str) -> String {
    let Ok(date) = issue.parse::<jiff::civil::Date>() else { return issue.to_owned() };
    let to_saturday = 6 - i32::from(date.weekday().to_monday_one_offset()).rem_euclid(7);
    later(date, 7 + to_saturday.rem_euclid(7))
}

fn later(date: jiff::civil::Date, days: i32) -> String {
    use jiff::ToSpan;
    date.checked_add(days.days()).unwrap_or(date).to_string()
}
