//! Plain stock under an even load: how far a joist may span.

use rayon::prelude::*;

use super::bracket::{Grid, State};
use crate::check::Verdict;
use crate::derivation::Worked;
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{AreaLoad, Length, Stress, UnitSystem};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bending::bending_stress;
use crate::rules::allowable_stress::factors::{Conditions, Duration};
use crate::rules::allowable_stress::section::Section;
use crate::rules::allowable_stress::shear::shear_stress;
use crate::rules::allowable_stress::wood::{Face, Piece, Wood};
use crate::statics::{Load, Span};
use crate::tables::{NotFound, Tables};

/// A piece of graded stock on edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Plain {
    /// The wood as the table names it.
    pub wood: String,
    /// The stock size, such as `2x8`.
    pub size: String,
    values: Wood,
    piece: Piece,
}

/// How it is used.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Use {
    /// Centre to centre.
    pub spacing: Length,
    /// Load that comes and goes.
    pub live: AreaLoad,
    /// Load that stays.
    pub dead: AreaLoad,
    /// The span over this is the most it may sag under the live load.
    pub limit: f64,
    /// How long the live load acts in all.
    pub duration: Duration,
    /// Damp, incised, and whether three or more share the load.
    pub conditions: Conditions,
    /// The longest span that is looked for.
    pub cap: Length,
}

/// What stops a span from being longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Governs {
    /// Bending stress under all load.
    Bending,
    /// Shear stress at the support under all load.
    Shear,
    /// Sag under the live load.
    Deflection,
    /// The longest span that was asked for.
    Cap,
}

/// The longest span of a piece.
#[derive(Clone, Debug)]
pub struct PlainSpan {
    /// The longest span that passes, to the sixteenth of an inch or the millimetre, clear between supports.
    pub span: Length,
    /// The exact span to the nearest inch, halves down: span tables are printed so, and the nearest inch may
    /// be a little more than what passes.
    pub nearest_inch: i64,
    /// What fails one step longer.
    pub governs: Governs,
    /// Its ratio there.
    pub beyond: f64,
    /// `Fb'`, `Fv'` and `E'`.
    pub values: [Worked<Stress>; 3],
}

/// One piece at one spacing.
#[derive(Clone, Debug)]
pub struct PlainCell {
    /// The wood as asked for, or as the table names it.
    pub wood: String,
    /// The stock size.
    pub size: String,
    /// Centre to centre.
    pub spacing: Length,
    /// The longest span, or why there is none.
    pub longest: Result<PlainSpan, PlainError>,
}

/// Every wood at every spacing in every size, in that order.
pub fn plain_table(
    woods: &[String],
    spacings: &[Length],
    sizes: &[String],
    u: &Use,
    tables: &Tables,
    units: UnitSystem,
) -> Vec<PlainCell> {
    let cells = woods.iter().flat_map(|wood| spacings.iter().map(move |s| (wood, *s)));
    let cells: Vec<_> = cells.flat_map(|(wood, s)| sizes.iter().map(move |size| (wood, s, size))).collect();
    let cell = |(wood, spacing, size): &(&String, Length, &String)| {
        let plain = Plain::find(wood, size, tables);
        let names = plain.as_ref().map_or(((*wood).clone(), (*size).clone()), |p| (p.wood.clone(), p.size.clone()));
        let longest = plain.and_then(|p| p.longest(&Use { spacing: *spacing, ..*u }, units));
        PlainCell { wood: names.0, size: names.1, spacing: *spacing, longest }
    };
    cells.par_iter().map(cell).collect()
}

/// Why there is no span.
#[derive(Clone, Debug, PartialEq)]
pub enum PlainError {
    /// A name is in no table.
    NotFound(NotFound),
    /// Stock without a standard width or nominal size, which no graded value is for.
    NoNominal(String),
    /// A rule has no answer.
    Rule(RuleError),
    /// Not even the shortest span passes.
    NoSpan,
}

impl PlainError {
    /// What is wrong and what would be right, in one sentence.
    pub fn describe(&self, units: UnitSystem) -> String {
        match self {
            PlainError::NotFound(e) => format!("{e}; {}", e.help()),
            PlainError::NoNominal(size) => {
                format!("`{size}` has no nominal size, and graded values are for nominal sizes; write 2x4, 2x6, 2x8 …")
            }
            PlainError::Rule(e) => e.describe(units),
            PlainError::NoSpan => "not even a span of one foot passes: the load is too heavy for this piece".into(),
        }
    }
}

impl From<RuleError> for PlainError {
    fn from(e: RuleError) -> Self {
        PlainError::Rule(e)
    }
}

