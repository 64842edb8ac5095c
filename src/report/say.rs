//! Findings in a builder's words.

use super::Report;
use crate::check::{Check, Limit, Member, Verdict, Where};
use crate::load::CaseKind;
use crate::platform::Platform;
use crate::quantity::unit::inch;
use crate::quantity::{Length, UnitSystem, round_up, significant};

/// The verdict and its reason, in a few sentences: openings first, for no strength makes up for them.
pub(super) fn verdict(r: &Report<'_>) -> String {
    let not_kept: Vec<&Check> = r.assessment.openings_not_kept().map(|(_, c)| c).collect();
    let openings = not_kept.first().map(|c| {
        let first = c.remark.as_deref().unwrap_or_default();
        let more = match not_kept.len() {
            1 => String::new(),
            2 => ", and one rule more is not kept".into(),
            n => format!(", and {} rules more are not kept", n - 1),
        };
        format!("Guards and openings: {first}{more}. ")
    });
    let opening = match (r.assessment.carries(), &openings) {
        (Verdict::Pass, None) => "Every check that was made passes.",
        (Verdict::Pass, Some(_)) => "Everything that carries load passes.",
        (Verdict::Fail, _) => "This platform does not carry its people as drawn.",
        (Verdict::NotChecked, None) => "Nothing fails, but a part that carries load has no rule that answers.",
        (Verdict::NotChecked, Some(_)) => "Nothing that carries load fails, but a part of it has no rule that answers.",
    };
    let openings = openings.unwrap_or_default();
    let Some((m, c)) = r.assessment.weakest() else { return format!("{openings}{opening}") };
    let ratio = ratio_in_words(c, r.platform.units);
    format!("{openings}{opening} The weakest link is {}: {ratio}{}.", the(m), happens(c, r.platform))
}

/// A member in the middle of a sentence.
fn the(m: &Member) -> String {
    if m.id.starts_with("slat") { m.id.clone() } else { format!("the {}", m.id) }
}

/// When and where a check is at its worst, as the end of a sentence.
fn happens(c: &Check, p: &Platform) -> String {
    let at = c.place.as_ref().map(|w| place(w, p));
    match (c.limit, at) {
        (limit, _) if limit.stands_still() => String::new(),
        (_, Some(at)) => format!(" {} {at}", when(c.case)),
        (_, None) => format!(" {}", when(c.case)),
    }
}

/// A check's case for a column: a distance is kept or not whoever is there.
pub(super) fn case(c: &Check) -> &'static str {
    if c.limit.stands_still() { "always" } else { c.case.name() }
}

/// A title may hold anything; a line of output must not.
pub(super) fn printable(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// The case as the end of a sentence.
pub(super) fn when(case: CaseKind) -> &'static str {
    match case {
        CaseKind::Dead => "under its own weight",
        CaseKind::Lying => "when everybody lies down",
        CaseKind::Sitting => "when somebody sits",
        CaseKind::RowOnTheEdge => "when a row of people sits on the edge",
        CaseKind::Kneeling => "when somebody kneels",
        CaseKind::ClimbingIn => "when somebody climbs in",
        CaseKind::Dropping => "when somebody drops into a seat",
        CaseKind::Jumping => "when a child jumps",
        CaseKind::CodeUniform => "under the code's uniform load",
        CaseKind::CodePoint => "under the code's point load",
        CaseKind::Proof | CaseKind::ProofOnTheEdge => "under a furniture test's load",
        CaseKind::BareSlat => "when somebody stands on a bare slat",
        CaseKind::GuardPush => "when somebody falls against the guard",
        CaseKind::GuardLine => "under the code's load along the guard",
        CaseKind::GuardInfill => "when somebody leans on the guard's infill",
        CaseKind::GuardTest => "under the loads of a furniture test",
        CaseKind::OnRung => "when somebody stands on a rung",
        CaseKind::Racking => "when it is pushed sideways",
        CaseKind::Tipping => "when it is pushed or sat on at its edge",
    }
}

