//! Adjustment factors for duration, moisture, temperature, repetition and incising.

use super::nds;
use crate::derivation::{Worked, plain};
use crate::quantity::{Ratio, Stress, unit::psi};
use crate::source::{Citation, Seen};
use crate::tables::lumber::SupplementTable;

/// The property a factor adjusts; most factors differ from one to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Property {
    /// `Fb`.
    Bending,
    /// `Ft`.
    Tension,
    /// `Fv`.
    Shear,
    /// `Fc⊥`.
    CompressionPerpendicular,
    /// `Fc`.
    CompressionParallel,
    /// `E` and `Emin`.
    Modulus,
}

/// How long a load acts in all over the life of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Duration {
    /// Longer than ten years: dead load.
    Permanent,
    /// Ten years: occupancy.
    TenYears,
    /// Two months: snow.
    TwoMonths,
    /// Seven days: construction.
    SevenDays,
    /// Ten minutes: wind, earthquake.
    TenMinutes,
    /// An instant.
    Impact,
}

/// The highest temperature the wood is kept at for long.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Temperature {
    /// At most 100 °F (38 °C): every room.
    #[default]
    UpTo100F,
    /// At most 125 °F (52 °C).
    UpTo125F,
    /// At most 150 °F (66 °C).
    UpTo150F,
}

fn duration_number(duration: Duration) -> f64 {
    match duration {
        Duration::Permanent => 0.9,
        Duration::TenYears => 1.0,
        Duration::TwoMonths => 1.15,
        Duration::SevenDays => 1.25,
        Duration::TenMinutes => 1.6,
        Duration::Impact => 2.0,
    }
}

/// Load duration factor `CD` for strengths: 0.9, 1.0, 1.15, 1.25, 1.6, 2.0.
///
/// It does not apply to `E`, `Emin` and `Fc⊥`.
///
/// # Source
///
/// NDS 2018 2.3.2, Table 2.3.2. The numbers 1.0 to 1.6 were read in handbooks that quote the table;
/// 0.9 and 2.0 likewise.
pub fn load_duration(duration: Duration) -> Worked<Ratio> {
    plain(duration_number(duration)).step("CD", nds("2.3.2", Seen::Secondary))
}

/// Load duration factor `CD` for connections, which the impact value does not reach: at most 1.6.
///
/// # Source
///
/// NDS 2018 11.3.2 and Table 2.3.2 note 2. The cap was read in a handbook that quotes it.
pub fn load_duration_of_connection(duration: Duration) -> Worked<Ratio> {
    plain(duration_number(duration)).min(plain(1.6)).step("CD", nds("11.3.2", Seen::Secondary))
}

/// Temperature factor `Ct`.
///
/// | | ≤ 100 °F | ≤ 125 °F | ≤ 150 °F |
/// |---|---|---|---|
/// | `Ft`, `E`, `Emin` | 1.0 | 0.9 | 0.9 |
/// | others, dry | 1.0 | 0.8 | 0.7 |
/// | others, wet | 1.0 | 0.7 | 0.5 |
///
/// # Source
///
/// NDS 2018 2.3.3, Table 2.3.3, from memory.
pub fn temperature(property: Property, temperature: Temperature, wet: bool) -> Worked<Ratio> {
    let stiff = matches!(property, Property::Tension | Property::Modulus);
    let number = match (temperature, stiff, wet) {
        (Temperature::UpTo100F, _, _) => 1.0,
        (_, true, _) => 0.9,
        (Temperature::UpTo125F, _, false) => 0.8,
        (Temperature::UpTo125F, _, true) | (Temperature::UpTo150F, _, false) => 0.7,
        (Temperature::UpTo150F, _, true) => 0.5,
    };
    plain(number).step("Ct", nds("2.3.3", Seen::Memory))
}

const WET: Citation = nds("4.3.3", Seen::Secondary);

/// Wet service factor `CM` for wood above 19 % moisture content in service.
///
/// | | `Fb` | `Ft` | `Fv` | `Fc⊥` | `Fc` | `E`, `Emin` |
/// |---|---|---|---|---|---|---|
/// | dimension lumber | 0.85 | 1.0 | 0.97 | 0.67 | 0.8 | 0.9 |
/// | timbers | 1.0 | 1.0 | 1.0 | 0.67 | 0.91 | 1.0 |
///
/// `sized` is the reference value times its size factor: dimension lumber with `Fb · CF ≤ 1150 psi`
/// or `Fc · CF ≤ 750 psi` takes 1.0 for that value.
///
/// # Source
///
/// NDS 2018 4.3.3 with the adjustment tables of Supplement Tables 4A, 4B, 4D: read in a handbook
/// that quotes them; 0.85, 0.97 and 0.9 confirmed by the worked examples in `tests/`.
pub fn wet_service(property: Property, table: SupplementTable, wet: bool, sized: Stress) -> Worked<Ratio> {
    // A product that is 1150 on paper may exceed it in the sixteenth digit.
    let exempt = |limit: f64| sized <= psi(limit + 1e-6);
    let number = match (wet, table, property) {
        (false, _, _) => 1.0,
        (_, SupplementTable::Timber, Property::CompressionPerpendicular) => 0.67,
        (_, SupplementTable::Timber, Property::CompressionParallel) => 0.91,
        (_, SupplementTable::Timber, _) => 1.0,
        (_, _, Property::Bending) if exempt(1150.0) => 1.0,
        (_, _, Property::Bending) => 0.85,
        (_, _, Property::Tension) => 1.0,
        (_, _, Property::Shear) => 0.97,
        (_, _, Property::CompressionPerpendicular) => 0.67,
        (_, _, Property::CompressionParallel) if exempt(750.0) => 1.0,
        (_, _, Property::CompressionParallel) => 0.8,
        (_, _, Property::Modulus) => 0.9,
    };
    plain(number).step("CM", WET)
}

/// Incising factor `Ci`: 0.95 on `E` and `Emin`, 1.0 on `Fc⊥`, 0.80 on the rest.
///
/// # Source
///
/// NDS 2018 4.3.8, Table 4.3.8: read in summaries, confirmed by the incised rows of the deck joist
/// table in `tests/`.
pub fn incising(property: Property, incised: bool) -> Worked<Ratio> {
    let number = match (incised, property) {
        (false, _) | (_, Property::CompressionPerpendicular) => 1.0,
        (_, Property::Modulus) => 0.95,
        _ => 0.8,
    };
    plain(number).step("Ci", nds("4.3.8", Seen::Secondary))
}

/// Repetitive member factor `Cr`: 1.15 on `Fb` of dimension lumber in a row of three or more, at
/// most 24 in apart, joined by something that spreads the load from one to the next.
///
/// Timbers take 1.0. Whether loose slats under a mattress count as joined is for the caller.
///
/// # Source
///
/// NDS 2018 4.3.9: read in summaries, confirmed by the span tables in `tests/`.
pub fn repetitive_member(table: SupplementTable, repetitive: bool) -> Worked<Ratio> {
    let number = if repetitive && table != SupplementTable::Timber { 1.15 } else { 1.0 };
    plain(number).step("Cr", nds("4.3.9", Seen::Secondary))
}

/// What surrounds a member in service.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Conditions {
    /// Above 19 % moisture content for long.
    pub wet: bool,
    /// The heat it is kept at.
    pub temperature: Temperature,
    /// Incised for treatment.
    pub incised: bool,
    /// Meets all conditions of [`repetitive_member`].
    pub repetitive: bool,
}
