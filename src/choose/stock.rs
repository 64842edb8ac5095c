//! What there is to choose from: sticks and screws of a rack, or of the tables of stock.

use super::alter::typed;
use super::size::Part;
use crate::brief::{Brief, DeclaredKeys, Mistake, Mistakes, Rack, StickKeys, WoodKeys};
use crate::platform::{Platform, Stick, WoodChoice, stick};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem, fraction_of_inch, length_for_builder};
use crate::tables::Tables;
use crate::tables::fasteners::{Screw, ScrewKind};
use crate::tables::stock::StockSize;

/// A kind of stick.
#[derive(Clone, Debug)]
pub struct Offer {
    /// What a brief would say of it.
    pub keys: StickKeys,
    /// What it is.
    pub stick: Stick,
    /// The lengths it comes in; empty when nobody said.
    pub lengths: Vec<Length>,
}

/// A kind of screw.
#[derive(Clone, Debug)]
pub struct ScrewOffer {
    /// What it is.
    pub screw: Screw,
    /// What its maker declares of it.
    pub declared: Option<DeclaredKeys>,
}

/// What there is to choose from.
#[derive(Clone, Debug, Default)]
pub struct Supply {
    /// Sticks.
    pub sticks: Vec<Offer>,
    /// Screws.
    pub screws: Vec<ScrewOffer>,
    /// Sizes that a wood is not sold or not graded in, each with the reason.
    pub left_out: Vec<String>,
}

impl Supply {
    /// What is in a rack.
    ///
    /// # Errors
    ///
    /// Every mistake in the rack.
    pub fn of_rack(rack: &Rack, brief: &Brief, tables: &Tables) -> Result<Supply, Vec<Mistake>> {
        let mut m = rack.mistakes.clone();
        let mut out = Supply::default();
        for k in &rack.sticks {
            if let Some(all) = &k.lengths
                && let Some(l) = all.value.iter().find(|l| **l < inch(6.0) || **l > inch(600.0))
            {
                let message = format!("no stick is {} long", length_for_builder(*l, brief.units));
                m.add(
                    &all.span,
                    message,
                    "",
                    "write lengths from 6 in to 50 ft, such as lengths = [\"8 ft\", \"10 ft\"]",
                );
            }
            let built = stick(&k.stick, "stick", brief.rules.value, tables, &mut m);
            let mut lengths = k.lengths.as_ref().map_or(Vec::new(), |l| l.value.clone());
            lengths.sort_by(|a, b| a.value.total_cmp(&b.value));
            lengths.dedup();
            out.sticks.extend(built.map(|stick| Offer { keys: k.stick.clone(), stick, lengths }));
        }
        for k in &rack.screws {
            let read = match (&k.screw, &k.lag) {
                (Some(t), _) => tables.fasteners().screw(&t.value).map_err(|e| (t, e)),
                (None, Some(t)) => tables.fasteners().lag(&t.value).map_err(|e| (t, e)),
                (None, None) => continue,
            };
            match read {
                Ok(screw) => out.screws.push(ScrewOffer { screw, declared: k.declared.clone() }),
                Err((t, e)) => m.add(&t.span, e.to_string(), "", e.help()),
            }
        }
        if m.is_empty() { Ok(out) } else { Err(m.in_order()) }
    }

    /// Stock that a yard has in the units of the brief, in these woods. Thicknesses and widths, if any are
    /// given, take the place of stock sizes: wood as it is planed.
    pub fn of_tables(
        part: Part,
        p: &Platform,
        woods: &[WoodKeys],
        [thicknesses, widths]: [&[Length]; 2],
        brief: &Brief,
        tables: &Tables,
    ) -> Supply {
        let mut out = Supply::default();
        if part == Part::Cleat {
            out.screws = shop_screws(p, tables);
            return out;
        }
        let drawn = if part == Part::Rail { &p.sides[0].rail.stick } else { &p.slats.stick };
        let own = if part == Part::Rail {
            brief.rails.as_ref().map(|r| &r.stick)
        } else {
            brief.slats.as_ref().map(|s| &s.stick)
        };
        let Some(own) = own else { return out };
        let bare = StickKeys { size: None, thickness: None, width: None, ripped: None, measured: None, ..own.clone() };
        for wood in woods {
            let keys = StickKeys { wood: Some(wood.clone()), ..bare.clone() };
            let sizes: Vec<StickKeys> = if thicknesses.is_empty() && widths.is_empty() {
                let ungraded = matches!(wood.under(p.rules), Some(WoodKeys::Described { .. }));
                let rows = tables.stock().rows().iter().filter(|r| sold(r, part, p.units, ungraded));
                rows.map(|r| of_row(r, &keys, drawn)).collect()
            } else {
                let some = |given: &[Length], own: Length| if given.is_empty() { vec![own] } else { given.to_vec() };
                let widths = some(widths, drawn.width);
                let thick = some(thicknesses, drawn.thickness);
                let one = |t: Length, w: Length| StickKeys {
                    thickness: Some(typed(t)),
                    width: Some(typed(w)),
                    ripped: own.ripped.clone(),
                    ..keys.clone()
                };
                thick.iter().flat_map(|t| widths.iter().map(|w| one(*t, *w))).collect()
            };
            for keys in sizes {
                let mut m = Mistakes::default();
                match stick(&keys, part.word(), p.rules, tables, &mut m) {
                    Some(stick) if out.has(&stick) => {}
                    Some(stick) => out.sticks.push(Offer { keys, stick, lengths: Vec::new() }),
                    None => out.left_out.extend(m.in_order().into_iter().next().map(|m| m.message)),
                }
            }
        }
        out
    }
}

