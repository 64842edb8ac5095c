//! Shear along the grain: the beam, the notch, and the rail above a low row of screws.

use super::nds;
use super::section::Section;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Force, Length, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};

/// Shear stress parallel to grain in a rectangle, `fv = 3 V / (2 b d)`.
///
/// # Source
///
/// NDS 2018 3.4.2, from memory; mechanics.
pub fn shear_stress(shear: Force, section: &Section) -> Worked<Stress> {
    (plain(3.0) * given("V", shear) / (plain(2.0) * section.b() * section.d())).step("fv", nds("3.4.2", Seen::Memory))
}

const NOTCH: Citation = nds("3.4.3.2", Seen::Memory);

/// Deepest notch at the end of a sawn beam, `d/4`.
///
/// # Source
///
/// NDS 2018 4.4.3.2, read in a summary.
pub fn deepest_notch(section: &Section) -> Worked<Length> {
    (section.d() / plain(4.0)).step("deepest notch", nds("4.4.3.2", Seen::Secondary))
}

/// Shear a rectangle resists at a notch on the tension face at its end,
/// `Vr' = 2/3 · Fv' · b · dn · (dn/d)²`.
///
/// `dn` is the depth left at the notch.
///
/// # Source
///
/// NDS 2018 3.4.3.2(a), from memory; that a notch is at most a quarter of the depth (4.4.3.2) was
/// read in a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the notch is deeper than `d/4` or `dn` exceeds `d`.
pub fn notch_on_tension_face(
    fv: Worked<Stress>,
    section: &Section,
    depth_at_notch: Length,
) -> Result<Worked<Force>, RuleError> {
    positive("dn", depth_at_notch, &NOTCH)?;
    let left = (depth_at_notch / section.depth).value;
    if !(0.75 - 1e-9..=1.0 + 1e-9).contains(&left) {
        let citation = nds("4.4.3.2", Seen::Secondary);
        return Err(RuleError::out_of_range("dn/d", number(left), "at least 0.75 and at most 1", citation));
    }
    let dn = given("dn", depth_at_notch);
    let ratio = (dn.clone() / section.d()).power(2.0);
    Ok((plain(2.0) / plain(3.0) * fv * section.b() * dn * ratio).step("Vr'", NOTCH))
}

/// Shear a rectangle resists at a notch on the compression face at its end,
/// `Vr' = 2/3 · Fv' · b · [d − ((d − dn)/dn) · e]`, with `e` at most `dn`.
///
/// `e` is how far the notch reaches past the inner edge of the support.
///
/// # Source
///
/// NDS 2018 3.4.3.2(e), from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `dn` is not between zero and `d`, or `e` is negative.
pub fn notch_on_compression_face(
    fv: Worked<Stress>,
    section: &Section,
    depth_at_notch: Length,
    reach: Length,
) -> Result<Worked<Force>, RuleError> {
    positive("dn", depth_at_notch, &NOTCH)?;
    if depth_at_notch > section.depth {
        return Err(RuleError::out_of_range("dn", depth_at_notch, "at most d", NOTCH));
    }
    if !reach.value.is_finite() || reach.value < 0.0 {
        return Err(RuleError::out_of_range("e", reach, "zero or more", NOTCH));
    }
    let dn = given("dn", depth_at_notch);
    let e = given("e", reach).min(dn.clone());
    let effective = section.d() - (section.d() - dn.clone()) / dn * e;
    Ok((plain(2.0) / plain(3.0) * fv * section.b() * effective).step("Vr'", NOTCH))
}

/// Shear a rectangle resists at a connection that bends it across the grain.
///
/// Fewer than `5 d` from the end: `Vr' = 2/3 · Fv' · b · de · (de/d)²`; farther: `2/3 · Fv' · b · de`.
///
/// | symbol | |
/// |---|---|
/// | `de` | depth less the distance from the unloaded edge to the nearest fastener's far side |
/// | `from_end` | distance of the connection from the member's end |
///
/// # Source
///
/// NDS 2018 3.4.3.3, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `de` is not between zero and `d`.
pub fn shear_at_connection(
    fv: Worked<Stress>,
    section: &Section,
    effective_depth: Length,
    from_end: Length,
) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = nds("3.4.3.3", Seen::Memory);
    positive("de", effective_depth, &CLAUSE)?;
    if effective_depth > section.depth {
        return Err(RuleError::out_of_range("de", effective_depth, "at most d", CLAUSE));
    }
    let de = given("de", effective_depth);
    let full = plain(2.0) / plain(3.0) * fv * section.b() * de.clone();
    let near = from_end < section.depth * 5.0;
    let resisted = if near { full * (de / section.d()).power(2.0) } else { full };
    Ok(resisted.step("Vr'", CLAUSE))
}
