//! Bolts with their nuts and washers, as rows of the table and with a length.

use serde::Deserialize;

use super::{FastenerError, Fasteners, cut, spelling};
use crate::quantity::{Length, Stress, length as read_length};
use crate::source::Provenance;
use crate::tables::entry::Entry;
use crate::tables::names::{Missing, NotFound, nearest};
use crate::tables::row::{Row, Units, Wrong};

/// A round washer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Washer {
    /// Its diameter.
    pub across: Length,
    /// Its hole.
    pub hole: Length,
    /// How thick it is.
    pub thickness: Length,
}

/// One bolt size, of any length.
#[derive(Clone, Debug, PartialEq)]
pub struct BoltSize {
    /// `3/8 in`, `M10`.
    pub name: String,
    /// `D`: diameter of the body.
    pub diameter: Length,
    /// `Dr`: diameter at the root of the thread.
    pub root: Length,
    /// Length of thread of bolts up to `long`, and of longer ones.
    pub thread: [Length; 2],
    /// The longest bolt with the shorter thread.
    pub long: Length,
    /// Height of the nut.
    pub nut: Length,
    /// `Fyb`: bending yield strength.
    pub bending_yield: Stress,
    /// `fu`: tensile strength.
    pub tensile: Stress,
    /// The washer that goes with it.
    pub washer: Washer,
    /// Where the row comes from.
    pub provenance: Provenance,
}

/// A bolt of a size and length, with a nut, and a washer under head and nut.
#[derive(Clone, Debug, PartialEq)]
pub struct Bolt {
    /// Size and length, such as `3/8 x 6 in`.
    pub designation: String,
    /// `D`: diameter of the body.
    pub diameter: Length,
    /// `Dr`: diameter at the root of the thread.
    pub root: Length,
    /// Length under the head.
    pub length: Length,
    /// Length of thread.
    pub thread: Length,
    /// Height of the nut.
    pub nut: Length,
    /// `Fyb`: bending yield strength.
    pub bending_yield: Stress,
    /// `fu`: tensile strength.
    pub tensile: Stress,
    /// Under head and nut.
    pub washer: Washer,
    /// Where its size comes from.
    pub provenance: Provenance,
}

impl Bolt {
    /// The shortest and the longest bolt of this thread that holds so much wood between its washers: the nut must
    /// be all on the thread, and the thread must reach it.
    pub fn lengths_through(&self, wood: Length) -> [Length; 2] {
        let grip = wood + self.washer.thickness * 2.0;
        [grip + self.nut, grip + self.thread]
    }

    /// Whether it fits through so much wood.
    pub fn fits(&self, wood: Length) -> bool {
        let [least, most] = self.lengths_through(wood);
        // A length of exactly so much must not fail in the sixteenth digit.
        self.length.value >= least.value * (1.0 - 1e-9) && self.length.value <= most.value * (1.0 + 1e-9)
    }

    /// Length of thread inside the last piece that it passes through, of all that wood.
    pub fn thread_inside(&self, wood: Length) -> Length {
        let smooth = self.length - self.thread - self.washer.thickness;
        (wood - smooth).max(Length::default())
    }
}

impl Fasteners {
    /// Every bolt size.
    pub fn bolts(&self) -> &[BoltSize] {
        &self.bolts
    }

    /// A bolt such as `3/8 x 6 in` or `M10 x 140 mm`.
    ///
    /// # Errors
    ///
    /// As [`screw`](Self::screw).
    pub fn bolt(&self, text: &str) -> Result<Bolt, FastenerError> {
        let (size, length) = cut(text);
        let plain = spelling(size);
        let row = self.bolts.iter().find(|r| spelling(&r.name) == plain).ok_or_else(|| {
            let near = nearest(size, self.bolts.iter().map(|r| r.name.as_str()));
            FastenerError::UnknownSize(NotFound { asked: size.into(), missing: Missing::Name("bolt"), nearest: near })
        })?;
        let short = row.name.trim_end_matches(" in");
        let Some(length) = length else {
            let unit = if row.name.starts_with('M') { "140 mm" } else { "6 in" };
            return Err(FastenerError::MissingLength {
                size: row.name.clone(),
                example: format!("\"{short} x {unit}\""),
            });
        };
        let under_head = read_length(length).map_err(FastenerError::Length)?;
        let (shortest, longest) = (row.diameter * 3.0, row.diameter * 60.0);
        if under_head < shortest || under_head > longest {
            return Err(FastenerError::Absurd { asked: format!("{} x {length}", row.name), shortest, longest });
        }
        Ok(Bolt {
            designation: format!("{short} x {length}"),
            diameter: row.diameter,
            root: row.root,
            length: under_head,
            thread: row.thread[usize::from(under_head > row.long)],
            nut: row.nut,
            bending_yield: row.bending_yield,
            tensile: row.tensile,
            washer: row.washer,
            provenance: row.provenance.clone(),
        })
    }
}

/// A size for a listing.
pub(super) fn entry(r: &BoltSize) -> Entry {
    Entry::new("fasteners", format!("{} bolt", r.name), &r.provenance)
        .text("kind", "bolt")
        .fact("D", r.diameter)
        .fact("Dr", r.root)
        .fact("thread", r.thread[0])
        .fact("thread of long bolts", r.thread[1])
        .fact("  longer than", r.long)
        .fact("nut, height", r.nut)
        .fact("Fyb", r.bending_yield)
        .fact("fu", r.tensile)
        .fact("washer, across", r.washer.across)
        .fact("washer, hole", r.washer.hole)
        .fact("washer, thickness", r.washer.thickness)
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedBolt {
    name: String,
    diameter: f64,
    root: f64,
    thread: [f64; 2],
    long: f64,
    nut: f64,
    bending_yield: f64,
    tensile: f64,
    /// Across, hole and thickness.
    washer: [f64; 3],
}

impl Row for BoltSize {
    const ARRAY: &'static str = "bolt";
    type Printed = PrintedBolt;

    fn new(p: PrintedBolt, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.root >= p.diameter {
            return Err(Wrong::new("root is not below diameter", "root is the diameter under the thread, about 0.8 D"));
        }
        let [across, hole, thickness] = p.washer;
        if hole <= p.diameter || across <= hole {
            let help = "washer = [across, hole, thickness], the hole wider than the bolt";
            return Err(Wrong::new("no bolt goes through this washer", help));
        }
        let length = |what, v, range| units.length(what, v, range);
        Ok(BoltSize {
            // Thinner ones are not in the rules for bolts of either family.
            diameter: length("diameter", p.diameter, (0.249, 1.01))?,
            root: length("root", p.root, (0.15, 1.0))?,
            thread: [length("thread", p.thread[0], (0.3, 6.0))?, length("thread", p.thread[1], (0.3, 6.0))?],
            long: length("long", p.long, (1.0, 12.0))?,
            nut: length("nut", p.nut, (0.1, 1.5))?,
            bending_yield: units.stress("bending_yield", p.bending_yield, (30_000.0, 250_000.0))?,
            tensile: units.stress("tensile", p.tensile, (40_000.0, 250_000.0))?,
            washer: Washer {
                across: length("washer", across, (0.4, 6.0))?,
                hole: length("washer", hole, (0.25, 1.5))?,
                thickness: length("washer", thickness, (0.03, 0.6))?,
            },
            name: p.name,
            provenance,
        })
    }

    fn key(&self) -> String {
        format!("{} bolt", self.name)
    }
}
