//! Least cost and largest leftover strip of one sheet section.
use super::costs::Costs;
use super::problem::{Cutting, Pattern, Problem};
use super::relax::relax;
use super::search::{Aim, Choice, Column, Row, search};
use super::sheet_greedy::{Layout, best, part};
use super::sheet_job::Panel;
use super::sheet_shapes::{Made, Set, Shape, Sides, all_sets};
use super::simplex::Sense;

/// Sets that may be listed.
const SETS: usize = 12_000;

/// Layouts with what is shown about them.
pub(super) struct Solved {
    pub(super) layouts: Vec<Layout>,
    pub(super) cost_bound: i64,
    /// In areas with the kerf added to one side, as [`strip`] counts; made true by the caller.
    pub(super) leftover_bound: i64,
    pub(super) nodes: [u64; 2],
}

/// The section as it is solved: areas in `problem`, sides beside it, all with the kerf added.
pub(super) struct Sheets {
    pub(super) problem: Problem,
    pub(super) kinds: Vec<Sides>,
    pub(super) sizes: Vec<(i64, i64)>,
    pub(super) kerf: i64,
}

impl Sheets {
    /// Area of the larger strip that is left of a sheet beside or above a rectangle.
    pub(super) fn strip(&self, kind: usize, width: i64, height: i64) -> i64 {
        let (w, h) = self.sizes[kind];
        let beside = (w - width - self.kerf).max(0) * (h - self.kerf);
        let above = (h - height - self.kerf).max(0) * (w - self.kerf);
        beside.max(above)
    }

    fn best_shape(&self, kind: usize, set: &Set) -> Option<(i64, usize)> {
        let (w, h) = self.sizes[kind];
        set.shapes
            .iter()
            .enumerate()
            .filter(|(_, s)| s.width <= w && s.height <= h)
            .map(|(i, s)| (self.strip(kind, s.width, s.height), i))
            .max_by_key(|(strip, i)| (*strip, usize::MAX - i))
    }
}

/// A set on a kind of sheet, with the largest strip it can leave.
struct Filling {
    kind: usize,
    set: usize,
    strip: i64,
}

