//! Demand against capacity, member by member. Nothing here prints.

mod alike;
mod beside;
mod board;
mod bolt;
mod borne;
mod brace;
mod capacity;
mod centre_beam;
mod cleat;
mod compare;
mod cut;
mod desk;
mod diagram;
mod end_rail;
mod envelope;
mod guard;
mod influence;
mod joint;
mod ladder;
mod model;
mod notes;
mod opening;
mod post;
mod prediction;
mod press;
mod probe;
mod proof;
mod pushed_end;
mod rail;
mod remedy;
mod schedule;
mod screw;
mod slat;
mod sweep;
mod trial;
mod two_span;
mod verdict;
mod whole;

pub use alike::{Alike, Between, Found};
pub use board::{Batch, BoardStiffness, OfTable, batch, board_stiffness};
pub use compare::{Cause, Part, RolePair, Why, compare};
pub use diagram::{Diagram, Effect, MemberDiagrams, Ordinate, diagrams};
pub use model::Framing;
pub use notes::NotChecked;
pub use opening::Openings;
pub use prediction::{Prediction, predict};
pub use proof::{Area, Dip, Nearest, Proof, Reach, Spread, Step as TestStep, Turn, proof};
pub use remedy::{BesideChange, BoltChange, BraceChange, Change, EndRailChange, Remedy};
pub use schedule::{Hardware, Hole, Piece, Schedule, Section};
pub use verdict::{Assessment, CaseSummary, Check, Limit, Member, Role, Verdict, Where};

use std::fmt;

use desk::Desk;
use envelope::{Asked, Envelope};

use crate::load::{Case, CaseKind, Dead, cases, cases_of};
use crate::platform::Platform;
use crate::statics::StaticsError;

/// Why a platform could not be checked at all.
#[derive(Clone, Debug, PartialEq)]
pub enum CheckError {
    /// The frame of lines and slats has no solution.
    Statics(StaticsError),
}

impl fmt::Display for CheckError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            CheckError::Statics(e) => write!(f, "the platform cannot be analysed: {e}"),
        }
    }
}

impl std::error::Error for CheckError {}

impl From<StaticsError> for CheckError {
    fn from(e: StaticsError) -> Self {
        CheckError::Statics(e)
    }
}

/// Checks every slat, cleat, screw, rail, beam, joint and post of a platform for every case.
///
/// # Errors
///
/// [`CheckError`] when the frame cannot be analysed. A member that fails, or a rule that has no
/// answer, is a result, not an error.
pub fn check(p: &Platform) -> Result<Assessment, CheckError> {
    Ok(with_cases(p)?.1)
}

/// As [`check`], with the cases it was made in.
fn with_cases(p: &Platform) -> Result<(Vec<Case>, Assessment), CheckError> {
    // All on the pool's threads: each step below then finds them awake.
    rayon::scope(|_| {
        let (cases, framing) = rayon::join(|| cases(p), || Framing::of(p));
        let assessment = check_framed(p, &framing?, &Dead::of(p), &cases)?;
        Ok((cases, assessment))
    })
}

/// As [`check`], in one case alone.
fn check_case(p: &Platform, kind: CaseKind) -> Result<Assessment, CheckError> {
    check_cases(p, &cases_of(p, &|own| own == kind))
}

type Put = fn(&mut Desk<'_>);

/// What puts demands against capacities, and the roles of the members that it does so for.
const CHECKS: [(Put, &[Role]); 12] = [
    (slat::check, &[Role::Slat]),
    (cleat::check, &[Role::Cleat]),
    (screw::check, &[Role::CleatScrew]),
    (rail::check, &[Role::Rail]),
    (centre_beam::check, &[Role::CentreBeam, Role::Leg]),
    (joint::check, &[Role::EndJoint, Role::StudScrew]),
    (end_rail::check, &[Role::EndRail, Role::EndRailJoint]),
    (post::check, &[Role::Post]),
    (guard::check, &[Role::GuardRail, Role::GuardPost, Role::GuardPostScrews, Role::GuardInfill]),
    (ladder::check, &[Role::Rung, Role::RungEnd, Role::Stringer, Role::LadderTop]),
    (brace::check, &[Role::Brace, Role::Rail, Role::EndJoint]),
    (whole::check, &[Role::Platform]),
];

fn check_cases(p: &Platform, cases: &[Case]) -> Result<Assessment, CheckError> {
    check_under(p, &Dead::of(p), cases)
}

/// As [`check_cases`], with another dead load.
fn check_under(p: &Platform, dead: &Dead, cases: &[Case]) -> Result<Assessment, CheckError> {
    check_framed(p, &Framing::of(p)?, dead, cases)
}

fn check_framed(p: &Platform, framing: &Framing, dead: &Dead, cases: &[Case]) -> Result<Assessment, CheckError> {
    Ok(assessed(p, cases, &Envelope::run(p, framing, dead, cases, Asked::ALL)?))
}

/// Openings and every check of an envelope of everything.
fn assessed(p: &Platform, cases: &[Case], envelope: &Envelope) -> Assessment {
    // Checks up to the cleats' screws take about as long as all the others, and no check reads another's members.
    let (first, rest) = CHECKS.split_at(3);
    let made = |checks: &[(Put, &[Role])], mut desk: Desk<'_>| {
        checks.iter().for_each(|(check, _)| check(&mut desk));
        desk.clear()
    };
    let (first, rest) =
        rayon::join(|| made(first, Desk::new(p, cases, envelope)), || made(rest, Desk::new(p, cases, envelope)));
    let mut desk = Desk::new(p, cases, envelope);
    let openings = opening::check(&mut desk);
    desk.add(first);
    desk.add(rest);
    desk.close(openings)
}

/// Checks a platform, predicts what does not decide, and looks for the smallest changes that would make
/// what fails pass.
///
/// # Errors
///
/// As [`check`].
pub fn check_with_remedies(p: &Platform) -> Result<(Assessment, Vec<Remedy>), CheckError> {
    let (cases, mut assessment) = with_cases(p)?;
    assessment.predictions = predict(p)?;
    let remedies = remedy::find(p, &cases, &assessment);
    Ok((assessment, remedies))
}
