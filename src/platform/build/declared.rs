//! What a screw's maker declares of it, as the brief says it.

use super::Builder;
use crate::brief::{DeclaredKeys, RuleFamily, Typed};
use crate::quantity::unit::{kilogram_per_cubic_metre, megapascal, newton, newton_metre};
use crate::quantity::{Measured, UnitSystem};
use crate::tables::fasteners::{Declared, DeclaredStrength, Screw};

impl Builder<'_> {
    /// The screw with what the brief declares of it, instead of what its table row does.
    pub(super) fn declared(&mut self, screw: Screw, keys: Option<&DeclaredKeys>) -> Screw {
        let Some(k) = keys else { return screw };
        self.between("withdrawal", k.withdrawal.as_ref(), [megapascal(1.0), megapascal(40.0)]);
        self.between("head", k.head.as_ref(), [megapascal(1.0), megapascal(80.0)]);
        self.between("head_diameter", k.head_diameter.as_ref(), [screw.diameter, screw.diameter * 6.0]);
        let densities = [kilogram_per_cubic_metre(200.0), kilogram_per_cubic_metre(1100.0)];
        self.between("density", k.density.as_ref(), densities);
        self.between("tension", k.tension.as_ref(), [newton(500.0), newton(200e3)]);
        self.between("yield_moment", k.yield_moment.as_ref(), [newton_metre(0.3), newton_metre(300.0)]);
        if self.rules == RuleFamily::AllowableStress {
            self.assume("what the maker declares of the screws is for the ec5 rules; asd takes nothing from it".into());
        }
        let strength = |t: &Option<Typed<_>>| {
            let (strength, density) = (t.as_ref()?.value, k.density.as_ref()?.value);
            Some(DeclaredStrength { strength, density })
        };
        let declared = Declared {
            withdrawal: strength(&k.withdrawal),
            head: strength(&k.head).zip(k.head_diameter.as_ref().map(|d| d.value)),
            tension: k.tension.as_ref().map(|t| t.value),
            yield_moment: k.yield_moment.as_ref().map(|y| y.value),
        };
        Screw { declared: Box::new(declared), ..screw }
    }

    /// Refuses what no screw has.
    fn between<Q: Measured + PartialOrd>(&mut self, key: &str, typed: Option<&Typed<Q>>, [least, most]: [Q; 2]) {
        let Some(t) = typed else { return };
        if t.value < least || t.value > most {
            let show = |q: Q| q.measure().show(UnitSystem::Metric);
            let help = format!("write something from {} to {}", show(least), show(most));
            self.m.add(&t.span, format!("no screw of this size has this `{key}`"), "", help);
        }
    }
}
