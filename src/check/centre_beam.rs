//! The centre beam: bending, shear, sag now and after creep, the slats bearing on it, its end joints, and
//! the legs under it.

use super::capacity::{ByDuration, Contact, Face, Rated, Standing};
use super::desk::{Candidate, Desk};
use super::envelope::exceeds;
use super::joint::{End, end_joint};
use super::model::{CENTRE, MIDDLE};
use super::notes::NotChecked;
use super::post;
use super::rail::{CREEP_ALLOWANCE, line_bending, line_shear, longest_span, strength};
use super::slat::{crept, sag};
use super::verdict::{Check, Limit, Member, Role};
use crate::derivation::{Worked, given};
use crate::load::{Case, Duration};
use crate::platform::{CentreBeam, EndKind, Holder, Legs, Stick, Top};
use crate::quantity::unit::{metre, millimetre, newton};
use crate::quantity::{Force, Length, Measured, Stress};
use crate::rules::RuleError;

pub(super) fn check(desk: &mut Desk<'_>) {
    let Some(beam) = &desk.p.centre_beam else { return };
    match member(desk, beam) {
        Ok(m) => desk.member(m),
        Err(e) => desk.unchecked("strength of the centre beam", &e),
    }
    let last = desk.envelope.supports(MIDDLE).len() - 1;
    for (support, end) in [(0, "head"), (last, "foot")] {
        // The first slat lies flush with the end of the platform, where the support begins.
        let id = format!("centre beam, {end} end");
        let envelope = desk.envelope;
        let force = |k: usize| envelope.support(k, MIDDLE, support);
        let (stick, ends) = (&beam.stick, &beam.ends);
        let beneath =
            (ends.holder == Holder::Post).then_some("bearing in the centre beam; what it rests on is not described");
        let end = End { stick, ends, to_load: Length::default(), force: &force, beneath };
        end_joint(desk, &end, Role::EndJoint, id);
    }
    if let Some(legs) = &beam.legs {
        check_legs(desk, beam, legs);
    }
    parting(desk, beam);
    lifting(desk);
}

fn member(desk: &Desk<'_>, beam: &CentreBeam) -> Result<Member, RuleError> {
    let p = desk.p;
    let rated = desk.rules.upright(&beam.stick);
    let span = longest_span(desk, MIDDLE);
    let durations = desk.durations();
    let bending = ByDuration::of(&durations, |d| rated.bending(d, Some(span)))?;
    let shear = ByDuration::of(&durations, |d| rated.shear(d))?;
    let mut checks = Vec::new();
    checks.extend(line_bending(desk, &*rated, &bending, CENTRE));
    checks.extend(line_shear(desk, &*rated, &shear, CENTRE));
    checks.extend(sag(desk, |k| desk.envelope.line(k, CENTRE).deflection.as_ref(), span, p.limits.rail));
    let lasting = |k: usize| desk.envelope.line(k, CENTRE).lasting.as_ref();
    checks.extend(crept(desk, lasting, span, p.limits.rail / CREEP_ALLOWANCE)?);
    checks.extend(under_slats(desk, beam)?);
    let made_of = format!("{}, {}", beam.stick.size_text(p.units), beam.stick.wood.name());
    Ok(Member { id: "centre beam".into(), role: Role::CentreBeam, made_of, checks })
}

/// A member pressed across its grain, with the pressure it may take.
struct Pressed {
    rated: Box<dyn Rated>,
    contact: Worked<Length>,
    allowed: ByDuration<Stress>,
}

impl Pressed {
    fn of(desk: &Desk<'_>, rated: Box<dyn Rated>, contact: &Contact) -> Result<Pressed, RuleError> {
        let allowed = ByDuration::of(&desk.durations(), |d| rated.bearing(d, contact))?;
        Ok(Pressed { contact: rated.contact_length(contact)?, allowed, rated })
    }

    /// The force it takes over this breadth.
    fn holds(&self, d: Duration, breadth: Length) -> f64 {
        self.allowed.si(d) * (breadth * self.contact.value).value
    }

    fn check(&self, desk: &Desk<'_>, worst: &Candidate<'_>, breadth: Length, remark: &str) -> Check {
        let demand = self.rated.bearing_stress(newton(worst.peak.value), breadth, &self.contact);
        let mut check = desk.compare(Limit::Bearing, worst, &demand, self.allowed.get(desk.cases[worst.case].duration));
        check.remark = Some(remark.into());
        check
    }
}

