//! `print`: the work package.

use super::args::{Format, PaperSize, Picture, Print};
use super::fault::Fault;
use super::said::{Said, said};
use super::spoken::{self, Spoken};
use super::{Ended, compare, jobs, output, pipeline, say};
use crate::build::{Build, Paper};
use crate::page::ProblemKind;
use crate::page::model::Document;
use crate::sheets::compare::{Side, compare as compared, since};
use crate::sheets::{handover, pick};
use crate::source::Stated;
use crate::{paper, sheets, tongue};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Lays out and writes the packets, unless a `stop` finding forbids it and no draft was asked for.
pub fn print(options: &Print) -> Result<(), Ended> {
    let several = options.builds.len() > 1;
    if several && options.output.as_deref().is_some_and(|path| !path.is_dir()) {
        let why = "several packets go into a folder that is there";
        return Err(Fault::Answer("--output".into(), why.into()).into());
    }
    let format = if several { Format::Line } else { Format::Text };
    let work = |path: &Path| said(|said| one(path, options, format, said));
    if options.watch {
        return jobs::watch(&options.builds, &options.own, work);
    }
    apart(options)?;
    jobs::each(&options.builds, work)
}

/// No two packets of one run may go to the same file.
fn apart(options: &Print) -> Result<(), Fault> {
    let mut seen = BTreeSet::new();
    for build in &options.builds {
        let path = goes_to(build, options);
        if !seen.insert(path.clone()) {
            let why = format!("two of the build files would be printed to {}", path.display());
            return Err(Fault::Answer(build.display().to_string(), why));
        }
    }
    Ok(())
}

/// Where a packet goes.
fn goes_to(build: &Path, options: &Print) -> PathBuf {
    match &options.output {
        Some(folder) if folder.is_dir() => folder.join(pipeline::default_output(build)),
        Some(path) => path.clone(),
        None => pipeline::default_output(build),
    }
}

fn one(build: &Path, options: &Print, format: Format, said: &mut Said) -> Result<(), Fault> {
    let path = goes_to(build, options);
    output::keep_apart(build, &path)?;
    let loaded = pipeline::load(build, &options.own, pipeline::For::Sheets)?;
    said.findings(&loaded, format);
    let stopped = loaded.stopped();
    let refused = format!("{}: {}; nothing was printed", loaded.text.name(), say::tally(&loaded));
    let Some(done) = loaded.done.as_ref().filter(|_| loaded.own.is_empty()) else {
        said.line(refused);
        return Ok(());
    };
    if stopped && !options.draft {
        said.line(format_args!("{refused} (--draft prints it marked on every page)"));
        return Ok(());
    }
    let build = on_paper(&done.build, options.paper);
    let basis = sheets::Basis {
        build: &build,
        work: &done.work,
        results: &done.results,
        findings: &loaded.findings,
        text: &loaded.text,
        bytes: &loaded.bytes,
        beside: &loaded.beside,
    };
    let contents = loaded.text.contents();
    let mut packet = sheets::packet_for(&basis, options.printed.unwrap_or(sheets::Printed::TRUE));
    if let Some(wanted) = &options.step {
        let step = handover::find(&basis, wanted).ok_or_else(|| {
            let steps = &done.results.steps.steps;
            let known = steps.iter().map(|step| format!("{} {}", step.number, step.key));
            Fault::UnknownStep(wanted.clone(), known.collect())
        })?;
        handover::hand_over(&mut packet, &basis, step, options.with_sheets);
    }
    if let Some(older) = &options.since {
        let whole_packet = packet.clone();
        let whole =
            spoken::lay_out(packet.clone(), *build.job.language, || tongue::own_words(contents))
                .document;
        compare::against(older, options.paper, &options.own, |old| {
            let new = Side { basis: &basis, packet: &whole_packet, document: &whole };
            since(&mut packet, old, &new, &compared(old, &new));
        })?;
    }
    if !options.only.is_empty() {
        pick::pick(&mut packet, &basis, &options.only).map_err(Fault::UnknownSheet)?;
    }
    // Pages take their room: what they were made of is not needed any more.
    let told = spoken::lay_out(packet, *build.job.language, || tongue::own_words(contents));
    if let Some(note) = told.note() {
        said.line(note);
    }
    let Spoken { document, problems, .. } = told;
    // Sheets that were left out can't be led to.
    let some = !options.only.is_empty() || options.step.is_some() || options.since.is_some();
    for problem in &problems {
        if !(some && problem.kind == ProblemKind::UnknownAnchor) {
            said.line(format_args!("rungsheet: {problem}"));
        }
    }
    let bytes = match options.drawing {
        Some(number) => drawing(&path, (options.picture.page, number), &document)?,
        None => in_form(&path, options.picture, &document)?,
    };
    if path == Path::new("-") {
        said.out = bytes;
    } else {
        output::write(Some(&path), &bytes)?;
        let sheets = document.pages.len();
        said.line(format_args!("{}: {sheets} sheets, {}", path.display(), say::tally(&loaded)));
    }
    // A draft that was asked for is done.
    said.ended = Ok(());
    Ok(())
}

/// The build on the paper that was asked for on the command line.
pub fn on_paper(build: &Build, paper: Option<PaperSize>) -> Build {
    let mut build = build.clone();
    if let Some(size) = paper {
        let size = match size {
            PaperSize::A4 => Paper::A4,
            PaperSize::Letter => Paper::Letter,
        };
        build.job.paper = Stated::default_of(size, "asked for on the command line");
    }
    build
}

/// The document in the form that the file's name asks for.
pub fn in_form(path: &Path, picture: Picture, document: &Document) -> Result<Vec<u8>, Fault> {
    let Picture { page: number, dpi } = picture;
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
