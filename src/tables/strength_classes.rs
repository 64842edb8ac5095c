//! Strength classes of solid structural timber, and the visual grades that belong to them.

use serde::Deserialize;
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::Table;
use super::clear_wood::WoodKind;
use super::entry::Entry;
use super::names::{Missing, NotFound, joined, nearest, words};
use super::row::{Band, Row, Rows, Units, Wrong, ratio};
use crate::quantity::unit::megapascal;
use crate::quantity::{MassDensity, Stress};
use crate::source::Provenance;

/// What EN 338 prints for a class: characteristic values, without any factor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrengthValues {
    /// `fm,k`, bending.
    pub bending: Stress,
    /// `ft,0,k`, tension along the grain.
    pub tension: Stress,
    /// `ft,90,k`, tension across the grain.
    pub tension_across: Stress,
    /// `fc,0,k`, compression along the grain.
    pub compression: Stress,
    /// `fc,90,k`, compression across the grain.
    pub compression_across: Stress,
    /// `fv,k`, shear.
    pub shear: Stress,
    /// `E0,mean`, mean modulus of elasticity along the grain (`Em,0,mean`).
    pub modulus: Stress,
    /// `E0,05`, its fifth percentile (`Em,0,k`).
    pub modulus_fifth: Stress,
    /// `E90,mean`, mean modulus of elasticity across the grain (`Em,90,mean`).
    pub modulus_across: Stress,
    /// `Gmean`, mean shear modulus.
    pub shear_modulus: Stress,
    /// `ρk`, fifth percentile of the density.
    pub density: MassDensity,
    /// `ρmean`, mean density.
    pub density_mean: MassDensity,
}

/// A strength class.
#[derive(Clone, Debug, PartialEq)]
pub struct StrengthClass {
    /// Its name, such as `C24`.
    pub name: String,
    /// Softwood or hardwood.
    pub kind: WoodKind,
    /// Its values.
    pub values: StrengthValues,
    /// Where the row comes from.
    pub provenance: Provenance,
}

/// Strengths in N/mm².
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PrintedStrength {
    fmk: f64,
    ft0k: f64,
    ft90k: f64,
    fc0k: f64,
    fc90k: f64,
    fvk: f64,
}

/// Moduli in kN/mm².
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PrintedModulus {
    #[serde(rename = "E0mean")]
    e0mean: f64,
    #[serde(rename = "E005")]
    e005: f64,
    #[serde(rename = "E90mean")]
    e90mean: f64,
    #[serde(rename = "Gmean")]
    gmean: f64,
}

/// Densities in kg/m³.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PrintedDensity {
    rhok: f64,
    rhomean: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedClass {
    name: String,
    kind: WoodKind,
    strength: PrintedStrength,
    modulus: PrintedModulus,
    density: PrintedDensity,
}

impl Row for StrengthClass {
    const ARRAY: &'static str = "strength_class";
    // EN 338 exists in metric units only.
    const HAS_UNITS: bool = false;
    type Printed = PrintedClass;

    fn new(p: PrintedClass, _: Units, provenance: Provenance) -> Result<Self, Wrong> {
        let stress = |name, v, band: Band| ratio(name, v, band).map(|v| megapascal(v.value));
        let modulus = |name, v, band: Band| ratio(name, v, band).map(|v| megapascal(v.value * 1e3));
        let density =
            |name, v| ratio(name, v, (200.0, 1300.0)).map(|v| MassDensity::new::<kilogram_per_cubic_meter>(v.value));
        let (s, m, d) = (p.strength, p.modulus, p.density);
        let fifth_below_mean = |name: &str, fifth: f64, mean: f64| {
            if fifth < mean {
                return Ok(());
            }
            Err(Wrong::new(format!("{name} is not below its mean"), "a fifth percentile lies below the mean"))
        };
        fifth_below_mean("E005", m.e005, m.e0mean)?;
        fifth_below_mean("rhok", d.rhok, d.rhomean)?;
        let values = StrengthValues {
            bending: stress("fmk", s.fmk, (5.0, 120.0))?,
            tension: stress("ft0k", s.ft0k, (3.0, 80.0))?,
            tension_across: stress("ft90k", s.ft90k, (0.1, 2.0))?,
            compression: stress("fc0k", s.fc0k, (8.0, 80.0))?,
            compression_across: stress("fc90k", s.fc90k, (1.0, 25.0))?,
            shear: stress("fvk", s.fvk, (1.0, 10.0))?,
            modulus: modulus("E0mean", m.e0mean, (4.0, 35.0))?,
            modulus_fifth: modulus("E005", m.e005, (3.0, 30.0))?,
            modulus_across: modulus("E90mean", m.e90mean, (0.1, 3.0))?,
            shear_modulus: modulus("Gmean", m.gmean, (0.2, 3.0))?,
            density: density("rhok", d.rhok)?,
            density_mean: density("rhomean", d.rhomean)?,
        };
        Ok(StrengthClass { name: p.name, kind: p.kind, values, provenance })
    }

    fn key(&self) -> String {
        joined(&self.name)
    }
}

/// A visual grade of some species and the strength class it belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VisualGrade {
    /// Species it holds for.
    pub species: Vec<String>,
    /// The grading standard, such as `DIN 4074-1`.
    pub rule: String,
    /// The grade's mark, such as `S10`.
    pub grade: String,
    /// The strength class, such as `C24`.
    pub class: String,
    /// Where the row comes from.
    pub provenance: Provenance,
}

impl VisualGrade {
    /// The grade under its first species: `Norway spruce DIN 4074-1 S10`.
    pub fn name(&self) -> String {
        self.names().next().unwrap_or_else(|| self.grade.clone())
    }

