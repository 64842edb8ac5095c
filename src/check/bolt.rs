//! A rail's end bolted to the side of a post.
//!
//! As with screws the rail is taken to turn freely about its end: the bolts carry its reaction, shared alike, and
//! the couple between the middles of rail and post is in the yield modes.

use super::capacity::{Bolted, ByDuration, RatedBolt};
use super::desk::Desk;
use super::end_rail;
use super::envelope::Peak;
use super::joint::{End, hangs, split};
use super::model::MIDDLE;
use super::notes::NotChecked;
use super::screw::distance;
use super::verdict::{Check, Limit};
use crate::load::density_of;
use crate::platform::{Bolts, EndJoint, EndKind, Stick};
use crate::quantity::unit::{inch, newton};
use crate::quantity::{Force, Length, Measured};
use crate::rules::RuleError;
use crate::rules::slip::slip_modulus;

/// Bolts of a rail's end as the rules see them.
pub(super) fn bolted<'a>(rail: &'a Stick, ends: &EndJoint, bolts: &'a Bolts) -> Bolted<'a> {
    Bolted {
        bolt: &bolts.bolt,
        count: bolts.count,
        rail,
        post: &bolts.post,
        edge: ends.edge,
        end: ends.end,
        spacing: ends.spacing(rail, bolts.count),
        lean: 0.0,
        pulled: false,
    }
}

/// Words for what a joint is made of, and its checks.
pub(super) fn joined(desk: &Desk<'_>, end: &End<'_>, bolts: &Bolts) -> Result<(String, Vec<Check>), RuleError> {
    let made_of = format!("{} bolts {}", bolts.count, bolts.bolt.designation);
    let joint = bolted(end.stick, end.ends, bolts);
    let kept = joint.kept();
    let rated = desk.rules.bolted(joint);
    let mut checks = Vec::new();
    let mut tightest: Option<Check> = None;
    for (spot, actual, what) in kept {
        let check = distance(Limit::Spacing, &rated.least(spot)?, actual, &format!("least distance {what}"));
        if tightest.as_ref().is_none_or(|t| check.ratio > t.ratio) {
            tightest = Some(check);
        }
    }
    // Bolts that are too close to something have no strength in either family.
    let too_close = tightest.as_ref().is_some_and(|t| t.ratio > 1.0 + 1e-9);
    if !too_close {
        let lateral = rated.lateral()?;
        let capacity = ByDuration::of(&desk.durations(), |d| rated.row(&lateral, d))?;
        checks.extend(hangs(desk, end, &capacity, Some(rated.remark())));
    }
    checks.extend(tightest);
    checks.extend(washers(&*rated, bolts));
    checks.extend(split(desk, end)?);
    Ok((made_of, checks))
}

/// The washers, where the rules ask for a size.
fn washers(rated: &dyn RatedBolt, bolts: &Bolts) -> Option<Check> {
    let [across, thickness] = rated.least_washer()?;
    let washer = &bolts.bolt.washer;
    let wide = distance(Limit::Washer, &across, washer.across, "diameter of the washers under head and nut");
    let thick = distance(Limit::Washer, &thickness, washer.thickness, "thickness of the washers under head and nut");
    Some(if thick.ratio > wide.ratio { thick } else { wide })
}

/// What is said of bolted ends beside their checks: how far they settle, and how far apart bolts may be.
pub(super) fn remarks(desk: &mut Desk<'_>) {
    let p = desk.p;
    let beam = p.centre_beam.as_ref().map(|b| (MIDDLE, &b.stick, &b.ends));
    let rails =
        p.sides.iter().enumerate().filter_map(|(s, side)| Some((s, &side.rail.stick, side.rail.ends.as_ref()?)));
    let held = rails.chain(beam).map(|(s, stick, ends)| {
        let last = desk.envelope.supports(s).len() - 1;
        let at = |support: usize| greatest(desk, &|k| desk.envelope.support(k, s, support));
        (stick, ends, at(0).max(at(last)))
    });
    let on_posts = end_rail::on_posts(desk);
    let end_rails = p.end_rails.iter().map(|e| {
        let all = on_posts.iter().flatten().map(|peaks| greatest(desk, &|k| peaks[k].as_ref()));
        (&e.stick, &e.ends, all.fold(Force::default(), Force::max))
    });
    let all: Vec<_> = held.chain(end_rails).collect();
    let mut most: Option<(Length, Length)> = None;
    let mut apart = Length::default();
    for (stick, ends, force) in all {
        let EndKind::Bolts(bolts) = &ends.kind else { continue };
        let joint = bolted(stick, ends, bolts);
        apart = apart.max(joint.spacing * (bolts.count as f64 - 1.0));
        let [_, hole] = desk.rules.bolted(joint).hole();
        let slip = slip_modulus(density_of(&stick.wood), density_of(&bolts.post.wood), bolts.bolt.diameter);
        let slips: Length = force / (slip.value * bolts.count as f64);
        if most.is_none_or(|(_, so_far)| slips > so_far) {
            most = Some((hole.value - bolts.bolt.diameter, slips));
        }
    }
    let Some((wider, slips)) = most else { return };
    let show = |l: Length| l.measure().show_to(desk.p.units, 2);
    let (wider, slips, apart_text) = (show(wider), show(slips), show(apart));
    desk.note(NotChecked {
        what: "how far bolted ends settle".into(),
        why: format!(
            "holes are up to {wider} wider than the bolts, and under the greatest load here the bolts bed in by about \
             {slips} (EN 1995-1-1 Table 7.1, which counts for no strength); the sags above are those of the rail between its ends"
        ),
        carries_load: false,
    });
    // NDS 2018 12.5.1.3, from memory: bolts across the grain 5 in apart at most, or holes that let the wood shrink.
    if apart > inch(5.0 + 1e-6) {
        desk.caution(format!(
            "The outermost bolts in a rail's end are {apart_text} apart across its grain: a rail that dries may split between \
             them. Use dry wood, slot the holes, or keep the bolts within 5 in (127 mm)."
        ));
    }
}

/// The greatest force on a support in a case of strength.
fn greatest<'b>(desk: &Desk<'_>, force: &dyn Fn(usize) -> Option<&'b Peak>) -> Force {
    let counted = (0..desk.cases.len()).filter(|k| super::rail::strength(&desk.cases[*k]));
    newton(counted.filter_map(force).map(|p| p.value).fold(0.0, f64::max))
}
