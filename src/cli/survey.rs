//! `survey`: blank forms to measure a vehicle by.

use super::args::{PaperSize, Spoken, Survey, SurveyUnits};
use super::fault::Fault;
use super::{Ended, output, print, spoken};
use crate::build::{Language, LengthUnit};
use crate::page;
use crate::sheets::survey;
use std::path::Path;

/// Lays out and writes the forms.
pub fn survey(options: &Survey) -> Result<(), Ended> {
    let path = options.output.clone().unwrap_or_else(|| "survey.pdf".into());
    let paper = match options.paper {
        PaperSize::A4 => page::Paper::A4,
        PaperSize::Letter => page::Paper::Letter,
    };
    let units = match options.units {
        SurveyUnits::Metric => LengthUnit::Millimetre,
        SurveyUnits::Imperial => LengthUnit::Inch,
    };
    let packet = survey::survey(&options.only, units, paper).map_err(|word| {
        Fault::UnknownForm(word, survey::FORMS.iter().map(|form| form.word).collect())
    })?;
    let language = match options.language {
        Spoken::En => Language::English,
        Spoken::De => Language::German,
    };
    let told = spoken::lay_out(packet, language, survey::own_words);
    if let Some(note) = told.note() {
        eprintln!("{note}");
    }
    for problem in &told.problems {
        eprintln!("rungsheet: {problem}");
    }
    let bytes = print::in_form(&path, options.picture, &told.document)?;
    output::write(Some(&path), &bytes)?;
    if path != Path::new("-") {
        eprintln!("{}: {} sheets", path.display(), told.document.pages.len());
    }
    Ok(())
}
