//! Why a rule gives no value.

use std::borrow::Cow;
use std::fmt;

use crate::derivation::Worked;
use crate::quantity::{Measure, Measured, Ratio, UnitSystem};
use crate::source::Citation;

/// Why a rule gives no value for what it was asked.
#[derive(Clone, Debug, PartialEq)]
pub enum RuleError {
    /// A value lies outside the range for which the clause is written.
    OutOfRange {
        /// The standard's symbol.
        symbol: &'static str,
        /// The value found.
        value: Measure,
        /// The values that would do, such as `at most 50`.
        allowed: Cow<'static, str>,
        /// The clause that sets the range.
        citation: Box<Citation>,
    },
    /// The standard has no rule for this.
    NotCovered {
        /// What was asked for.
        what: Cow<'static, str>,
        /// Why there is no rule, and what there would be one for.
        why: Cow<'static, str>,
    },
}

impl RuleError {
    pub(crate) fn out_of_range<Q: Measured>(
        symbol: &'static str,
        value: Q,
        allowed: impl Into<Cow<'static, str>>,
        citation: Citation,
    ) -> Self {
        RuleError::OutOfRange { symbol, value: value.measure(), allowed: allowed.into(), citation: Box::new(citation) }
    }

    pub(crate) fn not_covered(what: impl Into<Cow<'static, str>>, why: impl Into<Cow<'static, str>>) -> Self {
        RuleError::NotCovered { what: what.into(), why: why.into() }
    }

    /// What went wrong, with values in the reader's units.
    pub fn describe(&self, units: UnitSystem) -> String {
        match self {
            RuleError::OutOfRange { symbol, value, allowed, citation } => {
                format!("{symbol} = {} is outside {citation}: it must be {allowed}", value.show(units))
            }
            RuleError::NotCovered { what, why } => format!("{what} is not covered: {why}"),
        }
    }
}

impl fmt::Display for RuleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.describe(UnitSystem::Us))
    }
}

impl std::error::Error for RuleError {}

/// Passes a value on unless it overflowed, which only absurd input can bring about.
pub(crate) fn finite<Q: Measured>(
    symbol: &'static str,
    worked: Worked<Q>,
    citation: &Citation,
) -> Result<Worked<Q>, RuleError> {
    if worked.value.si().is_finite() {
        Ok(worked)
    } else {
        Err(RuleError::out_of_range(symbol, worked.value, "a finite number", citation.clone()))
    }
}

/// Whether a ratio keeps a limit: what is equal on paper may come out a part in 10¹⁶ above it. An
/// undefined ratio keeps none.
pub(crate) fn at_most(ratio: Ratio, limit: f64) -> bool {
    ratio.value <= limit * (1.0 + 1e-12)
}

/// Refuses zero, negative and non-finite values.
pub(crate) fn positive<Q: Measured>(symbol: &'static str, value: Q, citation: &Citation) -> Result<(), RuleError> {
    if value.si().is_finite() && value.si() > 0.0 {
        Ok(())
    } else {
        Err(RuleError::out_of_range(symbol, value, "greater than zero", citation.clone()))
    }
}