/// A length to the inch or the centimetre, for saying where somebody is.
pub(super) fn about(l: Length, units: UnitSystem) -> String {
    // Adding nothing takes the sign from what rounds to nothing.
    let whole = |v: f64| v.round_ties_even() + 0.0;
    match units {
        UnitSystem::Us => format!("{} in", whole(l.value / inch(1.0).value)),
        UnitSystem::Metric => format!("{} cm", whole(l.value * 100.0)),
    }
}

/// Where a load is: `31 in from the head, over slat 6, midspan`.
pub(super) fn place(w: &Where, p: &Platform) -> String {
    let mut parts = Vec::new();
    if let Some(area) = w.note.strip_prefix("on ") {
        return format!("on {area}");
    }
    parts.push(format!("{} from the head", about(w.place.x, p.units)));
    match w.over_slat {
        Some(n) => parts.push(format!("over slat {n}")),
        None => parts.push("over a gap".into()),
    }
    let (left, right) = (w.place.y, p.width - w.place.y);
    let near = inch(12.0);
    let beside_beam = p.centre_beam.as_ref().map(|beam| (left - beam.at).abs());
    parts.push(if beside_beam.is_some_and(|away| away < inch(1.0)) {
        "over the centre beam".into()
    } else if beside_beam.is_none() && (left - right).value.abs() < inch(1.0).value {
        "midspan".into()
    } else if left < near && left < right {
        "at the left rail".into()
    } else if right < near {
        "at the right rail".into()
    } else {
        format!("{} from the left rail", about(left, p.units))
    });
    if !w.note.is_empty() {
        parts.push(w.note.to_owned());
    }
    parts.join(", ")
}

/// What the ratio means, as the middle of a sentence.
pub(super) fn ratio_in_words(c: &Check, units: UnitSystem) -> String {
    if !c.ratio.is_finite() {
        return "it has nothing to hold with".into();
    }
    let ratio = round_up(c.ratio, 2);
    let times = if c.ratio > 1.0 { "times " } else { "of " };
    match c.limit {
        Limit::Deflection => {
            let (sag, allowed) = (c.demand.show_to(units, 2), c.capacity.show_to(units, 2));
            format!("it sags {sag}, where {allowed} is allowed,")
        }
        Limit::Creep => {
            let (sag, allowed) = (c.demand.show_to(units, 2), c.capacity.show_to(units, 2));
            format!("after years of use it sags {sag}, where {allowed} is allowed,")
        }
        Limit::Opening => c.remark.clone().unwrap_or_else(|| c.limit.name().into()),
        Limit::Spacing | Limit::Penetration | Limit::Washer => {
            let (needs, has) = (c.demand.show_to(units, 3), c.capacity.show_to(units, 3));
            let what = c.remark.clone().unwrap_or_else(|| c.limit.name().into());
            format!("{what}: it needs {needs} and has {has}")
        }
        Limit::Slenderness => {
            let (has, most) = (c.demand.show_to(units, 3), c.capacity.show_to(units, 3));
            format!("its length is {has} times its side, buckling counted, where {most} is allowed")
        }
        Limit::Uplift => format!("an end lifts with {ratio} {times}the weight that holds it down"),
        _ => format!("{} reaches {ratio} {times}what is allowed", c.limit.name()),
    }
}

/// The margin as a percentage, rounded down: what is in hand, or what is missing.
pub(super) fn margin(c: &Check) -> String {
    match c.margin() {
        None if c.ratio == 0.0 => "idle".into(),
        None => "none".into(),
        // The same hair as in rounding ratios up: 25 % exactly must not print as 24 %.
        Some(m) if m >= 10.0 => format!("x{}", significant((m + 1.0).floor(), 3)),
        Some(m) => format!("{:+.0} %", (m * 100.0 + 1e-9).floor()),
    }
}

/// A ratio for a column.
pub(super) fn ratio(c: &Check) -> String {
    if c.ratio.is_finite() { round_up(c.ratio, 2) } else { "none".into() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit::metre;

    #[test]
    fn nothing_has_no_sign() {
        assert_eq!(about(inch(-0.3), UnitSystem::Us), "0 in");
        assert_eq!(about(inch(-1.6), UnitSystem::Us), "-2 in");
        assert_eq!(about(metre(-0.004), UnitSystem::Metric), "0 cm");
        assert_eq!(about(metre(1.983), UnitSystem::Metric), "198 cm");
    }
}
