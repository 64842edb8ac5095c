//! Lateral torsional buckling of a beam whose compression edge is free.

use super::ec5;
use super::section::{Axis, Section};
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Length, Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use std::f64::consts::PI;

/// How a beam is loaded: the rows of Table 6.1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BeamLoad {
    /// Simple span, constant moment.
    ConstantMoment,
    /// Simple span, uniform load.
    Uniform,
    /// Simple span, concentrated load at mid-span.
    Centre,
    /// Cantilever, uniform load.
    CantileverUniform,
    /// Cantilever, load at the free end.
    CantileverEnd,
}

/// The height at which the load acts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LoadHeight {
    /// On the compression edge.
    CompressionEdge,
    /// At the centre of gravity.
    Centroid,
    /// On the tension edge.
    TensionEdge,
}

/// A compression edge that is free to move sideways between supports held against twist.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unbraced {
    /// `ℓ`, the span between points held.
    pub length: Length,
    /// The load on it.
    pub load: BeamLoad,
    /// Where it acts.
    pub height: LoadHeight,
}

const EFFECTIVE: Citation = ec5("Table 6.1", Seen::Memory);

/// Effective length `ℓef` from the span `ℓ` and the depth `h`.
///
/// Constant moment `ℓ`, uniform load `0.9 ℓ`, load at mid-span `0.8 ℓ`; cantilever with uniform load
/// `0.5 ℓ`, with end load `0.8 ℓ`. Load on the compression edge adds `2 h`, on the tension edge takes
/// off `0.5 h`.
///
/// # Source
///
/// EN 1995-1-1 6.3.3(3), Table 6.1: uniform load and `+ 2 h` read in summaries, the rest from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `ℓ`, `h` or the result is not positive.
pub fn effective_length(unbraced: &Unbraced, section: &Section) -> Result<Worked<Length>, RuleError> {
    positive("ℓ", unbraced.length, &EFFECTIVE)?;
    positive("h", section.depth, &EFFECTIVE)?;
    let share = match unbraced.load {
        BeamLoad::ConstantMoment => 1.0,
        BeamLoad::Uniform => 0.9,
        BeamLoad::Centre | BeamLoad::CantileverEnd => 0.8,
        BeamLoad::CantileverUniform => 0.5,
    };
    let length = plain(share) * given("ℓ", unbraced.length);
    let length = match unbraced.height {
        LoadHeight::CompressionEdge => length + plain(2.0) * section.h(),
        LoadHeight::Centroid => length,
        LoadHeight::TensionEdge => length - plain(0.5) * section.h(),
    };
    let length = length.step("ℓef", EFFECTIVE);
    positive("ℓef", length.value, &EFFECTIVE)?;
    Ok(length)
}

/// Critical bending stress of a softwood rectangle, `σm,crit = 0.78 b² E0,05 / (h ℓef)`.
///
/// # Source
///
/// EN 1995-1-1 6.3.3(2), equation 6.32, read in summaries.
pub fn critical_stress_of_softwood(
    section: &Section,
    effective: Worked<Length>,
    modulus: Worked<Stress>,
) -> Worked<Stress> {
    (plain(0.78) * section.b() * section.b() * modulus / (section.h() * effective))
        .step("σm,crit", ec5("(6.32)", Seen::Secondary))
}

/// Critical bending stress, `σm,crit = π sqrt(E0,05 Iz G0,05 Itor) / (ℓef Wy)`, of a rectangle with
/// `Itor = (h b³/3) ψ`, `ψ = 1 − 0.63 b/h + 0.0525 (b/h)^5`.
///
/// Evaluated as `π b²/(h ℓef) · E0,05 sqrt(ψ G0,05/E0,05)`, the same. For the usual softwood it is a few
/// percent below [`critical_stress_of_softwood`].
///
/// # Source
///
/// EN 1995-1-1 6.3.3(2), equation 6.31, read in summaries; `Itor` from Roark's Formulas for Stress and
/// Strain, Table 10.1, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the modulus is not positive, or when the section is not deeper than
/// wide.
pub fn critical_stress(
    section: &Section,
    effective: Worked<Length>,
    modulus: Worked<Stress>,
    shear_modulus: Worked<Stress>,
) -> Result<Worked<Stress>, RuleError> {
    const CLAUSE: Citation = ec5("(6.31)", Seen::Secondary);
    positive("E0,05", modulus.value, &CLAUSE)?;
    if section.depth <= section.breadth {
        return Err(RuleError::out_of_range("h", section.depth, "greater than b", CLAUSE));
    }
    let ratio = || section.b() / section.h();
    let torsion = plain(1.0) - plain(0.63) * ratio() + plain(0.0525) * ratio().power(5.0);
    let stiffness = modulus.clone() * (shear_modulus / modulus * torsion).root();
    let slender = section.b() * section.b() / (section.h() * effective);
    Ok((plain(PI) * slender * stiffness).step("σm,crit", CLAUSE))
}

/// Fifth percentile of the shear modulus, `G0,05 = Gmean · E0,05 / E0,mean`.
///
/// # Source
///
/// No clause: EN 338 prints no `G0,05`. The ratio of the moduli of elasticity is common practice.
pub fn fifth_percentile_of_shear_modulus(
    shear_modulus: Worked<Stress>,
    fifth: Worked<Stress>,
    mean: Worked<Stress>,
) -> Worked<Stress> {
    let practice = Citation::new("common practice", "Gmean in the ratio of E", Seen::Judgement);
    (shear_modulus * fifth / mean).step("G0,05", practice)
}

/// Factor `kcrit` on bending strength: 1 up to `λrel,m = 0.75`, `1.56 − 0.75 λrel,m` up to 1.4, and
/// `1/λrel,m²` above, with `λrel,m = sqrt(fm,k / σm,crit)`.
///
/// # Source
///
/// EN 1995-1-1 6.3.3(2) and (4), equations 6.30 and 6.34, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a stress is not positive.
pub fn lateral_buckling(
    bending_strength: Worked<Stress>,
    critical: Worked<Stress>,
) -> Result<Worked<Ratio>, RuleError> {
    const SLENDER: Citation = ec5("(6.30)", Seen::Secondary);
    const FACTOR: Citation = ec5("(6.34)", Seen::Secondary);
    positive("fm,k", bending_strength.value, &SLENDER)?;
    positive("σm,crit", critical.value, &SLENDER)?;
    let lambda = (bending_strength / critical).root().step("λrel,m", SLENDER);
    let kcrit = match lambda.value.value {
        l if l <= 0.75 => plain(1.0),
        l if l <= 1.4 => plain(1.56) - plain(0.75) * lambda,
        _ => plain(1.0) / lambda.power(2.0),
    };
    finite("kcrit", kcrit.step("kcrit", FACTOR), &FACTOR)
}

/// `kcrit = 1` of a beam whose compression edge is held along its length and whose ends are held
/// against twist, or that is no deeper than wide and so bends about its weak axis.
///
/// # Source
///
/// EN 1995-1-1 6.3.3(5), read in summaries; for the weak axis 6.3.3(1), from memory.
pub fn held() -> Worked<Ratio> {
    plain(1.0).step("kcrit", ec5("6.3.3(5)", Seen::Secondary))
}

/// Which axis a member of this section bends about when it is loaded in the direction of its depth:
/// whether that is its weak one.
pub(super) fn bends_about_weak_axis(section: &Section) -> bool {
    section.along(Axis::Y).value <= section.along(Axis::Z).value
}
