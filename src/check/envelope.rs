//! The worst demand on every member in every case, over all positions: what is kept of them. How it is
//! found is [`Sweep`]'s.

use rayon::prelude::*;

use super::CheckError;
use super::capacity::Factors;
use super::model::{Framing, MIDDLE};
use super::sweep::{Sweep, loads_at};
use super::two_span::TwoSpans;
use crate::load::{Case, CaseKind, Dead, cases_of};
use crate::platform::Platform;
use crate::quantity::Length;
use crate::quantity::unit::metre;

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

/// The position of a peak that no single place of the people gives.
pub(super) const NOWHERE: usize = usize::MAX;

/// Whether a value is greater by more than rounding. Mirrored places give equal values up to the last
/// bits, and which of them a report names must not hang on those.
pub(super) fn exceeds(value: f64, other: f64) -> bool {
    value > to_exceed(other)
}

/// What a value must be above to exceed another.
pub(super) fn to_exceed(other: f64) -> f64 {
    other + other.abs() * 1e-9
}

/// Keeps the greater; the first of equals stays.
pub(super) fn raise(peak: &mut Option<Peak>, value: f64, position: usize, at: Option<f64>) {
    if peak.as_ref().is_none_or(|p| exceeds(value, p.value)) {
        *peak = Some(Peak { value, position, at: at.map(metre), permanent: 0.0 });
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
    /// Upward force at an end, from people alone; on a centre beam, the pull on what holds the end down.
    pub(super) uplift: Option<Peak>,
    /// What it presses on a centre beam with.
    pub(super) over_beam: Option<Peak>,
    /// Sag of the right one of two spans at once and after years; `deflection` and `lasting` are the left one's.
    pub(super) right_span: [Option<Peak>; 2],
    /// How far an end rises.
    pub(super) lift: Option<Peak>,
}

/// Worst demands on one cleat or rail.
#[derive(Clone, Debug, Default)]
pub(super) struct LinePeaks {
    pub(super) moment: Option<Peak>,
    pub(super) shear: Option<Peak>,
    pub(super) deflection: Option<Peak>,
    pub(super) lasting: Option<Peak>,
}

/// What the worst demands are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Asked {
    pub(super) slats: bool,
    /// Rails, cleats, screws and supports.
    pub(super) sides: bool,
}

impl Asked {
    pub(super) const ALL: Asked = Asked { slats: true, sides: true };
    pub(super) const SLATS: Asked = Asked { slats: true, sides: false };
    pub(super) const SIDES: Asked = Asked { slats: false, sides: true };
}

/// Worst demands on everything in one case; of pairs, the left side's first.
#[derive(Clone, Debug)]
pub(super) struct CaseEnvelope {
    pub(super) slats: Vec<SlatPeaks>,
    /// Rails, cleats and the centre beam.
    pub(super) lines: [LinePeaks; 5],
    pub(super) screws: [Vec<Option<Peak>>; 2],
    /// Each screw with those after it within one rail depth.
    pub(super) groups: [Vec<Option<Peak>>; 2],
    /// Of the rails and the centre beam.
    pub(super) supports: [Vec<Option<Peak>>; 3],
    /// How hard the centre beam pulls each of its supports up.
    pub(super) lifts: Vec<Option<Peak>>,
}

impl CaseEnvelope {
    /// Nothing met yet.
    pub(super) fn new(p: &Platform, f: &Framing) -> CaseEnvelope {
        let screws = [0, 1].map(|s| vec![None; p.sides[s].screws.positions.len()]);
        CaseEnvelope {
            slats: vec![SlatPeaks::default(); p.slats.count],
            lines: Default::default(),
            groups: screws.clone(),
            screws,
            supports: [0, 1, 2].map(|s| vec![None; f.supports[s].len()]),
            lifts: vec![None; f.supports[MIDDLE].len()],
        }
    }
}

/// Worst demands on everything.
#[derive(Clone, Debug)]
pub(super) struct Envelope {
    cases: Vec<CaseEnvelope>,
    supports: [Vec<Length>; 3],
    dead_reactions: Vec<f64>,
    /// What the dead load as it is does to the supports, where an end rail asks for it.
    dead_supports: [Vec<f64>; 3],
}

