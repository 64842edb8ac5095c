//! Reading a table file: rows with their provenance, every mistake reported with its place.
//!
//! A file is TOML. Each row sits in an array of tables named after what it is (`[[screw]]`). Beside its
//! own columns a row may give `source`, `locator`, `edition`, `seen`, `note`, `units` and `replaces`;
//! what it leaves out is taken from `[meta]`.

use std::collections::{BTreeSet, HashMap};
use std::ops::Range;

use serde::Deserialize;
use serde::de::{DeserializeOwned, IntoDeserializer};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::names::nearest;
use super::origin::ORIGIN;
use super::row::{Origin, Row, Rows, Wrong};
use crate::syntax::{Slip, slips};

/// A mistake in a table file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableError {
    /// Bytes of the text it concerns, when known.
    pub span: Option<Range<usize>>,
    /// What is wrong.
    pub message: String,
    /// What would be right.
    pub help: String,
}

impl std::fmt::Display for TableError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for TableError {}

/// What a file says of the origin of all its rows.
enum Meta {
    /// Nothing.
    None,
    /// This.
    Read(Origin),
    /// Something that cannot be read: a mistake of its own, and not one of every row.
    Unread,
}

impl Meta {
    fn origin(&self) -> &Origin {
        const NOTHING: &Origin =
            &Origin { source: None, locator: None, edition: None, seen: None, note: None, units: None, replaces: None };
        match self {
            Meta::Read(origin) => origin,
            Meta::None | Meta::Unread => NOTHING,
        }
    }
}

/// A table file being read.
pub(crate) struct Document<'t> {
    rest: DeTable<'t>,
    meta: Meta,
    /// What [meta] leaves out, as far as a row missed it.
    left_out: BTreeSet<Vec<&'static str>>,
    errors: Vec<TableError>,
}

