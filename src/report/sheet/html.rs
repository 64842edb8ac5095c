//! The sheet as one HTML page: no network, no script, everything typed is escaped.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::document::{Block, Table};
use super::formula::{Formula, Symbol};
use super::{Sheet, program};
use crate::derivation::Step;
use crate::quantity::UnitSystem;
use crate::report::drawing::svg;
use crate::report::fraction::{Run, runs};

const STYLE: &str = include_str!("sheet.css");

pub(super) fn write(s: &Sheet<'_>) -> String {
    let units = s.report.platform.units;
    let title = s.title();
    let mut figures = 0;
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(program());
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main {
                    header {
                        p class="kind" { "Sleeping platform: calculation sheet" }
                        h1 dir="auto" { (title) }
                    }
                    @for block in s.blocks() { (put(&block, units, &mut figures)) }
                }
            }
        }
    };
    page.into_string() + "\n"
}

fn put(block: &Block, units: UnitSystem, figures: &mut usize) -> Markup {
    match block {
        Block::Heading { level, text, new_page } => heading(*level, text, *new_page),
        Block::Paragraph(text) => html! { p { (set(text)) } },
        Block::Verdict(verdict, text) => html! {
            p class={ "verdict " (verdict.word()) } { b { (verdict.word().to_uppercase()) } (set(text)) }
        },
        Block::List(items) => html! { ul { @for i in items { li { (set(i)) } } } },
        Block::Facts(facts) => html! {
            dl { @for (name, text) in facts { dt { (name) } dd { (set(text)) } } }
        },
        Block::Table(t) => table(t),
        Block::Figure { drawings, caption } => html! {
            figure {
                div class="drawings" {
                    @for d in drawings { ({ *figures += 1; PreEscaped(svg(d, &format!("figure-{figures}"))) }) }
                }
                figcaption { (set(caption)) }
            }
        },
        Block::Calculation(steps) => html! {
            ul class="steps" { @for step in steps { li { (line(step, units)) } } }
        },
        Block::Verbatim(text) => html! { pre dir="auto" { (text) } },
        Block::ToFill(lines) => html! { div class="fill" { @for l in lines { div { (l) } } } },
    }
}

fn heading(level: u8, text: &str, new_page: bool) -> Markup {
    let class = if new_page { "page" } else { "" };
    match level {
        2 => html! { h2 class=[new_page.then_some(class)] { (set(text)) } },
        3 => html! { h3 { (set(text)) } },
        _ => html! { h4 { (set(text)) } },
    }
}

fn table(t: &Table) -> Markup {
    let class = match t.columns.len() {
        0..3 => None,
        3..7 => Some("wide"),
        _ => Some("wide dense"),
    };
    html! {
        table class=[class] {
            caption { (t.caption) }
            colgroup { @for c in &t.columns { col style={ "width:" (format!("{:.0}", 100.0 * c.share)) "%" }; } }
            thead { tr { @for c in &t.columns { th scope="col" class=[c.numbers.then_some("n")] { (c.name) } } } }
            tbody {
                @for (i, row) in t.rows.iter().enumerate() {
                    tr class=[t.failing.contains(&i).then_some("fails")] {
                        @for (k, (cell, c)) in row.iter().zip(&t.columns).enumerate() {
                            @if k == 0 {
                                th scope="row" { (set(cell)) }
                            } @else {
                                td class=[c.numbers.then_some("n")] data-column=(c.name) { span { (set(cell)) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Text with its fractions set as fractions.
fn set(text: &str) -> Markup {
    let runs = runs(text);
    html! {
        @for (i, run) in runs.iter().enumerate() {
            @match run {
                Run::Plain(s) => { (s) }
                Run::Joint => {}
                Run::Top(s) => {
                    span class="f" {
                        @if i > 0 && runs[i - 1] == Run::Joint { i { "\u{a0}" } }
                        sup { (s) } "\u{2044}"
                        @if let Some(Run::Bottom(b)) = runs.get(i + 2) { sub { (b) } }
                    }
                }
                Run::Bar | Run::Bottom(_) => {}
            }
        }
    }
}

/// One line of a calculation: what repeats itself is said once.
fn line(step: &Step, units: UnitSystem) -> Markup {
    let symbols = step.expression.symbols(units);
    let numbers = step.expression.substituted(units);
    let value = step.value.show(units);
    let formula = symbols != step.symbol && symbols != value;
    let mut pieces = Formula::name(&step.symbol).pieces();
    if formula {
        let mut right = Formula::of(&step.expression, units).pieces();
        right[0] = Formula::Row(vec![Formula::Operator("="), right[0].clone()]);
        pieces.extend(right);
    }
    html! {
        span {
            @for p in &pieces { math displaystyle="true" { (mathml(p)) } " " }
            @if numbers != symbols && numbers != value { "= " (numbers) " " }
            "= " (value)
        }
        " "
        small { (step.citation) ", " (step.citation.seen) }
    }
}

fn symbol(s: &Symbol) -> Markup {
    // A letter slants by the style sheet: the mathematical alphabets are not in every reader's fonts.
    let letter = s.base.chars().count() == 1;
    let class = if letter { "v" } else { "w" };
    let base = html! { mi mathvariant="normal" class=(class) { (s.base) } };
    let indexed = if s.index.is_empty() {
        base
    } else {
        html! { msub { (base) mtext { (s.index) } } }
    };
    if s.mark.is_empty() {
        return indexed;
    }
    html! { mrow { (indexed) mo lspace="0" rspace="0" { (s.mark) } } }
}

fn mathml(f: &Formula) -> Markup {
    match f {
        Formula::Symbol(s) => symbol(s),
        Formula::Value(v) => match v.split_once(' ') {
            Some((number, unit)) => html! { mrow { mn { (number) } mtext { "\u{a0}" (unit) } } },
            None => html! { mn { (v) } },
        },
        Formula::Row(parts) => html! { mrow { @for p in parts { (mathml(p)) } } },
        Formula::Operator(o) => html! { mo { (o) } },
        Formula::Mark(m) => html! { mo stretchy="false" { (m) } },
        Formula::Fraction(a, b) => html! { mfrac { (row(a)) (row(b)) } },
        Formula::Power(a, exponent) => html! { msup { (row(a)) mn { (exponent) } } },
        Formula::Root(a) => html! { msqrt { (mathml(a)) } },
        Formula::Of(name, parts) => html! {
            mrow {
                mi { (name) } mo stretchy="false" { "(" }
                @for (i, p) in parts.iter().enumerate() { @if i > 0 { mo { "," } } (mathml(p)) }
                mo stretchy="false" { ")" }
            }
        },
        Formula::Bracketed(a) => html! { mrow { mo { "(" } (mathml(a)) mo { ")" } } },
    }
}

fn row(f: &Formula) -> Markup {
    html! { mrow { (mathml(f)) } }
}
