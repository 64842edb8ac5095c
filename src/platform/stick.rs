//! A stick of wood and the size it has as built.

use super::wood::{WoodChoice, wood};
use crate::brief::{Mistakes, RuleFamily, StickKeys, Typed, WoodKeys};
use crate::quantity::unit::{METRE_PER_INCH, inch, megapascal, millimetre};
use crate::quantity::{Length, Stress, fraction_of_inch};
use crate::tables::Tables;
use crate::tables::stock::StockSize;

/// A stick of wood as built.
#[derive(Clone, Debug)]
pub struct Stick {
    /// What wood it is.
    pub wood: WoodChoice,
    /// The smaller dimension, or the horizontal one of a cleat or rail.
    pub thickness: Length,
    /// The larger dimension, or the vertical one of a cleat or rail.
    pub width: Length,
    /// Nominal thickness and width in inches, which choose the size factors.
    pub nominal: (f64, f64),
    /// Stock size it is made from, such as `2x4`.
    pub stock: Option<String>,
    /// Incised for preservative treatment.
    pub incised: bool,
    /// Modulus of elasticity as measured on the board: its stiffness, and none of its strength.
    pub measured: Option<Stress>,
}

impl Stick {
    /// Size for a reader: `1-1/2 x 3-1/2 in` or `38 x 89 mm`.
    pub fn size_text(&self, units: crate::quantity::UnitSystem) -> String {
        use crate::quantity::{UnitSystem, length_for_builder};
        let (t, w) = (length_for_builder(self.thickness, units), length_for_builder(self.width, units));
        let unit = match units {
            UnitSystem::Us => " in",
            UnitSystem::Metric => " mm",
        };
        format!("{} x {w}", t.strip_suffix(unit).unwrap_or(&t))
    }

    /// The same wood bought in this stock size; none where there are no values for it in that size, or a
    /// knot as large as the piece is wide.
    pub(crate) fn bought(&self, size: &str) -> Option<Stick> {
        let row = Tables::embedded().stock().find(size).ok()?;
        let width = row.width?;
        let nominal = row.nominal.or_else(|| nominal_holding(row.thickness, width, Tables::embedded()))?;
        self.sized([row.thickness, width], nominal, Some(row.name.clone()))
    }

    /// The same wood this thick.
    pub(crate) fn thicker(&self, thickness: Length) -> Option<Stick> {
        let nominal = nominal_holding(thickness, self.width, Tables::embedded())?;
        self.sized([thickness, self.width], nominal, None)
    }

    /// The same wood turned round, this thick.
    pub(crate) fn turned_to(&self, diameter: Length) -> Option<Stick> {
        let nominal = nominal_holding(diameter, diameter, Tables::embedded())?;
        self.sized([diameter, diameter], nominal, None)
    }

    fn sized(&self, [thickness, width]: [Length; 2], nominal: (f64, f64), stock: Option<String>) -> Option<Stick> {
        let wood = self.wood.in_size(nominal)?;
        if let WoodChoice::Ungraded { knot: Some(knot), .. } = &wood
            && *knot >= thickness.max(width)
        {
            return None;
        }
        // What was measured was measured on the old board.
        Some(Stick { wood, thickness, width, nominal, stock, incised: self.incised, measured: None })
    }
}

/// Reads wood and size of a member, noting every mistake.
pub(crate) fn stick(
    keys: &StickKeys,
    member: &str,
    rules: RuleFamily,
    tables: &Tables,
    m: &mut Mistakes,
) -> Option<Stick> {
    let size = dimensions(keys, member, tables, m);
    let measured = keys.measured.as_ref().and_then(|t| measured(t, m));
    let ripped = keys.ripped.as_ref().is_some_and(|r| r.value);
    let nominal = size.as_ref().map_or((2.0, 4.0), |s| s.nominal);
    let wood = keys.wood.as_ref().and_then(|w| wood(w, nominal, ripped, rules, tables, m));
    let size = size?;
    let wood = wood?;
    if let (WoodChoice::Ungraded { knot: Some(knot), .. }, Some(WoodKeys::Described { knot: Some(typed), .. })) =
        (&wood, keys.wood.as_ref().and_then(|w| w.under(rules)))
    {
        let face = if size.width > size.thickness { size.width } else { size.thickness };
        if *knot >= face {
            let help = format!("measure it across the wide face: less than {}", fraction_of_inch(face));
            m.add(&typed.span, "this knot is as large as the piece is wide", "", help);
            return None;
        }
    }
    Some(Stick {
        wood,
        thickness: size.thickness,
        width: size.width,
        nominal: size.nominal,
        stock: size.stock,
        incised: keys.incised.as_ref().is_some_and(|i| i.value),
        measured,
    })
}

