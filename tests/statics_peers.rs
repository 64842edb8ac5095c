//! Beams and grillages against results of general-purpose libraries: see `data/peers/README.md`.

use std::error::Error;
use std::path::Path;

use serde_json::Value;
use slatwright::statics::{Crossbeam, Line, Link, Load, Model, On, Placed, Response, Span, Spring};

type Outcome = Result<(), Box<dyn Error>>;

fn read(name: &str) -> Result<Value, Box<dyn Error>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/peers").join(name);
    Ok(serde_json::from_str(&std::fs::read_to_string(path)?)?)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("not a number: {value}"))
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap_or_else(|| panic!("not a list: {value}")).iter().map(number).collect()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("not a list: {value}"))
}

/// Nine printed digits: half a unit of the ninth, and 1e-9 for the arithmetic of both sides. A
/// printed zero has no digits; it is compared with 1e-9 of the largest value of its kind.
fn nine_digits(what: &str, got: f64, expected: f64, largest: f64) {
    let tolerance = if expected == 0.0 {
        1e-9 * largest
    } else {
        0.5 * 10f64.powi(expected.abs().log10().floor() as i32 - 8) + 1e-9 * expected.abs()
    };
    assert!((got - expected).abs() <= tolerance, "{what}: {got} instead of {expected}");
}

#[test]
fn one_span_with_and_without_shear_deformation() -> Outcome {
    let (problem, results) = (read("B1.json")?, read("results.json")?);
    let mut loads: Vec<Load> =
        list(&problem["points"]).iter().map(|p| Load::Point { at: number(&p["x"]), force: number(&p["P"]) }).collect();
    for patch in list(&problem["udl"]) {
        let w = number(&patch["w"]);
        let (from, to) = (number(&patch["x1"]), number(&patch["x2"]));
        loads.push(Load::Spread { from, to, start: w, end: w });
    }
    let (length, section) = (number(&problem["L"]), &problem["section"]);
    let shear = number(&problem["kappa"]) * number(&problem["G"]) * number(&section["A"]);
    for (variant, kga) in [("euler_bernoulli", f64::INFINITY), ("timoshenko", shear)] {
        let ei = number(&problem["E"]) * number(&section["I"]);
        let span = Span { start: 0.0, end: length, supports: [0.0, length], ei, kga };
        let beam = span.under(&loads)?;
        let expected = &results["B1"][variant];
        let check = |name: &str, got: f64| nine_digits(name, got, number(&expected[name]), 0.0);
        let (moment, deflection) = (beam.extreme_moment().0, beam.extreme_deflection().0);
        check("R_left", beam.reactions()[0]);
        check("R_right", beam.reactions()[1]);
        check("M_mid", beam.moment(length / 2.0));
        check("M_max", moment.1);
        check("x_M_max", moment.0);
        check("w_mid", beam.deflection(length / 2.0));
        check("w_max", deflection.1);
        check("x_w_max", deflection.0);
        check("theta_left", beam.rotation(0.0));
        check("theta_right", beam.rotation(length));
    }
    Ok(())
}

