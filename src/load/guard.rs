//! What leans on a guard, and what stands on a rung.

use super::case::CaseKind;
use crate::brief::{National, RuleFamily};
use crate::platform::Platform;
use crate::quantity::unit::{inch, newton, newton_per_metre, pound_force};
use crate::quantity::{Force, Length, LineLoad};

/// A load on a guard, as it stands before partial factors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GuardLoad {
    /// A force at any point of the top, in any direction.
    Point(Force),
    /// A load along the whole top, in any direction.
    Line(LineLoad),
    /// A force at any point of the top: so much sideways, or so much downwards.
    Test {
        /// Outwards.
        sideways: Force,
        /// Downwards.
        down: Force,
    },
    /// A force across the infill, spread over a square.
    Infill {
        /// The force.
        force: Force,
        /// Side of the square.
        side: Length,
    },
}

/// The loads on a platform's guard, with the factor the brief gives them; none without a guard or when the
/// brief drops them.
///
/// # Source
///
/// asd: 200 lbf at any point of the top in any direction and 50 lbf on one square foot of infill (IRC 2018
/// Table R301.5 footnotes d and f, read), 50 lbf/ft along the top (ASCE 7-16 4.5.1, from memory; it lets off
/// dwellings of one and two families). ec5: the line load of EN 1991-1-1 Table 6.12, category A: 0.5 kN/m
/// recommended and in Germany, 0.74 kN/m in the United Kingdom, all from memory. Furniture tests: 500 N
/// outwards and 1000 N downwards, EN 747-2, from memory.
///
/// "In any direction" is along the guard too, and asked of the force so. Of the line load it is not taken
/// along: ASCE 7-16 lets that load off dwellings altogether, and EN 1991-1-1 6.4 speaks of what leans on a
/// barrier. (Later US codes, of 2021, let the force off along a guard that is no handrail: from memory.)
pub fn guard_loads(p: &Platform) -> Vec<(CaseKind, GuardLoad)> {
    let Some(guard) = &p.guard else { return Vec::new() };
    let change = p.change(CaseKind::GuardPush.key());
    if change.is_some_and(|c| c.dropped) {
        return Vec::new();
    }
    let f = change.and_then(|c| c.factor).unwrap_or(1.0);
    let mut out = match p.rules {
        RuleFamily::AllowableStress => vec![
            (CaseKind::GuardPush, GuardLoad::Point(pound_force(200.0) * f)),
            (CaseKind::GuardLine, GuardLoad::Line(pound_force(50.0) / inch(12.0) * f)),
            (CaseKind::GuardInfill, GuardLoad::Infill { force: pound_force(50.0) * f, side: inch(12.0) }),
        ],
        RuleFamily::LimitState => {
            let line = match p.national {
                National::Recommended | National::Germany => 500.0,
                National::UnitedKingdom => 740.0,
            };
            vec![(CaseKind::GuardLine, GuardLoad::Line(newton_per_metre(line) * f))]
        }
    };
    if guard.furniture_test {
        let test = GuardLoad::Test { sideways: newton(500.0) * f, down: newton(1000.0) * f };
        out.push((CaseKind::GuardTest, test));
    }
    out
}

/// Somebody on the ladder: a step is so much more than the weight that makes it, as in climbing in.
const STEP: f64 = 1.2;

/// The load on one rung, with the brief's factor: the code's, or the heaviest sleeper's step if that is
/// more; none without a ladder or when the brief drops it.
///
/// # Source
///
/// asd: 300 lbf on a fixed ladder's rung (ASCE 7-16 4.5.4, from memory). ec5: 2.0 kN, the concentrated load
/// on stairs of category A (EN 1991-1-1 Table 6.2, lower end, from memory), for there is none for ladders.
pub fn rung_load(p: &Platform) -> Option<Force> {
    p.ladder.as_ref()?;
    let change = p.change(CaseKind::OnRung.key());
    if change.is_some_and(|c| c.dropped) {
        return None;
    }
    let code = match p.rules {
        RuleFamily::AllowableStress => pound_force(300.0),
        RuleFamily::LimitState => newton(2000.0),
    };
    let steps = p.sleepers.iter().map(|s| s.weight() * STEP);
    let most = steps.fold(code, |most, step| if step > most { step } else { most });
    Some(most * change.and_then(|c| c.factor).unwrap_or(1.0))
}
