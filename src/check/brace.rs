//! Braces against racking: knee braces between posts and rails, crossed diagonals between posts, and what
//! they bring into the rails and their end joints.
//!
//! No source but statics: posts are pinned on the floor and at the rail, the push stands at the slats, each
//! side takes its share of it, and both posts of a side alike.

use super::beside::{Beside, worst_of_each};
use super::capacity::{self, Joined, Row, Spot, Standing};
use super::desk::Desk;
use super::model::RAILS;
use super::notes::NotChecked;
use super::pushed_end::PushedEnd;
use super::rail::longest_span;
use super::screw::{distance, too_short};
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role};
use crate::brief::Edge;
use crate::derivation::{Worked, given, plain};
use crate::load::{CaseKind, push};
use crate::platform::{Diagonals, Fixing, Held, Knees, Platform, Posts, Stick, Way};
use crate::quantity::unit::{newton, newton_metre};
use crate::quantity::{BendingMoment, Force, Length, Measured, length_for_builder, number};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};

const STATICS: Citation = Citation::new("statics", "", Seen::Memory);

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(posts) = &desk.p.posts else { return };
    let bracing = &desk.p.bracing;
    if bracing.knees.is_none() && bracing.diagonals.is_none() {
        return;
    }
    let Some(case) = desk.beside(CaseKind::Racking) else {
        let why = "a wall holds the platform, or the brief drops racking: no push is worked out for them";
        desk.note(NotChecked { what: "the braces".into(), why: why.into(), carries_load: false });
        return;
    };
    if let Some(knees) = &bracing.knees {
        for s in held_sides(desk.p) {
            knee(desk, knees, posts, case, s);
        }
    }
    if let Some(diagonals) = &bracing.diagonals {
        for edge in diagonals.edges.iter().copied() {
            crossed(desk, diagonals, posts, case, edge);
        }
    }
    loose_ends(desk, posts);
}

/// The sides whose rails stand on posts.
fn held_sides(p: &Platform) -> Vec<usize> {
    (0..2).filter(|s| p.sides[*s].rail.ends.is_some()).collect()
}

/// How far apart the feet are that stand in a way's direction: of a rail, or across.
pub(super) fn feet(desk: &Desk<'_>, way: Way, s: usize) -> Length {
    match way {
        Way::Along => desk.p.feet_along(s),
        Way::Across => desk.p.feet_across(),
    }
}

/// What one side that holds the platform takes of a push, with the factor on people.
pub(super) fn on_one_side(desk: &Desk<'_>) -> Worked<Force> {
    desk.factored("H one side", push(desk.p).on_one_side())
}

/// What one post of a side with knee braces takes of a push.
pub(super) fn on_one_post(desk: &Desk<'_>) -> Worked<Force> {
    (on_one_side(desk) / plain(2.0)).step("V", PRACTICE)
}

/// What the weight on the lee side grows by when one side is pushed over.
pub(super) fn lee(desk: &Desk<'_>, posts: &Posts, apart: Length) -> Worked<Force> {
    let height = given("slats above floor", posts.slats_above_floor(desk.p));
    (on_one_side(desk) * height / given("feet apart", apart)).step("lee", STATICS)
}

/// A brace with what it carries one way and the other, and the pieces its ends lie on.
struct Brace<'a> {
    stick: &'a Stick,
    screws: &'a Fixing,
    length: Length,
    force: Worked<Force>,
    /// The piece at each end and the brace's angle to its grain, degrees.
    ends: Vec<(&'a Stick, f64)>,
}

