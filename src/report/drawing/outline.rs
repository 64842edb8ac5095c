//! Where things stand on the platform's outline, the same for the plan and the section.

use crate::brief::{Edge, Side};
use crate::platform::{EndJoint, EndKind, LongSide, Platform, Studs};
use crate::quantity::Length;
use crate::quantity::unit::inch;

/// A side's name, as members are called by it.
pub(super) fn side_name(side: &LongSide) -> &'static str {
    match side.side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// The edge of a side.
pub(super) fn edge_of(s: usize) -> Edge {
    if s == 0 { Edge::Left } else { Edge::Right }
}

/// `-1` towards the left and the head, `1` towards the right and the foot.
pub(super) fn outwards(edge: Edge) -> f64 {
    if matches!(edge, Edge::Left | Edge::Head) { -1.0 } else { 1.0 }
}

/// A side's inner face, across from the left rail's.
pub(super) fn inner(p: &Platform, s: usize) -> Length {
    if s == 0 { Length::default() } else { p.width }
}

/// The outer face of a side's rail.
pub(super) fn outer(p: &Platform, s: usize) -> Length {
    inner(p, s) + p.sides[s].rail.stick.thickness * outwards(edge_of(s))
}

/// Two places, the lesser first.
pub(super) fn sorted(a: Length, b: Length) -> [Length; 2] {
    [a.min(b), a.max(b)]
}

/// How far a side reaches beyond the clear length at each end.
pub(super) fn beyond(p: &Platform, s: usize) -> Length {
    // A post whose size the brief does not give, where the rail stops at it.
    let block = p.end_rails.as_ref().map_or(inch(1.5), |e| e.stick.thickness);
    let lap = |e: &EndJoint| if e.lap() > Length::default() { e.lap() } else { block };
    p.sides[s].rail.ends.as_ref().map_or(Length::default(), lap)
}

/// How far the ends reach beyond the clear length: rails, end rails, and posts under or beside those.
pub(super) fn ends(p: &Platform) -> Length {
    let rails = beyond(p, 0).max(beyond(p, 1));
    let posts = posts_along(p).map_or(Length::default(), |[_, out]| out);
    let crossed = if braced_by_diagonals(p, Edge::Head) || braced_by_diagonals(p, Edge::Foot) {
        brace_thick(p)
    } else {
        Length::default()
    };
    rails.max(p.end_rails.as_ref().map_or(rails, |e| e.stick.thickness)).max(posts + crossed)
}

/// Whether crossed diagonals stand on an edge.
pub(super) fn braced_by_diagonals(p: &Platform, edge: Edge) -> bool {
    p.posts.is_some() && p.bracing.diagonals.as_ref().is_some_and(|d| d.edges.contains(&edge))
}

/// How thick the diagonals are.
pub(super) fn brace_thick(p: &Platform) -> Length {
    p.bracing.diagonals.as_ref().map_or(Length::default(), |d| d.stick.thickness)
}

/// Across the end rails: from end to end, with the laps on what holds them.
pub(super) fn end_rails_across(p: &Platform) -> Option<[Length; 2]> {
    let e = p.end_rails.as_ref()?;
    let lap = e.ends.lap();
    Some([outer(p, 0) - e.inset - lap, outer(p, 1) + e.inset + lap])
}

/// From the clear length's end out: to the inner face and the outer face of the posts there.
pub(super) fn posts_along(p: &Platform) -> Option<[Length; 2]> {
    let posts = p.posts.as_ref()?;
    let wide = posts.stick.width;
    let middle = match &p.end_rails {
        // Beside an end rail they are taken to stand inside it; under one, below its middle.
        Some(e) if e.ends.kind.beside_the_post() => -(wide / 2.0),
        Some(e) => e.stick.thickness / 2.0,
        None => {
            let held = p.sides.iter().find_map(|s| s.rail.ends.as_ref()).map_or(Length::default(), EndJoint::beyond);
            if held > Length::default() { held } else { wide / 2.0 }
        }
    };
    Some([middle - wide / 2.0, middle + wide / 2.0])
}

