//! One day drawn: weather, hours, people, cures, the moment from which it may drive.
//!
//! Drawn in mm on paper, x to the right from the row labels, y up with zero at the top.

use super::fitting::{LINE, first_that_fits, in_box, wide};
use super::{Group, day_of, decides};
use crate::compute::cure::Stage;
use crate::compute::cure::forecast::Forecast;
use crate::compute::plan::{Plan, PlanSlot};
use crate::page::scene::{At, Fill, Lettering, Line, Place, Scale, Scene, Side, Style};
use crate::sheets::Basis;
use crate::sheets::words::{day_name, day_time};
use crate::units::{Duration, Temperature, display};

/// Width of the row labels, of the whole band less a heavy line, and of the night.
const LEFT: f64 = 24.0;
const WIDE: f64 = 170.0;
const NIGHT: f64 = 24.5;
/// Heights of rows and the gaps under them.
const WEATHER: f64 = 7.0;
const CLOCK: f64 = 6.5;
const FIT: f64 = 4.5;
const PERSON: f64 = 12.0;
const CURE: f64 = 6.5;
const GAP: f64 = 1.5;
/// Stretches of weather that a working day is told in.
const STRETCHES: u32 = 4;
/// Room for the words of an hour.
const HOUR_WORDS: f64 = 7.0;
/// Half the height of a diamond.
const DIAMOND: f64 = 1.8;

/// The scale of time of one day.
struct Day<'a> {
    basis: &'a Basis<'a>,
    plan: &'a Plan,
    /// Start of work, end of work, start of work on the next day.
    from: Duration,
    to: Duration,
    next: Duration,
}

impl Day<'_> {
    /// Place of a clock, held within the band.
    fn x(&self, clock: Duration) -> f64 {
        let day = WIDE - LEFT - NIGHT;
        if clock <= self.to {
            LEFT + day * ((clock - self.from) / (self.to - self.from)).clamp(0.0, 1.0)
        } else {
            LEFT + day + NIGHT * ((clock - self.to) / (self.next - self.to)).clamp(0.0, 1.0)
        }
    }

    fn holds(&self, clock: Duration) -> bool {
        clock >= self.from && clock < self.next
    }
}

/// The band of a day, counted from the first.
pub(super) fn band(basis: &Basis, plan: &Plan, groups: &[Group], day: i64) -> Scene {
    let start = Duration::days(day as f64);
    let day = Day {
        basis,
        plan,
        from: start + plan.hours.0,
        to: start + plan.hours.1,
        next: start + Duration::days(1.0) + plan.hours.0,
    };
    let slots: Vec<&PlanSlot> = plan.slots.iter().filter(|slot| day.holds(slot.start)).collect();
    let mut scene = Scene::at_scale(alt(&day, &slots), Scale::FULL);
    scene.lettering = Lettering::Small;

    // What runs on this day, a row each.
    let curing: Vec<&Group> = groups
        .iter()
        .filter(|group| group.joint.made < day.next && group.drive.is_none_or(|end| end > day.from))
        .collect();
    let rows =
        if slots.is_empty() { 0.0 } else { f64::from(*basis.build.crew.people) * PERSON + GAP };
    let fit: Vec<(Duration, Duration)> = plan
        .fit
        .iter()
        .map(|(from, to)| (from.max(day.from), to.min(day.to)))
        .filter(|(from, to)| to > from)
        .collect();
    let told_fit = !slots.is_empty() && !plan.fit.is_empty();
    let top = -(WEATHER + CLOCK) - if told_fit { FIT + GAP } else { 0.0 };
    let cures = top - rows - if slots.is_empty() { 0.0 } else { GAP };
    let bottom = cures - curing.len() as f64 * (CURE + GAP);

    let night = (WIDE - NIGHT, bottom);
    scene.filled_rectangle(night, (NIGHT, -bottom), Fill::Tint(10), None);
    weather(&mut scene, &day);
    hours(&mut scene, &day, bottom);
    if told_fit {
        fit_hours(&mut scene, &day, &fit, top + FIT);
    }
    if !slots.is_empty() {
        people(&mut scene, &day, &slots, top - GAP);
    }
    for (index, group) in curing.iter().enumerate() {
        cure(&mut scene, &day, group, cures - index as f64 * (CURE + GAP));
    }
    if basis.build.vehicle.is_some() && day.holds(plan.drive.0) {
        drive(&mut scene, &day, top, bottom);
    }
    scene
}

/// The day in words.
fn alt(day: &Day, slots: &[&PlanSlot]) -> String {
    let first = *day.basis.build.crew.start;
    let steps: Vec<String> = slots
        .iter()
        .filter_map(|slot| {
            let step = day.basis.results.steps.steps.get(slot.step)?;
            Some(format!("step {} at {}", step.number, day_time(first, slot.start)))
        })
        .collect();
    let name = day_name(day.basis, day_of(day.plan, day.from));
    if steps.is_empty() {
        format!("{name}: nobody works; the table below tells until when the bonds cure")
    } else {
        format!("{name}: {}; the plan's table tells the same", steps.join(", "))
    }
}

