//! The answer in a builder's words, and its tables.

use super::{Answer, board_feet, bought, size_words, volume_words, words};
use crate::brief::LayWord;
use crate::check::{Limit, Verdict};
use crate::choose::{Choice, Made, Part, Purchase, Weakest};
use crate::quantity::{UnitSystem, length_for_builder, significant};
use crate::report::answer::{self, fails, ratio, table, the};
use crate::report::say::printable;
use crate::report::text::wrap;

/// The answer as text: 80 columns, the answer first.
pub fn text(a: &Answer<'_>) -> String {
    let mut out = String::new();
    wrap(&printable(&a.platform.title), "", "", &mut out);
    out.push('\n');
    wrap(&headline(a), "", "", &mut out);
    out.push('\n');
    let s = a.sizing;
    let least = if s.part == Part::Cleat { "fewest screws" } else { "least wood" };
    choices(a, &format!("Passes, {least} first"), &s.passing, &mut out);
    rest(s.pass, s.passing.len(), "pass", &mut out);
    choices(a, "Does not pass, nearest first", &s.failing, &mut out);
    rest(s.tried - s.pass - impossible(a), s.failing.len(), "do not", &mut out);
    left_out(&s.impossible, &mut out);
    if let (Some(p), Some(first)) = (a.purchase, s.passing.first()) {
        purchase(a, first, p, &mut out);
    }
    for note in a.notes {
        wrap(note, "", "", &mut out);
    }
    wrap(answer::BEAR_IN_MIND, "", "", &mut out);
    out
}

/// What could not be built. Reasons that differ in their last word alone, such as a size, stand together.
fn left_out(all: &[(String, usize)], out: &mut String) {
    let mut said: Vec<(&str, Vec<&str>)> = Vec::new();
    for (why, _) in all {
        let (head, last) = why.rsplit_once(' ').unwrap_or((why, ""));
        match said.iter_mut().find(|(h, _)| *h == head) {
            Some((_, tails)) => tails.push(last),
            None => said.push((head, vec![last])),
        }
    }
    for (head, tails) in &said {
        wrap(&format!("Left out: {} {}.", printable(head), printable(&tails.join(", "))), "", "  ", out);
    }
    if !said.is_empty() {
        out.push('\n');
    }
}

/// How many could not be built, of those that were tried.
fn impossible(a: &Answer<'_>) -> usize {
    a.sizing.impossible.iter().map(|(_, n)| n).sum::<usize>().min(a.sizing.tried - a.sizing.pass)
}

fn rest(all: usize, shown: usize, verb: &str, out: &mut String) {
    if all > shown && shown > 0 {
        let more = all - shown;
        out.push_str(&format!("{more} more {verb}; --limit shows more.\n\n"));
    } else if shown > 0 {
        out.push('\n');
    }
}

/// What no choice of the rack can do, and which comes nearest.
pub fn nothing(a: &Answer<'_>, whose: &str) -> String {
    let Some(nearest) = a.sizing.failing.first() else {
        let why = a.sizing.impossible.first().map_or(String::new(), |(why, _)| format!(": {}", printable(why)));
        return format!("{whose} can be used{why}");
    };
    let words = words(nearest, a.sizing.part, a.platform.units);
    let at = match &nearest.stopped_by {
        Some(w) if !w.passes() => format!("at ratio {} ({} in {})", ratio(w.ratio), the(&w.member), w.limit.name()),
        _ => format!("without a verdict: {}", nearest.outcome.unchecked.join(", ")),
    };
    let hold = if holds(nearest, a.sizing.part) { "; another part stops it" } else { "" };
    format!("{whose} passes; the nearest is {words} {at}{hold}")
}

