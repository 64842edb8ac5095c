//! Slip of joints.

use super::dowel::{Fastener, FastenerKind};
use super::{ec5, in_kilograms, in_millimetres};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::newton_per_metre;
use crate::quantity::{MassDensity, SpringStiffness};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::rules::slip::slip_modulus;
use crate::source::{Citation, Seen};

/// Slip modulus `Kser` of one fastener per shear plane (N/mm, kg/m³, mm): `ρm^1.5 d/23` for screws,
/// bolts, dowels and predrilled nails, `ρm^1.5 d^0.8/30` for nails driven without a hole.
///
/// `ρm = sqrt(ρm,1 ρm,2)` are mean densities, `d` is the fastener's diameter.
///
/// # Source
///
/// EN 1995-1-1 7.1, Table 7.1: nails read in an example of the LVL Handbook Europe (2025), the rest
/// from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a density or the diameter is not positive.
pub fn service_slip(
    fastener: &Fastener,
    first: MassDensity,
    second: MassDensity,
    predrilled: bool,
) -> Result<Worked<SpringStiffness>, RuleError> {
    const CLAUSE: Citation = ec5("Table 7.1", Seen::Secondary);
    positive("ρm,1", first, &CLAUSE)?;
    positive("ρm,2", second, &CLAUSE)?;
    positive("d", fastener.diameter, &CLAUSE)?;
    let nail =
        matches!(fastener.kind, FastenerKind::RoundNail | FastenerKind::SquareOrGroovedNail | FastenerKind::OtherNail);
    if !nail || predrilled {
        return Ok(slip_modulus(first, second, fastener.diameter));
    }
    // (ρ1·ρ2)^0.75 is (sqrt(ρ1·ρ2))^1.5.
    let densities = (in_kilograms("ρm,1", first) * in_kilograms("ρm,2", second)).power(0.75);
    let number = densities * in_millimetres(given("d", fastener.diameter)).power(0.8) / plain(30.0);
    Ok((number * constant(newton_per_metre(1000.0))).step("Kser", CLAUSE))
}

/// Slip modulus for the ultimate limit states, `Ku = 2/3 · Kser`.
///
/// # Source
///
/// EN 1995-1-1 2.2.2(2), equation 2.1, read in summaries.
pub fn ultimate_slip(service: Worked<SpringStiffness>) -> Worked<SpringStiffness> {
    (plain(2.0) / plain(3.0) * service).step("Ku", ec5("(2.1)", Seen::Secondary))
}
