//! A brief that is changed, built and checked again.

use crate::brief::{Brief, Mistake};
use crate::check::{Assessment, Check, Limit, Member, Role, Verdict, check};
use crate::load::CaseKind;
use crate::platform::Platform;
use crate::tables::Tables;

/// A brief, the tables it speaks of, and whom to tell that one more platform was checked.
#[derive(Clone, Copy)]
pub struct Design<'a> {
    /// The brief as typed.
    pub brief: &'a Brief,
    /// The tables its names are looked up in.
    pub tables: &'a Tables,
    tick: &'a (dyn Fn() + Sync),
}

/// One member's worst check.
#[derive(Clone, Debug, PartialEq)]
pub struct Weakest {
    /// Its name.
    pub member: String,
    /// What it is.
    pub role: Role,
    /// The limit.
    pub limit: Limit,
    /// The case.
    pub case: CaseKind,
    /// Demand over capacity.
    pub ratio: f64,
}

/// What is kept of an assessment.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The verdict on what carries load.
    pub carries: Verdict,
    /// The weakest link of what carries load.
    pub weakest: Option<Weakest>,
    /// The worst member of each role.
    pub by_role: Vec<Weakest>,
    /// Parts of the load path that no rule answers for.
    pub unchecked: Vec<String>,
}

/// What became of a changed brief.
#[derive(Clone, Debug, PartialEq)]
pub enum Tried {
    /// It was checked.
    Checked(Outcome),
    /// It cannot be built, and why.
    Impossible(String),
}

impl Weakest {
    fn new((member, check): (&Member, &Check)) -> Weakest {
        Weakest {
            member: member.id.clone(),
            role: member.role,
            limit: check.limit,
            case: check.case,
            ratio: check.ratio,
        }
    }

    /// Whether it carries its load.
    pub fn passes(&self) -> bool {
        Verdict::of(self.ratio) == Verdict::Pass
    }
}

impl Outcome {
    /// What is kept of an assessment.
    pub fn of(a: &Assessment) -> Outcome {
        // No weight and no width changes what the rules for guards and openings say.
        let governing = a.governing().into_iter().filter(|m| m.role != Role::Opening);
        Outcome {
            carries: a.carries(),
            weakest: a.weakest().map(Weakest::new),
            by_role: governing.filter_map(|m| m.worst().map(|c| Weakest::new((m, c)))).collect(),
            unchecked: a.not_checked.iter().filter(|n| n.carries_load).map(|n| n.what.clone()).collect(),
        }
    }

    /// The worst member of a role.
    pub fn of_role(&self, role: Role) -> Option<&Weakest> {
        self.by_role.iter().find(|w| w.role == role)
    }
}

impl Tried {
    /// Whether everything that carries load was checked and passes.
    pub fn passes(&self) -> bool {
        self.outcome().is_some_and(|o| o.carries == Verdict::Pass)
    }

    /// What the check said, if there was one.
    pub fn outcome(&self) -> Option<&Outcome> {
        match self {
            Tried::Checked(o) => Some(o),
            Tried::Impossible(_) => None,
        }
    }
}

impl<'a> Design<'a> {
    /// A design whose checks nobody counts.
    pub fn new(brief: &'a Brief, tables: &'a Tables) -> Self {
        Design { brief, tables, tick: &|| () }
    }

    /// Another brief with the same tables and the same ear for what was checked.
    pub(super) fn of<'b>(&self, brief: &'b Brief) -> Design<'b>
    where
        'a: 'b,
    {
        Design { brief, tables: self.tables, tick: self.tick }
    }

    /// The same, with a call after every check.
    pub fn counted(self, tick: &'a (dyn Fn() + Sync)) -> Self {
        Design { tick, ..self }
    }

    /// The platform as drawn.
    ///
    /// # Errors
    ///
    /// Every mistake in the brief.
    pub fn platform(&self) -> Result<Platform, Vec<Mistake>> {
        Platform::build(self.brief, self.tables)
    }

    /// One more platform was checked.
    pub(super) fn tick(&self) {
        (self.tick)();
    }

    /// The brief with something changed.
    pub(super) fn with(&self, change: impl FnOnce(&mut Brief)) -> Brief {
        let mut brief = self.brief.clone();
        change(&mut brief);
        brief
    }

    /// Builds and checks a changed brief.
    pub(super) fn try_brief(&self, brief: &Brief) -> Tried {
        self.try_built(brief, |_| ())
    }

    /// Builds a changed brief, changes the platform in what no brief can say, and checks it.
    pub(super) fn try_built(&self, brief: &Brief, change: impl FnOnce(&mut Platform)) -> Tried {
        let tried = match Platform::build(brief, self.tables) {
            Err(mistakes) => Tried::Impossible(mistakes.first().map_or(String::new(), |m| m.message.clone())),
            Ok(mut p) => {
                change(&mut p);
                match check(&p) {
                    Ok(a) => Tried::Checked(Outcome::of(&a)),
                    Err(e) => Tried::Impossible(e.to_string()),
                }
            }
        };
        (self.tick)();
        tried
    }
}
