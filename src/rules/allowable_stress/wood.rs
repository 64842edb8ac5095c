//! One face for graded and ungraded wood: the allowable stresses of a piece in its place.
//!
//! # Example
//!
//! A 2x4 of spruce-pine-fir No.1/No.2 laid flat:
//!
//! ```
//! use slatwright::quantity::{UnitSystem, number, unit::{inch, psi}};
//! use slatwright::rules::allowable_stress::factors::Duration;
//! use slatwright::rules::allowable_stress::section::Section;
//! use slatwright::rules::allowable_stress::wood::{Conditions, Face, Piece, Wood};
//! use slatwright::tables::lumber::{ReferenceValues, SupplementTable};
//!
//! let values = ReferenceValues {
//!     bending: psi(875.0),
//!     tension: psi(450.0),
//!     shear: psi(135.0),
//!     compression_perpendicular: psi(425.0),
//!     compression_parallel: psi(1150.0),
//!     modulus: psi(1.4e6),
//!     modulus_for_stability: psi(0.51e6),
//!     specific_gravity: number(0.42),
//! };
//! let wood = Wood::Graded { values, table: SupplementTable::DimensionLumber, grade: "No.1/No.2".into() };
//! let section = Section { breadth: inch(3.5), depth: inch(1.5) };
//! let slat = Piece { section, nominal: (2.0, 4.0), face: Face::Flatwise };
//!
//! let fb = wood.bending(&slat, &Conditions::default(), Duration::TenYears, None)?;
//! let last = fb.as_step().expect("every clause closes its step");
//! assert_eq!(
//!     last.line(UnitSystem::Us),
//!     "Fb' = Fb · CD · CM · Ct · CL · CF · Cfu · Ci · Cr \
//!      = 875 psi · 1 · 1 · 1 · 1 · 1.5 · 1.1 · 1 · 1 = 1444 psi"
//! );
//! # Ok::<(), slatwright::rules::RuleError>(())
//! ```

use super::bending::{self, Unbraced};
use super::column::{self, Column};
pub use super::factors::Conditions;
use super::factors::{Duration, Property, incising, load_duration, repetitive_member, temperature, wet_service};
use super::section::Section;
use super::size::{covered_thickness, flat_use, flat_use_of_modulus, size_factor};
use super::strength_ratio::{GrainAction, KnotPlace, knot, slope_of_grain};
use super::ungraded::{self, Seasoning};
use super::{measured, nds};
use crate::derivation::{Worked, given, plain};
use crate::quantity::{Length, Ratio, Stress, unit::inch};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use crate::tables::clear_wood::{ClearValues, WoodKind};
use crate::tables::lumber::{ReferenceValues, SupplementTable};

/// The face of a piece that takes the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// The narrow face: a rail or a joist on edge.
    Edgewise,
    /// The wide face: a slat laid flat.
    Flatwise,
}

/// A piece of wood as it stands under its load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Breadth and depth as loaded, dressed.
    pub section: Section,
    /// Nominal thickness and width in inches, the names under which lumber is sold.
    pub nominal: (f64, f64),
    /// The face that takes the load.
    pub face: Face,
}

/// What weakens a piece of ungraded wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Defects {
    /// The largest knot, measured across the wide face; `None` for wood free of knots.
    pub knot: Option<Length>,
    /// Slope of grain: 12 for 1 in 12.
    pub slope_of_grain: f64,
}

/// A wood, by the road on which its allowable stresses are found.
#[derive(Clone, Debug, PartialEq)]
pub enum Wood {
    /// Lumber with a grade stamp: NDS reference values and adjustment factors.
    Graded {
        /// Reference design values.
        values: ReferenceValues,
        /// The supplement table they stand in.
        table: SupplementTable,
        /// The grade, as the table names it.
        grade: String,
    },
    /// Wood without a grade: clear-wood averages and ASTM D245.
    Ungraded {
        /// Averages of green clear wood.
        species: ClearValues,
        /// Softwood or hardwood.
        kind: WoodKind,
        /// Knots and grain.
        defects: Defects,
    },
    /// Either, with a modulus of elasticity that was measured on the piece.
    Measured {
        /// The wood, which keeps its strength.
        wood: Box<Wood>,
        /// Its modulus as measured.
        modulus: Stress,
    },
}

const ROAD: &str = "ASTM D245";

/// Where an adjusted value is defined, on either road.
fn cite(wood: &Wood, clause: &'static str) -> Citation {
    match wood {
        Wood::Graded { .. } => nds(clause, Seen::Secondary),
        Wood::Ungraded { .. } => Citation::new(ROAD, "allowable properties", Seen::Memory),
        Wood::Measured { wood, .. } => cite(wood, clause),
    }
}

