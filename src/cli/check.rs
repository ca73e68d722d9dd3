//! `check`: what is wrong, and the figures that matter.

use super::args::{Check, Format};
use super::pipeline::{self, For, Loaded};
use super::said::{Said, said};
use super::{Ended, jobs, say, summary};
use crate::terminal;
use std::fmt::Write;
use std::path::Path;
use std::sync::Mutex;

/// Says findings and, for people, a summary of each file.
pub fn check(options: &Check) -> Result<(), Ended> {
    let several = options.builds.len() > 1;
    let usual = if several { Format::Line } else { Format::Text };
    let format = options.format.unwrap_or(usual);
    if options.watch {
        return jobs::watch(&options.builds, &options.own, |path| {
            one(path, options, format, !several)
        });
    }
    if format == Format::Json {
        return json(options);
    }
    jobs::each(&options.builds, |path| one(path, options, format, !several))
}

fn one(path: &Path, options: &Check, format: Format, summed_up: bool) -> Said {
    said(|said| {
        let loaded = pipeline::load(path, &options.own, For::Figures)?;
        said.findings(&loaded, format);
        if let (Some(done), true, Format::Text) = (&loaded.done, summed_up, format) {
            let mut text = String::new();
            for (value, words) in summary::summary(done) {
                let _ = writeln!(text, "{value:>16}  {words}");
            }
            said.out = text.into_bytes();
        }
        if format == Format::Text || !summed_up {
            said.line(format_args!("{}: {}", loaded.text.name(), say::tally(&loaded)));
        }
        Ok(())
    })
}

/// All files in one document on standard output.
fn json(options: &Check) -> Result<(), Ended> {
    let told = Mutex::new(Vec::new());
    let ended = jobs::each(&options.builds, |path| {
        let mut ended = Said::new();
        match pipeline::load(path, &options.own, For::Figures) {
            Err(fault) => return Said::fault(fault),
            Ok(loaded) => {
                ended.findings(&loaded, Format::Json);
                if let Ok(mut told) = told.lock() {
                    told.push((path.to_owned(), loaded));
                }
            }
        }
        ended
    });
    let told = told.into_inner().unwrap_or_default();
    let mut files: Vec<terminal::ToldFile> = Vec::new();
    for path in &options.builds {
        if let Some((_, loaded)) = told.iter().find(|(of, _)| of == path) {
            files.push(file(loaded));
        }
    }
    let text = terminal::json(&files).expect("plain text and numbers");
    super::output::write(None, format!("{text}\n").as_bytes())?;
    ended
}

fn file(loaded: &Loaded) -> terminal::ToldFile<'_> {
    terminal::ToldFile {
        name: loaded.text.name(),
        texts: loaded.texts().collect(),
        stopped: loaded.stopped(),
        summary: loaded.done.as_ref().map_or_else(Vec::new, summary::summary),
    }
}
