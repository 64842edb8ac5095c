//! What several tests need.

use slatwright::derivation::Worked;
use slatwright::quantity::unit::{METRE_PER_INCH, NEWTON_PER_POUND_FORCE, PASCAL_PER_PSI, inch, psi};
use slatwright::quantity::{Force, Length, Ratio, Stress, number};
use slatwright::rules::allowable_stress::section::Section;
use slatwright::rules::allowable_stress::wood::{Face, Piece, Wood};
use slatwright::tables::lumber::{ReferenceValues, SupplementTable};

/// Asserts that a value equals a printed number to half a unit in its last printed place.
#[track_caller]
pub(crate) fn agrees(got: f64, printed: &str) {
    let places = printed.split_once('.').map_or(0, |(_, after)| after.len());
    let want: f64 = printed.parse().expect("a printed number");
    let half = 0.5 * 10f64.powi(-i32::try_from(places).expect("few places"));
    // A tie, such as 931.5 printed as 932, is within half a unit but for the binary fraction.
    assert!((got - want).abs() <= half * (1.0 + 1e-6), "{got} is not {printed}");
}

pub(crate) fn in_psi(v: &Worked<Stress>) -> f64 {
    v.value.value / PASCAL_PER_PSI
}
pub(crate) fn in_pounds(v: &Worked<Force>) -> f64 {
    v.value.value / NEWTON_PER_POUND_FORCE
}
pub(crate) fn in_inches(v: Length) -> f64 {
    v.value / METRE_PER_INCH
}

/// A section in inches.
pub(crate) fn section(breadth: f64, depth: f64) -> Section {
    Section { breadth: inch(breadth), depth: inch(depth) }
}

/// Lumber on edge: nominal and dressed thickness by width in inches.
pub(crate) fn on_edge(nominal: (f64, f64), breadth: f64, depth: f64) -> Piece {
    Piece { section: section(breadth, depth), nominal, face: Face::Edgewise }
}

/// Reference values in psi in the order `Fb Ft Fv Fc⊥ Fc E Emin`, and `G`.
pub(crate) fn values([fb, ft, fv, fcp, fc, e, emin]: [f64; 7], g: f64) -> ReferenceValues {
    ReferenceValues {
        bending: psi(fb),
        tension: psi(ft),
        shear: psi(fv),
        compression_perpendicular: psi(fcp),
        compression_parallel: psi(fc),
        modulus: psi(e),
        modulus_for_stability: psi(emin),
        specific_gravity: ratio(g),
    }
}

pub(crate) fn ratio(v: f64) -> Ratio {
    number(v)
}

/// Dimension lumber of a grade.
pub(crate) fn dimension(grade: &str, values: ReferenceValues) -> Wood {
    Wood::Graded { values, table: SupplementTable::DimensionLumber, grade: grade.into() }
}