/// A reference value and the factors on it, in the order of NDS Table 4.3.1, without `CD` and without
/// stability.
struct Adjustment {
    reference: Worked<Stress>,
    /// `CM`, `Ct`.
    service: Vec<Worked<Ratio>>,
    /// `CF`.
    size: Vec<Worked<Ratio>>,
    /// `Cfu`.
    flat: Vec<Worked<Ratio>>,
    /// `Ci`, `Cr`.
    rest: Vec<Worked<Ratio>>,
}

fn times(start: Worked<Stress>, factors: &[Worked<Ratio>]) -> Worked<Stress> {
    factors.iter().fold(start, |product, factor| product * factor.clone())
}

impl Adjustment {
    /// Reference value times everything, with what goes after `CD` and what goes before `CF`.
    fn product(&self, duration: Option<Duration>, stability: Option<&Worked<Ratio>>, flat: bool) -> Worked<Stress> {
        let mut value = self.reference.clone();
        if let Some(duration) = duration {
            value = value * load_duration(duration);
        }
        value = times(value, &self.service);
        if let Some(stability) = stability {
            value = value * stability.clone();
        }
        value = times(value, &self.size);
        if flat {
            value = times(value, &self.flat);
        }
        times(value, &self.rest)
    }
}

impl Wood {
    /// Allowable bending stress, `Fb' = Fb · CD · CM · Ct · CL · CF · Cfu · Ci · Cr`.
    ///
    /// `unbraced` is `None` where the compression edge is held. Ungraded wood has neither `CM` (its
    /// green strength is used when wet) nor `Cfu` nor `Cr`.
    ///
    /// # Source
    ///
    /// NDS 2018 3.3.1 and Table 4.3.1, read in a summary; [`ungraded::bending`].
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`size_factor`], [`flat_use`], [`knot`], [`slope_of_grain`] and
    /// [`bending::beam_stability`].
    pub fn bending(
        &self,
        piece: &Piece,
        conditions: &Conditions,
        duration: Duration,
        unbraced: Option<&Unbraced>,
    ) -> Result<Worked<Stress>, RuleError> {
        let adjustment = self.adjustment(Property::Bending, piece, conditions)?;
        let stability = match unbraced {
            None => bending::fully_braced(),
            Some(unbraced) => {
                let star = adjustment.product(Some(duration), None, false).step("Fb*", nds("3.3.3.8", Seen::Secondary));
                let emin = self.modulus_for_stability(piece, conditions)?;
                bending::beam_stability(&piece.section, unbraced, emin, star)?
            }
        };
        Ok(adjustment.product(Some(duration), Some(&stability), true).step("Fb'", cite(self, "3.3.1")))
    }

    /// Allowable tension stress, `Ft' = Ft · CD · CM · Ct · CF · Ci`.
    ///
    /// # Source
    ///
    /// NDS 2018 3.8.1 and Table 4.3.1, read in a summary; [`ungraded::tension`].
    ///
    /// # Errors
    ///
    /// As [`Wood::bending`].
    pub fn tension(
        &self,
        piece: &Piece,
        conditions: &Conditions,
        duration: Duration,
    ) -> Result<Worked<Stress>, RuleError> {
        let adjustment = self.adjustment(Property::Tension, piece, conditions)?;
        Ok(adjustment.product(Some(duration), None, false).step("Ft'", cite(self, "3.8.1")))
    }

    /// Allowable shear stress along the grain, `Fv' = Fv · CD · CM · Ct · Ci`.
    ///
    /// # Source
    ///
    /// NDS 2018 3.4.1 and Table 4.3.1, read in a summary; [`ungraded::shear`].
    ///
    /// # Errors
    ///
    /// [`RuleError::NotCovered`] for sizes outside the supplement table.
    pub fn shear(
        &self,
        piece: &Piece,
        conditions: &Conditions,
        duration: Duration,
    ) -> Result<Worked<Stress>, RuleError> {
        let adjustment = self.adjustment(Property::Shear, piece, conditions)?;
        Ok(adjustment.product(Some(duration), None, false).step("Fv'", cite(self, "3.4.1")))
    }

    /// Allowable bearing stress across the grain, `Fc⊥' = Fc⊥ · CM · Ct · Ci · Cb`; no `CD`.
    ///
    /// `area` is [`bearing_area`](super::bearing::bearing_area).
    ///
    /// # Source
    ///
    /// NDS 2018 3.10.2 and Table 4.3.1, read in a summary; [`ungraded::compression_perpendicular`].
    ///
    /// # Errors
    ///
    /// [`RuleError::NotCovered`] for sizes outside the supplement table.
    pub fn bearing(
        &self,
        piece: &Piece,
        conditions: &Conditions,
        area: Worked<Ratio>,
    ) -> Result<Worked<Stress>, RuleError> {
        let adjustment = self.adjustment(Property::CompressionPerpendicular, piece, conditions)?;
        Ok((adjustment.product(None, None, false) * area).step("Fc⊥'", cite(self, "3.10.2")))
    }

    /// Allowable compression stress along the grain, `Fc' = Fc · CD · CM · Ct · CP · CF · Ci`.
    ///
    /// Without a column the member is held all along and the result is `Fc*`, `CP = 1`.
    ///
    /// # Source
    ///
    /// NDS 2018 3.6.3, 3.7.1 and Table 4.3.1, read in a summary; [`ungraded::compression_parallel`].
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`size_factor`], [`column::slenderness`] and [`column::column_stability`].
    pub fn compression(
        &self,
        piece: &Piece,
        conditions: &Conditions,
        duration: Duration,
        column: Option<&Column>,
    ) -> Result<Worked<Stress>, RuleError> {
        let adjustment = self.adjustment(Property::CompressionParallel, piece, conditions)?;
        let star = adjustment.product(Some(duration), None, false).step("Fc*", cite(self, "3.7.1.5"));
        let Some(column) = column else {
            return Ok(star);
        };
        let slender = column::slenderness(column, &piece.section)?;
        let emin = self.modulus_for_stability(piece, conditions)?;
        let cp = column::column_stability(column::critical_compression_stress(emin, slender), star)?;
        Ok(adjustment.product(Some(duration), Some(&cp), false).step("Fc'", cite(self, "3.6.3")))
    }

    /// Modulus for deflection, `E' = E · CM · Ct · Ci`; no `CD`.
    ///
    /// It includes shear deflection: nothing is to be added for it.
    ///
    /// # Source
    ///
    /// NDS 2018 3.5.1 and Table 4.3.1, read in a summary; [`ungraded::modulus`].
    ///
    /// # Errors
    ///
    /// As [`Wood::bending`].
    pub fn modulus(&self, piece: &Piece, conditions: &Conditions) -> Result<Worked<Stress>, RuleError> {
        let mut adjustment = self.adjustment(Property::Modulus, piece, conditions)?;
        if let Wood::Measured { modulus, .. } = self {
            adjustment.reference = measured::reference(*modulus);
        }
        Ok(adjustment.product(None, None, true).step("E'", cite(self, "3.5.1")))
    }

    /// Modulus for stability, `Emin' = Emin · CM · Ct · Ci`.
    ///
    /// # Source
    ///
    /// NDS 2018 Table 4.3.1, read in a summary; [`ungraded::modulus_for_stability`].
    ///
    /// # Errors
    ///
    /// As [`Wood::bending`].
    pub fn modulus_for_stability(&self, piece: &Piece, conditions: &Conditions) -> Result<Worked<Stress>, RuleError> {
        let mut adjustment = self.adjustment(Property::Modulus, piece, conditions)?;
        adjustment.reference = match self {
            Wood::Graded { values, .. } => given("Emin", values.modulus_for_stability),
            Wood::Ungraded { .. } => ungraded::modulus_for_stability(adjustment.reference),
            Wood::Measured { wood, .. } => {
                let of_table = wood.modulus(piece, conditions)?;
                let emin = wood.modulus_for_stability(piece, conditions)?;
                return Ok(measured::for_stability(emin, self.modulus(piece, conditions)?, of_table));
            }
        };
        Ok(adjustment.product(None, None, true).step("Emin'", cite(self, "4.3.1")))
    }

    /// Specific gravity `G` for fasteners, oven-dry weight.
    ///
    /// Clear-wood tables give it on green volume, which is larger than the oven-dry volume the
    /// connection clauses mean; used as it stands it gives lower strengths.
    pub fn specific_gravity(&self) -> Ratio {
        match self {
            Wood::Graded { values, .. } => values.specific_gravity,
            Wood::Ungraded { species, .. } => species.specific_gravity,
            Wood::Measured { wood, .. } => wood.specific_gravity(),
        }
    }

    fn adjustment(&self, property: Property, piece: &Piece, conditions: &Conditions) -> Result<Adjustment, RuleError> {
        match self {
            Wood::Graded { values, table, grade } => graded(values, *table, grade, property, piece, conditions),
            Wood::Ungraded { species, kind, defects } => {
                from_clear(species, *kind, defects, property, piece, conditions)
            }
            Wood::Measured { wood, .. } => wood.adjustment(property, piece, conditions),
        }
    }
}

