//! `slatwright span`

use std::path::PathBuf;

use clap::ValueEnum;

use super::ask::{Count, How, Opened, area_load, length, mass, part_of_span};
use super::{FAILS, PASSES, Streams, file};
use crate::choose::{Design, PlainError, SlatStock, Use, plain_table, slat_table, widest};
use crate::platform::{Platform, WoodChoice, child_below};
use crate::quantity::unit::{inch, kilogram, pound, psf};
use crate::quantity::{self, AreaLoad, Length, Mass, UnitSystem};
use crate::report::chart::Chart;
use crate::report::joist::{self, DURATIONS, Joists};
use crate::report::slats;
use crate::report::widest as report;
use crate::rules::allowable_stress::factors::{Conditions, Duration, Temperature};

/// What is typed after `span`.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status: 0 the platform is narrow enough, or the stock has a span; 1 the platform is \
                        too wide; 2 it could not be computed.")]
pub(super) struct SpanArguments {
    /// The brief: how wide may this platform be? Leave it out and name --wood and --size for plain stock
    brief: Option<PathBuf>,
    /// Plain stock of this species and grade, or with a brief its slats; may be given several times
    #[arg(long, value_name = "WOOD")]
    wood: Vec<String>,
    /// Plain stock of this size, such as 2x8, or with a brief its slats, also by thickness; may be given several times
    #[arg(long, value_name = "SIZE")]
    size: Vec<String>,
    /// With a brief and --table: what every sleeper weighs; may be given several times
    #[arg(long, requires = "brief", value_parser = mass, value_name = "WEIGHT")]
    sleeper: Vec<Mass>,
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
    /// A whole table: without --size 2x4 to 2x12, without --spacing 12, 16, 19.2 and 24 in; with a brief the
    /// longest span of other slats under sleepers of other weights
    #[arg(long)]
    table: bool,
    /// Draw the table as a chart into this file, which ends in .svg
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// Replace the chart's file if it exists
    #[arg(long, requires = "chart")]
    force: bool,
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
        let schema = if a.table { slats::schema() } else { report::schema() };
        return Ok(streams.schema(&schema));
    }
    chart_is_free(a, streams)?;
    let other = !a.wood.is_empty() || !a.size.is_empty() || !a.sleeper.is_empty();
    if other && !a.table && a.chart.is_none() {
        return Err(streams.fail("--wood, --size and --sleeper with a brief ask for a table of slats: add --table"));
    }
    let opened = a.how.open(&a.brief, streams)?;
    if a.table || a.chart.is_some() {
        return table_of_slats(a, &opened, streams);
    }
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

/// Says what is wrong with the chart's file before anything is computed.
fn chart_is_free(a: &SpanArguments, streams: &mut Streams<'_>) -> Result<(), u8> {
    let Some(path) = &a.chart else { return Ok(()) };
    if path.extension().and_then(|e| e.to_str()).is_none_or(|e| !e.eq_ignore_ascii_case("svg")) {
        return Err(streams.fail(&format!("{}: a chart's file ends in .svg", path.display())));
    }
    file::free(path, a.force, streams)
}

fn draw(a: &SpanArguments, chart: &Chart, streams: &mut Streams<'_>) -> Result<(), u8> {
    let Some(path) = &a.chart else { return Ok(()) };
    let drawn = chart.svg().map_err(|e| streams.fail(&format!("the chart could not be drawn: {e}")))?;
    file::write(path, drawn.as_bytes(), a.force, streams)
}

/// The brief's slats as drawn, and others under sleepers of other weights.
fn table_of_slats(a: &SpanArguments, opened: &Opened, streams: &mut Streams<'_>) -> Result<u8, u8> {
    let p = &opened.platform;
    let count = Count::new();
    let tick = || count.one();
    let design = Design::new(&opened.brief, &opened.tables).counted(&tick);
    let found = slat_table(&design, &stocks(a, p), &weights(a, p));
    drop(count);
    let Ok(found) = found else { return Err(streams.fail("the brief cannot be built")) };
    draw(a, &slats::chart(p, &found), streams)?;
    let out = match a.format {
        TableFormat::Text => slats::text(p, &found),
        TableFormat::Csv => slats::csv(p, &found),
        TableFormat::Json => slats::json(p, &found),
    };
    Ok(streams.print(&out, PASSES))
}

/// The slats as drawn, then every wood in every size; without sizes those that such wood is sold in.
fn stocks(a: &SpanArguments, p: &Platform) -> Vec<SlatStock> {
    let usual: &[&str] = match p.slats.stick.wood {
        WoodChoice::Graded { .. } => &["2x3", "2x4", "2x6"],
        WoodChoice::Ungraded { .. } => &["1x4", "5/4x4", "2x4"],
        WoodChoice::Class { .. } => &["28 mm", "35 mm", "45 mm", "60 mm"],
    };
    let sizes: Vec<&str> = match a.size.is_empty() {
        true => usual.to_vec(),
        false => a.size.iter().map(String::as_str).collect(),
    };
    let woods: Vec<Option<String>> = match a.wood.is_empty() {
        true => vec![None],
        false => a.wood.iter().cloned().map(Some).collect(),
    };
    let stock = |wood: &Option<String>, size: &str| match quantity::length(size) {
        Ok(thickness) => SlatStock { thickness: Some(thickness), size: None, wood: wood.clone() },
        Err(_) => SlatStock { size: Some(size.to_owned()), thickness: None, wood: wood.clone() },
    };
    let others = woods.iter().flat_map(|w| sizes.iter().map(move |s| stock(w, s)));
    [SlatStock::default()].into_iter().chain(others).collect()
}

/// The weights asked for, lightest first. A chart has the brief's own beside them, and both sides of the weight
/// from which nobody jumps.
fn weights(a: &SpanArguments, p: &Platform) -> Vec<Mass> {
    let (one, usual): (fn(f64) -> Mass, [f64; 6]) = match p.units {
        UnitSystem::Us => (pound, [50.0, 100.0, 150.0, 200.0, 250.0, 300.0]),
        UnitSystem::Metric => (kilogram, [25.0, 50.0, 75.0, 100.0, 125.0, 150.0]),
    };
    let mut all = if a.sleeper.is_empty() { usual.map(one).to_vec() } else { a.sleeper.clone() };
    if a.chart.is_some() && a.sleeper.is_empty() {
        all.extend(p.sleepers.iter().map(|s| s.mass).reduce(Mass::max));
        let below = (child_below().value / one(1.0).value - 1e-9).floor();
        all.extend([below, below + 1.0].map(one));
    }
    all.sort_by(|x, y| x.value.total_cmp(&y.value));
    all.dedup_by(|x, y| (x.value - y.value).abs() < 1e-9);
    all
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
    if !a.table && a.chart.is_none() && (a.size.is_empty() || a.spacing.is_empty()) {
        let what = "name a --size and a --spacing, or add --table for the usual ones";
        return Err(streams.fail(what));
    }
    chart_is_free(a, streams)?;
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
    draw(a, &joist::chart(&joists), streams)?;
    let out = match a.format {
        TableFormat::Text => joist::text(&joists),
        TableFormat::Csv => joist::csv(&joists),
        TableFormat::Json => joist::json(&joists),
    };
    Ok(streams.print(&out, PASSES))
}
