//! Steel pipe in bending and shear, after EN 1993-1-1.

use crate::derivation::{Worked, given, plain};
use crate::quantity::unit::megapascal;
use crate::quantity::{BendingMoment, Force, Length, Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::rules::round::Tube;
use crate::source::{Citation, Seen};
use std::f64::consts::PI;

const fn ec3(locator: &'static str) -> Citation {
    Citation::new("EN 1993-1-1:2005", locator, Seen::Memory)
}

/// Modulus of elasticity of steel, `E = 210 000 N/mm²`.
///
/// # Source
///
/// EN 1993-1-1 3.2.6, from memory.
pub fn modulus() -> Worked<Stress> {
    given("E", megapascal(210_000.0)).step("E", ec3("3.2.6"))
}

/// Partial factor of cross-sections, `γM0 = 1.00`, recommended and unchanged in the United Kingdom and
/// Germany.
fn partial_factor() -> Worked<Ratio> {
    plain(1.0).step("γM0", ec3("6.1"))
}

/// The tube a pipe counts as: its nominal wall.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the wall is not positive or leaves no bore.
pub fn design_tube(outside: Length, nominal_wall: Length) -> Result<Tube, RuleError> {
    const CLAUSE: Citation = ec3("Table 5.2");
    positive("t", nominal_wall, &CLAUSE)?;
    positive("d - 2 t", outside - nominal_wall * 2.0, &CLAUSE)?;
    Ok(Tube { outside, wall: given("t", nominal_wall) })
}

/// Refuses a tube that is not of class 1 or 2: `d/t` above `70 ε²`, `ε² = 235/fy`.
fn stocky(tube: &Tube, fy: Stress) -> Result<(), RuleError> {
    const CLAUSE: Citation = ec3("Table 5.2");
    positive("fy", fy, &CLAUSE)?;
    let slender = given("d", tube.outside) / tube.wall.clone();
    let limit = 70.0 * (megapascal(235.0) / fy).value;
    if slender.value.value <= limit {
        Ok(())
    } else {
        Err(RuleError::out_of_range("d/t", slender.value, format!("at most {limit:.0}"), CLAUSE))
    }
}

/// Bending resistance of a tube of class 1 or 2, `Mc,Rd = Wpl fy / γM0`.
///
/// # Source
///
/// EN 1993-1-1 6.2.5(2), equation 6.13, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the wall is too thin to yield before it buckles.
pub fn bending_resistance(tube: &Tube, fy: Stress) -> Result<Worked<BendingMoment>, RuleError> {
    stocky(tube, fy)?;
    let yields: Worked<BendingMoment> = given("fy", fy) * tube.plastic_modulus();
    Ok((yields / partial_factor()).step("Mc,Rd", ec3("(6.13)")))
}

/// Shear resistance of a tube, `Vpl,Rd = Av fy / (√3 γM0)` with `Av = 2 A / π`.
///
/// # Source
///
/// EN 1993-1-1 6.2.6(2) and (3) g), equation 6.18, from memory.
///
/// # Errors
///
/// As [`bending_resistance`].
pub fn shear_resistance(tube: &Tube, fy: Stress) -> Result<Worked<Force>, RuleError> {
    stocky(tube, fy)?;
    let area = (plain(2.0) * tube.area() / plain(PI)).step("Av", ec3("6.2.6(3)"));
    Ok((area * given("fy", fy) / (plain(3.0).root() * partial_factor())).step("Vpl,Rd", ec3("(6.18)")))
}
