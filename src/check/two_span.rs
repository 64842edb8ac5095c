//! The sweep where slats lie over a centre beam too.
//!
//! Such a slat leans on its neighbours through the beam and may part from what does not hold it, so no
//! position is a sum of others: each is solved as a whole, dead load included, and the peaks are those of
//! the exact solutions.

use std::ops::Range;

use super::CheckError;
use super::capacity::{self, Actions, Factors};
use super::envelope::{CaseEnvelope, Peak, SlatPeaks, raise};
use super::model::{CENTRE, Framing, MIDDLE, RAILS};
use super::sweep::{dead_on_all, dead_on_slats};
use crate::load::{Case, CaseKind, Dead, Position, Strips};
use crate::platform::Platform;
use crate::statics::{AtRest, Load, On, Placed, Response, StaticsError, Workspace};

/// Every position of every case on a platform with a centre beam.
pub(super) struct TwoSpans<'a> {
    p: &'a Platform,
    f: &'a Framing,
    strips: Strips,
    dead_slats: Vec<Load>,
    dead_loads: Vec<Placed>,
    actions: Actions,
    /// For each side's screws, each with those after it within one rail depth.
    groups: [Vec<Range<usize>>; 2],
}

/// What solving needs: people times their factor, the frame under the dead load times each of its own, and the
/// statics' buffers.
struct Solver<'a> {
    f: &'a Framing,
    dead: &'a [Placed],
    people: Vec<Placed>,
    at_rest: Vec<(f64, AtRest)>,
    work: Workspace,
}

impl<'a> TwoSpans<'a> {
    /// The platform at rest, ready for its cases.
    ///
    /// # Errors
    ///
    /// [`CheckError::Statics`] for loads that do not stand on the frame.
    pub(super) fn new(p: &'a Platform, f: &'a Framing, dead: &Dead) -> Result<Self, CheckError> {
        let dead_slats = dead_on_slats(p, dead);
        let own = [dead.rail[0], dead.cleat[0], dead.cleat[1], dead.rail[1], dead.centre_beam].map(|q| q.value);
        let dead_loads = dead_on_all(p, &own, &dead_slats);
        f.grillage.admit(&dead_loads)?;
        let groups = [0, 1].map(|s| {
            let (xs, depth) = (&p.sides[s].screws.positions, p.sides[s].rail.stick.width);
            (0..xs.len()).map(|j| j..xs.partition_point(|y| *y <= xs[j] + depth)).collect()
        });
        Ok(TwoSpans {
            p,
            f,
            strips: Strips::of(p),
            dead_slats,
            dead_loads,
            actions: capacity::rules(p).actions(),
            groups,
        })
    }

    /// The lesser dead reaction of each slat's two ends, were there no beam.
    pub(super) fn dead_reactions(&self) -> Vec<f64> {
        self.dead_slats.iter().map(|load| lever(&[*load], self.f.slat.supports)).map(|[a, b]| a.min(b)).collect()
    }

    /// Runs every position of a case.
    ///
    /// # Errors
    ///
    /// [`StaticsError::Unsettled`] when the contacts of loose slats cannot be settled.
    pub(super) fn case(&self, case: &Case) -> Result<CaseEnvelope, CheckError> {
        let TwoSpans { p, f, strips, actions, groups, .. } = self;
        let mut solver = Solver::new(f, &self.dead_loads);
        let mut out = CaseEnvelope::new(p, f);
        let at_once = actions.sag_of(case.kind);
        let lasts = case.kind == CaseKind::Lying;
        let mut solve = |people: &[Placed], factors, each: &mut dyn FnMut(&Response<'_>)| {
            solver.solve(people, factors).map(|r| r.as_ref().map(each).is_some())
        };
        for (k, position) in case.positions.iter().enumerate() {
            let people = placed(strips, position);
            if case.use_.slats && !p.slats.fixed {
                tipping(&people, f.slat.supports, actions.strength.variable, k, &mut out);
            }
            let now = case.use_.deflection && at_once == actions.strength;
            let stands = solve(&people, actions.strength, &mut |r| {
                strength(p, f, case, groups, k, r, &mut out);
                if now {
                    sags(k, r, &mut out, Sag::AtOnce);
                }
            })?;
            if !stands || !case.use_.deflection {
                continue;
            }
            if !now {
                solve(&people, at_once, &mut |r| sags(k, r, &mut out, Sag::AtOnce))?;
            }
            if lasts && actions.lasting != actions.sag {
                solve(&people, actions.lasting, &mut |r| sags(k, r, &mut out, Sag::Lasting))?;
            }
        }
        if lasts {
            if actions.lasting == actions.sag {
                peaks(&mut out).for_each(|[at_once, lasting]| *lasting = *at_once);
            }
            solve(&[], Factors::WHOLE, &mut |r| permanent(r, &mut out))?;
        }
        Ok(out)
    }
}

