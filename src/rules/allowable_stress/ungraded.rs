//! From the average strength of small clear specimens to an allowable stress (ASTM D2555, D245).
//!
//! Allowable = average × 5 % exclusion × strength ratio ÷ divisor × seasoning. Duration and size come
//! on top, in [`wood`](super::wood). The procedure was read as the Wood Handbook describes it
//! (FPL-GTR-190 chapter 7); most numbers of D245 itself are from memory and are marked so.

use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::inch;
use crate::quantity::{Length, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::{ClearValues, WoodKind};

const fn d245(locator: &'static str) -> Citation {
    Citation::new("ASTM D245", locator, Seen::Memory)
}

/// Moisture content the wood is seasoned to and stays at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Seasoning {
    /// Above 19 %, or thicker than 4 in.
    Green,
    /// At most 19 %.
    AtMost19,
    /// At most 15 %.
    AtMost15,
}

/// Coefficient of variation of bending strength among small clear specimens.
///
/// # Source
///
/// Wood Handbook (FPL-GTR-190) Table 5-6, read. It is an average over species; some scatter more (a
/// published 19 % for black cottonwood), some less.
pub const COV_BENDING: f64 = 0.16;
/// Coefficient of variation of shear strength along the grain.
///
/// # Source
///
/// Wood Handbook (FPL-GTR-190) Table 5-6, from memory.
pub const COV_SHEAR: f64 = 0.14;
/// Coefficient of variation of crushing strength along the grain.
///
/// # Source
///
/// Wood Handbook (FPL-GTR-190) Table 5-6, read.
pub const COV_COMPRESSION: f64 = 0.18;

/// The strength that 95 % of clear pieces exceed, `mean · (1 − 1.645 · COV)`.
///
/// # Source
///
/// Wood Handbook (FPL-GTR-190) page 7-6, read, after ASTM D2555.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the average is not positive or `COV` is not between 0 and 0.6.
pub fn exclusion_limit(
    symbol: &'static str,
    mean: Stress,
    coefficient_of_variation: f64,
) -> Result<Worked<Stress>, RuleError> {
    const CLAUSE: Citation = Citation::new("Wood Handbook (FPL-GTR-190)", "p. 7-6", Seen::Read);
    positive(symbol, mean, &CLAUSE)?;
    if !(0.0..0.6).contains(&coefficient_of_variation) {
        let cov = number(coefficient_of_variation);
        return Err(RuleError::out_of_range("COV", cov, "from 0 to 0.6", CLAUSE));
    }
    let cov = given("COV", number(coefficient_of_variation));
    Ok((given(symbol, mean) * (plain(1.0) - plain(1.645) * cov)).step(format!("{symbol} 5 %"), CLAUSE))
}

fn seasoned(factors: [f64; 2], seasoning: Seasoning) -> Worked<Ratio> {
    let factor = match seasoning {
        Seasoning::Green => 1.0,
        Seasoning::AtMost19 => factors[0],
        Seasoning::AtMost15 => factors[1],
    };
    plain(factor).step("Ks", d245("seasoning adjustment"))
}

fn divisor(kind: WoodKind, softwood: f64, hardwood: f64) -> Worked<Ratio> {
    let value = if kind == WoodKind::Softwood { softwood } else { hardwood };
    plain(value).step("n", d245("adjustment factors"))
}

/// Bending stress of ungraded wood, `Fb = MOR 5 % · S / n · Ks`.
///
/// | symbol | |
/// |---|---|
/// | `S` | the least of the strength ratios for knots and slope of grain, not their product |
/// | `n` | 2.1 softwood, 2.3 hardwood |
/// | `Ks` | 1.25 at 19 %, 1.35 at 15 % moisture content, 1.0 green |
///
/// # Source
///
/// ASTM D245 as described in the Wood Handbook chapter 7. 2.1 was read in a practitioner's note; 2.3
/// and the seasoning factors are from memory.
///
/// # Errors
///
/// As [`exclusion_limit`].
pub fn bending(
    species: &ClearValues,
    kind: WoodKind,
    strength_ratio: Worked<Ratio>,
    seasoning: Seasoning,
) -> Result<Worked<Stress>, RuleError> {
    let strength = exclusion_limit("MOR", species.rupture, COV_BENDING)?;
    let ks = seasoned([1.25, 1.35], seasoning);
    Ok((strength * strength_ratio / divisor(kind, 2.1, 2.3) * ks).step("Fb", d245("allowable properties")))
}

