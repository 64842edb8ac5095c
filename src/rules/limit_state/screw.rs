//! Axially loaded screws, and screws loaded both ways.

use super::{ec5, in_kilograms, in_millimetres, sine_and_cosine};
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::{megapascal, millimetre};
use crate::quantity::{Force, Length, MassDensity, Ratio, Stress, number};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};

/// A strength a maker declares, with the density it was found at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Declared {
    /// `fax,k` or `fhead,k`, after EN 14592 or a technical assessment.
    pub strength: Stress,
    /// `ρa`.
    pub density: MassDensity,
}

/// The thread in the member that holds the point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thread {
    /// `d`, over the thread.
    pub diameter: Length,
    /// `d1`, root of the thread.
    pub root: Length,
    /// `ℓef`, length of thread in the member.
    pub length: Length,
    /// `α`, angle between screw axis and grain, in degrees.
    pub degrees: f64,
}

impl Thread {
    /// `1.2 cos²α + sin²α`, after the limits of 8.7.2(2) and (3) are kept.
    fn across_the_grain(&self) -> Result<Worked<Ratio>, RuleError> {
        const ANGLE: Citation = ec5("8.7.2(4)", Seen::Secondary);
        const LENGTH: Citation = ec5("8.7.2(3)", Seen::Secondary);
        positive("d", self.diameter, &LENGTH)?;
        positive("d1", self.root, &LENGTH)?;
        positive("ℓef", self.length, &LENGTH)?;
        let (sine, cosine) = sine_and_cosine("α", self.degrees, &ANGLE)?;
        if self.degrees < 30.0 {
            return Err(RuleError::out_of_range("α", number(self.degrees), "at least 30 degrees", ANGLE));
        }
        // A thread of exactly six diameters must not fail in the sixteenth digit.
        if self.length.value < 6.0 * self.diameter.value * (1.0 - 1e-9) {
            return Err(RuleError::out_of_range("ℓef", self.length, "at least 6 d", LENGTH));
        }
        Ok(plain(1.2) * cosine.power(2.0) + sine.power(2.0))
    }
}

/// Effective number of screws that share an axial load, `nef = n^0.9`.
///
/// # Source
///
/// EN 1995-1-1 8.7.2(8), equation 8.41, read in summaries.
pub fn effective_number(count: u32) -> Worked<Ratio> {
    given("n", number(f64::from(count))).power(0.9).step("nef", ec5("(8.41)", Seen::Secondary))
}

/// Characteristic withdrawal capacity of one screw by its dimensions,
/// `Fax,α,Rk = fax,k d ℓef kd / (1.2 cos²α + sin²α)` with `fax,k = 0.52 d^−0.5 ℓef^−0.1 ρk^0.8` (N/mm², mm,
/// kg/m³) and `kd = min(d/8; 1)`.
///
/// For softwood screws with `6 ≤ d ≤ 12 mm` and `0.6 ≤ d1/d ≤ 0.75`; any other needs
/// [`declared_withdrawal`].
///
/// # Source
///
/// EN 1995-1-1 8.7.2(4), equations 8.38 to 8.40, as amended by A1, read in summaries; the range of
/// diameters from memory.
///
/// # Errors
///
/// [`RuleError::NotCovered`] outside those diameters; [`RuleError::OutOfRange`] when `α` is below 30
/// degrees, `ℓef` below `6 d`, or a value is not positive.
pub fn withdrawal(thread: &Thread, density: MassDensity) -> Result<Worked<Force>, RuleError> {
    const STRENGTH: Citation = ec5("(8.39)", Seen::Secondary);
    const CAPACITY: Citation = ec5("(8.38)", Seen::Secondary);
    let angle = thread.across_the_grain()?;
    positive("ρk", density, &STRENGTH)?;
    let within = |v: f64, low: f64, high: f64| v >= low * (1.0 - 1e-9) && v <= high * (1.0 + 1e-9);
    let diameter = thread.diameter.value / millimetre(1.0).value;
    if !within(diameter, 6.0, 12.0) || !within(thread.root.value / thread.diameter.value, 0.6, 0.75) {
        return Err(RuleError::not_covered(
            "withdrawal of this screw by its dimensions",
            "EN 1995-1-1 8.7.2(4) has a formula for d from 6 to 12 mm with a root of 0.6 d to 0.75 d: give the \
             withdrawal strength fax,k its maker declares",
        ));
    }
    let (d, l) = (given("d", thread.diameter), given("ℓef", thread.length));
    let number = plain(0.52)
        * in_millimetres(d.clone()).power(-0.5)
        * in_millimetres(l.clone()).power(-0.1)
        * in_kilograms("ρk", density).power(0.8);
    let strength = (number * constant(megapascal(1.0))).step("fax,k", STRENGTH);
    let kd = (d.clone() / constant(millimetre(8.0))).min(plain(1.0)).step("kd", ec5("(8.40)", Seen::Secondary));
    finite("Fax,α,Rk", (strength * d * l * kd / angle).step("Fax,α,Rk", CAPACITY), &CAPACITY)
}