impl<'a> Solver<'a> {
    fn new(f: &'a Framing, dead: &'a [Placed]) -> Self {
        Solver { f, dead, people: Vec::new(), at_rest: Vec::new(), work: f.grillage.workspace() }
    }

    /// People and dead load, each times its factor. Nothing where a loose slat tips over its last support:
    /// the check against its lifting says so.
    fn solve(&mut self, people: &[Placed], factors: Factors) -> Result<Option<Response<'_>>, StaticsError> {
        times(people, factors.variable, &mut self.people);
        let known = match self.at_rest.iter().position(|(factor, _)| *factor == factors.permanent) {
            Some(k) => k,
            None => {
                let mut dead = Vec::with_capacity(self.dead.len());
                times(self.dead, factors.permanent, &mut dead);
                self.at_rest.push((factors.permanent, self.f.grillage.at_rest(&dead)?));
                self.at_rest.len() - 1
            }
        };
        match self.f.grillage.solve_upon(&self.at_rest[known].1, &self.people, &mut self.work) {
            Ok(r) => Ok(Some(r)),
            Err(StaticsError::Tips { .. }) => Ok(None),
            Err(e) => Err(e),
        }
    }
}

/// Loads times a factor; none where it is nothing.
fn times(loads: &[Placed], factor: f64, out: &mut Vec<Placed>) {
    out.clear();
    let kept = loads.iter().filter(|_| factor > 0.0);
    out.extend(kept.map(|l| Placed { on: l.on, load: scaled(&l.load, factor) }));
}

/// A load times a factor.
fn scaled(load: &Load, by: f64) -> Load {
    match *load {
        Load::Point { at, force } => Load::Point { at, force: by * force },
        Load::Spread { from, to, start, end } => Load::Spread { from, to, start: by * start, end: by * end },
    }
}

/// A position's loads, gathered slat by slat.
fn placed(strips: &Strips, position: &Position) -> Vec<Placed> {
    let mut out = Vec::with_capacity(8 * position.patches.len());
    for patch in &position.patches {
        strips.share(patch, &mut |i, load| out.push(Placed { on: On::Crossbeam(i), load }));
    }
    out.sort_by_key(slat_of);
    out
}

fn slat_of(l: &Placed) -> usize {
    match l.on {
        On::Crossbeam(i) | On::Line(i) => i,
    }
}

/// What even loads on a slat press on its two cleats, by the lever rule.
fn lever<'l>(loads: impl IntoIterator<Item = &'l Load>, [left, right]: [f64; 2]) -> [f64; 2] {
    let (mut sum, mut about_right) = (0.0, 0.0);
    for load in loads {
        let ((from, to), force) = (load.extent(), load.force());
        sum += force;
        about_right += force * (right - 0.5 * (from + to));
    }
    let first = about_right / (right - left);
    [first, sum - first]
}

/// What people do to lift an end of a loose slat, by the lever rule over its outer supports.
fn tipping(people: &[Placed], supports: [f64; 2], factor: f64, k: usize, out: &mut CaseEnvelope) {
    for own in people.chunk_by(|a, b| slat_of(a) == slat_of(b)) {
        let [left, right] = lever(own.iter().map(|l| &l.load), supports);
        raise(&mut out.slats[slat_of(&own[0])].uplift, (-left.min(right) * factor).max(0.0), k, None);
    }
}

