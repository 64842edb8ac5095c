//! What a change of the brief changed, as text.

use super::answer::{briefly, ratio, table};
use super::text::wrap;
use crate::check::{Assessment, Verdict};
use crate::choose::{Outcome, Weakest};

/// Where a platform stands, as far as a change of it is told.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    verdict: Verdict,
    /// Rules for guards, openings and heights that are not kept.
    openings: Vec<String>,
    outcome: Outcome,
}

impl Standing {
    /// Of an assessment.
    pub fn of(a: &Assessment) -> Standing {
        let openings = a.openings_not_kept().map(|(m, _)| m.id.clone()).collect();
        Standing { verdict: a.verdict(), openings, outcome: Outcome::of(a) }
    }
}

/// The verdict, the weakest link and the ratios that moved; `cured` when mistakes stood in the brief between the two.
pub fn text(before: &Standing, now: &Standing, cured: bool) -> String {
    let mut out = String::new();
    let verdict = word(now.verdict);
    let opening = if before.verdict == now.verdict {
        format!("Still {verdict}.")
    } else {
        format!("{verdict}, was {}.", word(before.verdict))
    };
    let opening = if cured { format!("{opening} It can be read again.") } else { opening };
    wrap(&opening, "", "", &mut out);
    for (words, of, other) in [("Not kept any more", now, before), ("Kept now", before, now)] {
        for rule in of.openings.iter().filter(|r| !other.openings.contains(r)) {
            wrap(&format!("{words}: {rule}."), "", "  ", &mut out);
        }
    }
    let (before, now) = (&before.outcome, &now.outcome);
    let [was, is] = [before, now].map(|o| o.weakest.as_ref().map_or("nothing".to_owned(), briefly));
    let weakest = if was == is { format!("Weakest as before: {is}.") } else { format!("Weakest: {is}, was {was}.") };
    wrap(&weakest, "", "", &mut out);
    for what in now.unchecked.iter().filter(|w| !before.unchecked.contains(w)) {
        wrap(&format!("Not checked any more: {what}."), "", "  ", &mut out);
    }
    for what in before.unchecked.iter().filter(|w| !now.unchecked.contains(w)) {
        wrap(&format!("Checked now: {what}."), "", "  ", &mut out);
    }
    let rows = moved(before, now);
    if rows.is_empty() {
        wrap("No ratio moved.", "", "", &mut out);
    } else {
        out.push('\n');
        table(&["worst of its kind", "was", "is", ""], rows, &[1, 2], &mut out);
    }
    out
}

fn word(v: Verdict) -> &'static str {
    match v {
        Verdict::Pass => "PASS",
        Verdict::Fail => "FAIL",
        Verdict::NotChecked => "NOT CHECKED",
    }
}

/// A row for each kind of part whose worst member prints another ratio, or is gone or new.
fn moved(before: &Outcome, now: &Outcome) -> Vec<Vec<String>> {
    let mut roles: Vec<_> = before.by_role.iter().chain(&now.by_role).map(|w| w.role).collect();
    roles.sort_unstable();
    roles.dedup();
    let shown = |w: Option<&Weakest>| w.map_or("-".to_owned(), |w| ratio(w.ratio));
    let mut rows = Vec::new();
    for role in roles {
        let (was, is) = (before.of_role(role), now.of_role(role));
        let [a, b] = [was, is].map(shown);
        if a == b && was.map(|w| w.limit) == is.map(|w| w.limit) {
            continue;
        }
        let name = is.or(was).map_or(String::new(), |w| format!("{} {}", w.member.replace(',', ""), w.limit.name()));
        let fails = is.is_some_and(|w| !w.passes());
        rows.push(vec![name, a, b, if fails { "FAIL".into() } else { String::new() }]);
    }
    rows
}
