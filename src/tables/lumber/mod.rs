//! Graded lumber: reference design values for allowable stress design.

mod grade;
mod row;

use std::collections::BTreeMap;

use serde::Deserialize;

pub use row::{LumberRow, NominalSizes, ReferenceValues, SupplementTable, TimberClass};

use super::Table;
use super::entry::Entry;
use super::names::{Missing, NotFound, joined, nearest, nearest_spelled, words};
use super::row::Rows;
use grade::{grade_of, grade_words};

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
            let spelled = self.species_spellings();
            let starts = (1..=words.len()).rev().map(|n| words[..n].join(" "));
            let near = starts.map(|s| nearest_spelled(&s, spelled.iter().copied())).find(|near| !near.is_empty());
            return Err(NotFound {
                asked: text.to_owned(),
                missing: Missing::Species,
                nearest: near.unwrap_or_default(),
            });
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

impl Table for Lumber {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/lumber.packed"));
    const ARRAYS: &'static [&'static str] = &["lumber", "spellings"];

    fn add(&mut self, from: &mut impl Rows) {
        let more: Spellings = from.section("spellings");
        for (own, more) in [(&mut self.spellings.species, more.species), (&mut self.spellings.grade, more.grade)] {
            for (name, also) in more {
                own.entry(name).or_default().extend(also);
            }
        }
        from.add_to(&mut self.rows);
    }

    /// One entry for a species and grade, with every size that is stamped so.
    fn entries(&self) -> Vec<Entry> {
        let mut out: Vec<Entry> = Vec::new();
        let mut done: Vec<(&str, &str)> = Vec::new();
        for row in &self.rows {
            let of = (row.species.as_str(), row.grade.as_str());
            if !done.contains(&of) {
                done.push(of);
                out.extend(self.graded(&row.name()).ok().map(|rows| self.entry(row, rows)));
            }
        }
        out
    }
}

impl Lumber {
    /// The entry for a species and grade in any spelling that [`graded`](Self::graded) knows.
    pub(super) fn entry_of(&self, text: &str) -> Option<Entry> {
        let rows = self.graded(text).ok()?;
        // `No.2` finds the rows of `No.2` and of `No.1/No.2`: the shorter name is the one they share.
        let named = *rows.iter().min_by_key(|r| r.grade.len())?;
        Some(self.entry(named, rows))
    }

    /// The rows under one name, thinnest stock first; where they differ, each is labelled with what it is for.
    fn entry(&self, named: &LumberRow, mut rows: Vec<&LumberRow>) -> Entry {
        rows.sort_by(|a, b| a.sizes.thickness.0.total_cmp(&b.sizes.thickness.0));
        let mut entry = Entry::new("lumber", named.name(), &named.provenance);
        entry.provenance.clear();
        if let Some(also) = self.spellings.species.get(&named.species) {
            entry = entry.also(&also.iter().map(|s| format!("{s} {}", named.grade)).collect::<Vec<_>>());
        }
        for row in rows {
            let grade = if row.grade == named.grade { String::new() } else { format!("{}, ", row.grade) };
            entry = entry.text("for", format!("{grade}{}", row.sizes));
            entry.facts.extend(row.values.facts());
            if !entry.provenance.contains(&row.provenance) {
                entry.provenance.push(row.provenance.clone());
            }
        }
        entry
    }
}
