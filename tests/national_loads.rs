//! Loads by nation, and loads of published furniture tests: what the table says, whose they are, and that they
//! decide nothing unless a brief says so.

mod support;

use slatwright::brief::RuleFamily;
use slatwright::check::{Verdict, check, check_with_remedies, predict};
use slatwright::load::{CaseKind, GuardLoad, cases, guard_loads, predicted};
use slatwright::platform::Platform;
use slatwright::quantity::unit::{inch, millimetre, newton, pascal, pound_force, psf};
use slatwright::source::Seen;
use slatwright::tables::Tables;
use slatwright::tables::loads::PadPlace;
use support::platform;

const DECK: &str = include_str!("../demo/deck_ec5.toml");
const TWO: &str = include_str!("../demo/two.toml");

/// IRC Table R301.5 (30 psf) and the HUD guide's Table 3.4 (300 lbf), read in copies; EN 1991-1-1 Table 6.2 with its
/// recommended values, and the German annex's A3, from memory; the British annex's A1 (1.5 kN/m², 2.0 kN), found in a
/// public source file.
#[test]
fn every_nation_has_its_loads() {
    let loads = Tables::embedded().loads();
    let psf30 = psf(30.0);
    for (nation, uniform, point, patch, seen) in [
        ("us", psf30, pound_force(300.0), inch(30.0), Seen::Secondary),
        ("recommended", pascal(2000.0), newton(2000.0), millimetre(50.0), Seen::Memory),
        ("uk", pascal(1500.0), newton(2000.0), millimetre(50.0), Seen::Secondary),
        ("germany", pascal(2000.0), newton(1000.0), millimetre(50.0), Seen::Memory),
    ] {
        let code = loads.code(nation);
        assert_eq!((code.uniform, code.point, code.patch), (uniform, point, patch), "{nation}");
        assert_eq!(code.provenance.seen, seen, "{nation}");
    }
    assert_eq!(loads.codes().len(), 4);
}

/// Two test houses' summaries of EN 1725 (1998): 1400 N anywhere, two of 1200 N on the edge, 1000 N again and again.
#[test]
fn furniture_tests_as_they_were_read() {
    let en1725 = Tables::embedded().loads().proof("en1725").unwrap_or_else(|e| panic!("{e}"));
    let rows: Vec<(f64, usize, PadPlace)> = en1725.iter().map(|p| (p.force.value, p.pads, p.place)).collect();
    let (any, edge) = (PadPlace::Anywhere, PadPlace::Edge);
    assert_eq!(rows, [(1400.0, 1, any), (1200.0, 2, edge), (1000.0, 1, any), (1000.0, 1, edge)]);
    assert!(en1725.iter().all(|p| p.pad == millimetre(200.0) && p.provenance.seen == Seen::Secondary));
}

/// The rules and the nation choose; `[cases]` changes.
#[test]
fn rules_and_nation_choose_the_loads() {
    let uniform = |p: &Platform| {
        let all = cases(p);
        let case = all.iter().find(|c| c.kind == CaseKind::CodeUniform).expect("the case");
        let whole = &case.positions[0].patches[0];
        whole.force.value / ((whole.x[1] - whole.x[0]) * (whole.y[1] - whole.y[0])).value
    };
    let point = |p: &Platform| predicted(p)[0].positions[0].patches[0].force.value;
    let near = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 1e-12, "{a} {b}");
    for (nation, area, force) in [("recommended", 2000.0, 2000.0), ("uk", 1500.0, 2000.0), ("germany", 2000.0, 1000.0)]
    {
        let p = platform(&DECK.replace("national = \"recommended\"", &format!("national = \"{nation}\"")));
        near(uniform(&p), area);
        near(point(&p), force);
    }
    let us = platform(TWO);
    near(uniform(&us), psf(30.0).value);
    near(point(&us), pound_force(300.0).value);
    let changed = platform(&format!(
        "{DECK}\n[cases]\nuniform = {{ load = \"3 kN/m2\" }}\npoint = {{ load = \"1.7 kN\", patch = \"80 mm\" }}\n"
    ));
    near(uniform(&changed), 3000.0);
    near(point(&changed), 1700.0);
    let patch = &predicted(&changed)[0].positions[0].patches[0];
    assert!(
        ((patch.x[1] - patch.x[0]).value - 0.08 - 2.0 * 0.02) < 1e-12,
        "80 mm and a quarter of the mattress each side"
    );
    let none = platform(&format!("{DECK}\n[cases]\npoint = {{ drop = true }}\n"));
    assert!(predicted(&none).is_empty());
}

