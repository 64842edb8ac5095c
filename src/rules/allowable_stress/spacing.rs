//! Distances from ends, edges and each other, and pilot holes.

use super::dowel::{Dowel, DowelKind};
use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::inch;
use crate::quantity::{Length, Measured, Ratio, UnitSystem};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::WoodKind;

/// A distance around a fastener.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// To the member's end, when the load pulls the fastener towards it along the grain.
    EndPulled,
    /// To the member's end, when the load pushes the fastener away from it along the grain.
    EndPushed,
    /// To the member's end, when the load is across the grain.
    EndAcross,
    /// To the edge, when the load is along the grain.
    EdgeAlong,
    /// To the edge the load pushes towards, across the grain.
    EdgeLoaded,
    /// To the edge the load pushes away from, across the grain.
    EdgeUnloaded,
    /// Between fasteners in a row along the grain.
    RowAlong,
    /// Between fasteners in a row across the grain.
    RowAcross,
    /// Between rows, when the load is along the grain.
    BetweenAlong,
    /// Between rows, when the load is across the grain.
    BetweenAcross,
}

/// A distance that gives the full design value, and the least that is allowed at all.
#[derive(Clone, Debug)]
pub struct Distance {
    /// For `CΔ = 1`.
    pub full: Worked<Length>,
    /// Below this the joint is not covered.
    pub least: Worked<Length>,
}

const SMALL: Citation = nds("commentary Table C12.1.5.7", Seen::Memory);
const LARGE: Citation = nds("12.5.1", Seen::Memory);

/// The distance a fastener needs at a place.
///
/// `D < 1/4 in` (not prebored / prebored): end, pulled 15 D / 10 D; end, pushed or across 10 D / 5 D;
/// edge 2.5 D; in a row along the grain 15 D / 10 D, across it 10 D / 5 D; between rows 5 D / 3 D.
///
/// `D ≥ 1/4 in` (full / least): end, pulled 7 D / 3.5 D in softwood, 5 D / 2.5 D in hardwood; end,
/// pushed or across 4 D / 2 D; edge along 1.5 D; edge loaded 4 D, unloaded 1.5 D; in a row 4 D / 3 D;
/// between rows along 1.5 D, across 2.5 D for `ℓ/D ≤ 2`, 5 D for `ℓ/D ≥ 6`, `(5 ℓ + 10 D)/8` between.
///
/// `ℓ` is the lesser of the dowel's lengths in the two members.
///
/// # Source
///
/// `D < 1/4 in`: the NDS asks only that wood does not split (12.1.5.7); the numbers are its
/// commentary's, from memory. `D ≥ 1/4 in`: NDS 2018 12.5.1, Tables 12.5.1A to D, from memory; the
/// loaded edge was read in a discussion that quotes the table.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `D` or `ℓ` is not positive.
pub fn required_distance(
    dowel: &Dowel,
    place: Place,
    kind: WoodKind,
    prebored: bool,
    dowel_length: Length,
) -> Result<Distance, RuleError> {
    positive("D", dowel.diameter, &LARGE)?;
    positive("ℓ", dowel_length, &LARGE)?;
    let d = || given("D", dowel.diameter);
    let diameters = |n: f64, symbol: &'static str, citation: &Citation| (plain(n) * d()).step(symbol, citation.clone());
    if !dowel.is_large() {
        let (dry, bored) = match place {
            Place::EndPulled | Place::RowAlong => (15.0, 10.0),
            Place::EndPushed | Place::EndAcross | Place::RowAcross => (10.0, 5.0),
            Place::EdgeAlong | Place::EdgeLoaded | Place::EdgeUnloaded => (2.5, 2.5),
            Place::BetweenAlong | Place::BetweenAcross => (5.0, 3.0),
        };
        let full = diameters(if prebored { bored } else { dry }, "distance", &SMALL);
        return Ok(Distance { least: full.clone(), full });
    }
    let (full, least) = match (place, kind) {
        (Place::EndPulled, WoodKind::Softwood) => (7.0, 3.5),
        (Place::EndPulled, WoodKind::Hardwood) => (5.0, 2.5),
        (Place::EndPushed | Place::EndAcross, _) => (4.0, 2.0),
        (Place::EdgeAlong | Place::EdgeUnloaded | Place::BetweenAlong, _) => (1.5, 1.5),
        (Place::EdgeLoaded, _) => (4.0, 4.0),
        (Place::RowAlong | Place::RowAcross, _) => (4.0, 3.0),
        (Place::BetweenAcross, _) => {
            let full = between_rows(d(), given("ℓ", dowel_length)).step("distance", LARGE);
            return Ok(Distance { least: full.clone(), full });
        }
    };
    Ok(Distance { full: diameters(full, "distance", &LARGE), least: diameters(least, "least distance", &LARGE) })
}

