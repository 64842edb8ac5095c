//! Changes to a brief, each as its builder would write it.

use std::ops::Range;

use super::slats::SlatStock;
use crate::brief::{
    BeamKeys, Brief, CASE_KEYS, CaseKeys, DeclaredKeys, EndKeys, JointWord, LayWord, PersonKeys, StickKeys, Typed,
    WoodKeys,
};
use crate::load::CaseKind;
use crate::platform::{Stick, WoodChoice};
use crate::quantity::unit::inch;
use crate::quantity::{Length, Mass};
use crate::tables::Tables;

/// Where a value stands that nobody typed.
const NOWHERE: Range<usize> = 0..0;

pub(super) fn typed<T>(value: T) -> Typed<T> {
    Typed { value, span: NOWHERE }
}

pub(super) fn width(brief: &mut Brief, width: Length) {
    if let Some(p) = &mut brief.platform {
        p.width = Some(typed(width));
    }
}

/// Other stock for the slats. What was measured on the brief's own boards, and whether those were ripped or
/// incised, says nothing of others.
pub(super) fn slat_stock(brief: &mut Brief, stock: &SlatStock) {
    let Some(slats) = &mut brief.slats else { return };
    let keys = &mut slats.stick;
    if let Some(size) = &stock.size {
        keys.size = Some(typed(size.clone()));
        (keys.thickness, keys.width, keys.ripped) = (None, None, None);
        keys.measured = None;
    }
    if let Some(thickness) = stock.thickness {
        keys.thickness = Some(typed(thickness));
        keys.measured = None;
    }
    if let Some(wood) = &stock.wood {
        keys.wood = Some(WoodKeys::Named(typed(wood.clone())));
        (keys.ripped, keys.incised, keys.measured) = (None, None, None);
    }
}

/// Every sleeper on a line of their own, so that each can be changed alone.
pub(super) fn part_sleepers(brief: &mut Brief) {
    let single = |k: PersonKeys| {
        let n = k.count.as_ref().map_or(1, |c| c.value);
        vec![PersonKeys { count: None, ..k }; n]
    };
    brief.sleepers = std::mem::take(&mut brief.sleepers).into_iter().flat_map(single).collect();
}

/// Every sleeper as heavy as this.
pub(super) fn sleepers(brief: &mut Brief, mass: Mass) {
    brief.sleepers.iter_mut().for_each(|k| weigh(k, mass));
}

/// One sleeper, of those that [`part_sleepers`] made.
pub(super) fn sleeper(brief: &mut Brief, place: usize, mass: Mass) {
    if let Some(k) = brief.sleepers.get_mut(place) {
        weigh(k, mass);
    }
}

fn weigh(person: &mut PersonKeys, mass: Mass) {
    person.weight = Some(typed(Some(mass)));
    person.occupant = None;
}

/// Drops every case but one.
pub(super) fn only(brief: &mut Brief, kind: CaseKind) {
    for name in CASE_KEYS.into_iter().filter(|k| *k != kind.key()) {
        brief.cases.retain(|c| c.name != name);
        brief.cases.push(CaseKeys::dropped(name, NOWHERE));
    }
}

/// Slats of this stick, laid so, with gaps of at most so much.
pub(super) fn slats(brief: &mut Brief, keys: &StickKeys, lay: LayWord, gap: Length) {
    if let Some(s) = &mut brief.slats {
        s.stick = StickKeys { span: NOWHERE, ..keys.clone() };
        s.lay = Some(typed(lay));
        s.gap = Some(typed(gap));
        s.count = None;
    }
}

/// Both rails of this stick, whatever either side had of its own.
pub(super) fn rails(brief: &mut Brief, keys: &StickKeys) {
    let Some(r) = &mut brief.rails else { return };
    r.stick = StickKeys { span: NOWHERE, ..keys.clone() };
    for side in [&mut r.left, &mut r.right].into_iter().flatten() {
        side.stick = StickKeys {
            wood: None,
            size: None,
            thickness: None,
            width: None,
            ripped: None,
            incised: None,
            measured: None,
            ..side.stick.clone()
        };
    }
}