/// Tension stress of ungraded wood, `Ft = 0.55 · Fb`.
///
/// # Source
///
/// ASTM D245, from memory.
pub fn tension(bending: Worked<Stress>) -> Worked<Stress> {
    (plain(0.55) * bending).step("Ft", d245("allowable properties"))
}

/// Shear stress of ungraded wood, `Fv = τ 5 % · 0.50 / n · Ks`.
///
/// The ratio 0.50 stands for a check or split of unknown length at the end. `n` is 2.1 softwood, 2.3
/// hardwood; `Ks` 1.08 at 19 %, 1.13 at 15 %.
///
/// # Source
///
/// ASTM D245 from its 2000 edition on, from memory.
///
/// # Errors
///
/// As [`exclusion_limit`].
pub fn shear(species: &ClearValues, kind: WoodKind, seasoning: Seasoning) -> Result<Worked<Stress>, RuleError> {
    let strength = exclusion_limit("τ", species.shear, COV_SHEAR)?;
    let split = plain(0.50).step("S", d245("shear strength ratio"));
    let ks = seasoned([1.08, 1.13], seasoning);
    Ok((strength * split / divisor(kind, 2.1, 2.3) * ks).step("Fv", d245("allowable properties")))
}

/// Compression stress along the grain of ungraded wood, `Fc = C 5 % · S / n · Ks`.
///
/// `n` is 1.9 softwood, 2.1 hardwood; `Ks` 1.50 at 19 %, 1.75 at 15 %.
///
/// # Source
///
/// ASTM D245, from memory.
///
/// # Errors
///
/// As [`exclusion_limit`].
pub fn compression_parallel(
    species: &ClearValues,
    kind: WoodKind,
    strength_ratio: Worked<Ratio>,
    seasoning: Seasoning,
) -> Result<Worked<Stress>, RuleError> {
    let strength = exclusion_limit("C", species.crushing, COV_COMPRESSION)?;
    let ks = seasoned([1.50, 1.75], seasoning);
    Ok((strength * strength_ratio / divisor(kind, 1.9, 2.1) * ks).step("Fc", d245("allowable properties")))
}

/// Bearing stress across the grain of ungraded wood, `Fc⊥ = C⊥ / 1.67 · Ks`, from the average.
///
/// `Ks` is 1.50 at 19 % and at 15 %. The handbook's `C⊥` is a stress at proportional limit, for which
/// older editions of D245 divide by 1.5; 1.67 belongs to the stress at 0.04 in deformation. Neither
/// divisor was read in the standard, so the larger is used, which is lower by 11 %.
///
/// # Source
///
/// ASTM D245, from memory, both divisors.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the average is not positive.
pub fn compression_perpendicular(species: &ClearValues, seasoning: Seasoning) -> Result<Worked<Stress>, RuleError> {
    let clause = d245("allowable properties");
    positive("C⊥", species.compression_perpendicular, &clause)?;
    let n = plain(1.67).step("n", d245("adjustment factors"));
    let ks = seasoned([1.50, 1.50], seasoning);
    Ok((given("C⊥", species.compression_perpendicular) / n * ks).step("Fc⊥", clause))
}

