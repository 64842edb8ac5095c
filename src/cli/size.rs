//! `slatwright size`

use std::path::PathBuf;

use clap::ValueEnum;

use super::ask::{Count, How, Opened, length};
use super::{FAILS, NOT_COMPUTED, PASSES, Streams, file, input};
use crate::brief::{LayWord, Rack, Typed, WoodKeys};
use crate::choose::{
    Allowance, Choice, Design, Made, Part, Purchase, Question, Sizing, Supply, purchase, size, thinnest, usual_lengths,
    usual_pitches, woods_of,
};
use crate::quantity::Length;
use crate::quantity::unit::inch;
use crate::report::{sizing, thinnest as chart};

/// Most choices tried at once. No source: a bound on the work.
const MOST_CHOICES: usize = 1_000_000;

/// What is typed after `size`.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status: 0 something passes and so does the brief as drawn; 1 something passes, but not \
                        what is drawn; 2 nothing passes, or it could not be computed.")]
pub(super) struct SizeArguments {
    /// The brief, a TOML file; - reads standard input
    #[arg(required_unless_present = "schema")]
    brief: Option<PathBuf>,
    /// What to choose: slats, rails, or the screws of the cleats
    #[arg(long, value_enum, default_value_t = Member::Slat)]
    member: Member,
    /// Only what is in this rack, a TOML file of sticks and screws
    #[arg(long, value_name = "FILE", conflicts_with_all = ["wood", "thickness", "width"])]
    stock: Option<PathBuf>,
    /// Another wood to try beside those of the brief; may be given several times
    #[arg(long, value_name = "WOOD")]
    wood: Vec<String>,
    /// A thickness as planed, instead of stock sizes; may be given several times
    #[arg(long, value_parser = length, value_name = "LENGTH")]
    thickness: Vec<Length>,
    /// A width as ripped, instead of stock sizes; may be given several times
    #[arg(long, value_parser = length, value_name = "LENGTH")]
    width: Vec<Length>,
    /// Largest gap between slats: the brief's unless given; may be given several times
    #[arg(long, value_parser = length, value_name = "LENGTH")]
    gap: Vec<Length>,
    /// How slats lie: as in the brief unless given
    #[arg(long, value_enum)]
    lay: Option<Lay>,
    /// With or without a centre beam: as in the brief unless given. Without one in the brief it is like the rails
    #[arg(long, value_enum)]
    centre_beam: Option<Beam>,
    /// Largest distance between cleat screws; may be given several times
    #[arg(long, value_parser = length, value_name = "LENGTH")]
    pitch: Vec<Length>,
    /// How many choices that pass are shown, and how many that do not
    #[arg(long, default_value_t = 8, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=10_000))]
    limit: u32,
    /// Say what to buy for the first choice
    #[arg(long)]
    count: bool,
    /// A length of stock that can be bought; may be given several times
    #[arg(long, value_parser = length, value_name = "LENGTH", requires = "count")]
    length: Vec<Length>,
    /// Draw the thinnest slats against the sleepers' weight, a line a wood
    #[arg(long, value_name = "FILE.svg")]
    chart: Option<PathBuf>,
    /// Replace the chart's file if it exists
    #[arg(long, requires = "chart")]
    force: bool,
    /// How to print the answer
    #[arg(long, value_enum, default_value_t = SizeFormat::Text)]
    format: SizeFormat,
    #[command(flatten)]
    how: How,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum SizeFormat {
    Text,
    Csv,
    Json,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Member {
    Slat,
    Rail,
    Cleat,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Lay {
    Flat,
    Edge,
    Both,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Beam {
    Yes,
    No,
    Both,
}

impl From<Member> for Part {
    fn from(m: Member) -> Part {
        match m {
            Member::Slat => Part::Slat,
            Member::Rail => Part::Rail,
            Member::Cleat => Part::Cleat,
        }
    }
}

pub(super) fn run(a: &SizeArguments, streams: &mut Streams<'_>) -> u8 {
    if a.how.schema {
        return streams.schema(&sizing::schema());
    }
    match sized(a, streams) {
        Ok(status) | Err(status) => status,
    }
}

fn sized(a: &SizeArguments, streams: &mut Streams<'_>) -> Result<u8, u8> {
    contradictions(a).map_err(|m| streams.fail(&m))?;
    let opened = a.how.open(&a.brief, streams)?;
    let (question, notes) = question(a, &opened, streams)?;
    let count = Count::new();
    let tick = || count.one();
    let found = size(&Design::new(&opened.brief, &opened.tables).counted(&tick), &question);
    let Ok(found) = found else { return Err(streams.fail("the brief cannot be checked")) };
    if let Some(path) = &a.chart {
        let drawn = drawn(&found, &question, &opened, &tick).map_err(|m| streams.fail(&m))?;
        file::replace(path, drawn.as_bytes(), a.force)
            .map_err(|e| streams.fail(&format!("{} could not be written: {e}", path.display())))?;
    }
    drop(count);
    let bought = if a.count { Some(to_buy(a, &found, &opened).map_err(|m| streams.fail(&m))?) } else { None };
    let answer = sizing::Answer {
        platform: &opened.platform,
        sizing: &found,
        purchase: bought.as_ref().and_then(Option::as_ref),
        notes: &notes,
    };
    let out = match a.format {
        SizeFormat::Text => sizing::text(&answer),
        SizeFormat::Json => sizing::json(&answer),
        SizeFormat::Csv => sizing::csv(&answer),
    };
    let status = match (found.pass, answer.drawn_passes()) {
        (0, _) => NOT_COMPUTED,
        (_, true) => PASSES,
        (_, false) => FAILS,
    };
    let status = streams.print(&out, status);
    if found.pass == 0 {
        let whose = match (&a.stock, a.member) {
            (Some(_), Member::Cleat) => "no screw on the shelf",
            (Some(_), _) => "no stock in the rack",
            (None, Member::Cleat) => "none of these screws",
            (None, _) => "none of this stock",
        };
        return Err(streams.fail(&sizing::nothing(&answer, whose)));
    }
    Ok(status)
}

/// What cannot be asked for together.
fn contradictions(a: &SizeArguments) -> Result<(), String> {
    let idle = |given: bool, option: &str, member: &str| {
        if given { Err(format!("{option} is for --member {member}; leave one of them out")) } else { Ok(()) }
    };
    if a.member != Member::Slat {
        idle(!a.gap.is_empty(), "--gap", "slat")?;
        idle(a.lay.is_some(), "--lay", "slat")?;
        idle(a.centre_beam.is_some(), "--centre-beam", "slat")?;
        idle(a.chart.is_some(), "--chart", "slat")?;
    }
    if a.member == Member::Cleat {
        idle(!a.wood.is_empty(), "--wood", "slat or rail")?;
        idle(!a.thickness.is_empty(), "--thickness", "slat or rail")?;
        idle(!a.width.is_empty(), "--width", "slat or rail")?;
        idle(a.count, "--count", "slat or rail")?;
    } else {
        idle(!a.pitch.is_empty(), "--pitch", "cleat")?;
    }
    let Some(path) = &a.chart else { return Ok(()) };
    if path.extension().and_then(|e| e.to_str()).is_none_or(|e| !e.eq_ignore_ascii_case("svg")) {
        return Err(format!("{}: a chart's file ends in .svg", path.display()));
    }
    if path.exists() && !a.force {
        return Err(format!("{} exists: name another file, or add --force", path.display()));
    }
    Ok(())
}

/// What is tried, and what a reader must know of how it was put together.
fn question(a: &SizeArguments, opened: &Opened, streams: &mut Streams<'_>) -> Result<(Question, Vec<String>), u8> {
    let (p, brief, part) = (&opened.platform, &opened.brief, Part::from(a.member));
    let supply = match &a.stock {
        Some(path) => {
            let source = input::read(path, streams)?;
            Supply::of_rack(&Rack::read(&source.text), brief, &opened.tables)
                .map_err(|m| input::explain(&m, &source, streams))?
        }
        None => {
            let mut woods = woods_of(brief, p, part);
            woods.extend(a.wood.iter().map(|w| WoodKeys::Named(Typed { value: w.clone(), span: 0..0 })));
            let supply = Supply::of_tables(part, p, &woods, [&a.thickness, &a.width], brief, &opened.tables);
            unknown_woods(a, opened).map_err(|m| streams.fail(&m))?;
            supply
        }
    };
    let empty = match part {
        Part::Cleat if supply.screws.is_empty() => {
            Some("no screws are on the shelf: write [[screw]] with screw = \"#10 x 3 in\"")
        }
        Part::Slat | Part::Rail if supply.sticks.is_empty() && a.stock.is_some() => {
            Some("no sticks are in the rack: write [[stick]] with wood and size")
        }
        Part::Slat | Part::Rail if supply.sticks.is_empty() => {
            Some("no stock is sold in these woods and sizes; name a --wood, or a --thickness and a --width")
        }
        _ => None,
    };
    if let Some(message) = empty {
        return Err(streams.fail(message));
    }
    let gap = brief.slats.as_ref().and_then(|s| s.gap.as_ref()).map_or(p.slats.gap, |g| g.value);
    let beam = p.centre_beam.is_some();
    let question = Question {
        part,
        supply,
        lays: match a.lay {
            None => vec![p.slats.lay],
            Some(Lay::Flat) => vec![LayWord::Flat],
            Some(Lay::Edge) => vec![LayWord::Edge],
            Some(Lay::Both) => vec![LayWord::Flat, LayWord::Edge],
        },
        gaps: if a.gap.is_empty() { vec![gap] } else { a.gap.clone() },
        beams: match a.centre_beam {
            None => vec![beam],
            Some(Beam::Yes) => vec![true],
            Some(Beam::No) => vec![false],
            Some(Beam::Both) => vec![false, true],
        },
        pitches: if a.pitch.is_empty() { usual_pitches(p.units) } else { a.pitch.clone() },
        shown: a.limit as usize,
    };
    if question.choices() > MOST_CHOICES {
        let message = format!("{} choices are more than can be tried: {MOST_CHOICES} at most", question.choices());
        return Err(streams.fail(&message));
    }
    let notes = if question.beams.contains(&true) && !beam {
        vec![
            "The centre beam is taken to be of the rails' wood and size, held at its ends as they are (or resting \
              1-1/2 in where they hang on a wall), in the middle, without legs."
                .to_owned(),
        ]
    } else {
        Vec::new()
    };
    Ok((question, notes))
}

/// A wood on the command line that no table has.
fn unknown_woods(a: &SizeArguments, opened: &Opened) -> Result<(), String> {
    let part = Part::from(a.member);
    for name in &a.wood {
        let wood = [WoodKeys::Named(Typed { value: name.clone(), span: 0..0 })];
        let one = Supply::of_tables(part, &opened.platform, &wood, [&[], &[]], &opened.brief, &opened.tables);
        if one.sticks.is_empty() {
            let why = one.left_out.first().cloned().unwrap_or_else(|| "no stock of it is sold".into());
            return Err(format!("--wood \"{name}\": {why}"));
        }
    }
    Ok(())
}

/// What to buy for the first choice; nothing when none passes.
fn to_buy(a: &SizeArguments, found: &Sizing, opened: &Opened) -> Result<Option<Purchase>, String> {
    let Some(Choice { made: Made::Sticks { pieces, lengths, .. }, .. }) = found.passing.first() else {
        return Ok(None);
    };
    let units = opened.platform.units;
    let sold = match (a.length.is_empty(), lengths.is_empty()) {
        (false, _) => a.length.clone(),
        (true, false) => lengths.clone(),
        (true, true) => usual_lengths(units),
    };
    if sold.iter().any(|l| *l > inch(1200.0)) {
        return Err("no stick is longer than 100 ft: write --length \"16 ft\"".into());
    }
    let mut sold = sold;
    sold.sort_by(|a, b| a.value.total_cmp(&b.value));
    sold.dedup();
    match purchase(*pieces, &sold, Allowance::usual(units)) {
        Some(p) => Ok(Some(p)),
        None => Err("no length of stock holds one of these pieces: name a longer --length".into()),
    }
}

/// The chart of what was found: slats as wide and as far apart as the choice, or as drawn when none passes.
fn drawn(found: &Sizing, question: &Question, opened: &Opened, tick: &(dyn Fn() + Sync)) -> Result<String, String> {
    let chosen = found.thinnest.as_ref().filter(|c| chart::charted(c));
    let brief = chosen.map_or(&opened.brief, |c| &c.brief);
    let design = Design::new(brief, &opened.tables).counted(tick);
    let cannot = |_| "the brief cannot be checked".to_owned();
    let platform = design.platform().map_err(cannot)?;
    if platform.slats.lay == LayWord::Edge {
        return Err("the chart is of slats that lie flat: add --lay flat".into());
    }
    let lines = thinnest(&design, &question.woods(platform.units)).map_err(cannot)?;
    chart::chart(&platform, &lines, chosen).svg()
}
