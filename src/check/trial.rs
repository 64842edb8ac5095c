//! Whether the members of a role pass on a changed platform.
//!
//! Of the whole check only what those members hang on is worked out again, and first where they failed before
//! the change: most changes that are not enough show it there.

use super::desk::Desk;
use super::envelope::{Asked, Envelope};
use super::model::Framing;
use super::verdict::{Assessment, Check, Role, Verdict, Where};
use super::{CHECKS, opening};
use crate::load::{Case, Dead, Position, cases_of};
use crate::platform::Platform;

/// A platform on which changes are tried for the members of one role.
pub(super) struct Trial<'a> {
    p: &'a Platform,
    role: Role,
    asked: Asked,
    cases: &'a [Case],
    failed: Vec<&'a Check>,
    /// The case and place of the worst of what failed: most changes that are not enough fail there at once.
    worst: Vec<Case>,
    /// The cases in which members failed, with the places where they did.
    likely: Vec<Case>,
}

impl Trial<'_> {
    /// For a role of the platform as it is, which has been checked in these cases.
    pub(super) fn new<'a>(p: &'a Platform, cases: &'a [Case], assessment: &'a Assessment, role: Role) -> Trial<'a> {
        let members = assessment.members.iter().filter(|m| m.role == role);
        let failed: Vec<&Check> = members.flat_map(|m| &m.checks).filter(|c| c.verdict == Verdict::Fail).collect();
        let where_failed = |failed: &[&Check]| cases.iter().filter_map(|case| where_failed(case, failed)).collect();
        let (worst, likely) = (where_failed(worst(&failed)), where_failed(&failed));
        Trial { p, role, asked: asked(role), cases, failed, worst, likely }
    }

    /// Whether a changed platform was checked and no member of the role fails.
    pub(super) fn passes(&self, changed: &Platform) -> bool {
        let Ok(framing) = Framing::of(changed) else { return false };
        let passes = |cases: &[Case]| self.passes_in(changed, &framing, cases);
        if self.asked == NOTHING {
            // Guard and ladder have cases of their own, openings none.
            return passes(&cases_of(changed, &|kind| kind.beside_the_frame())) == Some(true);
        }
        if same_places(self.p, changed) {
            let first = [&self.worst, &self.likely];
            return first.iter().all(|cases| passes(cases) != Some(false)) && passes(self.cases) == Some(true);
        }
        let first = [worst(&self.failed), &self.failed].into_iter().all(|failed| {
            let likely = cases_of(changed, &|kind| failed.iter().any(|c| c.case == kind));
            let likely: Vec<Case> = likely.iter().filter_map(|case| near_failed(case, failed)).collect();
            passes(&likely) != Some(false)
        });
        first && passes(&cases_of(changed, &|_| true)) == Some(true)
    }

    /// Whether no member of the role fails in these cases; none when none was checked.
    fn passes_in(&self, p: &Platform, framing: &Framing, cases: &[Case]) -> Option<bool> {
        let envelope = Envelope::run(p, framing, &Dead::of(p), cases, self.asked).ok()?;
        let mut desk = Desk::new(p, cases, &envelope);
        for (check, _) in CHECKS.iter().filter(|(_, roles)| roles.contains(&self.role)) {
            check(&mut desk);
        }
        if self.role == Role::Opening {
            opening::check(&mut desk);
        }
        let members = desk.members().iter().filter(|m| m.role == self.role);
        members.map(|m| m.verdict() != Verdict::Fail).reduce(|all, passes| all && passes)
    }
}

const NOTHING: Asked = Asked { slats: false, sides: false };

/// What the members of a role hang on. A platform tips with people on its edge as in other cases.
pub(super) fn asked(role: Role) -> Asked {
    match role {
        Role::Slat => Asked::SLATS,
        Role::Cleat
        | Role::CleatScrew
        | Role::Rail
        | Role::CentreBeam
        | Role::Leg
        | Role::Brace
        | Role::EndJoint
        | Role::EndRail
        | Role::EndRailJoint
        | Role::StudScrew
        | Role::Post
        | Role::Platform => Asked::SIDES,
        Role::GuardRail
        | Role::GuardPost
        | Role::GuardPostScrews
        | Role::GuardInfill
        | Role::Rung
        | Role::RungEnd
        | Role::Stringer
        | Role::LadderTop
        | Role::Opening => NOTHING,
    }
}

