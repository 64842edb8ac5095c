//! Bolts: their holes and washers, and what holds them along their axis.

use super::ec5;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::millimetre;
use crate::quantity::{Area, Force, Length, Stress};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};

/// Largest hole for a bolt, `d + 1 mm`.
///
/// # Source
///
/// EN 1995-1-1 10.4.3(1), from memory.
pub fn largest_hole(diameter: Length) -> Worked<Length> {
    (given("d", diameter) + constant(millimetre(1.0))).step("hole", ec5("10.4.3(1)", Seen::Memory))
}

/// Least diameter, or side, and thickness of the washers under head and nut: `3 d` and `0.3 d`.
///
/// # Source
///
/// EN 1995-1-1 10.4.3(2), from memory.
pub fn least_washer(diameter: Length) -> [Worked<Length>; 2] {
    [3.0, 0.3].map(|n| (plain(n) * given("d", diameter)).step("washer", ec5("10.4.3(2)", Seen::Memory)))
}

/// Characteristic capacity of the wood under a round washer, `Fax,Rk = 3 fc,90,k π/4 (dw² − d0²)`.
///
/// | symbol | |
/// |---|---|
/// | `dw` | diameter of the washer |
/// | `d0` | hole |
///
/// # Source
///
/// EN 1995-1-1 8.5.2(2), read in an example.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a value is not positive or the hole is as wide as the washer.
pub fn washer_capacity(across: Length, hole: Length, strength: Stress) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = ec5("8.5.2(2)", Seen::Secondary);
    positive("d0", hole, &CLAUSE)?;
    positive("fc,90,k", strength, &CLAUSE)?;
    if !across.value.is_finite() || across <= hole {
        return Err(RuleError::out_of_range("dw", across, "more than the hole", CLAUSE));
    }
    let (dw, d0) = (|| given("dw", across), || given("d0", hole));
    let area: Worked<Area> = plain(std::f64::consts::FRAC_PI_4) * (dw() * dw() - d0() * d0());
    Ok((plain(3.0) * given("fc,90,k", strength) * area).step("Fax,Rk", CLAUSE))
}

/// Characteristic tension capacity of a bolt, `Ft,Rk = 0.9 fu As`, with the area at the root of its thread for
/// `As`, which errs low.
///
/// # Source
///
/// EN 1995-1-1 8.5.2(1) sends to EN 1993-1-8 Table 3.4, from memory, there over `γM2`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a value is not positive.
pub fn tension_capacity(root: Length, tensile_strength: Stress) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = Citation::new("EN 1993-1-8:2005", "Table 3.4", Seen::Memory);
    positive("d3", root, &CLAUSE)?;
    positive("fu", tensile_strength, &CLAUSE)?;
    let area: Worked<Area> = plain(std::f64::consts::FRAC_PI_4) * given("d3", root) * given("d3", root);
    Ok((plain(0.9) * given("fu", tensile_strength) * area).step("Ft,Rk", CLAUSE))
}
