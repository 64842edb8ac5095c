//! What would make it pass: changes tried one by one, each by checking the changed platform.

mod beside;
mod bolts;
mod brace;
mod end_rail;

pub use beside::BesideChange;
pub use bolts::BoltChange;
pub use brace::BraceChange;
pub use end_rail::EndRailChange;

use super::trial::Trial;
use super::verdict::{Assessment, Role, Verdict};
use crate::brief::{LayWord, RuleFamily};
use crate::load::Case;
use crate::platform::{EndKind, Legs, Platform, ScrewRow, Stick};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, length_for_builder};
use crate::tables::Tables;
use crate::tables::fasteners::{Screw, ScrewKind};

/// A change to a platform.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// Slats this thick.
    SlatThickness(Length),
    /// This many slats.
    SlatCount(usize),
    /// Cleat screws at this pitch.
    ScrewPitch(Length),
    /// A cleat this size.
    Cleat(String),
    /// A rail this size.
    Rail(String),
    /// So many screws in each rail end.
    EndScrews(usize),
    /// A change to the bolts of the rails' ends.
    Bolts(BoltChange),
    /// Another screw from cleat to rail.
    CleatScrew(String),
    /// Rail ends that rest on a post or block for this length.
    EndBearing(Length),
    /// Rails that are not cut where they rest.
    Uncut,
    /// The cleat this far up the rail.
    Rise(Length),
    /// So many screws in each stud.
    StudScrews(usize),
    /// Posts this size.
    Posts(String),
    /// A mattress this thick.
    Mattress(Length),
    /// A change to the guard or the ladder.
    Beside(BesideChange),
    /// A change to the braces.
    Brace(BraceChange),
    /// A change to the end rails.
    EndRail(EndRailChange),
    /// A centre beam this size.
    CentreBeam(String),
    /// So many legs evenly under the centre beam.
    Legs(usize),
    /// Legs this size.
    LegSize(String),
}

/// Changes after which what failed passes; none when nothing that was tried is enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// The member that failed, or `None` for the whole platform.
    pub role: Option<Role>,
    /// The changes.
    pub changes: Vec<Change>,
}

impl Change {
    fn words(&self, units: UnitSystem) -> String {
        let l = |v: Length| length_for_builder(v, units);
        match self {
            Change::SlatThickness(t) => format!("slats {} thick", l(*t)),
            Change::SlatCount(n) => format!("{n} slats"),
            Change::ScrewPitch(p) => format!("cleat screws {} apart", l(*p)),
            Change::Cleat(s) => format!("{s} cleats"),
            Change::Rail(s) => format!("{s} rails"),
            Change::EndScrews(n) => format!("{n} screws in each rail end"),
            Change::Bolts(change) => change.words(units),
            Change::CleatScrew(s) => format!("cleat screws {s}"),
            Change::EndBearing(b) => format!("rail ends that rest {} on a post or block", l(*b)),
            Change::Uncut => "rails of their whole depth where they rest".into(),
            Change::Rise(r) => format!("cleats {} up from the rail's lower edge", l(*r)),
            Change::StudScrews(n) => format!("{n} screws in each stud"),
            Change::Posts(s) => format!("{s} posts"),
            Change::Mattress(t) => format!("a mattress {} thick", l(*t)),
            Change::Beside(change) => change.words(units),
            Change::Brace(change) => change.words(units),
            Change::EndRail(change) => change.words(units),
            Change::CentreBeam(s) => format!("a {s} centre beam"),
            Change::Legs(1) => "a leg under the middle of the centre beam".into(),
            Change::Legs(n) => format!("{n} legs evenly under the centre beam"),
            Change::LegSize(s) => format!("{s} legs"),
        }
    }

