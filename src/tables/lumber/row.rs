//! One row of the supplement: what it is for and what it holds.

use std::fmt;

use serde::Deserialize;

use crate::quantity::{Measured, Ratio, Stress};
use crate::source::Provenance;
use crate::tables::entry::Fact;
use crate::tables::names::hyphened;
use crate::tables::row::{Band, Row, Units, Wrong, ratio};

/// Reference design values of one species, grade and size class.
///
/// Symbols as in the NDS: `Fb` bending, `Ft` tension, `Fv` shear, `Fc⊥` and `Fc` compression
/// across and along the grain, `E` mean and `Emin` stability modulus, `G` specific gravity
/// (oven-dry weight and volume).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferenceValues {
    /// `Fb`.
    pub bending: Stress,
    /// `Ft`.
    pub tension: Stress,
    /// `Fv`.
    pub shear: Stress,
    /// `Fc⊥`.
    pub compression_perpendicular: Stress,
    /// `Fc`.
    pub compression_parallel: Stress,
    /// `E`.
    pub modulus: Stress,
    /// `Emin`.
    pub modulus_for_stability: Stress,
    /// `G`.
    pub specific_gravity: Ratio,
}

impl ReferenceValues {
    /// The values with their symbols, in the order of the printed table.
    pub(super) fn facts(&self) -> [(String, Fact); 8] {
        let fact = |label: &str, m| (label.to_owned(), Fact::Measure(m));
        [
            fact("Fb", self.bending.measure()),
            fact("Ft", self.tension.measure()),
            fact("Fv", self.shear.measure()),
            fact("Fc⊥", self.compression_perpendicular.measure()),
            fact("Fc", self.compression_parallel.measure()),
            fact("E", self.modulus.measure()),
            fact("Emin", self.modulus_for_stability.measure()),
            fact("G", self.specific_gravity.measure()),
        ]
    }
}

/// Which table of the supplement a row belongs to; it decides the size factor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
pub enum SupplementTable {
    /// 4A: dimension lumber of all species but southern pine; base values, multiplied by `CF`.
    #[serde(rename = "4A")]
    DimensionLumber,
    /// 4B: southern pine dimension lumber; values are for one width, `CF` already in them.
    #[serde(rename = "4B")]
    SouthernPine,
    /// 4D: timbers 5 × 5 and larger.
    #[serde(rename = "4D")]
    Timber,
}

/// How a timber's width stands to its thickness; the two classes are graded differently.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
pub enum TimberClass {
    /// Width at most 2 in more than thickness.
    #[serde(rename = "posts and timbers")]
    PostsAndTimbers,
    /// Width more than 2 in more than thickness.
    #[serde(rename = "beams and stringers")]
    BeamsAndStringers,
}

/// The nominal sizes a row is for, in inches, ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NominalSizes {
    /// From and to.
    pub thickness: (f64, f64),
    /// From and to.
    pub width: (f64, f64),
    /// The class of a timber, where the grading rules part them.
    pub class: Option<TimberClass>,
}

impl NominalSizes {
    /// Whether a nominal size is among them.
    pub fn contains(&self, thickness: f64, width: f64) -> bool {
        let within = |v: f64, (from, to): (f64, f64)| v >= from && v <= to;
        let shape = match self.class {
            None => true,
            Some(TimberClass::PostsAndTimbers) => width - thickness <= 2.0,
            Some(TimberClass::BeamsAndStringers) => width - thickness > 2.0,
        };
        within(thickness, self.thickness) && within(width, self.width) && shape
    }
}

impl fmt::Display for NominalSizes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let range = |(from, to): (f64, f64)| match to {
            _ if from == to => format!("{from} in"),
            _ if to.is_infinite() => format!("{from} in and more"),
            _ => format!("{from} to {to} in"),
        };
        write!(f, "{} thick, {} wide", range(self.thickness), range(self.width))?;
        match self.class {
            None => Ok(()),
            Some(TimberClass::PostsAndTimbers) => f.write_str(" (width at most thickness + 2 in)"),
            Some(TimberClass::BeamsAndStringers) => f.write_str(" (width over thickness + 2 in)"),
        }
    }
}

/// One row of the supplement.
#[derive(Clone, Debug, PartialEq)]
pub struct LumberRow {
    /// Species or species combination.
    pub species: String,
    /// Grade.
    pub grade: String,
    /// Nominal sizes the values are for.
    pub sizes: NominalSizes,
    /// The table it belongs to.
    pub table: SupplementTable,
    /// The values.
    pub values: ReferenceValues,
    /// Where the row comes from.
    pub provenance: Provenance,
}

impl LumberRow {
    /// Species and grade.
    pub fn name(&self) -> String {
        format!("{} {}", self.species, self.grade)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    species: String,
    grade: String,
    table: SupplementTable,
    thickness: (f64, f64),
    width: (f64, f64),
    class: Option<TimberClass>,
    #[serde(rename = "Fb")]
    fb: f64,
    #[serde(rename = "Ft")]
    ft: f64,
    #[serde(rename = "Fv")]
    fv: f64,
    #[serde(rename = "Fc_perp")]
    fc_perp: f64,
    #[serde(rename = "Fc")]
    fc: f64,
    #[serde(rename = "E")]
    e: f64,
    #[serde(rename = "Emin")]
    e_min: f64,
    #[serde(rename = "G")]
    g: f64,
}

impl Row for LumberRow {
    const ARRAY: &'static str = "lumber";
    type Printed = Printed;

    fn new(p: Printed, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        for (name, (from, to)) in [("thickness", p.thickness), ("width", p.width)] {
            if !(from > 0.0 && from <= to) {
                return Err(Wrong::new(
                    format!("{name} = [{from}, {to}] holds no size"),
                    "write the smallest and the largest nominal size in inches, `inf` for no upper end",
                ));
            }
        }
        let stress = |name, printed, band: Band| units.stress(name, printed, band);
        let values = ReferenceValues {
            bending: stress("Fb", p.fb, (100.0, 5000.0))?,
            tension: stress("Ft", p.ft, (50.0, 4000.0))?,
            shear: stress("Fv", p.fv, (50.0, 500.0))?,
            compression_perpendicular: stress("Fc_perp", p.fc_perp, (100.0, 2000.0))?,
            compression_parallel: stress("Fc", p.fc, (100.0, 5000.0))?,
            modulus: stress("E", p.e, (0.4e6, 3.0e6))?,
            modulus_for_stability: stress("Emin", p.e_min, (0.1e6, 1.6e6))?,
            specific_gravity: ratio("G", p.g, (0.2, 1.1))?,
        };
        if values.modulus_for_stability >= values.modulus {
            return Err(Wrong::new("Emin is not below E", "Emin is about 0.37 E for visually graded lumber"));
        }
        let sizes = NominalSizes { thickness: p.thickness, width: p.width, class: p.class };
        Ok(LumberRow { species: p.species, grade: p.grade, sizes, table: p.table, values, provenance })
    }

    fn key(&self) -> String {
        format!("{}, {}", hyphened(&self.name()), self.sizes)
    }
}
