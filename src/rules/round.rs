//! Round sections: the bar and the tube. Mechanics, the same for every standard.

use crate::derivation::{Worked, given, plain};
use crate::quantity::{Area, BendingMoment, Force, Length, SecondMomentOfArea, SectionModulus, Stress};
use crate::source::{Citation, Seen};
use std::f64::consts::PI;

const MECHANICS: Citation = Citation::new("mechanics of a round section", "", Seen::Memory);

/// Bending stress in a round bar, `σ = 32 M / (π d³)`.
pub fn bar_bending_stress(moment: BendingMoment, diameter: Length) -> Worked<Stress> {
    let d = || given("d", diameter);
    let modulus: Worked<SectionModulus> = (plain(PI) * d() * d() * d() / plain(32.0)).step("S", MECHANICS);
    (given("M", moment) / modulus).step("fb", MECHANICS)
}

/// Greatest shear stress in a round bar, `τ = 4 V / (3 A)`.
pub fn bar_shear_stress(shear: Force, diameter: Length) -> Worked<Stress> {
    let d = || given("d", diameter);
    let area: Worked<Area> = (plain(PI) * d() * d() / plain(4.0)).step("A", MECHANICS);
    (plain(4.0) * given("V", shear) / (plain(3.0) * area)).step("fv", MECHANICS)
}

/// Second moment of area of a round bar, `I = π d⁴ / 64`.
pub fn bar_second_moment(diameter: Length) -> Worked<SecondMomentOfArea> {
    let d = || given("d", diameter);
    (plain(PI) * d() * d() * d() * d() / plain(64.0)).step("I", MECHANICS)
}

/// A tube, by its outside diameter `D` and its wall `t`.
#[derive(Clone, Debug)]
pub struct Tube {
    /// `D`.
    pub outside: Length,
    /// `t`, the wall that counts.
    pub wall: Worked<Length>,
}

impl Tube {
    fn outside(&self) -> Worked<Length> {
        given("D", self.outside)
    }

    fn inside(&self) -> Worked<Length> {
        (self.outside() - plain(2.0) * self.wall.clone()).step("Di", MECHANICS)
    }

    /// `A = π (D² − Di²) / 4`.
    pub fn area(&self) -> Worked<Area> {
        let (o, i) = (self.outside(), self.inside());
        (plain(PI) * (o.clone() * o - i.clone() * i) / plain(4.0)).step("A", MECHANICS)
    }

    /// `I = π (D⁴ − Di⁴) / 64`.
    pub fn second_moment(&self) -> Worked<SecondMomentOfArea> {
        let fourth = |l: Worked<Length>| l.clone() * l.clone() * l.clone() * l;
        (plain(PI) * (fourth(self.outside()) - fourth(self.inside())) / plain(64.0)).step("I", MECHANICS)
    }

    /// Plastic section modulus, `Z = (D³ − Di³) / 6`.
    pub fn plastic_modulus(&self) -> Worked<SectionModulus> {
        let cube = |l: Worked<Length>| l.clone() * l.clone() * l;
        ((cube(self.outside()) - cube(self.inside())) / plain(6.0)).step("Z", MECHANICS)
    }
}
