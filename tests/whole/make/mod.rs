//! Whole build files made from a row of numbers: every topic, each value within what a reader could write.
//! Nought takes the plainest choice, so that a failing file shrinks to a plain one.

mod array;
mod inside;

use std::fmt::Write as _;

/// Numbers that decide, one after the other; nought when they are used up.
struct Dice<'n> {
    numbers: &'n [u32],
    at: usize,
}

impl Dice<'_> {
    fn next(&mut self) -> u32 {
        let number = self.numbers.get(self.at).copied().unwrap_or(0);
        self.at += 1;
        number
    }

    /// A whole number from the least on.
    fn count(&mut self, least: u32, most: u32) -> u32 {
        least + self.next() % (most - least + 1)
    }

    fn one<'t>(&mut self, of: &[&'t str]) -> &'t str {
        of[self.next() as usize % of.len()]
    }

    /// True once in so many times, never for nought.
    fn seldom(&mut self, in_so_many: u32) -> bool {
        self.next() % in_so_many == in_so_many - 1
    }

    /// A number in a grid, from the least on.
    fn size(&mut self, least: f64, most: f64, grid: f64) -> f64 {
        let steps = ((most - least) / grid).floor() as u32;
        least + f64::from(self.next() % (steps + 1)) * grid
    }
}

/// Writes values in the units of the job.
#[derive(Clone, Copy)]
struct Units {
    inches: bool,
}

impl Units {
    /// A length, bare: in the unit of the job.
    fn bare(self, mm: f64) -> String {
        if self.inches {
            format!("{}", (mm / 25.4 * 64.0).round() / 64.0)
        } else {
            format!("{}", (mm * 100.0).round() / 100.0)
        }
    }

    /// A mass, a temperature and so on, in metric units or in those of inches.
    fn mass(self, kg: f64) -> String {
        if self.inches {
            format!("\"{:.2} lb\"", kg / 0.453_592_37)
        } else {
            format!("\"{kg:.2} kg\"")
        }
    }

    fn air(self, celsius: f64) -> String {
        if self.inches {
            format!("\"{:.0} °F\"", celsius * 1.8 + 32.0)
        } else {
            format!("\"{celsius:.0} °C\"")
        }
    }
}

/// The parts of a file, with what later ones need of earlier ones.
struct Maker<'n> {
    dice: Dice<'n>,
    units: Units,
    text: String,
}

/// A frame that was written: where its corner is, its size along and across, and its name.
struct Made {
    x: f64,
    along: f64,
    across: f64,
    /// Its middle, right of the centre line.
    y: f64,
    name: String,
}

/// A build file. It can be read whatever the numbers are; what it asks for may still not be buildable.
pub fn make(numbers: &[u32]) -> String {
    let mut dice = Dice { numbers, at: 0 };
    let kind = dice.count(0, 9);
    let units = Units { inches: dice.seldom(4) };
    let mut maker = Maker { dice, units, text: String::from("format = 1\n") };
    maker.job();
    // Mostly a roof with panels; else circuits alone, parts alone, or a fixture.
    let roof = kind < 7;
    let circuits = kind != 7 && !maker.dice.seldom(5);
    if roof {
        maker.vehicle();
        maker.weather();
        let frames = maker.roof();
        maker.mounts(&frames);
        if !maker.dice.seldom(6) {
            maker.entry(&frames);
        }
    }
    if kind == 9 {
        maker.vehicle();
        maker.fixture();
    }
    if roof || !maker.dice.seldom(3) {
        maker.crew();
    }
    maker.cutting(kind == 7);
    if circuits || kind == 8 {
        maker.battery();
        maker.circuits(roof);
    }
    if kind == 7 || maker.dice.seldom(4) {
        maker.parts();
    }
    maker.own(roof);
    maker.text
}

