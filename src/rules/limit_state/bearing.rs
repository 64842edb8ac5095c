//! Bearing: across the grain and at an angle.

use super::design::Material;
use super::{ec5, not_negative, sine_and_cosine};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::millimetre;
use crate::quantity::{Force, Length, Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::WoodKind;

/// Where a member is pressed across its grain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// `ℓ`, length of contact along the grain.
    pub length: Length,
    /// `a`, from either edge of the contact to the member's end on that side; zero where flush.
    pub to_ends: [Length; 2],
    /// `ℓ1`, clear distance to the next contact or load; `None` where there is none.
    pub to_next: Option<Length>,
}

/// Effective contact length `ℓef`: `ℓ` and, on either side, 30 mm but not more than `a`, `ℓ` or
/// `ℓ1/2`.
///
/// # Source
///
/// EN 1995-1-1 6.1.5(1) as amended by A1, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `ℓ` is not positive, or a distance is negative.
pub fn effective_contact_length(contact: &Contact) -> Result<Worked<Length>, RuleError> {
    const CLAUSE: Citation = ec5("6.1.5(1)", Seen::Secondary);
    positive("ℓ", contact.length, &CLAUSE)?;
    let distances = contact.to_ends.map(|a| ("a", a));
    for (symbol, distance) in distances.into_iter().chain(contact.to_next.map(|l| ("ℓ1", l))) {
        not_negative(symbol, distance, &CLAUSE)?;
    }
    let side = |symbol: &'static str, to_end: Length| {
        let grown = constant(millimetre(30.0)).min(given(symbol, to_end)).min(given("ℓ", contact.length));
        match contact.to_next {
            Some(next) => grown.min(given("ℓ1", next) / plain(2.0)),
            None => grown,
        }
    };
    let [first, second] = contact.to_ends;
    let length = given("ℓ", contact.length) + side("a1", first) + side("a2", second);
    finite("ℓef", length.step("ℓef", CLAUSE), &CLAUSE)
}

/// How a member rests.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Support {
    /// On a continuous bed, like a sole plate.
    Continuous,
    /// On separate supports, like a slat on cleats.
    Discrete,
}

/// Factor `kc,90` for how the load spreads.
///
/// Softwood with `ℓ1 ≥ 2h`: continuous support 1.25 solid, 1.5 glued laminated; discrete support 1.5
/// solid, 1.75 glued laminated with `ℓ ≤ 400 mm`. Everything else 1.0.
///
/// | symbol | |
/// |---|---|
/// | `h` | depth of the member |
/// | `ℓ`, `ℓ1` | as in [`Contact`]; no next load counts as far away |
///
/// # Source
///
/// EN 1995-1-1 6.1.5(2) to (4) as amended by A1: continuous solid read in a summary, the other
/// numbers read in data of a library and completed from memory.
pub fn bearing_factor(
    material: Material,
    kind: WoodKind,
    support: Support,
    contact: &Contact,
    depth: Length,
) -> Worked<Ratio> {
    let apart = contact.to_next.is_none_or(|next| next.value >= 2.0 * depth.value * (1.0 - 1e-9));
    let short = contact.length.value <= millimetre(400.0).value * (1.0 + 1e-9);
    let (value, seen) = match (kind, material, support) {
        (WoodKind::Softwood, Material::SolidTimber, Support::Continuous) if apart => (1.25, Seen::Secondary),
        (WoodKind::Softwood, Material::SolidTimber, Support::Discrete) if apart => (1.5, Seen::Secondary),
        (WoodKind::Softwood, Material::GluedLaminated, Support::Continuous) if apart => (1.5, Seen::Secondary),
        (WoodKind::Softwood, Material::GluedLaminated, Support::Discrete) if apart && short => (1.75, Seen::Secondary),
        _ => (1.0, Seen::Memory),
    };
    plain(value).step("kc,90", ec5("6.1.5", seen))
}

/// Bearing stress across the grain, `σc,90,d = Fc,90,d / (b · ℓef)`, at most `kc,90 · fc,90,d`.
///
/// # Source
///
/// EN 1995-1-1 6.1.5(1), equations 6.3 and 6.4, read in summaries.
pub fn bearing_stress(force: Force, breadth: Length, effective: Worked<Length>) -> Worked<Stress> {
    let area = (given("b", breadth) * effective).step("Aef", ec5("6.1.5(1)", Seen::Secondary));
    (given("Fc,90,d", force) / area).step("σc,90,d", ec5("(6.4)", Seen::Secondary))
}

/// Compression strength at an angle to the grain,
/// `fc,α,d = fc,0,d / [fc,0,d/(kc,90 fc,90,d) sin²α + cos²α]`.
///
/// `degrees` is `α`, the angle between load and grain.
///
/// # Source
///
/// EN 1995-1-1 6.2.2, equation 6.16, read in a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `α` is outside 0 to 90 degrees.
pub fn strength_at_angle(
    along: Worked<Stress>,
    across: Worked<Stress>,
    kc90: Worked<Ratio>,
    degrees: f64,
) -> Result<Worked<Stress>, RuleError> {
    const CLAUSE: Citation = ec5("(6.16)", Seen::Secondary);
    let (sine, cosine) = sine_and_cosine("α", degrees, &CLAUSE)?;
    let spread = along.clone() / (kc90 * across) * sine.power(2.0) + cosine.power(2.0);
    finite("fc,α,d", (along / spread).step("fc,α,d", CLAUSE), &CLAUSE)
}
