//! The worst demand on every member in one case, found over all its positions, where slats rest on two
//! supports.
//!
//! Dead load acts in every case. What it does is worked out once and added to what people do at each
//! position. Reactions and shears of the slats and everything along the sides come out exact at every
//! position; moments and deflections of a slat are bounded closely first, and worked out only where the
//! bound exceeds what was met already.

use super::CheckError;
use super::borne::{Borne, Candidate, Met};
use super::capacity::{self, Actions, Factors};
use super::envelope::{Asked, CaseEnvelope, LinePeaks, SlatPeaks, exceeds, raise};
use super::influence::Influence;
use super::model::{CLEATS, Framing, RAILS};
use super::press::Press;
use super::probe::{Most, Probe};
use crate::load::{Case, CaseKind, Dead, Position, Strips};
use crate::platform::Platform;
use crate::statics::{Load, On, Placed};

/// Every position of every case on one platform.
pub(super) struct Sweep<'a> {
    p: &'a Platform,
    f: &'a Framing,
    asked: Asked,
    dead_slats: Vec<Load>,
    dead_probes: Vec<Probe>,
    dead_most: Vec<Most>,
    /// None where they are not asked for.
    sides: Vec<Influence>,
    actions: Actions,
    press: Press,
    met: Vec<Met>,
    candidates: Vec<Candidate>,
    loads: Vec<Load>,
    reactions: Vec<f64>,
}

/// The dead load on each slat: its own weight, and mattress and bedding over its strip.
pub(super) fn dead_on_slats(p: &Platform, dead: &Dead) -> Vec<Load> {
    let [from, to] = p.slat_ends().map(|y| y.value);
    (0..p.slats.count)
        .map(|i| {
            let [a, b] = p.strip(i);
            // What lies beyond the slat's ends presses on the slat all the same.
            let whole = p.width.value / (to - from);
            let q = (dead.cover * (b - a)).value * whole + dead.slat.value;
            Load::Spread { from, to, start: q, end: q }
        })
        .collect()
}

/// The dead load of everything, member by member: slats, then lines.
pub(super) fn dead_on_all(p: &Platform, own: &[f64], slats: &[Load]) -> Vec<Placed> {
    let slats = slats.iter().enumerate().map(|(i, load)| Placed { on: On::Crossbeam(i), load: *load });
    let even = |q: f64| Load::Spread { from: 0.0, to: p.length.value, start: q, end: q };
    let lines = own.iter().enumerate().map(|(line, q)| Placed { on: On::Line(line), load: even(*q) });
    slats.chain(lines).collect()
}

/// All loads of a position on the frame, each times its factor.
pub(super) fn loads_at(p: &Platform, dead: &Dead, position: &Position, factors: Factors) -> Vec<Placed> {
    let mut own = vec![dead.rail[0].value, dead.cleat[0].value, dead.cleat[1].value, dead.rail[1].value];
    own.extend(p.centre_beam.iter().map(|_| dead.centre_beam.value));
    let mut out = dead_on_all(p, &own, &dead_on_slats(p, dead));
    let by = |load: Load, factor: f64| match load {
        Load::Point { at, force } => Load::Point { at, force: factor * force },
        Load::Spread { from, to, start, end } => Load::Spread { from, to, start: factor * start, end: factor * end },
    };
    out.iter_mut().for_each(|l| l.load = by(l.load, factors.permanent));
    for patch in &position.patches {
        Strips::of(p).share(patch, &mut |i, load| {
            out.push(Placed { on: On::Crossbeam(i), load: by(load, factors.variable) });
        });
    }
    out
}

