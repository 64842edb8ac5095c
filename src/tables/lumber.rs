//! Graded lumber: reference design values for allowable stress design.

use std::collections::BTreeMap;
use std::fmt;

use serde::Deserialize;

use super::Table;
use super::entry::{Entry, Fact};
use super::file::{Band, Document, Row, Units, Wrong, ratio};
use super::names::{Missing, NotFound, hyphened, joined, nearest, set, words};
use crate::quantity::{Measured, Ratio, Stress};
use crate::source::Provenance;

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

#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct Spellings {
    species: BTreeMap<String, Vec<String>>,
    grade: BTreeMap<String, Vec<String>>,
}

/// The reference design values, NDS Supplement 2015/2018 Tables 4A, 4B and 4D.
#[derive(Clone, Debug, Default)]
pub struct Lumber {
    rows: Vec<LumberRow>,
    spellings: Spellings,
}

impl Lumber {
    /// Every row.
    pub fn rows(&self) -> &[LumberRow] {
        &self.rows
    }

    /// The row for a species and grade as a builder writes them (`SPF #2`, `doug fir-larch no.1`,
    /// `hem-fir select structural`) in a nominal size in inches.
    ///
    /// # Errors
    ///
    /// [`NotFound`] says whether the species, the grade or a row for this size is missing.
    pub fn find(&self, text: &str, thickness: f64, width: f64) -> Result<&LumberRow, NotFound> {
        let rows = self.graded(text)?;
        rows.iter().find(|r| r.sizes.contains(thickness, width)).copied().ok_or_else(|| NotFound {
            asked: text.to_owned(),
            missing: Missing::Size {
                name: rows.first().map_or_else(String::new, |r| r.name()),
                size: format!("{thickness}x{width}"),
                sizes: rows.iter().map(|r| r.sizes.to_string()).collect(),
            },
            nearest: Vec::new(),
        })
    }

    /// The rows of a species and grade, one for each size class; never empty.
    ///
    /// # Errors
    ///
    /// [`NotFound`] says whether the species or the grade is unknown.
    pub fn graded(&self, text: &str) -> Result<Vec<&LumberRow>, NotFound> {
        let words = words(text);
        let Some((species, grade)) = self.split(&words) else {
            let starts = (1..=words.len()).map(|n| words[..n].concat());
            let spelled = self.species_spellings();
            let best = starts.map(|s| nearest(&s, spelled.iter().map(|(name, _)| *name)));
            let nearest = best.max_by_key(Vec::len).unwrap_or_default();
            let nearest =
                nearest.iter().filter_map(|n| spelled.iter().find(|(s, _)| s == n).map(|(_, c)| (*c).to_owned()));
            let mut canonical: Vec<String> = Vec::new();
            nearest.for_each(|n| {
                if !canonical.contains(&n) {
                    canonical.push(n)
                }
            });
            return Err(NotFound { asked: text.to_owned(), missing: Missing::Species, nearest: canonical });
        };
        let own: Vec<&LumberRow> = self.rows.iter().filter(|r| r.species == species).collect();
        let asked = grade_words(grade.to_vec());
        for asked in std::iter::once(asked.clone()).chain(self.grade_spelled(&asked)) {
            // A row for `No.1/No.2` or `No.3 and Stud` is a row for each.
            let names = |r: &LumberRow| {
                grade_of(&r.grade) == asked
                    || r.grade.split('/').flat_map(|p| p.split(" and ")).any(|p| grade_of(p) == asked)
            };
            let rows: Vec<&LumberRow> = own.iter().filter(|r| names(r)).copied().collect();
            if !rows.is_empty() {
                return Ok(rows);
            }
        }
        let asked = grade.join(" ");
        let mut near = nearest(&asked, own.iter().map(|r| r.grade.as_str()));
        if near.is_empty() {
            own.iter().for_each(|r| {
                if !near.contains(&r.grade) {
                    near.push(r.grade.clone())
                }
            });
        }
        let near = near.into_iter().map(|g| format!("{species} {g}")).collect();
        Err(NotFound { asked, missing: Missing::Grade { species: species.to_owned() }, nearest: near })
    }

    /// Species and remaining words: the longest run of words at either end that spells a species.
    fn split<'a, 'w>(&'a self, words: &'w [String]) -> Option<(&'a str, &'w [String])> {
        let spelled: Vec<(String, &str)> = self.species_spellings().iter().map(|(s, c)| (joined(s), *c)).collect();
        let species = |run: &[String]| {
            let run = run.concat();
            spelled.iter().find(|(s, _)| *s == run).map(|(_, canonical)| *canonical)
        };
        (1..=words.len()).rev().find_map(|n| {
            let (front, back) = (words.split_at(n), words.split_at(words.len() - n));
            species(front.0).map(|s| (s, front.1)).or_else(|| species(back.1).map(|s| (s, back.0)))
        })
    }

