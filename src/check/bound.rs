//! Bounds on what loads do, so that positions that cannot govern are passed over.

use super::capacity::{Actions, Factors};
use super::envelope::{Peak, SlatPeaks, exceeds};
use crate::load::{Case, CaseKind};
use crate::statics::Load;

/// No less than the sag of a rail at one position, at once and after years.
pub(super) struct Sag {
    pub(super) bounds: [f64; 2],
    pub(super) position: usize,
}

/// No less than the effects of some loads on a slat.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct SlatBound {
    pub(super) moment: f64,
    pub(super) hogging: f64,
    /// Exact, by the lever rule.
    pub(super) reactions: [f64; 2],
    pub(super) deflection: f64,
}

impl SlatBound {
    /// Whether loads with this bound, with the dead load's, can exceed any peak met so far.
    pub(super) fn may_exceed(&self, dead: &SlatBound, case: &Case, actions: &Actions, peaks: &SlatPeaks) -> bool {
        let over = |peak: &Option<Peak>, bound: f64| peak.as_ref().is_none_or(|p| exceeds(bound, p.value));
        let strength = |dead: f64, people: f64| actions.strength.of(dead, people);
        let reaction = (0..2).map(|e| strength(dead.reactions[e], self.reactions[e])).fold(0.0, f64::max);
        let [a, b] = self.reactions;
        let sag = |factors: Factors| factors.of(dead.deflection, self.deflection);
        over(&peaks.moment, strength(dead.moment, self.moment).max(strength(dead.hogging, self.hogging)))
            || over(&peaks.shear, reaction)
            || over(&peaks.reaction, reaction)
            || over(&peaks.uplift, strength(0.0, -a.min(b)))
            || (case.use_.deflection && over(&peaks.deflection, sag(actions.sag_of(case.kind))))
            || (case.kind == CaseKind::Lying && over(&peaks.lasting, sag(actions.lasting)))
    }
}

/// Ends and intensity of an even line load.
fn stretch(load: &Load) -> ([f64; 2], f64) {
    match *load {
        Load::Spread { from, to, start, .. } => ([from, to], start),
        Load::Point { at, force } => ([at, at], force),
    }
}

/// Adds a load to those on a slat; two on the same stretch become one.
pub(super) fn add_stretch(loads: &mut Vec<Load>, load: Load) {
    let (ends, _) = stretch(&load);
    match (loads.iter_mut().find(|l| stretch(l).0 == ends), load) {
        (Some(Load::Spread { start, end, .. }), Load::Spread { start: s, end: e, .. }) => {
            *start += s;
            *end += e;
        }
        (Some(Load::Point { force, .. }), Load::Point { force: f, .. }) => *force += f,
        _ => loads.push(load),
    }
}

/// Greatest bound first; of bounds alike but for rounding, the earlier position, so that what a report
/// names does not hang on last bits.
pub(super) fn likely_worst_first<T>(all: &mut [T], of: impl Fn(&T) -> (f64, usize)) {
    let greatest = all.iter().map(|t| of(t).0).fold(f64::MIN_POSITIVE, f64::max);
    all.sort_by_key(|t| {
        let (bound, position) = of(t);
        (std::cmp::Reverse((bound / greatest * 1e9).round() as i64), position)
    });
}

/// What lies on a slat at one position.
pub(super) struct Loading {
    pub(super) position: usize,
    pub(super) loads: Vec<Load>,
    /// A number that differs, as good as always, when the stretches do.
    stretches: u64,
}

/// Keeps the loadings of a slat that no other exceeds on the same stretches; the first of equals stays.
pub(super) fn keep_heaviest(kept: &mut Vec<Loading>, position: usize, loads: &[Load]) {
    let mix = |sum: u64, x: f64| (sum ^ x.to_bits()).wrapping_mul(0x9E37_79B9_7F4A_7C15).rotate_left(29);
    let stretches = loads.iter().flat_map(|l| stretch(l).0).fold(0, mix);
    for other in kept.iter_mut().filter(|other| other.stretches == stretches) {
        let pairs = || other.loads.iter().zip(loads).map(|(a, b)| (stretch(a), stretch(b)));
        if other.loads.len() != loads.len() || pairs().any(|(a, b)| a.0 != b.0) {
            continue;
        }
        if pairs().all(|(a, b)| a.1 >= b.1) {
            return;
        }
        if pairs().all(|(a, b)| a.1 <= b.1) {
            other.position = position;
            other.loads.clear();
            other.loads.extend_from_slice(loads);
            return;
        }
    }
    kept.push(Loading { position, loads: loads.to_vec(), stretches });
}
