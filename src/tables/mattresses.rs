//! Mattress sizes, and how thick and heavy a mattress is when the brief does not say.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, hyphened, nearest};
use super::row::{Row, Rows, Units, Wrong};
use crate::quantity::{Length, Mass};
use crate::source::Provenance;

/// One mattress size.
#[derive(Clone, Debug, PartialEq)]
pub struct Mattress {
    /// Trade name, such as `queen`.
    pub name: String,
    /// Other names.
    pub also: Vec<String>,
    /// Across the bed.
    pub width: Length,
    /// Head to foot.
    pub length: Length,
    /// Thickness when none is given.
    pub thickness: Length,
    /// Mass of a light one, such as thin foam.
    pub light: Mass,
    /// Mass of a typical one.
    pub typical: Mass,
    /// Mass of a heavy one, such as latex.
    pub heavy: Mass,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Printed {
    name: String,
    #[serde(default)]
    also: Vec<String>,
    width: f64,
    length: f64,
    thickness: f64,
    light: f64,
    typical: f64,
    heavy: f64,
}

impl Row for Mattress {
    const ARRAY: &'static str = "mattress";
    type Printed = Printed;

    fn new(p: Printed, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let mass = |name, printed| units.mass(name, printed, (1.0, 600.0));
        if !(p.light <= p.typical && p.typical <= p.heavy) {
            return Err(Wrong::new("light, typical and heavy are out of order", "the lightest comes first"));
        }
        Ok(Mattress {
            width: units.length("width", p.width, (20.0, 120.0))?,
            length: units.length("length", p.length, (40.0, 120.0))?,
            thickness: units.length("thickness", p.thickness, (1.0, 24.0))?,
            light: mass("light", p.light)?,
            typical: mass("typical", p.typical)?,
            heavy: mass("heavy", p.heavy)?,
            name: p.name,
            also: p.also,
            provenance,
        })
    }

    fn key(&self) -> String {
        hyphened(&self.name)
    }
}

/// The mattress sizes.
#[derive(Clone, Debug, Default)]
pub struct Mattresses {
    rows: Vec<Mattress>,
}

impl Mattresses {
    /// Every row.
    pub fn rows(&self) -> &[Mattress] {
        &self.rows
    }

    /// A mattress by its trade name.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest names.
    pub fn find(&self, name: &str) -> Result<&Mattress, NotFound> {
        let asked = hyphened(name);
        let named = |r: &&Mattress| r.also.iter().chain([&r.name]).any(|n| hyphened(n) == asked);
        self.rows.iter().find(named).ok_or_else(|| NotFound {
            asked: name.to_owned(),
            missing: Missing::Name("mattress size"),
            nearest: nearest(name, self.rows.iter().map(|r| r.name.as_str())),
        })
    }
}

impl Table for Mattresses {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/mattresses.packed"));
    const ARRAYS: &'static [&'static str] = &["mattress"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.rows);
    }

    fn entries(&self) -> Vec<Entry> {
        let entry = |r: &Mattress| {
            Entry::new("mattresses", &r.name, &r.provenance)
                .also(&r.also)
                .fact("width", r.width)
                .fact("length", r.length)
                .fact("thickness", r.thickness)
                .fact("light", r.light)
                .fact("typical", r.typical)
                .fact("heavy", r.heavy)
        };
        self.rows.iter().map(entry).collect()
    }
}
