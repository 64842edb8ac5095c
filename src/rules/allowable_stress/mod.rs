//! Allowable stress design of wood after the National Design Specification (NDS 2018), and the
//! ASTM D245 road from clear-wood averages for wood that has no grade.
//!
//! Functions stand in the standard's order and use its symbols. The text of the NDS was not
//! available when they were written: every clause says whether it was read in somebody's summary
//! ([`Seen::Secondary`]) or recalled ([`Seen::Memory`]), and the tests say which published tables
//! and worked examples confirm it.
//!
//! | module | clauses |
//! |---|---|
//! | [`section`] | properties of a rectangle, 3.1 |
//! | [`factors`] | `CD` 2.3.2, `Ct` 2.3.3, `CM` `Cr` `Ci` 4.3 |
//! | [`size`] | `CF` and `Cfu`, 4.3.6 and 4.3.7 |
//! | [`bending`] | 3.3 |
//! | [`shear`] | 3.4 |
//! | [`deflection`] | 3.5 |
//! | [`column`](mod@column) | 3.6, 3.7, appendix G |
//! | [`combined`] | 3.9 |
//! | [`bearing`] | 3.10 |
//! | [`connection`] | 11.3, 12.1, 12.4 |
//! | [`withdrawal`] | 12.2 |
//! | [`dowel`] | 12.3 |
//! | [`spacing`] | 12.1.4, 12.1.5, 12.5 |
//! | [`steel`] | steel pipe: AISC 360 B4.2, F8, G5 |
//! | [`strength_ratio`] | ASTM D245 knots and slope of grain |
//! | [`ungraded`] | ASTM D2555 and D245, clear wood to allowable stress |
//! | [`wood`] | both roads behind one face |

pub mod bearing;
pub mod bending;
pub mod column;
pub mod combined;
pub mod connection;
pub mod deflection;
pub mod dowel;
pub mod factors;
mod measured;
pub mod section;
pub mod shear;
pub mod size;
pub mod spacing;
pub mod steel;
pub mod strength_ratio;
pub mod ungraded;
pub mod withdrawal;
pub mod wood;

use crate::source::{Citation, Seen};

/// A clause of the NDS, edition 2018.
const fn nds(locator: &'static str, seen: Seen) -> Citation {
    Citation::new("NDS 2018", locator, seen)
}
