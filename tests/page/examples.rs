//! The packets of both examples, page by page.

use rungsheet::page::model::Document;
use rungsheet::page::{self, Paper};
use rungsheet::source::Text;
use rungsheet::tables::Tables;
use rungsheet::{compute, derive, read, sheets};

use super::{runs, wrongs};

const EXAMPLES: [(&str, &str); 2] = [
    ("field-van", include_str!("../../examples/field-van.toml")),
    ("harbour-trailer", include_str!("../../examples/harbour-trailer.toml")),
];

fn laid_out(contents: &str, paper: Paper) -> (Document, Vec<page::Problem>) {
    let text = Text::new("build.toml", contents);
    let build = read::read(&text, Tables::builtin()).0.expect("examples read");
    let (work, _) = derive::derive(&build);
    let (results, _) = compute::compute(&build, &work, Tables::builtin());
    let mut packet = sheets::packet(&sheets::Basis {
        build: &build,
        work: &work,
        results: &results,
        findings: &[],
        text: &text,
        bytes: contents.as_bytes(),
    });
    packet.paper = paper;
    page::lay_out(&packet)
}

/// No text lies over another and none leaves the live area (page rules 48 and 52), on either paper;
/// nothing is left out; and a page that goes on with a sheet holds enough to be worth turning to:
/// its lowest words are below the upper fifth.
#[test]
fn pages_of_the_examples_are_whole_on_either_paper() {
    for (name, contents) in EXAMPLES {
        for paper in [Paper::A4, Paper::Letter] {
            let (document, problems) = laid_out(contents, paper);
            let wrongs = wrongs(&document);
            assert!(wrongs.is_empty(), "{name} on {paper:?}: {wrongs:#?}");
            assert!(problems.is_empty(), "{name} on {paper:?}: {problems:#?}");
            for (number, page) in document.pages.iter().enumerate() {
                let lowest = runs(page)
                    .iter()
                    .filter(|(_, furniture)| !furniture)
                    .map(|(run, _)| run.bounds().bottom())
                    .fold(0.0, f64::max);
                assert!(
                    lowest > page.height * 0.22,
                    "{name} on {paper:?}, page {}: words end {lowest:.0} mm from the top",
                    number + 1
                );
            }
        }
    }
}
