//! Span tables of the residential code and of a deck guide, to the inch.

use super::support::*;
use serde::Deserialize;
use slatwright::quantity::unit::inch;
use slatwright::rules::allowable_stress::factors::{Conditions, Duration, Temperature};
use slatwright::rules::allowable_stress::wood::Wood;
use slatwright::tables::lumber::SupplementTable;

#[derive(Deserialize)]
struct File {
    table: Vec<Table>,
    deck: Vec<Deck>,
    lumber: Vec<Lumber>,
}

#[derive(Deserialize)]
struct Table {
    title: String,
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
    spans: [String; 3],
}

#[derive(Deserialize)]
#[allow(non_snake_case)]
struct Lumber {
    species: String,
    grade: String,
    width: Option<u32>,
    Fb: f64,
    Ft: f64,
    Fv: f64,
    Fc_perp: f64,
    Fc: f64,
    E: f64,
    Emin: f64,
    G: f64,
}

fn file() -> File {
    toml::from_str(include_str!("../data/rules/span_tables.toml")).unwrap()
}

impl File {
    fn wood(&self, species: &str, grade: &str, width: u32) -> Wood {
        let row = self
            .lumber
            .iter()
            .find(|r| r.species == species && r.grade == grade && r.width.is_none_or(|w| w == width))
            .unwrap_or_else(|| panic!("no values for {species} {grade} {width}"));
        let values = values([row.Fb, row.Ft, row.Fv, row.Fc_perp, row.Fc, row.E, row.Emin], row.G);
        let table = if row.width.is_some() { SupplementTable::SouthernPine } else { SupplementTable::DimensionLumber };
        Wood::Graded { values, table, grade: grade.into() }
    }
}

/// Dressed depth of 2x lumber (PS 20).
fn depth(width: u32) -> f64 {
    match width {
        4 => 3.5,
        6 => 5.5,
        8 => 7.25,
        10 => 9.25,
        12 => 11.25,
        _ => panic!("no 2x{width} in the tables"),
    }
}

struct Use {
    live: f64,
    dead: f64,
    limit: f64,
    spacing: f64,
    duration: Duration,
    wet: bool,
    incised: bool,
}

/// The span in inches before rounding: the lesser of bending under all load and deflection under live
/// load, both of a simple span under uniform load.
fn span(wood: &Wood, width: u32, u: &Use) -> f64 {
    let piece = on_edge((2.0, f64::from(width)), 1.5, depth(width));
    let conditions =
        Conditions { wet: u.wet, temperature: Temperature::UpTo100F, incised: u.incised, repetitive: true };
    let fb = in_psi(&wood.bending(&piece, &conditions, u.duration, None).unwrap());
    let e = in_psi(&wood.modulus(&piece, &conditions).unwrap());
    let unit = inch(1.0).value;
    let s = piece.section.section_modulus().value.value / unit.powi(3);
    let i = piece.section.second_moment().value.value / unit.powi(4);
    let line = |load: f64| load / 144.0 * u.spacing;
    let bending = (8.0 * s * fb / line(u.live + u.dead)).sqrt();
    let deflection = (384.0 * e * i / (5.0 * line(u.live) * u.limit)).cbrt();
    bending.min(deflection)
}

/// Asserts that a span, at most `cap`, is the printed one to half an inch.
///
/// Two spans of southern pine Select Structural are exact halves: 217.5 in is printed 18-2 and
/// 277.5 in is printed 23-1, so a half may go either way.
#[track_caller]
fn to_the_inch(span: f64, cap: f64, printed: &str, what: &str) {
    let (feet, inches) = printed.split_once('-').expect("feet-inches");
    let want = feet.parse::<f64>().expect("feet") * 12.0 + inches.parse::<f64>().expect("inches");
    let got = span.min(cap);
    assert!((got - want).abs() <= 0.5 * (1.0 + 1e-9), "{what}: {got} in is not {printed}");
}

/// International Residential Code 2018. The code caps its spans at 26 ft.
#[test]
fn residential_code_spans() {
    let file = file();
    let mut entries = 0;
    for table in &file.table {
        let duration = match table.duration.as_str() {
            "ten years" => Duration::TenYears,
            "two months" => Duration::TwoMonths,
            other => panic!("{other}"),
        };
        for row in &table.rows {
            assert_eq!(row.spans.len(), table.widths.len());
            for (width, want) in table.widths.iter().zip(&row.spans) {
                let u = Use {
                    live: table.live,
                    dead: table.dead,
                    limit: table.limit,
                    spacing: row.spacing,
                    duration,
                    wet: false,
                    incised: false,
                };
                let wood = file.wood(&row.species, &row.grade, *width);
                let what = format!("{}: {} {} 2x{width} at {}", table.title, row.species, row.grade, row.spacing);
                to_the_inch(span(&wood, *width, &u), 312.0, want, &what);
                entries += 1;
            }
        }
    }
    assert_eq!(entries, 64 + 24 + 48 + 60);
}

/// AWC DCA6-2012 Table 2, deck joists No.2 in wet service, incised but for southern pine, 18 ft at
/// most. The third group's values were fitted to its own rows, so it shows consistency, no more.
#[test]
fn deck_guide_spans() {
    let file = file();
    let mut entries = (0, 0);
    for deck in &file.deck {
        for row in &deck.rows {
            for (spacing, want) in [12.0, 16.0, 24.0].into_iter().zip(&row.spans) {
                let u = Use {
                    live: 40.0,
                    dead: 10.0,
                    limit: 360.0,
                    spacing,
                    duration: Duration::TenYears,
                    wet: true,
                    incised: deck.incised,
                };
                let woods: Vec<Wood> = match &deck.fitted {
                    Some(f) => vec![dimension("No.2", values([f.Fb, 1.0, 1.0, 1.0, 1.0, f.E, 1.0], 0.37))],
                    None => deck.species.iter().map(|s| file.wood(s, "No.2", row.width)).collect(),
                };
                let least = woods.iter().map(|w| span(w, row.width, &u)).fold(f64::INFINITY, f64::min);
                to_the_inch(least, 216.0, want, &format!("{:?} 2x{} at {spacing}", deck.species, row.width));
                if deck.fitted.is_some() { entries.1 += 1 } else { entries.0 += 1 }
            }
        }
    }
    assert_eq!(entries, (24, 12));
}