/// NDS reference value and factors.
fn graded(
    values: &ReferenceValues,
    table: SupplementTable,
    grade: &str,
    property: Property,
    piece: &Piece,
    conditions: &Conditions,
) -> Result<Adjustment, RuleError> {
    covered_thickness(table, piece.nominal)?;
    let (symbol, value) = match property {
        Property::Bending => ("Fb", values.bending),
        Property::Tension => ("Ft", values.tension),
        Property::Shear => ("Fv", values.shear),
        Property::CompressionPerpendicular => ("Fc⊥", values.compression_perpendicular),
        Property::CompressionParallel => ("Fc", values.compression_parallel),
        Property::Modulus => ("E", values.modulus),
    };
    let sizes = matches!(property, Property::Bending | Property::Tension | Property::CompressionParallel);
    let cf = size_factor(table, grade, property, piece.nominal, piece.section.depth)?;
    let cm = wet_service(property, table, conditions.wet, value * cf.value);
    let ct = temperature(property, conditions.temperature, conditions.wet);
    let flat = match (piece.face, property) {
        (Face::Flatwise, Property::Bending) => vec![flat_use(table, grade, piece.nominal)?],
        (Face::Flatwise, Property::Modulus) if table == SupplementTable::Timber => {
            let factor = flat_use_of_modulus(table, grade, piece.nominal)?;
            vec![given("Cfu", factor)]
        }
        _ => Vec::new(),
    };
    let mut rest = vec![incising(property, conditions.incised)];
    if property == Property::Bending {
        rest.push(repetitive_member(table, conditions.repetitive));
    }
    let size = if sizes { vec![cf] } else { Vec::new() };
    Ok(Adjustment { reference: given(symbol, value), service: vec![cm, ct], size, flat, rest })
}

