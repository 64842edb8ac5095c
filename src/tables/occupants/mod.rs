//! Who is on the bed: body masses, stature, segments lying down, contact patches.

mod contact;
mod segment;

use serde::Deserialize;

pub use contact::{Contact, EdgeSitting, Group, Patch};
pub use segment::{Body, Segment};

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, hyphened, nearest};
use super::row::{Row, Rows, Units, Wrong};
use crate::quantity::{Length, Mass, number};
use crate::source::Provenance;

/// The sex of a population.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Sex {
    /// Men or boys.
    Male,
    /// Women or girls.
    Female,
    /// Both together.
    All,
}

/// The body mass of one population: percentiles, or one mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Population {
    /// What its presets are called by: `man` in `man-95`.
    pub name: String,
    /// Who they are.
    pub population: String,
    /// Sex.
    pub sex: Sex,
    /// Age in years, as the survey groups it.
    pub age: String,
    /// Percentile and mass, lightest first; empty for a fixed mass.
    pub percentiles: Vec<(f64, Mass)>,
    /// The one mass of a reference body.
    pub mass: Option<Mass>,
    /// Where the row comes from.
    pub provenance: Provenance,
}

impl Population {
    /// The names its presets are found by.
    fn presets(&self) -> Vec<String> {
        let named = self.percentiles.iter().map(|(p, _)| preset_name(&self.name, *p));
        named.chain(self.mass.map(|_| self.name.clone())).collect()
    }
}

fn preset_name(group: &str, percentile: f64) -> String {
    if percentile < 10.0 { format!("{group}-0{percentile}") } else { format!("{group}-{percentile}") }
}

/// A sleeper: one percentile of one population.
#[derive(Clone, Debug, PartialEq)]
pub struct Occupant {
    /// Such as `man-95`.
    pub name: String,
    /// Body mass.
    pub mass: Mass,
    /// Median stature of the population, where it is known.
    pub stature: Option<Length>,
    /// Sex.
    pub sex: Sex,
    /// Where the mass comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedPopulation {
    name: String,
    population: String,
    sex: Sex,
    age: String,
    mass: Option<f64>,
    p05: Option<f64>,
    p50: Option<f64>,
    p75: Option<f64>,
    p90: Option<f64>,
    p95: Option<f64>,
    p975: Option<f64>,
    p99: Option<f64>,
}

impl Row for Population {
    const ARRAY: &'static str = "occupant";
    type Printed = PrintedPopulation;

    fn new(p: PrintedPopulation, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let band = (10.0, 700.0);
        let printed =
            [(5.0, p.p05), (50.0, p.p50), (75.0, p.p75), (90.0, p.p90), (95.0, p.p95), (97.5, p.p975), (99.0, p.p99)];
        let mut percentiles = Vec::new();
        for (percentile, mass) in printed {
            if let Some(mass) = mass {
                percentiles.push((percentile, units.mass("body mass", mass, band)?));
            }
        }
        if percentiles.windows(2).any(|w| w[1].1 <= w[0].1) {
            return Err(Wrong::new("the percentiles do not rise", "a higher percentile is a heavier body"));
        }
        let mass = p.mass.map(|m| units.mass("mass", m, band)).transpose()?;
        if mass.is_some() != percentiles.is_empty() {
            return Err(Wrong::new(
                "an occupant is either one mass or percentiles",
                "write mass, or p50, p95 and so on",
            ));
        }
        let name = hyphened(&p.name);
        Ok(Population { name, population: p.population, sex: p.sex, age: p.age, percentiles, mass, provenance })
    }

    fn key(&self) -> String {
        self.name.clone()
    }
}

/// The stature of one population.
#[derive(Clone, Debug, PartialEq)]
pub struct Stature {
    /// The population's name.
    pub name: String,
    /// Percentile and stature, shortest first; the 50th is always there.
    pub percentiles: Vec<(f64, Length)>,
    /// The median.
    pub median: Length,
    /// Where the row comes from.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedStature {
    name: String,
    p05: Option<f64>,
    p50: f64,
    p95: Option<f64>,
    p99: Option<f64>,
}

impl Row for Stature {
    const ARRAY: &'static str = "stature";
    type Printed = PrintedStature;

    fn new(p: PrintedStature, units: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let stature = |printed| units.length("stature", printed, (25.0, 90.0));
        let mut percentiles = Vec::new();
        for (percentile, printed) in [(5.0, p.p05), (50.0, Some(p.p50)), (95.0, p.p95), (99.0, p.p99)] {
            if let Some(printed) = printed {
                percentiles.push((percentile, stature(printed)?));
            }
        }
        if percentiles.windows(2).any(|w| w[1].1 <= w[0].1) {
            return Err(Wrong::new("the percentiles do not rise", "a higher percentile is a taller body"));
        }
        Ok(Stature { name: hyphened(&p.name), percentiles, median: stature(p.p50)?, provenance })
    }

    fn key(&self) -> String {
        format!("stature of {}", self.name)
    }
}

/// Bodies and what they press on.
#[derive(Clone, Debug, Default)]
pub struct Occupants {
    populations: Vec<Population>,
    statures: Vec<Stature>,
    segments: Vec<Segment>,
    groups: Vec<Group>,
    patches: Vec<Patch>,
    edges: Vec<EdgeSitting>,
}