/// How far a guard on an edge stands out: its posts, and the top rail on their outer side.
pub(super) fn guard_on(p: &Platform, edge: Edge) -> Length {
    let guard = p.guard.as_ref().filter(|g| g.edges.contains(&edge));
    guard.map_or(Length::default(), |g| g.posts.stick.thickness + g.rail.thickness)
}

/// How far a ladder on an edge stands out at the floor.
pub(super) fn ladder_on(p: &Platform, edge: Edge) -> Length {
    let ladder = p.ladder.as_ref().filter(|l| l.edge == edge);
    ladder.map_or(Length::default(), |l| l.out + l.stringer.width)
}

/// How far anything stands out from the outer face of what the edge is made of.
pub(super) fn standing_out(p: &Platform, edge: Edge) -> Length {
    guard_on(p, edge).max(ladder_on(p, edge))
}

/// From where to where the ladder stands along its edge, over its stringers: in the guard's opening if that is
/// there, else in the middle.
pub(super) fn ladder_place(p: &Platform) -> Option<[Length; 2]> {
    let ladder = p.ladder.as_ref()?;
    let whole = p.extent(ladder.edge);
    let mut runs: Vec<[Length; 2]> =
        p.guard_runs().into_iter().filter(|r| r.edge == ladder.edge).map(|r| r.from_to).collect();
    runs.sort_by(|a, b| a[0].value.total_cmp(&b[0].value));
    let zero = Length::default();
    let mut from = zero;
    let mut middle = whole / 2.0;
    for run in runs.iter().chain([&[whole, whole]]) {
        if run[0] > from {
            middle = (from + run[0]) / 2.0;
        }
        from = run[1];
    }
    let half = ladder.width / 2.0 + ladder.stringer.thickness;
    Some([middle - half, middle + half])
}

/// Across a side's posts, and whether they stand beside the rail rather than under it.
pub(super) fn posts_across(p: &Platform, s: usize) -> Option<([Length; 2], bool)> {
    let (posts, ends) = (p.posts.as_ref()?, p.sides[s].rail.ends.as_ref()?);
    if let Some(e) = &p.end_rails {
        // The end rail's clear length ends at the post, or where it begins to rest on it.
        let face = outer(p, s) + e.inset * outwards(edge_of(s));
        let across = sorted(face, face + posts.stick.thickness * outwards(edge_of(s)));
        return Some((across, e.ends.kind.beside_the_post()));
    }
    // A rail screwed to its post's side stands inside it; one that rests on it or meets it is above it.
    let beside = ends.kind.beside_the_post();
    let face = match &ends.kind {
        _ if beside => outer(p, s),
        EndKind::Notch(notch) => outer(p, s) - notch.depth * outwards(edge_of(s)),
        _ => inner(p, s),
    };
    Some((sorted(face, face + posts.stick.thickness * outwards(edge_of(s))), beside))
}

/// How far a side's posts stand out beyond the outer face of its rail.
pub(super) fn post_beyond(p: &Platform, s: usize) -> Length {
    let Some(([a, b], _)) = posts_across(p, s) else { return Length::default() };
    let reach = if s == 0 { outer(p, s) - a } else { b - outer(p, s) };
    reach.max(Length::default())
}

/// How far the end rails' ends reach beyond the outer face of the side rails.
pub(super) fn end_rail_beyond(p: &Platform) -> Length {
    p.end_rails.as_ref().map_or(Length::default(), |e| e.inset + e.ends.lap())
}

/// How far the wall's studs, and the screws into them, reach beyond the outer face of a side's rail.
pub(super) fn wall_beyond(p: &Platform, s: usize) -> Length {
    let side = &p.sides[s];
    let reach = |studs: &Studs| (studs.gap + inch(1.5)).max(studs.screw.length - side.rail.stick.thickness);
    side.rail.studs.as_ref().map(reach).unwrap_or_default()
}
