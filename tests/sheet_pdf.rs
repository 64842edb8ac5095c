//! The PDF sheet, read back by poppler (`poppler-utils`), against the HTML sheet and the JSON report.
//! Where poppler is missing the tests say so and stop.

// A test that is skipped says so.
#![allow(clippy::print_stderr)]

use std::path::{Path, PathBuf};
use std::process::Command;

use scraper::{Html, Selector};
use serde_json::Value;

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

fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("demo").join(name)
}

fn sheet(brief: &Path, out: &Path) {
    let done = Command::new(env!("CARGO_BIN_EXE_slatwright"))
        .args([Path::new("sheet"), brief, Path::new("--out"), out])
        .output()
        .expect("the program runs");
    assert!(out.exists(), "{done:?}");
}

/// What one of poppler's tools says; `None` where there is no such tool.
fn poppler(tool: &str, arguments: &[&str], pdf: &Path, more: &[&str]) -> Option<String> {
    match Command::new(tool).args(arguments).arg(pdf).args(more).output() {
        Ok(o) => {
            let complaint = String::from_utf8_lossy(&o.stderr).into_owned();
            assert!(o.status.success() && complaint.is_empty(), "{tool}: {complaint}");
            Some(String::from_utf8_lossy(&o.stdout).into_owned())
        }
        Err(e) => {
            eprintln!("skipped: {tool} cannot be run here ({e}); apt-get install poppler-utils");
            None
        }
    }
}

/// Without spaces, which line breaks put anywhere.
fn squeezed(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace() && !c.is_control()).collect()
}

/// The text in the order it was written.
fn text(pdf: &Path) -> Option<String> {
    poppler("pdftotext", &["-raw", "-enc", "UTF-8", "-nopgbrk"], pdf, &["-"])
}

/// Every sentence, cell and caption of the HTML sheet is in the PDF, and every line of the calculation
/// that the JSON report has.
#[test]
fn it_says_what_the_page_says() {
    for name in DEMOS {
        let folder = tempfile::tempdir().expect("a folder");
        let (pdf, html) = (folder.path().join("sheet.pdf"), folder.path().join("sheet.html"));
        sheet(&demo(name), &pdf);
        sheet(&demo(name), &html);
        let Some(said) = text(&pdf) else { return };
        let count = poppler("pdfinfo", &[], &pdf, &[]).expect("as pdftotext");
        let pages: usize = field(&count, "Pages").parse().expect("a number");
        // A running title and number at the foot of each page may stand inside what goes over to the next.
        let mut whole = squeezed(&said);
        let page = Html::parse_document(&std::fs::read_to_string(&html).expect("a sheet"));
        let one = |what: &str| Selector::parse(what).expect("a selector");
        let title: String = page.select(&one("h1")).next().expect("a title").text().collect();
        for n in 1..=pages {
            whole = whole.replacen(&squeezed(&format!("{title} {n} of {pages}")), "", 1);
        }
        let mut compared = 0;
        for part in page.select(&one("h1, h2, h3, h4, p, li, dt, dd, th, td, figcaption, .fill div")) {
            if part.value().classes().any(|c| c == "kind" || c == "verdict")
                || part.select(&one("math")).next().is_some()
            {
                continue;
            }
            let wanted = squeezed(&part.text().collect::<String>());
            assert!(whole.contains(&wanted), "{name}: {wanted}");
            compared += 1;
        }
        assert!(compared > 300, "{name}: {compared}");
        // The brief as typed, to the last fraction.
        for line in std::fs::read_to_string(demo(name)).expect("the demo").lines() {
            assert!(whole.contains(&squeezed(line)), "{name}: {line}");
        }
        for lettering in page.select(&one("svg text")) {
            let wanted = squeezed(&lettering.text().collect::<String>());
            assert!(whole.contains(&wanted), "{name}: {wanted}");
        }
        let done = Command::new(env!("CARGO_BIN_EXE_slatwright"))
            .args([Path::new("check"), &demo(name), Path::new("--format"), Path::new("json"), Path::new("--steps")])
            .output()
            .expect("the program runs");
        let report: Value = serde_json::from_slice(&done.stdout).expect("a report");
        let heads: Vec<String> = page.select(&one("h3")).map(|h| h.text().collect()).collect();
        let dash = |t: &str| squeezed(t).replace('-', "");
        let dashed = whole.replace(['-', '\u{2044}'], "").replace('/', "");
        for m in report["members"].as_array().expect("members") {
            let id = m["id"].as_str().expect("a name");
            if !heads.iter().any(|h| h.starts_with(&format!("{id} ("))) {
                continue;
            }
            for c in m["checks"].as_array().expect("checks") {
                for step in c["steps"].as_array().expect("steps") {
                    let numbers = dash(step["substituted"].as_str().expect("numbers")).replace('/', "");
                    assert!(dashed.contains(&numbers), "{name}: {id}: {step}");
                }
            }
        }
    }
}

