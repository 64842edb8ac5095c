//! `slatwright rate`

use super::ask::{Asked, Count};
use super::{FAILS, Format, PASSES, Streams};
use crate::choose::{Design, rate};
use crate::report::rating;

/// What is typed after `rate`.
#[derive(Debug, clap::Args)]
#[command(after_help = "Exit status: 0 the sleepers in the brief are light enough, 1 they are not, 2 it could not \
                        be computed.")]
pub(super) struct RateArguments {
    #[command(flatten)]
    asked: Asked,
}

pub(super) fn run(a: &RateArguments, streams: &mut Streams<'_>) -> u8 {
    let how = &a.asked.how;
    if how.schema {
        return streams.schema(&rating::schema());
    }
    let opened = match how.open(&a.asked.brief, streams) {
        Ok(o) => o,
        Err(status) => return status,
    };
    let count = Count::new();
    let tick = || count.one();
    let rated = rate(&Design::new(&opened.brief, &opened.tables).counted(&tick));
    drop(count);
    let Ok(rated) = rated else { return streams.fail("the brief cannot be built") };
    let out = match a.asked.format {
        Format::Text => rating::text(&opened.platform, &rated),
        Format::Json => rating::json(&opened.platform, &rated),
    };
    streams.print(&out, if rating::within(&rated) { PASSES } else { FAILS })
}