impl Brace<'_> {
    /// Compression with buckling, tension, and the screws at its ends. The brace lies on the face of what it
    /// holds, so that its force comes in half its thickness off its axis.
    fn checks(&self, desk: &Desk<'_>, case: Beside) -> Result<Vec<Check>, RuleError> {
        let beside = given("e", self.stick.thickness / 2.0);
        let standing = Standing {
            stick: self.stick,
            length: self.length,
            sways: false,
            off_axis: [given("e along", Length::default()), beside],
            hole: Default::default(),
        };
        let rated = desk.rules.post(&standing);
        let mut out = Vec::new();
        if let Some([slender, most]) = rated.slenderness()? {
            out.push(desk.compare_beside(Limit::Slenderness, case, &slender, &most));
        }
        if out.iter().all(|c| c.ratio <= 1.0) {
            let [asked, most] = rated.buckling(case.duration, &self.force)?;
            out.push(desk.compare_beside(Limit::Buckling, case, &asked, &most).after(&[self.force.expression()]));
        }
        let [asked, most] = rated.pulled(case.duration, &self.force, self.screws.screw.diameter)?;
        out.push(desk.compare_beside(Limit::Tension, case, &asked, &most).after(&[self.force.expression()]));
        for (piece, degrees) in &self.ends {
            out.push(self.end(desk, case, piece, *degrees)?);
        }
        out.extend(self.ends.first().map(|(piece, _)| self.side_by_side(desk, piece)).transpose()?);
        Ok(worst_of_each(out))
    }

    /// Whether the brace is wide enough for the screws of an end beside each other.
    fn side_by_side(&self, desk: &Desk<'_>, piece: &Stick) -> Result<Check, RuleError> {
        let needs = distances(desk.p, self.stick, self.screws, piece)?;
        let between = given("spaces", number(self.screws.count as f64 - 1.0));
        let wide = (plain(2.0) * needs.edge + between * needs.between).step("least width", PRACTICE);
        Ok(distance(Limit::Spacing, &wide, self.stick.width, "least width for the screws side by side"))
    }

    fn end(&self, desk: &Desk<'_>, case: Beside, piece: &Stick, degrees: f64) -> Result<Check, RuleError> {
        let joined = on_the_face(self.stick, self.screws, piece, degrees);
        let in_main = joined.in_main();
        let screw = desk.rules.screwed(joined);
        if let Some(check) = too_short(&*screw, &self.screws.screw.designation, in_main)? {
            return Ok(check);
        }
        let alone = Row { count: 1, spacing: Length::default(), rail: self.stick, distances: &[] };
        let one = screw.row(&screw.lateral()?, case.duration, &alone)?;
        let all = (given("screws", number(self.screws.count as f64)) * one).step("n Z", PRACTICE);
        let check = desk.compare_beside(Limit::Screw, case, &self.force, &all);
        let end = length_for_builder(distances(desk.p, self.stick, self.screws, piece)?.end.value, desk.p.units);
        Ok(check
            .remarked(format!("the screws of one end stand side by side across the brace, {end} or more from its end")))
    }
}

/// What the screws of a brace's end need in the brace, for all that they hold.
pub(super) struct BraceDistances {
    /// To the brace's end.
    pub(super) end: Worked<Length>,
    /// To its edges.
    pub(super) edge: Worked<Length>,
    /// From screw to screw across it.
    pub(super) between: Worked<Length>,
}

/// The distances of screws through a brace, which pulls and pushes along its own grain.
pub(super) fn distances(
    p: &Platform,
    stick: &Stick,
    screws: &Fixing,
    piece: &Stick,
) -> Result<BraceDistances, RuleError> {
    let rated = capacity::rules(p).screwed(on_the_face(stick, screws, piece, 0.0));
    let [end, edge, between] = [Spot::EndPulled, Spot::EdgeAlong, Spot::Beside].map(|spot| rated.needs(spot));
    Ok(BraceDistances { end: end?, edge: edge?, between: between? })
}

/// A screw through a brace into what it lies on.
pub(super) fn on_the_face<'a>(brace: &'a Stick, screws: &'a Fixing, piece: &'a Stick, degrees: f64) -> Joined<'a> {
    Joined {
        screw: &screws.screw,
        side: (&brace.wood, brace.thickness, 0.0),
        main: (&piece.wood, Some(piece.thickness), degrees),
        gap: Length::default(),
        end_grain: false,
        pulled: false,
    }
}

