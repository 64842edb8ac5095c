//! What people do on a platform: the figures that decide how hard and where, each on both sides or to a part in a
//! million. Most have no source and are the program's own, told in its output; what is held here is that they stay.

mod support;

use slatwright::load::{Case, CaseKind, Position, cases};
use support::platform;

const G: f64 = 9.806_65;

/// A bed in metric, 1.5 m wide, on a mattress of 200 mm that spreads 50 mm to each side.
fn run(length: &str, people: &[&str], kind: CaseKind) -> Option<Case> {
    let sleepers: String = people.iter().map(|w| format!("[[sleeper]]\nweight = \"{w}\"\n")).collect();
    let text = format!(
        "units = \"metric\"\nrules = \"ec5\"\n[platform]\nlength = \"{length}\"\nwidth = \"1.5 m\"\nentry = \"left\"\n\
         [mattress]\nthickness = \"200 mm\"\nweight = \"30 kg\"\n{sleepers}[visitor]\nweight = \"none\"\n[slats]\n\
         wood = \"C24\"\nthickness = \"38 mm\"\nwidth = \"90 mm\"\ncount = 10\nfixed = true\n[cleats]\nwood = \"C24\"\n\
         thickness = \"45 mm\"\nwidth = \"70 mm\"\nscrews = {{ lag = \"1/4 x 4-1/2 in\", pitch = \"150 mm\", first = \
         \"75 mm\" }}\n[rails]\nwood = \"C24\"\nthickness = \"80 mm\"\nwidth = \"200 mm\"\nends = {{ joint = \
         \"bearing\", bearing = \"60 mm\" }}\n"
    );
    cases(&platform(&text)).into_iter().find(|c| c.kind == kind)
}

fn same(what: &str, ours: f64, theirs: f64) {
    assert!((ours - theirs).abs() <= 1e-6 * theirs.abs(), "{what}: {theirs} wanted, {ours} found");
}

/// As many as fit on half a metre each; each as heavy as the heaviest, at most 2 kN a metre, and at least the mean.
#[test]
fn a_row_on_the_edge() {
    for (length, people, count, newtons) in [
        ("2.0 m", &["100 kg"][..], 4.0, 100.0 * G),
        ("1.995 m", &["100 kg"], 3.0, 100.0 * G),
        // 102.0 kg weigh 1 kN, which half a metre may carry.
        ("2.0 m", &["150 kg", "40 kg"], 4.0, 1000.0),
        ("2.0 m", &["101.5 kg", "40 kg"], 4.0, 101.5 * G),
        ("2.0 m", &["150 kg", "90 kg"], 4.0, 120.0 * G),
        ("1.5 m", &["150 kg", "54.5 kg"], 3.0, 102.25 * G),
    ] {
        let case = run(length, people, CaseKind::RowOnTheEdge).expect("they sit");
        for at in &case.positions {
            let all: f64 = at.patches.iter().map(|q| q.force.value).sum();
            same(&format!("{length} {people:?}"), all, count * newtons);
        }
        // They sit 300 mm deep, and lean on a little more through the mattress.
        let [from, to] = case.positions[0].patches[0].y.map(|y| y.value);
        same("depth", to - from, 0.3 + 0.05);
    }
}

/// A foot of 100 mm within 300 mm of the edge that people climb in from, and nowhere else.
#[test]
fn climbing_in() {
    let case = run("2.0 m", &["80 kg"], CaseKind::ClimbingIn).expect("they climb");
    let middles = || case.positions.iter().map(|at| at.place.y.value);
    same("nearest", middles().fold(f64::INFINITY, f64::min), 0.05);
    same("farthest", middles().fold(0.0, f64::max), 0.25);
    case.positions.iter().for_each(|at| same("1.2", at.patches[0].force.value, 1.2 * 80.0 * G));
}

/// One child lands with 3.5 of its weight on 200 mm square; a second beside it, both with 0.85 of that. Up to 60 kg.
#[test]
fn children_jumping() {
    let case = run("2.0 m", &["30 kg"], CaseKind::Jumping).expect("it jumps");
    let widest = |i: usize| {
        let side = |at: &Position| [at.patches[0].x, at.patches[0].y][i].map(|v| v.value);
        case.positions.iter().map(side).map(|[a, b]| b - a).fold(0.0, f64::max)
    };
    (0..2).for_each(|i| same("side", widest(i), 0.2 + 2.0 * 0.05));
    assert!(case.positions.iter().all(|at| at.patches.len() == 1));
    let two = run("2.0 m", &["25 kg", "30 kg", "20 kg"], CaseKind::Jumping).expect("they jump");
    let pair = two.positions.iter().find(|at| at.patches.len() == 2).expect("two of them");
    let mut forces = [0, 1].map(|i| pair.patches[i].force.value);
    forces.sort_by(f64::total_cmp);
    [25.0, 30.0].into_iter().zip(forces).for_each(|(kg, force)| same("0.85", force, 0.85 * 3.5 * kg * G));
    assert!(run("2.0 m", &["59.9 kg"], CaseKind::Jumping).is_some());
    assert!(run("2.0 m", &["60.1 kg"], CaseKind::Jumping).is_none());
}

/// The tallest that lie on a bed that is too short for them lie on all of it and weigh no less.
#[test]
fn lying_on_a_short_bed() {
    let case = run("1.5 m", &["90 kg"], CaseKind::Lying).expect("they lie");
    for at in &case.positions {
        let ends = at.patches.iter().map(|q| q.x.map(|x| x.value));
        let (from, to) = ends.fold((f64::INFINITY, 0.0f64), |(a, b), [x0, x1]| (a.min(x0), b.max(x1)));
        assert!(from.abs() < 1e-9);
        same("as far as the foot", to, 1.5);
        same("weight", at.patches.iter().map(|q| q.force.value).sum(), 90.0 * G);
        same("middle", at.place.x.value, 0.75);
        same("middle", at.place.y.value, 0.75);
    }
}
