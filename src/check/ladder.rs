//! The ladder: its rungs, what holds their ends, its stringers and its top.

use super::beside::{Beside, worst_of_each};
use super::capacity::{Contact, Face, Joined, Rated, RatedPipe, Standing};
use super::desk::Desk;
use super::screw::too_short;
use super::slat::PRACTICE;
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::{Worked, given, plain};
use crate::load::{CaseKind, rung_load};
use crate::platform::{Ladder, Rung, RungEnd, Stick};
use crate::quantity::unit::millimetre;
use crate::quantity::{BendingMoment, FlexuralRigidity, Force, Length, Stress, number};
use crate::rules::RuleError;
use crate::rules::round::{bar_bending_stress, bar_second_moment, bar_shear_stress};
use crate::source::{Citation, Seen};
use crate::tables::fasteners::Screw;

const STATICS: Citation = Citation::new("statics", "", Seen::Memory);
/// Under a step a rung may sag this part of its span: no source.
const RUNG_SAG: f64 = 150.0;

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(ladder) = &desk.p.ladder else { return };
    let (Some(load), Some(case)) = (rung_load(desk.p), desk.beside(CaseKind::OnRung)) else { return };
    for (what, made) in [
        ("the rungs", rung(desk, ladder, load, case)),
        ("the ends of the rungs", ends(desk, ladder, load, case)),
        ("the stringers", stringer(desk, ladder, load, case)),
        ("the top of the ladder", top(desk, ladder, load, case)),
    ] {
        match made {
            Ok(member) => desk.member(member),
            Err(e) => desk.unchecked(what, &e),
        }
    }
}

fn made_of(desk: &Desk<'_>, rung: &Rung) -> String {
    let stick = |s: &Stick, shape: &str| format!("{shape}{}, {}", s.size_text(desk.p.units), s.wood.name());
    match rung {
        Rung::Tread(s) => stick(s, ""),
        Rung::Round(s) => stick(s, "round, "),
        Rung::Pipe(p) => format!("{}, {}", p.name, p.steel),
    }
}

/// A rung: the step in its middle for bending and sag, beside a stringer for shear.
fn rung(desk: &Desk<'_>, l: &Ladder, load: Force, case: Beside) -> Result<Member, RuleError> {
    let step = desk.factored("P", load);
    let moment: Worked<BendingMoment> = (step.clone() * given("L", l.span()) / plain(4.0)).step("M", STATICS);
    let (checks, rigidity): (Vec<Check>, Worked<FlexuralRigidity>) = match &l.rung {
        Rung::Tread(s) => {
            let rated = desk.rules.rated(s, Face::across(s));
            let (b, d) = (given("b", rated.breadth()), given("d", rated.depth()));
            let second = (b * d.clone() * d.clone() * d / plain(12.0)).step("I", STATICS);
            let stresses = (rated.bending_stress(moment.value), rated.shear_stress(step.value));
            (wooden(desk, &*rated, case, &moment, stresses)?, (rated.modulus()? * second).step("E·I", STATICS))
        }
        Rung::Round(s) => {
            let rated = desk.rules.rated(s, Face::Edgewise);
            let stresses = (bar_bending_stress(moment.value, s.width), bar_shear_stress(step.value, s.width));
            let second = bar_second_moment(s.width);
            (wooden(desk, &*rated, case, &moment, stresses)?, (rated.modulus()? * second).step("E·I", STATICS))
        }
        Rung::Pipe(pipe) => {
            let RatedPipe { moment: holds, shear, modulus, second_moment } = desk.rules.pipe(pipe)?;
            let checks = vec![
                desk.compare_beside(Limit::Bending, case, &moment, &holds),
                desk.compare_beside(Limit::Shear, case, &step, &shear),
            ];
            (checks, (modulus * second_moment).step("E·I", STATICS))
        }
    };
    let span = || given("L", l.span());
    let sag: Worked<Length> = given("P", load) * span() * span() * span() / (plain(48.0) * rigidity);
    let allowed = (span() / plain(RUNG_SAG)).step("Δ allowed", PRACTICE);
    let mut checks = checks;
    checks.push(desk.compare_beside(Limit::Deflection, case, &sag.step("Δ", STATICS), &allowed));
    Ok(Member { id: "rung".into(), role: Role::Rung, made_of: made_of(desk, &l.rung), checks })
}