    /// The platform changed, or nothing when the change cannot be built.
    fn apply(&self, mut p: Platform) -> Option<Platform> {
        match self {
            Change::SlatThickness(t) => match p.slats.lay {
                LayWord::Flat => p.slats.stick = p.slats.stick.thicker(*t)?,
                LayWord::Edge => return None,
            },
            Change::SlatCount(n) => {
                let gap = (p.length - p.slats.breadth() * *n as f64) / (*n as f64 - 1.0);
                if gap < millimetre(5.0) {
                    return None;
                }
                p.slats.count = *n;
                p.slats.gap = gap;
            }
            Change::ScrewPitch(pitch) => {
                for side in &mut p.sides {
                    let r = &side.screws;
                    side.screws = ScrewRow::over(p.length, r.screw.clone(), *pitch, r.first, r.up);
                }
            }
            Change::Cleat(size) => {
                let full = p.slats.bearing == p.sides[0].cleat.thickness;
                for side in &mut p.sides {
                    side.cleat = side.cleat.bought(size)?;
                    if side.cleat.width > side.rail.stick.width || side.screws.screw.length <= side.cleat.thickness {
                        return None;
                    }
                    let r = &side.screws;
                    let up = side.cleat.width / 2.0;
                    side.screws = ScrewRow::over(p.length, r.screw.clone(), r.pitch, r.first, up);
                    side.rise = (side.rail.stick.width - side.cleat.width) / 2.0;
                }
                if full {
                    p.slats.bearing = p.sides[0].cleat.thickness;
                }
            }
            Change::Rail(size) => {
                for side in &mut p.sides {
                    let old = side.rail.stick.width;
                    side.rail.stick = side.rail.stick.bought(size)?;
                    side.rise = (side.rise + (side.rail.stick.width - old) / 2.0).max(Length::default());
                    if let Some(e) = &mut side.rail.ends {
                        e.edge *= (side.rail.stick.width / old).value;
                        if let EndKind::Bolts(bolts) = &e.kind
                            && !bolts.fit(&side.rail.stick)
                        {
                            return None;
                        }
                    }
                }
            }
            Change::EndScrews(n) => {
                for side in &mut p.sides {
                    let depth = side.rail.stick.width;
                    let Some(e) = &mut side.rail.ends else { continue };
                    match &mut e.kind {
                        EndKind::SideGrain { count, .. }
                        | EndKind::EndGrain { count, .. }
                        | EndKind::Pocket { count, .. } => *count = *n,
                        EndKind::Bolts(_) | EndKind::Bearing { .. } | EndKind::Notch(_) | EndKind::Glue => return None,
                    }
                    e.edge = depth / (*n as f64 + 1.0);
                }
            }
            Change::CleatScrew(designation) => {
                for side in &mut p.sides {
                    let fasteners = Tables::embedded().fasteners();
                    let old = &side.screws.screw;
                    let mut screw = match old.kind {
                        ScrewKind::Wood => fasteners.screw(designation).ok()?,
                        ScrewKind::Lag => fasteners.lag(designation).ok()?,
                    };
                    // What is declared of a screw holds for its diameter, whatever its length.
                    if screw.diameter == old.diameter {
                        screw.declared = old.declared.clone();
                    }
                    side.screws.screw = screw;
                }
            }
            // Nothing holds such an end against what a brace does to it.
            Change::EndBearing(_) if p.bracing.knees.is_some() || p.bracing.diagonals.is_some() => return None,
            Change::EndBearing(b) => {
                for side in &mut p.sides {
                    if let Some(e) = &mut side.rail.ends {
                        match &mut e.kind {
                            EndKind::Notch(notch) => notch.length = *b,
                            other => *other = EndKind::Bearing { length: *b },
                        }
                    }
                }
            }
            Change::Uncut => {
                let ends = p.sides.iter_mut().filter_map(|s| s.rail.ends.as_mut());
                if ends.filter_map(|e| e.cut.take()).count() == 0 {
                    return None;
                }
            }
            Change::Rise(r) => {
                for side in &mut p.sides {
                    if *r + side.cleat.width > side.rail.stick.width {
                        return None;
                    }
                    side.rise = *r;
                }
            }
            Change::Mattress(t) => p.mattress.thickness = *t,
            Change::CentreBeam(size) => {
                let beam = p.centre_beam.as_mut()?;
                let old = beam.stick.width;
                beam.stick = beam.stick.bought(size)?;
                beam.ends.edge *= (beam.stick.width / old).value;
            }
            Change::Legs(n) => p.centre_beam.as_mut()?.legs.as_mut()?.positions = Legs::evenly(*n, p.length),
            Change::LegSize(size) => {
                let legs = p.centre_beam.as_mut()?.legs.as_mut()?;
                legs.stick = legs.stick.bought(size)?;
            }
            Change::Posts(size) => {
                let posts = p.posts.as_mut()?;
                posts.stick = posts.stick.bought(size)?;
                bolts::through_posts(&mut p)?;
            }
            Change::StudScrews(n) => {
                for side in &mut p.sides {
                    let depth = side.rail.stick.width;
                    if let Some(studs) = &mut side.rail.studs {
                        studs.count = *n;
                        studs.up = depth / (*n as f64 + 1.0);
                    }
                }
            }
            Change::Bolts(change) => change.apply(&mut p)?,
            Change::Beside(change) => change.apply(&mut p)?,
            Change::Brace(change) => change.apply(&mut p)?,
            Change::EndRail(change) => change.apply(&mut p)?,
        }
        end_rail::carries_rails(&p)?;
        Some(p)
    }
}

