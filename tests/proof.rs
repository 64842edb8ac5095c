//! The test before first use, against beams by hand and against the check's own words.

use std::process::{Command, Output};

use serde_json::Value;
use unicode_width::UnicodeWidthStr;

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_slatwright")).args(arguments).output().expect("the program runs")
}

fn plan(brief: &str, more: &[&str]) -> Value {
    let output = run(&[&["proof", brief, "--format", "json"], more].concat());
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {output:?}"))
}

fn number(v: &Value) -> f64 {
    v.as_f64().unwrap_or_else(|| panic!("{v}"))
}

fn pair(v: &Value) -> [f64; 2] {
    [number(&v[0]), number(&v[1])]
}

fn list(v: &Value) -> &[Value] {
    v.as_array().map_or(&[], Vec::as_slice)
}

const DEMOS: [&str; 8] =
    ["two", "child", "deck", "deck_ec5", "hut_double", "wall_loft", "warden_bunk", "warden_bunk_ec5"];

fn demo(name: &str) -> String {
    format!("demo/{name}.toml")
}

/// A load spread evenly over `c` in the middle of a span `l`: moment and sag at midspan, from the sum of the
/// elementary solutions (closed form by hand).
fn middle(w: f64, l: f64, c: f64, ei: f64) -> (f64, f64) {
    (w / 4.0 * (l - c / 2.0), w * (8.0 * l.powi(3) - 4.0 * l * c * c + c.powi(3)) / (384.0 * ei))
}

/// A bed by hand: slats 95 x 28 mm of C24 on two cleats 45 mm thick, 900 mm clear between the rails, so a span of
/// 855 mm between the middles of the bearings, 150 mm from slat to slat, a mattress of 120 mm and 20 kg.
const BED: &str = r#"
units = "metric"
rules = "ec5"
[platform]
length = "1.895 m"
width = "900 mm"
[mattress]
thickness = "120 mm"
weight = "20 kg"
[[sleeper]]
weight = "80 kg"
[visitor]
weight = "none"
[slats]
wood = "C24"
thickness = "28 mm"
width = "95 mm"
count = 13
fixed = true
[cleats]
wood = "C24"
thickness = "45 mm"
width = "70 mm"
screws = { lag = "1/4 x 3 in", pitch = "150 mm", first = "60 mm" }
[rails]
wood = "C24"
thickness = "45 mm"
width = "195 mm"
ends = { joint = "bearing", bearing = "60 mm" }
[cases]
sitting = { drop = true }
dropping = { drop = true }
climbing = { drop = true }
"#;

fn written(text: &str) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("bed.toml");
    std::fs::write(&path, text).expect("a file");
    let name = path.to_str().expect("a name").to_owned();
    (folder, name)
}

/// Weight and dip of a slat in the middle of the bed, by hand. Kneeling puts 80 kg on 100 x 250 mm, spread by 30 mm
/// a side; the weight on the bare slat must also make up for mattress and bedding on the slat's 150 mm.
#[test]
fn weight_and_dip_of_a_slat_by_hand() {
    let (_folder, name) = written(BED);
    let plan = plan(&name, &[]);
    let turn = &plan["slats"][6];
    assert_eq!(turn["slat"], 7);
    let area = &turn["areas"][0];
    let ([x0, x1], [y0, y1]) = (pair(&area["from_head"]), pair(&area["from_left"]));
    // The knee lies across: 160 mm along, 310 mm across, in the middle of both.
    assert!((x1 - x0 - 0.160).abs() < 1e-9 && (y1 - y0 - 0.310).abs() < 1e-9, "{area}");
    assert!(((x0 + x1) / 2.0 - 1.895 / 2.0).abs() < 1e-9 && ((y0 + y1) / 2.0 - 0.45).abs() < 1e-9, "{area}");
    let (g, l, share, strip) = (9.80665, 0.855, 0.150 / 0.160, 0.150);
    let ei = 11e9 * 0.095 * 0.028f64.powi(3) / 12.0;
    let per_kilogram = middle(g * share, l, 0.310, ei);
    // Mattress and bedding (40 N/m2) over the whole width come onto the slat's 900 mm, whose ends stand 22.5 mm past the
    // middles of the bearings.
    let cover = (20.0 * g / (1.895 * 0.9) + 40.0) * strip;
    let from_cover = cover * (l * l / 8.0 - 0.0225f64.powi(2) / 2.0);
    let wanted = 80.0 + from_cover / per_kilogram.0;
    let mass = number(&turn["mass"]["value"]);
    assert!((mass - wanted).abs() <= 0.25 + 1e-6, "{mass} {wanted}");
    let dip = number(&turn["dip"]["mean"]);
    assert!((dip / (mass * per_kilogram.1) - 1.0).abs() < 1e-5, "{dip}");
    // EN 338: C24 has E0,mean 11 and E0,05 7.4 kN/mm2; a slat on two supports dips with 1/E.
    let [stiff, soft] = pair(&turn["dip"]["ordinary"]);
    assert!((soft / dip - 11.0 / 7.4).abs() < 1e-4 && (stiff / dip - 11.0 / 14.6).abs() < 1e-4, "{stiff} {dip} {soft}");
}

