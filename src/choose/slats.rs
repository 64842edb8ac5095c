//! How far other slats could span on the same platform, under sleepers of other weights.

use std::collections::BTreeMap;

use super::alter;
use super::design::Design;
use super::span::{PartSpan, spans};
use crate::brief::{Brief, Mistake};
use crate::check::Role;
use crate::platform::Platform;
use crate::quantity::{Length, Mass};

/// Slats that a brief could have instead of its own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SlatStock {
    /// The stock size, such as `2x4`; the brief's own when left out.
    pub size: Option<String>,
    /// Another thickness, at the brief's width.
    pub thickness: Option<Length>,
    /// The wood by its name; the brief's own when left out.
    pub wood: Option<String>,
}

/// One stock under sleepers of one weight.
#[derive(Clone, Debug, PartialEq)]
pub struct SlatCell {
    /// What every sleeper weighs.
    pub sleeper: Mass,
    /// The widest platform at which the slats carry their load, or why there is none.
    pub slats: Result<PartSpan, String>,
    /// The widest at which the whole platform does.
    pub whole: Result<PartSpan, String>,
}

/// One stock under every weight.
#[derive(Clone, Debug, PartialEq)]
pub struct SlatRow {
    /// Whether these are the slats of the brief.
    pub as_drawn: bool,
    /// Thickness and width as built, where the brief can be built with them as it is drawn.
    pub section: Option<[Length; 2]>,
    /// Stock as asked for.
    pub stock: SlatStock,
    /// The wood as its table names it, or as asked for.
    pub wood: String,
    /// Under every weight, lightest first.
    pub cells: Vec<SlatCell>,
}

/// The table.
#[derive(Clone, Debug, PartialEq)]
pub struct SlatTable {
    /// Every stock.
    pub rows: Vec<SlatRow>,
    /// The heaviest sleeper in the brief.
    pub drawn_sleeper: Mass,
    /// The slats' longest span as drawn.
    pub drawn_span: Length,
    /// The width as drawn.
    pub drawn_width: Length,
}

/// Every stock under sleepers of every weight: all sleepers of the brief weigh the same, the platform's width is
/// changed, all else stays.
///
/// # Errors
///
/// Every mistake in the brief.
pub fn slat_table(design: &Design<'_>, stocks: &[SlatStock], sleepers: &[Mass]) -> Result<SlatTable, Vec<Mistake>> {
    let p = design.platform()?;
    let heaviest = p.sleepers.iter().map(|s| s.mass).fold(Mass::default(), Mass::max);
    let mut known: BTreeMap<String, SlatRow> = BTreeMap::new();
    let mut rows: Vec<SlatRow> = Vec::new();
    for stock in stocks {
        let row = row(design, stock, sleepers);
        let key = format!("{:?} {}", row.section, row.wood);
        // The brief's own stock may be asked for by its name too.
        if row.section.is_some() && known.contains_key(&key) {
            continue;
        }
        known.insert(key, row.clone());
        rows.push(row);
    }
    Ok(SlatTable { rows, drawn_sleeper: heaviest, drawn_span: p.longest_slat_span(), drawn_width: p.width })
}

fn row(design: &Design<'_>, stock: &SlatStock, sleepers: &[Mass]) -> SlatRow {
    let with = design.with(|b| alter::slat_stock(b, stock));
    let built = Platform::build(&with, design.tables);
    let named = stock.wood.clone().unwrap_or_default();
    let (section, wood) = match &built {
        Ok(p) => (Some([p.slats.stick.thickness, p.slats.stick.width]), p.slats.stick.wood.name()),
        Err(_) => (None, named),
    };
    let cells = sleepers.iter().map(|mass| {
        let mut brief = with.clone();
        alter::sleepers(&mut brief, *mass);
        cell(design, &brief, *mass)
    });
    SlatRow { as_drawn: *stock == SlatStock::default(), section, stock: stock.clone(), wood, cells: cells.collect() }
}

fn cell(design: &Design<'_>, brief: &Brief, sleeper: Mass) -> SlatCell {
    match spans(&design.of(brief), &[Some(Role::Slat), None]) {
        Ok(found) => {
            let mut found = found.into_iter().map(Ok);
            let mut next = || found.next().unwrap_or_else(|| Err("nothing was found".to_owned()));
            SlatCell { sleeper, slats: next(), whole: next() }
        }
        Err(mistakes) => {
            let why = mistakes.first().map_or(String::new(), |m| m.message.clone());
            SlatCell { sleeper, slats: Err(why.clone()), whole: Err(why) }
        }
    }
}
