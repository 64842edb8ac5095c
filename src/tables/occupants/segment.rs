//! The parts of a body lying on its back.

use serde::Deserialize;

use crate::quantity::{Length, Ratio};
use crate::source::Provenance;
use crate::tables::row::{Row, Units, Wrong, ratio};

/// Whose segments.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Body {
    /// A man's.
    Man,
    /// A woman's.
    Woman,
}

/// A part of a body lying on its back, limbs in pairs.
#[derive(Clone, Debug, PartialEq)]
pub struct Segment {
    /// Whose.
    pub body: Body,
    /// Such as `thighs`.
    pub name: String,
    /// Where it begins, as a fraction of stature from the crown.
    pub from: Ratio,
    /// Where it ends.
    pub to: Ratio,
    /// Its share of body mass; a body's shares sum to 1.
    pub mass: Ratio,
    /// Contact width across the bed.
    pub width: Length,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedSegment {
    body: Body,
    name: String,
    from: f64,
    to: f64,
    mass: f64,
    width: f64,
}

impl Row for Segment {
    const ARRAY: &'static str = "segment";
    type Printed = PrintedSegment;

    fn new(p: PrintedSegment, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.from >= p.to {
            return Err(Wrong::new(
                "the segment ends before it begins",
                "from and to are fractions of stature from the crown",
            ));
        }
        Ok(Segment {
            body: p.body,
            name: p.name,
            from: ratio("from", p.from, (0.0, 1.0))?,
            to: ratio("to", p.to, (0.0, 1.0))?,
            mass: ratio("mass", p.mass, (0.005, 0.6))?,
            width: units.length("width", p.width, (2.0, 40.0))?,
            provenance,
        })
    }

    fn key(&self) -> String {
        format!("{} of a {:?}", self.name, self.body).to_lowercase()
    }
}
