//! `size` as it is run: exit status, one clear message, 80 columns, its files.

use std::path::Path;

use serde_json::Value;

use super::command_line::fits;
use super::support::{file, json, run, text};

#[track_caller]
fn refused(arguments: &[&str], because: &str) {
    let output = run(arguments);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(output.stdout.is_empty(), "{}", text(&output.stdout));
    assert!(said.contains(because), "{said}");
    assert_eq!(said.matches("error:").count(), 1, "{said}");
}

#[test]
fn text_fits_and_leads_with_the_answer() {
    let asked: [(&[&str], &str, i32); 6] = [
        (&["size", "demo/two.toml", "--count"], "1-1/2 IN IS ENOUGH.", 1),
        (
            &["size", "demo/two.toml", "--stock", "demo/rack.toml", "--count", "--lay", "both"],
            "1-5/16 IN IS ENOUGH.",
            1,
        ),
        (&["size", "demo/child.toml", "--units", "metric"], "", 0),
        (&["size", "demo/child.toml", "--member", "rail", "--count"], "", 0),
        (&["size", "demo/child.toml", "--member", "cleat"], "", 0),
        (&["size", "demo/child.toml", "--centre-beam", "both", "--thickness", "3/4 in"], "3/4 IN IS ENOUGH.", 0),
    ];
    for (arguments, lead, status) in asked {
        let output = run(arguments);
        let printed = text(&output.stdout);
        fits(&printed);
        let first = printed.lines().nth(2).unwrap();
        assert!(first.starts_with(lead), "{first}");
        assert!(first.contains("ENOUGH."), "{first}");
        assert_eq!(output.status.code(), Some(status), "{printed}");
    }
}

#[test]
fn json_keeps_to_its_schema() {
    let schema: Value = serde_json::from_slice(&run(&["size", "--schema"]).stdout).expect("a schema");
    let validator = jsonschema::validator_for(&schema).expect("a valid schema");
    let asked: [&[&str]; 3] = [
        &["size", "demo/two.toml", "--count"],
        &["size", "demo/child.toml", "--member", "cleat"],
        &["size", "demo/child.toml", "--member", "rail", "--limit", "3"],
    ];
    for arguments in asked {
        let answer = json(arguments);
        assert!(validator.is_valid(&answer), "{:?}", validator.iter_errors(&answer).next().map(|e| e.to_string()));
        assert_eq!((&answer["slatwright"], &answer["answer"]), (&Value::from(1), &Value::from("size")));
        for c in answer["passing"].as_array().unwrap() {
            assert!(c["verdict"] == "pass" && c["governed_by"]["ratio"].as_f64().unwrap() <= 1.0, "{c}");
        }
        for c in answer["failing"].as_array().unwrap() {
            assert!(c["verdict"] == "fail" && c["governed_by"]["ratio"].as_f64().is_none_or(|r| r > 1.0), "{c}");
        }
    }
}

/// Screws are ranked by how many there are to drive, then by how thick they are.
#[test]
fn fewer_screws_come_first() {
    let answer = json(&["size", "demo/child.toml", "--member", "cleat", "--limit", "100"]);
    let counts: Vec<u64> = answer["passing"].as_array().unwrap().iter().map(|c| c["count"].as_u64().unwrap()).collect();
    assert!(counts.len() > 5 && counts.windows(2).all(|w| w[0] <= w[1]), "{counts:?}");
}

#[test]
fn rows_for_a_spreadsheet_are_the_choices() {
    let output = run(&["size", "demo/two.toml", "--format", "csv", "--limit", "5"]);
    let printed = text(&output.stdout);
    let mut lines = printed.lines();
    let columns = lines.next().unwrap().split(',').count();
    let rows: Vec<&str> = lines.collect();
    assert_eq!(rows.len(), 10, "{printed}");
    for row in rows {
        let quoted = row.split('"').skip(1).step_by(2).map(|q| q.matches(',').count()).sum::<usize>();
        assert_eq!(row.matches(',').count() - quoted + 1, columns, "{row}");
    }
}

