//! `compare`: what changed between two build files or packets; and the older side of `print --since`.

use super::args::{Compare, Own, PaperSize, Picture};
use super::fault::Fault;
use super::pipeline::Loaded;
use super::{Ended, output, pipeline, print, spoken};
use crate::page::Packet;
use crate::paper;
use crate::sheets::compare::{self, Changes, Fate, Side};
use crate::sheets::{self, Basis};
use crate::tongue;
use std::fmt::Write as _;
use std::path::Path;

/// Largest packet that is opened.
const LARGEST_PACKET: u64 = 256 << 20;

/// A build file, or the build file that travels in a packet.
pub fn load(path: &Path, own: &Own) -> Result<Loaded, Fault> {
    let is_packet = path.extension().is_some_and(|end| end.eq_ignore_ascii_case("pdf"));
    if !is_packet {
        return pipeline::load(path, own, pipeline::For::Sheets);
    }
    let fault = |error| Fault::Read(path.to_owned(), error);
    let size = std::fs::metadata(path).map_err(fault)?.len();
    if size > LARGEST_PACKET {
        return Err(Fault::TooLarge(path.to_owned(), size));
    }
    let bytes = std::fs::read(path).map_err(fault)?;
    let found = paper::recover(&bytes)
        .map_err(|why| Fault::NoBuildFile(path.to_owned(), why.to_string()))?;
    pipeline::run(&path.display().to_string(), path, found.bytes, (own, pipeline::For::Sheets))
}

/// Works the older side out, hands it to what is to be done with it, on the paper of the newer one.
pub fn against<T>(
    path: &Path,
    paper: Option<PaperSize>,
    own: &Own,
    with: impl FnOnce(&Side<'_>) -> T,
) -> Result<T, Fault> {
    let loaded = load(path, own)?;
    let Some(done) = &loaded.done else { return Err(Fault::NotABuild(path.to_owned())) };
    let build = print::on_paper(&done.build, paper);
    let basis = Basis {
        build: &build,
        work: &done.work,
        results: &done.results,
        findings: &loaded.findings,
        text: &loaded.text,
        bytes: &loaded.bytes,
        beside: &loaded.beside,
    };
    let packet = sheets::packet(&basis);
    let contents = loaded.text.contents();
    let document =
        spoken::lay_out(packet.clone(), *build.job.language, || tongue::own_words(contents))
            .document;
    Ok(with(&Side { basis: &basis, packet: &packet, document: &document }))
}

/// Says what changed, and writes the sheet of changes if a file is named.
pub fn compare(options: &Compare) -> Result<(), Ended> {
    let sheet = against(&options.old, options.paper, &options.own, |old| {
        against(&options.new, options.paper, &options.own, |new| {
            let changes = compare::compare(old, new);
            let mut packet = Packet { sheets: Vec::new(), ..new.packet.clone() };
            packet.sheets = vec![compare::change_sheet(&changes)];
            let contents = new.basis.text.contents();
            let told = spoken::lay_out(packet, *new.basis.build.job.language, || {
                tongue::own_words(contents)
            });
            (changes, told)
        })
    })??;
    let (changes, sheet) = sheet;
    output::write(None, told(&changes).as_bytes())?;
    if let Some(path) = &options.output {
        output::keep_apart(&options.old, path)?;
        output::keep_apart(&options.new, path)?;
        if let Some(note) = sheet.note() {
            eprintln!("{note}");
        }
        let bytes = print::in_form(path, Picture { page: 1, dpi: 100.0 }, &sheet.document)?;
        output::write(Some(path), &bytes)?;
    }
    Ok(())
}

fn told(changes: &Changes) -> String {
    let mut text = format!("from {} to {}\n", changes.prints.0, changes.prints.1);
    if changes.is_empty() {
        text.push_str("nothing that is printed differs\n");
        return text;
    }
    for group in &changes.groups {
        let _ = writeln!(text, "\n{}", group.title);
        for row in &group.rows {
            let _ = match (row.before.is_empty(), row.after.is_empty()) {
                (true, _) => writeln!(text, "  new   {}: {}", row.told(), row.after),
                (_, true) => writeln!(text, "  gone  {}: {}", row.told(), row.before),
                _ => writeln!(text, "  {}: {} → {}", row.told(), row.before, row.after),
            };
        }
    }
    let list = |fate: Fate, newer: bool| {
        let pages = changes.of(fate).map(|sheet| {
            let pages = if newer { sheet.after } else { sheet.before };
            match pages {
                Some((first, last)) if first != last => {
                    format!("{} ({first} to {last})", sheet.title)
                }
                Some((first, _)) => format!("{} ({first})", sheet.title),
                None => sheet.title.clone(),
            }
        });
        pages.collect::<Vec<_>>()
    };
    let away = [list(Fate::Changes, false), list(Fate::Goes, false)].concat();
    let print = [list(Fate::Changes, true), list(Fate::Comes, true)].concat();
    for (title, sheets) in
        [("Throw away, by the old numbers", away), ("Print, by the new numbers", print)]
    {
        if !sheets.is_empty() {
            let _ = writeln!(text, "\n{title}\n  {}", sheets.join("\n  "));
        }
    }
    let _ = writeln!(text, "\n{} sheets stay", changes.of(Fate::Stays).count());
    text
}
