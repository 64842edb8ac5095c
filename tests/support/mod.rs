//! From a brief to the checks of one member, and how a value by hand is compared.

// Each test program uses some of it.
#![allow(dead_code)]

use slatwright::brief::Brief;
use slatwright::check::{Assessment, Check, Limit, check};
use slatwright::platform::Platform;
use slatwright::tables::Tables;

pub(crate) mod dowel;

/// In metres: exact since 1959 (NIST Special Publication 811, appendix B).
pub(crate) const INCH: f64 = 0.0254;
/// A pound-force in newtons: 0.45359237 kg under 9.80665 m/s², both exact (the same publication).
pub(crate) const POUND: f64 = 4.448_221_615_260_5;
/// In pascals.
pub(crate) const PSI: f64 = POUND / (INCH * INCH);

/// A brief that can be built.
pub(crate) fn platform(text: &str) -> Platform {
    Platform::build(&Brief::read(text), Tables::embedded()).unwrap_or_else(|m| panic!("{m:#?}\n{text}"))
}

/// What the check says of a brief that can be built.
pub(crate) fn assessed(text: &str) -> Assessment {
    check(&platform(text)).unwrap_or_else(|e| panic!("{e}\n{text}"))
}

/// Both.
pub(crate) fn built(text: &str) -> (Platform, Assessment) {
    let p = platform(text);
    let a = check(&p).unwrap_or_else(|e| panic!("{e}\n{text}"));
    (p, a)
}

/// A brief with words exchanged that it must have.
pub(crate) fn exchanged(text: &str, from: &str, to: &str) -> String {
    let changed = text.replace(from, to);
    assert_ne!(changed, text, "{from}");
    changed
}

/// The checks of a limit of a member.
pub(crate) fn all<'a>(a: &'a Assessment, id: &str, limit: Limit) -> Vec<&'a Check> {
    let member = a.members.iter().find(|m| m.id == id).unwrap_or_else(|| panic!("no {id}: {:#?}", a.not_checked));
    member.checks.iter().filter(|c| c.limit == limit).collect()
}

/// The one check of a limit of a member.
#[track_caller]
pub(crate) fn found<'a>(a: &'a Assessment, id: &str, limit: Limit) -> &'a Check {
    let checks = all(a, id, limit);
    assert_eq!(checks.len(), 1, "{id} {limit:?}");
    checks[0]
}

/// NDS 15.4.1 (from memory): a column that its load presses by `fc` and bends by `fb1` and `fb2` about its two axes.
/// `allowed` and `fb` are what it may be pressed and bent by, `critical` is where it buckles and `tipping` where it
/// turns over sideways.
pub(crate) fn off_axis([fc, allowed, critical]: [f64; 3], [fb1, fb2, fb, tipping]: [f64; 4]) -> f64 {
    let grown = |near: f64| (1.0 + 0.234 * near) / (1.0 - near);
    (fc / allowed).powi(2) + fb1 / fb * grown(fc / critical) + fb2 / fb * grown(fc / critical + (fb1 / tipping).powi(2))
}

/// Equal to six digits.
#[track_caller]
pub(crate) fn same(what: &str, ours: f64, theirs: f64) {
    assert!((ours - theirs).abs() <= 1e-6 * theirs.abs(), "{what}: by hand {theirs}, reported {ours}");
}
