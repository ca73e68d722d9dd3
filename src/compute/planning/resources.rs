//! What is scarce: the crew, and sets of tasks that never overlap, each with the time there is.

use super::model::Model;
use super::spans::Spans;

/// Longest stretch, in steps, for which the lengths that tasks can fill are counted out.
const LONGEST_COUNTED: i64 = 4096;

/// Most sets of tasks that are watched.
const MOST_SETS: usize = 5;

/// A stretch of time in which something scarce is there.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub(super) from: i64,
    pub(super) to: i64,
    /// How much of it there is at any time.
    pub(super) rate: i64,
    /// Most that can be used of it: at most its length times its rate.
    pub(super) full: i64,
    /// What all earlier stretches hold.
    before: i64,
}

/// Stretches in order of time.
#[derive(Clone, Debug)]
pub(super) struct Axis(Vec<Stretch>);

/// A place in a stretch: its index, and how much of it lies on the far side.
pub(super) type Place = (usize, i64);

impl Axis {
    fn new(mut stretches: Vec<Stretch>) -> Self {
        let mut before = 0;
        for stretch in &mut stretches {
            stretch.before = before;
            before += stretch.full;
        }
        Self(stretches)
    }

    fn mirrored(&self) -> Self {
        let turn = |s: &Stretch| Stretch { from: -s.to, to: -s.from, ..*s };
        Self::new(self.0.iter().rev().map(turn).collect())
    }

    /// Where work begins at `t`, with what is left of that stretch.
    pub(super) fn begin(&self, t: i64) -> Place {
        let k = self.0.partition_point(|s| s.to <= t);
        let left = self.0.get(k).map_or(0, |s| ((s.to - t.max(s.from)) * s.rate).min(s.full));
        (k, left)
    }

    /// Where work ends at `t`, with what has gone of that stretch.
    pub(super) fn end(&self, t: i64) -> Place {
        let k = self.0.partition_point(|s| s.to < t);
        let gone = self.0.get(k).map_or(0, |s| ((t - s.from).max(0) * s.rate).min(s.full));
        (k, gone)
    }

    /// Most that can be used between `a` and `b`, given with their places.
    pub(super) fn between(&self, (a, pa): (i64, Place), (b, pb): (i64, Place)) -> i64 {
        if pa.0 > pb.0 || pa.0 >= self.0.len() {
            return 0;
        }
        let first = &self.0[pa.0];
        if pa.0 == pb.0 {
            return ((b - a.max(first.from)).max(0) * first.rate).min(first.full);
        }
        let upto = self.0.get(pb.0).map_or_else(|| self.total(), |s| s.before);
        pa.1 + (upto - first.before - first.full) + pb.1
    }

    /// An earlier time within the same stretch, before which `spare` more at most can be used.
    pub(super) fn widened(&self, (t, place): (i64, Place), spare: i64) -> i64 {
        self.0.get(place.0).map_or(t, |s| t.min(s.from.max(t - spare / s.rate.max(1))))
    }

    fn total(&self) -> i64 {
        self.0.last().map_or(0, |s| s.before + s.full)
    }

    /// Least time by which `amount` (1 or more) can have been used from `a` on; the last end
    /// when there is not so much.
    pub(super) fn used_up(&self, a: i64, place: Place, amount: i64) -> i64 {
        let Some(first) = self.0.get(place.0) else { return a };
        let ceil = |amount: i64, rate: i64| (amount + rate - 1) / rate.max(1);
        if amount <= place.1 {
            return a.max(first.from) + ceil(amount, first.rate);
        }
        let mut left = amount - place.1;
        for s in &self.0[place.0 + 1..] {
            if left <= s.full {
                return s.from + ceil(left, s.rate);
            }
            left -= s.full;
        }
        self.0.last().map_or(a, |s| s.to)
    }
}

/// Something scarce and the tasks that need it.
#[derive(Clone, Debug)]
pub(super) struct Resource {
    /// Tasks with the rate at which they use it.
    pub(super) members: Vec<(usize, i64)>,
    /// Forwards in time, and backwards (times negated).
    pub(super) axes: [Axis; 2],
    /// Whether the members never overlap.
    pub(super) alone: bool,
}

