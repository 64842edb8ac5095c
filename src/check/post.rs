//! Posts: slenderness, compression off the axis with buckling, and the end grain above and below.

use super::bolt::bolted;
use super::brace;
use super::capacity::{ByDuration, Part, Posted, Standing};
use super::desk::{Candidate, Desk};
use super::end_rail;
use super::envelope::{Peak, exceeds};
use super::notes::NotChecked;
use super::rail::strength;
use super::screw::standing_still;
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role, over};
use crate::derivation::{Worked, given, plain};
use crate::load::{CaseKind, own_weight, sideways};
use crate::platform::{EndJoint, EndKind, Held, Posts, Stick, Top, Way};
use crate::quantity::unit::newton;
use crate::quantity::{Force, Length, Measured, number};
use crate::rules::RuleError;

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(posts) = &desk.p.posts else { return };
    let mut foot = Force::default();
    let on_end_rails = end_rail::on_posts(desk);
    for s in 0..2 {
        let Some(on) = On::of(desk, posts, s) else { continue };
        let last = desk.envelope.supports(s).len() - 1;
        for (n, (support, end)) in [(0, "head"), (last, "foot")].into_iter().enumerate() {
            let id = format!("{} post, {end} end", desk.side_name(s));
            let standing = Standing {
                stick: &posts.stick,
                length: posts.lengths[s],
                sways: posts.top == Top::Free,
                off_axis: on.off_axis(),
                hole: on.hole(),
            };
            let envelope = desk.envelope;
            let peak = |k: usize| match on_end_rails.get(n) {
                Some(reactions) => reactions[s][k].as_ref(),
                None => envelope.support(k, s, support),
            };
            foot = foot.max(greatest(desk, &standing, &peak));
            let checks = checks(desk, &standing, &peak, on.contact());
            let checks = checks.and_then(|own| Ok(worse_of(own, racking(desk, posts, &standing, &peak, s)?)));
            match checks {
                Ok(checks) => {
                    desk.member(Member { id, role: Role::Post, made_of: made_of(desk, &posts.stick), checks })
                }
                Err(e) => desk.unchecked(&format!("the {id}"), &e),
            }
        }
    }
    desk.note(NotChecked {
        what: "the floor under the posts".into(),
        why: format!("it is the building's; a post presses on it with up to {}", foot.measure().show(desk.p.units)),
        carries_load: false,
    });
}

/// The checks with that of racking in place of its like, if it is worse.
fn worse_of(mut checks: Vec<Check>, racking: Option<Check>) -> Vec<Check> {
    if let Some(r) = racking
        && let Some(own) = checks.iter_mut().find(|c| c.limit == r.limit && exceeds(r.ratio, c.ratio))
    {
        *own = r;
    }
    checks
}

