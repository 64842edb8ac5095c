//! End rails as the platform is pushed, where crossed diagonals hold the posts: what the rails' ends do to them
//! sideways, and what their own ends hand to the posts.
//!
//! No source but statics. Along the platform each side rail presses its end against the end rail that it is pushed to,
//! which bends sideways between its posts; nothing is counted on at the rail's other end, where it would be pulled off
//! its screws. Across it the end rails are pushed along themselves, and hand half of it to each post.

use super::loads::{ENDS, Loads};
use super::{Desk, STATICS, all};
use crate::check::beside::Beside;
use crate::check::brace::{on_one_side, still_case};
use crate::check::capacity::{Against, Face};
use crate::check::pushed_end::PushedEnd;
use crate::check::slat::PRACTICE;
use crate::check::verdict::{Limit, Member, Role};
use crate::derivation::{Worked, given, plain};
use crate::load::CaseKind;
use crate::platform::{Held, Way};
use crate::quantity::{BendingMoment, Force, Ratio};
use crate::rules::RuleError;

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(case) = desk.beside(CaseKind::Racking) else { return };
    let [along, across] = Way::ALL.map(|way| desk.p.held(way) == Held::Diagonals);
    for loads in all(desk) {
        if along {
            pushed_along(desk, case, &loads);
        }
        if across {
            let half = (on_one_side(desk) / plain(2.0)).step("N along", STATICS);
            ends(desk, case, &loads, "across", [[None, Some(half.clone())], [None, Some(half)]]);
        }
    }
}

fn pushed_along(desk: &mut Desk<'_>, case: Beside, loads: &Loads<'_>) {
    let end = loads.end;
    if let Err(e) = rails_press(desk) {
        desk.unchecked(&format!("the {end} end rail and its joints, pushed along"), &e);
        return;
    }
    let Some((aside, [left, right])) = loads.pressed(&on_one_side(desk)) else { return };
    let most = if right.value > left.value { &right } else { &left };
    match bent(desk, case, loads, &aside, most) {
        Ok(member) => desk.member(member),
        Err(e) => desk.unchecked(&format!("the {end} end rail, pushed along"), &e),
    }
    ends(desk, case, loads, "along", [[Some(left), None], [Some(right), None]]);
}

/// Whether both rails' ends stand against the end rails.
fn rails_press(desk: &Desk<'_>) -> Result<(), RuleError> {
    let stands = |s: usize| {
        desk.p.sides[s].rail.ends.as_ref().is_some_and(|e| e.highest_screw(&desk.p.sides[s].rail.stick).is_some())
    };
    if stands(0) && stands(1) {
        return Ok(());
    }
    Err(RuleError::not_covered(
        "a push that only friction hands from a rail to the end rail under it",
        "hang the rails between the end rails: ends = { joint = \"lags\", into = \"end grain\", … }",
    ))
}

/// An end rail with everybody lying, pressed sideways by the rails' ends.
fn bent(
    desk: &Desk<'_>,
    case: Beside,
    loads: &Loads<'_>,
    aside: &Worked<BendingMoment>,
    most: &Worked<Force>,
) -> Result<Member, RuleError> {
    let stick = &loads.rails.stick;
    let lying = still_case(desk);
    let down: Worked<BendingMoment> = match lying.and_then(|k| loads.moment(desk, k)) {
        Some(effect) => given("M lying", effect.worked.value),
        None => given("M lying", BendingMoment::default()),
    };
    let upright = Face::upright(stick);
    let against = |face: Face, moment: &Worked<BendingMoment>| -> Result<Against, RuleError> {
        let rated = desk.rules.rated(stick, face);
        let free = (face == Face::Edgewise).then_some(loads.span);
        Ok(Against { stress: rated.bending_stress(moment.value), capacity: rated.bending(case.duration, free)? })
    };
    let (one, other) = (against(upright, &down)?, against(upright.turned(), aside)?);
    let (edge, flat) = if upright == Face::Edgewise { (&one, &other) } else { (&other, &one) };
    let both = desk.rules.both_ways(stick, loads.span, edge, flat)?;
    let whole: Worked<Ratio> = plain(1.0).step("limit", PRACTICE);
    let bending = desk.compare_beside(Limit::Bending, case, &both, &whole).after(&[aside.expression()]);
    let sheared =
        given("V lying", lying.and_then(|k| loads.shear(desk, k)).map_or(Force::default(), |e| e.worked.value));
    let share: Worked<Ratio> = most.clone() / sheared.clone();
    let force: Worked<Force> = (sheared * (plain(1.0) + share.power(2.0)).root()).step("V", STATICS);
    let rated = desk.rules.upright(stick);
    let shear = desk
        .compare_beside(Limit::Shear, case, &rated.shear_stress(force.value), &rated.shear(case.duration)?)
        .after(&[most.expression(), force.expression()]);
    let checks = vec![
        bending.remarked("everybody lying bends it down, the rails' ends sideways"),
        shear.remarked("down and sideways as one force"),
    ];
    let made_of = format!("{}, {}", stick.size_text(desk.p.units), stick.wood.name());
    Ok(Member { id: format!("{} end rail, pushed along", loads.end), role: Role::EndRail, made_of, checks })
}

/// The left and the right end as the platform is pushed `way`: straight off its post, and along the end rail.
fn ends(desk: &mut Desk<'_>, case: Beside, loads: &Loads<'_>, way: &str, pushes: [[Option<Worked<Force>>; 2]; 2]) {
    for (side, [off, along]) in pushes.into_iter().enumerate() {
        let what = format!("{} end rail, {} end, pushed {way}", loads.end, ENDS[side]);
        let lying = still_case(desk).and_then(|k| loads.reaction(desk, k, side));
        let pushed = PushedEnd {
            rail: &loads.rails.stick,
            ends: &loads.rails.ends,
            lying: lying.map_or(Force::default(), |e| e.worked.value),
            down: None,
            along,
            off,
        };
        match pushed.checks(desk, case) {
            Ok((made_of, checks)) => desk.member(Member { id: what, role: Role::EndRailJoint, made_of, checks }),
            Err(e) => desk.unchecked(&format!("the {what}"), &e),
        }
    }
}
