//! Steel pipe, as it is used for rungs.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, nearest};
use super::row::{Row, Rows, Units, Wrong};
use crate::quantity::{Length, Stress};
use crate::source::Provenance;

/// One pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct Pipe {
    /// What it is asked for by: `3/4 in schedule 40`.
    pub name: String,
    /// Outside diameter.
    pub outside: Length,
    /// Nominal wall.
    pub wall: Length,
    /// Yield strength.
    pub yield_strength: Stress,
    /// The steel it is made of.
    pub steel: String,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    name: String,
    outside: f64,
    wall: f64,
    #[serde(rename = "yield")]
    yield_strength: f64,
    steel: String,
}

impl Row for Pipe {
    const ARRAY: &'static str = "pipe";
    type Printed = Printed;

    fn new(p: Printed, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.wall * 2.0 >= p.outside {
            return Err(Wrong::new("the wall leaves no bore", "wall is the thickness of the steel, on one side"));
        }
        Ok(Pipe {
            name: p.name,
            outside: units.length("outside", p.outside, (0.4, 5.0))?,
            wall: units.length("wall", p.wall, (0.03, 1.0))?,
            yield_strength: units.stress("yield", p.yield_strength, (25_000.0, 80_000.0))?,
            steel: p.steel,
            provenance,
        })
    }

    fn key(&self) -> String {
        spelling(&self.name)
    }
}

/// `3/4" sch 40`, `3/4 in. Sched. 40` and `3/4 inch schedule 40` are `3/4s40`.
fn spelling(name: &str) -> String {
    let lower = name.to_lowercase().replace("nps", "").replace("schedule", "s").replace("sched", "s");
    let lower =
        lower.replace("sch", "s").replace("inches", "").replace("inch", "").replace("in", "").replace("pipe", "");
    let kept: String = lower.chars().filter(|c| c.is_alphanumeric() || ['/', '-'].contains(c)).collect();
    kept.trim_matches('-').to_owned()
}

/// The pipes.
#[derive(Clone, Debug, Default)]
pub struct Pipes {
    rows: Vec<Pipe>,
}

impl Pipes {
    /// Every row.
    pub fn rows(&self) -> &[Pipe] {
        &self.rows
    }

    /// A pipe by its size and schedule.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest pipes.
    pub fn find(&self, name: &str) -> Result<&Pipe, NotFound> {
        let asked = spelling(name);
        self.rows.iter().find(|r| spelling(&r.name) == asked).ok_or_else(|| NotFound {
            asked: name.to_owned(),
            missing: Missing::Name("pipe"),
            nearest: nearest(name, self.rows.iter().map(|r| r.name.as_str())),
        })
    }
}

impl Table for Pipes {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/pipes.packed"));
    const ARRAYS: &'static [&'static str] = &["pipe"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.rows);
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &Pipe| {
            Entry::new("pipes", &r.name, &r.provenance)
                .fact("outside", r.outside)
                .fact("wall", r.wall)
                .fact("Fy", r.yield_strength)
                .text("steel", &r.steel)
        };
        self.rows.iter().map(entry).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_a_pipe_agree() {
        let table = Pipes::embedded();
        for same in ["3/4 in schedule 40", "3/4\" sch 40", "3/4 in. Sched. 40", "NPS 3/4 schedule 40 pipe"] {
            assert_eq!(table.find(same).unwrap().name, "3/4 in schedule 40", "{same}");
        }
        assert_eq!(table.find("1-1/4 in schedule 40").unwrap().name, "1-1/4 in schedule 40");
        assert!(table.find("3/4 in schedule 80").is_err());
    }
}
