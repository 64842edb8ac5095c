//! The guard: its top rail, its posts and their screws, and its infill.
//!
//! The top rail is taken as a simple span between posts and a post as held by the bed's rail alone.

use super::beside::{Beside, worst_of_each};
use super::capacity::{Against, Face, Joined, Spot};
use super::desk::Desk;
use super::screw::{Prying, tightest, too_short};
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role};
use crate::brief::{Edge, HeadsOn};
use crate::derivation::{Worked, given, plain};
use crate::load::{GuardLoad, guard_loads, guard_on};
use crate::platform::{Guard, GuardPosts, Platform, Run, Stick};
use crate::quantity::{BendingMoment, Force, Length, Ratio, number};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};

const STATICS: Citation = Citation::new("statics", "", Seen::Memory);

/// What the guard of one edge is checked with: the worst of its runs.
struct Along<'a> {
    guard: &'a Guard,
    edge: Edge,
    /// Longest distance from post to post.
    span: Length,
    /// Longest length of guard that leans on one post.
    share: Length,
    /// Fewest posts that stand together.
    posts: usize,
    /// The rail that the posts are screwed to, and the slats' top above its lower edge.
    rail: &'a Stick,
    above_foot: Length,
}

impl<'a> Along<'a> {
    fn new(p: &'a Platform, guard: &'a Guard, edge: Edge) -> Along<'a> {
        let (rail, above_foot) = p.rail_along(edge);
        let runs: Vec<Run> = p.guard_runs().into_iter().filter(|r| r.edge == edge).collect();
        let longest = |of: &dyn Fn(&Run) -> Length| {
            runs.iter().map(of).fold(Length::default(), |most, l| if l > most { l } else { most })
        };
        Along {
            guard,
            edge,
            span: longest(&Run::span),
            share: longest(&Run::share),
            posts: runs.iter().map(|r| r.posts.len()).min().unwrap_or(1),
            rail,
            above_foot,
        }
    }

    fn id(&self, what: &str) -> String {
        format!("{} guard {what}", self.edge.name())
    }
}

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(guard) = &desk.p.guard else { return };
    for edge in guard.edges.iter().copied() {
        let along = Along::new(desk.p, guard, edge);
        if let Err(e) = pulled_distances(desk, &along) {
            desk.unchecked("distances of the guard posts' screws against their pull", &e);
        }
        for (what, made) in [
            ("rail", top_rail(desk, &along)),
            ("post", post(desk, &along)),
            ("post screws", post_screws(desk, &along)),
            ("infill", infill(desk, &along)),
        ] {
            match made {
                Ok(member) => desk.member(member),
                Err(e) => desk.unchecked(&format!("the {}", along.id(what)), &e),
            }
        }
    }
}

/// The infill: a lower rail from post to post or a bar from the bed's rail to the top rail, pushed in its
/// middle by its share of a square.
fn infill(desk: &Desk<'_>, a: &Along<'_>) -> Result<Member, RuleError> {
    let guard = a.guard;
    let lower = guard.lower.iter().map(|l| (&l.stick, a.span, l.stick.width + l.gap));
    let bars = guard.bars.iter().map(|b| (&b.stick, guard.top, b.stick.width + b.gap));
    let (mut checks, mut made_of) = (Vec::new(), Vec::new());
    for (stick, span, pitch) in lower.chain(bars) {
        made_of.push(format!("{}, {}", stick.size_text(desk.p.units), stick.wood.name()));
        for (kind, load) in guard_loads(desk.p) {
            let (GuardLoad::Infill { force, side }, Some(case)) = (load, desk.beside(kind)) else { continue };
            let share = if pitch < side { given("pitch", pitch) / given("c", side) } else { plain(1.0) };
            let push = (desk.factored("P", force) * share).step("P on one", STATICS);
            let arm = given("L", span) / plain(4.0) - given("c", side.min(span)) / plain(8.0);
            let moment: Worked<BendingMoment> = (push.clone() * arm).step("M", STATICS);
            let face = Face::across(stick);
            let rated = desk.rules.rated(stick, face);
            let bends = rated.bending(case.duration, (face == Face::Edgewise).then_some(span))?;
            let stress = rated.bending_stress(moment.value);
            checks.push(desk.compare_beside(Limit::Bending, case, &stress, &bends).after(&[moment.expression()]));
            let shear = rated.shear(case.duration)?;
            checks.push(desk.compare_beside(Limit::Shear, case, &rated.shear_stress(push.value), &shear));
        }
    }
    let made_of = made_of.join("; ");
    Ok(Member { id: a.id("infill"), role: Role::GuardInfill, made_of, checks: worst_of_each(checks) })
}