#[test]
fn patch_moving_over_a_beam_on_five_springs() -> Outcome {
    let (problem, results) = (read("B2.json")?, read("results.json")?);
    let expected = &results["B2"];
    let ei = number(&problem["E"]) * number(&problem["section"]["I"]);
    let length = number(&problem["L"]);
    let springs = list(&problem["supports"])
        .iter()
        .map(|s| Spring { line: 0, x: number(&s["x"]), stiffness: number(&s["k"]) })
        .collect();
    let lines = vec![Line { y: 0.0, ei, from: 0.0, to: length }];
    let grillage = Model { lines, springs, ..Model::default() }.factor()?;
    let (wide, w) = (number(&problem["patch"]["length"]), number(&problem["patch"]["w"]));
    let cases: Vec<[Placed; 1]> = numbers(&problem["patch_start"])
        .into_iter()
        .map(|from| {
            let load = Load::Spread { from, to: (from + wide).min(length), start: w, end: w };
            [Placed { on: On::Line(0), load }]
        })
        .collect();
    let cases: Vec<&[Placed]> = cases.iter().map(|case| case.as_slice()).collect();

    let (at, between) = (numbers(&expected["stations_Mw"]), numbers(&expected["stations_V"]));
    let most = |n: usize| vec![f64::NEG_INFINITY; n];
    let mut high = [most(at.len()), most(between.len()), most(at.len()), most(5)];
    let mut low = high.clone();
    let mut work = grillage.workspace();
    grillage.solve_each(&cases, &mut work, &mut |_, response| {
        let line = response.line(0);
        let mut note = |kind: usize, i: usize, value: f64| {
            high[kind][i] = high[kind][i].max(value);
            low[kind][i] = low[kind][i].max(-value);
        };
        for (i, x) in at.iter().enumerate() {
            note(0, i, line.moment(*x));
            note(2, i, line.deflection(*x));
        }
        for (i, x) in between.iter().enumerate() {
            note(1, i, line.shear(*x).1);
        }
        for i in 0..5 {
            note(3, i, response.spring_force(i));
        }
    });
    for (kind, name) in ["M", "V", "w", "R"].into_iter().enumerate() {
        let largest = number(&expected["extremes"][format!("{name}_max")]);
        let (maxima, minima) = (numbers(&expected[format!("{name}_max")]), numbers(&expected[format!("{name}_min")]));
        for i in 0..maxima.len() {
            nine_digits(&format!("{name} max at {i}"), high[kind][i], maxima[i], largest);
            nine_digits(&format!("{name} min at {i}"), -low[kind][i], minima[i], largest);
        }
    }
    Ok(())
}

/// Slats on two cleats held by screws, and a centre beam on legs when one is given.
struct Bed {
    model: Model,
    span: f64,
    slats: usize,
    screws: usize,
}

impl Bed {
    fn new(x: &[f64], screws: &[f64], stiffness: f64, span: f64, slat: f64, cleat: f64) -> Self {
        let crossbeams = x.iter().map(|x| Crossbeam {
            x: *x,
            ei: slat,
            kga: f64::INFINITY,
            start: 0.0,
            end: span,
            rests_on: vec![0, 1],
            held_down: true,
        });
        let cleats = [0.0, span].map(|y| Line { y, ei: cleat, from: 0.0, to: 2.0 });
        let at = |line| screws.iter().map(move |x| Spring { line, x: *x, stiffness });
        let model = Model {
            lines: cleats.to_vec(),
            crossbeams: crossbeams.collect(),
            springs: at(0).chain(at(1)).collect(),
            links: Vec::new(),
            held_at_ends: false,
        };
        Bed { model, span, slats: x.len(), screws: screws.len() }
    }

    fn with_centre_beam(mut self, ei: f64, legs: &[f64], stiffness: f64) -> Self {
        self.model.lines.push(Line { y: self.span / 2.0, ei, from: 0.0, to: 2.0 });
        self.model.crossbeams.iter_mut().for_each(|slat| slat.rests_on.push(2));
        let legs = legs.iter().map(|x| Spring { line: 2, x: *x, stiffness });
        self.model.springs.extend(legs);
        self
    }
}

fn cases(value: &Value) -> Vec<(String, Vec<Placed>)> {
    let placed = |row: &Value| {
        let row = numbers(row);
        let load = Load::Spread { from: row[1], to: row[2], start: row[3], end: row[3] };
        Placed { on: On::Crossbeam(row[0] as usize), load }
    };
    list(value)
        .iter()
        .map(|case| {
            let id = case["id"].as_str().unwrap_or_default().to_owned();
            (id, list(&case["loads"]).iter().map(placed).collect())
        })
        .collect()
}

