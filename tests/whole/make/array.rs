//! Roof, panels, frames, mounts and the cable entry.

use super::{Made, Maker};
use std::fmt::Write as _;

/// Sections of frames with the corner connector that fits, metric ones first.
const TUBES: [(&str, &str, f64); 5] = [
    ("aluminium-tube-25x25x2", "push-in-connector-25x25x2", 25.0),
    ("aluminium-tube-20x20x2", "", 20.0),
    ("aluminium-tube-30x30x2", "push-in-connector-30x30x2", 30.0),
    ("aluminium-tube-40x40x2", "push-in-connector-40x40x2", 40.0),
    ("aluminium-tube-1x1x1/16in", "push-in-connector-1x1x1/16in", 25.4),
];

impl Maker<'_> {
    /// The roof with its panels and frames.
    pub(super) fn roof(&mut self) -> Vec<Made> {
        // Panels first: the roof is made to hold them, mostly.
        let inches = self.units.inches;
        let (long, short) =
            (self.dice.size(700.0, 1200.0, 10.0), self.dice.size(400.0, 620.0, 10.0));
        let frames = if self.dice.seldom(4) { 2 } else { 1 };
        let across_way = !self.dice.seldom(4);
        let rows =
            self.dice.count(1, 2).min(if across_way { 1 + u32::from(long < 800.0) } else { 2 });
        let columns = if frames == 2 { self.dice.count(1, 2) } else { self.dice.count(1, 3) };
        let gap = self.dice.size(6.0, 20.0, 2.0);
        let deep = self.dice.size(25.0, 40.0, 1.0);
        let (one_along, one_across) = if across_way { (short, long) } else { (long, short) };
        let along = one_along * f64::from(columns) + gap * f64::from(columns - 1);
        let across = one_across * f64::from(rows) + gap * f64::from(rows - 1);
        let first = self.dice.size(500.0, 800.0, 10.0);
        let between = self.dice.size(150.0, 400.0, 10.0);
        let length = first + (along + between) * f64::from(frames) + 800.0;
        let width = (across + 420.0).max(1500.0);
        self.line("[roof]");
        self.word("datum", "front edge of the roof, on the centre line");
        self.mm("length", length);
        self.mm("width", width);
        self.skin(length, width);
        if self.dice.seldom(3) {
            self.keep_out(length, first + (along + between) * f64::from(frames));
        }

        let count = rows * columns * frames;
        self.line("[[panel]]");
        self.word("mark", "P");
        self.key("count", count);
        self.mm("length", long);
        self.mm("width", short);
        self.mm("thickness", deep);
        let mass = self.dice.size(3.0, 14.0, 0.1);
        let mass = self.units.mass(mass);
        self.key("mass", mass);
        let (wide, thick, recess) = (self.units.bare(25.0), self.units.bare(1.5), deep - 4.0);
        self.line(&format!("flange = {{ width = {wide}, thickness = {thick} }}"));
        self.mm("recess", recess);
        if !self.dice.seldom(5) {
            let cells = f64::from(self.dice.count(18, 40)) * 2.0;
            let amps = self.dice.size(3.0, 14.0, 0.1);
            self.key("power", format!("\"{:.0} W\"", cells * 0.56 * amps * 0.93));
            self.key("voc", format!("\"{:.1} V\"", cells * 0.68));
            self.key("isc", format!("\"{amps:.2} A\""));
            self.key("vmp", format!("\"{:.1} V\"", cells * 0.56));
            self.key("imp", format!("\"{:.2} A\"", amps * 0.93));
            if !self.dice.seldom(4) {
                let drift = self.dice.size(0.24, 0.36, 0.01);
                self.key("voc-drift", format!("\"-{drift:.2} %/K\""));
            }
            if self.dice.seldom(3) {
                self.key("max-fuse", "\"20 A\"");
            }
        }
        self.mm("lead", 900.0);

        let mut made = Vec::new();
        let tube = if inches { 4 } else { self.dice.count(0, 3) as usize };
        let (section, connector, side) = TUBES[tube];
        let beside = self.dice.size(-60.0, 60.0, 10.0);
        for number in 0..frames {
            let x = first + (along + between) * f64::from(number);
            let name = if frames == 2 {
                ["front frame", "rear frame"][number as usize].to_owned()
            } else {
                String::new()
            };
            self.line("[[frame]]");
            if frames == 2 {
                self.word("name", &name);
            }
            self.word("section", section);
            self.corner(connector, side);
            self.word("long-side", if across_way { "across" } else { "along" });
            self.key("rows", rows);
            self.key("columns", columns);
            self.mm("gap", gap);
            let (at_x, at_y) = (self.units.bare(x), self.units.bare(beside));
            self.line(&format!("position = {{ x = {at_x}, y = {at_y} }}"));
            let clear = self.dice.size(12.0, 45.0, 1.0);
            self.mm("clearance", clear);
            let members = self.dice.count(0, 3);
            self.key("cross-members", members);
            let (screw, screw_long) = if inches {
                ("#10", 15.875)
            } else {
                (
                    self.dice.one(&["ST4.8", "ST4.2", "ST5.5"]),
                    [16.0, 19.0, 13.0][self.dice.count(0, 2) as usize],
                )
            };
            let screw_long = self.units.bare(screw_long);
            self.line(&format!("panel-screw = {{ size = \"{screw}\", length = {screw_long} }}"));
            let pitch = self.dice.size(250.0, 500.0, 50.0);
            self.mm("panel-screw-pitch", pitch);
            if self.dice.seldom(3) {
                let (a, free) = (self.units.bare(60.0), self.units.bare(1.0));
                self.line(&format!("packer = {{ material = \"rubber-epdm\", length = {a}, width = {a}, free = {free} }}"));
            }
            made.push(Made { x, along, across, y: beside, name });
        }
        made
    }

    /// Stations across, or one arc.
    pub(super) fn skin(&mut self, length: f64, width: f64) {
        let half = ((width / 2.0 - 60.0) / 50.0).floor() * 50.0;
        let fall = self.dice.size(0.0, 90.0, 1.0) * (half / 700.0).powi(2);
        if self.dice.seldom(5) {
            let (chord, rise) = (self.units.bare(half * 2.0), self.units.bare(fall.max(1.0)));
            self.line(&format!("crown = {{ chord = {chord}, rise = {rise} }}"));
            return;
        }
        let stations = self.dice.count(2, 4);
        let each = self.dice.count(1, 3);
        self.line("sections = [");
        let (from, to) = (200.0, length - 250.0);
        for station in 0..stations {
            let x = (from + (to - from) * f64::from(station) / f64::from(stations - 1)).round();
            let x = self.units.bare(x);
            let _ = write!(self.text, "  {{ x = {x}, gaps = [");
            let more = 1.0 + f64::from(self.dice.count(0, 8)) / 100.0;
            for place in 0..=2 * each {
                let y = half * (f64::from(place) / f64::from(each) - 1.0);
                let gap = (fall * more * (y / half).powi(2) * 2.0).round() / 2.0;
                let (y, gap) = (self.units.bare(y.round()), self.units.bare(gap));
                let _ = write!(self.text, "{}[{y}, {gap}]", if place == 0 { "" } else { ", " });
            }
            self.line("] },");
        }
        self.line("]");
        if !self.dice.seldom(6) {
            let end = self.dice.size(0.0, 12.0, 1.0);
            let row: Vec<String> = (0..5)
                .map(|place| {
                    let share = f64::from(place) / 2.0 - 1.0;
                    let (x, gap) = (
                        f64::midpoint(from, to) + (to - from) / 2.0 * share,
                        (end * share * share * 2.0).round() / 2.0,
                    );
                    format!("[{}, {}]", self.units.bare(x.round()), self.units.bare(gap))
                })
                .collect();
            self.line(&format!("along = [{}]", row.join(", ")));
        }
    }

    pub(super) fn keep_out(&mut self, length: f64, free_from: f64) {
        let kind = self.dice.one(&["thing", "fan", "antenna", "hatch", "walkway", "rib"]);
        self.line("[[roof.keep-out]]");
        self.word("name", kind);
        self.word("kind", kind);
        // Behind the frames, or anywhere.
        let x = if self.dice.seldom(4) {
            self.dice.size(0.0, length - 400.0, 10.0)
        } else {
            free_from.min(length - 400.0) + 20.0
        };
        self.mm("x", x);
        let y = self.dice.size(-400.0, 200.0, 10.0);
        self.mm("y", y);
        let rib = kind == "rib";
        self.mm("length", 300.0);
        self.mm("width", if rib { 24.0 } else { 200.0 });
        if kind != "walkway" {
            self.mm("height", if rib { 6.0 } else { 80.0 });
        }
        if rib {
            self.key("count", 3);
            self.mm("every", 120.0);
        }
        if kind == "hatch" && self.dice.seldom(2) {
            self.line("lid = { hinged = \"rear\", opens = \"110°\" }");
        }
    }

    pub(super) fn corner(&mut self, connector: &str, side: f64) {
        let way = self.dice.count(0, 4);
        if way < 2 && !connector.is_empty() {
            self.word("corner", connector);
            return;
        }
        let cut = [
            "cut = \"mitre\"",
            "cut = \"butt\", through = \"side-tubes\"",
            "cut = \"butt\", through = \"end-tubes\"",
        ][self.dice.count(0, 2) as usize];
        if self.dice.seldom(4) {
            self.line(&format!("corner = {{ {cut}, join = \"weld\" }}"));
            return;
        }
        let angle = if side > 24.0 { "aluminium-angle-50x50x3" } else { "aluminium-angle-40x40x3" };
        let by = if self.dice.seldom(2) {
            "screw = \"ST4.8\""
        } else {
            "rivet = \"blind-rivet-4.8-aluminium\""
        };
        self.line(&format!(
            "corner = {{ {cut}, join = \"angle\", angle = \"{angle}\", {by}, each = 2 }}"
        ));
    }

    /// Lines of mounts at two edges or more of each frame.
    pub(super) fn mounts(&mut self, frames: &[Made]) {
        let mut marks = ["F", "G", "K", "L", "N", "R", "V", "W"].into_iter();
        for frame in frames {
            let hinged = self.dice.seldom(4);
            let mut edges = vec!["right", "left"];
            if self.dice.seldom(4) {
                edges.push("rear");
            }
            if self.dice.seldom(6) {
                edges.push("front");
            }
            for (number, edge) in edges.into_iter().enumerate() {
                let side =
                    if matches!(edge, "left" | "right") { frame.along } else { frame.across };
                let count = if side < 900.0 { 2 } else { self.dice.count(2, 3) };
                let from = self.dice.size(110.0, 160.0, 10.0).min(side / 4.0);
                let at: Vec<String> = (0..count)
                    .map(|place| {
                        self.units.bare(
                            (from + (side - 2.0 * from) * f64::from(place) / f64::from(count - 1))
                                .round(),
                        )
                    })
                    .collect();
                self.line("[[mount]]");
                let mark = marks.next().expect("few lines");
                self.word("mark", mark);
                let named = self.dice.one(&["foot", "mount of the long kind"]);
                self.word("name", &format!("{edge} {named} {mark}"));
                if !frame.name.is_empty() {
                    self.word("frame", &frame.name);
                }
                self.word("edge", edge);
                self.key("at", format!("[{}]", at.join(", ")));
                let kind = if hinged && number == 1 { 3 } else { self.dice.count(0, 2) };
                match kind {
                    3 => self.hinge(frame),
                    2 if matches!(edge, "left" | "right") => self.clamp(edge, frame, hinged),
                    1 => self.bolted(hinged),
                    _ => self.bonded(hinged),
                }
            }
        }
    }

    /// The bracket of feet and clamps.
    pub(super) fn bracket(&mut self, hinged: bool, foot: bool) {
        if self.dice.seldom(4) {
            let sizes = [4.0, 80.0, 45.0, 12.0].map(|mm| self.units.bare(mm));
            let [thick, standing, lying, radius] = sizes;
            self.line(&format!("fold = {{ material = \"aluminium-5754-h22\", thickness = {thick}, standing = {standing}, lying = {lying}, radius = {radius} }}"));
        } else {
            let angle = if self.units.inches {
                "aluminium-angle-3x2x3/16in"
            } else {
                self.dice.one(&["aluminium-angle-80x40x4", "aluminium-angle-100x50x5"])
            };
            self.word("angle", angle);
        }
        let long = self.dice.size(120.0, 180.0, 10.0);
        self.mm("angle-length", long);
        let bolt = if self.units.inches { "1/4-20" } else { self.dice.one(&["M6", "M8", "M5"]) };
        self.word("bolt", bolt);
        if foot && self.dice.seldom(5) {
            self.line("wedge = { material = \"hdpe\" }");
        }
        if hinged && self.dice.seldom(2) {
            self.line("latch = { kind = \"knob\", strength = \"1200 N\" }");
        }
    }

    pub(super) fn bonded(&mut self, hinged: bool) {
        self.word("kind", "bonded-foot");
        self.bracket(hinged, true);
        let material = self.dice.one(&["steel-s235", "aluminium-6061-t6", "stainless-304"]);
        let (long, wide, thick) = (
            self.dice.size(160.0, 240.0, 10.0),
            self.dice.size(80.0, 120.0, 5.0),
            self.dice.size(3.0, 5.0, 1.0),
        );
        let [long, wide, thick] = [long, wide, thick].map(|mm| self.units.bare(mm));
        self.line(&format!("plate = {{ material = \"{material}\", length = {long}, width = {wide}, thickness = {thick} }}"));
        self.word("plate-screw", if self.units.inches { "#10-24" } else { "M5" });
        let (tape, bead) = (
            self.dice.count(0, 3),
            self.dice.one(&["hybrid-adhesive", "polyurethane-adhesive", "structural-silicone"]),
        );
        if tape < 3 {
            let (wide, thick) = (self.units.bare(25.0), self.units.bare(2.3));
            let kind =
                ["acrylic-foam-tape", "acrylic-foam-tape", "acrylic-foam-tape-cold"][tape as usize];
            self.line(&format!(
                "tape = {{ kind = \"{kind}\", width = {wide}, thickness = {thick}, strips = 2 }}"
            ));
        }
        let wide = self.units.bare(10.0);
        self.line(&format!("bead = {{ kind = \"{bead}\", width = {wide} }}"));
    }

    pub(super) fn bolted(&mut self, hinged: bool) {
        self.word("kind", "bolted-foot");
        self.bracket(hinged, true);
        self.word("roof-bolt", if self.units.inches { "5/16-18" } else { "M8" });
        let [long, wide, thick] = [160.0, 60.0, 3.0].map(|mm| self.units.bare(mm));
        self.line(&format!("spreader = {{ material = \"steel-s235\", length = {long}, width = {wide}, thickness = {thick} }}"));
        let sealing = self.dice.one(&["polyurethane-sealant", "hybrid-sealant", "butyl-tape"]);
        self.word("sealing", if sealing == "butyl-tape" { "hybrid-sealant" } else { sealing });
    }

    pub(super) fn clamp(&mut self, edge: &str, frame: &Made, hinged: bool) {
        self.word("kind", "rail-clamp");
        self.bracket(hinged, false);
        let y = frame.y + (frame.across / 2.0 + 55.0) * if edge == "left" { -1.0 } else { 1.0 };
        let [y, high, wide] = [y, 40.0, 40.0].map(|mm| self.units.bare(mm));
        self.line(&format!("rail = {{ y = {y}, height = {high}, width = {wide} }}"));
        self.word("clamp-bolt", if self.units.inches { "5/16-18" } else { "M8" });
        let thick = self.units.bare(5.0);
        self.line(&format!("clamp-plate = {{ material = \"steel-s235\", thickness = {thick} }}"));
    }

    pub(super) fn hinge(&mut self, frame: &Made) {
        self.word("kind", "hinge");
        let hinge = if self.units.inches {
            "butt-hinge-3x3in-stainless"
        } else {
            self.dice.one(&["butt-hinge-60x60-stainless", "butt-hinge-80x80-stainless"])
        };
        self.word("hinge", hinge);
        self.word("bolt", if self.units.inches { "#10-24" } else { "M5" });
        let high = self.dice.size(30.0, 60.0, 2.0);
        let [y, high, wide] =
            [frame.y - frame.across / 2.0 - 22.0, high, 40.0].map(|mm| self.units.bare(mm));
        self.line(&format!(
            "rail = {{ y = {y}, height = {high}, width = {wide}, thickness = {} }}",
            self.units.bare(3.0)
        ));
        if self.dice.seldom(2) {
            self.key("lift", "\"60°\"");
        }
    }

    pub(super) fn entry(&mut self, frames: &[Made]) {
        let last = frames.last().expect("a frame");
        self.line("[entry]");
        self.word("mark", "E");
        self.mm("x", last.x + last.along + 240.0);
        let y = self.dice.size(-300.0, 300.0, 10.0);
        self.mm("y", y);
        self.key("cables", 2);
        let hole = self.dice.size(16.0, 30.0, 1.0);
        self.mm("hole", hole);
        self.mm("length", 110.0);
        self.mm("width", 80.0);
        let sealing =
            self.dice.one(&["polyurethane-sealant", "hybrid-sealant", "silicone-sealant-neutral"]);
        self.word("sealing", sealing);
    }
}
