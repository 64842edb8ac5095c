//! What is told and decides nothing: a floor's point load, and the loads of furniture tests.

use super::envelope::exceeds;
use super::verdict::{Limit, Member, Role};
use super::{CheckError, check_cases};
use crate::load::predicted;
use crate::platform::Platform;

/// What a load would do that does not decide the verdict. It claims nothing of a test or a code.
#[derive(Clone, Debug, PartialEq)]
pub struct Prediction {
    /// The case's name.
    pub case: &'static str,
    /// The load.
    pub load: String,
    /// Where the load is from.
    pub reason: String,
    /// How many positions were tried.
    pub positions: usize,
    /// The member with the greatest ratio, its limit and the ratio.
    pub weakest: Option<(String, Limit, f64)>,
    /// Kinds of part that no rule answered for.
    pub unanswered: Vec<String>,
}

/// Every prediction for a platform, each case by itself.
///
/// # Errors
///
/// As [`check`](super::check).
pub fn predict(p: &Platform) -> Result<Vec<Prediction>, CheckError> {
    let mut out = Vec::new();
    for case in predicted(p) {
        let a = check_cases(p, std::slice::from_ref(&case))?;
        let loaded = a.members.iter().flat_map(|m| m.checks.iter().map(move |c| (m, c)));
        let loaded = loaded.filter(|(_, c)| !c.limit.stands_still());
        let weakest = loaded.reduce(|best, this| if exceeds(this.1.ratio, best.1.ratio) { this } else { best });
        out.push(Prediction {
            case: case.kind.name(),
            load: case.load,
            reason: case.reason,
            positions: case.positions.len(),
            weakest: weakest.map(|(m, c)| (the(m), c.limit, c.ratio)),
            unanswered: a.not_checked.into_iter().filter(|n| n.carries_load).map(|n| n.what).collect(),
        });
    }
    Ok(out)
}

fn the(m: &Member) -> String {
    if m.role == Role::Slat { m.id.clone() } else { format!("the {}", m.id) }
}
