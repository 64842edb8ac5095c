//! Dowel-type fasteners: what the wood bears on them and what they bear in bending.

use super::{ec5, in_kilograms, in_millimetres, sine_and_cosine};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::{megapascal, millimetre, newton_metre};
use crate::quantity::{BendingMoment, Length, MassDensity, Stress};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::WoodKind;
use uom::si::mass_density::kilogram_per_cubic_meter;

/// The kinds of fastener the clauses tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum FastenerKind {
    /// A smooth round nail.
    RoundNail,
    /// A square or a grooved nail.
    SquareOrGroovedNail,
    /// A nail of another profile.
    OtherNail,
    /// A screw.
    Screw,
    /// A bolt.
    Bolt,
    /// A dowel.
    Dowel,
}

/// A dowel-type fastener.
#[derive(Clone, Debug)]
pub struct Fastener {
    /// What it is.
    pub kind: FastenerKind,
    /// `d`, nominal diameter: of a screw over the thread.
    pub diameter: Length,
    /// `def`, the diameter that bears and bends: [`effective_diameter`] for a screw, `d` for others.
    pub effective: Worked<Length>,
}

impl Fastener {
    /// A fastener without thread.
    pub fn smooth(kind: FastenerKind, diameter: Length) -> Fastener {
        Fastener { kind, diameter, effective: given("d", diameter) }
    }

    /// Whether the rules for bolts apply: bolts and dowels, screws above 6 mm, nails above 8 mm.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 8.7.1(5) and (6), read in summaries; 8.3.1.1(6), from memory.
    pub fn follows_bolts(&self) -> bool {
        let above = |limit: f64| self.diameter.value > millimetre(limit).value * (1.0 + 1e-9);
        match self.kind {
            FastenerKind::Bolt | FastenerKind::Dowel => true,
            FastenerKind::Screw => above(6.0),
            FastenerKind::RoundNail | FastenerKind::SquareOrGroovedNail | FastenerKind::OtherNail => above(8.0),
        }
    }
}

/// The diameters of a screw and how far its smooth shank reaches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScrewShape {
    /// `d`, over the thread.
    pub diameter: Length,
    /// Root of the thread.
    pub root: Length,
    /// Smooth shank.
    pub shank: Length,
    /// Length of smooth shank inside the member that holds the point; zero when there is none.
    pub shank_in_point_side: Length,
}

/// Effective diameter of a screw: the shank's, when that equals `d` and reaches at least `4 d` into the
/// member that holds the point, else `def = 1.1 ·` root diameter.
///
/// # Source
///
/// EN 1995-1-1 8.7.1(3) and (4) as amended by A1, read in a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a diameter is not positive.
pub fn effective_diameter(screw: &ScrewShape) -> Result<Worked<Length>, RuleError> {
    const CLAUSE: Citation = ec5("8.7.1", Seen::Secondary);
    positive("d", screw.diameter, &CLAUSE)?;
    positive("root diameter", screw.root, &CLAUSE)?;
    positive("shank diameter", screw.shank, &CLAUSE)?;
    let full = (screw.shank.value / screw.diameter.value - 1.0).abs() < 1e-9;
    // A shank drawn to exactly four diameters must not fail in the sixteenth digit.
    let deep = screw.shank_in_point_side.value >= 4.0 * screw.diameter.value * (1.0 - 1e-9);
    let effective = if full && deep {
        given("shank diameter", screw.shank)
    } else {
        plain(1.1) * given("root diameter", screw.root)
    };
    Ok(effective.step("def", CLAUSE))
}

/// The wood a fastener sits in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Embedded {
    /// Softwood or hardwood.
    pub kind: WoodKind,
    /// `ρk`.
    pub density: MassDensity,
    /// Whether a hole was drilled for it.
    pub predrilled: bool,
    /// `α`, angle between force and grain in degrees.
    pub degrees: f64,
}

/// Whether a nail or screw needs a hole: from `ρk` 500 kg/m³ or above 6 mm.
///
/// # Source
///
/// EN 1995-1-1 8.3.1.1(2): above 6 mm read in a summary, the density from memory.
pub fn needs_predrilling(fastener: &Fastener, density: MassDensity) -> bool {
    density.value >= MassDensity::new::<kilogram_per_cubic_meter>(500.0).value * (1.0 - 1e-9)
        || fastener.diameter.value > millimetre(6.0).value * (1.0 + 1e-9)
}

