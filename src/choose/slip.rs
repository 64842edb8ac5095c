//! What about a platform may turn out a little worse than drawn, one thing at a time.

use super::alter::{self, Lower};
use super::design::Design;
use crate::brief::{Brief, EndKeys, FixingKeys, RailKeys, StickKeys, StudKeys, Typed};
use crate::platform::{Platform, Rung, Stick};
use crate::quantity::unit::{inch, millimetre};
use crate::quantity::{Length, UnitSystem};

/// Something that may turn out worse.
pub(super) struct Slip {
    pub(super) words: String,
    pub(super) brief: Brief,
    /// A cleat screw that is left out: side and number.
    pub(super) without: Option<(usize, usize)>,
}

/// The keys of a stick in a brief.
type Keys = fn(&mut Brief) -> Option<&mut StickKeys>;

/// Every stick of a platform but the rails: what it is called, as built, and its keys.
fn sticks(p: &Platform) -> Vec<(&'static str, &Stick, Keys)> {
    let mut out: Vec<(&'static str, &Stick, Keys)> = vec![
        ("slats", &p.slats.stick, |b| b.slats.as_mut().map(|k| &mut k.stick)),
        ("cleats", &p.sides[0].cleat, |b| b.cleats.as_mut().map(|k| &mut k.stick)),
    ];
    if let Some(beam) = &p.centre_beam {
        out.push(("centre beam", &beam.stick, |b| b.centre_beam.as_mut().map(|k| &mut k.stick)));
        if let Some(legs) = &beam.legs {
            out.push(("legs", &legs.stick, |b| b.centre_beam.as_mut()?.legs.as_mut().map(|k| &mut k.stick)));
        }
    }
    if let Some(e) = &p.end_rails {
        out.push(("end rails", &e.stick, |b| b.end_rails.as_mut().map(|k| &mut k.stick)));
    }
    if let Some(posts) = &p.posts {
        out.push(("posts", &posts.stick, |b| b.posts.as_mut().map(|k| &mut k.stick)));
    }
    if let Some(guard) = &p.guard {
        out.push(("guard's rail", &guard.rail, |b| b.guard.as_mut()?.rail.as_mut()));
        out.push(("guard's posts", &guard.posts.stick, |b| b.guard.as_mut()?.posts.as_mut().map(|k| &mut k.stick)));
        if let Some(lower) = &guard.lower {
            out.push(("guard's lower rails", &lower.stick, |b| b.guard.as_mut()?.lower.as_mut().map(|k| &mut k.stick)));
        }
        if let Some(bars) = &guard.bars {
            out.push(("guard's bars", &bars.stick, |b| b.guard.as_mut()?.bars.as_mut().map(|k| &mut k.stick)));
        }
    }
    if let Some(ladder) = &p.ladder {
        if let Rung::Tread(tread) = &ladder.rung {
            out.push(("treads", tread, |b| b.ladder.as_mut()?.rungs.as_mut().map(|k| &mut k.tread)));
        }
        out.push(("stringers", &ladder.stringer, |b| b.ladder.as_mut()?.stringers.as_mut()));
    }
    out
}

/// What is tried in the sensitivity table, those that can be built.
pub(super) fn slips(design: &Design<'_>, p: &Platform) -> Vec<Slip> {
    let mut out: Vec<Slip> = Vec::new();
    let (shaving, knot, words) = match p.units {
        UnitSystem::Us => (inch(1.0 / 16.0), inch(0.25), ["1/16 in", "1/4 in"]),
        UnitSystem::Metric => (millimetre(2.0), millimetre(6.0), ["2 mm", "6 mm"]),
    };
    let mut add = |words: String, brief: Brief| out.push(Slip { words, brief, without: None });
    let lower_words = |name: &str, lower: &Lower| match lower {
        Lower::Named(wood) => format!("{name} of {wood}"),
        Lower::Knot(_) => format!("{name} with knots {} larger", words[1]),
    };
    for (name, built, keys) in sticks(p) {
        let changed = |change: &dyn Fn(&mut StickKeys)| design.with(|b| keys(b).into_iter().for_each(change));
        if let Some(lower) = alter::one_lower(built, knot, design.tables) {
            add(lower_words(name, &lower), changed(&|k| lower.write(k)));
        }
        add(format!("{name} planed {} thinner", words[0]), changed(&|k| alter::planed(k, built, shaving)));
    }
    if let Some(lower) = alter::one_lower(&p.sides[0].rail.stick, knot, design.tables) {
        add(lower_words("rails", &lower), design.with(|b| lower_rails(b, p, knot, design)));
    }
    add(format!("rails planed {} thinner", words[0]), design.with(|b| planed_rails(b, p, shaving)));
    if p.slats.count > 2 {
        add("one slat fewer, spread evenly".into(), design.with(|b| fewer_slats(b, p.slats.count - 1)));
    }
    for (words, fewer) in FEWER {
        let mut brief = design.brief.clone();
        if fewer(&mut brief) {
            add(words.into(), brief);
        }
    }
    out.retain(|s| Platform::build(&s.brief, design.tables).is_ok());
    out
}

