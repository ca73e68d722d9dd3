//! The cut list on the way a build file takes: every piece once, bars that add up, any order of
//! tables, leftovers that can be pasted.

use crate::support::{Worked, worked};
use proptest::prelude::*;
use rungsheet::build::Build;
use rungsheet::compute::cut_list::{CutList, cut_list, leftover_lines};
use rungsheet::compute::electrics::Run;
use rungsheet::source::{Finding, Ledger, Severity, Text};
use rungsheet::tables::Tables;
use rungsheet::{derive, read};
use std::fmt::Write as _;

const HEAD: &str = "format = 1\n[job]\ntitle = \"Bench\"\ndate = \"2026-05-09\"\n\
                    [cutting]\nsaw = \"mitre-saw\"\nkerf = 2\nsheet-kerf = 1.5\nsheet-trim = 3\n";

fn plan(contents: &str) -> (Build, Option<CutList>, Vec<Finding>) {
    let (build, mut findings) = read::read(&Text::new("build.toml", contents), Tables::builtin());
    let build = build.unwrap_or_else(|| panic!("{contents}\n{findings:#?}"));
    let (work, more) = derive::derive(&build);
    findings.extend(more);
    let mut ledger = Ledger::new();
    let list = cut_list(&build, &work, None, Tables::builtin(), &mut ledger, &mut findings);
    (build, list, findings)
}

/// A random bench job as tables of the build file.
#[derive(Debug, Clone)]
struct Bench {
    tables: Vec<String>,
    pieces: usize,
}

fn bench() -> impl Strategy<Value = Bench> {
    let bars = prop::collection::vec((60.0_f64..900.0, 1_u32..4, 0_usize..5), 1..5);
    let plates = prop::collection::vec((20.0_f64..300.0, 20.0_f64..200.0, 1_u32..3), 0..3);
    let lengths = prop::collection::vec((100.0_f64..3000.0, 1_u32..3), 0..3);
    (bars, plates, lengths, prop::bool::ANY).prop_map(|(bars, plates, lengths, kept)| {
        const ENDS: [(&str, &str); 5] =
            [("0°", "0°"), ("45°", "45°"), ("45°", "-45°"), ("30°", "30°"), ("0°", "-45°")];
        let mut tables = Vec::new();
        let mut pieces = 0;
        let mut mark = ('A'..='Z').map(|a| format!("P{a}"));
        let mut add = |what: &str, count: u32| {
            let mark = mark.next().expect("few parts");
            pieces += count as usize;
            tables.push(format!(
                "[[part]]\nmark = \"{mark}\"\nname = \"part {mark}\"\ncount = {count}\n{what}"
            ));
        };
        for (length, count, ends) in bars {
            let (zero, far) = ENDS[ends];
            add(
                &format!(
                    "section = \"aluminium-tube-25x25x2\"\nlength = {length:.2}\n\
                     zero-end = \"{zero}\"\nfar-end = \"{far}\"\n"
                ),
                count,
            );
        }
        for (length, width, count) in plates {
            add(
                &format!(
                    "material = \"aluminium-5754-h22\"\nthickness = 2\n\
                     length = {length:.1}\nwidth = {width:.1}\n"
                ),
                count,
            );
        }
        for (length, count) in lengths {
            add(&format!("stuff = \"earth cable\"\nlength = {length:.1}\n"), count);
        }
        for (length, price) in [(2000, "14.90"), (3000, "21.50")] {
            tables.push(format!(
                "[[stock]]\nsection = \"aluminium-tube-25x25x2\"\nlength = {length}\nprice = \"{price}\"\n"
            ));
        }
        tables.push(
            "[[stock]]\nmaterial = \"aluminium-5754-h22\"\nthickness = 2\nlength = 1000\n\
             width = 500\nprice = \"31\"\n"
                .into(),
        );
        tables.push(
            "[[stock]]\nstuff = \"earth cable\"\nlength = 10000\nprice = \"9.90\"\n".into(),
        );
        if kept {
            tables.push(
                "[[leftover]]\nsection = \"aluminium-tube-25x25x2\"\nlength = 1120\ncount = 2\n\
                 label = \"K1\"\n"
                    .into(),
            );
        }
        Bench { tables, pieces }
    })
}

