//! The wood of a stick: graded with reference values, ungraded with its defects, or of a strength class.

use std::ops::Range;
use std::sync::Arc;

use super::class;
use crate::brief::{Mistakes, RuleFamily, Typed, WoodKeys, nearest, shortened};
use crate::quantity::{Length, MassDensity, Ratio};
use crate::source::Provenance;
use crate::tables::clear_wood::{ClearValues, WoodKind};
use crate::tables::lumber::{LumberRow, ReferenceValues, SupplementTable};
use crate::tables::strength_classes::StrengthValues;
use crate::tables::{Missing, NotFound, Tables};

/// Graded wood with reference values, ungraded wood with clear-wood averages and its defects, or wood of
/// a strength class.
#[derive(Clone, Debug)]
pub enum WoodChoice {
    /// Stamped lumber.
    Graded {
        /// Species and grade as the table names them.
        name: String,
        /// Grade as the table names it.
        grade: String,
        /// Reference design values.
        values: ReferenceValues,
        /// Which table of the supplement they are from.
        table: SupplementTable,
        /// Where the row comes from.
        provenance: Provenance,
        /// The rows of this species and grade, for every size there is one for.
        sizes: Arc<[LumberRow]>,
    },
    /// Wood without a stamp, or that has lost it.
    Ungraded {
        /// Species as the table names it.
        name: String,
        /// Averages of green clear wood.
        green: ClearValues,
        /// Softwood or hardwood.
        kind: WoodKind,
        /// Largest knot; `None` for clear wood.
        knot: Option<Length>,
        /// The run of a slope of grain of one in so many.
        slope: f64,
        /// Why the ungraded road is taken.
        why: String,
        /// Where the row comes from.
        provenance: Provenance,
    },
    /// Wood of a strength class.
    Class {
        /// The class, and the visual grade by which it was asked for.
        name: String,
        /// Characteristic values.
        values: StrengthValues,
        /// Softwood or hardwood.
        kind: WoodKind,
        /// Where the row comes from: the visual grade's, if it was asked for by one.
        provenance: Provenance,
    },
}

/// How heavy a wood is, as its table says it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heaviness {
    /// Specific gravity `G`.
    SpecificGravity(Ratio),
    /// Mean density at 12 % moisture content, `ρmean`.
    MeanDensity(MassDensity),
}

impl WoodChoice {
    /// Name for a reader.
    pub fn name(&self) -> String {
        match self {
            WoodChoice::Graded { name, .. } | WoodChoice::Class { name, .. } => name.clone(),
            WoodChoice::Ungraded { name, .. } => format!("{name}, ungraded"),
        }
    }

    /// How heavy the table row says it is: `G` on the oven-dry volume for graded wood, on the green volume
    /// for clear wood, or a strength class's mean density.
    pub fn heaviness(&self) -> Heaviness {
        match self {
            WoodChoice::Graded { values, .. } => Heaviness::SpecificGravity(values.specific_gravity),
            WoodChoice::Ungraded { green, .. } => Heaviness::SpecificGravity(green.specific_gravity),
            WoodChoice::Class { values, .. } => Heaviness::MeanDensity(values.density_mean),
        }
    }

    /// Softwood or hardwood: graded lumber here is softwood unless its name says not.
    pub fn kind(&self) -> WoodKind {
        match self {
            WoodChoice::Ungraded { kind, .. } | WoodChoice::Class { kind, .. } => *kind,
            WoodChoice::Graded { .. } => WoodKind::Softwood,
        }
    }

    /// Stamped lumber of this nominal size, of the rows of one species and grade.
    fn graded_in(sizes: Arc<[LumberRow]>, nominal: (f64, f64)) -> Option<WoodChoice> {
        let row = sizes.iter().find(|r| r.sizes.contains(nominal.0, nominal.1))?;
        Some(WoodChoice::Graded {
            name: row.name(),
            grade: row.grade.clone(),
            values: row.values,
            table: row.table,
            provenance: row.provenance.clone(),
            sizes: sizes.clone(),
        })
    }

    /// The same wood in another nominal size: stamped lumber has values of its own for it, or none.
    pub(super) fn in_size(&self, nominal: (f64, f64)) -> Option<WoodChoice> {
        match self {
            WoodChoice::Graded { sizes, .. } => WoodChoice::graded_in(sizes.clone(), nominal),
            other => Some(other.clone()),
        }
    }

    /// Where the values come from.
    pub fn provenance(&self) -> &Provenance {
        match self {
            WoodChoice::Graded { provenance, .. }
            | WoodChoice::Ungraded { provenance, .. }
            | WoodChoice::Class { provenance, .. } => provenance,
        }
    }
}

