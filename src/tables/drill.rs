//! Drills, hole saws and step drills as sold.

use super::{Entry, Row, RowOrigin, Table};
use crate::units::{Length, Unit};

/// How drills are numbered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum DrillSeries {
    /// Millimetres.
    Metric,
    /// Number drills, `#30`.
    Number,
    /// Letter drills, `F`.
    Letter,
    /// Fractions of an inch, `17/64`.
    Fraction,
    /// Hole saws, by mm.
    HoleSaw,
    /// Steps of a step drill, by mm.
    Step,
}

impl DrillSeries {
    /// As written in table files.
    pub const ALL: &'static [(&'static str, Self)] = &[
        ("metric", Self::Metric),
        ("number", Self::Number),
        ("letter", Self::Letter),
        ("fraction", Self::Fraction),
        ("hole-saw", Self::HoleSaw),
        ("step", Self::Step),
    ];

    /// Twist drills for a shop that works in mm.
    pub const METRIC_BITS: &'static [Self] = &[Self::Metric];

    /// Twist drills for a shop that works in inches.
    pub const INCH_BITS: &'static [Self] = &[Self::Number, Self::Letter, Self::Fraction];
}

/// A drill.
#[derive(Clone, Debug, PartialEq)]
pub struct Drill {
    /// `6.6mm`, `#30`, `F`, `17/64in`, `hole-saw-20mm`, `step-20mm`.
    pub name: String,
    /// How it is numbered.
    pub series: DrillSeries,
    /// Diameter of the hole.
    pub diameter: Length,
    /// Whether an ordinary boxed set holds it.
    pub in_set: bool,
    /// Where the row came from.
    pub origin: RowOrigin,
}

impl Drill {
    /// For people: `6.6 mm`, `#30`, `letter F`, `17/64 in`.
    pub fn words(&self) -> String {
        let mm = self.diameter.to_mm();
        match self.series {
            DrillSeries::Metric => format!("{mm} mm"),
            DrillSeries::Number => self.name.clone(),
            DrillSeries::Letter => format!("letter {}", self.name),
            DrillSeries::Fraction => self.name.replace("in", " in"),
            DrillSeries::HoleSaw => format!("hole saw {mm} mm"),
            DrillSeries::Step => format!("step drill to {mm} mm"),
        }
    }
}

impl Table<Drill> {
    fn of<'a, 's>(
        &'a self,
        series: &'s [DrillSeries],
    ) -> impl Iterator<Item = &'a Drill> + use<'a, 's> {
        self.iter().filter(move |drill| series.contains(&drill.series))
    }

    /// The smallest drill of these series that is at least `diameter`.
    pub fn bit_at_or_above(&self, diameter: Length, series: &[DrillSeries]) -> Option<&Drill> {
        self.of(series)
            .filter(|drill| drill.diameter >= diameter - SAME)
            .min_by(|a, b| a.diameter.total_cmp(&b.diameter))
    }

    /// The largest drill of these series that is at most `diameter`.
    pub fn bit_at_or_below(&self, diameter: Length, series: &[DrillSeries]) -> Option<&Drill> {
        self.of(series)
            .filter(|drill| drill.diameter <= diameter + SAME)
            .max_by(|a, b| a.diameter.total_cmp(&b.diameter))
    }

    /// The drill of these series that is nearest to `diameter`; the larger where two are as near.
    pub fn bit_nearest(&self, diameter: Length, series: &[DrillSeries]) -> Option<&Drill> {
        self.of(series).min_by(|a, b| {
            let (off_a, off_b) = ((a.diameter - diameter).abs(), (b.diameter - diameter).abs());
            off_a.total_cmp(&off_b).then_with(|| b.diameter.total_cmp(&a.diameter))
        })
    }

    /// Drills to open a hole up to `diameter`, smallest first: a pilot of 3 mm, then at most
    /// doubling from 6 mm up, then the drill itself (common practice for thin metal by hand). The
    /// steps are sizes that boxed sets hold. Empty where no drill of the series is within 0.3 mm.
    pub fn steps_to(&self, diameter: Length, series: &[DrillSeries]) -> Vec<&Drill> {
        let last = self.bit_nearest(diameter, series);
        let Some(last) = last.filter(|bit| bit.diameter.is_near(diameter, Length::mm(0.3))) else {
            return Vec::new();
        };
        let mut steps = vec![last];
        let mut size = diameter;
        while size > Length::mm(4.0) {
            size = if size > Length::mm(10.0) { size / 2.0 } else { Length::mm(3.0) };
            steps.extend(
                self.of(series)
                    .filter(|bit| bit.in_set)
                    .min_by(|a, b| (a.diameter - size).abs().total_cmp(&(b.diameter - size).abs())),
            );
        }
        steps.reverse();
        steps
    }
}

/// Sizes nearer than this are the same: inch sizes are rounded in tables.
const SAME: Length = Length::mm(0.005);

impl Entry for Drill {
    const KIND: &'static str = "drill";

    fn name(&self) -> &str {
        &self.name
    }

    fn origin(&self) -> &RowOrigin {
        &self.origin
    }

    fn read_all(row: &mut Row<'_>) -> Vec<Self> {
        let series = row.choice("series", DrillSeries::ALL);
        let metric =
            matches!(series, DrillSeries::Metric | DrillSeries::HoleSaw | DrillSeries::Step);
        let origin = row.origin();
        let drill = |name: String, diameter: Length, in_set: bool| Self {
            name,
            series,
            diameter,
            in_set,
            origin: origin.clone(),
        };
        if metric {
            let boxed: Vec<Length> = row.quantity_list("in-set", Unit::MM);
            let sizes: Vec<Length> = row.quantity_list("sizes", Unit::MM);
            let before = match series {
                DrillSeries::HoleSaw => "hole-saw-",
                DrillSeries::Step => "step-",
                _ => "",
            };
            return sizes
                .into_iter()
                .map(|size| {
                    let in_set = boxed.iter().any(|boxed| boxed.is_near(size, SAME));
                    drill(format!("{before}{}mm", size.to_mm()), size, in_set)
                })
                .collect();
        }
        let boxed = row.words_list("in-set");
        row.number_map("sizes")
            .into_iter()
            .map(|(size, mm)| {
                let in_set = boxed.contains(&size);
                let name = if series == DrillSeries::Fraction { format!("{size}in") } else { size };
                drill(name, Length::mm(mm), in_set)
            })
            .collect()
    }
}