impl Remedy {
    /// The change as a sentence.
    pub fn sentence(&self, units: UnitSystem) -> String {
        let words: Vec<String> = self.changes.iter().map(|c| c.words(units)).collect();
        match self.role {
            Some(Role::Opening) if words.is_empty() => "for the openings: no change of size that was tried is enough; \
                draw what the rules above ask for"
                .into(),
            Some(role) if words.is_empty() => {
                format!("for the {}: no change of size, number or spacing that was tried is enough", several(role))
            }
            Some(role) => format!("for the {}: {}", several(role), words.join(" and ")),
            None => format!("for the whole platform: {}", words.join(", ")),
        }
    }
}

/// All members of a role, of which there may be only one.
fn several(role: Role) -> String {
    let ending = if matches!(role, Role::CentreBeam | Role::Platform) { "" } else { "s" };
    format!("{}{ending}", role.name())
}

/// Candidate changes for a role, smallest first.
fn candidates(role: Role, p: &Platform) -> Vec<Change> {
    let mut out = Vec::new();
    match role {
        Role::Slat => {
            let step = match p.units {
                UnitSystem::Us => inch(0.125),
                UnitSystem::Metric => millimetre(2.0),
            };
            let first = (p.slats.stick.thickness.value / step.value).floor() as usize + 1;
            out.extend((first..first + 24).map(|k| Change::SlatThickness(step * k as f64)));
            out.extend((p.slats.count + 1..=p.slats.count * 2).map(Change::SlatCount));
        }
        Role::Cleat => {
            out.extend(pitches(p));
            out.extend(sizes(p, &["2x2", "2x3", "2x4", "2x6"], &METRIC_CLEATS).map(|s| Change::Cleat(s.into())));
        }
        Role::CleatScrew => {
            out.extend(longer_screws(p));
            out.extend(pitches(p));
            out.extend(sizes(p, &["2x3", "2x4", "2x6"], &METRIC_CLEATS).map(|s| Change::Cleat(s.into())));
        }
        Role::Rail => {
            let spare = p.sides[0].rail.stick.width - p.sides[0].cleat.width;
            out.extend((1..=8).map(|k| Change::Rise(spare * (k as f64 / 8.0))).filter(|c| match c {
                Change::Rise(r) => *r > p.sides[0].rise,
                _ => false,
            }));
            out.extend(deeper(p));
        }
        Role::EndJoint => {
            out.extend((2..=8).map(Change::EndScrews));
            out.extend(bolts::candidates(p).into_iter().map(Change::Bolts));
            out.push(Change::Uncut);
            out.extend([1.5, 2.5, 3.5].map(|b| Change::EndBearing(inch(b))));
            out.extend(deeper(p));
        }
        Role::StudScrew => out.extend((2..=4).map(Change::StudScrews)),
        Role::Opening => {
            out.extend((p.slats.count + 1..=p.slats.count * 2).map(Change::SlatCount));
            out.extend(super::opening::thickest(p).map(Change::Mattress));
        }
        Role::Post => out.extend(sizes(p, &["4x4", "4x6"], &METRIC_POSTS).map(|s| Change::Posts(s.into()))),
        Role::CentreBeam => {
            let now = p.centre_beam.as_ref().map_or(0, |b| b.legs.as_ref().map_or(0, |l| l.positions.len()));
            out.extend((now + 1..=now + 3).map(Change::Legs));
            let all = sizes(p, &["2x6", "2x8", "4x6", "4x8", "4x10"], &METRIC_RAILS);
            let now = p.centre_beam.as_ref().map(|b| &b.stick);
            out.extend(larger(now, all).into_iter().map(Change::CentreBeam));
        }
        Role::Leg => {
            out.extend(sizes(p, &["2x4", "4x4", "4x6"], &METRIC_POSTS).map(|s| Change::LegSize(s.into())));
        }
        Role::Platform => {}
        Role::EndRail => out.extend(end_rail::sized(p).into_iter().map(Change::EndRail)),
        Role::EndRailJoint => out.extend(end_rail::joints(p).into_iter().map(Change::EndRail)),
        Role::Brace => out.extend(brace::candidates(p).into_iter().map(Change::Brace)),
        _ => out.extend(beside::candidates(role, p).into_iter().map(Change::Beside)),
    }
    out
}