/// Embedment strength of wood (N/mm², kg/m³, mm).
///
/// Nails up to 8 mm and screws up to 6 mm, at any angle: `fh,k = 0.082 ρk d^−0.3` without a hole,
/// `0.082 (1 − 0.01 d) ρk` with one. Bolts, dowels and thicker screws and nails:
/// `fh,α,k = fh,0,k / (k90 sin²α + cos²α)`, `fh,0,k = 0.082 (1 − 0.01 d) ρk`, `k90 = 1.35 + 0.015 d` in
/// softwood and `0.90 + 0.015 d` in hardwood. `d` is the effective diameter.
///
/// `symbol` names the result, `fh,1,k` or `fh,2,k`.
///
/// # Source
///
/// EN 1995-1-1 8.3.1.1(5), equations 8.15 and 8.16, and 8.5.1.1(2), equations 8.31 to 8.33, read in
/// summaries; `k90` of hardwood from memory, of softwood confirmed by a handbook table in `tests/`.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `ρk` or `d` is not positive, `α` is outside 0 to 90 degrees, or a bolt
/// is thicker than 30 mm; [`RuleError::NotCovered`] when the wood needs a hole and has none.
pub fn embedment(symbol: &'static str, fastener: &Fastener, wood: &Embedded) -> Result<Worked<Stress>, RuleError> {
    const NAIL: Citation = ec5("8.3.1.1(5)", Seen::Secondary);
    const BOLT: Citation = ec5("8.5.1.1(2)", Seen::Secondary);
    positive("ρk", wood.density, &NAIL)?;
    positive("d", fastener.diameter, &NAIL)?;
    positive("def", fastener.effective.value, &NAIL)?;
    let (sine, cosine) = sine_and_cosine("α", wood.degrees, &BOLT)?;
    let bolted = matches!(fastener.kind, FastenerKind::Bolt | FastenerKind::Dowel);
    if !bolted && !wood.predrilled && needs_predrilling(fastener, wood.density) {
        return Err(RuleError::not_covered(
            "a nail or screw without a predrilled hole in this wood",
            "EN 1995-1-1 8.3.1.1(2) asks for a hole above 6 mm and from 500 kg/m³: drill one",
        ));
    }
    let d = || in_millimetres(fastener.effective.clone());
    let strength = || constant(megapascal(0.082)) * in_kilograms("ρk", wood.density);
    let with_hole = || strength() * (plain(1.0) - plain(0.01) * d());
    if !fastener.follows_bolts() {
        let strength = if wood.predrilled { with_hole() } else { strength() * d().power(-0.3) };
        return finite(symbol, strength.step(symbol, NAIL), &NAIL);
    }
    if fastener.effective.value.value > millimetre(30.0).value * (1.0 + 1e-9) {
        return Err(RuleError::out_of_range("d", fastener.effective.value, "at most 30 mm", BOLT));
    }
    let along = with_hole().step("fh,0,k", BOLT);
    let start = match wood.kind {
        WoodKind::Softwood => 1.35,
        WoodKind::Hardwood => 0.90,
    };
    let k90 = (plain(start) + plain(0.015) * d()).step("k90", BOLT);
    let strength = along / (k90 * sine.power(2.0) + cosine.power(2.0));
    finite(symbol, strength.step(symbol, BOLT), &BOLT)
}

/// Characteristic yield moment, `My,Rk = 0.3 fu d^2.6` (N·mm, N/mm², mm), and `0.45 fu d^2.6` for square
/// nails; `d` is the effective diameter.
///
/// What the maker declares after EN 14592 goes before it.
///
/// | symbol | |
/// |---|---|
/// | `fu` | tensile strength of the wire; nails need at least 600 N/mm² |
///
/// # Source
///
/// EN 1995-1-1 8.3.1.1(4) and 8.5.1.1(1), equations 8.14 and 8.30, read in summaries; square nails and
/// the least strength of nail wire from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `fu` or `d` is not positive, or `fu` of a nail is below 600 N/mm².
pub fn yield_moment(fastener: &Fastener, tensile_strength: Stress) -> Result<Worked<BendingMoment>, RuleError> {
    let clause = if fastener.follows_bolts() { ec5("(8.30)", Seen::Secondary) } else { ec5("(8.14)", Seen::Secondary) };
    positive("fu", tensile_strength, &clause)?;
    positive("def", fastener.effective.value, &clause)?;
    let nail =
        matches!(fastener.kind, FastenerKind::RoundNail | FastenerKind::SquareOrGroovedNail | FastenerKind::OtherNail);
    if nail && tensile_strength.value < megapascal(600.0).value * (1.0 - 1e-9) {
        let citation = ec5("8.3.1.1(4)", Seen::Memory);
        return Err(RuleError::out_of_range("fu", tensile_strength, "at least 600 N/mm²", citation));
    }
    let factor = if fastener.kind == FastenerKind::SquareOrGroovedNail { 0.45 } else { 0.3 };
    let fu = given("fu", tensile_strength) / constant(megapascal(1.0));
    let moment = plain(factor) * fu * in_millimetres(fastener.effective.clone()).power(2.6);
    finite("My,Rk", (moment * constant(newton_metre(1e-3))).step("My,Rk", clause.clone()), &clause)
}
