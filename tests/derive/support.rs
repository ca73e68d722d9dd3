//! Builds in memory, so that laws can be tried on many of them.

use rungsheet::build::{
    Air, Arrangement, Bead, BoltedFoot, BondedFoot, Build, Corner, CornerAngle, CornerCut,
    CornerFastener, CornerJoin, Crew, Cutting, Edge, Entry, Finish, Flange, Fold, Frame, Gap,
    HAND_ZONE, HingeLine, Job, KeepOut, KeepOutKind, Language, Latch, LatchHoles, LatchKind,
    LengthUnit, LongSide, Marking, MarkingBy, Mount, MountKind, Overhang, Packer, Panel, Paper,
    Place, Plate, Prop, Rail, RailClamp, Roof, RoofShape, RoofSkin, Spreader, Station, TapeStrips,
    Through, TubeCorner, Vehicle, Weather, Wedge,
};
use rungsheet::source::{Span, Stated};
use rungsheet::tables::Tables;
use rungsheet::units::{Angle, Length, Mass, PerKelvin, Ratio, Speed, Temperature};

/// A value as if it had been written.
pub fn said<T>(value: T) -> Stated<T> {
    Stated::written(value, Span::NONE)
}

/// A length as if it had been written.
pub fn mm(value: f64) -> Stated<Length> {
    said(Length::mm(value))
}

/// What differs between the builds that are tried.
#[derive(Debug, Clone)]
#[expect(clippy::struct_excessive_bools, reason = "each is tried both ways")]
pub struct Van {
    pub panel: (f64, f64),
    pub rows: u32,
    pub columns: u32,
    pub gap: f64,
    pub at: (f64, f64),
    pub clearance: f64,
    pub cross: u32,
    /// Hinges on an edge and their rail's y and height; none: no hinge.
    pub hinge_edge: Edge,
    pub hinges: Vec<f64>,
    pub rail: (f64, f64),
    /// Edges with bonded feet and where.
    pub feet: Vec<(Edge, Vec<f64>)>,
    /// Edges with feet bolted through the skin and where.
    pub bolted: Vec<(Edge, Vec<f64>)>,
    /// Edges with clamps, where, and the y of their rail.
    pub clamps: Vec<(Edge, Vec<f64>, f64)>,
    pub stations: Vec<(f64, Vec<(f64, f64)>)>,
    pub along: Vec<(f64, f64)>,
    pub roof: (f64, f64),
    /// Brackets bent from sheet.
    pub fold: bool,
    /// Feet on wedges.
    pub wedge: bool,
    /// Feet and clamps opened by hand.
    pub latch: bool,
    /// By a draw latch in place of knobs.
    pub draw: bool,
    /// Besides the vent: corner, length, width and height.
    pub keep_out: Option<[f64; 5]>,
    /// To which the frame is lifted, degrees.
    pub lift: f64,
    /// Bar that holds it up.
    pub prop: Option<&'static str>,
    pub corner: Meet,
    /// Of the frame beyond the panels, along and across.
    pub overhang: (f64, f64),
}

/// How the tubes meet at the corners.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meet {
    Connector,
    Mitre,
    MitreWelded,
    ButtSides,
    ButtEnds,
}

impl Default for Van {
    fn default() -> Self {
        let across = |edge: f64, half: f64| {
            vec![(-700.0, edge), (-350.0, half), (0.0, 0.0), (350.0, half), (700.0, edge)]
        };
        Self {
            panel: (1040.0, 540.0),
            rows: 1,
            columns: 3,
            gap: 10.0,
            at: (780.0, 0.0),
            clearance: 15.0,
            cross: 2,
            hinge_edge: Edge::Left,
            hinges: vec![110.0, 610.0, 1030.0, 1530.0],
            rail: (-543.0, 46.0),
            feet: vec![(Edge::Right, vec![220.0, 820.0, 1420.0])],
            bolted: Vec::new(),
            clamps: Vec::new(),
            stations: vec![
                (400.0, across(68.0, 17.0)),
                (1600.0, across(66.0, 16.5)),
                (2800.0, across(68.0, 17.0)),
            ],
            along: vec![(400.0, 7.0), (1000.0, 2.0), (1600.0, 0.0), (2200.0, 2.0), (2800.0, 7.0)],
            roof: (3200.0, 1620.0),
            corner: Meet::Connector,
            overhang: (0.0, 0.0),
            fold: false,
            wedge: false,
            latch: false,
            draw: false,
            keep_out: None,
            lift: 60.0,
            prop: None,
        }
    }
}