/// Two pads side by side at the middle of each long edge.
#[test]
fn pads_stand_at_the_middle_of_the_edge() {
    let p = platform(&format!("{DECK}\n[cases]\nproof = {{ set = \"en1725\" }}\n"));
    let all = predicted(&p);
    assert_eq!(all.len(), 5);
    let edge = all.iter().find(|c| c.kind == CaseKind::ProofOnTheEdge).expect("the edge");
    assert_eq!(edge.positions.len(), 2);
    for position in &edge.positions {
        let force: f64 = position.patches.iter().map(|q| q.force.value).sum();
        assert!((force - 2400.0).abs() < 1e-9);
        let middle: f64 = position.patches.iter().map(|q| (q.x[0] + q.x[1]).value / 2.0).sum::<f64>() / 2.0;
        assert!((middle - p.length.value / 2.0).abs() < 1e-9, "{middle}");
        let apart = (position.patches[1].x[0] - position.patches[0].x[0]).value;
        assert!((apart - 0.1 * std::f64::consts::PI.sqrt()).abs() < 1e-9, "{apart}");
        // Against the edge, so that the spread outside is cut off.
        assert!(position.patches.iter().all(|q| q.y[0].value == 0.0 || (q.y[1] - p.width).value.abs() < 1e-12));
    }
}

/// What is predicted changes neither verdict nor members; what decides does.
#[test]
fn a_prediction_decides_nothing_unless_asked() {
    let asked = format!("{DECK}\n[cases]\nproof = {{ set = \"en1725\" }}\n");
    let (plain, predicting) = (platform(DECK), platform(&asked));
    let same = |p: &Platform| check(p).unwrap_or_else(|e| panic!("{e}"));
    let (a, b) = (same(&plain), same(&predicting));
    assert_eq!(a.verdict(), Verdict::Pass);
    let ratios = |a: &slatwright::check::Assessment| -> Vec<f64> {
        a.members.iter().flat_map(|m| m.checks.iter().map(|c| c.ratio)).collect()
    };
    assert_eq!(ratios(&a), ratios(&b));
    let told = predict(&predicting).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(told.len(), 5);
    let worst = told[0].weakest.as_ref().expect("a weakest link");
    assert!(worst.2 > 1.0, "the code's point load is more than this deck carries: {worst:?}");
    let deciding = platform(&format!("{DECK}\n[cases]\npoint = {{ decides = true }}\n"));
    let (c, _) = check_with_remedies(&deciding).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(c.verdict(), Verdict::Fail);
    let (member, check) = c.weakest().expect("a weakest link");
    assert_eq!(check.case, CaseKind::CodePoint);
    assert!((check.ratio - worst.2).abs() < 1e-12, "{} {:?}", member.id, worst);
    assert!(c.predictions.is_empty());
}

/// A test's load is not the code's: without a set there are none, and the two never add up.
#[test]
fn each_prediction_is_one_load_alone() {
    let p = platform(TWO);
    let all = predicted(&p);
    assert_eq!(all.iter().map(|c| c.kind).collect::<Vec<_>>(), [CaseKind::CodePoint]);
    assert!(all[0].positions.iter().all(|q| q.patches.len() == 1));
    assert_eq!(p.rules, RuleFamily::AllowableStress);
}

/// On the top of a guard in rooms of dwellings: 0.5 kN/m as EN 1991-1-1 Table 6.12 recommends and as Germany has it,
/// 0.74 kN/m in the British annex. In a furniture test 500 N outwards and 1000 N down (EN 747-2). All from memory.
#[test]
fn guards_by_nation_and_by_test() {
    let bunk =
        include_str!("data/guard/bunk.toml").replace("\"asd\"", "\"ec5\"").replace("douglas fir-larch no2", "C24");
    for (nation, line) in [("recommended", 500.0), ("germany", 500.0), ("uk", 740.0)] {
        for factor in [1.0, 1.5] {
            let text = bunk.replace("[guard]", "[guard]\nfurniture_test = true");
            let text = format!("national = \"{nation}\"\n{text}\n[cases]\nguard = {{ factor = {factor} }}\n");
            let p = platform(&text);
            let loads = guard_loads(&p);
            assert_eq!(loads.len(), 2, "{loads:?}");
            let GuardLoad::Line(w) = loads[0].1 else { panic!("{loads:?}") };
            assert!((w.value - line * factor).abs() < 1e-9, "{nation}: {w:?}");
            let GuardLoad::Test { sideways, down } = loads[1].1 else { panic!("{loads:?}") };
            assert!((sideways.value - 500.0 * factor).abs() < 1e-9 && (down.value - 1000.0 * factor).abs() < 1e-9);
        }
    }
}
