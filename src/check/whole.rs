//! The platform as a whole: tipping about its outer posts, and what keeps it from racking.

use super::brace::feet;
use super::desk::{Candidate, Desk};
use super::envelope::{Peak, exceeds};
use super::notes::NotChecked;
use super::slat::PRACTICE;
use super::verdict::{Limit, Member, Role, over};
use crate::derivation::{Worked, given, plain};
use crate::load::{self, CaseKind, Dead, against_the_empty, on_the_edge, sideways};
use crate::platform::{EndKind, Held, LongSide, Platform, Posts, Way};
use crate::quantity::unit::millimetre;
use crate::quantity::{BendingMoment, Force, Length, Measured, number};

/// A place where the weight stands still: no load moves in a check of the whole.
static STILL: Peak = Peak { value: 0.0, position: 0, at: None, permanent: 0.0 };

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(posts) = &desk.p.posts else { return };
    upright(desk, posts);
    if let Some(case) = desk.cases.iter().position(|c| c.kind == CaseKind::Tipping) {
        tipping(desk, posts, case);
    }
}

/// What turns the platform over, and what of its weight keeps it down.
type Turning = [Worked<BendingMoment>; 2];

/// Feet are taken at the middle of the posts, and only timber keeps the platform down: no mattress, nobody.
fn tipping(desk: &mut Desk<'_>, posts: &Posts, case: usize) {
    let p = desk.p;
    let timber = Dead::of(p).timber(p);
    let across = p.feet_across();
    let along = (0..2).map(|s| feet(desk, Way::Along, s));
    let along = along.fold(across.max(p.length) * 2.0, Length::min);
    let height = || given("slats above floor", posts.slats_above_floor(p));
    let keeps = |apart: Length| -> Worked<BendingMoment> {
        (desk.rules.steadies(timber) * given("feet apart", apart) / plain(2.0)).step("M down", PRACTICE)
    };
    let factor = || plain(desk.rules.actions().strength.variable);
    let pushed = || (factor() * given("F", against_the_empty()) * height()).step("M over", PRACTICE);
    let mut all: Vec<(Turning, &str)> =
        vec![([pushed(), keeps(across)], "empty, pushed across"), ([pushed(), keeps(along)], "empty, pushed along")];
    if let Some((people, count)) = row(desk) {
        let edge = on_the_edge();
        let overhang =
            (0..2).map(|s| foot_inside(p, posts, &p.sides[s]) - edge.inside).fold(Length::default(), Length::max);
        let outward = given("n", number(count)) * given("outward", edge.outward) * height();
        let over: Worked<BendingMoment> = factor() * (given("row", people) * given("overhang", overhang) + outward);
        all.push(([over.step("M over", PRACTICE), keeps(across)], "people sitting on the very edge"));
    }
    let mut worst: Option<(Candidate<'_>, &(Turning, &str))> = None;
    for turning in &all {
        let [turns, stays] = &turning.0;
        let ratio = over(turns.value.si(), stays.value.si());
        if worst.as_ref().is_none_or(|(w, _)| exceeds(ratio, w.ratio)) {
            worst = Some((Candidate { case, peak: &STILL, ratio }, turning));
        }
    }
    let Some((w, ([turns, stays], how))) = worst else { return };
    let mut check = desk.compare(Limit::Tipping, &w, turns, stays);
    check.remark = Some(format!("{how}; kept down by its timber alone"));
    let made_of = format!("timber weighing {}", timber.measure().show_to(p.units, 3));
    desk.member(Member { id: "platform as a whole".into(), role: Role::Platform, made_of, checks: vec![check] });
}

/// The people of the row on the edge and their weight, if that case is run.
fn row(desk: &Desk<'_>) -> Option<(Force, f64)> {
    let case = desk.cases.iter().find(|c| c.kind == CaseKind::RowOnTheEdge)?;
    let people = case.positions.first()?.patches.iter().fold(Force::default(), |sum, patch| sum + patch.force);
    let seats = (desk.p.length / millimetre(500.0)).value + 1e-9;
    Some((people, seats.floor()))
}

/// From a rail's outer face in to the middle of the posts that hold it: where they stand is not said, so the
/// worst of what the joint allows.
fn foot_inside(p: &Platform, posts: &Posts, side: &LongSide) -> Length {
    if let Some(end_rails) = &p.end_rails {
        // End rails reach out to posts beyond the rails, or as far as them.
        return -(end_rails.inset + end_rails.ends.beyond());
    }
    let (rail, post) = (side.rail.stick.thickness, posts.stick.thickness);
    match side.rail.ends.as_ref().map(|e| &e.kind) {
        Some(EndKind::Bearing { .. }) => rail.max(post) / 2.0,
        // Cut from outside: the post stands inside the rail but for the notch.
        Some(EndKind::Notch(notch)) => rail - notch.depth + post / 2.0,
        Some(EndKind::SideGrain { .. } | EndKind::Bolts(_) | EndKind::Glue) => rail + post / 2.0,
        Some(EndKind::EndGrain { .. } | EndKind::Pocket { .. }) | None => rail / 2.0,
    }
}

/// Says what keeps the posts upright where no rule here answers for it, and what it must hold.
fn upright(desk: &mut Desk<'_>, posts: &Posts) {
    let held = Way::ALL.map(|way| desk.p.held(way));
    for (k, way) in Way::ALL.into_iter().enumerate() {
        let alike = held[0] == held[1];
        if k == 0 || !alike {
            upright_one_way(desk, posts, held[k], (!alike).then_some(way));
        }
    }
}

/// `way` is none where it is the same both ways.
fn upright_one_way(desk: &mut Desk<'_>, posts: &Posts, held: Held, way: Option<Way>) {
    let p = desk.p;
    let push = sideways(p);
    let words = push.measure().show_to(p.units, 3);
    let (what, direction) = match way {
        None => ("racking", "along the rails and across them"),
        Some(Way::Along) => ("racking along the rails", "along the rails"),
        Some(Way::Across) => ("racking across the rails", "across the rails"),
    };
    let (by, why, carries_load) = match held {
        Held::Knees | Held::Diagonals => return,
        Held::Wall => (
            "the fixing to the wall",
            format!(
                "the brief does not say how it holds sideways; it must hold {words} at the slats, along the wall and away from it"
            ),
            false,
        ),
        Held::Unsaid => (
            "the braces or panels",
            format!("the brief does not describe them; they must hold {words} at the slats, {direction}"),
            false,
        ),
        Held::Panels => (
            "the panels",
            format!(
                "what a nailed or screwed panel holds in shear is in no table here; each side must hold {} in its own \
                 plane, at the slats",
                load::push(p).on_one_side().measure().show_to(p.units, 3)
            ),
            true,
        ),
        Held::Nothing => ("the joints between rails and posts", by_joints(p, posts, push, &words), true),
    };
    desk.note(NotChecked { what: format!("{what}: {by}"), why, carries_load });
}

/// What the rails' end joints must hold where nothing else keeps the posts upright.
fn by_joints(p: &Platform, posts: &Posts, push: Force, words: &str) -> String {
    let rests = (0..2).filter_map(|s| p.on_posts(s)).any(|(_, ends)| ends.kind.lies_loose());
    if rests {
        return format!(
            "pushed with {words} nothing holds a post under a rail that only rests on it: brace it or fix it to a wall"
        );
    }
    let length = posts.lengths[0].max(posts.lengths[1]);
    let each: BendingMoment = push * length / posts.count(p) as f64;
    format!(
        "no published rule says what end screws hold against turning, and each joint must hold {} when the platform is \
         pushed with {words}: brace it or fix it to a wall",
        each.measure().show_to(p.units, 3)
    )
}
