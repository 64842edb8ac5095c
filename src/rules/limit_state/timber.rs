//! One face for the checks: the design strengths of a strength class in its place.

use super::column::{buckling, relative_slenderness};
use super::design::{
    LoadDuration, Material, NationalChoice, ServiceClass, deformation, design_value, modification, partial_factor,
};
use super::ec5;
use super::section::{Axis, Section};
use super::shear::crack_factor;
use super::size::{size_factor, system_strength};
use super::stability::{
    Unbraced, bends_about_weak_axis, critical_stress, critical_stress_of_softwood, effective_length,
    fifth_percentile_of_shear_modulus, held, lateral_buckling,
};
use crate::derivation::{Worked, given};
use crate::quantity::{Length, Ratio, Stress};
use crate::rules::RuleError;
use crate::source::Seen;
use crate::tables::clear_wood::WoodKind;
use crate::tables::strength_classes::{StrengthClass, StrengthValues};

/// Solid timber of a strength class.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Timber {
    /// Characteristic values.
    pub values: StrengthValues,
    /// Softwood or hardwood.
    pub kind: WoodKind,
}

impl From<&StrengthClass> for Timber {
    fn from(class: &StrengthClass) -> Timber {
        Timber { values: class.values, kind: class.kind }
    }
}

/// What a design value depends on beside the timber.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Conditions {
    /// Class of the shortest action in the combination.
    pub duration: LoadDuration,
    /// Service class.
    pub service: ServiceClass,
    /// National choice.
    pub choice: NationalChoice,
    /// Whether a continuous layer shares the load between neighbours.
    pub shared: bool,
}

/// Buckling lengths of a column.
#[derive(Clone, Debug)]
pub struct Column {
    /// `ℓef,y`, for buckling in the direction of the depth.
    pub along_depth: Worked<Length>,
    /// `ℓef,z`, for buckling in the direction of the breadth.
    pub along_breadth: Worked<Length>,
}

const SOLID: Material = Material::SolidTimber;

