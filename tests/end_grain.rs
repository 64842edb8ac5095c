//! Screws into end grain, worked by hand: pocket screws in a rail's end and the rungs of a ladder. The one family
//! gives such a screw two thirds of its strength across and none along, the other counts on none.
//!
//! NDS 2018 12.3.1, 12.5.2.2 (`Ceg` 0.67) and appendix L: from memory; the yield limit equations are held against
//! printed columns in `tests/evidence`. EN 1995-1-1 8.3.1.2: from memory.

mod support;

use slatwright::check::{Limit, Role, check_with_remedies};
use slatwright::load::CaseKind;
use slatwright::quantity::UnitSystem;
use support::{POUND, assessed, built, exchanged, found, platform, same};

const BUNK: &str = include_str!("data/guard/bunk.toml");
const TWO: &str = include_str!("../demo/two.toml");

/// A wood screw thinner than 1/4 in, in inches and psi.
struct Screw {
    root: f64,
    fyb: f64,
}

/// Pounds that it holds across, in wood of specific gravity `g` on both sides: the least of six modes over `KD`,
/// which goes by the root and is 2.2 up to 0.17 in and `10 D + 0.5` beyond.
fn lateral(Screw { root: d, fyb }: Screw, g: f64, ls: f64, lm: f64) -> f64 {
    let fe = 16_600.0 * g.powf(1.84);
    let rt = lm / ls;
    let k1 = (0.5 * (1.0 + 2.0 * (1.0 + rt + rt * rt) + rt * rt)).sqrt() * 0.5f64.sqrt() - (1.0 + rt) / 2.0;
    let bent = |l: f64| (4.0 + 2.0 * fyb * 3.0 * d * d / (3.0 * fe * l * l)).sqrt() - 1.0;
    let modes = [
        d * lm * fe,
        d * ls * fe,
        k1 * d * ls * fe,
        bent(lm) * d * lm * fe / 3.0,
        bent(ls) * d * ls * fe / 3.0,
        d * d * (fe * fyb / 3.0).sqrt(),
    ];
    modes.into_iter().fold(f64::INFINITY, f64::min) / if d <= 0.17 { 2.2 } else { 10.0 * d + 0.5 }
}

/// The bunk's rungs on `count` screws #14 by 4 in through stringers of 1-1/2 in instead of let in.
fn screwed(count: u32) -> String {
    let housed = "ends = { joint = \"housed\", depth = \"1/2 in\" }";
    exchanged(BUNK, housed, &format!("ends = {{ joint = \"screws\", screw = \"#14 x 4 in\", count = {count} }}"))
}

/// The whole step of 300 lb on one end: `2 · 0.67 · 1.25 Z`. 2-1/2 in of #14 are more than ten diameters, so all of it
/// bears. D 0.242, root 0.196 in, Fyb 70 000 psi, G 0.50.
#[test]
fn rungs_on_screws_by_the_nds() {
    let a = assessed(&screwed(2));
    let check = found(&a, "rung end", Limit::Joint);
    let one = 0.67 * 1.25 * lateral(Screw { root: 0.196, fyb: 70e3 }, 0.5, 1.5, 2.5);
    same("step", check.demand.si, 300.0 * POUND);
    same("n Z'", check.capacity.si, 2.0 * one * POUND);
    // Nothing is cut out of the stringer: all of its thickness bears.
    let housed = assessed(BUNK);
    let stringer = |a| found(a, "stringer", Limit::Bending).demand.si;
    same("stringer", stringer(&housed) / stringer(&a), 1.5);
}

/// Two such screws are too few or enough as the sum by hand says, and what is said to help is the least number that
/// does.
#[test]
fn too_few_screws_in_a_rung() {
    let one = 0.67 * 1.25 * lateral(Screw { root: 0.196, fyb: 70e3 }, 0.5, 1.5, 2.5);
    let needed = (300.0 / one).ceil() as u32;
    assert!((2..=4).contains(&needed), "{one}");
    let (a, remedies) = check_with_remedies(&platform(&screwed(needed - 1))).unwrap_or_else(|e| panic!("{e}"));
    assert!(found(&a, "rung end", Limit::Joint).ratio > 1.0);
    let said = remedies.iter().find(|r| r.role == Some(Role::RungEnd)).unwrap_or_else(|| panic!("{remedies:?}"));
    let words = format!("for the rung ends: {needed} screws in each end of a rung");
    assert_eq!(said.sentence(UnitSystem::Us), words);
    assert!(found(&assessed(&screwed(needed)), "rung end", Limit::Joint).ratio <= 1.0);
}

/// By the other family no verdict is given on such rungs, and the reason is the clause that counts on none.
#[test]
fn rungs_on_screws_by_eurocode_5() {
    let text = screwed(2).replace("\"asd\"", "\"ec5\"").replace("douglas fir-larch no2", "C24");
    let a = assessed(&text);
    assert!(a.members.iter().all(|m| m.id != "rung end"));
    let note = a.not_checked.iter().find(|n| n.what == "the ends of the rungs").expect("a note");
    assert!(note.carries_load && note.why.contains("8.3.1.2"), "{note:?}");
}

/// Four pocket screws #8, 2-1/2 in and 2 in long: half of each in the post, under half of the rail's 1-1/2 in (no
/// source). That is less than ten diameters, so two of them at the tip count for nothing. D 0.164, root 0.131 in, Fyb
/// 90 000 psi. In the longer one the rail's wood decides, in the shorter one the post's.
#[test]
fn pocket_screws_by_the_nds() {
    let ends = TWO.lines().find(|l| l.starts_with("ends")).expect("the rails' ends");
    for (long, length) in [("2-1/2 in", 2.5), ("2 in", 2.0)] {
        let joint = format!("ends = {{ joint = \"pocket screws\", screw = \"#8 x {long}\", count = 4 }}");
        let text = exchanged(TWO, ends, &joint);
        let (p, a) = built(&text);
        let check = found(&a, "left rail, head end", Limit::Joint);
        let held = p.sides[0].rail.ends.as_ref().expect("held at its ends");
        assert_eq!(p.sides[0].rail.stick.wood.name(), held.post.name(), "one wood on both sides");
        let one = 0.67 * lateral(Screw { root: 0.131, fyb: 90e3 }, 0.5, 0.75, length / 2.0 - 2.0 * 0.164);
        // Ten years, two months, seven days: Table 2.3.2.
        let cd = match check.case {
            CaseKind::Lying | CaseKind::Sitting | CaseKind::CodeUniform => 1.0,
            CaseKind::RowOnTheEdge => 1.15,
            CaseKind::Kneeling => 1.25,
            other => panic!("{other:?} is not worked here"),
        };
        same("n Z'", check.capacity.si, 4.0 * cd * one * POUND);
    }
}
