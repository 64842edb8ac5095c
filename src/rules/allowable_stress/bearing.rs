//! Bearing: across the grain, on end grain, and at an angle.

use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::{Area, Force, Length, Ratio, Stress, number, unit::inch};
use crate::rules::RuleError;
use crate::rules::error::{at_most, positive};
use crate::source::{Citation, Seen};

/// Bearing stress across the grain, `fc⊥ = R / A`.
///
/// # Source
///
/// NDS 2018 3.10.2, from memory; mechanics.
pub fn bearing_stress(reaction: Force, breadth: Length, bearing_length: Length) -> Worked<Stress> {
    let area: Worked<Area> = given("b", breadth) * given("lb", bearing_length);
    (given("R", reaction) / area).step("fc⊥", nds("3.10.2", Seen::Memory))
}

/// What the wood under a round washer holds across its grain, `Fc⊥' π/4 (dw² − d0²)`.
///
/// | symbol | |
/// |---|---|
/// | `dw` | diameter of the washer |
/// | `d0` | hole |
///
/// # Source
///
/// NDS 2018 3.10.2 on the net area, from memory; mechanics.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the hole is not positive or as wide as the washer.
pub fn washer_bearing(across_grain: Worked<Stress>, across: Length, hole: Length) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = nds("3.10.2", Seen::Memory);
    positive("d0", hole, &CLAUSE)?;
    positive("dw - d0", across - hole, &CLAUSE)?;
    let (dw, d0) = (|| given("dw", across), || given("d0", hole));
    let area: Worked<Area> = plain(std::f64::consts::FRAC_PI_4) * (dw() * dw() - d0() * d0());
    Ok((across_grain * area).step("T'", CLAUSE))
}

/// Bearing on end grain, allowed up to `Fc*`: the ratio `fc / Fc*` at which it stands.
///
/// Above 0.75 the joint needs a metal plate or something as stiff, which wood on wood is not.
///
/// # Source
///
/// NDS 2018 3.10.1, read in a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] above 0.75.
pub fn end_grain_bearing(stress: Worked<Stress>, fc_star: Worked<Stress>) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = nds("3.10.1.3", Seen::Secondary);
    let ratio = (stress / fc_star).step("fc/Fc*", CLAUSE);
    if at_most(ratio.value, 0.75) {
        Ok(ratio)
    } else {
        Err(RuleError::out_of_range("fc/Fc*", ratio.value, "at most 0.75 without a metal plate", CLAUSE))
    }
}

/// Allowable stress at an angle to the grain (Hankinson),
/// `Fθ' = Fc* · Fc⊥' / (Fc* sin²θ + Fc⊥' cos²θ)`.
///
/// `degrees` is the angle between load and grain.
///
/// # Source
///
/// NDS 2018 3.10.3 and appendix J, read in a summary; Wood Handbook (FPL-GTR-282) equation 8-16.
pub fn hankinson(along: Worked<Stress>, across: Worked<Stress>, degrees: f64) -> Worked<Stress> {
    at_angle(along, across, degrees).step("Fθ'", nds("3.10.3", Seen::Secondary))
}

/// Hankinson's formula before it is given a symbol.
pub(super) fn at_angle(along: Worked<Stress>, across: Worked<Stress>, degrees: f64) -> Worked<Stress> {
    let radians = degrees.to_radians();
    let sine = given("sinθ", number(radians.sin())).power(2.0);
    let cosine = given("cosθ", number(radians.cos())).power(2.0);
    along.clone() * across.clone() / (along * sine + across * cosine)
}

/// Bearing area factor, `Cb = (lb + 0.375 in) / lb` where the bearing is shorter than 6 in and at
/// least 3 in from the member's end; otherwise 1.0.
///
/// | symbol | |
/// |---|---|
/// | `lb` | length of bearing along the grain |
/// | `from_end` | clear distance from the bearing to the member's end |
///
/// # Source
///
/// NDS 2018 3.10.4, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `lb` is not positive.
pub fn bearing_area(bearing_length: Length, from_end: Length) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = nds("3.10.4", Seen::Secondary);
    positive("lb", bearing_length, &CLAUSE)?;
    let lb = given("lb", bearing_length);
    // Lengths that come from metric or from sums may miss 3 in by a part in 10¹⁵.
    let inside = from_end >= inch(3.0 - 1e-9) && bearing_length < inch(6.0);
    let factor = if inside { (lb.clone() + constant(inch(0.375))) / lb } else { plain(1.0) };
    Ok(factor.step("Cb", CLAUSE))
}