fn strength(
    p: &Platform,
    f: &Framing,
    case: &Case,
    groups: &[Vec<Range<usize>>; 2],
    k: usize,
    r: &Response<'_>,
    out: &mut CaseEnvelope,
) {
    if case.use_.slats {
        for (i, peaks) in out.slats.iter_mut().enumerate() {
            slat(p.slats.fixed, i, k, r, peaks);
        }
    }
    if case.use_.caution_only {
        return;
    }
    for (line, peaks) in out.lines.iter_mut().enumerate() {
        let l = r.line(line);
        let ((x, most), (y, least)) = l.extreme_moment();
        let (at, moment) = if -least > most { (y, -least) } else { (x, most) };
        raise(&mut peaks.moment, moment, k, Some(at));
        let (at, shear) = l.extreme_shear();
        raise(&mut peaks.shear, shear.abs(), k, Some(at));
    }
    for (s, groups) in groups.iter().enumerate() {
        let force = |j: usize| r.link_force(f.links[s].0 + j);
        for (j, group) in groups.iter().enumerate() {
            raise(&mut out.screws[s][j], force(j).abs(), k, None);
            raise(&mut out.groups[s][j], group.clone().map(force).sum::<f64>().abs(), k, None);
        }
    }
    for (peaks, (first, _)) in out.supports.iter_mut().zip(&f.springs) {
        for (j, peak) in peaks.iter_mut().enumerate() {
            raise(peak, r.spring_force(first + j).abs(), k, None);
        }
    }
    for (j, peak) in out.lifts.iter_mut().enumerate() {
        raise(peak, (-r.spring_force(f.springs[MIDDLE].0 + j)).max(0.0), k, None);
    }
}

/// Moment, shear and reactions of one slat, and how its ends lift or pull.
fn slat(fixed: bool, i: usize, k: usize, r: &Response<'_>, out: &mut SlatPeaks) {
    let loaded = r.crossbeam(i);
    let ((x, most), (y, least)) = loaded.extreme_moment();
    let (at, moment) = if -least > most { (y, -least) } else { (x, most) };
    raise(&mut out.moment, moment, k, Some(at));
    let (at, shear) = loaded.extreme_shear();
    raise(&mut out.shear, shear.abs(), k, Some(at));
    if let [(a, left), (b, over), (c, right)] = *loaded.support_reactions() {
        raise(&mut out.reaction, left, k, Some(a));
        raise(&mut out.over_beam, over, k, Some(b));
        raise(&mut out.reaction, right, k, Some(c));
        if fixed {
            raise(&mut out.uplift, (-left.min(right)).max(0.0), k, None);
        } else {
            raise(&mut out.lift, r.gap(i, 0).max(r.gap(i, 1)), k, None);
        }
    }
}

/// Which sag a solution is for.
#[derive(Clone, Copy)]
enum Sag {
    AtOnce,
    Lasting,
}

/// Every sag of a case, at once and after years: the slats' left and right spans in turn, then the lines.
fn peaks(out: &mut CaseEnvelope) -> impl Iterator<Item = [&mut Option<Peak>; 2]> {
    let slats = out.slats.iter_mut().flat_map(|s| {
        let [now, later] = &mut s.right_span;
        [[&mut s.deflection, &mut s.lasting], [now, later]]
    });
    slats.chain(out.lines.iter_mut().map(|l| [&mut l.deflection, &mut l.lasting]))
}

fn sags(k: usize, r: &Response<'_>, out: &mut CaseEnvelope, which: Sag) {
    let spans = 2 * out.slats.len();
    for (n, [at_once, lasting]) in peaks(out).enumerate() {
        let peak = match which {
            Sag::AtOnce => at_once,
            Sag::Lasting => lasting,
        };
        let (at, value) = if n < spans {
            r.crossbeam(n / 2).extreme_sag(n % 2)
        } else if sags_as_a_whole(n - spans) {
            let ((x, most), (y, least)) = r.line(n - spans).extreme_deflection();
            if -least > most { (y, -least) } else { (x, most) }
        } else {
            continue;
        };
        raise(peak, value, k, Some(at));
    }
}

/// Whether a line has a limit on its sag: a rail or the centre beam.
fn sags_as_a_whole(line: usize) -> bool {
    line == CENTRE || RAILS.contains(&line)
}

/// What the dead load alone does where each lasting sag is greatest.
fn permanent(r: &Response<'_>, out: &mut CaseEnvelope) {
    let spans = 2 * out.slats.len();
    for (n, [_, lasting]) in peaks(out).enumerate() {
        let Some((peak, at)) = lasting.as_mut().and_then(|p| p.at.map(|at| (p, at.value))) else { continue };
        peak.permanent =
            if n < spans { r.crossbeam(n / 2).sag_at(n % 2, at) } else { r.line(n - spans).deflection(at) };
    }
}
