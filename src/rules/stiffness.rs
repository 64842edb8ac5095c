//! The modulus of elasticity of a board from a weight and a dip.

use crate::derivation::{Worked, given, plain};
use crate::quantity::{Force, Length, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};

/// Where on its span a board bears the weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Loading {
    /// In the middle.
    Middle,
    /// Half of it at each third of the span; the dip is read in the middle.
    ThirdPoints,
    /// Evenly along it.
    Even,
}

const SHEAR: Citation = Citation::new("ASTM D2915", "apparent moduli, E/G = 16", Seen::Memory);

impl Loading {
    /// `K` of the shear part `K (E/G) (d/L)²` of the dip in the middle: 1.200, 0.939 or 0.960.
    ///
    /// # Source
    ///
    /// ASTM D2915, from memory; Timoshenko's beam with a shear coefficient of 5/6 gives 6/5, 108/115 and 24/25.
    fn shear_part(self) -> Worked<Ratio> {
        let k = match self {
            Loading::Middle => 1.2,
            Loading::ThirdPoints => 108.0 / 115.0,
            Loading::Even => 0.96,
        };
        plain(k).step("K", SHEAR)
    }
}

/// Modulus with the shear part still in it: `E = P L³ / (4 b d³ Δ)` for a weight in the middle, `23 P L³ / (108 b d³ Δ)`
/// for one at the third points.
///
/// | symbol | |
/// |---|---|
/// | `P` | the whole weight |
/// | `L` | span from support to support |
/// | `b`, `d` | breadth and depth as it lies |
/// | `Δ` | dip in the middle, after less before |
///
/// # Source
///
/// S. J. Record, The Mechanical Properties of Wood (1914), read, for the middle; the third points from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] for anything that is not more than nothing, or for an even load, which nobody hangs.
pub fn apparent_modulus(
    loading: Loading,
    weight: Force,
    span: Length,
    [breadth, depth]: [Length; 2],
    dip: Length,
) -> Result<Worked<Stress>, RuleError> {
    let clause = match loading {
        Loading::Middle => Citation::new("Record, The Mechanical Properties of Wood", "static bending", Seen::Read),
        Loading::ThirdPoints => Citation::new("ASTM D198", "third-point loading", Seen::Memory),
        Loading::Even => return Err(RuleError::not_covered("an even load", "a weight hangs at a place")),
    };
    for (symbol, length) in [("L", span), ("b", breadth), ("d", depth), ("Δ", dip)] {
        positive(symbol, length, &clause)?;
    }
    positive("P", weight, &clause)?;
    let l = || given("L", span);
    let d = || given("d", depth);
    let share = if loading == Loading::Middle { plain(1.0) / plain(4.0) } else { plain(23.0) / plain(108.0) };
    let e: Worked<Stress> =
        share * given("P", weight) / (given("b", breadth) * given("Δ", dip)) * (l() / d()).power(3.0);
    Ok(e.step("E apparent", clause))
}

/// Modulus with the shear part taken out, `E = E apparent (1 + K (E/G) (d/L)²)` with `E/G = 16`.
///
/// # Source
///
/// ASTM D2915, from memory. The Wood Handbook's rule for its own tests, a tenth more at a span of 14 depths loaded in
/// the middle, is this formula's 1.098.
pub fn shear_free_modulus(apparent: Worked<Stress>, loading: Loading, span: Length, depth: Length) -> Worked<Stress> {
    let slim = (given("d", depth) / given("L", span)).power(2.0);
    (apparent * (plain(1.0) + loading.shear_part() * plain(16.0) * slim)).step("E", SHEAR)
}

/// Modulus as a table states it that leaves the shear part in, `E = E free / (1 + K (E/G) / (L/d)²)`.
///
/// # Source
///
/// ASTM D2915, from memory, for the formula. NDS values are for an even load at 21 depths, the Wood Handbook's for a
/// load in the middle at 14.
pub fn stated_modulus(free: Worked<Stress>, loading: Loading, depths: f64) -> Worked<Stress> {
    let slim = plain(depths).step("L/d", SHEAR).power(2.0);
    (free / (plain(1.0) + loading.shear_part() * plain(16.0) / slim)).step("E as stated", SHEAR)
}

/// What 95 of 100 boards of the same lot exceed, with a confidence of 75 %: `E05 = mean − k s`.
///
/// # Source
///
/// ASTM D2915, one-sided tolerance limit of a normal distribution, from memory; `k` of the table of factors.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the mean is not positive, or the boards scatter so much that the estimate is not.
pub fn lower_estimate(mean: Stress, deviation: Stress, factor: f64) -> Result<Worked<Stress>, RuleError> {
    const CLAUSE: Citation = Citation::new("ASTM D2915", "parametric tolerance limit", Seen::Memory);
    positive("mean", mean, &CLAUSE)?;
    let low = (given("mean", mean) - given("k", number(factor)) * given("s", deviation)).step("E05", CLAUSE);
    positive("E05", low.value, &CLAUSE)?;
    Ok(low)
}
