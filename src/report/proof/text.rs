//! A test before first use as text.

use crate::check::{Area, Dip, Limit, Proof, Role, TestStep, Turn, Verdict};
use crate::load::CaseKind;
use crate::platform::Platform;
use crate::quantity::unit::{METRE_PER_INCH, kilogram, metre, pound};
use crate::quantity::{Length, Mass, UnitSystem, significant};
use crate::report::answer::{ratio, table, the, weight};
use crate::report::say::{printable, when};
use crate::report::text::wrap;

/// Where the measure of a set is from: read in a public copy of a city's code after the International Building Code.
const RECOVERY: &str = "a building's load test asks for three quarters back within a day (IBC 1708.3.2, read), under \
                        twice the load for a day: this is not that test";

/// A plan as text: 80 columns, what it is first.
pub fn write(p: &Platform, proof: &Proof) -> String {
    let mut out = String::new();
    wrap(&printable(&p.title), "", "", &mut out);
    out.push('\n');
    wrap(&opening(p, proof), "", "", &mut out);
    out.push('\n');
    if proof.steps.is_empty() {
        untried(proof, &mut out);
        return out;
    }
    list("Before", &before(p, proof), &mut out);
    for (k, step) in proof.steps.iter().enumerate() {
        one(p, step, k + 1, proof.steps.len(), &mut out);
    }
    in_turn(p, proof, &mut out);
    list("Stop, take the weight off and mend it when", &stop(), &mut out);
    list("Where the ranges are from", &sources(proof), &mut out);
    untried(proof, &mut out);
    wrap(
        "A test by its builder is no certificate, and it is of these boards on this day. Local codes and a licensed \
         engineer come first.",
        "",
        "",
        &mut out,
    );
    out
}

fn opening(p: &Platform, proof: &Proof) -> String {
    let drawn = match proof.verdict {
        Verdict::Pass => String::new(),
        Verdict::Fail if proof.weakest.as_ref().is_none_or(|(_, _, r)| *r <= 1.0) => {
            "NOT YET. As drawn it does not keep the rules for guards and openings, which no weight tries. ".into()
        }
        Verdict::Fail => {
            let worst = proof.weakest.as_ref().map_or(String::new(), |(member, limit, r)| {
                format!(", {} first ({} {})", the(member), limit.name(), ratio(*r))
            });
            format!(
                "MEND IT FIRST. As drawn it fails its check{worst}, and no test makes up for that: a weight stands for \
                 minutes, people come for years. "
            )
        }
        Verdict::NotChecked => {
            "NOT WHOLLY CHECKED. A part that carries load has no rule that answers, and no test stands in for one. "
                .into()
        }
    };
    let heaviest = proof.steps.iter().map(|s| s.mass).fold(Mass::default(), Mass::max);
    match proof.steps.len() {
        0 => format!("{drawn}NOTHING TO TRY. No weight can stand for what these people do here."),
        n => format!(
            "{drawn}{n} {}, {} AT MOST. Weights on the bare slats bring each part that governs to what its people do to \
             it, once, before anyone lies on it.",
            if n == 1 { "PLACE TO LOAD" } else { "PLACES TO LOAD" },
            weight(heaviest, p.units).to_uppercase(),
        ),
    }
}

