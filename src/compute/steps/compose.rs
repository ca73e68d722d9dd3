//! One step from its template and the facts.

use super::facts::{Facts, Item};
use super::fill::{self, Missing};
use super::line_up::Placed;
use super::safety;
use super::step::{
    Action, Beside, Cure, Done, Group, Hold, Line, Mode, Need, Ready, Step, View, Wait,
};
use super::template::{BesideName, CureName, DoneRow, LineRow, Template, Templates, WaitRow};
use crate::build::{DirectDone, RateChange};
use crate::source::{Figure, Ledger, Seen, Stated};
use crate::tables::Tables;
use crate::units::{Duration, display};

/// What a step is composed from.
pub(super) struct Composing<'a> {
    pub facts: &'a Facts,
    pub tables: &'a Tables,
    pub rates: &'a [RateChange],
    pub ledger: &'a mut Ledger,
    pub missing: &'a mut Vec<Missing>,
    pub line: &'a [Placed<'a>],
    pub templates: &'a Templates,
}

impl Composing<'_> {
    /// The step at a place of the line.
    pub fn step(&mut self, place: &Placed<'_>, number: u32) -> Step {
        let mut step = match place.template {
            Some(template) => self.templated(template, number),
            None => blank(place, number),
        };
        for key in &place.after {
            if !step.after.iter().any(|need| need.key == *key) {
                step.after.push(Need { key: key.clone(), cures: Vec::new() });
            }
        }
        if let Some(own) = place.own {
            step.title.clone_from(&own.title);
            step.people = *own.people;
            step.time = *own.time;
            step.beside = None;
            step.span = Some(own.span);
            step.purpose = match (&own.purpose, place.template) {
                (Some(purpose), _) => purpose.value.clone(),
                (None, Some(template)) => {
                    format!("The builder's own way instead of: {}.", template.title)
                }
                (None, None) => "A step of the builder's own.".to_owned(),
            };
            // Hold points, safety messages and waits stand, whatever way the work is done.
            let waits: Vec<Line> = step
                .lines
                .iter()
                .filter(|line| matches!(line, Line::Action(action) if action.wait.is_some()))
                .cloned()
                .collect();
            let mut seen: Vec<String> = Vec::new();
            step.lines.retain(|line| match line {
                Line::Hold(_) => true,
                Line::Caution(key) if !seen.contains(key) => {
                    seen.push(key.clone());
                    true
                }
                _ => false,
            });
            if let Some(words) = &own.hold {
                step.lines
                    .push(Line::Hold(Hold { words: words.value.clone(), blanks: Vec::new() }));
            }
            for key in &own.cautions {
                let known = safety::is_known(key) && !seen.contains(key);
                if known {
                    seen.push(key.value.clone());
                    step.lines.push(Line::Caution(key.value.clone()));
                }
            }
            for action in &own.actions {
                if self.drills(&action.text) {
                    look_behind(&mut step.lines);
                }
                step.lines.push(Line::Action(Action {
                    number: 0,
                    boxes: Vec::new(),
                    text: action.text.value.clone(),
                    done: action.done.as_ref().map(done),
                    wait: None,
                }));
            }
            step.lines.extend(waits);
            if let Some(wait) = &own.wait {
                step.rest = Some(**wait);
                step.lines.push(Line::Action(Action {
                    number: 0,
                    boxes: Vec::new(),
                    text: format!("Wait {} before what comes next.", display::duration(**wait)),
                    done: None,
                    wait: Some(Wait {
                        words: "go on".to_owned(),
                        cures: Vec::new(),
                        air: String::new(),
                        time: Some(**wait),
                    }),
                }));
            }
            let tool = |tool: &Stated<String>| Ready {
                group: Group::Tool,
                what: tool.value.clone(),
                amount: String::new(),
            };
            step.ready = own.tools.iter().map(tool).collect();
        }
        step
    }

    /// Whether an action of the reader's own drills or cuts into the vehicle, behind which things may hide.
    fn drills(&self, action: &str) -> bool {
        let verb = action.split_whitespace().next().unwrap_or_default().to_lowercase();
        let on_vehicle = ["roof", "battery", "entry"].iter().any(|fact| self.facts.holds(fact));
        on_vehicle && ["drill", "cut", "saw", "screw"].contains(&verb.as_str())
    }

    fn fill(&mut self, text: &str, item: Option<&Item>, key: &str) -> String {
        fill::fill(text, self.facts, item, key, self.missing)
    }

    fn templated(&mut self, template: &Template, number: u32) -> Step {
        let key = &template.key;
        let people = self.fill(&template.people, None, key).parse().unwrap_or(1);
        let weather = template
            .weather
            .iter()
            .find(|row| self.facts.holds(&row.when))
            .map(|row| row.text.clone());
        let works_on =
            template.works_on.as_ref().map_or_else(Vec::new, |list| self.marks(list, key));
        let mut concerns: Vec<String> = Vec::new();
        for list in &template.strong {
            for mark in self.marks(list, key) {
                if !concerns.contains(&mark) {
                    concerns.push(mark);
                }
            }
        }
        let (time, beside) = self.time(template);
        let minutes = |name: &String| self.facts.number_of(name).map(Duration::minutes);
        let (dries, keeps) = template
            .dries
            .as_ref()
            .map_or((None, None), |[dries, keeps]| (minutes(dries), minutes(keeps)));
        let mut step = Step {
            number,
            key: key.clone(),
            title: self.fill(&template.title, None, key),
            purpose: self.fill(&template.purpose, None, key),
            people,
            time,
            beside,
            tools: template
                .tools
                .iter()
                .map(|tool| self.fill(tool, None, key))
                .filter(|tool| !tool.is_empty())
                .collect(),
            dries,
            keeps,
            rest: None,
            places: template.places.iter().map(|place| self.fill(place, None, key)).collect(),
            weather: weather.map_or_else(String::new, |text| self.fill(&text, None, key)),
            ready: self.ready(template),
            lines: Vec::new(),
            after: self.needs(template),
            concerns,
            works_on,
            round: template.round.clone(),
            view: template.view.into(),
            mode: template.mode.into(),
            see: template.see.clone(),
            span: None,
        };
        for row in &template.line {
            self.line(row, key, &mut step);
        }
        step
    }

    /// Marks of a list; a name that no list has is a fault of the template.
    fn marks(&mut self, list: &str, key: &str) -> Vec<String> {
        if self.facts.rows(list).is_none() && self.facts.number_of(list) != Some(0.0) {
            self.missing.push(Missing { template: key.to_owned(), name: list.to_owned() });
        }
        self.facts.marks_of(list)
    }

    /// Work time, and what of it a second person may do beside the first.
    fn time(&mut self, template: &Template) -> (Duration, Option<Beside>) {
        let mut time = Duration::ZERO;
        let mut beside = Duration::ZERO;
        let mut told: Vec<(String, String)> = Vec::new();
        let mut own = false;
        for share in &template.time {
            let Some(count) = self.facts.number_of(&share.count) else {
                let name = share.count.clone();
                self.missing.push(Missing { template: template.key.clone(), name });
                continue;
            };
            let Ok(rate) = self.tables.rate(&share.rate) else {
                let name = share.rate.clone();
                self.missing.push(Missing { template: template.key.clone(), name });
                continue;
            };
            let change = self.rates.iter().find(|change| change.rate.name == rate.name);
            own |= change.is_some() && count > 0.0;
            let each = change.map_or(rate.time, |change| *change.time);
            if count > 0.0 {
                time += each * count;
                if share.beside != BesideName::No {
                    beside += each * count;
                }
                told.push((
                    rate.words.clone(),
                    format!("{} × {}", display::number_short(count, 1), display::duration(each)),
                ));
            }
        }
        // To five minutes: an estimate is no finer.
        let rounded = |time: Duration| ((time.to_minutes() / 5.0).ceil() * 5.0).max(5.0);
        let minutes = rounded(time);
        let source = if own {
            ("rates of the build file; rates of careful first-time work", Seen::DataSheet)
        } else {
            ("rates of careful first-time work", Seen::CommonPractice)
        };
        let mut figure = Figure::new(
            format!("steps.time.{}", template.key),
            format!("work time of: {}", template.title),
            minutes,
            "min",
        )
        .formula("Σ count × rate, rounded up to 5 min")
        .source(source.0, source.1);
        for (words, sum) in told {
            figure = figure.input(words, sum);
        }
        self.ledger.push(figure);
        // Not worth sharing out below a quarter of an hour.
        let shared = rounded(beside);
        let leads = template.time.iter().any(|share| share.beside == BesideName::Leads);
        let beside = (shared >= 15.0 && minutes - shared >= 15.0).then(|| Beside {
            words: template.beside.clone(),
            time: Duration::minutes(shared),
            leads,
        });
        (Duration::minutes(minutes), beside)
    }

    fn ready(&mut self, template: &Template) -> Vec<Ready> {
        let mut ready = Vec::new();
        for row in &template.ready {
            if !self.facts.holds(&row.when) {
                continue;
            }
            for item in self.rows(row.each.as_deref(), &template.key) {
                let what = self.fill(&row.what, item.as_ref(), &template.key);
                let amount = self.fill(&row.amount, item.as_ref(), &template.key);
                let one = Ready { group: row.group.into(), what, amount };
                // Parts of one name for two places are one count; anything else told twice is one.
                let same = |known: &&mut Ready| known.group == one.group && known.what == one.what;
                let count = |one: &Ready| one.amount.parse::<u32>().ok();
                match ready.iter_mut().find(same) {
                    Some(known) if one.group == Group::Part && item.is_some() => {
                        match (count(known), count(&one)) {
                            (Some(a), Some(b)) => known.amount = (a + b).to_string(),
                            _ if known.amount != one.amount => ready.push(one),
                            _ => {}
                        }
                    }
                    Some(known) if known.amount == one.amount => {}
                    _ => ready.push(one),
                }
            }
        }
        ready.sort_by_key(|one| one.group);
        ready
    }

    /// Rows of a list, or one empty row where a line is not repeated.
    fn rows(&mut self, list: Option<&str>, key: &str) -> Vec<Option<Item>> {
        let Some(list) = list else { return vec![None] };
        if let Some(rows) = self.facts.rows(list) {
            rows.iter().cloned().map(Some).collect()
        } else {
            // A chapter that is not in the build at all sets its count to zero.
            if self.facts.number_of(list) != Some(0.0) {
                self.missing.push(Missing { template: key.to_owned(), name: list.to_owned() });
            }
            Vec::new()
        }
    }

    fn line(&mut self, row: &LineRow, key: &str, step: &mut Step) {
        if !self.facts.holds(&row.when) {
            return;
        }
        for item in self.rows(row.each.as_deref(), key) {
            let item = item.as_ref();
            if let Some(words) = &row.hold {
                let words = self.fill(words, item, key);
                let blanks =
                    row.blanks.iter().map(|[label, unit]| (label.clone(), unit.clone())).collect();
                step.lines.push(Line::Hold(Hold { words, blanks }));
            } else if let Some(message) = &row.caution {
                step.lines.push(Line::Caution(message.clone()));
            } else if let Some(note) = &row.note {
                let note = self.fill(note, item, key);
                step.lines.push(Line::Note(note));
            } else if let Some(text) = &row.action {
                let mut text = self.fill(text, item, key);
                let done = row.done.as_ref().map(|done| self.done(done, item, key));
                let wait = row.wait.as_ref().map(|wait| self.wait(wait, key));
                if let (Some(time), Some(rest)) =
                    (wait.as_ref().and_then(|wait: &Wait| wait.time), text.strip_prefix("Wait "))
                {
                    text = format!("Wait {} {rest}", display::duration(time));
                }
                if self.templates.is_own(key) && step.places != ["bench"] && self.drills(&text) {
                    look_behind(&mut step.lines);
                }
                let boxes = if row.boxes { step.works_on.clone() } else { Vec::new() };
                step.lines.push(Line::Action(Action { number: 0, boxes, text, done, wait }));
            }
        }
    }

    fn done(&mut self, row: &DoneRow, item: Option<&Item>, key: &str) -> Done {
        Done {
            words: self.fill(&row.words, item, key),
            low: self.fill(&row.low, item, key),
            high: self.fill(&row.high, item, key),
            unit: row.unit.clone(),
        }
    }

    fn wait(&mut self, row: &WaitRow, key: &str) -> Wait {
        let cures = self.cures(row.cure, &row.of, key);
        let hours = cures
            .iter()
            .filter_map(|cure| self.ledger.get(&cure.figure()))
            .map(|figure| figure.value)
            .reduce(f64::max);
        Wait {
            words: self.fill(&row.words, None, key),
            cures,
            air: self.facts.words("air").unwrap_or_default().to_owned(),
            time: hours.map(whole),
        }
    }

    fn cures(&mut self, state: CureName, list: &str, key: &str) -> Vec<Cure> {
        let marks = self.marks(list, key);
        marks.into_iter().map(|mark| Cure { mark, state: state.into() }).collect()
    }

    /// What comes first; a step that this build does not have hands on what it came after itself.
    fn needs(&mut self, template: &Template) -> Vec<Need> {
        let mut needs: Vec<Need> = Vec::new();
        self.collect(template, &mut needs);
        needs
    }

    fn collect(&mut self, template: &Template, needs: &mut Vec<Need>) {
        for after in &template.after {
            if self.line.iter().any(|place| place.key == after.key) {
                let cures = match (after.cure, &after.of) {
                    (Some(state), Some(list)) => self.cures(state, list, &template.key),
                    _ => Vec::new(),
                };
                match needs.iter_mut().find(|need| need.key == after.key) {
                    Some(need) if need.cures.is_empty() => need.cures = cures,
                    Some(_) => {}
                    None => needs.push(Need { key: after.key.clone(), cures }),
                }
            } else if let Some(first) = self.templates.step(&after.key) {
                self.collect(first, needs);
            }
        }
    }
}

