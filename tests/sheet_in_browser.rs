//! The HTML sheet in a real browser, at the sizes of a phone, a laptop and a sheet of paper.
//!
//! Needs headless Chromium (Debian's package `chromium`) and, for what is printed, poppler's `pdftotext`
//! (`poppler-utils`). Where they are missing the tests say so and stop.

// A test that is skipped says so.
#![allow(clippy::print_stderr)]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

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

/// Runs the browser on a page, in a profile of its own; `None` where there is no browser.
fn chromium(arguments: &[&str], page: &Path) -> Option<Output> {
    let profile = tempfile::tempdir().expect("a folder");
    let output = Command::new("chromium")
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"])
        .args(["--disable-background-networking", "--disable-component-update", "--disable-sync"])
        .args(["--hide-scrollbars", "--enable-logging=stderr"])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .args(arguments)
        .arg(format!("file://{}", page.display()))
        .output();
    match output {
        Ok(o) => Some(o),
        Err(e) => {
            eprintln!("skipped: chromium cannot be run here ({e}); apt-get install chromium");
            None
        }
    }
}

fn sheet(name: &str, folder: &Path) -> PathBuf {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo").join(name);
    let out = folder.join("sheet.html");
    let done = Command::new(env!("CARGO_BIN_EXE_slatwright"))
        .args([Path::new("sheet"), &demo, Path::new("--force"), Path::new("--out"), &out])
        .output()
        .expect("the program runs");
    assert!(out.exists(), "{done:?}");
    out
}

/// A page that holds the sheet at three widths and writes what it measures into itself. What is for
/// print only is put in force in the third, which is as wide as Letter between its margins.
fn ruler(page: &str) -> String {
    let quoted = |html: &str| html.replace('&', "&amp;").replace('"', "&quot;");
    let printed = page.replace("@media print", "@media all").replace("@media (max-width: 40rem)", "@media not all");
    assert_ne!(printed, page);
    let frames = [("phone", 360, page), ("laptop", 1280, page), ("paper", 687, &printed)];
    let frames: String = frames
        .iter()
        .map(|(id, wide, html)| {
            format!(
                "<iframe id={id} style=\"width:{wide}px;height:900px;border:0\" srcdoc=\"{}\"></iframe>",
                quoted(html)
            )
        })
        .collect();
    format!(
        "<!DOCTYPE html><meta charset=utf-8><body style=\"width:2400px\">{frames}<pre id=out></pre><script>{MEASURE}</script>"
    )
}

const MEASURE: &str = r#"
window.addEventListener('load', () => {
  const out = {};
  for (const f of document.querySelectorAll('iframe')) {
    const d = f.contentDocument, root = d.documentElement, w = f.contentWindow;
    const wide = [], small = [], cut = [], over = [];
    for (const e of d.querySelectorAll('main *')) {
      const r = e.getBoundingClientRect();
      // On a screen a long formula scrolls within its own line.
      const scrolls = f.id !== 'paper' && e.closest('.steps span');
      if (r.width > 0 && r.right > root.clientWidth + 0.5 && !scrolls && !e.closest('thead')) wide.push(e.tagName + ' ' + (e.textContent || '').slice(0, 40));
    }
    for (const s of d.querySelectorAll('svg')) {
      const box = s.getBoundingClientRect();
      const texts = [...s.querySelectorAll('text')].map(t => [t, t.getBoundingClientRect()]);
      for (const [t, r] of texts) {
        if (r.left < box.left - 0.5 || r.right > box.right + 0.5 || r.top < box.top - 2 || r.bottom > box.bottom + 2) cut.push(s.querySelector('title').textContent + ': ' + t.textContent);
        const size = parseFloat(w.getComputedStyle(t).fontSize) * box.width / s.viewBox.baseVal.width;
        if (size < (f.id === 'laptop' ? 10 : 7.4)) small.push(t.textContent + ' ' + size);
      }
      for (let i = 0; i < texts.length; i++) for (let j = i + 1; j < texts.length; j++) {
        const a = texts[i][1], b = texts[j][1];
        const x = Math.min(a.right, b.right) - Math.max(a.left, b.left), y = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        const thick = Math.min(a.height, b.height, a.width, b.width);
        if (x > 1 && y > 1 && Math.min(x, y) > 0.45 * thick) over.push(s.querySelector('title').textContent + ': ' + texts[i][0].textContent + ' / ' + texts[j][0].textContent);
      }
    }
    for (const e of d.querySelectorAll('p, li, td, th, dd, dt, h1, h2, h3, h4, figcaption')) {
      const size = parseFloat(w.getComputedStyle(e).fontSize);
      if (size < (f.id === 'paper' ? 10.5 : 14)) small.push(e.tagName + ' ' + size);
    }
    out[f.id] = { scroll: root.scrollWidth, client: root.clientWidth, wide, cut, over, small: small.slice(0, 5) };
    if (f.id === 'laptop') {
      const canvas = d.createElement('canvas'); canvas.width = canvas.height = 48;
      const pen = canvas.getContext('2d', { willReadFrequently: true });
      pen.font = '32px ' + w.getComputedStyle(d.body).fontFamily;
      const picture = c => { pen.clearRect(0, 0, 48, 48); pen.fillText(c, 4, 38); return pen.getImageData(0, 0, 48, 48).data.join(); };
      const none = ['\u0378', '\uFFFF', '\u{1FFFE}'].map(picture);
      const letters = [...new Set(d.body.innerText)].filter(c => c.trim() && !/\p{Cf}/u.test(c));
      out.missing = letters.filter(c => none.includes(picture(c)));
      out.letters = letters.length;
    }
  }
  document.getElementById('out').textContent = JSON.stringify(out);
});
"#;

