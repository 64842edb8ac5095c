//! The worst demand on every member in every case, over all positions.
//!
//! Dead load acts in every case. Its response is solved once and superposed on each position's.

use super::CheckError;
use super::bound::{Loading, Sag, SlatBound, add_stretch, keep_heaviest, likely_worst_first};
use super::capacity::{self, Actions, Factors};
use super::influence::{Influence, SidePeaks};
use super::model::{CLEATS, Framing, RAILS};
use crate::load::{Case, CaseKind, Dead, Felt, Position, Strips};
use crate::platform::Platform;
use crate::quantity::Length;
use crate::quantity::unit::metre;
use crate::statics::{Load, Loaded, On, Placed, Span, Workspace};

/// The greatest demand met so far, SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Peak {
    /// Its magnitude.
    pub(super) value: f64,
    /// The position of the case that gave it.
    pub(super) position: usize,
    /// Where along the member it is.
    pub(super) at: Option<Length>,
    /// Of a sag: what the dead load as it is does alone there.
    pub(super) permanent: f64,
}

/// Whether a value is greater by more than rounding. Mirrored places give equal values up to the last
/// bits, and which of them a report names must not hang on those.
pub(super) fn exceeds(value: f64, other: f64) -> bool {
    value > other + other.abs() * 1e-9
}

/// Keeps the greater; the first of equals stays.
pub(super) fn raise(peak: &mut Option<Peak>, value: f64, position: usize, at: Option<f64>) {
    if peak.as_ref().is_none_or(|p| exceeds(value, p.value)) {
        *peak = Some(Peak { value, position, at: at.map(metre), permanent: 0.0 });
    }
}

/// A load times a factor.
fn scaled(load: &Load, by: f64) -> Load {
    match *load {
        Load::Point { at, force } => Load::Point { at, force: by * force },
        Load::Spread { from, to, start, end } => Load::Spread { from, to, start: by * start, end: by * end },
    }
}

/// Worst demands on one slat.
#[derive(Clone, Debug, Default)]
pub(super) struct SlatPeaks {
    pub(super) moment: Option<Peak>,
    pub(super) shear: Option<Peak>,
    pub(super) reaction: Option<Peak>,
    /// At once.
    pub(super) deflection: Option<Peak>,
    /// After years.
    pub(super) lasting: Option<Peak>,
    /// Upward force at an end, from people alone.
    pub(super) uplift: Option<Peak>,
}

/// Worst demands on one cleat or rail.
#[derive(Clone, Debug, Default)]
pub(super) struct LinePeaks {
    pub(super) moment: Option<Peak>,
    pub(super) shear: Option<Peak>,
    pub(super) deflection: Option<Peak>,
    pub(super) lasting: Option<Peak>,
}

#[derive(Clone, Debug)]
struct CaseEnvelope {
    slats: Vec<SlatPeaks>,
    lines: [LinePeaks; 4],
    screws: [Vec<Option<Peak>>; 2],
    groups: [Vec<Option<Peak>>; 2],
    supports: [Vec<Option<Peak>>; 2],
}

/// Worst demands on everything.
#[derive(Clone, Debug)]
pub(super) struct Envelope {
    cases: Vec<CaseEnvelope>,
    supports: [Vec<Length>; 2],
    dead_reactions: Vec<f64>,
}

impl Envelope {
    pub(super) fn slat(&self, case: usize, i: usize) -> &SlatPeaks {
        &self.cases[case].slats[i]
    }
    pub(super) fn line(&self, case: usize, line: usize) -> &LinePeaks {
        &self.cases[case].lines[line]
    }
    pub(super) fn screw(&self, case: usize, side: usize, j: usize) -> Option<&Peak> {
        self.cases[case].screws[side][j].as_ref()
    }
    /// Screw `j` and those after it within one rail depth, together.
    pub(super) fn group(&self, case: usize, side: usize, j: usize) -> Option<&Peak> {
        self.cases[case].groups[side][j].as_ref()
    }
    pub(super) fn support(&self, case: usize, side: usize, k: usize) -> Option<&Peak> {
        self.cases[case].supports[side][k].as_ref()
    }
    /// Where a side's rail is held.
    pub(super) fn supports(&self, side: usize) -> &[Length] {
        &self.supports[side]
    }
    /// The lesser dead reaction of a slat's two ends.
    pub(super) fn dead_reaction(&self, i: usize) -> f64 {
        self.dead_reactions[i]
    }