#[test]
fn what_makes_no_sense_is_refused_with_one_message() {
    let brief = "demo/two.toml";
    refused(&["size", brief, "--member", "rail", "--gap", "2 in"], "--gap is for --member slat");
    refused(&["size", brief, "--member", "cleat", "--count"], "--count is for --member slat or rail");
    refused(&["size", brief, "--pitch", "4 in"], "--pitch is for --member cleat");
    refused(&["size", brief, "--stock", "demo/rack.toml", "--wood", "spf no2"], "cannot be used with");
    refused(&["size", brief, "--force"], "--chart");
    refused(&["size", brief, "--chart", "chart.png"], "ends in .svg");
    refused(&["size", brief, "--wood", "no such tree"], "no such tree");
    refused(&["size", brief, "--thickness", "3"], "unit");
    refused(&["size", brief, "--stock", "no_such_rack.toml"], "cannot be read");
    refused(&["size", brief, "--limit", "0"], "0");
    refused(&["size", "no_such_brief.toml"], "cannot be read");
    refused(&["size", brief, "--count", "--length", "4 ft"], "no length of stock holds");
}

#[test]
fn a_rack_that_is_empty_or_wrong_is_refused() {
    for (rack, because) in [
        ("", "the rack is empty"),
        ("[[screw]]\nscrew = \"#10 x 3 in\"\n", "no sticks are in the rack"),
        ("[[stick]]\nwood = \"spf no2\"\nsize = \"2x4\"\nlengths = [\"8\"]\n", ":4:"),
        ("[[stick]\n", "brief.toml:1"),
    ] {
        let (_folder, name) = file(rack);
        refused(&["size", "demo/two.toml", "--stock", &name], because);
    }
    let (_folder, name) = file("[[stick]]\nwood = \"spf no2\"\nsize = \"2x4\"\n");
    refused(&["size", "demo/two.toml", "--member", "cleat", "--stock", &name], "no screws are on the shelf");
}

/// A goal out of reach: the table is printed, and one message says what comes nearest.
#[test]
fn when_nothing_passes_the_nearest_is_named() {
    let (_folder, rack) =
        file("[[stick]]\nwood = \"spf no2\"\nsize = \"2x2\"\n\n[[stick]]\nwood = \"spf no2\"\nsize = \"2x3\"\n");
    let output = run(&["size", "demo/two.toml", "--stock", &rack]);
    let (printed, said) = (text(&output.stdout), text(&output.stderr));
    assert_eq!(output.status.code(), Some(2));
    fits(&printed);
    assert!(printed.contains("NOTHING PASSES. Of 2 choices"), "{printed}");
    assert!(said.contains("no stock in the rack passes; the nearest is 17 of 2x3"), "{said}");
    assert!(said.contains(" at ratio 1.") && said.matches("error:").count() == 1, "{said}");
}

#[test]
fn same_question_same_bytes() {
    let asked = ["size", "demo/two.toml", "--gap", "1 in", "--gap", "2 in", "--lay", "both", "--format", "json"];
    assert_eq!(run(&asked).stdout, run(&asked).stdout);
}

/// The chart: a line a wood, the chosen thickness marked; never half a file, and replaced only with --force.
#[test]
fn a_chart_is_drawn_beside_the_answer() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("thinnest.svg");
    let name = path.to_str().expect("a name");
    let asked = ["size", "demo/child.toml", "--thickness", "3/4 in", "--thickness", "1 in", "--chart", name];
    let output = run(&asked);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let drawn = std::fs::read_to_string(&path).expect("a chart");
    let page = scraper::Html::parse_fragment(&drawn);
    let selector = scraper::Selector::parse("text").unwrap();
    let words: Vec<String> = page.select(&selector).map(|e| e.text().collect::<String>().trim().to_owned()).collect();
    for word in ["weight of each sleeper, lb", "thinnest slat, in", "chosen: 3/4 in", "poplar,"] {
        assert!(words.iter().any(|w| w.contains(word)), "{word}: {words:?}");
    }
    refused(&asked, "add --force");
    std::fs::write(&path, "old").expect("a file");
    assert_eq!(run(&[&asked[..], &["--force"]].concat()).status.code(), Some(0));
    assert_eq!(std::fs::read_to_string(&path).expect("a chart"), drawn);
    let left: Vec<_> = std::fs::read_dir(folder.path()).expect("a folder").collect();
    assert_eq!(left.len(), 1, "{left:?}");
    refused(&["size", "demo/child.toml", "--chart", "no/such/folder/chart.svg"], "could not be written");
    assert!(!Path::new("no").exists());
}