/// Words at the left of a row.
fn label(scene: &mut Scene, words: &str, y: f64) {
    // One side of the words is wanted; a label beside the point has a gap of its own.
    scene.words((-1.2, y), words, Place::Beside(Side::Right), Style::PLAIN);
}

fn weather(scene: &mut Scene, day: &Day) {
    let air = Forecast::of(day.basis.build);
    label(scene, "weather", -WEATHER / 2.0);
    let step = (day.to - day.from) / f64::from(STRETCHES);
    for index in 0..STRETCHES {
        let from = day.from + step * f64::from(index);
        let (left, right) = (day.x(from), day.x(from + step));
        scene.rectangle((left, -WEATHER), (right - left, WEATHER), Line::THIN);
        told(scene, &air, from + step * 0.5, (left, right));
    }
    // The middle of the night.
    let middle = day.to + (day.next - day.to) * 0.5;
    scene.rectangle((WIDE - NIGHT, -WEATHER), (NIGHT, WEATHER), Line::THIN);
    told(scene, &air, middle, (WIDE - NIGHT, WIDE));
}

/// Air of a stretch: temperature and humidity, or what of them fits.
fn told(scene: &mut Scene, air: &Forecast, at: Duration, (left, right): (f64, f64)) {
    let now = air.at(at);
    let warm = degrees(now.temperature);
    let wet = format!("{:.0}\u{a0}%", now.humidity.to_percent());
    let wordings = [format!("{warm}, {wet}"), warm];
    if let Some(words) = first_that_fits(&wordings, right - left, false) {
        let middle = f64::midpoint(left, right);
        scene.words((middle, -WEATHER / 2.0), words, Place::Centre, Style::PLAIN);
    }
}

fn degrees(temperature: Temperature) -> String {
    display::with_unit(&display::number(temperature.to_celsius(), 0), "°C")
}

/// Hours over the rows, and dotted lines down through them.
fn hours(scene: &mut Scene, day: &Day, bottom: f64) {
    let middle = -WEATHER - CLOCK / 2.0;
    let base = -WEATHER - CLOCK;
    label(scene, "clock, h", middle);
    scene.line(&[(LEFT, base), (WIDE, base)], Line::THIN);
    let start = day.from - day.plan.hours.0;
    let first = day.plan.hours.0.to_hours().ceil() as i64;
    let last = day.plan.hours.1.to_hours().floor() as i64;
    let hour_wide = (WIDE - LEFT - NIGHT) / (day.to - day.from).to_hours();
    let every = ((HOUR_WORDS / hour_wide).ceil() as i64).max(1);
    for hour in first..=last {
        let x = day.x(start + Duration::hours(hour as f64));
        if bottom < base {
            scene.line(&[(x, base), (x, bottom)], Line::RASTER);
        }
        if (hour - first) % every == 0 {
            scene.words((x, middle), hour.to_string(), Place::Centre, Style::PLAIN);
        }
    }
    scene.words((WIDE - NIGHT / 2.0, middle), "night", Place::Centre, Style::PLAIN);
}

/// Hours in which the skin may be bonded, as dark bars.
fn fit_hours(scene: &mut Scene, day: &Day, fit: &[(Duration, Duration)], top: f64) {
    label(scene, "fit to bond", top - FIT / 2.0);
    for (from, to) in fit {
        let (left, right) = (day.x(*from), day.x(*to));
        let bar = 1.6;
        scene.filled_rectangle(
            (left, top - FIT / 2.0 - bar / 2.0),
            (right - left, bar),
            Fill::Black,
            None,
        );
    }
    if fit.is_empty() {
        let at = (f64::midpoint(LEFT, WIDE - NIGHT), top - FIT / 2.0);
        scene.words(at, "at no hour of this day", Place::Centre, Style::PLAIN);
    }
}

/// Steps by who does them; a step of several neighbours is one block over their rows.
fn people(scene: &mut Scene, day: &Day, slots: &[&PlanSlot], top: f64) {
    let crew = *day.basis.build.crew.people;
    for person in 1..=crew {
        let y = top - (f64::from(person) - 0.5) * PERSON;
        label(scene, &format!("person {person}"), y);
    }
    // Heavy lines lie over thin ones.
    let mut ordered = slots.to_vec();
    ordered.sort_by_key(|slot| decides(slot));
    let mut diamonds: Vec<At> = Vec::new();
    for slot in ordered {
        let Some(step) = day.basis.results.steps.steps.get(slot.step) else { continue };
        let (left, right) = (day.x(slot.start), day.x(slot.finish));
        let heavy = decides(slot);
        let line = if heavy { Line::HEAVY } else { Line::THIN };
        let style = if heavy { Style::BOLD } else { Style::PLAIN };
        for (first, last) in runs(&slot.people) {
            let high = f64::from(last - first + 1) * PERSON;
            let low = top - f64::from(last) * PERSON;
            scene.filled_rectangle((left, low), (right - left, high), Fill::White, Some(line));
            let (number, title) = (step.number.to_string(), step.title.as_str());
            let wide = right - left;
            // Where one row has room enough, the words keep off the marks between the rows.
            let (words, tall) = match in_box(&number, title, heavy, wide, PERSON) {
                Some(words) if !words.upwards && words.whole => (Some(words), PERSON),
                _ => (in_box(&number, title, heavy, wide, high), high),
            };
            let Some(words) = words else { continue };
            let tall = if words.whole { tall } else { PERSON };
            let style = if words.upwards { style.up() } else { style };
            let middle = (f64::midpoint(left, right), low + high - tall / 2.0);
            scene.words(middle, words.words, Place::Centre, style);
        }
        if step.holds()
            && slot.part.0 == 1
            && let Some(first) = slot.people.first()
        {
            diamonds.push((left, top - f64::from(first - 1) * PERSON));
        }
    }
    for (x, y) in diamonds {
        let ring = vec![(x - DIAMOND, y), (x, y - DIAMOND), (x + DIAMOND, y), (x, y + DIAMOND)];
        scene.area(&[ring], Some(Fill::Black), None);
    }
}

