//! What a piece of stock measures: nominal names and dressed sizes.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, nearest};
use super::row::{Row, Rows, Units, Wrong, ratio};
use crate::quantity::Length;
use crate::source::Provenance;

/// One stock size.
#[derive(Clone, Debug, PartialEq)]
pub struct StockSize {
    /// What it is asked for by: `2x4`, `5/4x6`, `8/4`, `45x95 mm`.
    pub name: String,
    /// Dressed thickness, the smaller side as named.
    pub thickness: Length,
    /// Dressed width; none for stock sold in random widths.
    pub width: Option<Length>,
    /// Nominal thickness and width in inches, for softwood named so.
    pub nominal: Option<(f64, f64)>,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    name: String,
    thickness: f64,
    width: Option<f64>,
    nominal: Option<(f64, f64)>,
}

impl Row for StockSize {
    const ARRAY: &'static str = "stock";
    type Printed = Printed;

    fn new(p: Printed, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let thickness = units.length("thickness", p.thickness, (0.2, 16.0))?;
        let width = p.width.map(|w| units.length("width", w, (0.5, 48.0))).transpose()?;
        if let Some((t, w)) = p.nominal {
            ratio("nominal thickness", t, (0.25, 24.0))?;
            ratio("nominal width", w, (0.25, 48.0))?;
        }
        Ok(StockSize { name: p.name, thickness, width, nominal: p.nominal, provenance })
    }

    fn key(&self) -> String {
        spelling(&self.name)
    }
}

/// `2 X 4`, `2×4`, `2" x 4"` and `2 by 4` are `2x4`.
fn spelling(name: &str) -> String {
    let lower = name.to_lowercase().replace('×', "x").replace("by", "x").replace("mm", "");
    lower.chars().filter(|c| c.is_alphanumeric() || ['/', '.'].contains(c)).collect()
}

/// The stock sizes.
#[derive(Clone, Debug, Default)]
pub struct Stock {
    rows: Vec<StockSize>,
}

impl Stock {
    /// Every row.
    pub fn rows(&self) -> &[StockSize] {
        &self.rows
    }

    /// A size by its name, in any of its usual spellings.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest sizes.
    pub fn find(&self, name: &str) -> Result<&StockSize, NotFound> {
        let asked = spelling(name);
        self.rows.iter().find(|r| spelling(&r.name) == asked).ok_or_else(|| NotFound {
            asked: name.to_owned(),
            missing: Missing::Name("stock size"),
            nearest: nearest(&asked, self.rows.iter().map(|r| r.name.as_str())),
        })
    }
}

impl Table for Stock {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/stock.packed"));
    const ARRAYS: &'static [&'static str] = &["stock"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.rows);
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &StockSize| {
            let entry = Entry::new("stock", &r.name, &r.provenance).fact("thickness", r.thickness);
            match r.width {
                Some(w) => entry.fact("width", w),
                None => entry.text("width", "random widths"),
            }
        };
        self.rows.iter().map(entry).collect()
    }
}
