//! What must hold of whatever is typed: it is answered, with places that lie in the text, or with numbers that are
//! numbers. Panics where that is not so. `tests/bytes.rs` and the targets beside this file share it.

// Each uses some of it.
#![allow(dead_code)]

use annotate_snippets::Renderer;
use slatwright::brief::{Boards, Brief, Mistake, Rack, render};
use slatwright::check::{batch, board_stiffness, check};
use slatwright::choose::Supply;
use slatwright::platform::{Board, Platform};
use slatwright::quantity;
use slatwright::report::boards::{self, Hung};
use slatwright::report::{Report, Sheet, json, text};
use slatwright::tables::Tables;

/// Mistakes say something, in places of the text.
fn said(mistakes: &[Mistake], typed: &str) {
    assert!(!mistakes.is_empty(), "refused without a word");
    for m in mistakes {
        assert!(typed.get(m.span.clone()).is_some(), "{m:?} does not lie in the text");
        assert!(!m.message.is_empty() && !m.help.is_empty(), "{m:?}");
    }
    assert!(!render(mistakes, "brief.toml", typed, &Renderer::plain()).is_empty());
}

/// A number is printed as one, in JSON that can be read.
fn printed(text: &str, json: &str) {
    assert!(!text.contains("NaN") && !json.contains("NaN"), "a NaN is printed");
    let read = serde_json::from_str::<serde_json::Value>(json);
    assert!(read.is_ok(), "{read:?}");
}

/// Reads, builds and checks a brief with up to so many slats; whether it could be checked.
pub(crate) fn brief(typed: &str, most_slats: usize) -> bool {
    brief_with(typed, Tables::embedded(), most_slats)
}

fn brief_with(typed: &str, tables: &Tables, most_slats: usize) -> bool {
    let platform = match Platform::build(&Brief::read(typed), tables) {
        Ok(platform) => platform,
        Err(mistakes) => {
            said(&mistakes, typed);
            return false;
        }
    };
    if platform.slats.count > most_slats {
        return false;
    }
    if let Ok(assessment) = check(&platform) {
        for (member, c) in assessment.members.iter().flat_map(|m| m.checks.iter().map(move |c| (m, c))) {
            assert!(!c.ratio.is_nan() && c.ratio >= 0.0, "{} {}: {}", member.id, c.limit.name(), c.ratio);
            assert!(!c.demand.si.is_nan() && !c.capacity.si.is_nan(), "{} {}", member.id, c.limit.name());
        }
        let report = Report { platform: &platform, assessment: &assessment, remedies: &[] };
        printed(&text::write(&report, text::Options { every: true, steps: true }), &json::write(&report, true));
    }
    true
}

/// The sheet of a brief with up to so many slats, as a page and as Markdown.
pub(crate) fn sheet(typed: &str, most_slats: usize) {
    let Ok(platform) = Platform::build(&Brief::read(typed), Tables::embedded()) else { return };
    if platform.slats.count > most_slats {
        return;
    }
    if let Ok(assessment) = check(&platform) {
        let report = Report { platform: &platform, assessment: &assessment, remedies: &[] };
        if let Ok(sheet) = Sheet::of(report, typed, Tables::embedded(), None) {
            assert!(!sheet.html().contains("NaN") && !sheet.markdown().contains("NaN"), "a NaN is printed");
        }
    }
}

/// A user's table rows, and a brief that is checked with them once they are taken.
pub(crate) fn rows(typed: &str, checked: Option<&str>) {
    match Tables::extended_by(typed) {
        Ok(tables) => {
            let own = tables.search("").len();
            assert!(own >= Tables::embedded().search("").len(), "rows are lost");
            if let Some(brief) = checked {
                brief_with(brief, &tables, usize::MAX);
            }
        }
        Err(errors) => {
            assert!(!errors.is_empty(), "refused without a word");
            for e in &errors {
                let inside = e.span.as_ref().is_none_or(|span| typed.get(span.clone()).is_some());
                assert!(inside && !e.message.is_empty() && !e.help.is_empty(), "{e:?}");
            }
        }
    }
}

/// What a builder writes for a quantity: a number, or what would be right.
pub(crate) fn quantity(typed: &str) {
    let read = [
        quantity::length(typed).map(|v| v.value),
        quantity::mass(typed).map(|v| v.value),
        quantity::pressure(typed).map(|v| v.value),
        quantity::modulus(typed).map(|v| v.value),
        quantity::force(typed).map(|v| v.value),
        quantity::moment(typed).map(|v| v.value),
        quantity::density(typed).map(|v| v.value),
        quantity::ratio_to(typed),
    ];
    for outcome in read {
        match outcome {
            Ok(value) => assert!(!value.is_nan(), "{typed:?} is no number"),
            Err(e) => assert!(!e.to_string().is_empty() && !e.help().is_empty(), "{e:?}"),
        }
    }
}

/// A list of boards that were hung with a weight, and the same text as a rack of sticks and screws.
pub(crate) fn lists(typed: &str, beside: &Brief) {
    if let Err(mistakes) = Supply::of_rack(&Rack::read(typed), beside, Tables::embedded()) {
        said(&mistakes, typed);
    }
    let list = Boards::read(typed);
    let all = match Board::build(&list, Tables::embedded()) {
        Ok(all) => all,
        Err(mistakes) => return said(&mistakes, typed),
    };
    let Ok(found) = all.iter().map(|b| board_stiffness(b, list.rules)).collect::<Result<Vec<_>, _>>() else { return };
    let Ok(lot) = batch(&found) else { return };
    let hung = Hung { units: list.units, boards: &all, found: &found, batch: lot.as_ref() };
    printed(&boards::text(&hung), &boards::json(&hung));
}
