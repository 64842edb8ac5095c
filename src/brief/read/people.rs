//! `[mattress]`, `[[sleeper]]` and `[visitor]`.

use toml::de::DeValue;

use crate::brief::fields::{Fields, Typed};
use crate::brief::keys::{MattressKeys, PersonKeys};
use crate::brief::mistake::Mistakes;

pub(super) fn mattress(mut f: Fields<'_, '_>, m: &mut Mistakes) -> MattressKeys {
    let keys = MattressKeys { thickness: f.length("thickness", m), weight: f.mass("weight", m) };
    f.missing("thickness", m, "write thickness = \"8 in\"; it spreads the load over the slats");
    f.missing("weight", m, "write weight = \"70 lb\"; `slatwright timber mattress` lists usual ones");
    f.finish(m);
    keys
}

/// A sleeper, of whom there may be many alike, or the visitor.
pub(super) fn person(mut f: Fields<'_, '_>, m: &mut Mistakes, many: bool) -> PersonKeys {
    let weight = match f.raw("weight").map(|v| (v.get_ref(), v.span())) {
        Some((DeValue::String(s), span)) if s == "none" => Some(Typed { value: None, span }),
        _ => f.mass("weight", m).map(|t| Typed { value: Some(t.value), span: t.span }),
    };
    let keys = PersonKeys {
        span: f.span().clone(),
        weight,
        occupant: f.text("occupant", m),
        height: f.length("height", m),
        count: f.count("count", m),
        age: f.count("age", m),
    };
    if !f.has("occupant") {
        f.missing("weight", m, "write weight = \"180 lb\", or occupant = \"adult-95\" for a preset");
    } else if f.has("weight") {
        let span = keys.occupant.as_ref().map_or(f.span().clone(), |o| o.span.clone());
        m.add(&span, "a person has either `weight` or `occupant`", "both are given", "leave one of them out");
    }
    if !many {
        f.idle(&["count"], "a visitor", m, "one visitor is checked at a time: take it out");
        f.idle(&["age"], "a visitor", m, "the age that counts is a sleeper's: take it out");
    }
    f.finish(m);
    keys
}