/// Other screws in the cleats. What the maker declares of those that are drawn is theirs.
pub(super) fn cleat_screws(brief: &mut Brief, name: String, lag: bool, declared: Option<DeclaredKeys>, pitch: Length) {
    let Some(row) = brief.cleats.as_mut().and_then(|c| c.screws.as_mut()) else { return };
    let drawn = row.screw.as_ref().or(row.lag.as_ref()).is_some_and(|t| t.value == name);
    if !drawn || declared.is_some() {
        row.declared = declared;
    }
    let (screw, lag) = if lag { (None, Some(typed(name))) } else { (Some(typed(name)), None) };
    row.screw = screw;
    row.lag = lag;
    row.pitch = Some(typed(pitch));
}

/// With the brief's own centre beam, or one like the rails, or with none.
pub(super) fn centre_beam(brief: &mut Brief, wanted: bool) {
    if !wanted {
        brief.centre_beam = None;
    } else if brief.centre_beam.is_none()
        && let Some(r) = &brief.rails
    {
        let sides = [&r.left, &r.right].into_iter().flatten().filter_map(|s| s.ends.clone());
        // No posts stand under a beam's ends to be notched.
        let notched = |e: &EndKeys| e.joint.as_ref().is_some_and(|j| j.value == JointWord::Notch);
        let ends = r.ends.clone().into_iter().chain(sides).find(|e| !notched(e)).unwrap_or_else(resting);
        let stick = StickKeys { span: NOWHERE, ..r.stick.clone() };
        brief.centre_beam = Some(BeamKeys { stick, at: None, ends: Some(ends), legs: None, fixed: None });
    }
}

/// An end that rests 1-1/2 in, the thickness of a stud or a block.
fn resting() -> EndKeys {
    EndKeys {
        span: NOWHERE,
        joint: Some(typed(JointWord::Bearing)),
        screw: None,
        lag: None,
        bolt: None,
        washer: None,
        count: None,
        into_end_grain: None,
        through: None,
        edge: None,
        end: None,
        bearing: Some(typed(inch(1.5))),
        depth: None,
        cut: None,
        post: None,
        declared: None,
    }
}

/// A stick's size as built, planed by so much; the wood is thought to keep what it is.
pub(super) fn planed(keys: &mut StickKeys, built: &Stick, by: Length) {
    keys.thickness = Some(typed(built.thickness - by));
    keys.width = Some(typed(built.width));
}

/// The wood one grade lower, with its name: the next weaker grade of the species, the next weaker
/// class, or a knot as much larger as `knot` says.
pub(super) fn one_lower(built: &Stick, knot: Length, tables: &Tables) -> Option<Lower> {
    match &built.wood {
        WoodChoice::Graded { name, grade, values, .. } => {
            let species = name.strip_suffix(grade.as_str())?.trim_end();
            let structural = |g: &str| g.starts_with("Select Structural") || g.starts_with("No.");
            let (t, w) = built.nominal;
            let rows = tables.lumber().rows().iter().filter(|r| {
                r.species == species
                    && r.sizes.contains(t, w)
                    && structural(&r.grade) == structural(grade)
                    && r.values.bending < values.bending
            });
            let next = rows.max_by(|a, b| a.values.bending.value.total_cmp(&b.values.bending.value))?;
            Some(Lower::Named(next.name()))
        }
        WoodChoice::Class { values, .. } => {
            let all = tables.strength_classes().classes();
            let own = all.iter().find(|c| c.values == *values)?;
            let letter = own.name.chars().next()?;
            let weaker = all.iter().filter(|c| c.name.starts_with(letter) && c.values.bending < own.values.bending);
            let next = weaker.max_by(|a, b| a.values.bending.value.total_cmp(&b.values.bending.value))?;
            Some(Lower::Named(next.name.clone()))
        }
        WoodChoice::Ungraded { knot: now, .. } => Some(Lower::Knot(now.unwrap_or_default() + knot)),
    }
}

/// What one grade lower is.
pub(super) enum Lower {
    /// Another grade or class.
    Named(String),
    /// A larger knot in wood without a grade.
    Knot(Length),
}

impl Lower {
    /// Writes it into a brief.
    pub(super) fn write(&self, keys: &mut StickKeys) {
        match self {
            Lower::Named(name) => {
                keys.wood = Some(WoodKeys::Named(typed(name.clone())));
                keys.ripped = None;
            }
            Lower::Knot(size) => {
                if let Some(WoodKeys::Described { knot, .. }) = &mut keys.wood {
                    *knot = Some(typed(Some(*size)));
                }
            }
        }
    }
}