fn headline(a: &Answer<'_>) -> String {
    let (s, units) = (a.sizing, a.platform.units);
    let Some(first) = s.passing.first() else {
        let nearest = s.failing.first().map_or(String::new(), |c| {
            let hold = format!(" These {} hold, but another part does not.", members(s.part));
            let hold = if holds(c, s.part) { hold } else { String::new() };
            format!(" The nearest is {}: {}{hold}", words(c, s.part, units), why_not(c))
        });
        return format!("NOTHING PASSES. Of {} choices none makes this platform pass.{nearest}", s.tried);
    };
    let l = |v| length_for_builder(v, units);
    let mut say = match (&s.thinnest, s.part) {
        (Some(t), Part::Slat) => {
            let depth = l(t.made.depth());
            format!("{} IS ENOUGH. The thinnest slats that pass: {}.", depth.to_uppercase(), words(t, s.part, units))
        }
        (Some(t), _) => {
            let depth = l(t.made.depth());
            format!(
                "{} IS DEEP ENOUGH. The shallowest rails that pass: {}.",
                depth.to_uppercase(),
                words(t, s.part, units)
            )
        }
        (None, _) => {
            let n = match &first.made {
                Made::Screws { count, .. } => *count,
                Made::Sticks { pieces, .. } => pieces.0,
            };
            format!("{n} SCREWS ARE ENOUGH. The fewest that pass: {}.", words(first, s.part, units))
        }
    };
    if let Some(below) = &s.below {
        say.push_str(&format!(" At {} {}", l(below.made.depth()), why_not(below)));
    }
    if s.thinnest.as_ref().is_some_and(|t| t.made != first.made) {
        say.push_str(&format!(" The least wood: {}.", words(first, s.part, units)));
    }
    say.push(' ');
    say.push_str(&drawn(a));
    say
}

/// Whether what stops a choice is another member than the one that is sized.
fn holds(c: &Choice, part: Part) -> bool {
    c.stopped_by.as_ref().is_some_and(|w| w.role != part.role())
}

fn members(part: Part) -> &'static str {
    match part {
        Part::Slat => "slats",
        Part::Rail => "rails",
        Part::Cleat => "screws",
    }
}

/// Why a choice does not pass, as a sentence.
fn why_not(c: &Choice) -> String {
    match &c.stopped_by {
        Some(w) if !w.passes() => format!("{} {}.", the(&w.member), fails(w)),
        _ => format!("there is no verdict: {}.", c.outcome.unchecked.join(", ")),
    }
}

fn drawn(a: &Answer<'_>) -> String {
    let o = &a.sizing.drawn;
    match (o.carries, &o.weakest) {
        (Verdict::Pass, _) => "As drawn it passes.".into(),
        (Verdict::NotChecked, _) => "As drawn there is no verdict.".into(),
        (Verdict::Fail, Some(w)) => format!("AS DRAWN IT FAILS: {} {}.", the(&w.member), fails(w)),
        (Verdict::Fail, None) => "AS DRAWN IT FAILS.".into(),
    }
}

fn choices(a: &Answer<'_>, heading: &str, all: &[Choice], out: &mut String) {
    if all.is_empty() {
        return;
    }
    let units = a.platform.units;
    let unit = if units == UnitSystem::Us { "in" } else { "mm" };
    let cubic = if units == UnitSystem::Us { "ft³" } else { "m³" };
    let plain = |v| length_for_builder(v, units).trim_end_matches(unit).trim_start_matches('≈').trim().to_owned();
    let rows = a.sizing.passing.iter().chain(&a.sizing.failing).chain(&a.sizing.thinnest);
    let shown = Shown::of(rows.map(|c| &c.made));
    let row = |c: &Choice| {
        let (r, by) = match &c.stopped_by {
            Some(w) => (ratio(w.ratio), governs(w)),
            None => (String::new(), String::new()),
        };
        let mut row = match &c.made {
            Made::Sticks { section, stock, wood, lay, pieces, gap, beam, volume, .. } => {
                let size = match stock {
                    Some(s) => s.trim_end_matches(" mm").to_owned(),
                    None => format!("{} x {}", plain(section[0]), plain(section[1])),
                };
                let mut row = vec![pieces.0.to_string(), size, plain(section[0]), shown.wood(wood)];
                if a.sizing.part == Part::Slat {
                    let mut lies = Vec::new();
                    if shown.lays {
                        lies.push(if *lay == LayWord::Flat { "flat" } else { "edge" });
                    }
                    if shown.beams {
                        lies.push(if *beam { "beam" } else { "no beam" });
                    }
                    if shown.lays || shown.beams {
                        row.push(lies.join(", "));
                    }
                    row.push(plain(*gap));
                }
                row.push(volume_words(*volume, units).trim_end_matches(cubic).trim().to_owned());
                row
            }
            Made::Screws { screw, pitch, count, .. } => vec![count.to_string(), screw.clone(), plain(*pitch)],
        };
        row.extend([r, by]);
        row
    };
    let all_in = if units == UnitSystem::Us { "inches" } else { "millimetres" };
    out.push_str(&format!("{heading}, sizes in {all_in}\n"));
    let mut header = match a.sizing.part {
        Part::Cleat => vec!["", "screw", "pitch"],
        _ => vec!["", "size", "thick", "wood"],
    };
    let mut right = match a.sizing.part {
        Part::Cleat => vec![0, 2],
        _ => vec![0, 2],
    };
    if a.sizing.part == Part::Slat {
        if shown.lays || shown.beams {
            header.push("laid");
        }
        right.push(header.len());
        header.push("gap");
    }
    if a.sizing.part != Part::Cleat {
        right.push(header.len());
        header.push(cubic);
    }
    right.push(header.len());
    header.extend(["ratio", "governed by"]);
    table(&header, all.iter().map(row).collect(), &right, out);
}

