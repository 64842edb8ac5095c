//! Loads that codes ask of floors where people sleep, and those of published furniture tests.

use serde::Deserialize;

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, nearest};
use super::row::{Row, Rows, Units, Wrong, ratio};
use crate::quantity::{AreaLoad, Force, Length};
use crate::source::Provenance;

/// What a nation's code asks of a floor where people sleep; the one or the other, not both together.
#[derive(Clone, Debug, PartialEq)]
pub struct CodeLoad {
    /// `us`, or a nation of the ec5 rules: `recommended`, `uk`, `germany`.
    pub nation: String,
    /// What floor it is for, in words.
    pub place: String,
    /// Load over the whole.
    pub uniform: AreaLoad,
    /// Load at one place.
    pub point: Force,
    /// Side of the square that the point load covers.
    pub patch: Length,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedCode {
    nation: String,
    place: String,
    uniform: f64,
    point: f64,
    patch: f64,
}

impl Row for CodeLoad {
    const ARRAY: &'static str = "code_load";
    type Printed = PrintedCode;

    fn new(p: PrintedCode, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        Ok(CodeLoad {
            uniform: units.area_load("uniform", p.uniform, (5.0, 300.0))?,
            point: units.force("point", p.point, (20.0, 5000.0))?,
            patch: units.length("patch", p.patch, (0.5, 60.0))?,
            nation: p.nation,
            place: p.place,
            provenance,
        })
    }

    fn key(&self) -> String {
        self.nation.clone()
    }
}

/// Where the pads of a test go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PadPlace {
    /// Anywhere on the base.
    Anywhere,
    /// At the middle of a long edge.
    Edge,
}

/// One load of a published furniture test.
#[derive(Clone, Debug, PartialEq)]
pub struct ProofLoad {
    /// The set it belongs to, such as `en1725`.
    pub set: String,
    /// What the test is called there.
    pub name: String,
    /// Where the pads go.
    pub place: PadPlace,
    /// Force on each pad.
    pub force: Force,
    /// How many pads.
    pub pads: usize,
    /// Diameter of a pad.
    pub pad: Length,
    /// How often and how long.
    pub times: String,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedProof {
    set: String,
    name: String,
    place: PadPlace,
    force: f64,
    pads: usize,
    pad: f64,
    times: String,
}

impl Row for ProofLoad {
    const ARRAY: &'static str = "proof_load";
    type Printed = PrintedProof;

    fn new(p: PrintedProof, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        ratio("pads", p.pads as f64, (1.0, 2.0))?;
        Ok(ProofLoad {
            force: units.force("force", p.force, (20.0, 5000.0))?,
            pad: units.length("pad", p.pad, (2.0, 20.0))?,
            set: p.set,
            name: p.name,
            place: p.place,
            pads: p.pads,
            times: p.times,
            provenance,
        })
    }

    fn key(&self) -> String {
        format!("{} {}", self.set, self.name)
    }
}

/// Code loads by nation, and furniture tests by set.
#[derive(Clone, Debug, Default)]
pub struct Loads {
    codes: Vec<CodeLoad>,
    proofs: Vec<ProofLoad>,
}

impl Loads {
    /// Every nation's code loads.
    pub fn codes(&self) -> &[CodeLoad] {
        &self.codes
    }

    /// Every furniture test's loads.
    pub fn proofs(&self) -> &[ProofLoad] {
        &self.proofs
    }

    /// What a nation's code asks.
    pub fn code(&self, nation: &str) -> &CodeLoad {
        self.codes
            .iter()
            .find(|c| c.nation == nation)
            .unwrap_or_else(|| unreachable!("the embedded table has a row for every nation"))
    }

    /// The loads of a set of tests.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the sets there are.
    pub fn proof(&self, set: &str) -> Result<Vec<ProofLoad>, NotFound> {
        let found: Vec<ProofLoad> = self.proofs.iter().filter(|p| p.set == set).cloned().collect();
        if !found.is_empty() {
            return Ok(found);
        }
        let mut sets: Vec<&str> = self.proofs.iter().map(|p| p.set.as_str()).collect();
        sets.dedup();
        let near = nearest(set, sets.iter().copied());
        let all = || sets.iter().map(|s| (*s).to_owned()).collect();
        Err(NotFound {
            asked: set.to_owned(),
            missing: Missing::Name("set of proof loads"),
            nearest: if near.is_empty() { all() } else { near },
        })
    }
}

impl Table for Loads {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/loads.packed"));
    const ARRAYS: &'static [&'static str] = &["code_load", "proof_load"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.codes);
        from.add_to(&mut self.proofs);
    }

    fn entries(&self) -> Vec<Entry> {
        let code = |r: &CodeLoad| {
            Entry::new("code load", &r.nation, &r.provenance)
                .text("for", &r.place)
                .fact("uniform", r.uniform)
                .fact("point", r.point)
                .fact("on a square of", r.patch)
        };
        let proof = |r: &ProofLoad| {
            Entry::new("proof load", format!("{} {}", r.set, r.name), &r.provenance)
                .text(
                    "where",
                    match r.place {
                        PadPlace::Anywhere => "anywhere on the base",
                        PadPlace::Edge => "at the middle of a long edge",
                    },
                )
                .text("pads", r.pads.to_string())
                .fact("force on each", r.force)
                .fact("pad across", r.pad)
                .text("how often", &r.times)
        };
        self.codes.iter().map(code).chain(self.proofs.iter().map(proof)).collect()
    }
}
