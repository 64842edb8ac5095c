//! The report as text: 80 columns, verdict first.

use comfy_table::{CellAlignment, ContentArrangement, Table};

use super::Report;
use super::say;
use crate::check::{Check, Limit, Member, Prediction, Role, Verdict};
use crate::quantity::{length_for_builder, round_up};

const WIDTH: usize = 80;

/// What to print.
#[derive(Clone, Copy, Debug, Default)]
pub struct Options {
    /// A row for every member, not the governing one of each role.
    pub every: bool,
    /// The calculation behind each row.
    pub steps: bool,
}

/// The whole report.
pub fn write(r: &Report<'_>, options: Options) -> String {
    let mut out = String::new();
    headline(r, &mut out);
    openings(r, &mut out);
    rows(r, options, &mut out);
    if options.steps {
        steps(r, options, &mut out);
    }
    remedies(r, &mut out);
    loads(r, &mut out);
    predictions(r, &mut out);
    list("Taken for granted", &r.assessment.assumptions, &mut out);
    let unchecked: Vec<String> = r.assessment.not_checked.iter().map(|n| format!("{}: {}", n.what, n.why)).collect();
    list("Not checked", &unchecked, &mut out);
    list("Cautions", &r.assessment.cautions, &mut out);
    out
}

pub(super) fn wrap(text: &str, first: &str, rest: &str, out: &mut String) {
    // A hyphen may stand in a fraction or a clause: 3-1/2 in is one word.
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(first)
        .subsequent_indent(rest)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    for line in textwrap::wrap(text, options) {
        out.push_str(line.trim_end());
        out.push('\n');
    }
}

fn headline(r: &Report<'_>, out: &mut String) {
    wrap(&say::printable(&r.platform.title), "", "", out);
    out.push('\n');
    wrap(&opening(r), "", "", out);
    let open = r.assessment.not_checked.len();
    if open > 0 {
        let things = if open == 1 { "1 thing was" } else { &format!("{open} things were") };
        wrap(&format!("{things} not checked; see below."), "", "", out);
    }
    out.push('\n');
}

/// The verdict and the weakest link in a sentence or two.
pub(super) fn opening(r: &Report<'_>) -> String {
    format!("{}. {}", r.assessment.verdict().word().to_uppercase(), say::verdict(r))
}

/// Guards, openings and heights, before anything else.
pub(super) fn openings(r: &Report<'_>, out: &mut String) {
    let Some(o) = &r.assessment.openings else { return };
    let whose = o.jurisdiction.place();
    wrap(
        &format!("Guards, openings and heights ({whose}; what is kept here conforms to nothing by that)"),
        "",
        "",
        out,
    );
    for line in opening_lines(r) {
        wrap(&line, "  - ", "    ", out);
    }
    out.push('\n');
}

/// Every rule for guards, openings and heights with what was found, and the thickest mattress they leave.
pub(super) fn opening_lines(r: &Report<'_>) -> Vec<String> {
    let of = |m: &Member| -> Vec<String> {
        let line =
            |c: &Check| format!("{}: {} ({}).", c.verdict.word(), c.remark.as_deref().unwrap_or_default(), c.source);
        m.checks.iter().map(line).collect()
    };
    let mut out: Vec<String> = r.assessment.members.iter().filter(|m| m.role == Role::Opening).flat_map(of).collect();
    if let Some(t) = r.assessment.openings.as_ref().and_then(|o| o.thickest_mattress) {
        let t = length_for_builder(t, r.platform.units);
        out.push(format!("The thickest mattress that leaves the guard high enough: {t}."));
    }
    out
}

fn chosen<'a>(r: &Report<'a>, every: bool) -> Vec<&'a Member> {
    if every { r.assessment.members.iter().collect() } else { r.assessment.governing() }
}

fn rows(r: &Report<'_>, options: Options, out: &mut String) {
    let mut table = Table::new();
    table.load_style(comfy_table::presets::NOTHING).set_content_arrangement(ContentArrangement::Disabled);
    table.set_header(["member", "limit", "case", "ratio", "margin", ""]);
    for m in chosen(r, options.every) {
        let Some(worst) = m.worst() else { continue };
        // Two rows where two limits fail; the reader must see both.
        let mut shown: Vec<&Check> = m.checks.iter().filter(|c| c.verdict == Verdict::Fail).collect();
        if shown.is_empty() {
            shown.push(worst);
        }
        shown.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
        for c in shown {
            table.add_row([
                m.id.clone(),
                c.limit.name().into(),
                say::case(c).into(),
                say::ratio(c),
                say::margin(c),
                c.verdict.word().to_uppercase(),
            ]);
        }
    }
    for column in [3, 4] {
        if let Some(c) = table.column_mut(column) {
            c.set_cell_alignment(CellAlignment::Right);
        }
    }
    for line in table.to_string().lines() {
        out.push_str(line.trim_end());
        out.push('\n');
    }
    notes(r, options, out);
    out.push_str("\nratio = demand / capacity; 1.00 passes. margin = capacity / demand - 1.\n");
    if !options.every {
        out.push_str("The governing member of each kind; --every lists all, --steps the calculation.\n");
    }
    out.push('\n');
}