/// Solves a section. `None` if no plan was found.
pub(super) fn solve(sheets: &Sheets, limit: u64) -> Option<Solved> {
    let problem = &sheets.problem;
    let quick = best(problem, &sheets.sizes, &sheets.kinds);
    let cost = |l: &[Layout]| -> i64 { l.iter().map(|l| problem.kinds[l.kind].cost).sum() };
    // By area alone the pieces are a problem of bars: its bound holds for sheets too.
    let root = relax(problem, &[], limit);
    let quick_cost = quick.as_ref().map(|l| cost(l));
    let costs = Costs::new(problem, quick_cost.unwrap_or(0));
    let mut bound = costs.at_least(root.bound());
    if let Some(c) = quick_cost {
        bound = bound.min(c);
    }
    let hopes = sheets.sizes.iter().map(|(w, h)| w * h).max().unwrap_or(0);
    let told = |layouts: Vec<Layout>, bound| {
        Some(Solved { layouts, cost_bound: bound, leftover_bound: hopes, nodes: [0; 2] })
    };
    let sets = all_sets(&sheets.kinds, &problem.demand, &sheets.sizes, SETS, limit / 8);
    let Some(sets) = sets else { return told(quick?, bound) };
    let options = options(sheets, &sets);
    let full: Vec<usize> = full(problem, &sets, &options);
    let start = quick_cost.unwrap_or(i64::MAX / 4);
    let mut work = 0;
    let pick = |chosen: &[usize], marked: &[usize], cutoff: i64, any: bool, work: &mut u64| {
        let choice = choice(problem, &sets, &options, chosen, marked);
        let lift = |c: i64| costs.at_least(c);
        let aim = Aim { cutoff, lift: &lift, any, work: limit.saturating_sub(*work) };
        let out = search(&choice, &aim);
        *work += out.work;
        out
    };
    let out = pick(&full, &[], start, false, &mut work);
    let mut nodes = [out.nodes, 0];
    bound = bound.max(out.bound).min(start);
    let pattern = |o: &Filling| Pattern { kind: o.kind, counts: sets[o.set].counts.clone() };
    let mut best_cutting: Option<Cutting> = out.best.map(|(_, chosen)| {
        let chosen: Vec<(Pattern, i64)> =
            chosen.into_iter().map(|(j, n)| (pattern(&options[full[j]]), n)).collect();
        problem.trim_surplus(&chosen, None)
    });
    let quick_cutting = quick.as_ref().map(|l| cutting_of(problem, l));
    if best_cutting.is_none() {
        best_cutting = quick_cutting;
    }
    let mut cutting = best_cutting?;
    let least = problem.cost(&cutting);
    let strip_of =
        |c: &Cutting| c.iter().filter_map(|(p, _)| strip_of(&options, &sets, p)).max().unwrap_or(0);
    let mut leftover_bound = hopes;
    if bound == least {
        let mut strips: Vec<i64> = options.iter().map(|o| o.strip).collect();
        strips.sort_unstable();
        strips.dedup();
        // Halving over the strips that occur: below `low` there is a plan, from `high` on there is none.
        let mut low = strips.partition_point(|s| *s <= strip_of(&cutting));
        let mut high = strips.len();
        let until = (work + limit / 4).min(limit);
        while low < high && work < until {
            let ask = strips[low + (high - low) / 2];
            let marked: Vec<usize> =
                (0..options.len()).filter(|o| options[*o].strip >= ask).collect();
            let out = pick(&full, &marked, least + 1, true, &mut work);
            nodes[1] += out.nodes;
            if let Some((_, chosen)) = out.best {
                let keep = chosen.iter().position(|(j, _)| *j < marked.len());
                let chosen: Vec<(Pattern, i64)> = chosen
                    .into_iter()
                    .map(|(j, n)| {
                        let o = if j < marked.len() { marked[j] } else { full[j - marked.len()] };
                        (pattern(&options[o]), n)
                    })
                    .collect();
                let plan = problem.trim_surplus(&chosen, keep);
                if !problem.is_met_by(&plan) || strip_of(&plan) < ask {
                    break;
                }
                cutting = plan;
                low = strips.partition_point(|s| *s <= strip_of(&cutting));
            } else if out.bound > least {
                high = low + (high - low) / 2;
            } else {
                break;
            }
        }
        if low >= high {
            leftover_bound = strip_of(&cutting);
        } else {
            leftover_bound = strips[high - 1];
        }
    }
    let layouts = cutting
        .iter()
        .flat_map(|(p, n)| std::iter::repeat_n(p, *n as usize))
        .map(|p| lay_out(sheets, &sets, p))
        .collect::<Option<Vec<_>>>()?;
    Some(Solved { layouts, cost_bound: bound, leftover_bound, nodes })
}

fn options(sheets: &Sheets, sets: &[Set]) -> Vec<Filling> {
    let mut out = Vec::new();
    for (set, s) in sets.iter().enumerate() {
        for kind in 0..sheets.sizes.len() {
            if let Some((strip, _)) = sheets.best_shape(kind, s) {
                out.push(Filling { kind, set, strip });
            }
        }
    }
    out
}

fn strip_of(options: &[Filling], sets: &[Set], p: &Pattern) -> Option<i64> {
    options.iter().find(|o| o.kind == p.kind && sets[o.set].counts == p.counts).map(|o| o.strip)
}

/// Options to which no piece can be added.
fn full(problem: &Problem, sets: &[Set], options: &[Filling]) -> Vec<usize> {
    let known: std::collections::BTreeSet<(usize, &[i64])> =
        options.iter().map(|o| (o.kind, &sets[o.set].counts[..])).collect();
    (0..options.len())
        .filter(|o| {
            let mut counts = sets[options[*o].set].counts.clone();
            (0..counts.len()).all(|i| {
                counts[i] += 1;
                let fits = counts[i] <= problem.demand[i]
                    && known.contains(&(options[*o].kind, &counts[..]));
                counts[i] -= 1;
                !fits
            })
        })
        .collect()
}

