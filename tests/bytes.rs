//! Whatever bytes a brief is made of, it is answered: with mistakes whose places lie in the text, or with
//! a platform whose every ratio is a number. Nothing panics and nothing takes long. The same of a user's table
//! rows, lists and quantities. The targets under `tests/fuzz` search for more, guided by what they reach.
//!
//! `FUZZ_SECONDS=300 FUZZ_SEED=7 cargo test --test bytes edited` draws other inputs for longer.

#[path = "fuzz/answered.rs"]
mod answered;

use std::time::{Duration, Instant};

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use slatwright::brief::Brief;

const BRIEFS: [&str; 2] = [include_str!("../demo/two.toml"), include_str!("../demo/child.toml")];

/// Longest that one brief may take in an unoptimised build on a busy machine.
const PATIENCE: Duration = Duration::from_secs(20);

/// Reads, builds and checks in time; whether it could be checked.
fn answer(brief: &str) -> bool {
    in_time(|| answered::brief(brief, usize::MAX))
}

fn in_time<T>(answered: impl FnOnce() -> T) -> T {
    let begun = Instant::now();
    let out = answered();
    assert!(begun.elapsed() < PATIENCE, "{:?} to answer", begun.elapsed());
    out
}

/// The words, numbers, quoted texts and marks of a brief, with the spaces between them.
fn tokens(brief: &str) -> Vec<String> {
    let kind = |c: char| match c {
        _ if c.is_alphabetic() || c == '_' => 0,
        _ if c.is_ascii_digit() || c == '.' => 1,
        ' ' => 2,
        _ => 3,
    };
    let mut out: Vec<String> = Vec::new();
    let mut last = None;
    for c in brief.chars() {
        match out.last_mut() {
            Some(token) if last == Some(kind(c)) && kind(c) != 3 => token.push(c),
            _ => out.push(c.to_string()),
        }
        last = Some(kind(c));
    }
    out
}

/// What a token may be replaced by: what the grammar knows, and numbers at every edge.
#[rustfmt::skip]
const PUTS: [&str; 60] = [
    "0",
    "1",
    "2",
    "3",
    "7",
    "12",
    "40",
    "99",
    "200",
    "201",
    "1000",
    "1001",
    "0.001",
    "1e308",
    "1e-308",
    "-1",
    "-0",
    "00",
    "1/2",
    "1/0",
    "0/1",
    "½",
    "inf",
    "nan",
    "in",
    "ft",
    "mm",
    "cm",
    "m",
    "lb",
    "kg",
    "g",
    "oz",
    "psf",
    "kN/m2",
    "L/50",
    "1:6",
    "1:1000000",
    "none",
    "true",
    "false",
    "\"",
    "'",
    "{",
    "}",
    "[",
    "]",
    "[[",
    "=",
    ",",
    "\n",
    "#",
    "screws",
    "lags",
    "glue",
    "bearing",
    "end grain",
    "C24",
    "\u{202e}",
    "\u{0}",
];

#[derive(Clone, Debug)]
enum Change {
    Delete(usize),
    Twice(usize),
    Put(usize, usize),
    Swap(usize, usize),
    Number(usize, f64),
}

fn change() -> impl Strategy<Value = Change> {
    let at = || 0usize..4000;
    prop_oneof![
        1 => at().prop_map(Change::Delete),
        1 => at().prop_map(Change::Twice),
        3 => (at(), 0..PUTS.len()).prop_map(|(a, p)| Change::Put(a, p)),
        1 => (at(), at()).prop_map(|(a, b)| Change::Swap(a, b)),
        6 => (at(), prop_oneof![0.0..2.0, 0.0..30.0, 0.0..1000.0]).prop_map(|(a, v)| Change::Number(a, v)),
    ]
}

fn changed(brief: &str, changes: &[Change]) -> String {
    let mut t = tokens(brief);
    for c in changes {
        let n = t.len().max(1);
        match c {
            Change::Delete(a) if !t.is_empty() => drop(t.remove(a % n)),
            Change::Twice(a) if !t.is_empty() => t.insert(a % n, t[a % n].clone()),
            Change::Put(a, p) if !t.is_empty() => t[a % n] = PUTS[*p].to_owned(),
            Change::Swap(a, b) if !t.is_empty() => t.swap(a % n, b % n),
            // The next number from there on, so that most of these still are briefs.
            Change::Number(a, v) => {
                let number = |s: &String| s.starts_with(|c: char| c.is_ascii_digit());
                let found = (0..n).map(|k| (a + k) % n).find(|i| t.get(*i).is_some_and(number));
                if let Some(i) = found {
                    t[i] = if *v < 2.0 { format!("{v:.3}") } else { format!("{v:.0}") };
                }
            }
            _ => {}
        }
    }
    t.concat()
}