/// What the reader wrote, both limits to the decimals of the finer one.
fn done(own: &DirectDone) -> Done {
    let limits = [&own.low, &own.high];
    let decimals = limits.into_iter().flatten().map(|limit| decimals(**limit)).max().unwrap_or(0);
    let told = |limit: &Option<Stated<f64>>| {
        limit.as_ref().map_or_else(String::new, |limit| display::number(**limit, decimals))
    };
    Done {
        words: own.words.value.clone(),
        low: told(&own.low),
        high: told(&own.high),
        unit: own.unit.as_ref().map_or_else(String::new, |unit| unit.value.clone()),
    }
}

/// Decimals that a number is written with, at most three.
fn decimals(number: f64) -> usize {
    number.to_string().split_once('.').map_or(0, |(_, behind)| behind.len().min(3))
}

/// The hold point and warning before the first hole of a step; once in a step.
fn look_behind(lines: &mut Vec<Line>) {
    let there = lines.iter().any(|line| matches!(line, Line::Caution(key) if key == HIDDEN));
    if there {
        return;
    }
    if !lines.iter().any(|line| matches!(line, Line::Hold(_))) {
        lines.push(Line::Hold(Hold {
            words: "looked behind: no wire, hose, tank, gas line or airbag where the tool comes through"
                .to_owned(),
            blanks: Vec::new(),
        }));
    }
    lines.push(Line::Caution(HIDDEN.to_owned()));
}

/// Key of the warning of what may run behind skin or floor.
const HIDDEN: &str = "hidden-lines";

/// A wait in hours as printed: whole hours from two hours on, else five minutes, never shortened.
pub fn whole(hours: f64) -> Duration {
    if hours > 2.0 {
        Duration::hours(hours.ceil())
    } else {
        Duration::minutes((hours * 12.0).ceil() * 5.0)
    }
}

/// A step of the reader's own before its words are put in.
fn blank(place: &Placed<'_>, number: u32) -> Step {
    Step {
        number,
        key: place.key.clone(),
        title: String::new(),
        purpose: String::new(),
        people: 1,
        time: Duration::ZERO,
        beside: None,
        tools: Vec::new(),
        dries: None,
        rest: None,
        keeps: None,
        places: Vec::new(),
        weather: String::new(),
        ready: Vec::new(),
        lines: Vec::new(),
        after: Vec::new(),
        concerns: Vec::new(),
        works_on: Vec::new(),
        round: String::new(),
        view: View::Nothing,
        mode: Mode::ReadDo,
        see: Vec::new(),
        span: None,
    }
}
