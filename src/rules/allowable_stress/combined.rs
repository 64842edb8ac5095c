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

/// A column whose load comes in off its axis, beside what it is allowed.
///
/// Axes are numbered as in [`Combined`].
#[derive(Clone, Debug)]
pub struct Eccentric {
    /// `fc`.
    pub compression: Worked<Stress>,
    /// `Fc'`.
    pub allowable_compression: Worked<Stress>,
    /// `FcE1`.
    pub critical_1: Worked<Stress>,
    /// `FcE2`.
    pub critical_2: Worked<Stress>,
    /// `FbE`.
    pub critical_bending: Worked<Stress>,
    /// `6 e1/d1`, by which the eccentricity turns `fc` into a bending stress.
    pub turned_1: Worked<Ratio>,
    /// `Fb1'`.
    pub allowable_bending_1: Worked<Stress>,
    /// `6 e2/d2`.
    pub turned_2: Worked<Ratio>,
    /// `Fb2'`.
    pub allowable_bending_2: Worked<Stress>,
}

/// Interaction of a compression whose ends are both off the axis, and no side load, at most 1:
/// `(fc/Fc')² + fb1 (1 + 0.234 fc/FcE1)/[Fb1'(1 − fc/FcE1)]
/// + fb2 [1 + 0.234 fc/FcE2 + 0.234 (fb1/FbE)²]/{Fb2'[1 − fc/FcE2 − (fb1/FbE)²]}`
/// with `fb1 = fc · 6 e1/d1` and `fb2 = fc · 6 e2/d2`.
///
/// `(1 + 0.234 x)/(1 − x)` stands for the `sec(π/2 √x)` of an elastic column with equal end
/// eccentricities, which the tests compare it with.
///
/// # Source
///
/// NDS 2018 15.4.1, equation 15.4-1, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] unless `fc < FcE1`, `fc < FcE2` and `fc/FcE2 + (fb1/FbE)² < 1`, which the
/// clause requires.
pub fn eccentric_compression(c: &Eccentric) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = nds("15.4.1", Seen::Memory);
    for (critical, allowed) in [(&c.critical_1, "less than FcE1"), (&c.critical_2, "less than FcE2")] {
        if c.compression.value >= critical.value {
            return Err(RuleError::out_of_range("fc", c.compression.value, allowed, CLAUSE));
        }
    }
    let bent = |turned: &Worked<Ratio>, symbol| (c.compression.clone() * turned.clone()).step(symbol, CLAUSE);
    let (fb1, fb2) = (bent(&c.turned_1, "fb1"), bent(&c.turned_2, "fb2"));
    let near_1 = c.compression.clone() / c.critical_1.clone();
    let near_2 = (c.compression.clone() / c.critical_2.clone() + (fb1.clone() / c.critical_bending.clone()).power(2.0))
        .step("fc/FcE2 + (fb1/FbE)²", CLAUSE);
    if near_2.value.value >= 1.0 {
        return Err(RuleError::out_of_range("fc/FcE2 + (fb1/FbE)²", near_2.value, "less than 1", CLAUSE));
    }
    let grown = |near: Worked<Ratio>| (plain(1.0) + plain(0.234) * near.clone()) / (plain(1.0) - near);
    let squeeze = (c.compression.clone() / c.allowable_compression.clone()).power(2.0);
    let axis_1 = fb1 / c.allowable_bending_1.clone() * grown(near_1);
    let axis_2 = fb2 / c.allowable_bending_2.clone() * grown(near_2);
    finite("interaction", (squeeze + axis_1 + axis_2).step("interaction", CLAUSE), &CLAUSE)
}
