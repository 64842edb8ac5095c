//! How heavy a sleeper may be, as text and as JSON.

use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

use super::answer::{self, WeakJson, briefly, fails, kg, pretty, rules_word, table, the, weak_json, weight};
use super::json::{VERSION, ValueJson};
use super::say::printable;
use super::text::wrap;
use crate::check::Verdict;
use crate::choose::{Heaviest, Rating, Weakest};
use crate::platform::Platform;
use crate::quantity::{Mass, UnitSystem};

/// A rating as text: 80 columns, the answer first.
pub fn text(p: &Platform, r: &Rating) -> String {
    let mut out = String::new();
    wrap(&printable(&p.title), "", "", &mut out);
    out.push('\n');
    wrap(&answer(p, r), "", "", &mut out);
    out.push('\n');
    holes(p, &r.whole, &mut out);
    if let Some(v) = &p.visitor {
        let text = format!("A visitor of {} sits here too, whoever sleeps.", weight(v.mass, p.units));
        wrap(&text, "", "", &mut out);
        out.push('\n');
    }
    by_case(p, r, &mut out);
    by_place(p, r, &mut out);
    sensitivity(p, r, &mut out);
    wrap(answer::BEAR_IN_MIND, "", "", &mut out);
    out
}

fn each(r: &Rating) -> String {
    if r.places == 1 { "a sleeper".into() } else { format!("{} sleepers", r.places) }
}

/// The answer in a builder's words.
fn answer(p: &Platform, r: &Rating) -> String {
    let units = p.units;
    let Some(mass) = r.whole.mass else {
        let why = r.whole.beyond.as_ref().map(|o| match &o.weakest {
            Some(w) if !w.passes() => format!(": whoever lies here, {} {}", the(&w.member), fails(w)),
            _ => format!(": {} cannot be checked", o.unchecked.join(", ")),
        });
        return format!("NOBODY. No sleeper is light enough{}.", why.unwrap_or_default());
    };
    let in_all = match r.places {
        1 => String::new(),
        n => format!(" each, {} in all", weight(mass * n as f64, units)),
    };
    let mut say = format!(
        "UP TO {}. This platform carries {} of up to {}{in_all}.",
        weight(mass, units).to_uppercase(),
        each(r),
        weight(mass, units)
    );
    if r.whole.open {
        say.push_str(" That is the heaviest a brief may name.");
    }
    if let Some(o) = &r.whole.beyond {
        let step = match units {
            UnitSystem::Us => "One pound more",
            UnitSystem::Metric => "One kilogram more",
        };
        match &o.weakest {
            Some(w) if !w.passes() => say.push_str(&format!(" {step} and {} {}.", the(&w.member), fails(w))),
            _ => say.push_str(&format!(" {step} and no rule answers for {}.", o.unchecked.join(", "))),
        }
    }
    let drawn = weight(r.heaviest_drawn, units);
    if within(r) {
        say.push_str(&format!(" The heaviest in the brief weighs {drawn}: within it."));
    } else {
        say.push_str(&format!(" The heaviest in the brief weighs {drawn}: TOO HEAVY."));
    }
    say
}

/// Whether the brief's own sleepers are no heavier than the rating.
pub fn within(r: &Rating) -> bool {
    let fits =
        |m: Mass| m >= r.heaviest_drawn && !r.whole.holes.iter().any(|[a, b]| (*a..=*b).contains(&r.heaviest_drawn));
    r.whole.mass.is_some_and(fits)
}

fn holes(p: &Platform, h: &Heaviest, out: &mut String) {
    for [from, to] in &h.holes {
        let text = format!(
            "Not every lighter sleeper passes: from {} to {} it fails. Sleepers under 60 kg (132 lb) jump.",
            weight(*from, p.units),
            weight(*to, p.units)
        );
        wrap(&text, "", "", out);
        out.push('\n');
    }
}

/// The weight, or that there is none or no end to it.
fn heaviest(h: &Heaviest, units: UnitSystem) -> String {
    match h.mass {
        None => "nobody".into(),
        Some(_) if h.open => "anybody".into(),
        Some(m) => weight(m, units),
    }
}