fn field<'t>(info: &'t str, name: &str) -> &'t str {
    let line = info.lines().find(|l| l.starts_with(&format!("{name}:"))).unwrap_or_else(|| panic!("{name}: {info}"));
    line.split_once(':').expect("a colon").1.trim()
}

/// Tagged, titled, on the paper of the brief's units; every font embedded, cut down, with its text.
#[test]
fn it_is_tagged_and_its_fonts_are_in_it() {
    for (name, paper) in [("two.toml", "612 x 792 pts (letter)"), ("deck.toml", "595.276 x 841.89 pts (A4)")] {
        let folder = tempfile::tempdir().expect("a folder");
        let pdf = folder.path().join("sheet.pdf");
        sheet(&demo(name), &pdf);
        let Some(info) = poppler("pdfinfo", &[], &pdf, &[]) else { return };
        assert_eq!(field(&info, "Tagged"), "yes");
        assert_eq!(field(&info, "Page size"), paper);
        assert_eq!(field(&info, "JavaScript"), "no");
        assert!(!field(&info, "Title").is_empty());
        let fonts = poppler("pdffonts", &[], &pdf, &[]).expect("as pdfinfo");
        let rows: Vec<&str> = fonts.lines().skip(2).collect();
        assert!(rows.len() >= 3, "{fonts}");
        for row in rows {
            // Embedded, a part only, with a map to Unicode.
            assert_eq!(row.split_whitespace().filter(|w| *w == "yes").count(), 3, "{row}");
        }
        // The outline leads to every part.
        let xml = poppler("pdftohtml", &["-xml", "-i", "-stdout"], &pdf, &[]).expect("as pdfinfo");
        for part in ["What was built, and for whom", "Cut and hardware schedule", "To do it again"] {
            let item = xml.lines().find(|l| l.contains("<item page=") && l.contains(part));
            assert!(item.is_some(), "{part}");
        }
        let tags = poppler("pdfinfo", &["-struct-text"], &pdf, &[]).expect("as pdfinfo");
        for tag in ["Document", "H1 ", "H2 ", "Table", "TH ", "TD ", "Figure", "LI ", "Caption"] {
            assert!(tags.lines().any(|l| format!("{} ", l.trim()).starts_with(tag)), "{tag}: {tags}");
        }
    }
}

/// What no font here has is set as a white square, and nothing of a hostile title gets out of its string.
#[test]
fn a_hostile_title_stays_text() {
    let title = "(Bett) \\) >> endobj <</S /JavaScript>> \u{202e}מיטה سرير 床 </h1>";
    let text_of = |c: &str| {
        let brief = std::fs::read_to_string(demo("child.toml")).expect("the demo");
        let (head, tail) = brief.split_once("title = \"Child's bed in ungraded poplar\"").expect("a title");
        format!("{head}title = {}{tail}", toml::Value::String(c.into()))
    };
    let folder = tempfile::tempdir().expect("a folder");
    let brief = folder.path().join("hostile.toml");
    for (i, title) in [title.to_owned(), "W".repeat(10_000)].iter().enumerate() {
        std::fs::write(&brief, text_of(title)).expect("a file");
        let pdf = folder.path().join(format!("{i}.pdf"));
        let done = Command::new(env!("CARGO_BIN_EXE_slatwright"))
            .args([Path::new("sheet"), &brief, Path::new("--out"), &pdf])
            .output()
            .expect("the program runs");
        if done.status.code() == Some(2) {
            assert!(!pdf.exists() && i == 1, "{done:?}");
            continue;
        }
        let Some(info) = poppler("pdfinfo", &[], &pdf, &[]) else { return };
        assert_eq!(field(&info, "JavaScript"), "no");
        let said = text(&pdf).expect("as pdfinfo");
        let whole = squeezed(&said);
        if i == 0 {
            assert!(whole.contains("(Bett)\\)>>endobj<</S/JavaScript>>") && whole.contains("</h1>"), "{said}");
        } else {
            assert!(whole.contains(&"W".repeat(10_000)));
        }
    }
}

