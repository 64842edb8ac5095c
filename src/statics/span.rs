//! One beam on two supports, with or without overhangs.

use super::MOST_LINES;
use super::error::{Part, StaticsError, finite, positive};
use super::load::Load;
use super::loaded::Loaded;

/// A straight beam of one stiffness on two knife-edge supports. Distances in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Left end.
    pub start: f64,
    /// Right end.
    pub end: f64,
    /// The two supports, left then right, within the ends.
    pub supports: [f64; 2],
    /// Bending stiffness EI, N m².
    pub ei: f64,
    /// Shear stiffness κGA, N; `f64::INFINITY` for a beam that does not deform in shear.
    pub kga: f64,
}

impl Span {
    /// Checks that the numbers describe a beam.
    ///
    /// # Errors
    /// A number that is not finite, a stiffness that is not positive, ends or supports out of
    /// order, or a support beyond an end.
    pub fn validate(&self) -> Result<(), StaticsError> {
        let part = Part::Span;
        let [left, right] = self.supports;
        for place in [self.start, self.end, left, right] {
            finite(part, "position", place)?;
        }
        positive(part, "EI", self.ei, false)?;
        positive(part, "κGA", self.kga, true)?;
        if self.start >= self.end {
            return Err(StaticsError::OutOfOrder { part, quantity: "ends" });
        }
        if left >= right {
            return Err(StaticsError::OutOfOrder { part, quantity: "supports" });
        }
        if left < self.start || right > self.end {
            return Err(StaticsError::OffBeam { part, beam: part });
        }
        Ok(())
    }

    /// The beam under `loads`, its supports where they are.
    ///
    /// # Errors
    /// As [`Span::validate`], and loads that are not finite, reversed or beyond the ends.
    pub fn under<'a>(&self, loads: &'a [Load]) -> Result<Loaded<'a>, StaticsError> {
        self.under_with_settlement(loads, [0.0; 2])
    }

    /// The beam under `loads` with its supports moved down by `settlement`, m.
    ///
    /// # Errors
    /// As [`Span::under`], and a settlement that is not finite.
    pub fn under_with_settlement<'a>(
        &self,
        loads: &'a [Load],
        settlement: [f64; 2],
    ) -> Result<Loaded<'a>, StaticsError> {
        self.validate()?;
        for moved in settlement {
            finite(Part::Span, "settlement", moved)?;
        }
        for (i, load) in loads.iter().enumerate() {
            load.admit(i, Part::Span, (self.start, self.end))?;
        }
        Ok(self.hold(loads, settlement))
    }

    /// As [`Span::under_with_settlement`] for a beam and loads already checked.
    pub(super) fn hold<'a>(&self, loads: &'a [Load], settlement: [f64; 2]) -> Loaded<'a> {
        let [left, right] = self.supports;
        let reactions = lever_reactions(loads, left, right);
        let mut supports = [(0.0, 0.0); MOST_LINES];
        supports[0] = (left, reactions[0]);
        supports[1] = (right, reactions[1]);
        let Span { start, end, ei, kga, .. } = *self;
        Loaded { start, end, ei, kga, loads, edges: None, supports, count: 2, settlement }
    }
}

/// Reactions of two supports by the lever rule, N.
#[inline]
pub(super) fn lever_reactions(loads: &[Load], left: f64, right: f64) -> [f64; 2] {
    let (mut force, mut about_right) = (0.0, 0.0);
    for load in loads {
        let part = load.resultant();
        force += part.force;
        about_right += part.moment_about(right);
    }
    let first = about_right / (right - left);
    [first, force - first]
}