impl Supply {
    /// Whether there is a stick of the same wood and section already, by whatever name.
    fn has(&self, stick: &Stick) -> bool {
        let key = |s: &Stick| (s.wood.name(), s.thickness, s.width);
        self.sticks.iter().any(|o| key(&o.stick) == key(stick))
    }
}

/// Whether a size is one to make this member of. No source: what a yard sells and a builder carries.
fn sold(row: &StockSize, part: Part, units: UnitSystem, ungraded: bool) -> bool {
    let metric = row.name.ends_with("mm");
    if metric != (units == UnitSystem::Metric) || row.name.ends_with("green") {
        return false;
    }
    let wide = row.width.map_or(if ungraded { inch(3.5) } else { Length::default() }, |w| w);
    let within = |[a, b]: [Length; 2], [c, d]: [Length; 2]| (a..=b).contains(&row.thickness) && (c..=d).contains(&wide);
    match part {
        Part::Slat => within([millimetre(15.0), millimetre(52.0)], [millimetre(37.0), millimetre(190.0)]),
        _ => within([millimetre(37.0), millimetre(102.0)], [millimetre(88.0), millimetre(300.0)]),
    }
}

/// A stock size as a brief names it. Stock of random widths is ripped to the width that is drawn.
fn of_row(row: &StockSize, keys: &StickKeys, drawn: &Stick) -> StickKeys {
    let width = row.width.is_none().then(|| typed(drawn.width));
    StickKeys { size: Some(typed(row.name.clone())), width, ..keys.clone() }
}

/// Screws that a shop has: those that reach into the rail and do not come out of it. No source.
fn shop_screws(p: &Platform, tables: &Tables) -> Vec<ScrewOffer> {
    let (sizes, lengths): (&[&str], &[&str]) = match p.units {
        UnitSystem::Us => (&["#8", "#10", "#12", "#14"], &["2 in", "2-1/2 in", "3 in", "3-1/2 in", "4 in"]),
        UnitSystem::Metric => (&["4 mm", "5 mm", "6 mm"], &["50 mm", "60 mm", "70 mm", "80 mm", "100 mm"]),
    };
    let wood = sizes.iter().flat_map(|s| lengths.iter().map(move |l| format!("{} x {l}", s.trim_end_matches(" mm"))));
    let lags = ["1/4", "5/16"].iter().flat_map(|s| ["2", "2-1/2", "3", "4"].map(|l| format!("{s} x {l} in")));
    let wood = wood.filter_map(|s| tables.fasteners().screw(&s).ok());
    let all = wood.chain(lags.filter_map(|s| tables.fasteners().lag(&s).ok()));
    let room = p.sides.iter().map(|s| s.cleat.thickness + s.rail.stick.thickness);
    let room = room.fold(inch(99.0), Length::min);
    let drawn = &p.sides[0].screws.screw;
    let mut out: Vec<Screw> = vec![drawn.clone()];
    out.extend(all.filter(|s| s.length <= room && s.designation != drawn.designation));
    out.into_iter().map(|screw| ScrewOffer { screw, declared: None }).collect()
}

/// Pitches that a builder marks off. No source.
pub fn usual_pitches(units: UnitSystem) -> Vec<Length> {
    match units {
        UnitSystem::Us => [4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0].map(inch).to_vec(),
        UnitSystem::Metric => [100.0, 125.0, 150.0, 200.0, 250.0, 300.0, 400.0].map(millimetre).to_vec(),
    }
}

/// The woods of a brief, the member's own first, each once: other knots in the same species are not another.
pub fn woods_of(brief: &Brief, p: &Platform, part: Part) -> Vec<WoodKeys> {
    let slats = brief.slats.iter().map(|s| (&s.stick, &p.slats.stick));
    let rails = brief.rails.iter().map(|r| (&r.stick, &p.sides[0].rail.stick));
    let cleats = brief.cleats.iter().map(|c| (&c.stick, &p.sides[0].cleat));
    let all: Vec<_> = match part {
        Part::Rail => rails.chain(slats).chain(cleats).collect(),
        _ => slats.chain(cleats).chain(rails).collect(),
    };
    let mut names: Vec<String> = Vec::new();
    let mut out = Vec::new();
    for (keys, built) in all {
        let name = built.wood.name();
        if let (Some(wood), false) = (&keys.wood, names.contains(&name)) {
            names.push(name);
            out.push(wood.clone());
        }
    }
    out
}

/// A wood's name with what tells two ungraded ones apart.
pub(super) fn described(wood: &WoodChoice, units: UnitSystem) -> String {
    match wood {
        WoodChoice::Ungraded { knot, slope, .. } => {
            let knot = knot.map_or("clear".to_owned(), |k| match units {
                UnitSystem::Us => format!("knots to {}", fraction_of_inch(k)),
                UnitSystem::Metric => format!("knots to {}", length_for_builder(k, units)),
            });
            format!("{}, {knot}, slope 1:{slope}", wood.name())
        }
        _ => wood.name(),
    }
}

/// `screw` or `lag`.
pub(super) fn is_lag(screw: &Screw) -> bool {
    screw.kind == ScrewKind::Lag
}
