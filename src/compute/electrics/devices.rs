//! What stands between panels and controller: the isolator, and a fuse a string.

use super::panels::{PanelField, PanelString};
use super::{BRIGHT, Run, rules};
use crate::build::{Build, IsolatorKind};
use crate::source::{Figure, Finding, Ledger, Seen, Severity, Span};
use crate::tables::{FusePlace, Tables};
use crate::units::{Current, Voltage};

/// Preferred currents of switches, A (IEC 60059), as isolators of panels are sold.
const SWITCHES: [f64; 11] = [10.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0];
/// The same beyond, as switches of batteries are sold (from memory).
const LARGE_SWITCHES: [f64; 6] = [160.0, 200.0, 250.0, 315.0, 400.0, 630.0];

/// The next switch for a battery's run.
pub(super) fn next_switch(needs: Current) -> Option<Current> {
    SWITCHES.iter().chain(&LARGE_SWITCHES).map(|amps| Current::a(*amps)).find(|it| *it >= needs)
}
/// Both conductors of panels whose minus is not tied to the vehicle body stay live: both are opened
/// (IEC 62548; IEC 60364-7-712; from memory).
const POLES: u32 = 2;
/// Strings side by side that need no fuses: one can't feed another beyond its own current
/// (IEC 62548; NEC 690.9 (A)).
const STRINGS_WITHOUT_FUSE: u32 = 2;
/// Fuse of a string over its short-circuit current, from and to (IEC 62548, 6.5).
const STRING_FUSE: (f64, f64) = (1.5, 2.4);

/// The switch that parts the panels from the controller.
#[derive(Debug, Clone)]
pub struct Isolator {
    /// Mark on the sheets.
    pub mark: &'static str,
    /// The run that it lies in.
    pub run: String,
    /// Voltage that it must break: open panels on the coldest morning.
    pub voltage: Voltage,
    /// Current that it must break: bright panels in short circuit.
    pub needs: Current,
    /// Its rating.
    pub rating: Current,
    /// Poles opened together.
    pub poles: u32,
}

/// A fuse in the plus of each string.
#[derive(Debug, Clone)]
pub struct StringFuse {
    /// How many: one a string.
    pub count: u32,
    /// Panels in the string that it stands at the head of.
    pub panels: u32,
    /// Type, in words.
    pub kind: String,
    /// What takes it.
    pub holder: String,
    /// Rating.
    pub rating: Current,
    /// Least and greatest rating that would do.
    pub window: (Current, Current),
    /// Current that the other strings can push back into one: a panel whose label allows a fuse of
    /// this much needs none.
    pub back: Current,
    /// Whether the labels are known, so that the fuse is needed for certain.
    pub certain: bool,
}

