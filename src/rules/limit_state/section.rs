//! The rectangle.

use super::ec5;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Area, Length, SecondMomentOfArea, SectionModulus};
use crate::source::{Citation, Seen};

const CLAUSE: Citation = ec5("1.6", Seen::Memory);

/// The two ways a member can bend or buckle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Axis {
    /// `y`: it moves in the direction of its depth.
    Y,
    /// `z`: it moves in the direction of its breadth.
    Z,
}

/// A rectangular section as it stands under its load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// `b`, across the load.
    pub breadth: Length,
    /// `h`, in the direction of the load.
    pub depth: Length,
}

impl Section {
    /// `b`, ready to enter a calculation.
    pub fn b(&self) -> Worked<Length> {
        given("b", self.breadth)
    }

    /// `h`, ready to enter a calculation.
    pub fn h(&self) -> Worked<Length> {
        given("h", self.depth)
    }

    /// The dimension in the direction of movement: `h` for [`Axis::Y`], `b` for [`Axis::Z`].
    pub fn along(&self, axis: Axis) -> Worked<Length> {
        match axis {
            Axis::Y => self.h(),
            Axis::Z => self.b(),
        }
    }

    fn across(&self, axis: Axis) -> Worked<Length> {
        match axis {
            Axis::Y => self.b(),
            Axis::Z => self.h(),
        }
    }

    /// Area, `A = b · h`.
    ///
    /// # Source
    ///
    /// Geometry; symbol after EN 1995-1-1 1.6, from memory.
    pub fn area(&self) -> Worked<Area> {
        (self.b() * self.h()).step("A", CLAUSE)
    }

    /// Section modulus, `Wy = b · h² / 6` or `Wz = h · b² / 6`.
    ///
    /// # Source
    ///
    /// Geometry; symbol after EN 1995-1-1 1.6, from memory.
    pub fn section_modulus(&self, axis: Axis) -> Worked<SectionModulus> {
        let symbol = if axis == Axis::Y { "Wy" } else { "Wz" };
        (self.across(axis) * self.along(axis) * self.along(axis) / plain(6.0)).step(symbol, CLAUSE)
    }

    /// Second moment of area, `Iy = b · h³ / 12` or `Iz = h · b³ / 12`.
    ///
    /// # Source
    ///
    /// Geometry; symbol after EN 1995-1-1 1.6, from memory.
    pub fn second_moment(&self, axis: Axis) -> Worked<SecondMomentOfArea> {
        let symbol = if axis == Axis::Y { "Iy" } else { "Iz" };
        let cube = self.along(axis) * self.along(axis) * self.along(axis);
        (self.across(axis) * cube / plain(12.0)).step(symbol, CLAUSE)
    }

    /// Radius of gyration, `iy = h / sqrt(12)` or `iz = b / sqrt(12)`.
    ///
    /// # Source
    ///
    /// Geometry; symbol after EN 1995-1-1 1.6, from memory.
    pub fn radius_of_gyration(&self, axis: Axis) -> Worked<Length> {
        let symbol = if axis == Axis::Y { "iy" } else { "iz" };
        (self.along(axis) / plain(12.0).root()).step(symbol, CLAUSE)
    }
}
