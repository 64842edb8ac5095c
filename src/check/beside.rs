//! What the guard and the ladder share: their loads as the rules take them, and checks that stand beside
//! the platform's frame.

use std::ops::Mul;

use super::capacity::Factors;
use super::desk::{Candidate, Desk};
use super::envelope::{Peak, exceeds};
use super::slat::PRACTICE;
use super::verdict::{Check, Limit};
use crate::derivation::{Expression, Worked, given};
use crate::load::{CaseKind, Duration};
use crate::quantity::{Measured, Ratio, number};

/// One of the cases that load the guard or the ladder.
#[derive(Clone, Copy)]
pub(super) struct Beside {
    pub(super) index: usize,
    pub(super) duration: Duration,
}

impl Desk<'_> {
    /// A case by its kind; none when the brief dropped it.
    pub(super) fn beside(&self, kind: CaseKind) -> Option<Beside> {
        let index = self.cases.iter().position(|c| c.kind == kind)?;
        Some(Beside { index, duration: self.cases[index].duration })
    }

    /// A load of people with its partial factor, where these rules have one.
    pub(super) fn factored<Q>(&self, symbol: &'static str, load: Q) -> Worked<Q>
    where
        Q: Measured,
        Ratio: Mul<Q, Output = Q>,
    {
        let Factors { variable, .. } = self.rules.actions().strength;
        if variable == 1.0 {
            return given(symbol, load);
        }
        (given("γQ", number(variable)) * given(symbol, load)).step(format!("{symbol}d"), PRACTICE)
    }

    /// A check of what stands beside the frame.
    pub(super) fn compare_beside<Q: Measured>(
        &self,
        limit: Limit,
        case: Beside,
        demand: &Worked<Q>,
        capacity: &Worked<Q>,
    ) -> Check {
        let peak = Peak { value: demand.value.si(), position: 0, at: None, permanent: 0.0 };
        self.compare(limit, &Candidate { case: case.index, peak: &peak, ratio: 0.0 }, demand, capacity)
    }
}

impl Check {
    /// With the steps that led to its demand.
    pub(super) fn after(mut self, earlier: &[&Expression]) -> Check {
        self.calculation.splice(0..0, earlier.iter().map(|e| (*e).clone()));
        self
    }

    /// With what a reader must know about it.
    pub(super) fn remarked(mut self, remark: impl Into<String>) -> Check {
        self.remark = Some(remark.into());
        self
    }
}

/// Of the checks of each limit the first with the greatest ratio, in the order the limits come.
pub(super) fn worst_of_each(all: Vec<Check>) -> Vec<Check> {
    let mut out: Vec<Check> = Vec::new();
    for check in all {
        match out.iter_mut().find(|c| c.limit == check.limit) {
            Some(kept) if exceeds(check.ratio, kept.ratio) => *kept = check,
            Some(_) => {}
            None => out.push(check),
        }
    }
    out
}
