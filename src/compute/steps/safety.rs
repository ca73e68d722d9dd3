//! Safety messages: the files under `templates/safety`.
//!
//! Signal words have the meanings of ANSI Z535.6; sign numbers are those of ISO 7010. A message is
//! tied to the steps whose lines name it; a general one stands on the safety sheet alone.

use super::Step;
use super::facts::Facts;
use super::fill::{self, Missing};
use super::step::Line;
use serde::Deserialize;
use std::sync::OnceLock;

macro_rules! file {
    ($name:literal) => {
        ($name, include_str!(concat!("../../../templates/safety/", $name)))
    };
}

const FILES: &[(&str, &str)] = &[
    file!("general.toml"),
    file!("height.toml"),
    file!("workshop.toml"),
    file!("chemicals.toml"),
    file!("electrical.toml"),
    file!("driving.toml"),
];

/// How bad it can get, by ANSI Z535.6.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Signal {
    /// Kills or injures badly if not avoided.
    Danger,
    /// Could kill or injure badly.
    Warning,
    /// Could injure slightly.
    Caution,
    /// Damage to things only.
    Notice,
}

/// A message as written.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Template {
    key: String,
    word: Signal,
    sign: Option<String>,
    hazard: String,
    consequence: String,
    avoid: String,
    #[serde(default)]
    when: String,
    #[serde(default)]
    general: bool,
    #[serde(default)]
    places: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    message: Vec<Template>,
}

/// A safety message of this build.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Message {
    /// Name by which lines of steps point to it.
    pub key: String,
    /// How bad it can get.
    pub word: Signal,
    /// Number of its ISO 7010 sign, "W008".
    pub sign: Option<String>,
    /// What is dangerous.
    pub hazard: String,
    /// What it does.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
    /// Numbers of the steps that raise it; empty: it is for the whole job.
    pub steps: Vec<u32>,
    /// Places of work where it counts whatever is done there; empty: where it is named, or everywhere.
    pub places: Vec<String>,
}

impl Message {
    /// All of it in one line of words.
    pub fn words(&self) -> String {
        format!("{} {} {}", self.hazard, self.consequence, self.avoid)
    }
}

struct All {
    messages: Vec<Template>,
    faults: Vec<String>,
}

fn builtin() -> &'static All {
    static BUILTIN: OnceLock<All> = OnceLock::new();
    BUILTIN.get_or_init(|| {
        let mut all = All { messages: Vec::new(), faults: Vec::new() };
        for (name, text) in FILES {
            match toml::from_str::<File>(text) {
                Ok(file) => all.messages.extend(file.message),
                Err(error) => all.faults.push(format!("{name}: {error}")),
            }
        }
        all
    })
}

/// Faults of the files; a test holds this empty.
pub fn faults() -> &'static [String] {
    &builtin().faults
}

/// Whether lines may name this message.
pub fn is_known(key: &str) -> bool {
    builtin().messages.iter().any(|message| message.key == key)
}

/// Keys of all messages, in the order of the files.
pub fn keys() -> impl Iterator<Item = &'static str> {
    builtin().messages.iter().map(|message| message.key.as_str())
}

/// Whether a step is done where a message counts, whatever its lines name.
fn at_place(step: &Step, template: &Template) -> bool {
    template.places.iter().any(|place| step.places.contains(place))
}

/// Messages that the steps of this build raise, and those for the whole job; the gravest first, of
/// equals as in the files.
pub(super) fn messages(steps: &[Step], facts: &Facts, missing: &mut Vec<Missing>) -> Vec<Message> {
    let mut found: Vec<Message> = Vec::new();
    for template in &builtin().messages {
        let raised: Vec<u32> = steps
            .iter()
            .filter(|step| {
                step.lines
                    .iter()
                    .any(|line| matches!(line, Line::Caution(key) if *key == template.key))
                    || (!template.general && at_place(step, template))
            })
            .map(|step| step.number)
            .collect();
        let wanted = !raised.is_empty() || (template.general && !steps.is_empty());
        if !wanted || !facts.holds(&template.when) {
            continue;
        }
        let mut words = |text: &str| fill::fill(text, facts, None, &template.key, missing);
        found.push(Message {
            key: template.key.clone(),
            word: template.word,
            sign: template.sign.clone(),
            hazard: words(&template.hazard),
            consequence: words(&template.consequence),
            avoid: words(&template.avoid),
            steps: raised,
            places: template.places.clone(),
        });
    }
    found.sort_by_key(|message| message.word);
    found
}