fn wooden(
    desk: &Desk<'_>,
    rated: &dyn Rated,
    case: Beside,
    moment: &Worked<BendingMoment>,
    (bent, sheared): (Worked<Stress>, Worked<Stress>),
) -> Result<Vec<Check>, RuleError> {
    let bending = desk.compare_beside(Limit::Bending, case, &bent, &rated.bending(case.duration, None)?);
    let shear = desk.compare_beside(Limit::Shear, case, &sheared, &rated.shear(case.duration)?);
    Ok(vec![bending.after(&[moment.expression()]), shear])
}

/// A rung's end, with the whole step beside it.
fn ends(desk: &Desk<'_>, l: &Ladder, load: Force, case: Beside) -> Result<Member, RuleError> {
    let step = desk.factored("P", load);
    let (made_of, checks) = match &l.ends {
        RungEnd::Housed { depth } => ("let into the stringer".to_owned(), housed(desk, l, *depth, &step, case)?),
        RungEnd::Screws { screw, count } => {
            let made_of = format!("{count} x {}", screw.designation);
            let tread = match &l.rung {
                Rung::Tread(s) | Rung::Round(s) => s,
                Rung::Pipe(_) => {
                    return Err(RuleError::not_covered("a screw in the end of a pipe", "let it in instead"));
                }
            };
            let joined = into_rung(l, tread, screw);
            let in_main = joined.in_main();
            let rated = desk.rules.screwed(joined);
            match too_short(&*rated, &screw.designation, in_main)? {
                Some(check) => (made_of, vec![check]),
                None => {
                    let one = rated.at_angle(&rated.lateral()?, case.duration, 0.0)?;
                    let all = (given("n", number(*count as f64)) * one).step("n Z'", PRACTICE);
                    (made_of, vec![desk.compare_beside(Limit::Joint, case, &step, &all)])
                }
            }
        }
    };
    Ok(Member { id: "rung end".into(), role: Role::RungEnd, made_of, checks })
}

/// A rung let into its stringer presses across its own grain, and a round one on the stringer too, which is
/// held to its strength across the grain although it is pressed nearly along it.
fn housed(
    desk: &Desk<'_>,
    l: &Ladder,
    depth: Length,
    step: &Worked<Force>,
    case: Beside,
) -> Result<Vec<Check>, RuleError> {
    let end = Contact { length: depth, to_end: Length::default(), to_load: Length::default() };
    let mut checks = Vec::new();
    let mut press = |stick: &Stick, breadth: Length, what: &str| -> Result<(), RuleError> {
        let rated = desk.rules.rated(stick, Face::across(stick));
        let capacity = rated.bearing(case.duration, &end)?;
        let counts = rated.contact_length(&end)?;
        let demand = rated.bearing_stress(step.value, breadth, &counts);
        checks.push(desk.compare_beside(Limit::Bearing, case, &demand, &capacity).remarked(what));
        Ok(())
    };
    match &l.rung {
        Rung::Tread(s) => press(s, s.width, "the tread's end in its housing")?,
        Rung::Round(s) => {
            press(s, s.width, "the rung's end in its hole")?;
            press(&l.stringer, s.width, "the stringer under the rung, as if across its grain")?;
        }
        Rung::Pipe(p) => press(&l.stringer, p.outside, "the stringer under the pipe, as if across its grain")?,
    }
    Ok(worst_of_each(checks))
}

