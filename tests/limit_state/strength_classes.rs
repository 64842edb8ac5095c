//! The classes as printed against the relations EN 384 derives them by.

use super::support::*;
use slatwright::quantity::unit::megapascal;
use slatwright::source::Seen;
use slatwright::tables::clear_wood::WoodKind;
use slatwright::tables::{Fact, Missing, Tables};

/// EN 384:2016, from memory: how a class's other values follow from bending strength, mean modulus and density. EN 338
/// prints them rounded; the step is the one its own column shows.
#[test]
fn every_class_follows_from_three_of_its_values() {
    let mut seen = 0;
    for class in Tables::embedded().strength_classes().classes() {
        let v = &class.values;
        let soft = class.kind == WoodKind::Softwood;
        let mpa = |s: slatwright::quantity::Stress| s.value / 1e6;
        let (fm, e, rho) = (mpa(v.bending), mpa(v.modulus), v.density.value);
        let across = match rho {
            _ if soft => 0.007,
            r if r < 700.0 => 0.010,
            _ => 0.015,
        };
        let tension = if soft { -3.07 + 0.73 * fm } else { 0.6 * fm };
        let shear = if soft { (1.6 + 0.1 * fm).min(4.0) } else { (3.0 + 0.03 * fm).min(5.0) };
        for (what, got, want, step) in [
            ("ft,0,k", mpa(v.tension), tension, if soft { 0.5 } else { 1.0 }),
            ("ft,90,k", mpa(v.tension_across), if soft { 0.4 } else { 0.6 }, 0.1),
            ("fc,0,k", mpa(v.compression), 4.3 * fm.sqrt(), 1.0),
            ("fc,90,k", mpa(v.compression_across), across * rho, 0.1),
            ("fv,k", mpa(v.shear), shear, 0.1),
            ("E0,05", mpa(v.modulus_fifth), e * if soft { 0.67 } else { 0.84 }, 100.0),
            ("E90,mean", mpa(v.modulus_across), e / if soft { 30.0 } else { 15.0 }, 10.0),
            ("Gmean", mpa(v.shear_modulus), e / 16.0, 10.0),
            ("ρmean", v.density_mean.value, 1.2 * rho, 10.0),
        ] {
            assert!((got - want).abs() <= 0.5 * step * (1.0 + 1e-9), "{} {what}: {got}, derived {want}", class.name);
            seen += 1;
        }
    }
    assert_eq!(seen, 26 * 9);
}

/// C24 and D30 as printed in EN 338:2016, read in two open libraries (blue-prints 0.8.0, desssign 0.0.14).
#[test]
fn two_rows_as_printed() {
    for (name, strengths, moduli, densities) in [
        ("C24", [24.0, 14.5, 0.4, 21.0, 2.5, 4.0], [11.0, 7.4, 0.37, 0.69], [350.0, 420.0]),
        ("D30", [30.0, 18.0, 0.6, 24.0, 5.3, 3.9], [11.0, 9.2, 0.73, 0.69], [530.0, 640.0]),
    ] {
        let v = timber(name).values;
        let got = [v.bending, v.tension, v.tension_across, v.compression, v.compression_across, v.shear];
        assert_eq!(got, strengths.map(megapascal));
        let got = [v.modulus, v.modulus_fifth, v.modulus_across, v.shear_modulus];
        assert_eq!(got, moduli.map(|m| megapascal(m * 1e3)));
        assert_eq!([v.density, v.density_mean], densities.map(density));
    }
}

#[test]
fn twenty_six_classes_and_how_they_were_seen() {
    let tables = Tables::embedded().strength_classes();
    assert_eq!(tables.classes().len(), 26);
    assert!(tables.classes().iter().all(|c| c.provenance.seen == Seen::Secondary));
    assert_eq!(tables.grades().len(), 21);
    for grade in tables.grades() {
        assert!(tables.find(&grade.class).is_ok_and(|f| f.grade.is_none()), "{}", grade.name());
        assert_eq!(tables.find(&grade.name()).unwrap().class.name, grade.class);
        let read = grade.rule == "INSTA 142";
        assert_eq!(grade.provenance.seen, if read { Seen::Secondary } else { Seen::Memory });
    }
}