/// The knee braces of one rail, the rail between them, and its end joints.
///
/// A post turns about its foot: `N · cos = V ℓ / rise` is the brace's part along the rail, and the rail holds
/// the post's top against what of it exceeds `V`. The brace lifts the rail by `V ℓ / run`, of which the weight
/// on the lee side takes back its own; what is left bends the rail at the brace and is the end joint's.
fn knee(desk: &mut Desk<'_>, knees: &Knees, posts: &Posts, case: Beside, s: usize) {
    let rail = &desk.p.sides[s].rail.stick;
    let v = || on_one_post(desk);
    let length = || given("ℓ", posts.lengths[s]);
    let along = (v() * length() / given("rise", knees.rise)).step("N along", STATICS);
    let force = (along.clone() * given("ℓ brace", knees.length()) / given("run", knees.run)).step("N", STATICS);
    let steep = (knees.rise / knees.run).value.atan().to_degrees();
    let brace = Brace {
        stick: &knees.stick,
        screws: &knees.screws,
        length: knees.length(),
        force,
        ends: vec![(&posts.stick, 90.0 - steep), (rail, steep)],
    };
    let side = desk.side_name(s);
    let (lifted, kept) = (v() * length() / given("run", knees.run), lee(desk, posts, feet(desk, Way::Along, s)));
    let lifted = lifted.step("N upright", STATICS);
    let rest = if lifted.value > kept.value { lifted - kept.clone() } else { kept.clone() - lifted };
    let rest = rest.step("ΔR", STATICS);
    let aside = (along - v()).step("T", STATICS);
    let made_of = format!("{}, {}", knees.stick.size_text(desk.p.units), knees.stick.wood.name());
    let brace = brace.checks(desk, case).map(|checks| Member {
        id: format!("{side} knee braces"),
        role: Role::Brace,
        made_of,
        checks,
    });
    let bent = racked_rail(desk, knees, case, s, [&rest, &kept]);
    put(desk, brace, &format!("the {side} knee braces"));
    put(desk, bent, &format!("the {side} rail as its braces push it"));
    rail_ends(desk, case, s, [Some(rest), Some(aside), None]);
}

fn put(desk: &mut Desk<'_>, made: Result<Member, RuleError>, what: &str) {
    match made {
        Ok(member) => desk.member(member),
        Err(e) => desk.unchecked(what, &e),
    }
}

/// The case that people stand in while the platform is pushed: lying, or nobody.
pub(super) fn still_case(desk: &Desk<'_>) -> Option<usize> {
    let of = |kind| desk.cases.iter().position(|c| c.kind == kind);
    of(CaseKind::Lying).or(of(CaseKind::Dead))
}

/// A rail with everybody lying and its knee braces pushing on it: the greatest moment and shear of both,
/// wherever they are.
fn racked_rail(
    desk: &Desk<'_>,
    knees: &Knees,
    case: Beside,
    s: usize,
    [rest, kept]: [&Worked<Force>; 2],
) -> Result<Member, RuleError> {
    let stick = &desk.p.sides[s].rail.stick;
    let rated = desk.rules.upright(stick);
    let lying = still_case(desk).map(|k| desk.envelope.line(k, RAILS[s]));
    let peak = |peak: Option<f64>| peak.unwrap_or_default();
    let moment = peak(lying.and_then(|l| l.moment.as_ref()).map(|m| m.value));
    let shear = peak(lying.and_then(|l| l.shear.as_ref()).map(|v| v.value));
    let both: Worked<BendingMoment> =
        (given("M lying", newton_metre(moment)) + rest.clone() * given("run", knees.run)).step("M", STATICS);
    let sheared = (given("V lying", newton(shear)) + rest.clone().max(kept.clone())).step("V", STATICS);
    let bending = rated.bending(case.duration, Some(longest_span(desk, s)))?;
    let checks = vec![
        desk.compare_beside(Limit::Bending, case, &rated.bending_stress(both.value), &bending)
            .after(&[both.expression()]),
        desk.compare_beside(Limit::Shear, case, &rated.shear_stress(sheared.value), &rated.shear(case.duration)?)
            .after(&[sheared.expression()]),
    ];
    let made_of = format!("{}, {}", stick.size_text(desk.p.units), stick.wood.name());
    Ok(Member { id: format!("{} rail, racked", desk.side_name(s)), role: Role::Rail, made_of, checks })
}

