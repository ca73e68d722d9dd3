//! `figures`: every computed number as JSON.

use super::args::{Figures, Format};
use super::{Ended, output, pipeline, say};
use crate::compute::figures;

/// Writes the figures; with `stop` findings they are written all the same, and the exit code tells.
pub fn figures(options: &Figures) -> Result<(), Ended> {
    let loaded = pipeline::load(&options.build)?;
    say::findings(&loaded, Format::Text);
    let Some(done) = &loaded.done else { return Err(Ended::Stopped) };
    if let Some(path) = &options.output {
        output::keep_apart(&options.build, path)?;
    }
    let mut text =
        serde_json::to_string_pretty(&figures::document(&done.build, &done.work, &done.results))
            .expect("figures are plain numbers and text");
    text.push('\n');
    output::write(options.output.as_deref(), text.as_bytes())?;
    if loaded.stopped() { Err(Ended::Stopped) } else { Ok(()) }
}
