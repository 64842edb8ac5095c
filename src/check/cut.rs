//! The notch in a rail's lower edge where it rests: how deep, and the shear there.

use super::capacity::AtCut;
use super::desk::Desk;
use super::joint::End;
use super::rail::strength;
use super::screw::standing_still;
use super::verdict::{Check, Limit, over};
use crate::load::Duration;
use crate::quantity::unit::newton;
use crate::quantity::{Length, Measured};
use crate::rules::RuleError;

impl AtCut {
    fn ratio(&self) -> f64 {
        match self {
            AtCut::Forces([asked, given]) => over(asked.value.si(), given.value.si()),
            AtCut::Stresses([asked, given]) => over(asked.value.si(), given.value.si()),
        }
    }
}

/// A rail that rests for `length` and has `cut` taken out of its lower edge there. The reaction is in the middle of
/// what rests, the notch's corner at the inner edge of that.
pub(super) fn checks(desk: &Desk<'_>, end: &End<'_>, [length, cut]: [Length; 2]) -> Result<Vec<Check>, RuleError> {
    let rated = desk.rules.upright(end.stick);
    let mut out = Vec::new();
    if let Some([deep, most]) = rated.deepest_cut(cut) {
        let check = standing_still(Limit::Notch, &deep, most.value.measure(), "depth of the notch in the rail's end");
        // The clause for its strength is written for notches no deeper.
        if check.ratio > 1.0 + 1e-9 {
            return Ok(vec![check]);
        }
        out.push(check);
    }
    let (left, reach) = (rated.depth() - cut, length / 2.0);
    let at = |d: Duration, force: f64| rated.at_cut(d, newton(force), left, reach);
    let mut resisted: Vec<(Duration, f64)> = Vec::new();
    for d in desk.durations() {
        // Either way of putting it grows as the force does.
        resisted.push((d, 1.0 / at(d, 1.0)?.ratio()));
    }
    let of = |d: Duration| resisted.iter().find(|(own, _)| *own == d).map_or(0.0, |(_, force)| *force);
    if let Some(worst) = desk.worst(strength, end.force, |c| of(c.duration)) {
        let parts = at(desk.cases[worst.case].duration, worst.peak.value)?;
        out.push(match &parts {
            AtCut::Forces([asked, given]) => desk.compare(Limit::Notch, &worst, asked, given),
            AtCut::Stresses([asked, given]) => desk.compare(Limit::Notch, &worst, asked, given),
        });
    }
    Ok(out)
}
