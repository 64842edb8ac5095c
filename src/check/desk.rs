//! Where members put demand against capacity while a platform is assessed.

use super::capacity::{self, Rules};
use super::envelope::{Envelope, Peak, exceeds};
use super::notes::{self, NotChecked};
use super::opening::Openings;
use super::verdict::{Assessment, CaseSummary, Check, Limit, Member, Verdict, Where, over};
use crate::brief::Side;
use crate::derivation::Worked;
use crate::load::{Case, CaseKind, Duration};
use crate::platform::Platform;
use crate::quantity::Measured;
use crate::rules::RuleError;

/// The candidate checks of one limit over all cases; the worst one is kept.
pub(super) struct Candidate<'a> {
    pub(super) case: usize,
    pub(super) peak: &'a Peak,
    pub(super) ratio: f64,
}

/// Where members collect their checks while a platform is assessed.
pub(super) struct Desk<'a> {
    pub(super) p: &'a Platform,
    pub(super) rules: Box<dyn Rules>,
    pub(super) cases: &'a [Case],
    pub(super) envelope: &'a Envelope,
    papers: Papers,
}

/// What has been written at a desk.
#[derive(Default)]
pub(super) struct Papers {
    members: Vec<Member>,
    not_checked: Vec<NotChecked>,
    cautions: Vec<String>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(p: &'a Platform, cases: &'a [Case], envelope: &'a Envelope) -> Self {
        let rules = capacity::rules(p);
        Desk { p, rules, cases, envelope, papers: Papers::default() }
    }

    pub(super) fn member(&mut self, member: Member) {
        if !member.checks.is_empty() {
            self.papers.members.push(member);
        }
    }

    /// The durations in use, each once, the dead load's first.
    pub(super) fn durations(&self) -> Vec<Duration> {
        let mut out = vec![Duration::Permanent];
        for c in self.cases {
            if !out.contains(&c.duration) {
                out.push(c.duration);
            }
        }
        out
    }

    /// `left` or `right`.
    pub(super) fn side_name(&self, s: usize) -> &'static str {
        match self.p.sides[s].side {
            Side::Left => "left",
            Side::Right => "right",
        }
    }

    /// Notes that a rule had no answer for something that carries load.
    pub(super) fn unchecked(&mut self, what: &str, error: &RuleError) {
        self.note(NotChecked { what: what.into(), why: error.describe(self.p.units), carries_load: true });
    }

    pub(super) fn note(&mut self, n: NotChecked) {
        if !self.papers.not_checked.contains(&n) {
            self.papers.not_checked.push(n);
        }
    }

    pub(super) fn caution(&mut self, text: String) {
        if !self.papers.cautions.contains(&text) {
            self.papers.cautions.push(text);
        }
    }

    /// What was written here, for another desk.
    pub(super) fn clear(self) -> Papers {
        self.papers
    }

    /// Adds what was written at another desk after what was written here.
    pub(super) fn add(&mut self, papers: Papers) {
        papers.members.into_iter().for_each(|m| self.member(m));
        papers.not_checked.into_iter().for_each(|n| self.note(n));
        papers.cautions.into_iter().for_each(|text| self.caution(text));
    }

    /// The case whose peak gives the greatest ratio of those that count for `counts`.
    pub(super) fn worst<'b>(
        &self,
        counts: impl Fn(&Case) -> bool,
        peak: impl Fn(usize) -> Option<&'b Peak>,
        capacity: impl Fn(&Case) -> f64,
    ) -> Option<Candidate<'b>> {
        let mut best: Option<Candidate<'b>> = None;
        for (i, case) in self.cases.iter().enumerate() {
            if !counts(case) {
                continue;
            }
            let Some(peak) = peak(i) else { continue };
            let ratio = over(peak.value, capacity(case));
            if best.as_ref().is_none_or(|b| exceeds(ratio, b.ratio)) {
                best = Some(Candidate { case: i, peak, ratio });
            }
        }
        best
    }

    /// Where the load of a candidate is.
    pub(super) fn place(&self, c: &Candidate<'_>) -> Option<Where> {
        let case = &self.cases[c.case];
        let position = case.positions.get(c.peak.position)?;
        if case.kind == CaseKind::Dead || case.kind.beside_the_frame() {
            return None;
        }
        let slats = &self.p.slats;
        let half = slats.breadth() / 2.0;
        let over_slat = (0..slats.count).find(|i| {
            let d = slats.centre(*i) - position.place.x;
            d <= half && -d <= half
        });
        let (place, note) = (position.place, position.note);
        Some(Where { place, over_slat: over_slat.map(|i| i + 1), note, at: c.peak.at, position: c.peak.position })
    }

    /// A check from a worked demand and a worked capacity.
    pub(super) fn compare<Q: Measured>(
        &self,
        limit: Limit,
        c: &Candidate<'_>,
        demand: &Worked<Q>,
        capacity: &Worked<Q>,
    ) -> Check {
        let ratio = over(demand.value.si(), capacity.value.si());
        Check {
            limit,
            case: self.cases[c.case].kind,
            place: self.place(c),
            demand: demand.value.measure(),
            capacity: capacity.value.measure(),
            ratio,
            verdict: Verdict::of(ratio),
            source: capacity.as_step().map(|s| s.citation.to_string()).unwrap_or_default(),
            calculation: vec![demand.expression().clone(), capacity.expression().clone()],
            remark: None,
        }
    }

    /// Whether something that carries load could not be checked so far.
    pub(super) fn open(&self) -> bool {
        self.papers.not_checked.iter().any(|n| n.carries_load)
    }

    /// The members checked so far.
    pub(super) fn members(&self) -> &[Member] {
        &self.papers.members
    }

    pub(super) fn close(mut self, openings: Option<Openings>) -> Assessment {
        notes::standing(&mut self, openings.is_some());
        let Papers { members, not_checked, cautions } = self.papers;
        Assessment {
            members,
            cases: self
                .cases
                .iter()
                .map(|c| CaseSummary {
                    kind: c.kind,
                    load: c.load.clone(),
                    reason: c.reason.clone(),
                    positions: c.positions.len(),
                    changed: c.changed,
                })
                .collect(),
            openings,
            predictions: Vec::new(),
            cautions,
            not_checked,
            assumptions: self.p.assumptions.iter().cloned().chain(self.rules.assumptions()).collect(),
        }
    }
}