fn before(p: &Platform, proof: &Proof) -> Vec<String> {
    // An inch more than the softest board dips.
    let dips = proof.steps.iter().flat_map(|s| &s.dips).chain(proof.slats.iter().map(|t| &t.dip));
    let deepest = dips.map(|d| d.ordinary[1]).fold(Length::default(), Length::max);
    let near = ruler(deepest + metre(METRE_PER_INCH), p.units);
    let slack = match p.units {
        UnitSystem::Us => "1/32 in",
        UnitSystem::Metric => "half a millimetre",
    };
    let mut out = vec![
        "Mattress and bedding off. Everything screwed as drawn; look over every board for cracks first.".to_owned(),
        format!(
            "Nobody under the platform or on it, from the first weight to the last. Blocks or trestles under the middle, \
             {near} below the slats, catch what breaks; children and animals out of the room."
        ),
        format!(
            "Two people: one puts the weights on by hand from beside a long side, never leaning over them; the other \
             reads, and says stop. A string drawn taut from end to end of the board beside the load, a ruler held to it \
             from the side: read to {slack}. A slat's string runs from cleat to cleat, a rail's from end to end."
        ),
    ];
    let (bag, water) = match p.units {
        UnitSystem::Us => ("50 lb bags of sand", "jugs of water (8.3 lb a gallon)"),
        UnitSystem::Metric => ("25 kg bags of sand", "jugs of water (1 kg a litre)"),
    };
    out.push(format!(
        "Weigh the weights: {bag}, {water}. Mark each stretch with tape and keep to it; a thin panel of its size keeps \
         them from the gaps. Bags lie softly on all slats under them, a stiff box does not."
    ));
    if proof.steps.iter().any(|s| matches!(s.case, CaseKind::RowOnTheEdge | CaseKind::Lying)) {
        out.push(
            "For a row on the edge or people lying, people may stand for the weight, and only once the steps before went \
             well: weighed, one after the other, still, off again the same way."
                .into(),
        );
    }
    out
}

fn stop() -> Vec<String> {
    vec![
        "it cracks, creaks louder with every weight, a screw turns or a joint opens".to_owned(),
        "a board dips more than its `stop at`: it is softer than 95 of 100 of its kind, or something gives way".into(),
        "a dip grows while the weight stands still".into(),
        format!("an hour after the weight is off more than a quarter of a dip is left; {RECOVERY}"),
    ]
}

fn sources(proof: &Proof) -> Vec<String> {
    proof
        .spreads
        .iter()
        .map(|s| {
            format!(
                "{}: stiffness {} to {} of the table's mean holds all but the softest and the stiffest 5 in 100 ({}, {})",
                s.wood,
                significant(s.low, 2),
                significant(s.high, 3),
                s.source,
                s.source.seen
            )
        })
        .collect()
}

fn untried(proof: &Proof, out: &mut String) {
    let all: Vec<String> = proof.untried.iter().map(|(what, why)| format!("{what}: {why}")).collect();
    list("Not tried by this", &all, out);
}

fn list(heading: &str, items: &[String], out: &mut String) {
    if items.is_empty() {
        return;
    }
    out.push_str(&format!("{heading}\n"));
    items.iter().for_each(|i| wrap(i, "  - ", "    ", out));
    out.push('\n');
}

fn one(p: &Platform, s: &TestStep, k: usize, of: usize, out: &mut String) {
    let units = p.units;
    wrap(&format!("Step {k} of {of}: {} in all, for {}", weight(s.mass, units), s.case.name()), "", "  ", out);
    for area in &s.areas {
        let (from, to) = (|v: Length| about(v, units), |v: [Length; 2]| about(v[1] - v[0], units));
        let text = format!(
            "{} on {} along by {} across, from {} from the head and {} from the left rail: {}.",
            weight(area.mass, units),
            to(area.x),
            to(area.y),
            from(area.x[0]),
            from(area.y[0]),
            pieces(area, units)
        );
        wrap(&text, "  ", "  ", out);
    }
    wrap(&quarters(s, units), "  ", "  ", out);
    for r in &s.reaches {
        let share = (r.share * 100.0).round();
        let text = format!(
            "Brings {} to {share} % of its {} {} ({}), which is {} of what it may carry.",
            the(&r.member),
            effect(r.limit),
            when(s.case),
            s.load,
            ratio(r.ratio)
        );
        wrap(&text, "  ", "  ", out);
    }
    if s.short {
        let what = s
            .nearest
            .as_ref()
            .map_or(String::new(), |n| format!(": {} is at its limit in {}", the(&n.member), n.limit.name()));
        wrap(
            &format!("STOPS SHORT of the people's load{what}. The full load would be beyond what the check allows."),
            "  ",
            "  ",
            out,
        );
    } else if let Some(n) = &s.nearest {
        let text =
            format!("Nearest to its limit for ten minutes: {}, {} {}.", the(&n.member), n.limit.name(), ratio(n.ratio));
        wrap(&text, "  ", "  ", out);
    }
    out.push('\n');
    dips(s, units, out);
}