/// What fails beyond a rating, or what no rule answers for there.
fn beyond(h: &Heaviest) -> String {
    let Some(o) = &h.beyond else { return String::new() };
    match &o.weakest {
        Some(w) if !w.passes() => briefly(w),
        _ if !o.unchecked.is_empty() => format!("no rule: {}", o.unchecked.join(", ")),
        _ => String::new(),
    }
}

fn by_case(p: &Platform, r: &Rating, out: &mut String) {
    let mut rows = Vec::new();
    for c in &r.cases {
        let all = match (c.heaviest.mass, c.heaviest.open) {
            (Some(m), false) => weight(m * r.places as f64, p.units),
            _ => String::new(),
        };
        let who = match (c.case, c.heaviest.open) {
            (crate::load::CaseKind::Jumping, true) => "any child".into(),
            _ => heaviest(&c.heaviest, p.units),
        };
        rows.push(vec![c.case.name().into(), who, all, beyond(&c.heaviest)]);
    }
    for (case, o) in &r.fixed {
        let who = if o.carries == Verdict::Pass { "anybody" } else { "nobody" };
        let worst = o.weakest.as_ref().filter(|w| !w.passes());
        let why = worst.map_or(String::new(), briefly);
        rows.push(vec![case.name().into(), who.into(), String::new(), why]);
    }
    table(&["case, alone", "each", "in all", "a step heavier fails"], rows, &[1, 2], out);
    out.push('\n');
}

fn by_place(p: &Platform, r: &Rating, out: &mut String) {
    if r.one_by_one.iter().all(|o| o.heaviest.mass.is_none()) {
        return;
    }
    let rows = r.one_by_one.iter().map(|o| {
        let drawn = weight(o.as_drawn, p.units);
        vec![format!("place {}", o.place), heaviest(&o.heaviest, p.units), drawn, beyond(&o.heaviest)]
    });
    table(
        &["one place, the others as drawn", "heaviest", "drawn", "a step heavier fails"],
        rows.collect(),
        &[1, 2],
        out,
    );
    out.push('\n');
}

fn sensitivity(p: &Platform, r: &Rating, out: &mut String) {
    let (Some(base), false) = (r.whole.mass, r.sensitivity.is_empty()) else { return };
    let rows = r.sensitivity.iter().map(|s| {
        let change = s.heaviest.mass.map_or_else(
            || beyond(&s.heaviest),
            |m| {
                let d = m - base;
                let sign = if d.value < -1e-9 {
                    "-"
                } else if d.value > 1e-9 {
                    "+"
                } else {
                    ""
                };
                format!("{sign}{}", weight(d.abs(), p.units))
            },
        );
        vec![s.change.clone(), heaviest(&s.heaviest, p.units), change]
    });
    table(&["if one thing is worse than drawn", "each", "change"], rows.collect(), &[1, 2], out);
    out.push('\n');
}

/// The heaviest sleeper.
#[derive(Debug, Serialize, JsonSchema)]
pub struct HeaviestJson {
    /// Kilograms; null when even the lightest fails.
    pub mass: Option<ValueJson>,
    /// The heaviest body a brief may name still passes.
    pub open: bool,
    /// Runs of lighter sleepers that fail, from and to.
    pub lighter_that_fail: Vec<[ValueJson; 2]>,
    /// The weakest link at that weight.
    pub weakest: Option<WeakJson>,
    /// What fails one step heavier, or of the lightest sleeper when none passes.
    pub beyond: Option<WeakJson>,
}

/// The rating for one case alone.
#[derive(Debug, Serialize, JsonSchema)]
pub struct CaseRatingJson {
    /// The case.
    pub case: &'static str,
    /// Each sleeper alike.
    pub each: HeaviestJson,
}

/// A case whose load is not a sleeper's weight.
#[derive(Debug, Serialize, JsonSchema)]
pub struct FixedCaseJson {
    /// The case.
    pub case: &'static str,
    /// `pass` or `fail`.
    pub verdict: &'static str,
    /// Its weakest link.
    pub weakest: Option<WeakJson>,
}

