//! What of the plan is told as figures, with what was proven of each.

use super::Plan;
use crate::compute::steps::Step;
use crate::source::{Figure, Ledger, Seen};

pub(super) fn record(plan: &Plan, steps: &[Step], ledger: &mut Ledger) {
    let told = |proven: bool| if proven { "yes" } else { "no" };
    ledger.push(
        Figure::new(
            "plan.finish",
            "end of the work after the first midnight",
            plan.finish.to_hours(),
            "h",
        )
        .formula("least end over all plans, each wait by the hour at which its joint is made")
        .input("steps", steps.len().to_string())
        .input("no plan ends before", format!("{:.2} h", plan.bound.to_hours()))
        .input("proven", told(plan.proven))
        .source("exact search with bound", Seen::Computed),
    );
    ledger.push(
        Figure::new("plan.days", "days with work", plan.days as f64, "days")
            .formula("fewest days over all plans that end as soon")
            .input("proven", told(plan.fewest_days))
            .source("exact search of sets of days", Seen::Computed),
    );
    ledger.push(
        Figure::new(
            "plan.idle",
            "waiting by day, with nobody at work",
            plan.idle.to_minutes(),
            "min",
        )
        .formula(
            "least over all plans on these days that end as soon: Σ gaps from first to last work",
        )
        .input(
            "no plan on these days has less than",
            format!("{:.0} min", plan.least_idle.to_minutes()),
        )
        .input("proven", told(plan.least_idle >= plan.idle))
        .source("exact search with bound", Seen::Computed),
    );
    ledger.push(
        Figure::new(
            "plan.drive",
            "not driven before, after the first midnight",
            plan.drive.0.to_hours(),
            "h",
        )
        .formula("latest of: end of the work, joint made + wait until it may be driven with")
        .input("decided by", plan.drive.1.clone())
        .source("plan and cure of this build", Seen::Computed)
        .decides(),
    );
}
