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
use crate::quantity::unit::{
    METRE_PER_INCH, NEWTON_PER_POUND_FORCE, PASCAL_PER_PSI, inch, kilogram, megapascal, millimetre, newton, pascal,
    pound, pound_force, psf, psi,
};
use crate::quantity::{AreaLoad, Force, Length, Mass, Ratio, Stress, UnitSystem, number, significant};
use crate::source::{Provenance, Seen};
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

/// A row that can be read but not accepted.
#[derive(Debug)]
pub(crate) struct Wrong {
    message: String,
    help: String,
}

impl Wrong {
    pub(crate) fn new(message: impl Into<String>, help: impl Into<String>) -> Wrong {
        Wrong { message: message.into(), help: help.into() }
    }
}

/// A row type: how it is printed, and how it is told from the others.
pub(crate) trait Row: Sized {
    /// The array of tables it sits in.
    const ARRAY: &'static str;
    /// Whether its columns have units.
    const HAS_UNITS: bool = true;
    /// The columns as printed.
    type Printed: DeserializeOwned;
    /// Converts and checks the columns.
    fn new(printed: Self::Printed, units: Units, provenance: Provenance) -> Result<Self, Wrong>;
    /// What no two rows may share.
    fn key(&self) -> String;
}

/// The columns every row may have.
#[derive(Clone, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Origin {
    source: Option<String>,
    locator: Option<String>,
    edition: Option<String>,
    seen: Option<Seen>,
    note: Option<String>,
    units: Option<UnitSystem>,
    replaces: Option<bool>,
}

const ORIGIN: [&str; 7] = ["source", "locator", "edition", "seen", "note", "units", "replaces"];

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

    /// Takes a section that is not rows; its default when absent.
    pub(crate) fn section<T: DeserializeOwned + Default>(&mut self, name: &str) -> T {
        let Some(value) = self.rest.remove(name) else {
            return T::default();
        };
        T::deserialize(value.into_deserializer()).unwrap_or_else(|e| {
            self.errors.push(in_toml(e, &format!("see [{name}] in the tables this program comes with")));
            T::default()
        })
    }

    /// Takes all rows of one kind. A row whose key exists is refused unless it says it replaces it.
    pub(crate) fn add_to<R: Row>(&mut self, rows: &mut Vec<R>) {
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
        let (provenance, units) = self.origin(own, R::HAS_UNITS).map_err(|missing| self.unsourced(missing).map(at))?;
        let row = R::new(printed, units, provenance).map_err(|wrong| Some(at(wrong)))?;
        Ok((row, replaces, named.clone()))
    }

    /// What a row says of its origin, completed by the file's; or the names of what neither says.
    fn origin(&self, own: Origin, has_units: bool) -> Result<(Provenance, Units), Vec<&'static str>> {
        let meta = self.meta.origin();
        let text =
            |own: Option<String>, meta: &Option<String>| own.or_else(|| meta.clone()).filter(|t| !t.trim().is_empty());
        let source = text(own.source, &meta.source);
        let locator = text(own.locator, &meta.locator);
        let edition = text(own.edition, &meta.edition);
        let seen = own.seen.or(meta.seen);
        let units = own.units.or(meta.units).or((!has_units).then_some(UnitSystem::Metric));
        match (source, locator, edition, seen, units) {
            (Some(source), Some(locator), Some(edition), Some(seen), Some(units)) => {
                let note = text(own.note, &meta.note);
                Ok((Provenance { source, locator, edition, seen, note }, Units(units)))
            }
            (source, locator, edition, seen, units) => {
                let missing = [
                    ("source", source.is_none()),
                    ("locator", locator.is_none()),
                    ("edition", edition.is_none()),
                    ("seen", seen.is_none()),
                    ("units", units.is_none()),
                ];
                Err(missing.iter().filter(|(_, m)| *m).map(|(n, _)| *n).collect())
            }
        }
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

fn in_toml(error: toml::de::Error, help: &str) -> TableError {
    TableError { span: error.span(), message: error.message().to_owned(), help: help.to_owned() }
}

