//! What is tried for each role, smallest first.

use super::{Change, beside, bolts, brace, end_rail};
use crate::brief::RuleFamily;
use crate::check::verdict::Role;
use crate::platform::{Platform, Stick};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, length_for_builder};
use crate::tables::fasteners::{Screw, ScrewKind};

/// Candidate changes for a role, smallest first.
pub(super) fn candidates(role: Role, p: &Platform) -> Vec<Change> {
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
            out.extend(crate::check::opening::thickest(p).map(Change::Mattress));
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
pub(super) const METRIC_CLEATS: [&str; 6] = ["45x45 mm", "45x70 mm", "60x60 mm", "45x95 mm", "60x100 mm", "45x145 mm"];

/// Metric stock to try for rails, smallest first.
pub(super) const METRIC_RAILS: [&str; 10] = [
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
pub(super) const METRIC_POSTS: [&str; 4] = ["80x80 mm", "100x100 mm", "100x120 mm", "120x120 mm"];

/// Stock to try: metric where a strength class is asked for, or where the rail was bought so.
pub(super) fn sizes<'s>(
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
pub(super) fn larger(now: Option<&Stick>, sizes: impl Iterator<Item = &'static str>) -> Vec<String> {
    let Some(now) = now else { return Vec::new() };
    let more = |s: &&str| now.bought(s).is_some_and(|r| r.width * r.thickness > now.width * now.thickness);
    sizes.filter(more).map(String::from).collect()
}

/// From one screw to the next longer one sold: half an inch, or a centimetre.
fn longer_by(screw: &Screw) -> Length {
    longer_by_of(screw.designation.ends_with("mm"))
}

pub(super) fn longer_by_of(metric: bool) -> Length {
    if metric { millimetre(10.0) } else { inch(0.5) }
}

/// A screw of this size and length, as it is asked for.
fn called(size: &str, length: Length, like: &Screw) -> String {
    let units = if like.designation.ends_with("mm") { UnitSystem::Metric } else { UnitSystem::Us };
    format!("{size} x {}", length_for_builder(length, units))
}

/// Thicker screws of the usual lengths that stay inside the rail.
pub(super) fn better_screws(p: &Platform) -> Vec<Change> {
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

pub(super) fn pitches(p: &Platform) -> Vec<Change> {
    let now = p.sides[0].screws.pitch;
    let all: Vec<Length> = match p.units {
        UnitSystem::Us => (2..=16).rev().map(|k| inch(f64::from(k))).collect(),
        UnitSystem::Metric => (5..=40).rev().map(|k| millimetre(10.0 * f64::from(k))).collect(),
    };
    all.into_iter().filter(|v| *v < now).map(Change::ScrewPitch).collect()
}

pub(super) fn deeper(p: &Platform) -> Vec<Change> {
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
