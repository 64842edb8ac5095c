//! The sheet as a file: its faces against the JSON report, as HTML, and as something written to disk.

// A test that is skipped says so.
#![allow(clippy::print_stderr)]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::LazyLock;

use scraper::{ElementRef, Html, Selector};
use serde_json::Value;
use slatwright::quantity::round_up;

fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo").join(name)
}

const DEMOS: [&str; 10] = [
    "two.toml",
    "child.toml",
    "deck.toml",
    "deck_ec5.toml",
    "bunk.toml",
    "hut_double.toml",
    "wall_loft.toml",
    "warden_bunk.toml",
    "warden_bunk_ec5.toml",
    "guest_both.toml",
];

/// The demos' sheets as HTML, written once.
static PAGES: LazyLock<BTreeMap<&str, String>> =
    LazyLock::new(|| DEMOS.into_iter().map(|name| (name, written(&demo(name), "html"))).collect());

fn program(arguments: &[&Path]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_slatwright")).args(arguments).output().expect("the program runs")
}

fn sheet(brief: &Path, out: &Path) -> Output {
    program(&[Path::new("sheet"), brief, Path::new("--out"), out])
}

/// The sheet of a brief as text.
fn written(brief: &Path, ending: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join(format!("sheet.{ending}"));
    let output = sheet(brief, &out);
    std::fs::read_to_string(&out).unwrap_or_else(|e| panic!("{e}: {output:?}"))
}

fn json(brief: &Path) -> Value {
    let output = program(&[Path::new("check"), brief, Path::new("--format"), Path::new("json")]);
    serde_json::from_slice(&output.stdout).unwrap_or_else(|e| panic!("{e}: {output:?}"))
}

fn select(what: &str) -> Selector {
    Selector::parse(what).expect("a selector")
}

fn text(e: ElementRef<'_>) -> String {
    e.text().collect::<String>().replace('\u{a0}', " ")
}

/// A value of the JSON report in the units of a sheet, with how much one of its units is.
fn in_units(v: &Value, us: bool) -> (f64, &'static str) {
    let (value, unit) = (v["value"].as_f64().expect("a number"), v["unit"].as_str().expect("a unit"));
    // NIST SP 811: 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm.
    let psi = 4.448_221_615_260_5 / (0.0254 * 0.0254);
    match (unit, us) {
        ("Pa", true) => (value / psi, "psi"),
        ("Pa", false) => (value / 1e6, "N/mm²"),
        ("N", true) => (value / 4.448_221_615_260_5, "lb"),
        ("N", false) => (value, "N"),
        ("m", true) => (value / 0.0254, "in"),
        ("m", false) => (value * 1e3, "mm"),
        ("N m", true) => (value / (4.448_221_615_260_5 * 0.0254), "in·lb"),
        ("N m", false) => (value, "N·m"),
        ("1", _) => (value, ""),
        other => panic!("{other:?}"),
    }
}

/// Whether a cell says this value to four digits.
fn says(cell: &str, v: &Value, us: bool) -> bool {
    let (value, unit) = in_units(v, us);
    let (number, printed_unit) = cell.rsplit_once(' ').unwrap_or((cell, ""));
    let printed: f64 = number.parse().expect("a number");
    // The JSON has six digits, the sheet four: at most half of the fourth apart.
    let digit = 10f64.powf(value.abs().max(1e-300).log10().floor() - 3.0);
    printed_unit == unit && (printed - value).abs() <= 0.51 * digit
}