/// Whether people press on the slats at the same places on a changed platform: of what decides that, a change
/// moves slats, their supports and the mattress at most.
pub(super) fn same_places(p: &Platform, changed: &Platform) -> bool {
    let slats = |p: &Platform| (p.slats.count, p.slats.gap, p.slats.breadth(), p.slat_ends(), p.bearing_lines());
    let beam = |p: &Platform| p.centre_beam.as_ref().map(|b| b.at);
    slats(p) == slats(changed) && beam(p) == beam(changed) && p.mattress.spread() == changed.mattress.spread()
}

/// The first of the greatest ratio; nothing of nothing.
fn worst<'a, 'b>(failed: &'b [&'a Check]) -> &'b [&'a Check] {
    let first = (0..failed.len()).reduce(|best, i| if failed[i].ratio > failed[best].ratio { i } else { best });
    first.map_or(&[], |i| &failed[i..=i])
}

/// A case in which checks failed, with only those of its positions where they did; none when none failed.
fn where_failed(case: &Case, failed: &[&Check]) -> Option<Case> {
    only(case, failed, |position, at| position.place == at.place && position.note == at.note)
}

/// The same for a platform whose slats lie elsewhere: those positions that are as far across.
fn near_failed(case: &Case, failed: &[&Check]) -> Option<Case> {
    only(case, failed, |position, at| position.place.y == at.place.y && position.note == at.note)
}

fn only(case: &Case, failed: &[&Check], here: impl Fn(&Position, &Where) -> bool) -> Option<Case> {
    let failed: Vec<&&Check> = failed.iter().filter(|c| c.case == case.kind).collect();
    let positions = case.positions.iter().filter(|position| {
        let at = |c: &&&Check| c.place.as_ref().is_none_or(|at| here(position, at));
        failed.iter().any(at)
    });
    (!failed.is_empty()).then(|| Case {
        positions: positions.cloned().collect(),
        kind: case.kind,
        load: case.load.clone(),
        reason: case.reason.clone(),
        duration: case.duration,
        use_: case.use_,
        changed: case.changed,
    })
}

#[cfg(test)]
mod tests {
    use super::super::{check, remedy};
    use super::*;
    use crate::brief::Brief;
    use crate::load::cases;
    use crate::tables::Tables;

    const TWO: &str = include_str!("../../demo/two.toml");
    const DECK: &str = include_str!("../../demo/deck.toml");
    const BEAM: &str = include_str!("../../demo/hut_double.toml");
    const BUNK: &str = include_str!("../../tests/data/guard/bunk.toml");

    /// A demo with a word changed; it must be there.
    fn with(text: &str, from: &str, to: &str) -> String {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    }

    /// For every role that fails on platforms made too weak, a trial of a change says what the whole check of the
    /// changed platform does.
    #[test]
    fn a_trial_agrees_with_the_whole_check() {
        let weak = [
            TWO.to_owned(),
            with(&with(DECK, "4x10", "2x10"), "125 mm", "400 mm"),
            with(BUNK, "200 lb", "600 lb"),
            with(&with(BEAM, "27 mm", "20 mm"), "count = 2, top", "count = 1, top"),
        ];
        let mut said = [0; 2];
        for text in weak {
            let p = Platform::build(&Brief::read(&text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
            let cases = cases(&p);
            let before = check(&p).unwrap_or_else(|e| panic!("{e}"));
            for role in remedy::failing(&before) {
                let trial = Trial::new(&p, &cases, &before, role);
                for q in remedy::tries(role, &p).iter().flat_map(|stage| stage.iter().step_by(3).take(8)) {
                    let Some(q) = remedy::changed(&p, q) else { continue };
                    let members = check(&q).map(|a| a.members).unwrap_or_default();
                    let mut own = members.iter().filter(|m| m.role == role).peekable();
                    let passes = own.peek().is_some() && own.all(|m| m.verdict() != Verdict::Fail);
                    assert_eq!(trial.passes(&q), passes, "{role:?}");
                    said[usize::from(passes)] += 1;
                }
            }
        }
        assert!(said.iter().all(|n| *n > 10), "{said:?}");
    }
}
