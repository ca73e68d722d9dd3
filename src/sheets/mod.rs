//! From results to sheets: what is printed, in words, tables and drawings.
//!
//! One file a kind of sheet. A sheet takes the [`Basis`] and gives [`page`](crate::page) blocks and
//! scenes; it computes nothing and draws nothing itself. Numbers come from the results and their
//! ledger, names from the work, so that two sheets can't tell the same thing in two ways.

mod battery;
mod bond;
mod cables;
pub mod compare;
mod cover;
mod cut;
mod fixture;
pub mod handover;
mod kind;
mod loads;
mod measure;
mod part;
mod photos;
pub mod pick;
pub mod record;
mod roof;
pub mod safety;
mod scenes;
mod shopping;
pub mod step;
pub mod survey;
mod template;
mod timeline;
mod weights;
mod what_if;
mod wiring;
mod words;
mod worked_out;

use crate::build::{Build, Paper};
use crate::compute::Results;
use crate::derive::Work;
use crate::page::model::Attachment;
use crate::page::{self, Identity, Packet, Sheet};
use crate::source::{Finding, Severity, Text};
use sha2::{Digest, Sha256};

pub use cover::{Headline, headlines};
pub use kind::Kind;
pub use template::printed::Printed;
pub use words::money as price;

/// What the sheets are made from.
#[derive(Clone, Copy)]
pub struct Basis<'a> {
    /// What was written.
    pub build: &'a Build,
    /// What is to be made.
    pub work: &'a Work,
    /// What was worked out.
    pub results: &'a Results,
    /// What was found, in the order in which to deal with it.
    pub findings: &'a [Finding],
    /// The build file's name and text.
    pub text: &'a Text,
    /// Its bytes, which travel in the packet.
    pub bytes: &'a [u8],
    /// Marks of the other files that it was made from: own tables, own steps, photographs.
    pub beside: &'a [u8],
}

impl Basis<'_> {
    /// Tells this packet from any made of other files.
    pub fn fingerprint(&self) -> String {
        fingerprint(&[self.bytes, self.beside])
    }

    /// How many findings of a severity there are.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings.iter().filter(|f| f.severity == severity).count()
    }
}

/// The whole packet, for a printer that holds its sizes.
pub fn packet(basis: &Basis) -> Packet {
    packet_for(basis, Printed::TRUE)
}

/// The whole packet; its templates, and they alone, are drawn for a printer that is a little out.
pub fn packet_for(basis: &Basis, printed: Printed) -> Packet {
    let job = &basis.build.job;
    let mut sheets: Vec<Sheet> = Vec::new();
    let steps = steps_of(basis, &[]);
    sheets.extend(safety::safety(&steps, &Kind::Safety.tab()));
    sheets.extend(measure::measure(basis));
    sheets.extend(what_if::what_if(basis));
    sheets.extend(shopping::shopping(basis));
    sheets.extend(roof::roof(basis));
    sheets.extend(cut::cut(basis));
    sheets.extend(part::part(basis));
    sheets.extend(template::template(basis, printed));
    sheets.extend(loads::loads(basis));
    sheets.extend(fixture::fixture(basis));
    sheets.extend(bond::bond(basis));
    sheets.extend(wiring::wiring(basis));
    sheets.extend(cables::cables(basis));
    sheets.extend(battery::battery(basis));
    sheets.extend(weights::weights(basis));
    sheets.extend(timeline::timeline(basis));
    let others = handover::firsts(&sheets);
    let steps = steps_of(basis, &others);
    sheets.extend(step::step(&steps, &Kind::Step.tab()));
    sheets.extend(worked_out::worked_out(basis));
    let drive = basis.results.plan.as_ref().map(|plan| plan.drive.0);
    let ready = record::ready(*basis.build.crew.start, drive);
    sheets.extend(record::record(&steps, ready, &Kind::Record.tab()));
    sheets.extend(record::booklet(basis));
    // The cover lists the others.
    sheets.insert(0, cover::cover(basis, &sheets));
    let stops = basis.count(Severity::Stop);
    Packet {
        paper: match *job.paper {
            Paper::A4 => page::Paper::A4,
            Paper::Letter => page::Paper::Letter,
        },
        identity: Identity {
            number: job.number.value.clone(),
            title: job.title.value.clone(),
            revision: job.revision.value.clone(),
            date: job.date.to_string(),
            fingerprint: basis.fingerprint(),
        },
        subject: format!("Work package: {}", job.title.value),
        author: job.by.value.clone(),
        language: "en".into(),
        voice: page::Voice::default(),
        sheets,
        duplex: false,
        draft: (stops > 0).then(|| match stops {
            1 => "one stop finding is open".to_owned(),
            many => format!("{many} stop findings are open"),
        }),
        attachment: Some(Attachment {
            name: file_name(basis.text.name()),
            description: "build file that this packet was made from".into(),
            bytes: basis.bytes.into(),
            mime: "application/toml".into(),
        }),
    }
}

/// What step, safety and record sheets are made from.
fn steps_of<'a>(basis: &Basis<'a>, others: &'a [(&'static str, String)]) -> step::StepBasis<'a> {
    step::StepBasis {
        build: basis.build,
        work: basis.work,
        steps: &basis.results.steps,
        cures: &basis.results.cures,
        photos: &basis.results.photos,
        others,
    }
}

/// The last part of a path, for the attachment: no folder of the reader's machine goes to print.
fn file_name(path: &str) -> String {
    let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
    if name.is_empty() || name == "standard input" { "build.toml".into() } else { name.into() }
}

/// Eight characters of the hash of these bytes, in two groups, without glyphs that are taken for
/// others (0 O 1 I 2 Z 5 S Q).
fn fingerprint(all: &[&[u8]]) -> String {
    const GLYPHS: &[u8; 24] = b"34679ACDEFGHJKLMNPRTUVWX";
    let hash = all.iter().fold(Sha256::new(), Sha256::chain_update).finalize();
    let glyph = |byte: &u8| char::from(GLYPHS[usize::from(*byte) % GLYPHS.len()]);
    let mut print: String = hash.iter().take(8).map(glyph).collect();
    print.insert(4, ' ');
    print
}
