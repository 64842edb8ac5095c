//! Size and shared load: small pieces are stronger, and neighbours help.

use super::design::Material;
use super::{ec5, in_millimetres};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::millimetre;
use crate::quantity::{Length, MassDensity, Ratio, number};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::Seen;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Size factor `kh` on bending strength (by depth `h`) and tension strength (by the larger side).
///
/// Solid timber of at most 700 kg/m³: `min[(150/h)^0.2; 1.3]` below 150 mm; glued laminated timber:
/// `min[(600/h)^0.1; 1.1]` below 600 mm; otherwise 1.0.
///
/// | symbol | |
/// |---|---|
/// | `h` | depth in bending, larger side of the section in tension |
/// | `ρk` | characteristic density |
///
/// # Source
///
/// EN 1995-1-1 3.2(3) and 3.3(3), equations 3.1 and 3.2, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `h` or `ρk` is not positive; [`RuleError::NotCovered`] for veneer
/// lumber, which needs its declared exponent: [`size_factor_of_veneer_lumber`].
pub fn size_factor(material: Material, h: Length, density: MassDensity) -> Result<Worked<Ratio>, RuleError> {
    let clause = match material {
        Material::GluedLaminated => ec5("3.3(3)", Seen::Secondary),
        _ => ec5("3.2(3)", Seen::Secondary),
    };
    positive("h", h, &clause)?;
    positive("ρk", density, &clause)?;
    let grown = |reference: f64, exponent: f64, most: f64| {
        (constant(millimetre(reference)) / given("h", h)).power(exponent).min(plain(most))
    };
    let light = density <= MassDensity::new::<kilogram_per_cubic_meter>(700.0);
    let kh = match material {
        Material::SolidTimber if light && h < millimetre(150.0) => grown(150.0, 0.2, 1.3),
        Material::GluedLaminated if h < millimetre(600.0) => grown(600.0, 0.1, 1.1),
        Material::VeneerLumber => {
            return Err(RuleError::not_covered(
                "the size factor of laminated veneer lumber without its exponent s",
                "EN 1995-1-1 3.4(3) takes s from the maker's declaration",
            ));
        }
        _ => plain(1.0),
    };
    Ok(kh.step("kh", clause))
}

/// Size factor of laminated veneer lumber in edgewise bending, `kh = min[(300/h)^s; 1.2]`.
///
/// `s` is declared by the maker after EN 14374. It may fall below 1.
///
/// # Source
///
/// EN 1995-1-1 3.4(3), equation 3.3, from memory; confirmed below the limit by an example of the LVL
/// Handbook Europe (2025) in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `h` is not positive or `s` is outside 0 to 1.
pub fn size_factor_of_veneer_lumber(h: Length, exponent: f64) -> Result<Worked<Ratio>, RuleError> {
    let clause = ec5("3.4(3)", Seen::Memory);
    positive("h", h, &clause)?;
    if !(0.0..=1.0).contains(&exponent) {
        return Err(RuleError::out_of_range("s", number(exponent), "from 0 to 1", clause));
    }
    let ratio = plain(300.0) / in_millimetres(given("h", h));
    Ok(ratio.power(exponent).min(plain(1.2)).step("kh", clause))
}

/// System strength factor `ksys`: 1.1 where equally spaced members are joined sideways by a
/// continuous layer that passes load to the neighbours, else 1.0.
///
/// Loose slats carry no such layer. The layer itself is to be checked for the loads it passes on, as
/// of short duration.
///
/// # Source
///
/// EN 1995-1-1 6.6, read in summaries.
pub fn system_strength(shared: bool) -> Worked<Ratio> {
    plain(if shared { 1.1 } else { 1.0 }).step("ksys", ec5("6.6", Seen::Secondary))
}
