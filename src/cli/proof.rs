//! `slatwright proof`

use super::ask::Asked;
use super::{FAILS, Format, PASSES, Streams};
use crate::check;
use crate::report::proof;

/// What is typed after `proof`.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Exit status: 0 the platform passes its check and every step reaches what its people do, 1 not \
                        so, 2 it could not be computed."
)]
pub(super) struct ProofArguments {
    #[command(flatten)]
    asked: Asked,
}

pub(super) fn run(a: &ProofArguments, streams: &mut Streams<'_>) -> u8 {
    let how = &a.asked.how;
    if how.schema {
        return streams.schema(&proof::json::schema());
    }
    let opened = match how.open(&a.asked.brief, streams) {
        Ok(o) => o,
        Err(status) => return status,
    };
    let plan = match check::proof(&opened.platform) {
        Ok(plan) => plan,
        Err(e) => return streams.fail(&e.to_string()),
    };
    let out = match a.asked.format {
        Format::Text => proof::text::write(&opened.platform, &plan),
        Format::Json => proof::json::write(&opened.platform, &plan),
    };
    streams.print(&out, if proof::complete(&plan) { PASSES } else { FAILS })
}
