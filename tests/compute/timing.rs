//! Weather, cure and plan of whole builds.

use crate::support::{Worked, worked};
use rungsheet::compute::cure::{ByHour, Stage};
use rungsheet::read;
use rungsheet::source::Text;
use rungsheet::tables::Tables;

const FEET: &str = include_str!("../findings/T206-wait-not-kept.toml");
const TRAPPED: &str = include_str!("../findings/T002-bead-trapped.toml");
const AIR: &str = "day = { temperature = \"15 °C\", humidity = \"62 %\" }\n\
                   night = { temperature = \"7 °C\", humidity = \"86 %\" }";

/// The build of two lines of feet, with other air and nothing recorded.
fn feet(air: &str) -> String {
    let plain = FEET.split("[[record]]").next().expect("a first part");
    assert!(plain.contains(AIR));
    plain.replace(AIR, air)
}

fn drive(made: &Worked) -> f64 {
    made.results.plan.as_ref().expect("a plan").drive.0.to_hours()
}

fn time_of(made: &Worked, key: &str) -> f64 {
    made.results.steps.step(key).expect("the step").time.to_minutes()
}

/// A steel plate 100 mm wide on painted steel, two strips of tape and a bead between, 15 °C and 60 %:
/// the tape may be driven with in days, the bead takes weeks or more, and both are told.
#[test]
fn a_bead_between_strips_is_told_beside_the_tape_that_carries() {
    let text = TRAPPED
        .replace(AIR, "temperature = \"15 °C\"\nhumidity = \"60 %\"")
        .replace("length = 180, width = 90", "length = 180, width = 100");
    // Strips that leave 2 mm beside the bead seal it; 38 mm would leave channels of 7 mm.
    let breathing = worked(&text);
    let text = text.replace("width = 38", "width = 43");
    let made = worked(&text);
    let joint = made.results.cures.iter().find(|joint| joint.mark == "L1").expect("a joint");
    let drive = joint.wait(Stage::Drive).expect("a wait");
    let days = drive.time.expect("tape builds up").to_days();
    assert!((0.5..7.0).contains(&days), "{days}");
    assert!(drive.why.contains("tape"), "{}", drive.why);
    let full = joint.wait(Stage::Full).expect("a wait");
    assert!(full.time.is_none_or(|time| time.to_days() > 21.0), "{:?}", full.time);
    assert!(full.why.contains("bead"), "{}", full.why);
    let open = breathing.results.cures.iter().find(|joint| joint.mark == "L1").expect("a joint");
    let open = open.wait(Stage::Full).and_then(|wait| wait.time).expect("within a year");
    assert!(full.time.is_none_or(|time| time > open * 4.0), "{open:?}");
    let told = made.raised("T002");
    assert_eq!(told.len(), 1);
    assert!(told[0].helps.iter().any(|help| help.contains("channel")));
}

#[test]
fn one_air_two_airs_and_hours_say_the_same_where_they_are_the_same() {
    let one = worked(&feet("temperature = \"15 °C\"\nhumidity = \"60 %\""));
    let two = worked(&feet(
        "day = { temperature = \"15 °C\", humidity = \"60 %\" }\n\
         night = { temperature = \"15 °C\", humidity = \"60 %\" }",
    ));
    let hours = worked(&feet(
        "hours = [{ at = \"2026-05-16 00:00\", temperature = \"15 °C\", humidity = \"60 %\" }, \
         { at = \"2026-05-17 00:00\", temperature = \"15 °C\", humidity = \"60 %\" }]",
    ));
    assert_eq!(drive(&one), drive(&two));
    assert_eq!(drive(&one), drive(&hours));
    // The same hours every day, colder at night, are slower.
    let daily = worked(&feet(
        "hours = [{ at = \"05:00\", temperature = \"7 °C\", humidity = \"80 %\" }, \
         { at = \"15:00\", temperature = \"15 °C\", humidity = \"60 %\" }]",
    ));
    assert!(drive(&daily) > drive(&one));
}

#[test]
fn rain_keeps_bonds_off_the_roof_until_it_is_over() {
    let wet = worked(&feet(
        "hours = [{ at = \"2026-05-16 00:00\", temperature = \"15 °C\", humidity = \"60 %\", sky = \"rain\" }, \
         { at = \"2026-05-19 12:00\", temperature = \"15 °C\", humidity = \"60 %\" }, \
         { at = \"2026-05-20 12:00\", temperature = \"15 °C\", humidity = \"60 %\" }]",
    ));
    let plan = wet.results.plan.as_ref().expect("a plan");
    let bond = wet.results.steps.steps.iter().position(|step| step.key == "bond").expect("bonds");
    let start = plan.span(bond).expect("it is planned").0.to_hours();
    assert!(start >= 3.0 * 24.0 + 12.0, "{start}");
}

