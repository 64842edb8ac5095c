//! Wood for the limit state rules: a strength class, or a visual grade that is assigned to one.

use super::wood::WoodChoice;
use crate::brief::{Mistakes, Typed, WoodKeys};
use crate::quantity::Stress;
use crate::quantity::unit::megapascal;
use crate::tables::Tables;
use crate::tables::strength_classes::{Found, StrengthClass};

/// What a brief may do about a wood that has no strength class.
const HELP: &str = "name a class only if each piece is strength graded to it, beside the other name if there is one: \
                    wood = { asd = \"spruce-pine-fir no2\", ec5 = \"C24\" }; or write rules = \"asd\"";

/// Reads a wood.
pub(super) fn wood(
    keys: &WoodKeys,
    nominal: (f64, f64),
    ripped: bool,
    tables: &Tables,
    m: &mut Mistakes,
) -> Option<WoodChoice> {
    let typed = match keys {
        WoodKeys::Named(t) => t.clone(),
        WoodKeys::Described { span, species, grade: Some(grade), .. } if grade.value != "ungraded" => {
            Typed { value: format!("{} {}", species.as_ref()?.value, grade.value), span: span.clone() }
        }
        WoodKeys::InBoth { ec5, .. } => return wood(ec5.as_deref()?, nominal, ripped, tables, m),
        WoodKeys::Described { span, .. } => {
            m.add(span, "the ec5 rules have no values for ungraded wood", "EN 1995-1-1 asks for graded timber", HELP);
            return None;
        }
    };
    if ripped {
        let label = "graded, but `ripped = true`";
        m.add(&typed.span, "wood ripped or planed out of graded stock no longer carries its class", label, HELP);
        return None;
    }
    match tables.strength_classes().find(&typed.value) {
        Ok(found) => Some(choice(&found)),
        Err(e) => {
            let (message, help) = match tables.lumber().find(&typed.value, nominal.0, nominal.1) {
                Ok(row) => {
                    let bending = row.values.bending * CHARACTERISTIC;
                    (no_assignment(&row.name(), bending, tables.strength_classes().classes()), HELP.into())
                }
                Err(_) if tables.clear_wood().find(&typed.value).is_ok() => {
                    (format!("`{}` alone is no strength class", typed.value), HELP.into())
                }
                Err(_) => (e.to_string(), e.help()),
            };
            m.add(&typed.span, message, "", help);
            None
        }
    }
}

/// A class as found.
pub(super) fn choice(found: &Found<'_>) -> WoodChoice {
    let class = found.class;
    let (name, provenance) = match found.grade {
        Some(grade) => (format!("{}, {}", class.name, grade.name()), &grade.provenance),
        None => (class.name.clone(), &class.provenance),
    };
    WoodChoice::Class { name, values: class.values, kind: class.kind, provenance: provenance.clone() }
}

/// From a tabulated `Fb` to the fifth percentile it stands for: ASTM D1990 and D245 divide by 2.1 in
/// bending, for load duration and for what is held back; from memory.
const CHARACTERISTIC: f64 = 2.1;

/// Why a US grade has no strength class, with the nearest one below it.
fn no_assignment(name: &str, bending: Stress, classes: &[StrengthClass]) -> String {
    let softwood = || classes.iter().filter(|c| c.name.starts_with('C'));
    let below = softwood().filter(|c| c.values.bending <= bending);
    let nearest = below
        .max_by(|a, b| a.values.bending.value.total_cmp(&b.values.bending.value))
        .or_else(|| softwood().min_by(|a, b| a.values.bending.value.total_cmp(&b.values.bending.value)));
    let near = nearest.map_or(String::new(), |c| {
        let fb = bending / megapascal(1.0);
        format!(
            ": its bending value times 2.1, {:.1} N/mm², is nearest to {}, but size and tests differ",
            fb.value, c.name
        )
    });
    format!("no table known here assigns {name} to a strength class{near}")
}