/// Every number of the JSON report stands in the table of all checks, in the sheet's units.
#[test]
fn every_check_of_the_json_report_is_on_the_page() {
    for name in DEMOS {
        let (report, page) = (json(&demo(name)), Html::parse_document(&PAGES[name]));
        let us = std::fs::read_to_string(demo(name)).expect("the demo").contains("units = \"us\"");
        let rows: Vec<Vec<String>> = page
            .select(&select("table.dense tbody tr"))
            .map(|r| r.select(&select("th, td")).map(text).collect())
            .collect();
        let mut seen = 0;
        for m in report["members"].as_array().unwrap() {
            for c in m["checks"].as_array().unwrap() {
                let (id, limit) = (m["id"].as_str().unwrap(), c["limit"].as_str().unwrap());
                let row = rows.get(seen).filter(|r| r[0] == id && r[1] == limit);
                let row = row.unwrap_or_else(|| panic!("{name}: no row for {limit} of {id} in its place"));
                let stands_still = ["spacing", "penetration", "opening", "slenderness"].contains(&limit);
                let case = if stands_still { "always" } else { c["case"].as_str().unwrap() };
                assert!(row[2] == case || row[2] == c["case"], "{name}: {id}, {limit}: {}", row[2]);
                let ratio = c["ratio"].as_f64().map_or("none".into(), |r| round_up(r, 2));
                // Six digits may round the other way than all of them.
                let below = c["ratio"].as_f64().map_or("none".into(), |r| round_up(r * (1.0 - 1e-5), 2));
                assert!(row[3] == ratio || row[3] == below, "{name}: {id}, {limit}: {} is not {ratio}", row[3]);
                assert_eq!(row[5], c["verdict"].as_str().unwrap());
                assert!(says(&row[6], &c["demand"], us), "{name}: {id}, {limit}: {} for {}", row[6], c["demand"]);
                assert!(says(&row[7], &c["capacity"], us), "{name}: {id}, {limit}: {} for {}", row[7], c["capacity"]);
                seen += 1;
            }
        }
        assert_eq!(rows.len(), seen, "{name}");
        let all = text(page.root_element());
        for case in report["cases"].as_array().unwrap() {
            for key in ["case", "load", "reason"] {
                assert!(all.contains(case[key].as_str().unwrap()), "{name}: {}", case[key]);
            }
        }
        for key in ["cautions", "assumptions", "would_pass"] {
            for said in report[key].as_array().unwrap() {
                assert!(plain(&all).contains(&plain(said.as_str().unwrap())), "{name}: {said}");
            }
        }
        for p in report["predictions"].as_array().unwrap() {
            let ratio = round_up(p["ratio"].as_f64().expect("a ratio"), 2);
            let said =
                format!("{}: {}: the weakest link is {}", words(&p["case"]), words(&p["load"]), words(&p["member"]));
            let at = format!("{} at {ratio} of what is allowed", words(&p["limit"]));
            assert!(plain(&all).contains(&plain(&said)) && plain(&all).contains(&plain(&at)), "{name}: {p}");
        }
        let mattress = &report["openings"]["thickest_mattress"];
        if mattress.is_object() {
            let (value, unit) = in_units(mattress, us);
            let said = format!("leaves the guard high enough: {value:.0} {unit}.");
            assert!(plain(&all).contains(&plain(&said)), "{name}: {said}");
        }
        for n in report["not_checked"].as_array().unwrap() {
            assert!(
                all.contains(n["what"].as_str().unwrap()) && all.contains(n["why"].as_str().unwrap()),
                "{name}: {n}"
            );
        }
    }
}

fn words(v: &Value) -> &str {
    v.as_str().expect("words")
}

/// Text without what a fraction's setting changes.
fn plain(text: &str) -> String {
    text.chars().filter(|c| !" -\u{a0}".contains(*c)).map(|c| if c == '\u{2044}' { '/' } else { c }).collect()
}

/// Every step of every check of the governing members, to the last digit and clause.
#[test]
fn the_calculation_is_whole() {
    for name in DEMOS {
        let page = Html::parse_document(&PAGES[name]);
        let output =
            program(&[Path::new("check"), &demo(name), Path::new("--format"), Path::new("json"), Path::new("--steps")]);
        let report: Value = serde_json::from_slice(&output.stdout).unwrap();
        let lines: Vec<String> = page.select(&select(".steps li")).map(|l| plain(&text(l))).collect();
        let mut roles: Vec<&str> = Vec::new();
        let heads: Vec<String> = page.select(&select("h3")).map(text).collect();
        for m in report["members"].as_array().unwrap() {
            let (id, role) = (m["id"].as_str().unwrap(), m["role"].as_str().unwrap());
            if !heads.iter().any(|h| h.starts_with(&format!("{id} ("))) {
                continue;
            }
            roles.push(role);
            for c in m["checks"].as_array().unwrap() {
                for step in c["steps"].as_array().unwrap() {
                    let source = plain(step["source"].as_str().unwrap());
                    let numbers = plain(step["substituted"].as_str().unwrap());
                    let found = lines.iter().any(|l| l.contains(&numbers) && l.contains(&source));
                    assert!(found, "{name}: {id}: {step}");
                }
            }
        }
        let all: std::collections::BTreeSet<&str> =
            report["members"].as_array().unwrap().iter().map(|m| m["role"].as_str().unwrap()).collect();
        assert_eq!(roles.len(), all.len(), "{name}: one governing member of each role");
    }
}

