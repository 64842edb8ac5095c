//! From characteristic to design value: load duration, moisture and the partial factor.

use super::ec5;
use crate::derivation::{Worked, plain};
use crate::quantity::{Measured, Ratio};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use std::ops::{Div, Mul};

/// Load-duration class, from the longest to the shortest.
///
/// # Source
///
/// EN 1995-1-1 2.3.1.2, Tables 2.1 and 2.2, read in summaries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LoadDuration {
    /// More than ten years: self-weight.
    Permanent,
    /// Six months to ten years: storage.
    LongTerm,
    /// A week to six months: imposed floor load.
    MediumTerm,
    /// Less than a week.
    ShortTerm,
    /// Impact, accident.
    Instantaneous,
}

impl LoadDuration {
    /// The class of a combination of actions: that of its shortest action. `None` without actions.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 3.1.3(2), read in summaries.
    pub fn of_combination(actions: &[LoadDuration]) -> Option<LoadDuration> {
        actions.iter().max().copied()
    }
}

/// Service class: how moist the surrounding air keeps the wood.
///
/// # Source
///
/// EN 1995-1-1 2.3.1.3, from memory.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ServiceClass {
    /// 20 °C and more than 65 % relative humidity for a few weeks of the year only: heated rooms.
    One,
    /// 20 °C and more than 85 % for a few weeks of the year only: unheated, under a roof.
    Two,
    /// Moister: in the weather.
    Three,
}

/// Where the nationally determined parameters are taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum NationalChoice {
    /// The values EN 1995-1-1 and EN 1990 recommend.
    #[default]
    Recommended,
    /// The British national annexes.
    UnitedKingdom,
    /// The German national annexes.
    Germany,
}

impl NationalChoice {
    /// The clause with the annex that decides it.
    pub(super) fn cite(self, recommended: &'static str, seen: Seen) -> Citation {
        let annex = match self {
            NationalChoice::Recommended => return ec5(recommended, seen),
            NationalChoice::UnitedKingdom => "UK NA to EN 1995-1-1:2004+A1:2008",
            NationalChoice::Germany => "DIN EN 1995-1-1/NA:2013",
        };
        Citation::new(annex, recommended, seen)
    }
}

/// A material the tables tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Material {
    /// Solid timber, EN 14081-1.
    SolidTimber,
    /// Glued laminated timber, EN 14080.
    GluedLaminated,
    /// Laminated veneer lumber, EN 14374.
    VeneerLumber,
    /// Plywood, EN 636, of the type its service class asks for.
    Plywood,
    /// Oriented strand board OSB/3 or OSB/4, EN 300.
    StrandBoard,
}

impl Material {
    fn name(self) -> &'static str {
        match self {
            Material::SolidTimber => "solid timber",
            Material::GluedLaminated => "glued laminated timber",
            Material::VeneerLumber => "laminated veneer lumber",
            Material::Plywood => "plywood",
            Material::StrandBoard => "OSB",
        }
    }

    fn in_the_weather(self, table: &'static str) -> RuleError {
        RuleError::not_covered(
            format!("{} in service class 3", self.name()),
            format!("EN 1995-1-1 {table} gives no value: use plywood or solid timber, or keep it under a roof"),
        )
    }
}

/// Modification factor `kmod` for load duration and service class.
///
/// | | permanent | long | medium | short | instantaneous |
/// |---|---|---|---|---|---|
/// | solid, glued laminated, veneer lumber, plywood; class 1 and 2 | 0.60 | 0.70 | 0.80 | 0.90 | 1.10 |
/// | the same; class 3 | 0.50 | 0.55 | 0.65 | 0.70 | 0.90 |
/// | OSB/3, OSB/4; class 1 | 0.40 | 0.50 | 0.70 | 0.90 | 1.10 |
/// | the same; class 2 | 0.30 | 0.40 | 0.55 | 0.70 | 0.90 |
///
/// # Source
///
/// EN 1995-1-1 3.1.3, Table 3.1, read in summaries.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for OSB in service class 3.
pub fn modification(
    material: Material,
    duration: LoadDuration,
    service: ServiceClass,
) -> Result<Worked<Ratio>, RuleError> {
    let row = match (material, service) {
        (Material::StrandBoard, ServiceClass::One) => [0.40, 0.50, 0.70, 0.90, 1.10],
        (Material::StrandBoard, ServiceClass::Two) => [0.30, 0.40, 0.55, 0.70, 0.90],
        (Material::StrandBoard, ServiceClass::Three) => return Err(material.in_the_weather("Table 3.1")),
        (_, ServiceClass::Three) => [0.50, 0.55, 0.65, 0.70, 0.90],
        _ => [0.60, 0.70, 0.80, 0.90, 1.10],
    };
    let [permanent, long, medium, short, instantaneous] = row;
    let value = match duration {
        LoadDuration::Permanent => permanent,
        LoadDuration::LongTerm => long,
        LoadDuration::MediumTerm => medium,
        LoadDuration::ShortTerm => short,
        LoadDuration::Instantaneous => instantaneous,
    };
    Ok(plain(value).step("kmod", ec5("Table 3.1", Seen::Secondary)))
}

