//! Wood and size.

use std::ops::Range;

use toml::de::DeValue;

use crate::brief::fields::{Fields, Typed};
use crate::brief::keys::{StickKeys, WoodKeys};
use crate::brief::mistake::Mistakes;
use crate::quantity;

/// The keys of wood and size that every member shares. The caller finishes the table.
pub(super) fn stick(f: &mut Fields<'_, '_>, m: &mut Mistakes) -> StickKeys {
    StickKeys {
        span: f.span().clone(),
        wood: wood(f, "wood", m),
        size: f.text("size", m),
        thickness: f.length("thickness", m),
        width: f.length("width", m),
        ripped: f.flag("ripped", m),
        incised: f.flag("incised", m),
        measured: f.modulus("measured", m),
        unread_size: false,
    }
}

/// Notes whether a size was meant and not read, once the caller has asked for all keys of the table.
pub(super) fn note_unread_size(f: &Fields<'_, '_>, s: &mut StickKeys) {
    s.unread_size = f.unread("size", &s.size) || f.unread("thickness", &s.thickness) || f.unread("width", &s.width);
}

pub(super) fn wood(f: &mut Fields<'_, '_>, key: &'static str, m: &mut Mistakes) -> Option<WoodKeys> {
    let v = f.raw(key)?;
    match v.get_ref() {
        DeValue::String(_) => f.text(key, m).map(WoodKeys::Named),
        DeValue::Table(t) => {
            let mut w = Fields::new("wood", t, v.span());
            if w.has("asd") || w.has("ec5") {
                return in_both(w, v.span(), m);
            }
            let knot = match w.raw("knot").map(|v| (v.get_ref(), v.span())) {
                Some((DeValue::String(s), span)) if s == "none" => Some(Typed { value: None, span }),
                _ => w.length("knot", m).map(|k| Typed { value: Some(k.value), span: k.span }),
            };
            let slope = w.text("slope_of_grain", m).and_then(|t| match quantity::ratio_to(&t.value) {
                Ok(value) => Some(Typed { value, span: t.span }),
                Err(_) => {
                    m.add(
                        &t.span,
                        "`slope_of_grain` must be a slope",
                        "",
                        "write it as \"1:12\", one across in twelve along",
                    );
                    None
                }
            });
            let (species, grade) = (w.text("species", m), w.text("grade", m));
            let (unread_knot, unread_slope) = (w.unread("knot", &knot), w.unread("slope_of_grain", &slope));
            if !w.has("knot") && !w.has("slope_of_grain") {
                w.missing("grade", m, "write the grade on the stamp, such as grade = \"no2\", or grade = \"ungraded\"");
            }
            w.missing("species", m, "write species = \"yellow-poplar\"; `slatwright timber` lists them");
            w.finish(m);
            Some(WoodKeys::Described { span: v.span(), species, grade, knot, slope, unread_knot, unread_slope })
        }
        _ => {
            m.add(
                &v.span(),
                format!("`{key}` must name a wood"),
                "",
                "write \"spruce-pine-fir no2\" for graded lumber, or \
                 { species = \"yellow-poplar\", grade = \"ungraded\", knot = \"1/2 in\", slope_of_grain = \"1:12\" }",
            );
            None
        }
    }
}

/// One wood as either family of rules knows it.
fn in_both(mut w: Fields<'_, '_>, span: Range<usize>, m: &mut Mistakes) -> Option<WoodKeys> {
    let (asd, ec5) = (wood(&mut w, "asd", m), wood(&mut w, "ec5", m));
    let unread = w.unread("asd", &asd) || w.unread("ec5", &ec5);
    w.finish(m);
    for inner in asd.iter().chain(&ec5) {
        if let WoodKeys::InBoth { span, .. } = inner {
            m.add(
                span,
                "a wood for one family of rules is one wood",
                "",
                "write it as a name, or as species and grade",
            );
            return None;
        }
    }
    if unread {
        return None;
    }
    Some(WoodKeys::InBoth { span, asd: asd.map(Box::new), ec5: ec5.map(Box::new) })
}
