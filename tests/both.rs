//! One platform by both families of rules. The factors between two ratios are held against the published
//! factors themselves and must multiply to what two separate checks give.

use std::process::{Command, Output};

use serde_json::Value;
use slatwright::brief::{Brief, RuleFamily};
use slatwright::check::{Assessment, Cause, Limit, Part, Role, RolePair, Verdict, check, check_with_remedies, compare};
use slatwright::load::CaseKind;
use slatwright::platform::Platform;
use slatwright::tables::Tables;
use unicode_width::UnicodeWidthStr;

const GUEST: &str = include_str!("../demo/guest_both.toml");

fn built(text: &str, rules: RuleFamily) -> (Platform, Assessment) {
    let mut brief = Brief::read(text);
    brief.rules.value = rules;
    let p = Platform::build(&brief, Tables::embedded()).unwrap_or_else(|m| panic!("{m:#?}\n{text}"));
    let a = check(&p).unwrap_or_else(|e| panic!("{e}"));
    (p, a)
}

fn compared<T>(text: &str, mut look: impl FnMut(&[RolePair<'_>], [&Assessment; 2]) -> T) -> T {
    let (asd, by_asd) = built(text, RuleFamily::AllowableStress);
    let (ec5, by_ec5) = built(text, RuleFamily::LimitState);
    let roles = compare([&asd, &ec5], [&by_asd, &by_ec5]).unwrap_or_else(|e| panic!("{e}"));
    look(&roles, [&by_asd, &by_ec5])
}

fn factor(parts: &[Part], is: impl Fn(&Cause) -> bool) -> f64 {
    parts.iter().find(|p| is(&p.cause)).map_or(f64::NAN, |p| p.factor)
}

/// Briefs with more than one length, weight and moisture.
fn briefs() -> Vec<String> {
    let change = |a: &str, b: &str| {
        let out = GUEST.replace(a, b);
        assert_ne!(out, GUEST, "{a}");
        out
    };
    vec![
        GUEST.to_owned(),
        change("units = \"metric\"", "units = \"us\"\nmoisture = \"damp\"\nnational = \"germany\""),
        change("\"85 kg\"", "\"130 kg\""),
        change("width = \"1.3 m\"", "width = \"0.9 m\""),
        change("\"65 kg\"", "\"30 kg\""),
    ]
}

/// The factors multiply to the ratio of the ratios, which are those of two separate checks.
#[test]
fn factors_multiply_to_the_difference() {
    let mut seen = 0;
    for text in briefs() {
        compared(&text, |roles, separate| {
            for r in roles {
                let Some(why) = &r.why else { continue };
                let [asd, ec5] = [why.checks[0].ratio, why.checks[1].ratio];
                let product: f64 = why.parts.iter().map(|p| p.factor).product();
                if !why.parts.is_empty() {
                    assert!((product - ec5 / asd).abs() < 1e-9 * product, "{:?}: {product} {}", r.role, ec5 / asd);
                    seen += 1;
                }
                // The governing side is what its own check says.
                let g = r.governs.expect("one governs");
                let member = separate[g].members.iter().find(|m| m.id == why.member).expect("the member");
                let own = member.worst().expect("a worst check");
                assert_eq!((own.limit, own.case, own.ratio), {
                    let c = &why.checks[g];
                    (c.limit, c.case, c.ratio)
                });
                let other = r.worst[1 - g].map_or(0.0, |(_, c)| c.ratio);
                assert!(own.ratio >= other);
                assert_eq!(why.checks[0].limit, why.checks[1].limit);
                assert_eq!(why.checks[0].case, why.checks[1].case);
            }
        });
    }
    assert!(seen > 15, "{seen}");
}

/// A slat bent by somebody kneeling. Load: 1.35 and 1.5 (EN 1990 6.10). Duration: CD 1.25 for seven days
/// (NDS 2018 Table 2.3.2) over kmod 0.9 (EN 1995-1-1 Table 3.1, short-term). Divisor: 1.3 (Table 2.3). Values:
/// spruce-pine-fir No.2 in bending, 875 psi by CF 1.5 and Cfu 1.1 (NDS Supplement 2018 Table 4A), against C16 by
/// kh 1.3 (EN 338, EN 1995-1-1 3.2(3)).
#[test]
fn each_factor_is_the_published_one() {
    compared(GUEST, |roles, _| {
        let slat = roles.iter().find(|r| r.role == Role::Slat).expect("slats");
        let why = slat.why.as_ref().expect("both know bending");
        assert_eq!((why.checks[0].limit, why.checks[0].case), (Limit::Bending, CaseKind::Kneeling));
        let load = factor(&why.parts, |c| matches!(c, Cause::Load { .. }));
        assert!((1.35..1.5).contains(&load), "{load}");
        let near = |got: f64, want: f64| assert!((got / want - 1.0).abs() < 1e-9, "{got} {want}");
        near(factor(&why.parts, |c| matches!(c, Cause::Duration(_))), 1.25 / 0.9);
        near(factor(&why.parts, |c| matches!(c, Cause::Divisor(_))), 1.3);
        let psi = 4.448_221_615_260_5 / (0.0254 * 0.0254);
        let values = factor(&why.parts, |c| matches!(c, Cause::Values(_)));
        near(values, 875.0 * 1.5 * 1.1 * psi / (16e6 * 1.3));
        near(factor(&why.parts, |c| matches!(c, Cause::Reckoning)), 1.0);
        assert_eq!(slat.governs, Some(1));
    });
}

/// With the same load and no duration or divisor a sag differs by stiffness and limit alone.
#[test]
fn a_sag_differs_by_stiffness_and_limit() {
    let text = GUEST.replace("width = \"1.3 m\"", "width = \"2.4 m\"");
    compared(&text, |roles, _| {
        let slat = roles.iter().find(|r| r.role == Role::Slat).expect("slats");
        let why = slat.why.as_ref().expect("both know the limit");
        assert!(matches!(why.checks[0].limit, Limit::Deflection | Limit::Creep), "{:?}", why.checks[0].limit);
        for p in &why.parts {
            match p.cause {
                Cause::Load { .. } | Cause::Duration(_) | Cause::Divisor(_) => assert_eq!(p.factor, 1.0),
                _ => assert_ne!(p.factor, 1.0),
            }
        }
    });
}

fn run(text: &str, more: &[&str]) -> Output {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("brief.toml");
    std::fs::write(&path, text).expect("a file");
    let mut program = Command::new(env!("CARGO_BIN_EXE_slatwright"));
    program.arg("check").arg(&path).args(["--rules", "both"]).args(more).output().expect("the program runs")
}

fn json(text: &str) -> Value {
    serde_json::from_slice(&run(text, &["--format", "json"]).stdout).expect("JSON")
}

/// The worse of the two: a failure before what could not be checked, and that before a pass.
#[test]
fn the_exit_status_is_the_worse() {
    let light = GUEST.replace("\"85 kg\"", "\"61 kg\"").replace("\"65 kg\"", "\"61 kg\"").replace("45x70", "45x95")
        + "[visitor]\nweight = \"none\"\n";
    let undeclared = |text: &str| {
        let from = text.find(", declared").expect("a declaration");
        let to = from + text[from..].find(" } }").expect("its end") + 2;
        format!("{}{}", &text[..from], &text[to..])
    };
    let of = |v: &Value| [&v["asd"]["verdict"], &v["ec5"]["verdict"]].map(|v| v.as_str().unwrap_or("").to_owned());
    for (text, verdicts, worse, status) in [
        (light.clone(), ["pass", "pass"], "pass", 0),
        (undeclared(&light), ["pass", "not checked"], "not checked", 2),
        (GUEST.to_owned(), ["pass", "fail"], "fail", 1),
        (undeclared(&GUEST.replace("\"85 kg\"", "\"110 kg\"")), ["fail", "fail"], "fail", 1),
    ] {
        let v = json(&text);
        assert_eq!(of(&v), verdicts, "{text}");
        assert_eq!(v["verdict"], worse);
        assert_eq!(run(&text, &[]).status.code(), Some(status));
        assert_eq!(run(&text, &["--format", "json"]).status.code(), Some(status));
    }
    assert_eq!(run("title = 3", &[]).status.code(), Some(2));
}

/// Each half of the JSON is what that family alone says, and the whole follows its schema.
#[test]
fn the_json_holds_both_reports() {
    let schema = Command::new(env!("CARGO_BIN_EXE_slatwright"))
        .args(["check", "--schema", "--rules", "both"])
        .output()
        .expect("the program runs");
    let schema: Value = serde_json::from_slice(&schema.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let both = json(GUEST);
    assert!(validator.is_valid(&both), "{:?}", validator.iter_errors(&both).map(|e| e.to_string()).collect::<Vec<_>>());
    let mut broken = both.clone();
    broken["roles"][0]["asd"]["ratio"] = "high".into();
    assert!(!validator.is_valid(&broken), "the schema refuses nothing");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("brief.toml");
    std::fs::write(&path, GUEST).expect("a file");
    for family in ["asd", "ec5"] {
        let alone = Command::new(env!("CARGO_BIN_EXE_slatwright"))
            .arg("check")
            .arg(&path)
            .args(["--format", "json", "--rules", family])
            .output()
            .expect("the program runs");
        let alone: Value = serde_json::from_slice(&alone.stdout).expect("JSON");
        assert_eq!(alone, both[family]);
    }
}

#[test]
fn the_text_fits_80_columns() {
    for text in briefs() {
        for more in [&[][..], &["--steps"], &["--units", "us"]] {
            let printed = String::from_utf8(run(&text, more).stdout).expect("UTF-8");
            assert!(printed.lines().count() > 40);
            for line in printed.lines() {
                assert!(line.width() <= 80 && !line.ends_with(' '), "{}: `{line}`", line.width());
                assert!(!line.to_lowercase().contains("safe"), "{line}");
            }
        }
    }
}

/// A mistake that both families see is said once; one that only the other family sees is said too.
#[test]
fn mistakes_of_either_family_are_said_once() {
    let wrong = GUEST.replace("ec5 = \"C16\"", "ec5 = \"C15\"").replace("count = 14", "count = 1");
    let said = String::from_utf8(run(&wrong, &[]).stderr).expect("UTF-8");
    assert_eq!(said.matches("error:").count(), 2, "{said}");
    assert!(said.contains("2 mistakes in "), "{said}");
}

/// A wood for one family alone is refused under the other with the nearest class and the reason.
#[test]
fn a_wood_for_one_family_is_refused_under_the_other() {
    let asd_only = GUEST.replace("{ asd = \"spruce-pine-fir no2\", ec5 = \"C16\" }", "\"spruce-pine-fir no2\"");
    let said = String::from_utf8(run(&asd_only, &[]).stderr).expect("UTF-8");
    assert!(said.contains("is nearest to C14") && said.matches("error:").count() == 1, "{said}");
    let (_, by_asd) = built(&asd_only, RuleFamily::AllowableStress);
    assert_eq!(by_asd.verdict(), Verdict::Pass);
}

/// What would make a bed of metric stock pass is metric stock, and passes when it is written into the brief.
#[test]
fn remedies_under_ec5_are_metric() {
    let mut brief = Brief::read(GUEST);
    brief.rules.value = RuleFamily::LimitState;
    let p = Platform::build(&brief, Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
    let (before, remedies) = check_with_remedies(&p).unwrap_or_else(|e| panic!("{e}"));
    assert_eq!(before.verdict(), Verdict::Fail);
    let said: Vec<String> = remedies.iter().map(|r| r.sentence(p.units)).collect();
    assert_eq!(said, ["for the cleat screws: 45x145 mm cleats"]);
    let deeper = GUEST.replace("45x70 mm", "45x145 mm").replace("rise = \"60 mm\"\n", "");
    let (_, after) = built(&deeper, RuleFamily::LimitState);
    assert!(after.members.iter().all(|m| m.role != Role::CleatScrew || m.verdict() == Verdict::Pass));
    // Slats too thin, rails too shallow, screws too few: whatever is named is metric.
    let weak = GUEST
        .replace("\"85 kg\"", "\"150 kg\"")
        .replace("60x200 mm", "60x120 mm")
        .replace("45x70 mm", "45x45 mm")
        .replace("rise = \"60 mm\"\n", "")
        .replace("count = 14", "count = 9");
    let mut brief = Brief::read(&weak);
    brief.rules.value = RuleFamily::LimitState;
    let p = Platform::build(&brief, Tables::embedded()).unwrap_or_else(|m| panic!("{m:?}"));
    let (_, remedies) = check_with_remedies(&p).unwrap_or_else(|e| panic!("{e}"));
    assert!(remedies.len() > 1, "{remedies:?}");
    for r in &remedies {
        let said = r.sentence(p.units);
        assert!(!said.contains(" in") || said.contains(" in each"), "{said}");
    }
}
