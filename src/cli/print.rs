//! `print`: the work package.

use super::args::{Format, PaperSize, Print};
use super::fault::Fault;
use super::{Ended, output, pipeline, say};
use crate::build::Paper;
use crate::page::model::Document;
use crate::sheets::handover;
use crate::source::Stated;
use crate::{page, paper, sheets};
use std::path::Path;

/// Lays out and writes the packet, unless a `stop` finding forbids it and no draft was asked for.
pub fn print(options: &Print) -> Result<(), Ended> {
    let path = options.output.clone().unwrap_or_else(|| pipeline::default_output(&options.build));
    output::keep_apart(&options.build, &path)?;
    let loaded = pipeline::load(&options.build)?;
    say::findings(&loaded, Format::Text);
    let stopped = loaded.stopped();
    let Some(done) = &loaded.done else { return Err(Ended::Stopped) };
    if stopped && !options.draft {
        eprintln!(
            "{}: {}; nothing was printed (--draft prints it marked on every page)",
            loaded.text.name(),
            say::tally(&loaded)
        );
        return Err(Ended::Stopped);
    }
    let mut build = done.build.clone();
    if let Some(size) = options.paper {
        let size = match size {
            PaperSize::A4 => Paper::A4,
            PaperSize::Letter => Paper::Letter,
        };
        build.job.paper = Stated::default_of(size, "asked for on the command line");
    }
    let basis = sheets::Basis {
        build: &build,
        work: &done.work,
        results: &done.results,
        findings: &loaded.findings,
        text: &loaded.text,
        bytes: &loaded.bytes,
    };
    let mut packet = sheets::packet_for(&basis, options.printed.unwrap_or(sheets::Printed::TRUE));
    if let Some(wanted) = &options.step {
        let step = handover::find(&basis, wanted).ok_or_else(|| {
            let steps = &done.results.steps.steps;
            let known = steps.iter().map(|step| format!("{} {}", step.number, step.key));
            Fault::UnknownStep(wanted.clone(), known.collect())
        })?;
        handover::hand_over(&mut packet, &basis, step, options.with_sheets);
    }
    if !options.only.is_empty() {
        keep_only(&mut packet, &options.only)?;
    }
    let (document, problems) = page::lay_out(&packet);
    // Pages take their room: what they were made of is not needed any more.
    drop(packet);
    for problem in &problems {
        eprintln!("rungsheet: sheet {}: {}", problem.sheet, problem.about);
    }
    let bytes = match options.drawing {
        Some(number) => drawing(&path, (options.page, number), &document)?,
        None => in_form(&path, (options.page, options.dpi), &document)?,
    };
    output::write(Some(&path), &bytes)?;
    if path != Path::new("-") {
        eprintln!("{}: {} sheets, {}", path.display(), document.pages.len(), say::tally(&loaded));
    }
    Ok(())
}

/// The document in the form that the file's name asks for; a picture is one page at so many dots by
/// inch.
pub fn in_form(
    path: &Path,
    (number, dpi): (usize, f64),
    document: &Document,
) -> Result<Vec<u8>, Fault> {
    let form = path.extension().and_then(|end| end.to_str()).unwrap_or("pdf").to_lowercase();
    let page = || {
        let index = number.checked_sub(1);
        index
            .and_then(|index| document.pages.get(index))
            .ok_or(Fault::NoPage(number, document.pages.len()))
    };
    let bytes = match form.as_str() {
        "svg" => Ok(paper::svg_page(page()?).into_bytes()),
        "png" => paper::png_page(page()?, dpi),
        _ => paper::pdf(document),
    };
    bytes.map_err(|why| Fault::Paper(why.to_string()))
}

/// One drawing of a page as an SVG file.
fn drawing(
    path: &Path,
    (page, number): (usize, usize),
    document: &Document,
) -> Result<Vec<u8>, Fault> {
    if !path.extension().is_some_and(|end| end.eq_ignore_ascii_case("svg")) {
        return Err(Fault::DrawingNotSvg(path.to_owned()));
    }
    let count = document.pages.len();
    let index = page.checked_sub(1).filter(|at| *at < count).ok_or(Fault::NoPage(page, count))?;
    let drawings = document.drawings(index);
    number
        .checked_sub(1)
        .and_then(|at| drawings.get(at))
        .and_then(|node| paper::svg_drawing(document, *node))
        .map(String::into_bytes)
        .ok_or(Fault::NoDrawing(number, page, drawings.len()))
}

fn keep_only(packet: &mut page::Packet, kinds: &[String]) -> Result<(), Fault> {
    let known = || {
        let mut known: Vec<String> = packet
            .sheets
            .iter()
            .filter_map(|s| s.tab.as_ref())
            .map(|t| t.word.to_lowercase())
            .collect();
        known.dedup();
        known
    };
    for kind in kinds {
        if !known().contains(&kind.to_lowercase()) {
            return Err(Fault::UnknownKind(kind.clone(), known()));
        }
    }
    packet.sheets.retain(|sheet| {
        sheet
            .tab
            .as_ref()
            .is_some_and(|tab| kinds.iter().any(|k| k.eq_ignore_ascii_case(&tab.word)))
    });
    Ok(())
}