#[test]
fn what_is_recorded_is_planned_around() {
    let planned = worked(&feet(AIR));
    let record = |start: &str, more: &str| {
        let steps = FEET.split("[[record]]").filter(|part| !part.contains("\"bolt\""));
        let kept: Vec<&str> = steps.collect();
        kept.join("[[record]]")
            .replace("2026-05-16 17:00", start)
            .replace("2026-05-16 17:40", &start.replace(":00", ":40"))
            .replace("temperature = \"14 °C\"\nhumidity = \"60 %\"", more)
    };
    let plain = worked(&record("2026-05-16 17:00", ""));
    let late = worked(&record("2026-05-18 16:00", ""));
    let cold = worked(&record("2026-05-16 17:00", "temperature = \"10 °C\""));
    assert!(plain.results.plan.as_ref().is_some_and(|plan| plan.recorded.is_some()));
    assert!(planned.results.plan.as_ref().is_some_and(|plan| plan.recorded.is_none()));
    assert!(drive(&late) > drive(&plain) + 24.0, "{} {}", drive(&late), drive(&plain));
    assert!(drive(&cold) > drive(&plain), "{} {}", drive(&cold), drive(&plain));
}

/// One step that was done may stand in a table of its own.
#[test]
fn one_record_needs_no_double_brackets() {
    let record = |brackets: &str| {
        format!("{}\n{brackets}\nstep = \"cut\"\nstarted = \"2026-05-16 13:00\"\n", feet(AIR))
    };
    let (one, list) = (worked(&record("[record]")), worked(&record("[[record]]")));
    assert_eq!(one.build.records.len(), 1);
    assert_eq!(drive(&one), drive(&list));
    assert!(one.results.plan.as_ref().is_some_and(|plan| plan.recorded.is_some()));
}

#[test]
fn a_crew_of_weekends_comes_back_on_the_next() {
    let every = worked(&feet(AIR));
    let text = feet(AIR).replace("people = 2", "people = 2\non = [\"saturday\"]");
    let saturdays = worked(&text);
    let plan = saturdays.results.plan.as_ref().expect("a plan");
    assert!(
        plan.slots.iter().all(|slot| { (slot.start.to_days().floor() as i64).rem_euclid(7) == 0 })
    );
    assert!(drive(&saturdays) > drive(&every) + 72.0);
    assert!(plan.proven);
}

#[test]
fn own_rates_and_a_second_tool_change_the_plan() {
    let plain = worked(&feet(AIR));
    let slow =
        worked(&format!("{}\n[[rate]]\nname = \"saw-aluminium\"\ntime = \"20 min\"\n", feet(AIR)));
    assert!(time_of(&slow, "cut") > time_of(&plain, "cut"));
    let spare =
        worked(&feet(AIR).replace("people = 2", "people = 2\nspare-tools = [\"drill machine\"]"));
    assert!(drive(&spare) <= drive(&plain));
}

#[test]
fn shares_of_a_step_overlap_only_where_somebody_is_free() {
    let plan = worked(&feet(AIR)).results.plan.expect("a plan");
    let shared: Vec<_> = plan.slots.iter().filter(|slot| !slot.what.is_empty()).collect();
    assert!(!shared.is_empty());
    for slot in &plan.slots {
        for other in plan.slots.iter().filter(|other| {
            other.start < slot.finish && slot.start < other.finish && !std::ptr::eq(*other, slot)
        }) {
            assert!(!slot.people.iter().any(|person| other.people.contains(person)));
        }
    }
}

