//! A row of a table, whatever it is read from: its columns as printed, their units and plausible bands, its origin.

use serde::Deserialize;
use serde::de::DeserializeOwned;

use crate::quantity::unit::{
    METRE_PER_INCH, NEWTON_PER_POUND_FORCE, PASCAL_PER_PSI, inch, kilogram, megapascal, millimetre, newton, pascal,
    pound, pound_force, psf, psi,
};
use crate::quantity::{AreaLoad, Force, Length, Mass, Ratio, Stress, UnitSystem, number, significant};
use crate::source::{Provenance, Seen};

/// A row that can be read but not accepted.
#[derive(Debug)]
pub(crate) struct Wrong {
    pub(super) message: String,
    pub(super) help: String,
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
pub(super) struct Origin {
    pub(super) source: Option<String>,
    pub(super) locator: Option<String>,
    pub(super) edition: Option<String>,
    pub(super) seen: Option<Seen>,
    pub(super) note: Option<String>,
    pub(super) units: Option<UnitSystem>,
    pub(super) replaces: Option<bool>,
}

impl Origin {
    /// What a row says of its origin, completed by what its file says; or the names of what neither says.
    pub(super) fn completed(self, meta: &Origin, has_units: bool) -> Result<(Provenance, Units), Vec<&'static str>> {
        let text =
            |own: Option<String>, meta: &Option<String>| own.or_else(|| meta.clone()).filter(|t| !t.trim().is_empty());
        let source = text(self.source, &meta.source);
        let locator = text(self.locator, &meta.locator);
        let edition = text(self.edition, &meta.edition);
        let seen = self.seen.or(meta.seen);
        let units = self.units.or(meta.units).or((!has_units).then_some(UnitSystem::Metric));
        match (source, locator, edition, seen, units) {
            (Some(source), Some(locator), Some(edition), Some(seen), Some(units)) => {
                let note = text(self.note, &meta.note);
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
}

/// What a table takes its rows from.
pub(crate) trait Rows {
    /// Takes a section that is not rows; its default when absent.
    fn section<T: DeserializeOwned + Default>(&mut self, name: &str) -> T;
    /// Takes all rows of one kind.
    fn add_to<R: Row>(&mut self, rows: &mut Vec<R>);
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