/// Metric stock to try for cleats, smallest first.
const METRIC_CLEATS: [&str; 6] = ["45x45 mm", "45x70 mm", "60x60 mm", "45x95 mm", "60x100 mm", "45x145 mm"];

/// Metric stock to try for rails, smallest first.
const METRIC_RAILS: [&str; 10] = [
    "45x145 mm",
    "45x170 mm",
    "45x195 mm",
    "45x220 mm",
    "60x180 mm",
    "60x200 mm",
    "60x240 mm",
    "80x200 mm",
    "80x240 mm",
    "100x240 mm",
];

/// Metric stock to try for posts, smallest first.
const METRIC_POSTS: [&str; 4] = ["80x80 mm", "100x100 mm", "100x120 mm", "120x120 mm"];

/// Stock to try: metric where a strength class is asked for, or where the rail was bought so.
fn sizes<'s>(
    p: &Platform,
    us: &'s [&'static str],
    metric: &'s [&'static str],
) -> impl Iterator<Item = &'static str> + use<'s> {
    let named = p.sides[0].rail.stick.stock.as_ref();
    let bought_metric = named.is_some_and(|s| s.ends_with("mm"));
    let all = if p.rules == RuleFamily::LimitState || bought_metric { metric } else { us };
    all.iter().copied()
}

/// Of these sizes those with more wood than a stick has now.
fn larger(now: Option<&Stick>, sizes: impl Iterator<Item = &'static str>) -> Vec<String> {
    let Some(now) = now else { return Vec::new() };
    let more = |s: &&str| now.bought(s).is_some_and(|r| r.width * r.thickness > now.width * now.thickness);
    sizes.filter(more).map(String::from).collect()
}

/// From one screw to the next longer one sold: half an inch, or a centimetre.
fn longer_by(screw: &Screw) -> Length {
    longer_by_of(screw.designation.ends_with("mm"))
}

fn longer_by_of(metric: bool) -> Length {
    if metric { millimetre(10.0) } else { inch(0.5) }
}

/// A screw of this size and length, as it is asked for.
fn called(size: &str, length: Length, like: &Screw) -> String {
    let units = if like.designation.ends_with("mm") { UnitSystem::Metric } else { UnitSystem::Us };
    format!("{size} x {}", length_for_builder(length, units))
}

/// Thicker screws of the usual lengths that stay inside the rail.
fn better_screws(p: &Platform) -> Vec<Change> {
    let side = &p.sides[0];
    let (screw, room) = (&side.screws.screw, side.cleat.thickness + side.rail.stick.thickness + millimetre(0.01));
    let metric = screw.designation.ends_with("mm");
    let sizes: &[(&str, f64)] = match screw.kind {
        ScrewKind::Wood if metric => &[("4", 4.0 / 25.4), ("5", 5.0 / 25.4), ("6", 6.0 / 25.4), ("8", 8.0 / 25.4)],
        ScrewKind::Wood => &[("#8", 0.164), ("#10", 0.19), ("#12", 0.216), ("#14", 0.242)],
        ScrewKind::Lag => &[("1/4", 0.25), ("5/16", 0.3125), ("3/8", 0.375)],
    };
    let mut out = longer_screws(p);
    for (size, _) in sizes.iter().filter(|(_, d)| inch(*d) > screw.diameter + millimetre(0.01)) {
        let lengths = (0..=8).rev().map(|k| screw.length + longer_by(screw) * f64::from(k)).filter(|l| *l <= room);
        out.extend(lengths.take(1).map(|l| Change::CleatScrew(called(size, l, screw))));
    }
    out
}