/// The units a row is printed in, and its plausible bands. A value outside its band is a slip of the
/// pen or of the unit, not wood.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Units(UnitSystem);

/// Lowest and highest plausible value, in US units.
pub(crate) type Band = (f64, f64);

impl Units {
    /// Inches, or millimetres.
    pub(crate) fn length(self, name: &str, printed: f64, band: Band) -> Result<Length, Wrong> {
        self.within(name, printed, band, ("in", 1.0), ("mm", METRE_PER_INCH * 1e3))?;
        Ok(if self.us() { inch(printed) } else { millimetre(printed) })
    }

    /// psi, or N/mm².
    pub(crate) fn stress(self, name: &str, printed: f64, band: Band) -> Result<Stress, Wrong> {
        self.within(name, printed, band, ("psi", 1.0), ("N/mm2", PASCAL_PER_PSI / 1e6))?;
        Ok(if self.us() { psi(printed) } else { megapascal(printed) })
    }

    /// psf, or kN/m².
    pub(crate) fn area_load(self, name: &str, printed: f64, band: Band) -> Result<AreaLoad, Wrong> {
        self.within(name, printed, band, ("psf", 1.0), ("kN/m2", PASCAL_PER_PSI / 144e3))?;
        Ok(if self.us() { psf(printed) } else { pascal(printed * 1e3) })
    }

    /// lbf, or kN.
    pub(crate) fn force(self, name: &str, printed: f64, band: Band) -> Result<Force, Wrong> {
        self.within(name, printed, band, ("lbf", 1.0), ("kN", NEWTON_PER_POUND_FORCE / 1e3))?;
        Ok(if self.us() { pound_force(printed) } else { newton(printed * 1e3) })
    }

    /// 10⁶ psi, or kN/mm², as handbooks print a modulus of elasticity.
    pub(crate) fn modulus(self, name: &str, printed: f64, band: Band) -> Result<Stress, Wrong> {
        self.within(name, printed, band, ("10^6 psi", 1.0), ("kN/mm2", PASCAL_PER_PSI / 1e3))?;
        Ok(if self.us() { psi(printed * 1e6) } else { megapascal(printed * 1e3) })
    }

    /// Pounds, or kilograms.
    pub(crate) fn mass(self, name: &str, printed: f64, band: Band) -> Result<Mass, Wrong> {
        self.within(name, printed, band, ("lb", 1.0), ("kg", pound(1.0).value))?;
        Ok(if self.us() { pound(printed) } else { kilogram(printed) })
    }

    fn us(self) -> bool {
        self.0 == UnitSystem::Us
    }

    fn within(self, name: &str, printed: f64, band: Band, us: (&str, f64), metric: (&str, f64)) -> Result<(), Wrong> {
        let (unit, factor) = if self.us() { us } else { metric };
        within(name, printed, (band.0 * factor, band.1 * factor), unit)
    }
}

/// A pure number inside its band.
pub(crate) fn ratio(name: &str, printed: f64, band: Band) -> Result<Ratio, Wrong> {
    within(name, printed, band, "")?;
    Ok(number(printed))
}

/// A percentage inside its band, as a ratio.
pub(crate) fn percent(name: &str, printed: f64, band: Band) -> Result<Ratio, Wrong> {
    within(name, printed, band, "percent")?;
    Ok(number(printed / 100.0))
}

/// An end of a band, which may come from the other unit system, as a reader would round it.
fn short(v: f64) -> String {
    significant(v, 3)
}

fn within(name: &str, printed: f64, (low, high): Band, unit: &str) -> Result<(), Wrong> {
    // A band converted from the other unit system ends on a rounded number.
    if printed >= low * (1.0 - 1e-9) && printed <= high * (1.0 + 1e-9) {
        return Ok(());
    }
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    Err(Wrong::new(
        format!("{name} = {printed} is not plausible"),
        format!("{} to {}{unit} was expected: check the number and the row's units", short(low), short(high)),
    ))
}
