//! What would make it pass: changes tried one by one, each by checking the changed platform.

mod beside;
mod bolts;
mod brace;
mod candidates;
mod change;
mod end_rail;

pub use beside::BesideChange;
pub use bolts::BoltChange;
pub use brace::BraceChange;
pub use change::{Change, Remedy};
pub use end_rail::EndRailChange;

use candidates::{better_screws, candidates, pitches, sizes};

use super::trial::Trial;
use super::verdict::{Assessment, Role, Verdict};
use crate::load::Case;
use crate::platform::Platform;

pub(super) fn failing(a: &Assessment) -> Vec<Role> {
    let mut roles: Vec<Role> = a.members.iter().filter(|m| m.verdict() == Verdict::Fail).map(|m| m.role).collect();
    roles.sort_unstable();
    roles.dedup();
    roles
}

/// Changes to try for a role: single ones first; for cleat screws then a better screw set closer, then
/// the same in a deeper cleat.
pub(super) fn tries(role: Role, p: &Platform) -> [Vec<Vec<Change>>; 3] {
    let single = candidates(role, p).into_iter().map(|c| vec![c]).collect();
    if role != Role::CleatScrew {
        return [single, Vec::new(), Vec::new()];
    }
    let mut pairs = Vec::new();
    for screw in better_screws(p) {
        pairs.extend(pitches(p).into_iter().map(|pitch| vec![screw.clone(), pitch]));
    }
    let deeper = sizes(p, &["2x4"], &["45x95 mm"]).next().unwrap_or("2x4");
    let deeper = pairs.iter().map(|pair| [&[Change::Cleat(deeper.into())], pair.as_slice()].concat()).collect();
    [single, pairs, deeper]
}

/// A platform with several changes, one after the other.
pub(super) fn changed(p: &Platform, changes: &[Change]) -> Option<Platform> {
    changes.iter().try_fold(p.clone(), |q, c| c.apply(q))
}

/// The smallest change that helps each failing role, and all of them together if that makes the
/// whole platform pass.
pub(super) fn find(p: &Platform, cases: &[Case], a: &Assessment) -> Vec<Remedy> {
    let mut out: Vec<Remedy> = Vec::new();
    let mut all: Option<(Platform, Vec<Change>)> = Some((p.clone(), Vec::new()));
    for role in failing(a) {
        let trial = Trial::new(p, cases, a, role);
        let mut kinds = Vec::new();
        let before = out.len();
        for stage in tries(role, p) {
            // Several changes at once only where fewer are not enough.
            if out.len() > before {
                break;
            }
            for changes in stage {
                let kind: Vec<_> = changes.iter().map(std::mem::discriminant).collect();
                if !kinds.contains(&kind) && changed(p, &changes).is_some_and(|q| trial.passes(&q)) {
                    kinds.push(kind);
                    out.push(Remedy { role: Some(role), changes });
                }
            }
        }
        all = all.and_then(|so_far| combined(so_far, role, out.get(before), &trial, p));
        if out.len() == before {
            out.push(Remedy { role: Some(role), changes: Vec::new() });
        }
    }
    if let Some((q, changes)) = all
        && changes.len() > 1
        && super::check(&q).is_ok_and(|a| failing(&a).is_empty())
    {
        out.push(Remedy { role: None, changes });
    }
    out
}

/// Adds what helps a role to the platform so far, trying it again there.
fn combined(
    (q, mut so_far): (Platform, Vec<Change>),
    role: Role,
    first: Option<&Remedy>,
    trial: &Trial<'_>,
    p: &Platform,
) -> Option<(Platform, Vec<Change>)> {
    let own = first.map(|r| r.changes.clone());
    if so_far.is_empty() {
        // Nothing is changed yet: what helped alone helps, and nothing else was found to.
        let changes = own?;
        return Some((changed(&q, &changes)?, changes));
    }
    if trial.passes(&q) {
        return Some((q, so_far));
    }
    for changes in own.into_iter().chain(tries(role, p).into_iter().flatten()) {
        if let Some(r) = changed(&q, &changes)
            && trial.passes(&r)
        {
            so_far.extend(changes);
            return Some((r, so_far));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::candidates::deeper;
    use super::*;
    use crate::brief::Brief;
    use crate::platform::WoodChoice;
    use crate::quantity::unit::psi;
    use crate::tables::Tables;

    const DEMO: &str = include_str!("../../demo/two.toml");

    fn with_rails(wood: &str, size: &str) -> Platform {
        let (before, after) = DEMO.split_once("[rails]").expect("rails");
        let mut lines: Vec<String> = after.lines().map(String::from).collect();
        for line in &mut lines {
            if line.starts_with("wood") {
                *line = format!("wood = \"{wood}\"");
            } else if line.starts_with("size") {
                *line = format!("size = \"{size}\"");
            }
        }
        let low = |line: &str| if line.starts_with("rise") { "rise = \"1 in\"".into() } else { line.to_owned() };
        let before: Vec<String> = before.lines().map(low).collect();
        let text = format!("{}\n[rails]{}", before.join("\n"), lines.join("\n"));
        Platform::build(&Brief::read(&text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}\n{text}"))
    }

    fn bending(p: &Platform) -> Option<f64> {
        match &p.sides[0].rail.stick.wood {
            WoodChoice::Graded { values, .. } => Some(values.bending / psi(1.0)).map(|r| r.value),
            _ => None,
        }
    }

    /// Southern pine No. 2 has a value for each width: 2x6 1000, 2x8 925, 2x10 800, 2x12 750 psi (NDS
    /// Supplement 2015 Table 4B, from memory).
    #[test]
    fn values_go_with_the_size() {
        let p = with_rails("southern pine no2", "2x6");
        assert_eq!(bending(&p).map(f64::round), Some(1000.0));
        for (size, fb) in [("2x8", 925.0), ("2x10", 800.0), ("2x12", 750.0)] {
            let q = Change::Rail(size.into()).apply(p.clone()).expect("a row for this size");
            assert_eq!(bending(&q).map(f64::round), Some(fb), "{size}");
            let fresh = with_rails("southern pine no2", size);
            assert_eq!(bending(&q), bending(&fresh), "{size}");
        }
    }

    /// Stud grade reaches to 6 in of width (NDS Supplement Table 4A): nothing wider is suggested, and a
    /// metric size too goes by the nominal one that holds it.
    #[test]
    fn sizes_without_values_are_passed_over() {
        let p = with_rails("spruce-pine-fir stud", "2x6");
        assert!(Change::Rail("2x8".into()).apply(p.clone()).is_none());
        assert!(Change::Rail("45x220 mm".into()).apply(p.clone()).is_none());
        assert!(Change::Rail("4x6".into()).apply(p.clone()).is_some());
        let tried: Vec<Change> = deeper(&p);
        assert!(
            tried.contains(&Change::Rail("4x6".into())) && !tried.contains(&Change::Rail("2x10".into())),
            "{tried:?}"
        );
    }
}
