//! How far a screwed joint slips: the stiffness of a screw between two pieces of wood.

use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::{millimetre, newton_per_metre};
use crate::quantity::{Length, MassDensity, SpringStiffness};
use crate::source::{Citation, Seen};
use uom::si::mass_density::kilogram_per_cubic_meter;

/// Slip modulus of one screw per shear plane, `Kser = ρm^1.5 · d / 23` (N/mm, kg/m³, mm), with
/// `ρm = sqrt(ρ1 · ρ2)` between two woods.
///
/// | symbol | meaning |
/// |---|---|
/// | `ρ1`, `ρ2` | mean densities of the two pieces |
/// | `d` | diameter |
///
/// # Source
///
/// EN 1995-1-1:2004 Table 7.1 and 7.1(2). The US specification gives no slip for screws, and the
/// stiffness only shares load between neighbouring screws; it enters no capacity.
pub fn slip_modulus(first: MassDensity, second: MassDensity, diameter: Length) -> Worked<SpringStiffness> {
    let unit = || constant(MassDensity::new::<kilogram_per_cubic_meter>(1.0));
    let ratio = given("ρ1", first) / unit() * (given("ρ2", second) / unit());
    let d = given("d", diameter) / constant(millimetre(1.0));
    // (ρ1·ρ2)^0.75 is (sqrt(ρ1·ρ2))^1.5.
    let number = ratio.power(0.75) * d / plain(23.0);
    (number * constant(newton_per_metre(1000.0)))
        .step("Kser", Citation::new("EN 1995-1-1:2004", "Table 7.1", Seen::Memory))
}
