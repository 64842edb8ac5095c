//! The thinnest slats that pass, weight by weight: what a chart draws.

use rayon::prelude::*;

use super::alter::{self, typed};
use super::bracket::{Grid, State};
use super::design::{Design, Tried};
use crate::brief::{Mistake, WoodKeys};
use crate::quantity::unit::{inch, kilogram, millimetre, pound};
use crate::quantity::{Length, Mass, UnitSystem};

/// One wood's thinnest slats.
#[derive(Clone, Debug, PartialEq)]
pub struct Thinnest {
    /// The wood.
    pub wood: String,
    /// The weight of every sleeper, and the thickness; `None` where none passes.
    pub points: Vec<(Mass, Option<Length>)>,
}

/// Weights along the chart, the heaviest sleeper's among them.
fn weights(units: UnitSystem, drawn: Mass) -> Vec<Mass> {
    let mut out: Vec<Mass> = match units {
        UnitSystem::Us => (1..=17).map(|k| pound(20.0 * f64::from(k))).collect(),
        UnitSystem::Metric => (1..=15).map(|k| kilogram(10.0 * f64::from(k))).collect(),
    };
    out.push(drawn);
    out.sort_by(|a, b| a.value.total_cmp(&b.value));
    out.dedup();
    out
}

/// So many sixteenths of an inch, or millimetres.
fn thickness(units: UnitSystem, k: i64) -> Length {
    match units {
        UnitSystem::Us => inch(k as f64 / 16.0),
        UnitSystem::Metric => millimetre(k as f64),
    }
}

/// For each wood and weight the thinnest slats that pass, as wide and as far apart as the brief has them,
/// on the whole platform as it is.
///
/// # Errors
///
/// Every mistake in the brief.
pub fn thinnest(design: &Design<'_>, woods: &[(String, WoodKeys)]) -> Result<Vec<Thinnest>, Vec<Mistake>> {
    let p = design.platform()?;
    let heaviest = p.sleepers.iter().map(|s| s.mass).fold(Mass::default(), Mass::max);
    // The thinnest is the greatest of thicknesses below nothing.
    let grid = match p.units {
        UnitSystem::Us => Grid { first: -56, last: -6, coarse: 8, marks: Vec::new() },
        UnitSystem::Metric => Grid { first: -90, last: -10, coarse: 10, marks: Vec::new() },
    };
    let at = |wood: &WoodKeys, mass: Mass| {
        let found = grid.greatest(|k| {
            let brief = design.with(|b| {
                alter::sleepers(b, mass);
                slats(b, wood, &p.slats.stick.width, thickness(p.units, -k));
            });
            match design.try_brief(&brief) {
                t if t.passes() => State::Pass,
                Tried::Checked(_) => State::Fail,
                Tried::Impossible(_) => State::Impossible,
            }
        });
        (mass, found.map(|f| thickness(p.units, -f.at)))
    };
    let one = |(name, wood): &(String, WoodKeys)| {
        let points = weights(p.units, heaviest).par_iter().map(|m| at(wood, *m)).collect();
        Thinnest { wood: name.clone(), points }
    };
    Ok(woods.iter().map(one).collect())
}

/// Slats of a wood and of a size as built.
fn slats(b: &mut crate::brief::Brief, wood: &WoodKeys, width: &Length, thickness: Length) {
    if let Some(s) = &mut b.slats {
        s.stick.wood = Some(wood.clone());
        s.stick.size = None;
        s.stick.measured = None;
        s.stick.width = Some(typed(*width));
        s.stick.thickness = Some(typed(thickness));
    }
}
