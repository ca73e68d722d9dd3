//! `figures`: every computed number as JSON, or a table of them as CSV.

use super::args::{Figures, Format};
use super::fault::Fault;
use super::said::said;
use super::{Ended, output, pipeline};
use crate::compute::figures;
use crate::compute::figures::csv;
use std::path::Path;

/// Writes the figures; with `stop` findings they are written all the same, and the exit code tells.
pub fn figures(options: &Figures) -> Result<(), Ended> {
    if let Some(path) = &options.output {
        output::keep_apart(&options.build, path)?;
    }
    let said = said(|said| {
        let loaded = pipeline::load(&options.build, &options.own, pipeline::For::Figures)?;
        said.findings(&loaded, Format::Text);
        let Some(done) = &loaded.done else { return Ok(()) };
        let (build, work, results) = (&done.build, &done.work, &done.results);
        let output = options.output.as_deref();
        match options.csv.as_slice() {
            [] => {
                let document = figures::document(build, work, results);
                let text = serde_json::to_string_pretty(&document);
                let text = text.expect("figures are plain numbers and text") + "\n";
                output::write(output, text.as_bytes())
            }
            [one] if !output.is_some_and(Path::is_dir) => {
                let text = csv::table(*one, build, work, results);
                output::write(output, text.as_bytes())
            }
            several => {
                let folder = output.filter(|path| path.is_dir()).ok_or_else(|| {
                    let why = "several tables go into a folder that is there: name it with -o";
                    Fault::Answer("--csv".into(), why.into())
                })?;
                for one in several {
                    let text = csv::table(*one, build, work, results);
                    let path = folder.join(format!("{}.csv", one.name()));
                    output::write(Some(&path), text.as_bytes())?;
                    said.line(path.display());
                }
                Ok(())
            }
        }
    });
    said.speak()
}