/// What a limit's load is called where it is no failure.
fn effect(limit: Limit) -> &'static str {
    match limit {
        Limit::Bending => "bending",
        Limit::Bearing => "pressure",
        _ => "force",
    }
}

fn quarters(s: &TestStep, units: UnitSystem) -> String {
    let part = |n: f64| weight(s.mass * n, units);
    format!(
        "In four parts, evenly over it: {}, {}, {}, all. Read after each; wait a minute. All of it stands ten minutes and \
         no longer.",
        part(0.25),
        part(0.5),
        part(0.75)
    )
}

/// Bags and water that make a weight.
fn pieces(area: &Area, units: UnitSystem) -> String {
    let (bag, one, gallon) = match units {
        UnitSystem::Us => (pound(50.0), pound(1.0), Some(8.33)),
        UnitSystem::Metric => (kilogram(25.0), kilogram(1.0), None),
    };
    let bags = (area.mass / bag).value.floor();
    let rest = ((area.mass - bag * bags) / one).value;
    let words = match bags as u64 {
        0 => None,
        1 => Some("1 bag".to_owned()),
        n => Some(format!("{n} bags")),
    };
    let water = (rest > 0.05).then(|| match gallon {
        Some(g) => format!("{} lb of water ({} gal)", significant(rest, 3), significant(rest / g, 2)),
        None => format!("{} kg of water ({} l)", significant(rest, 3), significant(rest, 3)),
    });
    words.into_iter().chain(water).collect::<Vec<_>>().join(" and ")
}

/// A length to the half inch or the centimetre.
fn about(v: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => format!("{} in", (v.value / METRE_PER_INCH * 2.0).round() / 2.0),
        UnitSystem::Metric => format!("{:.0} cm", v.value * 100.0),
    }
}

/// As a ruler reads it: thirty-seconds of an inch or half millimetres.
fn ruler(v: Length, units: UnitSystem) -> String {
    match units {
        UnitSystem::Us => {
            let n = (v.value / METRE_PER_INCH * 32.0).round() as i64;
            let (whole, mut top, mut bottom) = (n / 32, n % 32, 32);
            while top > 0 && top % 2 == 0 {
                (top, bottom) = (top / 2, bottom / 2);
            }
            match (whole, top) {
                (w, 0) => format!("{w} in"),
                (0, t) => format!("{t}/{bottom} in"),
                (w, t) => format!("{w}-{t}/{bottom} in"),
            }
        }
        UnitSystem::Metric => format!("{} mm", (v.value * 2000.0).round() / 2.0),
    }
}

/// The least dip that a ruler shows.
fn shows(units: UnitSystem) -> Length {
    match units {
        UnitSystem::Us => metre(METRE_PER_INCH / 64.0),
        UnitSystem::Metric => metre(0.000_25),
    }
}

/// Most rows of slats in a table of dips.
const MOST_ROWS: usize = 6;

/// What a row of a table says of a dip: half on, all on, the range and its end.
fn columns(d: &Dip, units: UnitSystem) -> Vec<String> {
    let [stiff, soft] = d.ordinary.map(|v| ruler(v, units));
    vec![ruler(d.mean / 2.0, units), ruler(d.mean, units), format!("{stiff} to {soft}"), soft]
}

