//! One row of any table in the same shape, for listings and searches.

use super::names::{joined, set, words};
use crate::quantity::{Measure, Measured};
use crate::source::Provenance;

/// A table row as a reader sees it: name, labelled values, where they come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The table it is in, such as `lumber`.
    pub table: &'static str,
    /// Its name.
    pub name: String,
    /// Other spellings that find it.
    pub also: Vec<String>,
    /// Labelled values, in the order of the printed table.
    pub facts: Vec<(String, Fact)>,
    /// Where the values come from; more than one when several rows share the name.
    pub provenance: Vec<Provenance>,
}

/// One value of an [`Entry`].
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// A quantity, printed in the reader's units.
    Measure(Measure),
    /// Anything else.
    Text(String),
}

impl<Q: Measured> From<Q> for Fact {
    fn from(value: Q) -> Fact {
        Fact::Measure(value.measure())
    }
}

impl Entry {
    pub(crate) fn new(table: &'static str, name: impl Into<String>, provenance: &Provenance) -> Entry {
        Entry { table, name: name.into(), also: Vec::new(), facts: Vec::new(), provenance: vec![provenance.clone()] }
    }

    pub(crate) fn also(mut self, spellings: &[String]) -> Entry {
        self.also.extend_from_slice(spellings);
        self
    }

    pub(crate) fn fact(mut self, label: impl Into<String>, value: impl Into<Fact>) -> Entry {
        self.facts.push((label.into(), value.into()));
        self
    }

    pub(crate) fn text(mut self, label: impl Into<String>, value: impl Into<String>) -> Entry {
        self.facts.push((label.into(), Fact::Text(value.into())));
        self
    }

    pub(crate) fn maybe<Q: Measured>(self, label: &str, value: Option<Q>) -> Entry {
        match value {
            Some(v) => self.fact(label, v),
            None => self,
        }
    }

    /// Every spelling that finds it, with its name.
    pub(crate) fn spelled(&self) -> impl Iterator<Item = (&str, &str)> {
        self.also.iter().chain([&self.name]).map(|s| (s.as_str(), self.name.as_str()))
    }

    /// Whether this is the entry of that name, in any spelling.
    pub(crate) fn is_named(&self, name: &str) -> bool {
        let (run, bag) = (joined(name), set(words(name)));
        let mut names = self.also.iter().chain([&self.name]);
        !run.is_empty() && names.any(|n| joined(n) == run || set(words(n)) == bag)
    }

    /// Whether every asked word begins a word of the entry.
    pub(crate) fn has_words(&self, asked: &[String]) -> bool {
        let own: Vec<String> =
            self.also.iter().chain([&self.name]).flat_map(|n| words(n)).chain(words(self.table)).collect();
        asked.iter().all(|a| own.iter().any(|o| o.starts_with(a.as_str())))
    }
}