/// A post under its share of the push with everybody lying, where no wall holds the platform.
///
/// No source: statics. Where nothing else keeps the posts from swaying, the push is shared by all alike and each
/// bends from its foot, which is a pin, to the rail, which turns nothing; nothing here says that the joint at the
/// rail can hold that moment. With knee braces it bends to the brace only. Diagonals leave it straight. Posts on
/// the lee side carry the overturning too.
fn racking<'b>(
    desk: &Desk<'_>,
    posts: &Posts,
    standing: &Standing<'_>,
    peak: &dyn Fn(usize) -> Option<&'b Peak>,
    s: usize,
) -> Result<Option<Check>, RuleError> {
    let p = desk.p;
    let of = |kind| desk.cases.iter().position(|c| c.kind == kind);
    let Some(case) = of(CaseKind::Racking) else { return Ok(None) };
    let Some(peak) = of(CaseKind::Lying).or(of(CaseKind::Dead)).and_then(peak) else { return Ok(None) };
    let actions = desk.rules.actions().strength;
    let own = own_weight(standing.stick) * standing.length * actions.permanent;
    let push = given("H", sideways(p)) * plain(actions.variable) / given("posts", number(posts.count(p) as f64));
    let push = push.step("V", PRACTICE);
    let mut worst: Option<(Candidate<'b>, Part)> = None;
    for (axis, way) in Way::ALL.into_iter().enumerate() {
        let apart = brace::feet(desk, way, s);
        let length = given("ℓ", standing.length);
        let (lee, bends) = match (p.held(way), &p.bracing.knees) {
            (Held::Nothing, _) => {
                let lee = plain(2.0) * push.clone() * given("slats above floor", posts.slats_above_floor(p))
                    / given("feet apart", apart);
                (lee, Some(push.clone() * length))
            }
            (Held::Knees, Some(knees)) => {
                let above_foot = length - given("rise", knees.rise);
                (brace::lee(desk, posts, apart), Some(brace::on_one_post(desk) * above_foot))
            }
            (Held::Diagonals, _) => (brace::lee(desk, posts, apart), None),
            _ => continue,
        };
        let force = (given("R", newton(peak.value)) + given("own weight", own) + lee).step("P", PRACTICE);
        let mut off_axis = standing.off_axis.clone();
        if let Some(moment) = bends {
            let turned: Worked<Length> = moment / force.clone();
            off_axis[axis] = (off_axis[axis].clone() + turned).step("e", PRACTICE);
        }
        let pushed = Standing { off_axis, ..*standing };
        let part = desk.rules.post(&pushed).buckling(desk.cases[case].duration, &force)?;
        let ratio = over(part[0].value.si(), part[1].value.si());
        if worst.as_ref().is_none_or(|(w, _)| exceeds(ratio, w.ratio)) {
            worst = Some((Candidate { case, peak, ratio }, part));
        }
    }
    Ok(worst.map(|(w, [asked, most])| desk.compare(Limit::Buckling, &w, &asked, &most)))
}

/// What a post presses on the floor with at most, with the factors on loads.
pub(super) fn greatest<'b>(
    desk: &Desk<'_>,
    standing: &Standing<'_>,
    peak: &dyn Fn(usize) -> Option<&'b Peak>,
) -> Force {
    let own = own_weight(standing.stick) * standing.length * desk.rules.actions().strength.permanent;
    let counted = (0..desk.cases.len()).filter(|k| strength(&desk.cases[*k]));
    newton(counted.filter_map(peak).map(|p| p.value).fold(0.0, f64::max)) + own
}

pub(super) fn made_of(desk: &Desk<'_>, stick: &Stick) -> String {
    format!("{}, {}", stick.size_text(desk.p.units), stick.wood.name())
}

/// What stands on a post: a rail, or an end rail, which runs across the platform.
struct On<'a> {
    rail: &'a Stick,
    ends: &'a EndJoint,
    /// Half the post along that rail, and across it.
    half: [Length; 2],
    across_platform: bool,
    /// The largest hole for its bolts.
    bolt_hole: Length,
}

