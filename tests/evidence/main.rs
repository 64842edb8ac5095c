//! Every rule against what others have printed.
//!
//! `cases/*.toml` hold published cases as data: what was given, what was answered, where it stands and how it
//! was seen. They are put to the public functions of `src/rules` and to the program itself; a printed number
//! is met when it is missed by no more than half a unit of its last printed place. `without.toml` says why a
//! function has no case. `README.md` beside this file is written from all of it, with one line for every
//! public function found in the source, so a new function shows there whether it has a case or not.
//!
//! `UPDATE=1 cargo test --test evidence` writes the page anew: read the difference before it is committed.

mod case;
mod functions;
mod grillages;
mod inputs;
mod inventory;
mod page;
mod platforms;
mod printed;
mod spans;

use std::path::PathBuf;

/// This folder.
fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/evidence")
}

/// Fails with everything that is wrong, not only the first.
#[track_caller]
fn none(wrong: &[String]) {
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn every_printed_answer_is_met() {
    let mut wrong = Vec::new();
    for case in case::all() {
        wrong.extend(case.run().into_iter().filter_map(|row| row.fault));
    }
    none(&wrong);
}

#[test]
fn every_platform_answers_as_printed() {
    let wrong: Vec<String> = platforms::all().iter().flat_map(platforms::Group::faults).collect();
    none(&wrong);
}

#[test]
fn cases_name_functions_that_exist() {
    let functions = inventory::functions();
    let known = |name: &String| functions.iter().any(|f| f.name == *name);
    let mut wrong = Vec::new();
    for case in case::all() {
        wrong.extend(case.functions().filter(|n| !known(n)).map(|n| format!("{}: no function {n}", case.id)));
    }
    for without in case::without() {
        if !known(&without.function) {
            wrong.push(format!("without.toml: no function {}", without.function));
        }
    }
    none(&wrong);
}

#[test]
fn a_function_has_cases_or_a_reason_why_not() {
    let cases = case::all();
    let mut wrong = Vec::new();
    for without in case::without() {
        if cases.iter().any(|c| c.is_outside() && c.functions().any(|f| *f == without.function)) {
            wrong.push(format!("{} has an outside case: take it out of without.toml", without.function));
        }
    }
    none(&wrong);
}

#[test]
fn the_page_says_what_is_so() {
    let (place, now) = (folder().join("README.md"), page::written());
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&place, &now).expect("the page is written");
    }
    let page = std::fs::read_to_string(&place).unwrap_or_default();
    let first = page.lines().zip(now.lines()).position(|(a, b)| a != b).map_or(0, |n| n + 1);
    assert!(
        page == now,
        "tests/evidence/README.md is not what the cases say (line {first}). A rule function, a case or a platform has \
         changed: run `UPDATE=1 cargo test --test evidence`, read the difference, and commit it. A new rule function \
         wants a case in tests/evidence/cases/, or a line in tests/evidence/without.toml with the reason.\npage: {}\n\
         now:  {}",
        page.lines().nth(first.saturating_sub(1)).unwrap_or("(ends)"),
        now.lines().nth(first.saturating_sub(1)).unwrap_or("(ends)"),
    );
}
