//! Connections: how deep a fastener must reach, and what adjusts its reference value.

use super::dowel::{Dowel, DowelKind};
use super::factors::{Conditions, Duration, Property, load_duration_of_connection, temperature};
use super::nds;
use crate::derivation::{Worked, constant, given, plain};
use crate::quantity::unit::{inch, pound_force_per_inch};
use crate::quantity::{Force, Length, Measured, Ratio, UnitSystem, number};
use crate::rules::RuleError;
use crate::rules::error::{finite, positive};
use crate::source::{Citation, Seen};

/// The face of the main member a fastener is driven into.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grain {
    /// Its axis runs across the fibres.
    Side,
    /// Its axis runs along the fibres.
    End,
}

/// Least length of fastener in the main member: `4 D` and its tip for a lag screw, `6 D` with the tip
/// for a wood screw.
///
/// | symbol | |
/// |---|---|
/// | `tip` | `E`, length of the tapered tip |
///
/// # Source
///
/// NDS 2018 12.1.4.6 and 12.1.5.6: the lengths were read in the publisher's answer to a question, the
/// clause numbers are from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when `D` is not positive; [`RuleError::NotCovered`] for a bolt, which has no depth.
pub fn least_length_in_main(dowel: &Dowel, tip: Length) -> Result<Worked<Length>, RuleError> {
    if dowel.kind == DowelKind::Bolt {
        return Err(RuleError::not_covered("the penetration of a bolt", "it passes through both members"));
    }
    let lag = dowel.kind == DowelKind::LagScrew;
    let citation = if lag { nds("12.1.4.6", Seen::Secondary) } else { nds("12.1.5.6", Seen::Secondary) };
    positive("D", dowel.diameter, &citation)?;
    let d = given("D", dowel.diameter);
    let length = if lag { plain(4.0) * d + given("E", tip) } else { plain(6.0) * d };
    Ok(length.step("least length in main member", citation))
}

/// Penetration `p` that counts: without the tip for a lag screw, with it for a wood screw.
///
/// | symbol | |
/// |---|---|
/// | `length_in_main` | length of fastener in the main member, tip included |
/// | `tip` | `E`, length of the tapered tip |
///
/// # Source
///
/// As [`least_length_in_main`].
///
/// # Errors
///
/// [`RuleError::NotCovered`] below that length, naming it.
pub fn penetration(dowel: &Dowel, length_in_main: Length, tip: Length) -> Result<Worked<Length>, RuleError> {
    let lag = dowel.kind == DowelKind::LagScrew;
    let citation = if lag { nds("12.1.4.6", Seen::Secondary) } else { nds("12.1.5.6", Seen::Secondary) };
    let needed = least_length_in_main(dowel, tip)?.value;
    // A depth entered as exactly so many diameters must not fail in the sixteenth digit.
    let reaches = length_in_main.value >= needed.value * (1.0 - 1e-9);
    if !reaches {
        let show = |l: Length| {
            let m = l.measure();
            format!("{} ({})", m.show(UnitSystem::Us), m.show(UnitSystem::Metric))
        };
        return Err(RuleError::not_covered(
            format!("a fastener that reaches {} into the main member", show(length_in_main)),
            format!("{citation} asks for at least {}", show(needed)),
        ));
    }
    let length = given("length in main member", length_in_main);
    Ok(if lag { length - given("E", tip) } else { length }.step("p", citation))
}

/// Dowel bearing length in the main member, `ℓm`.
///
/// A lag screw's `p` is without the tip already: `ℓm = p`. A wood screw has `ℓm = p` from `10 D` up,
/// and `p − E` below.
///
/// # Source
///
/// NDS 2018 12.3.5, from memory. The exact deduction for a tapered tip was not read; the whole tip is
/// taken off, which errs to the low side.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when nothing is left of `p`.
pub fn bearing_length_in_main(dowel: &Dowel, p: Worked<Length>, tip: Length) -> Result<Worked<Length>, RuleError> {
    const CLAUSE: Citation = nds("12.3.5", Seen::Memory);
    let whole = dowel.kind != DowelKind::WoodScrew || p.value.value >= dowel.diameter.value * 10.0 * (1.0 - 1e-9);
    let length = if whole { p } else { p - given("E", tip) }.step("ℓm", CLAUSE);
    positive("ℓm", length.value, &CLAUSE)?;
    Ok(length)
}

/// Wet service factor `CM` of a connection: 0.7 above 19 % moisture content in service, else 1.0.
///
/// Wood that was wet when joined and dried later is not covered by this number.
///
/// # Source
///
/// NDS 2018 11.3.3, Table 11.3.3, from memory.
pub fn wet_service(wet: bool) -> Worked<Ratio> {
    plain(if wet { 0.7 } else { 1.0 }).step("CM", nds("11.3.3", Seen::Memory))
}

/// End grain factor `Ceg` of a lateral load: 0.67 into end grain, 1.0 into side grain.
///
/// # Source
///
/// NDS 2018 12.5.2.2, read in summaries.
pub fn end_grain_lateral(grain: Grain) -> Worked<Ratio> {
    plain(if grain == Grain::End { 0.67 } else { 1.0 }).step("Ceg", nds("12.5.2", Seen::Secondary))
}