impl<'a> On<'a> {
    fn of(desk: &Desk<'a>, posts: &Posts, side: usize) -> Option<On<'a>> {
        let (rail, ends) = desk.p.on_posts(side)?;
        let across_platform = desk.p.end_rails.is_some();
        let half = [posts.stick.width / 2.0, posts.stick.thickness / 2.0];
        let bolt_hole = match &ends.kind {
            EndKind::Bolts(bolts) => {
                let [_, largest] = desk.rules.bolted(bolted(rail, ends, bolts)).hole();
                largest.value
            }
            _ => Length::default(),
        };
        let [along, across] = half;
        let half = if across_platform { [across, along] } else { half };
        Some(On { rail, ends, half, across_platform, bolt_hole })
    }

    /// How far off a post's axis a rail's end comes in, along the platform and across it.
    ///
    /// No source: statics. A rail that rests presses hardest on the post's inner edge, a third of the bearing
    /// in, and stands flush with one of its faces; one in a notch presses on the middle of the shoulder, under which
    /// the post is whole; a rail screwed to the post's side hangs at the middle of
    /// its own thickness; a rail screwed end on hangs at the post's face.
    fn off_axis(&self) -> [Worked<Length>; 2] {
        let ([half_along, half_across], none) = (self.half, Length::default());
        let thick = self.rail.thickness;
        let [along, across] = match &self.ends.kind {
            EndKind::Bearing { length } => [half_along - *length / 3.0, (half_across - thick / 2.0).abs()],
            EndKind::Notch(notch) => [half_along - notch.length / 3.0, half_across - notch.depth / 2.0],
            EndKind::SideGrain { .. } | EndKind::Bolts(_) | EndKind::Glue => [none, half_across + thick / 2.0],
            EndKind::EndGrain { .. } | EndKind::Pocket { .. } => [half_along, none],
        };
        let [along, across] = if self.across_platform { [across, along] } else { [along, across] };
        [given("e along", along), given("e across", across)]
    }

    /// What bolts take from the side of the post that they stand in the middle of. The load comes off the post's axis
    /// at the bolts, so the whole post is rated with their hole in it.
    fn hole(&self) -> [Length; 2] {
        let none = Length::default();
        if self.across_platform { [none, self.bolt_hole] } else { [self.bolt_hole, none] }
    }

    /// Where the rail rests on the post's end grain: along the rail and across it.
    fn contact(&self) -> Option<[Length; 2]> {
        let [_, half_across] = self.half;
        match &self.ends.kind {
            EndKind::Bearing { length } => Some([self.rail.thickness.min(half_across * 2.0), *length]),
            EndKind::Notch(notch) => Some([notch.depth, notch.length]),
            _ => None,
        }
    }
}

/// Every check of one post or leg. `peak` is what stands on it in a case, `over` where something rests on
/// its end grain.
pub(super) fn checks<'b>(
    desk: &Desk<'_>,
    standing: &Standing<'_>,
    peak: &dyn Fn(usize) -> Option<&'b Peak>,
    over: Option<[Length; 2]>,
) -> Result<Vec<Check>, RuleError> {
    let posted = desk.rules.post(standing);
    let mut out = Vec::new();
    if let Some([slender, most]) = posted.slenderness()? {
        let check = standing_still(Limit::Slenderness, &slender, most.value.measure(), "slenderness, length over side");
        if check.ratio > 1.0 {
            return Ok(vec![check]);
        }
        out.push(check);
    }
    let own = own_weight(standing.stick) * standing.length * desk.rules.actions().strength.permanent;
    out.extend(buckling(desk, &*posted, peak, own)?);
    out.extend(bearing(desk, &*posted, standing.stick, peak, own, over)?);
    Ok(out)
}

/// What stands on a post, with its own weight.
fn pressed(peak: &Peak, own: Force) -> Worked<Force> {
    (given("R", newton(peak.value)) + given("own weight", own)).step("P", PRACTICE)
}

fn buckling<'b>(
    desk: &Desk<'_>,
    posted: &dyn Posted,
    peak: &dyn Fn(usize) -> Option<&'b Peak>,
    own: Force,
) -> Result<Option<Check>, RuleError> {
    let mut worst: Option<(Candidate<'b>, Part)> = None;
    for (i, case) in desk.cases.iter().enumerate().filter(|(_, c)| strength(c)) {
        let Some(peak) = peak(i) else { continue };
        let part = posted.buckling(case.duration, &pressed(peak, own))?;
        let ratio = over(part[0].value.si(), part[1].value.si());
        if worst.as_ref().is_none_or(|(w, _)| exceeds(ratio, w.ratio)) {
            worst = Some((Candidate { case: i, peak, ratio }, part));
        }
    }
    Ok(worst.map(|(w, [asked, most])| desk.compare(Limit::Buckling, &w, &asked, &most)))
}

/// End grain: on the floor, and under a rail that rests on it.
fn bearing<'b>(
    desk: &Desk<'_>,
    posted: &dyn Posted,
    stick: &Stick,
    peak: &dyn Fn(usize) -> Option<&'b Peak>,
    own: Force,
    over: Option<[Length; 2]>,
) -> Result<Option<Check>, RuleError> {
    let capacity = ByDuration::of(&desk.durations(), |d| posted.end_bearing(d))?;
    let foot = [stick.thickness, stick.width];
    let Some(worst) = desk.worst(strength, peak, |c| capacity.si(c.duration)) else { return Ok(None) };
    let capacity = capacity.get(desk.cases[worst.case].duration);
    let below = posted.end_stress(pressed(worst.peak, own), foot);
    let above = over.map(|area| posted.end_stress(given("R", newton(worst.peak.value)), area));
    let (demand, remark) = match above {
        Some(above) if above.value > below.value => (above, "end grain of the post under the rail"),
        _ => (below, "end grain of the post on the floor"),
    };
    let mut check = desk.compare(Limit::Bearing, &worst, &demand, capacity);
    check.remark = Some(remark.into());
    Ok(Some(check))
}