/// What a load does at the top, `(sideways, down)`, with the rules' factor and the part of `span` it acts on.
fn forces(desk: &Desk<'_>, load: GuardLoad, over: Length) -> Option<[Worked<Force>; 2]> {
    match load {
        GuardLoad::Point(p) => Some([desk.factored("P", p), desk.factored("P", p)]),
        GuardLoad::Line(w) => {
            let all = (desk.factored("w", w) * given("l", over)).step("P", STATICS);
            Some([all.clone(), all])
        }
        GuardLoad::Test { sideways, down } => Some([desk.factored("P", sideways), desk.factored("P", down)]),
        GuardLoad::Infill { .. } => None,
    }
}

/// Whether a load may act in any direction, and so in the worst one between sideways and down.
fn any_way(load: GuardLoad) -> bool {
    matches!(load, GuardLoad::Point(_) | GuardLoad::Line(_))
}

/// Bending of a stick by two moments, across its width and along it: each alone, or both as one force in
/// its worst direction.
fn bending(
    desk: &Desk<'_>,
    case: Beside,
    stick: &Stick,
    free: Length,
    moments: [Worked<BendingMoment>; 2],
    together: bool,
) -> Result<Vec<Check>, RuleError> {
    let across = Face::across(stick);
    let [first, second] = [across, across.turned()];
    let [m1, m2] = moments;
    let against = |face: Face, m: &Worked<BendingMoment>| -> Result<Against, RuleError> {
        let rated = desk.rules.rated(stick, face);
        let unbraced = (face == Face::Edgewise).then_some(free);
        let capacity = rated.bending(case.duration, unbraced)?;
        Ok(Against { stress: rated.bending_stress(m.value), capacity })
    };
    let (one, other) = (against(first, &m1)?, against(second, &m2)?);
    if !together {
        let each = |m: &Worked<BendingMoment>, a: &Against| {
            desk.compare_beside(Limit::Bending, case, &a.stress, &a.capacity).after(&[m.expression()])
        };
        return Ok(vec![each(&m1, &one), each(&m2, &other)]);
    }
    let (edge, flat) = if first == Face::Edgewise { (&one, &other) } else { (&other, &one) };
    let demand = desk.rules.skew(stick, free, edge, flat)?;
    let citation = demand.as_step().map_or(STATICS, |s| s.citation.clone());
    let whole: Worked<Ratio> = plain(1.0).step("limit", citation);
    let check = desk.compare_beside(Limit::Bending, case, &demand, &whole);
    let both = [m1.expression(), m2.expression()];
    Ok(vec![check.after(&both).remarked("one force in its worst direction, bending both ways")])
}

/// The top rail: a simple span, the force in its middle or at its end, or the line load on all of it.
fn top_rail(desk: &Desk<'_>, a: &Along<'_>) -> Result<Member, RuleError> {
    let stick = &a.guard.rail;
    let mut checks = Vec::new();
    for (kind, load) in guard_loads(desk.p) {
        let Some(case) = desk.beside(kind) else { continue };
        let Some([sideways, down]) = forces(desk, load, a.span) else { continue };
        let divisor = if matches!(load, GuardLoad::Line(_)) { 8.0 } else { 4.0 };
        let moment = |p: &Worked<Force>| -> Worked<BendingMoment> {
            (p.clone() * given("L", a.span) / plain(divisor)).step("M", STATICS)
        };
        let moments = [moment(&sideways), moment(&down)];
        checks.extend(bending(desk, case, stick, a.span, moments, any_way(load))?);
        for (face, force) in [(Face::across(stick), &sideways), (Face::across(stick).turned(), &down)] {
            let rated = desk.rules.rated(stick, face);
            let shear = match load {
                GuardLoad::Line(_) => (force.clone() / plain(2.0)).step("V", STATICS),
                _ => force.clone(),
            };
            let stress = rated.shear_stress(shear.value);
            checks.push(desk.compare_beside(Limit::Shear, case, &stress, &rated.shear(case.duration)?));
        }
    }
    checks.extend(rail_screws(desk, a)?);
    let made_of = format!("{}, {}", stick.size_text(desk.p.units), stick.wood.name());
    Ok(Member { id: a.id("rail"), role: Role::GuardRail, made_of, checks: worst_of_each(checks) })
}

/// A screw through the top rail into a post.
pub(super) fn rail_joined(guard: &Guard) -> Joined<'_> {
    let (rail, post) = (&guard.rail, &guard.posts.stick);
    Joined {
        screw: &guard.rail_screws.screw,
        side: (&rail.wood, rail.thickness, 90.0),
        main: (&post.wood, Some(post.thickness), 0.0),
        gap: Length::default(),
        end_grain: false,
        pulled: true,
    }
}