impl Van {
    fn corner(&self) -> Corner {
        let tables = Tables::builtin();
        let (cut, through) = match self.corner {
            Meet::Connector => {
                let row = tables.corner_connector("push-in-connector-25x25x2").expect("a corner");
                return Corner::Connector(said(row.clone()));
            }
            Meet::Mitre | Meet::MitreWelded => (CornerCut::Mitre, Through::Sides),
            Meet::ButtSides => (CornerCut::Butt, Through::Sides),
            Meet::ButtEnds => (CornerCut::Butt, Through::Ends),
        };
        let fastener = match self.corner {
            Meet::ButtEnds => {
                CornerFastener::Screw(said(tables.tapping_screw("ST4.8").expect("a screw").clone()))
            }
            _ => {
                let rivet = tables.blind_rivet("blind-rivet-4.8-aluminium").expect("a rivet");
                CornerFastener::Rivet(said(rivet.clone()))
            }
        };
        let join = if self.corner == Meet::MitreWelded {
            CornerJoin::Weld
        } else {
            CornerJoin::Angle(CornerAngle {
                section: said(tables.section("aluminium-angle-50x50x3").expect("an angle").clone()),
                each: said(2),
                fastener,
            })
        };
        Corner::Tubes(TubeCorner { cut: said(cut), through: said(through), join, span: Span::NONE })
    }

    /// Two such frames one behind the other, so far apart.
    pub fn two(&self, apart: f64) -> Build {
        let mut build = self.build();
        let along = self.panel.1 * f64::from(self.columns) + self.gap * f64::from(self.columns - 1);
        let mut other = build.frames[0].clone();
        build.frames[0].name = said("front frame".to_owned());
        other.name = said("rear frame".to_owned());
        other.position.x = mm(other.position.x.to_mm() + along + apart);
        build.frames.push(other);
        build.panels[0].count = said(*build.panels[0].count * 2);
        for (mount, letter) in build.mounts.clone().into_iter().zip(["Y", "X", "Z", "W"]) {
            build.mounts.push(Mount { frame: 1, mark: said(letter.to_owned()), ..mount });
        }
        build
    }

    /// The same van with left and right changed.
    pub fn mirrored(&self) -> Self {
        let swap = |edge: Edge| match edge {
            Edge::Left => Edge::Right,
            Edge::Right => Edge::Left,
            other => other,
        };
        let mirror =
            |list: &[(f64, f64)]| list.iter().rev().map(|(y, gap)| (-y, *gap)).collect::<Vec<_>>();
        // Front and rear are counted from the left end.
        let across = self.panel.0 * f64::from(self.rows) + self.gap * f64::from(self.rows - 1);
        let turn = |edge: Edge, at: &[f64]| match edge {
            Edge::Left | Edge::Right => at.to_vec(),
            Edge::Front | Edge::Rear => at.iter().rev().map(|at| across - at).collect(),
        };
        Self {
            at: (self.at.0, -self.at.1),
            hinge_edge: swap(self.hinge_edge),
            rail: (-self.rail.0, self.rail.1),
            feet: self.feet.iter().map(|(edge, at)| (swap(*edge), turn(*edge, at))).collect(),
            bolted: self.bolted.iter().map(|(edge, at)| (swap(*edge), turn(*edge, at))).collect(),
            clamps: self
                .clamps
                .iter()
                .map(|(edge, at, rail)| (swap(*edge), turn(*edge, at), -rail))
                .collect(),
            stations: self.stations.iter().map(|(x, list)| (*x, mirror(list))).collect(),
            ..self.clone()
        }
    }