/// What must be known about the rows, such as a model that stands in for a missing rule.
fn notes(r: &Report<'_>, options: Options, out: &mut String) {
    let mut said: Vec<&str> = Vec::new();
    for m in chosen(r, options.every) {
        for c in &m.checks {
            let Some(remark) = c.remark.as_deref() else { continue };
            if c.limit != Limit::Joint || said.contains(&remark) {
                continue;
            }
            said.push(remark);
            out.push('\n');
            wrap(&format!("{}: {remark}.", m.id), "", "", out);
        }
    }
}

pub(super) fn steps(r: &Report<'_>, options: Options, out: &mut String) {
    out.push_str("Calculation\n");
    for m in chosen(r, options.every) {
        let Some(c) = m.worst() else { continue };
        let place = c.place.as_ref().map(|w| format!(", {}", say::place(w, r.platform))).unwrap_or_default();
        out.push('\n');
        wrap(&format!("{} ({}): {}, {}{place}", m.id, m.made_of, c.limit.name(), c.case.name()), "  ", "    ", out);
        let units = r.platform.units;
        for step in c.steps() {
            let source = format!("[{}, {}]", step.citation, step.citation.seen);
            wrap(&format!("{} {source}", step.line(units)), "    ", "      ", out);
        }
        let (d, k) = (c.demand.show(units), c.capacity.show(units));
        wrap(&format!("demand {d} / capacity {k} = {}: {}", say::ratio(c), c.verdict.word()), "    ", "      ", out);
        if let Some(remark) = &c.remark {
            wrap(remark, "    note: ", "      ", out);
        }
    }
    out.push('\n');
}

pub(super) fn remedies(r: &Report<'_>, out: &mut String) {
    if r.assessment.verdict() == Verdict::Pass {
        return;
    }
    if r.remedies.is_empty() {
        return;
    }
    out.push_str("What would make it pass (each tried, by checking it again)\n");
    for remedy in r.remedies {
        wrap(&remedy.sentence(r.platform.units), "  - ", "    ", out);
    }
    out.push('\n');
}

fn loads(r: &Report<'_>, out: &mut String) {
    out.push_str("Loads\n");
    for line in load_lines(r) {
        wrap(&line, "  ", "    ", out);
    }
    out.push('\n');
}

/// What decides nothing.
pub(super) fn predictions(r: &Report<'_>, out: &mut String) {
    if r.assessment.predictions.is_empty() {
        return;
    }
    out.push_str("Predicted (it decides nothing: a bed is no floor, and no test was made)\n");
    for line in prediction_lines(r) {
        wrap(&line, "  - ", "    ", out);
    }
    out.push('\n');
}

/// Every prediction as a sentence.
pub(super) fn prediction_lines(r: &Report<'_>) -> Vec<String> {
    let of = |p: &Prediction| {
        let mut line = match &p.weakest {
            Some((member, limit, ratio)) if ratio.is_finite() => {
                let ratio = round_up(*ratio, 2);
                format!("{}: {}: the weakest link is {member}, {} at {ratio} of what is allowed", p.case, p.load, {
                    limit.name()
                })
            }
            Some((member, ..)) => format!("{}: {}: {member} has nothing to hold with", p.case, p.load),
            None => format!("{}: {}: nothing could be said", p.case, p.load),
        };
        if !p.unanswered.is_empty() {
            line.push_str(&format!("; no rule answers for {}", p.unanswered.join(", ")));
        }
        format!("{line} ({}).", p.reason)
    };
    r.assessment.predictions.iter().map(of).collect()
}

/// Every case that was run, and every one that was dropped.
pub(super) fn load_lines(r: &Report<'_>) -> Vec<String> {
    let run = r.assessment.cases.iter().map(|c| {
        let changed = if c.changed { ", CHANGED BY THE BRIEF" } else { "" };
        let tried = if c.positions == 1 { String::new() } else { format!(", {} places tried", c.positions) };
        format!("{}: {}{tried}{changed} ({})", c.kind.name(), c.load, c.reason)
    });
    let dropped = r.platform.changes.iter().filter(|c| c.dropped).map(|d| format!("{}: DROPPED BY THE BRIEF.", d.key));
    run.chain(dropped).collect()
}

pub(super) fn list(heading: &str, items: &[String], out: &mut String) {
    if items.is_empty() {
        return;
    }
    out.push_str(heading);
    out.push('\n');
    for i in items {
        let i = if i.ends_with('.') { i.clone() } else { format!("{i}.") };
        wrap(&i, "  - ", "    ", out);
    }
    out.push('\n');
}