/// Neighbours among the people of a step: first and last of each run.
fn runs(people: &[u32]) -> Vec<(u32, u32)> {
    let mut people = people.to_vec();
    people.sort_unstable();
    people.dedup();
    people
        .chunk_by(|a, b| a + 1 == *b)
        .filter_map(|run| Some((*run.first()?, *run.last()?)))
        .collect()
}

/// A cure from its start or the morning to its end or the next morning, with an arrow where it runs on.
fn cure(scene: &mut Scene, day: &Day, group: &Group, top: f64) {
    let first = *day.basis.build.crew.start;
    label(scene, &row_label(group), top - CURE / 2.0);
    let left = day.x(group.joint.made.max(day.from));
    let runs_on = group.drive.is_none_or(|end| end > day.next);
    let right = group.drive.map_or(WIDE, |end| day.x(end));
    let line = if group.decides { Line::HEAVY } else { Line::THIN };
    scene.filled_rectangle((left, top - CURE), (right - left, CURE), Fill::White, Some(line));
    let mut room = right - left - 0.7;
    if runs_on {
        let (tip, middle) = (right - 1.2, top - CURE / 2.0);
        let ring = vec![(tip, middle), (tip - 3.0, middle + 1.4), (tip - 3.0, middle - 1.4)];
        scene.area(&[ring], Some(Fill::Black), None);
        room -= 4.5;
    }
    let why = |stage| group.joint.wait(stage).map_or(String::new(), |wait| wait.why.clone());
    let drive_why = why(Stage::Drive);
    let end = group.drive.map_or_else(|| "over a year".to_owned(), |end| day_time(first, end));
    let mut wordings = vec![format!("{drive_why}: {end}"), end];
    if let Some(load) = group.load.filter(|load| day.holds(*load)) {
        let load_why = why(Stage::Load);
        let carries = format!("{load_why} at {}: carries the frame", day_time(first, load));
        wordings.insert(0, format!("{carries}; {drive_why}: {}", wordings[1]));
    }
    let style = if group.decides { Style::BOLD } else { Style::PLAIN };
    let y = top - CURE / 2.0;
    // Behind the line from which it may drive, where that would run through the words.
    let line = Some(day.plan.drive.0).filter(|drive| day.holds(*drive)).map(|drive| day.x(drive));
    let reach = right + wide(&wordings[0], group.decides) + 3.0;
    let after = line.filter(|x| (right..reach).contains(x)).unwrap_or(right);
    if let Some(words) = first_that_fits(&wordings, room, group.decides) {
        // From the left edge: words set on a middle would give way to the lines of the hours.
        scene.words((left, y), words, Place::Beside(Side::Right), style);
    } else if WIDE - after > wide(&wordings[0], group.decides) + 3.0 {
        scene.words((after, y), wordings[0].clone(), Place::Beside(Side::Right), style);
    } else if left - LEFT > wide(&wordings[0], group.decides) + 3.0 {
        scene.words((left, y), wordings[0].clone(), Place::Beside(Side::Left), style);
    }
}

/// Marks of a group as they fit at the left of its row.
fn row_label(group: &Group) -> String {
    let all = [group.marks.clone(), group.short_marks.clone()];
    let room = LEFT - 1.0;
    let all = all.map(|words| if words.is_empty() { group.joint.mark.clone() } else { words });
    first_that_fits(&all, room, false)
        .map_or_else(|| format!("{} joints", group.count), str::to_owned)
}

/// The moment from which it may drive.
fn drive(scene: &mut Scene, day: &Day, top: f64, bottom: f64) {
    let x = day.x(day.plan.drive.0);
    let low = bottom - LINE;
    scene.line(&[(x, top), (x, low)], Line::HEAVY);
    let side = if WIDE - x > wide("drive", true) + 4.0 { Side::Right } else { Side::Left };
    scene.words((x, low + LINE / 2.0), "drive", Place::Beside(side), Style::BOLD);
}
