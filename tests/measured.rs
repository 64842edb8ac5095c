//! A modulus of elasticity measured on a board: it changes how far wood sags, and makes nothing stronger.

mod support;

use slatwright::check::{Assessment, Limit};
use support::assessed;

const DOUBLE: &str = include_str!("../demo/hut_double.toml");
const DECK_EC5: &str = include_str!("../demo/deck_ec5.toml");
const TWO: &str = include_str!("../demo/two.toml");

/// A modulus in every stick of a brief that has a table of its own.
fn everywhere(text: &str, modulus: &str) -> String {
    let mut out = String::new();
    for line in text.lines() {
        out += &format!("{line}\n");
        if ["[slats]", "[cleats]", "[rails]", "[centre_beam]", "[posts]"].contains(&line.trim()) {
            out += &format!("measured = \"{modulus}\"\n");
        }
    }
    assert_ne!(out.matches("measured").count(), 0);
    out
}

fn capacities(a: &Assessment) -> Vec<(String, Limit, f64)> {
    let of = |m: &slatwright::check::Member| {
        m.checks.iter().map(|c| (m.id.clone(), c.limit, c.capacity.si)).collect::<Vec<_>>()
    };
    a.members.iter().flat_map(of).collect()
}

/// A stiff board is no strong board: however stiff, nothing holds more than it did, and what holds less holds less
/// because another case with another duration governs. Compared where the case is the same.
#[test]
fn stiffness_never_raises_a_strength() {
    for text in [TWO, DOUBLE, DECK_EC5] {
        let (plain, stiff) = (assessed(text), assessed(&everywhere(text, "25 GPa")));
        for (m, own) in plain.members.iter().zip(&stiff.members) {
            assert_eq!(m.id, own.id);
            for (a, b) in m.checks.iter().zip(&own.checks).filter(|(a, b)| a.limit == b.limit && a.case == b.case) {
                assert!(b.capacity.si <= a.capacity.si * (1.0 + 1e-9), "{} {:?}", m.id, a.limit);
            }
        }
    }
}

/// What stands in the brief is what the table has: nothing changes but the words.
#[test]
fn the_tables_own_modulus_changes_nothing() {
    let as_table = assessed(&DECK_EC5.replace("[slats]", "[slats]\nmeasured = \"11 GPa\""));
    let plain = assessed(DECK_EC5);
    assert_eq!(capacities(&plain), capacities(&as_table));
    for (a, b) in plain.members.iter().zip(&as_table.members) {
        a.checks.iter().zip(&b.checks).for_each(|(a, b)| assert_eq!(a.ratio, b.ratio));
    }
    assert!(as_table.assumptions.iter().any(|t| t.contains("stiffness of the slats as measured, 11000 N/mm²")));
    assert!(!plain.assumptions.iter().any(|t| t.contains("measured")));
}

/// A slat on two supports is statically determinate: its sag goes with 1/E and nothing else about it changes.
#[test]
fn a_slats_sag_goes_with_one_over_its_modulus() {
    let [soft, stiff] =
        ["1.2e6 psi", "1.8e6 psi"].map(|e| assessed(&TWO.replace("[slats]", &format!("[slats]\nmeasured = \"{e}\""))));
    for (a, b) in soft.members.iter().zip(&stiff.members).filter(|(a, _)| a.id.starts_with("slat ")) {
        for (a, b) in a.checks.iter().zip(&b.checks) {
            let want = if matches!(a.limit, Limit::Deflection | Limit::Creep) { 1.5 } else { 1.0 };
            assert!((a.ratio / b.ratio / want - 1.0).abs() < 1e-9, "{:?} {} {}", a.limit, a.ratio, b.ratio);
        }
    }
}

/// A soft board buckles sooner. A slender post's allowable goes with `Emin`, so it falls with a modulus that is
/// less than the table's, by no more than in proportion, and stays where that is more.
#[test]
fn a_soft_post_buckles_sooner_and_a_stiff_one_as_the_table_has_it() {
    let of = |e: Option<&str>| {
        let text = match e {
            Some(e) => DOUBLE.replace("[posts]", &format!("[posts]\nmeasured = \"{e}\"")),
            None => DOUBLE.to_owned(),
        };
        let a = assessed(&text);
        let all = a.members.iter().flat_map(|m| &m.checks).filter(|c| c.limit == Limit::Buckling);
        all.map(|c| c.ratio).fold(0.0, f64::max)
    };
    let (plain, soft, stiff) = (of(None), of(Some("0.5e6 psi")), of(Some("3e6 psi")));
    assert!(plain > 0.0 && plain == stiff, "{plain} {stiff}");
    assert!(soft > plain && soft < plain * 3.4, "{plain} {soft}");
}

/// By Eurocode 5 the shear modulus falls with a soft board's E, so that the sag at once and after creep goes with 1/E.
#[test]
fn a_soft_board_by_eurocode_5() {
    let sag = |text: &str| {
        let a = assessed(text);
        let slats = a.members.iter().filter(|m| m.id.starts_with("slat ")).flat_map(|m| &m.checks);
        slats.filter(|c| matches!(c.limit, Limit::Deflection | Limit::Creep)).map(|c| c.ratio).collect::<Vec<_>>()
    };
    let soft = sag(&DECK_EC5.replace("[slats]", "[slats]\nmeasured = \"8 GPa\""));
    let plain = sag(DECK_EC5);
    assert!(!plain.is_empty() && plain.len() == soft.len());
    plain.iter().zip(&soft).for_each(|(a, b)| assert!((b / a / (11.0 / 8.0) - 1.0).abs() < 1e-9, "{a} {b}"));
}