/// The page parses without one error of the HTML standard's parser (html5ever), and is built so that
/// it can be found one's way about in without seeing it.
fn well_built(page: &str) -> Html {
    let parsed = Html::parse_document(page);
    assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
    let count = |what: &str| parsed.select(&select(what)).count();
    assert_eq!(count("html[lang]"), 1);
    assert_eq!(count("meta[name=viewport]"), 1);
    assert_eq!(count("main"), 1);
    assert_eq!(count("h1"), 1);
    let mut before = 1;
    for h in parsed.select(&select("h1, h2, h3, h4, h5, h6")) {
        let level = usize::from(h.value().name().as_bytes()[1] - b'0');
        assert!(level <= before + 1, "{} jumps from {before}", text(h));
        assert!(!text(h).trim().is_empty());
        before = level;
    }
    for t in parsed.select(&select("table")) {
        assert_eq!(t.select(&select("caption")).count(), 1);
        assert_eq!(t.select(&select("thead th")).count(), t.select(&select("thead th[scope=col]")).count());
        let rows = t.select(&select("tbody tr")).count();
        assert_eq!(t.select(&select("tbody th[scope=row]")).count(), rows);
        let columns = t.select(&select("thead th")).count();
        assert_eq!(t.select(&select("tbody th, tbody td")).count(), rows * columns, "{}", text(t));
    }
    let svgs = count("svg");
    assert!(svgs > 2);
    assert_eq!(count("svg[role=img] > title"), svgs);
    assert_eq!(count("svg[role=img] > desc"), svgs);
    let ids: Vec<&str> = parsed.select(&select("[id]")).filter_map(|e| e.value().id()).collect();
    let mut once = ids.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), ids.len(), "an id stands twice");
    for named in parsed.select(&select("[aria-labelledby]")) {
        for id in named.value().attr("aria-labelledby").unwrap().split(' ') {
            assert!(ids.contains(&id), "{id}");
        }
    }
    // Nothing that runs, nothing from elsewhere.
    assert_eq!(count("script, iframe, object, embed, link, img, video, audio, base, form"), 0);
    for e in parsed.root_element().descendants().filter_map(ElementRef::wrap) {
        for (name, value) in e.value().attrs() {
            assert!(!name.starts_with("on"), "{name}");
            assert!(!["src", "href", "action", "xlink:href"].contains(&name), "{name}={value}");
        }
    }
    let style: String = parsed.select(&select("style")).map(text).collect();
    assert!(!style.contains("url(") && !style.contains("@import"));
    parsed
}

#[test]
fn every_demo_makes_a_well_built_page() {
    for name in DEMOS {
        well_built(&written(&demo(name), "html"));
    }
}

/// Every member that was checked is drawn in the plan, in the colour of its verdict.
#[test]
fn what_fails_is_drawn_as_failing() {
    let fails = |name: &str| {
        let page = Html::parse_document(&PAGES[name]);
        let plan = page.select(&select("svg")).next().expect("a plan");
        plan.select(&select("path.b4, circle.b4")).count()
    };
    // One swatch of the legend is always there.
    assert_eq!(fails("child.toml"), 1);
    assert_eq!(fails("two.toml"), 1 + 14, "fourteen slats fail");
    assert_eq!(fails("deck.toml"), 1 + 4, "four end joints fail");
}

/// A guard is drawn with its posts, and what fails of it in the colour of that.
#[test]
fn a_bunk_with_a_guard_makes_a_well_built_page() {
    let brief = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/guard/bunk.toml");
    let page = well_built(&written(&brief, "html"));
    let plain = well_built(&written(&demo("child.toml"), "html"));
    let shapes = |page: &Html| page.select(&select("svg")).next().expect("a plan").select(&select("path")).count();
    assert!(shapes(&page) > shapes(&plain) + 15, "five lengths of guard and their posts");
    let heads: Vec<String> = page.select(&select("h3")).map(text).collect();
    assert!(heads.iter().any(|h| h.contains("guard post")) && heads.iter().any(|h| h.starts_with("stringer (")));
}

const HOSTILE_TITLE: &str = "</h1></title><script>alert(1)</script><img src=x onerror=alert(2)> <!-- ]]> \
                             &amp; \u{202e}מיטה \u{2066}سرير | `x` **y** [z](javascript:alert(3)) </svg></style>";

