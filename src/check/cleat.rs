//! Cleats: bending and shear between screws, under the worst slat reactions anywhere.

use super::capacity::ByDuration;
use super::desk::Desk;
use super::model::CLEATS;
use super::rail::{line_bending, line_shear};
use super::verdict::{Member, Role};
use crate::rules::RuleError;

pub(super) fn check(desk: &mut Desk<'_>) {
    for s in 0..2 {
        match member(desk, s) {
            Ok(m) => desk.member(m),
            Err(e) => desk.unchecked("strength of the cleats", &e),
        }
    }
}

fn member(desk: &Desk<'_>, s: usize) -> Result<Member, RuleError> {
    let p = desk.p;
    let side = &p.sides[s];
    let rated = desk.rules.upright(&side.cleat);
    // The screws hold the cleat to the rail, so it can bow sideways only between two of them.
    let free = side.screws.spacing();
    let durations = desk.durations();
    let bending = ByDuration::of(&durations, |d| rated.bending(d, Some(free)))?;
    let shear = ByDuration::of(&durations, |d| rated.shear(d))?;
    let line = CLEATS[s];
    let mut checks = Vec::new();
    checks.extend(line_bending(desk, &*rated, &bending, line));
    checks.extend(line_shear(desk, &*rated, &shear, line));
    let made_of = format!("{}, {}", side.cleat.size_text(p.units), side.cleat.wood.name());
    Ok(Member { id: format!("{} cleat", desk.side_name(s)), role: Role::Cleat, made_of, checks })
}
