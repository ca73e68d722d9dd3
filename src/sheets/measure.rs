//! What is confirmed with a tape before anything is cut.

use super::words::{bare, bare_inches};
use super::{Basis, Kind};
use crate::build::LengthUnit;
use crate::compute::sizes::Size;
use crate::page::Sheet;
use crate::page::block::{Block, Cell, Heading, Row, Table, TableColumn};
use crate::page::text::Text;

/// The sheet; none where nothing is measured first.
pub(super) fn measure(basis: &Basis) -> Vec<Sheet> {
    let groups = &basis.results.steps.sizes.groups;
    if groups.is_empty() {
        return Vec::new();
    }
    let mut blocks = Vec::new();
    if let Some(roof) = &basis.build.roof {
        blocks.push(Block::Strong(
            format!("Zero of X and Y: {}. Y is negative on the left.", roof.datum.value).into(),
        ));
    }
    for group in groups {
        blocks.push(Block::Heading(Heading::new(group.name).aside(group.aside)));
        blocks.push(Block::Table(table(basis, &group.sizes)));
    }
    let build = basis.build;
    let photos = build.vehicle.iter().flat_map(|vehicle| &vehicle.photos);
    let photos: Vec<_> =
        photos.chain(build.roof.iter().flat_map(|roof| &roof.photos)).cloned().collect();
    let shown = super::photos::blocks(&photos, &basis.results.photos);
    if !shown.is_empty() {
        blocks.push(Block::Heading(Heading::new("As it was surveyed")));
        blocks.extend(shown);
    }
    blocks.push(Block::Heading(Heading::new("If a value lies outside its limits")));
    blocks.push(Block::Bullets(words(basis)));
    vec![Sheet {
        anchor: "measure".into(),
        title: "Sizes to confirm".into(),
        purpose: "What the plan rests on; each is measured before anything is cut.".into(),
        tab: Some(Kind::Measure.tab()),
        steps: None,
        blocks,
        single_sided: true,
    }]
}

fn table(basis: &Basis, list: &[Size]) -> Table {
    let inch = *basis.build.job.units == LengthUnit::Inch;
    let rows = list
        .iter()
        .map(|check| {
            let inches = bare_inches(check.planned);
            let mut cells = vec![
                Cell::Head(check.what.clone().into()),
                bare(check.planned, 1).into(),
                bare(check.limits.low, 1).into(),
                bare(check.limits.high, 1).into(),
                Cell::Blank("mm".into()),
            ];
            if inch {
                cells.insert(2, inches.into());
            }
            Row::new(cells)
        })
        .collect();
    let mut columns = vec![
        TableColumn::left("what"),
        TableColumn::number("planned, mm"),
        TableColumn::number("low, mm"),
        TableColumn::number("high, mm"),
        TableColumn::left("measured"),
    ];
    if inch {
        columns.insert(2, TableColumn::right("planned, in (1/32)"));
    }
    Table { columns, rows, ..Table::default() }
}

fn words(basis: &Basis) -> Vec<Text> {
    let mut list: Vec<Text> =
        vec!["The measured value goes into the build file; the packet is printed anew; its fingerprint changes.".into()];
    if !basis.work.arrays.is_empty() {
        list.push("A panel out of its limits changes frame, cuts and every hole for it.".into());
    }
    if basis.build.roof.is_some() {
        list.push(
            "A gap out of its limits changes bends, bolt heights and packers near it.".into(),
        );
    }
    list.push("Nothing is cut until every box holds a value within its limits.".into());
    list
}