/// Compares one position with its expected values, every one that the file has.
fn compare(bed: &Bed, response: &Response<'_>, expected: &Value) {
    let (w, force) = (1e-3, 1e3);
    for i in 0..bed.slats {
        let slat = response.crossbeam(i);
        let (sagging, hogging) = slat.extreme_moment();
        let mid = slat.deflection(bed.span / 2.0);
        nine_digits("w_mid", mid, number(&expected["w_mid"][i]), w);
        nine_digits("M_slat", sagging.1, number(&expected["M_slat"][i]), force);
        if let Some(least) = expected["M_slat_min"].get(i) {
            nine_digits("M_slat_min", hogging.1, number(least), force);
        }
        for j in 0..2 {
            let reaction = response.crossbeam_reaction(i, j);
            nine_digits("R_slat", reaction, number(&expected["R_slat"][i][j]), force);
        }
    }
    for cleat in 0..2 {
        for (k, screw) in list(&expected["screw"][cleat]).iter().enumerate() {
            let got = response.spring_force(cleat * bed.screws + k);
            nine_digits("screw", got, number(screw), force);
        }
        let (sagging, hogging) = response.line(cleat).extreme_moment();
        nine_digits("M_cleat_max", sagging.1, number(&expected["M_cleat_max"][cleat]), force);
        nine_digits("M_cleat_min", hogging.1, number(&expected["M_cleat_min"][cleat]), force);
    }
    if let Some(legs) = expected["leg"].as_array() {
        for (k, leg) in legs.iter().enumerate() {
            nine_digits("leg", response.spring_force(2 * bed.screws + k), number(leg), force);
        }
        let (sagging, hogging) = response.line(2).extreme_moment();
        nine_digits("M_centre_max", sagging.1, number(&expected["M_centre_max"]), force);
        nine_digits("M_centre_min", hogging.1, number(&expected["M_centre_min"]), force);
    }
}

/// The largest (or smallest, for the names that say so) of each kind over all positions.
fn largest(bed: &Bed, response: &Response<'_>, name: &str) -> f64 {
    let slats = || (0..bed.slats).map(|i| response.crossbeam(i));
    let cleats = || (0..2).map(|l| response.line(l).extreme_moment());
    let springs = |range: std::ops::Range<usize>| range.map(|k| response.spring_force(k));
    let (screws, all) = (2 * bed.screws, bed.model.springs.len());
    let most = |values: &mut dyn Iterator<Item = f64>| values.fold(f64::NEG_INFINITY, f64::max);
    match name {
        "w_mid" => most(&mut slats().map(|s| s.deflection(bed.span / 2.0))),
        "M_slat" => most(&mut slats().map(|s| s.extreme_moment().0.1)),
        "M_slat_hogging" => -most(&mut slats().map(|s| -s.extreme_moment().1.1)),
        "screw_max" | "screw" => most(&mut springs(0..screws)),
        "screw_min" => -most(&mut springs(0..screws).map(|f| -f)),
        "M_cleat_max" => most(&mut cleats().map(|m| m.0.1)),
        "M_cleat_min" => -most(&mut cleats().map(|m| -m.1.1)),
        "M_cleat_abs" => most(&mut cleats().map(|m| m.0.1.max(-m.1.1))),
        "leg_max" => most(&mut springs(screws..all)),
        "leg_min" => -most(&mut springs(screws..all).map(|f| -f)),
        "M_centre_max" => response.line(2).extreme_moment().0.1,
        "M_centre_min" => response.line(2).extreme_moment().1.1,
        _ => panic!("unknown result {name}"),
    }
}

fn check_bed(bed: &Bed, problem: &Value, expected: &Value) -> Outcome {
    let grillage = bed.model.factor()?;
    let cases = cases(&problem["cases"]);
    let loads: Vec<&[Placed]> = cases.iter().map(|(_, loads)| loads.as_slice()).collect();
    let envelope = expected["max_over_cases"].as_object().ok_or("the file has no largest values")?;
    let mut governing = vec![f64::NAN; envelope.len()];
    let mut compared = 0;
    let mut work = grillage.workspace();
    grillage.solve_each(&loads, &mut work, &mut |case, response| {
        if let Some(expected) = expected.get(&cases[case].0) {
            compare(bed, response, expected);
            compared += 1;
        }
        for (so_far, name) in governing.iter_mut().zip(envelope.keys()) {
            let value = largest(bed, response, name);
            let least = name.ends_with("min") || name.ends_with("hogging");
            *so_far = if least { so_far.min(value) } else { so_far.max(value) };
        }
    });
    assert_eq!(compared, 6, "stored positions");
    for (value, (name, expected)) in governing.iter().zip(envelope) {
        nine_digits(name, *value, number(expected), 0.0);
    }
    // One position at a time must give the same answer.
    for (id, loads) in &cases {
        if let Some(expected) = expected.get(id) {
            compare(bed, &grillage.solve(loads, &mut work), expected);
        }
    }
    Ok(())
}

