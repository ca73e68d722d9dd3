//! The booklet of a real packet, folded on paper that is folded here.

use crate::page::{runs, wrongs};
use crate::support::worked;
use rungsheet::page::model::GlyphRun;
use rungsheet::page::{Packet, lay_out};
use rungsheet::sheets;

const VAN: &str = include_str!("../../examples/field-van.toml");
const TRAILER: &str = include_str!("../../examples/harbour-trailer.toml");

fn booklet(contents: &str) -> Packet {
    let made = worked(contents);
    let mut packet = sheets::packet(&made.basis());
    packet.sheets.retain(|sheet| sheet.anchor == "booklet");
    packet
}

/// A page of the booklet on the flat sheet: cell, and whether it is read upside down.
struct Place {
    column: usize,
    row: usize,
    turned: bool,
}

fn places(packet: &Packet) -> (Vec<Place>, (f64, f64)) {
    let (document, problems) = lay_out(packet);
    assert_eq!(problems, []);
    assert_eq!(document.pages.len(), 1);
    assert_eq!(wrongs(&document), Vec::<String>::new());
    let page = &document.pages[0];
    let all = runs(page);
    // The number at each panel's foot is a run of its own among the furniture.
    let number = |n: usize| -> &GlyphRun {
        let told = n.to_string();
        let found = all.iter().find(|(run, furniture)| *furniture && run.text == told);
        found.unwrap_or_else(|| panic!("no page {n}")).0
    };
    let places = (1..=8).map(|n| {
        let run = number(n);
        let area = run.bounds();
        Place {
            column: (area.x / (page.width / 4.0)) as usize,
            row: (area.y / (page.height / 2.0)) as usize,
            turned: (run.angle - 180.0).abs() < 1e-9,
        }
    });
    (places.collect(), (page.width, page.height))
}

/// The sheet is folded flat along its lines: each fold is a reflection, so that all cells come to lie on
/// one. There the words of all pages must point up, the spine must be one edge, and the paper must run
/// from each page to the next without crossing the cut.
#[test]
fn folded_it_is_a_book_of_eight_pages_in_order() {
    for contents in [VAN, TRAILER] {
        let (places, _) = places(&booklet(contents));
        for (index, place) in places.iter().enumerate() {
            let number = index + 1;
            // Up on the flat sheet, then mirrored by the fold between the rows where the cell is above it.
            let up_flat = if place.turned { -1.0 } else { 1.0 };
            let up = if place.row == 0 { -up_flat } else { up_flat };
            assert_eq!(up, 1.0, "page {number} stands on its head");
            // The spine is at the left of an odd page and at the right of an even one, as it is read.
            let at_left = (number % 2 == 1) != place.turned;
            let line = place.column + usize::from(!at_left);
            // Lines 1 and 3 come together when the sheet is folded; 0, 2 and 4 are the open edge.
            assert_eq!(line % 2, 1, "page {number}: the spine is at line {line}");
        }
        for number in 1..=8 {
            let (a, b) = (&places[number - 1], &places[number % 8]);
            let beside = a.row == b.row && a.column.abs_diff(b.column) == 1;
            let over = a.column == b.column && a.row != b.row;
            // The cut parts the rows in the two middle columns.
            let held = beside || (over && (a.column == 0 || a.column == 3));
            assert!(held, "no paper joins page {number} and the next");
        }
    }
}

#[test]
fn it_tells_what_the_packet_tells() {
    let made = worked(VAN);
    let packet = booklet(VAN);
    let told =
        format!("{:?}", packet.sheets[0].blocks).replace('\u{202f}', "").replace("\\u{202f}", "");
    let (_, height) = made.results.weights.height.expect("a height");
    assert!(told.contains(&format!("{:.0}\\u{{a0}}mm", height.to_mm())), "height");
    for tightening in &made.results.fasteners {
        assert!(told.contains(&tightening.thread), "{}", tightening.thread);
    }
    let electrics = made.results.electrics.as_ref().expect("electrics");
    for run in &electrics.runs {
        for fuse in [&run.fuse, &run.load_fuse].into_iter().flatten() {
            assert!(told.contains(&format!("fuse {}", fuse.mark)), "{}", fuse.mark);
            assert!(
                told.contains(&format!("{:.0}\\u{{a0}}A", fuse.rating.to_a())),
                "{}",
                fuse.mark
            );
        }
    }
}

#[test]
fn every_example_on_a_vehicle_has_one_that_fits_on_both_papers() {
    for (contents, wanted) in [
        (VAN, true),
        (TRAILER, true),
        (include_str!("../../examples/forest-pod.toml"), true),
        (include_str!("../../examples/rescue-minibus.toml"), true),
        (include_str!("../../examples/galley-shelf.toml"), false),
        (include_str!("../../examples/roof-fan.toml"), true),
        (include_str!("../../examples/wheel-carrier.toml"), true),
    ] {
        let mut packet = booklet(contents);
        assert_eq!(packet.sheets.len(), usize::from(wanted));
        if wanted {
            for paper in [rungsheet::page::Paper::A4, rungsheet::page::Paper::Letter] {
                packet.paper = paper;
                let (document, problems) = lay_out(&packet);
                assert_eq!(problems, [], "{paper:?}");
                assert_eq!(document.pages.len(), 1);
            }
        }
    }
}
