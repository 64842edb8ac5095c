//! The rectangle.

use super::nds;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Area, Length, SecondMomentOfArea, SectionModulus};
use crate::source::{Citation, Seen};

const CLAUSE: Citation = nds("3.1.3", Seen::Memory);

/// A rectangular section as it stands under its load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// `b`, across the load.
    pub breadth: Length,
    /// `d`, in the direction of the load.
    pub depth: Length,
}

impl Section {
    /// `b`, ready to enter a calculation.
    pub fn b(&self) -> Worked<Length> {
        given("b", self.breadth)
    }

    /// `d`, ready to enter a calculation.
    pub fn d(&self) -> Worked<Length> {
        given("d", self.depth)
    }

    /// Area of the rectangle, `A = b · d`.
    ///
    /// # Source
    ///
    /// Geometry; the NDS takes dressed dimensions (3.1.3, from memory).
    pub fn area(&self) -> Worked<Area> {
        (self.b() * self.d()).step("A", CLAUSE)
    }

    /// Section modulus of the rectangle about the axis across the load, `S = b · d² / 6`.
    ///
    /// # Source
    ///
    /// Geometry; NDS 3.3.2.2 (from memory).
    pub fn section_modulus(&self) -> Worked<SectionModulus> {
        (self.b() * self.d() * self.d() / plain(6.0)).step("S", nds("3.3.2.2", Seen::Memory))
    }

    /// Second moment of area about the axis across the load, `I = b · d³ / 12`.
    ///
    /// # Source
    ///
    /// Geometry; NDS 3.3.2.2 (from memory).
    pub fn second_moment(&self) -> Worked<SecondMomentOfArea> {
        (self.b() * self.d() * self.d() * self.d() / plain(12.0)).step("I", nds("3.3.2.2", Seen::Memory))
    }
}