/// A Hebrew title stands from right to left, its brackets and its number as they are read (Unicode Annex 9, rules
/// L2 and L4, from memory); what no font has is a square, and the sheet says what that means.
#[test]
fn a_title_from_right_to_left_stands_so() {
    let brief = std::fs::read_to_string(demo("child.toml")).expect("the demo");
    let titled = |title: &str| {
        let line = brief.lines().find(|l| l.starts_with("title")).expect("a title");
        brief.replacen(line, &format!("title = {}", toml::Value::String(title.into())), 1)
    };
    let folder = tempfile::tempdir().expect("a folder");
    let (path, pdf) = (folder.path().join("brief.toml"), folder.path().join("sheet.pdf"));
    std::fs::write(&path, titled("מיטה (לילד) 12 Larch סוף 床")).expect("a file");
    sheet(&path, &pdf);
    let Some(boxes) = poppler("pdftotext", &["-bbox", "-enc", "UTF-8"], &pdf, &["-"]) else { return };
    let at = |word: &str| {
        let line = boxes.lines().find(|l| l.contains(&format!(">{word}<"))).unwrap_or_else(|| panic!("{word}"));
        let (_, rest) = line.split_once("xMin=\"").expect("a place");
        rest.split('"').next().expect("a number").parse::<f64>().expect("a number")
    };
    // Letter by letter as on paper, from left to right.
    let places = ["□", "ףוס", "Larch", "12", "(דליל)", "הטימ"].map(at);
    assert!(places.windows(2).all(|w| w[0] < w[1]), "{places:?}");
    let said = text(&pdf).expect("as before");
    assert!(said.contains("stands for a letter that this file's fonts do not have"), "{said}");
    std::fs::write(&path, titled("Larch")).expect("a file");
    let plain = folder.path().join("plain.pdf");
    sheet(&path, &plain);
    assert!(!text(&plain).expect("as before").contains("stands for a letter"));
}

#[test]
fn the_same_brief_gives_the_same_bytes() {
    let folder = tempfile::tempdir().expect("a folder");
    let both = ["a.pdf", "b.pdf"].map(|f| {
        let out = folder.path().join(f);
        sheet(&demo("child.toml"), &out);
        std::fs::read(out).expect("a sheet")
    });
    assert!(both[0] == both[1]);
    assert!(both[0].len() < 1_000_000, "{} bytes", both[0].len());
}

/// No heading stands alone at the foot of a page, and no page is empty.
#[test]
fn a_heading_stays_with_what_follows() {
    for name in DEMOS {
        let folder = tempfile::tempdir().expect("a folder");
        let (pdf, html) = (folder.path().join("sheet.pdf"), folder.path().join("sheet.html"));
        sheet(&demo(name), &pdf);
        sheet(&demo(name), &html);
        let Some(said) = poppler("pdftotext", &["-raw", "-enc", "UTF-8"], &pdf, &["-"]) else { return };
        let page = Html::parse_document(&std::fs::read_to_string(&html).expect("a sheet"));
        let headings: Vec<String> = page
            .select(&Selector::parse("h2, h3, h4").expect("a selector"))
            .map(|h| squeezed(&h.text().collect::<String>()))
            .collect();
        let pages: Vec<&str> = said.split('\u{c}').filter(|p| !p.trim().is_empty()).collect();
        for (i, p) in pages.iter().enumerate() {
            let lines: Vec<String> = p.lines().map(squeezed).filter(|l| !l.is_empty()).collect();
            // The foot was written last: the title, and the page's number.
            assert!(lines.len() > 3, "{name}: page {} is empty", i + 1);
            let number = format!("{}of{}", i + 1, pages.len());
            assert!(lines[lines.len() - 1].ends_with(&number), "{name}: {:?}", lines.last());
            let foot = if lines[lines.len() - 1] == number { 2 } else { 1 };
            let last = &lines[lines.len() - 1 - foot];
            assert!(!headings.contains(last), "{name}: `{last}` stands alone at the foot of page {}", i + 1);
        }
    }
}