/// A modulus that wood can have. No source for the bounds: the softest and the stiffest of the tables lie well within.
fn measured(t: &Typed<Stress>, m: &mut Mistakes) -> Option<Stress> {
    if t.value < megapascal(2e3) || t.value > megapascal(30e3) {
        let help = "write something from 0.29e6 psi (2 GPa) to 4.35e6 psi (30 GPa); \
                    `slatwright proof --measured` works it out from a weight and a dip";
        m.add(&t.span, "no wood has this modulus of elasticity", "", help);
        return None;
    }
    Some(t.value)
}

pub(super) struct Size {
    pub(super) thickness: Length,
    pub(super) width: Length,
    pub(super) nominal: (f64, f64),
    stock: Option<String>,
}

pub(super) fn dimensions(keys: &StickKeys, member: &str, tables: &Tables, m: &mut Mistakes) -> Option<Size> {
    for (key, typed) in [("thickness", &keys.thickness), ("width", &keys.width)] {
        if let Some(t) = typed {
            sane(key, t, inch(0.25), inch(16.0), m)?;
        }
    }
    let stock = match &keys.size {
        Some(t) => match tables.stock().find(&t.value) {
            Ok(row) => Some((t, row)),
            Err(e) => {
                m.add(&t.span, e.to_string(), "", e.help());
                return None;
            }
        },
        None => None,
    };
    let thickness = keys.thickness.as_ref().map(|t| t.value).or(stock.as_ref().map(|(_, s)| s.thickness));
    let width = keys.width.as_ref().map(|t| t.value).or(stock.as_ref().and_then(|(_, s)| s.width));
    let (Some(thickness), Some(width)) = (thickness, width) else {
        let wanted = match (thickness, width) {
            (None, None) if keys.thickness.is_none() && keys.width.is_none() => "size",
            (None, _) => "thickness",
            _ => "width",
        };
        if keys.unread_size {
            return None;
        }
        m.add(
            &keys.span,
            format!("`{member}` has no `{wanted}`"),
            format!("`{wanted}` is missing here"),
            "write size = \"2x4\" for stock, or thickness = \"1-1/2 in\" and width = \"3-1/2 in\" as built",
        );
        return None;
    };
    if let Some((t, row)) = &stock {
        for (way, built, dressed) in [("thick", &keys.thickness, Some(row.thickness)), ("wide", &keys.width, row.width)]
        {
            let (Some(built), Some(dressed)) = (built, dressed) else { continue };
            if built.value.value > dressed.value + 1e-9 {
                m.add(
                    &built.span,
                    format!("a {} is only {} {way}", row.name, fraction_of_inch(dressed)),
                    format!("larger than the {}", row.name),
                    format!("write {} or less, or a larger size than \"{}\"", fraction_of_inch(dressed), t.value),
                );
                return None;
            }
        }
    }
    let nominal = match &stock {
        Some((_, row)) => row.nominal.unwrap_or_else(|| nominal_of(thickness, width, tables)),
        None => nominal_of(thickness, width, tables),
    };
    Some(Size { thickness, width, nominal, stock: stock.map(|(_, s)| s.name.clone()) })
}

/// The nominal size whose dressed size holds a stick given as built: the next standard size up.
fn nominal_of(thickness: Length, width: Length, tables: &Tables) -> (f64, f64) {
    nominal_holding(thickness, width, tables)
        .unwrap_or((thickness.value / METRE_PER_INCH, width.value / METRE_PER_INCH))
}

/// The smallest standard size from which a stick of this size can be dressed.
pub(super) fn nominal_holding(thickness: Length, width: Length, tables: &Tables) -> Option<(f64, f64)> {
    let (small, large) = if thickness < width { (thickness, width) } else { (width, thickness) };
    // A stick measured in millimetres may exceed its dressed size by a hair.
    let hair = millimetre(0.5);
    let holds = |s: &&StockSize| s.thickness + hair >= small && s.width.is_some_and(|w| w + hair >= large);
    let area = |s: &StockSize| s.width.map_or(f64::INFINITY, |w| (s.thickness * w).value);
    let named = tables.stock().rows().iter().filter(|s| s.nominal.is_some());
    named.filter(holds).min_by(|a, b| area(a).total_cmp(&area(b))).and_then(|s| s.nominal)
}

/// A length for a reader of either system of units.
fn both(v: Length) -> String {
    format!("{} ({:.0} mm)", fraction_of_inch(v), v.value * 1e3)
}

/// A dimension that a stick of wood can have.
pub(super) fn sane(key: &str, t: &Typed<Length>, least: Length, most: Length, m: &mut Mistakes) -> Option<()> {
    if t.value < least || t.value > most {
        let what = if t.value < least { "too small" } else { "too large" };
        let help = format!("write something from {} to {}", both(least), both(most));
        m.add(&t.span, format!("this `{key}` is {what}"), "", help);
        return None;
    }
    Some(())
}
