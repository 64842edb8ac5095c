//! How long a load lasts, and what that does to the strength of wood: the load duration factor `CD`.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::row::{Row, Rows, Units, Wrong, ratio};
use crate::quantity::Ratio;
use crate::source::Provenance;

/// The load durations of allowable stress design. A combination has that of its shortest load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum LoadDuration {
    /// Dead load.
    Permanent,
    /// Occupancy live load.
    #[serde(rename = "ten years")]
    TenYears,
    /// Snow.
    #[serde(rename = "two months")]
    TwoMonths,
    /// Construction load.
    #[serde(rename = "seven days")]
    SevenDays,
    /// Wind and earthquake.
    #[serde(rename = "ten minutes")]
    TenMinutes,
    /// Impact. Not for connections.
    Impact,
}

impl LoadDuration {
    /// The name the standard prints.
    pub fn name(self) -> &'static str {
        match self {
            LoadDuration::Permanent => "permanent",
            LoadDuration::TenYears => "ten years",
            LoadDuration::TwoMonths => "two months",
            LoadDuration::SevenDays => "seven days",
            LoadDuration::TenMinutes => "ten minutes",
            LoadDuration::Impact => "impact",
        }
    }
}

/// One row: the factor for one duration.
#[derive(Clone, Debug, PartialEq)]
pub struct DurationFactor {
    /// The duration.
    pub duration: LoadDuration,
    /// `CD`.
    pub factor: Ratio,
    /// The load it is typical of.
    pub typical: String,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    name: LoadDuration,
    factor: f64,
    typical: String,
}

impl Row for DurationFactor {
    const ARRAY: &'static str = "duration";
    const HAS_UNITS: bool = false;
    type Printed = Printed;

    fn new(p: Printed, _: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let factor = ratio("factor", p.factor, (0.5, 2.0))?;
        Ok(DurationFactor { duration: p.name, factor, typical: p.typical, provenance })
    }

    fn key(&self) -> String {
        self.duration.name().into()
    }
}

/// The load duration factors `CD`, NDS 2018 Table 2.3.2.
#[derive(Clone, Debug, Default)]
pub struct Durations {
    rows: Vec<DurationFactor>,
}

impl Durations {
    /// Every row.
    pub fn rows(&self) -> &[DurationFactor] {
        &self.rows
    }

    /// The row of one duration.
    pub fn factor(&self, duration: LoadDuration) -> &DurationFactor {
        self.rows
            .iter()
            .find(|r| r.duration == duration)
            .unwrap_or_else(|| unreachable!("the embedded table has a row for every duration"))
    }
}

impl Table for Durations {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/durations.packed"));
    const ARRAYS: &'static [&'static str] = &["duration"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.rows);
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &DurationFactor| {
            Entry::new("durations", r.duration.name(), &r.provenance)
                .fact("CD", r.factor)
                .text("typical of", &r.typical)
        };
        self.rows.iter().map(entry).collect()
    }
}
