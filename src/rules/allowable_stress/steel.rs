//! Steel pipe in bending and shear, and bolts in tension, after the specification for structural steel buildings.

use crate::derivation::{Worked, given, plain};
use crate::quantity::unit::psi;
use crate::quantity::{Area, BendingMoment, Force, Length, Stress};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::rules::round::Tube;
use crate::source::{Citation, Seen};

const fn aisc(locator: &'static str) -> Citation {
    Citation::new("AISC 360-16", locator, Seen::Memory)
}

/// Modulus of elasticity of steel, `E = 29 000 000 psi`.
///
/// # Source
///
/// AISC 360-16, from memory.
pub fn modulus() -> Worked<Stress> {
    given("E", psi(29e6)).step("E", aisc("symbols"))
}

/// The tube a pipe counts as: its wall is `t = 0.93 tnom`, for rolling tolerance.
///
/// # Source
///
/// AISC 360-16 B4.2, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the wall is not positive or leaves no bore.
pub fn design_tube(outside: Length, nominal_wall: Length) -> Result<Tube, RuleError> {
    const CLAUSE: Citation = aisc("B4.2");
    positive("tnom", nominal_wall, &CLAUSE)?;
    positive("D - 2 tnom", outside - nominal_wall * 2.0, &CLAUSE)?;
    let wall = (plain(0.93) * given("tnom", nominal_wall)).step("t", CLAUSE);
    Ok(Tube { outside, wall })
}

/// Refuses a pipe whose wall would buckle before it yields: `D/t` above `0.07 E/Fy`.
fn compact(tube: &Tube, fy: Stress) -> Result<(), RuleError> {
    const CLAUSE: Citation = aisc("Table B4.1b case 20");
    positive("Fy", fy, &CLAUSE)?;
    let slender = given("D", tube.outside) / tube.wall.clone();
    let limit = plain(0.07) * modulus() / given("Fy", fy);
    if slender.value <= limit.value {
        Ok(())
    } else {
        let most = format!("at most {:.0}", limit.value.value);
        Err(RuleError::out_of_range("D/t", slender.value, most, CLAUSE))
    }
}

/// Allowable bending moment of a compact pipe, `Mn/Ω = Fy Z / 1.67`.
///
/// # Source
///
/// AISC 360-16 F1 and F8, equation F8-1, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the wall is too thin to yield before it buckles.
pub fn allowable_moment(tube: &Tube, fy: Stress) -> Result<Worked<BendingMoment>, RuleError> {
    compact(tube, fy)?;
    let yields: Worked<BendingMoment> = (given("Fy", fy) * tube.plastic_modulus()).step("Mn", aisc("(F8-1)"));
    Ok((yields / plain(1.67)).step("Mn/Ω", aisc("F1")))
}

/// Allowable shear of a compact pipe, `Vn/Ω = 0.6 Fy A / 2 / 1.67`.
///
/// # Source
///
/// AISC 360-16 G1 and G5, equation G5-1 with `Fcr = 0.6 Fy`, which no compact pipe falls short of; from
/// memory.
///
/// # Errors
///
/// As [`allowable_moment`].
pub fn allowable_shear(tube: &Tube, fy: Stress) -> Result<Worked<Force>, RuleError> {
    compact(tube, fy)?;
    let yields = plain(0.6) * given("Fy", fy) * tube.area() / plain(2.0);
    Ok((yields.step("Vn", aisc("(G5-1)")) / plain(1.67)).step("Vn/Ω", aisc("G1")))
}

/// Allowable tension of a bolt, `Rn/Ω = 0.75 Fu Ab / 2` with the area of its shank.
///
/// # Source
///
/// AISC 360-16 J3.6 and Table J3.2, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a value is not positive.
pub fn bolt_tension(diameter: Length, tensile_strength: Stress) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = aisc("J3.6");
    positive("D", diameter, &CLAUSE)?;
    positive("Fu", tensile_strength, &CLAUSE)?;
    let area: Worked<Area> = plain(std::f64::consts::FRAC_PI_4) * given("D", diameter) * given("D", diameter);
    let nominal = (plain(0.75) * given("Fu", tensile_strength)).step("Fnt", aisc("Table J3.2"));
    Ok((nominal * area / plain(2.0)).step("Rn/Ω", CLAUSE))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::{inch, millimetre};

    /// A wall of a hundredth of an inch on a pipe of two inches: `D/t` 215, above the 58 of this steel.
    #[test]
    fn foil_is_refused() {
        let foil = design_tube(inch(2.0), inch(0.01)).unwrap();
        assert!(allowable_moment(&foil, psi(35_000.0)).is_err());
        assert!(allowable_shear(&foil, psi(35_000.0)).is_err());
        assert!(design_tube(inch(1.0), millimetre(13.0)).is_err());
    }
}
