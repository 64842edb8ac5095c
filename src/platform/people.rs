//! Who is on the platform, and what they lie on.

use crate::quantity::unit::{kilogram, metre, millimetre};
use crate::quantity::{Force, Length, Mass, weight_of};
use crate::tables::occupants::Segment;

/// A person.
#[derive(Clone, Debug, PartialEq)]
pub struct Person {
    /// Body mass.
    pub mass: Mass,
    /// Body length.
    pub stature: Length,
    /// Where the weight comes from, when a preset gave it.
    pub preset: Option<String>,
    /// The parts of the body lying down.
    pub segments: Vec<Segment>,
    /// Age in years, if the brief says it.
    pub age: Option<u8>,
}

/// How the sleepers lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Posture {
    /// Head to foot along the rails, side by side across them.
    AlongRails,
    /// Head to foot across the rails, side by side along them.
    AcrossRails,
}

/// What lies on the slats.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mattress {
    /// Thickness; zero for bare slats.
    pub thickness: Length,
    /// Mass; zero for bare slats.
    pub mass: Mass,
}

/// Below this body mass a sleeper is taken as a child who may jump. No source: a choice.
pub fn child_below() -> Mass {
    kilogram(60.0)
}

impl Person {
    /// A person of this mass; body length as given, or else a short one for the mass.
    ///
    /// Default: the median US man's 1.757 m (NHANES 2015–2016), or for a lighter body the length at
    /// which mass over length squared is 17 kg/m² (no source; a child's usual value). A shorter body
    /// is a more concentrated load.
    pub fn new(mass: Mass, stature: Option<Length>, preset: Option<String>, segments: Vec<Segment>) -> Person {
        let short = metre((mass.value / 17.0).sqrt());
        let stature = stature.unwrap_or(if short < metre(1.757) { short } else { metre(1.757) });
        Person { mass, stature, preset, segments, age: None }
    }

    /// Weight at standard gravity.
    pub fn weight(&self) -> Force {
        weight_of(self.mass)
    }

    /// Whether the jumping case is for this person.
    pub fn is_child(&self) -> bool {
        self.mass < child_below()
    }
}

impl Mattress {
    /// How far a load spreads to each side on its way down: one in two through half the thickness,
    /// at most 75 mm. No source: a model that credits the mattress with little.
    pub fn spread(&self) -> Length {
        let s = self.thickness / 4.0;
        if s > millimetre(75.0) { millimetre(75.0) } else { s }
    }
}