impl Plain {
    /// Graded stock by the names of its wood and size.
    ///
    /// # Errors
    ///
    /// [`PlainError::NotFound`] and [`PlainError::NoNominal`].
    pub fn find(wood: &str, size: &str, tables: &Tables) -> Result<Plain, PlainError> {
        let stock = tables.stock().find(size).map_err(PlainError::NotFound)?;
        let (Some(width), Some(nominal)) = (stock.width, stock.nominal) else {
            return Err(PlainError::NoNominal(size.to_owned()));
        };
        let row = tables.lumber().find(wood, nominal.0, nominal.1).map_err(PlainError::NotFound)?;
        Ok(Plain {
            wood: row.name(),
            size: stock.name.clone(),
            values: Wood::Graded { values: row.values, table: row.table, grade: row.grade.clone() },
            piece: Piece { section: Section { breadth: stock.thickness, depth: width }, nominal, face: Face::Edgewise },
        })
    }

    /// The longest simple span under an even load: bending and shear under live and dead load, sag under
    /// the live load alone. The supported edge is held sideways, as by boards or a mattress; bearing is for
    /// whoever knows the support.
    ///
    /// # Errors
    ///
    /// [`PlainError::Rule`] and [`PlainError::NoSpan`].
    pub fn longest(&self, u: &Use, units: UnitSystem) -> Result<PlainSpan, PlainError> {
        let fb = self.values.bending(&self.piece, &u.conditions, u.duration, None)?;
        let fv = self.values.shear(&self.piece, &u.conditions, u.duration)?;
        let e = self.values.modulus(&self.piece, &u.conditions)?;
        let ratios = |l: Length| self.ratios(u, l, [&fb, &fv, &e]);
        let passes = |l: Length| ratios(l).iter().all(|(_, r)| Verdict::of(*r) == Verdict::Pass);
        let (length, grid): (fn(i64) -> Length, Grid) = match units {
            UnitSystem::Us => {
                let last = (u.cap.value / inch(1.0 / 16.0).value + 1e-6).floor() as i64;
                (|k| inch(k as f64 / 16.0), Grid { first: 192, last, coarse: 768, marks: Vec::new() })
            }
            UnitSystem::Metric => {
                let last = (u.cap.value / millimetre(1.0).value + 1e-6).floor() as i64;
                (|k| millimetre(k as f64), Grid { first: 305, last, coarse: 1000, marks: Vec::new() })
            }
        };
        let state = |k: i64| if passes(length(k)) { State::Pass } else { State::Fail };
        let found = grid.greatest(state).ok_or(PlainError::NoSpan)?;
        let beyond = ratios(length(found.at + 1));
        let (governs, ratio) = beyond.into_iter().fold((Governs::Cap, 0.0), |a, b| if b.1 > a.1 { b } else { a });
        let governs = if found.open { Governs::Cap } else { governs };
        let span = length(found.at);
        let whole = (span / inch(1.0)).value.floor();
        // A hair more than the half: what is an exact half on paper may come out on either side of it.
        let more_than_half = !found.open && passes(inch(whole + 0.5 + 1e-6));
        let nearest_inch = whole as i64 + i64::from(more_than_half);
        Ok(PlainSpan { span, nearest_inch, governs, beyond: ratio, values: [fb, fv, e] })
    }

    /// Demand over capacity at a span.
    fn ratios(&self, u: &Use, span: Length, [fb, fv, e]: [&Worked<Stress>; 3]) -> [(Governs, f64); 3] {
        let section = &self.piece.section;
        let ei = (e.value * section.second_moment().value).value;
        let l = span.value;
        let beam = Span { start: 0.0, end: l, supports: [0.0, l], ei, kga: f64::INFINITY };
        let even = |load: AreaLoad| {
            let w = (load * u.spacing).value;
            [Load::Spread { from: 0.0, to: l, start: w, end: w }]
        };
        let (all, live) = (even(u.live + u.dead), even(u.live));
        // A beam that cannot be analysed carries nothing.
        let (Ok(all), Ok(live)) = (beam.under(&all), beam.under(&live)) else {
            return [(Governs::Bending, f64::INFINITY), (Governs::Shear, f64::INFINITY), (Governs::Deflection, 0.0)];
        };
        let moment = all.extreme_moment().0.1;
        let shear = all.extreme_shear().1.abs();
        let sag = live.extreme_deflection().0.1;
        let bent = bending_stress(crate::quantity::unit::newton_metre(moment), section).value;
        let sheared = shear_stress(crate::quantity::unit::newton(shear), section).value;
        [
            (Governs::Bending, (bent / fb.value).value),
            (Governs::Shear, (sheared / fv.value).value),
            (Governs::Deflection, sag / (l / u.limit)),
        ]
    }
}