fn hostile(title: &str) -> tempfile::TempDir {
    let brief = std::fs::read_to_string(demo("child.toml")).expect("the demo");
    let (head, tail) = brief.split_once("title = \"Child's bed in ungraded poplar\"").expect("a title");
    let comment = "# </pre><script>alert(4)</script> ``` ````` \n";
    let folder = tempfile::tempdir().expect("a folder");
    let title = toml::Value::String(title.into());
    std::fs::write(folder.path().join("hostile.toml"), format!("{comment}{head}title = {title}{tail}"))
        .expect("a file");
    folder
}

#[test]
fn a_hostile_brief_stays_text() {
    let folder = hostile(HOSTILE_TITLE);
    let brief = folder.path().join("hostile.toml");
    let page = written(&brief, "html");
    let parsed = well_built(&page);
    let h1 = parsed.select(&select("h1")).next().map(text).unwrap();
    assert_eq!(h1, HOSTILE_TITLE);
    let title = parsed.select(&select("title")).next().map(text).unwrap();
    assert_eq!(title, HOSTILE_TITLE);
    let typed = parsed.select(&select("pre")).next_back().map(text).unwrap();
    assert!(typed.contains("</pre><script>alert(4)</script>"));
    let markdown = written(&brief, "md");
    let (first, _) = markdown.split_once('\n').unwrap();
    assert!(first.starts_with("# \\</h1\\>") && first.ends_with("\\</style\\>"), "{first}");
    for active in ["<script", "<img", "[z](", "**y**"] {
        // What a backslash stands before is text.
        let outside = markdown.split("``````text").next().unwrap();
        let mut escaped = false;
        let bare: String = outside
            .chars()
            .filter(|c| {
                let kept = !escaped && *c != '\\';
                escaped = !escaped && *c == '\\';
                kept
            })
            .collect();
        assert!(!bare.contains(active), "{active}");
    }
    assert!(markdown.contains("\n``````text\n"), "the fence is longer than any in the brief");
}

#[test]
fn a_title_of_ten_thousand_characters_is_one_title() {
    let folder = hostile(&"Bett ".repeat(2000));
    let output = sheet(&folder.path().join("hostile.toml"), &folder.path().join("long.html"));
    if output.status.code() == Some(2) {
        // The brief may refuse such a title; then there is no sheet.
        assert!(!folder.path().join("long.html").exists(), "{output:?}");
        return;
    }
    let parsed = well_built(&std::fs::read_to_string(folder.path().join("long.html")).unwrap());
    assert_eq!(parsed.select(&select("h1")).next().map(text).unwrap().len(), 10_000);
}

#[test]
fn the_same_brief_gives_the_same_bytes() {
    for ending in ["html", "md"] {
        assert_eq!(written(&demo("two.toml"), ending), written(&demo("two.toml"), ending));
    }
}

/// SHA-256 by coreutils, which this program did not write.
#[test]
fn the_checksum_is_the_briefs() {
    let Ok(output) = Command::new("sha256sum").arg(demo("child.toml")).output() else {
        eprintln!("skipped: there is no sha256sum here");
        return;
    };
    let sum = String::from_utf8(output.stdout).unwrap();
    let sum = sum.split(' ').next().unwrap();
    assert_eq!(sum.len(), 64);
    for ending in ["html", "md"] {
        let sheet = written(&demo("child.toml"), ending);
        assert!(sheet.contains(sum));
        let brief = std::fs::read_to_string(demo("child.toml")).unwrap();
        assert!(plain_entities(&sheet).contains(brief.trim_end()), "the brief's own text");
    }
}

fn plain_entities(page: &str) -> String {
    page.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}

#[test]
fn an_existing_file_is_replaced_only_when_told() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("sheet.html");
    std::fs::write(&out, "precious").unwrap();
    let output = sheet(&demo("child.toml"), &out);
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("--force"));
    assert_eq!(std::fs::read_to_string(&out).unwrap(), "precious");
    let output = program(&[Path::new("sheet"), &demo("child.toml"), Path::new("--out"), &out, Path::new("--force")]);
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    assert!(std::fs::read_to_string(&out).unwrap().starts_with("<!DOCTYPE html>"));
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left beside it");
}