impl Maker<'_> {
    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn key(&mut self, key: &str, value: impl std::fmt::Display) {
        let _ = writeln!(self.text, "{key} = {value}");
    }

    fn word(&mut self, key: &str, value: &str) {
        let _ = writeln!(self.text, "{key} = \"{value}\"");
    }

    /// A length key.
    fn mm(&mut self, key: &str, mm: f64) {
        let value = self.units.bare(mm);
        self.key(key, value);
    }

    fn job(&mut self) {
        self.line("[job]");
        let title = self.dice.one(&[
            "Roof",
            "Wide roof of the ferry",
            "Ångström’s Dach № 2",
            "W i d e",
            "A/B-C (new) & more, twice",
        ]);
        self.word("title", title);
        if !self.dice.seldom(5) {
            let number = self.dice.one(&["T-1", "0001", "WWWWWWWWWWWWWWWW", "a.b/c"]);
            self.word("number", number);
        }
        let revision = self.dice.one(&["A", "9", "ZZ"]);
        self.word("revision", revision);
        self.word("date", "2026-05-09");
        if self.dice.seldom(2) {
            self.word("by", "expedition workshop of the upper valley");
        }
        self.word("units", if self.units.inches { "in" } else { "mm" });
        let paper = self.dice.one(&["A4", "Letter"]);
        self.word("paper", paper);
        let currency = self.dice.one(&["EUR", "USD", "CHF"]);
        self.word("currency", currency);
        if self.dice.seldom(3) {
            let by = self.dice.one(&["hand", "jig"]);
            let zone = if by == "hand" { ", zone = \"2 mm\"" } else { "" };
            self.line(&format!("marking = {{ by = \"{by}\"{zone} }}"));
        }
    }

    fn vehicle(&mut self) {
        self.line("[vehicle]");
        self.word("name", "trial van");
        if !self.dice.seldom(4) {
            let height = self.dice.size(1900.0, 3400.0, 10.0);
            self.mm("height", height);
        }
        let speed = self.dice.count(3, 13) * 10;
        if self.units.inches {
            self.key("speed", format!("\"{} mph\"", speed * 5 / 8));
        } else {
            self.key("speed", format!("\"{speed} km/h\""));
        }
        let (material, finish) = [
            ("steel-dc01", "paint"),
            ("gfrp-laminate", "gelcoat"),
            ("aluminium-5754-h22", "bare"),
            ("steel-galvanised", "bare"),
            ("gfrp-sandwich-skin", "gelcoat"),
            ("aluminium-5754-h22", "paint"),
        ][self.dice.count(0, 5) as usize];
        let thick = self.dice.size(0.7, 4.0, 0.1);
        let thick = self.units.bare(thick);
        self.line(&format!("roof-skin = {{ material = \"{material}\", thickness = {thick}, finish = \"{finish}\" }}"));
        if !self.dice.seldom(4) {
            let (moving, standing) =
                (self.dice.size(40.0, 200.0, 5.0), self.dice.size(100.0, 400.0, 10.0));
            let (moving, standing) = (self.units.mass(moving), self.units.mass(standing));
            self.line(&format!("roof-limit = {{ moving = {moving}, standing = {standing} }}"));
        }
        if self.dice.seldom(2) {
            let mass = self.dice.size(900.0, 5000.0, 20.0);
            let (mass, high) = (self.units.mass(mass), self.units.bare(880.0));
            let along = if self.dice.seldom(2) {
                format!(", centre-x = {}", self.units.bare(1350.0))
            } else {
                String::new()
            };
            self.line(&format!("balance = {{ mass = {mass}, centre-height = {high}{along} }}"));
        }
        if self.dice.seldom(2) {
            self.line("behind-roof = [\"wires along the right edge\", \"air duct\"]");
        }
    }

    fn weather(&mut self) {
        self.line("[weather]");
        let day = self.dice.size(12.0, 34.0, 1.0);
        let cool = self.dice.size(3.0, 14.0, 1.0);
        let damp = self.dice.count(30, 90);
        match self.dice.count(0, 5) {
            4 => {
                let air = self.units.air(day);
                self.key("temperature", air);
                self.key("humidity", format!("\"{damp} %\""));
            }
            5 => {
                self.line("hours = [");
                for hour in [0, 6, 9, 12, 15, 18, 21] {
                    let share = 1.0 - (f64::from(hour) - 14.0).abs() / 14.0;
                    let air = self.units.air(day - cool * (1.0 - share));
                    let sky = if self.dice.seldom(6) { ", sky = \"rain\"" } else { "" };
                    self.line(&format!("  {{ at = \"{hour:02}:00\", temperature = {air}, humidity = \"{damp} %\"{sky} }},"));
                }
                self.line("]");
            }
            _ => {
                let (warm, cold) = (self.units.air(day), self.units.air(day - cool));
                self.line(&format!("day = {{ temperature = {warm}, humidity = \"{damp} %\" }}"));
                self.line(&format!(
                    "night = {{ temperature = {cold}, humidity = \"{} %\" }}",
                    (damp + 15).min(97)
                ));
            }
        }
        let sky = self.dice.one(&["changing", "covered", "clear"]);
        self.word("sky", sky);
        if !self.dice.seldom(3) {
            let high = self.dice.size(0.0, 2400.0, 50.0);
            self.key("altitude", format!("\"{high:.0} m\""));
        }
        if self.dice.seldom(2) {
            let low = self.dice.size(-35.0, 0.0, 1.0);
            let low = self.units.air(low);
            self.key("record-low", low);
        }
        if self.dice.seldom(4) {
            self.key("latitude", "\"52°\"");
        }
        if self.dice.seldom(3) {
            self.line("[loads]");
            let ahead = self.dice.count(0, 15);
            self.key("head-wind", format!("\"{ahead} m/s\""));
            if self.dice.seldom(2) {
                let storm = self.dice.count(20, 32);
                self.key("storm-wind", format!("\"{storm} m/s\""));
            }
            if self.dice.seldom(3) {
                self.line("uplift = { coefficient = 0.9, source = \"wind tunnel report 12\" }");
            }
            if self.dice.seldom(3) {
                self.key("snow", "\"0.6 kPa\"");
            }
        }
    }
}
