//! Bending and compression together.

use super::nds;
use crate::derivation::{Worked, plain};
use crate::quantity::{Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::error::finite;
use crate::source::{Citation, Seen};

/// The stresses of a member bent about one or both axes and compressed, beside what it is allowed.
///
/// Axis 1 is bending by load on the narrow face, axis 2 by load on the wide face.
#[derive(Clone, Debug)]
pub struct Combined {
    /// `fc`.
    pub compression: Worked<Stress>,
    /// `Fc'`.
    pub allowable_compression: Worked<Stress>,
    /// `FcE1`, buckling in the plane of bending about axis 1.
    pub critical_1: Worked<Stress>,
    /// `FcE2`, buckling in the plane of bending about axis 2.
    pub critical_2: Worked<Stress>,
    /// `FbE`.
    pub critical_bending: Worked<Stress>,
    /// `fb1`.
    pub bending_1: Worked<Stress>,
    /// `Fb1'`.
    pub allowable_bending_1: Worked<Stress>,
    /// `fb2`.
    pub bending_2: Worked<Stress>,
    /// `Fb2'`.
    pub allowable_bending_2: Worked<Stress>,
}

/// Interaction of bending and compression, at most 1:
/// `(fc/Fc')² + fb1/[Fb1'(1 − fc/FcE1)] + fb2/{Fb2'[1 − fc/FcE2 − (fb1/FbE)²]}`.
///
/// # Source
///
/// NDS 2018 3.9.2, equation 3.9-3, from memory; the form with one axis was read.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] unless `fc < FcE1`, `fc < FcE2`, `fb1 < FbE` and
/// `fc/FcE2 + (fb1/FbE)² < 1`, which the clause requires.
pub fn bending_and_compression(c: &Combined) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = nds("3.9.2", Seen::Memory);
    let below = |symbol, stress: &Worked<Stress>, limit: &Worked<Stress>, allowed: &'static str| {
        if stress.value < limit.value {
            Ok(())
        } else {
            Err(RuleError::out_of_range(symbol, stress.value, allowed, CLAUSE))
        }
    };
    below("fc", &c.compression, &c.critical_1, "less than FcE1")?;
    below("fc", &c.compression, &c.critical_2, "less than FcE2")?;
    below("fb1", &c.bending_1, &c.critical_bending, "less than FbE")?;
    let squeeze = (c.compression.clone() / c.allowable_compression.clone()).power(2.0);
    let left_1 = plain(1.0) - c.compression.clone() / c.critical_1.clone();
    let twist =
        c.compression.clone() / c.critical_2.clone() + (c.bending_1.clone() / c.critical_bending.clone()).power(2.0);
    if twist.value.value >= 1.0 {
        return Err(RuleError::out_of_range("fc/FcE2 + (fb1/FbE)²", twist.value, "less than 1", CLAUSE));
    }
    let axis_1 = c.bending_1.clone() / (c.allowable_bending_1.clone() * left_1);
    let axis_2 = c.bending_2.clone() / (c.allowable_bending_2.clone() * (plain(1.0) - twist));
    finite("interaction", (squeeze + axis_1 + axis_2).step("interaction", CLAUSE), &CLAUSE)
}