/// What the saw does, as plain values.
fn told(list: &CutList) -> String {
    let mut text = String::new();
    for bar in &list.bars {
        let _ = writeln!(text, "{} {} {:?}", bar.section.name, bar.length, bar.on_hand);
        for cut in &bar.cuts {
            let _ = writeln!(text, "  {} {:.2} {:.2}", cut.mark, cut.from.to_mm(), cut.to.to_mm());
        }
    }
    for plate in &list.plates {
        let _ = writeln!(text, "{} {}", plate.length, plate.width);
        for piece in &plate.pieces {
            let _ = writeln!(text, "  {} {:?} {:?}", piece.mark, piece.at, piece.lies);
        }
    }
    text
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_piece_is_cut_once_and_every_bar_adds_up(bench in bench()) {
        let (_, list, findings) = plan(&(HEAD.to_owned() + &bench.tables.concat()));
        prop_assert!(findings.iter().all(|f| f.severity != Severity::Stop), "{findings:#?}");
        let list = list.expect("there is a plan");
        let mut marks: Vec<&str> = list
            .bars
            .iter()
            .flat_map(|bar| bar.cuts.iter().map(|cut| cut.mark.as_str()))
            .chain(list.plates.iter().flat_map(|p| p.pieces.iter().map(|c| c.mark.as_str())))
            .collect();
        prop_assert_eq!(marks.len(), bench.pieces);
        marks.sort_unstable();
        marks.dedup();
        prop_assert_eq!(marks.len(), bench.pieces);
        for bar in &list.bars {
            let pieces: f64 = bar.cuts.iter().map(|cut| cut.length.to_mm()).sum();
            let sum = bar.trim.to_mm() + pieces - bar.nested.to_mm() + bar.saw.to_mm()
                + bar.rest.to_mm();
            prop_assert!((sum - bar.length.to_mm()).abs() < 0.01, "{sum} of {}", bar.length);
            for pair in bar.cuts.windows(2) {
                prop_assert!(pair[0].from < pair[1].from && pair[0].to < pair[1].to);
            }
            for cut in &bar.cuts {
                prop_assert!((cut.to - cut.from - cut.length).abs().to_mm() < 0.006);
            }
        }
        for plate in &list.plates {
            for (n, a) in plate.pieces.iter().enumerate() {
                let inside = |at: f64, size: f64, whole: f64| {
                    at >= plate.trim.to_mm() - 1e-6 && at + size <= whole - plate.trim.to_mm() + 1e-6
                };
                prop_assert!(inside(a.at.0.to_mm(), a.lies.0.to_mm(), plate.length.to_mm()));
                prop_assert!(inside(a.at.1.to_mm(), a.lies.1.to_mm(), plate.width.to_mm()));
                for b in &plate.pieces[n + 1..] {
                    let clear = |p: f64, long: f64, q: f64| p + long + 1.5 <= q + 1e-6;
                    let apart = |a: (f64, f64), b: (f64, f64)| {
                        clear(a.0, a.1, b.0) || clear(b.0, b.1, a.0)
                    };
                    let x = |p: &rungsheet::compute::cut_list::PlatePiece| (p.at.0.to_mm(), p.lies.0.to_mm());
                    let y = |p: &rungsheet::compute::cut_list::PlatePiece| (p.at.1.to_mm(), p.lies.1.to_mm());
                    prop_assert!(apart(x(a), x(b)) || apart(y(a), y(b)), "{} {}", a.mark, b.mark);
                }
            }
        }
    }

    #[test]
    fn any_order_of_tables_gives_the_same_plan(bench in bench(), turn in 0_usize..12, back in prop::bool::ANY) {
        let mut other = bench.tables.clone();
        let long = other.len();
        other.rotate_left(turn % long);
        if back {
            other.reverse();
        }
        let first = plan(&(HEAD.to_owned() + &bench.tables.concat())).1.expect("a plan");
        let second = plan(&(HEAD.to_owned() + &other.concat())).1.expect("a plan");
        prop_assert_eq!(told(&first), told(&second));
    }

    #[test]
    fn leftovers_can_be_pasted_into_the_next_build_file(bench in bench()) {
        let contents = HEAD.to_owned() + &bench.tables.concat();
        let (build, list, _) = plan(&contents);
        let list = list.expect("a plan");
        let lines = leftover_lines(&build, &list);
        let parts: String =
            bench.tables.iter().filter(|t| !t.starts_with("[[leftover]]")).cloned().collect();
        let (next, _, findings) = plan(&(HEAD.to_owned() + &parts + &lines));
        prop_assert!(findings.iter().all(|f| f.severity == Severity::Note), "{findings:#?}");
        let kept = list.bars.iter().filter(|bar| bar.rest_mark.is_some()).count();
        let sheets: usize =
            list.plates.iter().map(|p| p.rests.iter().filter(|r| r.mark.is_some()).count()).sum();
        let used = list.bars.iter().filter(|bar| bar.on_hand.is_some()).count();
        let unused: usize = build.leftovers.iter().map(|l| *l.count as usize).sum::<usize>() - used;
        let told: usize = next.leftovers.iter().map(|l| *l.count as usize).sum();
        prop_assert_eq!((told, next.sheet_leftovers.len()), (kept + unused, sheets));
    }
}