/// A rail under a row of people by hand: what comes in by the slats is nearly even over the row, so its sag at midspan
/// is near that of a beam so loaded, and near is meant: the cleat, which is screwed on and bends with it, helps a little.
#[test]
fn a_rail_dips_as_a_beam_under_an_even_load() {
    let (_folder, name) =
        written(&BED.replace("climbing = { drop = true }", "climbing = { drop = true }\nkneeling = { drop = true }"));
    let plan = plan(&name, &[]);
    let row = list(&plan["steps"])
        .iter()
        .find(|s| s["case"] == "row on the edge" && list(&s["reaches"]).iter().any(|r| r["role"] == "rail"))
        .expect("a row");
    let dip = list(&row["dips"]).iter().find(|d| d["member"] == "left rail").expect("a rail");
    let (mass, l): (f64, f64) = (number(&row["mass"]["value"]), 1.895 + 0.060);
    let across: [f64; 2] = pair(&row["areas"][0]["from_left"]);
    // The middle of the stretch across, by the lever rule between the bearings at 22.5 and 877.5 mm; a stretch that begins
    // over the rail presses on the slats' ends from 0 on.
    let to_left = (0.8775 - (across[0].max(0.0) + across[1]) / 2.0) / 0.855;
    let [x0, x1] = pair(&row["areas"][0]["from_head"]);
    assert!(((x0 + x1) / 2.0 - 1.895 / 2.0).abs() < 0.08, "near the middle: {row}");
    let alone = middle(mass * 9.80665 * to_left, l, x1 - x0, 11e9 * 0.045 * 0.195f64.powi(3) / 12.0).1;
    let helped = alone / (1.0 + 0.070f64.powi(3) / 0.195f64.powi(3));
    let got = number(&dip["mean"]);
    assert!(got < alone * 1.01 && got > helped * 0.97, "{helped} {got} {alone}");
}

/// No step and no slat is loaded beyond what the check allows for ten minutes; a step that stops short does so at
/// that limit, and one that does not brings its parts to what the people do.
#[test]
fn no_step_goes_beyond_what_a_part_may_carry() {
    for name in DEMOS {
        for rules in [&[][..], &["--units", "us"], &["--units", "metric"]] {
            let plan = plan(&demo(name), rules);
            assert!(!list(&plan["steps"]).is_empty(), "{name}");
            for step in list(&plan["steps"]) {
                let nearest = number(&step["nearest"]["ratio"]);
                assert!(nearest <= 1.0 + 1e-9, "{name}: {step}");
                let short = step["short"].as_bool().expect("a flag");
                assert!(!short || nearest > 0.9, "{name}: {nearest}");
                let shares: Vec<f64> = list(&step["reaches"]).iter().map(|r| number(&r["share"])).collect();
                assert!(short || shares.iter().all(|s| *s > 0.98), "{name}: {shares:?}");
                // One of them is brought to no more than the people do, but for whole pounds.
                assert!(shares.iter().any(|s| *s < 1.02), "{name}: {shares:?}");
            }
        }
    }
}

