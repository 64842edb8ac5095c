//! Factors for a lower estimate from few boards.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::row::{Row, Rows, Units, Wrong};
use crate::quantity::number;
use crate::source::Provenance;

/// The factor for one size of sample.
#[derive(Clone, Debug, PartialEq)]
pub struct ToleranceFactor {
    /// How many boards.
    pub count: usize,
    /// `k`: so many standard deviations below the mean.
    pub factor: f64,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    n: usize,
    k: f64,
}

impl Row for ToleranceFactor {
    const ARRAY: &'static str = "tolerance";
    const HAS_UNITS: bool = false;
    type Printed = Printed;

    fn new(p: Printed, _: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.n < 3 || !(1.645..=10.0).contains(&p.k) {
            return Err(Wrong::new(
                format!("no sample of {} has the factor {}", p.n, p.k),
                "n is 3 or more, and k more than 1.645, which it nears as n grows",
            ));
        }
        Ok(ToleranceFactor { count: p.n, factor: p.k, provenance })
    }

    fn key(&self) -> String {
        format!("{} boards", self.count)
    }
}

/// Factors `k` of the one-sided tolerance limit of a normal distribution, 75 % confidence, fifth percentile.
#[derive(Clone, Debug, Default)]
pub struct Tolerance {
    rows: Vec<ToleranceFactor>,
}

impl Tolerance {
    /// Every row.
    pub fn rows(&self) -> &[ToleranceFactor] {
        &self.rows
    }

    /// The factor for a sample; that of the next smaller sample where there is no row of its own, which errs low.
    /// None for fewer than three.
    pub fn factor(&self, count: usize) -> Option<&ToleranceFactor> {
        self.rows.iter().filter(|r| r.count <= count).max_by_key(|r| r.count)
    }
}

impl Table for Tolerance {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/tolerance.packed"));
    const ARRAYS: &'static [&'static str] = &["tolerance"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.rows);
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &ToleranceFactor| {
            Entry::new("tolerance factors", format!("tolerance factor for {} boards", r.count), &r.provenance)
                .fact("k", number(r.factor))
        };
        self.rows.iter().map(entry).collect()
    }
}
