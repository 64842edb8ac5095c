//! What a screw's maker declares of it after EN 14592 or a technical assessment.

use serde::Deserialize;

use crate::quantity::unit::{kilogram_per_cubic_metre, megapascal, millimetre, newton, newton_metre};
use crate::quantity::{BendingMoment, Force, Length, MassDensity, Stress};
use crate::tables::row::{Wrong, ratio};

/// A strength and the density it was found at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DeclaredStrength {
    /// `fax,k` or `fhead,k`.
    pub strength: Stress,
    /// `ρa`.
    pub density: MassDensity,
}

/// What a maker declares of a screw; what he does not declare is `None`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Declared {
    /// `fax,k`, withdrawal strength.
    pub withdrawal: Option<DeclaredStrength>,
    /// `fhead,k`, pull-through strength of the head, and the head's diameter `dh`.
    pub head: Option<(DeclaredStrength, Length)>,
    /// `ftens,k`, tension capacity.
    pub tension: Option<Force>,
    /// `My,k`, yield moment.
    pub yield_moment: Option<BendingMoment>,
}

impl Declared {
    /// Whether anything at all is declared.
    pub fn anything(&self) -> bool {
        *self != Declared::default()
    }
}

/// N/mm², mm, kg/m³, kN and N·m, as declarations print them.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PrintedDeclared {
    withdrawal: Option<f64>,
    head: Option<f64>,
    head_diameter: Option<f64>,
    density: Option<f64>,
    tension: Option<f64>,
    yield_moment: Option<f64>,
}

impl PrintedDeclared {
    pub(super) fn checked(self) -> Result<Declared, Wrong> {
        let lacking = |what: &str, beside: &str| {
            Wrong::new(format!("declared has no `{what}` beside `{beside}`"), format!("write {what} = …"))
        };
        let strength = |name: &str, v: Option<f64>, most: f64| -> Result<Option<DeclaredStrength>, Wrong> {
            let Some(v) = v else { return Ok(None) };
            ratio(name, v, (1.0, most))?;
            let density = self.density.ok_or_else(|| lacking("density", name))?;
            ratio("density", density, (200.0, 1100.0))?;
            Ok(Some(DeclaredStrength { strength: megapascal(v), density: kilogram_per_cubic_metre(density) }))
        };
        let head = match strength("head", self.head, 80.0)? {
            Some(head) => {
                let across = self.head_diameter.ok_or_else(|| lacking("head_diameter", "head"))?;
                ratio("head_diameter", across, (3.0, 60.0))?;
                Some((head, millimetre(across)))
            }
            None => None,
        };
        let tension = self.tension.map(|t| ratio("tension", t, (0.5, 200.0)).map(|_| newton(t * 1e3)));
        let moment = self.yield_moment.map(|y| ratio("yield_moment", y, (0.3, 300.0)).map(|_| newton_metre(y)));
        Ok(Declared {
            withdrawal: strength("withdrawal", self.withdrawal, 40.0)?,
            head,
            tension: tension.transpose()?,
            yield_moment: moment.transpose()?,
        })
    }
}
