//! The demos' sheets, kept. One stands here whole, as Markdown; of the others a line for each part of each face, so
//! that a change shows which parts it reached. Read what changed before it is accepted
//! (`INSTA_UPDATE=always cargo test --test sheet_snapshots`).
//!
//! These are records of what the program says, not evidence that it is right; that stands in the other tests.

use sha2::{Digest, Sha256};
use slatwright::brief::Brief;
use slatwright::check::check_with_remedies;
use slatwright::choose::{Design, heaviest};
use slatwright::platform::Platform;
use slatwright::report::{Report, Sheet};
use slatwright::tables::Tables;

const DEMOS: [(&str, &str); 11] = [
    ("two", include_str!("../demo/two.toml")),
    ("child", include_str!("../demo/child.toml")),
    ("deck", include_str!("../demo/deck.toml")),
    ("deck_ec5", include_str!("../demo/deck_ec5.toml")),
    ("bunk", include_str!("../demo/bunk.toml")),
    ("hut_double", include_str!("../demo/hut_double.toml")),
    ("wall_loft", include_str!("../demo/wall_loft.toml")),
    ("warden_bunk", include_str!("../demo/warden_bunk.toml")),
    ("warden_bunk_ec5", include_str!("../demo/warden_bunk_ec5.toml")),
    ("freestanding", include_str!("../demo/freestanding.toml")),
    ("guest_both", include_str!("../demo/guest_both.toml")),
];

/// The Markdown, the HTML and the PDF of a brief.
fn faces(text: &str) -> (String, String, Vec<u8>) {
    let (brief, tables) = (Brief::read(text), Tables::embedded());
    let platform = Platform::build(&brief, tables).unwrap_or_else(|m| panic!("the demo is wrong: {m:?}"));
    let (assessment, remedies) = check_with_remedies(&platform).unwrap_or_else(|e| panic!("{e}"));
    let report = Report { platform: &platform, assessment: &assessment, remedies: &remedies };
    let rating = heaviest(&Design::new(&brief, tables)).unwrap_or_else(|m| panic!("the demo is wrong: {m:?}"));
    let sheet = Sheet::of(report, text, tables, None).unwrap_or_else(|e| panic!("{e}")).rated(rating);
    (sheet.markdown(), sheet.html(), sheet.pdf().expect("fonts"))
}

/// How long something is, and the beginning of its SHA-256.
fn sum(bytes: &[u8]) -> String {
    let sum: String = Sha256::digest(bytes).iter().take(6).map(|b| format!("{b:02x}")).collect();
    format!("{:>7} {sum}", bytes.len())
}

/// A line for each part between two headings.
fn outline(face: &str, text: &str, heading: &str, out: &mut String) {
    for (i, part) in text.split(heading).enumerate() {
        let name = if i == 0 { "the beginning" } else { part.split(['\n', '<']).next().unwrap_or_default() };
        let name = name.trim_start_matches(|c: char| " class=\"page\">".contains(c));
        out.push_str(&format!("  {face:<4} {} {name}\n", sum(part.as_bytes())));
    }
}

#[test]
fn every_face_of_every_demo() {
    let mut out = String::new();
    for (name, text) in DEMOS {
        let (markdown, html, pdf) = faces(text);
        out.push_str(&format!("{name}\n"));
        outline("md", &markdown, "\n## ", &mut out);
        outline("html", &html, "<h2", &mut out);
        out.push_str(&format!("  pdf  {}\n", sum(&pdf)));
    }
    insta::assert_snapshot!(out);
}

#[test]
fn a_childs_bed_as_markdown() {
    insta::assert_snapshot!(faces(DEMOS[1].1).0);
}
