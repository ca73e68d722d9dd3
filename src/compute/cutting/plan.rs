//! What is answered: bars with their pieces and marks, and how good the plan is shown to be.

/// What the cost of a section's bars is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Cents: all stock that can be bought has a price.
    Price,
    /// Hundredths of a millimetre of bars bought, as some price is missing. Leftovers count nothing.
    BoughtLength,
}

/// Something worth telling that does not prevent a plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remark {
    /// The saw cut is wider than this piece is long: usually a slip in a unit.
    KerfWiderThanPiece {
        /// The piece.
        piece: String,
    },
    /// This stock has no price, so the section is measured by [`Measure::BoughtLength`].
    PriceMissing {
        /// The stock.
        stock: String,
    },
}

/// How far a criterion was settled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Proof {
    /// The plan's value.
    pub value: i64,
    /// No plan (that is equal in the criteria before) is better than this.
    pub bound: i64,
    /// Steps of search spent on it: nodes of the tree of choices.
    pub nodes: u64,
}

impl Proof {
    /// Whether the value is the best there is.
    pub fn proven(&self) -> bool {
        self.value == self.bound
    }
}

/// One piece on a bar. Marks run from the zero end of the whole bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cut {
    /// The piece's name.
    pub piece: String,
    /// Where the piece begins.
    pub from: i64,
    /// Where the piece ends and its saw cut begins: `from` plus its length.
    pub to: i64,
    /// Its zero end is the other side of the cut that frees the piece before: nested mitres.
    pub shared: bool,
    /// It lies turned over about the bar's axis, so that its mitres lean the other way.
    pub turned: bool,
}

/// One bar and how it is cut.
/// `trim_start` + pieces - `nested` + `saw` + `leftover` + `trim_end` = length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// Id of the stock.
    pub stock: String,
    /// Whole length of the bar.
    pub length: i64,
    /// Trim at the zero end.
    pub trim_start: i64,
    /// Trim at the far end.
    pub trim_end: i64,
    /// Price of the bar if it has one.
    pub price: Option<i64>,
    /// The pieces from the zero end on, longest first.
    pub cuts: Vec<Cut>,
    /// What saw cuts (and mitres at the ends) take between and after the pieces.
    pub saw: i64,
    /// How far nested pieces reach beside each other, added up.
    pub nested: i64,
    /// What is left between the last saw cut and the far trim.
    pub leftover: i64,
    /// Whether the leftover is at least the least useful length.
    pub useful: bool,
    /// Bars with equal numbers within a section are cut alike; counted from 0.
    pub set_up: usize,
}

/// The plan of one section.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SectionPlan {
    /// Name of the section.
    pub section: String,
    /// The bars in the order of cutting: longest first piece first.
    pub bars: Vec<Bar>,
    /// What the cost is counted in.
    pub measure: Measure,
    /// First criterion: cost of all bars, least; `bound` is at most `value`.
    pub cost: Proof,
    /// Second: longest leftover of one bar that was cut, most; `bound` is at least `value`.
    pub leftover: Proof,
    /// Third: number of different bars, least; `bound` is at most `value`.
    pub set_ups: Proof,
    /// What is worth telling.
    pub remarks: Vec<Remark>,
}

/// The plan of a job: sections in the order of their names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// One plan a section.
    pub sections: Vec<SectionPlan>,
}

impl Plan {
    /// Whether the least cost is proven for every section.
    pub fn proven(&self) -> bool {
        self.sections.iter().all(|s| s.cost.proven())
    }

    /// Total cost and bound of the sections measured by price, in cents.
    pub fn price(&self) -> Proof {
        let mut total = Proof { value: 0, bound: 0, nodes: 0 };
        for s in self.sections.iter().filter(|s| s.measure == Measure::Price) {
            total.value += s.cost.value;
            total.bound += s.cost.bound;
            total.nodes += s.cost.nodes;
        }
        total
    }
}
