//! What holds the ends of rails, end rails and beams.

use super::{Hardware, Hole, drilled};
use crate::check::bolt::bolted;
use crate::check::capacity::{self, BoltSpot};
use crate::check::joint::{into_end_grain, into_side_grain};
use crate::platform::{Bolts, EndJoint, EndKind, Holder, Notch, Platform, Stick};
use crate::quantity::Length;

/// What holds both ends of a rail or beam; `None` for glue.
pub(super) fn end_joints(p: &Platform, what: &str, stick: &Stick, ends: &EndJoint) -> Option<Hardware> {
    let pattern = |count: usize| {
        let mut out = vec![("its edges to the nearest screw", ends.edge)];
        if count > 1 {
            out.push(("screw to screw", ends.spacing(stick, count)));
        }
        if ends.lap() > Length::default() {
            out.push(("its end to the screws", ends.end));
        }
        out
    };
    let bare = |what: String, screw: String, count: usize, pattern, holes: &str| Hardware {
        what,
        screw,
        count,
        pattern,
        holes: Vec::new(),
        no_holes: Some(holes.into()),
    };
    let (holder, on) = match ends.holder {
        Holder::Post => ("post", "posts or blocks"),
        Holder::EndRail => ("end rail", "end rails"),
    };
    Some(match &ends.kind {
        EndKind::Bolts(bolts) => through(p, what, (stick, ends, bolts)),
        EndKind::SideGrain { screw, count } => {
            drilled(p, &format!("{what} to posts"), into_side_grain(stick, ends, screw), 2 * count, pattern(*count))
        }
        EndKind::EndGrain { screw, count, through } => drilled(
            p,
            &format!("{holder} to {what}'s ends"),
            into_end_grain(stick, ends, screw, *through),
            2 * count,
            pattern(*count),
        ),
        EndKind::Pocket { screw, count } => bare(
            format!("{what} to {holder}s, in pockets"),
            screw.designation.clone(),
            2 * count,
            vec![("its edges to the nearest screw", ends.edge)],
            "drill as the pocket jig asks",
        ),
        EndKind::Bearing { length } => bare(
            format!("{what}'s ends on {on}"),
            "bearing, no screws counted".into(),
            0,
            [vec![("rests at each end for", *length)], rail_cut(ends)].concat(),
            "keep it from sliding off and from falling over",
        ),
        EndKind::Notch(notch) => in_notches(what, rail_cut(ends), notch),
        EndKind::Glue => return None,
    })
}

/// What is cut out of a rail, for a pattern.
fn rail_cut(ends: &EndJoint) -> Vec<(&'static str, Length)> {
    ends.cut.map(|cut| ("cut out of its lower edge", cut)).into_iter().collect()
}

/// Ends in the notches of their posts.
fn in_notches(what: &str, cut: Vec<(&'static str, Length)>, notch: &Notch) -> Hardware {
    let mut pattern = vec![("rests at each end for", notch.length), ("notch, into the post's thickness", notch.depth)];
    pattern.extend(cut);
    let (screw, count) = match &notch.kept_by {
        Some(keeper) => (format!("{}, none counted", keeper.what), 2 * keeper.count),
        None => ("bearing, no screws counted".into(), 0),
    };
    let no_holes = Some("keep it from sliding off and from falling over".into());
    Hardware {
        what: format!("{what}'s ends in notches of the posts"),
        screw,
        count,
        pattern,
        holes: Vec::new(),
        no_holes,
    }
}

/// The bolts of both ends of a rail or beam, with their washers and holes.
fn through(p: &Platform, what: &str, (stick, ends, bolts): (&Stick, &EndJoint, &Bolts)) -> Hardware {
    let joint = bolted(stick, ends, bolts);
    let mut pattern = vec![("its edges to the nearest bolt", ends.edge)];
    if bolts.count > 1 {
        pattern.push(("bolt to bolt", joint.spacing));
    }
    pattern.push(("its end to the bolts", ends.end));
    pattern.push(("post's edges to the bolts", bolts.post.width / 2.0));
    let rated = capacity::rules(p).bolted(joint);
    if let Ok(least) = rated.least(BoltSpot::PostTop) {
        pattern.push(("the upper bolt to the post's top, at least", least.value));
    }
    pattern.push(("washers under head and nut, across", bolts.bolt.washer.across));
    pattern.push(("washers, thickness", bolts.bolt.washer.thickness));
    let [least, most] = rated.hole();
    let source = least.as_step().map(|s| format!("{}, {}", s.citation, s.citation.seen)).unwrap_or_default();
    let hole = Hole { place: "through both pieces", diameter: [least.value, most.value], source };
    Hardware {
        what: format!("{what} to posts"),
        screw: format!("bolt {}, nut, 2 washers", bolts.bolt.designation),
        count: 2 * bolts.count,
        pattern,
        holes: vec![hole],
        no_holes: None,
    }
}
