//! A user's own table rows, and a small bed checked with them.

#![no_main]

mod answered;

libfuzzer_sys::fuzz_target!(|typed: &str| answered::rows(typed, Some(include_str!("small.toml"))));
