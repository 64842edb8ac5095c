//! One platform by two families of rules, side by side.

pub mod json;
pub mod text;

use super::Report;
use crate::brief::RuleFamily;
use crate::check::{Cause, Limit, RolePair, Verdict, Why};
use crate::quantity::{UnitSystem, significant};

/// What two families of rules say of one platform.
#[derive(Clone, Copy, Debug)]
pub struct Both<'a> {
    /// A report by each.
    pub reports: [Report<'a>; 2],
    /// Role by role, with what makes the difference.
    pub roles: &'a [RolePair<'a>],
}

impl Both<'_> {
    /// The worse verdict: one that fails, else one that is not whole, else a pass.
    pub fn verdict(&self) -> Verdict {
        let verdicts = self.reports.map(|r| r.assessment.verdict());
        let worse_first = [Verdict::Fail, Verdict::NotChecked];
        worse_first.into_iter().find(|v| verdicts.contains(v)).unwrap_or(Verdict::Pass)
    }

    fn units(&self) -> UnitSystem {
        self.reports[0].platform.units
    }

    fn words(&self) -> [&'static str; 2] {
        self.reports.map(|r| word(r.platform.rules))
    }
}

/// A family's key.
fn word(rules: RuleFamily) -> &'static str {
    match rules {
        RuleFamily::AllowableStress => "asd",
        RuleFamily::LimitState => "ec5",
    }
}

/// A factor's name.
fn name(cause: &Cause, limit: Limit) -> &'static str {
    match cause {
        Cause::Load { .. } => "loads",
        Cause::Reckoning => "demand",
        Cause::Duration(_) => "duration",
        Cause::Divisor(_) => "divisor",
        Cause::Values(_) if matches!(limit, Limit::Deflection | Limit::Creep) => "allowed sag",
        Cause::Values(_) => "values",
    }
}

/// Why a factor is what it is, from its numbers.
fn because(cause: &Cause, why: &Why, families: [&str; 2], units: UnitSystem) -> String {
    let n = |v: f64| significant(v, 3);
    let each = |say: &dyn Fn(usize) -> String| format!("{} {}; {} {}", families[0], say(0), families[1], say(1));
    match cause {
        Cause::Load { permanent, variable } => each(&|i| match (permanent[i], variable[i]) {
            (1.0, 1.0) => "takes timber and people as they are".into(),
            (p, v) => format!("multiplies timber and bedding by {}, people by {}", n(p), n(v)),
        }),
        Cause::Reckoning => {
            let from = match why.checks[0].limit {
                Limit::Deflection | Limit::Creep => "the stiffness of the wood and the loads behind the sag",
                Limit::Bearing => "the length of contact that counts",
                _ => "which force counts and what multiplies it",
            };
            let each = each(&|i| why.checks[i].demand.show(units));
            format!("{from}: {each}")
        }
        Cause::Duration(by) => each(&|i| match (by[i], families[i]) {
            (Some(v), "asd") => format!("CD {}", n(v)),
            (Some(v), _) => format!("kmod {}", n(v)),
            (None, _) => "has no such factor here".into(),
        }),
        Cause::Divisor(by) => each(&|i| match by[i] {
            Some(v) => format!("divides by γM {}", n(v)),
            None => "has its divisor inside its values".into(),
        }),
        Cause::Values(of) => {
            let what = match why.checks[0].limit {
                Limit::Deflection | Limit::Creep => "",
                _ => "what it holds without duration and divisor: ",
            };
            format!("{what}{}", each(&|i| of[i].show(units)))
        }
    }
}
