//! Grades as builders write them.

use crate::tables::names::{set, words};

pub(super) fn grade_of(text: &str) -> Vec<String> {
    grade_words(words(text))
}

/// A grade as a set of words with the trade's abbreviations written out.
pub(super) fn grade_words(words: Vec<String>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in &words {
        let full: &[&str] = match word.as_str() {
            "and" | "or" | "grade" => &[],
            "ss" => &["select", "structural"],
            "sel" => &["select"],
            "str" | "struct" | "struc" => &["structural"],
            "better" => &["btr"],
            "number" | "num" => &["no"],
            "const" | "con" => &["construction"],
            "std" | "stand" => &["standard"],
            "util" => &["utility"],
            "nondense" => &["non", "dense"],
            other => &[other],
        };
        out.extend(full.iter().map(|w| (*w).to_owned()));
    }
    if out.iter().any(|w| w.bytes().all(|b| b.is_ascii_digit())) {
        out.push("no".into());
    }
    set(out)
}
