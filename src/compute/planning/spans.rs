//! Sorted lists of whole numbers given as closed ranges: the starts that a task may take.

/// Stands for "no such value": beyond every time of a checked problem.
pub(super) const FAR: i64 = i64::MAX / 4;

/// A set of whole numbers: sorted, disjoint, closed ranges.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Spans(Vec<(i64, i64)>);

impl Spans {
    /// The set of all values in any of the ranges; ranges with `from > to` are empty.
    pub(super) fn of(mut ranges: Vec<(i64, i64)>) -> Self {
        ranges.retain(|r| r.0 <= r.1);
        ranges.sort_unstable();
        let mut merged: Vec<(i64, i64)> = Vec::with_capacity(ranges.len());
        for (from, to) in ranges {
            match merged.last_mut() {
                Some(last) if from <= last.1 + 1 => last.1 = last.1.max(to),
                _ => merged.push((from, to)),
            }
        }
        Self(merged)
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    pub(super) fn ranges(&self) -> &[(i64, i64)] {
        &self.0
    }

    pub(super) fn first(&self) -> i64 {
        self.0.first().map_or(FAR, |r| r.0)
    }

    pub(super) fn last(&self) -> i64 {
        self.0.last().map_or(-FAR, |r| r.1)
    }

    /// Least member at or after `t`, or [`FAR`].
    pub(super) fn at_or_after(&self, t: i64) -> i64 {
        let i = self.0.partition_point(|r| r.1 < t);
        self.0.get(i).map_or(FAR, |r| r.0.max(t))
    }

    /// Greatest member at or before `t`, or minus [`FAR`].
    pub(super) fn at_or_before(&self, t: i64) -> i64 {
        let i = self.0.partition_point(|r| r.0 <= t);
        if i == 0 { -FAR } else { self.0[i - 1].1.min(t) }
    }

    /// Members of both.
    pub(super) fn meet(&self, other: &Self) -> Self {
        let mut ranges = Vec::new();
        let (mut i, mut k) = (0, 0);
        while i < self.0.len() && k < other.0.len() {
            let (a, b) = (self.0[i], other.0[k]);
            let both = (a.0.max(b.0), a.1.min(b.1));
            if both.0 <= both.1 {
                ranges.push(both);
            }
            if a.1 < b.1 {
                i += 1;
            } else {
                k += 1;
            }
        }
        Self(ranges)
    }

    /// Members that lie outside the closed range.
    pub(super) fn without(&self, from: i64, to: i64) -> Self {
        if from > to {
            return self.clone();
        }
        let mut ranges = Vec::with_capacity(self.0.len() + 1);
        for &(a, b) in &self.0 {
            ranges.push((a, b.min(from - 1)));
            ranges.push((a.max(to + 1), b));
        }
        ranges.retain(|r| r.0 <= r.1);
        Self(ranges)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn has(set: &Spans, t: i64) -> bool {
        set.at_or_after(t) == t
    }

    #[test]
    fn touching_ranges_become_one() {
        assert_eq!(Spans::of(vec![(4, 6), (1, 3), (9, 8)]).ranges(), &[(1, 6)]);
    }

    #[test]
    fn neighbours_are_found_across_gaps() {
        let set = Spans::of(vec![(0, 3), (10, 12)]);
        assert_eq!((set.at_or_after(4), set.at_or_before(9)), (10, 3));
        assert_eq!((set.at_or_after(13), set.at_or_before(-1)), (FAR, -FAR));
        assert!(has(&set, 11) && !has(&set, 5));
    }

    #[test]
    fn meeting_and_taking_out_agree_with_counting() {
        let a = Spans::of(vec![(0, 5), (8, 12), (20, 20)]);
        let b = Spans::of(vec![(4, 9), (11, 30)]);
        let both: Vec<i64> = (0..40).filter(|&t| has(&a, t) && has(&b, t)).collect();
        let meet = a.meet(&b);
        assert_eq!((0..40).filter(|&t| has(&meet, t)).collect::<Vec<_>>(), both);
        let cut = a.without(3, 9);
        for t in 0..40 {
            assert_eq!(has(&cut, t), has(&a, t) && !(3..=9).contains(&t));
        }
    }
}