/// T0 to T3 are C14, C18, C24, C30: digital handbook of Swedish Wood. S10 is C24 and LS10 beech is D35: from memory.
#[test]
fn classes_are_found_by_grade() {
    let find = |name| Tables::embedded().strength_classes().find(name);
    for (asked, class) in [
        ("c 24", "C24"),
        ("d30", "D30"),
        ("spruce S10", "C24"),
        ("S10 spruce", "C24"),
        ("Scots pine DIN 4074-1 S13", "C30"),
        ("nordic pine T2", "C24"),
        ("Nordic spruce T0", "C14"),
        ("beech LS10", "D35"),
        ("British spruce SS", "C18"),
        ("whitewood SS", "C24"),
    ] {
        assert_eq!(find(asked).unwrap().class.name, class, "{asked}");
    }
    assert!(find("C24").unwrap().grade.is_none());
    assert_eq!(find("spruce S10").unwrap().grade.unwrap().name(), "Norway spruce DIN 4074-1 S10");
    // A species has no strength, and a grade none without its species.
    for asked in ["spruce", "oak", "S10", "", "C25", "oak S10"] {
        assert!(find(asked).is_err(), "{asked}");
    }
    let many = find("European LS10").unwrap_err();
    assert_eq!((many.missing, many.nearest.len()), (Missing::Choice("visual grade"), 4));
    assert!(find("C25").unwrap_err().nearest.iter().any(|n| n.starts_with('C')));
}

#[test]
fn classes_and_grades_are_entries() {
    let tables = Tables::embedded();
    let c24 = tables.entry("C24").unwrap();
    assert_eq!((c24.table, c24.facts.len()), ("strength class", 13));
    let s10 = tables.entry("spruce S10").unwrap();
    assert_eq!(s10.table, "visual grade");
    assert!(s10.facts.contains(&("strength class".into(), Fact::Text("C24".into()))));
    assert_eq!(tables.search("strength class").len(), 26);
    assert!(tables.search("larch s 10").iter().any(|e| e.name == s10.name));
}

const OWN: &str = r#"
[meta]
source = "a mill's declaration"
locator = "certificate"
edition = "1"
seen = "read"

[[strength_class]]
name = "local fir"
kind = "softwood"
strength = { fmk = 20, ft0k = 11, ft90k = 0.4, fc0k = 19, fc90k = 2.2, fvk = 3 }
modulus = { E0mean = 9, E005 = 6, E90mean = 0.3, Gmean = 0.56 }
density = { rhok = 330, rhomean = 400 }

[[visual_grade]]
species = ["dune pine"]
rule = "village rule"
grade = "A"
class = "local fir"
"#;

#[test]
fn a_users_classes_join() {
    let own = Tables::extended_by(OWN).unwrap();
    let found = own.strength_classes().find("dune pine A").unwrap();
    assert_eq!((found.class.name.as_str(), found.class.values.bending), ("local fir", megapascal(20.0)));
    assert!(own.strength_classes().find("C24").is_ok());
    for (from, to, message) in [
        ("fmk = 20", "fmk = 2900", "fmk = 2900 is not plausible"),
        ("E0mean = 9,", "E0mean = 9000,", "E0mean = 9000 is not plausible"),
        ("rhok = 330", "rhok = 500", "rhok is not below its mean"),
        ("E005 = 6", "E005 = 9.5", "E005 is not below its mean"),
        ("[\"dune pine\"]", "[]", "a visual grade needs a species and a mark"),
        ("\"local fir\"\nkind", "\"C 24\"\nkind", "`c24` is already in the tables"),
    ] {
        let errors = Tables::extended_by(&OWN.replacen(from, to, 1)).unwrap_err();
        assert_eq!(errors[0].message, message);
    }
    for array in ["strength_class", "visual_grade"] {
        let surprised = OWN.replace(&format!("[[{array}]]\n"), &format!("[[{array}]]\nsurprise = 1\n"));
        assert!(Tables::extended_by(&surprised).unwrap_err()[0].message.contains("surprise"));
    }
    let orphan = Tables::extended_by(&OWN.replace("class = \"local fir\"", "class = \"C25\"")).unwrap();
    assert!(orphan.strength_classes().find("dune pine A").is_err());
}
