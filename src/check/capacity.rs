//! A stick in its place, rated by the rules: its allowable stresses for every duration.

use crate::derivation::Worked;
use crate::load::Duration;
use crate::platform::{Stick, WoodChoice};
use crate::quantity::{Ratio, Stress};
use crate::rules::RuleError;
use crate::rules::allowable_stress::bending::Unbraced;
use crate::rules::allowable_stress::factors::{self, Conditions, Temperature};
use crate::rules::allowable_stress::section::Section;
use crate::rules::allowable_stress::wood::{Defects, Face, Piece, Wood};

/// Wood as the rules see it.
pub(super) fn wood(choice: &WoodChoice) -> Wood {
    match choice {
        WoodChoice::Graded { values, table, grade, .. } => {
            Wood::Graded { values: *values, table: *table, grade: grade.clone() }
        }
        WoodChoice::Ungraded { green, kind, knot, slope, .. } => {
            Wood::Ungraded { species: *green, kind: *kind, defects: Defects { knot: *knot, slope_of_grain: *slope } }
        }
    }
}

/// The rules' name for how long a load lasts.
pub(super) fn duration(d: Duration) -> factors::Duration {
    match d {
        Duration::Permanent => factors::Duration::Permanent,
        Duration::TenYears => factors::Duration::TenYears,
        Duration::TwoMonths => factors::Duration::TwoMonths,
        Duration::SevenDays => factors::Duration::SevenDays,
        Duration::TenMinutes => factors::Duration::TenMinutes,
    }
}

/// Service conditions. Repetition is never credited: a mattress does not join slats (no source).
pub(super) fn conditions(damp: bool, incised: bool) -> Conditions {
    Conditions { wet: damp, temperature: Temperature::UpTo100F, incised, repetitive: false }
}

/// A stick under load, with its wood and the conditions it serves in.
pub(super) struct Rated {
    pub(super) wood: Wood,
    pub(super) piece: Piece,
    pub(super) conditions: Conditions,
}

impl Rated {
    /// A stick with the load in the direction of `depth`.
    pub(super) fn new(stick: &Stick, face: Face, damp: bool) -> Rated {
        let (small, large) =
            if stick.thickness < stick.width { (stick.thickness, stick.width) } else { (stick.width, stick.thickness) };
        let section = match face {
            Face::Flatwise => Section { breadth: large, depth: small },
            Face::Edgewise => Section { breadth: small, depth: large },
        };
        Rated {
            wood: wood(&stick.wood),
            piece: Piece { section, nominal: stick.nominal, face },
            conditions: conditions(damp, stick.incised),
        }
    }

    /// A cleat or rail, whose thickness is horizontal and width vertical whichever is larger.
    pub(super) fn upright(stick: &Stick, damp: bool) -> Rated {
        let face = if stick.width < stick.thickness { Face::Flatwise } else { Face::Edgewise };
        Rated::new(stick, face, damp)
    }

    pub(super) fn section(&self) -> &Section {
        &self.piece.section
    }

    pub(super) fn bending(&self, d: Duration, held: Option<&Unbraced>) -> Result<Worked<Stress>, RuleError> {
        self.wood.bending(&self.piece, &self.conditions, duration(d), held)
    }

    pub(super) fn shear(&self, d: Duration) -> Result<Worked<Stress>, RuleError> {
        self.wood.shear(&self.piece, &self.conditions, duration(d))
    }

    pub(super) fn bearing(&self, area_factor: Worked<Ratio>) -> Result<Worked<Stress>, RuleError> {
        self.wood.bearing(&self.piece, &self.conditions, area_factor)
    }

    pub(super) fn modulus(&self) -> Result<Worked<Stress>, RuleError> {
        self.wood.modulus(&self.piece, &self.conditions)
    }
}

/// A capacity for every duration, worked once each.
pub(super) struct ByDuration<Q> {
    values: Vec<(Duration, Worked<Q>)>,
}

impl<Q: crate::quantity::Measured> ByDuration<Q> {
    pub(super) fn of(
        durations: &[Duration],
        mut work: impl FnMut(Duration) -> Result<Worked<Q>, RuleError>,
    ) -> Result<Self, RuleError> {
        let values = durations.iter().map(|d| work(*d).map(|w| (*d, w))).collect::<Result<_, _>>()?;
        Ok(ByDuration { values })
    }

    /// The worked value; every duration in use was worked.
    pub(super) fn get(&self, d: Duration) -> &Worked<Q> {
        let found = self.values.iter().find(|(k, _)| *k == d).or(self.values.first());
        match found {
            Some((_, w)) => w,
            None => unreachable!("a platform has at least the dead case"),
        }
    }

    pub(super) fn si(&self, d: Duration) -> f64 {
        self.get(d).value.si()
    }
}