fn between_rows(d: Worked<Length>, l: Worked<Length>) -> Worked<Length> {
    match (l.value / d.value).value {
        slender if slender <= 2.0 => plain(2.5) * d,
        slender if slender >= 6.0 => plain(5.0) * d,
        _ => (plain(5.0) * l + plain(10.0) * d) / plain(8.0),
    }
}

/// Geometry factor `CΔ` of one distance: 1.0 where the full distance is kept, else the actual over the
/// full one. A joint takes the least over all its distances.
///
/// # Source
///
/// NDS 2018 12.5.1.2, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when the distance is less than the least allowed.
pub fn geometry(actual: Length, distance: &Distance) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = nds("12.5.1.2", Seen::Memory);
    // Distances given as exactly so many diameters must not fail in the sixteenth digit.
    let kept = actual.value >= distance.least.value.value * (1.0 - 1e-9);
    if !kept {
        let least = distance.least.value.measure();
        let allowed = format!("at least {} ({})", least.show(UnitSystem::Us), least.show(UnitSystem::Metric));
        return Err(RuleError::out_of_range("distance", actual, allowed, CLAUSE));
    }
    Ok((given("actual distance", actual) / distance.full.clone()).min(plain(1.0)).step("CΔ", CLAUSE))
}

/// The hole for a bolt of diameter `D`: at least `D + 1/32 in`, at most `D + 1/16 in`.
///
/// # Source
///
/// NDS 2018 12.1.3.2, read in a summary.
pub fn bolt_hole(diameter: Length) -> [Worked<Length>; 2] {
    const CLAUSE: Citation = nds("12.1.3.2", Seen::Secondary);
    [1.0 / 32.0, 1.0 / 16.0].map(|wider| (given("D", diameter) + constant(inch(wider))).step("hole", CLAUSE))
}

/// The load a pilot hole is drilled for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PilotFor {
    /// Withdrawal.
    Withdrawal,
    /// Load across the fastener.
    Lateral,
}

/// Pilot hole diameters.
#[derive(Clone, Debug)]
pub struct PilotHole {
    /// For the shank; `None` where the clause asks for none.
    pub shank: Option<Worked<Length>>,
    /// For the threaded part, smallest and largest; `None` where the hole may be left out.
    pub thread: Option<(Worked<Length>, Worked<Length>)>,
}

/// Pilot hole for a screw by the wood's specific gravity `G`.
///
/// | | `G > 0.6` | `0.5 < G ≤ 0.6` | `G ≤ 0.5` |
/// |---|---|---|---|
/// | wood screw, withdrawal | 0.9 Dr | 0.7 Dr | may be left out |
/// | wood screw, lateral | shank D, thread Dr | 7/8 of each | 7/8 of each |
/// | lag screw, thread | 0.65 to 0.85 D | 0.60 to 0.75 D | 0.40 to 0.70 D |
///
/// A lag screw's shank hole is `D`; a bolt has [`bolt_hole`].
///
/// # Source
///
/// NDS 2018 12.1.4.2 and 12.1.5, from memory.
pub fn pilot_hole(dowel: &Dowel, specific_gravity: Ratio, load: PilotFor) -> PilotHole {
    const LAG: Citation = nds("12.1.4.2", Seen::Memory);
    const SCREW: Citation = nds("12.1.5", Seen::Memory);
    let g = specific_gravity.value;
    let of = |factor: f64, symbol: &'static str, diameter: Length, citation: &Citation| {
        (plain(factor) * given(symbol, diameter)).step("hole", citation.clone())
    };
    let (d, dr) = (dowel.diameter, dowel.root_diameter);
    let same = |hole: Worked<Length>| Some((hole.clone(), hole));
    match (dowel.kind, load) {
        (DowelKind::Bolt, _) => {
            let [_, most] = bolt_hole(d);
            PilotHole { shank: Some(most), thread: None }
        }
        (DowelKind::LagScrew, _) => {
            let (low, high) = match g {
                g if g > 0.6 => (0.65, 0.85),
                g if g > 0.5 => (0.60, 0.75),
                _ => (0.40, 0.70),
            };
            let thread = Some((of(low, "D", d, &LAG), of(high, "D", d, &LAG)));
            PilotHole { shank: Some(of(1.0, "D", d, &LAG)), thread }
        }
        (DowelKind::WoodScrew, PilotFor::Withdrawal) => {
            let thread = match g {
                g if g > 0.6 => same(of(0.9, "Dr", dr, &SCREW)),
                g if g > 0.5 => same(of(0.7, "Dr", dr, &SCREW)),
                _ => None,
            };
            PilotHole { shank: None, thread }
        }
        (DowelKind::WoodScrew, PilotFor::Lateral) => {
            let factor = if g > 0.6 { 1.0 } else { 0.875 };
            PilotHole { shank: Some(of(factor, "D", d, &SCREW)), thread: same(of(factor, "Dr", dr, &SCREW)) }
        }
    }
}