    fn names(&self) -> impl Iterator<Item = String> {
        self.species.iter().map(|s| format!("{s} {} {}", self.rule, self.grade))
    }

    /// Whether the asked words are the mark, something of one species, and at most the standard besides.
    fn fits(&self, asked: &[String]) -> bool {
        let (mark, rule) = (words(&self.grade), words(&self.rule));
        let rest: Vec<&String> = asked.iter().filter(|a| !mark.contains(a) && !rule.contains(a)).collect();
        let of_one = |species: &String| {
            let own = words(species);
            !rest.is_empty() && rest.iter().all(|r| own.contains(r))
        };
        mark.iter().all(|m| asked.contains(m)) && self.species.iter().any(of_one)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedGrade {
    species: Vec<String>,
    rule: String,
    grade: String,
    class: String,
}

impl Row for VisualGrade {
    const ARRAY: &'static str = "visual_grade";
    const HAS_UNITS: bool = false;
    type Printed = PrintedGrade;

    fn new(p: PrintedGrade, _: Units, provenance: Provenance) -> Result<Self, Wrong> {
        if p.species.iter().all(|s| words(s).is_empty()) || words(&p.grade).is_empty() {
            return Err(Wrong::new("a visual grade needs a species and a mark", "fill in `species` and `grade`"));
        }
        Ok(VisualGrade { species: p.species, rule: p.rule, grade: p.grade, class: p.class, provenance })
    }

    fn key(&self) -> String {
        joined(&self.name())
    }
}

/// A strength class, and the visual grade by which it was asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found<'t> {
    /// The class.
    pub class: &'t StrengthClass,
    /// The grade, unless the class was named itself.
    pub grade: Option<&'t VisualGrade>,
}

/// Strength classes of EN 338 and the visual grades assigned to them.
#[derive(Clone, Debug, Default)]
pub struct StrengthClasses {
    classes: Vec<StrengthClass>,
    grades: Vec<VisualGrade>,
}

impl StrengthClasses {
    /// Every class.
    pub fn classes(&self) -> &[StrengthClass] {
        &self.classes
    }

    /// Every visual grade.
    pub fn grades(&self) -> &[VisualGrade] {
        &self.grades
    }

    /// A class by its name (`C24`), or by species and visual grade (`spruce S10`), the grading standard left
    /// out or not.
    ///
    /// # Errors
    ///
    /// [`NotFound`] with the nearest names, or with all that fit.
    pub fn find(&self, name: &str) -> Result<Found<'_>, NotFound> {
        if let Some(class) = self.class(name) {
            return Ok(Found { class, grade: None });
        }
        let asked = words(name);
        let fitting: Vec<&VisualGrade> = self.grades.iter().filter(|g| g.fits(&asked)).collect();
        let not_found = |missing, nearest| NotFound { asked: name.to_owned(), missing, nearest };
        match fitting.as_slice() {
            [grade] => match self.class(&grade.class) {
                Some(class) => Ok(Found { class, grade: Some(grade) }),
                None => Err(not_found(Missing::Name("strength class"), vec![grade.class.clone()])),
            },
            [] => {
                let grades: Vec<String> = self.grades.iter().flat_map(VisualGrade::names).collect();
                let all = self.classes.iter().map(|c| c.name.as_str()).chain(grades.iter().map(String::as_str));
                Err(not_found(Missing::Name("strength class"), nearest(name, all)))
            }
            many => Err(not_found(Missing::Choice("visual grade"), many.iter().map(|g| g.name()).collect())),
        }
    }

    fn class(&self, name: &str) -> Option<&StrengthClass> {
        let run = joined(name);
        self.classes.iter().find(|c| joined(&c.name) == run)
    }
}

impl Table for StrengthClasses {
    const PACKED: &'static [u8] = include_bytes!(concat!(env!("OUT_DIR"), "/strength_classes.packed"));
    const ARRAYS: &'static [&'static str] = &["strength_class", "visual_grade"];

    fn add(&mut self, from: &mut impl Rows) {
        from.add_to(&mut self.classes);
        from.add_to(&mut self.grades);
    }

    fn entries(&self) -> Vec<Entry> {
        let class = |r: &StrengthClass| {
            let kind = match r.kind {
                WoodKind::Softwood => "softwood",
                WoodKind::Hardwood => "hardwood",
            };
            let v = &r.values;
            Entry::new("strength class", &r.name, &r.provenance)
                .text("kind", kind)
                .fact("bending, fm,k", v.bending)
                .fact("tension along the grain, ft,0,k", v.tension)
                .fact("tension across the grain, ft,90,k", v.tension_across)
                .fact("compression along the grain, fc,0,k", v.compression)
                .fact("compression across the grain, fc,90,k", v.compression_across)
                .fact("shear, fv,k", v.shear)
                .fact("mean modulus of elasticity, E0,mean", v.modulus)
                .fact("fifth percentile of it, E0,05", v.modulus_fifth)
                .fact("mean modulus across the grain, E90,mean", v.modulus_across)
                .fact("mean shear modulus, Gmean", v.shear_modulus)
                .fact("density, ρk", v.density)
                .fact("mean density, ρmean", v.density_mean)
        };
        let grade = |r: &VisualGrade| {
            let others: Vec<String> = r.names().skip(1).collect();
            Entry::new("visual grade", r.name(), &r.provenance).also(&others).text("strength class", &r.class)
        };
        self.classes.iter().map(class).chain(self.grades.iter().map(grade)).collect()
    }
}
