//! Guards, openings and heights: public law and published rules on both sides of every figure.
//!
//! us: 16 CFR 1213.3 and 1513.3, read but for the wedge block's 3.5 in (secondary) and the age (memory). eu: EN 747-1
//! as French law, consumer advice and a design note repeat it, the ladder's pitch upwards, first rung and width from
//! memory; ISO 9098-1 as a national standard's foreword repeats it. au: the regulator's page. Lengths in millimetres.

mod support;

use slatwright::brief::{Edge, Side, Spot};
use slatwright::check::{Assessment, Limit, Role, Verdict, check};
use slatwright::platform::{Platform, Rung};
use slatwright::quantity::Length;
use slatwright::quantity::unit::{inch, millimetre};
use slatwright::tables::Tables;
use support::platform;

const BUNK: &str = include_str!("../demo/bunk.toml");

fn built(jurisdiction: &str) -> Platform {
    let text = format!("jurisdiction = \"{jurisdiction}\"\n{BUNK}");
    platform(&text)
}

fn checked(p: &Platform) -> Assessment {
    check(p).unwrap_or_else(|e| panic!("{e}"))
}

/// Makes one size of the bunk what is asked.
fn set(p: &mut Platform, what: &str, size: f64) {
    let mm = millimetre(size);
    let mattress = p.mattress.thickness;
    let guard = p.guard.as_mut().expect("a guard");
    let ladder = p.ladder.as_mut().expect("a ladder");
    match what {
        "guarded sides" => guard.edges = [Edge::Left, Edge::Right].into_iter().take(size as usize).collect(),
        "guarded edges" => {
            guard.edges = [Edge::Left, Edge::Right, Edge::Head, Edge::Foot].into_iter().take(size as usize).collect();
        }
        "guard without a break" => {
            guard.edges = vec![Edge::Left];
            let opening = guard.opening.as_mut().expect("a way in");
            opening.side = if size == 0.0 { Side::Left } else { Side::Right };
        }
        "guard above the mattress" => guard.top = mattress + mm,
        "guard above the slats" => {
            p.mattress.thickness = Length::default();
            guard.top = mm;
        }
        "gap in the guard" => guard.lower.as_mut().expect("a lower rail").gap = mm,
        "gap under the guard" => {
            let l = guard.lower.as_ref().expect("a lower rail");
            guard.top = mm + guard.rail.width + (l.gap + l.stick.width) * l.count as f64;
        }
        // Few enough that the widest gap still fits between the ends.
        "gap between slats" => (p.slats.count, p.slats.gap) = (4, mm),
        "way in" | "way in at an end" => guard.opening.as_mut().expect("a way in").width = mm,
        "rung to rung" => ladder.pitch = mm,
        "first rung above the floor" => ladder.first = mm,
        "tread from front to back" => {
            let mut tread = ladder.stringer.clone();
            tread.width = mm;
            ladder.rung = Rung::Tread(tread);
        }
        "ladder's clear width" => ladder.width = mm,
        "age of the youngest" => p.sleepers[0].age = Some(size as u8),
        _ => panic!("{what}"),
    }
}

/// Whether every rule about one size is kept; `None` when there is no such rule.
fn kept(a: &Assessment, what: &str) -> Option<bool> {
    let own = a.members.iter().filter(|m| m.role == Role::Opening && m.id.split(", ").next() == Some(what));
    own.map(|m| m.verdict() == Verdict::Pass).reduce(|x, y| x && y)
}

