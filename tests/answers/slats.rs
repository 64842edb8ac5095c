//! `span BRIEF --table`: other slats under sleepers of other weights, against the check itself.

use serde_json::Value;
use slatwright::check::{Role, Verdict};

use super::support::{checked, file, json, run, text};

/// A double bed of boards without a stamp; `width`, `sleeper` and the slats' own lines are what the table changes.
fn bed(width: &str, sleeper: &str, slats: &str) -> String {
    format!(
        "units = \"us\"\n[platform]\nlength = \"80 in\"\nwidth = \"{width}\"\n\
         [mattress]\nthickness = \"8 in\"\nweight = \"60 lb\"\n\
         [[sleeper]]\nweight = \"{sleeper}\"\n[[sleeper]]\nweight = \"{sleeper}\"\n\
         [slats]\nwood = \"spruce-pine-fir no2\"\n{slats}\ngap = \"2-1/2 in\"\nfixed = true\n\
         [cleats]\nwood = \"douglas fir-larch no2\"\nsize = \"2x4\"\nrise = \"1-3/4 in\"\n\
         screws = {{ screw = \"#14 x 3 in\", pitch = \"4 in\", first = \"3 in\" }}\n\
         [rails]\nwood = \"douglas fir-larch no2\"\nsize = \"2x8\"\n\
         ends = {{ joint = \"bearing\", bearing = \"3 in\" }}\n"
    )
}

const DRAWN: &str = "size = \"2x4\"";

fn slats_carry(brief: &str) -> Option<bool> {
    let a = checked(brief)?;
    let mut checks = a.members.iter().filter(|m| m.role == Role::Slat).flat_map(|m| &m.checks);
    Some(checks.all(|c| c.verdict == Verdict::Pass))
}

/// The width found carries; a sixteenth of an inch more does not: for the slats and for the whole.
#[test]
fn the_span_found_carries_and_one_step_more_does_not() {
    let (_folder, path) = file(&bed("54 in", "180 lb", DRAWN));
    let sizes = ["--size", "2x3", "--size", "2x6", "--sleeper", "120 lb", "--sleeper", "250 lb"];
    let answer = json(&[&["span", &path, "--table"], &sizes[..]].concat());
    let rows = answer["stock"].as_array().expect("rows");
    assert_eq!(rows.len(), 3);
    let inches = |v: &Value| v["value"].as_f64().expect("a length") / 0.0254;
    let mut compared = 0;
    for (row, size) in rows.iter().zip(["2x4", "2x3", "2x6"]) {
        assert_eq!(row["as_drawn"].as_bool(), Some(size == "2x4"));
        for (cell, sleeper) in row["cells"].as_array().expect("cells").iter().zip(["120 lb", "250 lb"]) {
            let at =
                |sixteenths: f64| bed(&format!("{} in", sixteenths / 16.0), sleeper, &format!("size = \"{size}\""));
            let width = (inches(&cell["slats"]["width"]) * 16.0).round();
            assert_eq!(cell["slats"]["open"], false);
            assert_eq!(slats_carry(&at(width)), Some(true), "{size}, {sleeper}: {cell}");
            assert_eq!(slats_carry(&at(width + 1.0)), Some(false), "{size}, {sleeper}: {cell}");
            // Between the middles of the bearings: half of each cleat of 1 1/2 in on both sides.
            assert!((inches(&cell["slats"]["slat_span"]) - (width / 16.0 - 1.5)).abs() < 1e-4);
            if let Some(whole) = cell["whole"]["width"]["value"].as_f64() {
                let width = (whole / 0.0254 * 16.0).round();
                let carries = |w: f64| checked(&at(w)).map(|a| a.carries() == Verdict::Pass);
                assert_eq!([carries(width), carries(width + 1.0)], [Some(true), Some(false)], "{cell}");
            }
            compared += 1;
        }
    }
    assert_eq!(compared, 6);
}

/// As drawn the table says of the slats what `span` says of them.
#[test]
fn the_drawn_row_is_what_span_says() {
    let (_folder, path) = file(&bed("54 in", "180 lb", DRAWN));
    let table = json(&["span", &path, "--table", "--size", "2x6", "--sleeper", "180 lb"]);
    let widest = json(&["span", &path]);
    let slats = widest["parts"].as_array().expect("parts").iter().find(|p| p["role"] == "slat").expect("slats");
    assert_eq!(table["stock"][0]["cells"][0]["slats"], *slats);
    assert_eq!(table["stock"][0]["cells"][0]["whole"], widest["whole"]);
}

