//! The greatest value that passes, found on the real verdict.
//!
//! Nothing is taken to grow or fall evenly. A coarse scan of the whole range, on all cores, finds the
//! last coarse value that passes; between it and the next one, which does not, the last step that
//! passes is found by halving. So the value found passes and the next step does not, whatever else the
//! range holds; where a smaller value fails, that is found and said too.

use rayon::prelude::*;

/// The values that are tried: whole numbers of some step, from `first` to `last`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Grid {
    /// The smallest.
    pub first: i64,
    /// The largest.
    pub last: i64,
    /// How far apart the values of the coarse scan are.
    pub coarse: i64,
    /// Values the coarse scan must not step over, such as both sides of a known jump.
    pub marks: Vec<i64>,
}

/// How a value fared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum State {
    Pass,
    Fail,
    Impossible,
}

/// The greatest value that passes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Greatest {
    pub(super) at: i64,
    /// Even the last value of the grid passes.
    pub(super) open: bool,
    /// Runs of smaller values that fail, both ends included.
    pub(super) holes: Vec<[i64; 2]>,
}

impl Grid {
    fn coarse_values(&self) -> Vec<i64> {
        let step = usize::try_from(self.coarse.max(1)).unwrap_or(1);
        let mut out: Vec<i64> = (self.first..=self.last).step_by(step).collect();
        out.extend(self.marks.iter().filter(|m| (self.first..=self.last).contains(*m)));
        out.push(self.last);
        out.sort_unstable();
        out.dedup();
        out
    }

    /// The greatest value that passes, if any does.
    pub(super) fn greatest(&self, state: impl Fn(i64) -> State + Sync) -> Option<Greatest> {
        let values = self.coarse_values();
        let states: Vec<State> = values.par_iter().map(|v| state(*v)).collect();
        let last = states.iter().rposition(|s| *s == State::Pass)?;
        let Some(beyond) = values.get(last + 1) else {
            return Some(Greatest { at: values[last], open: true, holes: holes(&values, &states, last, &state) });
        };
        let at = edge(values[last], *beyond, |v| state(v) == State::Pass);
        Some(Greatest { at, open: false, holes: holes(&values, &states, last, &state) })
    }
}

/// The last value from `yes` on of which something holds, given that it does not of `no`.
fn edge(mut yes: i64, mut no: i64, holds: impl Fn(i64) -> bool) -> i64 {
    while (no - yes).abs() > 1 {
        let middle = yes + (no - yes) / 2;
        if holds(middle) {
            yes = middle;
        } else {
            no = middle;
        }
    }
    yes
}

/// Runs of values that fail below one that passes.
fn holes(values: &[i64], states: &[State], last: usize, state: &impl Fn(i64) -> State) -> Vec<[i64; 2]> {
    let mut out = Vec::new();
    let mut i = 0;
    while i < last {
        if states[i] != State::Fail {
            i += 1;
            continue;
        }
        let end = i + states[i..last].iter().take_while(|s| **s == State::Fail).count();
        let fails = |v: i64| state(v) == State::Fail;
        let low = if i == 0 { values[0] } else { edge(values[i], values[i - 1], fails) };
        out.push([low, edge(values[end - 1], values[end], fails)]);
        i = end;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grid(first: i64, last: i64, coarse: i64) -> Grid {
        Grid { first, last, coarse, marks: Vec::new() }
    }

    fn passing(f: impl Fn(i64) -> bool + Sync) -> impl Fn(i64) -> State + Sync {
        move |v| if f(v) { State::Pass } else { State::Fail }
    }

    #[test]
    fn the_answer_passes_and_one_step_more_does_not() {
        for limit in 5..200 {
            let found = grid(5, 200, 16).greatest(passing(|v| v <= limit)).unwrap();
            assert_eq!((found.at, found.open), (limit, limit == 200));
            assert!(found.holes.is_empty());
        }
        assert_eq!(grid(5, 200, 16).greatest(passing(|v| v < 5)), None);
    }

    /// A range that fails in the middle, as when only the lighter sleepers jump.
    #[test]
    fn what_fails_below_the_answer_is_found() {
        let g = Grid { marks: vec![132, 133], ..grid(5, 400, 32) };
        let found = g.greatest(passing(|v| v <= 70 || (133..=251).contains(&v))).unwrap();
        assert_eq!(found, Greatest { at: 251, open: false, holes: vec![[71, 132]] });
        let from_the_start = g.greatest(passing(|v| (133..=251).contains(&v))).unwrap();
        assert_eq!(from_the_start.holes, vec![[5, 132]]);
    }

    #[test]
    fn what_cannot_be_built_is_no_failure() {
        let state = |v: i64| match v {
            ..=40 => State::Impossible,
            41..=90 => State::Pass,
            _ => State::Fail,
        };
        let found = grid(5, 200, 16).greatest(state).unwrap();
        assert_eq!(found, Greatest { at: 90, open: false, holes: Vec::new() });
    }
}