    /// Every spelling of every species with the name the table prints.
    fn species_spellings(&self) -> Vec<(&str, &str)> {
        let mut out: Vec<(&str, &str)> = Vec::new();
        for row in &self.rows {
            if !out.iter().any(|(_, canonical)| *canonical == row.species) {
                out.push((&row.species, &row.species));
                let more = self.spellings.species.get(&row.species);
                out.extend(more.into_iter().flatten().map(|s| (s.as_str(), row.species.as_str())));
            }
        }
        out
    }

    fn grade_spelled(&self, asked: &[String]) -> Option<Vec<String>> {
        let spelled = self.spellings.grade.iter().find(|(_, also)| also.iter().any(|a| grade_of(a) == asked));
        spelled.map(|(grade, _)| grade_of(grade))
    }
}

fn grade_of(text: &str) -> Vec<String> {
    grade_words(words(text))
}

/// A grade as a set of words with the trade's abbreviations written out.
fn grade_words(words: Vec<String>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in &words {
        let full: &[&str] = match word.as_str() {
            "and" | "or" | "grade" => &[],
            "ss" => &["select", "structural"],
            "sel" => &["select"],
            "str" | "struct" | "struc" => &["structural"],
            "better" => &["btr"],
            "number" | "num" => &["no"],
            "const" | "con" => &["construction"],
            "std" | "stand" => &["standard"],
            "util" => &["utility"],
            "nondense" => &["non", "dense"],
            other => &[other],
        };
        out.extend(full.iter().map(|w| (*w).to_owned()));
    }
    if out.iter().any(|w| w.bytes().all(|b| b.is_ascii_digit())) {
        out.push("no".into());
    }
    set(out)
}

impl Table for Lumber {
    const TEXT: &'static str = include_str!("../../tables/lumber.toml");
    const ARRAYS: &'static [&'static str] = &["lumber", "spellings"];

    fn add(&mut self, document: &mut Document<'_>) {
        let more: Spellings = document.section("spellings");
        for (own, more) in [(&mut self.spellings.species, more.species), (&mut self.spellings.grade, more.grade)] {
            for (name, also) in more {
                own.entry(name).or_default().extend(also);
            }
        }
        document.add_to(&mut self.rows);
    }

    /// One entry for a species and grade; where values differ with the size, each is labelled with its sizes.
    fn entries(&self) -> Vec<Entry> {
        let mut out: Vec<Entry> = Vec::new();
        let mut group: Vec<&LumberRow> = Vec::new();
        let mut done: Vec<(&str, &str)> = Vec::new();
        for row in &self.rows {
            let of = (row.species.as_str(), row.grade.as_str());
            if done.contains(&of) {
                continue;
            }
            done.push(of);
            group.clear();
            group.extend(self.rows.iter().filter(|r| (r.species.as_str(), r.grade.as_str()) == of));
            out.push(self.entry(&group, row));
        }
        out
    }
}

impl Lumber {
    fn entry(&self, group: &[&LumberRow], first: &LumberRow) -> Entry {
        let mut entry = Entry::new("lumber", first.name(), &first.provenance);
        if let Some(also) = self.spellings.species.get(&first.species) {
            entry = entry.also(&also.iter().map(|s| format!("{s} {}", first.grade)).collect::<Vec<_>>());
        }
        for row in group {
            entry = entry.text("for", row.sizes.to_string());
            entry.facts.extend(facts(&row.values));
            if !entry.provenance.contains(&row.provenance) {
                entry.provenance.push(row.provenance.clone());
            }
        }
        entry
    }
}

fn facts(v: &ReferenceValues) -> [(String, Fact); 8] {
    let fact = |label: &str, m| (label.to_owned(), Fact::Measure(m));
    [
        fact("Fb", v.bending.measure()),
        fact("Ft", v.tension.measure()),
        fact("Fv", v.shear.measure()),
        fact("Fc⊥", v.compression_perpendicular.measure()),
        fact("Fc", v.compression_parallel.measure()),
        fact("E", v.modulus.measure()),
        fact("Emin", v.modulus_for_stability.measure()),
        fact("G", v.specific_gravity.measure()),
    ]
}