impl Occupants {
    /// Every population.
    pub fn populations(&self) -> &[Population] {
        &self.populations
    }

    /// Every stature.
    pub fn statures(&self) -> &[Stature] {
        &self.statures
    }

    /// Sums of people.
    pub fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// Contact patches.
    pub fn patches(&self) -> &[Patch] {
        &self.patches
    }

    /// People in a row on one edge.
    pub fn edge_sitting(&self) -> &EdgeSitting {
        self.edges.first().unwrap_or_else(|| unreachable!("the embedded table has the row"))
    }

    /// The segments of a body lying on its back, crown first. Their shares sum to 1: the printed ones,
    /// which sum to 0.9999 or 1.0000, are divided by their sum.
    pub fn segments(&self, body: Body) -> Vec<Segment> {
        let mut own: Vec<Segment> = self.segments.iter().filter(|s| s.body == body).cloned().collect();
        let sum: f64 = own.iter().map(|s| s.mass.value).sum();
        own.iter_mut().for_each(|s| s.mass = number(s.mass.value / sum));
        own
    }

    /// A preset: a population and a percentile (`man-95`, `adult-50`, `girl-8-95`), or a fixed body
    /// (`standard-110`). `child-10-95` is the heavier of `boy-10-95` and `girl-10-95`.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest presets.
    pub fn find(&self, name: &str) -> Result<Occupant, NotFound> {
        let asked = name.trim().to_lowercase().replace([' ', '_'], "-");
        let found = match asked.strip_prefix("child-") {
            Some(rest) => {
                let (boy, girl) = (self.preset(&format!("boy-{rest}")), self.preset(&format!("girl-{rest}")));
                let heavier = match (boy, girl) {
                    (Some(b), Some(g)) => Some(if g.mass > b.mass { g } else { b }),
                    (b, g) => b.or(g),
                };
                heavier.map(|o| Occupant { name: asked.clone(), ..o })
            }
            None => self.preset(&asked),
        };
        found.ok_or_else(|| {
            let presets = self.presets();
            NotFound {
                asked: name.to_owned(),
                missing: Missing::Name("occupant"),
                nearest: nearest(&asked, presets.iter().map(String::as_str)),
            }
        })
    }

    /// The names of all presets.
    pub fn presets(&self) -> Vec<String> {
        let mut out: Vec<String> = Vec::new();
        for population in &self.populations {
            for preset in population.presets() {
                if let Some(rest) = preset.strip_prefix("boy-") {
                    out.push(format!("child-{rest}"));
                }
                out.push(preset);
            }
        }
        out
    }

    fn preset(&self, asked: &str) -> Option<Occupant> {
        let of = |p: &Population, mass: Mass| Occupant {
            name: asked.to_owned(),
            mass,
            stature: self.statures.iter().find(|s| s.name == p.name).map(|s| s.median),
            sex: p.sex,
            provenance: p.provenance.clone(),
        };
        self.populations.iter().find_map(|p| match p.mass {
            Some(mass) => (p.name == asked).then(|| of(p, mass)),
            None => {
                let percentile = asked.strip_prefix(p.name.as_str())?.strip_prefix('-')?.parse::<f64>().ok()?;
                p.percentiles.iter().find(|(q, _)| *q == percentile).map(|(_, mass)| of(p, *mass))
            }
        })
    }

    /// A preset, for a listing.
    pub(super) fn entry_of(&self, name: &str) -> Option<Entry> {
        let o = self.find(name).ok()?;
        Some(Entry::new("occupants", &o.name, &o.provenance).fact("mass", o.mass).maybe("stature, median", o.stature))
    }
}

impl Table for Occupants {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/occupants.packed"));
    const ARRAYS: &'static [&'static str] = &["occupant", "stature", "segment", "group", "patch", "edge_sitting"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.populations);
        from.add_to(&mut self.statures);
        from.add_to(&mut self.segments);
        from.add_to(&mut self.groups);
        from.add_to(&mut self.patches);
        from.add_to(&mut self.edges);
    }

    fn entries(&self) -> Vec<Entry> {
        let population = |p: &Population| {
            let mut entry =
                Entry::new("occupants", &p.name, &p.provenance).text("who", &p.population).text("age", &p.age);
            for (percentile, mass) in &p.percentiles {
                entry = entry.fact(preset_name(&p.name, *percentile), *mass);
            }
            let stature = self.statures.iter().find(|s| s.name == p.name);
            if let Some(s) = stature {
                entry = entry.fact("stature, median", s.median);
                entry.provenance.push(s.provenance.clone());
            }
            entry.maybe("mass", p.mass)
        };
        let patch = |p: &Patch| {
            let entry = Entry::new("occupants", &p.name, &p.provenance);
            match p.contact {
                Contact::Rectangle(a, b) => entry.fact("length", a).fact("width", b),
                Contact::Disc(d) => entry.fact("diameter", d),
            }
            .fact("share of weight", p.share)
        };
        self.populations.iter().map(population).chain(self.patches.iter().map(patch)).collect()
    }
}