/// The exit status is the check's, and nothing is written when there is a mistake.
#[test]
fn a_mistake_writes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let out = |name: &str| folder.path().join(name);
    assert_eq!(sheet(&demo("two.toml"), &out("two.md")).status.code(), Some(1));
    let bad = out("bad.toml");
    std::fs::write(&bad, "title = \"x\"\nunits = 3\n").unwrap();
    for (brief, file) in [
        (&bad, "a.html"),
        (&out("missing.toml"), "b.html"),
        (&demo("child.toml"), "c.docx"),
        (&demo("child.toml"), "noending"),
        (&demo("child.toml"), "no/such/folder/d.html"),
    ] {
        let output = sheet(brief, &out(file));
        assert_eq!(output.status.code(), Some(2), "{file}");
        let said = String::from_utf8_lossy(&output.stderr);
        assert_eq!(
            said.lines().filter(|l| l.starts_with("error")).count(),
            if file == "a.html" { said.matches("error").count() } else { 1 },
            "{said}"
        );
        assert!(!out(file).exists());
    }
    let mut left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name()).collect();
    left.sort();
    assert_eq!(left, ["bad.toml", "two.md"]);
}

/// The rows of a table of a demo's sheet.
fn rows_of(name: &str, caption: &str) -> Vec<Vec<String>> {
    let page = Html::parse_document(&PAGES[name]);
    let every = select("table");
    let mut tables = page.select(&every);
    let table = tables.find(|t| t.select(&select("caption")).any(|c| text(c) == caption)).expect("the table");
    table.select(&select("tbody tr")).map(|r| r.select(&select("th, td")).map(text).collect()).collect()
}

/// Guard, ladder and centre beam in the cut list, worked out by hand from the demos' own numbers.
#[test]
fn guard_ladder_and_beam_are_cut_too() {
    let find = |rows: &[Vec<String>], what: &str, length: &str| {
        let row = rows.iter().find(|r| r[0] == what && r[3].starts_with(length));
        row.unwrap_or_else(|| panic!("{what} of {length} in {rows:?}"))[1].clone()
    };
    let pieces = rows_of("warden_bunk.toml", "Cut list");
    // The left edge is 80 in long, the right one 80 less the 15 of the opening, head and foot 38 each.
    for what in ["guard top rail", "guard lower rail"] {
        for (length, count) in [("80 in", "1"), ("65 in", "1"), ("38 in", "2")] {
            assert_eq!(find(&pieces, what, length), count, "{what}");
        }
    }
    // Up from the bed rail's lower edge: rise 3 1/2, cleat 3 1/2, slat 1 1/2, and 13 above the slats. Over 74 1/2,
    // 59 1/2 and 32 1/2 in between the first and last posts' middles, at most 32 apart: 4 + 3 + 3 + 3.
    assert_eq!(find(&pieces, "guard post", "21 1⁄2 in"), "13");
    // 60 in up and 12 out are 61.19 in along the slant; five rungs below 60 in, 13 + 2 x 3/4 in long.
    assert_eq!(find(&pieces, "ladder stringer", "≈61 3⁄16 in"), "2");
    assert_eq!(find(&pieces, "rung", "14 1⁄2 in"), "5");
    let screws = rows_of("warden_bunk.toml", "Hardware");
    let count = |what: &str| &screws.iter().find(|r| r[0] == what).unwrap_or_else(|| panic!("{what}: {screws:?}"))[2];
    assert_eq!(count("bed's rail to guard posts"), "52");
    assert_eq!(count("guard top rail to its posts"), "26");
    assert_eq!(count("ladder's top to the bed's rail"), "4");
    let pieces = rows_of("hut_double.toml", "Cut list");
    // Two metres and a bearing of 38 mm at each end.
    assert_eq!(find(&pieces, "centre beam", "2076 mm"), "1");
    // 520 mm less the slat of 27 and the beam of 5 1/2 in, 139.7 mm, to the half millimetre.
    assert_eq!(find(&pieces, "leg under the beam", "353.5 mm"), "2");
    // Spacers of 3/4 in; two lags up each of the studs.
    let screws = rows_of("wall_loft.toml", "Hardware");
    let studs = screws.iter().find(|r| r[0].ends_with("rail to studs")).expect("a row");
    assert!(studs[3].contains("spacer at each stud, thick 3⁄4 in"), "{studs:?}");
}