/// What the dead load as it is does to each support of the rails and the centre beam.
fn dead_supports(p: &Platform, f: &Framing, dead: &Dead, asked: Asked) -> Result<[Vec<f64>; 3], CheckError> {
    if p.end_rails.is_none() || !asked.sides {
        return Ok(Default::default());
    }
    let still = cases_of(p, &|kind| kind == CaseKind::Dead);
    let Some(position) = still.first().and_then(|case| case.positions.first()) else { return Ok(Default::default()) };
    let loads = loads_at(p, dead, position, Factors::WHOLE);
    let mut work = f.grillage.workspace();
    let r = match p.centre_beam {
        Some(_) => f.grillage.solve_lifting(&loads, &[], &mut work)?,
        None => f.grillage.solve(&loads, &mut work),
    };
    Ok(f.springs.map(|(first, n)| (first..first + n).map(|j| r.spring_force(j)).collect()))
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
    /// How hard the centre beam pulls its support `k` up.
    pub(super) fn lift(&self, case: usize, k: usize) -> Option<&Peak> {
        self.cases[case].lifts[k].as_ref()
    }
    /// What the dead load as it is does to a support, on a platform with end rails.
    pub(super) fn dead_support(&self, side: usize, k: usize) -> f64 {
        self.dead_supports[side][k]
    }
    /// Where a side's rail, or the centre beam, is held.
    pub(super) fn supports(&self, side: usize) -> &[Length] {
        &self.supports[side]
    }
    /// The lesser dead reaction of a slat's two ends.
    pub(super) fn dead_reaction(&self, i: usize) -> f64 {
        self.dead_reactions[i]
    }

    /// The slats' demands part of the way from this envelope's to another's, in the same cases, of slats that
    /// sag so many times as far as each. Of cleats, screws and rails it says nothing.
    pub(super) fn between(&self, other: &Envelope, part: f64, sags: [f64; 2]) -> Envelope {
        let on_line = |a: f64, b: f64| a + part * (b - a);
        let peak = |a: &Option<Peak>, b: &Option<Peak>, [of_a, of_b]: [f64; 2]| match (a, b) {
            (Some(a), Some(b)) => Some(Peak {
                value: on_line(of_a * a.value, of_b * b.value),
                permanent: on_line(of_a * a.permanent, of_b * b.permanent),
                ..*a
            }),
            (a, b) => a.or(*b),
        };
        let slat = |a: &SlatPeaks, b: &SlatPeaks| {
            let force = |of: fn(&SlatPeaks) -> &Option<Peak>| peak(of(a), of(b), [1.0; 2]);
            let sag = |of: fn(&SlatPeaks) -> &Option<Peak>| peak(of(a), of(b), sags);
            SlatPeaks {
                moment: force(|s| &s.moment),
                shear: force(|s| &s.shear),
                reaction: force(|s| &s.reaction),
                deflection: sag(|s| &s.deflection),
                lasting: sag(|s| &s.lasting),
                uplift: force(|s| &s.uplift),
                over_beam: force(|s| &s.over_beam),
                right_span: [sag(|s| &s.right_span[0]), sag(|s| &s.right_span[1])],
                lift: sag(|s| &s.lift),
            }
        };
        let case = |(a, b): (&CaseEnvelope, &CaseEnvelope)| CaseEnvelope {
            slats: a.slats.iter().zip(&b.slats).map(|(a, b)| slat(a, b)).collect(),
            lines: Default::default(),
            screws: Default::default(),
            groups: Default::default(),
            supports: Default::default(),
            lifts: Default::default(),
        };
        let dead = self.dead_reactions.iter().zip(&other.dead_reactions);
        Envelope {
            cases: self.cases.iter().zip(&other.cases).map(case).collect(),
            supports: Default::default(),
            dead_reactions: dead.map(|(a, b)| on_line(*a, *b)).collect(),
            dead_supports: Default::default(),
        }
    }

    /// This one with what was asked of another on the same platform in the same cases.
    pub(super) fn joined(mut self, other: Envelope, asked: Asked) -> Envelope {
        for (own, mut other) in self.cases.iter_mut().zip(other.cases) {
            let slats = std::mem::take(if asked.slats { &mut other.slats } else { &mut own.slats });
            if asked.sides {
                *own = other;
            }
            own.slats = slats;
        }
        if asked.sides {
            self.dead_supports = other.dead_supports;
        }
        self
    }

    /// Every case worked out by itself, also where others decide; for a platform without a centre beam.
    pub(super) fn in_full(p: &Platform, f: &Framing, dead: &Dead, cases: &[Case]) -> Result<Envelope, CheckError> {
        let mut sweep = Sweep::new(p, f, dead, Asked::ALL)?;
        let cases = cases.iter().map(|case| sweep.case(case, &[])).collect();
        let (supports, dead_supports) = (f.supports.clone(), dead_supports(p, f, dead, Asked::ALL)?);
        Ok(Envelope { cases, supports, dead_reactions: sweep.dead_reactions(), dead_supports })
    }

    /// Runs every position of every case for what is asked; the rest stays as if nothing loaded it. Slats and
    /// sides ask nothing of each other, so that two cores may work at once.
    pub(super) fn run(
        p: &Platform,
        f: &Framing,
        dead: &Dead,
        cases: &[Case],
        asked: Asked,
    ) -> Result<Envelope, CheckError> {
        if p.centre_beam.is_some() {
            let (supports, dead_supports) = (f.supports.clone(), dead_supports(p, f, dead, Asked::ALL)?);
            let spans = TwoSpans::new(p, f, dead)?;
            let cases: Vec<_> = cases.par_iter().map(|case| spans.case(case)).collect();
            let cases = cases.into_iter().collect::<Result<_, _>>()?;
            return Ok(Envelope { cases, supports, dead_reactions: spans.dead_reactions(), dead_supports });
        }
        if asked != Asked::ALL {
            return Envelope::swept(p, f, dead, cases, asked);
        }
        let swept = |asked| move || Envelope::swept(p, f, dead, cases, asked);
        let (slats, sides) = rayon::join(swept(Asked::SLATS), swept(Asked::SIDES));
        Ok(slats?.joined(sides?, Asked::SIDES))
    }

    /// The same where every slat rests on two supports, on one core.
    fn swept(p: &Platform, f: &Framing, dead: &Dead, cases: &[Case], asked: Asked) -> Result<Envelope, CheckError> {
        let (supports, dead_supports) = (f.supports.clone(), dead_supports(p, f, dead, asked)?);
        let mut sweep = Sweep::new(p, f, dead, asked)?;
        let mut out: Vec<CaseEnvelope> = cases.iter().map(|_| CaseEnvelope::new(p, f)).collect();
        // Everybody lying is many loads at many places, and seldom the worst of those that last as long: it
        // comes when the others are known.
        let lying = |case: &&(usize, &Case)| case.1.kind == CaseKind::Lying;
        let all: Vec<(usize, &Case)> = cases.iter().enumerate().collect();
        for (i, case) in all.iter().filter(|c| !lying(c)) {
            out[*i] = sweep.case(case, &[]);
        }
        for (i, case) in all.iter().filter(lying) {
            // A push finds everybody lying, and end rails add up what each rail brings: it must be known, whatever
            // exceeds it.
            let alone = p.posts.is_some() || p.end_rails.is_some();
            let alike = all.iter().filter(|(j, other)| !alone && j != i && other.weighs_as(case));
            let others: Vec<&CaseEnvelope> = alike.map(|(j, _)| &out[*j]).collect();
            out[*i] = sweep.case(case, &others);
        }
        Ok(Envelope { cases: out, supports, dead_reactions: sweep.dead_reactions(), dead_supports })
    }
}

