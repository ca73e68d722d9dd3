//! Templates of the reader's own: they take the place of ours of the same key, or come beside them.

use super::place::{self, At};
use super::{FILES, LIMITS, LineRow, Template, Templates, WORDS};
use crate::compute::steps::facts::Facts;
use crate::compute::steps::{Steps, fill, safety, words};
use crate::source::Span;
use std::collections::BTreeSet;
use toml::de::DeTable;

/// More wrong keys of one file are not told in one run.
const MOST_KEYS: usize = 20;

/// A step that comes from a file of the reader's own.
#[derive(Debug, Clone)]
pub struct Own {
    /// Name of the step.
    pub key: String,
    /// Which of the files.
    pub file: usize,
    /// Its text.
    text: String,
}

/// What is wrong with such a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TemplateFault {
    /// Which of the files.
    pub file: usize,
    /// Where in it.
    pub span: Span,
    /// What it is.
    pub message: String,
    /// What to change.
    pub help: String,
}

/// Faults of one file, as they are found.
struct Faults<'a> {
    file: usize,
    tree: &'a DeTable<'a>,
    all: &'a mut Vec<TemplateFault>,
}

impl Faults<'_> {
    fn push(&mut self, path: &[At<'_>], message: String, help: impl Into<String>) {
        let span = place::span(self.tree, path);
        self.all.push(TemplateFault { file: self.file, span, message, help: help.into() });
    }
}

impl Templates {
    /// Ours with the reader's own, given as the names and texts of their files, and all that is wrong
    /// with these. A file that can't be read as a step leaves ours as it is.
    pub fn with(files: &[(String, String)]) -> (Self, Vec<TemplateFault>) {
        let mut all = Self::builtin().clone();
        let mut faults = Vec::new();
        for (file, (name, text)) in files.iter().enumerate() {
            if let Some((_, ours)) = [LIMITS, WORDS].iter().find(|(known, _)| known == name) {
                if text != ours {
                    faults.push(TemplateFault {
                        file,
                        span: Span::NONE,
                        message: "limits of workmanship and verbs are the same for all steps"
                            .into(),
                        help:
                            "take the file out; write a limit of your own into `done` of its line"
                                .into(),
                    });
                }
                continue;
            }
            let Some(template) = read(file, text, &mut faults) else { continue };
            let (tree, _) = DeTable::parse_recoverable(text);
            let mut here = Faults { file, tree: tree.get_ref(), all: &mut faults };
            if let Some(first) = all.own.iter().find(|own| own.key == template.key) {
                let message =
                    format!("the step `{}` is in {} too", template.key, files[first.file].0);
                here.push(&[At::Key("key")], message, "give one of them another `key`");
                continue;
            }
            all.own.push(Own { key: template.key.clone(), file, text: text.clone() });
            match all.steps.iter_mut().find(|known| known.key == template.key) {
                Some(known) => {
                    kept(known, &template, &mut here);
                    *known = template;
                }
                None => all.steps.push(template),
            }
        }
        all.steps.sort_by_key(|template| template.order);
        for own in &all.own {
            let (tree, _) = DeTable::parse_recoverable(&own.text);
            let mut here = Faults { file: own.file, tree: tree.get_ref(), all: &mut faults };
            sound(&own.key, &all, &mut here);
        }
        (all, faults)
    }

    /// Whether a step comes from a file of the reader's own.
    pub fn is_own(&self, key: &str) -> bool {
        self.own.iter().any(|own| own.key == key)
    }

    /// What comes to light once the reader's own are filled in: names that nothing fills, and words that
    /// what fills them makes too many.
    pub fn filled_in(&self, steps: &Steps) -> Vec<TemplateFault> {
        let mut faults = Vec::new();
        for own in &self.own {
            let Some(template) = self.step(&own.key) else { continue };
            if steps.step(&own.key).is_none_or(|step| step.span.is_some()) {
                continue;
            }
            for gap in steps.missing.iter().filter(|gap| gap.template == own.key) {
                let braced = own.text.find(&format!("{{{}", gap.name)).map(|at| at + 1);
                let quoted = || own.text.find(&format!("\"{}\"", gap.name)).map(|at| at + 1);
                let found = |name: &str| own.text.find(name);
                let start = braced.or_else(quoted).or_else(|| found(&gap.name)).unwrap_or(0);
                faults.push(TemplateFault {
                    file: own.file,
                    span: Span::new(start, start + gap.name.len()),
                    message: format!("this build has nothing named `{}`", gap.name),
                    help: nearest(&gap.name, &steps.facts.names()).map_or_else(
                        || "name what the build has, or guard the line with `when`".to_owned(),
                        |near| {
                            format!("the nearest name is `{near}`; or guard the line with `when`")
                        },
                    ),
                });
            }
            let (tree, _) = DeTable::parse_recoverable(&own.text);
            let mut here = Faults { file: own.file, tree: tree.get_ref(), all: &mut faults };
            for (row, line) in template.line.iter().enumerate() {
                filled_line(&own.key, line, row, &steps.facts, &mut here);
            }
        }
        faults
    }
}

