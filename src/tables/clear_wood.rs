//! Clear-wood species averages (small, straight-grained specimens). Not design values.

use std::fmt;

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, hyphened, joined, nearest_spelled, set, words};
use super::row::{Row, Rows, Units, Wrong, percent, ratio};
use crate::quantity::{Ratio, Stress};
use crate::source::Provenance;

/// Softwood or hardwood: decides the divisor from test strength to allowable stress.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum WoodKind {
    /// Cone-bearing.
    Softwood,
    /// Broad-leaved.
    Hardwood,
}

/// Average properties of clear wood at one moisture content, none missing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClearValues {
    /// Specific gravity, oven-dry weight over volume at test.
    pub specific_gravity: Ratio,
    /// Modulus of rupture.
    pub rupture: Stress,
    /// Modulus of elasticity.
    pub modulus: Stress,
    /// Maximum crushing strength along the grain.
    pub crushing: Stress,
    /// Stress at proportional limit across the grain.
    pub compression_perpendicular: Stress,
    /// Maximum shear strength along the grain.
    pub shear: Stress,
}

/// The same as printed, where a table may have a dash.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ClearCells {
    /// Specific gravity, oven-dry weight over volume at test.
    pub specific_gravity: Option<Ratio>,
    /// Modulus of rupture.
    pub rupture: Option<Stress>,
    /// Modulus of elasticity.
    pub modulus: Option<Stress>,
    /// Maximum crushing strength along the grain.
    pub crushing: Option<Stress>,
    /// Stress at proportional limit across the grain.
    pub compression_perpendicular: Option<Stress>,
    /// Maximum shear strength along the grain.
    pub shear: Option<Stress>,
}

/// A property of clear wood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
pub enum Property {
    /// Specific gravity.
    #[serde(rename = "sg")]
    SpecificGravity,
    /// Modulus of rupture.
    #[serde(rename = "mor")]
    Rupture,
    /// Modulus of elasticity.
    #[serde(rename = "moe")]
    Modulus,
    /// Crushing strength along the grain.
    #[serde(rename = "cpar")]
    Crushing,
    /// Stress at proportional limit across the grain.
    #[serde(rename = "cperp")]
    CompressionPerpendicular,
    /// Shear along the grain.
    #[serde(rename = "shear")]
    Shear,
}

impl fmt::Display for Property {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Property::SpecificGravity => "specific gravity",
            Property::Rupture => "modulus of rupture",
            Property::Modulus => "modulus of elasticity",
            Property::Crushing => "crushing strength along the grain",
            Property::CompressionPerpendicular => "compression strength across the grain",
            Property::Shear => "shear strength along the grain",
        })
    }
}

/// A species whose table has a dash where a check needs a number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MissingProperty {
    /// The species.
    pub species: String,
    /// `green` or `dry`.
    pub condition: &'static str,
    /// What the table does not give.
    pub property: Property,
}

impl fmt::Display for MissingProperty {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the tables give no {} of {} wood for {}", self.property, self.condition, self.species)
    }
}

impl std::error::Error for MissingProperty {}

impl MissingProperty {
    /// What would be right.
    pub fn help(&self) -> &'static str {
        "choose a species with a complete row, or add the missing value with its source in a table file of your own"
    }
}

/// One species.
#[derive(Clone, Debug, PartialEq)]
pub struct ClearSpecies {
    /// Its name as a key: `maple-sugar-hard`.
    pub key: String,
    /// Its name as printed: `Maple, sugar (hard)`.
    pub name: String,
    /// Other names.
    pub also: Vec<String>,
    /// Softwood or hardwood.
    pub kind: WoodKind,
    /// Green wood as printed.
    pub green_cells: ClearCells,
    /// Dry wood as printed.
    pub dry_cells: ClearCells,
    /// Moisture content of the dry row, usually 12 %.
    pub dry_moisture: Ratio,
    /// Moisture content `Mp` below which drying changes the properties (Wood Handbook, equation 5-3).
    pub intersection_moisture: Ratio,
    /// Where the row comes from, and where sources disagree.
    pub provenance: Provenance,
}

