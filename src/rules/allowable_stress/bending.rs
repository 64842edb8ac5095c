//! Bending members: flexure and lateral stability.

use super::nds;
use super::section::Section;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::{BendingMoment, Length, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::{at_most, finite, positive};
use crate::source::{Citation, Seen};

/// Bending stress at the extreme fibre, `fb = M / S`.
///
/// # Source
///
/// NDS 2018 3.3.2, from memory; mechanics.
pub fn bending_stress(moment: BendingMoment, section: &Section) -> Worked<Stress> {
    (given("M", moment) / section.section_modulus()).step("fb", nds("3.3.2", Seen::Memory))
}

/// How the load lies on the unbraced length: the rows of Table 3.3.3.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LoadCase {
    /// Cantilever, uniform load.
    CantileverUniform,
    /// Cantilever, load at the free end.
    CantileverEndLoad,
    /// Simple span, uniform load.
    Uniform,
    /// Simple span, load at the centre, not held sideways there.
    Centre,
    /// Simple span, load at the centre, held sideways there.
    CentreHeld,
    /// Two equal loads at the third points, held there.
    TwoLoads,
    /// Three equal loads at the quarter points, held there.
    ThreeLoads,
    /// Four equal loads at the fifth points, held there.
    FourLoads,
    /// Five equal loads at the sixth points, held there.
    FiveLoads,
    /// Six equal loads at the seventh points, held there.
    SixLoads,
    /// Seven or more equal loads, evenly spaced, held at each.
    ManyLoads,
    /// Equal moments at both ends.
    EndMoments,
    /// Any other load.
    Other,
}

/// A compression edge that is free to move sideways between supports.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unbraced {
    /// `lu`, the distance between points held sideways.
    pub length: Length,
    /// The load on it.
    pub load: LoadCase,
}

const EFFECTIVE: Citation = nds("Table 3.3.3", Seen::Secondary);

/// Effective length `le` of a bending member from its unbraced length `lu` and depth `d`.
///
/// | load | `lu/d < 7` | `lu/d ≥ 7` |
/// |---|---|---|
/// | cantilever, uniform | 1.33 lu | 0.90 lu + 3d |
/// | cantilever, end load | 1.87 lu | 1.44 lu + 3d |
/// | simple span, uniform | 2.06 lu | 1.63 lu + 3d |
/// | centre load | 1.80 lu | 1.37 lu + 3d |
/// | centre load, held there | 1.11 lu | 1.11 lu |
/// | 2, 3, 4, 5, 6, 7 or more loads, held at each | 1.68, 1.54, 1.68, 1.73, 1.78, 1.84 lu | same |
/// | equal end moments | 1.84 lu | same |
/// | any other | 2.06 lu | 1.63 lu + 3d up to `lu/d` 14.3, then 1.84 lu |
///
/// # Source
///
/// NDS 2018 3.3.3.5, Table 3.3.3: read in a summary, except five and more loads, from memory.
pub fn effective_length(unbraced: &Unbraced, section: &Section) -> Worked<Length> {
    // A span of exactly seven depths must not fall on the wrong side in the sixteenth digit.
    let slender = (unbraced.length / section.depth).value + 1e-9;
    let lu = given("lu", unbraced.length);
    let pick = |short: f64, long: f64| {
        if slender < 7.0 { plain(short) * lu.clone() } else { plain(long) * lu.clone() + plain(3.0) * section.d() }
    };
    let length = match unbraced.load {
        LoadCase::CantileverUniform => pick(1.33, 0.90),
        LoadCase::CantileverEndLoad => pick(1.87, 1.44),
        LoadCase::Uniform => pick(2.06, 1.63),
        LoadCase::Centre => pick(1.80, 1.37),
        LoadCase::CentreHeld => plain(1.11) * lu,
        LoadCase::TwoLoads | LoadCase::FourLoads => plain(1.68) * lu,
        LoadCase::ThreeLoads => plain(1.54) * lu,
        LoadCase::FiveLoads => plain(1.73) * lu,
        LoadCase::SixLoads => plain(1.78) * lu,
        LoadCase::ManyLoads | LoadCase::EndMoments => plain(1.84) * lu,
        LoadCase::Other if slender > 14.3 => plain(1.84) * lu,
        LoadCase::Other => pick(2.06, 1.63),
    };
    length.step("le", EFFECTIVE)
}

const SLENDERNESS: Citation = nds("3.3.3.6", Seen::Secondary);

/// Slenderness ratio of a bending member, `RB = sqrt(le · d / b²)`, at most 50.
///
/// # Source
///
/// NDS 2018 3.3.3.6 and 3.3.3.7, read in summaries; confirmed by the worked examples in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] above 50.
pub fn slenderness(effective: Worked<Length>, section: &Section) -> Result<Worked<Ratio>, RuleError> {
    let rb = (effective * section.d() / (section.b() * section.b())).root().step("RB", SLENDERNESS);
    if at_most(rb.value, 50.0) {
        Ok(rb)
    } else {
        Err(RuleError::out_of_range("RB", rb.value, "at most 50", nds("3.3.3.7", Seen::Memory)))
    }
}

/// Critical buckling stress of a bending member, `FbE = 1.20 · Emin' / RB²`.
///
/// # Source
///
/// NDS 2018 3.3.3.8, read in summaries; confirmed by the worked examples in `tests/`.
pub fn critical_bending_stress(modulus_for_stability: Worked<Stress>, rb: Worked<Ratio>) -> Worked<Stress> {
    (plain(1.20) * modulus_for_stability / rb.power(2.0)).step("FbE", nds("3.3.3.8", Seen::Secondary))
}

const STABILITY: Citation = nds("3.3.3", Seen::Secondary);

/// Beam stability factor `CL` for a compression edge that is not held.
///
/// `CL = (1 + α)/1.9 − sqrt{[(1 + α)/1.9]² − α/0.95}` with `α = FbE/Fb*`, and 1.0 when `d ≤ b`.
///
/// | symbol | |
/// |---|---|
/// | `Fb*` | `Fb` times all factors but `Cfu` and `CL` |
/// | `Emin'` | adjusted modulus for stability |
/// | `FbE` | [`critical_bending_stress`] |
///
/// # Source
///
/// NDS 2018 3.3.3, equation 3.3-6, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `RB` exceeds 50, or when a dimension or stress is not positive.
pub fn beam_stability(
    section: &Section,
    unbraced: &Unbraced,
    modulus_for_stability: Worked<Stress>,
    fb_star: Worked<Stress>,
) -> Result<Worked<Ratio>, RuleError> {
    positive("b", section.breadth, &STABILITY)?;
    positive("d", section.depth, &STABILITY)?;
    positive("lu", unbraced.length, &STABILITY)?;
    positive("Fb*", fb_star.value, &STABILITY)?;
    if section.depth <= section.breadth {
        return Ok(fully_braced());
    }
    let rb = slenderness(effective_length(unbraced, section), section)?;
    let alpha = (critical_bending_stress(modulus_for_stability, rb) / fb_star).step("FbE/Fb*", STABILITY);
    let half = (plain(1.0) + alpha.clone()) / plain(1.9);
    let cl = (half.clone() - (half.power(2.0) - alpha / plain(0.95)).root()).step("CL", STABILITY);
    finite("CL", cl, &STABILITY)
}

/// `CL` of a member whose compression edge is held, or that is no deeper than wide.
///
/// # Source
///
/// NDS 2018 3.3.3.1 to 3.3.3.3, read in summaries.
pub fn fully_braced() -> Worked<Ratio> {
    constant(number(1.0)).step("CL", STABILITY)
}
