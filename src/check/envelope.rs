//! The worst demand on every member in every case, over all positions.
//!
//! Dead load acts in every case. Its response is solved once and superposed on each position's.

use super::CheckError;
use super::influence::{Influence, SidePeaks};
use super::model::{CLEATS, Framing, RAILS};
use crate::load::{Case, CaseKind, Dead, Felt, Position, Strips};
use crate::platform::Platform;
use crate::quantity::Length;
use crate::quantity::unit::metre;
use crate::statics::{Load, On, Placed, Span, Workspace};

/// The greatest demand met so far, SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Peak {
    /// Its magnitude.
    pub(super) value: f64,
    /// The position of the case that gave it.
    pub(super) position: usize,
    /// Where along the member it is.
    pub(super) at: Option<Length>,
}

/// Whether a value is greater by more than rounding. Mirrored places give equal values up to the last
/// bits, and which of them a report names must not hang on those.
pub(super) fn exceeds(value: f64, other: f64) -> bool {
    value > other + other.abs() * 1e-9
}

/// Keeps the greater; the first of equals stays.
pub(super) fn raise(peak: &mut Option<Peak>, value: f64, position: usize, at: Option<f64>) {
    if peak.as_ref().is_none_or(|p| exceeds(value, p.value)) {
        *peak = Some(Peak { value, position, at: at.map(metre) });
    }
}

/// Worst demands on one slat.
#[derive(Clone, Debug, Default)]
pub(super) struct SlatPeaks {
    pub(super) moment: Option<Peak>,
    pub(super) shear: Option<Peak>,
    pub(super) reaction: Option<Peak>,
    /// With dead load, but for the code's uniform load without.
    pub(super) deflection: Option<Peak>,
    /// Upward force at an end, from people alone.
    pub(super) uplift: Option<Peak>,
}

/// Worst demands on one cleat or rail.
#[derive(Clone, Debug, Default)]
pub(super) struct LinePeaks {
    pub(super) moment: Option<Peak>,
    pub(super) shear: Option<Peak>,
    pub(super) deflection: Option<Peak>,
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
    /// The screws within half a rail depth to either side of screw `j`, together.
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
        let sides = [0, 1].map(|s| Influence::of(p, f, s, &dead_loads, [own(RAILS[s]), own(CLEATS[s])]));
        let (strips, work) = (Strips::of(p), f.grillage.workspace());
        Ok(Sweep { p, f, strips, dead_slats, dead_loads, sides, work })
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
                if bound.may_exceed(&dead, case, &out[i]) {
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
        all.clear();
        all.extend_from_slice(people);
        all.push(self.dead_slats[i]);
        slat(&self.f.slat, all, people.len(), k, case, out);
    }