/// The top rail's screws into a post: the whole force at that post, in any direction.
fn rail_screws(desk: &Desk<'_>, a: &Along<'_>) -> Result<Vec<Check>, RuleError> {
    let fixing = &a.guard.rail_screws;
    let joined = rail_joined(a.guard);
    let in_main = joined.in_main();
    let screw = desk.rules.screwed(joined);
    if let Some(check) = too_short(&*screw, &fixing.screw.designation, in_main)? {
        return Ok(vec![check]);
    }
    let lateral = screw.lateral()?;
    let n = given("n", number(fixing.count as f64));
    let mut checks = Vec::new();
    for (kind, load) in guard_loads(desk.p) {
        let Some(case) = desk.beside(kind) else { continue };
        let Some([sideways, down]) = forces(desk, load, a.share) else { continue };
        let pulls = [(sideways, 90.0, "pulled straight off the post"), (down, 0.0, "pressed down along the post")];
        for (force, degrees, how) in pulls {
            let capacity = screw.at_angle(&lateral, case.duration, degrees)?;
            let capacity = (n.clone() * capacity).step("n Z", PRACTICE);
            checks.push(
                desk.compare_beside(Limit::Screw, case, &force, &capacity)
                    .remarked(format!("the rail's screws into a post, {how}")),
            );
        }
    }
    Ok(checks)
}

/// Height of the load above the upper screws of a post.
fn above_screws(a: &Along<'_>) -> Worked<Length> {
    let posts = &a.guard.posts;
    let slats = given("slats above the rail's foot", a.above_foot);
    (slats + given("top", a.guard.top) - (given("up", posts.up) + given("s", posts.spacing))).step("H", STATICS)
}

/// A post: a cantilever from its upper screws, weakened by their holes. Along the guard its top rail brings
/// every post of the run to help; no other run, for nothing is said of a joint round a corner or over the way in.
fn post(desk: &Desk<'_>, a: &Along<'_>) -> Result<Member, RuleError> {
    let posts = &a.guard.posts;
    let net =
        Stick { width: posts.stick.width - posts.screw.diameter * (posts.count as f64 / 2.0), ..posts.stick.clone() };
    let made_of = format!("{}, {}", posts.stick.size_text(desk.p.units), posts.stick.wood.name());
    if net.width <= Length::default() {
        return Err(RuleError::not_covered(
            "a post whose screws leave no wood between them",
            "use fewer or thinner ones",
        ));
    }
    let height = above_screws(a);
    let mut checks = Vec::new();
    for (kind, load) in guard_loads(desk.p) {
        let Some(case) = desk.beside(kind) else { continue };
        let Some([sideways, _]) = forces(desk, load, a.share) else { continue };
        let across = (sideways.clone() * height.clone()).step("M", STATICS);
        let along = match load {
            GuardLoad::Point(_) => across.clone() / given("posts", number(a.posts as f64)),
            _ => given("none", BendingMoment::default()),
        };
        let along = along.step("M along", STATICS);
        checks.extend(bending(desk, case, &net, height.value, [across, along], any_way(load))?);
        let rated = desk.rules.rated(&net, Face::across(&net));
        let stress = rated.shear_stress(sideways.value);
        checks.push(desk.compare_beside(Limit::Shear, case, &stress, &rated.shear(case.duration)?));
    }
    Ok(Member { id: a.id("post"), role: Role::GuardPost, made_of, checks: worst_of_each(checks) })
}

/// A screw between a post and the bed's rail.
pub(super) fn joined<'a>(posts: &'a GuardPosts, rail: &'a Stick) -> Joined<'a> {
    // Pushed along the guard, the load is across the post's grain, and pressed down across the rail's.
    let (post, rail) = (&posts.stick, rail);
    let (side, main) = match posts.heads {
        HeadsOn::Post => (post, rail),
        HeadsOn::Rail => (rail, post),
    };
    Joined {
        screw: &posts.screw,
        side: (&side.wood, side.thickness, 90.0),
        main: (&main.wood, Some(main.thickness), 90.0),
        gap: Length::default(),
        end_grain: false,
        pulled: true,
    }
}

