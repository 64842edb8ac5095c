//! The demos' reports, kept word for word. A change here is read before it is accepted
//! (`INSTA_UPDATE=always cargo test --test demos`).
//!
//! These are records of what the program says, not evidence that it is right; that stands in the
//! other tests.

use slatwright::brief::{Brief, RuleFamily};
use slatwright::check::{Verdict, check_with_remedies, compare};
use slatwright::platform::Platform;
use slatwright::report::both::{self, Both};
use slatwright::report::{Report, json, text};
use slatwright::tables::Tables;

fn report(brief: &str, with: impl Fn(&Report<'_>) -> String) -> (Verdict, String) {
    let platform =
        Platform::build(&Brief::read(brief), Tables::embedded()).unwrap_or_else(|m| panic!("the demo is wrong: {m:?}"));
    let (assessment, remedies) = check_with_remedies(&platform).unwrap_or_else(|e| panic!("{e}"));
    let report = Report { platform: &platform, assessment: &assessment, remedies: &remedies };
    (assessment.verdict(), with(&report))
}

fn plain(r: &Report<'_>) -> String {
    text::write(r, text::Options::default())
}

const TWO: &str = include_str!("../demo/two.toml");
const DECK: &str = include_str!("../demo/deck.toml");
const DECK_EC5: &str = include_str!("../demo/deck_ec5.toml");
const GUEST: &str = include_str!("../demo/guest_both.toml");
const BUNK: &str = include_str!("../demo/bunk.toml");
const WALL_LOFT: &str = include_str!("../demo/wall_loft.toml");
const WARDEN: &str = include_str!("../demo/warden_bunk.toml");
const WARDEN_EC5: &str = include_str!("../demo/warden_bunk_ec5.toml");
const CHILD: &str = include_str!("../demo/child.toml");
const HUT_DOUBLE: &str = include_str!("../demo/hut_double.toml");
const FREE: &str = include_str!("../demo/freestanding.toml");
const PORTERS: &str = include_str!("../demo/porters_both.toml");

/// The work is shared out between threads; what comes out does not hang on how many there are.
#[test]
fn any_number_of_threads_prints_the_same() {
    for brief in [TWO, CHILD, DECK_EC5, FREE, WALL_LOFT] {
        let by = |threads| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap_or_else(|e| panic!("{e}"));
            pool.install(|| report(brief, |r| text::write(r, text::Options { every: true, steps: true })))
        };
        let alone = by(1);
        for threads in [2, 3, 8] {
            assert!(by(threads) == alone, "{threads} threads print something else");
        }
    }
}

#[test]
fn keepers_bed() {
    let (verdict, said) = report(TWO, plain);
    assert_eq!(verdict, Verdict::Fail);
    insta::assert_snapshot!(said);
}

/// The demo's own comment says that a thicker slat passes.
#[test]
fn keepers_bed_passes_on_thicker_slats() {
    let thicker = TWO.replace("thickness = \"3/4 in\"", "thickness = \"1-5/8 in\"");
    assert_ne!(thicker, TWO);
    assert_eq!(report(&thicker, plain).0, Verdict::Pass);
}

#[test]
fn sleeping_deck() {
    let (verdict, said) = report(DECK, plain);
    assert_eq!(verdict, Verdict::Fail);
    insta::assert_snapshot!(said);
}

#[test]
fn sleeping_deck_in_c24() {
    let (verdict, said) = report(DECK_EC5, plain);
    assert_eq!(verdict, Verdict::Pass);
    insta::assert_snapshot!(said);
}

#[test]
fn sleeping_deck_in_c24_step_by_step() {
    let (_, said) = report(DECK_EC5, |r| text::write(r, text::Options { every: false, steps: true }));
    insta::assert_snapshot!(said);
}

/// The demo's own comment: the spacers' gap costs so much that two lags in a stud are too few; three do, or two
/// without the gap.
#[test]
fn wall_loft() {
    let studs = |brief: &str, verdict: &str| {
        let (_, said) = report(brief, plain);
        assert!(said.lines().any(|l| l.starts_with(" left stud") && l.ends_with(verdict)), "{verdict}: {said}");
    };
    studs(WALL_LOFT, "FAIL");
    for (from, to) in [(", gap = \"3/4 in\"", ""), ("count = 2, first", "count = 3, first")] {
        let changed = WALL_LOFT.replace(from, to);
        assert_ne!(changed, WALL_LOFT);
        studs(&changed, "PASS");
        assert_eq!(report(&changed, plain).0, Verdict::Pass, "nothing else fails");
    }
}