/// Mean modulus of ungraded wood, `E = MOE · Ks · q`.
///
/// `Ks` is 1.14 at 19 %, 1.20 at 15 %. The quality factor `q` is 1.00 from a bending strength ratio of
/// 0.55, 0.90 from 0.45 and 0.80 below. D245 also divides by 0.94, to go from tests at a span of 14
/// depths to uniform load at 21; that gain of 6 % is not taken. The tabulated average includes shear
/// deflection at 14 depths, so no separate shear term is to be added to a deflection found with `E`.
///
/// # Source
///
/// ASTM D245, from memory; that `E` is an average was read in the Wood Handbook (FPL-GTR-190) p. 7-6.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the average is not positive.
pub fn modulus(
    species: &ClearValues,
    bending_strength_ratio: &Worked<Ratio>,
    seasoning: Seasoning,
) -> Result<Worked<Stress>, RuleError> {
    let clause = d245("allowable properties");
    positive("MOE", species.modulus, &clause)?;
    let quality = match bending_strength_ratio.value.value {
        s if s >= 0.55 => 1.00,
        s if s >= 0.45 => 0.90,
        _ => 0.80,
    };
    let q = plain(quality).step("q", d245("modulus by quality"));
    Ok((given("MOE", species.modulus) * seasoned([1.14, 1.20], seasoning) * q).step("E", clause))
}

/// Modulus for stability, `Emin = E · (1 − 1.645 · COVE) · 1.03 / 1.66` with `COVE = 0.25`.
///
/// # Source
///
/// NDS 2018 appendix D, from memory; it gives every tabulated `Emin` to the printed 10 000 psi.
pub fn modulus_for_stability(e: Worked<Stress>) -> Worked<Stress> {
    let low = plain(1.0) - plain(1.645) * given("COVE", number(0.25));
    (e * low * plain(1.03) / plain(1.66)).step("Emin", nds("appendix D", Seen::Memory))
}

/// Size factor of ungraded wood, `CF = (2 in / d)^(1/9)` for depths above 2 in, else 1.0.
///
/// # Source
///
/// ASTM D245, from memory. Depths below 2 in are not given the gain the formula would allow.
pub fn size(depth: Length) -> Worked<Ratio> {
    let factor =
        if depth > inch(2.0) { (constant(inch(2.0)) / given("d", depth)).power(1.0 / 9.0) } else { plain(1.0) };
    factor.step("CF", d245("size"))
}

/// A clear-wood property at moisture content `M`, `P = P12 · (P12/Pg)^((12 − M)/(Mp − 12))` below
/// `Mp`, and `Pg` from there up.
///
/// | symbol | |
/// |---|---|
/// | `P12`, `Pg` | property at 12 % and green |
/// | `M` | moisture content, percent |
/// | `Mp` | moisture content at which drying begins to tell, percent; 25 for most species |
///
/// # Source
///
/// Wood Handbook (FPL-GTR-282) equation 5-3, read in a transcription.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a property is not positive, `Mp` is not above 12, or `M` is negative.
pub fn at_moisture(dry: Stress, green: Stress, moisture: f64, threshold: f64) -> Result<Worked<Stress>, RuleError> {
    const CLAUSE: Citation = Citation::new("Wood Handbook (FPL-GTR-282)", "equation 5-3", Seen::Secondary);
    positive("P12", dry, &CLAUSE)?;
    positive("Pg", green, &CLAUSE)?;
    if !(threshold > 12.0 && threshold.is_finite()) {
        return Err(RuleError::out_of_range("Mp", number(threshold), "above 12", CLAUSE));
    }
    if moisture.is_nan() || moisture < 0.0 {
        return Err(RuleError::out_of_range("M", number(moisture), "zero or more", CLAUSE));
    }
    if moisture >= threshold {
        return Ok(given("Pg", green).step("P", CLAUSE));
    }
    let ratio = (given("P12", dry) / given("Pg", green)).power((12.0 - moisture) / (threshold - 12.0));
    finite("P", (given("P12", dry) * ratio).step("P", CLAUSE), &CLAUSE)
}