/// The slat that presses hardest, in the slat or in the beam, whichever gives first.
fn under_slats(desk: &Desk<'_>, beam: &CentreBeam) -> Result<Option<Check>, RuleError> {
    let slats = &desk.p.slats;
    let (none, wide) = (Length::default(), beam.stick.thickness);
    // Somebody may sit right above: no increase for the length of the contact.
    let on_slat = Contact { length: wide, to_end: none, to_load: none };
    let on_beam = Contact { length: slats.breadth(), to_end: none, to_load: none };
    let slat = Pressed::of(desk, desk.rules.rated(&slats.stick, Face::from(slats.lay)), &on_slat)?;
    let under = Pressed::of(desk, desk.rules.upright(&beam.stick), &on_beam)?;
    let of_slat = |d| slat.holds(d, slats.breadth());
    let of_beam = |d| under.holds(d, wide);
    let in_slat = of_slat(Duration::Permanent) <= of_beam(Duration::Permanent);
    let worst = (0..slats.count)
        .filter_map(|i| {
            let peak = |k: usize| desk.envelope.slat(k, i).over_beam.as_ref();
            let counts = |c: &Case| strength(c) && c.use_.slats;
            desk.worst(counts, peak, |c| of_slat(c.duration).min(of_beam(c.duration)))
        })
        .fold(None, |best: Option<Candidate<'_>>, this| match best {
            Some(b) if !exceeds(this.ratio, b.ratio) => Some(b),
            _ => Some(this),
        });
    Ok(worst.map(|w| {
        if in_slat {
            slat.check(desk, &w, slats.breadth(), "a slat on the beam, governed by the slat")
        } else {
            under.check(desk, &w, wide, "a slat on the beam, governed by the beam")
        }
    }))
}

fn check_legs(desk: &mut Desk<'_>, beam: &CentreBeam, legs: &Legs) {
    let mut foot = Force::default();
    // A beam that bends over a leg may turn on it: the load is anywhere in the middle third (no source).
    let beside = (legs.stick.thickness / 2.0 - beam.stick.thickness / 2.0).max(Length::default());
    let off_axis = [given("e along", legs.stick.width / 6.0), given("e across", beside)];
    let standing = Standing {
        stick: &legs.stick,
        length: legs.length,
        sways: legs.top == Top::Free,
        off_axis,
        hole: Default::default(),
    };
    let held = desk.envelope.supports(MIDDLE).to_vec();
    for (j, x) in legs.positions.iter().enumerate() {
        let Some(support) = held.iter().position(|h| h == x) else { continue };
        let id = format!("leg {}", j + 1);
        let peak = |k: usize| desk.envelope.support(k, MIDDLE, support);
        foot = foot.max(post::greatest(desk, &standing, &peak));
        match leg(desk, beam, legs, &standing, support) {
            Ok(checks) => {
                let made_of = post::made_of(desk, &legs.stick);
                desk.member(Member { id, role: Role::Leg, made_of, checks });
            }
            Err(e) => desk.unchecked(&id, &e),
        }
    }
    desk.note(NotChecked {
        what: "the floor under the legs".into(),
        why: format!("it is the building's; a leg presses on it with up to {}", foot.measure().show(desk.p.units)),
        carries_load: false,
    });
}

/// A leg as a column, and the beam across its grain upon it.
fn leg(
    desk: &Desk<'_>,
    beam: &CentreBeam,
    legs: &Legs,
    standing: &Standing<'_>,
    support: usize,
) -> Result<Vec<Check>, RuleError> {
    let across = beam.stick.thickness.min(legs.stick.thickness);
    let peak = |k: usize| desk.envelope.support(k, MIDDLE, support);
    let mut checks = post::checks(desk, standing, &peak, Some([across, legs.stick.width]))?;
    if checks.iter().any(|c| c.limit == Limit::Slenderness && c.ratio > 1.0) {
        return Ok(checks);
    }
    let contact =
        Contact { length: legs.stick.width, to_end: to_end(desk, support, &legs.stick), to_load: Length::default() };
    let over = Pressed::of(desk, desk.rules.upright(&beam.stick), &contact)?;
    if let Some(worst) = desk.worst(strength, peak, |c| over.holds(c.duration, across)) {
        let check = over.check(desk, &worst, across, "the centre beam across its grain, over the leg");
        match checks.iter_mut().find(|c| c.limit == Limit::Bearing) {
            Some(own) if exceeds(check.ratio, own.ratio) => *own = check,
            Some(_) => {}
            None => checks.push(check),
        }
    }
    Ok(checks)
}