/// A post's screws: the couple that holds it up when it is pushed out or in, the couple along the guard, and
/// the weight of somebody on the top.
fn post_screws(desk: &Desk<'_>, a: &Along<'_>) -> Result<Member, RuleError> {
    let posts = &a.guard.posts;
    let rail = a.rail;
    let member = |checks| Member {
        id: a.id("post screws"),
        role: Role::GuardPostScrews,
        made_of: format!("{} x {}", posts.count, posts.screw.designation),
        checks,
    };
    let joined = joined(posts, rail);
    let in_main = joined.in_main();
    let screw = desk.rules.screwed(joined);
    if let Some(check) = too_short(&*screw, &posts.screw.designation, in_main)? {
        return Ok(member(vec![check]));
    }
    let lateral = screw.lateral()?;
    let row = || given("m", number(posts.count as f64 / 2.0));
    let high = above_screws(a);
    let two_thirds = || plain(2.0) / plain(3.0);
    let above_foot = posts.up + posts.spacing;
    let below_top = rail.width - posts.up;
    let mut checks = Vec::new();
    for (kind, load) in guard_loads(desk.p) {
        let Some(case) = desk.beside(kind) else { continue };
        let Some([sideways, down]) = forces(desk, load, a.share) else { continue };
        // Pushed one way the post turns about the rail's lower edge and pulls the upper row, the other way
        // about its upper edge and pulls the lower row: whichever face it stands on, both happen.
        let lever = (two_thirds() * given("h", above_foot)).step("z", PRACTICE);
        let upper = (sideways.clone() * (high.clone() + lever.clone()) / (lever * row())).step("T", STATICS);
        let lever = (two_thirds() * given("h", below_top)).step("z", PRACTICE);
        let over_lower = high.clone() + given("s", posts.spacing);
        let lower = (sideways.clone() * (over_lower - lever.clone()) / (lever * row())).step("T", STATICS);
        let pull = screw.at_angle(&lateral, case.duration, 90.0)?;
        for (tension, how) in [
            (upper, "upper screws, pushed away from the lower edge of the bed's rail"),
            (lower, "lower screws, pushed over its upper edge"),
        ] {
            checks.push(desk.compare_beside(Limit::Screw, case, &tension, &pull).remarked(how));
        }
        // Along the guard, which only the code's force is said to do: the row's couple and the force itself.
        if let GuardLoad::Point(_) = load {
            let one = (sideways / given("posts", number(a.posts as f64))).step("P on one post", STATICS);
            let arm = high.clone() / given("s", posts.spacing) + plain(0.5);
            let couple = (one.clone() * arm / row() + one / (plain(2.0) * row())).step("Z", STATICS);
            let sideways = screw.at_angle(&lateral, case.duration, 0.0)?;
            checks.push(desk.compare_beside(Limit::Screw, case, &couple, &sideways).remarked("pushed along the guard"));
        }
        // Down on the top rail, which stands beyond the post: the upper row is pried as a cleat's is.
        let beyond = (posts.stick.thickness + a.guard.rail.thickness / 2.0) * 2.0;
        let prying = Prying::new(beyond, above_foot);
        let each = ((down + weight(desk, a)) / (plain(2.0) * row())).step("R", STATICS);
        let capacity = screw.at_angle(&lateral, case.duration, prying.degrees())?;
        checks.push(
            desk.compare_beside(Limit::Screw, case, &prying.resultant(each), &capacity)
                .remarked("weight on the top rail"),
        );
    }
    let mut checks = worst_of_each(checks);
    checks.extend(tightest(&*screw, &distances(posts, rail))?);
    Ok(member(checks))
}

/// What the guard itself weighs on one post.
fn weight(desk: &Desk<'_>, a: &Along<'_>) -> Worked<Force> {
    let (line, _) = guard_on(desk.p, a.guard, a.edge);
    let own = given("g", line) * given("l", a.share);
    let factor = desk.rules.actions().strength.permanent;
    if factor == 1.0 { own.step("G", STATICS) } else { (given("γG", number(factor)) * own).step("Gd", STATICS) }
}

/// Whether there are distances for a post's screws as they are pulled.
fn pulled_distances(desk: &Desk<'_>, a: &Along<'_>) -> Result<(), RuleError> {
    desk.rules.screwed(joined(&a.guard.posts, a.rail)).distances_when_pulled()
}

/// From screw to screw across a post, and from its edges to the nearest.
pub(super) fn side_by_side(posts: &GuardPosts) -> Length {
    posts.stick.width / (posts.count as f64 / 2.0 + 1.0)
}

/// The distances of a post's screws on the bed's rail and on the post.
fn distances(posts: &GuardPosts, rail: &Stick) -> Vec<super::capacity::Kept> {
    let above = rail.width - posts.up - posts.spacing;
    let edge = if above < posts.up { above } else { posts.up };
    let across = side_by_side(posts);
    let mut all = vec![
        (Spot::Edge, edge, "to the edge of the bed's rail"),
        (Spot::Edge, across, "to the edge of the post"),
        (Spot::Across, posts.spacing, "from the low screws up to the high ones"),
    ];
    if posts.count > 2 {
        all.push((Spot::Along, across, "from screw to screw side by side"));
    }
    all
}
