//! Distances between fasteners and to ends and edges, and the thickness that does not split.

use super::dowel::{Fastener, FastenerKind, needs_predrilling};
use super::{ec5, in_kilograms, in_millimetres, sine_and_cosine};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::millimetre;
use crate::quantity::{Length, MassDensity, Ratio};
use crate::rules::RuleError;
use crate::rules::error::positive;
use crate::source::{Citation, Seen};
use uom::si::mass_density::kilogram_per_cubic_meter;

/// A distance around a fastener loaded across its axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Place {
    /// `a1`, in a row along the grain.
    AlongGrain,
    /// `a2`, across the grain.
    AcrossGrain,
    /// `a3,t`, to the end the force points to.
    LoadedEnd,
    /// `a3,c`, to the end the force points away from.
    UnloadedEnd,
    /// `a4,t`, to the edge the force points to.
    LoadedEdge,
    /// `a4,c`, to the edge the force points away from.
    UnloadedEdge,
}

impl Place {
    fn symbol(self) -> &'static str {
        match self {
            Place::AlongGrain => "a1",
            Place::AcrossGrain => "a2",
            Place::LoadedEnd => "a3,t",
            Place::UnloadedEnd => "a3,c",
            Place::LoadedEdge => "a4,t",
            Place::UnloadedEdge => "a4,c",
        }
    }
}

/// Least distance of a fastener loaded across its axis.
///
/// Nails up to 8 mm and screws up to 6 mm (`c = |cos α|`, `s = |sin α|`; of pairs the second is for
/// `d ≥ 5 mm`):
///
/// | | `ρk ≤ 420` | `420 < ρk < 500` | predrilled |
/// |---|---|---|---|
/// | `a1` | (5 + 5c) d, (5 + 7c) d | (7 + 8c) d | (4 + c) d |
/// | `a2` | 5 d | 7 d | (3 + s) d |
/// | `a3,t` | (10 + 5c) d | (15 + 5c) d | (7 + 5c) d |
/// | `a3,c` | 10 d | 15 d | 7 d |
/// | `a4,t` | (5 + 2s) d, (5 + 5s) d | (7 + 2s) d, (7 + 5s) d | (3 + 2s) d, (3 + 4s) d |
/// | `a4,c` | 5 d | 7 d | 3 d |
///
/// Bolts and thicker screws and nails: `a1` (4 + c) d, `a2` 4 d, `a3,t` max(7 d; 80 mm), `a3,c`
/// max((1 + 6s) d; 4 d), `a4,t` max((2 + 2s) d; 3 d), `a4,c` 3 d. `d` is the nominal diameter, `degrees`
/// the angle between force and grain.
///
/// # Source
///
/// EN 1995-1-1 8.3.1.2, Table 8.2, and 8.5.1.1(3), Table 8.4, from memory; Table 8.4 but `a3,c` read in
/// a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `d` or `ρk` is not positive or the angle is outside 0 to 90 degrees;
/// [`RuleError::NotCovered`] for dowels, and for wood that needs a hole and has none.
pub fn least_distance(
    fastener: &Fastener,
    place: Place,
    density: MassDensity,
    predrilled: bool,
    degrees: f64,
) -> Result<Worked<Length>, RuleError> {
    const NAIL: Citation = ec5("Table 8.2", Seen::Memory);
    let bolt = ec5("Table 8.4", if place == Place::UnloadedEnd { Seen::Memory } else { Seen::Secondary });
    positive("d", fastener.diameter, &NAIL)?;
    positive("ρk", density, &NAIL)?;
    let (s, c) = sine_and_cosine("α", degrees, &NAIL)?;
    let d = || given("d", fastener.diameter);
    if fastener.kind == FastenerKind::Dowel {
        return Err(RuleError::not_covered("the spacing of dowels", "EN 1995-1-1 Table 8.5 is not entered here"));
    }
    if !predrilled && fastener.kind != FastenerKind::Bolt && needs_predrilling(fastener, density) {
        return Err(RuleError::not_covered(
            "the spacing of nails or screws without predrilled holes in this wood",
            "EN 1995-1-1 8.3.1.1(2) asks for a hole above 6 mm and from 500 kg/m³: drill one",
        ));
    }
    if fastener.follows_bolts() {
        return Ok(bolt_distance(place, d(), s, c).step(place.symbol(), bolt));
    }
    let thick = fastener.diameter.value >= millimetre(5.0).value * (1.0 - 1e-9);
    let dense = density.value > MassDensity::new::<kilogram_per_cubic_meter>(420.0).value * (1.0 + 1e-9);
    let diameters = nail_diameters(place, thick, dense, predrilled, s, c);
    Ok((diameters * d()).step(place.symbol(), NAIL))
}