/// The isolator of the run from the panels.
pub(super) fn isolator(
    build: &Build,
    field: &PanelField,
    runs: &[Run],
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<Isolator> {
    let run = runs.iter().find(|run| run.ends.0 == "panels")?;
    let needs = field.short * BRIGHT;
    let voltage = field.cold.max(field.open);
    let stated = build.isolator.as_ref();
    if let Some(parted) = stated.filter(|parted| *parted.kind != IsolatorKind::Switch) {
        let by_plugs = *parted.kind == IsolatorKind::Plugs;
        findings.push(
            Finding::new(
                &rules::NO_ISOLATOR,
                if by_plugs {
                    "the panels are parted by their plugs alone, which may not be pulled under load"
                        .to_owned()
                } else {
                    "nothing parts the panels from the controller".to_owned()
                },
            )
            .at(parted.kind.span, "this way of parting them")
            .means("in daylight the panels are live: an arc of direct current burns on")
            .help("fit a switch for direct current that opens plus and minus: `kind = \"switch\"`"),
        );
        return None;
    }
    let rated = stated.and_then(|stated| stated.rating.as_ref());
    let next = SWITCHES.iter().map(|amps| Current::a(*amps)).find(|rating| *rating >= needs);
    let Some(rating) = rated.map(|rated| **rated).or(next) else {
        findings.push(
            Finding::new(
                &rules::NO_ISOLATOR,
                format!("no switch of up to 125 A breaks the {:.0} A of the panels", needs.to_a()),
            )
            .at(build.panels.first().map_or(Span::NONE, |panel| panel.span), "these panels")
            .means("the panels could not be parted from the controller in daylight")
            .help("more panels in series, or two controllers with a switch each"),
        );
        return None;
    };
    if let Some(stated) = stated {
        too_small(stated, (needs, voltage), findings);
    }
    let poles = stated.map_or(POLES, |stated| *stated.poles);
    ledger.push(
        Figure::new("electrics.isolator.current", "rating of the isolator S1", rating.to_a(), "A")
            .formula("next of IEC 60059 from 1.25 Isc")
            .input("Isc", format!("{:.1} A", field.short.to_a()))
            .input("1.25 Isc", format!("{:.1} A", needs.to_a()))
            .source("IEC 62548; IEC 60059 currents; IEC 60947-3 DC-21B", Seen::Memory)
            .assume("whether the minus is tied to the body or not, both poles are opened")
            .decides(),
    );
    ledger.push(
        Figure::new(
            "electrics.isolator.voltage",
            "direct voltage that the isolator S1 must break",
            voltage.to_v(),
            "V",
        )
        .formula("open-circuit voltage on the coldest morning")
        .source("IEC 62548; IEC 60947-3", Seen::Memory)
        .decides(),
    );
    Some(Isolator { mark: "S1", run: run.mark.clone(), voltage, needs, rating, poles })
}

/// A switch on hand against what it must break.
fn too_small(
    stated: &crate::build::Isolator,
    (needs, voltage): (Current, Voltage),
    findings: &mut Vec<Finding>,
) {
    const BURNS: &str = "opened in full sun, its contacts stay joined by an arc and burn";
    let mut tell = |at: Span, message: String, means: &str, help: String| {
        findings.push(
            Finding::new(&rules::ISOLATOR_TOO_SMALL, message)
                .at(at, "of the switch on hand")
                .means(means)
                .help(help),
        );
    };
    if let Some(rating) = stated.rating.as_ref().filter(|rating| ***rating < needs) {
        tell(
            rating.span,
            format!(
                "the isolator of {:.0} A is less than {:.1} A, 1.25 times the panels’ short-circuit current",
                rating.to_a(),
                needs.to_a()
            ),
            BURNS,
            "use the next rating, or leave `rating` out: it is then chosen".to_owned(),
        );
    }
    if let Some(volts) = stated.voltage.as_ref().filter(|volts| ***volts < voltage) {
        tell(
            volts.span,
            format!(
                "the isolator breaks {:.0} V; open panels reach {:.1} V on a cold morning",
                volts.to_v(),
                voltage.to_v()
            ),
            BURNS,
            format!("use one that breaks {:.0} V of direct current or more", voltage.to_v().ceil()),
        );
    }
    if *stated.poles < POLES {
        tell(
            stated.poles.span,
            "the isolator opens one pole; the other stays live".to_owned(),
            "whoever takes the other for dead touches the panels’ voltage against the body",
            "use one that opens plus and minus together: `poles = 2`".to_owned(),
        );
    }
}

/// A fuse for each string; none where so few lie side by side that none is asked, or none is sold.
pub(super) fn string_fuse(
    (strings, at): (&[PanelString], Span),
    field: &PanelField,
    tables: &Tables,
    ledger: &mut Ledger,
    findings: &mut Vec<Finding>,
) -> Option<StringFuse> {
    let back_into = |string: &PanelString| field.short - string.short;
    let back = strings.iter().map(back_into).fold(Current::ZERO, Current::max);
    let known = strings.iter().all(|string| string.max_fuse.is_some());
    if field.strings < 2 || (!known && field.strings <= STRINGS_WITHOUT_FUSE) {
        return None;
    }
    let burns = |string: &PanelString| string.max_fuse.is_none_or(|most| back_into(string) > most);
    let needed = strings.iter().any(burns);
    if known {
        let label = strings.iter().filter_map(|string| string.max_fuse).reduce(Current::min)?;
        ledger.push(
            Figure::new(
                "electrics.string-fuse.back",
                "current that the other strings push back into a faulty one",
                back.to_a(),
                "A",
            )
            .formula("I = Σ Isc of the others; a fuse is needed above the label’s greatest")
            .input("label", format!("{:.1} A", label.to_a()))
            .input("needed", if needed { "yes" } else { "no" })
            .source("IEC 62548, 6.5.3", Seen::Verified)
            .decides(),
        );
    }
    if !needed {
        return None;
    }
    let greatest = strings.iter().map(|string| string.short).fold(Current::ZERO, Current::max);
    let most = strings
        .iter()
        .map(|string| {
            let window = string.short * STRING_FUSE.1;
            string.max_fuse.map_or(window, |label| window.min(label))
        })
        .reduce(Current::min)?;
    let window = (greatest * STRING_FUSE.0, most);
    let fuse = tables.fuses.iter().filter(|row| row.place == FusePlace::String).find_map(|row| {
        row.breaking_at(field.cold)?;
        let rating = row.rating_at_or_above(window.0).filter(|rating| *rating <= window.1)?;
        Some(StringFuse {
            count: field.strings,
            panels: field.in_series,
            kind: row.words.clone(),
            holder: row.holder.clone(),
            rating,
            window,
            back,
            certain: known,
        })
    });
    tell_string_fuse((field, at), (window, back, known), fuse.is_some(), findings);
    let fuse = fuse?;
    ledger.push(
        Figure::new("electrics.string-fuse", "fuse of a string", fuse.rating.to_a(), "A")
            .formula("1.5 Isc ≤ rating ≤ 2.4 Isc, and not above the panel's label")
            .input("Isc", format!("{:.2} A", greatest.to_a()))
            .input("from", format!("{:.1} A", window.0.to_a()))
            .input("to", format!("{:.1} A", window.1.to_a()))
            .input("pushed back", format!("{:.1} A", back.to_a()))
            .source("IEC 62548, 6.5", Seen::Verified)
            .decides(),
    );
    Some(fuse)
}

/// Tells that strings need fuses, and where no rating does.
fn tell_string_fuse(
    (field, at): (&PanelField, Span),
    (window, back, known): ((Current, Current), Current, bool),
    sold: bool,
    findings: &mut Vec<Finding>,
) {
    let place = if field.in_series > 1 { "string" } else { "panel" };
    let between = format!("between {:.1} A and {:.1} A", window.0.to_a(), window.1.to_a());
    if !sold {
        findings.push(
            Finding::new(
                &rules::NO_STRING_FUSE,
                if window.0 > window.1 {
                    format!(
                        "{} strings need a fuse each, of {:.1} A at least; {:.1} A are the most that a panel’s label allows",
                        field.strings,
                        window.0.to_a(),
                        window.1.to_a()
                    )
                } else {
                    format!(
                        "{} strings need a fuse each, {between}: none is sold for {:.0} V",
                        field.strings,
                        field.cold.to_v()
                    )
                },
            )
            .at(at, "these panels")
            .means("a faulty panel or plug burns, fed by its neighbours")
            .help("put more panels in series, so that two strings at most lie side by side")
            .help("or give each half of the panels a controller of its own"),
        );
    } else if !known {
        findings.push(
            Finding::new(
                &rules::STRING_FUSES,
                format!(
                    "{} strings side by side can push {:.1} A back into a faulty one",
                    field.strings,
                    back.to_a()
                ),
            )
            .severity(Severity::Caution)
            .at(at, "these panels")
            .means("a faulty panel or plug may burn, fed by its neighbours")
            .help(format!(
                "look on the panel's label for its greatest fuse: if it is under {:.1} A, put a fuse in the plus of each {place}, {between} and not above the label's",
                back.to_a(),
            ))
            .help("say what the label allows with `max-fuse`: fuses are then planned, or left out"),
        );
    }
}