/// The two members a row of fasteners joins, for the group action factor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// `n`, fasteners in the row.
    pub count: u32,
    /// `s`, centre to centre along the row.
    pub spacing: Length,
    /// `Em · Am`, axial stiffness of the main member.
    pub main_stiffness: Force,
    /// `Es · As`, axial stiffness of the side member.
    pub side_stiffness: Force,
    /// Whether one of the members is metal.
    pub metal: bool,
}

/// Group action factor `Cg` of a row: 1.0 for `D < 1/4 in` or a single fastener, else
/// `m (1 − m^(2n)) / {n [(1 + REA m^n)(1 + m) − 1 + m^(2n)]} · (1 + REA) / (1 − m)`.
///
/// `REA` is the smaller of `EsAs/EmAm` and its inverse, `m = u − sqrt(u² − 1)`,
/// `u = 1 + γ s/2 (1/EmAm + 1/EsAs)`, `γ = 180000 D^1.5` lb/in between wood members and `270000 D^1.5`
/// against metal, `D` in inches.
///
/// # Source
///
/// NDS 2018 11.3.6, equation 11.3-1, from memory.
///
/// # Errors
///
/// [`RuleError::OutOfRange`] when a stiffness or the spacing is not positive.
pub fn group_action(dowel: &Dowel, row: &Row) -> Result<Worked<Ratio>, RuleError> {
    const CLAUSE: Citation = nds("11.3.6", Seen::Memory);
    if !dowel.is_large() || row.count < 2 {
        return Ok(plain(1.0).step("Cg", CLAUSE));
    }
    positive("s", row.spacing, &CLAUSE)?;
    positive("EmAm", row.main_stiffness, &CLAUSE)?;
    positive("EsAs", row.side_stiffness, &CLAUSE)?;
    let (em, es) = (given("EmAm", row.main_stiffness), given("EsAs", row.side_stiffness));
    let per_inch = constant(pound_force_per_inch(if row.metal { 270_000.0 } else { 180_000.0 }));
    let gamma = per_inch * (given("D", dowel.diameter) / constant(inch(1.0))).power(1.5);
    let both = plain(1.0) / em.clone() + plain(1.0) / es.clone();
    let u = (plain(1.0) + gamma * given("s", row.spacing) / plain(2.0) * both).step("u", CLAUSE);
    let m = (u.clone() - (u.power(2.0) - plain(1.0)).root()).step("m", CLAUSE);
    let rea = (es.clone() / em.clone()).min(em / es).step("REA", CLAUSE);
    let n = f64::from(row.count);
    let (m_n, m_2n) = (m.clone().power(n), m.clone().power(2.0 * n));
    let inner = (plain(1.0) + rea.clone() * m_n) * (plain(1.0) + m.clone()) - plain(1.0) + m_2n.clone();
    let first = m.clone() * (plain(1.0) - m_2n) / (given("n", number(n)) * inner);
    let cg = first * ((plain(1.0) + rea) / (plain(1.0) - m));
    finite("Cg", cg.step("Cg", CLAUSE), &CLAUSE)
}

/// Adjusted lateral design value, `Z' = Z · CD · CM · Ct · Cg · CΔ · Ceg`.
///
/// | symbol | |
/// |---|---|
/// | `Z` | [`lateral`](super::dowel::lateral) |
/// | `Cg` | [`group_action`] |
/// | `CΔ` | [`geometry`](super::spacing::geometry) |
///
/// # Source
///
/// NDS 2018 11.3.1, Table 11.3.1, read in summaries.
pub fn adjusted_lateral(
    z: Worked<Force>,
    conditions: &Conditions,
    duration: Duration,
    group: Worked<Ratio>,
    geometry: Worked<Ratio>,
    grain: Grain,
) -> Worked<Force> {
    let ct = temperature(Property::Shear, conditions.temperature, conditions.wet);
    let cd = load_duration_of_connection(duration);
    let adjusted = z * cd * wet_service(conditions.wet) * ct * group * geometry * end_grain_lateral(grain);
    adjusted.step("Z'", nds("11.3.1", Seen::Secondary))
}

/// Resistance of a screw or lag screw loaded at an angle `α` to the wood surface,
/// `Zα' = (W'p) Z' / [(W'p) cos²α + Z' sin²α]`.
///
/// `α` is 0 for a load along the surface and 90 degrees for straight withdrawal.
///
/// # Source
///
/// NDS 2018 12.4.1, equation 12.4-1, from memory; that the check exists was read.
pub fn lateral_and_withdrawal(withdrawal: Worked<Force>, lateral: Worked<Force>, degrees: f64) -> Worked<Force> {
    let radians = degrees.to_radians();
    let sine = given("sinα", number(radians.sin())).power(2.0);
    let cosine = given("cosα", number(radians.cos())).power(2.0);
    let across: Worked<Force> = withdrawal.clone() * (lateral.clone() / (withdrawal * cosine + lateral * sine));
    across.step("Zα'", nds("12.4.1", Seen::Memory))
}