/// Every part that is there is drawn in the plan and in the section, and said for those who cannot see it.
#[test]
fn the_drawings_have_every_part() {
    let said = |name: &str| {
        let page = Html::parse_document(&PAGES[name]);
        page.select(&select("svg desc")).take(2).map(text).collect::<Vec<_>>()
    };
    let [plan, across] = said("warden_bunk.toml").try_into().expect("two drawings");
    assert!(plan.contains("A guard stands on these edges: left, right, head, foot. A ladder stands at the right."));
    assert!(across.contains("The guard's top is 13 in above the slats and 8 in above the mattress."), "{across}");
    let [plan, across] = said("hut_double.toml").try_into().expect("two drawings");
    assert!(plan.contains("A centre beam lies under the slats, on its ends and 2 between them."), "{plan}");
    assert!(across.contains("A centre beam stands 750 mm from the left rail."), "{across}");
}

/// A cut list and screws worked out by hand from the demo's own numbers.
#[test]
fn the_schedule_is_what_the_brief_says() {
    let rows = |caption: &str| rows_of("child.toml", caption);
    let pieces = rows("Cut list");
    // 60 in less one slat of 3 1/2 in, over 5 1/4 in a pitch: eleven steps, twelve slats, rail to rail.
    assert_eq!(pieces[0][..2], ["slat", "12"]);
    assert!(pieces[0][3].starts_with("30 in (762 mm)"), "{:?}", pieces[0]);
    assert_eq!(pieces[1][..2], ["cleat", "2"]);
    assert!(pieces[1][3].starts_with("60 in (1524 mm)"));
    assert_eq!(pieces[2][..2], ["rail", "2"]);
    let screws = rows("Hardware");
    // From 2 in to 58 in at 4 in: fifteen on each side. Three screws at each of four rail ends.
    assert_eq!(screws[0][..3], ["cleat to rail", "#10 x 2 1⁄2 in", "30"]);
    assert_eq!(screws[1][2], "12");
    // NDS 2018 12.1.5, G at most 0.6: 7/8 of 0.190 in and of 0.152 in are 0.166 in and 0.133 in; the next
    // smaller sixty-fourths are 10 and 8.
    assert!(screws[0][4].contains("5⁄32 in") && screws[0][4].contains("1⁄8 in"), "{}", screws[0][4]);
}

/// Relative luminance of a colour `#rrggbb` or `#rgb` (WCAG 2.2, definition; from memory).
fn luminance(colour: &str) -> f64 {
    let digits: Vec<u32> = colour.trim_start_matches('#').chars().map(|c| c.to_digit(16).expect("a digit")).collect();
    let parts: Vec<f64> = match digits.len() {
        3 => digits.iter().map(|d| f64::from(17 * d) / 255.0).collect(),
        _ => digits.chunks(2).map(|d| f64::from(16 * d[0] + d[1]) / 255.0).collect(),
    };
    let linear = |c: f64| if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) };
    0.2126 * linear(parts[0]) + 0.7152 * linear(parts[1]) + 0.0722 * linear(parts[2])
}

/// WCAG 2.2, 1.4.3 asks 4.5 to 1 of text and 1.4.11 asks 3 to 1 of graphics, in every scheme of colours.
#[test]
fn text_and_hatching_stand_out() {
    let page = Html::parse_document(&written(&demo("child.toml"), "html"));
    let style: String = page.select(&select("style")).map(text).collect();
    let mut light = std::collections::BTreeMap::new();
    let mut schemes = 0;
    for block in style.split(":root {").skip(1) {
        let (block, _) = block.split_once('}').expect("an end");
        // The other schemes stand on the first, each for itself.
        let mut colours = light.clone();
        for (name, value) in block.split(';').filter_map(|d| d.trim().strip_prefix("--")?.split_once(": ")) {
            colours.insert(name.to_owned(), value.trim().to_owned());
        }
        if light.is_empty() {
            light = colours.clone();
        }
        let contrast = |a: &str, b: &str| {
            let (a, b) = (luminance(&colours[a]), luminance(&colours[b]));
            (a.max(b) + 0.05) / (a.min(b) + 0.05)
        };
        let text = [("ink", "paper"), ("soft", "paper"), ("ink", "shade"), ("soft", "shade")];
        for (a, b) in text.into_iter().chain([("fail", "paper"), ("fail", "shade"), ("pass", "shade")]) {
            assert!(contrast(a, b) >= 4.5, "{a} on {b}: {}", contrast(a, b));
        }
        for (a, b) in [("hatch", "b2"), ("hatch", "b3"), ("over", "b4"), ("ink", "b1"), ("mark", "paper")] {
            assert!(contrast(a, b) >= 3.0, "{a} on {b}: {}", contrast(a, b));
        }
        schemes += 1;
    }
    assert_eq!(schemes, 3, "light, dark, print");
}
