//! The thinnest slats against the sleepers' weight, as a chart.

use super::chart::{Axis, Chart, Course, Mark};
use super::say::printable;
use crate::choose::{Choice, Made, Thinnest};
use crate::platform::Platform;
use crate::quantity::{Length, Mass, UnitSystem, length_for_builder};

/// The chart: a line a wood, and the choice marked at the heaviest sleeper of the brief.
pub fn chart(p: &Platform, lines: &[Thinnest], chosen: Option<&Choice>) -> Chart {
    let units = p.units;
    let weights = lines.iter().flat_map(|l| l.points.iter().map(|(m, _)| *m));
    let heaviest = p.sleepers.iter().map(|s| s.mass).fold(Mass::default(), Mass::max);
    let most = weights.clone().fold(heaviest, Mass::max);
    let least = weights.fold(heaviest, Mass::min);
    let marked = chosen.map(|c| (heaviest, c.made.depth()));
    let found = lines.iter().flat_map(|l| l.points.iter().filter_map(|(_, t)| *t));
    let thickest = found.chain(marked.map(|(_, t)| t)).fold(Length::default(), Length::max);
    let thickest = if thickest > Length::default() { thickest } else { p.slats.stick.thickness };
    let width = length_for_builder(p.slats.stick.width, units);
    Chart {
        title: format!("{}: the thinnest slats that pass, {width} wide", printable(&p.title)),
        description: description(lines, units),
        x: Axis::masses("weight of each sleeper", units, [least, most]),
        y: Axis::lengths("thinnest slat", units, [Length::default(), thickest * 1.1]),
        courses: lines.iter().map(course).collect(),
        mark: marked
            .map(|(m, t)| Mark { at: [m.value, t.value], name: format!("chosen: {}", length_for_builder(t, units)) }),
    }
}

/// A wood's line, broken where no thickness passes.
fn course(line: &Thinnest) -> Course {
    let mut stretches: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
    for (mass, thickness) in &line.points {
        match (thickness, stretches.last_mut()) {
            (Some(t), Some(stretch)) => stretch.push([mass.value, t.value]),
            _ => stretches.push(Vec::new()),
        }
    }
    stretches.retain(|s| !s.is_empty());
    Course { name: line.wood.clone(), stretches }
}

fn description(lines: &[Thinnest], units: UnitSystem) -> String {
    let mut out = vec!["Every sleeper weighs the same; everything else is as in the brief.".to_owned()];
    for line in lines {
        let found = |p: &(Mass, Option<Length>)| p.1.map(|t| (p.0, t));
        let (first, last) = (line.points.iter().find_map(found), line.points.iter().rev().find_map(found));
        let at =
            |(m, t): (Mass, Length)| format!("{} at {}", length_for_builder(t, units), super::answer::weight(m, units));
        out.push(match (first, last) {
            (Some(a), Some(b)) => format!("{}: {}, {}.", line.wood, at(a), at(b)),
            _ => format!("{}: no thickness passes.", line.wood),
        });
    }
    out.join(" ")
}

/// Whether the choice has a place on such a chart: slats that lie flat.
pub fn charted(c: &Choice) -> bool {
    matches!(c.made, Made::Sticks { lay: crate::brief::LayWord::Flat, .. })
}
