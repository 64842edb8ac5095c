//! Compression along the grain: column stability.

use super::nds;
use super::section::Section;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Force, Length, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::{at_most, finite, positive};
use crate::source::{Citation, Seen};

/// Compression stress parallel to grain, `fc = P / A`.
///
/// # Source
///
/// NDS 2018 3.6.3, from memory; mechanics.
pub fn compression_stress(force: Force, section: &Section) -> Worked<Stress> {
    (given("P", force) / section.area()).step("fc", nds("3.6.3", Seen::Memory))
}

/// How the ends of a column are held: the rows of Table G1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ends {
    /// Both fixed.
    FixedFixed,
    /// One fixed, one pinned.
    FixedPinned,
    /// One fixed, the other kept from turning but free to move sideways.
    FixedTranslating,
    /// Both pinned.
    PinnedPinned,
    /// One fixed, one free.
    FixedFree,
    /// One pinned, the other kept from turning but free to move sideways.
    PinnedTranslating,
}

/// Effective length `le = Ke · l`, with the recommended `Ke`.
///
/// Fixed-fixed 0.65, fixed-pinned 0.80, fixed-translating 1.2, pinned-pinned 1.0, fixed-free 2.10,
/// pinned-translating 2.40.
///
/// # Source
///
/// NDS 2018 appendix G, Table G1, from memory.
pub fn effective_length(ends: Ends, length: Length) -> Worked<Length> {
    const CLAUSE: Citation = nds("appendix G", Seen::Memory);
    let ke = match ends {
        Ends::FixedFixed => 0.65,
        Ends::FixedPinned => 0.80,
        Ends::FixedTranslating => 1.2,
        Ends::PinnedPinned => 1.0,
        Ends::FixedFree => 2.10,
        Ends::PinnedTranslating => 2.40,
    };
    (plain(ke).step("Ke", CLAUSE) * given("l", length)).step("le", CLAUSE)
}

/// The effective lengths of a column for buckling in each of its two directions.
#[derive(Clone, Debug)]
pub struct Column {
    /// `le1`, for buckling in the direction of the depth.
    pub along_depth: Worked<Length>,
    /// `le2`, for buckling in the direction of the breadth.
    pub along_breadth: Worked<Length>,
}

const SLENDERNESS: Citation = nds("3.7.1.4", Seen::Secondary);

/// Slenderness of a column, `le/d`: the larger of `le1/d` and `le2/b`, however great.
///
/// # Source
///
/// NDS 2018 3.7.1.3, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a dimension is not positive.
pub fn slenderness_ratio(column: &Column, section: &Section) -> Result<Worked<Ratio>, RuleError> {
    positive("d", section.depth, &SLENDERNESS)?;
    positive("b", section.breadth, &SLENDERNESS)?;
    positive("le1", column.along_depth.value, &SLENDERNESS)?;
    positive("le2", column.along_breadth.value, &SLENDERNESS)?;
    let first = column.along_depth.clone() / section.d();
    let second = column.along_breadth.clone() / section.b();
    Ok(first.max(second).step("le/d", SLENDERNESS))
}

/// The greatest slenderness `le/d` a column may have in service: 50.
///
/// # Source
///
/// NDS 2018 3.7.1.4, read in summaries.
pub fn most_slender() -> Worked<Ratio> {
    plain(50.0).step("le/d allowed", SLENDERNESS)
}

/// Slenderness of a column that may be built: [`slenderness_ratio`] of at most [`most_slender`].
///
/// # Source
///
/// NDS 2018 3.7.1.3 and 3.7.1.4, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] above 50, or when a dimension is not positive.
pub fn slenderness(column: &Column, section: &Section) -> Result<Worked<Ratio>, RuleError> {
    let slender = slenderness_ratio(column, section)?;
    if at_most(slender.value, most_slender().value.value) {
        Ok(slender)
    } else {
        Err(RuleError::out_of_range("le/d", slender.value, "at most 50", SLENDERNESS))
    }
}

/// Critical buckling stress of a column, `FcE = 0.822 · Emin' / (le/d)²`.
///
/// # Source
///
/// NDS 2018 3.7.1.5, read in summaries. Older texts write `0.3 · E / (le/d)²`, the same number.
pub fn critical_compression_stress(modulus_for_stability: Worked<Stress>, slender: Worked<Ratio>) -> Worked<Stress> {
    (plain(0.822) * modulus_for_stability / slender.power(2.0)).step("FcE", nds("3.7.1.5", Seen::Secondary))
}

const STABILITY: Citation = nds("3.7.1.5", Seen::Secondary);

/// Column stability factor of sawn lumber,
/// `CP = (1 + α)/(2c) − sqrt{[(1 + α)/(2c)]² − α/c}` with `α = FcE/Fc*` and `c = 0.8`.
///
/// `Fc*` is `Fc` times all factors but `CP`.
///
/// # Source
///
/// NDS 2018 3.7.1.5, equation 3.7-1, read in summaries; confirmed by the worked examples in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a stress is not positive.
pub fn column_stability(critical: Worked<Stress>, fc_star: Worked<Stress>) -> Result<Worked<Ratio>, RuleError> {
    positive("FcE", critical.value, &STABILITY)?;
    positive("Fc*", fc_star.value, &STABILITY)?;
    let c = given("c", number(0.8));
    let alpha = (critical / fc_star).step("FcE/Fc*", STABILITY);
    let half = (plain(1.0) + alpha.clone()) / (plain(2.0) * c.clone());
    let cp = (half.clone() - (half.power(2.0) - alpha / c).root()).step("CP", STABILITY);
    finite("CP", cp, &STABILITY)
}
