//! The page: what every public rule function was held against.

use std::collections::BTreeMap;
use std::fmt::Write;

use slatwright::source::Seen;

use crate::case::{self, Case};
use crate::inventory::{self, Function};
use crate::platforms;

const OPENING: &str = "\
# What the program was held against

Written by `UPDATE=1 cargo test --test evidence` from the cases beside it; the test fails when it is not up to
date. Every public function under `src/rules` is listed, found in the source. A case is something printed by
somebody else: a table, a worked example, the result of another program. Its answers are met when the
program's value lies within half a unit of the last printed place.

How a case was seen: **read** in the document or a faithful copy; **secondary**, in somebody else's account of
it; **computed**, by another program from what was read; **memory**, recalled and not read again. A function
counts as **held** when a case that was read, secondary or computed meets it. Memory guards the code against
slips and holds nothing. The text of the standards themselves was not available.

What **held** does not say: that every branch of a function is met (some are held by one number, counted below),
nor that the standard was read. What is not on this page at all: the values of the tables (`tests/tables*.rs`; every
row says itself how it was seen, and the reference strengths of US lumber are from memory), how heavy and where people are
(`tests/load.rs`, `tests/practice.rs`), and how a check puts rules together, but for the whole platforms near the end.

Beside this page: [limit state rules against two libraries](../limit_state/libraries.rs), 3,046 stored answers;
[what changes to the source no test notices](mutants.md) and [how much of it they run](strength.md); [broken briefs and hostile surroundings](mistakes.md).
";

/// The whole page.
pub(crate) fn written() -> String {
    let (functions, cases, without) = (inventory::functions(), case::all(), case::without());
    let lines: Vec<Line> = functions.iter().map(|f| Line::of(f, &cases, &without)).collect();
    let mut page = OPENING.to_owned();
    summary(&mut page, &lines, &cases);
    tables(&mut page, &lines);
    reasons(&mut page, &lines);
    differing(&mut page, &cases);
    platforms(&mut page);
    listing(&mut page, &cases);
    page
}

/// What is known about one function.
struct Line<'a> {
    function: &'a Function,
    cases: Vec<&'a Case>,
    why: Option<&'a str>,
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Status {
    Held,
    Memory,
    Reasoned,
    Nothing,
}

impl Status {
    fn word(self) -> &'static str {
        match self {
            Status::Held => "held",
            Status::Memory => "memory only",
            Status::Reasoned => "no case, see why",
            Status::Nothing => "**no case, no reason given**",
        }
    }
}