/// A size with what passes and what does not.
type Sides = (&'static str, &'static [f64], &'static [f64]);

const US: [Sides; 7] = [
    ("guarded sides", &[2.0], &[1.0, 0.0]),
    ("guard without a break", &[1.0], &[0.0]),
    ("way in at an end", &[300.0, 380.5, 381.0], &[381.5, 500.0]),
    ("guard above the mattress", &[127.0, 127.5, 300.0], &[126.5, 0.0]),
    // A block of 88.9 mm goes through a gap of 88.9 mm.
    ("gap in the guard", &[20.0, 88.4], &[88.9, 89.4, 200.0]),
    ("gap under the guard", &[20.0, 88.4], &[88.9, 89.4, 200.0]),
    ("age of the youngest", &[6.0, 12.0], &[5.0]),
];

const EU: [Sides; 12] = [
    ("guarded edges", &[4.0], &[3.0, 0.0]),
    ("guard above the mattress", &[160.0, 160.5], &[159.5]),
    ("guard above the slats", &[260.0, 260.5], &[259.5]),
    ("gap in the guard", &[7.0, 12.0, 25.0, 60.0, 75.0], &[7.5, 11.5, 25.5, 59.5, 75.5, 230.0]),
    ("gap under the guard", &[25.0, 60.0, 75.0], &[25.5, 59.5, 75.5]),
    ("gap between slats", &[10.0, 40.0, 75.0], &[75.5, 120.0]),
    ("way in", &[300.0, 400.0], &[299.5, 400.5]),
    ("rung to rung", &[200.0, 300.0], &[199.5, 300.5]),
    ("first rung above the floor", &[499.5, 500.0], &[500.5]),
    ("tread from front to back", &[90.0, 90.5], &[89.5]),
    ("ladder's clear width", &[300.0, 300.5], &[299.5]),
    ("age of the youngest", &[6.0], &[5.0]),
];

const AU: [Sides; 7] = [
    ("guarded edges", &[4.0], &[3.0]),
    ("guard above the slats", &[260.0, 260.5], &[259.5]),
    ("gap in the guard", &[30.0, 50.0, 95.0, 230.0], &[30.5, 49.5, 95.5, 229.5]),
    ("gap under the guard", &[30.0, 50.0, 95.0, 230.0], &[30.5, 49.5, 95.5, 229.5]),
    ("gap between slats", &[95.0, 230.0], &[95.5, 229.5]),
    ("way in", &[399.5, 400.0], &[400.5]),
    ("age of the youngest", &[9.0], &[8.0]),
];

#[test]
fn both_sides_of_every_figure() {
    for (jurisdiction, all) in [("us", &US[..]), ("eu", &EU[..]), ("au", &AU[..])] {
        for (what, passing, failing) in all {
            for (sizes, passes) in [(passing, true), (failing, false)] {
                for size in *sizes {
                    let mut p = built(jurisdiction);
                    set(&mut p, what, *size);
                    let a = checked(&p);
                    assert_eq!(kept(&a, what), Some(passes), "{jurisdiction} {what} {size}");
                    assert!(passes || a.verdict() == Verdict::Fail);
                }
            }
        }
        // No rule is left that the lists above do not reach.
        let own = Tables::embedded().openings().rules().iter().filter(|r| r.jurisdiction.word() == jurisdiction);
        for rule in own {
            assert!(all.iter().any(|(what, ..)| *what == rule.what.name()), "{jurisdiction} {}", rule.what.name());
        }
    }
}

/// us: the foundation's underside above 30 in; eu: the base's top at 600 mm or more; au: its top above 800 mm.
#[test]
fn rules_begin_at_their_height() {
    for (jurisdiction, without, with) in
        [("us", inch(30.0 + 1.5), 0.5), ("eu", millimetre(599.5), 0.5), ("au", millimetre(800.0), 0.5)]
    {
        let mut p = built(jurisdiction);
        p.height = Some(without);
        let low = checked(&p);
        assert!(low.openings.is_none() && low.members.iter().all(|m| m.role != Role::Opening), "{jurisdiction}");
        p.height = Some(without + millimetre(with));
        let high = checked(&p);
        let openings = high.openings.expect("rules that apply");
        assert_eq!(openings.jurisdiction.word(), jurisdiction);
        assert!(openings.applied >= 7);
    }
}

/// The thickest mattress passes and one a little thicker does not.
#[test]
fn the_thickest_mattress_is_on_the_edge() {
    for (jurisdiction, above) in [("us", inch(5.0)), ("eu", millimetre(160.0))] {
        let mut p = built(jurisdiction);
        let top = p.guard.as_ref().expect("a guard").top;
        let thickest = checked(&p).openings.and_then(|o| o.thickest_mattress).expect("a thickness");
        assert!((thickest - (top - above)).value.abs() < 1e-12);
        p.mattress.thickness = thickest;
        assert_eq!(kept(&checked(&p), "guard above the mattress"), Some(true));
        p.mattress.thickness = thickest + millimetre(0.5);
        assert_eq!(kept(&checked(&p), "guard above the mattress"), Some(false));
    }
    // Australia's rule is from the base, whatever lies on it.
    assert!(checked(&built("au")).openings.is_some_and(|o| o.thickest_mattress.is_none()));
}

/// Without a guard the sides fail, and slat gaps are held all the same; nobody's rules hold nothing.
#[test]
fn without_a_guard() {
    let mut p = built("eu");
    (p.guard, p.ladder) = (None, None);
    (p.slats.count, p.slats.gap) = (4, millimetre(90.0));
    let a = checked(&p);
    assert_eq!(kept(&a, "guarded edges"), Some(false));
    assert_eq!(kept(&a, "gap between slats"), Some(false));
    assert_eq!(kept(&a, "guard above the mattress"), None);
    let none = checked(&built("none"));
    assert!(none.openings.is_none() && none.members.iter().all(|m| m.role != Role::Opening));
    assert!(none.not_checked.iter().any(|n| n.what.contains("openings")), "{:?}", none.not_checked);
    let mut ageless = built("us");
    ageless.sleepers[0].age = None;
    assert!(checked(&ageless).not_checked.iter().any(|n| n.what == "age of the youngest"));
    let mut flat = built("us");
    flat.height = None;
    assert!(checked(&flat).not_checked.iter().any(|n| n.why.contains("how high")));
}

/// A way in that is not at an end is no end's.
#[test]
fn a_way_in_in_the_middle_is_held_by_no_us_rule() {
    let mut p = built("us");
    p.guard.as_mut().expect("a guard").opening.as_mut().expect("a way in").at = Spot::Middle;
    assert_eq!(kept(&checked(&p), "way in at an end"), None);
}

/// They stand first, claim nothing, and a size that is kept never outranks a strength.
#[test]
fn openings_stand_first_and_claim_nothing() {
    let p = built("us");
    let a = checked(&p);
    assert_eq!(a.members[0].role, Role::Opening);
    let mut good = built("us");
    set(&mut good, "gap under the guard", 50.0);
    let b = checked(&good);
    assert!(b.members.iter().filter(|m| m.role == Role::Opening).all(|m| m.verdict() == Verdict::Pass));
    assert_ne!(b.weakest().expect("a weakest link").1.limit, Limit::Opening);
    assert!(a.cautions.iter().any(|c| c.contains("conforms to nothing")));
}

/// A missing guard fails the platform, but it is no link of the load path: the weakest link stays what carries load.
#[test]
fn openings_are_no_link_of_the_load_path() {
    let mut p = built("us");
    let guarded = checked(&p);
    let guard = p.guard.take();
    assert!(guard.is_some());
    let bare = checked(&p);
    assert_eq!(bare.verdict(), Verdict::Fail);
    let first = bare.openings_not_kept().next().map(|(m, c)| (m.role, c.ratio));
    assert_eq!(first, Some((Role::Opening, f64::INFINITY)));
    for a in [&guarded, &bare] {
        let (member, check) = a.weakest().expect("members");
        assert_ne!(member.role, Role::Opening);
        assert!(check.ratio.is_finite());
    }
    // The same platform too low for the rules fails by its strength alone.
    p.height = Some(inch(20.0));
    let low = checked(&p);
    assert_eq!((low.verdict(), low.openings_not_kept().count()), (low.carries(), 0));
    assert_eq!(low.carries(), bare.carries());
}
