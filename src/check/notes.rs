//! What was not checked, and the cautions that stand on every report.

use super::desk::Desk;
use crate::brief::RuleFamily;
use crate::platform::WoodChoice;
use crate::quantity::unit::inch;
use crate::source::Seen;

/// Why a part is not checked that the brief leaves out.
const NOT_DESCRIBED: &str = "the brief does not describe them";

/// Something that was not checked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotChecked {
    /// What.
    pub what: String,
    /// Why.
    pub why: String,
    /// Whether it is a part of the load path that the brief describes, so that there is no verdict
    /// without it.
    pub carries_load: bool,
}

/// Adds what holds for every platform, and what this one's height and people bring.
pub(super) fn standing(desk: &mut Desk<'_>, openings: bool) {
    let p = desk.p;
    for text in [
        "Computed from published design values for wood that may not be what was bought. \
         Look at each slat: one cross-grained piece or edge knot outweighs every factor here.",
        "Local codes and a licensed engineer come first.",
        "This is not a substitute for a load test: put the load on it, low down, before anyone sleeps on it.",
        "Guard, opening and ladder rules for children's bunks are law in some places.",
    ] {
        desk.caution(text.into());
    }
    let mut woods: Vec<&WoodChoice> = vec![&p.slats.stick.wood];
    for s in &p.sides {
        woods.extend([&s.cleat.wood, &s.rail.stick.wood]);
    }
    woods.extend(p.posts.iter().map(|posts| &posts.stick.wood));
    woods.extend(p.bracing.knees.iter().map(|k| &k.stick.wood));
    woods.extend(p.bracing.diagonals.iter().map(|d| &d.stick.wood));
    woods.extend(p.end_rails.iter().map(|e| &e.stick.wood));
    if let Some(beam) = &p.centre_beam {
        woods.push(&beam.stick.wood);
        woods.extend(beam.legs.iter().map(|legs| &legs.stick.wood));
    }
    if woods.iter().any(|w| w.provenance().seen == Seen::Memory) {
        desk.caution(
            "Some wood values were entered from memory of the published table, though many were confirmed by \
             published spans: `slatwright timber` shows which. Compare them with the table before relying on them."
                .into(),
        );
    }
    if woods.iter().any(|w| matches!(w, WoodChoice::Ungraded { .. })) {
        desk.caution(
            "Ungraded wood is checked from clear-wood averages reduced for the knot and slope of grain in the \
             brief: no piece may have a larger knot or steeper grain."
                .into(),
        );
    }
    let by_rules = desk.rules.unchecked();
    let mut unchecked =
        |what: &str, why: &str| desk.note(NotChecked { what: what.into(), why: why.into(), carries_load: false });
    if p.posts.is_none() {
        unchecked("posts, legs and bracing, and racking and tipping of the whole", NOT_DESCRIBED);
    }
    if let Some((what, why)) = by_rules {
        unchecked(what, why);
    }
    let absent = [("guard", p.guard.is_none()), ("ladder", p.ladder.is_none())];
    for (what, _) in absent.into_iter().filter(|(_, absent)| *absent && p.height.is_none_or(|h| h > inch(24.0))) {
        unchecked(what, "the brief does not describe one; local law may ask for it");
    }
    if (p.guard.is_some() || p.ladder.is_some()) && !openings {
        unchecked(
            "gaps, openings and heights of guard and ladder",
            "no rule known here reaches a platform of this height, or the brief wants none; local law may",
        );
    }
    let infill = p.guard.as_ref().is_some_and(|g| g.lower.is_some() || g.bars.is_some());
    if infill && p.rules == RuleFamily::LimitState {
        unchecked("the guard's infill", "EN 1991-1-1 has no load on it alone; some national annexes do");
    }
    if p.guard.is_some() && p.rules == RuleFamily::AllowableStress {
        unchecked(
            "the line load along the guard's own length",
            "ASCE 7 asks it in any direction, and of no dwelling of one or two families",
        );
    }
    if p.guard.is_some() {
        unchecked("the bed's rails under a push on the guard", "they bend sideways and twist; no rule apportions it");
    }
    if p.centre_beam.is_some() && p.end_rails.is_none() {
        unchecked("what the centre beam's ends rest on or hang from", NOT_DESCRIBED);
    }
    unchecked(
        "twisting of a rail by the cleat on its face",
        "slats, end joints and cleat share it; no rule apportions it",
    );
    if p.slats.fixed && p.centre_beam.is_none() {
        unchecked("the screws that hold the slats down", "nothing lifts a slat between two cleats");
    }
    if p.sides.iter().any(|s| s.rail.studs.is_some()) {
        unchecked("the wall behind the studs", "it is the building's");
    }
}
