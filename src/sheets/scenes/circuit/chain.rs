//! Panels over controller to battery, the vehicle's battery under the panels.

use super::symbols::{
    amps, battery, body, conductor_words, fuse, level_switch, more_panels, named_terminal, over,
    panel, single_words, switch, terminal, two_lines, upright_fuse,
};
use super::{Joined, terminals};
use crate::build::Terminal;
use crate::compute::electrics::{Electrics, PanelString, Run};
use crate::page::scene::{At, Fill, Lettering, Line, Place, Scene, Side, Style};
use crate::sheets::Basis;

/// Least height of the plus over the minus conductor, mm on paper; so all lengths here.
const GAP: f64 = 26.0;
/// The same of the vehicle's battery, and how far under the minus of the panels it lies.
const SUPPLY: (f64, f64) = (20.0, 24.0);
/// A panel, and the pitch of strings.
const PANEL: (f64, f64) = (11.0, 10.0);
const PITCH: (f64, f64) = (14.0, 12.0);
/// Strings and panels of a string that are drawn one by one.
const DRAWN: usize = 3;
/// From the terminals of the panels to the controller, over a junction box, and on to the battery.
const TO_CONTROLLER: f64 = 56.0;
const TO_JUNCTION: f64 = 36.0;
const TO_BATTERY: f64 = 38.0;
const CONTROLLER: f64 = 18.0;
/// A switch on the way to the battery.
const SWITCH: f64 = 14.0;

/// The runs of the chain.
pub(super) struct Chain<'a> {
    /// From the panels on, over junction boxes, to the controller.
    solar: Vec<Joined<'a>>,
    /// From the vehicle's battery to the controller.
    supply: Option<Joined<'a>>,
    /// From the controller to battery or bus bar.
    charging: Option<Joined<'a>>,
}

impl<'a> Chain<'a> {
    pub fn of(joined: &[Joined<'a>]) -> Self {
        let mut solar: Vec<Joined<'a>> = Vec::new();
        let mut at = joined.iter().copied().find(|one| *one.circuit.from == Terminal::Panels);
        while let Some(one) =
            at.filter(|one| solar.iter().all(|known| known.run.mark != one.run.mark))
        {
            solar.push(one);
            let here = &*one.circuit.to;
            at = joined
                .iter()
                .copied()
                .find(|next| matches!(here, Terminal::Load(_)) && *next.circuit.from == *here);
        }
        // A load fed by panels alone is no way to a controller.
        let reaches = solar.iter().position(|one| *one.circuit.to == Terminal::Controller);
        solar.truncate(reaches.map_or(1, |last| last + 1));
        let from = |start: &Terminal, end: &dyn Fn(&Terminal) -> bool| {
            let fits = |one: &&Joined<'_>| *one.circuit.from == *start && end(&one.circuit.to);
            joined.iter().find(fits).copied()
        };
        let fed = |end: &Terminal| joined.iter().any(|one| *one.circuit.from == *end);
        let bar = |end: &Terminal| {
            matches!(end, Terminal::Load(_))
                && (fed(end)
                    || joined.iter().any(|one| {
                        *one.circuit.to == *end && *one.circuit.from == Terminal::Battery
                    }))
        };
        Self {
            solar,
            supply: from(&Terminal::Supply, &|end| *end == Terminal::Controller),
            charging: from(&Terminal::Controller, &|end| *end == Terminal::Battery)
                .or_else(|| from(&Terminal::Controller, &bar)),
        }
    }

    fn all(&self) -> impl Iterator<Item = &Joined<'a>> {
        self.solar.iter().chain(&self.supply).chain(&self.charging)
    }

    pub fn has(&self, mark: &str) -> bool {
        self.all().any(|one| one.run.mark == mark)
    }

    pub fn ends_at_battery(&self) -> bool {
        self.charging.is_some_and(|one| *one.circuit.to == Terminal::Battery)
    }

