//! What is said to make a weak guard or ladder pass does, when the brief is written so: every kind of change that is
//! tried beside the platform's frame, typed into the brief and checked again. Needs no source.

mod support;

use slatwright::check::{Assessment, BesideChange, Change, Role, Verdict, check_with_remedies};
use slatwright::quantity::Length;
use support::{INCH, assessed, exchanged, platform};

const BUNK: &str = include_str!("data/guard/bunk.toml");

fn changed(from: &str, to: &str) -> String {
    exchanged(BUNK, from, to)
}

fn fails(a: &Assessment, role: Role) -> bool {
    a.members.iter().any(|m| m.role == role && m.verdict() == Verdict::Fail)
}

/// The one change that is proposed for a role of a brief in which it fails.
#[track_caller]
fn proposed(text: &str, role: Role) -> BesideChange {
    let (a, remedies) = check_with_remedies(&platform(text)).unwrap_or_else(|e| panic!("{e}"));
    assert!(fails(&a, role), "{role:?} passes");
    let of = remedies.iter().find(|r| r.role == Some(role)).unwrap_or_else(|| panic!("nothing for {role:?}"));
    match of.changes.as_slice() {
        [Change::Beside(change)] => change.clone(),
        other => panic!("{role:?}: {other:?}"),
    }
}

#[track_caller]
fn passes(text: &str, from: &str, to: &str, role: Role) {
    let better = exchanged(text, from, to);
    assert!(!fails(&assessed(&better), role), "{to} is not enough for {role:?}");
}

fn inches(l: Length) -> String {
    format!("{} in", l.value / INCH)
}

const TREADS: &str = "rungs = { wood = \"douglas fir-larch no2\", size = \"2x4\" }";

const ASH: &str = "{ species = \"white ash\", grade = \"ungraded\", knot = \"none\", slope_of_grain = \"1:20\" }";
/// A tread too thin for a step.
const THIN: &str = "thickness = \"1/2 in\"";

#[test]
fn treads() {
    let weak = changed(TREADS, &format!("rungs = {{ wood = {ASH}, {THIN}, width = \"3-1/2 in\" }}"));
    let BesideChange::Tread(t) = proposed(&weak, Role::Rung) else { panic!("another change") };
    passes(&weak, THIN, &format!("thickness = \"{}\"", inches(t)), Role::Rung);
    // In steps of 1/8 in: one less is not enough.
    let less = t.value / INCH - 0.125;
    assert!(
        less < 0.51 || fails(&assessed(&exchanged(&weak, THIN, &format!("thickness = \"{less} in\""))), Role::Rung)
    );
}

#[test]
fn pipes_and_round_rungs() {
    let heavy = "[cases]\nrung = { factor = 1.6 }\n";
    let weak = format!("{}\n{heavy}", changed(TREADS, "rungs = { pipe = \"1/2 in schedule 40\" }"));
    let BesideChange::Pipe(name) = proposed(&weak, Role::Rung) else { panic!("another change") };
    passes(&weak, "1/2 in schedule 40", &name, Role::Rung);
    let weak = changed(TREADS, &format!("rungs = {{ wood = {ASH}, diameter = \"3/4 in\" }}"));
    let BesideChange::RoundRung(d) = proposed(&weak, Role::Rung) else { panic!("another change") };
    passes(&weak, "diameter = \"3/4 in\"", &format!("diameter = \"{}\"", inches(d)), Role::Rung);
}

#[test]
fn rung_ends_stringers_and_the_top() {
    let weak = changed("depth = \"1/2 in\"", "depth = \"1/8 in\"");
    let BesideChange::Housing(d) = proposed(&weak, Role::RungEnd) else { panic!("another change") };
    passes(&weak, "depth = \"1/8 in\"", &format!("depth = \"{}\"", inches(d)), Role::RungEnd);
    let thin = "stringers = { wood = \"douglas fir-larch no2\", size = \"2x4\" }";
    let weak = format!("{BUNK}\n[cases]\nrung = {{ factor = 4 }}\n");
    let BesideChange::Stringer(size) = proposed(&weak, Role::Stringer) else { panic!("another change") };
    passes(&weak, thin, &thin.replace("2x4", &size), Role::Stringer);
    let weak = format!("{BUNK}\n[cases]\nrung = {{ factor = 5 }}\n")
        .replace("top = { lag = \"1/4 x 3 in\", count = 2 }", "top = { screw = \"#8 x 3 in\", count = 1 }");
    let BesideChange::LadderTop(n) = proposed(&weak, Role::LadderTop) else { panic!("another change") };
    passes(&weak, "#8 x 3 in\", count = 1", &format!("#8 x 3 in\", count = {n}"), Role::LadderTop);
}

#[test]
fn guards() {
    let rail = "rail = { wood = \"douglas fir-larch no2\", size = \"2x4\"";
    let weak = changed(rail, &rail.replace("2x4", "2x2"));
    match proposed(&weak, Role::GuardRail) {
        BesideChange::GuardPitch(l) => {
            passes(&weak, "pitch = \"40 in\"", &format!("pitch = \"{}\"", inches(l)), Role::GuardRail)
        }
        BesideChange::GuardRail(size) => {
            passes(&weak, &rail.replace("2x4", "2x2"), &rail.replace("2x4", &size), Role::GuardRail)
        }
        other => panic!("{other:?}"),
    }
    let weak =
        changed("screws = { lag = \"1/4 x 3 in\", count = 2 } }", "screws = { screw = \"#8 x 3 in\", count = 1 } }");
    let BesideChange::GuardRailScrews(n) = proposed(&weak, Role::GuardRail) else { panic!("another change") };
    passes(&weak, "#8 x 3 in\", count = 1", &format!("#8 x 3 in\", count = {n}"), Role::GuardRail);
    let post = "posts = { wood = \"douglas fir-larch no2\", size = \"4x4\"";
    let weak = changed(post, &post.replace("4x4", "2x2"));
    match proposed(&weak, Role::GuardPost) {
        BesideChange::GuardPost(size) => {
            passes(&weak, &post.replace("4x4", "2x2"), &post.replace("4x4", &size), Role::GuardPost)
        }
        BesideChange::GuardPitch(l) => {
            passes(&weak, "pitch = \"40 in\"", &format!("pitch = \"{}\"", inches(l)), Role::GuardPost)
        }
        other => panic!("{other:?}"),
    }
    let weak = changed("lag = \"3/8 x 5 in\", count = 2", "lag = \"1/4 x 5 in\", count = 2");
    match proposed(&weak, Role::GuardPostScrews) {
        BesideChange::GuardPostScrews(n) => {
            passes(&weak, "5 in\", count = 2, spacing", &format!("5 in\", count = {n}, spacing"), Role::GuardPostScrews)
        }
        BesideChange::GuardPitch(l) => {
            passes(&weak, "pitch = \"40 in\"", &format!("pitch = \"{}\"", inches(l)), Role::GuardPostScrews)
        }
        other => panic!("{other:?}"),
    }
}