/// The guard and the ladder of the warden's bunk are strong enough, part by part.
#[test]
fn wardens_bunk() {
    let (_, said) = report(WARDEN, plain);
    for part in ["guard rail", "guard post ", "guard post screws", "guard infill", "rung ", "stringer", "ladder top"] {
        assert!(said.lines().any(|l| l.contains(part) && l.ends_with("PASS")), "{part}: {said}");
    }
}

/// Nothing of the guard and the ladder is without an answer under Eurocode 5 but the infill, which has no load.
#[test]
fn wardens_bunk_in_c24_is_answered() {
    let (verdict, said) = report(WARDEN_EC5, plain);
    assert_eq!(verdict, Verdict::Pass, "{said}");
    for part in ["guard rail", "guard post ", "guard post screws", "rung ", "rung end", "stringer", "ladder top"] {
        assert!(said.lines().any(|l| l.contains(part) && l.ends_with("PASS")), "{part}: {said}");
    }
}

#[test]
fn guest_bed_by_both() {
    let (verdict, said) = by_both(GUEST);
    assert_eq!(verdict, Verdict::Fail);
    insta::assert_snapshot!(said);
    let schema = serde_json::to_string_pretty(&both::json::schema()).unwrap_or_default();
    insta::assert_snapshot!("schema_of_both", schema);
}

/// Bolted rails.
#[test]
fn porters_bed_by_both() {
    let (verdict, said) = by_both(PORTERS);
    assert_eq!(verdict, Verdict::Pass);
    insta::assert_snapshot!(said);
}

fn by_both(brief_text: &str) -> (Verdict, String) {
    let platforms = [RuleFamily::AllowableStress, RuleFamily::LimitState].map(|family| {
        let mut brief = Brief::read(brief_text);
        brief.rules.value = family;
        Platform::build(&brief, Tables::embedded()).unwrap_or_else(|m| panic!("the demo is wrong: {m:?}"))
    });
    let checked = platforms.each_ref().map(|p| check_with_remedies(p).unwrap_or_else(|e| panic!("{e}")));
    let roles = compare(platforms.each_ref(), [&checked[0].0, &checked[1].0]).unwrap_or_else(|e| panic!("{e}"));
    let report = |i: usize| Report { platform: &platforms[i], assessment: &checked[i].0, remedies: &checked[i].1 };
    let both = Both { reports: [report(0), report(1)], roles: &roles };
    (both.verdict(), both::text::write(&both, text::Options::default()))
}

#[test]
fn freestanding_platform() {
    let (verdict, said) = report(FREE, plain);
    assert_eq!(verdict, Verdict::Fail);
    insta::assert_snapshot!(said);
}

/// The demo's own comment: nothing is too weak but the three lags in each end of the rails, and four will do.
#[test]
fn freestanding_platform_passes_with_a_fourth_lag() {
    let (_, said) = report(FREE, plain);
    let failing: Vec<&str> = said.lines().filter(|l| l.ends_with("  FAIL")).collect();
    assert!(matches!(failing[..], [one] if one.starts_with(" left rail, head end ")), "{failing:?}");
    let four = FREE.replace("count = 3, into", "count = 4, into");
    assert_ne!(four, FREE);
    let (verdict, said) = report(&four, plain);
    assert_eq!(verdict, Verdict::Pass, "{said}");
}

#[test]
fn upper_bunk() {
    let (verdict, said) = report(BUNK, plain);
    assert_eq!(verdict, Verdict::Fail);
    insta::assert_snapshot!(said);
}

#[test]
fn guardians_double() {
    let (verdict, said) = report(HUT_DOUBLE, plain);
    assert_eq!(verdict, Verdict::Pass);
    insta::assert_snapshot!(said);
}

#[test]
fn childs_bed() {
    let (verdict, said) = report(CHILD, plain);
    assert_eq!(verdict, Verdict::Pass);
    insta::assert_snapshot!(said);
}

#[test]
fn childs_bed_step_by_step() {
    let (_, said) = report(CHILD, |r| text::write(r, text::Options { every: false, steps: true }));
    insta::assert_snapshot!(said);
}

#[test]
fn childs_bed_as_json() {
    let (_, said) = report(CHILD, |r| json::write(r, false));
    insta::assert_snapshot!(said);
}

/// The published schema is the one the types give (`INSTA_UPDATE=always` renews it).
#[test]
fn schema() {
    let schema = serde_json::to_string_pretty(&json::schema()).unwrap_or_default();
    insta::assert_snapshot!(schema);
}
