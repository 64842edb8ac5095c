//! `slatwright proof`

use std::path::PathBuf;

use super::ask::How;
use super::input::{self, Source};
use super::{FAILS, Format, PASSES, Streams};
use crate::brief::Boards;
use crate::check::{self, batch, board_stiffness};
use crate::platform::Board;
use crate::report::boards::{self, Hung};
use crate::report::proof;

/// What is typed after `proof`.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status: 0 the platform passes its check and every step reaches what its people do, 1 not \
                        so, 2 it could not be computed."
)]
pub(super) struct ProofArguments {
    /// The brief, a TOML file; - reads standard input
    #[arg(required_unless_present_any = ["schema", "measured"])]
    brief: Option<PathBuf>,
    /// How to print the answer
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    #[command(flatten)]
    how: How,
    /// Work out a board's stiffness from a weight and a dip, by the options below or from a TOML file with many boards
    #[arg(long, value_name = "FILE", num_args = 0..=1, conflicts_with = "brief")]
    measured: Option<Option<PathBuf>>,
    #[command(flatten)]
    board: BoardArguments,
}

/// One board on two trestles. What each may say is checked as in a file.
#[derive(Debug, clap::Args)]
#[command(next_help_heading = "One board, with --measured")]
struct BoardArguments {
    /// From trestle to trestle, such as "57 in"
    #[arg(long, requires = "measured")]
    span: Option<String>,
    /// The weight hung on
    #[arg(long, requires = "measured")]
    weight: Option<String>,
    /// How far the middle dips when it is hung on
    #[arg(long, requires = "measured")]
    dip: Option<String>,
    /// Where it hangs: middle, or "third points" with half of it at each
    #[arg(long, requires = "measured")]
    load: Option<String>,
    /// Stock size, such as 2x4
    #[arg(long, requires = "measured")]
    size: Option<String>,
    /// Thickness as built
    #[arg(long, requires = "measured")]
    thickness: Option<String>,
    /// Width as built
    #[arg(long, requires = "measured")]
    width: Option<String>,
    /// Which way it lies: flat or edge
    #[arg(long, requires = "measured")]
    lay: Option<String>,
    /// Its wood, to be set beside the table's
    #[arg(long, requires = "measured")]
    wood: Option<String>,
    /// How far off the weight may be; 1 % when left out
    #[arg(long, requires = "measured")]
    weight_error: Option<String>,
    /// How far off the reading of the dip may be; 1/32 in or 0.5 mm when left out
    #[arg(long, requires = "measured")]
    dip_error: Option<String>,
}

impl BoardArguments {
    fn all(&self) -> [(&'static str, &Option<String>); 11] {
        [
            ("span", &self.span),
            ("weight", &self.weight),
            ("dip", &self.dip),
            ("load", &self.load),
            ("size", &self.size),
            ("thickness", &self.thickness),
            ("width", &self.width),
            ("lay", &self.lay),
            ("wood", &self.wood),
            ("weight_error", &self.weight_error),
            ("dip_error", &self.dip_error),
        ]
    }

    /// The options as a file would say them, one board, so that a mistake is told the same way.
    fn as_file(&self) -> String {
        let quoted = |v: &String| serde_json::to_string(v).unwrap_or_default();
        let lines =
            self.all().into_iter().filter_map(|(key, v)| v.as_ref().map(|v| format!("{key} = {}\n", quoted(v))));
        format!("[[board]]\n{}", lines.collect::<String>())
    }
}

pub(super) fn run(a: &ProofArguments, streams: &mut Streams<'_>) -> u8 {
    if let Some(file) = &a.measured {
        return match measured(a, file.as_ref(), streams) {
            Ok(status) | Err(status) => status,
        };
    }
    if a.how.schema {
        return streams.schema(&proof::json::schema());
    }
    let opened = match a.how.open(&a.brief, streams) {
        Ok(o) => o,
        Err(status) => return status,
    };
    let plan = match check::proof(&opened.platform) {
        Ok(plan) => plan,
        Err(e) => return streams.fail(&e.to_string()),
    };
    let out = match a.format {
        Format::Text => proof::text::write(&opened.platform, &plan),
        Format::Json => proof::json::write(&opened.platform, &plan),
    };
    streams.print(&out, if proof::complete(&plan) { PASSES } else { FAILS })
}

fn measured(a: &ProofArguments, file: Option<&PathBuf>, streams: &mut Streams<'_>) -> Result<u8, u8> {
    if a.how.schema {
        return Ok(streams.schema(&boards::schema()));
    }
    let source = match file {
        Some(file) => {
            if let Some((key, _)) = a.board.all().into_iter().find(|(_, v)| v.is_some()) {
                return Err(streams.fail(&format!("--{} is for one board without a file", key.replace('_', "-"))));
            }
            input::read(file, streams)?
        }
        None => Source { name: "command line".to_owned(), text: a.board.as_file() },
    };
    let tables = a.how.tables(streams)?;
    let mut list = Boards::read(&source.text);
    a.how.override_list(&mut list);
    let all = Board::build(&list, &tables).map_err(|m| input::explain(&m, &source, streams))?;
    let found = all.iter().map(|b| board_stiffness(b, list.rules)).collect::<Result<Vec<_>, _>>();
    let found = found.map_err(|e| streams.fail(&e.describe(list.units)))?;
    let lot = batch(&found).map_err(|e| streams.fail(&e.describe(list.units)))?;
    let hung = Hung { units: list.units, boards: &all, found: &found, batch: lot.as_ref() };
    let out = match a.format {
        Format::Text => boards::text(&hung),
        Format::Json => boards::json(&hung),
    };
    Ok(streams.print(&out, PASSES))
}