/// A step of the reader's own rests for its wait: what is named after it, and driving, come no sooner.
#[test]
fn what_must_rest_is_waited_for() {
    let own = |wait: &str| {
        format!(
            "{}\n[[step]]\ntitle = \"Paint the bracket\"\nafter = \"feet\"\n\
             actions = [\"Brush paint on.\"]\ntime = \"30 min\"\n{wait}\n\
             [[step]]\ntitle = \"Oil it\"\nafter = \"paint the bracket\"\n\
             actions = [\"Rub oil in.\"]\ntime = \"20 min\"\n",
            feet(AIR)
        )
    };
    let starts = |made: &Worked| {
        let at = |title: &str| {
            let steps = &made.results.steps.steps;
            let step = steps.iter().position(|step| step.title == title).expect("a step");
            made.results.plan.as_ref().expect("a plan").span(step).expect("planned")
        };
        (at("Paint the bracket").1, at("Oil it").0)
    };
    let plain = worked(&own(""));
    let made = worked(&own("wait = \"30 h\""));
    let ((end, oil), (_, sooner)) = (starts(&made), starts(&plain));
    assert!((oil - end).to_hours() >= 30.0 && sooner < oil);
    assert!(drive(&made) >= end.to_hours() + 30.0);
    let lines = made.results.steps.steps.iter().flat_map(rungsheet::compute::steps::Step::actions);
    assert!(lines.into_iter().any(|action| action.text.starts_with("Wait 1")), "told on its sheet");
}

/// Latest starts keep what is clean and open: a joint's comes while its faces are clean, and at least
/// one step that does not decide may wait.
#[test]
fn latest_starts_are_sensible() {
    let made = worked(&feet(AIR));
    let plan = made.results.plan.as_ref().expect("a plan");
    assert!(plan.slots.iter().any(|slot| slot.float.to_minutes() > 0.0));
    for slot in plan.slots.iter().filter(|slot| slot.decides) {
        let free = slot.float.to_minutes();
        let long = (slot.finish - slot.start).to_minutes();
        assert!(free < long.max(24.0 * 60.0), "{free} of {long}");
    }
    let step = |key: &str| {
        let steps = &made.results.steps.steps;
        let index = steps.iter().position(|step| step.key == key).expect("a step");
        (&steps[index], plan.slots.iter().filter(move |slot| slot.step == index))
    };
    let (clean, cleaned) = step("prepare");
    let (_, bonds) = step("bond");
    let end = cleaned.map(|slot| slot.finish.to_minutes()).fold(0.0, f64::max);
    let keeps = clean.keeps.expect("faces keep a time") + clean.dries.expect("and dry first");
    for slot in bonds {
        assert!(slot.latest().to_minutes() <= end + keeps.to_minutes() + 0.5);
    }
}

/// A joint that is made at the latest start of its step waits by the hours after that, and may still be
/// driven with and bolted on in time: a latest start is never that of the wait as first planned.
#[test]
fn a_joint_made_at_its_latest_is_ready_in_time() {
    let cold = "day = { temperature = \"16 °C\", humidity = \"60 %\" }\n\
                night = { temperature = \"2 °C\", humidity = \"90 %\" }";
    let mut moved = 0;
    for text in [
        feet(AIR),
        feet(cold),
        include_str!("../../examples/field-van.toml").to_owned(),
        include_str!("../../examples/harbour-trailer.toml").to_owned(),
        include_str!("../../examples/forest-pod.toml").to_owned(),
    ] {
        let made = worked(&text);
        let plan = made.results.plan.as_ref().expect("a plan");
        let hours = ByHour::of(&made.build, &made.work, &made.results.bonds, Tables::builtin());
        for slot in plan.slots.iter().filter(|slot| slot.float.to_minutes() > 0.0) {
            let step = &made.results.steps.steps[slot.step];
            let end = slot.finish + slot.float;
            for cure in step.waits().flat_map(|wait| &wait.cures) {
                let minute = end.to_minutes().round() as i64;
                let ready = end + hours.wait(&cure.mark, Stage::Drive, minute);
                assert!(
                    ready <= plan.drive.0 + rungsheet::units::Duration::seconds(1.0),
                    "{}",
                    cure.mark
                );
                moved += 1;
            }
        }
    }
    assert!(moved > 3, "{moved} joints may be made later");
}

/// Each joint is made where a step of the plan that makes it ends, and at no other hour.
#[test]
fn every_joint_is_made_by_a_step_of_the_plan() {
    for text in [
        include_str!("../../examples/field-van.toml"),
        include_str!("../../examples/forest-pod.toml"),
        include_str!("../../examples/harbour-trailer.toml"),
        include_str!("../../examples/rescue-minibus.toml"),
    ] {
        let made = worked(text);
        let plan = made.results.plan.as_ref().expect("a plan");
        assert!(!made.results.cures.is_empty());
        for joint in &made.results.cures {
            let ends =
                plan.slots.iter().any(|slot| (slot.finish - joint.made).abs().to_minutes() < 1.0);
            assert!(ends, "{} is made at {:?}", joint.mark, joint.made);
        }
    }
}