/// The words of an action with its facts in place.
fn filled_line(key: &str, line: &LineRow, row: usize, facts: &Facts, faults: &mut Faults<'_>) {
    let Some(action) = line.action.as_ref().filter(|text| text.contains('{')) else { return };
    if !facts.holds(&line.when) {
        return;
    }
    let rows = line.each.as_ref().map(|list| facts.rows(list).unwrap_or_default());
    let items = rows.map_or_else(|| vec![None], |rows| rows.iter().map(Some).collect());
    let before = words::faults(action);
    for item in items {
        let mut missing = Vec::new();
        let told = fill::fill(action, facts, item, key, &mut missing);
        let faults_of = words::faults(&told);
        // What was wrong before, and what has a gap, is told already.
        let new = faults_of.iter().find(|fault| !before.contains(fault));
        if let Some(fault) = new.filter(|_| missing.is_empty()) {
            let path = [At::Key("line"), At::Row(row), At::Key("action")];
            faults.push(&path, format!("“{told}”: {fault}"), WORDS_HELP);
            return;
        }
    }
}

const WORDS_HELP: &str =
    "write one sentence of at most 20 words, its verb first, and make two lines of two actions";

/// The template in a text. Wrong keys are told all in one run.
fn read(file: usize, text: &str, faults: &mut Vec<TemplateFault>) -> Option<Template> {
    let mut left = text.to_owned();
    for _ in 0..MOST_KEYS {
        let error = match toml::from_str::<Template>(&left) {
            Ok(template) => return Some(template),
            Err(error) => error,
        };
        let bytes = error.span().unwrap_or_default();
        let (message, help) = reworded(error.message());
        let span = Span::new(bytes.start, bytes.end);
        faults.push(TemplateFault { file, span, message, help });
        let (tree, _) = DeTable::parse_recoverable(&left);
        let unknown = error.message().starts_with("unknown field");
        let value = place::value_of(tree.get_ref(), &bytes).filter(|_| unknown)?;
        // With spaces in its place, what comes after it is where it was.
        let blank: String = left[bytes.start..value.end]
            .chars()
            .flat_map(|letter| {
                std::iter::repeat_n(if letter == '\n' { letter } else { ' ' }, letter.len_utf8())
            })
            .collect();
        left.replace_range(bytes.start..value.end, &blank);
    }
    None
}

/// What the reader of the file said, in words of the workshop, and what to change.
fn reworded(told: &str) -> (String, String) {
    let mut quoted = told.split('`').skip(1).step_by(2);
    let known = || told.split('`').skip(3).step_by(2).collect::<Vec<_>>();
    match quoted.next() {
        Some(name) if told.starts_with("unknown field") => {
            let help = match strsim_nearest(name, &known()) {
                Some(near) => format!("the nearest key is `{near}`"),
                None => "take it out".to_owned(),
            };
            (format!("`{name}` is no key here"), help)
        }
        Some(name) if told.starts_with("unknown variant") => {
            (format!("`{name}` is no choice here"), format!("write one of {}", known().join(", ")))
        }
        Some(name) if told.starts_with("missing field") => {
            (format!("`{name}` is missing"), format!("add a line `{name} = …`"))
        }
        Some(name) if told.starts_with("duplicate") => {
            (format!("`{name}` is there twice"), "take one of them out".to_owned())
        }
        _ => (
            told.trim_end().replace('\n', "; "),
            "the files in `templates/steps` of the source show how each key is written".to_owned(),
        ),
    }
}