#[cfg(test)]
mod tests {
    use super::super::CHECKS;
    use super::super::desk::Desk;
    use super::super::model::RAILS;
    use super::*;
    use crate::brief::Brief;
    use crate::load::cases;
    use crate::tables::Tables;

    const BRIEFS: [&str; 4] = [
        include_str!("../../demo/two.toml"),
        include_str!("../../demo/child.toml"),
        include_str!("../../demo/deck_ec5.toml"),
        include_str!("../../tests/speed/twenty_slats.toml"),
    ];

    /// Every check of an envelope: member, limit, case, place and ratio.
    fn decided(p: &Platform, cases: &[Case], envelope: &Envelope) -> Vec<String> {
        let mut desk = Desk::new(p, cases, envelope);
        CHECKS.iter().for_each(|(check, _)| check(&mut desk));
        let all = desk.members().iter().flat_map(|m| m.checks.iter().map(move |c| (m, c)));
        all.map(|(m, c)| format!("{} {:?} {:?} {:?} {:.6e}", m.id, c.limit, c.case, c.place, c.ratio)).collect()
    }

    /// What is left out because other cases exceed it decides nothing: every check is that of all cases worked out in
    /// full. Much is left out.
    #[test]
    fn what_others_exceed_decides_nothing() {
        let mut left_out = 0;
        for text in BRIEFS {
            let p = Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
            let (cases, dead) = (cases(&p), Dead::of(&p));
            let framing = Framing::of(&p).unwrap_or_else(|e| panic!("{e}"));
            let envelope = |cases: Vec<CaseEnvelope>, sweep: &Sweep<'_>| Envelope {
                cases,
                supports: framing.supports.clone(),
                dead_reactions: sweep.dead_reactions(),
                dead_supports: Default::default(),
            };
            let mut sweep = Sweep::new(&p, &framing, &dead, Asked::ALL).unwrap_or_else(|e| panic!("{e}"));
            let all = cases.iter().map(|case| sweep.case(case, &[])).collect();
            let full = envelope(all, &sweep);
            let quick = Envelope::run(&p, &framing, &dead, &cases, Asked::ALL).unwrap_or_else(|e| panic!("{e}"));
            assert_eq!(decided(&p, &cases, &quick), decided(&p, &cases, &full));
            let lying = cases.iter().position(|c| c.kind == CaseKind::Lying).expect("somebody lies");
            left_out += RAILS.iter().filter(|line| quick.line(lying, **line).shear.is_none()).count();
            left_out += (0..p.slats.count).filter(|i| quick.slat(lying, *i).moment.is_none()).count();
        }
        assert!(left_out > 20, "{left_out}");
    }
}