/// The cleat's screws a step longer, and so on, as long as they stay inside the rail.
fn longer_screws(p: &Platform) -> Vec<Change> {
    let side = &p.sides[0];
    let (screw, room) = (&side.screws.screw, side.cleat.thickness + side.rail.stick.thickness + millimetre(0.01));
    let Some((size, _)) = screw.designation.split_once(" x ") else { return Vec::new() };
    let lengths = (1..=8).map(|k| screw.length + longer_by(screw) * f64::from(k)).filter(|l| *l <= room);
    lengths.map(|l| Change::CleatScrew(called(size, l, screw))).collect()
}

fn pitches(p: &Platform) -> Vec<Change> {
    let now = p.sides[0].screws.pitch;
    let all: Vec<Length> = match p.units {
        UnitSystem::Us => (2..=16).rev().map(|k| inch(f64::from(k))).collect(),
        UnitSystem::Metric => (5..=40).rev().map(|k| millimetre(10.0 * f64::from(k))).collect(),
    };
    all.into_iter().filter(|v| *v < now).map(Change::ScrewPitch).collect()
}

fn deeper(p: &Platform) -> Vec<Change> {
    let now = p.sides[0].rail.stick.width;
    sizes(p, &["2x6", "2x8", "2x10", "2x12", "4x6", "4x8", "4x10", "4x12"], &METRIC_RAILS)
        .filter(|s| {
            p.sides[0].rail.stick.bought(s).is_some_and(|r| {
                r.width >= now && r.width * r.thickness > p.sides[0].rail.stick.width * p.sides[0].rail.stick.thickness
            })
        })
        .map(|s| Change::Rail(s.into()))
        .collect()
}

pub(super) fn failing(a: &Assessment) -> Vec<Role> {
    let mut roles: Vec<Role> = a.members.iter().filter(|m| m.verdict() == Verdict::Fail).map(|m| m.role).collect();
    roles.sort_unstable();
    roles.dedup();
    roles
}

/// Changes to try for a role: single ones first; for cleat screws then a better screw set closer, then
/// the same in a deeper cleat.
pub(super) fn tries(role: Role, p: &Platform) -> [Vec<Vec<Change>>; 3] {
    let single = candidates(role, p).into_iter().map(|c| vec![c]).collect();
    if role != Role::CleatScrew {
        return [single, Vec::new(), Vec::new()];
    }
    let mut pairs = Vec::new();
    for screw in better_screws(p) {
        pairs.extend(pitches(p).into_iter().map(|pitch| vec![screw.clone(), pitch]));
    }
    let deeper = sizes(p, &["2x4"], &["45x95 mm"]).next().unwrap_or("2x4");
    let deeper = pairs.iter().map(|pair| [&[Change::Cleat(deeper.into())], pair.as_slice()].concat()).collect();
    [single, pairs, deeper]
}

/// A platform with several changes, one after the other.
pub(super) fn changed(p: &Platform, changes: &[Change]) -> Option<Platform> {
    changes.iter().try_fold(p.clone(), |q, c| c.apply(q))
}

/// The smallest change that helps each failing role, and all of them together if that makes the
/// whole platform pass.
pub(super) fn find(p: &Platform, cases: &[Case], a: &Assessment) -> Vec<Remedy> {
    let mut out: Vec<Remedy> = Vec::new();
    let mut all: Option<(Platform, Vec<Change>)> = Some((p.clone(), Vec::new()));
    for role in failing(a) {
        let trial = Trial::new(p, cases, a, role);
        let mut kinds = Vec::new();
        let before = out.len();
        for stage in tries(role, p) {
            // Several changes at once only where fewer are not enough.
            if out.len() > before {
                break;
            }
            for changes in stage {
                let kind: Vec<_> = changes.iter().map(std::mem::discriminant).collect();
                if !kinds.contains(&kind) && changed(p, &changes).is_some_and(|q| trial.passes(&q)) {
                    kinds.push(kind);
                    out.push(Remedy { role: Some(role), changes });
                }
            }
        }
        all = all.and_then(|so_far| combined(so_far, role, out.get(before), &trial, p));
        if out.len() == before {
            out.push(Remedy { role: Some(role), changes: Vec::new() });
        }
    }
    if let Some((q, changes)) = all
        && changes.len() > 1
        && super::check(&q).is_ok_and(|a| failing(&a).is_empty())
    {
        out.push(Remedy { role: None, changes });
    }
    out
}

