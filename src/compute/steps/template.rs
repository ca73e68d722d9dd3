//! Templates of steps: the files under `templates/steps`, one a step.
//!
//! A template is plain TOML. Words in braces are facts of the build (see [`super::facts`]); a
//! `when` names facts that must be there, `!name` one that must not. `each` repeats a line for
//! every row of a list, whose values are `{it.name}`.

mod own;
mod place;

pub use own::{Own, TemplateFault};

use serde::Deserialize;
use std::sync::OnceLock;

/// A template file: its name and text.
macro_rules! file {
    ($name:literal) => {
        ($name, include_str!(concat!("../../../templates/steps/", $name)))
    };
}

const FILES: &[(&str, &str)] = &[
    file!("01-measure.toml"),
    file!("02-cut.toml"),
    file!("03-drill.toml"),
    file!("04-feet.toml"),
    file!("04-brackets.toml"),
    file!("05-frame.toml"),
    file!("06-props.toml"),
    file!("06-rivet-nuts.toml"),
    file!("07-panels.toml"),
    file!("08-dry-fit.toml"),
    file!("09-hinges.toml"),
    file!("09-clamps.toml"),
    file!("10-prepare.toml"),
    file!("11-bond.toml"),
    file!("12-entry.toml"),
    file!("12-fixture-holes.toml"),
    file!("12-fixture-fit.toml"),
    file!("12-roof-holes.toml"),
    file!("12-roof-bolts.toml"),
    file!("13-seal.toml"),
    file!("14-cables.toml"),
    file!("15-battery.toml"),
    file!("16-bolt.toml"),
    file!("17-tether.toml"),
    file!("18-connect.toml"),
    file!("18-latch.toml"),
    file!("19-check.toml"),
];

const LIMITS: (&str, &str) = file!("limits.toml");
const WORDS: (&str, &str) = file!("words.toml");

/// A step before its facts are filled in.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Template {
    /// Name of the step.
    pub key: String,
    /// Where it goes; unique.
    pub order: u32,
    /// Title, verb first, at most four words.
    pub title: String,
    /// What it is for, one line.
    pub purpose: String,
    /// Facts that must be there.
    pub when: String,
    /// People at once, a number or a fact.
    pub people: String,
    /// Places that it holds alone.
    pub places: Vec<String>,
    /// Drawing.
    pub view: ViewName,
    /// How its list is used.
    pub mode: ModeName,
    /// Kinds of other sheets.
    #[serde(default)]
    pub see: Vec<String>,
    /// Lists whose marks are drawn strong.
    #[serde(default)]
    pub strong: Vec<String>,
    /// List whose marks are the labels of boxes.
    pub works_on: Option<String>,
    /// How the list goes round those things.
    #[serde(default, rename = "loop")]
    pub round: String,
    /// Steps and cures that come first.
    #[serde(default)]
    pub after: Vec<After>,
    /// Work time: rates and counts.
    pub time: Vec<Time>,
    /// What the shares of time beside the others are, in words.
    #[serde(default)]
    pub beside: String,
    /// Tools that it holds alone, names or facts.
    #[serde(default)]
    pub tools: Vec<String>,
    /// Facts that count the minutes in which its faces dry, and in which they are to be joined.
    pub dries: Option<[String; 2]>,
    /// Weather that it needs; the first row whose `when` holds.
    #[serde(default)]
    pub weather: Vec<Weather>,
    /// What to have ready.
    pub ready: Vec<ReadyRow>,
    /// What is done.
    pub line: Vec<LineRow>,
}

/// A step that comes first.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct After {
    /// Its name; one that this build does not have is passed over for those before it.
    pub key: String,
    /// State of the cure to wait for.
    pub cure: Option<CureName>,
    /// List of the marks that cure.
    pub of: Option<String>,
}

/// A share of the work time.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Time {
    /// Row of the rates, a name or a fact.
    pub rate: String,
    /// Fact that counts.
    pub count: String,
    /// Whether a second person may do it at the same time.
    #[serde(default)]
    pub beside: BesideName,
}

/// Whether a share of the time may run beside the others.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum BesideName {
    /// The same person does it.
    #[default]
    No,
    /// A second person goes ahead with it.
    Leads,
    /// A second person comes after with it.
    Follows,
}

/// Weather in words.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Weather {
    /// Facts that must be there.
    #[serde(default)]
    pub when: String,
    /// Words.
    pub text: String,
}

/// Something to have ready.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ReadyRow {
    /// Kind of thing.
    pub group: GroupName,
    /// What it is.
    pub what: String,
    /// How much.
    pub amount: String,
    /// Facts that must be there.
    #[serde(default)]
    pub when: String,
    /// One row for each row of this list.
    pub each: Option<String>,
}

/// A line: exactly one of `hold`, `caution`, `action` and `note`.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct LineRow {
    /// Condition of a hold point.
    pub hold: Option<String>,
    /// Label and unit of the values that the hold asks for.
    #[serde(default)]
    pub blanks: Vec<[String; 2]>,
    /// Key of a safety message.
    pub caution: Option<String>,
    /// What to do.
    pub action: Option<String>,
    /// Information.
    pub note: Option<String>,
    /// Facts that must be there.
    #[serde(default)]
    pub when: String,
    /// One line for each row of this list.
    pub each: Option<String>,
    /// A box for each thing that the step works on.
    #[serde(default)]
    pub boxes: bool,
    /// How to know that it is right.
    pub done: Option<DoneRow>,
    /// A wait that begins with it.
    pub wait: Option<WaitRow>,
}

