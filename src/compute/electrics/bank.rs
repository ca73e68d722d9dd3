//! Several batteries as one: links from each to the next, and a fuse for each string of them.

use super::fuse::{self, Fuse};
use super::single::Single;
use super::{Run, rules, single};
use crate::build::{Battery, Build, RowWay, Terminal};
use crate::compute::cables::Cut;
use crate::source::{Figure, Finding, Ledger, Seen};
use crate::tables::Tables;
use crate::units::{Current, Length};

/// Batteries joined to one.
#[derive(Debug, Clone)]
pub struct Bank {
    /// Marks of the batteries of each string, from its plus on.
    pub strings: Vec<Vec<String>>,
    /// Links, first those within the strings.
    pub links: Vec<Single>,
    /// The fuse at the plus of each string, its mark that of the first; none of a single string.
    pub fuse: Option<Fuse>,
    /// Marks of these fuses.
    pub fuses: Vec<String>,
}

/// How unevenly strings of batteries share: the busiest over the mean; common practice, no source.
const UNEVEN: f64 = 1.25;

/// Batteries that do not fill their strings.
pub(super) fn judge(battery: &Battery, findings: &mut Vec<Finding>) {
    let (count, series) = (*battery.count, *battery.in_series);
    if count.is_multiple_of(series) {
        return;
    }
    findings.push(
        Finding::new(
            &rules::UNEVEN_BANK,
            format!(
                "{count} batteries do not make strings of {series}: {} left over",
                count % series
            ),
        )
        .at(battery.in_series.span, "batteries one behind the other")
        .also(battery.count.span, "this many")
        .means("a string of another voltage drives its current into the others without a limit")
        .help("state a `count` that is a multiple of `in-series`"),
    );
}

/// The bank; none of one battery, and none without a run at it.
pub(super) fn bank(
    build: &Build,
    runs: &[Run],
    bonded: bool,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Bank> {
    let battery = build.battery.as_ref().filter(|battery| *battery.count > 1)?;
    let largest = single::largest_fuse(build, runs)?;
    let marks = battery.marks();
    let series = (*battery.in_series).max(1) as usize;
    let strings: Vec<Vec<String>> =
        marks.chunks(series).filter(|one| one.len() == series).map(<[String]>::to_vec).collect();
    let pitch = match *battery.row {
        RowWay::Across => *battery.width,
        RowWay::Along => *battery.length,
    } + *battery.row_gap;
    let first = build.circuits.len() + 1 + usize::from(bonded);
    let mut links: Vec<Single> = Vec::new();
    let mut link = |from: String, to: String, length: Length, colour: &'static str| {
        let (alone, conductor, gauge) =
            single::beside_battery(build, largest, (length, battery.count.span), tables)?;
        let mark = format!("W{}", first + links.len());
        links.push(Single {
            mark,
            name: "link",
            ends: [from, to],
            cut: Cut::of(&alone, conductor.outer, Length::ZERO, tables),
            conductor,
            gauge,
            fuse: largest,
            insulation: *alone.insulation,
            length,
            colour,
        });
        Some(())
    };
    for string in &strings {
        for pair in string.windows(2) {
            link(format!("{}:\u{2212}", pair[0]), format!("{}:+", pair[1]), pitch, "RD")?;
        }
    }
    let across = pitch * series as f64;
    for pair in strings.windows(2) {
        let heads = [pair[0].first()?, pair[1].first()?].map(|mark| format!("{mark}:+"));
        let tails = [pair[0].last()?, pair[1].last()?].map(|mark| format!("{mark}:\u{2212}"));
        let [a, b] = heads;
        link(a, b, across, "RD")?;
        let [a, b] = tails;
        link(a, b, across, "BK")?;
    }
    if let Some(one) = links.first() {
        let marks: Vec<&str> = links.iter().map(|link| link.mark.as_str()).collect();
        ledger.push(
            Figure::new(
                "electrics.bank.link",
                format!("{}: current that each link of the bank may carry", marks.join(", ")),
                one.conductor.ampacity.to_a(),
                "A",
            )
            .formula("ampacity ≥ largest fuse at the bank")
            .input("fuse", format!("{:.0} A", largest.to_a()))
            .input("size", super::area_words(one.conductor.area))
            .source("common practice: one string may carry all", Seen::CommonPractice)
            .decides(),
        );
    }
    let most = links.first()?.conductor.ampacity;
    let fuse = string_fuse(build, (battery, &strings, most), runs, tables, ledger, findings);
    let fuses = if fuse.is_some() {
        strings.iter().filter_map(|string| Some(format!("X{}", string.first()?))).collect()
    } else {
        Vec::new()
    };
    Some(Bank { strings, links, fuse, fuses })
}

/// What the runs ask of the bank, 1.25 times the current in use.
fn asked(build: &Build, runs: &[Run]) -> Current {
    let sum = |leaves: bool| -> Current {
        build
            .circuits
            .iter()
            .enumerate()
            .filter(|(_, circuit)| {
                if leaves {
                    *circuit.from == Terminal::Battery
                } else {
                    *circuit.to == Terminal::Battery
                }
            })
            .filter_map(|(index, _)| runs.iter().find(|run| run.mark == format!("W{}", index + 1)))
            .map(|run| run.design)
            .sum()
    };
    sum(true).max(sum(false))
}

/// A fuse in the plus of each string: the others feed a fault in it.
fn string_fuse(
    build: &Build,
    (battery, strings, most): (&Battery, &[Vec<String>], Current),
    runs: &[Run],
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Fuse> {
    let count = strings.len();
    if count < 2 {
        return None;
    }
    let share = asked(build, runs) * (UNEVEN / count as f64);
    let source = fuse::Source::of_strings(battery, (count - 1) as f64);
    let head = strings.first()?.first()?;
    let at = format!("plus of {head}");
    let Some(found) = fuse::fit_plain(source, (&format!("X{head}"), &at), share, most, tables)
    else {
        findings.push(
            Finding::new(
                &rules::NO_FUSE,
                format!(
                    "no fuse for each string of the bank is sold between {:.1} A and {:.1} A that breaks {:.1} kA",
                    share.to_a(),
                    most.to_a(),
                    source.feeds().to_ka()
                ),
            )
            .at(battery.count.span, "batteries of the bank")
            .means("a faulty battery is fed by all the others until it burns")
            .help("use fewer, larger batteries"),
        );
        return None;
    };
    ledger.push(
        Figure::new(
            "electrics.bank.fuse",
            "rating of the fuse at the plus of each string of the bank",
            found.rating.to_a(),
            "A",
        )
        .formula("1.25 Σ 1.25 I / n ≤ rating ≤ ampacity of the links; breaks (n − 1) I_short")
        .input("1.25 Σ 1.25 I / n", format!("{:.1} A", share.to_a()))
        .input("n", count.to_string())
        .input("short-circuit current", format!("{:.1}\u{a0}kA", found.feeds.to_ka()))
        .input("breaks", format!("{:.1}\u{a0}kA", found.breaking.to_ka()))
        .source("common practice: strings share unevenly by a quarter", Seen::CommonPractice)
        .decides(),
    );
    Some(found)
}