/// Reads a wood, for a stick of this nominal size.
pub(super) fn wood(
    keys: &WoodKeys,
    nominal: (f64, f64),
    ripped: bool,
    rules: RuleFamily,
    tables: &Tables,
    m: &mut Mistakes,
) -> Option<WoodChoice> {
    if let WoodKeys::InBoth { asd, ec5, .. } = keys {
        return in_both([asd.as_deref(), ec5.as_deref()], nominal, ripped, rules, tables, m);
    }
    if rules == RuleFamily::LimitState {
        return class::wood(keys, nominal, ripped, tables, m);
    }
    match keys {
        WoodKeys::InBoth { .. } => None,
        WoodKeys::Named(t) if ripped => {
            m.add(
                &t.span,
                "wood ripped or planed out of graded stock no longer carries its grade",
                "graded, but `ripped = true`",
                "describe the piece itself: wood = { species = \"…\", grade = \"ungraded\", \
                 knot = \"1/2 in\", slope_of_grain = \"1:12\" }",
            );
            None
        }
        WoodKeys::Named(t) => graded(t, &t.value, nominal, tables, m),
        WoodKeys::Described { span, species, grade, knot, slope, unread_knot, unread_slope } => {
            let species = species.as_ref()?;
            let stamped = grade.as_ref().filter(|g| g.value != "ungraded");
            match stamped {
                Some(g) if nearest(&g.value, std::iter::once("ungraded")).is_some() => {
                    let help = "write grade = \"ungraded\", or the grade on the stamp";
                    m.add(&g.span, format!("`grade` cannot be \"{}\"", shortened(&g.value)), "", help);
                    None
                }
                Some(g) if !ripped && (knot.is_some() || slope.is_some()) => {
                    idle_defects(&g.value, knot.as_ref(), slope.as_ref(), m);
                    None
                }
                Some(g) if !ripped => {
                    let text = format!("{} {}", species.value, g.value);
                    graded(&Typed { value: text.clone(), span: span.clone() }, &text, nominal, tables, m)
                }
                _ => {
                    let why = match stamped {
                        Some(g) => format!("ripped or planed: the grade {} no longer holds", g.value),
                        None if grade.is_none() && knot.is_none() && slope.is_none() => return None,
                        None => "no grade stamp".to_owned(),
                    };
                    missing_defects(span, knot.is_none() && !unread_knot, slope.is_none() && !unread_slope, m);
                    ungraded(species, knot.as_ref(), slope.as_ref(), why, tables, m)
                }
            }
        }
    }
}

/// A wood named for each family of rules. Both names must hold, whichever is asked for; a name for one
/// family alone is answered under the other as if it stood alone.
fn in_both(
    [asd, ec5]: [Option<&WoodKeys>; 2],
    nominal: (f64, f64),
    ripped: bool,
    rules: RuleFamily,
    tables: &Tables,
    m: &mut Mistakes,
) -> Option<WoodChoice> {
    let mut under = |keys: Option<&WoodKeys>, rules| keys.and_then(|k| wood(k, nominal, ripped, rules, tables, m));
    let found = [under(asd, RuleFamily::AllowableStress), under(ec5, RuleFamily::LimitState)];
    match (asd, ec5) {
        (Some(one), None) | (None, Some(one)) => wood(one, nominal, ripped, rules, tables, m),
        _ => {
            let [first, second] = found;
            if rules == RuleFamily::AllowableStress { first } else { second }
        }
    }
}

/// Says that a knot or a slope of grain stands beside a stamped grade, which covers both.
fn idle_defects(grade: &str, knot: Option<&Typed<Option<Length>>>, slope: Option<&Typed<f64>>, m: &mut Mistakes) {
    let (knot, slope) = (knot.map(|k| &k.span), slope.map(|s| &s.span));
    let keys = match (knot, slope) {
        (Some(_), Some(_)) => "`knot` and `slope_of_grain` do",
        (Some(_), None) => "`knot` does",
        _ => "`slope_of_grain` does",
    };
    if let Some(first) = knot.into_iter().chain(slope).min_by_key(|s| s.start) {
        m.add(
            first,
            format!("{keys} nothing beside the grade `{}`", shortened(grade)),
            "",
            "leave it to the stamp; where the stamp no longer holds, write ripped = true or grade = \"ungraded\"",
        );
    }
}

