//! Shear along the grain: the beam, and the notch at its end.

use super::design::{Material, NationalChoice};
use super::section::Section;
use super::{ec5, in_millimetres, not_negative};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::megapascal;
use crate::quantity::{Force, Length, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::WoodKind;

/// Crack factor `kcr` on the breadth of a member in bending.
///
/// Recommended and British: 0.67 for solid and glued laminated timber, 1.0 for the others. German:
/// `2.0/fv,k` for softwood solid timber and `2.5/fv,k` for softwood glued laminated timber (N/mm², at
/// most 1), 0.67 for hardwood.
///
/// It belongs to the shear strengths printed since EN 338:2009; earlier ones hold it already.
///
/// # Source
///
/// EN 1995-1-1 6.1.7(2) with A1, equation 6.13a, read in summaries; the British annex from memory, the
/// German one read in data of a library that follows it.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `fv,k` is not positive.
pub fn crack_factor(
    material: Material,
    kind: WoodKind,
    shear_strength: Stress,
    choice: NationalChoice,
) -> Result<Worked<Ratio>, RuleError> {
    let seen = if choice == NationalChoice::UnitedKingdom { Seen::Memory } else { Seen::Secondary };
    let clause = choice.cite("6.1.7(2)", seen);
    positive("fv,k", shear_strength, &clause)?;
    let by_strength = |top: f64| (constant(megapascal(top)) / given("fv,k", shear_strength)).min(plain(1.0));
    let kcr = match (choice, material, kind) {
        (NationalChoice::Germany, Material::SolidTimber, WoodKind::Softwood) => by_strength(2.0),
        (NationalChoice::Germany, Material::GluedLaminated, WoodKind::Softwood) => by_strength(2.5),
        (_, Material::SolidTimber | Material::GluedLaminated, _) => plain(0.67),
        _ => plain(1.0),
    };
    Ok(kcr.step("kcr", clause))
}

/// Shear stress in a rectangle, `τd = 1.5 Vd / (bef h)` with `bef = kcr · b`, at most `fv,d`.
///
/// # Source
///
/// EN 1995-1-1 6.1.7, equations 6.13 and 6.13a, read in summaries.
pub fn shear_stress(shear: Force, section: &Section, kcr: Worked<Ratio>) -> Worked<Stress> {
    let breadth = (kcr * section.b()).step("bef", ec5("(6.13a)", Seen::Secondary));
    (plain(1.5) * given("Vd", shear) / (breadth * section.h())).step("τd", ec5("(6.13)", Seen::Secondary))
}

/// Shear force of a uniform load without what lies within `h` of the supports' edges,
/// `Vred = V [1 − (2h + ℓs)/L]`.
///
/// For members loaded on the top edge, carried from below and not notched at the end. `L` is between
/// the middles of the supports, `ℓs` the length of a support.
///
/// # Source
///
/// EN 1995-1-1 6.1.7(3), read in an example of the LVL Handbook Europe (2025).
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `L` is not more than `2h + ℓs`.
pub fn shear_beyond_supports(
    shear: Force,
    span: Length,
    depth: Length,
    support_length: Length,
) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = ec5("6.1.7(3)", Seen::Secondary);
    positive("h", depth, &CLAUSE)?;
    not_negative("ℓs", support_length, &CLAUSE)?;
    positive("L", span, &CLAUSE)?;
    if span.value <= 2.0 * depth.value + support_length.value {
        return Err(RuleError::out_of_range("L", span, "more than 2 h + ℓs", CLAUSE));
    }
    let near = (plain(2.0) * given("h", depth) + given("ℓs", support_length)) / given("L", span);
    Ok((given("V", shear) * (plain(1.0) - near)).step("Vred", CLAUSE))
}

/// A notch at the end of a beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Notch {
    /// `hef`, depth left at the notch.
    pub depth_left: Length,
    /// `x`, from the line of the support's reaction to the corner of the notch.
    pub reach: Length,
    /// `i`, run of the slope per unit of rise; 0 for a square corner.
    pub slope: f64,
    /// Whether it is cut on the side of the support, where it opens a crack.
    pub on_support_side: bool,
}

const NOTCH: Citation = ec5("(6.62)", Seen::Memory);

/// Notch factor `kv` on shear strength.
///
/// Opposite the support 1.0; on the side of the support the smaller of 1 and
/// `kn (1 + 1.1 i^1.5/sqrt(h)) / {sqrt(h) [sqrt(α (1 − α)) + 0.8 (x/h) sqrt(1/α − α²)]}` with
/// `α = hef/h`, `h` in mm, and `kn` 5 for solid timber, 6.5 for glued laminated, 4.5 for veneer lumber.
///
/// # Source
///
/// EN 1995-1-1 6.5.2, equations 6.61 to 6.63: form and `kn` of veneer lumber read in a summary, `kn`
/// of the others from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `hef` is not between 0 and `h`, or `x` or `i` is negative;
/// [`RuleError::NotCovered`] for panels.
pub fn notch_factor(section: &Section, notch: &Notch, material: Material) -> Result<Worked<Ratio>, RuleError> {
    positive("h", section.depth, &NOTCH)?;
    positive("hef", notch.depth_left, &NOTCH)?;
    if notch.depth_left > section.depth {
        return Err(RuleError::out_of_range("hef", notch.depth_left, "at most h", NOTCH));
    }
    not_negative("x", notch.reach, &NOTCH)?;
    not_negative("i", number(notch.slope), &NOTCH)?;
    let kn = match material {
        Material::SolidTimber => 5.0,
        Material::GluedLaminated => 6.5,
        Material::VeneerLumber => 4.5,
        Material::Plywood | Material::StrandBoard => {
            return Err(RuleError::not_covered("a notched beam of panel", "EN 1995-1-1 6.5.2 has no kn for it"));
        }
    };
    // A notch of no depth leaves nothing to divide by.
    if !notch.on_support_side || notch.depth_left == section.depth {
        return Ok(plain(1.0).step("kv", ec5("(6.61)", Seen::Memory)));
    }
    let root_h = in_millimetres(section.h()).root();
    let alpha = (given("hef", notch.depth_left) / section.h()).step("α", NOTCH);
    let one = || plain(1.0);
    let corner = (alpha.clone() * (one() - alpha.clone())).root();
    let lever =
        plain(0.8) * (given("x", notch.reach) / section.h()) * (one() / alpha.clone() - alpha.power(2.0)).root();
    let slope = one() + plain(1.1) * given("i", number(notch.slope)).power(1.5) / root_h.clone();
    let kv = plain(kn).step("kn", NOTCH) * slope / (root_h * (corner + lever));
    finite("kv", one().min(kv).step("kv", NOTCH), &NOTCH)
}

/// Shear stress at a notch, `τd = 1.5 Vd / (bef hef)`, at most `kv · fv,d`.
///
/// # Source
///
/// EN 1995-1-1 6.5.2(1), equation 6.60, read in a summary; `bef` there since A1, from memory.
pub fn shear_stress_at_notch(shear: Force, section: &Section, notch: &Notch, kcr: Worked<Ratio>) -> Worked<Stress> {
    let breadth = (kcr * section.b()).step("bef", ec5("(6.13a)", Seen::Secondary));
    (plain(1.5) * given("Vd", shear) / (breadth * given("hef", notch.depth_left)))
        .step("τd", ec5("(6.60)", Seen::Secondary))
}