/// A stringer with the whole step on it, half way up: bent by what of the step is across it, pressed by what is
/// along it, both as one force off its axis. Where a rung is let in, what is left of its thickness bears both.
fn stringer(desk: &Desk<'_>, l: &Ladder, load: Force, case: Beside) -> Result<Member, RuleError> {
    let cut = match &l.ends {
        RungEnd::Housed { depth } => *depth,
        RungEnd::Screws { .. } => Length::default(),
    };
    let net = Stick { thickness: l.stringer.thickness - cut, ..l.stringer.clone() };
    if net.thickness <= Length::default() {
        return Err(RuleError::not_covered("a stringer cut through by its rungs", "let the rungs in less far"));
    }
    let length = l.length();
    let along = given("h", l.height) / given("ℓ", length);
    let across = given("out", l.out) / given("ℓ", length);
    let axial = (desk.factored("P", load) * along).step("N", STATICS);
    let moment: Worked<BendingMoment> =
        (desk.factored("P", load) * across * given("ℓ", length) / plain(4.0)).step("M", STATICS);
    let off = (moment.clone() / axial.clone()).step("e", STATICS);
    let standing = Standing {
        stick: &l.stringer,
        length,
        sways: false,
        off_axis: [off.clone(), given("e across", Length::default())],
        hole: Default::default(),
    };
    let rated = desk.rules.post(&standing);
    let mut checks = Vec::new();
    if let Some([slender, most]) = rated.slenderness()? {
        checks.push(desk.compare_beside(Limit::Slenderness, case, &slender, &most));
    }
    let [demand, capacity] = rated.buckling(case.duration, &axial)?;
    let check = desk.compare_beside(Limit::Buckling, case, &demand, &capacity).after(&[off.expression()]);
    checks.push(check.remarked("the whole step on one stringer, half way up"));
    // As deep as the stringer is wide, whichever of the two is larger.
    let rated = desk.rules.rated(&net, Face::across(&net).turned());
    let pressed = axial.clone() / (given("b", rated.breadth()) * given("d", rated.depth()));
    let stress = (rated.bending_stress(moment.value) + pressed).step("fb + fc", STATICS);
    let bending = desk.compare_beside(Limit::Bending, case, &stress, &rated.bending(case.duration, None)?);
    let before = [axial.expression(), moment.expression()];
    checks.push(bending.after(&before).remarked("bending and compression where a rung is let in"));
    let made_of = format!("{}, {}", l.stringer.size_text(desk.p.units), l.stringer.wood.name());
    Ok(Member { id: "stringer".into(), role: Role::Stringer, made_of, checks })
}

/// A screw through a stringer into a rung's end.
pub(super) fn into_rung<'a>(l: &'a Ladder, rung: &'a Stick, screw: &'a Screw) -> Joined<'a> {
    Joined {
        screw,
        side: (&l.stringer.wood, l.stringer.thickness, 0.0),
        main: (&rung.wood, None, 90.0),
        gap: Length::default(),
        end_grain: true,
        pulled: false,
    }
}

/// A screw through a stringer's top into the bed's rail.
pub(super) fn into_bed<'a>(l: &'a Ladder, rail: &'a Stick) -> Joined<'a> {
    Joined {
        screw: &l.top.screw,
        side: (&l.stringer.wood, l.stringer.thickness, 0.0),
        main: (&rail.wood, Some(rail.thickness), 90.0),
        gap: Length::default(),
        end_grain: false,
        pulled: true,
    }
}

/// How far outside the rungs a climber's weight hangs: no source.
const LEANS_BACK: f64 = 300.0;

/// The top of the ladder, pulled off the bed by a climber who leans back on it: all of it at one stringer. The
/// floor carries the weight.
fn top(desk: &Desk<'_>, l: &Ladder, load: Force, case: Beside) -> Result<Member, RuleError> {
    let (fixing, p) = (&l.top, desk.p);
    let (rail, _) = p.rail_along(l.edge);
    let joined = into_bed(l, rail);
    let member = |checks| Member {
        id: "ladder top".into(),
        role: Role::LadderTop,
        made_of: format!("{} x {}", fixing.count, fixing.screw.designation),
        checks,
    };
    let in_main = joined.in_main();
    let screw = desk.rules.screwed(joined);
    if let Some(check) = too_short(&*screw, &fixing.screw.designation, in_main)? {
        return Ok(member(vec![check]));
    }
    let back = desk.factored("P", load) * given("e", millimetre(LEANS_BACK)) / given("h", l.height);
    let one = screw.at_angle(&screw.lateral()?, case.duration, 90.0)?;
    let all = (given("n", number(fixing.count as f64)) * one).step("n W'", PRACTICE);
    let check = desk.compare_beside(Limit::Screw, case, &back.step("T", PRACTICE), &all);
    Ok(member(vec![check.remarked("a climber leans back 300 mm from the rungs; all on one stringer")]))
}