impl<'a> Sweep<'a> {
    pub(super) fn new(p: &'a Platform, f: &'a Framing, dead: &Dead, asked: Asked) -> Result<Self, CheckError> {
        let dead_slats = dead_on_slats(p, dead);
        let own = [dead.rail[0].value, dead.cleat[0].value, dead.cleat[1].value, dead.rail[1].value];
        let all = dead_on_all(p, &own, &dead_slats);
        f.grillage.admit(&all)?;
        let actions = capacity::rules(p).actions();
        let side = |s| Influence::of(p, f, s, &all, [own[RAILS[s]], own[CLEATS[s]]], &actions);
        let sides = if asked.sides { vec![side(0), side(1)] } else { Vec::new() };
        let probe = |load: &Load| Probe::of(&f.slat, std::slice::from_ref(load));
        let dead_probes: Vec<Probe> = dead_slats.iter().map(probe).collect::<Result<_, _>>()?;
        let dead_most = dead_probes.iter().map(|dead| dead.most(&f.slat)).collect();
        Ok(Sweep {
            p,
            f,
            asked,
            dead_slats,
            dead_probes,
            dead_most,
            sides,
            actions,
            press: Press::new(Strips::of(p), f.slat, p.slats.count),
            met: Vec::new(),
            candidates: Vec::new(),
            loads: Vec::new(),
            reactions: Vec::new(),
        })
    }

    /// The lesser dead reaction of each slat's two ends.
    pub(super) fn dead_reactions(&self) -> Vec<f64> {
        self.dead_probes.iter().map(|d| d.reactions()).map(|[a, b]| a.min(b)).collect()
    }

    /// Runs every position of a case. Demands on strength that these other cases exceed, which count as this
    /// one's do, decide nothing and may be left out.
    pub(super) fn case(&mut self, case: &Case, others: &[&CaseEnvelope]) -> CaseEnvelope {
        let mut out = CaseEnvelope::new(self.p, self.f);
        self.candidates.clear();
        self.press.clear();
        self.met.clear();
        self.met.extend((0..self.p.slats.count).map(|i| Met::in_others(i, others)));
        self.sides.iter_mut().for_each(Influence::clear);
        let (slats, sides) = (self.asked.slats && case.use_.slats, self.asked.sides && !case.use_.caution_only);
        for (k, position) in case.positions.iter().enumerate() {
            let felt = |s: &usize| sides && position.felt.by(*s);
            if !slats && !(0..2).any(|s| felt(&s)) {
                continue;
            }
            self.press.put(position);
            if slats {
                self.slats(k, position, case, &mut out.slats);
            }
            for s in (0..2).filter(felt) {
                let first = self.press.reactions(s, &mut self.reactions);
                if others.is_empty() {
                    self.sides[s].put(first, &self.reactions, k, &mut out);
                } else {
                    self.sides[s].reach(first, &self.reactions);
                }
                self.rail_sags(s, first, k, case, &mut out.lines[RAILS[s]]);
            }
        }
        for s in (0..2).filter(|_| sides && !others.is_empty()) {
            if !self.sides[s].outranked(others) {
                self.side(s, case, &mut out);
            }
        }
        self.work_out_candidates(case, &mut out.slats);
        if case.kind == CaseKind::Lying {
            self.rails_after_years(&mut out);
        }
        out
    }

    /// The slats at one position, dead load included.
    fn slats(&mut self, k: usize, position: &Position, case: &Case, peaks: &mut [SlatPeaks]) {
        let mut borne = Borne {
            span: &self.f.slat,
            actions: &self.actions,
            case,
            position: k,
            dead: &self.dead_probes,
            dead_most: &self.dead_most,
            peaks,
            met: &mut self.met,
            candidates: &mut self.candidates,
        };
        if position.patches.is_empty() {
            for slat in 0..self.dead_slats.len() {
                borne.raise(slat, &Probe::default());
            }
        } else {
            self.press.heavier(&mut borne);
        }
    }

    /// Moments and deflections of the slats wherever they may be the greatest.
    fn work_out_candidates(&mut self, case: &Case, out: &mut [SlatPeaks]) {
        let candidates = std::mem::take(&mut self.candidates);
        let at_once = self.actions.sag_of(case.kind);
        self.likely_worst_first(
            &candidates,
            |c| c.moment,
            |sweep, c| {
                let peak = &mut out[c.slat].moment;
                if c.moment > f64::NEG_INFINITY && peak.is_none_or(|p| exceeds(c.moment, p.value)) {
                    let (at, moment) = sweep.moment(c.slat, &case.positions[c.position]);
                    raise(peak, moment, c.position, Some(at));
                }
            },
        );
        if case.use_.deflection {
            self.likely_worst_first(
                &candidates,
                |c| c.sags[0],
                |sweep, c| {
                    let peak = &mut out[c.slat].deflection;
                    if peak.is_none_or(|p| exceeds(c.sags[0], p.value)) {
                        let (at, sag) = sweep.sag(c.slat, &case.positions[c.position], at_once);
                        raise(peak, sag, c.position, Some(at));
                    }
                },
            );
        }
        if case.kind == CaseKind::Lying {
            self.after_years(&candidates, case, out);
        }
        self.candidates = candidates;
    }