    /// Runs every position of every case.
    pub(super) fn run(p: &Platform, f: &Framing, dead: &Dead, cases: &[Case]) -> Result<Envelope, CheckError> {
        let mut sweep = Sweep::new(p, f, dead)?;
        let mut out = Vec::with_capacity(cases.len());
        for case in cases {
            out.push(sweep.case(case));
        }
        Ok(Envelope { cases: out, supports: f.supports.clone(), dead_reactions: sweep.dead_reactions() })
    }
}

struct Sweep<'a> {
    p: &'a Platform,
    f: &'a Framing,
    strips: Strips,
    dead_slats: Vec<Load>,
    dead_loads: Vec<Placed>,
    sides: [Influence; 2],
    actions: Actions,
    work: Workspace,
}

impl<'a> Sweep<'a> {
    fn new(p: &'a Platform, f: &'a Framing, dead: &Dead) -> Result<Self, CheckError> {
        let [from, to] = p.slat_ends().map(|y| y.value);
        let dead_slats: Vec<Load> = (0..p.slats.count)
            .map(|i| {
                let [a, b] = p.strip(i);
                // What lies beyond the slat's ends presses on the slat all the same.
                let whole = p.width.value / (to - from);
                let q = (dead.cover * (b - a)).value * whole + dead.slat.value;
                Load::Spread { from, to, start: q, end: q }
            })
            .collect();
        let mut dead_loads: Vec<Placed> =
            dead_slats.iter().enumerate().map(|(i, load)| Placed { on: On::Crossbeam(i), load: *load }).collect();
        let own = |line: usize| {
            let s = usize::from(line >= 2);
            if CLEATS.contains(&line) { dead.cleat[s].value } else { dead.rail[s].value }
        };
        for line in 0..4 {
            let q = own(line);
            let load = Load::Spread { from: 0.0, to: p.length.value, start: q, end: q };
            dead_loads.push(Placed { on: On::Line(line), load });
        }
        f.grillage.admit(&dead_loads)?;
        let actions = capacity::rules(p).actions();
        let sides =
            [0, 1].map(|s| Influence::of(p, f, s, &dead_loads, [own(RAILS[s]), own(CLEATS[s])], actions.strength));
        let (strips, work) = (Strips::of(p), f.grillage.workspace());
        Ok(Sweep { p, f, strips, dead_slats, dead_loads, sides, actions, work })
    }

    fn dead_reactions(&self) -> Vec<f64> {
        let ends = |load: &Load| self.f.slat.under(std::slice::from_ref(load)).map(|l| l.reactions());
        self.dead_slats.iter().map(|l| ends(l).map_or(0.0, |[a, b]| a.min(b))).collect()
    }

    fn case(&mut self, case: &Case) -> CaseEnvelope {
        let p = self.p;
        let screws = [0, 1].map(|s| vec![None; p.sides[s].screws.positions.len()]);
        let mut out = CaseEnvelope {
            slats: vec![SlatPeaks::default(); p.slats.count],
            lines: Default::default(),
            groups: screws.clone(),
            screws,
            supports: [0, 1].map(|s| vec![None; self.f.supports[s].len()]),
        };
        let loads: Vec<Vec<Placed>> = case.positions.iter().map(|q| self.placed(q)).collect();
        if case.use_.slats {
            self.slats(&loads, case, &mut out.slats);
        }
        if !case.use_.caution_only {
            self.lines(&loads, case, &mut out);
        }
        out
    }

    /// A position's loads, gathered slat by slat.
    fn placed(&self, position: &Position) -> Vec<Placed> {
        let mut out = Vec::with_capacity(8 * position.patches.len());
        for patch in &position.patches {
            self.strips.share(patch, &mut |i, load| out.push(Placed { on: On::Crossbeam(i), load }));
        }
        out.sort_by_key(slat_of);
        out
    }