/// How to know that an action is right.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct DoneRow {
    /// What is measured, or the state.
    pub words: String,
    /// Least.
    #[serde(default)]
    pub low: String,
    /// Greatest.
    #[serde(default)]
    pub high: String,
    /// Unit.
    #[serde(default)]
    pub unit: String,
}

/// A wait for cures.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct WaitRow {
    /// What may be done afterwards.
    pub words: String,
    /// State of the cure.
    pub cure: CureName,
    /// List of the marks that cure.
    pub of: String,
}

macro_rules! names {
    ($(#[$doc:meta])* $name:ident => $real:ty { $($variant:ident),* $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum $name {
            $(#[doc = "See the type that it stands for."] $variant,)*
        }
        impl From<$name> for $real {
            fn from(name: $name) -> Self {
                match name { $($name::$variant => <$real>::$variant,)* }
            }
        }
    };
}

names!(
    /// [`Group`](super::Group) as written.
    GroupName => super::Group { Part, Stuff, Tool, Protective, Other }
);
names!(
    /// [`CureState`](super::CureState) as written.
    CureName => super::CureState { Handling, Load, Drive, Full }
);
names!(
    /// [`Mode`](super::Mode) as written.
    ModeName => super::Mode { ReadDo, DoConfirm }
);
names!(
    /// [`View`](super::View) as written.
    ViewName => super::View {
        Roof, Bars, DrilledParts, Foot, Frame, MountPlaces, Panels, Hinge, Bond, Entry, Wiring,
        Battery, Mounts, FixturePlaces, Fixture, Prop, Latch, Nothing,
    }
);

/// A limit of workmanship.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Limit {
    /// Name; the facts are `limit.NAME.low` and `limit.NAME.high`.
    pub name: String,
    /// What it limits.
    pub words: String,
    /// Least.
    pub low: Option<f64>,
    /// Greatest.
    pub high: Option<f64>,
    /// Decimals in print.
    #[serde(default)]
    pub decimals: usize,
    /// Unit.
    pub unit: String,
    /// Where it comes from.
    pub source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitFile {
    limit: Vec<Limit>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WordFile {
    verbs: std::collections::BTreeMap<String, String>,
}

/// Whatever the files of the program hold, parsed once.
#[derive(Debug, Default, Clone)]
pub struct Templates {
    /// Steps by order.
    pub steps: Vec<Template>,
    /// Limits of workmanship.
    pub limits: Vec<Limit>,
    /// Verbs that may open an action.
    pub verbs: Vec<String>,
    /// Faults of the files; a test holds this empty.
    pub faults: Vec<String>,
    /// Files of the reader's own that some of the steps come from.
    pub own: Vec<Own>,
}

impl Templates {
    /// The files that come with the program.
    pub fn builtin() -> &'static Self {
        static BUILTIN: OnceLock<Templates> = OnceLock::new();
        BUILTIN.get_or_init(|| Self::read(FILES, LIMITS, WORDS))
    }

    fn read(files: &[(&str, &str)], limits: (&str, &str), words: (&str, &str)) -> Self {
        let mut all = Self::default();
        for (name, text) in files {
            match toml::from_str::<Template>(text) {
                Ok(template) => all.steps.push(template),
                Err(error) => all.faults.push(format!("{name}: {error}")),
            }
        }
        all.steps.sort_by_key(|template| template.order);
        match toml::from_str::<LimitFile>(limits.1) {
            Ok(file) => all.limits = file.limit,
            Err(error) => all.faults.push(format!("{}: {error}", limits.0)),
        }
        match toml::from_str::<WordFile>(words.1) {
            Ok(file) => all.verbs = file.verbs.into_keys().collect(),
            Err(error) => all.faults.push(format!("{}: {error}", words.0)),
        }
        all
    }

    /// The template of a step.
    pub fn step(&self, key: &str) -> Option<&Template> {
        self.steps.iter().find(|template| template.key == key)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_reads_and_orders_are_unique() {
        let all = Templates::builtin();
        assert!(all.faults.is_empty(), "{:#?}", all.faults);
        assert_eq!(all.steps.len(), FILES.len());
        assert!(all.steps.windows(2).all(|pair| pair[0].order < pair[1].order));
    }

    #[test]
    fn a_line_is_one_thing() {
        for template in &Templates::builtin().steps {
            for line in &template.line {
                let things = [&line.hold, &line.caution, &line.action, &line.note];
                let count = things.iter().filter(|thing| thing.is_some()).count();
                assert_eq!(count, 1, "{}: {line:?}", template.key);
                assert!(line.done.is_none() || line.action.is_some(), "{}: {line:?}", template.key);
                assert!(!line.boxes || template.works_on.is_some(), "{}: {line:?}", template.key);
            }
        }
    }

    #[test]
    fn what_comes_first_is_a_step_of_lower_order() {
        let all = Templates::builtin();
        for template in &all.steps {
            for after in &template.after {
                let first = all.step(&after.key).unwrap_or_else(|| panic!("{}", after.key));
                assert!(first.order < template.order, "{} before {}", after.key, template.key);
                assert_eq!(after.cure.is_some(), after.of.is_some());
            }
        }
    }
}