/// A crossed pair: each of the two takes half of what its side is pushed with, one pulled, one pressed; between end rails
/// either may have to take all of it.
fn crossed(desk: &mut Desk<'_>, d: &Diagonals, posts: &Posts, case: Beside, edge: Edge) {
    let p = desk.p;
    let (way, s) = match edge {
        Edge::Left => (Way::Along, 0),
        Edge::Right => (Way::Along, 1),
        Edge::Head | Edge::Foot => (Way::Across, 0),
    };
    let stands = held_sides(p);
    if way == Way::Along && !stands.contains(&s) || way == Way::Across && stands.len() < 2 {
        let e = RuleError::not_covered("a diagonal where there are not two posts", "take it off that side");
        desk.unchecked(&format!("the {} diagonals", edge.name()), &e);
        return;
    }
    let apart = feet(desk, way, s);
    let high = posts.lengths[s];
    let length = (apart * apart + high * high).sqrt();
    let half = (on_one_side(desk) / plain(2.0)).step("N along", STATICS);
    // Between end rails a rail hands on all of its push at one end, where it presses: one of the two holds that.
    let one_end = p.end_rails.is_some() && way == Way::Along;
    let taken = if one_end { on_one_side(desk) } else { half.clone() };
    let force = (taken * given("ℓ brace", length) / given("feet apart", apart)).step("N", STATICS);
    let to_post = (apart / high).value.atan().to_degrees();
    let ends = vec![(&posts.stick, to_post)];
    let brace = Brace { stick: &d.stick, screws: &d.screws, length, force, ends };
    let made_of = format!("{}, {}", d.stick.size_text(p.units), d.stick.wood.name());
    let id = format!("{} diagonals", edge.name());
    let made = brace.checks(desk, case).map(|checks| Member { id: id.clone(), role: Role::Brace, made_of, checks });
    put(desk, made, &format!("the {id}"));
    match way {
        Way::Along if one_end => {}
        Way::Along => rail_ends(desk, case, s, [None, Some(half), None]),
        // The two ends of the platform are alike.
        Way::Across if edge == Edge::Head || !d.edges.contains(&Edge::Head) => {
            for s in held_sides(p) {
                rail_ends(desk, case, s, [None, None, Some(half.clone())]);
            }
        }
        Way::Across => {}
    }
}

/// A rail's ends with everybody lying, and what a push adds: down or up, along the rail, and straight off the
/// post.
fn rail_ends(desk: &mut Desk<'_>, case: Beside, s: usize, [down, along, off]: [Option<Worked<Force>>; 3]) {
    let rail = &desk.p.sides[s].rail;
    let Some(ends) = &rail.ends else { return };
    let last = desk.envelope.supports(s).len() - 1;
    for (support, end) in [(0, "head"), (last, "foot")] {
        let lying = still_case(desk).and_then(|k| desk.envelope.support(k, s, support)).map_or(0.0, |p| p.value);
        let way = if off.is_some() { "pushed across" } else { "pushed along" };
        let what = format!("{} rail, {end} end, {way}", desk.side_name(s));
        let pushed = PushedEnd {
            rail: &rail.stick,
            ends,
            lying: newton(lying),
            down: down.clone(),
            along: along.clone(),
            off: off.clone(),
        };
        match pushed.checks(desk, case) {
            Ok((made_of, checks)) => desk.member(Member { id: what, role: Role::EndJoint, made_of, checks }),
            Err(e) => desk.unchecked(&format!("the {what}"), &e),
        }
    }
}

/// What a brief does not say of braces, and what the floor must hold.
fn loose_ends(desk: &mut Desk<'_>, posts: &Posts) {
    // Where one of a crossed pair takes all of a side's push, so does the foot that it stands on.
    let on_one_foot = desk.p.end_rails.is_some() && desk.p.held(Way::Along) == Held::Diagonals;
    let one = if on_one_foot { on_one_side(desk) } else { on_one_post(desk) };
    let one = one.value.measure().show_to(desk.p.units, 3);
    desk.note(NotChecked {
        what: "the braces' screws: their distances in the posts and rails that the braces lie on, and splitting of \
               those"
            .into(),
        why: "the brief does not say where on them the braces end".into(),
        carries_load: false,
    });
    let sides = if desk.p.held(Way::Across) == Held::Nothing { "along the rails" } else { "any way" };
    desk.note(NotChecked {
        what: "the posts' feet against sliding".into(),
        why: format!(
            "the floor is the building's; each of the {} must be held with {one} {sides}",
            posts.count(desk.p)
        ),
        carries_load: false,
    });
}
