//! A rail's end as the platform is pushed: what it carries with everybody lying, and what a push adds to that.

use super::beside::{Beside, worst_of_each};
use super::bolt::bolted;
use super::capacity::{BoltSpot, Bolted, Joined, RatedBolt, Row, Spot};
use super::desk::Desk;
use super::joint::{distances, into_end_grain, into_side_grain};
use super::screw::{distance, tightest, too_short};
use super::slat::PRACTICE;
use super::verdict::{Check, Limit};
use crate::derivation::{Worked, given, plain};
use crate::platform::{Bolts, EndJoint, EndKind, Stick};
use crate::quantity::{Force, Length, Ratio, number};
use crate::rules::RuleError;
use crate::source::{Citation, Seen};
use crate::tables::fasteners::Screw;

const STATICS: Citation = Citation::new("statics", "", Seen::Memory);

/// A rail's end with everybody lying, pushed down or up, along the rail, or straight off what holds it.
pub(super) struct PushedEnd<'a> {
    pub(super) rail: &'a Stick,
    pub(super) ends: &'a EndJoint,
    pub(super) lying: Force,
    pub(super) down: Option<Worked<Force>>,
    pub(super) along: Option<Worked<Force>>,
    pub(super) off: Option<Worked<Force>>,
}

/// How far a force and one square to it lean from the first, degrees.
fn lean(first: &Worked<Force>, other: Option<&Worked<Force>>) -> f64 {
    other.map_or(0.0, |other| (other.value / first.value).value.atan().to_degrees())
}

