//! The published span tables of `tests/data/rules/span_tables.toml` as cases: spans to the inch, of joists
//! 1-1/2 in thick under uniform load, with the repetitive member factor, deflection under live load only.

use std::collections::BTreeMap;

use serde::Deserialize;
use slatwright::source::Seen;

use crate::case::{Across, Case};

#[derive(Deserialize)]
struct File {
    table: Vec<Table>,
    deck: Vec<Deck>,
    lumber: Vec<Lumber>,
}

#[derive(Deserialize)]
struct Table {
    title: String,
    code: String,
    edition: String,
    seen: String,
    live: f64,
    dead: f64,
    limit: f64,
    duration: String,
    widths: Vec<u32>,
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    spacing: f64,
    species: String,
    grade: String,
    spans: Vec<String>,
}

#[derive(Deserialize)]
struct Deck {
    code: String,
    edition: String,
    seen: String,
    species: Vec<String>,
    incised: bool,
    fitted: Option<Fitted>,
    rows: Vec<DeckRow>,
}

#[derive(Deserialize)]
#[allow(non_snake_case)]
struct Fitted {
    Fb: f64,
    E: f64,
}

#[derive(Deserialize)]
struct DeckRow {
    width: u32,
    spans: Vec<String>,
}

/// Reference values that the tables do not print: NDS supplement, from memory; the spans confirm them.
#[derive(Deserialize)]
#[allow(non_snake_case)]
pub(crate) struct Lumber {
    pub(crate) species: String,
    pub(crate) grade: String,
    /// Southern pine has values for each width.
    pub(crate) width: Option<u32>,
    pub(crate) Fb: f64,
    pub(crate) E: f64,
}

fn file() -> File {
    toml::from_str(include_str!("../data/rules/span_tables.toml")).expect("span_tables.toml")
}

/// The values behind the tables.
pub(crate) fn lumber() -> Vec<Lumber> {
    file().lumber
}

/// The rules a span goes through, beside those a table adds.
const FUNCTIONS: [&str; 6] = [
    "wood::Wood::bending",
    "wood::Wood::modulus",
    "size::size_factor",
    "factors::repetitive_member",
    "section::Section::section_modulus",
    "section::Section::second_moment",
];

/// Every table as a case.
pub(crate) fn cases() -> Vec<Case> {
    let file = file();
    file.table.iter().map(joists).chain(file.deck.iter().map(deck)).collect()
}

fn joists(t: &Table) -> Case {
    let given = [
        ("live", format!("{} psf", t.live)),
        ("dead", format!("{} psf", t.dead)),
        ("L/", t.limit.to_string()),
        ("duration", t.duration.clone()),
        // The code caps its spans at 26 ft.
        ("cap", "312 in".to_owned()),
    ];
    let rows = t.rows.iter().map(|r| {
        let own = [r.species.clone(), r.grade.clone(), r.spacing.to_string()];
        own.into_iter().chain(r.spans.iter().cloned()).collect()
    });
    case(
        &t.title,
        (&t.code, &t.edition, &t.seen),
        if t.duration == "ten years" { &[] } else { &["factors::load_duration"] },
        &given,
        &["species", "grade", "spacing in"],
        ("size", t.widths.iter().map(|w| format!("2x{w}")).collect()),
        rows.collect(),
    )
}

fn deck(d: &Deck) -> Case {
    let mut given = vec![
        ("live", "40 psf".to_owned()),
        ("dead", "10 psf".to_owned()),
        ("L/", "360".to_owned()),
        ("wet", "yes".to_owned()),
        ("grade", "No.2".to_owned()),
        ("cap", "216 in".to_owned()),
        ("incised", if d.incised { "yes" } else { "no" }.to_owned()),
    ];
    // Values fitted to the rows themselves show that they agree with each other, no more.
    let seen = if d.fitted.is_some() { "judgement: Fb and E were fitted to these rows" } else { &d.seen };
    match &d.fitted {
        Some(f) => given.extend([("Fb", format!("{} psi", f.Fb)), ("E", format!("{} psi", f.E))]),
        None => given.push(("species", d.species.join(", "))),
    }
    let what = d.species.first().map_or("fitted", String::as_str);
    case(
        &format!("deck joists No.2, {what}"),
        (&d.code, &d.edition, seen),
        if d.incised { &["factors::wet_service", "factors::incising"] } else { &["factors::wet_service"] },
        &given,
        &["size"],
        ("spacing in", ["12", "16", "24"].map(str::to_owned).to_vec()),
        d.rows.iter().map(|r| [vec![format!("2x{}", r.width)], r.spans.clone()].concat()).collect(),
    )
}

fn case(
    title: &str,
    (code, edition, seen): (&str, &str, &str),
    more: &[&str],
    given: &[(&str, String)],
    columns: &[&str],
    (symbol, values): (&str, Vec<String>),
    rows: Vec<Vec<String>>,
) -> Case {
    let (how, note) = seen.split_once(": ").expect("how it was seen, and where");
    let mut given: BTreeMap<String, String> = given.iter().map(|(k, v)| ((*k).to_owned(), v.clone())).collect();
    given.insert("repetitive".to_owned(), "yes".to_owned());
    let functions = FUNCTIONS.iter().chain(more).map(|f| format!("allowable_stress::{f}")).collect();
    Case {
        id: title.replace([',', '.'], "").replace(' ', "-").to_lowercase(),
        functions,
        ask: Some("joist span".to_owned()),
        clause: "span of a joist".to_owned(),
        source: code.to_owned(),
        edition: edition.to_owned(),
        seen: match how {
            "read" => Seen::Read,
            "secondary" => Seen::Secondary,
            _ => Seen::Judgement,
        },
        note: format!("{note}; reference values from memory"),
        given,
        columns: columns.iter().map(|c| (*c).to_owned()).collect(),
        rows,
        across: Some(Across { symbol: symbol.to_owned(), values, answer: "ft-in".to_owned() }),
        ..Case::default()
    }
}