/// A size that a grade does not come in is a gap in the table with its reason, and no answer.
#[test]
fn what_cannot_be_built_says_why() {
    let (_folder, path) = file(&bed("54 in", "180 lb", DRAWN));
    let out = run(&["span", &path, "--table", "--size", "1x4", "--sleeper", "180 lb"]);
    let said = text(&out.stdout);
    assert_eq!(out.status.code(), Some(0), "{said}");
    assert!(said.lines().any(|l| l.starts_with("1x4") && l.ends_with('-')), "{said}");
    assert!(said.lines().any(|l| l.starts_with("- 1x4: ") && l.len() > 20), "{said}");
    assert!(said.lines().all(|l| l.chars().count() <= 80), "{said}");
}

#[test]
fn csv_has_a_line_a_cell() {
    let (_folder, path) = file(&bed("54 in", "180 lb", DRAWN));
    let asked = ["span", &path, "--table", "--size", "2x3", "--sleeper", "100 lb", "--sleeper", "200 lb"];
    let out = run(&[&asked[..], &["--format", "csv"]].concat());
    let said = text(&out.stdout);
    let lines: Vec<&str> = said.lines().collect();
    assert_eq!(lines.len(), 5, "{said}");
    let columns = lines[0].split(',').count();
    assert!(lines[0].starts_with("wood,size,thickness_in,width_in,sleeper_lb,slat_span_in"), "{said}");
    assert!(lines[1..].iter().all(|l| l.split(',').count() == columns), "{said}");
}

/// The chart is a whole SVG with a line a stock; an existing file stays unless `--force` is given.
#[test]
fn a_chart_is_drawn_whole_or_not_at_all() {
    let (folder, path) = file(&bed("54 in", "180 lb", DRAWN));
    let chart = folder.path().join("spans.svg");
    let name = chart.to_str().expect("a name");
    let asked =
        ["span", &path, "--table", "--size", "2x3", "--sleeper", "100 lb", "--sleeper", "200 lb", "--chart", name];
    assert_eq!(run(&asked).status.code(), Some(0));
    let drawn = std::fs::read_to_string(&chart).expect("a chart");
    assert!(drawn.starts_with("<svg") && drawn.trim_end().ends_with("</svg>"));
    assert!(drawn.contains("1-1/2 x 2-1/2 in") && drawn.contains("drawn:"), "{drawn}");
    std::fs::write(&chart, "kept").expect("a file");
    let again = run(&asked);
    assert_eq!(again.status.code(), Some(2));
    assert!(text(&again.stderr).contains("--force"));
    assert_eq!(std::fs::read_to_string(&chart).expect("a file"), "kept");
    assert_eq!(run(&[&asked[..], &["--force"]].concat()).status.code(), Some(0));
    assert!(std::fs::read_to_string(&chart).expect("a file").starts_with("<svg"));
    let wrong = run(&["span", &path, "--table", "--chart", "spans.png"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(text(&wrong.stderr).contains(".svg"));
}

#[test]
fn plain_stock_is_charted_over_its_spacing() {
    let folder = tempfile::tempdir().expect("a folder");
    let chart = folder.path().join("joists.svg");
    let name = chart.to_str().expect("a name");
    let out = run(&["span", "--wood", "spf no2", "--size", "2x6", "--size", "2x8", "--table", "--chart", name]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let drawn = std::fs::read_to_string(&chart).expect("a chart");
    // The same lengths are read out as the table has.
    let answer = json(&["span", "--wood", "spf no2", "--size", "2x6", "--size", "2x8", "--table"]);
    assert_eq!(answer["spans"].as_array().expect("spans").len(), 8);
    for size in ["2x6", "2x8"] {
        assert!(drawn.contains(size), "{drawn}");
    }
}

#[test]
fn a_weight_without_a_table_is_asked_back() {
    let (_folder, path) = file(&bed("54 in", "180 lb", DRAWN));
    let out = run(&["span", &path, "--size", "2x6"]);
    assert_eq!(out.status.code(), Some(2));
    assert!(text(&out.stderr).contains("--table"));
}