/// Characteristic withdrawal capacity of one screw with a declared strength,
/// `Fax,α,Rk = fax,k d ℓef / (1.2 cos²α + sin²α) · (ρk/ρa)^0.8`.
///
/// # Source
///
/// EN 1995-1-1 8.7.2(5), equation 8.40a, from memory; the power of the density read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `α` is below 30 degrees, `ℓef` below `6 d`, or a value is not positive.
pub fn declared_withdrawal(
    thread: &Thread,
    declared: &Declared,
    density: MassDensity,
) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = ec5("(8.40a)", Seen::Memory);
    let angle = thread.across_the_grain()?;
    positive("fax,k", declared.strength, &CLAUSE)?;
    let denser = density_factor(declared, density, &CLAUSE)?;
    let held = given("fax,k", declared.strength) * given("d", thread.diameter) * given("ℓef", thread.length);
    finite("Fax,α,Rk", (held / angle * denser).step("Fax,α,Rk", CLAUSE), &CLAUSE)
}

/// `(ρk/ρa)^0.8`.
fn density_factor(declared: &Declared, density: MassDensity, clause: &Citation) -> Result<Worked<Ratio>, RuleError> {
    positive("ρk", density, clause)?;
    positive("ρa", declared.density, clause)?;
    Ok((given("ρk", density) / given("ρa", declared.density)).power(0.8))
}

/// Characteristic pull-through capacity of one head, `Fax,α,Rk = fhead,k dh² (ρk/ρa)^0.8`.
///
/// | symbol | |
/// |---|---|
/// | `dh` | diameter of the head |
///
/// # Source
///
/// EN 1995-1-1 8.7.2(6), equation 8.40b, read in summaries.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a value is not positive.
pub fn pull_through(head: Length, declared: &Declared, density: MassDensity) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = ec5("(8.40b)", Seen::Secondary);
    positive("dh", head, &CLAUSE)?;
    positive("fhead,k", declared.strength, &CLAUSE)?;
    let denser = density_factor(declared, density, &CLAUSE)?;
    let force = given("fhead,k", declared.strength) * given("dh", head) * given("dh", head) * denser;
    finite("Fax,α,Rk", force.step("Fax,α,Rk", CLAUSE), &CLAUSE)
}

/// Pull-through strength of a smooth nail's head, `fhead,k = 70·10⁻⁶ ρk²` (N/mm², kg/m³).
///
/// Nails' figure; taken for a screw whose maker declares none it is a judgement, at the density of
/// the wood itself.
///
/// # Source
///
/// EN 1995-1-1 8.3.2(6), equation 8.26, read in a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `ρk` is not positive.
pub fn head_strength_of_nail(density: MassDensity) -> Result<Worked<Stress>, RuleError> {
    const CLAUSE: Citation = ec5("(8.26)", Seen::Secondary);
    positive("ρk", density, &CLAUSE)?;
    let strength = plain(70e-6) * in_kilograms("ρk", density).power(2.0) * constant(megapascal(1.0));
    finite("fhead,k", strength.step("fhead,k", CLAUSE), &CLAUSE)
}

/// Characteristic tension capacity of one screw, `Ft,Rk = ftens,k`, the declared one.
///
/// # Source
///
/// EN 1995-1-1 8.7.2(7), equation 8.40c, read in a summary.
///
/// # Errors
///
/// [`RuleError::NotCovered`] without a declared capacity; [`RuleError::OutOfRange`] when it is not
/// positive.
pub fn tension(declared: Option<Force>) -> Result<Worked<Force>, RuleError> {
    const CLAUSE: Citation = ec5("(8.40c)", Seen::Secondary);
    let Some(capacity) = declared else {
        return Err(RuleError::not_covered(
            "the tension capacity of this screw",
            "EN 1995-1-1 8.7.2(7) takes ftens,k from the maker's declaration after EN 14592: give it",
        ));
    };
    positive("ftens,k", capacity, &CLAUSE)?;
    Ok(given("ftens,k", capacity).step("Ft,Rk", CLAUSE))
}

/// A force beside what resists it.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// Design value of the force on the screw.
    pub force: Force,
    /// Design value of its resistance.
    pub resistance: Worked<Force>,
}

/// A screw loaded along and across its axis, at most 1:
/// `(Fax,Ed/Fax,Rd)² + (Fv,Ed/Fv,Rd)²`.
///
/// # Source
///
/// EN 1995-1-1 8.7.3 and 8.3.3, equation 8.28, read in a summary.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a resistance is not positive.
pub fn axial_and_lateral(axial: &Loaded, lateral: &Loaded) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = ec5("(8.28)", Seen::Secondary);
    positive("Fax,Rd", axial.resistance.value, &CLAUSE)?;
    positive("Fv,Rd", lateral.resistance.value, &CLAUSE)?;
    let share =
        |symbol: &'static str, loaded: &Loaded| (given(symbol, loaded.force) / loaded.resistance.clone()).power(2.0);
    let sum = share("Fax,Ed", axial) + share("Fv,Ed", lateral);
    finite("utilisation", sum.step("utilisation", CLAUSE), &CLAUSE)
}