    /// Moments, shears, reactions and deflections of the slats, dead load included.
    ///
    /// On the same stretches across, a slat's demands grow with the load on them, so of all positions
    /// that load a slat there only those are worked out that no other exceeds.
    fn slats(&self, loads: &[Vec<Placed>], case: &Case, out: &mut [SlatPeaks]) {
        let mut heaviest: Vec<Vec<Loading>> = out.iter().map(|_| Vec::new()).collect();
        let mut together: Vec<Load> = Vec::with_capacity(32);
        for (k, placed) in loads.iter().enumerate() {
            if placed.is_empty() {
                for (i, peaks) in out.iter_mut().enumerate() {
                    self.slat(i, &[], &mut together, k, case, peaks);
                }
            }
            for own in placed.chunk_by(|a, b| slat_of(a) == slat_of(b)) {
                together.clear();
                own.iter().for_each(|l| add_stretch(&mut together, l.load));
                keep_heaviest(&mut heaviest[slat_of(&own[0])], k, &together);
            }
        }
        for (i, rows) in heaviest.iter().enumerate() {
            // The likely worst first, so that most of the others can be passed over.
            let mut bounded: Vec<_> = rows.iter().map(|r| (self.bound(&r.loads), r.position, &r.loads)).collect();
            likely_worst_first(&mut bounded, |b| (b.0.moment, b.1));
            let dead = self.bound(&self.dead_slats[i..=i]);
            for (bound, k, people) in bounded {
                if bound.may_exceed(&dead, case, &self.actions, &out[i]) {
                    self.slat(i, people, &mut together, k, case, &mut out[i]);
                }
            }
        }
    }

    /// A bound on what loads do to a slat: the greatest moment of each even load alone, `F·a·b/L·(1 - c/2L)`
    /// over a length `c`, and its greatest deflection if it were gathered at its middle, where the
    /// influence of a simple span, being concave, is no less; all added as if they were at one place.
    fn bound(&self, loads: &[Load]) -> SlatBound {
        let Span { start, end, supports: [left, right], ei, .. } = self.f.slat;
        let (span, overhang) = (right - left, (left - start).max(end - right));
        let mut out = SlatBound::default();
        for load in loads {
            let force = load.force();
            let (from, to) = load.extent();
            let a = (0.5 * (from + to) - left) / span;
            let (from_in, to_in) = (from.clamp(left, right), to.clamp(left, right));
            let inside = (0.5 * (from_in + to_in) - left) / span;
            let b = inside.min(1.0 - inside);
            out.moment += force * span * inside * (1.0 - inside) * (1.0 - 0.5 * (to_in - from_in) / span);
            out.reactions[0] += force * (1.0 - a);
            out.reactions[1] += force * a;
            if from < left || to > right {
                out.hogging += force * overhang;
            }
            // A point load's greatest deflection is at most 1.027 times that at midspan.
            out.deflection += 1.03 * force * span * span * span * b * (3.0 - 4.0 * b * b) / (48.0 * ei);
        }
        out
    }

    /// Demands of one slat under people's loads and its dead load.
    fn slat(&self, i: usize, people: &[Load], all: &mut Vec<Load>, k: usize, case: &Case, out: &mut SlatPeaks) {
        let strength = self.actions.strength;
        self.together(i, people, strength, all);
        let Ok(loaded) = self.f.slat.under(all) else { return };
        slat(&loaded, k, self.f.slat.supports, out);
        if people.is_empty() {
            return;
        }
        let Ok(dead) = self.f.slat.under(&all[people.len()..]) else { return };
        let ([a, b], [left, right]) = (dead.reactions(), loaded.reactions());
        raise(&mut out.uplift, (a - left).max(b - right).max(0.0), k, None);
        if !case.use_.deflection {
            return;
        }
        let at_once = self.actions.sag_of(case.kind);
        let greatest = |loaded: &Loaded<'_>| loaded.extreme_deflection().0;
        let (at, sag) = if at_once == strength {
            greatest(&loaded)
        } else {
            self.together(i, people, at_once, all);
            let Ok(loaded) = self.f.slat.under(all) else { return };
            greatest(&loaded)
        };
        raise(&mut out.deflection, sag, k, Some(at));
        if case.kind == CaseKind::Lying {
            self.lasting(i, people, (at, sag), all, k, &mut out.lasting);
        }
    }

    /// People's loads and then the dead load on a slat, each times its factor.
    fn together(&self, i: usize, people: &[Load], factors: Factors, all: &mut Vec<Load>) {
        all.clear();
        all.extend(people.iter().map(|l| scaled(l, factors.variable)));
        if factors.permanent > 0.0 {
            all.push(scaled(&self.dead_slats[i], factors.permanent));
        }
    }