/// Which tasks end before which begin, by the arcs and all that follows from them. An arc that lets two
/// tasks overlap says nothing of the kind.
pub(super) fn follows(model: &Model) -> Vec<Vec<bool>> {
    let n = model.len();
    // Longest wait from start to start.
    let mut waits: Vec<Vec<Option<i64>>> = vec![vec![None; n]; n];
    for &task in model.order.iter().rev() {
        let mut row: Vec<Option<i64>> = vec![None; n];
        for arc in model.arcs.iter().filter(|a| a.from == task) {
            row[arc.to] = row[arc.to].max(Some(arc.wait));
            for (mine, theirs) in row.iter_mut().zip(&waits[arc.to]) {
                *mine = (*mine).max(theirs.map(|wait| wait + arc.wait));
            }
        }
        waits[task] = row;
    }
    let after = |task: usize, wait: &Option<i64>| wait.is_some_and(|w| w >= model.steps[task]);
    waits.iter().enumerate().map(|(t, row)| row.iter().map(|w| after(t, w)).collect()).collect()
}

/// Pairs of tasks that are alike in all that counts, in order of index: the first may as well
/// start no later than the second.
pub(super) fn twins(model: &Model) -> Vec<(usize, usize)> {
    let n = model.len();
    let links = |t: usize| {
        let before: Vec<(usize, i64)> =
            model.arcs.iter().filter(|a| a.to == t).map(|a| (a.from, a.wait)).collect();
        let after: Vec<(usize, i64)> =
            model.arcs.iter().filter(|a| a.from == t).map(|a| (a.to, a.wait)).collect();
        (before, after)
    };
    let alike = |a: usize, b: usize| {
        let same_clashes =
            (0..n).filter(|&k| k != a && k != b).all(|k| model.clash[a][k] == model.clash[b][k]);
        model.steps[a] == model.steps[b]
            && model.crew[a] == model.crew[b]
            && model.starts[a] == model.starts[b]
            && model.due[a] == model.due[b]
            && same_clashes
            && !model
                .by_hour
                .iter()
                .any(|arc| [arc.from, arc.to].iter().any(|t| [a, b].contains(t)))
            && links(a) == links(b)
    };
    let mut pairs = Vec::new();
    for a in 0..n {
        if let Some(b) = (a + 1..n).find(|&b| alike(a, b)) {
            pairs.push((a, b));
        }
    }
    pairs
}

/// The crew, and the sets of tasks that never overlap which promise most.
pub(super) fn resources(model: &Model) -> Vec<Resource> {
    let mut list = Vec::new();
    let most = model.pieces.iter().map(|p| p.crew).max().unwrap_or(0);
    if most > 1 {
        list.push(crew(model));
    }
    for set in sets(model) {
        list.push(alone(model, &set));
        // Work that keeps hours of its own, apart from what may go on all night.
        let narrow: Vec<usize> = set.iter().copied().filter(|&t| model.crew[t] > 0).collect();
        if narrow.len() > 1 && narrow.len() < set.len() {
            list.push(alone(model, &narrow));
        }
        let hours = |t: usize| cover(model, &[t]);
        let mut kinds: Vec<Spans> = narrow.iter().map(|&t| hours(t)).collect();
        kinds.sort_unstable();
        kinds.dedup();
        for kind in kinds.iter().take(MOST_SETS) {
            let same: Vec<usize> =
                narrow.iter().copied().filter(|&t| hours(t).meet(kind) == hours(t)).collect();
            if same.len() > 1 && same.len() < narrow.len() && cover(model, &narrow) != *kind {
                list.push(alone(model, &same));
            }
        }
    }
    list.retain(|r| !r.members.is_empty());
    list.truncate(3 * MOST_SETS);
    list
}