    /// Sags of the slats after years.
    fn after_years(&mut self, candidates: &[Candidate], case: &Case, out: &mut [SlatPeaks]) {
        let lasting = self.actions.lasting;
        if lasting == self.actions.sag {
            out.iter_mut().for_each(|peaks| peaks.lasting = peaks.deflection);
        } else {
            self.likely_worst_first(
                candidates,
                |c| c.sags[1],
                |sweep, c| {
                    let peak = &mut out[c.slat].lasting;
                    if peak.is_none_or(|p| exceeds(c.sags[1], p.value)) {
                        let (at, sag) = sweep.sag(c.slat, &case.positions[c.position], lasting);
                        raise(peak, sag, c.position, Some(at));
                    }
                },
            );
        }
        for (i, peaks) in out.iter_mut().enumerate() {
            if let Some(peak) = &mut peaks.lasting
                && let Some(at) = peak.at
                && let Ok(dead) = self.f.slat.under(&self.dead_slats[i..=i])
            {
                peak.permanent = dead.deflection(at.value);
            }
        }
    }

    /// Each slat's candidate of greatest bound, which rules out most of the others, and then all in the
    /// order of their positions.
    fn likely_worst_first(
        &mut self,
        candidates: &[Candidate],
        bound: impl Fn(&Candidate) -> f64,
        mut work_out: impl FnMut(&mut Self, &Candidate),
    ) {
        let mut first: Vec<Option<&Candidate>> = vec![None; self.p.slats.count];
        for c in candidates {
            let best = &mut first[c.slat];
            if best.is_none_or(|b| exceeds(bound(c), bound(b))) {
                *best = Some(c);
            }
        }
        for c in first.into_iter().flatten().chain(candidates) {
            work_out(self, c);
        }
    }

    /// The loads on a slat at a position, each times its factor: people's, then the dead load.
    fn load(&mut self, i: usize, position: &Position, factors: Factors) {
        self.press.on(i, &position.patches, &mut self.loads);
        let by = |load: &mut Load, factor: f64| {
            if let Load::Spread { start, end, .. } = load {
                (*start, *end) = (*start * factor, *end * factor);
            }
        };
        self.loads.iter_mut().for_each(|l| by(l, factors.variable));
        if factors.permanent > 0.0 {
            let mut dead = self.dead_slats[i];
            by(&mut dead, factors.permanent);
            self.loads.push(dead);
        }
    }

    /// The greatest moment of a slat at a position, sagging or hogging, and where it is.
    fn moment(&mut self, i: usize, position: &Position) -> (f64, f64) {
        self.load(i, position, self.actions.strength);
        let Ok(loaded) = self.f.slat.under(&self.loads) else { return (0.0, 0.0) };
        let ((x, most), (y, least)) = loaded.extreme_moment();
        if -least > most { (y, -least) } else { (x, most) }
    }

    /// The greatest deflection of a slat at a position, and where it is.
    fn sag(&mut self, i: usize, position: &Position, factors: Factors) -> (f64, f64) {
        self.load(i, position, factors);
        self.f.slat.under(&self.loads).map_or((0.0, 0.0), |loaded| loaded.extreme_deflection().0)
    }

    /// Rail, cleat, screws and supports of one side at every position.
    fn side(&mut self, s: usize, case: &Case, out: &mut CaseEnvelope) {
        for (k, position) in case.positions.iter().enumerate().filter(|(_, position)| position.felt.by(s)) {
            self.press.put(position);
            let first = self.press.reactions(s, &mut self.reactions);
            self.sides[s].put(first, &self.reactions, k, out);
        }
    }

