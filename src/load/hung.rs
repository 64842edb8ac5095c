//! What hangs on the bed's rails besides the bed: the guard and the ladder.

use super::dead::{density_of, own_weight};
use crate::brief::Edge;
use crate::platform::{Guard, Ladder, Platform, Rung};
use crate::quantity::unit::kilogram_per_cubic_metre;
use crate::quantity::{Force, Length, LineLoad, weight_of};

/// Weight of the guard and the ladder on the rails.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Hung {
    /// Spread over each rail, no less than what it does wherever it hangs.
    pub rail: [LineLoad; 2],
    /// Spread over the end rails at the head and at the foot, likewise.
    pub end_rail: [LineLoad; 2],
    /// All of it, as it is.
    pub all: Force,
}

impl Hung {
    /// What a platform's guard and ladder weigh on its rails.
    ///
    /// A guard on a long side hangs on that rail, as heavy all along as where it is unbroken. A guard across
    /// an end hangs half on each rail's end, or on the end rail. A ladder rests half on the floor and half on the rail it leads
    /// to; where along it is not said. A force `F` anywhere on a rail loads no end and bends no middle more
    /// than `2·F/L` spread over it does, so that is what it counts as.
    ///
    /// # Source
    ///
    /// Statics of a simple span.
    pub fn of(p: &Platform) -> Hung {
        let mut out = Hung::default();
        if let Some(guard) = &p.guard {
            let mut across = Force::default();
            for edge in guard.edges.iter().copied() {
                let (line, run) = guard_on(p, guard, edge);
                out.all += line * run;
                match rails_of(edge) {
                    [true, true] if p.end_rails.is_some() => out.end_rail[at_foot(edge)] += line,
                    [true, true] => across = across.max(line * run),
                    held => (0..2).filter(|s| held[*s]).for_each(|s| out.rail[s] += line),
                }
            }
            out.rail.iter_mut().for_each(|rail| *rail += across / p.length);
        }
        if let Some(ladder) = &p.ladder {
            let top = ladder_weight(ladder) / 2.0;
            out.all += top;
            let held = rails_of(ladder.edge);
            if let ([true, true], Some(e)) = (held, &p.end_rails) {
                out.end_rail[at_foot(ladder.edge)] += top * 2.0 / e.span(p);
                return out;
            }
            (0..2).filter(|s| held[*s]).for_each(|s| out.rail[s] += top * 2.0 / p.length);
        }
        out
    }
}

/// Which rails carry what hangs on an edge, left and right.
fn rails_of(edge: Edge) -> [bool; 2] {
    [edge != Edge::Right, edge != Edge::Left]
}

/// Which end an edge is at: 0 for the head.
fn at_foot(edge: Edge) -> usize {
    usize::from(edge == Edge::Foot)
}

/// What the guard on an edge weighs per length of it, and how long it is there without its opening.
pub fn guard_on(p: &Platform, guard: &Guard, edge: Edge) -> (LineLoad, Length) {
    let high = p.guard_height(guard, edge);
    let post = own_weight(&guard.posts.stick) * high;
    let mut level = own_weight(&guard.rail);
    if let Some(lower) = &guard.lower {
        level += own_weight(&lower.stick) * lower.count as f64;
    }
    if let Some(bars) = &guard.bars {
        level += own_weight(&bars.stick) * high / (bars.stick.width + bars.gap);
    }
    let runs = p.runs_of(guard).into_iter().filter(|r| r.edge == edge);
    let (mut weight, mut length) = (Force::default(), Length::default());
    for run in runs {
        let [from, to] = run.from_to;
        weight += level * (to - from) + post * run.posts.len() as f64;
        length += to - from;
    }
    (weight / length, length)
}

/// Two stringers and the rungs between them. Steel weighs 7850 kg/m³ (EN 1991-1-1 Table A.4: 77.0 to
/// 78.5 kN/m³, from memory).
pub fn ladder_weight(l: &Ladder) -> Force {
    let quarter = std::f64::consts::FRAC_PI_4;
    let rung = match &l.rung {
        Rung::Tread(s) => own_weight(s) * l.span(),
        Rung::Round(s) => weight_of(density_of(&s.wood) * (s.width * s.width * quarter * l.span())),
        Rung::Pipe(pipe) => {
            let bore = pipe.outside - pipe.wall * 2.0;
            let steel = (pipe.outside * pipe.outside - bore * bore) * quarter;
            weight_of(kilogram_per_cubic_metre(7850.0) * (steel * l.span()))
        }
    };
    own_weight(&l.stringer) * l.length() * 2.0 + rung * l.rungs().len() as f64
}
