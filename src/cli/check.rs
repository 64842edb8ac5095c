//! `slatwright check`

use super::{CheckArguments, FAILS, Format, NOT_COMPUTED, PASSES, Streams, input};
use crate::brief::Brief;
use crate::check::{Verdict, check_with_remedies};
use crate::platform::Platform;
use crate::report::{Report, json, text};

pub(super) fn run(a: &CheckArguments, streams: &mut Streams<'_>) -> u8 {
    if a.schema {
        return streams.schema(&json::schema());
    }
    match checked(a, streams) {
        Ok(status) | Err(status) => status,
    }
}

fn checked(a: &CheckArguments, streams: &mut Streams<'_>) -> Result<u8, u8> {
    let Some(path) = &a.brief else { return Err(streams.fail("no brief was named")) };
    let tables = input::tables(a.tables.as_deref(), streams)?;
    let source = input::read(path, streams)?;
    let mut brief = Brief::read(&source.text);
    if let Some(rules) = a.rules {
        brief.rules.value = rules.into();
    }
    if let Some(units) = a.units {
        brief.units = units.into();
    }
    let platform = Platform::build(&brief, &tables).map_err(|m| input::explain(&m, &source, streams))?;
    let (assessment, remedies) = check_with_remedies(&platform).map_err(|e| streams.fail(&e.to_string()))?;
    let report = Report { platform: &platform, assessment: &assessment, remedies: &remedies };
    let out = match a.format {
        Format::Text => text::write(&report, text::Options { every: a.every, steps: a.steps }),
        Format::Json => json::write(&report, a.steps),
    };
    let status = match assessment.verdict() {
        Verdict::Pass => PASSES,
        Verdict::Fail => FAILS,
        Verdict::NotChecked => NOT_COMPUTED,
    };
    Ok(streams.print(&out, status))
}