/// Adds what helps a role to the platform so far, trying it again there.
fn combined(
    (q, mut so_far): (Platform, Vec<Change>),
    role: Role,
    first: Option<&Remedy>,
    trial: &Trial<'_>,
    p: &Platform,
) -> Option<(Platform, Vec<Change>)> {
    let own = first.map(|r| r.changes.clone());
    if so_far.is_empty() {
        // Nothing is changed yet: what helped alone helps, and nothing else was found to.
        let changes = own?;
        return Some((changed(&q, &changes)?, changes));
    }
    if trial.passes(&q) {
        return Some((q, so_far));
    }
    for changes in own.into_iter().chain(tries(role, p).into_iter().flatten()) {
        if let Some(r) = changed(&q, &changes)
            && trial.passes(&r)
        {
            so_far.extend(changes);
            return Some((r, so_far));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::Brief;
    use crate::platform::WoodChoice;
    use crate::quantity::unit::psi;

    const DEMO: &str = include_str!("../../demo/two.toml");

    fn with_rails(wood: &str, size: &str) -> Platform {
        let (before, after) = DEMO.split_once("[rails]").expect("rails");
        let mut lines: Vec<String> = after.lines().map(String::from).collect();
        for line in &mut lines {
            if line.starts_with("wood") {
                *line = format!("wood = \"{wood}\"");
            } else if line.starts_with("size") {
                *line = format!("size = \"{size}\"");
            }
        }
        let low = |line: &str| if line.starts_with("rise") { "rise = \"1 in\"".into() } else { line.to_owned() };
        let before: Vec<String> = before.lines().map(low).collect();
        let text = format!("{}\n[rails]{}", before.join("\n"), lines.join("\n"));
        Platform::build(&Brief::read(&text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}\n{text}"))
    }

    fn bending(p: &Platform) -> Option<f64> {
        match &p.sides[0].rail.stick.wood {
            WoodChoice::Graded { values, .. } => Some(values.bending / psi(1.0)).map(|r| r.value),
            _ => None,
        }
    }

    /// Southern pine No. 2 has a value for each width: 2x6 1000, 2x8 925, 2x10 800, 2x12 750 psi (NDS
    /// Supplement 2015 Table 4B, from memory).
    #[test]
    fn values_go_with_the_size() {
        let p = with_rails("southern pine no2", "2x6");
        assert_eq!(bending(&p).map(f64::round), Some(1000.0));
        for (size, fb) in [("2x8", 925.0), ("2x10", 800.0), ("2x12", 750.0)] {
            let q = Change::Rail(size.into()).apply(p.clone()).expect("a row for this size");
            assert_eq!(bending(&q).map(f64::round), Some(fb), "{size}");
            let fresh = with_rails("southern pine no2", size);
            assert_eq!(bending(&q), bending(&fresh), "{size}");
        }
    }

    /// Stud grade reaches to 6 in of width (NDS Supplement Table 4A): nothing wider is suggested, and a
    /// metric size too goes by the nominal one that holds it.
    #[test]
    fn sizes_without_values_are_passed_over() {
        let p = with_rails("spruce-pine-fir stud", "2x6");
        assert!(Change::Rail("2x8".into()).apply(p.clone()).is_none());
        assert!(Change::Rail("45x220 mm".into()).apply(p.clone()).is_none());
        assert!(Change::Rail("4x6".into()).apply(p.clone()).is_some());
        let tried: Vec<Change> = deeper(&p);
        assert!(
            tried.contains(&Change::Rail("4x6".into())) && !tried.contains(&Change::Rail("2x10".into())),
            "{tried:?}"
        );
    }
}