/// Options as columns: first the marked ones, of which at least one is taken, then the others.
fn choice(
    problem: &Problem,
    sets: &[Set],
    options: &[Filling],
    others: &[usize],
    marked: &[usize],
) -> Choice {
    let mut rows: Vec<Row> =
        problem.demand.iter().map(|d| Row { sense: Sense::AtLeast, rhs: *d }).collect();
    let mut limit_row = vec![None; problem.kinds.len()];
    for (k, kind) in problem.kinds.iter().enumerate() {
        if kind.limit.is_some() {
            limit_row[k] = Some(rows.len());
            rows.push(Row { sense: Sense::AtMost, rhs: problem.most(k) });
        }
    }
    let mark = rows.len();
    if !marked.is_empty() {
        rows.push(Row { sense: Sense::AtLeast, rhs: 1 });
    }
    let column = |o: usize, special: bool| {
        let o = &options[o];
        let counts = &sets[o.set].counts;
        let mut entries: Vec<(usize, i64)> =
            counts.iter().enumerate().filter(|(_, c)| **c > 0).map(|(i, c)| (i, *c)).collect();
        let most = entries.iter().map(|(i, c)| (problem.demand[*i] + c - 1) / c).max().unwrap_or(0);
        entries.extend(limit_row[o.kind].map(|r| (r, 1)));
        let group = if special { o.kind + problem.kinds.len() } else { o.kind };
        if special {
            entries.push((mark, 1));
        }
        Column {
            cost: problem.kinds[o.kind].cost,
            entries,
            most: if special { 1 } else { most },
            group,
        }
    };
    Choice {
        columns: marked
            .iter()
            .map(|o| column(*o, true))
            .chain(others.iter().map(|o| column(*o, false)))
            .collect(),
        rows,
        pieces: problem.demand.len(),
        groups: 2 * problem.kinds.len(),
    }
}

fn cutting_of(problem: &Problem, layouts: &[Layout]) -> Cutting {
    super::problem::gather(layouts.iter().map(|l| {
        let mut counts = vec![0; problem.demand.len()];
        for (kind, _, _) in &l.placed {
            counts[*kind] += 1;
        }
        (Pattern { kind: l.kind, counts }, 1)
    }))
}

/// Lays a set out on its sheet so that the larger strip is left whole.
fn lay_out(sheets: &Sheets, sets: &[Set], p: &Pattern) -> Option<Layout> {
    let set = sets.iter().position(|s| s.counts == p.counts)?;
    let (_, shape) = sheets.best_shape(p.kind, &sets[set])?;
    let (width, height) = sheets.sizes[p.kind];
    let s = sets[set].shapes[shape];
    let beside = (width - s.width - sheets.kerf).max(0) * (height - sheets.kerf);
    let above = (height - s.height - sheets.kerf).max(0) * (width - sheets.kerf);
    let whole = Panel { x: 0, y: 0, width, height };
    let mut layout = Layout { kind: p.kind, placed: vec![], cuts: vec![], free: vec![] };
    spread(sets, s, whole, beside >= above, &mut layout);
    Some(layout)
}

/// Cuts a shape's rectangle out of a panel, then the rectangle into its parts.
fn spread(sets: &[Set], shape: Shape, panel: Panel, height_first: bool, layout: &mut Layout) {
    part(layout, panel, shape.width, shape.height, height_first);
    let own = Panel { width: shape.width, height: shape.height, ..panel };
    match shape.made {
        Made::Piece { kind, turned } => layout.placed.push((kind, own, turned)),
        Made::Pair { beside, first, second } => {
            let a = sets[first.0].shapes[first.1];
            let b = sets[second.0].shapes[second.1];
            let (one, two) = if beside {
                layout.cuts.push((true, own.x + a.width, own));
                (
                    Panel { width: a.width, ..own },
                    Panel { x: own.x + a.width, width: b.width, ..own },
                )
            } else {
                layout.cuts.push((false, own.y + a.height, own));
                (
                    Panel { height: a.height, ..own },
                    Panel { y: own.y + a.height, height: b.height, ..own },
                )
            };
            spread(sets, a, one, true, layout);
            spread(sets, b, two, true, layout);
        }
    }
}