/// From a leg to the nearer end of the beam.
fn to_end(desk: &Desk<'_>, support: usize, leg: &Stick) -> Length {
    let held = desk.envelope.supports(MIDDLE);
    let (first, last) = (held[0], held[held.len() - 1]);
    let x = held[support];
    ((x - first).min(last - x) - leg.width / 2.0).max(Length::default())
}

/// A pull so small beside what the beam's supports carry that letting go of it moves nothing: no source.
const SMALL_PULL: f64 = 0.02;

/// Says where the beam would part from what it only rests on. The frame holds it down there, which shortens its
/// spans; where it pulls hard enough to matter, what was worked out does not hold.
fn parting(desk: &mut Desk<'_>, beam: &CentreBeam) {
    let last = desk.envelope.supports(MIDDLE).len() - 1;
    let rests = matches!(beam.ends.kind, EndKind::Bearing { .. });
    let counted: Vec<usize> = (0..desk.cases.len()).filter(|k| strength(&desk.cases[*k])).collect();
    let most = |of: &dyn Fn(usize) -> Option<f64>| counted.iter().filter_map(|k| of(*k)).fold(0.0, f64::max);
    let greatest =
        (0..=last).map(|j| most(&|k| desk.envelope.support(k, MIDDLE, j).map(|p| p.value))).fold(0.0, f64::max);
    let mut notes = Vec::new();
    for j in 0..=last {
        let (name, loose) = match j {
            0 => ("the centre beam's head end".to_owned(), rests),
            _ if j == last => ("the centre beam's foot end".to_owned(), rests),
            leg => (format!("the centre beam over leg {leg}"), true),
        };
        let pulls = most(&|k| desk.envelope.lift(k, j).map(|p| p.value));
        if loose && pulls > SMALL_PULL * greatest {
            let pulls = newton(pulls).measure().show_to(desk.p.units, 2);
            notes.push(NotChecked {
                what: name,
                why: format!(
                    "people elsewhere on the beam lift it there with {pulls}; it was taken to be held down, and the \
                     brief says of nothing that does: hang its ends on screws, or move the legs"
                ),
                carries_load: true,
            });
        }
    }
    notes.into_iter().for_each(|n| desk.note(n));
}

/// What a slat over three supports does to its ends.
fn lifting(desk: &mut Desk<'_>) {
    let p = desk.p;
    let slats = || (0..p.slats.count).flat_map(|i| (0..desk.cases.len()).map(move |k| (i, k)));
    let greatest = |of: &dyn Fn(usize, usize) -> f64| {
        slats().fold((0, 0, 0.0), |best, (i, k)| {
            let v = of(i, k);
            if exceeds(v, best.2) { (i, k, v) } else { best }
        })
    };
    let counted = |k: usize| strength(&desk.cases[k]);
    if p.slats.fixed {
        let pull = |i: usize, k: usize| match &desk.envelope.slat(k, i).uplift {
            Some(peak) if counted(k) => peak.value,
            _ => 0.0,
        };
        let (_, _, most) = greatest(&pull);
        let words = newton(most).measure().show(p.units);
        desk.note(NotChecked {
            what: "the screws that hold the slats down".into(),
            why: format!(
                "the brief does not describe them; over a centre beam the far end of a slat pulls with up to {words}"
            ),
            carries_load: false,
        });
        return;
    }
    let rise = |i: usize, k: usize| match &desk.envelope.slat(k, i).lift {
        Some(peak) if counted(k) => peak.value,
        _ => 0.0,
    };
    let (slat, case, most) = greatest(&rise);
    if metre(most) > millimetre(1.0) {
        let (rise, case) = (metre(most).measure().show_to(p.units, 2), desk.cases[case].kind.name());
        desk.caution(format!(
            "Loose slats see-saw on the centre beam: an end of slat {} rises {rise} off its cleat ({case}). Screw the \
             slats down.",
            slat + 1
        ));
    }
}
