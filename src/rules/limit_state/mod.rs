//! Limit state design of timber after Eurocode 5 (EN 1995-1-1:2004 with A1:2008 and A2:2014), with
//! the load combinations of EN 1990.
//!
//! Functions use the standard's symbols. The text of the standard was not available when they were
//! written: every clause says whether it was read in somebody's summary ([`Seen::Secondary`]) or
//! recalled ([`Seen::Memory`]), and the tests say which published tables and worked examples confirm
//! it. The second generation of the standard numbers its service classes differently; nothing here
//! is to be mixed with it.
//!
//! | module | clauses |
//! |---|---|
//! | [`section`] | properties of a rectangle |
//! | [`combination`] | EN 1990 6.4.3, 6.5.3, annex A1 |
//! | [`design`] | `kmod` 3.1.3, `kdef` 3.1.4, `γM` 2.4.1, `Xd` 2.4.1 |
//! | [`size`] | `kh` 3.2 to 3.4, `ksys` 6.6 |
//! | [`bending`] | 6.1.6 |
//! | [`stability`] | lateral torsional buckling, 6.3.3 |
//! | [`axial`] | tension and compression along the grain, 6.1.2 and 6.1.4 |
//! | [`column`](mod@column) | 6.3.2 |
//! | [`combined`] | 6.1.6, 6.2.3, 6.2.4, 6.3.2, 6.3.3 |
//! | [`bearing`] | 6.1.5, 6.2.2 |
//! | [`shear`] | 6.1.7, 6.5.2 |
//! | [`splitting`] | 8.1.4 |
//! | [`deflection`] | 2.2.3, 2.3.2.2, 7.2 |
//! | [`slip`] | 7.1, 2.2.2 |
//! | [`dowel`] | fasteners, embedment, yield moment: 8.3.1, 8.5.1, 8.7.1 |
//! | [`johansen`] | 8.2.2 |
//! | [`group`] | `nef`, 8.1.2, 8.3.1.1, 8.5.1.1 |
//! | [`screw`] | axially loaded screws, 8.7.2 and 8.7.3 |
//! | [`spacing`] | Tables 8.2, 8.4 and 8.6, thickness and predrilling |
//! | [`steel`] | steel pipe: EN 1993-1-1 6.2.5, 6.2.6 |
//! | [`timber`] | design strengths of a strength class behind one face |

pub mod axial;
pub mod bearing;
pub mod bending;
pub mod bolt;
pub mod column;
pub mod combination;
pub mod combined;
pub mod deflection;
pub mod design;
pub mod dowel;
pub mod group;
pub mod johansen;
pub mod screw;
pub mod section;
pub mod shear;
pub mod size;
pub mod slip;
pub mod spacing;
pub mod splitting;
pub mod stability;
pub mod steel;
pub mod timber;

use crate::derivation::{Worked, constant, given};
use crate::quantity::unit::millimetre;
use crate::quantity::{Length, MassDensity, Measured, Ratio, number};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use uom::si::mass_density::kilogram_per_cubic_meter;

/// A clause of Eurocode 5, first generation, as amended.
const fn ec5(locator: &'static str, seen: Seen) -> Citation {
    Citation::new("EN 1995-1-1:2004+A2:2014", locator, seen)
}

/// A length as its number of millimetres, for the formulas that are not dimensionally consistent.
fn in_millimetres(length: Worked<Length>) -> Worked<Ratio> {
    length / constant(millimetre(1.0))
}

/// A density as its number of kilograms in a cubic metre.
fn in_kilograms(symbol: &'static str, density: MassDensity) -> Worked<Ratio> {
    given(symbol, density) / constant(MassDensity::new::<kilogram_per_cubic_meter>(1.0))
}

/// Refuses negative values and what is no number.
fn not_negative<Q: Measured>(symbol: &'static str, value: Q, citation: &Citation) -> Result<(), RuleError> {
    if value.si() >= 0.0 {
        Ok(())
    } else {
        Err(RuleError::out_of_range(symbol, value, "zero or more", citation.clone()))
    }
}

/// Sine and cosine of an angle between 0 and 90 degrees, exact at both ends.
fn sine_and_cosine(
    symbol: &'static str,
    degrees: f64,
    citation: &Citation,
) -> Result<(Worked<Ratio>, Worked<Ratio>), RuleError> {
    if !(0.0..=90.0).contains(&degrees) {
        return Err(RuleError::out_of_range(symbol, number(degrees), "from 0 to 90 degrees", citation.clone()));
    }
    let radians = degrees.to_radians();
    let cosine = if degrees == 90.0 { 0.0 } else { radians.cos() };
    Ok((given(format!("sin{symbol}"), number(radians.sin())), given(format!("cos{symbol}"), number(cosine))))
}