/// Rows of slats: those that a ruler cannot tell apart together.
fn together(rows: Vec<(usize, &'static str, Vec<String>)>) -> Vec<Vec<String>> {
    let mut groups: Vec<(Vec<usize>, &'static str, Vec<String>)> = Vec::new();
    for (slat, span, words) in rows {
        match groups.iter_mut().find(|(_, s, w)| *s == span && *w == words) {
            Some((all, ..)) => all.push(slat),
            None => groups.push((vec![slat], span, words)),
        }
    }
    groups.into_iter().map(|(all, span, words)| [vec![format!("{}{span}", numbers(&all))], words].concat()).collect()
}

/// A slat's number and span, from its name.
fn slat_and_span(member: &str) -> (usize, &'static str) {
    let name = member.strip_prefix("slat ").unwrap_or(member);
    let span = [", left", ", right"].into_iter().find(|s| name.ends_with(s));
    let number = name.strip_suffix(span.unwrap_or("")).and_then(|n| n.parse().ok()).unwrap_or(0);
    (number, span.map_or("", |s| s.trim_start_matches(',')))
}

fn dips(s: &TestStep, units: UnitSystem, out: &mut String) {
    let (slats, lines): (Vec<&Dip>, Vec<&Dip>) =
        s.dips.iter().filter(|d| d.mean >= shows(units)).partition(|d| d.role == Role::Slat);
    let named = slats.iter().map(|d| {
        let (slat, span) = slat_and_span(&d.member);
        (slat, span, columns(d, units))
    });
    let mut rows = together(named.collect());
    let deepest = |row: &Vec<String>| {
        let found = slats.iter().find(|d| columns(d, units) == row[1..]);
        found.map_or(0.0, |d| d.mean.value)
    };
    rows.sort_by(|a, b| deepest(b).total_cmp(&deepest(a)));
    let cut = rows.len() > MOST_ROWS;
    rows.truncate(MOST_ROWS);
    rows.extend(lines.iter().map(|d| [vec![d.member.clone()], columns(d, units)].concat()));
    let rest = match (rows.is_empty(), cut) {
        (true, _) => "All parts dip less than a ruler shows.",
        (_, true) => "The others dip less.",
        _ => "The others dip less than a ruler shows.",
    };
    if !rows.is_empty() {
        table(&["dips", "half on", "all on", "ordinary wood", "stop at"], rows, &[1, 2, 3, 4], out);
    }
    wrap(rest, "", "", out);
    out.push('\n');
}

/// Every slat is another board: weight and dip of each.
fn in_turn(p: &Platform, proof: &Proof, out: &mut String) {
    let units = p.units;
    let row = |t: &Turn| {
        let stretch = t.areas.first().map_or(String::new(), |a| {
            let size = |v: [Length; 2]| about(v[1] - v[0], units);
            format!("{} by {}, {} from left", size(a.x), size(a.y), about(a.y[0], units))
        });
        let [_, soft] = t.dip.ordinary.map(|v| ruler(v, units));
        let mass = format!("{}{}", weight(t.mass, units), if t.short { " *" } else { "" });
        (t.slat, "", vec![mass, stretch, ruler(t.dip.mean, units), soft])
    };
    let rows = together(proof.slats.iter().map(row).collect());
    if rows.is_empty() {
        return;
    }
    let short = if proof.slats.iter().any(|t| t.short) {
        " * stops short of the people's load, which the slat may not carry."
    } else {
        ""
    };
    let text = format!(
        "Then each slat in turn, for each is another board: the weight with its middle over the slat, or as near as the \
         ends allow.{short}"
    );
    wrap(&text, "", "", out);
    out.push('\n');
    table(&["slats", "weight", "along by across", "dips", "stop at"], rows, &[1, 3, 4], out);
    out.push('\n');
}

/// `slats 2 to 13, 15`.
fn numbers(all: &[usize]) -> String {
    let mut runs: Vec<[usize; 2]> = Vec::new();
    for n in all {
        match runs.last_mut() {
            Some([_, last]) if *last + 1 == *n => *last = *n,
            _ => runs.push([*n, *n]),
        }
    }
    let words = runs.iter().map(|[a, b]| if a == b { a.to_string() } else { format!("{a} to {b}") });
    format!("{} {}", if all.len() == 1 { "slat" } else { "slats" }, words.collect::<Vec<_>>().join(", "))
}
