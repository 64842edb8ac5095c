//! What loads do to a slat at a few places across, and from that a bound on what they do anywhere.
//!
//! Every load presses down, so between its supports a slat's shear falls, its moment is concave, and its
//! deflection is concave wherever it sags. A concave curve stays below its tangents: values and slopes
//! at the supports and at the quarters of the span bound it closely.

use super::capacity::Factors;
use super::envelope::exceeds;
use crate::statics::{Load, Span, StaticsError};

/// Reactions; shears and moments at the supports, inside of them, and at the quarters of the span;
/// deflections and rotations at the quarters.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Probe([f64; 18]);

/// The most that loads do to a slat anywhere: what each end presses down with, shear, moment and deflection.
/// Of several loads together, no less than the most.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Most([f64; 6]);

impl Most {
    /// Adds another load's, so many times over.
    #[inline]
    pub(super) fn add(&mut self, times: f64, other: &Most) {
        for (sum, value) in self.0.iter_mut().zip(&other.0) {
            *sum += times * value;
        }
    }

    /// These of people with those of the dead load.
    #[inline]
    pub(super) fn with(&self, dead: &Most, factors: Factors) -> Most {
        Most(std::array::from_fn(|i| factors.of(dead.0[i], self.0[i])))
    }

    /// Not the most but what it is.
    #[inline]
    pub(super) fn reactions(&self) -> [f64; 2] {
        [self.0[0], self.0[1]]
    }

    pub(super) fn shear(&self) -> f64 {
        self.0[2]
    }

    pub(super) fn moment(&self) -> f64 {
        self.0[3]
    }

    pub(super) fn sag(&self) -> f64 {
        self.0[4]
    }
}

const SHEAR: usize = 2;
const MOMENT: usize = 7;
const SAG: usize = 12;
const TURN: usize = 15;

/// The height at which the tangents of a concave curve at `0` and `h` meet between them, or the value
/// at the end that is higher than all.
fn tangents([a, b]: [f64; 2], [slope_a, slope_b]: [f64; 2], h: f64) -> f64 {
    if slope_a <= 0.0 {
        a
    } else if slope_b >= 0.0 {
        b
    } else {
        let reach = ((b - a - slope_b * h) / (slope_a - slope_b)).clamp(0.0, h);
        a + slope_a * reach
    }
}

impl Probe {
    /// What these loads do to a slat.
    pub(super) fn of(span: &Span, loads: &[Load]) -> Result<Probe, StaticsError> {
        let bent = span.under(loads)?;
        let [left, right] = span.supports;
        let quarter = |k: f64| left + (right - left) * (k / 4.0);
        let mut out = Probe::default();
        out.0[..SHEAR].copy_from_slice(&bent.reactions());
        out.0[SHEAR] = bent.shear(left).1;
        out.0[SHEAR + 4] = bent.shear(right).0;
        out.0[MOMENT] = bent.moment(left);
        out.0[MOMENT + 4] = bent.moment(right);
        for (j, x) in [1.0, 2.0, 3.0].map(quarter).into_iter().enumerate() {
            out.0[SHEAR + 1 + j] = bent.shear(x).1;
            out.0[MOMENT + 1 + j] = bent.moment(x);
            out.0[SAG + j] = bent.deflection(x);
            out.0[TURN + j] = bent.rotation(x);
        }
        Ok(out)
    }

    /// Adds another load's effects, so many times over.
    #[inline]
    pub(super) fn add(&mut self, times: f64, other: &Probe) {
        for (sum, value) in self.0.iter_mut().zip(&other.0) {
            *sum += times * value;
        }
    }

    /// So many times over.
    #[inline]
    pub(super) fn times(&self, times: f64) -> Probe {
        Probe(self.0.map(|value| times * value))
    }

    /// These effects of people with those of the dead load.
    #[inline]
    pub(super) fn with(&self, dead: &Probe, factors: Factors) -> Probe {
        let mut out = *self;
        for (value, dead) in out.0.iter_mut().zip(&dead.0) {
            *value = factors.of(*dead, *value);
        }
        out
    }

    #[inline]
    pub(super) fn reactions(&self) -> [f64; 2] {
        [self.0[0], self.0[1]]
    }