/// One place, the others as the brief has them.
#[derive(Debug, Serialize, JsonSchema)]
pub struct PlaceRatingJson {
    /// Counted from the left rail, or from the head when people lie across the rails.
    pub place: usize,
    /// Who lies there in the brief.
    pub as_drawn: ValueJson,
    /// The heaviest there.
    pub heaviest: HeaviestJson,
}

/// The rating with one thing worse.
#[derive(Debug, Serialize, JsonSchema)]
pub struct SensitivityJson {
    /// What is worse.
    pub change: String,
    /// Each sleeper alike.
    pub each: HeaviestJson,
}

/// The answer to `rate`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "slatwright rating")]
pub struct RatingJson {
    /// Version of this form.
    pub slatwright: u32,
    /// `rate`.
    pub answer: &'static str,
    /// Title from the brief.
    pub title: String,
    /// `asd` or `ec5`.
    pub rules: &'static str,
    /// How many sleep here.
    pub places: usize,
    /// The heaviest sleeper in the brief.
    pub heaviest_drawn: ValueJson,
    /// Whether the brief's sleepers are within the rating.
    pub within: bool,
    /// The step to which weights are found.
    pub step: ValueJson,
    /// Every place alike, all cases.
    pub each: HeaviestJson,
    /// All places together.
    pub in_all: Option<ValueJson>,
    /// One case at a time.
    pub cases: Vec<CaseRatingJson>,
    /// Cases whose load is not a sleeper's weight.
    pub fixed: Vec<FixedCaseJson>,
    /// One place at a time.
    pub one_by_one: Vec<PlaceRatingJson>,
    /// The largest loss first.
    pub sensitivity: Vec<SensitivityJson>,
}

fn heaviest_json(h: &Heaviest) -> HeaviestJson {
    let weakest = |o: &Option<crate::choose::Outcome>| -> Option<WeakJson> {
        o.as_ref().and_then(|o| o.weakest.as_ref()).map(|w: &Weakest| weak_json(w))
    };
    HeaviestJson {
        mass: h.mass.map(kg),
        open: h.open,
        lighter_that_fail: h.holes.iter().map(|[a, b]| [kg(*a), kg(*b)]).collect(),
        weakest: weakest(&h.at),
        beyond: weakest(&h.beyond),
    }
}

/// A rating as JSON.
pub fn json(p: &Platform, r: &Rating) -> String {
    let step = match p.units {
        UnitSystem::Us => crate::quantity::unit::pound(1.0),
        UnitSystem::Metric => crate::quantity::unit::kilogram(1.0),
    };
    pretty(&RatingJson {
        slatwright: VERSION,
        answer: "rate",
        title: p.title.clone(),
        rules: rules_word(p.rules),
        places: r.places,
        heaviest_drawn: kg(r.heaviest_drawn),
        within: within(r),
        step: kg(step),
        each: heaviest_json(&r.whole),
        in_all: r.whole.mass.map(|m| kg(m * r.places as f64)),
        cases: r
            .cases
            .iter()
            .map(|c| CaseRatingJson { case: c.case.name(), each: heaviest_json(&c.heaviest) })
            .collect(),
        fixed: r
            .fixed
            .iter()
            .map(|(case, o)| FixedCaseJson {
                case: case.name(),
                verdict: o.carries.word(),
                weakest: o.weakest.as_ref().map(weak_json),
            })
            .collect(),
        one_by_one: r
            .one_by_one
            .iter()
            .map(|o| PlaceRatingJson { place: o.place, as_drawn: kg(o.as_drawn), heaviest: heaviest_json(&o.heaviest) })
            .collect(),
        sensitivity: r
            .sensitivity
            .iter()
            .map(|s| SensitivityJson { change: s.change.clone(), each: heaviest_json(&s.heaviest) })
            .collect(),
    })
}

/// The JSON Schema of a rating.
pub fn schema() -> Schema {
    schema_for!(RatingJson)
}
