//! Fasteners pulled straight out.

use super::connection::{Grain, wet_service};
use super::dowel::{Dowel, DowelKind};
use super::factors::{Conditions, Duration, Property, load_duration_of_connection, temperature};
use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::{inch, pound_force_per_inch};
use crate::quantity::{Force, Length, LineLoad, Ratio};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};

/// Reference withdrawal value `W` per inch of thread in side grain: `1800 G^(3/2) D^(3/4)` lb/in for
/// lag screws, `2850 G² D` lb/in for wood screws, `D` nominal in inches.
///
/// # Source
///
/// NDS 2018 12.2.1 and 12.2.2, equations 12.2-1 and 12.2-2: read in summaries; the first confirmed by
/// Table 12.2A in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `G` or `D` is not positive; [`RuleError::NotCovered`] for a bolt.
pub fn withdrawal(dowel: &Dowel, specific_gravity: Ratio) -> Result<Worked<LineLoad>, RuleError> {
    const LAG: Citation = nds("12.2.1", Seen::Secondary);
    const SCREW: Citation = nds("12.2.2", Seen::Secondary);
    positive("G", specific_gravity, &LAG)?;
    positive("D", dowel.diameter, &LAG)?;
    let g = given("G", specific_gravity);
    let d = given("D", dowel.diameter) / constant(inch(1.0));
    let per_inch = |v: f64| constant(pound_force_per_inch(v));
    let w = match dowel.kind {
        DowelKind::LagScrew => (per_inch(1800.0) * g.power(1.5) * d.power(0.75)).step("W", LAG),
        DowelKind::WoodScrew => (per_inch(2850.0) * g.power(2.0) * d).step("W", SCREW),
        DowelKind::Bolt => return Err(bolt()),
    };
    finite("W", w, &LAG)
}

/// Adjusted withdrawal resistance of one fastener, `W'p = W · CD · CM · Ct · Ceg · pt`.
///
/// `pt` is the length of thread in the main member, without a lag screw's tip.
///
/// # Source
///
/// NDS 2018 11.3.1 and 12.2: read in summaries; `Ceg = 0.75` for lag screws in end grain (12.5.2.1)
/// was read in a scan.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for a wood screw pulled from end grain, which 12.2.2.3 forbids, and
/// [`RuleError::OutOfRange`] when `pt` is not positive.
pub fn adjusted_withdrawal(
    dowel: &Dowel,
    w: Worked<LineLoad>,
    thread_in_main: Length,
    conditions: &Conditions,
    duration: Duration,
    grain: Grain,
) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = nds("11.3.1", Seen::Secondary);
    positive("pt", thread_in_main, &CLAUSE)?;
    let ceg = match (grain, dowel.kind) {
        (_, DowelKind::Bolt) => return Err(bolt()),
        (Grain::Side, _) => 1.0,
        (Grain::End, DowelKind::LagScrew) => 0.75,
        (Grain::End, DowelKind::WoodScrew) => {
            return Err(RuleError::not_covered(
                "a wood screw pulled out of end grain",
                "NDS 2018 12.2.2.3 forbids it: drive the screw into side grain, or hold the member another way",
            ));
        }
    };
    let ceg = plain(ceg).step("Ceg", nds("12.5.2", Seen::Secondary));
    let ct = temperature(Property::Shear, conditions.temperature, conditions.wet);
    let adjusted =
        (w * load_duration_of_connection(duration) * wet_service(conditions.wet) * ct * ceg).step("W'", CLAUSE);
    Ok((adjusted * given("pt", thread_in_main)).step("W'p", nds("12.2", Seen::Secondary)))
}

fn bolt() -> RuleError {
    RuleError::not_covered("withdrawal of a bolt", "head and nut hold it: the wood under its washers is what gives")
}