fn measured(page: &str, folder: &Path) -> Option<Value> {
    let ruled = folder.join("ruler.html");
    std::fs::write(&ruled, ruler(page)).expect("a file");
    let output = chromium(&["--window-size=2400,1000", "--virtual-time-budget=20000", "--dump-dom"], &ruled)?;
    let dom = Html::parse_document(&String::from_utf8_lossy(&output.stdout));
    let out = dom.select(&Selector::parse("pre#out").unwrap()).next_back().expect("a place for the measures");
    let text: String = out.text().collect();
    Some(
        serde_json::from_str(&text)
            .unwrap_or_else(|e| panic!("{e}: {text} {}", String::from_utf8_lossy(&output.stderr))),
    )
}

fn nothing(v: &Value, what: &str) {
    assert!(v.as_array().is_some_and(Vec::is_empty), "{what}: {v}");
}

fn fits(v: &Value, name: &str) {
    for size in ["phone", "laptop", "paper"] {
        let m = &v[size];
        assert!(m["scroll"].as_f64() <= m["client"].as_f64(), "{name}, {size}: wider than the window: {m}");
        nothing(&m["wide"], &format!("{name}, {size}: beyond the edge"));
        nothing(&m["cut"], &format!("{name}, {size}: lettering cut off"));
        nothing(&m["over"], &format!("{name}, {size}: lettering over lettering"));
        nothing(&m["small"], &format!("{name}, {size}: too small to read"));
    }
    assert!(v["letters"].as_f64() > Some(50.0));
    nothing(&v["missing"], &format!("{name}: glyphs that are in no font"));
}

#[test]
fn the_page_fits_phone_laptop_and_paper() {
    for name in DEMOS {
        let folder = tempfile::tempdir().expect("a folder");
        let page = std::fs::read_to_string(sheet(name, folder.path())).expect("a sheet");
        let Some(v) = measured(&page, folder.path()) else { return };
        fits(&v, name);
    }
}

/// The measures themselves can fail: a page spoilt on purpose is found out.
#[test]
fn the_ruler_measures() {
    let folder = tempfile::tempdir().expect("a folder");
    let page = std::fs::read_to_string(sheet("child.toml", folder.path())).expect("a sheet");
    let spoilt = page.replacen("<p>", "<p style=\"width:1500px;font-size:3px\">\u{0378}", 1);
    assert_ne!(spoilt, page);
    let Some(v) = measured(&spoilt, folder.path()) else { return };
    assert!(v["phone"]["scroll"].as_f64() > v["phone"]["client"].as_f64());
    for list in [&v["phone"]["wide"], &v["laptop"]["small"], &v["missing"]] {
        assert!(!list.as_array().unwrap().is_empty(), "{v}");
    }
}

#[test]
fn the_browser_has_nothing_to_say() {
    for name in DEMOS {
        let folder = tempfile::tempdir().expect("a folder");
        let page = sheet(name, folder.path());
        let Some(output) = chromium(&["--dump-dom", "--virtual-time-budget=2000"], &page) else { return };
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(!said.contains(":CONSOLE"), "{name}: {said}");
        assert!(String::from_utf8_lossy(&output.stdout).contains("</html>"));
    }
}

/// Printed on Letter and on A4: no heading stands alone at the foot of a page, and every page has text.
#[test]
fn no_heading_is_left_alone_at_the_foot_of_a_page() {
    for (name, paper) in
        [("two.toml", "letter"), ("deck.toml", "A4"), ("warden_bunk.toml", "letter"), ("hut_double.toml", "A4")]
    {
        let folder = tempfile::tempdir().expect("a folder");
        let path = sheet(name, folder.path());
        let page = std::fs::read_to_string(&path).expect("a sheet");
        let sized = page.replace("@page {", &format!("@page {{ size: {paper};"));
        assert_ne!(sized, page);
        std::fs::write(&path, &sized).expect("a file");
        let pdf = folder.path().join("printed.pdf");
        let to = format!("--print-to-pdf={}", pdf.display());
        if chromium(&["--no-pdf-header-footer", &to], &path).is_none() {
            return;
        }
        let Ok(output) = Command::new("pdftotext").args(["-layout", "-enc", "UTF-8"]).arg(&pdf).arg("-").output()
        else {
            eprintln!("skipped: pdftotext cannot be run here; apt-get install poppler-utils");
            return;
        };
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        let dom = Html::parse_document(&page);
        let headings: Vec<String> = dom
            .select(&Selector::parse("h2, h3, h4").unwrap())
            .map(|h| squeezed(&h.text().collect::<String>()))
            .collect();
        let pages: Vec<&str> = text.split('\u{c}').filter(|p| !p.trim().is_empty()).collect();
        assert!(pages.len() > 4, "{name}");
        for (i, p) in pages.iter().enumerate() {
            let lines: Vec<String> = p.lines().map(squeezed).filter(|l| !l.is_empty()).collect();
            // The last line is the page's number.
            let number = lines.last().expect("a line");
            assert!(number.ends_with(&format!("/{}", pages.len())), "{name}, page {}: {number}", i + 1);
            assert!(lines.len() > 1, "{name}: page {} is empty", i + 1);
            let last = &lines[lines.len() - 2];
            assert!(!headings.contains(last), "{name}: `{last}` stands alone at the foot of page {}", i + 1);
        }
        let whole = squeezed(&text);
        for h in &headings {
            assert!(whole.contains(h.as_str()), "{name}: {h}");
        }
    }
}

/// Without spaces, which layout moves about, and with fractions on one line.
fn squeezed(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}