/// The same cases in every run: a failure that nobody can repeat helps nobody.
fn config(cases: u32) -> ProptestConfig {
    let mut config = Config::with_cases(cases);
    config.rng_algorithm = RngAlgorithm::ChaCha;
    config.rng_seed = proptest::test_runner::RngSeed::Fixed(20_260);
    config.failure_persistence = None;
    config.max_shrink_iters = 200;
    config
}

proptest! {
    #![proptest_config(config(400))]

    #[test]
    fn any_text_is_answered(brief in "(?s).{0,200}") {
        answer(&brief);
    }

    #[test]
    fn any_toml_marks_are_answered(brief in "[\\[\\]{}=\"'#.,a-z0-9 \n\r\t\\\\\u{feff}-]{0,200}") {
        answer(&brief);
    }

    #[test]
    fn any_known_keys_with_any_values_are_answered(
        lines in prop::collection::vec(
            (
                "(\\[|\\[\\[)?(title|units|rules|platform|length|mattress|sleeper|visitor|slats|wood|size|count|gap\
                 |cleats|screws|rails|ends|left|studs|cases|limits|knot|slope_of_grain)(\\]|\\]\\])?",
                "( = (\"[^\"\n]{0,12}\"|[0-9.]{1,6}|\\{ [a-z]{1,8} = \"2x4\" \\}|\\[[0-9, ]{0,6}\\]|true|nan))?",
            ),
            0..12,
        ),
    ) {
        let brief: String = lines.iter().map(|(k, v)| format!("{k}{v}\n")).collect();
        answer(&brief);
    }

    #[test]
    fn any_change_to_a_brief_is_answered(
        which in 0..BRIEFS.len(),
        changes in prop::collection::vec(change(), 1..5),
    ) {
        answer(&changed(BRIEFS[which], &changes));
    }
}

/// The changes above must leave some briefs that still are checked, or they would test nothing but refusals.
#[test]
fn many_changed_briefs_are_still_checked() {
    let mut checked = 0;
    for at in (0..4000).step_by(100) {
        for v in [0.75, 5.0, 20.0] {
            checked += usize::from(answer(&changed(BRIEFS[1], &[Change::Number(at, v)])));
        }
    }
    assert!(checked >= 20, "only {checked} of 120 could be checked");
}

/// The largest briefs the program reads, each made to be slow to refuse.
#[test]
fn a_large_file_is_refused_in_time() {
    let n = 1 << 20;
    for brief in [
        "a\n".repeat(n / 2),
        "]".repeat(n),
        "x = [".to_owned() + &"[".repeat(n),
        (0..n / 8).map(|i| format!("k{i:x} = 1\n")).collect(),
        "[slats]\nsize = 2\n".repeat(n / 17),
        "[[sleeper]]\nweight = 1\n".repeat(n / 24),
        "[[sleeper]]\nweight = \"10 lb\"\n".repeat(n / 30),
        format!("title = \"{}", "\\u00e9".repeat(n / 6)),
        format!("[slats]\nsize = \"{}\"\n", "2x".repeat(n / 2)),
        format!("[slats]\nwood = \"{}\"\n", "fir ".repeat(n / 4)),
        format!("[cleats]\nscrews = {{ screw = \"{}\" }}\n", "#".repeat(n)),
        format!("[platform]\nlength = \"{}\"\n", "1 in ".repeat(n / 5)),
        format!("[platform]\nlength = \"{}\"\n", "1/".repeat(n / 2)),
        format!("{} = 1\n", "slat".repeat(n / 4)),
        format!("{} = 1\n", "a.".repeat(n / 2)),
        "\r".repeat(n),
    ] {
        assert!(!answer(&brief), "{}", &brief[..brief.len().min(60)]);
    }
}

