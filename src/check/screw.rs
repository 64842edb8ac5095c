//! Screws from cleat to rail: sideways and in withdrawal together, and their distances.

use super::capacity::{ByDuration, conditions, duration, wood};
use super::desk::Desk;
use super::rail::strength;
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role, Verdict, over};
use crate::derivation::{Worked, given, plain};
use crate::load::CaseKind;
use crate::platform::{Stick, WoodChoice};
use crate::quantity::unit::newton;
use crate::quantity::{Force, Length, Measured, Ratio};
use crate::rules::RuleError;
use crate::rules::allowable_stress::connection::{
    Grain, adjusted_lateral, bearing_length_in_main, lateral_and_withdrawal, least_length_in_main, penetration,
};
use crate::rules::allowable_stress::dowel::{
    BearingValue, Dowel, DowelKind, Member as DowelMember, Role as DowelRole, dowel_bearing_strength, lateral,
};
use crate::rules::allowable_stress::spacing::{Place, required_distance};
use crate::rules::allowable_stress::withdrawal::{adjusted_withdrawal, withdrawal};
use crate::tables::clear_wood::WoodKind;
use crate::tables::fasteners::{Screw, ScrewKind};

/// A screw through one piece into another.
pub(super) struct Joined<'a> {
    pub(super) screw: &'a Screw,
    /// The piece under the head, how much of the screw is in it, and the load's angle to its grain.
    pub(super) side: (&'a WoodChoice, Length, f64),
    /// The piece that holds the threads, how thick it is if that is known, and the load's angle to its grain.
    pub(super) main: (&'a WoodChoice, Option<Length>, f64),
    pub(super) grain: Grain,
    pub(super) damp: bool,
}

/// A table's screw as the rules see it.
pub(super) fn dowel(s: &Screw) -> Dowel {
    Dowel {
        kind: match s.kind {
            ScrewKind::Wood => DowelKind::WoodScrew,
            ScrewKind::Lag => DowelKind::LagScrew,
        },
        diameter: s.diameter,
        root_diameter: s.root,
        bending_yield: s.bending_yield,
    }
}

/// Length of the tapered tip; two diameters where the table gives none (NDS 2018 12.3.5, from memory).
pub(super) fn tip(s: &Screw) -> Length {
    s.tip.unwrap_or(s.diameter * 2.0)
}

/// Softwood or hardwood, for distances: graded lumber here is softwood unless its name says not.
pub(super) fn kind(w: &WoodChoice) -> WoodKind {
    match w {
        WoodChoice::Ungraded { kind, .. } => *kind,
        WoodChoice::Graded { .. } => WoodKind::Softwood,
    }
}

impl Joined<'_> {
    /// Length of screw in the main piece, tip included; less when it comes out at the back.
    fn in_main(&self) -> Length {
        let rest = self.screw.length - self.side.1;
        match self.main.1 {
            Some(t) if t < rest => t,
            _ => rest,
        }
    }

    /// Whether the screw reaches deep enough: a failing check when it does not, for then no rule says
    /// what it holds.
    pub(super) fn too_short(&self) -> Result<Option<Check>, RuleError> {
        let needed = least_length_in_main(&dowel(self.screw), tip(self.screw))?;
        let what = format!("{} reaches too short a way into the piece that holds it", self.screw.designation);
        let check = distance(Limit::Penetration, &needed, self.in_main(), &what);
        Ok((check.ratio > 1.0 + 1e-9).then_some(check))
    }

    /// Reference lateral value `Z` of one screw.
    pub(super) fn lateral(&self) -> Result<Worked<Force>, RuleError> {
        let d = dowel(self.screw);
        let p = penetration(&d, self.in_main(), tip(self.screw))?;
        let bears = bearing_length_in_main(&d, p, tip(self.screw))?;
        let member = |role, (w, degrees): (&WoodChoice, f64), length| -> Result<DowelMember, RuleError> {
            let g = wood(w).specific_gravity();
            let fe = dowel_bearing_strength(role, g, &d, degrees, BearingValue::Formula)?;
            Ok(DowelMember { bearing_strength: fe, bearing_length: length, degrees })
        };
        let main = member(DowelRole::Main, (self.main.0, self.main.2), bears)?;
        let side = member(DowelRole::Side, (self.side.0, self.side.2), given("ℓs", self.side.1))?;
        Ok(lateral(&d, &main, &side)?.lateral)
    }

    /// Adjusted lateral value `Z'` of one screw in a row whose `Cg` and `CΔ` are given.
    pub(super) fn adjusted(
        &self,
        z: &Worked<Force>,
        d: crate::load::Duration,
        group: Worked<Ratio>,
        geometry: Worked<Ratio>,
    ) -> Worked<Force> {
        adjusted_lateral(z.clone(), &conditions(self.damp, false), duration(d), group, geometry, self.grain)
    }

    /// Adjusted withdrawal `W'p` of one screw.
    pub(super) fn withdrawal(&self, d: crate::load::Duration) -> Result<Worked<Force>, RuleError> {
        let dw = dowel(self.screw);
        let w = withdrawal(&dw, wood(self.main.0).specific_gravity())?;
        let reach = if self.in_main() < self.screw.thread { self.in_main() } else { self.screw.thread };
        let thread = match self.screw.kind {
            ScrewKind::Lag => reach - tip(self.screw),
            ScrewKind::Wood => reach,
        };
        adjusted_withdrawal(&dw, w, thread, &conditions(self.damp, false), duration(d), self.grain)
    }
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
    let joined = Joined {
        screw: &row.screw,
        side: (&side.cleat.wood, side.cleat.thickness, 90.0),
        main: (&side.rail.stick.wood, Some(side.rail.stick.thickness), 90.0),
        grain: Grain::Side,
        damp: p.damp,
    };
    if row.screw.length > side.cleat.thickness + side.rail.stick.thickness {
        desk.caution(format!(
            "The cleat screws ({}) come out at the back of the rail: use shorter ones or grind them off.",
            row.screw.designation
        ));
    }
    let id = |j: usize| format!("{} cleat screw {}", desk.side_name(s), j + 1);
    if let Some(check) = joined.too_short()? {
        let member =
            Member { id: id(0), role: Role::CleatScrew, made_of: row.screw.designation.clone(), checks: vec![check] };
        desk.member(member);
        return Ok(());
    }
    let prying = Prying::new(side.cleat.thickness - p.slats.bearing / 3.0, row.up);
    let z = joined.lateral()?;
    // The row runs across the load, so no screw in it shares another's load.
    let group = plain(1.0).step("Cg", PRACTICE);
    let geometry = plain(1.0).step("CΔ", PRACTICE);
    let capacity = ByDuration::of(&desk.durations(), |d| {
        let lateral = joined.adjusted(&z, d, group.clone(), geometry.clone());
        Ok(lateral_and_withdrawal(joined.withdrawal(d)?, lateral, prying.degrees()))
    })?;
    let spacing = spacings(desk, s)?;
    let factor = (1.0 + prying.pull.value.value.powi(2)).sqrt();
    for j in 0..row.positions.len() {
        let worst = desk.worst(strength, |k| desk.envelope.screw(k, s, j), |c| capacity.si(c.duration) / factor);
        let mut checks: Vec<Check> = Vec::new();
        if let Some(w) = worst {
            let demand = prying.resultant(given("R", newton(w.peak.value)));
            checks.push(desk.compare(Limit::Screw, &w, &demand, capacity.get(desk.cases[w.case].duration)));
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

/// The tightest distance of the row: to the cleat's end and edges, and from screw to screw.
fn spacings(desk: &Desk<'_>, s: usize) -> Result<Option<Check>, RuleError> {
    let side = &desk.p.sides[s];
    let row = &side.screws;
    let cleat: &Stick = &side.cleat;
    let top = cleat.width - row.up;
    let distances = [
        (Place::EndAcross, row.first, "to the cleat's end"),
        (Place::EdgeLoaded, if top < row.up { top } else { row.up }, "to the cleat's edge"),
        (Place::RowAlong, row.spacing(), "from screw to screw"),
    ];
    let mut worst: Option<Check> = None;
    for (place, actual, what) in distances {
        let needed = required_distance(&dowel(&row.screw), place, kind(&cleat.wood), true, cleat.thickness)?.full;
        let check = distance(Limit::Spacing, &needed, actual, &format!("distance {what}, with pilot holes"));
        if worst.as_ref().is_none_or(|w| check.ratio > w.ratio) {
            worst = Some(check);
        }
    }
    Ok(worst)
}

/// A distance against the one needed.
pub(super) fn distance(limit: Limit, needed: &Worked<Length>, actual: Length, what: &str) -> Check {
    let ratio = over(needed.value.si(), actual.si());
    Check {
        limit,
        case: CaseKind::Dead,
        place: None,
        demand: needed.value.measure(),
        capacity: actual.measure(),
        ratio,
        verdict: Verdict::of(ratio),
        source: needed.as_step().map(|s| s.citation.to_string()).unwrap_or_default(),
        calculation: vec![needed.expression().clone()],
        remark: Some(what.to_owned()),
    }
}