    pub fn draw(&self, basis: &Basis, electrics: &Electrics) -> Option<(Scene, f64)> {
        self.all().next()?;
        let mut scene =
            Scene::small("circuit from panels over controller to battery, left to right");
        scene.lettering = Lettering::Small;
        let fused = electrics.string_fuse.is_some();
        let rows = electrics.strings.first().map_or(1, |string| string.marks.len().min(DRAWN));
        let need = rows as f64 * PITCH.1 + if fused { 14.0 } else { 6.0 };
        let gap = if self.solar.is_empty() { GAP } else { need.max(GAP) };
        let mut x = 0.0;
        if !self.solar.is_empty() {
            let most = if self.solar.len() > 1 { 1 } else { DRAWN };
            x = strings(&mut scene, electrics, gap, most);
            x = self.panels_to_controller(&mut scene, basis, (x, gap));
        } else if self.supply.is_some() {
            x = TO_CONTROLLER + 10.0;
        }
        let floor = if self.supply.is_some() { -SUPPLY.0 - SUPPLY.1 } else { 0.0 };
        let to_controller = self.all().any(|one| {
            *one.circuit.from == Terminal::Controller || *one.circuit.to == Terminal::Controller
        });
        if to_controller {
            let mark = basis.build.controller.as_ref().map_or("T", |c| c.mark.value.as_str());
            let (low, high) = (floor - 6.0, gap + 6.0);
            scene.rectangle((x, low), (CONTROLLER, high - low), Line::VISIBLE);
            // Direct current in, direct current out.
            scene.line(&[(x, low), (x + CONTROLLER, high)], Line::THIN);
            let middle = f64::midpoint(low, high);
            scene.words((x + 5.0, middle + 6.0), "=", Place::Centre, Style::BOLD);
            scene.words((x + 13.0, middle - 6.0), "=", Place::Centre, Style::BOLD);
            let words = format!("{mark} controller");
            scene.words((x + 9.0, low), words, Place::Beside(Side::Below), Style::BOLD);
        }
        if let Some(one) = self.supply {
            supply(&mut scene, basis, one, x);
        }
        if let Some(one) = self.charging {
            charging(&mut scene, basis, electrics, one, (x + CONTROLLER, gap));
        }
        let bonded = self.ends_at_battery() && electrics.earth.is_some();
        let below = 16.0_f64.max(6.0 - floor + 6.0).max(if bonded { 20.0 } else { 0.0 });
        Some((scene, gap + 16.0 + below))
    }

    /// From the panels' terminals at `x` to the controller, whose left side is given.
    fn panels_to_controller(&self, scene: &mut Scene, basis: &Basis, (x, gap): At) -> f64 {
        let Some(first) = self.solar.first() else { return x };
        let mut left = x;
        for (k, one) in self.solar.iter().enumerate() {
            let last = k + 1 == self.solar.len();
            let right = left
                + match (k, last) {
                    (0, true) => TO_CONTROLLER,
                    (0, false) => TO_CONTROLLER + 4.0,
                    _ => TO_JUNCTION,
                };
            let names = terminals(basis, one.circuit);
            for (y, pole) in [(gap, 0), (0.0, 1)] {
                if k == 0 {
                    scene.line(&[(left, y), (left + 34.0, y)], Line::VISIBLE);
                    switch(scene, (left + 34.0, y));
                    scene.line(&[(left + 42.0, y), (right, y)], Line::VISIBLE);
                    named_terminal(scene, (left, y), &names[0][pole], (pole == 0, Side::Right));
                } else {
                    scene.line(&[(left, y), (right, y)], Line::VISIBLE);
                }
                if last {
                    named_terminal(scene, (right, y), &names[1][pole], (pole == 0, Side::Left));
                } else {
                    terminal(scene, (right, y));
                }
                let side = if pole == 0 { Side::Above } else { Side::Below };
                let middle = left + if k == 0 { 17.0 } else { TO_JUNCTION / 2.0 };
                over(scene, (middle, y), side, conductor_words(one.run, pole));
            }
            if let (false, Terminal::Load(name)) = (last, &*one.circuit.to) {
                let words = two_lines(name, 12);
                scene.words((right, gap / 2.0), words, Place::Centre, Style::BOLD);
            }
            left = right;
        }
        if *first.circuit.from == Terminal::Panels {
            // Both blades move together.
            scene.line(&[(x + 38.0, gap + 1.7), (x + 38.0, 1.7)], Line::HIDDEN);
            let words = "S1\nisolator";
            scene.words((x + 38.0, gap / 2.0), words, Place::Beside(Side::Right), Style::PLAIN);
        }
        if let Some(entry) = &basis.work.entry {
            for y in [gap, 0.0] {
                scene.circle((x + 13.0, y), 1.6, Line::THIN);
            }
            scene.line(&[(x + 13.0, gap - 1.6), (x + 13.0, 1.6)], Line::THIN);
            let words = format!("{} entry", entry.mark);
            scene.words((x + 13.0, gap / 2.0), words, Place::Beside(Side::Right), Style::PLAIN);
        }
        left
    }
}