#[test]
fn a_sheet_part_larger_than_any_sheet_is_told_with_its_mark() {
    let part = "[[part]]\nmark = \"G\"\nname = \"lid\"\nmaterial = \"aluminium-5754-h22\"\n\
                thickness = 2\nlength = 400\nwidth = 600\nturn = \"no\"\n";
    let stock = "[[stock]]\nmaterial = \"aluminium-5754-h22\"\nthickness = 2\nlength = 1000\n\
                 width = 500\nprice = \"31\"\n";
    let (_, list, findings) = plan(&(HEAD.to_owned() + part + stock));
    assert!(list.is_none());
    assert_eq!(findings[0].rule.code, "C002");
    assert!(findings[0].message.contains("G (400 by 600 mm)"), "{}", findings[0].message);
    // Turned it fits.
    let (_, list, _) = plan(&(HEAD.to_owned() + &part.replace("\"no\"", "\"yes\"") + stock));
    assert_eq!(list.expect("a plan").plates.len(), 1);
}

#[test]
fn sheets_the_other_way_round_cost_the_same() {
    let file = |a: &str, b: &str| {
        format!(
            "{HEAD}[[part]]\nmark = \"G\"\nname = \"gusset\"\nmaterial = \"aluminium-5754-h22\"\n\
             thickness = 2\n{a} = 210\n{b} = 130\ncount = 7\nturn = \"no\"\n\
             [[part]]\nmark = \"P\"\nname = \"pad\"\nmaterial = \"aluminium-5754-h22\"\n\
             thickness = 2\n{a} = 85\n{b} = 60\ncount = 5\nturn = \"no\"\n\
             [[stock]]\nmaterial = \"aluminium-5754-h22\"\nthickness = 2\n{a} = 600\n{b} = 300\n\
             price = \"12\"\n"
        )
    };
    let cost = |list: Option<CutList>| {
        let list = list.expect("a plan");
        let section = &list.sheet_sections[0];
        assert!(section.proven);
        (section.price, section.bound, section.leftover)
    };
    assert_eq!(cost(plan(&file("length", "width")).1), cost(plan(&file("width", "length")).1));
}

