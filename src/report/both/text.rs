//! Both families side by side in 80 columns.

use comfy_table::{CellAlignment, ContentArrangement, Table};

use super::{Both, because, name};
use crate::check::{Check, Limit, Member, RolePair, Verdict};
use crate::quantity::round_up;
use crate::report::say;
use crate::report::say::printable;
use crate::report::text::{self, Options, list, wrap};

/// The two reports as one.
pub fn write(b: &Both<'_>, options: Options) -> String {
    let mut out = String::new();
    wrap(&printable(&b.reports[0].platform.title), "", "", &mut out);
    out.push('\n');
    for (report, by) in b.reports.iter().zip(["US allowable stress design (asd)", "Eurocode 5 (ec5)"]) {
        wrap(&format!("By {by}: {}", text::opening(report)), "", "", &mut out);
        out.push('\n');
    }
    for report in &b.reports {
        text::openings(report, &mut out);
    }
    rows(b, &mut out);
    reasons(b, &mut out);
    for (report, family) in b.reports.iter().zip(b.words()) {
        if options.steps {
            out.push_str(&format!("By {family}: "));
            text::steps(report, options, &mut out);
        }
        if report.assessment.verdict() != Verdict::Pass && !report.remedies.is_empty() {
            out.push_str(&format!("By {family}: "));
            text::remedies(report, &mut out);
        }
    }
    loads(b, &mut out);
    let together = |of: &dyn Fn(usize) -> Vec<String>| merged(b, [of(0), of(1)]);
    let predicted = |i: usize| text::prediction_lines(&b.reports[i]);
    let heading = "Predicted (it decides nothing: a bed is no floor, and no test was made)";
    list(heading, &together(&predicted), &mut out);
    list("Taken for granted", &together(&|i| b.reports[i].assessment.assumptions.clone()), &mut out);
    let unchecked = |i: usize| {
        let all = &b.reports[i].assessment.not_checked;
        all.iter().map(|n| format!("{}: {}", n.what, n.why)).collect()
    };
    list("Not checked", &together(&unchecked), &mut out);
    list("Cautions", &together(&|i| b.reports[i].assessment.cautions.clone()), &mut out);
    out
}

/// What both say once, and what one says alone with its name.
fn merged(b: &Both<'_>, [first, second]: [Vec<String>; 2]) -> Vec<String> {
    let [asd, ec5] = b.words();
    let mut out: Vec<String> = Vec::new();
    for item in &first {
        out.push(if second.contains(item) { item.clone() } else { format!("{asd}: {item}") });
    }
    out.extend(second.iter().filter(|i| !first.contains(i)).map(|i| format!("{ec5}: {i}")));
    out
}

fn rows(b: &Both<'_>, out: &mut String) {
    let mut table = Table::new();
    table.load_style(comfy_table::presets::NOTHING).set_content_arrangement(ContentArrangement::Disabled);
    let [asd, ec5] = b.words();
    table.set_header(["", asd, "ratio", ec5, "ratio", "governs"]);
    let what = |worst: Option<(&Member, &Check)>| match worst {
        Some((_, c)) if c.limit.stands_still() => format!("{}\nalways", c.limit.name()),
        Some((_, c)) => format!("{}\n{}", c.limit.name(), c.case.name()),
        None => "not checked".into(),
    };
    let ratio = |worst: Option<(&Member, &Check)>| match worst {
        Some((m, c)) => format!("{}\n{}", say::ratio(c), m.verdict().word().to_uppercase()),
        None => String::new(),
    };
    for r in b.roles {
        let governs = r.governs.map_or("equal", |g| b.words()[g]);
        let [first, second] = r.worst;
        table.add_row([r.role.name().into(), what(first), ratio(first), what(second), ratio(second), governs.into()]);
    }
    for column in [2, 4] {
        if let Some(c) = table.column_mut(column) {
            c.set_cell_alignment(CellAlignment::Right);
        }
    }
    for line in table.to_string().lines() {
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out.push_str("\nratio = demand / capacity by each family's own rules; 1.00 passes.\n\n");
}

fn reasons(b: &Both<'_>, out: &mut String) {
    let [asd, ec5] = b.words();
    wrap(
        &format!(
            "Why they differ: one member, one case, by both. The factors multiply to the ratio by {ec5} over that by \
             {asd}"
        ),
        "",
        "",
        out,
    );
    for r in b.roles {
        out.push('\n');
        wrap(&heading(b, r), "  ", "    ", out);
        let Some(why) = &r.why else { continue };
        for part in &why.parts {
            // A factor that prints as one says nothing.
            if (part.factor - 1.0).abs() < 0.005 {
                continue;
            }
            let text = format!(
                "{}: {}",
                name(&part.cause, why.checks[0].limit),
                because(&part.cause, why, b.words(), b.units())
            );
            wrap(&text, &format!("    x {:<6.2} ", part.factor), "             ", out);
        }
    }
    out.push('\n');
}

fn heading(b: &Both<'_>, r: &RolePair<'_>) -> String {
    let [asd, ec5] = b.words();
    match (&r.why, r.governs) {
        (Some(w), _) => {
            let [first, second] = w.checks.each_ref();
            let case = if first.limit.stands_still() { "always" } else { first.case.name() };
            let both =
                format!("{}, {}, {case}: {asd} {}, {ec5} {}", w.member, first.limit.name(), say::ratio(first), {
                    say::ratio(second)
                });
            if first.limit == Limit::Opening {
                return format!("{both}. A size, not a strength: each as its own country asks");
            }
            if w.parts.is_empty() {
                let each =
                    |c: &Check| format!("needs {}, has {}", c.demand.show(b.units()), c.capacity.show(b.units()));
                return format!("{both}. By {asd} it {}; by {ec5} it {}.", each(first), each(second));
            }
            format!("{both}; {} in all", times(second.ratio / first.ratio))
        }
        (None, Some(g)) if r.worst.iter().all(Option::is_some) => {
            let limit = r.worst[g].map_or("", |(_, c)| c.limit.name());
            format!("{}: {} is a check that {} does not make there", r.role.name(), limit, b.words()[1 - g])
        }
        (None, Some(g)) => format!("{}: no rule of {} answers", r.role.name(), b.words()[1 - g]),
        (None, None) => format!("{}: no difference", r.role.name()),
    }
}

fn times(factor: f64) -> String {
    format!("x {}", round_up(factor, 2))
}

fn loads(b: &Both<'_>, out: &mut String) {
    out.push_str("Loads\n");
    let [asd, ec5] = b.words();
    let [first, second] = b.reports.map(|r| text::load_lines(&r));
    for line in &first {
        let mark = if second.contains(line) { String::new() } else { format!("{asd}: ") };
        wrap(&format!("{mark}{line}"), "  ", "    ", out);
    }
    for line in second.iter().filter(|l| !first.contains(l)) {
        wrap(&format!("{ec5}: {line}"), "  ", "    ", out);
    }
    out.push('\n');
}