/// Two boards too thin: the keeper's bed fails in bending under a knee, seven days in all (CD 1.25). A weight for ten
/// minutes may use CD 1.6, so the slat's part of the people's bending is 1.6/1.25 over its ratio (NDS 2.3.2).
#[test]
fn a_weight_on_a_bed_that_fails_stops_at_the_allowable() {
    let plan = plan("demo/two.toml", &[]);
    assert_eq!(plan["complete"], false);
    let knee = list(&plan["steps"]).iter().find(|s| s["case"] == "kneeling").expect("a knee");
    let reach = &knee["reaches"][0];
    assert!(knee["short"] == true && reach["role"] == "slat", "{knee}");
    let by_hand = 1.6 / 1.25 / number(&reach["ratio"]);
    // Whole pounds, rounded down.
    let pound = 0.453_592_37 / number(&knee["mass"]["value"]);
    let share = number(&reach["share"]);
    assert!(share <= by_hand * (1.0 + 1e-6) && share > by_hand * (1.0 - 1.1 * pound), "{share} {by_hand}");
}

/// Statically determinate: the range of a slat's dips is that of its modulus. NDS appendix D has a coefficient of
/// variation of 0.25 for visually graded lumber, the Wood Handbook's Table 5-6 one of 0.22 for clear wood.
#[test]
fn ranges_are_those_of_the_modulus() {
    for (name, cov) in [("two", 0.22), ("wall_loft", 0.25)] {
        for turn in list(&plan(&demo(name), &[])["slats"]) {
            let (mean, [stiff, soft]) = (number(&turn["dip"]["mean"]), pair(&turn["dip"]["ordinary"]));
            assert!((mean / soft - (1.0 - 1.645 * cov)).abs() < 1e-4, "{name}: {turn}");
            assert!((mean / stiff - (1.0 + 1.645 * cov)).abs() < 1e-4, "{name}: {turn}");
        }
    }
}

#[test]
fn text_fits_and_promises_nothing() {
    for name in DEMOS {
        for units in ["us", "metric"] {
            let output = run(&["proof", &demo(name), "--units", units]);
            assert!(matches!(output.status.code(), Some(0 | 1)), "{output:?}");
            let said = String::from_utf8(output.stdout).expect("UTF-8");
            for line in said.lines() {
                assert!(line.width() <= 80 && line.trim_end() == line, "{name}: `{line}`");
                assert!(!line.to_lowercase().contains("safe"), "{line}");
            }
            let flat = said.split_whitespace().collect::<Vec<_>>().join(" ");
            for needed in
                ["no certificate", "Nobody under the platform", "Local codes and a licensed engineer come first"]
            {
                assert!(flat.contains(needed), "{name}: {needed}");
            }
            assert_eq!(said, String::from_utf8(run(&["proof", &demo(name), "--units", units]).stdout).expect("UTF-8"));
        }
    }
}

#[test]
fn json_keeps_to_its_schema() {
    let schema: Value = serde_json::from_slice(&run(&["proof", "--schema"]).stdout).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    for name in DEMOS {
        let plan = plan(&demo(name), &[]);
        assert!(validator.is_valid(&plan), "{name}: {:?}", validator.iter_errors(&plan).next().map(|e| e.to_string()));
        let masses: Vec<f64> = list(&plan["steps"]).iter().map(|s| number(&s["mass"]["value"])).collect();
        assert!(masses.is_sorted(), "{name}: from light to full, {masses:?}");
        let status = run(&["proof", &demo(name)]).status.code();
        assert_eq!(status, Some(i32::from(plan["complete"] == false)), "{name}");
    }
}

#[test]
fn a_bed_that_passes_is_tried_in_full() {
    assert_eq!(plan("demo/hut_double.toml", &[])["complete"], true);
    assert_eq!(run(&["proof", "demo/nowhere.toml"]).status.code(), Some(2));
}