/// The strings beside each other between plus and minus; gives where their terminals lie.
fn strings(scene: &mut Scene, electrics: &Electrics, gap: f64, most: usize) -> f64 {
    let all = &electrics.strings;
    // First, dots, last, where there are more than are drawn.
    let columns: Vec<Option<&PanelString>> = if all.len() <= most {
        all.iter().map(Some).collect()
    } else if most < DRAWN {
        all.iter().take(1).map(Some).collect()
    } else {
        vec![all.first(), None, all.last()]
    };
    let at = |column: usize| PANEL.0 / 2.0 + column as f64 * PITCH.0;
    let right = at(columns.len().saturating_sub(1)) + PANEL.0 / 2.0 + 2.0;
    for y in [gap, 0.0] {
        scene.line(&[(at(0), y), (right, y)], Line::VISIBLE);
    }
    for (column, string) in columns.iter().enumerate() {
        let x = at(column);
        let Some(string) = string else {
            for dx in [-2.2, 0.0, 2.2] {
                scene.disc((x + dx, gap / 2.0), 0.5, Fill::Black, None);
            }
            continue;
        };
        scene.line(&[(x, gap), (x, 0.0)], Line::VISIBLE);
        let marks = &string.marks;
        let shown: Vec<Option<&String>> = if marks.len() <= DRAWN {
            marks.iter().map(Some).collect()
        } else {
            vec![marks.first(), None, marks.last()]
        };
        let head = if electrics.string_fuse.is_some() { 8.0 } else { 0.0 };
        let middle = (gap - head) / 2.0;
        for (row, mark) in shown.iter().enumerate() {
            let from_middle = row as f64 - (shown.len() as f64 - 1.0) / 2.0;
            let at = (x, middle - from_middle * PITCH.1);
            match mark {
                Some(mark) => panel(scene, at, PANEL, mark),
                None => more_panels(scene, at, PANEL.1),
            }
        }
        if electrics.string_fuse.is_some() {
            let number = all.iter().position(|one| one.marks == string.marks).unwrap_or(0) + 1;
            upright_fuse(scene, (x, gap - 5.5), &format!("Z{number}"));
        }
    }
    // Light falls in.
    for dx in [0.0, 4.5] {
        scene.arrow((1.0 + dx, gap + 11.0), (5.5 + dx, gap + 4.0));
    }
    let words = match (all.len(), all.first().map_or(0, |string| string.marks.len())) {
        (0 | 1, 0 | 1) => "panel".to_owned(),
        (0 | 1, series) => format!("{series} in series"),
        (strings, 1) => format!("{strings} in parallel"),
        (strings, series) => format!("{strings} strings of {series}"),
    };
    let middle = f64::midpoint(at(0), at(columns.len().saturating_sub(1))).max(10.0);
    scene.words((middle, -1.0), words, Place::Beside(Side::Below), Style::PLAIN);
    right
}

