//! `slatwright span`

use std::path::PathBuf;

use clap::ValueEnum;

use super::ask::{Count, How, area_load, length, part_of_span};
use super::{FAILS, PASSES, Streams};
use crate::choose::{Design, PlainError, Use, plain_table, widest};
use crate::quantity::unit::{inch, psf};
use crate::quantity::{AreaLoad, Length, UnitSystem};
use crate::report::joist::{self, DURATIONS, Joists};
use crate::report::widest as report;
use crate::rules::allowable_stress::factors::{Conditions, Duration, Temperature};

/// What is typed after `span`.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status: 0 the platform is narrow enough, or the stock has a span; 1 the platform is \
                        too wide; 2 it could not be computed.")]
pub(super) struct SpanArguments {
    /// The brief: how wide may this platform be? Leave it out and name --wood and --size for plain stock
    brief: Option<PathBuf>,
    /// Plain stock of this species and grade; may be given several times
    #[arg(long, conflicts_with = "brief", value_name = "WOOD")]
    wood: Vec<String>,
    /// Plain stock of this size, such as 2x8; may be given several times
    #[arg(long, conflicts_with = "brief", value_name = "SIZE")]
    size: Vec<String>,
    /// Centre to centre; may be given several times
    #[arg(long, conflicts_with = "brief", value_parser = length, value_name = "LENGTH")]
    spacing: Vec<Length>,
    /// Load that comes and goes: 30 psf where people sleep, 40 psf elsewhere
    #[arg(long, conflicts_with = "brief", value_parser = area_load, value_name = "LOAD")]
    live: Option<AreaLoad>,
    /// Load that stays: 10 psf unless given
    #[arg(long, conflicts_with = "brief", value_parser = area_load, value_name = "LOAD")]
    dead: Option<AreaLoad>,
    /// The most it may sag under the live load: L/360 unless given
    #[arg(long, conflicts_with = "brief", value_parser = part_of_span, value_name = "PART")]
    limit: Option<f64>,
    /// How long the live load acts in all
    #[arg(long, conflicts_with = "brief", value_enum)]
    duration: Option<Lasting>,
    /// Three or more, at most 24 in apart, joined by boards that share the load
    #[arg(long, conflicts_with = "brief")]
    repetitive: bool,
    /// Damp in use, above 19 % moisture content
    #[arg(long, conflicts_with = "brief")]
    damp: bool,
    /// Incised for treatment
    #[arg(long, conflicts_with = "brief")]
    incised: bool,
    /// The longest span to look for: 26 ft unless given
    #[arg(long, conflicts_with = "brief", value_parser = length, value_name = "LENGTH")]
    longest: Option<Length>,
    /// A whole table: without --size 2x4 to 2x12, without --spacing 12, 16, 19.2 and 24 in
    #[arg(long)]
    table: bool,
    /// How to print the answer
    #[arg(long, value_enum, default_value_t = TableFormat::Text)]
    format: TableFormat,
    #[command(flatten)]
    how: How,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum TableFormat {
    Text,
    Csv,
    Json,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Lasting {
    Permanent,
    TenYears,
    TwoMonths,
    SevenDays,
    TenMinutes,
}

impl From<Lasting> for Duration {
    fn from(l: Lasting) -> Duration {
        DURATIONS[l as usize].1
    }
}

pub(super) fn run(a: &SpanArguments, streams: &mut Streams<'_>) -> u8 {
    let answered = if a.brief.is_some() { for_brief(a, streams) } else { for_stock(a, streams) };
    match answered {
        Ok(status) | Err(status) => status,
    }
}

fn for_brief(a: &SpanArguments, streams: &mut Streams<'_>) -> Result<u8, u8> {
    if a.how.schema {
        return Ok(streams.schema(&report::schema()));
    }
    let opened = a.how.open(&a.brief, streams)?;
    let count = Count::new();
    let tick = || count.one();
    let found = widest(&Design::new(&opened.brief, &opened.tables).counted(&tick));
    drop(count);
    let Ok(found) = found else { return Err(streams.fail("the brief cannot be built")) };
    let out = match a.format {
        TableFormat::Text => report::text(&opened.platform, &found),
        TableFormat::Json => report::json(&opened.platform, &found),
        TableFormat::Csv => return Err(streams.fail("--format csv is for tables: add --table")),
    };
    Ok(streams.print(&out, if report::within(&found) { PASSES } else { FAILS }))
}

fn for_stock(a: &SpanArguments, streams: &mut Streams<'_>) -> Result<u8, u8> {
    if a.how.schema {
        return Ok(streams.schema(&joist::schema()));
    }
    if a.wood.is_empty() {
        let what = "name a brief, or plain stock: span --wood \"spruce-pine-fir no2\" --size 2x8 --spacing \"16 in\"";
        return Err(streams.fail(what));
    }
    let names = |given: &[String], usual: &[&str]| -> Vec<String> {
        if given.is_empty() { usual.iter().map(|s| (*s).to_owned()).collect() } else { given.to_vec() }
    };
    if !a.table && (a.size.is_empty() || a.spacing.is_empty()) {
        let what = "name a --size and a --spacing, or add --table for the usual ones";
        return Err(streams.fail(what));
    }
    let sizes = names(&a.size, &["2x4", "2x6", "2x8", "2x10", "2x12"]);
    let spacings = if a.spacing.is_empty() { [12.0, 16.0, 19.2, 24.0].map(inch).to_vec() } else { a.spacing.clone() };
    if a.repetitive && spacings.iter().any(|s| *s > inch(24.0 + 1e-9)) {
        return Err(streams.fail("--repetitive is for members at most 24 in apart; leave it out"));
    }
    let used = Use {
        spacing: inch(16.0),
        live: a.live.unwrap_or(psf(30.0)),
        dead: a.dead.unwrap_or(psf(10.0)),
        limit: a.limit.unwrap_or(360.0),
        duration: a.duration.map_or(Duration::TenYears, Duration::from),
        conditions: Conditions {
            wet: a.damp,
            temperature: Temperature::UpTo100F,
            incised: a.incised,
            repetitive: a.repetitive,
        },
        cap: a.longest.unwrap_or(inch(312.0)),
    };
    let units: UnitSystem = a.how.units.map_or(UnitSystem::Us, UnitSystem::from);
    let tables = a.how.tables(streams)?;
    let cells = plain_table(&a.wood, &spacings, &sizes, &used, &tables, units);
    // A name no table has is a slip of the pen; a size a grade does not come in is a gap in the table.
    let slip = |e: &PlainError| match e {
        PlainError::NotFound(n) => !matches!(n.missing, crate::tables::Missing::Size { .. }),
        PlainError::NoNominal(_) => true,
        PlainError::Rule(_) | PlainError::NoSpan => false,
    };
    let mut wrong = cells.iter().filter_map(|c| c.longest.as_ref().err());
    let alone = cells.iter().all(|c| c.longest.is_err());
    if let Some(e) = wrong.find(|e| alone || slip(e)) {
        return Err(streams.fail(&e.describe(units)));
    }
    let joists = Joists { used: &used, cells: &cells, units };
    let out = match a.format {
        TableFormat::Text => joist::text(&joists),
        TableFormat::Csv => joist::csv(&joists),
        TableFormat::Json => joist::json(&joists),
    };
    Ok(streams.print(&out, PASSES))
}