fn bolt_distance(place: Place, d: Worked<Length>, s: Worked<Ratio>, c: Worked<Ratio>) -> Worked<Length> {
    match place {
        Place::AlongGrain => (plain(4.0) + c) * d,
        Place::AcrossGrain => plain(4.0) * d,
        Place::LoadedEnd => (plain(7.0) * d).max(constant(millimetre(80.0))),
        Place::UnloadedEnd => ((plain(1.0) + plain(6.0) * s) * d.clone()).max(plain(4.0) * d),
        Place::LoadedEdge => ((plain(2.0) + plain(2.0) * s) * d.clone()).max(plain(3.0) * d),
        Place::UnloadedEdge => plain(3.0) * d,
    }
}

/// The number of diameters of Table 8.2.
fn nail_diameters(
    place: Place,
    thick: bool,
    dense: bool,
    predrilled: bool,
    s: Worked<Ratio>,
    c: Worked<Ratio>,
) -> Worked<Ratio> {
    // Values for light wood, dense wood and predrilled holes.
    let pick = |light: f64, heavy: f64, bored: f64| {
        plain(if predrilled {
            bored
        } else if dense {
            heavy
        } else {
            light
        })
    };
    match place {
        Place::AlongGrain => pick(5.0, 7.0, 4.0) + pick(if thick { 7.0 } else { 5.0 }, 8.0, 1.0) * c,
        Place::AcrossGrain if predrilled => plain(3.0) + s,
        Place::AcrossGrain | Place::UnloadedEdge => pick(5.0, 7.0, 3.0),
        Place::LoadedEnd => pick(10.0, 15.0, 7.0) + plain(5.0) * c,
        Place::UnloadedEnd => pick(10.0, 15.0, 7.0),
        Place::LoadedEdge => {
            let (light, bored) = if thick { (5.0, 4.0) } else { (2.0, 2.0) };
            pick(5.0, 7.0, 3.0) + pick(light, light, bored) * s
        }
    }
}

/// A distance around screws loaded along their axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AxialPlace {
    /// `a1`, along the grain.
    AlongGrain,
    /// `a2`, across the grain.
    AcrossGrain,
    /// `a1,CG`, from the end to the middle of the thread.
    End,
    /// `a2,CG`, from the edge to the middle of the thread.
    Edge,
}

/// Least distance of axially loaded screws: `a1` 7 d, `a2` 5 d, `a1,CG` 10 d, `a2,CG` 4 d, in timber at least
/// `12 d` thick.
///
/// # Source
///
/// EN 1995-1-1 8.7.2(2), Table 8.6, read in a summary; the thickness from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `d` is not positive or the timber is thinner.
pub fn least_axial_distance(
    diameter: Length,
    place: AxialPlace,
    thickness: Length,
) -> Result<Worked<Length>, RuleError> {
    const CLAUSE: Citation = ec5("Table 8.6", Seen::Secondary);
    positive("d", diameter, &CLAUSE)?;
    let thick_enough = thickness.value >= 12.0 * diameter.value * (1.0 - 1e-9);
    if !thick_enough {
        return Err(RuleError::out_of_range("t", thickness, "at least 12 d", ec5("8.7.2(2)", Seen::Memory)));
    }
    let (symbol, diameters) = match place {
        AxialPlace::AlongGrain => ("a1", 7.0),
        AxialPlace::AcrossGrain => ("a2", 5.0),
        AxialPlace::End => ("a1,CG", 10.0),
        AxialPlace::Edge => ("a2,CG", 4.0),
    };
    Ok((plain(diameters) * given("d", diameter)).step(symbol, CLAUSE))
}

/// Least thickness of timber for nails and screws up to 6 mm without predrilled holes:
/// `t = max[7 d; (13 d − 30) ρk/400]`, of species prone to splitting `max[14 d; (13 d − 30) ρk/200]`
/// (mm, kg/m³).
///
/// # Source
///
/// EN 1995-1-1 8.3.1.2(6) and (7), equations 8.18 and 8.19, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `d` or `ρk` is not positive.
pub fn least_thickness(
    diameter: Length,
    density: MassDensity,
    prone_to_splitting: bool,
) -> Result<Worked<Length>, RuleError> {
    let clause = ec5(if prone_to_splitting { "(8.19)" } else { "(8.18)" }, Seen::Memory);
    positive("d", diameter, &clause)?;
    positive("ρk", density, &clause)?;
    let (times, share) = if prone_to_splitting { (14.0, 200.0) } else { (7.0, 400.0) };
    let d = || given("d", diameter);
    let by_density = (plain(13.0) * in_millimetres(d()) - plain(30.0)) * in_kilograms("ρk", density) / plain(share);
    Ok((plain(times) * d()).max(by_density * constant(millimetre(1.0))).step("t", clause))
}

/// Lead holes of a screw: `d` for the shank, `0.7 d` for the thread.
///
/// Asked for above 6 mm; below that taken too, for the embedment and the distances here are those of
/// predrilled wood.
///
/// # Source
///
/// EN 1995-1-1 10.4.5(1), from memory.
pub fn lead_holes(d: Length) -> [Worked<Length>; 2] {
    [1.0, 0.7].map(|factor| (plain(factor) * given("d", d)).step("hole", ec5("10.4.5(1)", Seen::Memory)))
}
