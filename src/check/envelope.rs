//! The worst demand on every member in every case, over all positions.
//!
//! Dead load acts in every case. Its response is solved once and superposed on each position's.

use super::CheckError;
use super::model::{CLEATS, Framing, RAILS};
use crate::load::{Case, CaseKind, Dead, Position, Strips};
use crate::platform::Platform;
use crate::quantity::Length;
use crate::quantity::unit::metre;
use crate::statics::{Load, On, Placed, Response, Span, Workspace};

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

/// Keeps the greater; the first of equals stays.
fn raise(peak: &mut Option<Peak>, value: f64, position: usize, at: Option<f64>) {
    if peak.as_ref().is_none_or(|p| value > p.value) {
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
    /// The screws within one rail depth around screw `j`, together.
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

/// What the dead load does to one line, station by station.
struct DeadLine {
    moment: Vec<f64>,
    shear: Vec<[f64; 2]>,
    x: Vec<f64>,
    /// Own weight per metre, which bends the line between stations.
    weight: f64,
}

struct Sweep<'a> {
    p: &'a Platform,
    f: &'a Framing,
    strips: Strips,
    dead_slats: Vec<Load>,
    dead_loads: Vec<Placed>,
    dead_lines: Vec<DeadLine>,
    dead_links: Vec<f64>,
    dead_springs: Vec<f64>,
    /// For each side and screw, the screws that act with it.
    groups: [Vec<std::ops::Range<usize>>; 2],
    work: Workspace,
}

impl<'a> Sweep<'a> {
    fn new(p: &'a Platform, f: &'a Framing, dead: &Dead) -> Result<Self, CheckError> {
        let [from, to] = p.slat_ends().map(|y| y.value);
        let dead_slats: Vec<Load> = (0..p.slats.count)
            .map(|i| {
                let [a, b] = p.strip(i);
                let q = (dead.cover * (b - a) + dead.slat).value;
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
        let mut work = f.grillage.workspace();
        let r = f.grillage.solve(&dead_loads, &mut work);
        let dead_lines = (0..4)
            .map(|l| {
                let stations: Vec<_> = r.line(l).stations().collect();
                DeadLine {
                    moment: stations.iter().map(|s| s.moment).collect(),
                    shear: stations.iter().map(|s| [s.shear_left, s.shear_right]).collect(),
                    x: stations.iter().map(|s| s.x).collect(),
                    weight: own(l),
                }
            })
            .collect();
        let last = |(first, n): (usize, usize)| first + n;
        let dead_links = (0..last(f.links[1])).map(|k| r.link_force(k)).collect();
        let dead_springs = (0..last(f.springs[1])).map(|k| r.spring_force(k)).collect();
        let groups = [0, 1].map(|s| {
            let half = p.sides[s].rail.stick.width / 2.0;
            let xs = &p.sides[s].screws.positions;
            xs.iter()
                .map(|x| {
                    let first = xs.partition_point(|y| *y < *x - half);
                    first..xs.partition_point(|y| *y <= *x + half)
                })
                .collect()
        });
        let strips = Strips::of(p);
        Ok(Sweep { p, f, strips, dead_slats, dead_loads, dead_lines, dead_links, dead_springs, groups, work })
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
            for (k, placed) in loads.iter().enumerate() {
                self.slats(k, placed, case, &mut out.slats);
            }
        }
        if !case.use_.caution_only {
            self.lines(&loads, &mut out);
        }
        if case.use_.deflection {
            self.line_deflections(&loads, case.kind, &mut out);
        }
        out
    }

    /// A position's loads, gathered slat by slat.
    fn placed(&self, position: &Position) -> Vec<Placed> {
        let mut out = Vec::with_capacity(8 * position.patches.len());
        for patch in &position.patches {
            self.strips.share(patch, &mut |i, load| out.push(Placed { on: On::Crossbeam(i), load }));
        }
        out.sort_by_key(|l| slat_of(l));
        out
    }

    /// Moments, shears, reactions and deflections of the slats under a position, dead load included.
    fn slats(&self, k: usize, placed: &[Placed], case: &Case, out: &mut [SlatPeaks]) {
        let mut loads: Vec<Load> = Vec::with_capacity(16);
        let quiet = placed.is_empty();
        let touched = placed.chunk_by(|a, b| slat_of(a) == slat_of(b));
        let all: Vec<(usize, &[Placed])> = if quiet {
            (0..out.len()).map(|i| (i, placed)).collect()
        } else {
            touched.map(|c| (slat_of(&c[0]), c)).collect()
        };
        for (i, live) in all {
            loads.clear();
            loads.extend(live.iter().map(|l| l.load));
            let people = loads.len();
            loads.push(self.dead_slats[i]);
            slat(&self.f.slat, &loads, people, k, case, &mut out[i]);
        }
    }

    fn lines(&mut self, loads: &[Vec<Placed>], out: &mut CaseEnvelope) {
        let slices: Vec<&[Placed]> = loads.iter().map(Vec::as_slice).collect();
        let mut work = std::mem::take(&mut self.work);
        self.f.grillage.solve_each(&slices, &mut work, &mut |k, r| {
            for (line, peaks) in out.lines.iter_mut().enumerate() {
                self.line(r, line, k, peaks);
            }
            for s in 0..2 {
                self.screws(r, s, k, &mut out.screws[s], &mut out.groups[s]);
                let (first, n) = self.f.springs[s];
                for j in 0..n {
                    let force = r.spring_force(first + j) + self.dead_springs[first + j];
                    raise(&mut out.supports[s][j], force, k, None);
                }
            }
        });
        self.work = work;
    }

    /// Moment and shear of a line with dead load: people's moments run straight between stations,
    /// the line's own weight bows them by at most `w·h²/8`, and only where that could matter is the
    /// exact extreme worked out.
    fn line(&self, r: &Response<'_>, line: usize, k: usize, peaks: &mut LinePeaks) {
        let dead = &self.dead_lines[line];
        let live = r.line(line);
        let (mut m_most, mut v_most) = ((0.0, 0usize), (0.0, 0usize));
        let mut before = 0.0f64;
        let current = peaks.moment.map_or(0.0, |p| p.value);
        for i in 0..dead.x.len() {
            let m = live.moment_at(i) + dead.moment[i];
            if m.abs() > m_most.0 {
                m_most = (m.abs(), i);
            }
            let v_right = live.shear_right_of(i) + dead.shear[i][1];
            let v_left = if i == 0 { 0.0 } else { live.shear_right_of(i - 1) + dead.shear[i][0] };
            let v = if v_left.abs() > v_right.abs() { v_left.abs() } else { v_right.abs() };
            if v > v_most.0 {
                v_most = (v, i);
            }
            if i > 0 {
                let h = dead.x[i] - dead.x[i - 1];
                let bow = dead.weight * h * h / 8.0;
                if before.max(m) + bow > current.max(m_most.0) {
                    let v0 = live.shear_right_of(i - 1) + dead.shear[i - 1][1];
                    let u = v0 / dead.weight;
                    if u > 0.0 && u < h {
                        let inner = before + v0 * u / 2.0;
                        raise(&mut peaks.moment, inner, k, Some(dead.x[i - 1] + u));
                    }
                }
            }
            before = m;
        }
        raise(&mut peaks.moment, m_most.0, k, Some(dead.x[m_most.1]));
        raise(&mut peaks.shear, v_most.0, k, Some(dead.x[v_most.1]));
    }

    fn screws(&self, r: &Response<'_>, s: usize, k: usize, screws: &mut [Option<Peak>], groups: &mut [Option<Peak>]) {
        let (first, n) = self.f.links[s];
        let force = |j: usize| r.link_force(first + j) + self.dead_links[first + j];
        for j in 0..n {
            raise(&mut screws[j], force(j).abs(), k, None);
            let together: f64 = self.groups[s][j].clone().map(force).sum();
            raise(&mut groups[j], together.abs(), k, None);
        }
    }

    /// Deflections of the rails: everybody lying with dead load, or the uniform load alone.
    fn line_deflections(&mut self, loads: &[Vec<Placed>], kind: CaseKind, out: &mut CaseEnvelope) {
        let mut work = std::mem::take(&mut self.work);
        for (k, live) in loads.iter().enumerate() {
            let mut all = live.clone();
            if kind != CaseKind::CodeUniform {
                all.extend_from_slice(&self.dead_loads);
            }
            let r = self.f.grillage.solve(&all, &mut work);
            for line in RAILS {
                let ((x, most), (y, least)) = r.line(line).extreme_deflection();
                let (at, value) = if least.abs() > most.abs() { (y, least.abs()) } else { (x, most.abs()) };
                raise(&mut out.lines[line].deflection, value, k, Some(at));
            }
        }
        self.work = work;
    }
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
    for (end, reaction) in all.reactions().into_iter().enumerate() {
        raise(&mut out.reaction, reaction, k, Some(span.supports[end]));
    }
    if people > 0
        && let Ok(live) = span.under(&loads[..people])
    {
        let [a, b] = live.reactions();
        raise(&mut out.uplift, -a.min(b), k, None);
        if case.use_.deflection {
            let sagging = if case.kind == CaseKind::CodeUniform { &live } else { &all };
            let ((at, w), _) = sagging.extreme_deflection();
            raise(&mut out.deflection, w, k, Some(at));
        }
    }
}
