//! Splitting of a member by a connection that pulls across its grain.

use super::section::Section;
use super::{ec5, in_millimetres};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::newton;
use crate::quantity::{Force, Length};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::WoodKind;

/// Characteristic splitting capacity, `F90,Rk = 14 b w sqrt[he / (1 − he/h)]` (N, mm), with `w = 1` for
/// everything but punched metal plates.
///
/// Its design value is to be at least the larger of the shear forces on either side of the
/// connection.
///
/// | symbol | |
/// |---|---|
/// | `he` | from the loaded edge to the centre of the farthest fastener |
/// | `b`, `h` | breadth and depth of the member |
///
/// # Source
///
/// EN 1995-1-1 8.1.4(3), equations 8.2 and 8.4, read in summaries.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for hardwood, [`RuleError::OutOfRange`] when `he` is not between 0 and `h`.
pub fn splitting_capacity(
    kind: WoodKind,
    section: &Section,
    edge_distance: Length,
) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = ec5("(8.4)", Seen::Secondary);
    if kind == WoodKind::Hardwood {
        return Err(RuleError::not_covered(
            "splitting of hardwood by a connection",
            "EN 1995-1-1 8.1.4(3) is for softwood only: carry the load from below instead",
        ));
    }
    positive("b", section.breadth, &CLAUSE)?;
    positive("h", section.depth, &CLAUSE)?;
    positive("he", edge_distance, &CLAUSE)?;
    if edge_distance >= section.depth {
        return Err(RuleError::out_of_range("he", edge_distance, "less than h", CLAUSE));
    }
    let he = given("he", edge_distance);
    let depth = in_millimetres(he.clone()) / (plain(1.0) - he / section.h());
    let force = constant(newton(14.0)) * in_millimetres(section.b()) * depth.root();
    finite("F90,Rk", force.step("F90,Rk", CLAUSE), &CLAUSE)
}