impl Timber {
    /// Bending strength, `kcrit · fm,d` with `fm,d = kmod · ksys · kh · fm,k / γM`.
    ///
    /// `unbraced` is `None` where the compression edge is held. Critical stresses are those of the
    /// softwood rectangle, equation 6.32, for softwood and equation 6.31 for hardwood.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.1.6 and 6.3.3, equation 6.33, read in summaries.
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`size_factor`], [`effective_length`] and [`lateral_buckling`].
    pub fn bending(
        &self,
        section: &Section,
        conditions: &Conditions,
        unbraced: Option<&Unbraced>,
    ) -> Result<Worked<Stress>, RuleError> {
        let kh = size_factor(SOLID, section.depth, self.values.density)?;
        let strength = given("fm,k", self.values.bending) * kh * system_strength(conditions.shared);
        let fm = self.design("fm,d", strength, conditions)?;
        let kcrit = match unbraced {
            Some(unbraced) if !bends_about_weak_axis(section) => self.lateral_buckling(section, unbraced)?,
            _ => held(),
        };
        Ok((kcrit * fm).step("kcrit·fm,d", ec5("(6.33)", Seen::Secondary)))
    }

    /// `kcrit` of a beam of this timber.
    fn lateral_buckling(&self, section: &Section, unbraced: &Unbraced) -> Result<Worked<Ratio>, RuleError> {
        let effective = effective_length(unbraced, section)?;
        let fifth = given("E0,05", self.values.modulus_fifth);
        let critical = match self.kind {
            WoodKind::Softwood => critical_stress_of_softwood(section, effective, fifth),
            WoodKind::Hardwood => {
                let (shear, mean) = (given("Gmean", self.values.shear_modulus), given("E0,mean", self.values.modulus));
                let shear = fifth_percentile_of_shear_modulus(shear, fifth.clone(), mean);
                critical_stress(section, effective, fifth, shear)?
            }
        };
        lateral_buckling(given("fm,k", self.values.bending), critical)
    }

    /// Tension strength along the grain, `ft,0,d = kmod · ksys · kh · ft,0,k / γM`.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.1.2 and 3.2(3), read in summaries.
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`size_factor`].
    pub fn tension(&self, section: &Section, conditions: &Conditions) -> Result<Worked<Stress>, RuleError> {
        let width = if section.depth > section.breadth { section.depth } else { section.breadth };
        let kh = size_factor(SOLID, width, self.values.density)?;
        let strength = given("ft,0,k", self.values.tension) * kh * system_strength(conditions.shared);
        self.design("ft,0,d", strength, conditions)
    }

    /// Compression strength along the grain, `kc · fc,0,d` with `fc,0,d = kmod · ksys · fc,0,k / γM` and the
    /// smaller `kc` of the two directions.
    ///
    /// Without a column the member is held all along and the result is `fc,0,d`.
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.1.4 and 6.3.2, read in summaries.
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`relative_slenderness`].
    pub fn compression(
        &self,
        section: &Section,
        conditions: &Conditions,
        column: Option<&Column>,
    ) -> Result<Worked<Stress>, RuleError> {
        let strength = given("fc,0,k", self.values.compression) * system_strength(conditions.shared);
        let fc = self.design("fc,0,d", strength, conditions)?;
        let Some(column) = column else {
            return Ok(fc);
        };
        let factor = |axis, length: &Worked<Length>| self.buckling(section, axis, length.clone());
        let kc = factor(Axis::Y, &column.along_depth)?.min(factor(Axis::Z, &column.along_breadth)?);
        Ok((kc * fc).step("kc·fc,0,d", ec5("6.3.2(3)", Seen::Secondary)))
    }

    /// `kc` in one direction.
    ///
    /// # Source
    ///
    /// [`buckling`].
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`relative_slenderness`].
    pub fn buckling(&self, section: &Section, axis: Axis, length: Worked<Length>) -> Result<Worked<Ratio>, RuleError> {
        let strength = given("fc,0,k", self.values.compression);
        let slender = relative_slenderness(section, axis, length, strength, given("E0,05", self.values.modulus_fifth))?;
        buckling(axis, slender, SOLID)
    }

    /// Bearing strength across the grain, `kc,90 · fc,90,d` with `fc,90,d = kmod · fc,90,k / γM`.
    ///
    /// `kc90` is [`bearing_factor`](super::bearing::bearing_factor).
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.1.5(1), equation 6.3, read in summaries.
    ///
    /// # Errors
    ///
    /// None for solid timber; the type is that of [`modification`].
    pub fn bearing(&self, conditions: &Conditions, kc90: Worked<Ratio>) -> Result<Worked<Stress>, RuleError> {
        let fc90 = self.design("fc,90,d", given("fc,90,k", self.values.compression_across), conditions)?;
        Ok((kc90 * fc90).step("kc,90·fc,90,d", ec5("(6.3)", Seen::Secondary)))
    }

    /// Shear strength along the grain, `fv,d = kmod · fv,k / γM`.
    ///
    /// The crack factor goes on the breadth: [`Timber::crack_factor`].
    ///
    /// # Source
    ///
    /// EN 1995-1-1 6.1.7(1), equation 6.13, read in summaries.
    ///
    /// # Errors
    ///
    /// None for solid timber; the type is that of [`modification`].
    pub fn shear(&self, conditions: &Conditions) -> Result<Worked<Stress>, RuleError> {
        self.design("fv,d", given("fv,k", self.values.shear), conditions)
    }

    /// `kcr` of this timber.
    ///
    /// # Source
    ///
    /// [`crack_factor`].
    ///
    /// # Errors
    ///
    /// [`RuleError`] of [`crack_factor`].
    pub fn crack_factor(&self, choice: NationalChoice) -> Result<Worked<Ratio>, RuleError> {
        crack_factor(SOLID, self.kind, self.values.shear, choice)
    }

    /// Mean modulus of elasticity for deflection, `E0,mean`; shear deflection is not in it.
    pub fn modulus(&self) -> Worked<Stress> {
        given("E0,mean", self.values.modulus)
    }

    /// Mean shear modulus for deflection, `Gmean`.
    pub fn shear_modulus(&self) -> Worked<Stress> {
        given("Gmean", self.values.shear_modulus)
    }

    /// `kdef` of this timber.
    ///
    /// # Source
    ///
    /// [`deformation`].
    ///
    /// # Errors
    ///
    /// None for solid timber; the type is that of [`deformation`].
    pub fn deformation(&self, service: ServiceClass) -> Result<Worked<Ratio>, RuleError> {
        deformation(SOLID, service)
    }

    fn design(
        &self,
        symbol: &'static str,
        characteristic: Worked<Stress>,
        conditions: &Conditions,
    ) -> Result<Worked<Stress>, RuleError> {
        let kmod = modification(SOLID, conditions.duration, conditions.service)?;
        Ok(design_value(symbol, kmod, characteristic, partial_factor(SOLID, conditions.choice)))
    }
}
