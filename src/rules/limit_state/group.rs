//! Fasteners in a row along the grain.

use super::dowel::Fastener;
use super::ec5;
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Length, Ratio, number};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};

/// A row of fasteners along the grain, not staggered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// `n`, fasteners in the row.
    pub count: u32,
    /// `a1`, centre to centre along the grain.
    pub spacing: Length,
    /// Whether holes were drilled for them.
    pub predrilled: bool,
    /// `α`, angle between force and grain in degrees.
    pub degrees: f64,
}

/// Effective number of fasteners `nef` of a row along the grain.
///
/// Nails up to 8 mm and screws up to 6 mm: `nef = n^kef` with `kef` 1.0 at `a1 ≥ 14 d`, 0.85 at `10 d`,
/// 0.7 at `7 d`, 0.5 at `4 d` (predrilled only), straight between; taken for every force that has a part
/// along the grain. Bolts, dowels and thicker screws and nails: `nef = min[n; n^0.9 (a1/(13 d))^0.25]`
/// along the grain, `n` across it, straight between.
///
/// # Source
///
/// EN 1995-1-1 8.3.1.1(8), Table 8.1, and 8.5.1.1(4) and (5), equations 8.17 and 8.34, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the row is empty, `d` is not positive, `α` is outside 0 to 90
/// degrees, or `a1` is closer than the table goes: `7 d`, predrilled `4 d`.
pub fn effective_number(fastener: &Fastener, row: &Row) -> Result<Worked<Ratio>, RuleError> {
    const NAIL: Citation = ec5("(8.17)", Seen::Memory);
    const BOLT: Citation = ec5("(8.34)", Seen::Memory);
    positive("d", fastener.diameter, &NAIL)?;
    let n = given("n", number(f64::from(row.count)));
    positive("n", n.value, &NAIL)?;
    if !(0.0..=90.0).contains(&row.degrees) {
        return Err(RuleError::out_of_range("α", number(row.degrees), "from 0 to 90 degrees", NAIL));
    }
    let bolts = fastener.follows_bolts();
    if row.count == 1 || (row.degrees == 90.0 && !bolts) {
        return Ok(n.step("nef", if bolts { BOLT } else { NAIL }));
    }
    positive("a1", row.spacing, &NAIL)?;
    if !bolts {
        let kef = exponent(row.spacing, fastener.diameter, row.predrilled)?;
        return Ok(n.power(kef.value.value).step("nef", NAIL));
    }
    let crowding = given("a1", row.spacing) / (plain(13.0) * given("d", fastener.diameter));
    let along = n.clone().min(n.clone().power(0.9) * crowding.power(0.25)).step("nef,0", BOLT);
    let turned = given("α", number(row.degrees)) / plain(90.0);
    Ok((along.clone() + (n - along) * turned).step("nef", BOLT))
}

/// `kef` of Table 8.1.
fn exponent(spacing: Length, diameter: Length, predrilled: bool) -> Result<Worked<Ratio>, RuleError> {
    const TABLE: Citation = ec5("Table 8.1", Seen::Memory);
    const POINTS: [(f64, f64); 4] = [(4.0, 0.5), (7.0, 0.7), (10.0, 0.85), (14.0, 1.0)];
    let points = if predrilled { &POINTS[..] } else { &POINTS[1..] };
    let at = (spacing / diameter).value;
    let least = points.first().map_or(0.0, |p| p.0);
    // A spacing of exactly so many diameters must not fail in the sixteenth digit.
    let far_enough = at >= least * (1.0 - 1e-9);
    if !far_enough {
        let allowed = if predrilled { "at least 4 d" } else { "at least 7 d, or 4 d with predrilled holes" };
        return Err(RuleError::out_of_range("a1", spacing, allowed, TABLE));
    }
    let kef = points.windows(2).find(|w| at <= w[1].0).map_or(1.0, |w| {
        let ((x0, y0), (x1, y1)) = (w[0], w[1]);
        y0 + (y1 - y0) * (at.max(x0) - x0) / (x1 - x0)
    });
    Ok(plain(kef).step("kef", TABLE))
}
