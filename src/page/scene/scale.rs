//! Scales of ISO 5455.

use std::fmt;

/// A scale, paper to model: 1:20 is `Scale::new(1, 20)`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scale {
    paper: u32,
    model: u32,
}

/// How a drawing's scale is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScaleChoice {
    /// The largest of the list that fits its place, but none above `largest`.
    Fit {
        /// Upper limit.
        largest: Scale,
    },
    /// Just this one.
    Fixed(Scale),
    /// As large as its place allows; "not to scale" is printed.
    NotToScale,
}

impl Scale {
    /// 1:1
    pub const FULL: Scale = Scale::new(1, 1);

    /// ISO 5455:1979, largest first; the reductions go on by tens as its note allows.
    pub const LIST: [Scale; 15] = [
        Scale::new(50, 1),
        Scale::new(20, 1),
        Scale::new(10, 1),
        Scale::new(5, 1),
        Scale::new(2, 1),
        Scale::new(1, 1),
        Scale::new(1, 2),
        Scale::new(1, 5),
        Scale::new(1, 10),
        Scale::new(1, 20),
        Scale::new(1, 50),
        Scale::new(1, 100),
        Scale::new(1, 200),
        Scale::new(1, 500),
        Scale::new(1, 1000),
    ];

    /// A scale of so much on paper to so much in the model; zeros count as one.
    pub const fn new(paper: u32, model: u32) -> Self {
        Self {
            paper: if paper == 0 { 1 } else { paper },
            model: if model == 0 { 1 } else { model },
        }
    }

    /// Paper length of a model length of one.
    pub fn factor(self) -> f64 {
        f64::from(self.paper) / f64::from(self.model)
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.paper, self.model)
    }
}