    /// The whole build.
    pub fn build(&self) -> Build {
        let tables = Tables::builtin();
        let section = |name: &str| said(tables.section(name).expect("a section").clone());
        let material = |name: &str| said(tables.material(name).expect("a material").clone());
        let thread = |name: &str| said(tables.thread(name).expect("a thread").clone());
        let gaps = |list: &[(f64, f64)]| {
            list.iter()
                .map(|(at, gap)| Gap {
                    at: Length::mm(*at),
                    gap: Length::mm(*gap),
                    span: Span::NONE,
                })
                .collect::<Vec<_>>()
        };
        let fold = |standing: f64, lying: f64| {
            self.fold.then(|| Fold {
                material: material("aluminium-5754-h22"),
                thickness: mm(4.0),
                standing: mm(standing),
                lying: mm(lying),
                radius: mm(6.0),
                k: None,
            })
        };
        let angle = |name: &str, fold: &Option<Fold>| match fold {
            Some(fold) => said(fold.section()),
            None => section(name),
        };
        let wedge = || self.wedge.then(|| Wedge { material: material("hdpe"), least: mm(3.0) });
        let latch = || {
            self.latch.then(|| Latch {
                kind: said(if self.draw { LatchKind::DrawLatch } else { LatchKind::Knob }),
                strength: None,
                holes: LatchHoles::usual(),
            })
        };
        let mut mounts = Vec::new();
        if !self.hinges.is_empty() {
            mounts.push(Mount {
                frame: 0,
                mark: said("G".to_owned()),
                name: said("hinge".to_owned()),
                edge: said(self.hinge_edge),
                at: self.hinges.iter().map(|at| mm(*at)).collect(),
                kind: MountKind::Hinge(HingeLine {
                    hinge: said(
                        tables.hinge("butt-hinge-60x60-stainless").expect("a hinge").clone(),
                    ),
                    bolt: thread("M5"),
                    rail: Rail {
                        y: mm(self.rail.0),
                        height: mm(self.rail.1),
                        width: mm(40.0),
                        thickness: mm(3.0),
                    },
                    lift: said(Angle::deg(self.lift)),
                    angles: Vec::new(),
                    prop: self.prop.map(|bar| Prop {
                        section: section(bar),
                        on: ["F", "F1x", "V0x", "V1x"].map(|mark| said(mark.to_owned())).into(),
                        at: None,
                        span: Span::NONE,
                    }),
                }),
                span: Span::NONE,
            });
        }
        for (k, (edge, at)) in self.feet.iter().enumerate() {
            mounts.push(Mount {
                frame: 0,
                mark: said(if k == 0 { "F".to_owned() } else { format!("F{k}x") }),
                name: said("bonded foot".to_owned()),
                edge: said(*edge),
                at: at.iter().map(|at| mm(*at)).collect(),
                kind: MountKind::BondedFoot(BondedFoot {
                    plate: Plate {
                        material: material("steel-s235"),
                        length: mm(180.0),
                        width: mm(90.0),
                        thickness: mm(3.0),
                        shift: mm(0.0),
                    },
                    angle: angle("aluminium-angle-80x40x4", &fold(90.0, 55.0)),
                    fold: fold(90.0, 55.0),
                    wedge: wedge(),
                    latch: latch(),
                    angle_length: mm(160.0),
                    bolt: thread("M6"),
                    plate_screw: thread("M5"),
                    tape: Some(TapeStrips {
                        kind: said(tables.tape("acrylic-foam-tape").expect("a tape").clone()),
                        width: mm(25.0),
                        thickness: mm(2.0),
                        strips: said(2),
                        short_term: None,
                    }),
                    bead: Some(Bead {
                        kind: said(tables.adhesives.iter().next().expect("an adhesive").clone()),
                        width: mm(10.0),
                        strength: None,
                    }),
                }),
                span: Span::NONE,
            });
        }
        for (k, (edge, at)) in self.bolted.iter().enumerate() {
            mounts.push(Mount {
                frame: 0,
                mark: said(format!("V{k}x")),
                name: said("bolted foot".to_owned()),
                edge: said(*edge),
                at: at.iter().map(|at| mm(*at)).collect(),
                kind: MountKind::BoltedFoot(BoltedFoot {
                    angle: angle("aluminium-angle-100x50x5", &fold(110.0, 55.0)),
                    fold: fold(110.0, 55.0),
                    wedge: wedge(),
                    latch: latch(),
                    angle_length: mm(140.0),
                    bolt: thread("M6"),
                    roof_bolt: thread("M8"),
                    spreader: Spreader {
                        material: material("steel-s235"),
                        length: mm(160.0),
                        width: mm(60.0),
                        thickness: mm(3.0),
                    },
                    sealing: said(
                        tables.adhesive("polyurethane-sealant").expect("a sealant").clone(),
                    ),
                }),
                span: Span::NONE,
            });
        }
        for (k, (edge, at, rail)) in self.clamps.iter().enumerate() {
            mounts.push(Mount {
                frame: 0,
                mark: said(format!("W{k}x")),
                name: said("rail clamp".to_owned()),
                edge: said(*edge),
                at: at.iter().map(|at| mm(*at)).collect(),
                kind: MountKind::RailClamp(RailClamp {
                    angle: angle("aluminium-angle-100x50x5", &fold(60.0, 110.0)),
                    fold: fold(60.0, 110.0),
                    latch: latch(),
                    angle_length: mm(120.0),
                    bolt: thread("M6"),
                    clamp_bolt: thread("M8"),
                    material: material("steel-s235"),
                    thickness: mm(5.0),
                    rail: Rail {
                        y: mm(*rail),
                        height: mm(self.rail.1),
                        width: mm(40.0),
                        thickness: mm(3.0),
                    },
                }),
                span: Span::NONE,
            });
        }
        let air = |celsius: f64, humidity: f64| Air {
            temperature: said(Temperature::celsius(celsius)),
            humidity: said(Ratio::percent(humidity)),
        };
        Build {
            fixtures: Vec::new(),
            job: Job {
                title: said("Trial".to_owned()),
                number: said("T-1".to_owned()),
                revision: said("A".to_owned()),
                date: said(jiff::civil::date(2026, 5, 9)),
                by: said("test".to_owned()),
                units: said(LengthUnit::Millimetre),
                paper: said(Paper::A4),
                language: said(Language::English),
                currency: said("EUR".to_owned()),
                marking: Marking { by: said(MarkingBy::Hand), zone: said(HAND_ZONE) },
            },
            vehicle: Some(Vehicle {
                photos: Vec::new(),
                balance: None,
                name: said("trial van".to_owned()),
                height: Some(mm(2610.0)),
                speed: said(Speed::kmh(110.0)),
                skin: RoofSkin {
                    material: material("steel-dc01"),
                    thickness: mm(0.8),
                    finish: said(Finish::Paint),
                },
                limit: None,
                behind_roof: Vec::new(),
                span: Span::NONE,
            }),
            roof: Some(Roof {
                photos: Vec::new(),
                datum: said("front edge".to_owned()),
                length: mm(self.roof.0),
                width: mm(self.roof.1),
                shape: RoofShape::Gaps {
                    stations: self
                        .stations
                        .iter()
                        .map(|(x, list)| Station { x: mm(*x), gaps: gaps(list), span: Span::NONE })
                        .collect(),
                    along: gaps(&self.along),
                    along_span: Span::NONE,
                },
                keep_outs: vec![KeepOut {
                    name: said("roof vent".to_owned()),
                    x: mm(2560.0),
                    y: mm(-150.0),
                    length: mm(300.0),
                    width: mm(300.0),
                    height: mm(90.0),
                    kind: said(KeepOutKind::Thing),
                    lid: None,
                    count: said(1),
                    every: mm(0.0),
                    span: Span::NONE,
                }]
                .into_iter()
                .chain(self.keep_out.map(|[x, y, length, width, height]| KeepOut {
                    name: said("aerial".to_owned()),
                    x: mm(x),
                    y: mm(y),
                    length: mm(length),
                    width: mm(width),
                    height: mm(height),
                    kind: said(KeepOutKind::Thing),
                    lid: None,
                    count: said(1),
                    every: mm(0.0),
                    span: Span::NONE,
                }))
                .collect(),
                span: Span::NONE,
            }),
            actions: rungsheet::build::Actions::usual(),
            weather: Weather {
                day: air(15.0, 62.0),
                night: air(7.0, 86.0),
                hours: Vec::new(),
                sky: said(rungsheet::build::Sky::Changing),
                sun_warms: said(rungsheet::units::TemperatureRise::k(15.0)),
                night_cools: said(rungsheet::units::TemperatureRise::k(4.0)),
                daylight: None,
                latitude: said(rungsheet::units::Angle::deg(50.0)),
                altitude: None,
                record_low: said(Temperature::celsius(-20.0)),
                span: Span::NONE,
            },
            crew: Crew {
                people: said(2),
                start: said(jiff::civil::date(2026, 5, 16)),
                from: said(jiff::civil::time(8, 0, 0, 0)),
                to: said(jiff::civil::time(18, 0, 0, 0)),
                days: said(vec![jiff::civil::Weekday::Saturday, jiff::civil::Weekday::Sunday]),
                spare_tools: Vec::new(),
            },
            panels: vec![Panel {
                frame: None,
                mark: said("P".to_owned()),
                count: said(self.rows * self.columns),
                length: mm(self.panel.0),
                width: mm(self.panel.1),
                thickness: mm(30.0),
                mass: said(Mass::kg(6.4)),
                flange: Flange { width: mm(25.0), thickness: mm(1.5) },
                recess: mm(26.0),
                power: None,
                voc: None,
                isc: None,
                vmp: None,
                imp: None,
                max_fuse: None,
                voc_drift: said(PerKelvin::percent_per_k(-0.28)),
                lead: mm(900.0),
                span: Span::NONE,
            }],
            frames: vec![Frame {
                name: said("frame".to_owned()),
                section: section("aluminium-tube-25x25x2"),
                corner: self.corner(),
                arrangement: Arrangement {
                    long_side: said(LongSide::Across),
                    rows: said(self.rows),
                    columns: said(self.columns),
                },
                gap: mm(self.gap),
                overhang: Overhang {
                    front: mm(self.overhang.0),
                    rear: mm(self.overhang.0),
                    left: mm(self.overhang.1),
                    right: mm(self.overhang.1),
                },
                position: Place { x: mm(self.at.0), y: mm(self.at.1) },
                clearance: mm(self.clearance),
                cross_members: said(self.cross),
                panel_screw: said(tables.tapping_screw("ST4.8").expect("a screw").clone()),
                panel_screw_length: mm(16.0),
                panel_screw_pitch: mm(400.0),
                packer: Some(Packer {
                    material: material("rubber-epdm"),
                    length: mm(80.0),
                    width: mm(80.0),
                    free: mm(1.0),
                }),
                span: Span::NONE,
            }],
            mounts,
            entry: Some(Entry {
                mark: said("E".to_owned()),
                x: mm(2500.0),
                y: mm(330.0),
                cables: said(2),
                hole: mm(20.0),
                length: mm(110.0),
                width: mm(80.0),
                mass: None,
                sealing: said(tables.adhesives.iter().next().expect("an adhesive").clone()),
                span: Span::NONE,
            }),
            cutting: Cutting {
                saw: said(tables.kerfs.iter().next().expect("a saw").clone()),
                kerf: mm(1.2),
                trim: mm(5.0),
                least_leftover: mm(200.0),
                sheet_kerf: mm(1.2),
                sheet_trim: mm(0.0),
                fraction: said(rungsheet::units::display::InchStep::ThirtySecond),
            },
            stock: Vec::new(),
            leftovers: Vec::new(),
            sheets: Vec::new(),
            sheet_leftovers: Vec::new(),
            plates: Vec::new(),
            lengths: Vec::new(),
            battery: None,
            restraint: None,
            controller: None,
            supply: None,
            isolator: None,
            earth: None,
            strings: Vec::new(),
            circuits: Vec::new(),
            parts: Vec::new(),
            holes: Vec::new(),
            steps: Vec::new(),
            rates: Vec::new(),
            rows: Vec::new(),
            records: Vec::new(),
        }
    }
}