fn crew(model: &Model) -> Resource {
    let members = (0..model.len()).filter(|&t| model.crew[t] > 0).map(|t| (t, model.crew[t]));
    let stretch = |p: &super::model::Piece| Stretch {
        from: p.from,
        to: p.to,
        rate: p.crew,
        full: (p.to - p.from) * p.crew,
        before: 0,
    };
    let axis = Axis::new(model.pieces.iter().filter(|p| p.crew > 0).map(stretch).collect());
    Resource { members: members.collect(), axes: [axis.clone(), axis.mirrored()], alone: false }
}

/// Steps that any of the tasks could be at work.
fn cover(model: &Model, tasks: &[usize]) -> Spans {
    let ranges = tasks.iter().flat_map(|&t| {
        model.starts[t].ranges().iter().map(move |r| (r.0, r.1 + model.steps[t] - 1))
    });
    Spans::of(ranges.collect())
}

fn alone(model: &Model, tasks: &[usize]) -> Resource {
    let stretches = cover(model, tasks)
        .ranges()
        .iter()
        .map(|&(from, last)| {
            let to = last + 1;
            Stretch { from, to, rate: 1, full: fillable(model, tasks, from, to), before: 0 }
        })
        .collect();
    let axis = Axis::new(stretches);
    Resource {
        members: tasks.iter().map(|&t| (t, 1)).collect(),
        axes: [axis.clone(), axis.mirrored()],
        alone: true,
    }
}

/// Most steps of a stretch that whole tasks can fill; none crosses its ends.
fn fillable(model: &Model, tasks: &[usize], from: i64, to: i64) -> i64 {
    let length = to - from;
    if length > LONGEST_COUNTED {
        return length;
    }
    let mut can = vec![false; length as usize + 1];
    can[0] = true;
    for &t in tasks {
        let start = model.starts[t].at_or_after(from);
        if start < to && model.steps[t] > 0 {
            let steps = model.steps[t] as usize;
            for sum in (steps..can.len()).rev() {
                can[sum] |= can[sum - steps];
            }
            if can[can.len() - 1] {
                return length;
            }
        }
    }
    (0..=length).rev().find(|&sum| can[sum as usize]).unwrap_or(0)
}

/// Sets of tasks of which no two ever overlap, those with most work first.
fn sets(model: &Model) -> Vec<Vec<usize>> {
    let n = model.len();
    let follows = follows(model);
    let apart = |a: usize, b: usize| model.clash[a][b] || follows[a][b] || follows[b][a];
    let lasting: Vec<usize> = (0..n).filter(|&t| model.steps[t] > 0).collect();
    let mut found: Vec<Vec<usize>> = Vec::new();
    for attended in [true, false] {
        let pool: Vec<usize> =
            lasting.iter().copied().filter(|&t| !attended || model.crew[t] > 0).collect();
        for by_room in [false, true] {
            for &seed in &pool {
                let mut set = vec![seed];
                let rest: Vec<usize> =
                    pool.iter().copied().filter(|&t| t != seed && apart(seed, t)).collect();
                let room = |t: usize| -> i64 {
                    let near = rest.iter().filter(|&&k| k != t && apart(t, k));
                    near.map(|&k| model.steps[k]).sum::<i64>() + model.steps[t]
                };
                let weigh = |&t: &usize| (if by_room { room(t) } else { model.steps[t] }, n - t);
                let mut ranked: Vec<((i64, usize), usize)> =
                    rest.iter().map(|t| (weigh(t), *t)).collect();
                ranked.sort_unstable();
                while let Some((_, next)) = ranked.pop() {
                    set.push(next);
                    ranked.retain(|&(_, t)| apart(next, t));
                }
                set.sort_unstable();
                found.push(set);
            }
        }
    }
    found.retain(|s| s.len() > 1);
    let work = |s: &[usize]| s.iter().map(|&t| model.steps[t]).sum::<i64>();
    found.sort_by(|a, b| work(b).cmp(&work(a)).then_with(|| a.cmp(b)));
    found.dedup();
    let mut kept: Vec<Vec<usize>> = Vec::new();
    for set in found {
        let within = kept.iter().any(|k| set.iter().all(|t| k.contains(t)));
        if !within && kept.len() < MOST_SETS {
            kept.push(set);
        }
    }
    kept
}
