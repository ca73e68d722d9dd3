//! `check`: what is wrong, and the figures that matter.

use super::args::{Check, Format};
use super::{Ended, pipeline, say};
use crate::sheets;

/// Prints findings and, for people, the headline figures.
pub fn check(options: &Check) -> Result<(), Ended> {
    let loaded = pipeline::load(&options.build)?;
    say::findings(&loaded, options.format);
    if options.format == Format::Text {
        if let Some(done) = &loaded.done {
            for line in sheets::headlines(&done.build, &done.work, &done.results) {
                println!("{:>16}  {}", line.value, line.words);
            }
        }
        eprintln!("{}: {}", loaded.text.name(), say::tally(&loaded));
    }
    if loaded.stopped() { Err(Ended::Stopped) } else { Ok(()) }
}
