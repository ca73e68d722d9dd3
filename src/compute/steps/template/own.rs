//! Templates of the reader's own: they take the place of ours of the same key, or come beside them.

use super::{Template, Templates};
use crate::compute::steps::{safety, words};

impl Templates {
    /// Ours with the reader's own, given as the names and texts of their files.
    ///
    /// # Errors
    /// All that is wrong with the files, a line each.
    pub fn with(files: &[(String, String)]) -> Result<Self, Vec<String>> {
        let mut all = Self::builtin().clone();
        let mut faults = Vec::new();
        let mut own: Vec<(&str, String)> = Vec::new();
        for (name, text) in files {
            let template = match toml::from_str::<Template>(text) {
                Ok(template) => template,
                Err(error) => {
                    faults.push(format!("{name}: {}", error.to_string().trim_end()));
                    continue;
                }
            };
            if let Some((first, _)) = own.iter().find(|(_, key)| *key == template.key) {
                faults.push(format!("{name}: the step `{}` is in {first} too", template.key));
                continue;
            }
            own.push((name, template.key.clone()));
            match all.steps.iter_mut().find(|known| known.key == template.key) {
                Some(known) => {
                    kept(name, known, &template, &mut faults);
                    *known = template;
                }
                None => all.steps.push(template),
            }
        }
        all.steps.sort_by_key(|template| template.order);
        for (name, key) in &own {
            sound(name, key, &all, &mut faults);
        }
        if faults.is_empty() { Ok(all) } else { Err(faults) }
    }
}

/// A step of ours keeps its hold points and warnings, whatever way it is written.
fn kept(name: &str, ours: &Template, own: &Template, faults: &mut Vec<String>) {
    let holds =
        |template: &Template| template.line.iter().filter(|line| line.hold.is_some()).count();
    if holds(own) < holds(ours) {
        faults.push(format!(
            "{name}: the step `{}` has {} of the {} hold points of ours; each stays",
            own.key,
            holds(own),
            holds(ours)
        ));
    }
    for caution in ours.line.iter().filter_map(|line| line.caution.as_ref()) {
        if !own.line.iter().any(|line| line.caution.as_ref() == Some(caution)) {
            faults.push(format!("{name}: the warning `{caution}` of `{}` is missing", own.key));
        }
    }
}

/// What the tests hold of ours, held of the reader's own.
fn sound(name: &str, key: &str, all: &Templates, faults: &mut Vec<String>) {
    let Some(template) = all.step(key) else { return };
    let mut fault = |words: String| faults.push(format!("{name}: {words}"));
    let mut letters = key.chars();
    let plain = letters.all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
    if !plain || key.is_empty() || key.starts_with("own-") {
        fault(format!("`{key}` is no name for a step: small letters, digits and hyphens"));
    }
    let same = all.steps.iter().find(|other| other.key != key && other.order == template.order);
    if let Some(other) = same {
        fault(format!(
            "`order = {}` is that of `{}`; take a number between",
            template.order, other.key
        ));
    }
    for after in &template.after {
        match all.step(&after.key) {
            None => fault(format!("after: there is no step `{}`", after.key)),
            Some(first) if first.order >= template.order => {
                fault(format!("after: `{}` has no lower order than `{key}`", after.key));
            }
            Some(_) => {}
        }
        if after.cure.is_some() != after.of.is_some() {
            fault(format!("after `{}`: `cure` and `of` go together", after.key));
        }
    }
    for line in &template.line {
        let things = [&line.hold, &line.caution, &line.action, &line.note];
        if things.iter().filter(|thing| thing.is_some()).count() != 1 {
            fault("a line is one of hold, caution, action and note".into());
        }
        if let Some(caution) = line.caution.as_ref().filter(|caution| !safety::is_known(caution)) {
            fault(format!("there is no warning `{caution}`"));
        }
        if line.boxes && template.works_on.is_none() {
            fault("`boxes` asks for `works-on`".into());
        }
        if let Some(action) = &line.action {
            for words in words::faults(action) {
                fault(format!("“{action}”: {words}"));
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
        Templates::with(&file(text)).err().unwrap_or_default().join("\n")
    }

    #[test]
    fn a_step_comes_beside_ours() {
        let all = Templates::with(&file(PAINT)).unwrap_or_else(|faults| panic!("{faults:?}"));
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
        for wanted in ["order", "no step `nothing`", "The tubes are painted."] {
            assert!(told.contains(wanted), "{wanted}: {told}");
        }
        assert!(faults("key = 3").contains("paint.toml"));
        assert!(faults(&PAINT.replace("view = \"nothing\"\n", "vieww = 1\n")).contains("vieww"));
    }
}
