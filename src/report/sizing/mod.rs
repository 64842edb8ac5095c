//! What to make a member of, as text, as JSON and as rows.

mod json;
mod text;

pub use json::{ChoiceJson, CuttingJson, LeftOutJson, PurchaseJson, SizingJson, SticksJson, csv, json, schema};
pub use text::{nothing, text};

use crate::brief::LayWord;
use crate::check::Verdict;
use crate::choose::{Choice, Made, Part, Purchase, Sizing};
use crate::platform::Platform;
use crate::quantity::unit::inch;
use crate::quantity::{UnitSystem, length_for_builder, significant};
use uom::si::f64::Volume;

/// The answer and what goes with it.
#[derive(Clone, Copy, Debug)]
pub struct Answer<'a> {
    /// The platform as drawn.
    pub platform: &'a Platform,
    /// What was found.
    pub sizing: &'a Sizing,
    /// What to buy for the first choice that passes.
    pub purchase: Option<&'a Purchase>,
    /// What was taken for granted to make the choices.
    pub notes: &'a [String],
}

impl Answer<'_> {
    /// Whether the brief passes as it is.
    pub fn drawn_passes(&self) -> bool {
        self.sizing.drawn.carries == Verdict::Pass
    }
}

/// Size for a reader: a stock size, or a section as built.
fn size_words(m: &Made, units: UnitSystem) -> String {
    match m {
        Made::Sticks { section: [t, w], stock, .. } => {
            let (t, w) = (length_for_builder(*t, units), length_for_builder(*w, units));
            let unit = if units == UnitSystem::Us { " in" } else { " mm" };
            let section = format!("{} x {w}", t.strip_suffix(unit).unwrap_or(&t));
            match stock {
                Some(s) if units == UnitSystem::Us => format!("{s} ({section})"),
                _ => section,
            }
        }
        Made::Screws { screw, .. } => screw.clone(),
    }
}

/// A choice in the middle of a sentence.
fn words(c: &Choice, part: Part, units: UnitSystem) -> String {
    match &c.made {
        Made::Sticks { wood, lay, pieces, gap, beam, .. } => {
            let size = size_words(&c.made, units);
            if part == Part::Rail {
                return format!("{size} {wood}");
            }
            let lies = if *lay == LayWord::Flat { "flat" } else { "on edge" };
            let beam = if *beam { ", over a centre beam" } else { "" };
            let gap = length_for_builder(*gap, units);
            format!("{} of {size} {wood} laid {lies}, {gap} apart{beam}", pieces.0)
        }
        Made::Screws { screw, pitch, count, .. } => {
            format!("{count} of {screw}, at most {} apart", length_for_builder(*pitch, units))
        }
    }
}

/// How much wood.
fn volume_words(v: Volume, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => {
            let foot = inch(12.0);
            format!("{} ft³", significant((v / (foot * foot * foot)).value, 3))
        }
        UnitSystem::Metric => format!("{} m³", significant(v.value, 3)),
    }
}

/// Board feet of so many sticks: nominal thickness and width in inches times feet, over twelve. No source
/// but the trade's own measure.
fn board_feet(m: &Made, purchase: &Purchase) -> Option<f64> {
    let Made::Sticks { nominal: (t, w), .. } = m else { return None };
    let feet: f64 = purchase.least.iter().map(|(l, n)| (*l / inch(12.0)).value * *n as f64).sum();
    Some(t * w * feet / 12.0)
}

/// Volume of what is bought, as it measures.
fn bought(m: &Made, purchase: &Purchase) -> Option<Volume> {
    let Made::Sticks { section: [t, w], .. } = m else { return None };
    Some(purchase.least.iter().map(|(l, n)| *t * *w * *l * *n as f64).sum())
}
