//! `slatwright check`

use std::mem::ManuallyDrop;

use rayon::ThreadPoolBuilder;

use super::input::Source;
use super::{CheckArguments, FAILS, Families, Format, NOT_COMPUTED, PASSES, Streams, input};
use crate::brief::{Brief, RuleFamily};
use crate::check::{Assessment, CheckError, Remedy, Verdict, check_with_remedies, compare};
use crate::platform::Platform;
use crate::report::both::{self, Both};
use crate::report::{Report, json, text};
use crate::tables::Tables;

pub(super) fn run(a: &CheckArguments, streams: &mut Streams<'_>) -> u8 {
    if a.schema {
        let schema = if a.rules == Some(Families::Both) { both::json::schema() } else { json::schema() };
        return streams.schema(&schema);
    }
    match checked(a, streams) {
        Ok(status) | Err(status) => status,
    }
}

/// A platform and what the check says of it.
pub(super) struct Checked {
    pub(super) platform: Platform,
    pub(super) assessment: Assessment,
    pub(super) remedies: Vec<Remedy>,
}

fn checked(a: &CheckArguments, streams: &mut Streams<'_>) -> Result<u8, u8> {
    let Some(path) = &a.brief else { return Err(streams.fail("no brief was named")) };
    let tables = input::tables(a.tables.as_deref(), streams)?;
    let source = input::read(path, streams)?;
    if a.rules == Some(Families::Both) {
        let mut brief = Brief::read(&source.text);
        if let Some(units) = a.units {
            brief.units = units.into();
        }
        return by_both(a, &brief, &tables, &source, streams);
    }
    // Never dropped: the process ends, and the system takes all memory back at once.
    let checked = ManuallyDrop::new(checked_on(a, &source, &tables, streams)?);
    let Checked { platform, assessment, remedies } = &*checked;
    let report = Report { platform, assessment, remedies };
    let out = match a.format {
        Format::Text => text::write(&report, options(a)),
        Format::Json => json::write(&report, a.steps),
    };
    Ok(streams.print(&out, status(assessment.verdict())))
}

/// The check of a brief's text by one family of rules.
pub(super) fn checked_on(
    a: &CheckArguments,
    source: &Source,
    tables: &Tables,
    streams: &mut Streams<'_>,
) -> Result<Checked, u8> {
    let mut brief = Brief::read(&source.text);
    if let Some(units) = a.units {
        brief.units = units.into();
    }
    match a.rules {
        Some(Families::Asd) => brief.rules.value = RuleFamily::AllowableStress,
        Some(Families::Ec5) => brief.rules.value = RuleFamily::LimitState,
        Some(Families::Both) | None => {}
    }
    let platform = Platform::build(&brief, tables).map_err(|m| input::explain(&m, source, streams))?;
    let (assessment, remedies) = checked_alone(&platform).map_err(|e| streams.fail(&e.to_string()))?;
    Ok(Checked { platform, assessment, remedies })
}

/// As [`check_with_remedies`], on this thread: starting another takes as long as a plain check gains by it. Slats
/// over a centre beam, solved place by place, are worth one for every core.
fn checked_alone(platform: &Platform) -> Result<(Assessment, Vec<Remedy>), CheckError> {
    let check = || check_with_remedies(platform);
    let alone = ThreadPoolBuilder::new().num_threads(1).use_current_thread();
    match platform.centre_beam {
        Some(_) => check(),
        // Once asked, this thread works alone ever after, and asking again is refused.
        None => alone.build().map_or_else(|_| check(), |pool| pool.install(check)),
    }
}

pub(super) fn options(a: &CheckArguments) -> text::Options {
    text::Options { every: a.every, steps: a.steps }
}

fn status(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::Pass => PASSES,
        Verdict::Fail => FAILS,
        Verdict::NotChecked => NOT_COMPUTED,
    }
}

/// The same brief by each family, side by side. Mistakes of either are mistakes.
fn by_both(
    a: &CheckArguments,
    brief: &Brief,
    tables: &Tables,
    source: &Source,
    streams: &mut Streams<'_>,
) -> Result<u8, u8> {
    let mut mistakes = Vec::new();
    let mut platforms = Vec::new();
    for family in [RuleFamily::AllowableStress, RuleFamily::LimitState] {
        let mut brief = brief.clone();
        brief.rules.value = family;
        match Platform::build(&brief, tables) {
            Ok(p) => platforms.push(p),
            Err(all) => mistakes.extend(all),
        }
    }
    let [first, second] = match <[Platform; 2]>::try_from(platforms) {
        Ok(both) => both,
        Err(_) => {
            let mut once: Vec<_> = Vec::new();
            mistakes.sort_by_key(|m| (m.span.start, m.span.end));
            mistakes.into_iter().for_each(|m| {
                if !once.contains(&m) {
                    once.push(m)
                }
            });
            return Err(input::explain(&once, source, streams));
        }
    };
    let mut checked = |p| checked_alone(p).map_err(|e| streams.fail(&e.to_string()));
    let ((asd, asd_remedies), (ec5, ec5_remedies)) = (checked(&first)?, checked(&second)?);
    let roles = compare([&first, &second], [&asd, &ec5]).map_err(|e| streams.fail(&e.to_string()))?;
    let reports = [
        Report { platform: &first, assessment: &asd, remedies: &asd_remedies },
        Report { platform: &second, assessment: &ec5, remedies: &ec5_remedies },
    ];
    let both = Both { reports, roles: &roles };
    let out = match a.format {
        Format::Text => both::text::write(&both, options(a)),
        Format::Json => both::json::write(&both, a.steps),
    };
    Ok(streams.print(&out, status(both.verdict())))
}
