//! `record`: the as-built sheets, the inspections and the pocket booklet.

use super::args::{Print, Record};
use super::{Ended, print};

/// Writes the record sheets of a build alone. An open `stop` finding forbids them no more than it
/// undoes what was built; the sheets are marked then.
pub fn record(options: &Record) -> Result<(), Ended> {
    let output = options.output.clone().unwrap_or_else(|| {
        let stem = options.build.file_stem().map_or("build".into(), std::ffi::OsStr::to_os_string);
        let mut name = stem;
        name.push("-record.pdf");
        name.into()
    });
    print::print(&Print {
        builds: vec![options.build.clone()],
        output: Some(output),
        picture: options.picture,
        drawing: None,
        draft: true,
        only: vec!["record".into()],
        step: None,
        with_sheets: false,
        since: None,
        printed: None,
        paper: options.paper,
        watch: false,
        own: options.own.clone(),
    })
}