/// The files that are changed byte by byte.
fn corpus(folders: &[&str]) -> Vec<Vec<u8>> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let entries = folders.iter().flat_map(|f| std::fs::read_dir(root.join(f)).expect("a folder"));
    let mut files: Vec<_> = entries.map(|e| e.expect("a file").path()).collect();
    files.retain(|p| p.extension().is_none_or(|e| e == "toml"));
    files.sort();
    files.iter().map(|p| std::fs::read(p).expect("a file")).collect()
}

#[derive(Clone, Debug)]
enum Edit {
    Flip(usize, u8),
    Delete(usize, usize),
    Insert(usize, Vec<u8>),
    Copy(usize, usize, usize),
}

/// One of some files with a few edits.
fn edited(files: Vec<Vec<u8>>) -> impl Strategy<Value = String> {
    let at = || any::<prop::sample::Index>().prop_map(|i| i.index(1 << 16));
    let put = prop_oneof![
        prop::sample::select(&PUTS[..]).prop_map(|p| p.as_bytes().to_vec()),
        prop::collection::vec(any::<u8>(), 1..4),
    ];
    let edit = prop_oneof![
        (at(), any::<u8>()).prop_map(|(a, b)| Edit::Flip(a, b)),
        (at(), 1usize..40).prop_map(|(a, n)| Edit::Delete(a, n)),
        (at(), put).prop_map(|(a, bytes)| Edit::Insert(a, bytes)),
        (at(), 1usize..80, at()).prop_map(|(a, n, b)| Edit::Copy(a, n, b)),
    ];
    (prop::sample::select(files), prop::collection::vec(edit, 1..6)).prop_map(|(mut bytes, edits)| {
        for edit in edits {
            let n = bytes.len();
            match edit {
                Edit::Flip(a, b) if n > 0 => bytes[a % n] ^= b,
                Edit::Delete(a, count) if n > 0 => drop(bytes.drain(a % n..(a % n + count).min(n))),
                Edit::Insert(a, put) => drop(bytes.splice(a % (n + 1)..a % (n + 1), put)),
                Edit::Copy(a, count, b) if n > 0 => {
                    let copied = bytes[a % n..(a % n + count).min(n)].to_vec();
                    drop(bytes.splice(b % n..b % n, copied));
                }
                _ => {}
            }
        }
        String::from_utf8_lossy(&bytes).into_owned()
    })
}

/// Puts inputs to a target for `FUZZ_SECONDS` (one, when nobody asks for more), drawn from `FUZZ_SEED`.
fn fuzz(inputs: &impl Strategy<Value = String>, target: impl Fn(&str)) {
    let number = |name| std::env::var(name).ok().and_then(|v| v.parse::<u64>().ok());
    let mut seed = [0; 32];
    seed[..8].copy_from_slice(&number("FUZZ_SEED").unwrap_or(1).to_le_bytes());
    let mut runner = TestRunner::new_with_rng(config(1), TestRng::from_seed(RngAlgorithm::ChaCha, &seed));
    let end = Instant::now() + Duration::from_secs(number("FUZZ_SECONDS").unwrap_or(1));
    while Instant::now() < end {
        let input = inputs.new_tree(&mut runner).expect("an input").current();
        let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| target(&input)));
        assert!(outcome.is_ok(), "{outcome:?} on\n{input}\nas {input:?}");
    }
}

#[test]
fn edited_briefs_are_answered() {
    fuzz(&edited(corpus(&["tests/mistakes", "demo"])), |brief| {
        answer(brief);
    });
}

#[test]
fn edited_table_rows_are_answered() {
    fuzz(&edited(corpus(&["tables"])), |rows| in_time(|| answered::rows(rows, None)));
    let small = include_str!("fuzz/small.toml");
    fuzz(&edited(corpus(&["tests/fuzz/seeds/rows"])), |rows| in_time(|| answered::rows(rows, Some(small))));
}

#[test]
fn edited_lists_are_answered() {
    let beside = Brief::read(BRIEFS[0]);
    fuzz(&edited(corpus(&["tests/fuzz/seeds/lists", "demo"])), |list| in_time(|| answered::lists(list, &beside)));
}

#[test]
fn edited_quantities_are_answered() {
    fuzz(&edited(corpus(&["tests/fuzz/seeds/quantities"])), answered::quantity);
    fuzz(&"(?s).{0,40}", answered::quantity);
}