fn twenty_slats(problem: &Value) -> Bed {
    let e = number(&problem["E"]);
    Bed::new(
        &numbers(&problem["slats"]["x"]),
        &numbers(&problem["screws"]["x"]),
        number(&problem["screws"]["k"]),
        number(&problem["span"]),
        e * number(&problem["slats"]["I"]),
        e * number(&problem["cleats"]["I"]),
    )
}

#[test]
fn twenty_slats_on_two_screwed_cleats() -> Outcome {
    let (problem, results) = (read("B3.json")?, read("results.json")?);
    check_bed(&twenty_slats(&problem), &problem, &results["B3"])
}

#[test]
fn twenty_slats_with_a_centre_beam_on_three_legs() -> Outcome {
    let (problem, results) = (read("B3.json")?, read("results.json")?);
    let variant = &problem["variant_B3c"];
    let bed = twenty_slats(&problem).with_centre_beam(
        number(&variant["E"]) * number(&variant["I"]),
        &numbers(&variant["legs"]["x"]),
        number(&variant["legs"]["k"]),
    );
    check_bed(&bed, &problem, &results["B3c"])
}

#[test]
fn sweep_over_slat_thickness_count_span_and_stiffness() -> Outcome {
    let problem = read("B5.json")?;
    let columns = ["w_mid", "M_slat", "sigma_slat", "M_cleat_abs", "screw"];
    assert_eq!(problem["columns"], serde_json::json!(columns));
    let b = number(&problem["slat_b"]);
    for design in list(&problem["designs"]) {
        let (h, e) = (number(&design["h"]), number(&design["E"]));
        let geometry = &problem["geometry"][format!("{}_{}", design["n"], design["span"])];
        let bed = Bed::new(
            &numbers(&geometry["x"]),
            &numbers(&problem["screw_x"]),
            number(&problem["screw_k"]),
            number(&design["span"]),
            e * b * h.powi(3) / 12.0,
            e * number(&problem["cleat_I"]),
        );
        let grillage = bed.model.factor()?;
        let cases = cases(&geometry["cases"]);
        let loads: Vec<&[Placed]> = cases.iter().map(|(_, loads)| loads.as_slice()).collect();
        let mut governing = [f64::NEG_INFINITY; 5];
        let mut work = grillage.workspace();
        grillage.solve_each(&loads, &mut work, &mut |_, response| {
            for (so_far, name) in governing.iter_mut().zip(columns) {
                let value = match name {
                    "sigma_slat" => 6.0 * largest(&bed, response, "M_slat") / (b * h * h),
                    _ => largest(&bed, response, name),
                };
                *so_far = so_far.max(value);
            }
        });
        for ((name, value), expected) in columns.iter().zip(governing).zip(list(&design["expected"])) {
            nine_digits(&format!("{name} of {design}"), value, number(expected), 0.0);
        }
    }
    Ok(())
}

#[test]
fn links_between_cleat_and_rail_act_like_springs_when_the_rail_is_rigid() -> Outcome {
    // B3 again, its screws driven into a rail that rigid supports hold at every screw.
    let (problem, results) = (read("B3.json")?, read("results.json")?);
    let mut bed = twenty_slats(&problem);
    let screws = std::mem::take(&mut bed.model.springs);
    for line in 0..2 {
        let Line { y, .. } = bed.model.lines[line];
        bed.model.lines.push(Line { y, ei: 100.0, from: 0.05, to: 1.95 });
    }
    for Spring { line, x, stiffness } in screws {
        bed.model.links.push(Link { lines: [line, line + 2], x, stiffness });
        bed.model.springs.push(Spring { line: line + 2, x, stiffness: f64::INFINITY });
    }
    let grillage = bed.model.factor()?;
    let mut work = grillage.workspace();
    for (id, loads) in cases(&problem["cases"]) {
        if let Some(expected) = results["B3"].get(&id) {
            let response = grillage.solve(&loads, &mut work);
            compare(&bed, &response, expected);
            for k in 0..2 * bed.screws {
                let (link, spring) = (response.link_force(k), response.spring_force(k));
                assert!((link - spring).abs() < 1e-9 * 200.0, "{link} {spring}");
            }
        }
    }
    Ok(())
}