impl<'t> Document<'t> {
    pub(crate) fn parse(text: &'t str) -> Document<'t> {
        let (root, errors) = DeTable::parse_recoverable(text);
        let slip = |s: Slip| TableError { span: Some(s.span), message: s.message, help: s.help };
        let errors: Vec<TableError> = slips(text, &errors).into_iter().map(slip).collect();
        // What a broken file was meant to say is anybody's guess.
        let rest = if errors.is_empty() { root.into_inner() } else { DeTable::new() };
        let mut document = Document { rest, meta: Meta::None, left_out: BTreeSet::new(), errors };
        if document.rest.contains_key("meta") {
            let found = document.errors.len();
            let origin = document.section("meta");
            document.meta = if document.errors.len() == found { Meta::Read(origin) } else { Meta::Unread };
        }
        document
    }

    /// Whether the file has any of these arrays or sections.
    pub(crate) fn mentions(&self, names: &[&str]) -> bool {
        names.iter().any(|n| self.rest.contains_key(*n))
    }

    /// One row, whether it replaces another, and where it is named; or its mistake, unless that was said already.
    fn row<R: Row>(&mut self, value: Spanned<DeValue<'t>>) -> Result<(R, bool, Range<usize>), Option<TableError>> {
        let span = value.span();
        let DeValue::Table(mut table) = value.into_inner() else {
            let help = format!("write the row under [[{}]]", R::ARRAY);
            return Err(Some(TableError { span: Some(span), message: "this row is not a table".into(), help }));
        };
        let mut common = DeTable::new();
        for name in ORIGIN {
            if let Some((key, value)) = table.remove_entry(name) {
                common.insert(key, value);
            }
        }
        let named = ["name", "grade"].iter().find_map(|n| table.get(*n)).map_or(span.clone(), Spanned::span);
        let help = format!("see the rows of [[{}]] in the tables this program comes with", R::ARRAY);
        let own = Origin::deserialize(Spanned::new(span.clone(), common).into_deserializer())
            .map_err(|e| Some(in_toml(e, &help)))?;
        let printed = R::Printed::deserialize(Spanned::new(span.clone(), table).into_deserializer());
        let printed = printed.map_err(|e| Some(in_toml(e, &help)))?;
        let at = |wrong: Wrong| TableError { span: Some(named.clone()), message: wrong.message, help: wrong.help };
        let replaces = own.replaces.or(self.meta.origin().replaces).unwrap_or(false);
        let (provenance, units) =
            own.completed(self.meta.origin(), R::HAS_UNITS).map_err(|missing| self.unsourced(missing).map(at))?;
        let row = R::new(printed, units, provenance).map_err(|wrong| Some(at(wrong)))?;
        Ok((row, replaces, named.clone()))
    }

    /// The mistake of a row without an origin. What [meta] leaves out is missing in every row and said once;
    /// what could not be read there is not missing.
    fn unsourced(&mut self, missing: Vec<&'static str>) -> Option<Wrong> {
        let message = format!("this row does not give its {}", missing.join(", "));
        let said = match &self.meta {
            Meta::None => false,
            Meta::Read(_) => !self.left_out.insert(missing),
            Meta::Unread => true,
        };
        (!said).then(|| {
            Wrong::new(
                message,
                "write source, locator, edition, seen (read, computed, secondary, memory or judgement) and units \
                 (us or metric) in the row, or once in [meta]",
            )
        })
    }

    /// Every mistake found, including what nobody took.
    pub(crate) fn finish(mut self, known: &[&str]) -> Result<(), Vec<TableError>> {
        for key in self.rest.keys() {
            let near = nearest(key.get_ref(), known.iter().copied());
            let help = match near.first() {
                Some(name) => format!("did you mean [[{name}]]?"),
                None => format!("a table file may have {}", known.join(", ")),
            };
            self.errors.push(TableError {
                span: Some(key.span()),
                message: format!("there is no table `{}`", key.get_ref()),
                help,
            });
        }
        self.errors.sort_by_key(|e| e.span.as_ref().map_or(0, |s| s.start));
        if self.errors.is_empty() { Ok(()) } else { Err(self.errors) }
    }
}

impl Rows for Document<'_> {
    fn section<T: DeserializeOwned + Default>(&mut self, name: &str) -> T {
        let Some(value) = self.rest.remove(name) else {
            return T::default();
        };
        T::deserialize(value.into_deserializer()).unwrap_or_else(|e| {
            self.errors.push(in_toml(e, &format!("see [{name}] in the tables this program comes with")));
            T::default()
        })
    }

    /// A row whose key exists is refused unless it says it replaces it.
    fn add_to<R: Row>(&mut self, rows: &mut Vec<R>) {
        let Some(value) = self.rest.remove(R::ARRAY) else {
            return;
        };
        let span = value.span();
        let DeValue::Array(array) = value.into_inner() else {
            let help = format!("write each row under [[{}]]", R::ARRAY);
            self.errors.push(TableError {
                span: Some(span),
                message: format!("`{}` is not a list of rows", R::ARRAY),
                help,
            });
            return;
        };
        let mut places: HashMap<String, usize> = rows.iter().enumerate().map(|(i, r)| (r.key(), i)).collect();
        for value in array {
            let (row, replaces, span) = match self.row::<R>(value) {
                Ok(read) => read,
                Err(error) => {
                    self.errors.extend(error);
                    continue;
                }
            };
            let key = row.key();
            match (places.get(&key), replaces) {
                (None, false) => {
                    places.insert(key, rows.len());
                    rows.push(row);
                }
                (Some(&place), true) => rows[place] = row,
                (Some(_), false) => self.errors.push(TableError {
                    span: Some(span),
                    message: format!("`{key}` is already in the tables"),
                    help: "give it another name, or write `replaces = true` in the row".into(),
                }),
                (None, true) => self.errors.push(TableError {
                    span: Some(span),
                    message: format!("`{key}` replaces nothing: the tables have no such row"),
                    help: "take `replaces` out of the row, or correct its name".into(),
                }),
            }
        }
    }
}

fn in_toml(error: toml::de::Error, help: &str) -> TableError {
    TableError { span: error.span(), message: error.message().to_owned(), help: help.to_owned() }
}