    /// A slat's sag after years; `now` is its place and amount at once.
    fn lasting(
        &self,
        i: usize,
        people: &[Load],
        now: (f64, f64),
        all: &mut Vec<Load>,
        k: usize,
        peak: &mut Option<Peak>,
    ) {
        let lasting = self.actions.lasting;
        let (mut at, mut sag) = now;
        if lasting != self.actions.sag {
            self.together(i, people, lasting, all);
            let Ok(loaded) = self.f.slat.under(all) else { return };
            (at, sag) = loaded.extreme_deflection().0;
        }
        raise(peak, sag, k, Some(at));
        if let Some(p) = peak.as_mut().filter(|p| p.position == k)
            && let Ok(dead) = self.f.slat.under(&self.dead_slats[i..=i])
        {
            p.permanent = dead.deflection(at);
        }
    }

    /// Rails, cleats, screws and supports of the sides that feel each position most.
    fn lines(&mut self, loads: &[Vec<Placed>], case: &Case, out: &mut CaseEnvelope) {
        let mut live = Vec::new();
        let mut reactions: [Vec<(usize, f64)>; 2] = Default::default();
        let at_once = self.actions.sag_of(case.kind);
        let lasting = self.actions.lasting;
        let mut sags: [Vec<Sag>; 2] = Default::default();
        for (k, placed) in loads.iter().enumerate().filter(|(k, _)| case.positions[*k].felt != Felt::Neither) {
            reactions.iter_mut().for_each(Vec::clear);
            for own in placed.chunk_by(|a, b| slat_of(a) == slat_of(b)) {
                let [left, right] = self.lever(own);
                reactions[0].push((slat_of(&own[0]), left));
                reactions[1].push((slat_of(&own[0]), right));
            }
            for s in (0..2).filter(|s| case.positions[k].felt.by(*s)) {
                self.sides[s].sum(&reactions[s], &mut live);
                let CaseEnvelope { lines, screws, groups, supports, .. } = &mut *out;
                let mut peaks =
                    SidePeaks { lines, screws: &mut screws[s], groups: &mut groups[s], supports: &mut supports[s] };
                self.sides[s].raise(&live, k, &mut peaks);
                if case.use_.deflection {
                    let now = self.sides[s].deflection_bound(&live, at_once);
                    let later = if lasting == at_once { now } else { self.sides[s].deflection_bound(&live, lasting) };
                    let bounds = [now, later];
                    sags[s].push(Sag { bounds, position: k });
                }
            }
        }
        for (s, sags) in sags.iter_mut().enumerate() {
            likely_worst_first(sags, |s| (s.bounds[0], s.position));
            let peaks = &mut out.lines[RAILS[s]];
            for sag in sags.iter() {
                let k = sag.position;
                self.rail_deflection(RAILS[s], &loads[k], at_once, sag.bounds[0], k, &mut peaks.deflection);
            }
            if case.kind == CaseKind::Lying {
                self.rail_lasting(RAILS[s], loads, sags, peaks);
            }
        }
    }

    /// Sag of a rail after years, over all positions that load it.
    fn rail_lasting(&mut self, line: usize, loads: &[Vec<Placed>], sags: &[Sag], peaks: &mut LinePeaks) {
        let lasting = self.actions.lasting;
        if lasting == self.actions.sag {
            peaks.lasting = peaks.deflection;
            return;
        }
        for sag in sags {
            let k = sag.position;
            self.rail_deflection(line, &loads[k], lasting, sag.bounds[1], k, &mut peaks.lasting);
        }
        if let Some(peak) = &mut peaks.lasting
            && let Some(at) = peak.at
        {
            let dead = self.f.grillage.solve(&self.dead_loads, &mut self.work);
            peak.permanent = dead.line(line).deflection(at.value);
        }
    }

