//! What the slats bear at one position: demands that are exact at once, and bounds on those that must be worked
//! out.

use super::capacity::{Actions, Factors};
use super::envelope::{CaseEnvelope, SlatPeaks, exceeds, raise};
use super::press::Bearing;
use super::probe::{Most, Probe};
use crate::load::{Case, CaseKind};
use crate::statics::Span;

/// A slat at a position whose moment or deflection may be the greatest.
pub(super) struct Candidate {
    pub(super) slat: usize,
    pub(super) position: usize,
    /// No less than the moment, and the deflection at once and after years; below all where it is passed over.
    pub(super) moment: f64,
    pub(super) sags: [f64; 2],
}

/// What a slat has met so far in a case, and in others that count for strength as this one does.
#[derive(Clone, Copy)]
pub(super) struct Met {
    /// No more than the greatest moment of the case, and the greatest deflection at once and after years.
    moment: f64,
    sags: [f64; 2],
    /// The greatest reaction, shear and moment of the others.
    others: [f64; 3],
}

impl Met {
    /// Nothing yet, but for the other cases.
    pub(super) fn in_others(slat: usize, others: &[&CaseEnvelope]) -> Met {
        let nothing = f64::NEG_INFINITY;
        let mut met = Met { moment: nothing, sags: [nothing; 2], others: [nothing; 3] };
        for peaks in others.iter().map(|other| &other.slats[slat]) {
            for (most, peak) in met.others.iter_mut().zip([peaks.reaction, peaks.shear, peaks.moment]) {
                *most = most.max(peak.map_or(nothing, |p| p.value));
            }
        }
        met
    }
}

/// The slats at one position of a case.
pub(super) struct Borne<'s> {
    pub(super) span: &'s Span,
    pub(super) actions: &'s Actions,
    pub(super) case: &'s Case,
    pub(super) position: usize,
    pub(super) dead: &'s [Probe],
    pub(super) dead_most: &'s [Most],
    pub(super) peaks: &'s mut [SlatPeaks],
    pub(super) met: &'s mut [Met],
    pub(super) candidates: &'s mut Vec<Candidate>,
}

impl Borne<'_> {
    /// Reactions and shear of a slat under people and the dead load, and bounds on its moment and deflections.
    pub(super) fn raise(&mut self, slat: usize, live: &Probe) -> &mut Candidate {
        let (dead, peaks, met, k) = (&self.dead[slat], &mut self.peaks[slat], &mut self.met[slat], self.position);
        let both = live.with(dead, self.actions.strength);
        for (end, reaction) in both.reactions().into_iter().enumerate() {
            raise(&mut peaks.reaction, reaction, k, Some(self.span.supports[end]));
        }
        let (end, shear) = both.shear();
        raise(&mut peaks.shear, shear, k, Some(self.span.supports[end]));
        let bound = both.moment_bound(self.span);
        let passed_over = exceeds(met.others[2], bound);
        let moment = if passed_over { f64::NEG_INFINITY } else { bound };
        met.moment = met.moment.max(both.moment_met());
        self.candidates.push(Candidate { slat, position: k, moment, sags: [f64::NEG_INFINITY; 2] });
        let last = self.candidates.len() - 1;
        &mut self.candidates[last]
    }

    /// The combinations in which the slats' sags are asked for, at once and after years.
    fn sags(&self) -> [Option<Factors>; 2] {
        let (actions, kind) = (self.actions, self.case.kind);
        let after_years = kind == CaseKind::Lying && actions.lasting != actions.sag;
        if self.case.use_.deflection {
            [Some(actions.sag_of(kind)), after_years.then_some(actions.lasting)]
        } else {
            [None; 2]
        }
    }
}

impl Bearing for Borne<'_> {
    fn may_govern(&self, slat: usize, people: &Most) -> bool {
        let (dead, peaks, met) = (&self.dead_most[slat], &self.peaks[slat], &self.met[slat]);
        // Where an end may lift, what holds it down decides.
        if peaks.uplift.is_none() || people.reactions().iter().any(|r| *r < 0.0) {
            return true;
        }
        let both = people.with(dead, self.actions.strength);
        let [left, right] = both.reactions();
        let so_far = [peaks.reaction.map(|p| p.value), peaks.shear.map(|p| p.value), Some(met.moment)];
        let strength = [left.max(right), both.shear(), both.moment()];
        let stronger = strength
            .iter()
            .zip(so_far)
            .zip(&met.others)
            .any(|((most, so_far), other)| so_far.is_none_or(|s| exceeds(*most, s)) && !exceeds(*other, *most));
        let sag = |(factors, so_far): (Option<Factors>, f64)| {
            factors.is_some_and(|f| exceeds(people.with(dead, f).sag(), so_far))
        };
        stronger || self.sags().into_iter().zip(met.sags).any(sag)
    }

    fn bear(&mut self, slat: usize, people: &Probe) {
        let [a, b] = people.reactions();
        let uplift = (self.actions.strength.variable * -a.min(b)).max(0.0);
        raise(&mut self.peaks[slat].uplift, uplift, self.position, None);
        let mut bounds = [f64::NEG_INFINITY; 2];
        for (i, factors) in self.sags().into_iter().enumerate() {
            if let Some(factors) = factors {
                let both = people.with(&self.dead[slat], factors);
                bounds[i] = both.sag_bound(self.span);
                self.met[slat].sags[i] = self.met[slat].sags[i].max(both.sag_met());
            }
        }
        self.raise(slat, people).sags = bounds;
    }
}