/// The name that is nearest by its letters.
fn strsim_nearest<'a>(name: &str, known: &[&'a str]) -> Option<&'a str> {
    let near = known.iter().min_by_key(|known| strsim::osa_distance(known, name))?;
    (strsim::osa_distance(near, name) <= name.chars().count() / 2).then_some(near)
}

fn nearest<'a>(name: &str, known: &[&'a str]) -> Option<&'a str> {
    strsim_nearest(name, known)
}

/// A step of ours keeps its hold points and warnings, whatever way it is written.
fn kept(ours: &Template, own: &Template, faults: &mut Faults<'_>) {
    let holds =
        |template: &Template| template.line.iter().filter(|line| line.hold.is_some()).count();
    if holds(own) < holds(ours) {
        let message = format!(
            "the step `{}` has {} of the {} hold points of ours; each stays",
            own.key,
            holds(own),
            holds(ours)
        );
        let missing: Vec<&str> = ours.line.iter().filter_map(|line| line.hold.as_deref()).collect();
        faults.push(&[At::Key("line")], message, format!("ours are: {}", missing.join("; ")));
    }
    for caution in ours.line.iter().filter_map(|line| line.caution.as_ref()) {
        if !own.line.iter().any(|line| line.caution.as_ref() == Some(caution)) {
            faults.push(
                &[At::Key("line")],
                format!("the warning `{caution}` of `{}` is missing", own.key),
                format!("add a line `caution = \"{caution}\"` above the action that it is about"),
            );
        }
    }
}

/// Every name that a template of ours asks for.
fn asked_for() -> BTreeSet<&'static str> {
    let mut all = BTreeSet::new();
    for (_, text) in FILES {
        for name in text.split('{').skip(1).filter_map(|rest| rest.split('}').next()) {
            all.insert(name.trim_end_matches('?'));
        }
    }
    for template in &Templates::builtin().steps {
        let mut add = |names: &'static str| {
            all.extend(names.split_whitespace().map(|name| name.trim_start_matches('!')));
        };
        add(&template.when);
        for line in &template.line {
            add(&line.when);
            add(line.each.as_deref().unwrap_or_default());
        }
        template.ready.iter().for_each(|row| add(&row.when));
        template.weather.iter().for_each(|row| add(&row.when));
        template.time.iter().for_each(|share| add(&share.count));
    }
    all
}