    /// Deflection of a rail at one position, worked out exactly if it may be the greatest so far.
    fn rail_deflection(
        &mut self,
        line: usize,
        live: &[Placed],
        factors: Factors,
        bound: f64,
        k: usize,
        peak: &mut Option<Peak>,
    ) {
        if peak.as_ref().is_some_and(|p| !exceeds(bound, p.value)) {
            return;
        }
        let by = |loads: &[Placed], factor: f64| -> Vec<Placed> {
            let kept = loads.iter().filter(|_| factor > 0.0);
            kept.map(|l| Placed { on: l.on, load: scaled(&l.load, factor) }).collect()
        };
        let both = [by(live, factors.variable), by(&self.dead_loads, factors.permanent)].concat();
        let r = self.f.grillage.solve(&both, &mut self.work);
        let ((x, most), (y, least)) = r.line(line).extreme_deflection();
        let (at, value) = if least.abs() > most.abs() { (y, least.abs()) } else { (x, most.abs()) };
        raise(peak, value, k, Some(at));
    }

    /// What one slat's loads press on its two cleats, by the lever rule.
    fn lever(&self, own: &[Placed]) -> [f64; 2] {
        let [left, right] = self.f.slat.supports;
        let (mut sum, mut about_right) = (0.0, 0.0);
        for placed in own {
            let force = placed.load.force();
            let (from, to) = placed.load.extent();
            sum += force;
            about_right += force * (right - 0.5 * (from + to));
        }
        let first = about_right / (right - left);
        [first, sum - first]
    }
}

fn slat_of(l: &Placed) -> usize {
    match l.on {
        On::Crossbeam(i) | On::Line(i) => i,
    }
}

/// Moment, shear and reactions of one slat under its loads.
fn slat(loaded: &Loaded<'_>, k: usize, supports: [f64; 2], out: &mut SlatPeaks) {
    let ((x, most), (y, least)) = loaded.extreme_moment();
    let (at, moment) = if -least > most { (y, -least) } else { (x, most) };
    raise(&mut out.moment, moment, k, Some(at));
    let (at, shear) = loaded.extreme_shear();
    raise(&mut out.shear, shear.abs(), k, Some(at));
    for (end, reaction) in loaded.reactions().into_iter().enumerate() {
        raise(&mut out.reaction, reaction, k, Some(supports[end]));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::Brief;
    use crate::load::cases;
    use crate::tables::Tables;

    /// Values of every peak of a case, in a fixed order.
    fn values(c: &CaseEnvelope) -> Vec<f64> {
        let slats = c.slats.iter().flat_map(|s| [&s.moment, &s.shear, &s.reaction, &s.deflection, &s.uplift]);
        let lines = c.lines.iter().flat_map(|l| [&l.moment, &l.shear, &l.deflection]);
        let rest = c.screws.iter().chain(&c.groups).chain(&c.supports).flatten();
        slats.chain(lines).chain(rest).map(|p| p.as_ref().map_or(f64::NAN, |p| p.value)).collect()
    }

    /// Every position on both sides, every loading of every slat, each worked out exactly.
    fn without_shortcuts(sweep: &mut Sweep<'_>, case: &Case) -> Vec<f64> {
        let mut out: Option<Vec<f64>> = None;
        for position in &case.positions {
            let position = Position { felt: Felt::Both, ..position.clone() };
            let alone = Case { positions: vec![position], ..case.clone() };
            let one = values(&sweep.case(&alone));
            out = Some(match out {
                None => one,
                Some(all) => all.iter().zip(one).map(|(a, b)| a.max(b)).collect(),
            });
        }
        out.unwrap_or_default()
    }

    /// What is passed over never governs: the peaks of the whole sweep are those of every position
    /// worked out on its own. A side that a position hardly loads may come below its own dead load
    /// there, so peaks are compared where people add to it.
    #[test]
    fn shortcuts_lose_nothing() {
        for text in [include_str!("../../demo/two.toml"), include_str!("../../demo/child.toml")] {
            let p = Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
            let framing = Framing::of(&p).unwrap_or_else(|e| panic!("{e}"));
            let mut sweep = Sweep::new(&p, &framing, &Dead::of(&p)).unwrap_or_else(|e| panic!("{e}"));
            for case in cases(&p).iter().filter(|c| !c.use_.caution_only) {
                let (quick, full) = (values(&sweep.case(case)), without_shortcuts(&mut sweep, case));
                for (i, (q, f)) in quick.iter().zip(&full).enumerate() {
                    assert!(
                        q.is_nan() == f.is_nan() && (f.is_nan() || *q >= f * (1.0 - 1e-9) - 1e-9),
                        "{:?} {i}: {q} {f}",
                        case.kind
                    );
                }
            }
        }
    }
}
