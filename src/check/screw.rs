//! Screws from cleat to rail: sideways and in withdrawal together, and their distances.

use super::capacity::{ByDuration, Joined, Kept, Screwed, Spot};
use super::desk::Desk;
use super::rail::strength;
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role, Verdict, over};
use crate::derivation::{Worked, given, plain};
use crate::load::CaseKind;
use crate::platform::LongSide;
use crate::quantity::unit::newton;
use crate::quantity::{Force, Length, Measure, Measured, Ratio};
use crate::rules::RuleError;

/// A failing check when a screw does not reach deep enough, for then no rule says what it holds.
pub(super) fn too_short(rated: &dyn Screwed, designation: &str, in_main: Length) -> Result<Option<Check>, RuleError> {
    let needed = rated.least_length()?;
    let what = format!("{designation} reaches too short a way into the piece that holds it");
    let check = distance(Limit::Penetration, &needed, in_main, &what);
    Ok((check.ratio > 1.0 + 1e-9).then_some(check))
}

/// The tightest of some distances.
pub(super) fn tightest(rated: &dyn Screwed, distances: &[Kept]) -> Result<Option<Check>, RuleError> {
    let mut worst: Option<Check> = None;
    for (spot, actual, what) in distances {
        let needed = rated.needs(*spot)?;
        let check = distance(Limit::Spacing, &needed, *actual, &format!("distance {what}, with pilot holes"));
        if worst.as_ref().is_none_or(|w| check.ratio > w.ratio) {
            worst = Some(check);
        }
    }
    Ok(worst)
}

/// A load `R` hung at an eccentricity on a screw: the pull it adds, per unit of `R`.
pub(super) struct Prying {
    /// `k = T / R`.
    pub(super) pull: Worked<Ratio>,
}

impl Prying {
    /// The piece turns about its lower edge: `T · z = R · e`, with `z = 2/3` of the screws' height
    /// above that edge, the lever arm of a pressure that grows evenly downwards.
    ///
    /// No source: statics with an assumed pressure. The slat's reaction lies a third of the bearing in
    /// from the cleat's inner edge, for a slat that bends rests on that edge.
    pub(super) fn new(eccentricity: Length, height: Length) -> Prying {
        let z = (plain(2.0) / plain(3.0) * given("h", height)).step("z", PRACTICE);
        Prying { pull: (given("e", eccentricity) / z).step("k", PRACTICE) }
    }

    /// The pull and the lateral load together.
    pub(super) fn resultant(&self, r: Worked<Force>) -> Worked<Force> {
        (r * (plain(1.0) + self.pull.clone().power(2.0)).root()).step("F", PRACTICE)
    }

    /// Angle of the resultant from the wood's surface, degrees.
    pub(super) fn degrees(&self) -> f64 {
        self.pull.value.value.atan().to_degrees()
    }
}

/// A screw from cleat to rail.
pub(super) fn joined(side: &LongSide) -> Joined<'_> {
    Joined {
        screw: &side.screws.screw,
        side: (&side.cleat.wood, side.cleat.thickness, 90.0),
        main: (&side.rail.stick.wood, Some(side.rail.stick.thickness), 90.0),
        gap: Length::default(),
        end_grain: false,
        pulled: true,
    }
}

pub(super) fn check(desk: &mut Desk<'_>) {
    for s in 0..2 {
        if let Err(e) = members(desk, s) {
            desk.unchecked("the cleat screws", &e);
        }
    }
}

fn members(desk: &mut Desk<'_>, s: usize) -> Result<(), RuleError> {
    let p = desk.p;
    let side = &p.sides[s];
    let row = &side.screws;
    let joined = joined(side);
    let in_main = joined.in_main();
    let screw = desk.rules.screwed(joined);
    if row.screw.length > side.cleat.thickness + side.rail.stick.thickness {
        desk.caution(format!(
            "The cleat screws ({}) come out at the back of the rail: use shorter ones or grind them off.",
            row.screw.designation
        ));
    }
    let id = |j: usize| format!("{} cleat screw {}", desk.side_name(s), j + 1);
    if let Some(check) = too_short(&*screw, &row.screw.designation, in_main)? {
        let member =
            Member { id: id(0), role: Role::CleatScrew, made_of: row.screw.designation.clone(), checks: vec![check] };
        desk.member(member);
        return Ok(());
    }
    let prying = Prying::new(side.cleat.thickness - p.slats.bearing / 3.0, row.up);
    let lateral = screw.lateral()?;
    let capacity = ByDuration::of(&desk.durations(), |d| screw.at_angle(&lateral, d, prying.degrees()))?;
    if let Err(e) = screw.distances_when_pulled() {
        desk.unchecked("distances of the cleat screws against their pull", &e);
    }
    let spacing = tightest(&*screw, &distances(desk, s))?;
    let factor = (1.0 + prying.pull.value.value.powi(2)).sqrt();
    for j in 0..row.positions.len() {
        let worst = desk.worst(strength, |k| desk.envelope.screw(k, s, j), |c| capacity.si(c.duration) / factor);
        let mut checks: Vec<Check> = Vec::new();
        if let Some(w) = worst {
            let demand = prying.resultant(given("R", newton(w.peak.value)));
            let mut check = desk.compare(Limit::Screw, &w, &demand, capacity.get(desk.cases[w.case].duration));
            check.remark = screw.remark().map(str::to_owned);
            checks.push(check);
        }
        checks.extend(spacing.clone());
        desk.member(Member {
            id: format!("{} cleat screw {}", desk.side_name(s), j + 1),
            role: Role::CleatScrew,
            made_of: row.screw.designation.clone(),
            checks,
        });
    }
    Ok(())
}

/// The distances of the row: to the cleat's end and edges, and from screw to screw.
fn distances(desk: &Desk<'_>, s: usize) -> [Kept; 3] {
    let side = &desk.p.sides[s];
    let row = &side.screws;
    let top = side.cleat.width - row.up;
    [
        (Spot::End, row.first, "to the cleat's end"),
        (Spot::Edge, if top < row.up { top } else { row.up }, "to the cleat's edge"),
        (Spot::Along, row.spacing(), "from screw to screw"),
    ]
}

/// A distance against the one needed.
pub(super) fn distance(limit: Limit, needed: &Worked<Length>, actual: Length, what: &str) -> Check {
    standing_still(limit, needed, actual.measure(), what)
}

/// A check of a shape against a rule, which no load moves.
pub(super) fn standing_still<Q: Measured>(limit: Limit, demand: &Worked<Q>, capacity: Measure, what: &str) -> Check {
    let ratio = over(demand.value.si(), capacity.si);
    Check {
        limit,
        case: CaseKind::Dead,
        place: None,
        demand: demand.value.measure(),
        capacity,
        ratio,
        verdict: Verdict::of(ratio),
        source: demand.as_step().map(|s| s.citation.to_string()).unwrap_or_default(),
        calculation: vec![demand.expression().clone()],
        remark: Some(what.to_owned()),
    }
}