    /// Sags of the rail of one side at the position put last.
    fn rail_sags(&mut self, s: usize, first: usize, k: usize, case: &Case, peaks: &mut LinePeaks) {
        if !case.use_.deflection {
            return;
        }
        let side = &mut self.sides[s];
        let at_once = (self.actions.sag_of(case.kind), &mut peaks.deflection);
        if case.kind == CaseKind::Lying && self.actions.lasting != self.actions.sag {
            let after_years = (self.actions.lasting, &mut peaks.lasting);
            side.raise_sags(first, &self.reactions, k, &mut [at_once, after_years]);
        } else {
            side.raise_sags(first, &self.reactions, k, &mut [at_once]);
        }
    }

    /// Of the rails' sags after years, what the dead load does alone.
    fn rails_after_years(&self, out: &mut CaseEnvelope) {
        for (s, side) in self.sides.iter().enumerate() {
            let peaks = &mut out.lines[RAILS[s]];
            if self.actions.lasting == self.actions.sag {
                peaks.lasting = peaks.deflection;
            } else if let Some(peak) = &mut peaks.lasting
                && let Some(at) = peak.at
            {
                peak.permanent = side.dead_sag(at.value);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brief::Brief;
    use crate::check::model::CENTRE;
    use crate::load::{Felt, cases};
    use crate::statics::Workspace;
    use crate::tables::Tables;

    /// Values of every peak of a case, in a fixed order.
    fn values(c: &CaseEnvelope) -> Vec<f64> {
        let slats = c.slats.iter().flat_map(|s| [&s.moment, &s.shear, &s.reaction, &s.deflection, &s.uplift]);
        let lines = c.lines.iter().flat_map(|l| [&l.moment, &l.shear, &l.deflection]);
        let after_years = c.slats.iter().map(|s| &s.lasting).chain(c.lines.iter().map(|l| &l.lasting));
        let rest = c.screws.iter().chain(&c.groups).chain(&c.supports).flatten();
        slats.chain(lines).chain(after_years).chain(rest).map(|p| p.as_ref().map_or(f64::NAN, |p| p.value)).collect()
    }

    /// The greater of each, where a peak that was not met is none.
    fn greater(all: Option<Vec<f64>>, one: Vec<f64>) -> Option<Vec<f64>> {
        Some(match all {
            None => one,
            Some(all) => all.iter().zip(one).map(|(a, b)| a.max(b)).collect(),
        })
    }

    /// Every position on both sides, every loading of every slat, each worked out exactly.
    fn without_shortcuts(sweep: &mut Sweep<'_>, case: &Case) -> Vec<f64> {
        let mut out = None;
        for position in &case.positions {
            let position = Position { felt: Felt::Both, ..position.clone() };
            let alone = Case { positions: vec![position], ..case.clone() };
            out = greater(out, values(&sweep.case(&alone, &[])));
        }
        out.unwrap_or_default()
    }

    /// One position by the grillage itself: no influence lines, no bounds, no equilibrium of our own.
    fn by_the_grillage(sweep: &Sweep<'_>, position: &Position, case: &Case, work: &mut Workspace) -> CaseEnvelope {
        let (f, actions) = (sweep.f, &sweep.actions);
        let mut out = CaseEnvelope::new(sweep.p, f);
        let strength = loads_at(sweep.p, &Dead::of(sweep.p), position, actions.strength);
        let r = f.grillage.solve(&strength, work);
        for (i, peaks) in out.slats.iter_mut().enumerate().filter(|_| case.use_.slats) {
            let own: Vec<Load> = strength.iter().filter(|l| l.on == On::Crossbeam(i)).map(|l| l.load).collect();
            let bent = f.slat.under(&own).unwrap();
            let ((_, most), (_, least)) = bent.extreme_moment();
            raise(&mut peaks.moment, most.max(-least), 0, None);
            raise(&mut peaks.shear, bent.extreme_shear().1.abs(), 0, None);
            let [a, b] = bent.reactions();
            raise(&mut peaks.reaction, a.max(b), 0, None);
        }
        // These briefs have no centre beam, the last line.
        for (line, peaks) in out.lines.iter_mut().enumerate().take(CENTRE) {
            let ((_, most), (_, least)) = r.line(line).extreme_moment();
            raise(&mut peaks.moment, most.max(-least), 0, None);
            raise(&mut peaks.shear, r.line(line).extreme_shear().1.abs(), 0, None);
        }
        for s in 0..2 {
            let (first, n) = f.links[s];
            (0..n).for_each(|j| raise(&mut out.screws[s][j], r.link_force(first + j).abs(), 0, None));
            let (first, n) = f.springs[s];
            (0..n).for_each(|j| raise(&mut out.supports[s][j], r.spring_force(first + j).abs(), 0, None));
        }
        let sags = |factors: Factors, work: &mut Workspace| -> (Vec<f64>, [f64; 2]) {
            let all = loads_at(sweep.p, &Dead::of(sweep.p), position, factors);
            let slat = |i: usize| {
                let own: Vec<Load> = all.iter().filter(|l| l.on == On::Crossbeam(i)).map(|l| l.load).collect();
                f.slat.under(&own).unwrap().extreme_deflection().0.1
            };
            let slats = (0..sweep.p.slats.count).map(slat).collect();
            let r = f.grillage.solve(&all, work);
            let rail = |line: usize| {
                let ((_, down), (_, up)) = r.line(line).extreme_deflection();
                down.abs().max(up.abs())
            };
            (slats, RAILS.map(rail))
        };
        if case.use_.deflection {
            let (slats, rails) = sags(actions.sag_of(case.kind), work);
            slats.into_iter().zip(&mut out.slats).for_each(|(w, peaks)| raise(&mut peaks.deflection, w, 0, None));
            rails.into_iter().zip(RAILS).for_each(|(w, l)| raise(&mut out.lines[l].deflection, w, 0, None));
        }
        if case.kind == CaseKind::Lying {
            let (slats, rails) = sags(actions.lasting, work);
            slats.into_iter().zip(&mut out.slats).for_each(|(w, peaks)| raise(&mut peaks.lasting, w, 0, None));
            rails.into_iter().zip(RAILS).for_each(|(w, l)| raise(&mut out.lines[l].lasting, w, 0, None));
        }
        out
    }

    const BRIEFS: [&str; 4] = [
        include_str!("../../demo/two.toml"),
        include_str!("../../demo/child.toml"),
        include_str!("../../demo/deck_ec5.toml"),
        include_str!("../../tests/speed/twenty_slats.toml"),
    ];

    fn each_brief(work: impl Fn(&Platform, &mut Sweep<'_>)) {
        for text in BRIEFS {
            let p = Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
            let framing = Framing::of(&p).unwrap_or_else(|e| panic!("{e}"));
            let mut sweep = Sweep::new(&p, &framing, &Dead::of(&p), Asked::ALL).unwrap_or_else(|e| panic!("{e}"));
            work(&p, &mut sweep);
        }
    }

    /// What is passed over never governs: the peaks of the whole sweep are those of every position
    /// worked out on its own. A side that a position hardly loads may come below its own dead load
    /// there, so peaks are compared where people add to it.
    #[test]
    fn shortcuts_lose_nothing() {
        each_brief(|p, sweep| {
            for case in cases(p).iter().filter(|c| !c.use_.caution_only) {
                let (quick, full) = (values(&sweep.case(case, &[])), without_shortcuts(sweep, case));
                for (i, (q, f)) in quick.iter().zip(&full).enumerate() {
                    assert!(
                        q.is_nan() == f.is_nan() && (f.is_nan() || *q >= f * (1.0 - 1e-9) - 1e-9),
                        "{:?} {i}: {q} {f}",
                        case.kind
                    );
                }
            }
        });
    }

    /// The peaks are those of the grillage solved afresh for every position, one by one. Those that the
    /// grillage knows nothing of (uplift, groups of screws) are left out.
    #[test]
    fn the_grillage_agrees() {
        each_brief(|p, sweep| {
            let mut work = sweep.f.grillage.workspace();
            for case in cases(p).iter().filter(|c| !c.use_.caution_only) {
                let quick = values(&sweep.case(case, &[]));
                let mut full = None;
                for position in &case.positions {
                    full = greater(full, values(&by_the_grillage(sweep, position, case, &mut work)));
                }
                for (i, (q, f)) in quick.iter().zip(full.unwrap_or_default()).enumerate() {
                    let close = (q - f).abs() <= 1e-9 * f.abs() + 1e-12;
                    assert!(close || q.is_nan() || f.is_nan(), "{:?} {i}: {q} {f}", case.kind);
                }
            }
        });
    }
}