/// What the tests hold of ours, held of the reader's own.
fn sound(key: &str, all: &Templates, faults: &mut Faults<'_>) {
    let Some(template) = all.step(key) else { return };
    let letters = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if !key.chars().all(letters) || key.is_empty() || key.starts_with("own-") {
        faults.push(
            &[At::Key("key")],
            format!("`{key}` is no name for a step"),
            "small letters, digits and hyphens, as in `paint-tubes`; `own-` is taken",
        );
    }
    let same = all.steps.iter().find(|other| other.key != key && other.order == template.order);
    if let Some(other) = same {
        faults.push(
            &[At::Key("order")],
            format!("`order = {}` is that of `{}`", template.order, other.key),
            "take a number between those of the steps before and after it",
        );
    }
    let known = asked_for();
    let unknown = |whens: &str| -> Option<String> {
        let names = whens.split_whitespace().map(|name| name.trim_start_matches('!'));
        names.into_iter().find(|name| !known.contains(name)).map(str::to_owned)
    };
    let when = |path: &[At<'_>], whens: &str, faults: &mut Faults<'_>| {
        if let Some(name) = unknown(whens) {
            let names: Vec<&str> = known.iter().copied().collect();
            let help = strsim_nearest(&name, &names).map_or_else(
                || "take it out".to_owned(),
                |near| format!("the nearest is `{near}`"),
            );
            faults.push(path, format!("no build has anything named `{name}`"), help);
        }
    };
    when(&[At::Key("when")], &template.when, faults);
    for (row, after) in template.after.iter().enumerate() {
        let path = [At::Key("after"), At::Row(row), At::Key("key")];
        match all.step(&after.key) {
            None => faults.push(
                &path,
                format!("there is no step `{}`", after.key),
                "name the `key` of a step of ours or yours",
            ),
            Some(first) if first.order >= template.order => faults.push(
                &path,
                format!("`{}` has no lower `order` than `{key}`", after.key),
                format!("give `{key}` an `order` above {}", first.order),
            ),
            Some(_) => {}
        }
        if after.cure.is_some() != after.of.is_some() {
            faults.push(
                &path[..2],
                format!("`cure` and `of` go together after `{}`", after.key),
                "tell both the state of the cure and the list of what cures",
            );
        }
    }
    for (row, line) in template.line.iter().enumerate() {
        let at = |key| [At::Key("line"), At::Row(row), At::Key(key)];
        let things = [&line.hold, &line.caution, &line.action, &line.note];
        if things.iter().filter(|thing| thing.is_some()).count() != 1 {
            faults.push(
                &at("")[..2],
                "a line is one of `hold`, `caution`, `action` and `note`".into(),
                "make a line of each",
            );
        }
        when(&at("when"), &line.when, faults);
        if let Some(caution) = &line.caution {
            if !safety::is_known(caution) {
                faults.push(
                    &at("caution"),
                    format!("there is no warning `{caution}`"),
                    "name one of the files in `templates/safety`",
                );
            }
            let next = template.line.get(row + 1);
            if next.is_none_or(|next| next.action.is_none() && next.caution.is_none()) {
                faults.push(
                    &at("caution"),
                    "a warning stands right above the action that it is about".into(),
                    "move it there",
                );
            }
        }
        if line.boxes && template.works_on.is_none() {
            faults.push(
                &at("boxes"),
                "`boxes` asks for `works-on`".into(),
                "name the list of what the step works on",
            );
        }
        let Some(action) = &line.action else { continue };
        // What is filled in is judged when it is there.
        let verb = action.split_whitespace().next().unwrap_or_default();
        for fault in words::faults(action) {
            if !(verb.contains('{') || fault.ends_with("words") && action.contains('{')) {
                faults.push(&at("action"), format!("“{action}”: {fault}"), WORDS_HELP);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAINT: &str = r#"
key = "paint"
order = 45
title = "Paint the tubes"
purpose = "The tubes get their colour before they are joined."
when = "one"
people = "1"
places = ["bench"]
view = "nothing"
mode = "read-do"
after = [{ key = "drill" }]
time = [{ rate = "saw-aluminium", count = "one" }]
[[ready]]
group = "stuff"
what = "paint"
amount = "1 tin"
[[line]]
action = "Brush paint on each tube."
done = { words = "no bare spot" }
"#;

    fn file(text: &str) -> Vec<(String, String)> {
        vec![("paint.toml".to_owned(), text.to_owned())]
    }

    fn faults(text: &str) -> String {
        let told =
            |fault: TemplateFault| format!("{}: {}\n", &text[fault.span.range()], fault.message);
        Templates::with(&file(text)).1.into_iter().map(told).collect()
    }

    #[test]
    fn a_step_comes_beside_ours() {
        let (all, faults) = Templates::with(&file(PAINT));
        assert_eq!(faults, []);
        assert_eq!(all.steps.len(), Templates::builtin().steps.len() + 1);
        assert!(all.steps.windows(2).all(|pair| pair[0].order < pair[1].order));
        assert!(all.step("paint").is_some());
    }

    #[test]
    fn a_step_of_ours_keeps_its_hold_points_and_warnings() {
        let told = faults(
            &PAINT.replace("\"paint\"\n", "\"entry\"\n").replace("order = 45", "order = 120"),
        );
        assert!(told.contains("hold points") && told.contains("hidden-lines"), "{told}");
    }

    #[test]
    fn faults_are_told_all_in_one_run() {
        let bad = PAINT
            .replace("order = 45", "order = 120")
            .replace("\"drill\"", "\"nothing\"")
            .replace("Brush paint on each tube.", "The tubes are painted.");
        let told = faults(&bad);
        for wanted in [
            "120: `order = 120` is that of",
            "\"nothing\": there is no step `nothing`",
            "\"The tubes are painted.\": “The tubes are painted.”",
        ] {
            assert!(told.contains(wanted), "{wanted}: {told}");
        }
        assert!(faults("key = 3").starts_with("3: "));
        let told = faults(&PAINT.replace("view =", "vieww =").replace("mode =", "mood ="));
        for wanted in ["vieww: `vieww` is no key", "mood: `mood` is no key", "`view` is missing"] {
            assert!(told.contains(wanted), "{wanted}: {told}");
        }
    }
}
