//! Fixtures, crew, stock, battery, circuits, parts and the reader's own.

use super::Maker;

impl Maker<'_> {
    pub(super) fn fixture(&mut self) {
        self.line("[[fixture]]");
        self.word("mark", "V");
        self.word("name", "roof fan");
        let on = self.dice.one(&["roof", "rear-door"]);
        self.word("on", on);
        self.word("part", "Q");
        let (x, y) = if on == "roof" { (1400.0, 0.0) } else { (0.0, 640.0) };
        self.mm("x", x);
        self.mm("y", y);
        self.word("thread", if self.units.inches { "1/4-20" } else { "M6" });
        let mass = self.dice.size(2.0, 30.0, 0.5);
        let mass = self.units.mass(mass);
        self.key("mass", mass);
        let reach = self.dice.size(40.0, 250.0, 10.0);
        self.mm("reach", reach);
        self.mm("depth", reach * 1.5);
        self.mm("width", 500.0);
        self.mm("length", 500.0);
        self.word("skin", "steel-dc01");
        self.mm("skin-thickness", 0.8);
        if self.dice.seldom(2) {
            self.mm("backing", 3.0);
        }
        if on == "roof" && self.dice.seldom(2) {
            self.mm("opening-length", 355.0);
            self.mm("opening-width", 355.0);
        }
        self.word("sealing", "hybrid-sealant");
        self.line("[[part]]");
        self.word("mark", "Q");
        self.word("name", "frame of the fan");
        self.word("material", "aluminium-5754-h22");
        self.mm("thickness", 3.0);
        self.mm("length", 440.0);
        self.mm("width", 440.0);
        for (x, y) in [(20.0, 20.0), (420.0, 20.0), (20.0, 420.0), (420.0, 420.0)] {
            self.line("[[hole]]");
            self.word("part", "Q");
            self.word("face", "top");
            self.mm("x", x);
            self.mm("y", y);
            self.mm("diameter", 6.6);
            self.word("purpose", "clearance");
        }
    }

    pub(super) fn crew(&mut self) {
        self.line("[crew]");
        // Two are asked for by what is lifted.
        let people = if self.dice.seldom(6) { 1 } else { self.dice.count(2, 4) };
        self.key("people", people);
        self.word("start", "2026-05-16");
        let day = self.dice.one(&[
            "[\"08:00\", \"18:00\"]",
            "[\"06:30\", \"21:15\"]",
            "[\"09:00\", \"15:00\"]",
        ]);
        self.key("day", day);
        if self.dice.seldom(4) {
            self.key("on", "[\"saturday\", \"sunday\"]");
        }
        if self.dice.seldom(5) {
            self.key("spare-tools", "[\"drill machine\"]");
        }
    }

    pub(super) fn cutting(&mut self, bench: bool) {
        self.line("[cutting]");
        let saw = self.dice.one(&["hacksaw", "hand-mitre-saw", "mitre-saw"]);
        self.word("saw", saw);
        if self.dice.seldom(3) {
            let kerf = self.dice.size(0.8, 4.0, 0.1);
            self.mm("kerf", kerf);
        }
        let (trim, least) = (self.dice.size(0.0, 10.0, 1.0), self.dice.size(100.0, 400.0, 50.0));
        self.mm("trim", trim);
        self.mm("least-leftover", least);
        if bench && self.dice.seldom(2) {
            self.mm("sheet-kerf", 1.5);
        }
        let inches = self.units.inches;
        let tubes: &[&str] = if inches {
            &["aluminium-tube-1x1x1/16in"]
        } else {
            &[
                "aluminium-tube-25x25x2",
                "aluminium-tube-20x20x2",
                "aluminium-tube-30x30x2",
                "aluminium-tube-40x40x2",
            ]
        };
        let used: Vec<&str> =
            tubes.iter().copied().filter(|tube| bench || self.text.contains(tube)).collect();
        for section in used {
            for (length, price) in [(3000.0, "21.50"), (2000.0, "15.80")] {
                if length < 2500.0 && self.dice.seldom(3) {
                    continue;
                }
                self.line("[[stock]]");
                self.word("section", section);
                self.mm("length", length);
                if !self.dice.seldom(5) {
                    self.word("price", price);
                }
            }
        }
        // What joints of frames and plates are cut from.
        let (roof, text) = (self.text.contains("[[mount]]"), self.text.clone());
        let bars = [
            ("aluminium-angle-80x40x4", false),
            ("aluminium-angle-100x50x5", false),
            ("aluminium-angle-3x2x3/16in", false),
            ("aluminium-angle-50x50x3", false),
            ("aluminium-angle-40x40x3", false),
            ("aluminium-angle-30x30x3", roof),
            ("steel-flat-60x3", text.contains("spreader")),
        ];
        for (bar, always) in bars {
            if (always || text.contains(bar)) && !self.dice.seldom(9) {
                self.line("[[stock]]");
                self.word("section", bar);
                self.mm("length", 2000.0);
                self.word("price", "14.20");
            }
        }
        for (words, thick) in [("fold = ", 4.0), ("frame of the fan", 3.0)] {
            if text.contains(words) {
                self.line("[[stock]]");
                self.word("material", "aluminium-5754-h22");
                self.mm("thickness", thick);
                self.mm("length", 1000.0);
                self.mm("width", 500.0);
            }
        }
        if self.dice.seldom(3) {
            self.line("[[leftover]]");
            self.word(
                "section",
                if inches { "aluminium-tube-1x1x1/16in" } else { "aluminium-tube-25x25x2" },
            );
            let long = self.dice.size(300.0, 1800.0, 10.0);
            self.mm("length", long);
            let count = self.dice.count(1, 3);
            self.key("count", count);
            self.word("label", "from the shelf job");
        }
    }

    pub(super) fn battery(&mut self) {
        let chemistry = self.dice.one(&["lfp", "lead-agm", "nmc", "lead-flooded", "lead-gel"]);
        self.line("[battery]");
        self.word("mark", "B");
        self.word("chemistry", chemistry);
        let capacity = self.dice.count(5, 40) * 10;
        self.key("capacity", format!("\"{capacity} Ah\""));
        let lead = chemistry.starts_with("lead");
        let volts = if self.dice.seldom(5) { 2.0 } else { 1.0 } * if lead { 12.0 } else { 12.8 };
        self.key("voltage", format!("\"{volts} V\""));
        let mass = self.units.mass(f64::from(capacity) * if lead { 0.27 } else { 0.11 });
        self.key("mass", mass);
        let (long, wide, high) = (
            self.dice.size(180.0, 520.0, 2.0),
            self.dice.size(130.0, 280.0, 2.0),
            self.dice.size(160.0, 260.0, 2.0),
        );
        self.mm("length", long);
        self.mm("width", wide);
        self.mm("height", high);
        self.word("place", "under the bench, on the floor");
        match self.dice.count(0, 3) {
            3 => {}
            2 => self.key("internal-resistance", "\"4 mΩ\""),
            _ => self.key("short-circuit", "\"2.4 kA\""),
        }
        if !lead && !self.dice.seldom(3) {
            self.word("cold-charging", "stopped");
        }
        if self.dice.seldom(4) {
            let count = self.dice.count(2, 4);
            self.key("count", count);
            if self.dice.seldom(2) && count.is_multiple_of(2) {
                self.key("in-series", 2);
            }
        }
        self.line("[restraint]");
        let level = self.dice.one(&["road", "small-craft", "m1-n1", "m2-n2"]);
        self.word("level", level);
        let floor = self.dice.one(&["plywood-birch", "plywood-poplar", "spruce"]);
        let thick = self.dice.size(12.0, 30.0, 3.0);
        let [foot, three] = [60.0, 3.0].map(|mm| self.units.bare(mm));
        let thread = if self.units.inches { "\"1/4-20\", grade = \"grade-5\"" } else { "\"M6\"" };
        let spreader =
            format!("spreader = {{ length = {foot}, width = {foot}, thickness = {three} }}");
        match self.dice.count(0, 3) {
            3 => {
                self.word("kind", "cradle");
                let count = self.dice.count(4, 8);
                self.line(&format!("bolt = {{ thread = {thread}, count = {count}, {spreader} }}"));
            }
            kind => {
                let straps = if kind == 2 { 4 } else { self.dice.count(1, 3) };
                if kind == 2 {
                    self.word("kind", "direct");
                    self.key("strap-angle", "\"40°\"");
                }
                self.key("straps", straps);
                let force = self.dice.count(10, 50) * 100;
                self.key("strap-capacity", format!("\"{force} N\""));
                self.line(&format!("anchor = {{ bolt = {{ thread = {thread}, {spreader} }} }}"));
                self.key("blocks", 4);
                self.mm("block-height", 60.0);
                let screws = self.dice.count(2, 4);
                self.key("screws-a-block", screws);
                let [across, long] = [6.0, 60.0].map(|mm| self.units.bare(mm));
                self.line(&format!("screw = {{ diameter = {across}, length = {long} }}"));
            }
        }
        self.word("floor", floor);
        self.mm("floor-thickness", thick);
    }

    pub(super) fn circuits(&mut self, roof: bool) {
        let labelled = roof && self.text.contains("\nvoc = ");
        let insulation = self.dice.one(&["pvc-70", "pvc-105"]);
        let panels = labelled && !self.dice.seldom(5);
        let dc = !panels && self.dice.seldom(2);
        if panels || dc {
            self.line("[controller]");
            self.word("mark", "T");
            self.word("kind", if panels { "solar" } else { "dc-dc" });
            let (volts, amps) =
                (self.dice.one(&["100", "150", "50", "250"]), self.dice.count(1, 6) * 10);
            self.key("max-voltage", format!("\"{volts} V\""));
            self.key("max-current", format!("\"{amps} A\""));
            self.key(
                "charge-voltage",
                if self.text.contains("voltage = \"2") { "\"28.8 V\"" } else { "\"14.4 V\"" },
            );
            if panels {
                if self.dice.seldom(3) {
                    self.key("in-series", 1);
                } else {
                    let way = self.dice.one(&["parallel", "series"]);
                    self.word("connection", way);
                }
            }
            if dc {
                self.line("[supply]");
                self.key("voltage", "\"12 V\"");
                if self.dice.seldom(2) {
                    self.key("short-circuit", "\"3 kA\"");
                }
            }
            if panels && self.dice.seldom(4) {
                self.line("[isolator]");
                self.key("rating", "\"32 A\"");
                self.key("voltage", "\"250 V\"");
                self.key("poles", 2);
            }
            let long = self.dice.size(1000.0, 8000.0, 100.0);
            let from = if panels { "panels" } else { "supply" };
            self.run(
                &format!("{from} to controller"),
                from,
                "controller",
                long,
                if panels { "pv" } else { insulation },
                None,
            );
            let long = self.dice.size(300.0, 3000.0, 100.0);
            self.run(
                "controller to battery",
                "controller",
                "battery",
                long,
                insulation,
                Some(amps),
            );
        }
        let loads = self.dice.count(0, 4);
        let bar = loads > 1 && !self.dice.seldom(3);
        if bar {
            let long = self.dice.size(200.0, 2000.0, 100.0);
            self.run("battery to bus bar", "battery", "bus bar", long, insulation, None);
        }
        for load in ["lamps", "pump", "fridge with its fan", "heater"].iter().take(loads as usize) {
            let (long, amps) = (self.dice.size(500.0, 9000.0, 100.0), self.dice.count(1, 40));
            self.run(
                load,
                if bar { "bus bar" } else { "battery" },
                load,
                long,
                insulation,
                Some(amps),
            );
        }
        if self.dice.seldom(3) {
            self.line("[earth]");
            let bond = self.dice.one(&["chassis", "none"]);
            self.word("bond", bond);
            if bond == "chassis" {
                self.mm("length", 500.0);
            }
        }
    }

    pub(super) fn run(
        &mut self,
        name: &str,
        from: &str,
        to: &str,
        long: f64,
        insulation: &str,
        amps: Option<u32>,
    ) {
        self.line("[[circuit]]");
        self.word("name", name);
        self.word("from", from);
        self.word("to", to);
        self.mm("length", long);
        self.word("insulation", insulation);
        if let Some(amps) = amps {
            self.key("current", format!("\"{amps} A\""));
        }
        if from == "battery" && self.dice.seldom(4) {
            self.word("switched", "plus");
        }
        if self.dice.seldom(6) {
            self.key("ambient", "\"40 °C\"");
        }
        if self.dice.seldom(6) {
            self.key("bundled", 4);
        }
    }

    pub(super) fn parts(&mut self) {
        let count = self.dice.count(1, 4);
        let section =
            if self.units.inches { "aluminium-tube-1x1x1/16in" } else { "aluminium-tube-25x25x2" };
        for number in 0..count {
            self.line("[[part]]");
            self.word("mark", ["S", "U", "D", "H"][number as usize]);
            let name = ["shelf rail", "upright", "door stile", "hanger"][number as usize];
            self.word("name", name);
            let kind = self.dice.count(0, 3);
            let long = self.dice.size(60.0, 1400.0, 5.0);
            match kind {
                2 => {
                    self.word("material", "aluminium-5754-h22");
                    self.mm("thickness", 2.0);
                    self.mm("width", 120.0);
                }
                3 => self.word("stuff", "earth cable 6 mm²"),
                _ => self.word("section", section),
            }
            self.mm("length", long);
            let alike = self.dice.count(1, 5);
            self.key("count", alike);
            if kind == 1 && long > 100.0 {
                self.key("zero-end", "\"45°\"");
                let far = self.dice.one(&["\"45°\"", "\"-45°\"", "\"30°\""]);
                self.key("far-end", far);
            }
            if kind < 2 && long > 100.0 && self.dice.seldom(2) {
                self.line("[[hole]]");
                self.word("part", ["S", "U", "D", "H"][number as usize]);
                self.word("face", "top");
                self.mm("x", 50.0);
                self.mm("y", 12.0);
                self.mm("diameter", 5.0);
                self.word("purpose", "clearance");
            }
        }
        if !self.text.contains(&format!("[[stock]]\nsection = \"{section}\"")) {
            self.line("[[stock]]");
            self.word("section", section);
            self.mm("length", 3000.0);
        }
        for (what, more) in
            [("material = \"aluminium-5754-h22\"", true), ("stuff = \"earth cable 6 mm²\"", false)]
        {
            if self.text.contains(what) {
                self.line("[[stock]]");
                self.line(what);
                self.mm("length", if more { 2000.0 } else { 10_000.0 });
                if more {
                    self.mm("width", 1000.0);
                    self.mm("thickness", 2.0);
                }
            }
        }
    }

    /// Steps of one's own and rates.
    pub(super) fn own(&mut self, roof: bool) {
        if roof && self.dice.seldom(4) {
            self.line("[[step]]");
            self.word("title", "Fit the roof lining");
            self.line("actions = [\"Press the lining in place.\", \"Check the gap.\"]");
            self.line("tools = [\"plastic wedge\"]");
            self.key("time", "\"30 min\"");
            self.key("people", 1);
        }
        if self.dice.seldom(4) {
            self.line("[[rate]]");
            self.word("name", "saw-aluminium");
            self.key("time", "\"6 min\"");
        }
    }
}
