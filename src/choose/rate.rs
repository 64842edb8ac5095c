//! How heavy a sleeper may be.

use super::alter;
use super::bracket::{Grid, State};
use super::design::{Design, Outcome, Tried};
use super::slip::{Slip, slips};
use crate::brief::{Brief, Mistake};
use crate::load::{CaseKind, cases};
use crate::platform::Platform;
use crate::quantity::unit::{kilogram, pound};
use crate::quantity::{Mass, UnitSystem};

/// The cases whose load is a sleeper's weight, in the order they are run.
const BY_WEIGHT: [CaseKind; 7] = [
    CaseKind::Lying,
    CaseKind::Sitting,
    CaseKind::RowOnTheEdge,
    CaseKind::Kneeling,
    CaseKind::ClimbingIn,
    CaseKind::Dropping,
    CaseKind::Jumping,
];

/// The cases that a sleeper's weight has a part in where there is a ladder, or posts that stand free.
const BY_WEIGHT_TOO: [CaseKind; 3] = [CaseKind::OnRung, CaseKind::Racking, CaseKind::Tipping];

/// The most places that are rated one by one.
const MOST_PLACES: usize = 8;

/// Weights in whole pounds or kilograms, from the lightest to the heaviest body a brief may name.
struct Weights {
    units: UnitSystem,
    grid: Grid,
}

impl Weights {
    fn of(units: UnitSystem) -> Weights {
        // Sleepers under 60 kg jump, heavier ones do not: both sides of that are always tried.
        let grid = match units {
            UnitSystem::Us => Grid { first: 5, last: 990, coarse: 33, marks: vec![132, 133] },
            UnitSystem::Metric => Grid { first: 2, last: 450, coarse: 15, marks: vec![59, 60] },
        };
        Weights { units, grid }
    }

    fn mass(&self, k: i64) -> Mass {
        match self.units {
            UnitSystem::Us => pound(k as f64),
            UnitSystem::Metric => kilogram(k as f64),
        }
    }

    /// Children's weights, the only ones that jump.
    fn of_children(mut self) -> Weights {
        self.grid.last = self.grid.marks[0];
        self
    }

    /// Scanned a quarter as closely, for many ratings of nearly the same platform: what is found passes and one
    /// step more fails all the same, but a run of heavier ones that pass again may be stepped over.
    fn coarser(mut self) -> Weights {
        self.grid.coarse *= 4;
        self
    }

    /// The heaviest that passes.
    fn heaviest(&self, tried: impl Fn(Mass) -> Tried + Sync) -> Heaviest {
        let state = |k: i64| match tried(self.mass(k)) {
            t if t.passes() => State::Pass,
            Tried::Checked(_) => State::Fail,
            Tried::Impossible(_) => State::Impossible,
        };
        let outcome = |k: i64| match tried(self.mass(k)) {
            Tried::Checked(o) => Some(o),
            Tried::Impossible(_) => None,
        };
        match self.grid.greatest(state) {
            None => Heaviest { mass: None, open: false, holes: Vec::new(), at: None, beyond: outcome(self.grid.first) },
            Some(found) => Heaviest {
                mass: Some(self.mass(found.at)),
                open: found.open,
                holes: found.holes.iter().map(|[a, b]| [self.mass(*a), self.mass(*b)]).collect(),
                at: outcome(found.at),
                beyond: if found.open { None } else { outcome(found.at + 1) },
            },
        }
    }
}

/// The heaviest sleeper that passes.
#[derive(Clone, Debug, PartialEq)]
pub struct Heaviest {
    /// The weight; `None` when even the lightest fails.
    pub mass: Option<Mass>,
    /// The grid of weights ends here and passes still.
    pub open: bool,
    /// Runs of lighter sleepers who fail, such as children who jump.
    pub holes: Vec<[Mass; 2]>,
    /// What the check says at that weight.
    pub at: Option<Outcome>,
    /// What it says one step heavier, or of the lightest when none passes.
    pub beyond: Option<Outcome>,
}

/// The heaviest sleeper of one case alone.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseRating {
    /// The case.
    pub case: CaseKind,
    /// The heaviest.
    pub heaviest: Heaviest,
}

/// The heaviest sleeper in one place, the others as the brief has them.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaceRating {
    /// Counted from the left rail, or from the head when people lie across the rails.
    pub place: usize,
    /// What the brief has there.
    pub as_drawn: Mass,
    /// The heaviest.
    pub heaviest: Heaviest,
}

/// How the rating changes with one thing about the platform.
#[derive(Clone, Debug, PartialEq)]
pub struct Sensitivity {
    /// What is different.
    pub change: String,
    /// The heaviest sleeper then.
    pub heaviest: Heaviest,
}

/// How heavy sleepers may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Rating {
    /// How many sleep here.
    pub places: usize,
    /// The heaviest the brief has.
    pub heaviest_drawn: Mass,
    /// Every place alike, all cases.
    pub whole: Heaviest,
    /// Every place alike, one case at a time.
    pub cases: Vec<CaseRating>,
    /// Cases whose load is not a sleeper's weight, and whether they pass.
    pub fixed: Vec<(CaseKind, Outcome)>,
    /// One place at a time; empty for one place, or very many.
    pub one_by_one: Vec<PlaceRating>,
    /// The largest loss first.
    pub sensitivity: Vec<Sensitivity>,
}

/// The heaviest sleeper a brief's platform carries in every place alike, all cases together.
///
/// # Errors
///
/// As [`rate`].
pub fn heaviest(design: &Design<'_>) -> Result<Heaviest, Vec<Mistake>> {
    let units = design.platform()?.units;
    Ok(Weights::of(units).heaviest(|m| design.try_brief(&alike(design.brief, m))))
}

