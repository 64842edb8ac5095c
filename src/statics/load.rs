//! Loads on a beam, and what any linear-elastic formula needs to know of them.

use super::error::{Part, StaticsError, finite};

/// A transverse load on a beam, downward positive. Distances in m along the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Load {
    /// A concentrated force.
    Point {
        /// Where it acts, m.
        at: f64,
        /// The force, N.
        force: f64,
    },
    /// A line load that varies linearly between its ends.
    Spread {
        /// Where it begins, m.
        from: f64,
        /// Where it ends, m.
        to: f64,
        /// Intensity where it begins, N/m.
        start: f64,
        /// Intensity where it ends, N/m.
        end: f64,
    },
}

/// A load seen from its middle: its resultant and its first three moments about that place.
///
/// With ∫ τᵏ q dτ for k = 0…3 the integral of any cubic against the load is exact, so one type
/// serves reactions, fixed-end actions, influence lines and Macaulay's integrals. No width is
/// divided by, so a patch may be as narrow as it likes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Resultant {
    /// Middle of the load, m.
    pub(super) at: f64,
    /// ∫ q dτ, N.
    pub(super) force: f64,
    /// ∫ τ q dτ, N m.
    pub(super) first: f64,
    /// ∫ τ² q dτ, N m².
    pub(super) second: f64,
    /// ∫ τ³ q dτ, N m³.
    pub(super) third: f64,
}

impl Resultant {
    /// ∫ p q dx for the cubic p with the given value and derivatives at [`Resultant::at`].
    #[inline]
    pub(super) fn against(&self, [p, p1, p2, p3]: [f64; 4]) -> f64 {
        self.force * p + self.first * p1 + self.second * p2 / 2.0 + self.third * p3 * (1.0 / 6.0)
    }

    /// ∫ (x − t) q dt: the moment of the load about a point to its right, N m.
    #[inline]
    pub(super) fn moment_about(&self, x: f64) -> f64 {
        self.force * (x - self.at) - self.first
    }
}

impl Load {
    /// The total force, N.
    pub fn force(&self) -> f64 {
        self.resultant().force
    }

    /// The stretch that the load covers, m.
    #[inline]
    pub fn extent(&self) -> (f64, f64) {
        match *self {
            Load::Point { at, .. } => (at, at),
            Load::Spread { from, to, .. } => (from, to),
        }
    }

    #[inline]
    pub(super) fn resultant(&self) -> Resultant {
        match *self {
            Load::Point { at, force } => Resultant { at, force, first: 0.0, second: 0.0, third: 0.0 },
            Load::Spread { from, to, start, end } => {
                let half = 0.5 * (to - from);
                let (sum, rise, square) = (start + end, end - start, half * half);
                Resultant {
                    at: 0.5 * (from + to),
                    force: sum * half,
                    first: rise * square * (1.0 / 3.0),
                    second: sum * square * half * (1.0 / 3.0),
                    third: rise * square * square * (1.0 / 5.0),
                }
            }
        }
    }

    /// The part of the load within `[from, to)`; a concentrated force is in or out as a whole.
    #[inline]
    pub(super) fn within(&self, low: f64, high: f64) -> Option<Load> {
        match *self {
            Load::Point { at, .. } => (low <= at && at < high).then_some(*self),
            Load::Spread { from, to, start, end } => {
                if low <= from && to <= high {
                    return Some(*self);
                }
                let (a, b) = (from.max(low), to.min(high));
                if a >= b {
                    return None;
                }
                let slope = (end - start) / (to - from);
                Some(Load::Spread { from: a, to: b, start: start + slope * (a - from), end: end - slope * (to - b) })
            }
        }
    }

    /// Refuses numbers that are not finite, a reversed extent, and anything outside the beam.
    pub(super) fn admit(&self, load: usize, beam: Part, (start, end): (f64, f64)) -> Result<(), StaticsError> {
        let part = Part::Load(load);
        let (from, to) = self.extent();
        finite(part, "position", from)?;
        finite(part, "position", to)?;
        match *self {
            Load::Point { force, .. } => finite(part, "force", force)?,
            Load::Spread { start, end, .. } => {
                finite(part, "intensity", start)?;
                finite(part, "intensity", end)?;
            }
        }
        if from > to {
            return Err(StaticsError::OutOfOrder { part, quantity: "ends" });
        }
        if self.is_on(start, end) { Ok(()) } else { Err(StaticsError::OffBeam { part, beam }) }
    }

    /// Whether the load stands on a beam from `start` to `end`, rounding aside.
    #[inline]
    pub(super) fn is_on(&self, start: f64, end: f64) -> bool {
        let (from, to) = self.extent();
        start - ROUNDING <= from && from <= to && to <= end + ROUNDING
    }
}

/// A load may overhang the end of its beam by this much, m: what is left of adding up lengths.
const ROUNDING: f64 = 1e-9;