/// Calls `change` with the keys and the built stick of the rails: the common keys, and a side's own.
fn on_rails(b: &mut Brief, p: &Platform, mut change: impl FnMut(&mut StickKeys, &Stick)) {
    let Some(rails) = &mut b.rails else { return };
    let own = |k: &RailKeys| {
        let s = &k.stick;
        s.wood.is_some() || s.size.is_some() || s.thickness.is_some() || s.width.is_some()
    };
    let mut common = 0;
    for (s, side) in [&mut rails.left, &mut rails.right].into_iter().enumerate() {
        match side.as_deref_mut().filter(|k| own(k)) {
            Some(k) => change(&mut k.stick, &p.sides[s].rail.stick),
            None => common = s,
        }
    }
    change(&mut rails.stick, &p.sides[common].rail.stick);
}

fn lower_rails(b: &mut Brief, p: &Platform, knot: Length, design: &Design<'_>) {
    on_rails(b, p, |k, built| {
        if let Some(lower) = alter::one_lower(built, knot, design.tables) {
            lower.write(k);
        }
    });
}

fn planed_rails(b: &mut Brief, p: &Platform, by: Length) {
    on_rails(b, p, |k, built| alter::planed(k, built, by));
}

fn fewer_slats(b: &mut Brief, count: usize) {
    if let Some(s) = &mut b.slats {
        s.count = Some(alter::typed(count));
        s.gap = None;
    }
}

/// Screws left out wherever there is more than one, and whether there was any such place.
type Fewer = fn(&mut Brief) -> bool;

const FEWER: [(&str, Fewer); 7] = [
    ("one screw or bolt fewer in each rail end", |b| on_each_rail(b, |r| r.ends.as_mut().is_some_and(end))),
    ("one screw fewer in each stud", |b| on_each_rail(b, |r| r.studs.as_mut().is_some_and(stud))),
    ("one screw or bolt fewer in each end of the centre beam", |b| {
        b.centre_beam.as_mut().and_then(|k| k.ends.as_mut()).is_some_and(end)
    }),
    ("one screw or bolt fewer in each end of the end rails", |b| {
        b.end_rails.as_mut().and_then(|k| k.ends.as_mut()).is_some_and(end)
    }),
    ("one screw fewer from the guard's rail into each post", |b| {
        b.guard.as_mut().and_then(|k| k.rail_screws.as_mut()).is_some_and(fixing)
    }),
    ("two screws fewer in each guard post", |b| {
        // Half of them are low and half high.
        let keys = b.guard.as_mut().and_then(|k| k.posts.as_mut()).and_then(|k| k.screws.as_mut());
        keys.is_some_and(|k| less(&mut k.count, 2))
    }),
    ("one screw fewer at each ladder top", |b| b.ladder.as_mut().and_then(|k| k.top.as_mut()).is_some_and(fixing)),
];

fn on_each_rail(b: &mut Brief, fewer: fn(&mut RailKeys) -> bool) -> bool {
    let Some(rails) = &mut b.rails else { return false };
    let sides = [&mut rails.left, &mut rails.right].into_iter().flatten().map(|k| fewer(k));
    let any = sides.fold(false, |any, one| any | one);
    fewer(rails) | any
}

fn end(k: &mut EndKeys) -> bool {
    less(&mut k.count, 1)
}

fn stud(k: &mut StudKeys) -> bool {
    less(&mut k.count, 1)
}

fn fixing(k: &mut FixingKeys) -> bool {
    less(&mut k.count, 1)
}

fn less(count: &mut Option<Typed<usize>>, by: usize) -> bool {
    match count {
        Some(c) if c.value > by => {
            c.value -= by;
            true
        }
        _ => false,
    }
}
