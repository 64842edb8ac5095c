//! A brief: read, built, checked and printed.

#![no_main]

mod answered;

/// So that one brief takes milliseconds; `tests/bytes.rs` has larger ones.
const MOST_SLATS: usize = 20;

libfuzzer_sys::fuzz_target!(|typed: &str| {
    if answered::brief(typed, MOST_SLATS) {
        answered::sheet(typed, MOST_SLATS);
    }
});