/// A hole near the short side of a mitre is nearer to the slanting end than its place along the part
/// tells: 25 mm side at 45°, by hand.
#[test]
fn a_hole_keeps_its_distance_from_a_slanting_end() {
    let told = |x: f64, y: f64| {
        let file = format!(
            "{HEAD}[[part]]\nmark = \"S\"\nname = \"rail\"\nsection = \"aluminium-flat-25x3\"\n\
             length = 200\nzero-end = \"45°\"\nfar-end = \"45°\"\n\
             [[hole]]\npart = \"S\"\nface = \"top\"\nx = {x}\ny = {y}\ndiameter = 4\n\
             purpose = \"clearance\"\n\
             [[stock]]\nsection = \"aluminium-flat-25x3\"\nlength = 2000\nprice = \"5\"\n"
        );
        let (build, _) = read::read(&Text::new("build.toml", file), Tables::builtin());
        let (work, findings) = derive::derive(&build.expect("it reads"));
        (work.holes[0].edge.has.to_mm(), findings.iter().any(|f| f.rule.code == "H001"))
    };
    // On the near side, 6 mm in, the end lies 25 - 6 = 19 mm behind the long point: at 28 mm the side
    // is nearer, at 20 mm the end is, by 1 / sqrt(2).
    assert_eq!(told(28.0, 6.0), (6.0, false));
    let (has, raised) = told(20.0, 6.0);
    assert!((has - 0.5_f64.sqrt()).abs() < 1e-9 && raised, "{has}");
    // On the far side the end lies 6 mm behind it.
    assert_eq!(told(20.0, 19.0), (6.0, false));
}

/// Cores of the cable runs are cut from the reels that are stated, once each, and what no reel is stated
/// for is bought by the metre.
#[test]
fn cores_are_cut_from_stated_reels() {
    let van = include_str!("../../examples/field-van.toml");
    let metres = |made: &Worked| -> Vec<String> {
        let shelf = made.results.shopping.shelves.iter().find(|s| s.name == "electrical");
        let lines = shelf.expect("cables are bought").lines.iter();
        lines.filter(|l| l.what.contains("stranded")).map(|l| l.what.clone()).collect()
    };
    let plain = worked(van);
    let runs = &plain.results.electrics.as_ref().expect("runs").runs;
    let (run, circuit) = (&runs[0], &plain.build.circuits[0]);
    let size = &run.conductor.as_ref().expect("a size").name;
    let insulation = match *circuit.insulation {
        rungsheet::build::Insulation::Pvc70 => "pvc-70",
        rungsheet::build::Insulation::Pvc105 => "pvc-105",
        rungsheet::build::Insulation::Solar => "pv",
    };
    let reel = |colour: &str| {
        format!(
            "\n[[stock]]\ncable = \"{size}\"\ninsulation = \"{insulation}\"\ncolour = \"{colour}\"\n\
             length = \"25 m\"\nprice = \"31.00\"\n"
        )
    };
    let made = worked(&format!("{van}{}{}", reel("red"), reel("black")));
    let cuts = made.results.cuts.as_ref().expect("a list");
    let from_reel: Vec<_> = cuts.bars.iter().filter(|bar| !bar.section.sawn).collect();
    assert_eq!(from_reel.len(), 2, "one reel a colour");
    let mut told: Vec<(&str, f64)> = from_reel
        .iter()
        .flat_map(|bar| &bar.cuts)
        .map(|cut| (cut.mark.as_str(), cut.length.to_mm()))
        .collect();
    told.sort_by(|a, b| a.0.cmp(b.0));
    // Every run of the same core and no other.
    let alike = |other: &&Run| {
        let index: usize = other.mark[1..].parse().expect("a number");
        other.conductor.as_ref().is_some_and(|c| c.name == *size)
            && *made.build.circuits[index - 1].insulation == *circuit.insulation
    };
    let mut wanted: Vec<(String, f64)> = runs
        .iter()
        .filter(alike)
        .flat_map(|r| {
            ["+", "\u{2212}"].map(|sign| (format!("{}{sign}", r.mark), r.cut.all.to_mm()))
        })
        .collect();
    wanted.sort_by(|a, b| a.0.cmp(&b.0));
    assert_eq!(told.len(), wanted.len());
    for (told, wanted) in told.iter().zip(&wanted) {
        assert!(told.0 == wanted.0 && (told.1 - wanted.1).abs() < 0.006, "{told:?} {wanted:?}");
    }
    assert_eq!(metres(&made).len() + 2, metres(&plain).len(), "no core is bought twice");
    // What comes home can be pasted into the next build file and is a reel there.
    let home = leftover_lines(&made.build, cuts);
    let next = worked(&format!("{van}\n{home}"));
    let cores = next
        .results
        .cuts
        .as_ref()
        .expect("a list")
        .bars
        .iter()
        .filter(|bar| !bar.section.sawn && bar.on_hand.is_some());
    assert_eq!(cores.count(), 2);
}