/// Allowable property from clear wood, and the factors that still apply to it.
fn from_clear(
    species: &ClearValues,
    kind: WoodKind,
    defects: &Defects,
    property: Property,
    piece: &Piece,
    conditions: &Conditions,
) -> Result<Adjustment, RuleError> {
    let section = &piece.section;
    let thin = if section.depth < section.breadth { section.depth } else { section.breadth };
    // Dry service is at most 19 %; D245 gives no gain to pieces thicker than 4 in, which dry slowly.
    let seasoning = if conditions.wet || thin > inch(4.0) { Seasoning::Green } else { Seasoning::AtMost19 };
    let ratio = strength_ratio(defects, property, piece)?;
    let reference = match property {
        Property::Bending => ungraded::bending(species, kind, ratio, seasoning)?,
        Property::Tension => ungraded::tension(ungraded::bending(species, kind, ratio, seasoning)?),
        Property::Shear => ungraded::shear(species, kind, seasoning)?,
        Property::CompressionPerpendicular => ungraded::compression_perpendicular(species, seasoning)?,
        Property::CompressionParallel => ungraded::compression_parallel(species, kind, ratio, seasoning)?,
        Property::Modulus => ungraded::modulus(species, &ratio, seasoning)?,
    };
    let size = if property == Property::Bending { vec![ungraded::size(section.depth)] } else { Vec::new() };
    let service = vec![temperature(property, conditions.temperature, conditions.wet)];
    Ok(Adjustment { reference, service, size, flat: Vec::new(), rest: vec![incising(property, conditions.incised)] })
}

/// The least of the strength ratios that bear on a property.
///
/// Bending: a slat laid flat has its knot on the face across the load; on edge the knot is taken at
/// the edge of the wide face, its worst place. Compression: at the middle of the wide face.
fn strength_ratio(defects: &Defects, property: Property, piece: &Piece) -> Result<Worked<Ratio>, RuleError> {
    let section = &piece.section;
    let wide = if section.depth > section.breadth { section.depth } else { section.breadth };
    let (action, place, face) = match (property, piece.face) {
        (Property::CompressionParallel, _) => (GrainAction::Compression, KnotPlace::WideFaceCentre, wide),
        (_, Face::Flatwise) => (GrainAction::Bending, KnotPlace::NarrowFace, section.breadth),
        (_, Face::Edgewise) => (GrainAction::Bending, KnotPlace::WideFaceEdge, section.depth),
    };
    let grain = slope_of_grain(action, defects.slope_of_grain)?;
    let of_knot = match defects.knot {
        Some(size) => knot(place, size, face)?,
        None => plain(1.0).step("Sknot", Citation::new(ROAD, "knots in bending", Seen::Secondary)),
    };
    Ok(of_knot.min(grain).step("S", Citation::new(ROAD, "strength ratio", Seen::Memory)))
}