    /// The greatest shear and at which support it is: elsewhere there is less.
    pub(super) fn shear(&self) -> (usize, f64) {
        let [inside_left, inside_right] = [self.0[SHEAR], -self.0[SHEAR + 4]];
        let left = inside_left.max(self.0[0] - inside_left);
        let right = inside_right.max(self.0[1] - inside_right);
        if exceeds(right, left) { (1, right) } else { (0, left) }
    }

    /// The most that these effects are anywhere.
    pub(super) fn most(&self, span: &Span) -> Most {
        let [left, right] = self.reactions();
        Most([left, right, self.shear().1, self.moment_bound(span), self.sag_bound(span), 0.0])
    }

    /// No more than the greatest moment: that at one of the places.
    pub(super) fn moment_met(&self) -> f64 {
        self.0[MOMENT..MOMENT + 5].iter().fold(0.0, |most, m| most.max(m.abs()))
    }

    /// No more than the greatest deflection.
    pub(super) fn sag_met(&self) -> f64 {
        self.0[SAG..SAG + 3].iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// No less than the greatest moment, sagging or hogging.
    pub(super) fn moment_bound(&self, span: &Span) -> f64 {
        let h = (span.supports[1] - span.supports[0]) / 4.0;
        let (m, v) = (&self.0[MOMENT..MOMENT + 5], &self.0[SHEAR..SHEAR + 5]);
        let sagging = (0..4).map(|j| tangents([m[j], m[j + 1]], [v[j], v[j + 1]], h));
        sagging.fold((-m[0]).max(-m[4]), f64::max)
    }

    /// No less than the greatest deflection.
    ///
    /// Beside a support the overhang's load may bow the slat the other way: by no more than its moment
    /// `M` there does to the whole, `M·L²/8EI`, as long as no overhang is longer than a quarter of the span.
    pub(super) fn sag_bound(&self, span: &Span) -> f64 {
        let length = span.supports[1] - span.supports[0];
        let h = length / 4.0;
        let (w, turn) = (&self.0[SAG..SAG + 3], &self.0[TURN..TURN + 3]);
        let ends = (w[0] - turn[0].min(0.0) * h).max(w[2] + turn[2].max(0.0) * h);
        let between = (0..2).map(|j| tangents([w[j], w[j + 1]], [turn[j], turn[j + 1]], h));
        let hogging = (-self.0[MOMENT]).max(0.0) + (-self.0[MOMENT + 4]).max(0.0);
        between.fold(ends, f64::max) + hogging * length * length / (8.0 * span.ei)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// No bound is below the exact extreme, for loads anywhere on the slat, and none is much above it.
    #[test]
    fn bounds_hold_and_are_close() {
        let span = Span { start: 0.0, end: 1.5, supports: [0.02, 1.47], ei: 540.0, kga: f64::INFINITY };
        let even = |from: f64, long: f64, q: f64| Load::Spread { from, to: (from + long).min(1.5), start: q, end: q };
        let (mut slack, mut count) = ([0.0f64; 2], 0.0);
        for a in 0..14 {
            for b in 0..14 {
                let from = |k: i32| 0.1 * f64::from(k);
                let loads = [even(from(a), 0.17, 900.0), even(from(b), 0.41, 300.0), even(0.0, 1.5, 40.0)];
                let (bent, probe) = (span.under(&loads).unwrap(), Probe::of(&span, &loads).unwrap());
                let ((_, most), (_, least)) = bent.extreme_moment();
                let sag = bent.extreme_deflection().0.1;
                let over = [probe.moment_bound(&span) / most.max(-least), probe.sag_bound(&span) / sag];
                assert!(over.iter().all(|o| *o >= 1.0 - 1e-12), "{a} {b}: {over:?}");
                slack.iter_mut().zip(over).for_each(|(s, o)| *s += o - 1.0);
                count += 1.0;
                let (at, shear) = probe.shear();
                let (x, exact) = bent.extreme_shear();
                assert!(
                    (shear - exact.abs()).abs() < 1e-9
                        && (span.supports[at] == x || (shear - exact.abs()).abs() < 1e-9)
                );
            }
        }
        assert!(slack.iter().all(|s| s / count < 0.05), "{slack:?} over {count}");
    }
}