/// Says which of the two measures of ungraded wood are missing.
fn missing_defects(span: &Range<usize>, knot: bool, slope: bool, m: &mut Mistakes) {
    if knot {
        m.add(
            span,
            "ungraded wood needs its largest knot",
            "`knot` is missing here",
            "measure it across the grain and write knot = \"1/2 in\", or knot = \"none\"",
        );
    }
    if slope {
        m.add(
            span,
            "ungraded wood needs its slope of grain",
            "`slope_of_grain` is missing here",
            "measure it and write slope_of_grain = \"1:12\"; steeper than 1:6 cannot be used",
        );
    }
}

fn graded(t: &Typed<String>, text: &str, nominal: (f64, f64), tables: &Tables, m: &mut Mistakes) -> Option<WoodChoice> {
    let found = tables.lumber().find(text, nominal.0, nominal.1).and_then(|_| tables.lumber().graded(text));
    match found {
        Ok(rows) => WoodChoice::graded_in(rows.into_iter().cloned().collect(), nominal),
        Err(e) => {
            let (message, help) = no_graded(text, nominal, &e, tables);
            m.add(&t.span, message, "", help);
            None
        }
    }
}

/// Why a graded wood is not to be had, and what would be right.
fn no_graded(text: &str, nominal: (f64, f64), e: &NotFound, tables: &Tables) -> (String, String) {
    let described = |species: &str| {
        format!(
            "describe the piece: wood = {{ species = \"{species}\", grade = \"ungraded\", \
             knot = \"1/2 in\", slope_of_grain = \"1:12\" }}"
        )
    };
    if is_strength_class(text) {
        let message = format!("`{text}` is a strength class of EN 338, which the asd rules have no values for");
        return (message, "write species and grade, such as \"spruce-pine-fir no2\", or rules = \"ec5\"".into());
    }
    // The species may stand before a grade that only its graded sisters have.
    let ends = text.match_indices(' ').map(|(n, _)| n).chain([text.len()]).rev();
    let clear = ends.filter_map(|n| text.get(..n)).find_map(|t| Some((t, tables.clear_wood().find(t).ok()?)));
    match (&e.missing, clear) {
        (Missing::Size { .. }, _) if nominal.0.min(nominal.1) < 2.0 => {
            (e.to_string(), format!("boards under 2 in nominal carry no graded values; {}", described("…")))
        }
        (Missing::Species, Some((species, row))) => {
            (format!("there are no graded values for {}", row.name), described(species))
        }
        (Missing::Grade { .. }, Some((species, _))) => (
            e.to_string(),
            format!("write the grade on the stamp after the species; if there is none, {}", described(species)),
        ),
        _ => (e.to_string(), e.help()),
    }
}

/// `C24`, `D30`: letter and number as EN 338 names them.
fn is_strength_class(text: &str) -> bool {
    let number = text.trim().strip_prefix(['C', 'c', 'D', 'd']);
    number.is_some_and(|n| n.len() == 2 && n.bytes().all(|b| b.is_ascii_digit()))
}

fn ungraded(
    species: &Typed<String>,
    knot: Option<&Typed<Option<Length>>>,
    slope: Option<&Typed<f64>>,
    why: String,
    tables: &Tables,
    m: &mut Mistakes,
) -> Option<WoodChoice> {
    if let Some(s) = slope
        && s.value < 6.0
    {
        m.add(&s.span, "grain steeper than 1:6 has no strength ratio", "", "choose a straighter piece");
        return None;
    }
    let row = match tables.clear_wood().find(&species.value) {
        Ok(row) => row,
        Err(e) => {
            m.add(&species.span, e.to_string(), "", e.help());
            return None;
        }
    };
    let green = match row.green() {
        Ok(g) => g,
        Err(e) => {
            m.add(&species.span, format!("{} cannot be used here: {e}", row.name), "", e.help());
            return None;
        }
    };
    Some(WoodChoice::Ungraded {
        name: row.name.clone(),
        green,
        kind: row.kind,
        knot: knot?.value,
        slope: slope?.value,
        why,
        provenance: row.provenance.clone(),
    })
}

/// The wood of a stud in a wall that the brief does not describe.
pub(super) struct UsualStud {
    pub(super) wood: WoodChoice,
    pub(super) words: &'static str,
}

/// The usual stud: no source, the commonest grade sold for it.
pub(super) fn usual_stud(rules: RuleFamily, tables: &Tables) -> Option<UsualStud> {
    if rules == RuleFamily::LimitState {
        let wood = class::choice(&tables.strength_classes().find("C16").ok()?);
        return Some(UsualStud { wood, words: "C16" });
    }
    let rows = tables.lumber().graded("spruce-pine-fir stud").ok()?;
    let wood = WoodChoice::graded_in(rows.into_iter().cloned().collect(), (2.0, 4.0))?;
    Some(UsualStud { wood, words: "spruce-pine-fir, stud grade" })
}