impl ClearSpecies {
    /// Averages of green wood.
    ///
    /// # Errors
    ///
    /// [`MissingProperty`] names the first value the table does not print.
    pub fn green(&self) -> Result<ClearValues, MissingProperty> {
        self.complete("green", &self.green_cells)
    }

    /// Averages of dry wood, at [`dry_moisture`](Self::dry_moisture).
    ///
    /// # Errors
    ///
    /// As [`green`](Self::green).
    pub fn dry(&self) -> Result<ClearValues, MissingProperty> {
        self.complete("dry", &self.dry_cells)
    }

    fn complete(&self, condition: &'static str, cells: &ClearCells) -> Result<ClearValues, MissingProperty> {
        let missing = |property| MissingProperty { species: self.name.clone(), condition, property };
        Ok(ClearValues {
            specific_gravity: cells.specific_gravity.ok_or_else(|| missing(Property::SpecificGravity))?,
            rupture: cells.rupture.ok_or_else(|| missing(Property::Rupture))?,
            modulus: cells.modulus.ok_or_else(|| missing(Property::Modulus))?,
            crushing: cells.crushing.ok_or_else(|| missing(Property::Crushing))?,
            compression_perpendicular: cells
                .compression_perpendicular
                .ok_or_else(|| missing(Property::CompressionPerpendicular))?,
            shear: cells.shear.ok_or_else(|| missing(Property::Shear))?,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PrintedCells {
    sg: Option<f64>,
    mor: Option<f64>,
    moe: Option<f64>,
    cpar: Option<f64>,
    cperp: Option<f64>,
    shear: Option<f64>,
}

impl PrintedCells {
    fn cells(self, units: Units) -> Result<ClearCells, Wrong> {
        Ok(ClearCells {
            specific_gravity: self.sg.map(|v| ratio("sg", v, (0.1, 1.3))).transpose()?,
            rupture: self.mor.map(|v| units.stress("mor", v, (1500.0, 40_000.0))).transpose()?,
            modulus: self.moe.map(|v| units.modulus("moe", v, (0.3, 4.0))).transpose()?,
            crushing: self.cpar.map(|v| units.stress("cpar", v, (800.0, 20_000.0))).transpose()?,
            compression_perpendicular: self.cperp.map(|v| units.stress("cperp", v, (80.0, 5000.0))).transpose()?,
            shear: self.shear.map(|v| units.stress("shear", v, (200.0, 5000.0))).transpose()?,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedSpecies {
    name: String,
    #[serde(default)]
    also: Vec<String>,
    kind: WoodKind,
    intersection_moisture: f64,
    green: PrintedCells,
    dry: PrintedCells,
    #[serde(default = "twelve")]
    dry_moisture: f64,
}

fn twelve() -> f64 {
    12.0
}

impl Row for ClearSpecies {
    const ARRAY: &'static str = "clear_wood";
    type Printed = PrintedSpecies;

    fn new(p: PrintedSpecies, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        Ok(ClearSpecies {
            key: hyphened(&p.name),
            kind: p.kind,
            green_cells: p.green.cells(units)?,
            dry_cells: p.dry.cells(units)?,
            dry_moisture: percent("dry_moisture", p.dry_moisture, (5.0, 20.0))?,
            intersection_moisture: percent("intersection_moisture", p.intersection_moisture, (18.0, 35.0))?,
            name: p.name,
            also: p.also,
            provenance,
        })
    }

    fn key(&self) -> String {
        self.key.clone()
    }
}

/// How much a property varies between pieces of one species.
#[derive(Clone, Debug, PartialEq)]
pub struct Variation {
    /// The property.
    pub property: Property,
    /// Coefficient of variation: standard deviation over mean.
    pub coefficient: Ratio,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedVariation {
    property: Property,
    percent: f64,
}

impl Row for Variation {
    const ARRAY: &'static str = "variation";
    const HAS_UNITS: bool = false;
    type Printed = PrintedVariation;

    fn new(p: PrintedVariation, _: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let coefficient = percent("percent", p.percent, (1.0, 60.0))?;
        Ok(Variation { property: p.property, coefficient, provenance })
    }

    fn key(&self) -> String {
        format!("variation of {}", self.property)
    }
}

/// The clear-wood averages, Wood Handbook chapter 5 (FPL-GTR-282, 2021; FPL-GTR-190, 2010).
#[derive(Clone, Debug, Default)]
pub struct ClearWood {
    rows: Vec<ClearSpecies>,
    variations: Vec<Variation>,
}

impl ClearWood {
    /// Every species.
    pub fn rows(&self) -> &[ClearSpecies] {
        &self.rows
    }

    /// The coefficient of variation of a property, the same for all species.
    pub fn variation(&self, property: Property) -> &Variation {
        self.variations
            .iter()
            .find(|v| v.property == property)
            .unwrap_or_else(|| unreachable!("the embedded table has a row for every property"))
    }

    /// A species by its name, words in any order (`sugar maple`, `maple, sugar`). A part of a name will do
    /// when it fits one species only.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest names, or with all that fit.
    pub fn find(&self, name: &str) -> Result<&ClearSpecies, NotFound> {
        let what = "species of wood";
        let (run, asked) = (joined(name), set(words(name)));
        let spelled = |r: &ClearSpecies| r.also.iter().chain([&r.name]).map(|n| words(n)).collect::<Vec<_>>();
        let exact = |r: &&ClearSpecies| spelled(r).into_iter().any(|own| own.concat() == run || set(own) == asked);
        if let Some(row) = self.rows.iter().find(exact) {
            return Ok(row);
        }
        let fits = |r: &&ClearSpecies| {
            let own = spelled(r).concat();
            !asked.is_empty() && asked.iter().all(|a| own.contains(a))
        };
        let fitting: Vec<&ClearSpecies> = self.rows.iter().filter(fits).collect();
        match fitting.as_slice() {
            [one] => Ok(one),
            [] => Err(NotFound {
                asked: name.to_owned(),
                missing: Missing::Name(what),
                nearest: nearest_spelled(
                    name,
                    self.rows
                        .iter()
                        .flat_map(|r| r.also.iter().chain([&r.name]).map(|s| (s.as_str(), r.name.as_str()))),
                ),
            }),
            many => Err(NotFound {
                asked: name.to_owned(),
                missing: Missing::Choice(what),
                nearest: many.iter().map(|r| r.name.clone()).collect(),
            }),
        }
    }
}

impl Table for ClearWood {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/clear_wood.packed"));
    const ARRAYS: &'static [&'static str] = &["clear_wood", "variation"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.variations);
        from.add_to(&mut self.rows);
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &ClearSpecies| {
            let kind = match r.kind {
                WoodKind::Softwood => "softwood",
                WoodKind::Hardwood => "hardwood",
            };
            let mut entry = Entry::new("clear wood", &r.name, &r.provenance).also(&r.also).text("kind", kind);
            for (condition, c) in [("green", &r.green_cells), ("dry", &r.dry_cells)] {
                entry = entry
                    .maybe(&format!("specific gravity, {condition}"), c.specific_gravity)
                    .maybe(&format!("modulus of rupture, {condition}"), c.rupture)
                    .maybe(&format!("modulus of elasticity, {condition}"), c.modulus)
                    .maybe(&format!("crushing along the grain, {condition}"), c.crushing)
                    .maybe(&format!("compression across the grain, {condition}"), c.compression_perpendicular)
                    .maybe(&format!("shear along the grain, {condition}"), c.shear);
            }
            entry
        };
        self.rows.iter().map(entry).collect()
    }
}