/// The vehicle's battery and its run to the controller's left side at `x`.
fn supply(scene: &mut Scene, basis: &Basis, one: Joined<'_>, x: f64) {
    let (top, low) = (-SUPPLY.1, -SUPPLY.0 - SUPPLY.1);
    let start = 8.0;
    let middle = f64::midpoint(top, low);
    let names = terminals(basis, one.circuit);
    scene.line(&[(start, middle + 3.0), (start, top), (x, top)], Line::VISIBLE);
    scene.line(&[(start, middle - 3.0), (start, low), (x, low)], Line::VISIBLE);
    battery(scene, (start, middle));
    let words = "vehicle’s battery";
    scene.words((start + 7.0, middle), words, Place::Beside(Side::Right), Style::BOLD);
    if let Some(at_source) = &one.run.fuse {
        fuse(scene, (start + 18.0, top), &amps(&at_source.mark, at_source.rating));
    }
    for (y, pole) in [(top, 0), (low, 1)] {
        named_terminal(scene, (start, y), &names[0][pole], (pole == 0, Side::Right));
        named_terminal(scene, (x, y), &names[1][pole], (pole == 0, Side::Left));
        let side = if pole == 0 { Side::Above } else { Side::Below };
        over(scene, (f64::midpoint(start, x), y), side, conductor_words(one.run, pole));
    }
}

/// From the controller's right side to the battery, or to a bus bar.
fn charging(
    scene: &mut Scene,
    basis: &Basis,
    electrics: &Electrics,
    one: Joined<'_>,
    (x, gap): At,
) {
    let names = terminals(basis, one.circuit);
    let run: &Run = one.run;
    let end = x + TO_BATTERY + if run.switch.is_some() { SWITCH } else { 0.0 };
    let middle = gap / 2.0;
    for (y, pole) in [(gap, 0), (0.0, 1)] {
        let toward = if pole == 0 { middle + 3.0 } else { middle - 3.0 };
        if *one.circuit.to == Terminal::Battery {
            scene.line(&[(x, y), (end, y), (end, toward)], Line::VISIBLE);
        } else {
            scene.line(&[(x, y), (end, y)], Line::VISIBLE);
            scene.line(&[(end, y - 4.0), (end, y + 4.0)], Line::HEAVY);
        }
        named_terminal(scene, (x, y), &names[0][pole], (pole == 0, Side::Right));
        let side = if pole == 0 { Side::Above } else { Side::Below };
        over(scene, (x + 18.2, y), side, conductor_words(run, pole));
        let sign = if pole == 0 { 6.5 } else { -6.5 };
        match &*one.circuit.to {
            Terminal::Battery => {
                let at = (end, middle + sign);
                scene.words(at, names[1][pole].clone(), Place::Beside(Side::Right), Style::PLAIN);
            }
            _ => {
                let pole = if pole == 0 { "+" } else { "\u{2212}" };
                scene.words((end, y), pole, Place::Beside(Side::Right), Style::BOLD);
            }
        }
    }
    if let Some(at_battery) = &run.fuse {
        fuse(scene, (end - 11.0, gap), &amps(&at_battery.mark, at_battery.rating));
    }
    if let Some(own) = &run.switch {
        level_switch(scene, (x + 26.0, gap), &own.mark);
        if own.poles > 1 {
            level_switch(scene, (x + 26.0, 0.0), &own.mark);
        }
    }
    if let Terminal::Load(name) = &*one.circuit.to {
        let words = two_lines(name, 14);
        scene.words((end - 2.0, middle), words, Place::Centre, Style::BOLD);
        return;
    }
    battery(scene, (end, middle));
    let own = basis.build.battery.as_ref();
    let mark = own.map_or("B", |own| own.mark.value.as_str());
    let bank = own.is_some_and(|own| *own.count > 1);
    let words = format!("{mark} {}", if bank { "bank" } else { "battery" });
    scene.words((end - 7.0, middle), words, Place::Beside(Side::Left), Style::BOLD);
    if let Some(bond) = &electrics.earth {
        body(scene, (end, 0.0));
        let words = single_words(bond);
        let words = format!("{words}\nbody");
        scene.words((end - 6.0, -8.0), words, Place::Beside(Side::Below), Style::PLAIN);
    }
}