impl<'a> Line<'a> {
    fn of(function: &'a Function, cases: &'a [Case], without: &'a [case::Without]) -> Line<'a> {
        let cases = cases.iter().filter(|c| !c.differs && c.functions().any(|f| *f == function.name)).collect();
        let why = without.iter().find(|w| w.function == function.name).map(|w| w.why.as_str());
        Line { function, cases, why }
    }

    fn status(&self) -> Status {
        match (self.cases.iter().any(|c| c.is_outside()), self.cases.is_empty(), self.why) {
            (true, ..) => Status::Held,
            (_, false, _) => Status::Memory,
            (.., Some(_)) => Status::Reasoned,
            _ => Status::Nothing,
        }
    }

    fn family(&self) -> &str {
        self.function.name.split("::").next().unwrap_or_default()
    }

    fn answers(&self) -> usize {
        self.cases.iter().map(|c| c.run().len()).sum()
    }
}

fn summary(page: &mut String, lines: &[Line<'_>], cases: &[Case]) {
    let mut families: BTreeMap<&str, ([usize; 4], usize)> = BTreeMap::new();
    for line in lines {
        let (counts, by_one) = families.entry(line.family()).or_default();
        counts[line.status() as usize] += 1;
        *by_one += usize::from(line.status() == Status::Held && line.answers() == 1);
    }
    page.push_str(
        "\n## In figures\n\n| rules | functions | held | of these by one number | memory only | no case |\n\
         |---|---|---|---|---|---|\n",
    );
    for (family, ([held, memory, reasoned, nothing], by_one)) in &families {
        let all = held + memory + reasoned + nothing;
        let _ = writeln!(page, "| `{family}` | {all} | {held} | {by_one} | {memory} | {} |", reasoned + nothing);
    }
    let mut seen: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for case in cases.iter().filter(|c| !c.differs) {
        let entry = seen.entry(case.seen.to_string()).or_default();
        *entry = (entry.0 + 1, entry.1 + case.run().len());
    }
    page.push_str("\n| seen | cases | printed answers met |\n|---|---|---|\n");
    for (seen, (cases, answers)) in seen {
        let _ = writeln!(page, "| {seen} | {cases} | {answers} |");
    }
    let (groups, runs) = platforms::all().iter().fold((0, 0), |(g, r), group| (g + 1, r + group.runs()));
    let _ = writeln!(
        page,
        "\nBeside these, whole platforms put through the program: {groups} group(s), {runs} runs, below."
    );
}

fn tables(page: &mut String, lines: &[Line<'_>]) {
    page.push_str("\n## Clause by clause\n");
    let mut file = "";
    for line in lines {
        if line.function.file != file {
            file = &line.function.file;
            let _ = write!(
                page,
                "\n### `{file}`\n\n| function | clause | cases | answers | status |\n|---|---|---|---|---|\n"
            );
        }
        let name = line.function.name.rsplit("::").take(2).collect::<Vec<_>>();
        let typed = name.get(1).is_some_and(|n| n.starts_with(char::is_uppercase));
        let name = if typed { format!("{}::{}", name[1], name[0]) } else { name[0].to_owned() };
        let mut cases: Vec<&str> = line.cases.iter().map(|c| c.id.as_str()).collect();
        cases.dedup();
        let answers = line.answers();
        let answers = if answers == 0 { String::new() } else { answers.to_string() };
        let clause = clause_of(line);
        let _ = writeln!(page, "| `{name}` | {clause} | {} | {answers} | {} |", cases.join(" "), line.status().word());
    }
}

/// The clause the function says it comes from, or what its cases name.
fn clause_of(line: &Line<'_>) -> String {
    let said = &line.function.source;
    let end = said.find([',', ':', ';']).unwrap_or(said.len());
    if !said.is_empty() {
        return said[..end].trim_end_matches('.').replace('|', "/");
    }
    let mut clauses: Vec<&str> = line.cases.iter().map(|c| c.clause.as_str()).collect();
    clauses.dedup();
    clauses.join("; ")
}

fn reasons(page: &mut String, lines: &[Line<'_>]) {
    page.push_str("\n## Not held by any outside case, and why\n\n");
    for line in lines.iter().filter(|l| l.status() != Status::Held) {
        let why = match (line.why, line.status()) {
            (Some(why), _) => why,
            (None, Status::Memory) => "its values are recalled; no copy of the table was found to read",
            _ => "**nobody has said why**",
        };
        let _ = writeln!(page, "- `{}`: {why}", line.function.name);
    }
}

fn differing(page: &mut String, cases: &[Case]) {
    page.push_str("\n## Printed figures that are not met\n\nKept, and tested to differ still.\n\n");
    for case in cases.iter().filter(|c| c.differs) {
        let _ = writeln!(page, "- {} ({}): {}", case.id, case.place(), case.note);
    }
}

fn platforms(page: &mut String) {
    page.push_str(
        "\n## Whole platforms, through the program\n\n| group | source | seen | runs | what must hold |\n|---|---|---|---|---|\n",
    );
    for group in platforms::all() {
        let _ = writeln!(
            page,
            "| {} | {} | {} | {} | {} |",
            group.id,
            group.place(),
            group.seen,
            group.runs(),
            group.holds
        );
    }
    page.push_str(
        "\nTwo beds are worked by hand from closed forms in `tests/hand_checks.rs` and `tests/hand_checks_ec5.rs`, member \
         by member. Statics is held by `tests/statics_*.rs` (closed forms, \
         other libraries) and by `grillages/` beside this page: 160 random platforms solved by a finite element library, \
         reactions, moments and deflections to 1e-9 of the largest (5,000 when tried live), tables by \
         `tests/tables*.rs` (other editions and transcriptions), loads by `tests/load.rs` (conservation and brute force).\n",
    );
}

fn listing(page: &mut String, cases: &[Case]) {
    page.push_str("\n## Every case\n\n| case | clause | source | seen | answers | note |\n|---|---|---|---|---|---|\n");
    for case in cases {
        let rows = case.run();
        let met = rows.iter().filter(|r| r.fault.is_none()).count();
        let met = if met == rows.len() { met.to_string() } else { format!("**{met} of {}**", rows.len()) };
        let met = if case.differs { "differs".to_owned() } else { met };
        let seen = if case.seen == Seen::Judgement { "judgement".to_owned() } else { case.seen.to_string() };
        let _ = writeln!(page, "| {} | {} | {} | {seen} | {met} | {} |", case.id, case.clause, case.place(), case.note);
    }
}