/// What must wait does so over a night or under other work where that costs nothing: the trailer's feet
/// need hours before they may carry, and no more than minutes of them are spent with nobody at work.
#[test]
fn waits_are_filled_with_other_work_and_the_proof_is_told() {
    let made = worked(include_str!("../../examples/harbour-trailer.toml"));
    let plan = made.results.plan.as_ref().expect("a plan");
    assert!(plan.proven && plan.fewest_days && plan.least_idle == plan.idle);
    assert!(plan.idle.to_minutes() < 30.0, "{:?}", plan.idle);
    let figure = |name: &str| made.results.ledger.get(name).expect("it is told").value;
    assert!((figure("plan.idle") - plan.idle.to_minutes()).abs() < 1e-9);
    assert!((figure("plan.days") - plan.days as f64).abs() < 1e-9);
}

/// Every bad input of time, cure and plan ends in a finding, never in silence.
#[test]
fn bad_weather_crew_and_steps_are_told() {
    let codes = |text: &str| -> Vec<&'static str> {
        let (build, found) = read::read(&Text::new("build.toml", text), Tables::builtin());
        let mut codes: Vec<&str> = found.iter().map(|finding| finding.rule.code).collect();
        if build.is_some() {
            codes.extend(worked(text).findings.iter().map(|finding| finding.rule.code));
        }
        codes
    };
    let air = |t: &str, rh: &str| feet(&format!("temperature = \"{t}\"\nhumidity = \"{rh}\""));
    let step = |title: &str, place: &str, more: &str| {
        format!(
            "\n[[step]]\ntitle = \"{title}\"\n{place}\nactions = [\"Do it.\"]\ntime = \"30 min\"\n{more}\n"
        )
    };
    let cases = [
        ("no humidity", air("15 °C", "0 %"), "U007"),
        ("too much humidity", air("15 °C", "120 %"), "U007"),
        ("deep frost", air("-20 °C", "80 %"), "T001"),
        (
            "no working hours",
            feet(AIR).replace("[\"08:00\", \"18:00\"]", "[\"08:00\", \"08:00\"]"),
            "U012",
        ),
        (
            "light before it is light",
            feet(&format!("{AIR}\ndaylight = [\"18:00\", \"08:00\"]")),
            "U012",
        ),
        (
            "two needed, one there",
            feet(AIR).replace("people = 2", "people = 1")
                + &step("Lift", "after = \"cut\"", "people = 2"),
            "T103",
        ),
        ("a step of no name", feet(AIR) + &step("Lift", "after = \"cutting\"", ""), "T101"),
        ("a short day", feet(&format!("{AIR}\ndaylight = [\"10:00\", \"11:00\"]")), "T203"),
        (
            "a record of nothing",
            feet(AIR) + "\n[[record]]\nstep = \"glue\"\nstarted = \"2026-05-16 08:00\"\n",
            "T207",
        ),
        (
            "an end before its start",
            feet(AIR)
                + "\n[[record]]\nstep = \"cut\"\nstarted = \"2026-05-16 08:00\"\nfinished = \"2026-05-15 08:00\"\n",
            "U012",
        ),
        ("two ways to tell the air", feet(&format!("{AIR}\ntemperature = \"15 °C\"")), "F018"),
    ];
    let rests =
        |wait: &str| feet(AIR) + &step("Paint", "before = \"bolt\"", &format!("wait = \"{wait}\""));
    let cases = cases.into_iter().chain([
        (
            "a circle",
            feet(AIR)
                + &step("Paint", "after = \"Sand\"", "")
                + &step("Sand", "after = \"Paint\"", ""),
            "T201",
        ),
        ("a step after itself", feet(AIR) + &step("Sand", "after = \"Sand\"", ""), "T201"),
        ("a wait of a year", rests("365 d"), "T201"),
        (
            "a wait of a year before driving",
            feet(AIR) + &step("Paint", "", "wait = \"365 d\""),
            "T201",
        ),
        ("a wait of ten years", rests("3650 d"), "U007"),
        ("no wait", rests("0 h"), "U006"),
    ]);
    for (what, text, code) in cases {
        let found = codes(&text);
        assert!(found.contains(&code), "{what}: {found:?}");
    }
}