impl PushedEnd<'_> {
    /// Words for what holds the end, and its checks.
    pub(super) fn checks(&self, desk: &Desk<'_>, case: Beside) -> Result<(String, Vec<Check>), RuleError> {
        let made_of = match &self.ends.kind {
            EndKind::SideGrain { screw, count } => format!("{count} screws {}", screw.designation),
            EndKind::Bolts(bolts) => format!("{} bolts {}", bolts.count, bolts.bolt.designation),
            EndKind::EndGrain { screw, count, .. } if self.along.is_none() => {
                format!("{count} screws {}", screw.designation)
            }
            _ => {
                return Err(RuleError::not_covered(
                    "a push on a rail's end that is neither screwed nor bolted to the side of its post",
                    "hold it there: ends = { joint = \"screws\", into = \"side grain\", … }, or joint = \"bolts\"",
                ));
            }
        };
        if self.carried().value <= Force::default() {
            return Ok((made_of, Vec::new()));
        }
        let mut checks = match &self.ends.kind {
            EndKind::SideGrain { screw, count } => self.screwed(desk, case, screw, *count)?,
            EndKind::Bolts(bolts) => self.bolted(desk, case, bolts)?,
            EndKind::EndGrain { screw, count, through } => self.end_on(desk, case, (screw, *count, *through))?,
            _ => Vec::new(),
        };
        if self.down.is_some() {
            let rail = desk.rules.upright(self.rail);
            let holds = rail.at_screws(case.duration, self.rail.width - self.ends.edge, self.ends.end)?;
            checks.push(desk.compare_beside(Limit::ShearAtScrews, case, &self.carried(), &holds));
        }
        Ok((made_of, worst_of_each(checks)))
    }

    /// Down or up.
    fn carried(&self) -> Worked<Force> {
        match &self.down {
            Some(down) => (given("R lying", self.lying) + down.clone()).step("R", STATICS),
            None => given("R lying", self.lying),
        }
    }

    /// What is carried with what pushes square to it, as one force.
    fn both(&self, other: &Worked<Force>) -> Worked<Force> {
        let part: Worked<Ratio> = other.clone() / self.carried();
        (self.carried() * (plain(1.0) + part.power(2.0)).root()).step("F", STATICS)
    }

    /// Along the rail the force leans to its grain and from the post's, and pulls towards its end one way or the
    /// other.
    fn screwed(&self, desk: &Desk<'_>, case: Beside, screw: &Screw, count: usize) -> Result<Vec<Check>, RuleError> {
        let (rail, ends) = (self.rail, self.ends);
        let straight = into_side_grain(rail, ends, screw);
        let degrees = lean(&self.carried(), self.along.as_ref());
        let ((side, thick, across), (main, deep, with)) = (straight.side, straight.main);
        let pulled = self.off.is_some();
        let joined =
            Joined { side: (side, thick, across - degrees), main: (main, deep, with + degrees), pulled, ..straight };
        let in_main = joined.in_main();
        let rated = desk.rules.screwed(joined);
        if let Some(check) = too_short(&*rated, &screw.designation, in_main)? {
            return Ok(vec![check]);
        }
        let lateral = rated.lateral()?;
        let mut checks = Vec::new();
        if let Some(along) = &self.along {
            let spacing = ends.spacing(rail, count);
            let mut kept = distances(ends, false, count, spacing);
            let to_end = kept.iter_mut().filter(|(spot, ..)| *spot == Spot::End);
            to_end.for_each(|(spot, ..)| *spot = Spot::EndPulled);
            let row = Row { count, spacing, rail, distances: &kept };
            let holds = rated.row(&lateral, case.duration, &row)?;
            checks.push(desk.compare_beside(Limit::Joint, case, &self.both(along), &holds));
            if rated.distances_stand_alone() {
                checks.extend(tightest(&*rated, &kept)?);
            }
        }
        if let Some(off) = &self.off {
            rated.distances_when_pulled()?;
            let one = rated.at_angle(&lateral, case.duration, lean(&self.carried(), Some(off)))?;
            let all = (given("n", number(count as f64)) * one).step("n Z", PRACTICE);
            checks.push(desk.compare_beside(Limit::Joint, case, &self.both(off), &all));
        }
        Ok(checks)
    }

    /// Screws into the rail's end, pushed along the piece that they pass through: they carry the rail and hold it
    /// sideways at once, both across their axis.
    fn end_on(
        &self,
        desk: &Desk<'_>,
        case: Beside,
        (screw, count, through): (&Screw, usize, Length),
    ) -> Result<Vec<Check>, RuleError> {
        let (rail, ends) = (self.rail, self.ends);
        let straight = into_end_grain(rail, ends, screw, through);
        let (side, thick, down) = straight.side;
        let degrees = (down - lean(&self.carried(), self.off.as_ref())).abs();
        let joined = Joined { side: (side, thick, degrees), ..straight };
        let in_main = joined.in_main();
        let rated = desk.rules.screwed(joined);
        if let Some(check) = too_short(&*rated, &screw.designation, in_main)? {
            return Ok(vec![check]);
        }
        let Some(off) = &self.off else { return Ok(Vec::new()) };
        let spacing = ends.spacing(rail, count);
        let mut kept = distances(ends, true, count, spacing);
        kept.push((Spot::Edge, rail.thickness / 2.0, "to the rail's side"));
        let row = Row { count, spacing, rail, distances: &kept };
        let holds = rated.row(&rated.lateral()?, case.duration, &row)?;
        let mut checks = vec![desk.compare_beside(Limit::Joint, case, &self.both(off), &holds)];
        if rated.distances_stand_alone() {
            checks.extend(tightest(&*rated, &kept)?);
        }
        Ok(checks)
    }

    fn bolted(&self, desk: &Desk<'_>, case: Beside, bolts: &Bolts) -> Result<Vec<Check>, RuleError> {
        let degrees = lean(&self.carried(), self.along.as_ref());
        let joint = Bolted { lean: degrees, pulled: self.off.is_some(), ..bolted(self.rail, self.ends, bolts) };
        let kept = joint.kept();
        let rated = desk.rules.bolted(joint);
        let mut checks: Vec<Check> = self.too_close(&*rated, &kept)?.into_iter().collect();
        if checks.iter().any(|c| c.ratio > 1.0 + 1e-9) {
            return Ok(checks);
        }
        let row = rated.row(&rated.lateral()?, case.duration)?;
        if let Some(along) = &self.along {
            checks.push(desk.compare_beside(Limit::Joint, case, &self.both(along), &row));
            // The bolts stand in the middle of the post's width and push it across its grain near its top.
            let post = desk.rules.upright(&bolts.post);
            let holds = post.at_screws(case.duration, bolts.post.width / 2.0, Length::default())?;
            let split = desk.compare_beside(Limit::ShearAtScrews, case, along, &holds);
            checks.push(split.remarked("the post beside the bolts, pushed along the rail"));
        }
        if let Some(off) = &self.off {
            let one = rated.pulled(case.duration)?;
            let along_axis = (given("n", number(bolts.count as f64)) * one).step("n T", PRACTICE);
            let parts: Worked<Ratio> = self.carried() / row + off.clone() / along_axis;
            let whole: Worked<Ratio> = plain(1.0).step("limit", PRACTICE);
            let check = desk.compare_beside(Limit::Joint, case, &parts.step("parts together", PRACTICE), &whole);
            checks.push(check.remarked("bolts sideways and pulled: the two parts are added up, which errs high"));
        }
        Ok(checks)
    }

    /// The tightest distance of bolts.
    fn too_close(
        &self,
        rated: &dyn RatedBolt,
        kept: &[(BoltSpot, Length, &'static str)],
    ) -> Result<Option<Check>, RuleError> {
        let mut out: Option<Check> = None;
        for (spot, actual, what) in kept {
            let check = distance(Limit::Spacing, &rated.least(*spot)?, *actual, &format!("least distance {what}"));
            if out.as_ref().is_none_or(|t| check.ratio > t.ratio) {
                out = Some(check);
            }
        }
        Ok(out)
    }
}
