//! How much stiffness scatters among boards of one name.

use crate::platform::{Stick, WoodChoice};
use crate::source::{Citation, Seen};
use crate::tables::Tables;
use crate::tables::clear_wood::Property;

/// How many standard deviations from the mean 5 in 100 lie beyond, for a normal distribution.
const FIVE_IN_A_HUNDRED: f64 = 1.645;

/// Coefficient of variation of the modulus of visually graded lumber: NDS 2018 appendix D and Table F1, from memory.
const GRADED: f64 = 0.25;

/// The stiffness of soft and of stiff boards beside the table's mean.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    /// The wood.
    pub wood: String,
    /// What 95 of 100 boards exceed, over the mean.
    pub low: f64,
    /// What 5 of 100 exceed, over the mean.
    pub high: f64,
    /// Where that is from.
    pub source: Citation,
}

impl Spread {
    /// Of a stick's wood. A measured modulus stands for one board: others scatter about it as their kind does.
    pub(crate) fn of(stick: &Stick) -> Spread {
        let by = |cov: f64, source| Spread {
            wood: stick.wood.name(),
            low: 1.0 - FIVE_IN_A_HUNDRED * cov,
            high: 1.0 + FIVE_IN_A_HUNDRED * cov,
            source,
        };
        match &stick.wood {
            WoodChoice::Graded { .. } => {
                by(GRADED, Citation::new("NDS 2018", "appendix D, COV of E 0.25 for visual grades", Seen::Memory))
            }
            WoodChoice::Ungraded { .. } => {
                let row = Tables::embedded().clear_wood().variation(Property::Modulus);
                let seen = row.provenance.seen;
                by(row.coefficient.value, Citation::new("Wood Handbook", "Table 5-6, COV of E for clear wood", seen))
            }
            WoodChoice::Class { values, provenance, .. } => {
                let low = (values.modulus_fifth / values.modulus).value;
                let source = Citation::new("EN 338", "E0,05 over E0,mean, and as far above the mean", provenance.seen);
                Spread { wood: stick.wood.name(), low, high: 2.0 - low, source }
            }
        }
    }
}
