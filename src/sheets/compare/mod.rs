//! Two builds held against each other: what changed in words of the workshop, which sheets go, which
//! come, and what differs on those that are printed anew.
//!
//! Both sides are whole: builds that were worked out, and the packets made from them. A sheet is the
//! same if all that it says is the same; page numbers, revision and fingerprint are not what it says.

mod keys;
mod marked;
mod sheet;
mod work;

pub use marked::mark;
pub use sheet::{change_sheet, since};

use super::{Basis, Printed, template};
use crate::page::model::Document;
use crate::page::{Packet, Sheet};
use std::collections::BTreeMap;

/// One side.
#[derive(Clone, Copy)]
pub struct Side<'a> {
    /// What it was made from.
    pub basis: &'a Basis<'a>,
    /// Its packet.
    pub packet: &'a Packet,
    /// Its pages.
    pub document: &'a Document,
}

/// Everything that changed.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Changes {
    /// Groups of changes, those that have any.
    pub groups: Vec<Group>,
    /// Every sheet of both packets, in the order of the newer one.
    pub sheets: Vec<SheetChange>,
    /// Fingerprints of the older and the newer packet.
    pub prints: (String, String),
}

/// Changes of one kind.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Group {
    /// What they are of.
    pub title: &'static str,
    /// What changed.
    pub rows: Vec<Change>,
}

/// One change.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Change {
    /// The key of the build file with the names on its way, where it is one: "mount F, angle-length".
    pub key: String,
    /// What it is about.
    pub what: String,
    /// As it was; empty: it was not there.
    pub before: String,
    /// As it is; empty: it is gone.
    pub after: String,
}

impl Change {
    /// The key, if it is one, and what it is about.
    pub fn told(&self) -> String {
        match (self.key.as_str(), self.what.as_str()) {
            ("", what) => what.to_owned(),
            (key, "") => key.to_owned(),
            (key, what) => format!("{key}: {what}"),
        }
    }
}

/// What becomes of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// It says the same: the old one may stay.
    Stays,
    /// It says something else: the old one goes, the new one comes.
    Changes,
    /// It was not there.
    Comes,
    /// It is not there any more.
    Goes,
}

/// A sheet of either packet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetChange {
    /// Its name.
    pub anchor: String,
    /// Its title.
    pub title: String,
    /// What becomes of it.
    pub fate: Fate,
    /// First and last page in the older packet.
    pub before: Option<(usize, usize)>,
    /// First and last page in the newer packet.
    pub after: Option<(usize, usize)>,
}

impl Changes {
    /// Whether nothing that is printed changed.
    pub fn is_empty(&self) -> bool {
        self.groups.is_empty() && self.sheets.iter().all(|sheet| sheet.fate == Fate::Stays)
    }

    /// Sheets of one fate.
    pub fn of(&self, fate: Fate) -> impl Iterator<Item = &SheetChange> {
        self.sheets.iter().filter(move |sheet| sheet.fate == fate)
    }
}

/// What changed from the older to the newer.
pub fn compare(old: &Side<'_>, new: &Side<'_>) -> Changes {
    let mut groups =
        vec![Group { title: "In the build file", rows: keys::changes(old.basis, new.basis) }];
    groups.extend(work::changes(old.basis, new.basis));
    groups.retain(|group| !group.rows.is_empty());
    Changes {
        groups,
        sheets: sheets(old, new),
        prints: (old.basis.fingerprint(), new.basis.fingerprint()),
    }
}

/// Title of a sheet; the booklet's own is that of the job.
fn title(sheet: &Sheet) -> String {
    match sheet.anchor.as_str() {
        "cover" => "Cover".into(),
        "booklet" => "Pocket booklet".into(),
        _ => sheet.title.clone(),
    }
}

/// All that a sheet says, but for what tells the packets apart: parts that are cut out carry their
/// identity in their drawing.
fn said(sheet: &Sheet, packet: &Packet) -> String {
    // The job strip is furniture: another step in the job makes no other sheet.
    let mut said = format!("{}\n{}\n{:?}", sheet.title, sheet.purpose, sheet.blocks);
    let identity = &packet.identity;
    // The halves of a fingerprint apart, as a line may break between them.
    for own in identity.fingerprint.split(' ').chain([identity.date.as_str()]) {
        if !own.is_empty() {
            said = said.replace(own, "");
        }
    }
    if !identity.revision.is_empty() {
        for space in [" ", "\\u{a0}"] {
            said = said.replace(&format!("rev{space}{}", identity.revision), "");
        }
    }
    said
}

/// The older templates as they would be drawn with the newer identity, whose letters have other widths.
fn templates_named_anew(old: &Basis<'_>, new: &Basis<'_>) -> Vec<Sheet> {
    let mut build = old.build.clone();
    build.job.revision = new.build.job.revision.clone();
    build.job.date = new.build.job.date;
    let old = Basis { build: &build, bytes: new.bytes, beside: new.beside, ..*old };
    template::template(&old, Printed::TRUE)
}

fn sheets(old: &Side<'_>, new: &Side<'_>) -> Vec<SheetChange> {
    let (pages_old, pages_new) = (pages(old), pages(new));
    let before: BTreeMap<&str, &Sheet> =
        old.packet.sheets.iter().map(|sheet| (sheet.anchor.as_str(), sheet)).collect();
    let named_anew = templates_named_anew(old.basis, new.basis);
    let stays = |was: &Sheet, sheet: &Sheet| {
        let same = |was: &Sheet, of: &Packet| said(was, of) == said(sheet, new.packet);
        same(was, old.packet)
            || named_anew.iter().any(|made| made.anchor == was.anchor && same(made, new.packet))
    };
    let mut list: Vec<SheetChange> = new
        .packet
        .sheets
        .iter()
        .map(|sheet| SheetChange {
            anchor: sheet.anchor.clone(),
            title: title(sheet),
            fate: match before.get(sheet.anchor.as_str()) {
                None => Fate::Comes,
                Some(was) if stays(was, sheet) => Fate::Stays,
                Some(_) => Fate::Changes,
            },
            before: pages_old.get(&sheet.anchor).copied(),
            after: pages_new.get(&sheet.anchor).copied(),
        })
        .collect();
    let gone = old.packet.sheets.iter().filter(|sheet| !pages_new.contains_key(&sheet.anchor));
    list.extend(gone.map(|sheet| SheetChange {
        anchor: sheet.anchor.clone(),
        title: title(sheet),
        fate: Fate::Goes,
        before: pages_old.get(&sheet.anchor).copied(),
        after: None,
    }));
    list
}

/// First and last page of each sheet, from 1.
fn pages(side: &Side<'_>) -> BTreeMap<String, (usize, usize)> {
    let first = |sheet: &Sheet| {
        let places = &side.document.destinations;
        places.iter().find(|place| place.name == sheet.anchor).map(|place| place.page)
    };
    let starts: Vec<Option<usize>> = side.packet.sheets.iter().map(first).collect();
    let mut map = BTreeMap::new();
    for (index, sheet) in side.packet.sheets.iter().enumerate() {
        let Some(start) = starts[index] else { continue };
        let end = starts[index + 1..].iter().flatten().next().copied();
        map.insert(sheet.anchor.clone(), (start + 1, end.unwrap_or(side.document.pages.len())));
    }
    map
}