/// `kmod` of a connection between two materials, `kmod = sqrt(kmod,1 · kmod,2)`.
///
/// # Source
///
/// EN 1995-1-1 2.3.2.1(2), equation 2.6, from memory.
pub fn modification_of_joint(first: Worked<Ratio>, second: Worked<Ratio>) -> Worked<Ratio> {
    (first * second).root().step("kmod", ec5("(2.6)", Seen::Memory))
}

/// Deformation factor `kdef` for creep.
///
/// | | class 1 | class 2 | class 3 |
/// |---|---|---|---|
/// | solid, glued laminated, veneer lumber | 0.60 | 0.80 | 2.00 |
/// | plywood | 0.80 | 1.00 | 2.50 |
/// | OSB/3, OSB/4 | 1.50 | 2.25 | |
///
/// # Source
///
/// EN 1995-1-1 3.1.4, Table 3.2, read in summaries.
///
/// # Errors
///
/// [`RuleError::NotCovered`] for OSB in service class 3.
pub fn deformation(material: Material, service: ServiceClass) -> Result<Worked<Ratio>, RuleError> {
    let value = match (material, service) {
        (Material::StrandBoard, ServiceClass::One) => 1.5,
        (Material::StrandBoard, ServiceClass::Two) => 2.25,
        (Material::StrandBoard, ServiceClass::Three) => return Err(material.in_the_weather("Table 3.2")),
        (Material::Plywood, ServiceClass::One) => 0.8,
        (Material::Plywood, ServiceClass::Two) => 1.0,
        (Material::Plywood, ServiceClass::Three) => 2.5,
        (_, ServiceClass::One) => 0.6,
        (_, ServiceClass::Two) => 0.8,
        (_, ServiceClass::Three) => 2.0,
    };
    Ok(plain(value).step("kdef", ec5("Table 3.2", Seen::Secondary)))
}

/// `kdef` of a connection between two woods, `kdef = 2 · sqrt(kdef,1 · kdef,2)`.
///
/// Between equal woods this is the doubling of 2.3.2.2(3).
///
/// # Source
///
/// EN 1995-1-1 2.3.2.2(3) and (4), equation 2.13, from memory.
pub fn deformation_of_joint(first: Worked<Ratio>, second: Worked<Ratio>) -> Worked<Ratio> {
    (plain(2.0) * (first * second).root()).step("kdef", ec5("(2.13)", Seen::Memory))
}

/// Partial factor `γM` of a material, fundamental combinations.
///
/// Recommended and British: solid timber 1.3, glued laminated 1.25, veneer lumber, plywood and OSB
/// 1.2. German: 1.3 for all.
///
/// # Source
///
/// EN 1995-1-1 2.4.1, Table 2.3, read in summaries; the British annex from memory; the German annex
/// read in data of a library that follows it, plywood and OSB from memory.
pub fn partial_factor(material: Material, choice: NationalChoice) -> Worked<Ratio> {
    let panel = matches!(material, Material::Plywood | Material::StrandBoard);
    let (value, seen) = match (choice, material) {
        (NationalChoice::Germany, _) => (1.3, if panel { Seen::Memory } else { Seen::Secondary }),
        (NationalChoice::UnitedKingdom, m) => (recommended_partial_factor(m), Seen::Memory),
        (NationalChoice::Recommended, m) => (recommended_partial_factor(m), Seen::Secondary),
    };
    plain(value).step("γM", choice.cite("Table 2.3", seen))
}

fn recommended_partial_factor(material: Material) -> f64 {
    match material {
        Material::SolidTimber => 1.3,
        Material::GluedLaminated => 1.25,
        Material::VeneerLumber | Material::Plywood | Material::StrandBoard => 1.2,
    }
}

/// Partial factor `γM` of a connection: 1.3 in every annex known here.
///
/// # Source
///
/// EN 1995-1-1 2.4.1, Table 2.3, read in summaries; the annexes from memory. The German annex lowers
/// it for its simplified dowel formulas only, which are not used here.
pub fn partial_factor_of_connection(choice: NationalChoice) -> Worked<Ratio> {
    let seen = if choice == NationalChoice::Recommended { Seen::Secondary } else { Seen::Memory };
    plain(1.3).step("γM", choice.cite("Table 2.3", seen))
}

/// Design value of a strength or a resistance, `Xd = kmod · Xk / γM`.
///
/// | symbol | |
/// |---|---|
/// | `kmod` | [`modification`] |
/// | `Xk` | characteristic strength or resistance, with the factors on it |
/// | `γM` | [`partial_factor`] or [`partial_factor_of_connection`] |
///
/// # Source
///
/// EN 1995-1-1 2.4.1 and 2.4.3, equations 2.14 and 2.17, read in summaries.
pub fn design_value<Q>(
    symbol: &'static str,
    kmod: Worked<Ratio>,
    characteristic: Worked<Q>,
    partial: Worked<Ratio>,
) -> Worked<Q>
where
    Q: Measured + Div<Ratio, Output = Q>,
    Ratio: Mul<Q, Output = Q>,
{
    (kmod * characteristic / partial).step(symbol, ec5("2.4", Seen::Secondary))
}