/// A brief with every sleeper of one weight.
fn alike(brief: &Brief, m: Mass) -> Brief {
    let mut b = brief.clone();
    alter::sleepers(&mut b, m);
    b
}

/// Rates a brief.
///
/// # Errors
///
/// Every mistake in the brief.
pub fn rate(design: &Design<'_>) -> Result<Rating, Vec<Mistake>> {
    let p = design.platform()?;
    let weights = || Weights::of(p.units);
    let whole = heaviest(design)?;
    let dropped = |k: CaseKind| p.change(k.key()).is_some_and(|c| c.dropped);
    let alone = |k: CaseKind| design.with(|b| alter::only(b, k));
    let there: Vec<CaseKind> = cases(&p).iter().map(|c| c.kind).collect();
    let rated = BY_WEIGHT
        .into_iter()
        .filter(|k| !dropped(*k))
        .chain(BY_WEIGHT_TOO.into_iter().filter(|k| there.contains(k)))
        .map(|case| {
            let brief = alone(case);
            let w = if case == CaseKind::Jumping { weights().of_children() } else { weights() };
            CaseRating { case, heaviest: w.heaviest(|m| design.try_brief(&alike(&brief, m))) }
        })
        .collect();
    // Cases under one key are dropped together, so they are told together.
    let by_weight = |k: &CaseKind| BY_WEIGHT.contains(k) || BY_WEIGHT_TOO.contains(k);
    let told_elsewhere = |k: &CaseKind| by_weight(k) || matches!(k, CaseKind::Dead | CaseKind::BareSlat);
    let mut fixed: Vec<(CaseKind, Outcome)> = Vec::new();
    for kind in there.into_iter().filter(|k| !told_elsewhere(k)) {
        if fixed.iter().all(|(k, _)| k.key() != kind.key())
            && let Some(o) = design.try_brief(&alone(kind)).outcome()
        {
            fixed.push((kind, o.clone()));
        }
    }
    Ok(Rating {
        places: p.sleepers.len(),
        heaviest_drawn: p.sleepers.iter().map(|s| s.mass).fold(Mass::default(), |a, m| if m > a { m } else { a }),
        cases: rated,
        fixed,
        one_by_one: one_by_one(design, &p, &weights()),
        sensitivity: sensitivity(design, &p, &whole),
        whole,
    })
}

fn one_by_one(design: &Design<'_>, p: &Platform, weights: &Weights) -> Vec<PlaceRating> {
    if p.sleepers.len() < 2 || p.sleepers.len() > MOST_PLACES {
        return Vec::new();
    }
    let parted = design.with(alter::part_sleepers);
    let rated = |i: usize| {
        weights.heaviest(|m| {
            let mut b = parted.clone();
            alter::sleeper(&mut b, i, m);
            design.try_brief(&b)
        })
    };
    let place =
        |(i, s): (usize, &crate::platform::Person)| PlaceRating { place: i + 1, as_drawn: s.mass, heaviest: rated(i) };
    p.sleepers.iter().enumerate().map(place).collect()
}

fn sensitivity(design: &Design<'_>, p: &Platform, whole: &Heaviest) -> Vec<Sensitivity> {
    let Some(base) = whole.mass else { return Vec::new() };
    let mut slips = slips(design, p);
    slips.extend(one_cleat_screw(design, p, base));
    let rated = |s: Slip| {
        let heaviest = Weights::of(p.units).coarser().heaviest(|m| {
            let mut b = s.brief.clone();
            alter::sleepers(&mut b, m);
            design.try_built(&b, |p| leave_out(p, s.without))
        });
        Sensitivity { change: s.words, heaviest }
    };
    let mut out: Vec<Sensitivity> = slips.into_iter().map(rated).collect();
    let left = |s: &Sensitivity| s.heaviest.mass.unwrap_or_default();
    out.sort_by(|a, b| left(a).value.total_cmp(&left(b).value));
    out
}

fn leave_out(p: &mut Platform, screw: Option<(usize, usize)>) {
    if let Some((side, j)) = screw {
        p.sides[side].screws.positions.remove(j);
    }
}

/// The cleat screw that is missed most when the sleepers are as heavy as they may be.
fn one_cleat_screw(design: &Design<'_>, p: &Platform, mass: Mass) -> Option<Slip> {
    let brief = design.with(|b| alter::sleepers(b, mass));
    let all = p.sides.iter().enumerate().filter(|(_, s)| s.screws.positions.len() > 2);
    let all: Vec<(usize, usize)> =
        all.flat_map(|(s, side)| (0..side.screws.positions.len()).map(move |j| (s, j))).collect();
    let ratios: Vec<f64> = {
        use rayon::prelude::*;
        all.par_iter()
            .map(|which| {
                let tried = design.try_built(&brief, |p| leave_out(p, Some(*which)));
                tried.outcome().and_then(|o| o.weakest.as_ref()).map_or(0.0, |w| w.ratio)
            })
            .collect()
    };
    let worst = all.iter().zip(&ratios).fold(None, |best: Option<(&(usize, usize), f64)>, (which, r)| match best {
        Some((_, b)) if *r <= b * (1.0 + 1e-9) => best,
        _ => Some((which, *r)),
    });
    let ((side, j), _) = worst?;
    let name = ["left", "right"][*side];
    let words = format!("{name} cleat screw {} left out, the one missed most", j + 1);
    Some(Slip { words, brief: design.brief.clone(), without: Some((*side, *j)) })
}
