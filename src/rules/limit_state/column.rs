//! Columns.

use super::design::Material;
use super::ec5;
use super::section::{Axis, Section};
use crate::derivation::{Worked, plain};
use crate::quantity::{Length, Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use std::f64::consts::PI;

const RELATIVE: Citation = ec5("(6.21)", Seen::Secondary);

/// Relative slenderness of a column in one direction, `λrel = λ/π · sqrt(fc,0,k / E0,05)` with
/// `λ = ℓef / i`.
///
/// | symbol | |
/// |---|---|
/// | `ℓef` | buckling length: the length between pinned ends |
/// | `i` | radius of gyration |
/// | `fc,0,k` | characteristic compression strength along the grain |
/// | `E0,05` | fifth percentile of the modulus of elasticity |
///
/// # Source
///
/// EN 1995-1-1 6.3.2(1), equations 6.21 and 6.22, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a dimension, a strength or the modulus is not positive.
pub fn relative_slenderness(
    section: &Section,
    axis: Axis,
    buckling_length: Worked<Length>,
    compression_strength: Worked<Stress>,
    modulus: Worked<Stress>,
) -> Result<Worked<Ratio>, RuleError> {
    positive("ℓef", buckling_length.value, &RELATIVE)?;
    positive("h", section.along(axis).value, &RELATIVE)?;
    positive("fc,0,k", compression_strength.value, &RELATIVE)?;
    positive("E0,05", modulus.value, &RELATIVE)?;
    let (plain_symbol, relative) = match axis {
        Axis::Y => ("λy", "λrel,y"),
        Axis::Z => ("λz", "λrel,z"),
    };
    let lambda = (buckling_length / section.radius_of_gyration(axis)).step(plain_symbol, RELATIVE);
    let rel = (lambda / plain(PI) * (compression_strength / modulus).root()).step(relative, RELATIVE);
    finite("λrel", rel, &RELATIVE)
}

/// Buckling factor `kc,y` or `kc,z`: `kc = 1 / (k + sqrt(k² − λrel²))` with
/// `k = 0.5 [1 + βc (λrel − 0.3) + λrel²]`, and 1.0 up to `λrel = 0.3`.
///
/// `βc` is 0.2 for solid timber and 0.1 for glued laminated timber and veneer lumber.
///
/// # Source
///
/// EN 1995-1-1 6.3.2(3), equations 6.25 to 6.29, read in summaries; confirmed by a printed table of
/// columns in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `λrel` is not a positive number; [`RuleError::NotCovered`] for
/// panels.
pub fn buckling(
    axis: Axis,
    relative_slenderness: Worked<Ratio>,
    material: Material,
) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = ec5("6.3.2(3)", Seen::Secondary);
    positive("λrel", relative_slenderness.value, &CLAUSE)?;
    let (k_symbol, kc_symbol) = match axis {
        Axis::Y => ("ky", "kc,y"),
        Axis::Z => ("kz", "kc,z"),
    };
    let beta = match material {
        Material::SolidTimber => 0.2,
        Material::GluedLaminated | Material::VeneerLumber => 0.1,
        Material::Plywood | Material::StrandBoard => {
            return Err(RuleError::not_covered(
                "a column of panel",
                "EN 1995-1-1 6.3.2 has βc for solid timber, glued laminated timber and veneer lumber",
            ));
        }
    };
    // 0.3 reached through a square root may come out a part in 10¹⁶ above it.
    if relative_slenderness.value.value <= 0.3 * (1.0 + 1e-12) {
        return Ok(plain(1.0).step(kc_symbol, ec5("6.3.2(2)", Seen::Secondary)));
    }
    let lambda = || relative_slenderness.clone();
    let k = (plain(0.5)
        * (plain(1.0) + plain(beta).step("βc", CLAUSE) * (lambda() - plain(0.3)) + lambda().power(2.0)))
    .step(k_symbol, CLAUSE);
    let kc = (plain(1.0) / (k.clone() + (k.power(2.0) - lambda().power(2.0)).root())).step(kc_symbol, CLAUSE);
    finite("kc", kc, &CLAUSE)
}