    /// Rails, cleats, screws and supports of the sides that feel each position most.
    fn lines(&mut self, loads: &[Vec<Placed>], case: &Case, out: &mut CaseEnvelope) {
        let mut live = Vec::new();
        let mut reactions: [Vec<(usize, f64)>; 2] = Default::default();
        let mut sags: [Vec<(f64, usize)>; 2] = Default::default();
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
                    let bound = self.sides[s].deflection_bound(&live, case.kind != CaseKind::CodeUniform);
                    sags[s].push((bound, k));
                }
            }
        }
        for (s, sags) in sags.iter_mut().enumerate() {
            likely_worst_first(sags, |s| *s);
            for (bound, k) in sags {
                self.rail_deflection(RAILS[s], &loads[*k], case.kind, *bound, *k, &mut out.lines[RAILS[s]].deflection);
            }
        }
    }

    /// Deflection of a rail at one position, worked out exactly if it may be the greatest so far:
    /// everybody lying with dead load, or the uniform load alone.
    fn rail_deflection(
        &mut self,
        line: usize,
        live: &[Placed],
        kind: CaseKind,
        bound: f64,
        k: usize,
        peak: &mut Option<Peak>,
    ) {
        if peak.as_ref().is_some_and(|p| !exceeds(bound, p.value)) {
            return;
        }
        let dead: &[Placed] = if kind == CaseKind::CodeUniform { &[] } else { &self.dead_loads };
        let r = self.f.grillage.solve(&[live, dead].concat(), &mut self.work);
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

/// No less than the effects of some loads on a slat.
#[derive(Clone, Copy, Debug, Default)]
struct SlatBound {
    moment: f64,
    hogging: f64,
    /// Exact, by the lever rule.
    reactions: [f64; 2],
    deflection: f64,
}

impl SlatBound {
    /// Whether loads with this bound, with the dead load's, can exceed any peak met so far.
    fn may_exceed(&self, dead: &SlatBound, case: &Case, peaks: &SlatPeaks) -> bool {
        let over = |peak: &Option<Peak>, bound: f64| peak.as_ref().is_none_or(|p| exceeds(bound, p.value));
        let reaction = (0..2).map(|e| self.reactions[e] + dead.reactions[e]).fold(0.0, f64::max);
        let [a, b] = self.reactions;
        let sag = if case.kind == CaseKind::CodeUniform { self.deflection } else { self.deflection + dead.deflection };
        over(&peaks.moment, (self.moment + dead.moment).max(self.hogging + dead.hogging))
            || over(&peaks.shear, reaction)
            || over(&peaks.reaction, reaction)
            || over(&peaks.uplift, -a.min(b))
            || (case.use_.deflection && over(&peaks.deflection, sag))
    }
}

/// Ends and intensity of an even line load.
fn stretch(load: &Load) -> ([f64; 2], f64) {
    match *load {
        Load::Spread { from, to, start, .. } => ([from, to], start),
        Load::Point { at, force } => ([at, at], force),
    }
}

/// Adds a load to those on a slat; two on the same stretch become one.
fn add_stretch(loads: &mut Vec<Load>, load: Load) {
    let (ends, _) = stretch(&load);
    match (loads.iter_mut().find(|l| stretch(l).0 == ends), load) {
        (Some(Load::Spread { start, end, .. }), Load::Spread { start: s, end: e, .. }) => {
            *start += s;
            *end += e;
        }
        (Some(Load::Point { force, .. }), Load::Point { force: f, .. }) => *force += f,
        _ => loads.push(load),
    }
}

/// Greatest bound first; of bounds alike but for rounding, the earlier position, so that what a report
/// names does not hang on last bits.
fn likely_worst_first<T>(all: &mut [T], of: impl Fn(&T) -> (f64, usize)) {
    let greatest = all.iter().map(|t| of(t).0).fold(f64::MIN_POSITIVE, f64::max);
    all.sort_by_key(|t| {
        let (bound, position) = of(t);
        (std::cmp::Reverse((bound / greatest * 1e9).round() as i64), position)
    });
}

/// What lies on a slat at one position.
struct Loading {
    position: usize,
    loads: Vec<Load>,
    /// A number that differs, as good as always, when the stretches do.
    stretches: u64,
}

/// Keeps the loadings of a slat that no other exceeds on the same stretches; the first of equals stays.
fn keep_heaviest(kept: &mut Vec<Loading>, position: usize, loads: &[Load]) {
    let mix = |sum: u64, x: f64| (sum ^ x.to_bits()).wrapping_mul(0x9E37_79B9_7F4A_7C15).rotate_left(29);
    let stretches = loads.iter().flat_map(|l| stretch(l).0).fold(0, mix);
    for other in kept.iter_mut().filter(|other| other.stretches == stretches) {
        let pairs = || other.loads.iter().zip(loads).map(|(a, b)| (stretch(a), stretch(b)));
        if other.loads.len() != loads.len() || pairs().any(|(a, b)| a.0 != b.0) {
            continue;
        }
        if pairs().all(|(a, b)| a.1 >= b.1) {
            return;
        }
        if pairs().all(|(a, b)| a.1 <= b.1) {
            other.position = position;
            other.loads.clear();
            other.loads.extend_from_slice(loads);
            return;
        }
    }
    kept.push(Loading { position, loads: loads.to_vec(), stretches });
}

fn slat_of(l: &Placed) -> usize {
    match l.on {
        On::Crossbeam(i) | On::Line(i) => i,
    }
}

/// Demands of one slat under its loads: the first `people` of them are people, the last is dead.
fn slat(span: &Span, loads: &[Load], people: usize, k: usize, case: &Case, out: &mut SlatPeaks) {
    let Ok(all) = span.under(loads) else { return };
    let ((x, most), (y, least)) = all.extreme_moment();
    let (at, moment) = if -least > most { (y, -least) } else { (x, most) };
    raise(&mut out.moment, moment, k, Some(at));
    let (at, shear) = all.extreme_shear();
    raise(&mut out.shear, shear.abs(), k, Some(at));
    let reactions = all.reactions();
    for (end, reaction) in reactions.into_iter().enumerate() {
        raise(&mut out.reaction, reaction, k, Some(span.supports[end]));
    }
    if people == 0 {
        return;
    }
    let Ok(dead) = span.under(&loads[people..]) else { return };
    let [a, b] = dead.reactions();
    raise(&mut out.uplift, (a - reactions[0]).max(b - reactions[1]).max(0.0), k, None);
    if case.use_.deflection {
        let live = span.under(&loads[..people]).unwrap_or(all);
        let sagging = if case.kind == CaseKind::CodeUniform { &live } else { &all };
        let ((at, w), _) = sagging.extreme_deflection();
        raise(&mut out.deflection, w, k, Some(at));
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