/// A member and the limit it is nearest to, for a column; a screw's or a joint's own limit goes without saying.
fn governs(w: &Weakest) -> String {
    match w.limit {
        Limit::Screw | Limit::Joint => w.member.clone(),
        limit => format!("{} {}", w.member, limit.name()),
    }
}

/// What tells the choices apart.
struct Shown<'a> {
    lays: bool,
    beams: bool,
    woods: Vec<&'a str>,
}

impl<'a> Shown<'a> {
    fn of(all: impl Iterator<Item = &'a Made>) -> Shown<'a> {
        let (mut lays, mut beams, mut woods) = (Vec::new(), Vec::new(), Vec::new());
        for made in all {
            if let Made::Sticks { lay, beam, wood, .. } = made {
                lays.push(*lay);
                beams.push(*beam);
                if !woods.contains(&wood.as_str()) {
                    woods.push(wood);
                }
            }
        }
        Shown { lays: lays.windows(2).any(|w| w[0] != w[1]), beams: beams.windows(2).any(|w| w[0] != w[1]), woods }
    }

    /// The wood without its knots and slope, unless another differs in nothing else.
    fn wood(&self, wood: &str) -> String {
        let short = |w: &'a str| w.split_once(", ungraded").map_or(w, |(w, _)| w);
        let own = self.woods.iter().copied().find(|w| *w == wood).map_or(wood, short);
        let alike = self.woods.iter().filter(|w| short(w) == own).count();
        if alike > 1 { wood.to_owned() } else { own.to_owned() }
    }
}

/// What to buy for the first choice.
fn purchase(a: &Answer<'_>, first: &Choice, p: &Purchase, out: &mut String) {
    let units = a.platform.units;
    let l = |v| length_for_builder(v, units);
    let (count, piece) = p.pieces;
    let least: Vec<String> =
        p.least.iter().map(|(stock, n)| format!("{n} of {}", stick_length(*stock, units))).collect();
    wrap(
        &format!(
            "TO BUY for {}: {}. Each of the {count} pieces is cut {} long.",
            size_words(&first.made, units),
            least.join(" and "),
            l(piece)
        ),
        "",
        "",
        out,
    );
    let mut amount = Vec::new();
    if let Some(feet) = board_feet(&first.made, p) {
        amount.push(format!("{} board feet by nominal size", significant(feet, 3)));
    }
    if let Some(v) = bought(&first.made, p) {
        amount.push(format!("{} m³ as it measures", significant(v.value, 3)));
    }
    if !amount.is_empty() {
        wrap(&format!("That is {}.", amount.join(", ")), "", "", out);
    }
    out.push('\n');
    let rows = p.each.iter().map(|c| {
        let left = c.stock * c.sticks as f64 - piece * count as f64;
        let waste = 100.0 * (left / (c.stock * c.sticks as f64)).value;
        vec![stick_length(c.stock, units), c.from_one.to_string(), c.sticks.to_string(), format!("{waste:.0} %")]
    });
    table(&["stock, one length alone", "from each", "sticks", "cut away"], rows.collect(), &[1, 2, 3], out);
    let note = format!(
        "The saw takes {} a cut, and {} comes off each end of a stick: common practice, no source.",
        l(p.allowance.kerf),
        l(p.allowance.trim)
    );
    out.push('\n');
    wrap(&note, "", "", out);
    out.push('\n');
}

/// A length of stock as it is sold.
fn stick_length(v: crate::quantity::Length, units: UnitSystem) -> String {
    let feet = (v / crate::quantity::unit::inch(12.0)).value;
    match units {
        UnitSystem::Us if (feet - feet.round()).abs() < 1e-6 => format!("{feet:.0} ft"),
        UnitSystem::Us => length_for_builder(v, units),
        UnitSystem::Metric => format!("{} m", significant(v.value, 3)),
    }
}
